"""How is a revision written so that nobody's work is lost, and how is it read again?

The entry's row is locked, the new revision gets its head + 1 (a sequence would leave gaps), and the hash is taken of
the stored bytes, once; nothing is ever encoded again. Whoever sends the same body twice, because an answer was lost,
gets the revision that is there.
"""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from sqlalchemy import Connection, bindparam, insert, select, tuple_, update
from sqlalchemy.dialects import postgresql, sqlite

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_all_down
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets, Head, checked_facets, index_heads
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

LARGEST_PAGE = 500
_CHUNK = 500


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
    keys = sorted({(one.kind, one.slug) for one in checked})
    with database.write() as connection:
        heads = locked_heads(connection, keys)
        now = database.clock()
        current = _current(connection, [key for key in keys if heads[key]])
        withdrawn = _withdrawn(connection, list(current))
        done: list[Written] = []
        for one in checked:
            key = (one.kind, one.slug)
            done.append(_decided(one, current.get(key), key in withdrawn, now))
            if done[-1].outcome == "new":
                current[key] = done[-1].revision
                withdrawn.discard(key)
        made = [(one.facets, w.revision) for one, w in zip(checked, done, strict=True) if w.outcome == "new"]
        store_revisions(connection, made)
        lines: list[dict[str, object]] = [
            {
                "at": now,
                "who": r.entered_by,
                "action": "write",
                "subject": f"{r.kind}/{r.slug}/r{r.revision}",
                "detail": r.why,
            }
            for _, r in made
        ]
        note_all_down(connection, lines)
        return tuple(done)


def head(database: Database, kind: str, slug: str) -> Revision | None:
    """The newest revision of an entry, withdrawn or not; None where there is no entry."""
    if not is_slug(slug):
        return None
    with database.read() as connection:
        return _head(connection, kind, slug)


def heads_of(database: Database, kind: str, slugs: Sequence[str]) -> dict[str, Revision]:
    """The newest revisions of entries, by slug; one that does not exist is left out."""
    with database.read() as connection:
        found = _current(connection, [(kind, slug) for slug in slugs if is_slug(slug)])
    return {slug: revision for (_, slug), revision in found.items()}


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


def locked_heads(connection: Connection, keys: Sequence[tuple[str, str]]) -> dict[tuple[str, str], int]:
    """The heads of entries, 0 for one that does not exist, with their rows locked (they are made, so that there are
    some to lock), within the caller's transaction. keys: sorted, so that writers wait for each other instead of
    deadlocking."""
    table = models.entry
    heads: dict[tuple[str, str], int] = {}
    for start in range(0, len(keys), _CHUNK):
        chunk = keys[start : start + _CHUNK]
        query = (
            select(table.c.kind, table.c.slug, table.c.head)
            .where(tuple_(table.c.kind, table.c.slug).in_(chunk))
            .order_by(table.c.kind, table.c.slug)
            .with_for_update(key_share=True)
        )
        found = {(kind, slug): head for kind, slug, head in connection.execute(query)}
        if missing := [{"kind": k, "slug": s, "head": 0} for k, s in chunk if (k, s) not in found]:
            # Another writer may be making one: then PostgreSQL waits here until that one is done, and the row is there.
            make = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
            connection.execute(make(table).on_conflict_do_nothing(), missing)
            found = {(kind, slug): head for kind, slug, head in connection.execute(query)}
        heads |= found
    return heads


def _current(connection: Connection, keys: Sequence[tuple[str, str]]) -> dict[tuple[str, str], Revision]:
    """The revisions that are heads now."""
    entry, revision = models.entry, models.entry_revision
    found: dict[tuple[str, str], Revision] = {}
    for start in range(0, len(keys), _CHUNK):
        query = (
            select(*revision.c)
            .join(entry, (entry.c.kind == revision.c.kind) & (entry.c.slug == revision.c.slug))
            .where(revision.c.revision == entry.c.head)
            .where(tuple_(entry.c.kind, entry.c.slug).in_(keys[start : start + _CHUNK]))
        )
        rows = [_as_revision(row) for row in connection.execute(query)]
        found |= {(row.kind, row.slug): row for row in rows}
    return found


