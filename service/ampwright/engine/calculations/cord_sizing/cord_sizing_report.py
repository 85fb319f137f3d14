"""How is an evaluated cord sizing told: choices, findings, assumptions, rows?

The findings are those of the first choice, and of the receptacle; the lines of every row stand in the row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_changes import other_answer
from ampwright.engine.calculations.cord_sizing.cord_sizing_choice import choices
from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import ASPECTS, RowEvaluation, SizingEvaluation
from ampwright.engine.calculations.cord_sizing.cord_sizing_ground_fault import ground_fault_lines
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line, worst_shown
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.cord_sizing.cord_sizing_questions import Target, Waits, straight_of
from ampwright.engine.calculations.cord_sizing.cord_sizing_reach import RunReach
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import (
    CordSizingResult,
)
from ampwright.engine.calculations.cord_sizing.cord_sizing_rows import LeanedOn, basis_of, choice_of, line_of, row_of
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import NOT_ASSESSED, open_start_line, start_of
from ampwright.engine.calculations.finding_code import FindingCode, tables_of
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.load_check_report import QUIET
from ampwright.engine.calculations.load_check.load_check_result import AssumptionResult, Finding, Verdicts
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.calculations.verdicts import ORDER, worst
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.ledger import Assumption
from ampwright.engine.site.pointers import in_document_order
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.rule_layers import CodeBasis, code_basis

SMALL_V = 60.0  # below it whole volts would hide the difference that matters, as on 12 and 48 V
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
        "sleeps_below",
        "code_basis",
        "tool_insulation",
    }
)


def report(
    question: CordQuestion,
    base: SizingEvaluation,
    waits: Waits,
    unrolled: Mapping[int, RowEvaluation],
    reach: Sequence[RunReach | None],
    left_out: int,
    withdrawn: tuple[tuple[str, str, str], ...] = (),
) -> CordSizingResult:
    """The answer in the order a person reads it."""
    leaned_on = LeanedOn()
    layers = deciding_layers(question.site)
    verdicts = ["unknown" if waits.of_row(n) else row.verdict for n, row in enumerate(base.rows)]
    chosen = choices(base.rows, verdicts, unrolled)
    named = chosen.named
    focus = named[0].candidate.n if named else _closest(base.rows)
    row = base.rows[focus]
    here = straight_of(base.rows, focus)
    straight = tuple(_lifted(line, waits.one.get(here)) for line in row.straight)
    supply = (
        *straight,
        *ground_fault_lines(question.site, row.solved, layers),
        *_withdrawn(withdrawn),
        *_undecided(question),
    )
    told = [line for line in (*row.lines, *supply) if line.verdict != "pass" and line.finding is not None]
    if (open_start := open_start_line(row.solved)) is not None:
        told.append(open_start)
    if not named:
        told.append(_nothing_passes(base.rows, focus, assumed_length=question.distance_m is None))
    ordered = _ordered(base.assumptions, waits, base.rows)
    names = {item.key: f"a{n}" for n, item in enumerate(ordered, start=1)}
    findings = _findings(told, row.solved.cords, layers, leaned_on)
    starts_open = any(start_of(item.solved).figure.outcome == NOT_ASSESSED for item in base.rows)
    not_assessed = ("start",) if starts_open else ()
    capacity, safety, code = (_aspect(row, supply, name, waits.of_row(focus)) for name in ASPECTS)
    overall = worst(
        (capacity, safety, code if question.site.code_basis else "pass", "unknown" if not_assessed else "pass")
    )
    asked_first = waits.of_row(focus) or waits.one.get(here) or _open_question(supply, ordered)
    if asked_first is None and not named:
        asked_first = next((waits.one["row", n] for n in range(len(base.rows)) if waits.of_row(n)), None)
    hangs_on = dict.fromkeys((*waits.several.get(("row", focus), ()), *waits.several.get(here, ())))
    return CordSizingResult(
        Verdicts(overall, capacity, safety, code if question.site.code_basis else None),
        names.get(asked_first) if asked_first else None,
        tuple(names[key] for key in hangs_on if key in names),
        tuple(choice_of(item) for item in named),
        findings,
        tuple(_assumption(item, question, names, base.rows, waits, leaned_on) for item in ordered),
        tuple(line_of(line, row, layers, leaned_on) for line in supply),
        tuple(
            row_of(
                item,
                verdicts[n],
                n in chosen.careful,
                names.get(waits.of_row(n) or ""),
                tuple(names[key] for key in waits.several.get(("row", n), ()) if key in names),
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


def _lifted(line: Line, key: str | None) -> Line:
    """What one answer would lift is unknown."""
    return replace(line, verdict="unknown") if key is not None and line.verdict == "fail" else line


def _undecided(question: CordQuestion) -> tuple[Line, ...]:
    """A layer that decides nothing without a country."""
    return tuple(
        Line("code_basis", "code", "unknown", f"/code_basis/{n}", key, finding="code_basis_needs_country", side="")
        for n, key in enumerate(question.site.code_basis or ())
        if isinstance(found := code_basis(key), CodeBasis) and not found.decides
    )


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


def _nothing_passes(rows: Sequence[RowEvaluation], closest: int, *, assumed_length: bool) -> Line:
    against = rows[closest].first_against()
    name = rows[closest].run.id
    said = f"even {name} fails on {against.code.replace('_', ' ')}" if against else f"not even {name}"
    if assumed_length and rows[closest].run.kind == "size":
        said += " at the length that was assumed; the rows say how far each may go"
    return Line("no_cord", "capacity", "fail", "/distance", name, finding="no_cord_is_enough", value_text=said, side="")


# --- findings and assumptions


def code_of(finding: str) -> FindingCode:
    """The finding code of a line."""
    return FINDING_CODES[finding]


def _findings(
    told: Sequence[Line], cords: tuple[SettledCord, ...], layers: tuple[str, ...], leaned_on: LeanedOn
) -> tuple[Finding, ...]:
    """One finding for each code and place, its worst line."""
    first: dict[tuple[str, str], Line] = {}
    for line in told:
        key = (line.finding or "", line.pointer)
        held = first.get(key)
        if held is None or worst((held.verdict, line.verdict)) != held.verdict:
            first[key] = line
    found = [_finding(line, cords, layers, leaned_on) for line in first.values()]
    found.sort(
        key=lambda item: (
            SEVERITIES.index(item.severity),
            ("safety", "capacity", "code").index(item.aspect),
            item.code,
            in_document_order(item.pointer),
        )
    )
    return tuple(found)


def _tables(code: FindingCode, line: Line, cords: tuple[SettledCord, ...]) -> tuple[str, ...]:
    """Tables behind a kind of finding; where the line says which of them it leans on, no other."""
    if any(key in code.basis for key, _ in line.basis):
        return ()
    return tables_of(code, [key for cord in cords for key, _ in cord.basis])


def _finding(line: Line, cords: tuple[SettledCord, ...], layers: tuple[str, ...], leaned_on: LeanedOn) -> Finding:
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
        basis_of(
            line,
            layers,
            leaned_on,
            (*((key, None) for key in _tables(code, line, cords)),),
            code.rules,
        ),
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
    return f"{value:.1f} V" if unit == "V" and abs(value) < SMALL_V else with_unit(value, unit)


def _swung(key: str, waits: Waits, rows: Sequence[RowEvaluation]) -> dict[int, str]:
    """Rows that one assumption decides, alone or with others, and what then becomes of them ("" where together)."""
    found: dict[int, str] = {}

    def add(target: Target, then: str) -> None:
        kind, n = target
        alike = (
            [n] if kind == "row" else [k for k, row in enumerate(rows) if row.run.receptacle == rows[n].run.receptacle]
        )
        for k in alike:
            found[k] = then

    for target, keys in waits.several.items():
        if key in keys:
            add(target, "")
    for target, other in waits.one.items():
        if other == key:
            add(target, waits.then[target])
    return found


def _ordered(assumptions: tuple[Assumption, ...], waits: Waits, rows: Sequence[RowEvaluation]) -> list[Assumption]:
    kept = [item for item in assumptions if item.code not in NOT_OF_CORDS]

    def rank(item: tuple[int, Assumption]) -> tuple[int, int, int, int]:
        place, assumption = item
        return (
            -len(_swung(assumption.key, waits, rows)),
            1 if assumption.code in QUIET else 0,
            0 if assumption.if_instead is not None else 1,
            place,
        )

    return [item for _, item in sorted(enumerate(kept), key=rank)]


def _assumption(
    item: Assumption,
    question: CordQuestion,
    names: dict[str, str],
    rows: Sequence[RowEvaluation],
    waits: Waits,
    leaned_on: LeanedOn,
) -> AssumptionResult:
    code = ASSUMPTION_CODES[item.code]
    swung = _swung(item.key, waits, rows)
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
        other_answer(question, rows[0].solved.site, item),
        swings_verdict_to=max((then for then in swung.values() if then), key=ORDER.index, default=None),
        cases=tuple(rows[n].run.id for n in sorted(swung)),
        basis=(leaned_on.citation(code.basis, None),) if code.basis else (),
    )
