"""Which figures does one row of a load check show?

Only items that carry current are listed. Where the voltage collapses there are no figures to show, only the outcome.
"""

from __future__ import annotations

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.load_check.load_check_result import (
    CaseRow,
    CircuitResult,
    CordResult,
    FigureBand,
    LegResult,
    LimitResult,
    ReceptacleResult,
    ToolResult,
)
from ampwright.engine.calculations.network.circuit_trip import steady_trip
from ampwright.engine.calculations.network.plain_figures import PlainFigures
from ampwright.engine.calculations.starts.start_figures import sag_figure, start_figure
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.source import LEG_NAMES


def band(values: tuple[float, float, float]) -> FigureBand:
    """Low, typical and high by number, whichever estimate each comes from."""
    low, typical, high = values
    if low < typical < high:
        return FigureBand(low, typical, high)  # as most are
    return FigureBand(min(low, typical, high), typical, max(low, typical, high))


def case_row(base: Evaluation, r: int, case_verdict: str) -> CaseRow:
    """Row `r` with its figures. A row that fails in a case that is only `unknown` waits for the same answer."""
    row, settled, plain = base.rows[r], base.settled, base.plain
    of_starts = base.start_checks[row.case] if row.pushed is None else ()
    checks = (*base.row_checks[r], *(check for check in of_starts if check.aspect == "capacity"))
    verdict = _softened(worst(check.verdict for check in checks), case_verdict)
    collapsed = [outcome in (COLLAPSED, NOT_CONVERGED) for outcome in plain.outcome[r]]
    pushed = (settled.placements[row.pushed].tool.id,) if row.pushed is not None else ()
    if collapsed[TYPICAL]:
        return CaseRow(pushed, verdict, "collapses")
    tools = tuple(
        ToolResult(
            settled.placements[i].tool.id,
            "heavy" if i == row.pushed else "working",
            _softened(worst(check.verdict for check in checks if i in check.tools), case_verdict),
            _option_name(base, i),
            band(plain.tool_w[r][i]),
            band(plain.tool_a[r][i]),
            band(plain.tool_v[r][i]),
            round(settled.placements[i].lowest_voltage_v, 3),
            start_figure(base, row.case, i) if row.pushed is None else None,
            sag_figure(base, row.case, i) if row.pushed is None else None,
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
        _circuits(base, plain, r),
        tuple(
            LegResult(LEG_NAMES[i], band(plain.leg_a[r][i]), band(plain.leg_v[r][i]))
            for i in range(len(plain.leg_a[r]))
        ),
        _limits(base, plain, r),
        tuple(
            ReceptacleResult(item.id, band(plain.receptacle_a[r][i]), item.rating_a, band(plain.receptacle_v[r][i]))
            for i, item in enumerate(settled.source.receptacles)
            if plain.receptacle_a[r][i][HIGH] > 0.0
        ),
        tuple(
            CordResult(
                item.id,
                band(plain.cord_a[r][i]),
                item.capacity_a,
                item.capacity_from,
                band(plain.cord_drop_v[r][i]),
                band(plain.cord_c[r][i]),
            )
            for i, item in enumerate(settled.cords)
            if plain.cord_a[r][i][HIGH] > 0.0
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


def _circuits(base: Evaluation, plain: PlainFigures, r: int) -> tuple[CircuitResult, ...]:
    found: list[CircuitResult] = []
    for i, circuit in enumerate(base.settled.source.circuits):
        amps = plain.circuit_a[r][i]
        if amps[HIGH] <= 0.0:
            continue
        found.append(
            CircuitResult(
                circuit.id,
                band(amps),
                circuit.rating_a,
                band(_headroom(circuit.rating_a, amps)),
                band(plain.circuit_neutral_a[r][i]) if len(circuit.legs) > 1 else None,
                steady_trip(circuit, amps[LOW], amps[HIGH], base.settled.ambient_c),
            )
        )
    return tuple(found)


def _headroom(rating_a: float, amps: tuple[float, float, float]) -> tuple[float, float, float]:
    return round(rating_a - amps[0], 3), round(rating_a - amps[1], 3), round(rating_a - amps[2], 3)


def _limits(base: Evaluation, plain: PlainFigures, r: int) -> tuple[LimitResult, ...]:
    found: list[LimitResult] = []
    for i, limit in enumerate(base.settled.source.limits):
        unit = limit.unit
        amount = {"VA": plain.limit_va, "W": plain.limit_w, "A": plain.limit_a}[unit][r][i]
        outcome = "holds"
        if amount[HIGH] > limit.continuous:
            outcome = "over_label" if amount[TYPICAL] > limit.continuous else "may_exceed"
        found.append(
            LimitResult(
                limit.id,
                outcome,
                band(plain.limit_va[r][i]),
                band(plain.limit_w[r][i]),
                band(plain.limit_a[r][i]),
                limit.continuous if unit == "VA" else None,
                limit.continuous if unit == "W" else None,
                limit.continuous if unit == "A" else None,
                band(plain.limit_peak_a[r][i]),
                round(limit.peak_a, 3) if limit.peak_a is not None else None,
            )
        )
    return tuple(found)
