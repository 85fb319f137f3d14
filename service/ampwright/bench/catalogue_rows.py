"""How do search, writing and a release grow with the catalogue?

Each search is a multiple of the bare query, the first 50 rows by primary key through the same library. On the database
that is given; `tests/bench/catalogue_scale.py` gives both kinds.
"""

from __future__ import annotations

import json
import tempfile
import time
from collections.abc import Iterator
from itertools import count

from sqlalchemy import select

from ampwright.bench.measured import Row, middle_s, resident_mb
from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets
from ampwright.catalogue.migrate import upgrade
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import NewRevision, write_revision, write_revisions
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.snapshot import ReleaseStore

NAMES = ("circular saw", "angle grinder", "compressor", "hammer drill", "table saw", "heat gun", "vacuum", "welder")
PLUGS = ("5-15P", "5-20P", "6-15P", "CEE 7/7", "BS 1363")
FILTERS = {
    "no filter": Filter(),
    "one kind": Filter(kind="tool-profile"),
    "a common word": Filter(words="saw"),
    "a rare word": Filter(words="n77"),
    "two words": Filter(words="table n1"),
    "voltage": Filter(voltage_v=(110, 127)),
    "plug": Filter(plug="6-15P"),
    "power": Filter(power_w=(1000, 1100)),
    "a rare power": Filter(power_w=(4990, 5000)),
    "status": Filter(status="draft"),
    "everything": Filter(kind="tool-profile", words="saw", voltage_v=(110, 127), plug="5-15P", power_w=(0, 2000)),
}


def _revision(number: int, again: int | None = None) -> NewRevision:
    """About 1.2 kB, as a tool profile is. again : makes another content of the same entry."""
    power = float(200 + (number * 37) % 4800)
    name, voltage_v, plug = f"{NAMES[number % len(NAMES)]} n{number}", (120, 230, 240)[number % 3], PLUGS[number % 5]
    document = {
        "name": name,
        "voltages_v": [voltage_v],
        "plugs": [plug],
        "power_w": [power, power * 1.2],
        "load_states": [{"id": f"s{n}", "power": f"{power + n} W", "power_factor": 0.9} for n in range(16)],
        "again": again,
    }
    status = "draft" if number % 500 == 0 else "approved"
    return NewRevision(
        kind="tool-profile",
        slug=f"tool-{number:06}",
        format=1,
        body=json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode(),
        facets=Facets(
            name=name,
            voltages_v=(voltage_v,),
            plugs=(plug,),
            power_low_w=power,
            power_high_w=power * 1.2,
            status=status,
        ),
        why="for the bench",
        who="bench",
    )


def catalogue_rows(*, quick: bool) -> Iterator[Row]:
    """On a database file of its own in a temporary folder."""
    for size in (200,) if quick else (500, 5000):
        with tempfile.TemporaryDirectory(prefix="ampwright-bench-") as folder:
            url = f"sqlite:///{folder}/bench.db"
            upgrade(url)
            database = Database.at(url)
            try:
                yield from measured(database, size)
            finally:
                database.close()


def measured(database: Database, size: int) -> Iterator[Row]:
    """Fills an empty, migrated database and measures it."""
    start = time.perf_counter()
    for first in range(0, size, 1000):
        write_revisions(database, [_revision(n) for n in range(first, min(first + 1000, size))])
    kind = database.engine.dialect.name
    yield Row(f"{kind}, {size} entries: filled in", time.perf_counter() - start, "s")
    if not database.is_sqlite:
        with database.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.exec_driver_sql("ANALYZE")
    bare = middle_s(lambda: _bare_query(database), 30)
    yield Row("  bare query", bare * 1e3, "ms")
    for name, wanted in FILTERS.items():
        taken = middle_s(lambda wanted=wanted: search_entries(database, wanted), 10)  # type: ignore[misc]
        yield Row(f"  search, {name}", taken / bare, "x bare", f"{taken * 1e3:.2f} ms")
    again = count()
    written = middle_s(lambda: write_revision(database, _revision(1, next(again))), 30)
    yield Row("  write a revision", written * 1e3, "ms")
    yield from _release_rows(database)


def _release_rows(database: Database) -> Iterator[Row]:
    start = time.perf_counter()
    release = cut_release(database, note="all", who="bench")
    yield Row("  cut a release", (time.perf_counter() - start) * 1e3, "ms", f"{release.member_count} members")
    store: ReleaseStore[object] = ReleaseStore(database, lambda _kind, _format, body: json.loads(body))
    start, before = time.perf_counter(), resident_mb()
    held = store.snapshot(1)
    yield Row("  load it", (time.perf_counter() - start) * 1e3, "ms", f"{resident_mb() - before:.0f} MB")
    start, before = time.perf_counter(), resident_mb()
    for revision in held.members.values():
        _ = revision.document
    yield Row("  decode all of it", (time.perf_counter() - start) * 1e3, "ms", f"{resident_mb() - before:.0f} MB")
    cut_release(database, note="again", who="bench")
    start, before = time.perf_counter(), resident_mb()
    store.snapshot(2)
    yield Row(
        "  load the next beside it", (time.perf_counter() - start) * 1e3, "ms", f"{resident_mb() - before:.0f} MB"
    )


def _bare_query(database: Database) -> None:
    """The first 50 rows of the primary key: what a search cannot be faster than."""
    entry = models.entry
    with database.read() as connection:
        connection.execute(select(*entry.c).order_by(entry.c.kind, entry.c.slug).limit(50)).all()
