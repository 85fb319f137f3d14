"""What happens to a body that nobody should have sent?"""

from __future__ import annotations

import json
from typing import Any

import pytest
from ampwright.api.body import decode
from ampwright.api.problems import ProblemError
from api.trial_resource import TrialRequest, assert_problem
from litestar.testing import TestClient

GOOD = b'{"items":[{"id":"saw"}]}'
JSON = {"content-type": "application/json"}


def post(client: Any, body: bytes, headers: dict[str, str] | None = None) -> Any:
    return client.post("/v1/trials", content=body, headers=JSON if headers is None else headers)


def test_good_body_is_answered(client: TestClient) -> None:
    response = post(client, GOOD)
    assert response.status_code == 200
    assert response.headers["content-type"] == "application/json"
    assert response.json() == {"count": 1, "laid": [], "note": ""}


# RFC 8259: one JSON text (2), no NaN or Infinity (6), UTF-8 (8.1); RFC 3629 gives what UTF-8 is not.
NOT_JSON = {
    "nothing": b"",
    "blank": b" \n",
    "cut short": GOOD[:-1],
    "two texts": GOOD + GOOD,
    "trailing comma": b'{"items":[],}',
    "single quotes": b"{'items':[]}",
    "comment": b'{"items":[] /* none */}',
    "byte order mark": b"\xef\xbb\xbf" + GOOD,
    "UTF-16": GOOD.decode().encode("utf-16"),
    "UTF-32": GOOD.decode().encode("utf-32-le"),
    "stray byte in a value": b'{"items":[{"id":"\xff"}]}',
    "stray byte in a name": b'{"items":[],"\xff":1}',
    "overlong slash": b'{"items":[],"note":"\xc0\xaf"}',
    "surrogate in UTF-8": b'{"items":[{"id":"a"}],"note":"\xed\xa0\x80"}',
    "lone escaped surrogate": b'{"items":[{"id":"a"}],"note":"\\ud800 and more text"}',
    "raw control character": b'{"items":[{"id":"a"}],"note":"\x01"}',
    "NaN": b'{"items":[{"id":"a"}],"sleeps_s":NaN}',
    "Infinity": b'{"items":[{"id":"a"}],"sleeps_s":Infinity}',
    "minus infinity": b'{"items":[{"id":"a"}],"sleeps_s":-Infinity}',
    "hexadecimal": b'{"items":[{"id":"a"}],"sleeps_s":0x1}',
    "leading zero": b'{"items":[{"id":"a"}],"sleeps_s":01}',
    "deep array": b"[" * 100_000,
    "deep array, closed": b'{"items":' + b"[" * 100_000 + b"]" * 100_000 + b"}",
    "deep object": b'{"a":' * 100_000 + b"1" + b"}" * 100_000,
    "deep unknown member": b'{"items":[{"id":"a"}],"zz":' + b"[" * 100_000 + b"]" * 100_000 + b"}",
    "zip": b"PK\x03\x04" + bytes(range(256)),
}


@pytest.mark.parametrize("body", NOT_JSON.values(), ids=NOT_JSON)
def test_what_is_not_json_is_malformed(client: TestClient, body: bytes) -> None:
    assert_problem(post(client, body), 400, "malformed-body")


