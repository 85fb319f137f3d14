"""What more does a load check say when it is asked to?

Each word of `INCLUSIONS` names a part that costs more than a check itself and is off otherwise. Parts that find
something wrong (a short that nothing clears, a trip that is likely within the shift) add findings and take the verdict
with them: an answer that was asked for never says pass beside them.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from ampwright.engine.calculations.break_evens import break_evens
from ampwright.engine.calculations.code_rules import deciding_layers
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.largest_sets import LargestSet, largest_sets
from ampwright.engine.calculations.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check_faults import FaultFigure, RunFault, run_faults
from ampwright.engine.calculations.load_check_report import ASPECT_ORDER, SEVERITIES
from ampwright.engine.calculations.load_check_result import CaseResult, Finding, LoadCheckResult, Verdicts
from ampwright.engine.calculations.shift_use import ShiftItem, ShiftUse, shift_use
from ampwright.engine.calculations.spare_load import SpareLoad, spare_loads
from ampwright.engine.calculations.start_order import StartOrder, start_orders
from ampwright.engine.calculations.trip_curves import TripCurve, trip_curves
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.calculations.wording import two_digits, with_unit
from ampwright.engine.site.use import Site
from ampwright.engine.standards.citations import Basis, basis
from ampwright.engine.standards.rule_layers import Clause, clauses

INCLUSIONS = ("break_evens", "faults", "largest_sets", "shift", "trip_curves")
LIKELY_RATIO = 0.05  # of a shift: more than one shift in twenty is told; common practice, no source


@dataclass(frozen=True, slots=True)
class Included:
    """Parts that were asked for; None where they were not."""

    spare: tuple[SpareLoad, ...] | None = None
    faults: tuple[FaultFigure, ...] | None = None
    shift: ShiftUse | None = None
    largest_sets: tuple[LargestSet, ...] | None = None
    start_orders: tuple[StartOrder, ...] | None = None
    trip_curves: tuple[TripCurve, ...] | None = None


def with_included(
    site: Site, result: LoadCheckResult, words: Collection[str], shift_s: float | None = None
) -> tuple[LoadCheckResult, Included]:
    """The result with what was asked for, and the parts beside it.

    site : sound, that of the result. words : of INCLUSIONS. shift_s : [s], eight hours where None.
    Errors: none.
    """
    if not words:
        return result, Included()
    base = evaluate(site, frozenset())
    included = Included()
    if "faults" in words:
        judged = run_faults(base)
        result = _with_faults(site, base, result, judged)
        included = replace(included, faults=tuple(item.figure for item in judged))
    if "shift" in words:
        use = shift_use(base.settled, shift_s)
        result = _with_trips(base, result, use)
        included = replace(included, shift=use)
    if "break_evens" in words:
        result = replace(result, findings=break_evens(site, result.findings))
        included = replace(included, spare=spare_loads(site))
    if "largest_sets" in words:
        sets, orders = largest_sets(site, base.settled), start_orders(site, base)
        included = replace(included, largest_sets=sets, start_orders=orders)
    if "trip_curves" in words:
        included = replace(included, trip_curves=trip_curves(base.settled))
    return result, included


def _with_faults(
    site: Site, base: Evaluation, result: LoadCheckResult, judged: tuple[RunFault, ...]
) -> LoadCheckResult:
    leaned_on = _Leaned(result.basis)
    found: list[Finding] = []
    hit: dict[str, str] = {}
    for item in judged:
        line = item.line
        if line.verdict == "pass" or line.finding is None:
            continue
        cases = tuple(running.id for running in base.sets if set(item.tools) & set(running.placements))
        behind = [clause for rule in line.rules for clause in clauses(rule, deciding_layers(site))]
        found.append(
            _finding(
                line.finding,
                line.verdict,
                item.pointer,
                {"subject": item.figure.cord, "value_text": line.value_text, "limit_text": line.limit_text},
                cases,
                (*(leaned_on.refer(key) for key, _ in line.basis), *(leaned_on.refer_clause(one) for one in behind)),
            )
        )
        for case in cases:
            hit[case] = worst((hit.get(case, "pass"), line.verdict))
    return _told(result, found, hit, "safety", leaned_on.lines)


def _with_trips(base: Evaluation, result: LoadCheckResult, use: ShiftUse) -> LoadCheckResult:
    pointers = {("circuit", item.id): item.pointer for item in base.settled.source.circuits}
    pointers |= {("limit", item.id): item.pointer for item in base.settled.source.limits}
    found = [
        _finding(
            "trips_in_shift",
            "marginal",
            pointers[item.kind, item.id],
            {"subject": item.id, "value_text": _chance(item), "limit_text": with_unit(item.rating, item.unit)},
            (),
            (),
            figure="trip_probability_ratio",
            value=item.trip_probability_ratio.typical,
        )
        for item in use.items
        if item.trip_probability_ratio is not None and item.trip_probability_ratio.high >= LIKELY_RATIO
    ]
    return _told(result, found, {}, "capacity", ())


def _chance(item: ShiftItem) -> str:
    band = item.trip_probability_ratio
    assert band is not None
    low, high = (f"{two_digits(100.0 * value)} %" if value < 1.0 else "all" for value in (band.low, band.high))
    return f"in {low} of shifts" if low == high else f"in {low} to {high} of shifts"


def _finding(
    code: str,
    verdict: str,
    pointer: str,
    words: dict[str, str],
    cases: tuple[str, ...],
    leaned: tuple[str, ...],
    figure: str | None = None,
    value: float | None = None,
) -> Finding:
    known = FINDING_CODES[code]
    severity = "caution" if known.severity == "danger" and verdict in ("marginal", "unknown") else known.severity
    said = {"value": "", "limit": "", "other": "", "case": "", **words}
    return Finding(
        code,
        severity,
        known.aspect,
        pointer,
        known.text.format(**said),
        known.what_to_do.format(**said),
        cases,
        figure,
        value,
        None,
        leaned,
    )


def _told(
    result: LoadCheckResult, found: list[Finding], hit: dict[str, str], aspect: str, lines: tuple[Basis, ...]
) -> LoadCheckResult:
    """The result with these findings, and the verdicts that go with them."""
    if not found:
        return result
    findings = sorted(
        (*result.findings, *found),
        key=lambda item: (
            SEVERITIES.index(item.severity), ASPECT_ORDER.index(item.aspect), item.code, item.pointer,
        ),
    )  # fmt: skip
    before = result.verdict
    then = worst(hit.values()) if hit else "marginal"
    verdict = Verdicts(
        worst((before.overall, then)),
        worst((before.capacity, then)) if aspect == "capacity" else before.capacity,
        worst((before.safety, then)) if aspect == "safety" else before.safety,
        before.code,
    )
    cases = tuple(_hit(case, hit) for case in result.cases)
    return replace(result, verdict=verdict, findings=tuple(findings), cases=cases, basis=(*result.basis, *lines))


def _hit(case: CaseResult, hit: dict[str, str]) -> CaseResult:
    then = worst((case.verdict, hit.get(case.id, "pass")))
    if then == case.verdict:
        return case
    # what fails now waits for no answer any more
    return replace(case, verdict=then, waits_for=None if then == "fail" else case.waits_for)


class _Leaned:
    """Citations added to those of an answer, `b12`, `b13`, ..."""

    def __init__(self, there: tuple[Basis, ...]) -> None:
        self._first = len(there)
        self._names = {(one.document, one.place, one.edition, one.status): one.id for one in there}
        self._lines: list[Basis] = []

    @property
    def lines(self) -> tuple[Basis, ...]:
        return tuple(self._lines)

    def refer(self, key: str) -> str:
        return self._add(basis(key, None))

    def refer_clause(self, clause: Clause) -> str:
        return self._add(clause.basis())

    def _add(self, line: Basis) -> str:
        at = (line.document, line.place, line.edition, line.status)
        if at not in self._names:
            name = f"b{self._first + len(self._lines) + 1}"
            self._names[at] = name
            self._lines.append(Basis(name, line.document, line.place, line.edition, line.status))
        return self._names[at]
