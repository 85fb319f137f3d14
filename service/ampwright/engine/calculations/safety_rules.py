"""Can someone be hurt? What a site asks for beyond holding: restart, exhaust, earth, ends, people, availability.

None of these depends on a figure of the network, except leakage and sleep; each is a finding with a pointer.
Source: 29 CFR 1926.300(d) (switches), UL 943 (trip levels), practice of the trade otherwise.
"""

from __future__ import annotations

from ampwright.engine.calculations.capacity_rules import Check
from ampwright.engine.calculations.cases import RunningSet, operated
from ampwright.engine.site.settle_source import member
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.use import Site
from ampwright.engine.standards.plugs import configuration

GFCI_CLASS_A_MAY_TRIP_A = 0.004  # UL 943 class A: trips at 4 to 6 mA
RCD_30MA_MAY_TRIP_A = 0.015  # IEC 61008: may trip from half its rated residual current
BONDED_BY_NATURE = "site_supply"


def site_checks(site: Site, settled: SettledSite) -> tuple[Check, ...]:
    """Findings that hold for the site as a whole, whichever case runs."""
    return (*_exhaust(site), *_neutral_bond(site), *_cord_ends(settled), *_adapters(site), *_availability(site))


def case_checks(settled: SettledSite, running: RunningSet) -> tuple[Check, ...]:
    """Findings of one case."""
    placements = tuple((i, settled.placements[i]) for i in running.placements)
    return (
        *_restart(settled, placements),
        *_must_not_stop(settled, placements),
        *_ground_fault(settled, placements),
        *_ground_path(settled, placements),
        *_leakage(settled, placements),
        *_people(running, settled),
        *_order(running),
    )


