"""POST /v1/cord-sizings: which cord for this tool, distance and receptacle, and is this run good enough?"""

from __future__ import annotations

from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.cord_sizings import CordSizingAnswer, CordSizingRequest
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import RefusedRequest

operations = Operations("Cord sizings", "Which cord for a tool, a distance and a receptacle, and how far it may go.")


@operations.post(
    "/v1/cord-sizings",
    "size_cords",
    lane="calculation",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
def size_cords(body: CordSizingRequest, call: Call) -> CordSizingAnswer:
    """Size the cord of a tool, or judge the cords at hand.

    Post a source and a tool. With `distance` the answer names the smallest conductor that passes every rule and the
    one a careful person brings, each with its price in volts and watts; with `cords` beside it, which of these to use
    and why not the others; with `run`, whether these cords in series are good enough. Without a distance each size or
    cord tells how far it may go. Every rule is a line with value, limit, margin and basis. Leave out what is not
    known: every omitted figure becomes a stated assumption on the safe side. That no cord is enough is an answer, no
    problem. The answer informs a qualified person; it is no permission to energise.
    """
    try:
        return call.services.cord_sizing.run(body)
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooMuchWork as dear:
        raise ProblemError("too-much-work", f"It costs {dear}; ask for fewer cords or sizes.") from None
