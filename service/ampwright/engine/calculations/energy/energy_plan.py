"""Which figures does a day hang on, and how do they go through the kernel?

A plan is a list of figures (each a band with a name), loads that are products of two of them, and stretches of the day.
The name of a figure decides its random numbers: leaving a tool at home, or another charge, changes no other draw, so
that two plans differ by what they say and by nothing else.

Where at most one figure is uncertain its percentiles are taken evenly instead of at random: every result is then a
rising or falling function of one figure, and exact but for the interpolation between neighbours.
Not here: where the figures come from (energy_settle.py).
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt
from scipy.special import ndtri

from ampwright.engine.physics.counter_random import uniform_rows
from ampwright.engine.physics.day_energy import (
    CAPACITY,
    CHARGE,
    COLD,
    COLD_FACTOR,
    GAIN,
    HEALTH,
    IDLE,
    LIMIT,
    LOAD_FACTOR,
    METRICS,
    PER_DISTANCE,
    SLOPE,
    STOPS_AT,
    TOW_FACTOR,
    WIND_FACTOR,
    day_batch,
    day_draws,
)
from ampwright.engine.physics.drawn_values import FREE, SHARE, SIGNED, sorted_quantile
from ampwright.engine.site.band import Band

FloatArray = npt.NDArray[np.float64]
PLAN_AT = 0.9
"""[-] percentile of the drive that the reserve must cover: what is left is then planned at P10."""
PERCENTILES = (0.1, 0.5, 0.9)
_LEAST_UNIT = 2.0**-60


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a day. `assumption` is the ledger's key where the figure is a default."""

    key: str
    band: Band
    kind: int = FREE
    assumption: str | None = None

    @property
    def uncertain(self) -> bool:
        return self.band.low != self.band.high


