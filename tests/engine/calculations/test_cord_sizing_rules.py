"""Does each rule of a cord sizing say what its source says, and does the answer name the right cord?"""

from __future__ import annotations

import math
from typing import Any

import pytest
from cord_question_of import constant_current, line_of, lines_of, row_of, size, stiff
from site_of import check
from site_of import row_of as load_row_of

SAW = {
    "id": "saw",
    "load_class": "circular_saw",
    "supply_options": [{"voltage": "120 V", "current": "15 A", "plug": "5-15P"}],
}
VAN = {
    "kind": "vehicle",
    "voltage": "120 V",
    "receptacles": [{"id": "R1", "type": "5-20R", "ground_fault": "gfci_class_a"}],
}
MILD = {"ambient": "20..30 degC"}


def cord(name: str, feet: int, gauge: str, **members: Any) -> dict[str, Any]:
    ends = {"plug": "5-15P", "outlets": {"type": "5-15R"}}
    return {"id": name, "length": f"{feet} ft", "size": gauge, "laid": "straight", "type": "SJTW", **ends, **members}


def finding(answer: Any, code: str) -> Any:
    return next((item for item in answer.findings if item.code == code), None)


@pytest.mark.parametrize(
    ("gauge", "feet", "amperes"),
    [("16 AWG", 50, 13.0), ("16 AWG", 100, 10.0), ("14 AWG", 50, 15.0), ("14 AWG", 100, 13.0), ("12 AWG", 100, 15.0)],
)
def test_capacity_is_the_least_of_mark_ends_and_ampacity(gauge: str, feet: int, amperes: float) -> None:
    # UL 817 marks, verified: 16 AWG 13 A to 50 ft and 10 A above, 14 AWG 15 and 13 A, 12 AWG 15 A with 15 A ends.
    # NFPA 70 table 400.5(A)(1) alone would allow 13, 18 and 25 A.
    answer = size({"source": VAN, "tool": SAW, "cords": [cord("c", feet, gauge)], "run": ["c"], "conditions": MILD})
    part = row_of(answer, "run").cords[0]
    assert part.capacity_a == amperes
    assert part.ampacity_a == {"16": 13.0, "14": 18.0, "12": 25.0}[gauge[:2]]
    assert line_of(row_of(answer, "run"), "cord_current", "working").limit == amperes


def test_figures_are_those_of_the_load_check() -> None:
    # One model: the same run asked as a load check.
    yellow = cord("yellow", 100, "12 AWG")
    answer = size({"source": VAN, "tool": SAW, "cords": [yellow], "run": ["yellow"], "conditions": MILD})
    site = {
        "source": VAN,
        "tools": [SAW],
        "cords": [yellow],
        "connections": [{"plug": "yellow", "into": "R1"}, {"plug": "saw", "into": "yellow"}],
        "conditions": MILD,
    }
    checked = load_row_of(check(site), "alone-saw")
    row = row_of(answer, "run")
    assert row.current_a == checked.tools[0].current_a
    assert row.voltage_v == checked.tools[0].voltage_v
    assert row.cords[0].drop_v == checked.cords[0].drop_v
    assert row.cords[0].copper_temperature_c == checked.cords[0].copper_temperature_c


def test_reach_by_hand() -> None:
    # Ohm's law: of 120 V a tool needs 108 (NEMA MG 1 12.44, 90 %). 10 A through 12 AWG, copper warm as it is told,
    # 5 mohm for each of four contacts: (12 V - 10 A x 20 mohm) / (2 x 10 A x R'). R' from NFPA 70 chapter 9 table 8.
    answer = size(
        {
            "source": stiff(),
            "tool": constant_current("10 A"),
            "sizes": ["12 AWG"],
            "new_cord": {"laid": "straight"},
            "conditions": {"ambient": "25 degC"},
        }
    )
    row = row_of(answer, "12 AWG")
    warm_c = row.cords[0].copper_temperature_c.typical
    per_m = 1.98e-3 / 0.3048 * (1 + 0.00393 * (warm_c - 20)) / (1 + 0.00393 * 55)
    by_hand = (12.0 - 10.0 * 4 * 0.005) / (2 * 10.0 * per_m)
    assert row.reach is not None
    assert row.reach.longest_m == pytest.approx(by_hand, abs=0.2)  # told to 0.1 m, copper to 0.1 K
    assert row.reach.limited_by == "tool_voltage"


