"""The platform with the trial resource: in process, and behind a real server on loopback."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
import uvicorn
from ampwright.app import create_app
from ampwright.catalogue.migrate import upgrade
from ampwright.settings import Settings
from api import trial_resource
from litestar import Litestar
from litestar.testing import TestClient


def make_app(folder: Path, **settings: Any) -> Litestar:
    """The service with the trial resource and a fresh database of its own."""
    database_url = f"sqlite:///{folder / 'catalogue.db'}"
    upgrade(database_url)
    return create_app(
        Settings(database_url=database_url, **settings),
        resources=(trial_resource.operations,),
        cors_origins=("https://site.example",),
    )


@pytest.fixture(scope="session")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Litestar]]:
    app = make_app(tmp_path_factory.mktemp("trial"), body_limit_bytes=1_000_000)
    # An exception that gets out of the application would be a 500 of the server's own making.
    with TestClient(app, raise_server_exceptions=True) as opened:
        yield opened


class RunningServer:
    """uvicorn, as the command starts it, in a thread of this process."""

    def __init__(self, app: Litestar) -> None:
        self._socket = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._socket.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        config = uvicorn.Config(
            app, http="httptools", ws="none", lifespan="on", log_level="critical", timeout_graceful_shutdown=2
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, kwargs={"sockets": [self._socket]}, daemon=True)

    def __enter__(self) -> RunningServer:
        self._thread.start()
        deadline = time.monotonic() + 30
        while not self._server.started:
            assert time.monotonic() < deadline, "the server did not start"
            time.sleep(0.01)
        return self

    def __exit__(self, *_: object) -> None:
        self._server.should_exit = True
        self._thread.join(30)
        self._socket.close()

    def raw(self, request: bytes, *, wait_s: float = 10.0) -> bytes:
        """Everything that the server sends until it closes the connection or is silent for ``wait_s``."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=wait_s) as connection:
            connection.sendall(request)
            received = b""
            try:
                while chunk := connection.recv(65536):
                    received += chunk
            except TimeoutError:
                pass
            return received


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningServer]:
    app = make_app(
        tmp_path_factory.mktemp("served"),
        body_limit_bytes=1_000_000,
        body_timeout_s=0.5,
        calculation_queue=3,
    )
    with RunningServer(app) as running:
        yield running


@pytest.fixture
def http(server: RunningServer) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=server.address, timeout=20, trust_env=False) as opened:
        yield opened
