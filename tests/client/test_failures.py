"""What does the client do where the network or the service fails?

Answers are injected here, because a healthy service does not fail on demand.
"""

from __future__ import annotations

import asyncio
import copy
import itertools
import math
import pickle
import time
from collections.abc import Callable, Iterator
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AmpwrightError,
    AnsweredNo,
    AsyncClient,
    AsyncLines,
    BrokenOff,
    CallOptions,
    Client,
    NoAnswer,
    NotReached,
    NotUnderstood,
    ServiceFault,
    TimedOut,
    Unavailable,
    load_check,
    models,
    tool,
    vehicle,
)
from ampwright_client.calls import Call
from ampwright_client.waiting import backoff_s, retry_after_s

REQUEST = load_check(vehicle("120 V"), tool("saw", load_class="circular_saw"))
PAGE = b'{"items": []}'
OK = httpx2.Response(200, content=PAGE, headers={"Content-Type": "application/json"})
Handler = Callable[[httpx2.Request], httpx2.Response]


def busy(**headers: str) -> httpx2.Response:
    problem = models.Problem(type="/problems/overloaded", title="Busy", status=503)
    return httpx2.Response(
        503,
        content=msgspec.json.encode(problem),
        headers={"Content-Type": "application/problem+json", "X-Request-Id": "of-the-service", **headers},
    )


def fresh(response: httpx2.Response) -> httpx2.Response:
    return httpx2.Response(response.status_code, headers=response.headers, content=response.content)


class Script:
    """Answers one after the other; the last one again and again."""

    def __init__(self, *outcomes: httpx2.Response | Exception) -> None:
        self._outcomes = itertools.chain(outcomes, itertools.repeat(outcomes[-1]))
        self.requests: list[httpx2.Request] = []

    def __call__(self, request: httpx2.Request) -> httpx2.Response:
        self.requests.append(request)
        outcome = next(self._outcomes)
        if isinstance(outcome, Exception):
            raise outcome
        return fresh(outcome)


def client_of(handler: Handler, **manner: Any) -> Client:
    return Client("http://service.test", http=httpx2.Client(transport=httpx2.MockTransport(handler)), **manner)


