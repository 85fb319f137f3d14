"""Which voltages solve a radial network whose loads are straight lines?

Each load draws I = G U + a + b*x, with G a real 2 x 2 matrix (a constant-power load is no complex admittance) and two
columns of constants. Walking from the ends to the source, every subtree becomes one affine law of the voltages at its
parent; walking back, the laws give all voltages. A branch without impedance and a broken neutral need no special
numbers: impedances are never inverted, and the neutral of an island follows from "no current through the break".

One step of Newton's method is one call; so is a network of impedances.

Source: Kirchhoff's laws; block Gaussian elimination on a tree, which adds no fill-in.
Not here: the iteration (network_limit.py), and the sweep for easy networks (network_flow.py).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel, types

REGULAR = 0
"""Solved; every subtree answers a rise of its own voltage with a rise, as an unloaded one does."""
TURNED = 1
"""Solved, but some subtree answers the other way round: not the high-voltage solution."""
SINGULAR = 2
"""No solution, or more than one."""


class RadialCase(NamedTuple):
    """One network, its loads, and room for its solution.

    Parameters
    ----------
    parent : (n,) -1 for the root at index 0, else a smaller index
    impedance_ohm : (n, 4) [ohm] branch from the parent; conductors L1, L2, L3, N
    neutral_open : (n,) the neutral of this branch is broken
    emf_v : (3,) [V] legs against the source's neutral
    load_link : (m, 3) node, conductor from, conductor to
    load_admittance_s : (m,) [S] conj(S)/Un^2
    load_curve : (m, 4) constant-current share, constant-impedance share, low-voltage switch [1], Un [V]
    node_v : (2, n, 4) [V] out: voltages of the last linear solve, and their change with the parameter
    load_v : (2, m) [V] out: the same across each load
    """

    parent: npt.NDArray[np.int64]
    impedance_ohm: npt.NDArray[np.complex128]
    neutral_open: npt.NDArray[np.bool_]
    emf_v: npt.NDArray[np.complex128]
    load_link: npt.NDArray[np.int64]
    load_admittance_s: npt.NDArray[np.complex128]
    load_curve: npt.NDArray[np.float64]
    node_v: npt.NDArray[np.complex128]
    load_v: npt.NDArray[np.complex128]


_COMPLEX = types.complex128
CASE = types.NamedTuple(
    (
        types.int64[::1],
        _COMPLEX[:, ::1],
        types.boolean[::1],
        _COMPLEX[::1],
        types.int64[:, ::1],
        _COMPLEX[::1],
        types.float64[:, ::1],
        _COMPLEX[:, :, ::1],
        _COMPLEX[:, ::1],
    ),
    RadialCase,
)
"""The compiler's type of a `RadialCase`."""

_TINY = 1e-13  # relative size under which a 2 x 2 determinant is rounding


@kernel("int64(float64[:, ::1], int64, int64)")
def solve_dense(matrix: npt.NDArray[np.float64], size: int, columns: int) -> int:
    """Solve a small dense system in place; the right-hand sides stand in `matrix` behind its first `size` columns.

    Parameters
    ----------
    matrix : (>= size, >= size + columns) overwritten: the solution replaces the right-hand sides
    size : number of unknowns
    columns : number of right-hand sides

    Returns
    -------
    sign : sign of the determinant, 0 where the matrix is singular

    Errors: none.
    Source: Gaussian elimination with partial pivoting.
    """
    sign = 1
    for k in range(size):
        pivot = k
        for r in range(k + 1, size):
            if abs(matrix[r, k]) > abs(matrix[pivot, k]):
                pivot = r
        if matrix[pivot, k] == 0.0:
            return 0
        if pivot != k:
            sign = -sign
            for c in range(k, size + columns):
                matrix[k, c], matrix[pivot, c] = matrix[pivot, c], matrix[k, c]
        if matrix[k, k] < 0.0:
            sign = -sign
        inverse = 1.0 / matrix[k, k]
        for r in range(k + 1, size):
            factor = matrix[r, k] * inverse
            if factor != 0.0:
                for c in range(k + 1, size + columns):
                    matrix[r, c] -= factor * matrix[k, c]
    for k in range(size - 1, -1, -1):
        inverse = 1.0 / matrix[k, k]
        for c in range(size, size + columns):
            total = matrix[k, c]
            for j in range(k + 1, size):
                total -= matrix[k, j] * matrix[j, c]
            matrix[k, c] = total * inverse
    return sign


