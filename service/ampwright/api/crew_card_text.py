"""How is an answer's crew card written as plain text, to print or to send on?

The very lines of the answer, one a line, then what no card may leave out: that it is no permission, and by which
answer it can be proved.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from typing import Protocol


class _Line(Protocol):
    @property
    def text(self) -> str: ...


class _WithCard(Protocol):
    @property
    def crew_card(self) -> Sequence[_Line]: ...
    @property
    def notice(self) -> str: ...
    @property
    def engine_version(self) -> str: ...
    @property
    def request_digest(self) -> str: ...


def crew_card_text(answer: _WithCard) -> str:
    """The card, an empty line, the notice, and the stamp of the answer."""
    lines = [one_line(line.text) for line in answer.crew_card]
    stamp = f"Answer {answer.request_digest}, engine {answer.engine_version}."
    return "\n".join((*lines, "", answer.notice, stamp)) + "\n"


def one_line(text: str) -> str:
    """Words of an owner can hold line separators and marks that turn the reading direction: none gets onto a card."""
    kept = "".join(" " if unicodedata.category(sign) in ("Zl", "Zp", "Cc") else sign for sign in text)
    return " ".join("".join(sign for sign in kept if unicodedata.category(sign) != "Cf").split())
