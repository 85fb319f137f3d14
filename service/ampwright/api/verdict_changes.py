"""POST /v1/verdict-changes: which kits have another verdict in another release, and why?"""

from __future__ import annotations

from ampwright.api.matrix_streams import MOST_AT_ONCE, begun
from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.verdict_changes import VerdictChangesAnswer, VerdictChangesRequest
from ampwright.studies.verdict_changes import VerdictChanges

operations = Operations("Verdict changes", "Which kits have another verdict in another release of the catalogue.")


@operations.post(
    "/v1/verdict-changes",
    "compare_verdicts",
    lane="long",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
def compare_verdicts(body: VerdictChangesRequest, call: Call) -> VerdictChangesAnswer:
    """Compare the verdicts of two releases.

    Every kit on every source at every job is validated against both releases, and the rows whose verdict differs are
    told: what got worse first, with the documents behind the row whose revisions differ, and in which figures. Rows
    that neither release can answer are named with what is wrong with them. Up to 600 rows a call; ask for some by
    `rows`.
    """
    made = begun(lambda: VerdictChanges(call.services.store, body))
    if made.rows > MOST_AT_ONCE:
        said = f"{made.rows} rows are asked for, and {MOST_AT_ONCE} are compared at once"
        raise ProblemError("too-much-work", f"{said}; ask for some by `rows`.")
    return made.answer(call.cancel.check)
