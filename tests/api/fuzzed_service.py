"""What does the fuzzer know of this service beyond its document, so that what it tells is true?

Statuses that the document promises and that depend on more than a schema: 404 for an entry that is not there, 412 for a
revision that has moved on, 422 where members contradict each other (it must then list its faults), 428 (RFC 6585, 3).
Half of the valid cases are made to name entries of the demo catalogue, so that more than refusals are tried.
"""

from __future__ import annotations

import zlib
from typing import Any

import schemathesis
from ampwright.catalogue.demo_data import load_demo
from schemathesis.config import SchemathesisConfig

ENTRIES: dict[str, list[str]] = {}
for _kind, _slug, _ in load_demo():
    ENTRIES.setdefault(_kind, []).append(_slug)
KIND_OF = {
    "tool-profiles": "tool-profile",
    "power-sources": "power-source",
    "cords": "cord",
    "kits": "kit",
    "source-units": "source-unit",
}
KEY: list[str] = []  # the key that opens the service under test


# These answer row by row: a text that cannot be read is a fault of its row, and the other rows are answered.
ROW_BY_ROW = ("validate_kits", "compare_sources", "list_hazards", "budget_energy_batch", "compare_verdicts")
TELLS_FAULTS = ROW_BY_ROW[:4]

CONFIG = SchemathesisConfig.from_dict(
    {
        # Sequences follow the document's own links: a guess takes any member that is called like a parameter.
        "phases": {"stateful": {"inference": {"algorithms": []}}},
        "operations": [
            {
                "include-operation-id": name,
                "checks": {
                    "positive_data_acceptance": {"expected-statuses": ["2xx", "304", "404", "412", "422"]},
                    "negative_data_rejection": {"expected-statuses": ["2xx", "4xx"]},
                },
            }
            for name in ROW_BY_ROW
        ]
        # a body that names a revision which is not there is 404 although its entry is
        + [
            {
                "include-operation-id": f"withdraw_{kind.replace('-', '_')}",
                "checks": {"ensure_resource_availability": {"enabled": False}},
            }
            for kind in KIND_OF.values()
        ],
        "checks": {
            "positive_data_acceptance": {"expected-statuses": ["2xx", "304", "404", "412", "422"]},
            "missing_required_header": {"expected-statuses": ["4xx"]},
            # what a service does with keys and without is held in test_access.py
            "ignored_auth": {"enabled": False},
        },
    }
)


@schemathesis.hook
def before_call(context: Any, case: schemathesis.Case, kwargs: dict[str, Any]) -> None:
    """Let half of the valid cases name what exists, and everything come with a key."""
    if KEY:
        case.headers = {**(case.headers or {}), "Authorization": f"Bearer {KEY[0]}"}
    if case.meta is None or not case.meta.generation.mode.is_positive or not _chosen(case):
        return
    if case.meta.phase.name.value == "stateful":  # it names what a call before it made
        return
    path = dict(case.path_parameters or {})
    kind = KIND_OF.get(case.path.split("/")[2] if case.path.count("/") > 1 else "")
    if "entry" in path and kind in ENTRIES:
        path["entry"] = ENTRIES[kind][zlib.crc32(str(path["entry"]).encode()) % len(ENTRIES[kind])]
    for name in ("revision", "number"):
        if name in path:
            path[name] = 1
    case.path_parameters = path


def _chosen(case: schemathesis.Case) -> bool:
    return zlib.crc32(repr((case.path_parameters, case.query, case.body)).encode()) % 2 == 0
