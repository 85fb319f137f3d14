"""Which answers are kept, so that the next request for them can ask whether anything has changed?

Source: RFC 9110, 13.1.2 (If-None-Match) and 15.4.5 (304).
"""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock

__all__ = ["Kept"]

_MOST = 256
_LARGEST = 1 << 20  # bytes


class Kept:
    """The newest answers with an entity tag, by address; the one not used for longest goes first."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._answers: OrderedDict[str, tuple[str, bytes]] = OrderedDict()

    def find(self, address: str) -> tuple[str, bytes] | None:
        """Entity tag and body."""
        with self._lock:
            found = self._answers.get(address)
            if found is not None:
                self._answers.move_to_end(address)
            return found

    def keep(self, address: str, entity_tag: str, body: bytes) -> None:
        if not entity_tag or len(body) > _LARGEST:
            return
        with self._lock:
            self._answers[address] = (entity_tag, body)
            self._answers.move_to_end(address)
            while len(self._answers) > _MOST:
                self._answers.popitem(last=False)
