"""How is a whole database put away, and brought back?

Never by copying its file while it is in use. SQLite makes a copy of one moment itself (VACUUM INTO); from PostgreSQL
the whole catalogue is exported, access keys and audit trail included. Either restores into either database.
"""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from ampwright.catalogue import migrate
from ampwright.catalogue.database import Database, sqlite_path, sqlite_url
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.facets import FacetsOf
from ampwright.catalogue.faults import Conflict, DatabaseUnavailable
from ampwright.catalogue.intake import Intake, import_lines

_SQLITE_MAGIC = b"SQLite format 3\x00"


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup that was made and flushed. form: sqlite or ndjson."""

    path: Path
    form: str
    size_bytes: int


def back_up(database: Database, path: Path) -> Backup:
    """Put the whole database into a new file, which appears only when it is complete.

    Errors: FileExistsError, DatabaseUnavailable, Conflict (a stored body has not its hash).
    """
    if path.exists():
        raise FileExistsError(f"{path} is there already")
    with _appearing(path) as part:
        if database.is_sqlite:
            source = sqlite_path(database.engine.url)
            try:
                with closing(sqlite3.connect(f"{source.as_uri()}?mode=rw", uri=True, isolation_level=None)) as copied:
                    copied.execute("VACUUM INTO ?", (str(part),))
            except sqlite3.Error as error:
                raise DatabaseUnavailable(f"the database cannot be copied: {error}") from error
        else:
            with part.open("xb") as file:
                file.writelines(export_lines(database, whole=True))
    return Backup(path, "sqlite" if database.is_sqlite else "ndjson", path.stat().st_size)


def restore(database_url: str, path: Path, *, facets_of: FacetsOf, allow_unflushed: bool = False) -> Intake:
    """Fill an empty or missing database from a backup, and bring it to the tables of this version.

    Errors: Conflict (the database is not empty, the backup is damaged), FileNotFoundError, BadValue.
    """
    with path.open("rb") as file:
        is_sqlite = file.read(len(_SQLITE_MAGIC)) == _SQLITE_MAGIC
    if not is_sqlite:
        with path.open("rb") as lines:
            return _fill(database_url, lines, facets_of, allow_unflushed)
    # A copy is opened, because opening for use may write, and a backup is not to be touched.
    with tempfile.TemporaryDirectory(prefix="ampwright-restore-") as folder:
        copy = Path(folder) / "backup.db"
        shutil.copyfile(path, copy)
        copy_url = sqlite_url(copy)
        _require_sound(copy)
        migrate.upgrade(copy_url)
        source = Database.at(copy_url)
        try:
            return _fill(database_url, export_lines(source, whole=True), facets_of, allow_unflushed)
        finally:
            source.close()


def _fill(database_url: str, lines: Iterable[bytes], facets_of: FacetsOf, allow_unflushed: bool) -> Intake:
    migrate.upgrade(database_url)
    database = Database.at(database_url, allow_unflushed=allow_unflushed)
    try:
        return import_lines(database, lines, facets_of=facets_of, who="restore", whole=True)
    finally:
        database.close()


def _require_sound(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        try:
            (found,) = connection.execute("PRAGMA integrity_check").fetchone()
        except sqlite3.DatabaseError as error:
            found = str(error)
    if found != "ok":
        raise Conflict(0, f"the backup is damaged: {found}")


@contextmanager
def _appearing(path: Path) -> Iterator[Path]:
    """A path to write to that becomes `path`, flushed, if the block succeeds."""
    part = path.with_name(f".{path.name}.part")
    part.unlink(missing_ok=True)
    try:
        yield part
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        # link, not rename: a file that appeared meanwhile is not overwritten
        os.link(part, path)
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
    finally:
        part.unlink(missing_ok=True)
