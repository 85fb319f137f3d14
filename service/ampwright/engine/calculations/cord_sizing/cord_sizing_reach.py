"""How far may one cord of each size go?

Bisection on the length: more length never makes a rule easier, so that what fails at one length fails at every longer
one. Two lengths are told: up to one every rule passes while the tool works, up to the other none fails.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation, evaluate
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion, Run

FARTHEST_M = 400.0
RESOLUTION_M = 0.1
SHORTEST_M = 0.1
OUTCOMES = LIMITED, ANY_LENGTH, NO_LENGTH = "limited", "any_length", "no_length"


@dataclass(frozen=True, slots=True)
class RunReach:
    """`outcome`: limited, any_length (beyond what is looked at) or no_length. Lengths [m] are rounded down."""

    outcome: str
    longest_m: float | None
    passing_m: float | None
    limited_by: str | None


def reaches(question: CordQuestion, runs: Sequence[Run]) -> tuple[RunReach, ...]:
    """Reach of each run of one cord, under the assumptions of the request."""
    if not runs:
        return ()
    asked = _without_distance(question)
    wanted = [(run, accepts) for run in runs for accepts in (_holds, _firm)]
    low = [SHORTEST_M] * len(wanted)
    high = [FARTHEST_M] * len(wanted)
    ends = {
        length: evaluate(asked, [run.of_length(length) for run in runs], all_lines=False).rows
        for length in (SHORTEST_M, FARTHEST_M)
    }
    state: list[str] = []
    for n, (_, accepts) in enumerate(wanted):
        if accepts(ends[FARTHEST_M][n // 2]):
            state.append(ANY_LENGTH)
        elif not accepts(ends[SHORTEST_M][n // 2]):
            state.append(NO_LENGTH)
        else:
            state.append(LIMITED)
    beyond: list[RowEvaluation] = [
        ends[SHORTEST_M if state[n] == NO_LENGTH else FARTHEST_M][n // 2] for n in range(len(wanted))
    ]
    for _ in range(math.ceil(math.log2(FARTHEST_M / RESOLUTION_M)) + 1):
        open_ones = [n for n in range(len(wanted)) if state[n] == LIMITED and high[n] - low[n] > 0.5 * RESOLUTION_M]
        if not open_ones:
            break
        middles = [0.5 * (low[n] + high[n]) for n in open_ones]
        rows = evaluate(
            asked, [wanted[n][0].of_length(at) for n, at in zip(open_ones, middles, strict=True)], all_lines=False
        ).rows
        for n, at, row in zip(open_ones, middles, rows, strict=True):
            if wanted[n][1](row):
                low[n] = at
            else:
                high[n], beyond[n] = at, row
    return tuple(_reach(state[n : n + 2], low[n : n + 2], beyond[n : n + 2]) for n in range(0, len(wanted), 2))


def _holds(row: RowEvaluation) -> bool:
    return row.verdict in ("pass", "marginal")


def _firm(row: RowEvaluation) -> bool:
    return row.firm


def _without_distance(question: CordQuestion) -> CordQuestion:
    return CordQuestion(
        question.site, question.at_hand, question.new_cord, None, question.receptacle, question.run, question.sizes
    )


def _reach(state: list[str], low: list[float], beyond: list[RowEvaluation]) -> RunReach:
    lengths = [
        None if kind == NO_LENGTH else FARTHEST_M if kind == ANY_LENGTH else _down(at)
        for kind, at in zip(state, low, strict=True)
    ]
    against = beyond[0].first_against() if state[0] != ANY_LENGTH else None
    return RunReach(state[0], lengths[0], lengths[1], against.code if against else None)


def _down(length_m: float) -> float:
    return math.floor(length_m / RESOLUTION_M) * RESOLUTION_M