def _withdrawn(connection: Connection, keys: Sequence[tuple[str, str]]) -> set[tuple[str, str]]:
    """Those of the entries whose head is withdrawn."""
    entry, withdrawal = models.entry, models.withdrawal
    found: set[tuple[str, str]] = set()
    for start in range(0, len(keys), _CHUNK):
        query = (
            select(entry.c.kind, entry.c.slug)
            .join(withdrawal, (withdrawal.c.kind == entry.c.kind) & (withdrawal.c.slug == entry.c.slug))
            .where(withdrawal.c.first_revision <= entry.c.head, withdrawal.c.last_revision >= entry.c.head)
            .where(tuple_(entry.c.kind, entry.c.slug).in_(keys[start : start + _CHUNK]))
        )
        found |= {(kind, slug) for kind, slug in connection.execute(query)}
    return found


def _decided(new: NewRevision, current: Revision | None, withdrawn: bool, now: datetime) -> Written:
    """What becomes of a write on top of the head that is there."""
    if current is None and new.expected_head is not None:
        raise NoSuchEntry(new.kind, new.slug)
    sha256 = digest(new.body)
    if (
        current is not None
        and (current.sha256, current.format, current.status) == (sha256, new.format, new.facets.status)
        # What was withdrawn and is sent again is meant as a new revision that stands.
        and not withdrawn
    ):
        return Written("identical", current, created=False)
    if current is not None and (new.create or new.expected_head not in (None, current.revision)):
        raise HeadMoved(new.kind, new.slug, current.revision, current.sha256)
    number = checked_count("revision", current.revision + 1 if current else 1, LARGEST_REVISION)
    made = Revision(new.kind, new.slug, number, new.format, new.facets.status, new.body, sha256, now, new.who, new.why)
    return Written("new", made, created=number == 1)


def store_revisions(connection: Connection, made: Sequence[tuple[Facets, Revision]]) -> None:
    """Add revisions, each following the one before it, and make the last one of each entry its head; within the
    caller's transaction, the entries' rows being locked. The facets are checked and carry the revision's status."""
    if not made:
        return
    rows = [{**{name: getattr(r, name) for name in _COLUMNS}, "body": r.body.decode("utf-8")} for _, r in made]
    connection.execute(insert(models.entry_revision), rows)
    last = {(r.kind, r.slug): (facets, r) for facets, r in made}
    table = models.entry
    statement = update(table).where(table.c.kind == bindparam("of_kind"), table.c.slug == bindparam("of_slug"))
    connection.execute(
        statement.values(head=bindparam("to")),
        [{"of_kind": kind, "of_slug": slug, "to": r.revision} for (kind, slug), (_, r) in last.items()],
    )
    index_heads(
        connection,
        {
            key: Head(facets, r.revision, r.format, r.sha256, r.entered_at, r.entered_by)
            for key, (facets, r) in last.items()
        },
    )


def _head(connection: Connection, kind: str, slug: str) -> Revision | None:
    return _current(connection, [(kind, slug)]).get((kind, slug))


def _get(connection: Connection, kind: str, slug: str, number: int) -> Revision | None:
    table = models.entry_revision
    query = select(*table.c).where(table.c.kind == kind, table.c.slug == slug, table.c.revision == number)
    row = connection.execute(query).one_or_none()
    return None if row is None else _as_revision(row)


_COLUMNS = tuple(models.entry_revision.c.keys())


def _as_revision(row: Iterable[object]) -> Revision:
    values = dict(zip(_COLUMNS, row, strict=True))
    values["body"] = str(values["body"]).encode("utf-8")
    return Revision(**values)  # type: ignore[arg-type]  # the table's columns are the dataclass's members
