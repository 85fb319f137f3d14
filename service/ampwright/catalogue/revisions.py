"""How is a revision written so that nobody's work is lost, and how is it read again?

The entry's row is locked, the new revision gets its head + 1 (a sequence would leave gaps), and the hash is taken of
the stored bytes, once; nothing is ever encoded again. Whoever sends the same body twice, because an answer was lost,
gets the revision that is there.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from sqlalchemy import Connection, insert, select, update
from sqlalchemy.dialects import postgresql, sqlite

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_down
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets, checked_facets, index_heads
from ampwright.catalogue.faults import BadValue, HeadMoved, NoSuchEntry
from ampwright.catalogue.values import (
    LARGEST_FORMAT,
    LARGEST_REVISION,
    LONGEST_WHO,
    checked_body,
    checked_count,
    checked_kind,
    checked_slug,
    checked_text,
    is_slug,
)
from ampwright.catalogue.withdrawals import is_withdrawn

LARGEST_PAGE = 500


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision as stored. `body` are the very bytes that `sha256` (hex) was taken of; `format` numbers the struct
    they were written with; status is draft or approved."""

    kind: str
    slug: str
    revision: int
    format: int
    status: str
    body: bytes
    sha256: str
    entered_at: datetime
    entered_by: str
    why: str


@dataclass(frozen=True, slots=True)
class RevisionLine:
    """A revision in a list: everything but its body."""

    kind: str
    slug: str
    revision: int
    format: int
    status: str
    sha256: str
    entered_at: datetime
    entered_by: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NewRevision:
    """What somebody wants to write.

    body: canonical bytes (one JSON object on one line). facets: what search shall find it by, and its status.
    expected_head: the revision it was made from (If-Match); create: there must be no such entry yet (If-None-Match: *);
    neither: append to whatever is there.
    """

    kind: str
    slug: str
    format: int
    body: bytes
    facets: Facets
    why: str
    who: str
    expected_head: int | None = None
    create: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """What became of a write. identical: the head already was this, nothing was added."""

    outcome: Literal["new", "identical"]
    revision: Revision
    created: bool


def write_revision(database: Database, new: NewRevision) -> Written:
    """Write one revision; committed and flushed when this returns.

    Errors: BadValue, NoSuchEntry (expected_head of an entry that does not exist), HeadMoved, DatabaseUnavailable.
    """
    return write_revisions(database, (new,))[0]


def write_revisions(database: Database, new: Sequence[NewRevision]) -> tuple[Written, ...]:
    """Write several revisions, all or none, in the order given. Errors: those of `write_revision`."""
    checked = [_checked(one) for one in new]
    with database.write() as connection:
        # Locks are taken in one order, so that two batches wait for each other instead of deadlocking.
        heads = {key: _locked_head(connection, *key) for key in sorted({(one.kind, one.slug) for one in checked})}
        done = []
        for one in checked:
            written = _write(connection, one, heads[one.kind, one.slug], database.clock())
            heads[one.kind, one.slug] = written.revision.revision
            done.append(written)
        return tuple(done)


def head(database: Database, kind: str, slug: str) -> Revision | None:
    """The newest revision of an entry, withdrawn or not; None where there is no entry."""
    if not is_slug(slug):
        return None
    with database.read() as connection:
        return _head(connection, kind, slug)


def get_revision(database: Database, kind: str, slug: str, revision: int) -> Revision | None:
    """One revision of an entry; None where there is none."""
    if not is_slug(slug) or not 1 <= revision <= LARGEST_REVISION:
        return None
    with database.read() as connection:
        return _get(connection, kind, slug, revision)


def list_revisions(
    database: Database, kind: str, slug: str, *, before: int | None = None, limit: int = 50
) -> tuple[RevisionLine, ...]:
    """Revisions of an entry, newest first, at most `limit` (1..500); go on with the last one's number as `before`.

    Errors: NoSuchEntry.
    """
    table = models.entry_revision
    columns = [column for column in table.c if column.name != "body"]
    if not is_slug(slug):
        raise NoSuchEntry(kind, slug)
    query = (
        select(*columns)
        .where(table.c.kind == kind, table.c.slug == slug)
        .order_by(table.c.revision.desc())
        .limit(min(max(limit, 1), LARGEST_PAGE))
    )
    if before is not None:
        query = query.where(table.c.revision < min(max(before, 1), LARGEST_REVISION))
    with database.read() as connection:
        found = tuple(RevisionLine(*row) for row in connection.execute(query))
        if not found and _head(connection, kind, slug) is None:
            raise NoSuchEntry(kind, slug)
    return found


