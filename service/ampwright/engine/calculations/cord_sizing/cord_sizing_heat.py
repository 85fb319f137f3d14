"""How warm does the run get over a duty, left coiled, and under what the device upstream lets through?

The breaker does not protect a cord: a listed set is protected only within its listing (NFPA 70 240.5(B)), so the load
is held against the cord, and what the cord would see before the device acts is told beside it, at the highest rating
that the device may plausibly have.
Source: engine/physics/cord_heating_course; the standards' own points through engine/standards/breaker_points; NFPA 70
table 210.21(B)(3): a 15 A receptacle may stand on a 20 A circuit.
"""

from __future__ import annotations

import numpy as np

from ampwright.engine.calculations.cord_sizing.cord_sizing_full_voltage import FullVoltage
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import HEAVY, WORKING, SolvedRun
from ampwright.engine.calculations.network.cord_heat import cord_time_constants_s
from ampwright.engine.calculations.verdicts import over
from ampwright.engine.physics.cord_heating import RATED_AMBIENT_C, RATED_COPPER_C, steady_copper_temperature_c
from ampwright.engine.physics.cord_heating_course import copper_temperature_after_c, duty_copper_temperature_c
from ampwright.engine.site.band import Band
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_cord import lay_factor
from ampwright.engine.site.settled import SettledCord
from ampwright.engine.standards.breaker_points import DeviceStandard, device_points
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.plugs import Configuration, configuration
from ampwright.engine.standards.receptacle_circuits import permitted_receptacles_a

HOUR_S = 3600.0
RUINED_C = 160.0  # what PVC bears for seconds; IEC 60364-4-43 table 43A, from memory
# What no table here prints: IEC 60269-1 table 2, conventional fusing current of gG, from memory; UL 1077 leaves the
# curve to the maker, taken as wide as the band of physics has it (assumption B-06).
UNPRINTED_LETS_THROUGH = {"iec_60269": 1.6, "ul_1077": 1.6}
PRINTED: dict[str, DeviceStandard] = {
    "ul_489": "UL 489",
    "iec_60898_b": "IEC 60898-1",
    "iec_60898_c": "IEC 60898-1",
    "iec_60898_d": "IEC 60898-1",
    "iec_60934": "IEC 60934",
    "bs_1362": "BS 1362",
}
PLUG_FUSE_A = 13.0  # the largest that BS 1362 has
US_CIRCUITS_A = (15.0, 20.0, 30.0, 40.0, 50.0)


def duty_lines(solved: SolvedRun, full: FullVoltage) -> tuple[Line, ...]:
    """Copper over the on and off times that the request states; none where it states none."""
    tool = solved.placement.tool
    if tool.on_s is None or tool.off_s is None:
        return ()
    found: list[Line] = []
    for k, cord in enumerate(solved.cords):
        amps = full.currents(HEAVY)
        warm = Band(
            _duty_c(solved, cord, amps.low, 0, tool.on_s.low, tool.off_s.high),
            _duty_c(solved, cord, amps.typical, 1, tool.on_s.typical, tool.off_s.typical),
            _duty_c(solved, cord, amps.high, 2, tool.on_s.high, tool.off_s.low),
        )
        found.append(_heat_line(solved, k, "copper_temperature_in_duty", warm, advisory=False, load_state="duty"))
    return tuple(found)


def _duty_c(solved: SolvedRun, cord: SettledCord, on_a: float, estimate: int, on_s: float, off_s: float) -> float:
    out = np.empty(2)
    duty_copper_temperature_c(
        np.array([on_a, 0.0]),
        np.array([on_s, off_s]),
        solved.site.ambient_c.at(estimate),
        cord.ampacity_a,
        RATED_AMBIENT_C,
        RATED_COPPER_C,
        insulation_bears_c(cord),
        cord.lay_factor,
        cord_time_constants_s(cord)[estimate],
        out,
    )
    return round(float(out.max()), 1)


def coiled_lines(solved: SolvedRun, full: FullVoltage) -> tuple[Line, ...]:
    """Copper of each cord laid straight, if someone left it coiled instead; a warning, no verdict."""
    found: list[Line] = []
    for k, cord in enumerate(solved.cords):
        if cord.laid != "straight":
            continue
        amps = full.currents(WORKING)
        warm = [
            round(
                steady_copper_temperature_c(
                    amps.at(estimate),
                    solved.site.ambient_c.at(estimate),
                    cord.ampacity_a,
                    RATED_AMBIENT_C,
                    RATED_COPPER_C,
                    insulation_bears_c(cord),
                    lay_factor("coiled", None),
                ),
                1,
            )
            for estimate in range(3)
        ]
        found.append(
            _heat_line(
                solved,
                k,
                "copper_temperature_if_coiled",
                Band(warm[0], warm[1], warm[2]),
                advisory=True,
                load_state="working",
            )
        )
    return tuple(found)


def _heat_line(
    solved: SolvedRun, k: int, code: str, warm: Band, *, advisory: bool, load_state: str, finding: str | None = None
) -> Line:
    cord, limit = solved.cords[k], insulation_bears_c(solved.cords[k])
    verdict = over(warm.typical, warm.high, limit)
    if advisory and verdict == "fail":
        verdict = "marginal"
    return Line(
        code,
        "safety",
        verdict,
        member_of(cord.pointer, "laid"),
        solved.cord_name(k),
        finding=finding or ("cord_overheats" if not advisory else "cord_overheats_if_coiled"),
        advisory=advisory,
        load_state=load_state,
        cord=k,
        figure="copper_temperature_c",
        unit="degC",
        value=warm,
        limit=limit,
        basis=(("din-vde-0298-4_wound", None),) if code == "copper_temperature_if_coiled" else (),
    )


