"""What should a crew bring along that its kit does not have, how many, and why?

Read from the findings of a load check: each names what lifts it where a thing does. Never named: adapters, bigger
breakers, a source used above its label. Where a table gives the size that carries the current, it is named; what
only a calculation could tell (a cord for the voltage it loses) is asked for as changes (break_evens.py).
Source: UL 817 marks through engine/standards/cord_ratings; practice of the trade otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol, TypeVar

from ampwright.engine.calculations.choosing.cord_reach import CordReach
from ampwright.engine.calculations.choosing.kit_plugging import OWN_CORD_M, Plugging
from ampwright.engine.calculations.load_check.load_check_result import Finding, LoadCheckResult
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.settle_cord import THIN, USUAL_ENDS_A, USUAL_LENGTH_M
from ampwright.engine.site.use import Site
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes
from ampwright.engine.standards.cord_ratings import end_rating_a, marked_rating_a
from ampwright.engine.standards.loader import CitedValue

FOOT_M = 0.3048
NOT_FOR_INFO = ("danger", "caution")


@dataclass(frozen=True, slots=True)
class MissingItem:
    """One thing to bring. item : what kind (MISSING_ITEMS); says : in words; finding : code behind it, None where the
    kit itself lacks it. pointer : into the request of the cell."""

    item: str
    says: str
    quantity: int
    why: str
    pointer: str
    finding: str | None = None


MISSING_ITEMS: dict[str, str] = {
    "tool": "A tool that the job runs and the kit does not have.",
    "tool_with_restart_protection": "A tool of the same kind that stays off when power returns.",
    "outlet": "Outlets: a cord or reel with several, where the source has fewer receptacles than there are tools.",
    "fitting_outlet": "A source with an outlet that takes the plug at its voltage; an adapter is no answer.",
    "cord": "A sound cord of the size and length named.",
    "longer_cord": "A cord that reaches from the source to the work.",
    "heavier_cord": "A thicker or shorter cord in place of the one named.",
    "earthed_cord": "A cord with an earth conductor.",
    "outdoor_cord": "A cord whose jacket is made for outdoors.",
    "ground_fault_protection": "Ground-fault protection at the outlet.",
    "people": "People: more pairs of hands than the job has.",
}


def missing_tools(names: Iterable[str], pointer: str) -> tuple[MissingItem, ...]:
    """Tools that a job runs and the kit does not have."""
    return tuple(MissingItem("tool", name, 1, f"The job runs {name}, and the kit has none.", pointer) for name in names)


def missing_outlets(plugging: Plugging, distance_m: float | None) -> tuple[MissingItem, ...]:
    """What the tools that found no outlet need."""
    found: list[MissingItem] = []
    at = "/connections"
    if plugging.no_outlet_left:
        names, number = and_list(plugging.no_outlet_left), len(plugging.no_outlet_left)
        said = f"{number} more outlet{'s' if number > 1 else ''}, such as a cord or reel with several"
        found.append(MissingItem("outlet", said, number, f"All that fit are taken: none is left for {names}.", at))
    if plugging.out_of_reach:
        names = and_list(plugging.out_of_reach)
        found.append(
            _longer(plugging.out_of_reach, distance_m, f"No cord that is left of the kit gets {names} to the work.", at)
        )
    for name in plugging.no_outlet_fits:
        why = f"No outlet of this source, and of no cord of the kit, takes {name} at its voltage."
        found.append(MissingItem("fitting_outlet", f"a source with an outlet for {name}", 1, why, at))
    return tuple(found)


def missing_cords(reach: CordReach | None) -> tuple[MissingItem, ...]:
    """What tools need whose cords, as they are plugged in, end before the work."""
    if reach is None or not reach.short:
        return ()
    names = and_list(reach.short)
    end = "ends" if len(reach.short) == 1 else "end"
    far = f"{reach.distance_m:.0f} m away"
    why = f"As plugged in, {names} {end} before the work, {far}; {OWN_CORD_M} m of own cord counted."
    if not reach.cords_said:
        why = f"All cords of the kit together do not get {names} to the work, {far}."
    return (_longer(reach.short, reach.distance_m, why, "/connections"),)


def _longer(tools: tuple[str, ...], distance_m: float | None, why: str, at: str) -> MissingItem:
    number = len(tools)
    far = f"{distance_m:.0f} m" if distance_m is not None else "the work"
    said = f"{number} cord{'s' if number > 1 else ''} that reach{'' if number > 1 else 'es'} {far}"
    return MissingItem("longer_cord", said, number, why, at)


def missing_by_findings(site: Site, load: LoadCheckResult) -> tuple[MissingItem, ...]:
    """What the findings of a load check ask for, in their order, each thing once.

    What only a push breaks is no reason to send anybody for another cord.
    """
    found: dict[tuple[str, str], MissingItem] = {}
    holds = load.verdict.capacity in ("pass", "marginal")
    for finding in load.findings:
        if finding.severity not in NOT_FOR_INFO or (finding.aspect == "capacity" and holds):
            continue
        item = _by_finding(site, finding)
        if item is not None:
            found.setdefault((item.item, item.says), item)
    return tuple(found.values())


def _by_finding(site: Site, finding: Finding) -> MissingItem | None:
    def item(kind: str, says: str, quantity: int = 1) -> MissingItem:
        return MissingItem(kind, says, quantity, finding.text, finding.pointer, finding.code)

    match finding.code:
        case "restart_without_warning":
            tool = _about(finding, site.tools)
            if tool is None:
                return None
            return item("tool_with_restart_protection", f"a {tool.id} that stays off when power returns")
        case "too_few_people":
            more = int(finding.value or 0.0) - int(finding.limit or 0.0)
            return item("people", f"{more} more {'people' if more > 1 else 'person'}", more) if more > 0 else None
        case (
            "ground_fault_protection_missing" | "ground_fault_protection_absent" | "wet_without_ground_fault_protection"
        ):
            receptacle = _about(finding, site.source.receptacles or ())
            where = f"at {receptacle.id}" if receptacle is not None else "at the outlet"
            return item("ground_fault_protection", f"a portable ground-fault device {where}, before the first cord")
    cord = _about(finding, site.cords)
    if cord is None:
        return None
    match finding.code:
        case "cord_over_marked_rating":
            heavier = _heavier(site, cord, finding.value)
            return None if heavier is None else item("heavier_cord", heavier)
        case "cord_overheats":
            # one that is coiled is unrolled first
            heavier = _heavier(site, cord, None) if cord.laid == "straight" else None
            return None if heavier is None else item("heavier_cord", heavier)
        case "cord_end_damaged":
            return item("cord", f"a sound cord in place of {cord.id}")
        case "ground_path_missing":
            return item("earthed_cord", f"a three-wire cord in place of {cord.id}")
        case "cord_not_for_outdoors":
            return item("outdoor_cord", f"a cord made for outdoors in place of {cord.id}")
    return None


def _heavier(site: Site, cord: Cord, amps: float | None) -> str | None:
    """The first size that a listed set of this length is marked for, where its table has one; None where the ends of
    the cord carry no more, so that no thicker copper helps."""
    size = cord.size or THIN[site.source.supply.leg_voltage_v <= 150.0]
    now = conductor_size(size)
    length_m = USUAL_LENGTH_M if cord.length_m is None else cord.length_m.high
    rated = [end_rating_a(name) for name in (cord.plug, cord.outlets.type if cord.outlets else None) if name]
    ends = [one.value for one in rated if isinstance(one, CitedValue)]
    if amps is not None and amps > min(ends, default=amps):
        return None
    if amps is not None and now is not None and size.endswith("AWG"):
        thicker = [one for name in sizes() if name.endswith("AWG") and (one := conductor_size(name)) is not None]
        for one in sorted(thicker, key=lambda item: item.area_m2):
            mark = marked_rating_a(one.size, length_m, min(ends, default=USUAL_ENDS_A))
            if one.area_m2 > now.area_m2 and isinstance(mark, CitedValue) and mark.value >= amps:
                return f"a cord of {one.size}, {_length(length_m)}, marked {mark.value:g} A, in place of {cord.id}"
    return f"a thicker or shorter cord in place of {cord.id} ({size}, {_length(length_m)})"


def _length(length_m: float) -> str:
    feet = length_m / FOOT_M
    return f"{feet:.0f} ft" if abs(feet - round(feet)) < 0.02 else f"{length_m:g} m"


class _Part(Protocol):
    @property
    def id(self) -> str: ...

    @property
    def pointer(self) -> str: ...


_P = TypeVar("_P", bound=_Part)


def _about(finding: Finding, parts: Iterable[_P]) -> _P | None:
    """The part of the site that a finding is about: by its pointer, and where several lie there by its text."""
    there = [one for one in parts if finding.pointer == one.pointer or finding.pointer.startswith(f"{one.pointer}/")]
    if len(there) > 1:
        words = {word.strip(".,:;") for word in finding.text.split()}
        there = [one for one in there if one.id in words]
    return there[0] if len(there) == 1 else None
