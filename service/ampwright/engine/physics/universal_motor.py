"""Which series motor stands behind a hand tool's plate, and what does it take and give at a given speed?

Phasor model of the series commutator motor: V = I (R + jX) + E with E = k I w / (1 + I/Is) in phase with the current,
and torque E I / w. Field and reactance saturate together with the current. A plate gives voltage and current; power
factor, starting current over rated, no-load current over rated and the bend of the field are assumptions, and inputs.
Source: textbook series motor (A. E. Fitzgerald et al., Electric Machinery, universal motors), from memory. The
saturation law is an assumption; with Is in effective values it stands for i / (1 + |i|/(1.15 Is)) in instantaneous
ones (their fundamental terms agree within 2 %, computed).
Not here: the run-up (universal_motor_start.py).
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

UNIVERSAL_RESISTANCE_OHM = 0
UNIVERSAL_REACTANCE_OHM = 1  # at small current
UNIVERSAL_FIELD_VS_PER_A = 2  # back electromotive force per ampere and radian per second, at small current
UNIVERSAL_SATURATION_A = 3
UNIVERSAL_NO_LOAD_RAD_PER_S = 4  # at plate voltage: speed 1
UNIVERSAL_VOLTAGE_V = 5
UNIVERSAL_RATED_TORQUE_NM = 6  # at the air gap, at plate current
UNIVERSAL_IDLE_TORQUE_NM = 7  # its own fan, brushes and gear, at no-load speed
UNIVERSAL_SOFT_START_S = 8  # 0: none
UNIVERSAL_SOFT_FIRST = 9  # share of the voltage at which a soft start begins
UNIVERSAL_COLUMNS = 10

TOOL_VOLTAGE_V = 0
TOOL_CURRENT_A = 1
TOOL_POWER_FACTOR = 2
TOOL_START_RATIO = 3  # locked-rotor over plate current
TOOL_IDLE_RATIO = 4  # no-load over plate current
TOOL_SATURATION_RATIO = 5
TOOL_NO_LOAD_RAD_PER_S = 6
TOOL_SOFT_START_S = 7
TOOL_SOFT_FIRST = 8
TOOL_COLUMNS = 9

TOOL_FIT_START_RATIO = 0
TOOL_FIT_RATED_SPEED_PU = 1
TOOL_FIT_EFFICIENCY = 2
TOOL_FIT_CONTRADICTION = 3  # 1: power factor and starting current cannot both be met; the starting current gave way
TOOL_FIT_COLUMNS = 4

# Low, typical, high. Common practice, no source; starting ratios of tools with a plain switch 3-7.
TOOL_ASSUMPTIONS = MappingProxyType(
    {
        "power_factor": (0.94, 0.96, 0.98),
        "start_ratio": (4.0, 5.0, 7.0),
        "idle_ratio": (0.28, 0.36, 0.45),
        "saturation_ratio": (0.2, 0.4, 0.8),
        "soft_start_s": (0.3, 0.8, 1.5),
        "soft_first": (0.15, 0.25, 0.35),
    }
)
# Shaft power over rated power times run-up: twice the inertia constant in seconds. Common practice, no source.
TOOL_INERTIA_TIME_S = (0.3, 0.8, 2.5)


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, ::1])")
def fit_universal(tool: NDArray[np.float64], universal: NDArray[np.float64], fit: NDArray[np.float64]) -> None:
    """Series motors from their plates, one row each; closed form.

    Parameters
    ----------
    tool : (n, TOOL_COLUMNS) V, A, ratios, rad/s, s; all > 0 but the soft start
    universal : (n, UNIVERSAL_COLUMNS) out
    fit : (n, TOOL_FIT_COLUMNS) out

    Errors: none; TOOL_FIT_CONTRADICTION says where the inputs cannot all be met. NaN in, NaN out.
    Source: series motor phasor; the assumptions of this module.
    """
    for row in range(tool.shape[0]):
        v = tool[row, TOOL_VOLTAGE_V]
        rated = tool[row, TOOL_CURRENT_A]
        pf = tool[row, TOOL_POWER_FACTOR]
        bend = tool[row, TOOL_SATURATION_RATIO]
        start = tool[row, TOOL_START_RATIO]
        x_rated = v / rated * np.sqrt(1.0 - pf * pf)
        x_small = x_rated * (1.0 + 1.0 / bend)
        z_start = v / (rated * start)
        x_start = x_small / (1.0 + start / bend)
        least = 0.06 * v / rated
        square = z_start * z_start - x_start * x_start
        fit[row, TOOL_FIT_CONTRADICTION] = 0.0
        if square < least * least:
            fit[row, TOOL_FIT_CONTRADICTION] = 1.0
            r = least
        else:
            r = np.sqrt(square)
        saturation = bend * rated
        idle = tool[row, TOOL_IDLE_RATIO] * rated
        x_idle = x_small / (1.0 + idle / saturation)
        emf_idle = np.sqrt(v * v - (x_idle * idle) ** 2) - r * idle
        field = emf_idle * (1.0 + idle / saturation) / (idle * tool[row, TOOL_NO_LOAD_RAD_PER_S])
        universal[row, UNIVERSAL_RESISTANCE_OHM] = r
        universal[row, UNIVERSAL_REACTANCE_OHM] = x_small
        universal[row, UNIVERSAL_FIELD_VS_PER_A] = field
        universal[row, UNIVERSAL_SATURATION_A] = saturation
        universal[row, UNIVERSAL_NO_LOAD_RAD_PER_S] = tool[row, TOOL_NO_LOAD_RAD_PER_S]
        universal[row, UNIVERSAL_VOLTAGE_V] = v
        universal[row, UNIVERSAL_RATED_TORQUE_NM] = field * rated * rated / (1.0 + rated / saturation)
        universal[row, UNIVERSAL_IDLE_TORQUE_NM] = field * idle * idle / (1.0 + idle / saturation)
        universal[row, UNIVERSAL_SOFT_START_S] = tool[row, TOOL_SOFT_START_S]
        universal[row, UNIVERSAL_SOFT_FIRST] = tool[row, TOOL_SOFT_FIRST]
        emf = v * pf - r * rated
        speed = emf * (1.0 + rated / saturation) / (field * rated)
        fit[row, TOOL_FIT_RATED_SPEED_PU] = speed / tool[row, TOOL_NO_LOAD_RAD_PER_S]
        loss = universal[row, UNIVERSAL_IDLE_TORQUE_NM] * fit[row, TOOL_FIT_RATED_SPEED_PU] ** 2
        fit[row, TOOL_FIT_EFFICIENCY] = (universal[row, UNIVERSAL_RATED_TORQUE_NM] - loss) * speed / (v * rated * pf)
        low = 0.0
        high = 100.0 * rated
        for _ in range(60):
            middle = 0.5 * (low + high)
            x = x_small / (1.0 + middle / saturation)
            if middle * np.sqrt(r * r + x * x) > v:
                high = middle
            else:
                low = middle
        fit[row, TOOL_FIT_START_RATIO] = high / rated


@kernel("complex128(float64[::1], float64, float64)")
def universal_impedance(universal: NDArray[np.float64], current_a: float, speed_pu: float) -> complex:
    """Voltage over current of a series motor at a given current and speed.

    Parameters
    ----------
    universal : (UNIVERSAL_COLUMNS,)
    current_a : [A] effective, >= 0
    speed_pu : [-] over no-load speed at plate voltage

    Returns
    -------
    impedance : [ohm] its real part above the resistance is what becomes torque

    Errors: none; NaN in, NaN out.
    Source: series motor phasor.
    """
    bend = 1.0 / (1.0 + current_a / universal[UNIVERSAL_SATURATION_A])
    speed = speed_pu * universal[UNIVERSAL_NO_LOAD_RAD_PER_S]
    return complex(
        universal[UNIVERSAL_RESISTANCE_OHM] + universal[UNIVERSAL_FIELD_VS_PER_A] * bend * speed,
        universal[UNIVERSAL_REACTANCE_OHM] * bend,
    )


@kernel("float64(float64[::1], float64)")
def universal_torque_nm(universal: NDArray[np.float64], current_a: float) -> float:
    """Torque of a series motor at a given current.

    Parameters
    ----------
    universal : (UNIVERSAL_COLUMNS,)
    current_a : [A] effective, >= 0

    Returns
    -------
    torque_nm : [N m] at the air gap

    Errors: none; NaN in, NaN out.
    Source: torque = E I / w of the series motor.
    """
    torque: float = universal[UNIVERSAL_FIELD_VS_PER_A] * current_a * current_a
    return float(torque / (1.0 + current_a / universal[UNIVERSAL_SATURATION_A]))
