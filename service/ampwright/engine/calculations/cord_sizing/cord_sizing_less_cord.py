"""Does the tool start worse with less cord in between?

A set with an engine answers to a start over time: its voltage dips and comes back, or dies down. Where the tool starts
barely, if at all, straight in the receptacle, a long thin cord may hold its current down just so that it starts, and a
shorter or thicker one not. Nobody should count on that. So such a run is judged by the worst of its own start and of
those with less cord in between, on a fixed ladder of resistances: a better run has no rung to pass that a worse one had
not.
Source: cord_sizing_start.py for each rung; where the rungs stand is a choice of step, a quarter each.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun, solve_runs
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import Run
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import straight_verdicts, verdicts_of
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.use import Site
from ampwright.engine.standards.conductor_sizes import conductor_size

LEAST_OHM, STEP, RUNGS = 0.02, 1.25, 26  # to 5 ohm out and back, where no motor of a portable tool starts
_SIZE = "1.5 mm2"

Verdicts = Mapping[str, str]
"""Line code of a start to its verdict; what passes is left out."""


def with_less_cord(site: Site, solved: SolvedRun, flipped: frozenset[str]) -> Verdicts:
    """The worst verdicts of starts with less cord than the run has; empty where the run's own start says enough."""
    if site.source.kind != "engine_generator" or straight_verdicts(solved).get("start") != "marginal":
        return {}
    own = run_ohm(solved)
    found: dict[str, str] = {}
    for ohm, verdicts in _ladder(site, solved.run.receptacle, flipped):
        if ohm > own:
            break
        for code, verdict in verdicts.items():
            found[code] = worst((found.get(code, "pass"), verdict))
    return found


def run_ohm(solved: SolvedRun) -> float:
    """[ohm] out and back of cold copper, and of the contacts that a single cord has not."""
    copper = sum(2.0 * cord.length_m.high * cord.resistance_20c_ohm_per_m for cord in solved.cords)
    return copper + 2.0 * (len(solved.cords) - 1) * solved.site.contact_ohm.high


@lru_cache(maxsize=64)
def _ladder(site: Site, receptacle: str, flipped: frozenset[str]) -> Sequence[tuple[float, Verdicts]]:
    size = conductor_size(_SIZE)
    if size is None:
        raise LookupError(_SIZE)
    rungs = [LEAST_OHM * STEP**n for n in range(RUNGS)]
    runs = [
        Run(
            f"rung-{n}",
            "run",
            receptacle,
            (
                Cord(
                    id=f"rung-{n}",
                    pointer="/cords",
                    length_m=Band.exactly(ohm / (2.0 * size.resistance_20c_ohm_per_m)),
                    size=_SIZE,
                    laid="straight",
                ),
            ),
        )
        for n, ohm in enumerate(rungs)
    ]
    # what is assumed of the rungs is nobody's question: a ledger of their own takes it
    solved = solve_runs(site, runs, Ledger(flipped), with_needs=False)
    return tuple((ohm, verdicts_of(one)) for ohm, one in zip(rungs, solved, strict=True))
