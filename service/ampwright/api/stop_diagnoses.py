"""POST /v1/stop-diagnoses: why did it stop, and what is the smallest change that makes it hold?"""

from __future__ import annotations

from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.stop_diagnoses import StopDiagnosisAnswer, StopDiagnosisRequest
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import RefusedRequest

operations = Operations("Stop diagnoses", "Why it stopped, from what ran and what was seen, with safe checks only.")


@operations.post(
    "/v1/stop-diagnoses",
    "diagnose_stop",
    lane="calculation",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
def diagnose_stop(body: StopDiagnosisRequest, call: Call) -> StopDiagnosisAnswer:
    """Diagnose why power went.

    Post what a load check takes, with what ran when it stopped and what was seen: after how long, what went off, how
    power came back, what a meter showed. Causes come ranked, each with what speaks for it, checks that are safe to
    make, and changes after which what ran holds. The ranking orders a search and is no measurement; nobody loads a
    circuit to find out where it trips.
    """
    try:
        return call.services.stop_diagnosis.run(body)
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooMuchWork as dear:
        raise ProblemError("too-much-work", f"It costs {dear}; ask with fewer tools or cords.") from None
