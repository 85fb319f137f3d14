"""What does search know of a document, and how does it get there?

Storage does not read bodies: whoever writes one hands over its facets. They are kept for the head of an entry only,
and can be made again from the bodies (`reindex`) when the way they are drawn from a body has changed.
"""

import math
import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import Connection, delete, insert, select, tuple_, update

from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.values import LONGEST_NAME, STATUSES, checked_figure, checked_text

LONGEST_TERM = 40
MOST_TERMS = 100
_CHUNK = 500
_WORD = re.compile(r"[^\W_]+(?:[.][0-9]+)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Facets:
    """What a revision is found by.

    name: one line. words: more words to find it by, in any order (the name and the slug are searched anyhow).
    voltages_v: nominal voltages [V]. plugs: designations such as `5-15P`. power_low_w, power_high_w: the least and
    the most power of its supply options or limits [W]; both or neither. status: draft or approved.
    """

    name: str
    words: tuple[str, ...] = ()
    voltages_v: tuple[float, ...] = ()
    plugs: tuple[str, ...] = ()
    power_low_w: float | None = None
    power_high_w: float | None = None
    status: str = "approved"


# Draws the facets from a body: (kind, format, body) -> Facets. `contract` knows how; storage is handed the function.
FacetsOf = Callable[[str, int, bytes], Facets]


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as they are indexed and searched for: folded, without punctuation, in order, once each."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return tuple(dict.fromkeys(word[:LONGEST_TERM] for word in _WORD.findall(folded)))


def folded_plug(plug: str) -> str:
    """A plug's designation as it is compared: `NEMA 5-15P` and `nema 5-15p` are one, blanks count once."""
    return " ".join(plug.casefold().split())


def checked_facets(facets: Facets) -> Facets:
    """The facets in order and without repeats. Errors: BadValue."""
    if facets.status not in STATUSES:
        raise BadValue("facets.status", "unknown_status", f"{facets.status!r} is none of {', '.join(STATUSES)}")
    low, high = facets.power_low_w, facets.power_high_w
    if (low is None) != (high is None):
        raise BadValue("facets.power", "half_a_range", "both ends of the power or neither")
    if low is not None and high is not None:
        low, high = checked_figure("facets.power_low_w", low), checked_figure("facets.power_high_w", high)
        if low > high:
            raise BadValue("facets.power", "reversed_range", "the low end is above the high end")
    plugs = {checked_text("facets.plugs", plug, LONGEST_TERM) for plug in facets.plugs}
    checked = Facets(
        name=checked_text("facets.name", facets.name, LONGEST_NAME),
        words=words_of(" ".join(facets.words)),
        voltages_v=tuple(sorted({checked_figure("facets.voltages_v", voltage) for voltage in facets.voltages_v})),
        plugs=tuple(sorted(plugs)),
        power_low_w=low,
        power_high_w=high,
        status=facets.status,
    )
    if len(checked.words) + len(checked.voltages_v) + len(checked.plugs) > MOST_TERMS:
        raise BadValue("facets", "too_many", f"at most {MOST_TERMS} words, voltages and plugs together")
    return checked


@dataclass(frozen=True, slots=True)
class Head:
    """What a search lists of an entry's head, beside its facets."""

    facets: Facets
    revision: int
    format: int
    sha256: str
    entered_at: datetime
    entered_by: str


def voltage_term(voltage_v: float) -> str:
    """A voltage [V] as text that sorts like the number, to the millivolt."""
    return f"{voltage_v:017.3f}"


def power_term(power_w: float) -> str:
    """The step of power [W] that holds `power_w`, as text that sorts like the number: four steps an octave above 1 W.
    A range of power covers the steps from its low to its high end; entries in a step are then compared exactly."""
    return f"{0 if power_w < 1.0 else 1 + int(4 * math.log2(power_w)):03}"


def power_terms(low_w: float, high_w: float) -> list[str]:
    """All steps that a range of power [W] covers."""
    return [f"{step:03}" for step in range(int(power_term(low_w)), int(power_term(high_w)) + 1)]


def index_heads(connection: Connection, heads: Mapping[tuple[str, str], Head]) -> None:
    """Make these the heads that search knows, by (kind, slug), none of them withdrawn; their facets are checked.
    Within the caller's transaction, the entries' rows being locked."""
    facet, term = models.entry_facet, models.entry_term
    keys = list(heads)
    facet_rows: list[dict[str, object]] = []
    term_rows: list[dict[str, str]] = []
    for (kind, slug), head in heads.items():
        facets = head.facets
        facet_rows.append(
            {
                "kind": kind,
                "slug": slug,
                "name": facets.name,
                "status": facets.status,
                "power_low_w": facets.power_low_w,
                "power_high_w": facets.power_high_w,
                "revision": head.revision,
                "format": head.format,
                "sha256": head.sha256,
                "entered_at": head.entered_at,
                "entered_by": head.entered_by,
            }
        )
        words = {*words_of(facets.name), *words_of(slug.replace("-", " ")), *facets.words}
        found = [("word", word) for word in sorted(words)]
        found += [("plug", plug) for plug in sorted({folded_plug(plug) for plug in facets.plugs})]
        found += [("voltage", value) for value in sorted({voltage_term(volts) for volts in facets.voltages_v})]
        if facets.power_low_w is not None and facets.power_high_w is not None:
            found += [("power", step) for step in power_terms(facets.power_low_w, facets.power_high_w)]
        term_rows += [{"field": field, "value": value, "kind": kind, "slug": slug} for field, value in found]
    for start in range(0, len(keys), _CHUNK):
        chunk = keys[start : start + _CHUNK]
        connection.execute(delete(term).where(tuple_(term.c.kind, term.c.slug).in_(chunk)))
        connection.execute(delete(facet).where(tuple_(facet.c.kind, facet.c.slug).in_(chunk)))
    connection.execute(insert(facet), facet_rows)
    connection.execute(insert(term), term_rows)


def reindex(database: Database, facets_of: FacetsOf) -> int:
    """Make the whole index again from the heads' bodies; returns how many entries. Errors: BadValue."""
    entry, revision = models.entry, models.entry_revision
    query = (
        select(*revision.c)
        .join(entry, (entry.c.kind == revision.c.kind) & (entry.c.slug == revision.c.slug))
        .where(revision.c.revision == entry.c.head)
        .order_by(entry.c.kind, entry.c.slug)
        .with_for_update(of=entry, key_share=True)
    )
    facet, withdrawal = models.entry_facet, models.withdrawal
    withdrawn = (
        select(withdrawal.c.number)
        .where(withdrawal.c.kind == facet.c.kind, withdrawal.c.slug == facet.c.slug)
        .where(withdrawal.c.first_revision <= facet.c.revision, withdrawal.c.last_revision >= facet.c.revision)
    )
    with database.write() as connection:
        heads = {}
        for row in connection.execute(query):
            facets = checked_facets(facets_of(row.kind, row.format, row.body.encode("utf-8")))
            heads[row.kind, row.slug] = Head(
                replace(facets, status=row.status),
                row.revision,
                row.format,
                row.sha256,
                row.entered_at,
                row.entered_by,
            )
        if heads:
            index_heads(connection, heads)
            connection.execute(update(facet).where(withdrawn.exists()).values(status="withdrawn"))
    return len(heads)
