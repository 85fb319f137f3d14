"""What does the engine make of a power source as it is written? Every member by name, figures in SI."""

from __future__ import annotations

import math
import re

from msgspec import UNSET, UnsetType

from ampwright.contract import power_source_members as wire
from ampwright.contract.quantities import (
    ANGLE,
    CAPACITY,
    CURRENT,
    DURATION,
    ENERGY,
    ENERGY_PER_DISTANCE,
    PER_UNIT,
    POWER,
    RESISTANCE,
    SOURCE_RESISTANCE,
    TEMPERATURE,
    VOLUME,
    QuantityFault,
)
from ampwright.contract.reading import Reading, given
from ampwright.contract.supply_text import UNREAD, read_supply
from ampwright.engine.site import source as site
from ampwright.engine.site.nearest import listing, shown

_AT = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,3})?) (%|W|kW)", re.ASCII)
_LOOSE_AT = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,3})?) ?(%|percent|w|kw|watts?)", re.ASCII | re.IGNORECASE)
IN_PHASE_RAD = math.radians(1.0)  # legs closer than this are one phase


def read_source(source: wire.PowerSource, reading: Reading, at: str = "/source") -> site.PowerSource:
    """The source at `at`. What cannot be read is noted in `reading` and left unknown."""
    vehicle = source if isinstance(source, wire.Vehicle) else None
    battery = source if isinstance(source, wire.Vehicle | wire.BatteryStation) else None
    engine = source if isinstance(source, wire.EngineGenerator) else None
    network = source if isinstance(source, wire.SiteSupply) else None
    return site.PowerSource(
        kind=str(source.__struct_config__.tag),
        supply=_supply(source, reading, at),
        pointer=reading.place(at),
        name=given(source.name),
        limits=None
        if source.limits is UNSET
        else tuple(_limit(one, reading, f"{at}/limits/{place}") for place, one in enumerate(source.limits)),
        circuits=None
        if source.circuits is UNSET
        else tuple(_circuit(one, reading, f"{at}/circuits/{place}") for place, one in enumerate(source.circuits)),
        receptacles=None
        if source.receptacles is UNSET
        else tuple(
            _receptacle(one, reading, f"{at}/receptacles/{place}") for place, one in enumerate(source.receptacles)
        ),
        reset=_reset(source.reset, reading, f"{at}/reset"),
        waveform=given(source.waveform),
        neutral_bond=given(source.neutral_bond),
        resistance=reading.resistance(source.resistance, SOURCE_RESISTANCE, f"{at}/resistance"),
        availability=()
        if source.availability is UNSET
        else tuple(
            _availability(one, reading, f"{at}/availability/{place}") for place, one in enumerate(source.availability)
        ),
        battery_j=reading.band(battery.battery, ENERGY, f"{at}/battery") if battery else None,
        awake_draw_w=reading.band(battery.awake_draw, POWER, f"{at}/awake_draw", above_zero=False) if battery else None,
        sleeps_below_w=reading.band(battery.sleeps_below, POWER, f"{at}/sleeps_below", above_zero=False)
        if battery
        else None,
        sleeps_after_s=reading.band(battery.sleeps_after, DURATION, f"{at}/sleeps_after", above_zero=False)
        if battery
        else None,
        wakes_on_load=given(battery.wakes_on_load) if battery else None,
        energy_per_distance_j_per_m=reading.band(
            vehicle.energy_per_distance, ENERGY_PER_DISTANCE, f"{at}/energy_per_distance"
        )
        if vehicle
        else None,
        technology=given(engine.technology) if engine else None,
        running=reading.capacity(engine.running, CAPACITY, f"{at}/running") if engine else None,
        starting=reading.capacity(engine.starting, CAPACITY, f"{at}/starting") if engine else None,
        transient_reactance_pu=reading.band(engine.transient_reactance, PER_UNIT, f"{at}/transient_reactance")
        if engine
        else None,
        tank_m3=reading.band(engine.tank, VOLUME, f"{at}/tank") if engine else None,
        earthing=given(network.earthing) if network else None,
        fault_current_a=reading.band(network.fault_current, CURRENT, f"{at}/fault_current") if network else None,
    )


def _supply(source: wire.PowerSource, reading: Reading, at: str) -> site.SupplySystem:
    try:
        supply = read_supply(source.voltage)
    except QuantityFault as error:
        reading.refuse(f"{at}/voltage", error)
        return UNREAD
    if source.legs is UNSET:
        return supply
    angles: dict[str, float] = {}
    for place, leg in enumerate(source.legs):
        angle = reading.band(leg.angle, ANGLE, f"{at}/legs/{place}/angle", above_zero=False)
        if leg.id in angles:
            reading.fault(f"{at}/legs/{place}/id", "repeated_id", f"There are two legs {leg.id}.")
        else:
            angles[leg.id] = angle.typical if angle else 0.0
    return _with_legs(supply, angles, reading, f"{at}/legs")


def _with_legs(supply: site.SupplySystem, angles: dict[str, float], reading: Reading, at: str) -> site.SupplySystem:
    """The supply with the legs and angles that the caller states.

    Some sources feed two line contacts in phase from one 120 V winding, and some networks bring two of three legs:
    both are stated by `legs` beside a voltage that alone would mean something else.
    """
    names = site.LEG_NAMES[: len(angles)]
    if tuple(sorted(angles)) != names:
        reading.fault(
            at, "legs_contradict_voltage", f"Legs are named from L1 on: {listing(names)}, not {listing(angles)}."
        )
        return supply
    ordered = tuple(angles[name] for name in names)
    in_phase = all(_apart(angle, ordered[0]) <= IN_PHASE_RAD for angle in ordered)
    if len(ordered) == len(supply.angles_rad):
        return site.SupplySystem(supply.text, supply.kind, supply.leg_voltage_v, ordered)
    if supply.kind == "three_phase" and len(ordered) == 2 and not in_phase:
        return site.SupplySystem(supply.text, supply.kind, supply.leg_voltage_v, ordered)
    if supply.kind == "single" and len(ordered) == 2 and in_phase:
        return site.SupplySystem(supply.text, "split_phase", supply.leg_voltage_v, ordered)
    wanted = len(supply.angles_rad)
    reading.fault(
        at,
        "legs_contradict_voltage",
        f"{shown(supply.text)} has {wanted} {'leg' if wanted == 1 else 'legs'}, and {len(ordered)} are listed.",
    )
    return supply


