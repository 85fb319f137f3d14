"""Which entries match, page by page, while others write?

A page ends with a (kind, slug) and the next one begins after it: an entry's key never changes, so no entry that stays
is shown twice or left out, whatever is written in between. (Pages by count, or in an order of names, would slip.)
"""

import base64
import binascii
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    FromClause,
    Integer,
    Select,
    and_,
    bindparam,
    func,
    literal_column,
    select,
    tuple_,
)

from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import folded_plug, power_term, voltage_term, words_of
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.values import KINDS, LARGEST_FIGURE, LONGEST_TEXT, STATUSES, is_slug

LARGEST_PAGE = 500
MOST_WORDS = 10
# Above every character that may be stored: the end of the range of all words that begin alike.
_LAST = "\U0010ffff"
# So many matches may be sorted for a page; more are only read in an order that an index gives.
FEW = 500


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


_LISTED = ("kind", "slug", "revision", "name", "status", "format", "sha256", "entered_at", "entered_by")


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
    with database.read() as connection:
        found = _page(connection, wanted, after, limit + 1)
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


@dataclass(frozen=True, slots=True)
class _Range:
    """A range of values of one field of the index; exact: of one value, whose entries the index lists in order."""

    field: str
    low: str
    high: str

    @property
    def exact(self) -> bool:
        return self.low == self.high


def _ranges(wanted: Filter) -> list[_Range]:
    """What the filter asks of the index. Errors: BadValue."""
    if len(wanted.words) > LONGEST_TEXT or len(words := words_of(wanted.words)) > MOST_WORDS:
        raise BadValue("words", "too_many", f"at most {MOST_WORDS} words")
    ranges = [_Range("word", word, word + _LAST) for word in words]
    if wanted.plug is not None:
        plug = folded_plug(wanted.plug).replace("\x00", "\ufffd")
        ranges.append(_Range("plug", plug, plug))
    if wanted.voltage_v is not None:
        low, high = _checked_range("voltage_v", wanted.voltage_v)
        ranges.append(_Range("voltage", voltage_term(low), voltage_term(high)))
    if wanted.power_w is not None:
        low, high = _checked_range("power_w", wanted.power_w)
        ranges.append(_Range("power", power_term(low), power_term(high)))
    return ranges


def _checked_range(field: str, ends: tuple[float, float]) -> tuple[float, float]:
    low, high = ends
    if not 0.0 <= low <= high <= LARGEST_FIGURE:
        raise BadValue(field, "bad_range", f"two numbers, the lower first, within 0 and {LARGEST_FIGURE:g}")
    return low, high


@dataclass(frozen=True, slots=True)
class _Shape:
    """What a page's statement looks like apart from its values. It is made once for each shape: making it takes longer
    than running it. driver: None reads along the entries; True along the index of an exact range; False sorts the few
    entries of another one. probed: the other ranges, exact or not."""

    driver: bool | None
    probed: tuple[bool, ...]
    kind: bool
    status: bool
    power: bool
    after: bool


def _page(connection: Connection, wanted: Filter, after: tuple[str, str] | None, limit: int) -> list[EntryLine]:
    """The entries that match, in order, after a place.

    Read along the index of what is rarest, where that is in order or few; else along the entries, each one looked up in
    the index: then all that is asked for is common, and a page is soon full.
    """
    ranges = _ranges(wanted)
    driver: _Range | None = None
    if ranges:
        rarest, count = _rarest(connection, ranges, wanted.kind)
        if rarest.exact or count <= FEW:
            ranges.remove(rarest)
            driver = rarest
    shape = _Shape(
        None if driver is None else driver.exact,
        tuple(one.exact for one in ranges),
        wanted.kind is not None,
        wanted.status is not None,
        wanted.power_w is not None,
        after is not None,
    )
    values: dict[str, object] = {"limit": limit, "kind": wanted.kind, "status": wanted.status}
    values["after_kind"], values["after_slug"] = after or ("", "")
    values["power_low"], values["power_high"] = wanted.power_w or (0.0, 0.0)
    for name, one in [("driver", driver), *((f"t{place}", one) for place, one in enumerate(ranges))]:
        if one is not None:
            values |= {f"{name}_field": one.field, f"{name}_low": one.low, f"{name}_high": one.high}
    return [EntryLine(*row) for row in connection.execute(_page_statement(shape), values)]


def _rarest(connection: Connection, ranges: list[_Range], kind: str | None) -> tuple[_Range, int]:
    """The range with the fewest entries, counted up to FEW, and how many; one that is exact goes before one that is
    not, if both have many."""
    values: dict[str, object] = {"kind": kind}
    for place, one in enumerate(ranges):
        values |= {f"t{place}_field": one.field, f"t{place}_low": one.low, f"t{place}_high": one.high}
    statement = _count_statement(tuple(one.exact for one in ranges), kind is not None)
    found = connection.execute(statement, values).one()
    return min(zip(ranges, found, strict=True), key=lambda counted: (counted[1], not counted[0].exact))


def _holds(term: FromClause, name: str, exact: bool) -> ColumnElement[bool]:
    field = term.c.field == bindparam(f"{name}_field")
    if exact:
        return and_(field, term.c.value == bindparam(f"{name}_low"))
    return and_(field, term.c.value >= bindparam(f"{name}_low"), term.c.value <= bindparam(f"{name}_high"))


@lru_cache(maxsize=256)
def _count_statement(exact: tuple[bool, ...], of_kind: bool) -> Select[Any]:
    counts = []
    for place, one_exact in enumerate(exact):
        term = models.entry_term.alias(f"t{place}")
        rows: Select[Any] = select(literal_column("1").label("one")).where(_holds(term, f"t{place}", one_exact))
        if of_kind and one_exact:
            rows = rows.where(term.c.kind == bindparam("kind"))
        counts.append(select(func.count()).select_from(rows.limit(FEW + 1).subquery()).scalar_subquery())
    return select(*counts)


@lru_cache(maxsize=256)
def _page_statement(shape: _Shape) -> Select[Any]:
    facet, term = models.entry_facet, models.entry_term
    driver: FromClause = facet
    conditions: list[ColumnElement[bool]] = []
    if shape.driver is not None:
        if shape.driver:
            driver = term.alias("driver")
            conditions.append(_holds(driver, "driver", exact=True))
        else:
            few = select(term.c.kind, term.c.slug).where(_holds(term, "driver", exact=False))
            driver = few.distinct().subquery("driver")
        conditions.append(and_(facet.c.kind == driver.c.kind, facet.c.slug == driver.c.slug))
    for place, exact in enumerate(shape.probed):
        probed = term.alias(f"t{place}")
        same = and_(probed.c.kind == facet.c.kind, probed.c.slug == facet.c.slug)
        conditions.append(select(probed.c.kind).where(same, _holds(probed, f"t{place}", exact)).exists())
    if shape.kind:
        conditions.append(driver.c.kind == bindparam("kind"))
    if shape.status:
        conditions.append(facet.c.status == bindparam("status"))
    if shape.power:
        conditions += [facet.c.power_low_w <= bindparam("power_high"), facet.c.power_high_w >= bindparam("power_low")]
    if shape.after:
        conditions.append(
            tuple_(driver.c.kind, driver.c.slug)
            > tuple_(bindparam("after_kind", type_=facet.c.kind.type), bindparam("after_slug", type_=facet.c.slug.type))
        )
    listed = select(*(facet.c[name] for name in _LISTED)).where(*conditions)
    return listed.order_by(driver.c.kind, driver.c.slug).limit(bindparam("limit", type_=Integer))
