"""Does the overcurrent device of a circuit open under a steady load, and when?

The earliest time belongs to the high estimate of the current, the latest to the low one. A device that is not known
may be electronic and act at once, so above its rating it may trip from zero seconds on.
Source: engine/physics/protective_device.
"""

from __future__ import annotations

import math
from functools import lru_cache

from ampwright.engine.calculations.load_check_result import TripFigure
from ampwright.engine.physics.protective_device import Device, TripBand, UnfitDevice, play_batch
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


def protective_device(device: OvercurrentDevice | None, rating_a: float) -> Device | None:
    """The device with a known band, None where its band is not known."""
    if device is None or device.standard not in _STANDARDS:
        return None
    standard, curve = _STANDARDS[device.standard]
    ambient = device.ambient_c.high if device.ambient_c else None
    return Device(standard, rating_a, curve, ambient)


@lru_cache(maxsize=16384)
def _bands(device: Device, low_a: float, high_a: float) -> tuple[TripBand, TripBand]:
    """Bands at the high and at the low current; pure, and the same load stands in many rows."""
    first, last = play_batch((device, device), (((math.inf,), (high_a,)), ((math.inf,), (low_a,))))
    return first, last


def steady_trip(circuit: SettledCircuit, low_a: float, high_a: float) -> TripFigure:
    """Trip of a circuit's device under a current that stays."""
    device = protective_device(circuit.device, circuit.rating_a)
    if device is not None:
        try:
            first, last = _bands(device, low_a, high_a)
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
