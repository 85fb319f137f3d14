"""What does a caller post to /v1/stop-diagnoses, and what comes back?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.energy_quantities import ShareText
from ampwright.contract.load_check_parts import Amount, Estimates
from ampwright.contract.load_checks import BreakEven, Finding, LoadCheckRequest, StatedAsOf, UsedEntry, Verdicts
from ampwright.contract.parts import MOST_ITEMS, Answer, Identifier, Request
from ampwright.contract.quantities import CurrentText, DurationText


class StopReading(Request, frozen=True, kw_only=True):
    """What a meter showed on a circuit before it stopped."""

    circuit: Identifier
    current: CurrentText


class Stop(Request, frozen=True, kw_only=True):
    """What ran when power went, and what was seen then; leave out what nobody knows."""

    running: Annotated[list[Identifier], Meta(min_length=1, max_length=MOST_ITEMS, description="Tools that were on.")]
    heavy: Annotated[Identifier, Meta(description="The tool that was pushed hard.")] | UnsetType = UNSET
    switched_on: Annotated[Identifier, Meta(description="The tool that was just switched on.")] | UnsetType = UNSET
    after: DurationText | UnsetType = UNSET
    extent: (
        Annotated[
            Literal["one_tool", "one_receptacle", "one_circuit", "everything"], Meta(description="What went off.")
        ]
        | UnsetType
    ) = UNSET
    returned: (
        Annotated[
            Literal["by_itself", "at_the_breaker", "at_the_ground_fault_device", "at_the_source"],
            Meta(description="How power came back."),
        ]
        | UnsetType
    ) = UNSET
    charge: ShareText | UnsetType = UNSET
    readings: Annotated[list[StopReading], Meta(max_length=64)] | UnsetType = UNSET


class StopDiagnosisRequest(LoadCheckRequest, frozen=True, kw_only=True):
    """A load check's request, and what was seen when it stopped. Its `cases` are not looked at."""

    stopped: Stop


class RankedCause(Answer, frozen=True, kw_only=True):
    """A cause at one place. `likelihood_share_ratio` ranks the causes looked at; it is no measurement.

    `values` in the unit of `figure`, against `limit`. `holds_with`: changes of this request after which it holds.
    """

    cause: str
    pointer: str
    likelihood_share_ratio: Amount
    text: str
    safe_checks: list[str]
    figure: str | UnsetType = UNSET
    values: Estimates | UnsetType = UNSET
    limit: Amount | UnsetType = UNSET
    holds_with: list[BreakEven] = []


class StopDiagnosisAnswer(Answer, frozen=True, kw_only=True):
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
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str
