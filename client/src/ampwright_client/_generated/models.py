# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""Which parts do requests and answers have?"""

from __future__ import annotations

from typing import Any, TypeAlias

from msgspec import UNSET, Struct, UnsetType

from ampwright_client._generated.words import (
    Aspect,
    BreakerStandard,
    CapacityLimitResponse,
    ChangeOperation,
    Chemistry,
    CodeBasis,
    Control,
    CordLay,
    CordRowKind,
    DecidingInputKind,
    DifferenceRowChange,
    Earthing,
    ElectronicLimitResponse,
    EndState,
    EnergyBudgetRequestInclude,
    EntryKind,
    EntryStatus,
    Extent,
    FigureOf,
    FixedWiring,
    FollowsVoltage,
    FuelConditionsKind,
    FuseStandard,
    GroundFault,
    Insulation,
    LedThrough,
    LegName,
    LoadClass,
    LoadStateName,
    MotorKind,
    MotorProtector,
    NeutralBond,
    Of,
    Operated,
    Origin,
    Pattern,
    Phases,
    Place,
    Plugging,
    ResetMethod,
    Returned,
    RuleLineLoadState,
    Scopes,
    Sensitivity,
    Severity,
    ShiftItemKind,
    SourceComparisonRequestInclude,
    SourceState,
    StartsAgainst,
    SupplementaryProtectorStandard,
    Switch,
    Technology,
    Turned,
    Unit,
    Verdict,
    Waveform,
    What,
    WrittenStatus,
)
from ampwright_client.reply import Answer

__all__ = [
    "AccessKeyList",
    "AccessKeyRow",
    "AfterTrip",
    "AfterTripEstimates",
    "AfterTripTool",
    "AnySource",
    "AskedByRow",
    "Assumption",
    "AssumptionCodeList",
    "AssumptionCodeRow",
    "AuditPage",
    "AuditRow",
    "Availability",
    "Basis",
    "BatteryConditions",
    "BatteryStation",
    "BatteryStationDocument",
    "BreakEven",
    "Breaker",
    "BudgetMethod",
    "CapacityLimit",
    "Case",
    "CaseResult",
    "CaseRow",
    "CaseUse",
    "CatalogueImport",
    "CatalogueImported",
    "CatalogueSource",
    "CellAsks",
    "CellEnergyBudget",
    "CellFault",
    "CellFinding",
    "CellLoadCheck",
    "Change",
    "ChangedMember",
    "Choice",
    "Circuit",
    "CircuitResult",
    "CitationList",
    "CitationRow",
    "ClauseRow",
    "ComparedJob",
    "ComparedSource",
    "ComparisonWeights",
    "CompressedAir",
    "Conditions",
    "Connection",
    "CordCandidate",
    "CordDocument",
    "CordInUse",
    "CordOutlets",
    "CordPart",
    "CordResult",
    "CordRevision",
    "CordRow",
    "CordSizingAnswer",
    "CordSizingRequest",
    "CordToBring",
    "CostResult",
    "CrewLine",
    "DayCost",
    "DayStop",
    "DecidingInput",
    "DifferenceRow",
    "DimensionList",
    "DimensionRow",
    "DutyResult",
    "DutyUsed",
    "ElectronicLimit",
    "ElectronicMotorStart",
    "EnergyAssumption",
    "EnergyBatchEnd",
    "EnergyBatchHead",
    "EnergyBatchLine",
    "EnergyBatchProgress",
    "EnergyBatchRow",
    "EnergyBudgetAnswer",
    "EnergyBudgetBatchRequest",
    "EnergyBudgetRequest",
    "EnergyCurvePoint",
    "EnergyFinding",
    "EnergyLeft",
    "EnergyReserve",
    "EnergyScenario",
    "EnergyUse",
    "EngineGenerator",
    "EngineGeneratorDocument",
    "EntryBehind",
    "EntryPage",
    "EntryRow",
    "Estimates",
    "FaultCodeList",
    "FaultCodeRow",
    "FaultFigure",
    "FigureBand",
    "Finding",
    "FindingCodeList",
    "FindingCodeRow",
    "FuelConditions",
    "FuelResult",
    "Fuse",
    "HardestStartOfAll",
    "HighestWeld",
    "HowPowerReturns",
    "InductionMotorStart",
    "KitAdapter",
    "KitDocument",
    "KitInUse",
    "KitItem",
    "KitRevision",
    "KitValidationAnswer",
    "KitValidationHead",
    "KitValidationLine",
    "KitValidationRequest",
    "KitValidationRow",
    "LargestMotor",
    "LargestSet",
    "Leg",
    "LegResult",
    "LimitResult",
    "Liveness",
    "LoadCheckAnswer",
    "LoadCheckRequest",
    "LoadClassList",
    "LoadClassRow",
    "LoadState",
    "LongestCord",
    "MadeAccessKey",
    "MatrixDay",
    "MatrixEnd",
    "MatrixFault",
    "MatrixJob",
    "MatrixKit",
    "MatrixProgress",
    "MatrixSource",
    "MeasuredStart",
    "MemberName",
    "MemberPage",
    "MemberRow",
    "MissingThing",
    "NewAccessKey",
    "NewCord",
    "NewCordRevision",
    "NewKit",
    "NewKitRevision",
    "NewPowerSource",
    "NewPowerSourceRevision",
    "NewRelease",
    "NewSourceUnit",
    "NewSourceUnitRevision",
    "NewToolProfile",
    "NewToolProfileRevision",
    "NewWithdrawal",
    "Observation",
    "OtherSource",
    "Outcomes",
    "OutletPlan",
    "OutletPlanAnswer",
    "OutletPlanRequest",
    "OvercurrentDevice",
    "PackCharging",
    "Percentiles",
    "PlanCheck",
    "PlanConflict",
    "PlanMethod",
    "PlanQuestionOpen",
    "PlannedCircuit",
    "PlannedTool",
    "PlugList",
    "PlugRow",
    "PluggedIn",
    "PowerSourceDocument",
    "PowerSourceRevision",
    "Problem",
    "ProblemCodeList",
    "ProblemCodeRow",
    "ProblemFault",
    "ProblemTypeList",
    "ProblemTypePage",
    "Provenance",
    "RankedCause",
    "Reach",
    "Readiness",
    "ReadinessCheck",
    "Receptacle",
    "ReceptacleResult",
    "RectifierStart",
    "Release",
    "ReleaseDifferences",
    "ReleaseMember",
    "ReleasePage",
    "ReserveReached",
    "Reset",
    "ResistiveStart",
    "RevisionDifferences",
    "RevisionPage",
    "RevisionRow",
    "RowRange",
    "RowWithoutAnswer",
    "RuleLayer",
    "RuleLayerList",
    "RuleLayerRow",
    "RuleLine",
    "RuleRow",
    "RunTime",
    "SafetyCount",
    "SafetyListAnswer",
    "SafetyListError",
    "SafetyListLine",
    "SafetyListRequest",
    "SafetySource",
    "SagFigure",
    "ScenarioChange",
    "ScenarioFault",
    "SeenAgainstLabel",
    "SheetColumn",
    "SheetDescription",
    "SheetImport",
    "SheetImported",
    "SheetList",
    "ShiftItem",
    "ShiftUse",
    "SingleChange",
    "SiteSupply",
    "SiteSupplyDocument",
    "SourceComparisonAnswer",
    "SourceComparisonHead",
    "SourceComparisonLine",
    "SourceComparisonRequest",
    "SourceComparisonRow",
    "SourceCorrections",
    "SourceUnit",
    "SourceUnitRevision",
    "SpareCurrent",
    "SpareLoad",
    "SpareSourceOutput",
    "StandardTable",
    "Start",
    "StartFigure",
    "StartOfRow",
    "StartOrder",
    "Stop",
    "StopDiagnosisAnswer",
    "StopDiagnosisRequest",
    "StopReading",
    "StopResult",
    "SupplementaryProtector",
    "SupplyOption",
    "TableCell",
    "TableRow",
    "Tier",
    "ToolDuty",
    "ToolGroup",
    "ToolInUse",
    "ToolLeftOff",
    "ToolProfile",
    "ToolProfileRevision",
    "ToolResult",
    "ToolWish",
    "TriedPlan",
    "TripCurve",
    "TripFigure",
    "TripPoint",
    "TripReset",
    "UnitRow",
    "UniversalMotorStart",
    "UseThatFails",
    "UsedEntry",
    "UsedWeights",
    "Vehicle",
    "VehicleDocument",
    "VerdictChange",
    "VerdictChangesAnswer",
    "VerdictChangesRequest",
    "VerdictCounts",
    "VerdictIn",
    "Verdicts",
    "WayHome",
    "WayToPosition",
    "WithdrawalNote",
    "WordListRow",
    "WordLists",
    "WordRow",
    "WorkAmount",
    "WorkDone",
    "WorkObservation",
    "WorkPosition",
    "WorkPosterior",
    "WouldInvalidate",
]


class AccessKeyRow(Answer, kw_only=True):
    """A key without its secret."""

    id: str
    "Id of the key: the part of it that is no secret."
    scopes: list[str]
    "What the key opens."
    note: str
    "Whose key this is."
    created_at: str
    "Time in UTC, RFC 3339."
    created_by: str
    "Who made it."
    expires_at: str | UnsetType = UNSET
    "Time in UTC, RFC 3339."
    revoked_at: str | UnsetType = UNSET
    "Time in UTC, RFC 3339."
    revoked_by: str | UnsetType = UNSET
    "Who revoked it."


class AfterTripEstimates(Struct, kw_only=True):
    """Where all is at its easiest, as usual, and at its hardest."""

    low: str
    typical: str
    high: str


class AskedByRow(Struct, kw_only=True):
    """What one document asks by one rule, in our own words, and the layers of `code_basis` for which it speaks.

    `countries` are ISO 3166 codes, empty where the layer names no country."""

    rule: str
    code_bases: list[str]
    countries: list[str] = []
    document: str
    edition: str
    place: str
    asks: str
    status: str


class AssumptionCodeRow(Struct, kw_only=True):
    """One kind of assumption."""

    code: str
    why: str
    how_to_find_out: str
    basis: str | UnsetType = UNSET


class AuditRow(Struct, kw_only=True):
    """One act. `subject` is `tool-profile/circular-saw-185mm/r3`, `release/7`, `key/3fa9...` or `import`."""

    number: int
    at: str
    who: str
    action: str
    subject: str
    detail: str


class Availability(Struct, kw_only=True):
    """A state in which the source gives no power, or keeps giving it."""

    when: SourceState
    "The state of the source that is meant."
    at: str | UnsetType = UNSET
    "Threshold of the state, for `charge_below` and `load_below`."
    works: bool
    "Whether the source gives power in that state."


class Basis(Struct, kw_only=True):
    """A clause, a table, or common practice that the answer leans on."""

    id: str
    document: str
    place: str | UnsetType = UNSET
    edition: str | UnsetType = UNSET
    status: str


class BatteryConditions(Struct, kw_only=True):
    """The state of a battery beside its charge."""

    chemistry: Chemistry | UnsetType = UNSET
    "Kind of the battery's cells; decides how cold and age act on it."
    health: str | UnsetType = UNSET
    "What the battery holds when full, as a share of what it held when new."
    age_years: float | UnsetType = UNSET
    "Age of the battery in years; it lowers what the battery holds."
    cells: str | UnsetType = UNSET
    "Temperature inside the battery."
    stops_at: str | UnsetType = UNSET
    "Share of charge at which the outlets go off."
    efficiency: str | UnsetType = UNSET
    "Share of the battery's energy that reaches the outlets."
    largest_discharge: str | UnsetType = UNSET
    "Power that the battery gives at the temperature of its cells, before the inverter."


class BudgetMethod(Struct, kw_only=True):
    """`certain`: no band; `one_figure`: exact percentiles of one uncertain figure; `monte_carlo`: draws of a seed."""

    method: str
    seed: int
    draws: int
    energy_conserved: bool


class Case(Struct, kw_only=True):
    """What runs together, and in which order it is started."""

    id: str
    "Id of the case; findings and results name it."
    running: list[str]
    "Ids of the tools that run together in this case."
    start_order: list[str] | UnsetType = UNSET
    "Ids in the order in which they are switched on."


class CaseUse(Struct, kw_only=True):
    """How long one case runs in a month."""

    case: str
    "Id of the case: which set of tools runs together."
    per_month: str
    "How long it runs in a month."


class CatalogueImport(Struct, kw_only=True):
    """An export to be brought in, all of it or nothing."""

    ndjson: str
    "The lines of GET /v1/catalogue-export, unchanged."
    by: str | UnsetType = UNSET
    "Who wrote it."


class CatalogueImported(Answer, kw_only=True):
    """What an import held, and what of it was new here; sent twice, nothing is."""

    revisions: int
    "How many revisions the import held."
    releases: int
    "How many releases the import held."
    withdrawals: int
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    new_revisions: int
    "How many revisions were new here."
    new_releases: int
    "How many releases were new here."
    new_withdrawals: int
    "How many withdrawals were new here."


class CellAsks(Struct, kw_only=True):
    """The question to settle first: what was assumed, how to find out, and the verdict if it is otherwise."""

    code: str
    pointer: str
    value: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    swings_verdict_to: Verdict | UnsetType = UNSET


class CellFault(Struct, kw_only=True):
    """What is wrong with a cell; `row` counts as a spreadsheet does, the header being 1."""

    row: int
    column: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class CellFinding(Struct, kw_only=True):
    """The first finding of a cell. `pointer` goes into the request as sent."""

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    figure: str | UnsetType = UNSET
    value: float | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    cases: list[str] = []


class Change(Struct, kw_only=True):
    """One step of RFC 6902: apply it to the request and post again."""

    op: ChangeOperation
    path: str
    value: Any | UnsetType = UNSET


class ChangedMember(Struct, kw_only=True):
    """An entry that has different revisions in two releases."""

    kind: str
    entry: str
    old_revision: int
    new_revision: int


class CitationRow(Struct, kw_only=True):
    """What a table or clause is a copy of, under which conditions, and where published copies disagree."""

    key: str
    document: str
    edition: str
    place: str
    conditions: str
    errata: str
    status: str
    has_table: bool


class ClauseRow(Struct, kw_only=True):
    """What one layer asks by one rule, in our own words; the document itself governs."""

    rule: str
    document: str
    edition: str
    place: str
    asks: str
    status: str


class ComparisonWeights(Struct, kw_only=True):
    """How much each criterion counts against the others among sources of one verdict; 0 leaves it out."""

    spare_a: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: amperes left on the tightest circuit at the high estimate."
    start_outcome: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: how sure the least sure start is."
    independent_circuits: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: how many circuits are known to be separate."
    restart_hazards: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: findings about power that comes back."
    hours_failing: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: hours of the stated use that fail."
    reserve_reached_ratio: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: days on which the energy reserve is reached."
    cost_per_day: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: hire and energy of a day, in one currency."
    mass_kg: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: the mass of the source."
    noise_db: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: the noise of the source."
    exhaust: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: whether running it makes exhaust gas."
    extra_gear: float | UnsetType = UNSET
    "Weight of this criterion against the others, a plain number: things that must be brought beside the kit."


class CompressedAir(Struct, kw_only=True):
    """Plate of a compressor, and the air that is asked of it: a flow, or nails."""

    tank: str | UnsetType = UNSET
    "Volume of the air tank."
    cut_in: str | UnsetType = UNSET
    "Pressure in the tank at which the compressor switches on."
    cut_out: str | UnsetType = UNSET
    "Pressure in the tank at which the compressor switches off."
    delivery: str | UnsetType = UNSET
    "Air that the compressor delivers, at the pressure around."
    use: str | UnsetType = UNSET
    "Air that the work takes."
    nails: str | UnsetType = UNSET
    "How many nails are shot in a time; each takes air."


class Conditions(Struct, kw_only=True):
    """Where and in what weather."""

    place: Place | UnsetType = UNSET
    "What kind of place it is; decides what exhaust gas and wet mean."
    wet: bool | UnsetType = UNSET
    "Whether the place is wet or it rains."
    ambient: str | UnsetType = UNSET
    "Temperature of the air around; cords carry less in the heat."
    altitude: str | UnsetType = UNSET
    "Height of the place above the sea; thin air lowers what an engine gives."
    fixed_wiring: FixedWiring | UnsetType = UNSET
    "Whether the source also feeds the wiring of a building, and through what."


