"""Can entries be created, read, revised and withdrawn through the client, and are the refusals told apart?"""

from __future__ import annotations

import asyncio
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AsyncClient,
    CallOptions,
    Client,
    InvalidRequest,
    NotFound,
    PreconditionFailed,
    PreconditionRequired,
    models,
    unknown_members,
)
from ampwright_client.calls import Call


def a_cord(name: str, **members: Any) -> models.CordDocument:
    return models.CordDocument(
        name=name, origin="estimate", length="25 ft", size="12 AWG", conductors=3, plug="5-15P", **members
    )


def test_life_of_an_entry(client: Client, raw: httpx2.Client) -> None:
    created = client.create_cord(entry="life-of-a-cord", document=a_cord("first"), why="bought", by="fleet desk")
    assert (created.reply.status, created.revision, created.status) == (201, 1, "approved")
    assert raw.get("/v1/cords/life-of-a-cord").headers["etag"] == created.reply.entity_tag

    again = client.create_cord(entry="life-of-a-cord", document=a_cord("first"), why="bought", by="fleet desk")
    assert (again.reply.status, again) == (200, created)  # a lost answer may be asked for again

    changed = client.create_cord_revision(
        "life-of-a-cord",
        if_match=created.reply.entity_tag,
        document=a_cord("second", marked="15 A"),
        why="mark read",
        by="fleet desk",
    )
    assert (changed.revision, changed.document.marked) == (2, "15 A")
    assert client.get_cord_revision("life-of-a-cord", 1).document == created.document
    assert [row.revision for row in client.iterate_cord_revisions("life-of-a-cord", limit=1)] == [2, 1]

    note = client.withdraw_cord("life-of-a-cord", why="worn", by="fleet desk", revision=2)
    assert (note.first_revision, note.last_revision, note.reply.status) == (2, 2, 201)
    newest = client.get_cord("life-of-a-cord")
    assert (newest.status, newest.withdrawals[0].why) == ("withdrawn", "worn")
    assert unknown_members(newest.reply.body, newest) == []


def test_a_whole_request_and_its_members_are_the_same(client: Client) -> None:
    request = models.NewCord(entry="whole-request", document=a_cord("whole"), why="bought", by="fleet desk")
    assert client.create_cord(request).reply.status == 201
    by_members = client.create_cord(entry="whole-request", document=a_cord("whole"), why="bought", by="fleet desk")
    assert by_members.reply.status == 200
    with pytest.raises(TypeError, match="beside it"):
        client.create_cord(request, why="both")  # type: ignore[call-overload]
    with pytest.raises(TypeError):
        client.create_cord(entry="whole-request")  # type: ignore[call-overload]


def test_stale_and_missing_preconditions(client: Client) -> None:
    client.create_cord(entry="stale", document=a_cord("a"), why="bought", by="one")
    client.create_cord_revision("stale", if_match='"r1"', document=a_cord("b"), why="seen", by="one")
    with pytest.raises(PreconditionFailed) as stale:
        client.create_cord_revision("stale", if_match='"r1"', document=a_cord("c"), why="seen", by="two")
    assert stale.value.status == 412
    assert stale.value.entity_tag == '"r2"'
    assert stale.value.code == "precondition-failed"
    with pytest.raises(PreconditionFailed):
        client.create_cord(entry="stale", document=a_cord("d"), why="bought", by="two")

    body = models.NewCordRevision(document=a_cord("c"), why="seen", by="two")
    without = Call[models.CordRevision]("POST", "/v1/cords/stale/revisions", models.CordRevision, body=body)
    with pytest.raises(PreconditionRequired) as missing:
        client._answer(without, None)
    assert missing.value.status == 428


def test_nothing_there(client: Client) -> None:
    with pytest.raises(NotFound) as problem:
        client.get_cord("no-such-cord", options=CallOptions(request_id="asked-for-nothing"))
    assert problem.value.code == "no-such-entry"
    assert problem.value.request_id == "asked-for-nothing"
    assert problem.value.problem is not None
    assert problem.value.problem.status == 404
    assert "[request asked-for-nothing]" in str(problem.value)


@pytest.mark.parametrize("name", ["", ".", ".."])
def test_a_name_that_would_be_another_address(client: Client, name: str) -> None:
    """RFC 3986, 5.2.4: dot segments are removed from a path, so they would ask for something else."""
    with pytest.raises(ValueError, match="entry"):
        client.get_cord(name)


