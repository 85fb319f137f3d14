"""What does a caller post to /v1/energy-budget-batches, and which lines come back?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, ClassVar, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.energy_budgets import (
    CostResult,
    EnergyBudgetRequest,
    EnergyLeft,
    FuelResult,
    Percentiles,
    Ratio,
)
from ampwright.contract.load_checks import StatedAsOf, Verdicts
from ampwright.contract.parts import Answer, Identifier, Pointer, Request

MOST_SCENARIOS = 10_000


class ScenarioChange(Request, frozen=True, kw_only=True):
    """One step of RFC 6902 on the common budget. `value` is what the member of a budget takes."""

    op: Literal["add", "replace", "remove"] = "add"
    path: Pointer
    value: Annotated[Any, Meta(description="What the member becomes.", examples=["60 %"])] = UNSET


class EnergyScenario(Request, frozen=True, kw_only=True):
    """One day of many: the common budget with some members changed."""

    id: Identifier
    change: Annotated[list[ScenarioChange], Meta(max_length=50)] = []


class EnergyBudgetBatchRequest(Request, frozen=True, kw_only=True):
    """One budget that is common to all, and how each scenario differs from it."""

    READ_ALONE: ClassVar[Mapping[str, type[Request]]] = {"scenarios": EnergyScenario}

    budget: EnergyBudgetRequest
    scenarios: Annotated[list[EnergyScenario], Meta(min_length=1, max_length=MOST_SCENARIOS)]


# --- lines -------------------------------------------------------------------------------------------------------

Counted = Annotated[int, Meta(ge=0, le=1_000_000_000)]


class ScenarioFault(Answer, frozen=True, kw_only=True):
    """What is wrong with one scenario. `pointer` goes into the changed budget, or to the step that does not fit it; of
    a scenario that cannot be read, or whose id is taken, into the request as sent (`/scenarios/...`)."""

    pointer: str
    code: str
    message: str
    did_you_mean: str | UnsetType = UNSET


class EnergyBatchHead(Answer, frozen=True, kw_only=True, tag="head", tag_field="kind"):
    """The first line: what all rows rest on."""

    rows_in_all: Counted
    notice: str
    engine_version: str
    request_digest: str


class EnergyBatchRow(Answer, frozen=True, kw_only=True, tag="row", tag_field="kind"):
    """Figures of one scenario, each the same as POST /v1/energy-budgets gives for it, or what is wrong with it.

    `index` counts from 0. `scenario` is its id; of one that has none that can be read, or whose id is taken, `#` and
    its index stand there. `verdict` is of the energy and of all that is found beside it, as of a budget posted alone;
    where the energy fails and one assumption decides, it is `fail` here and `unknown` alone. `because` has the codes of
    the findings that keep it from passing, worst first. `left.enough` is of the energy only. `request_digest` is the
    digest of the scenario's own budget: posted alone, it has findings, the question that decides, and changes as well.
    """

    index: Counted
    scenario: str
    errors: list[ScenarioFault] = []
    verdict: Verdicts | UnsetType = UNSET
    because: list[str] | UnsetType = UNSET
    left: EnergyLeft | UnsetType = UNSET
    time_left_s: Percentiles | UnsetType = UNSET
    done_ratio: Percentiles | UnsetType = UNSET
    reached_probability_ratio: Ratio | UnsetType = UNSET
    used_j: Percentiles | UnsetType = UNSET
    fuel: FuelResult | UnsetType = UNSET
    cost: CostResult | UnsetType = UNSET
    carbon_kg: Percentiles | UnsetType = UNSET
    catalogue_release: Annotated[int, Meta(ge=1)] | UnsetType = UNSET
    withdrawals_as_of: StatedAsOf | UnsetType = UNSET
    request_digest: str | UnsetType = UNSET


class EnergyBatchProgress(Answer, frozen=True, kw_only=True, tag="progress", tag_field="kind"):
    """Nothing is wrong, rows only take long. `rows` of so many have been made."""

    rows: Counted
    of: Counted


class EnergyBatchEnd(Answer, frozen=True, kw_only=True, tag="end", tag_field="kind"):
    """The last line. A stream without it was cut off. `without_answer` rows have errors instead."""

    rows: Counted
    without_answer: Counted


EnergyBatchLine = EnergyBatchHead | EnergyBatchRow | EnergyBatchProgress | EnergyBatchEnd
