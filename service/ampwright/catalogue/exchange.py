"""How is a whole catalogue carried from one database to another, byte for byte?

NDJSON: a head line, one line a revision (sorted by kind, slug, revision; the stored body raw, with its hash), one a
release with its members, one a withdrawal, and an end line with counts and the SHA-256 of all lines before it, so that
a file that was cut short is not taken for a whole one. Two databases of either kind with the same history export the
same bytes. What is an index (facets) is left out and made again on the way in.

A backup adds lines for access keys (hashes) and the audit trail.
"""

import hashlib
from collections.abc import Iterator
from typing import Any

import msgspec
from sqlalchemy import Connection, select

from ampwright.catalogue import models
from ampwright.catalogue.clock import to_text
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import Conflict
from ampwright.catalogue.releases import read_members

FORMAT = 1


class _Line(msgspec.Struct, tag_field="record", forbid_unknown_fields=True, kw_only=True):
    """Base of the lines of an export."""


class HeadLine(_Line, tag="catalogue"):
    """The first line."""

    format: int


class RevisionLine(_Line, tag="revision"):
    """One revision; `body` are the stored bytes themselves."""

    kind: str
    slug: str
    revision: int
    format: int
    status: str
    entered_at: str
    entered_by: str
    why: str
    sha256: str
    body: msgspec.Raw


class MemberItem(msgspec.Struct, forbid_unknown_fields=True, kw_only=True):
    """One member of a release."""

    kind: str
    slug: str
    revision: int


class ReleaseLine(_Line, tag="release"):
    """One release with its members in their order."""

    number: int
    sha256: str
    made_at: str
    made_by: str
    note: str
    members: list[MemberItem]


class WithdrawalLine(_Line, tag="withdrawal"):
    """One withdrawal."""

    number: int
    kind: str
    slug: str
    first_revision: int
    last_revision: int
    reason: str
    withdrawn_by: str
    withdrawn_at: str


class AccessKeyLine(_Line, tag="access-key", omit_defaults=True):
    """One access key, in backups only."""

    id: str
    sha256: str
    scopes: str
    note: str
    created_at: str
    created_by: str
    expires_at: str | None = None
    revoked_at: str | None = None
    revoked_by: str | None = None


class AuditLine(_Line, tag="audit"):
    """One line of the audit trail, in backups only."""

    number: int
    at: str
    who: str
    action: str
    subject: str
    detail: str


class EndLine(_Line, tag="end"):
    """The last line. sha256: of all lines before, with their line feeds."""

    revisions: int
    releases: int
    withdrawals: int
    access_keys: int
    audit_lines: int
    sha256: str


Line = HeadLine | RevisionLine | ReleaseLine | WithdrawalLine | AccessKeyLine | AuditLine | EndLine

_encode = msgspec.json.Encoder().encode


def export_lines(database: Database, *, whole: bool = False) -> Iterator[bytes]:
    """The catalogue as of one moment, line by line, each with its line feed. whole: with access keys and audit.

    A transaction is open until the last line was taken or the iterator closed.
    Errors: Conflict, if a stored body does not have its hash; DatabaseUnavailable.
    """
    counts: dict[type, int] = dict.fromkeys((RevisionLine, ReleaseLine, WithdrawalLine, AccessKeyLine, AuditLine), 0)
    total = hashlib.sha256()
    with database.read(one_view=True) as connection:
        for line in _lines(connection, whole):
            if not isinstance(line, HeadLine):
                counts[type(line)] += 1
            encoded = _encode(line) + b"\n"
            total.update(encoded)
            yield encoded
    revisions, releases, withdrawals, access_keys, audit_lines = counts.values()
    yield (
        _encode(
            EndLine(
                revisions=revisions,
                releases=releases,
                withdrawals=withdrawals,
                access_keys=access_keys,
                audit_lines=audit_lines,
                sha256=total.hexdigest(),
            )
        )
        + b"\n"
    )


def _lines(connection: Connection, whole: bool) -> Iterator[Any]:
    yield HeadLine(format=FORMAT)
    revision = models.entry_revision
    in_order = (revision.c.kind, revision.c.slug, revision.c.revision)
    for row in connection.execution_options(yield_per=500).execute(select(*revision.c).order_by(*in_order)):
        body = row.body.encode("utf-8")
        if hashlib.sha256(body).hexdigest() != row.sha256:
            raise Conflict(0, f"{row.kind} {row.slug} revision {row.revision} is not what was hashed")
        yield RevisionLine(
            kind=row.kind,
            slug=row.slug,
            revision=row.revision,
            format=row.format,
            status=row.status,
            entered_at=to_text(row.entered_at),
            entered_by=row.entered_by,
            why=row.why,
            sha256=row.sha256,
            body=msgspec.Raw(body),
        )
    release = models.release
    for row in connection.execute(select(*release.c).order_by(release.c.number)).all():
        yield ReleaseLine(
            number=row.number,
            sha256=row.sha256,
            made_at=to_text(row.made_at),
            made_by=row.made_by,
            note=row.note,
            members=[
                MemberItem(kind=m.kind, slug=m.slug, revision=m.revision) for m in read_members(connection, row.number)
            ],
        )
    withdrawal = models.withdrawal
    for row in connection.execute(select(*withdrawal.c).order_by(withdrawal.c.number)).all():
        yield WithdrawalLine(**_as_text(row._asdict()))
    if not whole:
        return
    key = models.access_key
    for row in connection.execute(select(*key.c).order_by(key.c.id)).all():
        yield AccessKeyLine(**_as_text(row._asdict()))
    audit = models.audit
    for row in connection.execute(select(*audit.c).order_by(audit.c.number)):
        yield AuditLine(**_as_text(row._asdict()))


def _as_text(row: dict[str, Any]) -> dict[str, Any]:
    return {name: to_text(v) if name.endswith("_at") or name == "at" else v for name, v in row.items() if v is not None}
