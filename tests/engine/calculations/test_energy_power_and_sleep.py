"""Is what a source cannot feed left undone, and does one that sleeps feed nothing?"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.energy.energy_packs import packs_done, packs_share
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.physics.pack_charging import charge_after_ratio
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import Pack, Work
from day_of import KWH_J, budget, certain, steady

HOUR_S = 3600.0


def codes(found: EnergyBudgetResult) -> dict[str, str]:
    return {item.code: item.severity for item in found.findings}


def source(**members: Any) -> dict[str, Any]:
    return {**certain()["source"], "receptacles": [{"id": "R1", "marked": "50 A"}], **members}


def heater(tool: str, power: str, ratio: str = "100 %") -> tuple[dict[str, Any], dict[str, Any]]:
    return steady(tool, power), {"tool": tool, "running": ratio}


def test_what_is_asked_above_the_source_is_not_fed_and_not_done() -> None:
    # Two heaters of 600 W on an outlet of 800 W: each alone runs. For 5 h 6 kWh are asked and 4 kWh are given: two
    # thirds of it, and two thirds of the work that hangs on it.
    first, on = heater("a", "600 W")
    second, also = heater("b", "600 W")
    found = budget(
        certain(source=source(limits=[{"id": "out", "continuous": "800 W"}]), tools=[first, second], duties=[on, also])
    )
    assert found.used_j.p50 == pytest.approx(4.0 * KWH_J, abs=50.0)
    assert found.done_ratio.p50 == pytest.approx(2.0 / 3.0, abs=1e-4)
    told = next(item for item in found.findings if item.code == "source_overloaded")
    assert (told.value, told.limit) == (1200.0, 800.0)
    assert found.verdict.capacity == "fail"
    # one after the other they are 600 W at a time, on average
    turns = [{**on, "running": "50 %"}, {**also, "running": "50 %"}]
    calm = budget(
        certain(source=source(limits=[{"id": "out", "continuous": "800 W"}]), tools=[first, second], duties=turns)
    )
    assert "source_overloaded" not in codes(calm)
    assert calm.done_ratio.p50 == 1.0


def test_counted_work_is_done_as_far_as_the_power_reaches() -> None:
    # 10 h of a 1000 W tool in 5 h are 2000 W on average; 1500 W are three quarters of it.
    tool = steady("mixer", "1000 W")
    work = [{"id": "mixing", "unit": "tool_hour", "amount": 10, "tool": "mixer"}]
    strong = source(limits=[{"id": "out", "continuous": "1500 W"}], battery="20 kWh")
    (done,) = budget(certain(source=strong, tools=[tool], work=work)).work_done
    assert done.done_ratio.p50 == pytest.approx(0.75, abs=1e-4)
    assert done.done.p50 == pytest.approx(7.5, abs=1e-3)


def test_a_tool_that_a_load_check_fails_takes_no_energy_and_does_no_work() -> None:
    saw = {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "15 A"}]}
    lamp, on = heater("lamp", "100 W")
    work = [{"id": "cuts", "unit": "cut", "amount": 100, "tool": "saw", "energy_each": "5 Wh"}]
    weak = source(limits=[{"id": "out", "continuous": "300 W", "response": "shutdown"}])
    found = budget(certain(source=weak, tools=[saw, lamp], duties=[on], work=work))
    assert "tool_not_powered" in codes(found)
    assert found.verdict.capacity == "fail"
    assert found.work_done[0].done.p90 == 0.0
    assert {use.name for use in found.uses} == {"lamp"}
    assert found.used_j.p50 == pytest.approx(0.5 * KWH_J, abs=50.0)  # the lamp alone, 5 h at 100 W


COOL_BOX: dict[str, Any] = {
    "id": "box", "load_class": "refrigerator", "on": "15 min", "off": "30 min",
    "supply_options": [{"voltage": "120 V", "power": "90 W"}],
    "load_states": [
        {"id": "idle", "power": "0 W"}, {"id": "working", "power": "90 W", "power_factor": 1.0},
        {"id": "heavy", "power": "90 W", "power_factor": 1.0},
    ],
}  # fmt: skip


def night(**members: Any) -> dict[str, Any]:
    station = {
        "kind": "battery_station", "voltage": "120 V", "battery": "5 kWh", "awake_draw": "20 W",
        "receptacles": [{"id": "R1", "marked": "15 A"}], **members,
    }  # fmt: skip
    request = certain(source=station, tools=[COOL_BOX], shift="12 h")
    del request["way_home"]
    return request


def test_a_refrigerator_loses_its_source_between_two_cycles() -> None:
    # On for 15 min; the station waits 10 min below 20 W and is off 25 min after the beginning, for good: 15 min of
    # 90 W and 25 min of 20 W are 22.5 + 8.3 Wh, instead of 12 h of a third of 90 W and of 20 W, 360 + 240 Wh.
    lost = budget(night(sleeps_below="20 W", sleeps_after="10 min"))
    told = next(item for item in lost.findings if item.code == "source_falls_asleep")
    assert told.value == pytest.approx(25 * 60.0, abs=1.0)
    assert lost.verdict.capacity == "fail"
    # the mean of a load stands for its cycles: a third of 90 W for 25 min
    assert lost.used_j.p50 == pytest.approx((90.0 / 3.0 + 20.0) * 25 * 60.0, abs=100.0)
    stays = budget(night(sleeps_below="0 W"))
    assert "source_falls_asleep" not in codes(stays)
    assert stays.used_j.p50 == pytest.approx((360.0 + 240.0) * 3600.0, abs=100.0)


def test_a_source_that_wakes_on_a_load_feeds_it_and_sleeps_between() -> None:
    # Awake for 15 + 10 of each 45 min: 25/45 of 240 Wh of its own, and all of the box.
    wakes = budget(night(sleeps_below="20 W", sleeps_after="10 min", wakes_on_load=True))
    assert codes(wakes)["source_sleeps_between"] == "info"
    by_name = {use.name: use.energy_j.p50 for use in wakes.uses}
    assert by_name["box"] == pytest.approx(360.0 * 3600.0, abs=100.0)
    assert by_name["awake"] == pytest.approx(240.0 * 25.0 / 45.0 * 3600.0, rel=0.01)


def test_what_must_not_stop_says_why_it_would() -> None:
    request = night(sleeps_below="20 W", sleeps_after="10 min")
    request["tools"] = [{**COOL_BOX, "must_return": True}]
    told = next(item for item in budget(request).findings if item.code == "load_must_not_stop")
    assert told.severity == "danger"
    assert "falls asleep" in told.text


def test_a_crew_or_a_steady_lamp_keeps_the_source_awake() -> None:
    lit = night(sleeps_below="20 W", sleeps_after="10 min")
    lamp, on = heater("lamp", "25 W")
    lit |= {"tools": [COOL_BOX, lamp], "duties": [on]}
    assert "source_falls_asleep" not in codes(budget(lit))
    saw = {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "9 A"}]}
    crew = night(sleeps_below="20 W", sleeps_after="10 min")
    crew["tools"] = [COOL_BOX, saw]
    assert "source_falls_asleep" not in codes(budget(crew))


def test_an_empty_stop_costs_only_the_waiting_time() -> None:
    # Nothing is plugged in at the second stop: 200 W for 30 min, and not for 4 h.
    van = source(awake_draw="200 W", sleeps_below="15 W", sleeps_after="30 min")
    saw = {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "9 A"}]}
    stops = [{"id": "work", "lasts": "1 h", "running": ["saw"]}, {"id": "wait", "lasts": "4 h", "running": []}]
    request = certain(source=van, tools=[saw], duties=[{"tool": "saw", "running": "0 %"}], stops=stops)
    del request["shift"]
    assert budget(request).used_j.p50 == pytest.approx(200.0 * 1.5 * 3600.0, abs=100.0)


def pack_work(amount: float, chargers: int = 2) -> Work:
    pack = Pack(Band.exactly(90 * 3600.0), Band.exactly(0.1), Band.exactly(1.0), Band.exactly(110.0), chargers)
    return Work("p", "/work/0", "pack", amount, pack=pack)


def test_packs_take_their_energy_while_they_charge_with_taper() -> None:
    # Constant current to 80 %, then an exponential: the share in a pack at any time is the closed form of
    # physics/pack_charging.py, which its own tests hold against an integration; here two packs at once, nothing after.
    work = pack_work(2.0)
    rate = 110.0 * 0.82 / (90 * 3600.0)
    for minutes in (5.0, 20.0, 40.0, 60.0):
        inside = charge_after_ratio(0.1, minutes * 60.0, rate, 0.8, 0.05)
        assert packs_share(work, minutes * 60.0, 8 * HOUR_S) == pytest.approx((inside - 0.1) / 0.9, rel=1e-9)
    assert packs_share(work, 3 * HOUR_S, 8 * HOUR_S) == 1.0
    # early rather than evenly: half of the energy is in long before half of the day
    assert packs_share(work, HOUR_S, 8 * HOUR_S) > 0.9


def test_packs_that_the_chargers_cannot_take_cost_no_energy() -> None:
    work = pack_work(40.0)
    done = packs_done(work, 8 * HOUR_S)
    assert 0.0 < done < 40.0
    share = packs_share(work, 8 * HOUR_S, 8 * HOUR_S)
    assert done / 40.0 <= share < (done + 2.0) / 40.0  # and what has gone into the two that are still on
    steps = [packs_share(work, hour * 600.0, 8 * HOUR_S) for hour in range(49)]
    assert steps == sorted(steps)


def test_thin_air_takes_from_what_a_set_can_give() -> None:
    # 3.5 % a 1000 ft (widely printed rule, from memory): 3000 m leave 1 - 0.035 * 3000 / 304.8 = 65.6 %.
    # Two heaters that it feeds one at a time, and not both.
    (one, one_on), (two, two_on) = heater("one", "800 W"), heater("two", "700 W")
    day = {
        "source": {"kind": "engine_generator", "voltage": "120 V", "running": "2000 W", "tank": "8 l",
                   "receptacles": [{"id": "R1", "marked": "20 A"}]},
        "fuel": {"kind": "gasoline", "altitude": "3000 m"}, "tools": [one, two], "duties": [one_on, two_on],
        "conditions": {"place": "open_air", "ambient": "20 degC"}, "shift": "2 h",
    }  # fmt: skip
    found = budget(day)
    left = 1.0 - 0.035 * 3000.0 / 304.8
    told = next(item for item in found.findings if item.code == "engine_overloaded")
    assert told.limit == pytest.approx(2000.0 * left, abs=0.1)
    assert found.done_ratio.p50 == pytest.approx(2000.0 * left / 1500.0, abs=1e-4)
