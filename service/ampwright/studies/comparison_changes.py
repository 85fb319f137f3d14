"""Which single change makes a failing cell hold, written as steps on the cell's own request?

Every change that is tried is applied to the request as it would be sent, read, validated and worked out again, the day
and the way to the work with it, so that the answer tells what somebody gets who applies it and posts it.
"""

from __future__ import annotations

from typing import Any, TypeVar

import msgspec

from ampwright.contract.energy_budgets import EnergyBudgetRequest
from ampwright.contract.json_steps import apply_steps
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_energy import read_day
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.choosing.cheapest_change import CheapestChange, Tried, cheapest_change
from ampwright.engine.calculations.choosing.cord_reach import cord_reach
from ampwright.engine.calculations.energy.energy_budget import budget_energy
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.calculations.load_check.load_check import check_loads
from ampwright.engine.calculations.load_check.load_check_result import Change, LoadCheckResult
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.engine.site.validation_energy import day_faults
from ampwright.studies.matrix_cell import CellAsked, running_tools
from ampwright.studies.references import Lookup, resolve

R = TypeVar("R", bound=LoadCheckRequest)


def change_of(asked: CellAsked, lookup: Lookup) -> CheapestChange | None:
    """The cheapest change of a failing cell that was worked out, None where none makes it hold. Errors: none."""
    question = asked.question
    if question is None or asked.load_request is None:
        return None
    [load] = check_loads((question.site,), withdrawn=(question.withdrawn,), verdict_only=True)
    energy = None if question.day is None else budget_energy(question.site, question.day, question.withdrawn)

    def recheck(steps: tuple[Change, ...], of_the_day: bool) -> Tried | None:
        site, after = question.site, load
        if not of_the_day:
            changed = _changed(asked.load_request, LoadCheckRequest, steps)
            made = None if changed is None else _load(changed, lookup)
            if made is None:
                return None
            site, after = made
        reach = cord_reach(site, running_tools(site, asked.plugging), asked.distance_m)
        parts = [after.verdict.overall]
        if reach is not None:
            parts.append("fail" if reach.short else "unknown" if reach.open_ else "pass")
        if worst(parts) == "fail" or asked.energy_request is None:
            return Tried(worst(parts), after.verdict)
        day = _changed(asked.energy_request, EnergyBudgetRequest, steps)
        budget = None if day is None else _energy(day, lookup)
        if budget is None:
            return None
        return Tried(worst((*parts, budget.verdict.overall)), after.verdict, budget.verdict)

    return cheapest_change(question.site, load, energy, recheck)


def _changed(request: Any, kind: type[R], steps: tuple[Change, ...]) -> R | None:
    changed = apply_steps(msgspec.to_builtins(request), [(one.op, one.path, one.value) for one in steps])
    if changed is None:
        return None
    try:
        return msgspec.convert(changed, kind)
    except msgspec.ValidationError:
        return None


def _load(request: LoadCheckRequest, lookup: Lookup) -> tuple[Site, LoadCheckResult] | None:
    resolved = resolve(request, lookup)
    if resolved.request is None or resolved.faults:
        return None
    site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
    if unread or validate(site):
        return None
    [found] = check_loads((site,), withdrawn=(_withdrawn(resolved),), verdict_only=True)
    return site, found


def _energy(request: EnergyBudgetRequest, lookup: Lookup) -> EnergyBudgetResult | None:
    resolved = resolve(request, lookup)
    if not isinstance(resolved.request, EnergyBudgetRequest) or resolved.faults:
        return None
    site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
    day, unread_day = read_day(resolved.request, resolved.places)
    if unread or unread_day or validate(site) or any(day_faults(site, day)):
        return None
    return budget_energy(site, day, _withdrawn(resolved))


def _withdrawn(resolved: Any) -> tuple[tuple[str, str, str], ...]:
    return tuple((e.pointer, f"{e.entry} revision {e.revision}", e.withdrawn) for e in resolved.entries if e.withdrawn)
