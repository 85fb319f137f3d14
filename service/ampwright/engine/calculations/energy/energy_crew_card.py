"""What does a crew read of a day?

Sentences carry two significant digits and never promise more than was computed: what is left is rounded down.
"In 8 of 10 days at least" says the P10 of the answer, which holds in nine: the ends of the bands are themselves
estimates, and a day in ten is kept back for that.
"""

from __future__ import annotations

import math

from ampwright.engine.calculations.energy.energy_finding import name_of, some_of
from ampwright.engine.calculations.energy.energy_plan import Outcome
from ampwright.engine.calculations.energy.energy_result import Use
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.calculations.energy.energy_words import said_energy
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, CrewLine
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
        left = outcome.at(LEFT_AT_END if at_end else LEFT_AFTER_WORK, 0.1)
        when = "at home" if at_end else "after work"
        if site.source.kind == "engine_generator" and settled.heat_j_per_m3:
            litres = left / settled.heat_j_per_m3 * 1000.0
            said = f"{two_digits(math.floor(litres * 10.0) / 10.0)} l of fuel"
        else:
            said = said_energy(max(left, 0.0), down=True)
        if site.source.kind == "vehicle" and outcome.at(ENOUGH, 0.5) < 0.0 and left <= 0.0:
            lines.append(CrewLine("card_does_not_get_home", "On most days the charge does not last to get home."))
        elif said.startswith("0 "):
            often = "On most days" if outcome.at(ENOUGH, 0.5) < 0.0 else "In 1 or more days of 10"
            lines.append(CrewLine("card_nothing_left", f"{often} nothing is left {when}."))
        else:
            lines.append(CrewLine("card_left", f"In 8 of 10 days at least {said} is left {when}."))
        reached = outcome.at(RESERVE_AT, 0.1)
        lines += _power_lines(site, settled, overloaded)
        if math.isfinite(reached) and verdict != "pass" and lines[0].code != "card_does_not_get_home":
            lines.append(_reserve_line(site, settled, reached, outcome.at(RESERVE_AT, 0.5)))
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
        it = "it" if len(settled.able.never) == 1 else "them"
        lines.append(CrewLine("card_not_powered", f"Do not count on {names}: {name_of(site)} cannot run {it}."))
    if settled.able.perhaps:
        names = and_list(sorted(settled.able.perhaps))
        verb, it = ("runs", "it") if len(settled.able.perhaps) == 1 else ("run", "them")
        text = f"It is not sure that {names} {verb} on {name_of(site)}: try {it} before the day counts on {it}."
        lines.append(CrewLine("card_may_not_run", text))
    for one in settled.able.together[:1]:
        how = "do not" if one.sure else "may not"
        lines.append(CrewLine("card_not_together", f"{_named(one.running)} {how} run together: let them take turns."))
    if overloaded:
        lines.append(CrewLine("card_too_much_at_once", f"Too much at a time for {name_of(site)}: take turns."))
    lost = sorted({tool for sleep in settled.asleep if sleep and sleep.after_s is not None for tool in sleep.lost})
    if lost:
        text = f"{name_of(site)} falls asleep and leaves {and_list(lost)} without power.".replace("the ", "The ", 1)
        lines.append(CrewLine("card_falls_asleep", text[0].upper() + text[1:]))
    return lines


def _named(tools: tuple[str, ...]) -> str:
    """`Saw and compressor`."""
    text = some_of(tools)
    return text[0].upper() + text[1:]


def _reserve_line(site: Site, settled: SettledDay, early_s: float, middle_s: float) -> CrewLine:
    """early_s, middle_s : [s] when the reserve is reached in one day of ten, and in five; inf for not at all."""
    begins_s = next((item.start_s for item in settled.plan.stretches if item.is_work), 0.0)
    vehicle = site.source.kind == "vehicle"
    often = "On most days" if middle_s < begins_s + 60.0 else "In 1 day of 10"
    if early_s < begins_s + 60.0:
        why = ": what is there is held for the way home" if vehicle else f": {name_of(site)} is empty"
        return CrewLine("card_no_work", f"{often} there is nothing for work{why}.")
    early, middle = _hours(early_s), _hours(middle_s)
    when = f"In 1 day of 10 {{}} after {early}"
    if math.isfinite(middle_s):
        when = f"On most days {{}} after {middle}" + (f", in 1 of 10 after {early}" if early != middle else "")
    if not vehicle:
        return CrewLine("card_runs_out", when.format(f"{name_of(site)} runs out") + ".")
    return CrewLine("card_reserve", when.format("the reserve is reached") + f": stop work after {early}.")


def _hours(time_s: float) -> str:
    """Two digits, never later than it is."""
    if not math.isfinite(time_s):
        return ""
    hours = time_s / 3600.0
    if hours < 1.0:
        return f"{math.floor(time_s / 60.0):g} min"
    step = 0.1 if hours < 10.0 else 1.0
    return f"{two_digits(math.floor(hours / step + 1e-9) * step)} h"


def _use_name(use: Use, site: Site) -> str:
    return {
        "awake": "idling" if site.source.kind == "engine_generator" else f"keeping {name_of(site)} awake",
        "conversion": "heat of the engine" if site.source.kind == "engine_generator" else "conversion",
        "drive": "driving",
    }.get(use.kind, use.name)
