# Made by client/generator/generate.py from the contract with SHA-256 b9564bf4eaeacf3a3270df50178934af55efa2d0e714960e873d184042bf59f3. Do not edit.
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
    NeutralBond,
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
    scopes: list[str]
    note: str
    created_at: str
    "Time in UTC, RFC 3339."
    created_by: str
    expires_at: str | UnsetType = UNSET
    "Time in UTC, RFC 3339."
    revoked_at: str | UnsetType = UNSET
    "Time in UTC, RFC 3339."
    revoked_by: str | UnsetType = UNSET


class AfterTripEstimates(Struct, kw_only=True):
    """Where all is at its easiest, as usual, and at its hardest."""

    low: str
    "A word of /v1/reference/words, `after_trip_...`."
    typical: str
    "A word of /v1/reference/words, `after_trip_...`."
    high: str
    "A word of /v1/reference/words, `after_trip_...`."


class AskedByRow(Struct, kw_only=True):
    """What one document asks by one rule, in our own words, and the layers of `code_basis` for which it speaks.

    `countries` are ISO 3166 codes, empty where the layer names no country."""

    rule: str
    "Stable key or code."
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
    "Stable key or code."
    why: str
    how_to_find_out: str
    basis: str | UnsetType = UNSET


class AuditRow(Struct, kw_only=True):
    """One act. `subject` is `tool-profile/circular-saw-185mm/r3`, `release/7`, `key/3fa9...` or `import`."""

    number: int
    at: str
    "Time in UTC, RFC 3339."
    who: str
    action: str
    subject: str
    detail: str


class Availability(Struct, kw_only=True):
    """A state in which the source gives no power, or keeps giving it."""

    when: SourceState
    at: str | UnsetType = UNSET
    "The threshold: a share of charge in percent, or a power."
    works: bool


class Basis(Struct, kw_only=True):
    """A clause, a table, or common practice that the answer leans on."""

    id: str
    document: str
    place: str | UnsetType = UNSET
    edition: str | UnsetType = UNSET
    status: str


class BatteryConditions(Struct, kw_only=True):
    """The state of a battery beside its charge. `cells` is the temperature inside; `stops_at` where outlets go off."""

    chemistry: Chemistry | UnsetType = UNSET
    health: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    age_years: float | UnsetType = UNSET
    cells: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    stops_at: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    efficiency: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."


class BudgetMethod(Struct, kw_only=True):
    """`certain`: no band; `one_figure`: exact percentiles of one uncertain figure; `monte_carlo`: draws of a seed."""

    method: str
    seed: int
    draws: int
    energy_conserved: bool
    "The balance of every draw closes to 1e-9."


class Case(Struct, kw_only=True):
    """What runs together, and in which order it is started."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    running: list[str]
    start_order: list[str] | UnsetType = UNSET


class CaseUse(Struct, kw_only=True):
    """How long one case runs in a month."""

    case: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    per_month: str
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class CatalogueImport(Struct, kw_only=True):
    """An export to be brought in, all of it or nothing."""

    ndjson: str
    "The lines of GET /v1/catalogue-export, unchanged."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."


class CatalogueImported(Answer, kw_only=True):
    """What an import held, and what of it was new here; sent twice, nothing is."""

    revisions: int
    releases: int
    withdrawals: int
    new_revisions: int
    new_releases: int
    new_withdrawals: int


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
    "Stable key or code."
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
    "Stable key or code."
    document: str
    edition: str
    place: str
    asks: str
    status: str


class ComparisonWeights(Struct, kw_only=True):
    """How much each criterion counts against the others among sources of one verdict; 0 leaves it out. The default is
    1 for each.

    `spare_a`: amperes left on the tightest circuit at the high estimate. `start_outcome`: how sure the least sure start
    is. `independent_circuits`: circuits known to be separate. `restart_hazards`: findings about power coming back.
    `hours_failing`: of the stated use. `reserve_reached_ratio`: days on which the energy reserve is reached.
    `cost_per_day`: hire and energy, in one currency. `mass_kg`, `noise_db`. `exhaust`: whether it has any.
    `extra_gear`: things to bring."""

    spare_a: float | UnsetType = UNSET
    start_outcome: float | UnsetType = UNSET
    independent_circuits: float | UnsetType = UNSET
    restart_hazards: float | UnsetType = UNSET
    hours_failing: float | UnsetType = UNSET
    reserve_reached_ratio: float | UnsetType = UNSET
    cost_per_day: float | UnsetType = UNSET
    mass_kg: float | UnsetType = UNSET
    noise_db: float | UnsetType = UNSET
    exhaust: float | UnsetType = UNSET
    extra_gear: float | UnsetType = UNSET


class CompressedAir(Struct, kw_only=True):
    """Plate of a compressor, and the air that is asked of it: a flow, or nails."""

    tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    cut_in: str | UnsetType = UNSET
    "Pressure above the air around with its unit (bar, psi, kPa): one value, `low..high` or `low..typical..high`."
    cut_out: str | UnsetType = UNSET
    "Pressure above the air around with its unit (bar, psi, kPa): one value, `low..high` or `low..typical..high`."
    delivery: str | UnsetType = UNSET
    "Flow, of air at the pressure around with its unit (l/min, m3/h, cfm, gal_us/min): one value, `low..high` or `low..typical..high`."
    use: str | UnsetType = UNSET
    "Flow, of air at the pressure around with its unit (l/min, m3/h, cfm, gal_us/min): one value, `low..high` or `low..typical..high`."
    nails: str | UnsetType = UNSET
    "How often with its unit (/min, /h): one value, `low..high` or `low..typical..high`."


class Conditions(Struct, kw_only=True):
    """Where and in what weather."""

    place: Place | UnsetType = UNSET
    wet: bool | UnsetType = UNSET
    ambient: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    fixed_wiring: FixedWiring | UnsetType = UNSET
    "Whether the source also feeds the wiring of a building, and through what."


class Connection(Struct, kw_only=True):
    """What is plugged into what: `plug` is a tool or cord, `into` a receptacle or cord."""

    plug: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    into: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    leg: LegName | UnsetType = UNSET
    "Leg of an outlet where a cord carries several."


class CordOutlets(Struct, kw_only=True):
    """The far end of a cord: how many outlets of which type."""

    type: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    rating: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    count: int | UnsetType = UNSET
    "How many."
    state: EndState | UnsetType = UNSET


class CordToBring(Struct, kw_only=True):
    """What is settled of the cord to be brought, beside its size and length; all may be omitted."""

    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    marked: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    plug: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    outlet: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    laid: CordLay | UnsetType = UNSET
    drum_layers: int | UnsetType = UNSET


class CrewLine(Struct, kw_only=True):
    """One line of the crew card; `code` is stable, `text` is made from it."""

    code: str
    text: str


class DayStop(Struct, kw_only=True):
    """A place of work: the drive to it, the time there, the tools in use, and a socket that recharges meanwhile."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    distance: str | UnsetType = UNSET
    "Distance on the road with its unit (km, mi, m): one value, `low..high` or `low..typical..high`."
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    running: list[str] | UnsetType = UNSET
    recharge: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    """Run-up of a permanent-magnet motor by its electronics: a ramp of power to a peak, and no surge.

    `peak` is the current at the end of the ramp, `lasts` how long it takes."""

    corrected: bool | UnsetType = UNSET
    peak: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    """The last line. A stream without it was cut off. `failed` rows have errors."""

    rows: int
    failed: int


class EnergyBatchHead(Struct, kw_only=True, tag_field="kind", tag="head"):
    """The first line: what all rows rest on."""

    scenarios: int
    notice: str
    engine_version: str
    request_digest: str


