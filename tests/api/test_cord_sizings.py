"""Does POST /v1/cord-sizings answer every question with an answer or a problem that points at the fault?"""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from ampwright.contract.cord_sizings import CordSizingRequest
from ampwright.studies.cord_sizing import CordSizingStudy
from ampwright.studies.cost import TooMuchWork
from litestar.testing import TestClient
from service_with_demo import demo_client

SOURCE: dict[str, Any] = {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1", "type": "5-20R"}]}
SAW: dict[str, Any] = {
    "id": "saw",
    "load_class": "circular_saw",
    "supply_options": [{"voltage": "120 V", "current": "15 A", "plug": "5-15P"}],
}
SMALLEST: dict[str, Any] = {"source": SOURCE, "tool": SAW}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("cord-sizings")) as opened:
        yield opened


def ask(client: TestClient[Any], **members: Any) -> dict[str, Any]:
    answer = client.post("/v1/cord-sizings", json={**SMALLEST, **members})
    assert answer.status_code == 200, answer.text
    body: dict[str, Any] = answer.json()
    return body


def test_a_size_for_a_distance(client: TestClient[Any]) -> None:
    body = ask(client, distance="100 ft", code_basis=["osha-1926", "nec-2023"])
    assert next(iter(body)) == "verdict"
    assert "no permission to energise" in body["notice"]
    codes = [choice["code"] for choice in body["choices"]]
    assert "smallest" in codes
    assert "careful" in codes
    rows = {row["id"]: row for row in body["rows"]}
    for choice in body["choices"]:
        assert choice["drop_v"]["low"] <= choice["drop_v"]["typical"] <= choice["drop_v"]["high"]
        assert choice["row"] in rows
    named = {item["id"] for item in body["basis"]}
    for row in rows.values():
        for line in row["lines"]:
            assert set(line["basis"]) <= named
            if "margin" in line:
                left = (line["limit"] - line["value"]["high"], line["value"]["low"] - line["limit"])
                assert any(line["margin"] == pytest.approx(value, abs=2e-3) for value in left)
    assert not [item for item in body["assumptions"] if item["pointer"].startswith(("/tools", "/connections"))]


def test_the_same_question_has_the_same_bytes(client: TestClient[Any]) -> None:
    one, other = (client.post("/v1/cord-sizings", json={**SMALLEST, "distance": "30 m"}).content for _ in range(2))
    assert one == other


def test_catalogue_entries_are_used_and_told(client: TestClient[Any]) -> None:
    body = ask(
        client,
        source={"kind": "catalogue", "entry": "van-city"},
        tool={"id": "saw", "entry": "circular-saw-185mm"},
        cords=[{"id": "heavy", "entry": "cord-12-50"}, {"id": "light", "entry": "cord-16-50"}],
        distance="40 ft",
    )
    assert [(item["kind"], item["pointer"]) for item in body["used_entries"]] == [
        ("cord", "/cords/0/entry"),
        ("cord", "/cords/1/entry"),
        ("power-source", "/source/entry"),
        ("tool-profile", "/tool/entry"),
    ]
    assert body["catalogue_release"] == 1
    assert {row["id"] for row in body["rows"]} == {"heavy", "light"}
    for item in (*body["findings"], *body["assumptions"]):
        assert not item["pointer"].startswith("/tools")


