"""Which candidate is to be named, and what does it cost in volts and watts?

Of sizes: the smallest that passes every rule (else every rule while the tool works), the smallest that would if it were
all unrolled, and the one a careful person brings. Of cords at hand: the run with the best verdict, the fewest cords,
then the least lost.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.cord_sizing.cord_sizing_capacity import run_drop_v
from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import MOST_NAMED, WORKING, SolvedRun
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.physics.conductor_impedance import conductor_resistance_ohm_per_m
from ampwright.engine.physics.voltage_drop import run_loss_w
from ampwright.engine.site.band import Band


@dataclass(frozen=True, slots=True)
class Candidate:
    """Row `n` of the answer, as it is evaluated for a choice: as assumed, or laid out."""

    n: int
    evaluated: RowEvaluation
    verdict: str


@dataclass(frozen=True, slots=True)
class NamedChoice:
    code: str
    candidate: Candidate
    text: str


def choices(rows: Sequence[RowEvaluation], verdicts: Sequence[str], unrolled: Mapping[int, RowEvaluation]) -> Choices:
    """Candidates worth naming; the first is the one the answer's verdict is about.

    unrolled : rows laid out straight, where how they lie was not given.
    """
    all_rows = [Candidate(n, row, verdicts[n]) for n, row in enumerate(rows)]
    found: list[NamedChoice] = []
    found += [_named("as_asked", item) for item in all_rows if item.evaluated.run.asked]
    at_hand = [item for item in all_rows if item.evaluated.run.kind != "size" and not item.evaluated.run.asked]
    if at_hand:
        best = min(at_hand, key=_rank)
        if best.verdict != "fail":
            found.append(_named("use", best))
    sizes = [item for item in all_rows if item.evaluated.run.kind == "size"]
    laid_out = [Candidate(n, row, row.verdict) for n, row in sorted(unrolled.items())] or sizes
    smallest, smallest_out = _smallest(sizes), _smallest(laid_out)
    if smallest is not None:
        found.append(_named("smallest", smallest))
    if smallest_out is not None and (smallest is None or smallest_out.n < smallest.n):
        found.append(_named("smallest_if_unrolled", smallest_out))
    careful = [item for item in laid_out if _is_firm(item, laid_out) and item.evaluated.minded]
    if careful:
        found.append(_named("careful", careful[0]))
    minded = {item.n for item in careful}
    minded |= {item.n for item in all_rows if item not in sizes and _is_firm(item, ()) and item.evaluated.minded}
    return Choices(tuple(found), frozenset(minded))


@dataclass(frozen=True, slots=True)
class Choices:
    """`careful` holds the rows that a careful person would be content with."""

    named: tuple[NamedChoice, ...]
    careful: frozenset[int]


def _smallest(sizes: Sequence[Candidate]) -> Candidate | None:
    """The thinnest that passes; else that is firm; else that is marginal."""
    for fits in (
        lambda item: item.verdict == "pass",
        lambda item: _is_firm(item, sizes),
        lambda item: item.verdict == "marginal",
    ):
        found = min((item for item in sizes if fits(item)), key=_thickness, default=None)
        if found is not None:
            return found
    return None


def _thickness(item: Candidate) -> tuple[float, int]:
    return max(cord.area_m2 for cord in item.evaluated.solved.cords), item.n


def _is_firm(item: Candidate, sizes: Sequence[Candidate]) -> bool:
    """Whether a candidate is firm; of sizes, but for what even the thickest leaves marginal."""
    if item.verdict not in ("pass", "marginal"):
        return False
    if not sizes:
        return item.evaluated.firm
    return item.evaluated.as_firm_as(max(sizes, key=_thickness).evaluated)


def _rank(item: Candidate) -> tuple[int, int, bool, float, int]:
    row = item.evaluated
    lost = run_loss(row.solved).typical if row.solved.is_fed else 0.0
    return (ORDER.index(item.verdict), len(row.run.cords), not (row.firm and row.minded), lost, item.n)


_TEXTS = {
    "as_asked": "The run asked about",
    "use": "Use",
    "use_if": "Once the question is settled, use",
    "smallest": "The smallest that will do is",
    "smallest_if_unrolled": "Laid out its whole length, the smallest is",
    "careful": "A careful person lays it out and brings",
}
CHOICES = tuple(code for code in _TEXTS if code != "use_if")
"""Every code of a choice."""


def _named(code: str, item: Candidate) -> NamedChoice:
    solved = item.evaluated.solved
    says = f"{_TEXTS['use_if' if code == 'use' and item.verdict == 'unknown' else code]} {_name(item.evaluated)}"
    if not solved.is_fed:
        return NamedChoice(code, item, f"{says}.")
    drop, loss = run_drop_v(solved, WORKING), run_loss(solved)
    price = f"{_volts(drop.typical)} and {with_unit(loss.typical, 'W')} are lost on the way"
    return NamedChoice(code, item, f"{says}: {price}.")


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