@dataclass(frozen=True, slots=True)
class Load:
    """What runs: the product of two figures in W. kind: tool, standby or work; `name` is an id of the request.

    able : False where the source cannot run it: it is asked for, never fed, and not done.
    """

    name: str
    kind: str
    power: int
    time: int
    pointer: str
    able: bool = True


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of the day without a change; `distance` is the place of a figure, -1 for work.

    awake : share of the time that the source is awake in it.
    """

    is_work: bool
    stop: int
    start_s: float
    duration_s: float
    gain_w: float = 0.0
    distance: int = -1
    awake: float = 1.0


@dataclass(frozen=True, slots=True)
class Plan:
    """A day. `share` has a row per stretch and a column per load; `limited` False: nothing runs out."""

    figures: tuple[Figure, ...]
    loads: tuple[Load, ...]
    share: FloatArray
    stretches: tuple[Stretch, ...]
    stops: tuple[str, ...]
    arrival_j: float
    limited: bool = True

    def index(self, key: str) -> int:
        """Place of a figure. Errors: StopIteration where there is none."""
        return next(i for i, item in enumerate(self.figures) if item.key == key)

    def pinned(self, places: Sequence[int], end: str) -> Plan:
        """The plan with some figures fixed at `low`, `typical` or `high`."""
        figures = list(self.figures)
        for i in places:
            figures[i] = replace(figures[i], band=Band.exactly(getattr(figures[i].band, end)))
        return replace(self, figures=tuple(figures))

    def with_band(self, place: int, band: Band, assumption: str | None = None) -> Plan:
        """The plan with another band for one figure, and another line of the ledger where one is named."""
        figures = list(self.figures)
        figures[place] = replace(figures[place], band=band, assumption=assumption or figures[place].assumption)
        return replace(self, figures=tuple(figures))

    def without(self, load: int) -> Plan:
        """The plan with one load left at home."""
        share = self.share.copy()
        share[:, load] = 0.0
        return replace(self, share=share)

    def with_gain(self, stop: int, gain_w: float) -> Plan:
        """The plan with more power put into the store at one stop."""
        return replace(
            self,
            stretches=tuple(
                replace(item, gain_w=item.gain_w + gain_w) if item.is_work and item.stop == stop else item
                for item in self.stretches
            ),
        )

    def shortened(self, ratio: float) -> Plan:
        """The plan with every stretch of work at this ratio of its length, and its counted work with it."""
        return replace(
            self,
            stretches=tuple(
                replace(item, duration_s=item.duration_s * ratio) if item.is_work else item for item in self.stretches
            ),
        )


@dataclass(frozen=True, slots=True)
class Outcome:
    """Every draw of one plan.

    Shapes: out (METRICS, n), course_j (n, stretches + 1), use_j (n, loads + 3), fed (n, stretches).
    """

    out: FloatArray
    value: FloatArray
    reserve_j: FloatArray
    course_j: FloatArray
    use_j: FloatArray
    fed: FloatArray
    method: str

    def at(self, metric: int, probability: float) -> float:
        """A percentile of one metric."""
        return quantile(self.out[metric], probability)


@dataclass(slots=True)
class PlanBuilder:
    """Collects figures by name; the first FIXED ones in the order of the kernel."""

    figures: list[Figure] = field(default_factory=list)
    places: dict[str, int] = field(default_factory=dict)

    def add(self, key: str, band: Band, kind: int | None = None, assumption: str | None = None) -> int:
        """Place of a figure, which is added where it is not there yet. A band that touches zero is SIGNED."""
        if key in self.places:
            return self.places[key]
        if kind is None or (kind == FREE and band.low <= 0.0):
            kind = FREE if band.low > 0.0 else SIGNED
        self.places[key] = len(self.figures)
        self.figures.append(Figure(key, band, kind, assumption))
        return self.places[key]

    def share(self, key: str, band: Band, assumption: str | None = None) -> int:
        """Place of a figure between 0 and 1."""
        return self.add(key, band, SHARE, assumption)


def uncertain_places(plan: Plan) -> list[int]:
    """Places of the figures that a day hangs on and that are not certain."""
    return [i for i in in_use(plan) if plan.figures[i].uncertain]


def normals(plan: Plan, seed: int, draws: int, places: Sequence[int] | None = None) -> tuple[FloatArray, str]:
    """Standard normal numbers, (draws, figures), and the method: `certain`, `one_figure` or `monte_carlo`.

    places : of the figures to be drawn, where not those that are uncertain in this plan.
    """
    uncertain = list(uncertain_places(plan) if places is None else places)
    if not uncertain:
        return np.zeros((1, len(plan.figures))), "certain"
    made = np.zeros((draws, len(plan.figures)))
    if len(uncertain) == 1:
        made[:, uncertain[0]] = ndtri((np.arange(draws) + 0.5) / draws)
        return made, "one_figure"
    column = np.empty((draws, 1))
    for i in uncertain:
        stream = zlib.crc32(plan.figures[i].key.encode())
        uniform_rows(np.uint64(seed), np.uint64(stream), np.uint64(0), column)
        made[:, i] = ndtri(np.clip(column[:, 0], _LEAST_UNIT, 1.0 - 2.0**-53))
    return made, "monte_carlo"


def evaluate(plan: Plan, seed: int, draws: int) -> Outcome:
    """Every draw of one plan, with its course and its uses."""
    normal, method = normals(plan, seed, draws)
    count = normal.shape[0]
    value = np.empty((count, len(plan.figures)))
    out = np.empty((METRICS, count))
    course = np.empty((count, len(plan.stretches) + 1))
    use = np.empty((count, len(plan.loads) + 3))
    reserve = np.empty(len(plan.stretches))
    fed = np.empty((count, len(plan.stretches)))
    shape = _shape(plan)
    day_draws(
        normal, _bands(plan), shape.kind, shape.factor, _able(plan), np.ascontiguousarray(plan.share), _awake(plan),
        shape.is_work, _durations(plan), _gains(plan), shape.distance, plan.arrival_j, plan.arrival_j, PLAN_AT, value,
        reserve, out, course, use, fed,
    )  # fmt: skip
    return Outcome(out, value, reserve, course, use, fed, method)


def evaluate_many(plans: Sequence[Plan], seed: int, draws: int, probabilities: Sequence[float]) -> FloatArray:
    """Percentiles of many plans of one shape, (plans, METRICS, probabilities); the same code path as `evaluate`."""
    return percentiles_of_many(plans, seed, draws, probabilities)[0]


def percentiles_of_many(
    plans: Sequence[Plan], seed: int, draws: int, probabilities: Sequence[float]
) -> tuple[FloatArray, FloatArray]:
    """Percentiles of many plans of one shape, and in how many of the draws each reaches its reserve, (plans,) [-].

    Plans of one shape have the same figures, loads and kinds of stretches; bands, shares and lengths may differ.
    A plan's row does not depend on the others where it alone would be drawn at random too.
    """
    first = plans[0]
    # draws go by the figure's name: what one plan needs drawn moves nothing in a plan where it is certain
    drawn = sorted({place for plan in plans for place in uncertain_places(plan)})
    normal, _ = normals(first, seed, draws, drawn)
    shape = _shape(first)
    found = np.empty((len(plans), METRICS, len(probabilities)))
    reached = np.empty(len(plans))
    arrivals = np.array([plan.arrival_j for plan in plans])
    day_batch(
        normal, np.stack([_bands(plan) for plan in plans]), shape.kind, shape.factor,
        np.stack([_able(plan) for plan in plans]), np.ascontiguousarray(np.stack([plan.share for plan in plans])),
        np.stack([_awake(plan) for plan in plans]),
        shape.is_work, np.stack([_durations(plan) for plan in plans]), np.stack([_gains(plan) for plan in plans]),
        shape.distance, arrivals, arrivals, PLAN_AT, np.array(probabilities, dtype=np.float64), found, reached,
    )  # fmt: skip
    return found, reached


def quantile(values: FloatArray, probability: float) -> float:
    """A percentile of some values that may hold inf (Hyndman and Fan, definition 7)."""
    return sorted_quantile(np.sort(values), probability)


@dataclass(frozen=True, slots=True)
class _Shape:
    kind: npt.NDArray[np.int64]
    factor: npt.NDArray[np.int64]
    is_work: npt.NDArray[np.int64]
    distance: npt.NDArray[np.int64]


def _shape(plan: Plan) -> _Shape:
    def whole(values: list[int]) -> npt.NDArray[np.int64]:
        return np.array(values, dtype=np.int64)

    factor = np.array([[item.power, item.time] for item in plan.loads], dtype=np.int64).reshape(len(plan.loads), 2)
    return _Shape(
        whole([item.kind for item in plan.figures]),
        factor,
        whole([int(item.is_work) for item in plan.stretches]),
        whole([item.distance for item in plan.stretches]),
    )


def in_use(plan: Plan) -> list[int]:
    """Places of the figures that a day can hang on: nothing drives where no stretch is a drive."""
    gains = any(item.gain_w > 0.0 for item in plan.stretches)
    drives = {item.distance for item in plan.stretches if not item.is_work}
    used = {CAPACITY, HEALTH, COLD, CHARGE, STOPS_AT, IDLE, SLOPE, LIMIT, *drives}
    used.update(place for load in plan.loads for place in (load.power, load.time))
    if gains:
        used.add(GAIN)
    if drives:
        used.update((PER_DISTANCE, LOAD_FACTOR, COLD_FACTOR, WIND_FACTOR, TOW_FACTOR))
    return sorted(used)


def _bands(plan: Plan) -> FloatArray:
    return np.array([[item.band.low, item.band.typical, item.band.high] for item in plan.figures])


def _durations(plan: Plan) -> FloatArray:
    return np.array([item.duration_s for item in plan.stretches])


def _able(plan: Plan) -> npt.NDArray[np.int64]:
    return np.array([int(item.able) for item in plan.loads], dtype=np.int64)


def _awake(plan: Plan) -> FloatArray:
    return np.array([item.awake for item in plan.stretches])


def _gains(plan: Plan) -> FloatArray:
    return np.array([item.gain_w for item in plan.stretches])
