"""What does the client send along, and what does it refuse to be told?"""

from __future__ import annotations

import math
from typing import Any

import httpx2
import pytest
from ampwright_client import (
    CallOptions,
    Client,
)
from client.scripted import OK, Script, client_of


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


def test_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    script = Script(OK)
    monkeypatch.setenv("AMPWRIGHT_CLIENT_URL", "http://from-environment.test")
    monkeypatch.setenv("AMPWRIGHT_CLIENT_KEY", "ampw_2_other")
    Client(http=httpx2.Client(transport=httpx2.MockTransport(script))).list_kits()
    assert script.requests[0].url.host == "from-environment.test"
    assert script.requests[0].headers["authorization"] == "Bearer ampw_2_other"
