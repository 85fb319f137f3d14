"""What does a crew need to hear about a trip?

How power comes back, at worst: by itself before unknown before from a distance before by hand. Where something may open
within its band, the reset of the one that is worst so; else that of the source. Then what becomes of each tool, where
it is more than a switch to press: what stands still and heats up, what stays off and must not, what comes back late.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.after_trip import AfterTrips
from ampwright.engine.calculations.after_trip.after_trip_checks import KEEPS_SOMETHING
from ampwright.engine.calculations.after_trip.after_trip_figures import meanings
from ampwright.engine.calculations.after_trip.reset_words import after_text, card_walk, plain_walk
from ampwright.engine.calculations.load_check.crew_card import TripTold, names
from ampwright.engine.calculations.starts.starts import Starts
from ampwright.engine.site.settled import SettledSite

_WORST_FIRST = ("automatic", "unknown", "remote", "manual")
# meaning, words for one and for several tools
_THEN = (
    ("stands_still", "{tools} may stand still and heat up, switch it off at the tool"),
    ("does_not_restart", "{tools} may not start beside what else is on, switch it off at the tool"),
    ("lost_while_off", "{tools} may stay off, look after it"),
    ("comes_back_late", "{tools} goes on by itself after some minutes"),
    ("comes_back", "{tools} goes on by itself"),
)


def trip_told(site: SettledSite, after: AfterTrips | None, starts: Starts, unplug_first: tuple[str, ...]) -> TripTold:
    """What the card says; unplug_first : tools that start without warning when power returns."""
    courses = [course for case in after.cases for course in case] if after is not None else []
    resets = [course.reset for course in courses]
    of_source = site.source.reset
    how = "unknown" if of_source is None else of_source.how
    worst = min(resets, key=lambda one: _WORST_FIRST.index(one.how), default=None)
    if worst is not None and _WORST_FIRST.index(worst.how) > _WORST_FIRST.index(how):
        worst = None  # what the source as a whole may do is worse than what opens first
    by_meaning: dict[str, dict[str, None]] = {}
    for course in courses:
        for i in course.switches:
            placement = site.placements[i]
            for meaning in meanings(site, starts, course, i):
                tool = placement.tool
                if meaning == "comes_back" and not (tool.must_return or placement.load_class.name in KEEPS_SOMETHING):
                    continue
                by_meaning.setdefault(meaning, {})[tool.id] = None
    told: set[str] = set()
    parts: list[str] = []
    for meaning, words in _THEN:
        tools = tuple(tool for tool in by_meaning.get(meaning, ()) if tool not in told)
        if tools:
            told.update(tools)
            parts.append((words if len(tools) == 1 else _plural(words)).format(tools=names(tools)))
    then = "; ".join(parts)
    if worst is not None:
        after_s = worst.after_s if worst.delay_given else None
        return TripTold(worst.how, after_text(after_s, worst.tries), card_walk(worst), unplug_first, then)
    if of_source is None:
        return TripTold(how, unplug_first=unplug_first, then=then)
    return TripTold(how, after_text(of_source.after_s, of_source.tries), plain_walk(of_source), unplug_first, then)


def _plural(words: str) -> str:
    for one, several in ((" it ", " them "), ("after it", "after them"), ("goes on by itself", "go on by themselves")):
        words = words.replace(one, several)
    return words
