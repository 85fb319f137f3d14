"""What is said to the service in one call, and what is made of what comes back?

Written once for both clients, without any input or output of its own: a generator that hands out what is to be done
(send this, wait that long) and is told what came of it.
"""

from __future__ import annotations

import re
import secrets
import sys
import time
import warnings
from collections.abc import Generator, Mapping
from dataclasses import dataclass, field
from http import HTTPStatus
from typing import Any, TypeVar, cast

import msgspec

from ampwright_client._generated.models import Problem
from ampwright_client.calls import JSON, Call, CallOptions, check_manner
from ampwright_client.errors import AnsweredNo, NoAnswer, NotUnderstood, TimedOut, answered_no
from ampwright_client.kept import Kept
from ampwright_client.reply import Answer, Reply
from ampwright_client.version import __version__
from ampwright_client.waiting import backoff_s, retry_after_s

__all__ = ["Arrived", "Failed", "Manner", "Pause", "Send", "Step", "exchange", "understood"]

T = TypeVar("T")
# 502: a gateway's word for a connection to the service that failed or broke (RFC 9110, 15.6.3).
_AGAIN = frozenset({429, 502, 503})
_STATUSES = frozenset(HTTPStatus)
_REQUEST_ID = re.compile(r"[A-Za-z0-9._:+/=-]{1,128}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How a client calls. `key` : access key, never shown."""

    key: str | None = field(default=None, repr=False)
    timeout_s: float
    connect_timeout_s: float
    retries: int
    patience_s: float

    def __post_init__(self) -> None:
        """Raises ValueError."""
        check_manner(
            timeout_s=self.timeout_s,
            connect_timeout_s=self.connect_timeout_s,
            retries=self.retries,
            patience_s=self.patience_s,
        )


@dataclass(frozen=True, slots=True)
class Send:
    """To be sent. `target` : path and query."""

    method: str
    target: str
    headers: Mapping[str, str]
    content: bytes | None
    timeout_s: float
    stream: bool


@dataclass(frozen=True, slots=True)
class Pause:
    """To be waited."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Arrived:
    """An answer. `stream` : the open response, where one was wanted and the status is 2xx."""

    status: int
    headers: Mapping[str, str]
    body: bytes
    request_id: str = ""
    stream: Any = None


@dataclass(frozen=True, slots=True)
class Failed:
    """No answer. `kind` : of exception; `sent` : whether the service may have the request."""

    kind: type[NoAnswer]
    why: str
    sent: bool

    def error(self, request_id: str) -> NoAnswer:
        return self.kind(self.why, request_id=request_id, sent=self.sent)


Step = Generator[Send | Pause, Arrived | Failed | None, Arrived]


def exchange(call: Call[Any], options: CallOptions | None, manner: Manner, kept: Kept, *, stream: bool = False) -> Step:
    """One call with its tries; returns the answer where its status is 2xx or 304, otherwise raises AmpwrightError.

    A call is sent again only where that can do no harm (it changes nothing), and only after a refusal that asks for it
    (429, 503) or where the connection failed or broke, here or behind a gateway (502). Where the service asks for a
    longer wait than the caller has patience for, its answer is raised at once.
    """
    wanted = options or CallOptions()
    request_id = secrets.token_hex(16) if wanted.request_id is None else wanted.request_id
    if not _REQUEST_ID.fullmatch(request_id):
        raise ValueError(f"a request id is up to 128 letters, digits and ._:+/=-, not {request_id[:200]!r}")
    retries = manner.retries if wanted.retries is None else wanted.retries
    patience_s = manner.patience_s if wanted.patience_s is None else wanted.patience_s
    target = call.target
    held = kept.find(target) if call.keeps else None
    send = Send(
        method=call.method,
        target=target,
        headers=_headers(call, wanted, manner, request_id, held),
        content=call.content,
        timeout_s=manner.timeout_s if wanted.timeout_s is None else wanted.timeout_s,
        stream=stream,
    )
    tries, waited_s = 0, 0.0
    while True:
        outcome = yield send
        tries += 1
        error: NoAnswer | AnsweredNo
        if isinstance(outcome, Failed):
            error = outcome.error(request_id)
            # A broken connection is mostly one that was kept open for too long; a silent service is a busy one.
            again, asked_s = outcome.kind is not TimedOut, None
        elif isinstance(outcome, Arrived):
            arrived = _named(outcome, request_id)
            if arrived.status == 304 and held is not None:
                return Arrived(304, arrived.headers, held[1], arrived.request_id)
            if 200 <= arrived.status < 300:
                _warn_deprecated(call, arrived)
                if call.keeps:
                    kept.keep(target, arrived.headers.get("etag", ""), arrived.body)
                return arrived
            error = refusal(arrived)
            again, asked_s = arrived.status in _AGAIN, error.retry_after_s
        else:
            raise TypeError("a request was answered by nothing")
        wait_s = backoff_s(tries, asked_s, patience_s - waited_s)
        if not (call.safe and again) or tries > retries or waited_s + wait_s > patience_s:
            raise error
        waited_s += wait_s
        yield Pause(wait_s)


def refusal(arrived: Arrived) -> AnsweredNo:
    """The exception of an answer that says no."""
    problem = None
    if "json" in arrived.headers.get("content-type", ""):
        try:
            problem = msgspec.json.decode(arrived.body, type=Problem)
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
            problem = _others_problem(arrived)
    return answered_no(arrived.status)(
        request_id=arrived.request_id,
        status=arrived.status,
        problem=problem,
        headers=arrived.headers,
        body=arrived.body,
        retry_after_s=retry_after_s(arrived.headers.get("retry-after"), time.time()),
    )


def _others_problem(arrived: Arrived) -> Problem | None:
    """Problem details of a gateway: by RFC 9457, 3.1 every member may be missing, and then type is about:blank."""
    if not arrived.headers.get("content-type", "").lower().startswith("application/problem+json"):
        return None
    try:
        told: dict[str, Any] = msgspec.json.decode(arrived.body, type=dict[str, Any])
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return None
    title = HTTPStatus(arrived.status).phrase if arrived.status in _STATUSES else "answered no"  # RFC 9457, 4.2.1
    problem = Problem(type="about:blank", title=title, status=arrived.status)
    for name in ("type", "title", "detail", "instance"):
        if isinstance(told.get(name), str):  # a member of another type is passed over, as the RFC asks for
            setattr(problem, name, told[name])
    return problem


def understood(call: Call[T], arrived: Arrived) -> T:
    """What an answer says. Raises NotUnderstood where it is not what the contract promises."""
    answer: Any = None
    media_type = arrived.headers.get("content-type", "").partition(";")[0].strip().lower()
    if call.answer is not type(None):
        if media_type != call.accept and arrived.status != 304:
            raise _not_understood(arrived, f"expected {call.accept}, got {media_type or 'no media type'}")
        try:
            answer = arrived.body.decode() if call.accept != JSON else _decoder(call.answer).decode(arrived.body)
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
            raise _not_understood(arrived, f"the answer cannot be read: {error}") from error
    if isinstance(answer, Answer):
        answer.came_with(
            Reply(
                status=arrived.status,
                request_id=arrived.request_id,
                entity_tag=arrived.headers.get("etag", ""),
                headers=arrived.headers,
                body=arrived.body,
            )
        )
    return cast("T", answer)


_decoders: dict[Any, msgspec.json.Decoder[Any]] = {}


def _decoder(kind: Any) -> msgspec.json.Decoder[Any]:
    """Made at first use: making one for every answer at import would take longer than the import."""
    found = _decoders.get(kind)
    if found is None:
        found = _decoders[kind] = msgspec.json.Decoder(kind)
    return found


def _not_understood(arrived: Arrived, why: str) -> NotUnderstood:
    return NotUnderstood(why, request_id=arrived.request_id, status=arrived.status, body=arrived.body)


def _headers(
    call: Call[Any], wanted: CallOptions, manner: Manner, request_id: str, held: tuple[str, bytes] | None
) -> dict[str, str]:
    headers = {"Accept": call.accept, "User-Agent": f"ampwright-client/{__version__}"}
    own = {**call.given_headers(), "X-Request-Id": request_id}
    if manner.key is not None:
        own["Authorization"] = f"Bearer {manner.key}"
    if call.body is not None:
        own["Content-Type"] = JSON
    if held is not None:
        own["If-None-Match"] = held[0]
    # Names differ by more than their case (RFC 9110, 5.1): two spellings of one would both be sent.
    for name, value in (*wanted.headers.items(), *own.items()):
        for there in [one for one in headers if one.lower() == name.lower()]:
            del headers[there]
        headers[name] = value
    return headers


def _named(arrived: Arrived, request_id: str) -> Arrived:
    """With the id under which the service has it in its log."""
    return Arrived(
        arrived.status,
        arrived.headers,
        arrived.body,
        arrived.headers.get("x-request-id", request_id),
        arrived.stream,
    )


def _warn_deprecated(call: Call[Any], arrived: Arrived) -> None:
    """RFC 9745 (Deprecation), RFC 8594 (Sunset)."""
    if "deprecation" in arrived.headers:
        until = arrived.headers.get("sunset", "")
        warnings.warn(
            f"{call.method} {call.template} is deprecated" + (f" and ends {until}" if until else ""),
            DeprecationWarning,
            stacklevel=_depth(),
        )


def _depth() -> int:
    """Frames from the caller of this up to the program's own: a warning is shown where it is the program's."""
    frame, depth = sys._getframe(1), 1  # pyright: ignore[reportPrivateUsage]
    package = __name__.partition(".")[0]
    while frame.f_back is not None and frame.f_globals.get("__name__", "").partition(".")[0] == package:
        frame, depth = frame.f_back, depth + 1
    return depth
