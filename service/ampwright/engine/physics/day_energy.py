"""What is left of a source's energy after a day of driving and working, over many draws of what is not known?

One kernel for one scenario and for a batch of them: every draw walks the same stretches of the day, and a scenario's
result does not depend on what stands beside it in the batch. Energy is that of the battery, or the heat of the fuel in
the tank; a source without a store starts with what it may give.

    drive:  energy per distance x distance x load x cold x wind x tow
    work:   (awake x idle + slope x load - gain) x time,  load = sum of share x a x b over what runs, at most the limit

What is asked above the source's power limit is not fed, and so not done; nor is what a load asks that the source
cannot run at all. Draw is a straight line of load, so the mean
of what runs decides and coincidence does not matter: the result is exact for loads that switch on and off. Within a
stretch the content moves one way, so floor, full and reserve are met at most once.

Not here: where the random numbers come from (counter_random.py), which figures are drawn (calculations/energy).
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.drawn_values import drawn_value, sorted_quantile

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]

# Places of the figures that every scenario has; what runs comes after them.
CAPACITY, HEALTH, COLD, CHARGE, STOPS_AT, IDLE, SLOPE, GAIN = 0, 1, 2, 3, 4, 5, 6, 7
PER_DISTANCE, LOAD_FACTOR, COLD_FACTOR, WIND_FACTOR, TOW_FACTOR, LIMIT = 8, 9, 10, 11, 12, 13
FIXED = 14
"""How many there are."""

# What one draw gives, in this order. MARGIN is what is left above the planned reserve, ENOUGH what is left on arrival
# above what must be, by the drive that this draw has; both below zero by what could not be served. WORK_SHARE is time
# at work before the reserve is reached over all of it; DONE is what the loads were fed by then over what they asked,
# those included that the source cannot run, LOAD what the source's power could feed, UNPOWERED what is
# asked above its power while it is awake, of the loads that it can run.
LEFT_AFTER_WORK, LEFT_AT_END, RESERVE_AT, WORK_SHARE, USED, UNSERVED, MARGIN, TIME_LEFT, IMBALANCE, ENOUGH = range(10)
LEFT_RATIO, DONE, LOAD, UNPOWERED = 10, 11, 12, 13
METRICS = 14
"""How many figures one draw gives."""


@kernel(
    "void(float64[:, ::1], float64[:, ::1], int64[::1], int64[:, ::1], int64[::1], float64[:, ::1], float64[::1], "
    "int64[::1], float64[::1], float64[::1], int64[::1], float64, float64, float64, float64[:, ::1], float64[::1], "
    "float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1])"
)
def day_draws(
    normal: FloatArray,
    band: FloatArray,
    kind: IntArray,
    factor: IntArray,
    able: IntArray,
    share: FloatArray,
    awake: FloatArray,
    is_work: IntArray,
    duration_s: FloatArray,
    gain_w: FloatArray,
    distance: IntArray,
    floor_reserve_j: float,
    arrival_j: float,
    plan_at: float,
    value: FloatArray,
    reserve_j: FloatArray,
    out: FloatArray,
    course_j: FloatArray,
    use_j: FloatArray,
    fed: FloatArray,
) -> None:
    """How does the day go in each draw of one scenario?

    Parameters
    ----------
    normal : (draws, figures) [-], standard normal numbers
    band : (figures, 3) [unit of each figure], low, typical, high
    kind : (figures,) [-], FREE, SHARE or SIGNED
    factor : (loads, 2) [-], places of the two figures whose product is a load [W]
    able : (loads,) [-], 1 a load that the source can run, 0 one that is asked for and never fed
    share : (stretches, loads) [-], how much of a load runs in a stretch of work
    awake : (stretches,) [-], share of the time that the source is awake; at 0 nothing is fed, else all of a load
    is_work : (stretches,) [-], 1 work, 0 drive
    duration_s : (stretches,) [s]
    gain_w : (stretches,) [W], put into the store meanwhile, before the GAIN factor
    distance : (stretches,) [-], place of the figure [m] that a drive covers, -1 for work
    floor_reserve_j : [J], least reserve whatever the distance
    arrival_j : [J], to be left on arrival
    plan_at : [-], percentile at which the remaining drive is planned
    value : (draws, figures) [unit of each figure], written: what was drawn
    reserve_j : (stretches,) [J], written: what must be left at the end of each stretch
    out : (METRICS, draws) [J, s or -], written, by the names above; RESERVE_AT is inf where it is never reached
    course_j : (draws, stretches + 1) [J], written: content at the start and after each stretch; (0, 0) for none
    use_j : (draws, loads + 3) [J], written: each load, then awake or idling, conversion, driving; (0, 0) for none
    fed : (draws, stretches) [-], written: power given over power asked, 1 where none is; (0, 0) for none

    Returns
    -------
    Nothing.

    Errors: none.
    Source: conservation of energy; module docstring.
    """
    draws, figures = normal.shape
    stretches = is_work.shape[0]
    loads = factor.shape[0]
    for d in range(draws):
        for f in range(figures):
            value[d, f] = drawn_value(normal[d, f], band[f, 0], band[f, 1], band[f, 2], kind[f])
    remaining = np.zeros(draws)
    planned_j = 0.0
    for g in range(stretches - 1, -1, -1):
        needed_j = planned_j + arrival_j
        reserve_j[g] = needed_j if needed_j > floor_reserve_j else floor_reserve_j
        if is_work[g] == 0:
            for d in range(draws):
                v = value[d]
                per_m = v[PER_DISTANCE] * v[LOAD_FACTOR] * v[COLD_FACTOR] * v[WIND_FACTOR] * v[TOW_FACTOR]
                remaining[d] += per_m * v[distance[g]]
            planned_j = sorted_quantile(np.sort(remaining), plan_at)
    last_work = -1
    work_s = 0.0
    for g in range(stretches):
        if is_work[g] == 1:
            last_work = g
            work_s += duration_s[g]
    for d in range(draws):
        v = value[d]
        full_j = v[CAPACITY] * v[HEALTH] * v[COLD]
        here_j = full_j * v[CHARGE]
        start_j = here_j
        floor_j = full_j * v[STOPS_AT]
        per_m = v[PER_DISTANCE] * v[LOAD_FACTOR] * v[COLD_FACTOR] * v[WIND_FACTOR] * v[TOW_FACTOR]
        time_s = 0.0
        done_s = 0.0
        reserve_at_s = math.inf
        done_at_reserve_s = 0.0
        unserved_j = 0.0
        spilled_j = 0.0
        gained_j = 0.0
        drawn_j = 0.0
        used_j = 0.0
        load_j = 0.0
        asked_j = 0.0
        never_j = 0.0
        beyond_j = 0.0
        done_j = 0.0
        margin_j = math.inf
        left_after_work_j = here_j
        rate_w = 0.0
        if course_j.shape[0] > 0:
            course_j[d, 0] = here_j
        if fed.shape[0] > 0:
            for g in range(stretches):
                fed[d, g] = 1.0
        if use_j.shape[0] > 0:
            for u in range(loads + 3):
                use_j[d, u] = 0.0
        for g in range(stretches):
            if is_work[g] == 0:
                need_j = per_m * v[distance[g]]
                drawn_j += need_j
                if use_j.shape[0] > 0:
                    use_j[d, loads + 2] += need_j
                if need_j > here_j:
                    unserved_j += need_j - here_j
                    used_j += here_j
                    here_j = 0.0
                else:
                    here_j -= need_j
                    used_j += need_j
                if reserve_at_s == math.inf and here_j < reserve_j[g]:
                    reserve_at_s = time_s + duration_s[g]
                    done_at_reserve_s = done_s
            else:
                load_w = 0.0
                for j in range(loads):
                    watts = share[g, j] * v[factor[j, 0]] * v[factor[j, 1]]
                    if able[j] == 1:
                        load_w += watts
                    else:
                        never_j += watts * duration_s[g]
                asked_j += load_w * duration_s[g]
                given = v[LIMIT] / load_w if load_w > v[LIMIT] else 1.0
                if awake[g] <= 0.0:
                    given = 0.0
                    load_w = 0.0
                elif given < 1.0:
                    beyond_j += (load_w - v[LIMIT]) * duration_s[g]
                    load_w = v[LIMIT]
                load_j += load_w * duration_s[g]
                if use_j.shape[0] > 0:
                    for j in range(loads):
                        if able[j] == 1:
                            use_j[d, j] += given * share[g, j] * v[factor[j, 0]] * v[factor[j, 1]] * duration_s[g]
                if fed.shape[0] > 0:
                    fed[d, g] = given
                idle_w = awake[g] * v[IDLE]
                draw_w = idle_w + v[SLOPE] * load_w
                into_w = gain_w[g] * v[GAIN]
                if use_j.shape[0] > 0:
                    use_j[d, loads] += idle_w * duration_s[g]
                    use_j[d, loads + 1] += (v[SLOPE] - 1.0) * load_w * duration_s[g]
                drawn_j += draw_w * duration_s[g]
                gained_j += into_w * duration_s[g]
                net_w = into_w - draw_w
                rate_w = -net_w
                before_j = here_j
                target_j = before_j + net_w * duration_s[g]
                missing_j = 0.0
                if net_w < 0.0 and target_j < floor_j:
                    end_j = before_j if before_j < floor_j else floor_j
                    missing_j = end_j - target_j
                    target_j = end_j
                elif net_w > 0.0 and target_j > full_j:
                    end_j = before_j if before_j > full_j else full_j
                    spilled_j += target_j - end_j
                    target_j = end_j
                unserved_j += missing_j
                used_j += draw_w * duration_s[g] - missing_j
                level_j = reserve_j[g] if reserve_j[g] > floor_j else floor_j
                # a store that fills while work goes on need not hold the reserve before it is left
                filling = net_w > 0.0 and before_j >= floor_j and g + 1 < stretches and is_work[g + 1] == 1
                if reserve_at_s == math.inf:
                    until_s = duration_s[g]
                    if net_w > 0.0 and before_j >= floor_j:
                        pass
                    elif before_j < level_j or (missing_j > 0.0 and before_j <= level_j):
                        until_s = 0.0
                    elif target_j < level_j or missing_j > 0.0:
                        until_s = (before_j - level_j) / -net_w
                    done_j += load_w * until_s
                    if until_s < duration_s[g] or (target_j < level_j and not filling) or missing_j > 0.0:
                        reserve_at_s = time_s + until_s
                        done_at_reserve_s = done_s + until_s
                here_j = target_j
                done_s += duration_s[g]
                left_j = here_j - level_j - unserved_j
                if not filling:
                    margin_j = min(margin_j, left_j)
                if g == last_work:
                    left_after_work_j = here_j
            time_s += duration_s[g]
            if course_j.shape[0] > 0:
                course_j[d, g + 1] = here_j
        out[LEFT_AFTER_WORK, d] = left_after_work_j
        out[LEFT_AT_END, d] = here_j
        out[RESERVE_AT, d] = reserve_at_s
        if reserve_at_s == math.inf:
            out[WORK_SHARE, d] = 1.0
        else:
            out[WORK_SHARE, d] = done_at_reserve_s / work_s if work_s > 0.0 else 0.0
        out[USED, d] = used_j
        out[UNSERVED, d] = unserved_j
        if margin_j == math.inf:  # a day without work: what is left at its end
            margin_j = here_j - unserved_j - (arrival_j if arrival_j > floor_reserve_j else floor_reserve_j)
        out[MARGIN, d] = margin_j
        # what stays below the floor feeds nothing: it does not make up for what was not served
        enough_j = here_j - arrival_j
        if unserved_j > 0.0:
            enough_j = min(enough_j, 0.0) - unserved_j
        out[ENOUGH, d] = enough_j
        out[TIME_LEFT, d] = (margin_j / rate_w if margin_j > 0.0 else 0.0) if rate_w > 0.0 else math.inf
        out[IMBALANCE, d] = start_j + gained_j - drawn_j + unserved_j - spilled_j - here_j
        out[LEFT_RATIO, d] = here_j / v[CAPACITY] if v[CAPACITY] > 0.0 else 0.0
        out[DONE, d] = done_j / (asked_j + never_j) if asked_j + never_j > 0.0 else 1.0
        out[LOAD, d] = load_j
        out[UNPOWERED, d] = beyond_j


@kernel(
    "void(float64[:, ::1], float64[:, :, ::1], int64[::1], int64[:, ::1], int64[:, ::1], float64[:, :, ::1], "
    "float64[:, ::1], int64[::1], float64[:, ::1], float64[:, ::1], int64[::1], float64[::1], float64[::1], float64, "
    "float64[::1], float64[:, :, ::1], float64[::1])"
)
def day_batch(
    normal: FloatArray,
    band: FloatArray,
    kind: IntArray,
    factor: IntArray,
    able: IntArray,
    share: FloatArray,
    awake: FloatArray,
    is_work: IntArray,
    duration_s: FloatArray,
    gain_w: FloatArray,
    distance: IntArray,
    floor_reserve_j: FloatArray,
    arrival_j: FloatArray,
    plan_at: float,
    probability: FloatArray,
    quantile: FloatArray,
    reached: FloatArray,
) -> None:
    """How do the days of many scenarios go, as percentiles of what a draw gives?

    Parameters
    ----------
    normal : (draws, figures) [-], the same for every scenario, so that two scenarios differ by what they say only
    band : (scenarios, figures, 3) [unit of each figure]
    kind : (figures,) [-]
    factor : (loads, 2) [-]
    able : (scenarios, loads) [-]
    share : (scenarios, stretches, loads) [-]
    awake : (scenarios, stretches) [-]
    is_work : (stretches,) [-]
    duration_s : (scenarios, stretches) [s]
    gain_w : (scenarios, stretches) [W]
    distance : (stretches,) [-]
    floor_reserve_j : (scenarios,) [J]
    arrival_j : (scenarios,) [J]
    plan_at : [-]
    probability : (p,) [-], percentiles asked for
    quantile : (scenarios, METRICS, p) [J, s or -], written
    reached : (scenarios,) [-], written: share of the draws in which the reserve is reached

    Returns
    -------
    Nothing.

    Errors: none.
    Source: `day_draws` for each scenario.
    """
    draws, figures = normal.shape
    value = np.empty((draws, figures))
    out = np.empty((METRICS, draws))
    reserve_j = np.empty(is_work.shape[0])
    none = np.empty((0, 0))
    for s in range(band.shape[0]):
        day_draws(
            normal,
            band[s],
            kind,
            factor,
            able[s],
            share[s],
            awake[s],
            is_work,
            duration_s[s],
            gain_w[s],
            distance,
            floor_reserve_j[s],
            arrival_j[s],
            plan_at,
            value,
            reserve_j,
            out,
            none,
            none,
            none,
        )
        count = 0
        for d in range(draws):
            if out[RESERVE_AT, d] < math.inf:
                count += 1
        reached[s] = count / draws
        for m in range(METRICS):
            ordered = np.sort(out[m])
            for p in range(probability.shape[0]):
                quantile[s, m, p] = sorted_quantile(ordered, probability[p])
