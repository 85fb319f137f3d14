"""Are the figures of POST /v1/source-comparisons those of each row's own load check, in the order of the weights?"""

from __future__ import annotations

import copy
import csv
import io
import itertools
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ampwright.contract.json_steps import apply_steps
from api.trial_resource import assert_problem
from litestar.testing import TestClient
from service_with_demo import demo_client

PATH = "/v1/source-comparisons"
STRAIGHT = [{"id": name, "laid": "straight"} for name in ("heavy-1", "heavy-2", "long")]
CREW = {"id": "crew-3", "entry": "j1-shelter-frame", "cords": STRAIGHT}
JOB: dict[str, Any] = {
    "id": "shelter",
    "cases": [{"id": "cutting", "running": ["compressor", "saw"]}, {"id": "framing", "running": ["saw", "drill"]}],
    "people": 2,
    "conditions": {"place": "open_air", "wet": False, "ambient": "5..25 degC"},
    "code_basis": ["osha-1926"],
    "usage": [{"case": "cutting", "per_month": "30 h"}, {"case": "framing", "per_month": "3000 min"}],
}
SOURCES: list[dict[str, Any]] = [
    {"id": "truck", "source": {"kind": "catalogue", "unit": "ELW-07"}},
    {"id": "van", "source": {"kind": "catalogue", "unit": "ELW-04"}, "noise": "32 dB"},
    {"id": "set", "source": {"kind": "catalogue", "entry": "gen-frame-6k"}, "mass": "92 kg", "hire": "38 EUR/day"},
    {"id": "small", "source": {"kind": "catalogue", "entry": "gen-inverter-2k"}, "mass": "46.3 lb", "noise": "58 dB"},
]


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("source-comparisons")) as opened:
        yield opened


def ask(client: TestClient[Any], **members: Any) -> dict[str, Any]:
    answer = client.post(PATH, json={"sources": SOURCES, "kits": [CREW], "jobs": [JOB], **members})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def test_figures_are_those_of_the_load_check_posted_alone(client: TestClient[Any]) -> None:
    """Each figure is looked for anew in the answer to the row's own request."""
    for row in ask(client, include=["requests"])["rows"]:
        alone = client.post("/v1/load-checks", json=row["load_check_request"]).json()
        assert row["load_check"] == {"verdict": alone["verdict"], "request_digest": alone["request_digest"]}
        steady = [(case, one) for case in alone["cases"] for one in case["results"] if not one["pushed"]]
        spare = min(
            (circuit["headroom_a"]["low"], case["id"], circuit["circuit"])
            for case, one in steady
            for circuit in one["circuits"]
            if "headroom_a" in circuit
        )
        assert (row["spare"]["current_a"]["low"], row["spare"]["case"], row["spare"]["circuit"]) == spare
        failing = [case["id"] for case in alone["cases"] if case["verdict"] == "fail"]
        assert row.get("failing_case") == (failing[0] if failing else None)
        if failing:
            assert row["fails_first"]["text"] in {one["text"] for one in alone["findings"]}
            assert failing[0] in row["fails_first"]["cases"] or not row["fails_first"]["cases"]
        # 30 h and 3000 min a month
        hours = {"cutting": 30.0, "framing": 50.0}
        for verdict, member in (("fail", "failing_h"), ("unknown", "unknown_h"), ("marginal", "marginal_h")):
            expected = sum(hours[case["id"]] for case in alone["cases"] if case["verdict"] == verdict)
            assert row["use"][member] == pytest.approx(expected)
        assert row["use"]["of_h"] == 80.0


@pytest.mark.parametrize("unplugged", [False, True], ids=["not in the kit", "no outlet takes it"])
def test_use_of_a_case_that_lacks_a_tool_fails(client: TestClient[Any], *, unplugged: bool) -> None:
    """By definition: work that needs a tool which nobody has, or which nothing feeds, is not done at all."""
    three_phase = {
        "id": "table-saw",
        "load_class": "table_saw",
        "supply_options": [{"voltage": "230/400 V", "current": "5 A"}],
    }
    kit = {**CREW, "tools": [three_phase]} if unplugged else CREW
    framing, ripping = {"id": "framing", "running": ["drill"]}, {"id": "ripping", "running": ["drill", "table-saw"]}
    usage = [{"case": "framing", "per_month": "50 h"}, {"case": "ripping", "per_month": "30 h"}]
    job = {**JOB, "cases": [framing, ripping], "usage": usage}
    [row] = ask(client, sources=SOURCES[:1], kits=[kit], jobs=[job], include=["requests"])["rows"]
    assert {item["item"] for item in row["missing"]} == {"fitting_outlet" if unplugged else "tool"}
    alone = client.post("/v1/load-checks", json=row["load_check_request"]).json()
    assert [case["id"] for case in alone["cases"] if case["verdict"] == "fail"] == []
    assert (row["verdict"], row["use"]["failing_h"], row["use"]["of_h"]) == ("fail", 30.0, 80.0)


