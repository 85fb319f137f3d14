"""Which known name did a misspelt one probably mean?"""

from __future__ import annotations

import difflib
from collections.abc import Iterable

LONGEST_WORD = 100  # characters: longer than any name of ours, and difflib takes seconds on a megabyte
MOST_COMPARED = 2000
MOST_SHOWN = 12


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name that `word` resembles most, None when none does. Ties go to the first in sorted order."""
    if len(word) > LONGEST_WORD:
        return None
    names = sorted(known)[:MOST_COMPARED]
    folded: dict[str, str] = {}
    for name in names:
        folded.setdefault(name.casefold(), name)
    found = difflib.get_close_matches(word.strip().casefold(), list(folded), n=1, cutoff=0.6)
    return folded[found[0]] if found else None


def shown(word: str, longest: int = 48) -> str:
    """`word` in quotes, cut to a length that a message can carry, with nothing unprintable in it."""
    return repr(word if len(word) <= longest else word[: longest - 3] + "...")


def listing(known: Iterable[str]) -> str:
    """Known names for a message: in order, the first dozen, and how many more there are."""
    names = list(dict.fromkeys(known))
    more = len(names) - MOST_SHOWN
    return ", ".join(names[:MOST_SHOWN]) + (f" and {more} more" if more > 0 else "")
