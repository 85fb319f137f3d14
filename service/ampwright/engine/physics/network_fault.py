"""What is wrong with a batch of networks, if anything?

Looked at before any network is solved, in compiled code, because a case takes only microseconds. The first fault in
the order of the rules below is told; what a person entered is checked long before, with all faults at once
(engine/site/validation.py), so a fault here is a mistake of the calling code.

Ranges keep every intermediate product finite; they are far outside what a site can hold.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

LARGEST_OHM = 1e9
LARGEST_V = 1e6
LARGEST_VA = 1e12
SMALLEST_NOMINAL_V = 1e-3

_MESSAGES = {
    1: "node_start and load_start must have one entry more than emf_v has rows",
    2: "impedance_ohm must have 4 columns and emf_v 3",
    3: "parent, impedance_ohm and neutral_open differ in length",
    4: "the load arrays differ in length",
    5: "node_start must rise from 0 to the number of nodes, at least one node a case; it does not at case {}",
    6: "load_start must rise from 0 to the number of loads; it does not at case {}",
    7: "parent of node {} (counted over the batch) must be -1 for a case's first node, else an earlier node",
    8: "impedance_ohm of node {} must be finite, of resistance >= 0 and magnitude <= 1e9 ohm",
    9: "emf_v of case {} must be finite and <= 1e6 V",
    10: "load_node of load {} is not a node of its case",
    11: "load_from and load_to of load {} must be two different conductors, each 0, 1, 2 or 3",
    12: "load {} is connected to an absent leg (its emf_v is 0)",
    13: "load_power_va of load {} must be finite and <= 1e12 VA",
    14: "load_nominal_v of load {} must be between 0.001 V and 1e6 V",
    15: "shares of load {} must be >= 0 and add up to at most 1",
    16: "load_low_voltage_switch_ratio of load {} must be between 0 and 1, and > 0 unless it is constant impedance",
}


@kernel(
    "UniTuple(int64, 2)(int64[::1], int64[::1], complex128[:, ::1], boolean[::1], complex128[:, ::1], int64[::1],"
    " int64[::1], int64[::1], int64[::1], complex128[::1], float64[::1], float64[::1], float64[::1], float64[::1])"
)
def first_fault(
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
) -> tuple[int, int]:
    """The first rule that a batch breaks.

    Parameters
    ----------
    node_start, parent, impedance_ohm, neutral_open, emf_v, load_start, load_node, load_from, load_to, load_power_va,
    load_nominal_v, load_constant_current_ratio, load_constant_impedance_ratio, load_low_voltage_switch_ratio : with
        units and shapes as in `NetworkBatch`

    Returns
    -------
    code : 0 where the batch is sound, else a key for `describe_fault`
    place : case, node or load, counted over the batch

    Errors: none.
    Source: the meaning of `NetworkBatch`.
    """
    cases = emf_v.shape[0]
    nodes = parent.shape[0]
    loads = load_node.shape[0]
    if node_start.shape[0] != cases + 1 or load_start.shape[0] != cases + 1:
        return 1, 0
    if impedance_ohm.shape[1] != 4 or emf_v.shape[1] != 3:
        return 2, 0
    if impedance_ohm.shape[0] != nodes or neutral_open.shape[0] != nodes:
        return 3, 0
    if (
        load_from.shape[0] != loads
        or load_to.shape[0] != loads
        or load_power_va.shape[0] != loads
        or load_nominal_v.shape[0] != loads
        or load_constant_current_ratio.shape[0] != loads
        or load_constant_impedance_ratio.shape[0] != loads
        or load_low_voltage_switch_ratio.shape[0] != loads
    ):
        return 4, 0
    if node_start[0] != 0 or node_start[cases] != nodes:
        return 5, 0
    if load_start[0] != 0 or load_start[cases] != loads:
        return 6, 0
    for case in range(cases):
        if not 0 <= node_start[case] < node_start[case + 1] <= nodes:
            return 5, case
        if not 0 <= load_start[case] <= load_start[case + 1] <= loads:
            return 6, case
    for case in range(cases):
        first = node_start[case]
        size = node_start[case + 1] - first
        for n in range(size):
            if (n == 0 and parent[first] != -1) or (n > 0 and not 0 <= parent[first + n] < n):
                return 7, first + n
            for c in range(4):
                z = impedance_ohm[first + n, c]
                if not (z.real >= 0.0 and z.real <= LARGEST_OHM and abs(z.imag) <= LARGEST_OHM):
                    return 8, first + n
        for c in range(3):
            if not abs(emf_v[case, c]) <= LARGEST_V:
                return 9, case
        for m in range(load_start[case], load_start[case + 1]):
            if not 0 <= load_node[m] < size:
                return 10, m
            f = load_from[m]
            t = load_to[m]
            if not (0 <= f <= 3 and 0 <= t <= 3 and f != t):
                return 11, m
            if (f < 3 and emf_v[case, f] == 0.0) or (t < 3 and emf_v[case, t] == 0.0):
                return 12, m
            if not abs(load_power_va[m]) <= LARGEST_VA:
                return 13, m
            if not SMALLEST_NOMINAL_V <= load_nominal_v[m] <= LARGEST_V:
                return 14, m
            current_ratio = load_constant_current_ratio[m]
            impedance_ratio = load_constant_impedance_ratio[m]
            if not (current_ratio >= 0.0 and impedance_ratio >= 0.0 and current_ratio + impedance_ratio <= 1.0 + 1e-12):
                return 15, m
            switch = load_low_voltage_switch_ratio[m]
            if not 0.0 <= switch <= 1.0 or (switch == 0.0 and impedance_ratio < 1.0):
                return 16, m
            if math.isnan(load_power_va[m].real) or math.isnan(load_power_va[m].imag):
                return 13, m
    return 0, 0


def describe_fault(code: int, place: int) -> str:
    """What `first_fault` found, in words.

    Parameters
    ----------
    code, place : as `first_fault` returns them; code not 0

    Returns
    -------
    message : str

    Errors: KeyError for a code that does not exist.
    Source: none needed.
    """
    return _MESSAGES[code].format(place)
