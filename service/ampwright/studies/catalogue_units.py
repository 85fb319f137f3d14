"""Does a source unit fit the kind of source that it is of?

Its corrections are laid over that document as a load check would lay them, and the outcome must be a sound document.
A kind that is revised later may fit no more; then the load check that uses the unit says so.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.database import Database
from ampwright.catalogue.revisions import get_revision, head
from ampwright.catalogue.search import LARGEST_PAGE, Filter, encode_cursor, search_entries
from ampwright.catalogue.values import is_slug
from ampwright.contract.document_bodies import decode_document
from ampwright.contract.document_check import check_document
from ampwright.contract.documents import FORMAT, PowerSourceDocument, SourceUnit
from ampwright.contract.merge import Merge
from ampwright.contract.places import Places
from ampwright.engine.site.nearest import nearest, shown
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order


def unit_faults(database: Database, unit: SourceUnit, *, suggest: bool = True) -> tuple[Fault, ...]:
    """Faults of a unit against the newest revision of its kind, or the one it names.

    suggest: look for the source that may have been meant, which costs some milliseconds. Errors: DatabaseUnavailable.
    """
    kind = (
        head(database, "power-source", unit.entry)
        if unit.revision is UNSET
        else get_revision(database, "power-source", unit.entry, unit.revision)
    )
    if kind is None:
        message = f"The catalogue has no such power source {shown(unit.entry)}."
        if unit.revision is not UNSET and (newest := head(database, "power-source", unit.entry)):
            message = f"Power source {shown(unit.entry)} has no such revision; its newest is {newest.revision}."
            return (Fault("/revision", "unknown_revision", message),)
        return (Fault("/entry", "unknown_entry", message, _meant(database, unit.entry) if suggest else None),)
    if unit.corrections is UNSET:
        return ()
    own: Any = decode_document("power-source", FORMAT, kind.body)
    corrections = msgspec.to_builtins(unit.corrections)
    if strange := sorted(set(corrections) - set(own.__struct_fields__)):
        message = f"The unit is of a {own.__struct_config__.tag}, which has no such member."
        return tuple(Fault(f"/corrections/{name}", "member_of_another_kind", message) for name in strange)
    merge = Merge("/entry")
    merged = merge.members(msgspec.json.decode(kind.body), corrections, "", "/corrections")
    repeated = [Fault(at, "repeated_id", "Two parts of this list have the same id.") for at in merge.repeated]
    try:
        document: PowerSourceDocument = msgspec.convert(merged, type(own))
    except msgspec.ValidationError as error:
        message = f"The entry with the corrections is no valid document: {error}"[:300]
        return in_order((*repeated, Fault("/corrections", "merge_is_no_document", message)))
    moved = {f"/{name}": f"/corrections/{name}" for name in corrections} | merge.moved
    found = check_document("power-source", document)
    return in_order((*repeated, *(replace(one, pointer=Places(moved).of(one.pointer)) for one in found)))


def _meant(database: Database, slug: str) -> str | None:
    """The source that a misspelt one resembles, among the first in order and the first with its initial."""
    wanted, initial = Filter(kind="power-source"), slug[:1]
    page = search_entries(database, wanted, limit=LARGEST_PAGE)
    known = [line.slug for line in page.entries]
    if page.next_cursor is not None and is_slug(initial):
        after = encode_cursor("power-source", initial)
        known += [line.slug for line in search_entries(database, wanted, cursor=after, limit=LARGEST_PAGE).entries]
    return nearest(slug, known)
