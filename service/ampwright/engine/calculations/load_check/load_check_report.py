"""How is an evaluated load check told: findings, assumptions, figures, worst first?

A finding is one code at one place; its value is from the first case that shows it, in the mildest state. Findings are
sorted by severity, aspect, code, pointer; assumptions by how many verdicts they swing.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.after_trip_figures import after_trip_figures
from ampwright.engine.calculations.finding_code import tables_of
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.answer_verdicts import answer_verdicts, code_checks
from ampwright.engine.calculations.load_check.crew_card import CaseSummary, crew_card
from ampwright.engine.calculations.load_check.crew_card_trip import trip_told
from ampwright.engine.calculations.load_check.load_check_evaluation import ASPECTS, Evaluation, Swing
from ampwright.engine.calculations.load_check.load_check_figures import case_row
from ampwright.engine.calculations.load_check.load_check_result import (
    AssumptionResult,
    CaseResult,
    Finding,
    LoadCheckResult,
)
from ampwright.engine.calculations.load_check.not_assessed import starts_are_open
from ampwright.engine.calculations.reverse.assumption_edits import assumption_edit
from ampwright.engine.calculations.rules.capacity_rules import SHORT_PUSH_S, Check
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.calculations.wording import against, as_marked
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.ledger import Assumption
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.thin_air import AT_ALTITUDE
from ampwright.engine.site.use import Site
from ampwright.engine.standards.citations import Basis, basis
from ampwright.engine.standards.rule_layers import Clause, clauses

SEVERITIES = ("danger", "caution", "info")
ASPECT_ORDER = ("safety", "capacity", "code")
# settled values that say little to a reader and change no verdict come last
QUIET = (
    "contact_resistance",
    "circuit_resistance",
    "crest_factor",
    "circuit_leg",
    "people",
    "ambient",
    "cord_insulation",
    "sleeps_below",
    "construction_site",
    "code_basis",
)


# the assumption that a finding asks about
ASKS = {
    "ground_fault_protection_unknown": "ground_fault",
    "exhaust_place_unknown": "place",
    "neutral_bond_unknown": "neutral_bond",
    "must_not_stop": "reset",
    "ground_path_unknown": "insulation",
    "return_overheats_motor": "reset",
}


class _BasisList:
    """Citations in the order they are first leaned on, `b1`, `b2`, ..."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, str | None], str] = {}
        self._lines: list[Basis] = []

    def refer(self, key: str, status: str | None = None) -> str:
        name = self._found.get((key, status))
        return name if name is not None else self._add((key, status), basis(key, status))

    def refer_clause(self, clause: Clause) -> str:
        line = clause.basis()
        return self._add((line.id, line.status), line)

    def _add(self, at: tuple[str, str | None], line: Basis) -> str:
        name = self._found.get(at)
        if name is None:
            name = self._found[at] = f"b{len(self._found) + 1}"
            self._lines.append(Basis(name, line.document, line.place, line.edition, line.status))
        return name

    @property
    def items(self) -> tuple[Basis, ...]:
        return tuple(self._lines)


