"""What becomes of all that comes back at once when power returns?

Every motor that is still switched on starts at the same moment. Each is run up by the start kernels with the others
beside it: at standstill in the hard and the typical estimate, for as long as it takes, at speed in the easy one. So
the hard one is a bound on its side and the easy one on the other. Those that come up make room: the rest is run
again beside them, from standstill, after the time that the slowest of them took. What never comes up stands there.
A refrigerator's own protector takes it off after a while, and that of another motor where its document names one.
Source: engine/physics motor_start, universal_motor_start, generator_start; superposition.
Not here: devices and what they remember (restart_trips.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.pooled import Steps
from ampwright.engine.calculations.starts.own_protector import REFRIGERATOR, opens_s, protector_of
from ampwright.engine.calculations.starts.standing_motor import standing_s
from ampwright.engine.calculations.starts.start_network import Ports
from ampwright.engine.calculations.starts.start_runs import (
    OUTCOMES,
    Running,
    Situation,
    StartRuns,
    at_limit,
    start_runs,
)
from ampwright.engine.calculations.starts.start_surges import surge_of
from ampwright.engine.calculations.starts.starts import HALF_CYCLE_S, STARTED, Starting
from ampwright.engine.physics.stalled_winding import HOT_FROM_WORK_C
from ampwright.engine.physics.start_outcome import (
    RESULT_FINAL_CURRENT_A,
    RESULT_OFF_AT_S,
    RESULT_PEAK_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
)
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.settle_start import FILAMENT, INDUCTION, UNIVERSAL, SettledStart
from ampwright.engine.site.settled import SettledSite

Complex = npt.NDArray[np.complex128]
History = tuple[tuple[float, ...], tuple[float, ...]]

OWN_PROTECTOR_S = 20.0  # of a refrigerator's motor at standstill; common practice, no source
MOST_MOTORS = 12  # that come back at once and are run each for itself


@dataclass(frozen=True, slots=True)
class Draw:
    """What one tool draws from the moment of the return: its history in its own amperes, and where that counts.

    at_circuit : amperes of its circuit per ampere. at_limit : by timed limit, 0 where it does not count.
    """

    tool: int
    history: History
    at_circuit: float
    at_limit: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class MotorReturn:
    """outcome : of start_runs.OUTCOMES. takes_s : until at speed, +inf never. current_ratio : over locked-rotor."""

    tool: int
    outcome: str
    takes_s: float
    current_ratio: float


@dataclass(frozen=True, slots=True)
class Returned:
    """One estimate of one return of power.

    off_s : when a limit switches off while motors start, +inf never; off_limit : which. circuit_a, limit_a : [A] of
    what does not start. lasts_s : until the last one that comes up is up.
    """

    motors: tuple[MotorReturn, ...]
    draws: tuple[Draw, ...]
    off_s: float
    off_limit: int
    circuit_a: tuple[float, ...]
    limit_a: tuple[float, ...]
    lasts_s: float

    @property
    def stuck(self) -> tuple[MotorReturn, ...]:
        return tuple(one for one in self.motors if one.outcome not in STARTED)


def run_return(
    site: SettledSite, starting: Starting, running: Running, on: Sequence[int], still: Sequence[int]
) -> Steps[tuple[Returned, Returned, Returned]]:
    """Easy, typical and hard estimate of a return of power.

    starting : with the starts of a restart. running : what the tools of the case draw at work. on : come back at once.
    still : have kept their power and run on. Errors: ValueError for more motors than MOST_MOTORS.
    """
    ports = starting.ports
    assert ports is not None
    motors = [i for i in on if _model(starting.starts[i]) in (INDUCTION, UNIVERSAL)]
    if len(motors) > MOST_MOTORS:
        raise ValueError(f"{len(motors)} motors come back at once, at most {MOST_MOTORS} are run")
    others = [i for i in on if i not in motors]
    standing = {i: standing_s(starting.starts[i]) for i in motors}
    fixed = np.where(np.isin(ports.tool, [*others, *still]), running.admittance_s, 0.0)
    works = [_Estimate(e, list(motors), [], {}, {}) for e in (LOW, TYPICAL, HIGH)]
    while any(work.pending for work in works):
        yield from _round(site, starting, running, fixed, standing, [work for work in works if work.pending])
    low, typical, high = (_told(site, starting, running, fixed, others, work) for work in works)
    return low, typical, high


@dataclass(slots=True)
class _Estimate:
    estimate: int
    pending: list[int]
    up: list[int]
    found: dict[int, MotorReturn]
    draws: dict[int, Draw]
    offset_s: float = 0.0
    off_s: float = math.inf
    off_limit: int = -1


def _model(start: SettledStart | None) -> str:
    return start.model if start is not None else ""


def _round(
    site: SettledSite,
    starting: Starting,
    running: Running,
    fixed: Complex,
    standing: dict[int, Complex],
    works: list[_Estimate],
) -> Steps[None]:
    """One run of all motors that are not up yet, of several estimates in one call."""
    ports = starting.ports
    assert ports is not None
    situations: list[Situation] = []
    estimates: list[int] = []
    beside: dict[int, Running] = {}
    for work in works:
        e = work.estimate
        for motor in work.pending:
            drawn = fixed.copy()
            power = running.power_va.copy()
            for other in (*work.pending, *work.up):
                own = ports.of(other)
                if other == motor:
                    continue
                stands = other in work.pending and e != LOW
                drawn[e, own] = standing[other][e] if stands else running.admittance_s[e, own]
                if stands:
                    power[e, other] = (np.conj(drawn[e, own]) * np.abs(ports.emf_v[own]) ** 2).sum()
            key = len(situations)
            beside[key] = Running(drawn, power)
            around = tuple(int(i) for i in np.unique(ports.tool[drawn[e] != 0.0]) if i != motor)
            situations.append(Situation(key, motor, around))
            estimates.append(e)
    limits, technology = starting.limits, starting.technology
    runs = yield from start_runs(site, ports, starting.starts, situations, estimates, limits, technology, beside)
    n = 0
    for work in works:
        here = range(n, n + len(work.pending))
        n += len(work.pending)
        _settle_round(site, starting, runs, situations, here, standing, work)


def _settle_round(
    site: SettledSite,
    starting: Starting,
    runs: StartRuns,
    situations: list[Situation],
    here: range,
    standing: dict[int, Complex],
    work: _Estimate,
) -> None:
    e = work.estimate
    came_up: list[int] = []
    slowest_s = 0.0
    for n in here:
        motor = situations[n].starting
        outcome = OUTCOMES[int(runs.outcome[n])]
        takes_s = float(runs.result[n, RESULT_TIME_TO_SPEED_S])
        off_s = float(runs.result[n, RESULT_OFF_AT_S])
        if work.offset_s + off_s < work.off_s:
            work.off_s, work.off_limit = work.offset_s + off_s, int(runs.limit[n])
        start = starting.starts[motor]
        assert start is not None
        locked_a = abs(complex(standing[motor][e])) * start.voltage_v / (3.0**0.5 if start.phases == 3 else 1.0)
        history = _history(runs, n, outcome, takes_s, _own_protector_s(site, runs, n, motor, e, locked_a))
        ratio = history[1][-1] / locked_a if history[1] and locked_a > 0.0 else 0.0
        if site.placements[motor].load_class.name == "refrigerator" and outcome not in STARTED and history[1]:
            ratio = max(history[1]) / locked_a
        work.found[motor] = MotorReturn(motor, outcome, work.offset_s + takes_s, ratio)
        waits = ((work.offset_s, *history[0]), (_first_a(runs, n), *history[1])) if work.offset_s > 0.0 else history
        work.draws[motor] = Draw(motor, waits, *_counts(site, starting, runs, n, motor))
        if outcome in STARTED:
            came_up.append(motor)
            slowest_s = max(slowest_s, takes_s)
    # a source that went off before anybody was up has ended the try
    ended = work.off_s <= work.offset_s + slowest_s or (e == HIGH and work.off_s < math.inf)
    if not came_up or e == LOW or ended:
        work.pending = []
        return
    work.up += came_up
    work.pending = [motor for motor in work.pending if motor not in came_up]
    work.offset_s += slowest_s
    if work.pending:
        work.off_s, work.off_limit = math.inf, -1


def _first_a(runs: StartRuns, n: int) -> float:
    return float(runs.segment[n, 0, 1]) if int(runs.result[n, RESULT_SEGMENTS]) else 0.0


def _own_protector_s(site: SettledSite, runs: StartRuns, n: int, motor: int, estimate: int, locked_a: float) -> float:
    """[s] after which the own protector of a motor that stands still takes it off, +inf where none does."""
    placement = site.placements[motor]
    if placement.load_class.name == REFRIGERATOR and placement.tool.motor_protector is None:
        return OWN_PROTECTOR_S
    if protector_of(placement) is None or not locked_a > 0.0:
        return math.inf
    ratio = float(runs.result[n, RESULT_FINAL_CURRENT_A]) / locked_a
    return opens_s(estimate, ratio, HOT_FROM_WORK_C[estimate])


def _history(runs: StartRuns, n: int, outcome: str, takes_s: float, protected_s: float) -> History:
    """[s] and [A] of a motor; what it draws at work comes after where it came up, where not it stands there."""
    count = int(runs.result[n, RESULT_SEGMENTS])
    seconds, amps = runs.segment[n, :count, 0].tolist(), runs.segment[n, :count, 1].tolist()
    if not seconds:
        return (), ()
    if outcome in STARTED:
        kept: list[float] = []
        at_s = 0.0
        for step in seconds:
            if at_s >= takes_s:
                break
            kept.append(min(step, takes_s - at_s))
            at_s += step
        seconds, amps = kept, amps[: len(kept)]
    elif float(runs.result[n, RESULT_OFF_AT_S]) == math.inf:
        if protected_s < math.inf:
            seconds, amps = [protected_s], [math.sqrt(_mean_square(seconds, amps))]
        else:
            seconds[-1] = math.inf
    peak_a = float(runs.result[n, RESULT_PEAK_CURRENT_A])
    if peak_a > amps[0]:
        seconds, amps = [HALF_CYCLE_S, *seconds], [peak_a, *amps]
    return tuple(round(s, 4) for s in seconds), tuple(round(a, 3) for a in amps)


def _mean_square(seconds: list[float], amps: list[float]) -> float:
    total = sum(seconds)
    return sum(s * a * a for s, a in zip(seconds, amps, strict=True)) / total if total > 0.0 else amps[0] ** 2


def _counts(
    site: SettledSite, starting: Starting, runs: StartRuns, n: int, motor: int
) -> tuple[float, tuple[float, ...]]:
    circuit = site.source.receptacles[site.placements[motor].receptacle].circuit
    legs = tuple(leg for leg in range(3) if runs.seen.forward[n, leg] != 0.0)
    per = max((abs(complex(runs.seen.per_a[n, circuit, leg])) for leg in legs), default=0.0)
    of_limits = tuple(
        abs(at_limit(limit, runs.seen, n)[1]) if limit.covers(circuit, legs) else 0.0 for limit in starting.limits
    )
    return per, of_limits


def _told(
    site: SettledSite,
    starting: Starting,
    running: Running,
    fixed: Complex,
    others: Sequence[int],
    work: _Estimate,
) -> Returned:
    ports = starting.ports
    assert ports is not None
    e = work.estimate
    legs_a = _currents(ports, len(site.source.circuits), fixed[e], e)
    up = [motor for motor, one in work.found.items() if one.outcome in STARTED]
    draws = [_with_work(ports, running, e, work.draws[motor], motor in up) for motor in work.found]
    draws += [draw for i in others if (draw := _surge(starting, ports, e, i)) is not None]
    limits_a: list[float] = []
    for limit in starting.limits:
        chosen = legs_a[list(limit.circuits)].sum(axis=0)
        amounts = [abs(complex(chosen[leg])) for leg in limit.legs]
        limits_a.append(max(amounts, default=0.0) if limit.per_leg else sum(amounts))
    return Returned(
        tuple(work.found[i] for i in sorted(work.found)), tuple(draws), work.off_s, work.off_limit,
        tuple(round(float(np.abs(row).max(initial=0.0)), 3) for row in legs_a), tuple(round(a, 3) for a in limits_a),
        max((work.found[i].takes_s for i in up), default=0.0),
    )  # fmt: skip


def _currents(ports: Ports, circuits: int, admittance_s: Complex, e: int) -> Complex:
    """(circuit, leg) [A] of loads that are admittances, all in one linear solve."""
    count = len(ports.tool)
    system = np.eye(count) + admittance_s[:, None] * ports.impedance_ohm[e]
    amps = np.linalg.solve(system, admittance_s * ports.emf_v)
    found = np.zeros((circuits, 3), np.complex128)
    for p in range(count):
        found[ports.circuit[p]] += amps[p] * ports.incidence[p]
    return found


def _with_work(ports: Ports, running: Running, e: int, draw: Draw, is_up: bool) -> Draw:
    """A motor that came up goes on at what it draws at work."""
    if not is_up:
        return draw
    own = ports.of(draw.tool)[0]
    amps = round(abs(complex(running.admittance_s[e, own])) * abs(complex(ports.emf_v[own])), 3)
    seconds, currents = draw.history
    return Draw(draw.tool, ((*seconds, math.inf), (*currents, amps)), draw.at_circuit, draw.at_limit)


def _surge(starting: Starting, ports: Ports, e: int, tool: int) -> Draw | None:
    """The first moments of a rectifier or filament, above what it draws at work; electronics of a source clip it."""
    start = starting.starts[tool]
    if start is None or start.model in (INDUCTION, UNIVERSAL):
        return None
    own = ports.of(tool)
    if not len(own):
        return None
    port = own[0]
    ohm = complex(ports.impedance_ohm[e, port, port])
    surge = surge_of(start, abs(complex(ports.emf_v[port])), ohm, e)
    circuit = int(ports.circuit[port])
    legs = tuple(int(leg) for leg in np.flatnonzero(ports.incidence[port]))
    counts = [
        float(1 if limit.per_leg else len(legs)) if start.model == FILAMENT and limit.covers(circuit, legs) else 0.0
        for limit in starting.limits
    ]
    return Draw(tool, surge.history, 1.0, tuple(counts))
