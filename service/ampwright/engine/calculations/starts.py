"""Does every tool of every case start while the others run, what stops it, and what do the others feel?

Each tool of a case is switched on last, with all others running; a case with a start order is started in that order.
The hard estimate of every start is run first; only where it is not a plain start are typical and easy ones run too.
More than sixty tools in a case, or more starts than a check can carry, are left to the steady figures, and the answer
says so.
Not here: what a verdict makes of it (start_checks.py), probabilities and break-evens (start_break_evens.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ampwright.engine.calculations.cases import MOST_TOOLS_PUSHED, RunningSet
from ampwright.engine.calculations.load_network import Row, RowFigures
from ampwright.engine.calculations.start_limits import TimedLimit, set_technology, timed_limits
from ampwright.engine.calculations.start_network import Ports, Seen, ports_of, running_admittance, seen
from ampwright.engine.calculations.start_runs import OUTCOMES, Running, Situation, StartRuns, at_limit, run_starts
from ampwright.engine.calculations.start_sags import Sag, sags_of
from ampwright.engine.calculations.start_set import transient_reactance_ohm
from ampwright.engine.calculations.start_surges import surge_of
from ampwright.engine.calculations.start_trips import DeviceRun, circuit_devices, may_open, opens_at_s
from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.protective_device import Device, TripBand
from ampwright.engine.physics.source_limit_state import LIMITS, SHUTS_DOWN
from ampwright.engine.physics.start_outcome import (
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_PEAK_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
)
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle_start import INDUCTION, UNIVERSAL, SettledStart, settle_starts, start_is_open
from ampwright.engine.site.settled import SettledSite

MOST_STARTS = 600
HALF_CYCLE_S = 0.01
STARTED = ("starts", "starts_slowly")


@dataclass(frozen=True, slots=True)
class OneStart:
    """One estimate of one start. trip : of the circuit's device, None where it cannot open.

    least_v : [V] the least at the tool's terminals meanwhile (line to neutral of a star), None for a surge.
    """

    outcome: str
    peak_a: float
    lasts_s: float  # +inf where it never gets there
    limited_s: float
    stays_limited: bool
    limit: int
    trips_s: float
    trip: TripBand | None
    least_v: float | None = None


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
    hard = _motors(site, starting, [situations[n] for n in motors], HIGH, running)
    for n, (one, own_sags) in zip(motors, hard, strict=True):
        found[n][HIGH] = one
        sags[n] = own_sags
    retried = [n for n in motors if not _plain(found[n][HIGH], sags[n])]
    for estimate in (TYPICAL, LOW):
        for n, (one, own_sags) in zip(
            retried, _motors(site, starting, [situations[k] for k in retried], estimate, running), strict=True
        ):
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
    found: dict[int, Running] = {}
    for case in dict.fromkeys(one.case for one in situations):
        r = base[case]
        volts, watts = figures.tool_v[r], figures.tool_w[r]
        apparent = volts * figures.tool_a[r] * root
        lagging = np.sign(nominal.imag) * np.sqrt(np.maximum(apparent**2 - watts**2, 0.0))
        alive = volts > 0.5 * plate
        power = np.where(alive, watts + 1j * lagging, nominal)
        volts = np.where(alive, volts, plate)
        found[case] = Running(running_admittance(site, ports, power, volts), power)
    return found


def _motors(
    site: SettledSite,
    starting: Starting,
    situations: Sequence[Situation],
    estimate: int,
    running: dict[int, Running],
) -> list[tuple[OneStart, tuple[Sag, ...]]]:
    if not situations or starting.ports is None:
        return []
    runs = run_starts(
        site, starting.ports, starting.starts, situations, [estimate] * len(situations), starting.limits,
        starting.technology, running,
    )  # fmt: skip
    return [
        (
            _judged(site, starting, runs, n, one, estimate),
            sags_of(site, starting.ports, runs, n, one, estimate, _dip_ohm(site, starting, one, estimate))
            if estimate != LOW
            else (),
        )
        for n, one in enumerate(situations)
    ]


def _dip_ohm(site: SettledSite, starting: Starting, one: Situation, estimate: int) -> float:
    """What a set with a regulator adds for a moment; the march of an induction motor on it has that itself."""
    if starting.technology != "avr" or _start(starting, one).model == INDUCTION:
        return 0.0
    return transient_reactance_ohm(site)[estimate]


def _judged(site: SettledSite, starting: Starting, runs: StartRuns, n: int, one: Situation, estimate: int) -> OneStart:
    result = runs.result[n]
    outcome = OUTCOMES[int(runs.outcome[n])]
    lasts_s = float(result[RESULT_TIME_TO_SPEED_S])
    off_s = float(result[RESULT_OFF_AT_S])
    count = int(result[RESULT_SEGMENTS])
    seconds, amps = runs.segment[n, :count, 0].tolist(), runs.segment[n, :count, 1].tolist()
    if outcome in STARTED:
        seconds, amps = _until(seconds, amps, lasts_s)
    elif off_s == math.inf and seconds:
        seconds[-1] = math.inf  # it stands there and growls
    peak_a = float(result[RESULT_PEAK_CURRENT_A])
    if seconds and peak_a > amps[0]:
        # a piece of the history is a mean; a magnetic release minds the highest half cycle
        seconds, amps = [HALF_CYCLE_S, *seconds], [peak_a, *amps]
    trips_s, band = device_opens(
        site, starting.devices, runs.seen, n, one.starting, (tuple(seconds), tuple(amps)), estimate
    )
    if outcome in STARTED and trips_s < lasts_s:
        outcome = "trips"
    return OneStart(
        outcome, peak_a, lasts_s, float(result[RESULT_LIMITED_S]),
        int(runs.response[n]) == LIMITS and bool(result[RESULT_LIMITED_AT_END]), int(runs.limit[n]), trips_s, band,
        float(result[RESULT_LEAST_LOAD_VOLTAGE_V]),
    )  # fmt: skip


def _until(seconds: list[float], amps: list[float], end_s: float) -> tuple[list[float], list[float]]:
    kept: list[float] = []
    start_s = 0.0
    for step in seconds:
        if start_s >= end_s:
            break
        kept.append(min(step, end_s - start_s))
        start_s += step
    return kept, amps[: len(kept)]


def device_opens(
    site: SettledSite,
    devices: Sequence[Device | None],
    sight: Seen,
    n: int,
    tool: int,
    history: tuple[tuple[float, ...], tuple[float, ...]],
    estimate: int,
) -> tuple[float, TripBand | None]:
    """[s] at which the device of a tool's circuit opens under the history of its start, and the device's band."""
    run = device_run(site, devices, sight, n, tool, history, estimate)
    if run is None or not may_open(run):
        return math.inf, None
    return opens_at_s([run])[0]


def device_run(
    site: SettledSite,
    devices: Sequence[Device | None],
    sight: Seen,
    n: int,
    tool: int,
    history: tuple[tuple[float, ...], tuple[float, ...]],
    estimate: int,
) -> DeviceRun | None:
    """What the device of a tool's circuit carries, None where there is none with a band."""
    circuit = site.source.receptacles[site.placements[tool].receptacle].circuit
    device = devices[circuit]
    if device is None or not history[0]:
        return None
    legs = [leg for leg in range(3) if sight.forward[n, leg] != 0.0]
    leg = max(legs, key=lambda one: (abs(sight.before_a[n, circuit, one]), -one))
    before = round(abs(complex(sight.before_a[n, circuit, leg])), 3)
    per = abs(complex(sight.per_a[n, circuit, leg]))
    # to a thousandth: alike starts share one answer, and the figure never says more
    seconds = tuple(round(value, 4) if value < math.inf else value for value in history[0])
    amps = tuple(round(before + per * value, 3) for value in history[1])
    return DeviceRun(device, before, (seconds, amps), estimate)


def _surges(
    site: SettledSite, starting: Starting, situations: Sequence[Situation], running: dict[int, Running]
) -> list[tuple[OneStart, OneStart, OneStart]]:
    if not situations or starting.ports is None:
        return []
    by_estimate: list[list[OneStart]] = []
    ports = starting.ports
    tools = np.array([one.starting for one in situations], np.int64)
    for estimate in (LOW, TYPICAL, HIGH):
        beside = np.zeros((len(situations), len(ports.tool)), np.complex128)
        for n, one in enumerate(situations):
            drawn = running[one.case].admittance_s[estimate]
            beside[n] = np.where(np.isin(ports.tool, one.beside), drawn, 0.0)
        sight = seen(
            ports, len(site.source.circuits), tools, np.full(len(situations), estimate, np.int64), beside,
            with_source=True,
        )  # fmt: skip
        by_estimate.append([_surge(site, starting, sight, n, one, estimate) for n, one in enumerate(situations)])
    return list(zip(by_estimate[0], by_estimate[1], by_estimate[2], strict=True))


def _surge(site: SettledSite, starting: Starting, sight: Seen, n: int, one: Situation, estimate: int) -> OneStart:
    start = _start(starting, one)
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
