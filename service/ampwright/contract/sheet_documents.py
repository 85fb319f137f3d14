"""Which documents do the rows of a spreadsheet stand for, and which rows a document?

An empty cell says nothing: what an entry had stays, and so does every member that has no column. Rows that name an item
by its id correct that item; rows that do not, correct the items in their order.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import msgspec
from msgspec import inspect

from ampwright.contract.document_check import Document, check_document
from ampwright.contract.documents import DOCUMENT_TYPES
from ampwright.contract.sheet_columns import ENTRY, NOT_SHOWN, REVISION, STATUS, Column, Sheet, is_keyed
from ampwright.contract.sheet_text import SheetFault, SheetRow
from ampwright.engine.site.nearest import listing, nearest, shown

Raw = dict[str, Any]
_AT = re.compile(r" - at `\$([^`]*)`$")
_STEP = re.compile(r"\.([A-Za-z0-9_]+)|\[([0-9]+)\]")
_MISSING = re.compile(r"missing required field `([a-z_]+)`")
_YES_NO = {"yes": True, "true": True, "1": True, "no": False, "false": False, "0": False}
STATUSES = ("approved", "draft")


@dataclass(slots=True)
class SheetEntry:
    """The rows of one entry. revision : what the sheet says the newest one is; None where it does not."""

    entry: str
    rows: list[SheetRow]
    revision: int | None = None
    status: str = "approved"
    document: Document | None = None
    faults: list[SheetFault] = field(default_factory=list)


def entries_of(rows: Sequence[SheetRow]) -> tuple[list[SheetEntry], list[SheetFault]]:
    """The rows by their entry, in the order in which entries appear first; rows without one are faults."""
    found: dict[str, SheetEntry] = {}
    faults: list[SheetFault] = []
    for row in rows:
        slug = row.cells.get(ENTRY, "")
        if not slug:
            faults.append(SheetFault(row.number, ENTRY, "cell_missing", "The row names no entry."))
            continue
        one = found.setdefault(slug, SheetEntry(slug, []))
        one.rows.append(row)
        if revision := row.cells.get(REVISION):
            if not re.fullmatch(r"[1-9][0-9]{0,6}", revision, re.ASCII):
                one.faults.append(
                    SheetFault(row.number, REVISION, "not_a_number", f"{shown(revision)} is no revision.")
                )
            elif one.revision not in (None, int(revision)):
                one.faults.append(_disagree(row, REVISION, slug))
            else:
                one.revision = int(revision)
        if status := row.cells.get(STATUS):
            if status not in STATUSES:
                message = f"{shown(status)} is neither approved nor draft."
                one.faults.append(SheetFault(row.number, STATUS, "unknown_status", message, nearest(status, STATUSES)))
            elif row is not one.rows[0] and status != one.status:
                one.faults.append(_disagree(row, STATUS, slug))
            else:
                one.status = status
    return list(found.values()), faults


def read_entry(sheet: Sheet, one: SheetEntry, stored: Raw | None) -> None:
    """Set the entry's document, or add every fault of its cells. stored : the newest revision, None for a new entry."""
    raw, cells = _laid_over(sheet, one, copy.deepcopy(stored) if stored else {})
    document = _converted(sheet, one, raw, cells)
    if document is None:
        return
    for fault in check_document(sheet.kind, document):
        row, column = _nearest_cell(fault.pointer, cells, one)
        one.faults.append(SheetFault(row, column, fault.code, fault.message, fault.did_you_mean))
    if not one.faults:
        one.document = document


Cells = dict[str, tuple[int, str]]  # pointer -> (row, column)


def _laid_over(sheet: Sheet, one: SheetEntry, raw: Raw) -> tuple[Raw, Cells]:
    cells: Cells = {}
    own = [column for column in sheet.columns if column.group is None]
    for column in sorted(own, key=lambda column: column.path[-1] != "kind"):  # another kind begins from nothing
        given = [(row, row.cells[column.name]) for row in one.rows if column.name in row.cells]
        for row, text in given[1:]:
            if text != given[0][1]:
                one.faults.append(_disagree(row, column.name, one.entry))
        if given:
            _set(raw, column.path, given[0], column, one, cells, "")
    for group in dict.fromkeys(column.group for column in sheet.columns if column.group):
        columns = [column for column in sheet.columns if column.group == group]
        _lay_group(group, columns, one, raw, cells)
    return raw, cells


