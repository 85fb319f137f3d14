"""Do the steps do what RFC 6902 says? Its own examples (appendix A), as far as they are of the three operations."""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.contract.json_steps import apply_steps


@pytest.mark.parametrize(
    ("before", "step", "after"),
    [
        ({"foo": "bar"}, ("add", "/baz", "qux"), {"baz": "qux", "foo": "bar"}),  # A.1
        ({"foo": ["bar", "baz"]}, ("add", "/foo/1", "qux"), {"foo": ["bar", "qux", "baz"]}),  # A.2
        ({"baz": "qux", "foo": "bar"}, ("remove", "/baz", None), {"foo": "bar"}),  # A.3
        ({"foo": ["bar", "qux", "baz"]}, ("remove", "/foo/1", None), {"foo": ["bar", "baz"]}),  # A.4
        ({"baz": "qux"}, ("replace", "/baz", "boo"), {"baz": "boo"}),  # A.5
        ({"foo": "bar"}, ("add", "/child", {"grandchild": {}}), {"foo": "bar", "child": {"grandchild": {}}}),  # A.10
        ({"foo": "bar"}, ("add", "/baz/bat", "qux"), None),  # A.12
        ({"foo": ["bar"]}, ("add", "/foo/-", ["abc"]), {"foo": ["bar", ["abc"]]}),  # A.16
        ({"/": 9, "~1": 10}, ("replace", "/~01", 11), {"/": 9, "~1": 11}),  # A.14, as a replacement
        ({"foo": ["bar"]}, ("add", "/foo/9", "qux"), None),
        ({"foo": ["bar"]}, ("replace", "/foo/1", "qux"), None),
        ({"foo": "bar"}, ("remove", "/baz", None), None),
        ({"foo": ["bar"]}, ("replace", "/foo/x", 1), None),
    ],
)
def test_examples_of_the_standard(before: Any, step: tuple[str, str, Any], after: Any) -> None:
    kept = repr(before)
    assert apply_steps(before, [step]) == after
    assert repr(before) == kept
