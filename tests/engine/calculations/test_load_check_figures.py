"""Are the figures of a load check those of Ohm's and Kirchhoff's laws on the site as it was described?

Every expected value is worked out here from the laws and the numbers of the request. Conductor resistance: NFPA 70
chapter 9 table 8, stranded uncoated copper at 75 C (14 AWG 3.14, 10 AWG 1.24 ohm/kft), brought to another temperature
by alpha20 = 0.00393/K (IEC 60028).
"""

from __future__ import annotations

import math

import pytest
from site_of import check, resistive, row_of

CONTACT_OHM = 0.005  # typical, one contact of one conductor; the default under test stands in settle.CONTACT_OHM
WIRING_OHM = 0.02


def _source(**members: object) -> dict[str, object]:
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "resistance": "0.1 ohm",
        "limits": [{"id": "inverter", "continuous": "4000 VA"}],
        "circuits": [
            {
                "id": "C1",
                "resistance": "0.02 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            }
        ],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
        **members,
    }


def _ohm_per_m(ohm_per_kft_75c: float, copper_c: float) -> float:
    at_20 = ohm_per_kft_75c / 304.8 / (1.0 + 0.00393 * 55.0)
    return at_20 * (1.0 + 0.00393 * (copper_c - 20.0))


def test_one_heater_without_a_cord_divides_the_voltage() -> None:
    result = check(
        {
            "source": _source(),
            "tools": [resistive("heater", "1440 W")],
            "connections": [{"plug": "heater", "into": "R1"}],
            "code_basis": [],
        }
    )
    load_ohm = 120.0**2 / 1440.0
    loop_ohm = 0.1 + WIRING_OHM + 2.0 * CONTACT_OHM + load_ohm
    tool = row_of(result, "alone-heater").tools[0]
    assert tool.current_a is not None
    assert tool.voltage_v is not None
    assert tool.current_a.typical == pytest.approx(120.0 / loop_ohm, abs=0.0006)
    assert tool.voltage_v.typical == pytest.approx(120.0 * load_ohm / loop_ohm, abs=0.0006)
    assert result.verdict.overall == "pass"


def test_a_cord_adds_its_two_conductors_at_their_own_temperature() -> None:
    result = check(
        {
            "source": _source(),
            "tools": [resistive("heater", "1440 W")],
            "cords": [
                {
                    "id": "long",
                    "length": "100 ft",
                    "size": "14 AWG",
                    "marked": "15 A",
                    "plug": "5-15P",
                    "outlets": {"type": "5-15R"},
                    "laid": "straight",
                }
            ],
            "connections": [{"plug": "long", "into": "R1"}, {"plug": "heater", "into": "long"}],
            "conditions": {"ambient": "30 degC"},
            "code_basis": [],
        }
    )
    row = row_of(result, "alone-heater")
    copper_c = row.cords[0].copper_temperature_c
    drop_v, current_a = row.cords[0].drop_v, row.cords[0].current_a
    assert copper_c is not None
    assert drop_v is not None
    one_way_ohm = 30.48 * _ohm_per_m(3.14, copper_c.typical)
    load_ohm = 120.0**2 / 1440.0
    loop_ohm = 0.1 + WIRING_OHM + 4.0 * CONTACT_OHM + 2.0 * one_way_ohm + load_ohm
    # 0.05 C of rounding of the temperature shown is 0.02 % of the cord's resistance
    assert current_a.typical == pytest.approx(120.0 / loop_ohm, rel=2e-4)
    assert drop_v.typical == pytest.approx(current_a.typical * 2.0 * (one_way_ohm + CONTACT_OHM), rel=1e-3)
    # NFPA 70 table 400.5(A)(1): 14 AWG, two loaded conductors, 18 A at 30 C ambient reaches 60 C; heat goes with
    # current squared and the copper's resistance, which this cord at about 11 A stays well below
    assert 30.0 < copper_c.typical < 30.0 + 30.0 * (current_a.typical / 18.0) ** 2


