"""What does dispatch need to hear of one kit on one source for one job?

A verdict, one sentence for the crew, the first finding and the question behind it, what to bring, and what would make
the answer void. Read from the cell's own load check and energy budget; nothing is judged a second time. What the kit
lacks for the job is judged here: a job that cannot be done with the kit fails, whatever holds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.choosing.cord_reach import CordReach
from ampwright.engine.calculations.choosing.matrix import CellResult
from ampwright.engine.calculations.choosing.missing_items import MissingItem, missing_by_findings
from ampwright.engine.calculations.energy.energy_result import (
    EnergyAssumption,
    EnergyBudgetResult,
    EnergyFinding,
    Left,
    Percentiles,
)
from ampwright.engine.calculations.load_check.load_check_result import (
    AssumptionResult,
    Finding,
    LoadCheckResult,
    Verdicts,
)
from ampwright.engine.calculations.verdicts import ORDER, worst
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Site

Asked = AssumptionResult | EnergyAssumption
MOST_INVALIDATORS = 8
# missing things without which the job is not done, whatever the load check says; without cases, tools that find no
# outlet left could still be plugged in one after another
JOB_FAILS = ("tool", "longer_cord", "fitting_outlet")


@dataclass(frozen=True, slots=True)
class Invalidator:
    """Something that, were it otherwise, would make the answer void. code : of INVALIDATORS or of an assumption."""

    code: str
    text: str
    pointer: str


INVALIDATORS: dict[str, str] = {
    "work_farther": "It is farther to the work than was said, or a tool's own cord is shorter than 1.8 m.",
    "plugged_otherwise": "Tools are plugged in otherwise than listed.",
    "more_plugged_in": "Anything else runs on the same source.",
    "cord_coiled": "A cord that was said to lie straight is left coiled.",
    "wet": "It is wet where the work is, and dry was said.",
    "hotter": "It is hotter than was said.",
    "less_charge": "The charge or the fuel at the start is less than was said.",
    "assumption": "A stated default is wrong; then `code` is that of the assumption.",
}


@dataclass(frozen=True, slots=True)
class EnergyTold:
    """What is told of a cell's energy budget."""

    verdict: Verdicts
    time_left_s: Percentiles | None
    left: Left | None


@dataclass(frozen=True, slots=True)
class KitCell:
    """What is told of one cell. `verdict` is the worst of load check, energy budget, reach and what the kit lacks.

    danger : whether somebody may be hurt, by the findings.
    """

    verdict: str
    load: Verdicts
    energy: EnergyTold | None
    sentence: str
    finding: Finding | EnergyFinding | None
    question: Asked | None
    missing: tuple[MissingItem, ...]
    invalidated_by: tuple[Invalidator, ...]
    danger: bool = False


def kit_cell(result: CellResult) -> KitCell:
    """What is told of a cell whose kit has all that the job runs; `with_missing` adds what it has not."""
    site, load, energy = result.question.site, result.load, result.energy
    told = None
    if energy is not None:
        told = EnergyTold(energy.verdict, energy.time_left_s, energy.left)
    question = _question(load)
    finding = first_finding(load)
    sentence = load.crew_card[0].text if load.crew_card else "Nothing was asked to run."
    left_out = _plugged_in_nowhere(site)
    if left_out and load.verdict.overall == "unknown" and question is None:
        sentence = f"Not known yet for {and_list(left_out)}: plugged in nowhere, and so not looked at."
    if energy is not None and ORDER.index(energy.verdict.overall) > ORDER.index(load.verdict.overall):
        finding = first_finding(energy) or finding
        question = _question(energy) or question
        sentence = _of_the_day(energy, finding) or sentence
    elif energy is not None and question is None:
        question = _question(energy)
    dangers = [item.severity == "danger" for item in load.findings]
    dangers += [item.severity == "danger" for item in (energy.findings if energy is not None else ())]
    return KitCell(
        verdict=worst((load.verdict.overall, energy.verdict.overall if energy is not None else "pass")),
        load=load.verdict,
        energy=told,
        sentence=sentence,
        finding=finding,
        question=question,
        missing=missing_by_findings(site, load),
        invalidated_by=_invalidated_by(
            site, result.question.day, (*load.assumptions, *(() if energy is None else energy.assumptions))
        ),
        danger=any(dangers),
    )


def with_missing(cell: KitCell, missing: tuple[MissingItem, ...], *, cases_stated: bool) -> KitCell:
    """A cell whose kit lacks things: the crew hears first what the job fails for, and then what fails beside it."""
    if not missing:
        return cell
    fails = job_fails_for(missing, cases_stated=cases_stated)
    said = _bring(fails or list(missing))
    if cell.verdict == "fail":
        # bringing the things alone would not do; where the job does not fail for want of them, they are the lesser news
        said = f"{said} {cell.sentence}" if fails else f"{cell.sentence} {said}"
    return replace(
        cell,
        verdict=worst((cell.verdict, "fail" if fails else "pass")),
        sentence=said,
        missing=(*missing, *cell.missing),
    )


