"""How much more may run beside what runs: spare amperes and watts at every receptacle?

A plain load at unity power factor is added at the receptacle and raised by halves until the load check would no longer
say of the case what it says now, and what then stands in the way is named. Starts are left out: what is added is taken
to run already. Full use of a label is allowed, use above it never is. Common practice asks for 80 % of it for loads of
hours; that is told by the rules, not here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.band import Band
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.tool import LoadState, SupplyOption, Tool
from ampwright.engine.site.use import Case, Connection, Site

ADDED = "extra-load"
STEPS = 9  # halvings: to a five-hundredth of the receptacle's rating
MOST_PLACES = 24  # of cases times receptacles


@dataclass(frozen=True, slots=True)
class SpareLoad:
    """The largest extra load at one receptacle beside one case, and the finding that a larger one would bring."""

    case: str
    receptacle: str
    current_a: float
    power_w: float
    limited_by: str | None = None


def spare_loads(site: Site) -> tuple[SpareLoad, ...]:
    """For every case that does not fail and every free receptacle with a line and a neutral."""
    base = evaluate(site, frozenset(), only=frozenset())
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
    low, high = 0.0, 1.0
    beyond: Evaluation | None = None
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        tried = evaluate(_with_load(site, base, case, receptacle, middle * most * volts), frozenset(), only=frozenset())
        if ORDER.index(tried.aspect(0, "capacity")) <= ORDER.index(was):
            low = middle
        else:
            high, beyond = middle, tried
    return SpareLoad(case.id, receptacle, round(low * most, 2), round(low * most * volts, 0), _why(beyond, base, was))


def _why(beyond: Evaluation | None, base: Evaluation, was: str) -> str | None:
    """The first check that is worse than anything the case had, by code."""
    if beyond is None:
        return None
    for checks in beyond.row_checks:
        for check in checks:
            if check.aspect == "capacity" and ORDER.index(check.verdict) > ORDER.index(was):
                return check.code
    known = {check.code for checks in base.row_checks for check in checks if check.verdict != "pass"}
    for checks in beyond.row_checks:
        for check in checks:
            if check.aspect == "capacity" and check.verdict != "pass" and check.code not in known:
                return check.code
    return None


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
