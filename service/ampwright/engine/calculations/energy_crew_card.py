"""What does a crew read of a day?

Sentences carry two significant digits and never promise more than was computed: what is left is rounded down.
"""

from __future__ import annotations

import math

from ampwright.engine.calculations.energy_findings import name_of
from ampwright.engine.calculations.energy_plan import Outcome, quantile
from ampwright.engine.calculations.energy_result import Use
from ampwright.engine.calculations.energy_settle import SettledDay
from ampwright.engine.calculations.energy_words import said_energy
from ampwright.engine.calculations.load_check_result import BreakEven, CrewLine
from ampwright.engine.calculations.wording import and_list, two_digits
from ampwright.engine.physics.day_energy import ENOUGH, LEFT_AFTER_WORK, LEFT_AT_END, RESERVE_AT
from ampwright.engine.site.use import Site

MOST_LINES = 5


def crew_card(
    site: Site,
    settled: SettledDay,
    outcome: Outcome,
    verdict: str,
    changes: tuple[BreakEven, ...],
    uses: tuple[Use, ...],
    question: str | None,
    overloaded: bool = False,
) -> tuple[CrewLine, ...]:
    """At most five lines in plain words."""
    lines: list[CrewLine] = []
    if settled.plan.limited:
        at_end = site.source.kind == "vehicle"
        left = quantile(outcome.out[LEFT_AT_END if at_end else LEFT_AFTER_WORK], 0.2)
        when = "at home" if at_end else "after work"
        if site.source.kind == "engine_generator" and settled.heat_j_per_m3:
            litres = left / settled.heat_j_per_m3 * 1000.0
            said = f"{two_digits(math.floor(litres * 10.0) / 10.0)} l of fuel"
        else:
            said = said_energy(max(left, 0.0), down=True)
        if site.source.kind == "vehicle" and outcome.at(ENOUGH, 0.5) < 0.0 and left <= 0.0:
            lines.append(CrewLine("card_does_not_get_home", "On most days the charge does not last to get home."))
        elif said.startswith("0 "):
            lines.append(CrewLine("card_nothing_left", f"In 2 or more days of 10 nothing is left {when}."))
        else:
            lines.append(CrewLine("card_left", f"In 8 of 10 days at least {said} is left {when}."))
        reached = quantile(outcome.out[RESERVE_AT], 0.1)
        lines += _power_lines(site, settled, overloaded)
        if math.isfinite(reached) and verdict != "pass" and lines[0].code != "card_does_not_get_home":
            lines.append(_reserve_line(site, settled, reached))
    else:
        lines += _power_lines(site, settled, overloaded)
    if uses:
        share = round(100.0 * uses[0].share_ratio)
        lines.append(CrewLine("card_eats_most", f"Most goes into {_use_name(uses[0], site)}: {share} %."))
    if changes:
        what = "Makes the day" if changes[0].then == "pass" else "Makes the energy last"
        lines.append(CrewLine("card_change", f"{what}: {changes[0].text}."))
    elif verdict == "fail":
        lines.append(CrewLine("card_no_change", "No one change makes this day: split it, or use a larger source."))
    if question is not None:
        lines.append(CrewLine("card_ask", question))
    if len(lines) > MOST_LINES:
        lines = [line for line in lines if line.code != "card_eats_most"]
    return tuple(lines[:MOST_LINES])


def _power_lines(site: Site, settled: SettledDay, overloaded: bool) -> list[CrewLine]:
    """What the source does not feed."""
    lines: list[CrewLine] = []
    if settled.able.never:
        names = and_list(sorted(settled.able.never))
        lines.append(CrewLine("card_not_powered", f"Do not count on {names}: {name_of(site)} cannot run it."))
    if overloaded:
        lines.append(CrewLine("card_too_much_at_once", f"Too much at a time for {name_of(site)}: take turns."))
    lost = sorted({tool for sleep in settled.asleep if sleep and sleep.after_s is not None for tool in sleep.lost})
    if lost:
        text = f"{name_of(site)} falls asleep and leaves {and_list(lost)} without power.".replace("the ", "The ", 1)
        lines.append(CrewLine("card_falls_asleep", text[0].upper() + text[1:]))
    return lines


def _reserve_line(site: Site, settled: SettledDay, reached_s: float) -> CrewLine:
    begins_s = next((item.start_s for item in settled.plan.stretches if item.is_work), 0.0)
    hours = f"{two_digits(reached_s / 3600.0)} h"
    if site.source.kind != "vehicle":
        return CrewLine("card_runs_out", f"In 1 day of 10 {name_of(site)} runs out after {hours}.")
    if reached_s < begins_s + 60.0:
        return CrewLine("card_no_work", "In 1 day of 10 there is nothing for work: all is needed to get home.")
    return CrewLine("card_reserve", f"In 1 day of 10 the reserve is reached after {hours}: stop work then.")


def _use_name(use: Use, site: Site) -> str:
    return {
        "awake": "idling" if site.source.kind == "engine_generator" else f"keeping {name_of(site)} awake",
        "conversion": "heat of the engine" if site.source.kind == "engine_generator" else "conversion",
        "drive": "driving",
    }.get(use.kind, use.name)