def test_what_is_said_of_having_a_source(client: TestClient[Any]) -> None:
    rows = {row["source"]: row for row in ask(client)["rows"]}
    assert rows["set"]["mass_kg"] == 92.0
    assert rows["small"]["mass_kg"] == pytest.approx(46.3 * 0.45359237)  # NIST SP 811: 1 lb is 0.453 592 37 kg exactly
    assert rows["set"]["cost_per_day"] == {
        "currency": "EUR",
        "hire": 38.0,
        "whole": {"p10": 38.0, "p50": 38.0, "p90": 38.0},
    }
    assert [rows[name]["exhaust"] for name in ("truck", "van", "set", "small")] == [False, False, True, True]
    assert rows["van"]["power_back"]["how"] == "automatic"
    assert rows["set"]["power_back"]["how"] == "manual"
    assert rows["set"]["power_back"]["where"] == "panel"


def test_energy_of_the_day_and_its_price(client: TestClient[Any]) -> None:
    day = {
        "shift": "6 h",
        "work": [{"id": "cuts", "unit": "cut", "amount": 120, "tool": "saw"}],
        "way_home": {"distance": "40 km"},
        "electricity_price": "0.50 EUR/kWh",
        "draws": 500,
    }
    sources = [{**SOURCES[1], "charge": "60 %", "hire": "10 EUR/day"}]
    [row] = ask(client, sources=sources, jobs=[{**JOB, "day": day}], include=["requests"])["rows"]
    budget = client.post("/v1/energy-budgets", json=row["energy_budget_request"]).json()
    assert row["energy_budget"]["request_digest"] == budget["request_digest"]
    assert row["cost_per_day"]["energy"] == budget["cost"]["amount"]
    for name, amount in budget["cost"]["amount"].items():
        assert row["cost_per_day"]["whole"][name] == pytest.approx(amount + 10.0)
    assert row["reserve"]["outcome"] == budget["reserve"]["outcome"]
    [other] = ask(client, sources=[{**sources[0], "hire": "10 USD/day"}], jobs=[{**JOB, "day": day}])["rows"]
    assert "cost_per_day" not in other  # dollars and euros make no sum


def test_the_order_is_by_verdict_and_then_by_the_weights(client: TestClient[Any]) -> None:
    found = ask(client, sources=[{**one, "noise": f"{40 + n} dB"} for n, one in enumerate(SOURCES)])
    assert set(found["weights"].values()) == {1.0}
    ordered = sorted(found["rows"], key=lambda row: row["rank"])
    places = [["pass", "marginal", "unknown", "fail"].index(row["verdict"]) for row in ordered]
    assert places == sorted(places)
    for one, other in itertools.pairwise(ordered):
        alike = (one["verdict"], one["danger"]) == (other["verdict"], other["danger"])
        assert not alike or one["score"] >= other["score"]
    only_noise = dict.fromkeys(found["weights"], 0.0) | {"noise_db": 1.0}
    quiet = ask(client, sources=[{**one, "noise": f"{40 + n} dB"} for n, one in enumerate(SOURCES)], weights=only_noise)
    # 40 and 42 dB of those that do not fail are 1 and 0; of those that fail 41 dB are half way, 43 dB at 0
    assert [row["verdict"] == "fail" for row in quiet["rows"]] == [False, True, False, True]
    assert [row["score"] for row in quiet["rows"]] == pytest.approx([1.0, 0.5, 0.0, 0.0])


