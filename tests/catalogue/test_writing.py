"""Is a revision written once, in order, and never lost, whoever else writes?"""

import hashlib
import os
import random
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from ampwright.catalogue.audit import list_audit
from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets
from ampwright.catalogue.faults import BadValue, HeadMoved, NoSuchEntry
from ampwright.catalogue.revisions import (
    NewRevision,
    get_revision,
    head,
    list_revisions,
    write_revision,
    write_revisions,
)
from ampwright.catalogue.withdrawals import withdraw
from catalogue_examples import body_of, new_revision

WRITER = Path(__file__).parents[1] / "catalogue_writer.py"
PROCESSES = 4
WRITES = 50
# The gate kills five times; `AMPWRIGHT_TEST_KILLS=50 pytest tests/catalogue/test_writing.py -k kill` fifty times.
KILLS = int(os.environ.get("AMPWRIGHT_TEST_KILLS", "5"))


def start_writer(database: Database, name: str, count: int) -> "subprocess.Popen[str]":
    url = database.engine.url.render_as_string(hide_password=False)
    return subprocess.Popen([sys.executable, str(WRITER), url, name, str(count)], stdout=subprocess.PIPE, text=True)


def test_a_revision_comes_back_byte_for_byte(database: Database) -> None:
    # Number forms, order of members and letters that a database might rewrite (JSONB sorts members and prints 1e2 as
    # 100: PostgreSQL documentation, 8.14).
    body = '{"rated":"13 A","a":1.50,"z":1e2,"name":"Säge 鋸 \\" \\\\ \\t %s :x ?"}'.encode()
    new = NewRevision(
        kind="cord", slug="x", format=3, body=body, facets=Facets(name="Säge"), why="because", who="somebody"
    )
    written = write_revision(database, new)
    assert written.outcome == "new"
    assert written.created
    found = head(database, "cord", "x")
    assert found == written.revision == get_revision(database, "cord", "x", 1)
    assert found is not None
    assert found.body == body
    assert found.sha256 == hashlib.sha256(body).hexdigest()
    assert (found.format, found.why, found.entered_by) == (3, "because", "somebody")


def test_the_hash_is_the_standard_one(database: Database) -> None:
    # SHA-256 (FIPS 180-4) of the two bytes `{}`, by `printf '{}' | sha256sum` of GNU coreutils.
    written = write_revision(database, new_revision("x", {}))
    assert written.revision.sha256 == "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"


def test_a_write_from_an_old_head_is_refused(database: Database) -> None:
    write_revision(database, new_revision("x", {"a": 1}))
    second = write_revision(database, new_revision("x", {"a": 2}, expected_head=1))
    with pytest.raises(HeadMoved) as refused:
        write_revision(database, new_revision("x", {"a": 3}, expected_head=1))
    assert (refused.value.head, refused.value.head_sha256) == (2, second.revision.sha256)
    with pytest.raises(HeadMoved):
        write_revision(database, new_revision("x", {"a": 3}, create=True))
    assert [line.revision for line in list_revisions(database, "tool-profile", "x")] == [2, 1]


def test_an_identical_retry_gets_what_is_there(database: Database) -> None:
    first = write_revision(database, new_revision("x", {"a": 1}, create=True))
    assert write_revision(database, new_revision("x", {"a": 1}, create=True)).revision == first.revision
    second = write_revision(database, new_revision("x", {"a": 2}, expected_head=1))
    again = write_revision(database, new_revision("x", {"a": 2}, expected_head=1))
    assert (again.outcome, again.created, again.revision) == ("identical", False, second.revision)
    # A lost answer leaves one line in the audit trail, not two.
    assert [line.action for line in list_audit(database)] == ["write", "write"]


def test_going_back_to_an_older_body_is_history_not_a_retry(database: Database) -> None:
    for number, document in enumerate(({"a": 1}, {"a": 2}, {"a": 1}), start=1):
        assert write_revision(database, new_revision("x", document)).revision.revision == number


def test_the_same_body_with_another_meaning_is_new(database: Database) -> None:
    write_revision(database, new_revision("x", {"a": 1}))
    assert write_revision(database, new_revision("x", {"a": 1}, format_=2)).outcome == "new"
    draft = new_revision("x", {"status": "draft"})
    write_revision(database, draft)
    approved = NewRevision(
        kind="tool-profile", slug="x", format=1, body=draft.body, facets=Facets(name="x"), why="checked", who="tester"
    )
    assert write_revision(database, approved).outcome == "new"