def test_the_run_that_covers_the_distance_and_the_reasons_against_the_others() -> None:
    # UL 817 marks and DIN VDE 0298-4 (three layers: 0.49, memory) speak against the thin pair and the wound reel.
    cords = [
        cord("orange", 50, "16 AWG", count=2),
        cord("yellow", 100, "12 AWG"),
        cord("reel", 100, "14 AWG", laid="drum", drum_layers=3),
        cord("lead", 100, "10 AWG", plug="L14-30P", outlets={"type": "L14-30R"}),
        cord("short", 25, "10 AWG"),
    ]
    answer = size({"source": VAN, "tool": SAW, "distance": "90 ft", "cords": cords, "conditions": MILD})
    assert (answer.choices[0].code, answer.choices[0].row) == ("use", "yellow")
    assert line_of(row_of(answer, "short"), "run_length").verdict == "fail"
    assert line_of(row_of(answer, "reel"), "copper_temperature", "working").verdict == "fail"
    assert {line.verdict for line in lines_of(row_of(answer, "lead"), "plugs")} == {"fail"}
    pair = row_of(answer, "orange+orange")
    assert pair.verdict == "fail"
    assert line_of(pair, "tool_voltage", "working").verdict == "fail"
    assert line_of(pair, "cords_in_series").advisory


def test_no_run_uses_a_cord_more_often_than_it_is_there() -> None:
    cords = [cord("orange", 50, "12 AWG")]
    alone = size({"source": VAN, "tool": SAW, "distance": "90 ft", "cords": cords, "conditions": MILD})
    assert [row.id for row in alone.rows] == ["orange"]
    assert not alone.choices
    assert finding(alone, "no_cord_is_enough") is not None
    cords[0]["count"] = 2
    two = size({"source": VAN, "tool": SAW, "distance": "90 ft", "cords": cords, "conditions": MILD})
    assert [row.id for row in two.rows] == ["orange", "orange+orange"]


def test_how_the_cord_lies_decides_and_is_asked() -> None:
    # Common practice, no source: coiled as carried until it is said to be unrolled.
    request: dict[str, Any] = {
        "source": VAN,
        "tool": {"id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": "1500 W"}]},
        "cords": [{key: value for key, value in cord("c", 50, "16 AWG").items() if key != "laid"}],
        "run": ["c"],
        "conditions": {"ambient": "20 degC"},
    }
    answer = size(request)
    row = row_of(answer, "run")
    assert row.verdict == "unknown"
    (asked,) = [item for item in answer.assumptions if item.id == row.waits_for]
    assert (asked.code, asked.pointer, asked.if_instead) == ("cord_laid", "/cords/0/laid", "straight")
    assert answer.question == asked.id
    request["cords"][0]["laid"] = "straight"
    assert row_of(size(request), "run").verdict in ("pass", "marginal")


SHORT = cord("c", 100, "14 AWG")


def with_response(response: str | None, ground_fault: str) -> dict[str, Any]:
    limit = {"id": "L", "continuous": "20 A", "tiers": [{"amount": "40 A", "lasts": "1 s"}]}
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "limits": [{**limit, **({"response": response} if response else {})}],
        "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": ground_fault}],
    }


