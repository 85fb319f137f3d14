"""Is a release what it says, for ever, and is an answer that rests on one the same again, on both databases?"""

from __future__ import annotations

import hashlib
import json
from datetime import datetime
from typing import Any

import pytest
from ampwright.catalogue.demo_data import demo_requests
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import list_revisions
from api.trial_resource import assert_problem
from catalogue_service import (
    JSON_HEADERS,
    SAW,
    VAN,
    load_demo_into,
    new,
    opened,
    revised,
    servers,
    service,
    serving,
    url,
)
from litestar.testing import TestClient

__all__ = ["servers", "service", "url"]
Service = TestClient[Any]
RELEASES = "/v1/catalogue-releases"
CUT = {"note": "spring fleet", "by": "fleet desk"}
CHECK: dict[str, Any] = {
    "source": {"kind": "catalogue", "entry": "van"},
    "tools": [{"id": "saw", "entry": "saw"}],
}


def fill(service: Service) -> None:
    service.post("/v1/tool-profiles", json=new("saw", SAW))
    service.post("/v1/power-sources", json=new("van", VAN))


def check(service: Service, **more: Any) -> Any:
    answer = service.post("/v1/load-checks", json={**CHECK, **more})
    assert answer.status_code == 200, answer.text
    return answer


def test_releases_are_numbered_without_gaps_and_their_digest_covers_the_bytes(service: Service) -> None:
    fill(service)
    made = service.post(RELEASES, json=CUT)
    assert (made.status_code, made.json()["number"], made.json()["member_count"]) == (201, 1, 2)
    refused = service.post(RELEASES, json={**CUT, "members": [{"kind": "tool-profile", "entry": "saw", "revision": 2}]})
    assert_problem(refused, 404, "no-such-entry")
    assert [(one["code"], one["pointer"]) for one in refused.json()["errors"]] == [("unknown_revision", "/members/0")]
    twice = [{"kind": "tool-profile", "entry": "saw", "revision": 1}] * 2
    refused = service.post(RELEASES, json={**CUT, "members": twice})
    assert_problem(refused, 422, "invalid-request")
    assert [one["pointer"] for one in refused.json()["errors"]] == ["/members/1"]
    service.post("/v1/tool-profiles", json=new("draft", SAW, status="draft"))
    only = service.post(RELEASES, json={**CUT, "members": [{"kind": "tool-profile", "entry": "saw", "revision": 1}]})
    assert (only.json()["number"], only.json()["member_count"]) == (2, 1)
    assert [row["number"] for row in service.get(RELEASES).json()["items"]] == [2, 1]
    # the digest as its definition says, taken over what the service itself hands out
    lines = b"".join(
        f"{m['kind']} {m['entry']} {m['revision']} 1 {m['digest'].removeprefix('sha256:')}\n".encode()
        for m in service.get(f"{RELEASES}/1/members").json()["items"]
    )
    assert made.json()["digest"] == "sha256:" + hashlib.sha256(lines).hexdigest()
    document = service.get("/v1/tool-profiles/saw/revisions/1").json()
    stored = json.dumps(document["document"], sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    assert document["digest"] == "sha256:" + hashlib.sha256(stored).hexdigest()
    tag = service.get(f"{RELEASES}/1").headers["etag"]
    assert service.get(f"{RELEASES}/1", headers={"if-none-match": tag}).status_code == 304
    assert_problem(service.get(f"{RELEASES}/3"), 404, "no-such-entry")


def test_a_release_holds_all_that_its_kits_and_units_name(service: Service) -> None:
    fill(service)
    item = {"id": "saw", "entry": "saw"}
    service.post("/v1/kits", json=new("framing", {"name": "framing", "origin": "estimate", "tools": [item]}))
    service.post("/v1/source-units", json=new("van-07", {"name": "7", "origin": "nameplate", "entry": "van"}))
    assert service.post(RELEASES, json=CUT).status_code == 201
    alone = [
        {"kind": "kit", "entry": "framing", "revision": 1},
        {"kind": "source-unit", "entry": "van-07", "revision": 1},
    ]
    refused = service.post(RELEASES, json={**CUT, "members": alone})
    assert_problem(refused, 422, "contradictory-request")
    assert [(one["code"], one["pointer"]) for one in refused.json()["errors"]] == [
        ("release_lacks_entry", "/members/0"),
        ("release_lacks_entry", "/members/1"),
    ]
    service.post("/v1/tool-profiles/saw/withdrawals", json={"why": "wrong plate", "by": "safety"})
    refused = service.post(RELEASES, json=CUT)
    assert_problem(refused, 422, "contradictory-request")
    assert "kit framing names tool-profile saw (/tools/0/entry)" in refused.json()["errors"][0]["message"]
    # corrected, it stands again; a kit that wants the first revision of it still does not
    service.post("/v1/tool-profiles/saw/revisions", json=revised({**SAW, "name": "2"}), headers={"if-match": '"r1"'})
    assert service.post(RELEASES, json=CUT).json()["number"] == 2
    kit = {"name": "framing", "origin": "estimate", "tools": [{**item, "revision": 1}]}
    service.post("/v1/kits/framing/revisions", json=revised(kit), headers={"if-match": '"r1"'})
    refused = service.post(RELEASES, json=CUT)
    assert "holds its revision 2" in refused.json()["errors"][0]["message"]
    service.post("/v1/kits/framing/withdrawals", json={"why": "sold", "by": "desk"})
    assert service.post(RELEASES, json=CUT).json()["number"] == 3


def test_two_releases_are_compared_with_the_notes_between(service: Service) -> None:
    fill(service)
    service.post("/v1/cords", json=new("reel", {"name": "reel", "origin": "estimate"}))
    service.post(RELEASES, json={**CUT, "note": "first"})
    service.post("/v1/cords/reel/withdrawals", json={"why": "burnt", "by": "safety"})
    service.post(RELEASES, json={**CUT, "note": "without the reel"})
    service.post("/v1/tool-profiles/saw/revisions", json=revised({**SAW, "name": "2"}), headers={"if-match": '"r1"'})
    service.post("/v1/tool-profiles", json=new("drill", SAW))
    service.post(RELEASES, json={**CUT, "note": "plate read again"})
    told = service.get(f"{RELEASES}/3/differences", params={"since": 1}).json()
    assert (told["old"], told["new"], told["unchanged_count"]) == (1, 3, 1)
    assert told["added"] == [{"kind": "tool-profile", "entry": "drill", "revision": 1}]
    assert told["removed"] == [{"kind": "cord", "entry": "reel", "revision": 1}]
    assert told["changed"] == [{"kind": "tool-profile", "entry": "saw", "old_revision": 1, "new_revision": 2}]
    assert [(row["number"], row["note"]) for row in told["notes"]] == [
        (3, "plate read again"),
        (2, "without the reel"),
    ]


def test_members_come_page_by_page(service: Service) -> None:
    for number in range(5):
        service.post("/v1/tool-profiles", json=new(f"tool-{number}", SAW))
    service.post(RELEASES, json=CUT)
    seen, query = [], {"limit": 2}
    while True:
        page = service.get(f"{RELEASES}/1/members", params=query).json()
        seen += [row["entry"] for row in page["items"]]
        if "next_after" not in page:
            break
        query["after"] = page["next_after"]
    assert seen == [f"tool-{number}" for number in range(5)]


def test_an_answer_pinned_to_a_release_has_the_same_bytes_after_fifty_more(url: str) -> None:
    with serving(url, releases_in_memory=2) as service:
        fill(service)
        service.post("/v1/source-units", json=new("van-07", {"name": "7", "origin": "nameplate", "entry": "van"}))
        service.post(RELEASES, json=CUT)
        unpinned = check(service)
        stated = unpinned.json()["withdrawals_as_of"]
        pinned = {
            "catalogue_release": 1,
            "withdrawals_as_of": stated,
            "source": {"kind": "catalogue", "unit": "VAN_07"},
        }
        before = check(service, **pinned)
        assert before.json()["catalogue_release"] == 1
        assert [(one["kind"], one["entry"], one["pointer"]) for one in before.json()["used_entries"]] == [
            ("power-source", "van", "/source/entry"),
            ("source-unit", "van-07", "/source/unit"),
            ("tool-profile", "saw", "/tools/0/entry"),
        ]
        with opened(url) as database:
            for number in range(1, 51):
                option = {**SAW["supply_options"][0], "current": f"{number % 14 + 1} A"}
                path = "/v1/tool-profiles/saw/revisions"
                body = revised({**SAW, "supply_options": [option]})
                assert service.post(path, json=body, headers={"if-match": f'"r{number}"'}).status_code == 201
                cut_release(database, note=f"number {number}", who="test")
            assert len(list_revisions(database, "tool-profile", "saw", limit=100)) == 51
        service.post("/v1/tool-profiles/saw/withdrawals", json={"why": "wrong plate", "by": "safety", "revision": 1})
        assert check(service, **pinned).content == before.content
        newest = check(service).json()
        assert newest["catalogue_release"] == 51
        assert newest["used_entries"][1]["revision"] == 51
    with serving(url) as another:  # another process that has nothing in memory
        assert check(another, **pinned).content == before.content
        # without the time it says what is known by now: release 1 holds a number that turned out to be wrong
        warned = check(another, catalogue_release=1).json()
        assert [one["pointer"] for one in warned["findings"] if one["code"] == "entry_withdrawn"] == ["/tools/0/entry"]
        assert warned["used_entries"][1]["withdrawn"] == "wrong plate"
        assert warned["withdrawals_as_of"] > stated
        again = check(another, catalogue_release=1, withdrawals_as_of=warned["withdrawals_as_of"]).json()
        del again["request_digest"], warned["request_digest"]
        assert again == warned


def test_a_time_between_two_withdrawals_knows_the_first_only(service: Service) -> None:
    fill(service)
    service.post(RELEASES, json=CUT)
    times = [
        service.post(f"/v1/{path}/withdrawals", json={"why": reason, "by": "safety"}).json()["withdrawn_at"]
        for path, reason in (("tool-profiles/saw", "first"), ("power-sources/van", "second"))
    ]
    first = check(service, withdrawals_as_of=times[0]).json()
    assert [one.get("withdrawn") for one in first["used_entries"]] == [None, "first"]
    assert first["withdrawals_as_of"] == times[0]
    # the same moment with another offset, as RFC 3339 writes it
    east = datetime.fromisoformat(times[0]).astimezone(datetime.fromisoformat("2026-01-01T00:00:00+05:30").tzinfo)
    assert check(service, withdrawals_as_of=east.isoformat()).json()["used_entries"] == first["used_entries"]
    both = check(service, withdrawals_as_of="9999-12-31T23:59:59Z").json()
    assert [one.get("withdrawn") for one in both["used_entries"]] == ["second", "first"]
    assert both["withdrawals_as_of"] == times[1]
    none = check(service, withdrawals_as_of="1970-01-01T00:00:00Z").json()
    assert [one.get("withdrawn") for one in none["used_entries"]] == [None, None]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2026-02-30T00:00:00Z", "contradictory-request"),
        ("2026-02-28T24:30:00Z", "contradictory-request"),
        ("0001-01-01T00:00:00+14:00", "contradictory-request"),
        ("2026-02-28", "invalid-request"),
        ("2026-02-28T00:00:00", "invalid-request"),
        ("yesterday", "invalid-request"),
    ],
)
def test_what_is_no_time_is_refused(service: Service, text: str, code: str) -> None:
    refused = service.post("/v1/load-checks", json={**CHECK, "withdrawals_as_of": text})
    assert_problem(refused, 422, code)
    assert "/withdrawals_as_of" in [one["pointer"] for one in refused.json()["errors"]]


