"""Which entries match, page by page, while others write?

A page ends with a (kind, slug) and the next one begins after it: an entry's key never changes, so no entry that stays
is shown twice or left out, whatever is written in between. (Pages by count, or in an order of names, would slip.)
"""

import base64
import binascii
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, select, tuple_

from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import folded_plug, words_of
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.values import KINDS, LARGEST_FIGURE, LONGEST_TEXT, STATUSES, is_slug

LARGEST_PAGE = 500
MOST_WORDS = 10
# Above every character that may be stored: the end of the range of all words that begin alike.
_LAST = "\U0010ffff"


@dataclass(frozen=True, slots=True, kw_only=True)
class Filter:
    """What is searched for; every member given must hold.

    words: each must begin a word of the name, the slug or the facets. voltage_v: (low, high), within which one of the
    entry's nominal voltages lies [V]. plug: one designation. power_w: (low, high), which the entry's own range of power
    overlaps [W]; entries of unknown power do not match. status: draft, approved or withdrawn, of the head.
    """

    kind: str | None = None
    words: str = ""
    voltage_v: tuple[float, float] | None = None
    plug: str | None = None
    power_w: tuple[float, float] | None = None
    status: str | None = None


@dataclass(frozen=True, slots=True)
class EntryLine:
    """An entry as a search lists it: its head. status is draft, approved or withdrawn."""

    kind: str
    slug: str
    revision: int
    name: str
    status: str
    format: int
    sha256: str
    entered_at: datetime
    entered_by: str


@dataclass(frozen=True, slots=True)
class Page:
    """Entries in order of kind and slug; `next_cursor` is None on the last page."""

    entries: tuple[EntryLine, ...]
    next_cursor: str | None


def search_entries(
    database: Database, wanted: Filter | None = None, *, cursor: str | None = None, limit: int = 50
) -> Page:
    """One page of at most `limit` (1..500) entries, from the beginning or after a `next_cursor`.

    Errors: BadValue (kind, status, cursor, too many words).
    """
    limit = min(max(limit, 1), LARGEST_PAGE)
    query = _query(wanted or Filter())
    facet = models.entry_facet
    if cursor is not None:
        query = query.where(tuple_(facet.c.kind, facet.c.slug) > tuple_(*decode_cursor(cursor)))
    query = query.order_by(facet.c.kind, facet.c.slug).limit(limit + 1)
    with database.read() as connection:
        found = [EntryLine(*row) for row in connection.execute(query)]
    more = len(found) > limit
    found = found[:limit]
    return Page(tuple(found), encode_cursor(found[-1].kind, found[-1].slug) if more else None)


def encode_cursor(kind: str, slug: str) -> str:
    """A place in the order, as opaque text that may stand in a URL."""
    return base64.urlsafe_b64encode(f"{kind}/{slug}".encode()).decode().rstrip("=")


def decode_cursor(cursor: str) -> tuple[str, str]:
    """The place that `encode_cursor` wrote. Errors: BadValue for anything else."""
    try:
        raw = base64.b64decode(cursor + "=" * (-len(cursor) % 4), altchars=b"-_", validate=True)
        kind, _, slug = raw.decode("ascii").partition("/")
    except (binascii.Error, ValueError):
        kind, slug = "", ""
    if kind not in KINDS or not is_slug(slug) or encode_cursor(kind, slug) != cursor:
        raise BadValue("cursor", "bad_cursor", "not a cursor of this service")
    return kind, slug


def _query(wanted: Filter) -> Select[Any]:
    entry, revision, facet, term = models.entry, models.entry_revision, models.entry_facet, models.entry_term
    query = (
        select(
            facet.c.kind,
            facet.c.slug,
            revision.c.revision,
            facet.c.name,
            facet.c.status,
            revision.c.format,
            revision.c.sha256,
            revision.c.entered_at,
            revision.c.entered_by,
        )
        .join(entry, (entry.c.kind == facet.c.kind) & (entry.c.slug == facet.c.slug))
        .join(
            revision,
            (revision.c.kind == facet.c.kind)
            & (revision.c.slug == facet.c.slug)
            & (revision.c.revision == entry.c.head),
        )
    )
    key = tuple_(facet.c.kind, facet.c.slug)
    if wanted.kind is not None:
        if wanted.kind not in KINDS:
            raise BadValue("kind", "unknown_kind", f"{wanted.kind!r} is none of {', '.join(KINDS)}")
        query = query.where(facet.c.kind == wanted.kind)
    if wanted.status is not None:
        if wanted.status not in (*STATUSES, "withdrawn"):
            raise BadValue("status", "unknown_status", f"{wanted.status!r} is none of draft, approved, withdrawn")
        query = query.where(facet.c.status == wanted.status)
    if len(wanted.words) > LONGEST_TEXT or len(words := words_of(wanted.words)) > MOST_WORDS:
        raise BadValue("words", "too_many", f"at most {MOST_WORDS} words")
    terms = select(term.c.kind, term.c.slug)
    if wanted.kind is not None:
        terms = terms.where(term.c.kind == wanted.kind)
    for word in words:
        begins = terms.where(term.c.field == "word", term.c.value >= word, term.c.value < word + _LAST)
        query = query.where(key.in_(begins))
    if wanted.plug is not None:
        plug = folded_plug(wanted.plug).replace("\x00", "\ufffd")
        query = query.where(key.in_(terms.where(term.c.field == "plug", term.c.value == plug)))
    if wanted.voltage_v is not None:
        low, high = _range("voltage_v", wanted.voltage_v)
        query = query.where(
            key.in_(terms.where(term.c.field == "voltage", term.c.figure >= low, term.c.figure <= high))
        )
    if wanted.power_w is not None:
        low, high = _range("power_w", wanted.power_w)
        query = query.where(facet.c.power_low_w <= high, facet.c.power_high_w >= low)
    return query


def _range(field: str, ends: tuple[float, float]) -> tuple[float, float]:
    low, high = ends
    if not 0.0 <= low <= high <= LARGEST_FIGURE:
        raise BadValue(field, "bad_range", f"two numbers, the lower first, within 0 and {LARGEST_FIGURE:g}")
    return low, high
