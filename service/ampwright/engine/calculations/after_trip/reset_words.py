"""How is it said how power comes back: by itself, from a distance, or by whose walk to where?

Places, people and conditions are in the owner's own words, never rewritten, shortened on a card only.
Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.trip_resets import TripReset
from ampwright.engine.calculations.wording import plain_time
from ampwright.engine.site.band import Band
from ampwright.engine.site.source import Reset

MOST_LETTERS = 60  # of an owner's words on a card
_OWN_WORDS = (" ", ".", ",", ";", ":")


def reset_text(reset: TripReset) -> str:
    """One sentence, for an answer."""
    if reset.how == "automatic":
        return f"By itself after {_after(reset)}{_tries(reset)}."
    if reset.how == "remote":
        return f"From a distance{_walk(reset)}; only after somebody has looked at every tool."
    if reset.how == "manual":
        return f"By hand{_walk(reset)}."
    return "Not known: treat it as able to come back by itself, and as able to stay off."


def walk_text(reset: TripReset) -> str:
    """What a person does, for the middle of a sentence: `resets it at the panel: push the button in`."""
    if reset.how in ("automatic", "unknown"):
        return f"resets it{_walk(reset)}" if reset.how == "automatic" else "has reset it"
    verb = "has looked at every tool and resets it from a distance" if reset.how == "remote" else "resets it"
    return f"{verb}{_walk(reset)}"


def card_walk(reset: TripReset) -> str:
    """Where, by whom and in which state, short: ` at panel, by anyone: push the button in`."""
    return _walk(reset, MOST_LETTERS)


def plain_walk(reset: Reset | None) -> str:
    """The same of the reset of a source as a whole."""
    return "" if reset is None else _way(reset.where, reset.by, reset.needs, MOST_LETTERS)


def after_text(after_s: Band | None, tries: int | None) -> str:
    """` after about 5 s, up to 2 times`; empty where no delay was said."""
    if after_s is None:
        return ""
    often = "" if tries is None else ", once" if tries == 1 else f", up to {tries} times"
    return f" after about {plain_time(after_s.typical)}{often}"


def _after(reset: TripReset) -> str:
    low, high = plain_time(reset.after_s.low), plain_time(reset.after_s.high)
    return low if low == high else f"{low} to {high}"


def _tries(reset: TripReset) -> str:
    if reset.tries is None:
        return ", again and again"
    if reset.tries == 0:
        return ", but it locks out at the first trip"
    return f", {reset.tries} {'try' if reset.tries == 1 else 'tries'}, then it stays off"


def _walk(reset: TripReset, most: int | None = None) -> str:
    return _way(reset.where, reset.by, reset.needs, most)


def _way(where: str | None, by: str | None, needs: str | None, most: int | None) -> str:
    at = f" at {_short(where, most)}" if where else ""
    whose = f", by {_short(by, most)}" if by else ""
    state = f": {_short(needs, most)}" if needs else ""
    return f"{at}{whose}{state}"


def _short(words: str, most: int | None) -> str:
    words = " ".join(words.split()).rstrip(".")
    if most is None or len(words) <= most:
        return words
    return words[: most - 3].rstrip("".join(_OWN_WORDS)) + "..."
