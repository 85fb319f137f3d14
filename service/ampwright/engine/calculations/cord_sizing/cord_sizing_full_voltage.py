"""What would the tool draw at full voltage, and how warm would that make the cord?

A heater or a series motor takes less current at the end of a long thin cord. A cord is not judged by the drop that
starves its tool: rules about current and heat see the larger of the network's figure and the one at full voltage, so
that more copper, a shorter run or a stiffer source never turns a pass into a fail.
Source: load composition of engine/site/load_classes (constant power, current, impedance); cord_heat.py.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass

import numpy as np

from ampwright.engine.calculations.cord_sizing.cord_sizing_network import HEAVY, WORKING, SolvedRun
from ampwright.engine.calculations.network.cord_heat import after_push_c, steady_c
from ampwright.engine.calculations.network.load_network import Real
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import SettledState

STATES = {WORKING: "working", HEAVY: "heavy"}


@dataclass(frozen=True, slots=True)
class FullVoltage:
    """Axes (state, estimate) and (state, estimate, cord)."""

    current_a: Real
    copper_c: Real
    apparent_va: Real
    active_w: Real

    def currents(self, state: int) -> Band:
        return _band(self.current_a[state])

    def copper(self, state: int, cord: int) -> Band:
        return _band(self.copper_c[state, :, cord])


def at_full_voltage(solved: SolvedRun) -> FullVoltage:
    """Figures at the open voltage of the source, or at plate voltage where that is higher."""
    placement = solved.placement
    ratio = max(1.0, open_voltage_v(solved) / placement.plate_voltage_v)
    root = 3.0**0.5 if len(placement.lines) == 3 else 1.0
    amps = np.zeros((2, 3))
    apparent, active = np.zeros((2, 3)), np.zeros((2, 3))
    for state, name in STATES.items():
        settled = placement.state(name)
        shares = _shares(settled)
        for estimate in range(3):
            power = settled.power_va[estimate]
            per_volt = shares[0] / ratio + shares[1] + shares[2] * ratio
            amps[state, estimate] = abs(power) * per_volt / (placement.plate_voltage_v * root)
            apparent[state, estimate] = abs(power) * per_volt * ratio
            active[state, estimate] = power.real * per_volt * ratio
    amps = np.maximum(amps, solved.figures.tool_a[list(solved.rows), :, solved.at])
    copper = np.zeros((2, 3, len(solved.cords)))
    through = np.repeat(amps[:, :, None], len(solved.cords), axis=2)
    copper[WORKING] = steady_c(solved.cords, solved.site.ambient_c, through[WORKING][None])[0]
    lasts_s = placement.state("heavy").lasts_s
    copper[HEAVY] = after_push_c(
        solved.cords, solved.site.ambient_c, copper[WORKING].copy(), through[HEAVY].copy(), lasts_s
    )
    return FullVoltage(np.round(amps, 3), np.round(copper, 1), np.round(apparent, 1), np.round(active, 1))


def _shares(state: SettledState) -> tuple[float, float, float]:
    """Shares of constant power, current and impedance."""
    rest = 1.0 - state.constant_current_ratio - state.constant_impedance_ratio
    return rest, state.constant_current_ratio, state.constant_impedance_ratio


def open_voltage_v(solved: SolvedRun) -> float:
    """[V] without load across the conductors the tool taps; between lines of a three-phase tool."""
    angles, volts = solved.site.source.leg_angles_rad, solved.site.source.leg_voltage_v
    first, second = solved.placement.lines[0]
    if len(solved.placement.lines) == 3:
        return float(volts * 3.0**0.5)
    if second >= len(angles):
        return volts
    return abs(volts * (cmath.exp(1j * angles[first]) - cmath.exp(1j * angles[second])))


def _band(three: Real) -> Band:
    return Band(float(three.min()), float(three[1]), float(three.max()))


def larger(one: Band, other: Band) -> Band:
    """Estimate by estimate the larger of two bands."""
    return Band(max(one.low, other.low), max(one.typical, other.typical), max(one.high, other.high))
