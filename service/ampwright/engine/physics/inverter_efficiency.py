"""What does a source draw from its battery to give this much power, and what does it draw for nothing?

Input power is interpolated, starting from the no-load figure; efficiency is not. Efficiency goes to 0 as the load
does, so a straight line between two of its points is wrong by half at light load, where a vehicle left awake spends
most of its energy (`awake_w`: 100 to 500 W, common practice, no source).

Not here: listed photovoltaic inverters, a proxy (standards/inverter_part_load.py), sources that fall asleep
(source_sleep.py).
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
