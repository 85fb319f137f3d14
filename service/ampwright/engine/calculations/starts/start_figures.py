"""Which figures does an answer show of a start and of a sag?

The outcome is that of the typical estimate, with all three beside it where they differ; peak, time and trip are those
of the hard one, the safe side. A sag is the worst that any start of the case brings to the tool.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ampwright.engine.calculations.load_check.load_check_result import Outcomes, SagFigure, StartFigure, TripFigure
from ampwright.engine.calculations.starts.start_needs import StartNeed
from ampwright.engine.calculations.starts.start_sags import Sag
from ampwright.engine.calculations.starts.starts import ToolStart
from ampwright.engine.physics.protective_device import TripBand
from ampwright.engine.site.band import HIGH, LOW, TYPICAL

if TYPE_CHECKING:
    from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation

NOT_ASSESSED = "not_assessed"


def start_figure(base: Evaluation, case: int, tool: int) -> StartFigure | None:
    """What becomes of switching a tool on in a case; None for a tool without a start to speak of."""
    if tool in base.starts.open_tools:
        return StartFigure(NOT_ASSESSED)
    one = next((item for item in base.starts.of_case(case) if item.tool == tool), None)
    if one is None:
        return StartFigure(NOT_ASSESSED) if base.starts.starting.starts[tool] is not None else None
    return figure_of(one, base.start_needs.get((case, tool), StartNeed()))


def figure_of(one: ToolStart, need: StartNeed) -> StartFigure:
    """Figures of one start and of what it needs."""
    hard = one.estimates[HIGH]
    lasts_s = next(
        (item.lasts_s for item in (hard, one.estimates[TYPICAL], one.estimates[LOW]) if item.lasts_s < math.inf), None
    )
    return StartFigure(
        one.outcomes[TYPICAL],
        round(max(item.peak_a for item in one.estimates), 3),
        round(lasts_s, 3) if lasts_s is not None else None,
        round(need.must_give_a, 3) if need.must_give_a is not None else None,
        round(need.probability_ratio, 4) if need.probability_ratio is not None else None,
        Outcomes(*one.outcomes) if len(set(one.outcomes)) > 1 else None,
        round(need.must_give_s, 3) if need.must_give_s is not None else None,
        _trip(hard.trip),
    )


def _trip(band: TripBand | None) -> TripFigure | None:
    if band is None or band.outcome == "holds":
        return None
    return TripFigure(
        band.outcome, _finite(band.earliest_s), _finite(band.latest_guaranteed_s), _finite(band.latest_assumed_s)
    )


def _finite(seconds: float) -> float | None:
    return None if seconds == math.inf else round(seconds, 3)


def sag_figure(base: Evaluation, case: int, tool: int) -> SagFigure | None:
    """The lowest voltage at a tool while any other of its case starts; None where nothing beside it starts."""
    found = [(sag, one.tool) for one in base.starts.of_case(case) for sag in one.sags if sag.tool == tool]
    if not found:
        return None
    sag, by = min(found, key=lambda item: (item[0].lowest_v, item[1]))
    # a shallow sag may last too long where a deep one is over at once
    worst = max((one for one, _ in found), key=_minds)
    return SagFigure(
        round(sag.lowest_v, 3), round(sag.lasts_s, 3), base.settled.placements[by].tool.id, sag.through,
        _OUTCOMES[_minds(worst)],
    )  # fmt: skip


_OUTCOMES = ("rides_through", "may_drop_out", "drops_out")


def _minds(sag: Sag) -> int:
    """Place in _OUTCOMES; nothing rides through a source that goes off."""
    return 2 if sag.goes_dark else ("no", "perhaps", "surely").index(sag.upset)
