"""What becomes of every start, estimate by estimate?

Builds one row for each start, estimate and limit that the source lays on it, runs all induction motors in one kernel
call, all series motors in another, and those on engine sets without electronics in a third; where several limits or
responses are possible, the worst outcome counts. A row depends on nothing beside it, so one start alone gives the same
bits.
A series motor and a surge on a set with a regulator meet a source that recovers at once, on one without a regulator
its transient reactance for good.
Source: engine/physics motor_start, universal_motor_start, generator_start.
Not here: surges of rectifiers and filaments (start_surges.py), devices (start_trips.py).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.start_limits import TimedLimit
from ampwright.engine.calculations.start_models import induction_rows, universal_rows
from ampwright.engine.calculations.start_network import Ports, Seen, seen
from ampwright.engine.calculations.start_set import generator_row, set_of
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.generator_start import generator_start
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.source_limit_state import (
    SOURCE_COLUMNS,
    SOURCE_CONTINUOUS_A,
    SOURCE_CORD_REACTANCE_OHM,
    SOURCE_CORD_RESISTANCE_OHM,
    SOURCE_CREST_A,
    SOURCE_EMF_V,
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_RESPONSE,
    SOURCE_TIER_1_A,
    STIFF,
)
from ampwright.engine.physics.start_outcome import (
    COLLAPSES,
    HUNTS,
    RESULT_COLUMNS,
    RESULT_OUTCOME,
    SHUTS_OFF,
    SOURCE_LIMITS,
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)
from ampwright.engine.physics.universal_motor_start import universal_motor_start
from ampwright.engine.site.settle_start import INDUCTION, UNIVERSAL, SettledStart
from ampwright.engine.site.settled import SettledSite

Real = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]

HORIZON_S = 20.0
SLOW_S = 3.0  # a run-up that a motor's protector and a breaker notice; common practice, no source
INDUCTION_GOAL, INDUCTION_RUNS = 0.93, 0.8
UNIVERSAL_GOAL, UNIVERSAL_RUNS = 0.85, 0.5  # over no-load speed at plate voltage: a low voltage leaves less
NO_CURRENT_A = 1e-6
OUTCOMES = {
    STARTS: "starts",
    STARTS_SLOWLY: "starts_slowly",
    HUNTS: "hunts",
    STALLS: "stalls",
    SOURCE_LIMITS: "source_limits",
    SHUTS_OFF: "shuts_off",
    COLLAPSES: "collapses",
}
# better first; of two possible responses of a source the worse one counts
_WORSE = np.zeros(8, np.int64)
for _rank, _code in enumerate((STARTS, STARTS_SLOWLY, SOURCE_LIMITS, SHUTS_OFF, HUNTS, STALLS, COLLAPSES)):
    _WORSE[_code] = _rank


@dataclass(frozen=True, slots=True)
class Situation:
    """A tool that is switched on while others run, in one case."""

    case: int
    starting: int
    beside: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Running:
    """What the tools of a case draw when all work.

    admittance_s : (estimate, port). power_va : (estimate, tool).
    """

    admittance_s: Complex
    power_va: Complex


@dataclass(frozen=True, slots=True)
class StartRuns:
    """What became of n starts; `limit` is the limit that was played (-1 none), `source` the kernel's row of it.

    `seen` is the site of each, with or without the source's own impedance as its kernel wants it.
    """

    outcome: npt.NDArray[np.int64]
    result: Real
    segment: Real
    source: Real
    motor: list[Real]
    load: list[Real]
    limit: npt.NDArray[np.int64]
    response: npt.NDArray[np.int64]
    seen: Seen


def run_starts(
    site: SettledSite,
    ports: Ports,
    starts: Sequence[SettledStart | None],
    situations: Sequence[Situation],
    estimates: Sequence[int],
    limits: Sequence[TimedLimit],
    technology: str | None,
    running: Mapping[int, Running],
) -> StartRuns:
    """Run motors up, one (situation, estimate) a row; only placements whose model is a motor.

    running : of each case, what its tools draw when all work.
    """
    count = len(situations)
    starting = np.array([one.starting for one in situations], np.int64)
    estimate = np.array(estimates, np.int64)
    runs_beside = np.zeros((count, len(site.placements)), np.bool_)
    for n, one in enumerate(situations):
        runs_beside[n, list(one.beside)] = True
    drawn = np.array([running[one.case].admittance_s[e] for one, e in zip(situations, estimates, strict=True)])
    beside = np.where(runs_beside[:, ports.tool], drawn.reshape(count, len(ports.tool)), 0.0 + 0.0j)
    circuits = len(site.source.circuits)
    on_set = np.array(
        [set_of(technology) and _model(starts, one.starting) == INDUCTION for one in situations], np.bool_
    )
    with_source = seen(ports, circuits, starting, estimate, beside, with_source=True)
    sight = with_source
    if on_set.any():
        without = seen(ports, circuits, starting, estimate, beside, with_source=False)
        sight = _mixed(on_set, without, with_source)
    rows: list[int] = []
    sources: list[Real] = []
    which: list[int] = []
    generators: list[Real | None] = []
    for n, one in enumerate(situations):
        if on_set[n]:
            outside = _power_elsewhere(site, one, running[one.case].power_va[estimate[n]], sight, n)
            source, generator = generator_row(site, technology, int(estimate[n]), sight, n, outside)
            rows.append(n)
            sources.append(source)
            which.append(-1)
            generators.append(generator)
            continue
        for k, source in _source_rows(site, one, int(estimate[n]), limits, sight, n):
            rows.append(n)
            sources.append(source)
            which.append(k)
            generators.append(None)
    return _run(situations, starts, estimate, sight, rows, sources, which, generators)


def _model(starts: Sequence[SettledStart | None], tool: int) -> str:
    start = starts[tool]
    return start.model if start is not None else ""


def _mixed(which: npt.NDArray[np.bool_], first: Seen, second: Seen) -> Seen:
    def pick(a: Complex, b: Complex) -> Complex:
        return np.where(which.reshape((-1,) + (1,) * (a.ndim - 1)), a, b)

    return Seen(
        pick(first.emf_v, second.emf_v), pick(first.ohm, second.ohm), pick(first.open_v, second.open_v),
        pick(first.lost_v, second.lost_v), pick(first.before_a, second.before_a), pick(first.per_a, second.per_a),
        pick(first.forward, second.forward),
    )  # fmt: skip


def _power_elsewhere(site: SettledSite, one: Situation, power_va: Complex, sight: Seen, n: int) -> float:
    """[W] of what runs on legs that the start does not touch: the engine carries it all the same."""
    touched = {leg for leg in range(3) if sight.forward[n, leg] != 0.0}
    total = 0.0
    for i in one.beside:
        legs = {leg for pair in site.placements[i].lines for leg in pair if leg < 3}
        if not legs & touched:
            total += float(power_va[i].real)
    return total


def _plain_source(sight: Seen, n: int) -> Real:
    source = np.zeros(SOURCE_COLUMNS)
    source[SOURCE_EMF_V] = abs(sight.emf_v[n])
    source[SOURCE_RESPONSE] = STIFF
    source[SOURCE_CORD_RESISTANCE_OHM] = sight.ohm[n].real
    source[SOURCE_CORD_REACTANCE_OHM] = sight.ohm[n].imag
    return source


def _source_rows(
    site: SettledSite, one: Situation, estimate: int, limits: Sequence[TimedLimit], sight: Seen, n: int
) -> list[tuple[int, Real]]:
    placement = site.placements[one.starting]
    circuit = site.source.receptacles[placement.receptacle].circuit
    conductors = tuple(leg for leg in range(3) if sight.forward[n, leg] != 0.0)
    found: list[tuple[int, Real]] = []
    for k, limit in enumerate(limits):
        if not limit.covers(circuit, conductors):
            continue
        found += [(k, limit_row(limit, sight, n, estimate, response)) for response in limit.responses[estimate]]
    return found or [(-1, _plain_source(sight, n))]


def limit_row(limit: TimedLimit, sight: Seen, n: int, estimate: int, response: int) -> Real:
    """The kernel's source row of start `n` behind one limit with one response."""
    before, share, elsewhere = at_limit(limit, sight, n)
    touched = sum(1 for leg in range(3) if sight.forward[n, leg] != 0.0)
    source = _plain_source(sight, n)
    source[SOURCE_RESPONSE] = response
    beside = before / (share * sight.emf_v[n])
    source[SOURCE_OTHER_CONDUCTANCE_S] = beside.real
    source[SOURCE_OTHER_SUSCEPTANCE_S] = beside.imag
    scale = 1.0 / abs(share)
    source[SOURCE_CONTINUOUS_A] = max((limit.continuous_a - elsewhere) * scale, NO_CURRENT_A)
    for t, (amps, seconds) in enumerate(limit.tiers[estimate]):
        source[SOURCE_TIER_1_A + 2 * t] = max((amps - elsewhere) * scale, (2 + t) * NO_CURRENT_A)
        source[SOURCE_TIER_1_A + 2 * t + 1] = seconds
    if limit.crest_a > 0.0:
        # a crest is of one leg; a sum over the legs that the start touches is as many times that
        source[SOURCE_CREST_A] = limit.crest_a * (1 if limit.per_leg else touched) * scale
    return source