class EnergyBatchProgress(Struct, kw_only=True, tag_field="kind", tag="progress"):
    """Nothing is wrong, rows only take long. `rows` have been made."""

    rows: int


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
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."


class Estimates(Struct, kw_only=True):
    """Low, typical and high by number."""

    low: float
    typical: float
    high: float


class FaultCodeRow(Struct, kw_only=True):
    """One kind of fault in a request."""

    code: str
    "Stable key or code."
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
    layers that were asked for. `basis` names the tables behind its limit, keys of `/v1/reference/citations`."""

    code: str
    "Stable key or code."
    meaning: str
    severity: str
    aspect: str
    text: str
    what_to_do: str
    grounds: str
    "rules, tables or practice; `/v1/reference/words` explains each."
    asked_by: list[AskedByRow] = []
    verdict: str
    "What it makes of its aspect where no figure decides."
    figure: str | UnsetType = UNSET
    basis: list[str] = []


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
    welds_s_in_ten_minutes: float | UnsetType = UNSET
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
    code_letter: str | UnsetType = UNSET
    "NEMA code letter."
    locked_rotor: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    against: StartsAgainst | UnsetType = UNSET
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class KitAdapter(Struct, kw_only=True):
    """An adapter in the kit. It is counted, never advised."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    plug: str
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    receptacle: str
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    count: int | UnsetType = UNSET
    "How many."


class KitInUse(Struct, kw_only=True):
    """A kit of the catalogue; it expands to its ids, `x-1`, `x-2` by count."""

    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."


class KitItem(Struct, kw_only=True):
    """One line of a kit: so many of this entry, under this id."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    count: int | UnsetType = UNSET
    "How many."


class KitValidationHead(Struct, kw_only=True, tag_field="kind", tag="head"):
    """The first line: what all rows rest on, and which rows follow."""

    rows_in_all: int
    begin: int
    end: int
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
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
    """Tools that run together and to which none can be added; `method` is exact, or heuristic above 12 tools."""

    tools: list[str]
    verdict: Verdict
    method: str


class Leg(Struct, kw_only=True):
    """One line conductor of the supply. Two legs can be opposite, at 120 degrees, or in phase."""

    id: LegName
    angle: str
    "Angle with its unit (deg): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class LegResult(Struct, kw_only=True):
    leg: str
    current_a: FigureBand
    voltage_v: FigureBand


class LimitResult(Struct, kw_only=True):
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

    status: str = "alive"


class LoadClassRow(Struct, kw_only=True):
    """What is assumed of a kind of load whose plate is all that is known; ratios are of the plate's power."""

    load_class: str
    says: str
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
    """A named running condition. `working` and `heavy` are what verdicts are made of."""

    id: LoadStateName
    power: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    power_factor: float | UnsetType = UNSET
    crest_factor: float | UnsetType = UNSET
    "Peak over RMS of the current; 1.414 for a sine."
    follows_voltage: FollowsVoltage | UnsetType = UNSET
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class LongestCord(Struct, kw_only=True):
    """The longest that a cord may be before a case gets worse, and the finding that a longer one would bring.

    Without `limited_by` it is the longest that was looked at, 1,000 ft."""

    cord: str
    length_m: float
    limited_by: str | UnsetType = UNSET


class MadeAccessKey(Answer, kw_only=True):
    """A key that was just made. `text` is shown this once; nobody can read it again."""

    key: AccessKeyRow
    text: str
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
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    at: str | UnsetType = UNSET
    "Voltage with its unit (V): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    sha256: str
    "SHA-256 in hexadecimal."


class MissingThing(Struct, kw_only=True):
    """One thing to bring: its kind, in words, how many, why, and the finding behind it."""

    item: str
    says: str
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
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    expires_at: str | UnsetType = UNSET
    "When it ends by itself (RFC 3339)."


class NewWithdrawal(Struct, kw_only=True):
    """Withdraw one revision, or, without `revision`, every revision that the entry has now."""

    reason: str
    "Why nobody should rely on it."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."


class Observation(Struct, kw_only=True):
    """What somebody saw a source unit do. Stored and shown beside answers; no figure is ever raised by it."""

    on_date: str
    "Day."
    what: What
    "What the unit did."
    receptacle: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    power: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    voltage: str | UnsetType = UNSET
    "Voltage with its unit (V): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    lasted: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    instrument: str | UnsetType = UNSET
    "Plain text in one line."
    note: str | UnsetType = UNSET
    "Plain text in one line."
    by: str | UnsetType = UNSET
    "Plain text in one line."


class OtherSource(Struct, kw_only=True):
    """Another source of the request on which the same kit does better at the same job."""

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
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    start: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    target: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    charger: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    chargers: int | UnsetType = UNSET


class Percentiles(Struct, kw_only=True):
    """10th, 50th and 90th percentile by number, in the unit of the member's name."""

    p10: float
    p50: float
    p90: float


class PlanConflict(Struct, kw_only=True):
    """Tools that cannot all be on; without tools, nothing can. `because` holds codes of findings and of plans.

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
    "Receptacles that a plug goes into."


class PluggedIn(Struct, kw_only=True):
    """What is plugged into what; it can be sent as a connection."""

    plug: str
    into: str
    leg: LegName | UnsetType = UNSET


class ProblemCodeRow(Struct, kw_only=True):
    """One type of problem details; `type` is the address of its page."""

    code: str
    "Stable key or code."
    type: str
    title: str
    status: int
    meaning: str
    what_to_do: str


class ProblemFault(Struct, kw_only=True):
    """One thing that is wrong with a request."""

    code: str
    "Stable code of the fault; branch on this, never on the text."
    message: str
    "What is wrong and what would be right, for a person."
    pointer: str | UnsetType = UNSET
    "JSON Pointer (RFC 6901) into the body as sent, also to a member that is missing."
    parameter: str | UnsetType = UNSET
    "Name of the path, query or header parameter at fault, instead of a pointer."
    did_you_mean: str | UnsetType = UNSET
    "The nearest word that would have been accepted."


class ProblemTypePage(Answer, kw_only=True):
    """A type of problem, explained."""

    code: str
    "Last step of the problem's type address."
    type: str
    "Address of this page."
    title: str
    status: int
    meaning: str
    "When this problem arises."
    what_to_do: str
    "What a caller can do about it."


class Provenance(Struct, kw_only=True):
    """Where one figure of a document comes from, where that differs from the document's own origin."""

    pointer: str
    "JSON Pointer (RFC 6901)."
    origin: Origin
    note: str | UnsetType = UNSET
    "Plain text in one line."
    instrument: str | UnsetType = UNSET
    "Plain text in one line."
    on_date: str | UnsetType = UNSET
    "Day."


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
    "What was looked at, such as database or kernels."
    status: str = "ready"


