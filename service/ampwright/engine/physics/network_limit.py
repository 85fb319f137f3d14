"""Can the source deliver what the loads ask, and at which voltages when the answer is near the limit?

A load that holds its power as voltage falls draws more current, loses more voltage on the way, and past a limit finds
no voltage at all: the network collapses. With the low-voltage switch (network_load.py) some solution always exists, so
the question is put without it. Newton's method is tried from the no-load voltages; its result counts only if every
subtree still answers a rise of voltage as an unloaded one does (network_tree.py), which low-voltage solutions do not.
Otherwise the solution is followed from a network of impedances (network_branch.py): where it arrives it is the
high-voltage one, and only where it turns back is the case called collapsed. An iteration that gets nowhere is
reported as such.

Source: the limit is the saddle-node of the power-flow equations; for one resistive load the maximum power theorem.
Not here: whether an equilibrium is stable in time; easy networks (network_flow.py).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from numba import types

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.network_branch import ARRIVED, TURNED_BACK, follow_branch
from ampwright.engine.physics.network_newton import FLOOR_RATIO, newton, solve_linearised
from ampwright.engine.physics.network_tree import CASE, REGULAR, SINGULAR, RadialCase

SOLVED = 0
COLLAPSED = 1
NOT_CONVERGED = 2


@kernel(types.UniTuple(types.int64, 2)(CASE, types.boolean, types.complex128[::1]))
def settle_with_switch(case: RadialCase, from_given: bool, load_v: npt.NDArray[np.complex128]) -> tuple[int, int]:
    """Voltages with loads that obey their low-voltage switch, into `case.node_v`.

    Parameters
    ----------
    case : the network
    from_given : start at `load_v`; otherwise from below, with every load on the impedance of its switch
    load_v : (m,) [V] in: start; out: solution

    Returns
    -------
    status : REGULAR where the switches agree with the voltages, else SINGULAR; the voltages then mean nothing
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    steps = 0
    if not from_given:
        steps = 1
        if solve_linearised(case, True, load_v, 0.0) == SINGULAR:
            return SINGULAR, steps
        load_v[:] = case.load_v[0]
    status, used = newton(case, True, load_v)
    steps += used
    if status != SINGULAR:
        return REGULAR, steps
    load_v[:] = 0.0
    found, used = follow_branch(case, True, load_v)
    steps += used
    return (REGULAR if found == ARRIVED else SINGULAR), steps


@kernel(types.UniTuple(types.int64, 2)(CASE))
def solve_near_limit(case: RadialCase) -> tuple[int, int]:
    """One network that sweeps could not settle: heavy, near its limit, beyond it, or with a broken neutral.

    Parameters
    ----------
    case : the network; `case.node_v[0]` holds the answer. COLLAPSED: with loads on their low-voltage switch.
        NOT_CONVERGED: with every load held on the impedance of its switch, so that it is finite

    Returns
    -------
    outcome : SOLVED, COLLAPSED or NOT_CONVERGED
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    curve = case.load_curve
    loads = curve.shape[0]
    load_v = np.zeros(loads, np.complex128)
    straight = True
    for m in range(loads):
        if case.load_link[m, 1] < 3:
            load_v[m] += case.emf_v[case.load_link[m, 1]]
        if case.load_link[m, 2] < 3:
            load_v[m] -= case.emf_v[case.load_link[m, 2]]
        if curve[m, 1] < 1.0:
            straight = False
    status, steps = newton(case, False, load_v)
    if straight and status != SINGULAR:
        return SOLVED, steps  # impedances alone have one solution
    high = status == REGULAR
    for m in range(loads):
        if curve[m, 1] < 1.0 and abs(load_v[m]) < FLOOR_RATIO * curve[m, 3]:
            high = False
    outcome = SOLVED
    if not high:
        found, used = follow_branch(case, False, load_v)
        steps += used
        if found == TURNED_BACK:
            outcome = COLLAPSED
        elif found != ARRIVED:
            outcome = NOT_CONVERGED
    switched = False
    if outcome == SOLVED:
        for m in range(loads):
            size = abs(load_v[m]) / curve[m, 3]
            if curve[m, 1] < 1.0 and size < curve[m, 2]:
                switched = True
    if outcome != SOLVED or switched:
        status, used = settle_with_switch(case, outcome == SOLVED, load_v)
        steps += used
        if status == SINGULAR:
            outcome = NOT_CONVERGED
    if outcome == NOT_CONVERGED:
        steps += 1
        solve_linearised(case, True, load_v, 0.0)
    return outcome, steps
