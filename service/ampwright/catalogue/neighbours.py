"""Which keys of a kind stand beside a key that does not exist?

A misspelt key mostly begins as the right one does, so the right one is among its neighbours in the order of keys. Where
one of its first characters is wrong it stands elsewhere, so the keys that differ in one of those alone are looked up as
well. Two ranges of an index and some hundred keys are read, however large the catalogue is.
"""

from __future__ import annotations

import string
from collections.abc import Iterator

from sqlalchemy import select

from ampwright.catalogue import models
from ampwright.catalogue.database import Database

MOST_NEIGHBOURS = 500  # on each side
_FIRST = 3  # characters in which one slip moves a key far away
_CHARACTERS = string.ascii_lowercase + string.digits + "-."


def neighbours(database: Database, kind: str, slug: str) -> tuple[str, ...]:
    """Keys of that kind around `slug`, and those one slip at its beginning away, in order: all, where there are few.

    An entry without a revision is none.
    """
    table = models.entry
    of_kind = select(table.c.slug).where(table.c.kind == kind, table.c.head > 0)
    with database.read() as connection:
        before = connection.execute(
            of_kind.where(table.c.slug < slug).order_by(table.c.slug.desc()).limit(MOST_NEIGHBOURS)
        )
        after = connection.execute(of_kind.where(table.c.slug >= slug).order_by(table.c.slug).limit(MOST_NEIGHBOURS))
        slips = connection.execute(of_kind.where(table.c.slug.in_(sorted(set(_slips(slug))))))
        return tuple(sorted({row.slug for found in (before, after, slips) for row in found}))


def _slips(slug: str) -> Iterator[str]:
    """Keys with one character more, less or another among the first, or two of them swapped."""
    for at in range(min(_FIRST, len(slug))):
        head, rest = slug[:at], slug[at + 1 :]
        yield head + rest
        yield head + rest[:1] + slug[at] + rest[1:]
        for character in _CHARACTERS:
            yield head + character + rest
            yield head + character + slug[at:]
