"""How does a caller post the other answer to an assumption?

For each assumption that has another side, the edit that says it in the request, so that an answer's
`if_instead_change` can be applied and posted again. None where no one member says it: what a source does beyond its
highest overload (`overload_policy`) is on no plate and in no manual, and no request says it; nor where a catalogue
document keeps the member in a list without ids.
"""

from __future__ import annotations

from ampwright.engine.calculations.reverse.site_edits import CordEdit, Edit, Several, Spread
from ampwright.engine.calculations.reverse.source_edits import (
    DeviceStated,
    LimitStated,
    Overload,
    ReceptacleEdit,
    SourceStated,
)
from ampwright.engine.calculations.reverse.tool_edits import PlateCurrent, ToolStated, start_edit
from ampwright.engine.calculations.starts.start_limits import UNKNOWN_TIERS
from ampwright.engine.site.ledger import Assumption, Ledger
from ampwright.engine.site.pointers import is_from_reference, member_of
from ampwright.engine.site.settle import settle
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.settled import Placement, SettledCord, SettledLimit, SettledSite
from ampwright.engine.site.use import Site

LONGEST_ID = 64


def assumption_edit(site: Site, settled: SettledSite, item: Assumption) -> Edit | None:
    """The other side of an assumption as an edit, None where there is none or it cannot be said.

    settled : the site with nothing taken the other way.
    """
    if item.if_instead is None:
        return None
    if item.code in ("circuit_shared", "receptacle_rating"):
        return _of_receptacles(site, settled, item)
    if item.code == "connections_assumed":
        return _spread(site, item)
    if item.code in ("limit_continuous", "limit_peak", "limit_tiers", "limit_response"):
        return _of_limit(site, settled, item)
    if item.code == "reset":
        text = "if the source turns out to stay off after a trip until somebody resets it"
        return SourceStated(text, reset="manual") if site.source.reset is None else None
    if item.code == "engine_technology":
        return SourceStated("if the set turns out to have a voltage regulator", technology="avr")
    if item.code in ("cord_size", "cord_laid"):
        return _of_cord(settled, item)
    placement = _placement_of(settled, item)
    return None if placement is None else _of_tool(site, placement, item)


def _placement_of(settled: SettledSite, item: Assumption) -> Placement | None:
    for placement in settled.placements:
        tool = placement.tool
        if item.subject == tool.id or (not item.subject and f"{item.pointer}/".startswith(f"{tool.pointer}/")):
            return placement
    return None


def _of_tool(site: Site, placement: Placement, item: Assumption) -> Edit | None:
    name = placement.tool.id
    if item.code == "switch":
        text = f"if {name} turns out to stop when its switch is let go"
        return ToolStated(name, text, switch="constant_pressure")
    if item.code == "restart_protection":
        text = f"if {name} turns out to stay off when power returns"
        return ToolStated(name, text, restart_protection=True)
    if item.code == "soft_start":
        return start_edit(site, placement, "universal_motor", f"if {name} turns out to start softly", soft_start=True)
    if item.code == "head_pressure":
        text = f"if {name} turns out to be vented before each start"
        return start_edit(site, placement, "induction_motor", text, against="vented")
    if item.code == "start_current" and item.if_instead is not None:
        letter = item.if_instead.rsplit(" ", 1)[-1]
        text = f"if the plate of {name} turns out to bear the code letter {letter}"
        return start_edit(site, placement, "induction_motor", text, code_letter=letter)
    if item.code == "plate_unknown" and item.if_instead is not None:
        return _plate(placement, item.if_instead)
    return None


def _plate(placement: Placement, said: str) -> Edit | None:
    amps = float(said.split(" ", 1)[0])
    tool = placement.tool
    text = f"if the plate of {tool.id} turns out to say {amps:g} A"
    if not tool.supply_options:
        return PlateCurrent(tool.id, text, amps, placement.plate_voltage_v)
    option = placement.option or tool.supply_options[0]
    if is_from_reference(option.pointer):
        return None
    return PlateCurrent(tool.id, text, amps, placement.plate_voltage_v, option.id)


def _of_cord(settled: SettledSite, item: Assumption) -> Edit | None:
    cord = next((one for one in settled.cords if _is_of(one, item)), None)
    if cord is None or item.if_instead is None:
        return None
    if item.code == "cord_laid":
        return CordEdit(cord.id, f"if {cord.id} turns out to be laid {item.if_instead}", laid=item.if_instead)
    return CordEdit(cord.id, f"if {cord.id} turns out to be of {item.if_instead}", size=item.if_instead)


def _is_of(cord: SettledCord, item: Assumption) -> bool:
    return item.subject == cord.id or (not item.subject and item.pointer.startswith(f"{cord.pointer}/"))


