"""How does a test say a site? As a request would, in JSON members, read through the contract."""

from __future__ import annotations

from typing import Any

import msgspec
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_result import CaseRow, Finding, LoadCheckResult
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate


def site_of(request: dict[str, Any]) -> Site:
    """A sound site; a faulty one fails the test that asked for it."""
    site, unread = read_site(msgspec.convert(request, LoadCheckRequest))
    faults = (*unread, *validate(site))
    assert not faults, faults
    return site


def check(request: dict[str, Any]) -> LoadCheckResult:
    """The load check of a request in JSON members."""
    return check_load(site_of(request))


def row_of(result: LoadCheckResult, case: str, *pushed: str) -> CaseRow:
    """The row of a case with these tools pushed."""
    found = next(item for item in result.cases if item.id == case)
    return next(row for row in found.results if row.pushed == pushed)


def finding_of(result: LoadCheckResult, code: str) -> Finding | None:
    """The first finding with a code, None where there is none."""
    return next((item for item in result.findings if item.code == code), None)


def resistive(tool: str, power: str, voltage: str = "120 V", **members: Any) -> dict[str, Any]:
    """A heater that draws exactly its plate at its plate voltage, as a constant impedance."""
    states = [
        {"id": name, "power": power, "power_factor": 1.0, "crest_factor": 1.42, "follows_voltage": "constant_impedance"}
        for name in ("working", "heavy")
    ]
    return {
        "id": tool,
        "load_class": "heater",
        "supply_options": [{"voltage": voltage, "power": power}],
        "load_states": states,
        "switch": "positive_on_off",
        "operated": "by_itself",
        **members,
    }