class Connection(Struct, kw_only=True):
    """What is plugged into what: `plug` is a tool or cord, `into` a receptacle or cord."""

    plug: str
    "Id of the tool or cord whose plug it is."
    into: str
    "Id of the receptacle or cord that it goes into."
    leg: LegName | UnsetType = UNSET
    "Leg of an outlet where a cord carries several."


class CordOutlets(Struct, kw_only=True):
    """The far end of a cord: how many outlets of which type."""

    type: str | UnsetType = UNSET
    "Configuration or type, as it is marked."
    rating: str | UnsetType = UNSET
    "Current that the outlets are marked with."
    count: int | UnsetType = UNSET
    "How many outlets the far end has."
    state: EndState | UnsetType = UNSET
    "State of the outlets, by looking at them."


class CordToBring(Struct, kw_only=True):
    """What is settled of the cord to be brought, beside its size and length; all may be omitted."""

    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature that the insulation bears without end, as printed on the jacket."
    marked: str | UnsetType = UNSET
    "Current printed on it."
    plug: str | UnsetType = UNSET
    "Configuration of the plug."
    outlet: str | UnsetType = UNSET
    "Configuration of the cord's far end."
    laid: CordLay | UnsetType = UNSET
    "How the cord lies: straight, coiled or on its drum."
    drum_layers: int | UnsetType = UNSET
    "Layers of turns that are left on the drum; the inner ones cannot give off their heat."


class CrewLine(Struct, kw_only=True):
    """One line of the crew card; `code` is stable, `text` is made from it."""

    code: str
    text: str


class DayStop(Struct, kw_only=True):
    """A place of work: the drive to it, the time there, the tools in use, and a socket that recharges meanwhile."""

    id: str
    "Id of the stop within the day."
    distance: str | UnsetType = UNSET
    "Length of the drive to it."
    lasts: str | UnsetType = UNSET
    "How long the crew works there."
    running: list[str] | UnsetType = UNSET
    "Ids of the tools in use there."
    recharge: str | UnsetType = UNSET
    "Power of a socket at the stop that recharges the battery meanwhile."


class DecidingInput(Struct, kw_only=True):
    """A small change that puts another source first: `kind` weight or figure, of `source` where it is a figure."""

    kind: DecidingInputKind
    criterion: str
    source: str | UnsetType = UNSET
    change_ratio: float
    then_first: str


class DifferenceRow(Struct, kw_only=True):
    """One difference; `pointer` goes into the new document, or into the old one for what was removed."""

    pointer: str
    change: DifferenceRowChange
    text: str
    before: Any | UnsetType = UNSET
    after: Any | UnsetType = UNSET


class DutyUsed(Struct, kw_only=True):
    """Mean times that a tool is on and off; the usual ones of its class where the request does not state both."""

    tool: str
    on_s: float
    off_s: float
    from_request: bool


class ElectronicMotorStart(Struct, kw_only=True, tag_field="kind", tag="electronic_motor"):
    """Run-up of a permanent-magnet motor by its electronics: a ramp of power to a peak, and no surge."""

    corrected: bool | UnsetType = UNSET
    "Whether the electronics correct the power factor, so that the current is drawn evenly."
    peak: str | UnsetType = UNSET
    "Current at the end of the ramp."
    lasts: str | UnsetType = UNSET
    "How long the ramp of power takes."


class EnergyAssumption(Struct, kw_only=True):
    """A default that the answer leaned on; `influence_j` is how far it moves what is left in the worst of ten days."""

    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    swings_verdict_to: Verdict | UnsetType = UNSET
    influence_j: float | UnsetType = UNSET
    basis: list[str] = []


class EnergyBatchEnd(Struct, kw_only=True, tag_field="kind", tag="end"):
    """The last line. A stream without it was cut off. `without_answer` rows have errors instead."""

    rows: int
    without_answer: int


class EnergyBatchHead(Struct, kw_only=True, tag_field="kind", tag="head"):
    """The first line: what all rows rest on."""

    rows_in_all: int
    notice: str
    engine_version: str
    request_digest: str


class EnergyBatchProgress(Struct, kw_only=True, tag_field="kind", tag="progress"):
    """Nothing is wrong, rows only take long. `rows` of so many have been made."""

    rows: int
    of: int


class EntryBehind(Struct, kw_only=True):
    """A document that the row uses and that differs between the releases; a revision that is left out is not there."""

    kind: str
    entry: str
    old_revision: int | UnsetType = UNSET
    new_revision: int | UnsetType = UNSET
    differences: list[str] = []


class EntryRow(Struct, kw_only=True):
    """One entry in a list: its newest revision."""

    entry: str
    revision: int
    name: str
    status: EntryStatus
    created_by: str
    created_at: str
    digest: str


class Estimates(Struct, kw_only=True):
    """Low, typical and high by number."""

    low: float
    typical: float
    high: float


class FaultCodeRow(Struct, kw_only=True):
    """One kind of fault in a request."""

    code: str
    meaning: str


class FaultFigure(Struct, kw_only=True):
    """A dead short at the far end of a cord run, named by its last cord; a time that does not exist is left out.

    `protects` is what ends it before a cord is ruined: overcurrent_device, source_shutdown, ground_fault_device (only a
    fault to earth), nothing_needed, unknown or nothing. `copper_temperature_c` is adiabatic, where the device opens
    within 5 s."""

    cord: str
    receptacle: str
    circuit: str
    far_current_a: float
    largest_current_a: float
    outcome: str
    protects: str
    trip_earliest_s: float | UnsetType = UNSET
    trip_latest_guaranteed_s: float | UnsetType = UNSET
    trip_latest_assumed_s: float | UnsetType = UNSET
    cord_bears_s: float | UnsetType = UNSET
    copper_temperature_c: float | UnsetType = UNSET


class FigureBand(Struct, kw_only=True):
    """Low, typical and high by number; the lowest voltage belongs to the highest current."""

    low: float
    typical: float
    high: float


class FindingCodeRow(Struct, kw_only=True):
    """One kind of finding; `{...}` in its text stands for what the finding is about.

    `asked_by` is its basis per jurisdiction: the clause of each document and edition. An answer names those of the
    layers that were asked for. `basis` names the tables behind its limit, keys of `/v1/reference/citations`.
    `break_even_kinds` are the kinds of change that a load check tries for it where break-evens are asked for, words of
    `break_even_kind` in `/v1/reference/words`; `no_break_even` is the reason where none is told of."""

    code: str
    meaning: str
    severity: str
    aspect: str
    text: str
    what_to_do: str
    grounds: str
    asked_by: list[AskedByRow] = []
    verdict: str
    figure: str | UnsetType = UNSET
    basis: list[str] = []
    break_even_kinds: list[str] = []
    no_break_even: str | UnsetType = UNSET


class HardestStartOfAll(Struct, kw_only=True):
    """The least sure start by its hard estimate; `source_must_give_a` for `source_must_give_s` would start it."""

    case: str
    tool: str
    outcome: str
    peak_a: float | UnsetType = UNSET
    source_must_give_a: float | UnsetType = UNSET
    source_must_give_s: float | UnsetType = UNSET
    probability_ratio: float | UnsetType = UNSET


class HighestWeld(Struct, kw_only=True):
    """The highest weld of a welder beside the rest of its case, in amperes of its output.

    At `passes_a` the case passes, at `at_most_a` it is at least marginal; one that is left out does not exist. What it
    takes from the outlet, for how long the welder bears it and its effective current belong to `at_most_a`."""

    case: str
    tool: str
    rated_a: float
    passes_a: float | UnsetType = UNSET
    at_most_a: float | UnsetType = UNSET
    supply_current_a: float | UnsetType = UNSET
    welding_in_ten_minutes_s: float | UnsetType = UNSET
    effective_current_a: float | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class HowPowerReturns(Struct, kw_only=True):
    """How power comes back after a trip, the walk to where it is reset, and what is dangerous about it.

    `how`: automatic, remote, manual or unknown; unknown counts as automatic for danger and as manual for lost work."""

    how: str
    where: str | UnsetType = UNSET
    by: str | UnsetType = UNSET
    needs: str | UnsetType = UNSET
    after_s: FigureBand | UnsetType = UNSET
    tries: int | UnsetType = UNSET
    hazards: list[str] = []


class InductionMotorStart(Struct, kw_only=True, tag_field="kind", tag="induction_motor"):
    """Start of an induction motor, from plate or from a measured locked-rotor current."""

    motor: MotorKind | UnsetType = UNSET
    "Kind of the motor, by how it starts."
    code_letter: str | UnsetType = UNSET
    "NEMA code letter."
    locked_rotor: str | UnsetType = UNSET
    "Current while the rotor stands still, at the plate's voltage."
    against: StartsAgainst | UnsetType = UNSET
    "What the motor starts against: nothing, a fan, a pump, the pressure of a full tank."
    lasts: str | UnsetType = UNSET
    "How long the start takes at full voltage."


class KitAdapter(Struct, kw_only=True):
    """An adapter in the kit."""

    id: str
    "Id of the adapter within the kit."
    plug: str
    "Configuration that the adapter is plugged in by."
    receptacle: str
    "Configuration that the adapter offers."
    count: int | UnsetType = UNSET
    "How many of it are in the kit; 1 where left out."


class KitInUse(Struct, kw_only=True):
    """A kit of the catalogue; it expands to its ids, `x-1`, `x-2` by count."""

    entry: str
    "Key of the catalogue entry."
    revision: int | UnsetType = UNSET
    "Revision of the kit."


class KitItem(Struct, kw_only=True):
    """One line of a kit: so many of this entry, under this id."""

    id: str
    "Id of the item within the kit; with a count it becomes `x-1`, `x-2` and so on."
    entry: str
    "Key of the catalogue entry."
    revision: int | UnsetType = UNSET
    "Revision of the tool or cord, from 1."
    count: int | UnsetType = UNSET
    "How many of it are in the kit; 1 where left out."


class KitValidationHead(Struct, kw_only=True, tag_field="kind", tag="head"):
    """The first line: what all rows rest on, and which rows follow."""

    rows_in_all: int
    begin: int
    end: int
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    request_digest: str


class LargestMotor(Struct, kw_only=True):
    """The largest capacitor-start motor, by shaft power, that starts and runs at a free receptacle beside a case.

    `against` is what it starts against: head_pressure or nothing. After `holds_w` the case is no worse than it was,
    after `at_most_w` at least marginal; one that is left out does not exist."""

    case: str
    receptacle: str
    against: str
    holds_w: float | UnsetType = UNSET
    at_most_w: float | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class LargestSet(Struct, kw_only=True):
    """Tools that run together and to which none can be added; `method` is exact, or heuristic above 12 tools.

    `verdict` (capacity) and `safety` are those of a load check of this set, what follows a trip included."""

    tools: list[str]
    verdict: Verdict
    safety: Verdict
    method: str


class Leg(Struct, kw_only=True):
    """One line conductor of the supply."""

    id: LegName
    "Which line conductor: L1, L2 or L3."
    angle: str
    "Phase angle of the leg's voltage against L1."


class LegResult(Struct, kw_only=True):
    """What one line conductor of the source carries in this case."""

    leg: str
    current_a: FigureBand
    voltage_v: FigureBand


class LimitResult(Struct, kw_only=True):
    """What one limit of the source carries in this case, and whether it bears it."""

    limit: str
    outcome: str
    apparent_power_va: FigureBand | UnsetType = UNSET
    power_w: FigureBand | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    continuous_va: float | UnsetType = UNSET
    continuous_w: float | UnsetType = UNSET
    continuous_a: float | UnsetType = UNSET
    peak_a: FigureBand | UnsetType = UNSET
    peak_limit_a: float | UnsetType = UNSET


class Liveness(Answer, kw_only=True):
    """The process turns its event loop."""

    status: str
    "Always `alive`: a process that is not does not answer."


class LoadClassRow(Struct, kw_only=True):
    """What is assumed of a kind of load whose plate is all that is known; ratios are of the plate's power."""

    load_class: str
    meaning: str
    idle_ratio: float
    working_ratio: list[float]
    heavy_ratio: list[float]
    heavy_lasts_s: float
    power_factor: list[float]
    crest_factor: float
    follows_voltage: str
    start: str
    operated: str
    control: str
    leakage_a: float


class LoadState(Struct, kw_only=True):
    """A named running condition."""

    id: LoadStateName
    "Which running condition: idle, working or heavy."
    power: str | UnsetType = UNSET
    "Power in this condition."
    current: str | UnsetType = UNSET
    "Current in this condition."
    power_factor: float | UnsetType = UNSET
    "Power over apparent power."
    crest_factor: float | UnsetType = UNSET
    "Peak over RMS of the current; 1.414 for a sine."
    follows_voltage: FollowsVoltage | UnsetType = UNSET
    "How the load answers a lower voltage: by more current, by the same, or by less."
    lasts: str | UnsetType = UNSET
    "How long the condition lasts at a time."


class LongestCord(Struct, kw_only=True):
    """The longest that a cord may be before a case gets worse, and the finding that a longer one would bring.

    Without `limited_by` it is the longest that was looked at, 1,000 ft."""

    cord: str
    length_m: float
    limited_by: str | UnsetType = UNSET


class MadeAccessKey(Answer, kw_only=True):
    """A key that was just made."""

    key: AccessKeyRow
    "The key without its secret, as the list of keys shows it."
    secret: str
    "Send it as Authorization: Bearer."


class MatrixFault(Struct, kw_only=True):
    """Why one cell has no answer; the others have theirs. `pointer` goes into the request as sent."""

    pointer: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class MatrixProgress(Struct, kw_only=True, tag_field="kind", tag="progress"):
    """Nothing is wrong, rows only take long."""

    rows: int
    of: int


class MeasuredStart(Struct, kw_only=True, tag_field="kind", tag="measured"):
    """A start as a meter saw it on a stiff supply."""

    peak: str
    "Highest current that the meter saw, as RMS of its largest cycle."
    lasts: str | UnsetType = UNSET
    "How long the start took."
    at: str | UnsetType = UNSET
    "Voltage at which it was measured."


class MemberName(Struct, kw_only=True):
    """An entry that only one of two releases has."""

    kind: str
    entry: str
    revision: int


class MemberRow(Struct, kw_only=True):
    """One member of a release."""

    kind: str
    entry: str
    revision: int
    digest: str


class MissingThing(Struct, kw_only=True):
    """One thing to bring: its kind, in words, how many, why, and the finding behind it."""

    item: str
    text: str
    quantity: int
    why: str
    pointer: str
    finding: str | UnsetType = UNSET


class NewAccessKey(Struct, kw_only=True):
    """A key to be made."""

    scopes: list[Scopes]
    "What it opens; `keys` makes any key, so give it to few."
    note: str
    "Whose key this is."
    by: str | UnsetType = UNSET
    "Who wrote it."
    expires_at: str | UnsetType = UNSET
    "When it ends by itself (RFC 3339)."


class NewWithdrawal(Struct, kw_only=True):
    """Withdraw one revision, or, without `revision`, every revision that the entry has now."""

    why: str
    "Why nobody should rely on it."
    by: str | UnsetType = UNSET
    "Who wrote it."
    revision: int | UnsetType = UNSET
    "The revision to withdraw, from 1."


class Observation(Struct, kw_only=True):
    """What somebody saw a source unit do."""

    on_date: str
    "Day on which it was seen or read."
    what: What
    "What the unit did."
    receptacle: str | UnsetType = UNSET
    "Id of the outlet at which it was seen."
    current: str | UnsetType = UNSET
    "Current that was seen."
    power: str | UnsetType = UNSET
    "Power that was seen."
    voltage: str | UnsetType = UNSET
    "Voltage that was seen."
    lasted: str | UnsetType = UNSET
    "How long it went on."
    instrument: str | UnsetType = UNSET
    "With what it was measured."
    note: str | UnsetType = UNSET
    "What somebody wrote beside it, in a line."
    by: str | UnsetType = UNSET
    "Who saw it."


class OtherSource(Struct, kw_only=True):
    """Another source of the request on which the same kit does better at the same job; where each of those that the job
    names fails, the first 12 of those that it does not name are looked at too."""

    source: str
    verdict: Verdict


