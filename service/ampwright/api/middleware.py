"""What happens to every request and every answer, whichever resource is asked?

The front door stands outside the router, so that it also sees requests that have no route: it limits address and
headers, gives the request an id, answers HEAD as GET without its body, adds the security headers and the CORS headers,
writes the access log, and turns whatever escapes into a problem. It also makes one line of several of one name, and of
Accept-Encoding a plain yes or no, so that whoever reads headers behind it need not. Sources: RFC 9110 (5.3 several
lines, 9.3.2 HEAD, 9.3.7 OPTIONS, 12.5.5 Vary, 15.5.15 status 414), RFC 9112 (3.2 Host), RFC 6585 (status 431), W3C
Trace Context (traceparent), WHATWG Fetch (CORS).
"""

from __future__ import annotations

import logging
import re
import secrets
import time
from collections.abc import Sequence
from typing import Any

from litestar.types import ASGIApp, Message, Receive, Scope, Send

from ampwright.api.negotiation import takes_gzip
from ampwright.api.problems import PROBLEM_MEDIA_TYPE, ProblemError, problem_body

# Far above what any operation needs, below what servers and proxies commonly allow (common practice, no source).
ADDRESS_LIMIT_BYTES = 8 * 2**10
HEADER_LIMIT_BYTES = 32 * 2**10
PREFLIGHT_MAX_AGE_S = 600

_access_log = logging.getLogger("ampwright.access")
_log = logging.getLogger("ampwright.api")

_REQUEST_ID = re.compile(rb"\A[A-Za-z0-9._:+/=-]{1,128}\Z")
# version-traceid-parentid-flags; all zeros are invalid (W3C Trace Context, 3.2.2): version 00 is these four fields and
# nothing behind; a later version may have more; ff is none.
_TRACEPARENT = re.compile(
    rb"\A(?!ff)(?!00.{53}.)[0-9a-f]{2}-(?!0{32})([0-9a-f]{32})-(?!0{16})[0-9a-f]{16}-[0-9a-f]{2}(?:-.*)?\Z"
)

_SECURITY_HEADERS = (
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"x-frame-options", b"DENY"),
    (b"content-security-policy", b"default-src 'none'; frame-ancestors 'none'"),
    (b"cache-control", b"no-store"),
)
_EXPOSED = b"Allow, Deprecation, ETag, Link, Location, Retry-After, Sunset, X-Request-Id"
_ALLOWED_REQUEST_HEADERS = (
    b"Accept, Authorization, Content-Type, If-Match, If-None-Match, Traceparent, Tracestate, X-Request-Id"
)
_METHODS = b"DELETE, GET, HEAD, OPTIONS, POST"
_ENCODING = b"accept-encoding"


class FrontDoor:
    """ASGI application around the router.

    cors_origins : origins whose pages may read answers; ("*",) means all, () none.
    """

    def __init__(self, app: ASGIApp, *, cors_origins: Sequence[str] = ()) -> None:
        self._app = app
        self._origins = frozenset(origin.encode() for origin in cors_origins)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if str(scope["type"]) != "http":  # an enumeration in litestar's types, plain text on the wire
            await self._app(scope, receive, send)
            return
        headers = _one_of_each(scope["headers"])
        request_id = _request_id(headers)
        scope.setdefault("state", {})["request_id"] = request_id
        answer = _Answer(scope, send, request_id, self._cors(headers))
        try:
            await self._serve(scope, receive, answer, headers)
        finally:
            answer.log(headers)

    async def _serve(self, scope: Any, receive: Receive, answer: _Answer, headers: dict[bytes, bytes]) -> None:
        if (refusal := _too_long(scope) or _no_host(scope, headers)) is not None:
            await answer.refuse(refusal)
            return
        if scope["method"] == "OPTIONS" and answer.cors and b"access-control-request-method" in headers:
            await answer.preflight()
            return
        if scope["method"] == "OPTIONS" and scope["path"] == "*":
            await answer.options()
            return
        # a copy: the server goes by its own scope when it leaves out the body of HEAD
        method = "GET" if scope["method"] == "HEAD" else scope["method"]
        packed = [(_ENCODING, b"gzip")] if takes_gzip(headers.get(_ENCODING, b"").decode("latin-1")) else []
        read = [(name, value) for name, value in headers.items() if name != _ENCODING]
        scope = {**scope, "method": method, "headers": [*read, *packed]}
        try:
            await self._app(scope, receive, answer.send)
        except Exception as error:
            _log.error("request failed", exc_info=error, extra={"request_id": scope["state"]["request_id"]})
            if answer.status is not None:
                raise  # half an answer is out; only closing the connection can say that it broke
            await answer.refuse(ProblemError("internal-error", "The fault was logged with the request's id."))

    def _cors(self, headers: dict[bytes, bytes]) -> list[tuple[bytes, bytes]]:
        origin = headers.get(b"origin")
        if not self._origins:
            return []
        if b"*" in self._origins:
            return [(b"access-control-allow-origin", b"*"), (b"access-control-expose-headers", _EXPOSED)]
        vary = (b"vary", b"Origin")
        if origin not in self._origins or origin is None:
            return [vary]
        return [(b"access-control-allow-origin", origin), (b"access-control-expose-headers", _EXPOSED), vary]


