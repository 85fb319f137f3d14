"""What does the engine make of the day in an energy budget's request? Every member by name, figures in SI."""

from __future__ import annotations

from typing import Any

from msgspec import UNSET, UnsetType

from ampwright.contract import energy_budgets as wire
from ampwright.contract.energy_quantities import DISTANCE, FLOW, PRESSURE, RATE, SHARE, SPEED, read_carbon, read_price
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.quantities import (
    DURATION,
    ENERGY,
    LENGTH,
    POWER,
    TEMPERATURE,
    VOLUME,
    Dimension,
    QuantityFault,
)
from ampwright.contract.reading import Reading, given
from ampwright.engine.site import energy_day as site
from ampwright.engine.site.use import Fault
from ampwright.engine.site.work_units import WORK_PATTERN_NAMES, WORK_UNIT_NAMES


def read_day(request: wire.EnergyBudgetRequest, places: Places = AS_SENT) -> tuple[site.EnergyDay, tuple[Fault, ...]]:
    """The day of a request, and what could not be read of it."""
    reading = Reading(places)
    fuel_kind = request.source.__struct_config__.tag == "engine_generator"
    electricity, fuel = _prices(request, reading)
    carbon_j, carbon_m3 = _carbon(request.carbon, fuel_kind, reading)
    day = site.EnergyDay(
        charge_ratio=reading.band(request.charge, SHARE, "/charge", above_zero=False),
        battery=_battery(request.battery, reading),
        fuel=_fuel(request, reading),
        allowance_j=reading.band(request.allowance, ENERGY, "/allowance", above_zero=False),
        shift_s=_most(request.shift, DURATION, "/shift", reading),
        pattern=reading.listed(request.pattern, WORK_PATTERN_NAMES, "/pattern", "unknown_pattern", "kind of day"),
        duties=tuple(_duty(item, reading, f"/duties/{i}") for i, item in enumerate(_list(request.duties))),
        work=tuple(_work(item, reading, f"/work/{i}") for i, item in enumerate(_list(request.work))),
        stops=None
        if request.stops is UNSET
        else tuple(_stop(item, reading, f"/stops/{i}") for i, item in enumerate(request.stops)),
        way_home=_way_home(request.way_home, reading),
        solar_w=tuple(
            band.typical if (band := reading.band(text, POWER, f"/solar/{i}", above_zero=False)) else 0.0
            for i, text in enumerate(_list(request.solar))
        ),
        observations=tuple(
            _observation(item, reading, f"/observations/{i}") for i, item in enumerate(_list(request.observations))
        ),
        electricity_price=electricity,
        fuel_price=fuel,
        carbon_kg_per_j=carbon_j,
        carbon_kg_per_m3=carbon_m3,
        seed=1 if request.seed is UNSET else request.seed,
        draws=4000 if request.draws is UNSET else request.draws,
    )
    return day, reading.faults


def _list(items: Any) -> Any:
    return [] if items is UNSET else items


def _most(text: str | UnsetType, dimension: Dimension, at: str, reading: Reading) -> float | None:
    """The high end: of a band, the longest counts."""
    band = reading.band(text, dimension, at)
    return None if band is None else band.high


def _middle(text: str | UnsetType, dimension: Dimension, at: str, reading: Reading) -> float | None:
    band = reading.band(text, dimension, at)
    return None if band is None else band.typical


def _battery(battery: wire.BatteryConditions | UnsetType, reading: Reading) -> site.BatteryCondition:
    if battery is UNSET:
        return site.BatteryCondition()
    return site.BatteryCondition(
        chemistry=given(battery.chemistry),
        health_ratio=reading.band(battery.health, SHARE, "/battery/health"),
        age_years=given(battery.age_years),
        cells_c=reading.band(battery.cells, TEMPERATURE, "/battery/cells", above_zero=False),
        stops_at_ratio=reading.band(battery.stops_at, SHARE, "/battery/stops_at", above_zero=False),
        efficiency_ratio=reading.band(battery.efficiency, SHARE, "/battery/efficiency"),
        largest_discharge_w=reading.band(battery.largest_discharge, POWER, "/battery/largest_discharge"),
    )


def _fuel(request: wire.EnergyBudgetRequest, reading: Reading) -> site.FuelCondition:
    fuel = wire.FuelConditions() if request.fuel is UNSET else request.fuel
    altitude = reading.band(fuel.altitude, LENGTH, "/fuel/altitude", above_zero=False)
    if fuel.altitude is UNSET and request.conditions is not UNSET:
        # what cannot be read of it is told where the site is read
        altitude = Reading(AS_SENT).band(request.conditions.altitude, LENGTH, "/conditions/altitude", above_zero=False)
    times: list[site.RunTime] = []
    for place, item in enumerate(_list(fuel.run_times)):
        at = f"/fuel/run_times/{place}"
        load = _middle_share(item.load, f"{at}/load", reading)
        lasts = _middle(item.lasts, DURATION, f"{at}/lasts", reading)
        if load is not None and lasts is not None:
            times.append(site.RunTime(reading.place(at), load, lasts))
    return site.FuelCondition(
        kind=given(fuel.kind),
        in_tank_m3=reading.band(fuel.in_tank, VOLUME, "/fuel/in_tank", above_zero=False),
        run_times=tuple(times),
        altitude_m=None if altitude is None else altitude.typical,
    )


def _middle_share(text: str | UnsetType, at: str, reading: Reading) -> float | None:
    band = reading.band(text, SHARE, at, above_zero=False)
    return None if band is None else band.typical


