"""What may be counted on of a cord whose print is worn?

Capacity is the least of marked rating, ends and ampacity at the ambient, because a listed set is protected only within
its listing: the breaker upstream does not know the cord.
Source: UL 817 marks, NFPA 70 table 400.5(A), BS 7671 table 4F3A through engine/standards/cord_ratings; defaults are
common practice, no source.
"""

from __future__ import annotations

from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.conductor_sizes import conductor_size
from ampwright.engine.standards.cord_ratings import (
    UNMARKED_INSULATION_C,
    ambient_factor,
    ampacity_a,
    end_rating_a,
    marked_rating_a,
    wound_factor,
)
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.plugs import configuration

USUAL_LENGTH_M = 15.24  # 50 ft
THIN = {True: "16 AWG", False: "1.5 mm2"}
THICK = {True: "12 AWG", False: "2.5 mm2"}
USUAL_ENDS_A = 15.0  # of a North American cord set; elsewhere a cord has the ends of its receptacle
COILED_LAYERS = 2  # a heap of loops as carried sheds heat about like two layers on a drum; common practice, no source
NO_CURRENT = 0.0
# what may decide a capacity; where two are equal the first is named: a mark is what a person can read
CAPACITY_FROM = ("marked", "usual_mark", "plug", "outlets", "usual_ends", "ampacity")


def settle_cord(
    cord: Cord, gauge_is_awg: bool, usual_ends_a: float, phases: int, ambient_c: Band, ledger: Ledger
) -> SettledCord:
    """A cord with every value settled.

    gauge_is_awg : whether an unknown size is assumed in AWG (supplies below 150 V) or mm2.
    usual_ends_a : [A] what plug and connector are taken to be rated where nobody said.
    phases : legs that reach the cord; three load three conductors, two opposite legs load two.
    """
    basis: list[tuple[str, str]] = []
    size = cord.size
    if size is None:
        size = ledger.assume(
            "cord_size",
            member_of(cord.pointer, "size"),
            THIN[gauge_is_awg],
            THIN[gauge_is_awg],
            THICK[gauge_is_awg],
            THICK[gauge_is_awg],
        )
    conductor = conductor_size(size)
    if conductor is None:
        raise ValueError(f"{size!r} is no conductor size; validation refuses it before")
    basis.append((conductor.citation, conductor.status))
    length = cord.length_m
    if length is None:
        length = ledger.assume(
            "cord_length", member_of(cord.pointer, "length"), Band.exactly(USUAL_LENGTH_M), "50 ft", None, None
        )
    loaded = 3 if phases == 3 else 2
    insulation = (
        cord.insulation_temperature_c.typical
        if cord.insulation_temperature_c
        else ledger.assume(
            "cord_insulation",
            member_of(cord.pointer, "insulation_temperature"),
            UNMARKED_INSULATION_C,
            f"{UNMARKED_INSULATION_C:g} degC",
        )
    )
    table_a = ampacity_a(size, loaded)
    capacities: list[tuple[float, str]] = []
    plain_ampacity = NO_CURRENT
    if isinstance(table_a, CitedValue):
        plain_ampacity = table_a.value
        basis.append((table_a.citation, table_a.status))
        factor = ambient_factor(ambient_c.high, min(insulation, UNMARKED_INSULATION_C))
        derate = factor.value if isinstance(factor, CitedValue) else NO_CURRENT
        capacities.append((plain_ampacity * min(1.0, derate), "ampacity"))
    ends: list[tuple[float, str]] = []
    for designation, name in ((cord.plug, "plug"), (cord.outlets.type if cord.outlets else None, "outlets")):
        rated = end_rating_a(designation) if designation else None
        if isinstance(rated, CitedValue):
            ends.append((rated.value, name))
            basis.append((rated.citation, rated.status))
    if cord.outlets and cord.outlets.rating_a:
        ends.append((cord.outlets.rating_a.typical, "outlets"))
    capacities += ends
    if cord.marked_a is not None:
        capacities.append((cord.marked_a.typical, "marked"))
    else:
        mark = marked_rating_a(size, length.high, min((value for value, _ in ends), default=usual_ends_a))
        if isinstance(mark, CitedValue):
            ledger.assume("cord_mark", member_of(cord.pointer, "marked"), mark.value, f"{mark.value:g} A")
            capacities.append((mark.value, "usual_mark"))
            basis.append((mark.citation, mark.status))
        elif not ends:
            ledger.assume("cord_ends", member_of(cord.pointer, "marked"), usual_ends_a, f"{usual_ends_a:g} A ends")
            capacities.append((usual_ends_a, "usual_ends"))
    capacity, source = min(capacities, key=lambda item: (item[0], CAPACITY_FROM.index(item[1])))
    laid = cord.laid
    if laid is None:
        laid = ledger.assume("cord_laid", member_of(cord.pointer, "laid"), "coiled", "coiled", "straight", "straight")
    outlet_state = cord.outlets.state if cord.outlets else None
    states = (cord.plug_state, outlet_state)
    found_plug = configuration(cord.plug) if cord.plug else None
    conductors = cord.conductors or (found_plug.wires if found_plug else 3)
    return SettledCord(
        cord.id,
        cord.pointer,
        length,
        conductor.resistance_20c_ohm_per_m,
        capacity,
        source,
        plain_ampacity if plain_ampacity > 0.0 else capacity,
        insulation,
        lay_factor(laid, cord.drum_layers),
        laid,
        conductor.area_m2,
        loaded,
        conductors,
        cord.plug,
        cord.outlets.type if cord.outlets else None,
        (cord.outlets.count if cord.outlets and cord.outlets.count else 1),
        "worn" in states,
        "damaged" in states,
        cord.type,
        tuple(basis),
    )


def lay_factor(laid: str, drum_layers: int | None) -> float:
    """[-] share of the straight ampacity that a cord may carry as it is laid.

    Source: DIN VDE 0298-4 wound cords (from memory, weak); coiled is common practice, no source.
    """
    if laid == "straight":
        return 1.0
    layers = drum_layers or COILED_LAYERS
    for count in range(layers, 0, -1):
        factor = wound_factor(count)
        if isinstance(factor, CitedValue):
            # more layers than the table has are no better than its last row
            return factor.value
    return 1.0
