"""What is the stamped answer to an outlet plan that may refer to the catalogue?

Resolved, read and validated as a load check of tools that are plugged in nowhere; priced; planned; then each plan is
posted to the load check as its caller would, so that what the answer says of it is what the caller gets. Raises
RefusedRequest with every fault; a sound request always gets an answer.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from msgspec import UNSET, structs

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract import outlet_plans as wire
from ampwright.contract.canonical import request_digest
from ampwright.contract.load_checks import Assumption, Connection, LoadCheckRequest
from ampwright.contract.reading_outlet_plan import as_load_check, read_plan
from ampwright.contract.reading_site import read_site
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.outlet_plan.outlet_plan import MOST_CHECKS, plan_outlets
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion, plan_faults
from ampwright.engine.calculations.outlet_plan.outlet_plan_result import PlannedOutlets
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order, validate
from ampwright.studies.cost import TooMuchWork, load_check_cost_units
from ampwright.studies.load_check import NOTICE, LoadCheckStudy, RefusedRequest, engine_version
from ampwright.studies.references import Resolved
from ampwright.studies.release_lookup import resolve_in_release

NOT_INCLUDED = "An outlet plan has no parts that are asked for by `include` or `shift`; POST /v1/load-checks has."
# a plan waits in a lane of its own, where it keeps nobody but other long work waiting
LONGER = 20
_PER_COLUMN = 2_000  # of the programme, all its solves together; measured within a factor of three
_LEAST_CHECKS = 12


@dataclass(frozen=True, slots=True)
class OutletPlanStudy:
    """Outlet plans against the releases of one catalogue.

    store : releases in memory, None where there is no catalogue; cost_limit_units : dearest load check answered at
    once; a plan may cost LONGER times as much.
    """

    store: ReleaseStore[Any] | None
    cost_limit_units: int = 8_000_000

    def run(self, request: wire.OutletPlanRequest, wanted: Callable[[], None] = lambda: None) -> wire.OutletPlanAnswer:
        """The answer. Errors: RefusedRequest, TooMuchWork, those of the catalogue where it is needed, and whatever
        `wanted` raises where nobody waits for the answer any more."""
        resolved, stamp = resolve_in_release(self.store, request)
        if resolved.request is None:
            raise RefusedRequest(resolved.faults)
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        question, unread_plan = read_plan(request, site)
        faults = (*resolved.faults, *unread, *unread_plan)
        if faults:
            raise RefusedRequest(in_order(faults), unread=bool(unread or unread_plan))
        unasked = [
            Fault(f"/{name}", "not_included_here", NOT_INCLUDED)
            for name in ("include", "shift")
            if getattr(request, name) is not UNSET
        ]
        if contradictions := (*unasked, *validate(site), *plan_faults(question)):
            raise RefusedRequest(in_order(contradictions))
        limit = LONGER * self.cost_limit_units
        cost, checks = outlet_plan_cost_units(question, limit)
        if cost > limit:
            raise TooMuchWork(cost, limit)
        withdrawn = tuple(
            (e.pointer, f"{e.entry} revision {e.revision}", e.withdrawn) for e in resolved.entries if e.withdrawn
        )
        result = plan_outlets(question, wanted, withdrawn, checks)
        plans = [self._plan(request, resolved, stamp, plan) for plan in result.plans]
        told = {
            name: getattr(result, name)
            for name in ("outcome", "leave_out", "conflicts", "questions", "tried", "assumptions", "method")
        }
        answer = wire.OutletPlanAnswer(
            verdict=plans[0].load_check.verdict if plans else UNSET,
            plans=plans,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
            **to_members(told),
        )
        return structs.replace(answer, **stamp)

    def _plan(
        self, request: wire.OutletPlanRequest, resolved: Resolved, stamp: dict[str, Any], plan: PlannedOutlets
    ) -> wire.OutletPlan:
        asked = as_load_check(request, plan, _inline(request, resolved, plan))
        # pinned, so that it is the same load check whenever it is posted
        pins = {name: stamp[name] for name in ("catalogue_release", "withdrawals_as_of") if name in stamp}
        asked = structs.replace(asked, **pins)
        checked = LoadCheckStudy(self.store, self.cost_limit_units).run(asked)
        question = next((one for one in checked.assumptions if one.id == checked.question), UNSET)
        members = to_members({name: getattr(plan, name) for name in ("tools", "circuits")})
        return wire.OutletPlan(
            connections=[Connection(plug=one.plug, into=one.into) for one in plan.connections],
            stays_off=list(plan.stays_off),
            cords_used=plan.cords_used,
            joints=plan.joints,
            gap_ratio=plan.gap_ratio,
            proven_optimal=plan.proven_optimal,
            load_check=wire.PlanCheck(
                verdict=checked.verdict,
                question=question,
                crew_card=checked.crew_card,
                findings=[structs.replace(one, basis=[]) for one in checked.findings if one.severity != "info"],
                not_assessed=checked.not_assessed,
                request=asked,
                request_digest=checked.request_digest,
            ),
            **members,
        )


_LISTS: dict[str, Any] = {
    "leave_out": wire.ToolLeftOff,
    "conflicts": wire.PlanConflict,
    "questions": wire.PlanQuestionOpen,
    "tried": wire.TriedPlan,
    "assumptions": Assumption,
    "tools": wire.PlannedTool,
    "circuits": wire.PlannedCircuit,
}


def to_members(results: dict[str, Any]) -> dict[str, Any]:
    """Results of the engine as the wire's structs, member by member."""
    found: dict[str, Any] = {}
    for name, value in results.items():
        if name in _LISTS:
            found[name] = [to_wire(one, _LISTS[name]) for one in value]
        else:
            found[name] = to_wire(value, wire.PlanMethod) if name == "method" else value
    return found


def _inline(request: wire.OutletPlanRequest, resolved: Resolved, plan: PlannedOutlets) -> LoadCheckRequest | None:
    """The request without references, where a tool of its kit stays off; a kit with adapters or with something
    withdrawn stays, because findings hang on those."""
    if request.kit is UNSET or resolved.adapters or any(one.withdrawn for one in resolved.entries):
        return None
    sent = {tool.id for tool in (() if request.tools is UNSET else request.tools)}
    return resolved.request if set(plan.stays_off) - sent else None


def outlet_plan_cost_units(question: PlanQuestion, limit: int) -> tuple[int, int]:
    """Most that a plan can cost, and how many load checks that allows; fewer checks where each is dear."""
    site = question.site
    shared = sum(1 for cord in site.cords if cord.outlets is not None and (cord.outlets.count or 1) > 1)
    columns = len(site.tools) * len(site.source.receptacles or ()) * (1 + len(site.cords) + shared)
    programme = columns * _PER_COLUMN
    each = max(1, load_check_cost_units(site))
    # what is checked are mostly parts, which cost a small share of the whole
    left = limit - programme - question.plans * each
    checks = min(MOST_CHECKS, max(_LEAST_CHECKS, left * 4 // each))
    return programme + question.plans * each + checks * each // 4, checks
