"""How is a start told to the devices that must judge it, in at most sixteen pieces?

A history is a row of segments of constant effective (root-mean-square) current. A new segment begins where the current
has moved by more than a tenth from where the last began; when there are too many, the two neighbours that are most
alike are joined. Joining keeps the duration and the integral of current squared, so heat is exact; what is lost is only
when inside a segment it came.
Not here: what a device makes of it (trip_time.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

SEGMENTS = 16
SEGMENT_DURATION_S = 0
SEGMENT_LOAD_CURRENT_A = 1  # of the load that starts
SEGMENT_SOURCE_CURRENT_A = 2  # of all that the source feeds
SEGMENT_COLUMNS = 3
_NEW_SEGMENT_RATIO = 1.1


@kernel("void(float64[:, ::1], int64, float64, float64, float64)")
def _join(
    segment: NDArray[np.float64], index: int, duration_s: float, load_current_a: float, source_current_a: float
) -> None:
    kept = segment[index, SEGMENT_DURATION_S]
    total = kept + duration_s
    load = segment[index, SEGMENT_LOAD_CURRENT_A]
    source = segment[index, SEGMENT_SOURCE_CURRENT_A]
    segment[index, SEGMENT_DURATION_S] = total
    segment[index, SEGMENT_LOAD_CURRENT_A] = np.sqrt(
        (load * load * kept + load_current_a * load_current_a * duration_s) / total
    )
    segment[index, SEGMENT_SOURCE_CURRENT_A] = np.sqrt(
        (source * source * kept + source_current_a * source_current_a * duration_s) / total
    )


@kernel("int64(float64[:, ::1], int64, float64, float64, float64)")
def add_to_history(
    segment: NDArray[np.float64], count: int, duration_s: float, load_current_a: float, source_current_a: float
) -> int:
    """Add a piece of constant current to the end of a history.

    Parameters
    ----------
    segment : (SEGMENTS, SEGMENT_COLUMNS) [s, A, A] in and out; the first `count` rows are filled
    count : segments filled so far
    duration_s : [s] of the piece, > 0
    load_current_a : [A] effective
    source_current_a : [A] effective

    Returns
    -------
    count : segments filled now, at most SEGMENTS

    Errors: none.
    Source: definition of the effective value; the integral of current squared is kept.
    """
    if not duration_s > 0.0:
        return count
    if count > 0:
        last_load = segment[count - 1, SEGMENT_LOAD_CURRENT_A]
        last_source = segment[count - 1, SEGMENT_SOURCE_CURRENT_A]
        close_load = (
            last_load <= load_current_a * _NEW_SEGMENT_RATIO and load_current_a <= last_load * _NEW_SEGMENT_RATIO
        )
        close_source = (
            last_source <= source_current_a * _NEW_SEGMENT_RATIO
            and source_current_a <= last_source * _NEW_SEGMENT_RATIO
        )
        if close_load and close_source:
            _join(segment, count - 1, duration_s, load_current_a, source_current_a)
            return count
    if count == SEGMENTS:
        best = 0
        least = np.inf
        for index in range(count - 1):
            first = segment[index]
            second = segment[index + 1]
            weight = first[SEGMENT_DURATION_S] * second[SEGMENT_DURATION_S]
            weight /= first[SEGMENT_DURATION_S] + second[SEGMENT_DURATION_S]
            apart = first[SEGMENT_SOURCE_CURRENT_A] - second[SEGMENT_SOURCE_CURRENT_A]
            if weight * apart * apart < least:
                least = weight * apart * apart
                best = index
        _join(
            segment,
            best,
            segment[best + 1, SEGMENT_DURATION_S],
            segment[best + 1, SEGMENT_LOAD_CURRENT_A],
            segment[best + 1, SEGMENT_SOURCE_CURRENT_A],
        )
        for index in range(best + 1, count - 1):
            for column in range(SEGMENT_COLUMNS):
                segment[index, column] = segment[index + 1, column]
        count -= 1
    segment[count, SEGMENT_DURATION_S] = duration_s
    segment[count, SEGMENT_LOAD_CURRENT_A] = load_current_a
    segment[count, SEGMENT_SOURCE_CURRENT_A] = source_current_a
    return count + 1
