"""How much more may run beside what runs: spare amperes and watts at every receptacle?

A plain load at unity power factor is added at the receptacle and raised by halves until the load check would no longer
say of the case what it says now, starts of the others and what follows a trip included, and what then stands in the
way is named. What is added is taken to run already. Full use of a label is allowed, use above it never is. Common
practice asks for 80 % of it for loads of hours; that is told by the rules, not here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.reverse.reaching_edge import got_worse, last_that_holds_whole, levels_of, no_worse
from ampwright.engine.site.band import Band
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.tool import LoadState, SupplyOption, Tool
from ampwright.engine.site.use import Case, Connection, Site

ADDED = "extra-load"
STEPS = 9  # halvings: to a five-hundredth of the receptacle's rating
CAPACITY, SAFETY = ("capacity",), ("safety",)
MOST_PLACES = 24  # of cases times receptacles


@dataclass(frozen=True, slots=True)
class SpareLoad:
    """The largest extra load at one receptacle beside one case, and the finding that a larger one would bring."""

    case: str
    receptacle: str
    current_a: float
    power_w: float
    limited_by: str | None = None


def spare_loads(site: Site, base: Evaluation) -> tuple[SpareLoad, ...]:
    """For every case that does not fail and every free receptacle with a line and a neutral.

    base : the site as it is, with what follows a trip.
    """
    free = free_receptacles(site, base)
    found: list[SpareLoad] = []
    for n, running in enumerate(base.sets):
        was = base.aspect(n, "capacity")
        if was in ("fail", "unknown"):
            continue
        for receptacle in free:
            if len(found) >= MOST_PLACES:
                return tuple(found)
            found.append(_spare(site, base, Case(running.id, running.running, "/cases"), receptacle, was))
    return tuple(found)


def free_receptacles(site: Site, base: Evaluation) -> tuple[str, ...]:
    """Ids of those with a line and a neutral that nothing is plugged into."""
    taken = {one.into for one in site.connections or ()}
    return tuple(
        item.id
        for item in base.settled.source.receptacles
        if item.connection == "L-N" and item.id not in (*taken, "assumed-receptacle")
    )


def _spare(site: Site, base: Evaluation, case: Case, receptacle: str, was: str) -> SpareLoad:
    source = base.settled.source
    item = next(one for one in source.receptacles if one.id == receptacle)
    most = max(item.rating_a, source.circuits[item.circuit].rating_a)
    volts = source.leg_voltage_v
    known: dict[tuple[int, bool], Evaluation] = {}

    def at(step: int, whole: bool) -> Evaluation:
        if (step, whole) not in known:
            loaded = _with_load(site, base, case, receptacle, step * most * volts / (1 << STEPS))
            only = None if whole else frozenset[int]()
            known[step, whole] = evaluate(loaded, frozenset(), only=only, with_after=whole)
        return known[step, whole]

    def holds(step: int, whole: bool) -> bool:
        """The case is no worse, and nobody is in more danger than with next to nothing plugged in there."""
        here = at(step, whole)
        danger = got_worse(levels_of(here, SAFETY), levels_of(at(1, whole), SAFETY))
        return no_worse(here.aspect(0, "capacity"), was) and danger is None

    top = 1 << STEPS
    last = last_that_holds_whole(1, top, holds) or 0
    amps = last * most / top
    why = None if last == top else _why(at(last + 1, True), at(1, True), was)
    return SpareLoad(case.id, receptacle, round(amps, 2), round(amps * volts, 0), why)


def _why(beyond: Evaluation, with_little: Evaluation, was: str) -> str | None:
    """Code of the check that stands in the way: what is worse than the case was, else what got worse."""
    capacity, before = levels_of(beyond, CAPACITY), levels_of(with_little, CAPACITY)
    above = {at: verdict for at, verdict in capacity.items() if not no_worse(verdict, was)}
    return (
        got_worse(above, before)
        or got_worse(above, {})
        or got_worse(capacity, before)
        or got_worse(levels_of(beyond, SAFETY), levels_of(with_little, SAFETY))
    )


def _with_load(site: Site, base: Evaluation, case: Case, receptacle: str, power_w: float) -> Site:
    supply = base.settled.source.source.supply
    voltage = SupplySystem(f"{supply.leg_voltage_v:g} V", "single", supply.leg_voltage_v, (0.0,))
    state = [
        LoadState(name, Band.exactly(power_w), None, 1.0, 1.42, "constant_power", None) for name in ("working", "heavy")
    ]
    tool = Tool(
        id=ADDED,
        pointer="/tools",
        load_class="heater",
        supply_options=(SupplyOption("spare", "/tools", voltage, power_w=Band.exactly(power_w)),),
        load_states=tuple(state),
        operated="by_itself",
    )
    return beside_case(site, base, case, receptacle, tool)


def beside_case(site: Site, base: Evaluation, case: Case, receptacle: str, tool: Tool) -> Site:
    """The site with one tool more in a receptacle, and that case alone, the tool running in it."""
    connections = site.connections
    if connections is None:
        index = base.settled.source.receptacles
        connections = tuple(
            Connection(item.tool.id, index[item.receptacle].id, "/connections") for item in base.settled.placements
        )
    return replace(
        site,
        tools=(*site.tools, tool),
        connections=(*connections, Connection(tool.id, receptacle, "/connections")),
        cases=(Case(case.id, (*case.running, tool.id), case.pointer),),
    )
