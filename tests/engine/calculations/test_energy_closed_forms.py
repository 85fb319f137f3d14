"""Do energy budgets agree with what mathematics says without drawing anything?

Certain days have one answer, a sum. Days with one uncertain figure have percentiles that follow from the figure's own
by a rising or falling function. Days of several have means and, where everything multiplies, percentiles in closed form
(products of log-normal figures are log-normal). The law of conservation of energy holds in every draw.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np
import pytest
from ampwright.engine.calculations.energy.energy_plan import evaluate, evaluate_many, normals
from ampwright.engine.calculations.energy.energy_settle import settle_day
from ampwright.engine.physics.battery_energy import energy_course_j
from ampwright.engine.physics.day_energy import (
    CHARGE,
    ENOUGH,
    IMBALANCE,
    LEFT_AFTER_WORK,
    LEFT_AT_END,
    MARGIN,
    RESERVE_AT,
    TIME_LEFT,
    UNSERVED,
    USED,
    WORK_SHARE,
)
from ampwright.engine.site.band import Band
from day_of import KWH_J, budget, certain, day_of, steady
from scipy import stats

HOUR_S = 3600.0


def half_on(*tools: str) -> list[dict[str, Any]]:
    return [{"tool": tool, "running": "50 %"} for tool in tools]


def test_a_certain_day_is_a_sum() -> None:
    # 10 kWh - 5 h x (100 W awake + 1000 W x 0.5 / 0.8) = 10 - 0.5 - 3.125
    found = budget(
        certain(
            source={**certain()["source"], "awake_draw": "100 W"},
            battery={"efficiency": "80 %"},
            tools=[steady("lamp", "1000 W")],
            duties=half_on("lamp"),
        )
    )
    assert found.method.method == "certain"
    assert found.left is not None
    for value in (found.left.after_work_j.p10, found.left.after_work_j.p50, found.left.after_work_j.p90):
        assert value == pytest.approx((10.0 - 0.5 - 3.125) * KWH_J, abs=50.0)  # rounded to 100 J
    assert {use.name: use.energy_j.p50 for use in found.uses} == pytest.approx(
        {"lamp": 2.5 * KWH_J, "conversion": 0.625 * KWH_J, "awake": 0.5 * KWH_J}, abs=50.0
    )


def test_the_reserve_is_reached_when_the_sum_says() -> None:
    # 20 km x 200 Wh/km = 4 kWh and 10 % = 1 kWh must be left; 1 kW reaches 5 kWh after 5 of 8 hours.
    found = budget(
        certain(
            shift="8 h",
            tools=[steady("lamp", "1000 W")],
            duties=[{"tool": "lamp", "running": "100 %"}],
            way_home={"distance": "20 km", "arrive_with": "10 %"},
            work=[{"id": "nothing", "unit": "cut", "amount": 100, "energy_each": "0 Wh"}],
        )
    )
    assert found.verdict.capacity == "fail"
    assert found.reserve is not None
    assert found.reserve.energy_j == pytest.approx(5.0 * KWH_J, abs=50.0)
    assert found.reserve.reached_at_s is not None
    assert found.reserve.reached_at_s.p50 == pytest.approx(5.0 * HOUR_S, abs=1.0)
    assert found.work_done[0].done_ratio.p50 == pytest.approx(5.0 / 8.0, abs=1e-4)
    assert found.work_done[0].done.p50 == pytest.approx(62.5, abs=0.01)


def test_time_left_is_what_is_left_over_the_rate() -> None:
    # 10 - 5 kWh are left after 5 h at 1 kW; nothing must be left: 5 h more.
    found = budget(certain(tools=[steady("lamp", "1000 W")], duties=[{"tool": "lamp", "running": "100 %"}]))
    assert found.time_left_s is not None
    assert found.time_left_s.p50 == pytest.approx(5.0 * HOUR_S, abs=1.0)


def test_one_uncertain_figure_has_exact_percentiles() -> None:
    # Low and high of a band are its 10th and 90th percentile: what is left at P10 belongs to the high end.
    # 10 kWh - 40 km x 150..200..280 Wh/km x 1
    found = budget(
        certain(
            source={**certain()["source"], "energy_per_distance": "150..200..280 Wh/km"},
            way_home={"distance": "40 km"},
        )
    )
    assert found.method.method == "one_figure"
    assert found.left is not None
    assert found.left.at_end_j.p10 == 0.0  # 11.2 kWh are asked, 10 are there
    # from neighbouring draws on a grid of 4000 percentiles: within one step of it at P50 and P90
    assert found.left.at_end_j.p50 == pytest.approx(2.0 * KWH_J, rel=2e-3)
    assert found.left.at_end_j.p90 == pytest.approx(4.0 * KWH_J, rel=2e-3)


def uncertain_drive() -> dict[str, Any]:
    # three figures that multiply, symmetric in their logarithms
    return certain(
        source={**certain()["source"], "battery": "60 kWh", "energy_per_distance": "200..240..288 Wh/km"},
        way_home={"distance": "40..50..62.5 km"},
        draws=20000,
    )


def test_a_product_of_log_normal_figures_is_log_normal() -> None:
    site, day = day_of(uncertain_drive())
    outcome = evaluate(settle_day(site, day).plan, day.seed, day.draws)
    assert outcome.method == "monte_carlo"
    z = stats.norm.ppf(0.9)
    sigma = math.hypot(math.log(288 / 240), math.log(62.5 / 50)) / z
    drive = stats.lognorm(sigma, scale=240.0 * 50.0 * 3600.0)  # Wh/km x km in J
    used = outcome.use_j[:, -1]
    for p in (0.1, 0.5, 0.9):
        exact = drive.ppf(p)
        # standard error of a sample quantile: sqrt(p (1 - p) / n) / density
        error = math.sqrt(p * (1 - p) / day.draws) / drive.pdf(exact)
        assert abs(np.quantile(used, p) - exact) < 4.0 * error
    mean_error = drive.std() / math.sqrt(day.draws)
    assert abs(used.mean() - drive.mean()) < 4.0 * mean_error
    # the reserve is planned at P90 of the drive, with nothing more to be left
    assert outcome.reserve_j[0] == pytest.approx(drive.ppf(0.9), rel=0.01)


def test_the_mean_of_loads_is_the_sum_of_means() -> None:
    """Independent figures: the mean of a product is the product of means, whatever switches on and off together."""
    request = certain(
        source={**certain()["source"], "battery": "90 kWh", "awake_draw": "100..200..400 W"},
        tools=[steady("a", "500 W"), steady("b", "900 W")],
        duties=[{"tool": "a", "running": "20..30..40 %"}, {"tool": "b", "running": "35..50..65 %"}],
        draws=20000,
    )
    for tool, power in zip(request["tools"], ("400..500..625 W", "720..900..1125 W"), strict=True):
        tool["load_states"] = [{"id": "working", "power": power, "power_factor": 1.0}]
    site, day = day_of(request)
    used = evaluate(settle_day(site, day).plan, day.seed, day.draws).out[USED]
    z = stats.norm.ppf(0.9)

    def log_normal_mean(typical: float, ratio: float) -> float:
        return typical * math.exp(0.5 * (math.log(ratio) / z) ** 2)

    # symmetric shares: the mean is the typical value but for the tail cut at 0 and 1 (4 and more deviations away)
    exact = (
        5.0
        * HOUR_S
        * (log_normal_mean(200.0, 2.0) + log_normal_mean(500.0, 1.25) * 0.3 + log_normal_mean(900.0, 1.25) * 0.5)
    )
    assert abs(used.mean() - exact) < 4.0 * used.std() / math.sqrt(day.draws)


def full_day(seed: int = 1, **members: Any) -> dict[str, Any]:
    """A day with every kind of stretch, load and unknown."""
    request: dict[str, Any] = {
        "source": {"kind": "vehicle", "voltage": "120 V", "battery": "30..40..50 kWh"},
        "charge": "50..70..90 %",
        "tools": [
            {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "15 A"}]},
            {"id": "comp", "load_class": "air_compressor", "supply_options": [{"voltage": "120 V", "current": "15 A"}]},
            {"id": "vac", "load_class": "dust_extractor", "follows": "saw",
             "supply_options": [{"voltage": "120 V", "power": "1200 W"}]},
        ],
        "work": [
            {"id": "cuts", "unit": "cut", "amount": 200, "tool": "saw"},
            {"id": "packs", "unit": "pack", "amount": 8},
        ],
        "stops": [
            {"id": "first", "distance": "10..14 km", "lasts": "2.5 h"},
            {"id": "second", "distance": "8 km", "lasts": "4 h", "running": ["comp"], "recharge": "2 kW"},
        ],
        "solar": ["0 W", "200 W", "300 W", "300 W"],
        "way_home": {"distance": "25..30 km", "towing": True},
        "conditions": {"ambient": "-5..5 degC"},
        "seed": seed,
        "draws": 2000,
    }  # fmt: skip
    request.update(members)
    return request


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("charge", ["3 %", "20..60 %", "100 %"])
def test_energy_is_conserved_in_every_draw(seed: int, charge: str) -> None:
    site, day = day_of(full_day(seed, charge=charge))
    settled = settle_day(site, day)
    outcome = evaluate(settled.plan, day.seed, day.draws)
    scale = outcome.value[:, 0]  # capacity: the largest amount in play
    assert np.abs(outcome.out[IMBALANCE] / scale).max() < 1e-9
    # and from outside the kernel: what was there is what is left and what was used, less what came in and did not fit
    asked = outcome.use_j.sum(axis=1)
    assert np.all(outcome.out[USED] <= asked * (1.0 + 1e-12))
    assert outcome.out[USED] + outcome.out[UNSERVED] == pytest.approx(asked, rel=1e-9)
    assert np.all(outcome.course_j >= -1e-6)


def test_one_draw_is_the_balance_of_a_store_worked_out_elsewhere() -> None:
    """Against the store of physics/battery_energy.py, which knows nothing of draws, drives and reserves."""
    site, day = day_of(
        full_day(charge="12 %", way_home={"distance": "0 km"}, battery={"stops_at": "5 %"}, solar=["4 kW"] * 8)
    )
    request_stops = [replace(stop, distance_m=None) for stop in day.stops or ()]
    settled = settle_day(site, replace(day, stops=tuple(request_stops)))
    outcome = evaluate(settled.plan, day.seed, day.draws)
    plan = settled.plan
    n = len(plan.stretches)
    assert all(item.is_work for item in plan.stretches)
    for d in (0, 7, 99, 1500):
        v = outcome.value[d]
        full = v[0] * v[1] * v[2]
        load = [
            sum(plan.share[item.stop, j] * v[one.power] * v[one.time] for j, one in enumerate(plan.loads))
            for item in plan.stretches
        ]
        draw = np.array([v[5] + v[6] * watts for watts in load])
        gain = np.array([item.gain_w * v[7] for item in plan.stretches])
        left, unserved, spilled = np.empty(n), np.empty(n), np.empty(n)
        lasts = np.array([item.duration_s for item in plan.stretches])
        energy_course_j(draw, gain, lasts, full * v[3], full * v[4], full, left, unserved, spilled)
        assert outcome.course_j[d, 1:] == pytest.approx(left, rel=1e-12)
        assert outcome.out[UNSERVED, d] == pytest.approx(unserved.sum(), rel=1e-9, abs=1e-3)


def test_percentiles_are_in_order_and_words_promise_no_more() -> None:
    for seed, charge in product(range(3), ("30 %", "60 %", "95 %")):
        found = budget(full_day(seed, charge=charge))
        assert found.left is not None
        assert found.reserve is not None
        bands = [
            found.left.after_work_j, found.left.at_end_j, found.left.above_reserve_j, found.used_j,
            *(point.left_j for point in found.curve), *(use.energy_j for use in found.uses),
            *(item.done_ratio for item in found.work_done), *(item.left_on_leaving_j for item in found.stops),
        ]  # fmt: skip
        for band in bands:
            assert band.p10 <= band.p50 <= band.p90
        assert sum(use.share_ratio for use in found.uses) == pytest.approx(1.0, abs=1e-3)


def test_a_scenario_does_not_depend_on_what_stands_beside_it() -> None:
    site, day = day_of(full_day())
    plan = settle_day(site, day).plan
    charges = [0.3 + 0.05 * n for n in range(14)]
    plans = [plan.with_band(CHARGE, Band(c - 0.02, c, min(c + 0.02, 1.0))) for c in charges]
    together = evaluate_many(plans, 3, 500, (0.1, 0.5, 0.9))
    backwards = evaluate_many(plans[::-1], 3, 500, (0.1, 0.5, 0.9))[::-1]
    assert np.array_equal(together, backwards)
    for one, row in zip(plans, together, strict=True):
        assert np.array_equal(evaluate_many([one], 3, 500, (0.1, 0.5, 0.9))[0], row)
    alone = evaluate(plans[4], 3, 500)
    assert together[4, MARGIN, 1] == np.quantile(alone.out[MARGIN], 0.5)


def test_a_batch_of_ten_thousand_goes_through_the_kernel_in_one_call() -> None:
    site, day = day_of(full_day())
    plan = settle_day(site, day).plan
    plans = [plan.with_band(CHARGE, Band.exactly(0.05 + 0.95 * n / 9999)) for n in range(10_000)]
    found = evaluate_many(plans, 1, 50, (0.1, 0.5, 0.9))
    assert found.shape[0] == 10_000
    for metric in (MARGIN, LEFT_AFTER_WORK, LEFT_AT_END, WORK_SHARE, ENOUGH):
        assert np.all(np.diff(found[:, metric, :], axis=0) >= -1e-6), metric
    assert np.all(np.diff(found[:, metric, :], axis=1) >= 0.0)
    assert np.abs(found[:, IMBALANCE, :]).max() < 1e-9 * 50 * KWH_J
    # less charge never reaches the reserve later
    at_s = np.where(np.isinf(found[:, RESERVE_AT, :]), 1e12, found[:, RESERVE_AT, :])
    assert np.all(np.diff(at_s, axis=0) >= -1e-6)


WORSE = [
    ("less charge", "charge", "70 %", "60 %"),
    ("a longer way", "way_home", {"distance": "20 km"}, {"distance": "30 km"}),
    ("a trailer", "way_home", {"distance": "20 km", "towing": False}, {"distance": "20 km", "towing": True}),
    ("a head wind", "way_home", {"distance": "20 km", "headwind": "0 km/h"},
     {"distance": "20 km", "headwind": "40 km/h"}),
    ("more to be left", "way_home", {"arrive_with": "5 %"}, {"arrive_with": "20 %"}),
    ("cold", "conditions", {"ambient": "15 degC"}, {"ambient": "-10 degC"}),
    ("an old battery", "battery", {"age_years": 1}, {"age_years": 9}),
    ("losses", "battery", {"efficiency": "95 %"}, {"efficiency": "80 %"}),
    ("no sun", "solar", ["500 W"] * 8, []),
    ("more cuts", "work",
     [{"id": "cuts", "unit": "cut", "amount": 50}], [{"id": "cuts", "unit": "cut", "amount": 900}]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "member", "better", "worse"), WORSE, ids=[row[0] for row in WORSE])
def test_what_is_worse_leaves_no_more(name: str, member: str, better: Any, worse: Any) -> None:
    """Draws go by the figure's name, so that this holds draw by draw and not only on average."""
    outcomes = []
    for value in (better, worse):
        site, day = day_of(full_day(**{member: value}))
        outcomes.append(evaluate(settle_day(site, day).plan, day.seed, day.draws))
    good, bad = outcomes
    assert np.all(bad.out[MARGIN] <= good.out[MARGIN] + 1e-6), name
    assert bad.out[MARGIN].mean() < good.out[MARGIN].mean() - 1.0, name
    assert np.all(bad.out[TIME_LEFT] <= good.out[TIME_LEFT] + 1e-6), name


