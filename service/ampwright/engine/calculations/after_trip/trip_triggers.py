"""Which device or limit may open in a case, on what, and may it be the first?

Three occasions: all work, one tool is switched on, one tool is pushed. On each, every device and every electronic
limit has a band of times; one that may open first on some occasion is told, with the mildest occasion. A limit that
holds its current down without end never opens. A push that is over before a device may open is none.
Source: engine/physics trip_order (comparison of intervals), protective_device, limit_events.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.network.circuit_trip import steady_trip
from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.starts.start_limits import TimedLimit
from ampwright.engine.calculations.starts.starts import Starts, ToolStart
from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.physics.source_limit_state import LIMITS, SHUTS_DOWN
from ampwright.engine.physics.trip_order import MAY_BE_FIRST, SURELY_FIRST, trip_order
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.settled import SettledSite

RUNNING, STARTING, PUSHED = "running", "starting", "pushed"
OCCASIONS = {
    RUNNING: "While all its tools work.",
    STARTING: "While one of its tools is switched on.",
    PUSHED: "While one of its tools is pushed.",
}
CIRCUIT, LIMIT = "circuit", "limit"


@dataclass(frozen=True, slots=True)
class Trigger:
    """A device or limit that may open first in a case.

    kind : circuit or limit; index : of the site's circuits, or of the timed limits. tool : who starts or is pushed.
    earliest_s, latest_s : of the occasion, +inf where it need not open. sure : whether it opens by the usual estimate.
    carried_a : [A] that it then carries, by the hard estimate.
    """

    case: int
    kind: str
    index: int
    occasion: str
    tool: int | None
    place: str
    earliest_s: float
    latest_s: float
    sure: bool
    carried_a: float


@dataclass(frozen=True, slots=True)
class _Band:
    kind: str
    index: int
    earliest_s: float
    latest_s: float
    sure: bool
    carried_a: float


def triggers_of(
    site: SettledSite,
    limits: Sequence[TimedLimit],
    starts: Starts,
    case: int,
    rows: Sequence[Row],
    figures: RowFigures,
) -> tuple[Trigger, ...]:
    """Devices and limits that may open first in one case, in the order of the site, each on its mildest occasion."""
    found: dict[tuple[str, int], Trigger] = {}

    def keep(occasion: str, tool: int | None, bands: list[_Band]) -> None:
        order = trip_order([one.earliest_s for one in bands], [max(one.latest_s, one.earliest_s) for one in bands])
        for one, place in zip(bands, order.places, strict=True):
            if place in (SURELY_FIRST, MAY_BE_FIRST):
                found.setdefault(
                    (one.kind, one.index),
                    Trigger(
                        case, one.kind, one.index, occasion, tool, place, one.earliest_s, one.latest_s, one.sure,
                        one.carried_a,
                    ),
                )  # fmt: skip

    of_case = [(r, row) for r, row in enumerate(rows) if row.case == case]
    for r, row in of_case:
        if row.pushed is None and not _collapsed(figures, r):
            keep(RUNNING, None, _steady(site, limits, r, figures, math.inf))
    for one in starts.of_case(case):
        keep(STARTING, one.tool, _at_start(site, one))
    for r, row in of_case:
        if row.pushed is not None and not _collapsed(figures, r):
            lasts_s = site.placements[row.pushed].state("heavy").lasts_s
            keep(PUSHED, row.pushed, _steady(site, limits, r, figures, lasts_s))
    return tuple(found[at] for at in sorted(found))


def _collapsed(figures: RowFigures, r: int) -> bool:
    return int(figures.outcome[r][TYPICAL]) in (COLLAPSED, NOT_CONVERGED)


def _steady(
    site: SettledSite, limits: Sequence[TimedLimit], r: int, figures: RowFigures, lasts_s: float
) -> list[_Band]:
    found: list[_Band] = []
    for i, circuit in enumerate(site.source.circuits):
        low, high = float(figures.circuit_a[r, LOW, i]), float(figures.circuit_a[r, HIGH, i])
        if high <= 0.0 or (circuit.device is not None and circuit.device.kind == "electronic"):
            continue
        trip = steady_trip(circuit, low, high, site.ambient_c)
        if trip.earliest_s is None or trip.earliest_s > lasts_s:
            continue
        latest_s = math.inf if trip.latest_assumed_s is None else trip.latest_assumed_s
        usual = float(figures.circuit_a[r, TYPICAL, i])
        sure = steady_trip(circuit, usual, usual, site.ambient_c).latest_assumed_s is not None
        found.append(_Band(CIRCUIT, i, trip.earliest_s, latest_s, sure, high))
    for k, limit in enumerate(limits):
        amps = _limit_a(site, limit, r, figures)
        if max(amps) <= limit.continuous_a:
            continue
        first_s, last_s = (limit_opens_s(limit, ((math.inf,), (amps[e],)), e) for e in (HIGH, LOW))
        if first_s > lasts_s:
            continue
        sure = limit.response_known and amps[TYPICAL] > limit.continuous_a
        latest_s = last_s if limit.response_known else math.inf
        found.append(_Band(LIMIT, k, first_s, latest_s, sure, amps[HIGH]))
    return found


def _limit_a(site: SettledSite, limit: TimedLimit, r: int, figures: RowFigures) -> tuple[float, float, float]:
    """[A] as the limit counts them, by estimate."""
    for i, settled in enumerate(site.source.limits):
        if settled.id == limit.id:
            amount = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}[settled.unit]
            scale = limit.continuous_a / settled.continuous if settled.continuous else 0.0
            low, typical, high = (float(amount[r, e, i]) * scale for e in range(3))
            return low, typical, high
    low, typical, high = (float(figures.circuit_a[r, e, limit.circuits[0]]) for e in range(3))
    return low, typical, high


def limit_opens_s(limit: TimedLimit, history: tuple[tuple[float, ...], tuple[float, ...]], estimate: int) -> float:
    """[s] at which an electronic limit switches off under a history of amperes as it counts them, +inf where not.

    The hard estimate takes the reading that opens first among the responses that are possible.
    """
    if limit.responses[estimate] == (LIMITS,):
        return math.inf
    events = play_limit(Limit(limit.continuous_a, limit.tiers[estimate], "shutdown"), *history)
    return events.trips_earliest_s if SHUTS_DOWN in limit.responses[estimate] else events.trips_latest_s


def _at_start(site: SettledSite, one: ToolStart) -> list[_Band]:
    found: list[_Band] = []
    low, typical, high = one.estimates
    circuit = site.source.receptacles[site.placements[one.tool].receptacle].circuit
    if high.trips_s < math.inf:
        found.append(
            _Band(CIRCUIT, circuit, high.trips_s, low.trips_s, typical.trips_s < math.inf, high.peak_a)
        )  # fmt: skip
    off = [item for item in one.estimates if item.outcome == "shuts_off" and item.limit >= 0]
    if off:
        # how long a source bears it before it goes is not kept of a start: from its beginning on
        sure = typical.outcome == "shuts_off"
        found.append(_Band(LIMIT, off[0].limit, 0.0, math.inf, sure, high.peak_a))
    return found
