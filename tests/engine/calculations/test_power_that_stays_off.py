"""Does every device count that nobody spoke of, and does what must come back really come back?

What is expected follows from the requests themselves: a reset that was said of one device says nothing of another; one
that makes no try never switches on again; what its own switch keeps off stays off however soon power is back.
29 CFR 1926.300(d) names the kinds of switch. A ground-fault device latches and is reset by a person: UL 943 and
IEC 61008-1 (both from memory). That a fuse is replaced by hand and that a set without electronics is started again by
hand: common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, finding_of, resistive
from van_request import van, van_request

GRINDER = {
    "id": "grinder",
    "load_class": "angle_grinder",
    "supply_options": [{"voltage": "120 V", "current": "8 A"}],
    "insulation": "class_ii",
    "switch": "positive_on_off",
    "restart_protection": False,
    # so that no start can trip anything: only the reset decides
    "start": {"kind": "measured", "peak": "9 A", "lasts": "0.2 s"},
}
MANUAL = {"how": "manual"}


def _said_by_hand(**members: Any) -> dict[str, Any]:
    """A van of which every device is said to be reset by hand, one by one."""
    source = van()
    del source["reset"]
    source["limits"][0]["reset"] = MANUAL
    for circuit in source["circuits"]:
        circuit["device"]["reset"] = MANUAL
    return {**source, **members}


def _engine_set(technology: str) -> dict[str, Any]:
    source = _said_by_hand(kind="engine_generator", technology=technology, running="6000 W")
    del source["limits"]
    return source


def _without_limits() -> dict[str, Any]:
    source = _said_by_hand()
    del source["limits"]
    return source


def _without_devices() -> dict[str, Any]:
    source = _said_by_hand()
    for circuit in source["circuits"]:
        del circuit["device"]
    return source


def _circuits_only_named() -> dict[str, Any]:
    source = _said_by_hand()
    del source["circuits"]
    return source


def _fused() -> dict[str, Any]:
    source = _said_by_hand()
    for circuit in source["circuits"]:
        circuit["device"] = {"kind": "fuse", "standard": "ul_248", "rating": "20 A"}
    return source


@pytest.mark.parametrize(
    ("source", "safety"),
    [
        (_said_by_hand(), "pass"),
        (_fused(), "pass"),
        (_engine_set("avr"), "pass"),
        (_engine_set("capacitor_regulated"), "pass"),
        # of one thing that may open nobody said how it comes back
        (_engine_set("inverter"), "unknown"),
        (_without_limits(), "unknown"),
        (_without_devices(), "unknown"),
        (_circuits_only_named(), "unknown"),
        # said of the source, it is said of all that has no word of its own
        ({**_without_limits(), "reset": MANUAL}, "pass"),
        ({**_without_devices(), "reset": MANUAL}, "pass"),
        ({**_circuits_only_named(), "reset": MANUAL}, "pass"),
        ({**_engine_set("inverter"), "reset": MANUAL}, "pass"),
    ],
)
def test_what_nobody_spoke_of_may_come_back_by_itself(source: dict[str, Any], safety: str) -> None:
    result = check(van_request([GRINDER], ["R1"], source=source, conditions={"place": "open_air"}))
    assert result.verdict.safety == safety
    assert (finding_of(result, "restart_without_warning") is not None) == (safety == "unknown")
    if safety == "unknown":
        asked = next(item for item in result.assumptions if item.id == result.question)
        assert (asked.code, asked.pointer) == ("reset", "/source/reset")
        assert asked.if_instead_change is not None


def test_a_reset_without_a_try_never_comes_back_by_itself() -> None:
    reset = {"how": "automatic", "after": "5 s", "tries": 0, "where": "the cab"}
    result = check(van_request([GRINDER], ["R1"], source=van(reset=reset)))
    assert finding_of(result, "restart_without_warning") is None
    assert result.verdict.safety == "pass"
    assert any(line.text.startswith("If it stops, it stays off:") for line in result.crew_card)
    one_try = check(van_request([GRINDER], ["R1"], source=van(reset={**reset, "tries": 1})))
    assert one_try.verdict.safety == "fail"


@pytest.mark.parametrize(("tries", "danger"), [(0, True), (None, False)])
def test_what_must_come_back_does_not_where_no_try_is_made(tries: int | None, danger: bool) -> None:
    pump = resistive("alarm", "60 W", must_return=True, load_class="electronics")
    reset = {"how": "automatic"} if tries is None else {"how": "automatic", "tries": tries}
    found = finding_of(check(van_request([pump], ["R1"], source=van(reset=reset))), "must_not_stop")
    assert (found is not None) == danger


def _protected(source: dict[str, Any], kind: str) -> dict[str, Any]:
    for receptacle in source["receptacles"]:
        receptacle["ground_fault"] = kind
    return source


@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        ({}, None),
        ({"restart_protection": False}, None),
        ({"restart_protection": True}, "/tools/0/restart_protection"),
        ({"switch": "constant_pressure"}, "/tools/0/switch"),
        ({"follows": "grinder"}, "/tools/0/follows"),
    ],
)
def test_its_own_switch_keeps_off_what_must_come_back(members: dict[str, Any], pointer: str | None) -> None:
    fan = resistive("alarm", "60 W", load_class="electronics", must_return=True, **members)
    # the saw that is followed has a switch that must be held
    leader = {**GRINDER, "switch": "constant_pressure"}
    source = van(reset={"how": "automatic"})
    result = check(van_request([fan, leader], ["R1", "R2"], source=source))
    found = finding_of(result, "must_return_switched_off")
    assert (found.pointer if found else None) == pointer
    if found is not None:
        assert (found.severity, result.verdict.safety) == ("danger", "fail")


@pytest.mark.parametrize(("kind", "told"), [("none", False), ("gfci_class_a", True), ("rcd_30ma_type_a", True)])
def test_a_ground_fault_device_stays_off_whatever_the_source_does(kind: str, told: bool) -> None:
    alarm = resistive("alarm", "60 W", load_class="electronics", must_return=True)
    source = _protected(van(reset={"how": "automatic"}), kind)
    found = finding_of(check(van_request([alarm], ["R1"], source=source)), "must_return_behind_ground_fault")
    assert (found is not None) == told
    if found is not None:
        assert (found.severity, found.pointer) == ("caution", "/tools/0/must_return")


@pytest.mark.parametrize(("protected", "starts"), [(False, True), (True, False)])
def test_a_pressure_switch_behind_restart_protection_starts_nothing(protected: bool, starts: bool) -> None:
    compressor = {
        "id": "compressor",
        "load_class": "air_compressor",
        "supply_options": [{"voltage": "120 V", "current": "10 A"}],
        "restart_protection": protected,
        "start": {"kind": "measured", "peak": "12 A", "lasts": "0.2 s"},
    }
    result = check(van_request([compressor], ["R1"], source=van(reset={"how": "automatic"})))
    assert (finding_of(result, "restarts_by_itself") is not None) == starts
