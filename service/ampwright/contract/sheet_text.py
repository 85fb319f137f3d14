"""What do the cells of a spreadsheet say, as CSV text, and how are they written so that no program runs them?

Read: RFC 4180, with a byte order mark, semicolons or tabs as spreadsheets of other countries write them. Row 1 is the
header, as a spreadsheet counts. Written: a cell that a spreadsheet would take for a formula gets an apostrophe before
it, which reading takes off again (CWE-1236, improper neutralization of formula elements in a CSV file).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ampwright.engine.site.nearest import nearest, shown

MOST_ROWS = 20_000
MOST_FAULTS = 10_000
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_REFUSED = ("=", "+", "@")  # a minus begins a figure below zero


@dataclass(frozen=True, slots=True)
class SheetFault:
    """What is wrong with a cell. row : as a spreadsheet counts, the header being 1; column : empty for a whole row."""

    row: int
    column: str
    code: str
    message: str
    did_you_mean: str | None = None


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A row with the cells that are filled, by column."""

    number: int
    cells: dict[str, str]


def read_csv(text: str, columns: Sequence[str]) -> tuple[list[SheetRow], list[SheetFault]]:
    """The rows that hold anything, and every fault of header and cells. Faults of the header leave no rows."""
    text = text.removeprefix("\ufeff")
    first = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    faults: list[SheetFault] = []
    rows: list[SheetRow] = []
    header: list[str] = []
    number = 0
    try:
        for number, raw in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True), 1):
            if number == 1:
                header = [cell.strip().lower() for cell in raw]
                faults = _header_faults(header, columns)
                if faults:
                    return [], faults
                continue
            cells = [cell.strip() for cell in raw]
            if not any(cells):
                continue
            if number > MOST_ROWS:
                faults.append(SheetFault(number, "", "too_many_rows", f"A sheet has at most {MOST_ROWS} rows."))
                break
            if any(cells[len(header) :]):
                faults.append(SheetFault(number, "", "cell_without_header", "A cell stands beyond the last column."))
            filled = {}
            for name, cell in zip(header, cells, strict=False):
                if not cell or not name:
                    continue
                if cell.startswith(_REFUSED):
                    message = f"{shown(cell)} is a formula, not its value; text that begins so has an apostrophe first."
                    faults.append(SheetFault(number, name, "formula", message))
                    continue
                filled[name] = unguarded(cell)
            rows.append(SheetRow(number, filled))
    except csv.Error as error:
        faults.append(SheetFault(number + 1, "", "not_csv", f"From here on this is no CSV: {error}."))
    if not header:
        faults.append(SheetFault(1, "", "no_header", "The first row names the columns."))
    return rows, faults[:MOST_FAULTS]


def _header_faults(header: Sequence[str], columns: Sequence[str]) -> list[SheetFault]:
    faults = []
    for place, name in enumerate(header):
        if name and name not in columns:
            message = f"There is no column {shown(name)}."
            faults.append(SheetFault(1, name[:80], "unknown_column", message, nearest(name, columns)))
        elif name and name in header[:place]:
            faults.append(SheetFault(1, name, "repeated_column", f"The column {name} is there twice."))
    if columns[0] not in header:
        faults.append(SheetFault(1, columns[0], "missing_column", f"There is no column {columns[0]}."))
    return faults


def write_csv(columns: Sequence[str], rows: Iterable[dict[str, str]]) -> str:
    """CSV with CR LF, as RFC 4180 has it; a column that a row lacks is an empty cell."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([guarded(row.get(name, "")) for name in columns])
    return out.getvalue()


def csv_line(cells: Sequence[str]) -> bytes:
    """One row of CSV, as `write_csv` writes it."""
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerow([guarded(cell) for cell in cells])
    return out.getvalue().encode()


def guarded(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return "'" + cell if cell.startswith(_FORMULA) or _looks_guarded(cell) else cell


def unguarded(cell: str) -> str:
    """The cell that `guarded` was given."""
    return cell[1:] if _looks_guarded(cell) else cell


def _looks_guarded(cell: str) -> bool:
    return cell.startswith("'") and cell[1:].startswith((*_FORMULA, "'"))
