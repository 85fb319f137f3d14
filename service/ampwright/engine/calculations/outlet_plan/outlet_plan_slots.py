"""Into which outlets could each tool go, through which cords, and what would it draw there?

A slot is a receptacle with what hangs on it: nothing, one spare cord, two in series where one does not reach, or a
cord with several outlets that tools share. Receptacles and cords that nobody could tell apart are one class with a
count, so that a plan is looked at once and not in every order of equal parts. Whether a plug fits, which supply option
goes with the outlet, what a tool draws and what a cord carries is settled by the load check's own code
(engine/site/settle.py); the figures are those of the source's open voltage, so that a tool never counts for more than
the load check finds behind a loaded line. Heaters count at the open voltage too: nobody plans on a sag.

Source: common practice, no source, for the length of a tool's own cord.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass, replace

from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion, ToolWish
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.ledger import Assumption, Ledger
from ampwright.engine.site.settle import AMBIENT_C, cord_phases, cords_in_awg, in_its_air, place_alone, usual_ends_a
from ampwright.engine.site.settle_cord import settle_cord
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.settled import Placement, SettledCord, SettledReceptacle, SettledSource
from ampwright.engine.site.source import NEUTRAL
from ampwright.engine.site.tool import Tool
from ampwright.engine.site.use import Site

OWN_CORD_M = 1.8  # 6 ft, a hand tool's own cord; common practice, no source
MOST_PAIRS = 24  # of cords in series that are looked at
NO_OUTLET_FITS, OUT_OF_REACH = "no_outlet_fits", "out_of_reach"
Currents = tuple[complex, complex, complex]


@dataclass(frozen=True, slots=True)
class Slot:
    """A kind of outlet. place : class of receptacles. singles : classes of cords used up, from the receptacle outward.
    shared : index of a cord with several outlets at the end of the run, None without one."""

    place: int
    singles: tuple[int, ...] = ()
    shared: int | None = None


@dataclass(frozen=True, slots=True)
class Draw:
    """What a tool takes at a slot. line_a : current of each leg, phasors [A] against the first leg's angle, typical."""

    option: str
    line_a: Currents
    typical_a: float
    high_a: float


@dataclass(frozen=True, slots=True)
class Slots:
    """Everywhere a plan could put something; `assumptions` is what that leans on.

    places : classes of receptacles, indices of the source's. singles : classes of cords with one outlet, indices of the
    site's. shared : indices of cords with several. draws : per tool, by slot index. refused : per tool why a slot is
    none for it, worst reason by slot index. cords : settled, by index of the site's and legs.
    """

    source: SettledSource
    places: tuple[tuple[int, ...], ...]
    singles: tuple[tuple[int, ...], ...]
    shared: tuple[int, ...]
    slots: tuple[Slot, ...]
    draws: tuple[dict[int, Draw], ...]
    refused: tuple[dict[int, str], ...]
    placements: tuple[Placement | None, ...]
    cords: dict[tuple[int, int], SettledCord]
    ways: tuple[object, ...] = ()  # per place, what a question says of its receptacles
    assumptions: tuple[Assumption, ...] = ()

    def circuit(self, n: int) -> int:
        """Index of the circuit behind a slot."""
        return self.source.receptacles[self.places[self.slots[n].place][0]].circuit

    def cord(self, index: int, place: int) -> SettledCord:
        """A cord of the site as it is settled behind a receptacle of this class."""
        return self.cords[index, cord_phases(self.source.receptacles[self.places[place][0]], self.source)]


def slots_of(question: PlanQuestion, flipped: frozenset[str] = frozenset(), *, with_unfit: bool = False) -> Slots:
    """Slots and draws of a sound question.

    flipped : assumptions taken the other way. with_unfit : also slots where the tool alone is too much for certain.
    """
    site = question.site
    ledger = Ledger(flipped)
    source = settle_source(in_its_air(site), ledger)
    places = _places(question, source) if site.source.receptacles else ()
    usable = [i for i, cord in enumerate(site.cords) if not _damaged(site, i)]
    named = {wish.into for wish in question.wishes}
    singles = _classes(site, [i for i in usable if _outlets(site, i) == 1], named)
    shared = tuple(i for i in usable if _outlets(site, i) > 1)
    cords = _settled_cords(site, source, ledger)
    pairs = _pairs(question, source, singles, places, cords)
    slots: list[Slot] = []
    for place in range(len(places)):
        slots.append(Slot(place))
        slots += [Slot(place, (k,)) for k in range(len(singles))]
        slots += [Slot(place, (), n) for n in range(len(shared))]
        slots += [Slot(place, pair) for pair in pairs]
        if pairs:
            slots += [Slot(place, (k,), n) for k in range(len(singles)) for n in range(len(shared))][:MOST_PAIRS]
    said = tuple(_said(question, source.receptacles[members[0]].id) for members in places)
    bare = Slots(source, places, singles, shared, tuple(slots), (), (), (), cords, said)
    draws: list[dict[int, Draw]] = []
    refused: list[dict[int, str]] = []
    seen: list[Placement | None] = []
    for tool in site.tools:
        ways, reasons, placement = _of_tool(question, bare, tool, ledger, with_unfit)
        draws.append(ways)
        refused.append(reasons)
        seen.append(placement)
    return replace(
        bare, draws=tuple(draws), refused=tuple(refused), placements=tuple(seen), assumptions=ledger.assumptions
    )


