"""How does the catalogue reach its database, so that no acknowledged write is lost and two writers do not fail?

SQLite: the driver's own transactions are switched off and BEGIN IMMEDIATE is used for writes (with a deferred BEGIN a
second writer fails at once, whatever the busy time-out), WAL with synchronous=FULL (every commit is flushed), foreign
keys on. PostgreSQL: psycopg 3, read committed; writers lock the rows they move; a server that acknowledges before it
flushes is refused. `Database.read` and `Database.write` are the only ways to a connection.
"""

import logging
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event, exc, make_url, text
from sqlalchemy.engine import URL
from sqlalchemy.pool import NullPool, QueuePool

from ampwright.catalogue.clock import Clock, utc_now
from ampwright.catalogue.faults import BadValue, DatabaseUnavailable, NotMigrated, UnflushedDatabase

log = logging.getLogger(__name__)

# How long a statement waits for somebody else's lock before the caller is told to come again.
BUSY_TIMEOUT_MS = 5_000
# A migration may wait for a long one that runs beside it.
BUSY_TIMEOUT_MIGRATING_MS = 60_000
CONNECT_TIMEOUT_S = 5
POOL_TIMEOUT_S = 5

# Server settings of PostgreSQL without which a commit can be lost, and the values that lose it.
_UNFLUSHED = {"fsync": ("off",), "full_page_writes": ("off",), "synchronous_commit": ("off",)}


def parsed_url(url: str) -> URL:
    """The URL with its driver settled. Errors: BadValue for another database, or SQLite without a file."""
    try:
        parsed = make_url(url)
    except (exc.ArgumentError, ValueError):
        raise BadValue("database_url", "bad_url", "not a database URL") from None
    backend = parsed.drivername.split("+", maxsplit=1)[0]
    if backend in ("postgres", "postgresql"):
        return parsed.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise BadValue("database_url", "bad_url", f"{backend}: only sqlite and postgresql are supported")
    if not parsed.database or ":memory:" in parsed.database or parsed.database.startswith("file:"):
        raise BadValue("database_url", "bad_url", "sqlite needs the path of a file: sqlite:////path/to/ampwright.db")
    return parsed.set(drivername="sqlite")


def sqlite_path(url: URL) -> Path:
    """The absolute path of an SQLite database."""
    return Path(str(url.database)).expanduser().absolute()


def sqlite_url(path: Path) -> str:
    """The URL of an SQLite database at a path, whatever signs the path holds."""
    return f"sqlite:///{quote(str(path.expanduser().absolute()))}"


def make_engine(url: str, *, pool_size: int = 4, allow_unflushed: bool = False, migrating: bool = False) -> Engine:
    """An engine with every hook of this module.

    migrating: make the SQLite file if it is missing, and leave foreign keys off, because a table that a migration
    rebuilds would else take its children with it (they are checked before the migration commits, see env.py).
    Errors: BadValue (URL); at the first connection UnflushedDatabase.
    """
    parsed = parsed_url(url)
    if parsed.drivername == "sqlite":
        return _sqlite_engine(parsed, pool_size, migrating)
    return _postgresql_engine(parsed, pool_size, allow_unflushed, migrating)


