"""How is an evaluated cord sizing told: choices, findings, assumptions, rows?

The findings are those of the first choice, and of the receptacle; the lines of every row stand in the row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ampwright.engine.calculations.code_rules import deciding_layers
from ampwright.engine.calculations.cord_sizing_capacity import contacts_drop_v, run_drop_v
from ampwright.engine.calculations.cord_sizing_choice import NamedChoice, choices, run_loss
from ampwright.engine.calculations.cord_sizing_evaluation import ASPECTS, RowEvaluation, SizingEvaluation
from ampwright.engine.calculations.cord_sizing_ground_fault import ground_fault_lines
from ampwright.engine.calculations.cord_sizing_lines import Line, worst_shown
from ampwright.engine.calculations.cord_sizing_network import HEAVY, WORKING, SolvedRun
from ampwright.engine.calculations.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.cord_sizing_reach import RunReach
from ampwright.engine.calculations.cord_sizing_result import (
    Choice,
    CordPart,
    CordRow,
    CordSizingResult,
    Reach,
    RuleLine,
    StartOfRow,
)
from ampwright.engine.calculations.cord_sizing_start import NOT_ASSESSED, start_of
from ampwright.engine.calculations.finding_code import FindingCode
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check_report import QUIET
from ampwright.engine.calculations.load_check_result import AssumptionResult, FigureBand, Finding, Verdicts
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Assumption
from ampwright.engine.site.pointers import in_document_order
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.citations import Basis, basis
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes
from ampwright.engine.standards.cord_ratings import ambient_factor, ampacity_a, end_rating_a, marked_rating_a
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.rule_layers import Clause, clauses

SEVERITIES = ("danger", "caution", "info")
# assumptions of a load check that no cord depends on
NOT_OF_CORDS = frozenset(
    {
        "switch",
        "restart_protection",
        "reset",
        "neutral_bond",
        "place",
        "people",
        "engine_technology",
        "sleeps_below",
        "code_basis",
        "tool_insulation",
    }
)


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


def report(
    question: CordQuestion,
    base: SizingEvaluation,
    waits: dict[int, str],
    unrolled: Mapping[int, RowEvaluation],
    reach: Sequence[RunReach | None],
    left_out: int,
    withdrawn: tuple[tuple[str, str, str], ...] = (),
) -> CordSizingResult:
    """The answer in the order a person reads it. `waits`: row -> key of the one assumption that decides it."""
    leaned_on = LeanedOn()
    layers = deciding_layers(question.site)
    verdicts = ["unknown" if n in waits else row.verdict for n, row in enumerate(base.rows)]
    chosen = choices(base.rows, verdicts, unrolled)
    named = chosen.named
    focus = named[0].candidate.n if named else _closest(base.rows)
    row = base.rows[focus]
    supply = (*ground_fault_lines(question.site, row.solved, layers), *_withdrawn(withdrawn))
    told = [line for line in (*row.lines, *supply) if line.verdict != "pass" and line.finding is not None]
    if not named:
        told.append(_nothing_passes(base.rows, focus))
    ordered = _ordered(base.assumptions, waits)
    names = {item.key: f"a{n}" for n, item in enumerate(ordered, start=1)}
    findings = _findings(told, layers, leaned_on)
    starts_open = any(start_of(item.solved).outcome == NOT_ASSESSED for item in base.rows)
    not_assessed = ("start",) if starts_open else ()
    capacity, safety, code = (_aspect(row, supply, name, waits.get(focus)) for name in ASPECTS)
    overall = worst((capacity, safety, code if layers else "pass", "unknown" if not_assessed else "pass"))
    asked_first = waits.get(focus) or _open_question(supply, ordered)
    if asked_first is None and not named:
        asked_first = next((waits[n] for n in sorted(waits)), None)
    return CordSizingResult(
        Verdicts(overall, capacity, safety, code if question.site.code_basis else None),
        names.get(asked_first) if asked_first else None,
        tuple(_choice(item) for item in named),
        findings,
        tuple(_assumption(item, names, base.rows, waits, leaned_on) for item in ordered),
        tuple(_line(line, row, layers, leaned_on) for line in supply),
        tuple(
            _row(
                item,
                verdicts[n],
                n in chosen.careful,
                names.get(waits[n]) if n in waits else None,
                reach[n],
                layers,
                leaned_on,
            )
            for n, item in enumerate(base.rows)
        ),
        left_out,
        not_assessed,
        leaned_on.items,
    )


def _open_question(supply: Sequence[Line], assumptions: Sequence[Assumption]) -> str | None:
    """Key of the assumption behind the first line of the receptacle that nobody has settled."""
    asked = [line.pointer for line in supply if line.verdict == "unknown"]
    return next((item.key for pointer in asked for item in assumptions if item.pointer == pointer), None)


def _closest(rows: Sequence[RowEvaluation]) -> int:
    """Where nothing passes: the candidate with the fewest rules against it, of sizes the thickest."""
    return min(
        range(len(rows)),
        key=lambda n: (sum(not line.advisory and line.verdict == "fail" for line in rows[n].lines), -n),
    )


def _aspect(row: RowEvaluation, supply: Sequence[Line], name: str, waits: str | None) -> str:
    own = row.aspect(name)
    if own == "fail" and waits is not None:
        own = "unknown"
    return worst((own, *(line.verdict for line in supply if line.aspect == name and not line.advisory)))


def _withdrawn(withdrawn: tuple[tuple[str, str, str], ...]) -> tuple[Line, ...]:
    return tuple(
        Line(
            "entry_withdrawn",
            "safety",
            "marginal",
            pointer,
            name,
            finding="entry_withdrawn",
            value_text=reason,
            side="",
        )
        for pointer, name, reason in withdrawn
    )


def _nothing_passes(rows: Sequence[RowEvaluation], closest: int) -> Line:
    against = rows[closest].first_against()
    name = rows[closest].run.id
    said = f"even {name} fails on {against.code.replace('_', ' ')}" if against else f"not even {name}"
    return Line("no_cord", "capacity", "fail", "/distance", name, finding="no_cord_is_enough", value_text=said, side="")


# --- findings and assumptions


def code_of(finding: str) -> FindingCode:
    """The finding code of a line."""
    return FINDING_CODES[finding]


def _findings(told: Sequence[Line], layers: tuple[str, ...], leaned_on: LeanedOn) -> tuple[Finding, ...]:
    """One finding for each code and place, its worst line."""
    first: dict[tuple[str, str], Line] = {}
    for line in told:
        key = (line.finding or "", line.pointer)
        held = first.get(key)
        if held is None or worst((held.verdict, line.verdict)) != held.verdict:
            first[key] = line
    found = [_finding(line, layers, leaned_on) for line in first.values()]
    found.sort(
        key=lambda item: (
            SEVERITIES.index(item.severity),
            ("safety", "capacity", "code").index(item.aspect),
            item.code,
            in_document_order(item.pointer),
        )
    )
    return tuple(found)


def _finding(line: Line, layers: tuple[str, ...], leaned_on: LeanedOn) -> Finding:
    code = code_of(line.finding or "")
    severity = code.severity
    if severity == "danger" and line.verdict in ("marginal", "unknown"):
        severity = "caution"
    if line.advisory:
        severity = "info"
    shown = worst_shown(line)
    return Finding(
        line.finding or "",
        severity,
        line.aspect,
        line.pointer,
        _fill(code.text, line, shown),
        _fill(code.what_to_do, line, shown),
        (),
        line.figure if shown is not None else None,
        shown,
        line.limit if shown is not None else None,
        _basis(line, layers, leaned_on, (*((key, None) for key in code.basis),), code.rules),
    )


def _fill(text: str, line: Line, shown: float | None) -> str:
    return text.format(
        subject=line.subject,
        value="" if shown is None else _with_unit(shown, line.unit),
        limit="" if line.limit is None else _with_unit(line.limit, line.unit),
        value_text=line.value_text,
        limit_text=line.limit_text,
        other=line.value_text,
        case=line.subject,
    )


def _with_unit(value: float, unit: str) -> str:
    return f"{value:.1f} V" if unit == "V" and abs(value) < 9.95 else with_unit(value, unit)


def _basis(
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


def _ordered(assumptions: tuple[Assumption, ...], waits: dict[int, str]) -> list[Assumption]:
    swung = {key: sum(other == key for other in waits.values()) for key in waits.values()}
    kept = [item for item in assumptions if item.code not in NOT_OF_CORDS]

    def rank(item: tuple[int, Assumption]) -> tuple[int, int, int, int]:
        place, assumption = item
        return (
            -swung.get(assumption.key, 0),
            1 if assumption.code in QUIET else 0,
            0 if assumption.if_instead is not None else 1,
            place,
        )

    return [item for _, item in sorted(enumerate(kept), key=rank)]


def _assumption(
    item: Assumption,
    names: dict[str, str],
    rows: Sequence[RowEvaluation],
    waits: dict[int, str],
    leaned_on: LeanedOn,
) -> AssumptionResult:
    code = ASSUMPTION_CODES[item.code]
    swung = [n for n, key in waits.items() if key == item.key]
    # the load check's connections are the cords here
    pointer = {"/connections": "/cords", "/new_cord/length": "/distance"}.get(item.pointer, item.pointer)
    return AssumptionResult(
        names[item.key],
        item.code,
        pointer,
        # one default for every size that is looked at: the rows show what each is marked
        "by size and length" if item.code == "cord_mark" and item.pointer.startswith("/new_cord") else item.value,
        code.why,
        code.how_to_find_out,
        item.if_instead,
        "marginal" if swung else None,
        tuple(rows[n].run.id for n in sorted(swung)),
        (leaned_on.citation(code.basis, None),) if code.basis else (),
    )


# --- rows


def _choice(item: NamedChoice) -> Choice:
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


def _row(
    row: RowEvaluation,
    verdict: str,
    careful: bool,
    waits_for: str | None,
    reach: RunReach | None,
    layers: tuple[str, ...],
    leaned_on: LeanedOn,
) -> CordRow:
    solved = row.solved
    fed = solved.is_fed
    start = start_of(solved)
    return CordRow(
        row.run.id,
        row.run.kind,
        row.run.receptacle,
        verdict,
        careful,
        waits_for,
        _band(row.length_m),
        _band(solved.tool_band(solved.figures.tool_a, WORKING)) if fed else None,
        _band(solved.tool_band(solved.figures.tool_v, WORKING)) if fed else None,
        _band(run_drop_v(solved, WORKING)) if fed else None,
        _band(contacts_drop_v(solved, WORKING)) if fed else None,
        _band(run_loss(solved)) if fed else None,
        _band(run_drop_v(solved, HEAVY)) if fed else None,
        StartOfRow(start.outcome, *(_maybe(item) for item in (start.current_a, start.drop_v, start.voltage_v))),
        None
        if reach is None
        else Reach(reach.outcome, _round(reach.longest_m), _round(reach.passing_m), reach.limited_by),
        tuple(_part(solved, k, cord) for k, cord in enumerate(solved.cords)),
        tuple(_line(line, row, layers, leaned_on) for line in row.lines),
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


def _line(line: Line, row: RowEvaluation, layers: tuple[str, ...], leaned_on: LeanedOn) -> RuleLine:
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
        _basis(line, layers, leaned_on),
    )


def _band(band: Band, digits: int = 3) -> FigureBand:
    return FigureBand(*(round(value, digits) + 0.0 for value in (band.low, band.typical, band.high)))


def _maybe(band: Band | None) -> FigureBand | None:
    return None if band is None else _band(band)


__all__ = ["LeanedOn", "code_of", "report"]
