"""What changed from one revision to the next, in words that a person reads?

Two bodies are compared as JSON values: the order of members and the form of numbers do not count. Items of a list that
have an `id` are the same item wherever they stand; lists of plain values are compared whole.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

import msgspec

LONGEST_SHOWN = 80


@dataclass(frozen=True, slots=True)
class Difference:
    """One difference.

    pointer: RFC 6901, into the new body, or into the old one for what was removed. before, after: the JSON values;
    None where there is none (JSON null does not occur in documents). text: one line in English.
    """

    pointer: str
    change: Literal["added", "removed", "changed"]
    before: Any
    after: Any
    text: str


def differences(old: bytes, new: bytes) -> tuple[Difference, ...]:
    """Every difference between two bodies, sorted by pointer. Errors: msgspec.DecodeError (not JSON)."""
    found = _compared(msgspec.json.decode(old), msgspec.json.decode(new), "", "", ())
    return tuple(sorted(found, key=lambda difference: (difference.pointer, difference.change)))


def _compared(old: Any, new: Any, old_at: str, new_at: str, words: tuple[str, ...]) -> Iterator[Difference]:
    if isinstance(old, dict) and isinstance(new, dict):
        for name in sorted(old.keys() | new.keys()):
            step, more = "/" + name.replace("~", "~0").replace("/", "~1"), (*words, name.replace("_", " "))
            if name not in new:
                yield _removed(old[name], old_at + step, more)
            elif name not in old:
                yield _added(new[name], new_at + step, more)
            else:
                yield from _compared(old[name], new[name], old_at + step, new_at + step, more)
    elif _has_ids(old) and _has_ids(new):
        old_places = {item["id"]: place for place, item in enumerate(old)}
        new_places = {item["id"]: place for place, item in enumerate(new)}
        for key in sorted(old_places.keys() | new_places.keys(), key=str):
            more = (*words[:-1], f"{words[-1] if words else 'item'} {key}")
            if key not in new_places:
                yield _removed(old[old_places[key]], f"{old_at}/{old_places[key]}", more)
            elif key not in old_places:
                yield _added(new[new_places[key]], f"{new_at}/{new_places[key]}", more)
            else:
                old_place, new_place = old_places[key], new_places[key]
                yield from _compared(
                    old[old_place], new[new_place], f"{old_at}/{old_place}", f"{new_at}/{new_place}", more
                )
    elif not _same(old, new):
        text = f"{_subject(words)}: {_shown(new)} instead of {_shown(old)}"
        yield Difference(new_at, "changed", old, new, text)


def _same(old: Any, new: Any) -> bool:
    # In Python, True equals 1
    return isinstance(old, bool) == isinstance(new, bool) and bool(old == new)


def _has_ids(value: Any) -> bool:
    if not isinstance(value, list) or not all(isinstance(item, dict) and "id" in item for item in value):
        return False
    ids = [item["id"] for item in value]
    return all(isinstance(one, str) for one in ids) and len(set(ids)) == len(ids)


def _added(value: Any, pointer: str, words: tuple[str, ...]) -> Difference:
    return Difference(pointer, "added", None, value, f"{_subject(words)}: {_shown(value)}, not stated before")


def _removed(value: Any, pointer: str, words: tuple[str, ...]) -> Difference:
    return Difference(pointer, "removed", value, None, f"{_subject(words)}: no longer stated, was {_shown(value)}")


def _subject(words: tuple[str, ...]) -> str:
    return ", ".join(words) or "the document"


def _shown(value: Any) -> str:
    """A value on one line, cut short where it is long."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        inner = ", ".join(f"{name.replace('_', ' ')} {_shown(value[name])}" for name in sorted(value))
        shown = f"({inner})" if inner else "nothing"
    elif isinstance(value, list):
        shown = ", ".join(_shown(item) for item in value) or "nothing"
    elif isinstance(value, str):
        shown = " ".join(value.split()) or "nothing"
    else:
        shown = msgspec.json.encode(value).decode()
    return shown if len(shown) <= LONGEST_SHOWN else shown[: LONGEST_SHOWN - 1] + "…"
