"""Does the bench measure what it says, and refuse what it does not know? No time is tested."""

from __future__ import annotations

import asyncio
from pathlib import Path

import msgspec
import numpy as np
import pytest
from ampwright.bench.choosing_rows import matrix
from ampwright.bench.engine_rows import networks
from ampwright.bench.measured import Row, process_s, told
from ampwright.bench.run import GROUPS
from ampwright.bench.service_rows import echo
from ampwright.bench.sites import request, site
from ampwright.cli import main
from ampwright.contract.kit_validations import KitValidationRequest
from ampwright.engine.physics.network_flow import SOLVED, solve_networks
from ampwright.studies.kit_validation import KitValidation
from msgspec import UNSET


def test_unknown_rows_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bench", "everything"]) == 2
    assert "everything is none of networks" in capsys.readouterr().err


def test_the_networks_are_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bench", "--quick", "networks"]) == 0
    assert "us/case" in capsys.readouterr().out


def test_a_folder_without_stored_answers_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["bench", "reference", "--stored", str(tmp_path)]) == 0
    assert "not in this folder" in capsys.readouterr().out


def test_every_group_can_be_found() -> None:
    for module, function in GROUPS.values():
        assert callable(getattr(__import__(f"ampwright.bench.{module}", fromlist=[function]), function))


def test_the_networks_that_are_timed_work() -> None:
    assert (solve_networks(networks(50, np.random.default_rng(1))).outcome == SOLVED).all()


@pytest.mark.parametrize("cords", [False, True])
def test_the_sites_that_are_timed_are_sound_and_no_two_alike(cords: bool) -> None:
    made = [site(request(tools, cases="asked", cords=cords, number=n)) for tools in (2, 8, 16) for n in range(3)]
    assert len({repr(each) for each in made}) == len(made)


@pytest.mark.parametrize("day", [False, True])
def test_the_matrices_that_are_timed_have_no_two_cells_alike(day: bool) -> None:
    made = KitValidation(None, msgspec.convert(matrix(3, 2, 4, day=day), KitValidationRequest))
    rows = [row for row in made.made() if row is not None]
    assert (len(rows), made.cells.computed) == (6, 6)
    assert [row.errors for row in rows] == [[]] * 6
    assert all((row.energy_budget is not UNSET) == day for row in rows)


def test_the_echo_gives_back_what_it_was_sent() -> None:
    sent: list[dict[str, object]] = []
    parts = iter([{"body": b"one ", "more_body": True}, {"body": b"two", "more_body": False}])

    async def receive() -> dict[str, object]:
        return next(parts)

    async def send(message: dict[str, object]) -> None:
        sent.append(message)

    asyncio.run(echo({"type": "http"}, receive, send))
    assert sent[-1]["body"] == b"one two"


def test_rows_are_told_in_columns() -> None:
    assert told("A", [Row("b", 1234.5, "x", "c")]).splitlines()[1].split() == ["b", "1234", "x", "c"]


def test_a_process_that_is_not_there_has_no_time() -> None:
    assert np.isnan(process_s(2**30))
