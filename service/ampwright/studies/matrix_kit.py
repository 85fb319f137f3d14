"""What does a kit of a question about many hold, and where was each part of it sent?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import msgspec
from msgspec import UNSET, structs

from ampwright.contract.document_check import kit_ids
from ampwright.contract.documents import KitDocument
from ampwright.contract.load_checks import CordInUse, ToolInUse
from ampwright.contract.matrix_parts import MatrixKit
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.use import Fault
from ampwright.studies.references import FoundEntry
from ampwright.studies.release_lookup import ReleaseLookup


@dataclass(frozen=True, slots=True)
class KitContent:
    """A kit with its entry unfolded: items with where they and their entries were sent, "" for a kit not found."""

    tools: tuple[tuple[ToolInUse, str, str], ...] = ()
    cords: tuple[tuple[CordInUse, str, str], ...] = ()
    adapters: bool = False
    faults: tuple[Fault, ...] = ()


def kit_content(kit: MatrixKit, lookup: ReleaseLookup) -> KitContent:
    """The kit with its entry unfolded; faults point into it as if it stood at /kit."""
    document: KitDocument | None = None
    if kit.entry is not UNSET:
        revision = None if kit.revision is UNSET else kit.revision
        found = lookup.find("kit", kit.entry, revision)
        if found is None:
            return KitContent(faults=(_no_such_kit(kit.entry, revision, lookup),))
        document = _decoded(found)
    elif kit.revision is not UNSET:
        message = "A revision says nothing without an entry."
        return KitContent(faults=(Fault("/kit/revision", "revision_without_entry", message),))
    return KitContent(
        _items(ToolInUse, kit.tools, "/kit/tools", () if document is None else document.tools),
        _items(CordInUse, kit.cords, "/kit/cords", () if document is None else document.cords),
        document is not None and document.adapters is not UNSET and bool(document.adapters),
    )


def _no_such_kit(entry: str, revision: int | None, lookup: ReleaseLookup) -> Fault:
    own = lookup.find("kit", entry, None) if revision is not None else None
    if own is not None:
        message = f"The release holds revision {own.revision} of kit {shown(entry)}, and {revision} is not there."
        return Fault("/kit/revision", "unknown_revision", message, str(own.revision))
    known = lookup.slugs("kit")
    there = f"it has {listing(known)}" if known else "it has none"
    message = f"The catalogue release has no kit {shown(entry)}; {there}."
    return Fault("/kit/entry", "unknown_entry", message, nearest(entry, known))


def _decoded(found: FoundEntry) -> KitDocument:
    return msgspec.json.decode(found.body, type=KitDocument)


def _items(kind: Callable[..., Any], sent: Any, at: str, lines: Any) -> tuple[tuple[Any, str, str], ...]:
    """Items of the entry, corrected by what was sent with their ids, then what was sent beside them; each with where it
    was sent, and where its entry was named if that is elsewhere."""
    beside = [] if sent is UNSET else list(sent)
    own: dict[str, int] = {}
    for place, item in enumerate(beside):
        own.setdefault(item.id, place)
    found: list[tuple[Any, str, str]] = []
    taken: set[int] = set()
    for line in () if lines is UNSET else lines:
        for name in kit_ids(line):
            if name not in own:
                found.append((kind(id=name, entry=line.entry, revision=line.revision), "/kit/entry", "/kit/entry"))
                continue
            place = own[name]
            taken.add(place)
            item = beside[place]
            if item.entry is not UNSET:
                found.append((item, f"{at}/{place}", ""))
                continue
            revision = line.revision if item.revision is UNSET else item.revision
            found.append((structs.replace(item, entry=line.entry, revision=revision), f"{at}/{place}", "/kit/entry"))
    found += [(item, f"{at}/{place}", "") for place, item in enumerate(beside) if place not in taken]
    return tuple(found)


def with_leaders(names: set[str], content: KitContent) -> set[str]:
    """With every tool that one of them follows, which must be there too."""
    follows = {tool.id: tool.follows for tool, _, _ in content.tools if tool.follows is not UNSET}
    found = set(names)
    for name in names:
        here: Any = name
        while here in follows and follows[here] not in found:
            here = follows[here]
            if here not in {tool.id for tool, _, _ in content.tools}:
                break
            found.add(here)
    return found


def with_followers(names: set[str], content: KitContent) -> set[str]:
    """With every tool that follows one of them: it runs no more than they do."""
    found = set(names)
    while more := {tool.id for tool, _, _ in content.tools if tool.follows in found} - found:
        found |= more
    return found
