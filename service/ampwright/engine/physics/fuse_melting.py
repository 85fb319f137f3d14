"""When does a fuse melt, at the earliest and at the latest, and what pulse does it survive?

A fuse is two thermal images per edge without a magnetic element: the slow one holds the non-fusing current, the fast
one is adiabatic and gives the melting I^2 t of short pulses. The gates of the standard (a window of time at a given
current) bound both edges. A fuse keeps its memory like a breaker, but what has melted does not come back.

Source: BS 1362:1973 (3 A and 13 A gates, 1.6 In and 1.9 In for 30 min: public texts); IEC 60269-1 tables 2 and 3 for
gG (from memory). Assumption B-08 covers what lies between gates and other ratings.
Not here: the play of a history (trip_time.py), ambient (trip_band.py), inrush currents of loads (other modules).
"""

from __future__ import annotations

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.trip_band import Band, Edge, GuaranteedPoint, tau_through_s
from ampwright.engine.physics.trip_time import FloatArray

# B-08: fuses shift little with the air around them, and no standard says how much.
_STRONG_RISE_K = 250.0
_WEAK_RISE_K = 500.0

_HALF_HOUR_S = 1800.0
_HOUR_S = 3600.0

# rating [A]: ((current [A], not before [s]), ...), ((current [A], by [s]), ...). BS 1362:1973, read in a public text.
BS_1362_GATES = {
    3.0: (((9.0, 0.02),), ((9.0, 80.0), (20.0, 0.1), (30.0, 0.03))),
    13.0: (((30.0, 1.0), (50.0, 0.1), (100.0, 0.01)), ((30.0, 400.0), (50.0, 20.0), (100.0, 0.2))),
}

# rating [A]: not before 10 s, by 5 s, not before 0.1 s, by 0.1 s [A]. IEC 60269-1 table 3, gG, from memory.
IEC_60269_GG_GATES_A = {
    16.0: (33.0, 65.0, 85.0, 150.0),
    20.0: (42.0, 85.0, 110.0, 200.0),
    25.0: (52.0, 110.0, 150.0, 260.0),
    32.0: (75.0, 150.0, 200.0, 350.0),
    40.0: (95.0, 190.0, 260.0, 450.0),
    50.0: (125.0, 250.0, 350.0, 610.0),
    63.0: (160.0, 320.0, 450.0, 820.0),
}


def bs_1362_band(rating_a: float) -> Band:
    """Plug fuse of a BS 1363 plug.

    Parameters
    ----------
    rating_a : [A], to 13

    Returns
    -------
    band : 13 A and 3 A with the gates of the standard; other ratings as the 13 A fuse in multiples of their rating,
        with the 1.9 In point alone guaranteed

    Errors: ValueError above 13 A. Source: BS 1362; assumption B-08.
    """
    if rating_a > 13.0:
        raise ValueError("BS 1362 ends at 13 A")
    sure = [GuaranteedPoint(1.9, _HALF_HOUR_S, "BS 1362, 1.9 In", "verified")]
    sure += [
        GuaranteedPoint(current_a / rating_a, by_s, "BS 1362, time/current zone", "verified")
        for current_a, by_s in BS_1362_GATES.get(rating_a, ((), ()))[1]
    ]
    if rating_a == 3.0:
        earliest = Edge(tau_through_s(30.0 / 13.0, 1.0, 1.6**2), 1.6**2, tau_through_s(3.0, 0.02, 7.0), 7.0)
        # The slow image goes through 1.9 In at half an hour, the fast one through 9 A at 80 s.
        latest = Edge(tau_through_s(1.9, _HALF_HOUR_S, 3.58), 3.58, tau_through_s(3.0, 80.0, 8.0), 8.0)
    else:
        # Slow images: 1 s (400 s) at 30 A. Fast images: 0.1 s at 50 A and 0.01 s at 100 A (20 s at 50 A); a level
        # close under (50/13)^2 = 14.8 is what lets one image meet both.
        early_fast_level = 13.7
        earliest = Edge(
            tau_through_s(30.0 / 13.0, 1.0, 1.6**2),
            1.6**2,
            max(tau_through_s(50.0 / 13.0, 0.1, early_fast_level), tau_through_s(100.0 / 13.0, 0.01, early_fast_level)),
            early_fast_level,
        )
        late_slow_level = 3.587
        latest = Edge(
            min(
                tau_through_s(30.0 / 13.0, 400.0, late_slow_level),
                tau_through_s(1.9, _HALF_HOUR_S, late_slow_level),
            ),
            late_slow_level,
            tau_through_s(50.0 / 13.0, 20.0, 14.0),
            14.0,
        )
    return Band(
        earliest=earliest,
        latest=latest,
        points=tuple(sure),
        assumptions=("B-08", "B-09"),
        calibration_ambient_c=20.0,
        strong_rise_k=_STRONG_RISE_K,
        weak_rise_k=_WEAK_RISE_K,
    )


