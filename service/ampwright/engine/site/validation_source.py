"""Does a power source contradict itself: its legs, circuits, limits and waveform?"""

from __future__ import annotations

from collections.abc import Iterator

from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.source import LEG_NAMES, Capacity, PowerSource, Tier
from ampwright.engine.site.use import Fault

_AC_ONLY_PROTECTION = ("gfci_class_a", "rcd_30ma_type_ac", "rcd_30ma_type_a", "rcd_30ma_type_f")


def source_faults(source: PowerSource) -> Iterator[Fault]:
    """Contradictions inside the source."""
    yield from _circuit_faults(source)
    yield from _limit_faults(source)
    yield from _waveform_faults(source)
    yield from _repeated("receptacle", [(one.id, one.pointer) for one in source.receptacles or ()])
    yield from _repeated("circuit", [(one.id, one.pointer) for one in source.circuits or ()])
    yield from _repeated("limit", [(one.id, one.pointer) for one in source.limits or ()])
    if _below(source.starting, source.running):
        yield Fault(
            member_of(source.pointer, "starting"),
            "starting_below_running",
            "The starting capacity is below the running capacity.",
        )


def circuit_names(source: PowerSource) -> tuple[str, ...]:
    """Circuits that are listed, then those that a receptacle only names."""
    listed = [one.id for one in source.circuits or ()]
    named = [one.circuit for one in source.receptacles or () if one.circuit is not None]
    return tuple(dict.fromkeys(listed + named))


def _repeated(what: str, ids: list[tuple[str, str]]) -> Iterator[Fault]:
    seen: set[str] = set()
    for name, pointer in ids:
        if name in seen:
            yield Fault(member_of(pointer, "id"), "repeated_id", f"There are two {what}s {shown(name)}.")
        seen.add(name)


def _circuit_faults(source: PowerSource) -> Iterator[Fault]:
    legs = source.supply.legs
    for circuit in source.circuits or ():
        if circuit.id in LEG_NAMES:
            yield Fault(
                member_of(circuit.pointer, "id"),
                "ambiguous_id",
                f"{circuit.id} is the name of a leg; a limit could not tell them apart. Give the circuit another id.",
            )
        for place, leg in enumerate(circuit.legs or ()):
            at = member_of(circuit.pointer, "legs", place)
            if leg not in legs:
                yield Fault(
                    at, "unknown_leg", f"A {source.supply.text} supply has {listing(legs)}, not {leg}.", legs[-1]
                )
            elif leg in (circuit.legs or ())[:place]:
                yield Fault(at, "repeated_member", f"Leg {leg} is listed twice.")
        if circuit.device is not None:
            at = member_of(circuit.pointer, "device", "tiers")
            yield from _tier_faults(at, circuit.device.tiers or (), None)


def _limit_faults(source: PowerSource) -> Iterator[Fault]:
    legs, circuits = source.supply.legs, circuit_names(source)
    for limit in source.limits or ():
        if limit.over == ():
            yield Fault(
                member_of(limit.pointer, "over"),
                "covers_nothing",
                "This limit covers no leg and no circuit. Leave `over` out where it covers everything.",
            )
        for place, name in enumerate(limit.over or ()):
            at = member_of(limit.pointer, "over", place)
            if name not in legs and name not in circuits:
                known = (*legs, *circuits)
                message = f"No leg or circuit {shown(name)}; there are {listing(known)}."
                yield Fault(at, "unknown_leg_or_circuit", message, nearest(name, known))
            elif name in (limit.over or ())[:place]:
                yield Fault(at, "repeated_member", f"{shown(name)} is listed twice.")
        yield from _tier_faults(member_of(limit.pointer, "tiers"), limit.tiers or (), limit.continuous)


def _tier_faults(pointer: str, tiers: tuple[Tier, ...], continuous: Capacity | None) -> Iterator[Fault]:
    for place, tier in enumerate(tiers):
        if _below(tier.amount, continuous):
            yield Fault(
                member_of(pointer, place, "amount"),
                "tier_below_continuous",
                "This overload is below the continuous value of its limit.",
            )


def _below(amount: Capacity | None, other: Capacity | None) -> bool:
    # A, W and VA cannot be compared without a power factor, so a pair in two units is no contradiction.
    return (
        amount is not None
        and other is not None
        and amount.unit == other.unit
        and not amount.band.open_top
        and amount.band.high < other.band.low
    )


def _waveform_faults(source: PowerSource) -> Iterator[Fault]:
    if source.supply.kind == "unread":
        return
    is_dc = source.supply.kind == "dc"
    at = member_of(source.pointer, "waveform")
    if is_dc and source.waveform in ("sine", "modified_sine"):
        yield Fault(at, "waveform_contradicts_voltage", f"{source.supply.text} has no {source.waveform} wave.", "dc")
    if not is_dc and source.waveform == "dc":
        yield Fault(
            at,
            "waveform_contradicts_voltage",
            f"{source.supply.text} is an alternating supply; direct current is written {source.supply.text} DC.",
            "sine",
        )
    if not is_dc:
        return
    for receptacle in source.receptacles or ():
        if receptacle.ground_fault in _AC_ONLY_PROTECTION:
            yield Fault(
                member_of(receptacle.pointer, "ground_fault"),
                "not_for_direct_current",
                f"{receptacle.ground_fault} does not work on direct current.",
            )
    if source.transient_reactance_pu is not None:
        yield Fault(
            member_of(source.pointer, "transient_reactance"),
            "not_for_direct_current",
            "A direct-current source has no transient reactance.",
        )
