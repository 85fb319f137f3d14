"""By what is a document found in the catalogue: its name, words, voltages, plugs and power?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from msgspec import UNSET

from ampwright.contract import documents as wire
from ampwright.contract.document_check import Document
from ampwright.contract.reading import Reading
from ampwright.contract.reading_source import read_source
from ampwright.contract.reading_tool import read_tool
from ampwright.engine.site.band import Band
from ampwright.engine.site.source import PowerSource, SupplySystem
from ampwright.engine.site.tool import SupplyOption


@dataclass(frozen=True, slots=True, kw_only=True)
class DocumentFacets:
    """What search knows of a document; voltages in V (of leg and between legs), power in W (VA where only that is
    known), both ends or neither."""

    name: str
    words: tuple[str, ...] = ()
    voltages_v: tuple[float, ...] = ()
    plugs: tuple[str, ...] = ()
    power_low_w: float | None = None
    power_high_w: float | None = None


def facets_of(document: Document) -> DocumentFacets:
    """The facets of a document. What cannot be read is left out: whoever stores a document checks it first."""
    if isinstance(document, wire.ToolProfile):
        return _of_tool(document)
    if isinstance(document, wire.CordDocument):
        return _of_cord(document)
    if isinstance(document, wire.KitDocument):
        items = [item for items in (document.tools, document.cords) if items is not UNSET for item in items]
        return DocumentFacets(name=document.name, words=_sorted(item.entry for item in items)[:60])
    if isinstance(document, wire.SourceUnit):
        return DocumentFacets(name=document.name, words=(document.entry,))
    return _of_source(document)


def _of_tool(document: wire.ToolProfile) -> DocumentFacets:
    tool = read_tool(document, Reading(), "", "tool")
    powers = [power for option in tool.supply_options if (power := _plate_power_w(option)) is not None]
    return DocumentFacets(
        name=document.name,
        words=_sorted(word for word in (tool.load_class,) if word),
        voltages_v=_voltages_v(option.voltage for option in tool.supply_options),
        plugs=_sorted(option.plug for option in tool.supply_options if option.plug),
        power_low_w=min((power.low for power in powers), default=None),
        power_high_w=max((power.high for power in powers), default=None),
    )


def _plate_power_w(option: SupplyOption) -> Band | None:
    if option.power_w is not None:
        return option.power_w
    if option.apparent_power_va is not None:
        return option.apparent_power_va
    if option.current_a is not None and option.voltage.kind in ("single", "dc") and option.phases != 3:
        return option.current_a.times(option.voltage.leg_voltage_v)
    return None


def _of_source(document: wire.PowerSourceDocument) -> DocumentFacets:
    source = read_source(document, Reading(), "")
    power = _source_power_w(source)
    return DocumentFacets(
        name=document.name,
        words=_sorted(word for word in (source.kind, source.technology) if word),
        voltages_v=_voltages_v([source.supply]),
        plugs=_sorted(one.type for one in source.receptacles or () if one.type),
        power_low_w=power.low if power else None,
        power_high_w=power.high if power else None,
    )


def _source_power_w(source: PowerSource) -> Band | None:
    whole = [limit.continuous for limit in source.limits or () if limit.continuous is not None]
    amounts = [one.band for one in (*whole, source.running) if one is not None and one.unit in ("W", "VA")]
    return max(amounts, key=lambda band: band.high, default=None)


def _of_cord(document: wire.CordDocument) -> DocumentFacets:
    ends = [document.plug, UNSET if document.outlets is UNSET else document.outlets.type]
    said = [document.size, document.length, document.type]
    return DocumentFacets(
        name=document.name,
        words=_sorted(text for text in said if text is not UNSET),
        plugs=_sorted(text for text in ends if text is not UNSET),
    )


def _voltages_v(systems: Iterable[SupplySystem]) -> tuple[float, ...]:
    found: set[float] = set()
    for system in systems:
        if system.kind == "unread":
            continue
        found.add(system.leg_voltage_v)
        if system.kind in ("split_phase", "centre_tapped"):
            found.add(2.0 * system.leg_voltage_v)
        if system.kind == "three_phase":
            found.add(float(max(float(part) for part in system.text.removesuffix(" V").replace("Y", "").split("/"))))
    return tuple(sorted(found))


def _sorted(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(set(words)))
