"""Which of the HTTP library's exceptions mean that no answer came, and had the request been sent?"""

from __future__ import annotations

import httpx2

from ampwright_client.errors import BrokenOff, NotReached, TimedOut
from ampwright_client.exchange import Failed

__all__ = ["failure"]

_BEFORE = (
    httpx2.ConnectError,
    httpx2.ConnectTimeout,
    httpx2.InvalidURL,
    httpx2.PoolTimeout,
    httpx2.LocalProtocolError,
    httpx2.ProxyError,
    httpx2.UnsupportedProtocol,
)


def failure(error: Exception, url: str = "") -> Failed:
    """What an exception of the HTTP library says about a request. url : of the service, for who reads the message."""
    why = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
    if isinstance(error, _BEFORE):
        return Failed(NotReached, f"the service{f' at {url}' if url else ''} was not reached ({why})", sent=False)
    if isinstance(error, httpx2.TimeoutException):
        return Failed(TimedOut, f"no answer in time ({why})", sent=True)
    return Failed(BrokenOff, f"the connection broke ({why})", sent=True)