class Receptacle(Struct, kw_only=True):
    """One outlet of the source. A circuit may be named here without being listed."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    type: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    marked: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    circuit: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    location: str | UnsetType = UNSET
    "Plain text in one line."
    ground_fault: GroundFault | UnsetType = UNSET


class ReceptacleResult(Struct, kw_only=True):
    receptacle: str
    current_a: FigureBand
    marked_a: float | UnsetType = UNSET
    voltage_v: FigureBand | UnsetType = UNSET


class RectifierStart(Struct, kw_only=True, tag_field="kind", tag="rectifier"):
    """Switch-on of a rectifier with a capacitor behind it."""

    corrected: bool | UnsetType = UNSET
    peak: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class Release(Answer, kw_only=True):
    """A numbered, immutable set of revisions; `digest` covers its members and their bytes."""

    number: int
    "Number of a catalogue release, from 1."
    digest: str
    member_count: int
    note: str
    made_by: str
    made_at: str
    "Time in UTC, RFC 3339."


class ReleaseDifferences(Answer, kw_only=True):
    """What changes from one release to another; `notes` are those of the releases after the old one, newest first."""

    old: int
    new: int
    notes: list[Release]
    added: list[MemberName]
    removed: list[MemberName]
    changed: list[ChangedMember]
    unchanged_count: int


class ReleaseMember(Struct, kw_only=True):
    """One revision in a release."""

    kind: EntryKind
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int
    "Revision of a catalogue entry, from 1."


class ReleasePage(Answer, kw_only=True):
    """Releases, newest first; go on with `next_before`, which the last page lacks."""

    items: list[Release]
    next_before: int | UnsetType = UNSET


class ReserveReached(Struct, kw_only=True):
    """`outcome`: holds, may_be_reached or reached; `reached_at_s` is of the days on which it is."""

    outcome: str
    reached_probability_ratio: float
    reached_at_s: Percentiles | UnsetType = UNSET


class Reset(Struct, kw_only=True):
    """How power comes back after a trip. Unknown counts as automatic for danger and as manual for lost work."""

    how: ResetMethod
    where: str | UnsetType = UNSET
    "Plain text in one line."
    by: str | UnsetType = UNSET
    "Plain text in one line."
    needs: str | UnsetType = UNSET
    "Plain text in one line."
    after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tries: int | UnsetType = UNSET


class ResistiveStart(Struct, kw_only=True, tag_field="kind", tag="resistive"):
    """Switch-on of a heater or a filament."""

    cold_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class RevisionDifferences(Answer, kw_only=True):
    """What a revision says that an older one does not, by pointer; and who wrote it, and why."""

    entry: str
    old: int
    new: int
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    items: list[DifferenceRow]


class RevisionRow(Struct, kw_only=True):
    """One revision in a list."""

    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."


class RowRange(Struct, kw_only=True):
    """Rows by number, from 0: `begin` is the first, `end` the first that is not wanted."""

    begin: int | UnsetType = UNSET
    end: int | UnsetType = UNSET


class RuleLayerRow(Struct, kw_only=True):
    """One layer of rules that `code_basis` may name."""

    key: str
    "Stable key or code."
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
    "Stable key or code."
    asks: str


class RunTime(Struct, kw_only=True):
    """How long one full tank lasts at a share of the rating, as a plate says."""

    load: str
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    lasts: str
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    """One step of RFC 6902 on the common budget. `value` is what the member of a budget takes."""

    op: ChangeOperation | UnsetType = UNSET
    path: str
    "JSON Pointer (RFC 6901)."
    value: Any | UnsetType = UNSET
    "What the member becomes."


class ScenarioFault(Struct, kw_only=True):
    """What is wrong with one scenario. `pointer` goes into the changed budget, or to the step that does not fit it."""

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
    says: str
    example: str


class SheetDescription(Struct, kw_only=True):
    """The columns of one kind of entry."""

    kind: EntryKind
    columns: list[SheetColumn]


class SheetImport(Struct, kw_only=True):
    """A spreadsheet to be brought in, all rows or none."""

    csv: str
    "CSV with a header row; GET /v1/catalogue-sheets lists the columns. Empty cells say nothing."
    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    dry_run: bool | UnsetType = UNSET
    "Tell every fault and what would be written, and write nothing."


class SheetImported(Answer, kw_only=True):
    """What the sheet holds, in numbers of entries; with faults, and in a dry run, nothing was written."""

    written: bool
    rows: int
    entries: int
    created: int
    revised: int
    unchanged: int
    faults: list[CellFault] = []


class SheetList(Answer, kw_only=True):
    """The sheets that there are."""

    items: list[SheetDescription]


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
    """The largest extra load at a free receptacle beside a case, and the finding that a larger one would bring."""

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
    "A name within its list: letters, digits, `-`, `_`, `.`."
    current: str
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class StopResult(Struct, kw_only=True):
    stop: str
    arrives_at_s: float
    leaves_at_s: float
    left_on_leaving_j: Percentiles
    must_be_left_j: float
    verdict: Verdict


class SupplementaryProtector(Struct, kw_only=True, tag_field="kind", tag="supplementary_protector"):
    """A thermal push-button protector; not a branch-circuit device."""

    rating: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    ambient: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    reset: Reset | UnsetType = UNSET
    standard: SupplementaryProtectorStandard | UnsetType = UNSET


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
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    lasts: str
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class ToolDuty(Struct, kw_only=True):
    """How much of the time a tool runs, as a share or by the air that is asked of it.

    `rated` is the duty cycle of its plate, as a welder has: how much of ten minutes it may run."""

    tool: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    running: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    air: CompressedAir | UnsetType = UNSET
    rated: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."


class ToolGroup(Struct, kw_only=True):
    """Tools that must be able to run at the same time: all of them are on, or none."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    tools: list[str]


class ToolLeftOff(Struct, kw_only=True):
    """What stays off in the first plan, most wanted first, and what it does not go together with."""

    tool: str
    priority: int
    because: list[str]
    with_tools: list[str] = []
    text: str
    what_to_do: str


class ToolWish(Struct, kw_only=True):
    """What is settled of one tool before planning. `into` keeps it at a receptacle or on a cord; `own_cord` is the
    length of the tool's own cord. A tool without a position may be used anywhere."""

    tool: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    position: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    priority: int | UnsetType = UNSET
    "1 is the last to stay off, 9 the first; 3 where left out."
    into: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    supply_option: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    own_cord: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    peak: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    lasts: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


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
    "Why it was withdrawn, where it was."
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
    """The last drive of the day, and what must be left after it. Wind, trailer and load count on every drive.

    `figure_of` says what the source's energy per distance is stated of: labels count from the wall, losses of charging
    included, a trip computer from the battery."""

    distance: str | UnsetType = UNSET
    "Distance on the road with its unit (km, mi, m): one value, `low..high` or `low..typical..high`."
    headwind: str | UnsetType = UNSET
    "Speed with its unit (m/s, km/h, mph): one value, `low..high` or `low..typical..high`."
    towing: bool | UnsetType = UNSET
    loaded: bool | UnsetType = UNSET
    arrive_with: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    figure_of: FigureOf | UnsetType = UNSET


class WayToPosition(Struct, kw_only=True):
    """How far it is from one receptacle, along the way that a cord would lie."""

    receptacle: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    distance: str
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class WithdrawalNote(Answer, kw_only=True):
    """That revisions were withdrawn, and why. Nothing is deleted; answers that use them say so."""

    entry: str
    first_revision: int
    last_revision: int
    reason: str
    by: str
    withdrawn_at: str
    "Time in UTC, RFC 3339."


class WordRow(Struct, kw_only=True):
    """One word and what it means."""

    code: str
    "Stable key or code."
    meaning: str


class WorkAmount(Struct, kw_only=True):
    """So many units of one kind of work. Where a tool does it, its duty follows from the work."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    unit: Unit
    "Kind of work."
    amount: float
    tool: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    energy_each: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    head: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    pack: PackCharging | UnsetType = UNSET
    stop: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."


class WorkDone(Struct, kw_only=True):
    """How much of a counted work is done before the reserve is reached, and the time that the people need for all."""

    work: str
    unit: str
    asked: float
    done: Percentiles
    done_ratio: Percentiles
    time_needed_s: Percentiles | UnsetType = UNSET


class WorkObservation(Struct, kw_only=True):
    """ "140 cuts took 9 %": so many units took a share of the battery or an amount of energy.

    `step` is the smallest step of the display; `over` how long the source was awake for it."""

    work: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    amount: float
    took: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    took_energy: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    step: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    over: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class WorkPosition(Struct, kw_only=True):
    """A place where tools are used. `distance` holds from every receptacle that `ways` does not name; without it, only
    the receptacles of `ways` are used for this place."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    distance: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    ways: list[WayToPosition] | UnsetType = UNSET


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


