"""What does a row over many kits and sources look like in a spreadsheet?"""

from __future__ import annotations

from typing import Any

from msgspec import UNSET

from ampwright.contract.kit_validations import KitValidationRow
from ampwright.contract.source_comparisons import SourceComparisonRow

KIT_COLUMNS = (
    "index", "job", "kit", "source", "verdict", "capacity", "safety", "code", "energy", "sentence", "missing",
    "other_sources", "finding", "question", "plugged", "load_check_digest", "energy_budget_digest", "errors",
)  # fmt: skip


def kit_cells(row: KitValidationRow) -> list[str]:
    """One cell for each of KIT_COLUMNS; empty where there is nothing to say."""
    load, energy = row.load_check, row.energy_budget
    return [
        str(row.index),
        row.job,
        row.kit,
        row.source,
        _said(row.verdict),
        *(("", "", "") if load is UNSET else (load.verdict.capacity, load.verdict.safety, _said(load.verdict.code))),
        "" if energy is UNSET else energy.verdict.overall,
        _said(row.sentence),
        "; ".join(f"{one.quantity} x {one.text}" for one in row.missing),
        "; ".join(f"{one.source}: {one.verdict}" for one in row.others),
        "" if row.finding is UNSET else row.finding.text,
        "" if row.question is UNSET else row.question.how_to_find_out,
        "; ".join(f"{one.plug} into {one.into}" for one in row.plugged),
        "" if load is UNSET else load.request_digest,
        "" if energy is UNSET else energy.request_digest,
        "; ".join(f"{one.pointer}: {one.message}" for one in row.errors),
    ]


COMPARISON_COLUMNS = (
    "index", "job", "kit", "source", "verdict", "danger", "rank", "score", "pareto", "capacity", "safety", "code",
    "energy", "sentence", "fails_first", "failing_case", "spare_a", "spare_circuit", "spare_output_ratio",
    "hardest_start", "start_outcome", "independent_circuits", "power_comes_back", "reset_where", "hazards", "reserve",
    "cost_per_day", "currency", "mass_kg", "noise_db", "exhaust", "failing_h_per_month", "missing", "cheapest_change",
    "cheapest_change_then", "deciding", "load_check_digest", "energy_budget_digest", "errors",
)  # fmt: skip


def comparison_cells(row: SourceComparisonRow) -> list[str]:
    """One cell for each of COMPARISON_COLUMNS; empty where there is nothing to say."""
    load, energy, back, start, spare = row.load_check, row.energy_budget, row.power_back, row.hardest_start, row.spare
    change = row.cheapest_change
    return [
        str(row.index),
        row.job,
        row.kit,
        row.source,
        _said(row.verdict),
        _yes_or_no(row.danger),
        _said(row.rank),
        _said(row.score),
        _yes_or_no(row.pareto),
        *(("", "", "") if load is UNSET else (load.verdict.capacity, load.verdict.safety, _said(load.verdict.code))),
        "" if energy is UNSET else energy.verdict.overall,
        _said(row.sentence),
        "" if row.fails_first is UNSET else row.fails_first.text,
        _said(row.failing_case),
        *(("", "") if spare is UNSET else (_said(spare.current_a.low), spare.circuit)),
        "" if row.spare_output is UNSET else _said(row.spare_output.left_ratio),
        *(("", "") if start is UNSET else (start.tool, start.outcome)),
        _said(row.independent_circuits),
        *(("", "", "") if back is UNSET else (back.how, _said(back.where), "; ".join(back.hazards))),
        "" if row.reserve is UNSET else row.reserve.outcome,
        *(("", "") if row.cost_per_day is UNSET else (_said(row.cost_per_day.whole.p50), row.cost_per_day.currency)),
        _said(row.mass_kg),
        _said(row.noise_db),
        _yes_or_no(row.exhaust),
        "" if row.use is UNSET else _said(row.use.failing_h),
        "; ".join(f"{one.quantity} x {one.text}" for one in row.missing),
        *(("", "") if change is UNSET else (change.text, change.verdict)),
        "; ".join(f"{one.criterion} {one.change_ratio:+.0%}: {one.then_first}" for one in row.deciding),
        "" if load is UNSET else load.request_digest,
        "" if energy is UNSET else energy.request_digest,
        "; ".join(f"{one.pointer}: {one.message}" for one in row.errors),
    ]


def _yes_or_no(value: Any) -> str:
    return "" if value is UNSET else "yes" if value else "no"


def _said(value: Any) -> str:
    return "" if value is UNSET else str(value)
