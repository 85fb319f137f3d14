"""POST /v1/kit-validations: which of these kits does its job on which source of the yard, and what is missing?"""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from ampwright.api.ndjson import LINES, streamed
from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError
from ampwright.contract.kit_validations import KitValidationAnswer, KitValidationLine, KitValidationRequest
from ampwright.contract.matrix_parts import MatrixProgress
from ampwright.contract.sheet_text import csv_line
from ampwright.studies.kit_validation import KitValidation
from ampwright.studies.kit_validation_sheet import COLUMNS, cells_of
from ampwright.studies.load_check import RefusedRequest

CSV = "text/csv"
MOST_AT_ONCE = 600  # rows of one JSON answer; more are sent as lines
PROGRESS_EVERY_S = 5.0  # proxies close what is silent for a minute; common practice, no source

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
    better. Where a kit does not say how it is plugged in, a plan is made and told. What is wrong with one row stands in
    that row; the others are answered. Up to 600 rows come as one JSON answer; accept application/x-ndjson for up to
    50,000 as lines while they are made, or text/csv for a spreadsheet. Rows that ask the same are worked out once. A
    broken stream has no `end` line: ask for the rest with `rows`.
    """
    if call.media_type == LINES:
        return await streamed(call, "long", lambda: _lines(_begun(body, call)))
    if call.media_type == CSV:
        return await streamed(call, "long", lambda: _sheet(_begun(body, call)), media_type=CSV)
    return Reply(await call.run("long", lambda: _at_once(body, call)))


def _begun(body: KitValidationRequest, call: Call) -> tuple[KitValidation, Call]:
    try:
        return KitValidation(call.services.store, body), call
    except RefusedRequest as refused:
        raise ProblemError.of_faults("contradictory-request", refused.faults) from None


def _at_once(body: KitValidationRequest, call: Call) -> KitValidationAnswer:
    made, _ = _begun(body, call)
    if len(made.rows) > MOST_AT_ONCE:
        said = f"{len(made.rows)} rows are asked for, and {MOST_AT_ONCE} are answered at once. Accept {LINES}, or ask"
        raise ProblemError("too-much-work", f"{said} for some by `rows`.")
    rows = [row for row in made.made(call.cancel.check) if row is not None]
    return KitValidationAnswer(
        counts=made.counts, rows=rows, rows_in_all=made.matrix.rows, computed=made.computed, **made.stamp
    )


def _lines(begun: tuple[KitValidation, Call]) -> Iterator[Struct]:
    made, call = begun
    yield made.head()
    last = time.monotonic()
    for row in made.made(call.cancel.check):
        now = time.monotonic()
        if row is not None:
            last = now
            yield row
        elif now - last >= PROGRESS_EVERY_S:
            last = now
            yield MatrixProgress(rows=made.sent, of=len(made.rows))
    yield made.end()


def _sheet(begun: tuple[KitValidation, Call]) -> Iterator[Any]:
    made, call = begun
    yield csv_line(COLUMNS)
    for row in made.made(call.cancel.check):
        if row is not None:
            yield csv_line(cells_of(row))
