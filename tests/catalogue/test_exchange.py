"""Does a catalogue survive the way into another database, byte for byte, and is a damaged one refused whole?"""

import hashlib
import json
import sqlite3
import threading
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from ampwright.catalogue.audit import list_audit
from ampwright.catalogue.backup import back_up, restore
from ampwright.catalogue.database import Database
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.faults import Conflict
from ampwright.catalogue.intake import Intake, import_lines
from ampwright.catalogue.keys import KeyRing, list_keys, make_key, revoke_key
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import list_revisions, write_revision
from ampwright.catalogue.search import search_entries
from ampwright.catalogue.withdrawals import withdraw
from catalogue_examples import facets_of, fill, new_revision
from databases import Servers, fresh_database


def take(database: Database, lines: list[bytes], *, whole: bool = False) -> Intake:
    return import_lines(database, lines, facets_of=facets_of, who="importer", whole=whole)


def signed(lines: list[bytes]) -> list[bytes]:
    """The lines with an end line that fits them, as somebody who edits an export on purpose would make it."""
    end = json.loads(lines[-1])
    for name, record in (("revisions", "revision"), ("releases", "release"), ("withdrawals", "withdrawal")):
        end[name] = sum(json.loads(line)["record"] == record for line in lines[:-1])
    end["sha256"] = hashlib.sha256(b"".join(lines[:-1])).hexdigest()
    return [*lines[:-1], json.dumps(end).encode() + b"\n"]


def changed(lines: list[bytes], record: str, change: Callable[[dict[str, Any]], None], which: int = 0) -> list[bytes]:
    """The lines, signed, with one of a record changed."""
    places = [place for place, line in enumerate(lines) if json.loads(line)["record"] == record]
    line = json.loads(lines[places[which]])
    change(line)
    encoded = json.dumps(line, separators=(",", ":"), ensure_ascii=False).encode() + b"\n"
    return signed([*lines[: places[which]], encoded, *lines[places[which] + 1 :]])


def test_export_import_export_is_equal_across_databases(database: Database, other_database: Database) -> None:
    fill(database)
    exported = list(export_lines(database))
    assert take(other_database, exported) == Intake(9, 2, 2, 9, 2, 2)
    assert list(export_lines(other_database)) == exported
    # search works there, with what was withdrawn
    assert search_entries(other_database) == search_entries(database)
    assert [line.action for line in list_audit(other_database)] == ["import"]


def test_both_databases_export_the_same_bytes_for_the_same_history(
    database: Database, other_database: Database
) -> None:
    for each in (database, other_database):
        moments = iter(datetime(2027, 1, 14, 9, 0, second, tzinfo=UTC) for second in range(60))
        fill(Database(each.engine, clock=lambda moments=moments: next(moments)))  # type: ignore[misc]
    assert list(export_lines(database)) == list(export_lines(other_database))


def test_an_export_holds_the_stored_bytes(database: Database) -> None:
    fill(database)
    lines = list(export_lines(database))
    assert all(line.endswith(b"\n") and line.count(b"\n") == 1 for line in lines)
    body = (
        b'{"a":1.5,"name":"S\xc3\xa4ge, 185 mm","plugs":["5-15P"],"power_w":[950,1300],'
        b'"rated":"0 A","voltages_v":[120],"z":100.0}'
    )
    assert sum(b'"body":' + body + b"}\n" in line for line in lines) == 1
    end = json.loads(lines[-1])
    assert end["sha256"] == hashlib.sha256(b"".join(lines[:-1])).hexdigest()
    assert (end["revisions"], end["releases"], end["withdrawals"]) == (9, 2, 2)


def test_an_import_twice_adds_nothing(database: Database, other_database: Database) -> None:
    fill(database)
    exported = list(export_lines(database))
    take(other_database, exported)
    assert take(other_database, exported) == Intake(9, 2, 2, 0, 0, 0)
    assert list(export_lines(other_database)) == exported
    assert take(database, exported) == Intake(9, 2, 2, 0, 0, 0)


