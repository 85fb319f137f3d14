"""What is plugged into what, with every unknown settled?

Walks the tree from the receptacles outward: which conductors each tool taps, which of its supply options goes with
the voltage that is there, and what does not fit. A misfit is a finding of the calculation, not a fault of the request.
"""

from __future__ import annotations

from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.load_classes import on_three_phases
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_cord import USUAL_ENDS_A, settle_cord
from ampwright.engine.site.settle_source import line_voltage_v, settle_source
from ampwright.engine.site.settle_tool import (
    HIGHEST_VOLTAGE_RATIO,
    LOWEST_VOLTAGE_RATIO,
    class_of,
    settle_lowest_voltage_v,
    settle_states,
    settle_switch,
)
from ampwright.engine.site.settled import Misfit, Placement, SettledCord, SettledReceptacle, SettledSite, SettledSource
from ampwright.engine.site.source import LEG_NAMES, NEUTRAL, PowerSource, SupplySystem
from ampwright.engine.site.thin_air import limited_by_air, power_left
from ampwright.engine.site.tool import SupplyOption, Tool
from ampwright.engine.site.use import Connection, Site
from ampwright.engine.standards.plugs import configuration, fit

AMBIENT_C = Band(10.0, 25.0, 40.0)  # common practice, no source
CONTACT_OHM = Band(0.002, 0.005, 0.010)  # clean, usual, worn; common practice, no source


def settle(site: Site, ledger: Ledger) -> SettledSite:
    """A sound site (validation found no fault) with every value settled."""
    ambient = site.ambient_c or AMBIENT_C
    source = settle_source(in_its_air(site), ledger)
    if site.ambient_c is None:
        ledger.assume("ambient", "/conditions/ambient", AMBIENT_C, "10..40 degC")
    if site.source.kind == "engine_generator" and site.altitude_m is None:
        ledger.assume("altitude", "/conditions/altitude", 0.0, "0 m")
    ledger.assume("contact_resistance", "/connections", CONTACT_OHM, "0.002..0.01 ohm a contact")
    if site.source.kind == "engine_generator" and site.place is None:
        ledger.assume("place", "/conditions/place", None, "enclosed")
    if site.people is None:
        ledger.assume("people", "/people", 1, "1")
    if site.code_basis is None:
        ledger.assume("code_basis", "/code_basis", None, "not asked")
    elif site.code_basis:
        ledger.assume("construction_site", "/code_basis", True, "a construction site")
    connections = site.connections if site.connections is not None else _assumed_connections(site, source, ledger)
    into = {connection.plug: connection for connection in connections}
    receptacle_index = {item.id: i for i, item in enumerate(source.receptacles)}
    cord_ids = {cord.id: i for i, cord in enumerate(site.cords)}
    awg, ends_a = cords_in_awg(source), usual_ends_a(source)
    reached = _reach(connections, receptacle_index)
    # parents come before their children, whatever order the request lists them in
    used = sorted((cord for cord in site.cords if cord.id in reached), key=lambda cord: _depth(cord.id, into))
    settled_cords: list[SettledCord] = []
    for item in used:
        with ledger.about(item.id):
            phases = _phases(source.receptacles[reached[item.id]], source)
            settled_cords.append(settle_cord(item, awg, ends_a, phases, ambient, ledger))
    cords = tuple(settled_cords)
    if site.code_basis:
        for cord in cords:
            if cord.type is None:
                ledger.assume("cord_type", member_of(cord.pointer, "type"), None, "unknown")
    cord_index = {cord.id: i for i, cord in enumerate(cords)}
    parents: list[tuple[str, int]] = []
    for cord in cords:
        up = into[cord.id].into
        parents.append(("cord", cord_index[up]) if up in cord_ids else ("receptacle", receptacle_index[up]))
    placements: list[Placement] = []
    for tool in site.tools:
        if tool.id not in reached:
            continue
        with ledger.about(tool.id):
            placement = _place(tool, into[tool.id], reached[tool.id], cords, cord_index, parents, source, ledger)
            unsaid = tool.insulation is None and source.source.supply.kind != "dc"
            if unsaid and any(cords[i].without_earth for i in placement.cords):
                ledger.assume("insulation", member_of(tool.pointer, "insulation"), None, "unknown")
        placements.append(placement)
    return SettledSite(source, cords, tuple(parents), tuple(placements), ambient, CONTACT_OHM, site.people or 1)


def in_its_air(site: Site) -> PowerSource:
    """The source; a set's rating is that of its plate, whatever the heat, unless it is said how high the place is."""
    if site.altitude_m is None:
        return site.source
    return limited_by_air(site.source, power_left(site.altitude_m, site.ambient_c or AMBIENT_C), "/conditions/altitude")


