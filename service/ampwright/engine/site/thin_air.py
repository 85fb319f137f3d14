"""What do altitude and heat leave of an engine set's rating?

A limit of its own beside the set's: thin air takes from the engine, and not from the generator that starts a motor. So
it counts for what runs; a start is judged at the plate.
Source: rules of thumb, from memory (standards/engine_derating.py); a maker's table goes before them.
"""

from __future__ import annotations

from dataclasses import replace

from ampwright.engine.site.band import Band
from ampwright.engine.site.source import Capacity, CapacityLimit, PowerSource
from ampwright.engine.standards.engine_derating import altitude_factor_by_rule, temperature_factor_by_rule

AT_ALTITUDE = "assumed-at-altitude"
"""Id of the limit, as ids that nobody gave are called."""
_LEAST = 0.01


def power_left(altitude_m: Band, ambient_c: Band) -> Band:
    """[-] of an engine's rating at an altitude [m] and an intake temperature [C]; never more than all of it."""

    def left(estimate: int) -> float:
        high = altitude_factor_by_rule(altitude_m.at(estimate)).value
        return min(max(high * temperature_factor_by_rule(ambient_c.at(estimate)).value, _LEAST), 1.0)

    return Band(left(2), left(1), left(0))  # the higher and hotter, the less


def stated_rating_w(source: PowerSource) -> Band | None:
    """[W] that a set is said to run, None where nothing is; a rating in VA counts as W, one in A at the leg voltage."""
    volts = source.supply.leg_voltage_v * len(source.supply.angles_rad)
    if source.running is not None:
        return source.running.band.times(volts if source.running.unit == "A" else 1.0)
    limits = [item.continuous for item in source.limits or () if item.continuous is not None]
    if not limits:
        return None
    largest = max(limits, key=lambda item: item.band.typical)
    return largest.band.times(volts if largest.unit == "A" else 1.0)


def limited_by_air(source: PowerSource, left: Band, pointer: str) -> PowerSource:
    """The source, with a limit of what is left [-] of its rating; as it is where it has no engine or no stated rating.

    pointer : of the member that says so.
    """
    rated = stated_rating_w(source) if source.kind == "engine_generator" else None
    if rated is None or left.low >= 1.0:
        return source
    low, typical, high = (round(rated.at(i) * left.at(i), 0) for i in range(3))
    less = Capacity(Band(low, typical, high), "W")
    limit = CapacityLimit(AT_ALTITUDE, pointer, None, less, None, "voltage_dip")
    return replace(source, limits=(limit, *(source.limits or ())))
