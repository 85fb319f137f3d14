"""How do an engine set's voltage and frequency answer to a load that is switched on?

One-axis (transient) model of the alternator: a flux behind the transient reactance, which the field pulls up or the
load's lagging current pulls down; engine and governor with droop. The technology decides who feeds the field: a voltage
regulator with a ceiling, or, in capacitor-regulated sets, the alternator's own voltage and, up to somewhat above rated,
the load's current (compounding): that holds rated load, but not a large lagging one, on which such a set collapses.
An engine has a greatest torque, not a greatest power: what it gives falls with its speed. Overloaded, it bogs down.
Then either the regulator's volts-per-hertz rule takes off so much load that it hangs low, or it falls below the speed
at which it still fires, and dies.
Inverter sets are not here: they limit (source_limit_state.py).
Sources: P. Kundur, Power System Stability and Control, sections 3.6, 5 and 8, one-axis model, from memory;
MIL-DTL-53133 dip and recovery as a check. Stalling of an overloaded set, from mechanical power that falls with speed:
A. A. Renjit, M. S. Illindala, A. Mondal, CERTS Microgrid: Modeling, Analysis and Control of Distributed Energy
Resources, Phase I, 2015 (abstract read). Torque over speed, flat with its highest below rated speed: J. B. Heywood,
Internal Combustion Engine Fundamentals, chapter 15, from memory. Self-excitation law and the assumed values: common
practice, no source.
Not here: a motor's run-up on such a set (generator_start.py); relays that open at low frequency, which precise sets
have (55 Hz of 60: TM 9-6115-464-12) and portable ones do not.
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

AVR = 0  # automatic voltage regulator
CAPACITOR_REGULATED = 1

GENERATOR_TECHNOLOGY = 0
GENERATOR_RATED_VA = 1  # per phase
GENERATOR_VOLTAGE_V = 2  # per phase
GENERATOR_TRANSIENT_REACTANCE_PU = 3
GENERATOR_SYNCHRONOUS_REACTANCE_PU = 4
GENERATOR_RESISTANCE_PU = 5
GENERATOR_FIELD_TIME_S = 6  # open-circuit time constant of the field
GENERATOR_EXCITER_TIME_S = 7
GENERATOR_REGULATOR_GAIN = 8
GENERATOR_CEILING = 9  # highest field over no-load field, at full voltage
GENERATOR_SELF_EXCITATION_KNEE_PU = 10
GENERATOR_INERTIA_S = 11  # stored energy over rated VA
GENERATOR_DROOP = 12  # from no load to rated VA at unity power factor
GENERATOR_GOVERNOR_TIME_S = 13
GENERATOR_ENGINE_PU = 14  # most power the engine gives at rated speed, over rated VA
GENERATOR_NO_LOAD_FREQUENCY_PU = 15
GENERATOR_COMPOUNDING = 16  # field a capacitor-regulated set gains per unit of load current
GENERATOR_TORQUE_RISE = 17  # highest torque of the engine over that at rated speed, less 1
GENERATOR_TORQUE_PEAK_PU = 18  # speed at which it has it
GENERATOR_DIES_PU = 19  # speed below which a loaded engine no longer fires
GENERATOR_COLUMNS = 20

# Low, typical, high where a plate is silent. Transient reactance: 0.15-0.25 pu; the rest common practice, no source.
GENERATOR_ASSUMPTIONS = MappingProxyType(
    {
        "transient_reactance_pu": (0.15, 0.20, 0.25),
        "synchronous_reactance_pu": (1.0, 1.4, 2.0),
        "resistance_pu": (0.02, 0.04, 0.06),
        "field_time_s": (0.3, 0.6, 1.2),
        "exciter_time_s": (0.03, 0.06, 0.15),
        "regulator_gain": (15.0, 30.0, 60.0),
        "ceiling": (2.5, 3.5, 5.0),
        "self_excitation_knee_pu": (0.2, 0.3, 0.45),
        "compounding": (0.85, 1.0, 1.1),
        "inertia_s": (0.2, 0.4, 0.8),
        "droop": (0.03, 0.05, 0.08),
        "governor_time_s": (0.1, 0.2, 0.4),
        "engine_pu": (0.95, 1.05, 1.2),
        "no_load_frequency_pu": (1.02, 1.03, 1.05),
        "torque_rise": (0.0, 0.05, 0.12),
        "torque_peak_pu": (0.6, 0.7, 0.8),
        "dies_pu": (0.35, 0.42, 0.5),
    }
)

# A regulator holds volts per hertz below this frequency: common practice, no source (1 to 4 Hz below rated).
VOLTS_PER_HERTZ_BELOW_PU = 0.95

# Load current over rated up to which it adds to the field of a capacitor-regulated set; beyond, its iron is full.
_COMPOUNDING_ENDS_PU = 1.2
# Volts per hertz from which on, and at which, its iron is full too: such a set's voltage does not rise with its load.
_IRON_FILLS_PU, _IRON_FULL_PU = 0.95, 1.0

# State of a set.
STATE_FLUX_PU = 0
STATE_FIELD_PU = 1
STATE_FREQUENCY_PU = 2
STATE_ENGINE_PU = 3  # torque
STATES = 4

# What flows, at one state.
FLOW_CURRENT_A = 0
FLOW_VOLTAGE_V = 1  # at the terminals
FLOW_POWER_PU = 2
FLOW_LAGGING_PU = 3  # part of the current that weakens the field
FLOWS = 4


@kernel("void(float64[::1], float64, float64, complex128, float64[::1])")
def generator_flow(
    generator: NDArray[np.float64], flux_pu: float, frequency_pu: float, load_ohm: complex, flow: NDArray[np.float64]
) -> None:
    """Current and voltage of a set at a given flux and frequency.

    Parameters
    ----------
    generator : (GENERATOR_COLUMNS,)
    flux_pu : [-] flux behind the transient reactance, 1 at no load
    frequency_pu : [-]
    load_ohm : [ohm] impedance at the terminals, at this frequency
    flow : (FLOWS,) out [A, V, -, -]

    Errors: none.
    Source: one-axis model, Kundur section 5.
    """
    base = generator[GENERATOR_VOLTAGE_V] * generator[GENERATOR_VOLTAGE_V] / generator[GENERATOR_RATED_VA]
    inner = complex(
        generator[GENERATOR_RESISTANCE_PU] * base, generator[GENERATOR_TRANSIENT_REACTANCE_PU] * base * frequency_pu
    )
    emf = flux_pu * frequency_pu * generator[GENERATOR_VOLTAGE_V]
    current = emf / (inner + load_ohm)
    base_a = generator[GENERATOR_RATED_VA] / generator[GENERATOR_VOLTAGE_V]
    flow[FLOW_CURRENT_A] = abs(current)
    flow[FLOW_VOLTAGE_V] = abs(current) * abs(load_ohm)
    flow[FLOW_POWER_PU] = emf * current.real / generator[GENERATOR_RATED_VA]
    flow[FLOW_LAGGING_PU] = -current.imag / base_a


@kernel("float64(float64[::1], float64, float64, float64)")
def _self_excited_field(
    generator: NDArray[np.float64], voltage_pu: float, frequency_pu: float, current_a: float
) -> float:
    knee = generator[GENERATOR_SELF_EXCITATION_KNEE_PU]
    base_a = generator[GENERATOR_RATED_VA] / generator[GENERATOR_VOLTAGE_V]
    current_pu = min(current_a / base_a, _COMPOUNDING_ENDS_PU)
    own = voltage_pu * (1.0 + knee) / (voltage_pu + knee)
    room = (_IRON_FULL_PU - voltage_pu / max(frequency_pu, 0.1)) / (_IRON_FULL_PU - _IRON_FILLS_PU)
    return float(own * (1.0 + generator[GENERATOR_COMPOUNDING] * current_pu * min(max(room, 0.0), 1.0)))


@kernel("void(float64[::1], complex128, float64[::1])")
def generator_at_rest(generator: NDArray[np.float64], load_ohm: complex, state: NDArray[np.float64]) -> None:
    """State of a set that has carried a load for long.

    Parameters
    ----------
    generator : (GENERATOR_COLUMNS,)
    load_ohm : [ohm] at the terminals
    state : (STATES,) out

    Errors: none.
    Source: the equations of generator_slopes with all slopes nought, by iteration. A regulator is taken as set for
    this load, so that its voltage is the rated one.
    """
    flow = np.empty(FLOWS)
    flux = 1.0
    frequency = generator[GENERATOR_NO_LOAD_FREQUENCY_PU]
    for _ in range(60):
        generator_flow(generator, flux, frequency, load_ohm, flow)
        power = flow[FLOW_POWER_PU]
        frequency = generator[GENERATOR_NO_LOAD_FREQUENCY_PU] - generator[GENERATOR_DROOP] * power
        armature = generator[GENERATOR_SYNCHRONOUS_REACTANCE_PU] - generator[GENERATOR_TRANSIENT_REACTANCE_PU]
        voltage = flow[FLOW_VOLTAGE_V] / generator[GENERATOR_VOLTAGE_V]
        if generator[GENERATOR_TECHNOLOGY] == AVR:
            flux *= 1.0 / voltage
            field = flux + armature * flow[FLOW_LAGGING_PU]
        else:
            field = _self_excited_field(generator, voltage, frequency, flow[FLOW_CURRENT_A])
            flux += 0.3 * (field - armature * flow[FLOW_LAGGING_PU] - flux)
    state[STATE_FLUX_PU] = flux
    state[STATE_FIELD_PU] = field
    state[STATE_FREQUENCY_PU] = frequency
    state[STATE_ENGINE_PU] = power / frequency


@kernel("float64(float64[::1], float64)")
def engine_torque_limit_pu(generator: NDArray[np.float64], speed_pu: float) -> float:
    """Highest torque that the engine gives at a speed.

    Parameters
    ----------
    generator : (GENERATOR_COLUMNS,)
    speed_pu : [-] over rated speed

    Returns
    -------
    torque_pu : [-] over that which gives rated VA at rated speed; 0 where it no longer fires

    Errors: none.
    Source: a parabola through the torque at rated speed with its top at the given speed (Heywood chapter 15, shape
    from memory; figures common practice, no source).
    """
    if speed_pu < generator[GENERATOR_DIES_PU]:
        return 0.0
    rise, peak = generator[GENERATOR_TORQUE_RISE], generator[GENERATOR_TORQUE_PEAK_PU]
    away = (speed_pu - peak) / (1.0 - peak)
    return float(generator[GENERATOR_ENGINE_PU] * max(1.0 + rise - rise * away * away, 0.0))


@kernel("void(float64[::1], float64[::1], float64, float64[::1], float64[::1])")
def generator_slopes(
    generator: NDArray[np.float64],
    state: NDArray[np.float64],
    field_at_rest: float,
    flow: NDArray[np.float64],
    slope: NDArray[np.float64],
) -> None:
    """Time derivatives of a set's state.

    Parameters
    ----------
    generator : (GENERATOR_COLUMNS,)
    state : (STATES,)
    field_at_rest : [-] field before the load came
    flow : (FLOWS,) at this state, from generator_flow
    slope : (STATES,) out [1/s]

    Errors: none.
    Source: one-axis model (Kundur sections 5, 8); droop governor up to the engine's torque; regulator that holds volts
    per hertz below 95 % frequency, and a ceiling that falls away below half voltage (field fed from an auxiliary
    winding): common practice, no source.
    """
    voltage = flow[FLOW_VOLTAGE_V] / generator[GENERATOR_VOLTAGE_V]
    frequency = state[STATE_FREQUENCY_PU]
    armature = generator[GENERATOR_SYNCHRONOUS_REACTANCE_PU] - generator[GENERATOR_TRANSIENT_REACTANCE_PU]
    if generator[GENERATOR_TECHNOLOGY] == AVR:
        wanted = min(1.0, frequency / VOLTS_PER_HERTZ_BELOW_PU)
        command = field_at_rest + generator[GENERATOR_REGULATOR_GAIN] * (wanted - voltage)
        command = min(max(command, 0.0), generator[GENERATOR_CEILING] * min(2.0 * voltage, 1.0))
        field = state[STATE_FIELD_PU]
        slope[STATE_FIELD_PU] = (command - field) / generator[GENERATOR_EXCITER_TIME_S]
    else:
        field = _self_excited_field(generator, voltage, frequency, flow[FLOW_CURRENT_A])
        slope[STATE_FIELD_PU] = 0.0
    slope[STATE_FLUX_PU] = (field - state[STATE_FLUX_PU] - armature * flow[FLOW_LAGGING_PU]) / generator[
        GENERATOR_FIELD_TIME_S
    ]
    turning = max(frequency, 0.1)
    slope[STATE_FREQUENCY_PU] = (state[STATE_ENGINE_PU] - flow[FLOW_POWER_PU] / turning) / (
        2.0 * generator[GENERATOR_INERTIA_S]
    )
    asked = (generator[GENERATOR_NO_LOAD_FREQUENCY_PU] - frequency) / generator[GENERATOR_DROOP]
    asked = min(max(asked, 0.0) / turning, engine_torque_limit_pu(generator, frequency))
    slope[STATE_ENGINE_PU] = (asked - state[STATE_ENGINE_PU]) / generator[GENERATOR_GOVERNOR_TIME_S]


@kernel("void(float64[::1], complex128, complex128, float64, float64[:, ::1])")
def generator_load_step(
    generator: NDArray[np.float64],
    before_ohm: complex,
    after_ohm: complex,
    step_s: float,
    series: NDArray[np.float64],
) -> None:
    """Voltage and frequency after a load is changed, by Runge-Kutta of order 4.

    Parameters
    ----------
    generator : (GENERATOR_COLUMNS,)
    before_ohm : [ohm] load for a long time before, at rated frequency
    after_ohm : [ohm] load from time 0 on, at rated frequency
    step_s : [s] between rows, at most 0.005
    series : (n, 3) out [V, A, -] terminal voltage, current, frequency; row k at k * step_s

    Errors: none.
    Source: as generator_slopes.
    """
    state = np.empty(STATES)
    trial = np.empty(STATES)
    slope = np.zeros((4, STATES))
    flow = np.empty(FLOWS)
    generator_at_rest(generator, before_ohm, state)
    field_at_rest = state[STATE_FIELD_PU]
    for row in range(series.shape[0]):
        for stage in range(4):
            ahead = step_s * (0.0 if stage == 0 else (1.0 if stage == 3 else 0.5))
            for k in range(STATES):
                trial[k] = state[k] + (ahead * slope[stage - 1, k] if stage > 0 else 0.0)
            frequency = trial[STATE_FREQUENCY_PU]
            load = complex(after_ohm.real, after_ohm.imag * frequency)
            generator_flow(generator, trial[STATE_FLUX_PU], frequency, load, flow)
            if stage == 0:
                series[row, 0] = flow[FLOW_VOLTAGE_V]
                series[row, 1] = flow[FLOW_CURRENT_A]
                series[row, 2] = frequency
            generator_slopes(generator, trial, field_at_rest, flow, slope[stage])
        for k in range(STATES):
            state[k] += step_s / 6.0 * (slope[0, k] + 2.0 * slope[1, k] + 2.0 * slope[2, k] + slope[3, k])
        state[STATE_FREQUENCY_PU] = max(state[STATE_FREQUENCY_PU], 0.05)
        state[STATE_FLUX_PU] = max(state[STATE_FLUX_PU], 0.0)
