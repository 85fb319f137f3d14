"""POST /v1/energy-budgets: how long does the energy last, how much work is done, and what is left for the way home?"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from ampwright.contract.energy_budgets import EnergyBudgetAnswer, EnergyBudgetRequest
from ampwright.studies.cost import TooMuchWork
from ampwright.studies.load_check import RefusedRequest

operations = Operations(
    "Energy budgets", "How long a source lasts, how much work it does, and what is left to get home."
)


@operations.post(
    "/v1/energy-budgets",
    "budget_energy",
    lane="calculation",
    problems=("contradictory-request", "too-much-work", "no-such-entry", "not-ready"),
)
def budget_energy(body: EnergyBudgetRequest, call: Call) -> EnergyBudgetAnswer:
    """Budget a day's energy.

    Post what a load check takes, with the charge or the fuel that there is, what runs for how much of the time or what
    work must be done, and the way home. Leave out what is not known: it becomes a stated assumption with a wide range.
    Days are drawn from all ranges with a seed, so the same request has the same answer; p10 is the worst of ten days.
    A day that fails is an answer, with the cheapest change that makes it. Whether the tools run together at all is
    what POST /v1/load-checks answers.
    """
    with refused_as_problem():
        return call.services.energy_budget.run(body)


@contextmanager
def refused_as_problem() -> Iterator[None]:
    """What a study refuses, as the problem that a caller reads."""
    try:
        yield
    except RefusedRequest as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        raise ProblemError.of_faults(code, refused.faults) from None
    except TooMuchWork as dear:
        raise ProblemError("too-much-work", f"It costs {dear}; ask for fewer draws, tools or hours.") from None
