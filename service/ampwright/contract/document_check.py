"""May this document be stored: can every figure be read, and does it contradict nothing in itself?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

import msgspec
from msgspec import UNSET, UnsetType

from ampwright.contract.canonical import unsound_texts
from ampwright.contract.documents import (
    CordDocument,
    KitAdapter,
    KitDocument,
    KitItem,
    PowerSourceDocument,
    SourceUnit,
    ToolProfile,
)
from ampwright.contract.parts import MOST_ITEMS
from ampwright.contract.power_source_members import (
    BatteryStation,
    EngineGenerator,
    SiteSupply,
    SourceCorrections,
    Vehicle,
)
from ampwright.contract.quantities import CURRENT, DURATION, POWER, VOLTAGE
from ampwright.contract.reading import Reading
from ampwright.contract.reading_cord import read_cord
from ampwright.contract.reading_site import read_adapter
from ampwright.contract.reading_source import read_source
from ampwright.contract.reading_tool import read_tool
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order
from ampwright.engine.site.validation_source import source_faults
from ampwright.engine.site.validation_tools import cord_faults, tool_faults

Document = ToolProfile | PowerSourceDocument | CordDocument | KitDocument | SourceUnit
_OBSERVED = (("current", CURRENT), ("power", POWER), ("voltage", VOLTAGE), ("lasted", DURATION))
_OF_THE_VOLTAGE = ("legs_contradict_voltage",)


def check_document(kind: str, document: Document) -> tuple[Fault, ...]:
    """Content faults of a document that decoded as DOCUMENT_TYPES[kind], with pointers into it; empty when sound.

    Raises TypeError where the struct is none of that kind.
    """
    unread, contradictions = document_faults(kind, document)
    return in_order((*unread, *contradictions))


def document_faults(kind: str, document: Document) -> tuple[tuple[Fault, ...], tuple[Fault, ...]]:
    """The same, apart: texts that cannot be read or kept, and members that do not go together."""
    reading = Reading()
    found: list[Fault] = []
    if kind == "tool-profile" and isinstance(document, ToolProfile):
        found += tool_faults(read_tool(document, reading, "", "tool"))
    elif kind == "power-source" and isinstance(document, PowerSourceDocument):
        found += source_faults(read_source(document, reading, ""))
    elif kind == "cord" and isinstance(document, CordDocument):
        found += cord_faults(read_cord(document, reading, "", "cord"))
    elif kind == "kit" and isinstance(document, KitDocument):
        found += _kit_faults(document, reading)
    elif kind == "source-unit" and isinstance(document, SourceUnit):
        found += _unit_faults(document, reading)
    else:
        raise TypeError(f"{type(document).__name__} is no {kind}")
    found += _provenance_faults(document)
    unsound = (
        Fault(pointer, "control_character", f"This text holds {character}, which is refused.")
        for pointer, character in unsound_texts(document)
    )
    # of a source unit nothing but its texts is looked at here; legs against the voltage are no fault of a text
    found += reading.faults
    texts = {*reading.faults} | {fault for fault in found if kind == "source-unit" or fault.code == "not_a_date"}
    unread = [fault for fault in found if fault in texts and fault.code not in _OF_THE_VOLTAGE]
    return (*unread, *unsound), tuple(fault for fault in found if fault not in unread)


def kit_ids(item: KitItem | KitAdapter) -> tuple[str, ...]:
    """The ids that a line of a kit expands to: `x`, or `x-1`, `x-2` where it counts several."""
    count = 1 if item.count is UNSET else item.count
    return (item.id,) if count == 1 else tuple(f"{item.id}-{number}" for number in range(1, count + 1))


def _kit_faults(kit: KitDocument, reading: Reading) -> Iterator[Fault]:
    taken: set[str] = set()
    lists: tuple[tuple[str, Sequence[KitItem | KitAdapter] | UnsetType], ...] = (
        ("tools", kit.tools),
        ("cords", kit.cords),
        ("adapters", kit.adapters),
    )
    for member, items in lists:
        number = 0
        for place, item in enumerate(() if items is UNSET else items):
            at = f"/{member}/{place}"
            ids = kit_ids(item)
            number += len(ids)
            if again := [name for name in ids if name in taken]:
                yield Fault(f"{at}/id", "repeated_id", f"The kit holds {shown(again[0])} twice, counts expanded.")
            taken.update(ids)
            if isinstance(item, KitAdapter):
                read_adapter(item, reading, at)
        if number > MOST_ITEMS:
            yield Fault(f"/{member}", "too_many_items", f"The kit holds {number} {member}, and {MOST_ITEMS} are most.")


def _unit_faults(unit: SourceUnit, reading: Reading) -> Iterator[Fault]:
    """Texts that nobody could read. Whether the corrections fit the kind that they correct is told by whoever has it
    (studies/catalogue_units.py)."""
    if unit.corrections is not UNSET:
        yield from _correction_faults(unit.corrections)
    for place, one in enumerate(() if unit.observations is UNSET else unit.observations):
        at = f"/observations/{place}"
        for name, dimension in _OBSERVED:
            reading.band(getattr(one, name), dimension, f"{at}/{name}", above_zero=False)
        yield from _date_faults(one.on_date, f"{at}/on_date")


def _correction_faults(corrections: SourceCorrections) -> Iterator[Fault]:
    plain = msgspec.to_builtins(corrections)
    told: set[tuple[str, str]] = set()
    for kind in (Vehicle, EngineGenerator, BatteryStation, SiteSupply):
        # The kind is not known here, and each kind reads members of its own; the voltage stands in where none is given.
        own = {name: value for name, value in plain.items() if name in kind.__struct_fields__}
        reading = Reading()
        source: Any = msgspec.convert({"kind": kind.__struct_config__.tag, "voltage": "120/240 V", **own}, kind)
        read_source(source, reading, "/corrections")
        for fault in reading.faults:
            if (fault.pointer, fault.code) not in told and ("voltage" in own or fault.code not in _OF_THE_VOLTAGE):
                told.add((fault.pointer, fault.code))
                yield fault


def _provenance_faults(document: Document) -> Iterator[Fault]:
    plain: Any = msgspec.to_builtins(document)
    for place, one in enumerate(() if document.provenance is UNSET else document.provenance):
        at = f"/provenance/{place}"
        if not _resolves(plain, one.pointer):
            yield Fault(
                f"{at}/pointer",
                "provenance_points_nowhere",
                f"The document has no member at {shown(one.pointer)}.",
            )
        if one.on_date is not UNSET:
            yield from _date_faults(one.on_date, f"{at}/on_date")


def _date_faults(text: str, at: str) -> Iterator[Fault]:
    try:
        date.fromisoformat(text)
    except ValueError:
        yield Fault(at, "not_a_date", f"There is no day {shown(text)}.")


def _resolves(plain: Any, pointer: str) -> bool:
    for step in pointer.split("/")[1:]:
        name = step.replace("~1", "/").replace("~0", "~")
        if isinstance(plain, dict) and name in plain:
            plain = plain[name]
        elif isinstance(plain, list) and name.isascii() and name.isdigit() and len(name) < 6 and int(name) < len(plain):
            plain = plain[int(name)]
        else:
            return False
    return True
