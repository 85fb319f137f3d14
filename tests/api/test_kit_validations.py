"""Is each row of POST /v1/kit-validations the load check of its own kit and source, and the same in every form?"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from ampwright.contract.kit_validations import KitValidationRequest
from ampwright.studies.kit_validation import KitValidation
from api.trial_resource import assert_problem
from litestar.testing import TestClient
from service_with_demo import demo_client

PATH = "/v1/kit-validations"
LINES = {"accept": "application/x-ndjson"}
YARD = [{"id": unit.lower(), "source": {"kind": "catalogue", "unit": unit}} for unit in ("ELW-07", "ELW-08", "ELW-11")]
STRAIGHT = [{"id": name, "laid": "straight"} for name in ("heavy-1", "heavy-2", "long")]
CREW = {"id": "crew-3", "entry": "j1-shelter-frame", "cords": STRAIGHT}
JOB: dict[str, Any] = {
    "id": "shelter",
    "cases": [{"id": "cutting", "running": ["compressor", "saw"]}],
    "people": 2,
    "conditions": {"place": "open_air", "wet": False, "ambient": "5..25 degC"},
    "code_basis": ["osha-1926"],
}
GENERATOR = {
    "kind": "engine_generator",
    "voltage": "120 V",
    "technology": "inverter",
    "running": "4000 VA",
    "receptacles": [
        {"id": "A", "type": "5-20R", "marked": "20 A", "circuit": "C1", "ground_fault": "gfci_class_a"},
        {"id": "B", "type": "5-20R", "marked": "20 A", "circuit": "C2", "ground_fault": "gfci_class_a"},
    ],
    "reset": {"how": "manual"},
    "neutral_bond": "floating",
}
HEATER = {
    "load_class": "heater",
    "supply_options": [{"voltage": "120 V", "power": "600 W", "plug": "5-15P"}],
    "switch": "positive_on_off",
    "operated": "by_itself",
}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("kit-validations")) as opened:
        yield opened


def ask(client: TestClient[Any], **members: Any) -> dict[str, Any]:
    answer = client.post(PATH, json={"sources": YARD, "kits": [CREW], "jobs": [JOB], **members})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def one_row(client: TestClient[Any], source: Any, kit: dict[str, Any], **job: Any) -> dict[str, Any]:
    [row] = ask(
        client,
        sources=[{"id": "s", "source": source}],
        kits=[{"id": "k", **kit}],
        jobs=[{"id": "j", "code_basis": [], **job}],
    )["rows"]
    found: dict[str, Any] = row
    return found


def test_a_row_is_the_load_check_of_the_same_site_posted_alone(client: TestClient[Any]) -> None:
    day = {"shift": "6 h", "work": [{"id": "cuts", "unit": "cut", "amount": 120, "tool": "saw"}], "draws": 500}
    for job in (JOB, {**JOB, "day": day}):
        for row in ask(client, jobs=[job], include=["requests"])["rows"]:
            alone = client.post("/v1/load-checks", json=row["load_check_request"])
            assert alone.status_code == 200, alone.text
            answer = alone.json()
            assert row["load_check"] == {"verdict": answer["verdict"], "request_digest": answer["request_digest"]}
            told = {finding["text"] for finding in answer["findings"]}
            assert row["finding"]["text"] in told
            assert answer["crew_card"][0]["text"] == row["sentence"] or "energy_budget" in row
            assumed = {item["id"]: item for item in answer["assumptions"]}
            if "question" in answer:
                assert row["question"]["how_to_find_out"] == assumed[answer["question"]]["how_to_find_out"]
            assert row["load_check_request"]["connections"] == row["plugged"]
            if "day" in job:
                budget = client.post("/v1/energy-budgets", json=row["energy_budget_request"]).json()
                assert row["energy_budget"]["request_digest"] == budget["request_digest"]
                assert row["energy_budget"]["verdict"] == budget["verdict"]
                assert row["energy_budget"].get("left") == budget.get("left")


def test_every_form_tells_the_same(client: TestClient[Any]) -> None:
    whole = ask(client)
    sent = client.post(PATH, json={"sources": YARD, "kits": [CREW], "jobs": [JOB]}, headers=LINES)
    assert sent.headers["x-accel-buffering"] == "no"
    head, *rows, end = [json.loads(line) for line in sent.text.splitlines()]
    assert rows == whole["rows"]
    assert head["kind"] == "head"
    assert head["rows_in_all"] == 3
    assert head["request_digest"] == whole["request_digest"]
    assert end == {
        "kind": "end",
        "rows": 3,
        "next_index": 3,
        "computed": whole["computed"],
        "counts": whole["counts"],
    }
    sheet = client.post(PATH, json={"sources": YARD, "kits": [CREW], "jobs": [JOB]}, headers={"accept": "text/csv"})
    *cells, last = list(csv.DictReader(io.StringIO(sheet.text)))
    assert {len(line) for line in csv.reader(io.StringIO(sheet.text))} == {len(last)}  # RFC 4180, 2.4
    assert (last["kind"], last["index"], last["verdict"]) == ("end", "3", "")
    counts = {**{name: end[name] for name in ("rows", "computed")}, **end["counts"]}
    assert last["counts"] == "; ".join(f"{name}={count}" for name, count in counts.items())
    for one in (*cells, last):
        for name in ("engine_version", "catalogue_release", "withdrawals_as_of", "request_digest"):
            assert one[name] == str(head[name])
    assert {one["kind"] for one in cells} == {"row"}
    assert [(one["source"], one["verdict"]) for one in cells] == [(row["source"], row["verdict"]) for row in rows]
    assert [one["load_check_digest"] for one in cells] == [row["load_check"]["request_digest"] for row in rows]


@pytest.mark.parametrize(
    ("begin", "end", "places"), [(0, 2, [0, 1]), (2, 9, [2, 3, 4, 5]), (4, 5, [4]), (5, 5, []), (7, 9, []), (4, 2, [])]
)
def test_some_rows_are_those_of_the_whole(client: TestClient[Any], begin: int, end: int, places: list[int]) -> None:
    kits = [CREW, {"id": "crew-4", "entry": "j1-shelter-frame"}]
    whole = ask(client, kits=kits)["rows"]
    some = ask(client, kits=kits, rows={"begin": begin, "end": end})
    assert some["rows"] == [whole[place] for place in places]
    assert some["rows_in_all"] == 6


def test_what_asks_the_same_is_worked_out_once(client: TestClient[Any]) -> None:
    kits = [{**CREW, "id": f"crew-{n}"} for n in range(40)]
    # the unit is of this kind and has no corrections, so that the sites are equal
    kind = {"id": "kind", "source": {"kind": "catalogue", "entry": "truck-flatbed"}}
    found = ask(client, sources=[YARD[0], kind], kits=kits)
    assert len(found["rows"]) == 80
    assert found["computed"] == 1
    assert {row["verdict"] for row in found["rows"]} == {found["rows"][0]["verdict"]}
    assert [row["id"] for row in found["rows"][:3]] == [
        "shelter/crew-0/elw-07",
        "shelter/crew-0/kind",
        "shelter/crew-1/elw-07",
    ]


def test_a_fault_of_one_row_is_its_own(client: TestClient[Any]) -> None:
    sources = [
        *YARD[:1],
        {"id": "misspelt", "source": {"kind": "catalogue", "unit": "ELW-99"}},
        {"id": "odd", "source": {"kind": "vehicle", "voltage": "120 V", "battery": "sixty"}},
    ]
    kits = [
        CREW,
        {"id": "gone", "entry": "j1-shelter-frames"},
        {"id": "old", "entry": "j1-shelter-frame", "revision": 7},
    ]
    rows = {row["id"]: row for row in ask(client, sources=sources, kits=kits)["rows"]}
    assert len(rows) == 9
    assert rows["shelter/crew-3/elw-07"]["errors"] == []
    faults = {name: [(one["code"], one["pointer"]) for one in row["errors"]] for name, row in rows.items()}
    assert faults["shelter/crew-3/misspelt"] == [("unknown_entry", "/sources/1/source/unit")]
    assert faults["shelter/crew-3/odd"] == [("not_a_quantity", "/sources/2/source/battery")]
    assert faults["shelter/gone/elw-07"] == [("unknown_entry", "/kits/1/entry")]
    assert rows["shelter/gone/elw-07"]["errors"][0]["did_you_mean"] == "j1-shelter-frame"
    assert faults["shelter/old/elw-07"] == [("unknown_revision", "/kits/2/revision")]
    assert "verdict" not in rows["shelter/gone/elw-07"]


def test_pointers_go_into_the_request_as_sent(client: TestClient[Any]) -> None:
    body = {
        "sources": [{"id": "a", "source": GENERATOR}, {"id": "b", "source": GENERATOR}],
        "kits": [{"id": "k", "tools": [{"id": "h", **HEATER}], "cords": [{"id": "c", "length": "50 ft"}]}],
        "jobs": [{"id": "x"}, {"id": "y", "cases": [{"id": "one", "running": ["h"]}], "code_basis": []}],
    }
    for row in ask(client, **body)["rows"]:
        pointers = [row["finding"]["pointer"]] if "finding" in row else []
        pointers += [one["pointer"] for one in row["invalidated_by"]]
        pointers += [row["question"]["pointer"]] if "question" in row else []
        for pointer in pointers:
            here: Any = body
            steps = pointer.split("/")[1:]
            assert steps[0] in body, pointer
            for step in steps[:-1]:  # the last member may be one that was left out
                here = here[int(step)] if isinstance(here, list) else here.get(step, {})


# --- what is missing, by cases made by hand; what is expected follows from the request, not from our output ----------


def test_a_tool_that_the_job_runs_and_the_kit_has_not(client: TestClient[Any]) -> None:
    cases = [{"id": "both", "running": ["h", "pump"]}]
    row = one_row(client, GENERATOR, {"tools": [{"id": "h", **HEATER}]}, cases=cases)
    assert [(one["item"], one["quantity"]) for one in row["missing"]] == [("tool", 1)]
    assert row["verdict"] == "fail"
    assert "pump" in row["sentence"]
    assert row["load_check"]["verdict"]["capacity"] == "pass"  # of what is there
    nothing = one_row(client, GENERATOR, {"tools": []}, cases=cases)
    assert {one["text"] for one in nothing["missing"]} == {"h", "pump"}
    assert nothing["verdict"] == "fail"
    assert "load_check" not in nothing


def test_outlets_for_more_tools_than_receptacles(client: TestClient[Any]) -> None:
    tools = [{"id": f"h{n}", **HEATER} for n in range(4)]
    cases = [{"id": "all", "running": [tool["id"] for tool in tools]}]
    row = one_row(client, GENERATOR, {"tools": tools}, cases=cases)
    assert [(one["item"], one["quantity"]) for one in row["missing"]] == [("outlet", 2)]
    assert row["verdict"] == "fail"
    reel = {"id": "reel", "length": "25 ft", "size": "12 AWG", "plug": "5-15P", "laid": "straight"}
    reel["outlets"] = {"type": "5-15R", "count": 3}  # type: ignore[assignment]
    served = one_row(client, GENERATOR, {"tools": tools, "cords": [reel]}, cases=cases)
    assert [one["item"] for one in served["missing"]] == []
    assert len(served["plugged"]) == 5


def test_a_cord_that_reaches(client: TestClient[Any]) -> None:
    kit = {"tools": [{"id": "h", **HEATER}], "cords": [{"id": "c", "length": "50 ft", "size": "12 AWG"}]}
    cases = [{"id": "one", "running": ["h"]}]
    # a tool's own cord has 6 ft: 56 ft are reached with 50 ft, 100 ft are not
    near = one_row(client, GENERATOR, kit, cases=cases, distance="55 ft")
    assert near["missing"] == []
    assert [one["into"] for one in near["plugged"]][1:] == ["c"]
    far = one_row(client, GENERATOR, kit, cases=cases, distance="100 ft")
    assert [one["item"] for one in far["missing"]] == ["longer_cord"]
    assert far["verdict"] == "fail"
    assert far["plugged"] == []


STATED = {
    "tools": [{"id": "h", **HEATER}],
    "cords": [{"id": "c", "length": "50 ft", "size": "12 AWG", "laid": "straight"}],
    "connections": [{"plug": "c", "into": "A"}, {"plug": "h", "into": "c"}],
}


def test_cords_as_they_are_plugged_in_must_reach_as_well(client: TestClient[Any]) -> None:
    """50 ft and 6 ft of the tool's own reach 56 ft and not 100 ft, whoever said what is plugged into what."""
    cases = [{"id": "one", "running": ["h"]}]
    near = one_row(client, GENERATOR, STATED, cases=cases, distance="55 ft")
    assert (near["plugging"], near["missing"]) == ("stated", [])
    assert "work_farther" in {one["code"] for one in near["invalidated_by"]}
    far = one_row(client, GENERATOR, STATED, cases=cases, distance="100 ft")
    assert far["load_check"]["verdict"]["capacity"] == "pass"
    assert [(one["item"], one["quantity"]) for one in far["missing"]] == [("longer_cord", 1)]
    assert far["verdict"] == "fail"
    assert far["sentence"].startswith("Not as loaded: bring 1 cord that reaches 30 m")


