"""Do our voltages agree with an open distribution-system solver's, on random networks of every kind of supply?

Source of every expected value: origin.toml. Tolerance 0.01 %, stated there and set before the first comparison.
"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics.network_flow import SOLVED, solve_networks
from published.network.deck import deck
from published.network.networks import NETWORKS_PER_KIND, SUPPLIES, draw_network
from published.network.stored_networks import HERE, as_batch, stored

TOLERANCE_RATIO = 1e-4


@pytest.mark.parametrize("kind", SUPPLIES)
def test_voltages_agree_with_the_reference_solver(kind: str) -> None:
    networks, reference_v = stored(kind)
    batch = as_batch(networks)
    result = solve_networks(batch)
    assert (result.outcome == SOLVED).all()

    carried = ~np.isnan(reference_v.real)
    node_off = np.abs(result.node_v - reference_v)[carried] / SUPPLIES[kind].leg_v
    case_of_load = np.repeat(np.arange(len(networks)), np.diff(batch.load_start))
    node = batch.node_start[case_of_load] + batch.load_node
    reference_load_v = reference_v[node, batch.load_from] - reference_v[node, batch.load_to]
    load_off = np.abs(result.load_v - reference_load_v) / np.abs(reference_load_v)
    print(f"{kind}: worst load {load_off.max():.2e}, worst node {node_off.max():.2e}")
    assert load_off.max() < TOLERANCE_RATIO
    assert node_off.max() < TOLERANCE_RATIO


@pytest.mark.parametrize("kind", SUPPLIES)
def test_stored_networks_are_many_loaded_and_unbalanced(kind: str) -> None:
    # Guards the comparison above against agreeing about nothing.
    networks, reference_v = stored(kind)
    assert len(networks) == NETWORKS_PER_KIND
    drop = 1.0 - np.abs(reference_v[:, 0]) / SUPPLIES[kind].leg_v
    assert np.nanmax(drop) > 0.1
    mixed = [0.0 < load.constant_impedance_ratio < 1.0 for network in networks for load in network.loads]
    assert sum(mixed) > 100
    if SUPPLIES[kind].leg_to_neutral_v is not None:
        assert np.nanmax(np.abs(reference_v[:, 3])) > 0.03 * SUPPLIES[kind].leg_v


@pytest.mark.parametrize("kind", SUPPLIES)
def test_stored_networks_are_what_their_seed_draws(kind: str) -> None:
    networks, _ = stored(kind)
    assert networks == [draw_network(kind, network.draw) for network in networks]


def test_kept_decks_are_what_the_networks_are_told_as() -> None:
    decks = sorted((HERE / "decks").glob("*.dss"))
    assert decks
    for path in decks:
        kind, _, draw = path.stem.rpartition("-")
        assert path.read_text() == deck(draw_network(kind, int(draw)))
