"""Do hostile names, keys and sheets leave the catalogue sound, and does every fault say what to do, on both databases?

Refused characters: NUL (PostgreSQL documentation, 8.3, stores none), controls and bidirectional overrides (Unicode
Technical Report 36, 2.9; CVE-2021-42574). Status 201: RFC 9110, 15.3.2.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.app import RESOURCES
from api.trial_resource import assert_problem
from catalogue_service import SAW, VAN, load_demo_into, new, revised, servers, service, serving, url
from litestar.testing import TestClient

__all__ = ["servers", "service", "url"]
Service = TestClient[Any]
TOOLS = "/v1/tool-profiles"
SHEET = "/v1/catalogue-sheets/tool-profile"
HEADER = "entry,name,origin,load_class,voltage,plug,current\n"


def send(service: Service, text: str, **more: Any) -> Any:
    return service.post(SHEET, json={"csv": text, "why": "the list", "by": "fleet desk", **more})


@pytest.mark.parametrize("bad", ["\x00", "\u202e", "\u2066", "\x1b[31m", "\x7f", "\x85", "\u2028", "\ud800"])
def test_no_text_may_show_other_than_it_is(service: Service, bad: str) -> None:
    text = f"saw{bad}was"
    for body in (
        new("saw", {**SAW, "name": text}),
        new("saw", SAW, why=text),
        new("saw", SAW, by=text),
        new(text, SAW),
        new("saw", {**SAW, "observations": [{"note": text}]}),
    ):
        answer = service.post(TOOLS, content=_json(body), headers={"content-type": "application/json"})
        assert answer.status_code in (400, 422), answer.text
    assert service.get(TOOLS).json()["items"] == []
    assert service.post(TOOLS, json=new("saw", SAW)).status_code == 201
    for path, body in (
        (f"{TOOLS}/saw/withdrawals", {"why": text, "by": "safety"}),
        ("/v1/catalogue-releases", {"note": text, "by": "fleet desk"}),
    ):
        answer = service.post(path, content=_json(body), headers={"content-type": "application/json"})
        assert answer.status_code in (400, 422), answer.text
    assert service.get(f"{TOOLS}/saw").json()["status"] == "approved"
    sheet = f"{HEADER}drill,{text},nameplate,circular_saw,120 V,5-15P,5 A\n"
    answer = service.post(
        SHEET,
        content=_json({"csv": sheet, "why": "x", "by": "y", "dry_run": True}),
        headers={"content-type": "application/json"},
    )
    assert answer.status_code in (400, 422) or answer.json()["faults"], answer.text


def _json(body: dict[str, Any]) -> bytes:
    import json

    return json.dumps(body).encode()  # escapes what is beyond ASCII, halves of surrogate pairs too


@pytest.mark.parametrize(
    "slug", ["SAW", "Saw", "saw ", " saw", "saw_1", "säge", "s\u0430w", "\u017faw", "-saw", "saw--1", "a" * 81, ""]
)
def test_keys_that_look_alike_cannot_be(service: Service, slug: str) -> None:
    # a Cyrillic a and a long s are among them: keys are plain ASCII, so two that look alike are alike
    assert service.post(TOOLS, json=new(slug, SAW)).status_code == 422
    assert service.get(TOOLS).json()["items"] == []


def test_the_longest_key_is_kept_whole_and_one_longer_is_nowhere(service: Service) -> None:
    longest = "a" * 80
    made = service.post(TOOLS, json=new(longest, SAW))
    assert made.status_code == 201
    assert service.get(made.headers["location"]).json()["entry"] == longest
    for slug in (longest + "a", "a" * 4_000, longest.upper(), "%00", "%ff", "..%2f..%2fx"):
        assert service.get(f"{TOOLS}/{slug}").status_code in (400, 404, 414, 422)
    page = service.get(TOOLS, params={"limit": 1}).json()
    assert page["items"][0]["entry"] == longest


def test_names_are_one_however_their_letters_are_written(service: Service) -> None:
    # U+00E4 and U+0061 U+0308 are canonically equivalent (Unicode Standard Annex 15, figure 3)
    assert service.post(TOOLS, json=new("saw", {**SAW, "name": "Kreissa\u0308ge"})).status_code == 201
    again = service.post(TOOLS, json=new("saw", {**SAW, "name": "Kreiss\u00e4ge"}))
    assert (again.status_code, again.json()["document"]["name"]) == (200, "Kreiss\u00e4ge")
    for words in ("kreissa\u0308ge", "KREISS\u00c4", "\uff4breiss"):
        assert [one["entry"] for one in service.get(TOOLS, params={"words": words}).json()["items"]] == ["saw"]


def test_what_was_made_says_where_it_is(service: Service) -> None:
    made = service.post(TOOLS, json=new("saw", SAW))
    assert made.headers["location"] == f"{TOOLS}/saw"
    assert service.get(made.headers["location"]).json() == made.json()
    assert "location" not in service.post(TOOLS, json=new("saw", SAW)).headers  # made nothing
    second = service.post(
        f"{TOOLS}/saw/revisions", json=revised({**SAW, "name": "second"}), headers={"if-match": '"r1"'}
    )
    assert second.headers["location"] == f"{TOOLS}/saw/revisions/2"
    assert service.get(second.headers["location"]).json() == second.json()
    release = service.post("/v1/catalogue-releases", json={"note": "first", "by": "fleet desk"})
    assert service.get(release.headers["location"]).json() == release.json()
    for body in ({"revision": 1, "why": "wrong", "by": "safety"}, {"why": "all wrong", "by": "safety"}):
        taken = service.post(f"{TOOLS}/saw/withdrawals", json=body)
        shown = service.get(taken.headers["location"]).json()
        assert taken.json() in shown["withdrawals"]
    key = service.post("/v1/access-keys", json={"scopes": ["keys"], "note": "x", "by": "you"})
    assert key.headers["location"] == f"/v1/access-keys/{key.json()['key']['id']}"


def test_every_operation_that_makes_something_is_tried_above() -> None:
    makers = {one.operation_id for resource in RESOURCES for one in resource if 201 in one.statuses}
    kinds = ("tool_profile", "power_source", "source_unit", "cord", "kit")
    of_kinds = {name.format(kind) for kind in kinds for name in ("create_{}", "create_{}_revision", "withdraw_{}")}
    assert makers == {"create_catalogue_release", "create_access_key"} | of_kinds


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (f'{HEADER}saw,Saw,nameplate,circular_saw,120 V,5-15P,"12,5 A"\n', (2, "current", "12.5")),
        (f"{HEADER}saw,Saw,nameplate,circular_saw,120 V\n", None),  # cells that are not there are empty
        (f"{HEADER}saw,Saw,nameplate,circular_saw,120 V,5-15P,5 A,beyond\n", (2, "", "")),
        (f"{HEADER.strip()},name\nsaw,Saw,nameplate,circular_saw,120 V,5-15P,5 A,Other\n", (1, "name", "")),
        (f"{HEADER.strip()},Name\nsaw,Saw,nameplate,circular_saw,120 V,5-15P,5 A,Other\n", (1, "name", "")),
    ],
)
def test_sheets_that_went_wrong_are_told_where(service: Service, text: str, fault: tuple[int, str, str] | None) -> None:
    faults = send(service, text, dry_run=True).json()["faults"]
    assert [(one["row"], one["column"]) for one in faults] == ([] if fault is None else [fault[:2]])
    if fault is not None:
        assert fault[2] in faults[0]["message"] + faults[0].get("did_you_mean", "")


def test_a_unit_of_an_unknown_source_is_told_which_was_meant(url: str) -> None:
    load_demo_into(url)
    with serving(url) as service:
        unit = {"name": "van 61", "origin": "nameplate", "entry": "van-panle"}
        answer = service.post("/v1/source-units", json=new("elw-61", unit))
        [fault] = assert_problem(answer, 422, "contradictory-request")["errors"]
        assert (fault["pointer"], fault["code"], fault["did_you_mean"]) == (
            "/document/entry", "unknown_entry", "van-panel",
        )  # fmt: skip
        answer = service.post("/v1/source-units", json=new("elw-61", {**unit, "entry": "van-panel", "revision": 9}))
        [fault] = assert_problem(answer, 422, "contradictory-request")["errors"]
        assert (fault["pointer"], fault["code"]) == ("/document/revision", "unknown_revision")
        assert "newest is 1" in fault["message"]


def test_a_finding_tells_every_reason_why_its_document_was_withdrawn(service: Service) -> None:
    assert service.post(TOOLS, json=new("saw", SAW)).status_code == 201
    assert service.post("/v1/power-sources", json=new("van", VAN)).status_code == 201
    assert service.post("/v1/catalogue-releases", json={"note": "first", "by": "fleet desk"}).status_code == 201
    for reason in ("wrong plate", "recalled", "wrong plate"):
        service.post(f"{TOOLS}/saw/withdrawals", json={"why": reason, "by": "safety"})
    question = {"source": {"kind": "catalogue", "entry": "van"}, "tools": [{"id": "saw", "entry": "saw"}]}
    answer = service.post("/v1/load-checks", json=question)
    assert answer.status_code == 200, answer.text
    said = [one["text"] for one in answer.json()["findings"] if one["code"] == "entry_withdrawn"]
    assert len(said) == 1
    assert "wrong plate; recalled" in said[0]
    for number in range(20):
        service.post(f"{TOOLS}/saw/withdrawals", json={"why": f"reason {number}", "by": "safety"})
    [used] = [
        one for one in service.post("/v1/load-checks", json=question).json()["used_entries"] if "withdrawn" in one
    ]
    assert used["withdrawn"] == "wrong plate; recalled; reason 0; reason 1; and 18 more reasons"