class _Answer:
    """One answer on its way out: what is added to it, and what the log says of it."""

    def __init__(self, scope: Any, send: Send, request_id: str, cors: list[tuple[bytes, bytes]]) -> None:
        self.cors = cors
        self.status: int | None = None
        self._scope = scope
        self._send = send
        self._request_id = request_id
        self._method: str = scope["method"]
        self._path: str = scope["path"]
        self._started = time.monotonic()
        self._bytes = 0

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.status = message["status"]
            headers = list(message.get("headers", []))
            if self.status in (204, 304):
                # Neither has content (RFC 9110, 15.3.5 and 15.4.5), so nothing may describe it.
                headers = [one for one in headers if one[0].lower() not in (b"content-type", b"content-length")]
            present = {name.lower() for name, _ in headers}
            headers += [one for one in _SECURITY_HEADERS if one[0] not in present]
            headers += [(b"x-request-id", self._request_id.encode()), *self.cors]
            message["headers"] = _vary_once(headers)
        elif message["type"] == "http.response.body":
            self._bytes += len(message.get("body", b""))
            if self._method == "HEAD":
                message["body"] = b""
        await self._send(message)

    async def refuse(self, error: ProblemError) -> None:
        body = problem_body(error, path=self._path[:200], request_id=self._request_id)
        headers = [
            (b"content-type", PROBLEM_MEDIA_TYPE.encode()),
            (b"content-length", str(len(body)).encode()),
            *((name.lower().encode(), value.encode()) for name, value in error.headers.items()),
        ]
        await self.send({"type": "http.response.start", "status": error.kind.status, "headers": headers})
        await self.send({"type": "http.response.body", "body": body, "more_body": False})

    async def preflight(self) -> None:
        headers = [
            (b"access-control-allow-methods", _METHODS),
            (b"access-control-allow-headers", _ALLOWED_REQUEST_HEADERS),
            (b"access-control-max-age", str(PREFLIGHT_MAX_AGE_S).encode()),
        ]
        await self.send({"type": "http.response.start", "status": 204, "headers": headers})
        await self.send({"type": "http.response.body", "body": b"", "more_body": False})

    async def options(self) -> None:
        """Of the service as a whole."""
        await self.send({"type": "http.response.start", "status": 204, "headers": [(b"allow", _METHODS)]})
        await self.send({"type": "http.response.body", "body": b"", "more_body": False})

    def log(self, headers: dict[bytes, bytes]) -> None:
        traced = _TRACEPARENT.match(headers.get(b"traceparent", b""))
        _access_log.info(
            "request",
            extra={
                "request_id": self._request_id,
                "trace_id": traced[1].decode() if traced else "",
                "method": self._method,
                "path": self._path[:500],
                "status": self.status,
                "answer_bytes": self._bytes,
                "took_s": round(time.monotonic() - self._started, 6),
            },
        )


def _one_of_each(headers: Any) -> dict[bytes, bytes]:
    """Lines of one name are one list, in their order (RFC 9110, 5.3)."""
    found: dict[bytes, list[bytes]] = {}
    for name, value in headers:
        found.setdefault(name.lower(), []).append(value)
    return {name: b", ".join(values) for name, values in found.items()}


def _vary_once(headers: list[tuple[bytes, bytes]]) -> list[tuple[bytes, bytes]]:
    """With one Vary; what a cache may keep differs by what was accepted, packed or not (RFC 9110, 12.5.5)."""
    told = b",".join(value for name, value in headers if name.lower() == b"vary").split(b",")
    names = {one.strip().lower(): one.strip() for one in told if one.strip()}
    if any(name.lower() == b"etag" for name, _ in headers):
        names.setdefault(_ENCODING, b"Accept-Encoding")
    rest = [one for one in headers if one[0].lower() != b"vary"]
    return [*rest, (b"vary", b", ".join(names.values()))] if names else rest


def _no_host(scope: Any, headers: dict[bytes, bytes]) -> ProblemError | None:
    """RFC 9112, 3.2: a request of HTTP/1.1 has one Host, and is refused with 400 otherwise."""
    if scope.get("http_version") == "1.1" and b"," in headers.get(b"host", b","):
        return ProblemError("bad-request", "A request of HTTP/1.1 names one Host.")
    return None


def _request_id(headers: dict[bytes, bytes]) -> str:
    """The caller's own id where it is harmless in a log and in a header, else a new one."""
    given = headers.get(b"x-request-id", b"")
    return given.decode("ascii") if _REQUEST_ID.match(given) else secrets.token_hex(16)


def _too_long(scope: Any) -> ProblemError | None:
    raw_path = scope.get("raw_path") or scope["path"].encode()
    if len(raw_path) + len(scope.get("query_string", b"")) > ADDRESS_LIMIT_BYTES:
        return ProblemError("address-too-long", f"At most {ADDRESS_LIMIT_BYTES} bytes of path and query are read.")
    if sum(len(name) + len(value) for name, value in scope["headers"]) > HEADER_LIMIT_BYTES:
        return ProblemError("headers-too-large", f"At most {HEADER_LIMIT_BYTES} bytes of headers are read.")
    return None
