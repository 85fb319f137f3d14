"""What does a request ask once every catalogue entry and kit in it is put in its place?

A reference takes a document of the request's release, or a stated revision of it; what stands beside it corrects the
document for this request (contract/merge.py). A kit brings its tools and cords under its own ids; a tool or cord of the
request with the id of one of them corrects it. A source may be named by its kind (`entry`), by a unit of the fleet
(`unit`, which brings its kind and its own corrections) or by both, which must agree. The outcome holds no references,
and remembers where everything came from, so that faults and findings point into the request as it was sent.
Not here: where documents are kept (the lookup is handed in); whether they make sense together (engine/site).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Protocol, TypeVar

import msgspec
from msgspec import UNSET, Struct

from ampwright.contract.canonical import unsound_texts
from ampwright.contract.document_check import kit_ids
from ampwright.contract.documents import KitAdapter, KitDocument, Observation, SourceUnit
from ampwright.contract.load_checks import CordInUse, LoadCheckRequest, ToolInUse
from ampwright.contract.merge import Merge, Raw
from ampwright.contract.parts import MOST_ITEMS
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.power_source_members import (
    BatteryStation,
    CatalogueSource,
    EngineGenerator,
    PowerSource,
    SiteSupply,
    Vehicle,
)
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import in_document_order
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import MOST_FAULTS, in_order

_SOURCES: dict[str, type[Vehicle | EngineGenerator | BatteryStation | SiteSupply]] = {
    "vehicle": Vehicle,
    "engine_generator": EngineGenerator,
    "battery_station": BatteryStation,
    "site_supply": SiteSupply,
}
_OF_THE_DOCUMENT = ("origin", "provenance")  # members of a document that no request has
_OF_THE_REFERENCE = ("entry", "revision", "unit")
_KIT_ENTRY = "/kit/entry"
# What the kind or the unit of a source brought lies here, also where only the unit was sent.
_SOURCE_ENTRY, _SOURCE_UNIT = "/source/entry", "/source/unit"


@dataclass(frozen=True, slots=True)
class FoundEntry:
    """One revision as it is stored; `withdrawn` is the reason where it was withdrawn."""

    revision: int
    body: bytes
    withdrawn: str | None = None


class Lookup(Protocol):
    """Where documents come from: one catalogue release, and revisions that may be named beside it."""

    def find(self, kind: str, slug: str, revision: int | None) -> FoundEntry | None:
        """The stated revision, or the release's own where None; None where there is none."""

    def slugs(self, kind: str) -> Sequence[str]:
        """Slugs of that kind in the release, for did_you_mean."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A catalogue document that a request uses. `pointer` is the member that named it; `observations` are those of a
    source unit."""

    kind: str
    entry: str
    revision: int
    pointer: str
    withdrawn: str | None = None
    observations: tuple[Observation, ...] = ()


@dataclass(frozen=True, slots=True)
class Resolved:
    """A request without references.

    request : None where the source or the kit could not be had, so that nothing more can be said about it.
    entries : documents used, in document order. adapters : those of the kit, with their pointers.
    unit : key of the source's unit, where given. faults : references that lead nowhere.
    """

    request: LoadCheckRequest | None
    entries: tuple[Reference, ...] = ()
    places: Places = AS_SENT
    adapters: tuple[tuple[KitAdapter, str], ...] = ()
    unit: str | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def withdrawn(self) -> tuple[tuple[str, str, str], ...]:
        """(pointer, name, reason) of each document used that was withdrawn; every answer tells them as findings."""
        return tuple((e.pointer, f"{e.entry} revision {e.revision}", e.withdrawn) for e in self.entries if e.withdrawn)


def resolve(request: LoadCheckRequest, lookup: Lookup) -> Resolved:
    """The request with every reference replaced by what it stands for. Never raises for a reference that is wrong."""
    return _Resolving(lookup).whole(request)


def unit_key(fleet_id: str) -> str:
    """The key of a source unit by its fleet id: `VAN_07` is kept as `van-07`."""
    return fleet_id.lower().replace("_", "-")


def has_references(request: LoadCheckRequest) -> bool:
    """Whether the request needs the catalogue at all."""
    items = [*(() if request.tools is UNSET else request.tools), *(() if request.cords is UNSET else request.cords)]
    return (
        isinstance(request.source, CatalogueSource)
        or request.kit is not UNSET
        or any(item.entry is not UNSET for item in items)
    )


UNSOUND = "control_character"

_Item = TypeVar("_Item", ToolInUse, CordInUse)


@dataclass(slots=True)
class _Kit:
    items: dict[str, list[tuple[str, Raw]]] = field(default_factory=dict)  # kind -> (id, entry and revision)
    adapters: tuple[tuple[KitAdapter, str], ...] = ()


