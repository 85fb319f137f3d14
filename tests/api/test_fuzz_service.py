"""Does any request to the whole service, on either database, get an answer that its document does not promise?

Examples, coverage and generated cases of every operation, and sequences of calls, against the demo catalogue: what
reads and writes the catalogue on both databases, calculations on one, since they see only a release in memory. The gate
sends a sample of the coverage cases, the same one each time; `AMPWRIGHT_TEST_FUZZ=all pytest
tests/api/test_fuzz_service.py` sends all of them, more than 20,000.
"""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from ampwright.app import create_app, document
from ampwright.catalogue.database import Database
from ampwright.catalogue.keys import make_key
from ampwright.settings import Settings
from api.fuzzed_service import CONFIG, KEY, TELLS_FAULTS
from api.replayed_examples import OPERATIONS
from databases import BACKENDS, Servers
from hypothesis import HealthCheck, Phase, settings
from schemathesis.generation.hypothesis.builder import HypothesisTestConfig, HypothesisTestMode, create_test
from service_with_demo import demo_database

ALL = os.environ.get("AMPWRIGHT_TEST_FUZZ") == "all"
EXAMPLES = 100 if ALL else 5
COVERAGE_OF = 1 if ALL else 60
SCOPES = ["calculate", "catalogue:read", "catalogue:write", "release", "keys"]
# get_readiness: until the kernels are compiled it is not ready, by design
CASES = [
    pytest.param(backend, operation_id, id=f"{backend}-{operation_id}")
    for operation_id, operation in OPERATIONS.items()
    for backend in BACKENDS
    if operation_id != "get_readiness"
    and (ALL or backend == "sqlite" or operation.scope not in (None, "calculate") or operation.method != "POST")
]


class Serving:
    """The service on each database, with the demo catalogue and a key, made when first asked for."""

    def __init__(self, servers: Servers) -> None:
        self._servers = servers
        self._made: dict[str, tuple[Any, Database, str]] = {}

    def on(self, backend: str) -> Any:
        """Its schema, bound to the application."""
        if backend not in self._made:
            url = demo_database(self._servers.migrated_url(backend))
            database = Database.at(url)
            made = make_key(database, scopes=SCOPES, note="fuzz", who="fuzz", expires_at=None)
            schema = schemathesis.openapi.from_dict(json.loads(document()), config=CONFIG)
            schema.app = create_app(Settings(database_url=url))
            self._made[backend] = (schema, database, made.text)
        schema, _, KEY[:] = (*self._made[backend][:2], [self._made[backend][2]])
        return schema

    def close(self) -> None:
        for _, database, _ in self._made.values():
            database.close()
        self._servers.close()


@pytest.fixture(scope="module")
def serving(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Serving]:
    made = Serving(Servers(tmp_path_factory.mktemp("fuzzed")))
    yield made
    made.close()


def sent(case: schemathesis.Case) -> bool:
    """Whether a case of the coverage phase belongs to the sample."""
    if COVERAGE_OF == 1 or case.meta is None or case.meta.phase.name.value != "coverage":
        return True
    said = repr((case.path_parameters, case.query, case.headers, case.body))
    return zlib.crc32(said.encode()) % COVERAGE_OF == 0


@pytest.mark.parametrize(("backend", "operation_id"), CASES)
def test_service_keeps_the_documents_promises(serving: Serving, backend: str, operation_id: str) -> None:
    schema = serving.on(backend)
    operation = schema[OPERATIONS[operation_id].path][OPERATIONS[operation_id].method]
    answered: list[int] = []

    def promises_are_kept(case: schemathesis.Case) -> None:
        if not sent(case):
            return
        response = case.call_and_validate()
        answered.append(response.status_code)
        negative = case.meta is not None and case.meta.generation.mode.is_negative
        if negative and operation_id in TELLS_FAULTS and response.status_code == 200:
            none_asked = '"rows":[]' in response.text  # a range of rows may be empty
            assert none_asked or '"errors":[{' in response.text, "a row that cannot be read tells why"
        if response.status_code == 422:
            told = response.json()
            assert told.get("errors") or told["type"] == "/problems/too-much-work", "a 422 lists its faults"

    # made here and not by a decorator: that would make every case of every operation while tests are collected
    create_test(
        operation=operation,
        test_func=promises_are_kept,
        config=HypothesisTestConfig(
            project=schema.config,
            modes=[HypothesisTestMode.EXAMPLES, HypothesisTestMode.COVERAGE, HypothesisTestMode.FUZZING],
            settings=settings(
                max_examples=EXAMPLES,
                deadline=None,
                derandomize=True,
                database=None,
                phases=[Phase.explicit, Phase.generate],
                suppress_health_check=list(HealthCheck),
            ),
        ),
    )()
    assert answered


@pytest.mark.parametrize("backend", BACKENDS)
def test_sequences_of_calls_keep_them_too(serving: Serving, backend: str) -> None:
    """What one call gives goes into the next: an entry is made, read, revised, withdrawn."""
    calculations = [name for name, operation in OPERATIONS.items() if operation.scope == "calculate"]
    # a sequence that revokes the fuzzer's own key would show nothing more
    left_out = ["get_readiness", "revoke_access_key", *calculations]
    schema = serving.on(backend).exclude(operation_id=left_out)
    schema.as_state_machine().run(
        settings=settings(
            max_examples=EXAMPLES * 2,
            stateful_step_count=8,
            deadline=None,
            derandomize=True,
            database=None,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
    )
