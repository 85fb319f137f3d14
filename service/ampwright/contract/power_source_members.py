"""What is known of a power source: its legs, limits, circuits, receptacles, resets?

Every figure is optional, since an omitted member is unknown and becomes a stated assumption.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.document_parts import (
    ConfigurationText,
    LegName,
    SupplyText,
)
from ampwright.contract.parts import (
    Identifier,
    Request,
    Revision,
    Slug,
    Words,
)
from ampwright.contract.quantities import (
    AngleText,
    CapacityText,
    CurrentText,
    DurationText,
    EnergyPerDistanceText,
    EnergyText,
    PerUnitText,
    PowerText,
    ResistanceText,
    SourceResistanceText,
    TemperatureText,
    VolumeText,
)


class Leg(Request, frozen=True, kw_only=True):
    """One line conductor of the supply. Two legs can be opposite, at 120 degrees, or in phase."""

    id: LegName
    angle: AngleText


class Reset(Request, frozen=True, kw_only=True):
    """How power comes back after a trip. Unknown counts as automatic for danger and as manual for lost work."""

    how: Literal["automatic", "remote", "manual"]
    where: Words | UnsetType = UNSET
    by: Words | UnsetType = UNSET
    needs: Words | UnsetType = UNSET
    after: DurationText | UnsetType = UNSET
    tries: Annotated[int, Meta(ge=0, le=1000, examples=[2])] | UnsetType = UNSET


class Tier(Request, frozen=True, kw_only=True):
    """An overload that a limit allows for a time."""

    amount: CapacityText
    lasts: DurationText


class CapacityLimit(Request, frozen=True, kw_only=True):
    """A limit in A, W or VA over a set of legs or circuits; limits may nest."""

    id: Identifier
    over: Annotated[list[Identifier], Meta(max_length=64)] | UnsetType = UNSET
    continuous: CapacityText | UnsetType = UNSET
    tiers: Annotated[list[Tier], Meta(max_length=8)] | UnsetType = UNSET
    response: Literal["current_limiting", "shutdown", "voltage_dip"] | UnsetType = UNSET
    peak: CurrentText | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET


class DeviceMembers(Request, frozen=True, kw_only=True):
    rating: CurrentText | UnsetType = UNSET
    ambient: TemperatureText | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET


class Breaker(DeviceMembers, frozen=True, kw_only=True, tag="breaker", tag_field="kind"):
    """A thermal-magnetic circuit breaker."""

    standard: Literal["ul_489", "iec_60898_b", "iec_60898_c", "iec_60898_d"] | UnsetType = UNSET


class SupplementaryProtector(DeviceMembers, frozen=True, kw_only=True, tag="supplementary_protector", tag_field="kind"):
    """A thermal push-button protector; not a branch-circuit device."""

    standard: Literal["ul_1077", "iec_60934"] | UnsetType = UNSET


class Fuse(DeviceMembers, frozen=True, kw_only=True, tag="fuse", tag_field="kind"):
    """A fuse; replacing it is the reset."""

    standard: Literal["bs_1362", "iec_60269", "ul_248"] | UnsetType = UNSET


class ElectronicLimit(DeviceMembers, frozen=True, kw_only=True, tag="electronic", tag_field="kind"):
    """A limit measured and acted on by the source's electronics."""

    tiers: Annotated[list[Tier], Meta(max_length=8)] | UnsetType = UNSET
    response: Literal["current_limiting", "shutdown"] | UnsetType = UNSET


OvercurrentDevice = Breaker | SupplementaryProtector | Fuse | ElectronicLimit


class Circuit(Request, frozen=True, kw_only=True):
    """Conductors behind one overcurrent device, on named legs."""

    id: Identifier
    legs: Annotated[list[LegName], Meta(min_length=1, max_length=3)] | UnsetType = UNSET
    resistance: ResistanceText | UnsetType = UNSET
    device: OvercurrentDevice | UnsetType = UNSET


class Receptacle(Request, frozen=True, kw_only=True):
    """One outlet of the source. A circuit may be named here without being listed."""

    id: Identifier
    type: ConfigurationText | UnsetType = UNSET
    marked: CurrentText | UnsetType = UNSET
    circuit: Identifier | UnsetType = UNSET
    location: Words | UnsetType = UNSET
    ground_fault: (
        Literal["none", "gfci_class_a", "rcd_30ma_type_ac", "rcd_30ma_type_a", "rcd_30ma_type_f", "rcd_30ma_type_b"]
        | UnsetType
    ) = UNSET


