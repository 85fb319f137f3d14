"""Which strings with a unit does an energy budget accept beside those of quantities.py?"""

from __future__ import annotations

import re
from typing import Annotated, Any

import msgspec

from ampwright.contract.quantities import LONGEST_QUANTITY, NUMBER, Dimension, QuantityFault
from ampwright.engine.site.energy_day import Price

SHARE = Dimension("share", "-", {"%": "percent"}, 0.0, 1.0, "80 %")
SPEED = Dimension(
    "speed", "m/s", {"m/s": "meter/second", "km/h": "kilometer/hour", "mph": "mile/hour"}, 0.0, 60.0, "30 km/h"
)
DISTANCE = Dimension("distance", "m", {"km": "kilometer", "mi": "mile", "m": "meter"}, 0.0, 2e6, "42 km")
PRESSURE = Dimension("pressure", "Pa", {"bar": "bar", "psi": "psi", "kPa": "kilopascal"}, 0.0, 5e7, "8 bar")
FLOW = Dimension(
    "flow",
    "m3/s",
    {"l/min": "liter/minute", "m3/h": "meter**3/hour", "cfm": "foot**3/minute", "gal_us/min": "gallon/minute"},
    0.0,
    100.0,
    "120 l/min",
)
RATE = Dimension("rate", "1/s", {"/min": "1/minute", "/h": "1/hour"}, 0.0, 100.0, "10 /min")
ENERGY_DIMENSIONS = (SHARE, SPEED, DISTANCE, PRESSURE, FLOW, RATE)


def _wire(dimension: Dimension, says: str) -> Any:
    units = ", ".join(dimension.units)
    return msgspec.Meta(
        max_length=LONGEST_QUANTITY,
        description=f"{says} with its unit ({units}): one value, `low..high` or `low..typical..high`; "
        f"{dimension.range}.",
        examples=[dimension.example],
        extra_json_schema={"pattern": dimension.pattern},
    )


ShareText = Annotated[str, _wire(SHARE, "Share")]
SpeedText = Annotated[str, _wire(SPEED, "Speed")]
DistanceText = Annotated[str, _wire(DISTANCE, "Distance on the road")]
PressureText = Annotated[str, _wire(PRESSURE, "Pressure above the air around")]
FlowText = Annotated[str, _wire(FLOW, "Flow, of air at the pressure around")]
RateText = Annotated[str, _wire(RATE, "How often")]

_AMOUNTS = {"kWh": 1.0 / 3.6e6, "l": 1e3, "gal_us": 1.0 / 3.785411784e-3}  # label -> how many are in a J or a m3
PRICE_PATTERN = rf"^{NUMBER} [A-Z]{{3}}/(?:kWh|l|gal_us)$(?!\n)"
CARBON_PATTERN = rf"^{NUMBER} (?:kg|g)/(?:kWh|l|gal_us)$(?!\n)"
_PRICE = re.compile(rf"({NUMBER}) ([A-Z]{{3}})/(kWh|l|gal_us)", re.ASCII)
_CARBON = re.compile(rf"({NUMBER}) (kg|g)/(kWh|l|gal_us)", re.ASCII)

PriceText = Annotated[
    str,
    msgspec.Meta(
        max_length=LONGEST_QUANTITY,
        description="Money for an amount: `0.32 EUR/kWh`, `1.85 EUR/l`, `3.60 USD/gal_us`; currency by ISO 4217.",
        examples=["0.32 EUR/kWh"],
        extra_json_schema={"pattern": PRICE_PATTERN},
    ),
]
CarbonText = Annotated[
    str,
    msgspec.Meta(
        max_length=LONGEST_QUANTITY,
        description="CO2 for an amount: `0.35 kg/kWh` or `2.35 kg/l`.",
        examples=["0.35 kg/kWh"],
        extra_json_schema={"pattern": CARBON_PATTERN},
    ),
]


def read_price(text: str) -> tuple[Price, str]:
    """Money for a J or a m3, and `energy` or `volume`. Raises QuantityFault."""
    match = _PRICE.fullmatch(text)
    if match is None:
        raise QuantityFault("not_a_quantity", f"{text[:48]!r} is no price such as '0.32 EUR/kWh' or '1.85 EUR/l'.")
    return Price(float(match[1]) * _AMOUNTS[match[3]], match[2]), "energy" if match[3] == "kWh" else "volume"


def read_carbon(text: str) -> tuple[float, str]:
    """[kg] of CO2 for a J or a m3, and `energy` or `volume`. Raises QuantityFault."""
    match = _CARBON.fullmatch(text)
    if match is None:
        raise QuantityFault("not_a_quantity", f"{text[:48]!r} is no factor such as '0.35 kg/kWh' or '2.35 kg/l'.")
    scale = 1.0 if match[2] == "kg" else 1e-3
    return float(match[1]) * scale * _AMOUNTS[match[3]], "energy" if match[3] == "kWh" else "volume"
