"""Which loads are on when, and for how long, if each is switched on and off by chance and hands are few?

Each load alternates: on for an exponential time of mean `on_s`, off for one of mean `off_s`. A load that takes hands
is not switched on while all hands are busy; its wish is lost, and the next comes after another off time. Such a process
is reversible, and cutting forbidden states out of a reversible process leaves the shares of the others in proportion:
the share of a state goes as the product of on/off over the loads that are on (F. P. Kelly, Reversibility and
Stochastic Networks, 1979, cor. 1.10; the same rule as the blocking formula of Erlang). So rates are exact, and chance
is only needed where memory matters, as in the heat of a breaker.

Not here: what a state draws (calculations/together.py), whether a device opens (trip_time.py).
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.counter_random import uniform_rows

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


def allowed_states(takes_hands: BoolArray, hands: int) -> IntArray:
    """Every set of loads that the hands allow, as bit masks, ascending.

    Parameters
    ----------
    takes_hands : (n,) whether a load takes a pair of hands; n <= 20
    hands : how many pairs there are

    Returns
    -------
    states : (k,) bit i is load i

    Errors: ValueError above 20 loads: a million states. Source: definition.
    """
    count = takes_hands.shape[0]
    if count > 20:
        raise ValueError(f"{count} loads have more states than are listed")
    states = np.arange(1 << count, dtype=np.int64)
    busy = np.zeros(states.shape[0], np.int64)
    for load in range(count):
        if takes_hands[load]:
            busy += (states >> load) & 1
    return states[busy <= hands]


def state_shares(states: IntArray, on_s: FloatArray, off_s: FloatArray) -> FloatArray:
    """Share of time that is spent in each allowed state.

    Parameters
    ----------
    states : (k,) bit masks, as allowed_states gives them
    on_s, off_s : (n,) [s] mean times, > 0

    Returns
    -------
    share_ratio : (k,) [ratio], sums to 1

    Errors: none. Source: Kelly 1979, truncation of a reversible process.
    """
    weight = np.zeros(states.shape[0])
    for load in range(on_s.shape[0]):
        weight += np.where((states >> load) & 1, math.log(on_s[load] / off_s[load]), 0.0)
    share: FloatArray = np.exp(weight - weight.max())
    share /= float(share.sum())
    return share


def convolved_shares(
    amount: FloatArray, on_s: FloatArray, off_s: FloatArray, takes_hands: BoolArray, hands: int, step: float
) -> FloatArray:
    """Share of time that the sum of independent amounts falls in each step of a grid, under the same rule.

    Parameters
    ----------
    amount : (n,) what each load adds, >= 0, any unit
    on_s, off_s : (n,) [s] mean times, > 0
    takes_hands, hands : as allowed_states
    step : width of the grid, > 0, in the unit of `amount`; each amount is rounded to it

    Returns
    -------
    share_ratio : (m,) [ratio]; entry k is the share at a sum of k steps

    Errors: none. Source: convolution of the loads' generating polynomials, restricted to allowed hands.
    """
    steps = np.rint(amount / step).astype(np.int64)
    free = min(hands, int(takes_hands.sum()))
    weight = np.zeros((free + 1, int(steps.sum()) + 1))
    weight[0, 0] = 1.0
    for load in range(amount.shape[0]):
        # a common factor for on and off keeps the numbers in range
        on = on_s[load] / (on_s[load] + off_s[load])
        moved = np.zeros_like(weight)
        shift = int(steps[load])
        source = weight[:, : weight.shape[1] - shift]
        if takes_hands[load]:
            if free > 0:
                moved[1:, shift:] = source[:-1]
        else:
            moved[:, shift:] = source
        weight = weight * (1.0 - on) + moved * on
    share: FloatArray = weight.sum(axis=0)
    share /= float(share.sum())
    return share


@kernel("int64(float64[:, ::1], float64[::1], float64[::1], boolean[::1], int64, float64, float64[::1], int64[::1])")
def draw_shift(
    unit: FloatArray,
    on_s: FloatArray,
    off_s: FloatArray,
    takes_hands: BoolArray,
    hands: int,
    lasts_s: float,
    duration_s: FloatArray,
    state: IntArray,
) -> int:
    """One shift drawn event by event, from everything off.

    Parameters
    ----------
    unit : (m, 2) uniform numbers in (0, 1): when the next switch turns, and which
    on_s, off_s : (n,) [s] mean times, > 0
    takes_hands : (n,)
    hands : pairs of hands
    lasts_s : [s]
    duration_s : (m,) out [s], how long each state stays
    state : (m,) out, bit masks

    Returns
    -------
    steps : how many entries were written; m where the numbers ran out before the end of the shift, whose last state
        then stays to the end

    Errors: none. Source: D. T. Gillespie, J. Phys. Chem. 81 (1977) 2340, direct method.
    """
    count = on_s.shape[0]
    now = 0.0
    mask = 0
    busy = 0
    for event in range(unit.shape[0]):
        rate = 0.0
        for load in range(count):
            rate += 1.0 / on_s[load] if (mask >> load) & 1 else 1.0 / off_s[load]
        wait = -math.log(unit[event, 0]) / rate
        state[event] = mask
        if now + wait >= lasts_s or event == unit.shape[0] - 1:
            duration_s[event] = lasts_s - now
            return event + 1
        duration_s[event] = wait
        now += wait
        pick = unit[event, 1] * rate
        chosen = count - 1
        for load in range(count):
            pick -= 1.0 / on_s[load] if (mask >> load) & 1 else 1.0 / off_s[load]
            if pick <= 0.0:
                chosen = load
                break
        if (mask >> chosen) & 1:
            mask ^= 1 << chosen
            if takes_hands[chosen]:
                busy -= 1
        elif not takes_hands[chosen]:
            mask |= 1 << chosen
        elif busy < hands:
            mask |= 1 << chosen
            busy += 1
    return int(unit.shape[0])


def drawn_shifts(
    on_s: FloatArray,
    off_s: FloatArray,
    takes_hands: BoolArray,
    hands: int,
    lasts_s: float,
    draws: int,
    seed: int,
    most_events: int,
) -> list[tuple[FloatArray, IntArray]]:
    """Many shifts, each a pure function of seed and its number.

    Parameters
    ----------
    as draw_shift; draws : how many; seed : below 2^63; most_events : switchings drawn of one shift at most

    Returns
    -------
    shifts : (durations [s], bit masks) each

    Errors: none. Source: counter_random.py.
    """
    found = []
    unit = np.empty((most_events, 2))
    for number in range(draws):
        # one stream a shift: its rows are its events
        uniform_rows(np.uint64(seed), np.uint64(number + 1), np.uint64(0), unit)
        duration_s = np.empty(most_events)
        state = np.empty(most_events, np.int64)
        steps = draw_shift(unit, on_s, off_s, takes_hands, hands, lasts_s, duration_s, state)
        found.append((duration_s[:steps].copy(), state[:steps].copy()))
    return found
