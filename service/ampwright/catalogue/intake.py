"""How is an exported catalogue brought in, all of it or nothing?

One transaction. Every hash is verified, the end line must be there, and what is here already must be the same in every
member, or nothing is taken: a history cannot be merged with another one. Importing twice adds nothing. The lines of an
export are sorted, and so are the locks that an import takes.
"""

import hashlib
import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import msgspec
from sqlalchemy import Connection, func, insert, select, text, tuple_, update

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_down
from ampwright.catalogue.clock import from_text
from ampwright.catalogue.database import RELEASE_LOCK, WITHDRAWAL_LOCK, Database, lock
from ampwright.catalogue.exchange import (
    FORMAT,
    AccessKeyLine,
    AuditLine,
    EndLine,
    HeadLine,
    Line,
    ReleaseLine,
    RevisionLine,
    WithdrawalLine,
)
from ampwright.catalogue.facets import Facets, FacetsOf, checked_facets
from ampwright.catalogue.faults import BadValue, Conflict
from ampwright.catalogue.releases import Member, Release, member_lines, read_members, release_digest, write_release
from ampwright.catalogue.revisions import Revision, digest, locked_heads, store_revisions
from ampwright.catalogue.values import (
    LARGEST_FORMAT,
    LARGEST_REVISION,
    LONGEST_WHO,
    STATUSES,
    checked_body,
    checked_count,
    checked_kind,
    checked_slug,
    checked_text,
)

LONGEST_LINE_BYTES = 64_000_000
_BATCH = 500
_decoder: msgspec.json.Decoder[Line] = msgspec.json.Decoder(Line)


@dataclass(frozen=True, slots=True)
class Intake:
    """What an import found, and what of it was new."""

    revisions: int
    releases: int
    withdrawals: int
    new_revisions: int
    new_releases: int
    new_withdrawals: int


def import_lines(
    database: Database, lines: Iterable[bytes], *, facets_of: FacetsOf, who: str, whole: bool = False
) -> Intake:
    """Bring in the lines of an export. whole: also the access keys and the audit trail of a backup, into a database
    that is empty.

    facets_of refuses a body that it cannot read with ValueError. A backup is restored all the same, under its slug
    alone: what was accepted once must come back.

    Errors: Conflict with the line's number (not an export, cut short, a wrong hash, another history),
    DatabaseUnavailable.
    """
    who = checked_text("who", who, LONGEST_WHO)
    with database.write() as connection:
        taken = _take(connection, _numbered(lines), facets_of, whole)
        if not whole and (taken.new_revisions or taken.new_releases or taken.new_withdrawals):
            told = (
                f"{taken.new_revisions} revisions, {taken.new_releases} releases, {taken.new_withdrawals} withdrawals"
            )
            note_down(connection, database.clock(), who, action="import", subject="import", detail=told)
    return taken


def _numbered(lines: Iterable[bytes]) -> Iterator[tuple[int, Line]]:
    """Every line decoded, with its number; the first and the last are checked here and the first left out."""
    total = hashlib.sha256()
    ended = False
    for number, raw in enumerate(lines, start=1):
        if ended:
            raise Conflict(number, "something follows the end line")
        if len(raw) > LONGEST_LINE_BYTES:
            raise Conflict(number, "longer than any line of an export")
        try:
            line = _decoder.decode(raw)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            raise Conflict(number, f"not a line of an export: {error}") from None
        if isinstance(line, HeadLine) != (number == 1):
            raise Conflict(number, "an export has one head line, the first")
        if isinstance(line, HeadLine):
            if line.format != FORMAT:
                raise Conflict(number, f"format {line.format}: this version reads format {FORMAT}")
        else:
            ended = isinstance(line, EndLine)
            if isinstance(line, EndLine) and line.sha256 != total.hexdigest():
                raise Conflict(number, "the lines are not those that were exported")
            yield number, line
        total.update(raw.rstrip(b"\r\n") + b"\n")
    if not ended:
        raise Conflict(0, "there is no end line: the export was cut short")


# The order of an export's lines.
_ORDER: tuple[type[Line], ...] = (RevisionLine, ReleaseLine, WithdrawalLine, AccessKeyLine, AuditLine, EndLine)


