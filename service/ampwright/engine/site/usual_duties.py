"""How long is a tool usually on, and how long off, when nobody says?

On and off times of one spell of use, by load class. They are presets, not measurements: common practice, no source.
Hand tools cut for seconds and rest while work is moved and marked; compressors and refrigerators follow a switch;
lights and chargers stay on.
"""

from __future__ import annotations

ALWAYS_ON_S, ALWAYS_OFF_S = 36000.0, 60.0  # ten hours at a time: on for practically all of a shift

# load class -> (on [s], off [s]); common practice, no source
USUAL_DUTIES: dict[str, tuple[float, float]] = {
    "hand_drill": (10.0, 50.0),
    "rotary_hammer": (30.0, 60.0),
    "demolition_hammer": (60.0, 60.0),
    "angle_grinder": (45.0, 45.0),
    "circular_saw": (10.0, 50.0),
    "mitre_saw": (6.0, 54.0),
    "table_saw": (20.0, 60.0),
    "jig_saw": (30.0, 60.0),
    "reciprocating_saw": (20.0, 60.0),
    "router": (40.0, 60.0),
    "planer": (20.0, 60.0),
    "sander": (120.0, 60.0),
    "chain_saw": (20.0, 60.0),
    "cut_off_saw": (60.0, 120.0),
    "dust_extractor": (120.0, 120.0),
    "heat_gun": (120.0, 120.0),
    "heater": (600.0, 300.0),
    "air_compressor": (90.0, 180.0),
    "pump": (300.0, 300.0),
    "pressure_washer": (120.0, 60.0),
    "concrete_mixer": (600.0, 300.0),
    "stationary_saw": (60.0, 120.0),
    "fan": (ALWAYS_ON_S, ALWAYS_OFF_S),
    "refrigerator": (600.0, 1200.0),
    "welder": (120.0, 180.0),
    "battery_charger": (2700.0, 900.0),
    "led_light": (ALWAYS_ON_S, ALWAYS_OFF_S),
    "filament_light": (ALWAYS_ON_S, ALWAYS_OFF_S),
    "electronics": (ALWAYS_ON_S, ALWAYS_OFF_S),
    "electronic_tool": (45.0, 45.0),
    "other": (60.0, 60.0),
}
"""Every load class with its usual spell."""
