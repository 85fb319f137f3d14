"""Would a careful crew plug in like this? Expected: counting by hand, and what enters what (NEMA WD 6)."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from ampwright.engine.calculations.choosing.kit_plugging import Plugging, plug_kit_in
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.site.validation import validate
from site_of import resistive, site_of


def vehicle(*circuits: str, kind: str = "5-20R", **members: Any) -> dict[str, Any]:
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "receptacles": [
            {"id": f"R{n}", "type": kind, "marked": "20 A", "circuit": name} for n, name in enumerate(circuits, start=1)
        ],
        **members,
    }


def plugging(
    source: dict[str, Any], tools: list[dict[str, Any]], *cords: dict[str, Any], far_m: float | None = None
) -> Plugging:
    site = site_of({"source": source, "tools": tools, "cords": list(cords)})
    return plug_kit_in(site, [tool["id"] for tool in tools], far_m)


def pairs(found: Plugging) -> dict[str, str]:
    return {one.plug: one.into for one in found.connections}


def heaters(*powers: str) -> list[dict[str, Any]]:
    return [resistive(f"h{n}", power) for n, power in enumerate(powers, start=1)]


def test_largest_and_smallest_share_a_circuit() -> None:
    """1500, 1000, 900 and 400 W on two circuits: 1500 and 400 against 1000 and 900 is as even as it gets."""
    found = pairs(plugging(vehicle("C1", "C2", "C1", "C2"), heaters("1500 W", "1000 W", "900 W", "400 W")))
    circuit = {"R1": "C1", "R2": "C2", "R3": "C1", "R4": "C2"}
    assert circuit[found["h1"]] == circuit[found["h4"]] != circuit[found["h2"]] == circuit[found["h3"]]
    assert len(set(found.values())) == 4


def test_the_cord_that_loses_least_goes_to_the_largest_tool() -> None:
    """Resistance goes with length over area: 50 ft of 12 AWG lose less than 50 ft of 16 AWG or 100 ft of 12 AWG."""
    cords = [
        {"id": "thin", "length": "50 ft", "size": "16 AWG"},
        {"id": "long", "length": "150 ft", "size": "12 AWG"},
        {"id": "good", "length": "50 ft", "size": "12 AWG"},
    ]
    found = pairs(plugging(vehicle("C1", "C2", "C3"), heaters("300 W", "1500 W", "900 W"), *cords))
    assert found["h2"] == "good"
    assert found["h3"] == "thin"  # 50 ft of 6530 circular mils lose less than 150 ft of 2583: NEC chapter 9 table 8
    assert found["h1"] == "long"


def test_small_tools_share_the_reel_where_receptacles_are_few() -> None:
    reel = {
        "id": "reel",
        "length": "50 ft",
        "size": "12 AWG",
        "plug": "5-15P",
        "outlets": {"type": "5-15R", "count": 3},
    }
    found = plugging(vehicle("C1", "C2"), heaters("1500 W", "300 W", "200 W", "100 W"), reel)
    assert not found.unplugged
    assert {tool: into for tool, into in pairs(found).items() if into == "reel"}.keys() == {"h2", "h3", "h4"}
    assert {pairs(found)["h1"], pairs(found)["reel"]} == {"R1", "R2"}
    one_too_many = plugging(vehicle("C1", "C2"), heaters("1500 W", "300 W", "200 W", "100 W", "50 W"), reel)
    assert one_too_many.no_outlet_left == ("h5",)


def test_plugs_that_do_not_enter() -> None:
    """A 5-20P enters no 5-15R, and a 240 V plate nothing of a 120 V source."""
    wide = resistive("wide", "1900 W")
    wide["supply_options"][0]["plug"] = "5-20P"
    hot = resistive("hot", "1900 W", voltage="240 V")
    found = plugging(vehicle("C1", "C2", kind="5-15R"), [wide, hot, *heaters("100 W")])
    assert found.no_outlet_fits == ("hot", "wide")
    assert set(pairs(found)) == {"h1"}
    assert plugging(vehicle("C1"), [wide]).no_outlet_fits == ()


def test_reach() -> None:
    """A tool's own cord has 1.8 m: with 15 m it reaches 16.8 m, and no further; without a cord 1.8 m."""
    cord = {"id": "c", "length": "15 m", "size": "2.5 mm2"}
    assert pairs(plugging(vehicle("C1"), heaters("100 W"), cord, far_m=16.7)) == {"c": "R1", "h1": "c"}
    far = plugging(vehicle("C1"), heaters("100 W"), cord, far_m=17.0)
    assert far.out_of_reach == ("h1",)
    assert far.connections == ()
    assert plugging(vehicle("C1"), heaters("100 W"), far_m=2.0).out_of_reach == ("h1",)
    assert pairs(plugging(vehicle("C1"), heaters("100 W"), far_m=1.0)) == {"h1": "R1"}


def test_damaged_cords_and_sources_without_outlets() -> None:
    broken = {"id": "c", "length": "15 m", "size": "2.5 mm2", "plug_state": "damaged"}
    assert pairs(plugging(vehicle("C1"), heaters("100 W"), broken)) == {"h1": "R1"}
    assert plugging(vehicle(), heaters("100 W")).no_outlet_fits == ("h1",)
    assert plugging(vehicle("C1"), []) == Plugging(())


def test_a_plug_that_enters_few_outlets_is_not_kept_out_by_one_that_enters_all() -> None:
    """The 5-20P enters the 5-20R alone (NEMA WD 6), so the larger 5-15P gets the other one."""
    source = vehicle("C1", "C2")
    source["receptacles"][1]["type"] = "5-15R"
    wide = resistive("wide", "600 W")
    wide["supply_options"][0]["plug"] = "5-20P"
    large = resistive("large", "1500 W")
    large["supply_options"][0]["plug"] = "5-15P"
    assert pairs(plugging(source, [large, wide])) == {"wide": "R1", "large": "R2"}


@pytest.mark.parametrize("count", [1, 7, 40])
def test_the_connections_are_sound_and_always_the_same(count: int) -> None:
    """Twenty receptacles, twelve reels of three outlets: 20 - 12 + 36 are 44 outlets, enough for 40 tools."""
    source = vehicle(*(f"C{n // 2}" for n in range(20)))
    reel = {"length": "50 ft", "size": "12 AWG", "plug": "5-15P", "outlets": {"type": "5-15R", "count": 3}}
    request = {
        "source": source,
        "tools": [resistive(f"t{n}", f"{100 + 40 * (n % 9)} W") for n in range(count)],
        "cords": [{"id": f"reel-{n}", **reel} for n in range(12)],
    }
    site = site_of(request)
    found = plug_kit_in(site, [tool.id for tool in site.tools])
    assert found == plug_kit_in(site_of(request), [tool.id for tool in site.tools])
    assert found.unplugged == ()
    assert {one.plug for one in found.connections if one.plug.startswith("t")} == {f"t{n}" for n in range(count)}
    joined = replace(site, connections=found.connections)
    assert validate(joined) == ()
    if count < 10:
        assert check_load(joined).verdict.capacity != "fail"
