"""What did the caller send?

The one seam at which bodies are read: media type, size, time, JSON, schema, in this order; each fault is a problem of
its own (problems.py). JSON only; another format would be a second branch in ``read``.
"""

from __future__ import annotations

import json
import math
import re
from typing import Any, TypeVar

import anyio
import msgspec
from litestar import Request
from msgspec import UNSET

from ampwright.api.negotiation import JSON, essence
from ampwright.api.pointers import escape, fault_of
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.contract.parts import Identifier
from ampwright.contract.unread_items import UnreadItem
from ampwright.engine.site.use import Fault
from ampwright.settings import Settings

T = TypeVar("T")

# An answer that is sent while the caller still writes is often lost (the kernel resets the connection), so a body that
# is too large is read on and thrown away, up to this many bytes and within the time that any body has.
_DRAINED_BYTES = 16 * 2**20


class ClientLeftError(Exception):
    """The caller closed the connection; nobody is there to be answered."""


async def read(request: Request[Any, Any, Any], wanted: type[T], settings: Settings, *, larger_body: str = "") -> T:
    """The body, decoded and held against its schema.

    larger_body : not empty for an import, which may be longer; what to do with what is longer still.

    Raises ProblemError: 415 for another media type, charset or any content encoding; 413 above
    ``settings.body_limit_bytes`` (``import_limit_bytes``); 408 after ``settings.body_timeout_s`` (longer for an
    import); 400 for what is not JSON; 422 with a pointer for what does not fit ``wanted``.
    """
    refuse_other_media_types(request)
    return decode(await _bytes_of(request, settings, larger_body), wanted)


def refuse_other_media_types(request: Request[Any, Any, Any]) -> None:
    header = request.headers.get("content-type")
    if header is None:
        raise _media_type("There is no Content-Type; this resource reads application/json.")
    kind, parameters = essence(header)
    if kind != JSON:
        raise _media_type(f"This resource reads {JSON}, not {kind[:80]!r}.")
    if parameters.get("charset", "utf-8") not in {"utf-8", "utf8"}:
        raise _media_type("JSON is exchanged in UTF-8 (RFC 8259, 8.1).")
    if request.headers.get("content-encoding") is not None:
        raise ProblemError(
            "unsupported-media-type",
            "Bodies are read without a content encoding.",
            headers={"Accept-Encoding": "identity"},  # RFC 9110, 12.5.3: what would have been read
        )


def _media_type(detail: str) -> ProblemError:
    return ProblemError("unsupported-media-type", detail, headers={"Accept": JSON})  # RFC 9110, 12.5.1


async def _bytes_of(request: Request[Any, Any, Any], settings: Settings, larger_body: str) -> bytes:
    limit = settings.body_limit_bytes
    if larger_body:
        limit = max(limit, settings.import_limit_bytes)
    timeout_s = settings.body_timeout_s * limit / settings.body_limit_bytes
    detail = f"At most {limit} bytes are read. {larger_body}".strip()
    too_large = ProblemError("body-too-large", detail, headers={"Connection": "close"})
    declared = request.headers.get("content-length", "")
    if "expect" in request.headers and declared.isdecimal() and int(declared[:20]) > limit:
        # Who asks before sending is told before sending (RFC 9110, 10.1.1): the first `receive` calls for the body.
        raise too_large
    chunks: list[bytes] = []
    size = 0
    try:
        with anyio.fail_after(timeout_s):
            more = True
            while more:
                message = await request.receive()
                if message["type"] != "http.request":
                    raise ClientLeftError
                chunk = message.get("body", b"")
                more = message.get("more_body", False)
                size += len(chunk)
                if size <= limit:
                    chunks.append(chunk)
                elif size > limit + _DRAINED_BYTES:
                    raise too_large
                else:
                    chunks.clear()
    except TimeoutError:
        if size > limit:
            raise too_large from None
        raise ProblemError(
            "body-timeout",
            f"The body did not come to its end within {timeout_s:g} s.",
            headers={"Connection": "close"},
        ) from None
    if size > limit:
        raise too_large
    return b"".join(chunks)


