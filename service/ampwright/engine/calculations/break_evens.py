"""What is the smallest change that makes a finding go away?

Every candidate is a whole evaluation of the changed site under the same assumptions: nothing is scaled or guessed. A
change is told where the finding gets better and nothing else gets worse in those cases; `then` is the verdict of the
finding's aspect in them. Kinds of change, in the order in which a crew would do them: unroll a cord, find out what
nobody said, plug into another circuit, a thicker cord, a shorter one, unplug the least that helps, more people. Of each
kind the smallest is told. A chain of yes and no along a cord's length is searched by halves: more copper length never
helps a voltage, a mark or heat.

Never told: adapters, bigger breakers, use above a label, an order of starting.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from ampwright.engine.calculations.capacity_rules import SHORT_PUSH_S, Check
from ampwright.engine.calculations.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check_result import BreakEven, Finding
from ampwright.engine.calculations.site_edits import (
    CordEdit,
    Edit,
    Move,
    OutputStated,
    People,
    Place,
    ReceptacleEdit,
    Several,
    Spread,
    StaysOff,
    ToolProtected,
    Unplug,
)
from ampwright.engine.calculations.start_finding_codes import START_FINDING_CODES
from ampwright.engine.calculations.verdicts import ORDER, worst
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes
from ampwright.engine.standards.cord_ratings import ampacity_a, end_rating_a, marked_rating_a
from ampwright.engine.standards.loader import CitedValue

FOOT_M = 0.3048
MOST_FINDINGS = 40  # of one answer, worst first; the others get none
MOST_EVALUATIONS = 250
STEPS_THICKER = 3
MOST_UNPLUGGED = 2  # tools left out at once
UNPLUG_TOLD = 2
THICKEST_M2 = 10.6e-6  # 7 AWG: thicker cords are not carried by hand to a tool; common practice, no source
# findings of safety that running less answers; a pump that must not stop is not unplugged
UNPLUG_HELPS = (
    "cord_overheats",
    "ground_fault_nuisance",
    "neutral_overloaded",
    "restart_without_warning",
    "stalls_without_trip",
)
ASPECTS = ("capacity", "safety")
ENDS_A = 15.0

Level = dict[tuple[str, str, str, str], str]  # (case, code, pointer, subject) -> verdict
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
            self.known[at] = None if validate(changed) else evaluate(changed, frozenset(), only=only)
        return self.known[at]


def break_evens(site: Site, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings with what flips each of them, most important finding first until the work allowed is used up.

    site : sound. Errors: none.
    """
    base = evaluate(site, frozenset())
    before = _levels(base), _levels(evaluate(site, frozenset(), only=frozenset()))
    tries = _Tries(site)
    told: list[Finding] = []
    for number, finding in enumerate(findings):
        if number >= MOST_FINDINGS or finding.severity == "info" or finding.aspect not in ASPECTS:
            told.append(finding)
            continue
        told.append(replace(finding, break_even=_of(site, base, before, tries, finding)))
    return tuple(told)


def _levels(base: Evaluation) -> Level:
    """Verdict of every check by case; what only a short push breaks is at worst marginal, but for safety."""
    found: Level = {}

    def add(case: str, check: Check, verdict: str) -> None:
        at = (case, check.code, check.pointer, check.subject)
        found[at] = worst((found.get(at, "pass"), verdict))

    for n, running in enumerate(base.sets):
        for check in (*base.site_checks, *base.case_checks[n]):
            if check.aspect in ASPECTS:
                add(running.id, check, check.verdict)
    for row, checks in zip(base.rows, base.row_checks, strict=True):
        for check in checks:
            verdict = check.verdict
            short = row.pushed is not None and base.settled.placements[row.pushed].state("heavy").lasts_s < SHORT_PUSH_S
            if short and verdict == "fail" and check.aspect == "capacity":
                verdict = "marginal"
            add(base.sets[row.case].id, check, verdict)
    return found


