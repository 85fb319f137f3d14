"""How large is the first surge of a load with a rectifier, and which crest factor does it keep while it works?

A full bridge onto a capacitor, fed by a sine behind a resistance and an inductance, solved in time by the trapezoidal
rule. Switched on at a given point of the wave with the capacitor empty: crest and I^2 t of the inrush. Loaded with
constant power from a charged capacitor: effective current, power factor, crest factor. A corrected input stage (power
factor corrected) has the same inrush onto its smaller capacitor; when it works its current is a sine.
Source: circuit theory; capacitor per watt and series resistance common practice, no source. Held against a solver of
the same circuit in tests/engine/physics/test_other_starts.py.
Not here: what a source's peak limit makes of the surge (limit_events.py).
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

RECTIFIER_EMF_V = 0
RECTIFIER_RESISTANCE_OHM = 1  # source, wiring, cord and the load's own surge resistor
RECTIFIER_INDUCTANCE_H = 2
RECTIFIER_CAPACITANCE_F = 3
RECTIFIER_DROP_V = 4  # both diodes together
RECTIFIER_POWER_W = 5  # when it works
RECTIFIER_FREQUENCY_HZ = 6
RECTIFIER_SWITCH_ON_RAD = 7  # point of the wave; pi / 2 is the crest, the worst
RECTIFIER_COLUMNS = 8

INRUSH_CREST_A = 0
INRUSH_CURRENT_SQUARED_TIME_A2S = 1
INRUSH_TIME_S = 2  # until the current first comes down to nought
WORKING_CURRENT_A = 3
WORKING_POWER_FACTOR = 4
WORKING_CREST_FACTOR = 5
RECTIFIER_RESULTS = 6

# Low, typical, high. Common practice, no source.
RECTIFIER_ASSUMPTIONS = MappingProxyType(
    {
        "uncorrected_farad_per_watt_120v": (1.5e-6, 3e-6, 6e-6),
        "uncorrected_farad_per_watt_230v": (0.5e-6, 1e-6, 2e-6),
        "corrected_farad_per_watt": (0.3e-6, 0.7e-6, 1.5e-6),
        "led_farad_per_watt": (0.05e-6, 0.3e-6, 1e-6),
        "surge_resistance_ohm": (1.0, 3.0, 8.0),
        "drop_v": (1.6, 1.8, 2.0),
    }
)

_STEPS_PER_CYCLE = 2000
_INRUSH_CYCLES = 3
_SETTLING_CYCLES = 30


@kernel("void(float64[::1], float64, float64, float64, float64[::1])")
def _step(
    rectifier: NDArray[np.float64], angle: float, step_s: float, drawn_a: float, state: NDArray[np.float64]
) -> None:
    """One trapezoidal step of current (>= 0, behind the bridge) and capacitor voltage."""
    r = rectifier[RECTIFIER_RESISTANCE_OHM]
    c = rectifier[RECTIFIER_CAPACITANCE_F]
    inductance = rectifier[RECTIFIER_INDUCTANCE_H]
    w = 2.0 * np.pi * rectifier[RECTIFIER_FREQUENCY_HZ]
    peak = np.sqrt(2.0) * rectifier[RECTIFIER_EMF_V]
    drive = 0.5 * peak * (abs(np.sin(angle)) + abs(np.sin(angle + w * step_s))) - rectifier[RECTIFIER_DROP_V]
    current = state[0]
    charged = state[1]
    half = 0.5 * step_s
    if inductance < 4.0 * r * step_s:
        # Too little inductance to matter within a step: the current is what the resistance lets through.
        first = max(drive - charged, 0.0) / r
        share = -np.expm1(-step_s / (r * c))
        state[1] = max(charged + first * r * share - step_s * drawn_a / c, 0.0)
        end = peak * abs(np.sin(angle + w * step_s)) - rectifier[RECTIFIER_DROP_V]
        state[0] = max(end - state[1], 0.0) / r
        return
    # L (i1 - i0) = dt (drive - r (i0 + i1)/2 - (v0 + v1)/2); C (v1 - v0) = dt ((i0 + i1)/2 - drawn)
    top = inductance * current + step_s * (drive - charged + half * drawn_a / c) - half * (r + half / c) * current
    after = top / (inductance + half * (r + half / c))
    after = max(after, 0.0)
    state[0] = after
    state[1] = max(charged + step_s * (0.5 * (current + after) - drawn_a) / c, 0.0)


@kernel("void(float64[:, ::1], float64[:, ::1])")
def rectifier_inrush(rectifier: NDArray[np.float64], result: NDArray[np.float64]) -> None:
    """Surge at switching on, and the current while working, one row each.

    Parameters
    ----------
    rectifier : (n, RECTIFIER_COLUMNS) [V, ohm, H, F, V, W, Hz, rad]; resistance and capacitance > 0
    result : (n, RECTIFIER_RESULTS) out [A, A2 s, s, A, -, -]; the working columns are 0 at no power, NaN where the
        source cannot give it

    Errors: none; NaN in, NaN out.
    Source: circuit theory, trapezoidal rule with 2000 steps a cycle.
    """
    state = np.empty(2)
    for row in range(rectifier.shape[0]):
        one = rectifier[row]
        step_s = 1.0 / (one[RECTIFIER_FREQUENCY_HZ] * _STEPS_PER_CYCLE)
        w = 2.0 * np.pi * one[RECTIFIER_FREQUENCY_HZ]
        state[:] = 0.0
        if one[RECTIFIER_INDUCTANCE_H] < 4.0 * one[RECTIFIER_RESISTANCE_OHM] * step_s:
            wave_v = np.sqrt(2.0) * one[RECTIFIER_EMF_V] * abs(np.sin(one[RECTIFIER_SWITCH_ON_RAD]))
            state[0] = max(wave_v - one[RECTIFIER_DROP_V], 0.0) / one[RECTIFIER_RESISTANCE_OHM]
        crest = state[0]
        squared = 0.0
        ends = np.inf
        for k in range(_INRUSH_CYCLES * _STEPS_PER_CYCLE):
            before = state[0]
            _step(one, one[RECTIFIER_SWITCH_ON_RAD] + w * k * step_s, step_s, 0.0, state)
            crest = max(crest, state[0])
            squared += step_s * (before * before + before * state[0] + state[0] * state[0]) / 3.0
            if ends == np.inf and before > 0.0 and state[0] == 0.0:
                ends = (k + 1) * step_s
        result[row, INRUSH_CREST_A] = crest
        result[row, INRUSH_CURRENT_SQUARED_TIME_A2S] = squared
        result[row, INRUSH_TIME_S] = ends
        result[row, WORKING_CURRENT_A] = 0.0
        result[row, WORKING_POWER_FACTOR] = 0.0
        result[row, WORKING_CREST_FACTOR] = 0.0
        if not one[RECTIFIER_POWER_W] > 0.0:
            continue
        state[0] = 0.0
        state[1] = 0.9 * np.sqrt(2.0) * one[RECTIFIER_EMF_V]
        floor_v = 0.3 * one[RECTIFIER_EMF_V]
        failed = False
        for _cycle in range(_SETTLING_CYCLES):
            crest = 0.0
            squared = 0.0
            energy = 0.0
            for k in range(_STEPS_PER_CYCLE):
                angle = w * k * step_s
                before = state[0]
                if state[1] < floor_v:
                    failed = True
                    break
                _step(one, angle, step_s, one[RECTIFIER_POWER_W] / state[1], state)
                crest = max(crest, state[0])
                squared += step_s * (before * before + before * state[0] + state[0] * state[0]) / 3.0
                emf = np.sqrt(2.0) * one[RECTIFIER_EMF_V] * abs(np.sin(angle + 0.5 * w * step_s))
                energy += step_s * emf * 0.5 * (before + state[0])
            if failed:
                break
        effective = np.sqrt(squared * one[RECTIFIER_FREQUENCY_HZ])
        if failed:
            effective = np.nan
        result[row, WORKING_CURRENT_A] = effective
        result[row, WORKING_POWER_FACTOR] = energy * one[RECTIFIER_FREQUENCY_HZ] / (one[RECTIFIER_EMF_V] * effective)
        result[row, WORKING_CREST_FACTOR] = crest / effective
