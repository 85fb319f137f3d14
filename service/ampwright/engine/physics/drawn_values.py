"""Which value of a band belongs to a random number, and which value has a share of many below it?

Not here: where the random numbers come from (counter_random.py), what a day makes of the values (day_energy.py).
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]

FREE = 0
"""Kind of a figure above zero that grows by factors: log-normal on either side of the typical value."""
SHARE = 1
"""Kind of a figure between 0 and 1: normal on either side of the typical value, cut at both ends."""
SIGNED = 2
"""Kind of a figure that may be zero: normal on either side of the typical value, cut at zero."""

OUTER_Z = 1.2815515655446004
"""[-] 90 % point of the standard normal distribution: low and high of a band are its 10th and 90th percentile."""


@kernel("float64(float64, float64, float64, float64, int64)")
def drawn_value(z: float, low: float, typical: float, high: float, kind: int) -> float:
    """Which value of a band belongs to this standard normal number?

    Parameters
    ----------
    z : [-], standard normal
    low : [unit of the figure], 10th percentile
    typical : [unit of the figure], median
    high : [unit of the figure], 90th percentile
    kind : FREE, SHARE or SIGNED

    Returns
    -------
    value : [unit of the figure]; never falls as z grows

    Errors: none. NaN in, NaN out; a FREE band needs low > 0.
    Source: two halves of a normal distribution (of the logarithm for FREE) that meet at the median; an assumption.
    """
    if low == high:
        return typical
    side = z / OUTER_Z
    if kind == FREE:
        ratio = high / typical if side > 0.0 else typical / low
        return float(typical * math.exp(side * math.log(ratio)))
    value = typical + side * (high - typical if side > 0.0 else typical - low)
    if value < 0.0:
        return 0.0
    return 1.0 if kind == SHARE and value > 1.0 else value


@kernel("float64(float64[::1], float64)")
def sorted_quantile(values: FloatArray, probability: float) -> float:
    """Which value has this share of the sorted values at or below it?

    Parameters
    ----------
    values : (n,) [any unit], ascending, n >= 1; inf is allowed at the end
    probability : [-], 0 to 1

    Returns
    -------
    value : [unit of values], on the straight line between two neighbours; inf where either of them is

    Errors: none.
    Source: Hyndman and Fan (1996), definition 7.
    """
    place = probability * (values.shape[0] - 1)
    lower = math.floor(place)
    if lower >= values.shape[0] - 1:
        return float(values[-1])
    share = place - lower
    if share == 0.0 or values[lower] == values[lower + 1]:
        return float(values[lower])
    if values[lower + 1] == math.inf:
        return math.inf
    return float(values[lower] + share * (values[lower + 1] - values[lower]))
