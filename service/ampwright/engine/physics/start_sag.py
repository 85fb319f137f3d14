"""What voltage does every other tool have, piece by piece, while one starts?

The history of a start gives its current; what the site loses per ampere of it gives the volts at each port, and where
the source limits or a set dips, all voltages sink with it. The kernel of the march tells the least of the source's
voltage and for how long it is below nine, eight, seven and five tenths; a source that limits lets it rise as the motor
gets going, so the pieces come in that order, each at its lower end.
Source: superposition; the angle of a start's current at standstill is an argument.
Not here: whom a sag upsets (voltage_upset.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import SEGMENT_DURATION_S, SEGMENT_LOAD_CURRENT_A, SEGMENTS
from ampwright.engine.physics.start_outcome import (
    RESULT_BELOW_4_S,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_LIMITED_S,
    RESULT_SEGMENTS,
)

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]
Index = NDArray[np.int64]

LEVELS = 4
PIECES = SEGMENTS + LEVELS
_LEVEL_ENDS = (0.5, 0.7, 0.8, 1.0)
_SAGS_BELOW_RATIO = 0.9


@kernel(
    "int64(float64[::1], float64[:, ::1], float64, float64[::1], float64[::1], float64[::1], float64[::1],"
    " float64[::1])"
)
def _course(
    result: Real, segment: Real, source_v: float, first_s: Real, seconds: Real, amps: Real, sinks: Real, edge: Real
) -> int:
    """Begin, length, current and the source's voltage over that without the start, of each piece; how many they are."""
    count = int(result[RESULT_SEGMENTS])
    least = min(result[RESULT_LEAST_VOLTAGE_V] / source_v, 1.0)
    edges = 1
    edge[0] = 0.0
    end = 0.0
    for k in range(count):
        end += segment[k, SEGMENT_DURATION_S]
        edge[edges] = end
        edges += 1
    change = np.empty(LEVELS)
    so_far = 0.0
    before = 0.0
    for k in range(LEVELS):
        below = result[RESULT_BELOW_4_S - k]
        so_far += max(below - before, 0.0)
        before = below
        change[k] = min(so_far, end)
        edge[edges] = change[k]
        edges += 1
    edge[:edges].sort()
    pieces = 0
    for k in range(edges - 1):
        if edge[k + 1] == edge[k]:
            continue
        first_s[pieces] = edge[k]
        seconds[pieces] = edge[k + 1] - edge[k]
        middle = edge[k] + 0.5 * seconds[pieces]
        at = 0
        ends = segment[0, SEGMENT_DURATION_S]
        while at < count - 1 and ends < middle:
            at += 1
            ends += segment[at, SEGMENT_DURATION_S]
        amps[pieces] = segment[at, SEGMENT_LOAD_CURRENT_A]
        if least >= _SAGS_BELOW_RATIO:
            sinks[pieces] = least if middle < result[RESULT_LIMITED_S] else 1.0
        else:
            level = 0
            while level < LEVELS and change[level] < middle:
                level += 1
            sinks[pieces] = least if level == 0 else max(_LEVEL_ENDS[level - 1], least)
        pieces += 1
    return pieces


@kernel(
    "void(float64[:, ::1], float64[:, :, ::1], float64[::1], complex128[::1], complex128[:, ::1],"
    " complex128[:, ::1], float64[::1], float64[:, ::1], float64[:, :, ::1], int64[::1], int64[::1], int64[::1],"
    " complex128[::1], float64, int64[::1], float64[:, ::1], float64[:, :, ::1], float64[:, ::1], float64[:, ::1],"
    " float64[:, ::1])"
)
def sag_courses(
    result: Real,
    segment: Real,
    source_v: Real,
    emf_v: Complex,
    open_v: Complex,
    lost_v: Complex,
    dip_ohm: Real,
    incidence: Real,
    wiring_ohm: Real,
    first_port: Index,
    estimate: Index,
    tool: Index,
    turn: Complex,
    recovers_s: float,
    pieces: Index,
    seconds: Real,
    volts: Real,
    lowest_v: Real,
    before_v: Real,
    wired_v: Real,
) -> None:
    """The voltage of every tool that has ports, in every piece of every start.

    Parameters
    ----------
    result, segment : (n, RESULT_COLUMNS), (n, SEGMENTS, SEGMENT_COLUMNS) of the march
    source_v : (n,) [V] electromotive force that the march met
    emf_v, open_v, lost_v : (n,), (n, port), (n, port) of start_terminals.py [V], [V], [V/A]
    dip_ohm : (n,) [ohm] reactance of a leg of the source until its regulator has answered, `recovers_s` [s]
    incidence : (port, 3) +1, -1 or 0 by leg
    wiring_ohm : (estimate, port, port) [ohm] magnitude of what ports have in common without the source
    first_port, estimate : (n,) of the start
    tool : (port,) whose it is, in ascending order; tools are numbered here by their first port
    turn : (n,) of the start's current against the electromotive force, of magnitude one; it lags with a negative sine
    pieces : (n,) out; 0 where nothing flowed
    seconds : (n, PIECES) out
    volts : (n, tool, PIECES) out [V] the lowest of a tool's ports
    lowest_v, before_v : (n, tool) out [V] over all pieces, and without the start
    wired_v : (n, tool) out [V] lost in wires that both share at the largest current

    Errors: none.
    Source: superposition.
    """
    first_s = np.empty(PIECES)
    amps = np.empty(PIECES)
    sinks = np.empty(PIECES)
    edge = np.empty(PIECES + 1)
    for n in range(result.shape[0]):
        count = 0
        if result[n, RESULT_SEGMENTS] > 0.0:
            count = _course(result[n], segment[n], source_v[n], first_s, seconds[n], amps, sinks, edge)
        pieces[n] = count
        if count == 0:
            continue
        largest = 0.0
        for k in range(count):
            largest = max(largest, amps[k])
        towards = emf_v[n] / abs(emf_v[n]) * turn[n]
        own = first_port[n]
        at = -1
        for p in range(tool.shape[0]):
            fresh = p == 0 or tool[p] != tool[p - 1]
            if fresh:
                at += 1
                lowest_v[n, at] = np.inf
                before_v[n, at] = np.inf
                wired_v[n, at] = 0.0
            # the start is one current through each of its own ports: what they have in common with other tools' legs
            common = 0.0
            for leg in range(incidence.shape[1]):
                common += incidence[p, leg] * incidence[own, leg]
            before_v[n, at] = min(before_v[n, at], abs(open_v[n, p]))
            wired_v[n, at] = max(wired_v[n, at], wiring_ohm[estimate[n], p, own] * largest)
            for k in range(count):
                lost = lost_v[n, p]
                if first_s[k] < recovers_s:
                    lost += complex(0.0, dip_ohm[n] * common)
                across = abs(sinks[k] * open_v[n, p] - amps[k] * towards * lost)
                if fresh or across < volts[n, at, k]:
                    volts[n, at, k] = across
        for each in range(at + 1):
            for k in range(count):
                lowest_v[n, each] = min(lowest_v[n, each], volts[n, each, k])
