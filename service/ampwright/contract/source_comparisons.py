"""What does a caller post to /v1/source-comparisons, and which rows come back?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

import msgspec
from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.comparison_quantities import HireText, MassText, NoiseText
from ampwright.contract.energy_budgets import Percentiles
from ampwright.contract.load_checks import Change, FigureBand, StatedAsOf, Verdict, Verdicts, WithdrawalsAsOf
from ampwright.contract.matrix_parts import (
    MOST_JOBS,
    MOST_KITS,
    MOST_SOURCES,
    Amount,
    CellAsks,
    CellEnergyBudget,
    CellFinding,
    CellLoadCheck,
    Counted,
    MatrixEnd,
    MatrixFault,
    MatrixJob,
    MatrixKit,
    MatrixProgress,
    MatrixSource,
    MissingThing,
    PluggedIn,
    RowRange,
    VerdictCounts,
)
from ampwright.contract.parts import Answer, Identifier, ReleaseNumber, Request
from ampwright.contract.quantities import DurationText
from ampwright.engine.calculations.choosing.comparison_ranking import VALUE_STEP, WEIGHT_STEP

ComparisonInclusion = Literal["changes", "requests"]
Weight = Annotated[float, Meta(ge=0.0, le=1000.0, examples=[2.0])]


class ComparedSource(MatrixSource, frozen=True, kw_only=True):
    """A source with what only a comparison asks: its mass, its noise, and what having it costs a day."""

    mass: MassText | UnsetType = UNSET
    noise: NoiseText | UnsetType = UNSET
    hire: HireText | UnsetType = UNSET


class CaseUse(Request, frozen=True, kw_only=True):
    """How long one case runs in a month."""

    case: Identifier
    per_month: DurationText


class ComparedJob(MatrixJob, frozen=True, kw_only=True):
    """A job with the use that its cases see: given, each row tells the hours a month that would fail."""

    usage: Annotated[list[CaseUse], Meta(max_length=64)] | UnsetType = UNSET


class ComparisonWeights(Request, frozen=True, kw_only=True):
    """How much each criterion counts against the others among sources of one verdict; 0 leaves it out. The default is
    1 for each.

    `spare_a`: amperes left on the tightest circuit at the high estimate. `start_outcome`: how sure the least sure start
    is. `independent_circuits`: circuits known to be separate. `restart_hazards`: findings about power coming back.
    `hours_failing`: of the stated use. `reserve_reached_ratio`: days on which the energy reserve is reached.
    `cost_per_day`: hire and energy, in one currency. `mass_kg`, `noise_db`. `exhaust`: whether it has any.
    `extra_gear`: things to bring.
    """

    spare_a: Weight = 1.0
    start_outcome: Weight = 1.0
    independent_circuits: Weight = 1.0
    restart_hazards: Weight = 1.0
    hours_failing: Weight = 1.0
    reserve_reached_ratio: Weight = 1.0
    cost_per_day: Weight = 1.0
    mass_kg: Weight = 1.0
    noise_db: Weight = 1.0
    exhaust: Weight = 1.0
    extra_gear: Weight = 1.0


class SourceComparisonRequest(Request, frozen=True, kw_only=True):
    """Sources, kits and jobs. Each kit at each job is asked for on each source, and the sources are put in order."""

    READ_ALONE: ClassVar[Mapping[str, type[Request]]] = {
        "sources": ComparedSource,
        "kits": MatrixKit,
        "jobs": ComparedJob,
    }

    sources: Annotated[list[ComparedSource], Meta(min_length=1, max_length=MOST_SOURCES)]
    kits: Annotated[list[MatrixKit], Meta(min_length=1, max_length=MOST_KITS)]
    jobs: Annotated[list[ComparedJob], Meta(min_length=1, max_length=MOST_JOBS)] | UnsetType = UNSET
    weights: ComparisonWeights | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    catalogue_release: ReleaseNumber | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET
    include: (
        Annotated[
            list[ComparisonInclusion],
            Meta(
                max_length=4,
                description="`requests`: each row holds the load check, and the energy budget, that can be posted "
                "alone. `changes`: each failing row holds the cheapest single change after which it does not fail, "
                "where there is one; for up to 200 rows a call.",
            ),
        ]
        | UnsetType
    ) = UNSET


# --- answer ------------------------------------------------------------------------------------------------------


class UsedWeights(Answer, frozen=True, kw_only=True):
    """The weights that counted: the caller's, or 1 each."""

    spare_a: float
    start_outcome: float
    independent_circuits: float
    restart_hazards: float
    hours_failing: float
    reserve_reached_ratio: float
    cost_per_day: float
    mass_kg: float
    noise_db: float
    exhaust: float
    extra_gear: float


