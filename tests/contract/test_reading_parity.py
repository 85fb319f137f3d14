"""Does every member that a caller can write arrive in the engine's site?

One request says everything that can be said. Each of its members is left out in turn: if the site does not change, the
member is not read. A member added to a struct and not to the request here fails the first test.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from ampwright.contract.load_checks import CordInUse, LoadCheckRequest, ToolInUse
from ampwright.contract.power_source_members import (
    BatteryStation,
    Breaker,
    ElectronicLimit,
    EngineGenerator,
    Fuse,
    SiteSupply,
    SupplementaryProtector,
    Vehicle,
)
from ampwright.contract.reading_site import read_site
from ampwright.contract.tool_members import (
    ElectronicMotorStart,
    InductionMotorStart,
    MeasuredStart,
    RectifierStart,
    ResistiveStart,
    UniversalMotorStart,
)
from msgspec import UNSET

RESET = {"how": "automatic", "where": "cab", "by": "driver", "needs": "key", "after": "5 s", "tries": 2}
TIERS = [{"amount": "5000 VA", "lasts": "10 s"}]
STATE = {
    "id": "working",
    "power": "900 W",
    "current": "8 A",
    "power_factor": 0.9,
    "crest_factor": 1.6,
    "follows_voltage": "series_motor",
    "lasts": "30 s",
}
STARTS = [
    {
        "kind": "induction_motor",
        "motor": "capacitor_start",
        "code_letter": "J",
        "locked_rotor": "90 A",
        "against": "vented",
        "lasts": "1 s",
    },
    {"kind": "universal_motor", "soft_start": True, "peak": "60 A", "lasts": "0.5 s"},
    {"kind": "electronic_motor", "corrected": True, "peak": "14 A", "lasts": "0.7 s"},
    {"kind": "rectifier", "corrected": False, "peak": "70 A"},
    {"kind": "resistive", "cold_current": "13 A"},
    {"kind": "measured", "peak": "55 A", "lasts": "0.4 s", "at": "118 V"},
]
OPTION = {
    "id": "us",
    "voltage": "120 V",
    "phases": 1,
    "plug": "5-15P",
    "current": "15 A",
    "power": "1500 W",
    "apparent_power": "1700 VA",
    "effective_current": "12 A",
    "output": "110 A",
    "load_states": [STATE],
    "start": STARTS[1],
    "restart": STARTS[1],
}
DEVICES = [
    {"kind": "breaker", "standard": "ul_489", "rating": "20 A", "ambient": "30 degC", "reset": RESET},
    {
        "kind": "supplementary_protector",
        "standard": "ul_1077",
        "rating": "15 A",
        "ambient": "35 degC",
        "reset": RESET,
    },
    {"kind": "fuse", "standard": "bs_1362", "rating": "13 A", "ambient": "25 degC", "reset": RESET},
    {
        "kind": "electronic",
        "rating": "16 A",
        "ambient": "20 degC",
        "reset": RESET,
        "tiers": TIERS,
        "response": "shutdown",
    },
]
SOURCE = {
    "name": "a source",
    "voltage": "120/240 V",
    "legs": [{"id": "L1", "angle": "0 deg"}, {"id": "L2", "angle": "175 deg"}],
    "limits": [
        {
            "id": "inverter",
            "over": ["L1"],
            "continuous": "4000 VA",
            "tiers": TIERS,
            "response": "shutdown",
            "peak": "60 A",
            "reset": RESET,
        }
    ],
    "circuits": [
        {"id": f"C{i}", "legs": ["L1"], "resistance": "0.02 ohm", "device": device} for i, device in enumerate(DEVICES)
    ],
    "receptacles": [
        {
            "id": "R1",
            "type": "5-20R",
            "marked": "20 A",
            "circuit": "C1",
            "location": "left",
            "ground_fault": "gfci_class_a",
        }
    ],
    "reset": RESET,
    "waveform": "modified_sine",
    "neutral_bond": "floating",
    "resistance": "0.1 ohm",
    "availability": [{"when": "charge_below", "at": "20 %", "works": False}],
}
OF_KIND = {
    "vehicle": {
        "battery": "68 kWh",
        "awake_draw": "200 W",
        "sleeps_after": "20 min",
        "wakes_on_load": False,
        "sleeps_below": "15 W",
        "energy_per_distance": "220 Wh/km",
    },
    "battery_station": {
        "battery": "2 kWh",
        "awake_draw": "20 W",
        "sleeps_below": "12 W",
        "sleeps_after": "20 min",
        "wakes_on_load": True,
    },
    "engine_generator": {
        "technology": "avr",
        "running": "5500 W",
        "starting": "6500 W",
        "transient_reactance": "0.18 pu",
        "tank": "24 l",
    },
    "site_supply": {"earthing": "tt", "fault_current": "900 A"},
}
TOOL = {
    "id": "saw",
    "name": "a saw",
    "load_class": "circular_saw",
    "shaft_power": "1.5 hp",
    "supply_options": [OPTION],
    "load_states": [STATE],
    "start": STARTS[0],
    "restart": STARTS[0],
    "switch": "constant_pressure",
    "control": "none",
    "restart_protection": False,
    "motor_protector": "resets_by_itself",
    "operated": "by_hand",
    "lowest_voltage": "104 V",
    "sensitivity": "low",
    "leakage": "0.5 mA",
    "insulation": "class_ii",
    "must_return": True,
    "follows": "other",
    "on": "60 s",
    "off": "120 s",
}
CORD = {
    "id": "long",
    "name": "a cord",
    "length": "100 ft",
    "size": "14 AWG",
    "conductors": 3,
    "type": "SJTW",
    "insulation_temperature": "60 degC",
    "marked": "13 A",
    "plug": "5-15P",
    "plug_state": "worn",
    "outlets": {"type": "5-15R", "rating": "15 A", "count": 3, "state": "good"},
    "laid": "drum",
    "drum_layers": 2,
    "led_through": "door",
}
REST = {
    "connections": [{"plug": "saw", "into": "R1", "leg": "L1"}],
    "people": 2,
    "cases": [{"id": "one", "running": ["saw"], "start_order": ["saw"]}],
    "conditions": {
        "place": "indoors",
        "wet": True,
        "ambient": "10..30 degC",
        "altitude": "300..400 m",
        "fixed_wiring": "transfer_equipment",
    },
    "code_basis": ["osha-1926"],
}
# Said beside the site, and used elsewhere: what to take from the catalogue, and which release.
NOT_OF_THE_SITE = {
    LoadCheckRequest: {"kit", "catalogue_release", "withdrawals_as_of", "include", "shift"},
    ToolInUse: {"entry", "revision"},
    CordInUse: {"entry", "revision"},
}


def _requests() -> Iterator[tuple[str, dict[str, Any]]]:
    for kind, members in OF_KIND.items():
        other = {**TOOL, "id": "other", "follows": "saw"}
        yield kind, {"source": {"kind": kind, **SOURCE, **members}, "tools": [TOOL, other], "cords": [CORD], **REST}
    for start in STARTS[1:]:
        tool = {**TOOL, "start": start, "restart": start}
        source = {"kind": "vehicle", **SOURCE, **OF_KIND["vehicle"]}
        yield str(start["kind"]), {"source": source, "tools": [tool], "cords": [CORD], **REST}


REQUESTS = dict(_requests())


def _members(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(value, dict):
        for name, inner in value.items():
            yield (*path, name)
            yield from _members(inner, (*path, name))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from _members(inner, (*path, place))


def _structs(value: Any) -> Iterator[msgspec.Struct]:
    if isinstance(value, msgspec.Struct):
        yield value
        for name in value.__struct_fields__:
            yield from _structs(getattr(value, name))
    elif isinstance(value, list):
        for item in value:
            yield from _structs(item)


@pytest.mark.parametrize("name", list(REQUESTS))
def test_the_request_here_says_everything(name: str) -> None:
    request = msgspec.convert(REQUESTS[name], LoadCheckRequest)
    unsaid = [
        f"{type(struct).__name__}.{member}"
        for struct in _structs(request)
        for member in struct.__struct_fields__
        if getattr(struct, member) is UNSET and member not in NOT_OF_THE_SITE.get(type(struct), set())
    ]
    assert unsaid == []


def test_every_kind_of_part_is_here() -> None:
    here = {type(struct) for raw in REQUESTS.values() for struct in _structs(msgspec.convert(raw, LoadCheckRequest))}
    members = {
        Vehicle,
        BatteryStation,
        EngineGenerator,
        SiteSupply,
        Breaker,
        SupplementaryProtector,
        Fuse,
        ElectronicLimit,
        InductionMotorStart,
        UniversalMotorStart,
        ElectronicMotorStart,
        RectifierStart,
        ResistiveStart,
        MeasuredStart,
    }
    assert members <= here


@pytest.mark.parametrize("name", list(REQUESTS))
def test_every_member_arrives(name: str) -> None:
    whole = read_site(msgspec.convert(REQUESTS[name], LoadCheckRequest))[0]
    left_out, unread = 0, []
    for path in _members(REQUESTS[name]):
        without = copy.deepcopy(REQUESTS[name])
        holder: Any = without
        for step in path[:-1]:
            holder = holder[step]
        del holder[path[-1]]
        try:
            request = msgspec.convert(without, LoadCheckRequest)
        except msgspec.ValidationError:
            continue  # a required member: without it nothing is read
        left_out += 1
        if read_site(request)[0] == whole:
            unread.append("/".join(map(str, path)))
    assert unread == []
    assert left_out > 100


@pytest.mark.parametrize("name", list(REQUESTS))
def test_the_request_here_has_no_faults(name: str) -> None:
    assert read_site(msgspec.convert(REQUESTS[name], LoadCheckRequest))[1] == ()
