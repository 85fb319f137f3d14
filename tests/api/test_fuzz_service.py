"""Does any request to the whole service, on either database, get an answer that its document does not promise?

Examples, coverage and generated cases of every operation, and sequences of calls, against the demo catalogue: what
reads and writes the catalogue on both databases, calculations on one, since they see only a release in memory. The gate
sends a sample of the coverage cases, the same one each time. `AMPWRIGHT_TEST_FUZZ=long pytest -n 2
tests/api/test_fuzz_service.py` sends everything to both: every coverage case of the catalogue, a larger sample of the
calculations'; it fails below 20,000 cases. `AMPWRIGHT_TEST_FUZZ=all` sends every coverage case, more than 200,000.
"""

from __future__ import annotations

import json
import zlib
from collections import Counter
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
from fuzzed_cases import ANSWERED, EXTENT, SENT, same_each_time
from hypothesis import Phase
from schemathesis.generation.hypothesis.builder import HypothesisTestConfig, HypothesisTestMode, create_test
from service_with_demo import demo_database

EXAMPLES = {"gate": 5, "long": 50, "all": 100}[EXTENT]
# One of so many coverage cases is sent, of a calculation (8,000 to 9,200 cases each) and of anything else.
ONE_OF = {"gate": (60, 60), "long": (12, 1), "all": (1, 1)}[EXTENT]
SCOPES = ["calculate", "catalogue:read", "catalogue:write", "release", "keys"]
# get_readiness: until the kernels are compiled it is not ready, by design
CASES = [
    pytest.param(backend, operation_id, id=f"{backend}-{operation_id}")
    for operation_id, operation in OPERATIONS.items()
    for backend in BACKENDS
    if operation_id != "get_readiness"
    and (
        EXTENT != "gate"
        or backend == "sqlite"
        or operation.scope not in (None, "calculate")
        or operation.method != "POST"
    )
]


class Serving:
    """The service on each database, with the demo catalogue and a key, made when first asked for."""

    def __init__(self, servers: Servers) -> None:
        self._servers = servers
        self._filled: dict[str, tuple[str, str]] = {}
        self._made: dict[str, Any] = {}

    def on(self, backend: str) -> Any:
        """Its schema, bound to the application."""
        if backend not in self._made:
            self._made[backend] = schemathesis.openapi.from_dict(json.loads(document()), config=CONFIG)
            self._made[backend].app = create_app(Settings(database_url=self.fresh(backend)))
        KEY[:] = [self._filled[backend][1]]
        return self._made[backend]

    def fresh(self, backend: str) -> str:
        """A database where nothing has happened yet."""
        if backend not in self._filled:
            url = demo_database(self._servers.migrated_url(backend))
            database = Database.at(url)
            made = make_key(database, scopes=SCOPES, note="fuzz", who="fuzz", expires_at=None)
            database.close()
            self._filled[backend] = (url, made.text)
        return self._servers.copy_of(self._filled[backend][0])

    def gone(self, url: str) -> None:
        self._servers.drop(url)

    def close(self) -> None:
        KEY.clear()  # of these databases, and no other's
        self._servers.close()


@pytest.fixture(scope="module")
def serving(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Serving]:
    made = Serving(Servers(tmp_path_factory.mktemp("fuzzed")))
    yield made
    made.close()


def sent(case: schemathesis.Case, scope: str | None) -> bool:
    """Whether a case of the coverage phase belongs to the sample."""
    one_of = ONE_OF[0 if scope == "calculate" else 1]
    if one_of == 1 or case.meta is None or case.meta.phase.name.value != "coverage":
        return True
    said = repr((case.path_parameters, case.query, case.headers, case.body))
    return zlib.crc32(said.encode()) % one_of == 0


@pytest.mark.parametrize(("backend", "operation_id"), CASES)
def test_service_keeps_the_documents_promises(
    serving: Serving, backend: str, operation_id: str, record_property: Any
) -> None:
    schema = serving.on(backend)
    operation = schema[OPERATIONS[operation_id].path][OPERATIONS[operation_id].method]
    answered: Counter[str] = Counter()

    def promises_are_kept(case: schemathesis.Case) -> None:
        if not sent(case, OPERATIONS[operation_id].scope):
            return
        response = case.call_and_validate()
        answered[case.meta.phase.name.value if case.meta else "examples"] += 1
        answered[ANSWERED] += response.status_code < 300
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
            settings=same_each_time(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate]),
        ),
    )()
    assert answered
    record_property(SENT, dict(answered))


@pytest.mark.parametrize("backend", BACKENDS)
def test_sequences_of_calls_keep_them_too(serving: Serving, backend: str, record_property: Any) -> None:
    """What one call gives goes into the next: an entry is made, read, revised, withdrawn."""
    calculations = [name for name, operation in OPERATIONS.items() if operation.scope == "calculate"]
    # a sequence that revokes the fuzzer's own key would show nothing more
    left_out = ["get_readiness", "revoke_access_key", *calculations]
    machine: Any = serving.on(backend).exclude(operation_id=left_out).as_state_machine()
    answered: Counter[str] = Counter()
    outcomes: Counter[str] = Counter()

    class OnFreshDatabase(machine):  # type: ignore[misc]
        """Tried again, a sequence must go as before: what an earlier one wrote is not there."""

        def setup(self) -> None:
            self.url = serving.fresh(backend)
            self.database = Database.at(self.url)
            self.app = create_app(Settings(database_url=self.url), database=self.database)
            super().setup()

        def get_call_kwargs(self, case: schemathesis.Case) -> dict[str, Any]:
            return {**super().get_call_kwargs(case), "app": self.app}

        def teardown(self) -> None:
            super().teardown()
            self.database.close()
            serving.gone(self.url)

        def after_call(self, response: Any, case: schemathesis.Case) -> None:
            answered["sequences"] += 1
            answered[ANSWERED] += response.status_code < 300
            outcomes[f"{case.operation.method} {response.status_code}"] += 1
            super().after_call(response, case)

    OnFreshDatabase.run(
        settings=same_each_time(max_examples=EXAMPLES * 2, stateful_step_count=8, phases=[Phase.generate])
    )
    assert outcomes["post 201"], "something was made"
    assert outcomes["get 200"], "and found again"
    record_property(SENT, dict(answered))
