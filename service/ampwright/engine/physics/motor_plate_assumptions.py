"""What is a motor's plate taken to say where it is silent?

Bands (low, typical, high) of power factor, starting torque, breakdown torque and start switch by kind of motor, and of
efficiency by kind and power. They go into a PLATE row (motor_nameplate.py) one by one, or all at once into
start_probability.py.
Sources: beside each table; what is from memory or common practice says so.
Not here: the fit (motor_nameplate.py), the driven machine (load_torque.py).
"""

from types import MappingProxyType

import numpy as np

from ampwright.engine.physics.motor_nameplate import CAPACITOR_START, PERMANENT_SPLIT, SPLIT_PHASE, THREE_PHASE

# Low, typical, high where a plate is silent. Locked-rotor torque of capacitor-start motors 2.5-3.25 x rated; the rest
# from memory of NEMA MG 1 12.32 and 12.38 and common practice. Speeds of the start switch over synchronous speed.
PLATE_ASSUMPTIONS = MappingProxyType(
    {
        CAPACITOR_START: MappingProxyType(
            {
                "power_factor": (0.70, 0.82, 0.92),
                "locked_rotor_torque_ratio": (2.5, 2.85, 3.25),
                "breakdown_torque_ratio": (2.0, 2.2, 2.6),
                "switch_opens_pu": (0.70, 0.75, 0.80),
                "switch_recloses_pu": (0.40, 0.50, 0.60),
            }
        ),
        SPLIT_PHASE: MappingProxyType(
            {
                "power_factor": (0.58, 0.68, 0.75),
                "locked_rotor_torque_ratio": (1.3, 1.6, 2.0),
                "breakdown_torque_ratio": (1.85, 2.0, 2.5),
                "switch_opens_pu": (0.70, 0.75, 0.80),
                "switch_recloses_pu": (0.40, 0.50, 0.60),
            }
        ),
        PERMANENT_SPLIT: MappingProxyType(
            {
                "power_factor": (0.85, 0.93, 0.97),
                "locked_rotor_torque_ratio": (0.35, 0.6, 1.0),
                "breakdown_torque_ratio": (1.6, 1.8, 2.4),
                "switch_opens_pu": (2.0, 2.0, 2.0),
                "switch_recloses_pu": (0.0, 0.0, 0.0),
            }
        ),
        THREE_PHASE: MappingProxyType(
            {
                "power_factor": (0.70, 0.80, 0.86),
                "locked_rotor_torque_ratio": (1.5, 1.9, 2.75),
                "breakdown_torque_ratio": (2.0, 2.5, 3.0),
                "switch_opens_pu": (2.0, 2.0, 2.0),
                "switch_recloses_pu": (0.0, 0.0, 0.0),
            }
        ),
    }
)
# Full-load efficiency against shaft power. High: 10 CFR 431.446(a), four poles, capacitor-start (from memory) and
# three-phase (2 and 3 hp verified, the rest from memory). Typical and low lie 0.08 and 0.16 below for single-phase
# motors, 0.03 and 0.08 for three-phase ones, and 0.06 lower still for split-phase and permanent-split ones: common
# practice, no source.
_EFFICIENCY_HP = (0.25, 0.5, 1.0, 2.0, 3.0, 10.0)
_BEST_SINGLE_PHASE = (0.685, 0.762, 0.826, 0.845, 0.85, 0.87)
_BEST_THREE_PHASE = (0.695, 0.782, 0.855, 0.865, 0.869, 0.90)


def assumed_efficiency(kind: int, shaft_power_w: float) -> tuple[float, float, float]:
    """Full-load efficiency of a motor whose plate does not give it.

    Parameters
    ----------
    kind : CAPACITOR_START, SPLIT_PHASE, PERMANENT_SPLIT or THREE_PHASE
    shaft_power_w : [W] > 0

    Returns
    -------
    low, typical, high : [-]

    Errors: none.
    Source: 10 CFR 431.446(a) as the high end; what lies below it is common practice, no source.
    """
    best = _BEST_THREE_PHASE if kind == THREE_PHASE else _BEST_SINGLE_PHASE
    high = float(np.interp(np.log(shaft_power_w / 745.7), np.log(_EFFICIENCY_HP), best))
    if kind == THREE_PHASE:
        return high - 0.08, high - 0.03, high
    if kind != CAPACITOR_START:
        high -= 0.06
    return high - 0.16, high - 0.08, high
