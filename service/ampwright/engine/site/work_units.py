"""How much energy and time does one cut, hole, nail, metre of weld or litre take?

Nobody knows these figures well, so the ranges are wide: low and high are the 10th and 90th percentile of what crews
meet. One observation ("140 cuts took 9 %") narrows them (calculations/energy/energy_calibration.py).
Energy is what the tool takes from its outlet; the time of one unit is a person's, handling included.
Source: common practice, no source, for every figure of this module.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band

WH_J = 3600.0


@dataclass(frozen=True, slots=True)
class WorkUnit:
    """One kind of work.

    energy_j : of one unit, None where it follows from a figure of its own (head, pack, the tool's power).
    pace_s : time of one unit for one person, None where no person is kept busy. needs : what decides the energy of a
    unit without a range of its own. load_classes : kinds of tools that do it, likely ones first.
    """

    name: str
    says: str
    plural: str
    energy_j: Band | None
    pace_s: Band | None
    load_classes: tuple[str, ...]
    needs: str = ""


def _wh(low: float, typical: float, high: float) -> Band:
    return Band(low * WH_J, typical * WH_J, high * WH_J)


_UNITS = (
    WorkUnit(
        "cut", "cut through timber of a hand's width", "cuts", _wh(0.6, 2.0, 6.0), Band(30.0, 90.0, 240.0),
        ("circular_saw", "mitre_saw", "table_saw", "reciprocating_saw", "jig_saw", "chain_saw", "stationary_saw"),
    ),
    WorkUnit(
        "metal_cut", "cut through a steel profile", "metal cuts", _wh(2.0, 7.0, 25.0), Band(60.0, 180.0, 480.0),
        ("angle_grinder", "cut_off_saw", "reciprocating_saw"),
    ),
    WorkUnit(
        "stone_metre", "metre of cut through paving", "metres of stone cut", _wh(20.0, 70.0, 200.0),
        Band(120.0, 360.0, 900.0), ("cut_off_saw", "angle_grinder"),
    ),
    WorkUnit(
        "hole", "hole in timber or sheet metal", "holes", _wh(0.2, 0.8, 2.5), Band(20.0, 60.0, 180.0), ("hand_drill",)
    ),
    WorkUnit(
        "masonry_hole", "anchor hole in concrete or brick", "masonry holes", _wh(1.0, 4.0, 15.0),
        Band(60.0, 150.0, 420.0), ("rotary_hammer", "demolition_hammer"),
    ),
    WorkUnit(
        "nail", "nail driven by air, and the air for it", "nails", _wh(0.05, 0.12, 0.3), Band(3.0, 8.0, 25.0),
        ("air_compressor",),
    ),
    WorkUnit(
        "weld_metre", "metre of weld bead, stick or wire", "metres of weld", _wh(80.0, 220.0, 600.0),
        Band(300.0, 900.0, 2400.0), ("welder",),
    ),
    WorkUnit(
        "square_metre_sanded", "square metre sanded", "square metres sanded", _wh(10.0, 35.0, 120.0),
        Band(240.0, 600.0, 1500.0), ("sander", "angle_grinder"),
    ),
    WorkUnit("litre_pumped", "litre of water lifted", "litres", None, None, ("pump",), "head"),
    WorkUnit("pack", "pack of tool batteries charged", "packs", None, None, ("battery_charger",), "pack"),
    WorkUnit(
        "light_hour", "hour of light", "hours of light", _wh(40.0, 120.0, 400.0), None,
        ("led_light", "filament_light"), "power",
    ),
    WorkUnit("tool_hour", "hour of a tool at work", "hours", _wh(200.0, 600.0, 1500.0), None, (), "power"),
)  # fmt: skip

WORK_UNITS: dict[str, WorkUnit] = {item.name: item for item in _UNITS}
WORK_UNIT_NAMES: tuple[str, ...] = tuple(sorted(WORK_UNITS))


@dataclass(frozen=True, slots=True)
class WorkPattern:
    """What a crew does all day: the share of its time that one person keeps a hand tool running."""

    name: str
    says: str
    running: Band


_PATTERNS = (
    WorkPattern("framing", "timber framing", Band(0.06, 0.15, 0.30)),
    WorkPattern("punch_list", "small jobs all over the place", Band(0.02, 0.06, 0.15)),
    WorkPattern("demolition", "breaking and cutting out", Band(0.25, 0.45, 0.65)),
    WorkPattern("concrete", "drilling, cutting and mixing", Band(0.10, 0.25, 0.45)),
    WorkPattern("welding", "welding and grinding", Band(0.12, 0.28, 0.45)),
    WorkPattern("landscaping", "cutting and blowing outdoors", Band(0.15, 0.35, 0.60)),
)
WORK_PATTERNS: dict[str, WorkPattern] = {item.name: item for item in _PATTERNS}
WORK_PATTERN_NAMES: tuple[str, ...] = tuple(sorted(WORK_PATTERNS))
UNKNOWN_PATTERN = WorkPattern("unknown", "work of an unknown kind", Band(0.03, 0.15, 0.45))

# Share of the time that what runs by itself is on; refrigerators by US DOE (standards/load_power_guides.py).
RUNNING_BY_ITSELF: dict[str, Band] = {
    "air_compressor": Band(0.08, 0.25, 0.55),
    "pump": Band(0.05, 0.3, 1.0),
    "heater": Band(0.3, 0.6, 1.0),
    "battery_charger": Band(0.25, 0.5, 0.9),
    "dust_extractor": Band(0.05, 0.2, 0.5),
    "fan": Band(0.6, 1.0, 1.0),
    "led_light": Band(1.0, 1.0, 1.0),
    "filament_light": Band(1.0, 1.0, 1.0),
    "electronics": Band(0.5, 1.0, 1.0),
}
RUNNING_ATTENDED = Band(0.15, 0.35, 0.65)  # a mixer or a stationary machine

# Energy of the air of one nail, free air: 20 to 90 mm fasteners at 7 bar.
AIR_PER_NAIL_M3 = Band(0.0004, 0.001, 0.0022)
HEAD_M = Band(2.0, 6.0, 15.0)
PUMP_EFFICIENCY = Band(0.15, 0.3, 0.5)  # small drainage pumps, from outlet to water
PACK_J = _wh(50.0, 90.0, 180.0)
PACK_FROM = Band(0.1, 0.2, 0.4)
PACK_EFFICIENCY = Band(0.72, 0.82, 0.9)  # stored over drawn from the outlet
PACK_TAPER_FROM = 0.8
PACK_CUT_OFF = 0.05
