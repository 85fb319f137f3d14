"""What does an energy budget find? Plain results; the contract maps them to the wire member by member.

None means: left out of the answer. Percentiles go by number: p10 is the lowest.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ampwright.engine.calculations.load_check.load_check_result import NOT_TOLD, BreakEven, CrewLine, Verdicts
from ampwright.engine.standards.citations import Basis


@dataclass(frozen=True, slots=True)
class Percentiles:
    p10: float
    p50: float
    p90: float


@dataclass(frozen=True, slots=True)
class EnergyFinding:
    """What the day brings; its changes are those of the day as a whole. fails : whether it makes its aspect fail."""

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
    fails: bool = field(default=False, metadata=NOT_TOLD)


@dataclass(frozen=True, slots=True)
class EnergyAssumption:
    """An assumption, and how much it moves what is left in the worst of ten days."""

    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | None = None
    swings_verdict_to: str | None = None
    influence_j: float | None = None
    basis: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Left:
    """Energy in the store: at the end of work, on arrival, and above the reserve.

    enough : whether energy alone makes the day, pass, marginal or fail.
    """

    enough: str
    after_work_j: Percentiles
    at_end_j: Percentiles
    above_reserve_j: Percentiles
    at_end_ratio: Percentiles | None = None


@dataclass(frozen=True, slots=True)
class Reserve:
    """outcome: holds, may_be_reached, reached. `reached_at_s` is of the days on which it is reached."""

    outcome: str
    energy_j: float
    to_be_left_on_arrival_j: float
    drive_j: Percentiles | None
    reached_probability_ratio: float
    reached_at_s: Percentiles | None = None


@dataclass(frozen=True, slots=True)
class WorkDone:
    work: str
    unit: str
    asked: float
    done: Percentiles
    done_ratio: Percentiles
    time_needed_s: Percentiles | None = None


@dataclass(frozen=True, slots=True)
class CurvePoint:
    at_s: float
    doing: str
    left_j: Percentiles


@dataclass(frozen=True, slots=True)
class Use:
    """What eats how much. kind: tool, standby, work, awake, conversion or drive."""

    name: str
    kind: str
    energy_j: Percentiles
    share_ratio: float


@dataclass(frozen=True, slots=True)
class StopResult:
    stop: str
    arrives_at_s: float
    leaves_at_s: float
    left_on_leaving_j: Percentiles
    must_be_left_j: float
    verdict: str


@dataclass(frozen=True, slots=True)
class Fuel:
    burnt_m3: Percentiles
    left_m3: Percentiles
    mean_load_ratio: float


@dataclass(frozen=True, slots=True)
class Cost:
    amount: Percentiles
    currency: str


@dataclass(frozen=True, slots=True)
class DayFigures:
    """What a day comes to, as one of many or alone.

    done_ratio : what the loads were fed before the reserve is reached, over what they asked for. verdict, because : of
    a day among many, and the codes of the findings that keep it from passing, worst first; None of a day alone, which
    has findings.
    """

    left: Left | None
    time_left_s: Percentiles | None
    reached_probability_ratio: float
    done_ratio: Percentiles
    used_j: Percentiles
    fuel: Fuel | None
    cost: Cost | None
    carbon_kg: Percentiles | None
    verdict: Verdicts | None = None
    because: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Duty:
    """How a tool runs: mean share of the time, and starts an hour where its air was given."""

    tool: str
    running_ratio: Percentiles
    energy_j: Percentiles
    starts_per_hour: float | None = None
    ten_minutes_ratio: Percentiles | None = None


@dataclass(frozen=True, slots=True)
class PosteriorResult:
    work: str
    unit: str
    before_j: Percentiles
    after_j: Percentiles
    observations: int
    agrees: bool


@dataclass(frozen=True, slots=True)
class Method:
    """method: certain (no band), one_figure (exact percentiles) or monte_carlo.

    energy_conserved : whether in every draw what was there and came in is what was used, lost and left, to 1e-9.
    """

    method: str
    seed: int
    draws: int
    energy_conserved: bool


@dataclass(frozen=True, slots=True)
class EnergyBudgetResult:
    verdict: Verdicts
    question: str | None
    crew_card: tuple[CrewLine, ...]
    findings: tuple[EnergyFinding, ...]
    assumptions: tuple[EnergyAssumption, ...]
    cheapest_change: BreakEven | None
    changes: tuple[BreakEven, ...]
    left: Left | None
    time_left_s: Percentiles | None
    reserve: Reserve | None
    work_done: tuple[WorkDone, ...]
    stops: tuple[StopResult, ...]
    curve: tuple[CurvePoint, ...]
    uses: tuple[Use, ...]
    duties: tuple[Duty, ...]
    used_j: Percentiles
    done_ratio: Percentiles
    fuel: Fuel | None
    cost: Cost | None
    carbon_kg: Percentiles | None
    posteriors: tuple[PosteriorResult, ...]
    not_assessed: tuple[str, ...]
    method: Method
    basis: tuple[Basis, ...]
