"""Do the reference pages serve what answers lean on, and may they be kept?"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from ampwright.engine.calculations.cord_sizing_lines import LINE_CODES
from ampwright.engine.calculations.load_check_faults import PROTECTS
from ampwright.engine.calculations.start_runs import OUTCOMES
from ampwright.engine.standards.loader import STATUSES
from litestar.testing import TestClient
from service_with_demo import demo_client

PAGES = (
    "findings",
    "assumptions",
    "fault-codes",
    "problem-codes",
    "words",
    "units",
    "plugs",
    "load-classes",
    "citations",
    "rules",
)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("reference")) as opened:
        yield opened


@pytest.mark.parametrize("page", PAGES)
def test_each_page_answers_once_and_is_confirmed_by_its_tag(client: TestClient, page: str) -> None:
    first = client.get(f"/v1/reference/{page}")
    assert first.status_code == 200
    assert first.json()["items"]
    again = client.get(f"/v1/reference/{page}", headers={"If-None-Match": first.headers["etag"]})
    assert again.status_code == 304
    assert again.content == b""


def test_a_page_of_this_version_may_be_kept_for_ever_and_one_of_another_is_not_here(client: TestClient) -> None:
    from ampwright.studies.load_check import engine_version

    kept = client.get("/v1/reference/units", params={"engine_version": engine_version()})
    assert "immutable" in kept.headers["cache-control"]
    other = client.get("/v1/reference/units", params={"engine_version": "99.0"})
    assert other.status_code == 404
    assert other.headers["content-type"].startswith("application/problem+json")


def test_a_unit_is_served_with_its_factor(client: TestClient) -> None:
    # 1 hp = 745.69987 W (NIST SP 811, appendix B.8: horsepower, 550 ft lbf/s); 1 ft = 0.3048 m exactly (same)
    rows = {item["dimension"]: item for item in client.get("/v1/reference/units").json()["items"]}
    factors = {unit["label"]: unit["factor"] for unit in rows["power"]["units"]}
    assert factors["hp"] == pytest.approx(745.6999, abs=1e-4)
    lengths = {unit["label"]: unit["factor"] for unit in rows["length"]["units"]}
    assert lengths["ft"] == pytest.approx(0.3048, abs=1e-15)


def test_plug_fit_is_served(client: TestClient) -> None:
    # ANSI/NEMA WD 6: a 5-15P enters the T-slot of a 5-20R, a 5-20P does not enter a 5-15R
    rows = {item["designation"]: item for item in client.get("/v1/reference/plugs").json()["items"]}
    assert "5-20R" in rows["5-15P"]["enters"]
    assert "5-15R" not in rows["5-20P"]["enters"]


def test_every_cited_table_is_served_and_an_unknown_one_is_a_problem(client: TestClient) -> None:
    listed = [item for item in client.get("/v1/reference/citations").json()["items"] if item["has_table"]]
    assert listed
    for item in listed:
        table = client.get(f"/v1/reference/tables/{item['key']}").json()
        assert table["citation"]["key"] == item["key"]
        assert table["rows"]
    assert client.get("/v1/reference/tables/none").status_code == 404


def test_every_rule_layer_is_served_with_its_clauses(client: TestClient) -> None:
    for item in client.get("/v1/reference/rules").json()["items"]:
        layer = client.get(f"/v1/reference/rules/{item['key']}").json()
        assert layer["layer"] == item
        assert all(clause["place"] for clause in layer["clauses"])
    assert client.get("/v1/reference/rules/none").status_code == 404


def test_every_finding_is_served_with_meaning_basis_per_jurisdiction_and_what_to_do(client: TestClient) -> None:
    rows = {item["code"]: item for item in client.get("/v1/reference/findings").json()["items"]}
    layers = {item["key"]: item["country"] for item in client.get("/v1/reference/rules").json()["items"]}
    for row in rows.values():
        assert row["meaning"], row["code"]
        assert row["what_to_do"], row["code"]
        assert (row["grounds"] == "rules") == bool(row["asked_by"]), row["code"]
        for asked in row["asked_by"]:
            assert asked["place"]
            assert set(asked["code_bases"]) <= set(layers)
            assert asked["countries"] == [layers[key] for key in asked["code_bases"] if layers[key]]
    # 29 CFR 1926.404(b)(1)(ii) and NEC 590.6(A)(1), verified: the same protection by two jurisdictions' clauses
    asked = {(one["code_bases"][0], one["place"]) for one in rows["ground_fault_protection_missing"]["asked_by"]}
    assert {("osha-1926", "404(b)(1)(ii)"), ("nec-2023", "590.6(A)(1)")} <= asked


def test_every_problem_type_and_open_word_is_served(client: TestClient) -> None:
    problems = {item["code"] for item in client.get("/v1/reference/problem-codes").json()["items"]}
    assert problems == {item["code"] for item in client.get("/problems").json()["problem_types"]}
    lists = client.get("/v1/reference/words").json()["items"]
    words = {item["name"]: {word["code"] for word in item["words"]} for item in lists}
    assert words["cord_sizing_line"] == set(LINE_CODES)
    assert words["start_outcome"] == {*OUTCOMES.values(), "trips", "no_start", "not_assessed"}
    assert words["fault_outcome"] == set(PROTECTS)
    assert words["basis_status"] == set(STATUSES)
