"""Does the source fall asleep at a stop, when, and what does it then not feed?

A source whose threshold is known watches its output. While a crew works with it, it is awake: somebody switches it on
again. Where only loads are left that come and go by themselves, it is asleep once they have drawn too little for as
long as it waits; unless it wakes by itself when a load comes back, nothing is fed from then on.
All loads of a stop begin together, switched on: the first pause of all of them is then as late as it can be, and what
is said to be lost is lost for sure. Nights and other long stops go through the same count.
Source: physics/source_sleep.py; waiting time and cycle length common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ampwright.engine.calculations.energy.energy_loads import Loads
from ampwright.engine.physics.source_sleep import awake_time_s
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, Stop
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.source import PowerSource
from ampwright.engine.site.tool import Tool
from ampwright.engine.site.use import Site

SLEEPS_AFTER_S = 600.0
CYCLE_S = 2700.0
MOST_PARTS = 4000
BY_ITSELF = "by_itself"


@dataclass(frozen=True, slots=True)
class Sleep:
    """What becomes of a stop.

    after_s : [s] from the beginning of the stop until the source is asleep for good, None where it wakes again.
    awake_ratio : [-] share of the stop that it is awake, where it wakes again; 1 otherwise.
    lost : ids of the tools that then get nothing though they should run on.
    """

    after_s: float | None
    awake_ratio: float
    lost: tuple[str, ...]


def threshold_w(source: PowerSource) -> Band | None:
    """[W] below which the source is known to fall asleep; None where nobody said so."""
    if source.kind not in ("vehicle", "battery_station"):
        return None
    if source.sleeps_below_w is not None:
        return source.sleeps_below_w if source.sleeps_below_w.high > 0.0 else None
    told = [item.at for item in source.availability if item.when == "load_below" and not item.works]
    return Band.exactly(told[0]) if told and told[0] else None


def sleep_at(site: Site, day: EnergyDay, loads: Loads, stop: Stop, ledger: Ledger) -> Sleep | None:
    """What the source does at a stop; None where it stays awake."""
    threshold = threshold_w(site.source)
    if threshold is None or not stop.lasts_s:
        return None
    if any(work.stop in (None, stop.id) and work.amount > 0.0 for work in day.work):
        return None
    tools = [
        tool
        for tool in site.tools
        if tool.id not in loads.blocked and (stop.running is None or tool.id in stop.running)
    ]
    if any(_by_hand(tool, loads) for tool in tools):
        return None
    steady: list[Tool] = []
    cycling: list[Tool] = []
    for tool in tools:
        (steady if _ratio(tool, loads) >= 1.0 else cycling).append(tool)
    always_w = sum(loads.power_w[tool.id].typical for tool in steady)
    always_w += sum(loads.standby_w[tool.id] for tool in cycling)
    if always_w >= threshold.typical:
        return None
    waits_s = site.source.sleeps_after_s
    if waits_s is None:
        where = member_of(site.source.pointer, "sleeps_after")
        waits_s = ledger.assume("sleeps_after", where, Band.exactly(SLEEPS_AFTER_S), "10 min")
    load_w, lasts_s = _course(cycling, loads, always_w, stop.lasts_s, ledger)
    awake_s = np.empty_like(load_w)
    wakes = int(bool(site.source.wakes_on_load))
    awake_time_s(load_w, lasts_s, threshold.typical, waits_s.typical, wakes, awake_s)
    asleep = np.flatnonzero(awake_s < lasts_s - 1e-9)
    if not len(asleep):
        return None
    if wakes:
        return Sleep(None, float(awake_s.sum() / lasts_s.sum()), tuple(tool.id for tool in steady))
    after_s = float(lasts_s[: asleep[0]].sum() + awake_s[asleep[0]])
    return Sleep(after_s, 1.0, tuple(tool.id for tool in tools))


def _by_hand(tool: Tool, loads: Loads) -> bool:
    """Somebody is there: a compressor is asked for air by people, who notice that it stays off."""
    load_class = loads.classes[tool.id]
    return (tool.operated or load_class.operated) != BY_ITSELF or (tool.control or load_class.control) == "pressure"


def _ratio(tool: Tool, loads: Loads) -> float:
    key = f"running:{tool.id}"
    place = loads.builder.places.get(key)
    return 1.0 if place is None else loads.builder.figures[place].band.typical


def _course(
    cycling: list[Tool], loads: Loads, always_w: float, lasts_s: float, ledger: Ledger
) -> tuple[np.ndarray[tuple[int], np.dtype[np.float64]], np.ndarray[tuple[int], np.dtype[np.float64]]]:
    """What is asked of the source over the stop: every load its share of each cycle, all beginning switched on."""
    cycles: list[tuple[float, float, float]] = []  # on, whole cycle, power
    for tool in cycling:
        ratio = _ratio(tool, loads)
        if tool.on_s is not None:
            on = tool.on_s.typical
            cycle = on + (tool.off_s.typical if tool.off_s is not None else 0.0)
        else:
            cycle = ledger.assume("cycle_length", member_of(tool.pointer, "on"), CYCLE_S, "45 min")
            on = ratio * cycle
        if on > 0.0:
            cycles.append((on, max(cycle, on), loads.power_w[tool.id].typical))
    edges = {0.0, lasts_s}
    for on, cycle, _ in cycles:
        count = min(int(lasts_s / cycle) + 1, MOST_PARTS // (2 * len(cycles)))
        for n in range(count):
            edges.update(edge for edge in (n * cycle, n * cycle + on) if edge < lasts_s)
    times = np.array(sorted(edges))
    begins, parts_s = times[:-1], np.diff(times)
    asked = np.full_like(begins, always_w)
    for on, cycle, power in cycles:
        asked += np.where((begins + 1e-6) % cycle < on, power, 0.0)
    return np.ascontiguousarray(asked), np.ascontiguousarray(parts_s)
