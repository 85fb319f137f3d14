"""POST /v1/kit-validations: which of these kits does its job on which source of the yard, and what is missing?"""

from __future__ import annotations

from ampwright.api.matrix_streams import CSV, all_rows, begun, lines_of, sheet_of
from ampwright.api.ndjson import LINES, streamed
from ampwright.api.operations import Call, Operations, Reply
from ampwright.contract.kit_validations import KitValidationAnswer, KitValidationLine, KitValidationRequest
from ampwright.studies.kit_validation import KitValidation
from ampwright.studies.matrix_sheets import KIT_COLUMNS, kit_cells

operations = Operations(
    "Kit validations", "Many kits on many sources for many jobs, for dispatch: a verdict a row, and what is missing."
)


@operations.post(
    "/v1/kit-validations",
    "validate_kits",
    scope="calculate",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready", "overloaded"),
    line=KitValidationLine,
    streams=(CSV,),
    compress=False,
)
async def validate_kits(body: KitValidationRequest, call: Call) -> Reply[KitValidationAnswer]:
    """Check many kits on many sources for many jobs.

    Each row is a load check of its own, and an energy budget where the day is given: a verdict, one sentence for the
    crew, what to bring and why, what would make the answer void, and on which other source of the yard the kit does
    better. Where a kit does not say how it is plugged in, a plan is made and told. What is wrong with one kit,
    source, job or row stands in its rows; the others are answered. An item whose id cannot be read, or is taken, is
    named by `#` and its place. Up to 600 rows come as one JSON answer; accept application/x-ndjson for up to 50,000
    as lines while they are made, or text/csv for a spreadsheet. Rows that ask the same are worked out once. A broken
    stream, of lines or of CSV, has no last line of the kind `end`: ask for the rest with `rows`.
    """

    def begin() -> KitValidation:
        return begun(lambda: KitValidation(call.services.store, body, call.services.settings.cost_limit_units))

    if call.media_type == LINES:
        return await streamed(call, "long", lambda: lines_of(begin(), call))
    if call.media_type == CSV:
        return await streamed(call, "long", lambda: sheet_of(begin(), call, KIT_COLUMNS, kit_cells), media_type=CSV)
    made, rows = await all_rows(begin, call)
    return Reply(
        KitValidationAnswer(
            counts=made.counts,
            rows=rows,
            rows_in_all=made.matrix.rows,
            computed=made.cells.computed,
            **made.stamp,
        )
    )
