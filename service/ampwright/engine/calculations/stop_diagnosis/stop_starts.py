"""How well does the start of a tool explain that power went?

The same starts as the load check's: each tool switched on last, with all others running, easy, typical and hard. An
estimate in which the circuit's device opens, or in which the source switches off or collapses, speaks for that by its
weight. A tool of which no start is known is given the multiples that its kind usually has.

Not here: signs and ranking (stop_diagnosis.py).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.network.tools_together import solve_sets
from ampwright.engine.calculations.starts.start_checks import STANDS
from ampwright.engine.calculations.starts.starts import ToolStart
from ampwright.engine.calculations.stop_diagnosis.stop_observation import StopObservation
from ampwright.engine.physics.protective_device import Device, UnfitDevice
from ampwright.engine.physics.trip_probability import trip_probability
from ampwright.engine.site.band import HIGH, LOW, TYPICAL, Band

WEIGHTS = ((LOW, 0.25), (TYPICAL, 0.5), (HIGH, 0.25))
AT_THE_START_S = 5.0
LONG_AFTER = 0.02  # a start is over in seconds
BY_ITSELF = 0.5  # that just then a compressor or a refrigerator began a cycle; common practice, no source
CYCLES = ("pressure", "float", "thermostat")
GOES_DARK = ("shuts_off", "collapses")
UNKNOWN_START = (Band(1.5, 4.0, 7.0), 0.3)  # over the running current, and how long [s]; common practice, no source


@dataclass(frozen=True, slots=True)
class Starter:
    """A tool whose start may have been the moment, and how well that fits what was said: 1 where it was named."""

    placement: int
    fits: float


def starters(base: Evaluation, seen: StopObservation) -> tuple[Starter, ...]:
    """The tool that was named as just switched on; else whatever may have started then."""
    starting = base.starts.starting.starts
    placements = [i for i in base.sets[0].placements if starting[i] is not None or i in base.starts.open_tools]
    named = [i for i in placements if base.settled.placements[i].tool.id == seen.switched_on]
    soon = seen.after_s is None or seen.after_s <= AT_THE_START_S
    if named:
        return tuple(Starter(i, 1.0 if soon else LONG_AFTER) for i in named)
    cycling = [i for i in placements if _control(base, i) in CYCLES]
    if seen.after_s is not None and soon:
        # all of them had only just begun: any one may have been the last
        return tuple(Starter(i, 1.0 / len(placements)) for i in placements)
    return tuple(Starter(i, BY_ITSELF / len(cycling)) for i in cycling)


def _control(base: Evaluation, i: int) -> str:
    placement = base.settled.placements[i]
    return placement.tool.control or placement.load_class.control


def start_of(base: Evaluation, i: int) -> ToolStart | None:
    """The start of a placement as the load check ran it, None where none is known."""
    return next((one for one in base.starts.tools if one.tool == i), None)


def opens_the_device(base: Evaluation, i: int, circuit: int, device: Device, running_a: list[float]) -> float:
    """How well a start explains that the circuit's device opened, 0 to 1."""
    one = start_of(base, i)
    if one is not None:
        return sum(weight for k, weight in WEIGHTS if one.estimates[k].trips_s < math.inf)
    multiple, lasts_s = UNKNOWN_START
    own = solve_sets(base.settled, [(i,)]).circuit_a[0, :, circuit].tolist()
    peak = [running_a[k] + (multiple.at(k) - 1.0) * own[k] for k in range(3)]
    try:
        return sum(weight * trip_probability(device, (lasts_s,), (peak[k],), lasts_s) for k, weight in WEIGHTS)
    except UnfitDevice:
        return 0.0


def darkens_the_source(one: ToolStart, limit: int) -> float:
    """How well a start explains that a limit of the source (-1: the source itself, without one) gave up, 0 to 1."""
    return sum(
        weight for k, weight in WEIGHTS if one.estimates[k].outcome in GOES_DARK and one.estimates[k].limit == limit
    )


def stands_still(one: ToolStart | None) -> float:
    """How well a motor that does not get going explains that only its own protector opened, 0 to 1."""
    if one is None:
        return 0.0
    return sum(weight for k, weight in WEIGHTS if one.estimates[k].outcome in STANDS)
