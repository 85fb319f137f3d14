"""Which assumption decides where a candidate fails, and which decide only together?

Each assumption of influence is taken the other way, for all failing candidates at once. Where none alone decides, all
are taken the other way; if that lifts the fail, what can be left out of them again is left out, and the rest stands as
what the fail hangs on. The tool plugged straight into a receptacle is asked about like a candidate: what fails there
fails for all. Tries are bounded; what is left out stays on the safe side.
Not here: what an answer makes of it (cord_sizing_report.py).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation, SizingEvaluation, evaluate
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.ledger import Assumption

# which assumptions are tried the other way first; what neither a cord nor a start depends on is not tried
INFLUENCE = (
    "cord_laid",
    "cord_size",
    "plate_unknown",
    "receptacle_rating",
    "limit_continuous",
    "limit_peak",
    "limit_tiers",
    "head_pressure",
    "limit_response",
    "overload_policy",
    "engine_technology",
    "soft_start",
    "start_current",
)
STARTS_ONLY = frozenset(INFLUENCE[INFLUENCE.index("limit_tiers") :])
MOST_TRIED = 24
MOST_TOGETHER = 4  # targets of which it is asked what they hang on together

Target = tuple[str, int]
"""("row", n), or ("straight", n) for the receptacle of row n with no cord in between."""


@dataclass(frozen=True, slots=True)
class Waits:
    """Keys of assumptions. one : that alone decides a target. several : that decide it only together."""

    one: Mapping[Target, str]
    several: Mapping[Target, tuple[str, ...]]
    then: Mapping[Target, str]

    def of_row(self, n: int) -> str | None:
        return self.one.get(("row", n))


def straight_of(rows: Sequence[RowEvaluation], n: int) -> Target:
    """The target of the receptacle that a row hangs on: named by its first row."""
    there = rows[n].run.receptacle
    return "straight", next(k for k, row in enumerate(rows) if row.run.receptacle == there)


def waits_of(question: CordQuestion, base: SizingEvaluation) -> Waits:
    """What each failing candidate, and each receptacle at which the tool does not start, waits for."""
    asked = _Asked(question, base)
    failing = [target for target in _targets(base) if asked.verdict(base.rows[target[1]], target) == "fail"]
    tried = _tried(base.assumptions)
    one: dict[Target, str] = {}
    then: dict[Target, str] = {}
    for assumption in tried:
        touched = [target for target in failing if target not in one and _touches(assumption, base, target)]
        for target, verdict in asked.under(frozenset({assumption.key}), touched).items():
            if verdict != "fail":
                one[target], then[target] = assumption.key, verdict
    stuck = [target for target in failing if target not in one]
    stuck.sort(key=lambda target: (target[0] != "straight", _against(base.rows[target[1]]), -target[1]))
    several: dict[Target, tuple[str, ...]] = {}
    for target in stuck[:MOST_TOGETHER]:
        keys = [item.key for item in tried if _touches(item, base, target)]
        together = _together(asked, keys, target)
        if together:
            several[target] = together
    return Waits(one, several, then)


def _targets(base: SizingEvaluation) -> list[Target]:
    straight = dict.fromkeys(straight_of(base.rows, n) for n in range(len(base.rows)))
    return [*straight, *(("row", n) for n in range(len(base.rows)))]


def _against(row: RowEvaluation) -> int:
    return sum(not line.advisory and line.verdict == "fail" for line in row.lines)


class _Asked:
    """Verdicts of some targets under flipped assumptions."""

    def __init__(self, question: CordQuestion, base: SizingEvaluation) -> None:
        self._question = question
        self._rows = base.rows

    @staticmethod
    def verdict(row: RowEvaluation, target: Target) -> str:
        return row.verdict if target[0] == "row" else worst(line.verdict for line in row.straight)

    def under(self, flipped: frozenset[str], targets: Sequence[Target]) -> dict[Target, str]:
        if not targets:
            return {}
        places = sorted({n for _, n in targets})
        found = evaluate(self._question, [self._rows[n].run for n in places], flipped, all_lines=False)
        rows = dict(zip(places, found.rows, strict=True))
        return {target: self.verdict(rows[target[1]], target) for target in targets}


def _together(asked: _Asked, keys: list[str], target: Target) -> tuple[str, ...]:
    """A smallest set (none of it can be left out) of assumptions that lifts the fail; () where none does."""
    if len(keys) < 2 or asked.under(frozenset(keys), [target])[target] == "fail":
        return ()
    kept = list(keys)
    for key in keys:
        fewer = [item for item in kept if item != key]
        if asked.under(frozenset(fewer), [target])[target] != "fail":
            kept = fewer
    return tuple(kept)


def _tried(assumptions: Sequence[Assumption]) -> list[Assumption]:
    swinging = [item for item in assumptions if item.if_instead is not None and item.code in INFLUENCE]
    swinging.sort(key=lambda item: (INFLUENCE.index(item.code), item.pointer))
    return swinging[:MOST_TRIED]


def _touches(assumption: Assumption, base: SizingEvaluation, target: Target) -> bool:
    """An assumption about a cord touches the runs that hold it, one about starts those with a start that fails."""
    kind, n = target
    row = base.rows[n]
    if kind == "straight":
        return not assumption.code.startswith("cord_")
    if assumption.code.startswith("cord_"):
        return any(f"{assumption.pointer}/".startswith(f"{cord.pointer}/") for cord in row.run.cords)
    if assumption.code in STARTS_ONLY:
        starts = ("start", "stalled_motor")
        return any(line.code in starts and line.verdict == "fail" and not line.advisory for line in row.lines)
    return True
