"""Do the commands carry, back up, restore and fill a catalogue, on both databases, and refuse without a trace?"""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import httpx
import pytest
from ampwright.catalogue.audit import list_audit
from ampwright.catalogue.keys import list_keys, make_key
from ampwright.catalogue.releases import newest_release
from ampwright.catalogue.withdrawals import withdraw
from ampwright.cli import main
from api.test_serve_command import START_S, command, environment
from catalogue_service import load_demo_into, opened, servers, url
from databases import Servers

__all__ = ["servers", "url"]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capfdbinary: Any) -> Any:
    """Runs a command on a database: (status, standard output, standard error)."""
    monkeypatch.setenv("AMPWRIGHT_ALLOW_UNFLUSHED_DATABASE", "yes")

    def run(url: str, *arguments: str) -> tuple[int, bytes, str]:
        monkeypatch.setenv("AMPWRIGHT_DATABASE_URL", url)
        status = main(arguments)
        said = capfdbinary.readouterr()
        return status, said.out, said.err.decode()

    return run


def filled(url: str) -> None:
    """The demo catalogue, a withdrawal and a key."""
    load_demo_into(url)
    with opened(url) as database:
        withdraw(database, "cord", "cord-14-100", None, reason="burnt", who="test")
        make_key(database, scopes=["calculate"], note="dispatch", who="test")


def other_of(servers: Servers, url: str) -> str:
    return servers.migrated_url("postgresql" if url.startswith("sqlite") else "sqlite")


def test_export_and_import_give_equal_bytes_across_databases(
    run: Any, servers: Servers, url: str, tmp_path: Path
) -> None:
    filled(url)
    other = other_of(servers, url)
    file = tmp_path / "catalogue.ndjson"
    assert run(url, "export", "--output", str(file)) == (0, b"", "")
    assert run(url, "export")[1] == file.read_bytes()
    status, said, _ = run(other, "import", str(file), "--by", "desk")
    revisions = file.read_bytes().count(b'"record":"revision"')
    assert (status, said.decode().split()[1:4]) == (0, [str(revisions), "of", str(revisions)])
    assert run(other, "export")[1] == file.read_bytes()
    assert run(other, "import", str(file), "--by", "desk")[1].startswith(b"New: 0 of ")
    with opened(other) as database:
        assert [(line.who, line.action) for line in list_audit(database)] == [("desk", "import")]
        assert list_keys(database) == ()  # keys are no part of a catalogue
    # refused: a file that is there, one that is cut short, one that is not there
    assert run(url, "export", "--output", str(file))[0] == 2
    cut = tmp_path / "cut.ndjson"
    cut.write_bytes(file.read_bytes()[:-100])
    status, _, told = run(other, "import", str(cut), "--by", "desk")
    assert (status, told.count("\n")) == (2, 1)
    assert run(other, "import", str(tmp_path / "none"), "--by", "desk")[0] == 2
    servers.give_back(other)


def test_backup_and_restore_bring_everything_back_into_either_database(
    run: Any, servers: Servers, url: str, tmp_path: Path
) -> None:
    filled(url)
    file = tmp_path / "backup"
    assert run(url, "backup", str(file))[0] == 0
    assert run(url, "backup", str(file))[0] == 2  # never over an older one
    for backend in ("sqlite", "postgresql"):
        empty = servers.empty_url(backend)
        status, said, told = run(empty, "restore", str(file))
        assert (status, told) == (0, ""), said
        assert run(empty, "export")[1] == run(url, "export")[1]
        with opened(url) as before, opened(empty) as after:
            assert list_keys(after) == list_keys(before)
            assert list_audit(after) == list_audit(before)
        status, _, told = run(empty, "restore", str(file))  # it is not empty any more
        assert (status, told.count("\n")) == (2, 1)
        servers.drop(empty)
    damaged = tmp_path / "damaged"
    damaged.write_bytes(file.read_bytes()[:5000])
    empty = servers.empty_url("sqlite")
    status, _, told = run(empty, "restore", str(damaged))
    assert (status, told.count("\n")) == (2, 1)


