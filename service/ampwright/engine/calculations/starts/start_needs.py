"""What would a start that fails need, and how likely is it as things are?

The current that the source must give, and for how long, is found by bisection on the hard estimate with the source's
own limits left aside. The probability is the share of drawn motors and loads that reach their speed before the
circuit's device opens, on the source's typical estimate; a device's place in its band is one log-uniform quantile. The
draws are seeded by a constant, so an answer repeats.
Source: engine/physics start_break_even, counter_random, trip_probability.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.starts.start_models import (
    induction_draws,
    induction_rows,
    universal_draws,
    universal_rows,
)
from ampwright.engine.calculations.starts.start_network import seen
from ampwright.engine.calculations.starts.start_outcomes import STARTED, device_run
from ampwright.engine.calculations.starts.start_runs import (
    HORIZON_S,
    INDUCTION_GOAL,
    INDUCTION_RUNS,
    SLOW_S,
    UNIVERSAL_GOAL,
    UNIVERSAL_RUNS,
    Running,
    Situation,
    StartRuns,
    at_limit,
    limit_row,
    run_starts,
)
from ampwright.engine.calculations.starts.start_set import set_of
from ampwright.engine.calculations.starts.start_trips import BEFORE_S, may_open
from ampwright.engine.calculations.starts.starts import Starts, ToolStart, running_of
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.source_limit_state import SHUTS_DOWN, SOURCE_CREST_A, SOURCE_EMF_V, STIFF
from ampwright.engine.physics.start_break_even import (
    INDUCTION,
    MUST_GIVE_COLUMNS,
    MUST_GIVE_CURRENT_A,
    MUST_GIVE_TIME_S,
    UNIVERSAL,
    source_must_give,
)
from ampwright.engine.physics.start_outcome import (
    RESULT_COLUMNS,
    RESULT_OUTCOME,
    RESULT_PEAK_SOURCE_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
    STARTS_SLOWLY,
)
from ampwright.engine.physics.trip_probability import trip_probability_batch
from ampwright.engine.physics.universal_motor_start import universal_motor_start
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.settle_start import INDUCTION as INDUCTION_MODEL
from ampwright.engine.site.settled import SettledSite

MOST_NEEDS = 8  # starts of one check that are asked further, the hardest outcome of each tool first
DRAWS = 48
SEED = 20
_BAD_FIRST = ("stalls", "hunts", "collapses", "shuts_off", "source_limits", "trips", "starts_slowly", "starts")


@dataclass(frozen=True, slots=True)
class StartNeed:
    """must_give_a, must_give_s : what the source must give. probability_ratio : of a start as things are."""

    must_give_a: float | None = None
    must_give_s: float | None = None
    probability_ratio: float | None = None


def needs_of(
    site: SettledSite, starts: Starts, rows: Sequence[Row], figures: RowFigures, *, with_probability: bool = True
) -> dict[tuple[int, int], StartNeed]:
    """By (case, placement), for starts that are not sure; at most `MOST_NEEDS` of them."""
    unsure = [one for one in starts.tools if one.outcomes[HIGH] not in STARTED]
    unsure.sort(key=lambda one: (_BAD_FIRST.index(one.outcomes[TYPICAL]), len(one.beside), one.case, one.tool))
    chosen = [one for one in unsure if _is_motor(starts, one)][:MOST_NEEDS]
    if not chosen:
        return {}
    running = running_of(site, starts.starting, chosen, rows, figures)
    return {(one.case, one.tool): _need(site, starts, one, running, with_probability) for one in chosen}


def _is_motor(starts: Starts, one: ToolStart) -> bool:
    start = starts.starting.starts[one.tool]
    induction = start is not None and start.model == INDUCTION_MODEL
    return (
        start is not None
        and start.model in (INDUCTION_MODEL, "universal")
        and not (induction and set_of(starts.starting.technology))
    )


def _need(
    site: SettledSite, starts: Starts, one: ToolStart, running: Mapping[int, Running], with_probability: bool
) -> StartNeed:
    amps = seconds = None
    if one.estimates[HIGH].limit >= 0 and one.outcomes[HIGH] != "trips":
        amps, seconds = _must_give(site, starts, one, running)
    probability = None
    if with_probability and len(set(one.outcomes)) > 1:
        probability = _probability(site, starts, one, running)
    return StartNeed(amps, seconds, probability)


def _again(
    site: SettledSite, starts: Starts, one: ToolStart, estimate: int, running: Mapping[int, Running]
) -> StartRuns:
    starting = starts.starting
    assert starting.ports is not None
    return run_starts(
        site, starting.ports, starting.starts, [Situation(one.case, one.tool, one.beside)], [estimate],
        starting.limits, starting.technology, running,
    )  # fmt: skip


def _settings(model: str, volts: float, count: int) -> npt.NDArray[np.float64]:
    goal, runs = (INDUCTION_GOAL, INDUCTION_RUNS) if model == INDUCTION_MODEL else (UNIVERSAL_GOAL, UNIVERSAL_RUNS)
    return np.array([[HORIZON_S, goal, SLOW_S, runs, 0.9 * volts, 0.8 * volts, 0.7 * volts, 0.5 * volts]] * count)


def _must_give(
    site: SettledSite, starts: Starts, one: ToolStart, running: Mapping[int, Running]
) -> tuple[float | None, float | None]:
    """[A] of each leg that the start touches and [s]: of a source that is as stiff as it must be."""
    starting, start = starts.starting, starts.starting.starts[one.tool]
    ports = starting.ports
    assert start is not None
    assert ports is not None
    beside = np.where(np.isin(ports.tool, one.beside), running[one.case].admittance_s[HIGH], 0.0 + 0.0j)
    sight = seen(
        ports, len(site.source.circuits), np.array([one.tool]), np.array([HIGH]), beside[None], with_source=False
    )
    limit = starting.limits[one.estimates[HIGH].limit]
    source = limit_row(limit, sight, 0, HIGH, STIFF)[None]
    source[0, SOURCE_CREST_A] = 0.0
    motors, loads = induction_rows(start) if start.model == INDUCTION_MODEL else universal_rows(start)
    motor, load = np.array(motors[HIGH:]), np.array(loads[HIGH:])
    settings = _settings(start.model, float(source[0, SOURCE_EMF_V]), 1)
    if one.outcomes[HIGH] == "shuts_off" or SHUTS_DOWN in limit.responses[HIGH]:
        # a source that may switch off must bear the whole start, not a slower one that it holds down
        result, pieces = np.empty((1, RESULT_COLUMNS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
        march = motor_start if start.model == INDUCTION_MODEL else universal_motor_start
        march(motor, load, source, settings, result, pieces)
        amps, seconds = result[0, RESULT_PEAK_SOURCE_CURRENT_A], result[0, RESULT_TIME_TO_SPEED_S]
    else:
        answer = np.empty((1, MUST_GIVE_COLUMNS))
        machine = INDUCTION if start.model == INDUCTION_MODEL else UNIVERSAL
        source_must_give(machine, motor, load, source, settings, answer)
        amps, seconds = answer[0, MUST_GIVE_CURRENT_A], answer[0, MUST_GIVE_TIME_S]
    if not (math.isfinite(amps) and math.isfinite(seconds)):
        return None, None
    _, share, elsewhere = at_limit(limit, sight, 0)
    touched = sum(1 for leg in range(3) if sight.forward[0, leg] != 0.0)
    return float(amps * abs(share) + elsewhere) / (1 if limit.per_leg else touched), float(seconds)


def _probability(site: SettledSite, starts: Starts, one: ToolStart, running: Mapping[int, Running]) -> float:
    runs = _again(site, starts, one, TYPICAL, running)
    start = starts.starting.starts[one.tool]
    assert start is not None
    drawn = induction_draws if start.model == INDUCTION_MODEL else universal_draws
    motor, load = (np.array(rows) for rows in drawn(start, SEED, DRAWS))
    source = np.ascontiguousarray(np.broadcast_to(runs.source[0], (DRAWS, runs.source.shape[1])))
    result, pieces = np.empty((DRAWS, RESULT_COLUMNS)), np.empty((DRAWS, SEGMENTS, SEGMENT_COLUMNS))
    settings = _settings(start.model, float(runs.source[0, 0]), DRAWS)
    march = motor_start if start.model == INDUCTION_MODEL else universal_motor_start
    march(motor, load, source, settings, result, pieces)
    holds = (result[:, RESULT_OUTCOME] <= STARTS_SLOWLY).astype(float)
    devices, histories, within, rows = [], [], [], []
    for d in np.flatnonzero(holds):
        count = int(result[d, RESULT_SEGMENTS])
        history = tuple(pieces[d, :count, 0].tolist()), tuple(pieces[d, :count, 1].tolist())
        run = device_run(site, starts.starting.devices, runs.seen, 0, one.tool, history, TYPICAL)
        if run is None or not may_open(run):
            continue
        before = min(run.before_a, run.device.rating_a)
        devices.append(run.device)
        histories.append(((BEFORE_S, *run.history[0]), (before, *run.history[1])))
        within.append(BEFORE_S + float(result[d, RESULT_TIME_TO_SPEED_S]))
        rows.append(d)
    if devices:
        holds[rows] *= 1.0 - trip_probability_batch(devices, histories, within)
    return float(holds.mean())
