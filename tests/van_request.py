"""Requests about a van whose inverter is known, and heaters that draw what is said."""

from __future__ import annotations

from typing import Any

from site_of import resistive


def van(**members: Any) -> dict[str, Any]:
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "resistance": "0.0001 ohm",
        "limits": [{"id": "inverter", "continuous": "8000 VA"}],
        "circuits": [
            {
                "id": "C1",
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            },
            {
                "id": "C2",
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            },
        ],
        "receptacles": [
            {"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"},
            {"id": "R2", "type": "5-20R", "circuit": "C2", "ground_fault": "gfci_class_a"},
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
        **members,
    }


def heater_drawing(tool: str, working: str, heavy: str | None = None, **members: Any) -> dict[str, Any]:
    made = resistive(tool, "1200 W", **members)
    made["load_states"][0]["power"] = working
    made["load_states"][1]["power"] = heavy or working
    return made


def van_request(tools: list[dict[str, Any]], into: list[str], **members: Any) -> dict[str, Any]:
    return {
        "source": van(),
        "tools": tools,
        "connections": [{"plug": tool["id"], "into": at} for tool, at in zip(tools, into, strict=True)],
        "cases": [{"id": "all", "running": [tool["id"] for tool in tools]}],
        "code_basis": [],
        **members,
    }