def report(
    site: Site,
    base: Evaluation,
    verdicts: dict[tuple[int, str], str],
    swings: list[Swing],
    hangs_on: dict[int, tuple[str, ...]],
    left_out: tuple[str, ...],
    *,
    with_figures: bool = True,
) -> LoadCheckResult:
    """The answer in the order a person reads it.

    verdicts : per case and aspect; left_out : codes of what was too much to check. with_figures : whether cases tell
    the figures of their rows.
    """
    leaned_on = _BasisList()
    findings = _findings(base, leaned_on, deciding_layers(site))
    ordered = _ordered(base.assumptions, swings)
    names = {item.key: f"a{n}" for n, item in enumerate(ordered, start=1)}
    waits: dict[int, str] = {}
    for swing in swings:
        for case, _ in swing.then:
            # a case that fails in another aspect too waits for nothing
            if worst(verdicts[case, aspect] for aspect in ASPECTS) == "unknown":
                waits.setdefault(case, swing.key)
    by_pointer = {item.pointer: item.key for item in reversed(ordered)}
    # several assumptions can lie at one pointer, above all at the reference to a catalogue entry
    asked_by = {(item.code, item.pointer): item.key for item in reversed(ordered)}
    for n in range(len(base.sets)):
        if n not in waits and "unknown" in (verdicts[n, "capacity"], verdicts[n, "safety"]):
            open_checks = (*base.case_checks[n], *base.site_checks)
            asked = [
                asked_by.get((ASKS[check.code], check.pointer)) if check.code in ASKS else by_pointer.get(check.pointer)
                for check in open_checks
                if check.verdict == "unknown" and check.aspect != "code"
            ]
            found = next((key for key in asked if key is not None), None)
            if found is not None:
                waits[n] = found
    verdict, not_assessed = answer_verdicts(site, base, verdicts, left_out)
    cases = tuple(
        CaseResult(
            running.id,
            running.running,
            worst(verdicts[n, aspect] for aspect in ("capacity", "safety")),
            names[waits[n]] if n in waits else None,
            tuple(names[key] for key in hangs_on.get(n, ()) if key in names),
            after_trip_figures(base.settled, base.after, base.starts, n) if base.after and with_figures else (),
            tuple(
                case_row(base, r, worst(verdicts[n, aspect] for aspect in ("capacity", "safety")))
                for r, row in enumerate(base.rows)
                if with_figures and row.case == n
            ),
        )
        for n, running in enumerate(base.sets)
    )
    asked_first = ordered[0].key if swings else next(iter(waits.values()), None)
    question = names.get(asked_first or _open_code_question(site, base, by_pointer) or "")
    unplug_first = tuple(
        dict.fromkeys(
            check.subject for checks in base.case_checks for check in checks if check.code == "restart_without_warning"
        )
    )
    card = crew_card(
        tuple(
            CaseSummary(case.running, case.verdict, _reason(base, n, verdicts), *_care(base, n))
            for n, case in enumerate(cases)
        ),
        ASSUMPTION_CODES[asked_first.split(":", 1)[0]].how_to_find_out if asked_first else None,
        trip_told(base.settled, base.after, base.starts, unplug_first),
        not starts_are_open(base.starts, base.sets),
        _not_allowed(base),
        _dangers(base),
    )
    by_key = {swing.key: swing for swing in swings}
    results = tuple(_assumption(item, site, names, base, by_key, hangs_on, leaned_on) for item in ordered)
    for cord in base.settled.cords:
        for key, status in cord.basis:
            leaned_on.refer(key, status)
    return LoadCheckResult(
        verdict,
        question,
        card,
        findings,
        results,
        cases,
        not_assessed,
        leaned_on.items,
    )


def _not_allowed(base: Evaluation) -> str | None:
    """What a rule forbids, for the crew: a code verdict is of the site, and no case shows it."""
    failing = (check for check in code_checks(base) if check.verdict == "fail")
    return next((text_of(check, base.settled, for_crew=True) for check in failing), None)


def _dangers(base: Evaluation) -> tuple[str, ...]:
    """What can hurt somebody whichever tools run; no case shows it where something else fails in it too."""
    failing = (check for check in base.site_checks if check.aspect == "safety" and check.verdict == "fail")
    return tuple(dict.fromkeys(text_of(check, base.settled, for_crew=True) for check in failing))


def _open_code_question(site: Site, base: Evaluation, by_pointer: dict[str, str]) -> str | None:
    """What keeps the code verdict open, asked when nothing else is."""
    if site.code_basis is None:
        return by_pointer.get("/code_basis")
    asked = [check.pointer for check in code_checks(base) if check.verdict == "unknown"]
    return next((by_pointer[pointer] for pointer in asked if pointer in by_pointer), None)


