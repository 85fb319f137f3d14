"""Does a search find what it should, and do its pages hold still while others write?"""

import itertools
import random
import threading
from collections.abc import Iterator

import pytest
from ampwright.catalogue import search_plan
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import reindex, words_of
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.revisions import write_revision, write_revisions
from ampwright.catalogue.search import EntryLine, Filter, decode_cursor, encode_cursor, search_entries
from ampwright.catalogue.withdrawals import withdraw
from catalogue_examples import facets_of, new_revision
from databases import BACKENDS, Servers, fresh_database

DOCUMENTS = [
    ("tool-profile", "saw-185mm", {"name": "Circular saw, 185 mm", "voltages_v": [120], "plugs": ["5-15P"],
     "power_w": [950, 1300], "words": ["Kreissäge", "wood"]}),
    ("tool-profile", "saw-table", {"name": "Table saw", "voltages_v": [120, 240], "plugs": ["5-15P", "6-15P"],
     "power_w": [1500, 1800]}),
    ("tool-profile", "grinder-230", {"name": "Angle grinder (230 mm)", "voltages_v": [230], "plugs": ["CEE 7/7"],
     "power_w": [2000, 2200], "status": "draft"}),
    ("power-source", "van", {"name": "Van with a saw horse", "voltages_v": [120]}),
    ("cord", "cord-14-50", {"name": "Cord 14 AWG 50 ft", "plugs": ["5-15p"]}),
]  # fmt: skip


def fill_with_documents(database: Database) -> None:
    write_revisions(database, [new_revision(slug, document, kind=kind) for kind, slug, document in DOCUMENTS])


@pytest.fixture
def filled(database: Database) -> Database:
    """Five entries of three kinds."""
    fill_with_documents(database)
    return database


@pytest.fixture(scope="module", params=BACKENDS)
def read_only(request: pytest.FixtureRequest, servers: Servers) -> Iterator[Database]:
    """The same, shared by tests that only read."""
    with fresh_database(servers, str(request.param)) as database:
        fill_with_documents(database)
        yield database


@pytest.mark.parametrize(
    ("wanted", "slugs"),
    [
        (Filter(), ["cord-14-50", "van", "grinder-230", "saw-185mm", "saw-table"]),
        (Filter(kind="tool-profile"), ["grinder-230", "saw-185mm", "saw-table"]),
        (Filter(kind="kit"), []),
        (Filter(words="saw"), ["van", "saw-185mm", "saw-table"]),
        (Filter(words="SAW circ"), ["saw-185mm"]),
        (Filter(words="  saw,  (table) "), ["saw-table"]),
        (Filter(words="ircular"), []),  # the beginning of a word, not its middle
        (Filter(words="kreissäge"), ["saw-185mm"]),
        (Filter(words="KREISSA\u0308GE"), ["saw-185mm"]),  # the same letter in two characters
        (Filter(words="185"), ["saw-185mm"]),
        (Filter(words="185mm"), ["saw-185mm"]),
        (Filter(words="%"), ["cord-14-50", "van", "grinder-230", "saw-185mm", "saw-table"]),  # no word at all
        (Filter(words="' OR 1=1 --"), []),
        (Filter(words="_ircular"), []),
        (Filter(words="cir%lar"), []),
        (Filter(voltage_v=(110, 127)), ["van", "saw-185mm", "saw-table"]),
        (Filter(voltage_v=(240, 240)), ["saw-table"]),
        (Filter(voltage_v=(121, 229)), []),  # between the two voltages of the table saw
        (Filter(plug="5-15P"), ["cord-14-50", "saw-185mm", "saw-table"]),
        (Filter(plug="cee  7/7"), ["grinder-230"]),
        (Filter(plug="\x00"), []),
        (Filter(plug="5-15"), []),
        (Filter(power_w=(1300, 1500)), ["saw-185mm", "saw-table"]),
        (Filter(power_w=(1301, 1499)), []),
        (Filter(power_w=(0, 1e12)), ["grinder-230", "saw-185mm", "saw-table"]),
        (Filter(status="draft"), ["grinder-230"]),
        (Filter(status="withdrawn"), []),
        (Filter(kind="tool-profile", words="saw", voltage_v=(120, 120), plug="6-15P", power_w=(0, 1600),
                status="approved"), ["saw-table"]),
    ],
)  # fmt: skip
def test_filters(read_only: Database, wanted: Filter, slugs: list[str]) -> None:
    assert [entry.slug for entry in search_entries(read_only, wanted).entries] == slugs


