"""Which source does a start meet behind each limit that covers it?

A limit counts a share of the start's current, what runs beside on the legs that the start touches, and what flows on
others. Seen from the start it is a source of its own: amounts less what flows elsewhere, over the share. One row a
limit and a response that is to be played; where no limit covers a start, one stiff row.
Source: arithmetic of phasors; the columns of source_limit_state.py.
Not here: which limits there are and what is assumed of them.
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.source_limit_state import (
    SOURCE_CONTINUOUS_A,
    SOURCE_CORD_REACTANCE_OHM,
    SOURCE_CORD_RESISTANCE_OHM,
    SOURCE_CREST_A,
    SOURCE_EMF_V,
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_RESPONSE,
    SOURCE_TIER_1_A,
    STIFF,
    TIERS,
)

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]
Index = NDArray[np.int64]
Truth = NDArray[np.bool_]

NO_CURRENT_A = 1e-6
LEGS = 3


@kernel(
    "Tuple((complex128, complex128, float64))(complex128[:, ::1], complex128[:, ::1], complex128[::1],"
    " boolean[::1], boolean[::1], boolean)"
)
def counted_at_limit(
    before_a: Complex, per_a: Complex, forward: Complex, circuits: Truth, legs: Truth, per_leg: bool
) -> tuple[complex, complex, float]:
    """What a limit counts of one start.

    Parameters
    ----------
    before_a, per_a : (circuit, leg) [A], [A/A] of start_terminals.py
    forward : (leg,)
    circuits, legs : which ones the limit covers
    per_leg : whether it counts each leg for itself, else the sum over its legs

    Returns
    -------
    before_a : [A] counted without the start, in its direction
    share : [A/A] counted per ampere of it
    elsewhere_a : [A] on legs that the start does not touch

    Errors: none.
    Source: definition of a limit over circuits and legs.
    """
    before = np.zeros(LEGS, np.complex128)
    per = np.zeros(LEGS, np.complex128)
    for c in range(circuits.shape[0]):
        if circuits[c]:
            for leg in range(LEGS):
                before[leg] += before_a[c, leg]
                per[leg] += per_a[c, leg]
    elsewhere = 0.0
    if per_leg:
        best = -1
        for leg in range(LEGS):
            if legs[leg] and forward[leg] != 0.0 and (best < 0 or abs(before[leg]) > abs(before[best])):
                best = leg
        return before[best] * forward[best], per[best] * forward[best], elsewhere
    counted = 0.0 + 0.0j
    share = 0.0 + 0.0j
    for leg in range(LEGS):
        if not legs[leg]:
            continue
        if forward[leg] != 0.0:
            counted += before[leg] * forward[leg]
            share += per[leg] * forward[leg]
        else:
            elsewhere += abs(before[leg])
    return counted, share, elsewhere


@kernel(
    "int64(complex128[::1], complex128[::1], complex128[:, :, ::1], complex128[:, :, ::1], complex128[:, ::1],"
    " int64[::1], int64[::1], boolean[::1], boolean[:, ::1], boolean[:, ::1], boolean[::1], float64[::1],"
    " float64[::1], float64[:, :, :, ::1], int64[:, :, ::1], float64[:, ::1], int64[::1], int64[::1])"
)
def limited_sources(
    emf_v: Complex,
    ohm: Complex,
    before_a: Complex,
    per_a: Complex,
    forward: Complex,
    circuit: Index,
    estimate: Index,
    left_out: Truth,
    limit_circuits: Truth,
    limit_legs: Truth,
    limit_per_leg: Truth,
    limit_continuous_a: Real,
    limit_crest_a: Real,
    limit_tiers: Real,
    limit_responses: Index,
    source: Real,
    start: Index,
    limit: Index,
) -> int:
    """Rows of the march for every start, its limits in order and the responses of each in order.

    Parameters
    ----------
    emf_v, ohm, before_a, per_a, forward : of n starts, start_terminals.py
    circuit, estimate : (n,) of the starting tool
    left_out : (n,) starts that get no row
    limit_circuits, limit_legs : (limit, circuit), (limit, leg) what each covers
    limit_per_leg, limit_continuous_a, limit_crest_a : (limit,); a crest of 0 is none
    limit_tiers : (limit, estimate, TIERS, 2) [A, s], 0 A for no such tier
    limit_responses : (limit, estimate, response) codes of source_limit_state.py, -1 for none
    source : (rows, SOURCE_COLUMNS) out, with room for n x max(1, limits x responses)
    start, limit : (rows,) out, whose row it is and behind which limit, -1 behind none

    Returns
    -------
    rows : how many were written

    Errors: none.
    Source: module docstring.
    """
    rows = 0
    for n in range(emf_v.shape[0]):
        if left_out[n]:
            continue
        before_any = rows
        for k in range(limit_circuits.shape[0]):
            covered = False
            touched = 0
            for leg in range(LEGS):
                if forward[n, leg] != 0.0:
                    touched += 1
                    covered = covered or limit_legs[k, leg]
            if not (covered and limit_circuits[k, circuit[n]]):
                continue
            counted, share, elsewhere = counted_at_limit(
                before_a[n], per_a[n], forward[n], limit_circuits[k], limit_legs[k], limit_per_leg[k]
            )
            beside = counted / (share * emf_v[n])
            scale = 1.0 / abs(share)
            for response in limit_responses[k, estimate[n]]:
                if response < 0:
                    continue
                row = source[rows]
                row[:] = 0.0
                row[SOURCE_EMF_V] = abs(emf_v[n])
                row[SOURCE_CORD_RESISTANCE_OHM] = ohm[n].real
                row[SOURCE_CORD_REACTANCE_OHM] = ohm[n].imag
                row[SOURCE_RESPONSE] = response
                row[SOURCE_OTHER_CONDUCTANCE_S] = beside.real
                row[SOURCE_OTHER_SUSCEPTANCE_S] = beside.imag
                row[SOURCE_CONTINUOUS_A] = max((limit_continuous_a[k] - elsewhere) * scale, NO_CURRENT_A)
                for tier in range(TIERS):
                    amps = limit_tiers[k, estimate[n], tier, 0]
                    if amps > 0.0:
                        row[SOURCE_TIER_1_A + 2 * tier] = max((amps - elsewhere) * scale, (2 + tier) * NO_CURRENT_A)
                        row[SOURCE_TIER_1_A + 2 * tier + 1] = limit_tiers[k, estimate[n], tier, 1]
                if limit_crest_a[k] > 0.0:
                    # a crest is of one leg; a sum over the legs that the start touches is as many times that
                    row[SOURCE_CREST_A] = limit_crest_a[k] * (1 if limit_per_leg[k] else touched) * scale
                start[rows] = n
                limit[rows] = k
                rows += 1
        if rows == before_any:
            row = source[rows]
            row[:] = 0.0
            row[SOURCE_EMF_V] = abs(emf_v[n])
            row[SOURCE_RESPONSE] = STIFF
            row[SOURCE_CORD_RESISTANCE_OHM] = ohm[n].real
            row[SOURCE_CORD_REACTANCE_OHM] = ohm[n].imag
            start[rows] = n
            limit[rows] = -1
            rows += 1
    return rows
