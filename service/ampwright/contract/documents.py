"""What is a power source, a tool, a cord, a kit and a source unit, as written by a person and stored in the catalogue?

One family of structs serves both: a request carries a document inline, or names a catalogue entry and corrects
members of it. Every figure is optional, since an omitted member is unknown and becomes a stated assumption.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.parts import (
    MOST_ITEMS,
    Answer,
    Count,
    Identifier,
    Pointer,
    Request,
    Revision,
    Slug,
    Words,
    text_list,
)
from ampwright.contract.quantities import (
    AngleText,
    ApparentPowerText,
    CapacityText,
    CurrentText,
    DurationText,
    EnergyPerDistanceText,
    EnergyText,
    LengthText,
    PerUnitText,
    PowerText,
    ResistanceText,
    SourceResistanceText,
    TemperatureText,
    VoltageText,
    VolumeText,
)
from ampwright.engine.site.load_classes import LOAD_CLASS_NAMES

SUPPLY_PATTERN = (
    r"^(?:[0-9]{2,3}(?:\.[0-9])? V(?: DC)?"  # 120 V, 48 V DC
    r"|[0-9]{2,3}/[0-9]{3} V"  # 120/240 V, 230/400 V
    r"|[0-9]{3}Y/[0-9]{2,3}(?:\.[0-9])? V"  # 208Y/120 V
    r"|[0-9]{2,3}-0-[0-9]{2,3} V)$(?!\n)"  # 55-0-55 V
)
SupplyText = Annotated[
    str,
    Meta(
        max_length=16,
        description="Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs "
        "(`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current "
        "(`48 V DC`).",
        examples=["120/240 V"],
        extra_json_schema={"pattern": SUPPLY_PATTERN},
    ),
]
SizeText = Annotated[
    str,
    Meta(
        max_length=16,
        description="Conductor size, a key of the tables of sizes: AWG or mm2.",
        examples=["12 AWG"],
        extra_json_schema={"pattern": r"^(?:[0-9]{1,2}(?:/0)? AWG|[0-9]{1,3}(?:\.[0-9]{1,2})? mm2)$(?!\n)"},
    ),
]
ConfigurationText = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=32,
        description="Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; "
        "GET /v1/reference/plugs lists them.",
        examples=["5-20R"],
    ),
]
LegName = Literal["L1", "L2", "L3"]
LoadClass = Annotated[
    str, text_list(LOAD_CLASS_NAMES, "Kind of load; decides what is assumed where the plate is silent.", "circular_saw")
]

Origin = Literal["nameplate", "measured", "standard", "estimate", "invented_demo"]


DateText = Annotated[
    str, Meta(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$(?!\n)", max_length=10, description="Day.", examples=["2026-05-04"])
]


class Provenance(Request, frozen=True, kw_only=True):
    """Where one figure of a document comes from, where that differs from the document's own origin."""

    pointer: Pointer
    origin: Origin
    note: Words | UnsetType = UNSET
    instrument: Words | UnsetType = UNSET
    on_date: DateText | UnsetType = UNSET


ProvenanceList = Annotated[list[Provenance], Meta(max_length=200)]

# --- power sources -----------------------------------------------------------------------------------------------


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
    energy_per_distance: EnergyPerDistanceText | UnsetType = UNSET


class BatteryStation(SourceMembers, frozen=True, kw_only=True, tag="battery_station", tag_field="kind"):
    """A portable battery with an inverter."""

    voltage: SupplyText
    battery: EnergyText | UnsetType = UNSET
    awake_draw: PowerText | UnsetType = UNSET
    sleeps_below: PowerText | UnsetType = UNSET


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


# --- tools -------------------------------------------------------------------------------------------------------

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


Start = InductionMotorStart | UniversalMotorStart | RectifierStart | ResistiveStart | MeasuredStart


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
    operated: Literal["by_hand", "attended", "by_itself"] | UnsetType = UNSET
    lowest_voltage: VoltageText | UnsetType = UNSET
    sensitivity: Literal["low", "medium", "high"] | UnsetType = UNSET
    leakage: CurrentText | UnsetType = UNSET
    insulation: Literal["class_i", "class_ii", "class_iii"] | UnsetType = UNSET


# --- cords and kits ----------------------------------------------------------------------------------------------


class CordOutlets(Request, frozen=True, kw_only=True):
    """The far end of a cord: how many outlets of which type."""

    type: ConfigurationText | UnsetType = UNSET
    rating: CurrentText | UnsetType = UNSET
    count: Count | UnsetType = UNSET
    state: Literal["good", "worn", "damaged"] | UnsetType = UNSET


