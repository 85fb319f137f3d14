"""How many volts does a cord run cost, cold or hot, on two wires, on split phase with a neutral, on three phases?

Two forms, both kept because each has its use:

* the figure of the installation standards, I (R cos + X sin), which leaves out the turn of the phasor; it needs no
  source voltage (NFPA 70 ch. 9 table 9 note 2; IEC 60364-5-52 annex G);
* the exact one, magnitude of the source's voltage less magnitude at the load, for a load that draws a given current at
  its own power factor, closed on two wires.

Loads whose current follows the voltage, and more than one load along a run, belong to the network solution. Copper is
cold at a start and warm in steady use: the temperature is always an argument, there is no "75 C for all".
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.cord_heating import copper_resistance_ratio

FloatArray = npt.NDArray[np.float64]


@kernel("float64(float64, float64, float64)")
def copper_resistance_ohm_per_m(
    table_resistance_ohm_per_m: float, table_temperature_c: float, temperature_c: float
) -> float:
    """What does a tabled copper resistance become at another temperature?

    Parameters
    ----------
    table_resistance_ohm_per_m : [ohm/m], > 0, one conductor
    table_temperature_c : [C], of the table: 75 for NFPA 70 ch. 9 table 8, 20 for IEC 60228
    temperature_c : [C], of the copper

    Returns
    -------
    resistance_ohm_per_m : [ohm/m]

    Errors: none. NaN in, NaN out.
    Source: NFPA 70 (2023) ch. 9 table 8 note 2, which is alpha20 = 0.00393/K of IEC 60028 moved to 75 C.
    """
    return (
        table_resistance_ohm_per_m
        * copper_resistance_ratio(temperature_c)
        / copper_resistance_ratio(table_temperature_c)
    )


@kernel("float64(float64, float64, float64, float64)")
def conductor_drop_v(current_a: float, power_factor: float, resistance_ohm: float, reactance_ohm: float) -> float:
    """How many volts does one conductor cost, by the installation standards' formula?

    Parameters
    ----------
    current_a : [A], RMS, >= 0
    power_factor : [-], 0 to 1, lagging
    resistance_ohm : [ohm], one conductor, contacts included
    reactance_ohm : [ohm], one conductor

    Returns
    -------
    drop_v : [V], line to neutral. Times 2 on two wires, times sqrt 3 between the lines of three balanced phases.

    Errors: none. NaN in, NaN out. Up to about 5 % of the voltage it errs by less than 0.1 % of the voltage.
    Source: NFPA 70 (2023) ch. 9 table 9 note 2; IEC 60364-5-52 (2009) annex G (b = 2 and 1).
    """
    reactive_factor = math.sqrt(max(0.0, 1.0 - power_factor * power_factor))
    return current_a * (resistance_ohm * power_factor + reactance_ohm * reactive_factor)


@kernel("float64(float64, float64, float64, float64)")
def two_wire_drop_v(current_a: float, power_factor: float, resistance_ohm: float, reactance_ohm: float) -> float:
    """How many volts does a two-wire run cost, out and back, by the standards' formula?

    Parameters
    ----------
    current_a : [A], RMS, >= 0
    power_factor : [-], 0 to 1, lagging; 1 for direct current
    resistance_ohm : [ohm], one conductor, contacts included
    reactance_ohm : [ohm], one conductor; 0 for direct current

    Returns
    -------
    drop_v : [V]

    Errors: none. NaN in, NaN out.
    Source: NFPA 70 (2023) ch. 9 table 9 note 2; IEC 60364-5-52 (2009) annex G, b = 2.
    """
    return 2.0 * conductor_drop_v(current_a, power_factor, resistance_ohm, reactance_ohm)


@kernel("float64(float64, float64, float64, float64)")
def three_phase_drop_v(current_a: float, power_factor: float, resistance_ohm: float, reactance_ohm: float) -> float:
    """How many volts does a balanced three-phase run cost between lines, by the standards' formula?

    Parameters
    ----------
    current_a : [A], RMS line current, >= 0
    power_factor : [-], 0 to 1, lagging
    resistance_ohm : [ohm], one conductor, contacts included
    reactance_ohm : [ohm], one conductor

    Returns
    -------
    drop_v : [V], line to line

    Errors: none. NaN in, NaN out. Unbalanced phases belong to the network solution.
    Source: IEC 60364-5-52 (2009) annex G, b = 1 line to neutral, times sqrt 3.
    """
    return math.sqrt(3.0) * conductor_drop_v(current_a, power_factor, resistance_ohm, reactance_ohm)


@kernel("float64(float64, float64, float64, float64, float64)")
def load_voltage_v(
    source_v: float, current_a: float, power_factor: float, loop_resistance_ohm: float, loop_reactance_ohm: float
) -> float:
    """Which voltage is left at a load of this current and power factor?

    Parameters
    ----------
    source_v : [V], RMS, > 0. Line to neutral with one conductor's impedance for balanced three-phase.
    current_a : [A], RMS, >= 0
    power_factor : [-], 0 to 1, lagging, of the load at its own terminals
    loop_resistance_ohm : [ohm], out and back, contacts included
    loop_reactance_ohm : [ohm], out and back

    Returns
    -------
    voltage_v : [V]; 0 where the source cannot push this current through the run (`current_can_flow` is false)

    Errors: none. NaN in, NaN out.
    Source: source triangle, (V + I(R cos + X sin))^2 + (I(X cos - R sin))^2 = E^2, solved for V.
    """
    reactive_factor = math.sqrt(max(0.0, 1.0 - power_factor * power_factor))
    along_v = current_a * (loop_resistance_ohm * power_factor + loop_reactance_ohm * reactive_factor)
    across_v = current_a * (loop_reactance_ohm * power_factor - loop_resistance_ohm * reactive_factor)
    square = source_v * source_v - across_v * across_v
    if square < along_v * along_v:
        return 0.0
    return math.sqrt(square) - along_v


@kernel("boolean(float64, float64, float64, float64)")
def current_can_flow(source_v: float, current_a: float, loop_resistance_ohm: float, loop_reactance_ohm: float) -> bool:
    """Can the source push this current through the run and still leave voltage for the load?

    Parameters
    ----------
    source_v : [V], RMS, > 0
    current_a : [A], RMS, >= 0
    loop_resistance_ohm : [ohm], out and back, contacts included
    loop_reactance_ohm : [ohm], out and back

    Returns
    -------
    flows : true where I |Z| < E; false says short-circuit current, not a figure of the load

    Errors: none. NaN gives false.
    Source: Ohm's law at the far end shorted.
    """
    return current_a * math.hypot(loop_resistance_ohm, loop_reactance_ohm) < source_v


@kernel("void(float64, float64, float64, float64, float64, float64, complex128, complex128, complex128, float64[::1])")
def split_phase_voltages_v(
    leg_v: float,
    leg_angle_rad: float,
    current_a_a: float,
    power_factor_a: float,
    current_b_a: float,
    power_factor_b: float,
    line_ohm: complex,
    neutral_ohm: complex,
    leg_b_ohm: complex,
    out: FloatArray,
) -> None:
    """Which voltages are left on the two legs of a run that share a neutral, and what does the neutral carry?

    Parameters
    ----------
    leg_v : [V], RMS, > 0, source voltage of each leg to neutral
    leg_angle_rad : [rad], leg B behind leg A: pi opposite, 2 pi/3 on two legs of three phases, 0 in phase
    current_a_a : [A], RMS, >= 0, of the load on leg A
    power_factor_a : [-], 0 to 1, lagging, at its own terminals
    current_b_a : [A], RMS, >= 0, of the load on leg B
    power_factor_b : [-], 0 to 1, lagging, at its own terminals
    line_ohm : [ohm], complex, conductor of leg A
    neutral_ohm : [ohm], complex, neutral conductor
    leg_b_ohm : [ohm], complex, conductor of leg B
    out : (4,) written: [0] voltage at load A [V], [1] at load B [V], [2] neutral current [A],
        [3] 1.0 solved, 0.0 not (the currents ask for more than the run passes; figures then mean nothing)

    Returns
    -------
    Nothing.

    Errors: none.
    Source: Kirchhoff's laws; NFPA 70 (2023) 210.4 for multiwire circuits. Power factor turns with the load's own
    voltage, so the two angles are iterated (contraction by I Z / V a step, 100 steps at most).
    """
    shift_a = math.acos(min(1.0, max(0.0, power_factor_a)))
    shift_b = math.acos(min(1.0, max(0.0, power_factor_b)))
    source_a = complex(leg_v, 0.0)
    source_b = complex(leg_v * math.cos(leg_angle_rad), -leg_v * math.sin(leg_angle_rad))
    load_a = source_a
    load_b = source_b
    neutral_a = complex(0.0, 0.0)
    out[3] = 0.0
    for _ in range(100):
        turn_a = math.atan2(load_a.imag, load_a.real) - shift_a
        turn_b = math.atan2(load_b.imag, load_b.real) - shift_b
        phasor_a = complex(current_a_a * math.cos(turn_a), current_a_a * math.sin(turn_a))
        phasor_b = complex(current_b_a * math.cos(turn_b), current_b_a * math.sin(turn_b))
        neutral_a = phasor_a + phasor_b
        next_a = source_a - line_ohm * phasor_a - neutral_ohm * neutral_a
        next_b = source_b - leg_b_ohm * phasor_b - neutral_ohm * neutral_a
        moved_v = max(abs(next_a - load_a), abs(next_b - load_b))
        load_a = next_a
        load_b = next_b
        if moved_v <= 1e-12 * leg_v:
            # A voltage turned by more than a right angle is a load that feeds the source: no working point.
            in_line_a = (load_a * source_a.conjugate()).real
            in_line_b = (load_b * source_b.conjugate()).real
            if in_line_a > 0.0 and in_line_b > 0.0:
                out[3] = 1.0
            break
    out[0] = abs(load_a)
    out[1] = abs(load_b)
    out[2] = abs(neutral_a)


@kernel("void(float64, complex128, complex128, float64[::1])")
def open_neutral_voltages_v(line_to_line_v: float, load_a_ohm: complex, load_b_ohm: complex, out: FloatArray) -> None:
    """Which voltages stand at the loads of two opposite legs once their common neutral is lost?

    Parameters
    ----------
    line_to_line_v : [V], RMS, > 0, between the legs
    load_a_ohm : [ohm], complex, all loads of leg A with its conductor, as impedances
    load_b_ohm : [ohm], complex, all loads of leg B with its conductor, as impedances
    out : (2,) [V], written: at load A, at load B

    Returns
    -------
    Nothing. The lighter load (larger impedance) is the one that is overvolted.

    Errors: none. Two impedances that sum to 0 (resonance) give inf.
    Source: voltage divider. Impedances are those of the running state: electronics will differ, and not for better.
    """
    current_a = line_to_line_v / abs(load_a_ohm + load_b_ohm)
    out[0] = current_a * abs(load_a_ohm)
    out[1] = current_a * abs(load_b_ohm)


@kernel("float64(float64, float64, float64)")
def run_loss_w(current_a: float, resistance_ohm: float, conductors: float) -> float:
    """How much power does a run turn into heat?

    Parameters
    ----------
    current_a : [A], RMS, in each loaded conductor
    resistance_ohm : [ohm], one conductor, contacts included
    conductors : [-], count of conductors that carry `current_a`

    Returns
    -------
    loss_w : [W]

    Errors: none. NaN in, NaN out.
    Source: Joule's law.
    """
    return conductors * current_a * current_a * resistance_ohm


@kernel("float64(float64, float64, float64, float64, float64)")
def longest_run_m(
    allowed_drop_v: float,
    current_a: float,
    power_factor: float,
    resistance_ohm_per_m: float,
    reactance_ohm_per_m: float,
) -> float:
    """How far may a two-wire run go before it costs this many volts, by the standards' formula?

    Parameters
    ----------
    allowed_drop_v : [V], >= 0
    current_a : [A], RMS, >= 0
    power_factor : [-], 0 to 1, lagging
    resistance_ohm_per_m : [ohm/m], one conductor
    reactance_ohm_per_m : [ohm/m], one conductor

    Returns
    -------
    length_m : [m], one way; inf for no current

    Errors: none. inf is an outcome ("any length"): name it before it leaves the engine.
    Source: NFPA 70 (2023) ch. 9 table 9 note 2, solved for the length.
    """
    per_metre_v = two_wire_drop_v(current_a, power_factor, resistance_ohm_per_m, reactance_ohm_per_m)
    if per_metre_v == 0.0:
        return math.inf
    return allowed_drop_v / per_metre_v
