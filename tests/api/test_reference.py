"""Do the reference pages serve what answers lean on, and may they be kept?"""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from ampwright.contract.reference_words import WORDS
from ampwright.engine.calculations.choosing.kit_validation import INVALIDATORS
from ampwright.engine.calculations.choosing.missing_items import MISSING_ITEMS
from ampwright.engine.calculations.cord_sizing import cord_sizing_choice, cord_sizing_reach, cord_sizing_report
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import LINE_CODES
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import LESS_CORD, STRAIGHT_IN
from ampwright.engine.calculations.energy import energy_powered
from ampwright.engine.calculations.load_check import load_check, load_check_evaluation, not_assessed
from ampwright.engine.calculations.load_check.load_check_faults import PROTECTS
from ampwright.engine.calculations.outlet_plan import outlet_plan_report
from ampwright.engine.calculations.outlet_plan.outlet_plan_reasons import PLAN_REASONS
from ampwright.engine.calculations.starts.start_runs import OUTCOMES
from ampwright.engine.site.settle_cord import CAPACITY_FROM
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
    assert problems == {item["code"] for item in client.get("/problems").json()["items"]}
    lists = client.get("/v1/reference/words").json()["items"]
    words = {item["name"]: {word["code"] for word in item["words"]} for item in lists}
    assert words["cord_sizing_line"] == set(LINE_CODES)
    assert words["start_outcome"] == {*OUTCOMES.values(), "trips", "no_start", "not_assessed"}
    assert words["fault_outcome"] == set(PROTECTS)
    assert words["basis_status"] == set(STATUSES)
    assert words["outlet_plan_reason"] == set(PLAN_REASONS)
    assert words["missing_item"] == set(MISSING_ITEMS)
    assert words["would_invalidate"] == set(INVALIDATORS)


def test_reasons_of_plans_have_their_meanings() -> None:
    """Every code that is told of a supply option is a literal where it is told."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(outlet_plan_report._why)))
    pairs = [node.value for node in ast.walk(tree) if isinstance(node, ast.Return)]
    first = [pair.elts[0] for pair in pairs if isinstance(pair, ast.Tuple)]
    told = {one.value for one in first if isinstance(one, ast.Constant)}
    assert told == set(WORDS["outlet_plan_choice"])


def test_words_written_by_hand_are_those_the_engine_says() -> None:
    # Of the capacity of a cord, and of what a limit or a verdict comes from, the engine keeps the list.
    assert set(WORDS["cord_capacity_from"]) == set(CAPACITY_FROM)
    assert set(WORDS["cord_sizing_limit_from"]) == {*CAPACITY_FROM, STRAIGHT_IN, LESS_CORD}
    assert set(WORDS["cord_sizing_reach"]) == set(cord_sizing_reach.OUTCOMES)
    assert set(WORDS["cord_sizing_choice"]) == set(cord_sizing_choice.CHOICES)


def test_every_part_that_may_be_left_open_has_its_word_and_no_other_has() -> None:
    # The parts are said by literals in a few functions: those of the engine's source, found by their syntax.
    said: set[str] = set()
    for function, where in (
        (not_assessed.what_is_not_assessed, "found"),
        (load_check_evaluation.Evaluation.left_out.fget, "found"),
        (load_check.judged, "left_out"),
        (energy_powered.powered, "left_out"),
        (cord_sizing_report.report, "not_assessed"),
    ):
        said |= _literals(function, where)
    assert said == set(WORDS["not_assessed"])


def _literals(function: Callable[..., Any], name: str) -> set[str]:
    """Strings that a function puts into the collection of some name."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(function)))
    found: set[str] = set()
    for node in ast.walk(tree):
        value: ast.AST | None = None
        if isinstance(node, ast.Assign) and any(isinstance(to, ast.Name) and to.id == name for to in node.targets):
            value = node.value
        elif isinstance(node, ast.AnnAssign | ast.AugAssign) and isinstance(node.target, ast.Name):
            value = node.value if node.target.id == name else None
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "append":
            value = node.args[0] if isinstance(node.func.value, ast.Name) and node.func.value.id == name else None
        elif isinstance(node, ast.keyword) and node.arg == name:
            value = node.value
        for inner in ast.walk(value) if value is not None else ():
            if isinstance(inner, ast.Constant) and isinstance(inner.value, str):
                found.add(inner.value)
    return found
