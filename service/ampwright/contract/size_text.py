"""Which conductor size does a text such as "12 AWG" or "2.5 mm2" name?

A size is a key of the tables, no quantity: there is no 13.5 AWG, and "12/3" is a size and a count of conductors.
"""

from __future__ import annotations

import re

from ampwright.contract.quantities import QuantityFault
from ampwright.engine.site.nearest import shown
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes

_GAUGE = re.compile(r"([0-9]{1,2})(/0)? AWG", re.ASCII)
_METRIC = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,2})?) mm2", re.ASCII)
# "12/3", "12-3 SOOW", "12/3 AWG", "14 AWG/3": gauge, then conductors
_GAUGE_AND_COUNT = re.compile(
    r"#?([0-9]{1,2})(?: ?AWG)? ?[/\-xX] ?([2-5])(?: ?(?:AWG|ga|gauge))?(?: [A-Z]{1,8})?", re.ASCII
)
_LOOSE_GAUGE = re.compile(r"#? ?([0-9]{1,2}(?:/0)?)[ \-]?(?:awg|ga\.?|gauge|g)?", re.ASCII | re.IGNORECASE)
# "3G2.5", "3 x 2.5 mm2", "3x1,5": conductors, then area
_COUNT_AND_AREA = re.compile(r"([2-5]) ?[xXgG] ?([0-9]{1,3}(?:[.,][0-9]{1,2})?)(?: ?mm(?:2|\^2)?)?", re.ASCII)
_LOOSE_AREA = re.compile(r"([0-9]{1,3}(?:[.,][0-9]{1,2})?) ?(?:mm|sqmm|sq mm|qmm|mm\^?2)", re.ASCII | re.IGNORECASE)


def read_size(text: str) -> str:
    """The key of the tables that `text` names. Raises QuantityFault (codes not_a_size, unknown_size)."""
    if conductor_size(text) is not None:
        return text
    if match := _METRIC.fullmatch(text):
        name = f"{float(match[1]):g} mm2"  # "1.0 mm2" is "1 mm2"
        if conductor_size(name) is not None:
            return name
        raise _not_made(text, name)
    if _GAUGE.fullmatch(text):
        raise _not_made(text, text)
    raise _explain(text)


def _not_made(text: str, name: str) -> QuantityFault:
    made = _neighbours(name)
    return QuantityFault(
        "unknown_size", f"{shown(text)} is no made size; the nearest are {' and '.join(made)}.", made[0]
    )


def _neighbours(name: str) -> tuple[str, ...]:
    """Made sizes next to one that is not made, the thinner first: a guess must not make a cord better than it is."""
    if name.endswith(" mm2"):
        areas = [size for size in sizes() if size.endswith(" mm2")]
        wanted = float(name.removesuffix(" mm2"))
        thinner = [size for size in areas if float(size.removesuffix(" mm2")) < wanted]
        thicker = [size for size in areas if float(size.removesuffix(" mm2")) > wanted]
        return tuple(thinner[-1:] + thicker[:1])
    number = name.removesuffix(" AWG")
    gauges = [size for size in sizes() if size.endswith(" AWG")]  # thin before thick
    if number.endswith("/0"):
        zeros = f"{int(number.removesuffix('/0'))}/0 AWG"
        return (zeros,) if zeros in gauges else (gauges[-1],)
    plain = int(number)
    if plain == 0:
        return ("1/0 AWG",)
    if f"{plain} AWG" in gauges:  # "04 AWG" may be 4 or 4/0
        return (f"{plain} AWG", *(size for size in (f"{plain}/0 AWG",) if size in gauges))
    return (gauges[0],)


def _explain(text: str) -> QuantityFault:
    expected = "Write a size such as '12 AWG' or '2.5 mm2'."
    plain = text[:32].strip().replace("mm\u00b2", "mm2")
    if match := _GAUGE_AND_COUNT.fullmatch(plain):
        name = f"{int(match[1])} AWG"
        return QuantityFault(
            "not_a_size",
            f"{shown(text)} is a size and a count: write size {name!r} and conductors {match[2]}.",
            name if conductor_size(name) else None,
        )
    if match := _COUNT_AND_AREA.fullmatch(plain):
        name = f"{float(match[2].replace(',', '.')):g} mm2"
        return QuantityFault(
            "not_a_size",
            f"{shown(text)} is a count and a size: write size {name!r} and conductors {match[1]}.",
            name if conductor_size(name) else None,
        )
    if re.fullmatch(r"[0-9.,]+", plain):
        return QuantityFault("unit_missing", f"{shown(text)} could be AWG or mm2. {expected}")
    if match := _LOOSE_AREA.fullmatch(plain):
        name = f"{float(match[1].replace(',', '.')):g} mm2"
        return QuantityFault(
            "not_a_size",
            f"{shown(text)} is not written as this field asks. {expected}",
            name if conductor_size(name) else None,
        )
    if match := _LOOSE_GAUGE.fullmatch(plain):
        name = f"{match[1].lstrip('0') or '0'} AWG"
        return QuantityFault(
            "not_a_size",
            f"{shown(text)} is not written as this field asks. {expected}",
            name if conductor_size(name) else None,
        )
    return QuantityFault("not_a_size", f"{shown(text)} is no conductor size. {expected}")
