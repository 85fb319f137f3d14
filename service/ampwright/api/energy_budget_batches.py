"""POST /v1/energy-budget-batches: what do many days come to that differ from one another in a few members?"""

from __future__ import annotations

from ampwright.api.energy_budgets import refused_as_problem
from ampwright.api.ndjson import LINES, streamed
from ampwright.api.operations import Call, Operations, Reply
from ampwright.contract.energy_budget_batches import EnergyBatchLine, EnergyBatchProgress, EnergyBudgetBatchRequest

operations = Operations("Energy budgets")


@operations.post(
    "/v1/energy-budget-batches",
    "budget_energy_batch",
    scope="calculate",
    sends=(LINES,),
    line=EnergyBatchLine,
    compress=False,
    statuses={200: "One JSON object a line: head, a row for each scenario, end."},
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
async def budget_energy_batch(body: EnergyBudgetBatchRequest, call: Call) -> Reply[bytes]:
    """Budget many days.

    Post a budget that is common to all and up to 10,000 scenarios, each with an id and the steps of RFC 6902 that make
    its own budget of the common one. Rows come line by line in the order sent, with the same figures as
    POST /v1/energy-budgets gives for each; what is wrong with one scenario stands in its row, and the others go on. The
    last line has the kind `end`: a stream without it was cut off. Take fewer draws for a quick look.
    """
    rows = 0

    def lines():  # type: ignore[no-untyped-def]
        nonlocal rows
        with refused_as_problem():
            made = call.services.energy_budget_batch.lines(body, call.cancel.check)
        for line in made:
            rows += line.__struct_config__.tag == "row"
            yield line

    return await streamed(call, "long", lines, lambda: EnergyBatchProgress(rows=rows, of=len(body.scenarios)))
