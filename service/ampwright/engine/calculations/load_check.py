"""Which of these tools run on this source, alone and together, and what must be known first?

Settles every unknown on its safe side, solves all rows in one batch, holds each figure against its limit, and where a
case fails asks of each assumption whether it alone decides: then the verdict is `unknown`, and the answer names the
question. Two that decide only together leave `fail`, and the case names them.

Errors: ValueError from a site that validation refuses; none otherwise.
Not here: HTTP, references, rounding for the wire (studies), and what stands in `not_assessed`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ampwright.engine.calculations.capacity_rules import Check, check_row
from ampwright.engine.calculations.cases import RunningSet, rows_of, running_sets
from ampwright.engine.calculations.code_rules import code_case_checks, code_site_checks
from ampwright.engine.calculations.load_check_report import report
from ampwright.engine.calculations.load_check_result import LoadCheckResult
from ampwright.engine.calculations.load_network import Row, RowFigures, solve_rows
from ampwright.engine.calculations.lost_neutral import lost_neutral_checks
from ampwright.engine.calculations.plate_rules import plate_checks
from ampwright.engine.calculations.safety_rules import case_checks, site_checks
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.ledger import Assumption, Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Site

ASPECTS = ("capacity", "safety")
# which assumptions are tried the other way first; past the cap the safe side stands
INFLUENCE = (
    "connections_assumed",
    "limit_continuous",
    "circuit_shared",
    "receptacle_rating",
    "plate_unknown",
    "reset",
    "cord_size",
    "cord_laid",
    "limit_peak",
    "switch",
    "restart_protection",
)
SAFETY_ONLY = frozenset({"reset", "switch", "restart_protection"})
MOST_TRIED = 48


@dataclass(frozen=True, slots=True)
class Evaluation:
    """One site under one set of flipped assumptions."""

    settled: SettledSite
    assumptions: tuple[Assumption, ...]
    sets: tuple[RunningSet, ...]
    rows: tuple[Row, ...]
    figures: RowFigures
    row_checks: tuple[tuple[Check, ...], ...]
    case_checks: tuple[tuple[Check, ...], ...]
    site_checks: tuple[Check, ...]

    def aspect(self, case: int, name: str) -> str:
        """Verdict of one aspect of one case: what only a push breaks is marginal."""
        fixed = worst(check.verdict for check in (*self.case_checks[case], *self.site_checks) if check.aspect == name)
        base, pushed = "pass", "pass"
        for row, checks in zip(self.rows, self.row_checks, strict=True):
            if row.case != case:
                continue
            verdict = worst(check.verdict for check in checks if check.aspect == name)
            if row.pushed is None:
                base = verdict
            else:
                pushed = worst((pushed, verdict))
        if base == "pass" and pushed != "pass":
            danger = name == "safety" and pushed == "fail"
            base = "fail" if danger else "marginal"
        return worst((fixed, base))


@dataclass(frozen=True, slots=True)
class Swing:
    """What one assumption changes, taken the other way: per case and aspect the verdict then."""

    key: str
    then: dict[tuple[int, str], str]


def check_load(site: Site, withdrawn: tuple[tuple[str, str, str], ...] = ()) -> LoadCheckResult:
    """The answer to one load check.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn: each is a finding, and keeps
    the safety verdict from passing.
    """
    base = evaluate(site, frozenset())
    if withdrawn:
        told = tuple(
            Check("entry_withdrawn", "safety", pointer, name, "marginal", value_text=reason)
            for pointer, name, reason in withdrawn
        )
        base = replace(base, site_checks=(*base.site_checks, *told))
    verdicts = {(case, name): base.aspect(case, name) for case in range(len(base.sets)) for name in ASPECTS}
    failing = [at for at, verdict in verdicts.items() if verdict == "fail"]
    swings: list[Swing] = []
    hangs_on: dict[int, tuple[str, ...]] = {}
    if failing:
        candidates = _candidates(base.assumptions)
        swings = [swing for key in candidates if (swing := _swing(site, base, key, failing)) is not None]
        decided = {at for swing in swings for at in swing.then}
        for at in failing:
            if at in decided:
                verdicts[at] = "unknown"
        stuck = [at for at in failing if at not in decided]
        if stuck and len(candidates) > 1:
            hangs_on = _together(site, base, candidates, stuck)
    return report(site, base, verdicts, swings, hangs_on)


def evaluate(site: Site, flipped: frozenset[str], figures_of: Evaluation | None = None) -> Evaluation:
    """Everything about a site under some flipped assumptions; `figures_of` lends figures that they cannot change."""
    ledger = Ledger(flipped)
    settled = settle(site, ledger)
    sets = running_sets(site, settled)
    rows = rows_of(sets, settled)
    figures = figures_of.figures if figures_of else solve_rows(settled, rows)
    row_checks = (
        figures_of.row_checks
        if figures_of
        else tuple(check_row(settled, row, r, figures) for r, row in enumerate(rows))
    )
    return Evaluation(
        settled,
        ledger.assumptions,
        sets,
        rows,
        figures,
        row_checks,
        tuple(
            (
                *case_checks(site, settled, running),
                *lost_neutral_checks(settled, rows, number, running),
                *code_case_checks(site, settled, running, hazards_only=bool(flipped)),
            )
            for number, running in enumerate(sets)
        ),
        (
            *site_checks(site, settled),
            *plate_checks(settled),
            # no assumption is flipped for the sake of the code verdict
            *(() if flipped else code_site_checks(site, settled)),
        ),
    )


def _candidates(assumptions: Sequence[Assumption]) -> list[str]:
    found = [item for item in assumptions if item.if_instead is not None]
    found.sort(
        key=lambda item: (INFLUENCE.index(item.code) if item.code in INFLUENCE else len(INFLUENCE), item.pointer)
    )
    return [item.key for item in found[:MOST_TRIED]]


def _lends(key: str, base: Evaluation) -> Evaluation | None:
    return base if key.split(":", 1)[0] in SAFETY_ONLY else None


def _swing(site: Site, base: Evaluation, key: str, failing: list[tuple[int, str]]) -> Swing | None:
    other = evaluate(site, frozenset({key}), _lends(key, base))
    then = {at: verdict for at in failing if (verdict := other.aspect(*at)) != "fail"}
    return Swing(key, then) if then else None


def _together(
    site: Site, base: Evaluation, candidates: list[str], stuck: list[tuple[int, str]]
) -> dict[int, tuple[str, ...]]:
    """For cases that no single assumption decides: a smallest set (none of it can be left out) that does."""
    found: dict[int, tuple[str, ...]] = {}
    everything = evaluate(site, frozenset(candidates))
    for _ in range(3):
        # one answer can open another question: separate circuits make the source's total worth asking for
        opened = [key for key in _candidates(everything.assumptions) if key not in candidates]
        if not opened:
            break
        candidates = [*candidates, *opened]
        everything = evaluate(site, frozenset(candidates))
    for at in stuck:
        if everything.aspect(*at) == "fail" or at[0] in found:
            continue
        kept = list(candidates)
        for key in candidates:
            fewer = [item for item in kept if item != key]
            if evaluate(site, frozenset(fewer), _lend_all(fewer, base)).aspect(*at) != "fail":
                kept = fewer
        found[at[0]] = tuple(kept)
    return found


def _lend_all(keys: list[str], base: Evaluation) -> Evaluation | None:
    return base if all(key.split(":", 1)[0] in SAFETY_ONLY for key in keys) else None
