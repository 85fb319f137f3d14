"""What is the smallest change that makes a finding go away?

Every candidate is a whole evaluation of the changed site under the same assumptions, what follows a trip included:
nothing is scaled or guessed. A change is worth telling where the finding gets better and nothing else gets worse in
those cases. What is told is then checked as it would be when posted again, with what is not known taken both ways
(break_even_outcome.py); a change that does not hold then is not told. Kinds of change, in the order in which a crew
would do them: unroll a cord, find out what nobody said, plug into another circuit, a thicker cord, a shorter one,
unplug the least that helps, more people. Of each kind the smallest is told. A chain of yes and no along a cord's length
is searched by halves: more copper length never helps a voltage, a mark or heat.

Never told: adapters, bigger breakers, use above a label, an order of starting.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from ampwright.engine.calculations.after_trip.after_trip_finding_codes import AFTER_TRIP_FINDING_CODES
from ampwright.engine.calculations.load_check.load_check import Withdrawn, with_withdrawn
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, Finding
from ampwright.engine.calculations.network.weld_input import rated_output_a, weld_input
from ampwright.engine.calculations.reverse.break_even_candidates import (
    FOOT_M,
    NO_PROTECTION,
    found_out,
    single_changes,
    subjects_of,
    thicker,
    usual_mark_a,
)
from ampwright.engine.calculations.reverse.break_even_kinds import NOTHING_TOLD, kind_of_change
from ampwright.engine.calculations.reverse.break_even_outcome import Outcomes
from ampwright.engine.calculations.reverse.reaching_edge import Level, kind_of, levels_of
from ampwright.engine.calculations.reverse.site_edits import CordEdit, Edit, Several, Unplug
from ampwright.engine.calculations.reverse.source_edits import LimitStated
from ampwright.engine.calculations.reverse.tool_edits import WeldAtMost
from ampwright.engine.calculations.starts.start_finding_codes import START_FINDING_CODES
from ampwright.engine.calculations.verdicts import ORDER, worst
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.settled import Placement
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate

MOST_FINDINGS = 40  # of one answer, worst first; the others get none
MOST_EVALUATIONS = 250
MOST_UNPLUGGED = 2  # tools left out at once
UNPLUG_TOLD = 2
WELD_STEP_A = 5.0
LEAST_WELD_A = 10.0
# findings of safety that running less answers; a pump that must not stop is not unplugged
UNPLUG_HELPS = (
    "cord_overheats",
    "ground_fault_nuisance",
    "locks_out_and_stays_off",
    "neutral_overloaded",
    "protector_retries",
    "restart_without_warning",
    "return_overheats_motor",
    "stalls_without_trip",
    "stays_off_after_trip",
)
# findings at a tool or a short that less resistance on the way answers, beside those of starts
RUN_HELPS = (
    "fault_not_cleared",
    "low_voltage_at_tool",
    "return_overheats_motor",
    "stalls_when_power_returns",
    "voltage_collapse",
)
# what a change may bring of itself, as a caution: whoever must come back by itself then starts by itself, and a
# ground-fault device stays off once it has tripped
BRINGS = {
    "must_not_stop": ("restarts_by_itself", "restarts_if_held"),
    "must_return_switched_off": ("restarts_by_itself",),
    **dict.fromkeys(NO_PROTECTION, ("must_return_behind_ground_fault",)),
}
KEPT_ON = ("locks_out_and_stays_off", "stays_off_after_trip")  # whoever must come back is not left out for it
ASPECTS = ("capacity", "safety", "code")

Better = Callable[[Edit], str | None]


@dataclass(slots=True)
class _Tries:
    """Evaluations of changed sites, each made once."""

    site: Site
    left: int = MOST_EVALUATIONS
    known: dict[tuple[Edit, tuple[str, ...], bool], Evaluation | None] = field(default_factory=dict)

    def of(self, edit: Edit, cases: tuple[str, ...], *, steady: bool = False) -> Evaluation | None:
        """None where the changed site contradicts itself, or too much was tried already.

        steady : without starts, which cost most; enough to see that a finding of steady use stays.
        """
        at = (edit, cases, steady)
        if at not in self.known:
            if self.left <= 0:
                return None
            self.left -= 1
            changed = edit.site(self.site)
            if changed.cases is not None:
                changed = replace(changed, cases=tuple(case for case in changed.cases if case.id in cases))
            only = frozenset[int]() if steady else None
            self.known[at] = (
                None if validate(changed) else evaluate(changed, frozenset(), only=only, with_after=not steady)
            )
        return self.known[at]


def break_evens(
    site: Site, findings: tuple[Finding, ...], withdrawn: Withdrawn = (), *, posted: bool = True
) -> tuple[Finding, ...]:
    """The findings with what flips each of them, most important finding first until the work allowed is used up.

    site : sound. withdrawn : as of the load check. posted : whether each change is checked as it is when posted again;
    without it `then` is the verdict under the same assumptions, for a caller who checks each change himself.
    Errors: none.
    """
    base = with_withdrawn(evaluate(site, frozenset(), with_needs=True, with_after=True), withdrawn)
    before = levels_of(base), levels_of(evaluate(site, frozenset(), only=frozenset()))
    tries = _Tries(site)
    outcomes = Outcomes(site, withdrawn) if posted else None
    told: list[Finding] = []
    for number, finding in enumerate(findings):
        if finding.code in NOTHING_TOLD or finding.severity == "info" or finding.aspect not in ASPECTS:
            told.append(replace(finding, no_break_even="no_change"))
            continue
        if number >= MOST_FINDINGS:
            told.append(replace(finding, no_break_even="too_much_work"))
            continue
        evens = _of(site, base, before, tries, outcomes, finding)
        ended = tries.left <= 0 or (outcomes is not None and not outcomes.all_tried)
        why = None if evens else "too_much_work" if ended else "none_helps"
        told.append(replace(finding, break_even=evens, no_break_even=why))
    return tuple(told)


def _of(
    site: Site,
    base: Evaluation,
    before: tuple[Level, Level],
    tries: _Tries,
    outcomes: Outcomes | None,
    finding: Finding,
) -> tuple[BreakEven, ...]:
    whole, steady = before
    cases = finding.cases or tuple(running.id for running in base.sets)
    subjects = subjects_of(base, finding)
    was = _level_of(whole, finding, cases, subjects)
    if was == "pass":
        return ()
    told_of_starts = finding.code in START_FINDING_CODES or finding.code in AFTER_TRIP_FINDING_CODES

    def better(edit: Edit) -> str | None:
        """The aspect's verdict then; None where the finding stays or something gets worse."""
        if not told_of_starts:
            # what does not help without starts does not help with them
            quick = _helps(tries.of(edit, cases, steady=True), steady, finding, cases, was, subjects)
            if quick is None:
                return None
        return _helps(tries.of(edit, cases), whole, finding, cases, was, subjects)

    found: list[BreakEven] = []

    def tell(edit: Edit, then: str) -> None:
        if any(edit.text == one.text for one in found):
            return
        kind = kind_of_change(edit)
        if outcomes is None:
            found.append(BreakEven(edit.text, then, edit.changes(site), cases, kind))
            return
        outcome = outcomes.of(edit)
        if outcome is None or any(case not in outcome.cases for case in cases):
            return
        if ORDER.index(_level_of(outcome.levels, finding, cases, subjects)) >= ORDER.index(was):
            return
        as_it_is = outcomes.before
        if as_it_is is None or any(
            ORDER.index(verdict) > ORDER.index(as_it_is.cases[case].get(aspect, "pass"))
            for case in cases
            for aspect, verdict in outcome.cases[case].items()
        ):
            return
        of_aspect = worst(outcome.cases[case].get(finding.aspect, "pass") for case in cases)
        found.append(BreakEven(edit.text, of_aspect, edit.changes(site), cases, kind, outcome.verdict))

    surge_told = False
    for edit in single_changes(site, base, finding):
        if isinstance(edit, LimitStated) and edit.more is not None:
            if surge_told:
                continue  # the least that is enough was told
            surge_told = better(edit) is not None
        then = better(edit)
        if then is not None:
            tell(edit, then)
    unsaid = tuple(found_out(site, base, finding))
    if len(unsaid) > 1 and all(better(edit) is None for edit in unsaid):
        several = _fewest((*unsaid, *_opened(site, unsaid, tries, cases)), better)
        if several is not None:
            tell(*several)
    for edit, then in _along_welds(base, cases, finding, better):
        tell(edit, then)
    for edit, then in _along_cords(site, base, finding, better):
        tell(edit, then)
    if finding.aspect == "capacity" or finding.code in UNPLUG_HELPS:
        kept = subjects if finding.code in KEPT_ON else ()
        for edit, then in itertools.islice(_unplugged(base, cases, better, kept), UNPLUG_TOLD):
            tell(edit, then)
    # the better verdict first; among equals the order of a crew
    found.sort(key=lambda item: ORDER.index(item.then))
    return tuple(found)


