"""What torque does the driven machine ask of a motor at a given speed?

A sum of three parts: constant (a compressor against its head pressure, averaged over a turn), quadratic in speed (fan,
blade, pump), and a breakaway part that fades out until a tenth of full speed (stiction, a drum standing on its load,
the highest point of a piston's stroke). Ratios to rated torque by kind of load are assumptions, named in LOAD_RATIOS.
Not here: the motor (motor_circuit.py), how long it takes (motor_start.py).
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

LOAD_CONSTANT_NM = 0
LOAD_QUADRATIC_NM = 1  # at synchronous speed
LOAD_BREAKAWAY_NM = 2  # on top of the others at standstill
LOAD_INERTIA_KG_M2 = 3  # rotor and all it drives, at the motor's shaft
LOAD_FIRST_SPEED_PU = 4  # 0: from rest
LOAD_COLUMNS = 5

BREAKAWAY_GONE_PU = 0.1

# (constant, quadratic, breakaway) over rated torque: low, typical, high. Common practice, no source. With constant 1.0
# a 1.5 hp code J compressor breaks even at 49-63 A, with 0.25 (unloaded) at 25-32 A.
LOAD_RATIOS = MappingProxyType(
    {
        "compressor_against_pressure": ((0.8, 0.0, 0.0), (1.0, 0.0, 0.0), (1.2, 0.0, 0.0)),
        "compressor_unloaded": ((0.15, 0.05, 0.0), (0.25, 0.05, 0.0), (0.35, 0.05, 0.0)),
        "fan_or_blade": ((0.05, 0.5, 0.0), (0.05, 0.8, 0.0), (0.1, 1.0, 0.0)),
        "pump": ((0.05, 0.5, 0.05), (0.1, 0.8, 0.1), (0.1, 0.9, 0.3)),
        "loaded_mixer": ((0.4, 0.0, 0.2), (0.6, 0.0, 0.4), (0.9, 0.0, 0.8)),
        "idle_tool": ((0.05, 0.1, 0.0), (0.1, 0.15, 0.0), (0.2, 0.2, 0.1)),
    }
)

# Inertia of rotor and load over rated power / synchronous speed^2, that is twice the inertia constant in seconds.
# Rotors of small motors alone are near 0.1-0.3 s, with a flywheel or blade 0.3-1.5 s. Common practice, no source.
INERTIA_TIME_S = MappingProxyType(
    {
        "compressor_against_pressure": (0.2, 0.5, 1.0),
        "compressor_unloaded": (0.2, 0.5, 1.0),
        "fan_or_blade": (0.5, 1.0, 3.0),
        "pump": (0.1, 0.2, 0.4),
        "loaded_mixer": (0.2, 0.4, 1.0),
        "idle_tool": (0.2, 0.5, 1.5),
    }
)


@kernel("float64(float64[::1], float64)")
def load_torque_nm(load: NDArray[np.float64], speed_pu: float) -> float:
    """Torque asked by the driven machine.

    Parameters
    ----------
    load : (LOAD_COLUMNS,) columns above
    speed_pu : [-] over synchronous speed, >= 0

    Returns
    -------
    torque_nm : [N m]

    Errors: none; NaN in, NaN out.
    Source: common practice, no source.
    """
    torque: float = load[LOAD_CONSTANT_NM] + load[LOAD_QUADRATIC_NM] * speed_pu * speed_pu
    if speed_pu < BREAKAWAY_GONE_PU:
        torque += load[LOAD_BREAKAWAY_NM] * (1.0 - speed_pu / BREAKAWAY_GONE_PU)
    return torque
