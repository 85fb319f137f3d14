"""How hot does the winding of a motor get that stands still under voltage, once or try after try?

A motor at standstill turns all it takes into heat, most of it in its copper. Within the first minutes the winding is
one body that warms by a rate times the square of its current and cools towards its iron with one time constant; the
iron stays where it was. Under a repeated on and off that is a geometric series, so the peak after n tries is exact.

    rise after n tries = rate tau (1 - exp(-on/tau)) (1 - q^n) / (1 - q),   q = exp(-(on + off)/tau)

Assumptions, easy, typical, hard (common practice, no source):
W-01  rate at full locked-rotor current: 3, 6, 10 K/s. Copper at 5 A/mm2 in work and six times that at standstill
      warms by 5.5 K/s (resistivity 2.1e-8 ohm m when hot, heat capacity 3.45 MJ/(m3 K)).
W-02  time constant of winding to iron: 60, 120, 300 s.
W-03  winding at the moment of the trip, hot from work: 80, 100, 120 C.
W-04  limit: 200 C, what a built-in protector may let a class B winding reach at standstill (IEC 60034-11, from memory).
W-05  at 300 C the insulation is gone, and what comes after is not calculated.

Source: first-order heat balance of a body; assumptions above.
Not here: when a motor stands still (the start kernels), what the source does (power_return.py).
"""

from __future__ import annotations

import math

LOCKED_RISE_K_PER_S = (3.0, 6.0, 10.0)
WINDING_TIME_S = (60.0, 120.0, 300.0)
HOT_FROM_WORK_C = (80.0, 100.0, 120.0)
WINDING_LIMIT_C = 200.0
WINDING_GONE_C = 300.0


def winding_rise_k(
    rate_k_per_s: float, current_ratio: float, time_constant_s: float, on_s: float, off_s: float, tries: float
) -> float:
    """Peak rise of a winding over its start, after a number of tries at standstill.

    Parameters
    ----------
    rate_k_per_s : [K/s] at full locked-rotor current
    current_ratio : [-] current over that current
    time_constant_s : [s] > 0, of winding to iron
    on_s : [s] of each try, +inf: it stays under voltage
    off_s : [s] of each pause
    tries : [-] how many, +inf: without an end

    Returns
    -------
    rise_k : [K] at the end of the last try

    Errors: ValueError for a time constant that is not positive or a negative time.
    Source: first-order heat balance, geometric series (see module).
    """
    if not time_constant_s > 0.0 or not on_s >= 0.0 or not off_s >= 0.0 or not tries >= 0.0:
        raise ValueError("a time constant is > 0 s, times and tries are >= 0")
    full_k = rate_k_per_s * current_ratio * current_ratio * time_constant_s
    if on_s == 0.0 or tries == 0.0:
        return 0.0
    if on_s == math.inf:
        return full_k
    one = -math.expm1(-on_s / time_constant_s)
    period = (on_s + off_s) / time_constant_s
    gone = -math.expm1(-period * tries) if tries < math.inf else 1.0
    return full_k * one * gone / -math.expm1(-period)
