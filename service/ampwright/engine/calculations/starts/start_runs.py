"""What becomes of every start, estimate by estimate?

Builds one row for each start, estimate and limit that the source lays on it, runs all induction motors in one kernel
call, all series motors in another, and those on engine sets without electronics in a third; where several limits,
responses or kinds of set are possible, the worst outcome counts. A row depends on nothing beside it, so one start alone
gives the same bits.
A start that a set makes only because its voltage gives way before its engine has to is not relied on where a larger set
of its kind, whose voltage stands, does not make it: that larger set's outcome counts. Nor is one that is made only
because a cord holds its current down: the worst with less cord counts, on a ladder of resistances that all cords share.
A series motor and a surge on a set with a regulator meet a source that recovers at once, on one without a regulator
its transient reactance for good.
Source: engine/physics motor_start, universal_motor_start, generator_start.
Not here: surges of rectifiers and filaments (start_surges.py), devices (start_trips.py).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.pooled import MOTOR, ON_A_SET, SERIES_MOTOR, March, Marched, Steps, alone
from ampwright.engine.calculations.starts.start_limits import TimedLimit
from ampwright.engine.calculations.starts.start_models import induction_rows, universal_rows
from ampwright.engine.calculations.starts.start_network import ESTIMATES, Ports, Seen, seen
from ampwright.engine.calculations.starts.start_set import (
    generator_row,
    larger_sets,
    leans_on_low_voltage,
    possible_sets,
    set_of,
    with_less_cord,
)
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
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
    TIERS,
)
from ampwright.engine.physics.start_outcome import (
    COLLAPSES,
    HUNTS,
    RESULT_COLUMNS,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_OUTCOME,
    SETTING_BELOW_1_V,
    SETTING_COLUMNS,
    SETTING_GOAL_SPEED_PU,
    SETTING_HORIZON_S,
    SETTING_RUNNING_SPEED_PU,
    SETTING_SLOW_S,
    SHUTS_OFF,
    SOURCE_LIMITS,
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)
from ampwright.engine.physics.start_source import LEGS, NO_CURRENT_A, limited_sources
from ampwright.engine.site.settle_start import INDUCTION, SettledStart
from ampwright.engine.site.settled import SettledSite

Real = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]

HORIZON_S = 20.0
SLOW_S = 3.0  # a run-up that a motor's protector and a breaker notice; common practice, no source
INDUCTION_GOAL, INDUCTION_RUNS = 0.93, 0.8
UNIVERSAL_GOAL, UNIVERSAL_RUNS = 0.85, 0.5  # over no-load speed at plate voltage: a low voltage leaves less
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
WORSE = np.zeros(8, np.int64)
for _rank, _code in enumerate((STARTS, STARTS_SLOWLY, SOURCE_LIMITS, SHUTS_OFF, HUNTS, STALLS, COLLAPSES)):
    WORSE[_code] = _rank


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
    return alone(start_runs(site, ports, starts, situations, estimates, limits, technology, running))


def start_runs(
    site: SettledSite,
    ports: Ports,
    starts: Sequence[SettledStart | None],
    situations: Sequence[Situation],
    estimates: Sequence[int],
    limits: Sequence[TimedLimit],
    technology: str | None,
    running: Mapping[int, Running],
) -> Steps[StartRuns]:
    """`run_starts`, asking for its marches."""
    count, circuits = len(situations), len(site.source.circuits)
    starting = np.array([one.starting for one in situations], np.int64)
    estimate = np.array(estimates, np.int64)
    beside = beside_s(ports, situations, estimates, running)
    models = [start.model if start is not None else "" for start in starts]
    on_set = np.zeros(count, np.bool_)
    if set_of(technology):
        on_set[:] = [models[one.starting] == INDUCTION for one in situations]
    sight = seen(ports, circuits, starting, estimate, beside, with_source=~on_set)
    circuit_of = np.array([site.source.receptacles[one.receptacle].circuit for one in site.placements], np.int64)
    source, rows, which = _limited(sight, circuit_of[starting], estimate, on_set, limits, circuits)
    sets: list[tuple[str | None, int, float]] = []
    generators: list[Real] = []
    least_ohm: list[float] = []

    def of_set(k: int, larger: float) -> tuple[Real, Real]:
        kind, n, outside = sets[k]
        return generator_row(site, kind, int(estimate[n]), sight, n, outside, larger)

    if on_set.any():
        for n in np.flatnonzero(on_set).tolist():
            one = situations[n]
            outside = _power_elsewhere(site, one, running[one.case].power_va[estimate[n]], sight, n)
            placement = site.placements[one.starting]
            own = site.source.circuits[site.source.receptacles[placement.receptacle].circuit].resistance_ohm
            for kind in possible_sets(site, technology):
                sets.append((kind, n, outside))
                least_ohm.append(own.at(int(estimate[n])) if placement.cords else math.inf)
        made = [of_set(k, 1.0) for k in range(len(sets))]
        generators = [generator for _, generator in made]
        source = np.concatenate([source, np.array([row for row, _ in made])])
        rows = np.concatenate([rows, np.array([n for _, n, _ in sets], np.int64)])
        which = np.concatenate([which, np.full(len(sets), -1, np.int64)])
    return (
        yield from _run(
            starts, models, starting, estimate, sight, rows, source, which, generators, of_set, least_ohm
        )
    )  # fmt: skip


def beside_s(
    ports: Ports, situations: Sequence[Situation], estimates: Sequence[int], running: Mapping[int, Running]
) -> Complex:
    """(n, port) [S] of what runs beside each start, 0 for all else."""
    count = len(situations)
    runs = np.zeros((count, len(ports.first)), np.bool_)
    for n, one in enumerate(situations):
        runs[n, list(one.beside)] = True
    drawn = np.array([running[one.case].admittance_s[e] for one, e in zip(situations, estimates, strict=True)])
    return np.where(runs[:, ports.tool], drawn.reshape(count, len(ports.tool)), 0.0 + 0.0j)


def _limited(
    sight: Seen,
    circuit: npt.NDArray[np.int64],
    estimate: npt.NDArray[np.int64],
    left_out: npt.NDArray[np.bool_],
    limits: Sequence[TimedLimit],
    circuits: int,
) -> tuple[Real, npt.NDArray[np.int64], npt.NDArray[np.int64]]:
    """Source rows of the starts behind their limits, whose they are, and behind which."""
    count = len(limits)
    most = max((len(codes) for limit in limits for codes in limit.responses), default=0)
    covers, legs = np.zeros((count, circuits), np.bool_), np.zeros((count, LEGS), np.bool_)
    tiers = np.zeros((count, ESTIMATES, TIERS, 2))
    responses = np.full((count, ESTIMATES, most), -1, np.int64)
    for k, limit in enumerate(limits):
        covers[k, list(limit.circuits)] = True
        legs[k, list(limit.legs)] = True
        for e in range(ESTIMATES):
            for t, tier in enumerate(limit.tiers[e]):
                tiers[k, e, t] = tier
            responses[k, e, : len(limit.responses[e])] = limit.responses[e]
    room = len(circuit) * max(1, count * most)
    source, start, which = np.empty((room, SOURCE_COLUMNS)), np.empty(room, np.int64), np.empty(room, np.int64)
    filled = limited_sources(
        sight.emf_v, sight.ohm, sight.before_a, sight.per_a, sight.forward, circuit, estimate, left_out, covers, legs,
        np.array([limit.per_leg for limit in limits], np.bool_),
        np.array([limit.continuous_a for limit in limits], np.float64),
        np.array([limit.crest_a for limit in limits], np.float64), tiers, responses, source, start, which,
    )  # fmt: skip
    return source[:filled], start[:filled], which[:filled]


def _power_elsewhere(site: SettledSite, one: Situation, power_va: Complex, sight: Seen, n: int) -> float:
    """[W] of what runs on legs that the start does not touch: the engine carries it all the same."""
    touched = {leg for leg in range(3) if sight.forward[n, leg] != 0.0}
    total = 0.0
    for i in one.beside:
        legs = {leg for pair in site.placements[i].lines for leg in pair if leg < 3}
        if not legs & touched:
            total += float(power_va[i].real)
    return total


def plain_source(sight: Seen, n: int) -> Real:
    """The kernel's source row of start `n` where no limit covers it."""
    source = np.zeros(SOURCE_COLUMNS)
    source[SOURCE_EMF_V] = abs(sight.emf_v[n])
    source[SOURCE_RESPONSE] = STIFF
    source[SOURCE_CORD_RESISTANCE_OHM] = sight.ohm[n].real
    source[SOURCE_CORD_REACTANCE_OHM] = sight.ohm[n].imag
    return source