def run_of(slots: Slots, slot: Slot) -> tuple[int, ...]:
    """Indices of the site's cords from the receptacle outward, one of each class standing for all."""
    run = [slots.singles[k][0] for k in slot.singles]
    if len(slot.singles) == 2 and slot.singles[0] == slot.singles[1]:
        run[1] = slots.singles[slot.singles[1]][1]
    if slot.shared is not None:
        run.append(slots.shared[slot.shared])
    return tuple(run)


def _outlets(site: Site, index: int) -> int:
    outlets = site.cords[index].outlets
    return outlets.count if outlets is not None and outlets.count is not None else 1


def _damaged(site: Site, index: int) -> bool:
    cord = site.cords[index]
    return cord.plug_state == "damaged" or (cord.outlets is not None and cord.outlets.state == "damaged")


def _classes(site: Site, indices: list[int], named: set[str | None]) -> tuple[tuple[int, ...], ...]:
    """Cords that differ in nothing; one that a wish names stands alone."""
    found: dict[object, list[int]] = {}
    for i in indices:
        cord = site.cords[i]
        found.setdefault(replace(cord, id=cord.id if cord.id in named else "", pointer="", name=None), []).append(i)
    return tuple(tuple(members) for members in found.values())


def _places(question: PlanQuestion, source: SettledSource) -> tuple[tuple[int, ...], ...]:
    """Receptacles of one circuit that differ in nothing a plan could mind."""
    found: dict[object, list[int]] = {}
    for i, item in enumerate(source.receptacles):
        found.setdefault((item.circuit, alike(item), _said(question, item.id)), []).append(i)
    return tuple(tuple(members) for members in found.values())


def _said(question: PlanQuestion, receptacle: str) -> object:
    """What the question says of one receptacle: how far it is from where work is done; one that a wish names stands
    alone."""
    named = any(wish.into == receptacle for wish in question.wishes)
    ways = tuple(position.distance_from(receptacle) for position in question.positions)
    return ways, receptacle if named else ""


def alike(item: SettledReceptacle) -> tuple[object, ...]:
    """What makes two receptacles of one circuit, or of two equal circuits, the same to a plan."""
    return item.type, item.connection, item.rating_a, item.ground_fault


def _settled_cords(site: Site, source: SettledSource, ledger: Ledger) -> dict[tuple[int, int], SettledCord]:
    phases = {cord_phases(item, source) for item in source.receptacles}
    awg, ambient = cords_in_awg(source), site.ambient_c or AMBIENT_C
    found: dict[tuple[int, int], SettledCord] = {}
    for i, cord in enumerate(site.cords):
        for count in sorted(phases):
            with ledger.about(cord.id):
                found[i, count] = settle_cord(cord, awg, usual_ends_a(source), count, ambient, ledger)
    return found


def _pairs(
    question: PlanQuestion,
    source: SettledSource,
    singles: tuple[tuple[int, ...], ...],
    places: tuple[tuple[int, ...], ...],
    cords: dict[tuple[int, int], SettledCord],
) -> list[tuple[int, int]]:
    """Two cords in series, thick before thin, only where some place of work is too far for each cord alone."""
    if not places or not question.positions or not question.site.cords:
        return []
    one = next(iter({phases for _, phases in cords}))
    longest = max(cords[i, one].length_m.low for i in range(len(question.site.cords)))
    least = [
        min((d.high for item in source.receptacles if (d := position.distance_from(item.id))), default=0.0)
        for position in question.positions
        if any(wish.position == position.id for wish in question.wishes)
    ]
    if all(distance <= longest for distance in least):
        return []
    found = [
        (a, b)
        for a in range(len(singles))
        for b in range(len(singles))
        if (a != b or len(singles[a]) > 1) and cords[singles[a][0], one].area_m2 >= cords[singles[b][0], one].area_m2
    ]
    found.sort(key=lambda pair: (sum(cords[singles[k][0], one].length_m.typical for k in pair), pair))
    return found[:MOST_PAIRS]


