"""Is a document that must not be stored told apart from one that may, and found by what it is?"""

from __future__ import annotations

import json
from typing import Any

import msgspec
import pytest
from ampwright.contract import documents as wire
from ampwright.contract.document_check import check_document
from ampwright.contract.document_facets import facets_of
from ampwright.contract.documents import DOCUMENT_TYPES

NAMED = {"name": "a document", "origin": "nameplate"}


def document(kind: str, members: dict[str, Any]) -> Any:
    return msgspec.json.decode(json.dumps({**NAMED, **members}).encode(), type=DOCUMENT_TYPES[kind])


SOUND: list[tuple[str, dict[str, Any]]] = [
    ("tool-profile", {"supply_options": [{"voltage": "120 V", "plug": "5-15P", "current": "15 A"}]}),
    ("power-source", {"kind": "site_supply", "voltage": "230/400 V"}),
    ("cord", {"size": "14 AWG", "length": "50 ft"}),
    ("kit", {"tools": [{"id": "saw", "entry": "circular-saw", "count": 2}]}),
    (
        "tool-profile",
        {
            "shaft_power": "1.5 hp",
            "provenance": [{"pointer": "/shaft_power", "origin": "measured", "on_date": "2028-02-29"}],
        },
    ),
]


@pytest.mark.parametrize(("kind", "members"), SOUND)
def test_sound_documents_pass(kind: str, members: dict[str, Any]) -> None:
    assert check_document(kind, document(kind, members)) == ()


UNSOUND: list[tuple[str, dict[str, Any], set[tuple[str, str]]]] = [
    (
        "tool-profile",
        {"load_class": "saww", "supply_options": [{"voltage": "115/230 V", "current": "16/8 A"}]},
        {
            ("/load_class", "unknown_load_class"),
            ("/supply_options/0/voltage", "dual_voltage"),
            ("/supply_options/0/current", "two_figures"),
        },
    ),
    (
        "power-source",
        {
            "kind": "vehicle",
            "voltage": "120 V",
            "circuits": [{"id": "C1", "legs": ["L2"]}],
            "receptacles": [{"id": "R1", "type": "5-15P"}, {"id": "R1"}],
        },
        {
            ("/circuits/0/legs/0", "unknown_leg"),
            ("/receptacles/0/type", "plug_where_receptacle_belongs"),
            ("/receptacles/1/id", "repeated_id"),
        },
    ),
    ("cord", {"size": "12/3", "length": "0 ft"}, {("/size", "not_a_size"), ("/length", "not_above_zero")}),
    (
        "kit",
        {
            "tools": [{"id": "saw", "entry": "saw", "count": 2}, {"id": "saw-2", "entry": "saw"}],
            "adapters": [{"id": "a", "plug": "5-15R", "receptacle": "5-15R"}],
        },
        {("/tools/1/id", "repeated_id"), ("/adapters/0/plug", "receptacle_where_plug_belongs")},
    ),
    (
        "kit",
        {"tools": [{"id": f"t{i}", "entry": "saw", "count": 100} for i in range(6)]},
        {("/tools", "too_many_items")},
    ),
    (
        "cord",
        {
            "provenance": [
                {"pointer": "/length", "origin": "measured"},
                {"pointer": "/name/0", "origin": "measured", "on_date": "2027-02-29"},  # no leap year
            ]
        },
        {
            ("/provenance/0/pointer", "provenance_points_nowhere"),
            ("/provenance/1/pointer", "provenance_points_nowhere"),
            ("/provenance/1/on_date", "not_a_date"),
        },
    ),
    ("cord", {"name": "cord \u202e"}, {("/name", "control_character")}),
]


@pytest.mark.parametrize(("kind", "members", "expected"), UNSOUND)
def test_unsound_documents_are_refused_with_all_faults(
    kind: str, members: dict[str, Any], expected: set[tuple[str, str]]
) -> None:
    assert {(fault.pointer, fault.code) for fault in check_document(kind, document(kind, members))} == expected


def test_a_document_of_another_kind_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(TypeError):
        check_document("kit", document("cord", {}))


def test_facets_of_a_tool() -> None:
    found = facets_of(
        document(
            "tool-profile",
            {
                "load_class": "welder",
                "supply_options": [
                    {"voltage": "240 V", "plug": "6-50P", "power": "6900 W"},
                    {"voltage": "120 V", "plug": "5-20P", "current": "20 A"},
                ],
            },
        )
    )
    assert (found.name, found.words, found.plugs) == ("a document", ("welder",), ("5-20P", "6-50P"))
    assert found.voltages_v == (120.0, 240.0)
    assert (found.power_low_w, found.power_high_w) == (2400.0, 6900.0)  # 120 V x 20 A


def test_facets_of_a_source() -> None:
    found = facets_of(
        document(
            "power-source",
            {
                "kind": "vehicle",
                "voltage": "120/240 V",
                "limits": [{"id": "a", "continuous": "4 kVA"}, {"id": "b", "continuous": "20 A"}],
                "receptacles": [{"id": "R1", "type": "NEMA 5-20R"}, {"id": "R2"}],
            },
        )
    )
    assert (found.voltages_v, found.plugs) == ((120.0, 240.0), ("5-20R",))
    assert (found.power_low_w, found.power_high_w) == (4000.0, 4000.0)


def test_facets_of_a_cord_and_a_kit() -> None:
    cord = facets_of(document("cord", {"size": "14 AWG", "plug": "5-15P", "outlets": {"type": "5-15R"}}))
    assert (cord.words, cord.plugs, cord.power_low_w) == (("14 AWG",), ("5-15P", "5-15R"), None)
    kit = facets_of(document("kit", {"tools": [{"id": "a", "entry": "drill"}, {"id": "b", "entry": "drill"}]}))
    assert kit.words == ("drill",)


UNIT = {"name": "van number 7", "origin": "nameplate", "entry": "van"}


@pytest.mark.parametrize(
    ("more", "pointer", "code"),
    [
        ({"corrections": {"battery": "50"}}, "/corrections/battery", "unit_missing"),
        ({"corrections": {"tank": "50 kg"}}, "/corrections/tank", "wrong_unit"),
        ({"corrections": {"voltage": "121/122 V"}}, "/corrections/voltage", "supply_ratio"),
        ({"corrections": {"receptacles": [{"id": "R1", "marked": "x"}]}}, "/corrections/receptacles/0/marked", None),
        ({"observations": [{"on_date": "2026-02-30", "what": "held"}]}, "/observations/0/on_date", "not_a_date"),
        (
            {"observations": [{"on_date": "2026-02-28", "what": "held", "current": "22 V"}]},
            "/observations/0/current",
            "wrong_unit",
        ),
    ],
)
def test_a_unit_that_cannot_be_read_is_refused(more: dict[str, Any], pointer: str, code: str | None) -> None:
    unit = msgspec.convert({**UNIT, **more}, wire.SourceUnit)
    (fault,) = check_document("source-unit", unit)
    assert fault.pointer == pointer
    assert code in (None, fault.code)


def test_a_unit_with_legs_alone_is_sound() -> None:
    # the voltage that the legs go with is that of the kind, which is not known here
    legs = [{"id": "L1", "angle": "0 deg"}]
    unit = msgspec.convert({**UNIT, "corrections": {"legs": legs, "starting": "3000 W"}}, wire.SourceUnit)
    assert check_document("source-unit", unit) == ()
