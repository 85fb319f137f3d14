"""Is a request that refers to the catalogue the one that its author meant, and does everything still point to it?"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

import msgspec
import pytest
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.places import Places
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.studies.references import FoundEntry, Reference, Resolved, has_references, resolve
from demo_lookup import DemoLookup

VAN = {
    "kind": "vehicle",
    "name": "van",
    "origin": "estimate",
    "voltage": "120 V",
    "battery": "60 kWh",
    "receptacles": [
        {"id": "R1", "type": "5-20R", "marked": "20 A", "circuit": "C1"},
        {"id": "R2", "type": "5-20R", "marked": "20 A"},
    ],
    "circuits": [{"id": "C1", "device": {"kind": "breaker", "rating": "20 A", "standard": "ul_489"}}],
    "reset": {"how": "automatic", "after": "5 s"},
    "availability": [{"when": "driving", "works": False}],
}
SAW = {
    "name": "saw",
    "origin": "nameplate",
    "load_class": "circular_saw",
    "supply_options": [
        {"id": "us", "voltage": "120 V", "plug": "5-15P", "current": "15 A"},
        {"id": "eu", "voltage": "230 V", "plug": "CEE 7/17", "current": "7.2 A"},
    ],
    "start": {"kind": "universal_motor", "peak": "75 A", "lasts": "0.6 s"},
    "switch": "constant_pressure",
    "provenance": [{"pointer": "/start", "origin": "measured"}],
}
CORD = {
    "name": "cord",
    "origin": "nameplate",
    "size": "14 AWG",
    "length": "100 ft",
    "outlets": {"type": "5-15R", "count": 3},
}
KIT = {
    "name": "kit",
    "origin": "estimate",
    "tools": [{"id": "saw", "entry": "saw", "count": 2}, {"id": "spare", "entry": "saw", "revision": 1}],
    "cords": [{"id": "long", "entry": "cord"}],
    "adapters": [{"id": "adapter", "plug": "5-15P", "receptacle": "5-15R"}],
}
UNIT = {"name": "van number 7", "origin": "nameplate", "entry": "van"}


class Release:
    """A catalogue release in memory: one revision of each entry."""

    def __init__(self, withdrawn: str | None = None) -> None:
        self.withdrawn = withdrawn
        self.bodies = {
            ("power-source", "van"): (3, VAN),
            ("tool-profile", "saw"): (1, SAW),
            ("cord", "cord"): (2, CORD),
            ("kit", "kit"): (1, KIT),
            ("source-unit", "fleet-7"): (4, UNIT),
        }

    def find(self, kind: str, slug: str, revision: int | None) -> FoundEntry | None:
        number, body = self.bodies.get((kind, slug), (0, {}))
        if number == 0 or revision not in (None, number):
            return None
        return FoundEntry(number, json.dumps(body).encode(), self.withdrawn if kind == "tool-profile" else None)

    def slugs(self, kind: str) -> Sequence[str]:
        return [slug for of, slug in self.bodies if of == kind]


def decoded(raw: dict[str, Any]) -> LoadCheckRequest:
    return msgspec.json.decode(json.dumps(raw).encode(), type=LoadCheckRequest)


def resolved(raw: dict[str, Any]) -> Resolved:
    return resolve(decoded(raw), Release())


def site_of(raw: dict[str, Any]) -> Site:
    outcome = resolved(raw)
    assert outcome.faults == ()
    assert outcome.request is not None
    site, faults = read_site(outcome.request, outcome.places, outcome.adapters)
    assert faults == ()
    assert validate(site) == ()
    return site


INLINE = {"source": {"kind": "vehicle", "voltage": "120 V"}}
BY_VAN = {"source": {"kind": "catalogue", "entry": "van", "unit": "FLEET-7"}}


def test_a_request_without_references_is_left_as_it_is() -> None:
    request = decoded({**INLINE, "tools": [{"id": "saw"}]})
    outcome = resolve(request, Release())
    assert not has_references(request)
    assert (outcome.request, outcome.entries, outcome.places) == (request, (), Places({}))


def test_a_reference_alone_is_its_document() -> None:
    # written out by hand, the same request without references
    written_out = {
        "source": {name: value for name, value in VAN.items() if name != "origin"},
        "tools": [{"id": "s", **{name: SAW[name] for name in SAW if name not in ("origin", "provenance")}}],
        "cords": [{"id": "c", **{name: CORD[name] for name in CORD if name != "origin"}}],
    }
    outcome = resolved({**BY_VAN, "tools": [{"id": "s", "entry": "saw"}], "cords": [{"id": "c", "entry": "cord"}]})
    assert outcome.request == decoded(written_out)
    assert outcome.unit == "fleet-7"
    assert outcome.entries == (
        Reference("cord", "cord", 2, "/cords/0/entry"),
        Reference("power-source", "van", 3, "/source/entry"),
        Reference("source-unit", "fleet-7", 4, "/source/unit"),
        Reference("tool-profile", "saw", 1, "/tools/0/entry"),
    )


def test_what_stands_beside_wins_member_by_member() -> None:
    site = site_of(
        {**INLINE, "tools": [{"id": "s", "entry": "saw", "switch": "momentary_lock_on", "must_return": True}]}
    )
    tool = site.tools[0]
    assert (tool.switch, tool.must_return, tool.load_class) == ("momentary_lock_on", True, "circular_saw")


def test_lists_go_by_id_and_keep_their_order() -> None:
    site = site_of(
        {
            "source": {
                "kind": "catalogue",
                "entry": "van",
                "receptacles": [{"id": "R9"}, {"id": "R2", "marked": "15 A", "circuit": "C2"}],
            }
        }
    )
    found = [(one.id, one.type, one.circuit, one.pointer) for one in site.source.receptacles or ()]
    assert found == [
        ("R1", "5-20R", "C1", "/source/entry"),
        ("R2", "5-20R", "C2", "/source/receptacles/1"),
        ("R9", None, None, "/source/receptacles/0"),
    ]


def test_a_dual_voltage_option_is_corrected_by_its_id() -> None:
    option = {"id": "eu", "voltage": "230 V", "current": "6.5 A"}
    tool = site_of({**INLINE, "tools": [{"id": "s", "entry": "saw", "supply_options": [option]}]}).tools[0]
    assert [(one.id, one.plug, one.pointer) for one in tool.supply_options] == [
        ("us", "5-15P", "/tools/0/entry"),
        ("eu", "CEE 7/17", "/tools/0/supply_options/0"),
    ]
    assert tool.supply_options[1].current_a is not None
    assert tool.supply_options[1].current_a.typical == 6.5


def test_unions_and_lists_without_ids_are_taken_whole() -> None:
    site = site_of(
        {
            "source": {
                "kind": "catalogue",
                "entry": "van",
                "circuits": [{"id": "C1", "device": {"kind": "electronic", "rating": "16 A"}}],
                "availability": [],
            },
            "tools": [{"id": "s", "entry": "saw", "start": {"kind": "measured", "peak": "60 A"}}],
        }
    )
    assert site.source.circuits is not None
    device = site.source.circuits[0].device
    assert device is not None
    assert (device.kind, device.standard) == ("electronic", None)  # nothing of the breaker is left
    assert site.source.availability == ()
    start = site.tools[0].start
    assert start is not None
    assert (start.kind, start.lasts_s) == ("measured", None)


def test_a_plain_part_is_corrected_member_by_member() -> None:
    site = site_of({**INLINE, "cords": [{"id": "c", "entry": "cord", "outlets": {"count": 1}, "laid": "coiled"}]})
    outlets = site.cords[0].outlets
    assert outlets is not None
    assert (outlets.type, outlets.count, site.cords[0].laid) == ("5-15R", 1, "coiled")


def test_a_kit_brings_its_things_under_its_ids() -> None:
    site = site_of(
        {
            **BY_VAN,
            "kit": {"entry": "kit"},
            "tools": [{"id": "drill", "load_class": "hand_drill"}, {"id": "saw-2", "switch": "positive_on_off"}],
            "connections": [{"plug": "long", "into": "R1"}, {"plug": "saw-1", "into": "long"}],
        }
    )
    assert [(tool.id, tool.switch, tool.pointer) for tool in site.tools] == [
        ("drill", None, "/tools/0"),
        ("saw-2", "positive_on_off", "/tools/1"),
        ("saw-1", "constant_pressure", "/kit/entry"),
        ("spare", "constant_pressure", "/kit/entry"),
    ]
    assert [(cord.id, cord.pointer) for cord in site.cords] == [("long", "/kit/entry")]
    assert [(one.id, one.pointer) for one in site.adapters] == [("adapter", "/kit/entry")]


def test_withdrawn_entries_are_told_with_their_reason() -> None:
    outcome = resolve(decoded({**INLINE, "tools": [{"id": "s", "entry": "saw"}]}), Release("wrong start"))
    assert [(entry.entry, entry.withdrawn) for entry in outcome.entries] == [("saw", "wrong start")]


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        (
            {**INLINE, "tools": [{"id": "s", "entry": "saww"}]},
            {("/tools/0/entry", "unknown_entry", "saw")},
        ),
        (
            {**INLINE, "tools": [{"id": "s", "entry": "saw", "revision": 7}]},
            {("/tools/0/revision", "unknown_revision", "1")},
        ),
        (
            {**INLINE, "cords": [{"id": "c", "revision": 1}]},
            {("/cords/0/revision", "revision_without_entry", None)},
        ),
        ({"source": {"kind": "catalogue", "entry": "vann"}}, {("/source/entry", "unknown_entry", "van")}),
        (
            {"source": {"kind": "catalogue", "entry": "van", "revision": 2}},
            {("/source/revision", "unknown_revision", "3")},
        ),
        (
            {"source": {"kind": "catalogue", "entry": "van", "tank": "3 l", "earthing": "tt"}},
            {
                ("/source/tank", "member_of_another_kind", None),
                ("/source/earthing", "member_of_another_kind", None),
            },
        ),
        ({**INLINE, "kit": {"entry": "kitt"}}, {("/kit/entry", "unknown_entry", "kit")}),
        (
            {"source": {"kind": "catalogue", "entry": "van", "receptacles": [{"id": "R1"}, {"id": "R1"}]}},
            {("/source/receptacles/1/id", "repeated_id", None)},
        ),
        (
            {
                **INLINE,
                "tools": [
                    {
                        "id": "s",
                        "entry": "saw",
                        "supply_options": [{"id": f"o{i}", "voltage": "120 V"} for i in range(8)],
                    }
                ],
            },
            {("/tools/0/entry", "merge_is_no_document", None)},  # ten options, and eight are most
        ),
        # every reference that leads nowhere, at once
        (
            {
                "source": {"kind": "catalogue", "entry": "lorry"},
                "kit": {"entry": "box"},
                "tools": [{"id": "s", "entry": "axe"}],
            },
            {
                ("/source/entry", "unknown_entry", None),
                ("/kit/entry", "unknown_entry", None),
                ("/tools/0/entry", "unknown_entry", None),
            },
        ),
    ],
)
def test_references_that_lead_nowhere(raw: dict[str, Any], expected: set[tuple[str, str, str | None]]) -> None:
    faults = resolved(raw).faults
    assert {(fault.pointer, fault.code, fault.did_you_mean) for fault in faults} == expected


def test_a_tool_whose_entry_is_unknown_is_still_there_to_be_plugged_in() -> None:
    outcome = resolved({**BY_VAN, "tools": [{"id": "s", "entry": "axe"}], "connections": [{"plug": "s", "into": "R1"}]})
    assert outcome.request is not None
    site, faults = read_site(outcome.request, outcome.places)
    assert (faults, validate(site)) == ((), ())


def test_faults_of_merged_parts_point_into_the_request_as_sent() -> None:
    raw = {
        "source": {"kind": "catalogue", "entry": "van", "receptacles": [{"id": "R2", "marked": "15 V"}]},
        "kit": {"entry": "kit"},
        "tools": [{"id": "saw-2", "lowest_voltage": "104 A"}],
    }
    outcome = resolved(raw)
    assert outcome.request is not None
    _, faults = read_site(outcome.request, outcome.places, outcome.adapters)
    assert {fault.pointer for fault in faults} == {"/source/receptacles/0/marked", "/tools/0/lowest_voltage"}


def test_what_a_document_says_wrongly_points_at_the_reference() -> None:
    release = Release()
    release.bodies["cord", "cord"] = (2, {**CORD, "size": "12/3"})  # stored by an older version that let it through
    outcome = resolve(decoded({**INLINE, "cords": [{"id": "c", "entry": "cord"}]}), release)
    assert outcome.request is not None
    _, faults = read_site(outcome.request, outcome.places)
    assert [(fault.pointer, fault.code) for fault in faults] == [("/cords/0/entry", "not_a_size")]


def test_a_kit_beyond_the_bounds_of_a_request_is_refused() -> None:
    release = Release()
    lines = [{"id": f"t{i}", "entry": "saw", "count": 100} for i in range(6)]
    release.bodies["kit", "kit"] = (1, {**KIT, "tools": lines})
    outcome = resolve(decoded({**INLINE, "kit": {"entry": "kit"}}), release)
    assert [(fault.pointer, fault.code) for fault in outcome.faults] == [("/kit/entry", "too_many_items")]
    assert outcome.request is None


def by_unit(corrections: dict[str, Any] | None = None, **beside: Any) -> tuple[Resolved, Release]:
    release = Release()
    release.bodies["source-unit", "fleet-7"] = (4, {**UNIT, **({"corrections": corrections} if corrections else {})})
    request = decoded({"source": {"kind": "catalogue", **beside}})
    return resolve(request, release), release


def test_a_unit_alone_brings_its_kind_and_answers_name_both() -> None:
    outcome, _ = by_unit(unit="FLEET_7")
    both, _ = by_unit(unit="fleet-7", entry="van")
    assert outcome.faults == ()
    assert outcome.request == both.request
    assert outcome.entries == (
        Reference("power-source", "van", 3, "/source/entry"),
        Reference("source-unit", "fleet-7", 4, "/source/unit"),
    )


def test_a_unit_corrects_its_kind_and_a_request_corrects_both() -> None:
    corrections = {
        "battery": "50 kWh",
        "receptacles": [{"id": "R2", "marked": "15 A", "location": "rear"}, {"id": "R3", "type": "5-15R"}],
    }
    outcome, _ = by_unit(corrections, unit="fleet-7", receptacles=[{"id": "R2", "marked": "10 A"}])
    assert outcome.request is not None
    source = outcome.request.source
    found = [(one.id, one.type, one.marked, one.location) for one in source.receptacles]  # type: ignore[union-attr]
    assert found == [
        ("R1", "5-20R", "20 A", msgspec.UNSET),
        ("R2", "5-20R", "10 A", "rear"),
        ("R3", "5-15R", msgspec.UNSET, msgspec.UNSET),
    ]
    assert source.battery == "50 kWh"  # type: ignore[union-attr]
    # what neither kind nor unit brought points to where it was sent, all else to the reference
    assert outcome.places.of("/source/receptacles/1/marked") == "/source/receptacles/0/marked"
    assert outcome.places.of("/source/receptacles/1/location") == "/source/entry"
    assert outcome.places.of("/source/receptacles/2/type") == "/source/entry"
    assert outcome.places.of("/source/battery") == "/source/entry"


@pytest.mark.parametrize(
    ("corrections", "beside", "pointer", "code", "meant"),
    [
        (None, {"unit": "fleet-8"}, "/source/unit", "unknown_entry", "fleet-7"),
        (None, {"unit": "fleet-7", "entry": "truck"}, "/source/entry", "unit_of_another_entry", "van"),
        (None, {}, "/source/entry", "source_not_named", None),
        (None, {"unit": "fleet-7", "revision": 9}, "/source/revision", "unknown_revision", "3"),
        ({"tank": "15 L"}, {"unit": "fleet-7"}, "/source/unit", "member_of_another_kind", None),
        ({"battery": "50 kWh"}, {"unit": "fleet-7", "tank": "1 L"}, "/source/tank", "member_of_another_kind", None),
    ],
)
def test_a_unit_that_leads_nowhere_is_a_fault(
    corrections: dict[str, Any] | None, beside: dict[str, Any], pointer: str, code: str, meant: str | None
) -> None:
    outcome, _ = by_unit(corrections, **beside)
    assert [(one.pointer, one.code, one.did_you_mean) for one in outcome.faults] == [(pointer, code, meant)]


def test_observations_of_a_unit_come_beside_and_change_no_figure() -> None:
    seen = [{"on_date": "2026-03-02", "what": "held", "receptacle": "R1", "current": "31 A", "lasted": "2 h"}]
    plain, release = by_unit(unit="fleet-7")
    release.bodies["source-unit", "fleet-7"] = (4, {**UNIT, "observations": seen})
    outcome = resolve(decoded({"source": {"kind": "catalogue", "unit": "fleet-7"}}), release)
    assert outcome.request == plain.request
    assert [one.current for one in outcome.entries[-1].observations] == ["31 A"]


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\u2028"])
def test_a_name_that_would_print_as_something_else_is_refused_where_it_stands(sign: str) -> None:
    # UAX 9 has overrides and isolates of the writing direction; on a card they show a name that nobody wrote
    request = msgspec.convert(
        {
            "source": {"kind": "vehicle", "voltage": "120 V", "name": f"van{sign}1"},
            "tools": [{"id": "saw", "name": "a saw", "load_class": "circular_saw"}],
        },
        LoadCheckRequest,
    )
    found = resolve(request, DemoLookup()).faults
    assert [(fault.pointer, fault.code) for fault in found] == [("/source/name", "control_character")]
    assert f"U+{ord(sign):04X}" in found[0].message
