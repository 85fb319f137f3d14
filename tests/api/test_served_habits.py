"""Does the service that the command starts do on the wire what people expect of any HTTP service?

The bytes of the answers are read from the socket: a client library would mend what it reads. Beside test_habits.py,
which asks in process, this proves that server, settings and service go together.
"""

from __future__ import annotations

import gzip
import json
import re
import socket
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest
from client.running import filled_catalogue, free_port, started

ORIGIN = "https://site.example"
CHECK = json.dumps(
    {"source": {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "A", "marked": "20 A"}]}}
).encode()
# RFC 3339, 5.6: date-time in UTC.
INSTANT = r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]+)?Z"


@dataclass(frozen=True)
class Answered:
    status: int
    headers: dict[str, str]
    body: bytes

    def problem(self) -> str:
        """Code of the problem; the answer is one by its media type."""
        assert self.headers["content-type"].startswith("application/problem+json")
        told = json.loads(self.body)
        assert told["status"] == self.status
        assert self.headers["x-request-id"] in told["instance"]
        return str(told["type"]).rpartition("/")[2]


class Service:
    def __init__(self, port: int, log: Path) -> None:
        self.port, self.log = port, log

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> Answered:
        """One request on a connection of its own; `_` in the name of a header stands for `-`."""
        lines = [f"{method} {path} HTTP/1.1", "Host: 127.0.0.1", "Connection: close"]
        lines += [f"{name.replace('_', '-')}: {value}" for name, value in headers.items()]
        if body:
            lines.append(f"Content-Length: {len(body)}")
        head = ("\r\n".join(lines) + "\r\n\r\n").encode("latin-1")
        received = b""
        with socket.create_connection(("127.0.0.1", self.port), timeout=60) as connection:
            connection.sendall(head + body)
            while got := connection.recv(65536):
                received += got
        return _read(received)


def _read(received: bytes) -> Answered:
    head, _, body = received.partition(b"\r\n\r\n")
    status, *lines = head.decode("latin-1").split("\r\n")
    assert status.startswith("HTTP/1.1 "), received[:200]
    headers: dict[str, str] = {}
    for line in lines:
        name, _, value = line.partition(":")
        given = headers.get(name.lower())
        headers[name.lower()] = value.strip() if given is None else f"{given}, {value.strip()}"
    if headers.get("transfer-encoding") == "chunked":
        body = _unchunked(body)
    return Answered(int(status.split()[1]), headers, body)


def _unchunked(body: bytes) -> bytes:
    """RFC 9112, 7.1."""
    whole = b""
    while body:
        size, _, body = body.partition(b"\r\n")
        length = int(size, 16)
        if length == 0:
            break
        whole, body = whole + body[:length], body[length + 2 :]
    return whole


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    folder = tmp_path_factory.mktemp("habits")
    with filled_catalogue(folder):
        pass
    port = free_port()
    settings = {"AMPWRIGHT_CORS_ORIGINS": f"{ORIGIN} https://yard.example", "AMPWRIGHT_CALCULATION_QUEUE": "1"}
    with started(folder, port, **settings):
        yield Service(port, folder / "log")


def test_health_gives_its_reasons(service: Service) -> None:
    assert json.loads(service.ask("GET", "/livez").body) == {"status": "alive"}
    ready = json.loads(service.ask("GET", "/readyz").body)
    assert [(one["name"], one["status"]) for one in ready["checks"]] == [("database", "ready"), ("kernels", "ready")]


def test_pages_of_the_named_origins_may_read(service: Service) -> None:
    """WHATWG Fetch, 3.2; also refusals, whose reason the page would else not see."""
    for path in ("/livez", "/nowhere", "/v1/kits?limit=0"):
        told = service.ask("GET", path, Origin=ORIGIN).headers
        assert told["access-control-allow-origin"] == ORIGIN
        assert "retry-after" in told["access-control-expose-headers"].lower()
        assert "origin" in told["vary"].lower()
    assert "access-control-allow-origin" not in service.ask("GET", "/livez", Origin="https://other.example").headers
    preflight = service.ask(
        "OPTIONS",
        "/v1/load-checks",
        Origin=ORIGIN,
        Access_Control_Request_Method="POST",
        Access_Control_Request_Headers="content-type, traceparent",
    )
    assert (preflight.status, preflight.body) == (204, b"")
    assert "POST" in preflight.headers["access-control-allow-methods"]
    allowed = preflight.headers["access-control-allow-headers"].lower()
    assert all(one in allowed for one in ("authorization", "content-type", "if-match", "traceparent"))


