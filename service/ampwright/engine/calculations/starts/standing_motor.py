"""What does a motor draw at standstill, and how far does that current lag?

The circuit that the march of a start begins with, at its plate voltage.
Source: engine/physics motor_circuit, universal_motor.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.starts.start_models import induction_rows, universal_rows
from ampwright.engine.physics.motor_circuit import motor_curve
from ampwright.engine.physics.universal_motor import (
    UNIVERSAL_SOFT_FIRST,
    UNIVERSAL_SOFT_START_S,
    universal_impedance,
)
from ampwright.engine.site.settle_start import INDUCTION, UNIVERSAL, SettledStart

Complex = npt.NDArray[np.complex128]

_BEND_STEPS = 12


def standing_s(start: SettledStart | None) -> Complex:
    """(3,) [S] admittance of one phase of a motor at standstill, by estimate. Read only."""
    assert start is not None
    return _standing_s(start)


@lru_cache(maxsize=256)
def _standing_s(start: SettledStart) -> Complex:
    found = np.empty(3, np.complex128)
    if start.model == INDUCTION:
        motor = induction_rows(start)[0]
        amps = np.empty(3, np.complex128)
        volts = np.full(3, start.voltage_v)
        motor_curve(motor.copy(), np.zeros(3), volts, np.ones(3, np.bool_), amps, np.empty(3))
        found[:] = amps * (3.0**0.5 if start.phases == 3 else 1.0) / start.voltage_v
        found.setflags(write=False)
        return found
    for e, tool in enumerate(universal_rows(start)[0].copy()):
        amps_now = start.current_a
        for _ in range(_BEND_STEPS):
            amps_now = start.voltage_v / abs(universal_impedance(tool, amps_now, 0.0))
        found[e] = 1.0 / universal_impedance(tool, amps_now, 0.0)
        if tool[UNIVERSAL_SOFT_START_S] > 0.0:
            found[e] *= tool[UNIVERSAL_SOFT_FIRST]
    found.setflags(write=False)
    return found


def start_turn(start: SettledStart | None, estimate: int, source_ohm: complex) -> complex:
    """The direction of a start's current against the electromotive force behind `source_ohm`, of magnitude one.

    A motor's is that of the loop which its standstill makes with the source. What is no motor draws in phase.
    Source: Ohm's law for the loop of an impedance and a source.
    """
    if start is None or start.model not in (INDUCTION, UNIVERSAL):
        return 1.0 + 0.0j
    admittance_s = complex(_standing_s(start)[estimate])
    amps = admittance_s / (1.0 + source_ohm * admittance_s)
    return amps / abs(amps) if amps else 1.0 + 0.0j