def at_limit(limit: TimedLimit, sight: Seen, n: int) -> tuple[complex, complex, float]:
    """Current that a limit counts without the start, what it counts per ampere of it, and what flows on other legs."""
    circuits = list(limit.circuits)
    before, per = sight.before_a[n, circuits].sum(axis=0), sight.per_a[n, circuits].sum(axis=0)
    touched = [leg for leg in limit.legs if sight.forward[n, leg] != 0.0]
    forward = sight.forward[n]
    if limit.per_leg:
        leg = max(touched, key=lambda one: (abs(before[one]), -one))
        return complex(before[leg] * forward[leg]), complex(per[leg] * forward[leg]), 0.0
    elsewhere = float(sum(abs(before[leg]) for leg in limit.legs if leg not in touched))
    return (
        complex(sum(before[leg] * forward[leg] for leg in touched)),
        complex(sum(per[leg] * forward[leg] for leg in touched)),
        elsewhere,
    )


def _run(
    situations: Sequence[Situation],
    starts: Sequence[SettledStart | None],
    estimate: npt.NDArray[np.int64],
    sight: Seen,
    rows: list[int],
    sources: list[Real],
    which: list[int],
    generators: list[Real | None],
) -> StartRuns:
    count = len(situations)
    result, segment = np.empty((len(rows), RESULT_COLUMNS)), np.empty((len(rows), SEGMENTS, SEGMENT_COLUMNS))
    source = np.array(sources) if rows else np.empty((0, SOURCE_COLUMNS))
    motors: list[Real] = []
    loads: list[Real] = []
    groups: dict[str, list[int]] = {INDUCTION: [], UNIVERSAL: [], "set": []}
    settings = np.zeros((len(rows), 8))
    for r, n in enumerate(rows):
        start = starts[situations[n].starting]
        assert start is not None
        motor, load = induction_rows(start) if start.model == INDUCTION else universal_rows(start)
        motors.append(motor[estimate[n]])
        loads.append(load[estimate[n]])
        groups["set" if generators[r] is not None else start.model].append(r)
        volts = float(source[r, SOURCE_EMF_V])
        goal, runs = (INDUCTION_GOAL, INDUCTION_RUNS) if start.model == INDUCTION else (UNIVERSAL_GOAL, UNIVERSAL_RUNS)
        settings[r] = (HORIZON_S, goal, SLOW_S, runs, 0.9 * volts, 0.8 * volts, 0.7 * volts, 0.5 * volts)
    for name, chosen in groups.items():
        if not chosen:
            continue
        out, pieces = np.empty((len(chosen), RESULT_COLUMNS)), np.empty((len(chosen), SEGMENTS, SEGMENT_COLUMNS))
        motor, load = np.array([motors[r] for r in chosen]), np.array([loads[r] for r in chosen])
        if name == "set":
            generator = np.array([generators[r] for r in chosen])
            generator_start(motor, load, source[chosen], generator, settings[chosen], out, pieces)
        elif name == INDUCTION:
            motor_start(motor, load, source[chosen], settings[chosen], out, pieces)
        else:
            universal_motor_start(motor, load, source[chosen], settings[chosen], out, pieces)
        result[chosen], segment[chosen] = out, pieces
    best = np.full(count, -1, np.int64)
    outcome = result[:, RESULT_OUTCOME].astype(np.int64)
    for r, n in enumerate(rows):
        if best[n] < 0 or _WORSE[outcome[r]] > _WORSE[outcome[best[n]]]:
            best[n] = r
    return StartRuns(
        outcome[best], result[best], segment[best], source[best], [motors[r] for r in best], [loads[r] for r in best],
        np.array(which, np.int64)[best] if rows else np.empty(0, np.int64),
        source[best, SOURCE_RESPONSE].astype(np.int64), sight,
    )  # fmt: skip
