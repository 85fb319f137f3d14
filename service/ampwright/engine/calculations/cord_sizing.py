"""Which cord for this tool, distance and receptacle; is this run good enough; how far may it go; which one to use?

One model for all four: candidate runs are solved side by side in the load check's own network, held against every
rule, and where one fails each assumption is asked whether it alone decides: then the row is `unknown` and names it.

Errors: ValueError from a question that validation refuses; none otherwise.
Not here: HTTP, references (studies/cord_sizing.py), and whether a motor still starts (cord_sizing_start.py has the
seam).
"""

from __future__ import annotations

from collections.abc import Sequence

from ampwright.engine.calculations.cord_sizing_evaluation import RowEvaluation, SizingEvaluation, evaluate
from ampwright.engine.calculations.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.cord_sizing_reach import RunReach, reaches
from ampwright.engine.calculations.cord_sizing_report import report
from ampwright.engine.calculations.cord_sizing_result import CordSizingResult
from ampwright.engine.calculations.cord_sizing_runs import candidates
from ampwright.engine.site.ledger import Assumption

# which assumptions are tried the other way first; what no cord depends on is not tried
INFLUENCE = (
    "cord_laid",
    "cord_size",
    "plate_unknown",
    "receptacle_rating",
    "limit_continuous",
    "limit_peak",
)
MOST_TRIED = 24
NEW_CORD_LAID = "/new_cord/laid"


def size_cords(question: CordQuestion, withdrawn: tuple[tuple[str, str, str], ...] = ()) -> CordSizingResult:
    """The answer to one cord question.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn; each is a finding.
    """
    found = candidates(question)
    base = evaluate(question, found.runs)
    waits = _waits(question, base)
    alone = [n for n, run in enumerate(found.runs) if len(run.cords) == 1]
    reached = dict(zip(alone, reaches(question, [found.runs[n] for n in alone]), strict=True))
    unrolled = _unrolled(question, base)
    reach: list[RunReach | None] = [reached.get(n) for n in range(len(found.runs))]
    return report(question, base, waits, unrolled, reach, found.left_out, withdrawn)


def _waits(question: CordQuestion, base: SizingEvaluation) -> dict[int, str]:
    """For each failing row the key of the one assumption that decides, if there is one."""
    failing = [n for n, row in enumerate(base.rows) if row.verdict == "fail"]
    found: dict[int, str] = {}
    for assumption in _tried(base.assumptions):
        touched = [n for n in failing if n not in found and _touches(assumption, base.rows[n])]
        if not touched:
            continue
        other = evaluate(question, [base.rows[n].run for n in touched], frozenset({assumption.key}), all_lines=False)
        for n, row in zip(touched, other.rows, strict=True):
            if row.verdict != "fail":
                found[n] = assumption.key
    return found


def _unrolled(question: CordQuestion, base: SizingEvaluation) -> dict[int, RowEvaluation]:
    """Sizes to bring as they would be laid out, where how the cord will lie was not given."""
    key = next(
        (item.key for item in base.assumptions if item.code == "cord_laid" and item.pointer == NEW_CORD_LAID), None
    )
    sizes = [n for n, row in enumerate(base.rows) if row.run.kind == "size"]
    if key is None or not sizes:
        return {}
    other = evaluate(question, [base.rows[n].run for n in sizes], frozenset({key}), all_lines=False)
    return dict(zip(sizes, other.rows, strict=True))


def _tried(assumptions: Sequence[Assumption]) -> list[Assumption]:
    swinging = [item for item in assumptions if item.if_instead is not None and item.code in INFLUENCE]
    swinging.sort(key=lambda item: (INFLUENCE.index(item.code), item.pointer))
    return swinging[:MOST_TRIED]


def _touches(assumption: Assumption, row: RowEvaluation) -> bool:
    """An assumption about a cord touches the runs that hold it; any other touches all."""
    if not assumption.code.startswith("cord_"):
        return True
    return any(f"{assumption.pointer}/".startswith(f"{cord.pointer}/") for cord in row.run.cords)
