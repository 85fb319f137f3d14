"""What does a tool that starts see of the source, wires and other tools, and what do the others see of it?

Everything but the starting tool is linear: other tools are admittances at their running point. So the site becomes,
exactly, a voltage behind an impedance at the tool's terminals, a share of its current at each limit and device, and a
voltage lost at each other tool per ampere of the start. A limit lowers the source's voltage as a whole, which scales
all of these alike. Copper is at ambient temperature: a start is short, and cold copper lets more through.
A tool is one port (line to neutral or line to line); three phases are one port in a balanced star.
Source: Thevenin's theorem, superposition.
Not here: the march of the start (start_runs.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.load_network import COPPER_ALPHA20_PER_K, REACTANCE_OHM_PER_M
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.source import NEUTRAL

Real = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]
ESTIMATES = 3


@dataclass(frozen=True, slots=True)
class Ports:
    """All tools' terminals of a site; one row a port, `tool` says whose.

    impedance_ohm : (estimate, port, port) voltage lost at one per ampere of the other, source included.
    wiring_ohm : the same without the source. emf_v : (port,). incidence : (port, leg) +1, -1 or 0. circuit : of a port.
    """

    tool: npt.NDArray[np.int64]
    circuit: npt.NDArray[np.int64]
    emf_v: Complex
    incidence: Real
    impedance_ohm: Complex
    wiring_ohm: Complex

    def of(self, tool: int) -> npt.NDArray[np.int64]:
        return np.flatnonzero(self.tool == tool)


@dataclass(frozen=True, slots=True)
class Seen:
    """Starts in their sites, one row each (n); all phasors of a row share one reference.

    emf_v, ohm : (n,) voltage without the start and impedance behind it, at its terminals. open_v : (n, port) volts
    without it, lost_v : (n, port) volts lost per ampere of it. before_a, per_a : (n, circuit, leg) current of each
    circuit without it, and what an ampere of it adds there. forward : (n, leg) turns each leg's current into the
    direction of the start, 0 for legs that it does not touch.
    """

    emf_v: Complex
    ohm: Complex
    open_v: Complex
    lost_v: Complex
    before_a: Complex
    per_a: Complex
    forward: Complex


def ports_of(site: SettledSite, source_reactance_ohm: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Ports:
    """Every pair of conductors that a tool taps, and what the wires between them have in common.

    source_reactance_ohm : [ohm] of each leg of the source, by estimate.
    """
    source = site.source
    tool: list[int] = []
    pairs: list[tuple[int, int]] = []
    for i, placement in enumerate(site.placements):
        if placement.option is None:
            continue
        for pair in placement.lines:
            tool.append(i)
            pairs.append(pair)
    count = len(pairs)
    legs = np.zeros(4, np.complex128)
    for leg, angle in enumerate(source.leg_angles_rad):
        legs[leg] = source.leg_voltage_v * complex(np.cos(angle), np.sin(angle))
    incidence = np.zeros((count, 4))
    for p, (first, second) in enumerate(pairs):
        incidence[p, first] += 1.0
        incidence[p, second] -= 1.0
    branches = _branches(site)
    which = {i: {key for key, _ in branches[i]} for i in set(tool)}
    ohm = {key: value for i in set(tool) for key, value in branches[i]}
    wiring = np.zeros((ESTIMATES, count, count), np.complex128)
    whole = np.zeros_like(wiring)
    root = np.zeros((ESTIMATES, 4), np.complex128)
    for estimate in range(ESTIMATES):
        root[estimate, :NEUTRAL] = complex(source.resistance_ohm.at(estimate), source_reactance_ohm[estimate])
    for a in range(count):
        for b in range(count):
            # the conductors that both use, with the sign of the direction each drives them in
            overlap = incidence[a] * incidence[b]
            shared = which[tool[a]] & which[tool[b]]
            total = np.zeros(ESTIMATES, np.complex128)
            for key in sorted(shared):
                total += ohm[key]
            wiring[:, a, b] = overlap.sum() * total
            whole[:, a, b] = wiring[:, a, b] + (root * overlap).sum(axis=1)
    circuits = [source.receptacles[site.placements[i].receptacle].circuit for i in tool]
    return Ports(
        np.array(tool, np.int64), np.array(circuits, np.int64), incidence @ legs if count else np.zeros(0, complex),
        incidence[:, :NEUTRAL], whole, wiring,
    )  # fmt: skip


def _branches(site: SettledSite) -> list[list[tuple[tuple[str, int], Complex]]]:
    """Per placement the parts of its way and the impedance of one conductor of each, by estimate."""
    direct = site.source.source.supply.kind == "dc"
    contact = np.array([site.contact_ohm.at(e) for e in range(ESTIMATES)], np.complex128)
    cords: list[Complex] = []
    for cord in site.cords:
        length = np.array([cord.length_m.at(e) for e in range(ESTIMATES)])
        warm = 1.0 + COPPER_ALPHA20_PER_K * (np.array([site.ambient_c.at(e) for e in range(ESTIMATES)]) - 20.0)
        reactance = 0.0 if direct else REACTANCE_OHM_PER_M
        cords.append(length * (cord.resistance_20c_ohm_per_m * warm + 1j * reactance) + contact)
    found: list[list[tuple[tuple[str, int], Complex]]] = []
    for i, placement in enumerate(site.placements):
        c = site.source.receptacles[placement.receptacle].circuit
        half = np.array([0.5 * site.source.circuits[c].resistance_ohm.at(e) for e in range(ESTIMATES)], np.complex128)
        way: list[tuple[tuple[str, int], Complex]] = [(("circuit", c), half)]
        way += [(("cord", k), cords[k]) for k in placement.cords]
        way.append((("tool", i), contact))
        found.append(way)
    return found


def running_admittance(site: SettledSite, ports: Ports, power_va: Complex, volts: Real) -> Complex:
    """(estimate, port) admittance of each tool at its running point, from its power and voltage of (estimate, tool)."""
    share = np.ones(len(ports.tool))
    nominal = np.ones(len(ports.tool))
    for i in range(len(site.placements)):
        own = ports.of(i)
        share[own] = max(1, len(own))
        nominal[own] = 3.0**0.5 if len(own) == 3 else 1.0
    across = volts[:, ports.tool] / nominal
    return np.where(
        across > 0.0, np.conj(power_va[:, ports.tool]) / share / np.maximum(across, 1.0) ** 2, 0.0 + 0.0j
    )  # fmt: skip


def seen(
    ports: Ports,
    circuits: int,
    starting: npt.NDArray[np.int64],
    estimate: npt.NDArray[np.int64],
    beside: Complex,
    *,
    with_source: bool,
) -> Seen:
    """The site at the terminals of one tool a row.

    starting : (n,) tool. estimate : (n,). beside : (n, port) admittances of what runs, 0 for what does not and for the
    starting tool. with_source : whether the source's own impedance is in; an engine set's model brings its own.
    """
    count = len(ports.tool)
    direction = np.zeros((len(starting), count), np.complex128)
    first = np.zeros(len(starting), np.int64)
    for tool in sorted(set(starting.tolist())):
        own = ports.of(tool)
        rows = np.flatnonzero(starting == tool)
        first[rows] = own[0]
        # a balanced three-phase start: each phase's current is the first's, turned as its voltage is
        direction[np.ix_(rows, own)] = ports.emf_v[own] / ports.emf_v[own[0]]
    ohm = (ports.impedance_ohm if with_source else ports.wiring_ohm)[estimate]
    into = np.einsum("npk,nk->np", ohm, direction)
    system = np.eye(count)[None] + beside[:, :, None] * ohm
    wanted = np.stack([beside * ports.emf_v[None], beside * into], axis=2)
    answer = np.linalg.solve(system, wanted)
    beside_a, lost_a = answer[:, :, 0], answer[:, :, 1]
    open_v = ports.emf_v[None] - np.einsum("npk,nk->np", ohm, beside_a)
    lost_v = into - np.einsum("npk,nk->np", ohm, lost_a)
    here = np.arange(len(starting))
    added = direction - lost_a
    before = np.zeros((len(starting), circuits, NEUTRAL), np.complex128)
    per = np.zeros_like(before)
    for p in range(count):
        before[:, ports.circuit[p]] += beside_a[:, p, None] * ports.incidence[p]
        per[:, ports.circuit[p]] += added[:, p, None] * ports.incidence[p]
    touched = np.einsum("np,pl->nl", direction, ports.incidence.astype(np.complex128))
    return Seen(open_v[here, first], lost_v[here, first], open_v, lost_v, before, per, np.conj(touched))