# RFC 6901: where each fault is, for a person who counts from the request that was sent.
MISFITS: dict[str, tuple[bytes, str, str]] = {
    "not an object": (b"[]", "", "wrong_type"),
    "null": (b"null", "", "wrong_type"),
    "a string": (b'"items"', "", "wrong_type"),
    "member missing": (b"{}", "/items", "missing_member"),
    "member missing below": (b'{"items":[{"id":"a"},{}]}', "/items/1/id", "missing_member"),
    "unknown member": (b'{"items":[{"id":"a"}],"itmes":1}', "/itmes", "unknown_member"),
    "unknown member below": (b'{"items":[{"id":"a","mod":"idle"}]}', "/items/0/mod", "unknown_member"),
    "unknown member with a slash": (b'{"items":[{"id":"a"}],"a/b~c":1}', "/a~1b~0c", "unknown_member"),
    "null member": (b'{"items":null}', "/items", "wrong_type"),
    "null optional member": (b'{"items":[{"id":"a","ratio":null}]}', "/items/0/ratio", "wrong_type"),
    "string for a number": (b'{"items":[{"id":"a","ratio":"0.5"}]}', "/items/0/ratio", "wrong_type"),
    "number for a string": (b'{"items":[{"id":5}]}', "/items/0/id", "wrong_type"),
    "true for a number": (b'{"items":[{"id":"a"}],"sleeps_s":true}', "/sleeps_s", "wrong_type"),
    "number for a boolean": (b'{"items":[{"id":"a","flags":[1]}]}', "/items/0/flags/0", "wrong_type"),
    "object for a list": (b'{"items":{}}', "/items", "wrong_type"),
    "out of range": (b'{"items":[{"id":"a","ratio":1.01}]}', "/items/0/ratio", "out_of_range"),
    "huge float": (b'{"items":[{"id":"a"}],"sleeps_s":1e400}', "/sleeps_s", "out_of_range"),
    "huge integer": (
        b'{"items":[{"id":"a","laid":{"kind":"reel","layers":' + b"9" * 5000 + b"}}]}",
        "/items/0/laid/layers",
        "out_of_range",
    ),
    "empty list": (b'{"items":[]}', "/items", "out_of_range"),
    "list too long": (b'{"items":[' + b",".join([b'{"id":"a"}'] * 51) + b"]}", "/items", "out_of_range"),
    "wrong form": (b'{"items":[{"id":"A B"}]}', "/items/0/id", "wrong_form"),
    "newline after the form": (
        b'{"items":[{"id":"a","laid":{"kind":"straight","length":"5 m\\n"}}]}',
        "/items/0/laid/length",
        "wrong_form",
    ),
    "Arabic digits": (
        '{"items":[{"id":"a","laid":{"kind":"straight","length":"٥٠ ft"}}]}'.encode(),
        "/items/0/laid/length",
        "wrong_form",
    ),
    "not in the list": (b'{"items":[{"id":"a","mode":"hevy"}]}', "/items/0/mode", "not_listed"),
    "unknown kind": (b'{"items":[{"id":"a","laid":{"kind":"rel"}}]}', "/items/0/laid/kind", "not_listed"),
    "no kind": (b'{"items":[{"id":"a","laid":{"layers":1}}]}', "/items/0/laid/kind", "missing_member"),
    "member of the other kind": (
        b'{"items":[{"id":"a","laid":{"kind":"reel","layers":1,"length":"5 m"}}]}',
        "/items/0/laid/length",
        "unknown_member",
    ),
}


@pytest.mark.parametrize(("body", "pointer", "code"), MISFITS.values(), ids=MISFITS)
def test_misfit_is_pointed_at(client: TestClient, body: bytes, pointer: str, code: str) -> None:
    problem = assert_problem(post(client, body), 422, "invalid-request")
    [fault] = problem["errors"]
    assert (fault["pointer"], fault["code"]) == (pointer, code)
    assert len(fault["message"]) <= 300


@pytest.mark.parametrize(
    ("body", "meant"),
    [
        (b'{"items":[{"id":"a"}],"itmes":1}', "items"),
        (b'{"items":[{"id":"a","laid":{"kind":"straight","lenght":"5 m"}}]}', "length"),
        (b'{"items":[{"id":"a","mode":"hevy"}]}', "heavy"),
        (b'{"items":[{"id":"a","laid":{"kind":"rel","layers":1}}]}', "reel"),
    ],
)
def test_nearest_word_is_offered(client: TestClient, body: bytes, meant: str) -> None:
    problem = assert_problem(post(client, body), 422, "invalid-request")
    assert problem["errors"][0]["did_you_mean"] == meant


def test_form_is_explained_by_example(client: TestClient) -> None:
    body = b'{"items":[{"id":"a","laid":{"kind":"straight","length":"5"}}]}'
    problem = assert_problem(post(client, body), 422, "invalid-request")
    assert "30 m" in problem["errors"][0]["message"]


@pytest.mark.parametrize(
    ("number", "accepted"), [("4", True), ("4.0", True), ("40e-1", True), ("4.5", False), ("7.0", False)]
)
def test_number_without_fraction_is_an_integer(client: TestClient, number: str, accepted: bool) -> None:
    # JSON Schema 2020-12, validation, 6.1.1: "integer" matches any number with a zero fractional part.
    body = f'{{"items":[{{"id":"a","laid":{{"kind":"reel","layers":{number}}},"ratio":1.0}}]}}'.encode()
    response = post(client, body)
    if accepted:
        assert response.json()["laid"] == [{"kind": "reel", "layers": 4}]
    else:
        assert assert_problem(response, 422, "invalid-request")["errors"][0]["pointer"] == "/items/0/laid/layers"


