"""What does switching the tool on cost along the run, as far as its plate tells?

A rotor at rest is a constant impedance: locked-rotor current, measured peak or code letter at the plate's voltage. The
copper is cold at a start. Whether the motor still gets going is another question (physics/motor_start.py asks it in
time): `outcome` is `not_assessed` until an answer is handed in.

Source: NFPA 70 table 430.7(B) (code letters); H to L where a motor has no letter, and power factor 0.5 to 0.8 at
standstill, are common practice, no source.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing_full_voltage import open_voltage_v
from ampwright.engine.calculations.cord_sizing_network import SolvedRun
from ampwright.engine.physics.conductor_impedance import FLEXIBLE_CORD_REACTANCE_OHM_PER_M
from ampwright.engine.physics.cord_heating import copper_resistance_ratio
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import Placement
from ampwright.engine.standards.code_letters import locked_rotor_current_a

NOT_ASSESSED = "not_assessed"
NO_START = "no_start"
LETTER_WITHOUT_ONE = ("H", "L")
STANDSTILL_POWER_FACTOR = Band(0.5, 0.65, 0.8)

StartOutcome = Callable[[SolvedRun], str]
"""The seam: what becomes of a start on this run; replaced by the check in time."""


@dataclass(frozen=True, slots=True)
class RunStart:
    """Figures of a start, by number; None where the plate tells nothing."""

    outcome: str
    current_a: Band | None = None
    drop_v: Band | None = None
    voltage_v: Band | None = None


def not_assessed(solved: SolvedRun) -> str:
    """The seam's filling: nothing is promised of a motor or rectifier; a resistive load has no start to fail."""
    return NO_START if solved.placement.load_class.start == "resistive" else NOT_ASSESSED


def start_of(solved: SolvedRun, outcome: StartOutcome = not_assessed) -> RunStart:
    """Current, volts lost along the run and volts left at the tool while it stands still."""
    found = outcome(solved)
    plate = standstill_current_a(solved.placement)
    if plate is None or solved.placement.option is None:
        return RunStart(found)
    amps, lost, left = [], [], []
    for estimate in range(3):
        load = _load_ohm(solved, plate.at(estimate), estimate)
        ahead, along = _before_ohm(solved, estimate), _run_ohm(solved, estimate)
        volts = open_voltage_v(solved)
        flow = volts / abs(ahead + along + load)
        at_tool = flow * abs(load)
        amps.append(flow)
        left.append(at_tool)
        lost.append(flow * abs(along + load) - at_tool)
    return RunStart(found, _sorted(amps), _sorted(lost), _sorted(left))


def standstill_current_a(placement: Placement) -> Band | None:
    """[A] drawn at the plate's voltage with the rotor at rest, None where neither plate nor start tells."""
    option = placement.option
    start = (option.start if option and option.start else None) or placement.tool.start
    if start is None:
        return None
    if start.kind == "measured" and start.peak_a is not None:
        scale = placement.plate_voltage_v / start.at_v.typical if start.at_v else 1.0
        return start.peak_a.times(scale)
    for stated in (start.locked_rotor_a, start.peak_a, start.cold_current_a):
        if stated is not None:
            return stated
    shaft = placement.tool.shaft_power_w
    if start.kind != "induction_motor" or shaft is None:
        return None
    letters = (start.code_letter, start.code_letter) if start.code_letter else LETTER_WITHOUT_ONE
    low = locked_rotor_current_a(letters[0], shaft.low, placement.plate_voltage_v)
    high = locked_rotor_current_a(letters[1], shaft.high, placement.plate_voltage_v)
    if low is None or high is None or high[1] is None:
        return None
    return Band(low[0], 0.5 * (low[0] + high[1]), high[1])


def _load_ohm(solved: SolvedRun, amps: float, estimate: int) -> complex:
    size = solved.placement.plate_voltage_v / amps
    if solved.site.source.source.supply.kind == "dc":
        return complex(size, 0.0)
    return cmath.rect(size, math.acos(STANDSTILL_POWER_FACTOR.at(estimate)))


def _before_ohm(solved: SolvedRun, estimate: int) -> complex:
    source = solved.site.source
    circuit = source.circuits[source.receptacles[solved.placement.receptacle].circuit]
    legs = 2.0 if solved.placement.lines[0][1] < len(source.leg_angles_rad) else 1.0
    return complex(legs * source.resistance_ohm.at(estimate) + circuit.resistance_ohm.at(estimate), 0.0)


def _run_ohm(solved: SolvedRun, estimate: int) -> complex:
    """Out and back, copper at the ambient of the estimate, every contact included."""
    cold = copper_resistance_ratio(solved.site.ambient_c.at(estimate))
    ohm = complex(2.0 * (len(solved.cords) + 1) * solved.site.contact_ohm.at(estimate), 0.0)
    direct = solved.site.source.source.supply.kind == "dc"
    for cord in solved.cords:
        length = 2.0 * cord.length_m.at(estimate)
        ohm += complex(
            length * cord.resistance_20c_ohm_per_m * cold,
            0.0 if direct else length * FLEXIBLE_CORD_REACTANCE_OHM_PER_M,
        )
    return ohm


def _sorted(values: list[float]) -> Band:
    low, middle, high = sorted(round(value, 3) for value in values)
    return Band(low, middle, high)


__all__ = ["RunStart", "StartOutcome", "not_assessed", "standstill_current_a", "start_of"]
