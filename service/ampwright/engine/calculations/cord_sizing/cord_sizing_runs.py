"""Which runs of cords are looked at, and from which receptacle?

Sizes to bring, the run that was asked about, or every run of the cords at hand that covers the distance with no cord
to spare. At most three cords in series are tried: each joint is one more worn contact (common practice, no source).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_network import settle_runs
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import HIGHEST_AWG_V, CordQuestion, Run, usual_sizes
from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord, CordOutlets
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import gives_voltage
from ampwright.engine.site.settle_cord import USUAL_ENDS_A, USUAL_LENGTH_M
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.settled import SettledReceptacle, SettledSource
from ampwright.engine.site.use import Site
from ampwright.engine.standards.conductor_sizes import conductor_size
from ampwright.engine.standards.plugs import configuration, fits

MOST_IN_SERIES = 3
MOST_RUNS = 40  # of several cords; those alone are all looked at
THINNEST_UNKNOWN = "16 AWG"


@dataclass(frozen=True, slots=True)
class Candidates:
    """Runs to look at; `left_out` counts those that cover the distance but were one too many."""

    runs: tuple[Run, ...]
    left_out: int = 0


def candidates(question: CordQuestion) -> Candidates:
    """Every run to look at, in the order it is reported."""
    source = settle_source(question.site.source, Ledger())
    runs: list[Run] = []
    left_out = 0
    if question.run is not None:
        by_id = {item.cord.id: item.cord for item in question.at_hand}
        cords = tuple(by_id[name] for name in question.run)
        kind = "cord" if len(cords) == 1 else "run"
        runs.append(_from_receptacle(question, source, Run("run", kind, "", cords, asked=True)))
    elif question.at_hand:
        found, left_out = _of_cords(question)
        runs += [_from_receptacle(question, source, run) for run in found]
    if not runs or question.sizes:
        runs += _of_sizes(question, source)
    return Candidates(tuple(runs), left_out)


# --- sizes to bring


def _of_sizes(question: CordQuestion, source: SettledSource) -> Iterator[Run]:
    supply = question.site.source.supply
    for size in question.sizes or usual_sizes(supply):
        cord = replace(question.new_cord, size=size, length_m=question.distance_m)
        here = _from_receptacle(question, source, Run(size, "size", "", (_with_ends(cord, question, source, None),)))
        receptacle = next(item for item in source.receptacles if item.id == here.receptacle)
        yield replace(here, cords=(_with_ends(cord, question, source, receptacle),))


def _with_ends(cord: Cord, question: CordQuestion, source: SettledSource, receptacle: SettledReceptacle | None) -> Cord:
    """Ends of a cord to be brought, where they are not given: made for the tool's plug, else for the receptacle.

    A tool for a North American 15 A plug may hang on a larger receptacle: its cord has 15 A ends then.
    """
    tool_plug = _plug_here(question.site, source, question.receptacle)
    outlets, plug = cord.outlets, cord.plug
    outlet = outlets.type if outlets else None
    if outlet is None and tool_plug is not None:
        outlet = _mate(tool_plug, "R")
    if plug is None and outlet is not None:
        plug = _mate(outlet, "P")
    if plug is None and receptacle is not None and _takes_all(question.site, receptacle):
        if receptacle.type is None:
            return replace(cord, outlets=CordOutlets(rating_a=Band.exactly(receptacle.rating_a)))
        plug = _mate(receptacle.type, "P")
    if outlet is None and plug is not None:
        outlet = _mate(plug, "R")
    return replace(cord, plug=plug, outlets=CordOutlets(type=outlet) if outlet else outlets)


def _takes_all(site: Site, receptacle: SettledReceptacle) -> bool:
    """Whether the tool's plug, which is not known, must be of the receptacle's own rating."""
    return (
        receptacle.connection != "L-N"
        or site.source.supply.leg_voltage_v > HIGHEST_AWG_V
        or any(
            (option.current_a.typical if option.current_a else 0.0) > USUAL_ENDS_A
            for option in site.tools[0].supply_options
        )
    )


def _plug_here(site: Site, source: SettledSource, receptacle: str | None) -> str | None:
    """Plug of the supply option that the receptacle, or the first that suits, would use."""
    tool = site.tools[0]
    plugs = [option.plug for option in tool.supply_options if option.plug]
    types = [item.type for item in source.receptacles if item.type and receptacle in (None, item.id)]
    for plug in plugs:
        if any(fits(plug, there) for there in types):
            return plug
    return plugs[0] if plugs else None


def _mate(designation: str, letter: str) -> str | None:
    """The other end of the same pattern; None where it has another name, as CEE 7 plugs do."""
    found = configuration(designation)
    if found is None:
        return None
    if found.role == "either":
        return found.designation
    name = f"{found.designation[:-1]}{letter}"
    return name if configuration(name) else None


# --- cords at hand


def _of_cords(question: CordQuestion) -> tuple[list[Run], int]:
    """Single cords; with a distance also runs of several that cover it and would not without any of them."""
    distance = question.distance_m
    alone = [Run(item.cord.id, "cord", "", (item.cord,)) for item in question.at_hand]
    if distance is None:
        return alone, 0
    found: list[tuple[int, float, Run]] = []
    kinds = sorted(question.at_hand, key=lambda item: item.cord.id)
    for count in range(2, MOST_IN_SERIES + 1):
        for chosen in itertools.combinations_with_replacement(kinds, count):
            if any(sum(other is item for other in chosen) > item.count for item in chosen):
                continue
            lengths = [_length(item.cord).low for item in chosen]
            if sum(lengths) < distance.high or sum(lengths) - min(lengths) >= distance.high:
                continue
            cords = _outward([item.cord for item in chosen])
            if cords is None:
                continue
            name = "+".join(cord.id for cord in cords)
            found.append((count, sum(_resistance(cord) for cord in cords), Run(name, "run", "", cords)))
    found.sort(key=lambda item: (item[0], item[1], item[2].id))
    return alone + [run for _, _, run in found[:MOST_RUNS]], max(0, len(found) - MOST_RUNS)


def _length(cord: Cord) -> Band:
    return cord.length_m or Band.exactly(USUAL_LENGTH_M)


def _resistance(cord: Cord) -> float:
    size = conductor_size(cord.size or THINNEST_UNKNOWN)
    return _length(cord).high * (size.resistance_20c_ohm_per_m if size else 0.0)


def _outward(cords: Sequence[Cord]) -> tuple[Cord, ...] | None:
    """The first order, thick before thin, in which every plug enters the outlet before it; None where none does."""
    thick_first = sorted(cords, key=lambda cord: (_resistance(cord) / max(_length(cord).high, 1e-9), cord.id))
    for order in itertools.permutations(thick_first):
        if all(_enters(after, before) for before, after in itertools.pairwise(order)):
            return tuple(order)
    return None


def _enters(cord: Cord, into: Cord) -> bool:
    outlet = into.outlets.type if into.outlets and into.outlets.type else None
    if outlet is None and into.plug:
        outlet = _mate(into.plug, "R")
    return cord.plug is None or outlet is None or fits(cord.plug, outlet)


# --- from which receptacle


def _from_receptacle(question: CordQuestion, source: SettledSource, run: Run) -> Run:
    """The run at the receptacle that was named, else at the smallest at which the least is amiss."""
    if question.receptacle is not None:
        return replace(run, receptacle=question.receptacle)
    kinds: dict[tuple[object, ...], SettledReceptacle] = {}
    for item in source.receptacles:
        kinds.setdefault((item.type, item.rating_a, item.connection, source.circuits[item.circuit].rating_a), item)
    ordered = sorted(kinds.values(), key=lambda item: (source.circuits[item.circuit].rating_a, item.rating_a))
    if len(ordered) == 1:
        return replace(run, receptacle=ordered[0].id)
    tried = [replace(run, receptacle=item.id) for item in ordered]
    settled = settle_runs(question.site, tried, Ledger())
    tool = question.site.tools[0]
    amiss = [
        (
            any(misfit.code == "voltage_does_not_match" for misfit in placement.misfits),
            not gives_voltage(tool, ordered[n], source),
            len(placement.misfits),
            n,
        )
        for n, placement in enumerate(settled.placements)
    ]
    return tried[min(amiss)[-1]]
