"""What does a real server do with a slow, broken or impolite connection?

Every wait is bounded by the server fixture's own limits (a body has 0.5 s) or by a time-out of the socket.
"""

from __future__ import annotations

import socket
import time

import httpx
import pytest
from api import trial_resource
from api.conftest import RunningServer
from api.trial_resource import assert_problem

GOOD = b'{"items":[{"id":"saw"}]}'
HEAD = b"POST /v1/trials HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"


def test_body_that_stops_half_way_is_408(server: RunningServer) -> None:
    started = time.monotonic()
    answer = server.raw(HEAD + b"Content-Length: 100\r\n\r\n" + GOOD)
    assert answer.startswith(b"HTTP/1.1 408 ")
    assert b'"type":"/problems/body-timeout"' in answer
    # The server closes, so that the rest of the body cannot be taken for the next request (RFC 9110, 15.5.9).
    assert b"connection: close" in answer.lower()
    assert time.monotonic() - started < 5


def test_body_that_drips_is_408(server: RunningServer) -> None:
    with socket.create_connection(("127.0.0.1", server.port), timeout=10) as connection:
        connection.sendall(HEAD + b"Transfer-Encoding: chunked\r\n\r\n")
        answer = b""
        connection.settimeout(0.05)
        deadline = time.monotonic() + 5
        while b"408" not in answer and time.monotonic() < deadline:
            connection.sendall(b"1\r\n{\r\n")
            try:
                answer += connection.recv(65536)
            except TimeoutError:
                continue
    assert answer.startswith(b"HTTP/1.1 408 ")


def test_body_of_5_mb_gets_its_answer(http: httpx.Client) -> None:
    """The answer must arrive although the caller is still writing."""
    body = b'{"items":[{"id":"a"}],"note":"' + b"x" * 5_000_000 + b'"}'
    response = http.post("/v1/trials", content=body, headers={"content-type": "application/json"})
    assert_problem(response, 413, "body-too-large")


def test_chunked_body_without_a_length_is_limited_too(http: httpx.Client) -> None:
    chunks = (b"x" * 65536 for _ in range(40))
    response = http.post("/v1/trials", content=chunks, headers={"content-type": "application/json"})
    assert_problem(response, 413, "body-too-large")


def test_caller_that_leaves_half_way_harms_nobody(server: RunningServer, http: httpx.Client) -> None:
    for _ in range(20):
        with socket.create_connection(("127.0.0.1", server.port), timeout=5) as connection:
            connection.sendall(HEAD + b"Content-Length: 100\r\n\r\n" + GOOD)
    assert http.get("/livez").status_code == 200


def test_calculation_is_given_up_when_its_caller_leaves(server: RunningServer, http: httpx.Client) -> None:
    trial_resource.given_up.clear()
    body = b'{"items":[{"id":"saw"}],"sleeps_s":3}'
    with socket.create_connection(("127.0.0.1", server.port), timeout=5) as connection:
        connection.sendall(HEAD + f"Content-Length: {len(body)}\r\n\r\n".encode() + body)
        time.sleep(0.3)
    deadline = time.monotonic() + 2
    while not trial_resource.given_up and time.monotonic() < deadline:
        time.sleep(0.01)
    assert trial_resource.given_up, "the calculation went on for nobody"
    assert http.post("/v1/trials", content=GOOD, headers={"content-type": "application/json"}).status_code == 200


def test_head_sends_no_body(server: RunningServer) -> None:
    # RFC 9110, 9.3.2: the headers of GET, and never content.
    answer = server.raw(b"HEAD /livez HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
    head, _, content = answer.partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 200 ")
    assert b"content-length: 18" in head.lower()
    assert content == b""


@pytest.mark.parametrize("status", [204, 304])
def test_answers_without_content_say_nothing_of_it(server: RunningServer, status: int) -> None:
    # RFC 9110, 15.3.5 and 15.4.5.
    request = {
        204: b"OPTIONS /livez HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
        304: b'GET /v1/entries/a HTTP/1.1\r\nHost: localhost\r\nIf-None-Match: "r3"\r\nConnection: close\r\n\r\n',
    }[status]
    head, _, content = server.raw(request).partition(b"\r\n\r\n")
    assert head.startswith(f"HTTP/1.1 {status} ".encode())
    assert b"\r\ncontent-type" not in head.lower()
    assert content == b""


def test_two_megabytes_of_header_are_refused(server: RunningServer, http: httpx.Client) -> None:
    answer = server.raw(
        b"GET /livez HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nX-Long: " + b"a" * 2_000_000 + b"\r\n\r\n"
    )
    assert answer.startswith(b"HTTP/1.1 431 ")
    assert http.get("/livez").status_code == 200


PATHS = [
    b"/%ff",
    b"/%00",
    b"/v1/entries/%00",
    b"/v1/entries/%2e%2e%2f",
    b"/v1/entries/a?limit=%ff",
    b"/v1/entries/a?limit=1;tag=2&&==&",
    b"/v1/entries/" + b"a" * 3000,
    b"//",
    b"/..",
    b"/v1/entries/%E2%80%AE",
    b"*",
    b"http://other.example/livez",
]


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("method", [b"GET", b"HEAD", b"OPTIONS", b"POST", b"TRACE", b"PATCH"])
def test_no_address_makes_a_5xx(server: RunningServer, method: bytes, path: bytes) -> None:
    answer = server.raw(method + b" " + path + b" HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
    assert answer[9:10] in (b"2", b"3", b"4"), answer[:300]
    if answer[9:10] == b"4" and b"Invalid HTTP request" not in answer:  # the server's own words, before any application
        assert b"application/problem+json" in answer


@pytest.mark.parametrize(
    "headers",
    [
        b"X-Request-Id: \xff\xfe",
        b"Traceparent: \xff",
        b"Accept: \xff/\xff",
        b"Accept: " + b"a/b," * 5000,
        b"If-None-Match: " + b'"x",' * 2000,
        b"Origin: \xff",
        b"Content-Type: \xff",
        b"Accept-Encoding: \xff",
        b"Cookie: " + b";=" * 500,
        b"Range: bytes=0-1",
        b"Content-Length: 5",
    ],
)
def test_no_header_makes_a_5xx(server: RunningServer, headers: bytes) -> None:
    answer = server.raw(
        b"GET /v1/entries/a HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n" + headers + b"\r\n\r\n", wait_s=2
    )
    assert answer[9:10] in (b"2", b"4"), answer[:300]
