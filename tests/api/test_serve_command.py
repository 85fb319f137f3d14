"""Does ``ampwright serve`` start, refuse and stop as a deployment needs it to?"""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import httpx
import pytest
from ampwright.api.access import is_loopback
from ampwright.cli import main

START_S = 240  # the first start on a machine compiles every kernel


def command(*arguments: str) -> list[str]:
    return [sys.executable, "-m", "ampwright.cli", *arguments]


def environment(folder: Path, **settings: str) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("AMPWRIGHT_")}
    # The kernels' cache is shared with the other tests: it is named by a digest of their source.
    return kept | {"AMPWRIGHT_DATABASE_URL": f"sqlite:///{folder / 'catalogue.db'}"} | settings


# RFC 1122, 3.2.1.3 (127/8) and RFC 4291, 2.5.3 (::1); a name may be resolved to anything.
@pytest.mark.parametrize(
    ("host", "loopback"),
    [
        ("127.0.0.1", True),
        ("127.9.9.9", True),
        ("::1", True),
        ("[::1]", True),
        ("localhost", True),
        ("0.0.0.0", False),
        ("::", False),
        ("10.0.0.1", False),
        ("localhost.example", False),
        ("127.0.0.1.example", False),
        ("", False),
    ],
)
def test_what_is_loopback(host: str, loopback: bool) -> None:
    assert is_loopback(host) is loopback


def test_open_address_is_refused(tmp_path: Path) -> None:
    refused = subprocess.run(
        command("serve", "--host", "0.0.0.0"), env=environment(tmp_path), capture_output=True, timeout=60, check=False
    )
    assert refused.returncode == 2
    assert b"AMPWRIGHT_ALLOW_OPEN_ADDRESS" in refused.stderr


@pytest.mark.parametrize("port", ["0", "70000", "http"])
def test_bad_setting_is_refused(tmp_path: Path, port: str) -> None:
    refused = subprocess.run(
        command("serve"), env=environment(tmp_path, AMPWRIGHT_PORT=port), capture_output=True, timeout=60, check=False
    )
    assert refused.returncode == 2
    assert b"AMPWRIGHT_PORT" in refused.stderr
    assert b"Traceback" not in refused.stderr


def test_openapi_command_compares(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "document.json"
    assert main(["openapi", "--check", str(file)]) == 1
    assert main(["openapi", "--output", str(file)]) == 0
    assert main(["openapi", "--check", str(file)]) == 0
    assert main(["openapi"]) == 0
    assert capfd.readouterr().out.encode() == file.read_bytes()
    file.write_bytes(file.read_bytes() + b"\n")
    assert main(["openapi", "--check", str(file)]) == 1


@pytest.mark.parametrize("workers", [1, 2])
def test_serve_gets_ready_and_stops(tmp_path: Path, workers: int) -> None:
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port = reserved.getsockname()[1]
    log = (tmp_path / "log").open("wb")
    running = subprocess.Popen(
        command("serve", "--migrate", "--port", str(port), "--workers", str(workers)),
        env=environment(tmp_path),
        stderr=log,
        stdout=log,
    )
    try:
        with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=5, trust_env=False) as client:
            deadline = time.monotonic() + START_S
            status = 0
            while status != 200:
                assert running.poll() is None, (tmp_path / "log").read_text()
                assert time.monotonic() < deadline, (tmp_path / "log").read_text()
                time.sleep(0.1)
                try:
                    status = client.get("/readyz").status_code
                except httpx.TransportError:
                    continue
            checks = client.get("/readyz").json()["checks"]
            assert [check["name"] for check in checks] == ["database", "kernels"]
            headers = client.get("/livez").headers
            assert "server" not in headers
        running.send_signal(signal.SIGTERM)
        # Stopped by the signal it was sent, or in order (uvicorn raises the signal again after its own shutdown).
        assert running.wait(30) in (0, -signal.SIGTERM)
    finally:
        if running.poll() is None:
            running.kill()
            running.wait(10)
        log.close()
    assert '"message": "request"' in (tmp_path / "log").read_text()


def test_the_demo_stays_for_trying_and_leaves_nothing(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port = reserved.getsockname()[1]
    folder = tmp_path / "temporary"
    folder.mkdir()
    log = tmp_path / "log"
    with log.open("wb") as written:
        running = subprocess.Popen(
            command("demo", "--stay"),
            env=environment(tmp_path, AMPWRIGHT_PORT=str(port), TMPDIR=str(folder)),
            stdout=written,
            stderr=written,
        )
        try:
            deadline = time.monotonic() + START_S
            while "until Ctrl+C" not in log.read_text():
                assert running.poll() is None, log.read_text()
                assert time.monotonic() < deadline, log.read_text()
                time.sleep(0.1)
            with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=20, trust_env=False) as client:
                assert client.get("/v1/power-sources/van-panel").status_code == 200
                running.send_signal(signal.SIGTERM)
                assert running.wait(40) == 0
                with pytest.raises(httpx.TransportError):
                    client.get("/livez")
        finally:
            if running.poll() is None:
                running.kill()
                running.wait(10)
    assert list(folder.iterdir()) == []