def test_capacity_comes_from_the_lower_of_label_and_evidence(tmp_path: Path) -> None:
    """A unit that tripped at 12 A on a receptacle marked 20 A is worked out with 12 A; what held raises nothing."""
    unit = {
        "name": "flatbed 77",
        "origin": "invented_demo",
        "entry": "truck-flatbed",
        "observations": [
            {"on_date": "2026-04-17", "what": "tripped", "receptacle": "R1", "current": "12 A", "lasted": "60 s"},
            {"on_date": "2026-04-18", "what": "held", "receptacle": "R2", "current": "40 A"},
            {"on_date": "2026-04-19", "what": "tripped", "receptacle": "R3", "current": "33 A"},
        ],
    }
    with demo_client(tmp_path) as client:
        written = client.post(
            "/v1/source-units",
            json={"entry": "elw-77", "document": unit, "why": "test", "by": "desk"},
            headers={"if-none-match": "*"},
        )
        assert written.status_code == 201, written.text
        assert client.post("/v1/catalogue-releases", json={"note": "test", "by": "desk"}).status_code == 201
        source = {"id": "t", "source": {"kind": "catalogue", "unit": "ELW-77"}}
        [row] = ask(client, sources=[source], include=["requests"])["rows"]
        assert [(one["receptacle"], one.get("marked_a"), one["seen_a"], one["lowers"]) for one in row["seen"]] == [
            ("R1", 20.0, 12.0, True),
            ("R2", 20.0, 40.0, False),
            ("R3", 20.0, 33.0, False),
        ]
        assert row["load_check_request"]["source"]["receptacles"] == [{"id": "R1", "marked": "12 A"}]
        alone = client.post("/v1/load-checks", json=row["load_check_request"]).json()
        assert alone["request_digest"] == row["load_check"]["request_digest"]
        marks = {
            one["receptacle"]: one["marked_a"]
            for case in alone["cases"]
            for result in case["results"]
            for one in result["receptacles"]
        }
        assert marks.get("R1", 12.0) == 12.0
        assert all(mark == 20.0 for name, mark in marks.items() if name != "R1")


THIN: dict[str, Any] = {
    "id": "k",
    "tools": [
        {
            "id": "h",
            "load_class": "heater",
            "supply_options": [{"voltage": "120 V", "power": "1440 W", "plug": "5-15P"}],
            "switch": "positive_on_off",
            "operated": "by_itself",
        }
    ],
    "cords": [{"id": "thin", "length": "100 ft", "size": "16 AWG", "laid": "straight"}],
}
SET: dict[str, Any] = {
    "kind": "engine_generator",
    "voltage": "120 V",
    "technology": "inverter",
    "running": "4000 VA",
    "receptacles": [{"id": "A", "type": "5-20R", "marked": "20 A", "circuit": "C1", "ground_fault": "gfci_class_a"}],
    "reset": {"how": "manual"},
    "neutral_bond": "floating",
}
WARM: dict[str, Any] = {
    "id": "j",
    "cases": [{"id": "warm", "running": ["h"]}],
    "people": 1,
    "conditions": {"place": "open_air", "wet": False, "ambient": "5..25 degC"},
    "code_basis": [],
}


def test_a_change_does_what_it_says(client: TestClient[Any]) -> None:
    """1440 W at 120 V are 12 A, and cords of 16 AWG over 50 ft are marked 10 A (UL 817): another cord holds."""
    asked = {"sources": [{"id": "s", "source": SET}], "kits": [THIN], "jobs": [WARM], "include": ["changes"]}
    [row] = ask(client, **asked)["rows"]
    assert row["verdict"] == "fail"
    told = row["cheapest_change"]
    steps = [(step["op"], step["path"], step.get("value")) for step in told["change"]]
    request = apply_steps(copy.deepcopy(row["load_check_request"]), steps)
    assert request is not None
    after = client.post("/v1/load-checks", json=request).json()
    assert after["verdict"] == told["then"]
    assert after["verdict"]["overall"] == told["verdict"] != "fail"
    sheet = client.post(PATH, json=asked, headers={"accept": "text/csv"})
    line = next(csv.DictReader(io.StringIO(sheet.text)))
    assert (line["cheapest_change"], line["cheapest_change_then"]) == (told["text"], told["verdict"])


def test_a_change_after_which_a_row_fails_is_not_offered(client: TestClient[Any]) -> None:
    """With a second fault that another cord does not mend (600 ft to go, a day without charge, a tool not there)."""
    far = {**WARM, "distance": "600 ft"}
    kit = {**THIN, "connections": [{"plug": "thin", "into": "A"}, {"plug": "h", "into": "thin"}]}
    missing = {**WARM, "cases": [{"id": "warm", "running": ["h", "pump"]}]}
    empty = {**WARM, "day": {"shift": "10 h", "draws": 200}}
    dry = {"id": "s", "source": SET, "fuel": {"in_tank": "0.1 l"}}
    for source, with_kit, job in ((dry, THIN, empty), (dry, kit, far), (dry, THIN, missing)):
        [row] = ask(client, sources=[source], kits=[with_kit], jobs=[job], include=["changes"])["rows"]
        assert (row["verdict"], row["errors"]) == ("fail", [])
        assert "cheapest_change" not in row
    body = {"sources": SOURCES * 1, "kits": [{"id": f"k{n}", "tools": []} for n in range(51)], "include": ["changes"]}
    assert_problem(client.post(PATH, json=body), 422, "too-much-work")


