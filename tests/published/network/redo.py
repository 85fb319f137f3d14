"""Redo the stored results of the reference solver, and say whether they changed.

Usage: python tests/published/network/redo.py [--check]

Needs the extra `reference`; no test does. Draws are taken in order until there are enough in which the solver
converged and every load kept at least 70 % of its nominal voltage: the comparison is of working networks, collapse has
its own closed forms (tests/engine/physics/test_network_limit.py). With --check nothing is written. Exit status 1 where
anything differs from what is stored.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from opendssdirect import dss
from published.network.deck import deck
from published.network.networks import NETWORKS_PER_KIND, SUPPLIES, Network, draw_network

HERE = Path(__file__).resolve().parent
DECKS_KEPT = 2
LOWEST_RATIO = 0.7
DIGITS = 6
"""Decimals of a stored voltage: 1e-6 V, far inside the tolerance."""


def solve(network: Network) -> list[list[list[float] | None]] | None:
    """(node, conductor) voltages [re, im] against the source's neutral; None where it is not a working network."""
    for line in deck(network).splitlines():
        if not line.startswith("!"):
            dss.Text.Command(line)
    if not dss.Solution.Converged():
        return None
    flat = dss.Circuit.AllBusVolts()
    volts = dict(zip(dss.Circuit.AllNodeNames(), zip(flat[::2], flat[1::2], strict=True), strict=True))
    node_v = [
        [
            None if impedance is None else [round(x, DIGITS) + 0.0 for x in volts[f"n{node}.{conductor + 1}"]]
            for conductor, impedance in enumerate(branch.impedance_ohm)
        ]
        for node, branch in enumerate(network.branches)
    ]
    for load in network.loads:
        ends = [node_v[load.node][c] for c in (load.conductor_from, load.conductor_to)]
        across = complex(*(ends[0] or ())) - complex(*(ends[1] or ()))
        if abs(across) < LOWEST_RATIO * load.nominal_v:
            return None
    return node_v


def redo(kind: str) -> dict[str, str]:
    """All files of one kind of supply: path under this folder, and content."""
    files = {}
    rows: list[str] = []
    draw = 0
    while len(rows) < NETWORKS_PER_KIND:
        network = draw_network(kind, draw)
        draw += 1
        node_v = solve(network)
        if node_v is None:
            continue
        if len(rows) < DECKS_KEPT:
            files[f"decks/{kind}-{network.draw}.dss"] = deck(network)
        rows.append(json.dumps({**network.as_json(), "reference_node_v": node_v}, separators=(",", ":")))
    files[f"{kind}.ndjson"] = "\n".join(rows) + "\n"
    return files


def main(arguments: list[str]) -> int:
    changed = 0
    for kind in SUPPLIES:
        for name, content in redo(kind).items():
            path = HERE / name
            same = path.exists() and path.read_text() == content
            changed += not same
            print(f"{'same   ' if same else 'changed'} {name}")
            if not same and "--check" not in arguments:
                path.parent.mkdir(exist_ok=True)
                path.write_text(content)
    print("nothing changed" if changed == 0 else f"{changed} files changed")
    return 1 if changed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