def test_cords_in_a_ring_are_refused_in_their_row(client: TestClient[Any]) -> None:
    ring = {**STATED, "connections": [{"plug": "c", "into": "c"}, {"plug": "h", "into": "c"}]}
    row = one_row(client, GENERATOR, ring, cases=[{"id": "one", "running": ["h"]}], distance="55 ft")
    assert row["errors"]
    assert "verdict" not in row


@pytest.mark.parametrize("how", ["length not said", "receptacles not listed", "planned"])
def test_whether_cords_reach_is_asked_where_nobody_can_say(client: TestClient[Any], how: str) -> None:
    kit: dict[str, Any] = {**STATED}
    source: dict[str, Any] = {**GENERATOR}
    if how == "receptacles not listed":
        del source["receptacles"], kit["connections"]
    else:
        kit["cords"] = [{"id": "c", "size": "12 AWG", "laid": "straight"}]
    if how == "planned":
        del kit["connections"]
    cases = [{"id": "one", "running": ["h"]}]
    row = one_row(client, source, kit, cases=cases, distance="40 ft")
    assert row["load_check"]["verdict"]["capacity"] != "fail"
    assert row["verdict"] == "unknown"
    assert (row["question"]["code"], row["question"]["pointer"]) == ("cord_reach", "/jobs/0/distance")
    assert row["question"]["swings_verdict_to"] == "fail"
    assert row["invalidated_by"][0]["code"] == "cord_reach"
    assert row["sentence"].startswith("Not known yet for h.")
    at_hand = one_row(client, source, kit, cases=cases, distance="5 ft")
    assert at_hand.get("question", {}).get("code") != "cord_reach"


