"""Which requests are nearly those of the examples?

A fuzzer that draws requests from schemas alone is refused before anything is calculated: of a hundred load checks that
it draws one is answered. These start from requests that are answered and change a member or a few: taken out, put in,
taken from another example, ten times larger, none, negative, twice in a list, naming another part.
"""

from __future__ import annotations

import copy
import json
import re
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from ampwright.api.examples import load_examples
from api.replayed_examples import OPERATIONS
from hypothesis import strategies as st
from msgspec import UNSET

Json = Any
Place = tuple[str | int, ...]
FIGURE = re.compile(r"-?[0-9]+(?:\.[0-9]+)?(?:e-?[0-9]+)?")
# Kinds of changes, the more telling ones more often.
KINDS = ("other",) * 4 + ("scaled",) * 4 + ("taken_out",) * 2 + ("put_in",) * 3 + ("twice", "text", "number")
FACTORS = (0, 1e-9, 1e-3, 0.1, 0.5, 0.9, 1.1, 2, 3, 10, 1e3, 1e9, -1)
NUMBERS = (0, 1, 2, 3, -1, 0.5, 1e-12, 17, 1000, 10**6, 2**31, 2**63, 1e300)
TEXTS = ("", " ", "0", "none", "nobody", "a" * 200, "ÅΩ…\u202e", "1..2", "../..", "NaN A", "1e999 W", "-0 V")


def requests_of(operation_id: str) -> list[Json]:
    """Requests of its examples that are answered."""
    found = load_examples(operation_id).values()
    return [one.request for one in found if one.request is not UNSET and one.status == 200]


def places_in(value: Json, at: Place = ()) -> Iterator[Place]:
    """Every member and item, outer ones first."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, inner in pairs:
        yield (*at, name)
        yield from places_in(inner, (*at, name))


def at(value: Json, place: Place) -> Json:
    for step in place:
        value = value[step]
    return value


def _known() -> dict[str, list[Json]]:
    """What stands under each name of a member in any example, each value once."""
    known: dict[str, dict[str, Json]] = defaultdict(dict)
    for operation_id, operation in OPERATIONS.items():
        if operation.method == "POST":
            for request in requests_of(operation_id):
                for place in places_in(request):
                    value = at(request, place)
                    known[name_of(place)][json.dumps(value, sort_keys=True)] = value
    return {name: list(values.values()) for name, values in known.items()}


def name_of(place: Place) -> str:
    """The member that it is, or that it is an item of."""
    return next((step for step in reversed(place) if isinstance(step, str)), "")


KNOWN = _known()


@st.composite
def near(draw: st.DrawFn, operation_id: str, *, most_changes: int = 3) -> Json:
    """An example's request with one to three changes."""
    request = copy.deepcopy(draw(st.sampled_from(requests_of(operation_id))))
    for _ in range(draw(st.integers(1, most_changes))):
        places = list(places_in(request))
        if places:
            _change(draw, request, draw(st.sampled_from(places)))
    return request


def _change(draw: st.DrawFn, request: Json, place: Place) -> None:
    parent, last, value = at(request, place[:-1]), place[-1], at(request, place)
    kind = draw(st.sampled_from(KINDS))
    if kind == "taken_out":
        del parent[last]
    elif kind == "put_in" and isinstance(value, dict):
        of_its_like = [one for one in KNOWN.get(name_of(place), ()) if isinstance(one, dict)]
        more = {name: inner for one in of_its_like for name, inner in one.items() if name not in value}
        if more:
            name = draw(st.sampled_from(sorted(more)))
            value[name] = copy.deepcopy(draw(st.sampled_from(KNOWN[name])))
    elif kind == "twice" and isinstance(parent, list):
        parent.insert(draw(st.integers(0, len(parent))), copy.deepcopy(value))
    elif kind == "text":
        parent[last] = draw(st.sampled_from(TEXTS))
    elif kind == "number":
        parent[last] = draw(st.sampled_from(NUMBERS))
    elif kind == "scaled":
        parent[last] = _scaled(value, draw(st.sampled_from(FACTORS)))
    else:
        parent[last] = copy.deepcopy(draw(st.sampled_from(KNOWN[name_of(place)])))


def _scaled(value: Json, factor: float) -> Json:
    """The quantity (both ends of a range), number or list, so many times; what else it is, as it is."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value * factor
    if isinstance(value, list):
        return value * min(max(int(factor), 0), 40)
    if isinstance(value, str) and value[:1].isdigit():
        return FIGURE.sub(lambda figure: f"{float(figure[0]) * factor:g}", value)
    return value
