"""Requests whose tools start, and what a load check made of each start."""

from __future__ import annotations

from typing import Any

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult, ToolResult
from ampwright.engine.calculations.starts.starts import ToolStart
from site_of import row_of, site_of

HARD, TYPICAL, EASY = 2, 1, 0


def motor(tool: str, **members: Any) -> dict[str, Any]:
    """A 1.5 hp code J compressor that starts vented."""
    return {
        "id": tool,
        "load_class": "air_compressor",
        "shaft_power": "1.5 hp",
        "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", "against": "vented"},
        "switch": "automatic",
        **members,
    }


def series(tool: str, current: str = "10 A", **members: Any) -> dict[str, Any]:
    return {
        "id": tool,
        "load_class": "circular_saw",
        "supply_options": [{"voltage": "120 V", "current": current}],
        "start": {"kind": "universal_motor", "soft_start": False},
        "switch": "constant_pressure",
        **members,
    }


def laptop(tool: str = "laptop", **members: Any) -> dict[str, Any]:
    return {
        "id": tool,
        "load_class": "electronics",
        "supply_options": [{"voltage": "120 V", "current": "1 A"}],
        "switch": "always_on",
        **members,
    }


def inverter(continuous: str, **members: Any) -> dict[str, Any]:
    """A van with one limit over one circuit; what is not given is open."""
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "resistance": "0.02 ohm",
        "limits": [{"id": "inverter", "continuous": continuous, **members}],
        "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
    }


def mains(rating: str = "20 A", resistance: str = "0.02 ohm", circuits: int = 1) -> dict[str, Any]:
    return {
        "kind": "site_supply",
        "voltage": "120 V",
        "resistance": resistance,
        "circuits": [
            {
                "id": f"C{n}",
                "resistance": "0.01 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": rating},
            }
            for n in range(1, circuits + 1)
        ],
        "receptacles": [
            {"id": f"R{n}", "type": "5-20R", "circuit": f"C{n}", "ground_fault": "gfci_class_a"}
            for n in range(1, circuits + 1)
        ],
        "reset": {"how": "manual"},
    }


def request(source: dict[str, Any], *tools: dict[str, Any], **members: Any) -> dict[str, Any]:
    receptacles = source["receptacles"]
    while len(receptacles) < len(tools):  # more outlets of the last circuit
        receptacles.append({**receptacles[-1], "id": f"R{len(receptacles) + 1}"})
    places = [item["id"] for item in receptacles]
    return {
        "source": source,
        "tools": list(tools),
        "connections": [{"plug": tool["id"], "into": places[min(n, len(places) - 1)]} for n, tool in enumerate(tools)],
        "cases": [{"id": "all", "running": [tool["id"] for tool in tools]}],
        "people": 9,
        "code_basis": [],
        **members,
    }


def evaluated(asked: dict[str, Any]) -> Evaluation:
    return evaluate(site_of(asked), frozenset(), with_needs=True)


def start_of(asked: dict[str, Any], tool: str, case: int = 0) -> ToolStart:
    found = evaluated(asked)
    return next(one for one in found.starts.of_case(case) if found.settled.placements[one.tool].tool.id == tool)


def tool_of(result: LoadCheckResult, tool: str) -> ToolResult:
    return next(item for item in row_of(result, "all").tools if item.tool == tool)


# a capacitor-start motor's line current rises by up to a tenth between standstill and its switch, as its start winding
# takes more; source, circuit and contacts of 0.034 to 0.05 ohm take 2 to 5 % off
RISES, BEHIND_WIRES = 1.10, 0.95