def _of_receptacles(site: Site, settled: SettledSite, item: Assumption) -> Edit | None:
    """One receptacle, or all that a catalogue entry brought: they share one assumption."""
    edits: list[Edit] = []
    first_shared = next((one for one in site.source.receptacles or () if one.circuit is None), None)
    ratings = {one.id: one.rating_a for one in settled.source.receptacles}
    for one in site.source.receptacles or ():
        if item.code == "circuit_shared":
            at = member_of(one.pointer, "circuit")
            own = f"own-{one.id}"
            if at == item.pointer and one.circuit is None and one is not first_shared and len(own) <= LONGEST_ID:
                edits.append(ReceptacleEdit(one.id, own_circuit(one.id), circuit=own))
        elif member_of(one.pointer, "marked") == item.pointer and one.marked_a is None and one.type is None:
            amps = float((item.if_instead or "0 A").split(" ", 1)[0])
            if amps != ratings.get(one.id):
                edits.append(ReceptacleEdit(one.id, marked(one.id, amps), marked_a=amps))
    if not edits:
        return None
    return edits[0] if len(edits) == 1 else Several(tuple(edits))


def own_circuit(receptacle: str) -> str:
    return f"if {receptacle} turns out to have a circuit of its own"


def marked(receptacle: str, amps: float) -> str:
    return f"if {receptacle} turns out to be marked {amps:g} A"


def _spread(site: Site, item: Assumption) -> Edit | None:
    receptacles = {one.id for one in site.source.receptacles or ()}
    flipped = settle(site, Ledger(frozenset({item.key})))
    places = tuple((one.tool.id, flipped.source.receptacles[one.receptacle].id) for one in flipped.placements)
    if len({into for _, into in places}) != len(places) or any(into not in receptacles for _, into in places):
        return None
    return Spread(places, "each tool in a receptacle of its own")


def _of_limit(site: Site, settled: SettledSite, item: Assumption) -> Edit | None:
    """One limit, or all that a catalogue entry brought: they share one assumption."""
    flipped = settle_source(settled.source.source, Ledger(frozenset({item.key}))).limits
    given = {one.id: one for one in site.source.limits or ()}
    name = item.code.removeprefix("limit_")
    for circuit in site.source.circuits or ():
        device = circuit.device
        if device is not None and device.kind == "electronic" and member_of(circuit.pointer, "device") == item.pointer:
            return _of_device(settled, circuit.id, item)
    edits: list[Edit] = []
    for limit, other in zip(settled.source.limits, flipped, strict=True):
        stated = given.get(limit.id)
        if (limit.pointer if stated is None else member_of(limit.pointer, name)) != item.pointer:
            continue
        if stated is None and (limit.id != "assumed-output" or site.source.limits is not None):
            return None  # what an engine set runs is said by another member
        if stated is not None and getattr(stated, "peak_a" if name == "peak" else name) is not None:
            continue
        edit = _limit_stated(limit, other, None if stated is None else limit.id, item)
        if edit is None:
            return None
        edits.append(edit)
    if not edits:
        return None
    return edits[0] if len(edits) == 1 else Several(tuple(edits))


def _of_device(settled: SettledSite, name: str, item: Assumption) -> Edit | None:
    """The electronic limit of one circuit; one that a catalogue entry brought has no item of its own to correct."""
    circuit = next((one for one in settled.source.circuits if one.id == name), None)
    if circuit is None or is_from_reference(circuit.pointer):
        return None
    if item.code == "limit_tiers":
        ((ratio, seconds),) = UNKNOWN_TIERS[0]
        amps = ratio * circuit.rating_a
        text = f"if the device of {name} turns out to bear {amps:g} A for {seconds:g} s"
        return DeviceStated(text, name, (Overload(amps, "A", seconds),))
    if item.code == "limit_response":
        text = f"if the device of {name} turns out to hold its current down instead of switching off"
        return DeviceStated(text, name, response="current_limiting")
    return None


def _limit_stated(limit: SettledLimit, other: SettledLimit, name: str | None, item: Assumption) -> Edit | None:
    amount, unit = limit.continuous, limit.unit
    said = (amount, unit) if name is None else None
    if item.code == "limit_continuous":
        text = f"if the source turns out to give {other.continuous:g} {other.unit} in all"
        return LimitStated(text, name, (other.continuous, other.unit))
    if item.code == "limit_tiers":
        ((ratio, seconds),) = UNKNOWN_TIERS[0]
        text = f"if the source turns out to give {ratio * amount:g} {unit} for {seconds:g} s"
        return LimitStated(text, name, if_new=said, overloads=(Overload(ratio * amount, unit, seconds),))
    if item.code == "limit_response":
        text = "if the source turns out to hold its current down instead of switching off"
        return LimitStated(text, name, if_new=said, response="current_limiting")
    if name is None or other.peak_a is None:
        return None
    peak = round(other.peak_a, 3)
    return LimitStated(f"if the source turns out to allow crests of {peak:.0f} A", name, peak_a=peak)
