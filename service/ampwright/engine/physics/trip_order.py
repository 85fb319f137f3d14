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

from ampwright.engine.physics.limit_events import Limit, play_limits
from ampwright.engine.physics.protective_device import Device, play_batch

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


def order_in_path(
    devices: Sequence[Device],
    device_histories: Sequence[tuple[Sequence[float], Sequence[float]]],
    limits: Sequence[Limit] = (),
    limit_histories: Sequence[tuple[Sequence[float], Sequence[float]]] = (),
    guaranteed: bool = False,
) -> TripOrder:
    """Order of opening of cold devices and fresh limits that share one path or one source.

    Parameters
    ----------
    devices : n
    device_histories : n of (durations [s], currents [A]), what each device itself carries
    limits : k
    limit_histories : k of (durations [s], amounts [A, VA or W as the limit])
    guaranteed : whether a device counts as open by the standard's promise only, or by the assumed edge

    Returns
    -------
    order : places of the devices, then of the limits

    Errors: UnfitDevice, UnfitLimit, ValueError. Source: trip_time.py, source_limit.py.
    """
    bands = play_batch(devices, device_histories)
    events = play_limits(limits, limit_histories)
    return trip_order(
        [band.earliest_s for band in bands] + [event.trips_earliest_s for event in events],
        [band.latest_guaranteed_s if guaranteed else band.latest_assumed_s for band in bands]
        + [event.trips_latest_s for event in events],
    )
