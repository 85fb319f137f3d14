"""What do the rule layers say of what stands and runs on one circuit?

Shares of 80 % and 125 % size the wiring of premises (NFPA 70 210.19 to 210.23) and are told, never failed: listed 15 A
tools take more, and none of it is a trip limit. IEC 60364 has no such rule. Receptacles of the wrong rating are failed:
a 15 A outlet on a 30 A circuit burns before the breaker opens.
Source: engine/standards/receptacle_circuits and rule_layers.
"""

from __future__ import annotations

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.site.band import TYPICAL
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledCircuit, SettledSite
from ampwright.engine.site.source import NEUTRAL
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.plugs import configuration
from ampwright.engine.standards.receptacle_circuits import (
    largest_continuous_load_a,
    largest_load_on_receptacle_a,
    least_device_a,
    permitted_receptacles_a,
)
from ampwright.engine.standards.rule_layers import Clause, clauses

LIGHTS = ("led_light", "filament_light")
SHARED_CIRCUITS_A = (15.0, 20.0)  # those that 210.23 speaks of


def circuit_site_checks(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """What stands on each circuit, whichever case runs."""
    return [
        *_lights(settled, layers),
        *_receptacles(settled, layers),
        *_cord_outlets(settled, layers),
        *_one_appliance(settled, layers),
        *_welders(settled, layers),
        *_supplementary(settled, layers),
    ]


def circuit_case_checks(
    settled: SettledSite, placements: tuple[tuple[int, Placement], ...], layers: tuple[str, ...]
) -> list[Check]:
    """Loads of three hours and more that run in one case, with a quarter on top."""
    asked = clauses("continuous_load", layers)
    if not asked:
        return []
    found: list[Check] = []
    for c, circuit in enumerate(settled.source.circuits):
        behind = [(i, item) for i, item in placements if _circuit_of(settled, item) == c and item.option is not None]
        lasting = _leg_currents_a([item for _, item in behind if item.load_class.continuous])
        rest = _leg_currents_a([item for _, item in behind if not item.load_class.continuous])
        worst = max(
            (
                least_device_a(lasting[leg], rest.get(leg, 0.0)).value
                for leg in lasting
                if lasting[leg] + rest.get(leg, 0.0) <= circuit.rating_a  # else the circuit itself is over, told apart
            ),
            default=0.0,
        )
        if worst > circuit.rating_a:
            found.append(
                Check(
                    "continuous_load_share", "code", circuit.pointer, circuit.id, "pass", round(worst, 3),
                    circuit.rating_a, "A", tuple(i for i, _ in behind), clauses=asked,
                )
            )  # fmt: skip
    return found


def plate_current_a(placement: Placement) -> float | None:
    """[A] typical current of the supply option in use, as its plate gives it; None where the plate says nothing.

    Watts alone give the least current, at power factor 1.
    """
    option = placement.option
    if option is None:
        return None
    volts = placement.plate_voltage_v * (3.0**0.5 if option.phases == 3 else 1.0)
    if option.current_a is not None:
        return option.current_a.typical
    for power in (option.apparent_power_va, option.power_w):
        if power is not None:
            return power.typical / volts
    return None


def _circuit_of(settled: SettledSite, placement: Placement) -> int:
    return settled.source.receptacles[placement.receptacle].circuit


def _leg_currents_a(placements: list[Placement]) -> dict[int, float]:
    """[A] working current by leg, added in magnitude."""
    found: dict[int, float] = {}
    for placement in placements:
        phases = len(placement.lines)
        volts = placement.plate_voltage_v / (3.0**0.5 if phases == 3 else 1.0)
        amps = abs(placement.state("working").power_va[TYPICAL]) / phases / volts
        for pair in placement.lines:
            for leg in pair:
                if leg != NEUTRAL:
                    found[leg] = found.get(leg, 0.0) + amps
    return found


def _lights(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("lights_and_receptacles", layers)
    if not asked:
        return []
    found: list[Check] = []
    for c, circuit in enumerate(settled.source.circuits):
        there = [(i, item) for i, item in enumerate(settled.placements) if _circuit_of(settled, item) == c]
        lights = [i for i, item in there if item.load_class.name in LIGHTS]
        if lights and len(lights) < len(there):
            found.append(
                Check(
                    "lights_on_tool_circuit", "code", circuit.pointer, circuit.id, "marginal",
                    tools=tuple(i for i, _ in there), clauses=asked,
                )
            )  # fmt: skip
    return found


def stated_rating_a(circuit: SettledCircuit) -> float | None:
    """[A] of the device where it was given; a rating taken from the receptacles cannot contradict them."""
    if circuit.device is None or circuit.device.rating_a is None:
        return None
    return circuit.device.rating_a.typical


def _receptacles(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("receptacle_rating", layers)
    if not asked:
        return []
    found: list[Check] = []
    for c, circuit in enumerate(settled.source.circuits):
        rating = stated_rating_a(circuit)
        if rating is None:
            continue
        served = [item for item in settled.source.receptacles if item.circuit == c]
        permitted = [value.value for value in permitted_receptacles_a(rating)]
        for item in served:
            # a single receptacle on its own circuit may be larger, never smaller: 210.21(B)(1)
            wrong = item.rating_a < rating if len(served) == 1 else bool(permitted) and item.rating_a not in permitted
            if wrong:
                found.append(_wrong_outlet(item.pointer, item.id, item.rating_a, rating, circuit.id, asked))
    return found


def _cord_outlets(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    """The end of a cord counts as an outlet of the circuit that feeds it."""
    asked = (*clauses("receptacle_rating", layers), *clauses("extension_set_is_branch_wiring", layers))
    if not clauses("receptacle_rating", layers):
        return []
    found: list[Check] = []
    for i, cord in enumerate(settled.cords):
        circuit = settled.source.circuits[settled.source.receptacles[receptacle_of_cord(settled, i)].circuit]
        rating = stated_rating_a(circuit)
        outlet = configuration(cord.outlet) if cord.outlet else None
        if rating is None or outlet is None:
            continue
        permitted = [value.value for value in permitted_receptacles_a(rating)]
        if permitted and outlet.current_a < min(permitted):
            where = member_of(cord.pointer, "outlets")
            found.append(_wrong_outlet(where, cord.id, outlet.current_a, rating, circuit.id, asked))
    return found


def _wrong_outlet(
    pointer: str, subject: str, outlet_a: float, circuit_a: float, circuit: str, asked: tuple[Clause, ...]
) -> Check:
    return Check(
        "receptacle_not_for_circuit", "code", pointer, subject, "fail", outlet_a, circuit_a, "A", value_text=circuit,
        clauses=asked,
    )  # fmt: skip


def receptacle_of_cord(settled: SettledSite, cord: int) -> int:
    """Index of the receptacle at the root of a cord run."""
    kind, up = settled.cord_parents[cord]
    while kind == "cord":
        kind, up = settled.cord_parents[up]
    return up


def _several_outlets(settled: SettledSite, circuit: int) -> bool:
    """Whether a circuit has two or more receptacles, those of a cord counted as such."""
    receptacles = sum(item.circuit == circuit for item in settled.source.receptacles)
    split = any(
        cord.outlets > 1 and settled.source.receptacles[receptacle_of_cord(settled, i)].circuit == circuit
        for i, cord in enumerate(settled.cords)
    )
    return receptacles > 1 or split


def _one_appliance(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    share = clauses("one_appliance_share", layers)
    by_table = clauses("load_on_one_receptacle", layers)
    if not share and not by_table:
        return []
    found: list[Check] = []
    for i, placement in enumerate(settled.placements):
        c = _circuit_of(settled, placement)
        circuit, receptacle = settled.source.circuits[c], settled.source.receptacles[placement.receptacle]
        amps = plate_current_a(placement)
        if amps is None or not _several_outlets(settled, c):
            continue
        limits: list[tuple[float, tuple[Clause, ...]]] = []
        if share and circuit.rating_a in SHARED_CIRCUITS_A:
            limits.append((largest_continuous_load_a(circuit.rating_a).value, share))
        row = largest_load_on_receptacle_a(circuit.rating_a, receptacle.rating_a)
        if by_table and isinstance(row, CitedValue):
            limits.append((row.value, by_table))
        exceeded = [(limit, asked) for limit, asked in limits if amps > limit]
        if exceeded:
            found.append(
                Check(
                    "one_appliance_share", "code", placement.tool.pointer, placement.tool.id, "pass", amps,
                    min(limit for limit, _ in exceeded), "A", (i,),
                    clauses=tuple(one for _, asked in exceeded for one in asked),
                )
            )  # fmt: skip
    return found


def _welders(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = (*clauses("welder_conductor", layers), *clauses("welder_device", layers))
    found: list[Check] = []
    for i, placement in enumerate(settled.placements):
        circuit = settled.source.circuits[_circuit_of(settled, placement)]
        amps = plate_current_a(placement)
        if asked and placement.load_class.name == "welder" and amps is not None and amps > circuit.rating_a:
            found.append(
                Check(
                    "welder_circuit_rules", "code", placement.tool.pointer, placement.tool.id, "pass", amps,
                    circuit.rating_a, "A", (i,), clauses=asked,
                )
            )  # fmt: skip
    return found


def _supplementary(settled: SettledSite, layers: tuple[str, ...]) -> list[Check]:
    asked = clauses("supplementary_protector", layers)
    if not asked:
        return []
    return [
        Check("supplementary_protector_only", "code", circuit.pointer, circuit.id, "pass", clauses=asked)
        for circuit in settled.source.circuits
        if circuit.device is not None and circuit.device.kind == "supplementary_protector"
    ]
