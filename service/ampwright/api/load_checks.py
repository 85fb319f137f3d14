"""POST /v1/load-checks: which of these tools run here, alone, together, and pushed?"""

from __future__ import annotations

from ampwright.api.crew_card_text import crew_card_text
from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.load_checks import LoadCheckAnswer, LoadCheckRequest
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import RefusedRequest

operations = Operations("Load checks", "Which tools run on this source, alone and together, through which cords.")


@operations.post(
    "/v1/load-checks",
    "check_load",
    lane="calculation",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
    renderings={"text/plain": crew_card_text},
)
def check_load(body: LoadCheckRequest, call: Call) -> LoadCheckAnswer:
    """Check which tools run on a power source.

    Post a source, what is plugged into what through which cords, how many people work, and which cases run. Leave out
    what is not known: every omitted figure becomes a stated assumption on the safe side, and where one assumption
    alone decides, the verdict is `unknown` and the answer names the question that settles it. Trips, low voltage and
    overloads are answers, not problems. The answer informs a qualified person; it is no permission to energise.

    With `Accept: text/plain` only the crew card comes, to print: at most five plain lines, an empty line, the notice
    and the digest of the request. They are the lines of `crew_card` in the JSON answer; /v1/reference/words has
    them as `crew_card_line`.
    """
    try:
        return call.services.load_check.run(body)
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooMuchWork as dear:
        raise ProblemError("too-much-work", f"It costs {dear}; ask for fewer cases or tools.") from None
