"""What is said over the wire of what follows a trip?

Words of the open lists stand at /v1/reference/words, under `after_trip_...`.
"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.load_check_parts import Amount, Estimates
from ampwright.contract.parts import Answer

Word = Annotated[str, Meta(description="A word of /v1/reference/words, `after_trip_...`.", examples=["stays_on"])]


class TripReset(Answer, frozen=True, kw_only=True):
    """How power comes back, where, through whose hands and in which state; `how` is unknown where nobody said."""

    how: Annotated[str, Meta(examples=["automatic", "remote", "manual", "unknown"])]
    text: str
    where: str | UnsetType = UNSET
    by: str | UnsetType = UNSET
    needs: str | UnsetType = UNSET
    after_s: Estimates | UnsetType = UNSET
    tries: int | UnsetType = UNSET


class AfterTripEstimates(Answer, frozen=True, kw_only=True):
    """Where all is at its easiest, as usual, and at its hardest."""

    low: Word
    typical: Word
    high: Word


class AfterTripTool(Answer, frozen=True, kw_only=True):
    """A tool that lost its power: how its switch is left, and what the return means for it, worst first.

    `start` is there where it does not get going. The winding's temperature is of the estimates in which it stands
    still; 300 stands for that and more, where its insulation is gone.
    """

    tool: str
    switch: Word
    means: list[Word]
    start: Word | UnsetType = UNSET
    winding_temperature_c: Estimates | UnsetType = UNSET


class AfterTrip(Answer, frozen=True, kw_only=True):
    """A device or limit that may open first in a case, on its mildest occasion, and what follows.

    `restart` is what becomes of all that comes back at once, `ending` how it ends, both by the typical estimate;
    `restarts` and `endings` are there where the estimates differ. What returns goes again after `holds_earliest_s` at
    the earliest and `holds_latest_s` at the latest; a time that does not exist is left out.
    """

    opens: str
    opener: Word
    occasion: Word
    place: Word
    reset: TripReset
    restart: Word
    ending: Word
    tool: str | UnsetType = UNSET
    earliest_s: Amount | UnsetType = UNSET
    latest_assumed_s: Amount | UnsetType = UNSET
    restarts: AfterTripEstimates | UnsetType = UNSET
    endings: AfterTripEstimates | UnsetType = UNSET
    opens_again: str | UnsetType = UNSET
    holds_earliest_s: Amount | UnsetType = UNSET
    holds_latest_s: Amount | UnsetType = UNSET
    tools: list[AfterTripTool] = []