def insulation_bears_c(cord: SettledCord) -> float:
    """[C] what the insulation bears; a cord without a mark bears 60 C."""
    return max(cord.insulation_c, RATED_COPPER_C)


def highest_rating_a(solved: SolvedRun) -> float:
    """[A] highest rating that the device before the run may plausibly have: its own band, or what may stand there."""
    circuit = solved.site.source.circuits[solved.site.source.receptacles[solved.placement.receptacle].circuit]
    if circuit.device is not None and circuit.device.rating_a is not None:
        return circuit.device.rating_a.high
    if solved.site.source.leg_voltage_v > 150.0:
        return circuit.rating_a
    allowed = [
        larger
        for larger in US_CIRCUITS_A
        if any(
            item.value == circuit.rating_a for item in permitted_receptacles_a(larger) if isinstance(item, CitedValue)
        )
    ]
    return max((circuit.rating_a, *allowed))


def lets_through(standard: str, rating_a: float) -> tuple[float, str | None]:
    """[A] that a device may let stand for an hour, and the citation: below it the standard promises no opening.

    standard : as a request names it.
    """
    if standard not in PRINTED:
        ratio = UNPRINTED_LETS_THROUGH.get(standard, UNPRINTED_LETS_THROUGH["ul_1077"])
        return ratio * rating_a, "ul-1077_points" if standard == "ul_1077" else None
    sure = [
        point
        for point in device_points(PRINTED[standard], rating_a)
        if point.demand == "trips within" and point.time_s is not None
    ]
    if not sure:  # a rating the standard does not have
        return UNPRINTED_LETS_THROUGH["ul_1077"] * rating_a, None
    first = min(sure, key=lambda point: point.multiple)
    return first.multiple * rating_a, first.citation


def plug_fuse_a(solved: SolvedRun) -> float | None:
    """[A] the largest fuse that the plug of the first cord may hold; None where its pattern has none."""
    receptacle = solved.site.source.receptacles[solved.placement.receptacle]
    names = (receptacle.type, solved.cords[0].plug if solved.cords else None)
    fused = any(found is not None and found.designation == "BS 1363" for found in map(_configuration, names))
    return PLUG_FUSE_A if fused else None


def _configuration(name: str | None) -> Configuration | None:
    return configuration(name) if name else None


def usual_standard(solved: SolvedRun) -> str:
    """Standard of a breaker that nobody described: IEC 60898-1 above 150 V and at 55-0-55 V, else UL 489."""
    source = solved.site.source
    metric = source.leg_voltage_v > 150.0 or source.source.supply.kind == "centre_tapped"
    return "iec_60898_c" if metric else "ul_489"


def _overload(solved: SolvedRun) -> tuple[float, float, str | None]:
    """[A] what the cord may carry for an hour, [A] rating of the device that then acts, and its citation."""
    circuit = solved.site.source.circuits[solved.site.source.receptacles[solved.placement.receptacle].circuit]
    stated = circuit.device.standard if circuit.device is not None else None
    rating = highest_rating_a(solved)
    amps, citation = lets_through(stated or usual_standard(solved), rating)
    fuse = plug_fuse_a(solved)
    if fuse is None:
        return amps, rating, citation
    through, of_fuse = lets_through("bs_1362", fuse)
    # behind a fused plug a circuit that nobody described may be a ring of 32 A
    known = circuit.device is not None and circuit.device.rating_a is not None
    return (amps, rating, citation) if known and amps <= through else (through, fuse, of_fuse)


def device_lines(solved: SolvedRun) -> tuple[Line, ...]:
    """Copper of each cord after the hour that the device upstream may let an overload stand."""
    amps, rating, citation = _overload(solved)
    found: list[Line] = []
    for k, cord in enumerate(solved.cords):
        constants = cord_time_constants_s(cord)
        warm = [
            round(
                copper_temperature_after_c(
                    solved.site.ambient_c.at(estimate),
                    HOUR_S,
                    amps,
                    solved.site.ambient_c.at(estimate),
                    cord.ampacity_a,
                    RATED_AMBIENT_C,
                    RATED_COPPER_C,
                    insulation_bears_c(cord),
                    cord.lay_factor,
                    constants[estimate],
                ),
                1,
            )
            for estimate in range(3)
        ]
        limit = insulation_bears_c(cord)
        ruined = warm[1] > RUINED_C  # figures beyond this say no more than that
        said = ", which ruins it" if ruined else f" and get to {warm[2]:.0f} degC"
        found.append(
            Line(
                "device_and_cord",
                "safety",
                "marginal" if warm[2] > limit else "pass",
                cord.pointer,
                solved.cord_name(k),
                finding="cord_not_protected_upstream",
                advisory=True,
                cord=k,
                figure="copper_temperature_c",
                unit="degC",
                value=Band(warm[0], warm[1], warm[2]) if not ruined else None,
                limit=limit,
                outcome="ruined" if ruined else "carries_it" if warm[2] <= limit else "gets_too_warm",
                value_text=f"{amps:.0f} A for an hour" + said,
                limit_text=f"{rating:g} A",
                basis=((citation, None),) if citation else (),
                rules=("cord_protection", "overload_coordination"),
            )
        )
    return tuple(found)
