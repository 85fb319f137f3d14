"""What flows where when a settled site runs a set of tools?

Turns rows (who runs, who is pushed) into one batch of networks, low, typical and high of each, solves them with the
copper at the temperature its current gives it, and gathers the figures that people read. One site or a million rows
go through the same batch.

Source: engine/physics/network_flow, cord_heating; the sum of crest currents of different loads is arithmetic, because
all draw their peak near the crest of the voltage (safe side).
Not here: what to make of the figures (capacity_rules.py, safety_rules.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.network.cord_heat import after_push_c, steady_c
from ampwright.engine.calculations.pooled import Steps, alone
from ampwright.engine.physics.conductor_impedance import COPPER_ALPHA20_PER_K
from ampwright.engine.physics.network_flow import COLLAPSED, SOLVED, NetworkBatch, NetworkResult
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.source import NEUTRAL

ESTIMATES = 3
LOW_VOLTAGE_SWITCH_RATIO = 0.5
REACTANCE_OHM_PER_M = 0.1e-3  # flexible cord, one conductor; handbook value, from memory
HEAT_PASSES = 3

Real = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class Row:
    """One set of load states: `running` are placement indices, `pushed` is in heavy, all others are working.

    `base` is the row of the same case with nobody pushed; a short push starts from its copper temperature.
    """

    case: int
    running: tuple[int, ...]
    pushed: int | None
    base: int


@dataclass(frozen=True, slots=True)
class RowFigures:
    """Figures with axes (row, estimate, item), rounded to the resolution of their unit."""

    outcome: npt.NDArray[np.int8]  # (row, estimate), of network_flow
    tool_v: Real
    tool_a: Real
    tool_w: Real
    circuit_a: Real  # largest leg
    circuit_neutral_a: Real  # third harmonics included
    receptacle_a: Real
    receptacle_v: Real
    cord_a: Real  # largest conductor
    cord_drop_v: Real
    cord_c: Real  # steady, or at the end of a short push
    leg_a: Real
    leg_v: Real
    limit_va: Real
    limit_w: Real
    limit_a: Real
    limit_peak_a: Real


@dataclass(frozen=True, slots=True)
class _Nodes:
    """Index of each item's node; nodes are in the order root, circuits, receptacles, cords, tools."""

    circuits: int
    receptacles: int
    cords: int
    tools: int
    total: int


def solve_rows(site: SettledSite, rows: Sequence[Row], broken_neutral: int | None = None) -> RowFigures:
    """Figures of every row. Rows of one site share their nodes; loads and copper temperature differ.

    broken_neutral : index of a circuit whose neutral is taken as broken behind its device.
    """
    return alone(rows_solved(site, rows, broken_neutral))