def _lay_group(group: str, columns: Sequence[Column], one: SheetEntry, raw: Raw, cells: Cells) -> None:
    id_column = next(column.name for column in columns if column.path[2:] == ("id",))
    stated = [row for row in one.rows if any(column.name in row.cells for column in columns)]
    items: list[Raw] = raw.setdefault(group, []) if stated else []
    seen: set[str] = set()
    for place, row in enumerate(stated):
        name = row.cells.get(id_column)
        if name is not None and name in seen:
            message = f"The entry {shown(one.entry)} has {shown(name)} twice."
            one.faults.append(SheetFault(row.number, id_column, "repeated_id", message))
            continue
        if name is not None:
            seen.add(name)
            at = next((number for number, item in enumerate(items) if item.get("id") == name), len(items))
        else:
            at = place
        if at >= len(items):
            at = len(items)
            items.append({})
        for column in sorted(columns, key=lambda column: column.path[-1] != "kind"):
            if column.name in row.cells:
                value = (row, row.cells[column.name])
                _set(items[at], column.path[2:], value, column, one, cells, f"/{group}/{at}")


def _set(
    into: Raw, path: Sequence[str], given: tuple[SheetRow, str], column: Column, one: SheetEntry, cells: Cells, at: str
) -> None:
    row, text = given
    value = _value(text, column)
    if value is None:
        wanted = "yes or no" if column.kind == "yes_no" else "a number"
        one.faults.append(SheetFault(row.number, column.name, "not_a_number", f"{shown(text)} is not {wanted}."))
        return
    here: Any = into
    for step in path[:-1]:
        keyed = is_keyed(step)
        if keyed is not None:
            place = next((number for number, item in enumerate(here) if item.get("id") == keyed), len(here))
            if place == len(here):
                here.append({"id": keyed})
            here, at = here[place], f"{at}/{place}"
        else:
            follows = path[path.index(step) + 1]
            here, at = here.setdefault(step, [] if is_keyed(follows) else {}), f"{at}/{step}"
    last = path[-1]
    if last == "kind" and here.get("kind", value) != value:
        here.clear()
    here[last] = value
    cells[f"{at}/{last}"] = (row.number, column.name)


def _value(text: str, column: Column) -> Any:
    if column.kind == "yes_no":
        return _YES_NO.get(text.lower())
    if column.kind == "integer":
        return int(text) if re.fullmatch(r"[0-9]{1,9}", text, re.ASCII) else None
    if column.kind == "ratio":
        return float(text) if re.fullmatch(r"[0-9]{1,3}(?:\.[0-9]{1,6})?", text, re.ASCII) else None
    return text


def _converted(sheet: Sheet, one: SheetEntry, raw: Raw, cells: Cells) -> Document | None:
    """The document; a value that does not fit is told and taken out, so that the next one is found as well."""
    taken_out: set[str] = set()
    for _ in range(len(cells) + 1):
        try:
            document: Document = msgspec.convert(raw, DOCUMENT_TYPES[sheet.kind])
            return document
        except msgspec.ValidationError as error:
            text = str(error)
            at = _AT.search(text)
            steps = [name or int(place) for name, place in _STEP.findall(at[1])] if at else []
            message = _AT.sub("", text) + "."
            missing = _MISSING.search(text)
            if missing:
                pointer = "".join(f"/{step}" for step in (*steps, missing[1]))
                if pointer in taken_out:  # it is there, and was told already
                    return None
                row, _ = _nearest_cell(pointer, cells, one)
                column = _column_of(sheet, [*steps, missing[1]])
                one.faults.append(SheetFault(row, column, "cell_missing", f"{column} is needed here."))
                return None
            pointer = "".join(f"/{step}" for step in steps)
            row, column = _nearest_cell(pointer, cells, one)
            words = _words_at(DOCUMENT_TYPES[sheet.kind], steps)
            if words:
                message = f"It is one of {listing(words)}."
            sent = next((line.cells.get(column, "") for line in one.rows if line.number == row), "")
            meant = nearest(sent, words) if words else None
            one.faults.append(SheetFault(row, column, "cell_not_accepted", message, meant))
            taken_out.add(pointer)
            if pointer not in cells or not _taken_out(raw, steps):
                return None
    return None


