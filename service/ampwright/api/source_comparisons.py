"""POST /v1/source-comparisons: which of these sources suits which kit at which job, and how firmly?"""

from __future__ import annotations

from ampwright.api.matrix_streams import CSV, all_rows, begun, lines_of, sheet_of
from ampwright.api.ndjson import LINES, streamed
from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError
from ampwright.contract.source_comparisons import (
    SourceComparisonAnswer,
    SourceComparisonLine,
    SourceComparisonRequest,
)
from ampwright.studies.matrix_sheets import COMPARISON_COLUMNS, comparison_cells
from ampwright.studies.source_comparison import SourceComparison

MOST_WITH_CHANGES = 200

operations = Operations(
    "Source comparisons", "Sources against kits and jobs: what fails first, what is left, and which comes first."
)


@operations.post(
    "/v1/source-comparisons",
    "compare_sources",
    scope="calculate",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready", "overloaded"),
    line=SourceComparisonLine,
    streams=(CSV,),
    compress=False,
)
async def compare_sources(body: SourceComparisonRequest, call: Call) -> Reply[SourceComparisonAnswer]:
    """Compare sources for kits and jobs.

    Each row is a load check of its own, and an energy budget where the day is given; nothing is a sum of watts. It
    tells what fails first and where, the amperes left, the least sure start, how power comes back, how far the energy
    goes, what a day costs, and what to bring. Sources are put in order by verdict, and among equal verdicts by the
    weights, 1 each where none are sent; small changes that would put another first are named, and the Pareto set is
    marked. Capacity is taken from the lower of label and what was seen to trip. Up to 600 rows come as one JSON answer;
    accept application/x-ndjson or text/csv for up to 50,000; a stream whose last line is not of the kind `end` was cut.
    """

    def begin() -> SourceComparison:
        made = begun(lambda: SourceComparison(call.services.store, body, call.services.settings.cost_limit_units))
        if made.with_changes and len(made.rows) > MOST_WITH_CHANGES:
            said = (
                f"Changes are looked for in up to {MOST_WITH_CHANGES} rows a call, and {len(made.rows)} are asked for"
            )
            raise ProblemError("too-much-work", f"{said}; ask for some by `rows`.")
        return made

    if call.media_type == LINES:
        return await streamed(call, "long", lambda: lines_of(begin(), call))
    if call.media_type == CSV:
        return await streamed(
            call, "long", lambda: sheet_of(begin(), call, COMPARISON_COLUMNS, comparison_cells), media_type=CSV
        )
    made, rows = await all_rows(begin, call)
    return Reply(
        SourceComparisonAnswer(
            counts=made.counts,
            rows=rows,
            rows_in_all=made.matrix.rows,
            computed=made.cells.computed,
            weights=made.used_weights(),
            **made.stamp,
        )
    )
