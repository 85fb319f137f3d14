"""Are all rows of a long answer read, each once, although the connection is cut?

A relay between client and service cuts the connection after so many bytes, as networks do; what is expected is the
answer that came whole.
"""

from __future__ import annotations

import asyncio
import itertools
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any
from urllib.parse import urlsplit

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AsyncClient,
    BrokenOff,
    Client,
    InvalidRequest,
    NotReached,
    NotUnderstood,
    ServiceFault,
    Unavailable,
    every_row,
    models,
)

YARD = [
    models.MatrixSource(id=entry, source=models.CatalogueSource(entry=entry))
    for entry in ("van-panel", "truck-flatbed")
]
KITS = [models.MatrixKit(id=f"kit-{n}", entry="j1-shelter-frame") for n in range(30)]
VALIDATION = models.KitValidationRequest(
    sources=YARD, kits=KITS, jobs=[models.MatrixJob(id="j")], rows=models.RowRange(begin=3, end=55)
)
COMPARISON = models.SourceComparisonRequest(
    sources=[models.ComparedSource(id=one.id, source=one.source) for one in YARD], kits=KITS[:20]
)
DAYS = models.EnergyBudgetBatchRequest(
    budget=models.EnergyBudgetRequest(
        source=models.CatalogueSource(entry="van-panel"),
        tools=[models.ToolInUse(id="saw", entry="circular-saw-185mm")],
        shift="4 h",
        draws=200,
    ),
    scenarios=[
        models.EnergyScenario(
            id=f"day-{n}", change=[models.ScenarioChange(op="add", path="/charge", value=f"{30 + n} %")]
        )
        for n in range(60)
    ],
)


class Relay:
    """Passes bytes on; the nth connection is cut after `after[n]` bytes of answer, later ones not at all."""

    def __init__(self, service: str, after: list[int]) -> None:
        at = urlsplit(service)
        self._to = (at.hostname or "", at.port or 0)
        self._after = iter(after)
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._listening.getsockname()[1]}"
        self.cuts = 0
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        self._listening.close()

    def _accept(self) -> None:
        while True:
            try:
                near, _ = self._listening.accept()
            except OSError:
                return
            threading.Thread(target=self._pass_on, args=(near, next(self._after, None)), daemon=True).start()

    def _pass_on(self, near: socket.socket, most: int | None) -> None:
        with near, socket.create_connection(self._to) as far:
            threading.Thread(target=_copied, args=(near, far), daemon=True).start()
            if _copied(far, near, most):
                self.cuts += 1
            for end in (near, far):
                with_no_fault(end.shutdown, socket.SHUT_RDWR)


def with_no_fault(act: Any, *arguments: Any) -> None:
    with suppress(OSError):
        act(*arguments)


def _copied(this: socket.socket, that: socket.socket, most: int | None = None) -> bool:
    """Whether it was cut."""
    passed = 0
    try:
        while got := this.recv(1024):
            if most is not None and passed + len(got) > most:
                that.sendall(got[: most - passed])
                return True
            that.sendall(got)
            passed += len(got)
    except OSError:
        pass
    return False


@contextmanager
def relayed(service: str, after: list[int]) -> Iterator[Relay]:
    relay = Relay(service, after)
    try:
        yield relay
    finally:
        relay.close()


def whole(client: Client, request: Any) -> list[Any]:
    match request:
        case models.KitValidationRequest():
            opened: Any = client.validate_kits_lines(request)
        case models.SourceComparisonRequest():
            opened = client.compare_sources_lines(request)
        case _:
            opened = client.budget_energy_batch(request)
    with opened as lines:
        return [line for line in lines if type(line).__name__.endswith("Row")]


