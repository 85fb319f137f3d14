"""How are the texts of a request read so that all faults come at once?

A `Reading` collects what could not be read and goes on. Where something could not be read its figure is None, which is
"unknown"; a site with faults must not be calculated.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TypeVar

from msgspec import UNSET, UnsetType

from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.quantities import Dimension, Quantity, QuantityFault, read_quantity
from ampwright.engine.site.band import Band
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.source import Capacity
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import MOST_FAULTS
from ampwright.engine.standards.plugs import Role, configuration, designations

_T = TypeVar("_T")
_CAPACITY_UNITS = {"A": "A", "W": "W", "kW": "W", "VA": "VA", "kVA": "VA"}
_RESISTANCE_UNITS = {"ohm": "ohm", "mohm": "ohm", "pu": "pu"}


class Reading:
    """One pass over one request or document."""

    def __init__(self, places: Places = AS_SENT) -> None:
        self.places = places
        self._faults: list[Fault] = []

    @property
    def faults(self) -> tuple[Fault, ...]:
        return tuple(self._faults)

    @property
    def full(self) -> bool:
        """Whether so much is wrong that explaining more would only cost time."""
        return len(self._faults) >= MOST_FAULTS

    def place(self, pointer: str) -> str:
        """Where the part at `pointer` of the resolved request lies in the request as sent."""
        return self.places.of(pointer)

    def fault(self, pointer: str, code: str, message: str, did_you_mean: str | None = None) -> None:
        if not self.full:
            self._faults.append(Fault(self.place(pointer), code, message, did_you_mean))

    def refuse(self, pointer: str, error: QuantityFault) -> None:
        self.fault(pointer, error.code, error.message, error.did_you_mean)

    def quantity(
        self, text: str | UnsetType, dimension: Dimension, pointer: str, *, above_zero: bool = True
    ) -> Quantity | None:
        """The quantity in `text`, None where it is omitted or could not be read."""
        if text is UNSET or self.full:
            return None
        try:
            return read_quantity(text, dimension, above_zero=above_zero)
        except QuantityFault as error:
            self.refuse(pointer, error)
            return None

    def band(
        self, text: str | UnsetType, dimension: Dimension, pointer: str, *, above_zero: bool = True
    ) -> Band | None:
        """The band in SI, None where it is omitted or could not be read."""
        found = self.quantity(text, dimension, pointer, above_zero=above_zero)
        return None if found is None else found.band

    def capacity(self, text: str | UnsetType, dimension: Dimension, pointer: str) -> Capacity | None:
        """An amount with A, W or VA kept apart."""
        found = self.quantity(text, dimension, pointer)
        return None if found is None else Capacity(found.band, _CAPACITY_UNITS[found.unit])

    def resistance(self, text: str | UnsetType, dimension: Dimension, pointer: str) -> tuple[Band, str] | None:
        """A resistance with ohm and per unit kept apart."""
        found = self.quantity(text, dimension, pointer, above_zero=False)
        return None if found is None else (found.band, _RESISTANCE_UNITS[found.unit])

    def listed(self, text: str | UnsetType, known: tuple[str, ...], pointer: str, code: str, what: str) -> str | None:
        """A text that must be one of a list."""
        if text is UNSET or text in known:
            return given(text)
        if not self.full:
            plain = text.strip().casefold().replace(" ", "-" if any("-" in name for name in known) else "_")
            hint = plain if plain in known else _of_which_it_is_part(plain, known) or nearest(plain, known)
            self.fault(pointer, code, f"{shown(text)} is no {what}; there are {listing(known)}.", hint)
        return None

    def plug(self, text: str | UnsetType, pointer: str) -> str | None:
        """A plug's designation, as its standard writes it."""
        return self._configuration(text, pointer, "plug", "receptacle")

    def receptacle(self, text: str | UnsetType, pointer: str) -> str | None:
        """The designation of a receptacle or a cord's connector, as its standard writes it."""
        return self._configuration(text, pointer, "receptacle", "plug")

    def _configuration(self, text: str | UnsetType, pointer: str, role: Role, other: Role) -> str | None:
        if text is UNSET or self.full:
            return None
        found = configuration(text)
        if found is not None and found.designation in _usable(role):
            return found.designation
        hint = _usual_writing(text, role)
        if found is not None and found.role == other:
            message = f"{shown(text)} is a {other}, and a {role} belongs here."
            self.fault(pointer, f"{other}_where_{role}_belongs", message, hint)
        else:
            message = (
                f"{shown(text)} is no {role} of NEMA WD 6 (5-20{role[0].upper()}), CEE 7, BS 1363 or IEC 60309 "
                f"(IEC 60309 16 A 2P+E blue) that is known here."
            )
            self.fault(pointer, f"unknown_{role}_type", message, hint)
        return None


@cache
def _usable(role: Role) -> frozenset[str]:
    """Designations that stand for one thing in this role: of "5-20" and "5-20R" only the latter does."""
    letter = role[0].upper()
    names = frozenset(designations(role))
    return frozenset(name for name in names if f"{name}{letter}" not in names)


def given(value: _T | UnsetType) -> _T | None:
    """A member as the engine keeps it: None where it is omitted."""
    return None if value is UNSET else value


def _of_which_it_is_part(plain: str, known: tuple[str, ...]) -> str | None:
    """The one listed name that has `plain` as one of its words: "compressor" is an air compressor."""
    holding = [name for name in known if plain in name.replace("-", "_").split("_")]
    return holding[0] if len(holding) == 1 else None


def _usual_writing(text: str, role: Role) -> str | None:
    """The designation in this role that `text` probably means."""
    plain = re.sub(r"\s+", " ", text[:64].strip().upper())
    plain = re.sub(r"^(NEMA|TYPE|PLUG|RECEPTACLE) ?", "", plain).strip()
    by_upper = {name.upper(): name for name in sorted(_usable(role))}
    letter = role[0].upper()
    stem = plain.removesuffix(" ").rstrip("PR") if re.fullmatch(r"(L|TT-?)?[0-9]{0,2}-?[0-9]{2}[PR]?", plain) else plain
    for guess in (f"{stem}{letter}", plain, *_MATES.get(plain, ())):
        if guess in by_upper:
            return by_upper[guess]
    return nearest(plain, _usable(role))


_MATES = {
    "CEE 7/3": ("CEE 7/4",),
    "CEE 7/4": ("CEE 7/3",),
    "CEE 7/5": ("CEE 7/6",),
    "CEE 7/6": ("CEE 7/5",),
    "CEE 7/7": ("CEE 7/3",),
    "CEE 7/16": ("CEE 7/3",),
    "CEE 7/17": ("CEE 7/3",),
}
