"""What does the client do where the network or the service fails?

Answers are injected here, because a healthy service does not fail on demand.
"""

from __future__ import annotations

import asyncio
import copy
import pickle
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AmpwrightError,
    AnsweredNo,
    AsyncClient,
    BrokenOff,
    CallOptions,
    Client,
    NoAnswer,
    NotReached,
    NotUnderstood,
    TimedOut,
    Unavailable,
    models,
)
from client.scripted import OK, PAGE, REQUEST, Breaking, Script, Whole, busy, client_of


@pytest.mark.parametrize(
    ("told", "title", "detail"),
    [
        # RFC 9457, 3.1: every member may be missing; 4.2.1: about:blank has the phrase of the status for its title.
        ({}, "Too Many Requests", None),
        ({"type": "about:blank", "detail": "ten a second"}, "Too Many Requests", "ten a second"),
        # RFC 9457, 3.1: a member of another type than told is ignored; 3.2: any other member may stand there.
        ({"title": 7, "status": "429", "errors": {"a": 1}, "balance": 30}, "Too Many Requests", None),
        ({"type": "https://gateway.example/quota", "title": "Quota"}, "Quota", None),
    ],
)
def test_problem_details_of_a_gateway(told: dict[str, Any], title: str, detail: str | None) -> None:
    headers = {"Content-Type": "application/problem+json", "Retry-After": "120"}
    script = Script(httpx2.Response(429, content=msgspec.json.encode(told), headers=headers))
    with pytest.raises(AnsweredNo) as refused:
        client_of(script).list_kits()
    problem = refused.value.problem
    assert problem is not None
    assert (problem.title, problem.status) == (title, 429)
    assert (None if problem.detail is msgspec.UNSET else problem.detail) == detail
    assert refused.value.code == ("quota" if "type" in told and "quota" in told["type"] else "")


@pytest.mark.parametrize(
    ("fault", "kind", "sent", "tries"),
    [
        (httpx2.ConnectError("refused"), NotReached, False, 3),
        (httpx2.ConnectTimeout("slow"), NotReached, False, 3),
        (httpx2.PoolTimeout("full"), NotReached, False, 3),
        (httpx2.InvalidURL("no address"), NotReached, False, 3),
        (httpx2.ReadTimeout("silent"), TimedOut, True, 1),
        (httpx2.WriteTimeout("stuck"), TimedOut, True, 1),
        (httpx2.RemoteProtocolError("disconnected"), BrokenOff, True, 3),
        (httpx2.ReadError("reset"), BrokenOff, True, 3),
    ],
)
def test_no_answer(slept: list[float], fault: Exception, kind: type[NoAnswer], sent: bool, tries: int) -> None:
    script = Script(fault)
    with pytest.raises(kind) as silent:
        client_of(script, retries=2).list_kits(options=CallOptions(request_id="mine"))
    assert (silent.value.sent, silent.value.request_id, len(script.requests)) == (sent, "mine", tries)
    assert not isinstance(silent.value, AnsweredNo)
    assert sent or "http://service.test" in str(silent.value)  # where it looked: mostly it is the address that is wrong


@pytest.mark.parametrize("status", [200, 422])
def test_a_body_that_breaks_off(slept: list[float], status: int) -> None:
    """Also that of an error: none of the HTTP library's own exceptions gets out."""
    bodies: list[Breaking] = []

    def handler(_: httpx2.Request) -> httpx2.Response:
        bodies.append(Breaking(b'{"ti'))
        return httpx2.Response(status, stream=bodies[-1], headers={"Content-Type": "application/json"})

    with pytest.raises(BrokenOff):
        client_of(handler, retries=1).list_kits()
    assert [body.closed for body in bodies] == [True, True]


def test_a_body_that_cannot_be_unpacked() -> None:
    headers = {"Content-Type": "application/json", "Content-Encoding": "gzip"}

    def handler(_: httpx2.Request) -> httpx2.Response:
        return httpx2.Response(200, headers=headers, stream=Whole(b"no gzip"))

    with pytest.raises(BrokenOff):
        client_of(handler, retries=0).list_kits()


@pytest.mark.parametrize(
    ("content", "media_type"),
    [
        (b"{", "application/json"),
        (b"[]", "application/json"),
        (b'{"items": 1}', "application/json"),
        (b"\xff", "application/json"),
        (b"[" * 100_000, "application/json"),
        (b"<html>", "text/html"),
        (b'{"items": []}', ""),
    ],
)
def test_answers_that_are_none(content: bytes, media_type: str) -> None:
    headers = {"Content-Type": media_type} if media_type else {}
    script = Script(httpx2.Response(200, content=content, headers=headers))
    with pytest.raises(NotUnderstood) as strange:
        client_of(script).list_kits()
    assert (strange.value.status, strange.value.body) == (200, content)
    assert strange.value.request_id


