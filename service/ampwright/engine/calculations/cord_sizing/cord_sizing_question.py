"""What is asked about cords for one tool: what is at hand, how far it goes, and which of it to look at?

A `Run` is one candidate: cords in series from a receptacle outward, whether they are at hand or only a size to bring.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.standards.cord_ratings import ampacity_a
from ampwright.engine.standards.loader import CitedValue

# What cord is sold in; odd gauges are made, but carry no mark of UL 817. Common practice, no source.
USUAL_AWG = ("18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "2 AWG")
USUAL_METRIC = ("0.75 mm2", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2")
HIGHEST_AWG_V = 150.0  # to neutral; above it cords come in mm2


@dataclass(frozen=True, slots=True)
class AtHand:
    """A cord and how many there are of it."""

    cord: Cord
    count: int = 1


@dataclass(frozen=True, slots=True)
class CordQuestion:
    """Everything a cord sizing is about.

    site : source, the one tool, conditions and rule layers; its cords and connections are not read.
    new_cord : what is settled of a cord to be brought; its size and length are not read.
    sizes : () for the usual ones. run : ids of cords at hand from the receptacle outward, None where not asked.
    """

    site: Site
    at_hand: tuple[AtHand, ...]
    new_cord: Cord
    distance_m: Band | None = None
    receptacle: str | None = None
    run: tuple[str, ...] | None = None
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Run:
    """One candidate. `kind` is size, cord or run; `receptacle` is an id."""

    id: str
    kind: str
    receptacle: str
    cords: tuple[Cord, ...]
    asked: bool = False  # the run that the question is about

    @property
    def length_m(self) -> Band:
        """Length of all cords together; an unknown length counts as nothing here."""
        known = [cord.length_m for cord in self.cords if cord.length_m is not None]
        return Band(
            sum(item.low for item in known), sum(item.typical for item in known), sum(item.high for item in known)
        )

    def of_length(self, length_m: float) -> Run:
        """The same single cord at another length."""
        return replace(self, cords=(replace(self.cords[0], length_m=Band.exactly(length_m)),))


def usual_sizes(supply: SupplySystem, loaded_conductors: int = 2) -> tuple[str, ...]:
    """Sizes to look at for a supply, thin before thick: AWG to 150 V to neutral, mm2 above and for 55-0-55 V and DC."""
    awg = supply.leg_voltage_v <= HIGHEST_AWG_V and supply.kind not in ("centre_tapped", "dc")
    found = USUAL_AWG if awg else USUAL_METRIC
    return tuple(size for size in found if isinstance(ampacity_a(size, loaded_conductors), CitedValue))


def question_faults(question: CordQuestion) -> tuple[Fault, ...]:
    """What a cord question contradicts beside its site: names that are not there, cords used more often than had."""
    found: list[Fault] = []
    receptacles = question.site.source.receptacles
    names = [item.id for item in receptacles or ()]
    if question.receptacle is not None and question.receptacle not in names:
        there = f"there are {', '.join(names[:12])}" if names else "none is listed"
        found.append(
            Fault("/receptacle", "unknown_receptacle", f"No receptacle {question.receptacle!r} here; {there}.")
        )
    elif receptacles == ():
        told = "The source has no receptacle to run a cord from; leave them out where they are not known."
        found.append(Fault("/source/receptacles", "no_receptacle", told))
    counts = {item.cord.id: item.count for item in question.at_hand}
    used: dict[str, int] = {}
    for place, name in enumerate(question.run or ()):
        at = f"/run/{place}"
        if name not in counts:
            there = f"there are {', '.join(list(counts)[:12])}" if counts else "none is listed"
            found.append(Fault(at, "unknown_plug", f"No cord {name!r} here; {there}."))
            continue
        used[name] = used.get(name, 0) + 1
        if used[name] == counts[name] + 1:
            have = "one" if counts[name] == 1 else str(counts[name])
            found.append(Fault(at, "plugged_in_twice", f"There is {have} of the cord {name!r}; give its `count`."))
    return tuple(found)
