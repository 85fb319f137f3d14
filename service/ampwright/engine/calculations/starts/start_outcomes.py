"""What became of one estimate of a start, and does the device of its circuit open before it is done?

Most starts stay below what their device holds for ever: only those that come near it are played.
Not here: the march (start_runs.py), what others feel (start_sags.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ampwright.engine.calculations.starts.start_network import Seen
from ampwright.engine.calculations.starts.start_runs import OUTCOMES, Situation, StartRuns
from ampwright.engine.calculations.starts.start_trips import DeviceRun, may_open, opens_at_s
from ampwright.engine.physics.current_history import SEGMENT_LOAD_CURRENT_A, SEGMENTS
from ampwright.engine.physics.protective_device import Device, TripBand
from ampwright.engine.physics.source_limit_state import LIMITS
from ampwright.engine.physics.start_outcome import (
    RESULT_FINAL_CURRENT_A,
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_PEAK_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
)
from ampwright.engine.site.settled import SettledSite

HALF_CYCLE_S = 0.01
ROUNDS_A = 0.01  # more than the rounding of what a device carries
STARTED = ("starts", "starts_slowly")


@dataclass(frozen=True, slots=True)
class OneStart:
    """One estimate of one start. trip : of the circuit's device, None where it cannot open.

    least_v : [V] the least at the tool's terminals meanwhile (line to neutral of a star), None for a surge.
    final_a : [A] that it draws in the end, standing or running, 0 for a surge. engine_dies : of a set, on this start.
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
    final_a: float = 0.0
    engine_dies: bool = False


def judged(
    site: SettledSite, devices: Sequence[Device | None], runs: StartRuns, situations: Sequence[Situation], estimate: int
) -> list[OneStart]:
    """Every start that was run, with the device of its circuit laid beside it."""
    may_open = _may_open(site, devices, runs, situations)
    limits, responses = runs.limit.tolist(), runs.response.tolist()
    found: list[OneStart] = []
    for n, (result, code) in enumerate(zip(runs.result.tolist(), runs.outcome.tolist(), strict=True)):
        outcome, lasts_s, peak_a = OUTCOMES[code], result[RESULT_TIME_TO_SPEED_S], result[RESULT_PEAK_CURRENT_A]
        trips_s, band = math.inf, None
        if may_open[n]:
            history = _history(runs, n, outcome, result)
            tool = situations[n].starting
            trips_s, band = device_opens(site, devices, runs.seen, n, tool, history, estimate)
            if outcome in STARTED and trips_s < lasts_s:
                outcome = "trips"
        limited = responses[n] == LIMITS and bool(result[RESULT_LIMITED_AT_END])
        found.append(
            OneStart(
                outcome, peak_a, lasts_s, result[RESULT_LIMITED_S], limited, limits[n], trips_s, band,
                result[RESULT_LEAST_LOAD_VOLTAGE_V], result[RESULT_FINAL_CURRENT_A],
                outcome == "collapses" and result[RESULT_OFF_AT_S] < math.inf,
            )
        )  # fmt: skip
    return found


def _may_open(
    site: SettledSite, devices: Sequence[Device | None], runs: StartRuns, situations: Sequence[Situation]
) -> list[bool]:
    """Whether the highest current of a start comes near what the device of its circuit holds; most never do."""
    circuits = [site.source.receptacles[site.placements[one.starting].receptacle].circuit for one in situations]
    own = [devices[c] for c in circuits]
    holds_a = np.array([device.rating_a if device is not None else math.inf for device in own])
    rows = np.arange(len(situations))
    touched = runs.seen.forward != 0.0
    before = np.where(touched, np.abs(runs.seen.before_a[rows, circuits]), -1.0)
    leg = before.argmax(axis=1)
    per = np.abs(runs.seen.per_a[rows, circuits, leg])
    filled = np.arange(SEGMENTS) < runs.result[:, RESULT_SEGMENTS, None]
    highest = np.where(filled, runs.segment[:, :, SEGMENT_LOAD_CURRENT_A], 0.0).max(axis=1)
    highest = np.maximum(highest, runs.result[:, RESULT_PEAK_CURRENT_A])
    near: list[bool] = (before[rows, leg] + per * highest > holds_a - ROUNDS_A).tolist()
    return near


def _history(
    runs: StartRuns, n: int, outcome: str, result: Sequence[float]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """[s] and [A] of a start for a device to judge."""
    count = int(result[RESULT_SEGMENTS])
    seconds, amps = runs.segment[n, :count, 0].tolist(), runs.segment[n, :count, 1].tolist()
    if outcome in STARTED:
        seconds, amps = _until(seconds, amps, result[RESULT_TIME_TO_SPEED_S])
    elif result[RESULT_OFF_AT_S] == math.inf and seconds:
        seconds[-1] = math.inf  # it stands there and growls
    peak_a = result[RESULT_PEAK_CURRENT_A]
    if seconds and peak_a > amps[0]:
        # a piece of the history is a mean; a magnetic release minds the highest half cycle
        seconds, amps = [HALF_CYCLE_S, *seconds], [peak_a, *amps]
    return tuple(seconds), tuple(amps)


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