def iec_60269_gg_band(rating_a: float) -> Band:
    """General-purpose fuse-link gG.

    Parameters
    ----------
    rating_a : [A], one of 16, 20, 25, 32, 40, 50, 63

    Returns
    -------
    band : at 20 C

    Errors: ValueError for another rating. Source: IEC 60269-1 tables 2 and 3, from memory; assumption B-08.
    """
    if rating_a not in IEC_60269_GG_GATES_A:
        listed = ", ".join(f"{rating:g}" for rating in sorted(IEC_60269_GG_GATES_A))
        raise ValueError(f"gG gates are on file for {listed} A, not {rating_a:g} A")
    not_before_10_a, by_5_a, not_before_tenth_a, by_tenth_a = IEC_60269_GG_GATES_A[rating_a]
    holds = 1.25**2
    early_fast_level = (not_before_10_a / rating_a) ** 2
    earliest = Edge(
        tau_through_s(not_before_10_a / rating_a, 10.0, holds),
        holds,
        tau_through_s(not_before_tenth_a / rating_a, 0.1, early_fast_level),
        early_fast_level,
    )
    late_fast_level = 0.8 * (by_5_a / rating_a) ** 2
    latest = Edge(
        tau_through_s(1.6, _HOUR_S, 2.4), 2.4, tau_through_s(by_5_a / rating_a, 5.0, late_fast_level), late_fast_level
    )
    points = (
        GuaranteedPoint(1.6, _HOUR_S, "IEC 60269-1 table 2", "memory"),
        GuaranteedPoint(by_5_a / rating_a, 5.0, "IEC 60269-1 table 3", "memory"),
        GuaranteedPoint(by_tenth_a / rating_a, 0.1, "IEC 60269-1 table 3", "memory"),
    )
    return Band(
        earliest=earliest,
        latest=latest,
        points=points,
        assumptions=("B-08", "B-09"),
        calibration_ambient_c=20.0,
        strong_rise_k=_STRONG_RISE_K,
        weak_rise_k=_WEAK_RISE_K,
    )


@kernel("float64(float64[::1], float64)")
def melting_i2t_a2s(edge: FloatArray, rating_a: float) -> float:
    """I^2 t that melts an edge when the pulse is too short to lose heat: the limit of its images at great current.

    Parameters
    ----------
    edge : (6,) [s and ratios], see trip_time.py
    rating_a : [A]

    Returns
    -------
    i2t_a2s : [A^2 s]; a pulse below the earliest edge's value, from cold, melts nothing

    Errors: none. Source: t = tau * log1p(level / (m^2 - level)) tends to tau * level / m^2.
    """
    melts_at: float = min(edge[0] * edge[1], edge[2] * edge[3]) * rating_a * rating_a
    return melts_at


@kernel("float64(float64[::1], float64[::1])")
def pulse_i2t_a2s(duration_s: FloatArray, current_a: FloatArray) -> float:
    """I^2 t of a pulse that is constant over each step.

    Parameters
    ----------
    duration_s : (m,) [s]
    current_a : (m,) [A], effective value over the step

    Returns
    -------
    i2t_a2s : [A^2 s]

    Errors: none. Source: definition.
    """
    total = 0.0
    for i in range(duration_s.shape[0]):
        total += duration_s[i] * current_a[i] * current_a[i]
    return total
