"""Is it told where a plate, a plug, a start or a device contradicts another figure of the request?

Expected from outside: NFPA 70 (2008) table 430.248 (full-load current of single-phase motors, 115 V) and 430.251(A)
(their locked-rotor current, six times as much); 1 hp is 745.7 W and no motor gives more than it takes; a cold filament
or heater conducts no worse than a hot one; NEMA WD 6 (a 5-15 configuration is one of 15 A); NFPA 70 table 210.21(B)(3)
(15 A and 20 A receptacles on a 20 A circuit); a socket of BS 1363 on a ring of 32 A (common practice, no source).
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, finding_of
from van_request import van, van_request

# hp: full-load and locked-rotor amperes at 115 V
TABLE_A = {"0.5 hp": (9.8, 58.8), "1 hp": (16.0, 96.0), "1.5 hp": (20.0, 120.0), "2 hp": (24.0, 144.0)}


def _tool(start: dict[str, Any] | None, load_class: str = "air_compressor", **option: Any) -> dict[str, Any]:
    tool = {
        "id": "tool",
        "load_class": load_class,
        "supply_options": [{"voltage": "115 V", **option}],
        "insulation": "class_ii",
        "switch": "constant_pressure",
    }
    return tool if start is None else {**tool, "start": start}


def _told(tool: dict[str, Any], code: str, **source: Any) -> Any:
    return finding_of(check(van_request([tool], ["R1"], source=van(**source))), code)


@pytest.mark.parametrize("size", list(TABLE_A))
def test_a_locked_rotor_current_is_no_less_than_that_at_work(size: str) -> None:
    full_a, locked_a = TABLE_A[size]

    def start(amps: float) -> dict[str, Any]:
        return {"kind": "induction_motor", "locked_rotor": f"{amps:g} A"}

    for plate in ({"current": f"{full_a:g} A"}, {"apparent_power": f"{full_a * 115.0:g} VA"}):
        assert _told(_tool(start(locked_a), **plate), "start_below_running") is None
        # the two figures the wrong way round, as they are misread on a plate that has both
        swapped = _tool(start(full_a), **{name: v.replace(v.split()[0], f"{locked_a * (115.0 if 'VA' in v else 1.0):g}")
                                          for name, v in plate.items()})  # fmt: skip
        found = _told(swapped, "start_below_running")
        assert found is not None
        assert (found.severity, found.pointer) == ("caution", "/tools/0/start/locked_rotor")
        assert (found.value, found.limit) == (pytest.approx(full_a), pytest.approx(locked_a))
    # of its shaft alone: 745.7 W a hp at 115 V is the least that it takes
    least_a = float(size.split(maxsplit=1)[0]) * 745.7 / 115.0
    by_shaft = {**_tool(start(0.8 * least_a)), "shaft_power": size}
    assert _told(by_shaft, "start_below_running") is not None
    assert _told({**by_shaft, "start": start(locked_a)}, "start_below_running") is None


@pytest.mark.parametrize(
    ("load_class", "start", "told"),
    [
        ("air_compressor", {"kind": "measured", "peak": "5 A"}, True),
        ("air_compressor", {"kind": "measured", "peak": ">=5 A"}, False),
        # measured where the volts were half: twice as much at its plate
        ("air_compressor", {"kind": "measured", "peak": "8 A", "at": "57.5 V"}, False),
        ("circular_saw", {"kind": "universal_motor", "peak": "5 A"}, True),
        ("circular_saw", {"kind": "universal_motor", "peak": "5 A", "soft_start": True}, False),
        ("circular_saw", {"kind": "electronic_motor", "peak": "5 A"}, False),
        ("battery_charger", {"kind": "rectifier", "peak": "5 A"}, False),
        ("heater", {"kind": "resistive", "cold_current": "5 A"}, True),
        ("heater", {"kind": "resistive", "cold_current": "12 A"}, False),
    ],
)
def test_only_what_cannot_be_is_told(load_class: str, start: dict[str, Any], told: bool) -> None:
    found = _told(_tool(start, load_class, current="10 A"), "start_below_running")
    assert (found is not None) == told


def test_a_start_of_a_tool_of_two_voltages_is_held_to_the_one_in_use() -> None:
    # 14 A are said of the tool, which is fed at 115 V and takes 8 A there: of its other voltage nothing is said
    tool = _tool({"kind": "induction_motor", "locked_rotor": "14 A"}, current="8 A")
    tool["supply_options"].append({"id": "other", "voltage": "230 V", "current": "16 A"})
    assert _told(tool, "start_below_running") is None
    tool["supply_options"][1]["start"] = {"kind": "induction_motor", "locked_rotor": "14 A"}
    found = _told(tool, "start_below_running")
    assert found is not None
    assert found.pointer == "/tools/0/supply_options/1/start/locked_rotor"


def test_a_misread_start_is_no_pass() -> None:
    # 12 A read for a locked-rotor current of 120 A: nothing may be concluded from a start that there is not
    misread = _tool({"kind": "induction_motor", "locked_rotor": "12 A", "against": "nothing"}, "pump", current="15 A")
    assert check(van_request([misread], ["R1"])).verdict.capacity in ("unknown", "fail")


@pytest.mark.parametrize(
    ("load_class", "option", "told"),
    [
        ("circular_saw", {"current": "15 A"}, False),
        ("circular_saw", {"current": "18 A"}, True),
        ("circular_saw", {"current": "14..18 A"}, False),
        ("welder", {"current": "20.5 A"}, False),
        ("welder", {"current": "20.5 A", "effective_current": "12 A"}, False),
        ("welder", {"current": "30 A", "effective_current": "18 A"}, True),
    ],
)
def test_a_plate_above_its_plug_is_told(load_class: str, option: dict[str, Any], told: bool) -> None:
    found = _told(_tool(None, load_class, plug="5-15P", **option), "plug_below_plate")
    assert (found is not None) == told
    if found is not None:
        assert (found.value, found.limit) == (18.0, 15.0)
        assert found.pointer == "/tools/0/supply_options/0/plug"


@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        ({"effective_current": "12 A", "current": "20.5 A"}, None),
        ({"effective_current": "12 A", "current": "8 A"}, "/tools/0/supply_options/0/effective_current"),
        # 5 A at 115 V are 575 VA
        ({"load_states": [{"id": "working", "power": "570 W", "current": "5 A"}]}, None),
        (
            {"load_states": [{"id": "idle"}, {"id": "working", "power": "900 W", "current": "5 A"}]},
            "/tools/0/supply_options/0/load_states/1",
        ),
        ({"load_states": [{"id": "working", "power": "900 W", "current": ">=5 A"}]}, None),
    ],
)
def test_figures_of_one_plate_that_do_not_add_up_are_told(members: dict[str, Any], pointer: str | None) -> None:
    # no mean is above its largest member (I1eff and I1max of IEC 60974-1), no watts are above volts times amperes
    found = _told(_tool(None, "welder", **members), "plate_contradicts_itself")
    assert (found.pointer if found else None) == pointer


@pytest.mark.parametrize(
    ("receptacle", "rating", "told"),
    [
        ("5-20R", "20 A", False),
        ("5-15R", "20 A", False),
        ("5-15R", "30 A", True),
        ("5-20R", "60 A", True),
        ("5-20R", "15 A", False),
        ("BS 1363", "32 A", False),
    ],
)
def test_a_device_that_lets_through_more_than_its_receptacle_bears(receptacle: str, rating: str, told: bool) -> None:
    source = van()
    source["receptacles"][0]["type"] = receptacle
    source["circuits"][0]["device"]["rating"] = rating
    request = van_request([_tool(None, "heater", current="5 A")], ["R1"], source=source)
    found = finding_of(check(request), "device_above_receptacle")
    assert (found is not None) == told
    if found is not None:
        assert (found.severity, found.pointer) == ("caution", "/source/receptacles/0")
        # where a rule layer is asked, its own finding tells it
        asked = check({**request, "code_basis": ["nec-2023"]})
        assert finding_of(asked, "device_above_receptacle") is None
        assert finding_of(asked, "receptacle_not_for_circuit") is not None
