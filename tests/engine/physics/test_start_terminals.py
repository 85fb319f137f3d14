"""Is a site at the terminals of a starting tool what the whole network says?

Outside the project: Ohm's and Kirchhoff's laws, and LAPACK's dense solver through NumPy for the same equations.
"""

from __future__ import annotations

import numpy as np
from ampwright.engine.physics.start_terminals import common_impedances, see_starts

PORTS, CIRCUITS = 6, 3


def _site(rng: np.random.Generator) -> tuple[np.ndarray, ...]:
    circuit = np.array([0, 0, 1, 1, 2, 2])
    incidence = np.zeros((PORTS, 4))
    # two legs in opposition; the last two ports are line to line
    for p, (first, second) in enumerate([(0, 3), (0, 3), (1, 3), (1, 3), (0, 1), (0, 1)]):
        incidence[p, first], incidence[p, second] = 1.0, -1.0
    uses = np.zeros((PORTS, CIRCUITS + PORTS), np.bool_)
    for p in range(PORTS):
        uses[p, circuit[p]] = uses[p, CIRCUITS + p] = True
    parts = rng.uniform(0.01, 0.3, (3, CIRCUITS + PORTS)) + 1j * rng.uniform(0.0, 0.1, (3, CIRCUITS + PORTS))
    root = np.zeros((3, 4), np.complex128)
    root[:, :3] = rng.uniform(0.02, 0.2, (3, 1))
    return circuit, incidence, uses, parts, root


def test_a_start_sees_what_kirchhoffs_laws_give() -> None:
    rng = np.random.default_rng(3)
    circuit, incidence, uses, parts, root = _site(rng)
    whole, wiring = np.empty((3, PORTS, PORTS), np.complex128), np.empty((3, PORTS, PORTS), np.complex128)
    common_impedances(incidence, uses, parts, root, whole, wiring)
    # ports 0 and 1 share a circuit, out and back; ports 0 and 2 share no wire but the neutral has none in the source
    assert np.allclose(wiring[1, 0, 1], 2.0 * parts[1, 0])
    assert wiring[1, 0, 2] == whole[1, 0, 2] == 0.0
    assert np.allclose(whole[1, 0, 4], root[1, 0])

    emf = incidence @ np.array([120.0, -120.0, 0.0, 0.0], np.complex128)
    cases = [(p, e, bool(source)) for p in range(PORTS) for e in range(3) for source in (0, 1)]
    beside = rng.uniform(0.0, 0.1, (len(cases), PORTS)) - 1j * rng.uniform(0.0, 0.05, (len(cases), PORTS))
    for n, (p, _, _) in enumerate(cases):
        beside[n, p] = 0.0
    first = np.array([p for p, _, _ in cases])
    out = _outputs(len(cases))
    see_starts(
        emf, np.ascontiguousarray(incidence[:, :3]), circuit, whole, wiring, first, np.ones(len(cases), np.int64),
        np.array([e for _, e, _ in cases]), np.array([source for _, _, source in cases]), beside, *out,
    )  # fmt: skip
    emf_v, ohm, open_v, lost_v, before_a, per_a, forward = out
    for n, (p, e, source) in enumerate(cases):
        z = whole[e] if source else wiring[e]
        # v = emf - z i, i = beside v + drawn
        for drawn, expected in ((0.0, open_v[n]), (1.0, open_v[n] - lost_v[n])):
            into = np.zeros(PORTS, np.complex128)
            into[p] = drawn
            volts = np.linalg.solve(np.eye(PORTS) + z @ np.diag(beside[n]), emf - z @ into)
            assert np.allclose(volts, expected, rtol=1e-12)
            amps = beside[n] * volts + into
            legs = np.zeros((CIRCUITS, 3), np.complex128)
            for q in range(PORTS):
                legs[circuit[q]] += amps[q] * incidence[q, :3]
            assert np.allclose(legs, before_a[n] + drawn * per_a[n], rtol=1e-11)
        assert emf_v[n] == open_v[n, p]
        assert ohm[n] == lost_v[n, p]
        assert np.allclose(forward[n], incidence[p, :3])


def test_a_row_gives_the_same_bits_whatever_stands_beside_it() -> None:
    rng = np.random.default_rng(4)
    circuit, incidence, uses, parts, root = _site(rng)
    whole, wiring = np.empty((3, PORTS, PORTS), np.complex128), np.empty((3, PORTS, PORTS), np.complex128)
    common_impedances(incidence, uses, parts, root, whole, wiring)
    emf = incidence @ np.array([120.0, -120.0, 0.0, 0.0], np.complex128)
    beside = rng.uniform(0.0, 0.1, (PORTS, PORTS)) + 0j
    np.fill_diagonal(beside, 0.0)

    def run(chosen: list[int]) -> list[bytes]:
        out = _outputs(len(chosen))
        see_starts(
            emf, np.ascontiguousarray(incidence[:, :3]), circuit, whole, wiring, np.array(chosen),
            np.ones(len(chosen), np.int64), np.ones(len(chosen), np.int64), np.ones(len(chosen), np.bool_),
            beside[chosen], *out,
        )  # fmt: skip
        return [b"".join(np.ascontiguousarray(part[n]).tobytes() for part in out) for n in range(len(chosen))]

    together = run(list(range(PORTS)))
    assert [run([p])[0] for p in range(PORTS)] == together


def _outputs(rows: int) -> tuple[np.ndarray, ...]:
    shapes = ((rows,), (rows,), (rows, PORTS), (rows, PORTS), (rows, CIRCUITS, 3), (rows, CIRCUITS, 3), (rows, 3))
    return tuple(np.empty(shape, np.complex128) for shape in shapes)
