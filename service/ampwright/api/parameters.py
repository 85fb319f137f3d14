"""What stands in the path, in the query and in the headers?

Parameters are declared as Structs, one for each place, so that the same bounds and patterns are enforced and
documented::

    class Page(Struct, forbid_unknown_fields=True):
        limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50

Unlike in a body the fault is named by ``parameter``, and a parameter given twice is refused unless it is a list.
"""

from __future__ import annotations

import typing
from collections.abc import Iterable
from typing import Annotated, Any, Literal, TypeVar

import msgspec
from litestar import Request
from msgspec import UNSET, Meta, Struct, UnsetType

from ampwright.api.pointers import fault_of
from ampwright.api.problems import ProblemError, ProblemFault

S = TypeVar("S", bound=Struct)
Place = Literal["path", "query", "header"]
# An entity tag of ours; the number is the revision. A longer one would not be an int of the database.
# Behind a `w` stands how often it was withdrawn, so that a cached revision does not hide that.
REVISION_TAG = r'^"r[1-9][0-9]{0,8}(?:w[1-9][0-9]{0,5})?"$'


class IfMatch(Struct):
    """Precondition of writing a new revision."""

    if_match: Annotated[
        str, Meta(pattern=REVISION_TAG, description="ETag of the revision that was read; the write is built upon it.")
    ] = msgspec.field(name="If-Match")

    @property
    def revision(self) -> int:
        return int(self.if_match.strip('"')[1:].partition("w")[0])


class MayBeNew(Struct):
    """What a caller may say when creating an entry; it holds in any case."""

    if_none_match: (
        Annotated[Literal["*"], Meta(description="Only where there is no such entry yet; implied.")] | UnsetType
    ) = msgspec.field(name="If-None-Match", default=UNSET)


_PRECONDITIONS = {"if-match", "if-none-match"}


def path_parameters(request: Request[Any, Any, Any], wanted: type[S]) -> S:
    """Raises ProblemError "invalid-request"."""
    return _convert({name: str(value) for name, value in request.path_params.items()}, wanted, "path")


def query_parameters(request: Request[Any, Any, Any], wanted: type[S]) -> S:
    """Raises ProblemError "invalid-request"; a parameter that is not declared is refused."""
    try:
        pairs = [(name, value) for name, value in request.query_params.multi_items()]
    except ValueError:
        raise ProblemError("bad-request", "The query cannot be read.") from None
    return _convert(_gathered(pairs, wanted), wanted, "query")


def header_parameters(request: Request[Any, Any, Any], wanted: type[S]) -> S:
    """Raises ProblemError: "precondition-required" without If-Match or If-None-Match, else "invalid-request"."""
    names = {field.encode_name.lower(): field.encode_name for field in msgspec.structs.fields(wanted)}
    given = {names[name]: value.strip() for name, value in request.headers.items() if name in names}
    for field in msgspec.structs.fields(wanted):
        if field.required and field.encode_name not in given and field.encode_name.lower() in _PRECONDITIONS:
            raise ProblemError("precondition-required", f"Send {field.encode_name}.")
    return _convert(given, wanted, "header")


def _gathered(pairs: Iterable[tuple[str, str]], wanted: type[Struct]) -> dict[str, Any]:
    lists = {field.encode_name for field in msgspec.structs.fields(wanted) if _is_list(field.type)}
    values: dict[str, Any] = {}
    for name, value in pairs:
        if name in lists:
            values.setdefault(name, []).append(value)
        elif name in values:
            fault = ProblemFault(
                code="duplicate_parameter", message=f"{name[:80]!r} is given twice.", parameter=name[:80]
            )
            raise ProblemError("invalid-request", "A query parameter is given twice.", errors=[fault])
        else:
            values[name] = value
    return values


def _is_list(annotation: Any) -> bool:
    if typing.get_origin(annotation) is Annotated:
        annotation = typing.get_args(annotation)[0]
    return typing.get_origin(annotation) is list or any(_is_list(one) for one in typing.get_args(annotation))


def _convert(values: dict[str, Any], wanted: type[S], place: Place) -> S:
    try:
        return msgspec.convert(values, wanted, strict=False)
    except msgspec.ValidationError as error:
        fault = fault_of(error, wanted)
        name = "" if fault.pointer is UNSET else fault.pointer.lstrip("/").split("/")[0]
        named = ProblemFault(
            code=fault.code.replace("member", "parameter"),
            message=fault.message.replace("member", "parameter"),
            parameter=name.replace("~1", "/").replace("~0", "~")[:80],
            did_you_mean=fault.did_you_mean,
        )
        raise ProblemError("invalid-request", f"A {place} parameter cannot be used.", errors=[named]) from None
