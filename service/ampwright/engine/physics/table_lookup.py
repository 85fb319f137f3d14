"""What does a table say between its points, and is the question inside it at all?

Straight lines between points, nothing beyond them: a figure outside a table is a different statement from one inside,
so `inside_table` goes with every answer that leans on `table_value`.
"""

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]


@kernel("boolean(float64, float64[::1])")
def inside_table(at: float, points: FloatArray) -> bool:
    """Is the question between the table's first and last point?

    Parameters
    ----------
    at : [unit of points], where the table is asked
    points : (n,) [unit of points], ascending, n >= 1

    Returns
    -------
    inside : true on the end points too; NaN gives false

    Errors: none.
    Source: definition.
    """
    return bool(points[0] <= at <= points[-1])


@kernel("float64(float64, float64[::1], float64[::1])")
def table_value(at: float, points: FloatArray, values: FloatArray) -> float:
    """What does the table say there, on the straight line between its points?

    Parameters
    ----------
    at : [unit of points], where the table is asked
    points : (n,) [unit of points], strictly ascending, n >= 1
    values : (n,) [unit of values]

    Returns
    -------
    value : [unit of values]. Beyond an end the end's value: ask `inside_table` first and say so.

    Errors: none. NaN in, NaN out.
    Source: linear interpolation.
    """
    if not at > points[0]:
        return float(values[0]) if at <= points[0] else at
    for i in range(1, points.shape[0]):
        if at <= points[i]:
            share = (at - points[i - 1]) / (points[i] - points[i - 1])
            return float(values[i - 1] + share * (values[i] - values[i - 1]))
    return float(values[-1])
