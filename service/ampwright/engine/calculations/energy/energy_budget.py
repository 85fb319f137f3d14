"""How long does the energy last, how much work is done by then, and what is left for the way home?

Settles every unknown to a band, draws days from the bands, walks each through the kernel, and judges what is left in
one day of ten. Where it fails, each default alone is tried at its better end: one that makes it hold is the question.

Errors: none for a site and a day that validation accepts.
Not here: why tools do not run, alone or together, and what would mend it (load_check.py); HTTP, stamps (studies).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ampwright.engine.calculations.energy.energy_changes import changes
from ampwright.engine.calculations.energy.energy_course import (
    curve_of,
    duties_of,
    posteriors_of,
    reserve_of,
    stops_of,
    uses_of,
    work_done,
)
from ampwright.engine.calculations.energy.energy_crew_card import crew_card
from ampwright.engine.calculations.energy.energy_figures import figures_of, rows_of
from ampwright.engine.calculations.energy.energy_findings import findings_of
from ampwright.engine.calculations.energy.energy_judgement import influences
from ampwright.engine.calculations.energy.energy_plan import Outcome, Plan, evaluate
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult, Method
from ampwright.engine.calculations.energy.energy_settle import settle_day
from ampwright.engine.calculations.energy.energy_source import derating, fuel_kind
from ampwright.engine.calculations.energy.energy_told import (
    JUDGED,
    OVERLOADED,
    BasisList,
    assumptions,
    findings,
    verdicts_of,
    withdrawn_told,
)
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.physics.day_energy import GAIN, IMBALANCE
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.use import Site
from ampwright.engine.standards.engine_fuel_line import HELD_AGAINST

CONSERVED_TO = 1e-9


def budget_energy(site: Site, day: EnergyDay, withdrawn: tuple[tuple[str, str, str], ...] = ()) -> EnergyBudgetResult:
    """The answer to one energy budget.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn; each is a finding.
    """
    settled = settle_day(site, day)
    outcome = evaluate(settled.plan, day.seed, day.draws)
    rows = rows_of(outcome)
    figures = figures_of(site, day, settled, rows)
    enough = figures.left.enough if figures.left is not None else "pass"
    influence = influences(settled, day.seed, day.draws) if settled.plan.limited else ()
    told = [
        *findings_of(site, day, settled, outcome, rows, enough),
        *withdrawn_told(withdrawn),
    ]
    wanting = enough != "pass" or any(item.code in OVERLOADED for item in told)
    cheapest = changes(site, day, settled, day.seed, day.draws) if wanting else ()
    # what a change does not touch keeps its verdict: of a day with a tool that cannot run it makes no pass
    rest = [
        item.verdict
        for item in told
        if FINDING_CODES[item.code].aspect == "capacity" and item.code not in (*JUDGED, *OVERLOADED)
    ]
    cheapest = tuple(replace(item, then=worst((item.then, *rest))) for item in cheapest)
    leaned_on = BasisList()
    listed = assumptions(settled, influence, enough, leaned_on)
    decides = next((item for item in listed if item.swings_verdict_to is not None), None)
    found = findings(told, cheapest, leaned_on)
    if settled.heat_j_per_m3 is not None:
        leaned_on.refer("afdc-greet_fuels")
        assumed = any(item.code == "fuel_curve" for item in settled.assumptions)
        if assumed:
            for key in HELD_AGAINST[fuel_kind(site.source, day, Ledger())]:
                leaned_on.refer(key)
        if day.carbon_kg_per_m3 is None:
            leaned_on.refer("40-cfr-98_c-1")
        if derating(site.source, day, settled.ambient_c).low < 1.0:
            leaned_on.refer("common-practice_derating")
    asked = "unknown" if enough == "fail" and decides is not None else enough
    uses = uses_of(settled, outcome)
    return EnergyBudgetResult(
        verdict=verdicts_of(told, asked, settled.able.left_out),
        question=decides.id if decides else None,
        crew_card=crew_card(
            site,
            settled,
            outcome,
            enough,
            cheapest,
            uses,
            decides.how_to_find_out if decides else None,
            any(item.code in OVERLOADED for item in told),
        ),
        findings=found,
        assumptions=listed,
        cheapest_change=cheapest[0] if cheapest else None,
        changes=cheapest,
        left=figures.left,
        time_left_s=figures.time_left_s,
        reserve=reserve_of(settled, outcome),
        work_done=work_done(site, day, settled, outcome),
        stops=stops_of(settled, outcome),
        curve=curve_of(settled, outcome),
        uses=uses,
        duties=duties_of(day, settled, outcome),
        used_j=figures.used_j,
        done_ratio=figures.done_ratio,
        fuel=figures.fuel,
        cost=figures.cost,
        carbon_kg=figures.carbon_kg,
        posteriors=posteriors_of(day, settled),
        not_assessed=settled.able.left_out,
        method=Method(outcome.method, day.seed, outcome.out.shape[1], _conserved(settled.plan, outcome)),
        basis=leaned_on.items,
    )


def _conserved(plan: Plan, outcome: Outcome) -> bool:
    """Whether the balance of every draw closes, held against the amounts in it: stored, drawn and gained."""
    gained = sum(item.gain_w * item.duration_s for item in plan.stretches) * outcome.value[:, GAIN]
    scale = outcome.course_j.max(axis=1) + outcome.use_j.sum(axis=1) + gained + 1.0
    return bool(np.all(np.abs(outcome.out[IMBALANCE]) <= CONSERVED_TO * scale))
