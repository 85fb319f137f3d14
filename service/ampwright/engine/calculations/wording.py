"""How is a figure said in a sentence? Never with more than two significant digits."""

from __future__ import annotations

import math

JUST = 0.03  # within this share of a limit two digits cannot tell on which side of it a figure is


def two_digits(value: float) -> str:
    """A figure at two significant digits, without an exponent."""
    if value == 0.0 or not math.isfinite(value):
        return "0" if value == 0.0 else str(value)
    places = 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, places)
    return f"{rounded:.{max(0, 1 - math.floor(math.log10(abs(rounded))))}f}"


def with_unit(value: float, unit: str) -> str:
    """`26 A`; a current below one ampere in mA, a power from 10 kW up in kW."""
    if unit == "A" and 0.0 < abs(value) < 0.1:
        return f"{two_digits(value * 1000.0)} mA"
    if unit in ("W", "VA") and abs(value) >= 1000.0:
        return f"{two_digits(value / 1000.0)} k{unit}"
    if unit == "":
        return f"{value:.0f}"  # a count
    if unit == "V":
        # whole volts: two digits of 103 V would hide the difference that matters
        return f"{value:.0f} V"
    return f"{two_digits(value)} {unit}".rstrip()


def plain_time(seconds: float) -> str:
    """`0.5 s`, `5 s`, `8 min`, `2 h`: at two significant digits, without a nought that says nothing."""
    value, unit = seconds, "s"
    if seconds >= 5400.0:
        value, unit = seconds / 3600.0, "h"
    elif seconds >= 100.0:
        value, unit = seconds / 60.0, "min"
    said = two_digits(value)
    return f"{said.rstrip('0').rstrip('.') if '.' in said else said} {unit}"


def as_marked(value: float, unit: str) -> str:
    """A rating as it is marked: `12.5 A`, `105 degC`, `2250 VA`; rounding a mark would make it untrue."""
    if unit == "A" and 0.0 < abs(value) < 0.1:
        return f"{value * 1000.0:g} mA"
    if unit == "V":
        return f"{value:.0f} V"
    return f"{round(value, 1):g} {unit}".rstrip()


def against(value: float, limit: float | None, unit: str) -> str:
    """A figure beside its limit: `just over 20 A` where both would print the same and differ."""
    said = with_unit(value, unit)
    if limit is None or value == limit:
        return said
    if abs(value - limit) > JUST * abs(limit) and said != with_unit(limit, unit):
        return said
    return f"just {'over' if value > limit else 'under'} {as_marked(limit, unit)}"


def and_list(names: list[str] | tuple[str, ...]) -> str:
    """`a, b and c`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
