"""Which random networks are held against the reference solver?

For each kind of supply, draw k of a stated seed gives one network: a tree of cords from one source, unbalanced, with
single loads between the conductors that exist. Only `random.Random(...).random()` is used, whose sequence is stable
between versions of Python. Impedances and powers are rounded before anybody uses them, so that the deck and our own
solver see the same figures.

Resistances per length shape these networks and are no reference: AWG sizes NEC chapter 9 table 8, stranded, at 75 C;
mm2 sizes IEC 60228:2004 class 5 at 20 C; both from memory.
"""

from __future__ import annotations

import cmath
import math
import random
from dataclasses import asdict, dataclass
from typing import Any

SEED = 20260214
NETWORKS_PER_KIND = 200
LOW_VOLTAGE_SWITCH_RATIO = 0.5

_AWG_OHM_PER_M = {
    "18 AWG": 7.95e-3 / 0.3048,
    "16 AWG": 4.99e-3 / 0.3048,
    "14 AWG": 3.14e-3 / 0.3048,
    "12 AWG": 1.98e-3 / 0.3048,
    "10 AWG": 1.24e-3 / 0.3048,
    "8 AWG": 0.778e-3 / 0.3048,
}
_MM2_OHM_PER_M = {
    "1 mm2": 19.5e-3,
    "1.5 mm2": 13.3e-3,
    "2.5 mm2": 7.98e-3,
    "4 mm2": 4.95e-3,
    "6 mm2": 3.30e-3,
    "10 mm2": 1.91e-3,
}
_REACTANCE_OHM_PER_M = 0.1e-3


@dataclass(frozen=True)
class Supply:
    """One kind of supply: its legs, and the voltages that its loads are made for."""

    frequency_hz: int
    leg_v: float
    leg_angles_deg: tuple[float, ...]
    leg_to_neutral_v: float | None
    """Nominal voltage of loads on leg and neutral; None where the neutral is not carried."""
    leg_to_leg_v: float | None
    conductors: dict[str, float]


SUPPLIES = {
    "120-single": Supply(60, 120.0, (0.0,), 120.0, None, _AWG_OHM_PER_M),
    "120-240-split-phase": Supply(60, 120.0, (0.0, 180.0), 120.0, 240.0, _AWG_OHM_PER_M),
    "208y-120": Supply(60, 120.0, (0.0, -120.0, 120.0), 120.0, 208.0, _AWG_OHM_PER_M),
    "230-400-three-phase": Supply(50, 230.0, (0.0, -120.0, 120.0), 230.0, 400.0, _MM2_OHM_PER_M),
    "230-single": Supply(50, 230.0, (0.0,), 230.0, None, _MM2_OHM_PER_M),
    "55-0-55": Supply(50, 55.0, (0.0, 180.0), None, 110.0, _MM2_OHM_PER_M),
}


@dataclass(frozen=True)
class Branch:
    """A cord from its parent to a node (or, at node 0, the source itself); None where there is no such conductor."""

    parent: int
    cord: str
    impedance_ohm: list[list[float] | None]


@dataclass(frozen=True)
class Load:
    node: int
    conductor_from: int
    conductor_to: int
    nominal_v: float
    power_va: list[float]
    constant_current_ratio: float
    constant_impedance_ratio: float


@dataclass(frozen=True)
class Network:
    kind: str
    draw: int
    branches: list[Branch]
    loads: list[Load]

    @property
    def emf_v(self) -> list[complex]:
        """(3,) [V] legs against the source's neutral, 0 where there is none."""
        supply = SUPPLIES[self.kind]
        emf = [0j, 0j, 0j]
        for leg, angle in enumerate(supply.leg_angles_deg):
            emf[leg] = cmath.rect(supply.leg_v, math.radians(angle))
        return emf

    def as_json(self) -> dict[str, Any]:
        return asdict(self)

    @staticmethod
    def from_json(row: dict[str, Any]) -> Network:
        return Network(
            row["kind"],
            row["draw"],
            [Branch(**branch) for branch in row["branches"]],
            [Load(**load) for load in row["loads"]],
        )


def draw_network(kind: str, draw: int) -> Network:
    """Network number `draw` of a kind; the same for ever."""
    supply = SUPPLIES[kind]
    rng = random.Random(f"{SEED}/{kind}/{draw}")

    def between(low: float, high: float) -> float:
        return low + (high - low) * rng.random()

    def choice(values: list[Any]) -> Any:
        return values[int(rng.random() * len(values))]

    legs = list(range(len(supply.leg_angles_deg)))
    carried = [*legs, 3] if supply.leg_to_neutral_v is not None else legs
    base_ohm = supply.leg_v**2 / 10_000.0

    def conductors(impedance: list[complex]) -> list[list[float] | None]:
        row: list[list[float] | None] = [None] * 4
        for conductor, z in zip(carried, impedance, strict=True):
            row[conductor] = [round(z.real, 7), round(z.imag, 7)]
        return row

    source = complex(between(0.005, 0.05), between(0.0, 0.05)) * base_ohm
    branches = [Branch(-1, "source", conductors([source for _ in carried]))]
    for node in range(1, 2 + int(rng.random() * 9)):
        size = choice(sorted(supply.conductors))
        length_m = round(between(2.0, 40.0), 1)
        warm = between(0.95, 1.2)
        contacts = [between(0.0, 0.02) for _ in carried]
        resistance = supply.conductors[size] * length_m * warm
        reactance = _REACTANCE_OHM_PER_M * length_m
        branches.append(
            Branch(
                int(rng.random() * node),
                f"{size}, {length_m} m",
                conductors([complex(resistance + contact, reactance) for contact in contacts]),
            )
        )

    loads = []
    for _ in range(1 + int(rng.random() * 8)):
        pairs = []
        if supply.leg_to_neutral_v is not None:
            pairs += [(leg, 3, supply.leg_to_neutral_v) for leg in legs] * 2
        if supply.leg_to_leg_v is not None:
            pairs += [(a, b, supply.leg_to_leg_v) for a in legs for b in legs if a < b]
        conductor_from, conductor_to, nominal_v = choice(pairs)
        active_w = -math.log(1.0 - rng.random()) * 0.06 * nominal_v**2 / base_ohm
        power_factor = between(0.6, 1.0)
        lagging = 1.0 if rng.random() < 0.85 else -1.0
        reactive = lagging * active_w * math.tan(math.acos(power_factor))
        shares = sorted(round(rng.random(), 3) for _ in range(2))
        current, impedance = choice([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (shares[0], round(shares[1] - shares[0], 3))])
        loads.append(
            Load(
                int(rng.random() * len(branches)),
                conductor_from,
                conductor_to,
                nominal_v,
                [round(active_w, 2), round(reactive, 2)],
                current,
                impedance,
            )
        )
    return Network(kind, draw, branches, loads)