class Outcomes(Struct, kw_only=True):
    """What happens where all is at its easiest, as usual, and at its hardest."""

    low: str
    typical: str
    high: str


class PackCharging(Struct, kw_only=True):
    """Packs of cordless tools and what charges them."""

    capacity: str | UnsetType = UNSET
    "Energy that one full pack holds."
    start: str | UnsetType = UNSET
    "How full the packs are before charging."
    target: str | UnsetType = UNSET
    "How full the packs have to be."
    charger: str | UnsetType = UNSET
    "Power that one charger takes from the outlet."
    chargers: int | UnsetType = UNSET
    "How many chargers run at the same time."


class Percentiles(Struct, kw_only=True):
    """10th, 50th and 90th percentile by number, in the unit of the member's name."""

    p10: float
    p50: float
    p90: float


class PlanConflict(Struct, kw_only=True):
    """Tools that cannot all be on; without tools, nothing can. `because` holds codes of findings and of plans:
    GET /v1/reference/findings and the list outlet_plan_reason of GET /v1/reference/words have their meanings.

    `smallest`: every smaller set was shown to go."""

    tools: list[str]
    because: list[str]
    text: str
    smallest: bool


class PlanMethod(Struct, kw_only=True):
    """How it was found: branch and bound with a limit of nodes, never of seconds. `complete` false: something was
    given up for want of nodes or load checks, and no plan counts as proven."""

    solves: int
    nodes: int
    node_limit: int
    plans_tried: int
    load_checks: int
    complete: bool


class PlanQuestionOpen(Struct, kw_only=True):
    """What to find out: if it is otherwise, all of `then_on` could be on by the figures of the plan."""

    code: str
    pointer: str
    value: str
    if_instead: str
    how_to_find_out: str
    then_on: list[str]


class PlannedCircuit(Struct, kw_only=True):
    """The largest typical load that the sets bring to one circuit."""

    circuit: str
    current_a: float
    rating_a: float
    load_ratio: float


class PlannedTool(Struct, kw_only=True):
    """Where one tool goes: the receptacle, the cords from it outward, and which supply option with the reason.

    `why` is one of only_option, asked_for, others_fit_nowhere, better_plan. `current_a` is typical, at the source's
    open voltage; the load check has it as it is behind cords."""

    tool: str
    receptacle: str
    cords: list[str] = []
    supply_option: str
    why: str
    text: str
    current_a: float
    position: str | UnsetType = UNSET


class PlugRow(Struct, kw_only=True):
    """One plug or receptacle configuration."""

    designation: str
    role: str
    marked_voltages_v: list[float]
    rated_current_a: float
    poles: int
    wires: int
    locking: bool
    connection: str
    citation: str
    status: str
    enters: list[str] = []


class PluggedIn(Struct, kw_only=True):
    """What is plugged into what; it can be sent as a connection."""

    plug: str
    into: str
    leg: LegName | UnsetType = UNSET


class ProblemCodeRow(Struct, kw_only=True):
    """One type of problem details; `type` is the address of its page."""

    code: str
    type: str
    title: str
    status: int
    meaning: str
    what_to_do: str


class ProblemFault(Struct, kw_only=True):
    """One thing that is wrong with a request."""

    code: str
    message: str
    pointer: str | UnsetType = UNSET
    parameter: str | UnsetType = UNSET
    did_you_mean: str | UnsetType = UNSET


class ProblemTypePage(Answer, kw_only=True):
    """A type of problem, explained."""

    code: str
    "Last step of the problem's type address."
    type: str
    "Address of this page."
    title: str
    "Short name of the type; the same for every occurrence."
    status: int
    "HTTP status of a reply with this problem."
    meaning: str
    "When this problem arises."
    what_to_do: str
    "What a caller can do about it."


class Provenance(Struct, kw_only=True):
    """Where one figure of a document comes from, where that differs from the document's own origin."""

    pointer: str
    "JSON Pointer (RFC 6901) to the figure in the document."
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    note: str | UnsetType = UNSET
    "What somebody wrote beside it, in a line."
    instrument: str | UnsetType = UNSET
    "With what it was measured."
    on_date: str | UnsetType = UNSET
    "Day on which it was seen or read."


class Reach(Struct, kw_only=True):
    """How far this cord may go. To `passing_m` every rule passes while the tool works; to `longest_m` none
    fails. Left out where there is no such length."""

    outcome: str
    longest_m: float | UnsetType = UNSET
    passing_m: float | UnsetType = UNSET
    limited_by: str | UnsetType = UNSET


class ReadinessCheck(Struct, kw_only=True):
    """One thing that readiness depends on."""

    name: str
    status: str


class Receptacle(Struct, kw_only=True):
    """One outlet of the source."""

    id: str
    "Id of the outlet within its source."
    type: str | UnsetType = UNSET
    "Configuration of the outlet."
    marked: str | UnsetType = UNSET
    "Current printed at the outlet."
    circuit: str | UnsetType = UNSET
    "Id of the circuit that feeds the outlet."
    location: str | UnsetType = UNSET
    "Where the outlet is, in the words of those who look for it."
    ground_fault: GroundFault | UnsetType = UNSET
    "Ground-fault protection of the outlet."


class ReceptacleResult(Struct, kw_only=True):
    """What one outlet of the source carries in this case."""

    receptacle: str
    current_a: FigureBand
    marked_a: float | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET


class RectifierStart(Struct, kw_only=True, tag_field="kind", tag="rectifier"):
    """Switch-on of a rectifier with a capacitor behind it."""

    corrected: bool | UnsetType = UNSET
    "Whether the electronics correct the power factor, so that the current is drawn evenly."
    peak: str | UnsetType = UNSET
    "Highest current at switching on, as RMS of its largest cycle."


class Release(Answer, kw_only=True):
    """A numbered, immutable set of revisions; `digest` covers its members and their bytes."""

    number: int
    "Running number, from 1."
    digest: str
    "Over the members of the release and their bytes: `sha256:` and 64 hexadecimal digits."
    member_count: int
    "How many revisions the release holds."
    note: str
    "What the release is for."
    created_by: str
    "Who cut the release."
    created_at: str
    "Time in UTC, RFC 3339."


class ReleaseDifferences(Answer, kw_only=True):
    """What changes from one release to another; `notes` are those of the releases after the old one, newest first."""

    old: int
    "Number of the older release, from 1."
    new: int
    "Number of the newer release, from 1."
    notes: list[Release]
    "The releases after the older one, newest first, with their notes."
    added: list[MemberName]
    "Entries that only the newer release has."
    removed: list[MemberName]
    "Entries that only the older release has."
    changed: list[ChangedMember]
    "Entries that have different revisions in the two releases."
    unchanged_count: int
    "How many entries have the same revision in both."


class ReleaseMember(Struct, kw_only=True):
    """One revision in a release."""

    kind: EntryKind
    "Kind of the entry."
    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."


class ReleasePage(Answer, kw_only=True):
    """Releases, newest first; go on with `next_before`, which the last page lacks."""

    items: list[Release]
    "The rows of the list, in the order that its heading names."
    next_before: int | UnsetType = UNSET
    "Send it as `before` to get the next page."


class ReserveReached(Struct, kw_only=True):
    """`outcome`: holds, may_be_reached or reached; `reached_at_s` is of the days on which it is."""

    outcome: str
    reached_probability_ratio: float
    reached_at_s: Percentiles | UnsetType = UNSET


class Reset(Struct, kw_only=True):
    """How power comes back after a trip."""

    how: ResetMethod
    "How power comes back: by itself, from afar, or by a hand at the device."
    where: str | UnsetType = UNSET
    "Where one has to go to reset it."
    by: str | UnsetType = UNSET
    "Who can reset it."
    needs: str | UnsetType = UNSET
    "What is needed for it, such as a key or a phone."
    after: str | UnsetType = UNSET
    "How long it takes until power is back by itself or can be reset."
    tries: int | UnsetType = UNSET
    "How often it tries by itself before it stays off."


class ResistiveStart(Struct, kw_only=True, tag_field="kind", tag="resistive"):
    """Switch-on of a heater or a filament."""

    cold_current: str | UnsetType = UNSET
    "Current at the instant of switching on, while heater or filament is cold."


class RevisionDifferences(Answer, kw_only=True):
    """What a revision says that an older one does not, by pointer; and who wrote it, and why."""

    entry: str
    "Key of the catalogue entry."
    old: int
    "The older revision, from 1."
    new: int
    "The newer revision, from 1."
    why: str
    "Why the newer revision was written."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    items: list[DifferenceRow]
    "The differences, by pointer."


class RevisionRow(Struct, kw_only=True):
    """One revision in a list."""

    revision: int
    status: EntryStatus
    why: str
    created_by: str
    created_at: str
    digest: str


class RowRange(Struct, kw_only=True):
    """Rows by number, from 0: `begin` is the first, `end` the first that is not wanted."""

    begin: int | UnsetType = UNSET
    "Number of the first row that is wanted, from 0; 0 where left out."
    end: int | UnsetType = UNSET
    "Number of the first row that is not wanted."


class RowWithoutAnswer(Struct, kw_only=True):
    """A row that neither release can answer, and what is wrong with it in each."""

    id: str
    job: str
    kit: str
    source: str
    before: list[MatrixFault]
    after: list[MatrixFault]


class RuleLayerRow(Struct, kw_only=True):
    """One layer of rules that `code_basis` may name."""

    key: str
    document: str
    edition: str
    country: str
    decides: bool
    note: str


class RuleLine(Struct, kw_only=True):
    """One rule held against one candidate. `figure` names value, limit and margin, with their unit.

    The margin is what is left at the worst end of the band; below zero the rule is not met there. An `advisory` line
    changes no verdict: it tells what a careful person would still mind."""

    code: str
    aspect: Aspect
    verdict: Verdict
    advisory: bool
    load_state: RuleLineLoadState | UnsetType = UNSET
    cord: str | UnsetType = UNSET
    figure: str | UnsetType = UNSET
    value: FigureBand | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    margin: float | UnsetType = UNSET
    limit_from: str | UnsetType = UNSET
    outcome: str | UnsetType = UNSET
    basis: list[str] = []


class RuleRow(Struct, kw_only=True):
    """One rule: the question that layers answer by their clauses."""

    code: str
    asks: str


class RunTime(Struct, kw_only=True):
    """How long one full tank lasts at a share of the rating, as a plate says."""

    load: str
    "Share of the rating at which it runs."
    lasts: str
    "How long one full tank lasts at that load."


class SafetyCount(Struct, kw_only=True):
    """How many lines have a code."""

    code: str
    lines: int


class SafetyListError(Struct, kw_only=True):
    """A source or kit that could not be looked at, and why; the others were."""

    id: str
    errors: list[MatrixFault]


class SafetyListLine(Struct, kw_only=True):
    """One thing to look at: tools of `kit` on `source`, receptacles of a source, or an engine's place.

    `stated`: all behind it was said; else something was assumed on the safe side, and `how_to_find_out` says what to
    look for. `basis` names entries of the list's own basis."""

    id: str
    code: str
    severity: Severity
    source: str
    kit: str | UnsetType = UNSET
    parts: list[str]
    pointers: list[str]
    stated: bool
    text: str
    what_to_do: str
    how_to_find_out: str | UnsetType = UNSET
    basis: list[str] = []


class SagFigure(Struct, kw_only=True):
    """The lowest voltage at a tool while another of its case starts, and how long it stays below nine tenths of plate.

    `through` is circuit or source: what the two share. `outcome` is rides_through, may_drop_out or drops_out."""

    lowest_voltage_v: float
    lasts_s: float
    starting: str
    through: str
    outcome: str


class ScenarioChange(Struct, kw_only=True):
    """One step of RFC 6902 on the common budget."""

    op: ChangeOperation | UnsetType = UNSET
    "What the step does: add, replace or remove a value (RFC 6902)."
    path: str
    "JSON Pointer (RFC 6901) into the request: the member that the step changes."
    value: Any | UnsetType = UNSET
    "What the member becomes."


class ScenarioFault(Struct, kw_only=True):
    """What is wrong with one scenario. `pointer` goes into the changed budget, or to the step that does not fit it; of
    a scenario that cannot be read, or whose id is taken, into the request as sent (`/scenarios/...`)."""

    pointer: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class SeenAgainstLabel(Struct, kw_only=True):
    """What somebody saw of this unit beside what it is marked. Capacity is taken from the lower: `lowers` says that
    the row was worked out with what was seen, because it is below the mark."""

    on_date: str
    what: str
    receptacle: str | UnsetType = UNSET
    marked_a: float | UnsetType = UNSET
    seen_a: float | UnsetType = UNSET
    lasted: str | UnsetType = UNSET
    note: str | UnsetType = UNSET
    lowers: bool


class SheetColumn(Struct, kw_only=True):
    """One column. `says`: the member of the document, `*` being the item that a row stands for; or what it is for."""

    name: str
    meaning: str
    example: str


class SheetDescription(Struct, kw_only=True):
    """The columns of one kind of entry."""

    kind: EntryKind
    columns: list[SheetColumn]


class SheetImport(Struct, kw_only=True):
    """A spreadsheet to be brought in, all rows or none."""

    csv: str
    "CSV with a header row; GET /v1/catalogue-sheets lists the columns."
    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    dry_run: bool | UnsetType = UNSET
    "Tell every fault and what would be written, and write nothing."


class SheetImported(Answer, kw_only=True):
    """What the sheet holds, in numbers of entries; with faults, and in a dry run, nothing was written."""

    written: bool
    "Whether anything was written: not with faults, and not in a dry run."
    rows: int
    "How many rows the sheet holds below its header."
    entries: int
    "How many entries the rows make."
    created: int
    "How many entries are new to the catalogue."
    revised: int
    "How many entries have a new revision."
    unchanged: int
    "How many entries say the same as what is stored."
    faults: list[CellFault] = []
    "What is wrong; empty where nothing is."


class SheetList(Answer, kw_only=True):
    """The sheets that there are."""

    items: list[SheetDescription]
    "The rows of the list, in the order that its heading names."


class ShiftItem(Struct, kw_only=True):
    """A circuit or limit over a shift: the share of time over its rating, and the probability that it trips."""

    kind: ShiftItemKind
    id: str
    rating: float
    unit: str
    mean_amount: float
    largest_amount: float
    overload_ratio: Estimates
    trip_probability_ratio: Estimates | UnsetType = UNSET
    trip_method: str


class ShiftUse(Struct, kw_only=True):
    """Use over a shift. `method` is exact, or convolution above 12 tools; trips are drawn with a fixed seed."""

    shift_s: float
    method: str
    allowed_sets: int
    draws: int
    sampling_error_ratio: float
    duties: list[DutyUsed] = []
    items: list[ShiftItem] = []


class SpareCurrent(Struct, kw_only=True):
    """What is left on the tightest circuit while all tools of a case work; below zero is missing."""

    case: str
    circuit: str
    current_a: FigureBand


class SpareLoad(Struct, kw_only=True):
    """The largest extra load at a free receptacle beside a case, and the finding that a larger one would bring.

    With it the case is no worse than it was: its tools start, and what follows a trip is no worse."""

    case: str
    receptacle: str
    current_a: float
    power_w: float
    limited_by: str | UnsetType = UNSET


class SpareSourceOutput(Struct, kw_only=True):
    """What is left of the tightest limit at the high estimate, as a share of what it gives without end."""

    case: str
    limit: str
    left_ratio: float


class StartOrder(Struct, kw_only=True):
    """The order whose worst start is best. A case that only an order saves is `marginal`: people do not keep to one.

    `any_order` is the verdict of the starts whatever the order, `in_order` that in this order."""

    case: str
    order: list[str]
    any_order: Verdict
    in_order: Verdict
    verdict: Verdict
    largest_peak_a: float


class StopReading(Struct, kw_only=True):
    """What a meter showed on a circuit before it stopped."""

    circuit: str
    "Id of the circuit that the meter was on."
    current: str
    "Current that the meter showed before it stopped."


class StopResult(Struct, kw_only=True):
    """What is left at one stop of the day, and what has to be."""

    stop: str
    arrives_at_s: float
    leaves_at_s: float
    left_on_leaving_j: Percentiles
    must_be_left_j: float
    verdict: Verdict


