"""How does the client send and wait, for a caller that waits for it?"""

from __future__ import annotations

import time
from types import TracebackType
from typing import Any, Self, TypeVar

import httpx2

from ampwright_client.address import key_of, url_of
from ampwright_client.calls import Call, CallOptions
from ampwright_client.exchange import Arrived, Failed, Manner, Pause, Send, Step, exchange, understood
from ampwright_client.failures import failure
from ampwright_client.kept import Kept
from ampwright_client.lines import Lines

__all__ = ["Transport"]

T = TypeVar("T")


class Transport:
    """Connection to a service; a context manager, and safe to share between threads.

    url : of the service; left out: AMPWRIGHT_CLIENT_URL, or http://127.0.0.1:8712;
    key : access key `ampw_...`; left out: AMPWRIGHT_CLIENT_KEY, or none;
    timeout_s : longest silence of the service; connect_timeout_s : longest wait for a connection;
    retries : how often a call that changes nothing is sent again; patience_s : longest time spent waiting for that;
    http : an HTTP client of your own, for proxies and certificates; it is not closed here.
    """

    def __init__(
        self,
        url: str | None = None,
        *,
        key: str | None = None,
        timeout_s: float = 30.0,
        connect_timeout_s: float = 5.0,
        retries: int = 3,
        patience_s: float = 20.0,
        http: httpx2.Client | None = None,
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
        self._http = httpx2.Client() if http is None else http

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.url!r})"

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the connections."""
        if self._owns:
            self._http.close()

    def _answer(self, call: Call[T], options: CallOptions | None) -> T:
        return understood(call, self._drive(exchange(call, options, self._manner, self._kept)))

    def _lines(self, call: Call[T], options: CallOptions | None) -> Lines[T]:
        arrived = self._drive(exchange(call, options, self._manner, self._kept, stream=True))
        return Lines(call.answer, arrived)

    def _drive(self, steps: Step) -> Arrived:
        step = next(steps)
        while True:
            outcome = None
            if isinstance(step, Pause):
                time.sleep(step.seconds)
            else:
                outcome = self._send(step)
            try:
                step = steps.send(outcome)
            except StopIteration as done:
                arrived: Arrived = done.value
                return arrived

    def _send(self, send: Send) -> Arrived | Failed:
        timeout = httpx2.Timeout(send.timeout_s, connect=self._manner.connect_timeout_s)
        try:
            request = self._http.build_request(
                send.method, self.url + send.target, headers=send.headers, content=send.content, timeout=timeout
            )
            # A redirect is not followed: neither key nor body goes to an address that nobody chose.
            response = self._http.send(request, stream=True, follow_redirects=False)
        except (httpx2.HTTPError, httpx2.InvalidURL) as error:
            return failure(error, self.url)
        headers: dict[str, Any] = {name.lower(): value for name, value in response.headers.items()}
        if send.stream and response.is_success:
            return Arrived(response.status_code, headers, b"", stream=response)
        try:
            return Arrived(response.status_code, headers, response.read())
        except (httpx2.HTTPError, httpx2.StreamError) as error:
            return failure(error)
        finally:
            response.close()
