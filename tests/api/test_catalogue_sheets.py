"""Do the spreadsheets of a fleet get in whole or not at all, out again the same, and never as a program?"""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import msgspec
import pytest
from ampwright.catalogue.demo_data import load_demo
from ampwright.contract.documents import DOCUMENT_TYPES
from ampwright.contract.sheet_columns import SHEETS
from ampwright.contract.sheet_text import guarded, unguarded
from api.trial_resource import assert_problem
from catalogue_service import SAW, load_demo_into, new, servers, service, serving, url
from litestar.testing import TestClient

__all__ = ["servers", "service", "url"]
Service = TestClient[Any]
SHEET = "/v1/catalogue-sheets"
KINDS = sorted(SHEETS)
HEADER = "entry,name,origin,load_class,option,voltage,plug,current,restart_protection,working_power_factor,start_kind,"
TOOLS = f"""{HEADER}start_peak
saw,"circular saw, 185 mm",nameplate,circular_saw,us,120 V,5-15P,15 A,no,0.97,universal_motor,75 A
saw,,,,eu,230 V,CEE 7/17,7.2 A,,,,
heater,Heater,estimate,,,120 V,5-15P,12.5 A,,,,
"""


def send(service: Service, kind: str, text: str, **more: Any) -> Any:
    return service.post(f"{SHEET}/{kind}", json={"csv": text, "why": "the list", "by": "fleet desk", **more})


def test_a_sheet_becomes_documents_one_row_a_supply_option(service: Service) -> None:
    tried = send(service, "tool-profile", TOOLS, dry_run=True).json()
    counts = {"rows": 3, "entries": 2, "created": 2, "revised": 0, "unchanged": 0, "faults": []}
    assert tried == {"written": False, **counts}
    assert service.get("/v1/tool-profiles").json()["items"] == []
    assert send(service, "tool-profile", TOOLS).json() == {"written": True, **counts}
    saw = service.get("/v1/tool-profiles/saw").json()
    assert (saw["created_by"], saw["why"], saw["status"]) == ("fleet desk", "the list", "approved")
    assert saw["document"] == {
        "name": "circular saw, 185 mm",
        "origin": "nameplate",
        "load_class": "circular_saw",
        "restart_protection": False,
        "load_states": [{"id": "working", "power_factor": 0.97}],
        "start": {"kind": "universal_motor", "peak": "75 A"},
        "supply_options": [
            {"id": "us", "voltage": "120 V", "plug": "5-15P", "current": "15 A"},
            {"id": "eu", "voltage": "230 V", "plug": "CEE 7/17", "current": "7.2 A"},
        ],
    }
    again = send(service, "tool-profile", TOOLS).json()
    assert (again["created"], again["revised"], again["unchanged"]) == (0, 0, 2)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        (TOOLS.replace("\n", "\r\n"), 2),
        ("\ufeff" + TOOLS, 2),
        ("Entry;Name;Origin;Voltage\nsaw;Säge, rot;nameplate;230 V\n\n;;;\n", 1),
        ("entry\tname\torigin\nsaw\tSaw\tnameplate\n", 1),
    ],
)
def test_spreadsheets_of_all_countries_are_read(service: Service, written: str, read: int) -> None:
    answer = send(service, "tool-profile", written).json()
    assert (answer["faults"], answer["created"]) == ([], read)


FAULTY = """entry,name,origin,voltage,plug,current,phases,restart_protection,working_power_factor,switch,provenance
saw,Saw,nameplate,120,5-15P,15 V,1,perhaps,0.9,always,
saw,Other,nameplate,120 V,5-16P,=1+2,,,,,
Drill,Drill,guess,120 V,,,,,,,
,nobody,,,,,,,,,
grinder,Grinder,nameplate,120 V,,,two,,1.5,,,beyond
"""