def _reach(connections: tuple[Connection, ...], receptacles: dict[str, int]) -> dict[str, int]:
    """Receptacle index of every tool and cord that hangs on one."""
    into = {connection.plug: connection.into for connection in connections}
    found: dict[str, int] = {}
    for plug in into:
        seen: list[str] = []
        here = plug
        while here not in receptacles and here in into and here not in seen:
            seen.append(here)
            here = into[here]
        if here in receptacles:
            found[plug] = receptacles[here]
    return found


def _depth(plug: str, into: dict[str, Connection]) -> int:
    steps = 0
    while plug in into:
        plug = into[plug].into
        steps += 1
    return steps


def _assumed_connections(site: Site, source: SettledSource, ledger: Ledger) -> tuple[Connection, ...]:
    """No connections given: everything on the smallest circuit that suits it, or, flipped, spread over receptacles."""
    if not source.receptacles:
        return ()
    several = len(source.receptacles) > 1
    spread = ledger.assume(
        "connections_assumed",
        "/connections",
        False,
        "all on one circuit, no cords",
        True if several else None,
        "spread over the receptacles",
    )
    found: list[Connection] = []
    taken: set[str] = set()
    for tool in site.tools:
        suitable = [
            item
            for item in source.receptacles
            if any(_suits(option, item, source) for option in tool.supply_options) or not tool.supply_options
        ] or list(source.receptacles)
        if spread:
            suitable = [item for item in suitable if item.id not in taken] or suitable
        chosen = min(suitable, key=lambda item: (source.circuits[item.circuit].rating_a, item.id))
        taken.add(chosen.id)
        found.append(Connection(tool.id, chosen.id, "/connections"))
    return tuple(found)


def _suits(option: SupplyOption, receptacle: SettledReceptacle, source: SettledSource) -> bool:
    fitting = option.plug is None or receptacle.type is None or _enters(option.plug, receptacle.type)
    return fitting and bool(_lines(option, receptacle.connection, receptacle, source, None))


def gives_voltage(tool: Tool, receptacle: SettledReceptacle, source: SettledSource) -> bool:
    """Whether the contacts of a receptacle have the voltage of a supply option of the tool, whatever its plug is."""
    return not tool.supply_options or any(
        _lines(option, receptacle.connection, receptacle, source, None) for option in tool.supply_options
    )


def _enters(plug: str, receptacle: str) -> bool:
    found = fit(plug, receptacle)
    return found is None or found.fits


def _phases(receptacle: SettledReceptacle, source: SettledSource) -> int:
    """Loaded conductors: three phases, or two legs in phase whose neutral carries the sum, count as three."""
    if receptacle.connection.startswith("L-L-L"):
        return 3
    if receptacle.connection == "L-L-N" and source.source.supply.kind == "split_phase":
        volts = line_voltage_v(source.leg_voltage_v, source.leg_angles_rad)
        return 2 if volts > 1.9 * source.leg_voltage_v else 3
    return 2


