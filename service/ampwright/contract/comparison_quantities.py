"""Which strings with a unit does a comparison of sources accept beside those of quantities.py?"""

from __future__ import annotations

import re
from typing import Annotated

from msgspec import Meta

from ampwright.contract.quantities import LONGEST_QUANTITY, NUMBER, Dimension, QuantityFault

MASS = Dimension("mass", "kg", {"kg": "kilogram", "lb": "pound"}, 0.0, 1e5, "48 kg")
NOISE_PATTERN = r"^[0-9]{1,3}(?:\.[0-9])? dB$(?!\n)"
HIRE_PATTERN = rf"^{NUMBER} [A-Z]{{3}}/day$(?!\n)"
_NOISE = re.compile(r"([0-9]{1,3}(?:\.[0-9])?) dB", re.ASCII)
_HIRE = re.compile(rf"({NUMBER}) ([A-Z]{{3}})/day", re.ASCII)

MassText = Annotated[
    str,
    Meta(
        max_length=LONGEST_QUANTITY,
        description=f"Mass with its unit (kg, lb): one value, `low..high` or `low..typical..high`; {MASS.range}.",
        examples=[MASS.example],
        extra_json_schema={"pattern": MASS.pattern},
    ),
]
NoiseText = Annotated[
    str,
    Meta(
        max_length=16,
        description="A-weighted sound pressure at a distance that is the same for all sources compared, in dB.",
        examples=["62 dB"],
        extra_json_schema={"pattern": NOISE_PATTERN},
    ),
]
HireText = Annotated[
    str,
    Meta(
        max_length=LONGEST_QUANTITY,
        description="What having the source costs a day, without energy: `45 EUR/day`; currency by ISO 4217.",
        examples=["45 EUR/day"],
        extra_json_schema={"pattern": HIRE_PATTERN},
    ),
]


def read_noise_db(text: str) -> float:
    """[dB]. Raises QuantityFault."""
    match = _NOISE.fullmatch(text)
    if match is None:
        raise QuantityFault("not_a_quantity", f"{text[:48]!r} is no level such as '62 dB'.")
    return float(match[1])


def read_hire(text: str) -> tuple[float, str]:
    """Money a day, and its currency. Raises QuantityFault."""
    match = _HIRE.fullmatch(text)
    if match is None:
        raise QuantityFault("not_a_quantity", f"{text[:48]!r} is no price such as '45 EUR/day'.")
    return float(match[1]), match[2]