class AfterTripTool(Struct, kw_only=True):
    """A tool that lost its power: how its switch is left, and what the return means for it, worst first.

    `start` is there where it does not get going. The winding's temperature is of the estimates in which it stands
    still; 300 stands for that and more, where its insulation is gone."""

    tool: str
    switch: str
    "A word of /v1/reference/words, `after_trip_...`."
    means: list[str]
    start: str | UnsetType = UNSET
    "A word of /v1/reference/words, `after_trip_...`."
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


class AuditPage(Answer, kw_only=True):
    """Acts, newest first; go on with `next_before`, which the last page lacks."""

    items: list[AuditRow]
    next_before: int | UnsetType = UNSET


class BreakEven(Struct, kw_only=True):
    """The smallest change that flips a finding, and the verdict of its aspect then."""

    text: str
    then: Verdict
    change: list[Change] = []
    cases: list[str] = []


class Breaker(Struct, kw_only=True, tag_field="kind", tag="breaker"):
    """A thermal-magnetic circuit breaker."""

    rating: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    ambient: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    reset: Reset | UnsetType = UNSET
    standard: BreakerStandard | UnsetType = UNSET


class CapacityLimit(Struct, kw_only=True):
    """A limit in A, W or VA over a set of legs or circuits; limits may nest."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    over: list[str] | UnsetType = UNSET
    continuous: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tiers: list[Tier] | UnsetType = UNSET
    response: CapacityLimitResponse | UnsetType = UNSET
    peak: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    reset: Reset | UnsetType = UNSET


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
    circuit: str
    current_a: FigureBand
    rating_a: float | UnsetType = UNSET
    headroom_a: FigureBand | UnsetType = UNSET
    neutral_current_a: FigureBand | UnsetType = UNSET
    trip: TripFigure | UnsetType = UNSET


class CitationList(Answer, kw_only=True):
    """All citations, by key."""

    items: list[CitationRow]


class CordCandidate(Struct, kw_only=True):
    """A cord at hand: inline, or an entry of the catalogue with corrections beside it; `count` says how many alike."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    length: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    size: str | UnsetType = UNSET
    "Conductor size, a key of the tables of sizes: AWG or mm2."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    marked: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    plug: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    plug_state: EndState | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET
    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    entry: str | UnsetType = UNSET
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    laid: CordLay | UnsetType = UNSET
    drum_layers: int | UnsetType = UNSET
    led_through: LedThrough | UnsetType = UNSET
    "What the cord is led through or across: a door or window can close on it."
    count: int | UnsetType = UNSET
    "How many."


class CordDocument(Struct, kw_only=True):
    """A stored cord."""

    name: str
    "Plain text in one line."
    length: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    size: str | UnsetType = UNSET
    "Conductor size, a key of the tables of sizes: AWG or mm2."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    marked: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    plug: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    plug_state: EndState | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class CordInUse(Struct, kw_only=True):
    """A cord of this request: inline, or an entry of the catalogue with corrections beside it."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    length: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    size: str | UnsetType = UNSET
    "Conductor size, a key of the tables of sizes: AWG or mm2."
    conductors: int | UnsetType = UNSET
    "All conductors, earth included."
    type: str | UnsetType = UNSET
    "Cord type as printed on the jacket."
    insulation_temperature: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    marked: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    plug: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    plug_state: EndState | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET
    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    entry: str | UnsetType = UNSET
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    laid: CordLay | UnsetType = UNSET
    drum_layers: int | UnsetType = UNSET
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
    insulation_c: float
    drop_v: FigureBand
    copper_temperature_c: FigureBand


class CordResult(Struct, kw_only=True):
    cord: str
    current_a: FigureBand
    capacity_a: float | UnsetType = UNSET
    capacity_from: str | UnsetType = UNSET
    drop_v: FigureBand | UnsetType = UNSET
    copper_temperature_c: FigureBand | UnsetType = UNSET


class CordRevision(Answer, kw_only=True):
    """One revision of a cord."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."
    withdrawals: list[WithdrawalNote] = []
    document: CordDocument


class CostResult(Struct, kw_only=True):
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
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    ambient: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    reset: Reset | UnsetType = UNSET
    tiers: list[Tier] | UnsetType = UNSET
    response: ElectronicLimitResponse | UnsetType = UNSET


class EnergyCurvePoint(Struct, kw_only=True):
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
    "A name within its list: letters, digits, `-`, `_`, `.`."
    change: list[ScenarioChange] | UnsetType = UNSET


class EnergyUse(Struct, kw_only=True):
    """What eats how much: a tool, work, standby, the source itself, conversion, driving."""

    name: str
    kind: str
    energy_j: Percentiles
    share_ratio: float


class EntryPage(Answer, kw_only=True):
    """Entries in order of their slugs; go on with `next_cursor`, which the last page lacks."""

    items: list[EntryRow]
    next_cursor: str | UnsetType = UNSET


class FaultCodeList(Answer, kw_only=True):
    """All kinds of faults, by code."""

    items: list[FaultCodeRow]


class Finding(Struct, kw_only=True):
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


class FindingCodeList(Answer, kw_only=True):
    """All kinds of findings, by code."""

    items: list[FindingCodeRow]


class FuelConditions(Struct, kw_only=True):
    """What an engine burns, how much of it there is, and how high the place is."""

    kind: FuelConditionsKind | UnsetType = UNSET
    in_tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    run_times: list[RunTime] | UnsetType = UNSET
    altitude: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class FuelResult(Struct, kw_only=True):
    burnt_m3: Percentiles
    left_m3: Percentiles
    mean_load_ratio: float


class Fuse(Struct, kw_only=True, tag_field="kind", tag="fuse"):
    """A fuse; replacing it is the reset."""

    rating: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    ambient: str | UnsetType = UNSET
    "Temperature with its unit (degC, degF): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    reset: Reset | UnsetType = UNSET
    standard: FuseStandard | UnsetType = UNSET


class KitDocument(Struct, kw_only=True):
    """The tools, cords and adapters that a crew takes."""

    name: str
    "Plain text in one line."
    origin: Origin
    tools: list[KitItem] | UnsetType = UNSET
    cords: list[KitItem] | UnsetType = UNSET
    adapters: list[KitAdapter] | UnsetType = UNSET
    provenance: list[Provenance] | UnsetType = UNSET


