"""Is anything wrong with the way things are plugged together, led and joined?

Two plugs on one lead cannot be said in a request: a connection plugs each thing in once (`plugged_in_twice`), an
adapter's far end is a receptacle (`plug_where_receptacle_belongs`). What an adapter can still give away is an outlet of
a voltage or a rating that its own plug does not have.
Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.branch_circuit_code import stated_rating_a
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Adapter, Site
from ampwright.engine.standards.cord_ratings import cord_type
from ampwright.engine.standards.plugs import Configuration, configuration
from ampwright.engine.standards.receptacle_circuits import permitted_receptacles_a
from ampwright.engine.standards.rule_layers import clauses

SAME_SIZE_RATIO = 1.1  # of conductor areas: 14 AWG (2.08 mm2) and 2.5 mm2 differ, 1.5 mm2 and 16 AWG (1.31) too
HIGHER_VOLTAGE_RATIO = 1.5  # two legs give 1.73 or 2 times one; marks of one voltage differ by less
FUSED_PLUGS = ("BS 1363",)  # a ring of 32 A feeds sockets of 13 A, each plug with a fuse of its own
_PINCHES = ("door", "window")


def plugging_checks(site: Site, settled: SettledSite) -> list[Check]:
    """Cords in cords, cords through doors, adapters, fixed wiring."""
    found = [*_series(settled), *_led_through(site, settled), *_outdoors(site, settled), *_fixed_wiring(site)]
    found += _devices(site, settled)
    for adapter in site.adapters:
        found += _adapter(adapter)
    return found


def _devices(site: Site, settled: SettledSite) -> list[Check]:
    """Devices that are larger than a receptacle in use; where a rule layer is asked, its own finding tells it."""
    if clauses("receptacle_rating", deciding_layers(site)):
        return []
    found: list[Check] = []
    for r in sorted({placement.receptacle for placement in settled.placements}):
        receptacle = settled.source.receptacles[r]
        circuit = settled.source.circuits[receptacle.circuit]
        rating_a = stated_rating_a(circuit)
        if rating_a is None or receptacle.rating_a >= rating_a or receptacle.type in FUSED_PLUGS:
            continue
        if receptacle.rating_a in [value.value for value in permitted_receptacles_a(rating_a)]:
            continue
        found.append(
            Check(
                "device_above_receptacle", "safety", receptacle.pointer, receptacle.id, "marginal",
                receptacle.rating_a, rating_a, "A",
                tuple(i for i, one in enumerate(settled.placements) if one.receptacle == r), circuit.id,
            )
        )  # fmt: skip
    return found


def _series(settled: SettledSite) -> list[Check]:
    found: list[Check] = []
    for i, cord in enumerate(settled.cords):
        kind, up = settled.cord_parents[i]
        if kind != "cord":
            continue
        parent = settled.cords[up]
        tools = tuple(t for t, placement in enumerate(settled.placements) if i in placement.cords)
        found.append(
            Check("cords_in_series", "safety", cord.pointer, cord.id, "marginal", tools=tools, value_text=parent.id)
        )
        thin, thick = sorted((cord, parent), key=lambda one: one.area_m2)
        if thick.area_m2 > SAME_SIZE_RATIO * thin.area_m2:
            where = member_of(thin.pointer, "size")
            found.append(Check("mixed_cord_sizes", "safety", where, thin.id, "pass", tools=tools, value_text=thick.id))
    return found


def _led_through(site: Site, settled: SettledSite) -> list[Check]:
    used = {cord.id for cord in settled.cords}
    found: list[Check] = []
    for cord in site.cords:
        if cord.id not in used or cord.led_through in (None, "none"):
            continue
        where = member_of(cord.pointer, "led_through")
        if cord.led_through in _PINCHES:
            found.append(
                Check("cord_through_opening", "safety", where, cord.id, "marginal", value_text=cord.led_through)
            )
        else:
            found.append(Check("cord_on_roadway", "safety", where, cord.id, "marginal"))
    return found


def _outdoors(site: Site, settled: SettledSite) -> list[Check]:
    if not site.wet and site.place != "open_air":
        return []
    found: list[Check] = []
    for cord in settled.cords:
        known = cord_type(cord.type) if cord.type else None
        if known is not None and not known.outdoor:
            where = member_of(cord.pointer, "type")
            found.append(Check("cord_not_for_outdoors", "safety", where, cord.id, "marginal", value_text=known.name))
    return found


def _fixed_wiring(site: Site) -> list[Check]:
    where, name = "/conditions/fixed_wiring", site.source.name or "The source"
    if site.fixed_wiring == "direct":
        return [
            Check("backfeed", "safety", where, name, "fail", value_text="on fixed wiring that others take for dead")
        ]
    if site.fixed_wiring == "transfer_equipment":
        return [Check("feeds_through_transfer_equipment", "safety", where, name, "marginal")]
    return []


def _adapter(adapter: Adapter) -> list[Check]:
    plug, outlet = configuration(adapter.plug), configuration(adapter.receptacle)
    if outlet is None or plug is None:
        return []
    if outlet.role == "plug":
        # an adapter with a plug at both ends; reading a request refuses it before
        return [Check("backfeed", "safety", adapter.pointer, adapter.id, "fail", value_text="on bare pins")]
    if _line_voltage_v(outlet) > HIGHER_VOLTAGE_RATIO * _line_voltage_v(plug):
        code, verdict = "sources_combined", "fail"
    elif outlet.current_a < plug.current_a:
        code, verdict = "adapter_defeats_rating", "marginal"
    else:
        return []
    return [
        Check(
            code, "safety", adapter.pointer, adapter.id, verdict, value_text=plug.designation,
            limit_text=outlet.designation,
        )
    ]  # fmt: skip


def _line_voltage_v(found: Configuration) -> float:
    """[V] highest mark, which for two legs and neutral is the one between the legs."""
    return max(found.marked_voltages_v)