def _words_at(kind: Any, steps: Sequence[str | int]) -> list[str]:
    """The words that may stand at a place of a document, sorted; empty where it is no choice of words."""
    at: list[inspect.Type] = [inspect.type_info(kind)]
    for step in (*steps, None):
        here: list[inspect.Type] = []
        while at:
            one = at.pop()
            match one:
                case inspect.Metadata():
                    at.append(one.type)
                case inspect.UnionType():
                    at.extend(one.types)
                case inspect.StructType() if step == one.tag_field is not None:
                    here.append(inspect.LiteralType((one.tag,)))
                case inspect.StructType():
                    here += [member.type for member in one.fields if member.encode_name == step]
                case inspect.ListType():
                    here.append(one.item_type)
                case inspect.LiteralType() if step is None:
                    here.append(one)
        at = here
    return sorted({str(word) for one in at if isinstance(one, inspect.LiteralType) for word in one.values})


def _taken_out(raw: Raw, steps: Sequence[str | int]) -> bool:
    here: Any = raw
    for step in steps[:-1]:
        here = here[step]
    if not isinstance(here, dict) or steps[-1] in ("kind", "id"):
        return False
    del here[steps[-1]]
    return True


def _column_of(sheet: Sheet, steps: Sequence[str | int]) -> str:
    for column in sheet.columns:
        path = column.path
        if len(path) == len(steps) and all(
            own == step or (isinstance(step, int) and (own == "*" or is_keyed(own)))
            for own, step in zip(path, steps, strict=True)
        ):
            return column.name
    return str(steps[-1])


def _nearest_cell(pointer: str, cells: Cells, one: SheetEntry) -> tuple[int, str]:
    """The cell at a pointer, else one above it, else one below it, else the entry's own."""
    here = pointer
    while here:
        if here in cells:
            return cells[here]
        here = here.rpartition("/")[0]
    above = pointer
    while above:
        below = [cell for at, cell in cells.items() if at.startswith(above + "/")]
        if below:
            return min(below)
        above = above.rpartition("/")[0]
    return one.rows[0].number, ENTRY


def _disagree(row: SheetRow, column: str, entry: str) -> SheetFault:
    return SheetFault(row.number, column, "cells_disagree", f"Another row of {shown(entry)} says something else.")


def rows_of(sheet: Sheet, entry: str, revision: int, status: str, document: Raw) -> Iterator[dict[str, str]]:
    """The rows of a stored document, whose cells read again give that document."""
    left = copy.deepcopy(document)
    count = max([len(document.get(group, ())) for group in {c.group for c in sheet.columns if c.group}] or [0])
    rows: list[dict[str, str]] = [{ENTRY: entry} for _ in range(max(count, 1))]
    rows[0] |= {REVISION: str(revision), STATUS: status}
    for column in sheet.columns:
        if column.group is None:
            if (value := _got(left, column.path)) is not None:
                rows[0][column.name] = _cell(value)
            continue
        for row, item in zip(rows, left.get(column.group, ()), strict=False):
            if (value := _got(item, column.path[2:])) is not None:
                row[column.name] = _cell(value)
    rows[0][NOT_SHOWN] = " ".join(sorted(name for name, value in left.items() if _says_more(value)))
    yield from rows


def _got(raw: Raw, path: Sequence[str]) -> Any:
    """The value at a path, taken out of `raw`; None where there is none."""
    here: Any = raw
    for step in path[:-1]:
        keyed = is_keyed(step)
        here = here.get(step) if keyed is None else next((item for item in here if item.get("id") == keyed), None)
        if here is None:
            return None
    return here.pop(path[-1], None)


def _says_more(value: Any) -> bool:
    if isinstance(value, dict):
        return any(_says_more(member) for name, member in value.items() if name != "id")
    if isinstance(value, list):
        return any(_says_more(item) for item in value)
    return True


def _cell(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else msgspec.json.encode(value).decode()
