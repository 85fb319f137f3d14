"""Does a site that is written down in code become the request that it looks like?"""

from __future__ import annotations

import msgspec
import pytest
from ampwright_client import (
    battery_station,
    case,
    catalogue_source,
    cord,
    engine_generator,
    load_check,
    models,
    plug,
    receptacle,
    site_supply,
    supply,
    tool,
    vehicle,
)
from msgspec import UNSET


def test_two_tools_on_one_reel() -> None:
    saw = tool("saw", supply("120 V", current="12 A", plug="5-15P"), load_class="circular_saw")
    grinder = tool("grinder", entry="grinder-125mm", switch="momentary_lock_on")
    reel = cord("reel", "100 ft", "14 AWG", marked="13 A", laid="drum", outlets=models.CordOutlets(count=3))
    request = load_check(
        vehicle("120 V", receptacle("R1", marked="20 A"), receptacle("R2", marked="20 A", circuit="C2")),
        plug(saw).through(reel).into("R2"),
        plug(grinder).into(reel),
        people=2,
        cases=[case("both", saw, grinder)],
    )
    # Written by hand, as the contract says it.
    assert msgspec.to_builtins(request) == {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "receptacles": [{"id": "R1", "marked": "20 A"}, {"id": "R2", "marked": "20 A", "circuit": "C2"}],
        },
        "tools": [
            {
                "id": "saw",
                "load_class": "circular_saw",
                "supply_options": [{"voltage": "120 V", "current": "12 A", "plug": "5-15P"}],
            },
            {"id": "grinder", "entry": "grinder-125mm", "switch": "momentary_lock_on"},
        ],
        "cords": [
            {
                "id": "reel",
                "length": "100 ft",
                "size": "14 AWG",
                "marked": "13 A",
                "laid": "drum",
                "outlets": {"count": 3},
            }
        ],
        "connections": [
            {"plug": "saw", "into": "reel"},
            {"plug": "reel", "into": "R2"},
            {"plug": "grinder", "into": "reel"},
        ],
        "people": 2,
        "cases": [{"id": "both", "running": ["saw", "grinder"]}],
    }


def test_parts_of_a_kit_are_named_by_their_ids() -> None:
    request = load_check(
        catalogue_source("van-panel", revision=1),
        plug("saw-1").through("cord-1", "cord-2").into("R1"),
        kit=models.KitInUse(entry="kit-framing"),
    )
    assert (request.tools, request.cords) == (UNSET, UNSET)
    assert msgspec.to_builtins(request)["connections"] == [
        {"plug": "saw-1", "into": "cord-1"},
        {"plug": "cord-1", "into": "cord-2"},
        {"plug": "cord-2", "into": "R1"},
    ]


def test_what_is_left_out_is_not_known() -> None:
    """An empty list would say that there is none."""
    assert msgspec.to_builtins(load_check(vehicle("120 V"))) == {"source": {"kind": "vehicle", "voltage": "120 V"}}
    assert msgspec.to_builtins(tool("saw")) == {"id": "saw"}


@pytest.mark.parametrize(
    ("made", "kind"),
    [
        (battery_station("120 V", battery="2 kWh"), "battery_station"),
        (engine_generator("120/240 V", technology="inverter"), "engine_generator"),
        (site_supply("230/400 V", earthing="tt"), "site_supply"),
        (catalogue_source("van-panel"), "catalogue"),
    ],
)
def test_kinds_of_source(made: models.AnySource, kind: str) -> None:
    assert msgspec.to_builtins(made)["kind"] == kind
    assert msgspec.convert(msgspec.to_builtins(made), models.AnySource) == made


def test_contradictions_are_refused() -> None:
    source = vehicle("120 V", receptacle("R1"), receptacle("R2"))
    saw, reel = tool("saw"), cord("reel")
    with pytest.raises(ValueError, match="'reel' is plugged into 'R1' and into 'R2'"):
        load_check(source, plug(saw).through(reel).into("R1"), plug(tool("drill")).through(reel).into("R2"))
    with pytest.raises(ValueError, match="two different parts"):
        load_check(source, saw, tool("saw", load_class="other"))
    with pytest.raises(TypeError):
        tool("saw", swich="automatic")  # type: ignore[call-arg]
