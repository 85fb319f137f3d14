# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""Which words does the contract know?"""

from typing import TYPE_CHECKING, Literal, TypeAlias

__all__ = [
    "Aspect",
    "BreakerStandard",
    "CapacityLimitResponse",
    "ChangeOperation",
    "Chemistry",
    "CodeBasis",
    "Control",
    "CordLay",
    "CordRowKind",
    "DecidingInputKind",
    "DifferenceRowChange",
    "Earthing",
    "ElectronicLimitResponse",
    "EndState",
    "EnergyBudgetRequestInclude",
    "EntryKind",
    "EntryStatus",
    "Extent",
    "FigureOf",
    "FixedWiring",
    "FollowsVoltage",
    "FuelConditionsKind",
    "FuseStandard",
    "GroundFault",
    "Insulation",
    "LedThrough",
    "LegName",
    "LoadClass",
    "LoadStateName",
    "MotorKind",
    "MotorProtector",
    "NeutralBond",
    "Of",
    "Operated",
    "Origin",
    "Pattern",
    "Phases",
    "Place",
    "Plugging",
    "ResetMethod",
    "Returned",
    "RuleLineLoadState",
    "Scopes",
    "Sensitivity",
    "Severity",
    "ShiftItemKind",
    "SourceComparisonRequestInclude",
    "SourceState",
    "StartsAgainst",
    "SupplementaryProtectorStandard",
    "Switch",
    "Technology",
    "Turned",
    "Unit",
    "Verdict",
    "Waveform",
    "What",
    "WrittenStatus",
]
if TYPE_CHECKING:
    Aspect: TypeAlias = Literal["safety", "capacity", "code"]
    BreakerStandard: TypeAlias = Literal["ul_489", "iec_60898_b", "iec_60898_c", "iec_60898_d"]
    CapacityLimitResponse: TypeAlias = Literal["current_limiting", "shutdown", "voltage_dip"]
    ChangeOperation: TypeAlias = Literal["add", "replace", "remove"]
    Chemistry: TypeAlias = Literal["lithium", "lead_acid"]
    CodeBasis: TypeAlias = Literal[
        "osha-1926",
        "nec-2017",
        "nec-2020",
        "nec-2023",
        "iec-60364",
        "bs-7671",
        "iec-60364-at",
        "iec-60364-be",
        "iec-60364-ch",
        "iec-60364-cz",
        "iec-60364-de",
        "iec-60364-dk",
        "iec-60364-es",
        "iec-60364-fi",
        "iec-60364-fr",
        "iec-60364-ie",
        "iec-60364-it",
        "iec-60364-nl",
        "iec-60364-no",
        "iec-60364-pl",
        "iec-60364-pt",
        "iec-60364-se",
    ]
    Control: TypeAlias = Literal["none", "pressure", "float", "thermostat", "follows_tool"]
    CordLay: TypeAlias = Literal["straight", "coiled", "drum"]
    CordRowKind: TypeAlias = Literal["size", "cord", "run"]
    DecidingInputKind: TypeAlias = Literal["weight", "figure"]
    DifferenceRowChange: TypeAlias = Literal["added", "removed", "changed"]
    Earthing: TypeAlias = Literal["tn_s", "tn_c_s", "tt", "it"]
    ElectronicLimitResponse: TypeAlias = Literal["current_limiting", "shutdown"]
    EndState: TypeAlias = Literal["good", "worn", "damaged"]
    EnergyBudgetRequestInclude: TypeAlias = Literal["break_evens", "faults", "largest_sets", "shift", "trip_curves"]
    EntryKind: TypeAlias = Literal["tool-profile", "power-source", "cord", "kit", "source-unit"]
    EntryStatus: TypeAlias = Literal["draft", "approved", "withdrawn"]
    Extent: TypeAlias = Literal["one_tool", "one_receptacle", "one_circuit", "everything"]
    FigureOf: TypeAlias = Literal["battery", "wall"]
    FixedWiring: TypeAlias = Literal["none", "transfer_equipment", "direct"]
    FollowsVoltage: TypeAlias = Literal[
        "constant_power", "constant_current", "constant_impedance", "series_motor", "induction_motor"
    ]
    FuelConditionsKind: TypeAlias = Literal["gasoline", "diesel", "propane"]
    FuseStandard: TypeAlias = Literal["bs_1362", "iec_60269", "ul_248"]
    GroundFault: TypeAlias = Literal[
        "none", "gfci_class_a", "rcd_30ma_type_ac", "rcd_30ma_type_a", "rcd_30ma_type_f", "rcd_30ma_type_b"
    ]
    Insulation: TypeAlias = Literal["class_i", "class_ii", "class_iii"]
    LedThrough: TypeAlias = Literal["none", "door", "window", "road"]
    LegName: TypeAlias = Literal["L1", "L2", "L3"]
    LoadClass: TypeAlias = Literal[
        "air_compressor",
        "angle_grinder",
        "battery_charger",
        "chain_saw",
        "circular_saw",
        "concrete_mixer",
        "cut_off_saw",
        "demolition_hammer",
        "dust_extractor",
        "electronic_tool",
        "electronics",
        "fan",
        "filament_light",
        "hand_drill",
        "heat_gun",
        "heater",
        "jig_saw",
        "led_light",
        "mitre_saw",
        "other",
        "planer",
        "pressure_washer",
        "pump",
        "reciprocating_saw",
        "refrigerator",
        "rotary_hammer",
        "router",
        "sander",
        "stationary_saw",
        "table_saw",
        "welder",
    ]
    LoadStateName: TypeAlias = Literal["idle", "working", "heavy"]
    MotorKind: TypeAlias = Literal["capacitor_start", "split_phase", "permanent_split", "three_phase"]
    MotorProtector: TypeAlias = Literal["none", "resets_by_itself", "resets_by_hand"]
    NeutralBond: TypeAlias = Literal["bonded", "floating", "bonded_upstream"]
    Of: TypeAlias = Literal["load_check_request", "energy_budget_request", "kit"]
    Operated: TypeAlias = Literal["by_hand", "attended", "by_itself"]
    Origin: TypeAlias = Literal["nameplate", "measured", "standard", "estimate", "invented_demo"]
    Pattern: TypeAlias = Literal["concrete", "demolition", "framing", "landscaping", "punch_list", "welding"]
    Phases: TypeAlias = Literal[1, 3]
    Place: TypeAlias = Literal["open_air", "indoors", "enclosed", "trench", "near_opening"]
    Plugging: TypeAlias = Literal["stated", "planned"]
    ResetMethod: TypeAlias = Literal["automatic", "remote", "manual"]
    Returned: TypeAlias = Literal["by_itself", "at_the_breaker", "at_the_ground_fault_device", "at_the_source"]
    RuleLineLoadState: TypeAlias = Literal["working", "heavy", "duty"]
    Scopes: TypeAlias = Literal["calculate", "catalogue:read", "catalogue:write", "release", "keys"]
    Sensitivity: TypeAlias = Literal["low", "medium", "high"]
    Severity: TypeAlias = Literal["danger", "caution", "info"]
    ShiftItemKind: TypeAlias = Literal["circuit", "limit"]
    SourceComparisonRequestInclude: TypeAlias = Literal["changes", "requests"]
    SourceState: TypeAlias = Literal["asleep", "locked", "driving", "charging", "charge_below", "load_below"]
    StartsAgainst: TypeAlias = Literal["nothing", "fan", "pump", "head_pressure", "vented", "loaded_drum", "loaded"]
    SupplementaryProtectorStandard: TypeAlias = Literal["ul_1077", "iec_60934"]
    Switch: TypeAlias = Literal["positive_on_off", "momentary_lock_on", "constant_pressure", "automatic", "always_on"]
    Technology: TypeAlias = Literal["avr", "capacitor_regulated", "inverter"]
    Turned: TypeAlias = Literal["better", "worse", "answered", "no_longer_answered"]
    Unit: TypeAlias = Literal[
        "cut",
        "hole",
        "light_hour",
        "litre_pumped",
        "masonry_hole",
        "metal_cut",
        "nail",
        "pack",
        "square_metre_sanded",
        "stone_metre",
        "tool_hour",
        "weld_metre",
    ]
    Verdict: TypeAlias = Literal["pass", "marginal", "unknown", "fail"]
    Waveform: TypeAlias = Literal["sine", "modified_sine", "dc"]
    What: TypeAlias = Literal[
        "held", "tripped", "shut_down", "sagged", "stalled_tool", "reset_by_itself", "inspected", "other"
    ]
    WrittenStatus: TypeAlias = Literal["draft", "approved"]
