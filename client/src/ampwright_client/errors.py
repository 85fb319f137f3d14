"""What can go wrong with a call?

Either nothing came back (``NoAnswer``), or an answer came with a status that says no (``AnsweredNo``), or an answer
came that is not what the contract says (``NotUnderstood``). All three name the request, so that it is found in the
service's log.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec import UNSET

from ampwright_client._generated.models import Problem, ProblemFault

__all__ = [
    "AmpwrightError",
    "AnsweredNo",
    "BadRequest",
    "BodyTooLarge",
    "BrokenOff",
    "Forbidden",
    "HeadersTooLarge",
    "InvalidRequest",
    "MethodNotAllowed",
    "NoAnswer",
    "NotAcceptable",
    "NotFound",
    "NotReached",
    "NotUnderstood",
    "PreconditionFailed",
    "PreconditionRequired",
    "RequestTimeout",
    "ServiceFault",
    "TimedOut",
    "TooManyRequests",
    "Unauthenticated",
    "Unavailable",
    "UnsupportedMediaType",
    "answered_no",
]

_SHOWN_FAULTS = 5


class AmpwrightError(Exception):
    """A call did not give what was asked for. `request_id` : of the request, also where no answer came."""

    def __init__(self, message: str, *, request_id: str) -> None:
        super().__init__(message)
        self.message = message
        self.request_id = request_id

    def __str__(self) -> str:
        return f"{self.message} [request {self.request_id}]"

    def __reduce__(self) -> tuple[Any, ...]:
        # Arguments that are given by name are lost without it, and a pool of processes breaks on the exception.
        return _made_again, (type(self), self.message, vars(self).copy())


def _made_again(kind: type[AmpwrightError], message: str, held: dict[str, Any]) -> AmpwrightError:
    error = kind.__new__(kind, message)
    vars(error).update(held)
    return error


class NoAnswer(AmpwrightError):
    """Nothing came back. `sent` : whether the service may have received the request and acted on it."""

    def __init__(self, message: str, *, request_id: str, sent: bool) -> None:
        super().__init__(message, request_id=request_id)
        self.sent = sent


class NotReached(NoAnswer):
    """No connection could be made: nothing was sent."""


class TimedOut(NoAnswer):
    """The connection was silent for longer than the time allowed."""


class BrokenOff(NoAnswer):
    """The connection broke before the answer was complete."""


class NotUnderstood(AmpwrightError):
    """An answer came that this version of the client cannot read. `body` : its bytes; `status` : its status."""

    def __init__(self, message: str, *, request_id: str, status: int, body: bytes) -> None:
        super().__init__(message, request_id=request_id)
        self.status = status
        self.body = body


class AnsweredNo(AmpwrightError):
    """The service answered with a status that says no.

    status : HTTP status; problem : problem details (RFC 9457), None where something between here and the service
    answered instead without any; headers : by name in lower case; body : the answer's bytes; retry_after_s : how long
    the service asks to wait, None where it does not say.
    """

    def __init__(
        self,
        *,
        request_id: str,
        status: int,
        problem: Problem | None,
        headers: Mapping[str, str],
        body: bytes,
        retry_after_s: float | None = None,
    ) -> None:
        super().__init__(_told(status, problem), request_id=request_id)
        self.status = status
        self.problem = problem
        self.headers = headers
        self.body = body
        self.retry_after_s = retry_after_s

    @property
    def code(self) -> str:
        """Stable code of the type of problem, such as `contradictory-request`; empty where there is none."""
        if self.problem is None or self.problem.type == "about:blank":
            return ""
        return self.problem.type.rstrip("/").rpartition("/")[2]

    @property
    def faults(self) -> list[ProblemFault]:
        """The single faults; each has a code, and a pointer into the body or the name of a parameter."""
        if self.problem is None or self.problem.errors is UNSET:
            return []
        return self.problem.errors

    @property
    def pointers(self) -> list[str]:
        """Where in the body the faults are (JSON Pointer, RFC 6901)."""
        return [fault.pointer for fault in self.faults if fault.pointer is not UNSET]


class BadRequest(AnsweredNo):
    """400: the request cannot be read."""


class Unauthenticated(AnsweredNo):
    """401: a key is needed, or the key is not valid."""


class Forbidden(AnsweredNo):
    """403: the key was made for something else."""


class NotFound(AnsweredNo):
    """404: there is no such address, entry, revision or release."""


class MethodNotAllowed(AnsweredNo):
    """405: the address does not answer to this method."""


class NotAcceptable(AnsweredNo):
    """406: the answer cannot be sent in the wanted form."""


class RequestTimeout(AnsweredNo):
    """408: the request did not arrive in time."""


class PreconditionFailed(AnsweredNo):
    """412: somebody wrote in the meantime, or the entry exists already. `entity_tag` : the present one."""

    @property
    def entity_tag(self) -> str:
        return self.headers.get("etag", "")


class BodyTooLarge(AnsweredNo):
    """413: the body is larger than the service reads."""


class UnsupportedMediaType(AnsweredNo):
    """415: the body has a form that the service does not read."""


class InvalidRequest(AnsweredNo):
    """422: the request was read, and something in it is wrong; `faults` say what and where."""


class PreconditionRequired(AnsweredNo):
    """428: say which revision the write is built upon."""


class TooManyRequests(AnsweredNo):
    """429: more was asked for than is allowed in the time."""


class HeadersTooLarge(AnsweredNo):
    """431: the headers are larger than the service reads."""


class ServiceFault(AnsweredNo):
    """5xx: the service failed."""


class Unavailable(ServiceFault):
    """503: the service is overloaded or not ready."""


_BY_STATUS: Mapping[int, type[AnsweredNo]] = {
    400: BadRequest,
    401: Unauthenticated,
    403: Forbidden,
    404: NotFound,
    405: MethodNotAllowed,
    406: NotAcceptable,
    408: RequestTimeout,
    412: PreconditionFailed,
    413: BodyTooLarge,
    415: UnsupportedMediaType,
    422: InvalidRequest,
    428: PreconditionRequired,
    429: TooManyRequests,
    431: HeadersTooLarge,
    503: Unavailable,
}


def answered_no(status: int) -> type[AnsweredNo]:
    """The exception of a status."""
    return _BY_STATUS.get(status, ServiceFault if status >= 500 else AnsweredNo)


def _told(status: int, problem: Problem | None) -> str:
    if problem is None:
        hint = " (a redirect, which is not followed)" if status // 100 == 3 and status != 304 else ""
        return f"{status}: answered without problem details{hint}; is the address that of an Ampwright service?"
    said = f"{status} {problem.title}" + (f": {problem.detail}" if problem.detail is not UNSET else "")
    faults = problem.errors if problem.errors is not UNSET else []
    for fault in faults[:_SHOWN_FAULTS]:
        place = fault.pointer if fault.pointer is not UNSET else fault.parameter if fault.parameter is not UNSET else ""
        meant = f" (did you mean {fault.did_you_mean!r}?)" if fault.did_you_mean is not UNSET else ""
        said += f"\n  {place}: {fault.message}{meant}" if place else f"\n  {fault.message}{meant}"
    if len(faults) > _SHOWN_FAULTS:
        said += f"\n  and {len(faults) - _SHOWN_FAULTS} more"
    return said
