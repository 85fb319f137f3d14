"""What do rows over many kits and sources, and outlet plans, cost as they are answered?

The path of the service but for HTTP: requests resolved, read, validated, planned, worked out and told, on one core; no
two cells ask the same. `growth` (engine_rows.py) has the load checks alone, so that the share of the rest shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from ampwright.bench.measured import Row, least_s
from ampwright.bench.sites import request
from ampwright.contract.kit_validations import KitValidationRequest
from ampwright.contract.outlet_plans import OutletPlanRequest
from ampwright.contract.source_comparisons import SourceComparisonRequest
from ampwright.studies.kit_validation import KitValidation
from ampwright.studies.matrix_rows import MatrixRows
from ampwright.studies.outlet_plan import OutletPlanStudy
from ampwright.studies.source_comparison import SourceComparison

DAY = {"shift": "8 h", "draws": 1000}


def matrix(kits: int, sources: int, tools: int, *, day: bool = False) -> dict[str, Any]:
    """A request of kits that differ by their plates, on sources that differ by their circuits."""
    job: dict[str, Any] = {"id": "job", "people": max(1, tools // 2), "code_basis": []}
    job["conditions"] = request(tools)["conditions"]
    asked = [{"id": f"s{n}", "source": request(tools, 2 + n)["source"]} for n in range(sources)]
    if day:
        job["day"] = DAY
        asked = [{**one, "charge": "80 %", "source": {**one["source"], "battery": "60 kWh"}} for one in asked]
    return {
        "sources": asked,
        "kits": [{"id": f"k{n}", "tools": request(tools, number=n)["tools"]} for n in range(kits)],
        "jobs": [job],
    }


def choosing_rows(*, quick: bool) -> Iterator[Row]:
    """Cells a second as they grow in kits, sources and tools; outlet plans as they grow in tools."""
    small, middle, large = (2, 2), (8, 2), (16, 8)
    for tools in (2, 4) if quick else (2, 4, 8, 16):
        for kits, sources in (small, middle) if quick else (small, middle, large):
            what = f"{kits} kits of {tools} tools x {sources} sources"
            yield _validated(what, matrix(kits, sources, tools))
    kits, sources = small if quick else middle
    yield _validated(f"{kits} kits of 4 tools x {sources} sources, with a day", matrix(kits, sources, 4, day=True))
    yield _compared(f"{kits} kits of 4 tools x {sources} sources, compared", matrix(kits, sources, 4))
    for tools in (2, 4) if quick else (2, 4, 8, 16):
        yield _planned(tools)


def _validated(what: str, members: dict[str, Any]) -> Row:
    asked = msgspec.convert(members, KitValidationRequest)
    return _rate(what, lambda: KitValidation(None, asked))


def _compared(what: str, members: dict[str, Any]) -> Row:
    asked = msgspec.convert(members, SourceComparisonRequest)
    return _rate(what, lambda: SourceComparison(None, asked))


def _rate(what: str, make: Any) -> Row:
    made: list[MatrixRows[Any, Any]] = []

    def act() -> None:
        made[:] = [make()]
        faulty = [row for row in made[0].made() if row is not None and row.errors]
        if faulty:
            raise AssertionError(faulty[0].errors)

    taken = least_s(act, 1)
    cells = made[0].cells.computed
    return Row(what, cells / taken, "cells/s", f"{taken / cells * 1e3:.1f} ms a cell")


def _planned(tools: int) -> Row:
    members = request(tools)
    del members["connections"]
    asked = msgspec.convert({**members, "code_basis": []}, OutletPlanRequest)
    study, answers = OutletPlanStudy(None), []
    taken = least_s(lambda: answers.append(study.run(asked)), 1)
    method = answers[-1].method
    beside = f"{answers[-1].outcome}, {method.load_checks} load checks, {method.nodes} nodes"
    return Row(f"outlet plan of {tools} tools", taken, "s", beside)