@pytest.fixture
def slept(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    waits: list[float] = []
    monkeypatch.setattr("ampwright_client.transport.time.sleep", waits.append)
    return waits


def test_asked_to_come_back_later(slept: list[float]) -> None:
    script = Script(busy(**{"Retry-After": "2"}), OK)
    client_of(script).list_kits()
    assert len(script.requests) == 2
    assert 2.0 <= slept[0] <= 2.0 * 1.25 + 0.05  # not before it asked for, and not all callers at once
    ids = {request.headers["x-request-id"] for request in script.requests}
    assert len(ids) == 1


def test_calculation_is_sent_again(slept: list[float]) -> None:
    answer = models.LoadCheckAnswer(
        verdict=models.Verdicts(overall="pass", capacity="pass", safety="pass"),
        notice="",
        engine_version="",
        request_digest="",
    )
    good = httpx2.Response(200, content=msgspec.json.encode(answer), headers={"Content-Type": "application/json"})
    script = Script(httpx2.ConnectError("refused"), busy(), good)
    assert client_of(script).check_load(REQUEST) == answer
    assert [request.content for request in script.requests] == [msgspec.json.encode(REQUEST)] * 3
    assert len(slept) == 2


def test_longer_wait_than_patience_is_told_at_once(slept: list[float]) -> None:
    script = Script(busy(**{"Retry-After": "120"}))  # RFC 9110, 10.2.3: the example
    with pytest.raises(Unavailable) as refused:
        client_of(script, patience_s=20).list_kits()
    assert (len(script.requests), slept) == (1, [])
    assert refused.value.retry_after_s == 120.0
    assert refused.value.request_id == "of-the-service"
    assert refused.value.code == "overloaded"


def test_tries_and_patience_end(slept: list[float]) -> None:
    script = Script(busy())
    with pytest.raises(Unavailable):
        client_of(script, retries=2).list_kits()
    assert len(script.requests) == 3
    with pytest.raises(Unavailable):
        client_of(script).list_kits(options=CallOptions(retries=0))
    assert len(script.requests) == 4
    with pytest.raises(Unavailable):
        client_of(script, retries=1000, patience_s=30).list_kits()
    assert sum(slept[2:]) <= 30


@pytest.mark.parametrize("outcome", [busy(**{"Retry-After": "1"}), httpx2.ConnectError("refused")])
def test_a_write_is_never_sent_again(slept: list[float], outcome: Any) -> None:
    script = Script(outcome)
    with pytest.raises(AmpwrightError):
        client_of(script).withdraw_kit("kit", why="worn", by="one")
    assert (len(script.requests), slept) == (1, [])


@pytest.mark.parametrize("status", [400, 404, 409, 422, 500, 501, 504])
def test_other_refusals_are_not_asked_again(slept: list[float], status: int) -> None:
    script = Script(httpx2.Response(status, content=b"<html>", headers={"Content-Type": "text/html"}))
    with pytest.raises(AnsweredNo) as refused:
        client_of(script).list_kits()
    assert (refused.value.status, refused.value.problem, refused.value.faults) == (status, None, [])
    assert isinstance(refused.value, ServiceFault) is (status >= 500)
    assert refused.value.body == b"<html>"
    assert len(script.requests) == 1


def test_a_gateway_that_does_not_reach_the_service(slept: list[float]) -> None:
    """RFC 9110, 15.6.3: 502 is a gateway's word for what would be a failed connection without it."""
    script = Script(httpx2.Response(502, content=b"<html>", headers={"Content-Type": "text/html"}), OK)
    client_of(script).list_kits()
    assert (len(script.requests), len(slept)) == (2, 1)
    script = Script(httpx2.Response(502, content=b"<html>", headers={"Content-Type": "text/html"}), OK)
    with pytest.raises(ServiceFault):
        client_of(script).withdraw_kit("kit", why="worn", by="one")
    assert len(script.requests) == 1


def test_a_wait_within_patience_is_waited_for_however_it_is_spread(slept: list[float]) -> None:
    for _ in range(30):
        script = Script(busy(**{"Retry-After": "20"}), OK)
        client_of(script, patience_s=20).list_kits()
        assert len(script.requests) == 2
    assert all(wait >= 20.0 for wait in slept)


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


class Breaking(httpx2.SyncByteStream):
    """A body that breaks off."""

    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    def __iter__(self) -> Iterator[bytes]:
        yield from self.parts
        raise httpx2.ReadError("reset")

    def close(self) -> None:
        self.closed = True


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


class Whole(httpx2.SyncByteStream):
    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    def __iter__(self) -> Iterator[bytes]:
        yield from self.parts

    def close(self) -> None:
        self.closed = True


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


def test_headers_of_a_call() -> None:
    script = Script(OK)
    client = client_of(script, key="ampw_1_secret")
    client.list_kits(words="saw & drill", limit=3, options=CallOptions(headers={"traceparent": "00-a-b-01"}))
    [request] = script.requests
    assert request.headers["authorization"] == "Bearer ampw_1_secret"
    assert request.headers["traceparent"] == "00-a-b-01"
    assert request.headers["accept"] == "application/json"
    assert request.headers["user-agent"].startswith("ampwright-client/")
    assert dict(request.url.params) == {"words": "saw & drill", "limit": "3"}


def test_a_header_is_sent_once_however_its_name_is_spelt() -> None:
    """RFC 9110, 5.1: names of fields do not differ by their case."""
    script = Script(OK)
    given = {"user-agent": "yard/1", "ACCEPT": "application/json;q=0.5", "x-request-id": "theirs", "authorization": "x"}
    client_of(script, key="ampw_1_secret").list_kits(options=CallOptions(headers=given, request_id="mine"))
    headers = script.requests[0].headers
    assert headers.get_list("user-agent") == ["yard/1"]
    assert headers.get_list("accept") == ["application/json;q=0.5"]
    assert headers.get_list("x-request-id") == ["mine"]
    assert headers.get_list("authorization") == ["Bearer ampw_1_secret"]


@pytest.mark.parametrize("request_id", ["", "a b", "a\r\nX-Other: 1", "ü", "x" * 129])
def test_request_ids_that_are_none(request_id: str) -> None:
    script = Script(OK)
    with pytest.raises(ValueError, match="request id"):
        client_of(script).list_kits(options=CallOptions(request_id=request_id))
    assert script.requests == []


def test_a_service_below_a_path() -> None:
    script = Script(OK)
    http = httpx2.Client(transport=httpx2.MockTransport(script))
    Client("https://site.test/power/", http=http).list_kits()
    assert str(script.requests[0].url) == "https://site.test/power/v1/kits"


@pytest.mark.parametrize(
    "url",
    [
        "ftp://a",
        "a",
        "http://",
        "http://user:word@a",
        "http://a?b",
        "http://a#b",
        # RFC 3986, 3.2.2 and 3.2.3: an address in brackets is closed, a host is named, a port is one of TCP
        "http://[::1",
        "http://:80",
        "http://a:99999",
        "http://a:x",
        "http://a b",
    ],
)
def test_addresses_that_are_none(url: str) -> None:
    with pytest.raises(ValueError, match="address"):
        Client(url)


def test_keys_that_are_none() -> None:
    with pytest.raises(ValueError, match="access key") as refused:
        Client("http://a", key="ampw_1\r\nX-Other: 1")
    assert "ampw_1" not in str(refused.value)


@pytest.mark.parametrize(
    "manner",
    [
        {"timeout_s": math.inf},
        {"timeout_s": math.nan},
        {"timeout_s": 0.0},
        {"timeout_s": -1.0},
        {"connect_timeout_s": 0.0},
        {"retries": -1},
        {"patience_s": -0.1},
        {"patience_s": math.nan},
    ],
)
def test_manners_that_are_none(manner: dict[str, Any]) -> None:
    """Told where they are given, not by the socket at the first call."""
    with pytest.raises(ValueError, match=next(iter(manner))):
        Client("http://a", **manner)
    if "connect_timeout_s" not in manner:
        with pytest.raises(ValueError, match=next(iter(manner))):
            CallOptions(**manner)


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


def test_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    script = Script(OK)
    monkeypatch.setenv("AMPWRIGHT_CLIENT_URL", "http://from-environment.test")
    monkeypatch.setenv("AMPWRIGHT_CLIENT_KEY", "ampw_2_other")
    Client(http=httpx2.Client(transport=httpx2.MockTransport(script))).list_kits()
    assert script.requests[0].url.host == "from-environment.test"
    assert script.requests[0].headers["authorization"] == "Bearer ampw_2_other"


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


# RFC 9110, 10.2.3: both examples, any number of digits; 5.6.7: a recipient takes all three forms of a date, and all of
# them are UTC. The instant is 946684799 s after 1970.
@pytest.mark.parametrize(
    ("value", "seconds"),
    [
        ("120", 120.0),
        ("Fri, 31 Dec 1999 23:59:59 GMT", 99.0),
        ("Friday, 31-Dec-99 23:59:59 GMT", 99.0),
        ("Fri Dec 31 23:59:59 1999", 99.0),
        ("Fri, 31 Dec 1999 23:00:00 GMT", 0.0),
        ("soon", None),
        ("-1", None),
        ("1e3", None),
        ("99999999999999", 99999999999999.0),
        ("9" * 400, math.inf),
        (None, None),
    ],
)
@pytest.mark.parametrize("zone", ["UTC", "EST5", "XYZ-12"])
def test_retry_after(value: str | None, seconds: float | None, zone: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        assert retry_after_s(value, now_s=946684799.0 - 99.0) == seconds
    finally:
        monkeypatch.undo()
        time.tzset()


def test_backoff_grows_and_is_spread() -> None:
    for tries in (1, 2, 3, 20):
        waits = {backoff_s(tries, None) for _ in range(50)}
        assert len(waits) > 40
        assert all(0.125 * 2.0 ** (tries - 1) <= wait for wait in waits) or tries == 20
        assert max(waits) <= 8.0
    assert all(backoff_s(1, 3.0) >= 3.0 for _ in range(50))


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


# --- streams: no operation of the service has one yet ----------------------------------------------------------------


class Numbered(msgspec.Struct):
    kind: str
    n: int = 0


STREAM = Call[Numbered]("POST", "/v1/rows", Numbered, accept="application/x-ndjson", safe=True)
ROWS = b'{"kind":"row","n":1}\n{"kind":"row","n":2}\n'
END = b'{"kind":"end","n":2}\n'


def stream_of(*parts: bytes, fails: bool = False) -> tuple[Handler, Whole | Breaking]:
    body: Whole | Breaking = Breaking(*parts) if fails else Whole(*parts)
    return lambda _: httpx2.Response(200, stream=body, headers={"Content-Type": "application/x-ndjson"}), body


def test_rows_of_a_stream() -> None:
    handler, body = stream_of(ROWS[:7], ROWS[7:], END)
    with client_of(handler)._lines(STREAM, None) as lines:
        assert [row.n for row in lines] == [1, 2, 2]
        assert lines.lines_read == 3
    assert body.closed


def test_only_a_line_feed_ends_a_line() -> None:
    """RFC 8259, 7: a string may hold all but the controls below U+0020, so also what Unicode breaks lines at."""
    odd = "a\u2028b\u2029c\x85d"
    handler, _ = stream_of(f'{{"kind":"{odd}"}}\r\n'.encode(), b"\n", END[:9], END[9:].rstrip())
    with client_of(handler)._lines(STREAM, None) as lines:
        assert [row.kind for row in lines] == [odd, "end"]


def test_half_a_line_is_a_break() -> None:
    """A gateway that speaks HTTP/1.0 closes in order whatever broke behind it."""
    handler, _ = stream_of(ROWS, END[:9])
    with client_of(handler)._lines(STREAM, None) as lines, pytest.raises(BrokenOff):
        list(lines)


@pytest.mark.parametrize("fails", [True, False])
def test_a_stream_without_its_end(fails: bool) -> None:
    """A stopped service closes in order: only the missing last line tells."""
    handler, body = stream_of(ROWS, fails=fails)
    with client_of(handler)._lines(STREAM, None) as lines:
        rows = iter(lines)
        assert [next(rows).n, next(rows).n] == [1, 2]
        with pytest.raises(BrokenOff):
            next(rows)
        assert lines.lines_read == 2
    assert body.closed


def test_a_reader_that_leaves() -> None:
    handler, body = stream_of(ROWS, END)
    with client_of(handler)._lines(STREAM, None) as lines:
        rows = iter(lines)
        assert next(rows).n == 1
        assert not body.closed
    assert body.closed


def test_a_stream_is_opened_eagerly_and_refused_with_its_problem(slept: list[float]) -> None:
    script = Script(busy())
    with pytest.raises(Unavailable) as refused:
        client_of(script, retries=1)._lines(STREAM, None)
    assert refused.value.code == "overloaded"
    assert len(script.requests) == 2
    handler, _ = stream_of(b"{broken\n")
    with client_of(handler)._lines(STREAM, None) as lines, pytest.raises(NotUnderstood, match="line 1"):
        list(lines)


class AsyncWhole(httpx2.AsyncByteStream):
    def __init__(self, *parts: bytes) -> None:
        self.parts = parts
        self.closed = False

    async def __aiter__(self) -> Any:
        for part in self.parts:
            yield part

    async def aclose(self) -> None:
        self.closed = True


def async_client_of(handler: Any, **manner: Any) -> AsyncClient:
    http = httpx2.AsyncClient(transport=httpx2.MockTransport(handler))
    return AsyncClient("http://service.test", http=http, **manner)


def test_asynchronous_streams() -> None:
    async def read(*parts: bytes) -> tuple[list[int], bool]:
        body = AsyncWhole(*parts)
        rows: list[int] = []
        lines: AsyncLines[Numbered] = async_client_of(
            lambda _: httpx2.Response(200, stream=body, headers={"Content-Type": "application/x-ndjson"})
        )._lines(STREAM, None)
        async with lines as opened:
            async for row in opened:
                rows.append(row.n)
        return rows, body.closed

    assert asyncio.run(read(ROWS, END)) == ([1, 2, 2], True)
    with pytest.raises(BrokenOff):
        asyncio.run(read(ROWS))


def test_asynchronous_calls_are_sent_again_too(monkeypatch: pytest.MonkeyPatch) -> None:
    waits: list[float] = []

    async def sleep(seconds: float) -> None:
        waits.append(seconds)

    monkeypatch.setattr(asyncio, "sleep", sleep)
    script = Script(busy(**{"Retry-After": "1"}), httpx2.ConnectError("refused"), OK)
    asyncio.run(_one_call(script))
    assert len(script.requests) == 3
    assert waits[0] >= 1.0


async def _one_call(script: Script) -> None:
    assert (await async_client_of(script).list_kits()).items == []
