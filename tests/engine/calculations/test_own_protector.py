"""What does a motor's own thermal protector do while it stands still, and what does that mean to who holds the tool?

Outside the project: the heat balance of one body integrated step by step (Newton's law of cooling); IEC 60034-11
(from memory): a built-in protector keeps a winding at standstill below 200 C. NFPA 70 430.43 (from memory): no overload
device that resets by itself where that can injure somebody; hence the danger. Rest: practice of the trade.
"""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.starts.own_protector import COLD_C, OPENS_C, opens_s
from ampwright.engine.physics.stalled_winding import HOT_FROM_WORK_C, LOCKED_RISE_K_PER_S, WINDING_TIME_S
from site_of import site_of


def asked(
    load_class: str, protector: str | None, *, against: str = "loaded_drum", limit: str = "18 A"
) -> dict[str, Any]:
    """A motor on a source that folds its current back without an end: it stands still and nothing trips."""
    tool: dict[str, Any] = {
        "id": "tool", "load_class": load_class, "shaft_power": "1.5 hp",
        "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", "against": against},
        "switch": "positive_on_off", "restart_protection": False,
    }  # fmt: skip
    if protector is not None:
        tool["motor_protector"] = protector
    return {
        "source": {
            "kind": "vehicle", "voltage": "120 V", "waveform": "sine", "reset": {"how": "manual"},
            "neutral_bond": "bonded",
            "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "60 A"}}],
            "limits": [
                {"id": "inverter", "continuous": limit, "tiers": [], "response": "current_limiting"}
            ],
            "receptacles": [{"id": "R1", "circuit": "C1", "type": "5-20R", "ground_fault": "gfci_class_a"}],
        },
        "tools": [tool],
        "connections": [{"plug": "tool", "into": "R1"}],
        "cases": [{"id": "all", "running": ["tool"]}],
        "people": 2,
    }  # fmt: skip


def told(request: dict[str, Any]) -> dict[str, Any]:
    return {item.code: item for item in check_load(site_of(request)).findings}


@pytest.mark.parametrize("estimate", range(3))
@pytest.mark.parametrize("ratio", [0.5, 0.8, 1.0])
@pytest.mark.parametrize("hot", [False, True])
def test_it_opens_when_the_heat_balance_reaches_its_temperature(estimate: int, ratio: float, hot: bool) -> None:
    first = HOT_FROM_WORK_C[estimate] if hot else COLD_C
    seconds = opens_s(estimate, ratio, first)
    rise, at_s, step_s = 0.0, 0.0, 1e-3
    while rise < OPENS_C - first and at_s < 600.0:
        rise += step_s * (LOCKED_RISE_K_PER_S[estimate] * ratio**2 - rise / WINDING_TIME_S[estimate])
        at_s += step_s
    if at_s >= 600.0:
        assert seconds == math.inf
    else:
        assert seconds == pytest.approx(at_s, rel=2e-3)
    assert OPENS_C < 200.0  # IEC 60034-11


def test_one_that_resets_itself_under_a_hand_is_a_danger() -> None:
    found = told(asked("concrete_mixer", "resets_by_itself", limit="40 A"))
    assert found["protector_retries"].severity == "danger"
    assert 5.0 < found["protector_retries"].value < 600.0
    assert "protector_may_restart" in found
    assert "stalls_without_trip" not in found
    assert check_load(site_of(asked("concrete_mixer", "resets_by_itself", limit="40 A"))).verdict.safety == "fail"


def test_one_that_a_person_resets_stays_off() -> None:
    found = told(asked("concrete_mixer", "resets_by_hand", limit="40 A"))
    assert "protector_opens" in found
    assert not {"protector_retries", "protector_may_restart", "stalls_without_trip"} & set(found)


@pytest.mark.parametrize("protector", ["none", None])
def test_without_one_the_motor_burns(protector: str | None) -> None:
    found = told(asked("concrete_mixer", protector, limit="40 A"))
    assert found["stalls_without_trip"].severity == "danger"
    assert not {"protector_retries", "protector_may_restart", "protector_opens"} & set(found)


def test_a_current_held_so_low_that_the_winding_never_gets_hot_enough_opens_none() -> None:
    """Ohm's law and the heat balance: 12 A of some 95 A locked-rotor current are 1.6 % of the heat."""
    found = told(asked("concrete_mixer", "resets_by_itself", limit="12 A"))
    assert "protector_retries" not in found
    assert "stalls_without_trip" in found


def test_it_is_said_of_a_tool_that_starts_well_too_and_whatever_the_source_does() -> None:
    request = asked("pump", "resets_by_itself", against="nothing", limit="400 A")
    for how in ("manual", "automatic"):
        request["source"]["reset"] = {"how": how}
        found = told(copy.deepcopy(request))
        assert "protector_may_restart" in found
        assert found["protector_may_restart"].severity == "caution"
        assert found["protector_may_restart"].pointer.endswith("/motor_protector")
    request["tools"][0]["motor_protector"] = "none"
    assert "protector_may_restart" not in told(request)


def test_after_a_trip_the_winding_of_a_guarded_motor_does_not_burn() -> None:
    """A compressor whose unloader has not vented: it stands after each return of a source that resets itself."""
    request = asked("air_compressor", None, against="vented", limit="40 A")
    tool = request["tools"][0]
    tool["restart"] = {**tool["start"], "against": "head_pressure"}
    tool["switch"] = "automatic"
    request["source"]["reset"] = {"how": "automatic", "after": "2 s"}
    heavy = {
        "id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": "4000 W"}],
    }  # fmt: skip
    request["tools"].append(heavy)
    request["source"]["receptacles"].append({**request["source"]["receptacles"][0], "id": "R2"})
    request["connections"].append({"plug": "heater", "into": "R2"})
    request["cases"][0]["running"].append("heater")
    bare = told(copy.deepcopy(request))
    tool["motor_protector"] = "resets_by_itself"
    guarded = told(request)
    assert "return_overheats_motor" not in guarded
    assert "return_overheats_motor" in bare
    assert "without warning" not in bare["stalls_when_power_returns"].text
    assert "without warning" in guarded["stalls_when_power_returns"].text


def test_the_crew_hears_that_it_stands_still_before_what_a_push_would_ask() -> None:
    """A compressor that never comes up to speed is not called too much for a breaker by a hair."""
    request = {
        "source": {
            "kind": "vehicle", "voltage": "120 V", "reset": {"how": "manual"},
            "receptacles": [{"id": "R1", "marked": "15 A", "circuit": "C1"}],
            "circuits": [{"id": "C1", "device": {"kind": "breaker", "rating": "15 A"}}],
            "limits": [{"id": "inv", "continuous": "15 A", "response": "current_limiting", "tiers": []}],
        },
        "tools": [
            {
                "id": "compressor", "load_class": "air_compressor",
                "supply_options": [{"voltage": "120 V", "current": "15 A"}],
            }
        ],
        "cases": [{"id": "alone", "running": ["compressor"]}],
    }  # fmt: skip
    first = next(line for line in check_load(site_of(request)).crew_card if line.code == "card_do_not_run")
    assert "does not start" in first.text
