"""When does each circuit's device open at which current?

The band of the device from cold, at currents from its rating to twenty times it: what may open it earliest, what its
standard promises, and what the fitted latest edge says. A time that does not exist is left out: the device holds.
Source: engine/physics/protective_device.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ampwright.engine.calculations.network.circuit_trip import protective_device
from ampwright.engine.physics.protective_device import device_faults, play_batch
from ampwright.engine.site.settled import SettledSite

MULTIPLES = (1.0, 1.05, 1.13, 1.2, 1.35, 1.45, 1.6, 1.8, 2.0, 2.55, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0)


@dataclass(frozen=True, slots=True)
class TripPoint:
    current_a: float
    earliest_s: float | None = None
    latest_guaranteed_s: float | None = None
    latest_assumed_s: float | None = None


@dataclass(frozen=True, slots=True)
class TripCurve:
    """The band of the device of one circuit; `standard` is a key of protective_device.STANDARDS."""

    circuit: str
    standard: str
    rating_a: float
    points: tuple[TripPoint, ...]


def trip_curves(settled: SettledSite) -> tuple[TripCurve, ...]:
    """Curves of the circuits whose device is stated; of an unknown device there is none to show."""
    found: list[TripCurve] = []
    for circuit in settled.source.circuits:
        device = protective_device(circuit.device, circuit.rating_a)
        if device is None or device_faults(device):
            continue
        currents = [round(multiple * circuit.rating_a, 3) for multiple in MULTIPLES]
        bands = play_batch([device] * len(currents), [((math.inf,), (amps,)) for amps in currents])
        found.append(
            TripCurve(
                circuit.id,
                device.standard,
                circuit.rating_a,
                tuple(
                    TripPoint(
                        amps,
                        _seconds(band.earliest_s),
                        _seconds(band.latest_guaranteed_s),
                        _seconds(band.latest_assumed_s),
                    )
                    for amps, band in zip(currents, bands, strict=True)
                ),
            )
        )
    return tuple(found)


def _seconds(value: float) -> float | None:
    return None if value == math.inf else float(f"{value:.3g}")