class Availability(Request, frozen=True, kw_only=True):
    """A state in which the source gives no power, or keeps giving it."""

    when: Literal["asleep", "locked", "driving", "charging", "charge_below", "load_below"]
    at: (
        Annotated[
            str,
            Meta(
                max_length=48,
                description="The threshold: a share of charge in percent, or a power.",
                examples=["20 %"],
                extra_json_schema={"pattern": r"^[0-9]{1,6}(?:\.[0-9]{1,3})? (?:%|W|kW)$(?!\n)"},
            ),
        ]
        | UnsetType
    ) = UNSET
    works: bool


class SourceMembers(Request, frozen=True, kw_only=True):
    """Members that every kind of source has; all may be omitted."""

    name: Words | UnsetType = UNSET
    legs: Annotated[list[Leg], Meta(min_length=1, max_length=3)] | UnsetType = UNSET
    limits: Annotated[list[CapacityLimit], Meta(max_length=32)] | UnsetType = UNSET
    circuits: Annotated[list[Circuit], Meta(max_length=64)] | UnsetType = UNSET
    receptacles: Annotated[list[Receptacle], Meta(max_length=100)] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Literal["sine", "modified_sine", "dc"] | UnsetType = UNSET
    neutral_bond: Literal["bonded", "floating", "bonded_upstream"] | UnsetType = UNSET
    resistance: SourceResistanceText | UnsetType = UNSET
    availability: Annotated[list[Availability], Meta(max_length=16)] | UnsetType = UNSET


class Vehicle(SourceMembers, frozen=True, kw_only=True, tag="vehicle", tag_field="kind"):
    """Outlets of an electric or hybrid work vehicle, fed by its inverter."""

    voltage: SupplyText
    battery: EnergyText | UnsetType = UNSET
    awake_draw: PowerText | UnsetType = UNSET
    sleeps_below: PowerText | UnsetType = UNSET
    sleeps_after: DurationText | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: EnergyPerDistanceText | UnsetType = UNSET


class BatteryStation(SourceMembers, frozen=True, kw_only=True, tag="battery_station", tag_field="kind"):
    """A portable battery with an inverter."""

    voltage: SupplyText
    battery: EnergyText | UnsetType = UNSET
    awake_draw: PowerText | UnsetType = UNSET
    sleeps_below: PowerText | UnsetType = UNSET
    sleeps_after: DurationText | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET


class EngineGenerator(SourceMembers, frozen=True, kw_only=True, tag="engine_generator", tag_field="kind"):
    """An engine set; its technology decides what a start does to the voltage."""

    voltage: SupplyText
    technology: Literal["avr", "capacitor_regulated", "inverter"] | UnsetType = UNSET
    running: CapacityText | UnsetType = UNSET
    starting: CapacityText | UnsetType = UNSET
    transient_reactance: PerUnitText | UnsetType = UNSET
    tank: VolumeText | UnsetType = UNSET


class SiteSupply(SourceMembers, frozen=True, kw_only=True, tag="site_supply", tag_field="kind"):
    """A temporary supply from the network."""

    voltage: SupplyText
    earthing: Literal["tn_s", "tn_c_s", "tt", "it"] | UnsetType = UNSET
    fault_current: CurrentText | UnsetType = UNSET


PowerSource = Vehicle | EngineGenerator | BatteryStation | SiteSupply


class SourceCorrections(SourceMembers, frozen=True, kw_only=True):
    """Members of any kind of source that correct a document, one by one; lists go by `id`."""

    voltage: SupplyText | UnsetType = UNSET
    battery: EnergyText | UnsetType = UNSET
    awake_draw: PowerText | UnsetType = UNSET
    sleeps_below: PowerText | UnsetType = UNSET
    sleeps_after: DurationText | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: EnergyPerDistanceText | UnsetType = UNSET
    technology: Literal["avr", "capacitor_regulated", "inverter"] | UnsetType = UNSET
    running: CapacityText | UnsetType = UNSET
    starting: CapacityText | UnsetType = UNSET
    transient_reactance: PerUnitText | UnsetType = UNSET
    tank: VolumeText | UnsetType = UNSET
    earthing: Literal["tn_s", "tn_c_s", "tt", "it"] | UnsetType = UNSET
    fault_current: CurrentText | UnsetType = UNSET


class CatalogueSource(SourceCorrections, frozen=True, kw_only=True, tag="catalogue", tag_field="kind"):
    """A source of the catalogue, by its kind (`entry`), its fleet id (`unit`) or both; one of them is needed.

    A unit brings the kind that it is of, and its own corrections of it. What stands beside corrects both for this
    request.
    """

    entry: Slug | UnsetType = UNSET
    revision: Revision | UnsetType = UNSET
    unit: (
        Annotated[
            Identifier,
            Meta(description="Fleet id: the key of a source unit of the catalogue, in small or capital letters."),
        ]
        | UnsetType
    ) = UNSET
