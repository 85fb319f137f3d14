"""Does a cord sizing say of a start what the load check says, and what of it is the cord's to mend?

Published: code letters, NFPA 70 table 430.7(B). Everything else is held against Kirchhoff's laws or against the load
check, which tests/published/starts holds against transient solvers.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import CordRow, CordSizingResult
from ampwright.engine.calculations.load_check.load_check_result import StartFigure
from cord_question_of import line_of, row_of, size, stiff
from site_of import check

MILD = {"ambient": "20 degC"}


def compressor(**start: Any) -> dict[str, Any]:
    return {
        "id": "compressor",
        "load_class": "air_compressor",
        "shaft_power": "1.5 hp",
        "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", **start},
    }


SAW = {
    "id": "saw",
    "load_class": "circular_saw",
    "supply_options": [{"voltage": "120 V", "current": "15 A"}],
    "start": {"kind": "universal_motor", "soft_start": False},
}
CHARGER = {"id": "charger", "load_class": "battery_charger", "supply_options": [{"voltage": "120 V", "current": "4 A"}]}
HEATER = {"id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": "1200 W"}]}
MAINS = {
    "kind": "site_supply",
    "voltage": "120 V",
    "resistance": "0.05 ohm",
    "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}}],
    "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
}
VAN = {
    "kind": "vehicle",
    "voltage": "120 V",
    "limits": [{"id": "inverter", "continuous": "3000 VA"}],
    "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A", "ground_fault": "gfci_class_a"}],
}
LIMITS = {**VAN, "limits": [{"id": "inverter", "continuous": "2000 VA", "response": "current_limiting"}]}
SET = {
    "kind": "engine_generator",
    "voltage": "120 V",
    "running": "5000 W",
    "technology": "avr",
    "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A", "ground_fault": "gfci_class_a"}],
}


def cord(feet: int, awg: int) -> dict[str, Any]:
    return {"id": "cord", "length": f"{feet} ft", "size": f"{awg} AWG", "type": "SOOW", "laid": "straight"}


def asked(source: dict[str, Any], tool: dict[str, Any], feet: int, awg: int) -> CordSizingResult:
    return size({"source": source, "tool": tool, "cords": [cord(feet, awg)], "run": ["cord"], "conditions": MILD})


def of_load_check(source: dict[str, Any], tool: dict[str, Any], feet: int, awg: int) -> StartFigure | None:
    name = tool["id"]
    result = check(
        {
            "source": source,
            "tools": [tool],
            "cords": [cord(feet, awg)],
            "connections": [{"plug": "cord", "into": "R1"}, {"plug": name, "into": "cord"}],
            "cases": [{"id": "alone", "running": [name]}],
            "conditions": MILD,
            "code_basis": [],
        }
    )
    return result.cases[0].results[0].tools[0].start


@pytest.mark.parametrize("source", [MAINS, VAN, LIMITS, SET], ids=["mains", "van", "limiting", "set"])
@pytest.mark.parametrize(
    "tool", [compressor(against="vented"), compressor(), SAW, CHARGER], ids=["vented", "full", "saw", "charger"]
)
@pytest.mark.parametrize(("feet", "awg"), [(25, 12), (100, 16)])
def test_the_start_is_that_of_the_load_check(source: dict[str, Any], tool: dict[str, Any], feet: int, awg: int) -> None:
    here = row_of(asked(source, tool, feet, awg), "run").start
    there = of_load_check(source, tool, feet, awg)
    assert here is not None
    assert there is not None
    for name in ("outcome", "outcomes", "peak_a", "lasts_s", "trip"):
        assert getattr(here, name) == getattr(there, name), name


def test_a_heater_has_no_start() -> None:
    answer = asked(MAINS, HEATER, 50, 14)
    start = row_of(answer, "run").start
    assert start is not None
    assert start.outcome == "no_start"
    assert start.current_a is None
    assert answer.not_assessed == ()
    assert not [line for line in (*answer.lines, *row_of(answer, "run").lines) if line.code == "start"]


def test_a_start_costs_more_than_the_run() -> None:
    # NFPA 70 table 430.7(B): code J is 7.1 to 7.99 kVA/hp, at 120 V and 1.5 hp 89 to 100 A; a capacitor-start motor's
    # line current rises by up to a tenth more before its switch opens (common practice, no source). Kirchhoff: what
    # the cord loses and what is left at the motor add up, as phasors, to what the source has.
    source = stiff()
    source["circuits"][0]["device"]["rating"] = "200 A"
    answer = size(
        {
            "source": source, "tool": compressor(against="vented"), "distance": "50 ft",
            "sizes": ["12 AWG", "2 AWG"], "conditions": MILD,
        }
    )  # fmt: skip
    thin, thick = (row_of(answer, name).start for name in ("12 AWG", "2 AWG"))
    assert thin is not None
    assert thick is not None
    assert answer.not_assessed == ()
    assert thick.current_a is not None
    assert 80.0 < thick.current_a.low <= thick.current_a.high < 110.0
    assert thin.drop_v is not None
    assert thick.drop_v is not None
    assert thin.drop_v.low > thick.drop_v.high
    assert thin.voltage_v is not None
    # 2 x 50 ft of 12 AWG: 1.98 ohm/kft at 75 C (NFPA 70 ch. 9 table 8), 0.163 ohm at 20 C: at 75 A and more, over 10 V
    assert thin.drop_v.low > 10.0 * 0.5
    assert thin.voltage_v.high < 120.0
    assert thin.voltage_v.typical > 120.0 - 1.3 * thin.drop_v.high


def _line_verdicts(row: CordRow) -> dict[str, str]:
    return {line.code: line.verdict for line in row.lines if line.code in ("start", "stalled_motor")}


def test_a_long_thin_cord_that_stalls_a_motor_is_the_cords_fault() -> None:
    # Torque goes with the square of the voltage (induction motor theory): half the volts leave a quarter of the torque.
    big = {**MAINS, "resistance": "0 ohm"}
    big["circuits"] = [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "60 A"}}]
    answer = asked(big, compressor(), 200, 16)
    row = row_of(answer, "run")
    assert line_of(row, "start").verdict == "fail"
    assert not line_of(row, "start").advisory
    straight = next(line for line in answer.lines if line.code == "start")
    assert straight.verdict in ("pass", "marginal")
    assert row.verdict == "fail"
    assert "does_not_start" in {finding.code for finding in answer.findings}
    assert row_of(asked(big, compressor(), 5, 8), "run").start is not None
    assert row_of(asked(big, compressor(), 5, 8), "run").start.outcome == "starts"


def test_what_does_not_start_straight_in_is_told_once_and_no_cord_is_blamed() -> None:
    weak = {**VAN, "limits": [{"id": "inverter", "continuous": "2000 VA", "tiers": [], "response": "shutdown"}]}
    answer = size({"source": weak, "tool": compressor(), "distance": "25 ft", "conditions": MILD})
    assert answer.verdict.capacity == "fail"
    assert [line.verdict for line in answer.lines if line.code == "start"] == ["fail"]
    for row in answer.rows:
        own = line_of(row, "start")
        assert (own.advisory, own.limit_from) == (True, "straight_in"), row.id
    told = [finding for finding in answer.findings if finding.code == "does_not_start"]
    assert len(told) == 1
    assert "straight in the receptacle" in told[0].text


def test_a_start_that_an_answer_would_settle_is_unknown_and_asks() -> None:
    # A van that may limit without end instead of switching off: nobody said which.
    answer = asked(VAN, SAW, 50, 12)
    assert answer.verdict.overall == "unknown"
    asked_for = next(item for item in answer.assumptions if item.id == answer.question)
    assert asked_for.cases
    assert asked_for.swings_verdict_to in ("pass", "marginal")


def test_assumptions_that_decide_only_together_are_named() -> None:
    # Nobody said the gauge nor how the cord lies: of 16 AWG, coiled, it fails; straight or thicker alone it still does.
    answer = size(
        {
            "source": stiff(),
            "tool": {**HEATER, "supply_options": [{"voltage": "120 V", "current": "14.5 A"}]},
            "cords": [{"id": "worn-print", "length": "100 ft"}],
            "run": ["worn-print"],
            "conditions": {"ambient": "38 degC"},
        }
    )
    row = row_of(answer, "run")
    assert row.verdict == "fail"
    codes = {item.id: item.code for item in answer.assumptions}
    assert row.hangs_on
    assert answer.hangs_on == row.hangs_on
    assert {codes[name] for name in row.hangs_on} == {"cord_size", "cord_laid"}
    assert all("run" in item.cases for item in answer.assumptions if item.id in row.hangs_on)


def test_a_motor_whose_protector_tries_again_is_no_better_than_one_that_stands() -> None:
    """A protector that closes again by itself starts the motor under a hand (NFPA 70 430.43, from memory)."""
    mixer = {
        "id": "mixer", "load_class": "concrete_mixer", "shaft_power": "1.5 hp",
        "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", "against": "loaded_drum"},
    }  # fmt: skip
    source = {**VAN, "limits": [{"id": "inverter", "continuous": "40 A", "tiers": [], "response": "current_limiting"}]}
    source = {**source, "circuits": [{"id": "C1", "device": {"kind": "breaker", "rating": "60 A"}}]}
    source["receptacles"] = [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}]
    told = {}
    for protector in ("none", "resets_by_itself", "resets_by_hand"):
        sized = asked(source, {**mixer, "motor_protector": protector}, 25, 12)
        told[protector] = [line.verdict for line in sized.rows[0].lines if line.code == "stalled_motor"]
        if protector == "resets_by_itself":
            assert "protector_retries" in {finding.code for finding in sized.findings}
    assert told["none"]
    assert told["resets_by_itself"] == told["none"]
    assert told["resets_by_hand"] == []
