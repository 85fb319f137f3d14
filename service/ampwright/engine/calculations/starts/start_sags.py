"""How low does the voltage fall at every other tool while one starts, for how long, and whom does that upset?

The history of a start gives its current; what the site loses per ampere of it gives the volts at each other tool, and
where the source limits or a set dips, all voltages sink with it. The current lags as the motor's own circuit does at
standstill, where the sag is deepest.
Who minds: electronics of high sensitivity by the ITI curve, what has a no-volt release or is of medium sensitivity by
the drop-out of a contactor, induction motors by 0.7 of plate voltage for a fifth of a second (breakdown torque of
twice the load's falls to it; NEMA MG 1 12.32, from memory).
Source: engine/physics/voltage_upset.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.starts.standing_motor import start_turn
from ampwright.engine.calculations.starts.start_network import Ports
from ampwright.engine.calculations.starts.start_runs import Situation, StartRuns
from ampwright.engine.physics.source_limit_state import SOURCE_EMF_V
from ampwright.engine.physics.start_outcome import RESULT_OFF_AT_S
from ampwright.engine.physics.start_sag import PIECES, sag_courses
from ampwright.engine.physics.voltage_upset import (
    CONTACTOR_DROPS_BELOW_RATIO,
    CONTACTOR_HOLDS_ABOVE_RATIO,
    CONTACTOR_NEEDS_S,
    DROPS,
    ITI_BELOW,
    contactor_outcome,
    voltage_upset,
)
from ampwright.engine.site.settle_start import SettledStart
from ampwright.engine.site.settled import Placement, SettledSite

Real = npt.NDArray[np.float64]

SAGS_BELOW_RATIO = 0.9
RECOVERS_S = 0.3  # until a set's regulator has brought the voltage back; common practice, no source
MOTOR_STALLS_BELOW_RATIO, MOTOR_BEARS_S = 0.7, 0.2
_BELOW = np.array(ITI_BELOW)
_ABOVE = np.empty((0, 2))


@dataclass(frozen=True, slots=True)
class Sag:
    """What one other tool sees of a start. lasts_s : below nine tenths of its plate. through : circuit or source.

    upset : surely, perhaps or no. assumed : whether its sensitivity is only that of its kind. goes_dark : whether the
    start takes the source down with it, which is the start's own failure and upsets nobody once more.
    """

    tool: int
    lowest_v: float
    lasts_s: float
    through: str
    upset: str
    assumed: bool
    goes_dark: bool = False


def sags_of(
    site: SettledSite,
    ports: Ports,
    runs: StartRuns,
    situations: Sequence[Situation],
    estimate: int,
    dips_ohm: Sequence[float],
    starts: Sequence[SettledStart | None],
) -> list[tuple[Sag, ...]]:
    """The sags at every other running tool during each start, in the order of the tools.

    dips_ohm : [ohm] by start, reactance of a leg of the source until its regulator has answered. starts : by tool.
    """
    count = len(situations)
    tools = np.unique(ports.tool)
    shape = (count, len(tools))
    pieces, seconds = np.zeros(count, np.int64), np.empty((count, PIECES))
    volts = np.empty((*shape, PIECES))
    lowest, before, wired = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    first = ports.first[[one.starting for one in situations]]
    turn = np.array(
        [
            start_turn(starts[one.starting], estimate, complex(runs.seen.ohm[n]) + 1j * dips_ohm[n])
            for n, one in enumerate(situations)
        ],
        np.complex128,
    )
    sag_courses(
        runs.result, runs.segment, np.ascontiguousarray(runs.source[:, SOURCE_EMF_V]), runs.seen.emf_v,
        runs.seen.open_v, runs.seen.lost_v, np.array(dips_ohm, np.float64), ports.incidence, ports.wiring_abs_ohm,
        first, np.full(count, estimate, np.int64), ports.tool, turn,
        RECOVERS_S, pieces, seconds, volts, lowest, before, wired,
    )  # fmt: skip
    at = dict(zip(tools.tolist(), range(len(tools)), strict=True))
    # a start that shuts the source off darkens all together: that is the start's own failure
    goes_dark = (runs.result[:, RESULT_OFF_AT_S] < np.inf).tolist()
    lowest_v = lowest.tolist()
    through_circuit = (wired > 0.5 * (before - lowest)).tolist()
    roots = [3.0**0.5 if len(placement.lines) == 3 else 1.0 for placement in site.placements]
    found: list[tuple[Sag, ...]] = []
    for n, one in enumerate(situations):
        own: list[Sag] = []
        for tool in one.beside if pieces[n] else ():
            k = at.get(tool)
            if k is None:
                continue
            placement, root, volt = site.placements[tool], roots[tool], lowest_v[n][k]
            plate = placement.plate_voltage_v / root
            lasts_s, upset, assumed = 0.0, "no", False
            if volt < SAGS_BELOW_RATIO * plate:
                some = seconds[n, : pieces[n]]
                ratio = volts[n, k, : pieces[n]] / plate
                lasts_s = float(some[ratio < SAGS_BELOW_RATIO].sum())
                upset, assumed = _upset(placement, some, ratio)
            through = "circuit" if through_circuit[n][k] else "source"
            own.append(Sag(tool, volt * root, lasts_s, through, "no" if goes_dark[n] else upset, assumed, goes_dark[n]))
        found.append(tuple(own))
    return found


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
