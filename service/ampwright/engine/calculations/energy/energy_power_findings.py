"""What must be told of a day whose source cannot feed what is asked of it at a time?

By tool alone, by those that may run together, by all on average, and by cells that are too cold. Where the limit itself
is a default, and one day of ten has power enough, nobody knows: the verdict is then `unknown`.
"""

from __future__ import annotations

import math
from dataclasses import replace

from ampwright.engine.calculations.energy.energy_figures import Rows
from ampwright.engine.calculations.energy.energy_finding import Told, name_of, some_of
from ampwright.engine.calculations.energy.energy_judgement import rounded_j
from ampwright.engine.calculations.energy.energy_plan import Outcome, quantile
from ampwright.engine.calculations.energy.energy_settle import BATTERY_TOO_COLD, SettledDay
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.physics.day_energy import LIMIT, UNPOWERED
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.use import Site


def _whose(settled: SettledDay) -> tuple[str, str]:
    """Where the limit of a battery is settled, and its words: cold by default, or as stated."""
    if settled.plan.figures[LIMIT].assumption is None:
        return "/battery/largest_discharge", "its battery, as stated,"
    return "/battery/cells", "cells so cold"


MOST_SETS_TOLD = 3


def asked_w(settled: SettledDay, outcome: Outcome) -> float:
    """[W] the largest mean load of any part of the day, asked whether or not the source gives it, P90."""
    plan = settled.plan
    able = [j for j, load in enumerate(plan.loads) if load.able]
    if not able or not any(item.is_work for item in plan.stretches):
        return 0.0
    power = outcome.value[:, [plan.loads[j].power for j in able]]
    power = power * outcome.value[:, [plan.loads[j].time for j in able]]
    return quantile((power @ plan.share[:, able].T).max(axis=1), 0.9)


def tools_told(site: Site, settled: SettledDay) -> list[Told]:
    """Tools that the source cannot feed, or may not: what is not known of one leaves its work open."""
    never = settled.able.never
    found = [
        Told("tool_not_powered", tool.pointer, tool.id, "fail", text=_of(tool.id, never[tool.id]))
        for tool in site.tools
        if tool.id in never and never[tool.id] != BATTERY_TOO_COLD
    ]
    found += [
        Told("tool_may_not_run", tool.pointer, tool.id, "unknown", text=_of(tool.id, settled.able.perhaps[tool.id]))
        for tool in site.tools
        if tool.id in settled.able.perhaps
    ]
    return [*found, *_together_told(settled), *_cold_told(site, settled)]


def _of(tool: str, reason: str) -> str:
    """A reason beside the tool that the sentence names already."""
    return f"it{reason.removeprefix(tool)}" if reason.startswith(f"{tool} ") else reason


def _together_told(settled: SettledDay) -> list[Told]:
    """Sets that fail together: what must run at a time fails the day, what can take turns makes it marginal."""
    found: list[Told] = []
    for one in settled.able.together:
        # shares of the time that leave no way for all never to run at once (Bonferroni)
        coincide = math.fsum(settled.running_ratio(tool) for tool in one.running) > len(one.running) - 1 + 1e-9
        verdict = ("fail" if one.sure else "unknown") if coincide else "marginal"
        how = "do not" if one.sure else "may not"
        found.append(
            Told("not_together", "/cases", some_of(one.running), verdict, text=f"{how} run together ({one.reason})")
        )
    found.sort(key=lambda item: -ORDER.index(item.verdict))
    if len(found) > MOST_SETS_TOLD:
        last, more = found[MOST_SETS_TOLD - 1], len(found) - MOST_SETS_TOLD
        text = f"{last.text}, as {more} other set{'s' if more > 1 else ''} of tools,"
        found = [*found[: MOST_SETS_TOLD - 1], replace(last, text=text)]
    return found


def _cold_told(site: Site, settled: SettledDay) -> list[Told]:
    """Tools that take more than cells so cold may give, each for itself."""
    cold = settled.cold_w
    if cold is None:
        return []
    where, text = _whose(settled)
    found: list[Told] = []
    for tool in site.tools:
        power = settled.power_w[tool.id]
        if tool.id in settled.able.never and settled.able.never[tool.id] != BATTERY_TOO_COLD:
            continue
        if power.typical > cold.high:
            verdict = "fail"
        elif power.typical > cold.typical:
            verdict = "unknown"
        elif power.high > cold.low:
            verdict = "marginal"
        else:
            continue
        said = (round(power.typical, 1), round(cold.high if verdict == "fail" else cold.low, 1))
        found.append(Told("battery_stops_tool", where, tool.id, verdict, *said, "W", text))
    return found


def power_told(site: Site, settled: SettledDay, rows: Rows, busiest_w: float | None) -> list[Told]:
    """More asked of the source at a time than it gives: in five draws of ten it fails, in one it is marginal."""
    if rounded_j(float(rows.values[UNPOWERED, 2])) <= 0.0:
        return []
    verdict = "fail" if rounded_j(float(rows.values[UNPOWERED, 1])) > 0.0 else "marginal"
    limit = settled.plan.figures[LIMIT]
    if verdict == "fail" and limit.assumption is not None and rounded_j(float(rows.values[UNPOWERED, 0])) <= 0.0:
        verdict = "unknown"
    text = ""
    if settled.cold_w is not None:
        code, (where, text) = "battery_overloaded", _whose(settled)
    elif site.source.kind == "engine_generator":
        code, where = "engine_overloaded", member_of(site.source.pointer, "running")
    else:
        code, where = "source_overloaded", member_of(site.source.pointer, "limits")
    limit_w = round(limit.band.typical, 1)
    asked = round(busiest_w, 1) if busiest_w is not None else None
    return [Told(code, where, name_of(site), verdict, asked, limit_w, "W", text)]
