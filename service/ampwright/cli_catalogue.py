"""How is the catalogue carried, backed up and filled from the command line?

Every command works on the database of the settings. Exit status as in cli.py: 0 done, 1 a sheet has faults, 2 refused,
and nothing was done.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from ampwright.settings import BadSetting, Settings, read_settings

if TYPE_CHECKING:
    from ampwright.catalogue.database import Database

Subparsers = argparse._SubParsersAction  # argparse has no public name for it
_STANDARD = "-"


def add_catalogue_commands(commands: Subparsers[argparse.ArgumentParser]) -> None:
    """Add export, import, backup, restore, release and sheet."""
    export = commands.add_parser(
        "export",
        help="write the catalogue with its history as NDJSON",
        description="Write the catalogue with its history as NDJSON, without access keys and audit trail. Databases "
        "with the same history give the same bytes.",
    )
    export.add_argument("--output", type=Path, help="a new file (default: standard output)")
    export.set_defaults(run=_safely(run_export))

    bring_in = commands.add_parser(
        "import",
        help="bring in an export, all of it or nothing",
        description="Bring in an export. Every hash is verified; what is here already must be the same.",
    )
    bring_in.add_argument("file", help="the export; - for standard input")
    bring_in.add_argument("--by", required=True, help="who brings it in")
    bring_in.set_defaults(run=_safely(run_import))

    backup = commands.add_parser(
        "backup",
        help="put the whole database into one new file, also while it is in use",
        description="Put the whole database, access keys (as hashes) and audit trail included, into one new file.",
    )
    backup.add_argument("file", type=Path, help="a file that does not exist yet")
    backup.set_defaults(run=_safely(run_backup))

    restore = commands.add_parser(
        "restore",
        help="fill an empty or missing database from a backup",
        description="Fill an empty or missing database from a backup of either kind of database.",
    )
    restore.add_argument("file", type=Path, help="a backup")
    restore.set_defaults(run=_safely(run_restore))

    release = commands.add_parser(
        "release",
        help="cut a release of the newest approved revisions",
        description="Cut a release of the newest approved revision of every entry that is not withdrawn.",
    )
    release.add_argument("--note", required=True, help="what it is for")
    release.add_argument("--by", required=True, help="who cuts it")
    release.set_defaults(run=_safely(run_release))
    _add_sheet(commands)


def _add_sheet(commands: Subparsers[argparse.ArgumentParser]) -> None:
    from ampwright.catalogue.values import KINDS

    sheet = commands.add_parser(
        "sheet", help="spreadsheets of tools, sources, cords, kits and units, in and out", description="CSV sheets."
    )
    actions = sheet.add_subparsers(dest="action", required=True, metavar="ACTION")
    columns = actions.add_parser("columns", help="list the columns of a kind, with examples")
    columns.add_argument("kind", choices=KINDS)
    columns.set_defaults(run=run_sheet_columns)
    export = actions.add_parser("export", help="write the newest revisions of a kind as CSV")
    export.add_argument("kind", choices=KINDS)
    export.add_argument("--output", type=Path, help="a new file (default: standard output)")
    export.set_defaults(run=_safely(run_sheet_export))
    bring_in = actions.add_parser("import", help="bring in a sheet, all rows or none")
    bring_in.add_argument("kind", choices=KINDS)
    bring_in.add_argument("file", help="CSV in UTF-8; - for standard input")
    bring_in.add_argument("--why", required=True, help="why it is written")
    bring_in.add_argument("--by", required=True, help="who writes it")
    bring_in.add_argument("--dry-run", action="store_true", help="list every fault by row and column, write nothing")
    bring_in.set_defaults(run=_safely(run_sheet_import))


def run_export(parsed: argparse.Namespace) -> int:
    """Write an export."""
    from ampwright.catalogue.exchange import export_lines

    with _opened(read_settings()) as database:
        _write(parsed.output, export_lines(database))
    return 0


def run_import(parsed: argparse.Namespace) -> int:
    """Bring in an export."""
    from ampwright.catalogue.intake import import_lines
    from ampwright.studies.catalogue_writing import facets_of_body

    with _opened(read_settings()) as database, _reading(parsed.file) as lines:
        done = import_lines(database, lines, facets_of=facets_of_body, who=parsed.by)
    print(
        f"New: {done.new_revisions} of {done.revisions} revisions, {done.new_releases} of {done.releases} releases, "
        f"{done.new_withdrawals} of {done.withdrawals} withdrawals."
    )
    return 0


def run_backup(parsed: argparse.Namespace) -> int:
    """Make a backup."""
    from ampwright.catalogue.backup import back_up

    with _opened(read_settings()) as database:
        made = back_up(database, parsed.file)
    print(f"{made.path}: {made.size_bytes} bytes ({made.form}).")
    return 0


def run_restore(parsed: argparse.Namespace) -> int:
    """Restore a backup."""
    from ampwright.catalogue.backup import restore
    from ampwright.studies.catalogue_writing import facets_of_body

    settings = read_settings()
    done = restore(
        settings.database_url,
        parsed.file,
        facets_of=facets_of_body,
        allow_unflushed=settings.allow_unflushed_database,
    )
    print(f"Restored {done.revisions} revisions, {done.releases} releases, {done.withdrawals} withdrawals.")
    return 0


def run_release(parsed: argparse.Namespace) -> int:
    """Cut a release."""
    from ampwright.catalogue.releases import LackingRelease
    from ampwright.studies.catalogue_releases import cut_whole_release, lack_fault

    with _opened(read_settings()) as database:
        try:
            made = cut_whole_release(database, note=parsed.note, who=parsed.by)
        except LackingRelease as lacking:
            for lack in lacking.lacks:
                print(lack_fault(lack).message, file=sys.stderr)
            print("ampwright: nothing was cut", file=sys.stderr)
            return 2
    print(f"Release {made.number}: {made.member_count} entries, sha256:{made.sha256}.")
    return 0


def run_sheet_columns(parsed: argparse.Namespace) -> int:
    """List the columns of a kind."""
    from ampwright.contract.sheet_columns import OWN_COLUMNS, SHEETS

    sheet = SHEETS[parsed.kind]
    said = {column.name: (column.example, "/" + "/".join(column.path)) for column in sheet.columns}
    said |= {name: (example, says) for name, (says, example) in OWN_COLUMNS.items()}
    for name in sheet.names:
        example, says = said[name]
        print(f"{name:24}{example:28}{says}")
    return 0


def run_sheet_export(parsed: argparse.Namespace) -> int:
    """Write a sheet."""
    from ampwright.studies.catalogue_sheets import export_sheet

    with _opened(read_settings()) as database:
        _write(parsed.output, [export_sheet(database, parsed.kind).encode()])
    return 0


def run_sheet_import(parsed: argparse.Namespace) -> int:
    """Bring in a sheet."""
    from ampwright.studies.catalogue_sheets import import_sheet

    with _reading(parsed.file) as file:
        content = file.read()
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ValueError(f"byte {error.start} is not UTF-8: save the sheet as CSV in UTF-8") from None
    with _opened(read_settings()) as database:
        done = import_sheet(database, parsed.kind, text, why=parsed.why, who=parsed.by, dry_run=parsed.dry_run)
    for fault in done.faults:
        hint = f" Did you mean {fault.did_you_mean!r}?" if fault.did_you_mean else ""
        print(f"row {fault.row}, {fault.column or 'the whole row'}: {fault.message}{hint}")
    if done.faults:
        print(f"{len(done.faults)} faults; nothing was written.")
        return 1
    would = "Would be written" if parsed.dry_run else "Written"
    print(f"{would}: {done.created} new, {done.revised} revised; {done.unchanged} unchanged.")
    return 0


def _safely(run: Callable[[argparse.Namespace], int]) -> Callable[[argparse.Namespace], int]:
    """The command, its refusals told on one line."""

    def safe(parsed: argparse.Namespace) -> int:
        from ampwright.catalogue.faults import CatalogueError

        try:
            return run(parsed)
        except BadSetting:
            raise
        except (CatalogueError, OSError, ValueError) as error:
            print(f"ampwright: {error}", file=sys.stderr)
            return 2

    return safe


@contextmanager
def _opened(settings: Settings) -> Iterator[Database]:
    database = database_of(settings)
    try:
        yield database
    finally:
        database.close()


def database_of(settings: Settings) -> Database:
    """The database of the settings; nothing is opened yet. Errors: BadValue."""
    from ampwright.catalogue.database import Database

    return Database.at(
        settings.database_url, pool_size=settings.database_pool, allow_unflushed=settings.allow_unflushed_database
    )


@contextmanager
def _reading(name: str) -> Iterator[BinaryIO]:
    if name == _STANDARD:
        yield sys.stdin.buffer
    else:
        with Path(name).open("rb") as file:
            yield file


def _write(path: Path | None, chunks: Iterable[bytes]) -> None:
    """Into a new file, which is gone again if it cannot be finished, or to standard output."""
    if path is None:
        for chunk in chunks:
            sys.stdout.buffer.write(chunk)
        sys.stdout.buffer.flush()
        return
    with path.open("xb") as file:
        try:
            file.writelines(chunks)
        except BaseException:
            path.unlink()
            raise
