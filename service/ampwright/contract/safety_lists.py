"""What does a safety officer post to /v1/safety-lists, and what comes back?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.load_checks import CODE_BASES, AnySource, Basis, Severity, StatedAsOf, WithdrawalsAsOf
from ampwright.contract.matrix_parts import MOST_KITS, MOST_SOURCES, Counted, MatrixFault, MatrixKit
from ampwright.contract.parts import Answer, Identifier, ReleaseNumber, Request, text_list

MOST_LINES = 20_000


class SafetySource(Request, frozen=True, kw_only=True):
    """A source by inline document, catalogue entry or fleet unit, and where it will run, if that is known."""

    id: Identifier
    source: AnySource
    place: Literal["open_air", "indoors", "enclosed", "trench", "near_opening"] | UnsetType = UNSET


class SafetyListRequest(Request, frozen=True, kw_only=True):
    """Sources and kits to look at, every kit on every source.

    Left out: all source units of the catalogue release, its kinds of source where it has no units; and all its kits.
    """

    sources: Annotated[list[SafetySource], Meta(max_length=MOST_SOURCES)] | UnsetType = UNSET
    kits: Annotated[list[MatrixKit], Meta(max_length=MOST_KITS)] | UnsetType = UNSET
    code_basis: (
        Annotated[list[Annotated[str, text_list(CODE_BASES, "A rule layer.", "osha-1926")]], Meta(max_length=8)]
        | UnsetType
    ) = UNSET
    catalogue_release: ReleaseNumber | UnsetType = UNSET
    withdrawals_as_of: WithdrawalsAsOf | UnsetType = UNSET


class SafetyListLine(Answer, frozen=True, kw_only=True):
    """One thing to look at: tools of `kit` on `source`, receptacles of a source, or an engine's place.

    `stated`: all behind it was said; else something was assumed on the safe side, and `how_to_find_out` says what to
    look for. `basis` names entries of the list's own basis.
    """

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


class SafetyListError(Answer, frozen=True, kw_only=True):
    """A source or kit that could not be looked at, and why; the others were."""

    id: str
    errors: list[MatrixFault]


class SafetyCount(Answer, frozen=True, kw_only=True):
    """How many lines have a code."""

    code: str
    lines: Counted


class SafetyListAnswer(Answer, frozen=True, kw_only=True):
    """Dangers first. `answer_digest` is SHA-256 over lines, errors and basis: it proves which list was given."""

    lines: list[SafetyListLine]
    counts: list[SafetyCount]
    sources: Counted
    kits: Counted
    not_looked_at: list[SafetyListError] = []
    basis: list[Basis] = []
    notice: str
    engine_version: str
    catalogue_release: int | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
    answer_digest: str
