"""What does a crew need to hear, in five lines?

Plain words, nobody's jargon, at most two significant digits: what not to run, what runs only on a condition, what
runs, what to find out, and what to do when it stops.
Not here: figures and reasons (the answer's findings).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check_result import CrewLine
from ampwright.engine.calculations.wording import and_list

MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class CaseSummary:
    """What the card says of one case; `reason` is the first finding's text, `only_if` what its starts hang on."""

    running: tuple[str, ...]
    verdict: str
    reason: str | None
    only_if: str | None = None


def crew_card(
    cases: tuple[CaseSummary, ...],
    question: str | None,
    returns_by_itself: bool | None,
    unplug_first: tuple[str, ...],
    starts_assessed: bool,
) -> tuple[CrewLine, ...]:
    """At most five lines, most important first.

    returns_by_itself : of the source after a trip; None is unknown and read as yes.
    unplug_first : tools that start without warning when power returns.
    """
    failing = [case for case in cases if case.verdict == "fail"]
    unsure = [case for case in cases if case.verdict == "unknown"]
    starting = [case for case in cases if case.verdict == "marginal" and case.only_if]
    marginal = [case for case in cases if case.verdict == "marginal" and not case.only_if]
    good = [case for case in cases if case.verdict == "pass"]
    lines: list[CrewLine] = []
    if failing:
        smallest = min(failing, key=lambda case: (len(case.running), case.running))
        others = len(failing) - 1
        more = f" And {others} more." if others else ""
        lines.append(CrewLine("card_do_not_run", f"Do not run {_names(smallest.running)}: {_because(smallest)}{more}"))
    if unsure:
        lines.append(CrewLine("card_find_out", f"Not known yet for {_sets(unsure)}. {question or ''}".strip()))
    if starting:
        # one line, of the smallest case: larger ones hang on the same start and more
        first = min(starting, key=lambda case: (len(case.running), case.running))
        lines.append(CrewLine("card_starts_only_if", f"Runs: {_sets(starting)}. But: {first.only_if}"))
    if marginal:
        lines.append(CrewLine("card_only_if", f"Runs, but not when pushed hard: {_sets(marginal)}."))
    if good:
        lines.append(CrewLine("card_runs", f"Runs: {_sets(good)}."))
    if not starts_assessed and (good or marginal or starting):
        lines.append(
            CrewLine("card_starts_open", "Whether motors start on this source is not checked: try one at a time.")
        )
    lines.append(CrewLine("card_if_it_stops", _if_it_stops(returns_by_itself, unplug_first)))
    return (*lines[:4], lines[-1]) if len(lines) > 5 else tuple(lines)


def _if_it_stops(returns_by_itself: bool | None, unplug_first: tuple[str, ...]) -> str:
    if returns_by_itself is False:
        return "If it stops, it stays off: switch every tool off, unplug some, then reset."
    how = "power returns by itself" if returns_by_itself else "power may return by itself"
    if unplug_first:
        return f"If it stops, {how}: switch off and unplug {_names(unplug_first)} at once."
    return f"If it stops, {how}: switch every tool off first."


def _names(names: tuple[str, ...]) -> str:
    if len(names) > MOST_NAMED:
        return f"{', '.join(names[:MOST_NAMED])} and {len(names) - MOST_NAMED} more"
    return and_list(names)


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
