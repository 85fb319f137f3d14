"""What does a source draw from its battery to give this much power, and what does it draw for nothing?

Input power is interpolated, starting from the no-load figure; efficiency is not. Efficiency goes to 0 as the load
does, so a straight line between two of its points is wrong by half at light load, where a vehicle left awake spends
most of its energy (`awake_w`: 100 to 500 W, common practice, no source).

The photovoltaic inverter models are here for inverters whose public test parameters are known; for vehicle and
portable inverters they are a proxy only, and a poor one at light load.

Not here: sources that fall asleep (source_sleep.py).
"""

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.table_lookup import table_value

FloatArray = npt.NDArray[np.float64]


@kernel("void(float64[::1], float64[::1], float64, float64[::1], float64[::1])")
def input_power_points_w(
    output_w: FloatArray, efficiency: FloatArray, no_load_w: float, points_w: FloatArray, inputs_w: FloatArray
) -> None:
    """Which table of input power follows from a table of efficiencies and the no-load figure?

    Parameters
    ----------
    output_w : (n,) [W], > 0, strictly ascending
    efficiency : (n,) [-], > 0, output over input
    no_load_w : [W], >= 0, input at no output
    points_w : (n + 1,) [W], written: output, starting with 0
    inputs_w : (n + 1,) [W], written: input, starting with the no-load figure

    Returns
    -------
    Nothing.

    Errors: none. An efficiency of 0 gives inf.
    Source: definition of efficiency.
    """
    points_w[0] = 0.0
    inputs_w[0] = no_load_w
    for i in range(output_w.shape[0]):
        points_w[i + 1] = output_w[i]
        inputs_w[i + 1] = output_w[i] / efficiency[i]


@kernel("float64(float64, float64[::1], float64[::1])")
def input_power_w(output_w: float, points_w: FloatArray, inputs_w: FloatArray) -> float:
    """What does the inverter draw to give this power?

    Parameters
    ----------
    output_w : [W], >= 0
    points_w : (n,) [W], output, strictly ascending from 0
    inputs_w : (n,) [W], input, ascending; the first is the no-load figure

    Returns
    -------
    input_w : [W]. Above the last point its efficiency is kept; ask `table_lookup.inside_table` and say so.

    Errors: none. NaN in, NaN out.
    Source: linear interpolation of input power.
    """
    if output_w > points_w[-1]:
        return float(inputs_w[-1] * (output_w / points_w[-1]))
    return table_value(output_w, points_w, inputs_w)


@kernel("float64(float64, float64[::1], float64[::1])")
def output_power_w(input_w: float, points_w: FloatArray, inputs_w: FloatArray) -> float:
    """How much power does the inverter give when it draws this much?

    Parameters
    ----------
    input_w : [W], >= 0
    points_w : (n,) [W], output, strictly ascending from 0
    inputs_w : (n,) [W], input, strictly ascending; the first is the no-load figure

    Returns
    -------
    output_w : [W]; 0 at or below the no-load figure. Above the last point its efficiency is kept.

    Errors: none. NaN in, NaN out.
    Source: inverse of `input_power_w`.
    """
    if input_w > inputs_w[-1]:
        return float(points_w[-1] * (input_w / inputs_w[-1]))
    return table_value(input_w, inputs_w, points_w)


@kernel("float64(float64, float64, float64, float64[::1], float64[::1])")
def battery_draw_w(
    output_w: float, awake_w: float, running: float, points_w: FloatArray, inputs_w: FloatArray
) -> float:
    """What does a whole source draw from its battery: its own needs and what its inverter takes?

    Parameters
    ----------
    output_w : [W], >= 0, at the receptacles
    awake_w : [W], >= 0, of the vehicle or station awake, without its inverter
    running : [-], 1 the inverter is on, 0 off (awake only; nothing is given)
    points_w : (n,) [W], output, strictly ascending from 0
    inputs_w : (n,) [W], input, ascending

    Returns
    -------
    draw_w : [W]

    Errors: none. NaN in, NaN out.
    Source: sum of the two.
    """
    return awake_w + running * input_power_w(output_w, points_w, inputs_w)


@kernel("float64(float64, float64, float64, float64, float64, float64, float64, float64, float64, float64, float64)")
def sandia_output_w(
    input_w: float,
    input_v: float,
    rated_output_w: float,
    rated_input_w: float,
    rated_input_v: float,
    self_consumption_w: float,
    c0_per_w: float,
    c1_per_v: float,
    c2_per_v: float,
    c3_per_v: float,
    night_w: float,
) -> float:
    """How much does an inverter of public test parameters give (Sandia inverter model)?

    Parameters
    ----------
    input_w : [W], direct-current power
    input_v : [V], direct voltage
    rated_output_w : [W], Paco
    rated_input_w : [W], Pdco
    rated_input_v : [V], Vdco
    self_consumption_w : [W], Pso
    c0_per_w : [1/W], C0
    c1_per_v : [1/V], C1
    c2_per_v : [1/V], C2
    c3_per_v : [1/V], C3
    night_w : [W], Pnt

    Returns
    -------
    output_w : [W]; at most the rated output, and -night_w below the self-consumption

    Errors: none. NaN in, NaN out.
    Source: King, Gonzalez, Galbraith, Boyson, Performance Model for Grid-Connected Photovoltaic Inverters,
    SAND2007-5036, equations 1 to 4. A proxy for vehicle and portable inverters.
    """
    off_v = input_v - rated_input_v
    full_w = rated_input_w * (1.0 + c1_per_v * off_v)
    start_w = self_consumption_w * (1.0 + c2_per_v * off_v)
    bend = c0_per_w * (1.0 + c3_per_v * off_v)
    span_w = full_w - start_w
    above_w = input_w - start_w
    output_w = (rated_output_w / span_w - bend * span_w) * above_w + bend * above_w * above_w
    if input_w < self_consumption_w:
        return -night_w
    return rated_output_w if output_w > rated_output_w else output_w


@kernel("float64(float64, float64, float64)")
def pvwatts_output_w(input_w: float, rated_input_w: float, nominal_efficiency: float) -> float:
    """How much does a typical grid inverter of this size give (PVWatts part-load curve)?

    Parameters
    ----------
    input_w : [W], >= 0, direct-current power
    rated_input_w : [W], > 0, direct-current rating
    nominal_efficiency : [-], > 0, at rating

    Returns
    -------
    output_w : [W], 0 to the rated output

    Errors: none. NaN in, NaN out.
    Source: Dobos, PVWatts Version 5 Manual, NREL/TP-6A20-62641 (2014), section 10. A proxy, as above.
    """
    if input_w == 0.0:
        return 0.0
    share = input_w / rated_input_w
    efficiency = nominal_efficiency / 0.9637 * (-0.0162 * share - 0.0059 / share + 0.9858)
    output_w = efficiency * input_w
    if output_w < 0.0:
        return 0.0
    return min(output_w, nominal_efficiency * rated_input_w)
