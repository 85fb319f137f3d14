"""What power do public guides give a load nobody has measured, and how much more does it take to start?

Guides, no standards: a plate goes before them, a measurement before both.
"""

from dataclasses import dataclass

from ampwright.engine.standards.loader import CitedValue, table


@dataclass(frozen=True, slots=True)
class GuideRange:
    """A range from a guide; unit as the function says."""

    low: float
    high: float
    citation: str
    status: str


def appliance_power_w(appliance: str) -> GuideRange | None:
    """[W] nameplate maximum, None for one not listed. Source: US DOE appliance table."""
    row = table("doe-appliance-wattage").find(appliance=appliance)
    if row is None:
        return None
    return GuideRange(row.number("from_w"), row.number("to_w"), "doe-appliance-wattage", row.status)


def starting_ratio(load: str) -> GuideRange | None:
    """[-] starting over running power or current, None for a load not listed. Source: utility guides, handbooks."""
    row = table("inrush-multiples").find(load=load)
    return None if row is None else GuideRange(row.number("from"), row.number("to"), "inrush-multiples", row.status)


def refrigerator_run_ratio() -> CitedValue:
    """[-] share of time a plugged-in refrigerator runs, for energy estimates. Source: US DOE."""
    row = table("us-doe_refrigerator").rows[0]
    return CitedValue(row.number("value"), "us-doe_refrigerator", row.status)


def hammer_tool_daily_limit_s() -> CitedValue:
    """[s] daily use of hammer-action tools above which vibration may harm; no measured mean. Source: UK HSE."""
    row = table("hse_vibration").rows[0]
    return CitedValue(row.number("value") * 60.0, "hse_vibration", row.status)
