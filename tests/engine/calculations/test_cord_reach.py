"""Do the cords get there? Expected: lengths added up by hand; an own cord of 1.8 m (common practice, no source)."""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.choosing.cord_reach import CordReach, cord_reach
from ampwright.engine.site.band import Band
from site_of import resistive, site_of

SOURCE: dict[str, Any] = {
    "kind": "vehicle",
    "voltage": "120 V",
    "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A"}],
}
IN_TWO = [{"plug": "a", "into": "R1"}, {"plug": "b", "into": "a"}, {"plug": "h", "into": "b"}]


def reach(lengths: dict[str, str | None], distance_m: Band, **members: Any) -> CordReach:
    cords = [{"id": name, "size": "12 AWG", **({"length": said} if said else {})} for name, said in lengths.items()]
    site = site_of({"source": SOURCE, "tools": [resistive("h", "600 W")], "cords": cords, **members})
    found = cord_reach(site, {"h"}, distance_m)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("distance_m", "short", "open_"),
    [
        (Band.exactly(31.8), (), ()),  # 20 + 10 + 1.8
        (Band.exactly(31.9), ("h",), ()),
        (Band(30.0, 31.0, 33.0), (), ("h",)),
        (Band(32.0, 33.0, 34.0), ("h",), ()),
    ],
)
def test_cords_in_a_row_add_up(distance_m: Band, short: tuple[str, ...], open_: tuple[str, ...]) -> None:
    found = reach({"a": "20 m", "b": "10 m"}, distance_m, connections=IN_TWO)
    assert (found.short, found.open_) == (short, open_)


def test_a_length_that_nobody_said_leaves_it_open() -> None:
    found = reach({"a": "20 m", "b": None}, Band.exactly(25.0), connections=IN_TWO)
    assert (found.short, found.open_) == ((), ("h",))
    assert reach({"a": "20 m", "b": None}, Band.exactly(21.0), connections=IN_TWO).open_ == ()


def test_where_nobody_said_which_cord_is_used() -> None:
    """The longest that any cords make is all of them in a row; without any cord a tool gets 1.8 m."""
    bare = {**SOURCE}
    del bare["receptacles"]
    lengths: dict[str, str | None] = {"a": "20 m", "b": "10 m"}
    assert reach(lengths, Band.exactly(31.8), source=bare).open_ == ("h",)
    assert reach(lengths, Band.exactly(32.0), source=bare).short == ("h",)
    near = reach(lengths, Band.exactly(1.8), source=bare)
    assert (near.short, near.open_, near.cords_said) == ((), (), False)


def test_no_distance_no_answer() -> None:
    site = site_of({"source": SOURCE, "tools": [resistive("h", "600 W")]})
    assert cord_reach(site, {"h"}, None) is None
