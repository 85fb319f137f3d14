"""/v1/catalogue-sheets: how do the spreadsheets of a fleet get in and out?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, Struct

from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.api.writers import writer
from ampwright.contract.catalogue import EntryKind
from ampwright.contract.catalogue_sheets import (
    CellFault,
    SheetColumn,
    SheetDescription,
    SheetImport,
    SheetImported,
    SheetList,
)
from ampwright.contract.sheet_columns import OWN_COLUMNS, SHEETS, Sheet
from ampwright.studies.catalogue_sheets import SheetOutcome, export_sheet, import_sheet

CSV = "text/csv"
MOST_SHOWN = 100  # a dry run lists them all
operations = Operations(
    "Sheets",
    "Tools, sources, cords, kits and units as spreadsheets, one row for every supply option, receptacle or item. A "
    "figure is one cell with its unit. What has no column stays as it is.",
)


class SheetPath(Struct):
    """A sheet."""

    kind: Annotated[EntryKind, Meta(description="Kind of the entries that the sheet holds.")]


@operations.get("/v1/catalogue-sheets", "list_catalogue_sheets", lane="database")
def list_sheets() -> SheetList:
    """List the columns of every kind of sheet.

    What a header row may hold for each kind of entry, with an example of a cell; the order of columns is free.
    """
    return SheetList(items=[_described(sheet) for sheet in SHEETS.values()])


@operations.get("/v1/catalogue-sheets/{kind}", "export_catalogue_sheet", lane="database", sends=(CSV,))
def export(path: SheetPath, call: Call) -> Reply[bytes]:
    """Export the newest revisions of a kind as CSV.

    Drafts as well; what is withdrawn is left out. A cell that a spreadsheet would run as a formula has an apostrophe
    before it, which reading takes off again. Read in again unchanged, it writes nothing.
    """
    return Reply(export_sheet(call.services.database, path.kind).encode(), media_type=CSV)


@operations.post(
    "/v1/catalogue-sheets/{kind}",
    "import_catalogue_sheet",
    lane="database",
    statuses={200: "Read; `written` says whether it was written."},
    problems=("contradictory-request", "not-ready"),
    larger_body="Send a sheet of that size in parts: each part is all rows or none by itself.",
)
def bring_in(path: SheetPath, body: SheetImport, call: Call) -> SheetImported:
    """Bring in a spreadsheet, all rows or none.

    A row whose entry is there already writes a new revision of it: filled cells correct it, empty ones leave it. A dry
    run answers with every fault, by row and column; without it a fault is 422, and the first hundred are listed.
    """
    who = writer(call, body.by)
    done = import_sheet(call.services.database, path.kind, body.csv, why=body.why, who=who, dry_run=body.dry_run)
    if done.faults and not body.dry_run:
        faults = [
            ProblemFault(
                code=one.code,
                message=f"Row {one.row}, {one.column or 'the whole row'}: {one.message}",
                pointer="/csv",
                did_you_mean=one.did_you_mean or UNSET,
            )
            for one in done.faults[:MOST_SHOWN]
        ]
        raise ProblemError("contradictory-request", "Nothing was written.", errors=faults)
    return _told(done, written=not body.dry_run)


def _told(done: SheetOutcome, *, written: bool) -> SheetImported:
    return SheetImported(
        written=written,
        rows=done.rows,
        entries=done.entries,
        created=done.created,
        revised=done.revised,
        unchanged=done.unchanged,
        faults=[
            CellFault(
                row=one.row,
                column=one.column,
                code=one.code,
                message=one.message,
                did_you_mean=one.did_you_mean or UNSET,
            )
            for one in done.faults
        ],
    )


def _described(sheet: Sheet) -> SheetDescription:
    described = {
        name: SheetColumn(name=name, meaning=says, example=example) for name, (says, example) in OWN_COLUMNS.items()
    }
    for one in sheet.columns:
        described[one.name] = SheetColumn(name=one.name, meaning="/" + "/".join(one.path), example=one.example)
    return SheetDescription(
        kind=sheet.kind,  # type: ignore[arg-type]  # SHEETS has the kinds of the contract
        columns=[described[name] for name in sheet.names],
    )
