"""Does search find what going through all entries one by one finds, in whichever way it reads its index?

The other side is a filter in plain Python over the documents that were written; it knows nothing of the index.
"""

import random
import unicodedata
from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.catalogue import search_plan
from ampwright.catalogue.database import Database
from ampwright.catalogue.revisions import write_revision, write_revisions
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.withdrawals import withdraw
from catalogue_examples import new_revision
from databases import BACKENDS, Servers, fresh_database

KINDS = ("cord", "kit", "tool-profile")
WORDS = ("saw", "saws", "sawhorse", "Säge", "drill", "driller", "mixer", "n1", "n10", "n11", "n12", "n2", "straße")
VOLTAGES = (12.0, 110.0, 120.0, 127.0, 230.0, 240.0, 400.0)
PLUGS = ("5-15P", "5-20P", "CEE 7/7")
Known = list[tuple[str, str, dict[str, Any]]]


def documents(generator: random.Random) -> Known:
    """Some hundred entries; few words, so that most searches find several."""
    made = []
    for number in range(240):
        low = generator.choice((10.0, 90.0, 500.0, 1000.0, 1100.0, 3000.0)) * generator.uniform(0.9, 1.1)
        document: dict[str, Any] = {
            "name": " ".join(generator.sample(WORDS, generator.randint(1, 4))),
            "voltages_v": generator.sample(VOLTAGES, generator.randint(0, 3)),
            "plugs": generator.sample(PLUGS, generator.randint(0, 2)),
            "status": generator.choice(("approved", "approved", "draft")),
        }
        if generator.random() < 0.8:
            document["power_w"] = [low, low * generator.choice((1.0, 1.05, 1.5, 30.0))]
        made.append((generator.choice(KINDS), f"e-{generator.randrange(10**6):06}-{number}", document))
    return made


def filters(generator: random.Random) -> Filter:
    def some(chance: float) -> bool:
        return generator.random() < chance

    power = sorted((generator.choice((0.0, 80.0, 500.0, 999.0, 1100.0, 1e6)), generator.uniform(0, 4000)))
    voltage = sorted(generator.sample(VOLTAGES, 2))
    if some(0.4):
        voltage = [voltage[0]] * 2
    words = [word[: generator.randint(1, len(word))] for word in generator.sample(WORDS, generator.randint(1, 3))]
    return Filter(
        kind=generator.choice(KINDS) if some(0.3) else None,
        words=" ".join(words).upper() if some(0.5) else "",
        voltage_v=(voltage[0], voltage[1]) if some(0.3) else None,
        plug=generator.choice((*PLUGS, "none")) if some(0.3) else None,
        power_w=(power[0], power[1]) if some(0.4) else None,
        status=generator.choice(("draft", "approved", "withdrawn")) if some(0.3) else None,
    )


def folded(text: str) -> str:
    return unicodedata.normalize("NFKC", text).casefold()


def matches(wanted: Filter, kind: str, slug: str, document: dict[str, Any]) -> bool:
    """What `Filter` says, read with no index."""
    words = folded(f"{document['name']} {slug.replace('-', ' ')}").split()
    low, high = document.get("power_w", (None, None))
    return (
        (wanted.kind is None or wanted.kind == kind)
        and all(any(word.startswith(part) for word in words) for part in folded(wanted.words).split())
        and (
            wanted.voltage_v is None
            or any(wanted.voltage_v[0] <= one <= wanted.voltage_v[1] for one in document["voltages_v"])
        )
        and (wanted.plug is None or wanted.plug in document["plugs"])
        and (wanted.power_w is None or (low is not None and low <= wanted.power_w[1] and high >= wanted.power_w[0]))
        and (wanted.status is None or wanted.status == document["status"])
    )


@pytest.fixture(scope="module", params=BACKENDS)
def filled(request: pytest.FixtureRequest, servers: Servers) -> Iterator[tuple[Database, Known]]:
    """Entries, some withdrawn, and the documents of their heads."""
    generator = random.Random(20270114)
    known = documents(generator)
    with fresh_database(servers, str(request.param)) as database:
        write_revisions(database, [new_revision(slug, document, kind=kind) for kind, slug, document in known])
        for kind, slug, document in generator.sample(known, 12):
            withdraw(database, kind, slug, None, reason="wrong", who="tester")
            document["status"] = "withdrawn"
        yield database, known


# As it is set; everything sorted; nothing sorted and few lists merged; only one list ever read.
@pytest.mark.parametrize(("few", "most_lists", "compared"), [(2_000, 8, 500), (10_000, 0, 0), (0, 3, 20), (5, 1, 1)])
def test_every_search_finds_what_a_plain_filter_finds(
    filled: tuple[Database, Known], few: int, most_lists: int, compared: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    database, known = filled
    for name, value in (("FEW", few), ("MOST_LISTS", most_lists), ("COMPARED", compared)):
        monkeypatch.setattr(search_plan, name, value)
    search_plan._survey.cache_clear()
    generator = random.Random(few)
    found_any = 0
    for _ in range(80):
        wanted, limit = filters(generator), generator.choice((7, 50, 500))
        expected = sorted((kind, slug) for kind, slug, document in known if matches(wanted, kind, slug, document))
        found: list[tuple[str, str]] = []
        cursor = None
        while True:
            page = search_entries(database, wanted, cursor=cursor, limit=limit)
            found += [(entry.kind, entry.slug) for entry in page.entries]
            cursor = page.next_cursor
            if cursor is None or len(found) > len(expected):
                break
        assert found == expected, wanted
        found_any += bool(expected)
    assert found_any > 20
    search_plan._survey.cache_clear()


def test_an_entry_that_changes_during_a_search_is_not_left_out(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    # It matches before and after, but by another word: a page's statements must see one moment.
    write_revisions(database, [new_revision(slug, {"name": "saw"}) for slug in ("a", "b", "c")])
    made = search_plan._page_statement

    def written_in_between(shape: Any) -> Any:
        write_revision(database, new_revision("b", {"name": "saws"}))
        return made(shape)

    monkeypatch.setattr(search_plan, "_page_statement", written_in_between)
    assert [entry.slug for entry in search_entries(database, Filter(words="saw")).entries] == ["a", "b", "c"]
