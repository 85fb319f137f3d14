"""How does the client send and wait, for a caller on the event loop of asyncio?"""

from __future__ import annotations

from types import TracebackType
from typing import Any, Self, TypeVar

import httpx2

from ampwright_client.address import key_of, url_of
from ampwright_client.calls import Call, CallOptions
from ampwright_client.exchange import Arrived, Failed, Manner, Pause, Send, Step, exchange, understood
from ampwright_client.failures import failure
from ampwright_client.kept import Kept
from ampwright_client.lines import AsyncLines

__all__ = ["AsyncTransport"]

T = TypeVar("T")


class AsyncTransport:
    """Connection to a service; an asynchronous context manager. Arguments as those of the client that waits."""

    def __init__(
        self,
        url: str | None = None,
        *,
        key: str | None = None,
        timeout_s: float = 30.0,
        connect_timeout_s: float = 5.0,
        retries: int = 3,
        patience_s: float = 20.0,
        http: httpx2.AsyncClient | None = None,
    ) -> None:
        self.url = url_of(url)
        self._manner = Manner(
            key=key_of(key),
            timeout_s=timeout_s,
            connect_timeout_s=connect_timeout_s,
            retries=retries,
            patience_s=patience_s,
        )
        self._kept = Kept()
        self._owns = http is None
        self._http = httpx2.AsyncClient() if http is None else http

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.url!r})"

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self.close()

    async def close(self) -> None:
        """Close the connections."""
        if self._owns:
            await self._http.aclose()

    async def _answer(self, call: Call[T], options: CallOptions | None) -> T:
        return understood(call, await self._drive(exchange(call, options, self._manner, self._kept)))

    def _lines(self, call: Call[T], options: CallOptions | None) -> AsyncLines[T]:
        return AsyncLines(
            call.answer, lambda: self._drive(exchange(call, options, self._manner, self._kept, stream=True))
        )

    async def _drive(self, steps: Step) -> Arrived:
        import asyncio  # a caller on the loop has it, the others need not pay for it

        step = next(steps)
        while True:
            outcome = None
            if isinstance(step, Pause):
                await asyncio.sleep(step.seconds)
            else:
                outcome = await self._send(step)
            try:
                step = steps.send(outcome)
            except StopIteration as done:
                arrived: Arrived = done.value
                return arrived

    async def _send(self, send: Send) -> Arrived | Failed:
        timeout = httpx2.Timeout(send.timeout_s, connect=self._manner.connect_timeout_s)
        try:
            request = self._http.build_request(
                send.method, self.url + send.target, headers=send.headers, content=send.content, timeout=timeout
            )
            # A redirect is not followed: neither key nor body goes to an address that nobody chose.
            response = await self._http.send(request, stream=True, follow_redirects=False)
        except (httpx2.HTTPError, httpx2.InvalidURL) as error:
            return failure(error, self.url)
        headers: dict[str, Any] = {name.lower(): value for name, value in response.headers.items()}
        if send.stream and response.is_success:
            return Arrived(response.status_code, headers, b"", stream=response)
        try:
            return Arrived(response.status_code, headers, await response.aread())
        except (httpx2.HTTPError, httpx2.StreamError) as error:
            return failure(error)
        finally:
            await response.aclose()
