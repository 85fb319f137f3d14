"""Is everything plugged in that anything takes, into an outlet that takes it, and the same way each time?

Expected connections follow from NEMA WD 6 (which plug enters which receptacle: a 5-20P no 5-15R, a 5-15P a 5-20R) and
from counting; none comes from the code under test.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from ampwright.engine.calculations.load_check import check_load
from ampwright.engine.calculations.outlet_plan import plug_in
from ampwright.engine.site.validation import validate
from site_of import site_of

BREAKER = {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}


def van(*receptacles: tuple[str, str, str]) -> dict[str, Any]:
    circuits = dict.fromkeys(circuit for _, _, circuit in receptacles)
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "limits": [{"id": "inverter", "continuous": "7200 VA"}],
        "circuits": [{"id": name, "legs": ["L1"], "device": BREAKER} for name in circuits],
        "receptacles": [{"id": name, "type": kind, "circuit": circuit} for name, kind, circuit in receptacles],
        "reset": {"how": "manual"},
    }


def tool(name: str, amps: float, plug: str = "5-15P", **members: Any) -> dict[str, Any]:
    option = {"voltage": "120 V", "current": f"{amps} A", "plug": plug}
    return {"id": name, "load_class": "other", "supply_options": [option], **members}


def pairs(request: dict[str, Any]) -> dict[str, str]:
    found = plug_in(site_of(request))
    assert found is not None
    return {one.plug: one.into for one in found}


def test_each_plug_finds_an_outlet_that_takes_it() -> None:
    # the 5-20P enters the 5-20R alone, so the 5-15P gets what is left (NEMA WD 6)
    request = {
        "source": van(("R1", "5-20R", "C1"), ("R2", "5-15R", "C2")),
        "tools": [tool("drill", 6), tool("heater", 16, "5-20P")],
    }
    assert pairs(request) == {"drill": "R2", "heater": "R1"}


def test_two_large_tools_get_a_circuit_each() -> None:
    request = {
        "source": van(("R1", "5-20R", "C1"), ("R2", "5-20R", "C1"), ("R3", "5-20R", "C2"), ("R4", "5-20R", "C2")),
        "tools": [tool("saw", 15), tool("compressor", 15)],
    }
    found = pairs(request)
    circuit = {"R1": "C1", "R2": "C1", "R3": "C2", "R4": "C2"}
    assert {circuit[into] for into in found.values()} == {"C1", "C2"}


def test_a_reel_serves_more_tools_than_there_are_receptacles() -> None:
    request = {
        "source": van(("R1", "5-20R", "C1")),
        "tools": [tool("a", 2), tool("b", 2), tool("c", 2)],
        "cords": [{"id": "reel", "plug": "5-15P", "outlets": {"type": "5-15R", "count": 3}}],
    }
    assert pairs(request) == {"reel": "R1", "a": "reel", "b": "reel", "c": "reel"}


def test_what_nothing_takes_is_left_out() -> None:
    request = {"source": van(("R1", "5-15R", "C1")), "tools": [tool("welder", 30, "6-50P"), tool("drill", 6)]}
    assert pairs(request) == {"drill": "R1"}
    request["tools"] = [tool("a", 6), tool("b", 6)]
    assert set(pairs(request).values()) == {"R1"}
    assert len(pairs(request)) == 1


def test_what_is_said_stands_and_what_is_not_listed_is_left_to_the_load_check() -> None:
    request = {"source": van(("R1", "5-20R", "C1")), "tools": [tool("a", 6)], "connections": []}
    assert plug_in(site_of(request)) == ()
    request = {"source": {"kind": "vehicle", "voltage": "120 V"}, "tools": [tool("a", 6)]}
    assert plug_in(site_of(request)) is None
    request["source"] = {"kind": "vehicle", "voltage": "120 V", "receptacles": []}
    assert plug_in(site_of(request)) == ()
    request = {"source": van(("R1", "5-20R", "C1")), "tools": []}
    assert plug_in(site_of(request)) == ()


@pytest.mark.parametrize("count", [1, 7, 40])
def test_the_connections_are_sound_and_always_the_same(count: int) -> None:
    request = {
        "source": van(*((f"R{n}", "5-20R", f"C{n // 2}") for n in range(20))),
        "tools": [tool(f"t{n}", 1 + n % 9) for n in range(count)],
        "cords": [
            {"id": f"reel-{n}", "length": "50 ft", "plug": "5-15P", "outlets": {"type": "5-15R", "count": 3}}
            for n in range(12)
        ],
    }
    site = site_of(request)
    found = plug_in(site)
    assert found == plug_in(site_of(request))
    assert found is not None
    assert {one.plug for one in found if one.plug.startswith("t")} == {f"t{n}" for n in range(count)}
    joined = replace(site, connections=found)
    assert validate(joined) == ()
    if count < 10:
        assert check_load(joined).verdict.capacity != "fail"
