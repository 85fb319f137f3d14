"""What can be counted on of a source whose figures are partly unknown?

The safe side: receptacles share a circuit unless their circuits are named, a circuit carries what its receptacles are
marked, and a source without a stated output carries one full circuit.
Source: common practice, no source; configurations from engine/standards/plugs.
"""

from __future__ import annotations

import cmath

from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledCircuit, SettledLimit, SettledReceptacle, SettledSource
from ampwright.engine.site.source import LEG_NAMES, CapacityLimit, Circuit, PowerSource, Receptacle, Reset
from ampwright.engine.site.thin_air import AT_ALTITUDE
from ampwright.engine.standards.plugs import configuration

CIRCUIT_WIRING_OHM = Band(0.01, 0.02, 0.04)  # out and back; common practice, no source
SOURCE_RESISTANCE_PU = Band(0.02, 0.05, 0.08)  # common practice, no source
CREST_OF_SINE = 2.0**0.5
OVERLOAD_FOR_SECONDS = Band(1.0, 1.2, 2.0)  # of continuous; common practice, no source
SMALLEST_RATING_A = {"low": 15.0, "high": 10.0}  # below and above 150 V to neutral
USUAL_RATING_A = {"low": 20.0, "high": 16.0}
SITE_RESISTANCE_PU = Band(0.01, 0.02, 0.04)  # of the largest circuit of a site supply; common practice, no source
_SI_UNIT = {"kVA": "VA", "kW": "W"}  # figures are in SI already; the label is as it was entered
USUAL_SLEEP_W = 15.0  # of 8 to 15 W; common practice, no source


def line_voltage_v(leg_voltage_v: float, angles_rad: tuple[float, ...]) -> float:
    """[V] between the first two legs, 0 where there is only one."""
    if len(angles_rad) < 2:
        return 0.0
    return abs(leg_voltage_v * (cmath.exp(1j * angles_rad[0]) - cmath.exp(1j * angles_rad[1])))


def settle_source(source: PowerSource, ledger: Ledger) -> SettledSource:
    """A source with every value settled; each default goes through the ledger."""
    receptacles = source.receptacles or ()
    if source.receptacles is None:
        pointer = member_of(source.pointer, "receptacles")
        ledger.assume("receptacle_assumed", pointer, None, "one receptacle")
        receptacles = (Receptacle("assumed-receptacle", pointer),)
    connections = [_connection(item, source) for item in receptacles]
    ratings = [_receptacle_rating_a(item, source, ledger) for item in receptacles]
    names = _circuit_names(receptacles, ledger)
    listed = {circuit.id: circuit for circuit in source.circuits or ()}
    order = list(listed) + [name for name in dict.fromkeys(names) if name not in listed]
    circuits = tuple(
        _circuit(
            listed.get(name),
            name,
            [(receptacles[i], connections[i], ratings[i]) for i in range(len(receptacles)) if names[i] == name],
            source,
            ledger,
        )
        for name in order
    )
    settled_receptacles = tuple(
        SettledReceptacle(
            item.id,
            item.pointer,
            order.index(names[i]),
            item.type,
            connections[i],
            ratings[i],
            item.ground_fault,
            item.location,
        )
        for i, item in enumerate(receptacles)
    )
    _assume_earthing(source, settled_receptacles, ledger)
    if source.kind in ("vehicle", "battery_station") and source.sleeps_below_w is None:
        ledger.assume("sleeps_below", member_of(source.pointer, "sleeps_below"), USUAL_SLEEP_W, f"{USUAL_SLEEP_W:g} W")
    limits = _limits(source, circuits, ledger)
    reset, reset_pointer, stays_off = _reset(source, circuits, ledger)
    return SettledSource(
        source,
        source.supply.angles_rad,
        source.supply.leg_voltage_v,
        _resistance_ohm(source, circuits, limits, ledger),
        limits,
        circuits,
        settled_receptacles,
        reset,
        reset_pointer,
        stays_off,
    )