def _take(connection: Connection, lines: Iterator[tuple[int, Line]], facets_of: FacetsOf, whole: bool) -> Intake:
    if whole:
        _require_empty(connection)
    found = dict.fromkeys(_ORDER, 0)
    new = dict.fromkeys(_ORDER, 0)
    reached = 0
    last_key: tuple[str, str] = ("", "")
    for kind_of_line, group in itertools.groupby(lines, key=lambda numbered: type(numbered[1])):
        place = _ORDER.index(kind_of_line)
        batches = _batches(group, 1 if kind_of_line in (ReleaseLine, WithdrawalLine) else _BATCH)
        for batch in batches:
            if place < reached:
                raise Conflict(batch[0][0], "the lines of an export are sorted; these are not")
            found[kind_of_line] += len(batch)
            match batch[0][1]:
                case RevisionLine():
                    new[kind_of_line] += _take_revisions(connection, batch, facets_of, whole, last_key)
                    last_key = (batch[-1][1].kind, batch[-1][1].slug)  # type: ignore[union-attr]
                case ReleaseLine() as line:
                    if not found[kind_of_line] > 1:
                        lock(connection, RELEASE_LOCK)
                    new[kind_of_line] += _take_release(connection, batch[0][0], line)
                case WithdrawalLine() as line:
                    if not found[kind_of_line] > 1:
                        lock(connection, WITHDRAWAL_LOCK)
                    new[kind_of_line] += _take_withdrawal(connection, batch[0][0], line)
                case EndLine() as line:
                    stated = (line.revisions, line.releases, line.withdrawals, line.access_keys, line.audit_lines)
                    if stated != tuple(found[t] for t in _ORDER[:-1]):
                        raise Conflict(batch[0][0], "the end line counts other lines than there are")
                case _:
                    if not whole:
                        raise Conflict(batch[0][0], "this is a backup: restore it")
                    _take_rows(connection, kind_of_line, [line for _, line in batch])
        reached = place
    return Intake(
        found[RevisionLine],
        found[ReleaseLine],
        found[WithdrawalLine],
        new[RevisionLine],
        new[ReleaseLine],
        new[WithdrawalLine],
    )


def _batches(group: Iterator[tuple[int, Line]], size: int) -> Iterator[list[tuple[int, Line]]]:
    while batch := list(itertools.islice(group, size)):
        yield batch


def _require_empty(connection: Connection) -> None:
    for table in models.metadata.sorted_tables:
        if connection.execute(select(text("1")).select_from(table).limit(1)).first() is not None:
            raise Conflict(0, f"a backup is restored into an empty database, and {table.name} is not")


def _facets(line: RevisionLine, body: bytes, facets_of: FacetsOf, whole: bool) -> Facets:
    try:
        return checked_facets(facets_of(line.kind, line.format, body))
    except ValueError:
        if not whole:
            raise
        return Facets(name=line.slug)


def _checked_revision(number: int, line: RevisionLine, facets_of: FacetsOf, whole: bool) -> tuple[Facets, Revision]:
    body = bytes(line.body)
    try:
        checked_kind(line.kind)
        checked_slug(line.slug)
        checked_count("revision", line.revision, LARGEST_REVISION)
        checked_count("format", line.format, LARGEST_FORMAT)
        if line.status not in STATUSES:
            raise BadValue("status", "unknown_status", f"{line.status!r}")
        checked_body(body)
        facets = _facets(line, body, facets_of, whole)
        revision = Revision(
            line.kind,
            line.slug,
            line.revision,
            line.format,
            line.status,
            body,
            line.sha256,
            from_text(line.entered_at),
            checked_text("entered_by", line.entered_by, LONGEST_WHO),
            checked_text("why", line.why),
        )
    except ValueError as error:  # BadValue is one
        raise Conflict(number, str(error)) from None
    if digest(body) != line.sha256:
        raise Conflict(number, f"the body of {line.kind} {line.slug} revision {line.revision} has not its hash")
    return replace(facets, status=line.status), revision


def _take_revisions(
    connection: Connection,
    batch: Sequence[tuple[int, Line]],
    facets_of: FacetsOf,
    whole: bool,
    last_key: tuple[str, str],
) -> int:
    rows: list[tuple[int, Facets, Revision]] = []
    for number, line in batch:
        assert isinstance(line, RevisionLine)
        if (line.kind, line.slug) < last_key:
            raise Conflict(number, "the revisions of an export are sorted; these are not")
        last_key = (line.kind, line.slug)
        rows.append((number, *_checked_revision(number, line, facets_of, whole)))
    heads = locked_heads(connection, sorted({(r.kind, r.slug) for _, _, r in rows}))
    table = models.entry_revision
    compared = [column for column in table.c if column.name != "body"]
    keys = [(r.kind, r.slug, r.revision) for _, _, r in rows]
    query = select(*compared).where(tuple_(table.c.kind, table.c.slug, table.c.revision).in_(keys))
    stored = {(row.kind, row.slug, row.revision): row._asdict() for row in connection.execute(query)}
    added: list[tuple[Facets, Revision]] = []
    for number, facets, revision in rows:
        key = (revision.kind, revision.slug)
        there = stored.get((*key, revision.revision))
        if there is not None:
            if any(value != getattr(revision, name) for name, value in there.items()):
                raise Conflict(number, f"{key[0]} {key[1]} revision {revision.revision} is another one here")
            continue
        if revision.revision != heads[key] + 1:
            raise Conflict(number, f"{key[0]} {key[1]} goes from revision {heads[key]} to {revision.revision}")
        heads[key] = revision.revision
        added.append((facets, revision))
    store_revisions(connection, added)
    return len(added)


