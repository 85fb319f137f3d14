"""When does an overcurrent device open, at the earliest and at the latest?

Two thermal images d(theta)/dt = m^2 - theta over tau, with m = I / In and theta a ratio (1 = the heat of rated
current), and one instantaneous element bound each edge of a band. An edge opens when either image passes its level or
when m has stayed above the instantaneous multiple for the element's time. One image cannot meet a point at an hour
and a point at two minutes with any margin, hence two. For piecewise-constant current each step has a closed form, so
the play is exact, not stepped; state in and state out carry memory over repeats.

The guaranteed edge is no image but the standard's own step: it opens when the current has stayed at or above a point's
multiple for the point's time (and, for points that are tested hot, at or above a second multiple for a second time).
Between two points the standard promises only the later one.

What opens never has time +inf inside arrays; on the wire it is the word "holds".

An edge is six numbers: tau_slow [s], level_slow, tau_fast [s], level_fast, instantaneous multiple, its time [s].
A point is four: multiple, time [s], multiple before, time before [s]; both times count from the start of the run.
The state of an edge is three: theta_slow, theta_fast, seconds above the instantaneous multiple.
The state of a point is two: seconds at or above its multiple, seconds at or above its multiple before.

Source: the differential equation is a first-order lumped thermal model (any heat transfer text); UL 489 and
IEC 60898-1 give points, never curves, so the numbers of an edge are fitted (assumptions: protective_device.py).
Not here: where the numbers come from (breaker_bands.py, fuse_melting.py), electronic limits (source_limit.py).
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

EDGE_LENGTH = 6
POINT_LENGTH = 4
EDGE_STATE_LENGTH = 3
POINT_STATE_LENGTH = 2
EARLIEST, LATEST = 0, 1

# A device that holds a current for ever must hold it however the history is cut into steps: the last bit of a sum
# must not trip it. One part in 1e9 is far below any instrument.
_SLACK = 1e-9

_BISECTIONS = 45  # of [0, 1]: 3e-14


@kernel("float64(float64[::1], float64[::1], float64, float64[::1], float64[::1])")
def edge_trip_s(
    duration_s: FloatArray, current_a: FloatArray, rating_a: float, edge: FloatArray, state: FloatArray
) -> float:
    """Time at which one edge of a device opens under a current history; `state` is carried on in place.

    Parameters
    ----------
    duration_s : (m,) [s], >= 0; the last may be +inf
    current_a : (m,) [A], >= 0, constant over each step
    rating_a : [A], > 0
    edge : (6,) [s and ratios], see the module
    state : (3,) [ratio, ratio, s], in and out; out is the state as if the device had carried the whole history

    Returns
    -------
    trip_s : [s] from the start of the history, +inf where it holds

    Errors: none; ranges are checked in protective_device.py. Source: closed form of the first-order thermal model.
    """
    trip_s = math.inf
    start_s = 0.0
    for i in range(duration_s.shape[0]):
        step_s = duration_s[i]
        multiple = current_a[i] / rating_a
        heat = multiple * multiple
        for image in range(2):
            tau_s = edge[2 * image]
            level = edge[2 * image + 1]
            theta = state[image]
            if theta > level * (1.0 + _SLACK):
                # Only after a change of level (a hotter day) can an image stand above it at the start of a step.
                trip_s = min(trip_s, start_s)
            elif heat > level * (1.0 + _SLACK):
                # log1p keeps its digits where the heat is a million times the level.
                need_s = tau_s * math.log1p(max(level - theta, 0.0) / (heat - level))
                if need_s <= step_s:
                    trip_s = min(trip_s, start_s + need_s)
            state[image] = theta - (heat - theta) * math.expm1(-step_s / tau_s)
        if multiple > edge[4]:
            need_s = max(edge[5] - state[2], 0.0)
            if need_s <= step_s and step_s > 0.0:
                trip_s = min(trip_s, start_s + need_s)
            state[2] += step_s
        else:
            state[2] = 0.0
        start_s += step_s
    return trip_s


@kernel("float64(float64[::1], float64[::1], float64, float64[:,::1], float64[:,::1])")
def guaranteed_trip_s(
    duration_s: FloatArray, current_a: FloatArray, rating_a: float, points: FloatArray, state: FloatArray
) -> float:
    """Time by which the standard's points say that a device has opened; `state` is carried on in place.

    Parameters
    ----------
    duration_s : (m,) [s], >= 0; the last may be +inf
    current_a : (m,) [A], >= 0
    rating_a : [A], > 0
    points : (k, 4) [ratio, s, ratio, s], see the module; a multiple of +inf is no point
    state : (k, 2) [s], in and out

    Returns
    -------
    trip_s : [s] from the start of the history, +inf where the standard promises nothing

    Errors: none. Source: the standard that the points are from.
    """
    trip_s = math.inf
    start_s = 0.0
    for i in range(duration_s.shape[0]):
        step_s = duration_s[i]
        multiple = current_a[i] / rating_a
        for k in range(points.shape[0]):
            if multiple >= points[k, 0] * (1.0 - _SLACK):
                need_s = max(points[k, 1] - state[k, 0], points[k, 3] - state[k, 1], 0.0)
                if need_s <= step_s and step_s > 0.0:
                    trip_s = min(trip_s, start_s + need_s)
                state[k, 0] += step_s
            else:
                state[k, 0] = 0.0
            if multiple >= points[k, 2] * (1.0 - _SLACK):
                state[k, 1] += step_s
            else:
                state[k, 1] = 0.0
        start_s += step_s
    return trip_s


@kernel(
    "void(int64[::1], float64[::1], float64[::1], float64[::1], float64[:,:,::1], float64[:,:,::1],"
    " float64[:,:,::1], float64[:,:,::1], float64[:,::1])"
)
def trip_band_s(
    first_step: IntArray,
    duration_s: FloatArray,
    current_a: FloatArray,
    rating_a: FloatArray,
    edges: FloatArray,
    points: FloatArray,
    edge_state: FloatArray,
    point_state: FloatArray,
    trip_s: FloatArray,
) -> None:
    """Bands of many devices under one ragged history each.

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step; the last is m
    duration_s : (m,) [s]
    current_a : (m,) [A]
    rating_a : (n,) [A]
    edges : (n, 2, 6) [s and ratios], earliest then latest assumed
    points : (n, k, 4) [ratio, s, ratio, s]
    edge_state : (n, 2, 3) [ratio, ratio, s], in and out
    point_state : (n, k, 2) [s], in and out
    trip_s : (n, 3) [s], out: earliest, latest guaranteed, latest assumed; the assumed edge never lies after the
        guaranteed one

    Returns
    -------
    nothing; `trip_s` and both states are written

    Errors: none. About 1e7 steps a second and core: a caller that must be able to stop cuts its batch.
    Source: as edge_trip_s and guaranteed_trip_s.
    """
    for n in range(rating_a.shape[0]):
        steps = slice(first_step[n], first_step[n + 1])
        rated = rating_a[n]
        early = edge_trip_s(duration_s[steps], current_a[steps], rated, edges[n, 0], edge_state[n, 0])
        late = edge_trip_s(duration_s[steps], current_a[steps], rated, edges[n, 1], edge_state[n, 1])
        sure = guaranteed_trip_s(duration_s[steps], current_a[steps], rated, points[n], point_state[n])
        trip_s[n, 0] = min(early, sure)
        trip_s[n, 1] = sure
        trip_s[n, 2] = min(late, sure)


@kernel("void(float64[:,::1], float64, float64[::1])")
def edge_at_quantile(edges: FloatArray, quantile_ratio: float, edge: FloatArray) -> None:
    """The edge of one device inside its band: every number log-uniform between the earliest and the latest edge.

    Parameters
    ----------
    edges : (2, 6) [s and ratios]
    quantile_ratio : [ratio] 0 is the earliest edge, 1 the latest
    edge : (6,) [s and ratios], out

    Returns
    -------
    nothing; `edge` is written

    Errors: none. Source: assumption B-09 (protective_device.py).
    """
    for i in range(edge.shape[0]):
        low = edges[0, i]
        high = edges[1, i]
        if quantile_ratio <= 0.0 or low == high:
            edge[i] = low
        elif quantile_ratio >= 1.0 or high == math.inf:
            edge[i] = high
        else:
            edge[i] = low * math.exp(quantile_ratio * math.log(high / low))


@kernel("float64(float64[::1], float64[::1], float64, float64[:,::1], float64[:,::1], float64)")
def quantile_trip_s(
    duration_s: FloatArray,
    current_a: FloatArray,
    rating_a: float,
    edges: FloatArray,
    points: FloatArray,
    quantile_ratio: float,
) -> float:
    """Time at which the device at one quantile of its band opens, from cold.

    Parameters
    ----------
    duration_s : (m,) [s]
    current_a : (m,) [A]
    rating_a : [A]
    edges : (2, 6) [s and ratios]
    points : (k, 4) [ratio, s, ratio, s]
    quantile_ratio : [ratio] 0..1

    Returns
    -------
    trip_s : [s], +inf where it holds; rises with the quantile

    Errors: none. Source: assumption B-09 (protective_device.py).
    """
    edge = np.empty(6)
    state = np.zeros(3)
    point_state = np.zeros((points.shape[0], 2))
    edge_at_quantile(edges, quantile_ratio, edge)
    own = edge_trip_s(duration_s, current_a, rating_a, edge, state)
    return min(own, guaranteed_trip_s(duration_s, current_a, rating_a, points, point_state))


@kernel(
    "void(int64[::1], float64[::1], float64[::1], float64[::1], float64[:,:,::1], float64[:,:,::1], float64[::1],"
    " float64[::1])"
)
def quantile_trips_s(
    first_step: IntArray,
    duration_s: FloatArray,
    current_a: FloatArray,
    rating_a: FloatArray,
    edges: FloatArray,
    points: FloatArray,
    quantile_ratio: FloatArray,
    trip_s: FloatArray,
) -> None:
    """As quantile_trip_s for many cases: one drawn device each.

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step
    duration_s : (m,) [s]
    current_a : (m,) [A]
    rating_a : (n,) [A]
    edges : (n, 2, 6) [s and ratios]
    points : (n, k, 4) [ratio, s, ratio, s]
    quantile_ratio : (n,) [ratio] 0..1
    trip_s : (n,) [s], out

    Returns
    -------
    nothing; `trip_s` is written

    Errors: none. Source: assumption B-09 (protective_device.py).
    """
    for n in range(rating_a.shape[0]):
        steps = slice(first_step[n], first_step[n + 1])
        trip_s[n] = quantile_trip_s(
            duration_s[steps], current_a[steps], rating_a[n], edges[n], points[n], quantile_ratio[n]
        )


@kernel(
    "void(int64[::1], float64[::1], float64[::1], float64[::1], float64[:,:,::1], float64[:,:,::1], float64[::1],"
    " float64[::1])"
)
def trip_probabilities(
    first_step: IntArray,
    duration_s: FloatArray,
    current_a: FloatArray,
    rating_a: FloatArray,
    edges: FloatArray,
    points: FloatArray,
    within_s: FloatArray,
    probability_ratio: FloatArray,
) -> None:
    """Probability that a device of unknown place in its band has opened within a time, from cold.

    A device has one quantile for its whole life, so repeats are not independent tries: the probability is the largest
    quantile that has opened by then, found by bisection because the time rises with the quantile.

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step
    duration_s : (m,) [s]
    current_a : (m,) [A]
    rating_a : (n,) [A]
    edges : (n, 2, 6) [s and ratios]
    points : (n, k, 4) [ratio, s, ratio, s]
    within_s : (n,) [s], >= 0, may be +inf: ever in this history
    probability_ratio : (n,) [ratio], out

    Returns
    -------
    nothing; `probability_ratio` is written

    Errors: none. Source: assumption B-09 (protective_device.py).
    """
    for n in range(rating_a.shape[0]):
        steps = slice(first_step[n], first_step[n + 1])
        durations = duration_s[steps]
        currents = current_a[steps]
        at_0 = quantile_trip_s(durations, currents, rating_a[n], edges[n], points[n], 0.0)
        at_1 = quantile_trip_s(durations, currents, rating_a[n], edges[n], points[n], 1.0)
        if at_0 == math.inf or at_0 > within_s[n]:
            probability_ratio[n] = 0.0
        elif at_1 < math.inf and at_1 <= within_s[n]:
            probability_ratio[n] = 1.0
        else:
            opens = 0.0
            holds = 1.0
            for _ in range(_BISECTIONS):
                middle = 0.5 * (opens + holds)
                trip_s = quantile_trip_s(durations, currents, rating_a[n], edges[n], points[n], middle)
                if trip_s < math.inf and trip_s <= within_s[n]:
                    opens = middle
                else:
                    holds = middle
            probability_ratio[n] = 0.5 * (opens + holds)
