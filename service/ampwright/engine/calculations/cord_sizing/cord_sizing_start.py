"""Does the tool still start at the end of this run, and what does switching it on cost along the way?

The start is the load check's own (starts.py), judged by its own rules (start_checks.py): a start in time, behind
source, wiring and cold copper, with nothing else running. A run is judged by what it adds over plugging straight into
the receptacle: what already fails there is not the cord's to mend, is told once for all candidates, and a run's own
line that is no worse is advisory. Nor is a long thin cord chosen for holding a start's current down: neither for
keeping a breaker closed, nor for keeping up a set that less cord brings down (cord_sizing_less_cord.py). Where a start
is not worked out in time (direct current: the stall current is volts over the winding's resistance, which no plate
gives, against a limit of the source that nobody states) the figures are those of a rotor at rest, as far as the plate
tells, and the outcome is `not_assessed`.

Source: starts.py; volts lost b I (R cos phi + X sin phi) of IEC 60364-5-52 annex G; power factor 0.5 to 0.8 at
standstill is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_capacity import circuit_text, conductors_in_use
from ampwright.engine.calculations.cord_sizing.cord_sizing_full_voltage import open_voltage_v
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun
from ampwright.engine.calculations.load_check.load_check_result import StartFigure
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.starts.start_checks import start_checks
from ampwright.engine.calculations.starts.start_figures import NOT_ASSESSED, figure_of
from ampwright.engine.calculations.starts.start_needs import StartNeed
from ampwright.engine.calculations.starts.starts import ToolStart
from ampwright.engine.calculations.verdicts import ORDER, worst
from ampwright.engine.physics.conductor_impedance import FLEXIBLE_CORD_REACTANCE_OHM_PER_M
from ampwright.engine.physics.cord_heating import copper_resistance_ratio
from ampwright.engine.site.band import Band
from ampwright.engine.site.settle_start import FILAMENT
from ampwright.engine.site.settled import Placement

NO_START = "no_start"
STRAIGHT_IN = "straight_in"
LESS_CORD = "less_cord"
STANDSTILL_POWER_FACTOR = Band(0.5, 0.65, 0.8)

_CODES = {
    "does_not_start": "start",
    "starts_only_if": "start",
    "start_trips": "start",
    "starts_slowly": "start_time",
    "stalls_without_trip": "stalled_motor",
    "protector_retries": "stalled_motor",
}


@dataclass(frozen=True, slots=True)
class RunStart:
    """Figures of a start, bands by number; None where nothing tells."""

    figure: StartFigure
    current_a: Band | None = None
    drop_v: Band | None = None
    voltage_v: Band | None = None


def start_lines(solved: SolvedRun, less_cord: Mapping[str, str] | None = None) -> tuple[Line, ...]:
    """Whether the tool starts at the end of the run, in time, and what happens if not; () without a start in time.

    less_cord : the worst verdicts of starts with less cord in between, where the run may not be credited with more.
    """
    straight = straight_verdicts(solved)
    checks = _checks(solved, solved.at)
    found: list[Line] = []
    for code in (*checks, *(code for code in less_cord or () if code not in checks)):
        own = checks[code].verdict if code in checks else "pass"
        less = (less_cord or {}).get(code, "pass")
        if ORDER.index(less) > ORDER.index(own):
            line = _credited(solved, code, less)
        else:
            line = _line(solved, solved.at, code, checks[code])
        if line.verdict != "pass" and ORDER.index(line.verdict) <= ORDER.index(_at_best(code, straight)):
            line = replace(line, advisory=True, finding=None, limit_from=STRAIGHT_IN)
        found.append(line)
    return tuple(found)


def _at_best(code: str, straight: Mapping[str, str]) -> str:
    """What of a line is there already without any cord.

    A tool that barely starts, or not, is no worse for starting late. A motor that may stand still at its worst only is
    what an unsure start is: its finding says to switch it off. One that stands still at the typical estimate is not.
    """
    start = worst((straight.get("start", "pass"), straight.get("start_time", "pass")))
    if code != "stalled_motor":
        return start
    return worst((straight.get(code, "pass"), "pass" if start == "pass" else "marginal"))


def straight_verdicts(solved: SolvedRun) -> dict[str, str]:
    """Line codes of the start straight in the receptacle with their verdicts; what passes is left out."""
    return _verdicts(_checks(solved, solved.straight))


def verdicts_of(solved: SolvedRun) -> dict[str, str]:
    """The same of the start at the end of the run, before anything is credited or held against it."""
    return _verdicts(_checks(solved, solved.at))


def _verdicts(checks: Mapping[str, Check]) -> dict[str, str]:
    return {code: check.verdict for code, check in checks.items() if check.verdict != "pass"}


# line code -> the finding that tells it, its aspect, what it says
_WITH_LESS = {
    "start": ("does_not_start", "capacity", "with less cord in between it stands still, and this one is no surer"),
    "start_time": ("starts_slowly", "capacity", ""),
    "stalled_motor": ("stalls_without_trip", "safety", ""),
}


def _credited(solved: SolvedRun, code: str, verdict: str) -> Line:
    """A line that is worse with less cord in between."""
    finding, aspect, text = _WITH_LESS[code]
    if code == "start" and verdict == "marginal":
        finding, text = "starts_only_if", "the source bears it, and less cord in between makes that harder"
    one = _start(solved, solved.at)
    return Line(
        code,
        aspect,
        verdict,
        solved.placement.tool.pointer,
        solved.tool,
        finding=finding,
        side="",
        limit_from=LESS_CORD,
        outcome=one.outcomes[1] if one is not None else None,
        value_text=text,
    )


def straight_lines(solved: SolvedRun) -> tuple[Line, ...]:
    """The same of the tool plugged straight into the run's receptacle: what no cord mends."""
    return tuple(
        _line(solved, solved.straight, code, check) for code, check in _checks(solved, solved.straight).items()
    )


