"""What is a suspect of a stop, and which circuits may have met a short or a fault in what hangs on them?

A short shows by its time: what protects a circuit opens within moments of the fault, so that it is looked for most when
power went at once, and a little always, since a cord can be crushed at any time. No figure of a load check speaks of
it. How likely it is after which time is judgement of the trade (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.load_check.load_check_result import FigureBand
from ampwright.engine.calculations.stop_diagnosis.stop_observation import StopObservation

AT_ONCE_S = 1.0  # a magnetic trip takes less than a tenth of a second; a person says "at once" up to about a second
SOON_S = 5.0
AT_ONCE, SOON, ANY_TIME, NOBODY_SAYS = 0.5, 0.15, 0.03, 0.06


@dataclass(frozen=True, slots=True)
class Suspect:
    """A cause at one place before it is weighed: `explains` is how well the figures explain a stop then, 0..1.

    then : what comes after it, in words.
    """

    cause: str
    pointer: str
    subject: str
    explains: float
    figure: str | None = None
    values: FigureBand | None = None
    limit: float | None = None
    tool: str = ""
    then: str = ""


def shorts(base: Evaluation, seen: StopObservation) -> list[Suspect]:
    """One suspect for each circuit that something ran on."""
    settled = base.settled
    used = {settled.source.receptacles[settled.placements[i].receptacle].circuit for i in base.sets[0].placements}
    if seen.after_s is None:
        explains = NOBODY_SAYS
    else:
        explains = AT_ONCE if seen.after_s <= AT_ONCE_S else SOON if seen.after_s <= SOON_S else ANY_TIME
    return [
        Suspect("short_circuit", settled.source.circuits[c].pointer, circuit_named(base, c), explains / len(used))
        for c in sorted(used)
    ]


def circuit_named(base: Evaluation, i: int) -> str:
    """A circuit that nobody named is called after its receptacles."""
    circuit = base.settled.source.circuits[i]
    if not circuit.id.startswith(("assumed-", "own-")):
        return circuit.id
    return "of " + ", ".join(item.id for item in base.settled.source.receptacles if item.circuit == i)