def _take_release(connection: Connection, number: int, line: ReleaseLine) -> int:
    members = [Member(m.kind, m.slug, m.revision) for m in line.members]
    try:
        checked_count("number", line.number, LARGEST_REVISION)
        lines = member_lines(connection, members)
        made = Release(
            line.number,
            line.sha256,
            len(members),
            from_text(line.made_at),
            checked_text("made_by", line.made_by, LONGEST_WHO),
            checked_text("note", line.note),
        )
    except (ValueError, LookupError) as error:
        raise Conflict(number, str(error)) from None
    if release_digest(lines) != line.sha256:
        raise Conflict(number, f"release {line.number} has not its digest")
    table = models.release
    row = connection.execute(select(*table.c).where(table.c.number == line.number)).one_or_none()
    if row is not None:
        same = Release(*row) == made and {(m.kind, m.slug, m.revision) for m in members} == {
            (m.kind, m.slug, m.revision) for m in read_members(connection, line.number)
        }
        if not same:
            raise Conflict(number, f"release {line.number} is another one here")
        return 0
    newest = connection.execute(select(func.coalesce(func.max(table.c.number), 0))).scalar_one()
    if line.number != newest + 1:
        raise Conflict(number, f"releases go from {newest} to {line.number}")
    write_release(connection, made, lines)
    return 1


def _take_withdrawal(connection: Connection, number: int, line: WithdrawalLine) -> int:
    table, entry = models.withdrawal, models.entry
    try:
        for field, count in (("number", line.number), ("first", line.first_revision), ("last", line.last_revision)):
            checked_count(field, count, LARGEST_REVISION)
        made: dict[str, object] = {
            "number": line.number,
            "kind": checked_kind(line.kind),
            "slug": checked_slug(line.slug),
            "first_revision": line.first_revision,
            "last_revision": line.last_revision,
            "reason": checked_text("reason", line.reason),
            "withdrawn_by": checked_text("withdrawn_by", line.withdrawn_by, LONGEST_WHO),
            "withdrawn_at": from_text(line.withdrawn_at),
        }
    except ValueError as error:
        raise Conflict(number, str(error)) from None
    row = connection.execute(select(*table.c).where(table.c.number == line.number)).one_or_none()
    if row is not None:
        if row._asdict() != made:
            raise Conflict(number, f"withdrawal {line.number} is another one here")
        return 0
    last: tuple[int, datetime] | None = connection.execute(
        select(table.c.number, table.c.withdrawn_at).order_by(table.c.number.desc()).limit(1)
    ).one_or_none()
    if line.number != (last[0] if last else 0) + 1 or (last and made["withdrawn_at"] <= last[1]):  # type: ignore[operator]
        raise Conflict(number, f"withdrawal {line.number} does not follow the last one here")
    query = select(entry.c.head).where(entry.c.kind == line.kind, entry.c.slug == line.slug)
    head = connection.execute(query).scalar_one_or_none() or 0
    if not line.first_revision <= line.last_revision <= head:
        raise Conflict(number, f"{line.kind} {line.slug} has no such revisions")
    connection.execute(insert(table).values(made))
    if line.last_revision == head:
        facet = models.entry_facet
        connection.execute(
            update(facet).where(facet.c.kind == line.kind, facet.c.slug == line.slug).values(status="withdrawn")
        )
    return 1


def _take_rows(connection: Connection, kind_of_line: type[Line], lines: Sequence[Line]) -> None:
    table = models.access_key if kind_of_line is AccessKeyLine else models.audit
    rows = []
    for line in lines:
        row = msgspec.structs.asdict(line)
        for name, value in row.items():
            if (name.endswith("_at") or name == "at") and value is not None:
                row[name] = from_text(value)
        rows.append(row)
    connection.execute(insert(table), rows)
    if table is models.audit and connection.dialect.name == "postgresql":
        # numbers were given here, so the sequence has to be told where to go on
        connection.execute(
            text("SELECT setval(pg_get_serial_sequence('audit', 'number'), (SELECT max(number) FROM audit))")
        )