# RFC 8259, 4: names within an object should be unique; what happens otherwise is unpredictable.
DUPLICATES = {
    "top": (b'{"items":[{"id":"a"}],"note":"x","note":"y"}', "/note"),
    "below": (b'{"items":[{"id":"a"},{"id":"b","ratio":0.1,"ratio":0.2}]}', "/items/1/ratio"),
    "equal values": (b'{"items":[{"id":"a","mode":"idle","mode":"idle"}]}', "/items/0/mode"),
    "escaped name": (b'{"items":[{"id":"a"}],"note":"x","n\\u006fte":"y"}', "/note"),
    "the kind": (b'{"items":[{"id":"a","laid":{"kind":"reel","layers":1,"kind":"reel"}}]}', "/items/0/laid/kind"),
}


@pytest.mark.parametrize(("body", "pointer"), DUPLICATES.values(), ids=DUPLICATES)
def test_member_given_twice_is_refused(client: TestClient, body: bytes, pointer: str) -> None:
    response = post(client, body)
    problem = assert_problem(response, 400, "malformed-body")
    [fault] = problem["errors"]
    assert (fault["pointer"], fault["code"]) == (pointer, "duplicate_member")


MEDIA = {
    "none": {},
    "text": {"content-type": "text/plain"},
    "XML": {"content-type": "application/xml"},
    "form": {"content-type": "application/x-www-form-urlencoded"},
    "parts": {"content-type": "multipart/form-data; boundary=x"},
    "MessagePack": {"content-type": "application/vnd.msgpack"},
    "JSON of another kind": {"content-type": "application/merge-patch+json"},
    "another charset": {"content-type": "application/json; charset=latin-1"},
    "empty": {"content-type": ""},
    "nonsense": {"content-type": ";;;=,"},
    "gzip": JSON | {"content-encoding": "gzip"},
    "identity": JSON | {"content-encoding": "identity"},
}


@pytest.mark.parametrize("headers", MEDIA.values(), ids=MEDIA)
def test_other_media_types_are_refused(client: TestClient, headers: dict[str, str]) -> None:
    assert_problem(post(client, GOOD, headers), 415, "unsupported-media-type")


@pytest.mark.parametrize(
    "kind", ["application/json; charset=utf-8", "Application/JSON", 'application/json;charset="UTF-8"']
)
def test_json_may_be_written_otherwise(client: TestClient, kind: str) -> None:
    assert post(client, GOOD, {"content-type": kind}).status_code == 200


def test_body_of_5_mb_is_too_large(client: TestClient) -> None:
    body = json.dumps({"items": [{"id": "a"}], "note": "x" * 5_000_000}).encode()
    assert_problem(post(client, body), 413, "body-too-large")


def test_all_faults_of_the_content_are_listed(client: TestClient) -> None:
    body = b'{"items":[{"id":"a"},{"id":"a"},{"id":"b"},{"id":"b"}]}'
    problem = assert_problem(post(client, body), 422, "contradictory-request")
    assert [fault["pointer"] for fault in problem["errors"]] == ["/items/1/id", "/items/3/id"]


def test_a_megabyte_of_an_unknown_name_costs_nothing(client: TestClient) -> None:
    body = b'{"items":[{"id":"a"}],"' + b"z" * 900_000 + b'":1}'
    response = post(client, body)
    assert_problem(response, 422, "invalid-request")
    assert len(response.content) < 1_000_000 + 2_000


def test_decode_raises_nothing_else() -> None:
    """Every cut of a good body, and every byte of it replaced, is read or refused."""
    whole = b'{"items":[{"id":"saw","laid":{"kind":"reel","layers":2},"ratio":0.5,"flags":[true]}],"note":"\\u00e9"}'
    broken = [whole[:end] for end in range(len(whole))]
    broken += [
        whole[:at] + bytes([byte]) + whole[at + 1 :] for at in range(len(whole)) for byte in (0, 34, 44, 92, 255)
    ]
    refused = [body for body in broken if _refusal(body) in (400, 422)]
    assert len(refused) > len(broken) // 2


def _refusal(body: bytes) -> int | None:
    try:
        decode(body, TrialRequest)
    except ProblemError as error:
        return error.kind.status
    return None


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b'{"items":[{"id":"s\xffw"}]}', "Byte 18 is not UTF-8"),
        (b'{"items":[{"id":"saw"}]}\xff', "Byte 24 is not UTF-8"),
        (b'{"items":[{"id":"s\\ud800w"}]}', "escape at byte 18 is half"),
        (b'{"items":[{"id":"s\\udc00w"}]}', "escape at byte 18 is half"),
        (b'{"\\ud800\\ud800":1}', "escape at byte 2 is half"),
    ],
)
def test_the_byte_that_is_no_text_is_counted_over_the_whole_body(client: TestClient, body: bytes, says: str) -> None:
    problem = assert_problem(post(client, body), 400, "malformed-body")
    assert says in problem["detail"]
