"""Where `validate` finds nothing, does every plug really end at one receptacle, and no contact hold two?"""

from __future__ import annotations

from collections import Counter

from ampwright.engine.site.cord import Cord, CordOutlets
from ampwright.engine.site.source import PowerSource, Receptacle, SupplySystem
from ampwright.engine.site.tool import Tool
from ampwright.engine.site.use import Connection, Site
from ampwright.engine.site.validation import validate
from hypothesis import given, settings
from hypothesis import strategies as st

SOURCE = PowerSource(
    "vehicle",
    SupplySystem("120 V", "single", 120.0, (0.0,)),
    receptacles=tuple(Receptacle(f"R{i}", f"/source/receptacles/{i}") for i in range(3)),
)
TOOLS = tuple(Tool(f"t{i}", f"/tools/{i}") for i in range(3))
CORDS = tuple(Cord(f"c{i}", f"/cords/{i}", outlets=CordOutlets(count=i + 1)) for i in range(3))
NAMES = [*(f"R{i}" for i in range(3)), *(f"t{i}" for i in range(3)), *(f"c{i}" for i in range(3)), "nothing"]


def is_a_forest(pairs: list[tuple[str, str]]) -> bool:
    """The rule in another form: union-find finds no circle, every contact is used within its count."""
    holds = {"R0": 1, "R1": 1, "R2": 1, "c0": 1, "c1": 2, "c2": 3}
    if any(plug not in ("t0", "t1", "t2", "c0", "c1", "c2") or into not in holds for plug, into in pairs):
        return False
    if any(count > 1 for count in Counter(plug for plug, _ in pairs).values()):
        return False
    if any(count > holds[into] for into, count in Counter(into for _, into in pairs).items()):
        return False
    root = {name: name for name in NAMES}

    def find(name: str) -> str:
        while root[name] != name:
            name = root[name]
        return name

    for plug, into in pairs:
        if find(plug) == find(into):
            return False
        root[find(plug)] = find(into)
    plugs = {plug for plug, _ in pairs}
    return all(into.startswith("R") or into in plugs for _, into in pairs)


@given(pairs=st.lists(st.tuples(st.sampled_from(NAMES), st.sampled_from(NAMES)), max_size=6))
@settings(max_examples=1500, deadline=None)
def test_no_faults_means_a_forest_and_a_forest_means_no_faults(pairs: list[tuple[str, str]]) -> None:
    connections = tuple(Connection(plug, into, f"/connections/{i}") for i, (plug, into) in enumerate(pairs))
    faults = validate(Site(SOURCE, TOOLS, CORDS, connections=connections))
    assert (faults == ()) == is_a_forest(pairs)


@given(
    parents=st.lists(st.sampled_from(["R0", "R1", "R2", "c0", "c1", "c2"]), min_size=6, max_size=6),
    order=st.permutations(["t0", "t1", "t2", "c0", "c1", "c2"]),
)
@settings(max_examples=1000, deadline=None)
def test_the_same_with_every_plug_somewhere(parents: list[str], order: list[str]) -> None:
    test_no_faults_means_a_forest_and_a_forest_means_no_faults.hypothesis.inner_test(  # type: ignore[attr-defined]
        list(zip(order, parents, strict=True))
    )
