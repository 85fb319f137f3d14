"""Do the words say what changed, and the pointers where?"""

import json
from typing import Any

import pytest
from ampwright.catalogue.differences import differences
from hypothesis import given
from hypothesis import strategies as st


def told(old: Any, new: Any) -> list[tuple[str, str]]:
    found = differences(json.dumps(old).encode(), json.dumps(new).encode())
    return [(difference.pointer, difference.text) for difference in found]


def test_a_saw_whose_plate_was_read_again() -> None:
    old = {
        "name": "Circular saw",
        "supply_options": [{"id": "120", "voltage": "120 V", "current": "13 A"}],
        "load_states": [{"id": "working", "power": "1120 W"}, {"id": "idle", "power": "300 W"}],
        "restart_protection": False,
        "leakage": "0.5 mA",
    }
    new = {
        "name": "Circular saw",
        "supply_options": [{"id": "230", "voltage": "230 V"}, {"id": "120", "voltage": "120 V", "current": "15 A"}],
        "load_states": [{"id": "working", "power": "1120 W", "power_factor": 0.97}],
        "restart_protection": True,
        "plugs": ["5-15P", "5-20P"],
    }
    assert told(old, new) == [
        ("/leakage", "leakage: no longer stated, was 0.5 mA"),
        ("/load_states/0/power_factor", "load states working, power factor: 0.97, not stated before"),
        ("/load_states/1", "load states idle: no longer stated, was (id idle, power 300 W)"),
        ("/plugs", "plugs: 5-15P, 5-20P, not stated before"),
        ("/restart_protection", "restart protection: yes instead of no"),
        ("/supply_options/0", "supply options 230: (id 230, voltage 230 V), not stated before"),
        ("/supply_options/1/current", "supply options 120, current: 15 A instead of 13 A"),
    ]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}),
        ({"a": 1.5}, {"a": 1.50}),
        ({"a": [{"id": "x"}, {"id": "y"}]}, {"a": [{"id": "y"}, {"id": "x"}]}),
        ({}, {}),
    ],
)
def test_what_makes_no_difference(old: Any, new: Any) -> None:
    assert told(old, new) == []


@pytest.mark.parametrize(
    ("old", "new", "pointer", "text"),
    [
        ({"a": True}, {"a": 1}, "/a", "a: 1 instead of yes"),
        ({"a": ["x", "y"]}, {"a": ["y", "x"]}, "/a", "a: y, x instead of x, y"),
        ({"a": []}, {"a": ["x"]}, "/a", "a: x instead of nothing"),
        ({"a/b~c": 1}, {"a/b~c": 2}, "/a~1b~0c", "a/b~c: 2 instead of 1"),
        ({"a": {"b": 1}}, {"a": "b"}, "/a", "a: b instead of (b 1)"),
        ({"a": [{"id": "x"}, {"id": "x"}]}, {"a": [{"id": "x"}]}, "/a", "a: (id x) instead of (id x), (id x)"),
        ({"a": "x" * 200}, {"a": "y"}, "/a", f"a: y instead of {'x' * 79}…"),
    ],
)
def test_kinds_of_values(old: Any, new: Any, pointer: str, text: str) -> None:
    assert told(old, new) == [(pointer, text)]


LEAVES = st.booleans() | st.integers(-5, 5) | st.floats(-5, 5, allow_nan=False) | st.text(max_size=5)
DOCUMENTS = st.dictionaries(
    st.text(max_size=3),
    st.recursive(LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner)),
    max_size=4,
)


def resolved(document: Any, pointer: str) -> Any:
    """The value at a pointer, by RFC 6901, section 4."""
    for step in pointer.split("/")[1:]:
        name = step.replace("~1", "/").replace("~0", "~")
        document = document[int(name)] if isinstance(document, list) else document[name]
    return document


@given(DOCUMENTS, DOCUMENTS)
def test_pointers_lead_to_the_values(old: Any, new: Any) -> None:
    old, new = json.loads(json.dumps(old)), json.loads(json.dumps(new))
    found = differences(json.dumps(old).encode(), json.dumps(new).encode())
    assert differences(json.dumps(old).encode(), json.dumps(old).encode()) == ()
    # bool counts as another value than the number that Python holds equal to it
    if json.dumps(old, sort_keys=True) == json.dumps(new, sort_keys=True):
        assert found == ()
    for difference in found:
        if difference.change != "removed":
            assert resolved(new, difference.pointer) == difference.after
        if difference.change == "removed":
            assert resolved(old, difference.pointer) == difference.before
    back = differences(json.dumps(new).encode(), json.dumps(old).encode())
    assert len(back) == len(found)
