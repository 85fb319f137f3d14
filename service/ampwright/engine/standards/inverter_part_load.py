"""How efficient is an inverter at part load?

Listed photovoltaic inverters are the only public population; for the outlet of a vehicle they are a weak proxy, whose
own awake draw (100 to 500 W, common practice) is most of the loss at light load.
Not here: that awake draw (assumptions of the site).
"""

from itertools import pairwise
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

_POPULATION = "cec-inverters_part-load"


def population_efficiency_ratio(load_ratio: float, quantile: Literal["P10", "P90"]) -> CitedValue | OutsideTable:
    """[-] efficiency at a load over rating [-], of the worst or best tenth of listed inverters; straight between rows.

    Source: CEC inverter list of 2019-03-05. Below 5 % and above 100 % load: OutsideTable.
    """
    points = sorted(
        (row.number("load_percent"), row.number("efficiency_ratio"))
        for row in table(_POPULATION)
        if row.text("quantile") == quantile
    )
    percent = load_ratio * 100.0
    if not points[0][0] - 1e-9 <= percent <= points[-1][0] + 1e-9:
        return OutsideTable(f"the population was taken from 5 to 100 % load, not {percent:g} %", _POPULATION)
    for (low, low_ratio), (high, high_ratio) in pairwise(points):
        if percent <= high:
            return CitedValue(
                low_ratio + (high_ratio - low_ratio) * (percent - low) / (high - low), _POPULATION, "verified"
            )
    return CitedValue(points[-1][1], _POPULATION, "verified")


def sandia_ac_power_w(
    dc_power_w: float, rated_ac_w: float, rated_dc_w: float, start_w: float, curvature_per_w: float
) -> CitedValue:
    """[W] AC power of an inverter at its rated direct voltage.

    dc_power_w : [W] from the battery. rated_ac_w, rated_dc_w : [W]. start_w : [W] consumed before anything comes out.
    curvature_per_w : [1/W] of the curve, C0. Clipped at rated_ac_w; never below 0.
    Source: Sandia inverter model (2007), at Vdc = Vdco.
    """
    span_w = rated_dc_w - start_w
    over_w = dc_power_w - start_w
    ac_w = (rated_ac_w / span_w - curvature_per_w * span_w) * over_w + curvature_per_w * over_w**2
    return CitedValue(max(min(ac_w, rated_ac_w), 0.0), "sandia-inverter", "verified")


def pvwatts_ac_power_w(dc_power_w: float, rated_dc_w: float, nominal_efficiency_ratio: float = 0.96) -> CitedValue:
    """[W] AC power of an inverter by the three-parameter curve of PVWatts.

    dc_power_w, rated_dc_w : [W]. Clipped at nominal_efficiency_ratio x rated_dc_w; 0 at and below the start.
    Source: NREL PVWatts version 5 manual.
    """
    if dc_power_w <= 0.0:
        return CitedValue(0.0, "nrel-pvwatts-5", "verified")
    part = dc_power_w / rated_dc_w
    efficiency = nominal_efficiency_ratio / 0.9637 * (-0.0162 * part - 0.0059 / part + 0.9858)
    ac_w = max(min(efficiency * dc_power_w, nominal_efficiency_ratio * rated_dc_w), 0.0)
    return CitedValue(ac_w, "nrel-pvwatts-5", "verified")
