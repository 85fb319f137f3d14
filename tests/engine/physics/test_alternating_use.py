"""Are shares of time, sums and drawn shifts of loads that come and go what queueing theory says?

Outside: the balance equations of a Markov chain solved as linear equations with numpy, brute force over all 2^n sets,
the Erlang loss formula (A. K. Erlang 1917; ITU Teletraffic Engineering Handbook, ch. 4), the binomial distribution of
independent loads, and a chain of on-states and thermal image built here from the differential equation alone.
"""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import scipy.sparse as sp
from ampwright.engine.physics.alternating_use import allowed_states, convolved_shares, drawn_shifts, state_shares
from ampwright.engine.physics.protective_device import Device, band_of
from ampwright.engine.physics.trip_probability import drawn_trip_s
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse.linalg import expm_multiply

DURATIONS = st.floats(1.0, 5000.0)


@st.composite
def _loads(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray, np.ndarray, int]:
    count = draw(st.integers(1, 6))
    on = np.array(draw(st.lists(DURATIONS, min_size=count, max_size=count)))
    off = np.array(draw(st.lists(DURATIONS, min_size=count, max_size=count)))
    hands = np.array(draw(st.lists(st.booleans(), min_size=count, max_size=count)), np.bool_)
    return on, off, hands, draw(st.integers(0, 4))


def _balance(on: np.ndarray, off: np.ndarray, hands: np.ndarray, people: int) -> dict[int, float]:
    """Stationary shares from the generator matrix: no product form assumed."""
    states = [s for s in range(1 << len(on)) if sum(bool(hands[i]) for i in range(len(on)) if s >> i & 1) <= people]
    place = {state: n for n, state in enumerate(states)}
    rates = np.zeros((len(states), len(states)))
    for state, n in place.items():
        for i in range(len(on)):
            other = place.get(state ^ 1 << i)
            if other is not None:
                rate = 1.0 / on[i] if state >> i & 1 else 1.0 / off[i]
                rates[n, other] += rate
                rates[n, n] -= rate
    system = np.vstack([rates.T / np.abs(np.diag(rates)).max(initial=1e-300), np.ones(len(states))])
    share = np.linalg.lstsq(system, np.append(np.zeros(len(states)), 1.0), rcond=None)[0]
    return dict(zip(states, share.tolist(), strict=True))


@given(_loads())
@settings(max_examples=150, deadline=None)
def test_shares_solve_the_balance_equations(loads: tuple[np.ndarray, np.ndarray, np.ndarray, int]) -> None:
    on, off, hands, people = loads
    states = allowed_states(hands, people)
    share = state_shares(states, on, off)
    expected = _balance(on, off, hands, people)
    assert states.tolist() == sorted(expected)
    assert share == pytest.approx([expected[int(state)] for state in states], abs=1e-7)


@given(_loads(), st.lists(st.integers(0, 200), min_size=6, max_size=6), st.integers(0, 600))
@settings(max_examples=150, deadline=None)
def test_convolution_is_brute_force_over_every_set(
    loads: tuple[np.ndarray, np.ndarray, np.ndarray, int], tenths: list[int], limit: int
) -> None:
    on, off, hands, people = loads
    count = len(on)
    weight: dict[tuple[bool, ...], float] = {}
    for chosen in itertools.product((False, True), repeat=count):
        if sum(c and bool(h) for c, h in zip(chosen, hands, strict=True)) <= people:
            weight[chosen] = math.prod(on[i] / off[i] for i in range(count) if chosen[i])
    whole = sum(weight.values())
    over = sum(w for chosen, w in weight.items() if sum(t for t, c in zip(tenths, chosen, strict=False) if c) > limit)
    share = convolved_shares(np.array(tenths[:count]) / 10.0, on, off, hands, people, 0.1)
    assert float(share.sum()) == pytest.approx(1.0)
    assert float(share[limit + 1 :].sum()) == pytest.approx(over / whole, abs=1e-9)


def test_hands_alone_are_the_loss_system_of_erlang() -> None:
    """Many equal users of few hands: Engset shares, C(n,k) a^k over the sum to the number of hands."""
    count, people, on, off = 10, 3, 30.0, 90.0
    states = allowed_states(np.ones(count, np.bool_), people)
    share = state_shares(states, np.full(count, on), np.full(count, off))
    busy = np.array([int(state).bit_count() for state in states])
    whole = sum(math.comb(count, k) * (on / off) ** k for k in range(people + 1))
    for k in range(people + 1):
        expected = math.comb(count, k) * (on / off) ** k / whole
        assert float(share[busy == k].sum()) == pytest.approx(expected, rel=1e-12)


