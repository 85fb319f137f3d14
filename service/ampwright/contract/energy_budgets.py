"""What does a caller post to /v1/energy-budgets, and what comes back?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.energy_quantities import (
    CarbonText,
    DistanceText,
    FlowText,
    PressureText,
    PriceText,
    RateText,
    ShareText,
    SpeedText,
)
from ampwright.contract.load_checks import (
    Aspect,
    Basis,
    BreakEven,
    CrewLine,
    LoadCheckRequest,
    Severity,
    StatedAsOf,
    UsedEntry,
    Verdict,
    Verdicts,
)
from ampwright.contract.parts import Answer, Identifier, Request, text_list
from ampwright.contract.quantities import DurationText, EnergyText, LengthText, PowerText, TemperatureText, VolumeText
from ampwright.engine.site.work_units import WORK_PATTERN_NAMES, WORK_UNIT_NAMES

MOST_WORK = 60
MOST_STOPS = 16
Amount = Annotated[float, Meta(ge=0.0, le=1e7, examples=[140])]


class BatteryConditions(Request, frozen=True, kw_only=True):
    """The state of a battery beside its charge. `cells` is the temperature inside; `stops_at` where outlets go off.

    `largest_discharge` is what it gives at that temperature, before the inverter; without it, cold takes a wide part.
    """

    chemistry: Literal["lithium", "lead_acid"] | UnsetType = UNSET
    health: ShareText | UnsetType = UNSET
    age_years: Annotated[float, Meta(ge=0.0, le=40.0, examples=[3])] | UnsetType = UNSET
    cells: TemperatureText | UnsetType = UNSET
    stops_at: ShareText | UnsetType = UNSET
    efficiency: ShareText | UnsetType = UNSET
    largest_discharge: PowerText | UnsetType = UNSET


class RunTime(Request, frozen=True, kw_only=True):
    """How long one full tank lasts at a share of the rating, as a plate says."""

    load: ShareText
    lasts: DurationText


class FuelConditions(Request, frozen=True, kw_only=True):
    """What an engine burns, how much of it there is, and how high the place is: thin air takes from its rating."""

    kind: Literal["gasoline", "diesel", "propane"] | UnsetType = UNSET
    in_tank: VolumeText | UnsetType = UNSET
    run_times: Annotated[list[RunTime], Meta(max_length=6)] | UnsetType = UNSET
    altitude: LengthText | UnsetType = UNSET


class CompressedAir(Request, frozen=True, kw_only=True):
    """Plate of a compressor, and the air that is asked of it: a flow, or nails."""

    tank: VolumeText | UnsetType = UNSET
    cut_in: PressureText | UnsetType = UNSET
    cut_out: PressureText | UnsetType = UNSET
    delivery: FlowText | UnsetType = UNSET
    use: FlowText | UnsetType = UNSET
    nails: RateText | UnsetType = UNSET


class ToolDuty(Request, frozen=True, kw_only=True):
    """How much of the time a tool runs, as a share or by the air that is asked of it.

    `rated` is the duty cycle of its plate, as a welder has: how much of ten minutes it may run.
    """

    tool: Identifier
    running: ShareText | UnsetType = UNSET
    air: CompressedAir | UnsetType = UNSET
    rated: ShareText | UnsetType = UNSET


class PackCharging(Request, frozen=True, kw_only=True):
    """Packs of cordless tools and what charges them."""

    capacity: EnergyText | UnsetType = UNSET
    start: ShareText | UnsetType = UNSET
    target: ShareText | UnsetType = UNSET
    charger: PowerText | UnsetType = UNSET
    chargers: Annotated[int, Meta(ge=1, le=100, examples=[2])] | UnsetType = UNSET


class WorkAmount(Request, frozen=True, kw_only=True):
    """So many units of one kind of work. Where a tool does it, its duty follows from the work."""

    id: Identifier
    unit: Annotated[str, text_list(WORK_UNIT_NAMES, "Kind of work.", "cut")]
    amount: Amount
    tool: Identifier | UnsetType = UNSET
    energy_each: EnergyText | UnsetType = UNSET
    head: LengthText | UnsetType = UNSET
    pack: PackCharging | UnsetType = UNSET
    stop: Identifier | UnsetType = UNSET


class DayStop(Request, frozen=True, kw_only=True):
    """A place of work: the drive to it, the time there, the tools in use, and a socket that recharges meanwhile."""

    id: Identifier
    distance: DistanceText | UnsetType = UNSET
    lasts: DurationText | UnsetType = UNSET
    running: Annotated[list[Identifier], Meta(max_length=200)] | UnsetType = UNSET
    recharge: PowerText | UnsetType = UNSET


class WayHome(Request, frozen=True, kw_only=True):
    """The last drive of the day, and what must be left after it. Wind, trailer and load count on every drive.

    `figure_of` says what the source's energy per distance is stated of: labels count from the wall, losses of charging
    included, a trip computer from the battery.
    """

    distance: DistanceText | UnsetType = UNSET
    headwind: SpeedText | UnsetType = UNSET
    towing: bool | UnsetType = UNSET
    loaded: bool | UnsetType = UNSET
    arrive_with: ShareText | UnsetType = UNSET
    figure_of: Literal["battery", "wall"] | UnsetType = UNSET


class WorkObservation(Request, frozen=True, kw_only=True):
    """ "140 cuts took 9 %": so many units took a share of the battery or an amount of energy.

    `step` is the smallest step of the display; `over` how long the source was awake for it.
    """

    work: Identifier
    amount: Annotated[float, Meta(gt=0.0, le=1e7, examples=[140])]
    took: ShareText | UnsetType = UNSET
    took_energy: EnergyText | UnsetType = UNSET
    step: ShareText | UnsetType = UNSET
    over: DurationText | UnsetType = UNSET


class EnergyBudgetRequest(LoadCheckRequest, frozen=True, kw_only=True):
    """A load check's request with the energy that there is, the day that it must last for, and the way home.

    `shift` is the time at work, of a band the longest. `cases` and `connections` say nothing here, and may stand.
    """

    charge: ShareText | UnsetType = UNSET
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: EnergyText | UnsetType = UNSET
    pattern: Annotated[str, text_list(WORK_PATTERN_NAMES, "What the crew does all day.", "framing")] | UnsetType = UNSET
    duties: Annotated[list[ToolDuty], Meta(max_length=200)] | UnsetType = UNSET
    work: Annotated[list[WorkAmount], Meta(max_length=MOST_WORK)] | UnsetType = UNSET
    stops: Annotated[list[DayStop], Meta(min_length=1, max_length=MOST_STOPS)] | UnsetType = UNSET
    way_home: WayHome | UnsetType = UNSET
    solar: (
        Annotated[
            list[PowerText], Meta(max_length=336, description="Mean power of each hour from the start of the day.")
        ]
        | UnsetType
    ) = UNSET
    observations: Annotated[list[WorkObservation], Meta(max_length=20)] | UnsetType = UNSET
    electricity_price: PriceText | UnsetType = UNSET
    fuel_price: PriceText | UnsetType = UNSET
    carbon: CarbonText | UnsetType = UNSET
    seed: (
        Annotated[
            int, Meta(ge=0, le=9007199254740991, description="Seed of the draws; 1 where left out.", examples=[1])
        ]
        | UnsetType
    ) = UNSET
    draws: (
        Annotated[int, Meta(ge=100, le=20000, description="Draws; 4000 where left out.", examples=[4000])] | UnsetType
    ) = UNSET


# --- answer ------------------------------------------------------------------------------------------------------

EnergyFigure = Annotated[float, Meta(ge=-1e30, le=1e30)]
Ratio = Annotated[float, Meta(ge=-1e30, le=1e30)]


class Percentiles(Answer, frozen=True, kw_only=True):
    """10th, 50th and 90th percentile by number, in the unit of the member's name."""

    p10: EnergyFigure
    p50: EnergyFigure
    p90: EnergyFigure