class SupplementaryProtector(Struct, kw_only=True, tag_field="kind", tag="supplementary_protector"):
    """A thermal push-button protector; not a branch-circuit device."""

    rating: str | UnsetType = UNSET
    "Rated current."
    ambient: str | UnsetType = UNSET
    "Temperature of the air around."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    standard: SupplementaryProtectorStandard | UnsetType = UNSET
    "Standard whose curve the device keeps."


class TableCell(Struct, kw_only=True):
    """One cell as printed; the unit is in the column's name."""

    column: str
    text: str


class TableRow(Struct, kw_only=True):
    """One line of a table and how sure it is."""

    cells: list[TableCell]
    status: str


class Tier(Struct, kw_only=True):
    """An overload that a limit allows for a time."""

    amount: str
    "The overload that is allowed."
    lasts: str
    "How long it is allowed."


class ToolDuty(Struct, kw_only=True):
    """How much of the time a tool runs, as a share or by the air that is asked of it."""

    tool: str
    "Id of the tool."
    running: str | UnsetType = UNSET
    "Share of the time that the tool runs."
    air: CompressedAir | UnsetType = UNSET
    "Plate of the compressor and the air that is asked of it; the duty follows from both."
    rated: str | UnsetType = UNSET
    "Duty cycle of the plate: how much of ten minutes the tool may run."


class ToolGroup(Struct, kw_only=True):
    """Tools that must be able to run at the same time: all of them are on, or none."""

    id: str
    "Id of the group."
    tools: list[str]
    "Ids of the tools of the group."


class ToolLeftOff(Struct, kw_only=True):
    """What stays off in the first plan, most wanted first, and what it does not go together with."""

    tool: str
    priority: int
    because: list[str]
    with_tools: list[str] = []
    text: str
    what_to_do: str


class ToolWish(Struct, kw_only=True):
    """What is settled of one tool before planning."""

    tool: str
    "Id of the tool."
    position: str | UnsetType = UNSET
    "Id of the place where the tool is used."
    priority: int | UnsetType = UNSET
    "1 is the last to stay off, 9 the first; 3 where left out."
    into: str | UnsetType = UNSET
    "Id of the receptacle or cord that the tool is kept at."
    supply_option: str | UnsetType = UNSET
    "Id of the supply option: one of the ways in which the tool can be fed."
    own_cord: str | UnsetType = UNSET
    "Length of the tool's own cord."


class TriedPlan(Struct, kw_only=True):
    """A plan that its load check did not let stand: the part of it that fails by itself, and the first finding."""

    connections: list[Connection]
    tools: list[str]
    code: str
    text: str


class TripFigure(Struct, kw_only=True):
    """When a device opens, at the earliest and at the latest; a time that does not exist is left out."""

    outcome: str
    earliest_s: float | UnsetType = UNSET
    latest_guaranteed_s: float | UnsetType = UNSET
    latest_assumed_s: float | UnsetType = UNSET


class TripPoint(Struct, kw_only=True):
    """When a device opens at one current, at the earliest and at the latest."""

    current_a: float
    earliest_s: float | UnsetType = UNSET
    latest_guaranteed_s: float | UnsetType = UNSET
    latest_assumed_s: float | UnsetType = UNSET


class TripReset(Struct, kw_only=True):
    """How power comes back, where, through whose hands and in which state; `how` is unknown where nobody said."""

    how: str
    text: str
    where: str | UnsetType = UNSET
    by: str | UnsetType = UNSET
    needs: str | UnsetType = UNSET
    after_s: Estimates | UnsetType = UNSET
    tries: int | UnsetType = UNSET


class UnitRow(Struct, kw_only=True):
    """One unit label: `si = value x factor + offset`."""

    label: str
    factor: float
    offset: float


class UniversalMotorStart(Struct, kw_only=True, tag_field="kind", tag="universal_motor"):
    """Start of a series-wound commutator motor."""

    soft_start: bool | UnsetType = UNSET
    "Whether electronics bring the motor up slowly."
    peak: str | UnsetType = UNSET
    "Highest current, as RMS of its largest cycle."
    lasts: str | UnsetType = UNSET
    "How long the start takes at full voltage."


class UseThatFails(Struct, kw_only=True):
    """Hours a month of the stated use: that fail, that wait for an answer, that hold if nobody pushes; and all."""

    failing_h: float
    unknown_h: float
    marginal_h: float
    of_h: float


class UsedEntry(Struct, kw_only=True):
    """A catalogue document that the answer used; of a source unit also what was seen of it, which no figure uses."""

    kind: str
    entry: str
    revision: int
    pointer: str
    withdrawn: str | UnsetType = UNSET
    observations: list[Observation] | UnsetType = UNSET


class UsedWeights(Struct, kw_only=True):
    """The weights that counted: the caller's, or 1 each."""

    spare_a: float
    start_outcome: float
    independent_circuits: float
    restart_hazards: float
    hours_failing: float
    reserve_reached_ratio: float
    cost_per_day: float
    mass_kg: float
    noise_db: float
    exhaust: float
    extra_gear: float


class VerdictCounts(Struct, kw_only=True):
    """How many rows have which verdict, and how many none."""

    passing: int
    marginal: int
    unknown: int
    failing: int
    without_answer: int


class VerdictIn(Struct, kw_only=True):
    """What one release makes of a row: as POST /v1/kit-validations tells it."""

    verdict: Verdict | UnsetType = UNSET
    sentence: str | UnsetType = UNSET
    finding: CellFinding | UnsetType = UNSET
    load_check_digest: str | UnsetType = UNSET
    errors: list[MatrixFault] = []


class Verdicts(Struct, kw_only=True):
    """Three verdicts and the worst of them. `code` is left out where the request asks for no rule layer."""

    overall: Verdict
    capacity: Verdict
    safety: Verdict
    code: Verdict | UnsetType = UNSET


class WayHome(Struct, kw_only=True):
    """The last drive of the day, and what must be left after it."""

    distance: str | UnsetType = UNSET
    "Length of the drive home."
    headwind: str | UnsetType = UNSET
    "Wind against the drive; a following wind is not counted."
    towing: bool | UnsetType = UNSET
    "Whether a trailer is drawn."
    loaded: bool | UnsetType = UNSET
    "Whether the vehicle carries a heavy load."
    arrive_with: str | UnsetType = UNSET
    "Share of the battery that must be left on arrival at home."
    figure_of: FigureOf | UnsetType = UNSET
    "What the energy per distance is stated of: from the wall, losses of charging included, or from the battery."


class WayToPosition(Struct, kw_only=True):
    """How far it is from one receptacle, along the way that a cord would lie."""

    receptacle: str
    "Id of the receptacle."
    distance: str
    "Length of the way along which a cord would lie."


class WithdrawalNote(Answer, kw_only=True):
    """That revisions were withdrawn, and why."""

    entry: str
    "Key of the catalogue entry."
    first_revision: int
    "First of the revisions that were withdrawn, from 1."
    last_revision: int
    "Last of the revisions that were withdrawn, from 1."
    why: str
    "Why nobody should rely on it."
    withdrawn_by: str
    "Who withdrew it."
    withdrawn_at: str
    "Time in UTC, RFC 3339."


class WordRow(Struct, kw_only=True):
    """One word and what it means."""

    code: str
    meaning: str


class WorkAmount(Struct, kw_only=True):
    """So many units of one kind of work."""

    id: str
    "Id of the work within the day."
    unit: Unit
    "Kind of work, by what is counted."
    amount: float
    "How many units are to be done."
    tool: str | UnsetType = UNSET
    "Id of the tool that does it; its duty follows from the work."
    energy_each: str | UnsetType = UNSET
    "Energy that one unit of the work takes at the outlet."
    head: str | UnsetType = UNSET
    "Height that water is lifted."
    pack: PackCharging | UnsetType = UNSET
    "The packs that are charged, where the work is charging."
    stop: str | UnsetType = UNSET
    "Id of the stop at which it is done."


class WorkDone(Struct, kw_only=True):
    """How much of a counted work is done before the reserve is reached, and the time that the people need for all."""

    work: str
    unit: str
    asked: float
    done: Percentiles
    done_ratio: Percentiles
    time_needed_s: Percentiles | UnsetType = UNSET


class WorkObservation(Struct, kw_only=True):
    """ "140 cuts took 9 %": so many units took a share of the battery or an amount of energy."""

    work: str
    "Id of the work that was watched."
    amount: float
    "How many units were done."
    took: str | UnsetType = UNSET
    "Share of the battery that it took."
    took_energy: str | UnsetType = UNSET
    "Energy that it took."
    step: str | UnsetType = UNSET
    "Smallest step of the display that was read; it bounds how exact the reading is."
    over: str | UnsetType = UNSET
    "How long the source was awake for it."


class WorkPosition(Struct, kw_only=True):
    """A place where tools are used."""

    id: str
    "Id of the place."
    distance: str | UnsetType = UNSET
    "Length of the way from every receptacle that `ways` does not name."
    ways: list[WayToPosition] | UnsetType = UNSET
    "How far it is from single receptacles."


class WorkPosterior(Struct, kw_only=True):
    """Energy of one unit before and after what was observed; `agrees` false: far outside the usual range."""

    work: str
    unit: str
    before_j: Percentiles
    after_j: Percentiles
    observations: int
    agrees: bool


class WouldInvalidate(Struct, kw_only=True):
    """What would make the answer void; `code` is of the list, or that of an assumption."""

    code: str
    text: str
    pointer: str


class AccessKeyList(Answer, kw_only=True):
    """Every key ever made, oldest first."""

    items: list[AccessKeyRow]
    "The rows of the list, in the order that its heading names."


class AfterTripTool(Struct, kw_only=True):
    """A tool that lost its power: how its switch is left, and what the return means for it, worst first.

    `start` is there where it does not get going. The winding's temperature is of the estimates in which it stands
    still; 300 stands for that and more, where its insulation is gone."""

    tool: str
    switch: str
    means: list[str]
    start: str | UnsetType = UNSET
    winding_temperature_c: Estimates | UnsetType = UNSET


class Assumption(Struct, kw_only=True):
    """A default that the answer leans on, how to find out, and what it would change.

    `if_instead_change` is the other answer as steps of RFC 6902: apply them to the request and post again."""

    id: str
    code: str
    pointer: str
    value: str
    why: str
    how_to_find_out: str
    if_instead: str | UnsetType = UNSET
    if_instead_change: list[Change] = []
    swings_verdict_to: Verdict | UnsetType = UNSET
    cases: list[str] = []
    basis: list[str] = []


class AssumptionCodeList(Answer, kw_only=True):
    """All kinds of assumptions, by code."""

    items: list[AssumptionCodeRow]
    "The rows of the list, in the order that its heading names."


class AuditPage(Answer, kw_only=True):
    """Acts, newest first; go on with `next_before`, which the last page lacks."""

    items: list[AuditRow]
    "The rows of the list, in the order that its heading names."
    next_before: int | UnsetType = UNSET
    "Send it as `before` to get the next page."


class BreakEven(Struct, kw_only=True):
    """The smallest change of one kind that makes a finding better, and what the answer says when it is posted again.

    `then` is the verdict of the finding's aspect in `cases`, `answer_then` the verdicts of the whole answer, apart from
    what `include` adds: other findings may stand. `kind` is a word of `break_even_kind` in `/v1/reference/words`."""

    text: str
    then: Verdict
    change: list[Change] = []
    cases: list[str] = []
    kind: str | UnsetType = UNSET
    answer_then: Verdicts | UnsetType = UNSET


class Breaker(Struct, kw_only=True, tag_field="kind", tag="breaker"):
    """A thermal-magnetic circuit breaker."""

    rating: str | UnsetType = UNSET
    "Rated current."
    ambient: str | UnsetType = UNSET
    "Temperature of the air around."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    standard: BreakerStandard | UnsetType = UNSET
    "Standard whose curve the device keeps."


class CapacityLimit(Struct, kw_only=True):
    """A limit in A, W or VA over a set of legs or circuits; limits may nest."""

    id: str
    "Id of the limit within its source."
    over: list[str] | UnsetType = UNSET
    "Ids of the legs or circuits that the limit spans; the whole source where left out."
    continuous: str | UnsetType = UNSET
    "What the limit lets through without end."
    tiers: list[Tier] | UnsetType = UNSET
    "Overloads that are allowed for a time, each with how long."
    response: CapacityLimitResponse | UnsetType = UNSET
    "What the limit does when it is passed: hold the current down, shut down, or let the voltage dip."
    peak: str | UnsetType = UNSET
    "Highest current that the limit lets through for an instant, as RMS of its largest cycle."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."


class CellLoadCheck(Struct, kw_only=True):
    """Verdicts of the cell's own load check, and the digest that its request has when it is posted alone."""

    verdict: Verdicts
    request_digest: str


class Choice(Struct, kw_only=True):
    """A candidate worth naming, and its price: volts and watts lost while the tool works."""

    code: str
    row: str
    verdict: Verdict
    text: str
    drop_v: FigureBand | UnsetType = UNSET
    loss_w: FigureBand | UnsetType = UNSET


class CircuitResult(Struct, kw_only=True):
    """What one circuit carries in this case, and what is left."""

    circuit: str
    current_a: FigureBand
    rating_a: float | UnsetType = UNSET
    headroom_a: FigureBand | UnsetType = UNSET
    neutral_current_a: FigureBand | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class CitationList(Answer, kw_only=True):
    """All citations, by key."""

    items: list[CitationRow]
    "The rows of the list, in the order that its heading names."


class CordCandidate(Struct, kw_only=True):
    """A cord at hand: inline, or an entry of the catalogue with corrections beside it; `count` says how many alike."""

    name: str | UnsetType = UNSET
    length: str | UnsetType = UNSET
    size: str | UnsetType = UNSET
    conductors: int | UnsetType = UNSET
    type: str | UnsetType = UNSET
    insulation_temperature: str | UnsetType = UNSET
    marked: str | UnsetType = UNSET
    plug: str | UnsetType = UNSET
    plug_state: EndState | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET
    id: str
    "Id of the cord; connections, results and pointers name it."
    entry: str | UnsetType = UNSET
    revision: int | UnsetType = UNSET
    "Revision of the entry, from 1."
    laid: CordLay | UnsetType = UNSET
    drum_layers: int | UnsetType = UNSET
    led_through: LedThrough | UnsetType = UNSET
    count: int | UnsetType = UNSET
    "How many alike."


