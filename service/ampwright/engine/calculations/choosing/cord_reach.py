"""Do the cords, as they are plugged in, get from the source to the work?

A tool gets as far as the cords between it and its receptacle are long, and its own cord beside them. Where a length
was not said, or nobody knows which cord goes where, that is open, and an answer that hangs on it is none yet.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from ampwright.engine.calculations.choosing.kit_plugging import OWN_CORD_M
from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.use import Site


@dataclass(frozen=True, slots=True)
class CordReach:
    """Tools by whether their cords get to the work, by name.

    short : they end before it for certain. open_ : nobody can say. distance_m : the longest that the way may be.
    cords_said : False where nobody said, and no plan says, which cord goes to which tool.
    """

    distance_m: float
    short: tuple[str, ...] = ()
    open_: tuple[str, ...] = ()
    cords_said: bool = True


def cord_reach(site: Site, tools: Collection[str], distance_m: Band | None) -> CordReach | None:
    """Whether the named tools are at the work, None where nobody said how far that is.

    distance_m : [m] from the source to the work, along which a cord would lie. Errors: none for a sound site.
    """
    if distance_m is None:
        return None
    cords = {cord.id: cord for cord in site.cords}
    if site.connections is None:
        # one receptacle is assumed, and everything in it: any of the cords may go to the tool that is farthest
        low, high = 0.0, sum(_length_m(cord)[1] for cord in site.cords)
        verdicts = dict.fromkeys(tools, _verdict(low, high, distance_m))
    else:
        into = {one.plug: one.into for one in site.connections}
        verdicts = {}
        for tool in tools:
            low, high, here = 0.0, 0.0, into.get(tool)
            for _ in range(len(into)):  # a ring has no end; validation refuses it
                if here not in into:
                    break
                if here in cords:
                    shortest, longest = _length_m(cords[here])
                    low, high = low + shortest, high + longest
                here = into[here]
            verdicts[tool] = _verdict(low, high, distance_m)
    return CordReach(
        distance_m.high,
        tuple(sorted(tool for tool, verdict in verdicts.items() if verdict == "short")),
        tuple(sorted(tool for tool, verdict in verdicts.items() if verdict == "open")),
        site.connections is not None,
    )


def _verdict(low_m: float, high_m: float, distance_m: Band) -> str:
    if high_m + OWN_CORD_M < distance_m.low:
        return "short"
    return "open" if low_m + OWN_CORD_M < distance_m.high else "gets_there"


def _length_m(cord: Cord) -> tuple[float, float]:
    return (0.0, float("inf")) if cord.length_m is None else (cord.length_m.low, cord.length_m.high)
