"""What is the stamped answer to an energy budget that may refer to the catalogue?

The request is a load check's with a day beside it, and its references are resolved by the same code. Raises
RefusedRequest with every fault; a request that is sound always gets an answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from msgspec import UNSET, structs

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.energy_budgets import EnergyBudgetAnswer, EnergyBudgetRequest
from ampwright.contract.reading_energy import read_day
from ampwright.contract.reading_site import read_site
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.energy.energy_budget import budget_energy
from ampwright.engine.calculations.energy.energy_judgement import TRY_DRAWS
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.validation import in_order, validate
from ampwright.engine.site.validation_energy import day_faults
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import NOTICE, RefusedRequest, engine_version
from ampwright.studies.release_lookup import Stamp, resolve_in_release

NOT_INCLUDED = "An energy budget has no parts that are asked for by `include`; POST /v1/load-checks has."
_PER_DRAW_AND_FIGURE = 0.015  # cost units, microseconds on the machine this was measured on
_WHOLE = 8  # evaluations on all draws, with courses, sorting and percentiles
_TRIED = 57
_READING = 1500  # reading, settling and writing one day
USUAL_SHIFT_S = 8.0 * 3600.0


@dataclass(frozen=True, slots=True)
class ReadBudget:
    """A request in the engine's terms. stamp : what an answer says of the catalogue; withdrawn : of what it used."""

    site: Site
    day: EnergyDay
    stamp: Stamp
    withdrawn: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class EnergyBudgetStudy:
    """Energy budgets against the releases of one catalogue.

    store : releases in memory, None where there is no catalogue; cost_limit_units : dearest budget answered.
    """

    store: ReleaseStore[Any] | None
    cost_limit_units: int = 1_000_000

    def read(self, request: EnergyBudgetRequest) -> ReadBudget:
        """The request in the engine's terms. Errors: RefusedRequest, TooMuchWork, and those of the catalogue."""
        resolved, stamp = resolve_in_release(self.store, request)
        if resolved.request is None:
            raise RefusedRequest(resolved.faults)
        assert isinstance(resolved.request, EnergyBudgetRequest)
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        day, unread_day = read_day(resolved.request, resolved.places)
        faults = (*resolved.faults, *unread, *unread_day)
        if faults:
            raise RefusedRequest(in_order(faults), unread=bool(unread or unread_day))
        unasked = () if request.include is UNSET else (Fault("/include", "not_included_here", NOT_INCLUDED),)
        if contradictions := (*unasked, *validate(site), *day_faults(site, day)):
            raise RefusedRequest(in_order(contradictions))
        cost = energy_budget_cost_units(site, day)
        if cost > self.cost_limit_units:
            raise TooMuchWork(cost, self.cost_limit_units)
        return ReadBudget(site, day, stamp, resolved.withdrawn)

    def run(self, request: EnergyBudgetRequest) -> EnergyBudgetAnswer:
        """The answer. Errors: RefusedRequest, TooMuchWork, and those of the catalogue where it is needed."""
        read = self.read(request)
        answer = to_wire(
            budget_energy(read.site, read.day, read.withdrawn),
            EnergyBudgetAnswer,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
        )
        return structs.replace(answer, **read.stamp)


def energy_budget_cost_units(site: Site, day: EnergyDay) -> int:
    """Cost of one budget: draws x (figures + stretches x loads) x plans tried; measured within a factor of two."""
    loads = len(site.tools) + len(day.work)
    tried = _TRIED + 5 * loads  # both ends of every default, every step of every change
    return int((_WHOLE * day.draws + tried * min(day.draws, TRY_DRAWS)) * _size(site, day) * _PER_DRAW_AND_FIGURE)


def one_evaluation_cost_units(site: Site, day: EnergyDay) -> int:
    """Cost of the figures of one day alone, as in a batch."""
    return int(2 * day.draws * _size(site, day) * _PER_DRAW_AND_FIGURE) + _READING


def _size(site: Site, day: EnergyDay) -> float:
    loads = len(site.tools) + len(day.work)
    hours = (day.shift_s or USUAL_SHIFT_S) / 3600.0 + sum(stop.lasts_s or 0.0 for stop in day.stops or ()) / 3600.0
    stretches = hours + 2 * len(day.stops or ()) + 2
    return 15 + 2 * loads + stretches * (0.4 + 0.08 * loads)
