"""Does the run carry the tool: current, heat, volts at the tool, and what the receptacle and the source give?

Every figure and verdict here is the load check's own (capacity_rules.py), told as lines; a push of under a minute is
judged on a cord by heat.
Source: capacity_rules.py; recommended drop NFPA 70 210.19 note, IEC 60364-5-52 table G.52.1, BS 7671 appendix 4.
"""

from __future__ import annotations

from dataclasses import replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_full_voltage import STATES, FullVoltage, larger
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import HEAVY, WORKING, SolvedRun, summed
from ampwright.engine.calculations.rules.capacity_rules import SHORT_PUSH_S, Check
from ampwright.engine.calculations.verdicts import over, worst
from ampwright.engine.site.band import Band
from ampwright.engine.site.thin_air import AT_ALTITUDE
from ampwright.engine.standards.drop_limits import iec_largest_ratio, nec_recommended_ratio

_STATE = {WORKING: "working", HEAVY: "heavy"}
# code of a check -> (line code, figure, unit, side)
_OF_CHECK = {
    "cord_over_marked_rating": ("cord_current", "current_a", "A", "most"),
    "cord_overheats": ("copper_temperature", "copper_temperature_c", "degC", "most"),
    "low_voltage_at_tool": ("tool_voltage", "voltage_v", "V", "least"),
    "circuit_over_rating": ("circuit_current", "current_a", "A", "most"),
    "receptacle_over_rating": ("receptacle_current", "current_a", "A", "most"),
    "limit_over_continuous": ("source_output", "", "", "most"),
    "peak_limit_over": ("source_peak", "peak_a", "A", "most"),
    "voltage_collapse": ("voltage_collapse", "", "", ""),
    "plug_does_not_fit": ("plugs", "", "", ""),
    "voltage_does_not_match": ("plugs", "", "", ""),
}
_BASIS = {
    "tool_voltage": (("nema-mg-1_12-44", None),),
}


def capacity_lines(solved: SolvedRun, full: FullVoltage | None) -> tuple[Line, ...]:
    """Lines of the working and the heavy state, those that are met included.

    full : what the tool would draw at full voltage; None where it gets no voltage.
    """
    found: list[Line] = []
    for state in (WORKING, HEAVY):
        for check in solved.checks(state):
            if check.code in _OF_CHECK and not (state == HEAVY and check.code.endswith(("not_fit", "not_match"))):
                line = _line(solved, check, state)
                found.append(line if full is None else _judged(solved, line, state, full))
    return tuple(found)


def _judged(solved: SolvedRun, line: Line, state: int, full: FullVoltage) -> Line:
    """A line about current, power or heat at the larger of the network's figure and that at full voltage."""
    if line.value is None or line.limit is None or line.side != "most":
        return line
    lasts_s = solved.placement.state("heavy").lasts_s
    short_push = state == HEAVY and lasts_s < SHORT_PUSH_S
    if line.code == "copper_temperature" and line.cord is not None:
        there = full.copper(state, line.cord)
    elif line.code == "source_output" and line.unit != "A":
        three = (full.apparent_va if line.unit == "VA" else full.active_w)[state]
        there = Band(float(three.min()), float(three[1]), float(three.max()))
    elif line.code == "source_peak":
        there = full.currents(state).times(solved.placement.state(STATES[state]).crest_factor)
    else:
        there = full.currents(state)
    value = larger(line.value, there)
    verdict = over(value.typical, value.high, line.limit)
    if line.code == "cord_current" and short_push and verdict == "fail" and line.cord is not None:
        hot, bears = full.copper(state, line.cord), solved.cords[line.cord].insulation_c
        verdict = worst(("marginal", over(hot.typical, hot.high, bears)))
    return replace(line, value=value, verdict=worst((line.verdict, verdict)))


def _line(solved: SolvedRun, check: Check, state: int) -> Line:
    code, figure, unit, side = _OF_CHECK[check.code]
    cord = _cord_of(solved, check)
    settled = None if cord is None else solved.cords[cord]
    basis: tuple[tuple[str, str | None], ...] = _BASIS.get(code, ())
    if settled is not None and code == "cord_current":
        basis = settled.basis
    return Line(
        code,
        check.aspect,
        check.verdict,
        check.pointer,
        _subject(solved, check, cord),
        finding=check.code,
        load_state=None if code == "plugs" else _STATE[state],
        cord=cord,
        figure=figure or check.figure,
        unit=unit or check.unit,
        value=_band(solved, check, state, cord),
        limit=check.limit,
        side=side,
        limit_from=settled.capacity_from if settled is not None and code == "cord_current" else None,
        value_text=check.value_text,
        limit_text=check.limit_text,
        basis=basis,
    )


def _subject(solved: SolvedRun, check: Check, cord: int | None) -> str:
    if cord is not None:
        return solved.cord_name(cord)
    if any(circuit.id == check.subject for circuit in solved.site.source.circuits):
        return circuit_text(solved, check.subject)
    if check.subject in ("assumed-output", AT_ALTITUDE):
        return solved.site.source.source.name or "the source"
    return solved.tool if check.subject == solved.placement.tool.id else check.subject


