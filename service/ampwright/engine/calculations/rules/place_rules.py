"""What does the place ask for: wet, exhaust, fuel, a vehicle that can move, a weld beside it?

A wet place behind a receptacle without protection is a danger; what no member of a request could settle is a reminder.
Source: 29 CFR 1926.405(a)(2)(ii)(G) for lamps; a NIST study quoted by a town notice for the distance of exhaust;
practice of the trade otherwise.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.branch_circuit_code import LIGHTS
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.ground_fault_code import place_of
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.use import Site
from ampwright.engine.standards.exhaust_limits import least_distance_m

EXHAUST_STAYS = {
    "indoors": "indoors",
    "enclosed": "in an enclosed place",
    "trench": "in a trench",
    "near_opening": "near a window, a door or a vent",
}
SAFE_LAMP_V = 12.0  # 29 CFR 1926.405(a)(2)(ii)(G)
EXTRA_LOW_V = 30.0  # direct voltage behind which no ground-fault device exists to ask for; common practice, no source


def place_checks(site: Site, settled: SettledSite) -> list[Check]:
    """What holds for the place, whichever case runs."""
    return [*exhaust_checks(site), *_wet(site), *_vehicle(site, settled), *_welding(site, settled)]


def wet_checks(site: Site, settled: SettledSite, placements: tuple[tuple[int, Placement], ...]) -> list[Check]:
    """Receptacles and lamps of one case that are used in the wet without protection."""
    if not site.wet or site.source.supply.leg_voltage_v <= SAFE_LAMP_V:
        return []
    if site.source.supply.kind == "dc" and site.source.supply.leg_voltage_v <= EXTRA_LOW_V:
        return []
    found: list[Check] = []
    for r in sorted({placement.receptacle for _, placement in placements}):
        receptacle = settled.source.receptacles[r]
        if receptacle.ground_fault == "none" and site.source.supply.kind != "centre_tapped":
            tools = tuple(i for i, placement in placements if placement.receptacle == r)
            where = place_of(receptacle)
            found.append(
                Check("wet_without_ground_fault_protection", "safety", where, receptacle.id, "fail", tools=tools)
            )
    for i, placement in placements:
        protected = settled.source.receptacles[placement.receptacle].ground_fault
        if placement.load_class.name in LIGHTS and protected in (None, "none"):
            verdict = "unknown" if protected is None else "fail"
            found.append(
                Check("lamp_in_the_wet", "safety", placement.tool.pointer, placement.tool.id, verdict, tools=(i,))
            )
    return found


def exhaust_checks(site: Site) -> list[Check]:
    """What an engine set asks of its place and of refuelling; nothing for other sources."""
    if site.source.kind != "engine_generator":
        return []
    name = site.source.name or "the generator"
    where = "/conditions/place"
    found = [Check("refuel_cold", "safety", site.source.pointer, name, "pass")]
    if site.place is None:
        found.append(Check("exhaust_place_unknown", "safety", where, name, "unknown"))
    elif site.place in EXHAUST_STAYS:
        stays = EXHAUST_STAYS[site.place]
        found.append(Check("exhaust_near_people", "safety", where, name, "fail", value_text=stays))
    else:
        distance_m = round(least_distance_m().value, 3)
        found.append(Check("exhaust_distance", "safety", where, name, "pass", None, distance_m, "m"))
    return found


def _wet(site: Site) -> list[Check]:
    return [Check("wet_place", "safety", "/conditions/wet", "", "pass")] if site.wet else []


def _vehicle(site: Site, settled: SettledSite) -> list[Check]:
    if site.source.kind != "vehicle" or not settled.placements:
        return []
    name = site.source.name or "The vehicle"
    return [Check("vehicle_may_drive_off", "safety", site.source.pointer, name, "pass")]


def _welding(site: Site, settled: SettledSite) -> list[Check]:
    if site.source.kind != "vehicle":
        return []
    return [
        Check("welding_from_vehicle", "safety", placement.tool.pointer, placement.tool.id, "pass", tools=(i,))
        for i, placement in enumerate(settled.placements)
        if placement.load_class.name == "welder"
    ]
