"""Does the service do what people expect of any HTTP service?"""

from __future__ import annotations

import gzip
import logging
import re
import time
from pathlib import Path

import msgspec
import pytest
from ampwright.api.negotiation import choose
from ampwright.api.problems import PROBLEM_TYPES, ProblemError
from ampwright.app import create_app
from ampwright.settings import Settings
from api import trial_resource
from api.trial_resource import assert_problem
from litestar.testing import TestClient

GOOD = {"items": [{"id": "saw"}]}


def test_request_id_is_made_and_echoed(client: TestClient) -> None:
    made = {client.get("/livez").headers["x-request-id"] for _ in range(3)}
    assert len(made) == 3
    assert client.get("/livez", headers={"x-request-id": "job-7:a.b"}).headers["x-request-id"] == "job-7:a.b"
    for path in ("/nowhere", "/v1/failures", "/" + "a" * 9000):
        assert client.get(path, headers={"x-request-id": "job-7"}).headers["x-request-id"] == "job-7"


@pytest.mark.parametrize("given", ["a b", "x" * 129, "a\tb", '"><script>', ""])
def test_harmful_request_id_is_replaced(client: TestClient, given: str) -> None:
    assert re.fullmatch(r"[0-9a-f]{32}", client.get("/livez", headers={"x-request-id": given}).headers["x-request-id"])


def test_problem_names_its_request(client: TestClient) -> None:
    problem = assert_problem(client.get("/nowhere", headers={"x-request-id": "job-7"}), 404, "not-found")
    assert problem["instance"] == "/nowhere#job-7"


def test_trace_id_is_logged(client: TestClient, caplog: pytest.LogCaptureFixture) -> None:
    # W3C Trace Context (Recommendation, 23 November 2021), 3.2.2: its example; ids of zeros and version ff are
    # invalid; version 00 has nothing behind its flags, a later version may.
    trace_id = "4bf92f3577b34da6a3ce929d0e0e4736"
    span = "00f067aa0ba902b7"
    sent = {
        f"00-{trace_id}-{span}-01": trace_id,
        f"cc-{trace_id}-{span}-01-what-will-come": trace_id,
        f"00-{'0' * 32}-{span}-01": "",
        f"00-{trace_id}-{'0' * 16}-01": "",
        f"ff-{trace_id}-{span}-01": "",
        f"00-{trace_id}-{span}-01-more": "",
        f"00-{trace_id.upper()}-{span}-01": "",
    }
    with caplog.at_level(logging.INFO, "ampwright.access"):
        answers = [client.get("/livez", headers={"traceparent": one}) for one in sent]
    assert [record.__dict__["trace_id"] for record in caplog.records] == list(sent.values())
    # It is a header of requests: the recommendation defines none for answers.
    assert not any({"traceparent", "tracestate"} & set(answer.headers) for answer in answers)


def test_failure_tells_the_log_and_not_the_caller(client: TestClient, caplog: pytest.LogCaptureFixture) -> None:
    for path in ("/v1/failures", "/v1/lane-failures"):
        caplog.clear()
        response = client.get(path)
        assert_problem(response, 500, "internal-error")
        assert "swordfish" not in response.text
        assert "Traceback" not in response.text
        assert any("swordfish" in str(record.exc_info) for record in caplog.records)


@pytest.mark.parametrize(
    ("path", "allow"),
    [
        ("/livez", "GET, HEAD, OPTIONS"),
        ("/v1/trials", "OPTIONS, POST"),
        ("/v1/entries/a", "GET, HEAD, OPTIONS, PUT"),
    ],
)
def test_options_and_405_name_the_methods(client: TestClient, path: str, allow: str) -> None:
    # RFC 9110, 10.2.1 and 15.5.6: 405 must carry Allow. Sorted, so that it never changes by itself.
    assert client.options(path).headers["allow"] == allow
    for method in ("PATCH", "DELETE", "TRACE", "BREW"):
        response = client.request(method, path)
        assert_problem(response, 405, "method-not-allowed")
        assert response.headers["allow"] == allow
    if "GET" not in allow:
        assert client.head(path).status_code == 405
        assert client.head(path).content == b""


def test_head_has_the_headers_of_get(client: TestClient) -> None:
    got, headed = client.get("/v1/entries/a"), client.head("/v1/entries/a")
    assert headed.status_code == got.status_code == 200
    assert headed.content == b""
    own = ("content-type", "content-length", "etag", "cache-control")
    assert [headed.headers[name] for name in own] == [got.headers[name] for name in own]


