"""How hot may a weld be here, and for how long?

For every welder of a case whose plate says what it gives: the highest output at which the case's capacity passes, and
the highest at which it is at least marginal, with everything else of the case running and starting, and with what
follows a trip. The outlet sees each weld as
steady use, because a source of many outlets is given no allowance for duty; how long the welder itself bears an output
is told beside it, in seconds of ten minutes at 40 degC. Effective supply current is that of the output over its duty.
Source: IEC 60974-1 (conventional load voltages, duty, I1eff); NFPA 70 630.11 asks the conductors for I1eff.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.network.weld_input import duty_ratio, rated_output_a, weld_input
from ampwright.engine.calculations.reverse.reaching_edge import got_worse, last_that_holds_whole, levels_of, no_worse
from ampwright.engine.calculations.reverse.tool_edits import WeldAtMost
from ampwright.engine.physics.welder_input import welder_effective_current_a
from ampwright.engine.site.band import HIGH
from ampwright.engine.site.settled import Placement
from ampwright.engine.site.use import Case, Site

LEAST_A = 10.0
STEP_A = 1.0
CAPACITY = ("capacity",)
TEN_MINUTES_S = 600.0
MOST_WELDS = 12  # cases times welders


@dataclass(frozen=True, slots=True)
class HighestWeld:
    """passes_a, at_most_a : [A] output at which the case passes, and is at least marginal; None where none does.

    Seconds of ten minutes and effective current belong to `at_most_a`; limited_by is what a higher output brings.
    """

    case: str
    tool: str
    rated_a: float
    passes_a: float | None = None
    at_most_a: float | None = None
    supply_current_a: float | None = None
    welding_in_ten_minutes_s: float | None = None
    effective_current_a: float | None = None
    limited_by: str | None = None


def highest_welds(site: Site, base: Evaluation) -> tuple[HighestWeld, ...]:
    """Every case and welder of it, at most `MOST_WELDS`; base : the site as it is."""
    found: list[HighestWeld] = []
    for running in base.sets:
        for i in running.placements:
            placement = base.settled.placements[i]
            option = placement.option
            if rated_output_a(placement) is None or option is None or len(found) >= MOST_WELDS:
                continue
            found.append(_highest(site, placement, Case(running.id, running.running, "/cases")))
    return tuple(found)


def _highest(site: Site, placement: Placement, case: Case) -> HighestWeld:
    rated = rated_output_a(placement)
    option = placement.option
    assert rated is not None
    assert option is not None
    alone = replace(site, cases=(case,))
    known: dict[tuple[int, bool], Evaluation] = {}

    def output_a(step: int) -> float:
        return min(LEAST_A + step * STEP_A, rated)

    def at(step: int, whole: bool) -> Evaluation:
        if (step, whole) not in known:
            own = option.id if option.load_states else None
            edit = WeldAtMost(placement.tool.id, "", *weld_input(placement, output_a(step)), own)
            only = None if whole else frozenset[int]()
            known[step, whole] = evaluate(edit.site(alone), frozenset(), only=only, with_after=whole)
        return known[step, whole]

    def holds(step: int, whole: bool, than: str) -> bool:
        return no_worse(at(step, whole).aspect(0, "capacity"), than)

    top = max(int((rated - LEAST_A) / STEP_A + 0.999), 0)
    passes, most = (
        last_that_holds_whole(0, top, lambda step, whole, than=than: holds(step, whole, than))  # type: ignore[misc]
        for than in ("pass", "marginal")
    )
    result = HighestWeld(case.id, placement.tool.id, rated, None if passes is None else output_a(passes))
    if most is None:
        return replace(result, limited_by=got_worse(levels_of(at(0, True), CAPACITY), {}))
    amps = weld_input(placement, output_a(most))[1].at(HIGH)
    duty = duty_ratio(placement, output_a(most))
    return replace(
        result,
        at_most_a=output_a(most),
        supply_current_a=amps,
        welding_in_ten_minutes_s=None if duty is None else round(duty * TEN_MINUTES_S, 1),
        effective_current_a=None if duty is None else round(float(welder_effective_current_a(amps, 0.0, duty)), 3),
        limited_by=(
            None
            if most == top
            else got_worse(levels_of(at(most + 1, True), CAPACITY), levels_of(at(most, True), CAPACITY))
        ),
    )
