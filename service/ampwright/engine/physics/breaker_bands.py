"""Which band does a breaker have: UL 489, IEC 60898-1, UL 1077?

Points that a standard gives are cited beside each; everything else is an assumption, numbered in
protective_device.py. Latest edges go exactly through the standard's points; earliest edges exist in IEC 60898-1 only.

Source: UL 489 calibration tests (135 % and 200 % of rating at 25 C), IEC 60898-1 table 7; UL 1077 leaves the curve to
the maker.
Not here: fuses (fuse_melting.py), ambient (trip_band.py), the play of a history (trip_time.py).
"""

from __future__ import annotations

from ampwright.engine.physics.trip_band import (
    Band,
    Edge,
    GuaranteedPoint,
    above,
    from_on,
    tau_through_hot_point_s,
    tau_through_s,
)

HOUR_S = 3600.0

# B-07, common practice, no source: makers' correction tables put the trip current 0.5 to 1 % of In lower per kelvin.
STRONG_RISE_K = 75.0
WEAK_RISE_K = 150.0

# (rating up to [A], 135 % trips within [s], 200 % trips within [s], status of the 200 % time)
# UL 489: 135 % and 200 % to 30 A from public texts; the other 200 % times and the 2 h above 50 A from memory.
UL_489_POINTS = (
    (30.0, HOUR_S, 120.0, "verified"),
    (50.0, HOUR_S, 240.0, "memory"),
    (100.0, 2.0 * HOUR_S, 360.0, "memory"),
    (150.0, 2.0 * HOUR_S, 480.0, "memory"),
    (225.0, 2.0 * HOUR_S, 600.0, "memory"),
)

# B-03: level of the fast image of the latest edge. 1.9 leaves 300 % under the field-test maximum of NEMA AB 4 (from
# memory: 50 s to 30 A, 80 s to 50 A, 140 s to 100 A); 31 to 50 A needs a steeper one for that.
_UL_489_LATEST_FAST_LEVEL = {30.0: 1.9, 50.0: 2.5, 100.0: 1.9, 150.0: 1.9, 225.0: 1.9}

# B-01, B-02: holds 100 % at calibration ambient for ever and nothing more is promised; 142 % for half a minute.
_UL_489_EARLIEST = Edge(
    tau_slow_s=600.0,
    level_slow_ratio=1.0,
    tau_fast_s=33.0,
    level_fast_ratio=1.2,
    instantaneous_multiple=above(6.0),
    instantaneous_s=0.005,
)

# (multiple above which it may, multiple from which it must open within 0.1 s). IEC 60898-1 table 7.
IEC_60898_INSTANTANEOUS = {"B": (3.0, 5.0), "C": (5.0, 10.0), "D": (10.0, 20.0)}


def ul_489_band(rating_a: float, compensated: bool = False) -> Band:
    """Thermal-magnetic moulded-case breaker.

    Parameters
    ----------
    rating_a : [A], to 225
    compensated : whether the device is ambient-compensated or hydraulic-magnetic

    Returns
    -------
    band : at 25 C

    Errors: ValueError above 225 A. Source: UL 489; assumptions B-01 to B-04, B-07.
    """
    size = next((points for points in UL_489_POINTS if rating_a <= points[0]), None)
    if size is None:
        raise ValueError(f"no UL 489 points are on file above {UL_489_POINTS[-1][0]:g} A")
    up_to_a, at_135_s, at_200_s, status = size
    slow_level = 1.6
    fast_level = _UL_489_LATEST_FAST_LEVEL[up_to_a]
    latest = Edge(
        tau_slow_s=tau_through_s(1.35, at_135_s, slow_level),
        level_slow_ratio=slow_level,
        tau_fast_s=tau_through_s(2.0, at_200_s, fast_level),
        level_fast_ratio=fast_level,
        instantaneous_multiple=from_on(20.0),
        instantaneous_s=0.1,
    )
    points = (
        GuaranteedPoint(1.35, at_135_s, "UL 489, 135 %", "verified" if up_to_a <= 50.0 else "memory"),
        GuaranteedPoint(2.0, at_200_s, "UL 489, 200 %", status),
    )
    return Band(
        earliest=_UL_489_EARLIEST,
        latest=latest,
        points=points,
        assumptions=("B-01", "B-02", "B-03", "B-04", "B-07", "B-09"),
        calibration_ambient_c=25.0,
        strong_rise_k=float("inf") if compensated else STRONG_RISE_K,
        weak_rise_k=float("inf") if compensated else WEAK_RISE_K,
    )


