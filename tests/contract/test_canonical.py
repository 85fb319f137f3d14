"""Do equal documents have equal bytes, and unequal ones not?"""

import hashlib
import json
from typing import Any

import msgspec
import pytest
from ampwright.contract.canonical import UnsoundText, canonical_bytes, request_digest
from ampwright.contract.documents import CordDocument
from ampwright.contract.load_checks import LoadCheckRequest

CORD = b'{"size":"14 AWG","name":"caf\xc3\xa9 cord","origin":"estimate","outlets":{"type":"5-15R","count":3}}'


def cord(body: bytes) -> CordDocument:
    return msgspec.json.decode(body, type=CordDocument)


def test_canonical_form_is_sorted_json_without_white_space() -> None:
    expected: dict[str, Any] = json.loads(CORD)
    written = canonical_bytes(cord(CORD))
    # the definition, by another JSON library: sorted members, no blanks, UTF-8 as it is
    assert written == json.dumps(expected, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def test_order_white_space_and_composition_do_not_matter() -> None:
    # UAX 15: e followed by U+0301 composes to U+00E9
    other = (
        b'{ "outlets": {"count": 3, "type": "5-15R"}, "origin": "estimate",'
        b' "name": "cafe\xcc\x81 cord", "size": "14 AWG"}'
    )
    assert canonical_bytes(cord(other)) == canonical_bytes(cord(CORD))


def test_canonical_bytes_are_their_own_canonical_form() -> None:
    once = canonical_bytes(cord(CORD))
    assert canonical_bytes(cord(once)) == once


@pytest.mark.parametrize("character", ["\u202e", "\u2028", "\u0378", "\ud7ff\u2066"])
def test_texts_that_show_something_else_are_refused(character: str) -> None:
    body = json.dumps({"name": f"cord{character}", "origin": "estimate"}).encode()
    with pytest.raises(UnsoundText) as refused:
        canonical_bytes(cord(body))
    assert refused.value.pointer == "/name"


def test_control_characters_do_not_even_decode() -> None:
    with pytest.raises(msgspec.ValidationError):
        cord(b'{"name": "cord\\u0000", "origin": "estimate"}')


REQUEST = b'{"source":{"kind":"vehicle","voltage":"120 V"},"tools":[{"id":"saw","name":"caf\xc3\xa9"}],"people":2}'


def test_the_digest_is_of_the_decoded_request() -> None:
    other = (
        b'{"people": 2, "tools": [{"name": "cafe\xcc\x81", "id": "saw"}],'
        b' "source": {"voltage": "120 V", "kind": "vehicle"}}'
    )
    digests = {request_digest(msgspec.json.decode(body, type=LoadCheckRequest)) for body in (REQUEST, other)}
    plain = json.dumps(json.loads(REQUEST), sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    assert digests == {"sha256:" + hashlib.sha256(plain).hexdigest()}


@pytest.mark.parametrize(
    "body",
    [
        REQUEST.replace(b"120 V", b"230 V"),
        REQUEST.replace(b'"people":2', b'"people":3'),
        REQUEST.replace(b',"people":2', b""),
        REQUEST.replace(b'"saw"', b'"Saw"'),
        REQUEST.replace(b"}]", b',"restart_protection":false}]'),  # a statement is more than silence
    ],
)
def test_another_request_has_another_digest(body: bytes) -> None:
    one = request_digest(msgspec.json.decode(REQUEST, type=LoadCheckRequest))
    assert request_digest(msgspec.json.decode(body, type=LoadCheckRequest)) != one
