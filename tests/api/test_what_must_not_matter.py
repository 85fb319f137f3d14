"""Does a verdict depend on what it must not depend on: the order of lists, or that less is said?

Requests that are nearly those of the examples (near_examples.py). What is left out is unknown and taken on the safe
side, so it may make a verdict unknown or worse and never better; the order in which parts are listed means nothing.
Both hold whatever the figures are: no expected value is needed. `AMPWRIGHT_TEST_FUZZ=long` tries fifty times as many.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from api.near_examples import Place, at, near, places_in
from fuzzed_cases import EXTENT, same_each_time
from hypothesis import Phase, given
from hypothesis import strategies as st
from litestar.testing import TestClient
from service_with_demo import demo_client

EXAMPLES = {"gate": 12, "long": 600, "all": 1200}[EXTENT]
SAME_AGAIN = same_each_time(max_examples=EXAMPLES, phases=[Phase.generate, Phase.shrink])
WORST_LAST = ("pass", "marginal", "unknown", "fail")
# What is there, and what must be done with it; without these the question is another.
PARTS = {"id", "entry", "unit", "kind", "load_class", "tools", "cords", "receptacles", "circuits", "legs", "source"}
# Not taken on the safe side, and told so in the guide: how high the place is, and what a source gives (a full circuit).
NO_SAFE_SIDE = {"altitude", "conditions", "running", "limits", "continuous"}
LISTS = tuple(
    tuple(place.split("/"))
    for place in ("tools", "cords", "connections", "source/receptacles", "source/circuits", "source/limits")
)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("matter")) as opened:
        yield opened


def answer(client: TestClient[Any], body: Any) -> dict[str, Any] | None:
    """None where the request is refused."""
    response = client.post("/v1/load-checks", json=body)
    assert response.status_code in (200, 400, 404, 422), response.text
    return response.json() if response.status_code == 200 else None


def shuffled(body: Any, shuffle: Callable[[list[Any]], None]) -> Any:
    other = copy.deepcopy(body)
    for place in LISTS:
        here = other
        for step in place:
            here = here.get(step) if isinstance(here, dict) else None
        if isinstance(here, list):
            shuffle(here)
    return other


def test_the_order_of_lists_means_nothing(client: TestClient[Any]) -> None:
    tried = 0

    @SAME_AGAIN
    @given(body=near("check_load"), random=st.randoms(use_true_random=False))
    def same(body: Any, random: Any) -> None:
        nonlocal tried
        first = answer(client, body)
        if first is None:
            return
        tried += 1
        second = answer(client, shuffled(body, random.shuffle))
        assert second is not None
        assert second["verdict"] == first["verdict"]
        told = [sorted((one["code"], one["severity"]) for one in each["findings"]) for each in (first, second)]
        assert told[0] == told[1]

    same()
    assert tried >= EXAMPLES // 6


def test_saying_less_makes_nothing_better(client: TestClient[Any]) -> None:
    tried = 0

    @SAME_AGAIN
    @given(body=near("check_load", most_changes=2), draw=st.data())
    def no_better(body: Any, draw: Any) -> None:
        nonlocal tried
        first = answer(client, body)
        left_out = [place for place in places_in(body) if _is_knowledge(place)]
        if first is None or not left_out:
            return
        place = draw.draw(st.sampled_from(left_out))
        less = copy.deepcopy(body)
        del at(less, place[:-1])[place[-1]]
        second = answer(client, less)
        if second is None:
            return
        tried += 1
        for aspect in ("capacity", "safety"):
            was, now = first["verdict"][aspect], second["verdict"][aspect]
            assert WORST_LAST.index(now) >= WORST_LAST.index(was) or now == "unknown", (place, aspect, was, now)

    no_better()
    assert tried >= EXAMPLES // 6


def _is_knowledge(place: Place) -> bool:
    """A member of a part that says something of it."""
    name = place[-1]
    return (
        isinstance(name, str)
        and place[0] in ("source", "tools", "cords", "conditions")
        and name not in PARTS
        and name not in NO_SAFE_SIDE
    )
