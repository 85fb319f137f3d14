"""Are the parts that are asked for by `include` what arithmetic outside the project says?

Beside each: Ohm's law worked out from the numbers of the request, brute force over every set of tools, the shares of
independent on and off times, and the published points of the devices (UL 489: 135 % within an hour, 200 % within two
minutes to 30 A; IEC 60364-4-43 cl. 434.5.2, t = (k S / I)^2, k from memory).
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.load_check.load_check_faults import FaultFigure
from ampwright.engine.calculations.load_check.load_check_included import Included, with_included
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from ampwright.engine.calculations.reverse.largest_sets import largest_sets, maximal
from ampwright.engine.calculations.reverse.spare_load import spare_loads
from ampwright.engine.calculations.shift.shift_use import ShiftItem, shift_use
from ampwright.engine.calculations.starts.start_order import best_order
from ampwright.engine.site.load_classes import LOAD_CLASS_NAMES
from ampwright.engine.site.usual_duties import USUAL_DUTIES
from hypothesis import given, settings
from hypothesis import strategies as st
from site_of import resistive, site_of


def _stiff(circuits: int = 2, receptacles: int = 2) -> dict[str, Any]:
    return {
        "kind": "site_supply",
        "voltage": "120 V",
        "resistance": "0.0001 ohm",
        "circuits": [
            {
                "id": f"C{n}",
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            }
            for n in range(1, circuits + 1)
        ],
        "receptacles": [
            {
                "id": f"R{n}",
                "type": "5-20R",
                "circuit": f"C{1 + (n - 1) % circuits}",
                "ground_fault": "none",
            }
            for n in range(1, receptacles + 1)
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
    }


def _request(tools: list[dict[str, Any]], into: list[str], **members: Any) -> dict[str, Any]:
    return {
        "source": _stiff(receptacles=max(2, len(tools))),
        "tools": tools,
        "connections": [{"plug": tool["id"], "into": at} for tool, at in zip(tools, into, strict=True)],
        "cases": [{"id": "all", "running": [tool["id"] for tool in tools]}],
        "conditions": {"ambient": "30 degC"},
        "people": 1,
        "code_basis": [],
        **members,
    }


def _included(request: dict[str, Any], *words: str, shift_s: float | None = None) -> tuple[LoadCheckResult, Included]:
    site = site_of(request)
    return with_included(site, check_load(site), words, shift_s)


def test_nothing_is_worked_out_unasked() -> None:
    request = _request([resistive("heater", "1200 W")], ["R1"])
    site = site_of(request)
    result = check_load(site)
    assert with_included(site, result, ()) == (result, Included())


# --- faults


def _fault(cords: list[dict[str, Any]], **source: Any) -> tuple[LoadCheckResult, FaultFigure]:
    request = _request([resistive("heater", "600 W")], [cords[-1]["id"]])
    request["source"] = {**_stiff(1, 1), **source}
    request["cords"] = cords
    request["connections"] += [
        {"plug": cord["id"], "into": up} for cord, up in zip(cords, ["R1", *(c["id"] for c in cords)], strict=False)
    ]
    result, parts = _included(request, "faults")
    assert parts.faults is not None
    (figure,) = parts.faults
    return result, figure


def _cord(name: str, size: str, length: str, **members: Any) -> dict[str, Any]:
    return {
        "id": name,
        "size": size,
        "length": length,
        "laid": "straight",
        "plug": "5-15P",
        "outlets": {"type": "5-15R"},
        **members,
    }


def test_a_short_at_the_end_of_two_cords_draws_what_practice_says() -> None:
    """100 ft of 14 AWG and 50 ft of 12 AWG, line to ground, from a stiff source: 132 A [calc, trade panel].

    The trade's figure takes 3.14 and 1.98 ohm/kft, hot (75 C): 120 V / (2 (0.314 + 0.099)) = 145 A, less contacts and
    wiring. Here the copper is at 30 C and contacts at their high 10 mohm each.
    """
    _, figure = _fault([_cord("near", "12 AWG", "50 ft"), _cord("far", "14 AWG", "100 ft")])
    warm = 1.0 + 0.00393 * (31.0 - 75.0) / (1.0 + 0.00393 * 55.0)
    loop = 2.0 * (0.314 + 0.099) * warm + 6 * 0.010 + 0.0002
    reactance = 2.0 * 45.72 * 0.1e-3
    assert figure.far_current_a == pytest.approx(120.0 / math.hypot(loop, reactance), rel=0.02)
    assert 125.0 < figure.far_current_a < 160.0


@pytest.mark.parametrize(("amps", "outcome"), [(40.0, 120.0), (27.0, 3600.0)])
def test_a_source_that_holds_its_current_leaves_the_breaker_an_overload(amps: float, outcome: float) -> None:
    """An inverter that holds 40 A gives a 20 A breaker 200 %: two minutes at most, and 27 A 135 %: an hour (UL 489)."""
    result, figure = _fault(
        [_cord("far", "16 AWG", "100 ft")],
        kind="vehicle",
        limits=[
            {
                "id": "inverter",
                "continuous": f"{amps} A",
                "peak": f"{2 * amps} A",
                "tiers": [],
                "response": "current_limiting",
            }
        ],
    )
    assert figure.far_current_a == pytest.approx(amps, rel=0.01)
    assert figure.trip_latest_guaranteed_s == outcome
    assert figure.trip_earliest_s is not None
    assert figure.trip_earliest_s < outcome
    if amps == 40.0:
        # 16 AWG, 1.31 mm2: the insulation's minutes are fewer than the breaker's two
        assert figure.protects == "nothing"
        assert "fault_not_cleared" in {finding.code for finding in result.findings if finding.severity == "danger"}
        assert result.verdict.safety == "fail"
        assert result.cases[0].verdict == "fail"


def test_copper_under_a_fast_trip_is_the_adiabatic_formula() -> None:
    """theta2 = (theta1 + 234.5) exp(I^2 t / (226 S)^2) - 234.5 (IEC 60949), S of 12 AWG 3.31 mm2 (ASTM B258)."""
    _, figure = _fault([_cord("short", "12 AWG", "25 ft")])
    assert figure.trip_latest_assumed_s is not None
    assert figure.copper_temperature_c is not None
    heat = figure.far_current_a**2 * figure.trip_latest_assumed_s / (226.0 * 3.309) ** 2
    # 600 W are 5 A: a degree or two above the ambient of 30 C; the time is told in three digits
    assert figure.copper_temperature_c == pytest.approx((31.0 + 234.5) * math.exp(heat) - 234.5, abs=3.0)


def test_a_shutdown_or_a_ground_fault_device_is_named_as_what_protects() -> None:
    limits = [{"id": "inverter", "continuous": "40 A", "peak": "80 A", "tiers": [], "response": "shutdown"}]
    result, figure = _fault([_cord("far", "16 AWG", "100 ft")], kind="vehicle", limits=limits)
    assert figure.protects == "source_shutdown"
    assert "fault_not_cleared" not in {finding.code for finding in result.findings}
    limits[0]["response"] = "current_limiting"
    receptacles = [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}]
    result, figure = _fault([_cord("far", "16 AWG", "100 ft")], kind="vehicle", limits=limits, receptacles=receptacles)
    assert figure.protects == "ground_fault_device"
    told = next(finding for finding in result.findings if finding.code == "fault_not_cleared")
    assert told.severity == "caution"


# --- largest sets


@given(
    st.lists(st.integers(200, 2600), min_size=1, max_size=6),
    st.lists(st.booleans(), min_size=6, max_size=6),
    st.integers(1, 3),
)
@settings(max_examples=15, deadline=None)
def test_largest_sets_are_those_of_brute_force(watts: list[int], by_hand: list[bool], people: int) -> None:
    """Heaters on one stiff 20 A circuit at 120 V: a set holds where its watts add up to 2,400 and hands suffice."""
    if any(abs(sum(some) - 2400) < 30 for n in range(1, 7) for some in itertools.combinations(watts, n)):
        return  # wiring takes a volt: too near the edge for plain addition
    tools = [
        resistive(f"h{n}", f"{power} W", operated="by_hand" if by_hand[n] else "by_itself", lowest_voltage="60 V")
        for n, power in enumerate(watts)
    ]
    request = _request(tools, [f"R{n + 1}" for n in range(len(tools))], people=people)
    request["source"] = _stiff(1, max(2, len(tools)))
    del request["cases"]
    site = site_of(request)
    found = {frozenset(item.tools) for item in largest_sets(site, evaluate(site, frozenset()).settled)}
    holding = [
        frozenset(chosen)
        for n in range(1, len(tools) + 1)
        for chosen in itertools.combinations([tool["id"] for tool in tools], n)
        if sum(watts[int(name[1:])] for name in chosen) <= 2400
        and sum(by_hand[int(name[1:])] for name in chosen) <= people
    ]
    assert found == {some for some in holding if not any(some < other for other in holding)}


@given(st.lists(st.integers(0, 63), max_size=20))
@settings(max_examples=200, deadline=None)
def test_maximal_sets_are_part_of_no_other(masks: list[int]) -> None:
    expected = sorted({a for a in masks if not any(a != b and a & b == a for b in masks)})
    assert maximal(masks) == expected


def test_a_follower_goes_with_its_leader() -> None:
    tools = [
        resistive("saw", "1300 W", operated="by_hand"),
        resistive("extractor", "1300 W", follows="saw"),
        resistive("lamp", "100 W"),
    ]
    request = _request(tools, ["R1", "R2", "R3"])
    request["source"] = _stiff(1, 3)
    site = site_of(request)
    # saw and extractor together are 21.7 A: never one without the other, so that neither runs
    assert [item.tools for item in largest_sets(site, evaluate(site, frozenset()).settled)] == [("lamp",)]


@given(st.integers(1, 5), st.data())
@settings(max_examples=60, deadline=None)
def test_the_best_order_is_that_of_brute_force(count: int, data: st.DataObject) -> None:
    """Against every permutation: the worst start of the order that is told is the least worst there is."""
    tools = tuple(f"t{n}" for n in range(count))
    badness = {
        (frozenset(some), last): (data.draw(st.sampled_from([0, 1, 3])), float(data.draw(st.integers(0, 9))))
        for size in range(1, count + 1)
        for some in itertools.combinations(tools, size)
        for last in some
    }

    def worst(order: tuple[str, ...]) -> tuple[int, float]:
        return max(badness[frozenset(order[: n + 1]), tool] for n, tool in enumerate(order))

    order, told = best_order(tools, badness)
    assert sorted(order) == sorted(tools)
    assert told == worst(order) == min(worst(other) for other in itertools.permutations(tools))


# --- shift


def _item(request: dict[str, Any], name: str, shift_s: float | None = None) -> ShiftItem:
    site = site_of(request)
    use = shift_use(evaluate(site, frozenset()).settled, shift_s)
    return next(item for item in use.items if item.id == name)


def _duty(name: str, power: str, on: str, off: str, **members: Any) -> dict[str, Any]:
    return resistive(name, power, on=on, off=off, **members)


def test_overload_of_independent_loads_is_the_product_of_their_shares() -> None:
    """Two heaters of 14.2 A, on a quarter and a third of the time: over 20 A for a twelfth of it."""
    tools = [_duty("one", "1700 W", "60 s", "180 s"), _duty("two", "1700 W", "60 s", "120 s")]
    request = _request(tools, ["R1", "R2"])
    request["source"] = _stiff(1, 2)
    item = _item(request, "C1")
    assert item.overload_ratio.typical == pytest.approx(1.0 / 12.0, abs=1e-6)
    assert item.mean_amount == pytest.approx(1700.0 / 120.0 * (1 / 4 + 1 / 3), rel=0.005)


def test_one_person_never_runs_two_hand_tools() -> None:
    tools = [_duty("one", "1700 W", "60 s", "60 s", operated="by_hand") for _ in range(2)]
    tools[1]["id"] = "two"
    request = _request(tools, ["R1", "R2"])
    request["source"] = _stiff(1, 2)
    alone = _item(request, "C1")
    assert (alone.overload_ratio.high, alone.trip_method) == (0.0, "exact")
    request["people"] = 2
    # equal on and off times, free hands: both on a quarter of the time
    assert _item(request, "C1").overload_ratio.typical == pytest.approx(0.25, abs=1e-6)


def test_what_surely_trips_and_what_surely_holds() -> None:
    """Twice the rating for hours trips within two minutes (UL 489); under the rating it never does at 25 C."""
    tools = [_duty("one", "4800 W", "8 h", "1 s")]
    request = _request(tools, ["R1"])
    request["source"] = _stiff(1, 2)
    trips = _item(request, "C1", 4 * 3600.0).trip_probability_ratio
    assert trips is not None
    assert trips.low > 0.99
    tools[0]["load_states"][0]["power"] = tools[0]["load_states"][1]["power"] = "2300 W"
    holds = _item(request, "C1", 4 * 3600.0).trip_probability_ratio
    assert holds is not None
    assert holds.high == 0.0


def test_many_tools_are_added_up_and_said_to_be() -> None:
    """Above 12 tools by convolution: 14 equal heaters of 2 A, each on a fifth of the time: binomial above ten of 14."""
    tools = [_duty(f"h{n}", "240 W", "60 s", "240 s") for n in range(14)]
    request = _request(tools, [f"R{n + 1}" for n in range(14)])
    request["source"] = _stiff(1, 14)
    site = site_of(request)
    use = shift_use(evaluate(site, frozenset()).settled)
    assert use.method == "convolution"
    expected = sum(math.comb(14, k) * 0.2**k * 0.8 ** (14 - k) for k in range(11, 15))
    item = next(item for item in use.items if item.id == "C1")
    assert item.overload_ratio.typical == pytest.approx(expected, abs=2e-6)


def test_a_likely_trip_is_a_finding_and_no_pass() -> None:
    tools = [_duty(name, "1700 W", "30 min", "10 min") for name in ("one", "two")]
    request = _request(tools, ["R1", "R2"], cases=[{"id": "alone", "running": ["one"]}])
    request["source"] = _stiff(1, 2)
    result, parts = _included(request, "shift")
    assert parts.shift is not None
    assert "trips_in_shift" in {finding.code for finding in result.findings}
    assert result.verdict.capacity == "marginal"
    assert check_load(site_of(request)).verdict.capacity == "pass"


def test_every_load_class_has_a_usual_duty() -> None:
    assert sorted(USUAL_DUTIES) == list(LOAD_CLASS_NAMES)
    assert all(on > 0.0 and off > 0.0 for on, off in USUAL_DUTIES.values())


# --- spare load and curves


def test_spare_amperes_are_the_rating_less_what_runs() -> None:
    """20 A less 1,200 W at 120 V are 10 A; a five-hundredth of 20 A is the step of the search."""
    request = _request([resistive("heater", "1200 W", lowest_voltage="60 V")], ["R1"])
    request["source"] = _stiff(1, 2)
    site = site_of(request)
    (spare,) = spare_loads(site, evaluate(site, frozenset(), with_after=True))
    assert (spare.receptacle, spare.limited_by) == ("R2", "circuit_over_rating")
    assert spare.current_a == pytest.approx(10.0, abs=0.06)
    # the largest load that holds holds, and a step more does not
    more = {**request, "tools": [*request["tools"], resistive("more", f"{spare.power_w} W", lowest_voltage="60 V")]}
    more["connections"] = [*request["connections"], {"plug": "more", "into": "R2"}]
    more["cases"] = [{"id": "all", "running": ["heater", "more"]}]
    assert check_load(site_of(more)).verdict.capacity == "pass"
    more["tools"][1] = resistive("more", f"{spare.power_w + 10.0} W", lowest_voltage="60 V")
    assert check_load(site_of(more)).verdict.capacity != "pass"


def test_curves_meet_the_points_of_the_standard() -> None:
    request = _request([resistive("heater", "1200 W")], ["R1"])
    _, parts = _included(request, "trip_curves")
    assert parts.trip_curves is not None
    curve = parts.trip_curves[0]
    by_amps = {point.current_a: point for point in curve.points}
    assert by_amps[20.0].earliest_s is None
    # UL 489: 135 % within an hour, 200 % within two minutes to 30 A
    assert by_amps[27.0].latest_guaranteed_s == 3600.0
    assert by_amps[40.0].latest_guaranteed_s == 120.0
    times = [point.latest_assumed_s for point in curve.points if point.latest_assumed_s is not None]
    assert times == sorted(times, reverse=True)