def open_start_line(solved: SolvedRun) -> Line | None:
    """Why nothing is said of the start; None where something is."""
    if start_of(solved).figure.outcome != NOT_ASSESSED:
        return None
    direct = solved.site.source.source.supply.kind == "dc"
    why = (
        "on direct current the resistance of its winding and the limit of the source decide, and no plate gives them"
        if direct
        else "nothing is known of its start"
    )
    return Line(
        "start",
        "capacity",
        "unknown",
        solved.placement.tool.pointer,
        solved.tool,
        finding="start_not_assessed",
        advisory=True,
        side="",
        outcome=NOT_ASSESSED,
        value_text=why,
    )


def _checks(solved: SolvedRun, at: int) -> dict[str, Check]:
    if solved.starts is None or at < 0:
        return {}
    return {
        _CODES[check.code]: check
        for check in start_checks(solved.site, solved.starts, at, solved.needs)
        if check.code in _CODES
    }


def _line(solved: SolvedRun, at: int, code: str, check: Check) -> Line:
    one = _start(solved, at)
    peak = Band.exactly(round(max(item.peak_a for item in one.estimates), 3)) if one and code == "start" else None
    timed = {"start_time": "lasts_s", "stalled_motor": "protector_opens_s"}.get(code)
    seconds = Band.exactly(check.value) if timed and check.value is not None else None
    circuit = circuit_text(solved, check.limit_text) if check.code == "start_trips" else check.limit_text
    value_text = check.value_text
    if at == solved.straight and check.code == "does_not_start":
        value_text = f"even straight in the receptacle, {value_text}"
    return Line(
        code,
        check.aspect,
        check.verdict,
        check.pointer,
        solved.tool,
        finding=check.code,
        figure="peak_a" if peak else timed if seconds else None,
        unit="A" if peak else "s" if seconds else "",
        value=peak or seconds,
        side="",
        outcome=one.outcomes[1] if one is not None else None,
        value_text=value_text,
        limit_text=circuit,
    )


def _start(solved: SolvedRun, at: int) -> ToolStart | None:
    if solved.starts is None:
        return None
    return next((item for item in solved.starts.tools if item.tool == at), None)


