"""What is known of a tool: how it is fed, what it draws, how it starts, what its switch does?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.document_parts import (
    ConfigurationText,
    LoadClass,
    SupplyText,
)
from ampwright.contract.parts import (
    Identifier,
    Request,
    Words,
)
from ampwright.contract.quantities import (
    ApparentPowerText,
    CurrentText,
    DurationText,
    PowerText,
    VoltageText,
)

Ratio = Annotated[float, Meta(ge=0.0, le=1.0, examples=[0.92])]
CrestFactor = Annotated[
    float, Meta(ge=1.0, le=10.0, description="Peak over RMS of the current; 1.414 for a sine.", examples=[2.7])
]
FollowsVoltage = Literal["constant_power", "constant_current", "constant_impedance", "series_motor", "induction_motor"]


class SupplyOption(Request, frozen=True, kw_only=True):
    """One way to feed the tool, as its plate says; a dual-voltage tool has two."""

    id: Identifier | UnsetType = UNSET
    voltage: SupplyText
    phases: Literal[1, 3] | UnsetType = UNSET
    plug: ConfigurationText | UnsetType = UNSET
    current: CurrentText | UnsetType = UNSET
    power: PowerText | UnsetType = UNSET
    apparent_power: ApparentPowerText | UnsetType = UNSET
    effective_current: CurrentText | UnsetType = UNSET
    output: CurrentText | UnsetType = UNSET
    load_states: Annotated[list[LoadState], Meta(max_length=8)] | UnsetType = UNSET
    start: Start | UnsetType = UNSET  # where it differs from the tool's own, as amps do between two voltages
    restart: Start | UnsetType = UNSET


class LoadState(Request, frozen=True, kw_only=True):
    """A named running condition. `working` and `heavy` are what verdicts are made of."""

    id: Literal["idle", "working", "heavy"]
    power: PowerText | UnsetType = UNSET
    current: CurrentText | UnsetType = UNSET
    power_factor: Ratio | UnsetType = UNSET
    crest_factor: CrestFactor | UnsetType = UNSET
    follows_voltage: FollowsVoltage | UnsetType = UNSET
    lasts: DurationText | UnsetType = UNSET


class InductionMotorStart(Request, frozen=True, kw_only=True, tag="induction_motor", tag_field="kind"):
    """Start of an induction motor, from plate or from a measured locked-rotor current."""

    motor: Literal["capacitor_start", "split_phase", "permanent_split", "three_phase"] | UnsetType = UNSET
    code_letter: (
        Annotated[
            str, Meta(max_length=1, pattern=r"^[A-HJ-NP-V]$(?!\n)", description="NEMA code letter.", examples=["J"])
        ]
        | UnsetType
    ) = UNSET
    locked_rotor: CurrentText | UnsetType = UNSET
    against: Literal["nothing", "fan", "pump", "head_pressure", "vented", "loaded_drum", "loaded"] | UnsetType = UNSET
    lasts: DurationText | UnsetType = UNSET


class UniversalMotorStart(Request, frozen=True, kw_only=True, tag="universal_motor", tag_field="kind"):
    """Start of a series-wound commutator motor."""

    soft_start: bool | UnsetType = UNSET
    peak: CurrentText | UnsetType = UNSET
    lasts: DurationText | UnsetType = UNSET


class ElectronicMotorStart(Request, frozen=True, kw_only=True, tag="electronic_motor", tag_field="kind"):
    """Run-up of a permanent-magnet motor by its electronics: a ramp of power to a peak, and no surge.

    `peak` is the current at the end of the ramp, `lasts` how long it takes.
    """

    corrected: bool | UnsetType = UNSET
    peak: CurrentText | UnsetType = UNSET
    lasts: DurationText | UnsetType = UNSET


class RectifierStart(Request, frozen=True, kw_only=True, tag="rectifier", tag_field="kind"):
    """Switch-on of a rectifier with a capacitor behind it."""

    corrected: bool | UnsetType = UNSET
    peak: CurrentText | UnsetType = UNSET


class ResistiveStart(Request, frozen=True, kw_only=True, tag="resistive", tag_field="kind"):
    """Switch-on of a heater or a filament."""

    cold_current: CurrentText | UnsetType = UNSET


class MeasuredStart(Request, frozen=True, kw_only=True, tag="measured", tag_field="kind"):
    """A start as a meter saw it on a stiff supply."""

    peak: CurrentText
    lasts: DurationText | UnsetType = UNSET
    at: VoltageText | UnsetType = UNSET


Start = (
    InductionMotorStart | UniversalMotorStart | ElectronicMotorStart | RectifierStart | ResistiveStart | MeasuredStart
)


class ToolMembers(Request, frozen=True, kw_only=True):
    """What is known of a kind of load; all may be omitted."""

    name: Words | UnsetType = UNSET
    load_class: LoadClass | UnsetType = UNSET
    shaft_power: PowerText | UnsetType = UNSET
    supply_options: Annotated[list[SupplyOption], Meta(max_length=8)] | UnsetType = UNSET
    load_states: Annotated[list[LoadState], Meta(max_length=8)] | UnsetType = UNSET
    start: Start | UnsetType = UNSET
    restart: Start | UnsetType = UNSET
    switch: (
        Literal["positive_on_off", "momentary_lock_on", "constant_pressure", "automatic", "always_on"] | UnsetType
    ) = UNSET
    control: Literal["none", "pressure", "float", "thermostat", "follows_tool"] | UnsetType = UNSET
    restart_protection: bool | UnsetType = UNSET
    motor_protector: Literal["none", "resets_by_itself", "resets_by_hand"] | UnsetType = UNSET
    operated: Literal["by_hand", "attended", "by_itself"] | UnsetType = UNSET
    lowest_voltage: VoltageText | UnsetType = UNSET
    sensitivity: Literal["low", "medium", "high"] | UnsetType = UNSET
    leakage: CurrentText | UnsetType = UNSET
    insulation: Literal["class_i", "class_ii", "class_iii"] | UnsetType = UNSET
