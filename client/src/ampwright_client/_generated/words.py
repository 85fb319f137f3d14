# Made by client/generator/generate.py from the contract with SHA-256 03deaa3de520743f10615f12bd3805c153ca58ee6993ed077d764c18d12fd7de. Do not edit.
"""Which words does the contract know?"""

from typing import TYPE_CHECKING, Literal, TypeAlias

__all__ = [
    "Aspect",
    "BreakerStandard",
    "CapacityLimitResponse",
    "ChangeOperation",
    "CodeBasis",
    "Control",
    "CordLay",
    "Earthing",
    "ElectronicLimitResponse",
    "EndState",
    "EntryKind",
    "EntryStatus",
    "FollowsVoltage",
    "FuseStandard",
    "GroundFault",
    "Insulation",
    "LegName",
    "LoadClass",
    "LoadStateName",
    "MotorKind",
    "NeutralBond",
    "Operated",
    "Origin",
    "Phases",
    "Place",
    "ResetMethod",
    "Sensitivity",
    "Severity",
    "SourceState",
    "StartsAgainst",
    "SupplementaryProtectorStandard",
    "Switch",
    "Technology",
    "Verdict",
    "Waveform",
    "WrittenStatus",
]
if TYPE_CHECKING:
    Aspect: TypeAlias = Literal["safety", "capacity", "code"]
    BreakerStandard: TypeAlias = Literal["ul_489", "iec_60898_b", "iec_60898_c", "iec_60898_d"]
    CapacityLimitResponse: TypeAlias = Literal["current_limiting", "shutdown", "voltage_dip"]
    ChangeOperation: TypeAlias = Literal["add", "replace", "remove"]
    CodeBasis: TypeAlias = Literal["osha-1926", "nec-2017", "nec-2020", "nec-2023", "iec-60364", "bs-7671"]
    Control: TypeAlias = Literal["none", "pressure", "float", "thermostat", "follows_tool"]
    CordLay: TypeAlias = Literal["straight", "coiled", "drum"]
    Earthing: TypeAlias = Literal["tn_s", "tn_c_s", "tt", "it"]
    ElectronicLimitResponse: TypeAlias = Literal["current_limiting", "shutdown"]
    EndState: TypeAlias = Literal["good", "worn", "damaged"]
    EntryKind: TypeAlias = Literal["tool-profile", "power-source", "cord", "kit"]
    EntryStatus: TypeAlias = Literal["draft", "approved", "withdrawn"]
    FollowsVoltage: TypeAlias = Literal[
        "constant_power", "constant_current", "constant_impedance", "series_motor", "induction_motor"
    ]
    FuseStandard: TypeAlias = Literal["bs_1362", "iec_60269", "ul_248"]
    GroundFault: TypeAlias = Literal[
        "none", "gfci_class_a", "rcd_30ma_type_ac", "rcd_30ma_type_a", "rcd_30ma_type_f", "rcd_30ma_type_b"
    ]
    Insulation: TypeAlias = Literal["class_i", "class_ii", "class_iii"]
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
    NeutralBond: TypeAlias = Literal["bonded", "floating", "bonded_upstream"]
    Operated: TypeAlias = Literal["by_hand", "attended", "by_itself"]
    Origin: TypeAlias = Literal["nameplate", "measured", "standard", "estimate", "invented_demo"]
    Phases: TypeAlias = Literal[1, 3]
    Place: TypeAlias = Literal["open_air", "indoors", "enclosed"]
    ResetMethod: TypeAlias = Literal["automatic", "remote", "manual"]
    Sensitivity: TypeAlias = Literal["low", "medium", "high"]
    Severity: TypeAlias = Literal["danger", "caution", "info"]
    SourceState: TypeAlias = Literal["asleep", "locked", "driving", "charging", "charge_below", "load_below"]
    StartsAgainst: TypeAlias = Literal["nothing", "fan", "pump", "head_pressure", "vented", "loaded_drum", "loaded"]
    SupplementaryProtectorStandard: TypeAlias = Literal["ul_1077", "iec_60934"]
    Switch: TypeAlias = Literal["positive_on_off", "momentary_lock_on", "constant_pressure", "automatic", "always_on"]
    Technology: TypeAlias = Literal["avr", "capacitor_regulated", "inverter"]
    Verdict: TypeAlias = Literal["pass", "marginal", "unknown", "fail"]
    Waveform: TypeAlias = Literal["sine", "modified_sine", "dc"]
    WrittenStatus: TypeAlias = Literal["draft", "approved"]
else:
    Aspect = str
    BreakerStandard = str
    CapacityLimitResponse = str
    ChangeOperation = str
    CodeBasis = str
    Control = str
    CordLay = str
    Earthing = str
    ElectronicLimitResponse = str
    EndState = str
    EntryKind = str
    EntryStatus = str
    FollowsVoltage = str
    FuseStandard = str
    GroundFault = str
    Insulation = str
    LegName = str
    LoadClass = str
    LoadStateName = str
    MotorKind = str
    NeutralBond = str
    Operated = str
    Origin = str
    Phases = int
    Place = str
    ResetMethod = str
    Sensitivity = str
    Severity = str
    SourceState = str
    StartsAgainst = str
    SupplementaryProtectorStandard = str
    Switch = str
    Technology = str
    Verdict = str
    Waveform = str
    WrittenStatus = str
