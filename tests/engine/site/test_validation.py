"""Is every contradiction of a site found, at its place, and nothing that is none?"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord, CordOutlets
from ampwright.engine.site.nearest import nearest
from ampwright.engine.site.pointers import in_document_order, member_of
from ampwright.engine.site.source import (
    Capacity,
    CapacityLimit,
    Circuit,
    PowerSource,
    Receptacle,
    SupplySystem,
    Tier,
)
from ampwright.engine.site.tool import LoadState, Start, SupplyOption, Tool
from ampwright.engine.site.use import Case, Connection, Site
from ampwright.engine.site.validation import MOST_FAULTS, validate

SINGLE = SupplySystem("120 V", "single", 120.0, (0.0,))
SPLIT = SupplySystem("120/240 V", "split_phase", 120.0, (0.0, 3.14159))
THREE = SupplySystem("230/400 V", "three_phase", 230.0, (0.0, -2.0944, 2.0944))
DIRECT = SupplySystem("48 V DC", "dc", 48.0, (0.0,))


def source(supply: SupplySystem = SINGLE, **members: Any) -> PowerSource:
    receptacles = tuple(Receptacle(f"R{i + 1}", f"/source/receptacles/{i}") for i in range(3))
    return PowerSource("vehicle", supply, **{"receptacles": receptacles, **members})


def tools(*names: str) -> tuple[Tool, ...]:
    return tuple(Tool(name, f"/tools/{i}") for i, name in enumerate(names))


def cords(*names: str, count: int | None = None) -> tuple[Cord, ...]:
    outlets = CordOutlets(count=count) if count is not None else None
    return tuple(Cord(name, f"/cords/{i}", outlets=outlets) for i, name in enumerate(names))


def plugs(*pairs: tuple[str, str]) -> tuple[Connection, ...]:
    return tuple(Connection(plug, into, f"/connections/{i}") for i, (plug, into) in enumerate(pairs))


def case(*running: str, order: tuple[str, ...] | None = None) -> tuple[Case, ...]:
    return (Case("one", running, "/cases/0", order),)


def limit(**members: Any) -> tuple[CapacityLimit, ...]:
    return (CapacityLimit("inverter", "/source/limits/0", **members),)


def watts(value: float) -> Capacity:
    return Capacity(Band.exactly(value), "W")


SOUND = Site(
    source(
        SPLIT,
        circuits=(Circuit("C1", "/source/circuits/0", ("L1", "L2")),),
        limits=limit(over=("L1", "C1"), continuous=watts(4000.0), tiers=(Tier(watts(5000.0), Band.exactly(5.0)),)),
    ),
    tools("saw", "drill", "extractor"),
    cords("reel", count=2),
    connections=plugs(("reel", "R1"), ("saw", "reel"), ("drill", "reel"), ("extractor", "R2")),
    cases=case("saw", "extractor", order=("extractor", "saw")),
)


def test_a_sound_site_has_no_faults() -> None:
    assert validate(SOUND) == ()


def test_little_is_enough() -> None:
    assert validate(Site(PowerSource("site_supply", SINGLE), ())) == ()


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        # names
        ({"tools": tools("saw", "saw")}, {("/tools/1/id", "repeated_id", None)}),
        ({"tools": tools("R1")}, {("/tools/0/id", "ambiguous_id", None)}),
        ({"tools": tools("saw"), "cords": cords("saw")}, {("/cords/0/id", "ambiguous_id", None)}),
        (
            {"tools": tools("saw"), "cases": (*case("saw"), Case("one", ("saw",), "/cases/1"))},
            {("/cases/1/id", "repeated_id", None)},
        ),
        # what is plugged into what
        (
            {"tools": tools("saw"), "connections": plugs(("saw", "R11"))},
            {("/connections/0/into", "unknown_receptacle", "R1")},
        ),
        (
            {"tools": tools("saw"), "connections": plugs(("saww", "R1"))},
            {("/connections/0/plug", "unknown_plug", "saw")},
        ),
        ({"tools": tools("saw"), "connections": plugs(("R2", "R1"))}, {("/connections/0/plug", "has_no_plug", None)}),
        (
            {"tools": tools("saw", "drill"), "connections": plugs(("saw", "drill"))},
            {("/connections/0/into", "has_no_outlet", None)},
        ),
        (
            {"tools": tools("saw", "drill"), "connections": plugs(("saw", "R1"), ("drill", "R1"))},
            {("/connections/1/into", "receptacle_taken", None)},
        ),
        (
            {"tools": tools("saw"), "connections": plugs(("saw", "R1"), ("saw", "R2"))},
            {("/connections/1/plug", "plugged_in_twice", None)},
        ),
        (
            {
                "tools": tools("saw", "drill"),
                "cords": cords("cord"),
                "connections": plugs(("cord", "R1"), ("saw", "cord"), ("drill", "cord")),
            },
            {("/connections/2/into", "cord_outlets_taken", None)},  # a cord has one outlet where it says nothing
        ),
        (
            {
                "tools": tools("saw", "drill", "lamp"),
                "cords": cords("cord", count=2),
                "connections": plugs(("cord", "R1"), ("saw", "cord"), ("drill", "cord"), ("lamp", "cord")),
            },
            {("/connections/3/into", "cord_outlets_taken", None)},
        ),
        (
            {"tools": tools("saw"), "cords": cords("cord"), "connections": plugs(("saw", "cord"))},
            {("/connections/0/into", "cord_not_plugged_in", None)},
        ),
        (
            {"tools": (), "cords": cords("a", "b"), "connections": plugs(("a", "b"), ("b", "a"))},
            {
                ("/connections/0/into", "plugged_in_circle", None),
                ("/connections/1/into", "plugged_in_circle", None),
            },
        ),
        (
            {"tools": (), "cords": cords("a"), "connections": plugs(("a", "a"))},
            {("/connections/0/into", "plugged_in_circle", None)},
        ),
        (
            {"tools": tools("saw"), "connections": (Connection("saw", "R1", "/connections/0", "L2"),)},
            {("/connections/0/leg", "unknown_leg", "L1")},
        ),
        # cases
        ({"tools": tools("saw"), "cases": case("sow")}, {("/cases/0/running/0", "unknown_tool", "saw")}),
        (
            {"tools": tools("saw"), "cords": cords("cord"), "cases": case("cord")},
            {("/cases/0/running/0", "unknown_tool", None)},
        ),
        ({"tools": tools("saw"), "cases": case("saw", "saw")}, {("/cases/0/running/1", "repeated_member", None)}),
        (
            {"tools": tools("saw", "drill"), "connections": plugs(("saw", "R1")), "cases": case("saw", "drill")},
            {("/cases/0/running/1", "tool_not_plugged_in", None)},
        ),
        (
            {"tools": tools("saw"), "connections": (), "cases": case("saw")},
            {("/cases/0/running/0", "tool_not_plugged_in", None)},
        ),
        (
            {"tools": tools("saw", "drill"), "cases": case("saw", "drill", order=("saw",))},
            {("/cases/0/start_order", "start_order_not_of_case", None)},
        ),
        (
            {"tools": tools("saw", "drill"), "cases": case("saw", order=("saw", "drill"))},
            {("/cases/0/start_order/1", "start_order_not_of_case", None)},
        ),
        (
            {"tools": tools("saw"), "cases": case("saw", order=("saw", "saw"))},
            {("/cases/0/start_order/1", "repeated_member", None)},
        ),
        # followed tools
        (
            {"tools": (Tool("fan", "/tools/0", follows="sow"), Tool("saw", "/tools/1"))},
            {("/tools/0/follows", "unknown_tool", "saw")},
        ),
        ({"tools": (Tool("fan", "/tools/0", follows="fan"),)}, {("/tools/0/follows", "follows_in_circle", None)}),
        (
            {"tools": (Tool("a", "/tools/0", follows="b"), Tool("b", "/tools/1", follows="a"))},
            {("/tools/0/follows", "follows_in_circle", None), ("/tools/1/follows", "follows_in_circle", None)},
        ),
        # the source
        (
            {"source": source(circuits=(Circuit("C1", "/source/circuits/0", ("L1", "L2")),))},
            {("/source/circuits/0/legs/1", "unknown_leg", "L1")},
        ),
        (
            {"source": source(SPLIT, circuits=(Circuit("C1", "/source/circuits/0", ("L1", "L1")),))},
            {("/source/circuits/0/legs/1", "repeated_member", None)},
        ),
        (
            {"source": source(circuits=(Circuit("L1", "/source/circuits/0"),))},
            {("/source/circuits/0/id", "ambiguous_id", None)},
        ),
        (
            {"source": source(limits=limit(over=("L2",)))},
            {("/source/limits/0/over/0", "unknown_leg_or_circuit", None)},
        ),
        ({"source": source(limits=limit(over=()))}, {("/source/limits/0/over", "covers_nothing", None)}),
        (
            {"source": source(limits=limit(continuous=watts(4000.0), tiers=(Tier(watts(3000.0), Band.exactly(5.0)),)))},
            {("/source/limits/0/tiers/0/amount", "tier_below_continuous", None)},
        ),
        (
            {"source": source(running=watts(6500.0), starting=watts(5500.0))},
            {("/source/starting", "starting_below_running", None)},
        ),
        (
            {"source": source(DIRECT, waveform="sine")},
            {("/source/waveform", "waveform_contradicts_voltage", "dc")},
        ),
        ({"source": source(waveform="dc")}, {("/source/waveform", "waveform_contradicts_voltage", "sine")}),
        (
            {
                "source": source(
                    DIRECT,
                    receptacles=(Receptacle("R1", "/source/receptacles/0", ground_fault="gfci_class_a"),),
                )
            },
            {("/source/receptacles/0/ground_fault", "not_for_direct_current", None)},
        ),
        (
            {"source": source(receptacles=tuple(Receptacle("R1", f"/source/receptacles/{i}") for i in range(2)))},
            {("/source/receptacles/1/id", "repeated_id", None)},
        ),
        # tools and cords
        (
            {"tools": (Tool("saw", "/tools/0", load_states=(LoadState("heavy"), LoadState("heavy"))),)},
            {("/tools/0/load_states/1/id", "repeated_id", None)},
        ),
        (
            {"tools": (Tool("saw", "/tools/0", supply_options=(SupplyOption("x", "/tools/0/o", THREE, phases=1),)),)},
            {("/tools/0/o/phases", "phases_contradict_voltage", "3")},
        ),
        (
            {"tools": (Tool("saw", "/tools/0", supply_options=(SupplyOption("x", "/tools/0/o", SPLIT, phases=3),)),)},
            {("/tools/0/o/phases", "phases_contradict_voltage", "1")},
        ),
        (
            {
                "tools": (
                    Tool(
                        "pump",
                        "/tools/0",
                        supply_options=(SupplyOption("x", "/tools/0/supply_options/0", DIRECT),),
                        start=Start("induction_motor"),
                    ),
                )
            },
            {("/tools/0/start/kind", "not_for_direct_current", None)},
        ),
        (
            {"cords": (Cord("c", "/cords/0", laid="straight", drum_layers=2),)},
            {("/cords/0/drum_layers", "drum_layers_without_drum", None)},
        ),
        (
            {"cords": (Cord("c", "/cords/0", drum_layers=2),)},
            {("/cords/0/drum_layers", "drum_layers_without_drum", None)},
        ),
    ],
)
def test_contradictions(changes: dict[str, Any], expected: set[tuple[str, str, str | None]]) -> None:
    site = replace(Site(source(), ()), **changes)
    assert {(fault.pointer, fault.code, fault.did_you_mean) for fault in validate(site)} == expected


@pytest.mark.parametrize(
    "changes",
    [
        # a wrong plug, a wrong voltage, ten kilometres of cord are what the calculation is there to find
        {
            "tools": (
                Tool(
                    "welder",
                    "/tools/0",
                    supply_options=(SupplyOption("x", "/tools/0/o", SupplySystem("240 V", "single", 240.0, (0.0,))),),
                ),
            ),
            "connections": plugs(("welder", "R1")),
        },
        {
            "tools": tools("saw"),
            "cords": (Cord("c", "/cords/0", length_m=Band.exactly(1e4), plug="L14-30P"),),
            "connections": plugs(("c", "R1"), ("saw", "c")),
        },
        # a spare cord, a tool that stays in its box
        {"tools": tools("saw", "drill"), "cords": cords("spare"), "connections": plugs(("saw", "R1"))},
        # a circuit that a receptacle names without its being listed, under a limit
        {
            "source": source(
                receptacles=(Receptacle("R1", "/source/receptacles/0", circuit="C7"),), limits=limit(over=("C7",))
            )
        },
        # A, W and VA cannot be compared
        {"source": source(running=watts(6500.0), starting=Capacity(Band.exactly(60.0), "A"))},
        # a follower follows a follower
        {
            "tools": (
                Tool("a", "/tools/0", follows="b"),
                Tool("b", "/tools/1", follows="c"),
                Tool("c", "/tools/2"),
            )
        },
    ],
)
def test_what_is_no_contradiction(changes: dict[str, Any]) -> None:
    assert validate(replace(Site(source(), ()), **changes)) == ()


def test_all_faults_come_in_document_order() -> None:
    site = Site(
        source(),
        tools("saw"),
        connections=plugs(*((f"x{i}", "R1") for i in range(12))),
        cases=case("sow"),
    )
    places = [fault.pointer for fault in validate(site)]
    assert places == sorted(places, key=in_document_order)
    assert places.index("/connections/9/plug") < places.index("/connections/10/plug")
    assert len(places) == 1 + 12 + 11


def test_a_hostile_site_is_refused_with_a_bounded_number_of_faults() -> None:
    names = [f"tool-{i}" for i in range(500)]
    site = Site(
        source(),
        tools(*names),
        cases=tuple(Case(f"c{i}", tuple("x" * 60 for _ in names), f"/cases/{i}") for i in range(64)),
    )
    assert len(validate(site)) == MOST_FAULTS


def test_parts_of_the_catalogue_point_at_their_reference() -> None:
    assert member_of("/source/entry", "receptacles", 0) == "/source/entry"
    assert member_of("/tools/1", "supply_options", 0, "plug") == "/tools/1/supply_options/0/plug"
    receptacles = tuple(Receptacle("R1", "/source/entry") for _ in range(2))
    assert [fault.pointer for fault in validate(Site(source(receptacles=receptacles), ()))] == ["/source/entry"]


def test_a_hint_is_a_known_name_or_none() -> None:
    assert nearest("circular-sow", ["circular_saw", "drill"]) == "circular_saw"
    assert nearest("r1", ["R1", "R2"]) == "R1"
    assert nearest("x" * 1_000_000, ["R1"]) is None
    assert nearest("compressor", []) is None
