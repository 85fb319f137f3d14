"""Does the overcurrent device of a circuit open under a steady load, and when?

The earliest time belongs to the high estimate of the current, the latest to the low one. A device that is not known
may be electronic and act at once, so above its rating it may trip from zero seconds on.
Source: engine/physics/protective_device.
"""

from __future__ import annotations

import math
from functools import lru_cache

from ampwright.engine.calculations.load_check.load_check_result import TripFigure
from ampwright.engine.physics.protective_device import Device, TripBand, UnfitDevice, play_batch
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import SettledCircuit
from ampwright.engine.site.source import OvercurrentDevice

_STANDARDS = {
    "ul_489": ("ul_489", ""),
    "iec_60898_b": ("iec_60898_1", "B"),
    "iec_60898_c": ("iec_60898_1", "C"),
    "iec_60898_d": ("iec_60898_1", "D"),
    "ul_1077": ("ul_1077", ""),
    "iec_60934": ("iec_60934", ""),
    "bs_1362": ("bs_1362", ""),
    "iec_60269": ("iec_60269_gg", ""),
}


def protective_device(
    device: OvercurrentDevice | None, rating_a: float, ambient_c: float | None = None
) -> Device | None:
    """The device with a known band, None where its band is not known.

    ambient_c : [C] of the air at it, where its own is not given; None is its calibration ambient.
    """
    if device is None or device.standard not in _STANDARDS:
        return None
    standard, curve = _STANDARDS[device.standard]
    if ambient_c is None and device.ambient_c is not None:
        ambient_c = device.ambient_c.high
    return Device(standard, rating_a, curve, ambient_c)


@lru_cache(maxsize=16384)
def _bands(hot: Device, cold: Device, low_a: float, high_a: float) -> tuple[TripBand, TripBand]:
    """Bands of the hot device at the high current and of the cold one at the low; the same load stands in many rows."""
    first, last = play_batch((hot, cold), (((math.inf,), (high_a,)), ((math.inf,), (low_a,))))
    return first, last


def steady_trip(circuit: SettledCircuit, low_a: float, high_a: float, ambient_c: Band) -> TripFigure:
    """Trip of a circuit's device under a current that stays.

    ambient_c : [C] of the site; a device whose own air is not known has at least that. It may open early in the hottest
    air and late in the coldest.
    """
    air = circuit.device.ambient_c if circuit.device is not None and circuit.device.ambient_c is not None else ambient_c
    hot = protective_device(circuit.device, circuit.rating_low_a, air.high)
    cold = protective_device(circuit.device, circuit.rating_a, air.low)
    if hot is not None and cold is not None:
        try:
            first, last = _bands(hot, cold, low_a, high_a)
        except UnfitDevice:
            return _unknown_device(circuit, high_a)
        if first.earliest_s == math.inf:
            return TripFigure("holds")
        outcome = "trips" if last.latest_assumed_s < math.inf else "may_trip"
        return TripFigure(
            outcome,
            _finite(first.earliest_s),
            _finite(last.latest_guaranteed_s),
            _finite(last.latest_assumed_s),
        )
    return _unknown_device(circuit, high_a)


def _unknown_device(circuit: SettledCircuit, high_a: float) -> TripFigure:
    return TripFigure("may_trip", 0.0) if high_a > circuit.rating_a else TripFigure("holds")


def _finite(seconds: float) -> float | None:
    return None if seconds == math.inf else round(seconds, 3)