def test_what_the_rules_forbid_is_the_first_finding_and_the_sentence(client: TestClient[Any]) -> None:
    """29 CFR 1926.405(a)(2)(ii)(J) wants three-wire cords on a site; here only a rule is broken, nothing trips."""
    cord = {"id": "c", "length": "25 ft", "size": "12 AWG", "conductors": 2, "laid": "straight"}
    drill = {
        "id": "drill",
        "load_class": "hand_drill",
        "insulation": "class_ii",
        "switch": "constant_pressure",
        "restart_protection": True,
        "supply_options": [{"voltage": "120 V", "current": "4 A", "plug": "1-15P"}],
    }
    job = {
        "cases": [{"id": "one", "running": ["drill"]}],
        "people": 1,
        "conditions": {"place": "open_air", "wet": False, "ambient": "20 degC"},
        "code_basis": ["osha-1926"],
    }
    row = one_row(client, GENERATOR, {"tools": [drill], "cords": [cord]}, **job)
    assert row["load_check"]["verdict"]["code"] == "fail"
    assert "fail" not in (row["load_check"]["verdict"]["capacity"], row["load_check"]["verdict"]["safety"])
    assert row["finding"]["aspect"] == "code"
    assert row["sentence"].startswith("Not allowed by the rules that apply:")


