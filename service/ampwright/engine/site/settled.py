"""What does a site look like once every unknown has a value?

Made by the settle modules from engine/site/use.Site and a Ledger; read by the calculations.
Conductor indices: 0, 1, 2 are L1, L2, L3; 3 is the neutral.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.load_classes import LoadClass
from ampwright.engine.site.source import OvercurrentDevice, PowerSource, Reset
from ampwright.engine.site.tool import SupplyOption, Tool
from ampwright.engine.standards.plugs import configuration


@dataclass(frozen=True, slots=True)
class SettledLimit:
    """A capacity limit; `circuits` are indices, `legs` conductor indices. One of the three amounts decides.

    `peak_a` is None where the source limits no peak (engine sets without electronics, a network).
    """

    id: str
    pointer: str
    circuits: tuple[int, ...]
    legs: tuple[int, ...]
    continuous: float
    unit: str
    peak_a: float | None
    response: str | None
    continuous_low: float
    peak_is_stated: bool


@dataclass(frozen=True, slots=True)
class SettledCircuit:
    id: str
    pointer: str
    legs: tuple[int, ...]
    resistance_ohm: Band  # out and back
    rating_a: float
    device: OvercurrentDevice | None
    rating_low_a: float


@dataclass(frozen=True, slots=True)
class SettledReceptacle:
    """`connection` is L-N, L-L, L-L-N, L-L-L or L-L-L-N."""

    id: str
    pointer: str
    circuit: int
    type: str | None
    connection: str
    rating_a: float
    ground_fault: str | None
    location: str | None


@dataclass(frozen=True, slots=True)
class SettledSource:
    source: PowerSource
    leg_angles_rad: tuple[float, ...]
    leg_voltage_v: float
    resistance_ohm: Band  # per leg
    limits: tuple[SettledLimit, ...]
    circuits: tuple[SettledCircuit, ...]
    receptacles: tuple[SettledReceptacle, ...]
    reset: Reset | None
    reset_pointer: str
    may_stay_off: bool


@dataclass(frozen=True, slots=True)
class SettledCord:
    """`capacity_from` says which of mark, ends and ampacity is the least.

    `loaded_conductors` is 2 or 3: the column of the ampacity table. `lay_factor` scales the heat it may shed.
    """

    id: str
    pointer: str
    length_m: Band
    resistance_20c_ohm_per_m: float
    capacity_a: float
    capacity_from: str
    ampacity_a: float
    insulation_c: float
    lay_factor: float
    laid: str
    area_m2: float
    loaded_conductors: int
    conductors: int
    plug: str | None
    outlet: str | None
    outlets: int
    worn: bool
    damaged: bool
    type: str | None
    basis: tuple[tuple[str, str], ...]  # (citation key, status)

    @property
    def without_earth(self) -> bool:
        """Whether two conductors, or a plug without an earth contact, leave what it feeds unearthed."""
        plug = configuration(self.plug) if self.plug else None
        return self.conductors <= 2 or (plug is not None and not plug.has_earth)


@dataclass(frozen=True, slots=True)
class SettledState:
    """Complex power at plate voltage for low, typical and high; the whole tool, all phases."""

    id: str
    power_va: tuple[complex, complex, complex]
    crest_factor: float
    constant_current_ratio: float
    constant_impedance_ratio: float
    lasts_s: float
    third_harmonic_ratio: float = 0.0  # of the current's RMS value


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something that does not go together; `code` is a finding code."""

    code: str
    pointer: str
    plug: str
    into: str


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a tool is fed. `option` None: nothing that the plate allows is there, and the tool draws nothing.

    `lines` are pairs of conductors, three of them for a three-phase tool; `cords` run from the receptacle outward.
    """

    tool: Tool
    load_class: LoadClass
    receptacle: int
    cords: tuple[int, ...]
    option: SupplyOption | None
    plate_voltage_v: float
    lines: tuple[tuple[int, int], ...]
    states: tuple[SettledState, ...]
    lowest_voltage_v: float
    maintained_switch: bool
    restart_protection: bool
    misfits: tuple[Misfit, ...]

    def state(self, state_id: str) -> SettledState:
        return next(state for state in self.states if state.id == state_id)


@dataclass(frozen=True, slots=True)
class SettledSite:
    source: SettledSource
    cords: tuple[SettledCord, ...]
    cord_parents: tuple[tuple[str, int], ...]  # ("receptacle" | "cord", index) that each cord is plugged into
    placements: tuple[Placement, ...]
    ambient_c: Band
    contact_ohm: Band  # one contact of one conductor
    people: int
