"""Does a tool with electronics (brushless, permanent magnet, constant power) run up on this source?

Its electronics draw power, not current: a ramp from nought to a peak over a time, then the working power. At a low
voltage they draw more current; below a drop-out voltage they give up. Constant power on a source that limits its
current has no point of rest: the voltage runs down to the drop-out. Electronics with no drop-out (0 V) are taken as
folding back their own power instead; the run-up then takes as long as its energy needs. The rotor's energy is that of
the ramp: half the peak power times its time.
Source: power = V I pf behind a Thevenin source; ramp, peak and drop-out are assumptions (common practice, no source).
Not here: the surge of their capacitor at plugging in (rectifier_inrush.py); series motors with a soft start
(universal_motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import add_to_history
from ampwright.engine.physics.source_limit_state import (
    SOURCE_CORD_REACTANCE_OHM,
    SOURCE_CORD_RESISTANCE_OHM,
    SOURCE_EMF_V,
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_REACTANCE_OHM,
    SOURCE_RESISTANCE_OHM,
    TIERS,
    allowed_current_a,
    spend_tiers,
    switches_off,
)
from ampwright.engine.physics.start_outcome import (
    COLLAPSES,
    RESULT_BELOW_1_S,
    RESULT_CURRENT_SQUARED_TIME_A2S,
    RESULT_FINAL_CURRENT_A,
    RESULT_FINAL_SPEED_PU,
    RESULT_FINAL_VOLTAGE_V,
    RESULT_FIRST_CREST_A,
    RESULT_LEAST_FREQUENCY_PU,
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_OUTCOME,
    RESULT_PEAK_CURRENT_A,
    RESULT_PEAK_SOURCE_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
    SETTING_BELOW_1_V,
    SETTING_HORIZON_S,
    SETTING_SLOW_S,
    SHUTS_OFF,
    SOURCE_LIMITS,
    STARTS,
    STARTS_SLOWLY,
)

ELECTRONIC_PEAK_W = 0  # at the end of the ramp
ELECTRONIC_WORKING_W = 1
ELECTRONIC_RAMP_S = 2
ELECTRONIC_POWER_FACTOR = 3
ELECTRONIC_CREST_FACTOR = 4
ELECTRONIC_DROP_OUT_V = 5  # 0: folds back its power instead
ELECTRONIC_COLUMNS = 6

_STEP_S = 0.005


@kernel("void(complex128, complex128, float64, float64, float64, float64[::1])")
def _flow(
    emf: complex, inner: complex, power_w: float, power_factor: float, allowed_a: float, work: NDArray[np.float64]
) -> None:
    """Current and voltage of a constant power behind a source; the high-voltage root, or the most that can come.

    A power factor of a rectifier is distortion, not lag: its current is taken in phase, larger by 1 / power factor.
    """
    a = abs(emf)
    effective_w = power_w / power_factor
    # |emf|^2 = (V + R I)^2 + (X I)^2 with I = effective_w / V
    r = inner.real
    x = inner.imag
    half = 0.5 * a * a - r * effective_w
    inside = half * half - (r * r + x * x) * effective_w * effective_w
    fails = inside < 0.0 or half <= 0.0
    voltage = np.sqrt(max(half, 0.0) + np.sqrt(max(inside, 0.0)))
    if fails or voltage <= 0.0:
        # More than can be transferred: what comes is the most, at matched magnitude.
        current = a / np.sqrt(2.0 * (r * r + x * x) + 2.0 * r * np.sqrt(r * r + x * x)) if abs(inner) > 0.0 else np.inf
        voltage = current * abs(inner)
    else:
        current = effective_w / voltage
    work[4] = current  # asked
    current = min(current, allowed_a)
    work[0] = current
    work[1] = voltage
    work[2] = current * voltage * power_factor
    work[3] = 1.0 if fails else 0.0


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, :, ::1])")
def electronic_start(
    electronic: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
) -> None:
    """Run up tools with electronics, one row each.

    Parameters
    ----------
    electronic : (n, ELECTRONIC_COLUMNS) [W, W, s, -, -, V]
    source : (n, SOURCE_COLUMNS) source_limit_state.py
    setting : (n, SETTING_COLUMNS) start_outcome.py
    result : (n, RESULT_COLUMNS) out, start_outcome.py; the speed is the root of the share of energy delivered
    segment : (n, SEGMENTS, SEGMENT_COLUMNS) out [s, A, A]

    Errors: none; NaN in, NaN out.
    Source: constant power behind a Thevenin source; assumptions of this module.
    """
    used_s = np.empty(TIERS)
    work = np.empty(5)
    for row in range(electronic.shape[0]):
        tool = electronic[row]
        feed = source[row]
        out = result[row]
        used_s[:] = 0.0
        out[:] = 0.0
        segment[row] = 0.0
        out[RESULT_TIME_TO_SPEED_S] = np.inf
        out[RESULT_OFF_AT_S] = np.inf
        out[RESULT_LEAST_VOLTAGE_V] = np.inf
        out[RESULT_LEAST_LOAD_VOLTAGE_V] = np.inf
        out[RESULT_LEAST_FREQUENCY_PU] = 1.0
        line = complex(feed[SOURCE_RESISTANCE_OHM], feed[SOURCE_REACTANCE_OHM])
        cord = complex(feed[SOURCE_CORD_RESISTANCE_OHM], feed[SOURCE_CORD_REACTANCE_OHM])
        beside = complex(feed[SOURCE_OTHER_CONDUCTANCE_S], feed[SOURCE_OTHER_SUSCEPTANCE_S])
        emf = feed[SOURCE_EMF_V] / (1.0 + line * beside)
        inner = line / (1.0 + line * beside) + cord
        needed_j = 0.5 * tool[ELECTRONIC_PEAK_W] * tool[ELECTRONIC_RAMP_S]
        given_j = 0.0
        time = 0.0
        count = 0
        runs = False
        dropped = False
        while time < setting[row, SETTING_HORIZON_S]:
            step = min(_STEP_S, setting[row, SETTING_HORIZON_S] - time)
            share = 1.0
            if tool[ELECTRONIC_RAMP_S] > 0.0:
                share = min((time + 0.5 * step) / tool[ELECTRONIC_RAMP_S], 1.0)
            power = tool[ELECTRONIC_WORKING_W] if runs else tool[ELECTRONIC_PEAK_W] * share
            # What flows beside, at the voltage that is there without this tool: its part of the source's limit.
            beside_a = abs(emf * beside)
            allowed = allowed_current_a(feed, used_s)
            _flow(emf, inner, power, tool[ELECTRONIC_POWER_FACTOR], max(allowed - beside_a, 0.0), work)
            if switches_off(feed, used_s, work[4] + beside_a):
                out[RESULT_OFF_AT_S] = time
                out[RESULT_FINAL_CURRENT_A] = 0.0
                break
            current = work[0]
            common_v = abs(complex(work[1], 0.0) + cord * current)
            limited = work[4] + beside_a > allowed * (1.0 + 1e-9)
            drops_out = tool[ELECTRONIC_DROP_OUT_V] > 0.0
            dropped = work[3] > 0.0 or (drops_out and (limited or work[1] < tool[ELECTRONIC_DROP_OUT_V]))
            if dropped and limited:
                work[1] = tool[ELECTRONIC_DROP_OUT_V]
                common_v = abs(complex(work[1], 0.0) + cord * current)
            source_a = current + beside_a
            count = add_to_history(segment[row], count, step, current, source_a)
            spend_tiers(feed, used_s, source_a, step)
            out[RESULT_PEAK_CURRENT_A] = max(out[RESULT_PEAK_CURRENT_A], current)
            out[RESULT_PEAK_SOURCE_CURRENT_A] = max(out[RESULT_PEAK_SOURCE_CURRENT_A], source_a)
            out[RESULT_FIRST_CREST_A] = max(out[RESULT_FIRST_CREST_A], current * tool[ELECTRONIC_CREST_FACTOR])
            out[RESULT_LEAST_VOLTAGE_V] = min(out[RESULT_LEAST_VOLTAGE_V], common_v)
            out[RESULT_LEAST_LOAD_VOLTAGE_V] = min(out[RESULT_LEAST_LOAD_VOLTAGE_V], work[1])
            for index in range(4):
                if common_v < setting[row, SETTING_BELOW_1_V + index]:
                    out[RESULT_BELOW_1_S + index] += step
            if limited:
                out[RESULT_LIMITED_S] += step
            out[RESULT_LIMITED_AT_END] = 1.0 if limited else 0.0
            out[RESULT_FINAL_CURRENT_A] = current
            out[RESULT_FINAL_VOLTAGE_V] = common_v
            time += step
            if dropped:
                break
            if not runs:
                out[RESULT_CURRENT_SQUARED_TIME_A2S] += current * current * step
                given_j += work[2] * step
                if given_j >= needed_j * (1.0 - 1e-9):
                    runs = True
                    out[RESULT_TIME_TO_SPEED_S] = time
        out[RESULT_FINAL_SPEED_PU] = 1.0 if runs else np.sqrt(max(given_j, 0.0) / max(needed_j, 1e-12))
        out[RESULT_SEGMENTS] = count
        if dropped:
            out[RESULT_OUTCOME] = COLLAPSES
        elif runs:
            slow = out[RESULT_TIME_TO_SPEED_S] > setting[row, SETTING_SLOW_S]
            out[RESULT_OUTCOME] = STARTS_SLOWLY if slow else STARTS
        elif out[RESULT_OFF_AT_S] < np.inf:
            out[RESULT_OUTCOME] = SHUTS_OFF
        else:
            out[RESULT_OUTCOME] = SOURCE_LIMITS