class KitRevision(Answer, kw_only=True):
    """One revision of a kit."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."
    withdrawals: list[WithdrawalNote] = []
    document: KitDocument


class LoadClassList(Answer, kw_only=True):
    """All load classes, by name. Source: common practice, no source."""

    items: list[LoadClassRow]


class MatrixDay(Struct, kw_only=True):
    """The day that the energy must last for, as an energy budget takes it. Given, each cell has a budget too."""

    shift: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    pattern: Pattern | UnsetType = UNSET
    "What the crew does all day."
    duties: list[ToolDuty] | UnsetType = UNSET
    work: list[WorkAmount] | UnsetType = UNSET
    stops: list[DayStop] | UnsetType = UNSET
    way_home: WayHome | UnsetType = UNSET
    electricity_price: str | UnsetType = UNSET
    "Money for an amount: `0.32 EUR/kWh`, `1.85 EUR/l`, `3.60 USD/gal_us`; currency by ISO 4217."
    fuel_price: str | UnsetType = UNSET
    "Money for an amount: `0.32 EUR/kWh`, `1.85 EUR/l`, `3.60 USD/gal_us`; currency by ISO 4217."
    carbon: str | UnsetType = UNSET
    "CO2 for an amount: `0.35 kg/kWh` or `2.35 kg/l`."
    seed: int | UnsetType = UNSET
    draws: int | UnsetType = UNSET


class MatrixEnd(Struct, kw_only=True, tag_field="kind", tag="end"):
    """The last line: a stream without it was cut off. `next_place` is the row after the last one sent; `computed`
    cells were worked out, the others ask the same as one of them."""

    rows: int
    next_place: int
    computed: int
    counts: VerdictCounts


class MatrixJob(Struct, kw_only=True):
    """What is to be done: which cases run, how many work, where. `kits` and `sources` name those that are asked about,
    all where left out. `distance` is the way from the source to the work along which a cord would lie."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    kits: list[str] | UnsetType = UNSET
    sources: list[str] | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    distance: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    day: MatrixDay | UnsetType = UNSET


class MemberPage(Answer, kw_only=True):
    """Members of a release in its order; go on with `next_after`, which the last page lacks."""

    items: list[MemberRow]
    next_after: int | UnsetType = UNSET


class NewCord(Struct, kw_only=True):
    """A cord that is new to the catalogue."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: CordDocument
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."


class NewCordRevision(Struct, kw_only=True):
    """A new revision of a cord."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: CordDocument


class NewKit(Struct, kw_only=True):
    """A kit that is new to the catalogue."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: KitDocument
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."


class NewKitRevision(Struct, kw_only=True):
    """A new revision of a kit."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: KitDocument


class NewRelease(Struct, kw_only=True):
    """A release of the named members, or of the newest approved revision of every entry that is not withdrawn."""

    note: str
    "What this release is for."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    members: list[ReleaseMember] | UnsetType = UNSET


OvercurrentDevice: TypeAlias = Breaker | SupplementaryProtector | Fuse | ElectronicLimit


class PlugList(Answer, kw_only=True):
    """All configurations, in the order of their tables."""

    items: list[PlugRow]


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


class ProblemTypeList(Answer, kw_only=True):
    """All types of problem, sorted by status and code."""

    problem_types: list[ProblemTypePage]


class RankedCause(Struct, kw_only=True):
    """A cause at one place. `likelihood_ratio` ranks the causes looked at; it is no measurement.

    `values` in the unit of `figure`, against `limit`. `holds_with`: changes of this request after which it holds."""

    cause: str
    pointer: str
    likelihood_ratio: float
    text: str
    safe_checks: list[str]
    figure: str | UnsetType = UNSET
    values: Estimates | UnsetType = UNSET
    limit: float | UnsetType = UNSET
    holds_with: list[BreakEven] = []


class Readiness(Answer, kw_only=True):
    """The process can answer calculations."""

    checks: list[ReadinessCheck]
    status: str = "ready"


class RevisionPage(Answer, kw_only=True):
    """Revisions of an entry, newest first; go on with `next_before`, which the last page lacks."""

    items: list[RevisionRow]
    next_before: int | UnsetType = UNSET


class RuleLayer(Answer, kw_only=True):
    """A layer of rules with its clauses."""

    layer: RuleLayerRow
    clauses: list[ClauseRow]


class RuleLayerList(Answer, kw_only=True):
    """All layers of rules, and the questions that their clauses answer."""

    items: list[RuleLayerRow]
    rules: list[RuleRow]


class SafetyListAnswer(Answer, kw_only=True):
    """Dangers first. `answer_digest` is SHA-256 over lines, errors and basis: it proves which list was given."""

    lines: list[SafetyListLine]
    counts: list[SafetyCount]
    sources: int
    kits: int
    not_looked_at: list[SafetyListError] = []
    basis: list[Basis] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str
    answer_digest: str


class SingleChange(Struct, kw_only=True):
    """A change of the row's `load_check_request`, by RFC 6902, and the verdicts of the whole load check then."""

    text: str
    then: Verdicts
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
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class StandardTable(Answer, kw_only=True):
    """A table of a standard, as far as it is used here."""

    citation: CitationRow
    rows: list[TableRow]


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
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    extent: Extent | UnsetType = UNSET
    "What went off."
    returned: Returned | UnsetType = UNSET
    "How power came back."
    charge: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    readings: list[StopReading] | UnsetType = UNSET


class StopDiagnosisAnswer(Answer, kw_only=True):
    """Causes, most likely first. `verdict` is the load check of what ran; `findings` are catalogue documents that all
    of this rests on although they were withdrawn."""

    before_anything: str
    findings: list[Finding] = []
    causes: list[RankedCause] = []
    verdict: Verdicts
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class SupplyOption(Struct, kw_only=True):
    """One way to feed the tool, as its plate says; a dual-voltage tool has two."""

    id: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    phases: Phases | UnsetType = UNSET
    plug: str | UnsetType = UNSET
    "Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; GET /v1/reference/plugs lists them."
    current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    power: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    apparent_power: str | UnsetType = UNSET
    "Apparent power with its unit (VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    effective_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    output: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    load_states: list[LoadState] | UnsetType = UNSET
    start: Start | UnsetType = UNSET
    restart: Start | UnsetType = UNSET


class ToolInUse(Struct, kw_only=True):
    """A tool of this request: inline, or an entry of the catalogue with corrections beside it."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    load_class: LoadClass | UnsetType = UNSET
    "Kind of load; decides what is assumed where the plate is silent."
    shaft_power: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    supply_options: list[SupplyOption] | UnsetType = UNSET
    load_states: list[LoadState] | UnsetType = UNSET
    start: Start | UnsetType = UNSET
    restart: Start | UnsetType = UNSET
    switch: Switch | UnsetType = UNSET
    control: Control | UnsetType = UNSET
    restart_protection: bool | UnsetType = UNSET
    operated: Operated | UnsetType = UNSET
    lowest_voltage: str | UnsetType = UNSET
    "Voltage with its unit (V): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sensitivity: Sensitivity | UnsetType = UNSET
    leakage: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    insulation: Insulation | UnsetType = UNSET
    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    entry: str | UnsetType = UNSET
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    must_return: bool | UnsetType = UNSET
    follows: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    on: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    off: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class ToolProfile(Struct, kw_only=True):
    """A stored tool profile."""

    name: str
    "Plain text in one line."
    load_class: LoadClass | UnsetType = UNSET
    "Kind of load; decides what is assumed where the plate is silent."
    shaft_power: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    supply_options: list[SupplyOption] | UnsetType = UNSET
    load_states: list[LoadState] | UnsetType = UNSET
    start: Start | UnsetType = UNSET
    restart: Start | UnsetType = UNSET
    switch: Switch | UnsetType = UNSET
    control: Control | UnsetType = UNSET
    restart_protection: bool | UnsetType = UNSET
    operated: Operated | UnsetType = UNSET
    lowest_voltage: str | UnsetType = UNSET
    "Voltage with its unit (V): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sensitivity: Sensitivity | UnsetType = UNSET
    leakage: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    insulation: Insulation | UnsetType = UNSET
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class ToolProfileRevision(Answer, kw_only=True):
    """One revision of a tool profile."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."
    withdrawals: list[WithdrawalNote] = []
    document: ToolProfile


