"""POST /v1/outlet-plans: which tool goes into which receptacle, through which cords, and what stays off?"""

from __future__ import annotations

from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.outlet_plans import OutletPlanAnswer, OutletPlanRequest
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import RefusedRequest

operations = Operations(
    "Outlet plans", "Which tool goes into which receptacle, through which cords, and what stays off."
)


@operations.post(
    "/v1/outlet-plans",
    "plan_outlets",
    lane="long",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
def plan_outlets(body: OutletPlanRequest, call: Call) -> OutletPlanAnswer:
    """Plan which tool goes into which receptacle.

    Post what a load check takes, without connections: the source with its receptacles, the tools or a kit, the spare
    cords; with where work is done and how far that is from each receptacle, which tools must run together, and what
    stays on first. Each plan comes with connections to paste into a load check, and with that load check's verdict:
    one that fails is never told, the next best is tried. Steady load is planned on the safe side of what is not known.
    Where not everything can be on, the answer names the smallest sets that do not go together, what to leave out, and
    what to find out. That nothing fits is an answer, no problem. Where a rule layer fails already with nothing plugged
    in, no plan changes that, and the verdict says so. A plan needs no order of starting; it informs a qualified person
    and is no permission to energise.
    """
    try:
        return call.services.outlet_plan.run(body, call.cancel.check)
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooMuchWork as dear:
        raise ProblemError("too-much-work", f"It costs {dear}; ask with fewer tools, cords or cases.") from None