def _duty(duty: wire.ToolDuty, reading: Reading, at: str) -> site.Duty:
    return site.Duty(
        pointer=reading.place(at),
        tool=duty.tool,
        running_ratio=reading.band(duty.running, SHARE, f"{at}/running", above_zero=False),
        air=None if duty.air is UNSET else _air(duty.air, reading, f"{at}/air"),
        rated_ratio=_middle_share(duty.rated, f"{at}/rated", reading),
    )


def _air(air: wire.CompressedAir, reading: Reading, at: str) -> site.CompressedAir:
    cut_in = _middle(air.cut_in, PRESSURE, f"{at}/cut_in", reading)
    cut_out = _middle(air.cut_out, PRESSURE, f"{at}/cut_out", reading)
    if cut_in is not None and cut_out is not None and cut_in >= cut_out:
        reading.fault(f"{at}/cut_in", "out_of_range", "A compressor cuts in below the pressure at which it cuts out.")
    return site.CompressedAir(
        pointer=reading.place(at),
        tank_m3=_middle(air.tank, VOLUME, f"{at}/tank", reading),
        cut_in_pa=cut_in,
        cut_out_pa=cut_out,
        delivery_m3_per_s=reading.band(air.delivery, FLOW, f"{at}/delivery"),
        use_m3_per_s=reading.band(air.use, FLOW, f"{at}/use", above_zero=False),
        nails_per_s=reading.band(air.nails, RATE, f"{at}/nails"),
    )


def _work(work: wire.WorkAmount, reading: Reading, at: str) -> site.Work:
    unit = reading.listed(work.unit, WORK_UNIT_NAMES, f"{at}/unit", "unknown_work_unit", "kind of work")
    return site.Work(
        id=work.id,
        pointer=reading.place(at),
        unit=unit or WORK_UNIT_NAMES[0],
        amount=work.amount,
        tool=given(work.tool),
        energy_each_j=reading.band(work.energy_each, ENERGY, f"{at}/energy_each", above_zero=False),
        head_m=reading.band(work.head, LENGTH, f"{at}/head"),
        pack=None if work.pack is UNSET else _pack(work.pack, reading, f"{at}/pack"),
        stop=given(work.stop),
    )


def _pack(pack: wire.PackCharging, reading: Reading, at: str) -> site.Pack:
    return site.Pack(
        capacity_j=reading.band(pack.capacity, ENERGY, f"{at}/capacity"),
        from_ratio=reading.band(pack.start, SHARE, f"{at}/start", above_zero=False),
        to_ratio=reading.band(pack.target, SHARE, f"{at}/target"),
        charger_w=reading.band(pack.charger, POWER, f"{at}/charger"),
        chargers=given(pack.chargers),
    )


def _stop(stop: wire.DayStop, reading: Reading, at: str) -> site.Stop:
    return site.Stop(
        id=stop.id,
        pointer=reading.place(at),
        distance_m=reading.band(stop.distance, DISTANCE, f"{at}/distance", above_zero=False),
        lasts_s=_most(stop.lasts, DURATION, f"{at}/lasts", reading),
        running=None if stop.running is UNSET else tuple(stop.running),
        recharge_w=reading.band(stop.recharge, POWER, f"{at}/recharge", above_zero=False),
    )


def _way_home(home: wire.WayHome | UnsetType, reading: Reading) -> site.WayHome | None:
    if home is UNSET:
        return None
    return site.WayHome(
        pointer=reading.place("/way_home"),
        distance_m=reading.band(home.distance, DISTANCE, "/way_home/distance", above_zero=False),
        headwind_m_per_s=reading.band(home.headwind, SPEED, "/way_home/headwind", above_zero=False),
        towing=given(home.towing),
        loaded=given(home.loaded),
        arrive_with_ratio=_middle_share(home.arrive_with, "/way_home/arrive_with", reading),
        figure_of=given(home.figure_of),
    )


def _observation(one: wire.WorkObservation, reading: Reading, at: str) -> site.Observation:
    if (one.took is UNSET) == (one.took_energy is UNSET):
        reading.fault(at, "member_does_not_apply", "Say what it took once: `took` in percent or `took_energy`.")
    return site.Observation(
        pointer=reading.place(at),
        work=one.work,
        amount=one.amount,
        took_ratio=_middle_share(one.took, f"{at}/took", reading),
        took_j=_middle(one.took_energy, ENERGY, f"{at}/took_energy", reading),
        step=_middle_share(one.step, f"{at}/step", reading),
        over_s=_middle(one.over, DURATION, f"{at}/over", reading),
    )


def _prices(request: wire.EnergyBudgetRequest, reading: Reading) -> tuple[site.Price | None, site.Price | None]:
    found: list[site.Price | None] = []
    for text, at, wanted in (
        (request.electricity_price, "/electricity_price", "energy"),
        (request.fuel_price, "/fuel_price", "volume"),
    ):
        price: site.Price | None = None
        if text is not UNSET:
            try:
                price, kind = read_price(text)
                if kind != wanted:
                    reading.fault(at, "wrong_unit", f"{text!r} is no price for {wanted}.")
            except QuantityFault as error:
                reading.refuse(at, error)
        found.append(price)
    return found[0], found[1]


def _carbon(text: str | UnsetType, is_fuel: bool, reading: Reading) -> tuple[float | None, float | None]:
    if text is UNSET:
        return None, None
    try:
        factor, kind = read_carbon(text)
    except QuantityFault as error:
        reading.refuse("/carbon", error)
        return None, None
    if is_fuel != (kind == "volume"):
        reading.fault("/carbon", "wrong_unit", "Write the factor for a litre of fuel, or for a kWh of electricity.")
    return (None, factor) if kind == "volume" else (factor, None)