def test_independent_loads_are_binomial() -> None:
    share = convolved_shares(np.full(8, 5.0), np.full(8, 20.0), np.full(8, 60.0), np.zeros(8, np.bool_), 0, 5.0)
    assert share == pytest.approx([math.comb(8, k) * 0.25**k * 0.75 ** (8 - k) for k in range(9)], rel=1e-12)


def test_drawn_shifts_spend_their_time_as_the_shares_say() -> None:
    on, off = np.array([20.0, 45.0, 90.0, 30.0]), np.array([60.0, 45.0, 180.0, 100.0])
    hands = np.array([True, True, False, True])
    states = allowed_states(hands, 2)
    spent = np.zeros(16)
    shifts = drawn_shifts(on, off, hands, 2, 200_000.0, 60, 5, 60_000)
    for duration, state in shifts:
        assert float(duration.sum()) == pytest.approx(200_000.0)
        np.add.at(spent, state, duration)
    # 60 shifts of some 2,000 cycles each: a share is known to about its root over 350
    assert spent[states] / spent.sum() == pytest.approx(state_shares(states, on, off), abs=0.004)
    assert spent[[mask for mask in range(16) if mask not in states]].sum() == 0.0


def test_a_shift_does_not_depend_on_the_others_drawn_with_it() -> None:
    arguments = (np.array([20.0, 45.0]), np.array([60.0, 45.0]), np.array([True, True]), 1, 3600.0)
    many = drawn_shifts(*arguments, 5, 9, 500)
    few = drawn_shifts(*arguments, 3, 9, 500)
    for (duration, state), (duration_2, state_2) in zip(few, many, strict=False):
        assert duration.tolist() == duration_2.tolist()
        assert state.tolist() == state_2.tolist()


def test_trips_drawn_and_by_a_chain_of_states_and_heat_agree() -> None:
    """P(trip within the shift) of two tools on one breaker: Monte Carlo against a Markov chain built here.

    The chain carries (on-state, thermal image) on a grid of 600 cells, with heat moved by upwind differences of
    d(theta)/dt = (m^2 - theta)/tau, and opens at the level. Only one image decides: the latest edge of a 20 A breaker
    at 137 % of its rating is governed by one level, and the other is out of reach.
    """
    on, off = np.array([1500.0, 1200.0]), np.array([900.0, 800.0])
    amps = np.array([0.0, 14.0, 13.4, 27.4])
    lasts_s, rating = 8 * 3600.0, 20.0
    edge = band_of(Device("ul_489", rating)).latest
    images = ((edge.tau_slow_s, edge.level_slow_ratio), (edge.tau_fast_s, edge.level_fast_ratio))
    # at 27.4 A (m^2 = 1.877) the fast level of the band is never reached, so that the slow image decides alone
    assert images[1][1] > (27.4 / rating) ** 2 > images[0][1]
    tau, level = images[0]
    draws = 4000
    shifts = drawn_shifts(on, off, np.zeros(2, np.bool_), 0, lasts_s, draws, 3, 2000)
    histories = [(duration, amps[state]) for duration, state in shifts]
    times = drawn_trip_s([Device("ul_489", rating)] * draws, histories, [1.0] * draws)
    # the standard's own step (135 % for an hour) comes after the image: cold, 27.4 A opens it in 3,281 s
    drawn = float((times <= lasts_s).mean())

    cells = 600
    width = level / cells
    size = 4 * cells
    rows: list[int] = []
    columns: list[int] = []
    values: list[float] = []

    def flow(source: int, target: int | None, rate: float) -> None:
        rows.append(source)
        columns.append(source)
        values.append(-rate)
        if target is not None:  # None: opened, and out of the chain
            rows.append(target)
            columns.append(source)
            values.append(rate)

    for state in range(4):
        heat = (amps[state] / rating) ** 2
        for cell in range(cells):
            here = state * cells + cell
            edge_up, edge_down = (cell + 1) * width, cell * width
            up, down = (heat - edge_up) / tau / width, (edge_down - heat) / tau / width
            if up > 0.0:
                flow(here, None if cell == cells - 1 else here + 1, up)
            elif down > 0.0 and cell > 0:
                flow(here, here - 1, down)
            for tool in range(2):
                rate = 1.0 / on[tool] if state >> tool & 1 else 1.0 / off[tool]
                flow(here, (state ^ 1 << tool) * cells + cell, rate)
    chain = sp.csc_matrix((values, (rows, columns)), shape=(size, size))
    start = np.zeros(size)
    start[0] = 1.0
    held = float(expm_multiply(chain * lasts_s, start).sum())
    by_chain = 1.0 - held
    assert 0.05 < by_chain < 0.95, "a probability at an end would test nothing"
    # three standard errors of the draws, and the smearing of upwind differences on 600 cells
    assert drawn == pytest.approx(by_chain, abs=3.0 * math.sqrt(by_chain * (1 - by_chain) / draws) + 0.01)