class SpareCurrent(Answer, frozen=True, kw_only=True):
    """What is left on the tightest circuit while all tools of a case work; below zero is missing."""

    case: str
    circuit: str
    current_a: FigureBand


class SpareSourceOutput(Answer, frozen=True, kw_only=True):
    """What is left of the tightest limit at the high estimate, as a share of what it gives without end."""

    case: str
    limit: str
    left_ratio: Amount


class HardestStartOfAll(Answer, frozen=True, kw_only=True):
    """The least sure start by its hard estimate; `source_must_give_a` for `source_must_give_s` would start it."""

    case: str
    tool: str
    outcome: str
    peak_a: Amount | UnsetType = UNSET
    source_must_give_a: Amount | UnsetType = UNSET
    source_must_give_s: Amount | UnsetType = UNSET
    probability_ratio: Amount | UnsetType = UNSET


class HowPowerReturns(Answer, frozen=True, kw_only=True):
    """How power comes back after a trip, the walk to where it is reset, and what is dangerous about it.

    `how`: automatic, remote, manual or unknown; unknown counts as automatic for danger and as manual for lost work.
    """

    how: str
    where: str | UnsetType = UNSET
    by: str | UnsetType = UNSET
    needs: str | UnsetType = UNSET
    after_s: FigureBand | UnsetType = UNSET
    tries: int | UnsetType = UNSET
    hazards: list[str] = []


class ReserveReached(Answer, frozen=True, kw_only=True):
    """`outcome`: holds, may_be_reached or reached; `reached_at_s` is of the days on which it is."""

    outcome: str
    reached_probability_ratio: Amount
    reached_at_s: Percentiles | UnsetType = UNSET


class DayCost(Answer, frozen=True, kw_only=True):
    """What a day costs: hire and energy, as far as both are stated in one currency."""

    currency: str
    hire: Amount | UnsetType = UNSET
    energy: Percentiles | UnsetType = UNSET
    whole: Percentiles


class UseThatFails(Answer, frozen=True, kw_only=True):
    """Hours a month of the stated use: that fail, that wait for an answer, that hold if nobody pushes; and all."""

    failing_h: Amount
    unknown_h: Amount
    marginal_h: Amount
    of_h: Amount


class SeenAgainstLabel(Answer, frozen=True, kw_only=True):
    """What somebody saw of this unit beside what it is marked. Capacity is taken from the lower: `lowers` says that
    the row was worked out with what was seen, because it is below the mark."""

    on_date: str
    what: str
    receptacle: str | UnsetType = UNSET
    marked_a: Amount | UnsetType = UNSET
    seen_a: Amount | UnsetType = UNSET
    lasted: str | UnsetType = UNSET
    note: str | UnsetType = UNSET
    lowers: bool


class SingleChange(Answer, frozen=True, kw_only=True):
    """A change that makes the row hold, by RFC 6902, worked out again as a whole.

    `verdict` is what the row becomes, `then` and `energy` what its load check and energy budget become. The steps go
    into the row's `load_check_request` and, where there is one, its `energy_budget_request`; or into the latter alone;
    or, for a longer cord, into the row's kit as it was sent, whose plugging is planned anew where it is not stated.
    """

    text: str
    verdict: Verdict
    then: Verdicts
    energy: Verdicts | UnsetType = UNSET
    of: Literal["load_check_request", "energy_budget_request", "kit"]
    change: list[Change]


