"""What stands in a list of a request for an item that cannot be read, so that the others are answered?

Requests whose rows are answered one by one name in `READ_ALONE` the lists whose items are read one by one. What is
wrong with such an item is told in the rows that it would have had.
"""

from __future__ import annotations

from typing import Any

from msgspec import UNSET, Struct, UnsetType

from ampwright.engine.site.nearest import shown
from ampwright.engine.site.use import Fault


class UnreadItem(Struct, frozen=True, kw_only=True):
    """An item in its place. id : as sent; `#` and the place where it cannot be read or names another item already.

    sent : the JSON, for the digest of the request. faults : their pointers go into the request as sent.
    kits, sources : the names that a job holds, None where they cannot be read.
    """

    id: str
    sent: Any
    faults: tuple[Fault, ...]
    kits: list[str] | UnsetType | None = UNSET
    sources: list[str] | UnsetType | None = UNSET


def with_repeated_set_aside(items: list[Any], at: str) -> list[Any]:
    """The items, but for those whose id an earlier one has. at : pointer to their list."""
    # one that cannot be read leaves its id to one that can
    readable = {item.id for item in items if not isinstance(item, UnreadItem)}
    seen: set[str] = set()
    found: list[Any] = []
    for place, item in enumerate(items):
        unread = isinstance(item, UnreadItem)
        named = f"{item.id}#{place}"
        if unread and (item.id in readable or item.id in seen):
            found.append(UnreadItem(**{**_members(item), "id": named}))
        elif not unread and item.id in seen:
            fault = Fault(f"{at}/{place}/id", "repeated_id", f"{shown(item.id)} is there twice.")
            members = {name: getattr(item, name, UNSET) for name in ("kits", "sources")}
            found.append(UnreadItem(id=named, sent=None, faults=(fault,), **members))
        else:
            found.append(item)
            seen.add(item.id)
    return found


def _members(item: UnreadItem) -> dict[str, Any]:
    return {name: getattr(item, name) for name in UnreadItem.__struct_fields__}