def _assume_earthing(source: PowerSource, receptacles: tuple[SettledReceptacle, ...], ledger: Ledger) -> None:
    """What is not known of ground-fault protection and neutral bond; neither has a figure."""
    if source.supply.kind in ("dc", "centre_tapped"):
        return
    for item in receptacles:
        if item.ground_fault is None:
            where = item.pointer if item.id == "assumed-receptacle" else member_of(item.pointer, "ground_fault")
            ledger.assume("ground_fault", where, None, "none")
    if source.kind != "site_supply" and source.neutral_bond is None:
        ledger.assume("neutral_bond", member_of(source.pointer, "neutral_bond"), None, "unknown")


def _connection(receptacle: Receptacle, source: PowerSource) -> str:
    """Which conductors it taps; its designation decides, else the supply."""
    legs = len(source.supply.angles_rad)
    if source.supply.kind == "centre_tapped":
        return "L-L"
    found = configuration(receptacle.type) if receptacle.type else None
    circuit = next((item for item in source.circuits or () if item.id == receptacle.circuit), None)
    if found is None and circuit is not None and circuit.legs is not None and len(circuit.legs) > 1:
        # of unknown pattern on a circuit of several legs: it may give all that the circuit has
        return "-".join(["L"] * len(circuit.legs) + ["N"])
    if found is None or legs == 1:
        # a two-wire receptacle of a single-leg supply taps its line and its neutral, whatever the pattern is called
        return "L-N"
    return found.connection


def _receptacle_rating_a(receptacle: Receptacle, source: PowerSource, ledger: Ledger) -> float:
    found = configuration(receptacle.type) if receptacle.type else None
    marked = receptacle.marked_a.typical if receptacle.marked_a else None
    if marked is not None:
        return min(marked, found.current_a) if found else marked
    if found is not None:
        return found.current_a
    system = "low" if source.supply.leg_voltage_v <= 150.0 else "high"
    smallest, usual = SMALLEST_RATING_A[system], USUAL_RATING_A[system]
    return ledger.assume(
        "receptacle_rating",
        member_of(receptacle.pointer, "marked") if receptacle.id != "assumed-receptacle" else receptacle.pointer,
        smallest,
        f"{smallest:g} A",
        usual,
        f"{usual:g} A",
    )


def _circuit_names(receptacles: tuple[Receptacle, ...], ledger: Ledger) -> list[str]:
    """A circuit for each receptacle; those without a named circuit share one, unlike marks or patterns no exception."""
    shared = ""
    taken = {item.circuit for item in receptacles if item.circuit}
    names: list[str] = []
    number = 0

    def fresh() -> str:
        nonlocal number
        number += 1
        while f"assumed-{number}" in taken:
            number += 1
        return f"assumed-{number}"

    for item in receptacles:
        if item.circuit is not None:
            names.append(item.circuit)
            continue
        if not shared:
            shared = fresh()
            names.append(shared)
            continue
        names.append(
            ledger.assume(
                "circuit_shared",
                member_of(item.pointer, "circuit"),
                shared,
                shared,
                f"own-{item.id}",
                "a circuit of its own",
            )
        )
    return names


def _circuit(
    listed: Circuit | None,
    name: str,
    served: list[tuple[Receptacle, str, float]],
    source: PowerSource,
    ledger: Ledger,
) -> SettledCircuit:
    pointer = source.pointer
    if listed is not None:
        pointer = listed.pointer
    elif served:
        first = served[0][0]
        pointer = first.pointer if first.id == "assumed-receptacle" else member_of(first.pointer, "circuit")
    legs_there = source.supply.legs
    if listed is not None and listed.legs:
        legs = tuple(LEG_NAMES.index(leg) for leg in listed.legs)
    else:
        need = max((_legs_needed(connection) for _, connection, _ in served), default=1)
        legs = tuple(range(min(max(need, 1), len(legs_there))))
        if len(legs_there) > len(legs):
            shown = " and ".join(LEG_NAMES[i] for i in legs)
            ledger.assume("circuit_leg", member_of(pointer, "legs") if listed else pointer, legs, shown)
    device = listed.device if listed else None
    marks = [rating for _, _, rating in served]
    if device is not None and device.rating_a is not None:
        rating_a = device.rating_a.typical
    elif marks:
        rating_a = max(marks)
        where = member_of(pointer, "device") if listed else pointer
        ledger.assume("circuit_rating", where, rating_a, f"{rating_a:g} A")
    else:
        rating_a = SMALLEST_RATING_A["low" if source.supply.leg_voltage_v <= 150.0 else "high"]
        ledger.assume("circuit_rating", member_of(pointer, "device"), rating_a, f"{rating_a:g} A")
    if listed is not None and listed.resistance_ohm is not None:
        resistance = listed.resistance_ohm
    else:
        resistance = CIRCUIT_WIRING_OHM
        ledger.assume(
            "circuit_resistance",
            member_of(source.pointer, "circuits"),
            resistance,
            f"{resistance.low:g}..{resistance.high:g} ohm",
        )
    low_a = device.rating_a.low if device is not None and device.rating_a is not None else rating_a
    return SettledCircuit(name, pointer, legs, resistance, rating_a, device, low_a)