@pytest.mark.parametrize("request_", [VALIDATION, COMPARISON, DAYS], ids=["validation", "comparison", "days"])
def test_rows_over_breaks_are_those_of_the_whole(client: Client, service: str, request_: Any) -> None:
    expected = whole(client, request_)
    # within the first rows, exactly nothing, within a head, and far on
    with relayed(service, [20_000, 0, 400, 9_000, 30_000]) as relay, Client(relay.address) as cut:
        told: list[tuple[int, int]] = []
        rows = every_row(cut, request_, told=lambda done, of: told.append((done, of)))
        assert list(rows) == expected
        assert relay.cuts >= 3
        assert rows.breaks >= 2
    assert (rows.done, rows.of) == (len(expected), len(expected))
    assert [done for done, _ in told] == sorted(done for done, _ in told)
    assert {of for _, of in told} == {len(expected)}
    with pytest.raises(RuntimeError, match="anew"):
        next(iter(rows))


def test_asynchronous_rows_over_breaks(client: Client, service: str) -> None:
    async def read(address: str) -> tuple[list[Any], int]:
        async with AsyncClient(address) as opened:
            rows = every_row(opened, VALIDATION)
            return [row async for row in rows], rows.breaks

    with relayed(service, [20_000, 0, 400, 9_000]) as relay:
        got, breaks = asyncio.run(read(relay.address))
    assert got == whole(client, VALIDATION)
    assert breaks >= 2


def test_a_request_that_is_refused_is_refused_at_once(client: Client) -> None:
    empty = msgspec.structs.replace(VALIDATION, kits=[])
    with pytest.raises(InvalidRequest) as refused:
        list(every_row(client, empty))
    assert refused.value.pointers == ["/kits"]
    nobody: Any = models.LoadCheckRequest(source=models.Vehicle(voltage="120 V"))
    with pytest.raises(TypeError, match="KitValidationRequest"):
        every_row(client, nobody)
    with pytest.raises(ValueError, match="at least 1"):
        every_row(client, VALIDATION, tries=0)


# --- a service that misbehaves: injected, because a healthy one does not on demand -----------------------------------

HEAD = {"kind": "head", "rows_in_all": 3, "begin": 0, "end": 3, "notice": "", "request_digest": ""}
END = {
    "kind": "end",
    "rows": 3,
    "next_index": 3,
    "computed": 1,
    "counts": {"passing": 3, "marginal": 0, "unknown": 0, "failing": 0, "without_answer": 0},
}


def row(place: int) -> dict[str, Any]:
    return {"kind": "row", "index": place, "id": f"j/k{place}/s", "job": "j", "kit": f"k{place}", "source": "s"}


def lines(*parts: dict[str, Any], engine: str = "1", release: int = 7) -> httpx2.Response:
    told = [one | {"engine_version": engine, "catalogue_release": release} if one is HEAD else one for one in parts]
    content = b"".join(msgspec.json.encode(one) + b"\n" for one in told)
    return httpx2.Response(200, content=content, headers={"Content-Type": "application/x-ndjson"})


BARE = models.KitValidationRequest(sources=YARD[:1], kits=KITS[:3])


def asked(*outcomes: httpx2.Response | Exception, tries: int = 5, request: Any = BARE) -> tuple[Any, list[Any]]:
    sent: list[Any] = []
    following = itertools.chain(outcomes, itertools.repeat(outcomes[-1]))

    def handler(request: httpx2.Request) -> httpx2.Response:
        sent.append(msgspec.json.decode(request.content))
        outcome = next(following)
        if isinstance(outcome, Exception):
            raise outcome
        return httpx2.Response(outcome.status_code, headers=outcome.headers, content=outcome.content)

    client = Client("http://service.test", http=httpx2.Client(transport=httpx2.MockTransport(handler)), retries=0)
    return every_row(client, request, tries=tries), sent


