"""What is to be made of what follows a trip?

A motor that burns while a source tries again by itself is a danger; where nobody said how the source comes back it is
a question. Everything else that needs a trip first is marginal: the trip itself is judged by the figures.
Rule of the project: what shows only at the hard estimate is marginal.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.after_trip import AfterTrips, TripCourse
from ampwright.engine.calculations.after_trip.reset_words import walk_text
from ampwright.engine.calculations.after_trip.restart_load import STAYS_OFF
from ampwright.engine.calculations.after_trip.trip_triggers import CIRCUIT
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.starts.own_protector import BY_HAND, BY_ITSELF, REFRIGERATOR, protector_of
from ampwright.engine.calculations.starts.starts import STARTED, Starts
from ampwright.engine.calculations.wording import plain_time
from ampwright.engine.physics.stalled_winding import WINDING_LIMIT_C
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.thin_air import AT_ALTITUDE

KEEPS_SOMETHING = ("pump", "refrigerator")  # water out, food cold


def after_trip_checks(site: SettledSite, after: AfterTrips, starts: Starts, case: int) -> tuple[Check, ...]:
    """Checks of one case, the worst of each tool only."""
    found: list[Check] = []
    for course in after.cases[case]:
        found += _burns(site, course)
        found += _stands(site, course, starts)
        found += _opens_again(site, after, course)
        found += _stays_off(site, course)
    return tuple(found)


def _burns(site: SettledSite, course: TripCourse) -> list[Check]:
    if course.courses is None or not course.reset.by_itself:
        return []
    _, typical, high = course.courses
    by_typical, by_hard = dict(typical.winding_c), dict(high.winding_c)
    found: list[Check] = []
    for i, hot in by_hard.items():
        usual = by_typical.get(i, 0.0)
        sure = usual > WINDING_LIMIT_C and course.trigger.sure
        if hot <= WINDING_LIMIT_C:
            continue
        tool = site.placements[i].tool
        verdict, where = "marginal", tool.pointer
        if sure:
            verdict = "fail" if course.reset.how == "automatic" else "unknown"
            where = tool.pointer if verdict == "fail" else course.reset.pointer
        value = usual if usual > WINDING_LIMIT_C else hot
        shown = typical if usual > WINDING_LIMIT_C else high
        found.append(
            Check(
                "return_overheats_motor", "safety", where, tool.id, verdict, round(value), WINDING_LIMIT_C, "degC",
                (i,), _again(shown.ending, shown.tries),
            )
        )  # fmt: skip
    return found


def _again(ending: str, tries: int) -> str:
    if ending == "goes_on_and_off":
        return "again and again"
    if ending == "locked_out":
        return "once" if tries == 1 else f"{tries} times"
    return "without an end"


def _stands(site: SettledSite, course: TripCourse, starts: Starts) -> list[Check]:
    if course.courses is None:
        return []
    stuck = dict(course.courses[HIGH].stuck) | dict(course.courses[TYPICAL].stuck)
    surely = dict(course.courses[TYPICAL].stuck)
    found: list[Check] = []
    for i in stuck:
        placement = site.placements[i]
        if placement.load_class.name == REFRIGERATOR and levels_out(starts, course.trigger.case, i):
            found.append(Check("comes_back_late", "capacity", placement.tool.pointer, placement.tool.id, "pass"))
            continue
        text = _WHY.get(stuck[i], _stands_text(placement))
        found.append(
            Check(
                "stalls_when_power_returns", "capacity", placement.tool.pointer, placement.tool.id, "marginal",
                tools=(i,), value_text=text if i in surely else f"at its worst {text}",
            )
        )  # fmt: skip
    return found


def _stands_text(placement: Placement) -> str:
    how = protector_of(placement)
    if how == BY_ITSELF:
        return "it stands still, and its own protector switches it off and on again without warning"
    return "it stands still until its own protector opens" if how == BY_HAND else "it stands still"


_WHY = {
    "source_limits": "the source holds its current down and it stands still",
    "shuts_off": "the source switches off again",
    "collapses": "the voltage collapses, or the engine dies and somebody has to start it again",
    "hunts": "its start switch goes in and out without an end",
}


def levels_out(starts: Starts, case: int, tool: int) -> bool:
    """Whether a tool that does not start against its pressure starts once that has levelled out."""
    return any(one.tool == tool and one.outcomes[TYPICAL] in STARTED for one in starts.of_case(case))


def _opens_again(site: SettledSite, after: AfterTrips, course: TripCourse) -> list[Check]:
    if course.courses is None or not course.reset.by_itself:
        return []
    for estimate in (TYPICAL, HIGH):
        shown = course.courses[estimate]
        if shown.opens_again is None:
            continue
        often = "until it locks out" if shown.ending == "locked_out" else "again and again"
        text = often if estimate == TYPICAL else f"at worst {often}"
        text = f"{text}, {_seconds(shown.holds_s)} after each return"
        pointer = opener_pointer(site, after, course)
        name = opener_name(site, after, shown.opens_again)
        return [
            Check(
                "trips_again_on_return", "capacity", pointer, name, "marginal", tools=course.on, value_text=text,
                limit_text=name,
            )
        ]  # fmt: skip
    return []


def _seconds(seconds: float) -> str:
    return "at once" if seconds < 0.1 else plain_time(seconds)


def opener_pointer(site: SettledSite, after: AfterTrips, course: TripCourse) -> str:
    """Where the device or limit that opens stands in the request."""
    if course.trigger.kind == CIRCUIT:
        return site.source.circuits[course.trigger.index].pointer
    return after.limits[course.trigger.index].pointer


def opener_name(site: SettledSite, after: AfterTrips, at: tuple[str, int]) -> str:
    """Id of a circuit or limit; an output that nobody stated is the source."""
    kind, index = at
    if kind == CIRCUIT:
        return site.source.circuits[index].id
    name = after.limits[index].id
    return (site.source.source.name or "the source") if name in ("assumed-output", AT_ALTITUDE) else name


def _stays_off(site: SettledSite, course: TripCourse) -> list[Check]:
    found: list[Check] = []
    locks_out = course.courses is not None and [one.ending == "locked_out" for one in course.courses]
    for i in course.switches:
        placement = site.placements[i]
        tool = placement.tool
        keeps = placement.load_class.name in KEEPS_SOMETHING and tool.must_return is not False
        where = member_of(tool.pointer, "must_return")
        if tool.must_return and course.reset.how == "automatic":
            if locks_out and locks_out[HIGH]:
                verdict = "fail" if locks_out[TYPICAL] and course.trigger.sure else "marginal"
                found.append(Check("locks_out_and_stays_off", "safety", where, tool.id, verdict, tools=(i,)))
            continue
        lost = course.reset.may_stay_off or bool(locks_out and locks_out[HIGH])
        off = course.switches[i] in STAYS_OFF
        if keeps and not tool.must_return and (lost or off):
            text = walk_text(course.reset) if lost else "switches it on"
            found.append(
                Check(
                    "stays_off_after_trip", "safety", where, tool.id, "marginal", tools=(i,), value_text=text
                )
            )  # fmt: skip
    return found


def is_lost(course: TripCourse, tool_must_return: bool | None, load_class: str, state: str) -> bool:
    """Whether what a tool keeps may be lost while its power is off. state : how its switch is left."""
    if not (tool_must_return or (load_class in KEEPS_SOMETHING and tool_must_return is not False)):
        return False
    if state in STAYS_OFF:
        return True
    locked = course.courses is not None and course.courses[HIGH].ending == "locked_out"
    return course.reset.may_stay_off or locked
