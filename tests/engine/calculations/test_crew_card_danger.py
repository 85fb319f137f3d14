"""Does the card say first what can hurt somebody whichever tools run?

29 CFR 1926.57 and NIOSH publication 96-118 (both from memory): an engine in an enclosed place kills whatever it feeds.
Common practice, no source: the worst danger is said before what is merely too much.
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, resistive


def _card(power: str, place: str) -> list[tuple[str, str]]:
    request: dict[str, Any] = {
        "source": {
            "kind": "engine_generator",
            "voltage": "120 V",
            "running": "3 kVA",
            "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
            "reset": {"how": "manual"},
        },
        "conditions": {"place": place},
        "tools": [resistive("heater", power), resistive("lamp", "100 W")],
        "connections": [{"plug": "heater", "into": "R1"}],
    }
    request["source"]["receptacles"].append({**request["source"]["receptacles"][0], "id": "R2"})
    request["connections"].append({"plug": "lamp", "into": "R2"})
    return [(line.code, line.text) for line in check(request).crew_card]


@pytest.mark.parametrize("power", ["300 W", "9 kW"])
def test_exhaust_where_people_are_comes_first_whether_or_not_something_is_too_much(power: str) -> None:
    code, text = _card(power, "enclosed")[0]
    assert code == "card_danger"
    assert "exhaust kills" in text


def test_what_is_too_much_stands_beside_the_danger() -> None:
    assert [code for code, _ in _card("9 kW", "enclosed")][:2] == ["card_danger", "card_do_not_run"]
    assert "card_do_not_run" not in [code for code, _ in _card("300 W", "enclosed")]


def test_nothing_is_said_of_a_danger_that_is_none() -> None:
    assert "card_danger" not in [code for code, _ in _card("9 kW", "open_air")]