def circuit_text(solved: SolvedRun, name: str) -> str:
    """What a circuit is called: its id, or by its receptacles where nobody gave it one."""
    source = solved.site.source
    for i, circuit in enumerate(source.circuits):
        if circuit.id == name and circuit.id.startswith(("assumed-", "own-")):
            return f"of {', '.join(_receptacle(item.id) for item in source.receptacles if item.circuit == i)}"
    return name


def _receptacle(name: str) -> str:
    return "the receptacle" if name == "assumed-receptacle" else name


def _cord_of(solved: SolvedRun, check: Check) -> int | None:
    if check.code not in ("cord_over_marked_rating", "cord_overheats"):
        return None
    return next(k for k, cord in enumerate(solved.cords) if cord.id == check.subject)


def _band(solved: SolvedRun, check: Check, state: int, cord: int | None) -> Band | None:
    figures, row = solved.figures, solved.rows[state]
    if cord is not None:
        return solved.cord_band(
            figures.cord_a if check.code == "cord_over_marked_rating" else figures.cord_c, state, cord
        )
    if check.code == "low_voltage_at_tool":
        return solved.tool_band(figures.tool_v, state)
    if check.value is None or check.limit is None:
        return None
    source = solved.site.source
    if check.code == "circuit_over_rating":
        column = next(i for i, item in enumerate(source.circuits) if item.id == check.subject)
        three = figures.circuit_a[row, :, column]
    elif check.code == "receptacle_over_rating":
        column = next(i for i, item in enumerate(source.receptacles) if item.id == check.subject)
        three = figures.receptacle_a[row, :, column]
    else:
        column = next(i for i, item in enumerate(source.limits) if item.id == check.subject)
        by_code = {
            "peak_a": figures.limit_peak_a,
            "apparent_power_va": figures.limit_va,
            "power_w": figures.limit_w,
            "current_a": figures.limit_a,
        }
        three = by_code[check.figure or "peak_a"][row, :, column]
    return Band(float(three.min()), float(three[1]), float(three.max()))


def contacts_drop_v(solved: SolvedRun, state: int) -> Band:
    """[V] lost in all contacts of the run out and back, that of the tool's plug included."""
    each = solved.site.contact_ohm
    count = len(solved.cords) + 1
    amps = solved.tool_band(solved.figures.tool_a, state)
    wires = conductors_in_use(solved)
    return Band(
        wires * count * each.low * amps.low,
        wires * count * each.typical * amps.typical,
        wires * count * each.high * amps.high,
    )


def conductors_in_use(solved: SolvedRun) -> float:
    """Conductors along which volts are lost between the terminals of the tool: two, or root 3 of a three-phase line."""
    return 3.0**0.5 if len(solved.placement.lines) == 3 else 2.0


def run_drop_v(solved: SolvedRun, state: int) -> Band:
    """[V] lost between the receptacle and the tool's terminals, contacts included."""
    along = summed([solved.cord_band(solved.figures.cord_drop_v, state, k) for k in range(len(solved.cords))])
    each, amps = solved.site.contact_ohm, solved.tool_band(solved.figures.tool_a, state)
    wires = conductors_in_use(solved)
    scale = 3.0**0.5 if len(solved.placement.lines) == 3 else 1.0  # the network's pairs are line to neutral there
    return Band(
        scale * along.low + wires * each.low * amps.low,
        scale * along.typical + wires * each.typical * amps.typical,
        scale * along.high + wires * each.high * amps.high,
    )


def recommended_drop_line(solved: SolvedRun, code_basis: tuple[str, ...] | None, length_m: float) -> Line:
    """The loss at full load against what the standards recommend; none of them is law for a cord.

    From a portable source the way to the tool is the whole installation, feeder and branch circuit together.
    """
    supply = solved.site.source.source.supply
    metric = supply.leg_voltage_v > 150.0 or any(key.startswith(("iec", "bs")) for key in code_basis or ())
    if metric:
        private = solved.site.source.source.kind != "site_supply"
        ratio = iec_largest_ratio("private" if private else "public", "other uses", length_m)
    else:
        whole = solved.site.source.source.kind != "site_supply"
        ratio = nec_recommended_ratio("feeder and branch circuit together" if whole else "branch circuit")
    limit = ratio.value * solved.placement.plate_voltage_v
    drop = run_drop_v(solved, WORKING)
    return Line(
        "voltage_drop",
        "capacity",
        "pass" if over(drop.typical, drop.high, limit) == "pass" else "marginal",
        "/distance",
        solved.run_name,
        finding="drop_over_recommended",
        advisory=True,
        load_state="working",
        figure="drop_v",
        unit="V",
        value=drop,
        limit=limit,
        basis=((ratio.citation, ratio.status),),
        rules=("voltage_drop",),
    )
