"""How long does the energy last, how much work is done by then, and what is left for the way home?

Settles every unknown to a band, draws days from the bands, walks each through the kernel, and judges what is left in
one day of ten. Where it fails, each default alone is tried at its better end: one that makes it hold is the question.

Errors: none for a site and a day that validation accepts.
Not here: whether the tools run together at all (load_check.py); HTTP, references, stamps (studies).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.energy_changes import changes
from ampwright.engine.calculations.energy_findings import Told, findings_of
from ampwright.engine.calculations.energy_judgement import influences, verdict_of
from ampwright.engine.calculations.energy_plan import evaluate, evaluate_many
from ampwright.engine.calculations.energy_report import (
    JUDGED,
    BasisList,
    assumptions,
    carbon_of,
    cost_of,
    crew_card,
    curve_of,
    duties_of,
    energy,
    findings,
    fuel_of,
    left_of,
    posteriors_of,
    reserve_of,
    stops_of,
    time_left,
    uses_of,
    work_done,
)
from ampwright.engine.calculations.energy_result import EnergyBudgetResult, Method
from ampwright.engine.calculations.energy_settle import settle_day
from ampwright.engine.calculations.energy_source import fuel_kind
from ampwright.engine.calculations.load_check_result import Verdicts
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.physics.day_energy import ENOUGH, MARGIN, USED
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.use import Site

NOT_ASSESSED = ("running_together",)


def budget_energy(site: Site, day: EnergyDay, withdrawn: tuple[tuple[str, str, str], ...] = ()) -> EnergyBudgetResult:
    """The answer to one energy budget.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn; each is a finding.
    """
    settled = settle_day(site, day)
    outcome = evaluate(settled.plan, day.seed, day.draws)
    enough = verdict_of(outcome.at(MARGIN, 0.1), outcome.at(ENOUGH, 0.5)) if settled.plan.limited else "pass"
    influence = influences(settled, day.seed, day.draws) if settled.plan.limited else ()
    told = [
        *findings_of(site, day, settled, outcome, enough),
        *(Told("entry_withdrawn", at, name, "marginal", text=reason) for at, name, reason in withdrawn),
    ]
    cheapest = changes(site, day, settled, day.seed, day.draws) if enough != "pass" else ()
    leaned_on = BasisList()
    listed = assumptions(settled, influence, enough, leaned_on)
    decides = next((item for item in listed if item.swings_verdict_to is not None), None)
    found = findings(told, cheapest, leaned_on)
    if settled.heat_j_per_m3 is not None:
        leaned_on.refer("afdc-greet_fuels")
    asked = "unknown" if enough == "fail" and decides is not None else enough
    by_code = {item.code: item.verdict for item in told}
    capacity = worst(
        (asked, *(by_code[item.code] for item in found if item.aspect == "capacity" and item.code not in JUDGED))
    )
    safety = worst(by_code[item.code] for item in found if item.aspect == "safety")
    uses = uses_of(settled, outcome)
    kind = fuel_kind(site.source, day, Ledger()) if site.source.kind == "engine_generator" else None
    return EnergyBudgetResult(
        verdict=Verdicts(worst((capacity, safety)), capacity, safety, None),
        question=decides.id if decides else None,
        crew_card=crew_card(
            site, settled, outcome, enough, cheapest, uses, decides.how_to_find_out if decides else None
        ),
        findings=found,
        assumptions=listed,
        cheapest_change=cheapest[0] if cheapest else None,
        changes=cheapest,
        left=left_of(settled, outcome),
        time_left_s=time_left(settled, outcome),
        reserve=reserve_of(settled, outcome),
        work_done=work_done(site, day, settled, outcome),
        stops=stops_of(settled, outcome),
        curve=curve_of(settled, outcome),
        uses=uses,
        duties=duties_of(day, settled, outcome),
        used_j=energy(outcome.out[USED]),
        fuel=fuel_of(site, settled, outcome),
        cost=cost_of(day, settled, outcome),
        carbon_kg=carbon_of(day, settled, outcome, kind),
        posteriors=posteriors_of(day, settled),
        not_assessed=NOT_ASSESSED,
        method=Method(outcome.method, day.seed, outcome.out.shape[1]),
        basis=leaned_on.items,
    )


def budget_many(
    scenarios: Sequence[tuple[Site, EnergyDay]], seed: int, draws: int, probabilities: Sequence[float]
) -> npt.NDArray[np.float64]:
    """Percentiles of many days, (scenarios, METRICS, probabilities), through the same kernel as one.

    Days of one shape (the same tools, works, stops and unknowns) go through it in one call; order is kept.
    """
    plans = [settle_day(site, day).plan for site, day in scenarios]
    groups: dict[tuple[object, ...], list[int]] = {}
    for i, plan in enumerate(plans):
        shape = (
            tuple((item.key, item.kind) for item in plan.figures),
            tuple((item.name, item.power, item.time) for item in plan.loads),
            tuple((item.is_work, item.stop, item.distance) for item in plan.stretches),
        )
        groups.setdefault(shape, []).append(i)
    found: npt.NDArray[np.float64] | None = None
    for places in groups.values():
        rows = evaluate_many([plans[i] for i in places], seed, draws, probabilities)
        if found is None:
            found = np.empty((len(plans), *rows.shape[1:]))
        found[places] = rows
    return found if found is not None else np.empty((0, 0, len(probabilities)))
