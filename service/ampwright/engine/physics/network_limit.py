"""Can the source deliver what the loads ask, and at which voltages when the answer is near the limit?

A load that holds its power as voltage falls draws more current, loses more voltage on the way, and past a limit finds
no voltage at all: the network collapses. With the low-voltage switch (network_load.py) some solution always exists, so
the question is put without it. A parameter x turns every load from a constant impedance (x = 0, one solution, however
weak the source) into what it is (x = 1):

    I(x) = conj(S)/Un^2 * U * ((1 - x) + x g(v))

The solution is followed from x = 0 by pseudo-arclength continuation. Either it reaches x = 1: the high-voltage
solution. Or it turns back at some x < 1: there is no solution beyond, and only this turn is called a collapse. An
iteration that does not get anywhere is reported as such.

Newton's method from the no-load voltages is tried first; its result counts only if every subtree still answers a rise
of voltage as an unloaded one does (network_tree.py), which low-voltage solutions do not.

Source: continuation with pseudo-arclength, Keller, "Numerical solution of bifurcation and nonlinear eigenvalue
problems" (1977); its use on power networks, Ajjarapu and Christy, IEEE Trans. Power Systems 7 (1992) no. 1.
Not here: whether an equilibrium is stable in time; easy networks (network_flow.py).
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.network_load import admittance_factor, admittance_factor_slope
from ampwright.engine.physics.network_tree import REGULAR, SINGULAR, solve_tree

SOLVED = 0
COLLAPSED = 1
NOT_CONVERGED = 2

FLOOR_RATIO = 1e-3
"""Stands in for "no low-voltage switch": below this share of nominal voltage nothing is told apart any more."""
DEAD_RATIO = 1e-10
"""A load under this share of nominal voltage has no source at all (a broken neutral, one load): off, not collapsed."""

_NEWTON_STEPS = 25
_CORRECTOR_STEPS = 10
_BRANCH_STEPS = 300
_TIGHT = 1e-11  # of nominal voltage
_LOOSE = 1e-8
_AT_TURN = 1e-5  # share of the parameter in the tangent; the turn's place is then known to about its square


@kernel(
    "int64(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], boolean[::1], boolean, complex128[::1], float64, complex128[:, :, ::1], complex128[:, ::1])"
)
def solve_linearised(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    load_held: npt.NDArray[np.bool_],
    with_switch: bool,
    load_v: npt.NDArray[np.complex128],
    parameter: float,
    node_v: npt.NDArray[np.complex128],
    next_load_v: npt.NDArray[np.complex128],
) -> int:
    """One step of Newton's method: the network with its loads replaced by their tangents at given voltages.

    Parameters
    ----------
    parent, impedance_ohm, neutral_open, emf_v, load_link : as in `solve_tree`
    load_admittance_s : (m,) [S] conj(S)/Un^2
    load_curve : (m, 4) constant-current share, constant-impedance share, low-voltage switch [1], Un [V]
    load_held : (m,) the load stays on the impedance side of its switch whatever its voltage
    with_switch : loads obey their low-voltage switch
    load_v : (m,) [V] where the tangents are taken
    parameter : [1] 0 = impedances, 1 = the loads as they are
    node_v : (2, n, 4) [V] out: voltages at this parameter, and their change with it
    next_load_v : (2, m) [V] out: the same across each load

    Returns
    -------
    status : as `solve_tree`

    Errors: none.
    Source: module docstring.
    """
    loads = load_link.shape[0]
    gain = np.empty((loads, 2, 2))
    constant = np.empty((loads, 2), np.complex128)
    for m in range(loads):
        u = load_v[m]
        size = abs(u)
        nominal = load_curve[m, 3]
        switch = load_curve[m, 2]
        if load_held[m]:
            factor = admittance_factor(0.0, load_curve[m, 0], load_curve[m, 1], switch)
            slope = 0.0
        else:
            threshold = switch if with_switch else FLOOR_RATIO
            factor = admittance_factor(size / nominal, load_curve[m, 0], load_curve[m, 1], threshold)
            slope = admittance_factor_slope(size / nominal, load_curve[m, 0], load_curve[m, 1], threshold)
        mixed = (1.0 - parameter) + parameter * factor
        along = load_admittance_s[m] * mixed
        radial = complex(0.0, 0.0)
        if size > 0.0:
            radial = load_admittance_s[m] * u * (parameter * slope / (size * nominal))
        gain[m, 0, 0] = along.real + radial.real * u.real
        gain[m, 0, 1] = -along.imag + radial.real * u.imag
        gain[m, 1, 0] = along.imag + radial.imag * u.real
        gain[m, 1, 1] = along.real + radial.imag * u.imag
        # the current on the tangent at zero voltage: what the radial part adds is proportional to |u|^2
        constant[m, 0] = -radial * (size * size)
        constant[m, 1] = load_admittance_s[m] * u * (factor - 1.0)
    status = solve_tree(parent, impedance_ohm, neutral_open, emf_v, load_link, gain, constant, node_v)
    if status == SINGULAR:
        return status
    for m in range(loads):
        node = load_link[m, 0]
        for column in range(2):
            next_load_v[column, m] = node_v[column, node, load_link[m, 1]] - node_v[column, node, load_link[m, 2]]
    return status


@kernel(
    "UniTuple(int64, 2)(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], boolean[::1], boolean, complex128[::1], complex128[:, :, ::1], complex128[:, ::1])"
)
def newton(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    load_held: npt.NDArray[np.bool_],
    with_switch: bool,
    load_v: npt.NDArray[np.complex128],
    node_v: npt.NDArray[np.complex128],
    next_load_v: npt.NDArray[np.complex128],
) -> tuple[int, int]:
    """Newton's method for the loads as they are, from the voltages given.

    Parameters
    ----------
    parent ... with_switch : as in `solve_linearised`
    load_v : (m,) [V] in: start; out: the last iterate
    node_v, next_load_v : work, see `solve_linearised`; `node_v[0]` holds the last iterate's voltages

    Returns
    -------
    status : REGULAR or TURNED where it converged, SINGULAR where it did not
    steps : number of linear solves

    Errors: none.
    Source: Newton's method.
    """
    loads = load_link.shape[0]
    last = np.inf
    for step in range(1, _NEWTON_STEPS + 1):
        status = solve_linearised(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            load_held,
            with_switch,
            load_v,
            1.0,
            node_v,
            next_load_v,
        )
        if status == SINGULAR:
            return SINGULAR, step
        change = 0.0
        for m in range(loads):
            moved = abs(next_load_v[0, m] - load_v[m]) / load_curve[m, 3]
            if not moved < 1e6:
                return SINGULAR, step
            change = max(change, moved)
            load_v[m] = next_load_v[0, m]
        if change <= _TIGHT or (change <= _LOOSE and change >= last):
            return status, step
        last = change
    return SINGULAR, _NEWTON_STEPS


@kernel(
    "UniTuple(float64, 3)(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], complex128[::1], float64, complex128[::1], float64, float64,"
    " complex128[::1], complex128[::1], complex128[:, :, ::1], complex128[:, ::1])"
)
def step_along_branch(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    load_v: npt.NDArray[np.complex128],
    parameter: float,
    tangent: npt.NDArray[np.complex128],
    tangent_parameter: float,
    length: float,
    new_load_v: npt.NDArray[np.complex128],
    new_tangent: npt.NDArray[np.complex128],
    node_v: npt.NDArray[np.complex128],
    next_load_v: npt.NDArray[np.complex128],
) -> tuple[float, float, float]:
    """One step of given length along the curve of solutions.

    Parameters
    ----------
    parent ... load_curve : as in `solve_linearised`
    load_v, parameter : (m,) [V], [1] a solution
    tangent, tangent_parameter : (m,) [1], [1] unit tangent there, voltages as shares of nominal
    length : [1] of the step
    new_load_v, new_tangent : (m,) [V], [1] out: the next solution and its unit tangent
    node_v, next_load_v : work

    Returns
    -------
    parameter : [1] at the next solution; NaN where none was found
    tangent_parameter : [1] there, negative behind a turn
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    loads = load_link.shape[0]
    held = np.zeros(loads, np.bool_)
    predicted = np.empty(loads, np.complex128)
    for m in range(loads):
        predicted[m] = load_v[m] + length * tangent[m] * load_curve[m, 3]
        new_load_v[m] = predicted[m]
    predicted_parameter = parameter + length * tangent_parameter
    new_parameter = predicted_parameter
    last = np.inf
    for step in range(1, _CORRECTOR_STEPS + 1):
        status = solve_linearised(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            held,
            False,
            new_load_v,
            new_parameter,
            node_v,
            next_load_v,
        )
        if status == SINGULAR:
            return np.nan, np.nan, float(step)
        off = tangent_parameter * (new_parameter - predicted_parameter)
        rate = tangent_parameter
        for m in range(loads):
            nominal = load_curve[m, 3]
            off += (tangent[m].conjugate() * (next_load_v[0, m] - predicted[m])).real / nominal
            rate += (tangent[m].conjugate() * next_load_v[1, m]).real / nominal
        if rate == 0.0:
            return np.nan, np.nan, float(step)
        change_parameter = -off / rate
        change = abs(change_parameter)
        for m in range(loads):
            corrected = next_load_v[0, m] + change_parameter * next_load_v[1, m]
            change = max(change, abs(corrected - new_load_v[m]) / load_curve[m, 3])
            new_load_v[m] = corrected
        new_parameter += change_parameter
        if not change < 10.0:
            return np.nan, np.nan, float(step)
        if change <= 10.0 * _TIGHT or (change <= _LOOSE and change >= last):
            square = 1.0
            along = tangent_parameter
            for m in range(loads):
                nominal = load_curve[m, 3]
                new_tangent[m] = next_load_v[1, m] / nominal
                square += abs(new_tangent[m]) ** 2
                along += (tangent[m].conjugate() * new_tangent[m]).real
            scale = 1.0 / math.sqrt(square)
            if along < 0.0:
                scale = -scale
            for m in range(loads):
                new_tangent[m] *= scale
            return new_parameter, scale, float(step)
        last = change
    return np.nan, np.nan, float(_CORRECTOR_STEPS)


