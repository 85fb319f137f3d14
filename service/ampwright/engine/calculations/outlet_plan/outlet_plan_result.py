"""What does an outlet plan come to? Plain results; the study adds each plan's whole load check.

None means: left out of the answer.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check_result import AssumptionResult, LoadCheckResult
from ampwright.engine.site.use import Case, Connection


@dataclass(frozen=True, slots=True)
class PluggedConnection:
    plug: str
    into: str


@dataclass(frozen=True, slots=True)
class PlannedTool:
    """current_a : typical, at the open voltage of the source. why : code of why this supply option."""

    tool: str
    receptacle: str
    cords: tuple[str, ...]
    supply_option: str
    why: str
    text: str
    current_a: float
    position: str | None = None


@dataclass(frozen=True, slots=True)
class PlannedCircuit:
    """load_ratio : the largest typical load that the cases bring, over the rating."""

    circuit: str
    current_a: float
    rating_a: float
    load_ratio: float


@dataclass(frozen=True, slots=True)
class ToolLeftOff:
    """because : codes of reasons, finding codes among them. with_tools : what it does not go together with."""

    tool: str
    priority: int
    because: tuple[str, ...]
    with_tools: tuple[str, ...]
    text: str
    what_to_do: str


@dataclass(frozen=True, slots=True)
class PlanConflict:
    """Tools that cannot all be on, none of which can be left out of the set; no tools: nothing can be on.

    smallest : whether each smaller set was shown to go.
    """

    tools: tuple[str, ...]
    because: tuple[str, ...]
    text: str
    smallest: bool


@dataclass(frozen=True, slots=True)
class TriedPlan:
    """A plan that failed: what of it fails by itself, and its first finding."""

    connections: tuple[PluggedConnection, ...]
    tools: tuple[str, ...]
    code: str
    text: str


@dataclass(frozen=True, slots=True)
class PlanQuestionOpen:
    """What to find out: if the assumption is otherwise, these tools could be on by the figures of the plan."""

    code: str
    pointer: str
    value: str
    if_instead: str
    how_to_find_out: str
    then_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlanMethod:
    solves: int
    nodes: int
    node_limit: int
    plans_tried: int
    load_checks: int
    complete: bool


@dataclass(frozen=True, slots=True)
class PlannedOutlets:
    """One plan. connections, cases : for the load check to be posted; cases None: its own. checked : its load check,
    verdicts and findings only."""

    connections: tuple[Connection, ...]
    cases: tuple[Case, ...] | None
    tools: tuple[PlannedTool, ...]
    stays_off: tuple[str, ...]
    circuits: tuple[PlannedCircuit, ...]
    cords_used: int
    joints: int
    gap_ratio: float
    proven_optimal: bool
    checked: LoadCheckResult


@dataclass(frozen=True, slots=True)
class OutletPlanResult:
    """outcome : all_on, some_stay_off, or nothing_fits."""

    outcome: str
    plans: tuple[PlannedOutlets, ...]
    conflicts: tuple[PlanConflict, ...]
    leave_out: tuple[ToolLeftOff, ...]
    tried: tuple[TriedPlan, ...]
    questions: tuple[PlanQuestionOpen, ...]
    assumptions: tuple[AssumptionResult, ...]
    method: PlanMethod