def _legs_needed(connection: str) -> int:
    return connection.count("L")


def _circuit_va(circuit: SettledCircuit, source: PowerSource) -> float:
    """[VA] a full circuit carries: its rating on each of its legs, whatever their angles."""
    return circuit.rating_a * source.supply.leg_voltage_v * len(circuit.legs)


def _limits(source: PowerSource, circuits: tuple[SettledCircuit, ...], ledger: Ledger) -> tuple[SettledLimit, ...]:
    given = source.limits
    if source.kind == "engine_generator" and source.running is not None:
        where = member_of(source.pointer, "running")
        running = CapacityLimit("running", where, None, source.running, None, "voltage_dip")
        given = (*(given or ()), running)
    if given is None:
        if source.kind == "site_supply":
            return ()
        given = (CapacityLimit("assumed-output", member_of(source.pointer, "limits")),)
    return tuple(_limit(item, source, circuits, ledger) for item in given)


def _limit(
    limit: CapacityLimit, source: PowerSource, circuits: tuple[SettledCircuit, ...], ledger: Ledger
) -> SettledLimit:
    over = limit.over or ()
    legs = tuple(i for i, leg in enumerate(LEG_NAMES) if leg in over)
    named = tuple(i for i, circuit in enumerate(circuits) if circuit.id in over)
    covered = named or tuple(range(len(circuits)))
    all_legs = tuple(range(len(source.supply.angles_rad)))
    if limit.continuous is not None:
        band, unit = limit.continuous.band, _SI_UNIT.get(limit.continuous.unit, limit.continuous.unit)
        continuous, low = band.typical, band.low
    else:
        capacities = [_circuit_va(circuits[i], source) for i in covered] or [0.0]
        one, whole = max(capacities), sum(capacities)
        pointer = limit.pointer if limit.id == "assumed-output" else member_of(limit.pointer, "continuous")
        continuous = ledger.assume(
            "limit_continuous",
            pointer,
            one,
            f"{one:g} VA",
            whole if whole > one else None,
            f"{whole:g} VA",
        )
        unit, low = "VA", continuous
    return SettledLimit(
        limit.id,
        limit.pointer,
        covered,
        legs or all_legs,
        continuous,
        unit,
        _peak_a(limit, source, continuous, unit, len(legs or all_legs), ledger),
        limit.response,
        low,
        limit.peak_a is not None,
    )


def _peak_a(
    limit: CapacityLimit, source: PowerSource, continuous: float, unit: str, legs: int, ledger: Ledger
) -> float | None:
    if limit.peak_a is not None:
        return limit.peak_a.low
    if limit.id == AT_ALTITUDE:
        return None  # crests are the generator's, not the engine's
    electronic = source.kind in ("vehicle", "battery_station") or source.technology == "inverter"
    if not electronic:
        return None
    amps = continuous if unit == "A" else continuous / (source.supply.leg_voltage_v * legs)
    stated = [tier.amount for tier in limit.tiers or () if _SI_UNIT.get(tier.amount.unit, tier.amount.unit) == unit]
    most = max((tier.band.typical for tier in stated), default=0.0)
    scale = max(1.0, most / continuous) if most and continuous else OVERLOAD_FOR_SECONDS.typical
    peak = CREST_OF_SINE * amps * scale
    high = CREST_OF_SINE * amps * max(scale, OVERLOAD_FOR_SECONDS.high)
    return ledger.assume(
        "limit_peak",
        limit.pointer if limit.id in ("assumed-output", "running") else member_of(limit.pointer, "peak"),
        peak,
        f"{peak:.0f} A",
        high if high > peak * 1.01 else None,
        f"{high:.0f} A",
    )


