"""What does a caller post to /v1/load-checks, and what comes back?"""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.after_trip import AfterTrip
from ampwright.contract.cord_members import CordMembers
from ampwright.contract.documents import Observation
from ampwright.contract.load_check_parts import (
    FaultFigure,
    HighestWeld,
    IncludeList,
    LargestMotor,
    LargestSet,
    LongestCord,
    ShiftUse,
    SpareLoad,
    StartOrder,
    TripCurve,
)
from ampwright.contract.parts import MOST_ITEMS, Answer, Identifier, ReleaseNumber, Request, Revision, Slug, text_list
from ampwright.contract.power_source_members import (
    BatteryStation,
    CatalogueSource,
    EngineGenerator,
    SiteSupply,
    Vehicle,
)
from ampwright.contract.quantities import DurationText, LengthText, TemperatureText
from ampwright.contract.tool_members import ToolMembers
from ampwright.engine.standards.rule_layers import code_bases

AnySource = Vehicle | EngineGenerator | BatteryStation | SiteSupply | CatalogueSource
CODE_BASES = code_bases()
WithdrawalsAsOf = Annotated[
    str,
    Meta(
        max_length=40,
        pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]{1,6})?(?:[Zz]|[+\-][0-9]{2}:[0-9]{2})$(?!\n)",
        description="Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. "
        "With `catalogue_release` it gives the same answer for ever.",
        examples=["2026-05-04T09:30:00Z"],
    ),
]
StatedAsOf = Annotated[
    str,
    Meta(
        description="Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none.",
        examples=["2026-05-04T09:30:00.000000Z"],
    ),
]


class ToolInUse(ToolMembers, frozen=True, kw_only=True):
    """A tool of this request: inline, or an entry of the catalogue with corrections beside it."""

    id: Identifier
    entry: Slug | UnsetType = UNSET
    revision: Revision | UnsetType = UNSET
    must_return: bool | UnsetType = UNSET
    follows: Identifier | UnsetType = UNSET
    on: DurationText | UnsetType = UNSET
    off: DurationText | UnsetType = UNSET


class CordInUse(CordMembers, frozen=True, kw_only=True):
    """A cord of this request: inline, or an entry of the catalogue with corrections beside it."""

    id: Identifier
    entry: Slug | UnsetType = UNSET
    revision: Revision | UnsetType = UNSET
    laid: Literal["straight", "coiled", "drum"] | UnsetType = UNSET
    drum_layers: Annotated[int, Meta(ge=1, le=12, examples=[3])] | UnsetType = UNSET
    led_through: (
        Annotated[
            Literal["none", "door", "window", "road"],
            Meta(description="What the cord is led through or across: a door or window can close on it."),
        ]
        | UnsetType
    ) = UNSET


class KitInUse(Request, frozen=True, kw_only=True):
    """A kit of the catalogue; it expands to its ids, `x-1`, `x-2` by count."""

    entry: Slug
    revision: Revision | UnsetType = UNSET


class Connection(Request, frozen=True, kw_only=True):
    """What is plugged into what: `plug` is a tool or cord, `into` a receptacle or cord."""

    plug: Identifier
    into: Identifier
    leg: (
        Annotated[Literal["L1", "L2", "L3"], Meta(description="Leg of an outlet where a cord carries several.")]
        | UnsetType
    ) = UNSET


