"""How does each candidate stand, rule by rule, under one set of assumptions?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_capacity import capacity_lines, recommended_drop_line
from ampwright.engine.calculations.cord_sizing.cord_sizing_code import conductor_lines, guidance_line
from ampwright.engine.calculations.cord_sizing.cord_sizing_fault import fault_lines
from ampwright.engine.calculations.cord_sizing.cord_sizing_full_voltage import at_full_voltage
from ampwright.engine.calculations.cord_sizing.cord_sizing_heat import coiled_lines, device_lines, duty_lines
from ampwright.engine.calculations.cord_sizing.cord_sizing_less_cord import with_less_cord
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun, solve_runs, summed
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion, Run
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import start_lines, straight_lines
from ampwright.engine.calculations.cord_sizing.cord_sizing_usage import usage_lines
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Assumption, Ledger

ASPECTS = ("capacity", "safety", "code")
# what a careful person still minds where every rule is met
CAREFUL = ("voltage_drop", "guidance_table", "cords_in_series")


@dataclass(frozen=True, slots=True)
class RowEvaluation:
    """One candidate with its lines. `straight`: of the tool plugged into the same receptacle without any cord."""

    solved: SolvedRun
    length_m: Band
    lines: tuple[Line, ...]
    straight: tuple[Line, ...] = ()

    @property
    def run(self) -> Run:
        return self.solved.run

    def aspect(self, name: str) -> str:
        """Verdict of one aspect: what only a push breaks is marginal, unless someone may be hurt."""
        rules = [line for line in self.lines if not line.advisory and line.aspect == name]
        base = worst(line.verdict for line in rules if line.load_state != "heavy")
        pushed = worst(line.verdict for line in rules if line.load_state == "heavy")
        if base == "pass" and pushed != "pass":
            base = "fail" if name == "safety" and pushed == "fail" else "marginal"
        return base

    @property
    def verdict(self) -> str:
        return worst(self.aspect(name) for name in ASPECTS)

    @property
    def firm(self) -> bool:
        """Whether every rule passes while the tool works, and none fails when it is pushed.

        A push above the mark is marginal at best, whatever the copper: of such a tool no size ever passes.
        """
        rules = [line for line in self.lines if not line.advisory]
        working = all(line.verdict == "pass" for line in rules if line.load_state != "heavy")
        return working and all(line.verdict != "fail" for line in rules)

    def as_firm_as(self, best: RowEvaluation) -> bool:
        """Whether it is firm but for what is no better on the best candidate: that is not the cord's to mend."""
        there = {(line.code, line.load_state): line.verdict for line in best.lines if not line.advisory}
        for line in self.lines:
            if line.advisory or line.verdict == "pass":
                continue
            same = there.get((line.code, line.load_state)) == line.verdict
            if line.load_state == "heavy":
                if line.verdict == "fail" and not same:
                    return False
            elif line.verdict != "marginal" or not same:
                return False
        return True

    @property
    def minded(self) -> bool:
        """Whether what a careful person minds beside the rules is met."""
        return all(line.verdict == "pass" for line in self.lines if line.code in CAREFUL)

    def first_against(self) -> Line | None:
        """The first rule that keeps it from passing, the worst verdict first."""
        against = [line for line in self.lines if not line.advisory and line.verdict != "pass"]
        return next(
            iter(sorted(against, key=lambda line: -("pass", "marginal", "unknown", "fail").index(line.verdict))), None
        )


@dataclass(frozen=True, slots=True)
class SizingEvaluation:
    assumptions: tuple[Assumption, ...]
    rows: tuple[RowEvaluation, ...]


def evaluate(
    question: CordQuestion, runs: Sequence[Run], flipped: frozenset[str] = frozenset(), *, all_lines: bool = True
) -> SizingEvaluation:
    """Every run under some flipped assumptions; without `all_lines` only those that decide a verdict."""
    ledger = Ledger(flipped)
    layers = deciding_layers(question.site)
    solved = solve_runs(question.site, runs, ledger, with_needs=all_lines)
    rows = tuple(_row(question, one, layers, all_lines, with_less_cord(question.site, one, flipped)) for one in solved)
    return SizingEvaluation(ledger.assumptions, rows)


def _row(
    question: CordQuestion,
    solved: SolvedRun,
    layers: tuple[str, ...],
    all_lines: bool,
    less_cord: Mapping[str, str],
) -> RowEvaluation:
    length = summed([cord.length_m for cord in solved.cords])
    found: list[Line] = []
    if question.distance_m is not None and solved.run.kind != "size":
        found.append(_length_line(question.distance_m, length, solved))
    full = at_full_voltage(solved) if solved.placement.option is not None else None
    duty = duty_lines(solved, full) if full is not None else ()
    for line in capacity_lines(solved, full):
        # over a stated duty the copper never gets to its steady temperature
        told = line.code == "copper_temperature" and bool(duty)
        found.append(replace(line, advisory=True) if told else line)
    found += duty
    found += start_lines(solved, less_cord)
    found += usage_lines(question.site, solved)
    if full is not None:
        found += fault_lines(solved, full, layers)
    if solved.is_fed and full is not None:
        found.append(recommended_drop_line(solved, question.site.code_basis, length.high))
        if all_lines:
            found += coiled_lines(solved, full)
            found += device_lines(solved)
            found += conductor_lines(solved, layers)
        guided = guidance_line(solved)
        if guided is not None:
            found.append(guided)
    return RowEvaluation(solved, length, tuple(found), straight_lines(solved))


def _length_line(distance: Band, length: Band, solved: SolvedRun) -> Line:
    # A tape measure and a printed "50 ft" must agree, whatever the rounding of metres.
    slack = 1e-6 * distance.high
    if length.typical + slack < distance.typical:
        verdict = "fail"
    else:
        verdict = "pass" if length.low + slack >= distance.high else "marginal"
    return Line(
        "run_length", "capacity", verdict, "/distance", solved.run_name, finding="cords_too_short", figure="length_m",
        unit="m", value=length, limit=distance.high, side="least",
    )  # fmt: skip