def test_a_name_is_one_segment(client: Client) -> None:
    for name in ("a/b", "a?b", "a#b", "ü", "a%2Fb", "x" * 90):
        with pytest.raises((NotFound, InvalidRequest)):
            client.get_cord(name)


def test_bad_document_names_its_members(client: Client) -> None:
    bad = models.CordDocument(name="bad", origin="estimate", length="25", size="12 AWG")
    with pytest.raises(InvalidRequest) as problem:
        client.create_cord(entry="bad", document=bad, why="bought", by="one")
    assert problem.value.pointers == ["/document/length"]
    assert problem.value.faults[0].code == "unit_missing"


def test_pages_give_every_row_once(client: Client, raw: httpx2.Client) -> None:
    expected = [row["entry"] for row in raw.get("/v1/tool-profiles?limit=200").json()["items"]]
    assert len(expected) > 9
    rows = list(client.iterate_tool_profiles(limit=4))
    assert [row.entry for row in rows] == expected
    assert [row.entry for row in client.iterate_tool_profiles(words="saw")] == [
        row["entry"] for row in raw.get("/v1/tool-profiles?words=saw&limit=200").json()["items"]
    ]

    members = raw.get("/v1/catalogue-releases/1/members?limit=500").json()["items"]
    assert msgspec.to_builtins(list(client.iterate_catalogue_release_members(1, limit=7))) == members
    assert [release.number for release in client.iterate_catalogue_releases(limit=1)][-1] == 1


def test_pages_asynchronously(client: Client, service: str) -> None:
    async def names() -> list[str]:
        async with AsyncClient(service) as asynchronous:
            return [row.entry async for row in asynchronous.iterate_power_sources(limit=3)]

    assert asyncio.run(names()) == [row.entry for row in client.iterate_power_sources()]


def test_conditional_reading(service: str) -> None:
    with Client(service) as client:
        client.create_cord(entry="kept", document=a_cord("kept"), why="bought", by="one")
        first = client.get_cord("kept")
        second = client.get_cord("kept")
        assert (first.reply.unchanged, second.reply.unchanged) == (False, True)
        assert first == second
        assert second.reply.entity_tag == first.reply.entity_tag
        client.create_cord_revision(
            "kept", if_match=second.reply.entity_tag, document=a_cord("new"), why="seen", by="one"
        )
        third = client.get_cord("kept")
        assert (third.reply.unchanged, third.document.name) == (False, "new")

    async def twice() -> list[bool]:
        async with AsyncClient(service) as asynchronous:
            return [(await asynchronous.get_catalogue_release(1)).reply.unchanged for _ in range(2)]

    assert asyncio.run(twice()) == [False, True]


def test_what_may_be_sent_again(client: Client, raw: httpx2.Client) -> None:
    """As the README and the guide on errors say; idempotent as in RFC 9110, 9.2.2: two have the effect of one."""
    tag = client.create_cord(entry="sent-again", document=a_cord("first"), why="bought", by="one").reply.entity_tag
    for _ in range(2):
        client.create_cord_revision("sent-again", if_match=tag, document=a_cord("second"), why="read", by="one")
    assert client.get_cord("sent-again").revision == 2
    sheet = {
        "csv": "entry,name,origin,load_class,option,voltage,plug,current\n"
        "sent-again,saw,nameplate,jig_saw,a,120 V,1-15P,6 A\n",
        "why": "stocktaking",
        "by": "one",
    }
    for _ in range(2):
        raw.post("/v1/catalogue-sheets/tool-profile", json=sheet).raise_for_status()
    assert client.get_tool_profile("sent-again").revision == 1
    # and what is one more each time
    for _ in range(2):
        client.withdraw_cord("sent-again", why="worn", by="one", revision=2)
    assert len(client.get_cord("sent-again").withdrawals) == 2
    cut = [client.create_catalogue_release(note="again", by="one").number for _ in range(2)]
    assert cut[1] == cut[0] + 1


def test_releases(client: Client) -> None:
    released = client.create_catalogue_release(note="for a test", by="one")
    differences = client.diff_catalogue_releases(released.number, since=1)
    assert (differences.old, differences.new) == (1, released.number)
    with pytest.raises(InvalidRequest) as problem:
        client.list_catalogue_releases(limit=0)
    assert problem.value.faults[0].parameter == "limit"
