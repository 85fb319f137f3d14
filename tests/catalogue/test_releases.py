"""Does a release stay what it was, and do withdrawals reach answers from every release?"""

import subprocess
import sys
import threading
from datetime import UTC, datetime, timedelta

import pytest
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import BadValue, NoSuchEntry, NoSuchRelease, NoSuchRevision
from ampwright.catalogue.releases import (
    ChangedMember,
    Member,
    MemberLine,
    cut_release,
    diff_releases,
    get_release,
    list_members,
    list_releases,
    newest_release,
    release_candidates,
    release_digest,
)
from ampwright.catalogue.revisions import write_revision
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.withdrawals import withdraw, withdrawals_as_of
from catalogue_examples import new_revision

TOOL = "tool-profile"


def test_the_digest_is_what_its_description_says() -> None:
    # By hand, with GNU coreutils: printf 'cord b 2 1 bb\ntool-profile a 1 1 aa\n' | sha256sum
    members = [MemberLine(TOOL, "a", 1, 1, "aa"), MemberLine("cord", "b", 2, 1, "bb")]
    by_hand = subprocess.run(
        ["sha256sum"], input=b"cord b 2 1 bb\ntool-profile a 1 1 aa\n", capture_output=True, check=True
    )
    assert release_digest(members) == release_digest(members[::-1]) == by_hand.stdout.decode().split()[0]


def test_a_release_does_not_change_later(database: Database) -> None:
    for slug in ("a", "b"):
        write_revision(database, new_revision(slug))
    first = cut_release(database, note="first", who="tester")
    members = list_members(database, 1)
    for number in range(5):
        write_revision(database, new_revision("a", {"number": number}))
        write_revision(database, new_revision(f"c-{number}"))
        cut_release(database, note="later", who="tester")
    withdraw(database, TOOL, "a", None, reason="wrong", who="tester")
    assert list_members(database, 1) == members
    assert get_release(database, 1) == first
    assert [(m.slug, m.revision) for m in members] == [("a", 1), ("b", 1)]
    assert first.sha256 == release_digest(members)


def test_a_slow_writer_does_not_slip_into_a_release(database: Database) -> None:
    # A revision that was written before the cut and committed after it is not in the release, then or later.
    if database.is_sqlite:
        pytest.skip("SQLite has one writer at a time")
    write_revision(database, new_revision("a"))
    slow = Database(database.engine)
    holding, go_on = threading.Event(), threading.Event()

    def write_slowly() -> None:
        from ampwright.catalogue.revisions import _checked, _decided, locked_heads, store_revisions

        new = _checked(new_revision("b"))
        with slow.write() as connection:
            locked_heads(connection, [(TOOL, "b")])
            made = _decided(new, None, False, slow.clock())
            store_revisions(connection, [(new.facets, made.revision)])
            holding.set()
            go_on.wait(20)

    thread = threading.Thread(target=write_slowly)
    thread.start()
    assert holding.wait(20)
    made = cut_release(database, note="now", who="tester")
    go_on.set()
    thread.join()
    assert made.member_count == 1
    assert [m.slug for m in list_members(database, made.number)] == ["a"]
    assert [m.slug for m in release_candidates(database)] == ["a", "b"]


CUTTER = """
import sys
from ampwright.catalogue.database import Database
from ampwright.catalogue.releases import cut_release
database = Database.at(sys.argv[1], allow_unflushed=True)
for number in range(15):
    print(cut_release(database, note="at once", who=sys.argv[2]).number)
"""


def test_numbers_have_no_gaps_when_several_cut_at_once(database: Database) -> None:
    write_revision(database, new_revision("a"))
    url = database.engine.url.render_as_string(hide_password=False)
    running = [
        subprocess.Popen([sys.executable, "-c", CUTTER, url, f"cutter {n}"], stdout=subprocess.PIPE, text=True)
        for n in range(3)
    ]
    numbers = [int(line) for process in running for line in process.communicate(timeout=60)[0].split()]
    assert all(process.returncode == 0 for process in running)
    assert sorted(numbers) == list(range(1, 46))
    assert [release.number for release in list_releases(database, limit=500)] == list(range(45, 0, -1))


