"""Which equivalent circuit stands behind a motor's nameplate?

A plate gives shaft power, voltage and full-load current, sometimes a code letter; a meter may give locked-rotor
current. The circuit is fitted to them by least squares, together with what the plate leaves open: efficiency, locked-
rotor torque and breakdown torque by kind of motor. Those three are inputs (`PLATE_*` columns), so that low, typical and
high, and a Monte Carlo over them, are other rows of the same kernel.
Plates contradict themselves: a shaft power above what volts times amperes can give at any credible efficiency and
power factor is capped, and the result says so. The fit returns what it met, never only what it was asked.
Sources: NEMA MG 1 12.32 and 12.38 (least torques), from memory; NEC table 430.7(B) for code letters (the caller's).
Not here: what a silent plate is taken to say (motor_plate_assumptions.py), what a motor does with a circuit
(motor_circuit.py), the run-up (motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.motor_circuit import (
    MOTOR_CAPACITOR_OHM,
    MOTOR_CAPACITOR_RESISTANCE_OHM,
    MOTOR_FREQUENCY_HZ,
    MOTOR_LOSS_TORQUE_NM,
    MOTOR_MAGNETISING_REACTANCE_OHM,
    MOTOR_PHASES,
    MOTOR_RATED_TORQUE_NM,
    MOTOR_ROTOR_REACTANCE_OHM,
    MOTOR_ROTOR_RESISTANCE_OHM,
    MOTOR_ROTOR_RESISTANCE_RISE,
    MOTOR_START_REACTANCE_OHM,
    MOTOR_START_RESISTANCE_OHM,
    MOTOR_STATOR_REACTANCE_OHM,
    MOTOR_STATOR_RESISTANCE_OHM,
    MOTOR_SWITCH_OPENS_PU,
    MOTOR_SWITCH_RECLOSES_PU,
    MOTOR_SYNCHRONOUS_RAD_PER_S,
    MOTOR_TURNS_RATIO,
    MOTOR_VOLTAGE_V,
    motor_at_speed,
)

CAPACITOR_START = 0
SPLIT_PHASE = 1
PERMANENT_SPLIT = 2
THREE_PHASE = 3

PLATE_KIND = 0
PLATE_SHAFT_POWER_W = 1
PLATE_VOLTAGE_V = 2
PLATE_CURRENT_A = 3
PLATE_LOCKED_ROTOR_CURRENT_A = 4  # measured; 0: by code letter
PLATE_FREQUENCY_HZ = 5
PLATE_POLES = 6
PLATE_EFFICIENCY = 7  # assumed, before it is squared with the plate
PLATE_POWER_FACTOR = 8  # assumed, likewise
PLATE_LOCKED_ROTOR_TORQUE_RATIO = 9  # over rated torque
PLATE_BREAKDOWN_TORQUE_RATIO = 10
PLATE_SWITCH_OPENS_PU = 11
PLATE_SWITCH_RECLOSES_PU = 12
PLATE_LOCKED_ROTOR_VA_PER_W = 13  # by code letter (kVA/hp over 0.7457); used where the measured current is 0
PLATE_COLUMNS = 14

# What the fitted circuit does, for the reader to hold against the plate.
FIT_EFFICIENCY = 0
FIT_POWER_FACTOR = 1
FIT_FULL_LOAD_CURRENT_A = 2
FIT_FULL_LOAD_SPEED_PU = 3
FIT_LOCKED_ROTOR_CURRENT_A = 4
FIT_LOCKED_ROTOR_TORQUE_RATIO = 5
FIT_BREAKDOWN_TORQUE_RATIO = 6
FIT_SHAFT_POWER_W = 7  # what was fitted: the plate's, or the cap
FIT_CAPPED = 8  # 1: the plate asks for more shaft power than its volts and amperes can give
FIT_WORST_MISS = 9  # largest relative miss of full-load current, locked-rotor current and torque
FIT_COLUMNS = 10

# Best credible product of efficiency and power factor at full load, by kind: above it a plate is capped.
# Common practice, no source; small premium motors stay below.
_BEST_PRODUCT = (0.78, 0.66, 0.80, 0.82)
# A table value such as 1/2 hp at 115 V, 9.8 A implies a product of 0.33: no motor is that poor, the table is generous.
_POOREST_PRODUCT = 0.30
# Share of the full-load loss that is friction, windage and iron. Common practice, no source: a fifth to a third.
_LOSS_SHARE = 0.25
_PARAMETERS = 8
_RESIDUALS = 15


@kernel("void(float64[::1], float64[::1], float64[::1])")
def _fill_motor(log_parameter: NDArray[np.float64], plate: NDArray[np.float64], motor: NDArray[np.float64]) -> None:
    kind = plate[PLATE_KIND]
    x = np.exp(log_parameter[2])
    motor[MOTOR_PHASES] = 3.0 if kind == THREE_PHASE else 1.0
    motor[MOTOR_STATOR_RESISTANCE_OHM] = np.exp(log_parameter[0])
    motor[MOTOR_STATOR_REACTANCE_OHM] = x
    motor[MOTOR_ROTOR_RESISTANCE_OHM] = np.exp(log_parameter[1])
    motor[MOTOR_ROTOR_REACTANCE_OHM] = x
    motor[MOTOR_MAGNETISING_REACTANCE_OHM] = np.exp(log_parameter[3])
    if kind == THREE_PHASE:
        motor[MOTOR_ROTOR_RESISTANCE_RISE] = np.exp(log_parameter[4])
        motor[MOTOR_TURNS_RATIO] = 1.0
        motor[MOTOR_START_RESISTANCE_OHM] = 1.0
        motor[MOTOR_START_REACTANCE_OHM] = 1.0
        motor[MOTOR_CAPACITOR_OHM] = 0.0
        motor[MOTOR_CAPACITOR_RESISTANCE_OHM] = 0.0
    else:
        a = np.exp(log_parameter[4])
        motor[MOTOR_ROTOR_RESISTANCE_RISE] = 0.0
        motor[MOTOR_TURNS_RATIO] = a
        motor[MOTOR_START_RESISTANCE_OHM] = np.exp(log_parameter[5])
        motor[MOTOR_START_REACTANCE_OHM] = a * a * x
        if kind == SPLIT_PHASE:
            motor[MOTOR_CAPACITOR_OHM] = 0.0
            motor[MOTOR_CAPACITOR_RESISTANCE_OHM] = 0.0
        else:
            motor[MOTOR_CAPACITOR_OHM] = np.exp(log_parameter[6])
            # Loss angle: electrolytic start capacitors 5-8 %, film run capacitors under 0.1 %. From memory.
            motor[MOTOR_CAPACITOR_RESISTANCE_OHM] = motor[MOTOR_CAPACITOR_OHM] * (
                0.06 if kind == CAPACITOR_START else 0.001
            )
    motor[MOTOR_SYNCHRONOUS_RAD_PER_S] = 4.0 * np.pi * plate[PLATE_FREQUENCY_HZ] / plate[PLATE_POLES]
    motor[MOTOR_VOLTAGE_V] = plate[PLATE_VOLTAGE_V]
    motor[MOTOR_FREQUENCY_HZ] = plate[PLATE_FREQUENCY_HZ]
    if kind in (PERMANENT_SPLIT, THREE_PHASE):
        motor[MOTOR_SWITCH_OPENS_PU] = 2.0
        motor[MOTOR_SWITCH_RECLOSES_PU] = 0.0
    else:
        motor[MOTOR_SWITCH_OPENS_PU] = plate[PLATE_SWITCH_OPENS_PU]
        motor[MOTOR_SWITCH_RECLOSES_PU] = plate[PLATE_SWITCH_RECLOSES_PU]


@kernel("float64(float64[::1], float64, boolean)")
def _breakdown_torque_per_v2(motor: NDArray[np.float64], first_slip: float, start_winding_in: bool) -> float:
    """Highest torque on the running side, on a geometric grid of slips with a parabola through the top."""
    ratio = 1.25
    below = 0.0
    top = 0.0
    slip = max(0.02, first_slip)
    for _ in range(20):
        if slip > 0.95:
            break
        _, _, torque = motor_at_speed(motor, 1.0 - slip, 1.0, start_winding_in)
        if torque < top:
            curvature = below - 2.0 * top + torque
            if curvature < 0.0 and below > 0.0:
                return top - 0.125 * (below - torque) ** 2 / curvature
            return top
        below = top
        top = torque
        slip *= ratio
    return top


@kernel("void(float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[::1])")
def _residuals(
    log_parameter: NDArray[np.float64],
    prior: NDArray[np.float64],
    plate: NDArray[np.float64],
    target: NDArray[np.float64],
    motor: NDArray[np.float64],
    residual: NDArray[np.float64],
) -> None:
    _fill_motor(log_parameter, plate, motor)
    kind = plate[PLATE_KIND]
    phase_v = plate[PLATE_VOLTAGE_V]
    if kind == THREE_PHASE:
        phase_v = phase_v / np.sqrt(3.0)
    phases = motor[MOTOR_PHASES]
    running_start_winding = kind == PERMANENT_SPLIT
    slip = np.exp(log_parameter[7])
    shaft_w = target[0]
    loss_w = shaft_w / target[1] - shaft_w
    full_speed = motor[MOTOR_SYNCHRONOUS_RAD_PER_S] * (1.0 - slip)
    rated_nm = shaft_w / full_speed
    motor[MOTOR_RATED_TORQUE_NM] = rated_nm
    motor[MOTOR_LOSS_TORQUE_NM] = _LOSS_SHARE * loss_w / full_speed
    y, _, torque = motor_at_speed(motor, 1.0 - slip, 1.0, running_start_winding)
    v2 = phase_v * phase_v
    residual[0] = np.log(max(torque * v2 / (rated_nm + motor[MOTOR_LOSS_TORQUE_NM]), 1e-3)) / 0.002
    residual[1] = np.log(abs(y) * phase_v / plate[PLATE_CURRENT_A]) / 0.02
    residual[2] = np.log(max(phases * y.real * v2 * target[1] / shaft_w, 1e-3)) / 0.03
    y, _, torque = motor_at_speed(motor, 0.0, 1.0, True)
    residual[3] = np.log(abs(y) * phase_v / target[2]) / 0.01
    residual[4] = np.log(max(torque * v2 / (rated_nm * plate[PLATE_LOCKED_ROTOR_TORQUE_RATIO]), 1e-3)) / 0.02
    torque = _breakdown_torque_per_v2(motor, slip, running_start_winding)
    residual[5] = np.log(max(torque * v2 / (rated_nm * plate[PLATE_BREAKDOWN_TORQUE_RATIO]), 1e-3)) / 0.10
    # Parts that the plate does not settle are held near what small motors have, by weak priors.
    for index in range(_PARAMETERS):
        residual[6 + index] = (log_parameter[index] - prior[index]) / (0.25 if index in (4, 7) else 0.7)
    # A start winding is finer wire than its turns alone would ask: resistance well above a^2 R1.
    a2_r1 = 2.0 * log_parameter[4] + log_parameter[0] + prior[8]
    residual[14] = 0.0 if kind == THREE_PHASE else (log_parameter[5] - a2_r1) / 0.4


@kernel("boolean(float64[:, ::1], float64[::1])")
def _solve_symmetric(matrix: NDArray[np.float64], vector: NDArray[np.float64]) -> bool:
    """Cholesky in place; own few lines, because a library's blocking may differ between machines in the last bit."""
    n = vector.size
    for i in range(n):
        for j in range(i + 1):
            total = matrix[i, j]
            for k in range(j):
                total -= matrix[i, k] * matrix[j, k]
            if i == j:
                if not total > 0.0:
                    return False
                matrix[i, i] = np.sqrt(total)
            else:
                matrix[i, j] = total / matrix[j, j]
    for i in range(n):
        total = vector[i]
        for k in range(i):
            total -= matrix[i, k] * vector[k]
        vector[i] = total / matrix[i, i]
    for i in range(n - 1, -1, -1):
        total = vector[i]
        for k in range(i + 1, n):
            total -= matrix[k, i] * vector[k]
        vector[i] = total / matrix[i, i]
    return True


