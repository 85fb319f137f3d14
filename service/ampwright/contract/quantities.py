"""Which strings with a unit does the contract accept, and what are they in SI?

A figure that a person reads off a plate or a tape is one string: `"15 A"`, `"14..17 A"` (low and high),
`"14..15..17 A"` (low, typical, high) or `">=15 A"` (a meter over its range). A bare number is refused, because
guessing a unit is how a welder's 220 A output becomes a supply current. Each dimension publishes its pattern in the
schema; reading happens in the content pass, so that all faults come at once.

Factors come from pint once, at import. Pint has no var and turns VA into W without a word, so a dimension lists the
labels it accepts and never asks pint whether two units agree.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Annotated, Any

import msgspec
import pint

from ampwright.engine.site.band import Band

_PINT: Any = pint.UnitRegistry(cache_folder=None)

NUMBER = r"[0-9]{1,9}(?:\.[0-9]{1,6})?"
LONGEST_QUANTITY = 48  # characters


@dataclass(frozen=True, slots=True)
class Quantity:
    """What one string said, in SI; `unit` is the label as entered, so that capacity keeps A, W and VA apart."""

    band: Band
    unit: str


class QuantityFault(ValueError):
    """A string that is no quantity of its dimension; carries what to write instead where that is plain."""

    def __init__(self, code: str, message: str, did_you_mean: str | None = None) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.did_you_mean = did_you_mean


@dataclass(frozen=True, slots=True, eq=False)
class Dimension:
    """One kind of figure: accepted unit labels, their pint names, the SI unit and the bounds of a plausible value."""

    name: str
    si_unit: str
    units: dict[str, str]  # label -> pint expression
    lowest: float
    highest: float
    example: str
    signed: bool = False
    factors: dict[str, tuple[float, float]] = field(init=False, default_factory=dict)  # label -> (factor, offset)
    accepted: re.Pattern[str] = field(init=False)

    def __post_init__(self) -> None:
        accepted = rf"(>=)?({self.number}(?:\.\.{self.number}){{0,2}}) ({self.labels})"
        object.__setattr__(self, "accepted", re.compile(accepted, re.ASCII))
        for label, expression in self.units.items():
            if self.si_unit == "degC":
                zero = _PINT.Quantity(0.0, expression).to("degC").magnitude
                one = _PINT.Quantity(1.0, expression).to("degC").magnitude
                self.factors[label] = (float(one - zero), float(zero))
            else:
                self.factors[label] = (float(_PINT.parse_expression(expression).to_base_units().magnitude), 0.0)

    @property
    def number(self) -> str:
        return ("-?" if self.signed else "") + NUMBER

    @property
    def range(self) -> str:
        """What is taken for plausible, in words; a share is told in percent, as it is written."""
        scale, unit = (100.0, "%") if self.si_unit == "-" else (1.0, self.si_unit)
        return f"from {scale * self.lowest:,.10g} to {scale * self.highest:,.10g} {unit}"

    @property
    def labels(self) -> str:
        return "|".join(re.escape(label) for label in sorted(self.units, key=lambda u: (-len(u), u)))

    @property
    def pattern(self) -> str:
        """What the schema publishes; `$(?!\\n)` because a bare `$` lets a trailing newline through in Python."""
        return rf"^(?:>={self.number}|{self.number}(?:\.\.{self.number}){{0,2}}) (?:{self.labels})$(?!\n)"


CURRENT = Dimension("current", "A", {"A": "ampere", "mA": "milliampere"}, 0.0, 10_000.0, "15 A")
POWER = Dimension(
    "power",
    "W",
    {"W": "watt", "kW": "kilowatt", "hp": "horsepower", "metric_hp": "metric_horsepower"},
    0.0,
    1e7,
    "1650 W",
)
APPARENT_POWER = Dimension("apparent power", "VA", {"VA": "volt*ampere", "kVA": "kilovolt*ampere"}, 0.0, 1e7, "4000 VA")
CAPACITY = Dimension(
    "capacity",
    "A, W or VA",
    {"A": "ampere", "W": "watt", "kW": "kilowatt", "VA": "volt*ampere", "kVA": "kilovolt*ampere"},
    0.0,
    1e7,
    "4000 VA",
)
VOLTAGE = Dimension("voltage", "V", {"V": "volt"}, 0.0, 1_000.0, "120 V")
DURATION = Dimension(
    "duration", "s", {"s": "second", "ms": "millisecond", "min": "minute", "h": "hour"}, 0.0, 1e7, "5 s"
)
LENGTH = Dimension(
    "length", "m", {"m": "meter", "cm": "centimeter", "ft": "foot", "in": "inch", "yd": "yard"}, 0.0, 100_000.0, "50 ft"
)
TEMPERATURE = Dimension("temperature", "degC", {"degC": "degC", "degF": "degF"}, -90.0, 300.0, "25 degC", signed=True)
RESISTANCE = Dimension("resistance", "ohm", {"ohm": "ohm", "mohm": "milliohm"}, 0.0, 10_000.0, "0.1 ohm")
SOURCE_RESISTANCE = Dimension(
    "source resistance",
    "ohm or pu",
    {"ohm": "ohm", "mohm": "milliohm", "pu": "dimensionless"},
    0.0,
    1_000.0,
    "0.1 ohm",
)
PER_UNIT = Dimension("per-unit value", "pu", {"pu": "dimensionless"}, 0.0, 100.0, "0.18 pu")
ENERGY = Dimension("energy", "J", {"Wh": "watt*hour", "kWh": "kilowatt*hour", "MJ": "megajoule"}, 0.0, 1e12, "68 kWh")
ENERGY_PER_DISTANCE = Dimension(
    "energy per distance",
    "J/m",
    {
        "Wh/km": "watt*hour/kilometer",
        "Wh/mi": "watt*hour/mile",
        "kWh/100km": "kilowatt*hour/(100*kilometer)",
        "kWh/100mi": "kilowatt*hour/(100*mile)",
    },
    0.0,
    1e5,
    "220 Wh/km",
)
VOLUME = Dimension(
    "volume", "m3", {"l": "liter", "gal_us": "gallon", "gal_imp": "imperial_gallon"}, 0.0, 1_000.0, "24 l"
)
ANGLE = Dimension("angle", "rad", {"deg": "degree"}, -7.0, 7.0, "180 deg", signed=True)

DIMENSIONS = (
    CURRENT,
    POWER,
    APPARENT_POWER,
    CAPACITY,
    VOLTAGE,
    DURATION,
    LENGTH,
    TEMPERATURE,
    RESISTANCE,
    SOURCE_RESISTANCE,
    PER_UNIT,
    ENERGY,
    ENERGY_PER_DISTANCE,
    VOLUME,
    ANGLE,
)


def _wire(dimension: Dimension, says: str = "") -> Any:
    units = ", ".join(dimension.units)
    return msgspec.Meta(
        max_length=LONGEST_QUANTITY,
        description=f"{says or dimension.name.capitalize()} with its unit ({units}): one value, `low..high`, "
        f"`low..typical..high`, or `>=value` for a meter over its range; {dimension.range}.",
        examples=[dimension.example],
        extra_json_schema={"pattern": dimension.pattern},
    )


CurrentText = Annotated[str, _wire(CURRENT)]
PowerText = Annotated[str, _wire(POWER)]
ApparentPowerText = Annotated[str, _wire(APPARENT_POWER)]
CapacityText = Annotated[str, _wire(CAPACITY)]
VoltageText = Annotated[str, _wire(VOLTAGE)]
DurationText = Annotated[str, _wire(DURATION)]
LengthText = Annotated[str, _wire(LENGTH)]
TemperatureText = Annotated[str, _wire(TEMPERATURE)]
ResistanceText = Annotated[str, _wire(RESISTANCE)]
SourceResistanceText = Annotated[str, _wire(SOURCE_RESISTANCE)]
PerUnitText = Annotated[str, _wire(PER_UNIT)]
EnergyText = Annotated[str, _wire(ENERGY)]
EnergyPerDistanceText = Annotated[str, _wire(ENERGY_PER_DISTANCE)]
VolumeText = Annotated[str, _wire(VOLUME)]
AngleText = Annotated[str, _wire(ANGLE)]


# The same few hundred texts come again in every request, and a profile of reading is mostly this function.
@lru_cache(maxsize=8192)
def read_quantity(text: str, dimension: Dimension, *, above_zero: bool = False) -> Quantity:
    """The SI band of one string.

    Raises QuantityFault with a code of contract/fault_codes and, where a person plainly meant something else,
    `did_you_mean`. One value gives three equal figures; `low..high` puts typical at the mean; `>=value` leaves
    the top open (`Band.open_top`).
    """
    match = dimension.accepted.fullmatch(text)
    if match is None or (match[1] and ".." in match[2]):
        raise _explain(text, dimension)
    factor, offset = dimension.factors[match[3]]
    values = [float(part) * factor + offset for part in match[2].split("..")]
    if values != sorted(values):
        raise QuantityFault("band_out_of_order", f"{text!r}: write the band from low to high.")
    if values[-1] > dimension.highest or values[0] < dimension.lowest:
        raise QuantityFault("out_of_range", f"{text!r} is not a plausible {dimension.name}.")
    if above_zero and values[0] <= 0.0:
        raise QuantityFault("not_above_zero", f"{text!r}: this {dimension.name} must be above zero.")
    if match[1]:
        return Quantity(Band(values[0], values[0], values[0], open_top=True), match[3])
    if len(values) == 2:
        values.insert(1, 0.5 * (values[0] + values[1]))
    return Quantity(Band(values[0], values[len(values) // 2], values[-1]), match[3])


# What people write, and the label of ours that says it. Keys are lower case.
_HABITS = {
    "amp": "A",
    "amps": "A",
    "ampere": "A",
    "amperes": "A",
    "watt": "W",
    "watts": "W",
    "volt": "V",
    "volts": "V",
    "vac": "V",
    "vdc": "V",
    "hp": "hp",
    "ps": "metric_hp",
    "cv": "metric_hp",
    "'": "ft",
    "foot": "ft",
    "feet": "ft",
    '"': "in",
    "inch": "in",
    "inches": "in",
    "metre": "m",
    "meter": "m",
    "metres": "m",
    "meters": "m",
    "sec": "s",
    "secs": "s",
    "second": "s",
    "seconds": "s",
    "minute": "min",
    "minutes": "min",
    "mins": "min",
    "hr": "h",
    "hrs": "h",
    "hour": "h",
    "hours": "h",
    "c": "degC",
    "°c": "degC",
    "f": "degF",
    "°f": "degF",
    "ω": "ohm",
    "ohms": "ohm",
    "kva": "kVA",
    "va": "VA",
    "kw": "kW",
    "w": "W",
    "a": "A",
    "v": "V",
    "ma": "mA",
    "wh": "Wh",
    "kwh": "kWh",
    "mj": "MJ",
    "liter": "l",
    "litre": "l",
    "liters": "l",
    "litres": "l",
    "gal": "gal_us",
    "gallon": "gal_us",
    "gallons": "gal_us",
    "°": "deg",
    "degrees": "deg",
}
_MIXED = re.compile(r"(?P<whole>[0-9]{1,4})[- ](?P<top>[0-9]{1,3})/(?P<bottom>[1-9][0-9]{0,2})(?P<rest>.*)", re.ASCII)
_FRACTION = re.compile(r"(?P<top>[0-9]{1,3})/(?P<bottom>[1-9][0-9]{0,2}) ?(?P<rest>[a-zA-Z].*)", re.ASCII)
_UNIT_TWICE = re.compile(
    r"(?P<first>-?[0-9][0-9.]*) ?(?P<unit>[a-zA-Z'\"%]{1,20}) ?(?:\.\.|-|to) ?(?P<rest>-?[0-9].*)", re.ASCII
)
_LOOSE = re.compile(r"(?P<number>-?[0-9][0-9.,]*)\s*(?P<unit>[a-zA-Z'\"%].{0,20})?", re.ASCII)


def _explain(text: str, dimension: Dimension) -> QuantityFault:
    """Why a string was refused, and what was probably meant."""
    shown = text if len(text) <= LONGEST_QUANTITY else text[:LONGEST_QUANTITY] + "..."
    accepted = ", ".join(dimension.units)
    expected = f"Write a {dimension.name} such as {dimension.example!r} (units: {accepted})."
    plain = text.strip()
    if not plain.isascii():
        return QuantityFault("not_a_quantity", f"{shown!r} holds characters outside ASCII. {expected}")
    if plain != text:
        guess = plain if _fits(plain, dimension) else None
        return QuantityFault("not_a_quantity", f"{shown!r} has white space around it. {expected}", guess)
    for pattern in (_MIXED, _FRACTION):
        if match := pattern.fullmatch(plain):
            parts = match.groupdict()
            if "whole" not in parts and int(parts["top"]) >= int(parts["bottom"]):
                # "16/8 A" on a plate is one figure for each of two voltages, and no 2 A
                return QuantityFault("two_figures", f"{shown!r} holds two figures; write the one meant. {expected}")
            value = float(parts.get("whole") or 0) + float(parts["top"]) / float(parts["bottom"])
            guess = _with_unit(f"{value:g}", parts["rest"].strip(), dimension)
            return QuantityFault("fraction", f"{shown!r}: write fractions as a decimal. {expected}", guess)
    if (match := _UNIT_TWICE.fullmatch(plain)) and (end := _LOOSE.fullmatch(match["rest"])):
        label = _label(match["unit"], dimension)
        same = label and label == _label((end["unit"] or "").strip(), dimension)
        guess = _with_unit(f"{match['first']}..{end['number']}", label, dimension) if same else None
        return QuantityFault("not_a_quantity", f"{shown!r}: write the unit once, behind the band. {expected}", guess)
    match = _LOOSE.fullmatch(plain)
    if match is None:
        return QuantityFault("not_a_quantity", f"{shown!r} is no {dimension.name}. {expected}")
    number, unit = match["number"], (match["unit"] or "").strip()
    if not unit:
        guess = f"{number} {next(iter(dimension.units))}" if len(dimension.units) == 1 else None
        return QuantityFault("unit_missing", f"{shown!r} has no unit. {expected}", guess)
    if "," in number:
        thousands = re.fullmatch(r"[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?", number)
        # "1,5" is one and a half where the comma is the decimal mark; "1,800" could be either, so no guess is made
        guess = None if thousands else _with_unit(number.replace(",", ".", 1), unit, dimension)
        return QuantityFault(
            "comma_in_number", f"{shown!r}: use a point for decimals and no separators. {expected}", guess
        )
    if not _label(unit, dimension):
        return QuantityFault("wrong_unit", f"{shown!r}: {unit!r} is no unit of {dimension.name}. {expected}")
    if number.startswith("-") and not dimension.signed:
        return QuantityFault("out_of_range", f"{shown!r}: a {dimension.name} is not negative. {expected}")
    guess = _with_unit(number, unit, dimension)
    return QuantityFault("not_a_quantity", f"{shown!r} is not written as this field asks. {expected}", guess)


def _label(unit: str, dimension: Dimension) -> str:
    """The accepted label that `unit` plainly means, empty where it means none."""
    label = unit if unit in dimension.units else _HABITS.get(unit.lower(), "")
    if label in dimension.units:
        return label
    close = difflib.get_close_matches(unit, list(dimension.units), n=1, cutoff=0.75)
    return close[0] if close else ""


def _with_unit(number: str, unit: str, dimension: Dimension) -> str | None:
    label = _label(unit, dimension)
    guess = f"{number} {label}"
    return guess if label and _fits(guess, dimension) else None


def _fits(text: str, dimension: Dimension) -> bool:
    return re.fullmatch(dimension.pattern[1:].removesuffix(r"$(?!\n)"), text, re.ASCII) is not None
