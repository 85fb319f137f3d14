"""How are an energy, a volume of fuel, a time and a share said in a sentence?"""

from __future__ import annotations

import math

from ampwright.engine.calculations.wording import two_digits, with_unit


def said(value: float | None, unit: str) -> str:
    """A figure in SI in the unit of a sentence: `J`, `l` (of m3), `h` (of s), `%` (of a share); empty for none."""
    if value is None:
        return ""
    if unit == "J":
        return said_energy(value)
    if unit == "l":
        return f"{two_digits(1000.0 * value)} l"
    if unit == "h" and value < 2.0 * 3600.0:
        return f"{two_digits(value / 60.0)} min"
    if unit == "h":
        return f"{two_digits(value / 3600.0)} h"
    if unit == "%":
        return f"{two_digits(100.0 * value)} %"
    return with_unit(value, unit) if unit else f"{value:g}"


def said_energy(value_j: float, down: bool = False) -> str:
    """`3.1 kWh`, `240 Wh`; with `down` never more than the value."""
    wh = value_j / 3600.0
    for unit, size in (("kWh", 1000.0), ("Wh", 1.0)):
        if abs(wh) >= size or unit == "Wh":
            if abs(wh) < 0.1:
                return "0 Wh"
            value = wh / size
            if down and value > 0.0:
                places = 1 - math.floor(math.log10(value))
                value = math.floor(value * 10.0**places + 1e-9) / 10.0**places
            return f"{two_digits(value)} {unit}"
    return ""
