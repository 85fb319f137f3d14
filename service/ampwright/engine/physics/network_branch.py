"""Does the solution of a network of impedances lead to one with the loads as they are, or does it turn back?

The curve of solutions over the parameter x of network_newton.py is followed from x = 0, where there is exactly one
however weak the source, by pseudo-arclength continuation: steps along the curve, not along x, so that a turn is an
ordinary point of it. A point is the vector of load voltages, as shares of nominal, with x as its last entry.

Source: Keller, "Numerical solution of bifurcation and nonlinear eigenvalue problems" (1977); on power networks,
Ajjarapu and Christy, IEEE Trans. Power Systems 7 (1992) no. 1; both from memory.
Not here: what follows from a turn (network_limit.py).
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel, types
from ampwright.engine.physics.network_newton import FLOOR_RATIO, TIGHT, newton, solve_linearised
from ampwright.engine.physics.network_tree import CASE, SINGULAR, RadialCase

ARRIVED = 0
TURNED_BACK = 1
LOST = 2

DEAD_RATIO = 1e-10
"""A load under this share of nominal voltage has no source at all (a broken neutral, one load): off, not collapsed."""

_CORRECTOR_STEPS = 10
_BRANCH_STEPS = 300
_SEARCH_STEPS = 60
_AT_TURN = 1e-5  # share of the parameter in the unit tangent; the parameter at the turn is then known to its square
_CLOSE = 1e-6  # at a turn, rounding moves a point along the curve by this much, and the parameter by its square

_STEP = types.int64(
    CASE,
    types.complex128[::1],
    types.complex128[::1],
    types.float64,
    types.complex128[::1],
    types.complex128[::1],
)


@kernel(_STEP)
def step_along_branch(
    case: RadialCase,
    point: npt.NDArray[np.complex128],
    tangent: npt.NDArray[np.complex128],
    length: float,
    new_point: npt.NDArray[np.complex128],
    new_tangent: npt.NDArray[np.complex128],
) -> int:
    """One step of given length along the curve of solutions.

    Parameters
    ----------
    case : the network
    point, tangent : (m + 1,) [1] a solution and the unit tangent there
    length : [1] of the step
    new_point, new_tangent : (m + 1,) [1] out: the next solution and its unit tangent, which points onward; its last
        entry is negative behind a turn. NaN in the last entries where no solution was found

    Returns
    -------
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    loads = point.shape[0] - 1
    curve = case.load_curve
    load_v = np.empty(loads, np.complex128)
    predicted = point + length * tangent
    new_point[:] = predicted
    last = np.inf
    for step in range(1, _CORRECTOR_STEPS + 1):
        for m in range(loads):
            load_v[m] = new_point[m] * curve[m, 3]
        if solve_linearised(case, False, load_v, new_point[loads].real) == SINGULAR:
            break
        off = (tangent[loads] * (new_point[loads] - predicted[loads])).real
        rate = tangent[loads].real
        for m in range(loads):
            off += (tangent[m].conjugate() * (case.load_v[0, m] / curve[m, 3] - predicted[m])).real
            rate += (tangent[m].conjugate() * case.load_v[1, m]).real / curve[m, 3]
        if rate == 0.0:
            break
        onward = -off / rate
        change = abs(onward)
        for m in range(loads):
            corrected = (case.load_v[0, m] + onward * case.load_v[1, m]) / curve[m, 3]
            change = max(change, abs(corrected - new_point[m]))
            new_point[m] = corrected
        new_point[loads] += onward
        if not change < 10.0:
            break
        if change <= 10.0 * TIGHT or (change <= _CLOSE and change >= last):
            square = 1.0
            along = tangent[loads].real
            for m in range(loads):
                new_tangent[m] = case.load_v[1, m] / curve[m, 3]
                square += abs(new_tangent[m]) ** 2
                along += (tangent[m].conjugate() * new_tangent[m]).real
            new_tangent[loads] = 1.0
            scale = math.copysign(1.0 / math.sqrt(square), along)
            for m in range(loads + 1):
                new_tangent[m] *= scale
            return step
        last = change
    new_point[loads] = np.nan
    new_tangent[loads] = np.nan
    return step


@kernel(types.boolean(CASE, types.complex128[::1]))
def is_spent(case: RadialCase, point: npt.NDArray[np.complex128]) -> bool:
    """Whether a load that must hold current or power has next to no voltage left, though it is connected.

    Parameters
    ----------
    case : the network
    point : (m + 1,) [1] load voltages as shares of nominal, and the parameter

    Returns
    -------
    spent : bool

    Errors: none.
    Source: the limits of what is told apart, FLOOR_RATIO and DEAD_RATIO.
    """
    for m in range(point.shape[0] - 1):
        if case.load_curve[m, 1] < 1.0 and DEAD_RATIO < abs(point[m]) < FLOOR_RATIO:
            return True
    return False