def _sqlite_engine(url: URL, pool_size: int, migrating: bool) -> Engine:
    path = sqlite_path(url)

    def connect() -> sqlite3.Connection:
        # mode=rw: a file that has gone must be an error, not a new empty catalogue.
        mode = "rwc" if migrating else "rw"
        if migrating:
            path.parent.mkdir(parents=True, exist_ok=True)
        return sqlite3.connect(f"file:{quote(str(path))}?mode={mode}", uri=True, check_same_thread=False)

    pool: dict[str, Any] = (
        {"poolclass": NullPool}
        if migrating
        else {
            "poolclass": QueuePool,
            "pool_size": pool_size,
            "pool_timeout": POOL_TIMEOUT_S,
        }
    )
    engine = create_engine(url, creator=connect, **pool)

    @event.listens_for(engine, "connect")
    def _connected(connection: sqlite3.Connection, record: Any) -> None:
        connection.isolation_level = None  # the driver's own transactions leave DDL out of them
        busy_ms = BUSY_TIMEOUT_MIGRATING_MS if migrating else BUSY_TIMEOUT_MS
        for pragma in (
            f"busy_timeout={busy_ms}",
            "journal_mode=wal",
            "synchronous=full",
            f"foreign_keys={'off' if migrating else 'on'}",
            # else INSERT OR REPLACE deletes a row without asking the triggers that refuse it
            "recursive_triggers=on",
        ):
            connection.execute(f"pragma {pragma}").close()
        record.info["file"] = _identity(path)

    @event.listens_for(engine, "checkout")
    def _checked_out(_connection: sqlite3.Connection, record: Any, _proxy: Any) -> None:
        # A file that was replaced or removed lives on in open connections: writes there would be lost for everybody.
        if record.info["file"] != _identity(path):
            raise exc.DisconnectionError(f"{path} is not the file that was opened")

    @event.listens_for(engine, "begin")
    def _begun(connection: Connection) -> None:
        writes = connection.get_execution_options().get("write", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _postgresql_engine(url: URL, pool_size: int, allow_unflushed: bool, migrating: bool) -> Engine:
    lock_timeout_ms = BUSY_TIMEOUT_MIGRATING_MS if migrating else BUSY_TIMEOUT_MS
    engine = create_engine(
        url,
        pool_size=pool_size,
        pool_timeout=POOL_TIMEOUT_S,
        pool_pre_ping=True,
        connect_args={"connect_timeout": CONNECT_TIMEOUT_S, "application_name": "ampwright"},
    )

    @event.listens_for(engine, "connect")
    def _connected(connection: Any, _record: Any) -> None:
        with connection.cursor() as cursor:
            cursor.execute(f"SET lock_timeout = {lock_timeout_ms}")
            for setting, losing in _UNFLUSHED.items():
                value = cursor.execute(f"SHOW {setting}").fetchone()[0]
                if value not in losing:
                    continue
                problem = f"PostgreSQL runs with {setting}={value}: it acknowledges writes that a power cut can lose"
                if not allow_unflushed:
                    connection.close()
                    raise UnflushedDatabase(problem)
                log.warning("%s", problem)
            if cursor.execute("SHOW server_encoding").fetchone()[0] != "UTF8":
                connection.close()
                raise BadValue("database_url", "bad_encoding", "the PostgreSQL database must be of encoding UTF8")
        connection.commit()

    return engine


class Database:
    """A catalogue's database: its engine, and the clock that dates what is written."""

    def __init__(self, engine: Engine, clock: Clock = utc_now) -> None:
        self.engine = engine
        self.clock = clock

    @classmethod
    def at(cls, url: str, *, pool_size: int = 4, allow_unflushed: bool = False, clock: Clock = utc_now) -> "Database":
        """The database at a URL; nothing is opened yet. Errors: BadValue."""
        return cls(make_engine(url, pool_size=pool_size, allow_unflushed=allow_unflushed), clock)

    @property
    def is_sqlite(self) -> bool:
        """Whether this is the embedded database."""
        return self.engine.dialect.name == "sqlite"

    @contextmanager
    def read(self, *, one_view: bool = False) -> Iterator[Connection]:
        """A transaction that only reads. one_view: all its statements see the database of one moment (on SQLite they
        always do). Errors: DatabaseUnavailable."""
        options: dict[str, Any] = {}
        if one_view and not self.is_sqlite:
            options["isolation_level"] = "REPEATABLE READ"
        with _translated(), self.engine.connect() as connection, connection.execution_options(**options).begin():
            yield connection

    @contextmanager
    def write(self) -> Iterator[Connection]:
        """A transaction that writes: committed, and flushed, when the block ends; rolled back if it raises.

        On SQLite there is one writer at a time; on PostgreSQL the block itself locks what it moves.
        Errors: DatabaseUnavailable (also where the commit's answer was lost: it may have happened).
        """
        with _translated(), self.engine.connect() as connection, connection.execution_options(write=True).begin():
            yield connection

    def close(self) -> None:
        """Close every connection; the next use opens new ones."""
        self.engine.dispose()


@contextmanager
def _translated() -> Iterator[None]:
    try:
        yield
    except (exc.OperationalError, exc.ProgrammingError) as error:
        if _tables_missing(error):
            raise NotMigrated("the database has not the tables of this version: run `ampwright migrate`") from error
        if isinstance(error, exc.ProgrammingError):
            raise
        raise DatabaseUnavailable(f"the database does not answer: {error.orig}") from error
    except (exc.InterfaceError, exc.TimeoutError, exc.DisconnectionError) as error:
        raise DatabaseUnavailable(f"the database does not answer: {error}") from error
    except exc.DBAPIError as error:
        if not error.connection_invalidated:
            raise
        raise DatabaseUnavailable(f"the database went away: {error.orig}") from error


def _tables_missing(error: exc.DBAPIError) -> bool:
    # 42P01 and 42703: undefined_table and undefined_column (PostgreSQL, appendix A, error codes)
    if getattr(error.orig, "sqlstate", None) in ("42P01", "42703"):
        return True
    return isinstance(error.orig, sqlite3.OperationalError) and str(error.orig).startswith(
        ("no such table", "no such column")
    )


# Keys of the locks that a database gives out by number; any two fixed numbers do.
RELEASE_LOCK = 0x414D5057_0001
WITHDRAWAL_LOCK = 0x414D5057_0002
MIGRATION_LOCK = 0x414D5057_0003


def lock(connection: Connection, key: int) -> None:
    """Hold a lock of the whole database until the transaction ends. On SQLite the write transaction already is one."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": key})
