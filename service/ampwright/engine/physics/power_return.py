"""When does power come back after a trip, does it stay, and who has to go where?

A reset that is automatic switches on again after a delay, a number of times, and then locks out until a person comes.
A try succeeds when the load that is still switched on is borne for its whole restart; the load is played anew each
time, an electronic limit fresh, a thermal device with what it remembers. Counting starts again only with a new case:
whether a source forgives its tries after some time is not known (assumption R-01), so none is forgiven.
An unknown reset is automatic for danger and manual for work lost (common practice, no source): both are given.

Times are in seconds from the start of the history that tripped; +inf: never.

Source: definition; the delay, the tries and the place are the source's own data.
Not here: which tools restart and whom that hurts (calculations), motors that start harder after a trip (the caller
gives the restart history).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.protective_device import Device, DeviceState, TripBand, cooled, play
from ampwright.engine.physics.step_history import history_until

RESET_KINDS = ("automatic", "manual", "remote", "unknown")

MOST_TRIES_SHOWN = 12
"""Tries that are played for a reset that never locks out."""


@dataclass(frozen=True, slots=True)
class Reset:
    """How power comes back: how, one of RESET_KINDS; after_s [s] of the delay; tries before it locks out, None: no end.

    tries counts the times it switches on again by itself; 0 is a lock-out at the first trip.
    """

    how: str
    after_s: float = 0.0
    tries: int | None = None


@dataclass(frozen=True, slots=True)
class PowerReturn:
    """One time that power came back: when, and when it went again (+inf: it stays)."""

    power_back_s: float
    trips_again_s: float


@dataclass(frozen=True, slots=True)
class AfterTrip:
    """What follows a trip.

    ending : `stays_on`, `locked_out`, `goes_on_and_off` (no end to the tries) or `waits_for_person`
    returns : each time power came back by itself, in order
    off_since_s : [s] when it went for good, +inf where it stays on or goes on and off
    """

    ending: str
    returns: tuple[PowerReturn, ...]
    off_since_s: float


def after_trip(reset: Reset, trip_s: float, hold_s: Sequence[float]) -> AfterTrip:
    """What follows a trip, given how long each try holds.

    Parameters
    ----------
    reset : of the device that tripped; `unknown` is taken as automatic
    trip_s : [s] of the first trip
    hold_s : (k,) [s] that the first, second, ... try holds, +inf for good; the last stands for all further ones

    Returns
    -------
    after : see AfterTrip

    Errors: ValueError for an unknown kind, a negative time, no hold time, or a trip at +inf.
    Source: definition.
    """
    if reset.how not in RESET_KINDS:
        raise ValueError(f"reset {reset.how!r} is none of {', '.join(RESET_KINDS)}")
    if not (0.0 <= trip_s < math.inf):
        raise ValueError(f"a trip at {trip_s} s is none")
    if not (0.0 <= reset.after_s < math.inf) or (reset.tries is not None and reset.tries < 0):
        raise ValueError(f"a delay of {reset.after_s} s and {reset.tries} tries are no reset")
    if reset.how in ("manual", "remote"):
        return AfterTrip("waits_for_person", (), trip_s)
    if reset.tries == 0:
        return AfterTrip("locked_out", (), trip_s)
    if not hold_s or not all(hold >= 0.0 for hold in hold_s):
        raise ValueError("each try needs the time it holds, >= 0 s")
    returns: list[PowerReturn] = []
    off_s = trip_s
    for number in range(MOST_TRIES_SHOWN if reset.tries is None else reset.tries):
        back_s = off_s + reset.after_s
        off_s = back_s + hold_s[min(number, len(hold_s) - 1)]
        returns.append(PowerReturn(back_s, off_s))
        if off_s == math.inf:
            return AfterTrip("stays_on", tuple(returns), math.inf)
    if reset.tries is None:
        return AfterTrip("goes_on_and_off", tuple(returns), math.inf)
    return AfterTrip("locked_out", tuple(returns), off_s)


def after_limit_trip(
    reset: Reset, limit: Limit, trip_s: float, duration_s: Sequence[float], load_amount: Sequence[float]
) -> tuple[AfterTrip, AfterTrip]:
    """What follows a shutdown of an electronic limit: by its earliest and by its latest reading.

    Parameters
    ----------
    reset : of the source
    limit : that switched off; fresh at each try
    trip_s : [s] of the first shutdown
    duration_s : (m,) [s] of the restart
    load_amount : (m,) [A, VA or W as the limit] that comes back with the power

    Returns
    -------
    earliest, latest : see AfterTrip

    Errors: UnfitLimit, ValueError. Source: source_limit.py.
    """
    events = play_limit(limit, duration_s, load_amount)
    return (
        after_trip(reset, trip_s, (events.trips_earliest_s,)),
        after_trip(reset, trip_s, (events.trips_latest_s,)),
    )


def _edge_s(band: TripBand, latest: bool) -> float:
    return band.latest_assumed_s if latest else band.earliest_s


def after_device_trip(
    reset: Reset,
    device: Device,
    before: tuple[Sequence[float], Sequence[float]],
    restart: tuple[Sequence[float], Sequence[float]],
    state: DeviceState | None = None,
) -> tuple[AfterTrip | None, AfterTrip | None]:
    """What follows a trip of a device that resets itself and is still warm: by its earliest and by its latest edge.

    Parameters
    ----------
    reset : of the device
    device : a breaker or protector
    before : (durations [s], currents [A]) up to and beyond the trip
    restart : (durations [s], currents [A]) from each return on
    state : what it remembers at the start of `before`, None for cold

    Returns
    -------
    earliest, latest : None where that edge holds `before`

    Errors: UnfitDevice, ValueError. Source: trip_time.py; a thermal element keeps its memory through the pause.
    """
    first = play(device, *before, state)
    tries = MOST_TRIES_SHOWN if reset.tries is None else reset.tries
    found: list[AfterTrip | None] = []
    for latest in (False, True):
        trip_s = _edge_s(first, latest)
        if trip_s == math.inf:
            found.append(None)
            continue
        memory = play(device, *history_until(*before, trip_s), state).state
        holds: list[float] = []
        for _ in range(max(tries, 1)):
            memory = cooled(device, memory, reset.after_s)
            band = play(device, *restart, memory)
            holds.append(_edge_s(band, latest))
            if holds[-1] == math.inf:
                break
            memory = play(device, *history_until(*restart, holds[-1]), memory).state
        found.append(after_trip(reset, trip_s, holds))
    return found[0], found[1]