def decode(body: bytes, wanted: type[T]) -> T:
    """JSON bytes as ``wanted``. Raises ProblemError (400 and 422), nothing else.

    What is no JSON is 400 wherever that shows; only JSON is held against a schema.
    """
    try:
        fault = None
        try:
            value = msgspec.json.decode(body, type=wanted)
        except msgspec.ValidationError as error:
            plain = _without_type(body)
            try:
                if _beyond_bounds(plain) is not None or not _INTEGER_WANTED.match(str(error)):
                    raise
                value = msgspec.convert(_with_integers(plain), wanted)
            except msgspec.ValidationError as last:
                fault = fault_of(last, wanted, plain)
        _refuse_duplicates(body)
    except (msgspec.DecodeError, json.JSONDecodeError) as error:
        raise ProblemError("malformed-body", _why_no_json(body, str(error))) from None
    except UnicodeDecodeError as error:
        raise ProblemError("malformed-body", _why_no_json(body, str(error))) from None
    except RecursionError:
        raise ProblemError("malformed-body", "The body is nested too deeply.") from None
    if fault is not None:
        alone = _read_alone(plain, wanted, fault)
        if isinstance(alone, ProblemFault):
            raise ProblemError("invalid-request", "Reading stopped at the first fault.", errors=[alone])
        return alone
    return value


# Small items that fit their schemas, to read the rest of a request by.
_STANDS_IN = {"id": "x", "source": {"kind": "vehicle", "voltage": "120 V"}}


def _read_alone(plain: Any, wanted: type[T], fault: ProblemFault) -> T | ProblemFault:
    """The request with an UnreadItem for each item that does not fit; a fault where something else does not fit."""
    kinds: dict[str, type[msgspec.Struct]] = getattr(wanted, "READ_ALONE", {})
    if not isinstance(plain, dict) or not kinds:
        return fault
    rest, lists = dict(plain), {}
    for member, kind in kinds.items():
        if not isinstance(plain.get(member), list):
            continue
        lists[member] = [_item(item, kind, f"/{member}/{place}", place) for place, item in enumerate(plain[member])]
        stand_in = {name: value for name, value in _STANDS_IN.items() if name in kind.__struct_fields__}
        rest[member] = [
            stand_in if isinstance(read, UnreadItem) else item
            for item, read in zip(plain[member], lists[member], strict=True)
        ]
    beyond = _beyond_bounds(rest)
    if beyond is not None:
        return ProblemFault(code="out_of_range", message=_BEYOND_BOUNDS, pointer=beyond)
    try:
        return msgspec.structs.replace(msgspec.convert(_with_integers(rest), wanted), **lists)  # type: ignore[type-var]
    except msgspec.ValidationError as error:
        return fault_of(error, wanted, rest)
    except RecursionError:
        return fault


def _item(item: Any, kind: type[msgspec.Struct], at: str, place: int) -> Any:
    beyond = _beyond_bounds(item)
    if beyond is not None:
        fault = ProblemFault(code="out_of_range", message=_BEYOND_BOUNDS, pointer=beyond)
    else:
        try:
            return msgspec.convert(_with_integers(item), kind)
        except msgspec.ValidationError as error:
            fault = fault_of(error, kind, item)
    hint = None if fault.did_you_mean is UNSET else fault.did_you_mean
    told = Fault(f"{at}{fault.pointer}", fault.code, fault.message, hint)
    members = item if isinstance(item, dict) else {}
    names = {name: _readable(members[name], list[Identifier]) for name in ("kits", "sources") if name in members}
    return UnreadItem(id=_readable(members.get("id"), Identifier) or f"#{place}", sent=item, faults=(told,), **names)


def _readable(value: Any, kind: Any) -> Any:
    try:
        return msgspec.convert(value, kind)
    except msgspec.ValidationError:
        return None


_ESCAPED = re.compile(rb"\\(?:u([0-9a-fA-F]{4})|.)", re.DOTALL)


