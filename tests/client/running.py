"""A real service on a catalogue of its own, started by its command."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx2
from ampwright.catalogue.database import Database
from ampwright.catalogue.demo_data import load_demo
from ampwright.catalogue.migrate import upgrade
from ampwright.studies.catalogue_writing import load_demo_catalogue

START_S = 240  # the first start on a machine compiles every kernel


@contextmanager
def filled_catalogue(folder: Path) -> Iterator[Database]:
    database_url = f"sqlite:///{folder / 'catalogue.db'}"
    upgrade(database_url)
    database = Database.at(database_url)
    load_demo_catalogue(database, load_demo())
    try:
        yield database
    finally:
        database.close()


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port: int = reserved.getsockname()[1]
    return port


@contextmanager
def running_service(folder: Path) -> Iterator[str]:
    """The service on the catalogue in `folder`."""
    port = free_port()
    with started(folder, port):
        yield f"http://127.0.0.1:{port}"


@contextmanager
def started(folder: Path, port: int, **settings: str) -> Iterator[subprocess.Popen[bytes]]:
    """The process of a service that is ready, at a port; a process that was killed is left as it is."""
    database_url = f"sqlite:///{folder / 'catalogue.db'}"
    kept = {name: value for name, value in os.environ.items() if not name.startswith("AMPWRIGHT_")}
    log = folder / "log"
    with log.open("wb") as written:
        running = subprocess.Popen(
            [sys.executable, "-m", "ampwright.cli", "serve", "--port", str(port)],
            env=kept | {"AMPWRIGHT_DATABASE_URL": database_url} | settings,
            stdout=written,
            stderr=written,
        )
        try:
            _wait(f"http://127.0.0.1:{port}", running, log)
            yield running
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
