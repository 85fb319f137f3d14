"""Does a migration keep what is there, on filled databases of both kinds, and leave nothing behind when it fails?"""

import shutil
import sqlite3
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from ampwright.catalogue import migrate, models
from ampwright.catalogue.database import Database, sqlite_url
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.faults import NotMigrated
from ampwright.catalogue.migration_guard import MigrationRefused, triggers
from ampwright.catalogue.releases import newest_release
from ampwright.catalogue.revisions import write_revision
from catalogue_examples import fill, new_revision
from sqlalchemy import exc, inspect, text

HEAD = migrate.newest_revision()


MIGRATION = """
import sqlalchemy as sa
from alembic import op
from ampwright.catalogue.migration_guard import kept_triggers

revision = "next"
down_revision = {head!r}
branch_labels = None
depends_on = None

def upgrade():
{up}

def downgrade():
    pass
"""


def next_migration(folder: Path, up: str) -> Path:
    """A folder with a migration that follows the newest one. up: the body of its upgrade()."""
    body = textwrap.indent(textwrap.dedent(up).strip(), "    ")
    (folder / "next.py").write_text(MIGRATION.format(head=HEAD, up=body))
    return folder


def url_of(database: Database) -> str:
    return database.engine.url.render_as_string(hide_password=False)


def counts(database: Database) -> dict[str, int]:
    with database.read() as connection:
        return {
            table: connection.execute(text(f"SELECT count(*) FROM {table}")).scalar_one()
            for table in sorted(models.metadata.tables)
        }


def trigger_names(database: Database) -> set[str]:
    with database.read() as connection:
        return set(triggers(connection))


def revision_of(database: Database) -> str:
    with database.read() as connection:
        return migrate.current_revision(connection)


def test_the_models_and_the_migrations_agree(database: Database) -> None:
    assert migrate.drift(url_of(database)) == ""


def test_drift_is_seen(database: Database) -> None:
    # The check above can fail: take a column's table away.
    with database.write() as connection:
        connection.execute(text("DROP TABLE entry_term"))
    assert "entry_term" in migrate.drift(url_of(database))


def test_every_earlier_head_can_be_filled_and_brought_up(empty_url: str, backend: str) -> None:
    # One linear history. Tables of an earlier head are filled with the code of today, which the rollout rule allows
    # from the first head on; a head that cannot be filled so gets its own rows here.
    script = migrate.ScriptDirectory.from_config(migrate.make_config(""))
    history = [revision.revision for revision in script.walk_revisions()][::-1]
    assert history[0] == "0001"
    assert len(script.get_heads()) == 1
    for earlier in history:
        migrate.upgrade(empty_url, earlier)
        database = Database.at(empty_url, allow_unflushed=True)
        if newest_release(database) is None:
            fill(database)
        before, guards = b"".join(export_lines(database, whole=True)), trigger_names(database)
        database.close()
        migrate.upgrade(empty_url)
        assert b"".join(export_lines(database, whole=True)) == before
        assert guards <= trigger_names(database)
        migrate.require_current(database)
        database.close()
    assert backend in ("sqlite", "postgresql")


def test_down_is_refused_while_there_is_data_and_goes_when_there_is_none(empty_url: str) -> None:
    migrate.upgrade(empty_url)
    database = Database.at(empty_url, allow_unflushed=True)
    write_revision(database, new_revision("x"))
    database.close()
    with pytest.raises(MigrationRefused, match="entry_revision"):
        migrate.downgrade(empty_url, "base")
    assert revision_of(database) == HEAD
    assert counts(database)["entry_revision"] == 1
    database.close()


def test_down_and_up_again_when_empty(empty_url: str) -> None:
    migrate.upgrade(empty_url)
    migrate.downgrade(empty_url, "base")
    database = Database.at(empty_url, allow_unflushed=True)
    with database.read() as connection:
        assert set(inspect(connection).get_table_names()) <= {"alembic_version"}
        assert triggers(connection) == {}
    with pytest.raises(NotMigrated):
        newest_release(database)
    with pytest.raises(NotMigrated, match="ampwright migrate"):
        migrate.require_current(database)
    database.close()
    migrate.upgrade(empty_url)
    fill(database)
    database.close()


def test_a_migration_that_fails_midway_leaves_nothing(database: Database, tmp_path: Path) -> None:
    fill(database)
    before, was = b"".join(export_lines(database)), counts(database)
    database.close()
    folder = next_migration(
        tmp_path,
        """
        op.create_table("half_done", sa.Column("id", sa.Integer, primary_key=True))
        op.add_column("entry_facet", sa.Column("colour", sa.String(10)))
        op.execute("INSERT INTO half_done (id) VALUES (1)")
        op.execute("INSERT INTO no_such_table (id) VALUES (1)")
        """,
    )
    with pytest.raises(exc.DBAPIError):
        migrate.upgrade(url_of(database), extra_versions=folder)
    with database.read() as connection:
        found = inspect(connection)
        assert "half_done" not in found.get_table_names()
        assert "colour" not in {column["name"] for column in found.get_columns("entry_facet")}
    assert revision_of(database) == HEAD
    assert counts(database) == was
    assert b"".join(export_lines(database)) == before


