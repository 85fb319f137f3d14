"""How does a test get the whole service over a catalogue in each of both databases?

Import the fixtures `servers`, `url` and `service` into a test module.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from ampwright.app import create_app
from ampwright.catalogue.database import Database
from ampwright.catalogue.demo_data import load_demo
from ampwright.settings import Settings
from ampwright.studies.catalogue_writing import load_demo_catalogue
from databases import BACKENDS, Servers
from litestar.testing import TestClient

JSON_HEADERS = {"content-type": "application/json"}
SAW: dict[str, Any] = {
    "name": "circular saw, 185 mm",
    "origin": "nameplate",
    "load_class": "circular_saw",
    "supply_options": [{"id": "us", "voltage": "120 V", "plug": "5-15P", "current": "15 A"}],
}
VAN: dict[str, Any] = {
    "kind": "vehicle",
    "name": "panel van",
    "origin": "nameplate",
    "voltage": "120 V",
    "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A", "circuit": "C1"}],
}


@pytest.fixture(scope="module")
def servers(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Servers]:
    servers = Servers(tmp_path_factory.mktemp("databases"))
    yield servers
    servers.close()


@pytest.fixture(params=BACKENDS)
def url(request: pytest.FixtureRequest, servers: Servers) -> Iterator[str]:
    """A migrated, empty database of each kind."""
    url = servers.migrated_url(str(request.param))
    yield url
    servers.give_back(url)


@contextmanager
def serving(url: str, **settings: Any) -> Iterator[TestClient[Any]]:
    """The service in process; an exception that gets out of it fails the test."""
    chosen = Settings(database_url=url, allow_unflushed_database=True, **settings)
    with TestClient(create_app(chosen), raise_server_exceptions=True) as client:
        yield client


@pytest.fixture
def service(url: str) -> Iterator[TestClient[Any]]:
    with serving(url) as client:
        yield client


@contextmanager
def opened(url: str) -> Iterator[Database]:
    """The database behind a service, past the service."""
    database = Database.at(url, allow_unflushed=True)
    try:
        yield database
    finally:
        database.close()


def load_demo_into(url: str) -> None:
    """Release 1 of the demo catalogue."""
    with opened(url) as database:
        load_demo_catalogue(database, load_demo())


def new(entry: str, document: dict[str, Any], **more: Any) -> dict[str, Any]:
    """The body that creates an entry."""
    return {"entry": entry, "document": document, "why": "bought", "by": "fleet desk", **more}


def revised(document: dict[str, Any], **more: Any) -> dict[str, Any]:
    """The body that writes a revision."""
    return {"document": document, "why": "plate read again", "by": "fleet desk", **more}