def rows_solved(site: SettledSite, rows: Sequence[Row], broken_neutral: int | None = None) -> Steps[RowFigures]:
    """`solve_rows`, asking for its networks."""
    nodes = _nodes(site)
    parent = _parents(site, nodes)
    lines, powers, shares, crest = _loads(site)
    load_start, load_node, load_from, load_to, which, nominal = _load_index(site, rows, nodes, lines)
    count = len(rows) * ESTIMATES
    emf = np.zeros((count, 3), np.complex128)
    for leg, angle in enumerate(site.source.leg_angles_rad):
        emf[:, leg] = site.source.leg_voltage_v * np.exp(1j * angle)
    impedance = np.broadcast_to(_fixed_impedance(site, nodes)[None], (len(rows), ESTIMATES, nodes.total, 4)).copy()
    copper_c = np.empty((len(rows), ESTIMATES, len(site.cords)))
    copper_c[:] = np.array([site.ambient_c.low, site.ambient_c.typical, site.ambient_c.high])[None, :, None]
    bases = np.array([row.base for row in rows], np.int64)
    node_start = np.arange(count + 1, dtype=np.int64) * nodes.total
    if broken_neutral is not None:
        # a constant current has no answer where the voltage itself is divided: what is left of a tool is an impedance
        shares = np.stack([np.zeros(len(shares)), np.ones(len(shares))], axis=1)
    power_flat = powers[which]
    neutral_open = np.zeros((count, nodes.total), np.bool_)
    if broken_neutral is not None:
        neutral_open[:, nodes.circuits + broken_neutral] = True
    outcome = np.full(count, SOLVED, np.int8)
    for turn in range(HEAT_PASSES):
        _set_cord_impedance(site, nodes, impedance, copper_c)
        result: NetworkResult = yield NetworkBatch(
            node_start,
            np.tile(parent, count),
            np.ascontiguousarray(impedance.reshape(-1, 4)),
            neutral_open.reshape(-1),
            emf,
            load_start,
            load_node,
            load_from,
            load_to,
            power_flat,
            nominal,
            shares[which, 0],
            shares[which, 1],
            np.full(power_flat.shape, LOW_VOLTAGE_SWITCH_RATIO),
        )
        # a row that collapsed with cooler copper does not come back when the collapse itself cools the copper
        outcome = np.where(outcome == SOLVED, result.outcome, outcome).astype(np.int8)
        # below its switch a load that is no plain impedance does no work, whatever current could still flow
        dead = (np.abs(result.load_v) < LOW_VOLTAGE_SWITCH_RATIO * nominal) & (shares[which, 1] < 1.0)
        outcome[np.repeat(np.arange(count), np.diff(load_start))[dead]] = COLLAPSED
        branch = result.branch_current_a.reshape(len(rows), ESTIMATES, nodes.total, 4)
        cord_a = np.abs(branch[:, :, nodes.cords : nodes.tools, :]).max(axis=3) if site.cords else copper_c
        if not site.cords:
            break
        steady = steady_c(site.cords, site.ambient_c, cord_a)
        copper_c = steady[bases] if turn < HEAT_PASSES - 1 else _pushed_c(site, rows, cord_a, steady)
    node_v = result.node_v.reshape(len(rows), ESTIMATES, nodes.total, 4)
    return _gather(site, rows, nodes, node_v, branch, copper_c, outcome, lines, crest)


def _nodes(site: SettledSite) -> _Nodes:
    circuits = 1
    receptacles = circuits + len(site.source.circuits)
    cords = receptacles + len(site.source.receptacles)
    tools = cords + len(site.cords)
    return _Nodes(circuits, receptacles, cords, tools, tools + len(site.placements))


def _parents(site: SettledSite, nodes: _Nodes) -> npt.NDArray[np.int64]:
    """Parents before children: cords are ordered by depth where one hangs on another."""
    parent = [-1]
    parent += [0] * len(site.source.circuits)
    parent += [nodes.circuits + item.circuit for item in site.source.receptacles]
    for kind, up in site.cord_parents:
        parent.append(nodes.cords + up if kind == "cord" else nodes.receptacles + up)
    for placement in site.placements:
        parent.append(
            nodes.cords + placement.cords[-1] if placement.cords else nodes.receptacles + placement.receptacle
        )
    return np.array(parent, np.int64)


def _fixed_impedance(site: SettledSite, nodes: _Nodes) -> Complex:
    """(estimate, node, conductor): source, circuits and contacts; cords are set by temperature."""
    found = np.zeros((ESTIMATES, nodes.total, 4), np.complex128)
    for estimate in range(ESTIMATES):
        contact = site.contact_ohm.at(estimate)
        found[estimate, 0, :3] = site.source.resistance_ohm.at(estimate)
        for i, circuit in enumerate(site.source.circuits):
            found[estimate, nodes.circuits + i, :] = 0.5 * circuit.resistance_ohm.at(estimate)
        found[estimate, nodes.tools :, :] = contact
    return found