def _resistance_ohm(
    source: PowerSource,
    circuits: tuple[SettledCircuit, ...],
    limits: tuple[SettledLimit, ...],
    ledger: Ledger,
) -> Band:
    volts = source.supply.leg_voltage_v
    legs = len(source.supply.angles_rad)
    if source.resistance is not None and source.resistance[1] != "pu":
        return source.resistance[0]
    if source.resistance is None and source.kind == "site_supply" and source.fault_current_a is not None:
        fault = source.fault_current_a
        return Band(volts / fault.high, volts / fault.typical, volts / fault.low)
    whole = [limit for limit in limits if len(limit.circuits) == len(circuits) and len(limit.legs) == legs]
    if whole:
        rating = max(limit.continuous * (volts * legs if limit.unit == "A" else 1.0) for limit in whole)
    else:
        # the largest circuit, not their sum: listing more outlets must not make a supply stiffer
        rating = max((_circuit_va(circuit, source) for circuit in circuits), default=0.0)
    usual = SITE_RESISTANCE_PU if source.kind == "site_supply" and not whole else SOURCE_RESISTANCE_PU
    per_unit = source.resistance[0] if source.resistance else usual
    base_ohm = volts * volts * legs / rating if rating > 0.0 else 0.0
    found = per_unit.times(base_ohm)
    if source.resistance is None:
        ledger.assume(
            "source_resistance",
            member_of(source.pointer, "resistance"),
            found,
            f"{per_unit.low:g}..{per_unit.high:g} pu",
        )
    return found


def _reset(source: PowerSource, circuits: tuple[SettledCircuit, ...], ledger: Ledger) -> tuple[Reset | None, str, bool]:
    """How power comes back after a trip, at worst: the reset, where it is said, and whether power may stay off.

    Every limit and every device has a reset of its own, or the source's. One that is not said is unknown, whatever is
    said of the others, and whether or not the caller listed it: None counts as automatic for danger and as manual for
    lost work.
    """
    openers = _openers(source, circuits)
    where = member_of(source.pointer, "reset")
    said = [(reset, pointer) for reset, pointer in openers if reset is not None]
    if source.reset is not None:
        said.append((source.reset, where))
    said = [(reset.as_it_acts, pointer) for reset, pointer in said]
    unsaid = source.reset is None and (not openers or any(reset is None for reset, _ in openers))
    stays_off = unsaid or any(reset.how != "automatic" for reset, _ in said)
    for how in ("automatic", "remote", "manual"):
        if how == "remote" and unsaid:
            assumed = ledger.assume("reset", where, Reset("automatic"), "automatic", Reset("manual"), "manual")
            if assumed.how == "automatic":
                return None, where, stays_off
        for reset, pointer in said:
            if reset.how == how:
                return reset, pointer, stays_off
    return Reset("manual"), where, stays_off


def _openers(source: PowerSource, circuits: tuple[SettledCircuit, ...]) -> list[tuple[Reset | None, str]]:
    """All that may open: limits that are stated, an output that nobody stated, and the device of every circuit."""
    found = [(item.reset, member_of(item.pointer, "reset")) for item in source.limits or ()]
    electronic = source.kind in ("vehicle", "battery_station")
    if source.kind == "engine_generator":
        # a set without electronics is slowed down by what is too much, and somebody starts it again
        electronic = source.technology in (None, "inverter")
    if source.limits is None and electronic:
        found.append((None, member_of(source.pointer, "limits")))
    for circuit in circuits:
        device = circuit.device
        own = device.reset if device is not None else None
        if own is None and device is not None and device.kind == "fuse":
            own = Reset("manual")  # somebody puts in a new one
        found.append((own, member_of(circuit.pointer, "device", "reset")))
    return found
