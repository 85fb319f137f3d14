"""Which figures does one row of a load check show?

Only items that carry current are listed. Where the voltage collapses there are no figures to show, only the outcome.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.circuit_trip import steady_trip
from ampwright.engine.calculations.load_check_result import (
    CaseRow,
    CircuitResult,
    CordResult,
    FigureBand,
    LegResult,
    LimitResult,
    ReceptacleResult,
    StartFigure,
    ToolResult,
)
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.source import LEG_NAMES

if TYPE_CHECKING:
    from ampwright.engine.calculations.load_check import Evaluation

Figures = npt.NDArray[np.float64]


def band(values: Figures) -> FigureBand:
    """Low, typical and high by number, whichever estimate each comes from."""
    low, typical, high = (float(value) for value in values)
    return FigureBand(min(low, typical, high), typical, max(low, typical, high))


def case_row(base: Evaluation, r: int, case_verdict: str) -> CaseRow:
    """Row `r` with its figures. A row that fails in a case that is only `unknown` waits for the same answer."""
    row, checks, figures, settled = base.rows[r], base.row_checks[r], base.figures, base.settled
    verdict = _softened(worst(check.verdict for check in checks), case_verdict)
    collapsed = [int(value) in (COLLAPSED, NOT_CONVERGED) for value in figures.outcome[r]]
    pushed = (settled.placements[row.pushed].tool.id,) if row.pushed is not None else ()
    if collapsed[TYPICAL]:
        return CaseRow(pushed, verdict, "collapses")
    tools = tuple(
        ToolResult(
            settled.placements[i].tool.id,
            "heavy" if i == row.pushed else "working",
            _softened(worst(check.verdict for check in checks if i in check.tools), case_verdict),
            _option_name(base, i),
            band(figures.tool_w[r, :, i]),
            band(figures.tool_a[r, :, i]),
            band(figures.tool_v[r, :, i]),
            round(settled.placements[i].lowest_voltage_v, 3),
            StartFigure("not_assessed") if settled.placements[i].load_class.start != "resistive" else None,
        )
        if settled.placements[i].option is not None
        else ToolResult(settled.placements[i].tool.id, "heavy" if i == row.pushed else "working", "fail")
        for i in row.running
    )
    return CaseRow(
        pushed,
        verdict,
        _outcome(base, r, collapsed),
        tools,
        _circuits(base, r),
        tuple(
            LegResult(LEG_NAMES[i], band(figures.leg_a[r, :, i]), band(figures.leg_v[r, :, i]))
            for i in range(figures.leg_a.shape[2])
        ),
        _limits(base, r),
        tuple(
            ReceptacleResult(
                item.id, band(figures.receptacle_a[r, :, i]), item.rating_a, band(figures.receptacle_v[r, :, i])
            )
            for i, item in enumerate(settled.source.receptacles)
            if figures.receptacle_a[r, HIGH, i] > 0.0
        ),
        tuple(
            CordResult(
                item.id,
                band(figures.cord_a[r, :, i]),
                item.capacity_a,
                item.capacity_from,
                band(figures.cord_drop_v[r, :, i]),
                band(figures.cord_c[r, :, i]),
            )
            for i, item in enumerate(settled.cords)
            if figures.cord_a[r, HIGH, i] > 0.0
        ),
    )


def _softened(verdict: str, case_verdict: str) -> str:
    return "unknown" if verdict == "fail" and case_verdict == "unknown" else verdict


def _option_name(base: Evaluation, i: int) -> str | None:
    option = base.settled.placements[i].option
    return option.id if option is not None and len(base.settled.placements[i].tool.supply_options) > 1 else None


def _outcome(base: Evaluation, r: int, collapsed: list[bool]) -> str:
    """What happens, apart from what to make of it."""
    if collapsed[HIGH]:
        return "may_collapse"
    failing = {check.code for check in base.row_checks[r] if check.verdict == "fail"}
    if failing & {"circuit_over_rating", "limit_over_continuous", "receptacle_over_rating", "peak_limit_over"}:
        return "over_label"
    if "low_voltage_at_tool" in failing:
        return "sags"
    return "holds"


def _circuits(base: Evaluation, r: int) -> tuple[CircuitResult, ...]:
    found: list[CircuitResult] = []
    for i, circuit in enumerate(base.settled.source.circuits):
        amps = base.figures.circuit_a[r, :, i]
        if amps[HIGH] <= 0.0:
            continue
        found.append(
            CircuitResult(
                circuit.id,
                band(amps),
                circuit.rating_a,
                band(np.round(circuit.rating_a - amps, 3)),
                band(base.figures.circuit_neutral_a[r, :, i]) if len(circuit.legs) > 1 else None,
                steady_trip(circuit, float(amps[LOW]), float(amps[HIGH])),
            )
        )
    return tuple(found)


def _limits(base: Evaluation, r: int) -> tuple[LimitResult, ...]:
    found: list[LimitResult] = []
    for i, limit in enumerate(base.settled.source.limits):
        unit = {"kVA": "VA", "kW": "W"}.get(limit.unit, limit.unit)
        figures = base.figures
        amount = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}[unit][r, :, i]
        outcome = "holds"
        if amount[HIGH] > limit.continuous:
            outcome = "over_label" if amount[TYPICAL] > limit.continuous else "may_exceed"
        found.append(
            LimitResult(
                limit.id,
                outcome,
                band(figures.limit_va[r, :, i]),
                band(figures.limit_w[r, :, i]),
                band(figures.limit_a[r, :, i]),
                limit.continuous if unit == "VA" else None,
                limit.continuous if unit == "W" else None,
                limit.continuous if unit == "A" else None,
                band(figures.limit_peak_a[r, :, i]),
                round(limit.peak_a, 3) if limit.peak_a is not None else None,
            )
        )
    return tuple(found)
