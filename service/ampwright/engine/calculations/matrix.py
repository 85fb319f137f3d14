"""What comes out where many kits meet many sources for many jobs?

A cell is one load check, and beside it one energy budget where the job says enough for one; nothing is scaled, guessed
or summed. Cells that ask the same are computed once. Views (kit_validation.py, source_comparison.py) take what they
tell from a cell's results at once, since thousands of whole results would not fit into memory.

Errors: those of check_loads and budget_energy; none for sites that validation accepts.
Not here: which cells there are, references, pointers as sent (studies/matrix.py).
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from ampwright.engine.calculations.energy_budget import budget_energy
from ampwright.engine.calculations.energy_result import EnergyBudgetResult
from ampwright.engine.calculations.load_check import check_loads
from ampwright.engine.calculations.load_check_result import LoadCheckResult
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Site

MOST_KEPT = 20_000

Told = TypeVar("Told")


@dataclass(frozen=True, slots=True)
class CellQuestion:
    """What one cell asks; equal questions have equal answers.

    site : sound, with its connections; day : None where no energy is asked for; withdrawn : (pointer, name, reason) of
    catalogue documents in it that were withdrawn.
    """

    site: Site
    day: EnergyDay | None = None
    withdrawn: tuple[tuple[str, str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class CellResult:
    """Everything that was worked out for one cell."""

    question: CellQuestion
    load: LoadCheckResult
    energy: EnergyBudgetResult | None


class Cells(Generic[Told]):
    """Cells computed once each. `tell` takes what is wanted from a result; `computed` counts the work done."""

    def __init__(
        self, tell: Callable[[CellResult], Told], *, with_figures: bool = False, most_kept: int = MOST_KEPT
    ) -> None:
        self._tell = tell
        self._with_figures = with_figures
        self._most_kept = most_kept
        self._known: OrderedDict[CellQuestion, Told] = OrderedDict()
        self.computed = 0

    def of(self, question: CellQuestion) -> Told:
        """What is told of a cell."""
        known = self._known.get(question)
        if known is None:
            known = self._tell(result_of(question, with_figures=self._with_figures))
            self.computed += 1
            self._known[question] = known
            if len(self._known) > self._most_kept:
                self._known.popitem(last=False)
        return known


def result_of(question: CellQuestion, *, with_figures: bool = False) -> CellResult:
    """The load check of a cell, and its energy budget where a day is asked for.

    with_figures : whether the rows of its cases are told too; verdicts, findings and words are the same without.
    """
    [load] = check_loads((question.site,), withdrawn=(question.withdrawn,), verdict_only=not with_figures)
    energy = None if question.day is None else budget_energy(question.site, question.day, question.withdrawn)
    return CellResult(question, load, energy)