class CordDocument(Struct, kw_only=True):
    """A stored cord."""

    name: str
    "Name for people, as it is to be shown."
    length: str | UnsetType = UNSET
    "Length of the cord."
    size: str | UnsetType = UNSET
    "Conductor size of the cord."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature that the insulation bears without end, as printed on the jacket."
    marked: str | UnsetType = UNSET
    "Current printed on it."
    plug: str | UnsetType = UNSET
    "Configuration of the plug."
    plug_state: EndState | UnsetType = UNSET
    "State of the cord's plug, by looking at it."
    outlets: CordOutlets | UnsetType = UNSET
    "The far end of the cord: how many outlets of which type."
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class CordInUse(Struct, kw_only=True):
    """A cord of this request: inline, or an entry of the catalogue with corrections beside it."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    length: str | UnsetType = UNSET
    "Length of the cord."
    size: str | UnsetType = UNSET
    "Conductor size of the cord."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature that the insulation bears without end, as printed on the jacket."
    marked: str | UnsetType = UNSET
    "Current printed on it."
    plug: str | UnsetType = UNSET
    "Configuration of the plug."
    plug_state: EndState | UnsetType = UNSET
    "State of the cord's plug, by looking at it."
    outlets: CordOutlets | UnsetType = UNSET
    "The far end of the cord: how many outlets of which type."
    id: str
    "Id of the cord; connections, results and pointers name it."
    entry: str | UnsetType = UNSET
    "Key of the catalogue entry."
    revision: int | UnsetType = UNSET
    "Revision of the entry, from 1."
    laid: CordLay | UnsetType = UNSET
    "How the cord lies: straight, coiled or on its drum."
    drum_layers: int | UnsetType = UNSET
    "Layers of turns that are left on the drum; the inner ones cannot give off their heat."
    led_through: LedThrough | UnsetType = UNSET
    "What the cord is led through or across: a door or window can close on it."


class CordPart(Struct, kw_only=True):
    """One cord of a run, from the receptacle outward."""

    cord: str
    size: str
    length_m: FigureBand
    laid: str
    capacity_a: float
    capacity_from: str
    marked_a: float | UnsetType = UNSET
    ends_a: float | UnsetType = UNSET
    ampacity_a: float | UnsetType = UNSET
    derated_ampacity_a: float | UnsetType = UNSET
    insulation_temperature_c: float
    drop_v: FigureBand
    copper_temperature_c: FigureBand


class CordResult(Struct, kw_only=True):
    """What one cord carries in this case, what is lost along it, and how warm it gets."""

    cord: str
    current_a: FigureBand
    capacity_a: float | UnsetType = UNSET
    capacity_from: str | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    copper_temperature_c: FigureBand | UnsetType = UNSET


class CordRevision(Answer, kw_only=True):
    """One revision of a cord."""

    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."
    status: EntryStatus
    "Where the revision stands: a draft is in no release, an approved one may be in the next, a withdrawn one is not to be relied on."
    why: str
    "The reason, in words."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    digest: str
    "Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits."
    withdrawals: list[WithdrawalNote] = []
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    document: CordDocument
    "The document that is stored."


class CostResult(Struct, kw_only=True):
    """What the energy of the day costs."""

    amount: Percentiles
    currency: str


class DayCost(Struct, kw_only=True):
    """What a day costs: hire and energy, as far as both are stated in one currency."""

    currency: str
    hire: float | UnsetType = UNSET
    energy: Percentiles | UnsetType = UNSET
    whole: Percentiles


class DimensionRow(Struct, kw_only=True):
    """One kind of figure and the unit labels that are accepted for it."""

    dimension: str
    si_unit: str
    pattern: str
    example: str
    units: list[UnitRow]


class DutyResult(Struct, kw_only=True):
    """How much of the time a tool runs, over the day and, for counted work, in ten minutes without a pause."""

    tool: str
    running_ratio: Percentiles
    energy_j: Percentiles
    starts_per_hour: float | UnsetType = UNSET
    ten_minutes_ratio: Percentiles | UnsetType = UNSET


class ElectronicLimit(Struct, kw_only=True, tag_field="kind", tag="electronic"):
    """A limit measured and acted on by the source's electronics."""

    rating: str | UnsetType = UNSET
    "Rated current."
    ambient: str | UnsetType = UNSET
    "Temperature of the air around."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    tiers: list[Tier] | UnsetType = UNSET
    "Overloads that are allowed for a time, each with how long."
    response: ElectronicLimitResponse | UnsetType = UNSET
    "What the limit does when it is passed: hold the current down, shut down, or let the voltage dip."


class EnergyCurvePoint(Struct, kw_only=True):
    """What is left in the store at one time of the day."""

    at_s: float
    doing: str
    left_j: Percentiles


class EnergyFinding(Struct, kw_only=True):
    """One thing the user must know."""

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    cases: list[str] = []
    figure: str | UnsetType = UNSET
    value: float | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    basis: list[str] = []
    break_even: list[BreakEven] = []


class EnergyLeft(Struct, kw_only=True):
    """Energy in the store when work ends, when the day ends, and above the reserve; below zero is missing.

    `enough`: whether the energy alone makes the day; the verdict looks at all that is found."""

    enough: Verdict
    after_work_j: Percentiles
    at_end_j: Percentiles
    above_reserve_j: Percentiles
    at_end_ratio: Percentiles | UnsetType = UNSET


class EnergyReserve(Struct, kw_only=True):
    """What must be left when work ends. `reached_at_s` is of the days on which it is reached."""

    outcome: str
    energy_j: float
    to_be_left_on_arrival_j: float
    drive_j: Percentiles | UnsetType = UNSET
    reached_probability_ratio: float
    reached_at_s: Percentiles | UnsetType = UNSET


class EnergyScenario(Struct, kw_only=True):
    """One day of many: the common budget with some members changed."""

    id: str
    "Id of the scenario within the batch."
    change: list[ScenarioChange] | UnsetType = UNSET
    "Steps of a JSON Patch (RFC 6902); apply them in order to the request and post it again."


class EnergyUse(Struct, kw_only=True):
    """What eats how much: a tool, work, standby, the source itself, conversion, driving."""

    name: str
    kind: str
    energy_j: Percentiles
    share_ratio: float


class EntryPage(Answer, kw_only=True):
    """Entries in order of their slugs; go on with `next_cursor`, which the last page lacks."""

    items: list[EntryRow]
    "The rows of the list, in the order that its heading names."
    next_cursor: str | UnsetType = UNSET
    "Send it as `cursor` to get the next page; its content is the service's own."


class FaultCodeList(Answer, kw_only=True):
    """All kinds of faults, by code."""

    items: list[FaultCodeRow]
    "The rows of the list, in the order that its heading names."


class Finding(Struct, kw_only=True):
    """One thing the user must know.

    Where break-evens were asked for and there is none, `no_break_even` says why: a word of `break_even_none` in
    `/v1/reference/words`."""

    code: str
    severity: Severity
    aspect: Aspect
    pointer: str
    text: str
    what_to_do: str
    cases: list[str] = []
    figure: str | UnsetType = UNSET
    value: float | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    basis: list[str] = []
    break_even: list[BreakEven] = []
    no_break_even: str | UnsetType = UNSET


class FindingCodeList(Answer, kw_only=True):
    """All kinds of findings, by code."""

    items: list[FindingCodeRow]
    "The rows of the list, in the order that its heading names."


class FuelConditions(Struct, kw_only=True):
    """What an engine burns, how much of it there is, and how high the place is: thin air takes from its rating."""

    kind: FuelConditionsKind | UnsetType = UNSET
    "What the engine burns."
    in_tank: str | UnsetType = UNSET
    "Fuel in the tank at the start of the day."
    run_times: list[RunTime] | UnsetType = UNSET
    "How long a full tank lasts at which load, as the plate says."
    altitude: str | UnsetType = UNSET
    "Height of the place above the sea; thin air lowers what an engine gives."


class FuelResult(Struct, kw_only=True):
    """What the engine burns in the day and what is left."""

    burnt_m3: Percentiles
    left_m3: Percentiles
    mean_load_ratio: float


class Fuse(Struct, kw_only=True, tag_field="kind", tag="fuse"):
    """A fuse; replacing it is the reset."""

    rating: str | UnsetType = UNSET
    "Rated current."
    ambient: str | UnsetType = UNSET
    "Temperature of the air around."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    standard: FuseStandard | UnsetType = UNSET
    "Standard whose curve the device keeps."


class KitDocument(Struct, kw_only=True):
    """The tools, cords and adapters that a crew takes."""

    name: str
    "Name for people, as it is to be shown."
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    tools: list[KitItem] | UnsetType = UNSET
    "Tools of the kit, by catalogue entry and number."
    cords: list[KitItem] | UnsetType = UNSET
    "Cords of the kit, by catalogue entry and number."
    adapters: list[KitAdapter] | UnsetType = UNSET
    "Adapters that the crew takes along; they are counted, never advised."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class KitRevision(Answer, kw_only=True):
    """One revision of a kit."""

    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."
    status: EntryStatus
    "Where the revision stands: a draft is in no release, an approved one may be in the next, a withdrawn one is not to be relied on."
    why: str
    "The reason, in words."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    digest: str
    "Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits."
    withdrawals: list[WithdrawalNote] = []
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    document: KitDocument
    "The document that is stored."


class LoadClassList(Answer, kw_only=True):
    """All load classes, by name."""

    items: list[LoadClassRow]
    "The rows of the list, in the order that its heading names."


class MatrixDay(Struct, kw_only=True):
    """The day that the energy must last for, as an energy budget takes it."""

    shift: str | UnsetType = UNSET
    "How long the work goes on."
    pattern: Pattern | UnsetType = UNSET
    "What the crew does all day."
    duties: list[ToolDuty] | UnsetType = UNSET
    "How much of the time each tool runs."
    work: list[WorkAmount] | UnsetType = UNSET
    "Kinds of work of the day, counted in units."
    stops: list[DayStop] | UnsetType = UNSET
    "Places of work of the day, in their order."
    way_home: WayHome | UnsetType = UNSET
    "The last drive of the day, and what must be left after it."
    electricity_price: str | UnsetType = UNSET
    "Price of electric energy."
    fuel_price: str | UnsetType = UNSET
    "Price of fuel."
    carbon: str | UnsetType = UNSET
    "Carbon dioxide that the energy used stands for."
    seed: int | UnsetType = UNSET
    "Seed of the random draws; the same seed gives the same answer."
    draws: int | UnsetType = UNSET
    "How many random draws the percentiles rest on."


class MatrixEnd(Struct, kw_only=True, tag_field="kind", tag="end"):
    """The last line: a stream without it was cut off. `next_index` is the row after the last one sent; `computed`
    cells were worked out, the others ask the same as one of them."""

    rows: int
    next_index: int
    computed: int
    counts: VerdictCounts


class MatrixJob(Struct, kw_only=True):
    """What is to be done: which cases run, how many work, where."""

    id: str
    "Id of the job."
    kits: list[str] | UnsetType = UNSET
    "Ids of the kits that are asked about."
    sources: list[str] | UnsetType = UNSET
    "Ids of the sources that are asked about."
    cases: list[Case] | UnsetType = UNSET
    "Which tools run together."
    people: int | UnsetType = UNSET
    "How many people work; it bounds how many hand tools run at once."
    distance: str | UnsetType = UNSET
    "Length of the way from the source to the work along which a cord would lie."
    conditions: Conditions | UnsetType = UNSET
    "Where and in what weather the work is done."
    code_basis: list[CodeBasis] | UnsetType = UNSET
    "Layers of rules to hold the site against; none where left out."
    day: MatrixDay | UnsetType = UNSET
    "The day that the energy must last for."


class MemberPage(Answer, kw_only=True):
    """Members of a release in its order; go on with `next_after`, which the last page lacks."""

    items: list[MemberRow]
    "The rows of the list, in the order that its heading names."
    next_after: int | UnsetType = UNSET
    "Send it as `after` to get the next page."


class NewCord(Struct, kw_only=True):
    """A cord that is new to the catalogue."""

    why: str
    by: str | UnsetType = UNSET
    status: WrittenStatus | UnsetType = UNSET
    document: CordDocument
    entry: str
    "Key of the catalogue entry."


class NewCordRevision(Struct, kw_only=True):
    """A new revision of a cord."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: CordDocument
    "The document that is stored."


class NewKit(Struct, kw_only=True):
    """A kit that is new to the catalogue."""

    why: str
    by: str | UnsetType = UNSET
    status: WrittenStatus | UnsetType = UNSET
    document: KitDocument
    entry: str
    "Key of the catalogue entry."


class NewKitRevision(Struct, kw_only=True):
    """A new revision of a kit."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: KitDocument
    "The document that is stored."


class NewRelease(Struct, kw_only=True):
    """A release of the named members, or of the newest approved revision of every entry that is not withdrawn."""

    note: str
    "What this release is for."
    by: str | UnsetType = UNSET
    "Who wrote it."
    members: list[ReleaseMember] | UnsetType = UNSET
    "The revisions that the release is made of."


OvercurrentDevice: TypeAlias = Breaker | SupplementaryProtector | Fuse | ElectronicLimit


class PlugList(Answer, kw_only=True):
    """All configurations, in the order of their tables."""

    items: list[PlugRow]
    "The rows of the list, in the order that its heading names."


class Problem(Struct, kw_only=True):
    """Problem details of RFC 9457: why a request was not answered."""

    type: str
    "Address of the page that explains this type of problem."
    title: str
    "Short name of the type; the same for every occurrence."
    status: int
    "HTTP status code."
    detail: str | UnsetType = UNSET
    "What is wrong this time, for a person."
    instance: str | UnsetType = UNSET
    "Path of the request, with the request's id behind the number sign."
    errors: list[ProblemFault] | UnsetType = UNSET
    "The single faults, where the problem has any."


class ProblemCodeList(Answer, kw_only=True):
    """All types of problem, by status and code."""

    items: list[ProblemCodeRow]
    "The rows of the list, in the order that its heading names."


class ProblemTypeList(Answer, kw_only=True):
    """All types of problem, sorted by status and code."""

    items: list[ProblemTypePage]
    "The rows of the list, in the order that its heading names."


class RankedCause(Struct, kw_only=True):
    """A cause at one place. `likelihood_share_ratio` ranks the causes looked at; it is no measurement.

    `values` in the unit of `figure`, against `limit`. `holds_with`: changes of this request after which it holds."""

    cause: str
    pointer: str
    likelihood_share_ratio: float
    text: str
    safe_checks: list[str]
    figure: str | UnsetType = UNSET
    values: Estimates | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    holds_with: list[BreakEven] = []


class Readiness(Answer, kw_only=True):
    """The process can answer calculations."""

    checks: list[ReadinessCheck]
    "The things that readiness depends on, each with its state."
    status: str
    "Always `ready`; what is not ready is answered with 503 and its reasons."


class RevisionPage(Answer, kw_only=True):
    """Revisions of an entry, newest first; go on with `next_before`, which the last page lacks."""

    items: list[RevisionRow]
    "The rows of the list, in the order that its heading names."
    next_before: int | UnsetType = UNSET
    "Send it as `before` to get the next page."


class RuleLayer(Answer, kw_only=True):
    """A layer of rules with its clauses."""

    layer: RuleLayerRow
    "The layer of rules."
    clauses: list[ClauseRow]
    "What the layer asks, rule by rule."


class RuleLayerList(Answer, kw_only=True):
    """All layers of rules, and the questions that their clauses answer."""

    items: list[RuleLayerRow]
    "The rows of the list, in the order that its heading names."
    rules: list[RuleRow]
    "The questions that the clauses of all layers answer."


class SafetyListAnswer(Answer, kw_only=True):
    """Dangers first."""

    lines: list[SafetyListLine]
    "What to look at, dangers first."
    counts: list[SafetyCount]
    "How many lines there are of each code."
    sources: int
    "How many sources were looked at."
    kits: int
    "How many kits were looked at."
    not_looked_at: list[SafetyListError] = []
    "Sources and kits that could not be looked at, each with its faults."
    basis: list[Basis] = []
    "Clauses, tables and practices that the list leans on, each told once."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."
    answer_digest: str
    "Proves which list was given: over lines, errors and basis, `sha256:` and 64 hexadecimal digits."


class SingleChange(Struct, kw_only=True):
    """A change that makes the row hold, by RFC 6902, worked out again as a whole.

    `verdict` is what the row becomes, `then` and `energy` what its load check and energy budget become. The steps go
    into the row's `load_check_request` and, where there is one, its `energy_budget_request`; or into the latter alone;
    or, for a longer cord, into the row's kit as it was sent, whose plugging is planned anew where it is not stated."""

    text: str
    verdict: Verdict
    then: Verdicts
    energy: Verdicts | UnsetType = UNSET
    of: Of
    change: list[Change]


class SourceComparisonHead(Struct, kw_only=True, tag_field="kind", tag="head"):
    """The first line: what all rows rest on, and which rows follow."""

    rows_in_all: int
    begin: int
    end: int
    weights: UsedWeights
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    request_digest: str


class StandardTable(Answer, kw_only=True):
    """A table of a standard, as far as it is used here."""

    citation: CitationRow
    "The document, edition and place that it is copied from."
    rows: list[TableRow]
    "The rows of the table that are used here."


Start: TypeAlias = (
    InductionMotorStart | UniversalMotorStart | ElectronicMotorStart | RectifierStart | ResistiveStart | MeasuredStart
)