REBUILD = """
    sqlite = op.get_bind().dialect.name == "sqlite"
    with op.batch_alter_table("entry", recreate="always" if sqlite else "auto") as batch:
        batch.add_column(sa.Column("owner", sa.String(20), server_default=""))
"""


def test_a_rebuilt_parent_keeps_its_children_and_its_guards(database: Database, tmp_path: Path) -> None:
    fill(database)
    before, guards = counts(database), trigger_names(database)
    exported = b"".join(export_lines(database))
    database.close()
    kept = 'with kept_triggers(op.get_bind(), "entry"):\n' + textwrap.indent(textwrap.dedent(REBUILD).strip(), "    ")
    migrate.upgrade(url_of(database), extra_versions=next_migration(tmp_path, kept))
    assert revision_of(database) == "next"
    assert counts(database) == before
    assert trigger_names(database) == guards
    assert b"".join(export_lines(database)) == exported
    with pytest.raises(exc.IntegrityError), database.write() as connection:
        connection.execute(text("DELETE FROM entry"))
    # Foreign keys are on again for everybody but the migration.
    with pytest.raises(exc.IntegrityError), database.write() as connection:
        connection.execute(
            text("INSERT INTO entry_facet (kind, slug, name, status) VALUES ('kit', 'nobody', 'x', 'draft')")
        )


def test_a_rebuild_that_loses_the_guards_is_refused(database: Database, tmp_path: Path) -> None:
    if not database.is_sqlite:
        pytest.skip("PostgreSQL alters tables in place")
    fill(database)
    before, guards = counts(database), trigger_names(database)
    database.close()
    with pytest.raises(MigrationRefused, match="entry_no_delete"):
        migrate.upgrade(url_of(database), extra_versions=next_migration(tmp_path, REBUILD))
    assert (revision_of(database), counts(database), trigger_names(database)) == (HEAD, before, guards)


@pytest.mark.parametrize(
    ("up", "problem"),
    [
        ("op.execute('DELETE FROM entry_term')", "entry_term had"),
        ("op.drop_table('entry_term')", "entry_term had"),
        ("op.execute('DROP TRIGGER audit_no_delete{of}')", "audit_no_delete"),
    ],
)
def test_a_migration_that_loses_something_is_refused(database: Database, tmp_path: Path, up: str, problem: str) -> None:
    fill(database)
    before = counts(database)
    database.close()
    up = up.format(of="" if database.is_sqlite else " ON audit")
    with pytest.raises(MigrationRefused, match=problem):
        migrate.upgrade(url_of(database), extra_versions=next_migration(tmp_path, up))
    assert (revision_of(database), counts(database)) == (HEAD, before)


def test_a_dangling_foreign_key_is_refused(database: Database, tmp_path: Path) -> None:
    fill(database)
    database.close()
    up = """op.execute("INSERT INTO entry_facet (kind, slug, name, status) VALUES ('kit', 'nobody', 'x', 'draft')")"""
    with pytest.raises((MigrationRefused, exc.IntegrityError)):
        migrate.upgrade(url_of(database), extra_versions=next_migration(tmp_path, up))
    assert revision_of(database) == HEAD


def test_two_migrations_at_once_do_it_once(empty_url: str) -> None:
    code = f"from ampwright.catalogue import migrate; migrate.upgrade({empty_url!r})"
    running = [subprocess.Popen([sys.executable, "-c", code], stderr=subprocess.PIPE) for _ in range(3)]
    for process in running:
        _, errors = process.communicate(timeout=60)
        assert process.returncode == 0, errors.decode()
    database = Database.at(empty_url, allow_unflushed=True)
    migrate.require_current(database)
    fill(database)
    database.close()


def test_a_missing_file_is_no_new_catalogue(tmp_path: Path) -> None:
    from ampwright.catalogue.faults import DatabaseUnavailable

    database = Database.at(f"sqlite:///{tmp_path / 'gone.db'}")
    with pytest.raises(DatabaseUnavailable):
        newest_release(database)
    assert list(tmp_path.iterdir()) == []


def test_the_folder_and_a_percent_sign_in_a_path(tmp_path: Path) -> None:
    # Alembic interpolates % in options, and a URL decodes it.
    folder = tmp_path / "a b%20c"
    migrate.upgrade(sqlite_url(folder / "x.db"))
    with sqlite3.connect(folder / "x.db") as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == (HEAD,)


def test_migrations_beside_the_package_are_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # As in a wheel, where they lie inside the package.
    import ampwright

    package = tmp_path / "site-packages" / "ampwright"
    shutil.copytree(migrate.migrations_dir(), package / "migrations")
    monkeypatch.setattr(ampwright, "__file__", str(package / "__init__.py"))
    assert migrate.migrations_dir() == package / "migrations"
    migrate.upgrade(f"sqlite:///{tmp_path / 'x.db'}")