def _level_of(levels: Level, finding: Finding, cases: tuple[str, ...], subjects: tuple[str, ...]) -> str:
    """The finding's own verdict in its cases."""
    return worst(
        verdict
        for (case, code, pointer, subject), verdict in levels.items()
        if case in cases and code == kind_of(finding.code) and pointer == finding.pointer and subject in subjects
    )


def _helps(
    after: Evaluation | None,
    before: Level,
    finding: Finding,
    cases: tuple[str, ...],
    was: str,
    subjects: tuple[str, ...],
) -> str | None:
    if after is None:
        return None
    names = {running.id: n for n, running in enumerate(after.sets)}
    if any(case not in names for case in cases):
        return None
    levels = levels_of(after)
    if ORDER.index(_level_of(levels, finding, cases, subjects)) >= ORDER.index(was):
        return None
    for at, verdict in levels.items():
        if at[0] not in cases or ORDER.index(verdict) <= ORDER.index(before.get(at, "pass")):
            continue
        # trouble of another kind may move from one place to another, this finding's own may not
        anywhere = worst(level for (case, code, *_), level in before.items() if (case, code) == at[:2])
        if at[1] in BRINGS.get(finding.code, ()) and verdict == "marginal":
            continue
        if at[1] == kind_of(finding.code) or ORDER.index(verdict) > ORDER.index(anywhere):
            return None
    return worst(after.aspect(names[case], finding.aspect) for case in cases)


