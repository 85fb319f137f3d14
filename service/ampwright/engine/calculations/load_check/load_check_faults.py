"""What does a dead short at the far end of each cord run draw from this source, and what ends it?

The judgement is that of the cord sizing (cord_sizing_fault.py), on the cords as they lie and as warm as they get while
the tools work. Beside it stand the figures a person can follow: the current at the far end with hot copper, the band
in which the circuit's device opens under it, how long the weakest cord bears it, and how warm its copper gets where the
device opens fast enough for the heat to stay in it (5 s).

Source: engine/physics/fault_loop, protective_device, cord_short_overload (IEC 60364-4-43 cl. 434.5.2, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing.cord_sizing_fault import (
    bears_s,
    clearing_line,
    device_before,
    fault_loop,
)
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import Run
from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.network.plain_figures import PlainFigures
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.physics.cord_short_overload import adiabatic_temperature_c
from ampwright.engine.physics.protective_device import UnfitDevice, play
from ampwright.engine.site.band import HIGH
from ampwright.engine.site.settled import Placement, SettledCord, SettledSite

ADIABATIC_S = 5.0  # IEC 60364-4-43 cl. 434.5.2, from memory: past it heat leaves the copper
MOST_TEMPERATURE_C = 1085.0  # copper melts
MM2_PER_M2 = 1e6
PROTECTS = {
    "device_opens": "overcurrent_device",
    "cord_bears_it": "nothing_needed",
    "source_shuts_down": "source_shutdown",
    "ground_fault_device_only": "ground_fault_device",
    "source_response_unknown": "unknown",
    "device_unknown": "unknown",
    "opens_too_late": "nothing",
    "nothing_opens": "nothing",
}


@dataclass(frozen=True, slots=True)
class FaultFigure:
    """A dead short along one run, named by its last cord. Times [s], currents [A], temperature [degC].

    largest_current_a : with the cord crushed at its plug. protects : what ends it before a cord is ruined.
    """

    cord: str
    receptacle: str
    circuit: str
    far_current_a: float
    largest_current_a: float
    outcome: str
    protects: str
    trip_earliest_s: float | None = None
    trip_latest_guaranteed_s: float | None = None
    trip_latest_assumed_s: float | None = None
    cord_bears_s: float | None = None
    copper_temperature_c: float | None = None


@dataclass(frozen=True, slots=True)
class RunFault:
    """Figures of one run and how it is judged; `tools` hang on it."""

    figure: FaultFigure
    line: Line
    pointer: str
    tools: tuple[int, ...]


def fault_checks(judged: Sequence[RunFault], placements: Collection[int]) -> tuple[Check, ...]:
    """Checks of a case in which some placements run. What nobody said about the source is told, and decides nothing.

    A short is a matter of the cord and the source whatever is switched on; a case has those of the cords it uses.
    """
    return tuple(
        Check(
            item.line.finding, "safety", item.pointer, item.figure.cord,
            "pass" if item.line.advisory else item.line.verdict, tools=item.tools, value_text=item.line.value_text,
            limit_text=item.line.limit_text, told=item.line.advisory,
        )
        for item in judged
        if item.line.finding is not None and item.line.verdict != "pass" and set(item.tools) & set(placements)
    )  # fmt: skip


def run_faults(
    settled: SettledSite, rows: Sequence[Row], figures: RowFigures, plain: PlainFigures
) -> tuple[RunFault, ...]:
    """Every cord run that feeds a tool, once, in the order of its last cord; with the copper that `rows` give it.

    plain : the same as figures.
    """
    runs: dict[tuple[int, ...], list[int]] = {}
    for i, placement in enumerate(settled.placements):
        if placement.cords:
            runs.setdefault(placement.cords, []).append(i)
    working = [r for r, row in enumerate(rows) if row.pushed is None]
    found: list[RunFault] = []
    for places, tools in sorted(runs.items(), key=lambda item: (item[0][-1], item[0])):
        cords = tuple(settled.cords[i] for i in places)
        placement = settled.placements[tools[0]]
        warm = tuple(max([settled.ambient_c.high, *(plain.cord_c[r][i][HIGH] for r in working)]) for i in places)
        found.append(_run_fault(settled, figures, plain, placement, cords, places, tuple(tools), warm))
    return tuple(found)


def _run_fault(
    settled: SettledSite,
    figures: RowFigures,
    plain: PlainFigures,
    placement: Placement,
    cords: tuple[SettledCord, ...],
    places: tuple[int, ...],
    tools: tuple[int, ...],
    warm: tuple[float, ...],
) -> RunFault:
    source = settled.source
    receptacle = source.receptacles[placement.receptacle]
    run = Run(cords[-1].id, "run", receptacle.id, ())
    solved = SolvedRun(run, settled, placement, cords, places, tools[0], figures, plain, (0, 0), placement.tool.id)
    loop = fault_loop(solved, warm)
    line = clearing_line(solved, warm)
    device, _ = device_before(solved)
    try:
        band = play(device, (math.inf,), (loop.smallest_a,))
        times = (band.earliest_s, band.latest_guaranteed_s, band.latest_assumed_s)
    except UnfitDevice:
        times = (math.inf, math.inf, math.inf)
    bears = bears_s(solved, warm, loop.smallest_a)
    copper: float | None = None
    if times[2] <= ADIABATIC_S:
        copper = max(
            adiabatic_temperature_c(warm[k], loop.smallest_a**2 * times[2], cord.area_m2 * MM2_PER_M2)
            for k, cord in enumerate(cords)
        )
    outcome = line.outcome or ""
    if outcome == "device_opens" and times[2] == bears == math.inf:
        # a short nearer by may open the device; this one draws no more than the run bears without end
        outcome = "cord_bears_it"
    return RunFault(
        FaultFigure(
            cords[-1].id,
            receptacle.id,
            source.circuits[receptacle.circuit].id,
            round(loop.smallest_a, 1),
            round(min(loop.largest_a, 1e5), 1),
            outcome,
            PROTECTS.get(outcome, "unknown"),
            _seconds(times[0]),
            _seconds(times[1]),
            _seconds(times[2]),
            _seconds(bears),
            None if copper is None else round(min(copper, MOST_TEMPERATURE_C), 1),
        ),
        line,
        cords[-1].pointer,
        tools,
    )


def _seconds(value: float) -> float | None:
    return None if value == math.inf else float(f"{min(value, 1e8):.3g}")
