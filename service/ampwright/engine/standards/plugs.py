"""Which plug fits which receptacle, and what does its designation promise?

Designations: NEMA WD 6 ("5-15P" plug, "5-15R" receptacle; "5-15" is both), CEE 7 ("CEE 7/3"), BS 1363 ("BS 1363"),
IEC 60309 ("IEC 60309 16 A 2P+E blue"; the trade's "IEC 60309 16 A blue" is the 2P+E one, red is 3P+N+E).
An adapter is no fit. Not here: what the circuit behind a receptacle may carry (receptacle_circuits.py).
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Literal

from ampwright.engine.standards.loader import table

Role = Literal["plug", "receptacle", "either"]
_NEMA = "nema-wd-6_configurations"
_CEE = "cee-7_configurations"
_BS = "bs-1363_configurations"
_PIN_AND_SLEEVE = "iec-60309-2_configurations"
_NEMA_FIT = "nema-wd-6_fit"
_CEE_FIT = "cee-7_fit"
_SHORT_PIN_AND_SLEEVE = re.compile(r"(IEC 60309 \d+ A) (yellow|blue|red)")
_USUAL_CONTACTS = {"yellow": "2P+E", "blue": "2P+E", "red": "3P+N+E"}


@dataclass(frozen=True, slots=True)
class Configuration:
    """One designation of a plug or receptacle.

    designation : as a person writes it. role : plug, receptacle, or either (the bare configuration).
    marked_voltages_v : [V] as marked: (125,), (250,), (125, 250) with neutral.
    current_a : [A] rated. poles, wires : current-carrying contacts, contacts with earth. locking : turns to lock.
    connection : line conductors it taps: L-N, L-L, L-L-N, L-L-L or L-L-L-N.
    has_neutral, has_earth : follow from the connection and the wires.
    citation, status : where it comes from and how sure.
    """

    designation: str
    role: Role
    marked_voltages_v: tuple[float, ...]
    current_a: float
    poles: int
    wires: int
    locking: bool
    connection: str
    citation: str
    status: str

    @property
    def has_neutral(self) -> bool:
        """Whether one pole is a neutral."""
        return self.connection.endswith("N")

    @property
    def has_earth(self) -> bool:
        """Whether one contact is the equipment ground (protective earth)."""
        return self.wires > self.poles

    @property
    def has_pilot(self) -> bool:
        """Whether a pilot contact makes last and breaks first (IEC 60309-2, from 63 A)."""
        return self.citation == _PIN_AND_SLEEVE and self.current_a >= 63.0

    @property
    def voltage_v(self) -> float:
        """[V] highest marked voltage between two of its contacts."""
        return max(self.marked_voltages_v)


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether a plug enters a receptacle, and which table says so."""

    fits: bool
    citation: str
    status: str


@cache
def _nema() -> tuple[Configuration, ...]:
    found: list[Configuration] = []
    for row in table(_NEMA):
        volts = tuple(float(part) for part in row.text("marked_v").split("/"))
        name = row.text("configuration")
        for designation, role in ((f"{name}P", "plug"), (f"{name}R", "receptacle"), (name, "either")):
            found.append(
                Configuration(
                    designation,
                    role,  # type: ignore[arg-type]
                    volts,
                    row.number("rated_a"),
                    int(row.number("poles")),
                    int(row.number("wires")),
                    row.text("locking") == "yes",
                    row.text("connection"),
                    _NEMA,
                    row.status,
                )
            )
    return tuple(found)


@cache
def _others() -> tuple[Configuration, ...]:
    found: list[Configuration] = []
    for key in (_CEE, _BS):
        for row in table(key):
            role: Role = row.text("role") if key == _CEE else "either"  # type: ignore[assignment]
            found.append(
                Configuration(
                    row.text("configuration"),
                    role,
                    (row.number("marked_v"),),
                    row.number("rated_a"),
                    int(row.number("poles")),
                    int(row.number("wires")),
                    False,
                    row.text("connection"),
                    key,
                    row.status,
                )
            )
    for row in table(_PIN_AND_SLEEVE):
        found.append(
            Configuration(
                f"IEC 60309 {row.text('rated_a')} A {row.text('contacts')} {row.text('colour')}",
                "either",
                (row.number("nominal_v"),),
                row.number("rated_a"),
                int(row.number("poles")),
                int(row.number("wires")),
                False,
                row.text("connection"),
                _PIN_AND_SLEEVE,
                row.status,
            )
        )
    return tuple(found)