def test_what_was_withdrawn_can_be_written_again(database: Database) -> None:
    write_revision(database, new_revision("x", {"a": 1}))
    withdraw(database, "tool-profile", "x", 1, reason="mistaken for another", who="tester")
    again = write_revision(database, new_revision("x", {"a": 1}, expected_head=1))
    assert (again.outcome, again.revision.revision) == ("new", 2)


def test_a_batch_is_written_whole_or_not_at_all(database: Database) -> None:
    with pytest.raises(NoSuchEntry):
        write_revisions(database, [new_revision("a"), new_revision("b", expected_head=7)])
    assert head(database, "tool-profile", "a") is None
    done = write_revisions(database, [new_revision("a"), new_revision("b"), new_revision("a", {"again": True})])
    assert [(w.revision.slug, w.revision.revision) for w in done] == [("a", 1), ("b", 1), ("a", 2)]


def test_a_refused_write_leaves_no_entry_behind(database: Database) -> None:
    with pytest.raises(NoSuchEntry):
        write_revision(database, new_revision("x", expected_head=1))
    with pytest.raises(NoSuchEntry):
        list_revisions(database, "tool-profile", "x")
    assert write_revision(database, new_revision("x", create=True)).created


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"slug": "a\x00b"}, "slug"),
        ({"slug": "A"}, "slug"),
        ({"slug": "a b"}, "slug"),
        ({"slug": "a\n"}, "slug"),
        ({"slug": "../x"}, "slug"),
        ({"slug": "\u0665"}, "slug"),  # an Arabic digit
        ({"slug": "a" * 81}, "slug"),
        ({"kind": "drill"}, "kind"),
        ({"who": "a\x00"}, "who"),
        ({"who": "a\u202eb"}, "who"),  # right-to-left override
        ({"who": "a\ud800"}, "who"),  # half of a surrogate pair
        ({"who": " "}, "who"),
        ({"who": "a" * 201}, "who"),
        ({"why": "two\nlines"}, "why"),
        ({"why": ""}, "why"),
        ({"format": 2**31}, "format"),
        ({"format": 0}, "format"),
        ({"format": True}, "format"),
        ({"expected_head": 2**31}, "expected_head"),
        ({"expected_head": 10**30}, "expected_head"),
        ({"body": b"\xff{}"}, "body"),
        ({"body": b"[]"}, "body"),
        ({"body": b"{"}, "body"),
        ({"body": b'{"a":"\\u0000"}'}, "body"),
        ({"body": b'{"\\u0007":1}'}, "body"),
        ({"body": b'{"a":[{"b":"\\u202e"}]}'}, "body"),
        ({"body": b'{"a":1,\n"b":2}'}, "body"),
        ({"body": b'{"a":' + b"[" * 100_000 + b"]" * 100_000 + b"}"}, "body"),
        ({"body": b'{"a":"' + b"x" * 1_000_000 + b'"}'}, "body"),
        ({"facets": Facets(name="a\x00")}, "facets.name"),
        ({"facets": Facets(name="a", plugs=("\x00",))}, "facets.plugs"),
        ({"facets": Facets(name="a", voltages_v=(float("nan"),))}, "facets.voltages_v"),
        ({"facets": Facets(name="a", voltages_v=(float("inf"),))}, "facets.voltages_v"),
        ({"facets": Facets(name="a", power_low_w=1.0)}, "facets.power"),
        ({"facets": Facets(name="a", power_low_w=2.0, power_high_w=1.0)}, "facets.power"),
        ({"facets": Facets(name="a", status="final")}, "facets.status"),
        ({"facets": Facets(name="a", words=tuple(f"w{n}" for n in range(101)))}, "facets"),
    ],
)
def test_what_no_database_may_be_given_is_refused(
    unwritten_database: Database, change: dict[str, object], field: str
) -> None:
    database = unwritten_database
    sound = {
        "kind": "cord", "slug": "x", "format": 1, "body": b"{}", "facets": Facets(name="x"), "why": "y", "who": "z",
    }  # fmt: skip
    with pytest.raises(BadValue) as refused:
        write_revision(database, NewRevision(**{**sound, **change}))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert head(database, "cord", "x") is None


@pytest.mark.parametrize("slug", ["a\x00b", "\ud800", "x" * 10_000, "", "A"])
def test_reading_what_cannot_exist_finds_nothing(unwritten_database: Database, slug: str) -> None:
    database = unwritten_database
    assert head(database, "cord", slug) is None
    assert get_revision(database, "cord", slug, 1) is None
    with pytest.raises(NoSuchEntry):
        list_revisions(database, "cord", slug)
    assert get_revision(database, "cord", "x", 10**30) is None
    assert get_revision(database, "cord", "x", -1) is None


