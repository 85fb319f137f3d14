"""Does a tool's plate add up?

A pattern cannot catch a welder's output current given as its supply current, nor a shaft power that exceeds what the
plug takes, nor a start below what the tool takes at work: these are told, and the check goes on with what was said.
Source: 1 hp is 745.7 W (NIST SP 811); a motor gives no more than it takes; one that stands still has no back-EMF to
hold its current down, and cold metal conducts better than hot.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle import plate_voltage_v
from ampwright.engine.site.settle_tool import LEAST_POWER_FACTOR
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.tool import Start, SupplyOption, Tool
from ampwright.engine.site.use import Site
from ampwright.engine.standards.plugs import configuration

TOLERANCE = 1.05  # rounding of plates; common practice, no source
LARGEST_PORTABLE_SUPPLY_A = 63.0  # no portable welder takes more from a plug; common practice, no source


def plate_checks(site: SettledSite) -> tuple[Check, ...]:
    """Findings about plates, for every tool that is plugged in."""
    found: list[Check] = []
    for i, placement in enumerate(site.placements):
        for option in placement.tool.supply_options:
            found += _output_as_supply(i, placement.tool, option)
            found += _contradiction(i, placement.tool, option)
            found += _effective(i, placement.tool, option)
            found += _states(i, placement.tool, option)
            found += _plug(i, placement.tool, option)
            found += _start(i, placement, option)
    return tuple(found)


def not_plugged_in(site: Site, settled: SettledSite) -> tuple[Check, ...]:
    """Tools of the request that hang on no receptacle: left out of every figure, so they are told."""
    placed = {placement.tool.id for placement in settled.placements}
    return tuple(
        Check("not_plugged_in", "capacity", tool.pointer, tool.id, "unknown")
        for tool in site.tools
        if tool.id not in placed
    )


def _output_as_supply(i: int, tool: Tool, option: SupplyOption) -> list[Check]:
    if option.current_a is None or tool.load_class not in ("welder", "other", None):
        return []
    plug = configuration(option.plug) if option.plug else None
    largest = 2.0 * plug.current_a if plug else LARGEST_PORTABLE_SUPPLY_A
    amps = option.current_a.typical
    if amps <= largest:
        return []
    return [
        Check(
            "output_given_as_supply",
            "capacity",
            member_of(option.pointer, "current"),
            tool.id,
            "pass",
            amps,
            largest,
            "A",
            (i,),
        )
    ]


def _contradiction(i: int, tool: Tool, option: SupplyOption) -> list[Check]:
    volts = plate_voltage_v(option) * (3.0**0.5 if option.is_three_phase else 1.0)
    taken = option.current_a.high * volts if option.current_a else None
    if option.apparent_power_va is not None:
        taken = min(taken, option.apparent_power_va.high) if taken else option.apparent_power_va.high
    if taken is None:
        return []
    if option.power_w is not None and 0.0 < option.power_w.high < LEAST_POWER_FACTOR * taken:
        shown = f"power {with_unit(option.power_w.high, 'W')} is a small part of the {with_unit(taken, 'VA')} it takes"
        return [
            Check(
                "plate_contradicts_itself",
                "capacity",
                option.pointer,
                tool.id,
                "pass",
                tools=(i,),
                value_text=shown,
            )
        ]
    for name, power in (("power", option.power_w), ("shaft power", tool.shaft_power_w)):
        if power is not None and power.low > taken * TOLERANCE:
            shown = f"{name} {with_unit(power.low, 'W')} is more than the {with_unit(taken, 'VA')} that it takes"
            return [
                Check(
                    "plate_contradicts_itself",
                    "capacity",
                    option.pointer,
                    tool.id,
                    "pass",
                    tools=(i,),
                    value_text=shown,
                )
            ]
    return []


def _does_not_add_up(i: int, tool: Tool, pointer: str, shown: str) -> Check:
    return Check("plate_contradicts_itself", "capacity", pointer, tool.id, "pass", tools=(i,), value_text=shown)


def _effective(i: int, tool: Tool, option: SupplyOption) -> list[Check]:
    """The effective current of a duty is a mean of the largest one and less; IEC 60974-1 (from memory)."""
    effective, largest = option.effective_current_a, option.current_a
    if effective is None or largest is None or largest.open_top or effective.low <= largest.high * TOLERANCE:
        return []
    shown = f"its effective current {with_unit(effective.low, 'A')} is above its largest {with_unit(largest.high, 'A')}"
    return [_does_not_add_up(i, tool, member_of(option.pointer, "effective_current"), shown)]


def _states(i: int, tool: Tool, option: SupplyOption) -> list[Check]:
    """Watts of a load state above its volts times amperes."""
    volts = plate_voltage_v(option) * (3.0**0.5 if option.is_three_phase else 1.0)
    part: Tool | SupplyOption = option if option.load_states else tool
    if part is tool and len(tool.supply_options) > 1:
        return []  # at which voltage they were measured is not said
    found: list[Check] = []
    for place, state in enumerate(part.load_states):
        power, amps = state.power_w, state.current_a
        if power is None or amps is None or amps.open_top or power.low <= amps.high * volts * TOLERANCE:
            continue
        where = member_of(part.pointer, "load_states", place)
        taken = with_unit(amps.high * volts, "VA")
        shown = f"{with_unit(power.low, 'W')} {state.id} is more than the {taken} that it takes then"
        found.append(_does_not_add_up(i, tool, where, shown))
    return found


def _plug(i: int, tool: Tool, option: SupplyOption) -> list[Check]:
    """A plug that is good for less than the plate takes: misread, or changed for a smaller one."""
    plug = configuration(option.plug) if option.plug else None
    amps = option.effective_current_a or option.current_a
    if plug is None or amps is None or amps.open_top:
        return []
    if tool.load_class in ("welder", "other", None) and option.effective_current_a is None:
        return []  # a welder's largest current may exceed its plug, which its effective current may not
    if amps.low <= plug.current_a * TOLERANCE:
        return []
    return [
        Check(
            "plug_below_plate", "safety", member_of(option.pointer, "plug"), tool.id, "marginal", amps.low,
            plug.current_a, "A", (i,), option.plug or "",
        )
    ]  # fmt: skip


def _start(i: int, placement: Placement, option: SupplyOption) -> list[Check]:
    """A motor or a filament that would take less at its start than at work."""
    tool = placement.tool
    if option.start is None and option is not placement.option and len(tool.supply_options) > 1:
        return []  # a start of the tool is read at the voltage that it is used at
    part, start = (option, option.start) if option.start is not None else (tool, tool.start)
    named = _start_current_a(placement, start, plate_voltage_v(option)) if start is not None else None
    works_a = _least_plate_current_a(tool, option)
    if named is None or works_a is None or named[1] * TOLERANCE >= works_a:
        return []
    member, start_a = named
    return [
        Check(
            "start_below_running", "capacity", member_of(part.pointer, "start", member), tool.id, "unknown", start_a,
            works_a, "A", (i,),
        )
    ]  # fmt: skip


def _start_current_a(placement: Placement, start: Start, volts: float) -> tuple[str, float] | None:
    """Member that names the current of a start, and its high end [A] at plate voltage; None where it bounds nothing.

    Electronics and a soft start may begin with less than is drawn at work.
    """
    motor = placement.load_class.start == "induction_motor"
    member, band = {
        "induction_motor": ("locked_rotor", start.locked_rotor_a),
        "universal_motor": ("peak", None if start.soft_start else start.peak_a),
        "resistive": ("cold_current", start.cold_current_a),
        "measured": ("peak", start.peak_a if motor else None),
    }.get(start.kind, ("", None))
    if band is None or band.open_top:
        return None
    return member, band.high * (volts / start.at_v.low if start.at_v is not None else 1.0)


def _least_plate_current_a(tool: Tool, option: SupplyOption) -> float | None:
    """[A] that the plate surely takes at full load, whatever its power factor and efficiency."""
    volts = plate_voltage_v(option) * (3.0**0.5 if option.is_three_phase else 1.0)
    if option.current_a is not None:
        return option.current_a.low
    for power in (option.apparent_power_va, option.power_w, tool.shaft_power_w):
        if power is not None:
            return power.low / volts
    return None
