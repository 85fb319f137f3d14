"""What is known of a flexible cord?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.document_parts import (
    ConfigurationText,
    SizeText,
)
from ampwright.contract.parts import (
    Count,
    Request,
    Words,
)
from ampwright.contract.quantities import (
    CurrentText,
    LengthText,
    TemperatureText,
)


class CordOutlets(Request, frozen=True, kw_only=True):
    """The far end of a cord: how many outlets of which type."""

    type: ConfigurationText | UnsetType = UNSET
    rating: CurrentText | UnsetType = UNSET
    count: Count | UnsetType = UNSET
    state: Literal["good", "worn", "damaged"] | UnsetType = UNSET


class CordMembers(Request, frozen=True, kw_only=True):
    """One flexible cord; all may be omitted."""

    name: Words | UnsetType = UNSET
    length: LengthText | UnsetType = UNSET
    size: SizeText | UnsetType = UNSET
    conductors: (
        Annotated[int, Meta(ge=2, le=5, description="All conductors, earth included.", examples=[3])] | UnsetType
    ) = UNSET
    type: (
        Annotated[
            str,
            Meta(
                min_length=1,
                max_length=24,
                pattern=r"^[A-Z0-9][A-Z0-9\-]{0,22}$(?!\n)",
                description="Cord type as printed on the jacket.",
                examples=["SJTW"],
            ),
        ]
        | UnsetType
    ) = UNSET
    insulation_temperature: TemperatureText | UnsetType = UNSET
    marked: CurrentText | UnsetType = UNSET
    plug: ConfigurationText | UnsetType = UNSET
    plug_state: Literal["good", "worn", "damaged"] | UnsetType = UNSET
    outlets: CordOutlets | UnsetType = UNSET
