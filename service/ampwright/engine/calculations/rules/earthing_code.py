"""What do the rule layers say of neutral, frame and the clearing of a fault to earth?

Two readings of the neutral bond of a set stand side by side in the trade: bonded only where the set is a separately
derived system (29 CFR 1926.404(f)(3)(iii), NFPA 70 250.34(C)), or always, for the sake of its interrupters. NFPA 70
445.20 knows both, (A) floating and (B) bonded. They are shown; none is decided.
"""

from __future__ import annotations

from ampwright.engine.calculations.network.cases import operated
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.ground_fault_code import NEEDS_NONE, place_of
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Site
from ampwright.engine.standards.plugs import configuration
from ampwright.engine.standards.rule_layers import CodeBasis, clauses, code_basis

_RULES = {
    "engine_generator": ("neutral_bond", "set_receptacles", "set_earthing"),
    "vehicle": ("neutral_bond", "vehicle_mounted_earthing"),
    "battery_station": ("neutral_bond",),
}
_STATES = {
    None: "not known to be bonded or floating",
    "bonded": "bonded to its frame",
    "floating": "floating",
    "bonded_upstream": "bonded upstream",
}
FULL_VOLTAGE_V = 150.0  # to earth: above it the reduced voltage of site tools is a choice


def earthing_checks(site: Site, settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """Neutral and frame, disconnection, kind of socket-outlet and of voltage."""
    if site.source.supply.kind in NEEDS_NONE:
        return []
    return [
        *_neutral(site, layers),
        *_disconnection(site, settled, layers),
        *_sockets(settled, layers),
        *_reduced_voltage(settled, layers),
    ]


def _neutral(site: Site, layers: tuple[str, ...]) -> list[Check]:
    source = site.source
    american = tuple(key for key in layers if _country(key) == "US")
    asked = tuple(one for rule in _RULES.get(source.kind, ()) for one in clauses(rule, american))
    if not asked:
        return []
    return [
        Check(
            "neutral_bond_readings", "code", member_of(source.pointer, "neutral_bond"), source.name or "the source",
            "pass", value_text=_STATES[source.neutral_bond], clauses=asked,
        )
    ]  # fmt: skip


def _country(key: str) -> str:
    layer = code_basis(key)
    return layer.country if isinstance(layer, CodeBasis) else ""


def _disconnection(site: Site, settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """A source that limits its current leaves the clearing of a fault to its residual current device."""
    asked = (*clauses("disconnection_time", layers), *clauses("set_earthing", _european(layers)))
    if not asked or site.source.kind == "site_supply":
        return []
    used = sorted({placement.receptacle for placement in settled.placements})
    protected = [item for r in used if (item := settled.source.receptacles[r]).ground_fault not in (None, "none")]
    if not protected:
        return []
    name = site.source.name or "the source"
    return [Check("fault_cleared_by_residual_device", "code", place_of(protected[0]), name, "pass", clauses=asked)]


def _european(layers: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(key for key in layers if _country(key) != "US")


def _sockets(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("site_socket_type", layers)
    if not asked:
        return []
    found: list[Check] = []
    for r in sorted({placement.receptacle for placement in settled.placements}):
        receptacle = settled.source.receptacles[r]
        known = configuration(receptacle.type) if receptacle.type else None
        if known is not None and not known.designation.startswith("IEC 60309"):
            where = member_of(receptacle.pointer, "type")
            found.append(Check("socket_not_site_type", "code", where, receptacle.id, "fail", clauses=asked))
    return found


def _reduced_voltage(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("reduced_low_voltage", layers)
    if not asked or settled.source.leg_voltage_v <= FULL_VOLTAGE_V:
        return []
    return [
        Check(
            "reduced_low_voltage_preferred", "code", placement.tool.pointer, placement.tool.id, "pass", tools=(i,),
            clauses=asked,
        )
        for i, placement in enumerate(settled.placements)
        if operated(placement) == "by_hand"
    ]  # fmt: skip