# --- several things found out ---------------------------------------------------------------------------------------


def _opened(site: Site, edits: tuple[Edit, ...], tries: _Tries, cases: tuple[str, ...]) -> tuple[Edit, ...]:
    """What is worth finding out only once these are known: separate circuits make the source's total matter."""
    whole = Several(edits)
    after = tries.of(whole, cases)
    if after is None:
        return ()
    return tuple(edit for edit in found_out(whole.site(site), after) if edit not in edits)


def _fewest(edits: tuple[Edit, ...], better: Better) -> tuple[Edit, str] | None:
    """Several things found out that help only together: none of them can be left out without helping less."""
    then = better(Several(edits))
    if then is None:
        return None
    kept = edits
    for edit in edits:
        fewer = tuple(item for item in kept if item != edit)
        if fewer and (less := better(Several(fewer))) is not None and ORDER.index(less) <= ORDER.index(then):
            kept = fewer
    return Several(kept), then


# --- along a cord ----------------------------------------------------------------------------------------------------


def _along_cords(site: Site, base: Evaluation, finding: Finding, better: Better) -> Iterator[tuple[Edit, str]]:
    """The first thicker size that helps, and the longest shorter cord that does."""
    ours = {cord.id: cord for cord in site.cords}
    used = {i for p in base.settled.placements for i in p.cords}
    for i, cord in enumerate(base.settled.cords):
        if i not in used or not _about_cords(finding, cord.pointer):
            continue
        size = ours[cord.id].size or ("16 AWG" if base.settled.source.leg_voltage_v <= 150.0 else "1.5 mm2")
        stated = ours[cord.id].marked_a is not None
        for size_up in thicker(size):
            mark = usual_mark_a(size_up, cord.length_m.high, cord.plug, cord.outlet)
            if stated and mark is None and size_up.endswith("AWG"):
                continue
            said = f"{cord.id} of {size_up}" + (f", marked {mark:g} A" if stated and mark else "")
            edit = CordEdit(cord.id, said, size=size_up, marked_a=mark if stated else None)
            then = better(edit)
            if then is not None:
                yield edit, then
                break
        imperial = size.endswith("AWG")
        unit_m = FOOT_M if imperial else 1.0
        longest = int(cord.length_m.high / unit_m - 0.01)
        found = _longest(cord.id, longest, unit_m, "ft" if imperial else "m", better)
        if found is not None:
            yield found


