"""Which requests are changes tried on? Those of the demo, and some written by hand where a change has much to say."""

from __future__ import annotations

from typing import Any

import msgspec
from ampwright.catalogue.demo_data import demo_requests
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.studies.references import resolve
from demo_lookup import DemoLookup
from site_of import resistive


def site_of_request(request: dict[str, Any]) -> Site:
    outcome = resolve(msgspec.convert(request, LoadCheckRequest), DemoLookup())
    assert outcome.request is not None, outcome.faults
    site, unread = read_site(outcome.request, outcome.places, outcome.adapters)
    faults = (*outcome.faults, *unread, *validate(site))
    assert not faults, faults
    return site


BY_HAND: dict[str, dict[str, Any]] = {
    # nothing said of circuits, connections or cases: two saws and a compressor at two receptacles
    "little": {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "receptacles": [{"id": "R1", "marked": "20 A"}, {"id": "R2", "marked": "20 A"}],
        },
        "tools": [
            {"id": name, "load_class": kind, "supply_options": [{"voltage": "120 V", "current": "15 A"}]}
            for name, kind in (("compressor", "air_compressor"), ("saw", "circular_saw"))
        ],
        "people": 1,
    },
    "cords": {
        "source": {
            "kind": "site_supply",
            "voltage": "120 V",
            "resistance": "0.05 ohm",
            "circuits": [
                {"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
                {"id": "C2", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
            ],
            "receptacles": [
                {"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"},
                {"id": "R2", "type": "5-20R", "circuit": "C2", "ground_fault": "gfci_class_a"},
            ],
            "reset": {"how": "manual"},
        },
        "tools": [
            {
                "id": name,
                "load_class": "angle_grinder",
                "supply_options": [{"voltage": "120 V", "current": "12 A"}],
                "switch": "constant_pressure",
            }
            for name in ("one", "two")
        ],
        "cords": [
            {
                "id": "thin",
                "length": "150 ft",
                "size": "16 AWG",
                "laid": "coiled",
                "plug": "5-15P",
                "outlets": {"type": "5-15R", "count": 3},
            }
        ],
        "connections": [
            {"plug": "thin", "into": "R1"},
            {"plug": "one", "into": "thin"},
            {"plug": "two", "into": "thin"},
        ],
        "people": 2,
        "cases": [{"id": "both", "running": ["one", "two"], "start_order": ["two", "one"]}],
    },
}
BY_HAND["reel"] = {
    **BY_HAND["cords"],
    "tools": [resistive("heater", "1700 W")],
    "cords": [
        {
            "id": "reel",
            "length": "80 ft",
            "size": "14 AWG",
            "plug": "5-15P",
            "marked": "15 A",
            "outlets": {"type": "5-15R"},
            "laid": "drum",
            "drum_layers": 3,
        }
    ],
    "connections": [{"plug": "reel", "into": "R1"}, {"plug": "heater", "into": "reel"}],
    "cases": [{"id": "warm", "running": ["heater"]}],
}
# two heaters of 14 A on one 20 A circuit, and a free receptacle on another
BY_HAND["crowded"] = {
    "source": {
        **BY_HAND["cords"]["source"],
        "receptacles": [
            {"id": name, "type": "5-20R", "circuit": circuit, "ground_fault": "gfci_class_a"}
            for name, circuit in (("R1", "C1"), ("R2", "C1"), ("R3", "C2"))
        ],
    },
    "tools": [resistive("one", "1700 W"), resistive("two", "1700 W")],
    "connections": [{"plug": "one", "into": "R1"}, {"plug": "two", "into": "R2", "leg": "L1"}],
    "cases": [{"id": "warm", "running": ["one", "two"]}],
}
# hardly anything said: outlets without marks on two circuits, a cord of no size, tools without plates
BY_HAND["unsaid"] = {
    "source": {
        "kind": "battery_station",
        "voltage": "120 V",
        "receptacles": [{"id": "R1", "circuit": "C1"}, {"id": "R2", "circuit": "C2"}, {"id": "R3"}, {"id": "R4"}],
    },
    "tools": [
        {"id": "saw", "load_class": "circular_saw"},
        {"id": "grinder", "load_class": "angle_grinder", "supply_options": [{"voltage": "120 V"}]},
        resistive("heater", "1500 W"),
    ],
    "cords": [{"id": "lead"}],
    "connections": [
        {"plug": "lead", "into": "R1"},
        {"plug": "saw", "into": "lead"},
        {"plug": "grinder", "into": "R2"},
        {"plug": "heater", "into": "R3"},
    ],
    "people": 2,
    "cases": [{"id": "all", "running": ["saw", "grinder", "heater"]}, {"id": "one", "running": ["saw"]}],
}
# a compressor behind the electronic limit of a circuit of which nobody says what it does above its rating
BY_HAND["electronic"] = {
    "source": {
        "kind": "site_supply",
        "voltage": "120 V",
        "resistance": "0.05 ohm",
        "circuits": [{"id": "C1", "device": {"kind": "electronic", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
    },
    "tools": [
        {
            "id": "compressor",
            "load_class": "air_compressor",
            "shaft_power": "1.5 hp",
            "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        }
    ],
    "connections": [{"plug": "compressor", "into": "R1"}],
    "cases": [{"id": "alone", "running": ["compressor"]}],
    "code_basis": [],
}
REQUESTS = {**{name: msgspec.json.decode(body) for name, body in demo_requests().items()}, **BY_HAND}
