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

from ampwright.engine.physics.compile import kernel, types
from ampwright.engine.physics.network_branch import ARRIVED, TURNED_BACK, follow_branch
from ampwright.engine.physics.network_load import admittance_factor
from ampwright.engine.physics.network_newton import FLOOR_RATIO, newton
from ampwright.engine.physics.network_tree import CASE, REGULAR, SINGULAR, RadialCase, solve_tree

SOLVED = 0
COLLAPSED = 1
NOT_CONVERGED = 2


_RELAXATIONS = 200
_RELAXED = 1e-4  # largest relative move left; Newton's method does the rest


@kernel(types.int64(CASE, types.complex128[::1], types.int64))
def relax(case: RadialCase, load_v: npt.NDArray[np.complex128], rounds: int) -> int:
    """Let loads, at first on the impedance of their low-voltage switch, move towards the impedance they then want.

    This is how loads settle in time, d(g)/dt = g(v) - g, and it rises from below: a load that takes less current
    raises the voltage of the others.

    Parameters
    ----------
    case : the network; `case.node_v` holds the voltages
    load_v : (m,) [V] out
    rounds : largest number of moves; 0 leaves every load on the impedance of its switch

    Returns
    -------
    steps : number of linear solves

    Errors: none.
    Source: module docstring; the explicit Euler method.
    """
    curve = case.load_curve
    loads = curve.shape[0]
    gain = np.empty((loads, 2, 2))
    constant = np.zeros((loads, 2), np.complex128)
    factor = np.empty(loads)
    for m in range(loads):
        factor[m] = admittance_factor(0.0, curve[m, 0], curve[m, 1], curve[m, 2])
    for step in range(rounds + 1):
        for m in range(loads):
            admittance = case.load_admittance_s[m] * factor[m]
            gain[m, 0, 0] = admittance.real
            gain[m, 0, 1] = -admittance.imag
            gain[m, 1, 0] = admittance.imag
            gain[m, 1, 1] = admittance.real
        solve_tree(case, gain, constant)
        change = 0.0
        for m in range(loads):
            load_v[m] = case.load_v[0, m]
            wanted = admittance_factor(abs(load_v[m]) / curve[m, 3], curve[m, 0], curve[m, 1], curve[m, 2])
            change = max(change, abs(wanted - factor[m]) / factor[m])
            factor[m] += 0.5 * (wanted - factor[m])
        if change < _RELAXED:
            return step + 1
    return rounds + 1


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
    status : not SINGULAR where the switches agree with the voltages; else the voltages mean nothing
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    steps = 0
    if from_given:
        status, steps = newton(case, True, load_v)
        if status != SINGULAR:
            return status, steps
    steps += relax(case, load_v, _RELAXATIONS)
    status, used = newton(case, True, load_v)
    return status, steps + used


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
        found, used = follow_branch(case, load_v)
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
        steps += relax(case, load_v, 0)
    return outcome, steps
