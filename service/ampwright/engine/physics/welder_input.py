"""What does an arc welder draw for a given weld, and which is the highest weld this outlet carries?

Order of trust: measured points; the plate's highest and effective supply current; last the conventional load voltage
over efficiency, as a band. For TIG the conventional line runs well below field readings, so its band reaches from the
TIG line over 0.85 to the stick line over 0.75; stick and wire take their own line over the same two efficiencies.
Duty is minutes in ten at 40 C. It says how long the welder lasts, not how long an electronic limit of a source does.
Sources: IEC 60974-1 (conventional load voltages, duty, effective current); NEC 630.11 for the effective current;
efficiencies and power factors common practice, no source.
Not here: the welder's inrush (rectifier_inrush.py), code sizing of its circuit.
"""

from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

STICK = 0
TIG = 1
WIRE = 2

# Supply power factor: with a corrected input stage, and without. Common practice, no source.
WELDER_POWER_FACTOR = MappingProxyType({"corrected": (0.97, 0.99, 1.0), "uncorrected": (0.60, 0.68, 0.75)})

_BEST_EFFICIENCY = 0.85
_POOREST_EFFICIENCY = 0.75


@kernel("float64(int64, float64)")
def welder_load_voltage_v(process: int, output_a: float) -> float:
    """Conventional load voltage.

    Parameters
    ----------
    process : STICK, TIG or WIRE
    output_a : [A] welding current, >= 0

    Returns
    -------
    voltage_v : [V] 20 + 0.04 I up to 44 (stick), 10 + 0.04 I up to 34 (TIG), 14 + 0.05 I up to 44 (wire)

    Errors: none; NaN in, NaN out.
    Source: IEC 60974-1, conventional load voltage; the 44 V cap from memory.
    """
    if process == TIG:
        return min(10.0 + 0.04 * output_a, 34.0)
    if process == WIRE:
        return min(14.0 + 0.05 * output_a, 44.0)
    return min(20.0 + 0.04 * output_a, 44.0)


@kernel("Tuple((float64, float64))(int64, float64)")
def welder_input_band_w(process: int, output_a: float) -> tuple[float, float]:
    """Supply power of a weld, lowest and highest, where nothing was measured.

    Parameters
    ----------
    process : STICK, TIG or WIRE
    output_a : [A] welding current, >= 0

    Returns
    -------
    low_w : [W] own line over efficiency 0.85
    high_w : [W] own line (TIG: the stick line) over efficiency 0.75

    Errors: none; NaN in, NaN out.
    Source: IEC 60974-1 lines; efficiencies common practice, no source.
    """
    low = welder_load_voltage_v(process, output_a) * output_a / _BEST_EFFICIENCY
    upper = STICK if process == TIG else process
    return low, welder_load_voltage_v(upper, output_a) * output_a / _POOREST_EFFICIENCY


@kernel("float64(float64[::1], float64[::1], float64)")
def welder_measured_w(
    measured_output_a: NDArray[np.float64], measured_input_w: NDArray[np.float64], output_a: float
) -> float:
    """Supply power of a weld between measured points.

    Parameters
    ----------
    measured_output_a : (n,) [A] ascending, > 0, n >= 1
    measured_input_w : (n,) [W]
    output_a : [A]

    Returns
    -------
    input_w : [W] linear between points; beyond them the nearest point scaled by the stick line's power, which an arc
        follows better than a straight line

    Errors: none; NaN in, NaN out.
    Source: interpolation; outside the points IEC 60974-1 stick line.
    """
    last = measured_output_a.size - 1
    nearest = -1
    if output_a <= measured_output_a[0]:
        nearest = 0
    elif output_a >= measured_output_a[last]:
        nearest = last
    if nearest >= 0:
        at = measured_output_a[nearest]
        line = welder_load_voltage_v(STICK, output_a) * output_a
        return float(measured_input_w[nearest] * line / (welder_load_voltage_v(STICK, at) * at))
    index = 0
    while measured_output_a[index + 1] < output_a:
        index += 1
    span = measured_output_a[index + 1] - measured_output_a[index]
    share = (output_a - measured_output_a[index]) / span
    return float(measured_input_w[index] + share * (measured_input_w[index + 1] - measured_input_w[index]))


@kernel("float64(float64, float64, float64)")
def welder_effective_current_a(highest_a: float, no_load_a: float, duty: float) -> float:
    """Effective supply current over a duty cycle.

    Parameters
    ----------
    highest_a : [A] supply current while welding (I1max)
    no_load_a : [A] supply current while idle (I0)
    duty : [-] share of ten minutes

    Returns
    -------
    effective_a : [A] I1eff = sqrt(I1^2 X + I0^2 (1 - X))

    Errors: none; NaN in, NaN out.
    Source: IEC 60974-1; NEC 630.12 note; reduces to NEC table 630.11(A), which is sqrt(duty).
    """
    effective: float = np.sqrt(highest_a * highest_a * duty + no_load_a * no_load_a * (1.0 - duty))
    return effective


@kernel("float64(int64, float64, boolean)")
def welder_highest_output_a(process: int, input_w: float, cautious: bool) -> float:
    """Highest welding current for a given supply power, where nothing was measured.

    Parameters
    ----------
    process : STICK, TIG or WIRE
    input_w : [W] >= 0
    cautious : True: against the high edge of the band, False: against the low edge

    Returns
    -------
    output_a : [A]

    Errors: none; NaN in, NaN out.
    Source: inverse of welder_input_band_w, in closed form.
    """
    line = STICK if (cautious and process == TIG) else process
    arc_w = input_w * (_POOREST_EFFICIENCY if cautious else _BEST_EFFICIENCY)
    foot = 20.0
    rise = 0.04
    cap = 44.0
    if line == TIG:
        foot = 10.0
        cap = 34.0
    elif line == WIRE:
        foot = 14.0
        rise = 0.05
    output: float = (np.sqrt(foot * foot + 4.0 * rise * arc_w) - foot) / (2.0 * rise)
    if foot + rise * output > cap:
        output = arc_w / cap
    return output


@kernel("float64(float64[::1], float64[::1], float64)")
def welder_highest_measured_output_a(
    measured_output_a: NDArray[np.float64], measured_input_w: NDArray[np.float64], input_w: float
) -> float:
    """Highest welding current for a given supply power, from measured points.

    Parameters
    ----------
    measured_output_a : (n,) [A] ascending, > 0
    measured_input_w : (n,) [W] ascending
    input_w : [W] >= 0

    Returns
    -------
    output_a : [A] inverse of welder_measured_w

    Errors: none; NaN in, NaN out.
    Source: bisection on welder_measured_w.
    """
    low = 0.0
    high = measured_output_a[measured_output_a.size - 1]
    while welder_measured_w(measured_output_a, measured_input_w, high) < input_w:
        high *= 2.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if welder_measured_w(measured_output_a, measured_input_w, middle) < input_w:
            low = middle
        else:
            high = middle
    return float(0.5 * (low + high))


@kernel("float64(float64, float64, float64)")
def welder_duty(rated_output_a: float, rated_duty: float, output_a: float) -> float:
    """Share of ten minutes for which a welder bears an output, from its rating at another.

    Parameters
    ----------
    rated_output_a : [A]
    rated_duty : [-] at that output
    output_a : [A] > 0

    Returns
    -------
    duty : [-] at most 1

    Errors: none; NaN in, NaN out.
    Source: heat with the square of the current, common practice, no source.
    """
    ratio = rated_output_a / output_a
    return min(1.0, rated_duty * ratio * ratio)
