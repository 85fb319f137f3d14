"""What does the engine make of a cord question? The site behind it, the cords at hand, and every text not read.

A cord question is resolved and read as a load check of its one tool and its cords; pointers lead back into the
question as it was sent (`/tool`, `/new_cord`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from msgspec import UNSET

from ampwright.contract.cord_members import CordOutlets
from ampwright.contract.cord_sizings import CordCandidate, CordSizingRequest, CordToBring
from ampwright.contract.load_checks import CordInUse, LoadCheckRequest
from ampwright.contract.places import Places
from ampwright.contract.quantities import LENGTH, QuantityFault
from ampwright.contract.reading import Reading
from ampwright.contract.reading_site import read_site
from ampwright.contract.size_text import read_size
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import AtHand, CordQuestion
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.use import Fault

_TOOL, _NEW_CORD = "/tool", "/new_cord"


@dataclass(frozen=True, slots=True)
class AsLoadCheck:
    """A cord question as a load check, and where its parts lie in the question."""

    request: LoadCheckRequest
    places: dict[str, str]

    def as_sent(self, pointer: str) -> str:
        """Where a pointer into the load check lies in the question."""
        return Places(self.places).of(pointer)

    def combined(self, resolved: Places) -> Places:
        """Places of the load check once its references are resolved."""
        return Places({**self.places, **{here: self.as_sent(there) for here, there in resolved.moved.items()}})


def as_load_check(question: CordSizingRequest) -> AsLoadCheck:
    """The tool, the cords at hand and the cord to be brought, as parts of a load check."""
    cords = [_plain(cord) for cord in (() if question.cords is UNSET else question.cords)]
    new_cord = _new_cord(CordToBring() if question.new_cord is UNSET else question.new_cord, cords, question.tool.id)
    request = LoadCheckRequest(
        source=question.source,
        tools=[question.tool],
        cords=[*cords, new_cord],
        conditions=question.conditions,
        code_basis=question.code_basis,
        catalogue_release=question.catalogue_release,
        withdrawals_as_of=question.withdrawals_as_of,
    )
    return AsLoadCheck(request, {"/tools/0": _TOOL, f"/cords/{len(cords)}": _NEW_CORD})


def _plain(cord: CordCandidate) -> CordInUse:
    members = {name: getattr(cord, name) for name in cord.__struct_fields__ if name != "count"}
    return CordInUse(**members)


def _new_cord(new: CordToBring, cords: list[CordInUse], tool: str) -> CordInUse:
    taken = {tool, *(cord.id for cord in cords)}
    name = "new-cord"
    while name in taken:
        name += "-x"
    return CordInUse(
        id=name,
        type=new.type,
        conductors=new.conductors,
        insulation_temperature=new.insulation_temperature,
        marked=new.marked,
        plug=new.plug,
        outlets=UNSET if new.outlet is UNSET else CordOutlets(type=new.outlet),
        laid=new.laid,
        drum_layers=new.drum_layers,
    )


def read_question(
    question: CordSizingRequest, resolved: LoadCheckRequest, places: Places
) -> tuple[CordQuestion, tuple[Fault, ...]]:
    """The question in SI, and what could not be read of it.

    resolved : the load check of `as_load_check` without references. places : its parts in the question as sent.
    With faults the question is only good for finding more faults.
    """
    site, unread = read_site(resolved, places)
    reading = Reading()
    distance = reading.band(question.distance, LENGTH, "/distance")
    sizes = _sizes(question, reading)
    *cords, new_cord = site.cords
    sent = () if question.cords is UNSET else question.cords
    at_hand = tuple(
        AtHand(cord, 1 if item.count is UNSET else item.count) for cord, item in zip(cords, sent, strict=True)
    )
    # the outlet of a new cord is a member of its own, not one of `outlets`
    faults = tuple(
        replace(fault, pointer=fault.pointer.replace("/new_cord/outlets/type", "/new_cord/outlet")) for fault in unread
    )
    return (
        CordQuestion(
            site,
            at_hand,
            new_cord,
            distance,
            None if question.receptacle is UNSET else question.receptacle,
            None if question.run is UNSET else tuple(question.run),
            sizes,
        ),
        (*faults, *reading.faults),
    )


def _sizes(question: CordSizingRequest, reading: Reading) -> tuple[str, ...]:
    found: list[str] = []
    for place, text in enumerate(() if question.sizes is UNSET else question.sizes):
        at = f"/sizes/{place}"
        try:
            size = read_size(text)
        except QuantityFault as error:
            reading.refuse(at, error)
            continue
        if size in found:
            reading.fault(at, "repeated_member", f"{shown(size)} is listed twice.")
        else:
            found.append(size)
    return tuple(found)


__all__ = ["AsLoadCheck", "as_load_check", "read_question"]
