"""How does a test get the whole service with the demo catalogue behind it?"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from ampwright.app import create_app
from ampwright.catalogue.database import Database
from ampwright.catalogue.demo_data import load_demo
from ampwright.catalogue.migrate import upgrade
from ampwright.settings import Settings
from ampwright.studies.catalogue_writing import load_demo_catalogue
from litestar.testing import TestClient


def demo_database(url: str) -> str:
    """The address of a database that is migrated and holds release 1 of the demo catalogue."""
    upgrade(url)
    database = Database.at(url)
    try:
        load_demo_catalogue(database, load_demo())
    finally:
        database.close()
    return url


@contextmanager
def demo_client(folder: Path, **settings: Any) -> Iterator[TestClient[Any]]:
    """The service in process, over a database of its own; an exception that gets out of it fails the test."""
    url = demo_database(f"sqlite:///{folder / 'demo.db'}")
    with TestClient(create_app(Settings(database_url=url, **settings)), raise_server_exceptions=True) as client:
        yield client
