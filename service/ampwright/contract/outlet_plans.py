"""What does a caller post to /v1/outlet-plans, and what comes back?

A load check's request whose tools are plugged in nowhere yet: the answer's connections, put into it, make the load
check that each plan carries.
"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.load_checks import (
    Assumption,
    Connection,
    CrewLine,
    Figure,
    Finding,
    LoadCheckRequest,
    StatedAsOf,
    UsedEntry,
    Verdicts,
)
from ampwright.contract.parts import MOST_ITEMS, Answer, Identifier, Request
from ampwright.contract.quantities import LengthText

Share = Annotated[float, Meta(ge=0.0, le=1e9)]
Number = Annotated[int, Meta(ge=0, le=1_000_000_000)]


class WayToPosition(Request, frozen=True, kw_only=True):
    """How far it is from one receptacle, along the way that a cord would lie."""

    receptacle: Identifier
    distance: LengthText


class WorkPosition(Request, frozen=True, kw_only=True):
    """A place where tools are used. `distance` holds from every receptacle that `ways` does not name; without it, only
    the receptacles of `ways` are used for this place."""

    id: Identifier
    distance: LengthText | UnsetType = UNSET
    ways: Annotated[list[WayToPosition], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET


class ToolWish(Request, frozen=True, kw_only=True):
    """What is settled of one tool before planning. `into` keeps it at a receptacle or on a cord; `own_cord` is the
    length of the tool's own cord. A tool without a position may be used anywhere."""

    tool: Identifier
    position: Identifier | UnsetType = UNSET
    priority: (
        Annotated[
            int, Meta(ge=1, le=9, description="1 is the last to stay off, 9 the first; 3 where left out.", examples=[1])
        ]
        | UnsetType
    ) = UNSET
    into: Identifier | UnsetType = UNSET
    supply_option: Identifier | UnsetType = UNSET
    own_cord: LengthText | UnsetType = UNSET


class ToolGroup(Request, frozen=True, kw_only=True):
    """Tools that must be able to run at the same time: all of them are on, or none."""

    id: Identifier
    tools: Annotated[list[Identifier], Meta(min_length=1, max_length=40)]


class OutletPlanRequest(LoadCheckRequest, frozen=True, kw_only=True):
    """A load check's request without connections: `cords` are the spare cords, `cases` the sets that must hold (else
    all that the people can run). A plan is made of at most 40 tools, 20 receptacles and 40 cords."""

    positions: Annotated[list[WorkPosition], Meta(max_length=20)] | UnsetType = UNSET
    wishes: Annotated[list[ToolWish], Meta(max_length=40)] | UnsetType = UNSET
    groups: Annotated[list[ToolGroup], Meta(max_length=12)] | UnsetType = UNSET
    plans: (
        Annotated[int, Meta(ge=1, le=5, description="How many plans are wanted; 3 where left out.", examples=[1])]
        | UnsetType
    ) = UNSET


# --- answer ------------------------------------------------------------------------------------------------------


class PlannedTool(Answer, frozen=True, kw_only=True):
    """Where one tool goes: the receptacle, the cords from it outward, and which supply option with the reason.

    `why` is one of only_option, asked_for, others_fit_nowhere, better_plan. `current_a` is typical, at the source's
    open voltage; the load check has it as it is behind cords.
    """

    tool: str
    receptacle: str
    cords: list[str] = []
    supply_option: str
    why: str
    text: str
    current_a: Figure
    position: str | UnsetType = UNSET


class PlannedCircuit(Answer, frozen=True, kw_only=True):
    """The largest typical load that the sets bring to one circuit."""

    circuit: str
    current_a: Figure
    rating_a: Figure
    load_ratio: Share


class PlanCheck(Answer, frozen=True, kw_only=True):
    """The load check of the plan: post `request` to /v1/load-checks for all of it; the digest is that answer's.

    `findings` are those that are no mere info, worst first; their pointers lead into `request`.
    """

    verdict: Verdicts
    question: Assumption | UnsetType = UNSET
    crew_card: list[CrewLine] = []
    findings: list[Finding] = []
    not_assessed: list[str] = []
    request: LoadCheckRequest
    request_digest: str


class OutletPlan(Answer, frozen=True, kw_only=True):
    """One plan. `connections` is what a load check takes. `gap_ratio` is how much better the best could be in what is
    on, or where that is equal in what it costs; `proven_optimal` says that nothing is."""

    connections: list[Connection]
    tools: list[PlannedTool]
    stays_off: list[str] = []
    circuits: list[PlannedCircuit] = []
    cords_used: Number
    joints: Annotated[Number, Meta(description="Places where one cord is plugged into another.")]
    gap_ratio: Share
    proven_optimal: bool
    load_check: PlanCheck


class PlanConflict(Answer, frozen=True, kw_only=True):
    """Tools that cannot all be on; without tools, nothing can. `because` holds codes of findings and of plans:
    GET /v1/reference/findings and the list outlet_plan_reason of GET /v1/reference/words have their meanings.

    `smallest`: every smaller set was shown to go.
    """

    tools: list[str]
    because: list[str]
    text: str
    smallest: bool


class ToolLeftOff(Answer, frozen=True, kw_only=True):
    """What stays off in the first plan, most wanted first, and what it does not go together with."""

    tool: str
    priority: Annotated[int, Meta(ge=1, le=9)]
    because: list[str]
    with_tools: list[str] = []
    text: str
    what_to_do: str


class TriedPlan(Answer, frozen=True, kw_only=True):
    """A plan that its load check did not let stand: the part of it that fails by itself, and the first finding."""

    connections: list[Connection]
    tools: list[str]
    code: str
    text: str


class PlanQuestionOpen(Answer, frozen=True, kw_only=True):
    """What to find out: if it is otherwise, all of `then_on` could be on by the figures of the plan."""

    code: str
    pointer: str
    value: str
    if_instead: str
    how_to_find_out: str
    then_on: list[str]


class PlanMethod(Answer, frozen=True, kw_only=True):
    """How it was found: branch and bound with a limit of nodes, never of seconds. `complete` false: something was
    given up for want of nodes or load checks, and no plan counts as proven."""

    solves: Number
    nodes: Number
    node_limit: Number
    plans_tried: Number
    load_checks: Number
    complete: bool


class OutletPlanAnswer(Answer, frozen=True, kw_only=True):
    """Plans, best first. `outcome` is all_on, some_stay_off or nothing_fits; `verdict` that of the first plan's load
    check. `conflicts` and `leave_out` say why something stays off, `questions` what could change that."""

    outcome: str
    verdict: Verdicts | UnsetType = UNSET
    plans: list[OutletPlan] = []
    leave_out: list[ToolLeftOff] = []
    conflicts: list[PlanConflict] = []
    questions: list[PlanQuestionOpen] = []
    tried: list[TriedPlan] = []
    assumptions: list[Assumption] = []
    method: PlanMethod
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