else:
    Aspect = str
    BreakerStandard = str
    CapacityLimitResponse = str
    ChangeOperation = str
    Chemistry = str
    CodeBasis = str
    Control = str
    CordLay = str
    CordRowKind = str
    DecidingInputKind = str
    DifferenceRowChange = str
    Earthing = str
    ElectronicLimitResponse = str
    EndState = str
    EnergyBudgetRequestInclude = str
    EntryKind = str
    EntryStatus = str
    Extent = str
    FigureOf = str
    FixedWiring = str
    FollowsVoltage = str
    FuelConditionsKind = str
    FuseStandard = str
    GroundFault = str
    Insulation = str
    LedThrough = str
    LegName = str
    LoadClass = str
    LoadStateName = str
    MotorKind = str
    MotorProtector = str
    NeutralBond = str
    Of = str
    Operated = str
    Origin = str
    Pattern = str
    Phases = int
    Place = str
    Plugging = str
    ResetMethod = str
    Returned = str
    RuleLineLoadState = str
    Scopes = str
    Sensitivity = str
    Severity = str
    ShiftItemKind = str
    SourceComparisonRequestInclude = str
    SourceState = str
    StartsAgainst = str
    SupplementaryProtectorStandard = str
    Switch = str
    Technology = str
    Turned = str
    Unit = str
    Verdict = str
    Waveform = str
    What = str
    WrittenStatus = str
