"""What does a caller get when a request cannot be answered?

Always one shape: problem details (RFC 9457) as ``application/problem+json``. This module holds the list of problem
types, the exception that carries one, and the handlers that turn every other exception into one. A problem says where
the fault is (a JSON Pointer, RFC 6901, into the request as sent), which one (a stable code) and what would be right.
Not here: the pages at ``/problems/{code}`` (problem_pages.py); which member of a body is at fault (pointers.py).
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Protocol
from urllib.parse import quote

import msgspec
from litestar import Request
from litestar.exceptions import HTTPException
from litestar.response import Response
from msgspec import UNSET, Meta, Struct, UnsetType

PROBLEM_MEDIA_TYPE = "application/problem+json"

_log = logging.getLogger("ampwright.api")


class ProblemFault(Struct, kw_only=True, omit_defaults=True):
    """One thing that is wrong with a request."""

    code: Annotated[str, Meta(description="Stable code of the fault; branch on this, never on the text.")]
    message: Annotated[str, Meta(description="What is wrong and what would be right, for a person.")]
    pointer: Annotated[
        str | UnsetType,
        Meta(description="JSON Pointer (RFC 6901) into the body as sent, also to a member that is missing."),
    ] = UNSET
    parameter: Annotated[
        str | UnsetType, Meta(description="Name of the path, query or header parameter at fault, instead of a pointer.")
    ] = UNSET
    did_you_mean: Annotated[str | UnsetType, Meta(description="The nearest word that would have been accepted.")] = (
        UNSET
    )


class Problem(Struct, kw_only=True, omit_defaults=True):
    """Problem details of RFC 9457: why a request was not answered."""

    type: Annotated[str, Meta(description="Address of the page that explains this type of problem.")]
    title: Annotated[str, Meta(description="Short name of the type; the same for every occurrence.")]
    status: Annotated[int, Meta(ge=400, le=599, description="HTTP status code.")]
    detail: Annotated[str | UnsetType, Meta(description="What is wrong this time, for a person.")] = UNSET
    instance: Annotated[
        str | UnsetType, Meta(description="Path of the request, with the request's id behind the number sign.")
    ] = UNSET
    errors: Annotated[
        list[ProblemFault] | UnsetType, Meta(description="The single faults, where the problem has any.")
    ] = UNSET


@dataclass(frozen=True, slots=True)
class ProblemType:
    """A kind of problem, as its page explains it."""

    code: str
    title: str
    status: int
    meaning: str
    what_to_do: str

    @property
    def address(self) -> str:
        return f"/problems/{self.code}"


PROBLEM_TYPES: Mapping[str, ProblemType] = {
    kind.code: kind
    for kind in (
        ProblemType(
            "malformed-body",
            "The body cannot be read",
            400,
            "The body is not one JSON text in UTF-8 (RFC 8259), is nested too deeply, or names a member twice.",
            "Send one JSON object. NaN and Infinity are not JSON; every member stands once in its object.",
        ),
        ProblemType(
            "bad-request",
            "The request cannot be understood",
            400,
            "Something before the body is wrong, such as the Host header.",
            "Look at the detail and at what stands between your program and the service.",
        ),
        ProblemType(
            "unauthenticated",
            "A key is needed",
            401,
            "The request shows no access key, or one that is unknown, expired or revoked.",
            "Send a key as Authorization: Bearer followed by the key's text.",
        ),
        ProblemType(
            "forbidden",
            "The key does not allow this",
            403,
            "The access key is valid, but was made for something else.",
            "Use a key that has the scope named in the detail.",
        ),
        ProblemType(
            "not-found",
            "There is nothing at this address",
            404,
            "No resource has this path.",
            "Compare the path with the reference page at /docs.",
        ),
        ProblemType(
            "no-such-entry",
            "The catalogue has no such entry",
            404,
            "The path is right, but no document, revision or release has this name or number.",
            "List the collection to see what there is.",
        ),
        ProblemType(
            "method-not-allowed",
            "The method is not allowed here",
            405,
            "The resource exists, but does not answer to this method.",
            "Use one of the methods in the Allow header.",
        ),
        ProblemType(
            "not-acceptable",
            "No acceptable representation",
            406,
            "The Accept header excludes every media type that this resource can send.",
            "Accept application/json, or one of the types named in the detail.",
        ),
        ProblemType(
            "body-timeout",
            "The body did not arrive in time",
            408,
            "The headers came, the body did not come to its end within the time allowed.",
            "Send the request again over a better connection.",
        ),
        ProblemType(
            "precondition-failed",
            "The resource has changed since",
            412,
            "If-Match or If-None-Match does not hold: somebody wrote in the meantime, or the entry exists already.",
            "Read the resource again, look at what changed, and send with its present ETag.",
        ),
        ProblemType(
            "body-too-large",
            "The body is too large",
            413,
            "The body is longer than this service reads.",
            "Split the request: fewer tools, cases or rows in each.",
        ),
        ProblemType(
            "address-too-long",
            "The address is too long",
            414,
            "Path and query together are longer than this service reads.",
            "Ask for less in one query.",
        ),
        ProblemType(
            "unsupported-media-type",
            "The media type of the body is not supported",
            415,
            "Bodies are read as application/json in UTF-8, without a content encoding.",
            "Set Content-Type to application/json and send no Content-Encoding.",
        ),
        ProblemType(
            "invalid-request",
            "The request does not fit its schema",
            422,
            "A member or a parameter is missing, unknown, of the wrong type or outside its range.",
            "Correct the member that the pointer names. Reading stops at the first fault of this kind.",
        ),
        ProblemType(
            "contradictory-request",
            "The request contradicts itself",
            422,
            "Each member is well formed, but they do not go together: a reference to nothing, two plugs in one "
            "contact, a quantity of another dimension. All faults are listed.",
            "Correct the members that the pointers name.",
        ),
        ProblemType(
            "too-much-work",
            "The request asks for too much work",
            422,
            "The work was estimated before it began and is more than one request may ask for.",
            "Split the request, or leave out what include asks for beyond the plain answer.",
        ),
        ProblemType(
            "precondition-required",
            "The request must be conditional",
            428,
            "Writing needs If-Match with the ETag that was read (or If-None-Match: * for a new entry), so that "
            "nobody overwrites what somebody else wrote in the meantime.",
            "Read the resource, then send its ETag as If-Match.",
        ),
        ProblemType(
            "headers-too-large",
            "The headers are too large",
            431,
            "The header section is larger than this service reads.",
            "Send fewer or shorter headers.",
        ),
        ProblemType(
            "internal-error",
            "The service failed",
            500,
            "A fault of the service, not of the request. It was logged with the request's id.",
            "Report the X-Request-Id of the answer. Trying again may help with a request that only reads.",
        ),
        ProblemType(
            "not-ready",
            "The service is not ready",
            503,
            "The process runs, but cannot answer calculations yet or any more; the errors give the reasons.",
            "Wait as long as Retry-After says.",
        ),
        ProblemType(
            "overloaded",
            "The service is busy",
            503,
            "More requests wait for calculation than this process lets wait. Nothing was calculated.",
            "Wait as long as Retry-After says, then send the same request again.",
        ),
    )
}

# What litestar raises by itself, told as one of ours.
_CODE_OF_STATUS: Mapping[int, str] = {
    400: "bad-request",
    404: "not-found",
    405: "method-not-allowed",
    406: "not-acceptable",
    413: "body-too-large",
    415: "unsupported-media-type",
    422: "invalid-request",
}


class AnyFault(Protocol):
    """A fault of a lower layer: where, which, what."""

    @property
    def pointer(self) -> str: ...
    @property
    def code(self) -> str: ...
    @property
    def message(self) -> str: ...


class ProblemError(Exception):
    """Ends a request with a problem.

    code : key of PROBLEM_TYPES; errors : the single faults; headers : go out with the answer (Retry-After, Allow).
    Raises KeyError where the code is not listed: an unlisted problem would have no page.
    """

    def __init__(
        self,
        code: str,
        detail: str = "",
        *,
        errors: Sequence[ProblemFault] = (),
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(f"{code}: {detail}")
        self.kind = PROBLEM_TYPES[code]
        self.detail = detail
        self.errors = list(errors)
        self.headers = dict(headers or {})

    @classmethod
    def of_faults(cls, code: str, faults: Iterable[AnyFault], detail: str = "") -> ProblemError:
        """Problem that lists the faults of a lower layer, in their order."""
        return cls(
            code,
            detail,
            errors=[
                ProblemFault(
                    code=fault.code,
                    message=fault.message,
                    pointer=fault.pointer,
                    did_you_mean=getattr(fault, "did_you_mean", None) or UNSET,
                )
                for fault in faults
            ],
        )


def request_id_of(scope: Mapping[str, Any]) -> str:
    """Id of the request in hand ("" where the front door has not seen it)."""
    state: Mapping[str, Any] = scope.get("state") or {}
    return str(state.get("request_id", ""))


def problem_of(error: ProblemError, *, path: str, request_id: str) -> Problem:
    """The problem that an exception stands for."""
    return Problem(
        type=error.kind.address,
        title=error.kind.title,
        status=error.kind.status,
        detail=error.detail or UNSET,
        instance=quote(path, safe="/:@!$&'()*+,;=~-._") + (f"#{request_id}" if request_id else ""),
        errors=error.errors or UNSET,
    )


def problem_body(error: ProblemError, *, path: str, request_id: str) -> bytes:
    return msgspec.json.encode(problem_of(error, path=path, request_id=request_id))


def sorted_allow(methods: Iterable[str]) -> str:
    """Value of the Allow header: sorted, with HEAD wherever GET is answered."""
    allowed = {method.strip().upper() for method in methods if method.strip()}
    if "GET" in allowed:
        allowed.add("HEAD")
    return ", ".join(sorted(allowed | {"OPTIONS"}))


def _respond(request: Request[Any, Any, Any], error: ProblemError) -> Response[bytes]:
    body = problem_body(error, path=request.url.path, request_id=request_id_of(request.scope))
    return Response(content=body, status_code=error.kind.status, media_type=PROBLEM_MEDIA_TYPE, headers=error.headers)


def on_problem(request: Request[Any, Any, Any], error: ProblemError) -> Response[bytes]:
    return _respond(request, error)


def on_http_exception(request: Request[Any, Any, Any], error: HTTPException) -> Response[bytes]:
    """An exception of the framework, as a problem; its headers stay."""
    headers = {name.lower(): value for name, value in (error.headers or {}).items()}
    code = _CODE_OF_STATUS.get(error.status_code, "bad-request" if error.status_code < 500 else "internal-error")
    detail = ""
    if error.status_code == 404:
        detail = "No resource has this path."
    elif error.status_code == 405:
        headers["allow"] = sorted_allow(headers.get("allow", "").split(","))
        detail = f"This resource answers to {headers['allow']}."
    elif code == "internal-error":
        return on_any_exception(request, error)
    else:
        detail = error.detail[:200]
    return _respond(request, ProblemError(code, detail, headers=headers))


def on_any_exception(request: Request[Any, Any, Any], error: Exception) -> Response[bytes]:
    """A fault of ours: told in full to the log, to the caller only that it happened."""
    _log.error("request failed", exc_info=error, extra={"request_id": request_id_of(request.scope)})
    return _respond(request, ProblemError("internal-error", "The fault was logged with the request's id."))


def on_nobody_there(request: Request[Any, Any, Any], error: Exception) -> Response[bytes]:  # noqa: ARG001
    """The caller left; the status is for the log only (common practice, no source)."""
    return Response(content=b"", status_code=499)