def test_a_dry_run_lists_every_fault_by_row_and_column(service: Service) -> None:
    header = send(service, "tool-profile", FAULTY, dry_run=True).json()["faults"]
    assert [(one["row"], one["column"], one["code"]) for one in header] == [(1, "provenance", "unknown_column")]
    text = FAULTY.replace(",provenance\n", ",\n").replace(",always,", ",always_off,")
    faults = send(service, "tool-profile", text, dry_run=True).json()["faults"]
    assert [(one["row"], one["column"], one["code"]) for one in faults] == [
        (2, "current", "wrong_unit"),
        (2, "restart_protection", "not_a_number"),
        (2, "switch", "cell_not_accepted"),
        (2, "voltage", "not_a_supply"),
        (3, "current", "formula"),
        (3, "name", "cells_disagree"),
        (3, "plug", "unknown_plug_type"),
        (4, "entry", "not_a_key"),
        (4, "origin", "cell_not_accepted"),
        (5, "entry", "cell_missing"),
        (6, "", "cell_without_header"),
        (6, "phases", "not_a_number"),
        (6, "working_power_factor", "cell_not_accepted"),
    ]
    assert next(one["did_you_mean"] for one in faults if one["column"] == "switch") == "always_on"
    assert "constant_pressure" in next(one["message"] for one in faults if one["column"] == "switch")
    refused = send(service, "tool-profile", text)
    assert_problem(refused, 422, "contradictory-request")
    assert len(refused.json()["errors"]) == len(faults)
    assert refused.json()["errors"][0]["message"].startswith("Row 2, current: ")
    assert service.get("/v1/tool-profiles").json()["items"] == []


def test_one_bad_row_keeps_all_others_out(service: Service) -> None:
    rows = "".join(f"tool-{number},Tool,nameplate,120 V,{number} A\n" for number in range(1, 300))
    text = "entry,name,origin,voltage,current\n" + rows + "last,Tool,nameplate,120 V,15\n"
    assert send(service, "tool-profile", text).status_code == 422
    assert service.get("/v1/tool-profiles").json()["items"] == []
    assert send(service, "tool-profile", text.replace("120 V,15\n", "120 V,15 A\n")).json()["created"] == 300


@pytest.mark.parametrize(
    "text",
    ["", "\n", "entry", "name\nx\n", "entry,entry\na,b\n", 'entry,name\nsaw,"open\n', "entry,name\nsaw,\x00\n", "\x00",
     'entry,name\nsaw,"a"b\n', "entry,name,origin\nsaw,nul\x00,nameplate\n", "entry," + "x" * 200_000 + "\n"],
)  # fmt: skip
def test_what_is_no_sheet_is_told_and_never_a_crash(service: Service, text: str) -> None:
    answer = send(service, "tool-profile", text, dry_run=True)
    assert answer.status_code == 200
    assert answer.json()["created"] == 0
    if text.strip() not in ("entry",):
        assert answer.json()["faults"]


def test_what_has_no_column_stays_and_a_stale_sheet_is_refused(service: Service) -> None:
    document = {
        **SAW,
        "provenance": [{"pointer": "/name", "origin": "measured"}],
        "supply_options": [{**SAW["supply_options"][0], "load_states": [{"id": "idle", "power": "300 W"}]}],
    }
    service.post("/v1/tool-profiles", json=new("saw", document))
    text = "entry,revision,option,current\nsaw,1,us,14 A\n"
    assert send(service, "tool-profile", text).json()["revised"] == 1
    stored = service.get("/v1/tool-profiles/saw").json()
    document["supply_options"][0]["current"] = "14 A"
    assert stored["document"] == document
    stale = send(service, "tool-profile", text, dry_run=True).json()
    assert [(one["row"], one["column"], one["code"]) for one in stale["faults"]] == [(2, "revision", "head_moved")]
    gone = send(service, "tool-profile", "entry,revision,name,origin\ndrill,1,Drill,nameplate\n", dry_run=True).json()
    assert [one["code"] for one in gone["faults"]] == ["head_moved"]
    assert send(service, "tool-profile", "entry,status\nsaw,draft\n").json()["revised"] == 1
    assert service.get("/v1/tool-profiles/saw").json()["status"] == "draft"


@pytest.mark.parametrize("kind", KINDS)
def test_the_demo_catalogue_comes_out_and_in_again_unchanged(url: str, kind: str) -> None:
    load_demo_into(url)
    with serving(url) as service:
        out = service.get(f"{SHEET}/{kind}")
        assert out.headers["content-type"].startswith("text/csv")
        slugs = [slug for of, slug, _ in load_demo() if of == kind]
        rows = list(csv.DictReader(io.StringIO(out.text, newline="")))
        assert list(dict.fromkeys(row["entry"] for row in rows)) == slugs
        answer = send(service, kind, out.text).json()
        assert (answer["faults"], answer["unchanged"], answer["revised"]) == ([], len(slugs), 0)
        # into an empty catalogue it brings all that has a column, and the column says what has none
        bare = {}
        for of, slug, body in load_demo():
            if of == kind:
                bare[slug] = json.loads(body)
    if kind == "source-unit":
        return  # they need their sources
    assert {slug for slug, document in bare.items() if "start" in document} >= {
        row["entry"] for row in rows if row.get("start_kind")
    }


