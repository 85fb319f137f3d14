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

from ampwright.engine.calculations.network.load_network import REACTANCE_OHM_PER_M
from ampwright.engine.physics.conductor_impedance import COPPER_ALPHA20_PER_K
from ampwright.engine.physics.start_terminals import common_impedances, see_starts
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.source import NEUTRAL

Real = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]
Index = npt.NDArray[np.int64]
ESTIMATES = 3


@dataclass(frozen=True, slots=True)
class Ports:
    """All tools' terminals of a site; one row a port, `tool` says whose.

    impedance_ohm : (estimate, port, port) voltage lost at one per ampere of the other, source included.
    wiring_ohm : the same without the source, wiring_abs_ohm its magnitude. emf_v : (port,). incidence : (port, leg)
    +1, -1 or 0. circuit : of a port. first, count : (tool,) where a tool's ports begin and how many it has.
    """

    tool: Index
    circuit: Index
    emf_v: Complex
    incidence: Real
    impedance_ohm: Complex
    wiring_ohm: Complex
    wiring_abs_ohm: Real
    first: Index
    count: Index

    def of(self, tool: int) -> Index:
        return np.arange(self.first[tool], self.first[tool] + self.count[tool])


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
    first = np.zeros(len(site.placements), np.int64)
    own = np.zeros(len(site.placements), np.int64)
    for i, placement in enumerate(site.placements):
        first[i] = len(pairs)
        if placement.option is None:
            continue
        own[i] = len(placement.lines)
        tool += [i] * len(placement.lines)
        pairs += placement.lines
    count = len(pairs)
    legs = np.zeros(4, np.complex128)
    for leg, angle in enumerate(source.leg_angles_rad):
        legs[leg] = source.leg_voltage_v * complex(np.cos(angle), np.sin(angle))
    incidence = np.zeros((count, 4))
    for p, (one, other) in enumerate(pairs):
        incidence[p, one] += 1.0
        incidence[p, other] -= 1.0
    uses, part_ohm = _parts(site, tool)
    root = np.zeros((ESTIMATES, 4), np.complex128)
    resistance = source.resistance_ohm
    for estimate, ohm in enumerate((resistance.low, resistance.typical, resistance.high)):
        root[estimate, :NEUTRAL] = complex(ohm, source_reactance_ohm[estimate])
    wiring = np.empty((ESTIMATES, count, count), np.complex128)
    whole = np.empty_like(wiring)
    common_impedances(incidence, uses, part_ohm, root, whole, wiring)
    circuits = [source.receptacles[site.placements[i].receptacle].circuit for i in tool]
    return Ports(
        np.array(tool, np.int64), np.array(circuits, np.int64), incidence @ legs if count else np.zeros(0, complex),
        np.ascontiguousarray(incidence[:, :NEUTRAL]), whole, wiring, np.abs(wiring), first, own,
    )  # fmt: skip


def _parts(site: SettledSite, tool: list[int]) -> tuple[npt.NDArray[np.bool_], Complex]:
    """Which parts lie on the way to each port (circuits, cords, contacts), and one conductor of each, by estimate."""
    direct = site.source.source.supply.kind == "dc"
    circuits, cords = site.source.circuits, site.cords
    contact, ambient = site.contact_ohm, site.ambient_c
    contacts = np.array((contact.low, contact.typical, contact.high), np.complex128)
    warm = 1.0 + COPPER_ALPHA20_PER_K * (np.array((ambient.low, ambient.typical, ambient.high)) - 20.0)
    reactance = 0.0 if direct else REACTANCE_OHM_PER_M
    ohm = np.empty((ESTIMATES, len(circuits) + len(cords) + len(site.placements)), np.complex128)
    for c, circuit in enumerate(circuits):
        band = circuit.resistance_ohm
        ohm[:, c] = (0.5 * band.low, 0.5 * band.typical, 0.5 * band.high)
    for k, cord in enumerate(cords):
        length = np.array((cord.length_m.low, cord.length_m.typical, cord.length_m.high))
        ohm[:, len(circuits) + k] = length * (cord.resistance_20c_ohm_per_m * warm + 1j * reactance) + contacts
    tools = len(circuits) + len(cords)
    ohm[:, tools:] = contacts[:, None]
    uses = np.zeros((len(tool), ohm.shape[1]), np.bool_)
    for p, i in enumerate(tool):
        placement = site.placements[i]
        uses[p, site.source.receptacles[placement.receptacle].circuit] = True
        for k in placement.cords:
            uses[p, len(circuits) + k] = True
        uses[p, tools + i] = True
    return uses, ohm


def running_admittance(ports: Ports, power_va: Complex, volts: Real) -> Complex:
    """(..., port) admittance of each tool at its running point, from its power and voltage of (..., tool)."""
    share = np.maximum(ports.count, 1).astype(np.float64)[ports.tool]
    nominal = np.where(ports.count == 3, 3.0**0.5, 1.0)[ports.tool]
    across = volts[..., ports.tool] / nominal
    return np.where(
        across > 0.0, np.conj(power_va[..., ports.tool]) / share / np.maximum(across, 1.0) ** 2, 0.0 + 0.0j
    )  # fmt: skip


def seen(
    ports: Ports,
    circuits: int,
    starting: Index,
    estimate: Index,
    beside: Complex,
    *,
    with_source: bool | npt.NDArray[np.bool_],
) -> Seen:
    """The site at the terminals of one tool a row.

    starting : (n,) tool. estimate : (n,). beside : (n, port) admittances of what runs, 0 for what does not and for the
    starting tool. with_source : whether the source's own impedance is in, for all or (n,); an engine set's model brings
    its own.
    """
    rows, count = len(starting), len(ports.tool)
    sight = Seen(
        np.empty(rows, np.complex128), np.empty(rows, np.complex128), np.empty((rows, count), np.complex128),
        np.empty((rows, count), np.complex128), np.empty((rows, circuits, NEUTRAL), np.complex128),
        np.empty((rows, circuits, NEUTRAL), np.complex128), np.empty((rows, NEUTRAL), np.complex128),
    )  # fmt: skip
    whole = np.full(rows, with_source) if isinstance(with_source, bool) else with_source
    see_starts(
        ports.emf_v, ports.incidence, ports.circuit, ports.impedance_ohm, ports.wiring_ohm, ports.first[starting],
        ports.count[starting], estimate, whole, np.ascontiguousarray(beside), sight.emf_v, sight.ohm, sight.open_v,
        sight.lost_v, sight.before_a, sight.per_a, sight.forward,
    )  # fmt: skip
    return sight
