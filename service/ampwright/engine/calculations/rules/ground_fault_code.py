"""Does each receptacle in use have the ground-fault protection that the rule layers ask for?

Missing protection that a layer asks for is a danger and fails safety as well as code; unknown is a question; a device
of another kind (30 mA where 6 mA is asked for) fails code alone. An exemption of one layer is told, and counts for that
layer only. Extra-low direct voltage and 55-0-55 V need none: the layers name them as alternatives.
Source: engine/standards/ground_fault_rules.
"""

from __future__ import annotations

from functools import lru_cache

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledReceptacle, SettledSite
from ampwright.engine.site.use import Site
from ampwright.engine.standards.ground_fault_rules import GroundFaultDemand, ground_fault_demands
from ampwright.engine.standards.plugs import Configuration, configuration
from ampwright.engine.standards.rule_layers import Clause

LOW_VOLTAGE_V = 150.0  # to neutral: NEMA patterns below, CEE and IEC patterns above
NEEDS_NONE = ("dc", "centre_tapped")
_MEETS = {
    "gfci_class_a": ("gfci_class_a", "rcd_30ma", "rcd_500ma"),
    "rcd_30ma": ("rcd_30ma", "rcd_500ma"),
}
_NAMES = {
    "gfci_class_a": "a class A ground-fault interrupter",
    "rcd_30ma": "a 30 mA residual current device",
    "rcd_500ma": "a residual current device of at most 500 mA",
}
_demands = lru_cache(maxsize=512)(ground_fault_demands)


def ground_fault_checks(
    site: Site, settled: SettledSite, placements: tuple[tuple[int, Placement], ...], layers: tuple[str, ...]
) -> list[Check]:
    """For every receptacle that a case uses: met, missing, unknown, of another kind, or exempted."""
    if site.source.supply.kind in NEEDS_NONE:
        return []
    found: list[Check] = []
    for r in sorted({placement.receptacle for _, placement in placements}):
        receptacle = settled.source.receptacles[r]
        tools = tuple(i for i, placement in placements if placement.receptacle == r)
        asked = [demand for key in layers for demand in _of_layer(key, site, receptacle)]
        found += _of_receptacle(receptacle, [item for item in asked if item.exempted_by is None], tools)
        exempted = {item.exempted_by.place: item.exempted_by for item in asked if item.exempted_by is not None}
        if exempted and receptacle.ground_fault in (None, "none"):
            clauses = tuple(exempted.values())
            where, said = place_of(receptacle), and_list([_named(clause) for clause in clauses])
            found.append(
                Check(
                    "ground_fault_exempted", "code", where, receptacle.id, "pass", tools=tools, value_text=said,
                    clauses=clauses,
                )
            )  # fmt: skip
    return found


def is_demanded(site: Site, receptacle: SettledReceptacle, layers: tuple[str, ...]) -> bool:
    """Whether any of some layers asks for ground-fault protection of this receptacle."""
    if site.source.supply.kind in NEEDS_NONE:
        return False
    return any(item.exempted_by is None for key in layers for item in _of_layer(key, site, receptacle))


def place_of(receptacle: SettledReceptacle) -> str:
    """Pointer to what the request says, or leaves out, of a receptacle's protection."""
    if receptacle.id == "assumed-receptacle":
        return receptacle.pointer
    return member_of(receptacle.pointer, "ground_fault")


def _of_layer(key: str, site: Site, receptacle: SettledReceptacle) -> tuple[GroundFaultDemand, ...]:
    source = site.source
    running = source.running
    bond = {"bonded": "bonded", "bonded_upstream": "bonded", "floating": "floating"}.get(source.neutral_bond or "")
    if len(source.supply.angles_rad) > 1:
        bond = None  # the exemption of small floating sets is for two-wire sets, whatever one receptacle looks like
    found = _demands(
        key,
        outlet_of(site, receptacle),
        source.kind,
        running.band.typical if running is not None and running.unit != "A" else None,
        bond or "unknown",
        True,
        site.place != "indoors",
    )
    return found if isinstance(found, tuple) else ()


def outlet_of(site: Site, receptacle: SettledReceptacle) -> Configuration:
    """The configuration of a receptacle; one without a designation has the marks that its rating and supply give."""
    known = configuration(receptacle.type) if receptacle.type else None
    if known is not None:
        return known
    leg_v = site.source.supply.leg_voltage_v
    marked: tuple[float, ...]
    if leg_v <= LOW_VOLTAGE_V:
        marked = {"L-N": (125.0,), "L-L-N": (125.0, 250.0), "L-L-L-N": (120.0, 208.0)}.get(
            receptacle.connection, (250.0,)
        )
    else:
        marked = (leg_v,)
    poles = receptacle.connection.count("-") + 1
    return Configuration(
        "", "receptacle", marked, receptacle.rating_a, poles, poles + 1, False, receptacle.connection, "", "memory"
    )


def _of_receptacle(
    receptacle: SettledReceptacle, asked: list[GroundFaultDemand], tools: tuple[int, ...]
) -> list[Check]:
    if not asked:
        return []
    state = receptacle.ground_fault
    where = place_of(receptacle)
    if state is None:
        clauses = _clauses(asked)
        return [
            Check(
                "ground_fault_protection_unknown", "code", where, receptacle.id, "unknown", tools=tools, clauses=clauses
            )
        ]
    if state == "none":
        clauses = _clauses(asked)
        said = f"{and_list([_named(clause) for clause in clauses])} {'asks' if len(clauses) == 1 else 'ask'}"
        instead = dict.fromkeys(
            f"{item.clause.document} also takes {item.alternative}" for item in asked if item.alternative
        )
        also = f"; {and_list(list(instead))}" if instead else ""
        return [
            Check(
                "ground_fault_protection_missing", aspect, where, receptacle.id, "fail", tools=tools, value_text=said,
                limit_text=also, clauses=clauses,
            )
            for aspect in ("safety", "code")
        ]  # fmt: skip
    kind = "gfci_class_a" if state == "gfci_class_a" else "rcd_30ma"
    unmet = [item for item in asked if item.device not in _MEETS[kind]]
    if not unmet:
        return []
    clauses = _clauses(unmet)
    said = f"{and_list([_named(clause) for clause in clauses])} {'asks' if len(clauses) == 1 else 'ask'} for "
    return [
        Check(
            "ground_fault_protection_other_kind", "code", where, receptacle.id, "fail", tools=tools,
            value_text=said + _NAMES[unmet[0].device], limit_text=_NAMES[kind], clauses=clauses,
        )
    ]  # fmt: skip


def _clauses(asked: list[GroundFaultDemand]) -> tuple[Clause, ...]:
    """The clauses behind some demands, each once, as sure as the less sure of clause and demand."""
    found: dict[tuple[str, str], Clause] = {}
    for item in asked:
        clause = item.clause
        found.setdefault(
            (clause.code_basis, clause.rule),
            Clause(
                clause.rule, clause.code_basis, clause.document, clause.place, clause.asks, clause.edition, item.status
            ),
        )
    return tuple(found.values())


def _named(clause: Clause) -> str:
    return f"{clause.document}, {clause.place}"
