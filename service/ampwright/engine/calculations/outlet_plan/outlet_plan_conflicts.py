"""Why can tools not all be on: which smallest sets do not go together, and what is left out for it?

A set is shown not to go when the programme, with all that load checks taught it, has no choice that has all of it on.
From such a set everything is dropped that can be dropped while it still does not go (a deletion filter, Chinneck and
Dravnieks 1991, from memory); single tools and pairs are tried first. The reason is the finding that excluded it, or the
kind of limit without which it would go.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_result import Finding
from ampwright.engine.calculations.outlet_plan.outlet_plan_milp import LARGE, Master, solve
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import PlanModel
from ampwright.engine.calculations.outlet_plan.outlet_plan_search import Search

MOST_CONFLICTS = 6
MOST_ASKED, FEWER_ASKED = 60, 24  # sets that are tried for one question; of a large one
MOST_PROPOSED = 6  # plans of one set
# of the reasons that keep a tool from its slots, the one nearest to going is told first
NEAREST = (
    "circuit_over_rating",
    "receptacle_over_rating",
    "cord_over_marked_rating",
    "low_voltage_at_tool",
    "out_of_reach",
    "plug_does_not_fit",
    "voltage_does_not_match",
)
PLENTY = 10_000
BOUND_CODES = (
    ("circuit", "circuit_over_rating"),
    ("limit", "limit_over_continuous"),
    ("cord", "cord_over_marked_rating"),
)


@dataclass(frozen=True, slots=True)
class Conflict:
    """Tools by index that do not go together. finding : of the load check, where one showed it."""

    tools: frozenset[int]
    because: tuple[str, ...]
    smallest: bool
    finding: Finding | None = None


@dataclass(slots=True)
class Conflicts:
    """Looks for conflicts within a bound of sets tried."""

    search: Search
    asked: int = 0

    def of(self, on: frozenset[int]) -> tuple[Conflict, ...]:
        """A conflict for every tool that a best plan leaves off. on : what it has on."""
        found: list[Conflict] = []
        weights = self._model.weights
        off = sorted((t for t in range(len(weights)) if t not in on), key=lambda t: (-weights[t], t))
        for t in off:
            if any(t in one.tools for one in found) or len(found) >= MOST_CONFLICTS:
                continue
            conflict = self._around(t, on)
            if conflict is not None and conflict.tools not in [one.tools for one in found]:
                found.append(conflict)
        return tuple(found)

    @property
    def _model(self) -> PlanModel:
        return self.search.master.model

    def _around(self, t: int, on: frozenset[int]) -> Conflict | None:
        core = self._unit(t)
        for one in sorted(core, key=lambda one: (one != t, one)):
            if not self._model.allowed[one]:
                return Conflict(frozenset({one}), self._refused(one), True)
        others = self._units(on)
        if self._goes(core) is False:
            return self._told(core, smallest=True)
        for unit in others:
            if self._goes(core | unit) is False:
                return self._told(core | unit, smallest=True)
        whole = core.union(*others)
        if self._goes(whole) is not False:
            return None
        smallest = True
        for unit in others:
            goes = self._goes(whole - unit)
            if goes is False:
                whole -= unit
            elif goes is None:
                smallest = False
        return self._told(whole, smallest=smallest)

    def _unit(self, t: int) -> frozenset[int]:
        """The tool with what it is on and off with."""
        return next((frozenset(group) for group in self._model.together if t in group), frozenset({t}))

    def _units(self, on: frozenset[int]) -> list[frozenset[int]]:
        """What is on, in units, the one that matters least first."""
        units = {self._unit(t) for t in on}
        weights = self._model.weights
        return sorted(units, key=lambda unit: (sum(weights[t] for t in unit), sorted(unit)))

    def _goes(self, tools: frozenset[int]) -> bool | None:
        """Whether all of these can be on; None where that was not settled."""
        self.asked += 1
        columns = sum(len(slots) for slots in self._model.allowed)
        if self.asked > (MOST_ASKED if columns < LARGE else FEWER_ASKED):
            return None
        before = self.search.complete
        self.search.complete = True
        found = self.search.best(tools, tools, MOST_PROPOSED, cheapest=False)
        settled, self.search.complete = self.search.complete, before
        if found is not None:
            return True
        return False if settled else None

    def _refused(self, t: int) -> tuple[str, ...]:
        slots = self.search.checks.slots
        if not slots.places:
            return ("no_receptacle",)
        seen = Counter(slots.refused[t].values())
        return tuple(code for code in NEAREST if code in seen) or ("no_outlet_fits",)

    def _told(self, tools: frozenset[int], *, smallest: bool) -> Conflict:
        """The conflict with its reason: what the load check found, else the kind of limit that decides."""
        for cut, finding in self.search.reasons.items():
            if finding is not None and {t for t, _ in cut} == tools:
                return Conflict(tools, (finding.code,), smallest, finding)
        because = self._kinds(tools)
        if because:
            return Conflict(tools, because, smallest)
        for cut, finding in self.search.reasons.items():
            if finding is not None and {t for t, _ in cut} <= tools:
                return Conflict(tools, (finding.code,), smallest, finding)
        return Conflict(tools, ("several_reasons",), smallest)

    def _kinds(self, tools: frozenset[int]) -> tuple[str, ...]:
        """Kinds of limits without each of which the set would go by its figures, else the first two without both."""
        model = self._model
        kinds = {bound.kind for bound in model.bounds}
        without = [(code, _without_bounds(kind)) for kind, code in BOUND_CODES if kind in kinds]
        if model.lights:
            without.append(("lights_on_tool_circuit", _without_lights))
        without += [("outlets_taken", _with_plugs), ("cords_taken", _with_cords)]
        alone = tuple(code for code, free in without if self._would_go(free(model), tools))
        if alone:
            return alone
        for (one, free), (other, free_too) in itertools.combinations(without, 2):
            if self._would_go(free(free_too(model)), tools):
                return one, other
        return ()

    def _would_go(self, model: PlanModel, tools: frozenset[int]) -> bool:
        master = Master(model, self.search.master.wanted, self.search.master.node_limit, cuts=self.search.master.cuts)
        return solve(master, tools, tools, cheapest=False).choice is not None


def _without_bounds(kind: str) -> Callable[[PlanModel], PlanModel]:
    return lambda model: replace(model, bounds=tuple(bound for bound in model.bounds if bound.kind != kind))


def _without_lights(model: PlanModel) -> PlanModel:
    return replace(model, lights=frozenset(), others=frozenset())


def _with_plugs(model: PlanModel) -> PlanModel:
    return replace(model, plugs=tuple(PLENTY for _ in model.plugs))


def _with_cords(model: PlanModel) -> PlanModel:
    return replace(model, singles=tuple(PLENTY for _ in model.singles))
