"""Does a long answer leave line by line, only as fast as it is read, and is a broken one told from a whole one?"""

from __future__ import annotations

import time
from collections.abc import Iterator

import httpx
import msgspec
import pytest
from ampwright.api.admission import CancelFlag, CancelledWorkError
from ampwright.api.ndjson import CHUNK_BYTES, LineChunks
from api.conftest import RunningServer
from api.trial_resource import CountedLine, LastLine, assert_problem, made_lines
from msgspec import Struct


def rows(count: int) -> Iterator[Struct]:
    for place in range(count):
        yield CountedLine(place=place)
    yield LastLine(rows=count)


def test_lines_are_whole_and_the_last_one_says_how_many(http: httpx.Client) -> None:
    with http.stream("POST", "/v1/trial-lines", json={"rows": 500}, headers={"Accept-Encoding": "gzip"}) as answer:
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "application/x-ndjson"
        assert answer.headers["x-accel-buffering"] == "no"
        assert "content-encoding" not in answer.headers
        lines = [msgspec.json.decode(line) for line in answer.iter_lines()]
    assert [line["place"] for line in lines[:-1]] == list(range(500))
    assert lines[-1] == {"kind": "end", "rows": 500}


def test_what_is_wrong_with_the_request_is_a_problem_and_no_stream(http: httpx.Client) -> None:
    assert_problem(http.post("/v1/trial-lines", json={"rows": 5, "fails_at": 2}), 422, "too-much-work")
    assert_problem(http.post("/v1/trial-lines", json={"rows": -5}), 422, "invalid-request")


def test_what_goes_wrong_later_ends_the_stream_without_its_last_line(http: httpx.Client) -> None:
    received: list[str] = []
    with (
        pytest.raises(httpx.RemoteProtocolError),
        http.stream("POST", "/v1/trial-lines", json={"rows": 500, "fails_at": 300}) as answer,
    ):
        received += answer.iter_lines()
    assert len(received) < 500
    assert not any('"end"' in line for line in received)


def test_a_reader_that_stalls_or_leaves_stops_the_work(server: RunningServer) -> None:
    """A million rows of a kB: no more are made than the connection's buffers and two chunks hold."""
    with (
        httpx.Client(base_url=server.address, trust_env=False, timeout=20) as client,
        client.stream("POST", "/v1/trial-lines", json={"rows": 1_000_000}) as answer,
    ):
        next(answer.iter_lines())
        made = -1
        while made != len(made_lines):
            made = len(made_lines)
            time.sleep(0.3)
        assert made < 20_000
    time.sleep(0.3)
    assert len(made_lines) <= made + 2 * CHUNK_BYTES // 1000
    # and the lane is free for the next one
    with httpx.Client(base_url=server.address, trust_env=False, timeout=20) as client:
        assert client.post("/v1/trial-lines", json={"rows": 3}).text.count("\n") == 4


def test_chunks_are_of_one_size_and_slow_rows_report_progress() -> None:
    chunks = LineChunks(rows(200), CancelFlag())
    sizes = []
    while chunk := chunks.next_chunk():
        assert chunk.endswith(b"\n")
        sizes.append(len(chunk))
    assert all(CHUNK_BYTES <= size < CHUNK_BYTES + 2000 for size in sizes[:-1])
    ticks = iter(range(0, 10_000, 6))  # a clock on which each look takes six seconds
    slow = LineChunks(rows(5), CancelFlag(), lambda: LastLine(rows=-1), clock=lambda: float(next(ticks)))
    assert slow.next_chunk().count(b"\n") == 2


def test_nothing_is_made_for_a_reader_that_has_left() -> None:
    flag = CancelFlag()
    chunks = LineChunks(rows(5), flag)
    flag.set()
    with pytest.raises(CancelledWorkError):
        chunks.next_chunk()
