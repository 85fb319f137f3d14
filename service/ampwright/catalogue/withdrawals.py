"""Which revisions turned out to be wrong, why, and since when is that known?

A withdrawal deletes nothing: it is a line beside the history, for one revision or for all that an entry has by then
(a corrected one can follow). An answer that uses a withdrawn revision says so, also from a release cut before.

Withdrawals are numbered and their times strictly increase under one lock. So "as of" the newest one that a reader
sees is a complete statement: nothing can be added later with an earlier time.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, func, insert, select, update

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_down
from ampwright.catalogue.database import WITHDRAWAL_LOCK, Database, lock
from ampwright.catalogue.faults import NoSuchEntry, NoSuchRevision
from ampwright.catalogue.values import LONGEST_WHO, checked_text, is_slug


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """One withdrawal: of the revisions first_revision..last_revision of an entry."""

    number: int
    kind: str
    slug: str
    first_revision: int
    last_revision: int
    reason: str
    withdrawn_by: str
    withdrawn_at: datetime

    def covers(self, revision: int) -> bool:
        """Whether it withdraws this revision of its entry."""
        return self.first_revision <= revision <= self.last_revision


@dataclass(frozen=True, slots=True)
class Withdrawals:
    """What was withdrawn as of a time, in order of number.

    as_of: the time to state beside an answer; asked for again it gives the same lines for ever. None: nothing was.
    """

    as_of: datetime | None
    lines: tuple[Withdrawal, ...]

    def of(self, kind: str, slug: str, revision: int) -> tuple[Withdrawal, ...]:
        """Those that withdraw this revision."""
        return tuple(w for w in self.lines if (w.kind, w.slug) == (kind, slug) and w.covers(revision))


def withdraw(database: Database, kind: str, slug: str, revision: int | None, *, reason: str, who: str) -> Withdrawal:
    """Withdraw one revision, or (None) every revision that the entry has now.

    Sent twice it is two lines; that does no harm. Errors: BadValue, NoSuchEntry, NoSuchRevision, DatabaseUnavailable.
    """
    reason = checked_text("reason", reason)
    who = checked_text("who", who, LONGEST_WHO)
    if not is_slug(slug):
        raise NoSuchEntry(kind, slug)
    table, entry = models.withdrawal, models.entry
    with database.write() as connection:
        # The entry first, as every writer does: the order of locks is what keeps writers from deadlocking.
        query = select(entry.c.head).where(entry.c.kind == kind, entry.c.slug == slug).with_for_update(key_share=True)
        head = connection.execute(query).scalar_one_or_none()
        if head is None:
            raise NoSuchEntry(kind, slug)
        if revision is not None and not 1 <= revision <= head:
            raise NoSuchRevision(kind, slug, revision)
        lock(connection, WITHDRAWAL_LOCK)
        last_number, last_time = connection.execute(
            select(func.coalesce(func.max(table.c.number), 0), func.max(table.c.withdrawn_at))
        ).one()
        now = database.clock()
        if last_time is not None and now <= last_time:
            now = last_time + timedelta(microseconds=1)
        made = Withdrawal(last_number + 1, kind, slug, revision or 1, revision or head, reason, who, now)
        connection.execute(
            insert(table).values(
                number=made.number,
                kind=kind,
                slug=slug,
                first_revision=made.first_revision,
                last_revision=made.last_revision,
                reason=reason,
                withdrawn_by=who,
                withdrawn_at=now,
            )
        )
        if made.covers(head):
            facet = models.entry_facet
            connection.execute(
                update(facet).where(facet.c.kind == kind, facet.c.slug == slug).values(status="withdrawn")
            )
        subject = f"{kind}/{slug}" if revision is None else f"{kind}/{slug}/r{revision}"
        note_down(connection, now, who, action="withdraw", subject=subject, detail=reason)
    return made


def withdrawals_as_of(database: Database, time: datetime | None = None) -> Withdrawals:
    """Everything withdrawn by `time`, or (None) by now. The answer's `as_of` is the newest line's own time: later
    withdrawals get a later one, however the clocks go."""
    with database.read() as connection:
        return read_withdrawals(connection, time)


def read_withdrawals(connection: Connection, time: datetime | None = None) -> Withdrawals:
    """`withdrawals_as_of` within the caller's transaction."""
    table = models.withdrawal
    query = select(*table.c).order_by(table.c.number)
    if time is not None:
        query = query.where(table.c.withdrawn_at <= time)
    lines = tuple(Withdrawal(*row) for row in connection.execute(query))
    return Withdrawals(lines[-1].withdrawn_at if lines else None, lines)
