"""Which revisions make up a catalogue release, and how do two releases differ?

A release is an explicit list of members, written in one transaction under one lock, numbered without gaps. ("All
revisions up to the highest sequence number" would change later: a slower writer may commit a lower number after the
cut.) Its digest runs over members sorted by bytes, in Python, because databases collate differently.
"""

import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, func, insert, select, tuple_

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_down
from ampwright.catalogue.database import RELEASE_LOCK, Database, lock
from ampwright.catalogue.faults import BadValue, CatalogueError, NoSuchRelease, NoSuchRevision
from ampwright.catalogue.values import LARGEST_REVISION, LONGEST_WHO, checked_text, is_slug

LARGEST_PAGE = 500
_CHUNK = 500


@dataclass(frozen=True, slots=True)
class Release:
    """A release without its members. sha256 (hex) is its digest, see `release_digest`."""

    number: int
    sha256: str
    member_count: int
    made_at: datetime
    made_by: str
    note: str


@dataclass(frozen=True, slots=True, order=True)
class Member:
    """One revision in a release; also what a caller gives to cut one."""

    kind: str
    slug: str
    revision: int


@dataclass(frozen=True, slots=True)
class MemberLine:
    """A member as a release lists it, with the hash of its body."""

    kind: str
    slug: str
    revision: int
    format: int
    sha256: str


@dataclass(frozen=True, slots=True)
class ChangedMember:
    """An entry that stands in two releases with different revisions."""

    kind: str
    slug: str
    old_revision: int
    new_revision: int


@dataclass(frozen=True, slots=True)
class ReleaseDiff:
    """What changes from one release to another; each list sorted by kind and slug."""

    old: Release
    new: Release
    added: tuple[Member, ...]
    removed: tuple[Member, ...]
    changed: tuple[ChangedMember, ...]
    unchanged_count: int


@dataclass(frozen=True, slots=True, order=True)
class Needed:
    """What a document refers to. revision: None where any will do; pointer: the document's member that names it."""

    kind: str
    slug: str
    revision: int | None
    pointer: str


# What a body refers to: (kind, format, body) -> its references. `contract` knows how; storage is handed the function.
ReferencesOf = Callable[[str, int, bytes], Sequence[Needed]]
# The kinds whose documents refer to others.
REFERRING = ("kit", "source-unit")


@dataclass(frozen=True, slots=True)
class Lack:
    """A member that refers to what the release does not hold. held: the revision that it holds instead, if any."""

    member: Member
    needed: Needed
    held: int | None


class LackingRelease(CatalogueError):
    """A release would hold documents that refer to what it does not hold; nothing was cut."""

    def __init__(self, lacks: Sequence[Lack]) -> None:
        super().__init__(f"the release lacks what {len(lacks)} references of its members name")
        self.lacks = tuple(lacks)


def release_digest(members: Iterable[MemberLine]) -> str:
    """SHA-256, in hex, over one line a member, sorted by (kind, slug) as UTF-8 bytes:
    `kind SP slug SP revision SP format SP sha256 LF`. Slugs hold no blanks."""
    total = hashlib.sha256()
    for m in sorted(members, key=lambda m: (m.kind.encode(), m.slug.encode())):
        total.update(f"{m.kind} {m.slug} {m.revision} {m.format} {m.sha256}\n".encode())
    return total.hexdigest()


def release_candidates(database: Database) -> tuple[Member, ...]:
    """What a release cut now from all heads would hold: of each entry the newest revision that is not a draft, unless
    it is withdrawn. (Then the entry is left out: an older revision may be what the withdrawn one corrected.)"""
    with database.read() as connection:
        return tuple(sorted(Member(line.kind, line.slug, line.revision) for line in _candidates(connection)))


def cut_release(
    database: Database,
    *,
    note: str,
    who: str,
    members: Sequence[Member] | None = None,
    references_of: ReferencesOf | None = None,
) -> Release:
    """Cut a release of the given members, or (None) of `release_candidates`.

    references_of: with it, no member may refer to what the release does not hold.
    Errors: BadValue (an entry twice, a draft), NoSuchRevision, LackingRelease, DatabaseUnavailable.
    """
    note = checked_text("note", note)
    who = checked_text("who", who, LONGEST_WHO)
    with database.write() as connection:
        lock(connection, RELEASE_LOCK)
        lines = _candidates(connection) if members is None else member_lines(connection, members)
        if references_of is not None and (lacks := _lacks(connection, lines, references_of)):
            raise LackingRelease(lacks)
        table = models.release
        number = int(connection.execute(select(func.coalesce(func.max(table.c.number), 0))).scalar_one()) + 1
        made = Release(number, release_digest(lines), len(lines), database.clock(), who, note)
        write_release(connection, made, lines)
        note_down(connection, made.made_at, who, action="release", subject=f"release/{number}", detail=note)
    return made


