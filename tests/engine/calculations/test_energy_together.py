"""Does a day say when its tools do not run together, by the load check of the same kit?"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.energy import energy_powered
from ampwright.engine.calculations.energy.energy_budget_batch import budget_many
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.site.use import Site
from day_of import budget, certain, day_of, steady


def kit(*tools: tuple[str, str, str], **members: Any) -> dict[str, Any]:
    """Tools with their power and share of the time on one receptacle of 20 A at 120 V."""
    source = {
        **certain()["source"],
        "battery": "60 kWh",
        "sleeps_below": "0 W",
        "limits": [{"id": "out", "continuous": "2400 W"}],
        "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A", "circuit": "C1"}],
    }
    return certain(
        source=source,
        tools=[{**steady(name, watts), "operated": "by_itself"} for name, watts, _ in tools],
        duties=[{"tool": name, "running": share} for name, _, share in tools],
        **members,
    )


def told(request: dict[str, Any]) -> list[Any]:
    return [item for item in budget(request).findings if item.code == "not_together"]


def test_what_runs_together_is_assessed_and_no_longer_left_out() -> None:
    found = budget(kit(("one", "500 W", "100 %"), ("two", "600 W", "100 %")))
    assert found.not_assessed == ()
    assert not any(item.code == "not_together" for item in found.findings)
    assert found.verdict.overall == "pass"


def test_tools_that_must_run_at_once_fail_and_those_that_can_take_turns_do_not() -> None:
    # 1300 W and 1500 W: 23 A on a breaker of 20 A, while each alone takes 11 and 12.5 A
    both = kit(("one", "1300 W", "100 %"), ("two", "1500 W", "30 %"))
    assert budget(both).verdict.capacity == "fail"
    (finding,) = told(both)
    assert finding.text.startswith("One and two do not run together")
    assert any(line.code == "card_not_together" for line in budget(both).crew_card)
    turns = kit(("one", "1300 W", "40 %"), ("two", "1500 W", "30 %"))
    assert budget(turns).verdict.capacity == "marginal"
    assert told(turns)
    # the load check of the same kit says the same of them
    site, _ = day_of(both)
    assert check_load(site).verdict.capacity == "fail"


def test_only_tools_at_one_stop_run_together() -> None:
    stops = [{"id": "a", "lasts": "2 h", "running": ["one"]}, {"id": "b", "lasts": "2 h", "running": ["two"]}]
    apart = kit(("one", "1300 W", "100 %"), ("two", "1500 W", "100 %"), stops=stops)
    del apart["shift"]
    assert not told(apart)
    stops[1]["running"] = ["one", "two"]
    assert told({**apart, "stops": stops})


def test_cases_of_the_request_say_which_run_together() -> None:
    three = kit(("one", "1300 W", "40 %"), ("two", "1500 W", "40 %"), ("lamp", "50 W", "40 %"))
    assert told(three)
    assert not told({**three, "cases": [{"id": "light", "running": ["one", "lamp"]}]})
    assert told({**three, "cases": [{"id": "both", "running": ["one", "two"]}]})


def test_many_sets_are_told_in_few_words() -> None:
    both = kit(("one", "1300 W", "40 %"), ("two", "1500 W", "40 %"))
    twice = [{"id": "a", "running": ["one", "two"]}, {"id": "b", "running": ["two", "one"]}]
    assert len(told({**both, "cases": twice})) == 1
    names = [f"t{n}" for n in range(6)]
    six = kit(*((name, "1500 W", "10 %") for name in names))
    pairs = [{"id": f"c{a}{b}", "running": [names[a], names[b]]} for a in range(6) for b in range(a)]
    some = told({**six, "cases": pairs})
    assert len(some) == 3
    assert "as 12 other sets of tools" in some[-1].text or any("as 12 other sets" in item.text for item in some)
    (whole,) = told(six)
    assert whole.text.startswith("T0, t1, t2, t3 and 2 more do not run together")


def test_what_was_not_looked_at_keeps_the_verdict_from_passing(monkeypatch: pytest.MonkeyPatch) -> None:
    day = kit(("one", "500 W", "100 %"), ("two", "600 W", "100 %"))
    assert budget(day).verdict.overall == "pass"
    monkeypatch.setattr(energy_powered, "MOST_ALONE", 1)
    left = budget(day)
    assert left.not_assessed == ("running_alone", "running_together")
    assert left.verdict.overall == "unknown"
    (row,) = budget_many([day_of(day)])
    assert row.verdict == left.verdict


def test_a_batch_says_the_same_and_asks_the_load_check_once_for_a_site(monkeypatch: pytest.MonkeyPatch) -> None:
    both = kit(("one", "1300 W", "100 %"), ("two", "1500 W", "30 %"))
    asked: list[Site] = []
    evaluate = energy_powered.evaluate

    def counted(site: Site, flipped: frozenset[str]) -> Any:
        asked.append(site)
        return evaluate(site, flipped)

    monkeypatch.setattr(energy_powered, "evaluate", counted)
    rows = budget_many([day_of({**both, "charge": f"{percent} %"}) for percent in (100, 90, 80)])
    assert {row.because for row in rows} == {("not_together",)}
    assert len(asked) <= 4  # alone and together, as assumed and the other way
