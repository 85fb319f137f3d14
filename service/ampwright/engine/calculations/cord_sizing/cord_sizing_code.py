"""What do the rule layers, by analogy, ask of the conductor; and what does the trade's cord table name?

Conductor rules of premises (motors 430.22, welders 630.11, loads of three hours 210.19) size fixed wiring. A listed
cord set is judged by its listing, so these lines are advisory: the trade asks for them all the same. The portable-tool
table is a rule too, shown beside the calculation.
Source: NFPA 70 430.22, table 430.248, 630.11(A), 210.19; portable-tool cord guidance.
"""

from __future__ import annotations

import math

from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun
from ampwright.engine.calculations.rules.branch_circuit_code import plate_current_a
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.conductor_sizes import conductor_size
from ampwright.engine.standards.cord_guidance import GuidedSize, tool_extension
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.motor_currents import conductor_ratio, full_load_current_a
from ampwright.engine.standards.welder_supply import duty_factor

CONTINUOUS_RATIO = 1.25  # NFPA 70 210.19(A)(1)
GUIDED_PLATE_V = (110.0, 127.0)  # the table is printed for 120 V tools; its 240 V columns are other lengths


def conductor_lines(solved: SolvedRun, layers: tuple[str, ...]) -> tuple[Line, ...]:
    """Conductor rules that a US layer brings, each against the plain ampacity of the thinnest cord."""
    if not any(key.startswith("nec-") for key in layers) or solved.placement.option is None:
        return ()
    found: list[Line] = []
    for code, wanted, basis in (
        ("motor_conductor", motor_conductor_a(solved), "nfpa-70_2023_motor-rules"),
        ("welder_conductor", welder_conductor_a(solved), "nfpa-70_2008_t630-11-a"),
        ("continuous_load", continuous_conductor_a(solved), "clauses_nec-2023"),
    ):
        if wanted is not None:
            found.append(_line(solved, code, wanted, basis))
    return tuple(found)


def _line(solved: SolvedRun, code: str, wanted_a: float, basis: str) -> Line:
    thinnest = min(range(len(solved.cords)), key=lambda k: (solved.cords[k].ampacity_a, k))
    has = solved.cords[thinnest].ampacity_a
    return Line(
        code,
        "code",
        "pass" if wanted_a <= has + 1e-9 else "marginal",
        solved.cords[thinnest].pointer,
        solved.cord_name(thinnest),
        finding="conductor_rule_by_analogy",
        advisory=True,
        cord=thinnest,
        figure="current_a",
        unit="A",
        value=Band.exactly(round(wanted_a, 3)),
        limit=has,
        limit_from="ampacity",
        basis=((basis, None),),
    )


def motor_conductor_a(solved: SolvedRun) -> float | None:
    """[A] 125 % of the table current of a single-phase induction motor of a printed rating; None for any other load."""
    tool = solved.placement.tool
    induction = (tool.start.kind if tool.start else solved.placement.load_class.start) == "induction_motor"
    if not induction or tool.shaft_power_w is None:
        return None
    volts = min((115.0, 208.0, 230.0), key=lambda printed: abs(printed - solved.placement.plate_voltage_v))
    listed = full_load_current_a(tool.shaft_power_w.typical, volts)
    if not isinstance(listed, CitedValue):
        return None
    return listed.value * conductor_ratio().value


def welder_conductor_a(solved: SolvedRun) -> float | None:
    """[A] I1eff where the plate gives it, else rated supply current times the factor of its duty; None otherwise."""
    option, tool = solved.placement.option, solved.placement.tool
    if option is None or solved.placement.load_class.name != "welder":
        return None
    if option.effective_current_a is not None:
        return option.effective_current_a.typical
    rated = plate_current_a(solved.placement)
    if rated is None or tool.on_s is None or tool.off_s is None:
        return None
    duty = tool.on_s.typical / (tool.on_s.typical + tool.off_s.typical)
    return rated * duty_factor(False, duty).value


def continuous_conductor_a(solved: SolvedRun) -> float | None:
    """[A] the plate with a quarter on top, for a load of three hours and more; None for any other."""
    rated = plate_current_a(solved.placement)
    if rated is None or not solved.placement.load_class.continuous:
        return None
    return CONTINUOUS_RATIO * rated


def guidance_line(solved: SolvedRun) -> Line | None:
    """The portable-tool table against a single cord in AWG; None where the table says nothing."""
    plate = plate_current_a(solved.placement)
    volts = solved.placement.plate_voltage_v
    if len(solved.cords) != 1 or plate is None or solved.site.source.source.supply.kind == "dc":
        return None
    if not GUIDED_PLATE_V[0] <= volts <= GUIDED_PLATE_V[1]:
        return None
    cord, size = solved.cords[0], solved.run.cords[0].size
    guided = tool_extension(plate, cord.length_m.high)
    if not isinstance(guided, GuidedSize) or size is None or not size.endswith(" AWG"):
        return None
    named = conductor_size(guided.size)
    enough = named is not None and _as_thick(cord, named.area_m2)
    return Line(
        "guidance_table",
        "capacity",
        "pass" if enough else "marginal",
        cord.pointer,
        solved.run.id,
        finding="guidance_names_thicker",
        advisory=True,
        cord=0,
        outcome=guided.size.replace(" ", "_").lower(),
        value_text=f"{size} is thinner" if solved.run.kind == "size" else f"{solved.run.id} is {size}",
        limit_text=guided.size,
        basis=((guided.citation, guided.status),),
        side="",
    )


def _as_thick(cord: SettledCord, area_m2: float) -> bool:
    return cord.area_m2 > area_m2 or math.isclose(cord.area_m2, area_m2, rel_tol=1e-6)