def digest(body: bytes) -> str:
    """SHA-256 of stored bytes, in hex."""
    return hashlib.sha256(body).hexdigest()


def _checked(new: NewRevision) -> NewRevision:
    checked_kind(new.kind)
    checked_slug(new.slug)
    checked_count("format", new.format, LARGEST_FORMAT)
    checked_body(new.body)
    if new.expected_head is not None:
        checked_count("expected_head", new.expected_head, LARGEST_REVISION)
        if new.create:
            raise BadValue("create", "contradictory", "an entry that is to be created has no head to expect")
    return NewRevision(
        kind=new.kind,
        slug=new.slug,
        format=new.format,
        body=new.body,
        facets=checked_facets(new.facets),
        why=checked_text("why", new.why),
        who=checked_text("who", new.who, LONGEST_WHO),
        expected_head=new.expected_head,
        create=new.create,
    )


def _locked_head(connection: Connection, kind: str, slug: str) -> int:
    """The head of an entry, 0 where there is none, with its row locked (it is made, so that there is one to lock)."""
    table = models.entry
    query = select(table.c.head).where(table.c.kind == kind, table.c.slug == slug).with_for_update(key_share=True)
    found: int | None = connection.execute(query).scalar_one_or_none()
    if found is not None:
        return found
    # Another writer may be making it: then PostgreSQL waits here until that one is done, and the row is there.
    make = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
    connection.execute(make(table).values(kind=kind, slug=slug, head=0).on_conflict_do_nothing())
    return int(connection.execute(query).scalar_one())


def _write(connection: Connection, new: NewRevision, found: int, now: datetime) -> Written:
    current = _get(connection, new.kind, new.slug, found) if found else None
    if current is None and new.expected_head is not None:
        raise NoSuchEntry(new.kind, new.slug)
    sha256 = digest(new.body)
    if (
        current is not None
        and (current.sha256, current.format, current.status) == (sha256, new.format, new.facets.status)
        # What was withdrawn and is sent again is meant as a new revision that stands.
        and not is_withdrawn(connection, new.kind, new.slug, found)
    ):
        return Written("identical", current, created=False)
    if current is not None and (new.create or new.expected_head not in (None, found)):
        raise HeadMoved(new.kind, new.slug, found, current.sha256)
    number = checked_count("revision", found + 1, LARGEST_REVISION)
    row = {
        "kind": new.kind,
        "slug": new.slug,
        "revision": number,
        "format": new.format,
        "status": new.facets.status,
        "body": new.body.decode("utf-8"),
        "sha256": sha256,
        "entered_at": now,
        "entered_by": new.who,
        "why": new.why,
    }
    connection.execute(insert(models.entry_revision).values(row))
    table = models.entry
    connection.execute(update(table).where(table.c.kind == new.kind, table.c.slug == new.slug).values(head=number))
    index_heads(connection, {(new.kind, new.slug): new.facets})
    note_down(connection, now, new.who, action="write", subject=f"{new.kind}/{new.slug}/r{number}", detail=new.why)
    stored = Revision(
        new.kind, new.slug, number, new.format, new.facets.status, new.body, sha256, now, new.who, new.why
    )
    return Written("new", stored, created=number == 1)


def _head(connection: Connection, kind: str, slug: str) -> Revision | None:
    table, revision = models.entry, models.entry_revision
    query = (
        select(*revision.c)
        .join(table, (table.c.kind == revision.c.kind) & (table.c.slug == revision.c.slug))
        .where(table.c.kind == kind, table.c.slug == slug, revision.c.revision == table.c.head)
    )
    return _as_revision(connection.execute(query).one_or_none())


def _get(connection: Connection, kind: str, slug: str, number: int) -> Revision | None:
    table = models.entry_revision
    query = select(*table.c).where(table.c.kind == kind, table.c.slug == slug, table.c.revision == number)
    return _as_revision(connection.execute(query).one_or_none())


def _as_revision(row: Sequence[object] | None) -> Revision | None:
    if row is None:
        return None
    values = dict(zip(models.entry_revision.c.keys(), row, strict=True))
    values["body"] = str(values["body"]).encode("utf-8")
    return Revision(**values)  # type: ignore[arg-type]  # the table's columns are the dataclass's members
