"""How likely has a device opened within a time, when all that is known is its band?

One log-uniform quantile per device, for its whole life (assumption B-09, protective_device.py): at the quantile u
every number of the edge lies log-uniformly between the earliest and the latest edge. So repeats are not independent
tries, and a device that has held a load once holds it again.

Source: assumption B-09.
Not here: loads that come and go by chance (calculations), the band itself (protective_device.py).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ampwright.engine.physics.protective_device import Device, DeviceTable, ragged
from ampwright.engine.physics.trip_time import FloatArray, quantile_trips_s, trip_probabilities


def trip_probability_batch(
    devices: Sequence[Device],
    histories: Sequence[tuple[Sequence[float], Sequence[float]]],
    within_s: Sequence[float],
) -> FloatArray:
    """Probability that each device has opened within its time, from cold.

    Parameters
    ----------
    devices : n
    histories : n of (durations [s], currents [A])
    within_s : (n,) [s], >= 0; +inf for "ever in this history"

    Returns
    -------
    probability_ratio : (n,) [ratio]

    Errors: UnfitDevice, ValueError. Source: assumption B-09.
    """
    times = np.array(within_s, dtype=np.float64)
    if times.shape != (len(devices),) or len(histories) != len(devices):
        raise ValueError(f"{len(devices)} devices need as many histories and times")
    if not (times >= 0.0).all():
        raise ValueError("a time is >= 0 s")
    table = DeviceTable.of(devices)
    first_step, duration_s, current_a = ragged(histories)
    probability_ratio = np.empty(len(devices))
    trip_probabilities(
        first_step, duration_s, current_a, table.rating_a, table.edges, table.points, times, probability_ratio
    )
    return probability_ratio


def trip_probability(
    device: Device, duration_s: Sequence[float], current_a: Sequence[float], within_s: float = np.inf
) -> float:
    """As trip_probability_batch for one device.

    Parameters
    ----------
    device : what protects
    duration_s : (m,) [s]
    current_a : (m,) [A]
    within_s : [s]

    Returns
    -------
    probability_ratio : [ratio] 0..1

    Errors: UnfitDevice, ValueError. Source: assumption B-09.
    """
    return float(trip_probability_batch([device], [(duration_s, current_a)], [within_s])[0])


def drawn_trip_s(
    devices: Sequence[Device],
    histories: Sequence[tuple[Sequence[float], Sequence[float]]],
    quantile_ratio: Sequence[float],
) -> FloatArray:
    """When devices drawn from their bands open: for Monte Carlo, which draws the quantiles itself.

    Parameters
    ----------
    devices : n
    histories : n of (durations [s], currents [A])
    quantile_ratio : (n,) [ratio] 0..1

    Returns
    -------
    trip_s : (n,) [s], +inf where it holds

    Errors: UnfitDevice, ValueError. Source: assumption B-09.
    """
    quantiles = np.array(quantile_ratio, dtype=np.float64)
    if quantiles.shape != (len(devices),) or len(histories) != len(devices):
        raise ValueError(f"{len(devices)} devices need as many histories and quantiles")
    if not ((quantiles >= 0.0) & (quantiles <= 1.0)).all():
        raise ValueError("a quantile is 0..1")
    table = DeviceTable.of(devices)
    first_step, duration_s, current_a = ragged(histories)
    trip_s = np.empty(len(devices))
    quantile_trips_s(first_step, duration_s, current_a, table.rating_a, table.edges, table.points, quantiles, trip_s)
    return trip_s
