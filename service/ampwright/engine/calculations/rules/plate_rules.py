"""Does a tool's plate add up?

A pattern cannot catch a welder's output current given as its supply current, nor a shaft power that exceeds what the
plug takes: these are told, and the check goes on with what was said.
Source: 1 hp is 745.7 W (NIST SP 811); a motor gives no more than it takes.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle import plate_voltage_v
from ampwright.engine.site.settle_tool import LEAST_POWER_FACTOR
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.tool import SupplyOption, Tool
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
