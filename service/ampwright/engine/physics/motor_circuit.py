"""What current does an induction motor take at a given speed, and what torque does it give for it?

Both follow from an equivalent circuit that is linear in voltage at a fixed speed: an admittance, and a torque per
volt squared. Single-phase motors are the unsymmetrical two-winding machine (main and start winding in quadrature,
forward and backward field of each; the double-revolving-field circuit is its case with the start winding open).
Three-phase motors are the per-phase T circuit, with a rotor resistance that rises with slip.
Sources: P. C. Krause et al., Analysis of Electric Machinery, chapters on symmetrical and unsymmetrical induction
machines; IEEE Std 112 circuit for the three-phase T (both from memory). Iron loss is not a branch of the circuit: it
is lumped with friction (motor_nameplate.py).
Not here: where the circuit comes from (motor_nameplate.py), the run-up (motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

# Columns of a motor row. Impedances at rated frequency, per phase, rotor referred to the main winding.
MOTOR_PHASES = 0  # 1 or 3
MOTOR_STATOR_RESISTANCE_OHM = 1
MOTOR_STATOR_REACTANCE_OHM = 2
MOTOR_ROTOR_RESISTANCE_OHM = 3  # at standing-still frequency zero, that is near full speed
MOTOR_ROTOR_REACTANCE_OHM = 4
MOTOR_MAGNETISING_REACTANCE_OHM = 5
MOTOR_ROTOR_RESISTANCE_RISE = 6  # rotor resistance at slip 1 is (1 + rise) times that near full speed
MOTOR_TURNS_RATIO = 7  # start winding over main winding
MOTOR_START_RESISTANCE_OHM = 8  # start winding itself
MOTOR_START_REACTANCE_OHM = 9  # leakage of the start winding
MOTOR_CAPACITOR_OHM = 10  # reactance of the capacitor in series with the start winding; 0: none
MOTOR_CAPACITOR_RESISTANCE_OHM = 11
MOTOR_SYNCHRONOUS_RAD_PER_S = 12  # mechanical, at rated frequency
MOTOR_VOLTAGE_V = 13  # plate; line to line for three phases
MOTOR_RATED_TORQUE_NM = 14
MOTOR_LOSS_TORQUE_NM = 15  # friction, windage and iron at full speed
MOTOR_SWITCH_OPENS_PU = 16  # speed over synchronous at which the start switch opens; above 1: no switch
MOTOR_SWITCH_RECLOSES_PU = 17
MOTOR_FREQUENCY_HZ = 18  # rated
MOTOR_COLUMNS = 19

# What quasi-steady run-ups lose to electrical transients, in cycles of torque: means over six motors, from their
# transient equations (tests/published/starts/transient_machine.py).
START_LAG_CYCLES = 0.2
SWITCH_LOSS_CYCLES = 0.4


@kernel("Tuple((complex128, complex128, float64))(float64[::1], float64, float64, boolean)")
def motor_at_speed(
    motor: NDArray[np.float64], speed_pu: float, frequency_pu: float, start_winding_in: bool
) -> tuple[complex, complex, float]:
    """Admittance of a motor and its torque per volt squared, steady at one speed.

    Parameters
    ----------
    motor : (MOTOR_COLUMNS,) one motor, columns above
    speed_pu : [-] speed over synchronous speed at rated frequency
    frequency_pu : [-] frequency over rated frequency, > 0
    start_winding_in : start switch closed; ignored for three phases

    Returns
    -------
    admittance : [S] line current over winding voltage (over line-to-neutral voltage for three phases)
    start_admittance : [S] the part of it in the start winding
    torque_per_v2 : [N m/V2] of that same voltage

    Errors: none; NaN in, NaN out.
    Source: Krause, Analysis of Electric Machinery, unsymmetrical two-phase machine in the steady state, from memory;
    held against the transient equations and a circuit simulator in tests/published/starts.
    """
    f = frequency_pu
    s = (f - speed_pu) / f
    sync = motor[MOTOR_SYNCHRONOUS_RAD_PER_S] * f
    xm = motor[MOTOR_MAGNETISING_REACTANCE_OHM] * f
    x2 = motor[MOTOR_ROTOR_REACTANCE_OHM] * f
    z1 = complex(motor[MOTOR_STATOR_RESISTANCE_OHM], motor[MOTOR_STATOR_REACTANCE_OHM] * f)
    # Multiplied through by slip, so that slip zero needs no exception.
    r2f = motor[MOTOR_ROTOR_RESISTANCE_OHM] * (1.0 + motor[MOTOR_ROTOR_RESISTANCE_RISE] * abs(s))
    zf = complex(0.0, xm) * complex(r2f, s * x2) / complex(r2f, s * (xm + x2))
    if motor[MOTOR_PHASES] > 2.0:
        y = 1.0 / (z1 + zf)
        return y, complex(0.0, 0.0), 3.0 * (y.real * y.real + y.imag * y.imag) * zf.real / sync
    sb = 2.0 - s
    r2b = motor[MOTOR_ROTOR_RESISTANCE_OHM] * (1.0 + motor[MOTOR_ROTOR_RESISTANCE_RISE] * abs(sb))
    zb = complex(0.0, xm) * complex(r2b, sb * x2) / complex(r2b, sb * (xm + x2))
    half_sum = 0.5 * (zf + zb)
    zmain = z1 + half_sum
    if start_winding_in:
        a = motor[MOTOR_TURNS_RATIO]
        zstart = (
            complex(
                motor[MOTOR_START_RESISTANCE_OHM] + motor[MOTOR_CAPACITOR_RESISTANCE_OHM],
                motor[MOTOR_START_REACTANCE_OHM] * f - motor[MOTOR_CAPACITOR_OHM] / f,
            )
            + a * a * half_sum
        )
        cross = complex(0.0, 1.0) * a * 0.5 * (zf - zb)
        det = zmain * zstart + cross * cross
        imain = (zstart + cross) / det
        istart = (zmain - cross) / det
    else:
        a = 0.0
        imain = 1.0 / zmain
        istart = complex(0.0, 0.0)
    turned = complex(0.0, a) * istart
    forward = 0.5 * (imain - turned)
    backward = 0.5 * (imain + turned)
    torque = (
        2.0
        * (
            (forward.real * forward.real + forward.imag * forward.imag) * zf.real
            - (backward.real * backward.real + backward.imag * backward.imag) * zb.real
        )
        / sync
    )
    return imain + istart, istart, torque


@kernel("void(float64[:, ::1], float64[::1], float64[::1], boolean[::1], complex128[::1], float64[::1])")
def motor_curve(
    motor: NDArray[np.float64],
    speed_pu: NDArray[np.float64],
    voltage_v: NDArray[np.float64],
    start_winding_in: NDArray[np.bool_],
    current_a: NDArray[np.complex128],
    torque_nm: NDArray[np.float64],
) -> None:
    """Steady current and torque of motors at given speeds and voltages, one row each; the curves themselves.

    Parameters
    ----------
    motor : (n, MOTOR_COLUMNS)
    speed_pu : (n,) [-] over synchronous speed
    voltage_v : (n,) [V] at the motor; line to line for three phases
    start_winding_in : (n,)
    current_a : (n,) [A] out, line current, complex to the phase (line-to-neutral) voltage
    torque_nm : (n,) [N m] out, at the air gap

    Errors: none; NaN in, NaN out.
    Source: as motor_at_speed.
    """
    for row in range(speed_pu.size):
        phase_v = voltage_v[row]
        if motor[row, MOTOR_PHASES] > 2.0:
            phase_v = phase_v / np.sqrt(3.0)
        y, _, torque = motor_at_speed(motor[row], speed_pu[row], 1.0, start_winding_in[row])
        current_a[row] = y * phase_v
        torque_nm[row] = torque * phase_v * phase_v
