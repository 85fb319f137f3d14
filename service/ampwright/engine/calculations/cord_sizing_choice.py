"""Which candidate is to be named, and what does it cost in volts and watts?

Of sizes: the smallest that passes every rule (else every rule while the tool works), the smallest that would if it were
all unrolled, and the one a careful person brings. Of cords at hand: the run with the best verdict, the fewest cords,
then the least lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing_capacity import run_drop_v
from ampwright.engine.calculations.cord_sizing_evaluation import RowEvaluation
from ampwright.engine.calculations.cord_sizing_network import WORKING, SolvedRun
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.physics.conductor_impedance import conductor_resistance_ohm_per_m
from ampwright.engine.physics.voltage_drop import run_loss_w
from ampwright.engine.site.band import Band

MOST_NAMED = 4  # cords in one sentence


@dataclass(frozen=True, slots=True)
class NamedChoice:
    code: str
    row: int
    text: str


def choices(rows: Sequence[RowEvaluation], verdicts: Sequence[str], waits: dict[int, str]) -> tuple[NamedChoice, ...]:
    """Candidates worth naming; the first is the one the answer's verdict is about. Empty where there is none."""
    found: list[NamedChoice] = []
    asked = [n for n, row in enumerate(rows) if row.run.id == "run"]
    if asked:
        return (_named("as_asked", asked[0], rows),)
    at_hand = [n for n, row in enumerate(rows) if row.run.kind != "size"]
    if at_hand:
        best = min(at_hand, key=lambda n: _rank(rows[n], verdicts[n]))
        if verdicts[best] != "fail":
            found.append(_named("use", best, rows))
    sizes = [n for n, row in enumerate(rows) if row.run.kind == "size"]
    smallest = next((n for n in sizes if verdicts[n] == "pass"), None)
    if smallest is None:
        smallest = next((n for n in sizes if rows[n].firm), None)
    if smallest is None:
        smallest = next((n for n in sizes if verdicts[n] == "marginal"), None)
    unrolled = next((n for n in sizes if waits.get(n, "").startswith("cord_laid:")), None)
    if smallest is not None:
        found.append(_named("smallest", smallest, rows))
    if unrolled is not None and (smallest is None or unrolled < smallest):
        found.append(_named("smallest_if_unrolled", unrolled, rows))
    careful = next((n for n in sizes if rows[n].careful), None)
    if careful is not None:
        found.append(_named("careful", careful, rows))
    return tuple(found)


def _rank(row: RowEvaluation, verdict: str) -> tuple[int, int, bool, float, str]:
    lost = run_loss(row.solved).typical if row.solved.placement.option is not None else 0.0
    return (ORDER.index(verdict), len(row.run.cords), not row.careful, lost, row.run.id)


_TEXTS = {
    "as_asked": "The run asked about",
    "use": "Use",
    "smallest": "The smallest that will do is",
    "smallest_if_unrolled": "Laid out its whole length, the smallest is",
    "careful": "A careful person brings",
}


def _named(code: str, n: int, rows: Sequence[RowEvaluation]) -> NamedChoice:
    row = rows[n]
    name = _name(row)
    if row.solved.placement.option is None:
        return NamedChoice(code, n, f"{_TEXTS[code]} {name}.")
    drop, loss = run_drop_v(row.solved, WORKING), run_loss(row.solved)
    price = f"{_volts(drop.typical)} and {with_unit(loss.typical, 'W')} are lost on the way"
    return NamedChoice(code, n, f"{_TEXTS[code]} {name}: {price}.")


def _name(row: RowEvaluation) -> str:
    names = row.solved.cord_names
    return " then ".join(names) if len(names) <= MOST_NAMED else f"{len(names)} cords in a row"


def _volts(value: float) -> str:
    """Small losses need their tenths, which whole volts would hide."""
    return f"{value:.1f} V" if value < 9.95 else with_unit(value, "V")


def run_loss(solved: SolvedRun) -> Band:
    """[W] turned into heat along the run while the tool works, contacts included."""
    wires = 3.0 if len(solved.placement.lines) == 3 else 2.0
    found: list[float] = []
    for estimate in range(3):
        amps = float(solved.figures.tool_a[solved.rows[WORKING], estimate, solved.at])
        ohm = (len(solved.cords) + 1) * solved.site.contact_ohm.at(estimate)
        for k, cord in enumerate(solved.cords):
            warm = solved.figures.cord_c[solved.rows[WORKING], estimate, solved.places[k]]
            per_m = float(conductor_resistance_ohm_per_m(cord.resistance_20c_ohm_per_m, warm))
            ohm += cord.length_m.at(estimate) * per_m
        found.append(round(run_loss_w(amps, ohm, wires), 1))
    low, middle, high = sorted(found)
    return Band(low, middle, high)
