"""What happens after a trip: what opens first, how it comes back, what starts again then, and what that means?

For every device and limit that may open first in a case: who loses power, how it is reset, which of those tools are
still switched on, what becomes of all of them at once, how often that is tried, and what it means for each tool. A
restart against full head pressure is harder than the start of the morning.
Where nothing may open within its band there is nothing to tell. More returns than a check can carry are left out, and
the answer says so.
Source: practice of the trade; physics as cited in restart_runs.py and restart_trips.py.
Not here: what a verdict makes of it (after_trip_checks.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ampwright.engine.calculations.after_trip.restart_load import comes_on, switch_states
from ampwright.engine.calculations.after_trip.restart_runs import MOST_MOTORS, Returned, run_return
from ampwright.engine.calculations.after_trip.restart_trips import Course, course_of
from ampwright.engine.calculations.after_trip.trip_resets import TripReset, circuit_reset, limit_reset
from ampwright.engine.calculations.after_trip.trip_triggers import CIRCUIT, Trigger, triggers_of
from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.pooled import Steps
from ampwright.engine.calculations.starts.own_protector import protector_of
from ampwright.engine.calculations.starts.start_limits import TimedLimit, set_technology, timed_limits
from ampwright.engine.calculations.starts.start_network import ports_of
from ampwright.engine.calculations.starts.start_runs import Running, Situation
from ampwright.engine.calculations.starts.start_set import transient_reactance_ohm
from ampwright.engine.calculations.starts.start_trips import circuit_devices
from ampwright.engine.calculations.starts.starts import Starting, Starts, running_of
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle_start import INDUCTION, UNIVERSAL, settle_starts
from ampwright.engine.site.settled import SettledSite

MOST_RETURNS = 48


@dataclass(frozen=True, slots=True)
class TripCourse:
    """One device or limit that may open first in a case, and what follows.

    switches : state of each tool without power. open : tools among those that may come on and whose start is not known.
    courses : easy, typical, hard; None where nothing can be said.
    """

    trigger: Trigger
    reset: TripReset
    switches: dict[int, str]
    open: frozenset[int]
    courses: tuple[Course, Course, Course] | None

    @property
    def on(self) -> tuple[int, ...]:
        """Tools that draw current as soon as power is back."""
        return tuple(i for i, state in self.switches.items() if comes_on(state))


@dataclass(frozen=True, slots=True)
class AfterTrips:
    """Of every case what may open first; limits : of the site, in time. too_many : some were left out."""

    cases: tuple[tuple[TripCourse, ...], ...]
    limits: tuple[TimedLimit, ...]
    too_many: bool

    @property
    def is_open(self) -> bool:
        """Whether a tool that may come on has a start that nothing is known of, or some returns were left out."""
        return self.too_many or any(one.courses is None for case in self.cases for one in case)


def after_trips(
    site: SettledSite,
    ledger: Ledger,
    sets: Sequence[RunningSet],
    rows: Sequence[Row],
    figures: RowFigures,
    starts: Starts,
    only: frozenset[int] | None = None,
) -> Steps[AfterTrips]:
    """What follows a trip in every case, or in the cases of `only`."""
    limits = _limits(site, ledger, rows, figures, starts)
    triggers = [
        triggers_of(site, limits, starts, case, rows, figures) if only is None or case in only else ()
        for case in range(len(sets))
    ]
    if not any(triggers):
        return AfterTrips(tuple(() for _ in sets), limits, False)
    starting = _starting(site, ledger, limits, triggers, starts)
    found: list[tuple[TripCourse, ...]] = []
    returns_left = MOST_RETURNS
    too_many = False
    for case, running in enumerate(sets):
        played: dict[tuple[int, ...], tuple[Returned, Returned, Returned]] = {}
        draws: Running | None = None
        courses: list[TripCourse] = []
        for trigger in triggers[case]:
            reset = _reset(site, limits, trigger, ledger)
            switches = switch_states(site, _without_power(site, limits, trigger, running))
            on = tuple(i for i, state in switches.items() if comes_on(state))
            unknown = frozenset(i for i in on if i in starts.open_tools)
            one = TripCourse(trigger, reset, switches, unknown, None)
            if not unknown and _motors(starting, on) <= MOST_MOTORS:
                returned: tuple[Returned, Returned, Returned] | None = None
                if on:
                    if on not in played and returns_left == 0:
                        too_many = True
                        continue
                    if on not in played:
                        returns_left -= 1
                        draws = draws or _running(site, starting, case, rows, figures)
                        still = [i for i in running.placements if i not in switches]
                        played[on] = yield from run_return(site, starting, draws, on, still)
                    returned = played[on]
                one = replace(one, courses=_courses(site, starting, trigger, reset, returned))
            courses.append(one)
        found.append(tuple(courses))
    return AfterTrips(tuple(found), limits, too_many)


def _limits(
    site: SettledSite, ledger: Ledger, rows: Sequence[Row], figures: RowFigures, starts: Starts
) -> tuple[TimedLimit, ...]:
    """The limits in time; where nothing starts they are asked for only if a load is above one."""
    if starts.starting.ports is not None:
        return starts.starting.limits
    amounts = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}
    over = any(
        bool((amounts[limit.unit][:, HIGH, i] > limit.continuous).any()) for i, limit in enumerate(site.source.limits)
    ) or any(
        bool((figures.circuit_a[:, HIGH, i] > circuit.rating_a).any()) for i, circuit in enumerate(site.source.circuits)
    )
    return timed_limits(site, set_technology(site, ledger), ledger) if over and rows else ()


def _starting(
    site: SettledSite,
    ledger: Ledger,
    limits: tuple[TimedLimit, ...],
    triggers: Sequence[Sequence[Trigger]],
    starts: Starts,
) -> Starting:
    """What the site brings to a restart."""
    base = starts.starting
    circuits = {t.index for case in triggers for t in case if t.kind == CIRCUIT}
    circuits |= {c for case in triggers for t in case if t.kind != CIRCUIT for c in limits[t.index].circuits}
    used = {site.source.receptacles[one.receptacle].circuit for one in site.placements}
    technology = base.technology if base.ports is not None else set_technology(site, ledger)
    reactance = transient_reactance_ohm(site) if technology == "capacitor_regulated" else (0.0, 0.0, 0.0)
    return Starting(
        settle_starts(site, ledger, again=True), technology, limits,
        circuit_devices(site, frozenset(circuits & used), ledger),
        base.ports if base.ports is not None else ports_of(site, reactance),
    )  # fmt: skip


def _motors(starting: Starting, on: Sequence[int]) -> int:
    starts = [starting.starts[i] for i in on]
    return sum(start is not None and start.model in (INDUCTION, UNIVERSAL) for start in starts)


def _running(site: SettledSite, starting: Starting, case: int, rows: Sequence[Row], figures: RowFigures) -> Running:
    return running_of(site, starting, [Situation(case, 0, ())], rows, figures)[case]


def _without_power(
    site: SettledSite, limits: Sequence[TimedLimit], trigger: Trigger, running: RunningSet
) -> tuple[int, ...]:
    found: list[int] = []
    for i in running.placements:
        placement = site.placements[i]
        if placement.option is None:
            continue
        circuit = site.source.receptacles[placement.receptacle].circuit
        if trigger.kind == CIRCUIT:
            gone = circuit == trigger.index
        else:
            legs = {leg for pair in placement.lines for leg in pair if leg < 3}
            gone = limits[trigger.index].covers(circuit, tuple(legs))
        if gone:
            found.append(i)
    return tuple(found)


def _reset(site: SettledSite, limits: Sequence[TimedLimit], trigger: Trigger, ledger: Ledger) -> TripReset:
    if trigger.kind == CIRCUIT:
        return circuit_reset(site, trigger.index, ledger)
    limit = limits[trigger.index]
    electronic = next((c for c, item in enumerate(site.source.circuits) if item.id == limit.id), None)
    if electronic is not None and not any(item.id == limit.id for item in site.source.limits):
        return circuit_reset(site, electronic, ledger)
    return limit_reset(site, limit.id, ledger)


def _courses(
    site: SettledSite,
    starting: Starting,
    trigger: Trigger,
    reset: TripReset,
    returned: tuple[Returned, Returned, Returned] | None,
) -> tuple[Course, Course, Course]:
    guarded = frozenset(i for i, one in enumerate(site.placements) if protector_of(one) is not None)
    low, typical, high = (
        course_of(site, starting, trigger, reset, returned[e] if returned else None, e, guarded)
        for e in (LOW, TYPICAL, HIGH)
    )
    return low, typical, high


def never(seconds: float) -> float | None:
    """[s] to the millisecond, None where it does not happen."""
    return None if seconds == math.inf else round(seconds, 3)