def test_draws_are_a_function_of_seed_and_name() -> None:
    site, day = day_of(full_day())
    plan = settle_day(site, day).plan
    first, _ = normals(plan, 5, 300)
    more, _ = normals(plan, 5, 600)
    other, _ = normals(plan, 6, 300)
    assert np.array_equal(first, more[:300])
    place = plan.index("capacity")
    assert not np.array_equal(first[:, place], other[:, place])
    # independent between figures: no pair correlates beyond four standard errors of 300 draws
    uncertain = [i for i, item in enumerate(plan.figures) if item.uncertain]
    drawn = normals(plan, 5, 4000)[0][:, uncertain]
    correlation = np.corrcoef(drawn.T) - np.eye(len(uncertain))
    assert np.abs(correlation).max() < 4.5 / math.sqrt(4000)
    assert stats.kstest(drawn[:, 0], "norm").pvalue > 1e-4


def test_drawing_at_random_agrees_with_the_exact_percentiles_of_one_figure() -> None:
    """The same day twice: with one uncertain figure, exactly; with a second one too narrow to matter, by draws."""
    exact_day = certain(
        source={**certain()["source"], "battery": "30 kWh", "energy_per_distance": "180..230..340 Wh/km"},
        way_home={"distance": "60 km"},
        draws=20000,
    )
    drawn_day = {**exact_day, "way_home": {**exact_day["way_home"], "distance": "59.99999..60..60.00001 km"}}
    outcomes = []
    for request in (exact_day, drawn_day):
        site, day = day_of(request)
        outcomes.append(evaluate(settle_day(site, day).plan, day.seed, day.draws))
    exact, drawn = outcomes
    assert (exact.method, drawn.method) == ("one_figure", "monte_carlo")
    for p in (0.1, 0.25, 0.5, 0.75, 0.9):
        # the share of draws at or below the exact percentile is binomial: four standard errors around p
        share = float(np.mean(drawn.out[LEFT_AT_END] <= exact.at(LEFT_AT_END, p)))
        assert abs(share - p) < 4.0 * math.sqrt(p * (1.0 - p) / day.draws)
    # and the exact ones are those of the figure: P10 of what is left belongs to P90 of the drive
    assert exact.at(LEFT_AT_END, 0.1) == pytest.approx(30 * KWH_J - 60 * 340 * 3600, rel=1e-4)
    assert exact.at(LEFT_AT_END, 0.9) == pytest.approx(30 * KWH_J - 60 * 180 * 3600, rel=1e-4)


@pytest.mark.parametrize("charge", ["55 %", "70..90 %", "100 %"])
def test_the_words_are_true_of_the_draws(charge: str) -> None:
    """ "In 8 of 10 days at least 3.1 kWh is left" says the P10: counted over the draws, nine of ten, a day in hand."""
    source = {**full_day()["source"], "battery": "90..100..110 kWh"}
    request = full_day(charge=charge, source=source, way_home={"distance": "20..30 km", "towing": False})
    line = next(item for item in budget(request).crew_card if item.code == "card_left")
    amount, unit = line.text.removeprefix("In 8 of 10 days at least ").split(" ")[:2]
    said_j = float(amount) * {"kWh": KWH_J, "Wh": 3600.0}[unit]
    site, day = day_of(request)
    left = evaluate(settle_day(site, day).plan, day.seed, day.draws).out[LEFT_AT_END]
    assert np.mean(left >= said_j) >= 0.9
    # two digits, rounded down: the next step up would promise too much
    step_j = 10.0 ** (math.floor(math.log10(float(amount))) - 1) * {"kWh": KWH_J, "Wh": 3600.0}[unit]
    assert np.mean(left >= said_j + step_j) < 0.9 + 1e-9