class ToolResult(Struct, kw_only=True):
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
    """The rows whose verdict changed, what got worse first; and how many did not."""

    changes: list[VerdictChange]
    unchanged: int
    rows_in_all: int
    from_release: int
    to_release: int
    notice: str
    engine_version: str
    request_digest: str


class WordListRow(Struct, kw_only=True):
    """The words that one member of an answer may have."""

    name: str
    "Stable key or code."
    words: list[WordRow]


class WordLists(Answer, kw_only=True):
    """All lists of words, by name."""

    items: list[WordListRow]


class AfterTrip(Struct, kw_only=True):
    """A device or limit that may open first in a case, on its mildest occasion, and what follows.

    `restart` is what becomes of all that comes back at once, `ending` how it ends, both by the typical estimate;
    `restarts` and `endings` are there where the estimates differ. What returns goes again after `holds_earliest_s` at
    the earliest and `holds_latest_s` at the latest; a time that does not exist is left out."""

    opens: str
    opener: str
    "A word of /v1/reference/words, `after_trip_...`."
    occasion: str
    "A word of /v1/reference/words, `after_trip_...`."
    place: str
    "A word of /v1/reference/words, `after_trip_...`."
    reset: TripReset
    restart: str
    "A word of /v1/reference/words, `after_trip_...`."
    ending: str
    "A word of /v1/reference/words, `after_trip_...`."
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
    "A name within its list: letters, digits, `-`, `_`, `.`."
    legs: list[LegName] | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Resistance with its unit (ohm, mohm): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    device: OvercurrentDevice | UnsetType = UNSET


class ComparedJob(Struct, kw_only=True):
    """A job with the use that its cases see: given, each row tells the hours a month that would fail."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    kits: list[str] | UnsetType = UNSET
    sources: list[str] | UnsetType = UNSET
    cases: list[Case] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    distance: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    day: MatrixDay | UnsetType = UNSET
    usage: list[CaseUse] | UnsetType = UNSET


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
    """The verdict is that of the run asked about, else of the first choice; `lines` hold for every candidate.

    Among `lines` is the start of the tool plugged straight into the receptacle: what no cord mends. `question` is the
    assumption whose answer settles the verdict, `hangs_on` those that settle it only together."""

    verdict: Verdicts
    question: str | UnsetType = UNSET
    hangs_on: list[str] = []
    choices: list[Choice] = []
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    lines: list[RuleLine] = []
    rows: list[CordRow] = []
    runs_left_out: int = 0
    not_assessed: list[str] = []
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class DimensionList(Answer, kw_only=True):
    """All kinds of figures, by name."""

    items: list[DimensionRow]


class EnergyBatchRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """Figures of one scenario, each the same as POST /v1/energy-budgets gives for it, or what is wrong with it.

    `place` counts from 0. `verdict` is of the energy and of all that is found beside it, as of a budget posted alone;
    where the energy fails and one assumption decides, it is `fail` here and `unknown` alone. `because` has the codes of
    the findings that keep it from passing, worst first. `left.enough` is of the energy only. `request_digest` is the
    digest of the scenario's own budget: posted alone, it has findings, the question that decides, and changes as well."""

    place: int
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
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str | UnsetType = UNSET


class EnergyBudgetAnswer(Answer, kw_only=True):
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
    done_ratio: Percentiles
    "What the loads are fed before the reserve is reached, over what they ask for."
    fuel: FuelResult | UnsetType = UNSET
    cost: CostResult | UnsetType = UNSET
    carbon_kg: Percentiles | UnsetType = UNSET
    posteriors: list[WorkPosterior] = []
    not_assessed: list[str] = []
    "What this answer does not look at; not in its verdict."
    method: BudgetMethod
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class EngineGenerator(Struct, kw_only=True, tag_field="kind", tag="engine_generator"):
    """An engine set; its technology decides what a start does to the voltage."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    starting: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    transient_reactance: str | UnsetType = UNSET
    "Per-unit value with its unit (pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class EngineGeneratorDocument(Struct, kw_only=True, tag_field="kind", tag="engine_generator"):
    """A stored engine generator."""

    name: str
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    starting: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    transient_reactance: str | UnsetType = UNSET
    "Per-unit value with its unit (pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class KitValidationRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """One kit on one source for one job; `id` is job/kit/source, `place` counts from 0 over all rows.

    `verdict` is the worst of the load check, the energy budget and what the kit lacks for the job. With `errors` there
    is no answer. `plugging` says whether `plugged` was stated, or planned for this cell."""

    place: int
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
    "A LoadCheckRequest that can be posted alone."
    energy_budget_request: Any | UnsetType = UNSET
    "An EnergyBudgetRequest that can be posted alone."
    errors: list[MatrixFault] = []


class MatrixKit(Struct, kw_only=True):
    """A kit by catalogue entry, inline, or both: a tool or cord with the id of one of the entry's corrects it.

    `connections` are taken where they are given; else a plan of how to plug in is made for each source, and told."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    entry: str | UnsetType = UNSET
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET


class NewToolProfile(Struct, kw_only=True):
    """A tool profile that is new to the catalogue."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: ToolProfile
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."


class NewToolProfileRevision(Struct, kw_only=True):
    """A new revision of a tool profile."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: ToolProfile


class SiteSupply(Struct, kw_only=True, tag_field="kind", tag="site_supply"):
    """A temporary supply from the network."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class SiteSupplyDocument(Struct, kw_only=True, tag_field="kind", tag="site_supply"):
    """A stored site supply."""

    name: str
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class SourceComparisonRow(Struct, kw_only=True, tag_field="kind", tag="row"):
    """One source for one kit at one job; `id` is job/kit/source, `place` counts from 0 over all rows.

    `rank` is among the sources of this kit at this job: by verdict, then by score; a failing source never stands before
    one that does not. `pareto`: no other source is at least as good by every criterion and better by one; else
    `beaten_by` names those that are."""

    place: int
    id: str
    job: str
    kit: str
    source: str
    verdict: Verdict | UnsetType = UNSET
    rank: int | UnsetType = UNSET
    score: float | UnsetType = UNSET
    pareto: bool | UnsetType = UNSET
    beaten_by: list[str] = []
    deciding: list[DecidingInput] = []
    "On the first source: what puts another first if a weight is 20 % or a figure 10 % off; empty where nothing does."
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
    "A LoadCheckRequest that can be posted alone."
    energy_budget_request: Any | UnsetType = UNSET
    "An EnergyBudgetRequest that can be posted alone."
    errors: list[MatrixFault] = []


class SourceCorrections(Struct, kw_only=True):
    """Members of any kind of source that correct a document, one by one; lists go by `id`."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str | UnsetType = UNSET
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    "Energy per distance with its unit (Wh/km, Wh/mi, kWh/100km, kWh/100mi): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    starting: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    transient_reactance: str | UnsetType = UNSET
    "Per-unit value with its unit (pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class SourceUnit(Struct, kw_only=True):
    """One vehicle, generator, station or supply of the fleet; its key is its fleet id.

    `entry` (with `revision`, else the release decides) is the kind of source that it is; `corrections` say where this
    one differs, as on a plate of its own or after a repair."""

    name: str
    "Plain text in one line."
    origin: Origin
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    corrections: SourceCorrections | UnsetType = UNSET
    observations: list[Observation] | UnsetType = UNSET
    provenance: list[Provenance] | UnsetType = UNSET


