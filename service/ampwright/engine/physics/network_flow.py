"""Which voltages and currents does a radial network settle at?

A network is a tree of branches from one source, with up to three legs and a neutral, and loads between any two of
them: 120 V, 120/240 V split-phase, 208Y/120 V, 230/400 V, 230 V, reduced low voltage 55-0-55 V, or DC; legs at any
angle, also in phase. Loads are mixtures of constant impedance, current and power (network_load.py).

Sums of currents towards the source and losses of voltage back, until nothing moves: a few rounds in a network that
works. What this does not settle (a heavy load, a network near its limit or beyond it, a broken neutral) goes to
network_limit.py, which alone may call a case collapsed. One compiled routine serves one case and a million.

Source: Kirchhoff's laws; the sweep after Shirmohammadi, Hong, Semlyen and Luo, IEEE Trans. Power Systems 3 (1988)
no. 2, here for unbalanced loads between any conductors.
Not here: what a source does at its limit (source_limit.py), and which cords have which impedance
(conductor_impedance.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.network_fault import describe_fault, first_fault
from ampwright.engine.physics.network_limit import COLLAPSED, NOT_CONVERGED, SOLVED, solve_near_limit
from ampwright.engine.physics.network_load import admittance_factor
from ampwright.engine.physics.network_tree import RadialCase

__all__ = ["COLLAPSED", "NOT_CONVERGED", "SOLVED", "NetworkBatch", "NetworkResult", "solve_networks"]

L1, L2, L3, NEUTRAL = 0, 1, 2, 3

_TOLERANCE = 1e-9  # of the largest source voltage, estimated error of a node voltage
_SWEEPS = 60

_INTEGER, _TRUTH, _REAL, _COMPLEX = (np.dtype(t) for t in (np.int64, np.bool_, np.float64, np.complex128))


@dataclass(frozen=True, slots=True)
class NetworkBatch:
    """Networks to solve; ragged arrays, indices inside a case count from that case's first node or load.

    Parameters
    ----------
    node_start : (cases + 1,) int64, where each case's nodes start; from 0 to the number of nodes
    parent : (nodes,) int64, -1 for a case's first node, the source's terminals; else a smaller index
    impedance_ohm : (nodes, 4) complex128 [ohm] conductors L1, L2, L3, N of the branch from the parent; in a first
        node's row the source's own, between its electromotive force and its terminals
    neutral_open : (nodes,) bool, the neutral of this branch is broken
    emf_v : (cases, 3) complex128 [V] legs L1, L2, L3 against the source's neutral; 0 where there is no such leg
    load_start : (cases + 1,) int64, where each case's loads start
    load_node : (loads,) int64
    load_from, load_to : (loads,) int64, conductor 0, 1, 2 (legs) or 3 (neutral)
    load_power_va : (loads,) complex128 [VA] P + jQ at nominal voltage
    load_nominal_v : (loads,) float64 [V] > 0
    load_constant_current_ratio, load_constant_impedance_ratio : (loads,) float64 [1] the rest is constant power
    load_low_voltage_switch_ratio : (loads,) float64 [1] share of nominal voltage under which the load acts as a
        constant impedance; > 0 unless the load is one anyway
    """

    node_start: npt.NDArray[np.int64]
    parent: npt.NDArray[np.int64]
    impedance_ohm: npt.NDArray[np.complex128]
    neutral_open: npt.NDArray[np.bool_]
    emf_v: npt.NDArray[np.complex128]
    load_start: npt.NDArray[np.int64]
    load_node: npt.NDArray[np.int64]
    load_from: npt.NDArray[np.int64]
    load_to: npt.NDArray[np.int64]
    load_power_va: npt.NDArray[np.complex128]
    load_nominal_v: npt.NDArray[np.float64]
    load_constant_current_ratio: npt.NDArray[np.float64]
    load_constant_impedance_ratio: npt.NDArray[np.float64]
    load_low_voltage_switch_ratio: npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class NetworkResult:
    """What the networks of a batch settle at; all figures finite, phasors in the frame of `emf_v`.

    Parameters
    ----------
    node_v : (nodes, 4) complex128 [V] against the source's neutral; a neutral behind a break with nothing connected
        shows the voltage of the neutral before the break
    branch_current_a : (nodes, 4) complex128 [A] away from the source; a first node's row is the source's own current
    load_v : (loads,) complex128 [V] from `load_from` to `load_to`
    load_current_a : (loads,) complex128 [A]
    outcome : (cases,) int8. SOLVED: the high-voltage solution. COLLAPSED: more is asked than can be delivered; the
        figures are those with loads on their low-voltage switch. NOT_CONVERGED: neither shown; the figures are those
        with every load held on the impedance of its switch
    iterations : (cases,) int64, sweeps and linear solves
    """

    node_v: npt.NDArray[np.complex128]
    branch_current_a: npt.NDArray[np.complex128]
    load_v: npt.NDArray[np.complex128]
    load_current_a: npt.NDArray[np.complex128]
    outcome: npt.NDArray[np.int8]
    iterations: npt.NDArray[np.int64]


@kernel(
    "UniTuple(int64, 2)(int64[::1], complex128[:, ::1], complex128[::1], int64[::1], int64[::1], int64[::1],"
    " complex128[::1], float64[::1], float64[::1], float64[::1], float64[::1],"
    " complex128[:, ::1], complex128[:, ::1], complex128[::1])"
)
def sweep_network(
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    emf_v: npt.NDArray[np.complex128],
    load_node: npt.NDArray[np.int64],
    load_from: npt.NDArray[np.int64],
    load_to: npt.NDArray[np.int64],
    load_power_va: npt.NDArray[np.complex128],
    load_nominal_v: npt.NDArray[np.float64],
    load_constant_current_ratio: npt.NDArray[np.float64],
    load_constant_impedance_ratio: npt.NDArray[np.float64],
    load_low_voltage_switch_ratio: npt.NDArray[np.float64],
    node_v: npt.NDArray[np.complex128],
    branch_current_a: npt.NDArray[np.complex128],
    load_admittance_s: npt.NDArray[np.complex128],
) -> tuple[int, int]:
    """Backward and forward sweeps over one network without a broken neutral.

    Parameters
    ----------
    parent, impedance_ohm, emf_v, load_node, load_from, load_to, load_power_va, load_nominal_v,
    load_constant_current_ratio, load_constant_impedance_ratio, load_low_voltage_switch_ratio : one case's part of the
        arrays of `NetworkBatch`
    node_v : (n, 4) [V] out
    branch_current_a : (n, 4) [A] work
    load_admittance_s : (m,) [S] work

    Returns
    -------
    settled : 1 where it converged with every load above its low-voltage switch, else 0
    sweeps : number of rounds

    Errors: none.
    Source: module docstring. A solution that the sweep can settle at is the high-voltage one: with one load its rate
    is |Z S|/|U|^2, which is 1 at the limit of transferable power and larger beyond.
    """
    nodes = parent.shape[0]
    loads = load_node.shape[0]
    scale = 0.0
    for c in range(3):
        scale = max(scale, abs(emf_v[c]))
    for n in range(nodes):
        for c in range(3):
            node_v[n, c] = emf_v[c]
        node_v[n, 3] = 0.0
    for m in range(loads):
        load_admittance_s[m] = load_power_va[m].conjugate() / (load_nominal_v[m] * load_nominal_v[m])
    tolerance = _TOLERANCE * scale
    last = np.inf
    last_rate = 0.0
    for sweep in range(1, _SWEEPS + 1):
        for n in range(nodes):
            for c in range(4):
                branch_current_a[n, c] = 0.0
        low = False
        for m in range(loads):
            n = load_node[m]
            u = node_v[n, load_from[m]] - node_v[n, load_to[m]]
            ratio = np.sqrt(u.real * u.real + u.imag * u.imag) / load_nominal_v[m]
            switch = load_low_voltage_switch_ratio[m]
            impedance_ratio = load_constant_impedance_ratio[m]
            factor = admittance_factor(ratio, load_constant_current_ratio[m], impedance_ratio, switch)
            if ratio < switch and impedance_ratio < 1.0:
                low = True
            i = load_admittance_s[m] * (u * factor)
            branch_current_a[n, load_from[m]] += i
            branch_current_a[n, load_to[m]] -= i
        for n in range(nodes - 1, 0, -1):
            p = parent[n]
            for c in range(4):
                branch_current_a[p, c] += branch_current_a[n, c]
        square = 0.0
        for n in range(nodes):
            p = parent[n]
            for c in range(4):
                if n > 0:
                    u = node_v[p, c]
                elif c < 3:
                    u = emf_v[c]
                else:
                    u = complex(0.0, 0.0)
                u -= impedance_ohm[n, c] * branch_current_a[n, c]
                moved = u - node_v[n, c]
                square = max(square, moved.real * moved.real + moved.imag * moved.imag)
                node_v[n, c] = u
        change = np.sqrt(square)
        if change <= 1e-3 * tolerance:
            return (0 if low else 1), sweep
        rate = change / last
        slower = max(rate, last_rate)
        if sweep > 2 and slower < 0.9 and change * slower <= tolerance * (1.0 - slower):
            return (0 if low else 1), sweep
        if sweep > 5 and rate > 0.75:
            return 0, sweep
        last = change
        last_rate = rate
    return 0, _SWEEPS


@kernel(
    "void(int64[::1], int64[::1], complex128[:, ::1], boolean[::1], complex128[:, ::1], int64[::1], int64[::1],"
    " int64[::1], int64[::1], complex128[::1], float64[::1], float64[::1], float64[::1], float64[::1],"
    " complex128[:, ::1], complex128[:, ::1], complex128[::1], complex128[::1], int8[::1], int64[::1])"
)
def solve_batch(
    node_start: npt.NDArray[np.int64],
    parent: npt.NDArray[np.int64],
    impedance_ohm: npt.NDArray[np.complex128],
    neutral_open: npt.NDArray[np.bool_],
    emf_v: npt.NDArray[np.complex128],
    load_start: npt.NDArray[np.int64],
    load_node: npt.NDArray[np.int64],
    load_from: npt.NDArray[np.int64],
    load_to: npt.NDArray[np.int64],
    load_power_va: npt.NDArray[np.complex128],
    load_nominal_v: npt.NDArray[np.float64],
    load_constant_current_ratio: npt.NDArray[np.float64],
    load_constant_impedance_ratio: npt.NDArray[np.float64],
    load_low_voltage_switch_ratio: npt.NDArray[np.float64],
    node_v: npt.NDArray[np.complex128],
    branch_current_a: npt.NDArray[np.complex128],
    load_v: npt.NDArray[np.complex128],
    load_current_a: npt.NDArray[np.complex128],
    outcome: npt.NDArray[np.int8],
    iterations: npt.NDArray[np.int64],
) -> None:
    """All networks of a batch, one after the other; `solve_networks` checks the input first.

    Parameters
    ----------
    node_start, parent, impedance_ohm, neutral_open, emf_v, load_start, load_node, load_from, load_to, load_power_va,
    load_nominal_v, load_constant_current_ratio, load_constant_impedance_ratio, load_low_voltage_switch_ratio : with
        units and shapes as in `NetworkBatch`
    node_v, branch_current_a, load_v, load_current_a, outcome, iterations : out, as in `NetworkResult`

    Errors: none.
    Source: module docstring.
    """
    for case in range(emf_v.shape[0]):
        n0 = node_start[case]
        n1 = node_start[case + 1]
        l0 = load_start[case]
        l1 = load_start[case + 1]
        broken = False
        for n in range(n0, n1):
            if neutral_open[n]:
                broken = True
        settled = 0
        steps = 0
        if not broken:
            settled, steps = sweep_network(
                parent[n0:n1],
                impedance_ohm[n0:n1],
                emf_v[case],
                load_node[l0:l1],
                load_from[l0:l1],
                load_to[l0:l1],
                load_power_va[l0:l1],
                load_nominal_v[l0:l1],
                load_constant_current_ratio[l0:l1],
                load_constant_impedance_ratio[l0:l1],
                load_low_voltage_switch_ratio[l0:l1],
                node_v[n0:n1],
                branch_current_a[n0:n1],
                load_current_a[l0:l1],
            )
        outcome[case] = SOLVED
        if settled == 0:
            n_load = l1 - l0
            link = np.empty((n_load, 3), np.int64)
            curve = np.empty((n_load, 4))
            admittance = np.empty(n_load, np.complex128)
            for m in range(n_load):
                nominal = load_nominal_v[l0 + m]
                link[m, 0] = load_node[l0 + m]
                link[m, 1] = load_from[l0 + m]
                link[m, 2] = load_to[l0 + m]
                curve[m, 0] = load_constant_current_ratio[l0 + m]
                curve[m, 1] = load_constant_impedance_ratio[l0 + m]
                curve[m, 2] = load_low_voltage_switch_ratio[l0 + m]
                curve[m, 3] = nominal
                admittance[m] = load_power_va[l0 + m].conjugate() / (nominal * nominal)
            hard = RadialCase(
                parent[n0:n1],
                impedance_ohm[n0:n1],
                neutral_open[n0:n1],
                emf_v[case],
                link,
                admittance,
                curve,
                np.zeros((2, n1 - n0, 4), np.complex128),
                np.zeros((2, n_load), np.complex128),
            )
            found, used = solve_near_limit(hard)
            node_v[n0:n1] = hard.node_v[0]
            steps += used
            outcome[case] = found
        iterations[case] = steps

        for n in range(n0, n1):
            for c in range(4):
                branch_current_a[n, c] = 0.0
        for m in range(l0, l1):
            n = n0 + load_node[m]
            u = node_v[n, load_from[m]] - node_v[n, load_to[m]]
            nominal = load_nominal_v[m]
            ratio = abs(u) / nominal
            if outcome[case] == NOT_CONVERGED:
                ratio = 0.0
            factor = admittance_factor(
                ratio,
                load_constant_current_ratio[m],
                load_constant_impedance_ratio[m],
                load_low_voltage_switch_ratio[m],
            )
            i = load_power_va[m].conjugate() / (nominal * nominal) * (u * factor)
            load_v[m] = u
            load_current_a[m] = i
            branch_current_a[n, load_from[m]] += i
            branch_current_a[n, load_to[m]] -= i
        for n in range(n1 - 1, n0 - 1, -1):
            if neutral_open[n]:
                branch_current_a[n, 3] = 0.0
            if n > n0:
                for c in range(4):
                    branch_current_a[n0 + parent[n], c] += branch_current_a[n, c]


def _array(values: Any, dtype: np.dtype[Any], name: str, dimensions: int) -> npt.NDArray[Any]:
    array = np.asarray(values)
    if array.dtype is not dtype:
        if array.size and not np.can_cast(array.dtype, dtype, "same_kind"):
            raise ValueError(f"{name} holds {array.dtype}, which does not fit {dtype}")
        array = array.astype(dtype)
    if array.ndim != dimensions:
        raise ValueError(f"{name} has {array.ndim} dimensions, expected {dimensions}")
    flags = array.flags
    if not (flags.c_contiguous and flags.writeable and flags.aligned):
        array = array.copy(order="C")
    return array


def solve_networks(batch: NetworkBatch) -> NetworkResult:
    """Solve every network of a batch.

    Parameters
    ----------
    batch : the networks; arrays are not changed

    Returns
    -------
    result : one row for each node, load and case of the batch, in the same order. A case gives the same bits whatever
        else is in its batch

    Errors: ValueError that says what is wrong and where: shapes, order of parents, indices, loads on an absent leg,
        figures that are not finite or outside the ranges of network_fault.py. A collapse is an outcome, not an error.
    Source: module docstring. Batches of a few thousand cases run fastest, since they stay in the processor's cache, and
    let a caller stop between them.
    """
    arrays = (
        _array(batch.node_start, _INTEGER, "node_start", 1),
        _array(batch.parent, _INTEGER, "parent", 1),
        _array(batch.impedance_ohm, _COMPLEX, "impedance_ohm", 2),
        _array(batch.neutral_open, _TRUTH, "neutral_open", 1),
        _array(batch.emf_v, _COMPLEX, "emf_v", 2),
        _array(batch.load_start, _INTEGER, "load_start", 1),
        _array(batch.load_node, _INTEGER, "load_node", 1),
        _array(batch.load_from, _INTEGER, "load_from", 1),
        _array(batch.load_to, _INTEGER, "load_to", 1),
        _array(batch.load_power_va, _COMPLEX, "load_power_va", 1),
        _array(batch.load_nominal_v, _REAL, "load_nominal_v", 1),
        _array(batch.load_constant_current_ratio, _REAL, "load_constant_current_ratio", 1),
        _array(batch.load_constant_impedance_ratio, _REAL, "load_constant_impedance_ratio", 1),
        _array(batch.load_low_voltage_switch_ratio, _REAL, "load_low_voltage_switch_ratio", 1),
    )
    code, place = first_fault(*arrays)
    if code:
        raise ValueError(describe_fault(code, place))
    nodes = arrays[1].shape[0]
    loads = arrays[6].shape[0]
    cases = arrays[4].shape[0]
    result = NetworkResult(
        node_v=np.empty((nodes, 4), np.complex128),
        branch_current_a=np.empty((nodes, 4), np.complex128),
        load_v=np.empty(loads, np.complex128),
        load_current_a=np.empty(loads, np.complex128),
        outcome=np.empty(cases, np.int8),
        iterations=np.empty(cases, np.int64),
    )
    solve_batch(
        *arrays,
        result.node_v,
        result.branch_current_a,
        result.load_v,
        result.load_current_a,
        result.outcome,
        result.iterations,
    )
    return result