def iec_60898_band(rating_a: float, curve: str, compensated: bool = False) -> Band:
    """Household and similar circuit-breaker, type B, C or D.

    The 1.45 In test starts straight after an hour (two above 63 A) at 1.13 In, so from cold the standard promises
    1.45 In only after both times together.

    Parameters
    ----------
    rating_a : [A], to 125
    curve : "B", "C" or "D"
    compensated : whether the device is ambient-compensated

    Returns
    -------
    band : at 30 C

    Errors: ValueError above 125 A or for another curve. Source: IEC 60898-1 table 7; assumptions B-05, B-07.
    """
    if curve not in IEC_60898_INSTANTANEOUS:
        raise ValueError(f"IEC 60898-1 has the curves B, C and D, not {curve!r}")
    if rating_a > 125.0:
        raise ValueError("IEC 60898-1 ends at 125 A")
    may_multiple, must_multiple = IEC_60898_INSTANTANEOUS[curve]
    conventional_s = HOUR_S if rating_a <= 63.0 else 2.0 * HOUR_S
    at_255_s = 60.0 if rating_a <= 32.0 else 120.0
    early_fast_level = 1.45**2
    # More than 1 s at 2.55 In, and at least 0.1 s where the magnetic element must not act yet.
    early_fast_tau_s = max(
        tau_through_s(2.55, 1.0, early_fast_level), tau_through_s(may_multiple, 0.1, early_fast_level)
    )
    earliest = Edge(
        tau_slow_s=60.0,
        level_slow_ratio=1.13**2,
        tau_fast_s=early_fast_tau_s,
        level_fast_ratio=early_fast_level,
        instantaneous_multiple=above(may_multiple),
        instantaneous_s=0.005,
    )
    late_slow_level = 1.9
    late_fast_level = 2.5
    latest = Edge(
        tau_slow_s=tau_through_hot_point_s(1.13, conventional_s, 1.45, conventional_s, late_slow_level),
        level_slow_ratio=late_slow_level,
        tau_fast_s=tau_through_s(2.55, at_255_s, late_fast_level),
        level_fast_ratio=late_fast_level,
        instantaneous_multiple=from_on(must_multiple),
        instantaneous_s=0.1,
    )
    points = (
        GuaranteedPoint(1.45, conventional_s, "IEC 60898-1 table 7", "verified", 1.13, 2.0 * conventional_s),
        GuaranteedPoint(2.55, at_255_s, "IEC 60898-1 table 7", "verified"),
        GuaranteedPoint(must_multiple, 0.1, "IEC 60898-1 table 7", "verified"),
    )
    return Band(
        earliest=earliest,
        latest=latest,
        points=points,
        assumptions=("B-05", "B-07", "B-09"),
        calibration_ambient_c=30.0,
        strong_rise_k=float("inf") if compensated else STRONG_RISE_K,
        weak_rise_k=float("inf") if compensated else WEAK_RISE_K,
    )


IEC_60934_POINTS = (GuaranteedPoint(1.4, HOUR_S, "IEC 60934", "memory", 1.05, 2.0 * HOUR_S),)
"""Circuit-breakers for equipment: an hour at 1.4 In straight after an hour at 1.05 In, from memory."""


def supplementary_protector_band(points: tuple[GuaranteedPoint, ...] = (), compensated: bool = False) -> Band:
    """Supplementary protector (UL 1077, IEC 60934): the curve is the maker's, so the band is wide.

    Parameters
    ----------
    points : none for UL 1077, which leaves the trip to the maker; IEC_60934_POINTS
    compensated : whether the device is hydraulic-magnetic or otherwise ambient-compensated

    Returns
    -------
    band : at 25 C; wider than UL 489 at every multiple

    Errors: none. Source: assumption B-06; UL 1077: holds 100 % of rating, the maker specifies the trip.
    """
    earliest = Edge(
        tau_slow_s=600.0,
        level_slow_ratio=1.0,
        tau_fast_s=10.0,
        level_fast_ratio=1.2,
        instantaneous_multiple=above(3.0),
        instantaneous_s=0.005,
    )
    latest = Edge(
        tau_slow_s=tau_through_s(1.6, HOUR_S, 2.1),
        level_slow_ratio=2.1,
        tau_fast_s=tau_through_s(2.0, 300.0, 2.5),
        level_fast_ratio=2.5,
        instantaneous_multiple=from_on(40.0),
        instantaneous_s=0.1,
    )
    return Band(
        earliest=earliest,
        latest=latest,
        points=points,
        assumptions=("B-01", "B-06", "B-07", "B-09"),
        calibration_ambient_c=25.0,
        strong_rise_k=float("inf") if compensated else STRONG_RISE_K,
        weak_rise_k=float("inf") if compensated else WEAK_RISE_K,
    )
