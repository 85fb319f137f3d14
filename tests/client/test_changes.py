"""Are proposed changes made as JSON Patch says?"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from ampwright_client import (
    UnknownMembers,
    load_check,
    models,
    read_request,
    tool,
    unknown_members,
    vehicle,
    with_changes,
)
from msgspec import UNSET, Struct, field


class Document(Struct):
    """The members of the examples of RFC 6902."""

    foo: Any = UNSET
    baz: Any = UNSET
    slash: Any = field(name="/", default=UNSET)
    tilde: Any = field(name="~1", default=UNSET)


# RFC 6902, appendix A: the number of the example, the document, the operation, the result.
EXAMPLES = [
    ("A.1", {"foo": "bar"}, ("add", "/baz", "qux"), {"baz": "qux", "foo": "bar"}),
    ("A.2", {"foo": ["bar", "baz"]}, ("add", "/foo/1", "qux"), {"foo": ["bar", "qux", "baz"]}),
    ("A.3", {"baz": "qux", "foo": "bar"}, ("remove", "/baz", UNSET), {"foo": "bar"}),
    ("A.4", {"foo": ["bar", "qux", "baz"]}, ("remove", "/foo/1", UNSET), {"foo": ["bar", "baz"]}),
    ("A.5", {"baz": "qux", "foo": "bar"}, ("replace", "/baz", "boo"), {"baz": "boo", "foo": "bar"}),
    ("A.16", {"foo": ["bar"]}, ("add", "/foo/-", ["abc", "def"]), {"foo": ["bar", ["abc", "def"]]}),
    # Made of A.14, which tests the same pointer: `~01` is the member `~1`.
    ("A.14", {"/": 9, "~1": 10}, ("replace", "/~01", 11), {"/": 9, "~1": 11}),
]


@pytest.mark.parametrize(("example", "before", "step", "after"), EXAMPLES, ids=[one[0] for one in EXAMPLES])
def test_examples_of_the_standard(example: str, before: Any, step: Any, after: Any) -> None:
    document = msgspec.convert(before, Document)
    change = models.Change(op=step[0], path=step[1], value=step[2])
    assert msgspec.to_builtins(with_changes(document, [change])) == after
    assert msgspec.to_builtins(document) == before


@pytest.mark.parametrize(
    ("op", "path"),
    [
        ("add", "/baz/bat"),  # RFC 6902, A.12: the target does not exist
        ("remove", "/baz"),  # 4.2: the target must exist
        ("replace", "/baz"),  # 4.3: the target must exist
        ("add", "/foo/7"),  # 4.1: no index may be past the end
        ("add", "/foo/-1"),  # RFC 6901, 4: an index is digits
        ("remove", "/foo/1"),
        ("add", "foo"),  # RFC 6901, 3: a pointer starts with a slash
    ],
)
def test_what_does_not_fit_is_refused(op: Any, path: str) -> None:
    with pytest.raises(ValueError, match="does not fit"):
        with_changes(Document(foo=["bar"]), [models.Change(op=op, path=path, value="x")])


def test_a_member_that_would_be_lost_is_refused() -> None:
    request = load_check(vehicle("120 V"), tool("saw", load_class="circular_saw"))
    change = models.Change(op="add", path="/tools/0/member_of_2031", value=True)
    with pytest.raises(UnknownMembers) as unknown:
        with_changes(request, [change])
    assert unknown.value.pointers == ["/tools/0/member_of_2031"]
    wrong = models.Change(op="add", path="/tools/0/switch", value=[1])
    with pytest.raises(ValueError, match="LoadCheckRequest"):
        with_changes(request, [wrong])


def test_a_misspelt_member_of_a_file_is_seen() -> None:
    text = (
        b'{"source": {"kind": "vehicle", "voltage": "120 V", "a/b": 1}, "tools": [{"id": "saw", "swich": "automatic"}]}'
    )
    with pytest.raises(UnknownMembers) as unknown:
        read_request(models.LoadCheckRequest, text)
    assert unknown.value.pointers == ["/source/a~1b", "/tools/0/swich"]
    right = text.replace(b"swich", b"switch").replace(b', "a/b": 1', b"")
    assert unknown_members(right, read_request(models.LoadCheckRequest, right)) == []