def test_both_databases_give_the_demo_jobs_the_same_bytes(servers: Any) -> None:
    answers: dict[str, list[bytes]] = {}
    for backend in ("sqlite", "postgresql"):
        url = servers.migrated_url(backend)
        load_demo_into(url)
        with serving(url) as service:
            for name, body in list(demo_requests().items())[:4]:
                answer = service.post("/v1/load-checks", content=body, headers=JSON_HEADERS)
                assert answer.status_code == 200, answer.text
                answers.setdefault(name, []).append(answer.content)
        servers.give_back(url)
    assert all(one == other for one, other in answers.values())


def test_observations_of_a_unit_stand_beside_the_answer_and_change_nothing_else(service: Service) -> None:
    fill(service)
    unit = {"name": "7", "origin": "nameplate", "entry": "van"}
    seen = {"on_date": "2026-03-02", "what": "held", "receptacle": "R1", "current": "31 A", "lasted": "2 h"}
    service.post("/v1/source-units", json=new("van-07", unit))
    service.post(RELEASES, json=CUT)
    path = "/v1/source-units/van-07/revisions"
    service.post(path, json=revised({**unit, "observations": [seen]}), headers={"if-match": '"r1"'})
    service.post(RELEASES, json=CUT)
    source = {"kind": "catalogue", "unit": "van-07"}
    without, with_it = (check(service, catalogue_release=number, source=source).json() for number in (1, 2))
    shown = with_it["used_entries"][1].pop("observations")
    assert shown == [seen]
    for answer in (without, with_it):
        for stamp in ("request_digest", "catalogue_release"):
            del answer[stamp]
        answer["used_entries"][1]["revision"] = 0
    assert with_it == without
