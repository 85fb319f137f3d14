"""Which limits does a source lay on a start, for how long does each allow more, and what then?

A limit in W, VA or A becomes amperes: electronics limit current, so W and VA are read at the leg's nominal voltage, and
W as VA. What a label leaves open is taken on its harder side through the ledger: tiers (none, 1.2 x, 2 x for 5 s from
hard to easy), the response (switching off and limiting without end are both played, the worse counts), and what a
source that switches off does beyond its highest tier (at once, or at the end of that tier's time).
A crest limit counts where it is stated; an assumed one would say no more than the tiers do.
Engine sets without electronics have none: their voltage and frequency give way (start_runs.py).
Source: common practice, no source; engine/physics/limit_events.py, assumptions L-01 to L-05.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.physics.source_limit_state import LIMITS, LIMITS_FOR_A_TIME, SHUTS_DOWN
from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledSite, SettledSource
from ampwright.engine.site.source import Capacity, Tier

UNKNOWN_TIERS = (((2.0, 5.0),), ((1.2, 5.0),), ())  # multiples of the continuous value and seconds: easy, typical, hard
STARTING_LASTS_S = Band(2.0, 5.0, 10.0)  # of a set's starting watts; no standard defines it
MOST_TIERS = 3

Tiers = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class TimedLimit:
    """One limit over `circuits` and `legs`, in amperes.

    per_leg : whether it counts each leg for itself, else the sum over its legs. tiers : ((amperes, seconds), ...) by
    estimate, easy to hard. responses : kernel codes to be played, by estimate. response_known : whether it was said.
    """

    id: str
    pointer: str
    response_pointer: str
    circuits: tuple[int, ...]
    legs: tuple[int, ...]
    per_leg: bool
    continuous_a: float
    tiers: tuple[Tiers, Tiers, Tiers]
    responses: tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]
    response_known: bool
    crest_a: float

    def covers(self, circuit: int, conductors: tuple[int, ...]) -> bool:
        return circuit in self.circuits and any(leg in self.legs for leg in conductors)


def set_technology(site: SettledSite, ledger: Ledger) -> str | None:
    """How an engine set holds its voltage: avr, capacitor_regulated or inverter; None for any other source."""
    source = site.source.source
    if source.kind != "engine_generator":
        return None
    return source.technology or ledger.assume(
        "engine_technology", member_of(source.pointer, "technology"), "capacitor_regulated",
        "with or without a regulator, the worse of both", "avr", "a set with a voltage regulator",
    )  # fmt: skip


def timed_limits(site: SettledSite, technology: str | None, ledger: Ledger) -> tuple[TimedLimit, ...]:
    """Every electronic limit of a source: its own, and circuits whose device is electronic."""
    source = site.source
    electronic = source.source.kind in ("vehicle", "battery_station") or technology == "inverter"
    found: list[TimedLimit] = []
    given = {limit.id: limit for limit in source.source.limits or ()}
    for limit in source.limits:
        own = given.get(limit.id)
        response = own.response if own is not None else None
        if response == "voltage_dip" or (response is None and not electronic):
            continue
        pointer = limit.pointer if own is None else member_of(limit.pointer, "tiers")
        at_response = limit.pointer if own is None else member_of(limit.pointer, "response")
        tiers = own.tiers if own is not None else None
        if tiers is None and source.source.kind == "engine_generator" and source.source.starting is not None:
            tiers = (Tier(source.source.starting, STARTING_LASTS_S),)
        found.append(
            _timed(
                limit.id, limit.pointer, pointer, at_response, limit.circuits, limit.legs, limit.unit,
                limit.continuous, tiers, response, limit.peak_a if own is not None and own.peak_a else None, source,
                ledger,
            )
        )  # fmt: skip
    for i, circuit in enumerate(source.circuits):
        device = circuit.device
        if device is None or device.kind != "electronic":
            continue
        where = member_of(circuit.pointer, "device")
        found.append(
            _timed(
                circuit.id, circuit.pointer, where, where, (i,), circuit.legs, "A", circuit.rating_a, device.tiers,
                device.response, None, source, ledger,
            )
        )  # fmt: skip
    return tuple(found)


def _amperes(amount: float, unit: str, source: SettledSource, legs: int, per_leg: bool) -> float:
    """Amperes of a leg, or summed over legs, as the limit counts them."""
    if unit == "A":
        return amount if per_leg else amount * legs
    return amount / source.leg_voltage_v / (legs if per_leg else 1)


def _timed(
    limit_id: str,
    pointer: str,
    at_tiers: str,
    at_response: str,
    circuits: tuple[int, ...],
    legs: tuple[int, ...],
    unit: str,
    continuous: float,
    tiers: tuple[Tier, ...] | None,
    response: str | None,
    crest_a: float | None,
    source: SettledSource,
    ledger: Ledger,
) -> TimedLimit:
    unit = {"kVA": "VA", "kW": "W"}.get(unit, unit)
    per_leg = unit == "A"
    amps = _amperes(continuous, unit, source, len(legs), per_leg)
    by_estimate = _tiers(at_tiers, amps, len(legs), per_leg, tiers, source, ledger)
    responses = _responses(at_response, response, by_estimate, ledger)
    # taken the other way, what nobody said is said
    known = response is not None or all(len(each) == 1 for each in responses)
    return TimedLimit(
        limit_id, pointer, at_response, circuits, legs, per_leg, amps, by_estimate, responses, known, crest_a or 0.0
    )


def _tiers(
    pointer: str,
    amps: float,
    legs: int,
    per_leg: bool,
    tiers: tuple[Tier, ...] | None,
    source: SettledSource,
    ledger: Ledger,
) -> tuple[Tiers, Tiers, Tiers]:
    if tiers is None:
        easy = UNKNOWN_TIERS[0]
        multiples = ledger.assume(
            "limit_tiers", pointer, UNKNOWN_TIERS, "1..1.2..2 x for 5 s", (easy, easy, easy), "2 x for 5 s"
        )
        found = [tuple((amps * ratio, seconds) for ratio, seconds in row) for row in multiples]
        return found[0], found[1], found[2]
    rows: list[Tiers] = []
    for estimate in range(3):
        weak = 2 - estimate
        row = sorted((_tier_a(tier.amount, weak, legs, per_leg, source), tier.lasts_s.at(weak)) for tier in tiers)
        rows.append(_falling([item for item in row if item[0] > amps])[-MOST_TIERS:])
    return rows[0], rows[1], rows[2]


def _falling(row: list[tuple[float, float]]) -> Tiers:
    """A source that bears more for longer bears less for as long: the order that units at this voltage may upset."""
    longest = 0.0
    found: list[tuple[float, float]] = []
    for amps, seconds in reversed(row):
        longest = max(longest, seconds)
        if not found or amps < found[-1][0]:
            found.append((amps, longest))
    return tuple(reversed(found))


def _tier_a(amount: Capacity, estimate: int, legs: int, per_leg: bool, source: SettledSource) -> float:
    unit = {"kVA": "VA", "kW": "W"}.get(amount.unit, amount.unit)
    return _amperes(amount.band.at(estimate), unit, source, legs, per_leg)


def _responses(
    pointer: str, response: str | None, tiers: tuple[Tiers, Tiers, Tiers], ledger: Ledger
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    if response == "current_limiting":
        return (LIMITS,), (LIMITS,), (LIMITS,)
    off: tuple[int, int, int] = (SHUTS_DOWN, SHUTS_DOWN, SHUTS_DOWN)
    if any(tiers):
        off = ledger.assume(
            "overload_policy", pointer, (LIMITS_FOR_A_TIME, SHUTS_DOWN, SHUTS_DOWN),
            "at once, beyond the highest overload", (LIMITS_FOR_A_TIME,) * 3, "at the end of its time",
        )  # fmt: skip
    if response == "shutdown":
        return (off[0],), (off[1],), (off[2],)
    # unknown: both, and where it is taken the other way the kinder of the two for capacity
    both = ((off[0], LIMITS), (off[1], LIMITS), (off[2], LIMITS))
    only = ((LIMITS,), (LIMITS,), (LIMITS,))
    return ledger.assume(
        "limit_response", pointer, both, "switching off and limiting both tried", only, "limits without end"
    )