class StartFigure(Struct, kw_only=True):
    """What happens when the tool is switched on while the others of its case run.

    `outcome` is one of starts, starts_slowly, stalls, hunts, source_limits, shuts_off, trips, collapses, not_assessed,
    by the typical estimate; `outcomes` is there where the estimates differ. Peak, time and trip are those of the
    hardest. `source_must_give_a` for `source_must_give_s` would start it."""

    outcome: str
    peak_a: float | UnsetType = UNSET
    lasts_s: float | UnsetType = UNSET
    source_must_give_a: float | UnsetType = UNSET
    probability_ratio: float | UnsetType = UNSET
    outcomes: Outcomes | UnsetType = UNSET
    source_must_give_s: float | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class StartOfRow(Struct, kw_only=True):
    """What becomes of switching the tool on at the end of this run, as a load check of the same run has it.

    `outcome` is one of starts, starts_slowly, stalls, hunts, source_limits, shuts_off, trips, collapses, no_start (it
    has none to speak of) and not_assessed, by the typical estimate; `outcomes` is there where the estimates differ.
    `current_a` is the highest of the start, `drop_v` what it loses along the run, `voltage_v` the least that is left
    at the tool meanwhile. Peak, time and trip are those of the hardest estimate; `source_must_give_a` for
    `source_must_give_s` would start it."""

    outcome: str
    outcomes: Outcomes | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET
    peak_a: float | UnsetType = UNSET
    lasts_s: float | UnsetType = UNSET
    source_must_give_a: float | UnsetType = UNSET
    source_must_give_s: float | UnsetType = UNSET
    probability_ratio: float | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class Stop(Struct, kw_only=True):
    """What ran when power went, and what was seen then; leave out what nobody knows."""

    running: list[str]
    "Tools that were on."
    heavy: str | UnsetType = UNSET
    "The tool that was pushed hard."
    switched_on: str | UnsetType = UNSET
    "The tool that was just switched on."
    after: str | UnsetType = UNSET
    "How long all tools of `running` had been on together when power went, as remembered: a time from a third to one and a half of it counts."
    extent: Extent | UnsetType = UNSET
    "What went off."
    returned: Returned | UnsetType = UNSET
    "How power came back."
    charge: str | UnsetType = UNSET
    "How full the battery was."
    readings: list[StopReading] | UnsetType = UNSET
    "What meters showed before it stopped."


class StopDiagnosisAnswer(Answer, kw_only=True):
    """Causes, most likely first."""

    before_anything: str
    "What must be done before anybody looks for the cause: the safe first step, in words."
    findings: list[Finding] = []
    "Catalogue documents that this rests on although they were withdrawn."
    causes: list[RankedCause] = []
    "Causes that fit what was seen, most likely first."
    verdict: Verdicts
    "Verdicts of the load check of what ran."
    used_entries: list[UsedEntry] = []
    "Catalogue documents that the answer used, with their revisions."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class SupplyOption(Struct, kw_only=True):
    """One way to feed the tool, as its plate says; a dual-voltage tool has two."""

    id: str | UnsetType = UNSET
    "Id of the supply option within the tool."
    voltage: str
    "Supply that the plate names."
    phases: Phases | UnsetType = UNSET
    "How many line phases the option needs."
    plug: str | UnsetType = UNSET
    "Configuration of the plug."
    current: str | UnsetType = UNSET
    "Current of the plate, in the load state that the plate is of."
    power: str | UnsetType = UNSET
    "Power of the plate, taken from the outlet."
    apparent_power: str | UnsetType = UNSET
    "Apparent power of the plate, in the load state that the plate is of."
    effective_current: str | UnsetType = UNSET
    "Effective supply current of a welder's plate (I1eff, IEC 60974-1): its heating over its duty cycle."
    output: str | UnsetType = UNSET
    "Current of the weld at the plate's rating, by which other settings scale."
    load_states: list[LoadState] | UnsetType = UNSET
    "Running conditions with what the tool draws in each."
    start: Start | UnsetType = UNSET
    "What happens when it is switched on at this supply, where that differs from the tool's own start."
    restart: Start | UnsetType = UNSET
    "The start under load after a trip, where it is harder than the usual one."


class ToolInUse(Struct, kw_only=True):
    """A tool of this request: inline, or an entry of the catalogue with corrections beside it."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    load_class: LoadClass | UnsetType = UNSET
    "Kind of load; decides what is assumed where the plate is silent."
    shaft_power: str | UnsetType = UNSET
    "Power at the shaft, as motors are rated; the outlet gives more."
    supply_options: list[SupplyOption] | UnsetType = UNSET
    "The ways in which the tool can be fed, as its plate says."
    load_states: list[LoadState] | UnsetType = UNSET
    "Running conditions with what the tool draws in each."
    start: Start | UnsetType = UNSET
    "What happens when it is switched on."
    restart: Start | UnsetType = UNSET
    "The start under load after a trip, where it is harder than the usual one."
    switch: Switch | UnsetType = UNSET
    "How the tool is switched; decides whether it runs again when power returns."
    control: Control | UnsetType = UNSET
    "What switches the tool on and off by itself: pressure, a float, a thermostat, another tool."
    restart_protection: bool | UnsetType = UNSET
    "Whether the tool stays off when power comes back until it is switched on again."
    motor_protector: MotorProtector | UnsetType = UNSET
    "What built-in thermal protector the motor has, as its plate or manual says: none, one that resets by itself, one that a person resets."
    operated: Operated | UnsetType = UNSET
    "Whether a hand holds it, somebody stands by, or it runs by itself."
    lowest_voltage: str | UnsetType = UNSET
    "Voltage below which the tool drops out or is harmed."
    sensitivity: Sensitivity | UnsetType = UNSET
    "How much the tool minds a dip of the voltage."
    leakage: str | UnsetType = UNSET
    "Current that leaks to earth in normal use."
    insulation: Insulation | UnsetType = UNSET
    "Protection class of the tool (IEC 61140): I has a protective earth, II is double insulated, III is fed at extra-low voltage."
    id: str
    "Id of the tool; connections, cases, findings and pointers name it."
    entry: str | UnsetType = UNSET
    "Key of the tool's profile in the catalogue; members beside it correct it."
    revision: int | UnsetType = UNSET
    "Revision of the entry, from 1."
    must_return: bool | UnsetType = UNSET
    "Whether work or goods suffer unless the tool comes back by itself, as with a pump or a freezer."
    follows: str | UnsetType = UNSET
    "Id of the tool that switches this one on and off with itself, as a saw does its vacuum."
    on: str | UnsetType = UNSET
    "Mean time that the tool is on at a time."
    off: str | UnsetType = UNSET
    "Mean time that the tool is off between two uses."


class ToolProfile(Struct, kw_only=True):
    """A stored tool profile."""

    name: str
    "Name for people, as it is to be shown."
    load_class: LoadClass | UnsetType = UNSET
    "Kind of load; decides what is assumed where the plate is silent."
    shaft_power: str | UnsetType = UNSET
    "Power at the shaft, as motors are rated; the outlet gives more."
    supply_options: list[SupplyOption] | UnsetType = UNSET
    "The ways in which the tool can be fed, as its plate says."
    load_states: list[LoadState] | UnsetType = UNSET
    "Running conditions with what the tool draws in each."
    start: Start | UnsetType = UNSET
    "What happens when it is switched on."
    restart: Start | UnsetType = UNSET
    "The start under load after a trip, where it is harder than the usual one."
    switch: Switch | UnsetType = UNSET
    "How the tool is switched; decides whether it runs again when power returns."
    control: Control | UnsetType = UNSET
    "What switches the tool on and off by itself: pressure, a float, a thermostat, another tool."
    restart_protection: bool | UnsetType = UNSET
    "Whether the tool stays off when power comes back until it is switched on again."
    motor_protector: MotorProtector | UnsetType = UNSET
    "What built-in thermal protector the motor has, as its plate or manual says: none, one that resets by itself, one that a person resets."
    operated: Operated | UnsetType = UNSET
    "Whether a hand holds it, somebody stands by, or it runs by itself."
    lowest_voltage: str | UnsetType = UNSET
    "Voltage below which the tool drops out or is harmed."
    sensitivity: Sensitivity | UnsetType = UNSET
    "How much the tool minds a dip of the voltage."
    leakage: str | UnsetType = UNSET
    "Current that leaks to earth in normal use."
    insulation: Insulation | UnsetType = UNSET
    "Protection class of the tool (IEC 61140): I has a protective earth, II is double insulated, III is fed at extra-low voltage."
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class ToolProfileRevision(Answer, kw_only=True):
    """One revision of a tool profile."""

    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."
    status: EntryStatus
    "Where the revision stands: a draft is in no release, an approved one may be in the next, a withdrawn one is not to be relied on."
    why: str
    "The reason, in words."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    digest: str
    "Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits."
    withdrawals: list[WithdrawalNote] = []
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    document: ToolProfile
    "The document that is stored."


class ToolResult(Struct, kw_only=True):
    """What one tool of the case gets, draws and does."""

    tool: str
    load_state: LoadStateName
    verdict: Verdict
    supply_option: str | UnsetType = UNSET
    power_w: FigureBand | UnsetType = UNSET
    current_a: FigureBand | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET
    lowest_voltage_v: float | UnsetType = UNSET
    start: StartFigure | UnsetType = UNSET
    sag: SagFigure | UnsetType = UNSET


class TripCurve(Struct, kw_only=True):
    """When the device of a circuit opens, from cold; a time that does not exist is left out."""

    circuit: str
    standard: str
    rating_a: float
    points: list[TripPoint] = []


class VerdictChange(Struct, kw_only=True):
    """A kit on a source at a job whose verdict is another in the newer release, and what differs behind it.

    `entries` empty: the withdrawals or what stands beside the references made it, not a revision."""

    id: str
    job: str
    kit: str
    source: str
    turned: Turned
    before: VerdictIn
    after: VerdictIn
    entries: list[EntryBehind] = []


class VerdictChangesAnswer(Answer, kw_only=True):
    """The rows whose verdict changed, what got worse first; those that neither release answers; and how many did not."""

    changes: list[VerdictChange]
    "The rows whose verdict is another, what got worse first."
    without_answer: list[RowWithoutAnswer]
    "Rows that neither release can answer."
    unchanged: int
    "How many rows have the same verdict in both releases."
    rows_in_all: int
    "How many rows there are in all: jobs by kits by sources."
    from_release: int
    "Number of the older release."
    to_release: int
    "Number of the newer release."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class WordListRow(Struct, kw_only=True):
    """The words that one member of an answer may have."""

    name: str
    words: list[WordRow]


class WordLists(Answer, kw_only=True):
    """All lists of words, by name."""

    items: list[WordListRow]
    "The rows of the list, in the order that its heading names."


class AfterTrip(Struct, kw_only=True):
    """A device or limit that may open first in a case, on its mildest occasion, and what follows.

    `restart` is what becomes of all that comes back at once, `ending` how it ends, both by the typical estimate;
    `restarts` and `endings` are there where the estimates differ. What returns goes again after `holds_earliest_s` at
    the earliest and `holds_latest_s` at the latest; a time that does not exist is left out."""

    opens: str
    opener: str
    occasion: str
    place: str
    reset: TripReset
    restart: str
    ending: str
    tool: str | UnsetType = UNSET
    earliest_s: float | UnsetType = UNSET
    latest_assumed_s: float | UnsetType = UNSET
    restarts: AfterTripEstimates | UnsetType = UNSET
    endings: AfterTripEstimates | UnsetType = UNSET
    opens_again: str | UnsetType = UNSET
    holds_earliest_s: float | UnsetType = UNSET
    holds_latest_s: float | UnsetType = UNSET
    tools: list[AfterTripTool] = []


class CaseRow(Struct, kw_only=True):
    """One set of load states: `pushed` names who is in `heavy`, everyone else is `working`."""

    pushed: list[str]
    verdict: Verdict
    outcome: str
    tools: list[ToolResult] = []
    circuits: list[CircuitResult] = []
    legs: list[LegResult] = []
    limits: list[LimitResult] = []
    receptacles: list[ReceptacleResult] = []
    cords: list[CordResult] = []


class CellEnergyBudget(Struct, kw_only=True):
    """Verdicts of the cell's own energy budget, and the digest that its request has when it is posted alone."""

    verdict: Verdicts
    time_left_s: Percentiles | UnsetType = UNSET
    left: EnergyLeft | UnsetType = UNSET
    request_digest: str


class Circuit(Struct, kw_only=True):
    """Conductors behind one overcurrent device, on named legs."""

    id: str
    "Id of the circuit within its source."
    legs: list[LegName] | UnsetType = UNSET
    "Line conductors of the circuit: one, two or three."
    resistance: str | UnsetType = UNSET
    "Resistance of the circuit's wiring to its outlets, there and back."
    device: OvercurrentDevice | UnsetType = UNSET
    "The overcurrent device of the circuit, by its kind."


class ComparedJob(Struct, kw_only=True):
    """A job with the use that its cases see: given, each row tells the hours a month that would fail."""

    id: str
    kits: list[str] | UnsetType = UNSET
    sources: list[str] | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    distance: str | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    day: MatrixDay | UnsetType = UNSET
    usage: list[CaseUse] | UnsetType = UNSET
    "How long each case runs in a month."


class CordRow(Struct, kw_only=True):
    """One candidate: a size to bring, a cord at hand, or several cords in series.

    `waits_for` names the one assumption that decides; `hangs_on` several that decide only together."""

    id: str
    kind: CordRowKind
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


class CordSizingAnswer(Answer, kw_only=True):
    """The verdict is that of the run asked about, else of the first choice; `lines` hold for every candidate."""

    verdict: Verdicts
    "Worst verdict: pass, marginal, unknown (one question decides) or fail."
    question: str | UnsetType = UNSET
    "The one thing to find out first, because it decides the verdict."
    hangs_on: list[str] = []
    "Ids of several assumptions that decide only together; empty where one decides or none."
    choices: list[Choice] = []
    "Candidates worth naming, with the reason for each."
    findings: list[Finding] = []
    "Everything that the user must know, worst first."
    assumptions: list[Assumption] = []
    "Defaults that the answer leans on, those that could change the verdict first."
    lines: list[RuleLine] = []
    "Rules that hold for every candidate."
    rows: list[CordRow] = []
    "All candidates, best first, with every rule as a line."
    runs_left_out: int = 0
    "How many runs of the cords at hand were not tried, because there are too many."
    not_assessed: list[str] = []
    "What is not looked at; it keeps the verdict from being better than `unknown`."
    basis: list[Basis] = []
    "Clauses, tables and practices that the answer leans on, each told once."
    used_entries: list[UsedEntry] = []
    "Catalogue documents that the answer used, with their revisions."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class DimensionList(Answer, kw_only=True):
    """All kinds of figures, by name."""

    items: list[DimensionRow]
    "The rows of the list, in the order that its heading names."


class EnergyBatchRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """Figures of one scenario, each the same as POST /v1/energy-budgets gives for it, or what is wrong with it.

    `index` counts from 0. `scenario` is its id; of one that has none that can be read, or whose id is taken, `#` and
    its index stand there. `verdict` is of the energy and of all that is found beside it, as of a budget posted alone;
    where the energy fails and one assumption decides, it is `fail` here and `unknown` alone. `because` has the codes of
    the findings that keep it from passing, worst first. `left.enough` is of the energy only. `request_digest` is the
    digest of the scenario's own budget: posted alone, it has findings, the question that decides, and changes as well."""

    index: int
    scenario: str
    errors: list[ScenarioFault] = []
    verdict: Verdicts | UnsetType = UNSET
    because: list[str] | UnsetType = UNSET
    left: EnergyLeft | UnsetType = UNSET
    time_left_s: Percentiles | UnsetType = UNSET
    done_ratio: Percentiles | UnsetType = UNSET
    reached_probability_ratio: float | UnsetType = UNSET
    used_j: Percentiles | UnsetType = UNSET
    fuel: FuelResult | UnsetType = UNSET
    cost: CostResult | UnsetType = UNSET
    carbon_kg: Percentiles | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    request_digest: str | UnsetType = UNSET


