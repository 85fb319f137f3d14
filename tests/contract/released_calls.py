"""Does the service of today do what a document of yesterday promised?

Cases are drawn from the older document and sent to the service in this process: what it takes must still be taken, what
it answers must still be as that document says. Comparing two documents (breaking_changes.py) finds what is written;
this finds what is done.
"""

from __future__ import annotations

from typing import Any

import schemathesis
from ampwright.app import create_app, warm_kernels
from ampwright.catalogue.database import Database
from ampwright.catalogue.keys import make_key
from ampwright.settings import Settings
from api.fuzzed_service import CONFIG, KEY
from hypothesis import HealthCheck, Phase, settings
from schemathesis.generation.hypothesis.builder import HypothesisTestConfig, HypothesisTestMode, create_test

# get_readiness: until the kernels are compiled it is not ready, by design
LEFT_OUT = frozenset({"get_readiness"})
SCOPES = ["calculate", "catalogue:read", "catalogue:write", "release", "keys"]


def _kept(case: schemathesis.Case) -> None:
    case.call_and_validate()


def broken_promises(document: dict[str, Any], database_url: str, *, only: str = "", examples: int = 2) -> list[str]:
    """One line for each operation of the document whose promises are not kept.

    only : an operation's id, all where left out; examples : generated cases an operation, beside those of the document;
    0 sends only those of the document.
    """
    schema = schemathesis.openapi.from_dict(document, config=CONFIG)
    warm_kernels()
    schema.app = create_app(Settings(database_url=database_url))
    # Some cases make keys, and a service that has keys asks for one.
    database = Database.at(database_url)
    try:
        KEY[:] = [make_key(database, scopes=SCOPES, note="calls", who="calls", expires_at=None).text]
    finally:
        database.close()
    broken: list[str] = []
    for path, item in document["paths"].items():
        for method, described in item.items():
            name = described["operationId"]
            if name in LEFT_OUT or (only and name != only):
                continue
            test = create_test(
                operation=schema[path][method],
                test_func=_kept,
                config=HypothesisTestConfig(
                    project=schema.config,
                    # only what the older document allows: what it forbade may be allowed by now
                    modes=[HypothesisTestMode.EXAMPLES, *([HypothesisTestMode.FUZZING] if examples else [])],
                    settings=settings(
                        max_examples=max(examples, 1),
                        deadline=None,
                        derandomize=True,
                        database=None,
                        phases=[Phase.explicit, *([Phase.generate] if examples else [])],
                        suppress_health_check=list(HealthCheck),
                    ),
                ),
            )
            try:
                test()
            except (AssertionError, BaseExceptionGroup) as error:
                broken.append(f"{name}: {error}")
    return broken
