"""How does a long answer leave the service while it is still being made?

One JSON object a line (NDJSON), of four kinds: `head` first, rows, `progress` where rows take long, and `end` last with
their number: a stream without it was cut off, however the connection closed. Lines are gathered into chunks of about
64 kB. The next chunk is made in the lane only when the one before has been handed to the connection, so a reader that
stalls stops the work, and one that leaves ends it. Between chunks the lane is free for others.

The first chunk is made before the status is sent: whatever is wrong with the request is a problem, not a broken stream.
"""

from __future__ import annotations

import logging
import time
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from typing import Any

import msgspec
from msgspec import Struct

from ampwright.api.admission import CancelFlag, LaneName
from ampwright.api.negotiation import LINES
from ampwright.api.operations import Call, Reply

CHUNK_BYTES = 64 * 1024
# Proxies give up on a connection that says nothing for a minute or so; a chunk leaves well before.
CHUNK_S = 5.0
# A proxy that buffers would let the service run ahead of its reader without a bound.
HEADERS: Mapping[str, str] = {"X-Accel-Buffering": "no", "Cache-Control": "no-store"}

__all__ = ["LINES", "LineChunks", "streamed"]

_log = logging.getLogger("ampwright.ndjson")


class LineChunks:
    """Lines encoded and gathered; bytes are sent as they are.

    `progress` makes the line for a chunk that time, and not size, has ended.
    """

    def __init__(
        self,
        lines: Iterator[Struct | bytes],
        cancel: CancelFlag,
        progress: Callable[[], Struct] | None = None,
        *,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._lines = lines
        self._cancel = cancel
        self._progress = progress
        self._clock = clock
        self._encoder = msgspec.json.Encoder()

    def next_chunk(self) -> bytes:
        """The next lines; empty at the end. Raises CancelledWorkError where nobody reads any more."""
        chunk = bytearray()
        ends_at = self._clock() + CHUNK_S
        for line in self._lines:
            self._cancel.check()
            chunk += line if isinstance(line, bytes) else self._encoder.encode(line) + b"\n"
            if len(chunk) >= CHUNK_BYTES:
                return bytes(chunk)
            if self._clock() >= ends_at:
                if self._progress is not None:
                    chunk += self._encoder.encode(self._progress())
                    chunk += b"\n"
                return bytes(chunk)
        return bytes(chunk)


async def streamed(
    call: Call,
    lane: LaneName,
    make: Callable[[], Iterator[Struct | bytes]],
    progress: Callable[[], Struct] | None = None,
    headers: Mapping[str, str] | None = None,
    media_type: str = LINES,
) -> Reply[Any]:
    """A reply of the lines that `make()` gives, each chunk made in the lane.

    media_type : another one than that of lines for bytes that are none, such as rows of CSV.
    Errors: whatever `make` or the lines of the first chunk raise. What goes wrong later ends the stream without `end`.
    """

    def begin() -> tuple[LineChunks, bytes]:
        chunks = LineChunks(make(), call.cancel, progress)
        return chunks, chunks.next_chunk()

    chunks, first = await call.run(lane, begin)

    async def sent() -> AsyncIterator[bytes]:
        chunk = first
        try:
            while chunk:
                yield chunk
                chunk = await call.services.lanes[lane].run(chunks.next_chunk, cancel=call.cancel, let_in=True)
        except GeneratorExit:
            raise
        except Exception as error:
            # The status has been sent; a stream that ends without its last line says that it was cut off.
            _log.error("a stream was broken off", exc_info=error)
            raise
        finally:
            call.cancel.set()

    return Reply(sent(), headers={**HEADERS, **(headers or {})}, media_type=media_type)
