"""What does the engine make of a cord as it is written? Every member by name, figures in SI."""

from __future__ import annotations

from functools import cache

from msgspec import UNSET, UnsetType

from ampwright.contract import cord_members as wire
from ampwright.contract.load_checks import CordInUse
from ampwright.contract.quantities import CURRENT, LENGTH, TEMPERATURE, QuantityFault
from ampwright.contract.reading import Reading, given
from ampwright.contract.size_text import read_size
from ampwright.engine.site import cord as site
from ampwright.engine.standards.cord_ratings import cord_types

_cord_types = cache(cord_types)


def read_cord(cord: wire.CordMembers, reading: Reading, at: str, name: str = "") -> site.Cord:
    """The cord at `at`; `name` is its id where it is a document and no part of a request."""
    in_use = cord if isinstance(cord, CordInUse) else None
    return site.Cord(
        id=in_use.id if in_use else name,
        pointer=reading.place(at),
        name=given(cord.name),
        length_m=reading.band(cord.length, LENGTH, f"{at}/length"),
        size=_size(cord.size, reading, f"{at}/size"),
        conductors=given(cord.conductors),
        type=reading.listed(cord.type, _cord_types(), f"{at}/type", "unknown_cord_type", "cord type"),
        insulation_temperature_c=reading.band(cord.insulation_temperature, TEMPERATURE, f"{at}/insulation_temperature"),
        marked_a=reading.band(cord.marked, CURRENT, f"{at}/marked"),
        plug=reading.plug(cord.plug, f"{at}/plug"),
        plug_state=given(cord.plug_state),
        outlets=_outlets(cord.outlets, reading, f"{at}/outlets"),
        laid=given(in_use.laid) if in_use else None,
        drum_layers=given(in_use.drum_layers) if in_use else None,
        led_through=given(in_use.led_through) if in_use else None,
    )


def _size(text: str | UnsetType, reading: Reading, at: str) -> str | None:
    if text is UNSET or reading.full:
        return None
    try:
        return read_size(text)
    except QuantityFault as error:
        reading.refuse(at, error)
        return None


def _outlets(outlets: wire.CordOutlets | UnsetType, reading: Reading, at: str) -> site.CordOutlets | None:
    if outlets is UNSET:
        return None
    return site.CordOutlets(
        type=reading.receptacle(outlets.type, f"{at}/type"),
        rating_a=reading.band(outlets.rating, CURRENT, f"{at}/rating"),
        count=given(outlets.count),
        state=given(outlets.state),
    )
