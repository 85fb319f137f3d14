"""What does a caller post to /v1/kit-validations, and which rows come back?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

import msgspec
from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.load_checks import StatedAsOf, Verdict, WithdrawalsAsOf
from ampwright.contract.matrix_parts import (
    MOST_JOBS,
    MOST_KITS,
    MOST_SOURCES,
    CellAsks,
    CellEnergyBudget,
    CellFinding,
    CellLoadCheck,
    Counted,
    MatrixEnd,
    MatrixFault,
    MatrixJob,
    MatrixKit,
    MatrixProgress,
    MatrixSource,
    MissingThing,
    OtherSource,
    PluggedIn,
    RowRange,
    VerdictCounts,
    WouldInvalidate,
)
from ampwright.contract.parts import Answer, ReleaseNumber, Request

ValidationInclusion = Literal["requests"]


class KitValidationRequest(Request, frozen=True, kw_only=True):
    """Kits, the sources in the yard, and the jobs. Each job is asked for each of its kits on each of its sources.

    Without jobs: each tool alone, then all that one person can run. `rows` asks for some of the rows, by place.
    """

    READ_ALONE: ClassVar[Mapping[str, type[Request]]] = {"sources": MatrixSource, "kits": MatrixKit, "jobs": MatrixJob}

    sources: Annotated[list[MatrixSource], Meta(min_length=1, max_length=MOST_SOURCES)]
    kits: Annotated[list[MatrixKit], Meta(min_length=1, max_length=MOST_KITS)]
    jobs: Annotated[list[MatrixJob], Meta(min_length=1, max_length=MOST_JOBS)] | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    catalogue_release: ReleaseNumber | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET
    include: (
        Annotated[
            list[ValidationInclusion],
            Meta(
                max_length=4,
                description="`requests`: each row holds the load check, and the energy budget, that can be posted "
                "alone.",
            ),
        ]
        | UnsetType
    ) = UNSET


class KitValidationHead(Answer, frozen=True, kw_only=True, tag="head", tag_field="kind"):
    """The first line: what all rows rest on, and which rows follow."""

    rows_in_all: Counted
    begin: Counted
    end: Counted
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str


class KitValidationRow(Answer, frozen=True, kw_only=True, tag="row", tag_field="kind"):
    """One kit on one source for one job; `id` is job/kit/source, `index` counts from 0 over all rows.

    `verdict` is the worst of the load check, the energy budget and what the kit lacks for the job. With `errors` there
    is no answer. `plugging` says whether `plugged` was stated, or planned for this cell.
    """

    index: Counted
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
    plugging: Literal["stated", "planned"] | UnsetType = UNSET
    plugged: list[PluggedIn] = []
    load_check: CellLoadCheck | UnsetType = UNSET
    energy_budget: CellEnergyBudget | UnsetType = UNSET
    load_check_request: (
        Annotated[msgspec.Raw, Meta(description="A LoadCheckRequest that can be posted alone.")] | UnsetType
    ) = UNSET
    energy_budget_request: (
        Annotated[msgspec.Raw, Meta(description="An EnergyBudgetRequest that can be posted alone.")] | UnsetType
    ) = UNSET
    errors: list[MatrixFault] = []


KitValidationLine = KitValidationHead | KitValidationRow | MatrixProgress | MatrixEnd


class KitValidationAnswer(Answer, frozen=True, kw_only=True):
    """All rows at once, the same as those of the lines."""

    counts: VerdictCounts
    rows: list[KitValidationRow]
    rows_in_all: Counted
    computed: Counted
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