def test_two_tools_on_one_reel_load_the_common_part_with_their_sum() -> None:
    request = {
        "source": _source(),
        "tools": [resistive("one", "600 W"), resistive("two", "480 W")],
        "cords": [
            {
                "id": "reel",
                "length": "50 ft",
                "size": "12 AWG",
                "outlets": {"type": "5-15R", "count": 2},
                "laid": "straight",
            },
            {"id": "tail", "length": "25 ft", "size": "14 AWG", "outlets": {"type": "5-15R"}, "laid": "straight"},
        ],
        "connections": [
            {"plug": "reel", "into": "R1"},
            {"plug": "one", "into": "reel"},
            {"plug": "tail", "into": "reel"},
            {"plug": "two", "into": "tail"},
        ],
        "cases": [{"id": "both", "running": ["one", "two"]}],
        "code_basis": [],
    }
    row = row_of(check(request), "both")
    by_cord = {item.cord: item.current_a.typical for item in row.cords}
    tools = {item.tool: item.current_a.typical for item in row.tools if item.current_a}
    assert by_cord["reel"] == pytest.approx(tools["one"] + tools["two"], abs=0.002)
    assert by_cord["tail"] == pytest.approx(tools["two"], abs=0.001)
    assert row.circuits[0].current_a.typical == pytest.approx(by_cord["reel"], abs=0.001)
    # a cord listed after its own child is the same tree
    request["cords"].reverse()  # type: ignore[attr-defined]
    again = row_of(check(request), "both")
    assert {item.cord: item.current_a for item in again.cords} == {item.cord: item.current_a for item in row.cords}


