"""Must this outlet have ground-fault protection, by which clause, and what may stand in for it?

The national rule sees an outlet by its marks: OSHA asks for 120 V outlets of 15 and 20 A, the NEC also for 30 A and for
125/250 V on sets; IEC 60364 and BS 7671 for everything to 32 A. OSHA exempts small floating two-wire sets, the NEC does
not: both are reported. Not here: what such a device does (ground_fault_devices.py).
"""

from dataclasses import dataclass
from typing import Literal

from ampwright.engine.standards.loader import Row, least_sure, table
from ampwright.engine.standards.plugs import Configuration
from ampwright.engine.standards.rule_layers import Clause, UnknownCodeBasis, clause, code_basis

SourceKind = Literal["vehicle", "engine_generator", "battery_station", "site_supply"]
_DEMANDS = "ground-fault-demands"
_EXEMPT_LARGEST_W = 5000.0
"""[W] 29 CFR 1926.404(b)(1)(ii)."""


@dataclass(frozen=True, slots=True)
class GroundFaultDemand:
    """One clause that asks for ground-fault protection of an outlet.

    device : "gfci_class_a", "rcd_30ma" or "rcd_500ma". rated_trip_a : [A].
    alternative : what the clause accepts instead, empty for nothing.
    exempted_by : the clause that exempts this outlet, None where none does; "unknown" conditions never exempt.
    clause : what asks for it. status : the less sure of the clause and the row.
    """

    device: str
    rated_trip_a: float
    alternative: str
    exempted_by: Clause | None
    clause: Clause
    status: str


def ground_fault_demands(
    key: str,
    outlet: Configuration,
    source: SourceKind,
    source_power_w: float | None = None,
    neutral_bond: Literal["bonded", "floating", "unknown"] = "unknown",
    construction_site: bool = True,
    outdoors: bool = True,
) -> tuple[GroundFaultDemand, ...] | UnknownCodeBasis:
    """Every demand of one code basis on one outlet; empty when it asks for nothing.

    key : code basis. outlet : its configuration. source_power_w : [W] of an engine set, None when not known (then
    taken as small, the safe side). Source: the clause tables and the table of demands.
    """
    layer = code_basis(key)
    if isinstance(layer, UnknownCodeBasis):
        return layer
    base = layer.table.removeprefix("clauses_")
    places = {
        "site": construction_site,
        "set": source == "engine_generator",
        "vehicle": source in ("vehicle", "battery_station"),
        "outdoor": outdoors,
    }
    found: list[GroundFaultDemand] = []
    for row in table(_DEMANDS):
        if row.text("code_basis") != base or not places[row.text("where")]:
            continue
        if row.text("rule") == "vehicle_export" and source != "vehicle":
            continue
        if not _covers(row, outlet, source_power_w):
            continue
        asked = clause(row.text("rule"), key)
        if not isinstance(asked, Clause):
            continue
        if row.text("rule") == "ground_fault_other_receptacles" and found:
            continue  # it asks for what the more particular clauses left over
        found.append(
            GroundFaultDemand(
                row.text("device"),
                row.number("rated_trip_ma") / 1000.0,
                row.text("alternative"),
                _exemption(key, outlet, source, source_power_w, neutral_bond),
                asked,
                least_sure(asked.status, row.status),
            )
        )
    return tuple(found)


def _covers(row: Row, outlet: Configuration, source_power_w: float | None) -> bool:
    marked = "/".join(f"{volts:g}" for volts in outlet.marked_voltages_v)
    if row.text("marked_v") and marked not in row.text("marked_v").split(";"):
        return False
    largest_kw = row.number_or_none("largest_source_kw")
    if largest_kw is not None and source_power_w is not None and source_power_w > largest_kw * 1000.0:
        return False
    rated = row.text("rated_a")
    if rated.startswith(".."):
        return outlet.current_a <= float(rated[2:])
    if rated.endswith(".."):
        return outlet.current_a > float(rated[:-2])
    return not rated or outlet.current_a in {float(part) for part in rated.split(";")}


def _exemption(
    key: str,
    outlet: Configuration,
    source: SourceKind,
    source_power_w: float | None,
    neutral_bond: str,
) -> Clause | None:
    small = source_power_w is not None and source_power_w <= _EXEMPT_LARGEST_W
    two_wire = outlet.connection == "L-N"
    if key != "osha-1926" or source != "engine_generator" or not (small and two_wire and neutral_bond == "floating"):
        return None
    asked = clause("ground_fault_exemption", key)
    return asked if isinstance(asked, Clause) else None
