"""Which voltages do curved loads settle at, from voltages that are near?

Newton's method: every load is replaced by its tangent, the network of tangents is solved exactly (network_tree.py),
and again. It doubles the number of right digits each time, also for heavy loads and broken neutrals, where sweeps
do not settle. A parameter x turns every load from a constant impedance (0) into what it is (1):

    I(x) = conj(S)/Un^2 * U * ((1 - x) + x g(v))

Source: Newton's method; load curve g from network_load.py.
Not here: which of several solutions is meant, and whether there is one (network_limit.py).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel, types
from ampwright.engine.physics.network_load import admittance_factor, admittance_factor_slope
from ampwright.engine.physics.network_tree import CASE, SINGULAR, RadialCase, solve_tree

FLOOR_RATIO = 1e-3
"""Stands in for "no low-voltage switch": below this share of nominal voltage nothing is told apart any more."""

TIGHT = 1e-11
"""Largest change, as a share of nominal voltage, at which an iteration has converged."""
LOOSE = 1e-8
"""The same where rounding lets it change no less any more, close to a turn."""

_STEPS = 25


@kernel(types.int64(CASE, types.boolean, types.complex128[::1], types.float64))
def solve_linearised(case: RadialCase, with_switch: bool, load_v: npt.NDArray[np.complex128], parameter: float) -> int:
    """One step of Newton's method, into `case.node_v` and `case.load_v`.

    Parameters
    ----------
    case : the network
    with_switch : loads obey their low-voltage switch
    load_v : (m,) [V] where the tangents are taken
    parameter : [1] 0 = impedances, 1 = the loads as they are

    Returns
    -------
    status : as `solve_tree`

    Errors: none.
    Source: module docstring.
    """
    curve = case.load_curve
    loads = curve.shape[0]
    gain = np.empty((loads, 2, 2))
    constant = np.empty((loads, 2), np.complex128)
    for m in range(loads):
        u = load_v[m]
        size = abs(u)
        nominal = curve[m, 3]
        switch = curve[m, 2] if with_switch else FLOOR_RATIO
        factor = admittance_factor(size / nominal, curve[m, 0], curve[m, 1], switch)
        slope = admittance_factor_slope(size / nominal, curve[m, 0], curve[m, 1], switch)
        along = case.load_admittance_s[m] * ((1.0 - parameter) + parameter * factor)
        radial = complex(0.0, 0.0)
        if size > 0.0:
            radial = case.load_admittance_s[m] * u * (parameter * slope / (size * nominal))
        gain[m, 0, 0] = along.real + radial.real * u.real
        gain[m, 0, 1] = -along.imag + radial.real * u.imag
        gain[m, 1, 0] = along.imag + radial.imag * u.real
        gain[m, 1, 1] = along.real + radial.imag * u.imag
        constant[m, 0] = -radial * (size * size)
        constant[m, 1] = case.load_admittance_s[m] * u * (factor - 1.0)
    return solve_tree(case, gain, constant)


@kernel(types.UniTuple(types.int64, 2)(CASE, types.boolean, types.complex128[::1]))
def newton(case: RadialCase, with_switch: bool, load_v: npt.NDArray[np.complex128]) -> tuple[int, int]:
    """Newton's method for the loads as they are; `case.node_v` holds the last iterate's voltages.

    Parameters
    ----------
    case, with_switch : as in `solve_linearised`
    load_v : (m,) [V] in: start; out: the last iterate

    Returns
    -------
    status : REGULAR or TURNED where it converged, SINGULAR where it did not
    steps : number of linear solves

    Errors: none.
    Source: module docstring.
    """
    last = np.inf
    for step in range(1, _STEPS + 1):
        status = solve_linearised(case, with_switch, load_v, 1.0)
        if status == SINGULAR:
            return SINGULAR, step
        change = 0.0
        for m in range(load_v.shape[0]):
            moved = abs(case.load_v[0, m] - load_v[m]) / case.load_curve[m, 3]
            if not moved < 1e6:
                return SINGULAR, step
            change = max(change, moved)
            load_v[m] = case.load_v[0, m]
        if change <= TIGHT or (change <= LOOSE and change >= last):
            return status, step
        last = change
    return SINGULAR, _STEPS
