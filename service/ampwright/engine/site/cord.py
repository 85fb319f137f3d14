"""What is known of a flexible cord? None means: not known."""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band


@dataclass(frozen=True, slots=True)
class CordOutlets:
    type: str | None = None
    rating_a: Band | None = None
    count: int | None = None
    state: str | None = None


@dataclass(frozen=True, slots=True)
class Cord:
    """`size` is a key of the tables of conductor sizes; `conductors` counts all, earth included."""

    id: str
    pointer: str
    name: str | None = None
    length_m: Band | None = None
    size: str | None = None
    conductors: int | None = None
    type: str | None = None
    insulation_temperature_c: Band | None = None
    marked_a: Band | None = None
    plug: str | None = None
    plug_state: str | None = None
    outlets: CordOutlets | None = None
    laid: str | None = None
    drum_layers: int | None = None
    led_through: str | None = None  # none, door, window or road