def test_what_a_sheet_cannot_show_is_named(url: str) -> None:
    load_demo_into(url)
    with serving(url) as service:
        rows = list(csv.DictReader(io.StringIO(service.get(f"{SHEET}/power-source").text, newline="")))
    truck = next(row for row in rows if row["entry"] == "truck-flatbed")
    # tiers of a limit and legs of a circuit have no column
    assert {"limits", "circuits"} <= set(truck["not_shown"].split())


def test_every_column_is_a_member_of_its_document() -> None:
    """Every example is read back from the document that it was put into; so no column leads nowhere."""
    for sheet in SHEETS.values():
        assert len(set(sheet.names)) == len(sheet.names)
        schema = msgspec.json.schema(DOCUMENT_TYPES[sheet.kind])
        text = json.dumps(schema)
        for column in sheet.columns:
            for step in column.path:
                assert step == "*" or f'"{step.removeprefix("#")}"' in text, column


def test_every_member_of_a_tool_has_a_column() -> None:
    """But its own restart: an object that a sheet names as not shown."""
    members = {field.encode_name for field in msgspec.structs.fields(DOCUMENT_TYPES["tool-profile"])}
    shown = {column.path[0] for column in SHEETS["tool-profile"].columns}
    assert members - shown == {"restart", "provenance"}


def test_withdrawn_entries_do_not_stand_again_through_a_sheet(service: Service) -> None:
    service.post("/v1/tool-profiles", json=new("saw", SAW))
    before = service.get(f"{SHEET}/tool-profile").text
    service.post("/v1/tool-profiles/saw/withdrawals", json={"why": "wrong", "by": "safety"})
    assert "saw" not in service.get(f"{SHEET}/tool-profile").text
    assert send(service, "tool-profile", before).json()["unchanged"] == 1
    assert service.get("/v1/tool-profiles/saw").json()["status"] == "withdrawn"


# Cells that spreadsheets take for formulas: CWE-1236.
@pytest.mark.parametrize(
    "name", ["=1+2", "+1", "-1", "@SUM(A1)", "=cmd|' /C calc'!A0", "'=1", "''+", "it's", "'quoted'"]
)
def test_no_cell_goes_out_as_a_formula_and_each_comes_back(service: Service, name: str) -> None:
    service.post("/v1/tool-profiles", json=new("saw", {**SAW, "name": name}))
    text = service.get(f"{SHEET}/tool-profile").text
    cell = next(csv.DictReader(io.StringIO(text, newline="")))["name"]
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    assert send(service, "tool-profile", text).json()["unchanged"] == 1
    assert unguarded(guarded(name)) == name


def test_columns_are_listed_with_examples_that_are_read(service: Service) -> None:
    listed = service.get(SHEET).json()["items"]
    assert [one["kind"] for one in listed] == list(SHEETS)
    cords = next(one for one in listed if one["kind"] == "cord")["columns"]
    cells = {one["name"]: one["example"] for one in cords if one["name"] not in ("revision", "not_shown")}
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, list(cells))
    writer.writeheader()
    writer.writerow({**cells, "entry": "a-cord"})
    answer = send(service, "cord", text.getvalue()).json()
    assert (answer["faults"], answer["created"]) == ([], 1)


def test_units_come_in_with_their_sources(url: str) -> None:
    load_demo_into(url)
    with serving(url) as service:
        text = (
            "entry,name,origin,source,battery,tank\nelw-61,van,nameplate,van-panel,70 kWh,\nelw-62,x,nameplate,none,,\n"
        )
        assert send(service, "source-unit", text, dry_run=True).json()["faults"][0]["column"] == "tank"
        text = text.replace(",tank", "").replace(",\n", "\n")
        faults = send(service, "source-unit", text, dry_run=True).json()["faults"]
        assert [(one["row"], one["column"], one["code"]) for one in faults] == [(3, "source", "unknown_entry")]
        assert send(service, "source-unit", text.replace("none", "site-box")).json()["created"] == 2