@pytest.mark.parametrize(
    ("response", "ground_fault", "verdict", "outcome"),
    [
        ("current_limiting", "none", "fail", "opens_too_late"),
        ("current_limiting", "gfci_class_a", "marginal", "ground_fault_device_only"),
        ("shutdown", "none", "pass", "source_shuts_down"),
        (None, "none", "marginal", "source_response_unknown"),
    ],
)
def test_what_clears_a_short_on_a_source_that_limits_its_current(
    response: str | None, ground_fault: str, verdict: str, outcome: str
) -> None:
    # UL 489: 40 A on a 20 A breaker may stand for two minutes (200 %), which 14 AWG in PVC does not bear
    # (160 C, IEC 60364-4-43 table 43A, memory).
    answer = size(
        {
            "source": with_response(response, ground_fault),
            "tool": SAW,
            "cords": [SHORT],
            "run": ["c"],
            "conditions": MILD,
        }
    )
    line = line_of(row_of(answer, "run"), "fault_clearing")
    assert (line.verdict, line.outcome) == (verdict, outcome)
    if verdict == "fail":
        assert line.limit is not None
        # without loss of heat, from the copper's own temperature: the time can only be longer (IEC 60364-5-54 annex A)
        warm = line_of(row_of(answer, "run"), "copper_temperature", "working").value
        assert warm is not None
        k_squared = 226.0**2 * math.log((160.0 + 234.5) / (warm.high + 234.5))
        assert k_squared * (2.08 / 40.0) ** 2 <= line.limit < 120.0
        assert line.value is not None
        assert line.value.high > line.limit
        found = finding(answer, "fault_not_cleared")
        assert (found.severity, found.aspect) == ("danger", "safety")


@pytest.mark.parametrize(
    ("length", "verdict"),
    [("10 m", "pass"), ("250 m", "fail")],
)
def test_disconnection_time_of_a_layer(length: str, verdict: str) -> None:
    # IEC 60364-4-41 table 41.1, memory: 0.4 s at 230 V in TN. A C 16 A breaker opens at once from 10 In = 160 A
    # (IEC 60898-1 table 7): 230 V over (2 x L x 7.98 mohm/m warm + 0.46 ohm) is above that at 10 m, below it at 250 m.
    answer = size(
        {
            "source": {
                "kind": "site_supply",
                "voltage": "230 V",
                "earthing": "tn_s",
                "fault_current": "500 A",
                "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "iec_60898_c", "rating": "16 A"}}],
                "receptacles": [{"id": "S1", "type": "IEC 60309 16 A blue", "circuit": "C1", "ground_fault": "none"}],
            },
            "tool": {"id": "t", "load_class": "hand_drill", "supply_options": [{"voltage": "230 V", "current": "2 A"}]},
            "distance": length,
            "sizes": ["2.5 mm2"],
            "new_cord": {"type": "H07RN-F", "laid": "straight"},
            "code_basis": ["iec-60364-de"],
        }
    )
    line = line_of(row_of(answer, "2.5 mm2"), "disconnection_time")
    assert (line.limit, line.verdict, line.aspect) == (0.4, verdict, "code")
    assert line.basis


@pytest.mark.parametrize(("cord_type", "verdict"), [("SPT-2", "fail"), ("SJTW", "pass"), ("SOOW", "pass")])
def test_hard_usage_on_a_site(cord_type: str, verdict: str) -> None:
    # 29 CFR 1926.405(a)(2)(ii)(J), memory; NFPA 70 table 400.4, memory: SPT is light, SJ hard, S extra hard usage.
    answer = size(
        {
            "source": VAN,
            "tool": SAW,
            "cords": [cord("c", 50, "12 AWG", type=cord_type)],
            "run": ["c"],
            "code_basis": ["osha-1926"],
        }
    )
    line = line_of(row_of(answer, "run"), "cord_type")
    assert (line.verdict, line.aspect, line.advisory) == (verdict, "code", False)
    assert (answer.verdict.code == "fail") == (verdict == "fail")


def test_type_and_place_that_contradict() -> None:
    # NFPA 70 table 400.4, memory: only types with a W are for outdoors.
    answer = size(
        {
            "source": VAN,
            "tool": SAW,
            "cords": [cord("c", 50, "12 AWG", type="SJT")],
            "run": ["c"],
            "conditions": {"place": "open_air", "wet": True},
        }
    )
    assert line_of(row_of(answer, "run"), "outdoor_jacket").verdict == "marginal"
    assert finding(answer, "cord_not_for_outdoors").pointer == "/cords/0/type"


