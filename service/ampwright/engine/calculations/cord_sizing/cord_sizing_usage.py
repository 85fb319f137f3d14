"""Is this cord made for the place: hard usage, outdoors, cold, voltage, earth, sound ends, and how many in series?

Source: NFPA 70 table 400.4, EN 50525 (usage and jackets, from memory); 29 CFR 1926.405(a)(2)(ii)(J) and the layers'
clauses by rule `cord_usage_type`; lowest temperature and number in series are common practice, no source.
"""

from __future__ import annotations

from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun
from ampwright.engine.site.band import Band
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.site.use import Site
from ampwright.engine.standards.cord_ratings import CordType, cord_type
from ampwright.engine.standards.plugs import configuration

USUAL_IN_SERIES = 1
MOST_IN_SERIES = 3
# Flexible jackets are handled down to about -25 C, PVC ones less far; common practice, no source.
COLDEST_JACKET_C = -25.0


def usage_lines(site: Site, solved: SolvedRun) -> tuple[Line, ...]:
    """Lines about what the cords are rather than what they carry."""
    found: list[Line] = []
    for k, cord in enumerate(solved.cords):
        known = cord_type(cord.type) if cord.type else None
        name = solved.cord_name(k)
        found += _site_type(site, solved, cord, k, name, known)
        found += _outdoors(site, cord, k, name, known)
        found += _voltage(solved, cord, k, name, known)
        found += _cold(solved, k, name, known)
        found += _earth(solved, cord, k, name)
        found += _ends(cord, k, name)
    found += _series(solved)
    return tuple(found)


def _site_type(
    site: Site, solved: SolvedRun, cord: SettledCord, k: int, name: str, known: CordType | None
) -> list[Line]:
    """Asked by every layer; without one it is told for the careful."""
    # of a cord to be brought the type is still to be chosen
    asked = bool(site.code_basis) and not (known is None and solved.run.kind == "size")
    at = member_of(cord.pointer, "type")
    basis = ((known.citation, known.status),) if known else ()
    if known is None:
        verdict, finding = "unknown", "cord_type_unknown"
    elif known.site_hard_usage:
        verdict, finding = "pass", None
    else:
        verdict, finding = "fail" if asked else "marginal", "cord_not_hard_usage"
    return [
        Line(
            "cord_type", "code" if asked else "safety", verdict, at, name, finding=finding, advisory=not asked, cord=k,
            outcome=known.usage.replace(" ", "_") if known else "not_given", value_text=cord.type or "",
            basis=basis, rules=("cord_usage_type",), side="",
        )
    ]  # fmt: skip


def _outdoors(site: Site, cord: SettledCord, k: int, name: str, known: CordType | None) -> list[Line]:
    if known is None or (site.place != "open_air" and not site.wet):
        return []
    verdict = "pass" if known.outdoor else "marginal"
    return [
        Line(
            "outdoor_jacket", "safety", verdict, member_of(cord.pointer, "type"), name,
            finding="cord_not_for_outdoors", cord=k, outcome="outdoor" if known.outdoor else "indoor_only",
            value_text=known.name, basis=((known.citation, known.status),), rules=("cord_usage_type",), side="",
        )
    ]  # fmt: skip


def _voltage(solved: SolvedRun, cord: SettledCord, k: int, name: str, known: CordType | None) -> list[Line]:
    if known is None:
        return []
    volts = solved.placement.plate_voltage_v
    verdict = "pass" if volts <= known.rated_v else "fail"
    return [
        Line(
            "jacket_voltage", "safety", verdict, member_of(cord.pointer, "type"), name,
            finding="cord_voltage_too_low", cord=k, figure="voltage_v", unit="V", value=Band.exactly(volts),
            limit=known.rated_v, value_text=known.name, basis=((known.citation, known.status),),
        )
    ]  # fmt: skip


def _cold(solved: SolvedRun, k: int, name: str, known: CordType | None) -> list[Line]:
    coldest = solved.site.ambient_c.low
    if coldest >= 0.0:
        return []
    verdict = "pass" if coldest >= COLDEST_JACKET_C else "marginal"
    return [
        Line(
            "cold_jacket", "safety", verdict, "/conditions/ambient", name, finding="cord_stiff_in_cold", cord=k,
            figure="ambient_c", unit="degC", value=Band.exactly(coldest), limit=COLDEST_JACKET_C, side="least",
            value_text=known.name if known else "",
        )
    ]  # fmt: skip


def _earth(solved: SolvedRun, cord: SettledCord, k: int, name: str) -> list[Line]:
    plug = configuration(cord.plug) if cord.plug else None
    without = cord.conductors <= 2 or (plug is not None and not plug.has_earth)
    insulation = solved.placement.tool.insulation
    if not without or insulation in ("class_ii", "class_iii"):
        verdict, finding = "pass", None
    elif insulation == "class_i":
        verdict, finding = "fail", "ground_path_missing"
    else:
        verdict, finding = "unknown", "ground_path_unknown"
    return [
        Line(
            "earth_conductor", "safety", verdict, cord.pointer, name, finding=finding, cord=k,
            outcome="missing" if without else "there", value_text=solved.tool, side="",
            rules=("equipment_grounding_conductor",),
        )
    ]  # fmt: skip


def _ends(cord: SettledCord, k: int, name: str) -> list[Line]:
    if not cord.damaged and not cord.worn:
        return []
    verdict, finding = ("fail", "cord_end_damaged") if cord.damaged else ("marginal", "cord_end_worn")
    outcome = "damaged" if cord.damaged else "worn"
    return [
        Line(
            "cord_ends", "safety", verdict, cord.pointer, name, finding=finding, cord=k, outcome=outcome, side="",
            rules=("cord_condition",),
        )
    ]  # fmt: skip


def _series(solved: SolvedRun) -> list[Line]:
    """One cord is usual; two and three are told; more are marginal whatever they carry."""
    count = len(solved.cords)
    many = count > MOST_IN_SERIES
    found = [
        Line(
            "cords_in_series", "safety", "pass" if count == USUAL_IN_SERIES else "marginal", "/run", solved.run_name,
            finding="many_connections", advisory=not many, figure="cords",
            value=Band.exactly(float(count)), limit=float(MOST_IN_SERIES if many else USUAL_IN_SERIES),
            value_text=f"{count} cords in a row", rules=("cord_splice",),
        )
    ]  # fmt: skip
    if count > 1:
        areas = {cord.area_m2 for cord in solved.cords}
        thinnest = min(range(count), key=lambda k: (solved.cords[k].area_m2, k))
        found.append(
            Line(
                "mixed_sizes", "safety", "pass" if len(areas) == 1 else "marginal", solved.cords[thinnest].pointer,
                solved.cord_name(thinnest), finding="mixed_cord_sizes", advisory=True, cord=thinnest, side="",
                outcome="one_size" if len(areas) == 1 else "mixed",
                value_text=solved.cord_names[0 if thinnest else -1],
            )
        )  # fmt: skip
    return found
