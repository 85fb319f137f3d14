"""Does a dead short at the far end of a run go away before it ruins the cord, and in the time a rule layer asks for?

The loop is source, fixed wiring and the cords out and back with their contacts. Hot copper gives the smallest current
(does the device open?). A cord can be crushed anywhere, so that every current between that and a short at its plug has
to go away before the cord is ruined. An electronic source gives no more than it holds, so that the breaker behind it
may see only an overload: then its own shutdown or a ground-fault device is what protects, and the line says so. A
device is taken at its highest plausible rating.

Source: engine/physics/fault_loop, protective_device, cord_heating_course; short-time limits IEC 60364-4-43 table 43A
(memory); disconnection times IEC 60364-4-41 table 41.1 (memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from ampwright.engine.calculations.cord_sizing.cord_sizing_full_voltage import FullVoltage
from ampwright.engine.calculations.cord_sizing.cord_sizing_heat import highest_rating_a, plug_fuse_a, usual_standard
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import WORKING, SolvedRun
from ampwright.engine.calculations.network.circuit_trip import protective_device
from ampwright.engine.calculations.network.cord_heat import cord_time_constants_s
from ampwright.engine.physics.conductor_impedance import FLEXIBLE_CORD_REACTANCE_OHM_PER_M
from ampwright.engine.physics.cord_heating import RATED_AMBIENT_C, RATED_COPPER_C, copper_resistance_ratio
from ampwright.engine.physics.cord_heating_course import time_to_heat_s
from ampwright.engine.physics.cord_short_overload import SHORT_TIME_LIMITS
from ampwright.engine.physics.fault_loop import electronic_fault_current_a, stiff_fault_current_a
from ampwright.engine.physics.protective_device import Device, UnfitDevice, play
from ampwright.engine.site.band import HIGH, Band
from ampwright.engine.site.settle_source import OVERLOAD_FOR_SECONDS
from ampwright.engine.site.settled import SettledCircuit, SettledCord, SettledLimit
from ampwright.engine.standards.cord_ratings import cord_type
from ampwright.engine.standards.rule_layers import clauses

TRANSIENT_REACTANCE_PU = Band(0.15, 0.20, 0.25)  # of an engine set where not given; common practice, no source
# [V to earth, s]: IEC 60364-4-41 (2005) table 41.1, TN and TT, from memory; 411.8 for reduced low voltage
DISCONNECTION_S = {"tn": ((120.0, 0.8), (230.0, 0.4), (400.0, 0.2)), "tt": ((120.0, 0.3), (230.0, 0.2), (400.0, 0.07))}
REDUCED_LOW_VOLTAGE_S = 5.0
RUNGS_A_DECADE = 20
AT_ONCE_S = 0.1  # instantaneous in IEC 60898-1 table 7 and UL 489
# half a cycle of 50 Hz where energy is limited by class, a cycle of 60 Hz elsewhere; common practice, no source
MAGNETIC_S = {"iec_60898_1": 0.010, "ul_489": 0.0167}


@dataclass(frozen=True, slots=True)
class FaultLoop:
    """Current of a dead short [A] at the far end and at the plug.

    held : whether the source itself limits it. response : what the source is said to do then.
    """

    smallest_a: float
    largest_a: float
    held: bool
    response: str | None


def fault_lines(solved: SolvedRun, full: FullVoltage, layers: tuple[str, ...]) -> tuple[Line, ...]:
    """Whether the fault is cleared, and, where a layer asks, how fast."""
    warm = tuple(full.copper(WORKING, k).high for k in range(len(solved.cords)))
    loop = fault_loop(solved, warm)
    return (_clearing(solved, loop, warm), *_disconnection(solved, loop, layers))


def fault_loop(solved: SolvedRun, warm_c: tuple[float, ...]) -> FaultLoop:
    """Currents of a short between a line and the neutral or the protective conductor along the run.

    warm_c : [C] copper of each cord while the tool works.
    """
    source = solved.site.source
    circuit = _circuit(solved)
    reactance = 0.0
    if source.source.supply.kind != "dc":
        reactance = sum(2.0 * cord.length_m.high * FLEXIBLE_CORD_REACTANCE_OHM_PER_M for cord in solved.cords)
    near = source.resistance_ohm.low + circuit.resistance_ohm.low
    hot = (
        source.resistance_ohm.high
        + circuit.resistance_ohm.high
        + 2.0 * (len(solved.cords) + 1) * solved.site.contact_ohm.high
        + sum(
            2.0 * cord.length_m.high * cord.resistance_20c_ohm_per_m * copper_resistance_ratio(warm)
            for cord, warm in zip(solved.cords, warm_c, strict=True)
        )
    )
    volts = source.leg_voltage_v
    limit = _limit_before(solved)
    kind, technology = source.source.kind, source.source.technology
    if kind in ("vehicle", "battery_station") or technology == "inverter":
        held = _held_a(solved, limit)
        return FaultLoop(
            electronic_fault_current_a(volts, hot, reactance, held[0]),
            electronic_fault_current_a(volts, near, 0.0, held[1]),
            stiff_fault_current_a(volts, near, 0.0) > held[0],
            limit.response if limit else None,
        )
    if kind == "engine_generator":
        base = _rated_a(solved, limit)
        per_unit = source.source.transient_reactance_pu or TRANSIENT_REACTANCE_PU
        behind = per_unit.low * volts / base if base > 0.0 else 0.0
        # once the field has died down a set gives about its rated current, less where it excites itself
        return FaultLoop(
            electronic_fault_current_a(volts, hot, reactance, base),
            stiff_fault_current_a(volts, near, behind),
            True,
            "voltage_dip",
        )
    return FaultLoop(stiff_fault_current_a(volts, hot, reactance), stiff_fault_current_a(volts, near, 0.0), False, None)


def _circuit(solved: SolvedRun) -> SettledCircuit:
    source = solved.site.source
    return source.circuits[source.receptacles[solved.placement.receptacle].circuit]


def _limit_before(solved: SolvedRun) -> SettledLimit | None:
    """The smallest limit of the source that covers the circuit."""
    source = solved.site.source
    at = source.receptacles[solved.placement.receptacle].circuit
    covering = [limit for limit in source.limits if at in limit.circuits]
    return min(covering, key=lambda limit: (_amps(solved, limit), limit.id), default=None)


def _amps(solved: SolvedRun, limit: SettledLimit) -> float:
    volts = solved.site.source.leg_voltage_v * max(1, len(limit.legs))
    return limit.continuous if limit.unit == "A" else limit.continuous / volts


def _rated_a(solved: SolvedRun, limit: SettledLimit | None) -> float:
    return _amps(solved, limit) if limit else _circuit(solved).rating_a


def _held_a(solved: SolvedRun, limit: SettledLimit | None) -> tuple[float, float]:
    """[A] the least and the most an electronic source holds in a short: continuous to its highest overload."""
    rated = _rated_a(solved, limit)
    stated = [
        tier.amount.band.high * rated / limit.continuous
        for item in solved.site.source.source.limits or ()
        if limit is not None and item.id == limit.id and limit.continuous > 0.0
        for tier in item.tiers or ()
        if tier.amount.unit == limit.unit
    ]
    return rated * OVERLOAD_FOR_SECONDS.low, max(stated, default=rated * OVERLOAD_FOR_SECONDS.high)


@lru_cache(maxsize=16384)
def _opens_s(device: Device, current_a: float) -> float:
    """[s] latest assumed opening under a current that stays; inf where it holds or has no band."""
    try:
        return play(device, (math.inf,), (current_a,)).latest_assumed_s
    except UnfitDevice:
        return math.inf


def device_before(solved: SolvedRun) -> tuple[Device, bool]:
    """The device at its highest plausible rating, and whether its kind was stated."""
    circuit = _circuit(solved)
    rating = highest_rating_a(solved)
    stated = protective_device(circuit.device, rating)
    if stated is not None:
        return stated, True
    return Device("iec_60898_1", rating, "C") if usual_standard(solved) != "ul_489" else Device("ul_489", rating), False


def bears_s(solved: SolvedRun, warm_c: tuple[float, ...], current_a: float) -> float:
    """[s] the shortest time in which this current ruins one of the cords; inf where none is."""
    return min(_bears_s(solved, warm_c[k], cord, current_a) for k, cord in enumerate(solved.cords))


def short_time_limit_c(cord: SettledCord) -> float:
    """[C] what the insulation bears for seconds: rubber 200, else that of PVC."""
    known = cord_type(cord.type) if cord.type else None
    rubber = known is not None and known.insulation == "rubber"
    return SHORT_TIME_LIMITS["rubber_60" if rubber else "pvc_70"][1]


def _bears_s(solved: SolvedRun, warm_c: float, cord: SettledCord, current_a: float) -> float:
    limit = short_time_limit_c(cord)
    ambient = solved.site.ambient_c.high
    return time_to_heat_s(
        min(warm_c, limit),
        limit,
        current_a,
        ambient,
        cord.ampacity_a,
        RATED_AMBIENT_C,
        RATED_COPPER_C,
        limit,
        cord.lay_factor,
        cord_time_constants_s(cord)[HIGH],
    )


def clearing_line(solved: SolvedRun, warm_c: tuple[float, ...]) -> Line:
    """Whether a short along a run goes away before a cord of it is ruined; `warm_c` [C] is the copper before."""
    return _clearing(solved, fault_loop(solved, warm_c), warm_c)


def _clearing(solved: SolvedRun, loop: FaultLoop, warm_c: tuple[float, ...]) -> Line:
    device, stated = device_before(solved)
    fuse = plug_fuse(solved)
    currents = _between(loop)
    opens = [min(_magnetic_s(device, _opens_s(device, amps)), _fuse_opens_s(fuse, amps)) for amps in currents]
    bears = [bears_s(solved, warm_c, amps) for amps in currents]
    protected = solved.site.source.receptacles[solved.placement.receptacle].ground_fault not in (None, "none")
    unsafe = [n for n in range(len(currents)) if opens[n] > bears[n]]
    stated = (stated or fuse is not None) and _source_is_known(solved)
    advisory, finding = False, "fault_not_cleared"
    if not unsafe:
        verdict, outcome = "pass", "device_opens" if min(opens) < math.inf else "cord_bears_it"
    elif loop.response == "shutdown":
        verdict, outcome = "pass", "source_shuts_down"
    elif loop.held and loop.response != "current_limiting":
        verdict, outcome, advisory, finding = "marginal", "source_response_unknown", True, "fault_clearing_unknown"
    elif protected:
        verdict, outcome = "marginal", "ground_fault_device_only"
    elif not stated and not loop.held:
        verdict, outcome, advisory, finding = "marginal", "device_unknown", True, "fault_clearing_unknown"
    else:
        verdict, outcome = "fail", "opens_too_late" if opens[unsafe[-1]] < math.inf else "nothing_opens"
    # the current that leaves the least time is told: the largest of those that are not cleared
    shown = unsafe[-1] if unsafe else max(range(len(currents)), key=lambda n: (_share(opens[n], bears[n]), n))
    band = Band.exactly(_seconds(opens[shown])) if opens[shown] < math.inf else None
    by_earth = "its ground-fault device, and only a fault to earth," if protected else "the source's own shutdown"
    return Line(
        "fault_clearing",
        "safety",
        verdict,
        solved.site.source.receptacles[solved.placement.receptacle].pointer,
        solved.run_name,
        finding=finding,
        advisory=advisory,
        figure="trip_s" if band else None,
        unit="s",
        value=band,
        limit=_seconds(bears[shown]) if bears[shown] < math.inf else None,
        outcome=outcome,
        value_text=_amps_text(loop),
        limit_text=by_earth,
        rules=("disconnection_time", "set_earthing"),
        basis=tuple(
            (_CITATIONS[item.standard], None) for item in (device, fuse) if item and item.standard in _CITATIONS
        ),
    )


# the table that a device's points are copies of; of gG fuses none is held
_CITATIONS = {
    "iec_60898_1": "iec-60898-1_t7",
    "ul_489": "ul-489_points",
    "ul_1077": "ul-1077_points",
    "iec_60934": "iec-60934_points",
    "bs_1362": "bs-1362_points",
}


def _fuse_opens_s(fuse: Device | None, current_a: float) -> float:
    return math.inf if fuse is None else _opens_s(fuse, current_a)


def plug_fuse(solved: SolvedRun) -> Device | None:
    """The fuse in the plug of the first cord, the largest it may be; None where its pattern has none."""
    rating = plug_fuse_a(solved)
    return None if rating is None else Device("bs_1362", rating)


def _share(opens_s: float, bears_s: float) -> float:
    """How much of the time that the cord bears is used up before the device opens."""
    return 0.0 if bears_s == math.inf else opens_s / bears_s if bears_s > 0.0 else math.inf


def _magnetic_s(device: Device, opens_s: float) -> float:
    """[s] a release that surely is magnetic opens within a cycle; the standard's tenth of a second is a test limit."""
    if opens_s > AT_ONCE_S:
        return opens_s
    return min(opens_s, MAGNETIC_S.get(device.standard, opens_s))