def test_sixty_cords_in_a_row_and_sixty_degrees_of_frost() -> None:
    # Common practice, no source.
    answer = size(
        {
            "source": VAN,
            "tool": SAW,
            "cords": [cord("c", 50, "12 AWG", count=60)],
            "run": ["c"] * 60,
            "conditions": {"ambient": "-60 degC"},
        }
    )
    assert answer.verdict.overall == "fail"
    assert finding(answer, "many_connections").value == 60.0
    assert finding(answer, "cord_stiff_in_cold").value == -60.0
    # what is left for the saw is below half its voltage: no figure of a tool that works, but a collapse
    assert finding(answer, "voltage_collapse") is not None


def test_earth_that_is_missing_is_a_danger() -> None:
    request = {
        "source": VAN,
        "tool": {**SAW, "insulation": "class_i"},
        "cords": [cord("c", 50, "12 AWG", conductors=2)],
        "run": ["c"],
    }
    answer = size(request)
    assert finding(answer, "ground_path_missing").severity == "danger"
    assert answer.verdict.safety == "fail"


def test_missing_ground_fault_protection_where_a_layer_asks() -> None:
    # 29 CFR 1926.404(b)(1)(ii), verified: 120 V 15 and 20 A receptacles on a site.
    source = {**VAN, "receptacles": [{"id": "R1", "type": "5-20R", "ground_fault": "none"}]}
    answer = size({"source": source, "tool": SAW, "distance": "50 ft", "code_basis": ["osha-1926"]})
    asked = [line for line in answer.lines if line.code == "ground_fault_protection"]
    assert {(line.aspect, line.verdict) for line in asked} == {("safety", "fail"), ("code", "fail")}
    assert finding(answer, "ground_fault_protection_missing") is not None


def test_device_upstream_does_not_protect_a_thin_cord() -> None:
    # NFPA 70 240.5(B), verified; UL 489, verified: 135 % of 20 A may stand for an hour, twice what 16 AWG carries.
    answer = size({"source": VAN, "tool": SAW, "cords": [cord("c", 50, "16 AWG")], "run": ["c"], "conditions": MILD})
    line = line_of(row_of(answer, "run"), "device_and_cord")
    assert (line.verdict, line.advisory) == ("marginal", True)
    assert "27 A" in finding(answer, "cord_not_protected_upstream").text


def test_the_smallest_and_the_careful_choice_carry_their_price() -> None:
    answer = size(
        {
            "source": stiff(type="5-20R"),
            "tool": constant_current("12 A"),
            "distance": "100 ft",
            "new_cord": {"laid": "straight"},
            "conditions": {"ambient": "25 degC"},
        }
    )
    by_code = {item.code: item for item in answer.choices}
    smallest, careful = (row_of(answer, by_code[code].row) for code in ("smallest", "careful"))
    # UL 817 marks 16 AWG of 100 ft 10 A and 14 AWG 13 A, verified: 14 AWG is the smallest for 12 A.
    assert smallest.id == "14 AWG"
    # 5 % of 120 V from source to load, NFPA 70 210.19 informational note: 14 AWG loses 7 V, 10 AWG 3 V.
    assert careful.cords[0].size in ("12 AWG", "10 AWG")
    assert careful.careful
    for row, choice in ((smallest, by_code["smallest"]), (careful, by_code["careful"])):
        assert choice.drop_v is not None
        assert choice.loss_w is not None
        # Joule: a current in phase loses volts times amperes.
        assert choice.loss_w.typical == pytest.approx(choice.drop_v.typical * 12.0, rel=2e-3)
        assert row.verdict in ("pass", "marginal")


def test_a_row_alone_is_the_row_among_others() -> None:
    request = {"source": VAN, "tool": SAW, "distance": "75 ft"}
    together = {row.id: row for row in size(request).rows}
    for name in ("18 AWG", "12 AWG"):
        (alone,) = size({**request, "sizes": [name]}).rows
        among = together[name]
        assert (alone.drop_v, alone.current_a, alone.loss_w, alone.verdict, alone.reach) == (
            among.drop_v,
            among.current_a,
            among.loss_w,
            among.verdict,
            among.reach,
        )
