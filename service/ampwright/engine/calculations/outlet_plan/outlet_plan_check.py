"""Does a plan hold in time? The load check of what it plugs in, and the smallest part of it that still fails.

A plan is posted to the load check as a caller would: its tools, its connections, the cases asked for (else all that
the people can run) and every group as a case. It fails where capacity or safety fails, or where a rule layer forbids
something that it does not forbid already with nothing plugged in. What fails by itself fails in every plan that holds
it, because adding load lowers voltages and raises currents; the exceptions are sums in a neutral, and of those only the
whole plan is excluded.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from ampwright.engine.calculations.load_check.load_check import Withdrawn, check_loads
from ampwright.engine.calculations.load_check.load_check_result import Finding, LoadCheckResult
from ampwright.engine.calculations.network.cases import running_sets
from ampwright.engine.calculations.outlet_plan.outlet_plan_connections import PluggedTool, connections_of, plugged
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import Choice
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Slots
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.use import Case, Site

LONGEST_ID = 64
MOST_CASES = 64
NEUTRALS = ("neutral_overloaded", "neutral_lost")
WHOLE = "all-of-it"


@dataclass(slots=True)
class Checks:
    """Load checks of parts of one question, each made once, within a bound. left : how many may still be made."""

    question: PlanQuestion
    slots: Slots
    wanted: Callable[[], None]
    left: int
    withdrawn: Withdrawn = ()
    known: dict[tuple[Choice, bool], LoadCheckResult] = field(default_factory=dict)
    made: int = 0
    forbidden_bare: frozenset[tuple[str, str, str]] = frozenset()
    site_fails: LoadCheckResult | None = None

    def __post_init__(self) -> None:
        bare = self._check(replace(self.question.site, tools=(), connections=(), cases=()))
        self.forbidden_bare = frozenset(_named(one) for one in bare.findings if one.aspect == "code" and one.fails)
        self.site_fails = bare if bare.verdict.safety == "fail" else None

    def of(self, choice: Choice, *, as_one_case: bool = False) -> LoadCheckResult | None:
        """The load check of a choice, None where no more may be made. as_one_case : all of it runs at once."""
        at = choice, as_one_case
        if at not in self.known:
            if self.left <= 0:
                return None
            site = site_of(self.question, self.slots, plugged(self.slots, choice), as_one_case=as_one_case)
            self.left -= 1
            self.known[at] = self._check(site)
        return self.known[at]

    def _check(self, site: Site) -> LoadCheckResult:
        self.wanted()
        self.made += 1
        return check_loads((site,), withdrawn=(self.withdrawn,), flips="first", verdict_only=True)[0]

    def fails(self, result: LoadCheckResult) -> bool:
        """Whether a plan with this load check is none."""
        return "fail" in (result.verdict.capacity, result.verdict.safety) or bool(self._newly_forbidden(result))

    def _newly_forbidden(self, result: LoadCheckResult) -> list[Finding]:
        """What the rules forbid of a plan and not of the bare site."""
        return [
            one
            for one in result.findings
            if one.aspect == "code" and one.fails and _named(one) not in self.forbidden_bare
        ]

    def first_finding(self, result: LoadCheckResult) -> Finding | None:
        """The finding that a failing plan is told by: the first of an aspect that fails, dangers first."""
        failing = [name for name in ("safety", "capacity", "code") if getattr(result.verdict, name) == "fail"]
        cases = {case.id for case in result.cases if case.verdict == "fail"}
        told = [one for one in result.findings if one.aspect in failing and one.severity != "info"]
        if failing == ["code"]:
            told = self._newly_forbidden(result) or told
        # of an aspect that fails some findings are only marginal: one of a failing case is nearer to the reason
        return next((one for one in told if not cases or cases & set(one.cases)), told[0] if told else None)

    def smallest(self, choice: Choice, result: LoadCheckResult, most: int) -> Choice:
        """A part of a failing choice of which nothing can be left out; the whole where no part is known to fail.

        most : checks that this may cost.
        """
        on = [t for t, slot in enumerate(choice) if slot is not None]
        running = next((case.running for case in result.cases if case.verdict == "fail"), None)
        finding = self.first_finding(result)
        if finding is not None and finding.code in NEUTRALS:
            return choice
        names = {tool.id: t for t, tool in enumerate(self.question.site.tools)}
        some = sorted(names[name] for name in running) if running is not None else on
        kept = self._part(choice, some)
        stop = self.left - most
        if not self._part_fails(kept, stop):
            return choice
        for circuit in self._circuits(kept):
            part = self._part(kept, [t for t in some if self._circuit(kept, t) == circuit])
            if part != kept and self._part_fails(part, stop):
                kept = part
                break
        for t in some:
            fewer = self._part(kept, [other for other in some if other != t and kept[other] is not None])
            if kept[t] is not None and any(slot is not None for slot in fewer) and self._part_fails(fewer, stop):
                kept = fewer
        return kept

    def _part_fails(self, choice: Choice, stop: int) -> bool:
        if self.left <= stop:
            return False
        result = self.of(choice, as_one_case=True)
        return result is not None and self.fails(result)

    def _part(self, choice: Choice, some: Sequence[int]) -> Choice:
        return tuple(slot if t in some else None for t, slot in enumerate(choice))

    def _circuit(self, choice: Choice, t: int) -> int:
        slot = choice[t]
        return -1 if slot is None else self.slots.circuit(slot)

    def _circuits(self, choice: Choice) -> list[int]:
        load: dict[int, float] = {}
        for t, slot in enumerate(choice):
            if slot is not None:
                circuit = self.slots.circuit(slot)
                load[circuit] = load.get(circuit, 0.0) + self.slots.draws[t][slot].typical_a
        return sorted(load, key=lambda circuit: (-load[circuit], circuit))


def _named(finding: Finding) -> tuple[str, str, str]:
    """What tells one finding from another: several may have one code at the reference to a catalogue entry."""
    return finding.code, finding.pointer, finding.text


def site_of(question: PlanQuestion, slots: Slots, found: tuple[PluggedTool, ...], *, as_one_case: bool = False) -> Site:
    """The site of a plan: what stays off is not in it."""
    site = question.site
    on = {site.tools[one.tool].id for one in found}
    # who leads stays off with what follows it; as a part, a follower stands for itself
    tools = tuple(
        tool if tool.follows is None or tool.follows in on else replace(tool, follows=None)
        for tool in site.tools
        if tool.id in on
    )
    plan = replace(site, tools=tools, connections=connections_of(site, slots, found))
    if as_one_case:
        return replace(plan, cases=(Case(WHOLE, tuple(tool.id for tool in tools), "/cases"),))
    return replace(plan, cases=cases_of(question, plan))


def cases_of(question: PlanQuestion, plan: Site) -> tuple[Case, ...] | None:
    """The cases asked for without what stays off, and every group; None where the load check's own are enough."""
    on = {tool.id for tool in plan.tools}
    groups = [group for group in question.groups if set(group.tools) <= on]
    if plan.cases is None and not groups:
        return None
    found: list[Case] = []
    if plan.cases is None:
        sets, _ = running_sets(plan, settle(plan, Ledger()))
        for number, one in enumerate(sets, start=1):
            name = one.id if len(one.id) <= LONGEST_ID else f"case-{number}"
            found.append(Case(name, one.running, "/cases"))
    else:
        for case in plan.cases:
            running = tuple(name for name in case.running if name in on)
            order = case.start_order
            if running:
                kept = None if order is None else tuple(name for name in order if name in on)
                found.append(replace(case, running=running, start_order=kept))
    taken = {case.id for case in found}
    if plan.cases is not None:
        # a tool that no case runs is asked for alone
        running_somewhere = {name for case in found for name in case.running}
        for tool in plan.tools:
            if tool.id not in running_somewhere and len(found) < MOST_CASES:
                name = _free(f"alone-{tool.id}", taken)
                found.append(Case(name, (tool.id,), "/cases"))
    for group in groups:
        if any(set(group.tools) == set(case.running) for case in found):
            continue
        if len(found) < MOST_CASES:
            found.append(Case(_free(f"group-{group.id}", taken), group.tools, "/cases"))
    return tuple(found)


def _free(wanted: str, taken: set[str]) -> str:
    """A name for a case that none has yet; it is taken then."""
    name, number = wanted[:LONGEST_ID].rstrip("-._"), 1
    while name in taken:
        number += 1
        name = f"{wanted[: LONGEST_ID - 4].rstrip('-._')}-{number}"
    taken.add(name)
    return name