def _restart(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    reset = settled.source.reset
    returns_by_itself = reset is None or reset.how == "automatic"
    found: list[Check] = []
    if not returns_by_itself:
        return found
    for i, placement in placements:
        tool = placement.tool
        where = member(tool.pointer, "switch")
        if placement.load_class.hazard_on_restart and placement.maintained_switch and not placement.restart_protection:
            found.append(Check("restart_without_warning", "safety", where, tool.id, "fail", tools=(i,)))
        elif placement.load_class.hazard_on_restart and not placement.restart_protection:
            found.append(Check("restarts_if_held", "safety", where, tool.id, "marginal", tools=(i,)))
        elif placement.load_class.is_motor and (tool.control or placement.load_class.control) in (
            "pressure",
            "float",
        ):
            found.append(
                Check("restarts_by_itself", "safety", member(tool.pointer, "control"), tool.id, "marginal", tools=(i,))
            )
    return found


def _must_not_stop(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    reset = settled.source.reset
    # unknown counts as manual for lost work
    stays_off = reset is None or reset.how != "automatic"
    verdict = "unknown" if reset is None else "fail"
    return [
        Check(
            "must_not_stop",
            "safety",
            member(placement.tool.pointer, "must_return"),
            placement.tool.id,
            verdict,
            tools=(i,),
        )
        for i, placement in placements
        if stays_off and placement.tool.must_return
    ]


def _ground_fault(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    if settled.source.source.supply.kind in ("dc", "centre_tapped"):
        return []
    found: list[Check] = []
    for r in sorted({placement.receptacle for _, placement in placements}):
        receptacle = settled.source.receptacles[r]
        if receptacle.ground_fault is None:
            tools = tuple(i for i, placement in placements if placement.receptacle == r)
            where = receptacle.pointer
            if receptacle.id != "assumed-receptacle":
                where = member(where, "ground_fault")
            found.append(
                Check("ground_fault_protection_unknown", "safety", where, receptacle.id, "unknown", tools=tools)
            )
    return found


def _ground_path(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    found: list[Check] = []
    for i, placement in placements:
        if placement.tool.insulation != "class_i":
            continue
        for c in placement.cords:
            cord = settled.cords[c]
            plug = configuration(cord.plug) if cord.plug else None
            if cord.conductors <= 2 or (plug is not None and not plug.has_earth):
                found.append(
                    Check(
                        "ground_path_missing", "safety", cord.pointer, cord.id, "fail", tools=(i,),
                        value_text=placement.tool.id,
                    )
                )  # fmt: skip
    return found


def _leakage(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    found: list[Check] = []
    by_receptacle: dict[int, list[tuple[int, Placement]]] = {}
    for i, placement in placements:
        by_receptacle.setdefault(placement.receptacle, []).append((i, placement))
    for r, behind in sorted(by_receptacle.items()):
        receptacle = settled.source.receptacles[r]
        kind = receptacle.ground_fault
        if kind in (None, "none"):
            continue
        limit = GFCI_CLASS_A_MAY_TRIP_A if kind == "gfci_class_a" else RCD_30MA_MAY_TRIP_A
        total = round(
            sum(
                placement.tool.leakage_a.high if placement.tool.leakage_a else placement.load_class.leakage_a
                for _, placement in behind
            ),
            6,
        )
        if total > limit:
            found.append(
                Check(
                    "ground_fault_nuisance", "safety", receptacle.pointer, receptacle.id, "marginal", total, limit, "A",
                    tuple(i for i, _ in behind),
                )
            )  # fmt: skip
    return found


def _people(running: RunningSet, settled: SettledSite) -> list[Check]:
    if running.hands_needed <= settled.people:
        return []
    hand_tools = tuple(i for i in running.placements if operated(settled.placements[i]) == "by_hand")
    return [
        Check(
            "too_few_people", "safety", running.pointer, running.id, "marginal", float(running.hands_needed),
            float(settled.people), "", hand_tools,
        )
    ]  # fmt: skip


def _order(running: RunningSet) -> list[Check]:
    if running.start_order is None:
        return []
    return [Check("order_matters", "capacity", f"{running.pointer}/start_order", running.id, "pass")]


def _exhaust(site: Site) -> list[Check]:
    if site.source.kind != "engine_generator":
        return []
    name = site.source.name or "the generator"
    if site.place is None:
        return [Check("exhaust_place_unknown", "safety", "/conditions/place", name, "unknown")]
    if site.place in ("indoors", "enclosed"):
        return [Check("exhaust_near_people", "safety", "/conditions/place", name, "fail")]
    return []


def _neutral_bond(site: Site) -> list[Check]:
    if site.source.kind == BONDED_BY_NATURE or site.source.supply.kind in ("dc", "centre_tapped"):
        return []
    if site.source.neutral_bond is None:
        where = member(site.source.pointer, "neutral_bond")
        return [Check("neutral_bond_unknown", "safety", where, site.source.name or "the source", "marginal")]
    return []


def _cord_ends(settled: SettledSite) -> list[Check]:
    found: list[Check] = []
    for i, cord in enumerate(settled.cords):
        tools = tuple(t for t, placement in enumerate(settled.placements) if i in placement.cords)
        if cord.damaged:
            found.append(Check("cord_end_damaged", "safety", cord.pointer, cord.id, "fail", tools=tools))
        elif cord.worn:
            found.append(Check("cord_end_worn", "safety", cord.pointer, cord.id, "marginal", tools=tools))
    return found


def _adapters(site: Site) -> list[Check]:
    """An adapter whose both ends are plugs feeds a dead receptacle from bare pins."""
    found: list[Check] = []
    for adapter in site.adapters:
        far_end = configuration(adapter.receptacle)
        if far_end is not None and far_end.role == "plug":
            found.append(Check("backfeed", "safety", adapter.pointer, adapter.id, "fail"))
    return found


_STATES = {
    "asleep": "it is asleep",
    "locked": "it is locked",
    "driving": "it drives",
    "charging": "it charges",
    "charge_below": "its charge is low",
    "load_below": "the load is light",
}


def _availability(site: Site) -> list[Check]:
    where = member(site.source.pointer, "availability")
    return [
        Check(
            "source_not_available", "safety", where, site.source.name or "the source", "marginal",
            value_text=_STATES[item.when],
        )
        for item in site.source.availability
        if not item.works
    ]  # fmt: skip