@kernel("void(float64[::1], float64[::1], float64[::1])")
def _square_with_plate(plate: NDArray[np.float64], target: NDArray[np.float64], fit: NDArray[np.float64]) -> None:
    """Shaft power and efficiency to fit: capped, and split so that efficiency x power factor is the plate's."""
    kind = int(plate[PLATE_KIND])
    volt_amperes = plate[PLATE_VOLTAGE_V] * plate[PLATE_CURRENT_A]
    if kind == THREE_PHASE:
        volt_amperes *= np.sqrt(3.0)
    product = plate[PLATE_SHAFT_POWER_W] / volt_amperes
    fit[FIT_CAPPED] = 0.0
    shaft_w = plate[PLATE_SHAFT_POWER_W]
    assumed = plate[PLATE_EFFICIENCY] * plate[PLATE_POWER_FACTOR]
    if product > _BEST_PRODUCT[kind]:
        fit[FIT_CAPPED] = 1.0
        product = min(assumed, _BEST_PRODUCT[kind])
        shaft_w = volt_amperes * product
    product = max(product, _POOREST_PRODUCT)
    # The gap between assumption and plate is shared half and half in the logarithm; power factor stays below 0.98.
    efficiency = plate[PLATE_EFFICIENCY] * np.sqrt(product / assumed)
    efficiency = min(max(efficiency, product / 0.98), 0.95)
    target[0] = shaft_w
    target[1] = efficiency
    # A code letter speaks per horsepower: of a capped plate, per the horsepower that is there.
    target[2] = plate[PLATE_LOCKED_ROTOR_CURRENT_A]
    if not target[2] > 0.0:
        volts = plate[PLATE_VOLTAGE_V] * (np.sqrt(3.0) if kind == THREE_PHASE else 1.0)
        target[2] = plate[PLATE_LOCKED_ROTOR_VA_PER_W] * shaft_w / volts


