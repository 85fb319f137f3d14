"""Which defaults did an answer lean on, and what happens when one is taken the other way?

Every figure that a caller left out passes through a `Ledger`. It records the value on the safe side, and, where the
other side is known, hands that out instead when it is asked to: so that a check can be run again with one assumption
flipped, to learn whether that assumption alone decides between fail and not fail.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TypeVar

from ampwright.engine.site.pointers import is_from_reference

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Assumption:
    """One default. `code` is listed in assumption_codes; `if_instead` is None where no single other side exists.

    `subject` names the tool or cord where the pointer cannot: those that a kit brought all point at the kit.
    """

    code: str
    pointer: str
    value: str
    if_instead: str | None = None
    subject: str = ""

    @property
    def key(self) -> str:
        return key_of(self.code, self.pointer, self.subject)


def key_of(code: str, pointer: str, subject: str = "") -> str:
    """What names an assumption among all of a site."""
    return f"{code}:{pointer}:{subject}" if subject else f"{code}:{pointer}"


class Ledger:
    """Collects assumptions in the order of the site; `flipped` holds the keys to take the other way."""

    def __init__(self, flipped: frozenset[str] = frozenset()) -> None:
        self._flipped = flipped
        self._found: dict[str, Assumption] = {}
        self._subject = ""

    @contextmanager
    def about(self, subject: str) -> Iterator[None]:
        """Whom the defaults inside are about; kept only where a pointer does not say it."""
        before, self._subject = self._subject, subject
        try:
            yield
        finally:
            self._subject = before

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
        subject = self._subject if is_from_reference(pointer) else ""
        key = key_of(code, pointer, subject)
        if key not in self._found:
            self._found[key] = Assumption(
                code,
                pointer,
                f"{subject}: {shown}" if subject else shown,
                other_shown if other is not None else None,
                subject,
            )
        if other is not None and key in self._flipped:
            return other
        return value

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        return tuple(self._found.values())
