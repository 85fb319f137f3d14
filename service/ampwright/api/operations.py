"""How does a resource say what it answers, once, for the router and for the document alike?

A resource module makes one ``Operations`` and decorates its handlers. What a handler takes and gives stands in its
annotations; the router decodes by them, the document is drawn from them (openapi.py), so the two cannot disagree::

    operations = Operations("Load checks", "Which tools run on which source.")

    @operations.post("/v1/load-checks", "create_load_check", lane="calculation", problems=("contradictory-request",))
    def create_load_check(body: LoadCheckRequest, call: Call) -> LoadCheckAnswer:
        \"\"\"Check a kit against a power source.

        The first line is the summary, the rest the description.
        \"\"\"
        return call.services.studies.load_check(body, cancelled=call.cancel.is_set)

Arguments, each optional, are known by name: ``body`` (a Struct that forbids unknown members), ``path``, ``query`` and
``headers`` (Structs, see parameters.py), ``call``. A plain function runs in the lane it names; a coroutine runs on the
event loop and hands work to lanes with ``await call.run("database", function, ...)``. The result is the annotated
Struct, or a ``Reply`` of it where status, headers or entity tag need saying.
"""

from __future__ import annotations

import inspect
import typing
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from email.utils import format_datetime
from typing import Any, BinaryIO, Generic, Literal, TypeVar

from litestar import Request
from msgspec import Struct

from ampwright.api.admission import CancelFlag, LaneName, run_while_wanted
from ampwright.api.negotiation import JSON, LINES
from ampwright.api.problems import PROBLEM_TYPES
from ampwright.api.services import Services
from ampwright.catalogue.keys import AccessKey

T = TypeVar("T")
Handler = TypeVar("Handler", bound=Callable[..., Any])
Scope = Literal["calculate", "catalogue:read", "catalogue:write", "release", "keys"]
_ARGUMENTS = ("body", "path", "query", "headers", "call")


@dataclass(frozen=True, slots=True)
class Reply(Generic[T]):
    """An answer with more than a body.

    content : the Struct, or with ``media_type`` bytes, a stream of them or a file; entity_tag : with its quotation
    marks (``'"r3"'``), compared with If-None-Match for us.
    """

    content: T
    status: int = 200
    headers: Mapping[str, str] = field(default_factory=dict)
    entity_tag: str | None = None
    media_type: str | None = None


@dataclass(frozen=True, slots=True)
class Call:
    """The request in hand."""

    request: Request[Any, Any, Any]
    services: Services
    cancel: CancelFlag
    key: AccessKey | None = None
    media_type: str = JSON

    @property
    def who(self) -> str:
        """Who calls, for the catalogue's records: the key's id, or that none was asked for."""
        return "no key" if self.key is None else f"key {self.key.id}"

    async def run(self, lane: LaneName, work: Callable[..., T], *arguments: object, let_in: bool = False) -> T:
        """Result of ``work(*arguments)`` in a thread of the lane; given up where the caller leaves.

        let_in : goes on with what was let in before, so that it waits however many do.
        """
        return await run_while_wanted(
            self.services.lanes[lane],
            work,
            *arguments,
            cancel=self.cancel,
            caller_left=self._caller_left,
            let_in=let_in,
        )

    async def _caller_left(self) -> None:
        # The body has been read to its end, so the next message can only be that the connection is gone.
        while (await self.request.receive())["type"] == "http.request":
            pass