def _set_cord_impedance(site: SettledSite, nodes: _Nodes, impedance: Complex, copper_c: Real) -> None:
    for i, cord in enumerate(site.cords):
        for estimate in range(ESTIMATES):
            length = cord.length_m.at(estimate)
            hot = 1.0 + COPPER_ALPHA20_PER_K * (copper_c[:, estimate, i] - 20.0)
            ohm = length * cord.resistance_20c_ohm_per_m * hot + site.contact_ohm.at(estimate)
            reactance = 0.0 if site.source.source.supply.kind == "dc" else length * REACTANCE_OHM_PER_M
            impedance[:, estimate, nodes.cords + i, :] = (ohm + 1j * reactance)[:, None]


def _loads(
    site: SettledSite,
) -> tuple[list[tuple[tuple[int, int], ...]], Complex, Real, npt.NDArray[np.float64]]:
    """Per placement and state (working, heavy) and estimate: power, shares; flat index (placement, state, estimate)."""
    lines = [placement.lines if placement.option is not None else () for placement in site.placements]
    powers = np.zeros((len(site.placements), 2, ESTIMATES), np.complex128)
    shares = np.zeros((len(site.placements), 2, ESTIMATES, 2))
    crest = np.ones((len(site.placements), 2))
    for i, placement in enumerate(site.placements):
        for j, name in enumerate(("working", "heavy")):
            state = placement.state(name)
            crest[i, j] = state.crest_factor
            shares[i, j, :, 0] = state.constant_current_ratio
            shares[i, j, :, 1] = state.constant_impedance_ratio
            for estimate in range(ESTIMATES):
                powers[i, j, estimate] = state.power_va[estimate] / max(1, len(lines[i]))
    return lines, powers.reshape(-1), shares.reshape(-1, 2), crest


def _load_index(
    site: SettledSite, rows: Sequence[Row], nodes: _Nodes, lines: list[tuple[tuple[int, int], ...]]
) -> tuple[
    npt.NDArray[np.int64],
    npt.NDArray[np.int64],
    npt.NDArray[np.int64],
    npt.NDArray[np.int64],
    npt.NDArray[np.int64],
    Real,
]:
    start, node, start_line, end_line, which = [0], [], [], [], []
    nominal: list[float] = []
    for row in rows:
        for estimate in range(ESTIMATES):
            for i in row.running:
                heavy = 1 if i == row.pushed else 0
                for first, second in lines[i]:
                    node.append(nodes.tools + i)
                    start_line.append(first)
                    end_line.append(second)
                    which.append((i * 2 + heavy) * ESTIMATES + estimate)
                    nominal.append(_nominal_v(site.placements[i], lines[i]))
            start.append(len(node))
    ints = [np.array(item, np.int64) for item in (start, node, start_line, end_line, which)]
    return ints[0], ints[1], ints[2], ints[3], ints[4], np.array(nominal, np.float64)


def _nominal_v(placement: Placement, lines: tuple[tuple[int, int], ...]) -> float:
    """[V] across one element: a three-phase load is three equal elements in star."""
    return placement.plate_voltage_v / 3.0**0.5 if len(lines) == 3 else placement.plate_voltage_v


def _pushed_c(site: SettledSite, rows: Sequence[Row], cord_a: Real, steady: Real) -> Real:
    """Steady temperature, or for a row with a push the temperature when the push ends."""
    found = steady.copy()
    for r, row in enumerate(rows):
        if row.pushed is not None:
            lasts_s = site.placements[row.pushed].state("heavy").lasts_s
            found[r] = after_push_c(site.cords, site.ambient_c, steady[row.base], cord_a[r], lasts_s)
    return found