def _between(loop: FaultLoop) -> tuple[float, ...]:
    """[A] the current at the far end and a fixed ladder of those above it, up to that at the plug.

    The rungs stand still whatever the run, so that a shorter run has no current to pass that a longer one had not.
    """
    rungs = (10.0 ** (n / RUNGS_A_DECADE) for n in range(5 * RUNGS_A_DECADE))
    largest = min(loop.largest_a, 1e5)
    return (
        loop.smallest_a,
        *(amps for amps in rungs if loop.smallest_a < amps < largest),
        max(largest, loop.smallest_a),
    )


def _amps_text(loop: FaultLoop) -> str:
    low, high = (f"{amps:.0f}" for amps in (loop.smallest_a, loop.largest_a))
    return f"{low} A" if low == high else f"{low} to {high} A"


def _seconds(value: float) -> float:
    return float(f"{min(value, 1e8):.3g}")


def _source_is_known(solved: SolvedRun) -> bool:
    """Whether the impedance before the receptacle was stated; of a network it decides what a short draws."""
    source = solved.site.source.source
    return source.kind != "site_supply" or source.resistance is not None or source.fault_current_a is not None


def _disconnection(solved: SolvedRun, loop: FaultLoop, layers: tuple[str, ...]) -> tuple[Line, ...]:
    asked = clauses("disconnection_time", layers)
    supply = solved.site.source.source.supply
    if not asked or supply.kind == "dc":
        return ()
    receptacle = solved.site.source.receptacles[solved.placement.receptacle]
    limit = disconnection_limit_s(supply.kind, supply.leg_voltage_v, solved.site.source.source.earthing)
    advisory = False
    if receptacle.ground_fault not in (None, "none"):
        verdict, outcome, value = "pass", "residual_current_device", None
    else:
        device, stated = device_before(solved)
        fuse = plug_fuse(solved)
        stated = stated or fuse is not None
        opens = min(_opens_s(device, loop.smallest_a), _fuse_opens_s(fuse, loop.smallest_a))
        value = _seconds(opens) if opens < math.inf else None
        outcome = "device_opens" if value is not None else "nothing_opens"
        advisory = not stated or not _source_is_known(solved)
        verdict = "unknown" if advisory else "pass" if opens <= limit else "fail"
    return (
        Line(
            "disconnection_time",
            "code",
            verdict,
            receptacle.pointer,
            solved.run_name,
            finding="fault_clearing_unknown" if advisory else "disconnection_too_slow",
            advisory=advisory,
            figure="trip_s",
            unit="s",
            value=None if value is None else Band.exactly(value),
            limit=limit,
            outcome=outcome,
            value_text=_amps_text(loop),
            rules=("disconnection_time",),
        ),
    )


def disconnection_limit_s(kind: str, to_earth_v: float, earthing: str | None) -> float:
    """[s] longest time to cut off a fault to earth. Source: IEC 60364-4-41 table 41.1, 411.8, from memory."""
    if kind == "centre_tapped":
        return REDUCED_LOW_VOLTAGE_S
    table = DISCONNECTION_S["tt" if earthing == "tt" else "tn"]
    return next((seconds for volts, seconds in table if to_earth_v <= volts), table[-1][1])