def _of_tool(
    question: PlanQuestion, slots: Slots, tool: Tool, ledger: Ledger, with_unfit: bool
) -> tuple[dict[int, Draw], dict[int, str], Placement | None]:
    wish = question.wish(tool.id)
    ways: dict[int, Draw] = {}
    bare: set[int] = set()  # places that take its own plug
    reasons: dict[int, str] = {}
    seen: Placement | None = None
    if wish.position is not None and wish.own_cord_m is None:
        ledger.assume("own_cord", f"{wish.pointer}/own_cord", OWN_CORD_M, f"{OWN_CORD_M:g} m for {tool.id}")
    for n, slot in enumerate(slots.slots):
        if wish.into is not None and wish.into not in _ends(question.site, slots, slot):
            continue
        if slot.place in bare and slot.shared is None:
            continue  # a cord of its own is never better where none is needed
        if not _reaches(question, wish, slots, slot):
            reasons[n] = OUT_OF_REACH
            continue
        run = tuple(slots.cord(i, slot.place) for i in run_of(slots, slot))
        placement = place_alone(tool, slots.places[slot.place][0], run, slots.source, ledger)
        if placement.misfits or placement.option is None:
            reasons[n] = placement.misfits[0].code if placement.misfits else "voltage_does_not_match"
            continue
        if wish.supply_option not in (None, placement.option.id):
            reasons[n] = "voltage_does_not_match"
            continue
        seen = placement
        draw = _draw(placement, slots.source)
        over = _too_much_alone(placement, draw, slots, slot, run)
        if over is None or with_unfit:
            ways[n] = draw
            if not run:
                bare.add(slot.place)
        else:
            reasons[n] = over
    return ways, reasons, seen


def _ends(site: Site, slots: Slots, slot: Slot) -> set[str]:
    """Ids of the outlets that a slot may stand for: those of the last cord of its run, else of its receptacles."""
    if slot.shared is not None:
        return {site.cords[slots.shared[slot.shared]].id}
    if slot.singles:
        return {site.cords[i].id for i in slots.singles[slot.singles[-1]]}
    return {slots.source.receptacles[i].id for i in slots.places[slot.place]}


def _reaches(question: PlanQuestion, wish: ToolWish, slots: Slots, slot: Slot) -> bool:
    if wish.position is None:
        return len(slot.singles) < 2 and not (slot.singles and slot.shared is not None)
    position = next(item for item in question.positions if item.id == wish.position)
    distance = position.distance_from(slots.source.receptacles[slots.places[slot.place][0]].id)
    if distance is None:
        return False
    own = OWN_CORD_M if wish.own_cord_m is None else wish.own_cord_m.low
    run = [slots.cord(i, slot.place).length_m.low for i in run_of(slots, slot)]
    if len(run) > 1 and max(run) + own >= distance.high:
        return False  # one of them is enough, and a joint is one more thing to fail
    return sum(run) + own >= distance.high


def _draw(placement: Placement, source: SettledSource) -> Draw:
    volts = [source.leg_voltage_v * cmath.exp(1j * angle) for angle in source.leg_angles_rad]
    volts += [0j] * (4 - len(volts))
    volts[NEUTRAL] = 0j
    found: list[Currents] = []
    for estimate in (TYPICAL, HIGH):
        legs = [0j, 0j, 0j, 0j]
        for first, second in placement.lines:
            across = volts[first] - volts[second]
            amps = _current(placement, estimate, across)
            legs[first] += amps
            legs[second] -= amps
        found.append((legs[0], legs[1], legs[2]))
    option = placement.option.id if placement.option is not None else ""
    return Draw(option, found[0], max(abs(a) for a in found[0]), max(abs(a) for a in found[1]))


def _current(placement: Placement, estimate: int, across: complex) -> complex:
    """[A] of one element at the open voltage, by the same mixture that the network solves."""
    state = placement.state("working")
    count = len(placement.lines)
    plate = placement.plate_voltage_v / 3.0**0.5 if count == 3 else placement.plate_voltage_v
    ratio = abs(across) / plate
    current, impedance = state.constant_current_ratio, state.constant_impedance_ratio
    scale = (1.0 - current - impedance) + current * ratio + impedance * ratio * ratio
    return (state.power_va[estimate] / count * scale / across).conjugate()


def _too_much_alone(
    placement: Placement, draw: Draw, slots: Slots, slot: Slot, run: tuple[SettledCord, ...]
) -> str | None:
    """The finding that this tool alone brings here for certain, None where there may be none."""
    receptacle = slots.source.receptacles[slots.places[slot.place][0]]
    if draw.typical_a > slots.source.circuits[receptacle.circuit].rating_a:
        return "circuit_over_rating"
    if draw.typical_a > receptacle.rating_a:
        return "receptacle_over_rating"
    if any(draw.typical_a > cord.capacity_a for cord in run):
        return "cord_over_marked_rating"
    power = placement.state("working").power_va[TYPICAL]
    cosine = power.real / abs(power) if abs(power) > 0.0 else 1.0
    ohm = 2.0 * sum(cord.resistance_20c_ohm_per_m * cord.length_m.typical for cord in run)
    there = _open_v(placement, slots.source)
    # cold copper and no contacts: what the network finds is lower still; three phases share their return
    counted = placement.load_class.start != "resistive" and len(placement.lines) == 1
    if counted and there - draw.typical_a * cosine * ohm < placement.lowest_voltage_v:
        return "low_voltage_at_tool"
    return None


def _open_v(placement: Placement, source: SettledSource) -> float:
    first, second = placement.lines[0]
    angles = source.leg_angles_rad
    a = source.leg_voltage_v * cmath.exp(1j * angles[first])
    b = 0j if second == NEUTRAL else source.leg_voltage_v * cmath.exp(1j * angles[second])
    return abs(a - b)
