"""What are the stamped lines of an answer to many energy budgets?

Scenarios are taken a block at a time: each is the common budget with its changes made, resolved and read by the code
that reads a single one. What is wrong with one is told in its row; the others go on. Raises RefusedRequest for what is
wrong with the common budget before the first line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.faults import NoSuchRelease
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.energy_budget_batches import (
    EnergyBatchEnd,
    EnergyBatchHead,
    EnergyBatchLine,
    EnergyBatchRow,
    EnergyBudgetBatchRequest,
    EnergyScenario,
    ScenarioFault,
)
from ampwright.contract.energy_budgets import EnergyBudgetRequest
from ampwright.contract.json_patch import UnfitChange, patched
from ampwright.contract.unread_items import UnreadItem, with_repeated_set_aside
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.energy.energy_budget_batch import PoweredSites, budget_many
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Fault, Site
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.energy_budget import EnergyBudgetStudy, ReadBudget, one_evaluation_cost_units
from ampwright.studies.load_check import NOTICE, RefusedRequest, engine_version
from ampwright.studies.release_lookup import Stamp

BLOCK = 100
"""Scenarios read and evaluated together: few enough for a first row soon, many enough for the kernel."""


@dataclass(frozen=True, slots=True)
class _Read:
    """One scenario as far as it could be read."""

    scenario: str
    faults: tuple[Fault, ...] = ()
    site: Site | None = None
    day: EnergyDay | None = None
    stamp: Stamp | None = None
    digest: str = ""
    withdrawn: tuple[tuple[str, str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class EnergyBudgetBatchStudy:
    """Many energy budgets against the releases of one catalogue.

    single : how one of them is read, with the dearest that is answered; cost_limit_units : dearest batch.
    """

    single: EnergyBudgetStudy
    cost_limit_units: int = 100_000_000

    @classmethod
    def of(cls, store: ReleaseStore[Any] | None, cost_limit_units: int) -> EnergyBudgetBatchStudy:
        return cls(EnergyBudgetStudy(store, cost_limit_units), 25 * cost_limit_units)

    def lines(
        self, request: EnergyBudgetBatchRequest, check: Callable[[], object] = lambda: None
    ) -> Iterator[EnergyBatchLine]:
        """Head, a row for each scenario in order, end.

        check : called between pieces of work, may raise to give up.
        Errors: RefusedRequest, TooMuchWork, and those of the catalogue, all before the first line.
        """
        # a common budget that is not sound may become so by every change; only what no change can mend is refused
        common = msgspec.to_builtins(request.budget)
        cost = self._cost(request)
        if cost > self.cost_limit_units:
            raise TooMuchWork(cost, self.cost_limit_units)
        return self._lines(request, common, check)

    def _cost(self, request: EnergyBudgetBatchRequest) -> int:
        """As if every scenario were the common budget; one that is dearer than a single may be is refused alone."""
        try:
            read = self.single.read(request.budget)
        except RefusedRequest:
            return 0
        return one_evaluation_cost_units(read.site, read.day) * len(request.scenarios)

    def _lines(
        self, request: EnergyBudgetBatchRequest, common: Any, check: Callable[[], object]
    ) -> Iterator[EnergyBatchLine]:
        yield EnergyBatchHead(
            rows_in_all=len(request.scenarios),
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
        )
        sites = PoweredSites()
        failed = 0
        scenarios: list[EnergyScenario | UnreadItem] = with_repeated_set_aside(list(request.scenarios), "/scenarios")
        for first in range(0, len(scenarios), BLOCK):
            block = [self._read(common, one, check) for one in scenarios[first : first + BLOCK]]
            sound = [one for one in block if one.site is not None and one.day is not None]
            days = [(one.site, one.day) for one in sound if one.site is not None and one.day is not None]
            figures = iter(budget_many(days, sites, check, [one.withdrawn for one in sound]))
            for n, one in enumerate(block):
                if one.faults:
                    failed += 1
                    yield EnergyBatchRow(
                        index=first + n, scenario=one.scenario, errors=[_told(fault) for fault in one.faults]
                    )
                else:
                    yield to_wire(
                        next(figures),
                        EnergyBatchRow,
                        index=first + n,
                        scenario=one.scenario,
                        request_digest=one.digest,
                        **{name: value for name, value in (one.stamp or {}).items() if name != "used_entries"},
                    )
        yield EnergyBatchEnd(rows=len(request.scenarios), without_answer=failed)

    def _read(self, common: Any, scenario: EnergyScenario | UnreadItem, check: Callable[[], object]) -> _Read:
        check()
        if isinstance(scenario, UnreadItem):
            return _Read(scenario.id, scenario.faults)
        try:
            steps = [(step.op, step.path, step.value) for step in scenario.change]
            request = msgspec.convert(patched(common, steps), EnergyBudgetRequest)
            read: ReadBudget = self.single.read(request)
        except UnfitChange as unfit:
            fault = Fault(f"/change/{unfit.step}/path", "change_does_not_fit", unfit.message)
        except msgspec.ValidationError as error:
            fault = _of_schema(error)
        except NoSuchRelease as absent:
            fault = Fault("/catalogue_release", "unknown_release", str(absent))
        except TooMuchWork as dear:
            fault = Fault("", "too_much_work", f"It costs {dear}; ask for fewer draws, tools or hours.")
        except RefusedRequest as refused:
            return _Read(scenario.id, refused.faults)
        else:
            return _Read(scenario.id, (), read.site, read.day, read.stamp, request_digest(request), read.withdrawn)
        return _Read(scenario.id, (fault,))


def _told(fault: Fault) -> ScenarioFault:
    meant = UNSET if fault.did_you_mean is None else fault.did_you_mean
    return ScenarioFault(pointer=fault.pointer, code=fault.code, message=fault.message, did_you_mean=meant)


def _of_schema(error: msgspec.ValidationError) -> Fault:
    """What a changed budget does not fit of its schema; msgspec says where in its own notation."""
    message, _, at = str(error).partition(" - at `$")
    pointer = at.removesuffix("`").replace("[...]", "").replace("[", "/").replace("]", "").replace(".", "/")
    return Fault(pointer, "invalid_change", message)