def _about_cords(finding: Finding, pointer: str) -> bool:
    if finding.code.startswith("cord_"):
        return finding.pointer.startswith(pointer) and finding.code not in ("cord_end_damaged", "cord_end_worn")
    return finding.code in RUN_HELPS or finding.code in START_FINDING_CODES


def _longest(cord: str, most: int, unit_m: float, unit: str, better: Better) -> tuple[Edit, str] | None:
    def at(length: int) -> Edit:
        return CordEdit(
            cord, f"{cord} at most {length} {unit} long", length_m=length * unit_m, length_text=f"{length} {unit}"
        )

    found = _most(1, most, lambda length: better(at(length)))
    return None if found is None else (at(found[0]), found[1])


# --- along a weld ---------------------------------------------------------------------------------------------------


def _along_welds(
    base: Evaluation, cases: tuple[str, ...], finding: Finding, better: Better
) -> Iterator[tuple[Edit, str]]:
    """The highest weld of each running welder that helps."""
    if finding.aspect != "capacity" and finding.code not in UNPLUG_HELPS:
        return
    running = {name for one in base.sets if one.id in cases for name in one.running}
    for placement in base.settled.placements:
        rated = rated_output_a(placement)
        if rated is None or placement.tool.id not in running or finding.code in START_FINDING_CODES:
            continue
        option = placement.option
        if option is None or (option.load_states and is_from_reference(option.pointer)):
            continue
        own = option.id if option.load_states else None

        found = _weld(placement, own, rated, better)
        if found is not None:
            yield found


def _weld(placement: Placement, own: str | None, rated_a: float, better: Better) -> tuple[Edit, str] | None:
    name = placement.tool.id

    def at(step: int) -> Edit:
        output_a = LEAST_WELD_A + step * WELD_STEP_A
        text = f"{name} at most at {output_a:g} A of its output"
        return WeldAtMost(name, text, *weld_input(placement, output_a), own)

    steps = math.ceil((rated_a - LEAST_WELD_A) / WELD_STEP_A) - 1  # below the rated output
    found = _most(0, steps, lambda step: better(at(step)))
    return None if found is None else (at(found[0]), found[1])


def _most(low: int, high: int, then: Callable[[int], str | None]) -> tuple[int, str] | None:
    """The largest number that helps, of a chain of yes and then no."""
    if high < low or then(low) is None:
        return None
    if then(high) is not None:
        low = high
    while high - low > 1:
        middle = (low + high) // 2
        if then(middle) is not None:
            low = middle
        else:
            high = middle
    found = then(low)
    return None if found is None else (low, found)


# --- unplugging ---


def _unplugged(
    base: Evaluation, cases: tuple[str, ...], better: Better, kept: tuple[str, ...]
) -> Iterator[tuple[Edit, str]]:
    """The least load left out first: single tools, then pairs only where no single one helps; `kept` stay in."""
    concerned = [running for running in base.sets if running.id in cases]
    loads = {p.tool.id: abs(p.state("working").power_va[1]) for p in base.settled.placements if p.option is not None}
    followers = {p.tool.id: p.tool.follows for p in base.settled.placements if p.tool.follows}
    shared = sorted(
        {name for running in concerned for name in running.running if name not in kept},
        key=lambda name: (loads.get(name, 0.0), name),
    )
    for count in range(1, MOST_UNPLUGGED + 1):
        told = False
        groups = sorted(
            itertools.combinations(shared, count), key=lambda names: (sum(loads.get(n, 0.0) for n in names), names)
        )
        for names in groups:
            # what follows a tool goes with it
            whole = tuple(
                dict.fromkeys((*names, *(f for f, leads in followers.items() if leads in names and f in shared)))
            )
            left = [(running.id, running.running) for running in concerned]
            if any(set(running) <= set(whole) for _, running in left) or set(whole) & set(kept):
                continue
            edit = Unplug(whole, tuple(left), f"without {and_list(list(whole))}")
            then = better(edit)
            if then is not None:
                told = True
                yield edit, then
        if told:
            return
