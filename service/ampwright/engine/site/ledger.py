"""Which defaults did an answer lean on, and what happens when one is taken the other way?

Every figure that a caller left out passes through a `Ledger`. It records the value on the safe side, and, where the
other side is known, hands that out instead when it is asked to: so that a check can be run again with one assumption
flipped, to learn whether that assumption alone decides between fail and not fail.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Assumption:
    """One default. `code` is listed in assumption_codes; `if_instead` is None where no single other side exists."""

    code: str
    pointer: str
    value: str
    if_instead: str | None = None

    @property
    def key(self) -> str:
        return f"{self.code}:{self.pointer}"


class Ledger:
    """Collects assumptions in the order of the site; `flipped` holds the keys to take the other way."""

    def __init__(self, flipped: frozenset[str] = frozenset()) -> None:
        self._flipped = flipped
        self._found: dict[str, Assumption] = {}

    def assume(
        self,
        code: str,
        pointer: str,
        value: T,
        shown: str,
        other: T | None = None,
        other_shown: str | None = None,
    ) -> T:
        """Record a default and give its value; gives `other` when this assumption is flipped."""
        assumption = Assumption(code, pointer, shown, other_shown if other is not None else None)
        self._found.setdefault(assumption.key, assumption)
        if other is not None and assumption.key in self._flipped:
            return other
        return value

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        return tuple(self._found.values())
