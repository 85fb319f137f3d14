"""Which keys of a kind stand beside a key that does not exist?

A misspelt key mostly begins as the right one does, so the right one is among its neighbours in the order of keys. Two
ranges of an index are read, however large the catalogue is.
"""

from sqlalchemy import select

from ampwright.catalogue import models
from ampwright.catalogue.database import Database

MOST_NEIGHBOURS = 500  # on each side


def neighbours(database: Database, kind: str, slug: str) -> tuple[str, ...]:
    """Keys of that kind around `slug`, in order: all, where there are few. An entry without a revision is none."""
    table = models.entry
    of_kind = select(table.c.slug).where(table.c.kind == kind, table.c.head > 0)
    with database.read() as connection:
        before = connection.execute(
            of_kind.where(table.c.slug < slug).order_by(table.c.slug.desc()).limit(MOST_NEIGHBOURS)
        )
        after = connection.execute(of_kind.where(table.c.slug >= slug).order_by(table.c.slug).limit(MOST_NEIGHBOURS))
        return (*reversed([row.slug for row in before]), *(row.slug for row in after))
