"""What does the engine make of what is asked of a plan, and which load check does a plan become?

The site is read as a load check's (reading_site.py); here is what stands beside it.
"""

from __future__ import annotations

from msgspec import UNSET, structs

from ampwright.contract.load_checks import Case, Connection, LoadCheckRequest
from ampwright.contract.outlet_plans import OutletPlanRequest
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.quantities import LENGTH
from ampwright.contract.reading import Reading, given
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import (
    DistanceFrom,
    PlanQuestion,
    ToolGroup,
    ToolWish,
    WorkPosition,
)
from ampwright.engine.calculations.outlet_plan.outlet_plan_result import PlannedOutlets
from ampwright.engine.site.use import Case as SiteCase
from ampwright.engine.site.use import Fault, Site

USUAL_PLANS = 3


def read_plan(
    request: OutletPlanRequest, site: Site, places: Places = AS_SENT
) -> tuple[PlanQuestion, tuple[Fault, ...]]:
    """The question about a site that was read, and every text of it that could not be read."""
    reading = Reading(places)
    positions: list[WorkPosition] = []
    for n, position in enumerate(() if request.positions is UNSET else request.positions):
        at = f"/positions/{n}"
        ways: list[DistanceFrom] = []
        for k, way in enumerate(() if position.ways is UNSET else position.ways):
            distance = reading.band(way.distance, LENGTH, f"{at}/ways/{k}/distance", above_zero=False)
            if distance is not None:
                ways.append(DistanceFrom(way.receptacle, distance, f"{at}/ways/{k}"))
        everywhere = reading.band(position.distance, LENGTH, f"{at}/distance", above_zero=False)
        positions.append(WorkPosition(position.id, at, everywhere, tuple(ways)))
    wishes = tuple(
        ToolWish(
            wish.tool,
            f"/wishes/{n}",
            given(wish.position),
            given(wish.priority),
            given(wish.into),
            given(wish.supply_option),
            reading.band(wish.own_cord, LENGTH, f"/wishes/{n}/own_cord", above_zero=False),
        )
        for n, wish in enumerate(() if request.wishes is UNSET else request.wishes)
    )
    groups = tuple(
        ToolGroup(group.id, f"/groups/{n}", tuple(group.tools))
        for n, group in enumerate(() if request.groups is UNSET else request.groups)
    )
    plans = USUAL_PLANS if request.plans is UNSET else request.plans
    return PlanQuestion(site, tuple(positions), wishes, groups, plans), reading.faults


def as_load_check(
    request: OutletPlanRequest, plan: PlannedOutlets, inline: LoadCheckRequest | None = None
) -> LoadCheckRequest:
    """The load check of a plan, as a caller would post it: what stays off is not in it.

    inline : the request without references, where something stays off that a kit brought: a kit cannot leave a tool
    out, so its tools and cords are then written out.
    """
    found = LoadCheckRequest(**{name: getattr(request, name) for name in LoadCheckRequest.__struct_fields__})
    if inline is not None:
        found = structs.replace(found, tools=inline.tools, cords=inline.cords, kit=UNSET)
    off = set(plan.stays_off)
    if found.tools is not UNSET:
        found = structs.replace(found, tools=[tool for tool in found.tools if tool.id not in off])
    return structs.replace(
        found,
        connections=[Connection(plug=one.plug, into=one.into) for one in plan.connections],
        cases=UNSET if plan.cases is None else [_case(case) for case in plan.cases],
    )


def _case(case: SiteCase) -> Case:
    order = UNSET if case.start_order is None else list(case.start_order)
    return Case(id=case.id, running=list(case.running), start_order=order)
