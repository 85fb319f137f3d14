"""When does the client send a call again, and how long does it wait?"""

from __future__ import annotations

import asyncio
import math
import time
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright_client import (
    AmpwrightError,
    AnsweredNo,
    CallOptions,
    ServiceFault,
    Unavailable,
    models,
)
from ampwright_client.waiting import backoff_s, retry_after_s
from client.scripted import OK, REQUEST, Script, async_client_of, busy, client_of


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