class SourceUnitRevision(Answer, kw_only=True):
    """One revision of a source unit."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."
    withdrawals: list[WithdrawalNote] = []
    document: SourceUnit


class Vehicle(Struct, kw_only=True, tag_field="kind", tag="vehicle"):
    """Outlets of an electric or hybrid work vehicle, fed by its inverter."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    "Energy per distance with its unit (Wh/km, Wh/mi, kWh/100km, kWh/100mi): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class VehicleDocument(Struct, kw_only=True, tag_field="kind", tag="vehicle"):
    """A stored vehicle."""

    name: str
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    "Energy per distance with its unit (Wh/km, Wh/mi, kWh/100km, kWh/100mi): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


class BatteryStation(Struct, kw_only=True, tag_field="kind", tag="battery_station"):
    """A portable battery with an inverter."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET


class BatteryStationDocument(Struct, kw_only=True, tag_field="kind", tag="battery_station"):
    """A stored battery station."""

    name: str
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET
    origin: Origin
    provenance: list[Provenance] | UnsetType = UNSET


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
    """A source of the catalogue, by its kind (`entry`), its fleet id (`unit`) or both; one of them is needed.

    A unit brings the kind that it is of, and its own corrections of it. What stands beside corrects both for this
    request."""

    name: str | UnsetType = UNSET
    "Plain text in one line."
    legs: list[Leg] | UnsetType = UNSET
    limits: list[CapacityLimit] | UnsetType = UNSET
    circuits: list[Circuit] | UnsetType = UNSET
    receptacles: list[Receptacle] | UnsetType = UNSET
    reset: Reset | UnsetType = UNSET
    waveform: Waveform | UnsetType = UNSET
    neutral_bond: NeutralBond | UnsetType = UNSET
    resistance: str | UnsetType = UNSET
    "Source resistance with its unit (ohm, mohm, pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    availability: list[Availability] | UnsetType = UNSET
    voltage: str | UnsetType = UNSET
    "Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs (`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current (`48 V DC`)."
    battery: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    awake_draw: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_below: str | UnsetType = UNSET
    "Power with its unit (W, kW, hp, metric_hp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    sleeps_after: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    wakes_on_load: bool | UnsetType = UNSET
    energy_per_distance: str | UnsetType = UNSET
    "Energy per distance with its unit (Wh/km, Wh/mi, kWh/100km, kWh/100mi): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    technology: Technology | UnsetType = UNSET
    running: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    starting: str | UnsetType = UNSET
    "Capacity with its unit (A, W, kW, VA, kVA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    transient_reactance: str | UnsetType = UNSET
    "Per-unit value with its unit (pu): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    tank: str | UnsetType = UNSET
    "Volume with its unit (l, gal_us, gal_imp): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    earthing: Earthing | UnsetType = UNSET
    fault_current: str | UnsetType = UNSET
    "Current with its unit (A, mA): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    entry: str | UnsetType = UNSET
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."
    revision: int | UnsetType = UNSET
    "Revision of a catalogue entry, from 1."
    unit: str | UnsetType = UNSET
    "Fleet id: the key of a source unit of the catalogue, in small or capital letters."


EnergyBatchLine: TypeAlias = EnergyBatchHead | EnergyBatchRow | EnergyBatchProgress | EnergyBatchEnd


class KitValidationAnswer(Answer, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    rows: list[KitValidationRow]
    rows_in_all: int
    computed: int
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


KitValidationLine: TypeAlias = KitValidationHead | KitValidationRow | MatrixProgress | MatrixEnd


class LoadCheckAnswer(Answer, kw_only=True):
    """Most important first: verdict, what to tell the crew, findings, assumptions, figures."""

    verdict: Verdicts
    question: str | UnsetType = UNSET
    crew_card: list[CrewLine] = []
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    cases: list[CaseResult] = []
    spare: list[SpareLoad] | UnsetType = UNSET
    highest_welds: list[HighestWeld] | UnsetType = UNSET
    largest_motors: list[LargestMotor] | UnsetType = UNSET
    longest_cords: list[LongestCord] | UnsetType = UNSET
    faults: list[FaultFigure] | UnsetType = UNSET
    shift: ShiftUse | UnsetType = UNSET
    largest_sets: list[LargestSet] | UnsetType = UNSET
    start_orders: list[StartOrder] | UnsetType = UNSET
    trip_curves: list[TripCurve] | UnsetType = UNSET
    not_assessed: list[str] = []
    basis: list[Basis] = []
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class NewSourceUnit(Struct, kw_only=True):
    """A source unit that is new to the catalogue; its key is its fleet id in small letters."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: SourceUnit
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."


class NewSourceUnitRevision(Struct, kw_only=True):
    """A new revision of a source unit."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: SourceUnit


PowerSourceDocument: TypeAlias = VehicleDocument | EngineGeneratorDocument | BatteryStationDocument | SiteSupplyDocument


class PowerSourceRevision(Answer, kw_only=True):
    """One revision of a power source."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    entered_by: str
    entered_at: str
    "Time in UTC, RFC 3339."
    sha256: str
    "SHA-256 in hexadecimal."
    withdrawals: list[WithdrawalNote] = []
    document: PowerSourceDocument


