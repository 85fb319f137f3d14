"""What does the service answer to an example of the document?

Each example meets a demo catalogue of its own in which nothing else has happened but what it names as given, at one
fixed time, with keys that are no secrets, so that whoever replays it gets the same bytes. ``record_examples.py`` beside
this writes the answers into the files.
"""

from __future__ import annotations

import itertools
import secrets
import shutil
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from unittest import mock

import httpx
from ampwright.api import problem_pages
from ampwright.api.examples import FOLDER, Example, load_examples
from ampwright.api.health import ReadinessProbe, health_operations
from ampwright.api.operations import Operation
from ampwright.app import RESOURCES, create_app
from ampwright.catalogue.database import Database
from ampwright.catalogue.demo_data import load_demo
from ampwright.catalogue.migrate import upgrade
from ampwright.settings import Settings
from ampwright.studies.catalogue_writing import load_demo_catalogue
from litestar.testing import TestClient
from msgspec import UNSET

OPERATIONS: dict[str, Operation] = {
    operation.operation_id: operation
    for resource in (*RESOURCES, problem_pages.operations, health_operations(ReadinessProbe(())))
    for operation in resource
    if operation.documented
}
NAMES = [(operation_id, name) for operation_id in OPERATIONS for name in load_examples(operation_id)]
START_S = 240
SECRET = "an-example-and-no-secret-an-example-and-no-s"


def _noon() -> datetime:
    return datetime(2026, 5, 4, 12, 0, 0, tzinfo=UTC)


def _url(path: Path) -> str:
    return f"sqlite:///{path}"


class Replay:
    """Examples against services over copies of one demo catalogue, made in a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._made = folder / "demo.db"
        upgrade(_url(self._made))
        database = Database.at(_url(self._made), clock=_noon)
        try:
            load_demo_catalogue(database, load_demo())
        finally:
            database.close()
        self._count = itertools.count()
        self._reading: TestClient[Any] | None = None
        self._close_reading: Callable[[], None] = lambda: None

    def answer(self, operation_id: str, name: str) -> httpx.Response:
        """The answer to an example, after those that are given with it."""
        example = load_examples(operation_id)[name]
        operation = OPERATIONS[operation_id]
        if not example.given and (operation.method == "GET" or operation.scope == "calculate"):
            if self._reading is None:
                opened = self._opened()
                self._reading = opened.__enter__()
                self._close_reading = lambda: opened.__exit__(None, None, None)
            if operation_id == "get_readiness":
                wait_until_ready(self._reading)
            return send(self._reading, operation, example)
        with self._opened() as client:
            for step in example.given:
                of, _, which = step.partition("/")
                given = load_examples(of)[which]
                assert send(client, OPERATIONS[of], given).status_code == given.status, step
            return send(client, operation, example)

    def close(self) -> None:
        """End the service that all reading examples share."""
        self._close_reading()

    @contextmanager
    def _opened(self) -> Iterator[TestClient[Any]]:
        copy = self._folder / f"{next(self._count)}.db"
        shutil.copy(self._made, copy)
        numbers = itertools.count(1)
        database = Database.at(_url(copy), clock=_noon)
        app = create_app(Settings(database_url=_url(copy)), database=database)
        with (
            mock.patch.object(secrets, "token_hex", lambda size: f"{next(numbers):0{2 * size}x}"),
            mock.patch.object(secrets, "token_urlsafe", lambda size: SECRET[: size + 11]),
            TestClient(app, raise_server_exceptions=True) as client,
        ):
            yield client


def wait_until_ready(client: TestClient[Any]) -> None:
    """The first start on a machine compiles every kernel; until then it is not ready, by design."""
    deadline = time.monotonic() + START_S
    while client.get("/readyz").status_code != 200 and time.monotonic() < deadline:
        time.sleep(0.5)


def send(client: TestClient[Any], operation: Operation, example: Example) -> httpx.Response:
    """One request as its example says it."""
    body = {} if example.request is UNSET else {"json": example.request}
    return client.request(
        operation.method,
        operation.path.format_map(example.path),
        params=example.query,
        headers={"X-Request-Id": "example", **example.headers},
        **body,
    )


def content_of(response: httpx.Response) -> Any:
    """What an example shows of an answer: a document where it is JSON, else the text."""
    media_type = response.headers["content-type"].partition(";")[0]
    return response.json() if media_type in ("application/json", "application/problem+json") else response.text


def file_of(operation_id: str, name: str) -> Path:
    """Where an example stands."""
    return FOLDER / operation_id / f"{name}.json"
