"""Does the client read a stream of rows to its end, or say that it broke?"""

from __future__ import annotations

import asyncio
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AsyncLines,
    BrokenOff,
    NotUnderstood,
    Unavailable,
)
from ampwright_client.calls import Call
from client.scripted import Breaking, Handler, Script, Whole, async_client_of, busy, client_of

# --- streams: no operation of the service has one yet ----------------------------------------------------------------


class Numbered(msgspec.Struct):
    kind: str
    n: int = 0


STREAM = Call[Numbered]("POST", "/v1/rows", Numbered, accept="application/x-ndjson", safe=True)
ROWS = b'{"kind":"row","n":1}\n{"kind":"row","n":2}\n'
END = b'{"kind":"end","n":2}\n'


def stream_of(*parts: bytes, fails: bool = False) -> tuple[Handler, Whole | Breaking]:
    body: Whole | Breaking = Breaking(*parts) if fails else Whole(*parts)
    return lambda _: httpx2.Response(200, stream=body, headers={"Content-Type": "application/x-ndjson"}), body


def test_rows_of_a_stream() -> None:
    handler, body = stream_of(ROWS[:7], ROWS[7:], END)
    with client_of(handler)._lines(STREAM, None) as lines:
        assert [row.n for row in lines] == [1, 2, 2]
        assert lines.lines_read == 3
    assert body.closed


def test_only_a_line_feed_ends_a_line() -> None:
    """RFC 8259, 7: a string may hold all but the controls below U+0020, so also what Unicode breaks lines at."""
    odd = "a\u2028b\u2029c\x85d"
    handler, _ = stream_of(f'{{"kind":"{odd}"}}\r\n'.encode(), b"\n", END[:9], END[9:].rstrip())
    with client_of(handler)._lines(STREAM, None) as lines:
        assert [row.kind for row in lines] == [odd, "end"]


def test_half_a_line_is_a_break() -> None:
    """A gateway that speaks HTTP/1.0 closes in order whatever broke behind it."""
    handler, _ = stream_of(ROWS, END[:9])
    with client_of(handler)._lines(STREAM, None) as lines, pytest.raises(BrokenOff):
        list(lines)


@pytest.mark.parametrize("fails", [True, False])
def test_a_stream_without_its_end(fails: bool) -> None:
    """A stopped service closes in order: only the missing last line tells."""
    handler, body = stream_of(ROWS, fails=fails)
    with client_of(handler)._lines(STREAM, None) as lines:
        rows = iter(lines)
        assert [next(rows).n, next(rows).n] == [1, 2]
        with pytest.raises(BrokenOff):
            next(rows)
        assert lines.lines_read == 2
    assert body.closed


def test_a_reader_that_leaves() -> None:
    handler, body = stream_of(ROWS, END)
    with client_of(handler)._lines(STREAM, None) as lines:
        rows = iter(lines)
        assert next(rows).n == 1
        assert not body.closed
    assert body.closed


def test_a_stream_is_opened_eagerly_and_refused_with_its_problem(slept: list[float]) -> None:
    script = Script(busy())
    with pytest.raises(Unavailable) as refused:
        client_of(script, retries=1)._lines(STREAM, None)
    assert refused.value.code == "overloaded"
    assert len(script.requests) == 2
    handler, _ = stream_of(b"{broken\n")
    with client_of(handler)._lines(STREAM, None) as lines, pytest.raises(NotUnderstood, match="line 1"):
        list(lines)


class AsyncWhole(httpx2.AsyncByteStream):
    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    async def __aiter__(self) -> Any:
        for part in self.parts:
            yield part

    async def aclose(self) -> None:
        self.closed = True


def test_asynchronous_streams() -> None:
    async def read(*parts: bytes) -> tuple[list[int], bool]:
        body = AsyncWhole(*parts)
        rows: list[int] = []
        lines: AsyncLines[Numbered] = async_client_of(
            lambda _: httpx2.Response(200, stream=body, headers={"Content-Type": "application/x-ndjson"})
        )._lines(STREAM, None)
        async with lines as opened:
            async for row in opened:
                rows.append(row.n)
        return rows, body.closed

    assert asyncio.run(read(ROWS, END)) == ([1, 2, 2], True)
    with pytest.raises(BrokenOff):
        asyncio.run(read(ROWS))
