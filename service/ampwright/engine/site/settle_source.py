"""What can be counted on of a source whose figures are partly unknown?

The safe side: receptacles share a circuit unless their circuits are named, a circuit carries what its receptacles are
marked, and a source without a stated output carries one full circuit.
Source: common practice, no source; configurations from engine/standards/plugs.
"""

from __future__ import annotations

import cmath

from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settled import SettledCircuit, SettledLimit, SettledReceptacle, SettledSource
from ampwright.engine.site.source import LEG_NAMES, CapacityLimit, Circuit, PowerSource, Receptacle, Reset
from ampwright.engine.standards.plugs import configuration

CIRCUIT_WIRING_OHM = Band(0.01, 0.02, 0.04)  # out and back; common practice, no source
SOURCE_RESISTANCE_PU = Band(0.02, 0.05, 0.08)  # common practice, no source
CREST_OF_SINE = 2.0**0.5
OVERLOAD_FOR_SECONDS = Band(1.0, 1.2, 2.0)  # of continuous; common practice, no source
SMALLEST_RATING_A = {"low": 15.0, "high": 10.0}  # below and above 150 V to neutral
USUAL_RATING_A = 20.0
USUAL_SLEEP_W = 15.0  # of 8 to 15 W; common practice, no source


def member(pointer: str, name: str) -> str:
    """Pointer to a member of an object of the request; what came from the catalogue points at its reference."""
    return pointer if pointer.endswith("/entry") else f"{pointer}/{name}"


def line_voltage_v(leg_voltage_v: float, angles_rad: tuple[float, ...]) -> float:
    """[V] between the first two legs, 0 where there is only one."""
    if len(angles_rad) < 2:
        return 0.0
    return abs(leg_voltage_v * (cmath.exp(1j * angles_rad[0]) - cmath.exp(1j * angles_rad[1])))


def settle_source(source: PowerSource, ledger: Ledger) -> SettledSource:
    """A source with every value settled; each default goes through the ledger."""
    receptacles = source.receptacles or ()
    if not receptacles:
        pointer = member(source.pointer, "receptacles")
        ledger.assume("receptacle_assumed", pointer, None, "one receptacle")
        receptacles = (Receptacle("assumed-receptacle", pointer),)
    connections = [_connection(item, source) for item in receptacles]
    ratings = [_receptacle_rating_a(item, source, ledger) for item in receptacles]
    names = _circuit_names(receptacles, connections, ratings, ledger)
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
        ledger.assume("sleeps_below", member(source.pointer, "sleeps_below"), USUAL_SLEEP_W, f"{USUAL_SLEEP_W:g} W")
    limits = _limits(source, circuits, ledger)
    reset, reset_pointer = _reset(source, ledger)
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
    )


def _assume_earthing(source: PowerSource, receptacles: tuple[SettledReceptacle, ...], ledger: Ledger) -> None:
    """What is not known of ground-fault protection and neutral bond; neither has a figure."""
    if source.supply.kind in ("dc", "centre_tapped"):
        return
    for item in receptacles:
        if item.ground_fault is None:
            where = item.pointer if item.id == "assumed-receptacle" else member(item.pointer, "ground_fault")
            ledger.assume("ground_fault", where, None, "none")
    if source.kind != "site_supply" and source.neutral_bond is None:
        ledger.assume("neutral_bond", member(source.pointer, "neutral_bond"), None, "unknown")


def _connection(receptacle: Receptacle, source: PowerSource) -> str:
    """Which conductors it taps; its designation decides, else the supply."""
    legs = len(source.supply.angles_rad)
    if source.supply.kind == "centre_tapped":
        return "L-L"
    found = configuration(receptacle.type) if receptacle.type else None
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
    smallest = SMALLEST_RATING_A["low" if source.supply.leg_voltage_v <= 150.0 else "high"]
    return ledger.assume(
        "receptacle_rating",
        member(receptacle.pointer, "marked") if receptacle.id != "assumed-receptacle" else receptacle.pointer,
        smallest,
        f"{smallest:g} A",
        USUAL_RATING_A,
        f"{USUAL_RATING_A:g} A",
    )


