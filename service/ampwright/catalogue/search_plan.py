"""In which order is the index read, so that a page of matches costs little more than a page of anything?

`entry_term` lists, for each value, its entries in the order of a page. So the best way to a page is along the list of
a value, or along the lists of a few values merged, each entry looked up for what else is asked; it ends when the page
is full. A first statement looks at what is asked for (`_survey`): which values a range holds, and how many entries.
Then the page is read in one of four ways, whichever is the shortest:

- along the lists of the rarest range, where it holds at most MOST_LISTS values;
- by sorting the entries of a range that holds many values but FEW entries;
- along the entries of one status, where that is the rarest;
- along all entries, where all that is asked for is common: then a page is soon full.

What is found is the same in each.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, TextClause, text
from sqlalchemy.sql.selectable import TextualSelect

from ampwright.catalogue import models

# So many matches may be sorted for a page; more are only read in an order that an index gives.
FEW = 2_000
# So many are counted to find the rarest of what is asked for.
COMPARED = 500
# Marks a row of the survey that tells how far the first entries of a list reach, instead of a count.
REACH = -1
# So many lists are merged at most: from the next on, planning the statement costs more than it saves.
MOST_LISTS = 8
LISTED = ("kind", "slug", "revision", "name", "status", "format", "sha256", "entered_at", "entered_by")


@dataclass(frozen=True, slots=True)
class Range:
    """A range of values of one field of the index; exact: of one value."""

    field: str
    low: str
    high: str

    @property
    def exact(self) -> bool:
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class Wanted:
    """A page that is asked for. ranges: each must hold a value of the entry; after: the (kind, slug) before the page;
    power_w: compared exactly, beside the range of its steps; limit: most entries."""

    ranges: tuple[Range, ...]
    kind: str | None
    status: str | None
    power_w: tuple[float, float] | None
    after: tuple[str, str] | None
    limit: int


@dataclass(frozen=True, slots=True)
class _Shape:
    """What a page's statement looks like apart from its values. It is made once for each shape: making it takes longer
    than running it.

    lists: how many lists are merged; 0 sorts the entries of the driver; None reads along the entries. cut: each list is
    cut at the page's length first; SQLite merges them as it goes, PostgreSQL would read them to their ends. probed: the
    other ranges, exact or not.
    """

    lists: int | None
    cut: bool
    probed: tuple[bool, ...]
    kind: bool
    status: bool
    power: bool
    after: bool


def read_page(connection: Connection, wanted: Wanted) -> Sequence[tuple[Any, ...]]:
    """The entries that match, in order of kind and slug, after a place: rows of LISTED."""
    after = wanted.after
    if after is not None and wanted.kind is not None:
        # within one kind, the place is a slug: a comparison of pairs would be read from the kind's beginning
        if after[0] > wanted.kind:
            return []
        after = after if after[0] == wanted.kind else None
    driver, values = _driver(connection, wanted)
    probed = [one for one in wanted.ranges if one is not driver and not (one.field == "power" and wanted.power_w)]
    # ranges of one value first: they are looked up fastest
    probed.sort(key=lambda one: not one.exact)
    shape = _Shape(
        None if driver is None else len(values),
        connection.dialect.name != "sqlite",
        tuple(one.exact for one in probed),
        wanted.kind is not None,
        wanted.status is not None,
        wanted.power_w is not None,
        after is not None,
    )
    asked: dict[str, object] = {"limit": wanted.limit, "kind": wanted.kind, "status": wanted.status}
    asked["after_kind"], asked["after_slug"] = after or ("", "")
    asked["power_low"], asked["power_high"] = wanted.power_w or (0.0, 0.0)
    asked |= {f"value{place}": value for place, value in enumerate(values)}
    for name, one in [("driver", driver), *((f"t{place}", one) for place, one in enumerate(probed))]:
        if one is not None:
            asked |= {f"{name}_field": one.field, f"{name}_low": one.low, f"{name}_high": one.high}
    return [tuple(row) for row in connection.execute(_page_statement(shape), asked)]


def _driver(connection: Connection, wanted: Wanted) -> tuple[Range | None, list[str]]:
    """The range whose lists are read, and its values (none: its few entries are sorted); None: along the entries."""
    if not wanted.ranges:
        return None, []
    if len(wanted.ranges) == 1 and wanted.ranges[0].exact and wanted.status is None:
        return wanted.ranges[0], [wanted.ranges[0].low]
    asked: dict[str, object] = {"kind": wanted.kind, "status": wanted.status}
    for place, one in enumerate(wanted.ranges):
        asked |= {f"t{place}_field": one.field, f"t{place}_low": one.low, f"t{place}_high": one.high}
    shape = tuple(one.exact for one in wanted.ranges)
    values = [[one.low] if one.exact else [] for one in wanted.ranges]
    counts = [0 for _ in wanted.ranges]
    reached = ["" for _ in wanted.ranges]
    of_status = COMPARED + 1
    survey = _survey(shape, kind=wanted.kind is not None, status=wanted.status is not None)
    for place, value, count in connection.execute(survey, asked):
        if place == len(values):
            of_status = count
        elif count == REACH:
            reached[place] = value or ""
        elif value is None:
            counts[place] = count
        else:
            values[place].append(value)
    ranked = []
    for place, one in enumerate(wanted.ranges):
        found = values[place] if len(values[place]) <= MOST_LISTS else []
        if found or counts[place] <= FEW:
            ranked.append((counts[place], len(found) or MOST_LISTS, reached[place], one, found))
    if not ranked:
        return None, []
    # Where all have many entries: the one with the fewest lists, and of single lists the one whose first entries lie
    # the furthest apart, for it is the thinnest.
    ranked.sort(key=lambda one: one[2], reverse=True)
    count, _, _, driver, found = min(ranked, key=lambda one: one[:2])
    if of_status < count:
        return None, []
    return driver, found


@lru_cache(maxsize=256)
def _survey(exact: tuple[bool, ...], *, kind: bool, status: bool) -> TextClause:
    """Rows of (place of the range, None, entries counted), of (place, how far the first entries reach in the list of
    its least value, REACH) and, for a range that is not exact, of (place, value, None) up to MOST_LISTS + 1 values:
    each is found from the one before, past all its entries."""
    of_kind = " AND d.kind = :kind" if kind else ""
    found, rows = [], []
    for place, one in enumerate(exact):
        held = f"FROM entry_term d WHERE {_holds('d', f't{place}', one)}"
        if one:
            rows.append(f"SELECT {place}, NULL, {_counted(held + of_kind, COMPARED)}")
            rows.append(f"SELECT {place}, {_reached(held + of_kind)}, {REACH}")
            continue
        following = f"d.field = :t{place}_field AND d.value > v{place}.value AND d.value <= :t{place}_high"
        found.append(
            f"v{place}(value, number) AS (SELECT (SELECT min(d.value) {held}), 1 UNION ALL"
            f" SELECT (SELECT min(d.value) FROM entry_term d WHERE {following}), number + 1"
            f" FROM v{place} WHERE value IS NOT NULL AND number <= {MOST_LISTS})"
        )
        rows.append(f"SELECT {place}, value, NULL FROM v{place} WHERE value IS NOT NULL")
        # one range alone is read along its lists, however long they are, where they are not many
        alone = len(exact) == 1 and not status
        many = f"(SELECT count(value) FROM v{place}) > {MOST_LISTS}"
        rows.append(
            f"SELECT {place}, NULL, CASE WHEN {many} THEN {_counted(held, FEW)}"
            f" ELSE {'0' if alone else _counted(held, COMPARED)} END"
        )
        if not alone:
            least = f"FROM entry_term d WHERE d.field = :t{place}_field AND d.value = (SELECT min(value) FROM v{place})"
            rows.append(f"SELECT {place}, {_reached(least + of_kind)}, {REACH}")
    if status:
        held = f"FROM entry_facet d WHERE d.status = :status{of_kind}"
        rows.append(f"SELECT {len(exact)}, NULL, {_counted(held, COMPARED)}")
    return text((f"WITH RECURSIVE {', '.join(found)} " if found else "") + " UNION ALL ".join(rows))


def _reached(held: str) -> str:
    ordered = f"SELECT d.kind || '/' || d.slug AS k {held} ORDER BY d.kind, d.slug LIMIT {COMPARED + 1}"
    return f"(SELECT max(c.k) FROM ({ordered}) c)"


def _counted(held: str, most: int) -> str:
    return f"(SELECT count(*) FROM (SELECT 1 {held} LIMIT {most + 1}) c)"


def _holds(term: str, name: str, exact: bool) -> str:
    values = f"{term}.value = :{name}_low" if exact else f"{term}.value >= :{name}_low AND {term}.value <= :{name}_high"
    return f"{term}.field = :{name}_field AND {values}"


@lru_cache(maxsize=256)
def _page_statement(shape: _Shape) -> TextualSelect:
    # d is read along, f is listed
    d = "f" if shape.lists is None else "d"
    place = []
    if shape.kind:
        place.append(f"{d}.kind = :kind")
    if shape.after:
        after = f"{d}.slug > :after_slug" if shape.kind else f"({d}.kind, {d}.slug) > (:after_kind, :after_slug)"
        place.append(after)
    looked_up = [_probe(d, _holds("p", f"t{number}", exact)) for number, exact in enumerate(shape.probed)]
    listed = []
    if shape.status:
        listed.append("f.status = :status")
    if shape.power:
        listed += ["f.power_low_w <= :power_high", "f.power_high_w >= :power_low"]
    # kind and slug are of what is read along, so that its order is seen to be the page's
    columns = f"SELECT {d}.kind, {d}.slug, " + ", ".join(f"f.{name}" for name in LISTED[2:])
    joined = "JOIN entry_facet f ON f.kind = d.kind AND f.slug = d.slug"
    if shape.lists is None:
        arms = [f"{columns} FROM entry_facet f{_where(*place, *looked_up, *listed)}"]
    elif shape.lists == 0:
        held = _where(_holds("d", "driver", exact=False), *place, *looked_up)
        few = f"SELECT DISTINCT d.kind, d.slug FROM entry_term d{held}"
        if not listed:
            few += " ORDER BY 1, 2 LIMIT :limit"
        arms = [f"{columns} FROM ({few}) d {joined}{_where(*listed)}"]
    else:
        arms = []
        for number in range(shape.lists):
            of_value = f"d.field = :driver_field AND d.value = :value{number}"
            # an entry that has several of the values is read in the list of the first
            first = (
                []
                if number == 0
                else [
                    "NOT "
                    + _probe(d, f"p.field = :driver_field AND p.value >= :driver_low AND p.value < :value{number}")
                ]
            )
            arms.append(f"{columns} FROM entry_term d {joined}{_where(of_value, *place, *first, *looked_up, *listed)}")
    if len(arms) > 1 and shape.cut:
        arms = [f"SELECT * FROM ({arm} ORDER BY 1, 2 LIMIT :limit) a{number}" for number, arm in enumerate(arms)]
    statement = f"{' UNION ALL '.join(arms)} ORDER BY 1, 2 LIMIT :limit"
    return text(statement).columns(*(models.entry_facet.c[name] for name in LISTED))


def _probe(entry: str, holds: str) -> str:
    # OFFSET keeps PostgreSQL from making a join of it, which reads the whole other list
    return (
        f"EXISTS (SELECT 1 FROM entry_term p WHERE p.kind = {entry}.kind AND p.slug = {entry}.slug AND {holds}"
        " LIMIT 1 OFFSET 0)"
    )


def _where(*conditions: str) -> str:
    return f" WHERE {' AND '.join(conditions)}" if conditions else ""