def test_no_outlet_takes_it(client: TestClient[Any]) -> None:
    welder = {
        "id": "w",
        "load_class": "welder",
        "supply_options": [{"voltage": "240 V", "current": "22 A", "plug": "6-50P"}],
    }
    row = one_row(client, GENERATOR, {"tools": [welder]}, cases=[{"id": "weld", "running": ["w"]}])
    assert [one["item"] for one in row["missing"]] == ["fitting_outlet"]
    assert row["sentence"].startswith("Not on this source")


def test_a_cord_of_the_mark_that_is_needed(client: TestClient[Any]) -> None:
    """UL 817: a 16 AWG cord of more than 50 ft is marked 10 A, one of 14 AWG 13 A; 1440 W at 120 V are 12 A."""
    hot = {**HEATER, "supply_options": [{"voltage": "120 V", "power": "1440 W", "plug": "5-15P"}]}
    thin = {"id": "thin", "length": "100 ft", "size": "16 AWG", "laid": "straight"}
    row = one_row(
        client, GENERATOR, {"tools": [{"id": "h", **hot}], "cords": [thin]}, cases=[{"id": "one", "running": ["h"]}]
    )
    [item] = [one for one in row["missing"] if one["finding"] == "cord_over_marked_rating"]
    assert item["item"] == "heavier_cord"
    assert "14 AWG" in item["text"]
    assert "13 A" in item["text"]


