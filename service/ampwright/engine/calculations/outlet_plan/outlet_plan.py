"""Which tool goes into which receptacle, through which cords, and what stays off?

What is on by priority is made as much as it can be; among such plans the one of fewest joints, fewest and shortest
cords and most even circuits is the best (outlet_plan_building.py). Every plan told has passed its load check in time,
starts and heat included; one that fails is learnt from and told among what was tried (outlet_plan_search.py). Steady
load is planned on the safe side of what is not known, so that a plan never leans on a lucky answer; which answer would
let more be on is told as a question. Where something stays off, the smallest sets that do not go together are told.

Never planned: an adapter, two outlets joined, use above a label, a damaged cord, an order of starting.
Errors: ValueError from a question that validation refuses, and whatever `wanted` raises; none otherwise.
Not here: HTTP, references (studies/outlet_plan.py).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check import Withdrawn
from ampwright.engine.calculations.outlet_plan.outlet_plan_building import model_of
from ampwright.engine.calculations.outlet_plan.outlet_plan_check import Checks
from ampwright.engine.calculations.outlet_plan.outlet_plan_conflicts import Conflict, Conflicts
from ampwright.engine.calculations.outlet_plan.outlet_plan_milp import NODE_LIMIT, Cut, Master, solve
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import Choice, worth
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion
from ampwright.engine.calculations.outlet_plan.outlet_plan_report import report
from ampwright.engine.calculations.outlet_plan.outlet_plan_result import OutletPlanResult
from ampwright.engine.calculations.outlet_plan.outlet_plan_search import Proposal, Search, alike_choices
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Slots, slots_of
from ampwright.engine.site.ledger import Assumption

MOST_CHECKS = 200
MOST_QUESTIONS = 8
# what a look on site may settle so that more can be on
ASKED = ("circuit_shared", "limit_continuous", "receptacle_rating", "plate_unknown", "cord_size")


@dataclass(frozen=True, slots=True)
class Opening:
    """An assumption that, taken the other way, lets more be on: tools by index."""

    assumption: Assumption
    then_on: frozenset[int]


def plan_outlets(
    question: PlanQuestion,
    wanted: Callable[[], None] = lambda: None,
    withdrawn: Withdrawn = (),
    most_checks: int = MOST_CHECKS,
) -> OutletPlanResult:
    """The plans of a sound question, best first, or what stands in their way.

    wanted : called between steps; it raises where the answer is not wanted any more. most_checks : load checks of
    parts and plans; past it the answer says that it is not complete.
    """
    slots = slots_of(question)
    model = model_of(question, slots)
    search = Search(Master(model, wanted, NODE_LIMIT), Checks(question, slots, wanted, most_checks, withdrawn))
    proposals = _proposals(search, question.plans) if search.checks.site_fails is None else []
    tried = tuple(search.failures)
    on = frozenset(t for t, slot in enumerate(proposals[0].choice) if slot is not None) if proposals else frozenset()
    conflicts: tuple[Conflict, ...] = ()
    openings: tuple[Opening, ...] = ()
    if len(on) < len(model.weights) and search.checks.site_fails is None:
        conflicts = Conflicts(search).of(on)
        openings = _openings(question, slots, proposals, wanted)
    return report(question, search, proposals, tried, conflicts, openings)


def _proposals(search: Search, wanted: int) -> list[Proposal]:
    """The best plan that holds, then others of the same worth."""
    found: list[Proposal] = []
    aside: list[Cut] = []
    while len(found) < wanted:
        proposal = search.best()
        if proposal is None or not _on(proposal.choice):
            break
        if found and worth(search.master.model, proposal.choice) < worth(search.master.model, found[0].choice):
            break
        found.append(proposal)
        # what is set aside only to find another plan is no conflict
        aside += [cut for cut in alike_choices(search.checks.slots, proposal.choice) if cut not in search.master.cuts]
        search.master.cuts.update(dict.fromkeys(aside))
    for cut in aside:
        search.master.cuts.pop(cut, None)
    return found


def _on(choice: Choice) -> frozenset[int]:
    return frozenset(t for t, slot in enumerate(choice) if slot is not None)


def _openings(
    question: PlanQuestion, slots: Slots, proposals: list[Proposal], wanted: Callable[[], None]
) -> tuple[Opening, ...]:
    best = proposals[0].choice if proposals else (None,) * len(question.site.tools)
    asked = [one for one in slots.assumptions if one.code in ASKED and one.if_instead is not None]
    asked.sort(key=lambda one: ASKED.index(one.code))
    found: list[Opening] = []
    for assumption in asked[:MOST_QUESTIONS]:
        other = slots_of(question, frozenset({assumption.key}))
        model = model_of(question, other)
        choice = solve(Master(model, wanted, NODE_LIMIT)).choice
        if choice is not None and worth(model, choice) > worth(model, best):
            found.append(Opening(assumption, _on(choice)))
    return tuple(found)
