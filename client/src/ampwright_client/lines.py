"""How are the rows of a long answer read while the service still makes them?

A stream is one JSON object a line, and its last line has the kind `end`: a stream without it was cut off, even where
the connection closed in order. A reader that leaves early closes the stream, and the service stops working on it.
"""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from types import TracebackType
from typing import Any, Generic, Self, TypeVar

import httpx2
import msgspec

from ampwright_client.errors import BrokenOff, NotUnderstood
from ampwright_client.exchange import Arrived
from ampwright_client.failures import failure

__all__ = ["AsyncLines", "Lines"]

T = TypeVar("T")


class _Kind(msgspec.Struct):
    kind: str = ""


class _Reading(Generic[T]):
    """What both readers know. `read` : how many lines have been handed out."""

    def __init__(self, row: Any, arrived: Arrived) -> None:
        self._decoder = msgspec.json.Decoder[T](row)
        self._kind = msgspec.json.Decoder(_Kind)
        self._arrived = arrived
        self._rest = b""
        self.request_id = arrived.request_id
        self.read = 0
        self.ended = False

    def split(self, chunk: bytes) -> list[bytes]:
        """The lines that this chunk completes. Only a line feed ends one: JSON's strings may hold U+2028 and U+0085."""
        *whole, self._rest = (self._rest + chunk).split(b"\n")
        return [line for line in whole if line.strip()]

    def last(self) -> list[bytes]:
        """What stands behind the last line feed, where it is whole: half a line says that the stream was cut off."""
        rest, self._rest = self._rest, b""
        try:
            msgspec.json.decode(rest)
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
            return []
        return [rest]

    def take(self, line: bytes) -> T:
        try:
            self.ended = self._kind.decode(line).kind == "end"
            row: T = self._decoder.decode(line)
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
            raise NotUnderstood(
                f"line {self.read + 1} cannot be read: {error}",
                request_id=self.request_id,
                status=self._arrived.status,
                body=line,
            ) from error
        self.read += 1
        return row

    def check_end(self) -> None:
        if not self.ended:
            raise BrokenOff(f"the stream stopped after {self.read} lines", request_id=self.request_id, sent=True)


class Lines(Generic[T]):
    """Rows of a stream that is open; iterate once, inside ``with``."""

    def __init__(self, row: Any, arrived: Arrived) -> None:
        self._reading = _Reading[T](row, arrived)
        self._response: httpx2.Response = arrived.stream

    @property
    def lines_read(self) -> int:
        """How many lines have been handed out: where to go on after a break."""
        return self._reading.read

    @property
    def request_id(self) -> str:
        """Under which the service has this stream in its log."""
        return self._reading.request_id

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Stop reading; the service sees it."""
        self._response.close()

    def __iter__(self) -> Iterator[T]:
        try:
            for chunk in self._response.iter_bytes():
                for line in self._reading.split(chunk):
                    yield self._reading.take(line)
            for line in self._reading.last():
                yield self._reading.take(line)
        except (httpx2.HTTPError, httpx2.StreamError) as error:
            raise failure(error).error(self._reading.request_id) from error
        finally:
            self.close()
        self._reading.check_end()


class AsyncLines(Generic[T]):
    """Rows of a stream that is opened by ``async with``; iterate once, inside it."""

    def __init__(self, row: Any, opened: Callable[[], Awaitable[Arrived]]) -> None:
        self._row = row
        self._opened = opened
        self._reading: _Reading[T] | None = None
        self._response: httpx2.Response | None = None

    @property
    def lines_read(self) -> int:
        """How many lines have been handed out: where to go on after a break."""
        return 0 if self._reading is None else self._reading.read

    @property
    def request_id(self) -> str:
        """Under which the service has this stream in its log; empty before it is open."""
        return "" if self._reading is None else self._reading.request_id

    async def __aenter__(self) -> Self:
        arrived = await self._opened()
        self._reading, self._response = _Reading[T](self._row, arrived), arrived.stream
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self.close()

    async def close(self) -> None:
        """Stop reading; the service sees it."""
        if self._response is not None:
            await self._response.aclose()

    async def __aiter__(self) -> AsyncIterator[T]:
        if self._reading is None or self._response is None:
            raise RuntimeError("open the stream with `async with` first")
        try:
            async for chunk in self._response.aiter_bytes():
                for line in self._reading.split(chunk):
                    yield self._reading.take(line)
            for line in self._reading.last():
                yield self._reading.take(line)
        except (httpx2.HTTPError, httpx2.StreamError) as error:
            raise failure(error).error(self._reading.request_id) from error
        finally:
            await self.close()
        self._reading.check_end()