class EnergyFinding(Answer, frozen=True, kw_only=True):
    """One thing the user must know."""

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    cases: list[str] = []
    figure: str | UnsetType = UNSET
    value: EnergyFigure | UnsetType = UNSET
    limit: EnergyFigure | UnsetType = UNSET
    basis: list[str] = []
    break_even: list[BreakEven] = []


class EnergyAssumption(Answer, frozen=True, kw_only=True):
    """A default that the answer leaned on; `influence_j` is how far it moves what is left in the worst of ten days."""

    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    swings_verdict_to: Verdict | UnsetType = UNSET
    influence_j: EnergyFigure | UnsetType = UNSET
    basis: list[str] = []


class EnergyLeft(Answer, frozen=True, kw_only=True):
    """Energy in the store when work ends, when the day ends, and above the reserve; below zero is missing.

    `enough`: whether the energy alone makes the day; the verdict looks at all that is found.
    """

    enough: Verdict
    after_work_j: Percentiles
    at_end_j: Percentiles
    above_reserve_j: Percentiles
    at_end_ratio: Percentiles | UnsetType = UNSET


class EnergyReserve(Answer, frozen=True, kw_only=True):
    """What must be left when work ends. `reached_at_s` is of the days on which it is reached."""

    outcome: str
    energy_j: EnergyFigure
    to_be_left_on_arrival_j: EnergyFigure
    drive_j: Percentiles | UnsetType = UNSET
    reached_probability_ratio: Ratio
    reached_at_s: Percentiles | UnsetType = UNSET


