"""Which plug goes into which receptacle or cord, once every tool has its slot?

Members of a class are handed out in the order of the site, so that the same choice is always told the same way.
Not here: which choice (outlet_plan_milp.py, outlet_plan_plugging.py).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.outlet_plan.outlet_plan_model import Choice
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Slots
from ampwright.engine.site.use import Connection, Site


@dataclass(frozen=True, slots=True)
class PluggedTool:
    """Where one tool is fed: indices of the source's receptacles and of the site's cords, from the receptacle out."""

    tool: int
    receptacle: int
    cords: tuple[int, ...]


def plugged(slots: Slots, choice: Choice) -> tuple[PluggedTool, ...]:
    """A receptacle and a run of cords for every tool that has a slot. The choice keeps to the counts of its model."""
    places = [list(members) for members in slots.places]
    singles = [list(members) for members in slots.singles]
    mounted: dict[int, tuple[int, tuple[int, ...]]] = {}
    found: list[PluggedTool] = []
    for t, n in enumerate(choice):
        if n is None:
            continue
        slot = slots.slots[n]
        if slot.shared is not None and slot.shared in mounted:
            receptacle, run = mounted[slot.shared]
        else:
            receptacle = places[slot.place].pop(0)
            run = tuple(singles[k].pop(0) for k in slot.singles)
            if slot.shared is not None:
                run = (*run, slots.shared[slot.shared])
                mounted[slot.shared] = receptacle, run
        found.append(PluggedTool(t, receptacle, run))
    return tuple(found)


def connections_of(site: Site, slots: Slots, found: tuple[PluggedTool, ...]) -> tuple[Connection, ...]:
    """The connections of a load check, tool by tool, each cord before what hangs on it."""
    pairs: dict[str, str] = {}
    for one in found:
        here = slots.source.receptacles[one.receptacle].id
        for i in one.cords:
            pairs.setdefault(site.cords[i].id, here)
            here = site.cords[i].id
        pairs[site.tools[one.tool].id] = here
    return tuple(Connection(plug, into, f"/connections/{n}") for n, (plug, into) in enumerate(pairs.items()))
