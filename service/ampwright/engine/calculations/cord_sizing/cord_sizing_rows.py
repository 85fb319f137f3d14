"""How is one candidate told: its figures, its cords, its lines with their basis?"""

from __future__ import annotations

from ampwright.engine.calculations.cord_sizing.cord_sizing_capacity import contacts_drop_v, run_drop_v
from ampwright.engine.calculations.cord_sizing.cord_sizing_choice import NamedChoice, run_loss
from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import HEAVY, WORKING, SolvedRun
from ampwright.engine.calculations.cord_sizing.cord_sizing_reach import RunReach
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import (
    Choice,
    CordPart,
    CordRow,
    Reach,
    RuleLine,
    StartOfRow,
)
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import start_of
from ampwright.engine.calculations.load_check.load_check_result import FigureBand
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.citations import Basis, basis
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes
from ampwright.engine.standards.cord_ratings import ambient_factor, ampacity_a, end_rating_a, marked_rating_a
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.rule_layers import Clause, clauses


class LeanedOn:
    """Citations and clauses in the order they are first leaned on, `b1`, `b2`, ..."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, ...], tuple[str, Basis]] = {}

    def citation(self, key: str, status: str | None) -> str:
        line = basis(key, status)
        return self._name((line.document, line.place, line.edition, line.status), line)

    def clause(self, clause: Clause) -> str:
        line = clause.basis()
        return self._name((line.document, line.place, line.edition, line.status), line)

    def _name(self, key: tuple[str, ...], line: Basis) -> str:
        name = f"b{len(self._found) + 1}"
        return self._found.setdefault(key, (name, line))[0]

    @property
    def items(self) -> tuple[Basis, ...]:
        return tuple(
            Basis(name, line.document, line.place, line.edition, line.status) for name, line in self._found.values()
        )


def basis_of(
    line: Line,
    layers: tuple[str, ...],
    leaned_on: LeanedOn,
    more: tuple[tuple[str, str | None], ...] = (),
    rules: tuple[str, ...] = (),
) -> tuple[str, ...]:
    names = [leaned_on.citation(key, status) for key, status in (*line.basis, *more)]
    for rule in dict.fromkeys((*line.rules, *rules)):
        names += [leaned_on.clause(item) for item in clauses(rule, layers)]
    return tuple(dict.fromkeys(names))


def choice_of(item: NamedChoice) -> Choice:
    row = item.candidate.evaluated
    fed = row.solved.is_fed
    return Choice(
        item.code,
        row.run.id,
        item.candidate.verdict,
        item.text,
        _band(run_drop_v(row.solved, WORKING)) if fed else None,
        _band(run_loss(row.solved)) if fed else None,
    )


def row_of(
    row: RowEvaluation,
    verdict: str,
    careful: bool,
    waits_for: str | None,
    hangs_on: tuple[str, ...],
    reach: RunReach | None,
    layers: tuple[str, ...],
    leaned_on: LeanedOn,
) -> CordRow:
    solved = row.solved
    fed = solved.is_fed
    return CordRow(
        row.run.id,
        row.run.kind,
        row.run.receptacle,
        verdict,
        careful,
        waits_for,
        hangs_on,
        _band(row.length_m),
        _band(solved.tool_band(solved.figures.tool_a, WORKING)) if fed else None,
        _band(solved.tool_band(solved.figures.tool_v, WORKING)) if fed else None,
        _band(run_drop_v(solved, WORKING)) if fed else None,
        _band(contacts_drop_v(solved, WORKING)) if fed else None,
        _band(run_loss(solved)) if fed else None,
        _band(run_drop_v(solved, HEAVY)) if fed else None,
        _start(solved),
        None
        if reach is None
        else Reach(reach.outcome, _round(reach.longest_m), _round(reach.passing_m), reach.limited_by),
        tuple(_part(solved, k, cord) for k, cord in enumerate(solved.cords)),
        tuple(line_of(line, row, layers, leaned_on) for line in row.lines),
    )


def _start(solved: SolvedRun) -> StartOfRow:
    found = start_of(solved)
    figure = found.figure
    return StartOfRow(
        figure.outcome,
        figure.outcomes,
        _maybe(found.current_a),
        _maybe(found.drop_v),
        _maybe(found.voltage_v),
        figure.peak_a,
        figure.lasts_s,
        figure.source_must_give_a,
        figure.source_must_give_s,
        figure.probability_ratio,
        figure.trip,
    )


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 1)


def _part(solved: SolvedRun, k: int, cord: SettledCord) -> CordPart:
    given = solved.run.cords[k]
    size = given.size or _assumed_size(cord)
    ends = [
        rated.value for name in (cord.plug, cord.outlet) if name and isinstance(rated := end_rating_a(name), CitedValue)
    ]
    if given.outlets and given.outlets.rating_a:
        ends.append(given.outlets.rating_a.typical)
    mark: float | None = given.marked_a.typical if given.marked_a else None
    if mark is None:
        usual = marked_rating_a(size, cord.length_m.high, min(ends, default=15.0))
        mark = usual.value if isinstance(usual, CitedValue) else None
    plain = ampacity_a(size, cord.loaded_conductors)
    factor = ambient_factor(solved.site.ambient_c.high, min(cord.insulation_c, 60.0))
    table = plain.value if isinstance(plain, CitedValue) else None
    allowed = min(1.0, factor.value) if isinstance(factor, CitedValue) else 0.0
    return CordPart(
        solved.cord_name(k),
        size,
        _band(cord.length_m),
        cord.laid,
        round(cord.capacity_a, 3),
        cord.capacity_from,
        mark,
        min(ends, default=None),
        table,
        None if table is None else round(table * allowed, 3),
        cord.insulation_c,
        _band(solved.cord_band(solved.figures.cord_drop_v, WORKING, k)),
        _band(solved.cord_band(solved.figures.cord_c, WORKING, k), 1),
    )


def _assumed_size(cord: SettledCord) -> str:
    """The size that was assumed, found by its copper."""
    return next(name for name in sizes() if (size := conductor_size(name)) is not None and size.area_m2 == cord.area_m2)


def line_of(line: Line, row: RowEvaluation, layers: tuple[str, ...], leaned_on: LeanedOn) -> RuleLine:
    margin = line.margin
    return RuleLine(
        line.code,
        line.aspect,
        line.verdict,
        line.advisory,
        line.load_state,
        None if line.cord is None else row.solved.cord_name(line.cord),
        line.figure,
        _maybe(line.value),
        None if line.limit is None else round(line.limit, 3),
        None if margin is None else round(margin, 3) + 0.0,
        line.limit_from,
        line.outcome,
        basis_of(line, layers, leaned_on),
    )


def _band(band: Band, digits: int = 3) -> FigureBand:
    return FigureBand(*(round(value, digits) + 0.0 for value in (band.low, band.typical, band.high)))


def _maybe(band: Band | None) -> FigureBand | None:
    return None if band is None else _band(band)