@kernel("void(float64[::1], float64[::1], float64[::1], float64[::1], float64[::1])")
def _report(
    plate: NDArray[np.float64],
    target: NDArray[np.float64],
    log_parameter: NDArray[np.float64],
    motor: NDArray[np.float64],
    fit: NDArray[np.float64],
) -> None:
    three = plate[PLATE_KIND] == THREE_PHASE
    phase_v = plate[PLATE_VOLTAGE_V] / (np.sqrt(3.0) if three else 1.0)
    running_start_winding = plate[PLATE_KIND] == PERMANENT_SPLIT
    slip = np.exp(log_parameter[7])
    rated_nm = motor[MOTOR_RATED_TORQUE_NM]
    v2 = phase_v * phase_v
    y, _, _ = motor_at_speed(motor, 1.0 - slip, 1.0, running_start_winding)
    fit[FIT_SHAFT_POWER_W] = target[0]
    fit[FIT_FULL_LOAD_CURRENT_A] = abs(y) * phase_v
    fit[FIT_POWER_FACTOR] = y.real / abs(y)
    fit[FIT_EFFICIENCY] = target[0] / (motor[MOTOR_PHASES] * y.real * v2)
    fit[FIT_FULL_LOAD_SPEED_PU] = 1.0 - slip
    y, _, torque = motor_at_speed(motor, 0.0, 1.0, True)
    fit[FIT_LOCKED_ROTOR_CURRENT_A] = abs(y) * phase_v
    fit[FIT_LOCKED_ROTOR_TORQUE_RATIO] = torque * v2 / rated_nm
    torque = _breakdown_torque_per_v2(motor, slip, running_start_winding)
    fit[FIT_BREAKDOWN_TORQUE_RATIO] = torque * v2 / rated_nm
    miss = abs(fit[FIT_FULL_LOAD_CURRENT_A] / plate[PLATE_CURRENT_A] - 1.0)
    miss = max(miss, abs(fit[FIT_LOCKED_ROTOR_CURRENT_A] / target[2] - 1.0))
    # Breakdown torque is left out: it follows from the currents, and its input is only a leaning.
    fit[FIT_WORST_MISS] = max(
        miss, abs(fit[FIT_LOCKED_ROTOR_TORQUE_RATIO] / plate[PLATE_LOCKED_ROTOR_TORQUE_RATIO] - 1.0)
    )


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, ::1])")
def fit_motor(plate: NDArray[np.float64], motor: NDArray[np.float64], fit: NDArray[np.float64]) -> None:
    """Equivalent circuits of motors from their plates, one row each, by Levenberg-Marquardt.

    Parameters
    ----------
    plate : (n, PLATE_COLUMNS) W, V, A, Hz, ratios; all > 0, but one of the two locked-rotor columns may be 0
    motor : (n, MOTOR_COLUMNS) out, columns of motor_circuit.py
    fit : (n, FIT_COLUMNS) out, what the circuit does; FIT_CAPPED and FIT_WORST_MISS say how far to trust it

    Errors: none; a plate that no circuit meets shows in FIT_WORST_MISS. NaN in, NaN out.
    Source: least squares on the circuit of motor_circuit.py; weights and priors are assumptions, stated in the code.
    """
    log_parameter = np.empty(_PARAMETERS)
    trial = np.empty(_PARAMETERS)
    prior = np.empty(_PARAMETERS + 1)
    target = np.empty(3)
    residual = np.empty(_RESIDUALS)
    moved = np.empty(_RESIDUALS)
    jacobian = np.empty((_RESIDUALS, _PARAMETERS))
    normal = np.empty((_PARAMETERS, _PARAMETERS))
    step = np.empty(_PARAMETERS)
    for row in range(plate.shape[0]):
        p = plate[row]
        kind = p[PLATE_KIND]
        phase_v = p[PLATE_VOLTAGE_V]
        if kind == THREE_PHASE:
            phase_v = phase_v / np.sqrt(3.0)
        _square_with_plate(p, target, fit[row])
        base = phase_v / p[PLATE_CURRENT_A]
        locked = phase_v / target[2]
        # Of a capacitor-start motor's locked-rotor current about four fifths is the main winding's.
        main = locked if kind == THREE_PHASE else 1.2 * locked
        prior[0] = np.log(0.35 * main)
        prior[1] = np.log(0.35 * main)
        prior[2] = np.log(0.42 * main)
        prior[3] = np.log(1.6 * base)
        prior[4] = np.log(0.6) if kind == THREE_PHASE else np.log(1.3)
        if kind == SPLIT_PHASE:
            prior[4] = np.log(0.9)
        prior[8] = np.log(1.0) if kind == PERMANENT_SPLIT else np.log(1.8)
        if kind == SPLIT_PHASE:
            prior[8] = np.log(4.0)
        prior[5] = 2.0 * prior[4] + prior[0] + prior[8]
        prior[6] = np.log(2.0 * base) if kind == PERMANENT_SPLIT else np.log(1.6 * main)
        prior[7] = np.log(0.045)
        log_parameter[:] = prior[:_PARAMETERS]
        m = motor[row]
        _residuals(log_parameter, prior, p, target, m, residual)
        cost = np.sum(residual * residual)
        damping = 1e-2
        for _ in range(80):
            for j in range(_PARAMETERS):
                trial[:] = log_parameter
                trial[j] += 1e-5
                _residuals(trial, prior, p, target, m, moved)
                for i in range(_RESIDUALS):
                    jacobian[i, j] = (moved[i] - residual[i]) / 1e-5
            improved = False
            gain = 0.0
            for _ in range(12):
                for i in range(_PARAMETERS):
                    for j in range(_PARAMETERS):
                        total = 0.0
                        for k in range(_RESIDUALS):
                            total += jacobian[k, i] * jacobian[k, j]
                        normal[i, j] = total
                    total = 0.0
                    for k in range(_RESIDUALS):
                        total -= jacobian[k, i] * residual[k]
                    step[i] = total
                    normal[i, i] *= 1.0 + damping
                if not _solve_symmetric(normal, step):
                    damping *= 10.0
                    continue
                for i in range(_PARAMETERS):
                    trial[i] = log_parameter[i] + min(max(step[i], -0.5), 0.5)
                _residuals(trial, prior, p, target, m, moved)
                new_cost = np.sum(moved * moved)
                if new_cost < cost:
                    gain = (cost - new_cost) / cost
                    cost = new_cost
                    log_parameter[:] = trial
                    residual[:] = moved
                    damping = max(damping * 0.2, 1e-9)
                    improved = True
                    break
                damping *= 5.0
            if not improved or gain < 1e-7:
                break
        _residuals(log_parameter, prior, p, target, m, residual)
        _report(p, target, log_parameter, m, fit[row])
