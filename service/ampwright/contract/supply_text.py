"""Which supply system does a nominal voltage such as "120/240 V" name?

Source: nominal voltages of IEC 60038 and ANSI C84.1; the ratio of two voltages tells two opposite legs (2) from three
legs at 120 degrees (square root of 3), within the 3 % that nominal figures are rounded by (230/400, 277/480, 220/380).
"""

from __future__ import annotations

import math
import re
from functools import lru_cache

from ampwright.contract.document_parts import SUPPLY_PATTERN
from ampwright.contract.quantities import QuantityFault
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.source import SupplySystem

RATIO_TOLERANCE = 0.03
LOWEST_AC_V = 50.0  # below this a bare voltage could be either, and the trade's sources below it are batteries
HIGHEST_AC_V = 1000.0  # low voltage by IEC 60038
HIGHEST_DC_V = 999.0
LOWEST_DC_V = 10.0
HIGHEST_HALF_V = 64.0  # reduced low voltage: 55-0-55 and below, IEC 61140 and BS 7671 section 411.8

_OPPOSITE = (0.0, math.pi)
_THREE = (0.0, -2.0 * math.pi / 3.0, 2.0 * math.pi / 3.0)
_FORM = re.compile(SUPPLY_PATTERN.removesuffix(r"$(?!\n)").removeprefix("^"), re.ASCII)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?", re.ASCII)

UNREAD = SupplySystem("", "unread", 0.0, _THREE)
"""Stands where the voltage could not be read, so that the other faults are still found. Never calculated."""


@lru_cache(maxsize=1024)
def read_supply(text: str, *, of_tool: bool = False, both_voltages: bool = False) -> SupplySystem:
    """The supply system that `text` names.

    of_tool : whether it is a tool's supply option, where "115/230 V" means either of two, not both.
    both_voltages : whether the tool's plug has two legs and a neutral, so that it may really take both.
    Raises QuantityFault (codes not_a_supply, supply_ratio, supply_ambiguous, dual_voltage, out_of_range).
    """
    if _FORM.fullmatch(text) is None:
        raise QuantityFault("not_a_supply", f"{shown(text)} names no supply. {_EXPECTED}", _usual_writing(text))
    values = [float(number) for number in _NUMBER.findall(text)]
    if text.endswith(" DC"):
        return _direct(text, values[0])
    if "-0-" in text:
        return _centre_tapped(text, values[0], values[2])
    if len(values) == 1:
        return _single(text, values[0])
    low, high = min(values), max(values)
    ratio = high / low if low > 0.0 else math.inf
    _bounded(text, low, LOWEST_AC_V, HIGHEST_AC_V)
    if abs(ratio / math.sqrt(3.0) - 1.0) <= RATIO_TOLERANCE and not ("Y" in text and values[0] < values[1]):
        return SupplySystem(text, "three_phase", low, _THREE)
    if abs(ratio / 2.0 - 1.0) <= RATIO_TOLERANCE and "Y" not in text:
        if of_tool and not both_voltages:
            raise QuantityFault(
                "dual_voltage",
                f"{shown(text)}: a tool that takes either voltage has two supply options, '{low:g} V' and "
                f"'{high:g} V', each with its own current and plug.",
                f"{low:g} V",
            )
        return SupplySystem(text, "split_phase", low, _OPPOSITE)
    raise QuantityFault(
        "supply_ratio",
        f"{shown(text)}: {high:g} V is neither twice {low:g} V (two legs) nor 1.73 times it (three legs).",
        _usual_pair(values),
    )


_EXPECTED = "Write '120 V', '120/240 V', '208Y/120 V', '230/400 V', '55-0-55 V' or '48 V DC'."


def _bounded(text: str, value: float, lowest: float, highest: float) -> None:
    if not lowest <= value <= highest:
        raise QuantityFault("out_of_range", f"{shown(text)}: supplies from {lowest:g} V to {highest:g} V are covered.")


def _direct(text: str, value: float) -> SupplySystem:
    _bounded(text, value, LOWEST_DC_V, HIGHEST_DC_V)
    return SupplySystem(text, "dc", value, (0.0,))


def _single(text: str, value: float) -> SupplySystem:
    if LOWEST_DC_V <= value < LOWEST_AC_V:
        raise QuantityFault(
            "supply_ambiguous",
            f"{shown(text)}: alternating supplies below {LOWEST_AC_V:g} V are not covered; write '{value:g} V DC' for "
            f"direct current.",
            f"{value:g} V DC",
        )
    _bounded(text, value, LOWEST_AC_V, HIGHEST_AC_V)
    return SupplySystem(text, "single", value, (0.0,))


def _centre_tapped(text: str, one: float, other: float) -> SupplySystem:
    if one != other:
        raise QuantityFault(
            "supply_ratio", f"{shown(text)}: both halves of a centre-tapped supply are equal.", f"{one:g}-0-{one:g} V"
        )
    if one > HIGHEST_HALF_V:
        raise QuantityFault(
            "out_of_range",
            f"{shown(text)}: a centre tap that is earthed and feeds nothing is reduced low voltage, to "
            f"{HIGHEST_HALF_V:g} V. Two legs with a neutral are written '120/240 V'.",
            f"{one:g}/{2.0 * one:g} V" if 2.0 * one <= 999.0 else None,
        )
    _bounded(text, one, LOWEST_DC_V, HIGHEST_HALF_V)
    return SupplySystem(text, "centre_tapped", one, _OPPOSITE)


def _usual_pair(values: list[float]) -> str | None:
    for pair in ("120/240 V", "208Y/120 V", "230/400 V", "480Y/277 V", "100/200 V"):
        low, high = sorted(float(number) for number in _NUMBER.findall(pair))
        if abs(min(values) / low - 1.0) <= 0.1 and abs(max(values) / high - 1.0) <= 0.1:
            return pair
    return None


def _usual_writing(text: str) -> str | None:
    """`text` as the contract writes it, where it is plain what is meant."""
    plain = text[:32].strip()
    if not plain.isascii():
        return None
    is_dc = re.search(r"dc|vdc", plain, re.IGNORECASE) is not None
    plain = re.sub(r"\s*(v\s*ac|v\s*dc|vac|vdc|volts?|ac|dc|v|~)\s*", " ", plain, flags=re.IGNORECASE).strip()
    compact = re.sub(r"\s+", "", plain).upper()
    number = r"[0-9]{2,3}(?:\.[0-9])?"
    if re.fullmatch(number, compact):
        guess = f"{compact} V DC" if is_dc else f"{compact} V"
    elif re.fullmatch(rf"{number}Y?/{number}|[0-9]{{2,3}}-0-[0-9]{{2,3}}", compact):
        guess = f"{compact} V"
    elif match := re.fullmatch(r"([0-9]{2,3})/([0-9]{3})Y", compact):
        guess = f"{match[2]}Y/{match[1]} V"
    else:
        return None
    return guess if _FORM.fullmatch(guess) else None