def test_a_change_of_the_day_is_worked_out_with_the_day(client: TestClient[Any]) -> None:
    """600 W for 5 h are 3 kWh; a station of 8 kWh that is a tenth full holds 0.8 kWh, and charging it mends that."""
    heater = {**THIN["tools"][0], "supply_options": [{"voltage": "120 V", "power": "600 W", "plug": "5-15P"}]}
    kit = {"id": "k", "tools": [heater]}
    station = {
        **SET, "kind": "battery_station", "battery": "8 kWh",
        "limits": [{"id": "output", "continuous": "4000 VA"}],
    }  # fmt: skip
    for name in ("technology", "running"):
        del station[name]
    source = {"id": "s", "source": station, "charge": "10 %"}
    day = {"shift": "5 h", "duties": [{"tool": "h", "running": "100 %"}], "draws": 300}
    asked = {"sources": [source], "kits": [kit], "jobs": [{**WARM, "day": day}], "include": ["changes"]}
    [row] = ask(client, **asked)["rows"]
    assert (row["verdict"], row["load_check"]["verdict"]["capacity"]) == ("fail", "pass")
    assert row["fails_first"]["code"] == "energy_runs_out"
    told = row["cheapest_change"]
    assert told["of"] == "energy_budget_request"
    steps = [(step["op"], step["path"], step.get("value")) for step in told["change"]]
    request = apply_steps(copy.deepcopy(row["energy_budget_request"]), steps)
    after = client.post("/v1/energy-budgets", json=request).json()
    assert after["verdict"] == told["energy"]
    assert told["verdict"] != "fail"


def test_what_the_rules_forbid_fails_first(client: TestClient[Any]) -> None:
    """29 CFR 1926.405(a)(2)(ii)(J): flexible cords on a site have an equipment grounding conductor. Nothing trips."""
    drill = {
        "id": "drill",
        "load_class": "hand_drill",
        "insulation": "class_ii",
        "switch": "constant_pressure",
        "restart_protection": True,
        "supply_options": [{"voltage": "120 V", "current": "4 A", "plug": "1-15P"}],
    }
    cord = {"id": "c", "length": "25 ft", "size": "12 AWG", "conductors": 2, "laid": "straight"}
    job = {**WARM, "cases": [{"id": "one", "running": ["drill"]}], "code_basis": ["osha-1926"]}
    kit = {"id": "k", "tools": [drill], "cords": [cord]}
    [row] = ask(client, sources=[{"id": "s", "source": SET}], kits=[kit], jobs=[job])["rows"]
    assert row["load_check"]["verdict"]["code"] == "fail"
    assert "failing_case" not in row
    assert row["fails_first"]["aspect"] == "code"
    assert row["sentence"].startswith("Not allowed by the rules that apply:")


def test_a_danger_stands_behind_what_only_fails(client: TestClient[Any]) -> None:
    """Of two that fail, the one by a label stands before the one that starts a saw by itself, whatever the weights."""
    saw = {
        "id": "saw",
        "load_class": "angle_grinder",
        "switch": "momentary_lock_on",
        "restart_protection": False,
        "supply_options": [{"voltage": "120 V", "current": "12 A", "plug": "5-15P"}],
    }
    weak = {**SET, "running": "600 VA"}
    by_itself = {**SET, "reset": {"how": "automatic", "after": "5 s"}}
    sources = [
        {"id": "danger", "source": by_itself, "noise": "30 dB"},
        {"id": "label", "source": weak, "noise": "90 dB"},
    ]
    job = {**WARM, "cases": [{"id": "one", "running": ["saw"]}]}
    found = ask(client, sources=sources, kits=[{"id": "k", "tools": [saw]}], jobs=[job], weights={"noise_db": 1000.0})
    rows = {row["source"]: row for row in found["rows"]}
    assert [(rows[name]["verdict"], rows[name]["danger"]) for name in ("danger", "label")] == [
        ("fail", True),
        ("fail", False),
    ]
    assert rows["danger"]["score"] > rows["label"]["score"]
    assert (rows["label"]["rank"], rows["danger"]["rank"]) == (1, 2)


