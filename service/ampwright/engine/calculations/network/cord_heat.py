"""How warm do the cords of a site get, working and at the end of a push?

Source: engine/physics/cord_heating (calibrated to 60 C at rated ampacity and 30 C ambient), cord_time_constant.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.cord_heating import (
    RATED_AMBIENT_C,
    RATED_COPPER_C,
    copper_resistance_ratio,
    steady_copper_temperatures_c,
)
from ampwright.engine.physics.cord_heating_course import copper_temperature_after_c
from ampwright.engine.physics.cord_time_constant import (
    COPPER_ALONE,
    PVC_HEAT_J_PER_M3_K,
    WHOLE_CORD,
    heat_capacity_j_per_m_k,
    outside_diameter_m,
    time_constant_s,
)
from ampwright.engine.site.band import Band
from ampwright.engine.site.settled import SettledCord

INSULATION_M = JACKET_M = 0.76e-3  # hard-service junior cord to 12 AWG; NFPA 70 table 400.4 and UL 62, from memory

Real = npt.NDArray[np.float64]


@lru_cache(maxsize=4096)
def _time_constants_s(
    area_m2: float, conductors: int, loaded: int, ampacity_a: float, resistance_20c_ohm_per_m: float
) -> tuple[float, float, float]:
    """[s] for the low, typical and high estimate of temperature: whole cord, between, copper alone."""
    diameter = outside_diameter_m(area_m2, min(max(conductors, 1), 5), INSULATION_M, JACKET_M)
    hot = resistance_20c_ohm_per_m * copper_resistance_ratio(RATED_COPPER_C)
    slow, fast = (
        time_constant_s(
            heat_capacity_j_per_m_k(area_m2, count, diameter, PVC_HEAT_J_PER_M3_K, share),
            loaded,
            ampacity_a,
            hot,
            RATED_AMBIENT_C,
            RATED_COPPER_C,
        )
        for count, share in ((conductors, WHOLE_CORD), (loaded, COPPER_ALONE))
    )
    return slow, (slow * fast) ** 0.5, fast


def cord_time_constants_s(cord: SettledCord) -> tuple[float, float, float]:
    """[s] of a cord laid straight, for the low, typical and high estimate of its temperature."""
    return _time_constants_s(
        cord.area_m2, cord.conductors, cord.loaded_conductors, cord.ampacity_a, cord.resistance_20c_ohm_per_m
    )


def steady_c(cords: tuple[SettledCord, ...], ambient_c: Band, current_a: Real) -> Real:
    """[C] copper of every cord at (row, estimate, cord) currents [A] that last for ever."""
    shape = current_a.shape
    ambient = np.array([ambient_c.low, ambient_c.typical, ambient_c.high])[None, :, None]
    out = np.empty(current_a.size)

    def column(values: list[float]) -> Real:
        # a copy: a broadcast view of one row is contiguous but read-only, which a kernel refuses
        return np.broadcast_to(np.array(values), shape).copy().reshape(-1)

    steady_copper_temperatures_c(
        np.array(current_a, np.float64).reshape(-1),
        np.broadcast_to(ambient, shape).copy().reshape(-1),
        column([cord.ampacity_a for cord in cords]),
        np.full(current_a.size, RATED_AMBIENT_C),
        np.full(current_a.size, RATED_COPPER_C),
        column([max(cord.insulation_c, RATED_COPPER_C) for cord in cords]),
        column([cord.lay_factor for cord in cords]),
        out,
    )
    return out.reshape(shape)


def after_push_c(
    cords: tuple[SettledCord, ...], ambient_c: Band, start_c: Real, current_a: Real, lasts_s: float
) -> Real:
    """[C] copper at the end of a push of `lasts_s` [s] at (estimate, cord) currents, from `start_c`."""
    found = np.empty_like(start_c)
    for i, cord in enumerate(cords):
        constants = cord_time_constants_s(cord)
        for estimate in range(3):
            found[estimate, i] = copper_temperature_after_c(
                start_c[estimate, i],
                lasts_s,
                current_a[estimate, i],
                ambient_c.at(estimate),
                cord.ampacity_a,
                RATED_AMBIENT_C,
                RATED_COPPER_C,
                max(cord.insulation_c, RATED_COPPER_C),
                cord.lay_factor,
                constants[estimate],
            )
    return found