def _findings(base: Evaluation, leaned_on: _BasisList, layers: tuple[str, ...]) -> tuple[Finding, ...]:
    """Checks that do not pass, and what is only told, gathered by code and place."""
    first: dict[tuple[str, str, str], tuple[Check, list[str], str]] = {}

    def add(check: Check, case: str | None) -> None:
        code = FINDING_CODES[check.code]
        if check.verdict == "pass" and code.verdict != "pass" and not check.told:
            return
        found = first.setdefault((check.code, check.pointer, check.subject), (check, [], check.verdict))
        if case is not None and case not in found[1]:
            found[1].append(case)
        if worst((found[2], check.verdict)) != found[2]:
            first[check.code, check.pointer, check.subject] = (found[0], found[1], check.verdict)

    for check in base.site_checks:
        add(check, None)
    for n, running in enumerate(base.sets):
        for check in base.case_checks[n]:
            add(check, running.id)
        for row, checks in zip(base.rows, base.row_checks, strict=True):
            if row.case == n:
                for check in checks:
                    add(check, running.id)
    stated: dict[tuple[str, str, str], dict[Clause, None]] = {}
    for checks in (base.site_checks, *base.case_checks):
        for check in checks:
            stated.setdefault((check.code, check.pointer, check.subject), {}).update(dict.fromkeys(check.clauses))
    found: list[Finding] = []
    for at, (check, cases, verdict) in first.items():
        of_rules = (one for rule in FINDING_CODES[check.code].rules for one in clauses(rule, layers))
        behind = tuple(stated.get(at, ())) or tuple(of_rules)
        found.append(_finding(check, cases, verdict, base.settled, leaned_on, behind))
    found.sort(
        key=lambda item: (
            SEVERITIES.index(item.severity), ASPECT_ORDER.index(item.aspect), item.code, item.pointer,
        )
    )  # fmt: skip
    return tuple(found)


def _finding(
    check: Check,
    cases: list[str],
    verdict: str,
    settled: SettledSite,
    leaned_on: _BasisList,
    behind: tuple[Clause, ...],
) -> Finding:
    code = FINDING_CODES[check.code]
    # a danger that shows only at the high estimate, or hangs on a question, is a caution
    severity = "caution" if code.severity == "danger" and verdict in ("marginal", "unknown") else code.severity
    if check.told:
        severity = "info"
    return Finding(
        check.code,
        severity,
        code.aspect,
        check.pointer,
        text_of(check, settled),
        code.what_to_do.format(subject=check.subject, limit_text=check.limit_text),
        tuple(cases),
        check.figure or code.figure if check.value is not None else None,
        check.value,
        check.limit,
        (
            # a whole document stands in only where no clause of a layer asked for does
            *(
                leaned_on.refer(key)
                for key in tables_of(code, [b for c in settled.cords if c.pointer == check.pointer for b, _ in c.basis])
                if not (behind and key.startswith("clauses_"))
            ),
            *(leaned_on.refer_clause(clause) for clause in behind),
        ),
        fails=verdict == "fail" and not check.told,
    )


def text_of(check: Check, settled: SettledSite, *, for_crew: bool = False) -> str:
    """What a check says, as a sentence; with `for_crew` without clauses."""
    value = ""
    if check.value is not None:
        value = against(check.value, check.limit, check.unit)
    code = FINDING_CODES[check.code]
    text = (code.card if for_crew and code.card else code.text).format(
        subject=_subject(check, settled),
        value=value,
        limit=as_marked(check.limit, check.unit) if check.limit is not None else "",
        value_text=check.value_text,
        limit_text=check.limit_text,
        other=check.value_text,
        case=check.value_text or check.subject,
    )
    # only our own words start a sentence with a capital: an id is written as its owner writes it
    return text[0].upper() + text[1:] if value and text.startswith(value) else text