def _of(
    site: Site, base: Evaluation, before: tuple[Level, Level], tries: _Tries, finding: Finding
) -> tuple[BreakEven, ...]:
    whole, steady = before
    cases = finding.cases or tuple(running.id for running in base.sets)
    was = _level_of(whole, finding, cases)
    if was == "pass":
        return ()

    def better(edit: Edit) -> str | None:
        """The aspect's verdict then; None where the finding stays or something gets worse."""
        if finding.code not in START_FINDING_CODES:
            # what does not help without starts does not help with them
            quick = _helps(tries.of(edit, cases, steady=True), steady, finding, cases, was)
            if quick is None:
                return None
        return _helps(tries.of(edit, cases), whole, finding, cases, was)

    found: list[BreakEven] = []

    def tell(edit: Edit, then: str) -> None:
        found.append(BreakEven(edit.text, then, edit.changes(site), cases))

    for edit in _singles(site, base, finding):
        then = better(edit)
        if then is not None:
            tell(edit, then)
    found_out = tuple(_found_out(site, base))
    if len(found_out) > 1 and all(better(edit) is None for edit in found_out):
        several = _fewest((*found_out, *_opened(site, found_out, tries, cases)), better)
        if several is not None:
            tell(*several)
    for edit, then in _along_cords(site, base, finding, better):
        tell(edit, then)
    if finding.aspect == "capacity" or finding.code in UNPLUG_HELPS:
        for edit, then in itertools.islice(_unplugged(base, cases, better), UNPLUG_TOLD):
            tell(edit, then)
    # the better verdict first; among equals the order of a crew
    found.sort(key=lambda item: ORDER.index(item.then))
    return tuple(found)


def _level_of(levels: Level, finding: Finding, cases: tuple[str, ...]) -> str:
    """The finding's own verdict in its cases."""
    return worst(
        verdict
        for (case, code, pointer, _), verdict in levels.items()
        if case in cases and code == finding.code and pointer == finding.pointer
    )


def _helps(after: Evaluation | None, before: Level, finding: Finding, cases: tuple[str, ...], was: str) -> str | None:
    if after is None:
        return None
    names = {running.id: n for n, running in enumerate(after.sets)}
    if any(case not in names for case in cases):
        return None
    levels = _levels(after)
    if ORDER.index(_level_of(levels, finding, cases)) >= ORDER.index(was):
        return None
    for at, verdict in levels.items():
        if at[0] not in cases or ORDER.index(verdict) <= ORDER.index(before.get(at, "pass")):
            continue
        # trouble of another kind may move from one place to another, this finding's own may not
        anywhere = worst(level for (case, code, *_), level in before.items() if (case, code) == at[:2])
        if at[1] == finding.code or ORDER.index(verdict) > ORDER.index(anywhere):
            return None
    return worst(after.aspect(names[case], finding.aspect) for case in cases)


# --- single changes ------------------------------------------------------------------------------------------------


def _singles(site: Site, base: Evaluation, finding: Finding) -> Iterator[Edit]:
    for cord in base.settled.cords:
        if cord.laid != "straight" and finding.code.startswith("cord_"):
            yield CordEdit(cord.id, f"unroll all of the cord {cord.id}", laid="straight")
    if finding.code == "restart_without_warning":
        for placement in base.settled.placements:
            # another tool of its kind is brought; nothing is built into this one
            if placement.tool.id in finding.text.split() or finding.pointer.startswith(placement.tool.pointer):
                name = placement.tool.id
                yield ToolProtected(name, f"a {name} that stays off when power returns")
    yield from _found_out(site, base)
    if finding.code in ("exhaust_near_people", "exhaust_place_unknown"):
        yield Place("open_air", "the engine in the open, far from every opening")
    yield from _moves(site, base)
    if finding.code == "too_few_people":
        needed = max((running.hands_needed for running in base.sets if running.id in finding.cases), default=0)
        if needed > (site.people or 1):
            yield People(needed, f"{needed} people")


def _found_out(site: Site, base: Evaluation) -> Iterator[Edit]:
    """What nobody said, said the other way, where a value can be sent."""
    receptacles = {item.id: item for item in site.source.receptacles or ()}
    for item in base.assumptions:
        if item.if_instead is None:
            continue
        if item.code == "circuit_shared":
            for name in receptacles:
                own = f"own-{name}"
                flipped = settle(site, Ledger(frozenset({item.key})))
                there = next(one for one in flipped.source.receptacles if one.id == name)
                if flipped.source.circuits[there.circuit].id == own and len(own) <= 64:
                    yield ReceptacleEdit(name, f"if {name} turns out to have a circuit of its own", circuit=own)
        elif item.code == "receptacle_rating":
            flipped = settle(site, Ledger(frozenset({item.key})))
            for before, after in zip(base.settled.source.receptacles, flipped.source.receptacles, strict=True):
                if after.rating_a != before.rating_a and after.id in receptacles:
                    text = f"if {after.id} turns out to be marked {after.rating_a:g} A"
                    yield ReceptacleEdit(after.id, text, marked_a=after.rating_a)
        elif item.code == "limit_continuous" and site.source.limits is None and site.source.kind != "site_supply":
            flipped = settle(site, Ledger(frozenset({item.key})))
            most = max((limit.continuous for limit in flipped.source.limits), default=0.0)
            if most > 0.0:
                yield OutputStated(most, f"if the source turns out to give {most:g} VA in all")
        elif item.code == "reset" and site.source.reset is None:
            yield StaysOff("if the source turns out to stay off after a trip until somebody resets it")
        elif item.code == "connections_assumed":
            flipped = settle(site, Ledger(frozenset({item.key})))
            places = tuple((one.tool.id, flipped.source.receptacles[one.receptacle].id) for one in flipped.placements)
            if len({into for _, into in places}) == len(places) and all(into in receptacles for _, into in places):
                yield Spread(places, "each tool in a receptacle of its own")


