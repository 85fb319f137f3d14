"""A real service with the demo catalogue, and clients of it."""

from __future__ import annotations

from collections.abc import Iterator

import httpx2
import pytest
from ampwright_client import Client
from client.running import filled_catalogue, running_service


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of the service."""
    folder = tmp_path_factory.mktemp("client")
    with filled_catalogue(folder):
        pass
    with running_service(folder) as address:
        yield address


@pytest.fixture(scope="session")
def client(service: str) -> Iterator[Client]:
    with Client(service) as opened:
        yield opened


@pytest.fixture(scope="session")
def raw(service: str) -> Iterator[httpx2.Client]:
    """HTTP without our client."""
    with httpx2.Client(base_url=service, trust_env=False, timeout=60) as opened:
        yield opened


@pytest.fixture
def slept(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    waits: list[float] = []
    monkeypatch.setattr("ampwright_client.transport.time.sleep", waits.append)
    return waits