def _subject(check: Check, settled: SettledSite) -> str:
    """A circuit that nobody named is called after its receptacles."""
    for i, circuit in enumerate(settled.source.circuits):
        if circuit.id == check.subject and circuit.id.startswith(("assumed-", "own-")):
            served = [item.id for item in settled.source.receptacles if item.circuit == i]
            return f"of {', '.join(served)}" + (", if they share it" if len(served) > 1 else "")
    if check.subject in ("assumed-output", "running", AT_ALTITUDE):
        name = settled.source.source.name or "the source"
        return f"{name} at this altitude and heat" if check.subject == AT_ALTITUDE else name
    return check.subject


def _reason(base: Evaluation, case: int, verdicts: dict[tuple[int, str], str]) -> str | None:
    """Why a case fails: the text of its first failing check, capacity first, since a crew asks what is too much.

    What only a push brings comes last: without one the case would fail all the same.
    """
    for aspect in ("capacity", "safety"):
        if verdicts[case, aspect] != "fail":
            continue
        rows = [(row.pushed, found) for row, found in zip(base.rows, base.row_checks, strict=True) if row.case == case]
        steady = [check for pushed, found in rows if pushed is None for check in found]
        pushes = [check for pushed, found in rows if pushed is not None for check in found]
        for check in (*steady, *base.case_checks[case], *base.site_checks, *pushes):
            if check.aspect == aspect and check.verdict == "fail":
                return text_of(check, base.settled, for_crew=True)
    return None


def _care(base: Evaluation, case: int) -> tuple[str | None, bool]:
    """What a marginal case hangs on besides a push, and whether a push breaks it: starts first, the site's own last."""
    told = ("capacity", "safety")
    steady: list[Check] = []
    push_breaks = False
    for row, found in zip(base.rows, base.row_checks, strict=True):
        if row.case != case:
            continue
        open_checks = [check for check in found if check.aspect in told and check.verdict != "pass"]
        if row.pushed is not None and base.settled.placements[row.pushed].state("heavy").lasts_s < SHORT_PUSH_S:
            worse = any(check.verdict == "fail" for check in open_checks)
            push_breaks = push_breaks or worse or (bool(open_checks) and not steady)
        else:
            steady += open_checks
    starts = [check for check in base.start_checks[case] if check.aspect == "capacity"]
    for check in (*starts, *steady, *base.case_checks[case], *(() if push_breaks else base.site_checks)):
        if check.aspect in told and check.verdict == "marginal":
            return text_of(check, base.settled, for_crew=True), push_breaks
    return None, push_breaks


def _ordered(assumptions: tuple[Assumption, ...], swings: list[Swing]) -> list[Assumption]:
    swung = {swing.key: len(swing.then) for swing in swings}

    def rank(item: tuple[int, Assumption]) -> tuple[int, int, int, int]:
        place, assumption = item
        return (
            -swung.get(assumption.key, 0),
            1 if assumption.code in QUIET else 0,
            0 if assumption.if_instead is not None else 1,
            place,
        )

    return [item for _, item in sorted(enumerate(assumptions), key=rank)]


def _assumption(
    item: Assumption,
    site: Site,
    names: dict[str, str],
    base: Evaluation,
    swings: dict[str, Swing],
    hangs_on: dict[int, tuple[str, ...]],
    leaned_on: _BasisList,
) -> AssumptionResult:
    """swings : by the key of their assumption."""
    code, own = ASSUMPTION_CODES[item.code], item.key
    swing = swings.get(own)
    cases: dict[int, None] = {}
    if swing is not None:
        cases = dict.fromkeys(case for case, _ in swing.then)
    else:
        cases = {case: None for case, keys in hangs_on.items() if own in keys}
    other = assumption_edit(site, base.settled, item)
    return AssumptionResult(
        names[own],
        item.code,
        item.pointer,
        item.value,
        code.why,
        code.how_to_find_out,
        item.if_instead,
        other.changes(site) if other is not None else (),
        swing.told if swing else None,
        tuple(base.sets[case].id for case in cases),
        (leaned_on.refer(code.basis),) if code.basis else (),
    )