def _apart(one: float, other: float) -> float:
    return abs(math.remainder(one - other, 2.0 * math.pi))


def _reset(reset: wire.Reset | UnsetType, reading: Reading, at: str) -> site.Reset | None:
    if reset is UNSET:
        return None
    return site.Reset(
        how=reset.how,
        where=given(reset.where),
        by=given(reset.by),
        needs=given(reset.needs),
        after_s=reading.band(reset.after, DURATION, f"{at}/after", above_zero=False),
        tries=given(reset.tries),
    )


def _tiers(tiers: list[wire.Tier] | UnsetType, reading: Reading, at: str) -> tuple[site.Tier, ...] | None:
    if tiers is UNSET:
        return None
    found: list[site.Tier] = []
    for place, tier in enumerate(tiers):
        amount = reading.capacity(tier.amount, CAPACITY, f"{at}/{place}/amount")
        lasts = reading.band(tier.lasts, DURATION, f"{at}/{place}/lasts")
        if amount is not None and lasts is not None:
            found.append(site.Tier(amount, lasts))
    return tuple(found)


def _limit(limit: wire.CapacityLimit, reading: Reading, at: str) -> site.CapacityLimit:
    return site.CapacityLimit(
        id=limit.id,
        pointer=reading.place(at),
        over=None if limit.over is UNSET else tuple(limit.over),
        continuous=reading.capacity(limit.continuous, CAPACITY, f"{at}/continuous"),
        tiers=_tiers(limit.tiers, reading, f"{at}/tiers"),
        response=given(limit.response),
        peak_a=reading.band(limit.peak, CURRENT, f"{at}/peak"),
        reset=_reset(limit.reset, reading, f"{at}/reset"),
    )


def _circuit(circuit: wire.Circuit, reading: Reading, at: str) -> site.Circuit:
    return site.Circuit(
        id=circuit.id,
        pointer=reading.place(at),
        legs=None if circuit.legs is UNSET else tuple(circuit.legs),
        resistance_ohm=reading.band(circuit.resistance, RESISTANCE, f"{at}/resistance", above_zero=False),
        device=None if circuit.device is UNSET else _device(circuit.device, reading, f"{at}/device"),
    )


def _device(device: wire.OvercurrentDevice, reading: Reading, at: str) -> site.OvercurrentDevice:
    electronic = device if isinstance(device, wire.ElectronicLimit) else None
    return site.OvercurrentDevice(
        kind=str(device.__struct_config__.tag),
        standard=None if isinstance(device, wire.ElectronicLimit) else given(device.standard),
        rating_a=reading.band(device.rating, CURRENT, f"{at}/rating"),
        ambient_c=reading.band(device.ambient, TEMPERATURE, f"{at}/ambient", above_zero=False),
        tiers=_tiers(electronic.tiers, reading, f"{at}/tiers") if electronic else None,
        response=given(electronic.response) if electronic else None,
        reset=_reset(device.reset, reading, f"{at}/reset"),
    )


def _receptacle(receptacle: wire.Receptacle, reading: Reading, at: str) -> site.Receptacle:
    return site.Receptacle(
        id=receptacle.id,
        pointer=reading.place(at),
        type=reading.receptacle(receptacle.type, f"{at}/type"),
        marked_a=reading.band(receptacle.marked, CURRENT, f"{at}/marked"),
        circuit=given(receptacle.circuit),
        location=given(receptacle.location),
        ground_fault=given(receptacle.ground_fault),
    )


_THRESHOLDS = {"charge_below": "a share of charge such as '20 %'", "load_below": "a power such as '15 W'"}


def _availability(state: wire.Availability, reading: Reading, at: str) -> site.Availability:
    return site.Availability(
        when=state.when,
        works=state.works,
        at=None if state.at is UNSET or reading.full else _threshold(state.at, state.when, reading, f"{at}/at"),
    )


def _threshold(text: str, when: str, reading: Reading, at: str) -> float | None:
    if when not in _THRESHOLDS:
        reading.fault(at, "member_does_not_apply", f"`at` goes with {listing(_THRESHOLDS)}; {when} has no threshold.")
        return None
    match = _AT.fullmatch(text)
    is_share = when == "charge_below"
    if match is None or (match[2] == "%") != is_share:
        loose = _LOOSE_AT.fullmatch(text[:32].strip())
        label = "%" if is_share else "W"
        hint = None
        if loose is not None and (loose[2].lower() in ("%", "percent")) == is_share:
            hint = f"{loose[1]} {'kW' if loose[2].lower() == 'kw' else label}"
        reading.fault(at, "not_a_quantity", f"{shown(text)}: {when} wants {_THRESHOLDS[when]}.", hint)
        return None
    value = float(match[1])
    if match[2] == "%":
        if value > 100.0:
            reading.fault(at, "out_of_range", f"{shown(text)}: a share of charge is at most 100 %.")
            return None
        return value / 100.0
    return value * (1000.0 if match[2] == "kW" else 1.0)