class DecidingInput(Answer, frozen=True, kw_only=True):
    """A small change that puts another source first: `kind` weight or figure, of `source` where it is a figure."""

    kind: Literal["weight", "figure"]
    criterion: str
    source: str | UnsetType = UNSET
    change_ratio: Amount
    then_first: str


class SourceComparisonHead(Answer, frozen=True, kw_only=True, tag="head", tag_field="kind"):
    """The first line: what all rows rest on, and which rows follow."""

    rows_in_all: Counted
    begin: Counted
    end: Counted
    weights: UsedWeights
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str


class SourceComparisonRow(Answer, frozen=True, kw_only=True, tag="row", tag_field="kind"):
    """One source for one kit at one job; `id` is job/kit/source, `index` counts from 0 over all rows.

    `rank` is among the sources of this kit at this job: by verdict, then by score; a failing source never stands before
    one that does not, and of those that fail one with a `danger` (somebody may be hurt) stands behind those without.
    `pareto`: no other source is at least as good by verdict, danger and every criterion, and better by one; else
    `beaten_by` names those that are. `fails_first` is of the failing case, else what the rules forbid, else of the day.
    """

    index: Counted
    id: str
    job: str
    kit: str
    source: str
    verdict: Verdict | UnsetType = UNSET
    sentence: str | UnsetType = UNSET
    danger: bool | UnsetType = UNSET
    rank: int | UnsetType = UNSET
    score: Amount | UnsetType = UNSET
    pareto: bool | UnsetType = UNSET
    beaten_by: list[str] = []
    deciding: Annotated[
        list[DecidingInput],
        Meta(
            description="On the first source: what puts another first if a weight is "
            f"{100 * WEIGHT_STEP:.0f} % or a figure {100 * VALUE_STEP:.0f} % off; empty where nothing does."
        ),
    ] = []
    failing_case: str | UnsetType = UNSET
    fails_first: CellFinding | UnsetType = UNSET
    question: CellAsks | UnsetType = UNSET
    spare: SpareCurrent | UnsetType = UNSET
    spare_output: SpareSourceOutput | UnsetType = UNSET
    hardest_start: HardestStartOfAll | UnsetType = UNSET
    independent_circuits: Counted | UnsetType = UNSET
    power_back: HowPowerReturns | UnsetType = UNSET
    reserve: ReserveReached | UnsetType = UNSET
    cost_per_day: DayCost | UnsetType = UNSET
    mass_kg: Amount | UnsetType = UNSET
    noise_db: Amount | UnsetType = UNSET
    exhaust: bool | UnsetType = UNSET
    use: UseThatFails | UnsetType = UNSET
    missing: list[MissingThing] = []
    cheapest_change: SingleChange | UnsetType = UNSET
    seen: list[SeenAgainstLabel] = []
    plugging: Literal["stated", "planned"] | UnsetType = UNSET
    plugged: list[PluggedIn] = []
    load_check: CellLoadCheck | UnsetType = UNSET
    energy_budget: CellEnergyBudget | UnsetType = UNSET
    load_check_request: (
        Annotated[msgspec.Raw, Meta(description="A LoadCheckRequest that can be posted alone.")] | UnsetType
    ) = UNSET
    energy_budget_request: (
        Annotated[msgspec.Raw, Meta(description="An EnergyBudgetRequest that can be posted alone.")] | UnsetType
    ) = UNSET
    errors: list[MatrixFault] = []


SourceComparisonLine = SourceComparisonHead | SourceComparisonRow | MatrixProgress | MatrixEnd


class SourceComparisonAnswer(Answer, frozen=True, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    rows: list[SourceComparisonRow]
    rows_in_all: Counted
    computed: Counted
    weights: UsedWeights
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