def _opened(site: Site, edits: tuple[Edit, ...], tries: _Tries, cases: tuple[str, ...]) -> tuple[Edit, ...]:
    """What is worth finding out only once these are known: separate circuits make the source's total matter."""
    whole = Several(edits)
    after = tries.of(whole, cases)
    if after is None:
        return ()
    return tuple(edit for edit in _found_out(whole.site(site), after) if edit not in edits)


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


def _moves(site: Site, base: Evaluation) -> Iterator[Edit]:
    """Every plug that sits in a receptacle, into every free one of another circuit."""
    if site.connections is None:
        return
    settled = base.settled.source
    index = {item.id: item for item in settled.receptacles}
    taken = {one.into for one in site.connections}
    for one in site.connections:
        if one.into not in index:
            continue
        for free in settled.receptacles:
            if free.id not in taken and free.circuit != index[one.into].circuit:
                yield Move(one.plug, free.id, f"{one.plug} into {free.id}, on another circuit")


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
        for thicker in _thicker(size):
            mark = _mark_a(thicker, cord.length_m.high, cord.plug, cord.outlet)
            if stated and mark is None and thicker.endswith("AWG"):
                continue
            said = f"{cord.id} of {thicker}" + (f", marked {mark:g} A" if stated and mark else "")
            edit = CordEdit(cord.id, said, size=thicker, marked_a=mark if stated else None)
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
    return finding.code in ("low_voltage_at_tool", "voltage_collapse") or finding.code in START_FINDING_CODES


def _thicker(size: str) -> list[str]:
    found = conductor_size(size)
    if found is None:
        return []
    unit = size.rsplit(maxsplit=1)[-1]
    known = [conductor_size(name) for name in sizes() if name.endswith(f" {unit}")]
    above = sorted(
        (one.area_m2, one.size)
        for one in known
        if one is not None
        and found.area_m2 < one.area_m2 <= THICKEST_M2
        and isinstance(ampacity_a(one.size, 2), CitedValue)
        and (unit != "AWG" or int(one.size.split()[0].split("/")[0]) % 2 == 0)
    )
    return [name for _, name in above[:STEPS_THICKER]]


def _mark_a(size: str, length_m: float, plug: str | None, outlet: str | None) -> float | None:
    """[A] what a listed set of this size and length with these ends is marked."""
    rated = [end_rating_a(name) for name in (plug, outlet) if name]
    ends = min((one.value for one in rated if isinstance(one, CitedValue)), default=ENDS_A)
    mark = marked_rating_a(size, length_m, ends)
    return mark.value if isinstance(mark, CitedValue) else None


def _longest(cord: str, most: int, unit_m: float, unit: str, better: Better) -> tuple[Edit, str] | None:
    def at(length: int) -> Edit:
        return CordEdit(
            cord, f"{cord} at most {length} {unit} long", length_m=length * unit_m, length_text=f"{length} {unit}"
        )

    low, high = 1, most
    if high < 1 or better(at(low)) is None:
        return None
    if better(at(high)) is not None:
        low = high
    while high - low > 1:
        middle = (low + high) // 2
        if better(at(middle)) is not None:
            low = middle
        else:
            high = middle
    then = better(at(low))
    return None if then is None else (at(low), then)


# --- unplugging ---


def _unplugged(base: Evaluation, cases: tuple[str, ...], better: Better) -> Iterator[tuple[Edit, str]]:
    """The least load left out first: single tools, then pairs only where no single one helps."""
    concerned = [running for running in base.sets if running.id in cases]
    loads = {p.tool.id: abs(p.state("working").power_va[1]) for p in base.settled.placements if p.option is not None}
    followers = {p.tool.id: p.tool.follows for p in base.settled.placements if p.tool.follows}
    shared = sorted(
        {name for running in concerned for name in running.running}, key=lambda name: (loads.get(name, 0.0), name)
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
            if any(set(running) <= set(whole) for _, running in left):
                continue
            edit = Unplug(whole, tuple(left), f"without {and_list(list(whole))}")
            then = better(edit)
            if then is not None:
                told = True
                yield edit, then
        if told:
            return