def test_a_later_export_brings_what_is_new(database: Database, other_database: Database) -> None:
    fill(database)
    take(other_database, list(export_lines(database)))
    write_revision(database, new_revision("saw-185mm", {"name": "Saw again"}))
    cut_release(database, note="third", who="tester")
    withdraw(database, "cord", "reel-14-100", 1, reason="melts", who="tester")
    assert take(other_database, list(export_lines(database))) == Intake(10, 3, 3, 1, 1, 1)
    assert list(export_lines(other_database)) == list(export_lines(database))
    # and an older one is known already
    assert search_entries(other_database) == search_entries(database)


def test_histories_that_differ_are_not_merged(database: Database, other_database: Database) -> None:
    fill(database)
    write_revision(other_database, new_revision("van", {"name": "Another van"}, kind="power-source"))
    before = list(export_lines(other_database))
    with pytest.raises(Conflict, match="power-source van revision 1 is another one here"):
        take(other_database, list(export_lines(database)))
    assert list(export_lines(other_database)) == before
    assert [line.action for line in list_audit(other_database)] == ["write"]


Change = Callable[[list[bytes]], list[bytes]]
DAMAGES: list[tuple[str, Change]] = [
    ("nothing at all", lambda lines: []),
    ("no end", lambda lines: lines[:-1]),
    ("half a line", lambda lines: [*lines[:3], lines[3][:40]]),
    ("no head", lambda lines: lines[1:]),
    ("two heads", lambda lines: [lines[0], *lines]),
    ("a line lost", lambda lines: [*lines[:4], *lines[5:]]),
    ("a line lost, signed", lambda lines: signed([*lines[:4], *lines[5:]])),
    ("a line twice", lambda lines: signed([*lines[:4], lines[3], *lines[4:]])),
    ("unsorted", lambda lines: signed([lines[0], *lines[1:10][::-1], *lines[10:]])),
    ("releases first", lambda lines: signed([lines[0], *lines[10:-1], *lines[1:10], lines[-1]])),
    ("something after the end", lambda lines: [*lines, lines[1]]),
    ("one letter of a body", lambda lines: [line.replace(b'"rated":"3 A"', b'"rated":"4 A"') for line in lines]),
    ("one letter, signed", lambda lines: signed([line.replace(b'"rated":"3 A"', b'"rated":"9 A"') for line in lines])),
    ("another reason", lambda lines: [line.replace(b'"note":"second"', b'"note":"third"') for line in lines]),
    ("not JSON", lambda lines: [lines[0], b"}{\n", *lines[1:]]),
    ("not UTF-8", lambda lines: [lines[0], b"\xff\xfe\n", *lines[1:]]),
    ("deep", lambda lines: [lines[0], b"[" * 100_000 + b"\n", *lines[1:]]),
    ("another format", lambda lines: changed(lines, "catalogue", lambda line: line.update(format=2))),
    ("an unknown member", lambda lines: changed(lines, "revision", lambda line: line.update(colour="red"))),
    ("an unknown record", lambda lines: changed(lines, "release", lambda line: line.update(record="sale"))),
    ("NUL", lambda lines: changed(lines, "revision", lambda line: line.update(why="a\x00"))),
    ("a bad slug", lambda lines: changed(lines, "revision", lambda line: line.update(slug="../x"))),
    ("a bad kind", lambda lines: changed(lines, "revision", lambda line: line.update(kind="drill"))),
    ("a gap", lambda lines: changed(lines, "revision", lambda line: line.update(revision=7))),
    ("a huge number", lambda lines: changed(lines, "revision", lambda line: line.update(revision=2**40))),
    ("a bad time", lambda lines: changed(lines, "revision", lambda line: line.update(entered_at="yesterday"))),
    ("a bad status", lambda lines: changed(lines, "revision", lambda line: line.update(status="final"))),
    ("a list as body", lambda lines: changed(lines, "revision", lambda line: line.update(body=[]))),
    ("a release's digest", lambda lines: changed(lines, "release", lambda line: line.update(sha256="0" * 64))),
    ("a member less", lambda lines: changed(lines, "release", lambda line: line["members"].pop())),
    ("a member that is not there", lambda lines: changed(
        lines, "release", lambda line: line["members"][0].update(revision=9))),
    ("a member twice", lambda lines: changed(
        lines, "release", lambda line: line["members"].append(line["members"][0]))),
    ("a release's number", lambda lines: changed(lines, "release", lambda line: line.update(number=3))),
    ("a withdrawal's number", lambda lines: changed(lines, "withdrawal", lambda line: line.update(number=5))),
    ("a withdrawal's time", lambda lines: changed(
        lines, "withdrawal", lambda line: line.update(withdrawn_at="2000-01-01T00:00:00.000000Z"), which=1)),
    ("a withdrawal of what is not there", lambda lines: changed(
        lines, "withdrawal", lambda line: line.update(last_revision=9))),
    ("an access key", lambda lines: signed([*lines[:-1], json.dumps({
        "record": "access-key", "id": "0", "sha256": "0", "scopes": "keys", "note": "x", "created_by": "x",
        "created_at": "2027-01-14T00:00:00.000000Z"}).encode() + b"\n", lines[-1]])),
]  # fmt: skip


