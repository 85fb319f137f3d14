"""How does a test make the client meet an answer that a healthy service does not give?"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from typing import Any

import httpx2
import msgspec
from ampwright_client import (
    AsyncClient,
    Client,
    load_check,
    models,
    tool,
    vehicle,
)

REQUEST = load_check(vehicle("120 V"), tool("saw", load_class="circular_saw"))
PAGE = b'{"items": []}'
OK = httpx2.Response(200, content=PAGE, headers={"Content-Type": "application/json"})
Handler = Callable[[httpx2.Request], httpx2.Response]


def busy(**headers: str) -> httpx2.Response:
    problem = models.Problem(type="/problems/overloaded", title="Busy", status=503)
    return httpx2.Response(
        503,
        content=msgspec.json.encode(problem),
        headers={"Content-Type": "application/problem+json", "X-Request-Id": "of-the-service", **headers},
    )


def fresh(response: httpx2.Response) -> httpx2.Response:
    return httpx2.Response(response.status_code, headers=response.headers, content=response.content)


class Script:
    """Answers one after the other; the last one again and again."""

    def __init__(self, *outcomes: httpx2.Response | Exception) -> None:
        self._outcomes = itertools.chain(outcomes, itertools.repeat(outcomes[-1]))
        self.requests: list[httpx2.Request] = []

    def __call__(self, request: httpx2.Request) -> httpx2.Response:
        self.requests.append(request)
        outcome = next(self._outcomes)
        if isinstance(outcome, Exception):
            raise outcome
        return fresh(outcome)


def client_of(handler: Handler, **manner: Any) -> Client:
    return Client("http://service.test", http=httpx2.Client(transport=httpx2.MockTransport(handler)), **manner)


class Breaking(httpx2.SyncByteStream):
    """A body that breaks off."""

    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    def __iter__(self) -> Iterator[bytes]:
        yield from self.parts
        raise httpx2.ReadError("reset")

    def close(self) -> None:
        self.closed = True


class Whole(httpx2.SyncByteStream):
    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    def __iter__(self) -> Iterator[bytes]:
        yield from self.parts

    def close(self) -> None:
        self.closed = True


def async_client_of(handler: Any, **manner: Any) -> AsyncClient:
    http = httpx2.AsyncClient(transport=httpx2.MockTransport(handler))
    return AsyncClient("http://service.test", http=http, **manner)
