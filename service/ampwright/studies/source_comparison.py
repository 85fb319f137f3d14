"""What is the stamped answer to a comparison of sources, row by row?

Each row is one source for one kit at one job: its own load check and energy budget, the figures by which sources are
compared, and where it stands among them. Raises RefusedRequest where the request as a whole makes no sense; what is
wrong with one row stands in that row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.load_checks import Case, Change
from ampwright.contract.matrix_parts import CellEnergyBudget, CellLoadCheck
from ampwright.contract.places import Places
from ampwright.contract.source_comparisons import (
    ComparedJob,
    ComparisonWeights,
    DayCost,
    DecidingInput,
    HardestStartOfAll,
    HowPowerReturns,
    ReserveReached,
    SingleChange,
    SourceComparisonHead,
    SourceComparisonRequest,
    SourceComparisonRow,
    SpareCurrent,
    SpareSourceOutput,
    UsedWeights,
    UseThatFails,
)
from ampwright.contract.unread_items import UnreadItem
from ampwright.contract.writing import to_wire
from ampwright.contract.writing_matrix import (
    asks_to_wire,
    fault_to_wire,
    finding_to_wire,
    missing_to_wire,
    verdicts_to_wire,
)
from ampwright.engine.calculations.choosing.cheapest_change import CheapestChange
from ampwright.engine.calculations.choosing.comparison_ranking import CRITERIA, Candidate, Ranked, rank
from ampwright.engine.calculations.choosing.cord_reach import CordReach
from ampwright.engine.calculations.choosing.kit_validation import (
    KitCell,
    job_fails_for,
    kit_cell,
    nothing_to_check,
    with_missing,
    with_reach,
)
from ampwright.engine.calculations.choosing.matrix import CellResult
from ampwright.engine.calculations.choosing.source_comparison import OUTCOMES_WORST_FIRST, SourceCell, source_cell
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.use import Fault
from ampwright.studies.comparison_changes import change_of
from ampwright.studies.comparison_members import Having, having_of, hours_of, seen_to_wire
from ampwright.studies.longer_cord_change import longer_cord_change
from ampwright.studies.matrix import Cell, Matrix
from ampwright.studies.matrix_cell import COST_LIMIT_UNITS, CellAsked
from ampwright.studies.matrix_pool import Group
from ampwright.studies.matrix_rows import MadeCell, MatrixRows, missing_of, plugged_members

MOST_BEATEN_BY = 5


@dataclass(frozen=True, slots=True)
class _Told:
    """kit : what dispatch would hear. cell : None where nothing was left to check."""

    kit: KitCell
    cell: SourceCell | None = None
    change: CheapestChange | None = None


class SourceComparison(MatrixRows[_Told, SourceComparisonRow]):
    """The rows of one request."""

    def __init__(
        self,
        store: ReleaseStore[Any] | None,
        request: SourceComparisonRequest,
        cost_limit_units: int = COST_LIMIT_UNITS,
    ) -> None:
        """Errors: RefusedRequest, and those of the catalogue."""
        jobs: list[Any] = [ComparedJob(id="job")] if request.jobs is UNSET else list(request.jobs)
        hours = [({}, []) if isinstance(job, UnreadItem) else hours_of(job, f"/jobs/{m}") for m, job in enumerate(jobs)]
        for m, (_, faults) in enumerate(hours):
            if faults:
                job = jobs[m]
                jobs[m] = UnreadItem(id=job.id, sent=job, faults=tuple(faults), kits=job.kits, sources=job.sources)
        matrix = Matrix.of(
            store,
            request.sources,
            request.kits,
            jobs,
            request.catalogue_release,
            request.withdrawals_as_of,
            from_lower=True,
            cost_limit_units=cost_limit_units,
        )
        super().__init__(request, matrix, _both, with_figures=True)
        self.with_changes = request.include is not UNSET and "changes" in request.include
        self.with_requests = self.with_requests or self.with_changes
        weights = ComparisonWeights() if request.weights is UNSET else request.weights
        self.weights: dict[str, float] = {name: getattr(weights, name) for name in CRITERIA}
        self._jobs: Sequence[Any] = jobs
        self._having = [
            Having() if isinstance(source, UnreadItem) else having_of(source) for source in self.matrix.sources
        ]
        self._hours = hours

    def used_weights(self) -> UsedWeights:
        """The weights that count."""
        return UsedWeights(**self.weights)

    def head(self) -> SourceComparisonHead:
        """The first line."""
        return SourceComparisonHead(
            rows_in_all=self.matrix.rows,
            begin=self.rows.start,
            end=self.rows.stop,
            weights=self.used_weights(),
            **self.stamp,
        )

    def told(self, cell: Cell, asked: CellAsked, /) -> _Told | None:
        """The figures of a cell, before it is known whose job's use counts."""
        missing = missing_of(asked)
        change = None
        if asked.question is None:
            if not missing or asked.faults:
                return None
            if self.with_changes:
                change = longer_cord_change(self.matrix, cell, asked, job_fails_for(missing, cases_stated=True))
            return _Told(nothing_to_check(missing), change=change)
        cases_stated = asked.question.site.cases is not None
        kit, figures = self.cells.of(asked.question)
        kit = with_reach(kit, asked.reach)
        lacks = job_fails_for(missing, cases_stated=cases_stated)
        if self.with_changes and kit.verdict == "fail" and not lacks:  # no change of a request brings what is not there
            change = change_of(asked, self.matrix.lookup)
        elif self.with_changes and lacks:
            change = longer_cord_change(self.matrix, cell, asked, lacks)
        return _Told(with_missing(kit, missing, cases_stated=cases_stated), figures, change)

    def rows_of(self, group: Group, cells: Sequence[MadeCell[_Told]]) -> Iterator[SourceComparisonRow]:
        """A row for every source, with its place among them."""
        compared = [n for n, made in enumerate(cells) if made.told is not None and not self._faults(group[n])]
        costs = {n: self._cost(group[n], cells[n]) for n in compared}
        currencies = {cost.currency for cost in costs.values() if cost is not None}
        candidates = []
        for n in compared:
            told = cells[n].told
            assert told is not None
            cost = costs[n] if len(currencies) == 1 else None
            candidates.append(self._candidate(group[n], cells[n].asked, told, cost))
        ranked = rank(candidates, self.weights)
        for n, (cell, made) in enumerate(zip(group, cells, strict=True)):
            if n in compared:
                at = compared.index(n)
                stands = self._stands(ranked, at, [group[i] for i in compared])
                yield self._row(cell, made, costs[n], stands)
            else:
                yield self._row(cell, made, None, {})

    def _candidate(self, cell: Cell, asked: CellAsked, told: _Told, cost: DayCost | None) -> Candidate:
        having, found = self._having[cell.source], told.cell
        figures: dict[str, float] = {}
        if having.mass_kg is not None:
            figures["mass_kg"] = having.mass_kg
        if having.noise_db is not None:
            figures["noise_db"] = having.noise_db
        if cost is not None:
            figures["cost_per_day"] = cost.whole.p50
        figures["extra_gear"] = float(sum(item.quantity for item in told.kit.missing))
        if found is not None:
            figures["exhaust"] = float(found.exhaust)
            figures["independent_circuits"] = float(found.independent_circuits)
            figures["restart_hazards"] = float(len(found.power_back.hazards))
            if found.spare is not None:
                figures["spare_a"] = found.spare.current_a.low
            if found.hardest_start is not None:
                figures["start_outcome"] = float(OUTCOMES_WORST_FIRST.index(found.hardest_start.outcome))
            if found.reserve is not None:
                figures["reserve_reached_ratio"] = found.reserve.reached_probability_ratio
            use = self._use(cell, asked, found)
            if use is not None:
                figures["hours_failing"] = use.failing_h
        return Candidate(told.kit.verdict, figures, told.kit.danger)

    def _stands(self, ranked: Ranked, at: int, cells: Sequence[Cell]) -> dict[str, Any]:
        name = [self.matrix.sources[cell.source].id for cell in cells]
        found: dict[str, Any] = {
            "rank": ranked.ranks[at],
            "score": ranked.scores[at],
            "pareto": not ranked.beaten_by[at],
            "beaten_by": [name[i] for i in ranked.beaten_by[at][:MOST_BEATEN_BY]],
        }
        if ranked.ranks[at] == 1:
            found["deciding"] = [
                DecidingInput(
                    kind=one.kind,  # type: ignore[arg-type]  # closed on both sides
                    criterion=one.criterion,
                    source=UNSET if one.candidate is None else name[one.candidate],
                    change_ratio=one.change_ratio,
                    then_first=name[one.then_first],
                )
                for one in ranked.deciding
            ]
        return found

    def _faults(self, cell: Cell) -> tuple[Fault, ...]:
        return tuple(
            replace(fault, pointer=f"/sources/{cell.source}{fault.pointer}")
            for fault in self._having[cell.source].faults
        )

    def _use(self, cell: Cell, asked: CellAsked, found: SourceCell) -> UseThatFails | None:
        by_case, _ = self._hours[cell.job]
        cases = self._jobs[cell.job].cases
        if not by_case or cases is UNSET:
            return None
        # a case of which a tool is not there, or finds no outlet, fails, though what is left of it was checked
        whole = {case.id for case in cases if asked.kept.issuperset(case.running)}
        reached = {} if asked.reach is None else _reached(cases, asked.reach)
        total = dict.fromkeys(("fail", "unknown", "marginal", "pass"), 0.0)
        for case, hours in by_case.items():
            told = found.cases.get(case, "fail") if case in whole else "fail"
            total[worst((told, reached.get(case, "pass")))] += hours
        return UseThatFails(
            failing_h=total["fail"],
            unknown_h=total["unknown"],
            marginal_h=total["marginal"],
            of_h=sum(by_case.values()),
        )

    def _cost(self, cell: Cell, made: MadeCell[_Told]) -> DayCost | None:
        hire = self._having[cell.source].hire
        found = made.told.cell if made.told is not None else None
        energy = found.energy_cost if found is not None else None
        currency = found.currency if found is not None and energy is not None else None
        if hire is None and energy is None:
            return None
        if hire is not None and currency not in (None, hire[1]):
            return None  # two currencies make no sum
        daily = 0.0 if hire is None else hire[0]
        named = {"p10": 0.0, "p50": 0.0, "p90": 0.0} if energy is None else msgspec.to_builtins(energy)
        whole = {name: round(value + daily, 6) for name, value in named.items()}
        return msgspec.convert(
            {
                "currency": currency or (hire[1] if hire is not None else ""),
                "whole": whole,
                **({} if hire is None else {"hire": daily}),
                **({} if energy is None else {"energy": named}),
            },
            DayCost,
        )

    def _row(
        self, cell: Cell, made: MadeCell[_Told], cost: DayCost | None, stands: dict[str, Any]
    ) -> SourceComparisonRow:
        places = self.matrix.places(cell, made.asked)
        named = {**self.named(cell), **self.requests(made.asked), **stands}
        named["errors"] = [fault_to_wire(fault, places) for fault in made.asked.faults]
        named["errors"] += [fault_to_wire(fault, Places()) for fault in self._faults(cell)]
        named["seen"] = [seen_to_wire(one) for one in made.asked.seen]
        told = made.told
        if told is None or self._faults(cell):
            return SourceComparisonRow(**named)
        having = self._having[cell.source]
        for member, value in (("mass_kg", having.mass_kg), ("noise_db", having.noise_db), ("cost_per_day", cost)):
            if value is not None:
                named[member] = value
        if made.digests[0]:
            named["load_check"] = CellLoadCheck(verdict=verdicts_to_wire(told.kit.load), request_digest=made.digests[0])
        if told.kit.energy is not None:
            named["energy_budget"] = to_wire(told.kit.energy, CellEnergyBudget, request_digest=made.digests[1])
        if told.kit.question is not None:
            named["question"] = asks_to_wire(told.kit.question, places)
        if told.change is not None:
            change = told.change
            named["cheapest_change"] = SingleChange(
                text=change.text,
                verdict=change.then.verdict,  # type: ignore[arg-type]  # of verdicts.ORDER
                then=verdicts_to_wire(change.then.load),
                energy=UNSET if change.then.energy is None else verdicts_to_wire(change.then.energy),
                of=change.of,  # type: ignore[arg-type]  # closed on both sides
                change=[to_wire(step, Change) for step in change.change],
            )
        if told.cell is not None:
            named |= self._figures(cell, made.asked, told.cell, places)
        return SourceComparisonRow(
            **named,
            **plugged_members(made.asked),
            verdict=told.kit.verdict,  # type: ignore[arg-type]  # of verdicts.ORDER
            sentence=told.kit.sentence,
            danger=told.kit.danger,
            missing=[missing_to_wire(item, places) for item in told.kit.missing],
        )

    def _figures(self, cell: Cell, asked: CellAsked, found: SourceCell, places: Places) -> dict[str, Any]:
        named: dict[str, Any] = {
            "independent_circuits": found.independent_circuits,
            "power_back": to_wire(found.power_back, HowPowerReturns),
            "exhaust": found.exhaust,
        }
        if found.failing_case is not None:
            named["failing_case"] = found.failing_case
        if found.fails_first is not None:
            named["fails_first"] = finding_to_wire(found.fails_first, places)
        for member, value, kind in (
            ("spare", found.spare, SpareCurrent),
            ("spare_output", found.spare_output, SpareSourceOutput),
            ("hardest_start", found.hardest_start, HardestStartOfAll),
            ("reserve", found.reserve, ReserveReached),
        ):
            if value is not None:
                named[member] = to_wire(value, kind)
        use = self._use(cell, asked, found)
        if use is not None:
            named["use"] = use
        return named


def _reached(cases: Sequence[Case], reach: CordReach) -> dict[str, str]:
    """By case: fail where a tool's cords end before the work, unknown where that is open."""
    found = {}
    for case in cases:
        short, open_ = (not set(names).isdisjoint(case.running) for names in (reach.short, reach.open_))
        found[case.id] = "fail" if short else "unknown" if open_ else "pass"
    return found


def _both(result: CellResult) -> tuple[KitCell, SourceCell]:
    return kit_cell(result), source_cell(result)
