"""How do search and a release grow from 500 to 50,000 entries, on both databases?

`python tests/bench/catalogue_scale.py [ENTRIES ...]`. Prints, for each size: the median of a page of 50 by several
filters, as a multiple of the bare query (the first 50 rows by primary key, no filter, through the same library), and
what a release costs to cut, load and hold. Ratios from one run on one machine; no test is timed.
"""

import json
import resource
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import write_revision, write_revisions
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.snapshot import ReleaseStore
from catalogue_examples import new_revision
from databases import BACKENDS, Servers, fresh_database
from sqlalchemy import select

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


def document(number: int) -> dict[str, object]:
    """About 1.2 kB, as a tool profile is."""
    power = 200 + (number * 37) % 4800
    return {
        "name": f"{NAMES[number % len(NAMES)]} n{number}",
        "voltages_v": [(120, 230, 240)[number % 3]],
        "plugs": [PLUGS[number % len(PLUGS)]],
        "power_w": [power, power * 1.2],
        "status": "draft" if number % 500 == 0 else "approved",
        "load_states": [{"id": f"s{n}", "power": f"{power + n} W", "power_factor": 0.9} for n in range(16)],
    }


def median_ms(act: Callable[[], object], times: int = 30) -> float:
    """The median time of an act [ms]."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        taken.append((time.perf_counter() - start) * 1e3)
    return statistics.median(taken)


def resident_mb() -> float:
    """Memory of this process now [MB]."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 1e6


def bare_query(database: Database) -> None:
    """The first 50 rows of the primary key: what a search cannot be faster than."""
    entry = models.entry
    with database.read() as connection:
        connection.execute(select(*entry.c).order_by(entry.c.kind, entry.c.slug).limit(50)).all()


def measure(database: Database, size: int) -> None:
    """Fill a database, print what was measured."""
    start = time.perf_counter()
    for first in range(0, size, 1000):
        last = min(first + 1000, size)
        write_revisions(database, [new_revision(f"tool-{n:06}", document(n)) for n in range(first, last)])
    print(f"{database.engine.dialect.name}, {size} entries, filled in {time.perf_counter() - start:.0f} s")
    if not database.is_sqlite:
        with database.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.exec_driver_sql("ANALYZE")
    bare = median_ms(lambda: bare_query(database))
    print(f"  bare query                  {bare:8.2f} ms")
    for name, wanted in FILTERS.items():
        taken = median_ms(lambda wanted=wanted: search_entries(database, wanted), 10)  # type: ignore[misc]
        print(f"  search, {name:20}{taken:8.2f} ms  {taken / bare:6.1f} x")
    print(f"  write a revision            {median_ms(lambda: write_one(database)):8.2f} ms")
    start = time.perf_counter()
    release = cut_release(database, note="all", who="bench")
    print(
        f"  cut a release               {(time.perf_counter() - start) * 1e3:8.0f} ms  {release.member_count} members"
    )
    store: ReleaseStore[object] = ReleaseStore(database, lambda kind, format_, body: json.loads(body))
    before = resident_mb()
    start = time.perf_counter()
    held = store.snapshot(1)
    print(
        f"  load it                     {(time.perf_counter() - start) * 1e3:8.0f} ms  {resident_mb() - before:.0f} MB"
    )
    start, before = time.perf_counter(), resident_mb()
    for revision in held.members.values():
        _ = revision.document
    print(
        f"  decode all of it            {(time.perf_counter() - start) * 1e3:8.0f} ms  {resident_mb() - before:.0f} MB"
    )
    cut_release(database, note="again", who="bench")
    start, before = time.perf_counter(), resident_mb()
    store.snapshot(2)
    print(
        f"  load the next beside it     {(time.perf_counter() - start) * 1e3:8.0f} ms  {resident_mb() - before:.0f} MB"
    )


WRITTEN = iter(range(10**9))


def write_one(database: Database) -> None:
    """A new head for an entry."""
    write_revision(database, new_revision("tool-000001", {**document(1), "again": next(WRITTEN)}))


def main(sizes: list[int]) -> None:
    """Measure every size on both databases."""
    with tempfile.TemporaryDirectory(prefix="ampwright-bench-") as folder:
        servers = Servers(Path(folder))
        try:
            for size in sizes:
                for backend in BACKENDS:
                    with fresh_database(servers, backend) as database:
                        measure(database, size)
        finally:
            servers.close()


if __name__ == "__main__":
    main([int(argument) for argument in sys.argv[1:]] or [500, 50_000])