@pytest.mark.parametrize("few", [0, 1, 3, 500])
def test_every_way_to_read_a_page_gives_the_same(
    read_only: Database, few: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    # along the entries, along the index in its order, by sorting a few: which one depends on how common things are
    def found() -> list[list[str]]:
        pages = []
        for words, kind, plug, voltage_v in itertools.product(
            ("", "saw", "sa ta", "mm"), (None, "tool-profile"), (None, "5-15P"), (None, (120.0, 120.0), (100.0, 250.0))
        ):
            wanted = Filter(words=words, kind=kind, plug=plug, voltage_v=voltage_v)
            first = search_entries(read_only, wanted, limit=1)
            rest = search_entries(read_only, wanted, cursor=first.next_cursor) if first.next_cursor else first
            pages.append([entry.slug for page in {first, rest} for entry in page.entries])
            pages[-1].sort()
        return pages

    expected = found()
    assert sum(map(len, expected)) > 50
    monkeypatch.setattr(search_plan, "FEW", few)
    search_plan._survey.cache_clear()
    assert found() == expected
    search_plan._survey.cache_clear()


def test_a_line_tells_the_head(filled: Database) -> None:
    written = write_revision(filled, new_revision("van", {"name": "Bus"}, kind="power-source")).revision
    found = search_entries(filled, Filter(words="bus")).entries
    assert found == (
        EntryLine(
            "power-source", "van", 2, "Bus", "approved", 1, written.sha256, written.entered_at, written.entered_by
        ),
    )
    # what the older revision was found by is gone
    assert search_entries(filled, Filter(words="horse")).entries == ()
    assert "van" not in {e.slug for e in search_entries(filled, Filter(voltage_v=(120, 120))).entries}


@pytest.mark.parametrize(
    "wanted",
    [
        Filter(kind="drill"),
        Filter(status="final"),
        Filter(words=" ".join(f"w{n}" for n in range(11))),
        Filter(words="x" * 100_000),
        Filter(voltage_v=(2, 1)),
        Filter(voltage_v=(float("nan"), 1)),
        Filter(power_w=(0, float("inf"))),
        Filter(power_w=(-1, 1)),
    ],
)
def test_filters_that_make_no_sense(read_only: Database, wanted: Filter) -> None:
    with pytest.raises(BadValue):
        search_entries(read_only, wanted)


@pytest.mark.parametrize("cursor", ["", "x", "====", "\x00", "é", "a" * 10_000, "bm90aGluZw", "Y29yZC9B", "Y29yZC94 "])
def test_cursors_that_are_none(read_only: Database, cursor: str) -> None:
    with pytest.raises(BadValue):
        search_entries(read_only, cursor=cursor)


def test_a_cursor_is_its_place() -> None:
    assert decode_cursor(encode_cursor("cord", "a.b-c")) == ("cord", "a.b-c")


@pytest.mark.parametrize("limit", [1, 2, 5, 6, 500])
def test_pages_make_up_the_whole(read_only: Database, limit: int) -> None:
    slugs: list[str] = []
    cursor = None
    while True:
        page = search_entries(read_only, cursor=cursor, limit=limit)
        assert 0 < len(page.entries) <= limit
        slugs += [entry.slug for entry in page.entries]
        assert len(slugs) <= 5, "a page began again"
        cursor = page.next_cursor
        if cursor is None:
            break
    assert slugs == ["cord-14-50", "van", "grinder-230", "saw-185mm", "saw-table"]


def test_pages_hold_still_while_others_write(database: Database) -> None:
    there = [f"tool-{number:03}" for number in range(60)]
    write_revisions(database, [new_revision(slug, {"name": f"Tool {slug}"}) for slug in there])
    generator = random.Random(20270114)
    stop = threading.Event()
    failures: list[BaseException] = []

    def disturb() -> None:
        number = 0
        try:
            while not stop.is_set():
                number += 1
                # new ones all over the order, and new heads with other names
                write_revision(database, new_revision(f"tool-{generator.randrange(60):03}-{number}", {"name": "Tool"}))
                slug = generator.choice(there)
                write_revision(database, new_revision(slug, {"name": f"Tool {number}"}))
        except BaseException as error:
            failures.append(error)

    thread = threading.Thread(target=disturb)
    thread.start()
    try:
        for _ in range(3):
            seen: list[str] = []
            cursor = None
            while True:
                page = search_entries(database, Filter(words="tool"), cursor=cursor, limit=4)
                seen += [entry.slug for entry in page.entries]
                assert len(seen) < 5_000, "a page began again"
                cursor = page.next_cursor
                if cursor is None:
                    break
            assert [slug for slug in seen if slug in there] == there
            assert len(seen) == len(set(seen))
            assert seen == sorted(seen, key=str.encode)
    finally:
        stop.set()
        thread.join()
    assert failures == []


def test_the_index_can_be_made_again(filled: Database) -> None:
    withdraw(filled, "cord", "cord-14-50", None, reason="wrong", who="tester")
    before = search_entries(filled)
    with filled.write() as connection:
        connection.exec_driver_sql("DELETE FROM entry_term")
        connection.exec_driver_sql("DELETE FROM entry_facet")
    assert search_entries(filled).entries == ()
    assert reindex(filled, facets_of) == 5
    assert search_entries(filled) == before
    assert [e.slug for e in search_entries(filled, Filter(plug="6-15P")).entries] == ["saw-table"]


def test_words() -> None:
    assert words_of("Winkelschleifer 230mm, 1.5 hp—ÄÖ ß 2\u00b2") == (
        "winkelschleifer", "230mm", "1.5", "hp", "äö", "ss", "22",
    )  # fmt: skip
    assert words_of("") == words_of("%_ -- ''") == ()
    assert words_of("a\x00b") == ("a", "b")
