"""Which sources, kits and jobs does a question about many of them name, and which parts do its rows share?

A cell is one kit on one source for one job. Its load check is an ordinary request, which a caller can have shown and
post alone; digests are those of that request.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.energy_budgets import (
    BatteryConditions,
    DayStop,
    EnergyLeft,
    FuelConditions,
    Percentiles,
    ToolDuty,
    WayHome,
    WorkAmount,
)
from ampwright.contract.energy_quantities import CarbonText, PriceText, ShareText
from ampwright.contract.load_checks import (
    CODE_BASES,
    AnySource,
    Aspect,
    Case,
    Conditions,
    Connection,
    CordInUse,
    Severity,
    ToolInUse,
    Verdict,
    Verdicts,
)
from ampwright.contract.parts import MOST_ITEMS, Answer, Identifier, Request, Revision, Slug, text_list
from ampwright.contract.quantities import DurationText, EnergyText, LengthText
from ampwright.engine.site.work_units import WORK_PATTERN_NAMES

MOST_SOURCES, MOST_KITS, MOST_JOBS = 100, 500, 500
MOST_ROWS = 50_000
RowNumber = Annotated[int, Meta(ge=0, le=MOST_ROWS, examples=[0])]


class MatrixSource(Request, frozen=True, kw_only=True):
    """A source by inline document, catalogue entry or fleet unit, and what is in it this morning."""

    id: Identifier
    source: AnySource
    charge: ShareText | UnsetType = UNSET
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: EnergyText | UnsetType = UNSET


class MatrixKit(Request, frozen=True, kw_only=True):
    """A kit by catalogue entry, inline, or both: a tool or cord with the id of one of the entry's corrects it.

    `connections` are taken where they are given; else a plan of how to plug in is made for each source, and told.
    """

    id: Identifier
    entry: Slug | UnsetType = UNSET
    revision: Revision | UnsetType = UNSET
    tools: Annotated[list[ToolInUse], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    cords: Annotated[list[CordInUse], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    connections: Annotated[list[Connection], Meta(max_length=2 * MOST_ITEMS)] | UnsetType = UNSET


class MatrixDay(Request, frozen=True, kw_only=True):
    """The day that the energy must last for, as an energy budget takes it. Given, each cell has a budget too."""

    shift: DurationText | UnsetType = UNSET
    pattern: Annotated[str, text_list(WORK_PATTERN_NAMES, "What the crew does all day.", "framing")] | UnsetType = UNSET
    duties: Annotated[list[ToolDuty], Meta(max_length=200)] | UnsetType = UNSET
    work: Annotated[list[WorkAmount], Meta(max_length=60)] | UnsetType = UNSET
    stops: Annotated[list[DayStop], Meta(min_length=1, max_length=16)] | UnsetType = UNSET
    way_home: WayHome | UnsetType = UNSET
    electricity_price: PriceText | UnsetType = UNSET
    fuel_price: PriceText | UnsetType = UNSET
    carbon: CarbonText | UnsetType = UNSET
    seed: Annotated[int, Meta(ge=0, le=9007199254740991, examples=[1])] | UnsetType = UNSET
    draws: Annotated[int, Meta(ge=100, le=20000, examples=[1000])] | UnsetType = UNSET


class MatrixJob(Request, frozen=True, kw_only=True):
    """What is to be done: which cases run, how many work, where. `kits` and `sources` name those that are asked about,
    all where left out. `distance` is the way from the source to the work along which a cord would lie.
    """

    id: Identifier
    kits: Annotated[list[Identifier], Meta(max_length=MOST_KITS)] | UnsetType = UNSET
    sources: Annotated[list[Identifier], Meta(max_length=MOST_SOURCES)] | UnsetType = UNSET
    cases: Annotated[list[Case], Meta(max_length=64)] | UnsetType = UNSET
    people: Annotated[int, Meta(ge=1, le=200, examples=[2])] | UnsetType = UNSET
    distance: LengthText | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: (
        Annotated[list[Annotated[str, text_list(CODE_BASES, "A rule layer.", "nec-2023")]], Meta(max_length=8)]
        | UnsetType
    ) = UNSET
    day: MatrixDay | UnsetType = UNSET


class RowRange(Request, frozen=True, kw_only=True):
    """Rows by number, from 0: `begin` is the first, `end` the first that is not wanted."""

    begin: RowNumber | UnsetType = UNSET
    end: RowNumber | UnsetType = UNSET


# --- parts of rows -----------------------------------------------------------------------------------------------

Amount = Annotated[float, Meta(ge=-1e30, le=1e30)]
Counted = Annotated[int, Meta(ge=0, le=1_000_000_000)]


class MatrixFault(Answer, frozen=True, kw_only=True):
    """Why one cell has no answer; the others have theirs. `pointer` goes into the request as sent."""

    pointer: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class CellLoadCheck(Answer, frozen=True, kw_only=True):
    """Verdicts of the cell's own load check, and the digest that its request has when it is posted alone."""

    verdict: Verdicts
    request_digest: str


class CellEnergyBudget(Answer, frozen=True, kw_only=True):
    """Verdicts of the cell's own energy budget, and the digest that its request has when it is posted alone."""

    verdict: Verdicts
    time_left_s: Percentiles | UnsetType = UNSET
    left: EnergyLeft | UnsetType = UNSET
    request_digest: str


class CellFinding(Answer, frozen=True, kw_only=True):
    """The first finding of a cell. `pointer` goes into the request as sent."""

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    figure: str | UnsetType = UNSET
    value: Amount | UnsetType = UNSET
    limit: Amount | UnsetType = UNSET
    cases: list[str] = []


class CellAsks(Answer, frozen=True, kw_only=True):
    """The question to settle first: what was assumed, how to find out, and the verdict if it is otherwise."""

    code: str
    pointer: str
    value: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    swings_verdict_to: Verdict | UnsetType = UNSET


class MissingThing(Answer, frozen=True, kw_only=True):
    """One thing to bring: its kind, in words, how many, why, and the finding behind it."""

    item: str
    text: str
    quantity: Annotated[int, Meta(ge=1, le=1_000_000)]
    why: str
    pointer: str
    finding: str | UnsetType = UNSET


class WouldInvalidate(Answer, frozen=True, kw_only=True):
    """What would make the answer void; `code` is of the list, or that of an assumption."""

    code: str
    text: str
    pointer: str


class OtherSource(Answer, frozen=True, kw_only=True):
    """Another source of the request on which the same kit does better at the same job; where each of those that the job
    names fails, the first 12 of those that it does not name are looked at too."""

    source: str
    verdict: Verdict


class PluggedIn(Answer, frozen=True, kw_only=True):
    """What is plugged into what; it can be sent as a connection."""

    plug: str
    into: str
    leg: Literal["L1", "L2", "L3"] | UnsetType = UNSET


class VerdictCounts(Answer, frozen=True, kw_only=True):
    """How many rows have which verdict, and how many none."""

    passing: Counted
    marginal: Counted
    unknown: Counted
    failing: Counted
    without_answer: Counted


class MatrixProgress(Answer, frozen=True, kw_only=True, tag="progress", tag_field="kind"):
    """Nothing is wrong, rows only take long."""

    rows: Counted
    of: Counted


class MatrixEnd(Answer, frozen=True, kw_only=True, tag="end", tag_field="kind"):
    """The last line: a stream without it was cut off. `next_index` is the row after the last one sent; `computed`
    cells were worked out, the others ask the same as one of them."""

    rows: Counted
    next_index: Counted
    computed: Counted
    counts: VerdictCounts
