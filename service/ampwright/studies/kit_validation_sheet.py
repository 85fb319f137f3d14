"""What does a row of a kit validation look like in a spreadsheet?"""

from __future__ import annotations

from typing import Any

from msgspec import UNSET

from ampwright.contract.kit_validations import KitValidationRow

COLUMNS = (
    "place", "job", "kit", "source", "verdict", "capacity", "safety", "code", "energy", "sentence", "missing",
    "other_sources", "finding", "question", "plugged", "load_check_digest", "energy_budget_digest", "errors",
)  # fmt: skip


def cells_of(row: KitValidationRow) -> list[str]:
    """One cell for each of COLUMNS; empty where there is nothing to say."""
    load, energy = row.load_check, row.energy_budget
    return [
        str(row.place),
        row.job,
        row.kit,
        row.source,
        _said(row.verdict),
        *(("", "", "") if load is UNSET else (load.verdict.capacity, load.verdict.safety, _said(load.verdict.code))),
        "" if energy is UNSET else energy.verdict.overall,
        _said(row.sentence),
        "; ".join(f"{one.quantity} x {one.says}" for one in row.missing),
        "; ".join(f"{one.source}: {one.verdict}" for one in row.others),
        "" if row.finding is UNSET else row.finding.text,
        "" if row.question is UNSET else row.question.how_to_find_out,
        "; ".join(f"{one.plug} into {one.into}" for one in row.plugged),
        "" if load is UNSET else load.request_digest,
        "" if energy is UNSET else energy.request_digest,
        "; ".join(f"{one.pointer}: {one.message}" for one in row.errors),
    ]


def _said(value: Any) -> str:
    return "" if value is UNSET else str(value)
