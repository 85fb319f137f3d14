"""How often is more asked than a circuit or the source gives, and does something trip within the shift?

Tools alternate by chance between on and off, with the times stated or the usual ones of their class; as many hand tools
are on as there are people, and what follows a tool runs with it. How often a sum is over a rating is exact: up to 12
tools every allowed set is solved in the network and weighted by its share of time; above, the currents that each tool
draws alone are added by magnitude and convolved, which is a stated heuristic on the high side. Whether a thermal device
opens depends on the order of things, so shifts are drawn with a seed and played on the device, whose place in its band
is drawn too (assumption B-09). A circuit that no allowed set takes over its rating does not trip and is not drawn.

Source: engine/physics/alternating_use, trip_probability, limit_events; usual times engine/site/usual_duties.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.load_check.load_check_result import FigureBand
from ampwright.engine.calculations.network.circuit_trip import protective_device
from ampwright.engine.calculations.network.tools_together import (
    MOST_EXACT,
    Group,
    SetFigures,
    groups_of,
    members,
    solve_sets,
)
from ampwright.engine.physics.alternating_use import allowed_states, convolved_shares, drawn_shifts, state_shares
from ampwright.engine.physics.limit_events import Limit, UnfitLimit, play_limits
from ampwright.engine.physics.protective_device import Device, UnfitDevice, device_faults
from ampwright.engine.physics.trip_probability import drawn_trip_s
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.settled import SettledLimit, SettledSite
from ampwright.engine.site.usual_duties import USUAL_DUTIES

Real = npt.NDArray[np.float64]
Shifts = list[tuple[Real, npt.NDArray[np.int64]]]

USUAL_SHIFT_S = 8.0 * 3600.0
DRAWS = 200
MOST_SWITCHINGS = 20_000  # of one drawn shift; past it the last state stays
MOST_STEPS = 500_000  # of all drawn shifts together
SEED = 1
GRID = 0.1  # [A, or tens of VA or W] of the convolution


@dataclass(frozen=True, slots=True)
class ToolDuty:
    """Mean times [s] a tool is on and off; `from_request` false where they are the usual ones of its class."""

    tool: str
    on_s: float
    off_s: float
    from_request: bool


@dataclass(frozen=True, slots=True)
class ShiftItem:
    """One circuit or limit over a shift: the share of time over its rating, and the probability of a trip in it.

    `kind` is circuit or limit. Bands are over the low, typical and high draw of the tools. `trip_method` is exact (no
    allowed set is over the rating), monte_carlo or not_known.
    """

    kind: str
    id: str
    rating: float
    unit: str
    mean_amount: float
    largest_amount: float
    overload_ratio: FigureBand
    trip_probability_ratio: FigureBand | None
    trip_method: str


@dataclass(frozen=True, slots=True)
class ShiftUse:
    """Use over a shift. `method` is exact or convolution; `sampling_error_ratio` is one standard error at most."""

    shift_s: float
    method: str
    allowed_sets: int
    draws: int
    sampling_error_ratio: float
    duties: tuple[ToolDuty, ...]
    items: tuple[ShiftItem, ...]


def shift_use(settled: SettledSite, shift_s: float | None = None) -> ShiftUse:
    """Use over a shift of `shift_s` [s], eight hours where nobody said."""
    lasts_s = USUAL_SHIFT_S if shift_s is None else shift_s
    groups = groups_of(settled)
    duties = tuple(_duty(settled, group) for group in groups)
    on_s = np.array([duty.on_s for duty in duties])
    off_s = np.array([duty.off_s for duty in duties])
    hands = np.array([group.takes_hands for group in groups], np.bool_)
    exact = len(groups) <= MOST_EXACT
    plan = _Plan(settled, groups, on_s, off_s, hands, lasts_s)
    items = plan.exact_items() if exact else plan.convolved_items()
    method = "exact" if exact else "convolution"
    drawn = any(item.trip_method == "monte_carlo" for item in items)
    draws = plan.draws if drawn else 0
    return ShiftUse(
        lasts_s,
        method,
        plan.allowed,
        draws,
        0.5 / math.sqrt(draws) if draws else 0.0,
        duties,
        items,
    )


def _duty(settled: SettledSite, group: Group) -> ToolDuty:
    placement = settled.placements[group.placements[0]]
    usual_on, usual_off = USUAL_DUTIES[placement.load_class.name]
    tool = placement.tool
    on = tool.on_s.typical if tool.on_s is not None else usual_on
    off = tool.off_s.typical if tool.off_s is not None else usual_off
    stated = tool.on_s is not None and tool.off_s is not None
    return ToolDuty(tool.id, max(on, 1e-3), max(off, 1e-3), stated)


class _Plan:
    """One shift of one site: who alternates how, and what every allowed set draws."""

    def __init__(
        self,
        settled: SettledSite,
        groups: tuple[Group, ...],
        on_s: Real,
        off_s: Real,
        hands: npt.NDArray[np.bool_],
        lasts_s: float,
    ) -> None:
        self.settled, self.groups = settled, groups
        self.on_s, self.off_s, self.hands, self.lasts_s = on_s, off_s, hands, lasts_s
        per_shift = float((2.0 * lasts_s / (on_s + off_s)).sum()) + 10.0 if groups else 1.0
        self.most_events = int(min(MOST_SWITCHINGS, 3.0 * per_shift + 100.0))
        self.draws = max(50, min(DRAWS, int(MOST_STEPS / max(per_shift, 1.0))))
        self.allowed = 0
        self._shifts: Shifts | None = None

    def exact_items(self) -> tuple[ShiftItem, ...]:
        """Every circuit and limit in use, each allowed set solved."""
        states = allowed_states(self.hands, self.settled.people)
        self.allowed = len(states)
        share = state_shares(states, self.on_s, self.off_s) if self.groups else np.ones(1)
        figures = solve_sets(self.settled, [members(int(mask), self.groups) for mask in states])
        place = np.zeros(1 << len(self.groups), np.int64)
        place[states] = np.arange(len(states))
        items: list[ShiftItem] = []
        for i, circuit in enumerate(self.settled.source.circuits):
            amps = self._filled(figures.circuit_a[:, :, i], figures, circuit.rating_a)
            if amps.max() > 0.0:
                device = protective_device(circuit.device, circuit.rating_a) or self._usual_device(circuit.rating_a)
                trip = self._thermal(device, circuit.rating_a, amps, place)
                items.append(self._item("circuit", circuit.id, circuit.rating_a, "A", amps, share, trip))
        for i, limit in enumerate(self.settled.source.limits):
            amount = self._filled(figures.limit_amount[:, :, i], figures, limit.continuous)
            if amount.max() > 0.0:
                unit = {"kVA": "VA", "kW": "W"}.get(limit.unit, limit.unit)
                trip = self._electronic(limit, amount, place)
                items.append(self._item("limit", limit.id, limit.continuous, unit, amount, share, trip))
        return tuple(items)

    @staticmethod
    def _filled(amount: Real, figures: SetFigures, rating: float) -> Real:
        """A set that collapses asks for more than there is: twice the rating stands for it."""
        return np.where(figures.collapsed, np.maximum(amount, 2.0 * rating), amount)

    def _usual_device(self, rating_a: float) -> Device:
        if self.settled.source.leg_voltage_v > 150.0:
            return Device("iec_60898_1", rating_a, "C")
        return Device("ul_489", rating_a)

    @staticmethod
    def _item(
        kind: str,
        name: str,
        rating: float,
        unit: str,
        amount: Real,
        share: Real,
        trip: tuple[FigureBand | None, str],
    ) -> ShiftItem:
        over = [round(float(share[amount[:, e] > rating].sum()), 6) for e in (LOW, TYPICAL, HIGH)]
        return ShiftItem(
            kind,
            name,
            rating,
            unit,
            round(float(share @ amount[:, TYPICAL]), 3),
            round(float(amount[:, TYPICAL].max()), 3),
            FigureBand(min(over), over[1], max(over)),
            *trip,
        )

    @property
    def shifts(self) -> Shifts:
        if self._shifts is None:
            self._shifts = drawn_shifts(
                self.on_s,
                self.off_s,
                self.hands,
                self.settled.people,
                self.lasts_s,
                self.draws,
                SEED,
                self.most_events,
            )
        return self._shifts

    def _thermal(
        self, device: Device, rating_a: float, amps: Real, place: npt.NDArray[np.int64]
    ) -> tuple[FigureBand | None, str]:
        if float(amps.max()) <= rating_a:
            return FigureBand(0.0, 0.0, 0.0), "exact"
        if device_faults(device):
            return None, "not_known"
        quantile = (np.arange(self.draws) + 0.5) / self.draws  # every part of the band as often
        found: list[float] = []
        for estimate in (LOW, TYPICAL, HIGH):
            if float(amps[:, estimate].max()) <= rating_a:
                found.append(0.0)
                continue
            histories: Any = [(duration, amps[place[state], estimate]) for duration, state in self.shifts]
            try:
                times = drawn_trip_s([device] * self.draws, histories, quantile.tolist())
            except UnfitDevice:
                return None, "not_known"
            found.append(float((times <= self.lasts_s).mean()))
        return FigureBand(min(found), found[1], max(found)), "monte_carlo"

    def _electronic(
        self, limit: SettledLimit, amount: Real, place: npt.NDArray[np.int64]
    ) -> tuple[FigureBand | None, str]:
        """A limit that may switch off: low and typical by its latest reading, high by its earliest."""
        if float(amount.max()) <= limit.continuous or limit.response in ("current_limiting", "voltage_dip"):
            return FigureBand(0.0, 0.0, 0.0), "exact"
        stated = next((item for item in self.settled.source.source.limits or () if item.id == limit.id), None)
        tiers: tuple[tuple[float, float], ...] | None = None
        if stated is not None and stated.tiers is not None:
            same = [tier for tier in stated.tiers if tier.amount.unit == limit.unit]
            tiers = tuple(sorted((tier.amount.band.typical, tier.lasts_s.typical) for tier in same))
        model = Limit(limit.continuous, tiers, "shutdown" if limit.response is None else limit.response)
        found: list[float] = []
        for estimate, latest in ((LOW, True), (TYPICAL, True), (HIGH, False)):
            histories: Any = [(duration, amount[place[state], estimate]) for duration, state in self.shifts]
            try:
                events = play_limits([model] * self.draws, histories)
            except UnfitLimit:
                return None, "not_known"
            times = [event.trips_latest_s if latest else event.trips_earliest_s for event in events]
            found.append(sum(at <= self.lasts_s for at in times) / self.draws)
        return FigureBand(min(found), found[1], max(found)), "monte_carlo"

    def convolved_items(self) -> tuple[ShiftItem, ...]:
        """Every circuit and limit, with the draw of each tool alone added up; trips are not drawn."""
        alone = solve_sets(self.settled, [group.placements for group in self.groups])
        items: list[ShiftItem] = []
        sources = [
            ("circuit", item.id, item.rating_a, "A", self._filled(alone.circuit_a[:, :, i], alone, item.rating_a))
            for i, item in enumerate(self.settled.source.circuits)
        ] + [
            (
                "limit",
                item.id,
                item.continuous,
                {"kVA": "VA", "kW": "W"}.get(item.unit, item.unit),
                self._filled(alone.limit_amount[:, :, i], alone, item.continuous),
            )
            for i, item in enumerate(self.settled.source.limits)
        ]
        for kind, name, rating, unit, amount in sources:
            if amount.max() <= 0.0:
                continue
            step = GRID if unit == "A" else 100.0 * GRID
            over: list[float] = []
            mean = largest = 0.0
            for estimate in (LOW, TYPICAL, HIGH):
                share = convolved_shares(
                    amount[:, estimate], self.on_s, self.off_s, self.hands, self.settled.people, step
                )
                sums = np.arange(share.shape[0]) * step
                over.append(round(float(share[sums > rating + 0.5 * step].sum()), 6))
                if estimate == TYPICAL:
                    mean, largest = float(share @ sums), float(sums[np.flatnonzero(share).max()])
            never = max(over) == 0.0
            items.append(
                ShiftItem(
                    kind,
                    name,
                    rating,
                    unit,
                    round(mean, 3),
                    round(largest, 3),
                    FigureBand(min(over), over[1], max(over)),
                    FigureBand(0.0, 0.0, 0.0) if never else None,
                    "exact" if never else "not_known",
                )
            )
        return tuple(items)
