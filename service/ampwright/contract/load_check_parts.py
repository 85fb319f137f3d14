"""What more may a load check be asked for, and what comes back then?

Parts that cost more than the check itself, each named by a word of `include`.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.parts import Answer

Inclusion = Literal["break_evens", "faults", "largest_sets", "shift", "trip_curves"]
IncludeList = Annotated[
    list[Inclusion],
    Meta(
        max_length=8,
        description="Parts of the answer that are worked out only when asked for: the smallest change that flips each "
        "finding, the load that may still be added, the highest weld, the largest motor that starts and the longest "
        "cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the "
        "largest sets of tools that run together, and the best order of starting; overload and trips over a shift; "
        "trip curves.",
        examples=[["break_evens"]],
    ),
]
Amount = Annotated[float, Meta(ge=-1e9, le=1e9)]


class Estimates(Answer, frozen=True, kw_only=True):
    """Low, typical and high by number."""

    low: Amount
    typical: Amount
    high: Amount


class SpareLoad(Answer, frozen=True, kw_only=True):
    """The largest extra load at a free receptacle beside a case, and the finding that a larger one would bring.

    With it the case is no worse than it was: its tools start, and what follows a trip is no worse.
    """

    case: str
    receptacle: str
    current_a: Amount
    power_w: Amount
    limited_by: str | UnsetType = UNSET


class HighestWeld(Answer, frozen=True, kw_only=True):
    """The highest weld of a welder beside the rest of its case, in amperes of its output.

    At `passes_a` the case passes, at `at_most_a` it is at least marginal; one that is left out does not exist. What it
    takes from the outlet, for how long the welder bears it and its effective current belong to `at_most_a`.
    """

    case: str
    tool: str
    rated_a: Amount
    passes_a: Amount | UnsetType = UNSET
    at_most_a: Amount | UnsetType = UNSET
    supply_current_a: Amount | UnsetType = UNSET
    welding_in_ten_minutes_s: Amount | UnsetType = UNSET
    effective_current_a: Amount | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class LargestMotor(Answer, frozen=True, kw_only=True):
    """The largest capacitor-start motor, by shaft power, that starts and runs at a free receptacle beside a case.

    `against` is what it starts against: head_pressure or nothing. After `holds_w` the case is no worse than it was,
    after `at_most_w` at least marginal; one that is left out does not exist.
    """

    case: str
    receptacle: str
    against: str
    holds_w: Amount | UnsetType = UNSET
    at_most_w: Amount | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class LongestCord(Answer, frozen=True, kw_only=True):
    """The longest that a cord may be before a case gets worse, and the finding that a longer one would bring.

    Without `limited_by` it is the longest that was looked at, 1,000 ft.
    """

    cord: str
    length_m: Amount
    limited_by: str | UnsetType = UNSET


class FaultFigure(Answer, frozen=True, kw_only=True):
    """A dead short at the far end of a cord run, named by its last cord; a time that does not exist is left out.

    `protects` is what ends it before a cord is ruined: overcurrent_device, source_shutdown, ground_fault_device (only a
    fault to earth), nothing_needed, unknown or nothing. `copper_temperature_c` is adiabatic, where the device opens
    within 5 s.
    """

    cord: str
    receptacle: str
    circuit: str
    far_current_a: Amount
    largest_current_a: Amount
    outcome: str
    protects: str
    trip_earliest_s: Amount | UnsetType = UNSET
    trip_latest_guaranteed_s: Amount | UnsetType = UNSET
    trip_latest_assumed_s: Amount | UnsetType = UNSET
    cord_bears_s: Amount | UnsetType = UNSET
    copper_temperature_c: Amount | UnsetType = UNSET


class DutyUsed(Answer, frozen=True, kw_only=True):
    """Mean times that a tool is on and off; the usual ones of its class where the request does not state both."""

    tool: str
    on_s: Amount
    off_s: Amount
    from_request: bool


class ShiftItem(Answer, frozen=True, kw_only=True):
    """A circuit or limit over a shift: the share of time over its rating, and the probability that it trips."""

    kind: Literal["circuit", "limit"]
    id: str
    rating: Amount
    unit: str
    mean_amount: Amount
    largest_amount: Amount
    overload_ratio: Estimates
    trip_probability_ratio: Estimates | UnsetType = UNSET
    trip_method: str


class ShiftUse(Answer, frozen=True, kw_only=True):
    """Use over a shift. `method` is exact, or convolution above 12 tools; trips are drawn with a fixed seed."""

    shift_s: Amount
    method: str
    allowed_sets: int
    draws: int
    sampling_error_ratio: Amount
    duties: list[DutyUsed] = []
    items: list[ShiftItem] = []


class LargestSet(Answer, frozen=True, kw_only=True):
    """Tools that run together and to which none can be added; `method` is exact, or heuristic above 12 tools.

    `verdict` (capacity) and `safety` are those of a load check of this set, what follows a trip included.
    """

    tools: list[str]
    verdict: Literal["pass", "marginal", "unknown", "fail"]
    safety: Literal["pass", "marginal", "unknown", "fail"]
    method: str


class StartOrder(Answer, frozen=True, kw_only=True):
    """The order whose worst start is best. A case that only an order saves is `marginal`: people do not keep to one.

    `any_order` is the verdict of the starts whatever the order, `in_order` that in this order.
    """

    case: str
    order: list[str]
    any_order: Literal["pass", "marginal", "unknown", "fail"]
    in_order: Literal["pass", "marginal", "unknown", "fail"]
    verdict: Literal["pass", "marginal", "unknown", "fail"]
    largest_peak_a: Amount


class TripPoint(Answer, frozen=True, kw_only=True):
    current_a: Amount
    earliest_s: Amount | UnsetType = UNSET
    latest_guaranteed_s: Amount | UnsetType = UNSET
    latest_assumed_s: Amount | UnsetType = UNSET


class TripCurve(Answer, frozen=True, kw_only=True):
    """When the device of a circuit opens, from cold; a time that does not exist is left out."""

    circuit: str
    standard: str
    rating_a: Amount
    points: list[TripPoint] = []
