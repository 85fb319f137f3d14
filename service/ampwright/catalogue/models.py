"""Which tables hold the catalogue?

One family for every kind of document. `entry` is the row that writers lock and that carries the head; a revision, a
release with its members, a withdrawal and an audit line are written once: triggers (in the migrations) refuse their
UPDATE and DELETE in both databases. `entry_facet` and `entry_term` are an index for search over the heads; they can be
made again from the bodies, so nothing guards them. Foreign keys never cascade.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    Column,
    Dialect,
    Double,
    ForeignKeyConstraint,
    Identity,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
)

from ampwright.catalogue.clock import from_text, to_text
from ampwright.catalogue.values import KINDS, LONGEST_NAME, LONGEST_SLUG, LONGEST_TEXT, LONGEST_WHO, STATUSES

# Every name is derived, so that a migration can name what it changes in both databases.
metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


class UtcText(TypeDecorator[datetime]):
    """A time as ISO 8601 text in UTC, of one width in both databases."""

    impl = String(27)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        return None if value is None else to_text(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        return None if value is None else from_text(value)


def _key(length: int) -> String:
    # Order by bytes in both databases: a page's end must mean the same in each.
    return String(length).with_variant(String(length, collation="C"), "postgresql")


def _one_of(column: str, values: Sequence[str]) -> CheckConstraint:
    listed = ", ".join(f"'{value}'" for value in values)
    return CheckConstraint(f"{column} IN ({listed})", name=column)


LONGEST_KIND = 20
DIGEST_CHARACTERS = 64
TERM_FIELDS = ("word", "plug", "voltage", "power")

entry = Table(
    "entry",
    metadata,
    Column("kind", _key(LONGEST_KIND), primary_key=True),
    Column("slug", _key(LONGEST_SLUG), primary_key=True),
    Column("head", Integer, nullable=False),
    _one_of("kind", KINDS),
)

entry_revision = Table(
    "entry_revision",
    metadata,
    Column("kind", _key(LONGEST_KIND), primary_key=True),
    Column("slug", _key(LONGEST_SLUG), primary_key=True),
    Column("revision", Integer, primary_key=True, autoincrement=False),
    Column("format", Integer, nullable=False),
    Column("status", String(10), nullable=False),
    Column("body", Text, nullable=False),
    Column("sha256", String(DIGEST_CHARACTERS), nullable=False),
    Column("entered_at", UtcText, nullable=False),
    Column("entered_by", String(LONGEST_WHO), nullable=False),
    Column("why", String(LONGEST_TEXT), nullable=False),
    ForeignKeyConstraint(["kind", "slug"], ["entry.kind", "entry.slug"]),
    CheckConstraint("revision >= 1", name="revision"),
    _one_of("status", STATUSES),
)

release = Table(
    "release",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("sha256", String(DIGEST_CHARACTERS), nullable=False),
    Column("member_count", Integer, nullable=False),
    Column("made_at", UtcText, nullable=False),
    Column("made_by", String(LONGEST_WHO), nullable=False),
    Column("note", String(LONGEST_TEXT), nullable=False),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("member_count >= 0", name="member_count"),
)

# Members are numbered 1..member_count without gaps. So a release that is cut is full: no place is left for a row
# that somebody adds afterwards.
release_member = Table(
    "release_member",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("place", Integer, primary_key=True, autoincrement=False),
    Column("kind", _key(LONGEST_KIND), nullable=False),
    Column("slug", _key(LONGEST_SLUG), nullable=False),
    Column("revision", Integer, nullable=False),
    ForeignKeyConstraint(["number"], ["release.number"]),
    ForeignKeyConstraint(
        ["kind", "slug", "revision"], ["entry_revision.kind", "entry_revision.slug", "entry_revision.revision"]
    ),
    CheckConstraint("place >= 1", name="place"),
    Index(None, "number", "kind", "slug", unique=True),
)

withdrawal = Table(
    "withdrawal",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("kind", _key(LONGEST_KIND), nullable=False),
    Column("slug", _key(LONGEST_SLUG), nullable=False),
    Column("first_revision", Integer, nullable=False),
    Column("last_revision", Integer, nullable=False),
    Column("reason", String(LONGEST_TEXT), nullable=False),
    Column("withdrawn_by", String(LONGEST_WHO), nullable=False),
    Column("withdrawn_at", UtcText, nullable=False, unique=True),
    ForeignKeyConstraint(["kind", "slug"], ["entry.kind", "entry.slug"]),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("first_revision >= 1 AND last_revision >= first_revision", name="revisions"),
    Index(None, "kind", "slug"),
)

# What a search lists and filters by, of an entry's head; a copy, so that a page is read from one table. status: also
# 'withdrawn'.
entry_facet = Table(
    "entry_facet",
    metadata,
    Column("kind", _key(LONGEST_KIND), primary_key=True),
    Column("slug", _key(LONGEST_SLUG), primary_key=True),
    Column("name", String(LONGEST_NAME), nullable=False),
    Column("status", _key(10), nullable=False),
    Column("power_low_w", Double),
    Column("power_high_w", Double),
    Column("revision", Integer, nullable=False),
    Column("format", Integer, nullable=False),
    Column("sha256", String(DIGEST_CHARACTERS), nullable=False),
    Column("entered_at", UtcText, nullable=False),
    Column("entered_by", String(LONGEST_WHO), nullable=False),
    ForeignKeyConstraint(["kind", "slug"], ["entry.kind", "entry.slug"]),
    _one_of("status", (*STATUSES, "withdrawn")),
    Index(None, "status", "kind", "slug"),
)

# One row a word, plug, voltage or step of power of a head; numbers are written so that they sort as text. The primary
# key is the inverted index: for one value it lists the entries in the order of a page.
entry_term = Table(
    "entry_term",
    metadata,
    Column("field", _key(10), primary_key=True),
    Column("value", _key(60), primary_key=True),
    Column("kind", _key(LONGEST_KIND), primary_key=True),
    Column("slug", _key(LONGEST_SLUG), primary_key=True),
    ForeignKeyConstraint(["kind", "slug"], ["entry.kind", "entry.slug"]),
    _one_of("field", TERM_FIELDS),
    Index(None, "kind", "slug", "field", "value", unique=True),
)

access_key = Table(
    "access_key",
    metadata,
    Column("id", _key(20), primary_key=True),
    Column("sha256", String(DIGEST_CHARACTERS), nullable=False),
    Column("scopes", String(200), nullable=False),
    Column("note", String(LONGEST_TEXT), nullable=False),
    Column("created_at", UtcText, nullable=False),
    Column("created_by", String(LONGEST_WHO), nullable=False),
    Column("expires_at", UtcText),
    Column("revoked_at", UtcText),
    Column("revoked_by", String(LONGEST_WHO)),
)

audit = Table(
    "audit",
    metadata,
    Column("number", BigInteger().with_variant(Integer, "sqlite"), Identity(), primary_key=True),
    Column("at", UtcText, nullable=False),
    Column("who", String(LONGEST_WHO), nullable=False),
    Column("action", String(40), nullable=False),
    Column("subject", String(200), nullable=False),
    Column("detail", String(LONGEST_TEXT), nullable=False),
    Index(None, "subject"),
)
