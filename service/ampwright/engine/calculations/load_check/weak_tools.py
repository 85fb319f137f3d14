"""Which tools run and are noticeably weak, in an easy cut or when pushed?

A low voltage makes them so, or a source that holds its current.

A series motor draws the same current for the same torque at any voltage; what is left of its speed, and so of its
strength in the same cut, is the ratio of its back voltages. Behind a source that limits its current without end it gets
a share of that current, and its torque falls with it. Strength below nine tenths of that at plate voltage is felt by
hand (common practice, no source).
Source: engine/physics/universal_motor, V^2 = (E + R I)^2 + (X I)^2.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.network.load_network import Row, RowFigures
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.starts.start_models import universal_rows
from ampwright.engine.calculations.starts.starts import Starting
from ampwright.engine.calculations.wording import two_digits
from ampwright.engine.physics.universal_motor import (
    UNIVERSAL_REACTANCE_OHM,
    UNIVERSAL_RESISTANCE_OHM,
    UNIVERSAL_SATURATION_A,
    UNIVERSAL_VOLTAGE_V,
    universal_torque_nm,
)
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.settle_start import UNIVERSAL
from ampwright.engine.site.settled import SettledSite

FELT_BELOW_RATIO = 0.9
_UNITS = {"kVA": "VA", "kW": "W"}


def weak_tool_checks(
    site: SettledSite, starting: Starting, rows: Sequence[Row], figures: RowFigures, case: int
) -> tuple[Check, ...]:
    """Told, not judged: the running tools of a case that work and are weak."""
    found: list[Check] = []
    for r, row in enumerate(rows):
        if row.case != case:
            continue
        for i in row.running if row.pushed is None else (row.pushed,):
            placement, start = site.placements[i], starting.starts[i]
            known = any(one.tools == (i,) for one in found)  # weak in an easy cut, it is weak when pushed too
            if known or placement.option is None or start is None or start.model != UNIVERSAL:
                continue
            shown = _strength(site, figures, r, i, np.array(universal_rows(start)[0][TYPICAL]))
            if shown is not None:
                cut = "even in an easy cut" if row.pushed is None else "when it is pushed"
                found.append(
                    Check(
                        "weak_tool", "capacity", placement.tool.pointer, placement.tool.id, "pass", round(shown, 3),
                        None, "", (i,), f"{two_digits(100.0 * shown)} %", cut,
                    )
                )  # fmt: skip
    return tuple(found)


def _strength(site: SettledSite, figures: RowFigures, r: int, i: int, motor: npt.NDArray[np.float64]) -> float | None:
    """[-] usual strength where that is felt, else the least one where that is; None where neither is."""
    strengths = [
        strength_ratio(motor, float(figures.tool_v[r, e, i]), float(figures.tool_a[r, e, i]))
        * _held_down(site, figures, r, e, i, motor)
        for e in (TYPICAL, HIGH)
    ]
    typical, least = strengths[0], min(strengths)
    if not 0.0 < least < FELT_BELOW_RATIO:
        return None
    return typical if 0.0 < typical < FELT_BELOW_RATIO else least


def strength_ratio(motor: npt.NDArray[np.float64], volts: float, amps: float) -> float:
    """[-] speed of a series motor at a voltage over that at its plate's, for the same current and so the same torque.

    motor : (UNIVERSAL_COLUMNS,). volts : [V]. amps : [A]. Nought where the voltage does not carry the current.
    """
    return _back_v(motor, volts, amps) / max(_back_v(motor, float(motor[UNIVERSAL_VOLTAGE_V]), amps), 1e-9)


def _back_v(motor: npt.NDArray[np.float64], volts: float, amps: float) -> float:
    reactance = motor[UNIVERSAL_REACTANCE_OHM] / (1.0 + amps / motor[UNIVERSAL_SATURATION_A])
    inside = volts * volts - (reactance * amps) ** 2
    if inside <= 0.0:
        return 0.0
    return max(0.0, math.sqrt(inside) - float(motor[UNIVERSAL_RESISTANCE_OHM]) * amps)


def _held_down(
    site: SettledSite, figures: RowFigures, r: int, estimate: int, i: int, motor: npt.NDArray[np.float64]
) -> float:
    """[-] torque left where a source holds its current at its limit without end: each gets a share of what it asks."""
    circuit = site.source.receptacles[site.placements[i].receptacle].circuit
    amps = float(figures.tool_a[r, estimate, i])
    left = 1.0
    for k, limit in enumerate(site.source.limits):
        if limit.response != "current_limiting" or circuit not in limit.circuits:
            continue
        unit = _UNITS.get(limit.unit, limit.unit)
        by_unit = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}
        asked = float(by_unit[unit][r, estimate, k])
        if asked > limit.continuous > 0.0:
            share = limit.continuous / asked
            torque = universal_torque_nm(motor, amps * share) / universal_torque_nm(motor, amps)
            left = min(left, float(torque))
    return left
