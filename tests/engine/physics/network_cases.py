"""How are small networks written down in the tests of this folder?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt
from ampwright.engine.physics.network_flow import NetworkBatch

L1, L2, L3, N = 0, 1, 2, 3
PER_CASE = ("emf_v",)


@dataclass(frozen=True)
class Load:
    """One load, by default of constant power."""

    node: int
    conductor_from: int
    conductor_to: int
    power_va: complex
    nominal_v: float
    current_ratio: float = 0.0
    impedance_ratio: float = 0.0
    switch_ratio: float = 0.5


def impedance_load(node: int, conductor_from: int, conductor_to: int, power_va: complex, nominal_v: float) -> Load:
    return Load(node, conductor_from, conductor_to, power_va, nominal_v, impedance_ratio=1.0)


def network(
    parent: Sequence[int],
    impedance_ohm: Sequence[complex | Sequence[complex]],
    emf_v: Sequence[complex],
    loads: Sequence[Load],
    broken_at: int | None = None,
) -> NetworkBatch:
    """A batch of one. An impedance is that of all four conductors, or a row of four; missing legs are absent."""
    rows = [[z] * 4 if np.isscalar(z) else list(z) for z in impedance_ohm]  # type: ignore[call-overload]
    return NetworkBatch(
        node_start=np.array([0, len(parent)]),
        parent=np.array(parent, np.int64),
        impedance_ohm=np.array(rows, np.complex128),
        neutral_open=np.array([node == broken_at for node in range(len(parent))]),
        emf_v=np.array([[*emf_v, 0.0, 0.0][:3]], np.complex128),
        load_start=np.array([0, len(loads)]),
        load_node=np.array([load.node for load in loads], np.int64),
        load_from=np.array([load.conductor_from for load in loads], np.int64),
        load_to=np.array([load.conductor_to for load in loads], np.int64),
        load_power_va=np.array([load.power_va for load in loads], np.complex128),
        load_nominal_v=np.array([load.nominal_v for load in loads], np.float64),
        load_constant_current_ratio=np.array([load.current_ratio for load in loads], np.float64),
        load_constant_impedance_ratio=np.array([load.impedance_ratio for load in loads], np.float64),
        load_low_voltage_switch_ratio=np.array([load.switch_ratio for load in loads], np.float64),
    )


def join(batches: Sequence[NetworkBatch]) -> NetworkBatch:
    """Several batches as one."""
    arrays: dict[str, npt.NDArray[np.generic]] = {}
    for field in fields(NetworkBatch):
        parts = [getattr(batch, field.name) for batch in batches]
        if field.name in ("node_start", "load_start"):
            sizes = np.concatenate([np.diff(part) for part in parts])
            arrays[field.name] = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
        else:
            arrays[field.name] = np.concatenate(parts)
    return NetworkBatch(**arrays)  # type: ignore[arg-type]


def random_network(rng: np.random.Generator, load_va: float, broken_ratio: float = 0.0) -> NetworkBatch:
    """A random tree; with large loads, near its limit and beyond it."""
    emf = [[120.0], [120.0, -120.0], list(120.0 * np.exp(-2j * np.pi / 3.0 * np.arange(3)))][rng.integers(3)]
    nodes = int(rng.integers(1, 11))
    loads = []
    for _ in range(rng.integers(0, 9)):
        legs = rng.permutation(len(emf))
        if len(emf) > 1 and rng.random() < 0.3:
            ends = (int(legs[0]), int(legs[1]))
            nominal_v = float(abs(emf[ends[0]] - emf[ends[1]]))
        else:
            ends = (int(legs[0]), N)
            nominal_v = 120.0
        shares = np.sort(rng.random(2))
        current, impedance = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (shares[0], shares[1] - shares[0])][rng.integers(4)]
        power_va = rng.exponential(load_va) * complex(1.0, rng.uniform(-0.3, 1.0))
        loads.append(
            Load(int(rng.integers(nodes)), *ends, power_va, nominal_v, current, impedance, rng.choice([0.3, 0.5, 0.8]))
        )
    return network(
        [-1, *(int(rng.integers(node)) for node in range(1, nodes))],
        [complex(rng.exponential(0.1), rng.exponential(0.02)) for _ in range(nodes)],
        emf,
        loads,
        int(rng.integers(nodes)) if rng.random() < broken_ratio else None,
    )
