"""Which switch may a hand tool have, and may it start by itself, by the rule layers?

29 CFR 1926.300(d) knows three kinds of switch and says which tools need which; only tools that it names without doubt
are checked, and only where the switch was said. Restart after a trip: NFPA 70 430.43 (any motor), IEC 60204-1 and
29 CFR 1910.213 (machines that stand), IEC 62841-1 (hand tools). That someone can be hurt is another finding.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.standards.rule_layers import Clause, clauses

_CONSTANT = ("constant_pressure",)
_MOMENTARY = ("constant_pressure", "momentary_lock_on")
ALLOWED_SWITCHES = {
    # 29 CFR 1926.300(d)(3)
    "circular_saw": _CONSTANT,
    "chain_saw": _CONSTANT,
    # 29 CFR 1926.300(d)(2); grinders whose wheel is larger than 2 in
    "hand_drill": _MOMENTARY,
    "rotary_hammer": _MOMENTARY,
    "angle_grinder": _MOMENTARY,
    "reciprocating_saw": _MOMENTARY,
}
_SWITCH_NAMES = {
    _CONSTANT: "one that stops the tool when let go",
    _MOMENTARY: "a momentary one, which may lock on",
}
STANDING_MACHINES = ("mitre_saw", "table_saw", "stationary_saw", "concrete_mixer")
WOODWORKING_MACHINES = ("mitre_saw", "table_saw", "stationary_saw")


def switch_checks(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """Switches that were said, against the kind that the layer names for the tool."""
    asked = clauses("switch_kind", layers)
    if not asked:
        return []
    found: list[Check] = []
    for i, placement in enumerate(settled.placements):
        allowed = ALLOWED_SWITCHES.get(placement.load_class.name)
        switch = placement.tool.switch
        if allowed is None or switch is None or switch in allowed:
            continue
        found.append(
            Check(
                "switch_kind_not_allowed", "code", member_of(placement.tool.pointer, "switch"), placement.tool.id,
                "fail", tools=(i,), value_text=_SWITCH_NAMES[allowed], clauses=asked,
            )
        )  # fmt: skip
    return found


def restart_checks(
    settled: SettledSite, placements: tuple[tuple[int, Placement], ...], layers: tuple[str, ...]
) -> list[Check]:
    """Tools that would start by themselves on a source that is said to come back by itself.

    The finding is that of safety, which fails; the clauses are written for motors and machines, not for sources, so
    that the code is at most marginal.
    """
    reset = settled.source.reset
    if reset is None or reset.how != "automatic":
        return []
    found: list[Check] = []
    for i, placement in placements:
        starts = placement.load_class.hazard_on_restart and placement.maintained_switch
        asked = _clauses(placement, layers)
        if starts and not placement.restart_protection and placement.load_class.is_motor and asked:
            found.append(
                Check(
                    "restart_without_warning", "code", member_of(placement.tool.pointer, "switch"), placement.tool.id,
                    "marginal", tools=(i,), clauses=(*clauses("switch_kind", layers), *asked),
                )
            )  # fmt: skip
    return found


def _clauses(placement: Placement, layers: tuple[str, ...]) -> tuple[Clause, ...]:
    kind = placement.load_class.name
    found = list(clauses("automatic_restart", layers))
    for one in clauses("power_return_restart", layers):
        machines = WOODWORKING_MACHINES if one.code_basis == "osha-1926" else STANDING_MACHINES
        if kind in machines:
            found.append(one)
    if kind not in STANDING_MACHINES:
        found += clauses("tool_restart", layers)
    return tuple(found)