def write_release(connection: Connection, made: Release, lines: Sequence[MemberLine]) -> None:
    """Store a release and its members within the caller's transaction, RELEASE_LOCK being held."""
    connection.execute(
        insert(models.release).values(
            number=made.number,
            sha256=made.sha256,
            member_count=made.member_count,
            made_at=made.made_at,
            made_by=made.made_by,
            note=made.note,
        )
    )
    rows = [
        {"number": made.number, "place": place, "kind": line.kind, "slug": line.slug, "revision": line.revision}
        for place, line in enumerate(sorted(lines, key=lambda m: (m.kind.encode(), m.slug.encode())), start=1)
    ]
    if rows:
        connection.execute(insert(models.release_member), rows)


def newest_release(database: Database) -> Release | None:
    """The release of the highest number; None where none was cut."""
    table = models.release
    with database.read() as connection:
        row = connection.execute(select(*table.c).order_by(table.c.number.desc()).limit(1)).one_or_none()
    return None if row is None else Release(*row)


def get_release(database: Database, number: int) -> Release:
    """One release. Errors: NoSuchRelease."""
    with database.read() as connection:
        return read_release(connection, number)


def list_releases(database: Database, *, before: int | None = None, limit: int = 50) -> tuple[Release, ...]:
    """Releases, newest first, at most `limit` (1..500); go on with the last one's number as `before`."""
    table = models.release
    query = select(*table.c).order_by(table.c.number.desc()).limit(min(max(limit, 1), LARGEST_PAGE))
    if before is not None:
        query = query.where(table.c.number < min(max(before, 1), LARGEST_REVISION))
    with database.read() as connection:
        return tuple(Release(*row) for row in connection.execute(query))


def list_members(
    database: Database, number: int, *, after_place: int = 0, limit: int | None = None
) -> tuple[MemberLine, ...]:
    """Members of a release in their order (kind, slug); `after_place` members are passed over, at most `limit` come.

    Errors: NoSuchRelease.
    """
    with database.read() as connection:
        read_release(connection, number)
        return read_members(connection, number, after_place=after_place, limit=limit)


def diff_releases(database: Database, old: int, new: int) -> ReleaseDiff:
    """What changes from release `old` to release `new`. Errors: NoSuchRelease."""
    with database.read() as connection:
        old_release, new_release = read_release(connection, old), read_release(connection, new)
        before = {(m.kind, m.slug): m.revision for m in read_members(connection, old)}
        after = {(m.kind, m.slug): m.revision for m in read_members(connection, new)}
    both = sorted(before.keys() & after.keys())
    changed = tuple(ChangedMember(*key, before[key], after[key]) for key in both if before[key] != after[key])
    return ReleaseDiff(
        old_release,
        new_release,
        added=tuple(Member(*key, after[key]) for key in sorted(after.keys() - before.keys())),
        removed=tuple(Member(*key, before[key]) for key in sorted(before.keys() - after.keys())),
        changed=changed,
        unchanged_count=len(both) - len(changed),
    )


def read_release(connection: Connection, number: int) -> Release:
    """`get_release` within the caller's transaction."""
    if not 1 <= number <= LARGEST_REVISION:
        raise NoSuchRelease(number)
    table = models.release
    row = connection.execute(select(*table.c).where(table.c.number == number)).one_or_none()
    if row is None:
        raise NoSuchRelease(number)
    return Release(*row)


