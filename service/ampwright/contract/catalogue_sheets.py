"""What does a caller send and get when a fleet lives in spreadsheets?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.catalogue import By, EntryKind, Why
from ampwright.contract.parts import Answer, Request

LARGEST_SHEET = 20_000_000  # characters; the service's own bound of a body is smaller unless a setting raises it


class SheetImport(Request, frozen=True, kw_only=True):
    """A spreadsheet to be brought in, all rows or none."""

    csv: Annotated[
        str,
        Meta(
            max_length=LARGEST_SHEET,
            description="CSV with a header row; GET /v1/catalogue-sheets lists the columns. Empty cells say nothing.",
            examples=["entry,name,origin,voltage,current\r\nsaw-9,circular saw,nameplate,120 V,15 A\r\n"],
        ),
    ]
    why: Why
    by: By | UnsetType = UNSET
    dry_run: Annotated[bool, Meta(description="Tell every fault and what would be written, and write nothing.")] = False


class CellFault(Answer, frozen=True, kw_only=True):
    """What is wrong with a cell; `row` counts as a spreadsheet does, the header being 1."""

    row: int
    column: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class SheetImported(Answer, frozen=True, kw_only=True):
    """What the sheet holds, in numbers of entries; with faults, and in a dry run, nothing was written."""

    written: bool
    rows: int
    entries: int
    created: int
    revised: int
    unchanged: int
    faults: list[CellFault] = []


class SheetColumn(Answer, frozen=True, kw_only=True):
    """One column. `says`: the member of the document, `*` being the item that a row stands for; or what it is for."""

    name: str
    meaning: str
    example: str


class SheetDescription(Answer, frozen=True, kw_only=True):
    """The columns of one kind of entry."""

    kind: EntryKind
    columns: list[SheetColumn]


class SheetList(Answer, frozen=True, kw_only=True):
    """The sheets that there are."""

    items: list[SheetDescription]