@kernel(types.UniTuple(types.int64, 2)(CASE, types.complex128[::1], types.complex128[::1], types.float64))
def is_turn(
    case: RadialCase, point: npt.NDArray[np.complex128], tangent: npt.NDArray[np.complex128], length: float
) -> tuple[int, int]:
    """Whether the curve, which runs backwards a step further on, turned before the parameter reached 1.

    Parameters
    ----------
    case : the network
    point, tangent : (m + 1,) [1] a solution before the turn and the unit tangent there
    length : [1] of a step that ends behind the turn

    Returns
    -------
    found : TURNED_BACK where the turn lies below 1, ARRIVED where the curve passes 1 first, LOST
    steps : number of linear solves

    Errors: none.
    Source: the turn is where the parameter's entry in the tangent is 0, found between two signs by false position.
    """
    last = point.shape[0] - 1
    new_point = np.empty_like(point)
    new_tangent = np.empty_like(point)
    steps = step_along_branch(case, point, tangent, length, new_point, new_tangent)
    short = 0.0
    rising = tangent[last].real
    falling = new_tangent[last].real
    missed = 0
    for _ in range(_SEARCH_STEPS):
        if length - short < 1e-9:
            return TURNED_BACK, steps
        share = min(max(rising / (rising - falling), 0.05), 0.95)
        if missed > 0:  # at the very turn the equations are singular: look beside it
            share = share / (1.0 + 0.5 * missed)
        middle = short + (length - short) * share
        steps += step_along_branch(case, point, tangent, middle, new_point, new_tangent)
        slope = new_tangent[last].real
        if new_point[last].real >= 1.0:
            return ARRIVED, steps
        if abs(slope) < _AT_TURN:
            return TURNED_BACK, steps
        if slope > 0.0:
            short = middle
            rising = slope
        elif slope < 0.0:
            length = middle
            falling = slope
        elif missed < 8:
            missed += 1
            continue
        else:
            return LOST, steps
        missed = 0
    return LOST, steps


@kernel(types.UniTuple(types.int64, 2)(CASE, types.complex128[::1]))
def follow_branch(case: RadialCase, load_v: npt.NDArray[np.complex128]) -> tuple[int, int]:
    """Follow the solution from impedances to the loads as they are, without low-voltage switch.

    Parameters
    ----------
    case : the network
    load_v : (m,) [V] out: the solution where it arrived; `case.node_v` holds its voltages

    Returns
    -------
    found : ARRIVED; TURNED_BACK where the curve does, or a load's voltage goes to zero, so that there is no solution
        beyond; LOST, nothing is known
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    loads = load_v.shape[0]
    curve = case.load_curve
    point = np.zeros(loads + 1, np.complex128)
    tangent = np.zeros(loads + 1, np.complex128)
    new_point = np.empty(loads + 1, np.complex128)
    new_tangent = np.empty(loads + 1, np.complex128)

    # Of impedances the first solve is exact; the second gives the tangent there.
    for _ in range(2):
        if solve_linearised(case, False, load_v, 0.0) == SINGULAR:
            return LOST, 1
        load_v[:] = case.load_v[0]
    steps = 2
    square = 1.0
    tangent[loads] = 1.0
    for m in range(loads):
        point[m] = load_v[m] / curve[m, 3]
        tangent[m] = case.load_v[1, m] / curve[m, 3]
        square += abs(tangent[m]) ** 2
    tangent /= math.sqrt(square)
    if is_spent(case, point):
        return TURNED_BACK, steps
    length = 0.2

    for _ in range(_BRANCH_STEPS):
        steps += step_along_branch(case, point, tangent, length, new_point, new_tangent)
        same = (tangent[loads] * new_tangent[loads]).real
        for m in range(loads):
            same += (tangent[m].conjugate() * new_tangent[m]).real
        if same > 0.0 and length < 0.01 and is_spent(case, new_point):
            return TURNED_BACK, steps
        if not same > 0.7:  # none found, or the curve bends too much to be sure that it is the same one
            length *= 0.5
            if length < 1e-9:
                return LOST, steps
            continue
        reached = new_point[loads].real
        if reached < 1.0 and new_tangent[loads].real <= 0.0:
            found, used = is_turn(case, point, tangent, length)
            steps += used
            if found != ARRIVED:
                return found, steps
            length *= 0.5  # it passes 1 and comes back within this step
            continue
        if reached < 1.0:
            point[:] = new_point
            tangent[:] = new_tangent
            length = min(1.6 * length, 0.5)
            continue
        for m in range(loads):
            share = (1.0 - point[loads].real) / (reached - point[loads].real)
            load_v[m] = (point[m] + share * (new_point[m] - point[m])) * curve[m, 3]
        status, used = newton(case, False, load_v)
        steps += used
        moved = 0.0
        step = 0.0
        for m in range(loads):
            moved += abs(load_v[m] / curve[m, 3] - point[m]) ** 2
            step += abs(new_point[m] - point[m]) ** 2
        if status != SINGULAR and moved <= step + 1e-12:
            return ARRIVED, steps
        length *= 0.5  # Newton's method left for another solution: come closer first
        if length < 1e-9:
            return LOST, steps
    return LOST, steps
