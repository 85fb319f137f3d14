"""Does power stay when it returns, how often is that tried, and how does it end?

What comes back at once flows through the device that opened, which is still warm, and counts at every limit of the
source, which is fresh. The hard estimate takes the earliest edge of a device and the reading of a limit that opens
first, the easy one the latest; the typical one takes typical currents and the latest edge. Amperes add as they are,
the upper bound. A try by hand is one try, made as soon as somebody has gone there.
Source: engine/physics power_return, protective_device, limit_events, stalled_winding.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ampwright.engine.calculations.after_trip.restart_runs import Returned
from ampwright.engine.calculations.after_trip.trip_resets import TripReset
from ampwright.engine.calculations.after_trip.trip_triggers import CIRCUIT, LIMIT, Trigger, limit_opens_s
from ampwright.engine.calculations.starts.starts import Starting
from ampwright.engine.physics.power_return import Reset, after_device_trip, after_trip
from ampwright.engine.physics.protective_device import Device, UnfitDevice, play
from ampwright.engine.physics.stalled_winding import (
    HOT_FROM_WORK_C,
    LOCKED_RISE_K_PER_S,
    WINDING_GONE_C,
    WINDING_TIME_S,
    winding_rise_k,
)
from ampwright.engine.physics.step_history import History, summed_history
from ampwright.engine.site.band import HIGH
from ampwright.engine.site.settled import SettledSite

NOTHING_ON, COMES_ON, SLOWLY, TRIPS = "nothing_on", "comes_on", "comes_on_slowly", "trips"
BY_HAND = "waits_for_person"


@dataclass(frozen=True, slots=True)
class Course:
    """One estimate of what follows a trip.

    outcome : of the first return. holds_s : how long that lasts, +inf for good. opens_again : (kind, index), None where
    it holds. ending, tries : of all returns. stuck : (tool, outcome) of what does not get going. winding_c : (tool,
    [C]) that its winding reaches.
    """

    outcome: str
    holds_s: float
    opens_again: tuple[str, int] | None
    ending: str
    tries: int
    stuck: tuple[tuple[int, str], ...]
    winding_c: tuple[tuple[int, float], ...]


def course_of(
    site: SettledSite,
    starting: Starting,
    trigger: Trigger,
    reset: TripReset,
    returned: Returned | None,
    estimate: int,
    own_protector: frozenset[int],
) -> Course:
    """The returns after one trip, by one estimate. returned : None where nothing is on.

    own_protector : tools whose motor surely has one, so that nothing is said of its winding.
    """
    played = reset.played(estimate, by_itself=reset.by_itself)
    if returned is None:
        ending = BY_HAND if not reset.by_itself else "locked_out" if played.tries == 0 else "stays_on"
        return Course(NOTHING_ON, math.inf, None, ending, 0 if ending != "stays_on" else 1, (), ())
    holds, opens = _holds(site, starting, trigger, played, returned, estimate)
    first_s = holds[0] if holds else math.inf
    stuck = tuple((one.tool, one.outcome) for one in returned.stuck)
    # an engine that dies is started again by nobody but a person
    dies = opens is None and first_s < math.inf
    after = after_trip(played, 0.0, holds or (math.inf,))
    ending, returns = (BY_HAND, 1) if dies else (after.ending, len(after.returns))
    tries = math.inf if ending == "goes_on_and_off" else float(returns)
    winding = tuple(
        (one.tool, _winding_c(estimate, one.current_ratio, first_s, played.after_s, tries))
        for one in returned.stuck
        if one.tool not in own_protector
    )
    return Course(
        _outcome(returned, first_s), first_s, opens, ending if reset.by_itself else BY_HAND, returns, stuck, winding,
    )  # fmt: skip


def _winding_c(estimate: int, current_ratio: float, on_s: float, off_s: float, tries: float) -> float:
    """[C] of a winding that was hot from work, at most where its insulation is gone."""
    rise_k = winding_rise_k(LOCKED_RISE_K_PER_S[estimate], current_ratio, WINDING_TIME_S[estimate], on_s, off_s, tries)
    return min(HOT_FROM_WORK_C[estimate] + rise_k, WINDING_GONE_C)


def _outcome(returned: Returned, first_s: float) -> str:
    if returned.off_s < math.inf:
        # an engine that dies is no limit's doing
        return "shuts_off" if returned.off_limit >= 0 else "collapses"
    if returned.stuck:
        return returned.stuck[0].outcome
    if first_s < math.inf:
        return TRIPS
    return SLOWLY if any(one.outcome == "starts_slowly" for one in returned.motors) else COMES_ON


def _holds(
    site: SettledSite, starting: Starting, trigger: Trigger, played: Reset, returned: Returned, estimate: int
) -> tuple[tuple[float, ...], tuple[str, int] | None]:
    """[s] that each try lasts, and what ends the first."""
    fixed_s = returned.off_s
    opens = (LIMIT, returned.off_limit) if returned.off_limit >= 0 else None
    for k, limit in enumerate(starting.limits):
        history = limit_history(returned, k)
        if not history[0] or max(history[1]) <= limit.continuous_a:
            continue
        off_s = limit_opens_s(limit, history, estimate)
        if off_s < fixed_s:
            fixed_s, opens = off_s, (LIMIT, k)
    own: tuple[float, ...] = (math.inf,)
    for c, device in enumerate(starting.devices):
        if device is None:
            continue
        history = circuit_history(site, returned, c)
        if not history[0] or max(history[1]) <= device.rating_a:
            continue
        if trigger.kind == CIRCUIT and trigger.index == c:
            own = _warm_holds(played, device, trigger.carried_a, history, estimate == HIGH)
            continue
        off_s = _cold_hold(device, history, estimate == HIGH)
        if off_s < fixed_s:
            fixed_s, opens = off_s, (CIRCUIT, c)
    holds = tuple(min(one, fixed_s) for one in own)
    if not holds or holds[0] == math.inf:
        return holds, None
    return holds, (CIRCUIT, trigger.index) if own[0] < fixed_s else opens


@lru_cache(maxsize=2048)
def _cold_hold(device: Device, history: History, earliest: bool) -> float:
    band = play(device, *history)
    return band.earliest_s if earliest else band.latest_assumed_s


@lru_cache(maxsize=2048)
def _warm_holds(played: Reset, device: Device, carried_a: float, history: History, earliest: bool) -> tuple[float, ...]:
    try:
        found = after_device_trip(played, device, ((math.inf,), (carried_a,)), history)[0 if earliest else 1]
    except UnfitDevice:
        return (math.inf,)
    if found is None:
        # its band says it held what is said to have opened it: the edge is not that of this estimate
        return (_cold_hold(device, history, earliest),)
    return tuple(one.trips_again_s - one.power_back_s for one in found.returns) or (math.inf,)


def circuit_history(site: SettledSite, returned: Returned, circuit: int) -> History:
    """[s] and [A] of a circuit from the return on."""
    parts: list[tuple[Sequence[float], Sequence[float]]] = []
    for draw in returned.draws:
        if site.source.receptacles[site.placements[draw.tool].receptacle].circuit == circuit:
            seconds, amps = draw.history
            parts.append((seconds, tuple(round(draw.at_circuit * a, 3) for a in amps)))
    fixed = returned.circuit_a[circuit]
    if not parts and fixed <= 0.0:
        return (), ()
    return summed_history([*parts, ((math.inf,), (fixed,))])


def limit_history(returned: Returned, k: int) -> History:
    """[s] and [A] of a limit as it counts them, from the return on."""
    parts: list[tuple[Sequence[float], Sequence[float]]] = [
        (draw.history[0], tuple(round(draw.at_limit[k] * a, 3) for a in draw.history[1]))
        for draw in returned.draws
        if draw.at_limit[k] > 0.0
    ]
    return summed_history([*parts, ((math.inf,), (returned.limit_a[k],))])
