"""What does a tool that starts see of its site, and what does every other tool see of the start?

A site is a set of ports (pairs of conductors that tools tap) with the impedances that their ways have in common. What
runs beside is an admittance at its port; all is linear, so each start is one voltage behind one impedance, with a share
of its current in every circuit and a voltage lost at every port per ampere.
A tool is one port (line to neutral or line to line); three phases are one port each, in a balanced star.
Source: Thevenin's theorem, superposition; Gaussian elimination with the largest pivot.
Not here: limits (start_source.py), the march of a start, sags (start_sag.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]
Index = NDArray[np.int64]

LEGS = 3


@kernel(
    "void(float64[:, ::1], boolean[:, ::1], complex128[:, ::1], complex128[:, ::1],"
    " complex128[:, :, ::1], complex128[:, :, ::1])"
)
def common_impedances(
    incidence: Real, uses: NDArray[np.bool_], part_ohm: Complex, root_ohm: Complex, whole: Complex, wiring: Complex
) -> None:
    """Voltage that every port loses per ampere of every other.

    Parameters
    ----------
    incidence : (port, 4) +1, -1 or 0: which conductor carries a port's current out, and which back
    uses : (port, part) whether a part (circuit, cord, contact) lies on the way to a port
    part_ohm : (estimate, part) [ohm] of one conductor of a part
    root_ohm : (estimate, 4) [ohm] of each conductor of the source
    whole, wiring : (estimate, port, port) [ohm] out; with the source and without it

    Errors: none.
    Source: superposition: two ports have in common the conductors that both use, with the sign of either's direction.
    """
    for e in range(whole.shape[0]):
        for a in range(whole.shape[1]):
            for b in range(whole.shape[1]):
                both = 0.0
                source = 0.0 + 0.0j
                for conductor in range(4):
                    overlap = incidence[a, conductor] * incidence[b, conductor]
                    both += overlap
                    source += root_ohm[e, conductor] * overlap
                total = 0.0 + 0.0j
                for part in range(uses.shape[1]):
                    if uses[a, part] and uses[b, part]:
                        total += part_ohm[e, part]
                wiring[e, a, b] = both * total
                whole[e, a, b] = wiring[e, a, b] + source


@kernel("void(complex128[:, ::1], complex128[:, ::1])")
def _solve(system: Complex, wanted: Complex) -> None:
    """Solve in place: `system` (p, p) is used up, `wanted` (p, k) becomes the answer."""
    count = system.shape[0]
    for at in range(count):
        best = at
        largest = abs(system[at, at])
        for row in range(at + 1, count):
            if system[row, at] != 0.0 and abs(system[row, at]) > largest:
                largest = abs(system[row, at])
                best = row
        if best != at:
            for column in range(at, count):
                kept = system[at, column]
                system[at, column] = system[best, column]
                system[best, column] = kept
            for column in range(wanted.shape[1]):
                kept = wanted[at, column]
                wanted[at, column] = wanted[best, column]
                wanted[best, column] = kept
        for row in range(at + 1, count):
            if system[row, at] == 0.0:
                continue
            factor = system[row, at] / system[at, at]
            for column in range(at + 1, count):
                system[row, column] -= factor * system[at, column]
            for column in range(wanted.shape[1]):
                wanted[row, column] -= factor * wanted[at, column]
    for at in range(count - 1, -1, -1):
        for column in range(wanted.shape[1]):
            total = wanted[at, column]
            for other in range(at + 1, count):
                total -= system[at, other] * wanted[other, column]
            wanted[at, column] = total / system[at, at]


@kernel(
    "void(complex128[::1], float64[:, ::1], int64[::1], complex128[:, :, ::1], complex128[:, :, ::1],"
    " int64[::1], int64[::1], int64[::1], boolean[::1], complex128[:, ::1],"
    " complex128[::1], complex128[::1], complex128[:, ::1], complex128[:, ::1], complex128[:, :, ::1],"
    " complex128[:, :, ::1], complex128[:, ::1])"
)
def see_starts(
    port_emf_v: Complex,
    incidence: Real,
    circuit: Index,
    whole: Complex,
    wiring: Complex,
    first_port: Index,
    ports: Index,
    estimate: Index,
    with_source: NDArray[np.bool_],
    beside_s: Complex,
    emf_v: Complex,
    ohm: Complex,
    open_v: Complex,
    lost_v: Complex,
    before_a: Complex,
    per_a: Complex,
    forward: Complex,
) -> None:
    """The site at the terminals of one starting tool a row; all phasors of a row share one reference.

    Parameters
    ----------
    port_emf_v : (port,) [V] of the source across each port
    incidence : (port, 3) +1, -1 or 0 by leg
    circuit : (port,) index
    whole, wiring : (estimate, port, port) [ohm], common_impedances
    first_port, ports, estimate : (n,) where the starting tool's ports begin, how many they are, which estimate
    with_source : (n,) whether the source's own impedance is in; an engine set's model brings its own
    beside_s : (n, port) [S] of what runs, 0 for what does not and for the starting tool
    emf_v, ohm : (n,) out [V], [ohm] voltage without the start and the impedance behind it, at its terminals
    open_v, lost_v : (n, port) out [V] without the start, [V/A] lost per ampere of it
    before_a, per_a : (n, circuit, leg) out [A] without the start, [A/A] what an ampere of it adds
    forward : (n, leg) out, turns each leg's current into the direction of the start; 0 for legs it does not touch

    Errors: none; NaN in, NaN out.
    Source: Thevenin's theorem, superposition.
    """
    count = port_emf_v.shape[0]
    system = np.empty((count, count), np.complex128)
    wanted = np.empty((count, 2), np.complex128)
    direction = np.empty(count, np.complex128)
    into = np.empty(count, np.complex128)
    for n in range(first_port.shape[0]):
        first = first_port[n]
        between = whole[estimate[n]] if with_source[n] else wiring[estimate[n]]
        direction[:] = 0.0
        for p in range(first, first + ports[n]):
            # a balanced three-phase start: each phase's current is the first's, turned as its voltage is
            direction[p] = port_emf_v[p] / port_emf_v[first]
        for p in range(count):
            total = 0.0 + 0.0j
            for k in range(first, first + ports[n]):
                total += between[p, k] * direction[k]
            into[p] = total
            for k in range(count):
                system[p, k] = beside_s[n, p] * between[p, k]
            system[p, p] += 1.0
            wanted[p, 0] = beside_s[n, p] * port_emf_v[p]
            wanted[p, 1] = beside_s[n, p] * total
        _solve(system, wanted)
        before_a[n] = 0.0
        per_a[n] = 0.0
        forward[n] = 0.0
        for p in range(count):
            opened = port_emf_v[p]
            lost = into[p]
            for k in range(count):
                opened -= between[p, k] * wanted[k, 0]
                lost -= between[p, k] * wanted[k, 1]
            open_v[n, p] = opened
            lost_v[n, p] = lost
            for leg in range(LEGS):
                before_a[n, circuit[p], leg] += wanted[p, 0] * incidence[p, leg]
                per_a[n, circuit[p], leg] += (direction[p] - wanted[p, 1]) * incidence[p, leg]
                forward[n, leg] += direction[p] * incidence[p, leg]
        for leg in range(LEGS):
            forward[n, leg] = forward[n, leg].conjugate()
        emf_v[n] = open_v[n, first]
        ohm[n] = lost_v[n, first]