def test_head_is_get_without_its_body(service: Service) -> None:
    """RFC 9110, 9.3.2."""
    for path in ("/v1/power-sources/van-panel", "/v1/reference/units", "/openapi.json"):
        got, headed = service.ask("GET", path), service.ask("HEAD", path)
        assert (headed.status, headed.body) == (200, b"")
        for name in ("content-type", "content-length", "etag", "cache-control"):
            assert headed.headers.get(name) == got.headers.get(name), (path, name)


@pytest.mark.parametrize(
    ("path", "allow"),
    [
        ("/v1/load-checks", "OPTIONS, POST"),
        ("/v1/kits", "GET, HEAD, OPTIONS, POST"),
        ("/v1/access-keys/a", "DELETE, OPTIONS"),
        ("/livez", "GET, HEAD, OPTIONS"),
    ],
)
def test_methods_that_are_not_there_are_named(service: Service, path: str, allow: str) -> None:
    """RFC 9110, 9.3.7 and 15.5.6."""
    assert service.ask("OPTIONS", path).headers["allow"] == allow
    refused = service.ask("PATCH", path)
    assert (refused.status, refused.problem(), refused.headers["allow"]) == (405, "method-not-allowed", allow)


def test_requests_that_cannot_be_read_are_told_apart(service: Service) -> None:
    """RFC 9110, 15.5.7, 15.5.14 to 15.5.16; RFC 6585, 5."""
    as_json = {"Content_Type": "application/json"}
    told = {
        406: service.ask("POST", "/v1/load-checks", CHECK, Accept="application/pdf", **as_json),
        413: service.ask("POST", "/v1/load-checks", b" " * 2_000_001, **as_json),
        414: service.ask("GET", "/livez?" + "a" * 9_000),
        415: service.ask("POST", "/v1/load-checks", CHECK, Content_Type="application/xml"),
        431: service.ask("GET", "/livez", X_Long="a" * 40_000),
    }
    assert {status: (one.status, one.problem()) for status, one in told.items()} == {
        406: (406, "not-acceptable"),
        413: (413, "body-too-large"),
        414: (414, "address-too-long"),
        415: (415, "unsupported-media-type"),
        431: (431, "headers-too-large"),
    }
    packed = service.ask("POST", "/v1/load-checks", gzip.compress(CHECK), Content_Encoding="gzip", **as_json)
    assert (packed.status, packed.problem()) == (415, "unsupported-media-type")


@pytest.mark.parametrize(
    ("sent", "status", "code"),
    [
        (b"hello\r\n\r\n", 400, "bad-request"),
        (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 400, "bad-request"),  # a TLS handshake (RFC 8446, 5.1)
        (b"BREW /livez HTTP/1.1\r\nHost: a\r\n\r\n", 400, "bad-request"),
        # RFC 9112, 6.1: both lengths are what request smuggling is made of
        (
            b"POST /v1/load-checks HTTP/1.1\r\nHost: a\r\nContent-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n",
            400,
            "bad-request",
        ),
        (b"GET /v1/kits?words=" + b"a" * 100_000 + b" HTTP/1.1\r\nHost: a\r\n\r\n", 414, "address-too-long"),
    ],
    ids=["words", "tls", "method", "two_lengths", "address"],
)
def test_bytes_that_are_no_request(service: Service, sent: bytes, status: int, code: str) -> None:
    """RFC 9112, 2.2 and RFC 9110, 15.5.15; as a problem with an id (RFC 9457), like any other refusal."""
    answer = _read(_raw(service, sent))
    assert (answer.status, answer.problem(), answer.headers["connection"]) == (status, code, "close")
    assert int(answer.headers["content-length"]) == len(answer.body)
    assert json.loads(service.ask("GET", "/livez").body) == {"status": "alive"}


def test_a_request_names_one_host(service: Service) -> None:
    """RFC 9112, 3.2: 400 for a request of HTTP/1.1 without Host or with two; HTTP/1.0 knows none."""
    for lines in (b"", b"Host: a\r\nHost: b\r\n"):
        answer = _read(_raw(service, b"GET /livez HTTP/1.1\r\nConnection: close\r\n" + lines + b"\r\n"))
        assert (answer.status, answer.problem()) == (400, "bad-request")
    assert _raw(service, b"GET /livez HTTP/1.0\r\n\r\n").split()[1] == b"200"