def test_a_sheet_is_tried_corrected_taken_and_released(run: Any, url: str, tmp_path: Path) -> None:
    file = tmp_path / "tools.csv"
    file.write_text("entry,name,origin,voltage,plug,current\nsaw,Säge,nameplate,120 V,5-16P,15\n", "utf-8")
    arguments = ("sheet", "import", "tool-profile", str(file), "--why", "the list", "--by", "desk")
    status, said, _ = run(url, *arguments, "--dry-run")
    lines = said.decode().splitlines()
    assert status == 1
    assert [line.split(":")[0] for line in lines[:2]] == ["row 2, current", "row 2, plug"]
    assert run(url, *arguments)[0] == 1
    file.write_text(file.read_text("utf-8").replace("5-16P,15", "5-15P,15 A"), "utf-8-sig")
    assert run(url, *arguments, "--dry-run")[:2] == (0, b"Would be written: 1 new, 0 revised; 0 unchanged.\n")
    with opened(url) as database:
        assert list_audit(database) == ()
    assert run(url, *arguments)[:2] == (0, b"Written: 1 new, 0 revised; 0 unchanged.\n")
    assert run(url, "release", "--note", "first", "--by", "desk")[0] == 0
    with opened(url) as database:
        made = newest_release(database)
        assert made is not None
        assert (made.number, made.member_count, made.made_by) == (1, 1, "desk")
    out = tmp_path / "out.csv"
    assert run(url, "sheet", "export", "tool-profile", "--output", str(out))[0] == 0
    assert run(url, "sheet", "import", "tool-profile", str(out), "--why", "x", "--by", "y")[1].endswith(
        b"0 new, 0 revised; 1 unchanged.\n"
    )
    file.write_bytes("entry,name\nsaw,Säge\n".encode("latin-1"))
    assert "UTF-8" in run(url, *arguments)[2]
    assert b"supply_options" in run(url, "sheet", "columns", "tool-profile")[1]


@pytest.mark.parametrize(
    "arguments",
    [("export",), ("import", "-", "--by", "x"), ("backup", "b"), ("release", "--note", "x", "--by", "y"),
     ("sheet", "export", "cord")],
)  # fmt: skip
def test_without_a_database_a_command_says_so_on_one_line(
    run: Any, tmp_path: Path, arguments: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "stdin", open(os.devnull))  # noqa: SIM115
    missing = f"sqlite:///{tmp_path / 'none.db'}"
    status, said, told = run(missing, *arguments)
    assert (status, said, told.count("\n")) == (2, b"", 1)
    assert list(tmp_path.iterdir()) == []


def served(folder: Path, *arguments: str, **settings: str) -> tuple[subprocess.Popen[bytes], int]:
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port = reserved.getsockname()[1]
    running = subprocess.Popen(
        command("serve", "--migrate", "--port", str(port), *arguments),
        env=environment(folder, **settings),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    return running, port


def test_on_loopback_no_key_is_asked_for_until_there_is_one(tmp_path: Path) -> None:
    running, port = served(tmp_path)
    try:
        with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=5, trust_env=False) as client:
            deadline, status = time.monotonic() + START_S, 0
            while status != 200:
                assert running.poll() is None
                assert time.monotonic() < deadline
                time.sleep(0.1)
                try:
                    status = client.get("/readyz").status_code
                except httpx.TransportError:
                    continue
            assert client.get("/v1/kits").status_code == 200
            made = subprocess.run(
                command("keys", "make", "--scope", "catalogue:read", "--note", "x", "--by", "y"),
                env=environment(tmp_path),
                capture_output=True,
                check=True,
                timeout=60,
            )
            time.sleep(1.1)  # workers follow within a second
            assert client.get("/v1/kits").status_code == 401
            shown = {"authorization": f"Bearer {made.stdout.decode().strip()}"}
            assert client.get("/v1/kits", headers=shown).status_code == 200
    finally:
        running.send_signal(signal.SIGTERM)
        running.wait(30)


def test_another_address_needs_a_key_or_one_explicit_setting(tmp_path: Path) -> None:
    # 192.0.2.1 is nobody's address (RFC 5737): a start that is let through ends at it, and not before it.
    def start(**settings: str) -> int:
        running, _ = served(tmp_path, "--host", "192.0.2.1", **settings)
        try:
            return running.wait(START_S)
        finally:
            if running.poll() is None:
                running.kill()
                running.wait(10)

    assert start() == 2
    assert start(AMPWRIGHT_ALLOW_OPEN_ADDRESS="yes") not in (0, 2)
    make = command("keys", "make", "--scope", "calculate", "--note", "x", "--by", "y")
    subprocess.run(make, env=environment(tmp_path), capture_output=True, check=True, timeout=60)
    assert start() not in (0, 2)