def test_every_answer_is_guarded(client: TestClient) -> None:
    for path in ("/livez", "/nowhere", "/docs", "/problems", "/v1/failures"):
        headers = client.get(path, headers={"accept": "*/*"}).headers
        assert headers["x-content-type-options"] == "nosniff"
        assert "default-src 'none'" in headers["content-security-policy"]
        assert "frame-ancestors 'none'" in headers["content-security-policy"]


def test_long_address_and_headers(client: TestClient) -> None:
    assert_problem(client.get("/livez?" + "a" * 9000), 414, "address-too-long")
    assert_problem(client.get("/livez", headers={"x-long": "a" * 40_000}), 431, "headers-too-large")


# RFC 9110, 12.5.1; the weights of its own example: text/plain;q=0.5, text/html, text/x-dvi;q=0.8, text/x-c.
@pytest.mark.parametrize(
    ("accept", "chosen"),
    [
        (None, "application/json"),
        ("", "application/json"),
        ("*/*", "application/json"),
        ("text/html", "text/html"),
        ("text/*", "text/html"),
        ("text/plain;q=0.5, text/html, text/x-dvi;q=0.8, text/x-c", "text/html"),
        ("application/json;q=0.2, text/html;q=0.3", "text/html"),
        ("text/html;q=0.3, */*;q=0.2", "text/html"),
        ("text/html;q=0, */*", "application/json"),
        ("*/*;q=0.5, application/json;q=0", "text/html"),
        ("application/json;q=1.5, text/html;q=0.1", "text/html"),
        ("TEXT/HTML", "text/html"),
        (";;,,q=1", "application/json"),
        ("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "text/html"),
    ],
)
def test_media_type_is_negotiated(accept: str | None, chosen: str) -> None:
    assert choose(accept, ("application/json", "text/html")) == chosen


@pytest.mark.parametrize(
    ("accept_encoding", "packed"),
    [
        # RFC 9110, 12.5.3: its five examples, of which the second is an empty list
        ("compress, gzip", True),
        ("", False),
        ("*", True),
        ("compress;q=0.5, gzip;q=1.0", True),
        ("gzip;q=1.0, identity; q=0.5, *;q=0", True),
        # 12.4.2: 0 is "not acceptable"; 12.5.3: * is what is not named; 8.4.1.3: x-gzip is gzip; 8.4.1: any case
        ("gzip;q=0", False),
        ("br, gzip; q=0.000", False),
        ("*;q=0", False),
        ("gzip;q=0, *", False),
        ("identity, *;q=0", False),
        ("x-gzip", True),
        ("GZIP", True),
        ("gzipped", False),
        ("identity;q=1, gzip;q=0.5", False),
        ("gzip;q=2", False),
    ],
)
def test_packed_only_where_that_is_taken(client: TestClient, accept_encoding: str, packed: bool) -> None:
    response = client.get("/openapi.json", headers={"accept-encoding": accept_encoding})
    assert (response.headers.get("content-encoding") == "gzip") is packed
    assert response.json()["openapi"] == "3.1.0"
    # 12.5.5: also the answer that is not packed says by what it was chosen.
    assert "accept-encoding" in response.headers["vary"].lower()


def test_one_strong_tag_is_of_one_sequence_of_bytes(client: TestClient) -> None:
    """RFC 9110, 8.8.1 and 8.8.3.3: a strong tag differs where the coding of the content does."""
    paths = ["/openapi.json", "/guides/errors", "/docs/assets/swagger-ui.css", "/docs/assets/docs.js", "/v1/entries/a"]
    for path in paths:
        seen: dict[str, set[bytes]] = {}
        for coding in ("gzip", "identity"):
            with client.stream("GET", path, headers={"accept-encoding": coding}) as response:
                seen.setdefault(response.headers["etag"], set()).add(b"".join(response.iter_raw()))
        assert all(tag.startswith("W/") or len(contents) == 1 for tag, contents in seen.items()), path
        for tag in seen:
            assert client.get(path, headers={"if-none-match": tag}).status_code == 304 or len(seen) > 1


def test_several_lines_of_one_name_are_one_list(client: TestClient) -> None:
    """RFC 9110, 5.3."""
    pdf_or_json = [("accept", "application/pdf"), ("accept", "application/json;q=0.5")]
    assert client.get("/livez", headers=pdf_or_json).status_code == 200
    tags = [("if-none-match", '"other"'), ("if-none-match", '"r3"')]
    assert client.get("/v1/entries/a", headers=tags).status_code == 304
    both = [("content-type", "application/json"), ("content-type", "text/plain")]
    assert_problem(client.post("/v1/trials", content=b"{}", headers=both), 415, "unsupported-media-type")
    two = [("if-match", '"r3"'), ("if-match", '"r2"')]
    assert_problem(client.put("/v1/entries/a", json={"id": "saw"}, headers=two), 422, "invalid-request")
    ids = [("x-request-id", "a"), ("x-request-id", "b")]
    assert re.fullmatch(r"[0-9a-f]{32}", client.get("/livez", headers=ids).headers["x-request-id"])


def test_what_would_have_been_read_is_named(client: TestClient) -> None:
    """RFC 9110, 15.5.16: Accept for the media type, Accept-Encoding for the coding."""
    wrong = client.post("/v1/trials", content=b"<a/>", headers={"content-type": "application/xml"})
    assert (wrong.status_code, wrong.headers["accept"]) == (415, "application/json")
    packed = {"content-type": "application/json", "content-encoding": "gzip"}
    wrong = client.post("/v1/trials", content=gzip.compress(b"{}"), headers=packed)
    assert (wrong.status_code, wrong.headers["accept-encoding"]) == (415, "identity")


@pytest.mark.parametrize("accept", ["application/pdf", "application/vnd.msgpack", "application/json;q=0", "image/*"])
def test_nothing_acceptable_is_406(client: TestClient, accept: str) -> None:
    with pytest.raises(ProblemError, match="not-acceptable"):
        choose(accept, ("application/json",))
    assert_problem(client.post("/v1/trials", json=GOOD, headers={"accept": accept}), 406, "not-acceptable")


def test_other_rendering(client: TestClient) -> None:
    response = client.post("/v1/trials", json=GOOD, headers={"accept": "text/plain"})
    assert response.headers["content-type"] == "text/plain; charset=utf-8"
    assert response.text == "1 things\n"
    assert "accept" in response.headers["vary"].lower()


def test_large_answers_are_compressed(client: TestClient) -> None:
    large = GOOD | {"note": "x" * 10_000}
    response = client.post("/v1/trials", json=large, headers={"accept-encoding": "gzip"})
    assert response.headers["content-encoding"] == "gzip"
    assert "accept-encoding" in response.headers["vary"].lower()
    assert int(response.headers["content-length"]) < 1000
    assert response.json()["note"] == "x" * 10_000
    plain = client.post("/v1/trials", json=large, headers={"accept-encoding": "identity"})
    assert "content-encoding" not in plain.headers
    assert "content-encoding" not in client.post("/v1/trials", json=GOOD, headers={"accept-encoding": "gzip"}).headers


def test_cors_is_by_setting(client: TestClient) -> None:
    # WHATWG Fetch, CORS protocol.
    mine = client.get("/livez", headers={"origin": "https://site.example"})
    assert mine.headers["access-control-allow-origin"] == "https://site.example"
    assert "x-request-id" in mine.headers["access-control-expose-headers"].lower()
    assert mine.headers["vary"] == "Origin"
    other = client.get("/livez", headers={"origin": "https://other.example"})
    assert "access-control-allow-origin" not in other.headers
    asked = {"origin": "https://site.example", "access-control-request-method": "POST"}
    preflight = client.options("/v1/trials", headers=asked)
    assert preflight.status_code == 204
    assert "POST" in preflight.headers["access-control-allow-methods"]
    assert "content-type" in preflight.headers["access-control-allow-headers"].lower()


def test_deprecation_is_announced(client: TestClient) -> None:
    response = client.get("/v1/given-up")
    # 2026-01-01T00:00:00Z is 1767225600 s after the epoch (`date -u -d 2026-01-01 +%s`); RFC 9745, 2.1; RFC 8594, 3.
    assert response.headers["deprecation"] == "@1767225600"
    assert response.headers["sunset"] == "Fri, 01 Jan 2027 00:00:00 GMT"
    assert 'rel="deprecation"' in response.headers["link"]
    # A stream as well; without a day of its end it says only that it is deprecated.
    lines = client.get("/v1/given-up-lines")
    assert lines.headers["content-type"] == "application/x-ndjson"
    assert lines.headers["deprecation"] == "@1767225600"
    assert "sunset" not in lines.headers
    assert "deprecation" not in client.get("/livez").headers


def test_conditional_get(client: TestClient) -> None:
    tag = client.get("/v1/entries/a").headers["etag"]
    for header in (tag, f'"other", {tag}', f"W/{tag}", "*"):
        response = client.get("/v1/entries/a", headers={"if-none-match": header})
        assert response.status_code == 304
        assert response.content == b""
        assert response.headers["etag"] == tag
    assert client.get("/v1/entries/a", headers={"if-none-match": '"r2"'}).status_code == 200


def test_writing_needs_a_precondition(client: TestClient) -> None:
    item = {"id": "saw"}
    assert_problem(client.put("/v1/entries/a", json=item), 428, "precondition-required")
    stale = client.put("/v1/entries/a", json=item, headers={"if-match": '"r2"'})
    assert_problem(stale, 412, "precondition-failed")
    for garbage in ("r3", '"r03"', '"r3', "*", 'W/"r3"', '"r9999999999"', '"r3", "r4"'):
        problem = assert_problem(
            client.put("/v1/entries/a", json=item, headers={"if-match": garbage}), 422, "invalid-request"
        )
        assert problem["errors"][0]["parameter"] == "If-Match"
    written = client.put("/v1/entries/a", json=item, headers={"if-match": '"r3"'})
    assert written.status_code == 201
    assert written.headers["etag"] == '"r4"'


@pytest.mark.parametrize(
    ("query", "parameter", "code"),
    [
        ("limit=0", "limit", "out_of_range"),
        ("limit=201", "limit", "out_of_range"),
        ("limit=ten", "limit", "wrong_type"),
        ("limit=", "limit", "wrong_type"),
        ("limit=1.5", "limit", "wrong_type"),
        ("limit=%D9%A5", "limit", "wrong_type"),
        ("limit=" + "9" * 4000, "limit", "out_of_range"),
        ("limit=1&limit=2", "limit", "duplicate_parameter"),
        ("limt=1", "limt", "unknown_parameter"),
        ("tag=a&tag=b&tag=c&tag=d", "tag", "out_of_range"),
    ],
)
def test_query_parameter_is_pointed_at(client: TestClient, query: str, parameter: str, code: str) -> None:
    problem = assert_problem(client.get(f"/v1/entries/a?{query}"), 422, "invalid-request")
    [fault] = problem["errors"]
    assert (fault["parameter"], fault["code"]) == (parameter, code)
    assert "pointer" not in fault


def test_parameters_are_read(client: TestClient) -> None:
    assert client.get("/v1/entries/a?limit=7&tag=x&tag=y").json() == {"slug": "a", "limit": 7, "tags": ["x", "y"]}
    problem = assert_problem(client.get("/v1/entries/A-1"), 422, "invalid-request")
    assert problem["errors"][0]["parameter"] == "slug"
    assert_problem(client.get("/v1/entries/none"), 404, "no-such-entry")


def test_every_problem_type_has_its_page(client: TestClient) -> None:
    listed = client.get("/problems").json()["items"]
    assert sorted(row["code"] for row in listed) == sorted(PROBLEM_TYPES)
    for row in listed:
        page = client.get(row["type"])
        assert page.json() == row
        html = client.get(row["type"], headers={"accept": "text/html"})
        assert html.headers["content-type"] == "text/html; charset=utf-8"
        assert row["title"] in html.text


def test_readyz_gives_reasons(tmp_path: Path) -> None:
    """Without tables the service lives, is not ready, says why, and answers nothing under /v1."""
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'nothing.db'}")
    with TestClient(create_app(settings, resources=(trial_resource.operations,))) as client:
        response = client.get("/readyz")
        problem = assert_problem(response, 503, "not-ready")
        [reason] = [fault["message"] for fault in problem["errors"] if fault["code"] == "database_not_ready"]
        assert "ampwright migrate" in reason  # a fresh installation: the service is well, and nobody made its tables
        assert response.headers["retry-after"].isdigit()
        assert client.get("/livez").json() == {"status": "alive"}
        refused = client.post("/v1/trials", json=GOOD)
        assert_problem(refused, 503, "not-ready")
        assert refused.headers["retry-after"].isdigit()


def test_compressed_body_is_what_gzip_says(client: TestClient) -> None:
    with client.stream("GET", "/openapi.json", headers={"accept-encoding": "gzip"}) as response:
        packed = b"".join(response.iter_raw())
    assert msgspec.json.decode(gzip.decompress(packed))["openapi"] == "3.1.0"


def test_hostile_names_are_escaped_in_html(client: TestClient) -> None:
    started = time.monotonic()
    response = client.get("/problems/%3Cscript%3Ealert(1)%3C%2Fscript%3E", headers={"accept": "text/html"})
    assert "<script>" not in response.text
    assert time.monotonic() - started < 5
