# ruff: noqa: E501 -- one row a class reads better than one member a line
"""What can be said of a load whose kind and plate are all that is known?

A class turns a plate (volts, amps or watts) into load states, power factor, crest factor, start and habits, wide
enough that a first answer needs no profile. Ratios are shares of the plate's power.

Source: common practice, no source, except where a row says otherwise. Idle of hand tools is 60-75 % of the working
draw; hand tools work at half to all of the plate; a saw pushed hard draws 1.3 x its plate for seconds. Power and crest
factors: rectifiers without correction 0.55-0.7 and 2.5-3, series motors 0.9-0.98 and 1.5, induction motors 0.75-0.92
and 1.45. Residual currents of filtered electronics 0.5-3.5 mA.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.site.band import Band

# how the current follows the voltage: shares of constant current and constant impedance, the rest constant power
FOLLOWS_VOLTAGE: dict[str, tuple[float, float]] = {
    "constant_power": (0.0, 0.0),
    "constant_current": (1.0, 0.0),
    "constant_impedance": (0.0, 1.0),
    # a series motor that saws on at a lower speed keeps about its current
    "series_motor": (0.8, 0.2),
    # slip makes up for voltage in torque: nearly constant power, with the magnetising branch as impedance
    "induction_motor": (0.0, 0.2),
}


@dataclass(frozen=True, slots=True)
class LoadClass:
    """Defaults of one kind of load; ratios are of plate power, `heavy_lasts_s` is how long a push holds."""

    name: str
    says: str
    idle_ratio: float
    working_ratio: Band
    heavy_ratio: Band
    heavy_lasts_s: float
    power_factor: Band
    crest_factor: float
    follows_voltage: str
    start: str  # none, universal_motor, electronic_motor, induction_motor, rectifier, resistive
    operated: str  # by_hand, attended, by_itself
    control: str
    leakage_a: float
    hazard_on_restart: bool  # a moving edge, a pinch or a glow where hands are
    is_motor: bool
    continuous: bool  # runs for three hours or more: the 125 % rule of premises sizing looks at these


_HAND = Band(0.5, 0.75, 1.0)
_SERIES = Band(0.92, 0.96, 0.99)
_RECTIFIER = Band(0.55, 0.62, 0.70)
_INDUCTION = Band(0.75, 0.85, 0.92)


def _hand_tool(name: str, says: str, *, idle: float, heavy: float = 1.3, lasts: float = 20.0) -> LoadClass:
    return LoadClass(
        name, says, idle, _HAND, Band(1.0, min(heavy, 1.15), heavy), lasts, _SERIES, 1.5, "series_motor",
        "universal_motor", "by_hand", "none", 0.0002, True, True, False,
    )  # fmt: skip


def _induction(name: str, says: str, *, control: str, hazard: bool, operated: str, idle: float = 0.4) -> LoadClass:
    return LoadClass(
        name, says, idle, Band(0.85, 0.95, 1.0), Band(1.0, 1.0, 1.1), 60.0, _INDUCTION, 1.45, "induction_motor",
        "induction_motor", operated, control, 0.0005, hazard, True, False,
    )  # fmt: skip


_CLASSES = (
    _hand_tool("hand_drill", "hand drill", idle=0.33, heavy=1.0),
    _hand_tool("rotary_hammer", "rotary hammer", idle=0.42, heavy=1.0),
    _hand_tool("demolition_hammer", "demolition hammer", idle=0.4, heavy=1.1),
    _hand_tool("angle_grinder", "angle grinder", idle=0.4),
    _hand_tool("circular_saw", "hand-held circular saw", idle=0.36),
    _hand_tool("mitre_saw", "mitre saw", idle=0.4),
    _hand_tool("table_saw", "portable table saw", idle=0.42),
    _hand_tool("jig_saw", "jig saw", idle=0.4, heavy=1.1),
    _hand_tool("reciprocating_saw", "reciprocating saw", idle=0.4, heavy=1.2),
    _hand_tool("router", "router", idle=0.4, heavy=1.2),
    _hand_tool("planer", "planer", idle=0.4, heavy=1.2),
    _hand_tool("sander", "sander", idle=0.5, heavy=1.1),
    _hand_tool("chain_saw", "electric chain saw", idle=0.4),
    _hand_tool("cut_off_saw", "cut-off saw for stone or metal", idle=0.4),
    LoadClass(
        "dust_extractor", "dust extractor or vacuum", 0.75, Band(0.8, 0.9, 1.0), Band(1.0, 1.0, 1.05), 3600.0, _SERIES, 1.5,
        "series_motor", "universal_motor", "by_itself", "none", 0.0005, False, True, False,
    ),
    LoadClass(
        "heat_gun", "hot-air gun", 0.03, Band(0.6, 0.8, 1.0), Band(1.0, 1.0, 1.05), 3600.0, Band(0.99, 1.0, 1.0), 1.42,
        "constant_impedance", "resistive", "by_hand", "none", 0.0002, True, False, False,
    ),
    LoadClass(
        "heater", "heater or kettle", 0.0, Band(0.95, 1.0, 1.05), Band(1.0, 1.0, 1.05), 36000.0, Band(0.99, 1.0, 1.0), 1.42,
        "constant_impedance", "resistive", "by_itself", "thermostat", 0.0005, False, False, True,
    ),
    # the same draw running free or feeding a nailer, set by tank pressure: working is close to the plate
    LoadClass(
        "air_compressor", "air compressor", 0.4, Band(0.8, 0.93, 1.02), Band(1.0, 1.0, 1.05), 45.0, Band(0.82, 0.88, 0.95),
        1.45, "induction_motor", "induction_motor", "by_itself", "pressure", 0.0004, False, True, False,
    ),
    _induction("pump", "pump", control="float", hazard=False, operated="by_itself", idle=0.5),
    _induction("pressure_washer", "pressure washer", control="none", hazard=True, operated="by_hand", idle=0.45),
    _induction("concrete_mixer", "drum mixer", control="none", hazard=True, operated="attended", idle=0.36),
    _induction("stationary_saw", "saw or machine with an induction motor", control="none", hazard=True, operated="attended"),
    _induction("fan", "fan or blower", control="none", hazard=False, operated="by_itself", idle=0.9),
    _induction("refrigerator", "refrigerator or cool box", control="thermostat", hazard=False, operated="by_itself", idle=0.03),
    LoadClass(
        "welder", "arc welder with its own rectifier", 0.02, Band(0.5, 0.8, 1.0), Band(1.0, 1.0, 1.1), 240.0,
        Band(0.65, 0.8, 0.99), 2.5, "constant_power", "rectifier", "by_hand", "none", 0.0015, True, False, False,
    ),
    LoadClass(
        "battery_charger", "charger of tool batteries", 0.015, Band(0.8, 0.95, 1.0), Band(1.0, 1.0, 1.05), 3600.0, _RECTIFIER,
        2.7, "constant_power", "rectifier", "by_itself", "none", 0.0010, False, False, True,
    ),
    LoadClass(
        "led_light", "LED lights", 0.0, Band(0.9, 0.95, 1.0), Band(1.0, 1.0, 1.05), 36000.0, Band(0.6, 0.9, 0.98), 1.8,
        "constant_power", "rectifier", "by_itself", "none", 0.0010, False, False, True,
    ),
    LoadClass(
        "filament_light", "filament or halogen lights", 0.0, Band(0.95, 1.0, 1.05), Band(1.0, 1.0, 1.05), 36000.0,
        Band(0.99, 1.0, 1.0), 1.42, "constant_impedance", "resistive", "by_itself", "none", 0.0002, False, False, True,
    ),
    LoadClass(
        "electronics", "computer, router or instrument", 0.2, Band(0.4, 0.6, 1.0), Band(1.0, 1.0, 1.05), 36000.0, _RECTIFIER,
        2.8, "constant_power", "rectifier", "by_itself", "none", 0.0007, False, False, True,
    ),
    # a permanent-magnet motor behind a rectifier: it holds its power at a low voltage, and runs up on a ramp
    LoadClass(
        "electronic_tool", "hand tool with a permanent-magnet motor and electronics", 0.2, _HAND, Band(1.0, 1.15, 1.3), 20.0,
        Band(0.6, 0.75, 0.98), 2.5, "constant_power", "electronic_motor", "by_hand", "none", 0.0010, True, True, False,
    ),
    # nothing known but the plate: every band spans what the classes above span
    LoadClass(
        "other", "load of unknown kind", 0.3, _HAND, Band(1.0, 1.15, 1.3), 20.0, Band(0.6, 0.85, 1.0), 2.0, "constant_power",
        "unknown", "by_hand", "none", 0.0010, True, True, False,
    ),
)  # fmt: skip
LOAD_CLASSES: dict[str, LoadClass] = {item.name: item for item in _CLASSES}
LOAD_CLASS_NAMES: tuple[str, ...] = tuple(sorted(LOAD_CLASSES))


def on_three_phases(load_class: LoadClass) -> LoadClass:
    """The class of a tool whose plate asks for three phases. A series motor runs on one alone, so its motor is another."""
    if load_class.start != "universal_motor":
        return load_class
    return replace(
        load_class,
        power_factor=_INDUCTION,
        crest_factor=1.45,
        follows_voltage="induction_motor",
        start="induction_motor",
    )
