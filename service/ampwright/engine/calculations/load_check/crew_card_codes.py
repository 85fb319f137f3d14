"""Which lines can stand on a crew card of a load check, and in which words?

Templates in plain words; `{...}` stands for tools, for a reason or for a place in its owner's words. Served as a list,
so that a card can be translated. Source: practice of the trade.
"""

from __future__ import annotations

CREW_CARD_CODES: dict[str, str] = {
    "card_danger": "Do not start, danger: {reason}",
    "card_not_allowed": "Not allowed by the rules that apply: {reason}",
    "card_do_not_run": "Do not run {tools}: {reason}",
    "card_find_out": "Not known yet for {tools}. {question}",
    "card_starts_only_if": "Runs: {tools}. But: {reason}",
    "card_only_if": "Runs, but not when pushed hard: {tools}.",
    "card_runs": "Runs: {tools}.",
    "card_starts_open": "Whether motors start on this source is not checked: try one at a time.",
    "card_stays_off": "If it stops, it stays off: switch every tool off, unplug some, then reset{walk}.",
    "card_switched_back": "If it stops, it is reset from a distance{walk}: look at every tool and switch it off first.",
    "card_comes_back": "If it stops, power returns by itself{after}: switch every tool off first.",
    "card_comes_back_unplug": "If it stops, power returns by itself{after}: switch off and unplug {tools} at once.",
    "card_may_come_back": "If it stops, power may return by itself: switch every tool off first.",
    "card_may_come_back_unplug": "If it stops, power may return by itself: switch off and unplug {tools} at once.",
    "card_after_it": "After that: {reason}.",
}
