"""Which single changes could mend what follows a trip?

A tool that stays off when power returns, for what stands still and for what comes back beside it; a source, a limit or
a device that comes back in another way; a float or cold box of which nothing is lost. Less beside it, another outlet
and shorter or thicker cords are tried for these findings as for any other (break_even_candidates.py, break_evens.py).
Never offered: a source that tries more often, or later.
"""

from __future__ import annotations

from collections.abc import Iterator

from ampwright.engine.calculations.after_trip.trip_triggers import CIRCUIT
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.load_check.load_check_result import Finding
from ampwright.engine.calculations.reverse.site_edits import Edit
from ampwright.engine.calculations.reverse.source_edits import ResetStated, SourceStated
from ampwright.engine.calculations.reverse.tool_edits import ToolStated
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.use import Site

# what ends when power stays off until a person comes, and what needs that it comes back
STAY_OFF = (
    "restart_without_warning",
    "restarts_if_held",
    "power_sent_back_unseen",
    "restarts_by_itself",
    "return_overheats_motor",
    "trips_again_on_return",
)
COME_BACK = ("must_not_stop", "stays_off_after_trip")
KEPT_OFF = ("return_overheats_motor", "stalls_when_power_returns", "trips_again_on_return")
_BY_HAND = "stay off after a trip until somebody resets it"
_BY_ITSELF = "come back by itself"


def after_trip_changes(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """Edits for one finding, each by itself; subjects : what it is about. base : with what follows a trip."""
    how = "manual" if finding.code in STAY_OFF else "automatic" if finding.code in COME_BACK else None
    if how is not None:
        yield from _source_that(site, base, finding, how)
    if finding.code in KEPT_OFF:
        yield from _kept_off(base, finding, subjects)
    if finding.code == "must_return_switched_off":
        yield from _switched_on(base, subjects)
    if finding.code in ("stays_off_after_trip", "must_return_switched_off"):
        for name in subjects:
            yield ToolStated(name, f"if nothing turns out to be lost while {name} is off", must_return=False)


def _source_that(site: Site, base: Evaluation, finding: Finding, how: str) -> Iterator[Edit]:
    does = _BY_HAND if how == "manual" else _BY_ITSELF
    verb = does.replace("stay", "stays", 1).replace("come", "comes", 1)
    stated = site.source.reset
    if stated is None:
        yield SourceStated(f"if the source turns out to {does}", reset=how)
    elif stated.how != how and not (how == "automatic" and stated.tries == 0):
        # beside a reference the tries that it brings stay, and none is none however it is called
        yield SourceStated(f"on a source that {verb}", reset=how)
    yield from _opener_that(site, base, finding, how, verb)


def _opener_that(site: Site, base: Evaluation, finding: Finding, how: str, verb: str) -> Iterator[Edit]:
    """What opens in these cases and has a reset of its own, whatever the source does."""
    if base.after is None:
        return
    limits = {one.id: one for one in site.source.limits or ()}
    circuits = {one.id: one for one in site.source.circuits or ()}
    seen: set[str] = set()
    for running, courses in zip(base.sets, base.after.cases, strict=True):
        if finding.cases and running.id not in finding.cases:
            continue
        for course in courses:
            if course.reset.how == how:
                continue
            if course.trigger.kind == CIRCUIT:
                name = base.settled.source.circuits[course.trigger.index].id
                circuit = circuits.get(name)
                device = circuit.device if circuit is not None else None
                if circuit is None or device is None or device.reset is None or device.kind == "fuse":
                    continue
                if is_from_reference(circuit.pointer) or name in seen:
                    continue
                seen.add(name)
                yield ResetStated(f"with a device of {name} that {verb}", how, circuit=name)
            else:
                name = base.after.limits[course.trigger.index].id
                if name not in limits or limits[name].reset is None or name in seen:
                    continue
                seen.add(name)
                yield ResetStated(f"where {name} {verb}", how, limit=name)


def _kept_off(base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """Tools that stay off when power returns: the one that is told of first, then those that come back beside it."""
    assert base.after is not None
    on: dict[int, None] = {}
    for running, courses in zip(base.sets, base.after.cases, strict=True):
        if running.id in finding.cases:
            on |= {i: None for course in courses for i in course.on}
    names = [base.settled.placements[i].tool.id for i in on if not base.settled.placements[i].tool.must_return]
    names.sort(key=lambda name: name not in subjects)
    for name in names:
        yield ToolStated(name, f"a {name} that stays off when power returns", restart_protection=True)


def _switched_on(base: Evaluation, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """Another tool of its kind; whether it may start by itself is judged by what it then brings."""
    for placement in base.settled.placements:
        tool = placement.tool
        text = f"a {tool.id} that goes on by itself when power returns"
        if tool.id not in subjects:
            continue
        if tool.restart_protection:
            yield ToolStated(tool.id, text, restart_protection=False)
        elif tool.switch == "constant_pressure":
            yield ToolStated(tool.id, text, switch="positive_on_off")
