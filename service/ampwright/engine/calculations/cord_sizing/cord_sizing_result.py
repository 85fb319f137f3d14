"""What does a cord sizing find? Plain results; the contract maps them to the wire member by member.

None means: left out of the answer.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check_result import (
    AssumptionResult,
    FigureBand,
    Finding,
    Outcomes,
    TripFigure,
    Verdicts,
)
from ampwright.engine.standards.citations import Basis


@dataclass(frozen=True, slots=True)
class RuleLine:
    code: str
    aspect: str
    verdict: str
    advisory: bool
    load_state: str | None = None
    cord: str | None = None
    figure: str | None = None
    value: FigureBand | None = None
    limit: float | None = None
    margin: float | None = None
    limit_from: str | None = None
    outcome: str | None = None
    basis: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CordPart:
    cord: str
    size: str
    length_m: FigureBand
    laid: str
    capacity_a: float
    capacity_from: str
    marked_a: float | None
    ends_a: float | None
    ampacity_a: float | None
    derated_ampacity_a: float | None
    insulation_temperature_c: float
    drop_v: FigureBand
    copper_temperature_c: FigureBand


@dataclass(frozen=True, slots=True)
class StartOfRow:
    outcome: str
    outcomes: Outcomes | None = None
    current_a: FigureBand | None = None
    drop_v: FigureBand | None = None
    voltage_v: FigureBand | None = None
    peak_a: float | None = None
    lasts_s: float | None = None
    source_must_give_a: float | None = None
    source_must_give_s: float | None = None
    probability_ratio: float | None = None
    trip: TripFigure | None = None


@dataclass(frozen=True, slots=True)
class Reach:
    outcome: str
    longest_m: float | None = None
    passing_m: float | None = None
    limited_by: str | None = None


@dataclass(frozen=True, slots=True)
class CordRow:
    id: str
    kind: str
    receptacle: str
    verdict: str
    careful: bool
    waits_for: str | None
    hangs_on: tuple[str, ...]
    length_m: FigureBand
    current_a: FigureBand | None
    voltage_v: FigureBand | None
    drop_v: FigureBand | None
    contacts_drop_v: FigureBand | None
    loss_w: FigureBand | None
    heavy_drop_v: FigureBand | None
    start: StartOfRow | None
    reach: Reach | None
    cords: tuple[CordPart, ...]
    lines: tuple[RuleLine, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    code: str
    row: str
    verdict: str
    text: str
    drop_v: FigureBand | None = None
    loss_w: FigureBand | None = None


@dataclass(frozen=True, slots=True)
class CordSizingResult:
    verdict: Verdicts
    question: str | None
    hangs_on: tuple[str, ...]
    choices: tuple[Choice, ...]
    findings: tuple[Finding, ...]
    assumptions: tuple[AssumptionResult, ...]
    lines: tuple[RuleLine, ...]
    rows: tuple[CordRow, ...]
    runs_left_out: int
    not_assessed: tuple[str, ...]
    basis: tuple[Basis, ...]
