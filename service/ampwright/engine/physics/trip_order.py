"""Which of several devices in one path opens first?

Each device has a band, found by playing the current that it carries itself (an upstream device carries more). A device
surely opens first when its latest time lies before the earliest of all others; it may open first when its earliest
time lies no later than the earliest of the others' latest times. What never opens has +inf. A device is surely first
by the guaranteed edge or only by the assumed one: the caller passes the edge it wants to lean on.

Source: comparison of intervals. Bands of different makers are independent, so nothing narrower can be said.
Not here: the bands (protective_device.py, limit_events.py), what the others lose when one opens (calculations).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

SURELY_FIRST, MAY_BE_FIRST, NOT_FIRST, HOLDS = "surely_first", "may_be_first", "not_first", "holds"


@dataclass(frozen=True, slots=True)
class TripOrder:
    """What can be said of the order.

    places : one of `surely_first`, `may_be_first`, `not_first`, `holds` for each device
    something_opens_earliest_s, something_opens_latest_s : [s] band of the first opening, +inf where nothing need open
    """

    places: tuple[str, ...]
    something_opens_earliest_s: float
    something_opens_latest_s: float


def trip_order(earliest_s: Sequence[float], latest_s: Sequence[float]) -> TripOrder:
    """Place of each device in the order of opening.

    Parameters
    ----------
    earliest_s : (n,) [s], +inf where it surely holds
    latest_s : (n,) [s], +inf where it need not open; not before earliest_s

    Returns
    -------
    order : see TripOrder

    Errors: ValueError for unequal lengths, a NaN or a latest before its earliest. Source: comparison of intervals.
    """
    if len(earliest_s) != len(latest_s):
        raise ValueError(f"{len(earliest_s)} earliest and {len(latest_s)} latest times")
    if not all(early <= late for early, late in zip(earliest_s, latest_s, strict=True)):
        raise ValueError("a latest time lies before its earliest")
    places = []
    for number, (early, late) in enumerate(zip(earliest_s, latest_s, strict=True)):
        others = [k for k in range(len(earliest_s)) if k != number]
        others_earliest = min((earliest_s[k] for k in others), default=math.inf)
        others_latest = min((latest_s[k] for k in others), default=math.inf)
        if early == math.inf:
            places.append(HOLDS)
        elif late < others_earliest:
            places.append(SURELY_FIRST)
        elif early <= others_latest:
            places.append(MAY_BE_FIRST)
        else:
            places.append(NOT_FIRST)
    return TripOrder(tuple(places), min(earliest_s, default=math.inf), min(latest_s, default=math.inf))
