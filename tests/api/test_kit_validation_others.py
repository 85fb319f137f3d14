"""Does a row tell which other source of the yard would do, and a crew all that fails?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import anyio
import pytest
from ampwright.api import matrix_streams
from ampwright.api.admission import CancelFlag
from ampwright.contract.kit_validations import KitValidationRequest
from ampwright.studies.kit_validation import MOST_BESIDE, KitValidation
from api.test_kit_validations import GENERATOR, HEATER, PATH
from litestar.testing import TestClient
from msgspec import convert
from service_with_demo import demo_client

WEAK = {**GENERATOR, "running": "500 VA"}  # 600 W are more
SOURCES = [{"id": "weak", "source": WEAK}, {"id": "strong", "source": GENERATOR}]
KIT = {"id": "k", "tools": [{"id": "h", **HEATER}]}
JOB: dict[str, Any] = {"id": "j", "cases": [{"id": "one", "running": ["h"]}], "code_basis": []}

DRY = {"place": "open_air", "wet": False, "ambient": "5..25 degC"}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("kit-validation-others")) as opened:
        yield opened


def ask(client: TestClient[Any], **members: Any) -> dict[str, Any]:
    answer = client.post(PATH, json={"sources": SOURCES, "kits": [KIT], "jobs": [JOB], **members})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def test_a_source_that_the_job_does_not_name_is_told_where_none_that_it_names_will_do(client: TestClient[Any]) -> None:
    [own] = ask(client, jobs=[{**JOB, "sources": ["weak"]}])["rows"]
    whole = ask(client)["rows"]
    assert own["others"] == whole[0]["others"]
    assert [one["source"] for one in own["others"]] == ["strong"]
    # nobody is sent elsewhere from a source that does, and one that cannot be read is no help
    [good] = ask(client, jobs=[{**JOB, "sources": ["strong"]}])["rows"]
    assert good["others"] == []
    unread = ask(client, sources=[SOURCES[0], {"id": "strong"}], jobs=[{**JOB, "sources": ["weak"]}])["rows"]
    assert [row["others"] for row in unread] == [[]]


def test_rows_beside_are_counted_nowhere_and_bounded() -> None:
    yard = [{"id": f"w{n}", "source": {**WEAK, "running": f"{300 + n} VA"}} for n in range(40)]
    request = convert({"sources": yard, "kits": [KIT], "jobs": [{**JOB, "sources": ["w0"]}]}, KitValidationRequest)
    made = KitValidation(None, request)
    assert len([row for row in made.made() if row is not None]) == 1
    assert made.cells.computed == 1 + MOST_BESIDE
    assert made.counts.failing == 1


def test_the_crew_hears_what_fails_beside_what_it_lacks(client: TestClient[Any]) -> None:
    """With one outlet for two heaters, and a source of 500 VA for the 600 W of each, another outlet mends nothing."""
    one = {**WEAK, "receptacles": WEAK["receptacles"][:1]}  # type: ignore[index]
    kit = {"id": "k", "tools": [{"id": "h", **HEATER}, {"id": "i", **HEATER}]}
    for cases in ({}, {"cases": [{"id": "a", "running": ["h"]}, {"id": "b", "running": ["h", "i"]}]}):
        job = {name: value for name, value in JOB.items() if name != "cases"} | cases
        [row] = ask(client, sources=[{"id": "s", "source": one}], kits=[kit], jobs=[job])["rows"]
        assert row["verdict"] == "fail"
        assert row["load_check"]["verdict"]["capacity"] == "fail"
        assert "1 more outlet" in row["sentence"]
        assert row["finding"]["text"] in row["sentence"]


def test_a_number_beyond_all_bounds_is_told_where_it_stands(client: TestClient[Any]) -> None:
    body = (
        b'{"sources":[{"id":"s","source":{"kind":"vehicle","voltage":"120 V"}}],"kits":[{"id":"a","tools":'
        b'[{"id":"t","quantity":%s}]},{"id":"b","tools":[]}]}'
    )
    for number in (b"1e999", b"-1e999", b"9" * 5000):
        answer = client.post(PATH, content=body % number, headers={"content-type": "application/json"})
        assert answer.status_code == 200, answer.text
        first, second = answer.json()["rows"]
        assert [(one["pointer"], one["code"]) for one in first["errors"]] == [
            ("/kits/0/tools/0/quantity", "out_of_range")
        ]
        assert second["errors"] == []
    outside = body.replace(b'"kits"', b'"rows":{"begin":1e999},"kits"') % b"1e999"
    refused = client.post(PATH, content=outside, headers={"content-type": "application/json"})
    assert refused.status_code == 422
    assert [one["pointer"] for one in refused.json()["errors"]] == ["/rows/begin"]


def test_rows_of_one_answer_leave_the_lane_to_others_in_between(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(matrix_streams, "SLICE_S", 0.0)
    kits = [{**KIT, "id": f"k{n}"} for n in range(5)]
    request = convert({"sources": SOURCES, "kits": kits, "jobs": [JOB]}, KitValidationRequest)
    turns: list[bool] = []

    class Call:
        cancel = CancelFlag()

        @staticmethod
        async def run(lane: str, work: Any, *arguments: Any, let_in: bool = False) -> Any:
            assert lane == "long"
            turns.append(let_in)
            return work(*arguments)

    made, rows = anyio.run(matrix_streams.all_rows, lambda: KitValidation(None, request), Call)
    assert [row.id for row in rows] == [f"j/k{n}/{source}" for n in range(5) for source in ("weak", "strong")]
    assert made.sent == 10
    # the first turn is asked for like any other; whoever was let in goes on, a row at a time
    assert turns[0] is False
    assert len(turns) > 10
    assert all(turns[1:])


def test_what_decides_the_day_is_the_question_of_the_row(client: TestClient[Any]) -> None:
    """How large the tank is was not said: the energy budget asks for it, and so do the row and its sentence."""
    day = {"shift": "12 h", "draws": 300}
    [row] = ask(client, sources=SOURCES[1:], jobs=[{**JOB, "day": day, "conditions": DRY}], include=["requests"])[
        "rows"
    ]
    budget = client.post("/v1/energy-budgets", json=row["energy_budget_request"]).json()
    assert (row["verdict"], budget["verdict"]["overall"]) == ("unknown", "unknown")
    assert row["load_check"]["verdict"]["overall"] in ("pass", "marginal")
    asked = next(one for one in budget["assumptions"] if one["id"] == budget["question"])
    assert (row["question"]["code"], asked["code"]) == ("tank_size", "tank_size")
    assert row["question"]["swings_verdict_to"] == asked["swings_verdict_to"]
    assert row["sentence"] == f"Not known yet for the day. {asked['how_to_find_out']}"
    assert [one["pointer"] for one in row["invalidated_by"] if one["code"] == "tank_size"] == ["/sources/0/source/tank"]


def test_a_tool_that_is_plugged_in_nowhere_is_named(client: TestClient[Any]) -> None:
    kit = {"id": "k", "tools": [{"id": "h", **HEATER}, {"id": "i", **HEATER}]}
    kit["connections"] = [{"plug": "h", "into": "A"}]
    [row] = ask(client, sources=SOURCES[1:], kits=[kit], jobs=[{"id": "j", "code_basis": [], "conditions": DRY}])[
        "rows"
    ]
    assert row["verdict"] == "unknown"
    assert row["sentence"] == "Not known yet for i: plugged in nowhere, and so not looked at."


def test_a_cord_is_missing_and_no_outlet_where_a_receptacle_is_left(client: TestClient[Any]) -> None:
    """Two receptacles, two heaters 80 ft away, and one cord that is long enough."""
    cords = [
        {"id": name, "length": f"{far} ft", "size": "12 AWG", "laid": "straight"}
        for name, far in (("c", 25), ("d", 100))
    ]
    kit = {"id": "k", "tools": [{"id": "h", **HEATER}, {"id": "i", **HEATER}], "cords": cords}
    job = {**JOB, "cases": [{"id": "both", "running": ["h", "i"]}], "distance": "80 ft"}
    [row] = ask(client, sources=SOURCES[1:], kits=[kit], jobs=[job])["rows"]
    assert [(one["item"], one["quantity"]) for one in row["missing"]] == [("longer_cord", 1)]
    # with one receptacle there is none to lay another cord from
    one = {"id": "s", "source": {**GENERATOR, "receptacles": GENERATOR["receptacles"][:1]}}  # type: ignore[index]
    [row] = ask(client, sources=[one], kits=[kit], jobs=[job])["rows"]
    assert [(one["item"], one["quantity"]) for one in row["missing"]] == [("outlet", 1)]
