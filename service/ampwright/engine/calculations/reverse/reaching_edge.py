"""Up to which number does it hold, and what stands in the way beyond?

A chain of yes and then no, searched by halves. What stands in the way is the check that got worse the most, held
against the same check before.
"""

from __future__ import annotations

from collections.abc import Callable, Collection

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.rules.capacity_rules import SHORT_PUSH_S, Check
from ampwright.engine.calculations.verdicts import ORDER, worst

JUDGED = ("capacity", "safety", "code")
# what becomes of one start is told by one of these
ONE_START = {"starts_only_if": "does_not_start", "start_trips": "does_not_start"}

Level = dict[tuple[str, str, str, str], str]  # (case, code, pointer, subject) -> verdict


def last_that_holds(low: int, high: int, holds: Callable[[int], bool]) -> int | None:
    """The largest number of low..high for which it holds, None where it does not at `low`."""
    if high < low or not holds(low):
        return None
    if holds(high):
        return high
    while high - low > 1:
        middle = (low + high) // 2
        if holds(middle):
            low = middle
        else:
            high = middle
    return low


def last_that_holds_whole(low: int, high: int, holds: Callable[[int, bool], bool]) -> int | None:
    """The same where a check costs much: the second argument says whether all of it is asked, or only its cheap part.

    What does not hold by the cheap part alone does not hold by the whole.
    """
    most = last_that_holds(low, high, lambda number: holds(number, False))
    if most is None or holds(most, True):
        return most
    return last_that_holds(low, most, lambda number: holds(number, True))


def no_worse(verdict: str, than: str) -> bool:
    return ORDER.index(verdict) <= ORDER.index(than)


def kind_of(code: str) -> str:
    """One code for what tells of one start."""
    return ONE_START.get(code, code)


def levels_of(base: Evaluation, aspects: Collection[str] = JUDGED) -> Level:
    """Verdict of every check by case; what only a short push breaks is at worst marginal, but for safety."""
    found: Level = {}

    def add(case: str, check: Check, verdict: str) -> None:
        at = (case, kind_of(check.code), check.pointer, check.subject)
        found[at] = worst((found.get(at, "pass"), verdict))

    for n, running in enumerate(base.sets):
        for check in (*base.site_checks, *base.case_checks[n]):
            if check.aspect in aspects:
                add(running.id, check, check.verdict)
    for row, checks in zip(base.rows, base.row_checks, strict=True):
        for check in checks:
            if check.aspect not in aspects:
                continue
            verdict = check.verdict
            short = row.pushed is not None and base.settled.placements[row.pushed].state("heavy").lasts_s < SHORT_PUSH_S
            if short and verdict == "fail" and check.aspect == "capacity":
                verdict = "marginal"
            add(base.sets[row.case].id, check, verdict)
    return found


def got_worse(after: Level, before: Level, codes: Collection[str] | None = None) -> str | None:
    """Code of the check that got worse, the worst of them first; None where none did. codes : only of these."""
    worse = [
        (-ORDER.index(verdict), at[1])
        for at, verdict in after.items()
        if (codes is None or at[1] in codes) and not no_worse(verdict, before.get(at, "pass"))
    ]
    return min(worse)[1] if worse else None
