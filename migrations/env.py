"""How is one migration run carried out?

In one transaction for all its steps, on both databases, so that a failure midway leaves nothing behind; one at a time
(PostgreSQL: advisory lock; SQLite: BEGIN IMMEDIATE); with SQLite's foreign keys off, because a table that a batch
change rebuilds would else take its children with it, and checked before the commit. The run is refused if it lost a
trigger of a table that still stands, or rows on the way up.
"""

from alembic import context
from ampwright.catalogue import models
from ampwright.catalogue.database import MIGRATION_LOCK, lock, make_engine
from ampwright.catalogue.migration_guard import refuse_losses, what_is_there
from ampwright.settings import read_settings
from sqlalchemy import Connection

if context.is_offline_mode():
    raise SystemExit("migrations run on a live database only: they check what they change")

attributes = context.config.attributes


def _run(connection: Connection) -> None:
    lock(connection, MIGRATION_LOCK)
    before = what_is_there(connection)
    context.configure(
        connection=connection,
        target_metadata=models.metadata,
        render_as_batch=True,
        compare_type=True,
        transactional_ddl=True,
        transaction_per_migration=False,
    )
    with context.begin_transaction():
        context.run_migrations()
    refuse_losses(connection, before, downgrading=attributes.get("downgrading", False))


engine = make_engine(attributes.get("database_url") or read_settings().database_url, migrating=True)
try:
    with engine.connect() as live, live.execution_options(write=True).begin():
        _run(live)
finally:
    engine.dispose()
