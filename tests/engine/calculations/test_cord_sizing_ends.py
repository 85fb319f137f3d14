"""Is a cord of which little is said taken for one of its own country, behind the device that is usual there?

Published: BS 1362 (1.9 times its rating within half an hour), IEC 60898-1 table 7 (1.45 within the hour), UL 489
(1.35); ratings of BS 1363, CEE 7 and IEC 60309 patterns. That a cord has the ends of its receptacle is common practice.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.cord_sizing import cord_sizing_less_cord
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import CordSizingResult
from cord_question_of import constant_current, line_of, row_of, size

MILD = {"ambient": "20 degC"}


def mains(pattern: str | None, voltage: str = "230 V", **circuit: Any) -> dict[str, Any]:
    receptacle: dict[str, Any] = {"id": "S1", "circuit": "C1", "ground_fault": "rcd_30ma_type_a"}
    if pattern is not None:
        receptacle["type"] = pattern
    return {
        "kind": "site_supply",
        "voltage": voltage,
        "fault_current": "500..1500 A",
        "circuits": [{"id": "C1", **circuit}],
        "receptacles": [receptacle],
    }


def a_lead(source: dict[str, Any], amperes: float, tool_v: str, size_key: str = "2.5 mm2") -> CordSizingResult:
    return size(
        {
            "source": source,
            "tool": constant_current(f"{amperes} A", tool_v),
            "cords": [{"id": "lead", "length": "10 m", "size": size_key, "laid": "straight"}],
            "run": ["lead"],
            "conditions": MILD,
        }
    )


@pytest.mark.parametrize(
    ("pattern", "voltage", "tool_v", "ends_a"),
    [
        ("BS 1363", "230 V", "230 V", 13.0),
        ("CEE 7/3", "230 V", "230 V", 16.0),
        ("IEC 60309 16 A 2P+E blue", "230 V", "230 V", 16.0),
        ("IEC 60309 16 A 2P+E yellow", "55-0-55 V", "110 V", 16.0),
        (None, "230 V", "230 V", 10.0),
        (None, "120 V", "120 V", 15.0),
    ],
)
def test_a_cord_without_stated_ends_has_those_of_its_country(
    pattern: str | None, voltage: str, tool_v: str, ends_a: float
) -> None:
    answer = a_lead(mains(pattern, voltage), 5.0, tool_v)
    (part,) = row_of(answer, "run").cords
    # 2.5 mm2 carries 25 A (BS 7671 table 4F3A, row 02-0134, verified): its ends decide
    assert (part.capacity_a, part.capacity_from) == (ends_a, "usual_ends")
    said = next(item for item in answer.assumptions if item.code == "cord_ends")
    assert said.value == f"{ends_a:g} A ends"


@pytest.mark.parametrize(("size_key", "leans"), [("14 AWG", True), ("2.5 mm2", False)])
def test_the_marks_of_listed_sets_stand_behind_no_other_cord(size_key: str, leans: bool) -> None:
    answer = a_lead(mains("5-20R" if leans else "CEE 7/3", "120 V" if leans else "230 V"), 19.0, "120 V" if leans else
                    "230 V", size_key)  # fmt: skip
    assert "cord_over_marked_rating" in {item.code for item in answer.findings}
    assert any(item.document.startswith("UL 817") for item in answer.basis) is leans


@pytest.mark.parametrize(
    ("source", "amperes", "document"),
    [
        # behind a fused plug nothing opens below 1.9 x 13 A, whatever the ring
        (mains("BS 1363"), 24.7, "BS 1362"),
        (mains("BS 1363", device={"kind": "breaker", "standard": "iec_60898_b", "rating": "32 A"}), 24.7, "BS 1362"),
        (mains("BS 1363", device={"kind": "breaker", "standard": "iec_60898_b", "rating": "6 A"}), 8.7, "IEC 60898-1"),
        (
            mains("CEE 7/3", device={"kind": "breaker", "standard": "iec_60898_b", "rating": "16 A"}),
            23.2,
            "IEC 60898-1",
        ),
        (
            mains("5-20R", "120 V", device={"kind": "breaker", "standard": "ul_489", "rating": "20 A"}),
            27.0,
            "UL 489",
        ),
    ],
    ids=["plug fuse", "on a ring", "small breaker", "breaker", "UL 489"],
)
def test_what_the_device_upstream_lets_through_for_an_hour(
    source: dict[str, Any], amperes: float, document: str
) -> None:
    volts = source["voltage"]
    answer = a_lead(source, 5.0, volts, "0.75 mm2")
    line = line_of(row_of(answer, "run"), "device_and_cord")
    named = {item.id: item.document for item in answer.basis}
    assert document in {named[key] for key in line.basis}
    told = next(item for item in answer.findings if item.code == "cord_not_protected_upstream")
    assert f"{amperes:.0f} A for an hour" in told.text


def test_the_fuse_of_a_plug_clears_a_short_where_nobody_described_the_circuit() -> None:
    # BS 1362: a 13 A fuse has opened within 0.2 s at 100 A. 10 m of 1.5 mm2 at 230 V and 500 A leave over 200 A; at
    # k 115 of PVC (IEC 60364-4-43) 1.5 mm2 bears that for over half a second.
    fused = line_of(row_of(a_lead(mains("BS 1363"), 5.0, "230 V", "1.5 mm2"), "run"), "fault_clearing")
    plain = line_of(row_of(a_lead(mains("CEE 7/3"), 5.0, "230 V", "0.75 mm2"), "run"), "fault_clearing")
    assert (fused.verdict, fused.outcome) == ("pass", "device_opens")
    assert plain.outcome != "device_opens"


def test_a_site_transformer_has_a_breaker_of_its_own_continent() -> None:
    answer = size(
        {
            "source": mains("IEC 60309 16 A 2P+E yellow", "55-0-55 V"),
            "tool": {
                "id": "grinder", "load_class": "angle_grinder",
                "supply_options": [{"voltage": "110 V", "power": "1 kW"}],
            },
            "distance": "20 m",
            "sizes": ["2.5 mm2"],
        }
    )  # fmt: skip
    (said,) = [item.value for item in answer.assumptions if item.code == "circuit_device"]
    assert "IEC 60898-1" in said


def test_direct_current_says_why_its_start_is_open() -> None:
    answer = size(
        {
            "source": {"kind": "battery_station", "voltage": "24 V DC", "receptacles": [{"id": "D", "marked": "30 A"}]},
            "tool": {
                "id": "pump", "load_class": "pump", "supply_options": [{"voltage": "24 V DC", "current": "8 A"}],
            },
            "distance": "5 m",
            "sizes": ["10 mm2"],
        }
    )  # fmt: skip
    assert answer.not_assessed == ("start",)
    (said,) = [item for item in answer.findings if item.code == "start_not_assessed"]
    assert said.severity == "info"
    assert "direct current" in said.text


def test_a_tool_is_led_from_a_receptacle_that_has_its_voltage() -> None:
    # ANSI/NEMA WD 6: L14-30R has two lines and a neutral, 5-20R one line: only the first has 240 V
    answer = size(
        {
            "source": {
                "kind": "vehicle", "voltage": "120/240 V",
                "receptacles": [{"id": "big", "type": "L14-30R"}, {"id": "small", "type": "5-20R"}],
            },
            "tool": {
                "id": "heater", "load_class": "heater",
                "supply_options": [{"voltage": "240 V", "current": "24 A", "plug": "6-30P"}],
            },
            "distance": "25 ft",
            "sizes": ["10 AWG"],
        }
    )  # fmt: skip
    assert row_of(answer, "10 AWG").receptacle == "big"


def test_no_cord_gets_credit_for_keeping_up_a_set_that_less_cord_brings_down(monkeypatch: pytest.MonkeyPatch) -> None:
    # A self-excited set on which the tool barely starts straight in. Some sets would be brought down through a shorter
    # run, whose current a longer one holds down just enough: whoever brings the long run may not count on that.
    request: dict[str, Any] = {
        "source": {
            "kind": "engine_generator",
            "voltage": "120 V",
            "running": "3800 W",
            "technology": "capacitor_regulated",
            "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "iec_60898_c", "rating": "30 A"}}],
            "receptacles": [{"id": "R1", "circuit": "C1", "marked": "30 A", "ground_fault": "gfci_class_a"}],
        },
        "tool": {
            "id": "compressor",
            "load_class": "air_compressor",
            "supply_options": [{"voltage": "120 V", "current": "8.2 A"}],
        },
        "distance": "40 m",
        "sizes": ["12 AWG", "10 AWG"],
        "conditions": {"ambient": "20 degC"},
    }
    monkeypatch.setattr(
        cord_sizing_less_cord, "_ladder",
        lambda *_: ((0.05, {"start": "marginal"}), (0.1, {"start": "fail", "stalled_motor": "fail"}), (9.0, {})),
    )  # fmt: skip
    thin = row_of(size(request), "12 AWG")
    own = line_of(thin, "start")
    assert (own.verdict, own.advisory, own.limit_from) == ("fail", False, "less_cord")
    assert line_of(thin, "stalled_motor").verdict == "fail"
    # a run that is longer than this one is nothing to it
    monkeypatch.setattr(cord_sizing_less_cord, "_ladder", lambda *_: ((9.0, {"start": "fail"}),))
    assert line_of(row_of(size(request), "12 AWG"), "start").verdict == "marginal"


def test_a_type_for_too_low_a_voltage_leans_on_the_table_that_has_it() -> None:
    # EN 50525: H03VV-F is made for 300/300 V; between the lines of a 230/400 V supply there are 400 V
    answer = size(
        {
            "source": {
                "kind": "site_supply", "voltage": "230/400 V",
                "receptacles": [{"id": "S1", "type": "IEC 60309 16 A 3P+N+E red"}],
            },
            "tool": {
                "id": "heater", "load_class": "heater", "supply_options": [{"voltage": "230/400 V", "power": "6 kW"}],
            },
            "cords": [{"id": "lead", "length": "10 m", "size": "1.5 mm2", "type": "H03VV-F", "laid": "straight"}],
            "run": ["lead"],
        }
    )  # fmt: skip
    (said,) = [item for item in answer.findings if item.code == "cord_voltage_too_low"]
    named = {item.id: item.document for item in answer.basis}
    assert [named[key] for key in said.basis] == ["EN 50525"]


def test_a_layer_that_decides_nothing_is_no_pass() -> None:
    # IEC 60364 is not law anywhere by itself: each country adopts its own text
    request: dict[str, Any] = {
        "source": mains("CEE 7/3"),
        "tool": constant_current("2 A", "230 V"),
        "distance": "5 m",
        "sizes": ["2.5 mm2"],
        "new_cord": {"type": "H07RN-F", "laid": "straight"},
        "code_basis": ["iec-60364"],
    }
    alone = size(request)
    assert alone.verdict.code == "unknown"
    assert alone.verdict.overall == "unknown"
    assert "code_basis_needs_country" in {item.code for item in alone.findings}
    assert size({**request, "code_basis": ["iec-60364-de"]}).verdict.code == "pass"
