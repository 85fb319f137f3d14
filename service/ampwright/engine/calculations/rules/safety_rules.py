"""Can someone be hurt? What a site asks for beyond holding: restart, earth, ends, people, availability.

None of these depends on a figure of the network; each is a finding with a pointer. Place, plugging and habits of the
source have modules of their own (place_rules.py, plugging_rules.py, source_habits.py); rule layers are code_rules.py.
Source: 29 CFR 1926.300(d) (switches), UL 943 (trip levels), practice of the trade otherwise.
"""

from __future__ import annotations

import math

from ampwright.engine.calculations.after_trip.restart_load import FOLLOWS, LET_GO, PROTECTED, switch_states
from ampwright.engine.calculations.network.cases import RunningSet, operated
from ampwright.engine.calculations.rules.branch_circuit_code import receptacle_of_cord
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.calculations.rules.ground_fault_code import LOW_VOLTAGE_V, NEEDS_NONE, is_demanded, place_of
from ampwright.engine.calculations.rules.place_rules import place_checks, wet_checks
from ampwright.engine.calculations.rules.plugging_rules import plugging_checks
from ampwright.engine.calculations.rules.source_habits import habit_checks, sleep_checks
from ampwright.engine.calculations.starts.own_protector import BY_ITSELF, protector_of
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.use import Site

GFCI_CLASS_A_MAY_TRIP_A = 0.004  # UL 943 class A: trips at 4 to 6 mA
RCD_30MA_MAY_TRIP_A = 0.015  # IEC 61008: may trip from half its rated residual current
BONDED_BY_NATURE = "site_supply"
CORD_CAPACITANCE_F_PER_M = 150e-12  # line to earth conductor of a flexible cord; common practice, no source
WET_LEAKAGE_FACTOR = 3.0  # joints and jackets in the wet; common practice, no source
# how its switch is left after power has gone: the member that says so, and in words
KEEPS_OFF = {
    PROTECTED: ("restart_protection", "its restart protection"),
    LET_GO: ("switch", "its switch, which has to be held,"),
    FOLLOWS: ("follows", "the tool that it follows"),
}


def site_checks(site: Site, settled: SettledSite) -> tuple[Check, ...]:
    """Findings that hold for the site as a whole, whichever case runs."""
    return (
        *place_checks(site, settled),
        *_neutral_bond(site),
        *habit_checks(site, settled),
        *_cord_ends(settled),
        *plugging_checks(site, settled),
        *_availability(site),
    )


def case_checks(site: Site, settled: SettledSite, running: RunningSet) -> tuple[Check, ...]:
    """Findings of one case."""
    placements = tuple((i, settled.placements[i]) for i in running.placements)
    return (
        *_restart(settled, placements),
        *_must_not_stop(settled, placements),
        *_ground_fault(site, settled, placements),
        *wet_checks(site, settled, placements),
        *_ground_path(settled, placements),
        *_leakage(site, settled, placements),
        *sleep_checks(settled, running),
        *_people(running, settled),
        *_order(running),
    )


