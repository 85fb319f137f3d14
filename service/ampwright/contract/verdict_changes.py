"""What does a fleet engineer post to /v1/verdict-changes, and what comes back?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.load_checks import Verdict, WithdrawalsAsOf
from ampwright.contract.matrix_parts import (
    MOST_JOBS,
    MOST_KITS,
    MOST_SOURCES,
    CellFinding,
    Counted,
    MatrixFault,
    MatrixJob,
    MatrixKit,
    MatrixSource,
    RowRange,
)
from ampwright.contract.parts import Answer, ReleaseNumber, Request


class VerdictChangesRequest(Request, frozen=True, kw_only=True):
    """Kits, sources and jobs as for a kit validation, and the two releases between which they are compared."""

    READ_ALONE: ClassVar[Mapping[str, type[Request]]] = {"sources": MatrixSource, "kits": MatrixKit, "jobs": MatrixJob}

    from_release: ReleaseNumber
    to_release: ReleaseNumber
    sources: Annotated[list[MatrixSource], Meta(min_length=1, max_length=MOST_SOURCES)]
    kits: Annotated[list[MatrixKit], Meta(min_length=1, max_length=MOST_KITS)]
    jobs: Annotated[list[MatrixJob], Meta(min_length=1, max_length=MOST_JOBS)] | UnsetType = UNSET
    rows: RowRange | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET


class VerdictIn(Answer, frozen=True, kw_only=True):
    """What one release makes of a row: as POST /v1/kit-validations tells it."""

    verdict: Verdict | UnsetType = UNSET
    sentence: str | UnsetType = UNSET
    finding: CellFinding | UnsetType = UNSET
    load_check_digest: str | UnsetType = UNSET
    errors: list[MatrixFault] = []


class EntryBehind(Answer, frozen=True, kw_only=True):
    """A document that the row uses and that differs between the releases; a revision that is left out is not there."""

    kind: str
    entry: str
    old_revision: int | UnsetType = UNSET
    new_revision: int | UnsetType = UNSET
    differences: list[str] = []


class VerdictChange(Answer, frozen=True, kw_only=True):
    """A kit on a source at a job whose verdict is another in the newer release, and what differs behind it.

    `entries` empty: the withdrawals or what stands beside the references made it, not a revision.
    """

    id: str
    job: str
    kit: str
    source: str
    turned: Literal["better", "worse", "answered", "no_longer_answered"]
    before: VerdictIn
    after: VerdictIn
    entries: list[EntryBehind] = []


class RowWithoutAnswer(Answer, frozen=True, kw_only=True):
    """A row that neither release can answer, and what is wrong with it in each."""

    id: str
    job: str
    kit: str
    source: str
    before: list[MatrixFault]
    after: list[MatrixFault]


class VerdictChangesAnswer(Answer, frozen=True, kw_only=True):
    """The rows whose verdict changed, what got worse first; those that neither release answers; and how many did not.

    A row that only one of the two answers is among `changes`: `answered` or `no_longer_answered`.
    """

    changes: list[VerdictChange]
    without_answer: list[RowWithoutAnswer]
    unchanged: Counted
    rows_in_all: Counted
    from_release: Counted
    to_release: Counted
    notice: str
    engine_version: str
    request_digest: str
