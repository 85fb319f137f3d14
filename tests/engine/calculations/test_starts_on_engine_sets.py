"""Does a start on an engine set hold only where no estimate and no smaller set fails?

Outside the project: Ohm's law and Thevenin's theorem worked out beside each test, NFPA 70 table 430.7(B) for code
letters, the points of UL 489 and IEC 60898-1. Rules of the project's own verdict arithmetic are named as such.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from site_of import check, site_of
from start_request import HARD, TYPICAL, motor, request, start_of


def _set(technology: str, running: str = "6000 W") -> dict[str, Any]:
    return {
        "kind": "engine_generator",
        "voltage": "120/240 V",
        "technology": technology,
        "running": running,
        "receptacles": [{"id": "R1", "type": "5-20R", "ground_fault": "gfci_class_a"}],
        "neutral_bond": "bonded",
        "reset": {"how": "manual"},
    }


def test_a_capacitor_regulated_set_is_no_better_than_one_with_a_regulator() -> None:
    """common practice, no source: such sets collapse on motor starts that a regulator carries."""
    rank = ("starts", "starts_slowly", "trips", "source_limits", "hunts", "stalls", "collapses")
    for running in ("3000 W", "6000 W", "12000 W"):
        with_regulator = start_of(request(_set("avr", running), motor("c")), "c").outcomes
        without = start_of(request(_set("capacitor_regulated", running), motor("c")), "c").outcomes
        assert all(rank.index(a) <= rank.index(b) for a, b in zip(with_regulator, without, strict=True))


def test_a_larger_set_starts_what_a_small_one_does_not() -> None:
    small = start_of(request(_set("avr", "1500 W"), motor("c")), "c").outcomes
    large = start_of(request(_set("avr", "20000 W"), motor("c")), "c").outcomes
    assert small[HARD] not in ("starts", "starts_slowly")
    assert large[HARD] == "starts"


@pytest.mark.parametrize("running", ["3500 W", "4500 W", "5500 W", "6500 W", "8000 W"])
def test_a_start_on_a_set_passes_only_where_no_estimate_of_it_fails(running: str) -> None:
    """Rule of the project: what fails at the typical estimate fails.

    A stiffer set is not always the easier one: it asks more of its engine, and a motor that comes up no further than a
    fallen frequency never opens its start switch. So no estimate stands in for another.
    """
    source = {**_set("avr", running), "voltage": "120 V"}
    site = site_of(request(source, motor("c")))
    base = evaluate(site, frozenset())
    tool = base.starts.tools[0]
    played = tool.estimates
    assert len({id(one) for one in played}) == 3
    started = [one.outcome in ("starts", "starts_slowly") for one in played]
    verdict = check_load(site).verdict.capacity
    if not started[TYPICAL]:
        assert verdict == "fail"
    elif not all(started):
        assert verdict == "marginal"


@pytest.mark.parametrize("running", ["4000 W", "5500 W", "7000 W"])
def test_a_set_of_unknown_kind_is_no_better_than_either_kind(running: str) -> None:
    """Rule of the project: an unknown stands on its safe side, whichever that is at this size."""
    rank = ("starts", "starts_slowly", "trips", "source_limits", "shuts_off", "hunts", "stalls", "collapses")
    source = {**_set("avr", running), "voltage": "120 V"}
    kinds = [
        start_of(request({**source, "technology": kind}, motor("c")), "c").outcomes
        for kind in ("avr", "capacitor_regulated")
    ]
    del source["technology"]
    unknown = start_of(request(source, motor("c")), "c").outcomes
    for estimate, outcome in enumerate(unknown):
        assert rank.index(outcome) >= max(rank.index(kind[estimate]) for kind in kinds)


def test_an_engine_set_of_unknown_kind_asks_which() -> None:
    source = _set("avr")
    del source["technology"]
    result = check(request(source, motor("c")))
    assert "engine_technology" in {item.code for item in result.assumptions}
