"""Where does a number from a standard come from, and may it be used at all?

Every table is one CSV per document, edition and table in `tables/`; what it is a copy of stands in `citations.toml`
under the same key. A table without a citation, a row without a known status or a cell that is missing stops the
program: a number that nobody can trace is worse than no number. Tables are read once and cannot be changed.

Cells keep the printed text and unit of the document (the unit is in the column's name); the modules named after
questions (`conductor_sizes.py`, `cord_ratings.py` ...) turn them into SI.
Not here: what a value means (those modules); which clause applies where (`rule_layers.py`).
"""

import csv
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from io import StringIO
from types import MappingProxyType

STATUSES = ("verified", "formula", "memory", "common_practice")
"""How sure a row is, surest first.

`verified`: read in a public text that names the document. `formula`: follows from a formula the document states.
`memory`: remembered, not read; an answer that leans on it says so. `common_practice`: the trade does so, no source.
"""

_BOOKKEEPING = ("status", "row")
_CITATION_MEMBERS = ("document", "edition", "place", "conditions", "errata", "status")


class UncitedTable(Exception):
    """A table, a row or a citation is not fit to be used. Raised when it is read, never skipped."""


@dataclass(frozen=True, slots=True)
class Citation:
    """What a table or a clause is a copy of.

    key : name of the table's file, or of the clause.
    document, edition, place : where it stands.
    conditions : under which the values hold.
    errata : where published copies disagree, empty when none is known.
    status : one of STATUSES, for the whole; a row may be less sure than its table.
    """

    key: str
    document: str
    edition: str
    place: str
    conditions: str
    errata: str
    status: str


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table: printed cells by column, its status, and the id of the reference value it agrees with."""

    citation: str
    cells: Mapping[str, str]
    status: str
    reference: str

    def text(self, column: str) -> str:
        """Printed text of a cell; empty where the document prints nothing."""
        return self.cells[column]

    def number(self, column: str) -> float:
        """Number in a cell, in the unit of the column's name. Errors: UncitedTable when it is no number."""
        try:
            return float(self.cells[column])
        except ValueError:
            raise UncitedTable(
                f"{self.citation}.csv: {column} is {self.cells[column]!r} where a number is needed"
            ) from None

    def number_or_none(self, column: str) -> float | None:
        """Number in a cell, None where the document prints nothing."""
        return None if self.cells[column] == "" else self.number(column)


@dataclass(frozen=True, slots=True)
class Table:
    """One table of one edition of one document."""

    citation: Citation
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    _indexes: dict[tuple[str, ...], dict[tuple[str, ...], Row]] = field(default_factory=dict, compare=False, repr=False)

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def find(self, **cells: str) -> Row | None:
        """The row whose cells equal the given ones, None when the table has none. Errors: KeyError, no such column."""
        columns = tuple(cells)
        index = self._indexes.get(columns)
        if index is None:
            # Filled from the last row back, so that of two equal keys the first row answers.
            index = {tuple(row.cells[column] for column in columns): row for row in reversed(self.rows)}
            self._indexes[columns] = index
        return index.get(tuple(cells.values()))

    def at(self, **cells: str) -> Row:
        """The row that must be there: a part of the program names it. Errors: UncitedTable when it is not."""
        row = self.find(**cells)
        if row is None:
            raise UncitedTable(f"{self.citation.key}.csv: no row {cells}")
        return row


@dataclass(frozen=True, slots=True)
class CitedValue:
    """A number (SI, or a plain ratio) with the citation it rests on and how sure its row is."""

    value: float
    citation: str
    status: str


@dataclass(frozen=True, slots=True)
class OutsideTable:
    """The table says nothing here. `reason` says why; the citation names the table that ends."""

    reason: str
    citation: str


def read_table(key: str, text: str, citations: Mapping[str, Citation]) -> Table:
    """Table from the text of its CSV. Errors: UncitedTable for anything that is not whole (see the module)."""
    if key not in citations:
        raise UncitedTable(f"{key}: no entry in citations.toml")
    reader = csv.DictReader(StringIO(text, newline=""), strict=True)
    header = tuple(reader.fieldnames or ())
    if header[-2:] != _BOOKKEEPING or len(set(header)) != len(header):
        raise UncitedTable(f"{key}.csv: the columns must be distinct and end with status,row, not {header}")
    columns = header[:-2]
    rows: list[Row] = []
    for line, cells in enumerate(reader, start=2):
        if None in cells or None in cells.values():
            raise UncitedTable(f"{key}.csv line {line}: not {len(header)} cells")
        if cells["status"] not in STATUSES:
            raise UncitedTable(f"{key}.csv line {line}: status {cells['status']!r}")
        kept = MappingProxyType({column: cells[column] for column in columns})
        rows.append(Row(key, kept, cells["status"], cells["row"]))
    if not rows:
        raise UncitedTable(f"{key}.csv: no rows")
    return Table(citations[key], columns, tuple(rows))


def read_citations(text: str) -> Mapping[str, Citation]:
    """Citations by key from the text of `citations.toml`. Errors: UncitedTable for a missing or unknown member."""
    found: dict[str, Citation] = {}
    for key, entry in tomllib.loads(text).items():
        if not isinstance(entry, dict) or set(entry) != set(_CITATION_MEMBERS):
            raise UncitedTable(f"citations.toml [{key!r}]: members must be {', '.join(_CITATION_MEMBERS)}")
        if not all(isinstance(value, str) for value in entry.values()):
            raise UncitedTable(f"citations.toml [{key!r}]: every member is text")
        if entry["status"] not in STATUSES or not entry["document"] or not entry["place"]:
            raise UncitedTable(f"citations.toml [{key!r}]: status, document or place is missing")
        found[key] = Citation(key=key, **entry)
    return MappingProxyType(found)


def least_sure(*statuses: str) -> str:
    """The least sure of some statuses. Errors: ValueError for an unknown one. Source: STATUSES, surest first."""
    return max(statuses, key=STATUSES.index)


@cache
def citations() -> Mapping[str, Citation]:
    """Every citation the engine can lean on, by key."""
    return read_citations((files(__package__) / "citations.toml").read_text("utf-8"))


@cache
def table(key: str) -> Table:
    """The table with this key, read once. Errors: UncitedTable (no such table, no citation, a row unfit)."""
    place = files(__package__) / "tables" / f"{key}.csv"
    if not place.is_file():
        raise UncitedTable(f"{key}: no such table")
    return read_table(key, place.read_text("utf-8"), citations())


@cache
def table_keys() -> tuple[str, ...]:
    """Keys of all tables, sorted."""
    names = (entry.name for entry in (files(__package__) / "tables").iterdir())
    return tuple(sorted(name.removesuffix(".csv") for name in names if name.endswith(".csv")))