class CordMembers(Request, frozen=True, kw_only=True):
    """One flexible cord; all may be omitted."""

    name: Words | UnsetType = UNSET
    length: LengthText | UnsetType = UNSET
    size: SizeText | UnsetType = UNSET
    conductors: (
        Annotated[int, Meta(ge=2, le=5, description="All conductors, earth included.", examples=[3])] | UnsetType
    ) = UNSET
    type: (
        Annotated[
            str,
            Meta(
                min_length=1,
                max_length=24,
                pattern=r"^[A-Z0-9][A-Z0-9\-]{0,22}$(?!\n)",
                description="Cord type as printed on the jacket.",
                examples=["SJTW"],
            ),
        ]
        | UnsetType
    ) = UNSET
    insulation_temperature: TemperatureText | UnsetType = UNSET
    marked: CurrentText | UnsetType = UNSET
    plug: ConfigurationText | UnsetType = UNSET
    plug_state: Literal["good", "worn", "damaged"] | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET


# --- stored documents --------------------------------------------------------------------------------------------


class ToolProfile(ToolMembers, frozen=True, kw_only=True):
    """A stored tool profile."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class CordDocument(CordMembers, frozen=True, kw_only=True):
    """A stored cord."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class VehicleDocument(Vehicle, frozen=True, kw_only=True, tag="vehicle", tag_field="kind"):
    """A stored vehicle."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class BatteryStationDocument(BatteryStation, frozen=True, kw_only=True, tag="battery_station", tag_field="kind"):
    """A stored battery station."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class EngineGeneratorDocument(EngineGenerator, frozen=True, kw_only=True, tag="engine_generator", tag_field="kind"):
    """A stored engine generator."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class SiteSupplyDocument(SiteSupply, frozen=True, kw_only=True, tag="site_supply", tag_field="kind"):
    """A stored site supply."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


PowerSourceDocument = VehicleDocument | EngineGeneratorDocument | BatteryStationDocument | SiteSupplyDocument


class KitItem(Request, frozen=True, kw_only=True):
    """One line of a kit: so many of this entry, under this id."""

    id: Identifier
    entry: Slug
    revision: Revision | UnsetType = UNSET
    count: Count | UnsetType = UNSET


class KitAdapter(Request, frozen=True, kw_only=True):
    """An adapter in the kit. It is counted, never advised."""

    id: Identifier
    plug: ConfigurationText
    receptacle: ConfigurationText
    count: Count | UnsetType = UNSET


class KitDocument(Request, frozen=True, kw_only=True):
    """The tools, cords and adapters that a crew takes."""

    name: Words
    origin: Origin
    tools: Annotated[list[KitItem], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    cords: Annotated[list[KitItem], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    adapters: Annotated[list[KitAdapter], Meta(max_length=100)] | UnsetType = UNSET
    provenance: ProvenanceList | UnsetType = UNSET


class Observation(Request, frozen=True, kw_only=True):
    """What somebody saw a source unit do. Stored and shown beside answers; no figure is ever raised by it."""

    on_date: DateText
    what: Annotated[
        Literal["held", "tripped", "shut_down", "sagged", "stalled_tool", "reset_by_itself", "inspected", "other"],
        Meta(description="What the unit did."),
    ]
    receptacle: Identifier | UnsetType = UNSET
    current: CurrentText | UnsetType = UNSET
    power: PowerText | UnsetType = UNSET
    voltage: VoltageText | UnsetType = UNSET
    lasted: DurationText | UnsetType = UNSET
    instrument: Words | UnsetType = UNSET
    note: Words | UnsetType = UNSET
    by: Words | UnsetType = UNSET


class SourceUnit(Request, frozen=True, kw_only=True):
    """One vehicle, generator, station or supply of the fleet; its key is its fleet id.

    `entry` (with `revision`, else the release decides) is the kind of source that it is; `corrections` say where this
    one differs, as on a plate of its own or after a repair.
    """

    name: Words
    origin: Origin
    entry: Slug
    revision: Revision | UnsetType = UNSET
    corrections: SourceCorrections | UnsetType = UNSET
    observations: Annotated[list[Observation], Meta(max_length=200)] | UnsetType = UNSET
    provenance: ProvenanceList | UnsetType = UNSET


FORMAT = 1  # number of the stored format; a stored body names the format it was written in
DOCUMENT_TYPES = {
    "tool-profile": ToolProfile,
    "power-source": PowerSourceDocument,
    "cord": CordDocument,
    "kit": KitDocument,
    "source-unit": SourceUnit,
}
__all__ = ["DOCUMENT_TYPES", "FORMAT", "Answer"]
