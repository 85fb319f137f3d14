"""What does a source with electronic limits do under a load: bear it, limit, dip or switch off, and when?

The typed face of source_limit.py. Assumptions, by the numbers that answers carry:

L-01  Earliest: all tiers share one budget, whole again only after `recovery_s` (60 s where not given) at or below the
      continuous value. No source.
L-02  Latest: each tier has its own timer, which counts while the load is above the amount below it and falls to zero
      the moment it is not; beyond the top tier the top timer's time is borne. No source.
L-03  Overload unknown: earliest, none (the continuous value is all); latest, twice the continuous value for 5 s.
      Common practice, no source.
L-04  Peak limit unknown: earliest sqrt(2) times the continuous current, latest sqrt(2) times the top tier's; only for
      limits in A. A peak limit clips in the latest reading and switches off in the earliest, unless the source limits
      without end.
L-05  Response unknown: switches off (earliest) and limits without end (latest) are both possible.

Response `current_limiting` never switches off: a motor that it holds below its torque stands and burns.
`voltage_dip` is a source without electronics (an engine set with a voltage regulator): the voltage gives way and
nothing opens.

Source: assumptions above; L-05 and L-03 are common practice, no source.
Not here: what comes back after a shutdown (power_return.py), the voltage while limiting (the network).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ampwright.engine.physics.protective_device import ragged
from ampwright.engine.physics.source_limit import BUDGET_STATE_LENGTH, OUTPUTS, limit_times_s

RESPONSES = ("current_limiting", "shutdown", "unknown", "voltage_dip")
"""What a source does with a load it refuses."""

USUAL_RECOVERY_S = 60.0
_UNKNOWN_TIERS = (2.0, 5.0)  # L-03: multiple of the continuous value, seconds


class UnfitLimit(ValueError):
    """A limit that contradicts itself; `faults` lists (member, message)."""

    def __init__(self, faults: tuple[tuple[str, str], ...]) -> None:
        super().__init__("; ".join(f"{member}: {message}" for member, message in faults))
        self.faults = faults


@dataclass(frozen=True, slots=True)
class Limit:
    """One electronic limit, in A, VA or W: the unit is the caller's, the same for the load.

    continuous_amount : what it bears without end
    tiers : ((amount, seconds), ...) ascending amounts, descending seconds; () states that there is none;
        None: unknown (L-03)
    response : one of RESPONSES
    peak_limit_a : [A] peak current, None: unknown (no peak limit is tested unless the caller sets one, L-04)
    recovery_s : [s] of rest that make a used overload whole (L-01)
    own_band : latest reading with timers that count only inside their tier
    """

    continuous_amount: float
    tiers: tuple[tuple[float, float], ...] | None = None
    response: str = "unknown"
    peak_limit_a: tuple[float, float] | None = None
    recovery_s: float = USUAL_RECOVERY_S
    own_band: bool = False


@dataclass(frozen=True, slots=True)
class LimitState:
    """What a limit remembers: budget used [ratio], rest [s], timers [s]. Fresh after a shutdown."""

    budget_used_ratio: float
    rest_s: float
    timers_s: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LimitEvents:
    """When what happens under a history [s from its start]; +inf where it does not.

    over_continuous_s : the overload begins
    refused_earliest_s, refused_latest_s : the tiers are used up, whatever the source then does
    limits_earliest_s, limits_latest_s : the source gives less than is asked (limiting, or the dip of a regulator)
    trips_earliest_s, trips_latest_s : it switches off
    clips_earliest_s, clips_latest_s : the peak limit flattens the wave
    state : after the whole history, had it been borne
    """

    over_continuous_s: float
    refused_earliest_s: float
    refused_latest_s: float
    limits_earliest_s: float
    limits_latest_s: float
    trips_earliest_s: float
    trips_latest_s: float
    clips_earliest_s: float
    clips_latest_s: float
    state: LimitState

    @property
    def outcome(self) -> str:
        """Worst that may happen: `trips`, `may_trip`, `limits`, `may_limit`, `may_clip` or `holds`."""
        if self.trips_latest_s < math.inf:
            return "trips"
        if self.trips_earliest_s < math.inf:
            return "may_trip"
        if self.limits_latest_s < math.inf:
            return "limits"
        if self.limits_earliest_s < math.inf:
            return "may_limit"
        return "may_clip" if self.clips_earliest_s < math.inf else "holds"


def limit_faults(limit: Limit) -> tuple[tuple[str, str], ...]:
    """Everything that contradicts itself in a limit.

    Parameters
    ----------
    limit : of the source

    Returns
    -------
    faults : (member, message) each; empty when sound

    Errors: none. Source: definition of a tier.
    """
    faults: list[tuple[str, str]] = []
    if not (math.isfinite(limit.continuous_amount) and limit.continuous_amount > 0.0):
        faults.append(("continuous_amount", f"{limit.continuous_amount} is no amount"))
    if limit.response not in RESPONSES:
        faults.append(("response", f"{limit.response!r} is none of {', '.join(RESPONSES)}"))
    if not limit.recovery_s >= 0.0:
        faults.append(("recovery_s", f"{limit.recovery_s} s is no time"))
    below, longest = limit.continuous_amount, math.inf
    for number, (amount, seconds) in enumerate(limit.tiers or ()):
        if not (math.isfinite(amount) and amount > below):
            faults.append((f"tiers/{number}", f"{amount} is not above {below}, the amount below it"))
        if not (math.isfinite(seconds) and 0.0 < seconds <= longest):
            faults.append((f"tiers/{number}", f"{seconds} s is not in (0, {longest}]: a higher tier lasts no longer"))
        below, longest = amount, seconds
    if limit.peak_limit_a is not None and not 0.0 < limit.peak_limit_a[0] <= limit.peak_limit_a[1]:
        faults.append(("peak_limit_a", f"{limit.peak_limit_a} is no ascending pair above 0"))
    return tuple(faults)


def readings(limit: Limit) -> tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...]]:
    """Tiers of the earliest and of the latest reading: the given ones twice, or those of assumption L-03.

    Parameters
    ----------
    limit : of the source

    Returns
    -------
    earliest, latest : ((amount [as the limit], seconds [s]), ...) each

    Errors: none. Source: assumption L-03.
    """
    if limit.tiers is not None:
        return limit.tiers, limit.tiers
    multiple, seconds = _UNKNOWN_TIERS
    return (), ((multiple * limit.continuous_amount, seconds),)


def assumed_peak_limit_a(limit: Limit) -> tuple[float, float]:
    """Peak limit of a limit in amperes that states none.

    Parameters
    ----------
    limit : of the source, in A

    Returns
    -------
    lowest_a, highest_a : [A] plausible

    Errors: none. Source: assumption L-04.
    """
    latest = readings(limit)[1]
    top = latest[-1][0] if latest else limit.continuous_amount
    return math.sqrt(2.0) * limit.continuous_amount, math.sqrt(2.0) * top


def play_limits(
    limits: Sequence[Limit],
    histories: Sequence[tuple[Sequence[float], Sequence[float]]],
    peaks_a: Sequence[Sequence[float]] | None = None,
    states: Sequence[LimitState | None] | None = None,
) -> tuple[LimitEvents, ...]:
    """Events at many limits, one history each, fresh unless a state is given.

    Parameters
    ----------
    limits : n
    histories : n of (durations [s], amounts [A, VA or W as the limit])
    peaks_a : n of (m,) [A] peak current in each step, None where the peak limit is not tested
    states : n, None is fresh

    Returns
    -------
    events : n, each equal bit for bit to its own single call

    Errors: UnfitLimit, ValueError (see protective_device.ragged). Source: source_limit.py.
    """
    count = len(limits)
    for given, what in ((histories, "histories"), (peaks_a, "peaks"), (states, "states")):
        if given is not None and len(given) != count:
            raise ValueError(f"{count} limits need as many {what}")
    for limit in limits:
        faults = limit_faults(limit)
        if faults:
            raise UnfitLimit(faults)
    first_step, duration_s, load_amount = ragged(histories)
    if peaks_a is None:
        peak_a = np.zeros_like(load_amount)
    else:
        peak_a = ragged([(history[0], peaks) for history, peaks in zip(histories, peaks_a, strict=True)])[2]
    both = [readings(limit) for limit in limits]
    width = max((len(tiers) for pair in both for tiers in pair), default=0)
    tiers_array = np.full((count, 2, width, 2), math.inf)
    peak_limit_a = np.full((count, 2), math.inf)
    budget_state = np.zeros((count, BUDGET_STATE_LENGTH))
    timer_state = np.zeros((count, width))
    for row, (limit, pair) in enumerate(zip(limits, both, strict=True)):
        for reading, tiers in enumerate(pair):
            for k, tier in enumerate(tiers):
                tiers_array[row, reading, k] = tier
        if limit.peak_limit_a is not None:
            peak_limit_a[row] = limit.peak_limit_a
        state = states[row] if states is not None else None
        if state is not None:
            budget_state[row] = (state.budget_used_ratio, state.rest_s)
            timer_state[row, : len(state.timers_s)] = state.timers_s
    times_s = np.empty((count, OUTPUTS))
    limit_times_s(
        first_step,
        duration_s,
        load_amount,
        peak_a,
        np.array([limit.continuous_amount for limit in limits], dtype=np.float64),
        tiers_array,
        np.array([limit.recovery_s for limit in limits], dtype=np.float64),
        np.array([limit.own_band for limit in limits], dtype=np.bool_),
        peak_limit_a,
        budget_state,
        timer_state,
        times_s,
    )
    events = []
    for row, limit in enumerate(limits):
        used_ratio, rest_s = budget_state[row].tolist()
        after = LimitState(used_ratio, rest_s, tuple(timer_state[row, : len(both[row][1])].tolist()))
        events.append(_events(limit.response, times_s[row].tolist(), after))
    return tuple(events)


def _events(response: str, times_s: Sequence[float], state: LimitState) -> LimitEvents:
    over, refused_early, refused_late, _, peak_early, peak_late = times_s
    switches_off = response in ("shutdown", "unknown")
    surely_off = response == "shutdown"
    # A source that may limit instead of switching off may begin to limit as early as it may refuse.
    limits_early = math.inf if surely_off else refused_early
    limits_late = refused_late if response in ("current_limiting", "voltage_dip") else math.inf
    return LimitEvents(
        over_continuous_s=over,
        refused_earliest_s=refused_early,
        refused_latest_s=refused_late,
        limits_earliest_s=limits_early,
        limits_latest_s=limits_late,
        trips_earliest_s=min(refused_early, peak_early) if switches_off else math.inf,
        trips_latest_s=refused_late if surely_off else math.inf,
        clips_earliest_s=peak_early,
        clips_latest_s=peak_late,
        state=state,
    )


def play_limit(
    limit: Limit,
    duration_s: Sequence[float],
    load_amount: Sequence[float],
    peak_a: Sequence[float] | None = None,
    state: LimitState | None = None,
) -> LimitEvents:
    """Events at one limit under one history.

    Parameters
    ----------
    limit : of the source
    duration_s : (m,) [s]
    load_amount : (m,) [A, VA or W as the limit]
    peak_a : (m,) [A], None where the peak limit is not tested
    state : what it remembers, None for fresh

    Returns
    -------
    events : see LimitEvents

    Errors: UnfitLimit, ValueError. Source: source_limit.py.
    """
    peaks = None if peak_a is None else [peak_a]
    return play_limits([limit], [(duration_s, load_amount)], peaks, [state])[0]


@dataclass(frozen=True, slots=True)
class Headroom:
    """What a limit still bears at one amount: earliest_s and latest_s [s], +inf without end."""

    amount: float
    earliest_s: float
    latest_s: float


def headroom(limit: Limit, amounts: Sequence[float], state: LimitState | None = None) -> tuple[Headroom, ...]:
    """How long each amount would be borne from now on.

    Parameters
    ----------
    limit : of the source
    amounts : (k,) [A, VA or W as the limit]
    state : what it remembers, None for fresh

    Returns
    -------
    headroom : k, in the order given

    Errors: UnfitLimit, ValueError. Source: source_limit.py.
    """
    rows = play_limits(
        [limit] * len(amounts), [((math.inf,), (amount,)) for amount in amounts], None, [state] * len(amounts)
    )
    return tuple(
        Headroom(float(amount), row.refused_earliest_s, row.refused_latest_s)
        for amount, row in zip(amounts, rows, strict=True)
    )
