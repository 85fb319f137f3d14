"""A real service with the demo catalogue, started by its command, and clients of it."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import httpx2
import pytest
from ampwright.catalogue.database import Database
from ampwright.catalogue.demo_data import load_demo
from ampwright.catalogue.migrate import upgrade
from ampwright.studies.catalogue_writing import load_demo_catalogue
from ampwright_client import Client

START_S = 240  # the first start on a machine compiles every kernel


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of the service."""
    folder = tmp_path_factory.mktemp("client")
    database_url = f"sqlite:///{folder / 'catalogue.db'}"
    upgrade(database_url)
    database = Database.at(database_url)
    load_demo_catalogue(database, load_demo())
    database.close()
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port = reserved.getsockname()[1]
    kept = {name: value for name, value in os.environ.items() if not name.startswith("AMPWRIGHT_")}
    log = folder / "log"
    with log.open("wb") as written:
        running = subprocess.Popen(
            [sys.executable, "-m", "ampwright.cli", "serve", "--port", str(port)],
            env=kept | {"AMPWRIGHT_DATABASE_URL": database_url},
            stdout=written,
            stderr=written,
        )
        try:
            _wait(f"http://127.0.0.1:{port}", running, log)
            yield f"http://127.0.0.1:{port}"
        finally:
            running.send_signal(signal.SIGTERM)
            try:
                running.wait(30)
            except subprocess.TimeoutExpired:
                running.kill()
                running.wait(10)


def _wait(address: str, running: subprocess.Popen[bytes], log: Path) -> None:
    deadline = time.monotonic() + START_S
    with httpx2.Client(trust_env=False, timeout=5) as http:
        while True:
            assert running.poll() is None, log.read_text()
            assert time.monotonic() < deadline, log.read_text()
            try:
                if http.get(f"{address}/readyz").status_code == 200:
                    return
            except httpx2.TransportError:
                pass
            time.sleep(0.1)


@pytest.fixture(scope="session")
def client(service: str) -> Iterator[Client]:
    with Client(service) as opened:
        yield opened


@pytest.fixture(scope="session")
def raw(service: str) -> Iterator[httpx2.Client]:
    """HTTP without our client."""
    with httpx2.Client(base_url=service, trust_env=False, timeout=60) as opened:
        yield opened
