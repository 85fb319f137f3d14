"""What is a catalogue document with corrections beside it?

What stands beside a reference wins, member by member; lists go by the `id` of their items, in the document's order with
what is new after it; a union (it has a `kind`) and any other list are taken whole. An empty list is a statement and
wins like any other. Nothing can be taken out of a document by a correction.
"""

from __future__ import annotations

from typing import Any

Raw = dict[str, Any]  # a struct as plain dicts and lists, omitted members left out


class Merge:
    """One correction of one document, and where each part of the outcome came from.

    moved : pointer into the outcome -> pointer into the request as sent, as contract/places.py reads it.
    repeated : pointers, as sent, of list items that repeat an id; only the first of them was taken.
    """

    def __init__(self, reference: str) -> None:
        self.reference = reference
        self.moved: dict[str, str] = {}
        self.repeated: list[str] = []

    def members(self, document: Raw, beside: Raw, at: str, sent: str) -> Raw:
        """The outcome at `at` of `document` and what was sent beside it at `sent`."""
        outcome: Raw = {}
        for name, value in document.items():
            if name in beside:
                outcome[name] = self._value(value, beside[name], f"{at}/{name}", f"{sent}/{name}")
            else:
                outcome[name] = value
                self.moved[f"{at}/{name}"] = self.reference
        for name, value in beside.items():
            if name not in outcome:
                outcome[name] = value
        return outcome

    def _value(self, document: Any, beside: Any, at: str, sent: str) -> Any:
        if isinstance(document, dict) and isinstance(beside, dict) and "kind" not in document:
            return self.members(document, beside, at, sent)
        if _is_by_id(document) and _is_by_id(beside):
            return self._items(document, beside, at, sent)
        return beside

    def _items(self, document: list[Raw], beside: list[Raw], at: str, sent: str) -> list[Raw]:
        corrections: dict[str, tuple[int, Raw]] = {}
        for place, item in enumerate(beside):
            if item["id"] in corrections:
                self.repeated.append(f"{sent}/{place}/id")
            corrections.setdefault(item["id"], (place, item))
        outcome: list[Raw] = []
        for item in document:
            here = f"{at}/{len(outcome)}"
            if item["id"] in corrections:
                place, correction = corrections.pop(item["id"])
                self.moved[here] = f"{sent}/{place}"
                outcome.append(self.members(item, correction, here, f"{sent}/{place}"))
            else:
                self.moved[here] = self.reference
                outcome.append(item)
        for place, item in corrections.values():
            self.moved[f"{at}/{len(outcome)}"] = f"{sent}/{place}"
            outcome.append(item)
        return outcome


def _is_by_id(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(item, dict) and "id" in item for item in value)