class WorkDone(Answer, frozen=True, kw_only=True):
    """How much of a counted work is done before the reserve is reached, and the time that the people need for all."""

    work: str
    unit: str
    asked: EnergyFigure
    done: Percentiles
    done_ratio: Percentiles
    time_needed_s: Percentiles | UnsetType = UNSET


class EnergyCurvePoint(Answer, frozen=True, kw_only=True):
    at_s: EnergyFigure
    doing: str
    left_j: Percentiles


class EnergyUse(Answer, frozen=True, kw_only=True):
    """What eats how much: a tool, work, standby, the source itself, conversion, driving."""

    name: str
    kind: str
    energy_j: Percentiles
    share_ratio: Ratio


class StopResult(Answer, frozen=True, kw_only=True):
    stop: str
    arrives_at_s: EnergyFigure
    leaves_at_s: EnergyFigure
    left_on_leaving_j: Percentiles
    must_be_left_j: EnergyFigure
    verdict: Verdict


class FuelResult(Answer, frozen=True, kw_only=True):
    burnt_m3: Percentiles
    left_m3: Percentiles
    mean_load_ratio: Ratio


class CostResult(Answer, frozen=True, kw_only=True):
    amount: Percentiles
    currency: str


class DutyResult(Answer, frozen=True, kw_only=True):
    """How much of the time a tool runs, over the day and, for counted work, in ten minutes without a pause."""

    tool: str
    running_ratio: Percentiles
    energy_j: Percentiles
    starts_per_hour: Ratio | UnsetType = UNSET
    ten_minutes_ratio: Percentiles | UnsetType = UNSET


class WorkPosterior(Answer, frozen=True, kw_only=True):
    """Energy of one unit before and after what was observed; `agrees` false: far outside the usual range."""

    work: str
    unit: str
    before_j: Percentiles
    after_j: Percentiles
    observations: int
    agrees: bool


class BudgetMethod(Answer, frozen=True, kw_only=True):
    """`certain`: no band; `one_figure`: exact percentiles of one uncertain figure; `monte_carlo`: draws of a seed."""

    method: str
    seed: int
    draws: int
    energy_conserved: Annotated[bool, Meta(description="The balance of every draw closes to 1e-9.")]


class EnergyBudgetAnswer(Answer, frozen=True, kw_only=True):
    """Most important first: verdict, words, findings, assumptions, figures."""

    verdict: Verdicts
    question: str | UnsetType = UNSET
    crew_card: list[CrewLine] = []
    findings: list[EnergyFinding] = []
    assumptions: list[EnergyAssumption] = []
    cheapest_change: BreakEven | UnsetType = UNSET
    changes: list[BreakEven] = []
    left: EnergyLeft | UnsetType = UNSET
    time_left_s: Percentiles | UnsetType = UNSET
    reserve: EnergyReserve | UnsetType = UNSET
    work_done: list[WorkDone] = []
    stops: list[StopResult] = []
    curve: list[EnergyCurvePoint] = []
    uses: list[EnergyUse] = []
    duties: list[DutyResult] = []
    used_j: Percentiles
    done_ratio: Annotated[
        Percentiles,
        Meta(description="What the loads are fed before the reserve is reached, over what they ask for."),
    ]
    fuel: FuelResult | UnsetType = UNSET
    cost: CostResult | UnsetType = UNSET
    carbon_kg: Percentiles | UnsetType = UNSET
    posteriors: list[WorkPosterior] = []
    not_assessed: Annotated[
        list[str],
        Meta(description="What is not looked at; it keeps the overall verdict from being better than `unknown`."),
    ] = []
    method: BudgetMethod
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