def _circuit_names(
    receptacles: tuple[Receptacle, ...], connections: list[str], ratings: list[float], ledger: Ledger
) -> list[str]:
    """A circuit for each receptacle; those of one kind and rating without a named circuit share one."""
    shared: dict[tuple[str, float], str] = {}
    taken = {item.circuit for item in receptacles if item.circuit}
    names: list[str] = []
    number = 0

    def fresh() -> str:
        nonlocal number
        number += 1
        while f"assumed-{number}" in taken:
            number += 1
        return f"assumed-{number}"

    for item, connection, rating in zip(receptacles, connections, ratings, strict=True):
        if item.circuit is not None:
            names.append(item.circuit)
            continue
        group = (connection, rating)
        if group not in shared:
            shared[group] = fresh()
            names.append(shared[group])
            continue
        names.append(
            ledger.assume(
                "circuit_shared",
                member(item.pointer, "circuit"),
                shared[group],
                shared[group],
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
    pointer = listed.pointer if listed else (member(served[0][0].pointer, "circuit") if served else source.pointer)
    legs_there = source.supply.legs
    if listed is not None and listed.legs:
        legs = tuple(LEG_NAMES.index(leg) for leg in listed.legs)
    else:
        need = max((_legs_needed(connection) for _, connection, _ in served), default=1)
        legs = tuple(range(min(max(need, 1), len(legs_there))))
        if len(legs_there) > len(legs):
            shown = " and ".join(LEG_NAMES[i] for i in legs)
            ledger.assume("circuit_leg", member(pointer, "legs") if listed else pointer, legs, shown)
    device = listed.device if listed else None
    marks = [rating for _, _, rating in served]
    if device is not None and device.rating_a is not None:
        rating_a = device.rating_a.typical
    elif marks:
        rating_a = max(marks)
        ledger.assume("circuit_rating", member(pointer, "device") if listed else pointer, rating_a, f"{rating_a:g} A")
    else:
        rating_a = SMALLEST_RATING_A["low" if source.supply.leg_voltage_v <= 150.0 else "high"]
        ledger.assume("circuit_rating", member(pointer, "device"), rating_a, f"{rating_a:g} A")
    if listed is not None and listed.resistance_ohm is not None:
        resistance = listed.resistance_ohm
    else:
        resistance = CIRCUIT_WIRING_OHM
        ledger.assume(
            "circuit_resistance",
            member(source.pointer, "circuits"),
            resistance,
            f"{resistance.low:g}..{resistance.high:g} ohm",
        )
    return SettledCircuit(name, pointer, legs, resistance, rating_a, device)


def _legs_needed(connection: str) -> int:
    return connection.count("L")


def _circuit_va(circuit: SettledCircuit, source: PowerSource) -> float:
    volts = source.supply.leg_voltage_v
    if len(circuit.legs) == 1 or source.supply.kind == "dc":
        return circuit.rating_a * volts
    if source.supply.kind == "three_phase" and len(circuit.legs) == 3:
        return circuit.rating_a * volts * 3.0
    return circuit.rating_a * line_voltage_v(volts, source.supply.angles_rad)


def _limits(source: PowerSource, circuits: tuple[SettledCircuit, ...], ledger: Ledger) -> tuple[SettledLimit, ...]:
    given = source.limits
    if given is None and source.kind == "engine_generator" and source.running is not None:
        given = (
            CapacityLimit("running", member(source.pointer, "running"), None, source.running, None, "voltage_dip"),
        )
    if given is None:
        if source.kind == "site_supply":
            return ()
        given = (CapacityLimit("assumed-output", member(source.pointer, "limits")),)
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
        continuous, unit = limit.continuous.band.typical, limit.continuous.unit
    else:
        capacities = [_circuit_va(circuits[i], source) for i in covered] or [0.0]
        one, whole = max(capacities), sum(capacities)
        pointer = limit.pointer if limit.id == "assumed-output" else member(limit.pointer, "continuous")
        continuous = ledger.assume(
            "limit_continuous",
            pointer,
            one,
            f"{one:g} VA",
            whole if whole > one else None,
            f"{whole:g} VA",
        )
        unit = "VA"
    return SettledLimit(
        limit.id,
        limit.pointer,
        covered,
        legs or all_legs,
        continuous,
        unit,
        _peak_a(limit, source, continuous, unit, len(legs or all_legs), ledger),
        limit.response,
    )


def _peak_a(
    limit: CapacityLimit, source: PowerSource, continuous: float, unit: str, legs: int, ledger: Ledger
) -> float | None:
    if limit.peak_a is not None:
        return limit.peak_a.typical
    electronic = source.kind in ("vehicle", "battery_station") or source.technology == "inverter"
    if not electronic:
        return None
    amps = continuous if unit == "A" else continuous / (source.supply.leg_voltage_v * legs)
    stated = [tier.amount for tier in limit.tiers or () if tier.amount.unit == unit]
    most = max((tier.band.typical for tier in stated), default=0.0)
    scale = max(1.0, most / continuous) if most and continuous else OVERLOAD_FOR_SECONDS.typical
    peak = CREST_OF_SINE * amps * scale
    high = CREST_OF_SINE * amps * max(scale, OVERLOAD_FOR_SECONDS.high)
    return ledger.assume(
        "limit_peak",
        limit.pointer if limit.id in ("assumed-output", "running") else member(limit.pointer, "peak"),
        peak,
        f"{peak:.0f} A",
        high,
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
        rating = sum(_circuit_va(circuit, source) for circuit in circuits)
    per_unit = source.resistance[0] if source.resistance else SOURCE_RESISTANCE_PU
    base_ohm = volts * volts * legs / rating if rating > 0.0 else 0.0
    found = per_unit.times(base_ohm)
    if source.resistance is None:
        ledger.assume(
            "source_resistance",
            member(source.pointer, "resistance"),
            found,
            f"{per_unit.low:g}..{per_unit.high:g} pu",
        )
    return found


def _reset(source: PowerSource, ledger: Ledger) -> tuple[Reset | None, str]:
    """The least safe reset that any device of the source has; None (unknown) counts as automatic."""
    found: list[tuple[Reset, str]] = []
    if source.reset:
        found.append((source.reset, member(source.pointer, "reset")))
    found += [(item.reset, item.pointer) for item in source.limits or () if item.reset]
    found += [(item.device.reset, item.pointer) for item in source.circuits or () if item.device and item.device.reset]
    for reset, pointer in found:
        if reset.how == "automatic":
            return reset, pointer
    if found:
        return found[0]
    pointer = member(source.pointer, "reset")
    assumed = ledger.assume("reset", pointer, Reset("automatic"), "automatic", Reset("manual"), "manual")
    return (None if assumed.how == "automatic" else assumed), pointer
