"""Does the device of the circuit open while a tool starts, or while it stands and growls?

The device has carried the other tools for an hour when the start begins. Its current is the sum of magnitudes, the
upper bound. Of the device's band the hard estimate takes the earliest edge, the typical one the middle quantile, the
easy one the latest; a device that nobody named is a thermal-magnetic breaker of the country's usual kind.
Source: engine/physics/protective_device, assumptions B-01 to B-10.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from ampwright.engine.calculations.network.circuit_trip import protective_device
from ampwright.engine.physics.protective_device import Device, TripBand, UnfitDevice, band_of, play_batch
from ampwright.engine.physics.trip_probability import drawn_trip_s
from ampwright.engine.site.band import HIGH, LOW
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_start import LOW_VOLTAGE_V
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.source import OvercurrentDevice

BEFORE_S = 3600.0
USUAL = {True: "ul_489", False: "iec_60898_c"}
SHOWN = {"ul_489": "a thermal-magnetic breaker (UL 489)", "iec_60898_c": "a circuit-breaker of type C (IEC 60898-1)"}

History = tuple[tuple[float, ...], tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class DeviceRun:
    """What a device carries during one start: `before_a` for long, then (seconds, amperes), the last may last."""

    device: Device
    before_a: float
    history: History
    estimate: int


def circuit_devices(site: SettledSite, used: frozenset[int], ledger: Ledger) -> tuple[Device | None, ...]:
    """The overcurrent device of each circuit; None where it is electronic, no band is known, or it is not used."""
    return tuple(_device(site, i, ledger) if i in used else None for i in range(len(site.source.circuits)))


def _device(site: SettledSite, i: int, ledger: Ledger) -> Device | None:
    circuit = site.source.circuits[i]
    given = circuit.device
    if given is not None and given.kind == "electronic":
        return None
    if given is None or given.standard is None:
        kind = given.kind if given is not None else "breaker"
        standard = {"supplementary_protector": "ul_1077", "fuse": "iec_60269"}.get(kind)
        if standard is None:
            american = site.source.leg_voltage_v <= LOW_VOLTAGE_V and site.source.source.supply.kind != "centre_tapped"
            standard = USUAL[american]
            if given is None:
                ledger.assume("circuit_device", member_of(circuit.pointer, "device"), standard, SHOWN[standard])
        given = replace(given or OvercurrentDevice("breaker"), standard=standard)
    device = protective_device(given, circuit.rating_a)
    try:
        if device is not None:
            band_of(device)
    except UnfitDevice:
        return None
    return device


def may_open(run: DeviceRun) -> bool:
    """Whether any current of a run is above the rating; at or below it nothing opens (assumption B-01)."""
    return max(run.history[1], default=0.0) > run.device.rating_a


def _whole(run: DeviceRun) -> History:
    # what already trips without the start is told of the running case, not here
    before = min(run.before_a, run.device.rating_a)
    return (BEFORE_S, *run.history[0]), (before, *run.history[1])


def opens_at_s(runs: Sequence[DeviceRun]) -> tuple[tuple[float, TripBand], ...]:
    """[s] from the start's beginning at which each device opens, by its estimate's edge, and its whole band."""
    return tuple(_opens(run) for run in runs)


@lru_cache(maxsize=8192)
def _opens(run: DeviceRun) -> tuple[float, TripBand]:
    band = play_batch((run.device,), (_whole(run),))[0]
    early, sure, late = (_after(t) for t in (band.earliest_s, band.latest_guaranteed_s, band.latest_assumed_s))
    band = replace(band, earliest_s=early, latest_guaranteed_s=sure, latest_assumed_s=late)
    if run.estimate == HIGH or early == math.inf:
        return early, band
    if run.estimate == LOW:
        return late, band
    return _after(float(drawn_trip_s((run.device,), (_whole(run),), (0.5,))[0])), band


def _after(seconds: float) -> float:
    return max(seconds - BEFORE_S, 0.0)
