"""Both databases, fresh for each test."""

from collections.abc import Iterator

import pytest
from ampwright.catalogue.database import Database
from databases import BACKENDS, Servers, fresh_database


@pytest.fixture(scope="session")
def servers(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Servers]:
    """Hands out databases; PostgreSQL starts when the first test asks for it."""
    servers = Servers(tmp_path_factory.mktemp("databases"))
    yield servers
    servers.close()


@pytest.fixture(params=BACKENDS)
def backend(request: pytest.FixtureRequest) -> str:
    """sqlite, then postgresql."""
    return str(request.param)


@pytest.fixture
def database(servers: Servers, backend: str) -> Iterator[Database]:
    """A migrated, empty database of each kind."""
    with fresh_database(servers, backend) as database:
        yield database


@pytest.fixture
def other_database(servers: Servers, backend: str) -> Iterator[Database]:
    """A migrated, empty database of the other kind."""
    with fresh_database(servers, "postgresql" if backend == "sqlite" else "sqlite") as database:
        yield database


@pytest.fixture
def empty_url(servers: Servers, backend: str) -> Iterator[str]:
    """The URL of a database without tables."""
    url = servers.empty_url(backend)
    yield url
    servers.drop(url)


@pytest.fixture(scope="module", params=BACKENDS)
def unwritten_database(request: pytest.FixtureRequest, servers: Servers) -> Iterator[Database]:
    """A migrated database of each kind, shared by tests that leave nothing in it."""
    with fresh_database(servers, str(request.param)) as database:
        yield database