@kernel(
    "UniTuple(int64, 2)(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], complex128[::1], complex128[:, :, ::1], complex128[:, ::1])"
)
def follow_branch(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    load_v: npt.NDArray[np.complex128],
    node_v: npt.NDArray[np.complex128],
    next_load_v: npt.NDArray[np.complex128],
) -> tuple[int, int]:
    """Follow the solution from loads that are impedances to the loads as they are, without low-voltage switch.

    Parameters
    ----------
    parent ... load_curve : as in `solve_linearised`
    load_v : (m,) [V] out: the high-voltage solution, where there is one
    node_v, next_load_v : work; `node_v[0]` holds that solution's node voltages

    Returns
    -------
    outcome : SOLVED; COLLAPSED where the curve turns back before it gets there; NOT_CONVERGED
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    loads = load_link.shape[0]
    held = np.zeros(loads, np.bool_)
    tangent = np.zeros(loads, np.complex128)
    trial_v = np.empty(loads, np.complex128)
    trial_tangent = np.empty(loads, np.complex128)
    steps = 0

    # At parameter 0 the loads are impedances: the first solve is exact, the second gives the tangent there.
    for _ in range(2):
        status = solve_linearised(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            held,
            False,
            load_v,
            0.0,
            node_v,
            next_load_v,
        )
        steps += 1
        if status == SINGULAR:
            return NOT_CONVERGED, steps
        load_v[:] = next_load_v[0]
    square = 1.0
    for m in range(loads):
        tangent[m] = next_load_v[1, m] / load_curve[m, 3]
        square += abs(tangent[m]) ** 2
    tangent_parameter = 1.0 / math.sqrt(square)
    tangent *= tangent_parameter
    parameter = 0.0
    length = 0.2

    for _ in range(_BRANCH_STEPS):
        new_parameter, new_tangent_parameter, used = step_along_branch(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            load_v,
            parameter,
            tangent,
            tangent_parameter,
            length,
            trial_v,
            trial_tangent,
            node_v,
            next_load_v,
        )
        steps += int(used)
        turn = tangent_parameter * new_tangent_parameter
        for m in range(loads):
            turn += (tangent[m].conjugate() * trial_tangent[m]).real
        if not turn > 0.7:  # also NaN: no solution found there, or the curve bends too much to be sure it is the same
            length *= 0.5
            if length < 1e-9:
                return NOT_CONVERGED, steps
            continue
        if new_parameter < 1.0 and new_tangent_parameter > 0.0:
            load_v[:] = trial_v
            tangent[:] = trial_tangent
            parameter = new_parameter
            tangent_parameter = new_tangent_parameter
            length = min(1.6 * length, 0.5)
            continue

        # Between here and there the curve turns, or passes 1, or both: find the turn first, stop at a pass.
        short = 0.0
        rising = tangent_parameter
        long = length
        falling = new_tangent_parameter
        passed = new_parameter >= 1.0
        for _ in range(60):
            if passed:
                break
            if abs(falling) < _AT_TURN or long - short < 1e-9:
                return COLLAPSED, steps
            middle = short + (long - short) * min(max(rising / (rising - falling), 0.05), 0.95)
            new_parameter, new_tangent_parameter, used = step_along_branch(
                parent,
                impedance_ohm,
                neutral_open,
                emf_v,
                load_link,
                load_admittance_s,
                load_curve,
                load_v,
                parameter,
                tangent,
                tangent_parameter,
                middle,
                trial_v,
                trial_tangent,
                node_v,
                next_load_v,
            )
            steps += int(used)
            if not abs(new_tangent_parameter) <= 1.0:
                return NOT_CONVERGED, steps
            if new_parameter >= 1.0:
                long = middle
                passed = True
            elif new_tangent_parameter > 0.0:
                if new_tangent_parameter < _AT_TURN:
                    return COLLAPSED, steps
                short = middle
                rising = new_tangent_parameter
            else:
                long = middle
                falling = new_tangent_parameter
        if not passed:
            return NOT_CONVERGED, steps

        # The first pass of 1 lies before `long`; Newton's method from there must stay there.
        short = 0.0
        below = parameter
        above = new_parameter
        for _ in range(60):
            if above - 1.0 < 1e-7:
                break
            middle = short + (long - short) * min(max((1.0 - below) / (above - below), 0.05), 0.95)
            new_parameter, new_tangent_parameter, used = step_along_branch(
                parent,
                impedance_ohm,
                neutral_open,
                emf_v,
                load_link,
                load_admittance_s,
                load_curve,
                load_v,
                parameter,
                tangent,
                tangent_parameter,
                middle,
                trial_v,
                trial_tangent,
                node_v,
                next_load_v,
            )
            steps += int(used)
            if not abs(new_tangent_parameter) <= 1.0:
                return NOT_CONVERGED, steps
            if new_parameter >= 1.0:
                long = middle
                above = new_parameter
            else:
                short = middle
                below = new_parameter
            if 1.0 - below < 1e-7:
                break
        load_v[:] = trial_v
        status, used_newton = newton(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            held,
            False,
            load_v,
            node_v,
            next_load_v,
        )
        steps += used_newton
        if status == SINGULAR:
            return NOT_CONVERGED, steps
        for m in range(loads):
            if abs(load_v[m] - trial_v[m]) > 0.01 * load_curve[m, 3]:
                return NOT_CONVERGED, steps
        return SOLVED, steps
    return NOT_CONVERGED, steps


@kernel(
    "UniTuple(int64, 2)(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], boolean, complex128[::1], complex128[:, :, ::1], complex128[:, ::1])"
)
def settle_with_switch(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    from_given: bool,
    load_v: npt.NDArray[np.complex128],
    node_v: npt.NDArray[np.complex128],
    next_load_v: npt.NDArray[np.complex128],
) -> tuple[int, int]:
    """Voltages with loads that obey their low-voltage switch.

    Parameters
    ----------
    parent ... load_curve : as in `solve_linearised`
    from_given : start at `load_v`; otherwise from below, with every load held on its impedance
    load_v : (m,) [V] in: start; out: solution
    node_v, next_load_v : work; `node_v[0]` holds the solution's node voltages

    Returns
    -------
    status : REGULAR where the switches agree with the voltages, else SINGULAR; then `load_v` and `node_v[0]` are those
        of the network with every load held on its impedance
    steps : number of linear solves

    Errors: none.
    Source: module docstring. From below, letting go of a load raises voltages, so a load let go stays so.
    """
    loads = load_link.shape[0]
    held = np.zeros(loads, np.bool_)
    steps = 0
    for attempt in range(2):
        if attempt == 0 and from_given:
            status, used = newton(
                parent,
                impedance_ohm,
                neutral_open,
                emf_v,
                load_link,
                load_admittance_s,
                load_curve,
                held,
                True,
                load_v,
                node_v,
                next_load_v,
            )
            steps += used
            if status != SINGULAR:
                return REGULAR, steps
            continue
        held[:] = True
        for _ in range(loads + 1):
            status, used = newton(
                parent,
                impedance_ohm,
                neutral_open,
                emf_v,
                load_link,
                load_admittance_s,
                load_curve,
                held,
                True,
                load_v,
                node_v,
                next_load_v,
            )
            steps += used
            if status == SINGULAR:
                break
            let_go = False
            for m in range(loads):
                if held[m] and abs(load_v[m]) > load_curve[m, 2] * load_curve[m, 3]:
                    held[m] = False
                    let_go = True
            if not let_go:
                return REGULAR, steps
        break
    held[:] = True
    status, used = newton(
        parent,
        impedance_ohm,
        neutral_open,
        emf_v,
        load_link,
        load_admittance_s,
        load_curve,
        held,
        True,
        load_v,
        node_v,
        next_load_v,
    )
    return SINGULAR, steps + used


@kernel(
    "UniTuple(int64, 2)(int64[::1], complex128[:, ::1], boolean[::1], complex128[::1], int64[:, ::1], complex128[::1],"
    " float64[:, ::1], complex128[:, ::1])"
)
def solve_near_limit(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_link: npt.NDArray[np.int64],
    load_admittance_s: npt.NDArray[np.complex128],
    load_curve: npt.NDArray[np.float64],
    node_v: npt.NDArray[np.complex128],
) -> tuple[int, int]:
    """One network that the sweep could not settle: heavy, near its limit, beyond it, or with a broken neutral.

    Parameters
    ----------
    parent ... load_curve : as in `solve_linearised`
    node_v : (n, 4) [V] out. COLLAPSED: with loads on their low-voltage switch. NOT_CONVERGED: with every load held on
        the impedance of its switch, so that it is finite

    Returns
    -------
    outcome : SOLVED, COLLAPSED or NOT_CONVERGED
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    loads = load_link.shape[0]
    held = np.zeros(loads, np.bool_)
    load_v = np.empty(loads, np.complex128)
    work_v = np.zeros((2, parent.shape[0], 4), np.complex128)
    next_load_v = np.empty((2, loads), np.complex128)
    for m in range(loads):
        u = complex(0.0, 0.0)
        if load_link[m, 1] < 3:
            u += emf_v[load_link[m, 1]]
        if load_link[m, 2] < 3:
            u -= emf_v[load_link[m, 2]]
        load_v[m] = u
    status, steps = newton(
        parent,
        impedance_ohm,
        neutral_open,
        emf_v,
        load_link,
        load_admittance_s,
        load_curve,
        held,
        False,
        load_v,
        work_v,
        next_load_v,
    )
    outcome = SOLVED
    straight = True
    for m in range(loads):
        if load_curve[m, 1] < 1.0:
            straight = False
    if straight and status != SINGULAR:
        status = REGULAR  # impedances alone have one solution
    if status == REGULAR:
        for m in range(loads):
            if load_curve[m, 1] < 1.0 and abs(load_v[m]) < FLOOR_RATIO * load_curve[m, 3]:
                status = SINGULAR
    if status != REGULAR:
        outcome, used = follow_branch(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            load_v,
            work_v,
            next_load_v,
        )
        steps += used
    switched = False
    if outcome == SOLVED:
        for m in range(loads):
            size = abs(load_v[m])
            if load_curve[m, 1] < 1.0:
                if DEAD_RATIO * load_curve[m, 3] < size < FLOOR_RATIO * load_curve[m, 3]:
                    outcome = COLLAPSED
                if size < load_curve[m, 2] * load_curve[m, 3]:
                    switched = True
    if outcome != SOLVED or switched:
        status, used = settle_with_switch(
            parent,
            impedance_ohm,
            neutral_open,
            emf_v,
            load_link,
            load_admittance_s,
            load_curve,
            outcome == SOLVED,
            load_v,
            work_v,
            next_load_v,
        )
        steps += used
        if status == SINGULAR:
            outcome = NOT_CONVERGED
    node_v[:] = work_v[0]
    return outcome, steps
