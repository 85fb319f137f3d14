"""What does a load check find? Plain results; the contract maps them to the wire member by member.

None means: left out of the answer. A member marked `NOT_TOLD` is for other calculations and stands in no answer.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ampwright.engine.standards.citations import Basis

NOT_TOLD = {"told": False}


@dataclass(frozen=True, slots=True)
class FigureBand:
    low: float
    typical: float
    high: float


@dataclass(frozen=True, slots=True)
class Verdicts:
    overall: str
    capacity: str
    safety: str
    code: str | None


@dataclass(frozen=True, slots=True)
class CrewLine:
    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Change:
    """One step of RFC 6902; `value` is JSON."""

    op: str
    path: str
    value: object = None


@dataclass(frozen=True, slots=True)
class BreakEven:
    text: str
    then: str
    change: tuple[Change, ...] = ()
    cases: tuple[str, ...] = ()
    kind: str | None = None
    answer_then: Verdicts | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """fails : whether it makes its aspect fail; a caution of an aspect that fails may only be open or marginal."""

    code: str
    severity: str
    aspect: str
    pointer: str
    text: str
    what_to_do: str
    cases: tuple[str, ...] = ()
    figure: str | None = None
    value: float | None = None
    limit: float | None = None
    basis: tuple[str, ...] = ()
    break_even: tuple[BreakEven, ...] = ()
    no_break_even: str | None = None
    fails: bool = field(default=False, metadata=NOT_TOLD)


@dataclass(frozen=True, slots=True)
class AssumptionResult:
    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | None = None
    if_instead_change: tuple[Change, ...] = ()
    swings_verdict_to: str | None = None
    cases: tuple[str, ...] = ()
    basis: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TripFigure:
    outcome: str
    earliest_s: float | None = None
    latest_guaranteed_s: float | None = None
    latest_assumed_s: float | None = None


@dataclass(frozen=True, slots=True)
class Outcomes:
    """What happens where all is at its easiest, as usual, and at its hardest."""

    low: str
    typical: str
    high: str


@dataclass(frozen=True, slots=True)
class StartFigure:
    outcome: str
    peak_a: float | None = None
    lasts_s: float | None = None
    source_must_give_a: float | None = None
    probability_ratio: float | None = None
    outcomes: Outcomes | None = None
    source_must_give_s: float | None = None
    trip: TripFigure | None = None


@dataclass(frozen=True, slots=True)
class SagFigure:
    lowest_voltage_v: float
    lasts_s: float
    starting: str
    through: str
    outcome: str


@dataclass(frozen=True, slots=True)
class ToolResult:
    tool: str
    load_state: str
    verdict: str
    supply_option: str | None = None
    power_w: FigureBand | None = None
    current_a: FigureBand | None = None
    voltage_v: FigureBand | None = None
    lowest_voltage_v: float | None = None
    start: StartFigure | None = None
    sag: SagFigure | None = None


@dataclass(frozen=True, slots=True)
class CircuitResult:
    circuit: str
    current_a: FigureBand
    rating_a: float | None = None
    headroom_a: FigureBand | None = None
    neutral_current_a: FigureBand | None = None
    trip: TripFigure | None = None


@dataclass(frozen=True, slots=True)
class LegResult:
    leg: str
    current_a: FigureBand
    voltage_v: FigureBand


@dataclass(frozen=True, slots=True)
class LimitResult:
    limit: str
    outcome: str
    apparent_power_va: FigureBand | None = None
    power_w: FigureBand | None = None
    current_a: FigureBand | None = None
    continuous_va: float | None = None
    continuous_w: float | None = None
    continuous_a: float | None = None
    peak_a: FigureBand | None = None
    peak_limit_a: float | None = None


@dataclass(frozen=True, slots=True)
class ReceptacleResult:
    receptacle: str
    current_a: FigureBand
    marked_a: float | None = None
    voltage_v: FigureBand | None = None


@dataclass(frozen=True, slots=True)
class CordResult:
    cord: str
    current_a: FigureBand
    capacity_a: float | None = None
    capacity_from: str | None = None
    drop_v: FigureBand | None = None
    copper_temperature_c: FigureBand | None = None


@dataclass(frozen=True, slots=True)
class CaseRow:
    pushed: tuple[str, ...]
    verdict: str
    outcome: str
    tools: tuple[ToolResult, ...] = ()
    circuits: tuple[CircuitResult, ...] = ()
    legs: tuple[LegResult, ...] = ()
    limits: tuple[LimitResult, ...] = ()
    receptacles: tuple[ReceptacleResult, ...] = ()
    cords: tuple[CordResult, ...] = ()


@dataclass(frozen=True, slots=True)
class TripResetFigure:
    how: str
    text: str
    where: str | None = None
    by: str | None = None
    needs: str | None = None
    after_s: FigureBand | None = None
    tries: int | None = None


@dataclass(frozen=True, slots=True)
class AfterTripTool:
    tool: str
    switch: str
    means: tuple[str, ...]
    start: str | None = None
    winding_temperature_c: FigureBand | None = None


@dataclass(frozen=True, slots=True)
class AfterTripFigure:
    opens: str
    opener: str
    occasion: str
    place: str
    reset: TripResetFigure
    restart: str
    ending: str
    tool: str | None = None
    earliest_s: float | None = None
    latest_assumed_s: float | None = None
    restarts: Outcomes | None = None
    endings: Outcomes | None = None
    opens_again: str | None = None
    holds_earliest_s: float | None = None
    holds_latest_s: float | None = None
    tools: tuple[AfterTripTool, ...] = ()


@dataclass(frozen=True, slots=True)
class CaseResult:
    id: str
    running: tuple[str, ...]
    verdict: str
    waits_for: str | None = None
    hangs_on: tuple[str, ...] = ()
    after_trip: tuple[AfterTripFigure, ...] = ()
    results: tuple[CaseRow, ...] = ()


@dataclass(frozen=True, slots=True)
class LoadCheckResult:
    verdict: Verdicts
    question: str | None
    crew_card: tuple[CrewLine, ...]
    findings: tuple[Finding, ...]
    assumptions: tuple[AssumptionResult, ...]
    cases: tuple[CaseResult, ...]
    not_assessed: tuple[str, ...]
    basis: tuple[Basis, ...]