def _place(
    tool: Tool,
    connection: Connection,
    receptacle_index: int,
    cords: tuple[SettledCord, ...],
    cord_index: dict[str, int],
    parents: list[tuple[str, int]],
    source: SettledSource,
    ledger: Ledger,
) -> Placement:
    receptacle = source.receptacles[receptacle_index]
    chain: list[int] = []
    here = cord_index.get(connection.into)
    while here is not None:
        chain.append(here)
        kind, up = parents[here]
        here = up if kind == "cord" else None
    chain.reverse()
    misfits, outlet = _walk_plugs(receptacle, [cords[i] for i in chain])
    load_class = class_of(tool, ledger)
    options = tool.supply_options or (
        SupplyOption("assumed", member_of(tool.pointer, "supply_options"), _own_voltage(source, receptacle)),
    )
    taps = configuration(outlet).connection if outlet and configuration(outlet) else receptacle.connection  # type: ignore[union-attr]
    if len(source.leg_angles_rad) == 1 or source.source.supply.kind == "centre_tapped":
        taps = receptacle.connection
    option, lines = _choose(options, taps, outlet, receptacle, source, connection.leg)
    if option is None:
        shown = " or ".join(
            f"three-phase {item.voltage.text}" if item.is_three_phase else item.voltage.text for item in options
        )
        where = member_of(tool.pointer, "supply_options")
        misfits.append(Misfit("voltage_does_not_match", where, shown, receptacle.id))
        option_used, volts = None, options[0].voltage.leg_voltage_v
    else:
        option_used, volts = option, plate_voltage_v(option)
        if option.plug is None and outlet is None and receptacle.connection.startswith("L-L"):
            where = member_of(receptacle.pointer, "type")
            ledger.assume("receptacle_type", where, None, f"one that gives {option.voltage.text}")
        if option.plug and outlet is None:
            _assume_pattern(option.plug, receptacle, chain, misfits, member_of(option.pointer, "plug"), ledger)
        several_legs = len(source.circuits[receptacle.circuit].legs) > 1
        if connection.leg is None and chain and several_legs and len(lines) == 1 and lines[0][1] == NEUTRAL:
            ledger.assume("outlet_leg", connection.pointer, lines, f"{LEG_NAMES[lines[0][0]]} for {tool.id}")
        if option.plug and outlet and not _enters(option.plug, outlet):
            misfits.append(Misfit("plug_does_not_fit", member_of(option.pointer, "plug"), option.plug, outlet))
            option_used = None
    if any(misfit.code == "plug_does_not_fit" for misfit in misfits):
        option_used = None
    if (option or options[0]).is_three_phase:
        load_class = on_three_phases(load_class)
    states = settle_states(tool, option or options[0], load_class, volts, ledger)
    maintained, protected = settle_switch(tool, load_class, ledger)
    return Placement(
        tool,
        load_class,
        receptacle_index,
        tuple(chain),
        option_used,
        volts,
        lines,
        states,
        settle_lowest_voltage_v(tool, volts, ledger),
        maintained,
        protected,
        tuple(misfits),
    )


def place_alone(
    tool: Tool, receptacle: int, run: tuple[SettledCord, ...], source: SettledSource, ledger: Ledger
) -> Placement:
    """A tool as it would be settled at the end of a run of cords from one receptacle (an index of the source)."""
    parents: list[tuple[str, int]] = [("cord", i - 1) if i else ("receptacle", receptacle) for i in range(len(run))]
    into = run[-1].id if run else source.receptacles[receptacle].id
    with ledger.about(tool.id):
        return _place(
            tool,
            Connection(tool.id, into, "/connections"),
            receptacle,
            run,
            {cord.id: i for i, cord in enumerate(run)},
            parents,
            source,
            ledger,
        )


def cord_phases(receptacle: SettledReceptacle, source: SettledSource) -> int:
    """Legs that reach a cord in this receptacle, as `settle_cord` counts them."""
    return _phases(receptacle, source)


def cords_in_awg(source: SettledSource) -> bool:
    """Whether an unknown size of a cord is assumed in AWG, else in mm2."""
    return source.leg_voltage_v <= 150.0 and source.source.supply.kind not in ("centre_tapped", "dc")


def usual_ends_a(source: SettledSource) -> float:
    """[A] rating of the ends of a cord of which nobody told them.

    North American sets have 15 A ends whatever they hang on. Elsewhere a plug is of its receptacle's own pattern, so
    that the smallest receptacle of the source is the safe side: 13 A of BS 1363, 16 A of CEE 7 and IEC 60309. Common
    practice, no source.
    """
    if cords_in_awg(source):
        return USUAL_ENDS_A
    return min((item.rating_a for item in source.receptacles), default=USUAL_ENDS_A)


def _assume_pattern(
    plug: str, receptacle: SettledReceptacle, chain: list[int], misfits: list[Misfit], pointer: str, ledger: Ledger
) -> None:
    """An outlet of unknown pattern is taken to fit, unless it is marked below what the plug is made for."""
    found = configuration(plug)
    if not chain and found is not None and found.current_a > receptacle.rating_a:
        misfits.append(Misfit("plug_does_not_fit", pointer, plug, f"a receptacle marked {receptacle.rating_a:g} A"))
        return
    where = receptacle.pointer if receptacle.id == "assumed-receptacle" else member_of(receptacle.pointer, "type")
    ledger.assume("receptacle_type", where, None, f"one that takes {plug}")


def _walk_plugs(receptacle: SettledReceptacle, cords: list[SettledCord]) -> tuple[list[Misfit], str | None]:
    """Misfits from the receptacle outward, and the designation of the outlet at the end where it is known."""
    misfits: list[Misfit] = []
    outlet = receptacle.type
    for cord in cords:
        if cord.plug and outlet and not _enters(cord.plug, outlet):
            misfits.append(Misfit("plug_does_not_fit", member_of(cord.pointer, "plug"), cord.plug, outlet))
        outlet = cord.outlet or (_counterpart(cord.plug) if cord.plug else None)
    return misfits, outlet


