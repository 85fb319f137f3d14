"""How low does the voltage fall at every other tool while one starts, for how long, and whom does that upset?

The history of a start gives its current; what the site loses per ampere of it gives the volts at each other tool, and
where the source limits or a set dips, all voltages sink with it. A start's current lags; its power factor of 0.75 at
standstill is common practice, no source.
Who minds: electronics of high sensitivity by the ITI curve, what has a no-volt release or is of medium sensitivity by
the drop-out of a contactor, induction motors by 0.7 of plate voltage for a fifth of a second (breakdown torque of
twice the load's falls to it; NEMA MG 1 12.32, from memory).
Source: engine/physics/voltage_upset.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.start_network import Ports
from ampwright.engine.calculations.start_runs import Situation, StartRuns
from ampwright.engine.physics.source_limit_state import (
    SOURCE_EMF_V,
)
from ampwright.engine.physics.start_outcome import (
    RESULT_BELOW_4_S,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_SEGMENTS,
)
from ampwright.engine.physics.voltage_upset import (
    CONTACTOR_DROPS_BELOW_RATIO,
    CONTACTOR_HOLDS_ABOVE_RATIO,
    CONTACTOR_NEEDS_S,
    DROPS,
    ITI_BELOW,
    contactor_outcome,
    voltage_upset,
)
from ampwright.engine.site.settled import Placement, SettledSite

Real = npt.NDArray[np.float64]

STANDSTILL_POWER_FACTOR = 0.75
SAGS_BELOW_RATIO = 0.9
RECOVERS_S = 0.3  # until a set's regulator has brought the voltage back; common practice, no source
MOTOR_STALLS_BELOW_RATIO, MOTOR_BEARS_S = 0.7, 0.2
_BELOW = np.array(ITI_BELOW)
_ABOVE = np.empty((0, 2))


@dataclass(frozen=True, slots=True)
class Sag:
    """What one other tool sees of a start. lasts_s : below nine tenths of its plate. through : circuit or source.

    upset : surely, perhaps or no. assumed : whether its sensitivity is only that of its kind.
    """

    tool: int
    lowest_v: float
    lasts_s: float
    through: str
    upset: str
    assumed: bool


def sags_of(
    site: SettledSite, ports: Ports, runs: StartRuns, n: int, one: Situation, estimate: int, dip_ohm: float = 0.0
) -> tuple[Sag, ...]:
    """The sag at every other running tool during start `n`, in the order of the tools.

    dip_ohm : [ohm] reactance of a leg of the source until its regulator has answered.
    """
    count = int(runs.result[n, RESULT_SEGMENTS])
    if not one.beside or count == 0:
        return ()
    first_s, seconds, amps, sinks = _course(runs, n, count)
    emf = runs.seen.emf_v[n]
    turn = emf / abs(emf) * complex(STANDSTILL_POWER_FACTOR, -((1.0 - STANDSTILL_POWER_FACTOR**2) ** 0.5))
    own = ports.of(one.starting)[0]
    # the start is one current through each of its own ports: what they have in common with other tools' legs
    common = ports.incidence @ ports.incidence[own]
    lost = runs.seen.lost_v[n][None] + 1j * np.where(first_s < RECOVERS_S, dip_ohm, 0.0)[:, None] * common[None]
    open_v = runs.seen.open_v[n]
    across = np.abs(sinks[:, None] * open_v[None] - (amps * turn)[:, None] * lost)
    # a tool's ports stand side by side: the lowest of them is what the tool has
    begins = np.flatnonzero(np.diff(ports.tool, prepend=-1))
    volts = np.minimum.reduceat(across, begins, axis=1)
    before = np.minimum.reduceat(np.abs(open_v), begins).tolist()
    lowest = volts.min(axis=0).tolist()
    wired = (np.maximum.reduceat(np.abs(ports.wiring_ohm[estimate][:, own]), begins) * amps.max()).tolist()
    place = {tool: k for k, tool in enumerate(ports.tool[begins].tolist())}
    goes_dark = runs.result[n, RESULT_OFF_AT_S] < np.inf
    found: list[Sag] = []
    for tool in one.beside:
        k = place.get(tool)
        if k is None:
            continue
        placement = site.placements[tool]
        root = 3.0**0.5 if len(placement.lines) == 3 else 1.0
        plate = placement.plate_voltage_v / root
        through = "circuit" if wired[k] > 0.5 * (before[k] - lowest[k]) else "source"
        lasts_s, upset, assumed = 0.0, "no", False
        if lowest[k] < SAGS_BELOW_RATIO * plate:
            ratio = np.ascontiguousarray(volts[:, k] / plate)
            lasts_s = float(seconds[ratio < SAGS_BELOW_RATIO].sum())
            upset, assumed = _upset(placement, seconds, ratio)
        if goes_dark:
            upset = "no"  # all goes dark together: that is the start's own failure
        found.append(Sag(tool, lowest[k] * root, lasts_s, through, upset, assumed))
    return tuple(found)


def _course(runs: StartRuns, n: int, count: int) -> tuple[Real, Real, Real, Real]:
    """Begin, length, current and the source's voltage over that without the start, of each piece of a start.

    The kernel tells the least of that voltage and for how long it is below nine, eight, seven and five tenths; a source
    that limits lets it rise as the motor gets going, so the pieces come in that order, each at its lower end.
    """
    result, volts = runs.result[n], runs.source[n, SOURCE_EMF_V]
    least = float(min(result[RESULT_LEAST_VOLTAGE_V] / volts, 1.0))
    below = [float(result[RESULT_BELOW_4_S - k]) for k in range(4)]
    lengths = np.diff([0.0, *below])
    levels = np.maximum([least, 0.5, 0.7, 0.8, 1.0], least)
    ends = np.cumsum(runs.segment[n, :count, 0])
    changes = np.minimum(np.cumsum(np.maximum(lengths, 0.0)), ends[-1])
    edges = np.unique(np.concatenate([[0.0], ends, changes]))
    first_s, seconds = edges[:-1], np.diff(edges)
    middle = first_s + 0.5 * seconds
    amps = runs.segment[n, np.minimum(np.searchsorted(ends, middle), count - 1), 1]
    if least >= SAGS_BELOW_RATIO:
        limited = middle < result[RESULT_LIMITED_S]
        return first_s, seconds, amps, np.where(limited, least, 1.0)
    return first_s, seconds, amps, levels[np.searchsorted(changes, middle)]


def _upset(placement: Placement, seconds: Real, ratio: Real) -> tuple[str, bool]:
    tool = placement.tool
    sensitivity, assumed = tool.sensitivity, False
    if sensitivity is None and placement.load_class.name == "electronics":
        sensitivity, assumed = "high", True
    if sensitivity is None and placement.restart_protection:
        sensitivity, assumed = "medium", True
    steps = np.array([0, len(seconds)], np.int64)
    outcome, at_s = np.zeros(1, np.int64), np.zeros(1)
    worst = "no"
    if sensitivity == "high":
        voltage_upset(steps, seconds, ratio, _BELOW, _ABOVE, outcome, at_s)
        worst = "surely" if outcome[0] else "no"
    elif sensitivity == "medium":
        contactor_outcome(
            steps, seconds, ratio, CONTACTOR_DROPS_BELOW_RATIO, CONTACTOR_HOLDS_ABOVE_RATIO, CONTACTOR_NEEDS_S, outcome
        )
        worst = ("no", "perhaps", "surely")[int(outcome[0])] if outcome[0] <= DROPS else "no"
    if placement.load_class.start == "induction_motor" and worst != "surely":
        low_s = float(seconds[ratio < MOTOR_STALLS_BELOW_RATIO].sum())
        if low_s > MOTOR_BEARS_S:
            return "perhaps", True
    return worst, assumed
