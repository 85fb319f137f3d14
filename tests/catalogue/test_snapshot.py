"""Does a worker answer from memory what the database holds, and nothing older than it says?"""

import json
import threading
from datetime import timedelta
from typing import Any

import pytest
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import DatabaseUnavailable, NoSuchRelease
from ampwright.catalogue.releases import cut_release, list_members
from ampwright.catalogue.revisions import get_revision, write_revision
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.catalogue.withdrawals import withdraw, withdrawals_as_of
from catalogue_examples import fill, new_revision
from sqlalchemy import event

TOOL = "tool-profile"


class Worker:
    """A store with a clock that stands still, and counts of what it decoded."""

    def __init__(self, database: Database, keep: int = 4) -> None:
        self.seconds = 0.0
        self.decoded: list[str] = []
        self.store: ReleaseStore[dict[str, Any]] = ReleaseStore(
            database, self._decode, keep=keep, monotonic_s=lambda: self.seconds
        )

    def _decode(self, kind: str, format_: int, body: bytes) -> dict[str, Any]:
        self.decoded.append(f"{kind} {format_}")
        return dict(json.loads(body))


def test_a_snapshot_is_what_the_database_holds(database: Database) -> None:
    fill(database)
    snapshot = Worker(database).store.snapshot(1)
    members = list_members(database, 1)
    assert list(snapshot.members) == [(m.kind, m.slug) for m in members]
    for member in members:
        held = snapshot.get(member.kind, member.slug)
        stored = get_revision(database, member.kind, member.slug, member.revision)
        assert held is not None
        assert stored is not None
        assert (held.revision, held.format, held.sha256, held.body) == (
            stored.revision, stored.format, stored.sha256, stored.body,
        )  # fmt: skip
        assert held.document == json.loads(stored.body)
    assert snapshot.get(TOOL, "nothing") is None
    assert [held.slug for held in snapshot.of_kind(TOOL)] == ["saw-185mm"]


def test_bodies_are_decoded_once_and_shared_between_releases(database: Database) -> None:
    fill(database)
    worker = Worker(database)
    one, two = worker.store.snapshot(1), worker.store.snapshot(2)
    assert worker.decoded == []
    shared = one.get(TOOL, "saw-185mm")
    assert shared is two.get(TOOL, "saw-185mm")
    assert one.get("power-source", "van") is not two.get("power-source", "van")
    assert shared is not None
    assert shared.document is shared.document
    assert worker.decoded == ["tool-profile 1"]


def test_a_held_release_needs_no_database(database: Database) -> None:
    fill(database)
    worker = Worker(database)
    statements: list[str] = []
    worker.store.snapshot()
    event.listen(database.engine, "before_cursor_execute", lambda *args: statements.append(args[2]))
    for _ in range(3):
        assert worker.store.snapshot().release.number == 2
        assert worker.store.snapshot(2).release.number == 2
        worker.store.withdrawals()
    assert statements == []


def test_the_newest_release_and_withdrawals_are_a_second_old_at_most(database: Database) -> None:
    write_revision(database, new_revision("a"))
    cut_release(database, note="one", who="tester")
    worker = Worker(database)
    assert worker.store.snapshot().release.number == 1
    write_revision(database, new_revision("b"))
    cut_release(database, note="two", who="tester")
    withdraw(database, TOOL, "a", None, reason="wrong", who="tester")
    worker.seconds = 0.99
    assert worker.store.snapshot().release.number == 1
    worker.seconds = 1.0
    assert worker.store.snapshot().release.number == 2
    assert [line.slug for line in worker.store.withdrawals().lines] == ["a"]
    cut_release(database, note="three", who="tester")
    worker.store.forget_standing()
    assert worker.store.snapshot().release.number == 3


def test_withdrawals_as_of_a_time(database: Database) -> None:
    for slug in ("a", "b"):
        write_revision(database, new_revision(slug))
        withdraw(database, TOOL, slug, None, reason="wrong", who="tester")
    worker = Worker(database)
    times = [line.withdrawn_at for line in worker.store.withdrawals().lines]
    for time in (times[0] - timedelta(seconds=9), *times, times[1] + timedelta(days=9)):
        assert worker.store.withdrawals(time) == withdrawals_as_of(database, time)
    # one that came within the second, asked for by its time, is not missed
    write_revision(database, new_revision("c"))
    late = withdraw(database, TOOL, "c", None, reason="wrong", who="tester")
    assert len(worker.store.withdrawals().lines) == 2
    assert len(worker.store.withdrawals(late.withdrawn_at).lines) == 3


def test_the_least_recently_used_release_goes_first(database: Database) -> None:
    write_revision(database, new_revision("a"))
    for _ in range(3):
        cut_release(database, note="one more", who="tester")
    worker = Worker(database, keep=2)
    first, second = worker.store.snapshot(1), worker.store.snapshot(2)
    assert worker.store.snapshot(1) is first
    worker.store.snapshot(3)
    assert worker.store.snapshot(1) is first
    assert worker.store.snapshot(2) is not second


def test_releases_that_are_not_there(database: Database) -> None:
    worker = Worker(database)
    for number in (None, 0, 1, -1, 10**30):
        with pytest.raises(NoSuchRelease):
            worker.store.snapshot(number)
    cut_release(database, note="empty", who="tester")
    assert worker.store.snapshot(1).members == {}


def test_many_threads_load_a_release_once(database: Database) -> None:
    fill(database)
    worker = Worker(database)
    found = []
    threads = [threading.Thread(target=lambda: found.append(worker.store.snapshot(2))) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 8
    assert len({id(snapshot) for snapshot in found}) == 1


def test_without_the_database_held_releases_answer_and_nothing_else(tmp_path: Any, servers: Any) -> None:
    url = servers.migrated_url("sqlite")
    database = Database.at(url)
    fill(database)
    worker = Worker(database)
    worker.store.snapshot(1)
    database.close()
    servers.drop(url)
    assert worker.store.snapshot(1).release.number == 1
    worker.seconds = 5.0
    with pytest.raises(DatabaseUnavailable):
        worker.store.snapshot()
    with pytest.raises(DatabaseUnavailable):
        worker.store.withdrawals()
    with pytest.raises(DatabaseUnavailable):
        worker.store.snapshot(2)
    assert list(tmp_path.iterdir()) == []


def test_a_pinned_release_gives_the_same_bytes_after_fifty_more(database: Database) -> None:
    fill(database)
    before = [(held.body, held.sha256) for held in Worker(database).store.snapshot(2).members.values()]
    known = withdrawals_as_of(database)
    for number in range(50):
        write_revision(database, new_revision("saw-185mm", {"name": "Saw", "n": number}))
        cut_release(database, note="one more", who="tester")
    withdraw(database, TOOL, "saw-185mm", None, reason="wrong", who="tester")
    worker = Worker(database)
    assert [(held.body, held.sha256) for held in worker.store.snapshot(2).members.values()] == before
    assert worker.store.withdrawals(known.as_of) == known
