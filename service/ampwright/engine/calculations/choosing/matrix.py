"""What comes out where many kits meet many sources for many jobs?

A cell is one load check, and beside it one energy budget where the job says enough for one; nothing is scaled, guessed
or summed. Cells that ask the same are computed once. Views (kit_validation.py, source_comparison.py) take what they
tell from a cell's results at once, since thousands of whole results would not fit into memory.

Errors: those of check_loads and budget_energy; none for sites that validation accepts.
Not here: which cells there are, references, pointers as sent (studies/matrix.py).
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from ampwright.engine.calculations.energy.energy_budget import budget_energy
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.calculations.load_check.load_check import check_loads
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
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
    """Cells computed once each.

    tell : takes what is wanted from a result. with_figures : whether it needs the figures of the cases' rows; verdicts,
    findings and words are the same without. `computed` counts the cells worked out.
    """

    def __init__(
        self, tell: Callable[[CellResult], Told], *, with_figures: bool = False, most_kept: int = MOST_KEPT
    ) -> None:
        self._tell = tell
        self._with_figures = with_figures
        self._most_kept = most_kept
        self._known: OrderedDict[CellQuestion, Told] = OrderedDict()
        self.computed = 0

    def fill(self, questions: Iterable[CellQuestion]) -> None:
        """Work out those that are not known yet, many sites by one call of each kernel."""
        new = [question for question in dict.fromkeys(questions) if question not in self._known]
        loads = check_loads(
            [question.site for question in new],
            withdrawn=[question.withdrawn for question in new],
            verdict_only=not self._with_figures,
        )
        for question, load in zip(new, loads, strict=True):
            self._known[question] = self._tell(CellResult(question, load, _energy_of(question)))
            self.computed += 1
            if len(self._known) > self._most_kept:
                self._known.popitem(last=False)

    def of(self, question: CellQuestion) -> Told:
        """What is told of a cell."""
        if question not in self._known:
            self.fill((question,))
        return self._known[question]


def _energy_of(question: CellQuestion) -> EnergyBudgetResult | None:
    if question.day is None:
        return None
    return budget_energy(question.site, question.day, question.withdrawn)
