"""What was seen of a source unit, against what it is marked; and which marks count lower for it?

Capacity is taken from the lower of label and evidence. Only a trip or a shut-down below the mark lowers it: what held,
however much it was, raises nothing. The lower mark is sent as a correction beside the unit, so that the row's load
check can be posted alone.
Source: practice of the trade; a trip above the mark is what a device is for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from msgspec import UNSET, structs

from ampwright.contract.documents import Observation
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.power_source_members import CatalogueSource, Receptacle
from ampwright.contract.quantities import CURRENT, QuantityFault, read_quantity
from ampwright.engine.site.source import PowerSource
from ampwright.studies.references import Reference

LOWERS = ("tripped", "shut_down")


@dataclass(frozen=True, slots=True)
class Seen:
    """One observation; marked_a and seen_a : [A] typical mark of its receptacle and low estimate of what was seen."""

    observation: Observation
    marked_a: float | None
    seen_a: float | None

    @property
    def lowers(self) -> bool:
        """Whether capacity comes from what was seen."""
        if self.observation.what not in LOWERS or self.marked_a is None or self.seen_a is None:
            return False
        return self.seen_a < self.marked_a


def seen_of(source: PowerSource, entries: Sequence[Reference]) -> tuple[Seen, ...]:
    """What was seen of the unit that a request names, in the order in which it was noted down."""
    marks = {one.id: one.marked_a.typical for one in source.receptacles or () if one.marked_a is not None}
    found = []
    for entry in entries:
        for one in entry.observations:
            at = None if one.receptacle is UNSET else one.receptacle
            found.append(Seen(one, None if at is None else marks.get(at), _amps(one)))
    return tuple(found)


def lowered(request: LoadCheckRequest, seen: Sequence[Seen]) -> LoadCheckRequest | None:
    """The request with marks lowered to what was seen; None where nothing lowers any."""
    lowest: dict[str, float] = {}
    for one in seen:
        at = one.observation.receptacle
        if one.lowers and at is not UNSET and one.seen_a is not None:
            lowest[at] = min(one.seen_a, lowest.get(at, one.seen_a))
    source = request.source
    if not lowest or not isinstance(source, CatalogueSource):
        return None
    beside = [] if source.receptacles is UNSET else list(source.receptacles)
    receptacles = [
        structs.replace(one, marked=f"{lowest.pop(one.id):g} A") if one.id in lowest else one for one in beside
    ]
    receptacles += [Receptacle(id=name, marked=f"{amps:g} A") for name, amps in sorted(lowest.items())]
    return structs.replace(request, source=structs.replace(source, receptacles=receptacles))


def _amps(one: Observation) -> float | None:
    if one.current is UNSET:
        return None
    try:
        return read_quantity(one.current, CURRENT).band.low
    except QuantityFault:
        return None  # documents are checked before they are stored
