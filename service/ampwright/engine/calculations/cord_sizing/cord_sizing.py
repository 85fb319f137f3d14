"""Which cord for this tool, distance and receptacle; is this run good enough; how far may it go; which one to use?

One model for all four: candidate runs are solved side by side in the load check's own network, held against every
rule, and where one fails each assumption is asked whether it alone decides: then the row is `unknown` and names it.
Those that decide only together leave it at `fail`, and are named too.

Errors: ValueError from a question that validation refuses; none otherwise.
Not here: HTTP, references (studies/cord_sizing.py).
"""

from __future__ import annotations

from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation, SizingEvaluation, evaluate
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.cord_sizing.cord_sizing_questions import waits_of
from ampwright.engine.calculations.cord_sizing.cord_sizing_reach import RunReach, reaches
from ampwright.engine.calculations.cord_sizing.cord_sizing_report import report
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import CordSizingResult
from ampwright.engine.calculations.cord_sizing.cord_sizing_runs import candidates

NEW_CORD_LAID = "/new_cord/laid"


def size_cords(question: CordQuestion, withdrawn: tuple[tuple[str, str, str], ...] = ()) -> CordSizingResult:
    """The answer to one cord question.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn; each is a finding.
    """
    found = candidates(question)
    base = evaluate(question, found.runs)
    waits = waits_of(question, base)
    alone = [n for n, run in enumerate(found.runs) if len(run.cords) == 1]
    reached = dict(zip(alone, reaches(question, [found.runs[n] for n in alone]), strict=True))
    unrolled = _unrolled(question, base)
    reach: list[RunReach | None] = [reached.get(n) for n in range(len(found.runs))]
    return report(question, base, waits, unrolled, reach, found.left_out, withdrawn)


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
