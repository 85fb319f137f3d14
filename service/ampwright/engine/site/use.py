"""What is plugged into what, who works, and which cases run?"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.source import PowerSource
from ampwright.engine.site.tool import Tool


@dataclass(frozen=True, slots=True)
class Fault:
    """A content fault of a request. Code branches on `code`; the text is made for people."""

    pointer: str  # RFC 6901
    code: str  # listed in GET /v1/reference/fault-codes
    message: str
    did_you_mean: str | None = None


@dataclass(frozen=True, slots=True)
class Connection:
    """`plug` is a tool or cord, `into` a receptacle or cord; `leg` picks one where an outlet could be on several."""

    plug: str
    into: str
    pointer: str
    leg: str | None = None


@dataclass(frozen=True, slots=True)
class Case:
    id: str
    running: tuple[str, ...]
    pointer: str
    start_order: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Adapter:
    id: str
    pointer: str
    plug: str
    receptacle: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class Site:
    """Everything that a load check is about, as far as the caller knows it.

    `connections` and `cases` None: not given. `code_basis` None: not said; (): no rule layer asked for.
    """

    source: PowerSource
    tools: tuple[Tool, ...]
    cords: tuple[Cord, ...] = ()
    adapters: tuple[Adapter, ...] = ()
    connections: tuple[Connection, ...] | None = None
    cases: tuple[Case, ...] | None = None
    people: int | None = None
    place: str | None = None
    wet: bool | None = None
    ambient_c: Band | None = None
    altitude_m: Band | None = None
    fixed_wiring: str | None = None  # none, transfer_equipment or direct
    code_basis: tuple[str, ...] | None = None