def test_people_and_tools_that_stay_off(client: TestClient[Any]) -> None:
    grinder = {
        "load_class": "angle_grinder",
        "switch": "momentary_lock_on",
        "restart_protection": False,
        "supply_options": [{"voltage": "120 V", "current": "8 A", "plug": "5-15P"}],
    }
    tools = [{"id": "g1", **grinder}, {"id": "g2", **grinder}]
    source = {**GENERATOR, "reset": {"how": "automatic"}}
    row = one_row(client, source, {"tools": tools}, cases=[{"id": "both", "running": ["g1", "g2"]}], people=1)
    found = {(one["item"], one["quantity"]) for one in row["missing"]}
    assert ("people", 1) in found
    assert [one["text"] for one in row["missing"] if one["item"] == "tool_with_restart_protection"] == [
        "a g1 that stays off when power returns",
        "a g2 that stays off when power returns",
    ]


def test_a_job_without_cases_is_answered_like_the_load_check(client: TestClient[Any]) -> None:
    row = one_row(client, GENERATOR, {"tools": [{"id": "h", **HEATER}]}, cases=[])
    assert row["verdict"] == "unknown"
    assert row["errors"] == []


def test_which_other_source_would_do(client: TestClient[Any]) -> None:
    weak = {**GENERATOR, "running": "500 VA"}
    rows = ask(
        client,
        sources=[{"id": "weak", "source": weak}, {"id": "strong", "source": GENERATOR}],
        kits=[{"id": "k", "tools": [{"id": "h", **HEATER}]}],
        jobs=[{"id": "j", "cases": [{"id": "one", "running": ["h"]}], "code_basis": []}],
    )["rows"]
    assert rows[0]["load_check"]["verdict"]["capacity"] == "fail"  # 600 W of 500 VA
    assert [one["source"] for one in rows[0]["others"]] == ["strong"]
    assert rows[1]["others"] == []