def _gather(
    site: SettledSite,
    rows: Sequence[Row],
    nodes: _Nodes,
    node_v: Complex,
    branch: Complex,
    copper_c: Real,
    outcome: npt.NDArray[np.int8],
    lines: list[tuple[tuple[int, int], ...]],
    crest: Real,
) -> RowFigures:
    shape = (len(rows), ESTIMATES)
    tool_v, tool_a, tool_w = (np.zeros((*shape, len(site.placements))) for _ in range(3))
    peak = np.zeros((*shape, len(site.placements), 3))
    runs = np.zeros((len(rows), len(site.placements)), np.bool_)
    heavy = np.zeros((len(rows), len(site.placements)), np.int64)
    for r, row in enumerate(rows):
        runs[r, list(row.running)] = True
        if row.pushed is not None:
            heavy[r, row.pushed] = 1
    for i, pairs in enumerate(lines):
        if not pairs:
            continue
        volts = node_v[:, :, nodes.tools + i, :]
        amps = branch[:, :, nodes.tools + i, :]
        across = np.stack([volts[:, :, a] - volts[:, :, b] for a, b in pairs], axis=2)
        scale = 3.0**0.5 if len(pairs) == 3 else 1.0
        tool_v[:, :, i] = np.abs(across).min(axis=2) * scale
        through = np.stack([amps[:, :, a] for a, _ in pairs], axis=2)
        tool_a[:, :, i] = np.abs(through).max(axis=2)
        tool_w[:, :, i] = np.real(across * np.conj(through)).sum(axis=2)
        factor = crest[i][heavy[:, i]][:, None]
        for leg in range(3):
            if any(leg in pair for pair in pairs):
                peak[:, :, i, leg] = np.abs(amps[:, :, leg]) * factor
    tool_v = np.where(runs[:, None, :], tool_v, 0.0)
    circuits = branch[:, :, nodes.circuits : nodes.receptacles, :]
    receptacles = branch[:, :, nodes.receptacles : nodes.cords, :]
    cords = branch[:, :, nodes.cords : nodes.tools, :]
    root = branch[:, :, 0, :]
    terminal = node_v[:, :, 0, :]
    neutral = _neutral_a(site, nodes, branch, heavy)
    with_neutral = np.concatenate([np.abs(cords[..., :3]), neutral[..., len(site.source.circuits) :, None]], axis=-1)
    limits = [
        _limit_figures(site, limit_index, circuits, terminal, peak) for limit_index in range(len(site.source.limits))
    ]
    stacked = [
        np.stack([item[part] for item in limits], axis=2) if limits else np.zeros((*shape, 0)) for part in range(4)
    ]
    legs = len(site.source.leg_angles_rad)
    return RowFigures(
        outcome.reshape(shape),
        _milli(tool_v),
        _milli(tool_a),
        _tenth(tool_w),
        _milli(_largest(np.abs(circuits[..., :3]))),
        _milli(neutral[..., : len(site.source.circuits)]),
        _milli(_largest(np.abs(receptacles[..., :3]))),
        _milli(_receptacle_v(site, nodes, node_v)),
        _milli(_largest(with_neutral)),
        _milli(_cord_drop_v(site, nodes, node_v, lines)),
        np.round(copper_c, 1),
        _milli(np.abs(root[..., :legs])),
        _milli(np.abs(terminal[..., :legs] - terminal[..., 3:4])),
        _tenth(stacked[0]),
        _tenth(stacked[1]),
        _milli(stacked[2]),
        _milli(stacked[3]),
    )


def _largest(amps: Real) -> Real:
    return amps.max(axis=-1) if amps.shape[2] else amps.reshape(*amps.shape[:2], 0)


