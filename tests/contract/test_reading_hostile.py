"""Whatever text stands in a request, is it read or told as a fault, and never an error?"""

from __future__ import annotations

import copy
from typing import Any

import msgspec
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.validation import MOST_FAULTS, validate
from hypothesis import given, settings
from hypothesis import strategies as st

REQUEST: dict[str, Any] = {
    "source": {
        "kind": "engine_generator",
        "voltage": "120/240 V",
        "legs": [{"id": "L1", "angle": "0 deg"}, {"id": "L2", "angle": "180 deg"}],
        "limits": [
            {"id": "set", "over": ["L1"], "continuous": "4000 VA", "tiers": [{"amount": "5 kW", "lasts": "3 s"}]}
        ],
        "circuits": [
            {"id": "C1", "legs": ["L1"], "resistance": "20 mohm", "device": {"kind": "fuse", "rating": "20 A"}}
        ],
        "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A", "circuit": "C1", "location": "left"}],
        "resistance": "0.05 pu",
        "availability": [{"when": "load_below", "at": "15 W", "works": False}],
        "running": "5500 W",
        "starting": "6500 W",
        "transient_reactance": "0.18 pu",
        "tank": "24 l",
    },
    "tools": [
        {
            "id": "saw",
            "name": "saw",
            "load_class": "circular_saw",
            "shaft_power": "1.5 hp",
            "supply_options": [
                {
                    "id": "us",
                    "voltage": "120 V",
                    "plug": "5-15P",
                    "current": "14..15 A",
                    "apparent_power": "1800 VA",
                    "load_states": [{"id": "heavy", "power": "2000 W", "lasts": "20 s"}],
                }
            ],
            "start": {"kind": "measured", "peak": "75 A", "lasts": "0.6 s", "at": "118 V"},
            "lowest_voltage": "104 V",
            "leakage": "0.2 mA",
            "follows": "fan",
            "on": "60 s",
            "off": "120 s",
        },
        {"id": "fan"},
    ],
    "cords": [
        {
            "id": "long",
            "length": "100 ft",
            "size": "14 AWG",
            "type": "SJTW",
            "insulation_temperature": "60 degC",
            "marked": "13 A",
            "plug": "5-15P",
            "outlets": {"type": "5-15R", "rating": "15 A", "count": 3},
        }
    ],
    "connections": [{"plug": "long", "into": "R1"}, {"plug": "saw", "into": "long"}, {"plug": "fan", "into": "long"}],
    "cases": [{"id": "one", "running": ["saw", "fan"], "start_order": ["fan", "saw"]}],
    "conditions": {"ambient": "10..30 degC"},
    "code_basis": ["osha-1926"],
}


def _texts(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    if isinstance(value, str):
        return [path]
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [found for name, inner in items for found in _texts(inner, (*path, name))]


TEXTS = _texts(REQUEST)
HOSTILE = st.one_of(
    st.text(max_size=20),
    st.sampled_from(["0 A", "0 V", "0 ft", "00/000 V", "0-0-0 V", "00-0-00 V", "R1", "L1", "saw", "long", "C1", "one"]),
    st.from_regex(r"(>=)?[0-9]{1,3}(\.\.[0-9]{1,3})? ?[a-zA-Z%]{0,4}", fullmatch=True),
    st.from_regex(r"[0-9]{1,3}[Y/\-][0-9]{1,3}[PR]?( V)?", fullmatch=True),
)


def test_the_request_itself_is_sound() -> None:
    site, faults = read_site(msgspec.convert(REQUEST, LoadCheckRequest))
    assert (faults, validate(site)) == ((), ())


@given(changes=st.lists(st.tuples(st.sampled_from(TEXTS), HOSTILE), min_size=1, max_size=4))
@settings(max_examples=600, deadline=None)
def test_any_text_anywhere_is_read_or_told(changes: list[tuple[tuple[str | int, ...], str]]) -> None:
    raw = copy.deepcopy(REQUEST)
    for path, text in changes:
        holder: Any = raw
        for step in path[:-1]:
            holder = holder[step]
        holder[path[-1]] = text
    try:
        request = msgspec.convert(raw, LoadCheckRequest)
    except msgspec.ValidationError:
        return
    site, unread = read_site(request)
    faults = (*unread, *validate(site))
    assert len(faults) <= 2 * MOST_FAULTS
    for fault in faults:
        holder = raw
        for step in fault.pointer.split("/")[1:]:
            holder = holder[int(step)] if isinstance(holder, list) else holder.get(step, None)
        assert len(fault.message) < 500