def _restart(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    reset = settled.source.reset
    # whatever the source does; a refrigerator's, which nobody states, is no news
    found = [
        Check(
            "protector_may_restart", "safety", member_of(placement.tool.pointer, "motor_protector"), placement.tool.id,
            "marginal", tools=(i,),
        )
        for i, placement in placements
        if placement.tool.motor_protector == BY_ITSELF and protector_of(placement) == BY_ITSELF
    ]  # fmt: skip
    if reset is not None and reset.how == "manual":
        return found
    unseen = reset is not None and reset.how == "remote"
    for i, placement in placements:
        tool = placement.tool
        where = member_of(tool.pointer, "switch")
        if placement.load_class.hazard_on_restart and placement.maintained_switch and not placement.restart_protection:
            code, verdict = ("power_sent_back_unseen", "marginal") if unseen else ("restart_without_warning", "fail")
            found.append(Check(code, "safety", where, tool.id, verdict, tools=(i,)))
        elif placement.load_class.hazard_on_restart and not placement.restart_protection:
            found.append(Check("restarts_if_held", "safety", where, tool.id, "marginal", tools=(i,)))
        elif (
            placement.load_class.is_motor
            and (tool.control or placement.load_class.control) in ("pressure", "float")
            and not placement.restart_protection
        ):
            where = member_of(tool.pointer, "control")
            found.append(Check("restarts_by_itself", "safety", where, tool.id, "marginal", tools=(i,)))
    return found


def _must_not_stop(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    """What must come back by itself, and the source, its own switch or a ground-fault device that keeps it off."""
    reset = settled.source.reset
    # unknown counts as manual for lost work
    stays_off = settled.source.may_stay_off
    verdict = "unknown" if reset is None else "fail"
    states = switch_states(settled, tuple(i for i, _ in placements))
    found: list[Check] = []
    for i, placement in placements:
        tool = placement.tool
        if not tool.must_return:
            continue
        where = member_of(tool.pointer, "must_return")
        if stays_off:
            found.append(Check("must_not_stop", "safety", where, tool.id, verdict, tools=(i,)))
        if states[i] in KEEPS_OFF:
            member, why = KEEPS_OFF[states[i]]
            found.append(
                Check(
                    "must_return_switched_off", "safety", member_of(tool.pointer, member), tool.id, "fail", tools=(i,),
                    value_text=why,
                )
            )  # fmt: skip
        receptacle = settled.source.receptacles[placement.receptacle]
        if receptacle.ground_fault not in (None, "none"):
            found.append(
                Check(
                    "must_return_behind_ground_fault", "safety", where, tool.id, "marginal", tools=(i,),
                    value_text=receptacle.id,
                )
            )  # fmt: skip
    return found


def _ground_fault(site: Site, settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    """Unknown protection is a question; none is told here unless a rule layer asks for it (ground_fault_code.py)."""
    if settled.source.source.supply.kind in NEEDS_NONE:
        return []
    layers = deciding_layers(site)
    found: list[Check] = []
    for r in sorted({placement.receptacle for _, placement in placements}):
        receptacle = settled.source.receptacles[r]
        where = place_of(receptacle)
        tools = tuple(i for i, placement in placements if placement.receptacle == r)
        if receptacle.ground_fault is None:
            found.append(
                Check("ground_fault_protection_unknown", "safety", where, receptacle.id, "unknown", tools=tools)
            )
        elif receptacle.ground_fault == "none" and not is_demanded(site, receptacle, layers):
            found.append(
                Check("ground_fault_protection_absent", "safety", where, receptacle.id, "marginal", tools=tools)
            )
    return found


def _ground_path(settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    """A cord without earth: fails a tool that needs one, asks where nobody said."""
    if settled.source.source.supply.kind == "dc":
        return []
    found: list[Check] = []
    for i, placement in placements:
        tool = placement.tool
        if tool.insulation not in (None, "class_i"):
            continue
        for c in placement.cords:
            cord = settled.cords[c]
            if not cord.without_earth:
                continue
            known = tool.insulation is not None
            code, verdict = ("ground_path_missing", "fail") if known else ("ground_path_unknown", "unknown")
            where = cord.pointer if known else member_of(tool.pointer, "insulation")
            found.append(Check(code, "safety", where, cord.id, verdict, tools=(i,), value_text=tool.id))
    return found


def _leakage(site: Site, settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    """The budget of each device: what its tools leak, and the capacitance of its cords, more of it in the wet."""
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
        total = leakage_behind_a(site, settled, r, tuple(i for i, _ in behind))
        if total >= limit:
            found.append(
                Check(
                    "ground_fault_nuisance", "safety", receptacle.pointer, receptacle.id, "marginal", total, limit, "A",
                    tuple(i for i, _ in behind),
                )
            )  # fmt: skip
    return found


def leakage_behind_a(site: Site, settled: SettledSite, receptacle: int, running: tuple[int, ...]) -> float:
    """[A] high estimate of what the tools of `running` on a receptacle and all its cords leak together."""
    placements = [settled.placements[i] for i in running if settled.placements[i].receptacle == receptacle]
    tools_a = sum(one.tool.leakage_a.high if one.tool.leakage_a else one.load_class.leakage_a for one in placements)
    return round(tools_a + _cords_leak_a(site, settled, receptacle), 6)


def _cords_leak_a(site: Site, settled: SettledSite, receptacle: int) -> float:
    """[A] through the capacitance of every three-wire cord on a receptacle, I = 2 pi f C V."""
    volts = settled.source.leg_voltage_v
    if settled.source.source.supply.kind == "dc":
        return 0.0
    frequency_hz = 60.0 if volts <= LOW_VOLTAGE_V else 50.0
    length_m = sum(
        cord.length_m.high
        for i, cord in enumerate(settled.cords)
        if cord.conductors >= 3 and receptacle_of_cord(settled, i) == receptacle
    )
    wet = WET_LEAKAGE_FACTOR if site.wet else 1.0
    return 2.0 * math.pi * frequency_hz * CORD_CAPACITANCE_F_PER_M * volts * length_m * wet


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
    return [Check("order_matters", "capacity", f"{running.pointer}/start_order", running.id, "marginal")]


def _neutral_bond(site: Site) -> list[Check]:
    if site.source.kind == BONDED_BY_NATURE or site.source.supply.kind in ("dc", "centre_tapped"):
        return []
    if site.source.neutral_bond is None:
        where = member_of(site.source.pointer, "neutral_bond")
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


_STATES = {
    "asleep": "it is asleep",
    "locked": "it is locked",
    "driving": "it drives",
    "charging": "it charges",
    "charge_below": "its charge is low",
    "load_below": "the load is light",
}


def _availability(site: Site) -> list[Check]:
    where = member_of(site.source.pointer, "availability")
    return [
        Check(
            "source_not_available", "safety", where, site.source.name or "the source", "marginal",
            value_text=_STATES[item.when],
        )
        for item in site.source.availability
        if not item.works
    ]  # fmt: skip
