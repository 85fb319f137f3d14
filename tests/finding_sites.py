"""Which requests show findings that no demo request shows, one small site for each?

Every figure is invented; what is asked of them is that the finding appears and what is told of it.
"""

from __future__ import annotations

from typing import Any

from site_of import resistive


def station(*receptacles: dict[str, Any], **members: Any) -> dict[str, Any]:
    return {
        "kind": "battery_station",
        "voltage": "120 V",
        "limits": [{"id": "inverter", "continuous": "2400 VA", "tiers": [], "response": "shutdown"}],
        "receptacles": list(receptacles) or [receptacle("R1"), receptacle("R2")],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded_upstream",
        "sleeps_below": "0 W",
        **members,
    }


def receptacle(name: str, **members: Any) -> dict[str, Any]:
    return {"id": name, "type": "5-20R", "circuit": f"C-{name}", "ground_fault": "gfci_class_a", **members}


def site(source: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    return {
        "source": source or station(),
        "tools": [resistive("heater", "600 W", insulation="class_ii")],
        "connections": [{"plug": "heater", "into": "R1"}],
        "cases": [{"id": "warm", "running": ["heater"]}],
        "code_basis": [],
        **members,
    }


def corded(cord: dict[str, Any], **members: Any) -> dict[str, Any]:
    whole = {"id": "lead", "size": "12 AWG", "length": "25 ft", "laid": "straight", "marked": "15 A", **cord}
    return site(
        cords=[whole],
        connections=[{"plug": "lead", "into": "R1"}, {"plug": "heater", "into": "lead"}],
        **members,
    )


def heaters(*powers: str, source: dict[str, Any], **members: Any) -> dict[str, Any]:
    names = [f"heater-{n}" for n in range(1, len(powers) + 1)]
    return site(
        source,
        tools=[
            resistive(name, power, insulation="class_ii", **members) for name, power in zip(names, powers, strict=True)
        ],
        connections=[{"plug": name, "into": f"R{n}"} for n, name in enumerate(names, start=1)],
        cases=[{"id": "all", "running": names}],
    )


def one_tool(load_class: str, source: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    tool = {
        "id": "tool",
        "load_class": load_class,
        "supply_options": [{"voltage": "120 V", "current": "5 A"}],
        "insulation": "class_ii",
        **members,
    }
    return site(
        source,
        tools=[tool],
        connections=[{"plug": "tool", "into": "R1"}],
        cases=[{"id": "alone", "running": ["tool"]}],
    )


ENGINE = {
    "kind": "engine_generator",
    "voltage": "120 V",
    "technology": "inverter",
    "running": "4000 W",
    "neutral_bond": "floating",
    "reset": {"how": "manual"},
    "receptacles": [receptacle("R1"), receptacle("R2")],
}
UNPROTECTED = station(receptacle("R1", ground_fault="none"), receptacle("R2"))
# one inverter that shuts off above 20 A and comes back by itself, behind a breaker far above it
SHUTS_OFF = station(
    *(receptacle(f"R{n}", circuit="C1") for n in (1, 2, 3)),
    limits=[
        {
            "id": "inverter",
            "continuous": "20 A",
            "tiers": [{"amount": "40 A", "lasts": "4 s"}],
            "response": "shutdown",
            "reset": {"how": "automatic", "after": "5 s", "tries": 2},
        }
    ],
)
HELD_BY_HAND = {**SHUTS_OFF, "limits": [{**SHUTS_OFF["limits"][0], "reset": {"how": "manual"}}]}
TWO_LEGS = {
    "kind": "engine_generator",
    "voltage": "120/240 V",
    "technology": "avr",
    "running": "7000 W",
    "neutral_bond": "bonded",
    "reset": {"how": "manual"},
    "receptacles": [receptacle("R1"), {"id": "R2", "type": "L14-30R", "circuit": "C2", "ground_fault": "gfci_class_a"}],
}

FINDING_SITES: dict[str, dict[str, Any]] = {
    "protector_retries": site(
        {
            "kind": "vehicle",
            "voltage": "120 V",
            "resistance": "0.02 ohm",
            "limits": [{"id": "inverter", "continuous": "40 A", "tiers": [], "response": "current_limiting"}],
            "circuits": [
                {"id": f"C-R{n}", "device": {"kind": "breaker", "standard": "ul_489", "rating": "60 A"}} for n in (1, 2)
            ],
            "receptacles": [receptacle("R1"), receptacle("R2")],
            "reset": {"how": "manual"},
            "neutral_bond": "bonded",
        },
        tools=[
            {
                "id": "compressor",
                "load_class": "air_compressor",
                "shaft_power": "1.5 hp",
                "supply_options": [{"voltage": "120 V", "current": "15 A"}],
                "start": {
                    "kind": "induction_motor",
                    "motor": "capacitor_start",
                    "code_letter": "J",
                    "against": "vented",
                },
                "motor_protector": "resets_by_itself",
                "switch": "automatic",
            },
            resistive("heater", "1800 W", insulation="class_ii"),
        ],
        connections=[{"plug": "compressor", "into": "R1"}, {"plug": "heater", "into": "R2"}],
        cases=[{"id": "both", "running": ["compressor", "heater"]}],
    ),
    "backfeed": site(conditions={"fixed_wiring": "direct"}),
    "feeds_through_transfer_equipment": site(conditions={"fixed_wiring": "transfer_equipment"}),
    "exhaust_place_unknown": site(ENGINE),
    "cord_end_damaged": corded({"plug_state": "damaged"}),
    "cord_not_for_outdoors": corded({"type": "SJT"}, conditions={"place": "open_air"}),
    "cord_not_hard_usage": corded({"type": "SPT-2", "conductors": 3}, code_basis=["osha-1926"]),
    "cord_type_unknown": corded({}, code_basis=["osha-1926"]),
    "cord_two_wire": corded({"conductors": 2, "type": "SJTW"}, code_basis=["osha-1926"]),
    "cord_on_roadway": corded({"led_through": "road"}),
    "cord_through_opening": corded({"led_through": "door"}),
    "cords_in_series": site(
        cords=[
            {"id": f"lead-{n}", "size": "12 AWG", "length": "25 ft", "laid": "straight", "marked": "15 A"}
            for n in (1, 2)
        ],
        connections=[
            {"plug": "lead-1", "into": "R1"},
            {"plug": "lead-2", "into": "lead-1"},
            {"plug": "heater", "into": "lead-2"},
        ],
    ),
    "ground_path_missing": {
        **corded({"conductors": 2}),
        "tools": [resistive("heater", "600 W", insulation="class_i")],
    },
    "ground_path_unknown": {**corded({"conductors": 2}), "tools": [resistive("heater", "600 W")]},
    "ground_fault_nuisance": heaters("300 W", "300 W", source=station(), leakage="5 mA"),
    "ground_fault_protection_absent": site(UNPROTECTED),
    "ground_fault_protection_missing": site(UNPROTECTED, code_basis=["osha-1926"]),
    "ground_fault_protection_other_kind": site(
        station(receptacle("R1", ground_fault="rcd_30ma_type_a")), code_basis=["osha-1926"]
    ),
    "wet_without_ground_fault_protection": site(UNPROTECTED, conditions={"wet": True}),
    "lamp_in_the_wet": {
        **site(UNPROTECTED, conditions={"wet": True}),
        "tools": [{**resistive("heater", "60 W"), "load_class": "filament_light", "insulation": "class_ii"}],
    },
    "too_few_people": {
        **heaters("300 W", "300 W", source=station(), operated="by_hand"),
        "people": 1,
    },
    "modified_sine_load": one_tool("battery_charger", station(waveform="modified_sine"), switch="positive_on_off"),
    "switch_kind_not_allowed": {
        **one_tool("circular_saw", switch="positive_on_off", restart_protection=True),
        "code_basis": ["osha-1926"],
    },
    "receptacle_over_rating": heaters(
        "2300 W",
        source=station(
            receptacle("R1", type="5-15R"),
            receptacle("R2"),
            circuits=[
                {"id": f"C-R{n}", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}} for n in (1, 2)
            ],
        ),
        lowest_voltage="60 V",
    ),
    "voltage_does_not_match": one_tool(
        "heater", TWO_LEGS, supply_options=[{"voltage": "240 V", "current": "5 A"}], switch="positive_on_off"
    ),
    "stays_off_after_trip": {
        **heaters("2100 W", "600 W", source=HELD_BY_HAND),
        "tools": [
            resistive("heater-1", "2100 W", insulation="class_ii"),
            {
                "id": "heater-2",
                "load_class": "pump",
                "supply_options": [{"voltage": "120 V", "current": "5 A"}],
                "insulation": "class_ii",
            },
        ],
    },
    "trips_again_on_return": heaters("1800 W", "1800 W", source=SHUTS_OFF),
    "locks_out_and_stays_off": heaters("1800 W", "1800 W", source=SHUTS_OFF, must_return=True),
    "must_not_stop": heaters("300 W", source=station(reset={"how": "manual"}), must_return=True),
    "must_return_switched_off": heaters(
        "300 W", source=station(reset={"how": "automatic"}), must_return=True, restart_protection=True
    ),
    "lights_on_tool_circuit": {
        **site(
            station(*(receptacle(f"R{n}", circuit="C1") for n in (1, 2)), receptacle("R3")),
            code_basis=["osha-1926"],
        ),
        "tools": [
            resistive("heater", "600 W", insulation="class_ii"),
            {**resistive("lamp", "60 W", insulation="class_ii"), "load_class": "led_light"},
        ],
        "connections": [{"plug": "heater", "into": "R1"}, {"plug": "lamp", "into": "R2"}],
        "cases": [{"id": "both", "running": ["heater", "lamp"]}],
    },
    # 16 A on each of two legs that are in phase make 32 A in the neutral of a 30 A run
    "neutral_overloaded": {
        "source": {
            "kind": "vehicle",
            "voltage": "120/240 V",
            "limits": [{"id": "inverter", "continuous": "12000 VA"}],
            "reset": {"how": "manual"},
            "neutral_bond": "bonded",
            "legs": [{"id": "L1", "angle": "0 deg"}, {"id": "L2", "angle": "0 deg"}],
            "receptacles": [{"id": "R1", "type": "L14-30R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
            "circuits": [{"id": "C1", "legs": ["L1", "L2"], "device": {"kind": "electronic", "rating": "30 A"}}],
        },
        "tools": [resistive(name, "1920 W", insulation="class_ii", lowest_voltage="60 V") for name in ("one", "two")],
        "cords": [
            {
                "id": "box",
                "length": "5 ft",
                "size": "10 AWG",
                "plug": "L14-30P",
                "marked": "30 A",
                "outlets": {"type": "5-20R", "count": 4, "rating": "30 A"},
                "laid": "straight",
                "conductors": 4,
            }
        ],
        "connections": [
            {"plug": "box", "into": "R1"},
            {"plug": "one", "into": "box", "leg": "L1"},
            {"plug": "two", "into": "box", "leg": "L2"},
        ],
        "cases": [{"id": "all", "running": ["one", "two"]}],
        "conditions": {"place": "open_air"},
        "code_basis": [],
    },
    # 200 A at the conventional load line of stick welding, 28 V, are 5,600 W before any loss: too much for 5,000 VA
    "limit_over_continuous": {
        "source": {
            "kind": "vehicle",
            "voltage": "120/240 V",
            "limits": [
                {"id": "inverter", "continuous": "5000 VA", "tiers": [], "peak": "900 A", "response": "shutdown"}
            ],
            "receptacles": [{"id": "R1", "type": "14-50R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
            "reset": {"how": "manual"},
            "neutral_bond": "bonded",
            "sleeps_below": "0 W",
        },
        "tools": [
            {
                "id": "welder",
                "load_class": "welder",
                "supply_options": [{"voltage": "240 V", "output": "200 A"}],
                "load_states": [
                    {"id": name, "power_factor": 1.0, "crest_factor": 1.42} for name in ("working", "heavy")
                ],
                "switch": "constant_pressure",
                "start": {"kind": "resistive"},
            }
        ],
        "connections": [{"plug": "welder", "into": "R1"}],
        "cases": [{"id": "weld", "running": ["welder"]}],
        "code_basis": [],
    },
}
