"""Requests that ask for rule layers, and what their answers say of clauses."""

from __future__ import annotations

from typing import Any

from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from site_of import finding_of, resistive


def site_supply(**members: Any) -> dict[str, Any]:
    return {
        "kind": "site_supply",
        "voltage": "120 V",
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        **members,
    }


def under_code(*bases: str, source: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    return {
        "source": source or site_supply(),
        "tools": [resistive("heater", "600 W", insulation="class_ii")],
        "connections": [{"plug": "heater", "into": "R1"}],
        "code_basis": list(bases),
        **members,
    }


def codes_of(result: LoadCheckResult) -> set[str]:
    return {item.code for item in result.findings}


def places_of(result: LoadCheckResult, code: str) -> list[tuple[str, str]]:
    """(place, status) of the clauses behind a finding."""
    finding = finding_of(result, code)
    assert finding is not None, (code, codes_of(result))
    lines = {item.id: item for item in result.basis}
    return [(lines[name].place, lines[name].status) for name in finding.basis]


def protected_by(state: str | None, outlet: str = "5-20R", **members: Any) -> dict[str, Any]:
    receptacle = {"id": "R1", "type": outlet, "circuit": "C1"}
    if state is not None:
        receptacle["ground_fault"] = state
    return site_supply(receptacles=[receptacle], **members)


def by_plate(current: str, load_class: str = "heat_gun", **members: Any) -> dict[str, Any]:
    return {
        "id": "heater",
        "load_class": load_class,
        "supply_options": [{"voltage": "120 V", "current": current}],
        "switch": "positive_on_off",
        "restart_protection": True,
        **members,
    }


def corded(*bases: str, **members: Any) -> dict[str, Any]:
    cord = {"id": "cord", "type": "SJTW", "size": "12 AWG", "length": "25 ft", "laid": "straight", **members}
    return under_code(
        *bases, cords=[cord], connections=[{"plug": "cord", "into": "R1"}, {"plug": "heater", "into": "cord"}]
    )
