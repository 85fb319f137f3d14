"""What does a caller post to /v1/cord-sizings, and what comes back?

Four questions in one request, by what is given: sizes for a distance, a stated run of cords, how far each may go, and
which of the cords at hand to use. One row answers for one candidate, whatever the question.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.document_parts import ConfigurationText, SizeText
from ampwright.contract.load_checks import (
    CODE_BASES,
    AnySource,
    Assumption,
    Basis,
    Conditions,
    CordInUse,
    Figure,
    FigureBand,
    Finding,
    Outcomes,
    StatedAsOf,
    ToolInUse,
    TripFigure,
    UsedEntry,
    Verdict,
    Verdicts,
    WithdrawalsAsOf,
)
from ampwright.contract.parts import Answer, Count, Identifier, ReleaseNumber, Request, text_list
from ampwright.contract.quantities import CurrentText, LengthText, TemperatureText

MOST_CORDS = 60
MOST_SIZES = 24


class CordCandidate(CordInUse, frozen=True, kw_only=True):
    """A cord at hand: inline, or an entry of the catalogue with corrections beside it; `count` says how many alike."""

    count: Count | UnsetType = UNSET


class CordToBring(Request, frozen=True, kw_only=True):
    """What is settled of the cord to be brought, beside its size and length; all may be omitted."""

    type: (
        Annotated[
            str,
            Meta(
                min_length=1,
                max_length=24,
                pattern=r"^[A-Z0-9][A-Z0-9\-]{0,22}$(?!\n)",
                description="Cord type as printed on the jacket.",
                examples=["SOOW"],
            ),
        ]
        | UnsetType
    ) = UNSET
    conductors: (
        Annotated[int, Meta(ge=2, le=5, description="All conductors, earth included.", examples=[3])] | UnsetType
    ) = UNSET
    insulation_temperature: TemperatureText | UnsetType = UNSET
    marked: CurrentText | UnsetType = UNSET
    plug: ConfigurationText | UnsetType = UNSET
    outlet: ConfigurationText | UnsetType = UNSET
    laid: Literal["straight", "coiled", "drum"] | UnsetType = UNSET
    drum_layers: Annotated[int, Meta(ge=1, le=12, examples=[3])] | UnsetType = UNSET


class CordSizingRequest(Request, frozen=True, kw_only=True):
    """A source, one tool, and what is known of the way between them.

    `distance` alone asks which conductor to bring. `cords` beside it asks which of these to use. `run` names cords of
    the list from the receptacle outward and asks whether they are good enough. Without a distance each size, or each
    cord, tells how far it may go.
    """

    source: AnySource
    tool: ToolInUse
    distance: LengthText | UnsetType = UNSET
    receptacle: Identifier | UnsetType = UNSET
    cords: Annotated[list[CordCandidate], Meta(max_length=MOST_CORDS)] | UnsetType = UNSET
    run: Annotated[list[Identifier], Meta(min_length=1, max_length=100)] | UnsetType = UNSET
    sizes: Annotated[list[SizeText], Meta(min_length=1, max_length=MOST_SIZES)] | UnsetType = UNSET
    new_cord: CordToBring | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: (
        Annotated[list[Annotated[str, text_list(CODE_BASES, "A rule layer.", "nec-2023")]], Meta(max_length=8)]
        | UnsetType
    ) = UNSET
    catalogue_release: ReleaseNumber | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET


# --- answer ------------------------------------------------------------------------------------------------------


class RuleLine(Answer, frozen=True, kw_only=True):
    """One rule held against one candidate. `figure` names value, limit and margin, with their unit.

    The margin is what is left at the worst end of the band; below zero the rule is not met there. An `advisory` line
    changes no verdict: it tells what a careful person would still mind.
    """

    code: str
    aspect: Literal["safety", "capacity", "code"]
    verdict: Verdict
    advisory: bool
    load_state: Literal["working", "heavy", "duty"] | UnsetType = UNSET
    cord: str | UnsetType = UNSET
    figure: str | UnsetType = UNSET
    value: FigureBand | UnsetType = UNSET
    limit: Figure | UnsetType = UNSET
    margin: Figure | UnsetType = UNSET
    limit_from: str | UnsetType = UNSET
    outcome: str | UnsetType = UNSET
    basis: list[str] = []


class CordPart(Answer, frozen=True, kw_only=True):
    """One cord of a run, from the receptacle outward."""

    cord: str
    size: str
    length_m: FigureBand
    laid: str
    capacity_a: Figure
    capacity_from: str
    marked_a: Figure | UnsetType = UNSET
    ends_a: Figure | UnsetType = UNSET
    ampacity_a: Figure | UnsetType = UNSET
    derated_ampacity_a: Figure | UnsetType = UNSET
    insulation_temperature_c: Figure
    drop_v: FigureBand
    copper_temperature_c: FigureBand


class StartOfRow(Answer, frozen=True, kw_only=True):
    """What becomes of switching the tool on at the end of this run, as a load check of the same run has it.

    `outcome` is one of starts, starts_slowly, stalls, hunts, source_limits, shuts_off, trips, collapses, no_start (it
    has none to speak of) and not_assessed, by the typical estimate; `outcomes` is there where the estimates differ.
    `current_a` is the highest of the start, `drop_v` what it loses along the run, `voltage_v` the least that is left
    at the tool meanwhile. Peak, time and trip are those of the hardest estimate; `source_must_give_a` for
    `source_must_give_s` would start it.
    """

    outcome: str
    outcomes: Outcomes | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET
    peak_a: Figure | UnsetType = UNSET
    lasts_s: Figure | UnsetType = UNSET
    source_must_give_a: Figure | UnsetType = UNSET
    source_must_give_s: Figure | UnsetType = UNSET
    probability_ratio: Figure | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class Reach(Answer, frozen=True, kw_only=True):
    """How far this cord may go. To `passing_m` every rule passes while the tool works; to `longest_m` none
    fails. Left out where there is no such length."""

    outcome: str
    longest_m: Figure | UnsetType = UNSET
    passing_m: Figure | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class CordRow(Answer, frozen=True, kw_only=True):
    """One candidate: a size to bring, a cord at hand, or several cords in series.

    `waits_for` names the one assumption that decides; `hangs_on` several that decide only together.
    """

    id: str
    kind: Literal["size", "cord", "run"]
    receptacle: str
    verdict: Verdict
    careful: bool
    waits_for: str | UnsetType = UNSET
    hangs_on: list[str] = []
    length_m: FigureBand
    current_a: FigureBand | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    contacts_drop_v: FigureBand | UnsetType = UNSET
    loss_w: FigureBand | UnsetType = UNSET
    heavy_drop_v: FigureBand | UnsetType = UNSET
    start: StartOfRow | UnsetType = UNSET
    reach: Reach | UnsetType = UNSET
    cords: list[CordPart] = []
    lines: list[RuleLine] = []


class Choice(Answer, frozen=True, kw_only=True):
    """A candidate worth naming, and its price: volts and watts lost while the tool works."""

    code: str
    row: str
    verdict: Verdict
    text: str
    drop_v: FigureBand | UnsetType = UNSET
    loss_w: FigureBand | UnsetType = UNSET


class CordSizingAnswer(Answer, frozen=True, kw_only=True):
    """The verdict is that of the run asked about, else of the first choice; `lines` hold for every candidate.

    Among `lines` is the start of the tool plugged straight into the receptacle: what no cord mends. `question` is the
    assumption whose answer settles the verdict, `hangs_on` those that settle it only together.
    """

    verdict: Verdicts
    question: str | UnsetType = UNSET
    hangs_on: list[str] = []
    choices: list[Choice] = []
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    lines: list[RuleLine] = []
    rows: list[CordRow] = []
    runs_left_out: Annotated[int, Meta(ge=0, examples=[0])] = 0
    not_assessed: list[str] = []
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