class EnergyBudgetAnswer(Answer, kw_only=True):
    """Most important first: verdict, words, findings, assumptions, figures."""

    verdict: Verdicts
    "The verdicts, and the worst of them."
    question: str | UnsetType = UNSET
    "Id of the assumption to settle first, because it decides the verdict."
    crew_card: list[CrewLine] = []
    "Lines to tell the crew, most important first: what to do and what not."
    findings: list[EnergyFinding] = []
    "Everything that the user must know, worst first."
    assumptions: list[EnergyAssumption] = []
    "Defaults that the answer leans on, those that could change the verdict first."
    cheapest_change: BreakEven | UnsetType = UNSET
    "The single change that costs least and makes it better."
    changes: list[BreakEven] = []
    "Changes that would help, the cheapest first."
    left: EnergyLeft | UnsetType = UNSET
    "Energy that is left, over the day and above the reserve."
    time_left_s: Percentiles | UnsetType = UNSET
    "How long the energy lasts from the start of the day."
    reserve: EnergyReserve | UnsetType = UNSET
    "What must be left in the store, and on how many days it is reached."
    work_done: list[WorkDone] = []
    "How much of each counted work is done."
    stops: list[StopResult] = []
    "What is left on leaving each stop."
    curve: list[EnergyCurvePoint] = []
    "What is left in the store over the day."
    uses: list[EnergyUse] = []
    "What eats how much energy, most first."
    duties: list[DutyResult] = []
    "How much of the time each tool runs."
    used_j: Percentiles
    "Energy that the day takes from the store."
    done_ratio: Percentiles
    "What the loads are fed before the reserve is reached, over what they ask for."
    fuel: FuelResult | UnsetType = UNSET
    "What the engine burns."
    cost: CostResult | UnsetType = UNSET
    "What the energy of the day costs."
    carbon_kg: Percentiles | UnsetType = UNSET
    "Carbon dioxide of the day, by the factor that was given."
    posteriors: list[WorkPosterior] = []
    "What observations made of the energy of each work; empty where nothing was observed."
    not_assessed: list[str] = []
    "What is not looked at; it keeps the overall verdict from being better than `unknown`."
    method: BudgetMethod
    "How the percentiles were found."
    basis: list[Basis] = []
    "Clauses, tables and practices that the answer leans on, each told once."
    used_entries: list[UsedEntry] = []
    "Catalogue documents that the answer used, with their revisions."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class EngineGenerator(Struct, kw_only=True, tag_field="kind", tag="engine_generator"):
    """An engine set; its technology decides what a start does to the voltage."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    legs: list[Leg] | UnsetType = UNSET
    "The line conductors of the supply."
    limits: list[CapacityLimit] | UnsetType = UNSET
    "What the source as a whole lets through, over which of its legs and circuits."
    circuits: list[Circuit] | UnsetType = UNSET
    "The circuits of the source: conductors behind one overcurrent device each."
    receptacles: list[Receptacle] | UnsetType = UNSET
    "The outlets of the source."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    waveform: Waveform | UnsetType = UNSET
    "Shape of the voltage."
    neutral_bond: NeutralBond | UnsetType = UNSET
    "Whether neutral and frame are joined in the source; decides whether a fault opens a device."
    resistance: str | UnsetType = UNSET
    "Resistance of the source behind its outlets: what lets its voltage sink under load."
    availability: list[Availability] | UnsetType = UNSET
    "States in which the source gives no power, or keeps giving it, as while driving or locked."
    voltage: str
    "Nominal voltage."
    technology: Technology | UnsetType = UNSET
    "How the set makes its voltage; decides what a start does to it."
    running: str | UnsetType = UNSET
    "What the set gives without end."
    starting: str | UnsetType = UNSET
    "What the set gives for the seconds of a start."
    transient_reactance: str | UnsetType = UNSET
    "Transient reactance of the generator (x'd), in per unit of its rating."
    tank: str | UnsetType = UNSET
    "Fuel that a full tank holds."


class EngineGeneratorDocument(Struct, kw_only=True, tag_field="kind", tag="engine_generator"):
    """A stored engine generator."""

    name: str
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    starting: str | UnsetType = UNSET
    transient_reactance: str | UnsetType = UNSET
    tank: str | UnsetType = UNSET
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class KitValidationRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """One kit on one source for one job; `id` is job/kit/source, `index` counts from 0 over all rows.

    `verdict` is the worst of the load check, the energy budget and what the kit lacks for the job. With `errors` there
    is no answer. `plugging` says whether `plugged` was stated, or planned for this cell."""

    index: int
    id: str
    job: str
    kit: str
    source: str
    verdict: Verdict | UnsetType = UNSET
    sentence: str | UnsetType = UNSET
    missing: list[MissingThing] = []
    others: list[OtherSource] = []
    finding: CellFinding | UnsetType = UNSET
    question: CellAsks | UnsetType = UNSET
    invalidated_by: list[WouldInvalidate] = []
    plugging: Plugging | UnsetType = UNSET
    plugged: list[PluggedIn] = []
    load_check: CellLoadCheck | UnsetType = UNSET
    energy_budget: CellEnergyBudget | UnsetType = UNSET
    load_check_request: Any | UnsetType = UNSET
    energy_budget_request: Any | UnsetType = UNSET
    errors: list[MatrixFault] = []


class MatrixKit(Struct, kw_only=True):
    """A kit by catalogue entry, inline, or both: a tool or cord with the id of one of the entry's corrects it."""

    id: str
    "Id of the kit; rows name it."
    entry: str | UnsetType = UNSET
    "Key of the catalogue entry."
    revision: int | UnsetType = UNSET
    "Revision of the entry, from 1."
    tools: list[ToolInUse] | UnsetType = UNSET
    "The tools, each with what is known of it."
    cords: list[CordInUse] | UnsetType = UNSET
    "The cords, each with what is known of it."
    connections: list[Connection] | UnsetType = UNSET
    "What is plugged into what, from the tools to the outlets of the source."


class NewToolProfile(Struct, kw_only=True):
    """A tool profile that is new to the catalogue."""

    why: str
    by: str | UnsetType = UNSET
    status: WrittenStatus | UnsetType = UNSET
    document: ToolProfile
    entry: str
    "Key of the catalogue entry."


class NewToolProfileRevision(Struct, kw_only=True):
    """A new revision of a tool profile."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: ToolProfile
    "The document that is stored."


class SiteSupply(Struct, kw_only=True, tag_field="kind", tag="site_supply"):
    """A temporary supply from the network."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    legs: list[Leg] | UnsetType = UNSET
    "The line conductors of the supply."
    limits: list[CapacityLimit] | UnsetType = UNSET
    "What the source as a whole lets through, over which of its legs and circuits."
    circuits: list[Circuit] | UnsetType = UNSET
    "The circuits of the source: conductors behind one overcurrent device each."
    receptacles: list[Receptacle] | UnsetType = UNSET
    "The outlets of the source."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    waveform: Waveform | UnsetType = UNSET
    "Shape of the voltage."
    neutral_bond: NeutralBond | UnsetType = UNSET
    "Whether neutral and frame are joined in the source; decides whether a fault opens a device."
    resistance: str | UnsetType = UNSET
    "Resistance of the source behind its outlets: what lets its voltage sink under load."
    availability: list[Availability] | UnsetType = UNSET
    "States in which the source gives no power, or keeps giving it, as while driving or locked."
    voltage: str
    "Nominal voltage."
    earthing: Earthing | UnsetType = UNSET
    "System of earthing of the supply (IEC 60364-1)."
    fault_current: str | UnsetType = UNSET
    "Prospective current of a dead short at the point of supply."


class SiteSupplyDocument(Struct, kw_only=True, tag_field="kind", tag="site_supply"):
    """A stored site supply."""

    name: str
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class SourceComparisonRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """One source for one kit at one job; `id` is job/kit/source, `index` counts from 0 over all rows.

    `rank` is among the sources of this kit at this job: by verdict, then by score; a failing source never stands before
    one that does not, and of those that fail one with a `danger` (somebody may be hurt) stands behind those without.
    `pareto`: no other source is at least as good by verdict, danger and every criterion, and better by one; else
    `beaten_by` names those that are. `fails_first` is of the failing case, else what the rules forbid, else of the day."""

    index: int
    id: str
    job: str
    kit: str
    source: str
    verdict: Verdict | UnsetType = UNSET
    sentence: str | UnsetType = UNSET
    danger: bool | UnsetType = UNSET
    rank: int | UnsetType = UNSET
    score: float | UnsetType = UNSET
    pareto: bool | UnsetType = UNSET
    beaten_by: list[str] = []
    deciding: list[DecidingInput] = []
    failing_case: str | UnsetType = UNSET
    fails_first: CellFinding | UnsetType = UNSET
    question: CellAsks | UnsetType = UNSET
    spare: SpareCurrent | UnsetType = UNSET
    spare_output: SpareSourceOutput | UnsetType = UNSET
    hardest_start: HardestStartOfAll | UnsetType = UNSET
    independent_circuits: int | UnsetType = UNSET
    power_back: HowPowerReturns | UnsetType = UNSET
    reserve: ReserveReached | UnsetType = UNSET
    cost_per_day: DayCost | UnsetType = UNSET
    mass_kg: float | UnsetType = UNSET
    noise_db: float | UnsetType = UNSET
    exhaust: bool | UnsetType = UNSET
    use: UseThatFails | UnsetType = UNSET
    missing: list[MissingThing] = []
    cheapest_change: SingleChange | UnsetType = UNSET
    seen: list[SeenAgainstLabel] = []
    plugging: Plugging | UnsetType = UNSET
    plugged: list[PluggedIn] = []
    load_check: CellLoadCheck | UnsetType = UNSET
    energy_budget: CellEnergyBudget | UnsetType = UNSET
    load_check_request: Any | UnsetType = UNSET
    energy_budget_request: Any | UnsetType = UNSET
    errors: list[MatrixFault] = []


class SourceCorrections(Struct, kw_only=True):
    """Members of any kind of source that correct a document, one by one; lists go by `id`."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    legs: list[Leg] | UnsetType = UNSET
    "The line conductors of the supply."
    limits: list[CapacityLimit] | UnsetType = UNSET
    "What the source as a whole lets through, over which of its legs and circuits."
    circuits: list[Circuit] | UnsetType = UNSET
    "The circuits of the source: conductors behind one overcurrent device each."
    receptacles: list[Receptacle] | UnsetType = UNSET
    "The outlets of the source."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    waveform: Waveform | UnsetType = UNSET
    "Shape of the voltage."
    neutral_bond: NeutralBond | UnsetType = UNSET
    "Whether neutral and frame are joined in the source; decides whether a fault opens a device."
    resistance: str | UnsetType = UNSET
    "Resistance of the source behind its outlets: what lets its voltage sink under load."
    availability: list[Availability] | UnsetType = UNSET
    "States in which the source gives no power, or keeps giving it, as while driving or locked."
    voltage: str | UnsetType = UNSET
    "Nominal voltage."
    battery: str | UnsetType = UNSET
    "Energy that the battery holds when full."
    awake_draw: str | UnsetType = UNSET
    "What the source itself takes while its outlets are on and nothing is plugged in."
    sleeps_below: str | UnsetType = UNSET
    "Load below which the source switches its outlets off by itself."
    sleeps_after: str | UnsetType = UNSET
    "How long the load must be small before the source switches its outlets off by itself."
    wakes_on_load: bool | UnsetType = UNSET
    "Whether the source wakes by itself when a load is switched on."
    energy_per_distance: str | UnsetType = UNSET
    "Energy that the vehicle uses for a distance on the road."
    technology: Technology | UnsetType = UNSET
    "How the set makes its voltage; decides what a start does to it."
    running: str | UnsetType = UNSET
    "What the set gives without end."
    starting: str | UnsetType = UNSET
    "What the set gives for the seconds of a start."
    transient_reactance: str | UnsetType = UNSET
    "Transient reactance of the generator (x'd), in per unit of its rating."
    tank: str | UnsetType = UNSET
    "Fuel that a full tank holds."
    earthing: Earthing | UnsetType = UNSET
    "System of earthing of the supply (IEC 60364-1)."
    fault_current: str | UnsetType = UNSET
    "Prospective current of a dead short at the point of supply."


class SourceUnit(Struct, kw_only=True):
    """One vehicle, generator, station or supply of the fleet; its key is its fleet id."""

    name: str
    "Name for people, as it is to be shown."
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    entry: str
    "Key of the kind of source that the unit is of."
    revision: int | UnsetType = UNSET
    "Revision of the kind."
    corrections: SourceCorrections | UnsetType = UNSET
    "Where this unit differs from its kind, as by a plate of its own or after a repair."
    observations: list[Observation] | UnsetType = UNSET
    "What was seen of it."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class SourceUnitRevision(Answer, kw_only=True):
    """One revision of a source unit."""

    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."
    status: EntryStatus
    "Where the revision stands: a draft is in no release, an approved one may be in the next, a withdrawn one is not to be relied on."
    why: str
    "The reason, in words."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    digest: str
    "Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits."
    withdrawals: list[WithdrawalNote] = []
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    document: SourceUnit
    "The document that is stored."


class Vehicle(Struct, kw_only=True, tag_field="kind", tag="vehicle"):
    """Outlets of an electric or hybrid work vehicle, fed by its inverter."""

    name: str | UnsetType = UNSET
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    battery: str | UnsetType = UNSET
    awake_draw: str | UnsetType = UNSET
    sleeps_below: str | UnsetType = UNSET
    sleeps_after: str | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    "Energy that the vehicle uses for a distance on the road."


class VehicleDocument(Struct, kw_only=True, tag_field="kind", tag="vehicle"):
    """A stored vehicle."""

    name: str
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    battery: str | UnsetType = UNSET
    awake_draw: str | UnsetType = UNSET
    sleeps_below: str | UnsetType = UNSET
    sleeps_after: str | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class BatteryStation(Struct, kw_only=True, tag_field="kind", tag="battery_station"):
    """A portable battery with an inverter."""

    name: str | UnsetType = UNSET
    "Name for people, as it is to be shown."
    legs: list[Leg] | UnsetType = UNSET
    "The line conductors of the supply."
    limits: list[CapacityLimit] | UnsetType = UNSET
    "What the source as a whole lets through, over which of its legs and circuits."
    circuits: list[Circuit] | UnsetType = UNSET
    "The circuits of the source: conductors behind one overcurrent device each."
    receptacles: list[Receptacle] | UnsetType = UNSET
    "The outlets of the source."
    reset: Reset | UnsetType = UNSET
    "How power comes back after a trip, where, and through whose hands."
    waveform: Waveform | UnsetType = UNSET
    "Shape of the voltage."
    neutral_bond: NeutralBond | UnsetType = UNSET
    "Whether neutral and frame are joined in the source; decides whether a fault opens a device."
    resistance: str | UnsetType = UNSET
    "Resistance of the source behind its outlets: what lets its voltage sink under load."
    availability: list[Availability] | UnsetType = UNSET
    "States in which the source gives no power, or keeps giving it, as while driving or locked."
    voltage: str
    "Nominal voltage."
    battery: str | UnsetType = UNSET
    "Energy that the battery holds when full."
    awake_draw: str | UnsetType = UNSET
    "What the source itself takes while its outlets are on and nothing is plugged in."
    sleeps_below: str | UnsetType = UNSET
    "Load below which the source switches its outlets off by itself."
    sleeps_after: str | UnsetType = UNSET
    "How long the load must be small before the source switches its outlets off by itself."
    wakes_on_load: bool | UnsetType = UNSET
    "Whether the source wakes by itself when a load is switched on."


class BatteryStationDocument(Struct, kw_only=True, tag_field="kind", tag="battery_station"):
    """A stored battery station."""

    name: str
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    battery: str | UnsetType = UNSET
    awake_draw: str | UnsetType = UNSET
    sleeps_below: str | UnsetType = UNSET
    sleeps_after: str | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    origin: Origin
    "Where the figures come from: plate, measurement, standard, estimate, or invented for the demo."
    provenance: list[Provenance] | UnsetType = UNSET
    "Where single figures come from, where that is not the document's own origin."


class CaseResult(Struct, kw_only=True):
    """`waits_for` names the one assumption that decides; `hangs_on` several that decide only together.

    `after_trip` has what may open first and what follows; empty where nothing may open within its band."""

    id: str
    running: list[str]
    verdict: Verdict
    waits_for: str | UnsetType = UNSET
    hangs_on: list[str] = []
    after_trip: list[AfterTrip] = []
    results: list[CaseRow] = []


class CatalogueSource(Struct, kw_only=True, tag_field="kind", tag="catalogue"):
    """A source of the catalogue, by its kind (`entry`), its fleet id (`unit`) or both; one of them is needed."""

    name: str | UnsetType = UNSET
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    availability: list[Availability] | UnsetType = UNSET
    voltage: str | UnsetType = UNSET
    battery: str | UnsetType = UNSET
    awake_draw: str | UnsetType = UNSET
    sleeps_below: str | UnsetType = UNSET
    sleeps_after: str | UnsetType = UNSET
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    starting: str | UnsetType = UNSET
    transient_reactance: str | UnsetType = UNSET
    tank: str | UnsetType = UNSET
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    entry: str | UnsetType = UNSET
    "Key of the kind of source in the catalogue; members beside it correct it."
    revision: int | UnsetType = UNSET
    "Revision of the entry, from 1."
    unit: str | UnsetType = UNSET
    "Fleet id: the key of a source unit of the catalogue, in small or capital letters."


EnergyBatchLine: TypeAlias = EnergyBatchHead | EnergyBatchRow | EnergyBatchProgress | EnergyBatchEnd


class KitValidationAnswer(Answer, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    "How many rows have which verdict, and how many none."
    rows: list[KitValidationRow]
    "The rows, in their order."
    rows_in_all: int
    "How many rows there are in all: jobs by kits by sources."
    computed: int
    "How many cells were worked out; the others ask the same as one of these."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


KitValidationLine: TypeAlias = KitValidationHead | KitValidationRow | MatrixProgress | MatrixEnd


class LoadCheckAnswer(Answer, kw_only=True):
    """Most important first: verdict, what to tell the crew, findings, assumptions, figures."""

    verdict: Verdicts
    "The verdicts, and the worst of them."
    question: str | UnsetType = UNSET
    "Id of the assumption to settle first, because it decides the verdict."
    crew_card: list[CrewLine] = []
    "Lines to tell the crew, most important first: what to do and what not."
    findings: list[Finding] = []
    "Everything that the user must know, worst first."
    assumptions: list[Assumption] = []
    "Defaults that the answer leans on, those that could change the verdict first."
    cases: list[CaseResult] = []
    "What was worked out, case by case."
    spare: list[SpareLoad] | UnsetType = UNSET
    "The load that may still be added, at each free receptacle."
    highest_welds: list[HighestWeld] | UnsetType = UNSET
    "For each welder and case the highest setting that holds."
    largest_motors: list[LargestMotor] | UnsetType = UNSET
    "Largest motor that still starts, for each free receptacle."
    longest_cords: list[LongestCord] | UnsetType = UNSET
    "The longest each cord may be."
    faults: list[FaultFigure] | UnsetType = UNSET
    "Figures of a dead short at the end of each cord."
    shift: ShiftUse | UnsetType = UNSET
    "Overload and trips over a shift."
    largest_sets: list[LargestSet] | UnsetType = UNSET
    "Sets of tools that run together and cannot be added to."
    start_orders: list[StartOrder] | UnsetType = UNSET
    "The best order of starting for each case."
    trip_curves: list[TripCurve] | UnsetType = UNSET
    "When the device of each circuit opens, from cold."
    not_assessed: list[str] = []
    "What is not looked at; it keeps the verdict from being better than `unknown`."
    basis: list[Basis] = []
    "Clauses, tables and practices that the answer leans on, each told once."
    used_entries: list[UsedEntry] = []
    "Catalogue documents that the answer used, with their revisions."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class NewSourceUnit(Struct, kw_only=True):
    """A source unit that is new to the catalogue; its key is its fleet id in small letters."""

    why: str
    by: str | UnsetType = UNSET
    status: WrittenStatus | UnsetType = UNSET
    document: SourceUnit
    entry: str
    "Key of the catalogue entry."


class NewSourceUnitRevision(Struct, kw_only=True):
    """A new revision of a source unit."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: SourceUnit
    "The document that is stored."


