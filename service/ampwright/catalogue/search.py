"""Which entries match, page by page, while others write?

A page ends with a (kind, slug) and the next one begins after it: an entry's key never changes, so no entry that stays
is shown twice or left out, whatever is written in between. (Pages by count, or in an order of names, would slip.)
"""

import base64
import binascii
from dataclasses import dataclass
from datetime import datetime

from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import folded_plug, power_term, voltage_term, words_of
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.search_plan import Range, Wanted, read_page
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
    wanted = wanted or Filter()
    limit = min(max(limit, 1), LARGEST_PAGE)
    if wanted.kind is not None and wanted.kind not in KINDS:
        raise BadValue("kind", "unknown_kind", f"{wanted.kind!r} is none of {', '.join(KINDS)}")
    if wanted.status is not None and wanted.status not in (*STATUSES, "withdrawn"):
        raise BadValue("status", "unknown_status", f"{wanted.status!r} is none of draft, approved, withdrawn")
    after = None if cursor is None else decode_cursor(cursor)
    asked = Wanted(tuple(_ranges(wanted)), wanted.kind, wanted.status, wanted.power_w, after, limit + 1)
    with database.read(one_view=True) as connection:
        found = [EntryLine(*columns) for columns in read_page(connection, asked)]
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


def _ranges(wanted: Filter) -> list[Range]:
    """What the filter asks of the index. Errors: BadValue."""
    if len(wanted.words) > LONGEST_TEXT or len(words := words_of(wanted.words)) > MOST_WORDS:
        raise BadValue("words", "too_many", f"at most {MOST_WORDS} words")
    ranges = [Range("word", word, word + _LAST) for word in words]
    if wanted.plug is not None:
        plug = folded_plug(wanted.plug).replace("\x00", "\ufffd")
        ranges.append(Range("plug", plug, plug))
    if wanted.voltage_v is not None:
        low, high = _checked_range("voltage_v", wanted.voltage_v)
        ranges.append(Range("voltage", voltage_term(low), voltage_term(high)))
    if wanted.power_w is not None:
        low, high = _checked_range("power_w", wanted.power_w)
        ranges.append(Range("power", power_term(low), power_term(high)))
    return ranges


def _checked_range(field: str, ends: tuple[float, float]) -> tuple[float, float]:
    low, high = ends
    if not 0.0 <= low <= high <= LARGEST_FIGURE:
        raise BadValue(field, "bad_range", f"two numbers, the lower first, within 0 and {LARGEST_FIGURE:g}")
    return low, high