def test_options_of_the_whole_service(service: Service) -> None:
    """RFC 9110, 9.3.7: an asterisk asks for the service in general."""
    answer = service.ask("OPTIONS", "*")
    assert answer.status == 204
    assert {"GET", "HEAD", "OPTIONS", "POST"} <= set(answer.headers["allow"].split(", "))


def test_a_body_that_is_too_large_is_refused_before_it_is_sent(service: Service) -> None:
    """RFC 9110, 10.1.1: who sends `Expect: 100-continue` waits; 417 and 100 would both cost the body its way."""
    asked = b"POST /v1/load-checks HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nExpect: 100-continue\r\n"
    answer = _read(_raw(service, asked + b"Content-Length: 50000000\r\n\r\n"))
    assert (answer.status, answer.problem()) == (413, "body-too-large")
    small = _raw(service, asked + b"Connection: close\r\nContent-Length: 2\r\n\r\n{}")
    assert small.startswith(b"HTTP/1.1 100 Continue\r\n\r\nHTTP/1.1 422 ")


def _raw(service: Service, request: bytes) -> bytes:
    received = b""
    with socket.create_connection(("127.0.0.1", service.port), timeout=20) as connection:
        connection.sendall(request)
        while got := connection.recv(65536):
            received += got
    return received


def test_request_and_trace_are_found_in_the_log(service: Service) -> None:
    """The example of W3C Trace Context, 3.2.2.3."""
    trace_id = "4bf92f3577b34da6a3ce929d0e0e4736"
    answer = service.ask("GET", "/livez", X_Request_Id="job-17", traceparent=f"00-{trace_id}-00f067aa0ba902b7-01")
    assert answer.headers["x-request-id"] == "job-17"
    deadline = time.monotonic() + 10
    found: list[dict[str, object]] = []
    while not found and time.monotonic() < deadline:
        lines = [json.loads(line) for line in service.log.read_text().splitlines() if line.startswith("{")]
        found = [line for line in lines if line.get("request_id") == "job-17"]
        time.sleep(0.05)
    assert [line["trace_id"] for line in found] == [trace_id]


def test_compressed_where_it_is_worth_it(service: Service) -> None:
    plain = service.ask("GET", "/v1/reference/units")
    packed = service.ask("GET", "/v1/reference/units", Accept_Encoding="gzip")
    assert "content-encoding" not in plain.headers
    assert packed.headers["content-encoding"] == "gzip"
    assert "accept-encoding" in packed.headers["vary"].lower()
    assert gzip.decompress(packed.body) == plain.body
    assert len(packed.body) < 0.5 * len(plain.body)
    assert "content-encoding" not in service.ask("GET", "/livez", Accept_Encoding="gzip").headers
    rows = service.ask("GET", "/v1/catalogue-export", Accept_Encoding="gzip", Accept="application/x-ndjson")
    assert rows.status == 200
    assert "content-encoding" not in rows.headers  # a stream goes out line by line


def test_times_are_those_of_rfc_3339(service: Service) -> None:
    stored = json.loads(service.ask("GET", "/v1/power-sources/van-panel").body)
    assert re.fullmatch(INSTANT, stored["created_at"])
    releases = json.loads(service.ask("GET", "/v1/catalogue-releases").body)
    assert all(re.fullmatch(INSTANT, one["created_at"]) for one in releases["items"])
    acts = json.loads(service.ask("GET", "/v1/audit").body)
    assert acts["items"]
    assert all(re.fullmatch(INSTANT, one["at"]) for one in acts["items"])


def test_who_must_wait_is_told_how_long(service: Service) -> None:
    """One runs and one waits, by the setting; RFC 9110, 10.2.3: seconds, as digits."""
    tools = [{"id": f"t{n}", "entry": "circular-saw-185mm"} for n in range(3)]
    slow = {"source": {"kind": "catalogue", "entry": "van-panel"}, "tools": tools, "shift": "8 h", "draws": 20000}

    def post(n: int) -> Answered:
        body = json.dumps(slow | {"seed": n}).encode()
        return service.ask("POST", "/v1/energy-budgets", body, Content_Type="application/json")

    with ThreadPoolExecutor(12) as pool:
        told = list(pool.map(post, range(12)))
    refused = [one for one in told if one.status != 200]
    assert len(refused) >= 6
    assert any(one.status == 200 for one in told)
    for one in refused:
        assert (one.status, one.problem()) == (503, "overloaded")
        assert re.fullmatch(r"[1-9][0-9]{0,3}", one.headers["retry-after"])