def read_members(
    connection: Connection, number: int, *, after_place: int = 0, limit: int | None = None
) -> tuple[MemberLine, ...]:
    """`list_members` within the caller's transaction."""
    member, revision = models.release_member, models.entry_revision
    query = (
        select(member.c.kind, member.c.slug, member.c.revision, revision.c.format, revision.c.sha256)
        .join(
            revision,
            (member.c.kind == revision.c.kind)
            & (member.c.slug == revision.c.slug)
            & (member.c.revision == revision.c.revision),
        )
        .where(member.c.number == number, member.c.place > min(max(after_place, 0), LARGEST_REVISION))
        .order_by(member.c.place)
    )
    if limit is not None:
        query = query.limit(min(max(limit, 1), LARGEST_PAGE))
    return tuple(MemberLine(*row) for row in connection.execute(query))


def _candidates(connection: Connection) -> list[MemberLine]:
    revision, withdrawal = models.entry_revision, models.withdrawal
    newest = (
        select(revision.c.kind, revision.c.slug, func.max(revision.c.revision).label("revision"))
        .where(revision.c.status != "draft")
        .group_by(revision.c.kind, revision.c.slug)
        .subquery()
    )
    withdrawn = (
        select(withdrawal.c.number)
        .where(withdrawal.c.kind == newest.c.kind, withdrawal.c.slug == newest.c.slug)
        .where(withdrawal.c.first_revision <= newest.c.revision, withdrawal.c.last_revision >= newest.c.revision)
    )
    query = (
        select(newest.c.kind, newest.c.slug, newest.c.revision, revision.c.format, revision.c.sha256)
        .join(
            revision,
            (revision.c.kind == newest.c.kind)
            & (revision.c.slug == newest.c.slug)
            & (revision.c.revision == newest.c.revision),
        )
        .where(~withdrawn.exists())
    )
    return [MemberLine(*row) for row in connection.execute(query)]


def _lacks(connection: Connection, lines: Sequence[MemberLine], references_of: ReferencesOf) -> list[Lack]:
    held = {(line.kind, line.slug): line.revision for line in lines}
    referring = sorted((line.kind, line.slug, line.revision) for line in lines if line.kind in REFERRING)
    table = models.entry_revision
    lacks: list[Lack] = []
    for start in range(0, len(referring), _CHUNK):
        key = tuple_(table.c.kind, table.c.slug, table.c.revision)
        query = select(table.c.kind, table.c.slug, table.c.revision, table.c.format, table.c.body)
        query = query.where(key.in_(referring[start : start + _CHUNK])).order_by(table.c.kind, table.c.slug)
        for kind, slug, revision, body_format, body in connection.execute(query):
            for needed in references_of(kind, body_format, body.encode("utf-8")):
                there = held.get((needed.kind, needed.slug))
                if there is None or needed.revision not in (None, there):
                    lacks.append(Lack(Member(kind, slug, revision), needed, there))
    return lacks


def _checked_members(members: Sequence[Member]) -> tuple[Member, ...]:
    seen: set[tuple[str, str]] = set()
    for place, member in enumerate(members):
        if (member.kind, member.slug) in seen:
            raise BadValue(f"members[{place}]", "twice", f"{member.kind} {member.slug} is there already")
        if not is_slug(member.slug) or not 1 <= member.revision <= LARGEST_REVISION:
            raise NoSuchRevision(member.kind, member.slug, member.revision)
        seen.add((member.kind, member.slug))
    return tuple(members)


def member_lines(connection: Connection, members: Sequence[Member]) -> list[MemberLine]:
    """The members with what the digest needs, within the caller's transaction. Errors: NoSuchRevision, BadValue (a
    draft, an entry twice)."""
    members = _checked_members(members)
    table = models.entry_revision
    found: dict[tuple[str, str, int], tuple[str, MemberLine]] = {}
    for start in range(0, len(members), _CHUNK):
        keys = [(m.kind, m.slug, m.revision) for m in members[start : start + _CHUNK]]
        query = select(
            table.c.kind, table.c.slug, table.c.revision, table.c.format, table.c.sha256, table.c.status
        ).where(tuple_(table.c.kind, table.c.slug, table.c.revision).in_(keys))
        for *line, status in connection.execute(query):
            found[line[0], line[1], line[2]] = (status, MemberLine(*line))
    for member in members:
        status, _ = found.get((member.kind, member.slug, member.revision), ("", None))
        if not status:
            raise NoSuchRevision(member.kind, member.slug, member.revision)
        if status == "draft":
            raise BadValue("members", "draft", f"{member.kind} {member.slug} revision {member.revision} is a draft")
    return [line for _, line in found.values()]
