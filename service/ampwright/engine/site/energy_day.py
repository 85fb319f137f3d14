"""What is said about the day that a source's energy must last for? None means: not known.

All figures are SI. The source, the tools and the people are those of engine/site/use.Site.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band

LONGEST_DAY_S = 14 * 86_400.0
"""A plan is looked at hour by hour, and no further than this."""


@dataclass(frozen=True, slots=True)
class BatteryCondition:
    """chemistry: lithium or lead_acid. `stops_at` is the charge at which the outlets go off.

    largest_discharge_w : what the battery gives at the temperature of its cells, before the inverter.
    """

    chemistry: str | None = None
    health_ratio: Band | None = None
    age_years: float | None = None
    cells_c: Band | None = None
    stops_at_ratio: Band | None = None
    efficiency_ratio: Band | None = None
    largest_discharge_w: Band | None = None


@dataclass(frozen=True, slots=True)
class RunTime:
    """A plate's "so long at this load on one tank"."""

    pointer: str
    load_ratio: float
    lasts_s: float


@dataclass(frozen=True, slots=True)
class FuelCondition:
    """kind: gasoline, diesel or propane."""

    kind: str | None = None
    in_tank_m3: Band | None = None
    run_times: tuple[RunTime, ...] = ()
    altitude_m: float | None = None


@dataclass(frozen=True, slots=True)
class WayHome:
    """The last drive of the day. `arrive_with_ratio` is what must be left then.

    `figure_of`: whether energy per distance is stated of the battery or, as labels do, from the wall.
    """

    pointer: str
    distance_m: Band | None = None
    headwind_m_per_s: Band | None = None
    towing: bool | None = None
    loaded: bool | None = None
    arrive_with_ratio: float | None = None
    figure_of: str | None = None


@dataclass(frozen=True, slots=True)
class CompressedAir:
    """Plate of a compressor and what its tools draw; pressures above the air around, flows of free air."""

    pointer: str
    tank_m3: float | None = None
    cut_in_pa: float | None = None
    cut_out_pa: float | None = None
    delivery_m3_per_s: Band | None = None
    use_m3_per_s: Band | None = None
    nails_per_s: Band | None = None


@dataclass(frozen=True, slots=True)
class Duty:
    """How much of the time one tool runs: a share, or what its air tools ask of a compressor.

    `rated_ratio` is the duty cycle of its plate: how much of ten minutes it may run.
    """

    pointer: str
    tool: str
    running_ratio: Band | None = None
    air: CompressedAir | None = None
    rated_ratio: float | None = None


@dataclass(frozen=True, slots=True)
class Pack:
    capacity_j: Band | None = None
    from_ratio: Band | None = None
    to_ratio: Band | None = None
    charger_w: Band | None = None
    chargers: int | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """So many units of one kind; `stop` None spreads them over all stops by time."""

    id: str
    pointer: str
    unit: str
    amount: float
    tool: str | None = None
    energy_each_j: Band | None = None
    head_m: Band | None = None
    pack: Pack | None = None
    stop: str | None = None


@dataclass(frozen=True, slots=True)
class Stop:
    """A place of work: the drive to it, how long work lasts there, what runs, and a socket that recharges there."""

    id: str
    pointer: str
    distance_m: Band | None = None
    lasts_s: float | None = None
    running: tuple[str, ...] | None = None
    recharge_w: Band | None = None


@dataclass(frozen=True, slots=True)
class Observation:
    """So many units of a work took so much: a share of the battery or an amount; `over_s` is how long it took."""

    pointer: str
    work: str
    amount: float
    took_ratio: float | None = None
    took_j: float | None = None
    step: float | None = None
    over_s: float | None = None


@dataclass(frozen=True, slots=True)
class Price:
    """Money for an amount: per J of electricity, or per m3 of fuel."""

    amount: float
    currency: str


@dataclass(frozen=True, slots=True)
class EnergyDay:
    """Everything that an energy budget is asked about, beside the site.

    `carbon_*` in kg per J of electricity or per m3 of fuel.
    """

    charge_ratio: Band | None = None
    battery: BatteryCondition = BatteryCondition()
    fuel: FuelCondition = FuelCondition()
    allowance_j: Band | None = None
    shift_s: float | None = None
    pattern: str | None = None
    duties: tuple[Duty, ...] = ()
    work: tuple[Work, ...] = ()
    stops: tuple[Stop, ...] | None = None
    way_home: WayHome | None = None
    solar_w: tuple[float, ...] = ()
    observations: tuple[Observation, ...] = ()
    electricity_price: Price | None = None
    fuel_price: Price | None = None
    carbon_kg_per_j: float | None = None
    carbon_kg_per_m3: float | None = None
    seed: int = 1
    draws: int = 4000
