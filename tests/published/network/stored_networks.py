"""How are the stored networks of the reference solver read, and put to our own?"""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import numpy.typing as npt
from ampwright.engine.physics.network_flow import NetworkBatch
from published.network.networks import LOW_VOLTAGE_SWITCH_RATIO, Network

HERE = Path(__file__).resolve().parent


def stored(kind: str) -> tuple[list[Network], npt.NDArray[np.complex128]]:
    """The networks of a kind, and the (nodes, 4) reference voltages of all their nodes; NaN for no such conductor."""
    networks = []
    rows = []
    for line in (HERE / f"{kind}.ndjson").read_text().splitlines():
        row = json.loads(line)
        networks.append(Network.from_json(row))
        rows += [
            [complex(np.nan, np.nan) if v is None else complex(*v) for v in node] for node in row["reference_node_v"]
        ]
    return networks, np.array(rows)


def as_batch(networks: list[Network]) -> NetworkBatch:
    """One batch of all networks. A conductor that is not carried has no impedance and no load."""
    branches = [branch for network in networks for branch in network.branches]
    loads = [load for network in networks for load in network.loads]
    return NetworkBatch(
        node_start=np.cumsum([0, *(len(network.branches) for network in networks)]),
        parent=np.array([branch.parent for branch in branches]),
        impedance_ohm=np.array([[complex(*(z or (0.0, 0.0))) for z in branch.impedance_ohm] for branch in branches]),
        neutral_open=np.zeros(len(branches), np.bool_),
        emf_v=np.array([network.emf_v for network in networks]),
        load_start=np.cumsum([0, *(len(network.loads) for network in networks)]),
        load_node=np.array([load.node for load in loads]),
        load_from=np.array([load.conductor_from for load in loads]),
        load_to=np.array([load.conductor_to for load in loads]),
        load_power_va=np.array([complex(*load.power_va) for load in loads]),
        load_nominal_v=np.array([load.nominal_v for load in loads]),
        load_constant_current_ratio=np.array([load.constant_current_ratio for load in loads]),
        load_constant_impedance_ratio=np.array([load.constant_impedance_ratio for load in loads]),
        load_low_voltage_switch_ratio=np.full(len(loads), LOW_VOLTAGE_SWITCH_RATIO),
    )