@kernel(types.int64(CASE, types.float64[:, :, ::1], _COMPLEX[:, ::1]))
def solve_tree(
    case: RadialCase, load_gain_s: npt.NDArray[np.float64], load_constant_a: npt.NDArray[np.complex128]
) -> int:
    """Voltages of one network with straight-line loads, into `case.node_v` and `case.load_v`.

    Parameters
    ----------
    case : the network
    load_gain_s : (m, 2, 2) [S] change of the load's current (re, im) with its voltage (re, im)
    load_constant_a : (m, 2) [A] the load's current at zero voltage: what is given, and its change with the parameter

    Returns
    -------
    status : REGULAR, TURNED or SINGULAR; voltages are unfinished when SINGULAR

    Errors: none. A neutral behind a break with nothing connected takes the voltage of the neutral before it.
    Source: module docstring.
    """
    load_link = case.load_link
    node_v = case.node_v
    nodes = case.parent.shape[0]
    loads = load_link.shape[0]
    slot = np.full(4, -1, np.int64)
    for m in range(loads):
        slot[load_link[m, 1]] = 0
        slot[load_link[m, 2]] = 0
    used = 0
    for c in range(4):
        if slot[c] == 0:
            slot[c] = used
            used += 1
    size = 2 * used
    neutral = 2 * slot[3]  # the last pair of rows, or negative where no load uses the neutral

    law = np.zeros((nodes, size, size + 2))  # current into a node = law of its own voltages, then of its parent's
    alive = np.zeros(nodes, np.bool_)
    island = np.zeros((nodes, 2, size + 2))  # neutral behind a break = -(law of the other conductors)
    follows = np.zeros(nodes, np.bool_)
    dense = np.empty((size, 2 * size + 2))
    status = REGULAR

    for m in range(loads):
        node = load_link[m, 0]
        alive[node] = True
        f = 2 * slot[load_link[m, 1]]
        t = 2 * slot[load_link[m, 2]]
        for r in range(2):
            for c in range(2):
                gain = load_gain_s[m, r, c]
                law[node, f + r, f + c] += gain
                law[node, t + r, t + c] += gain
                law[node, f + r, t + c] -= gain
                law[node, t + r, f + c] -= gain
        for column in range(2):
            constant = load_constant_a[m, column]
            law[node, f, size + column] += constant.real
            law[node, f + 1, size + column] += constant.imag
            law[node, t, size + column] -= constant.real
            law[node, t + 1, size + column] -= constant.imag

    for node in range(nodes - 1, -1, -1):
        if not alive[node]:
            continue
        if case.neutral_open[node] and neutral >= 0:
            d00 = law[node, neutral, neutral]
            d01 = law[node, neutral, neutral + 1]
            d10 = law[node, neutral + 1, neutral]
            d11 = law[node, neutral + 1, neutral + 1]
            determinant = d00 * d11 - d01 * d10
            scale = d00 * d00 + d01 * d01 + d10 * d10 + d11 * d11
            if scale == 0.0:
                follows[node] = True
            else:
                if determinant <= _TINY * scale:
                    status = TURNED
                if abs(determinant) <= _TINY * scale:
                    follows[node] = True
                else:
                    for c in range(size + 2):
                        top = law[node, neutral, c]
                        bottom = law[node, neutral + 1, c]
                        island[node, 0, c] = (d11 * top - d01 * bottom) / determinant
                        island[node, 1, c] = (d00 * bottom - d10 * top) / determinant
                    for r in range(neutral):
                        left = law[node, r, neutral]
                        right = law[node, r, neutral + 1]
                        for c in range(size + 2):
                            law[node, r, c] -= left * island[node, 0, c] + right * island[node, 1, c]
            for r in range(size):
                law[node, r, neutral] = 0.0
                law[node, r, neutral + 1] = 0.0
            for c in range(size + 2):
                law[node, neutral, c] = 0.0
                law[node, neutral + 1, c] = 0.0
        # I = Y (Up - Z I) + J, so (1 + Y Z) I = Y Up + J
        for c in range(4):
            if slot[c] >= 0:
                k = 2 * slot[c]
                resistance = case.impedance_ohm[node, c].real
                reactance = case.impedance_ohm[node, c].imag
                for r in range(size):
                    re = law[node, r, k]
                    im = law[node, r, k + 1]
                    dense[r, k] = re * resistance + im * reactance
                    dense[r, k + 1] = im * resistance - re * reactance
        for r in range(size):
            dense[r, r] += 1.0
            for c in range(size + 2):
                dense[r, size + c] = law[node, r, c]
        sign = solve_dense(dense, size, size + 2)
        if sign == 0:
            return SINGULAR
        if sign < 0:
            status = TURNED
        for r in range(size):
            for c in range(size + 2):
                law[node, r, c] = dense[r, size + c]
        if node > 0:
            up = case.parent[node]
            alive[up] = True
            for r in range(size):
                for c in range(size + 2):
                    law[up, r, c] += law[node, r, c]

    for node in range(nodes):
        for column in range(2):
            for c in range(4):
                if node > 0:
                    node_v[column, node, c] = node_v[column, case.parent[node], c]
                elif c < 3 and column == 0:
                    node_v[column, node, c] = case.emf_v[c]
                else:
                    node_v[column, node, c] = 0.0
            if not alive[node]:
                continue
            before = node_v[column, node].copy()
            for c in range(4):
                if slot[c] < 0 or (case.neutral_open[node] and c == 3):
                    continue
                k = 2 * slot[c]
                re = law[node, k, size + column]
                im = law[node, k + 1, size + column]
                for other in range(4):
                    if slot[other] >= 0:
                        j = 2 * slot[other]
                        u = before[other]
                        re += law[node, k, j] * u.real + law[node, k, j + 1] * u.imag
                        im += law[node, k + 1, j] * u.real + law[node, k + 1, j + 1] * u.imag
                node_v[column, node, c] -= case.impedance_ohm[node, c] * complex(re, im)
            if case.neutral_open[node] and neutral >= 0 and not follows[node]:
                re = -island[node, 0, size + column]
                im = -island[node, 1, size + column]
                for other in range(3):
                    if slot[other] >= 0:
                        j = 2 * slot[other]
                        u = node_v[column, node, other]
                        re -= island[node, 0, j] * u.real + island[node, 0, j + 1] * u.imag
                        im -= island[node, 1, j] * u.real + island[node, 1, j + 1] * u.imag
                node_v[column, node, 3] = complex(re, im)
    for m in range(loads):
        node = load_link[m, 0]
        for column in range(2):
            case.load_v[column, m] = node_v[column, node, load_link[m, 1]] - node_v[column, node, load_link[m, 2]]
    return status
