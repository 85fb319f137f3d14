"""What does a device's curve look like, as points: time against current, earliest and latest?

Cold start, constant current, without end. +inf where it holds ("holds" on the wire).

Source: trip_time.py and the standards behind protective_device.py.
Not here: histories (protective_device.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ampwright.engine.physics.protective_device import Device, play_batch

USUAL_MULTIPLES = (
    *(0.8, 0.9, 1.0, 1.05, 1.1, 1.13, 1.2, 1.25, 1.3, 1.35, 1.4, 1.45, 1.5, 1.6, 1.75, 2.0, 2.25, 2.55, 3.0, 3.5),
    *(4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0),
)
"""Multiples of rated current that show every bend of every standard [ratio]."""


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """One current of a curve: multiple [ratio of In], current_a [A], and the band [s], +inf where it holds."""

    multiple: float
    current_a: float
    earliest_s: float
    latest_guaranteed_s: float
    latest_assumed_s: float


def trip_curve(device: Device, multiples: Sequence[float] = USUAL_MULTIPLES) -> tuple[CurvePoint, ...]:
    """Points of a device's curve.

    Parameters
    ----------
    device : what protects, in its air
    multiples : (k,) [ratio of In], >= 0

    Returns
    -------
    points : k, in ascending order of current

    Errors: UnfitDevice, ValueError. Source: trip_time.py.
    """
    ordered = sorted(float(multiple) for multiple in multiples)
    histories = [((np.inf,), (multiple * device.rating_a,)) for multiple in ordered]
    bands = play_batch([device] * len(ordered), histories)
    return tuple(
        CurvePoint(
            multiple,
            multiple * device.rating_a,
            band.earliest_s,
            band.latest_guaranteed_s,
            band.latest_assumed_s,
        )
        for multiple, band in zip(ordered, bands, strict=True)
    )
