"""Do the rule layers allow these cords on a site?

Usage type, three wires, worn ends, and what the breaker does not protect. A cord whose type nobody read is a question.
Source: 29 CFR 1926.405(a)(2)(ii)(J) and 416(e)(1), NFPA 70 240.5(B) and 590.4, IEC 60364-4-43 and 7-704, BS 7671, by
engine/standards/rule_layers; types by engine/standards/cord_ratings.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.branch_circuit_code import receptacle_of_cord
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledCord, SettledSite
from ampwright.engine.standards.cord_ratings import cord_type
from ampwright.engine.standards.rule_layers import clauses

JOB_SITE_LAW = "osha-1926"


def cord_use_checks(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """Every cord in use against the layers."""
    found: list[Check] = []
    for i, cord in enumerate(settled.cords):
        found += _usage(cord, layers)
        if settled.source.source.supply.kind != "dc":
            found += _wires(cord, layers)
        found += _ends(cord, layers)
        found += _protection(settled, i, layers)
    return found


def _usage(cord: SettledCord, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("cord_usage_type", layers)
    if not asked:
        return []
    where = member_of(cord.pointer, "type")
    if cord.type is None:
        return [Check("cord_type_unknown", "code", where, cord.id, "unknown", clauses=asked)]
    known = cord_type(cord.type)
    if known is None or known.site_hard_usage:
        return []
    return [Check("cord_not_hard_usage", "code", where, cord.id, "fail", value_text=cord.type, clauses=asked)]


def _wires(cord: SettledCord, layers: tuple[str, ...]) -> list[Check]:
    if JOB_SITE_LAW not in layers or cord.conductors >= 3:
        return []
    asked = (
        *clauses("cord_usage_type", (JOB_SITE_LAW,)),
        *clauses("equipment_grounding_conductor", (JOB_SITE_LAW,)),
    )
    return [Check("cord_two_wire", "code", member_of(cord.pointer, "conductors"), cord.id, "fail", clauses=asked)]


def _ends(cord: SettledCord, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("cord_condition", layers)
    if not asked or not (cord.worn or cord.damaged):
        return []
    code = "cord_end_damaged" if cord.damaged else "cord_end_worn"
    return [Check(code, "code", cord.pointer, cord.id, "fail", clauses=asked)]


def _protection(settled: SettledSite, i: int, layers: tuple[str, ...]) -> list[Check]:
    asked = (*clauses("cord_protection", layers), *clauses("overload_coordination", layers))
    cord = settled.cords[i]
    circuit = settled.source.circuits[settled.source.receptacles[receptacle_of_cord(settled, i)].circuit]
    if not asked or cord.capacity_a >= circuit.rating_a:
        return []
    return [
        Check(
            "device_does_not_protect_cord", "code", cord.pointer, cord.id, "pass", round(cord.capacity_a, 3),
            circuit.rating_a, "A", clauses=asked,
        )
    ]  # fmt: skip
