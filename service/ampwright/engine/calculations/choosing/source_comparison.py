"""How does one source do with one kit at one job, in the figures by which sources are compared?

Read from the cell's own load check and energy budget: what fails first and where, the amperes that are left, how sure
each start is, circuits that are independent, how power comes back, how long until the reserve, and which case fails.
Nothing is summed from plates.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ampwright.engine.calculations.choosing.kit_validation import first_finding
from ampwright.engine.calculations.choosing.matrix import CellResult
from ampwright.engine.calculations.energy.energy_result import EnergyFinding, Percentiles
from ampwright.engine.calculations.load_check.load_check_result import CaseResult, FigureBand, Finding, LoadCheckResult
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.source import PowerSource

RESTART_HAZARDS = (
    "restart_without_warning",
    "restarts_if_held",
    "restarts_by_itself",
    "power_sent_back_unseen",
    "must_not_stop",
)
# of starts, the worst first
OUTCOMES_WORST_FIRST = (
    "collapses", "stalls", "hunts", "shuts_off", "trips", "source_limits", "not_assessed", "starts_slowly", "starts",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class SpareAmps:
    """What is left on the tightest circuit while all tools of a case work; below zero is missing."""

    case: str
    circuit: str
    current_a: FigureBand


@dataclass(frozen=True, slots=True)
class SpareOutput:
    """What is left of the tightest limit at the high estimate, as a share of what it gives without end."""

    case: str
    limit: str
    left_ratio: float


@dataclass(frozen=True, slots=True)
class HardestStart:
    """The least sure start, by its hard estimate, and what would make it start: `source_must_give_a` for
    `source_must_give_s`, where the source does not."""

    case: str
    tool: str
    outcome: str
    peak_a: float | None
    source_must_give_a: float | None
    source_must_give_s: float | None
    probability_ratio: float | None


@dataclass(frozen=True, slots=True)
class PowerBack:
    """How power comes back after a trip, where somebody must go, and what is dangerous about it.

    how : automatic, remote, manual or unknown. hazards : texts of findings about coming back.
    """

    how: str
    where: str | None = None
    by: str | None = None
    needs: str | None = None
    after_s: FigureBand | None = None
    tries: int | None = None
    hazards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TimeToReserve:
    """outcome : holds, may_be_reached or reached. reached_at_s : of the days on which it is reached."""

    outcome: str
    reached_probability_ratio: float
    reached_at_s: Percentiles | None = None


@dataclass(frozen=True, slots=True)
class SourceCell:
    """The figures of one source in a comparison.

    failing_case : None where no case fails by itself; what the rules forbid, and a day that fails, have none.
    cases : verdict by case. exhaust : whether it burns something.
    """

    failing_case: str | None
    fails_first: Finding | EnergyFinding | None
    spare: SpareAmps | None
    spare_output: SpareOutput | None
    hardest_start: HardestStart | None
    independent_circuits: int
    power_back: PowerBack
    reserve: TimeToReserve | None
    energy_cost: Percentiles | None
    currency: str | None
    cases: Mapping[str, str]
    exhaust: bool


def source_cell(result: CellResult) -> SourceCell:
    """The figures of a cell that was worked out with the figures of its rows."""
    load, energy = result.load, result.energy
    failing = next((case for case in load.cases if case.verdict == "fail"), None)
    cost = energy.cost if energy is not None else None
    return SourceCell(
        failing_case=failing.id if failing is not None else None,
        fails_first=_fails_first(result, failing),
        spare=_spare(load),
        spare_output=_spare_output(load),
        hardest_start=_hardest_start(load),
        independent_circuits=independent_circuits(result.question.site.source),
        power_back=_power_back(result.question.site.source, load),
        reserve=_time_to_reserve(result),
        energy_cost=cost.amount if cost is not None else None,
        currency=cost.currency if cost is not None else None,
        cases={case.id: case.verdict for case in load.cases},
        exhaust=result.question.site.source.kind == "engine_generator",
    )


def independent_circuits(source: PowerSource) -> int:
    """Circuits that feed receptacles and are known to be separate; what nobody said counts as shared."""
    settled = settle_source(source, Ledger())
    return len({receptacle.circuit for receptacle in settled.receptacles})


def _fails_first(result: CellResult, failing: CaseResult | None) -> Finding | EnergyFinding | None:
    """The finding behind a failing cell: of its first failing case, else what the rules forbid, else of its day."""
    load, energy = result.load, result.energy
    if failing is not None:
        return _first_of(load, failing)
    if load.verdict.overall == "fail":
        return first_finding(load)
    return first_finding(energy) if energy is not None and energy.verdict.overall == "fail" else None


def _first_of(load: LoadCheckResult, case: CaseResult) -> Finding | None:
    """The finding behind the first case that fails: of what a crew meets first, too much before too dangerous."""
    of_case = [item for item in load.findings if item.severity != "info" and case.id in item.cases]
    whole = [item for item in load.findings if item.severity == "danger" and not item.cases]
    for aspect, verdict in (("capacity", load.verdict.capacity), ("safety", load.verdict.safety)):
        some = [item for item in (*of_case, *whole) if item.aspect == aspect]
        found = next((item for item in some if item.fails), some[0] if some else None)
        if verdict == "fail" and found is not None:
            return found
    return next(iter((*of_case, *whole)), None)


def _spare(load: LoadCheckResult) -> SpareAmps | None:
    found: list[SpareAmps] = []
    for case in load.cases:
        for row in case.results:
            if row.pushed:
                continue
            found += [
                SpareAmps(case.id, circuit.circuit, circuit.headroom_a)
                for circuit in row.circuits
                if circuit.headroom_a is not None
            ]
    return min(found, key=lambda one: (one.current_a.low, one.case, one.circuit), default=None)


def _spare_output(load: LoadCheckResult) -> SpareOutput | None:
    found: list[SpareOutput] = []
    for case in load.cases:
        for row in case.results:
            if row.pushed:
                continue
            for limit in row.limits:
                for asked, given in (
                    (limit.apparent_power_va, limit.continuous_va),
                    (limit.power_w, limit.continuous_w),
                    (limit.current_a, limit.continuous_a),
                ):
                    if asked is not None and given is not None and given > 0.0:
                        left = round((given - asked.high) / given, 4)
                        found.append(SpareOutput(case.id, limit.limit, left))
    return min(found, key=lambda one: (one.left_ratio, one.case, one.limit), default=None)


def _hardest_start(load: LoadCheckResult) -> HardestStart | None:
    found: list[HardestStart] = []
    for case in load.cases:
        for row in case.results:
            for tool in row.tools:
                start = tool.start
                if start is None or row.pushed:
                    continue
                worst_of = start.outcomes.high if start.outcomes is not None else start.outcome
                found.append(
                    HardestStart(
                        case.id,
                        tool.tool,
                        worst_of,
                        start.peak_a,
                        start.source_must_give_a,
                        start.source_must_give_s,
                        start.probability_ratio,
                    )
                )

    def rank(one: HardestStart) -> tuple[int, float, str, str]:
        place = OUTCOMES_WORST_FIRST.index(one.outcome) if one.outcome in OUTCOMES_WORST_FIRST else -1
        return place, -(one.peak_a or 0.0), one.case, one.tool

    return min(found, key=rank, default=None)


def _power_back(source: PowerSource, load: LoadCheckResult) -> PowerBack:
    reset = settle_source(source, Ledger()).reset
    hazards = tuple(dict.fromkeys(item.text for item in load.findings if item.code in RESTART_HAZARDS))
    if reset is None:
        return PowerBack("unknown", hazards=hazards)
    after = reset.after_s
    return PowerBack(
        reset.how,
        reset.where,
        reset.by,
        reset.needs,
        None if after is None else FigureBand(after.low, after.typical, after.high),
        reset.tries,
        hazards,
    )


def _time_to_reserve(result: CellResult) -> TimeToReserve | None:
    reserve = result.energy.reserve if result.energy is not None else None
    if reserve is None:
        return None
    return TimeToReserve(reserve.outcome, reserve.reached_probability_ratio, reserve.reached_at_s)