# --- what is wrong with one item is told in its rows, and the others are answered -------------------------------------

BAD_ITEMS: list[tuple[str, Any, str, str, str, list[str]]] = [
    ("kits", {**CREW, "id": "b", "tool": []}, "b", "unknown_member", "/kits/1/tool", ["shelter/b/elw-07"]),
    ("kits", {**CREW, "id": "b", "cords": "two"}, "b", "wrong_type", "/kits/1/cords", ["shelter/b/elw-07"]),
    ("kits", CREW, "crew-3#1", "repeated_id", "/kits/1/id", ["shelter/crew-3#1/elw-07"]),
    ("kits", {"id": "a/b"}, "#1", "wrong_form", "/kits/1/id", ["shelter/#1/elw-07"]),
    ("kits", None, "#1", "wrong_type", "/kits/1", ["shelter/#1/elw-07"]),
    ("sources", {"id": "v", "source": {"kind": "boat"}}, "v", "not_listed", "/sources/1/source/kind", [
        "shelter/crew-3/v",
    ]),
    ("sources", YARD[0], "elw-07#1", "repeated_id", "/sources/1/id", ["shelter/crew-3/elw-07#1"]),
    ("jobs", {**JOB, "id": "j", "peple": 2}, "j", "unknown_member", "/jobs/1/peple", ["j/crew-3/elw-07"]),
    ("jobs", JOB, "shelter#1", "repeated_id", "/jobs/1/id", ["shelter#1/crew-3/elw-07"]),
    ("jobs", {**JOB, "id": "j", "kits": ["crew-4"]}, "j", "unknown_kit", "/jobs/1/kits/0", ["j/crew-4/elw-07"]),
    ("jobs", {**JOB, "id": "j", "kits": ["crew-3", "x", "x"]}, "x", "unknown_kit", "/jobs/1/kits/1", [
        "j/x/elw-07", "j/x#2/elw-07",
    ]),
    ("jobs", {**JOB, "id": "j", "sources": ["x"]}, "j", "unknown_source", "/jobs/1/sources/0", ["j/crew-3/x"]),
    ("jobs", {**JOB, "id": "j", "kits": 7}, "j", "wrong_type", "/jobs/1/kits", ["j//elw-07"]),
    ("jobs", {**JOB, "id": "j", "kits": ["crew-3", "crew-3"]}, "j", "repeated_member", "/jobs/1/kits/1", [
        "j/crew-3#1/elw-07",
    ]),
]  # fmt: skip


@pytest.mark.parametrize(("member", "item", "name", "code", "pointer", "ids"), BAD_ITEMS)
def test_an_item_that_cannot_be_read_has_its_rows_and_the_others_theirs(
    client: TestClient[Any], member: str, item: Any, name: str, code: str, pointer: str, ids: list[str]
) -> None:
    body: dict[str, Any] = {"sources": YARD[:1], "kits": [CREW], "jobs": [JOB]}
    sound = ask(client, **body)["rows"]
    body[member] = [*body[member], item]
    found = ask(client, **body)
    rows = {row["id"]: row for row in found["rows"]}
    assert len(rows) == len(found["rows"])
    assert rows["shelter/crew-3/elw-07"] | {"index": 0} == sound[0] | {"index": 0}
    wrong = [row for row in found["rows"] if row["errors"]]
    assert [row["id"] for row in wrong] == ids
    assert {name} <= {wrong[0][one] for one in ("kit", "source", "job")}
    assert [(one["code"], one["pointer"]) for one in wrong[0]["errors"]] == [(code, pointer)]
    assert "verdict" not in wrong[0]
    assert found["counts"]["without_answer"] == len(ids)
    lines = client.post(PATH, json=body, headers=LINES).text.splitlines()
    assert [json.loads(line) for line in lines[1:-1]] == found["rows"]
    *cells, last = csv.DictReader(io.StringIO(client.post(PATH, json=body, headers={"accept": "text/csv"}).text))
    assert (len(cells), last["kind"]) == (len(found["rows"]), "end")
    other = json.loads(lines[0])["request_digest"]
    assert other != ask(client, **{**body, member: body[member][:1]})["request_digest"]


