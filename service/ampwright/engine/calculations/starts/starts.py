"""Does every tool of every case start while the others run, what stops it, and what do the others feel?

Each tool of a case is switched on last, with all others running; a case with a start order is started in that order.
The hard estimate of every start is run first; only where it is not a plain start are typical and easy ones run too.
On an engine set all three are run: a higher voltage asks more of its engine, so that the easier estimate of a motor can
be the one that pulls the frequency down and stays below its switch.
More than sixty tools in a case, or more starts than a check can carry, are left to the steady figures, and the answer
says so.
Not here: what a verdict makes of it (start_checks.py), probabilities and break-evens (start_break_evens.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ampwright.engine.calculations.network.cases import MOST_TOOLS_PUSHED, RunningSet
from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.pooled import Steps, alone
from ampwright.engine.calculations.starts.start_electronic import electronic_outcome
from ampwright.engine.calculations.starts.start_limits import TimedLimit, set_technology, timed_limits
from ampwright.engine.calculations.starts.start_network import Ports, Seen, ports_of, running_admittance, seen
from ampwright.engine.calculations.starts.start_outcomes import HALF_CYCLE_S, STARTED, OneStart, device_opens, judged
from ampwright.engine.calculations.starts.start_runs import (
    Running,
    Situation,
    at_limit,
    beside_s,
    start_runs,
)
from ampwright.engine.calculations.starts.start_sags import Sag, sags_of
from ampwright.engine.calculations.starts.start_set import set_of, transient_reactance_ohm
from ampwright.engine.calculations.starts.start_surges import surge_of
from ampwright.engine.calculations.starts.start_trips import circuit_devices
from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.protective_device import Device
from ampwright.engine.physics.source_limit_state import LIMITS, SHUTS_DOWN
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle_start import (
    ELECTRONIC,
    INDUCTION,
    UNIVERSAL,
    SettledStart,
    settle_starts,
    start_is_open,
)
from ampwright.engine.site.settled import SettledSite

__all__ = [
    "HALF_CYCLE_S",
    "STARTED",
    "Starting",
    "Starts",
    "ToolStart",
    "check_starts",
    "running_of",
    "settle_starting",
]

MOST_STARTS = 600


@dataclass(frozen=True, slots=True)
class ToolStart:
    """A tool switched on while others run: easy, typical, hard, and the sags of the hard and the typical estimate."""

    case: int
    tool: int
    beside: tuple[int, ...]
    estimates: tuple[OneStart, OneStart, OneStart]
    sags: tuple[Sag, ...]
    typical_sags: tuple[Sag, ...]

    @property
    def outcomes(self) -> tuple[str, str, str]:
        low, typical, high = self.estimates
        return low.outcome, typical.outcome, high.outcome


@dataclass(frozen=True, slots=True)
class Starting:
    """What the site brings to every start, settled."""

    starts: tuple[SettledStart | None, ...]
    technology: str | None
    limits: tuple[TimedLimit, ...]
    devices: tuple[Device | None, ...]
    ports: Ports | None


@dataclass(frozen=True, slots=True)
class Starts:
    """All starts of an evaluation. open_tools : placements whose start is not known. too_many : some were left out."""

    starting: Starting
    tools: tuple[ToolStart, ...]
    open_tools: frozenset[int]
    too_many: bool

    def of_case(self, case: int) -> tuple[ToolStart, ...]:
        return tuple(one for one in self.tools if one.case == case)


def settle_starting(site: SettledSite, ledger: Ledger, *, again: bool = False) -> Starting:
    """Starts, limits in time and devices of a site; asks for nothing where nothing starts.

    again : the restart after power went in mid-run, instead of the start.
    """
    starts = settle_starts(site, ledger, again=again)
    used = [i for i, start in enumerate(starts) if start is not None]
    if not used:
        return Starting(starts, None, (), tuple(None for _ in site.source.circuits), None)
    technology = set_technology(site, ledger)
    circuits = frozenset(site.source.receptacles[site.placements[i].receptacle].circuit for i in used)
    # a regulator brings the voltage back within a fraction of a second; without one it stays down
    reactance = transient_reactance_ohm(site) if technology == "capacitor_regulated" else (0.0, 0.0, 0.0)
    return Starting(
        starts, technology, timed_limits(site, technology, ledger), circuit_devices(site, circuits, ledger),
        ports_of(site, reactance),
    )  # fmt: skip


def check_starts(
    site: SettledSite,
    ledger: Ledger,
    sets: Sequence[RunningSet],
    rows: Sequence[Row],
    figures: RowFigures,
    only: frozenset[int] | None = None,
    *,
    again: bool = False,
) -> Starts:
    """Every start of every case, or of the cases in `only`; with `again` every restart after power went in mid-run."""
    return alone(starts_of_cases(site, ledger, sets, rows, figures, only, again=again))


def starts_of_cases(
    site: SettledSite,
    ledger: Ledger,
    sets: Sequence[RunningSet],
    rows: Sequence[Row],
    figures: RowFigures,
    only: frozenset[int] | None = None,
    *,
    again: bool = False,
) -> Steps[Starts]:
    """`check_starts`, asking for its marches."""
    starting = settle_starting(site, ledger, again=again)
    open_tools = frozenset(
        i for i, placement in enumerate(site.placements) if start_is_open(site, placement, starting.starts[i])
    )
    situations, too_many = _situations(site, sets, starting, only)
    if starting.ports is None or not situations:
        return Starts(starting, (), open_tools, too_many)
    running = running_of(site, starting, situations, rows, figures)
    motors = [n for n, one in enumerate(situations) if _start(starting, one).model in (INDUCTION, UNIVERSAL)]
    found: dict[int, list[OneStart | None]] = {n: [None, None, None] for n in range(len(situations))}
    sags: dict[int, tuple[Sag, ...]] = {}
    typical_sags: dict[int, tuple[Sag, ...]] = {}
    hard = yield from _motors(site, starting, [situations[n] for n in motors], HIGH, running)
    for n, (one, own_sags) in zip(motors, hard, strict=True):
        found[n][HIGH] = one
        sags[n] = own_sags
    on_set = set_of(starting.technology)
    retried = [
        n
        for n in motors
        if not _plain(found[n][HIGH], sags[n]) or (on_set and _start(starting, situations[n]).model == INDUCTION)
    ]
    for estimate in (TYPICAL, LOW):
        easier = yield from _motors(site, starting, [situations[n] for n in retried], estimate, running)
        for n, (one, own_sags) in zip(retried, easier, strict=True):
            found[n][estimate] = one
            if estimate == TYPICAL:
                typical_sags[n] = own_sags
    others = [n for n in range(len(situations)) if n not in set(motors)]
    for n, each in zip(others, _surges(site, starting, [situations[n] for n in others], running), strict=True):
        found[n] = list(each)
    tools = tuple(
        ToolStart(one.case, one.starting, one.beside, _three(found[n]), sags.get(n, ()), typical_sags.get(n, ()))
        for n, one in enumerate(situations)
    )
    return Starts(starting, tools, open_tools, too_many)


def _start(starting: Starting, one: Situation) -> SettledStart:
    start = starting.starts[one.starting]
    assert start is not None
    return start


def _three(found: list[OneStart | None]) -> tuple[OneStart, OneStart, OneStart]:
    """Estimates that were not run are no worse than the hard one, which is a plain start."""
    hard = found[HIGH]
    assert hard is not None
    return found[LOW] or hard, found[TYPICAL] or hard, hard


def _plain(one: OneStart | None, sags: tuple[Sag, ...]) -> bool:
    return one is not None and one.outcome == "starts" and all(sag.upset == "no" for sag in sags)


def _situations(
    site: SettledSite, sets: Sequence[RunningSet], starting: Starting, only: frozenset[int] | None
) -> tuple[list[Situation], bool]:
    found: list[Situation] = []
    too_many = False
    for case, running in enumerate(sets):
        if only is not None and case not in only:
            continue
        if len(running.placements) > MOST_TOOLS_PUSHED:
            too_many = True
            continue
        for i, beside in _in_order(site, running):
            if starting.starts[i] is None:
                continue
            if len(found) >= MOST_STARTS:
                return found, True
            found.append(Situation(case, i, beside))
    return found, too_many


def _in_order(site: SettledSite, running: RunningSet) -> list[tuple[int, tuple[int, ...]]]:
    """Each placement and what runs when it is switched on."""
    if running.start_order is None:
        return [(i, tuple(k for k in running.placements if k != i)) for i in running.placements]
    place = {name: n for n, name in enumerate(running.start_order)}
    ordered = sorted(running.placements, key=lambda i: place.get(site.placements[i].tool.id, len(place)))
    return [(i, tuple(sorted(ordered[:n]))) for n, i in enumerate(ordered)]


def running_of(
    site: SettledSite,
    starting: Starting,
    situations: Sequence[Situation | ToolStart],
    rows: Sequence[Row],
    figures: RowFigures,
) -> dict[int, Running]:
    """What the tools of each case draw when all work, from its solved row; nominal where its voltage collapsed."""
    ports = starting.ports
    assert ports is not None
    base = {row.case: r for r, row in enumerate(rows) if row.pushed is None}
    plate = np.array([placement.plate_voltage_v for placement in site.placements])
    root = np.array([3.0**0.5 if len(placement.lines) == 3 else 1.0 for placement in site.placements])
    nominal = np.array([placement.state("working").power_va for placement in site.placements]).T
    cases = list(dict.fromkeys(one.case for one in situations))
    chosen = [base[case] for case in cases]
    volts, watts = figures.tool_v[chosen], figures.tool_w[chosen]
    apparent = volts * figures.tool_a[chosen] * root
    lagging = np.sign(nominal.imag) * np.sqrt(np.maximum(apparent**2 - watts**2, 0.0))
    alive = volts > 0.5 * plate
    power = np.where(alive, watts + 1j * lagging, nominal)
    admittance = running_admittance(ports, power, np.where(alive, volts, plate))
    return {case: Running(admittance[k], power[k]) for k, case in enumerate(cases)}


def _motors(
    site: SettledSite,
    starting: Starting,
    situations: Sequence[Situation],
    estimate: int,
    running: dict[int, Running],
) -> Steps[list[tuple[OneStart, tuple[Sag, ...]]]]:
    if not situations or starting.ports is None:
        return []
    runs = yield from start_runs(
        site, starting.ports, starting.starts, situations, [estimate] * len(situations), starting.limits,
        starting.technology, running,
    )  # fmt: skip
    sags: Sequence[tuple[Sag, ...]] = ((),) * len(situations)
    if estimate != LOW:
        dips_ohm = _dips_ohm(site, starting, situations, estimate)
        sags = sags_of(site, starting.ports, runs, situations, estimate, dips_ohm, starting.starts)
    return list(zip(judged(site, starting.devices, runs, situations, estimate), sags, strict=True))


def _dips_ohm(site: SettledSite, starting: Starting, situations: Sequence[Situation], estimate: int) -> list[float]:
    """What a set with a regulator adds for a moment; the march of an induction motor on it has that itself."""
    if starting.technology != "avr":
        return [0.0] * len(situations)
    dip_ohm = transient_reactance_ohm(site)[estimate]
    return [0.0 if _start(starting, one).model == INDUCTION else dip_ohm for one in situations]


def _surges(
    site: SettledSite, starting: Starting, situations: Sequence[Situation], running: dict[int, Running]
) -> list[tuple[OneStart, OneStart, OneStart]]:
    if not situations or starting.ports is None:
        return []
    by_estimate: list[list[OneStart]] = []
    ports = starting.ports
    tools = np.array([one.starting for one in situations], np.int64)
    for estimate in (LOW, TYPICAL, HIGH):
        beside = beside_s(ports, situations, [estimate] * len(situations), running)
        sight = seen(
            ports, len(site.source.circuits), tools, np.full(len(situations), estimate, np.int64), beside,
            with_source=True,
        )  # fmt: skip
        by_estimate.append([_surge(site, starting, sight, n, one, estimate) for n, one in enumerate(situations)])
    return list(zip(by_estimate[0], by_estimate[1], by_estimate[2], strict=True))


def _surge(site: SettledSite, starting: Starting, sight: Seen, n: int, one: Situation, estimate: int) -> OneStart:
    start = _start(starting, one)
    if start.model == ELECTRONIC:
        return electronic_outcome(site, starting.limits, starting.devices, sight, n, one.starting, start, estimate)
    surge = surge_of(start, abs(complex(sight.emf_v[n])), complex(sight.ohm[n]), estimate)
    outcome, limited = "starts", -1
    if start.model == "filament":
        placement = site.placements[one.starting]
        circuit = site.source.receptacles[placement.receptacle].circuit
        legs = tuple(leg for leg in range(3) if sight.forward[n, leg] != 0.0)
        for k, limit in enumerate(starting.limits):
            if not limit.covers(circuit, legs):
                continue
            before, share, elsewhere = at_limit(limit, sight, n)
            amps = tuple(abs(before) + elsewhere + abs(share) * value for value in surge.history[1])
            events = play_limit(Limit(limit.continuous_a, limit.tiers[estimate], "shutdown"), surge.history[0], amps)
            off_s = events.trips_earliest_s if SHUTS_DOWN in limit.responses[estimate] else events.trips_latest_s
            if off_s < math.inf:
                limited = k
                if limit.responses[estimate] != (LIMITS,):
                    outcome = "shuts_off"
    trips_s, band = device_opens(site, starting.devices, sight, n, one.starting, surge.history, estimate)
    if trips_s < math.inf:
        outcome = "trips"
    return OneStart(outcome, surge.crest_a, surge.lasts_s, 0.0, False, limited, trips_s, band)
