"""How fast is the engine alone?

Networks: random radial ones of ten nodes, unbalanced, two legs, as a batch; beside a dense linear solve of as many
unknowns by LAPACK, which knows nothing of trees and solves once where ours goes round until nothing moves. Load checks:
eight tools that all run together, all estimates and every start, alone and as a batch.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from ampwright.bench.measured import Row, least_s
from ampwright.bench.sites import request, site
from ampwright.engine.calculations.load_check.load_check import check_load, check_loads
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.physics.network_flow import NetworkBatch, solve_networks

NODES = 10
SEED = 12


def networks(cases: int, rng: np.random.Generator) -> NetworkBatch:
    """Random trees of ten nodes on two legs, a load of every kind at each node."""
    parent = np.array([[-1, *(rng.integers(0, n) for n in range(1, NODES))] for _ in range(cases)]).reshape(-1)
    nodes = cases * NODES
    impedance = (rng.uniform(0.01, 0.08, nodes) * (1.0 + 0.1j)).astype(np.complex128).repeat(4).reshape(nodes, 4)
    first = np.arange(nodes) % 2
    nominal = np.full(nodes, 120.0)
    shares = rng.dirichlet((1.0, 1.0, 1.0), nodes)
    power = (rng.uniform(20.0, 300.0, nodes) * (1.0 + 0.4j)).astype(np.complex128)
    emf = np.tile(np.array([120.0, -120.0, 0.0]), (cases, 1)).astype(np.complex128)
    starts = np.arange(cases + 1) * NODES
    return NetworkBatch(
        starts, parent, impedance, np.zeros(nodes, np.bool_), emf, starts, np.tile(np.arange(NODES), cases), first,
        np.full(nodes, 3), power, nominal, shares[:, 0], shares[:, 1], np.full(nodes, 0.5),
    )  # fmt: skip


def network_rows(*, quick: bool) -> Iterator[Row]:
    """The batch network solve, and a dense solve of as many unknowns beside it."""
    cases = 200 if quick else 2000
    rng = np.random.default_rng(SEED)
    batch = networks(cases, rng)
    solve_networks(batch)
    ours = least_s(lambda: solve_networks(batch), 5) / cases
    dense = rng.normal(size=(cases, 3 * NODES, 3 * NODES)) + 1j * rng.normal(size=(cases, 3 * NODES, 3 * NODES))
    right = rng.normal(size=(cases, 3 * NODES, 1)) + 0j
    lapack = least_s(lambda: np.linalg.solve(dense, right), 3) / cases
    yield Row("unbalanced network of ten nodes, in a batch", ours * 1e6, "us/case", f"{cases} cases")
    yield Row("  against one dense solve of 30 unknowns", lapack / ours, "x faster", f"{lapack * 1e6:.1f} us")


def reference_rows(folder: Path) -> Iterator[Row]:
    """Voltages against the stored answers of a distribution-system solver; they lie beside the tests."""
    here = folder / "published" / "network" / "stored_networks.py"
    if not here.is_file():
        yield Row("voltages against the reference solver: not in this folder", float("nan"), "", str(here))
        return
    sys.path.insert(0, str(folder))
    from published.network.networks import SUPPLIES  # type: ignore[import-not-found]
    from published.network.stored_networks import as_batch, stored  # type: ignore[import-not-found]

    for kind, supply in SUPPLIES.items():
        networks_, reference_v = stored(kind)
        result = solve_networks(as_batch(networks_))
        off = np.nanmax(np.abs(result.node_v - reference_v)) / supply.leg_v
        yield Row(f"{kind}: worst voltage against the reference solver", 100.0 * off, "%", f"{len(networks_)} networks")


def load_check_rows(*, quick: bool) -> Iterator[Row]:
    """A load check of eight tools: one evaluation, as answered, in a batch, and the shorter answers of matrices."""
    times = 3 if quick else 10
    some = [site(request(8, number=n)) for n in range(16 if quick else 64)]
    first = some[0]
    check_load(first)
    one = least_s(lambda: evaluate(first, frozenset()), times)
    steady = least_s(lambda: evaluate(first, frozenset(), only=frozenset()), times)
    yield Row("8 tools, one evaluation: low, typical, high, every start", one * 1e3, "ms")
    yield Row("  its steady part", steady * 1e3, "ms", f"{steady / one:.2f} of it")
    # one after another over the batch: a check that was just made is not the next one
    alone = least_s(lambda: [check_load(each) for each in some], 1) / len(some)
    yield Row(
        "8 tools, load check as it is answered", alone * 1e3, "ms", f"{1.0 / alone:.0f}/s, {alone / one:.1f} x that"
    )
    whole = least_s(lambda: check_loads(some), 2) / len(some)
    yield Row("  the same, many in one call", 1.0 / whole, "/s", f"{alone / whole:.2f} x alone")
    for flips in ("first", "none"):
        short = least_s(lambda flips=flips: check_loads(some, flips=flips, verdict_only=True), 2) / len(some)  # type: ignore[misc]
        yield Row(f"  verdicts only, flips {flips}", 1.0 / short, "/s", f"{alone / short:.2f} x alone")


def growth_rows(*, quick: bool) -> Iterator[Row]:
    """Cells a second of a matrix as it grows in kits, sources and tools."""
    for tools in (2, 4, 8) if quick else (2, 4, 8, 16):
        for kits, sources in ((4, 2), (8, 2)) if quick else ((4, 2), (16, 2), (16, 8)):
            cells = [
                site(request(tools, 2 + s, number=kits * s + k, cases="asked"))
                for k in range(kits)
                for s in range(sources)
            ]
            taken = least_s(lambda cells=cells: check_loads(cells, flips="first", verdict_only=True), 1)  # type: ignore[misc]
            yield Row(f"{kits} kits of {tools} tools x {sources} sources", len(cells) / taken, "cells/s")