@dataclass(frozen=True, slots=True)
class Deprecation:
    """When an operation was, or will be, given up.

    Sources: RFC 9745 (Deprecation), RFC 8594 (Sunset). link : page that says what to use instead.
    """

    since: datetime
    sunset: datetime | None = None
    link: str | None = None

    def headers(self) -> dict[str, str]:
        headers = {"Deprecation": f"@{int(self.since.timestamp())}"}
        if self.sunset is not None:
            headers["Sunset"] = format_datetime(self.sunset.astimezone(UTC), usegmt=True)
        if self.link is not None:
            headers["Link"] = f'<{self.link}>; rel="deprecation"; type="text/html"'
        return headers


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One method on one path, with everything that router and document need to know of it."""

    method: str
    path: str
    operation_id: str
    tag: str
    summary: str
    description: str
    handler: Callable[..., Any]
    arguments: tuple[str, ...]
    body: Any = None
    path_parameters: type[Struct] | None = None
    query: type[Struct] | None = None
    headers: type[Struct] | None = None
    answer: Any = None
    statuses: Mapping[int, str]
    problems: tuple[str, ...]
    renderings: Mapping[str, Callable[[Any], str | bytes]]
    answer_headers: Mapping[str, str]
    lane: LaneName | None = None
    scope: Scope | None = None
    entity_tag: bool = False
    deprecation: Deprecation | None = None
    documented: bool = True
    compress: bool = True
    sends: tuple[str, ...] | None = None
    line: Any = None
    larger_body: str = ""
    streams: tuple[str, ...] = ()
    links: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @property
    def media_types(self) -> tuple[str, ...]:
        """What it can send, the usual one first; empty where that is not chosen by the caller."""
        if self.sends is not None:
            return self.sends
        return (JSON, *self.renderings, *((LINES,) if self.line is not None else ()), *self.streams)


class Operations:
    """The operations of one resource, in the order in which they are declared.

    tag : heading on the reference page; description : what stands under it.
    """

    def __init__(self, tag: str, description: str = "") -> None:
        self.tag = tag
        self.description = description
        self._operations: list[Operation] = []

    def __iter__(self) -> Iterator[Operation]:
        return iter(self._operations)

    def get(self, path: str, operation_id: str, **options: Any) -> Callable[[Handler], Handler]:
        """Declare a GET; HEAD comes with it. Options: see ``declare``."""
        return self.declare("GET", path, operation_id, **options)

    def post(self, path: str, operation_id: str, **options: Any) -> Callable[[Handler], Handler]:
        """Declare a POST. Options: see ``declare``."""
        return self.declare("POST", path, operation_id, **options)

    def put(self, path: str, operation_id: str, **options: Any) -> Callable[[Handler], Handler]:
        """Declare a PUT. Options: see ``declare``."""
        return self.declare("PUT", path, operation_id, **options)

    def delete(self, path: str, operation_id: str, **options: Any) -> Callable[[Handler], Handler]:
        """Declare a DELETE. Options: see ``declare``."""
        return self.declare("DELETE", path, operation_id, **options)

    def declare(
        self,
        method: str,
        path: str,
        operation_id: str,
        *,
        lane: LaneName | None = None,
        scope: Scope | None = None,
        statuses: Mapping[int, str] | None = None,
        problems: Sequence[str] = (),
        renderings: Mapping[str, Callable[[Any], str | bytes]] | None = None,
        answer_headers: Mapping[str, str] | None = None,
        entity_tag: bool = False,
        deprecation: Deprecation | None = None,
        documented: bool = True,
        compress: bool = True,
        sends: Sequence[str] | None = None,
        line: Any = None,
        larger_body: str = "",
        streams: Sequence[str] = (),
        links: Mapping[str, Mapping[str, str]] | None = None,
    ) -> Callable[[Handler], Handler]:
        """Declare one operation.

        lane : where a plain function runs (a coroutine has none);
        scope : what an access key must be made for; where left out, under /v1: catalogue:read for a GET, calculate for
        what runs in a lane of calculations, catalogue:write for the rest; elsewhere none is asked for;
        statuses : what each status other than a problem means; where left out only 200;
        problems : codes beyond those that any operation of its kind can have;
        renderings : other media types and how the answer is written in them;
        answer_headers : name and meaning of headers beyond the usual ones;
        entity_tag : a GET whose replies carry an ETag and that answers 304;
        documented : False keeps it out of the document (pages for people);
        compress : False for streams, for what is packed already, and for what needs a strong tag, for If-Match;
        sends : media types of a Reply of bytes, instead of JSON and the renderings; empty: whatever is asked for;
        larger_body : reads as much as an import may be; the text says what to do with what is larger still;
        line : what one line of a stream is (ndjson.py), where ``sends`` names such a type, or where a coroutine answers
        with one beside JSON: ``call.media_type`` says what the caller wants;
        streams : other media types that such a coroutine answers with;
        links : ids of operations that take what this one gave, each with the runtime expression of OpenAPI for its
        parameters.

        Raises TypeError where declaration and handler do not go together.
        """
        unlisted = sorted(set(problems) - set(PROBLEM_TYPES))
        if unlisted:
            raise TypeError(f"{operation_id}: no such problem: {', '.join(unlisted)}")

        def decorate(handler: Handler) -> Handler:
            hints = typing.get_type_hints(handler, include_extras=True)
            names = tuple(inspect.signature(handler).parameters)
            strange = [name for name in names if name not in _ARGUMENTS]
            if strange:
                raise TypeError(f"{operation_id}: no such argument: {', '.join(strange)}")
            if inspect.iscoroutinefunction(handler) == (lane is not None):
                raise TypeError(f"{operation_id}: a plain function names its lane, a coroutine has none")
            summary, _, description = inspect.cleandoc(handler.__doc__ or "").partition("\n")
            if not summary:
                raise TypeError(f"{operation_id}: the handler's docstring is its summary")
            self._operations.append(
                Operation(
                    method=method,
                    path=path,
                    operation_id=operation_id,
                    tag=self.tag,
                    summary=summary.rstrip("."),
                    description=description.strip(),
                    handler=handler,
                    arguments=names,
                    body=hints.get("body"),
                    path_parameters=hints.get("path"),
                    query=hints.get("query"),
                    headers=hints.get("headers"),
                    answer=_answer_type(hints.get("return")),
                    statuses=dict(statuses or {200: "The answer, as its schema says."}),
                    problems=tuple(problems),
                    renderings=dict(renderings or {}),
                    answer_headers=dict(answer_headers or {}),
                    lane=lane,
                    scope=scope or _usual_scope(method, path, lane),
                    entity_tag=entity_tag,
                    deprecation=deprecation,
                    documented=documented,
                    compress=compress,
                    sends=None if sends is None else tuple(sends),
                    line=line,
                    larger_body=larger_body,
                    streams=tuple(streams),
                    links=dict(links or {}),
                )
            )
            return handler

        return decorate


def _usual_scope(method: str, path: str, lane: LaneName | None) -> Scope | None:
    if not path.startswith("/v1/"):
        return None
    if lane in ("calculation", "long"):
        return "calculate"
    return "catalogue:read" if method == "GET" else "catalogue:write"


def _answer_type(annotation: Any) -> Any:
    if typing.get_origin(annotation) is Reply:
        annotation = typing.get_args(annotation)[0]
    return None if annotation in (None, type(None), bytes, BinaryIO) else annotation
