"""What is still switched on when power returns after a trip?

Nobody has touched anything: a switch that stays on is on, one that must be held was let go, a pressure, float or
thermostat switch has closed by then or never opened, a tool with restart protection stays off, and what follows
another tool comes back only with it.
Source: 29 CFR 1926.300(d) for the kinds of switch; what stands in no profile is settled on the safe side
(settle_tool.py) or by the kind of tool (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

from ampwright.engine.site.settled import Placement, SettledSite

STAYS_ON, AUTOMATIC, LET_GO, PROTECTED, FOLLOWS = "stays_on", "automatic", "let_go", "protected", "follows"
SWITCH_STATES = {
    STAYS_ON: "Its switch is still on.",
    AUTOMATIC: "A pressure, float or thermostat switch, or a timer, switches it on.",
    LET_GO: "Its switch has to be held and was let go.",
    PROTECTED: "It has restart protection and stays off until it is switched on anew.",
    FOLLOWS: "It follows another tool, which stays off.",
}
STAYS_OFF = (LET_GO, PROTECTED, FOLLOWS)
_CONTROLS = ("pressure", "float", "thermostat")


def switch_state(placement: Placement) -> str:
    """One of SWITCH_STATES, apart from what it follows."""
    tool = placement.tool
    if placement.restart_protection:
        return PROTECTED
    if tool.switch == "automatic" or (tool.control or placement.load_class.control) in _CONTROLS:
        return AUTOMATIC
    if placement.maintained_switch or (tool.switch is None and not placement.load_class.hazard_on_restart):
        return STAYS_ON
    return LET_GO


def switch_states(site: SettledSite, without_power: Sequence[int]) -> dict[int, str]:
    """State of each tool that lost its power; the others of the site keep theirs."""
    states = {i: switch_state(site.placements[i]) for i in without_power}
    by_id = {site.placements[i].tool.id: i for i in without_power}
    for i in without_power:
        seen: set[int] = set()
        leader = by_id.get(site.placements[i].tool.follows or "")
        while leader is not None and leader not in seen:
            seen.add(leader)
            if states[leader] in STAYS_OFF:
                states[i] = FOLLOWS
                break
            leader = by_id.get(site.placements[leader].tool.follows or "")
    return states


def comes_on(state: str) -> bool:
    """Whether a tool in this state draws current as soon as power is back."""
    return state in (STAYS_ON, AUTOMATIC)