@pytest.mark.parametrize(
    ("members", "pointer", "code"),
    [
        ({"distance": "0 ft"}, "/distance", "not_above_zero"),
        ({"distance": "100"}, "/distance", "unit_missing"),
        ({"distance": "100'"}, "/distance", "not_a_quantity"),
        ({"sizes": ["11.5 AWG"]}, "/sizes/0", "not_a_size"),
        ({"sizes": ["99 AWG"]}, "/sizes/0", "unknown_size"),
        ({"sizes": ["3 mm2"]}, "/sizes/0", "unknown_size"),
        ({"sizes": ["12/3"]}, "/sizes/0", "not_a_size"),
        ({"sizes": ["12 AWG", "12 AWG"]}, "/sizes/1", "repeated_member"),
        ({"cords": [{"id": "c", "length": "0 m"}]}, "/cords/0/length", "not_above_zero"),
        ({"cords": [{"id": "c", "type": "SJQW"}]}, "/cords/0/type", "unknown_cord_type"),
        ({"cords": [{"id": "c"}], "run": ["d"]}, "/run/0", "unknown_plug"),
        ({"cords": [{"id": "c"}], "run": ["c", "c"]}, "/run/1", "plugged_in_twice"),
        ({"cords": [{"id": "c"}, {"id": "c"}]}, "/cords/1/id", "repeated_id"),
        ({"receptacle": "R9"}, "/receptacle", "unknown_receptacle"),
        ({"source": {**SMALLEST["source"], "receptacles": []}}, "/source/receptacles", "no_receptacle"),
        ({"new_cord": {"drum_layers": 3}}, "/new_cord/drum_layers", "drum_layers_without_drum"),
        ({"new_cord": {"outlet": "5-15P"}}, "/new_cord/outlet", "plug_where_receptacle_belongs"),
        ({"new_cord": {"marked": "13"}}, "/new_cord/marked", "unit_missing"),
        ({"conditions": {"ambient": "-99 degC"}}, "/conditions/ambient", "out_of_range"),
        ({"tool": {"id": "x", "entry": "no-such-tool"}}, "/tool/entry", "unknown_entry"),
        ({"cords": [{"id": "c", "entry": "no-such-cord"}]}, "/cords/0/entry", "unknown_entry"),
        ({"tool": {**SAW, "load_class": "saw"}}, "/tool/load_class", "unknown_load_class"),
        ({"distanse": "10 m"}, "/distanse", "unknown_member"),
        ({"code_basis": ["nec-1899"]}, "/code_basis/0", "unknown_code_basis"),
    ],
)
def test_a_refused_question_points_at_its_fault(
    client: TestClient[Any], members: dict[str, Any], pointer: str, code: str
) -> None:
    answer = client.post("/v1/cord-sizings", json={**SMALLEST, **members})
    assert answer.status_code == 422, answer.text
    assert answer.headers["content-type"].startswith("application/problem+json")
    assert (pointer, code) in {(item["pointer"], item["code"]) for item in answer.json()["errors"]}, answer.text


def test_all_faults_come_at_once(client: TestClient[Any]) -> None:
    answer = client.post(
        "/v1/cord-sizings",
        json={**SMALLEST, "distance": "0 m", "sizes": ["13.5 AWG"], "cords": [{"id": "c", "length": "-1 m"}]},
    )
    assert [item["pointer"] for item in answer.json()["errors"]] == ["/cords/0/length", "/distance", "/sizes/0"]


def test_what_cannot_be_done_is_an_answer(client: TestClient[Any]) -> None:
    body = ask(client, distance="3000 m")
    assert body["verdict"]["capacity"] == "fail"
    assert body["choices"] == []
    assert "no_cord_is_enough" in {item["code"] for item in body["findings"]}


def test_the_dearest_question_is_bounded(client: TestClient[Any]) -> None:
    # Sixty cords of which any three reach, nothing known of any: a caller may send it, and gets it within seconds.
    cords = [{"id": f"c{n}", "length": f"{20 + n % 7} m", "count": 9} for n in range(60)]
    began = time.perf_counter()
    body = ask(client, distance="55 m", cords=cords, sizes=[f"{n} AWG" for n in range(18, 1, -1)])
    assert time.perf_counter() - began < 20.0
    assert body["runs_left_out"] > 0
    assert 60 + 17 < len(body["rows"]) <= 60 + 17 + 60
    assert any(row["kind"] == "run" for row in body["rows"])


CORD = {"id": "c", "length": "10 m", "size": "1.5 mm2", "type": "H05VV-F", "laid": "straight"}
ON_SITE = {"tool": {**SAW, "insulation": "class_ii"}, "code_basis": ["osha-1926"]}


@pytest.mark.parametrize(
    ("members", "code"),
    [
        # sixty cords plugged into one another: however thick, every joint is a contact that can get hot
        ({"cords": [{**CORD, "size": "16 mm2", "count": 60}], "run": ["c"] * 60}, "many_connections"),
        # -60 C: beyond what any flexible jacket bears to be bent in
        ({"distance": "20 m", "conditions": {"ambient": "-60 degC"}}, "cord_stiff_in_cold"),
        # a light indoor type out in the rain, and on a construction site
        ({"cords": [CORD], "run": ["c"], "conditions": {"place": "open_air", "wet": True}}, "cord_not_for_outdoors"),
        ({"cords": [CORD], "run": ["c"], **ON_SITE}, "cord_not_hard_usage"),
    ],
    ids=["sixty connections", "-60 C", "indoor type in the wet", "light type on a site"],
)
def test_an_odd_question_gets_a_finding_with_its_reason(
    client: TestClient[Any], members: dict[str, Any], code: str
) -> None:
    body = ask(client, **members)
    found = next(item for item in body["findings"] if item["code"] == code)
    assert found["text"]
    assert found["what_to_do"]
    assert body["verdict"]["overall"] != "pass"


def test_a_question_dearer_than_the_limit_is_refused() -> None:
    question = msgspec.convert(
        {**SMALLEST, "distance": "55 m", "cords": [{"id": f"c{n}"} for n in range(60)]}, CordSizingRequest
    )
    with pytest.raises(TooMuchWork):
        CordSizingStudy(None, cost_limit_units=100_000).run(question)