def test_what_a_release_holds_by_itself(database: Database) -> None:
    write_revision(database, new_revision("sound"))
    write_revision(database, new_revision("drafted", {"n": 1}))
    write_revision(database, new_revision("drafted", {"n": 2, "status": "draft"}))
    write_revision(database, new_revision("only-draft", {"status": "draft"}))
    write_revision(database, new_revision("corrected", {"n": 1}))
    write_revision(database, new_revision("corrected", {"n": 2}))
    withdraw(database, TOOL, "corrected", 2, reason="the correction was wrong too", who="tester")
    write_revision(database, new_revision("replaced", {"n": 1}))
    withdraw(database, TOOL, "replaced", None, reason="wrong", who="tester")
    write_revision(database, new_revision("replaced", {"n": 2}))
    cut_release(database, note="all", who="tester")
    # "corrected" is left out: its revision 1 is what revision 2 was to correct
    assert [(m.slug, m.revision) for m in list_members(database, 1)] == [("drafted", 1), ("replaced", 2), ("sound", 1)]


def test_a_release_of_chosen_members(database: Database) -> None:
    for number in range(3):
        write_revision(database, new_revision("a", {"n": number}))
    write_revision(database, new_revision("draft", {"status": "draft"}))
    made = cut_release(database, note="old", who="tester", members=[Member(TOOL, "a", 2)])
    assert [(m.slug, m.revision) for m in list_members(database, made.number)] == [("a", 2)]
    for members, fault in (
        ([Member(TOOL, "a", 4)], NoSuchRevision),
        ([Member(TOOL, "a", 10**20)], NoSuchRevision),
        ([Member(TOOL, "\x00", 1)], NoSuchRevision),
        ([Member(TOOL, "draft", 1)], BadValue),
        ([Member(TOOL, "a", 1), Member(TOOL, "a", 2)], BadValue),
    ):
        with pytest.raises(fault):
            cut_release(database, note="refused", who="tester", members=members)
    assert [release.number for release in list_releases(database)] == [1]


def test_an_empty_release_and_none(database: Database) -> None:
    assert newest_release(database) is None
    assert cut_release(database, note="empty", who="tester").member_count == 0
    assert list_members(database, 1) == ()
    for number in (0, 2, -1, 10**30):
        with pytest.raises(NoSuchRelease):
            get_release(database, number)


def test_members_come_in_the_order_of_bytes(database: Database) -> None:
    # A collation of a language would put a-b after ab, and 10 after 9.
    slugs = ["a-b", "a.b", "a0", "ab", "10", "9"]
    for slug in slugs:
        write_revision(database, new_revision(slug))
    cut_release(database, note="order", who="tester")
    expected = sorted(slugs, key=str.encode)
    assert [m.slug for m in list_members(database, 1)] == expected
    assert [m.slug for m in list_members(database, 1, after_place=2, limit=2)] == expected[2:4]


def test_the_diff_of_two_releases(database: Database) -> None:
    for slug in ("kept", "changed", "removed"):
        write_revision(database, new_revision(slug))
    cut_release(database, note="one", who="tester")
    write_revision(database, new_revision("changed", {"n": 2}))
    write_revision(database, new_revision("added"))
    withdraw(database, TOOL, "removed", None, reason="wrong", who="tester")
    cut_release(database, note="two", who="tester")
    diff = diff_releases(database, 1, 2)
    assert diff.added == (Member(TOOL, "added", 1),)
    assert diff.removed == (Member(TOOL, "removed", 1),)
    assert diff.changed == (ChangedMember(TOOL, "changed", 1, 2),)
    assert diff.unchanged_count == 1
    back = diff_releases(database, 2, 1)
    assert (back.added, back.removed) == (diff.removed, diff.added)
    with pytest.raises(NoSuchRelease):
        diff_releases(database, 1, 3)


