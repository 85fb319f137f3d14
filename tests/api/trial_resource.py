"""A resource for the tests of the platform: one declaration of each kind, no engine and no catalogue behind it."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Annotated, Any, Literal

import msgspec
from ampwright.api.ndjson import LINES, streamed
from ampwright.api.operations import Call, Deprecation, Operations, Reply
from ampwright.api.parameters import IfMatch
from ampwright.api.problems import PROBLEM_MEDIA_TYPE, PROBLEM_TYPES, ProblemError, ProblemFault
from msgspec import UNSET, Meta, Struct, UnsetType


class Reel(Struct, tag="reel", tag_field="kind", forbid_unknown_fields=True):
    """A cord on a reel."""

    layers: Annotated[int, Meta(ge=1, le=6, description="Layers on the drum.")]


class Straight(Struct, tag="straight", tag_field="kind", forbid_unknown_fields=True):
    """A cord laid straight."""

    length: Annotated[
        str,
        Meta(pattern=r"^[0-9]{1,4} (?:m|ft)$(?!\n)", description="Length with its unit.", examples=["30 m"]),
    ]


Laid = Reel | Straight


class Item(Struct, forbid_unknown_fields=True):
    """One thing."""

    id: Annotated[str, Meta(pattern=r"^[a-z]{1,10}$(?!\n)")]
    laid: Laid | UnsetType = UNSET
    ratio: Annotated[float, Meta(ge=0, le=1)] | UnsetType = UNSET
    mode: Literal["working", "idle", "heavy"] = "idle"
    flags: Annotated[list[bool], Meta(max_length=3)] | UnsetType = UNSET


class TrialRequest(Struct, forbid_unknown_fields=True):
    """Things to count."""

    items: Annotated[list[Item], Meta(min_length=1, max_length=50)]
    sleeps_s: Annotated[float, Meta(ge=0, le=3)] = 0.0
    note: Annotated[str, Meta(max_length=20_000)] | UnsetType = UNSET


class TrialAnswer(Struct):
    """How many things there were."""

    count: Annotated[int, Meta(ge=0)]
    laid: list[Laid]
    note: str = ""


class EntryPath(Struct):
    slug: Annotated[str, Meta(pattern=r"^[a-z]{1,10}$(?!\n)", description="Name of the entry.")]


class Page(Struct, forbid_unknown_fields=True):
    limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50
    tag: Annotated[list[str], Meta(max_length=3)] = []


class Entry(Struct):
    """An entry."""

    slug: str
    limit: int
    tags: list[str]


operations = Operations("Trials", "For the tests of the platform.")
given_up: list[float] = []
HELD, let_go, LONGEST_HELD_S = "held", threading.Event(), 60.0
"""A trial with this note goes on until the event is set, so that a test need not guess how long others take."""


@operations.post(
    "/v1/trials",
    "create_trial",
    lane="calculation",
    problems=("contradictory-request",),
    renderings={"text/plain": lambda answer: f"{answer.count} things\n"},
)
def create_trial(body: TrialRequest, call: Call) -> TrialAnswer:
    """Count things.

    Sleeps as long as it is told, to stand for a calculation.
    """
    names = [item.id for item in body.items]
    twice = [index for index, name in enumerate(names) if name in names[:index]]
    if twice:
        faults = [
            ProblemFault(code="id_twice", message="Given twice.", pointer=f"/items/{index}/id") for index in twice
        ]
        raise ProblemError("contradictory-request", errors=faults)
    if body.note == HELD:
        let_go.wait(LONGEST_HELD_S)
    end = time.monotonic() + body.sleeps_s
    while (left := end - time.monotonic()) > 0:
        if call.cancel.is_set():
            given_up.append(left)
            call.cancel.check()
        time.sleep(min(0.01, left))
    laid = [item.laid for item in body.items if item.laid is not UNSET]
    return TrialAnswer(count=len(names), laid=laid, note="" if body.note is UNSET else body.note)


@operations.get("/v1/entries/{slug}", "get_entry", entity_tag=True, compress=False, problems=("no-such-entry",))
async def get_entry(path: EntryPath, query: Page) -> Reply[Entry]:
    """Read an entry."""
    if path.slug == "none":
        raise ProblemError("no-such-entry", "There is no such entry.")
    return Reply(Entry(slug=path.slug, limit=query.limit, tags=query.tag), entity_tag='"r3"')


@operations.put("/v1/entries/{slug}", "put_entry", lane="database", statuses={200: "Known.", 201: "Written."})
def put_entry(path: EntryPath, headers: IfMatch, body: Item) -> Reply[Entry]:
    """Write an entry."""
    if headers.revision != 3:
        raise ProblemError("precondition-failed", "The newest revision is 3.")
    return Reply(Entry(slug=path.slug, limit=0, tags=[body.mode]), status=201, entity_tag='"r4"')


@operations.get("/v1/failures", "get_failure")
async def get_failure() -> TrialAnswer:
    """Fail in an unforeseen way."""
    raise RuntimeError("the password is swordfish")


@operations.get("/v1/lane-failures", "get_lane_failure", lane="long")
def get_lane_failure() -> TrialAnswer:
    """Fail in an unforeseen way, in a thread."""
    raise RuntimeError("the password is swordfish")


@operations.get(
    "/v1/given-up",
    "get_given_up",
    deprecation=Deprecation(
        since=datetime(2026, 1, 1, tzinfo=UTC), sunset=datetime(2027, 1, 1, tzinfo=UTC), link="/docs"
    ),
)
async def get_given_up() -> TrialAnswer:
    """Answer although it will not for ever."""
    return TrialAnswer(count=0, laid=[])


class CountedLine(Struct, tag="row", tag_field="kind"):
    """A row."""

    place: Annotated[int, Meta(ge=0)]
    filling: str = "." * 1000


class LastLine(Struct, tag="end", tag_field="kind"):
    """The last line."""

    rows: Annotated[int, Meta(ge=0)]


TrialLine = CountedLine | LastLine


class TrialLinesRequest(Struct, forbid_unknown_fields=True):
    """How many rows, and which of them fails."""

    rows: Annotated[int, Meta(ge=0, le=1_000_000)]
    fails_at: Annotated[int, Meta(ge=0, le=1_000_000)] | UnsetType = UNSET


made_lines: list[int] = []


@operations.post(
    "/v1/trial-lines",
    "count_lines",
    scope="calculate",
    sends=(LINES,),
    line=TrialLine,
    compress=False,
    problems=("too-much-work",),
)
async def count_lines(body: TrialLinesRequest, call: Call) -> Reply[bytes]:
    """Count in lines."""

    def lines() -> Iterator[Struct]:
        made_lines.clear()
        for place in range(body.rows):
            if place == body.fails_at:
                raise ProblemError("too-much-work", "No further.")
            made_lines.append(place)
            yield CountedLine(place=place)
        yield LastLine(rows=body.rows)

    return await streamed(call, "long", lines)


@operations.get(
    "/v1/given-up-lines",
    "get_given_up_lines",
    sends=(LINES,),
    line=TrialLine,
    compress=False,
    deprecation=Deprecation(since=datetime(2026, 1, 1, tzinfo=UTC)),
)
async def get_given_up_lines(call: Call) -> Reply[bytes]:
    """Answer in lines although it will not for ever."""
    return await streamed(call, "long", lambda: iter((LastLine(rows=0),)))


def assert_problem(response: Any, status: int, code: str) -> dict[str, Any]:
    """Holds a response to the shape of RFC 9457 that every error of this service has; gives the problem."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == PROBLEM_MEDIA_TYPE
    assert response.headers["x-request-id"]
    problem = msgspec.json.decode(response.content)
    # RFC 9457, 3.1.2: "status" repeats the status; 3.1.1: "type" is a URI reference, here to a page of this service.
    assert problem["status"] == status
    assert problem["type"] == f"/problems/{code}"
    assert problem["title"] == PROBLEM_TYPES[code].title
    assert set(problem) <= {"type", "title", "status", "detail", "instance", "errors"}
    for fault in problem.get("errors", []):
        assert fault["code"]
        assert fault["message"]
        assert ("pointer" in fault) or ("parameter" in fault) or fault["code"].endswith("_not_ready")
    return problem