def _why_no_json(body: bytes, said: str) -> str:
    """What a person can look for; bytes are counted from 0 over the whole body."""
    if not body.strip():
        return "There is no body."
    try:
        body.decode()
    except UnicodeDecodeError as error:
        return f"Byte {error.start} is not UTF-8."
    half: int | None = None  # where an escape begins that needs another half behind it
    for found in _ESCAPED.finditer(body):
        unit = int(found[1], 16) if found[1] else 0
        if 0xDC00 <= unit < 0xE000 and half is not None and found.start() == half + 6:
            half = None
            continue
        if half is not None or 0xDC00 <= unit < 0xE000:
            at = found.start() if half is None else half
            return f"The escape at byte {at} is half of a character: surrogates come in pairs (RFC 8259, 8.2)."
        half = found.start() if 0xD800 <= unit < 0xDC00 else None
    if half is not None:
        return f"The escape at byte {half} is half of a character: surrogates come in pairs (RFC 8259, 8.2)."
    return said[:200]


# JSON has one kind of number, and to JSON Schema 4.0 is an integer (2020-12, validation, 6.1.1). The decoder thinks
# otherwise, so what is rare is read the long way.
_INTEGER_WANTED = re.compile(r"\AExpected `int`, got `float`")
_EXACT_BELOW = 2.0**53


def _with_integers(value: Any) -> Any:
    match value:
        case float() if value.is_integer() and abs(value) < _EXACT_BELOW:
            return int(value)
        case list():
            return [_with_integers(one) for one in value]
        case dict():
            return {name: _with_integers(one) for name, one in value.items()}
    return value


def _without_type(body: bytes) -> Any:
    """JSON as it stands; a number beyond all bounds, which is JSON none the less, becomes an infinity."""
    try:
        return msgspec.json.decode(body)
    except msgspec.ValidationError:
        return json.loads(body.decode(), parse_int=_integer, parse_constant=_no_json)


def _integer(digits: str) -> int | float:
    # thousands of digits are read at a cost that grows with their square, and Python refuses them
    return int(digits) if len(digits) <= _MOST_DIGITS else math.inf


def _no_json(word: str) -> Any:
    raise msgspec.DecodeError(f"JSON knows no {word}")


_MOST_DIGITS = 400
_BEYOND_BOUNDS = "The number is out of range: no figure is that large."


def _beyond_bounds(value: Any) -> str | None:
    """Pointer to the first number that is no finite one."""
    match value:
        case float() if not math.isfinite(value):
            return ""
        case list() | dict():
            for name, one in value.items() if isinstance(value, dict) else enumerate(value):
                below = _beyond_bounds(one)
                if below is not None:
                    return f"/{escape(str(name))}{below}"
    return None


class _DuplicateMemberError(Exception):
    """Says only that there is one; where is looked for afterwards."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


def _pairs_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) < len(pairs):
        seen: set[str] = set()
        for name, _ in pairs:
            if name in seen:
                raise _DuplicateMemberError(name)
            seen.add(name)
    return members


def _refuse_duplicates(body: bytes) -> None:
    # The decoder lets the last of two equal names win. Two ratings with two meanings are a matter of safety.
    # Numbers are not wanted here; parsing one of thousands of digits would raise.
    try:
        json.loads(body.decode(), object_pairs_hook=_pairs_once, parse_int=len, parse_float=len)
    except _DuplicateMemberError as error:
        name = error.name[:80]
        raise ProblemError(
            "malformed-body",
            f"The member {name!r} stands twice in one object.",
            errors=[
                ProblemFault(
                    code="duplicate_member",
                    message=f"{name!r} stands twice in one object; it is not known which one is meant.",
                    pointer=_place_of_duplicate(body),
                )
            ],
        ) from None


def _place_of_duplicate(body: bytes) -> str:
    """Pointer to the first name that stands twice; runs only where there is one."""

    def pairs(found: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
        return [("", None), *found]  # marks a list that was an object

    pointers: list[str] = []

    def walk(value: Any, pointer: str) -> None:
        if not isinstance(value, list) or pointers:
            return
        if value and value[0] == ("", None):
            seen: set[str] = set()
            for name, member in value[1:]:
                here = f"{pointer}/{escape(name)}"
                if name in seen:
                    pointers.append(here)
                    return
                seen.add(name)
                walk(member, here)
        else:
            for index, item in enumerate(value):
                walk(item, f"{pointer}/{index}")

    walk(json.loads(body.decode(), object_pairs_hook=pairs, parse_int=len, parse_float=len), "")
    return pointers[0][:300] if pointers else ""
