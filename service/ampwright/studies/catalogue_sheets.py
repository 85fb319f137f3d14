"""How do the spreadsheets of a fleet get into the catalogue, all rows or none, and out of it again?

Every row is read and every document checked before anything is written, and each entry is written upon the revision
that was read. A dry run stops there: it tells every fault by row and column, and what would be written.
"""

from __future__ import annotations

from dataclasses import dataclass

import msgspec

from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import HeadMoved
from ampwright.catalogue.revisions import NewRevision, Revision, digest, heads_of, write_revisions
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.values import is_slug
from ampwright.contract.documents import FORMAT, SourceUnit
from ampwright.contract.sheet_columns import ENTRY, REVISION, SHEETS
from ampwright.contract.sheet_documents import SheetEntry, entries_of, read_entry, rows_of
from ampwright.contract.sheet_text import MOST_FAULTS, SheetFault, read_csv, write_csv
from ampwright.engine.site.nearest import shown
from ampwright.studies.catalogue_units import unit_faults
from ampwright.studies.catalogue_writing import prepared

_PAGE = 200


# So many faults are told with what may have been meant; looking for it costs some milliseconds each.
MOST_SUGGESTED = 100


@dataclass(frozen=True, slots=True)
class SheetOutcome:
    """What a sheet holds. With faults nothing was written; created, revised, unchanged: numbers of entries."""

    rows: int
    entries: int
    created: int = 0
    revised: int = 0
    unchanged: int = 0
    faults: tuple[SheetFault, ...] = ()


def import_sheet(database: Database, kind: str, text: str, *, why: str, who: str, dry_run: bool) -> SheetOutcome:
    """Read a sheet and write what it says, unless it is a dry run or has a fault.

    Errors: BadValue (why, who), DatabaseUnavailable.
    """
    sheet = SHEETS[kind]
    rows, faults = read_csv(text, sheet.names)
    entries, unnamed = entries_of(rows)
    faults += unnamed
    heads = heads_of(database, kind, [one.entry for one in entries])
    new: list[NewRevision] = []
    created = revised = unchanged = 0
    for one in entries:
        head = heads.get(one.entry)
        _read(database, kind, one, head, suggest=len(faults) < MOST_SUGGESTED)
        faults += one.faults
        if one.document is None or one.faults:
            continue
        made = prepared(
            kind,
            one.entry,
            one.document,
            why=why,
            who=who,
            status=one.status,
            expected_head=None if head is None else head.revision,
            create=head is None,
        )
        if head is None:
            created += 1
        elif _is(head, made):
            unchanged += 1
            continue  # not written: where it is withdrawn, it would stand again
        else:
            revised += 1
        new.append(made)
    if faults or dry_run:
        ordered = sorted(faults, key=lambda fault: (fault.row, fault.column, fault.code))
        told = tuple(ordered[:MOST_FAULTS])
        return SheetOutcome(len(rows), len(entries), created, revised, unchanged, told)
    try:
        write_revisions(database, new)
    except HeadMoved as moved:
        row = next(one.rows[0].number for one in entries if one.entry == moved.slug)
        message = f"Somebody else wrote {shown(moved.slug)} in the meantime: its newest revision is {moved.head}."
        return SheetOutcome(len(rows), len(entries), faults=(SheetFault(row, ENTRY, "head_moved", message),))
    return SheetOutcome(len(rows), len(entries), created, revised, unchanged)


def _read(database: Database, kind: str, one: SheetEntry, head: Revision | None, *, suggest: bool) -> None:
    first = one.rows[0].number
    if not is_slug(one.entry):
        message = f"{shown(one.entry)} is no key: small letters, digits, single '-' and '.' between them."
        one.faults.append(SheetFault(first, ENTRY, "not_a_key", message))
    if one.revision is not None and one.revision != (head.revision if head else 0):
        newest = f"the newest revision is {head.revision}" if head else "there is no such entry"
        message = f"The sheet was made from revision {one.revision}, and {newest}."
        one.faults.append(SheetFault(first, REVISION, "head_moved", message))
    read_entry(SHEETS[kind], one, msgspec.json.decode(head.body) if head else None)
    if isinstance(one.document, SourceUnit):
        for fault in unit_faults(database, one.document, suggest=suggest):
            column = "source_revision" if fault.pointer == "/revision" else "source"
            if fault.pointer.startswith("/corrections/"):
                column = fault.pointer.split("/")[2]
            one.faults.append(SheetFault(first, column, fault.code, fault.message, fault.did_you_mean))


def _is(head: Revision, made: NewRevision) -> bool:
    return (head.sha256, head.format, head.status) == (digest(made.body), FORMAT, made.facets.status)


def export_sheet(database: Database, kind: str) -> str:
    """Newest revisions of a kind as CSV, in order of their keys, drafts as well. What is withdrawn is left out: read
    in again it would stand again."""
    sheet = SHEETS[kind]
    rows: list[dict[str, str]] = []
    cursor: str | None = None
    while True:
        page = search_entries(database, Filter(kind=kind), cursor=cursor, limit=_PAGE)
        standing = [line.slug for line in page.entries if line.status != "withdrawn"]
        heads = heads_of(database, kind, standing)
        for slug in standing:
            head = heads[slug]
            rows += rows_of(sheet, slug, head.revision, head.status, msgspec.json.decode(head.body))
        cursor = page.next_cursor
        if cursor is None:
            return write_csv(sheet.names, rows)