def _split(angle: str) -> dict[str, object]:
    return {
        "kind": "battery_station",
        "voltage": "120/240 V",
        "resistance": "0.0001 ohm",
        "legs": [{"id": "L1", "angle": "0 deg"}, {"id": "L2", "angle": angle}],
        "limits": [{"id": "inverter", "continuous": "12000 VA"}],
        "circuits": [
            {
                "id": "C1",
                "legs": ["L1", "L2"],
                "resistance": "0.0001 ohm",
                "device": {"kind": "electronic", "rating": "30 A"},
            }
        ],
        "receptacles": [{"id": "R1", "type": "L14-30R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
    }


def _box(tools: list[dict[str, object]], legs: list[str], angle: str = "180 deg") -> dict[str, object]:
    return {
        "source": _split(angle),
        "tools": tools,
        "cords": [
            {
                "id": "box",
                "length": "10 ft",
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
            *({"plug": tool["id"], "into": "box", "leg": leg} for tool, leg in zip(tools, legs, strict=True)),
        ],
        "cases": [{"id": "all", "running": [tool["id"] for tool in tools]}],
        "code_basis": [],
    }


def test_opposite_legs_cancel_in_the_neutral_and_legs_in_phase_add() -> None:
    tools = [resistive("one", "1920 W"), resistive("two", "1920 W")]  # 16 A each
    opposite = row_of(check(_box(tools, ["L1", "L2"])), "all").circuits[0]
    assert opposite.neutral_current_a is not None
    assert opposite.neutral_current_a.typical == pytest.approx(0.0, abs=0.05)
    result = check(_box(tools, ["L1", "L2"], "0 deg"))
    together = row_of(result, "all").circuits[0]
    assert together.neutral_current_a is not None
    # legs in phase: 16 A and 16 A make 32 A on a 30 A neutral that nothing protects (Kirchhoff; less the drop)
    assert together.neutral_current_a.typical == pytest.approx(32.0, rel=0.02)
    finding = next(item for item in result.findings if item.code == "neutral_overloaded")
    assert finding.severity == "danger"
    assert result.verdict.safety == "fail"


def test_a_broken_neutral_puts_the_line_voltage_across_both_legs_in_series() -> None:
    # 14 A on one leg and 4 A on the other, as impedances: in series across 240 V the heavy leg gets 240 x 4/18 = 53 V
    # and the light one 187 V (voltage divider).
    tools = [resistive("heavy", "1680 W"), resistive("light", "480 W")]
    result = check(_box(tools, ["L1", "L2"]))
    finding = next(item for item in result.findings if item.code == "neutral_lost")
    assert finding.value == pytest.approx(240.0 * 14.0 / 18.0, abs=1.0)
    assert finding.severity == "info"  # a what-if decides no verdict
    assert "with heavy and light on" in finding.text
    assert "of of" not in finding.text


def test_three_phase_current_is_power_over_root_three() -> None:
    heater = resistive("heater", "6000 W", "400 V")
    heater["supply_options"][0]["phases"] = 3
    heater["supply_options"][0]["plug"] = "IEC 60309 16 A 3P+N+E red"
    result = check(
        {
            "source": {
                "kind": "site_supply",
                "voltage": "230/400 V",
                "resistance": "0.0001 ohm",
                "circuits": [
                    {"id": "C1", "legs": ["L1", "L2", "L3"], "resistance": "0.0001 ohm",
                     "device": {"kind": "breaker", "standard": "iec_60898_c", "rating": "16 A"}}
                ],
                "receptacles": [
                    {"id": "R1", "type": "IEC 60309 16 A 3P+N+E red", "circuit": "C1"}
                ],
                "reset": {"how": "manual"},
            },
            "tools": [heater],
            "connections": [{"plug": "heater", "into": "R1"}],
            "code_basis": [],
        }
    )  # fmt: skip
    row = row_of(result, "alone-heater")
    assert row.tools[0].current_a is not None
    # 230 V legs make 398.4 V between lines, and a resistance takes the square of that
    expected = 6000.0 / (math.sqrt(3.0) * 400.0) * (230.0 * math.sqrt(3.0) / 400.0)
    assert row.tools[0].current_a.typical == pytest.approx(expected, rel=2e-3)
    assert row.circuits[0].neutral_current_a is not None
    assert row.circuits[0].neutral_current_a.typical == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(
    ("voltage", "tool_voltage", "power", "amps"),
    [
        ("12 V DC", "12 V DC", "120 W", 10.0),
        ("48 V DC", "48 V DC", "480 W", 10.0),
        ("55-0-55 V", "110 V", "1100 W", 10.0),
        ("230 V", "230 V", "2300 W", 10.0),
    ],
)
def test_every_single_supply_gives_plate_power_over_plate_voltage(
    voltage: str, tool_voltage: str, power: str, amps: float
) -> None:
    source = {
        "kind": "site_supply",
        "voltage": voltage,
        "resistance": "0.0001 ohm",
        "circuits": [{"id": "C1", "resistance": "0.0001 ohm", "device": {"kind": "electronic", "rating": "16 A"}}],
        "receptacles": [
            {
                "id": "R1",
                "marked": "16 A",
                "circuit": "C1",
                "ground_fault": "none" if voltage.endswith("DC") else "rcd_30ma_type_a",
            }
        ],
        "reset": {"how": "manual"},
    }
    result = check(
        {
            "source": source,
            "tools": [resistive("heater", power, tool_voltage)],
            "connections": [{"plug": "heater", "into": "R1"}],
            "code_basis": [],
        }
    )
    tool = row_of(result, "alone-heater").tools[0]
    assert tool.current_a is not None
    # contacts of 2 x 5 mohm at 10 A lose 0.1 V: 0.8 % of 12 V
    assert tool.current_a.typical == pytest.approx(amps, rel=0.01)


def test_more_power_than_can_arrive_collapses_and_is_a_verdict() -> None:
    # maximum power transfer: 120 V behind 0.5 ohm and a thin cord of about 1.2 ohm loop gives at most 120^2/(4 x 1.7),
    # 2.1 kW; a constant power of 3 kW has no solution (Thevenin, Jacobi)
    tool = resistive("motor", "3000 W")
    for state in tool["load_states"]:
        state["follows_voltage"] = "constant_power"
    result = check(
        {
            "source": _source(resistance="0.5 ohm"),
            "tools": [tool],
            "cords": [{"id": "thin", "length": "150 ft", "size": "16 AWG", "laid": "straight"}],
            "connections": [{"plug": "thin", "into": "R1"}, {"plug": "motor", "into": "thin"}],
            "code_basis": [],
        }
    )
    assert row_of(result, "alone-motor").outcome == "collapses"
    assert any(item.code == "voltage_collapse" for item in result.findings)
    assert result.verdict.capacity == "fail"