class _Resolving:
    def __init__(self, lookup: Lookup) -> None:
        self.lookup = lookup
        self.moved: dict[str, str] = {}
        self.entries: list[Reference] = []
        self.faults: list[Fault] = []

    def whole(self, request: LoadCheckRequest) -> Resolved:
        self.faults += [
            Fault(pointer, UNSOUND, f"This text holds {character}, which is refused.")
            for pointer, character in unsound_texts(request)
        ]
        source, unit = self._source(request.source)
        kit = self._kit(request)
        tools = self._items(ToolInUse, "tool-profile", "/tools", request.tools, kit)
        cords = self._items(CordInUse, "cord", "/cords", request.cords, kit)
        resolved: LoadCheckRequest | None = None
        if source is not None and kit is not None:
            resolved = msgspec.structs.replace(request, source=source, tools=tools, cords=cords, kit=UNSET)
        return Resolved(
            request=resolved,
            entries=tuple(
                sorted(
                    dict.fromkeys(self.entries),
                    key=lambda one: (in_document_order(one.pointer), one.kind, one.entry, one.revision),
                )
            ),
            places=Places(self.moved),
            adapters=kit.adapters if kit is not None else (),
            unit=unit,
            faults=in_order(self.faults),
        )

    # --- the three places that refer

    def _source(self, source: PowerSource | CatalogueSource) -> tuple[PowerSource | None, str | None]:
        if not isinstance(source, CatalogueSource):
            return source, None
        entry, revision, name = _given(source.entry), _given(source.revision), _given(source.unit)
        unit: SourceUnit | None = None
        if name is not None:
            name = unit_key(name)
            unit = self._unit(name)
            if unit is None:
                return None, name
            if entry is not None and entry != unit.entry:
                message = f"The unit {shown(name)} is of {shown(unit.entry)}, not of {shown(entry)}."
                self._fault(_SOURCE_ENTRY, "unit_of_another_entry", message, unit.entry)
                return None, name
            entry = unit.entry
            revision = _given(unit.revision) if revision is None else revision
        if entry is None:
            message = "A source of the catalogue is named by `entry`, by `unit` or by both."
            self._fault(_SOURCE_ENTRY, "source_not_named", message)
            return None, None
        document = self._document("power-source", entry, revision, _SOURCE_ENTRY)
        if document is None:
            return None, name
        kind = _SOURCES[document.pop("kind")]
        if unit is not None and unit.corrections is not UNSET:
            corrections = msgspec.to_builtins(unit.corrections)
            if self._strangers(corrections, kind, _SOURCE_UNIT, f"The unit {shown(str(name))} is of a"):
                return None, name
            # Where a part came from is told by the merge below: to the request, kind and unit are one reference.
            document = Merge(_SOURCE_ENTRY).members(document, corrections, "", "")
        beside = _raw(source, ("kind", *_OF_THE_REFERENCE))
        self._strangers(beside, kind, "/source", "The source is a")
        return self._converted(kind, document, beside, "/source", "/source", _SOURCE_ENTRY), name

    def _unit(self, name: str) -> SourceUnit | None:
        document = self._document("source-unit", name, None, _SOURCE_UNIT, keep=True)
        if document is None:
            return None
        unit = msgspec.convert(document, SourceUnit)
        self.entries[-1] = replace(self.entries[-1], observations=tuple(_listed(unit.observations)))
        return unit

    def _strangers(self, beside: Raw, kind: type[Struct], at: str, says: str) -> bool:
        """Refuse, and take out, the members that this kind of source does not have; whether there were any."""
        strange = sorted(set(beside) - set(kind.__struct_fields__))
        for name in strange:
            place = at if at == _SOURCE_UNIT else f"{at}/{name}"
            message = f"{says} {kind.__struct_config__.tag}, which has no {name!r}."
            self._fault(place, "member_of_another_kind", message)
            del beside[name]
        return bool(strange)

    def _kit(self, request: LoadCheckRequest) -> _Kit | None:
        if request.kit is UNSET:
            return _Kit()
        found = self._document("kit", request.kit.entry, _given(request.kit.revision), _KIT_ENTRY, keep=True)
        if found is None:
            return None
        document = msgspec.convert(found, KitDocument)
        self.moved[_KIT_ENTRY] = _KIT_ENTRY  # what lies under an adapter of the kit lies there
        kit = _Kit(adapters=tuple((one, _KIT_ENTRY) for one in _listed(document.adapters)))
        for kind, items in (("tool-profile", _listed(document.tools)), ("cord", _listed(document.cords))):
            expanded = kit.items.setdefault(kind, [])
            for item in items:
                expanded += [(name, _raw(item, ("id", "count"))) for name in kit_ids(item)]
                if len(expanded) > MOST_ITEMS:
                    message = f"The kit brings more than {MOST_ITEMS} items of a kind."
                    self._fault(_KIT_ENTRY, "too_many_items", message)
                    return None
        return kit

    def _items(
        self, item_type: type[_Item], kind: str, at: str, sent: Sequence[_Item] | msgspec.UnsetType, kit: _Kit | None
    ) -> list[_Item] | msgspec.UnsetType:
        from_kit: dict[str, Raw] = {}
        for name, named in kit.items.get(kind, []) if kit is not None else ():
            from_kit.setdefault(name, named)
        if sent is UNSET and not from_kit:
            return UNSET
        outcome: list[_Item] = []
        for place, item in enumerate(_listed(sent)):
            here = f"{at}/{place}"
            of_kit = from_kit.pop(item.id, None)
            entry, revision, pointer = _given(item.entry), _given(item.revision), f"{here}/entry"
            if entry is None and of_kit is not None:
                entry, pointer = of_kit["entry"], _KIT_ENTRY
                revision = of_kit.get("revision") if revision is None else revision
            if entry is None:
                if revision is not None:
                    message = "A revision says nothing without an entry."
                    self._fault(f"{here}/revision", "revision_without_entry", message)
                outcome.append(item)
                continue
            outcome.append(self._one(item_type, kind, item, (entry, revision), here, here, pointer))
        for name, named in from_kit.items():
            if kit is not None and len(outcome) >= MOST_ITEMS:
                message = f"The kit and the request together hold more than {MOST_ITEMS} items of a kind."
                self._fault(_KIT_ENTRY, "too_many_items", message)
                break
            here = f"{at}/{len(outcome)}"
            self.moved[here] = _KIT_ENTRY
            wanted = (named["entry"], named.get("revision"))
            outcome.append(self._one(item_type, kind, item_type(id=name), wanted, here, _KIT_ENTRY, _KIT_ENTRY))
        return outcome

    def _one(
        self,
        item_type: type[_Item],
        kind: str,
        item: _Item,
        wanted: tuple[str, int | None],
        at: str,
        sent: str,
        pointer: str,
    ) -> _Item:
        document = self._document(kind, *wanted, pointer)
        beside = _raw(item, _OF_THE_REFERENCE)
        # An item whose entry is not to be had stays, so that what refers to it is not refused as well.
        found = None if document is None else self._converted(item_type, document, beside, at, sent, pointer)
        return item if found is None else found

    # --- looking up and merging

    def _document(self, kind: str, slug: str, revision: int | None, pointer: str, *, keep: bool = False) -> Raw | None:
        found = self.lookup.find(kind, slug, revision)
        if found is None:
            if len(self.faults) < MOST_FAULTS:
                self.faults.append(self._missing(kind, slug, revision, pointer))
            return None
        self.entries.append(Reference(kind, slug, found.revision, pointer, found.withdrawn))
        document: Raw = msgspec.json.decode(found.body)
        if not keep:
            for name in _OF_THE_DOCUMENT:
                document.pop(name, None)
        return document

    def _missing(self, kind: str, slug: str, revision: int | None, pointer: str) -> Fault:
        own = self.lookup.find(kind, slug, None) if revision is not None else None
        what = kind.replace("-", " ")
        if own is not None:
            at = pointer if pointer in (_KIT_ENTRY, _SOURCE_UNIT) else pointer.removesuffix("entry") + "revision"
            message = f"The release holds revision {own.revision} of {what} {shown(slug)}, and {revision} is not there."
            return Fault(at, "unknown_revision", message, str(own.revision))
        known = self.lookup.slugs(kind)
        there = f"it has {listing(known)}" if known else "it has none"
        message = f"The catalogue release has no {what} {shown(slug)}; {there}."
        return Fault(pointer, "unknown_entry", message, nearest(slug, known))

    def _converted(
        self, outcome: type[_Any], document: Raw, beside: Raw, at: str, sent: str, pointer: str
    ) -> _Any | None:
        merge = Merge(pointer)
        merged = merge.members(document, beside, at, sent)
        self.moved.update(merge.moved)
        for repeated in merge.repeated:
            self._fault(repeated, "repeated_id", "Two parts of this list have the same id.")
        try:
            return msgspec.convert(merged, outcome)
        except msgspec.ValidationError as error:
            message = f"The entry with what stands beside it is no valid document: {error}"
            self._fault(pointer, "merge_is_no_document", message[:300])
            return None

    def _fault(self, pointer: str, code: str, message: str, did_you_mean: str | None = None) -> None:
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(pointer, code, message, did_you_mean))


_Any = TypeVar("_Any", bound=Struct)


def _raw(value: Struct, without: tuple[str, ...]) -> Raw:
    plain: Raw = msgspec.to_builtins(value)
    for name in without:
        plain.pop(name, None)
    return plain


def _given(value: Any) -> Any:
    return None if value is UNSET else value


def _listed(value: Any) -> Any:
    return () if value is UNSET else value
