"""How is a refusal of the catalogue told to a caller?

One place for all resources: a handler lets the catalogue's exceptions pass. Those about a reference inside a body are
content faults and come from studies with their pointer instead.
"""

from __future__ import annotations

from typing import Any

from litestar import Request
from litestar.response import Response
from msgspec import UNSET, UnsetType

from ampwright.api.problems import ProblemError, ProblemFault, on_any_exception, on_problem
from ampwright.catalogue.faults import (
    BadValue,
    CatalogueError,
    Conflict,
    DatabaseUnavailable,
    HeadMoved,
    NoSuchEntry,
    NoSuchRelease,
    NoSuchRevision,
)

RETRY_AFTER_S = 2


# arguments of the catalogue that stand in a body, and those that stand in a path under another name
_IN_THE_BODY = {
    "who": "/by",
    "why": "/why",
    "note": "/note",
    "reason": "/why",
    "members": "/members",
    "scopes": "/scopes",
    "expires_at": "/expires_at",
    "body": "/document",
}
_IN_THE_PATH = {"slug": "entry"}


def _place_of(field: str) -> str | UnsetType:
    if field.startswith("facets."):
        return "/document"
    name, _, place = field.removesuffix("]").partition("[")
    where = _IN_THE_BODY.get(name, UNSET)
    return f"{where}/{place}" if where is not UNSET and place else where


def _parameter(error: BadValue, where: str | UnsetType) -> str | UnsetType:
    return _IN_THE_PATH.get(error.field, error.field) if where is UNSET else UNSET


def on_catalogue_error(request: Request[Any, Any, Any], error: CatalogueError) -> Response[bytes]:
    """The problem that an exception of the catalogue stands for."""
    if isinstance(error, NoSuchRelease) and error.pointer is None:
        asked = str(request.path_params.get("number")) == str(error.number)
        return on_problem(request, _no_such_release(error, parameter="number" if asked else "since"))
    problem = problem_of_catalogue(error)
    return on_any_exception(request, error) if problem is None else on_problem(request, problem)


def _no_such_release(error: NoSuchRelease, parameter: str | UnsetType = UNSET) -> ProblemError:
    pointer = UNSET if error.pointer is None else error.pointer
    fault = ProblemFault(code="unknown_release", message=f"There is {error}.", pointer=pointer, parameter=parameter)
    return ProblemError("no-such-entry", fault.message, errors=[fault])


def problem_of_catalogue(error: CatalogueError) -> ProblemError | None:
    """None for an exception that no request can cause: a fault of the deployment."""
    match error:
        case NoSuchRelease():
            return _no_such_release(error)
        case NoSuchEntry() | NoSuchRevision():
            return ProblemError("no-such-entry", f"There is {error}.")
        case HeadMoved(head=0):
            return ProblemError("precondition-failed", "There is no such entry yet; create it with If-None-Match: *.")
        case HeadMoved():
            return ProblemError(
                "precondition-failed",
                f"The newest revision is {error.head}.",
                errors=[
                    ProblemFault(
                        code="head_moved", message=f"The newest revision is {error.head}.", parameter="If-Match"
                    )
                ],
                headers={"ETag": f'"r{error.head}"'},
            )
        case BadValue():
            where = _place_of(error.field)
            fault = ProblemFault(
                code=error.code, message=error.message, pointer=where, parameter=_parameter(error, where)
            )
            return ProblemError("invalid-request", "A value cannot be stored.", errors=[fault])
        case Conflict():
            return ProblemError("contradictory-request", str(error))
        case DatabaseUnavailable():
            fault = ProblemFault(code="database_not_ready", message="The database does not answer, or not in time.")
            return ProblemError("not-ready", fault.message, errors=[fault], headers={"Retry-After": str(RETRY_AFTER_S)})
    return None
