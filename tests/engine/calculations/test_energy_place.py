"""Does a day know what its place takes: thin air from an engine, frost from a charge, a slow crew from the work?"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.energy.energy_budget_batch import budget_many
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from day_of import KWH_J, budget, certain, day_of, steady

# 3.5 % a 1000 ft (widely printed rule, from memory)
LEFT_AT_3500_M = 1.0 - 0.035 * 3500.0 / 304.8


def set_of_3_kw(*tools: tuple[str, str, str], altitude: str | None) -> dict[str, Any]:
    """Tools with their power and share of the time on a gasoline set."""
    return {
        "source": {"kind": "engine_generator", "voltage": "120 V", "running": "3000 W", "tank": "8 l",
                   "receptacles": [{"id": "R1", "marked": "30 A"}]},
        "fuel": {"kind": "gasoline", **({"altitude": altitude} if altitude is not None else {})},
        "tools": [{**steady(name, watts), "operated": "by_itself"} for name, watts, _ in tools],
        "duties": [{"tool": name, "running": share} for name, _, share in tools],
        "conditions": {"place": "open_air", "ambient": "20 degC"}, "shift": "2 h",
    }  # fmt: skip


def station(**members: Any) -> dict[str, Any]:
    """A battery of 2 kWh at 40 % with a lamp of 100 W on it for 8 h."""
    return {
        "source": {"kind": "battery_station", "voltage": "120 V", "battery": "2 kWh", "awake_draw": "0 W",
                   "sleeps_below": "0 W", "limits": [{"id": "out", "continuous": "1800 W"}]},
        "charge": "40 %", "tools": [steady("lamp", "100 W")], "duties": [{"tool": "lamp", "running": "100 %"}],
        "conditions": {"ambient": "20 degC"}, "shift": "8 h", **members,
    }  # fmt: skip


def of(found: EnergyBudgetResult, code: str) -> list[Any]:
    return [item for item in found.findings if item.code == code]


def test_a_tool_that_runs_at_the_sea_stalls_the_set_in_thin_air_however_seldom_it_runs() -> None:
    assert 1500.0 < 3000.0 * LEFT_AT_3500_M < 2100.0
    seldom = [("heater", "2300 W", "10 %")]
    low, high = (budget(set_of_3_kw(*seldom, altitude=altitude)) for altitude in ("0 m", "3500 m"))
    assert low.verdict.overall == "pass"
    assert high.verdict.capacity == "fail"
    (told,) = of(high, "tool_not_powered")
    assert f"gives {3000.0 * LEFT_AT_3500_M:.0f} W" in told.text
    assert "altitude" in told.text
    assert high.done_ratio.p90 == 0.0
    # what it still feeds passes
    assert budget(set_of_3_kw(("heater", "1500 W", "10 %"), altitude="3500 m")).verdict.overall == "pass"


def test_tools_that_run_together_at_the_sea_take_turns_in_thin_air() -> None:
    both = [("one", "1400 W", "30 %"), ("two", "900 W", "30 %")]
    low, high = (budget(set_of_3_kw(*both, altitude=altitude)) for altitude in ("0 m", "3500 m"))
    assert low.verdict.overall == "pass"
    assert not of(low, "not_together")
    assert high.verdict.capacity == "marginal"
    assert "altitude" in of(high, "not_together")[0].text


def test_a_set_known_by_its_breaker_alone_loses_power_too() -> None:
    request = set_of_3_kw(("heater", "2300 W", "10 %"), altitude="3500 m")
    del request["source"]["running"]
    request["source"]["limits"] = [{"id": "plate", "continuous": "3000 W"}]
    assert of(budget(request), "tool_not_powered")


def test_the_same_in_a_batch_and_scenarios_at_other_altitudes_do_not_share_an_answer() -> None:
    days = [day_of(set_of_3_kw(("heater", "2300 W", "10 %"), altitude=at)) for at in ("0 m", "3500 m", "0 m")]
    rows = budget_many(days)
    assert [row.verdict.capacity for row in rows if row.verdict] == ["pass", "fail", "pass"]


def test_altitude_that_nobody_said_is_an_assumption() -> None:
    tools = [("heater", "1500 W", "10 %")]
    assert "altitude" in [item.code for item in budget(set_of_3_kw(*tools, altitude=None)).assumptions]
    assert "altitude" not in [item.code for item in budget(set_of_3_kw(*tools, altitude="0 m")).assumptions]


@pytest.mark.parametrize(("cells", "gains"), [("-10 degC", False), ("15 degC", True)])
def test_sun_on_frozen_lithium_cells_is_not_counted_and_told(cells: str, gains: bool) -> None:
    """Lithium cells are not to be charged below 0 degC (common practice, no source)."""
    dark = budget(station(battery={"cells": cells, "chemistry": "lithium"}))
    sunny = budget(station(battery={"cells": cells, "chemistry": "lithium"}, solar=["300 W"] * 8))
    assert dark.left is not None
    assert sunny.left is not None
    assert (sunny.left.after_work_j.p90 > dark.left.after_work_j.p90 + 0.5 * KWH_J) is gains
    assert bool(of(sunny, "source_charged_below_freezing")) is not gains
    assert not of(dark, "source_charged_below_freezing")
    if not gains:
        assert sunny.verdict.safety == "marginal"
        assert sunny.verdict.capacity == "fail"
        (told,) = of(sunny, "source_charged_below_freezing")
        assert (told.pointer, told.value, told.limit) == ("/battery/cells", -10.0, 0.0)


def test_a_socket_in_frost_counts_for_lead_acid_and_is_open_where_it_may_freeze() -> None:
    stops = [{"id": "yard", "lasts": "8 h", "recharge": "300 W"}]
    lead = budget(station(battery={"cells": "-10 degC", "chemistry": "lead_acid"}, stops=stops))
    assert not of(lead, "source_charged_below_freezing")
    perhaps = budget(station(conditions={"ambient": "-3..3..8 degC"}, stops=stops))
    (told,) = of(perhaps, "source_charged_below_freezing")
    assert told.pointer == "/conditions/ambient"
    assert perhaps.left is not None
    # on a tenth of the days nothing goes in
    assert perhaps.left.after_work_j.p10 < perhaps.left.after_work_j.p50 - 0.2 * KWH_J


def test_how_much_is_done_goes_by_slow_crews_as_well_as_by_the_energy() -> None:
    # 30..90..240 s a cut (site/work_units.py): one person does 60 to 480 in 4 h, and 160 typically; 300 are asked
    work = [{"id": "cuts", "unit": "cut", "amount": 300}]
    (done,) = budget(certain(shift="4 h", work=work, source={**certain()["source"], "battery": "60 kWh"})).work_done
    assert (done.done.p10, done.done.p50, done.done.p90) == pytest.approx((60.0, 160.0, 300.0), abs=0.01)
    assert (done.done_ratio.p10, done.done_ratio.p90) == pytest.approx((0.2, 1.0), abs=1e-4)