def test_a_redirect_is_not_followed() -> None:
    script = Script(httpx2.Response(307, headers={"Location": "http://elsewhere.test/"}))
    http = httpx2.Client(transport=httpx2.MockTransport(script), follow_redirects=True)
    with pytest.raises(AnsweredNo) as away:
        Client("http://service.test", key="ampw_1_secret", http=http).list_kits()
    assert away.value.status == 307
    assert "redirect, which is not followed" in str(away.value)
    assert [request.url.host for request in script.requests] == ["service.test"]


def test_errors_travel_between_processes() -> None:
    """What cannot be pickled breaks a pool of processes (the documentation of `concurrent.futures`)."""
    problem = models.Problem(type="/problems/overloaded", title="Busy", status=503)
    raised: list[AmpwrightError] = []
    for outcome in (busy(**{"Retry-After": "7"}), httpx2.ConnectError("refused"), httpx2.Response(200, content=b"{")):
        with pytest.raises(AmpwrightError) as told:
            client_of(Script(outcome), retries=0).list_kits()
        raised.append(told.value)
    for error in raised:
        for other in (pickle.loads(pickle.dumps(error)), copy.copy(error)):
            assert type(other) is type(error)
            assert str(other) == str(error)
            assert vars(other) == vars(error)
    refused = pickle.loads(pickle.dumps(raised[0]))
    assert isinstance(refused, Unavailable)
    assert (refused.problem, refused.retry_after_s, refused.faults) == (problem, 7.0, [])


def test_how_an_answer_came_travels_with_it() -> None:
    page = client_of(Script(OK)).list_kits()
    for other in (pickle.loads(pickle.dumps(page)), copy.deepcopy(page), copy.copy(page)):
        assert other == page
        assert other.reply == page.reply
    made_here = pickle.loads(pickle.dumps(models.EntryPage(items=[])))
    with pytest.raises(AttributeError, match="did not come from a service"):
        _ = made_here.reply


def test_deprecation_is_told() -> None:
    """RFC 9745 and RFC 8594, with the values of their examples."""
    headers = dict(OK.headers) | {"Deprecation": "@1688169599", "Sunset": "Sun, 30 Jun 2024 23:59:59 GMT"}
    script = Script(httpx2.Response(200, content=PAGE, headers=headers))
    with pytest.warns(DeprecationWarning, match="GET /v1/kits is deprecated and ends Sun, 30 Jun 2024") as told:
        client_of(script).list_kits()
    # Python shows this warning only where it is the program's own line (the documentation of `warnings`).
    assert told[0].filename == __file__

    async def asked() -> None:
        http = httpx2.AsyncClient(transport=httpx2.MockTransport(script))
        async with AsyncClient("http://service.test", http=http) as client:
            await client.list_kits()

    with pytest.warns(DeprecationWarning, match="is deprecated") as told:
        asyncio.run(asked())
    assert told[0].filename == __file__


def test_pages_that_never_end() -> None:
    script = Script(httpx2.Response(200, content=b'{"items": [], "next_cursor": "x"}', headers=OK.headers))
    with pytest.raises(ValueError, match="goes on at itself"):
        list(client_of(script).iterate_kits())


# --- a newer service -----------------------------------------------------------------------------------------------


def newer(value: Any) -> Any:
    """The same with a new member in every object of the contract; a step of RFC 6902 carries any JSON."""
    if isinstance(value, dict) and {"op", "path"} <= value.keys():
        return value | {"member_of_2031": {"deep": [1]}}
    if isinstance(value, dict):
        return {key: newer(one) for key, one in value.items()} | {"member_of_2031": {"deep": [1]}}
    return [newer(one) for one in value] if isinstance(value, list) else value


def test_new_members_are_passed_over(client: Client, raw: httpx2.Client) -> None:
    told = raw.post("/v1/load-checks", json=msgspec.to_builtins(REQUEST)).json()
    script = Script(httpx2.Response(200, content=msgspec.json.encode(newer(told)), headers=OK.headers))
    assert client_of(script).check_load(REQUEST) == client.check_load(REQUEST)

    stored = raw.get("/v1/power-sources?limit=1").json()["items"][0]["entry"]
    told = raw.get(f"/v1/power-sources/{stored}").json()
    script = Script(httpx2.Response(200, content=msgspec.json.encode(newer(told)), headers=OK.headers))
    assert client_of(script).get_power_source(stored) == client.get_power_source(stored)


def test_new_words_are_read_and_new_kinds_are_told(client: Client, raw: httpx2.Client) -> None:
    told = raw.post("/v1/load-checks", json=msgspec.to_builtins(REQUEST)).json()
    told["verdict"]["overall"] = "better_than_pass"
    script = Script(httpx2.Response(200, content=msgspec.json.encode(told), headers=OK.headers))
    overall: str = client_of(script).check_load(REQUEST).verdict.overall
    assert overall == "better_than_pass"

    stored = raw.get("/v1/power-sources?limit=1").json()["items"][0]["entry"]
    told = raw.get(f"/v1/power-sources/{stored}").json()
    told["document"]["kind"] = "solar_trailer"
    script = Script(httpx2.Response(200, content=msgspec.json.encode(told), headers=OK.headers))
    with pytest.raises(NotUnderstood, match="solar_trailer"):
        client_of(script).get_power_source(stored)