# --- requests that make no sense, and requests that are too much ------------------------------------------------------


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"withdrawals_as_of": "2026-13-04T09:30:00Z"}, "not_a_time", "/withdrawals_as_of"),
        ({"kits": []}, "out_of_range", "/kits"),
        ({"rows": {"begin": -1}}, "out_of_range", "/rows/begin"),
        ({"kits": {"id": "k"}}, "wrong_type", "/kits"),
        ({"kits": [{"id": "k", "odd": 1}] * 501}, "out_of_range", "/kits"),
        ({"kit": [{"id": "k"}]}, "unknown_member", "/kit"),
        ({"include": ["everything"]}, "not_listed", "/include/0"),
    ],
)
def test_a_request_that_makes_no_sense_is_refused(
    client: TestClient[Any], members: dict[str, Any], code: str, pointer: str
) -> None:
    for headers in ({}, LINES, {"accept": "text/csv"}):
        answer = client.post(PATH, json={"sources": YARD, "kits": [CREW], "jobs": [JOB], **members}, headers=headers)
        assert answer.status_code == 422, answer.text
        assert (code, pointer) in [(one["code"], one["pointer"]) for one in answer.json()["errors"]], answer.text


def test_a_row_that_is_too_dear_alone_is_refused_in_its_row() -> None:
    """The limit lies between two costs, so the cheaper row is answered and the dearer is not."""
    kits = [{"id": f"k{n}", "tools": [{"id": f"h{m}", **HEATER} for m in range(n)]} for n in (1, 12)]
    body = {"sources": [{"id": "s", "source": {"kind": "vehicle", "voltage": "120 V"}}], "kits": kits}
    asked = msgspec.convert(body, KitValidationRequest)
    small, large = (row for row in KitValidation(None, asked, 500_000).made() if row is not None)
    assert small.errors == []
    assert [(one.code, one.pointer) for one in large.errors] == [("too_much_work", "")]
    assert large.verdict is msgspec.UNSET


def test_many_rows_are_sent_as_lines(client: TestClient[Any]) -> None:
    kits = [{"id": f"k{n}", "tools": []} for n in range(301)]
    jobs = [{"id": "j", "code_basis": []}]
    body = {"sources": [{"id": s, "source": GENERATOR} for s in ("a", "b")], "kits": kits, "jobs": jobs}
    assert_problem(client.post(PATH, json=body), 422, "too-much-work")
    assert len(client.post(PATH, json={**body, "rows": {"end": 600}}).json()["rows"]) == 600
    sent = client.post(PATH, json=body, headers=LINES)
    assert json.loads(sent.text.splitlines()[-1])["rows"] == 602
    more = {"sources": [{"id": f"s{n}", "source": GENERATOR} for n in range(100)], "kits": kits}
    jobs = [{"id": "j"}, {"id": "k"}]
    assert_problem(client.post(PATH, json={**more, "jobs": jobs}, headers=LINES), 422, "contradictory-request")


def test_hostile_words_stay_text_in_a_spreadsheet(client: TestClient[Any]) -> None:
    name = "=cmd|' /C calc'!A0"
    source = {**GENERATOR, "name": name, "neutral_bond": "bonded"}
    kit = {"id": "k", "tools": [{"id": "h", **HEATER, "name": name}]}
    body = {"sources": [{"id": "s", "source": source}], "kits": [kit]}
    sheet = client.post(PATH, json=body, headers={"accept": "text/csv"})
    for row in csv.reader(io.StringIO(sheet.text)):
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)
