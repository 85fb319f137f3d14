"""How long may each cord be before a case gets worse than it is?

The length is raised by halves, in whole feet or metres as the cord's size is written, until a figure that hangs on it
would be judged worse than now, starts and what follows a trip included.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.after_trip.after_trip_finding_codes import AFTER_TRIP_FINDING_CODES
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.reverse.reaching_edge import (
    Level,
    got_worse,
    kind_of,
    last_that_holds_whole,
    levels_of,
)
from ampwright.engine.calculations.reverse.site_edits import CordEdit
from ampwright.engine.calculations.starts.start_finding_codes import START_FINDING_CODES
from ampwright.engine.site.use import Site

FOOT_M = 0.3048
LONGEST_M = 304.8  # 1,000 ft: beyond it nobody carries cords; common practice, no source
MOST_CORDS = 8
# what a longer cord can make worse
CODES = frozenset(
    {
        "cord_over_marked_rating",
        "cord_overheats",
        "ground_fault_nuisance",
        "low_voltage_at_tool",
        "voltage_collapse",
        *(kind_of(code) for code in START_FINDING_CODES),
        *AFTER_TRIP_FINDING_CODES,
    }
)


@dataclass(frozen=True, slots=True)
class LongestCord:
    """length_m : [m] the longest at which nothing gets worse; limited_by None where that is `LONGEST_M`."""

    cord: str
    length_m: float
    limited_by: str | None = None


def longest_cords(site: Site, base: Evaluation) -> tuple[LongestCord, ...]:
    """Every cord in use, at most `MOST_CORDS`; how short one must be that is too long already is its break-even.

    base : the site as it is, with what follows a trip.
    """
    ours = {cord.id: cord for cord in site.cords}
    before = levels_of(base), levels_of(evaluate(site, frozenset(), only=frozenset()))
    found: list[LongestCord] = []
    for i, cord in enumerate(base.settled.cords):
        on_it = [placement for placement in base.settled.placements if i in placement.cords]
        about = {cord.id, *(placement.tool.id for placement in on_it)}
        too_long = any(
            verdict == "fail" and code in CODES and subject in about
            for (_, code, _, subject), verdict in before[0].items()
        )
        if not on_it or too_long or len(found) >= MOST_CORDS:
            continue
        size = ours[cord.id].size
        imperial = size.endswith("AWG") if size else base.settled.source.leg_voltage_v <= 150.0
        found.append(_longest(site, before, cord.id, cord.length_m.high, FOOT_M if imperial else 1.0))
    return tuple(found)


def _longest(site: Site, before: tuple[Level, Level], cord: str, now_m: float, unit_m: float) -> LongestCord:
    known: dict[tuple[int, bool], str | None] = {}

    def worse(length: int, *, starts: bool) -> str | None:
        if (length, starts) not in known:
            edit = CordEdit(cord, "", length_m=length * unit_m)
            only = None if starts else frozenset[int]()
            after = evaluate(edit.site(site), frozenset(), only=only, with_after=starts)
            known[length, starts] = got_worse(levels_of(after), before[0 if starts else 1], CODES)
        return known[length, starts]

    low = max(1, int(now_m / unit_m + 1e-9))
    top = max(low, int(LONGEST_M / unit_m + 1e-9))
    most = last_that_holds_whole(low, top, lambda length, starts: worse(length, starts=starts) is None) or low
    limited_by = None if most == top else worse(most + 1, starts=True)
    return LongestCord(cord, round(most * unit_m, 3), limited_by)
