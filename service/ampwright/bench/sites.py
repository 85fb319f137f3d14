"""Which invented sites are measured?

Kits of two to sixteen tools of every kind of start, on sources with two to eight circuits. Plates differ from kit to
kit, so that no two cells are the same calculation.
"""

from __future__ import annotations

from typing import Any

import msgspec

from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate

# load class, amperes of its plate at 120 V; invented
TOOLS = (
    ("circular_saw", 12.0),
    ("air_compressor", 9.0),
    ("battery_charger", 3.0),
    ("angle_grinder", 8.0),
    ("fan", 1.5),
    ("hand_drill", 6.0),
    ("filament_light", 2.0),
    ("dust_extractor", 9.0),
)


def request(
    tools: int, circuits: int = 4, *, number: int = 0, cases: str = "together", cords: bool = False, known: bool = True
) -> dict[str, Any]:
    """One load check in JSON members. cases : "together" one case of all; "asked" as an answer chooses them.

    number : tells kits apart by their plates. known : whether the source's limits, circuits and reset are said.
    """
    names = [f"tool-{n}" for n in range(tools)]
    found: dict[str, Any] = {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "limits": [
                {
                    "id": "inverter",
                    "continuous": f"{2400 * circuits} VA",
                    "response": "shutdown",
                    "tiers": [{"amount": f"{3600 * circuits} VA", "lasts": "5 s"}],
                }
            ],
            "resistance": "0.05 ohm",
            "reset": {"how": "manual"},
            "circuits": [{"id": f"c{n}"} for n in range(circuits)],
            "receptacles": [{"id": f"r{n}", "marked": "20 A", "circuit": f"c{n % circuits}"} for n in range(tools)],
        },
        "tools": [
            {
                "id": name,
                "load_class": TOOLS[n % len(TOOLS)][0],
                "supply_options": [
                    {"voltage": "120 V", "current": f"{TOOLS[n % len(TOOLS)][1] + 0.01 * (number % 97):.2f} A"}
                ],
            }
            for n, name in enumerate(names)
        ],
        "connections": [{"plug": name, "into": f"r{n}"} for n, name in enumerate(names)],
        "people": max(1, tools // 2),
        "conditions": {"place": "open_air", "wet": False, "ambient": "20 degC"},
    }
    if cords:
        found["cords"] = [{"id": f"k{n}", "length": "15 m", "size": "12 AWG"} for n in range(0, tools, 2)]
        found["connections"] = [
            {"plug": name, "into": f"k{n}" if n % 2 == 0 else f"r{n}"} for n, name in enumerate(names)
        ] + [{"plug": f"k{n}", "into": f"r{n}"} for n in range(0, tools, 2)]
    if not known:
        for member in ("limits", "resistance", "reset", "circuits"):
            del found["source"][member]
        for receptacle in found["source"]["receptacles"]:
            del receptacle["circuit"]
    if cases == "together":
        found["cases"] = [{"id": "all", "running": names}]
    return found


def site(members: dict[str, Any]) -> Site:
    """The site that a request says; a faulty one is an error of the bench."""
    read, unread = read_site(msgspec.convert(members, LoadCheckRequest))
    faults = (*unread, *validate(read))
    if faults:
        raise AssertionError(faults)
    return read
