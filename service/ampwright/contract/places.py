"""Where in the request as it was sent did a part of the resolved request come from?

Resolving catalogue entries and kits moves and adds parts. Faults and findings point into what the caller sent, so
every part that was moved or added is remembered here. A part that a document brought points at the reference to it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from ampwright.engine.site.pointers import is_from_reference


@dataclass(frozen=True, slots=True)
class Places:
    """`moved` maps a pointer into the resolved request to a pointer into the request as sent.

    Only parts that are not where they were sent, or were not sent at all, need an entry; a part lies where its nearest
    ancestor lies. A target that is a reference (it ends in `/entry`) swallows the steps below it.
    """

    moved: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    def of(self, pointer: str) -> str:
        """The place, in the request as sent, of a part of the resolved request."""
        if not self.moved:
            return pointer
        here = pointer
        while here:
            target = self.moved.get(here)
            if target is not None:
                return target if is_from_reference(target) else target + pointer[len(here) :]
            here = here.rpartition("/")[0]
        return pointer


AS_SENT = Places()