def start_of(solved: SolvedRun) -> RunStart:
    """What becomes of the start, its current, the volts lost along the run and the least left at the tool."""
    one = _start(solved, solved.at)
    if one is None:
        is_open = solved.starts is None or solved.at in solved.starts.open_tools
        return _at_rest(solved, StartFigure(NOT_ASSESSED if is_open else NO_START))
    figure = figure_of(one, solved.needs.get((one.case, one.tool), StartNeed()))
    amps = _by_number([item.peak_a for item in one.estimates])
    settled = solved.starts.starting.starts[solved.at] if solved.starts else None
    in_phase = settled is not None and settled.model == FILAMENT
    root = 3.0**0.5 if len(solved.placement.lines) == 3 else 1.0
    least = [item.least_v * root for item in one.estimates if item.least_v is not None and item.least_v > 0.0]
    return RunStart(
        figure,
        amps,
        _lost_v(solved, [item.peak_a for item in one.estimates], in_phase=in_phase),
        _by_number(least) if len(least) == len(one.estimates) else None,
    )


def _at_rest(solved: SolvedRun, figure: StartFigure) -> RunStart:
    """A start of direct current: a constant resistance at the plate's voltage, where its current was stated."""
    plate = _stated_a(solved.placement)
    direct = solved.site.source.source.supply.kind == "dc"
    if plate is None or solved.placement.option is None or not direct:
        return RunStart(figure)
    amps, left = [], []
    for estimate in range(3):
        load = solved.placement.plate_voltage_v / plate.at(estimate)
        source = solved.site.source
        circuit = source.circuits[source.receptacles[solved.placement.receptacle].circuit]
        ahead = source.resistance_ohm.at(estimate) + circuit.resistance_ohm.at(estimate)
        flow = open_voltage_v(solved) / (ahead + 2.0 * abs(_wire_ohm(solved, estimate)) + load)
        amps.append(flow)
        left.append(flow * load)
    return RunStart(figure, _by_number(amps), _lost_v(solved, amps, in_phase=True), _by_number(left))


def _stated_a(placement: Placement) -> Band | None:
    """[A] at the plate's voltage with the rotor at rest, None where the plate and the start do not tell."""
    option = placement.option
    start = (option.start if option and option.start else None) or placement.tool.start
    if start is None:
        return None
    if start.kind == "measured" and start.peak_a is not None:
        return start.peak_a.times(placement.plate_voltage_v / start.at_v.typical) if start.at_v else start.peak_a
    return next((item for item in (start.locked_rotor_a, start.peak_a, start.cold_current_a) if item is not None), None)


def _lost_v(solved: SolvedRun, amps: list[float], *, in_phase: bool) -> Band:
    """[V] lost along the run, contacts included, by the annex's formula."""
    lost = []
    for estimate, current in enumerate(amps):
        ohm = _wire_ohm(solved, estimate)
        cosine = 1.0 if in_phase else STANDSTILL_POWER_FACTOR.at(estimate)
        sine = math.sqrt(1.0 - cosine**2)
        lost.append(conductors_in_use(solved) * current * (ohm.real * cosine + ohm.imag * sine))
    return _by_number(lost)


def _wire_ohm(solved: SolvedRun, estimate: int) -> complex:
    """One conductor of the run, copper at the ambient of the estimate, every contact included."""
    cold = copper_resistance_ratio(solved.site.ambient_c.at(estimate))
    direct = solved.site.source.source.supply.kind == "dc"
    ohm = complex((len(solved.cords) + 1) * solved.site.contact_ohm.at(estimate), 0.0)
    for cord in solved.cords:
        length = cord.length_m.at(estimate)
        reactance = 0.0 if direct else length * FLEXIBLE_CORD_REACTANCE_OHM_PER_M
        ohm += complex(length * cord.resistance_20c_ohm_per_m * cold, reactance)
    return ohm


def _by_number(values: list[float]) -> Band:
    low, middle, high = sorted(round(value, 3) for value in values)
    return Band(low, middle, high)


__all__ = ["NOT_ASSESSED", "NO_START", "RunStart", "open_start_line", "start_lines", "start_of", "straight_lines"]
