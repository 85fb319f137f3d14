"""Can somebody with raw SQL change what was written?

Tried here with every statement that we know to change or remove a row in either database. Whoever owns the tables can
still drop a trigger first; that is beyond this.
"""

import pytest
from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.keys import make_key, revoke_key
from catalogue_examples import fill
from sqlalchemy import exc, text

GUARDED = ("entry", "entry_revision", "release", "release_member", "withdrawal", "access_key", "audit")
TIME = "'2027-01-14T00:00:00.000000Z'"

EVERYWHERE = [
    *(f"DELETE FROM {table}" for table in GUARDED),
    "UPDATE entry_revision SET body = '{}'",
    "UPDATE entry_revision SET why = why",
    "UPDATE entry_revision SET status = 'draft' WHERE revision = 1",
    "UPDATE release SET note = 'other'",
    "UPDATE release SET member_count = member_count + 1",
    "UPDATE release_member SET revision = 1",
    "UPDATE withdrawal SET reason = 'none'",
    "UPDATE audit SET who = 'nobody'",
    "UPDATE entry SET head = 1 WHERE slug = 'saw-185mm'",
    "UPDATE entry SET head = 99 WHERE slug = 'saw-185mm'",
    "UPDATE entry SET slug = 'other' WHERE slug = 'saw-185mm'",
    "UPDATE access_key SET scopes = 'keys'",
    "UPDATE access_key SET expires_at = NULL, revoked_at = NULL, revoked_by = NULL",
    # adding to the past
    "INSERT INTO entry (kind, slug, head) VALUES ('kit', 'new', 4)",
    "INSERT INTO release_member (number, place, kind, slug, revision) VALUES (1, 4, 'cord', 'reel-14-100', 1)",
    "INSERT INTO release_member (number, place, kind, slug, revision) VALUES (1, 0, 'cord', 'reel-14-100', 1)",
    f"INSERT INTO release (number, sha256, member_count, made_at, made_by, note) VALUES (9, '', 0, {TIME}, 'x', 'x')",
    "INSERT INTO entry_revision (kind, slug, revision, format, status, body, sha256, entered_at, entered_by, why)"
    f" VALUES ('kit', 'framing', 7, 1, 'approved', '{{}}', '', {TIME}, 'x', 'x')",
    "INSERT INTO withdrawal (number, kind, slug, first_revision, last_revision, reason, withdrawn_by, withdrawn_at)"
    " VALUES (3, 'kit', 'framing', 1, 1, 'x', 'x', '2000-01-01T00:00:00.000000Z')",
    "INSERT INTO withdrawal (number, kind, slug, first_revision, last_revision, reason, withdrawn_by, withdrawn_at)"
    " VALUES (3, 'kit', 'framing', 1, 8, 'x', 'x', '2999-01-01T00:00:00.000000Z')",
    # changing by inserting
    "INSERT INTO release (number, sha256, member_count, made_at, made_by, note) SELECT number, sha256, member_count,"
    " made_at, made_by, 'other' FROM release WHERE number = 1 ON CONFLICT (number) DO UPDATE SET note = excluded.note",
]
# REPLACE deletes the row that is in its way without asking the triggers for DELETE (SQLite documentation, ON CONFLICT).
SQLITE = [
    "INSERT OR REPLACE INTO entry (kind, slug, head) VALUES ('tool-profile', 'saw-185mm', 0)",
    "INSERT OR REPLACE INTO entry_revision SELECT kind, slug, revision, format, status, '{}', sha256, entered_at,"
    " entered_by, why FROM entry_revision",
    "REPLACE INTO release SELECT number, 'x', member_count, made_at, made_by, note FROM release",
    "REPLACE INTO release_member SELECT number, place, kind, slug, 1 FROM release_member",
    "REPLACE INTO withdrawal SELECT number, kind, slug, 1, 1, 'x', 'x', '2999-01-01T00:00:00.000000Z' FROM withdrawal",
    "REPLACE INTO audit SELECT number, at, 'nobody', action, subject, detail FROM audit",
    "REPLACE INTO access_key SELECT id, sha256, 'keys', note, created_at, created_by, NULL, NULL, NULL FROM access_key",
    "UPDATE OR REPLACE entry_revision SET revision = 1",
]
POSTGRESQL = [f"TRUNCATE {table} CASCADE" for table in GUARDED]


@pytest.fixture
def filled(database: Database) -> Database:
    """A catalogue with a row in every table, keys revoked and not."""
    fill(database)
    revoke_key(database, make_key(database, scopes=["keys"], note="old", who="tester").key.id, who="tester")
    make_key(database, scopes=["calculate"], note="new", who="tester")
    return database


def content(database: Database) -> bytes:
    """Every guarded row."""
    with database.read() as connection:
        heads = connection.execute(models.entry.select().order_by(models.entry.c.kind, models.entry.c.slug)).all()
    return b"".join(export_lines(database, whole=True)) + repr(heads).encode()


def test_every_statement_is_refused(filled: Database) -> None:
    before = content(filled)
    for statement in [*EVERYWHERE, *(SQLITE if filled.is_sqlite else POSTGRESQL)]:
        with pytest.raises(exc.DBAPIError) as refused, filled.write() as connection:
            connection.execute(text(statement))
        assert isinstance(refused.value, exc.IntegrityError), statement
    assert content(filled) == before


def test_replace_is_refused_without_our_settings_too(filled: Database) -> None:
    # Somebody with a shell of the database has no recursive_triggers and no foreign_keys.
    if not filled.is_sqlite:
        pytest.skip("REPLACE is SQLite's")
    before = content(filled)
    with filled.engine.connect() as connection:
        raw = connection.connection.driver_connection
        assert raw is not None
        raw.execute("PRAGMA recursive_triggers = off")
        raw.execute("PRAGMA foreign_keys = off")
        for statement in SQLITE:
            with pytest.raises(Exception, match="history is never changed"):
                raw.execute(statement)
        connection.invalidate()
    assert content(filled) == before


def test_every_table_is_guarded_or_an_index() -> None:
    # A table that is added later must be decided upon.
    assert set(models.metadata.tables) - set(GUARDED) == {"entry_facet", "entry_term"}


def test_no_foreign_key_cascades(database: Database) -> None:
    for table in models.metadata.tables.values():
        for key in table.foreign_key_constraints:
            assert key.ondelete is None
            assert key.onupdate is None
    if database.is_sqlite:
        with database.read() as connection:
            sql = connection.exec_driver_sql("SELECT group_concat(sql) FROM sqlite_master").scalar_one()
        assert "CASCADE" not in sql.upper()
