"""How do rows over many kits and sources leave the service: at once, as lines, or as a spreadsheet?"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

from msgspec import Struct, structs

from ampwright.api.ndjson import LINES
from ampwright.api.operations import Call
from ampwright.api.problems import ProblemError
from ampwright.contract.matrix_parts import MatrixProgress
from ampwright.contract.sheet_text import csv_line
from ampwright.studies.load_check import RefusedRequest
from ampwright.studies.matrix_rows import MatrixRows

CSV = "text/csv"
MOST_AT_ONCE = 600  # rows of one JSON answer; more are sent as lines
STAMP_COLUMNS = ("engine_version", "catalogue_release", "withdrawals_as_of", "request_digest")
SLICE_S = 1.0  # of the lane, before others get their turn
PROGRESS_EVERY_S = 5.0  # proxies close what is silent for a minute; common practice, no source

R = TypeVar("R", bound=Struct)
MatrixOfRows = TypeVar("MatrixOfRows", bound=MatrixRows[Any, Any])
Made = TypeVar("Made")


def begun(make: Callable[[], Made]) -> Made:
    """What `make` gives. Errors: ProblemError for a request that makes no sense as a whole."""
    try:
        return make()
    except RefusedRequest as refused:
        raise ProblemError.of_faults("contradictory-request", refused.faults) from None


async def all_rows(begin: Callable[[], MatrixOfRows], call: Call) -> tuple[MatrixOfRows, list[Any]]:
    """What `begin` makes, and all its rows, made in the long lane a slice at a time, so that others get in between.

    Errors: those of `begin`; ProblemError where the rows are too many to be answered at once.
    """

    def first() -> tuple[MatrixOfRows, Iterator[Any]]:
        made = begin()
        if len(made.rows) > MOST_AT_ONCE:
            said = (
                f"{len(made.rows)} rows are asked for, and {MOST_AT_ONCE} are answered at once. Accept {LINES}, or ask"
            )
            raise ProblemError("too-much-work", f"{said} for some by `rows`.")
        return made, made.made(call.cancel.check)

    made, rest = await call.run("long", first)
    rows: list[Any] = []
    while await call.run("long", _slice, rest, rows, let_in=True):
        pass
    return made, rows


def _slice(rest: Iterator[Any], rows: list[Any]) -> bool:
    """Rows made for a while; whether there may be more."""
    ends_at = time.monotonic() + SLICE_S
    for row in rest:
        if row is not None:
            rows.append(row)
        if time.monotonic() >= ends_at:
            return True
    return False


def lines_of(made: Any, call: Call) -> Iterator[Struct]:
    """Head, rows, progress where rows take long, and end."""
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


def sheet_of(
    made: MatrixRows[Any, R], call: Call, columns: Sequence[str], cells: Callable[[R], list[str]]
) -> Iterator[bytes]:
    """A header, a line for each row, and one of the kind `end`: a sheet without it was cut off.

    Every line says what it rests on, so that it still does where it is pasted elsewhere. RFC 4180 knows no comments, so
    the last line has as many fields as the others; its `index` is the row after the last one sent.
    """
    stamp = [str(made.stamp.get(name, "")) for name in STAMP_COLUMNS]
    yield csv_line(("kind", *columns, *STAMP_COLUMNS, "counts"))
    for row in made.made(call.cancel.check):
        if row is not None:
            yield csv_line(("row", *cells(row), *stamp, ""))
    end = made.end()
    counts = {"rows": end.rows, "computed": end.computed, **structs.asdict(end.counts)}
    empty = [""] * (len(columns) - 1)
    said = "; ".join(f"{name}={count}" for name, count in counts.items())
    yield csv_line(("end", str(end.next_index), *empty, *stamp, said))
