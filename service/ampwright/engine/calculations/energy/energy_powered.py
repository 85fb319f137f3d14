"""Which tools can the source feed at all, and how much power at a time?

A tool that a load check fails even alone, and even with every assumption taken the other way, does not run: it takes no
energy and its work is not done. One that fails on the safe side only is counted as running, and told.
An engine set is checked with what altitude and heat leave of its rating: in thin air it stalls under its plate's load.
Sets of tools that may run at a time, as the cases say or as the people there can run them, are checked by the same
load check: one that fails keeps a day from passing.
What all loads together may take is the least of what is known: the limits of the source, the rating of an engine less
what altitude and heat take, the circuits of a supply. Apparent power counts as power, which lets through too much
rather than too little.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check.load_check_report import text_of
from ampwright.engine.calculations.load_check.not_assessed import starts_are_open
from ampwright.engine.calculations.network.cases import running_sets
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, Stop
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.source import Capacity, PowerSource
from ampwright.engine.site.thin_air import AT_ALTITUDE, limited_by_air
from ampwright.engine.site.use import Case, Site

MOST_ALONE = 60
"""Tools that are tried alone; with more of them none is, and the answer says so."""
NO_LIMIT_W = 1e12
WHOLE = Band.exactly(1.0)
WORTH_TELLING = 0.99  # of a rating: less than this is what the place takes


@dataclass(frozen=True, slots=True)
class Together:
    """A set of tools that fails. sure : whatever is not known; reason : what the load check says of it."""

    running: tuple[str, ...]
    sure: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Powered:
    """Tools that cannot run (`never`) or may not (`perhaps`): id and what the load check says of it.

    together : sets that fail though each of their tools runs alone. left_out : what was not looked at.
    """

    never: dict[str, str]
    perhaps: dict[str, str]
    together: tuple[Together, ...] = ()
    left_out: tuple[str, ...] = ()


Group = tuple[str, ...] | None
"""Ids of the tools of one stop, None for all."""


def groups_of(day: EnergyDay) -> tuple[Group, ...]:
    """Which tools are at each stop, each group once."""
    stops = day.stops or (Stop("site", ""),)
    return tuple(dict.fromkeys(stop.running for stop in stops))


def powered(site: Site, groups: tuple[Group, ...] = (None,), left: Band = WHOLE) -> Powered:
    """What becomes of each tool alone on this source, plugged in as the site says, and of those of a group together.

    left : [-] what altitude and heat leave of an engine's rating.
    """
    if not site.tools:
        return Powered({}, {})
    if len(site.tools) > MOST_ALONE:
        return Powered({}, {}, left_out=("running_alone", "running_together"))
    cases = tuple(Case(tool.id, (tool.id,), f"/cases/{n}") for n, tool in enumerate(site.tools))
    alone = replace(site, cases=cases)
    safe = evaluate(derated(alone, left), frozenset())
    never: dict[str, str] = {}
    perhaps: dict[str, str] = {}
    for tool, (sure, reason) in _failing(alone, safe, left).items():
        (never if sure else perhaps)[tool] = reason
    sets, complete = _sets(site, safe, groups, frozenset(never))
    left_out = [] if complete else ["running_together"]
    if starts_are_open(safe.starts, safe.sets):
        left_out.append("start")
    return Powered(never, perhaps, _together(site, sets, frozenset(perhaps), left), tuple(left_out))


def derated(site: Site, left: Band) -> Site:
    """The site with a set that gives no more than altitude and heat leave of its rating, and so takes them no more."""
    where = member_of(site.source.pointer, "running")
    return replace(site, source=limited_by_air(site.source, left, where), altitude_m=None)


def _failing(site: Site, safe: Evaluation, left: Band) -> dict[str, tuple[bool, str]]:
    """Cases that fail on the safe side: whether they fail with every assumption taken the other way too, and why."""
    failing = [n for n, one in enumerate(safe.sets) if safe.aspect(n, "capacity") == "fail"]
    if not failing:
        return {}
    flipped = frozenset(item.key for item in safe.assumptions if item.if_instead is not None)
    best = Band.exactly(left.high)
    other = evaluate(derated(site, best), flipped) if flipped or left != best else safe
    thin = left.typical < WORTH_TELLING
    found: dict[str, tuple[bool, str]] = {}
    for n in failing:
        sure = other.aspect(n, "capacity") == "fail"
        found[safe.sets[n].id] = (sure, _reason(other if sure else safe, n, thin))
    return found


def _sets(
    site: Site, safe: Evaluation, groups: tuple[Group, ...], never: frozenset[str]
) -> tuple[tuple[tuple[str, ...], ...], bool]:
    """Sets of two tools and more that may run at a time at a stop, and whether these are all."""
    complete = True
    if site.cases is not None:
        asked = [case.running for case in site.cases]
    else:
        found, complete = running_sets(site, safe.settled)
        asked = [one.running for one in found]
    made = (
        tuple(t.id for t in site.tools if t.id in one and t.id not in never and (group is None or t.id in group))
        for group in groups
        for one in map(frozenset, asked)
    )
    return tuple(dict.fromkeys(one for one in made if len(one) > 1)), complete


def _together(
    site: Site, sets: tuple[tuple[str, ...], ...], perhaps: frozenset[str], left: Band
) -> tuple[Together, ...]:
    if not sets:
        return ()
    cases = tuple(Case(f"together-{n}", one, "/cases") for n, one in enumerate(sets))
    asked = replace(site, cases=cases)
    failing = _failing(asked, evaluate(derated(asked, left), frozenset()), left)
    return tuple(
        Together(one, *failing[case.id])
        for case, one in zip(cases, sets, strict=True)
        # what is open of a tool alone is told of that tool
        if case.id in failing and (failing[case.id][0] or not perhaps & set(one))
    )


def _reason(found: Evaluation, case: int, thin: bool) -> str:
    """What the load check says of a case that fails: with all of its tools at work, else as one of them is pushed."""
    rows = sorted(
        (r for r, row in enumerate(found.rows) if row.case == case), key=lambda r: found.rows[r].pushed is not None
    )
    checks = [check for r in rows for check in found.row_checks[r]]
    failing = [
        check
        for check in (*checks, *found.case_checks[case], *found.site_checks)
        if check.aspect == "capacity" and check.verdict == "fail"
    ]
    if not failing:
        return "it does not start"
    text = text_of(failing[0], found.settled).rstrip(".")
    text = text.replace("Just ", "just ", 1) if text.startswith("Just ") else text
    of_rating = failing[0].code == "limit_over_continuous" and failing[0].subject == AT_ALTITUDE
    return text if thin or not of_rating else text.replace(" at this altitude and heat", "")


def limit_w(source: PowerSource, rated: Band | None, derating: Band) -> Band:
    """[W] the most that all loads together may take; NO_LIMIT_W where nothing is known.

    rated : [W] of an engine set; derating : [-] of its rating, low first.
    """
    found: list[Band] = []
    if rated is not None:
        # one spread: a small set in thin air is as likely as each of them
        found.append(Band(rated.low * derating.low, rated.typical * derating.typical, rated.high * derating.high))
    found += _limits(source)
    circuits = _circuits(source)
    if circuits is not None:
        found.append(circuits)
    if not found:
        return Band.exactly(NO_LIMIT_W)
    least = min(found, key=lambda band: band.typical)
    return Band(max(least.low, 1e-3), max(least.typical, 1e-3), max(least.high, 1e-3))


def _limits(source: PowerSource) -> Iterable[Band]:
    """Each limit over everything; those over a part of the source count together, where every part has one."""
    parts: list[Band] = []
    for item in source.limits or ():
        if item.continuous is None:
            continue
        band = _watts(item.continuous, source, len(item.over or ()))
        if item.over is None:
            yield band
        else:
            parts.append(band)
    legs = {name for item in source.limits or () if item.over is not None for name in item.over}
    if parts and len(legs) >= len(source.supply.angles_rad):
        low, typical, high = (math.fsum(band.at(i) for band in parts) for i in range(3))
        yield Band(low, typical, high)


def _watts(capacity: Capacity, source: PowerSource, over: int) -> Band:
    legs = over or len(source.supply.angles_rad)
    volts = source.supply.leg_voltage_v * legs
    return capacity.band.times(volts if capacity.unit == "A" else 1.0)


def _circuits(source: PowerSource) -> Band | None:
    """What the circuits of a supply carry, where every receptacle's circuit has a device with a known rating."""
    if source.kind != "site_supply" or not source.circuits:
        return None
    ratings = [item.device.rating_a if item.device else None for item in source.circuits]
    if any(rating is None for rating in ratings):
        return None
    total = 0.0
    for circuit, rating in zip(source.circuits, ratings, strict=True):
        legs = len(circuit.legs) if circuit.legs else len(source.supply.angles_rad)
        total += (rating.typical if rating else 0.0) * source.supply.leg_voltage_v * legs
    return Band.exactly(total)