@cache
def _by_designation() -> MappingProxyType[str, Configuration]:
    return MappingProxyType({found.designation: found for found in (*_nema(), *_others())})


@lru_cache(maxsize=1024)
def configuration(designation: str) -> Configuration | None:
    """The plug or receptacle with this designation, None when no standard here has it (offer `designations()`).

    "NEMA 5-15R" and "5-15R" are one; "IEC 60309 16 A blue" is the usual one of that colour.
    Source: NEMA WD 6, CEE 7, BS 1363, IEC 60309; see Configuration.citation.
    """
    wanted = designation.removeprefix("NEMA ")
    short = _SHORT_PIN_AND_SLEEVE.fullmatch(wanted)
    if short:
        wanted = f"{short[1]} {_USUAL_CONTACTS[short[2]]} {short[2]}"
    return _by_designation().get(wanted)


def designations(role: Role | None = None) -> tuple[str, ...]:
    """All designations, or those usable in a role, in the order of the tables. Source: see Configuration.citation."""
    return tuple(name for name, found in _by_designation().items() if role is None or found.role in (role, "either"))


def nominal_colour(voltage_v: float) -> str | None:
    """Colour of an IEC 60309 accessory for a voltage [V] at 50 or 60 Hz, None between ranges. Source: IEC 60309-1."""
    for row in table("iec-60309_colours"):
        low, high = row.number_or_none("voltage_from_v"), row.number_or_none("voltage_to_v")
        if low is not None and high is not None and low <= voltage_v <= high:
            return row.text("colour")
    return None


def earth_position_h(designation: str) -> int | None:
    """Clock hour of the earth contact of an IEC 60309 accessory, None for any other. Source: IEC 60309-2, memory."""
    wanted = configuration(designation)
    for row in table(_PIN_AND_SLEEVE):
        name = f"IEC 60309 {row.text('rated_a')} A {row.text('contacts')} {row.text('colour')}"
        if wanted is not None and wanted.designation == name:
            return int(row.number("earth_h"))
    return None


def _stem(found: Configuration) -> str:
    return found.designation[:-1] if found.citation == _NEMA and found.role != "either" else found.designation


def _name_as(found: Configuration, letter: str) -> str:
    return f"{_stem(found)}{letter}" if found.citation == _NEMA else found.designation


@lru_cache(maxsize=4096)
def fit(plug: str, receptacle: str) -> Fit | None:
    """Whether a plug enters a receptacle, None when either designation is unknown.

    A configuration enters its own; any other pair only where the table says yes. A cord's connector counts as a
    receptacle. Source: ANSI/NEMA WD 6, CEE 7, IEC 60309, BS 1363.
    """
    male, female = configuration(plug), configuration(receptacle)
    if male is None or female is None:
        return None
    # Between two systems only a plug made for both (none here) would fit, so either table may answer.
    key = _CEE_FIT if male.citation == _CEE else _NEMA_FIT
    if male.role == "receptacle" or female.role == "plug":
        return Fit(False, key, "verified")
    row = table(key).find(plug=_name_as(male, "P"), receptacle=_name_as(female, "R"))
    if row is not None:
        return Fit(row.text("fits") == "yes", key, row.status)
    if _stem(male) == _stem(female):
        return Fit(True, male.citation, male.status)
    return Fit(False, key, "verified" if male.citation == female.citation == _NEMA else "memory")


def fits(plug: str, receptacle: str) -> bool:
    """Whether a plug enters a receptacle; unknown designations do not fit. Source: see `fit`."""
    found = fit(plug, receptacle)
    return found is not None and found.fits


def receptacles_for(plug: str) -> tuple[str, ...]:
    """Receptacle designations a plug enters, in the order of the tables. Source: see `fit`."""
    return tuple(name for name in designations("receptacle") if fits(plug, name))
