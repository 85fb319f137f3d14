"""Is every row read once, although the service itself was killed in the middle of its stream?

A process that gets SIGKILL says nothing more: no last line, no closing in order. The service that is started again in
its place knows nothing of what was sent.
"""

from __future__ import annotations

import itertools
import signal
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from ampwright_client import BrokenOff, Client, NoAnswer, every_row, models
from client.running import filled_catalogue, free_port, started

DEADLINE_S = 240.0
DAYS = models.EnergyBudgetBatchRequest(
    budget=models.EnergyBudgetRequest(
        source=models.CatalogueSource(entry="van-panel"),
        tools=[models.ToolInUse(id="saw", entry="circular-saw-185mm")],
        shift="4 h",
        draws=2000,
    ),
    scenarios=[
        models.EnergyScenario(
            id=f"day-{n}", change=[models.ScenarioChange(op="add", path="/charge", value=f"{20 + n / 10} %")]
        )
        for n in range(800)
    ],
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("killed")
    with filled_catalogue(made):
        pass
    return made


@pytest.fixture
def service(folder: Path) -> Iterator[Service]:
    with ExitStack() as stack:
        yield Service(folder, stack)


class Service:
    """A service that can be killed and started again where it was."""

    def __init__(self, folder: Path, stack: ExitStack) -> None:
        self._folder, self._stack, self._port = folder, stack, free_port()
        self.address = f"http://127.0.0.1:{self._port}"
        self.process = self.start()

    def start(self) -> subprocess.Popen[bytes]:
        self.process = self._stack.enter_context(started(self._folder, self._port))
        return self.process

    def kill(self) -> None:
        self.process.send_signal(signal.SIGKILL)
        assert self.process.wait(30) == -signal.SIGKILL


def test_a_stream_of_a_killed_service_has_no_end(service: Service) -> None:
    """Rows that came are good; that there are more is told by an error, never by silence."""
    with Client(service.address, retries=0) as client, client.budget_energy_batch(DAYS) as lines:
        rows = iter(lines)
        read: list[Any] = list(itertools.islice(rows, 20))
        service.kill()
        with pytest.raises(BrokenOff):
            read.extend(rows)
        assert 20 <= len(read) < len(DAYS.scenarios)
        assert not any(isinstance(line, models.EnergyBatchEnd) for line in read)
        with pytest.raises(NoAnswer):
            client.list_kits()


def test_every_row_comes_once_over_a_killed_service(service: Service) -> None:
    with Client(service.address) as client:
        with client.budget_energy_batch(DAYS) as whole:
            expected = [line for line in whole if isinstance(line, models.EnergyBatchRow)]
        assert [row.index for row in expected] == list(range(len(DAYS.scenarios)))

        started_at = time.monotonic()
        rows = every_row(client, DAYS, tries=100)
        got: list[models.EnergyBatchRow] = []
        again = threading.Thread(target=service.start)
        for row in rows:
            got.append(row)
            if len(got) == 20:
                service.kill()
                again.start()
            assert time.monotonic() - started_at < DEADLINE_S
        again.join(DEADLINE_S)
    assert got == expected
    assert rows.breaks >= 1
