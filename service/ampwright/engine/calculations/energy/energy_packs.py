"""How many packs do the chargers take in the time, and when does which part of their energy flow?

Every charger takes one pack after the other, each with the same course: full current, then taper. The last round is
shared by what is left. Typical figures; the energy of a pack keeps its range (energy_loads.py).
Source: constant current, then constant voltage (physics/pack_charging.py); the rest is common practice, no source.
"""

from __future__ import annotations

import math

from ampwright.engine.physics.pack_charging import charge_after_ratio, packs_charged, time_to_charge_s
from ampwright.engine.site.energy_day import Work
from ampwright.engine.site.work_units import PACK_CUT_OFF, PACK_EFFICIENCY, PACK_FROM, PACK_J, PACK_TAPER_FROM

SWAP_S = 600.0
"""[s] until somebody changes a pack; common practice, no source."""


def _course(work: Work) -> tuple[float, float, float, float] | None:
    """Start and target [-], capacities per second at full current, and time of a pack [s]; None: charger unknown."""
    pack = work.pack
    if pack is None or pack.charger_w is None:
        return None
    start = (pack.from_ratio or PACK_FROM).typical
    target = min(pack.to_ratio.typical if pack.to_ratio else 1.0, 1.0)
    rate = pack.charger_w.typical * PACK_EFFICIENCY.typical / (pack.capacity_j or PACK_J).typical
    return start, target, rate, time_to_charge_s(start, target, rate, PACK_TAPER_FROM, PACK_CUT_OFF)


def packs_done(work: Work, shift_s: float) -> float:
    """Whole packs that the chargers take in the time, with their taper; all of them where the charger is not known."""
    course = _course(work)
    if course is None or course[3] <= 0.0:
        return work.amount
    chargers = work.pack.chargers or 1 if work.pack is not None else 1
    return min(packs_charged(shift_s, course[3], chargers, SWAP_S), work.amount)


def packs_share(work: Work, passed_s: float, total_s: float) -> float:
    """[-] energy that has gone into the packs by then, over that of all that are asked.

    passed_s, total_s : [s] at the stops where they are charged. Evenly where the charger is not known. A pack that is
    not full at the end counts with what went in, and is not one of `packs_done`.
    """
    course = _course(work)
    if work.amount <= 0.0 or total_s <= 0.0:
        return 0.0
    if course is None or course[3] <= 0.0:
        return passed_s / total_s
    start, target, rate, each_s = course
    chargers = work.pack.chargers or 1 if work.pack is not None else 1
    rounds = math.floor(passed_s / (each_s + SWAP_S) * (1.0 + 1e-12))
    into_s = passed_s - rounds * (each_s + SWAP_S)
    whole = rounds * chargers
    on_now = min(max(work.amount - whole, 0.0), chargers)
    reached = charge_after_ratio(start, min(into_s, each_s), rate, PACK_TAPER_FROM, PACK_CUT_OFF)
    part = min((reached - start) / (target - start), 1.0) if target > start else 1.0
    return min((min(whole, work.amount) + on_now * part) / work.amount, 1.0)
