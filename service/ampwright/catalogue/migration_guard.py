"""Did a migration lose anything?

On SQLite a batch change rebuilds its table: the triggers that guard history are gone afterwards, silently, and with
foreign keys on so are the children. `what_is_there` looks before, `refuse_losses` afterwards and before the commit;
`kept_triggers` puts triggers back around a rebuild; `refuse_if_filled` is for downgrades.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy import Connection, inspect, text

_VERSION_TABLE = "alembic_version"

_TRIGGERS = {
    "sqlite": "SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger'",
    "postgresql": (
        "SELECT t.tgname, c.relname, pg_get_triggerdef(t.oid) FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid"
        " JOIN pg_namespace n ON n.oid = c.relnamespace WHERE NOT t.tgisinternal AND n.nspname = current_schema()"
    ),
}


class MigrationRefused(RuntimeError):
    """The run would lose something; it was rolled back."""


@dataclass(frozen=True, slots=True)
class Trigger:
    """A trigger as the database describes it."""

    name: str
    table: str
    sql: str


@dataclass(frozen=True, slots=True)
class Inventory:
    """What a database holds: rows by table, and its triggers by name."""

    rows: dict[str, int]
    triggers: dict[str, Trigger]


def what_is_there(connection: Connection) -> Inventory:
    """Rows by table, and triggers, of the whole database but alembic's own table."""
    tables = [table for table in sorted(inspect(connection).get_table_names()) if table != _VERSION_TABLE]
    quote = connection.dialect.identifier_preparer.quote
    rows = {table: int(connection.scalar(text(f"SELECT count(*) FROM {quote(table)}")) or 0) for table in tables}
    return Inventory(rows, triggers(connection))


def triggers(connection: Connection) -> dict[str, Trigger]:
    """Every trigger by name."""
    found = connection.execute(text(_TRIGGERS[connection.dialect.name]))
    return {name: Trigger(name, table, sql) for name, table, sql in found}


def refuse_losses(connection: Connection, before: Inventory, *, downgrading: bool = False) -> None:
    """Raise MigrationRefused if rows or triggers of a table that still stands are gone, or a foreign key dangles."""
    after = what_is_there(connection)
    problems = [
        f"trigger {trigger.name} of {trigger.table} is gone"
        for name, trigger in before.triggers.items()
        if trigger.table in after.rows and name not in after.triggers
    ]
    problems += [
        f"{table} had {count} rows and has {after.rows.get(table, 0)}"
        for table, count in before.rows.items()
        if count > after.rows.get(table, 0) and not (downgrading and table not in after.rows)
    ]
    if connection.dialect.name == "sqlite":
        problems += [
            f"row {row[1]} of {row[0]} points at no row of {row[2]}"
            for row in connection.exec_driver_sql("PRAGMA foreign_key_check").fetchmany(20)
        ]
    if problems:
        raise MigrationRefused("; ".join(problems))


@contextmanager
def kept_triggers(connection: Connection, table: str) -> Iterator[None]:
    """Run a batch change of `table` and give it back the triggers that the rebuild took.

    They are taken off before it, because a rebuild copies and drops, which some of them refuse.
    """
    if connection.dialect.name != "sqlite":
        yield
        return
    # Triggers of other tables may read this one; SQLite checks them when a table is renamed.
    for trigger in (kept := triggers(connection)).values():
        connection.exec_driver_sql(f"DROP TRIGGER {trigger.name}")
    yield
    for trigger in kept.values():
        connection.exec_driver_sql(trigger.sql)
    if not any(trigger.table == table for trigger in kept.values()):
        raise MigrationRefused(f"{table} had no trigger to keep")


def refuse_if_filled(connection: Connection, tables: Sequence[str]) -> None:
    """For downgrades: raise MigrationRefused if one of the tables that would be dropped holds a row."""
    filled = [table for table in tables if connection.scalar(text(f"SELECT 1 FROM {table} LIMIT 1")) is not None]
    if filled:
        raise MigrationRefused(f"a downgrade would drop what is in {', '.join(filled)}: export first, then remove it")
