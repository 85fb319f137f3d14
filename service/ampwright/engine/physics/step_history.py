"""What flows in a common part when several step histories add up?

A step history is (durations [s], amounts): constant over each step, the last step may last for ever; after its end a
history is zero. The sum has a step wherever one of them has. Amounts add as they are: currents of unlike power factor
add to less, so a sum of magnitudes is the upper bound, and a caller that knows the angles adds phasors instead.

Source: Kirchhoff's current law, triangle inequality.
Not here: what a device makes of it (protective_device.py, limit_events.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

History = tuple[tuple[float, ...], tuple[float, ...]]


def summed_history(histories: Sequence[tuple[Sequence[float], Sequence[float]]]) -> History:
    """Sum of step histories that start together.

    Parameters
    ----------
    histories : n of (durations [s], amounts [any one unit])

    Returns
    -------
    durations_s, amounts : [s], [same unit]; (), () for none; steps of no length are left out

    Errors: ValueError for unequal lengths, a negative or NaN duration, or an infinite step that is not the last.
    Source: Kirchhoff's current law.
    """
    edges: set[float] = set()
    starts: list[list[float]] = []
    for number, (durations_s, amounts) in enumerate(histories):
        if len(durations_s) != len(amounts):
            raise ValueError(f"history {number}: {len(durations_s)} durations, {len(amounts)} amounts")
        times = [0.0]
        for seconds in durations_s:
            if not seconds >= 0.0 or times[-1] == math.inf:
                raise ValueError(f"history {number}: a step lasts >= 0 s, and only the last may last for ever")
            times.append(times[-1] + seconds)
        starts.append(times)
        edges.update(times)
    ordered = sorted(edges)
    at = [0] * len(histories)
    totals: list[float] = []
    for start_s in ordered[:-1]:
        total = 0.0
        for number, (_, amounts) in enumerate(histories):
            while at[number] < len(amounts) and starts[number][at[number] + 1] <= start_s:
                at[number] += 1
            if at[number] < len(amounts):
                total += float(amounts[at[number]])
        totals.append(total)
    durations = tuple(end_s - start_s for start_s, end_s in pairwise(ordered))
    return durations, tuple(totals)


def history_until(durations_s: Sequence[float], amounts: Sequence[float], end_s: float) -> History:
    """The part of a step history before a time.

    Parameters
    ----------
    durations_s : (m,) [s]
    amounts : (m,) [any unit]
    end_s : [s] from the start

    Returns
    -------
    durations_s, amounts : [s], [same unit]

    Errors: none. Source: definition.
    """
    kept: list[float] = []
    start_s = 0.0
    for seconds in durations_s:
        if start_s >= end_s:
            break
        kept.append(float(min(seconds, end_s - start_s)))
        start_s += seconds
    return tuple(kept), tuple(float(amount) for amount in amounts[: len(kept)])