def test_a_withdrawal_covers_what_was_there(database: Database) -> None:
    for number in range(3):
        write_revision(database, new_revision("x", {"n": number}))
    one = withdraw(database, TOOL, "x", 2, reason="wrong plate", who="tester")
    everything = withdraw(database, TOOL, "x", None, reason="wrong tool", who="tester")
    write_revision(database, new_revision("x", {"n": 3}))
    known = withdrawals_as_of(database)
    assert known.of(TOOL, "x", 1) == (everything,)
    assert known.of(TOOL, "x", 2) == (one, everything)
    assert known.of(TOOL, "x", 4) == ()
    assert known.of("kit", "x", 1) == ()
    assert one.reason == "wrong plate"


def test_as_of_gives_the_same_for_ever(database: Database) -> None:
    for slug in ("a", "b"):
        write_revision(database, new_revision(slug))
    assert withdrawals_as_of(database).as_of is None
    withdraw(database, TOOL, "a", None, reason="wrong", who="tester")
    known = withdrawals_as_of(database)
    # a clock that runs behind may not put anything before what has been read
    behind = Database(database.engine, clock=lambda: datetime(2000, 1, 1, tzinfo=UTC))
    later = withdraw(behind, TOOL, "b", None, reason="wrong", who="tester")
    assert known.as_of is not None
    assert later.withdrawn_at > known.as_of
    assert withdrawals_as_of(database, known.as_of) == known
    assert withdrawals_as_of(database, known.as_of - timedelta(microseconds=1)).lines == ()
    far = withdrawals_as_of(database, datetime(2999, 1, 1, tzinfo=UTC))
    assert far.as_of == later.withdrawn_at
    assert len(far.lines) == 2


def test_withdrawals_that_cannot_be(database: Database) -> None:
    write_revision(database, new_revision("x"))
    with pytest.raises(NoSuchEntry):
        withdraw(database, TOOL, "y", None, reason="wrong", who="tester")
    with pytest.raises(NoSuchEntry):
        withdraw(database, TOOL, "\x00", None, reason="wrong", who="tester")
    for revision in (0, 2, -1, 10**30):
        with pytest.raises(NoSuchRevision):
            withdraw(database, TOOL, "x", revision, reason="wrong", who="tester")
    with pytest.raises(BadValue):
        withdraw(database, TOOL, "x", 1, reason=" ", who="tester")
    assert withdrawals_as_of(database).lines == ()


def test_withdrawals_at_once_keep_their_order(database: Database) -> None:
    for number in range(3):
        write_revision(database, new_revision(f"x-{number}"))
    threads = [
        threading.Thread(
            target=lambda slug: [withdraw(database, TOOL, slug, 1, reason="r", who="t") for _ in range(10)],
            args=(f"x-{number}",),
        )
        for number in range(3)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    lines = withdrawals_as_of(database).lines
    assert [line.number for line in lines] == list(range(1, 31))
    times = [line.withdrawn_at for line in lines]
    assert times == sorted(set(times))


def test_the_status_in_a_search_follows(database: Database) -> None:
    def status() -> str:
        return search_entries(database, Filter(words="x")).entries[0].status

    write_revision(database, new_revision("x", {"n": 1, "status": "draft"}))
    assert status() == "draft"
    write_revision(database, new_revision("x", {"n": 2}))
    assert status() == "approved"
    withdraw(database, TOOL, "x", 1, reason="not the head", who="tester")
    assert status() == "approved"
    withdraw(database, TOOL, "x", 2, reason="the head", who="tester")
    assert status() == "withdrawn"
    write_revision(database, new_revision("x", {"n": 3}))
    assert status() == "approved"
