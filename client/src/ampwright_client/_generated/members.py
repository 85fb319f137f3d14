# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""Which members can a builder be given?"""

from __future__ import annotations

from typing import TypedDict

from msgspec import UnsetType

from ampwright_client._generated.models import (
    Availability,
    CapacityLimit,
    Case,
    Circuit,
    Conditions,
    CordOutlets,
    KitInUse,
    Leg,
    LoadState,
    Receptacle,
    Reset,
    Start,
)
from ampwright_client._generated.words import (
    CodeBasis,
    Control,
    CordLay,
    Earthing,
    EndState,
    EnergyBudgetRequestInclude,
    GroundFault,
    Insulation,
    LedThrough,
    LoadClass,
    MotorProtector,
    NeutralBond,
    Operated,
    Phases,
    Sensitivity,
    Switch,
    Technology,
    Waveform,
)

__all__ = [
    "BatteryStationMembers",
    "CatalogueSourceMembers",
    "CordInUseMembers",
    "EngineGeneratorMembers",
    "LoadCheckRequestMembers",
    "ReceptacleMembers",
    "SiteSupplyMembers",
    "SupplyOptionMembers",
    "ToolInUseMembers",
    "VehicleMembers",
]


class BatteryStationMembers(TypedDict, total=False):
    name: str | UnsetType
    legs: list[Leg] | UnsetType
    limits: list[CapacityLimit] | UnsetType
    circuits: list[Circuit] | UnsetType
    reset: Reset | UnsetType
    waveform: Waveform | UnsetType
    neutral_bond: NeutralBond | UnsetType
    resistance: str | UnsetType
    availability: list[Availability] | UnsetType
    battery: str | UnsetType
    awake_draw: str | UnsetType
    sleeps_below: str | UnsetType
    sleeps_after: str | UnsetType
    wakes_on_load: bool | UnsetType


class CatalogueSourceMembers(TypedDict, total=False):
    name: str | UnsetType
    legs: list[Leg] | UnsetType
    limits: list[CapacityLimit] | UnsetType
    circuits: list[Circuit] | UnsetType
    receptacles: list[Receptacle] | UnsetType
    reset: Reset | UnsetType
    waveform: Waveform | UnsetType
    neutral_bond: NeutralBond | UnsetType
    resistance: str | UnsetType
    availability: list[Availability] | UnsetType
    voltage: str | UnsetType
    battery: str | UnsetType
    awake_draw: str | UnsetType
    sleeps_below: str | UnsetType
    sleeps_after: str | UnsetType
    wakes_on_load: bool | UnsetType
    energy_per_distance: str | UnsetType
    technology: Technology | UnsetType
    running: str | UnsetType
    starting: str | UnsetType
    transient_reactance: str | UnsetType
    tank: str | UnsetType
    earthing: Earthing | UnsetType
    fault_current: str | UnsetType
    revision: int | UnsetType
    unit: str | UnsetType


class CordInUseMembers(TypedDict, total=False):
    name: str | UnsetType
    conductors: int | UnsetType
    type: str | UnsetType
    insulation_temperature: str | UnsetType
    marked: str | UnsetType
    plug: str | UnsetType
    plug_state: EndState | UnsetType
    outlets: CordOutlets | UnsetType
    entry: str | UnsetType
    revision: int | UnsetType
    laid: CordLay | UnsetType
    drum_layers: int | UnsetType
    led_through: LedThrough | UnsetType


class EngineGeneratorMembers(TypedDict, total=False):
    name: str | UnsetType
    legs: list[Leg] | UnsetType
    limits: list[CapacityLimit] | UnsetType
    circuits: list[Circuit] | UnsetType
    reset: Reset | UnsetType
    waveform: Waveform | UnsetType
    neutral_bond: NeutralBond | UnsetType
    resistance: str | UnsetType
    availability: list[Availability] | UnsetType
    technology: Technology | UnsetType
    running: str | UnsetType
    starting: str | UnsetType
    transient_reactance: str | UnsetType
    tank: str | UnsetType


class LoadCheckRequestMembers(TypedDict, total=False):
    kit: KitInUse | UnsetType
    people: int | UnsetType
    cases: list[Case] | UnsetType
    conditions: Conditions | UnsetType
    code_basis: list[CodeBasis] | UnsetType
    catalogue_release: int | UnsetType
    withdrawals_as_of: str | UnsetType
    include: list[EnergyBudgetRequestInclude] | UnsetType
    shift: str | UnsetType


class ReceptacleMembers(TypedDict, total=False):
    type: str | UnsetType
    marked: str | UnsetType
    circuit: str | UnsetType
    location: str | UnsetType
    ground_fault: GroundFault | UnsetType


class SiteSupplyMembers(TypedDict, total=False):
    name: str | UnsetType
    legs: list[Leg] | UnsetType
    limits: list[CapacityLimit] | UnsetType
    circuits: list[Circuit] | UnsetType
    reset: Reset | UnsetType
    waveform: Waveform | UnsetType
    neutral_bond: NeutralBond | UnsetType
    resistance: str | UnsetType
    availability: list[Availability] | UnsetType
    earthing: Earthing | UnsetType
    fault_current: str | UnsetType


class SupplyOptionMembers(TypedDict, total=False):
    id: str | UnsetType
    phases: Phases | UnsetType
    plug: str | UnsetType
    current: str | UnsetType
    power: str | UnsetType
    apparent_power: str | UnsetType
    effective_current: str | UnsetType
    output: str | UnsetType
    load_states: list[LoadState] | UnsetType
    start: Start | UnsetType
    restart: Start | UnsetType


class ToolInUseMembers(TypedDict, total=False):
    name: str | UnsetType
    load_class: LoadClass | UnsetType
    shaft_power: str | UnsetType
    load_states: list[LoadState] | UnsetType
    start: Start | UnsetType
    restart: Start | UnsetType
    switch: Switch | UnsetType
    control: Control | UnsetType
    restart_protection: bool | UnsetType
    motor_protector: MotorProtector | UnsetType
    operated: Operated | UnsetType
    lowest_voltage: str | UnsetType
    sensitivity: Sensitivity | UnsetType
    leakage: str | UnsetType
    insulation: Insulation | UnsetType
    entry: str | UnsetType
    revision: int | UnsetType
    must_return: bool | UnsetType
    follows: str | UnsetType
    on: str | UnsetType
    off: str | UnsetType


class VehicleMembers(TypedDict, total=False):
    name: str | UnsetType
    legs: list[Leg] | UnsetType
    limits: list[CapacityLimit] | UnsetType
    circuits: list[Circuit] | UnsetType
    reset: Reset | UnsetType
    waveform: Waveform | UnsetType
    neutral_bond: NeutralBond | UnsetType
    resistance: str | UnsetType
    availability: list[Availability] | UnsetType
    battery: str | UnsetType
    awake_draw: str | UnsetType
    sleeps_below: str | UnsetType
    sleeps_after: str | UnsetType
    wakes_on_load: bool | UnsetType
    energy_per_distance: str | UnsetType
