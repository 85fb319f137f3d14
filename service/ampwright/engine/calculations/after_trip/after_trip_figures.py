"""Which figures does an answer show of what follows a trip?

Outcome and ending are those of the typical estimate, with all three beside them where they differ; times are the
earliest of the hard and the latest of the easy one. A tool has every meaning that may hold, worst first: an unknown
reset is automatic for danger and manual for lost work.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.after_trip import AfterTrips, TripCourse, never
from ampwright.engine.calculations.after_trip.after_trip_checks import is_lost, levels_out, opener_name
from ampwright.engine.calculations.after_trip.reset_words import reset_text
from ampwright.engine.calculations.after_trip.restart_load import AUTOMATIC, LET_GO, STAYS_OFF, comes_on
from ampwright.engine.calculations.after_trip.trip_resets import TripReset
from ampwright.engine.calculations.after_trip.trip_triggers import CIRCUIT, STARTING
from ampwright.engine.calculations.load_check.load_check_result import (
    AfterTripFigure,
    AfterTripTool,
    FigureBand,
    Outcomes,
    TripResetFigure,
)
from ampwright.engine.calculations.starts.starts import Starts
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.settled import SettledSite

NOT_ASSESSED = "not_assessed"


def after_trip_figures(site: SettledSite, after: AfterTrips, starts: Starts, case: int) -> tuple[AfterTripFigure, ...]:
    """One figure for each device or limit that may open first in a case."""
    return tuple(_figure(site, after, starts, one) for one in after.cases[case])


def opener_kind(site: SettledSite, course: TripCourse) -> str:
    """One of after_trip_codes.OPENERS."""
    if course.trigger.kind != CIRCUIT:
        return "limit"
    device = site.source.circuits[course.trigger.index].device
    return device.kind if device is not None else "unknown"


def _figure(site: SettledSite, after: AfterTrips, starts: Starts, one: TripCourse) -> AfterTripFigure:
    trigger = one.trigger
    tools = tuple(_tool(site, starts, one, i) for i in one.switches)
    base = AfterTripFigure(
        opener_name(site, after, (trigger.kind, trigger.index)),
        opener_kind(site, one),
        trigger.occasion,
        trigger.place,
        _reset(one.reset),
        NOT_ASSESSED,
        NOT_ASSESSED,
        site.placements[trigger.tool].tool.id if trigger.tool is not None else None,
        # when a source goes off within a start is not kept, only that it does
        None if trigger.kind != CIRCUIT and trigger.occasion == STARTING else never(trigger.earliest_s),
        never(trigger.latest_s),
        tools=tools,
    )
    if one.courses is None:
        return base
    low, typical, high = one.courses
    outcomes = (low.outcome, typical.outcome, high.outcome)
    endings = (low.ending, typical.ending, high.ending)
    again = typical.opens_again or high.opens_again
    return AfterTripFigure(
        base.opens, base.opener, base.occasion, base.place, base.reset, typical.outcome, typical.ending, base.tool,
        base.earliest_s, base.latest_assumed_s,
        Outcomes(*outcomes) if len(set(outcomes)) > 1 else None,
        Outcomes(*endings) if len(set(endings)) > 1 else None,
        opener_name(site, after, again) if again is not None else None,
        never(high.holds_s), never(low.holds_s), tools,
    )  # fmt: skip


def _reset(reset: TripReset) -> TripResetFigure:
    known = reset.how == "automatic" or reset.delay_given
    after = reset.after_s
    return TripResetFigure(
        reset.how, reset_text(reset), reset.where, reset.by, reset.needs,
        FigureBand(after.low, after.typical, after.high) if known else None, reset.tries,
    )  # fmt: skip


def _tool(site: SettledSite, starts: Starts, one: TripCourse, i: int) -> AfterTripTool:
    placement = site.placements[i]
    state = one.switches[i]
    winding: FigureBand | None = None
    start: str | None = None
    if one.courses is not None:
        # an estimate in which it gets going says nothing of a winding; the band is of those in which it stands
        hot = {e: round(c, 1) for e, course in enumerate(one.courses) for tool, c in course.winding_c if tool == i}
        if hot:
            winding = FigureBand(min(hot.values()), hot.get(TYPICAL, min(hot.values())), max(hot.values()))
        start = dict(one.courses[TYPICAL].stuck).get(i) or dict(one.courses[HIGH].stuck).get(i)
    return AfterTripTool(
        placement.tool.id, state, meanings(site, starts, one, i), start if comes_on(state) else None, winding
    )


def meanings(site: SettledSite, starts: Starts, one: TripCourse, i: int) -> tuple[str, ...]:
    """Codes of after_trip_codes.MEANINGS for one tool, worst first."""
    placement = site.placements[i]
    state, how, kind = one.switches[i], one.reset.how, placement.load_class
    found: list[str] = []
    if state in STAYS_OFF:
        if state == LET_GO and kind.hazard_on_restart and how != "manual":
            found.append("kicks_if_held")
        return (*found, *_lost(one, placement.tool.must_return, kind.name, state), "stays_off")
    if kind.hazard_on_restart:
        found.append({"remote": "starts_unseen", "manual": "starts_at_reset"}.get(how, "starts_without_warning"))
    stuck = {tool: why for e in (HIGH, TYPICAL) if one.courses is not None for tool, why in one.courses[e].stuck}
    late = i in stuck and kind.name == "refrigerator" and levels_out(starts, one.trigger.case, i)
    if i in stuck and not late:
        found.append("does_not_restart" if stuck[i] in ("shuts_off", "collapses") else "stands_still")
    found += _lost(one, placement.tool.must_return, kind.name, state)
    if late:
        found.append("comes_back_late")
    elif i in stuck:
        pass  # said above
    elif state == AUTOMATIC and kind.is_motor and not kind.hazard_on_restart and kind.name != "refrigerator":
        found.append("starts_by_itself")
    elif not found or found == ["lost_while_off"]:
        # with an open end: it goes on whenever power is back, by itself or by hand
        found.append("comes_back")
    return tuple(found)


def _lost(one: TripCourse, must_return: bool | None, load_class: str, state: str) -> tuple[str, ...]:
    return ("lost_while_off",) if is_lost(one, must_return, load_class, state) else ()
