"""Can a fleet keep its documents over HTTP without losing, hiding or overwriting anybody's work, on both databases?

Status codes: RFC 9110 (200, 201, 304, 404, 412, 422), RFC 6585 (428).
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.catalogue.keys import make_key
from api.trial_resource import assert_problem
from catalogue_service import SAW, VAN, new, opened, revised, servers, service, serving, url
from litestar.testing import TestClient

__all__ = ["servers", "service", "url"]
Service = TestClient[Any]
TOOLS = "/v1/tool-profiles"


def test_what_is_written_is_read_as_it_was_written(service: Service) -> None:
    # numbers, order of members and letters beyond ASCII come back in the canonical form: sorted members, NFC
    document = {**SAW, "name": "Kreissa\u0308ge", "load_states": [{"id": "working", "power_factor": 1}]}
    made = service.post(TOOLS, json=new("saw", document))
    assert made.status_code == 201, made.text
    # RFC 9110, 15.3.2: what was made is named by Location
    assert service.get(made.headers["location"]).json() == made.json()
    assert made.headers["etag"] == '"r1"'
    read = service.get(f"{TOOLS}/saw")
    assert read.json() == made.json()
    shown = read.json()
    assert (shown["entry"], shown["revision"], shown["status"]) == ("saw", 1, "approved")
    assert (shown["why"], shown["created_by"]) == ("bought", "fleet desk")
    assert shown["document"] == {**document, "name": "Kreiss\u00e4ge"}
    assert list(shown["document"]) == sorted(shown["document"])
    assert service.get(f"{TOOLS}/saw", headers={"if-none-match": '"r1"'}).status_code == 304


def test_the_same_again_is_200_and_another_document_412(service: Service) -> None:
    assert service.post(TOOLS, json=new("saw", SAW)).status_code == 201
    again = service.post(TOOLS, json=new("saw", SAW), headers={"if-none-match": "*"})
    assert (again.status_code, again.json()["revision"]) == (200, 1)
    other = service.post(TOOLS, json=new("saw", {**SAW, "name": "another"}), headers={"if-none-match": "*"})
    assert_problem(other, 412, "precondition-failed")
    assert other.headers["etag"] == '"r1"'
    assert_problem(service.post(TOOLS, json=new("saw", SAW), headers={"if-none-match": '"r1"'}), 422, "invalid-request")


def test_a_revision_is_written_upon_the_one_that_was_read(service: Service) -> None:
    service.post(TOOLS, json=new("saw", SAW))
    path = f"{TOOLS}/saw/revisions"
    second = {**SAW, "name": "second"}
    assert_problem(service.post(path, json=revised(second)), 428, "precondition-required")
    written = service.post(path, json=revised(second), headers={"if-match": '"r1"'})
    assert (written.status_code, written.headers["etag"]) == (201, '"r2"')
    # the answer was lost and it is sent again, still upon r1
    again = service.post(path, json=revised(second), headers={"if-match": '"r1"'})
    assert (again.status_code, again.headers["etag"]) == (200, '"r2"')
    late = service.post(path, json=revised({**SAW, "name": "third"}), headers={"if-match": '"r1"'})
    assert_problem(late, 412, "precondition-failed")
    assert late.headers["etag"] == '"r2"'
    assert late.json()["errors"][0]["code"] == "head_moved"
    # A -> B -> A is a history of its own
    back = service.post(path, json=revised(SAW), headers={"if-match": '"r2"'})
    assert back.json()["revision"] == 3
    assert service.get(f"{path}/1").json()["document"] == service.get(f"{path}/3").json()["document"]
    assert_problem(
        service.post(f"{TOOLS}/drill/revisions", json=revised(SAW), headers={"if-match": '"r1"'}), 404, "no-such-entry"
    )


def test_differences_are_told_in_words(service: Service) -> None:
    service.post(TOOLS, json=new("saw", {**SAW, "restart_protection": False}))
    changed = {
        **SAW,
        "supply_options": [{**SAW["supply_options"][0], "current": "13 A"}],
        "switch": "constant_pressure",
    }
    service.post(f"{TOOLS}/saw/revisions", json=revised(changed), headers={"if-match": '"r1"'})
    told = service.get(f"{TOOLS}/saw/revisions/2/differences").json()
    assert (told["old"], told["new"], told["why"]) == (1, 2, "plate read again")
    assert told["items"] == [
        {
            "pointer": "/restart_protection",
            "change": "removed",
            "before": False,
            "text": "restart protection: no longer stated, was no",
        },
        {
            "pointer": "/supply_options/0/current",
            "change": "changed",
            "before": "15 A",
            "after": "13 A",
            "text": "supply options us, current: 13 A instead of 15 A",
        },
        {
            "pointer": "/switch",
            "change": "added",
            "after": "constant_pressure",
            "text": "switch: constant_pressure, not stated before",
        },
    ]
    same = service.get(f"{TOOLS}/saw/revisions/2/differences", params={"since": 2}).json()
    assert same["items"] == []
    for missing in ("1/differences", "3/differences", "2/differences?since=7"):
        assert_problem(service.get(f"{TOOLS}/saw/revisions/{missing}"), 404, "no-such-entry")


def test_withdrawing_deletes_nothing_and_shows_everywhere(service: Service) -> None:
    service.post(TOOLS, json=new("saw", SAW))
    service.post(f"{TOOLS}/saw/revisions", json=revised({**SAW, "name": "2"}), headers={"if-match": '"r1"'})
    before = service.get(f"{TOOLS}/saw/revisions/1")
    note = service.post(f"{TOOLS}/saw/withdrawals", json={"why": "wrong plate", "by": "safety", "revision": 1})
    assert (note.status_code, note.json()["first_revision"], note.json()["last_revision"]) == (201, 1, 1)
    after = service.get(f"{TOOLS}/saw/revisions/1")
    assert after.json()["document"] == before.json()["document"]
    assert after.json()["status"] == "withdrawn"
    assert after.json()["withdrawals"] == [note.json()]
    # what was kept under the old tag must not hide the withdrawal
    assert (before.headers["etag"], after.headers["etag"]) == ('"r1"', '"r1w1"')
    kept = service.get(f"{TOOLS}/saw/revisions/1", headers={"if-none-match": before.headers["etag"]})
    assert kept.status_code == 200
    assert service.get(f"{TOOLS}/saw").json()["status"] == "approved"
    service.post(f"{TOOLS}/saw/withdrawals", json={"why": "all of it", "by": "safety"})
    assert [row["status"] for row in service.get(f"{TOOLS}/saw/revisions").json()["items"]] == ["withdrawn"] * 2
    assert service.get(TOOLS, params={"status": "withdrawn"}).json()["items"][0]["entry"] == "saw"
    # a tag with its withdrawals is a precondition like any other
    head = service.get(f"{TOOLS}/saw").headers["etag"]
    assert head == '"r2w1"'
    written = service.post(f"{TOOLS}/saw/revisions", json=revised({**SAW, "name": "3"}), headers={"if-match": head})
    assert (written.status_code, written.json()["status"]) == (201, "approved")
    absent = service.post(f"{TOOLS}/saw/withdrawals", json={"why": "x", "by": "y", "revision": 9})
    assert_problem(absent, 404, "no-such-entry")
    assert [(one["code"], one["pointer"]) for one in absent.json()["errors"]] == [("unknown_revision", "/revision")]


def test_a_document_that_must_not_be_stored_is_refused_with_every_fault(service: Service) -> None:
    wrong = {
        **SAW,
        "supply_options": [{"voltage": "120 V", "plug": "5-16P", "current": "15"}],
        "provenance": [{"pointer": "/shaft_power", "origin": "measured"}],
    }
    refused = service.post(TOOLS, json=new("saw", wrong))
    # a text that cannot be read is no contradiction, whatever else is wrong beside it
    assert_problem(refused, 422, "invalid-request")
    assert {(one["pointer"], one["code"]) for one in refused.json()["errors"]} == {
        ("/document/supply_options/0/plug", "unknown_plug_type"),
        ("/document/supply_options/0/current", "unit_missing"),
        ("/document/provenance/0/pointer", "provenance_points_nowhere"),
    }
    assert service.get(TOOLS).json()["items"] == []
    only = {**SAW, "provenance": [{"pointer": "/shaft_power", "origin": "measured"}]}
    assert_problem(service.post(TOOLS, json=new("saw", only)), 422, "contradictory-request")
    unreadable = service.post(TOOLS, json=new("saw", {**SAW, "swich": "always_on"}))
    assert_problem(unreadable, 422, "invalid-request")
    assert unreadable.json()["errors"][0]["pointer"] == "/document/swich"


@pytest.mark.parametrize("limit", [1, 2, 50])
def test_pages_are_whole_while_others_write(service: Service, limit: int) -> None:
    for number in (5, 1, 3):
        service.post(TOOLS, json=new(f"tool-{number}", SAW))
    seen: list[str] = []
    query: dict[str, Any] = {"limit": limit}
    while True:
        page = service.get(TOOLS, params=query).json()
        seen += [row["entry"] for row in page["items"]]
        service.post(TOOLS, json=new("tool-2", SAW))  # lies before or behind, by the page
        service.post(f"{TOOLS}/tool-1/withdrawals", json={"why": "x", "by": "y"})
        if "next_cursor" not in page:
            break
        query["cursor"] = page["next_cursor"]
    assert [one for one in seen if one != "tool-2"] == ["tool-1", "tool-3", "tool-5"]
    assert len(seen) == len(set(seen))
    assert_problem(service.get(TOOLS, params={"cursor": "x"}), 422, "invalid-request")


def test_search_finds_by_word_voltage_plug_power_and_status(service: Service) -> None:
    service.post(TOOLS, json=new("saw", SAW))
    europe = {"voltage": "230 V", "plug": "CEE 7/17", "power": "1200 W"}
    service.post(TOOLS, json=new("saw-eu", {**SAW, "supply_options": [europe]}))
    service.post(TOOLS, json=new("drill", {"name": "Drill", "origin": "estimate"}, status="draft"))

    def found(**query: Any) -> list[str]:
        return [row["entry"] for row in service.get(TOOLS, params=query).json()["items"]]

    assert found(words="circ 185") == ["saw", "saw-eu"]
    assert found(voltage_low=200) == ["saw-eu"]
    assert found(plug="5-15P") == ["saw"]
    assert found(power_low=1000, power_high=1300) == ["saw-eu"]  # 15 A at 120 V are 1800 W
    assert found(power_low=1700) == ["saw"]
    assert found(status="draft") == ["drill"]
    assert found(words="dri") == ["drill"]
    assert_problem(service.get(TOOLS, params={"wrods": "saw"}), 422, "invalid-request")


def test_the_writer_is_noted_down_with_the_key(url: str) -> None:
    with serving(url) as service:
        body = new("saw", SAW)
        del body["by"]
        refused = service.post(TOOLS, json=body)
        assert_problem(refused, 422, "contradictory-request")
        assert refused.json()["errors"][0]["pointer"] == "/by"
        with opened(url) as database:
            key = make_key(database, scopes=["catalogue:write", "catalogue:read"], note="desk", who="test")
    with serving(url) as service:
        shown = {"authorization": f"Bearer {key.text}"}
        made = service.post(TOOLS, json=body, headers=shown)
        assert made.json()["created_by"] == f"key {key.key.id}"
        made = service.post(TOOLS, json=new("drill", SAW), headers=shown)
        assert made.json()["created_by"] == f"fleet desk (key {key.key.id})"
        assert_problem(service.post("/v1/catalogue-releases", json={"note": "x"}, headers=shown), 403, "forbidden")


def test_a_unit_must_fit_its_kind(service: Service) -> None:
    unit = {"name": "van number 7", "origin": "nameplate", "entry": "van"}
    path = "/v1/source-units"
    missing = service.post(path, json=new("van-07", unit))
    assert missing.json()["errors"][0]["pointer"] == "/document/entry"
    service.post("/v1/power-sources", json=new("van", VAN))
    faults = {
        "tank": "12 l",  # a vehicle has none
        "receptacles": [{"id": "R1", "marked": "20"}],
        "legs": [{"id": "L1", "angle": "0 deg"}, {"id": "L2", "angle": "180 deg"}],
    }
    for name, pointer in (("tank", "tank"), ("receptacles", "receptacles/0/marked"), ("legs", "legs")):
        refused = service.post(path, json=new("van-07", {**unit, "corrections": {name: faults[name]}}))
        assert_problem(refused, 422, "invalid-request" if name == "receptacles" else "contradictory-request")
        assert refused.json()["errors"][0]["pointer"] == f"/document/corrections/{pointer}"
    sound = service.post(path, json=new("van-07", {**unit, "corrections": {"receptacles": [{"id": "R2"}]}}))
    assert sound.status_code == 201, sound.text
    assert service.get(path, params={"words": "van"}).json()["items"][0]["entry"] == "van-07"


@pytest.mark.parametrize("collection", ["tool-profiles", "power-sources", "cords", "kits", "source-units"])
@pytest.mark.parametrize("entry", ["Saw", "saw--x", "-saw", "s" * 81, "a%2Fb", "%00", "saw\u202e"])
def test_a_key_that_no_entry_can_have_is_no_crash(service: Service, collection: str, entry: str) -> None:
    answer = service.get(f"/v1/{collection}/{entry}")
    assert answer.status_code in (404, 422)
    assert answer.headers["content-type"] == "application/problem+json"


def test_a_misspelt_key_names_the_nearest(service: Service) -> None:
    for slug in ("circular-saw-185mm", "circular-saw-235mm", "drill-16mm"):
        assert service.post(TOOLS, json=new(slug, SAW)).status_code == 201
    for path in ("", "/revisions", "/revisions/1"):
        problem = assert_problem(service.get(f"{TOOLS}/circlar-saw-185{path}"), 404, "no-such-entry")
        [fault] = problem["errors"]
        assert (fault["parameter"], fault["code"]) == ("entry", "unknown_entry")
        assert fault["did_you_mean"] == "circular-saw-185mm"
        assert "circular-saw-185mm" in problem["detail"]
    withdrawal = {"why": "worn", "by": "desk"}
    refused = service.post(f"{TOOLS}/dril-16mm/withdrawals", json=withdrawal)
    assert assert_problem(refused, 404, "no-such-entry")["errors"][0]["did_you_mean"] == "drill-16mm"
    # the key of another kind is no near one, and nothing is like this
    for path in ("/v1/power-sources/circlar-saw-185", f"{TOOLS}/zzz"):
        assert "did_you_mean" not in assert_problem(service.get(path), 404, "no-such-entry")["errors"][0]
    # it is there, that revision is not
    assert (
        "revision 7" in assert_problem(service.get(f"{TOOLS}/drill-16mm/revisions/7"), 404, "no-such-entry")["detail"]
    )
