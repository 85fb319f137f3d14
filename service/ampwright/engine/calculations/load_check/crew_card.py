"""What does a crew need to hear, in five lines?

Plain words, nobody's jargon, at most two significant digits: what not to run, what runs only on a condition, what
runs, what to find out, and what happens and what to do when it stops. Ids, places and conditions are as their owners
wrote them.
Not here: figures and reasons (the answer's findings), what is told of a trip (crew_card_trip.py).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check.crew_card_codes import CREW_CARD_CODES
from ampwright.engine.calculations.load_check.load_check_result import CrewLine
from ampwright.engine.calculations.wording import and_list

MOST_NAMED = 4
MOST_LINES = 5


@dataclass(frozen=True, slots=True)
class CaseSummary:
    """What the card says of one case; `reason` is why it fails, `only_if` what a marginal one hangs on besides a push.

    push_breaks : whether it holds only as long as nobody pushes.
    """

    running: tuple[str, ...]
    verdict: str
    reason: str | None
    only_if: str | None = None
    push_breaks: bool = False


@dataclass(frozen=True, slots=True)
class TripTold:
    """What the card says of a trip.

    how : automatic, remote, manual or unknown. after : ` after about 5 s`, empty where not said. walk : where, by whom
    and in which state. unplug_first : tools that start without warning. then : what becomes of the others, in words.
    """

    how: str
    after: str = ""
    walk: str = ""
    unplug_first: tuple[str, ...] = ()
    then: str = ""


def crew_card(
    cases: tuple[CaseSummary, ...],
    question: str | None,
    trip: TripTold,
    starts_assessed: bool,
    not_allowed: str | None = None,
    dangers: tuple[str, ...] = (),
) -> tuple[CrewLine, ...]:
    """At most five lines, most important first; the last ones are of a trip.

    not_allowed : what the rules that were asked for forbid, whichever tools run; None where they forbid nothing.
    dangers : of the site, whichever tools run; they come first, and no other reason stands before them.
    """
    failing = [case for case in cases if case.verdict == "fail"]
    unsure = [case for case in cases if case.verdict == "unknown"]
    caring = [case for case in cases if case.verdict == "marginal" and case.only_if]
    marginal = [case for case in cases if case.verdict == "marginal" and not case.only_if]
    good = [case for case in cases if case.verdict == "pass"]
    lines: list[CrewLine] = []
    if dangers:
        more = f" And {len(dangers) - 1} more." if len(dangers) > 1 else ""
        lines.append(_line("card_danger", reason=f"{dangers[0]}{more}"))
    failing = [case for case in failing if case.reason not in dangers]
    if failing:
        smallest = min(failing, key=lambda case: (len(case.running), case.running))
        others = len(failing) - 1
        more = f" And {others} more." if others else ""
        lines.append(_line("card_do_not_run", tools=names(smallest.running), reason=f"{_because(smallest)}{more}"))
    if not_allowed:
        lines.append(_line("card_not_allowed", reason=not_allowed))
    if unsure:
        lines.append(_line("card_find_out", tools=_sets(unsure), question=question or ""))
    if caring:
        # one line, of the smallest case: larger ones hang on the same and more
        first = min(caring, key=lambda case: (len(case.running), case.running))
        others = len({case.only_if for case in caring}) - 1
        more = f" And {others} more." if others else ""
        push = " And do not push hard." if any(case.push_breaks for case in caring) else ""
        reason = f"{first.only_if or ''}{more}{push}"
        lines.append(_line("card_starts_only_if", tools=_sets(caring), reason=reason))
    if marginal:
        lines.append(_line("card_only_if", tools=_sets(marginal)))
    if good:
        lines.append(_line("card_runs", tools=_sets(good)))
    if not starts_assessed and (good or marginal or caring):
        lines.append(_line("card_starts_open"))
    last = [_if_it_stops(trip)]
    if trip.then:
        last.append(_line("card_after_it", reason=trip.then))
    return (*lines[: MOST_LINES - len(last)], *last)


def _line(code: str, **words: str) -> CrewLine:
    return CrewLine(code, CREW_CARD_CODES[code].format(**words).strip())


def _if_it_stops(trip: TripTold) -> CrewLine:
    if trip.how == "manual":
        return _line("card_stays_off", walk=trip.walk)
    if trip.how == "remote":
        return _line("card_switched_back", walk=trip.walk)
    code = "card_comes_back" if trip.how == "automatic" else "card_may_come_back"
    if trip.unplug_first:
        return _line(f"{code}_unplug", after=trip.after, tools=names(trip.unplug_first))
    return _line(code, after=trip.after)


def names(of: tuple[str, ...]) -> str:
    """`a, b, c, d and 3 more`."""
    if len(of) > MOST_NAMED:
        return f"{', '.join(of[:MOST_NAMED])} and {len(of) - MOST_NAMED} more"
    return and_list(of)


def _sets(cases: list[CaseSummary]) -> str:
    """The largest sets, singles last; a set inside another that is named already says nothing new."""
    ordered = sorted(cases, key=lambda case: (-len(case.running), case.running))
    named: list[CaseSummary] = []
    for case in ordered:
        if not any(set(case.running) <= set(other.running) for other in named):
            named.append(case)
    shown = "; ".join(" + ".join(case.running[:MOST_NAMED]) for case in named[:3])
    return f"{shown} and others" if len(named) > 3 else shown


def _because(case: CaseSummary) -> str:
    return case.reason or "it does not hold."
