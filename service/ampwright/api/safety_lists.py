"""POST /v1/safety-lists: what of the fleet should a safety officer look at?"""

from __future__ import annotations

from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.safety_lists import MOST_LINES, SafetyListAnswer, SafetyListRequest
from ampwright.contract.sheet_text import csv_line
from ampwright.studies.load_check import RefusedRequest
from ampwright.studies.safety_list import SHEET_COLUMNS, TooManyLines, safety_list, sheet_rows

operations = Operations("Safety lists", "What of a whole fleet should be looked at before anyone is hurt.")


def _as_csv(answer: SafetyListAnswer) -> bytes:
    return csv_line(SHEET_COLUMNS) + b"".join(csv_line(row) for row in sheet_rows(answer))


@operations.post(
    "/v1/safety-lists",
    "list_hazards",
    lane="long",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
    renderings={"text/csv": _as_csv},
)
def list_hazards(body: SafetyListRequest, call: Call) -> SafetyListAnswer:
    """List what of a fleet to look at.

    Every kit on every source: tools that stay switched on without restart protection where power comes back by itself,
    receptacles whose ground-fault protection nobody knows, engines of which nobody said where they run. Each line names
    its clauses with their edition, and says whether all behind it was stated or something was assumed on the safe side,
    and then how to find out. Without sources and kits the whole catalogue release is looked at. Accept text/csv for a
    spreadsheet. An empty list is no proof of safety: it asks these questions and no others.
    """
    try:
        return safety_list(call.services.store, body)
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooManyLines:
        said = f"There are more than {MOST_LINES} lines; ask for fewer sources or kits in a call."
        raise ProblemError("too-much-work", said) from None
