"""Does a load check leave open what cells as cold as the place give?

Resistance of lithium cells at -20 C is up to 5 times that at 25 C (standards/battery_cold_power.py and its source);
taken wide, 5^1.5, and a label that warm cells exceed by a fifth (common practice, no source): at least 0.107 of it.
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, resistive

LEAST_AT_MINUS_20_C = 1.2 / 5.0**1.5


def station(watts: float, ambient: str | None, kind: str = "battery_station") -> Any:
    source = {
        "kind": kind, "voltage": "120 V", "limits": [{"id": "out", "continuous": "1800 W"}],
        "receptacles": [{"id": "R1", "marked": "20 A"}],
    }  # fmt: skip
    conditions = {"place": "open_air", **({"ambient": ambient} if ambient is not None else {})}
    return check({"source": source, "tools": [resistive("load", f"{watts:.0f} W")], "conditions": conditions})


@pytest.mark.parametrize(
    ("watts", "ambient", "is_open"),
    [
        (1500.0, "-20 degC", True),
        (1.05 * LEAST_AT_MINUS_20_C * 1800.0, "-20 degC", True),
        (0.85 * LEAST_AT_MINUS_20_C * 1800.0, "-20 degC", False),
        (1500.0, "-20..20 degC", True),
        (1500.0, "15 degC", False),
        (1500.0, None, False),
    ],
)
def test_a_load_that_cold_cells_may_not_give_is_left_open(watts: float, ambient: str | None, is_open: bool) -> None:
    found = station(watts, ambient)
    assert ("cold_battery" in found.not_assessed) is is_open
    if is_open:
        assert found.verdict.overall not in ("pass", "marginal")


def test_a_vehicle_has_power_to_spare_in_the_cold() -> None:
    assert "cold_battery" not in station(1500.0, "-20 degC", "vehicle").not_assessed