class SourceComparisonAnswer(Answer, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    rows: list[SourceComparisonRow]
    rows_in_all: int
    computed: int
    weights: UsedWeights
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


SourceComparisonLine: TypeAlias = SourceComparisonHead | SourceComparisonRow | MatrixProgress | MatrixEnd
AnySource: TypeAlias = Vehicle | EngineGenerator | BatteryStation | SiteSupply | CatalogueSource


class ComparedSource(Struct, kw_only=True):
    """A source with what only a comparison asks: its mass, its noise, and what having it costs a day."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    source: AnySource
    charge: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    mass: str | UnsetType = UNSET
    "Mass with its unit (kg, lb): one value, `low..high` or `low..typical..high`."
    noise: str | UnsetType = UNSET
    "A-weighted sound pressure at a distance that is the same for all sources compared, in dB."
    hire: str | UnsetType = UNSET
    "What having the source costs a day, without energy: `45 EUR/day`; currency by ISO 4217."


class CordSizingRequest(Struct, kw_only=True):
    """A source, one tool, and what is known of the way between them.

    `distance` alone asks which conductor to bring. `cords` beside it asks which of these to use. `run` names cords of
    the list from the receptacle outward and asks whether they are good enough. Without a distance each size, or each
    cord, tells how far it may go."""

    source: AnySource
    tool: ToolInUse
    distance: str | UnsetType = UNSET
    "Length with its unit (m, cm, ft, in, yd): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    receptacle: str | UnsetType = UNSET
    "A name within its list: letters, digits, `-`, `_`, `.`."
    cords: list[CordCandidate] | UnsetType = UNSET
    run: list[str] | UnsetType = UNSET
    sizes: list[str] | UnsetType = UNSET
    new_cord: CordToBring | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."


class EnergyBudgetRequest(Struct, kw_only=True):
    """A load check's request with the energy that there is, the day that it must last for, and the way home.

    `shift` is the time at work, of a band the longest. `cases` and `connections` say nothing here, and may stand."""

    source: AnySource
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    "How many people work."
    cases: list[Case] | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    "Parts of the answer that are worked out only when asked for: the smallest change that flips each finding, the load that may still be added, the highest weld, the largest motor that starts and the longest cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the largest sets of tools that run together, and the best order of starting; overload and trips over a shift; trip curves."
    shift: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    charge: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    pattern: Pattern | UnsetType = UNSET
    "What the crew does all day."
    duties: list[ToolDuty] | UnsetType = UNSET
    work: list[WorkAmount] | UnsetType = UNSET
    stops: list[DayStop] | UnsetType = UNSET
    way_home: WayHome | UnsetType = UNSET
    solar: list[str] | UnsetType = UNSET
    "Mean power of each hour from the start of the day."
    observations: list[WorkObservation] | UnsetType = UNSET
    electricity_price: str | UnsetType = UNSET
    "Money for an amount: `0.32 EUR/kWh`, `1.85 EUR/l`, `3.60 USD/gal_us`; currency by ISO 4217."
    fuel_price: str | UnsetType = UNSET
    "Money for an amount: `0.32 EUR/kWh`, `1.85 EUR/l`, `3.60 USD/gal_us`; currency by ISO 4217."
    carbon: str | UnsetType = UNSET
    "CO2 for an amount: `0.35 kg/kWh` or `2.35 kg/l`."
    seed: int | UnsetType = UNSET
    "Seed of the draws; 1 where left out."
    draws: int | UnsetType = UNSET
    "Draws; 4000 where left out."


class LoadCheckRequest(Struct, kw_only=True):
    """A source, what is plugged into what through which cords, how many people, and which cases run."""

    source: AnySource
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    "How many people work."
    cases: list[Case] | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    "Parts of the answer that are worked out only when asked for: the smallest change that flips each finding, the load that may still be added, the highest weld, the largest motor that starts and the longest cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the largest sets of tools that run together, and the best order of starting; overload and trips over a shift; trip curves."
    shift: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class MatrixSource(Struct, kw_only=True):
    """A source by inline document, catalogue entry or fleet unit, and what is in it this morning."""

    id: str
    "A name within its list: letters, digits, `-`, `_`, `.`."
    source: AnySource
    charge: str | UnsetType = UNSET
    "Share with its unit (%): one value, `low..high` or `low..typical..high`."
    battery: BatteryConditions | UnsetType = UNSET
    fuel: FuelConditions | UnsetType = UNSET
    allowance: str | UnsetType = UNSET
    "Energy with its unit (Wh, kWh, MJ): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."


class NewPowerSource(Struct, kw_only=True):
    """A power source that is new to the catalogue."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: PowerSourceDocument
    entry: str
    "Key of a catalogue entry: lower-case letters, digits, `-`, `.`."


class NewPowerSourceRevision(Struct, kw_only=True):
    """A new revision of a power source."""

    why: str
    "Why it was written, in one line."
    by: str | UnsetType = UNSET
    "Who wrote it. May be left out where an access key is shown; the key is noted down in any case."
    status: WrittenStatus | UnsetType = UNSET
    "A draft is in no release."
    document: PowerSourceDocument


class OutletPlanRequest(Struct, kw_only=True):
    """A load check's request without connections: `cords` are the spare cords, `cases` the sets that must hold (else
    all that the people can run). A plan is made of at most 40 tools, 20 receptacles and 40 cords."""

    source: AnySource
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    "How many people work."
    cases: list[Case] | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    "Parts of the answer that are worked out only when asked for: the smallest change that flips each finding, the load that may still be added, the highest weld, the largest motor that starts and the longest cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the largest sets of tools that run together, and the best order of starting; overload and trips over a shift; trip curves."
    shift: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    positions: list[WorkPosition] | UnsetType = UNSET
    wishes: list[ToolWish] | UnsetType = UNSET
    groups: list[ToolGroup] | UnsetType = UNSET
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
    "A name within its list: letters, digits, `-`, `_`, `.`."
    source: AnySource
    place: Place | UnsetType = UNSET


class SourceComparisonRequest(Struct, kw_only=True):
    """Sources, kits and jobs. Each kit at each job is asked for on each source, and the sources are put in order."""

    sources: list[ComparedSource]
    kits: list[MatrixKit]
    jobs: list[ComparedJob] | UnsetType = UNSET
    weights: ComparisonWeights | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
    include: list[SourceComparisonRequestInclude] | UnsetType = UNSET
    "`requests`: each row holds the load check, and the energy budget, that can be posted alone. `changes`: each failing row holds the cheapest single change of that load check which helps; for up to 200 rows a call."


class StopDiagnosisRequest(Struct, kw_only=True):
    """A load check's request, and what was seen when it stopped. Its `cases` are not looked at."""

    source: AnySource
    tools: list[ToolInUse] | UnsetType = UNSET
    cords: list[CordInUse] | UnsetType = UNSET
    kit: KitInUse | UnsetType = UNSET
    connections: list[Connection] | UnsetType = UNSET
    people: int | UnsetType = UNSET
    "How many people work."
    cases: list[Case] | UnsetType = UNSET
    conditions: Conditions | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
    include: list[EnergyBudgetRequestInclude] | UnsetType = UNSET
    "Parts of the answer that are worked out only when asked for: the smallest change that flips each finding, the load that may still be added, the highest weld, the largest motor that starts and the longest cords; the figures of a dead short at the end of each cord (whether it goes away is judged in any case); the largest sets of tools that run together, and the best order of starting; overload and trips over a shift; trip curves."
    shift: str | UnsetType = UNSET
    "Duration with its unit (s, ms, min, h): one value, `low..high`, `low..typical..high`, or `>=value` for a meter over its range."
    stopped: Stop


class VerdictChangesRequest(Struct, kw_only=True):
    """Kits, sources and jobs as for a kit validation, and the two releases between which they are compared."""

    from_release: int
    "Number of a catalogue release, from 1."
    to_release: int
    "Number of a catalogue release, from 1."
    sources: list[MatrixSource]
    kits: list[MatrixKit]
    jobs: list[MatrixJob] | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."


class EnergyBudgetBatchRequest(Struct, kw_only=True):
    """One budget that is common to all, and how each scenario differs from it."""

    budget: EnergyBudgetRequest
    scenarios: list[EnergyScenario]


class KitValidationRequest(Struct, kw_only=True):
    """Kits, the sources in the yard, and the jobs. Each job is asked for each of its kits on each of its sources.

    Without jobs: each tool alone, then all that one person can run. `rows` asks for some of the rows, by place."""

    sources: list[MatrixSource]
    kits: list[MatrixKit]
    jobs: list[MatrixJob] | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
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
    "Places where one cord is plugged into another."
    gap_ratio: float
    proven_optimal: bool
    load_check: PlanCheck


class OutletPlanAnswer(Answer, kw_only=True):
    """Plans, best first. `outcome` is all_on, some_stay_off or nothing_fits; `verdict` that of the first plan's load
    check. `conflicts` and `leave_out` say why something stays off, `questions` what could change that."""

    outcome: str
    verdict: Verdicts | UnsetType = UNSET
    plans: list[OutletPlan] = []
    leave_out: list[ToolLeftOff] = []
    conflicts: list[PlanConflict] = []
    questions: list[PlanQuestionOpen] = []
    tried: list[TriedPlan] = []
    assumptions: list[Assumption] = []
    method: PlanMethod
    used_entries: list[UsedEntry] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: str | UnsetType = UNSET
    "Time of the newest withdrawal that was known, 1970-01-01T00:00:00.000000Z where there was none."
    request_digest: str


class SafetyListRequest(Struct, kw_only=True):
    """Sources and kits to look at, every kit on every source.

    Left out: all source units of the catalogue release, its kinds of source where it has no units; and all its kits."""

    sources: list[SafetySource] | UnsetType = UNSET
    kits: list[MatrixKit] | UnsetType = UNSET
    code_basis: list[CodeBasis] | UnsetType = UNSET
    catalogue_release: int | UnsetType = UNSET
    "Number of a catalogue release, from 1."
    withdrawals_as_of: str | UnsetType = UNSET
    "Count only what was withdrawn by this time (RFC 3339); without it, all that is withdrawn now. With `catalogue_release` it gives the same answer for ever."
