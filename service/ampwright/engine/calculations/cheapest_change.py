"""What is the cheapest single change that makes a failing site hold, all cases and all aspects at once?

Each break-even of the site's findings is one change; each is looked at as a whole load check of the changed site. They
are tried in the order in which a crew would do them, most important finding first, and the first that leaves nothing
failing is told; where none does, the one that leaves the best verdict, if it is better at all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ampwright.engine.calculations.break_evens import break_evens
from ampwright.engine.calculations.load_check_result import BreakEven, Change, LoadCheckResult, Verdicts
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.use import Site

MOST_CHANGES = 12
Recheck = Callable[[tuple[Change, ...]], LoadCheckResult | None]


@dataclass(frozen=True, slots=True)
class CheapestChange:
    """text, change : as of the break-even. then : verdicts of the whole load check after it."""

    text: str
    then: Verdicts
    change: tuple[Change, ...]


def cheapest_change(site: Site, load: LoadCheckResult, recheck: Recheck) -> CheapestChange | None:
    """The change, None where none of them makes anything better.

    recheck : the load check of the request with the steps applied, None where they do not go together.
    """
    best: CheapestChange | None = None
    for option in _options(site, load):
        after = recheck(option.change)
        if after is None or _place(after.verdict) >= _place(load.verdict):
            continue
        if best is None or _place(after.verdict) < _place(best.then):
            best = CheapestChange(option.text, after.verdict, option.change)
        if "fail" not in (after.verdict.capacity, after.verdict.safety, after.verdict.code):
            return best
    return best


def _options(site: Site, load: LoadCheckResult) -> Iterator[BreakEven]:
    seen: set[str] = set()
    for finding in break_evens(site, load.findings, posted=False):  # each is checked here
        for option in finding.break_even:
            if option.change and option.text not in seen and len(seen) < MOST_CHANGES:
                seen.add(option.text)
                yield option


def _place(verdicts: Verdicts) -> tuple[int, int]:
    """How bad: by what fails, then by the sum of all."""
    parts = [ORDER.index(one) for one in (verdicts.capacity, verdicts.safety, verdicts.code or "pass")]
    return parts.count(ORDER.index("fail")), sum(parts)