PowerSourceDocument: TypeAlias = VehicleDocument | EngineGeneratorDocument | BatteryStationDocument | SiteSupplyDocument


class PowerSourceRevision(Answer, kw_only=True):
    """One revision of a power source."""

    entry: str
    "Key of the catalogue entry."
    revision: int
    "Revision of the entry, from 1."
    status: EntryStatus
    "Where the revision stands: a draft is in no release, an approved one may be in the next, a withdrawn one is not to be relied on."
    why: str
    "The reason, in words."
    created_by: str
    "Who made it."
    created_at: str
    "Time in UTC, RFC 3339."
    digest: str
    "Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits."
    withdrawals: list[WithdrawalNote] = []
    "Withdrawals of the revision, newest last; empty while it may be relied on."
    document: PowerSourceDocument
    "The document that is stored."


class SourceComparisonAnswer(Answer, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    rows: list[SourceComparisonRow]
    rows_in_all: int
    computed: int
    weights: UsedWeights
    "How much each criterion counts against the others."
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    request_digest: str


SourceComparisonLine: TypeAlias = SourceComparisonHead | SourceComparisonRow | MatrixProgress | MatrixEnd
AnySource: TypeAlias = Vehicle | EngineGenerator | BatteryStation | SiteSupply | CatalogueSource


class ComparedSource(Struct, kw_only=True):
    """A source with what only a comparison asks: its mass, its noise, and what having it costs a day."""

    id: str
    source: AnySource
    charge: str | UnsetType = UNSET
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: str | UnsetType = UNSET
    mass: str | UnsetType = UNSET
    "Mass of the source."
    noise: str | UnsetType = UNSET
    "Noise of the source, at a distance that is the same for all."
    hire: str | UnsetType = UNSET
    "What having the source costs a day, without energy."


class CordSizingRequest(Struct, kw_only=True):
    """A source, one tool, and what is known of the way between them."""

    source: AnySource
    "The power source, inline, from the catalogue, or a unit of the fleet."
    tool: ToolInUse
    "The tool that is to be fed, inline or from the catalogue."
    distance: str | UnsetType = UNSET
    "Length of the way from the receptacle to the tool."
    receptacle: str | UnsetType = UNSET
    "Id of the receptacle to start from."
    cords: list[CordCandidate] | UnsetType = UNSET
    "Cords at hand."
    run: list[str] | UnsetType = UNSET
    "Ids of cords of the list, from the receptacle outward: the run that is asked about."
    sizes: list[str] | UnsetType = UNSET
    "Conductor sizes to look at."
    new_cord: CordToBring | UnsetType = UNSET
    "What is settled of the cord to be brought, beside its size and length."
    conditions: Conditions | UnsetType = UNSET
    "Where and in what weather the work is done."
    code_basis: list[CodeBasis] | UnsetType = UNSET
    "Layers of rules to hold the site against; none where left out."
    catalogue_release: int | UnsetType = UNSET
    "The release by which references are resolved."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now."


class EnergyBudgetRequest(Struct, kw_only=True):
    """A load check's request with the energy that there is, the day that it must last for, and the way home."""

    source: AnySource
    "The power source."
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    "Id of the kit."
    connections: list[Connection] | UnsetType = UNSET
    "Connections of a load check; an energy budget does not look at them, and they may stand."
    people: int | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    "Cases of a load check; an energy budget does not look at them, and they may stand."
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    shift: str | UnsetType = UNSET
    "Time at work; of a band the longest counts."
    charge: str | UnsetType = UNSET
    "How full the battery is at the start of the day."
    battery: BatteryConditions | UnsetType = UNSET
    "State of the battery beside its charge."
    fuel: FuelConditions | UnsetType = UNSET
    "The fuel that an engine has and burns."
    allowance: str | UnsetType = UNSET
    "Energy that may be taken from the source in all."
    pattern: Pattern | UnsetType = UNSET
    duties: list[ToolDuty] | UnsetType = UNSET
    work: list[WorkAmount] | UnsetType = UNSET
    stops: list[DayStop] | UnsetType = UNSET
    way_home: WayHome | UnsetType = UNSET
    solar: list[str] | UnsetType = UNSET
    "Mean power of each hour from the start of the day."
    observations: list[WorkObservation] | UnsetType = UNSET
    "What work of before took, by which the usual figures are corrected."
    electricity_price: str | UnsetType = UNSET
    fuel_price: str | UnsetType = UNSET
    carbon: str | UnsetType = UNSET
    seed: int | UnsetType = UNSET
    "Seed of the draws; 1 where left out."
    draws: int | UnsetType = UNSET
    "Draws; 4000 where left out."


class LoadCheckRequest(Struct, kw_only=True):
    """A source, what is plugged into what through which cords, how many people, and which cases run."""

    source: AnySource
    "The power source, inline, from the catalogue, or a unit of the fleet."
    tools: list[ToolInUse] | UnsetType = UNSET
    "The tools, each with what is known of it."
    cords: list[CordInUse] | UnsetType = UNSET
    "The cords, each with what is known of it."
    kit: KitInUse | UnsetType = UNSET
    "A kit of the catalogue; its tools and cords stand beside those of the request."
    connections: list[Connection] | UnsetType = UNSET
    "What is plugged into what, from the tools to the outlets of the source."
    people: int | UnsetType = UNSET
    "How many people work."
    cases: list[Case] | UnsetType = UNSET
    "Which tools run together."
    conditions: Conditions | UnsetType = UNSET
    "Where and in what weather the work is done."
    code_basis: list[CodeBasis] | UnsetType = UNSET
    "Layers of rules to hold the site against; none where left out."
    catalogue_release: int | UnsetType = UNSET
    "The release by which references are resolved."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now."
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    "Parts of the answer that are worked out only when asked for: the smallest change that flips each finding, the load that may still be added, the highest weld, the largest motor that starts and the longest cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the largest sets of tools that run together, and the best order of starting; overload and trips over a shift; trip curves."
    shift: str | UnsetType = UNSET
    "Length of a shift, for `include` with `shift`; eight hours where left out."


class MatrixSource(Struct, kw_only=True):
    """A source by inline document, catalogue entry or fleet unit, and what is in it this morning."""

    id: str
    "Id of the source; jobs and rows name it."
    source: AnySource
    "The power source."
    charge: str | UnsetType = UNSET
    "How full the battery is at the start of the day."
    battery: BatteryConditions | UnsetType = UNSET
    "State of the battery beside its charge."
    fuel: FuelConditions | UnsetType = UNSET
    "The fuel that an engine has and burns."
    allowance: str | UnsetType = UNSET
    "Energy that may be taken from the source in all, as where the rest must stay for the drive."


class NewPowerSource(Struct, kw_only=True):
    """A power source that is new to the catalogue."""

    why: str
    by: str | UnsetType = UNSET
    status: WrittenStatus | UnsetType = UNSET
    document: PowerSourceDocument
    entry: str
    "Key of the catalogue entry."


class NewPowerSourceRevision(Struct, kw_only=True):
    """A new revision of a power source."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: PowerSourceDocument
    "The document that is stored."


class OutletPlanRequest(Struct, kw_only=True):
    """A load check's request without connections: `cords` are the spare cords, `cases` the sets that must hold (else
    all that the people can run)."""

    source: AnySource
    "The power source."
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    "Spare cords that the plan may use."
    kit: KitInUse | UnsetType = UNSET
    "Id of the kit."
    connections: list[Connection] | UnsetType = UNSET
    "Connections that are settled already; a plan is made without any."
    people: int | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    "Sets of tools that must hold."
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    shift: str | UnsetType = UNSET
    "How long the work goes on."
    positions: list[WorkPosition] | UnsetType = UNSET
    "Places where tools are used, and how far they are from the outlets."
    wishes: list[ToolWish] | UnsetType = UNSET
    "What is settled of single tools before planning."
    groups: list[ToolGroup] | UnsetType = UNSET
    "Tools that must be able to run together: all of a group are on, or none."
    plans: int | UnsetType = UNSET
    "How many plans are wanted; 3 where left out."


class PlanCheck(Struct, kw_only=True):
    """The load check of the plan: post `request` to /v1/load-checks for all of it; the digest is that answer's.

    `findings` are those that are no mere info, worst first; their pointers lead into `request`."""

    verdict: Verdicts
    question: Assumption | UnsetType = UNSET
    crew_card: list[CrewLine] = []
    findings: list[Finding] = []
    not_assessed: list[str] = []
    request: LoadCheckRequest
    request_digest: str


class SafetySource(Struct, kw_only=True):
    """A source by inline document, catalogue entry or fleet unit, and where it will run, if that is known."""

    id: str
    "Id of the source; lines and errors name it."
    source: AnySource
    "The power source."
    place: Place | UnsetType = UNSET
    "What kind of place it runs in; decides what exhaust gas means."


class SourceComparisonRequest(Struct, kw_only=True):
    """Sources, kits and jobs."""

    sources: list[ComparedSource]
    "The sources that are compared."
    kits: list[MatrixKit]
    jobs: list[ComparedJob] | UnsetType = UNSET
    weights: ComparisonWeights | UnsetType = UNSET
    "How much each criterion counts against the others."
    rows: RowRange | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    include: list[SourceComparisonRequestInclude] | UnsetType = UNSET


class StopDiagnosisRequest(Struct, kw_only=True):
    """A load check's request, and what was seen when it stopped."""

    source: AnySource
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    "Cases of a load check; a diagnosis does not look at them, and they may stand."
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    shift: str | UnsetType = UNSET
    "How long the work goes on."
    stopped: Stop
    "What ran when power went, and what was seen then."


class VerdictChangesRequest(Struct, kw_only=True):
    """Kits, sources and jobs as for a kit validation, and the two releases between which they are compared."""

    from_release: int
    "Number of the older release."
    to_release: int
    "Number of the newer release."
    sources: list[MatrixSource]
    "The sources that are looked at."
    kits: list[MatrixKit]
    "The kits of tools and cords."
    jobs: list[MatrixJob] | UnsetType = UNSET
    "What is to be done, each with its conditions."
    rows: RowRange | UnsetType = UNSET
    "Which of the rows are wanted."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now."


class EnergyBudgetBatchRequest(Struct, kw_only=True):
    """One budget that is common to all, and how each scenario differs from it."""

    budget: EnergyBudgetRequest
    "The energy budget that all scenarios have in common."
    scenarios: list[EnergyScenario]
    "The scenarios, each with what it changes."


class KitValidationRequest(Struct, kw_only=True):
    """Kits, the sources in the yard, and the jobs."""

    sources: list[MatrixSource]
    "The sources in the yard."
    kits: list[MatrixKit]
    "The kits of tools and cords."
    jobs: list[MatrixJob] | UnsetType = UNSET
    "What is to be done, each with its conditions."
    rows: RowRange | UnsetType = UNSET
    "Which of the rows are wanted."
    catalogue_release: int | UnsetType = UNSET
    "The release by which references are resolved."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now."
    include: list[str] | UnsetType = UNSET
    "`requests`: each row holds the load check, and the energy budget, that can be posted alone."


class OutletPlan(Struct, kw_only=True):
    """One plan. `connections` is what a load check takes. `gap_ratio` is how much better the best could be in what is
    on, or where that is equal in what it costs; `proven_optimal` says that nothing is."""

    connections: list[Connection]
    tools: list[PlannedTool]
    stays_off: list[str] = []
    circuits: list[PlannedCircuit] = []
    cords_used: int
    joints: int
    gap_ratio: float
    proven_optimal: bool
    load_check: PlanCheck


class OutletPlanAnswer(Answer, kw_only=True):
    """Plans, best first."""

    outcome: str
    "How far the plan goes: `all_on`, `some_stay_off` or `nothing_fits`."
    verdict: Verdicts | UnsetType = UNSET
    "Verdicts of the first plan's load check."
    plans: list[OutletPlan] = []
    "Plans of how to plug in, best first."
    leave_out: list[ToolLeftOff] = []
    "What stays off in the first plan, most wanted first; empty where all is on."
    conflicts: list[PlanConflict] = []
    "Sets of tools that cannot all be on at once, and why."
    questions: list[PlanQuestionOpen] = []
    "What to find out first because it could let more be on."
    tried: list[TriedPlan] = []
    "Plans that their own load check did not let stand."
    assumptions: list[Assumption] = []
    "Defaults that the answer leans on, those that could change the verdict first."
    method: PlanMethod
    "How the plans were found."
    used_entries: list[UsedEntry] = []
    "Catalogue documents that the answer used, with their revisions."
    notice: str
    "That this informs a qualified person and is no permission to energise: show it beside the answer."
    engine_version: str
    "Version of the engine and its tables."
    catalogue_release: int | UnsetType = UNSET
    "Number of the catalogue release that references were resolved by."
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    "Refer to the answer by it: over the request in canonical form, `sha256:` and 64 hexadecimal digits."


class SafetyListRequest(Struct, kw_only=True):
    """Sources and kits to look at, every kit on every source."""

    sources: list[SafetySource] | UnsetType = UNSET
    "The sources to look at."
    kits: list[MatrixKit] | UnsetType = UNSET
    "The kits to look at."
    code_basis: list[CodeBasis] | UnsetType = UNSET
    "Layers of rules to hold the site against; none where left out."
    catalogue_release: int | UnsetType = UNSET
    "The release by which references are resolved."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now."
