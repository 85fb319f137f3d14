"""How is an outlet plan told: connections, why, what stays off and for what, what was tried?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol

from ampwright.engine.calculations.load_check.load_check_result import AssumptionResult, Verdicts
from ampwright.engine.calculations.outlet_plan.outlet_plan_check import cases_of, site_of
from ampwright.engine.calculations.outlet_plan.outlet_plan_conflicts import Conflict
from ampwright.engine.calculations.outlet_plan.outlet_plan_connections import PluggedTool, connections_of, plugged
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import Choice, running_of, worth
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion
from ampwright.engine.calculations.outlet_plan.outlet_plan_reasons import reason_text
from ampwright.engine.calculations.outlet_plan.outlet_plan_result import (
    OutletPlanResult,
    PlanConflict,
    PlanMethod,
    PlannedCircuit,
    PlannedOutlets,
    PlannedTool,
    PlanQuestionOpen,
    PluggedConnection,
    ToolLeftOff,
    TriedPlan,
)
from ampwright.engine.calculations.outlet_plan.outlet_plan_search import Failure, Proposal, Search
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Slots
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.calculations.wording import and_list, with_unit
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.ledger import Assumption

MOST_TRIED_TOLD = 12


class Opening(Protocol):
    """An assumption that, taken the other way, lets more be on."""

    @property
    def assumption(self) -> Assumption: ...

    @property
    def then_on(self) -> frozenset[int]: ...


def report(
    question: PlanQuestion,
    search: Search,
    proposals: list[Proposal],
    tried: tuple[Failure, ...],
    conflicts: tuple[Conflict, ...],
    openings: Sequence[Opening],
) -> OutletPlanResult:
    """The answer in the order a person reads it: plans by worth, verdict and the order they were found in."""
    model = search.master.model
    ordered = sorted(
        proposals, key=lambda one: (-worth(model, one.choice), _verdict_order(one.result.verdict))
    )  # a sort that keeps the order of equals, which is that of cost
    plans = tuple(_plan(question, search, one) for one in ordered)
    off = plans[0].stays_off if plans else tuple(tool.id for tool in question.site.tools)
    outcome = "nothing_fits" if not plans else "some_stay_off" if off else "all_on"
    if not plans and not question.site.tools:
        outcome = "all_on"
    told = _site_conflict(search) or tuple(_conflict(question, one) for one in conflicts)
    return OutletPlanResult(
        outcome,
        plans,
        told,
        tuple(_left_off(question, search, name, conflicts) for name in _by_priority(question, off)),
        tuple(_tried(question, search.checks.slots, one) for one in tried[:MOST_TRIED_TOLD]),
        tuple(_question(question, one) for one in openings),
        _assumptions(search.checks.slots),
        PlanMethod(
            search.master.solves,
            search.master.nodes,
            search.master.node_limit,
            len(tried) + len(plans),
            search.checks.made,
            search.complete,
        ),
    )


def _verdict_order(said: Verdicts) -> int:
    """The overall verdict is not better than what is not assessed in any plan; what was assessed tells them apart."""
    return max(ORDER.index(one) for one in (said.capacity, said.safety, said.code or "pass"))


def _by_priority(question: PlanQuestion, names: Sequence[str]) -> list[str]:
    return sorted(names, key=lambda name: (question.priority(name), names.index(name)))


def _plan(question: PlanQuestion, search: Search, proposal: Proposal) -> PlannedOutlets:
    slots, choice = search.checks.slots, proposal.choice
    found = plugged(slots, choice)
    used = {i for one in found for i in one.cords}
    site = site_of(question, slots, found)
    return PlannedOutlets(
        connections_of(question.site, slots, found),
        cases_of(question, replace(site, cases=question.site.cases)),
        tuple(_tool(question, slots, choice, one) for one in found),
        tuple(_by_priority(question, [t.id for t in question.site.tools if t.id not in {x.id for x in site.tools}])),
        _circuits(search, choice),
        len(used),
        sum(len(run) - 1 for run in {one.cords for one in found} if len(run) > 1),
        proposal.gap_ratio,
        proposal.proven and search.complete,
        proposal.result,
    )


def _tool(question: PlanQuestion, slots: Slots, choice: Choice, one: PluggedTool) -> PlannedTool:
    tool = question.site.tools[one.tool]
    slot = choice[one.tool]
    assert slot is not None
    draw = slots.draws[one.tool][slot]
    wish = question.wish(tool.id)
    why, text = _why(question, slots, one.tool, slot)
    return PlannedTool(
        tool.id,
        slots.source.receptacles[one.receptacle].id,
        tuple(question.site.cords[i].id for i in one.cords),
        draw.option,
        why,
        text,
        round(draw.typical_a, 3),
        wish.position,
    )


def _why(question: PlanQuestion, slots: Slots, t: int, slot: int) -> tuple[str, str]:
    """Why this supply option and not another."""
    tool = question.site.tools[t]
    draws = slots.draws[t]
    chosen = draws[slot]
    if question.wish(tool.id).supply_option is not None:
        return "asked_for", f"{chosen.option} was asked for."
    others = sorted({option.id for option in tool.supply_options} - {chosen.option})
    if not others:
        return "only_option", "It has no other supply option."
    here = f"{chosen.option} takes {with_unit(chosen.typical_a, 'A')}"
    elsewhere = {draw.option: draw for draw in draws.values()}
    there = [elsewhere[name] for name in others if name in elsewhere]
    if not there:
        return "others_fit_nowhere", f"{here}; no outlet here takes {and_list(others)}."
    said = and_list([f"{draw.option} would take {with_unit(draw.typical_a, 'A')}" for draw in there])
    return "better_plan", f"{here}; {said} elsewhere, and the whole plan is better so."


def _circuits(search: Search, choice: Choice) -> tuple[PlannedCircuit, ...]:
    model, source = search.master.model, search.checks.slots.source
    most: dict[int, float] = {}
    for bound in model.bounds:
        if bound.kind == "circuit":
            value = max(running_of(bound, running, choice)[0] for running in model.running)
            most[bound.index] = max(most.get(bound.index, 0.0), value)
    return tuple(
        PlannedCircuit(
            source.circuits[c].id,
            round(amps, 3),
            source.circuits[c].rating_a,
            round(amps / source.circuits[c].rating_a, 4) if source.circuits[c].rating_a > 0.0 else 0.0,
        )
        for c, amps in sorted(most.items())
        if amps > 0.0
    )


def _names(question: PlanQuestion, tools: frozenset[int]) -> tuple[str, ...]:
    return tuple(question.site.tools[t].id for t in sorted(tools))


def _conflict(question: PlanQuestion, one: Conflict) -> PlanConflict:
    names = _names(question, one.tools)
    told = one.finding.text if one.finding is not None else None
    texts = [reason_text(code, and_list(names), len(names), told)[0] for code in one.because]
    return PlanConflict(names, one.because, " ".join(texts), one.smallest)


def _site_conflict(search: Search) -> tuple[PlanConflict, ...]:
    """What fails with nothing plugged in: no plan helps."""
    bare = search.checks.site_fails
    if bare is None:
        return ()
    finding = search.checks.first_finding(bare)
    if finding is None:
        return ()
    return (PlanConflict((), (finding.code,), f"{finding.text} {finding.what_to_do}", True),)


def _left_off(question: PlanQuestion, search: Search, name: str, conflicts: tuple[Conflict, ...]) -> ToolLeftOff:
    t = next(n for n, tool in enumerate(question.site.tools) if tool.id == name)
    priority = question.priority(name)
    bare = search.checks.site_fails
    if bare is not None:
        finding = search.checks.first_finding(bare)
        if finding is not None:
            return ToolLeftOff(name, priority, (finding.code,), (), finding.text, finding.what_to_do)
    found = next((one for one in conflicts if t in one.tools), None)
    if found is None:
        unit = next((set(group) for group in search.master.model.together if t in group), {t})
        found = next((one for one in conflicts if one.tools & unit), None)
        if found is not None:
            text, todo = reason_text("goes_with", name, 1)
            others = _names(question, found.tools - {t})
            return ToolLeftOff(name, priority, ("goes_with",), others, text, todo)
        text, todo = reason_text("not_settled", name, 1)
        return ToolLeftOff(name, priority, ("not_settled",), (), text, todo)
    others = _names(question, found.tools - {t})
    told = found.finding.text if found.finding is not None else None
    said = [reason_text(code, and_list((name, *others)), len(found.tools), told) for code in found.because]
    todo = found.finding.what_to_do if found.finding is not None else said[0][1]
    return ToolLeftOff(name, priority, found.because, others, " ".join(text for text, _ in said), todo)


def _tried(question: PlanQuestion, slots: Slots, one: Failure) -> TriedPlan:
    found = plugged(slots, one.part)
    return TriedPlan(
        tuple(PluggedConnection(item.plug, item.into) for item in connections_of(question.site, slots, found)),
        tuple(question.site.tools[item.tool].id for item in found),
        one.finding.code if one.finding is not None else "several_reasons",
        one.finding.text if one.finding is not None else "Its load check fails.",
    )


def _question(question: PlanQuestion, one: Opening) -> PlanQuestionOpen:
    known = ASSUMPTION_CODES[one.assumption.code]
    return PlanQuestionOpen(
        one.assumption.code,
        one.assumption.pointer,
        one.assumption.value,
        one.assumption.if_instead or "",
        known.how_to_find_out,
        _names(question, one.then_on),
    )


def _assumptions(slots: Slots) -> tuple[AssumptionResult, ...]:
    """What the plan itself leans on; the rest stands in its load check."""
    own = [one for one in slots.assumptions if one.code == "own_cord"]
    return tuple(
        AssumptionResult(
            f"p{n}", one.code, one.pointer, one.value, ASSUMPTION_CODES[one.code].why,
            ASSUMPTION_CODES[one.code].how_to_find_out,
        )
        for n, one in enumerate(own, start=1)
    )  # fmt: skip