def _counterpart(plug: str) -> str | None:
    """The connector that usually goes with a plug: its own pattern."""
    name = f"{plug[:-1]}R" if plug.endswith("P") else plug
    return name if configuration(name) else None


def _own_voltage(source: SettledSource, receptacle: SettledReceptacle) -> SupplySystem:
    volts = source.leg_voltage_v
    if receptacle.connection == "L-L":
        volts = line_voltage_v(volts, source.leg_angles_rad) or volts
    return SupplySystem(f"{volts:g} V", "dc" if source.source.supply.kind == "dc" else "single", volts, (0.0,))


def plate_voltage_v(option: SupplyOption) -> float:
    """[V] across the terminals that carry the load; between lines for a three-phase or two-leg plate."""
    system = option.voltage
    if option.is_three_phase:
        return system.leg_voltage_v * 3.0**0.5 if system.kind == "three_phase" else system.leg_voltage_v
    if system.kind in ("split_phase", "centre_tapped"):
        return 2.0 * system.leg_voltage_v
    return system.leg_voltage_v


def _choose(
    options: tuple[SupplyOption, ...],
    taps: str,
    outlet: str | None,
    receptacle: SettledReceptacle,
    source: SettledSource,
    leg: str | None,
) -> tuple[SupplyOption | None, tuple[tuple[int, int], ...]]:
    """The first option whose voltage is there, one whose plug fits before one whose plug does not."""
    found = [(option, _lines(option, taps, receptacle, source, leg)) for option in options]
    usable = [(option, lines) for option, lines in found if lines]
    for option, lines in usable:
        if option.plug is None or outlet is None or _enters(option.plug, outlet):
            return option, lines
    return usable[0] if usable else (None, ())


def _lines(
    option: SupplyOption, taps: str, receptacle: SettledReceptacle, source: SettledSource, leg: str | None
) -> tuple[tuple[int, int], ...]:
    """Pairs of conductors that give the plate its voltage, none where nothing does."""
    direct = source.source.supply.kind == "dc"
    if (option.voltage.kind == "dc") != direct:
        return ()
    legs = source.circuits[receptacle.circuit].legs
    if leg is not None and LEG_NAMES.index(leg) in legs:
        legs = (LEG_NAMES.index(leg), *(item for item in legs if LEG_NAMES.index(leg) != item))
    plate = plate_voltage_v(option)
    across = line_voltage_v(source.leg_voltage_v, source.leg_angles_rad)
    if option.is_three_phase:
        if not taps.startswith("L-L-L") or len(legs) < 3 or not _matches(source.leg_voltage_v * 3.0**0.5, plate):
            return ()
        return tuple((item, NEUTRAL) for item in legs[:3])
    if "N" in taps and source.source.supply.kind != "centre_tapped" and _matches(source.leg_voltage_v, plate):
        return ((legs[0], NEUTRAL),)
    if taps.startswith("L-L") and len(legs) >= 2 and _matches(across, plate):
        return ((legs[0], legs[1]),)
    return ()


def _matches(there_v: float, plate_v: float) -> bool:
    return LOWEST_VOLTAGE_RATIO * plate_v <= there_v <= HIGHEST_VOLTAGE_RATIO * plate_v


def feeding_option(
    tool: Tool, receptacle: SettledReceptacle, outlet: str | None, source: SettledSource
) -> SupplyOption | None:
    """The supply option that an outlet of this pattern behind the receptacle feeds, None where none goes together.

    outlet : designation, None where it is not known; an unknown one is taken to fit, as `settle` takes it.
    """
    options = tool.supply_options or (SupplyOption("assumed", tool.pointer, _own_voltage(source, receptacle)),)
    found = configuration(outlet) if outlet else None
    whole = len(source.leg_angles_rad) == 1 or source.source.supply.kind == "centre_tapped"
    taps = receptacle.connection if found is None or whole else found.connection
    option, _ = _choose(options, taps, outlet, receptacle, source, None)
    if option is None:
        return None
    plug = configuration(option.plug) if option.plug else None
    if outlet is None:
        return None if plug is not None and plug.current_a > receptacle.rating_a else option
    return None if option.plug is not None and not _enters(option.plug, outlet) else option


def cord_outlet(cord: Cord, receptacle: SettledReceptacle) -> tuple[bool, str | None]:
    """Whether a cord enters the receptacle, and the designation of the outlet at its end where it is known."""
    enters = cord.plug is None or receptacle.type is None or _enters(cord.plug, receptacle.type)
    outlet = cord.outlets.type if cord.outlets is not None else None
    return enters, outlet or (_counterpart(cord.plug) if cord.plug else None)