def test_what_decides_the_order_does_when_it_is_sent(client: TestClient[Any]) -> None:
    """Each weight that is named is sent as it would be, and then the source that is named comes first."""
    sources = [{**one, "noise": f"{60 - n} dB", "mass": f"{80 + n} kg"} for n, one in enumerate(SOURCES[2:])]
    alike = [{**sources[0], "id": "a"}, {**sources[0], "id": "b", "noise": "59 dB", "mass": "81 kg"}]
    found = ask(client, sources=alike)
    first = next(row for row in found["rows"] if row["rank"] == 1)
    assert first["deciding"]
    for one in first["deciding"]:
        if one["kind"] != "weight":
            continue
        weight = found["weights"][one["criterion"]] * (1.0 + one["change_ratio"])
        then = ask(client, sources=alike, weights={one["criterion"]: weight})["rows"]
        assert next(row["source"] for row in then if row["rank"] == 1) == one["then_first"]


def test_every_form_tells_the_same(client: TestClient[Any]) -> None:
    whole = ask(client)
    body = {"sources": SOURCES, "kits": [CREW], "jobs": [JOB]}
    sent = client.post(PATH, json=body, headers={"accept": "application/x-ndjson"})
    head, *rows, end = [json.loads(line) for line in sent.text.splitlines()]
    assert rows == whole["rows"]
    assert (head["kind"], end["kind"], end["rows"]) == ("head", "end", 4)
    assert head["weights"] == whole["weights"]
    sheet = client.post(PATH, json=body, headers={"accept": "text/csv"})
    *cells, last = list(csv.DictReader(io.StringIO(sheet.text)))
    assert (last["kind"], last["index"]) == ("end", "4")
    assert [(one["source"], one["rank"]) for one in cells] == [(row["source"], str(row["rank"])) for row in rows]
    some = ask(client, rows={"begin": 2, "end": 3})["rows"]
    assert some == whole["rows"][2:3]


@pytest.mark.parametrize(
    ("source", "code", "pointer"),
    [
        ({"noise": "62"}, "not_a_quantity", "/sources/0/noise"),
        ({"noise": "62 dB(A)"}, "not_a_quantity", "/sources/0/noise"),
        ({"mass": "48"}, "unit_missing", "/sources/0/mass"),
        ({"mass": "48 A"}, "wrong_unit", "/sources/0/mass"),
        ({"hire": "45 EUR"}, "not_a_quantity", "/sources/0/hire"),
        ({"hire": "٤٥ EUR/day"}, "not_a_quantity", "/sources/0/hire"),
        ({"charge": "60"}, "unit_missing", "/sources/0/charge"),
    ],
)
def test_a_fault_of_one_source_is_its_own(
    client: TestClient[Any], source: dict[str, Any], code: str, pointer: str
) -> None:
    rows = ask(client, sources=[{**SOURCES[1], **source}, SOURCES[0]])["rows"]
    assert [(one["code"], one["pointer"]) for one in rows[0]["errors"]] == [(code, pointer)]
    assert "rank" not in rows[0]
    assert rows[1]["rank"] == 1


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"weights": {"noise_db": -1.0}}, "out_of_range", "/weights/noise_db"),
        ({"weights": {"colour": 1.0}}, "unknown_member", "/weights/colour"),
        ({"sources": []}, "out_of_range", "/sources"),
    ],
)
def test_a_request_that_makes_no_sense_is_refused(
    client: TestClient[Any], members: dict[str, Any], code: str, pointer: str
) -> None:
    answer = client.post(PATH, json={"sources": SOURCES, "kits": [CREW], "jobs": [JOB], **members})
    assert answer.status_code == 422, answer.text
    assert (code, pointer) in [(one["code"], one["pointer"]) for one in answer.json()["errors"]], answer.text


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"jobs": [{**JOB, "usage": [{"case": "x", "per_month": "4 h"}]}]}, "unknown_case", "/jobs/0/usage/0/case"),
        (
            {"jobs": [{**JOB, "usage": [{"case": "cutting", "per_month": "4"}]}]},
            "unit_missing",
            "/jobs/0/usage/0/per_month",
        ),
        ({"jobs": [{**JOB, "usage": JOB["usage"][:1] * 2}]}, "repeated_member", "/jobs/0/usage/1/case"),
        ({"jobs": [{**JOB, "usage": {}}]}, "wrong_type", "/jobs/0/usage"),
    ],
)
def test_a_fault_of_one_job_is_its_own(
    client: TestClient[Any], members: dict[str, Any], code: str, pointer: str
) -> None:
    other = {**JOB, "id": "other"}
    rows = ask(client, sources=SOURCES[:1], jobs=[*members["jobs"], other])["rows"]
    assert [(one["code"], one["pointer"]) for one in rows[0]["errors"]] == [(code, pointer)]
    assert "verdict" not in rows[0]
    assert (rows[1]["job"], rows[1]["errors"], rows[1]["rank"]) == ("other", [], 1)