@pytest.mark.parametrize("damage", [change for _, change in DAMAGES], ids=[name for name, _ in DAMAGES])
def test_a_damaged_export_is_refused_whole(
    unwritten_database: Database, sound_export: list[bytes], damage: Change
) -> None:
    database = unwritten_database
    with pytest.raises(Conflict):
        take(database, damage(sound_export))
    assert len(list(export_lines(database))) == 2  # head and end
    assert search_entries(database).entries == ()
    assert list_audit(database) == ()


@pytest.fixture(scope="module")
def sound_export(servers: Servers) -> list[bytes]:
    """The export that is damaged in the tests above."""
    with fresh_database(servers, "sqlite") as database:
        fill(database)
        return list(export_lines(database))


def test_the_export_that_is_damaged_is_sound(database: Database, sound_export: list[bytes]) -> None:
    assert take(database, sound_export).new_revisions == 9
    assert signed(sound_export) != sound_export  # written otherwise
    assert take(database, signed(sound_export)).new_revisions == 0  # and taken


def test_a_body_that_is_not_understood_is_refused(database: Database, other_database: Database) -> None:
    def refuse(kind: str, format_: int, body: bytes) -> Any:
        if kind == "kit":
            raise ValueError("no such format")
        return facets_of(kind, format_, body)

    fill(other_database)
    with pytest.raises(Conflict, match="no such format"):
        import_lines(database, export_lines(other_database), facets_of=refuse, who="importer")
    assert search_entries(database).entries == ()


def test_a_stored_body_that_was_changed_underneath_is_not_exported(database: Database) -> None:
    if not database.is_sqlite:
        pytest.skip("one way to get past the guards is enough")
    fill(database)
    with database.write() as connection:
        connection.exec_driver_sql("DROP TRIGGER entry_revision_no_update")
        connection.exec_driver_sql("UPDATE entry_revision SET body = '{}' WHERE slug = 'framing'")
    with pytest.raises(Conflict, match="kit framing revision 1 is not what was hashed"):
        list(export_lines(database))


def test_an_export_is_of_one_moment(database: Database) -> None:
    fill(database)
    lines = export_lines(database)
    taken = [next(lines), next(lines)]
    writer = threading.Thread(target=lambda: write_revision(database, new_revision("zz-later")))
    writer.start()
    writer.join()
    taken += lines
    assert not any(b"zz-later" in line for line in taken)
    assert json.loads(taken[-1])["revisions"] == 9


