"""What is a power source made of, as far as the caller knows? None means: not known."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ampwright.engine.site.band import Band

LEG_NAMES = ("L1", "L2", "L3")
NEUTRAL = 3  # conductor index of the neutral; legs are 0, 1, 2


@dataclass(frozen=True, slots=True)
class SupplySystem:
    """A supply by its nominal voltage.

    `kind` is single, split_phase, three_phase, centre_tapped (earthed centre that no load may use) or dc.
    `angles_rad` has one entry per leg, in the order of LEG_NAMES.
    """

    text: str
    kind: str
    leg_voltage_v: float
    angles_rad: tuple[float, ...]

    @property
    def legs(self) -> tuple[str, ...]:
        return LEG_NAMES[: len(self.angles_rad)]

    @property
    def has_neutral(self) -> bool:
        return self.kind != "centre_tapped"


@dataclass(frozen=True, slots=True)
class Capacity:
    """An amount in A, W or VA; `unit` says which."""

    band: Band
    unit: str


@dataclass(frozen=True, slots=True)
class Reset:
    """How power comes back: automatic, remote or manual."""

    how: str
    where: str | None = None
    by: str | None = None
    needs: str | None = None
    after_s: Band | None = None
    tries: int | None = None

    @property
    def as_it_acts(self) -> Reset:
        """One that locks out at its first trip is reset by a person, whatever it is called."""
        return replace(self, how="manual", after_s=None) if self.how == "automatic" and self.tries == 0 else self


@dataclass(frozen=True, slots=True)
class Tier:
    """An overload that is carried for a time."""

    amount: Capacity
    lasts_s: Band


@dataclass(frozen=True, slots=True)
class CapacityLimit:
    """A limit over legs and circuits by their ids; `over` None covers everything."""

    id: str
    pointer: str
    over: tuple[str, ...] | None = None
    continuous: Capacity | None = None
    tiers: tuple[Tier, ...] | None = None
    response: str | None = None
    peak_a: Band | None = None
    reset: Reset | None = None


@dataclass(frozen=True, slots=True)
class OvercurrentDevice:
    """kind: breaker, supplementary_protector, fuse or electronic."""

    kind: str
    standard: str | None = None
    rating_a: Band | None = None
    ambient_c: Band | None = None
    tiers: tuple[Tier, ...] | None = None
    response: str | None = None
    reset: Reset | None = None


@dataclass(frozen=True, slots=True)
class Circuit:
    id: str
    pointer: str
    legs: tuple[str, ...] | None = None
    resistance_ohm: Band | None = None
    device: OvercurrentDevice | None = None


@dataclass(frozen=True, slots=True)
class Receptacle:
    id: str
    pointer: str
    type: str | None = None
    marked_a: Band | None = None
    circuit: str | None = None
    location: str | None = None
    ground_fault: str | None = None


@dataclass(frozen=True, slots=True)
class Availability:
    """`at` is a share of charge (0..1) or a power in W, as `when` asks."""

    when: str
    works: bool
    at: float | None = None


@dataclass(frozen=True, slots=True)
class PowerSource:
    """kind: vehicle, engine_generator, battery_station or site_supply.

    Lists are None when not given; an empty tuple says that there are none.
    `resistance` carries its unit, ohm or pu of the source's own rating.
    """

    kind: str
    supply: SupplySystem
    pointer: str = "/source"
    name: str | None = None
    limits: tuple[CapacityLimit, ...] | None = None
    circuits: tuple[Circuit, ...] | None = None
    receptacles: tuple[Receptacle, ...] | None = None
    reset: Reset | None = None
    waveform: str | None = None
    neutral_bond: str | None = None
    resistance: tuple[Band, str] | None = None
    availability: tuple[Availability, ...] = field(default=())
    battery_j: Band | None = None
    awake_draw_w: Band | None = None
    sleeps_below_w: Band | None = None
    sleeps_after_s: Band | None = None
    wakes_on_load: bool | None = None
    energy_per_distance_j_per_m: Band | None = None
    technology: str | None = None
    running: Capacity | None = None
    starting: Capacity | None = None
    transient_reactance_pu: Band | None = None
    tank_m3: Band | None = None
    earthing: str | None = None
    fault_current_a: Band | None = None