class Case(Request, frozen=True, kw_only=True):
    """What runs together, and in which order it is started."""

    id: Identifier
    running: Annotated[list[Identifier], Meta(min_length=1, max_length=MOST_ITEMS)]
    start_order: Annotated[list[Identifier], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET


class Conditions(Request, frozen=True, kw_only=True):
    """Where and in what weather."""

    place: Literal["open_air", "indoors", "enclosed", "trench", "near_opening"] | UnsetType = UNSET
    wet: bool | UnsetType = UNSET
    ambient: TemperatureText | UnsetType = UNSET
    altitude: LengthText | UnsetType = UNSET
    fixed_wiring: (
        Annotated[
            Literal["none", "transfer_equipment", "direct"],
            Meta(description="Whether the source also feeds the wiring of a building, and through what."),
        ]
        | UnsetType
    ) = UNSET


class LoadCheckRequest(Request, frozen=True, kw_only=True):
    """A source, what is plugged into what through which cords, how many people, and which cases run."""

    source: AnySource
    tools: Annotated[list[ToolInUse], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    cords: Annotated[list[CordInUse], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: Annotated[list[Connection], Meta(max_length=2 * MOST_ITEMS)] | UnsetType = UNSET
    people: Annotated[int, Meta(ge=1, le=200, description="How many people work.", examples=[2])] | UnsetType = UNSET
    cases: Annotated[list[Case], Meta(max_length=64)] | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: (
        Annotated[list[Annotated[str, text_list(CODE_BASES, "A rule layer.", "nec-2023")]], Meta(max_length=8)]
        | UnsetType
    ) = UNSET
    catalogue_release: ReleaseNumber | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET
    include: IncludeList | UnsetType = UNSET
    shift: DurationText | UnsetType = UNSET


# --- answer ------------------------------------------------------------------------------------------------------

Verdict = Literal["pass", "marginal", "unknown", "fail"]
Severity = Literal["danger", "caution", "info"]
Aspect = Literal["safety", "capacity", "code"]
Figure = Annotated[float, Meta(ge=-1e9, le=1e9)]


class FigureBand(Answer, frozen=True, kw_only=True):
    """Low, typical and high by number; the lowest voltage belongs to the highest current."""

    low: Figure
    typical: Figure
    high: Figure


class Verdicts(Answer, frozen=True, kw_only=True):
    """Three verdicts and the worst of them. `code` is left out where the request asks for no rule layer."""

    overall: Verdict
    capacity: Verdict
    safety: Verdict
    code: Verdict | UnsetType = UNSET


class CrewLine(Answer, frozen=True, kw_only=True):
    """One line of the crew card; `code` is stable, `text` is made from it."""

    code: str
    text: str


class Change(Answer, frozen=True, kw_only=True):
    """One step of RFC 6902: apply it to the request and post again."""

    op: Literal["add", "replace", "remove"]
    path: str
    value: msgspec.Raw | UnsetType = UNSET


class BreakEven(Answer, frozen=True, kw_only=True):
    """The smallest change of one kind that makes a finding better, and what the answer says when it is posted again.

    `then` is the verdict of the finding's aspect in `cases`, `answer_then` the verdicts of the whole answer, apart from
    what `include` adds: other findings may stand. `kind` is a word of `break_even_kind` in `/v1/reference/words`.
    """

    text: str
    then: Verdict
    change: list[Change] = []
    cases: list[str] = []
    kind: str | UnsetType = UNSET
    answer_then: Verdicts | UnsetType = UNSET


class Finding(Answer, frozen=True, kw_only=True):
    """One thing the user must know.

    Where break-evens were asked for and there is none, `no_break_even` says why: a word of `break_even_none` in
    `/v1/reference/words`.
    """

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    cases: list[str] = []
    figure: str | UnsetType = UNSET
    value: Figure | UnsetType = UNSET
    limit: Figure | UnsetType = UNSET
    basis: list[str] = []
    break_even: list[BreakEven] = []
    no_break_even: str | UnsetType = UNSET


class Assumption(Answer, frozen=True, kw_only=True):
    """A default that the answer leans on, how to find out, and what it would change.

    `if_instead_change` is the other answer as steps of RFC 6902: apply them to the request and post again.
    """

    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    if_instead_change: list[Change] = []
    swings_verdict_to: Verdict | UnsetType = UNSET
    cases: list[str] = []
    basis: list[str] = []


class TripFigure(Answer, frozen=True, kw_only=True):
    """When a device opens, at the earliest and at the latest; a time that does not exist is left out."""

    outcome: str
    earliest_s: Figure | UnsetType = UNSET
    latest_guaranteed_s: Figure | UnsetType = UNSET
    latest_assumed_s: Figure | UnsetType = UNSET


class Outcomes(Answer, frozen=True, kw_only=True):
    """What happens where all is at its easiest, as usual, and at its hardest."""

    low: str
    typical: str
    high: str


class StartFigure(Answer, frozen=True, kw_only=True):
    """What happens when the tool is switched on while the others of its case run.

    `outcome` is one of starts, starts_slowly, stalls, hunts, source_limits, shuts_off, trips, collapses, not_assessed,
    by the typical estimate; `outcomes` is there where the estimates differ. Peak, time and trip are those of the
    hardest. `source_must_give_a` for `source_must_give_s` would start it.
    """

    outcome: str
    peak_a: Figure | UnsetType = UNSET
    lasts_s: Figure | UnsetType = UNSET
    source_must_give_a: Figure | UnsetType = UNSET
    probability_ratio: Figure | UnsetType = UNSET
    outcomes: Outcomes | UnsetType = UNSET
    source_must_give_s: Figure | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class SagFigure(Answer, frozen=True, kw_only=True):
    """The lowest voltage at a tool while another of its case starts, and how long it stays below nine tenths of plate.

    `through` is circuit or source: what the two share. `outcome` is rides_through, may_drop_out or drops_out.
    """

    lowest_voltage_v: Figure
    lasts_s: Figure
    starting: str
    through: str
    outcome: str


class ToolResult(Answer, frozen=True, kw_only=True):
    tool: str
    load_state: Literal["idle", "working", "heavy"]
    verdict: Verdict
    supply_option: str | UnsetType = UNSET
    power_w: FigureBand | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET
    lowest_voltage_v: Figure | UnsetType = UNSET
    start: StartFigure | UnsetType = UNSET
    sag: SagFigure | UnsetType = UNSET


class CircuitResult(Answer, frozen=True, kw_only=True):
    circuit: str
    current_a: FigureBand
    rating_a: Figure | UnsetType = UNSET
    headroom_a: FigureBand | UnsetType = UNSET
    neutral_current_a: FigureBand | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class LegResult(Answer, frozen=True, kw_only=True):
    leg: str
    current_a: FigureBand
    voltage_v: FigureBand


class LimitResult(Answer, frozen=True, kw_only=True):
    limit: str
    outcome: str
    apparent_power_va: FigureBand | UnsetType = UNSET
    power_w: FigureBand | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    continuous_va: Figure | UnsetType = UNSET
    continuous_w: Figure | UnsetType = UNSET
    continuous_a: Figure | UnsetType = UNSET
    peak_a: FigureBand | UnsetType = UNSET
    peak_limit_a: Figure | UnsetType = UNSET


class ReceptacleResult(Answer, frozen=True, kw_only=True):
    receptacle: str
    current_a: FigureBand
    marked_a: Figure | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET


class CordResult(Answer, frozen=True, kw_only=True):
    cord: str
    current_a: FigureBand
    capacity_a: Figure | UnsetType = UNSET
    capacity_from: str | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    copper_temperature_c: FigureBand | UnsetType = UNSET


class CaseRow(Answer, frozen=True, kw_only=True):
    """One set of load states: `pushed` names who is in `heavy`, everyone else is `working`."""

    pushed: list[str]
    verdict: Verdict
    outcome: str
    tools: list[ToolResult] = []
    circuits: list[CircuitResult] = []
    legs: list[LegResult] = []
    limits: list[LimitResult] = []
    receptacles: list[ReceptacleResult] = []
    cords: list[CordResult] = []


class CaseResult(Answer, frozen=True, kw_only=True):
    """`waits_for` names the one assumption that decides; `hangs_on` several that decide only together.

    `after_trip` has what may open first and what follows; empty where nothing may open within its band.
    """

    id: str
    running: list[str]
    verdict: Verdict
    waits_for: str | UnsetType = UNSET
    hangs_on: list[str] = []
    after_trip: list[AfterTrip] = []
    results: list[CaseRow] = []


class Basis(Answer, frozen=True, kw_only=True):
    """A clause, a table, or common practice that the answer leans on."""

    id: str
    document: str
    place: str | UnsetType = UNSET
    edition: str | UnsetType = UNSET
    status: str


class UsedEntry(Answer, frozen=True, kw_only=True):
    """A catalogue document that the answer used; of a source unit also what was seen of it, which no figure uses."""

    kind: str
    entry: str
    revision: int
    pointer: str
    withdrawn: Annotated[str, Meta(description="Why it was withdrawn, where it was.")] | UnsetType = UNSET
    observations: list[Observation] | UnsetType = UNSET


class LoadCheckAnswer(Answer, frozen=True, kw_only=True):
    """Most important first: verdict, what to tell the crew, findings, assumptions, figures."""

    verdict: Verdicts
    question: str | UnsetType = UNSET
    crew_card: list[CrewLine] = []
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    cases: list[CaseResult] = []
    spare: list[SpareLoad] | UnsetType = UNSET
    highest_welds: list[HighestWeld] | UnsetType = UNSET
    largest_motors: list[LargestMotor] | UnsetType = UNSET
    longest_cords: list[LongestCord] | UnsetType = UNSET
    faults: list[FaultFigure] | UnsetType = UNSET
    shift: ShiftUse | UnsetType = UNSET
    largest_sets: list[LargestSet] | UnsetType = UNSET
    start_orders: list[StartOrder] | UnsetType = UNSET
    trip_curves: list[TripCurve] | UnsetType = UNSET
    not_assessed: list[str] = []
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
