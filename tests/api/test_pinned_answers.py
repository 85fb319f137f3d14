"""Does every calculation say what it rests on: the same bytes for ever from one release, and what was withdrawn since?

Whatever operation answers with `used_entries` is held to it; one without a question here fails.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.app import RESOURCES
from ampwright.catalogue.demo_data import demo_requests
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import head, list_revisions
from ampwright.catalogue.withdrawals import withdraw
from ampwright.contract.document_bodies import decode_document
from ampwright.studies.catalogue_writing import prepared, write_document
from catalogue_service import load_demo_into, opened, servers, service, serving, url

__all__ = ["servers", "service", "url"]

JOB: dict[str, Any] = json.loads(demo_requests()["j1-shelter-frame-van-panel"])
TOOL = "circular-saw-185mm"
QUESTIONS: dict[str, dict[str, Any]] = {
    "/v1/load-checks": JOB,
    "/v1/energy-budgets": JOB,
    "/v1/stop-diagnoses": {**JOB, "stopped": {"running": ["saw"], "after": "4 min"}},
    "/v1/cord-sizings": {
        "source": JOB["source"],
        "tool": {"id": "saw", "entry": TOOL},
        "distance": "20 m",
    },
    "/v1/outlet-plans": {"source": JOB["source"], "tools": [{"id": "saw", "entry": TOOL}]},
}
CALCULATIONS = sorted(
    operation.path
    for resource in RESOURCES
    for operation in resource
    if operation.method == "POST" and "used_entries" in getattr(operation.answer, "__struct_fields__", ())
)


def test_every_calculation_has_a_question_here() -> None:
    assert sorted(QUESTIONS) == CALCULATIONS


@pytest.fixture(scope="module")
def told(servers: Any) -> Iterator[dict[str, dict[str, Any]]]:
    """By database: the answers before, after fifty more releases and a withdrawal, and from another process."""
    found: dict[str, dict[str, Any]] = {}
    urls = []
    for backend in ("sqlite", "postgresql"):
        url = servers.migrated_url(backend)
        urls.append(url)
        found[backend] = asked(url)
    yield found
    for url in urls:
        servers.give_back(url)


def asked(url: str) -> dict[str, Any]:
    load_demo_into(url)
    found: dict[str, Any] = {}
    with serving(url, releases_in_memory=2) as service:
        found["first"] = answers(service, {})
        stated = json.loads(found["first"]["/v1/load-checks"])["withdrawals_as_of"]
        pin = {"catalogue_release": 1, "withdrawals_as_of": stated}
        found["before"] = answers(service, pin)
        with opened(url) as database:
            for number in range(1, 51):
                made = head(database, "tool-profile", TOOL)
                assert made is not None
                document = decode_document("tool-profile", made.format, made.body)
                changed = type(document)(
                    **{name: getattr(document, name) for name in document.__struct_fields__}
                    | {"name": f"saw, plate read {number} times"}
                )
                write_document(database, prepared("tool-profile", TOOL, changed, why="plate read again", who="test"))
                cut_release(database, note=f"number {number}", who="test")
            assert len(list_revisions(database, "tool-profile", TOOL, limit=100)) == 51
            withdraw(database, "tool-profile", TOOL, 1, reason="wrong plate", who="safety")
        found["after"] = answers(service, pin)
    with serving(url) as another:  # a worker that has nothing in memory
        found["elsewhere"] = answers(another, pin)
        found["warned"] = answers(another, {"catalogue_release": 1})
        found["newest"] = answers(another, {})
    return found


def answers(service: Any, pin: dict[str, Any]) -> dict[str, bytes]:
    found = {}
    for path, question in QUESTIONS.items():
        answer = service.post(path, json={**question, **pin})
        assert answer.status_code == 200, answer.text
        found[path] = answer.content
    return found


def findings_of(answer: dict[str, Any]) -> list[dict[str, Any]]:
    """Findings of an answer, or of the load checks that each of its plans comes with."""
    return [
        *answer.get("findings", []),
        *(one for plan in answer.get("plans", []) for one in plan["load_check"]["findings"]),
    ]


@pytest.mark.parametrize("path", CALCULATIONS)
def test_a_pinned_answer_keeps_its_bytes_on_both_databases(told: dict[str, dict[str, Any]], path: str) -> None:
    pinned = {when: told["sqlite"][when][path] for when in ("before", "after", "elsewhere")}
    assert pinned["after"] == pinned["before"]
    assert pinned["elsewhere"] == pinned["before"]
    for when, content in pinned.items():
        assert told["postgresql"][when][path] == content, when
    assert json.loads(pinned["before"])["catalogue_release"] == 1
    assert json.loads(told["sqlite"]["newest"][path])["catalogue_release"] == 51


@pytest.mark.parametrize("backend", ["sqlite", "postgresql"])
@pytest.mark.parametrize("path", CALCULATIONS)
def test_what_was_withdrawn_later_is_told_with_an_old_release(
    told: dict[str, dict[str, Any]], path: str, backend: str
) -> None:
    quiet, warned, newest = (json.loads(told[backend][when][path]) for when in ("before", "warned", "newest"))
    used = [one for one in warned["used_entries"] if one["entry"] == TOOL]
    assert [(one["revision"], one["withdrawn"]) for one in used] == [(1, "wrong plate")]
    said = [one for one in findings_of(warned) if one["code"] == "entry_withdrawn"]
    assert {one["pointer"] for one in said} == {used[0]["pointer"]}
    assert "wrong plate" in said[0]["text"]
    assert warned["verdict"]["overall"] != "pass"
    for answer in (quiet, newest):  # by then nothing was; revision 51 stands
        assert not any(one["code"] == "entry_withdrawn" for one in findings_of(answer))