def job_fails_for(missing: tuple[MissingItem, ...], *, cases_stated: bool) -> list[MissingItem]:
    """The things without which the job is not done."""
    return [item for item in missing if item.item in JOB_FAILS or (cases_stated and item.item == "outlet")]


def with_reach(cell: KitCell, reach: CordReach | None) -> KitCell:
    """A cell of which it is known how far the work is: whether the cords get there may be open, and is then asked."""
    if reach is None:
        return cell
    told = [Invalidator("work_farther", INVALIDATORS["work_farther"], "/distance")]
    question, sentence = cell.question, cell.sentence
    if reach.open_:
        code = ASSUMPTION_CODES["cord_reach"]
        value, other = "the cords get to the work", "one that ends before it"
        told = [Invalidator("cord_reach", f"{_capital(value)} was assumed; {other} would make it fail.", "/distance")]
        if cell.verdict != "fail":
            question = AssumptionResult(
                "reach", "cord_reach", "/distance", value, code.why, code.how_to_find_out, other, (), "fail"
            )
            sentence = f"Not known yet for {and_list(reach.open_)}. {code.how_to_find_out}"
    return replace(
        cell,
        verdict=worst((cell.verdict, "unknown" if reach.open_ else "pass")),
        question=question,
        sentence=sentence,
        invalidated_by=(*told, *cell.invalidated_by)[:MOST_INVALIDATORS],
    )


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]


def nothing_to_check(missing: tuple[MissingItem, ...]) -> KitCell:
    """A cell of which nothing is left to check: the kit has none of what the job runs."""
    open_ = Verdicts("fail", "unknown", "unknown", None)
    return KitCell("fail", open_, None, _bring(list(missing)), None, None, missing, ())


def first_finding(result: LoadCheckResult | EnergyBudgetResult) -> Finding | EnergyFinding | None:
    """The first danger, else the first finding of the aspect that is worst; information is no reason.

    Of an aspect that fails it is one that makes it fail: what a rule forbids, not what a rule leaves open.
    """
    told: list[Finding | EnergyFinding] = [item for item in result.findings if item.severity != "info"]
    if told and told[0].severity == "danger":
        return told[0]
    said = result.verdict
    by_aspect = {"safety": said.safety, "capacity": said.capacity, "code": said.code or "pass"}
    at_worst = worst(by_aspect.values())
    behind = [item for item in told if by_aspect[item.aspect] == at_worst]
    failing = [item for item in behind if item.fails] if at_worst == "fail" else []
    return next(iter((*failing, *behind, *told)), None)


def _plugged_in_nowhere(site: Site) -> list[str]:
    """Tools that no case names and no connection plugs in: the load check leaves them open."""
    if site.cases is not None or site.connections is None:
        return []
    plugged = {one.plug for one in site.connections}
    return sorted(tool.id for tool in site.tools if tool.id not in plugged)


def _question(result: LoadCheckResult | EnergyBudgetResult) -> Asked | None:
    asked: tuple[Asked, ...] = result.assumptions
    return next((item for item in asked if item.id == result.question), None)


def _of_the_day(energy: EnergyBudgetResult, finding: Finding | EnergyFinding | None) -> str | None:
    """What a crew hears of a day that is worse than its load check; what is left is no news where work fails, nor what
    is expected where one answer decides."""
    question = _question(energy)
    if energy.verdict.overall == "unknown" and question is not None:
        return f"Not known yet for the day. {question.how_to_find_out}"
    if not energy.crew_card:
        return None
    first = energy.crew_card[0]
    if first.code == "card_left" and energy.verdict.overall == "fail" and finding is not None:
        return finding.text
    return first.text


def _bring(items: list[MissingItem]) -> str:
    for item in items:
        if item.item == "fitting_outlet":
            return f"Not on this source: {item.why[0].lower()}{item.why[1:]}"
    named = [item.says for item in items]
    return f"Not as loaded: bring {and_list(named if len(named) < 4 else [*named[:3], f'{len(named) - 3} more'])}."


def _invalidated_by(site: Site, day: EnergyDay | None, assumptions: tuple[Asked, ...]) -> tuple[Invalidator, ...]:
    found: list[Invalidator] = []

    def add(code: str, pointer: str, text: str = "") -> None:
        found.append(Invalidator(code, text or INVALIDATORS[code], pointer))

    for item in assumptions:
        # one that decides both the load check and the day is told once
        if item.swings_verdict_to is not None and (item.code, item.pointer) not in {(i.code, i.pointer) for i in found}:
            then = f"{item.value} was assumed; {item.if_instead} would make it {item.swings_verdict_to}."
            add(item.code, item.pointer, then)
    if site.connections:
        add("plugged_otherwise", "/connections")
    add("more_plugged_in", site.source.pointer)
    straight = [cord for cord in site.cords if cord.laid == "straight"]
    if straight:
        add("cord_coiled", straight[0].pointer)
    if site.wet is False:
        add("wet", "/conditions/wet")
    if site.ambient_c is not None:
        hot = f"It is hotter than {site.ambient_c.high:g} degC."
        add("hotter", "/conditions/ambient", hot)
    if day is not None:
        add("less_charge", "/charge")
    return tuple(found[:MOST_INVALIDATORS])