def limit_row(limit: TimedLimit, sight: Seen, n: int, estimate: int, response: int) -> Real:
    """The kernel's source row of start `n` behind one limit with one response."""
    before, share, elsewhere = at_limit(limit, sight, n)
    touched = sum(1 for leg in range(3) if sight.forward[n, leg] != 0.0)
    source = plain_source(sight, n)
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
    starts: Sequence[SettledStart | None],
    models: Sequence[str],
    starting: npt.NDArray[np.int64],
    estimate: npt.NDArray[np.int64],
    sight: Seen,
    rows: npt.NDArray[np.int64],
    source: Real,
    which: npt.NDArray[np.int64],
    generators: Sequence[Real],
    of_set: Callable[[int, float], tuple[Real, Real]],
    least_ohm: Sequence[float],
) -> Steps[StartRuns]:
    """generators : of the last rows, which are those on a set. of_set : their source and generator, times larger.

    least_ohm : [ohm] that each of those has without its cords, +inf where it has none.
    """
    count = len(starting)
    tools = starting[rows]
    machines = {i: _machine(starts[i]) for i in dict.fromkeys(tools.tolist())}
    on_set = np.zeros(len(rows), np.bool_)
    on_set[len(rows) - len(generators) :] = True
    induction = np.array([model == INDUCTION for model in models], np.bool_)[tools]
    volts = source[:, SOURCE_EMF_V]
    settings = np.empty((len(rows), SETTING_COLUMNS))
    settings[:, SETTING_HORIZON_S], settings[:, SETTING_SLOW_S] = HORIZON_S, SLOW_S
    settings[:, SETTING_GOAL_SPEED_PU] = np.where(induction, INDUCTION_GOAL, UNIVERSAL_GOAL)
    settings[:, SETTING_RUNNING_SPEED_PU] = np.where(induction, INDUCTION_RUNS, UNIVERSAL_RUNS)
    for k, ratio in enumerate((0.9, 0.8, 0.7, 0.5)):
        settings[:, SETTING_BELOW_1_V + k] = ratio * volts
    marches: list[March] = []
    groups: list[npt.NDArray[np.int64]] = []
    for kind, chosen in (
        (MOTOR, np.flatnonzero(induction & ~on_set)), (SERIES_MOTOR, np.flatnonzero(~induction)),
        (ON_A_SET, np.flatnonzero(on_set)),
    ):  # fmt: skip
        if not len(chosen):
            continue
        at = [(i, e) for i, e in zip(tools[chosen].tolist(), estimate[rows[chosen]].tolist(), strict=True)]
        columns = [np.array([machines[i][part][e] for i, e in at]) for part in (0, 1)]
        columns.append(source[chosen])
        if kind == ON_A_SET:
            columns.append(np.array(generators))
        marches.append(March(kind, (*columns, settings[chosen])))
        groups.append(chosen)
    result, segment = np.empty((len(rows), RESULT_COLUMNS)), np.empty((len(rows), SEGMENTS, SEGMENT_COLUMNS))
    answers: tuple[Marched, ...] = (yield tuple(marches)) if marches else ()
    for chosen, answer in zip(groups, answers, strict=True):
        result[chosen], segment[chosen] = answer.result, answer.segment
    unsure = _not_relied_on(result, rows, len(rows) - len(generators), generators, of_set, least_ohm)
    if unsure is not None:
        again, more, feeds, alternators = unsure
        motor = [machines[i][0][e] for i, e in zip(starting[more].tolist(), estimate[more].tolist(), strict=True)]
        driven = [machines[i][1][e] for i, e in zip(starting[more].tolist(), estimate[more].tolist(), strict=True)]
        (extra,) = yield (March(ON_A_SET, (np.array(motor), np.array(driven), feeds, alternators, settings[again])),)
        result, segment = np.concatenate([result, extra.result]), np.concatenate([segment, extra.segment])
        source, rows = np.concatenate([source, feeds]), np.concatenate([rows, more])
        which = np.concatenate([which, np.full(len(more), -1, np.int64)])
    outcome = result[:, RESULT_OUTCOME].astype(np.int64)
    worse = WORSE[outcome].tolist()
    best = [-1] * count
    for r, n in enumerate(rows.tolist()):
        if best[n] < 0 or worse[r] > worse[best[n]]:
            best[n] = r
    of = np.array(best, np.int64)
    return StartRuns(
        outcome[of], result[of], segment[of], source[of], which[of], source[of, SOURCE_RESPONSE].astype(np.int64), sight
    )


def _not_relied_on(
    result: Real,
    rows: npt.NDArray[np.int64],
    first: int,
    generators: Sequence[Real],
    of_set: Callable[[int, float], tuple[Real, Real]],
    least_ohm: Sequence[float],
) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64], Real, Real] | None:
    """Rows of larger sets and of less cord to run as well: beside which row, of which start, source, generator."""
    again: list[int] = []
    made: list[tuple[Real, Real]] = []
    for k, generator in enumerate(generators):
        row = result[first + k]
        if row[RESULT_OUTCOME] not in (STARTS, STARTS_SLOWLY):
            continue
        feed, own = of_set(k, 1.0)
        made += [(less, own) for less in with_less_cord(feed, least_ohm[k])]
        if leans_on_low_voltage(row[RESULT_LEAST_VOLTAGE_V], generator):
            made += [of_set(k, times) for times in larger_sets(generator)]
        again += [first + k] * (len(made) - len(again))
    if not again:
        return None
    beside = np.array(again, np.int64)
    return beside, rows[beside], np.array([row for row, _ in made]), np.array([generator for _, generator in made])


def _machine(start: SettledStart | None) -> tuple[Real, Real]:
    assert start is not None
    return induction_rows(start) if start.model == INDUCTION else universal_rows(start)
