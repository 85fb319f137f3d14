"""Which texts and lists do documents of all kinds share?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.parts import (
    Pointer,
    Request,
    Words,
    text_list,
)
from ampwright.engine.site.load_classes import LOAD_CLASS_NAMES

SUPPLY_PATTERN = (
    r"^(?:[0-9]{2,3}(?:\.[0-9])? V(?: DC)?"  # 120 V, 48 V DC
    r"|[0-9]{2,3}/[0-9]{3} V"  # 120/240 V, 230/400 V
    r"|[0-9]{3}Y/[0-9]{2,3}(?:\.[0-9])? V"  # 208Y/120 V
    r"|[0-9]{2,3}-0-[0-9]{2,3} V)$(?!\n)"  # 55-0-55 V
)
SupplyText = Annotated[
    str,
    Meta(
        max_length=16,
        description="Supply system by its nominal voltage: one leg (`120 V`), two legs (`120/240 V`), three legs "
        "(`208Y/120 V`, `230/400 V`), reduced low voltage with earthed centre (`55-0-55 V`), or direct current "
        "(`48 V DC`).",
        examples=["120/240 V"],
        extra_json_schema={"pattern": SUPPLY_PATTERN},
    ),
]
SizeText = Annotated[
    str,
    Meta(
        max_length=16,
        description="Conductor size, a key of the tables of sizes: AWG or mm2.",
        examples=["12 AWG"],
        extra_json_schema={"pattern": r"^(?:[0-9]{1,2}(?:/0)? AWG|[0-9]{1,3}(?:\.[0-9]{1,2})? mm2)$(?!\n)"},
    ),
]
ConfigurationText = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=32,
        description="Plug or receptacle configuration by its designation in NEMA WD 6, IEC 60309, CEE 7 or BS 1363; "
        "GET /v1/reference/plugs lists them.",
        examples=["5-20R"],
    ),
]
LegName = Literal["L1", "L2", "L3"]
LoadClass = Annotated[
    str, text_list(LOAD_CLASS_NAMES, "Kind of load; decides what is assumed where the plate is silent.", "circular_saw")
]

Origin = Literal["nameplate", "measured", "standard", "estimate", "invented_demo"]


DateText = Annotated[
    str, Meta(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$(?!\n)", max_length=10, description="Day.", examples=["2026-05-04"])
]


class Provenance(Request, frozen=True, kw_only=True):
    """Where one figure of a document comes from, where that differs from the document's own origin."""

    pointer: Pointer
    origin: Origin
    note: Words | UnsetType = UNSET
    instrument: Words | UnsetType = UNSET
    on_date: DateText | UnsetType = UNSET


ProvenanceList = Annotated[list[Provenance], Meta(max_length=200)]