@pytest.fixture
def slept(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    waits: list[float] = []
    monkeypatch.setattr("ampwright_client.resuming.time.sleep", waits.append)
    return waits


def test_the_rest_rests_on_the_same_release(slept: list[float]) -> None:
    rows, sent = asked(lines(HEAD, row(0)), lines(HEAD, row(1), row(2), END))
    assert [one.index for one in rows] == [0, 1, 2]
    assert "rows" not in sent[0]
    assert sent[1] == sent[0] | {"rows": {"begin": 1}, "catalogue_release": 7}
    assert len(slept) == 1


def test_days_rest_on_the_same_release_where_it_moved_on(slept: list[float]) -> None:
    head = {"kind": "head", "rows_in_all": 3, "notice": "", "engine_version": "1", "request_digest": ""}

    def day(place: int, release: int) -> dict[str, Any]:
        return {"kind": "row", "index": place, "scenario": f"day-{place}", "catalogue_release": release}

    three = msgspec.structs.replace(DAYS, scenarios=DAYS.scenarios[:3])
    end = {"kind": "end", "rows": 2, "without_answer": 0}
    rows, sent = asked(
        lines(head, day(0, 7)), lines(head, day(0, 8)), lines(head, day(0, 7), day(1, 7), end), request=three
    )
    assert [(one.index, one.catalogue_release) for one in rows] == [(0, 7), (1, 7), (2, 7)]
    assert [one["budget"].get("catalogue_release") for one in sent] == [None, None, 7]
    assert [len(one["scenarios"]) for one in sent] == [3, 2, 2]


def test_nothing_is_asked_for_after_the_last_row(slept: list[float]) -> None:
    rows, sent = asked(lines(HEAD, row(0), row(1), row(2)))
    assert len(list(rows)) == 3
    assert len(sent) == 1


def test_tries_without_a_new_row_end(slept: list[float]) -> None:
    rows, sent = asked(lines(HEAD, row(0)), lines(HEAD), tries=4)
    with pytest.raises(BrokenOff):
        list(rows)
    assert rows.done == 1
    assert len(sent) == 1 + 3
    assert sum(slept) < 20


def test_a_service_that_is_never_reached_is_told_by_its_own_tries(slept: list[float]) -> None:
    rows, sent = asked(httpx2.ConnectError("refused"))
    with pytest.raises(NotReached):
        list(rows)
    assert len(sent) == 1


def busy(seconds: int) -> httpx2.Response:
    problem = models.Problem(type="/problems/not-ready", title="Not ready", status=503)
    headers = {"Content-Type": "application/problem+json", "Retry-After": str(seconds)}
    return httpx2.Response(503, content=msgspec.json.encode(problem), headers=headers)


def test_a_service_that_starts_again_is_waited_for(slept: list[float]) -> None:
    rows, _ = asked(lines(HEAD, row(0)), httpx2.ConnectError("refused"), busy(9), lines(HEAD, row(1), row(2), END))
    assert len(list(rows)) == 3
    assert slept[-1] >= 9.0
    rows, _ = asked(lines(HEAD, row(0)), busy(3600))
    with pytest.raises(Unavailable):
        list(rows)


@pytest.mark.parametrize("status", [502, 504])
def test_a_gateway_before_a_service_that_starts_again_is_waited_for(slept: list[float], status: int) -> None:
    """RFC 9110, 15.6.3 and 15.6.5: a gateway answers so for a service that it does not reach."""
    gateway = httpx2.Response(status, content=b"<html>", headers={"Content-Type": "text/html"})
    rows, sent = asked(lines(HEAD, row(0)), gateway, lines(HEAD, row(1), row(2), END))
    assert [one.index for one in rows] == [0, 1, 2]
    assert (len(sent), len(slept)) == (3, 2)


def test_a_service_that_fails_is_not_asked_again(slept: list[float]) -> None:
    rows, sent = asked(lines(HEAD, row(0)), httpx2.Response(500, content=b"", headers={}))
    with pytest.raises(ServiceFault):
        list(rows)
    assert len(sent) == 2


def test_rows_of_two_engines_are_not_mixed(slept: list[float]) -> None:
    rows, sent = asked(lines(HEAD, row(0)), lines(HEAD, row(1), row(2), END, engine="2"))
    with pytest.raises(BrokenOff, match="engine 1 to 2 after 1 rows"):
        list(rows)
    assert len(sent) == 2


@pytest.mark.parametrize(
    "wrong",
    [[HEAD, row(0), row(2)], [HEAD, row(0), row(0)], [HEAD, row(1)], [HEAD, row(0), END]],
    ids=["gap", "double", "not_the_first", "ended_early"],
)
def test_rows_that_do_not_follow_are_told(slept: list[float], wrong: list[Any]) -> None:
    rows, _ = asked(lines(*wrong))
    with pytest.raises(NotUnderstood):
        list(rows)
