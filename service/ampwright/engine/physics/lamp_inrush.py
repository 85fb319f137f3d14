"""How much does a resistive load or a filament lamp draw before it is warm?

A filament's conductance starts at `cold_ratio` times its hot one and falls to it with one time constant; a heater is
the same with ratio 1 (ceramic or silicon elements may have more). At cold the source's resistance matters, warm it
does not. Effective values; the crest is sqrt(2) times the first one, as switched on at the crest of the wave.
Sources: cold tungsten 8-15 times its working current for milliseconds (handbooks, from memory; row 10-0035); heaters 1
(row 10-0034). Time constants of tens to hundreds of milliseconds: common practice, no source.
Not here: lamps behind a rectifier (rectifier_inrush.py).
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import add_to_history

LAMP_EMF_V = 0
LAMP_RESISTANCE_OHM = 1  # source and wiring
LAMP_CURRENT_A = 2  # warm, at the electromotive force and without that resistance
LAMP_COLD_RATIO = 3
LAMP_TIME_S = 4  # time constant; > 0
LAMP_COLUMNS = 5

LAMP_FIRST_CURRENT_A = 0
LAMP_CREST_A = 1
LAMP_CURRENT_SQUARED_TIME_A2S = 2  # above the warm current, over eight time constants
LAMP_WARM_CURRENT_A = 3
LAMP_SEGMENTS = 4
LAMP_RESULTS = 5

LAMP_ASSUMPTIONS = MappingProxyType(
    {"tungsten": ((8.0, 12.0, 15.0), (0.01, 0.05, 0.3)), "heater": ((1.0, 1.0, 1.1), (1.0, 10.0, 60.0))}
)

_PIECES = 400
_TIME_CONSTANTS = 8.0


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, :, ::1])")
def lamp_inrush(lamp: NDArray[np.float64], result: NDArray[np.float64], segment: NDArray[np.float64]) -> None:
    """Currents of cold resistances, one row each.

    Parameters
    ----------
    lamp : (n, LAMP_COLUMNS) [V, ohm, A, -, s]
    result : (n, LAMP_RESULTS) out [A, A, A2 s, A, -]
    segment : (n, SEGMENTS, SEGMENT_COLUMNS) out [s, A, A], current_history.py

    Errors: none; NaN in, NaN out.
    Source: Ohm's law with an exponentially falling conductance (assumption).
    """
    for row in range(lamp.shape[0]):
        one = lamp[row]
        segment[row] = 0.0
        warm_s = one[LAMP_CURRENT_A] / one[LAMP_EMF_V]
        warm_a = one[LAMP_EMF_V] / (one[LAMP_RESISTANCE_OHM] + 1.0 / warm_s)
        step_s = _TIME_CONSTANTS * one[LAMP_TIME_S] / _PIECES
        count = 0
        squared = 0.0
        first = one[LAMP_EMF_V] / (one[LAMP_RESISTANCE_OHM] + 1.0 / (warm_s * one[LAMP_COLD_RATIO]))
        for k in range(_PIECES):
            ratio = 1.0 + (one[LAMP_COLD_RATIO] - 1.0) * np.exp(-(k + 0.5) * step_s / one[LAMP_TIME_S])
            current = one[LAMP_EMF_V] / (one[LAMP_RESISTANCE_OHM] + 1.0 / (warm_s * ratio))
            squared += step_s * (current * current - warm_a * warm_a)
            count = add_to_history(segment[row], count, step_s, current, current)
        result[row, LAMP_FIRST_CURRENT_A] = first
        result[row, LAMP_CREST_A] = np.sqrt(2.0) * first
        result[row, LAMP_CURRENT_SQUARED_TIME_A2S] = squared
        result[row, LAMP_WARM_CURRENT_A] = warm_a
        result[row, LAMP_SEGMENTS] = count