def test_imports_and_writes_at_once(database: Database, other_database: Database) -> None:
    fill(other_database)
    exported = list(export_lines(other_database))
    failures: list[BaseException] = []

    def attempt(act: Callable[[], object]) -> None:
        try:
            act()
        except BaseException as error:
            failures.append(error)

    def write_some() -> None:
        for number in range(20):
            write_revision(database, new_revision(f"other-{number % 3}", {"n": number}))

    acts = [lambda: take(database, exported), lambda: take(database, exported), write_some]
    threads = [threading.Thread(target=attempt, args=(act,)) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    assert take(database, exported).new_revisions == 0
    assert len(list_revisions(database, "tool-profile", "other-1")) == 7


@pytest.fixture
def living(database: Database) -> Database:
    """A catalogue in use: documents, keys, audit."""
    fill(database)
    revoke_key(database, make_key(database, scopes=["keys"], note="old", who="tester").key.id, who="tester")
    return database


@pytest.mark.parametrize("target", ["sqlite", "postgresql"])
def test_a_backup_restores_into_either_database(
    living: Database, target: str, servers: Servers, tmp_path: Path
) -> None:
    text = make_key(living, scopes=["calculate"], note="new", who="tester").text
    made = back_up(living, tmp_path / "backup")
    assert made.size_bytes == (tmp_path / "backup").stat().st_size > 0
    bytes_before = (tmp_path / "backup").read_bytes()
    url = servers.empty_url(target)
    restored = Database.at(url, allow_unflushed=True)
    try:
        restore(url, tmp_path / "backup", facets_of=facets_of, allow_unflushed=True)
        assert list(export_lines(restored, whole=True)) == list(export_lines(living, whole=True))
        assert list_keys(restored) == list_keys(living)
        key = KeyRing(restored).check(text)
        assert key is not None
        assert key.scopes == ("calculate",)
        assert search_entries(restored) == search_entries(living)
        # it goes on where it was: numbers of audit lines too
        last = list_audit(restored)[0].number
        write_revision(restored, new_revision("after"))
        assert list_audit(restored)[0].number == last + 1
    finally:
        restored.close()
        servers.drop(url)
    assert (tmp_path / "backup").read_bytes() == bytes_before
    assert [path.name for path in tmp_path.iterdir()] == ["backup"]


def test_a_backup_is_of_a_database_in_use(database: Database, tmp_path: Path) -> None:
    fill(database)
    stop = threading.Event()

    def write_on() -> None:
        number = 0
        while not stop.is_set():
            number += 1
            write_revision(database, new_revision("busy", {"n": number}))

    thread = threading.Thread(target=write_on)
    thread.start()
    try:
        back_up(database, tmp_path / "backup")
    finally:
        stop.set()
        thread.join()
    target = f"sqlite:///{tmp_path / 'restored.db'}"
    restore(target, tmp_path / "backup", facets_of=facets_of)
    restored = Database.at(target)
    count = len(list_revisions(restored, "tool-profile", "busy", limit=500)) if b"busy" in b"".join(
        export_lines(restored)
    ) else 0  # fmt: skip
    assert count <= len(list_revisions(database, "tool-profile", "busy", limit=500))
    restored.close()


def test_a_backup_overwrites_nothing(living: Database, tmp_path: Path) -> None:
    (tmp_path / "backup").write_text("mine")
    with pytest.raises(FileExistsError):
        back_up(living, tmp_path / "backup")
    assert (tmp_path / "backup").read_text() == "mine"


def test_a_restore_overwrites_nothing(living: Database, other_database: Database, tmp_path: Path) -> None:
    back_up(living, tmp_path / "backup")
    write_revision(other_database, new_revision("mine"))
    before = list(export_lines(other_database, whole=True))
    url = other_database.engine.url.render_as_string(hide_password=False)
    with pytest.raises(Conflict, match="empty"):
        restore(url, tmp_path / "backup", facets_of=facets_of, allow_unflushed=True)
    assert list(export_lines(other_database, whole=True)) == before


def test_a_damaged_backup_is_refused(living: Database, tmp_path: Path) -> None:
    back_up(living, tmp_path / "backup")
    damaged = bytearray((tmp_path / "backup").read_bytes())
    damaged[len(damaged) // 2 : len(damaged) // 2 + 2000] = b"\x55" * 2000
    (tmp_path / "damaged").write_bytes(damaged)
    with pytest.raises((Conflict, sqlite3.DatabaseError)):
        restore(f"sqlite:///{tmp_path / 'x.db'}", tmp_path / "damaged", facets_of=facets_of)
    (tmp_path / "short").write_bytes((tmp_path / "backup").read_bytes()[:-3000])
    with pytest.raises((Conflict, sqlite3.DatabaseError)):
        restore(f"sqlite:///{tmp_path / 'y.db'}", tmp_path / "short", facets_of=facets_of)


def test_a_backup_with_a_body_that_is_not_understood_any_more_comes_back(living: Database, tmp_path: Path) -> None:
    def refuse(kind: str, format_: int, body: bytes) -> Any:
        raise ValueError(f"{kind} format {format_} of {len(body)} bytes is too old")

    back_up(living, tmp_path / "backup")
    url = f"sqlite:///{tmp_path / 'x.db'}"
    restore(url, tmp_path / "backup", facets_of=refuse)
    restored = Database.at(url)
    assert list(export_lines(restored, whole=True)) == list(export_lines(living, whole=True))
    restored.close()