def _neutral_a(site: SettledSite, nodes: _Nodes, branch: Complex, heavy: npt.NDArray[np.int64]) -> Real:
    """[A] RMS in the neutral of every circuit, then of every cord: fundamental and third harmonic.

    Fundamentals add as the network says; third harmonics turn three times as fast, so that those of three legs at 120
    degrees are in phase and add, and those of two opposite legs cancel as the fundamentals do.
    """
    found: Real = np.abs(np.concatenate([branch[:, :, nodes.circuits : nodes.receptacles, 3],
                                   branch[:, :, nodes.cords : nodes.tools, 3]], axis=2))  # fmt: skip
    ratios = np.array(
        [[one.state(name).third_harmonic_ratio for name in ("working", "heavy")] for one in site.placements]
    ).reshape(len(site.placements), 2)
    if not ratios.any():
        return found
    angles = np.array(site.source.leg_angles_rad)
    fundamental, third = (np.zeros(found.shape, np.complex128) for _ in range(2))
    for i, placement in enumerate(site.placements):
        if placement.option is None or len(placement.lines) != 1 or placement.lines[0][1] != NEUTRAL:
            continue
        amps = branch[:, :, nodes.tools + i, 3]
        ratio = ratios[i][heavy[:, i]][:, None]
        at = [site.source.receptacles[placement.receptacle].circuit]
        at += [len(site.source.circuits) + cord for cord in placement.cords]
        turned = np.exp(3j * angles[placement.lines[0][0]])
        for item in at:
            fundamental[:, :, item] += amps * np.sqrt(1.0 - ratio * ratio)
            third[:, :, item] += np.abs(amps) * ratio * turned
    both = np.sqrt(np.abs(fundamental) ** 2 + np.abs(third) ** 2)
    # where nothing has harmonics the network's own sum stands, bit for bit
    whole: Real = np.where(np.abs(third) > 0.0, both, found)
    return whole


def _limit_figures(
    site: SettledSite, index: int, circuits: Complex, terminal: Complex, peak: Real
) -> tuple[Real, Real, Real, Real]:
    """VA, W, A and crest A of one limit. VA is the sum over legs, as an output rating is read."""
    limit = site.source.limits[index]
    legs = list(limit.legs)
    amps = circuits[:, :, list(limit.circuits), :].sum(axis=2)
    volts = terminal[:, :, :3] - terminal[:, :, 3:4]
    power = volts[..., legs] * np.conj(amps[..., legs])
    behind = [
        i
        for i, placement in enumerate(site.placements)
        if site.source.receptacles[placement.receptacle].circuit in limit.circuits
    ]
    crest = peak[:, :, behind, :][..., legs].sum(axis=2).max(axis=-1) if behind else np.zeros(amps.shape[:2])
    return (
        np.abs(power.sum(axis=-1)) if len(legs) < 2 else np.abs(power).sum(axis=-1),
        np.real(power).sum(axis=-1),
        np.abs(amps[..., legs]).max(axis=-1),
        crest,
    )


def _receptacle_v(site: SettledSite, nodes: _Nodes, node_v: Complex) -> Real:
    found = np.zeros((*node_v.shape[:2], len(site.source.receptacles)))
    for i, receptacle in enumerate(site.source.receptacles):
        legs = site.source.circuits[receptacle.circuit].legs
        volts = node_v[:, :, nodes.receptacles + i, :]
        to_neutral = receptacle.connection == "L-N" or len(legs) < 2
        found[:, :, i] = np.abs(volts[..., legs[0]] - volts[..., 3 if to_neutral else legs[1]])
    return found


def _cord_drop_v(site: SettledSite, nodes: _Nodes, node_v: Complex, lines: list[tuple[tuple[int, int], ...]]) -> Real:
    """[V] lost along each cord by the pair of conductors that loses most, among the pairs its tools use."""
    found = np.zeros((*node_v.shape[:2], len(site.cords)))
    for i, (kind, up) in enumerate(site.cord_parents):
        before = node_v[:, :, (nodes.cords if kind == "cord" else nodes.receptacles) + up, :]
        after = node_v[:, :, nodes.cords + i, :]
        pairs = {pair for p, placement in enumerate(site.placements) if i in placement.cords for pair in lines[p]}
        for first, second in sorted(pairs):
            lost = np.abs(before[..., first] - before[..., second]) - np.abs(after[..., first] - after[..., second])
            found[:, :, i] = np.maximum(found[:, :, i], lost)
    return found


def _milli(values: Real) -> Real:
    return np.round(values, 3) + 0.0  # no negative zero


def _tenth(values: Real) -> Real:
    return np.round(values, 1) + 0.0
