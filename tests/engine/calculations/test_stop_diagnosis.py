"""Does a stop diagnosis rank what the physics and the signs of a stop speak for, and advise nothing dangerous?

Outside: UL 489 (200 % within two minutes, 100 % held at 25 C), UL 943 (class A holds below 4 mA, trips from 6 mA), and
what the trade says of signs (common practice, no source): a ground-fault device is reset at its buttons, a sleeping
source is woken at the source, a motor's own protector stops one tool and lets it start again by itself.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.stop_diagnosis.stop_causes import EXTENTS, RETURNED, STOP_CAUSES
from ampwright.engine.calculations.stop_diagnosis.stop_diagnosis import StopDiagnosisResult, diagnose_stop
from ampwright.engine.calculations.stop_diagnosis.stop_observation import StopObservation, stop_faults
from ampwright.engine.site.band import Band
from hypothesis import given, settings
from hypothesis import strategies as st
from patched import patched
from site_of import resistive, site_of


def _van(**members: Any) -> dict[str, Any]:
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "resistance": "0.0001 ohm",
        "limits": [{"id": "inverter", "continuous": "8000 VA", "tiers": [], "peak": "200 A", "response": "shutdown"}],
        "circuits": [
            {
                "id": name,
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            }
            for name in ("C1", "C2")
        ],
        "receptacles": [
            {"id": name, "type": "5-20R", "circuit": circuit, "ground_fault": "gfci_class_a"}
            for name, circuit in (("R1", "C1"), ("R2", "C1"), ("R3", "C2"), ("R4", "C2"))
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
        "sleeps_below": "15 W",
        **members,
    }


def _request(tools: list[dict[str, Any]], into: list[str], **members: Any) -> dict[str, Any]:
    return {
        "source": _van(),
        "tools": tools,
        "connections": [{"plug": tool["id"], "into": at} for tool, at in zip(tools, into, strict=True)],
        "conditions": {"ambient": "20 degC", "wet": False},
        "people": 2,
        "code_basis": [],
        **members,
    }


def _first(request: dict[str, Any], **seen: Any) -> tuple[str, StopDiagnosisResult]:
    names = tuple(tool["id"] for tool in request["tools"])
    found = diagnose_stop(site_of(request), StopObservation(names, **seen))
    return found.causes[0].cause, found


HEATERS = [resistive("one", "2300 W"), resistive("two", "2300 W")]


def test_twice_the_rating_for_a_minute_and_a_breaker_is_an_overload() -> None:
    # 38 A on 20 A: within two minutes by UL 489
    cause, found = _first(_request(HEATERS, ["R1", "R2"]), after_s=60.0, returned="at_the_breaker")
    assert cause == "circuit_overload"
    top = found.causes[0]
    assert top.pointer == "/source/circuits/0"
    assert top.values is not None
    assert top.values.typical == pytest.approx(2 * 2300.0 / 120.0, rel=0.01)
    # a tool on the other circuit, or one of the two alone, is what holds
    texts = [even.text for even in top.holds_with]
    assert any("into R3" in text or "into R4" in text for text in texts)
    assert found.verdict.capacity == "fail"


def test_a_stop_long_after_the_device_must_have_opened_is_no_overload_of_it() -> None:
    """At 192 % a breaker that held an hour on end is explained by nothing in its band."""
    early = _first(_request(HEATERS, ["R1", "R2"]), after_s=60.0)[1]
    late = _first(_request(HEATERS, ["R1", "R2"]), after_s=36000.0)[1]

    def share(result: StopDiagnosisResult) -> float:
        return sum(one.likelihood_share_ratio for one in result.causes if one.cause == "circuit_overload")

    assert share(early) > 0.5 > share(late)


def test_a_meter_is_believed_over_a_plate() -> None:
    request = _request(HEATERS, ["R1", "R2"])
    read = (("C1", Band(9.0, 9.5, 10.0)),)
    light = _first(request, after_s=60.0, readings=read)[1]
    assert all(one.cause != "circuit_overload" or one.likelihood_share_ratio < 0.1 for one in light.causes)


def test_four_filtered_chargers_on_one_class_a_device() -> None:
    chargers = [
        {
            "id": f"charger-{n}",
            "load_class": "battery_charger",
            "supply_options": [{"voltage": "120 V", "current": "2 A"}],
            "leakage": "1.6 mA",
        }
        for n in range(4)
    ]
    request = _request(chargers, ["reel"] * 4)
    request["cords"] = [
        {
            "id": "reel",
            "length": "50 ft",
            "size": "12 AWG",
            "plug": "5-15P",
            "outlets": {"type": "5-15R", "count": 4},
            "laid": "straight",
        }
    ]
    request["connections"].append({"plug": "reel", "into": "R1"})
    cause, found = _first(request, after_s=3600.0, returned="at_the_ground_fault_device")
    assert cause == "ground_fault"
    top = found.causes[0]
    # 6.4 mA of tools: above the 6 mA at which UL 943 asks for a trip
    assert top.values is not None
    assert top.values.high >= 0.0064
    assert top.limit == 0.004
    assert any("without" in even.text for even in top.holds_with)


@pytest.mark.parametrize(
    ("tool", "seen", "cause"),
    [
        (resistive("lamp", "5 W"), {"after_s": 1800.0, "returned": "at_the_source"}, "source_asleep"),
        (
            resistive("lamp", "500 W"),
            {"after_s": 18000.0, "returned": "at_the_source", "charge_ratio": 0.2},
            "charge_floor",
        ),
        (
            {
                "id": "saw",
                "load_class": "table_saw",
                "supply_options": [{"voltage": "120 V", "current": "10 A"}],
                "switch": "constant_pressure",
            },
            {"after_s": 1200.0, "returned": "by_itself", "extent": "one_tool", "heavy": "saw"},
            "motor_protector",
        ),
    ],
)
def test_signs_of_the_trade(tool: dict[str, Any], seen: dict[str, Any], cause: str) -> None:
    request = _request([tool], ["R1"])
    request["source"]["availability"] = [{"when": "charge_below", "at": "20 %", "works": False}]
    assert _first(request, **seen)[0] == cause


def test_a_motor_that_stops_the_source_at_once_is_its_start() -> None:
    pump = {
        "id": "pump",
        "load_class": "pump",
        "supply_options": [{"voltage": "120 V", "current": "12 A"}],
        "switch": "automatic",
    }
    request = _request([pump], ["R1"])
    # 12 A run on a source of 2,000 VA, 17 A; at 4 times and more the start asks for 5,800 VA
    request["source"]["limits"] = [
        {"id": "inverter", "continuous": "2000 VA", "tiers": [], "peak": "60 A", "response": "shutdown"}
    ]
    cause, _ = _first(request, after_s=0.0, switched_on="pump", returned="at_the_source")
    assert cause == "start_at_source"


def test_what_contradicts_itself_is_told() -> None:
    site = site_of(_request(HEATERS, ["R1", "R2"]))
    seen = StopObservation(("one",), heavy="two", readings=(("C9", Band.exactly(3.0)),))
    assert [(fault.pointer, fault.code) for fault in stop_faults(site, seen)] == [
        ("/stopped/heavy", "tool_did_not_run"),
        ("/stopped/readings/0/circuit", "unknown_circuit"),
    ]


@given(
    st.sampled_from([None, *RETURNED]),
    st.sampled_from([None, *EXTENTS]),
    st.sampled_from([None, 0.0, 3.0, 60.0, 1e4]),
    st.sampled_from([None, 0.02, 0.5, 1.0]),
    st.sampled_from([None, "one"]),
)
@settings(max_examples=30, deadline=None)
def test_any_signs_give_a_ranking_that_sums_to_one(
    returned: str | None, extent: str | None, after_s: float | None, charge: float | None, switched_on: str | None
) -> None:
    found = _first(
        _request(HEATERS, ["R1", "R3"]),
        returned=returned,
        extent=extent,
        after_s=after_s,
        charge_ratio=charge,
        switched_on=switched_on,
    )[1]
    shares = [one.likelihood_share_ratio for one in found.causes]
    assert shares == sorted(shares, reverse=True)
    # causes below a hundredth are left out, and each is rounded to one
    assert sum(shares) == pytest.approx(1.0, abs=0.12)


def test_signs_are_shares_and_checks_are_safe() -> None:
    for cause in STOP_CAUSES.values():
        assert sum(cause.returned) == pytest.approx(1.0)
        assert sum(cause.extent) == pytest.approx(1.0)
        assert cause.safe_checks
        for check in cause.safe_checks:
            # practice of the trade: nobody loads a circuit to find its trip point, fits a larger device or an adapter
            for word in ("adapter", "bigger", "run it until", "load it", "hold it"):
                assert word not in check.lower()


def test_what_is_said_to_hold_holds() -> None:
    request = _request(HEATERS, ["R1", "R2"], cases=[{"id": "stopped", "running": ["one", "two"]}])
    _, found = _first(request, after_s=60.0)
    assert found.verdict.capacity == "fail"
    moved = {**request, "connections": [{"plug": "one", "into": "R1"}, {"plug": "two", "into": "R3"}]}
    assert evaluate(site_of(moved), frozenset()).aspect(0, "capacity") == "pass"


# 1.5 hp, code letter J (7.1 to 8 kVA/hp, NFPA 70 table 430.7(B)): 10.7 to 12 kVA at standstill, 89 to 100 A at 120 V
COMPRESSOR = {
    "id": "compressor",
    "load_class": "air_compressor",
    "shaft_power": "1.5 hp",
    "supply_options": [{"voltage": "120 V", "current": "14 A"}],
    "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", "against": "head_pressure"},
    "switch": "automatic",
}


def _household(**seen: Any) -> StopDiagnosisResult:
    request = _request([COMPRESSOR], ["R1"])
    for circuit in request["source"]["circuits"]:
        circuit["device"]["rating"] = "15 A"
        circuit["resistance"] = "0.4 ohm"
    request["source"]["limits"][0]["continuous"] = "20000 VA"
    request["source"]["limits"][0]["peak"] = "900 A"
    return _first(request, **seen)[1]


def _share(found: StopDiagnosisResult, cause: str) -> float:
    return sum(one.likelihood_share_ratio for one in found.causes if one.cause == cause)


def test_a_start_that_opens_a_breaker_is_told_with_the_current_of_the_start() -> None:
    found = _household(after_s=1.0, switched_on="compressor", returned="at_the_breaker")
    top = found.causes[0]
    assert top.cause == "start_at_circuit"
    assert "compressor" in top.text
    assert top.figure == "peak_a"
    assert top.values is not None
    # behind 0.4 ohm the standstill current is 120 V over the motor's 1.2 to 1.35 ohm and the circuit's, in any angle
    assert 120.0 / (1.35 + 0.4) <= top.values.high <= 120.0 / 1.19


def test_a_start_is_looked_for_where_nobody_named_it() -> None:
    """A compressor begins its cycles by itself; in the first seconds any tool may have been the last."""
    assert _share(_household(after_s=2.0, returned="at_the_breaker"), "start_at_circuit") > 0.3
    assert _share(_household(after_s=1500.0, returned="at_the_breaker"), "start_at_circuit") > 0.05
    # long after it was switched on by hand it is no start any more
    assert _share(_household(after_s=1500.0, switched_on="compressor"), "start_at_circuit") < 0.1


def test_a_heater_has_no_start_to_blame() -> None:
    found = _first(_request(HEATERS, ["R1", "R2"]), after_s=1.0, switched_on="two", returned="at_the_breaker")[1]
    assert _share(found, "start_at_circuit") < 0.02


def test_a_source_that_starts_the_motor_is_not_blamed_for_its_start() -> None:
    found = _household(after_s=1.0, switched_on="compressor")
    # 20 kVA against 12 kVA at standstill
    assert _share(found, "start_at_source") < 0.02


def test_every_change_told_makes_what_ran_hold_when_it_is_posted() -> None:
    request = _request([COMPRESSOR, resistive("heater", "1200 W")], ["R1", "R2"])
    request["source"]["limits"] = [
        {"id": "inverter", "continuous": "5000 VA", "tiers": [], "peak": "900 A", "response": "shutdown"}
    ]
    names = [tool["id"] for tool in request["tools"]]
    found = diagnose_stop(site_of(request), StopObservation(tuple(names), switched_on="compressor", after_s=1.0))
    told = [even for one in found.causes for even in one.holds_with]
    assert told
    for even in told:
        posted = {**request, "stopped": {"running": names, "switched_on": "compressor"}}
        again = patched(
            posted,
            [
                {"op": step.op, "path": step.path} | ({} if step.op == "remove" else {"value": step.value})
                for step in even.change
            ],
        )
        stopped = again.pop("stopped")
        again["cases"] = [{"id": "stopped", "running": stopped["running"]}]
        after = evaluate(site_of(again), frozenset())
        assert even.then in (after.aspect(0, "capacity"), after.aspect(0, "safety")), even.text
        assert even.then != "fail"


@pytest.mark.parametrize("after_s", [None, 2.0, 30.0, 1200.0])
def test_half_as_much_again_as_the_label_is_the_first_suspect(after_s: float | None) -> None:
    """1800 W on 1200 VA is 150 % of the label; how long a source bears that is on no label (common practice)."""
    request = _request([resistive("heater", "1800 W")], ["R1"])
    request["source"]["limits"] = [{"id": "out", "continuous": "1200 VA"}]
    seen = {"extent": "everything"} if after_s is None else {"extent": "everything", "after_s": after_s}
    assert _first(request, **seen)[0] == "source_overload"


def test_what_opens_at_once_under_a_light_load_is_a_short() -> None:
    # a magnetic release opens within a tenth of a second, and 5 A on 20 A explain that no way (common practice, no
    # source); the longer it ran, the less a fault that was there from the start is looked for
    request = _request([resistive("lamp", "600 W")], ["R1"])
    shares: list[float] = []
    for after_s in (0.5, 3.0, 600.0):
        cause, found = _first(request, after_s=after_s, returned="at_the_breaker", extent="one_circuit")
        short = next(one for one in found.causes if one.cause == "short_circuit")
        assert (short.pointer, short.holds_with) == ("/source/circuits/0", ())  # no change of the load mends a fault
        assert cause == "short_circuit" or after_s > 5.0
        shares.append(short.likelihood_share_ratio)
    assert shares[0] > 0.8
    assert shares[0] > shares[1] > shares[2]


def test_an_overload_that_explains_the_stop_goes_before_a_short() -> None:
    cause, found = _first(_request(HEATERS, ["R1", "R2"]), after_s=60.0, returned="at_the_breaker")
    assert cause == "circuit_overload"
    assert sum(one.likelihood_share_ratio for one in found.causes if one.cause == "short_circuit") < 0.1


SAW = {
    "id": "saw", "load_class": "table_saw", "supply_options": [{"voltage": "120 V", "current": "10 A"}],
    "switch": "constant_pressure",
}  # fmt: skip


@pytest.mark.parametrize(
    ("protector", "says"),
    [("resets_by_itself", "starts again by itself"), ("resets_by_hand", "stays off until"), (None, "Unless its")],
)
def test_what_follows_a_hot_motor_is_what_its_protector_does(protector: str | None, says: str) -> None:
    tool = SAW if protector is None else {**SAW, "motor_protector": protector}
    cause, found = _first(_request([tool], ["R1"]), after_s=1200.0, extent="one_tool", heavy="saw")
    assert cause == "motor_protector"
    assert says in found.causes[0].text


def test_a_motor_without_a_protector_is_not_stopped_by_one() -> None:
    _, found = _first(
        _request([{**SAW, "motor_protector": "none"}], ["R1"]), after_s=1200.0, extent="one_tool", heavy="saw"
    )
    assert "motor_protector" not in {one.cause for one in found.causes}