def test_writers_at_once_lose_nothing_and_leave_no_gaps(database: Database) -> None:
    writers = [start_writer(database, f"own-{number}", WRITES) for number in range(PROCESSES)]
    for writer in writers:
        output, _ = writer.communicate(timeout=60)
        assert writer.returncode == 0
        assert len(output.splitlines()) == 1 + 2 * WRITES
    shared = [
        *list_revisions(database, "tool-profile", "shared", limit=500),
    ]
    assert [line.revision for line in shared] == list(range(PROCESSES * WRITES, 0, -1))
    # Each of the 200 documents is there once: nobody's work was overwritten.
    sent = {hashlib.sha256(body_of({"by": f"own-{p}", "number": n})).hexdigest() for p in range(4) for n in range(50)}
    assert {line.sha256 for line in shared} == sent
    for number in range(PROCESSES):
        own = list_revisions(database, "tool-profile", f"own-{number}", limit=500)
        assert [line.revision for line in own] == list(range(WRITES, 0, -1))


def test_two_who_start_from_one_head_cannot_both_win(database: Database) -> None:
    write_revision(database, new_revision("x", {"start": True}))
    results: list[str] = []
    ready = threading.Barrier(4)

    def attempt(number: int) -> None:
        ready.wait()
        try:
            results.append(write_revision(database, new_revision("x", {"by": number}, expected_head=1)).outcome)
        except HeadMoved:
            results.append("moved")

    threads = [threading.Thread(target=attempt, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(results) == ["moved", "moved", "moved", "new"]


def test_two_who_create_one_entry_cannot_both_win(database: Database) -> None:
    for attempt_number in range(5):
        results: list[str] = []
        ready = threading.Barrier(4)

        def attempt(number: int, slug: str, ready: threading.Barrier, results: list[str]) -> None:
            ready.wait()
            try:
                results.append(write_revision(database, new_revision(slug, {"by": number}, create=True)).outcome)
            except HeadMoved:
                results.append("moved")

        arguments = (f"x-{attempt_number}", ready, results)
        threads = [threading.Thread(target=attempt, args=(number, *arguments)) for number in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert sorted(results) == ["moved", "moved", "moved", "new"]


def test_batches_in_opposite_orders_do_not_deadlock(database: Database) -> None:
    failures: list[BaseException] = []

    def write(slugs: list[str], name: str) -> None:
        try:
            for number in range(15):
                write_revisions(database, [new_revision(slug, {"by": name, "n": number}) for slug in slugs])
        except BaseException as error:
            failures.append(error)

    slugs = ["a", "b", "c"]
    threads = [threading.Thread(target=write, args=args) for args in ((slugs, "one"), (slugs[::-1], "two"))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    assert [len(list_revisions(database, "tool-profile", slug)) for slug in slugs] == [30, 30, 30]


def test_kill_in_mid_write_loses_nothing_acknowledged(database: Database) -> None:
    generator = random.Random(20270114)
    acknowledged: list[tuple[str, int, str]] = []
    for attempt in range(KILLS):
        writer = start_writer(database, f"own-{attempt}", 1_000_000)
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
        # by what was written, not by the clock: a busy machine may take long over the first write
        lines = [writer.stdout.readline() for _ in range(generator.randint(1, 40))]
        time.sleep(generator.uniform(0.0, 0.02))  # anywhere within the next writes
        writer.kill()  # SIGKILL: no handler runs, no transaction is ended
        lines += writer.communicate()[0].splitlines()
        for line in lines:
            parts = line.split()
            if len(parts) == 3 and len(parts[2]) == 64:  # the last line may be cut
                acknowledged.append((parts[0], int(parts[1]), parts[2]))
    assert len(acknowledged) >= KILLS
    for slug, revision, sha256 in acknowledged:
        found = get_revision(database, "tool-profile", slug, revision)
        assert found is not None, f"{slug} r{revision} was acknowledged and is gone"
        assert found.sha256 == sha256
    # and what is there has no gaps, and goes on
    found = head(database, "tool-profile", "shared")
    assert found is not None
    with database.read() as connection:
        count = connection.exec_driver_sql("SELECT count(*) FROM entry_revision WHERE slug = 'shared'").scalar_one()
    assert count == found.revision
    assert write_revision(database, new_revision("shared")).revision.revision == count + 1
