"""What is the cheapest single change that makes a failing cell hold, all cases, all aspects and its day at once?

Each break-even of the load check's findings is one change, and so is each change that makes the day; each is looked at
as a whole answer to the changed question. They are tried in the order in which a crew would do them, most important
finding first. Told is the first after which the cell holds; where none does, the first that leaves an open question.
One after which the cell still fails is none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, Change, LoadCheckResult, Verdicts
from ampwright.engine.calculations.reverse.break_evens import break_evens
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.use import Site

MOST_CHANGES = 12
OF = {False: "load_check_request", True: "energy_budget_request"}


@dataclass(frozen=True, slots=True)
class Tried:
    """What a change makes of a cell. verdict : of the whole cell; load, energy : of its parts, None without a day."""

    verdict: str
    load: Verdicts
    energy: Verdicts | None = None


@dataclass(frozen=True, slots=True)
class CheapestChange:
    """text, change : as of the break-even. of : what its steps go into: `load_check_request` (and the energy budget
    with it), `energy_budget_request` alone, or the `kit` as sent."""

    text: str
    change: tuple[Change, ...]
    of: str
    then: Tried


Recheck = Callable[[tuple[Change, ...], bool], Tried | None]


def cheapest_change(
    site: Site, load: LoadCheckResult, energy: EnergyBudgetResult | None, recheck: Recheck
) -> CheapestChange | None:
    """The change, None where none of them makes the cell hold.

    recheck : the cell with the steps applied (to its load check and its day, or to its day alone), None where they do
    not go together.
    """
    # a question that no change settles leaves every cell open
    enough = "unknown" if load.verdict.code == "unknown" or load.not_assessed else "marginal"
    best: CheapestChange | None = None
    for option, of_the_day in _options(site, load, energy):
        then = recheck(option.change, of_the_day)
        if then is None or then.verdict == "fail":
            continue
        if best is None or ORDER.index(then.verdict) < ORDER.index(best.then.verdict):
            best = CheapestChange(option.text, option.change, OF[of_the_day], then)
        if ORDER.index(best.then.verdict) <= ORDER.index(enough):
            return best
    return best


def _options(site: Site, load: LoadCheckResult, energy: EnergyBudgetResult | None) -> Iterator[tuple[BreakEven, bool]]:
    seen: set[str] = set()
    # each is checked here as it is posted
    of_load = (option for finding in break_evens(site, load.findings, posted=False) for option in finding.break_even)
    of_day = () if energy is None else energy.changes
    for some, of_the_day in ((of_load, False), (of_day, True)):
        if (of_the_day and load.verdict.overall == "fail") or (not of_the_day and load.verdict.overall != "fail"):
            continue  # it would leave the other part failing
        for option in some:
            if option.change and option.text not in seen and len(seen) < MOST_CHANGES:
                seen.add(option.text)
                yield option, of_the_day
