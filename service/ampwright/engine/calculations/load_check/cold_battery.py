"""May the cells of a battery station be too cold for what runs on it?

A load check takes the label of the outlets for what they give, which holds for warm cells. Whether cold ones give it
goes by figures that a load check does not ask for (calculations/energy/energy_cold_power.py): so it is left open where
the load is more than the least that such cells give. The cells of a vehicle have power to spare.
Source: standards/battery_cold_power.py for the cold; the rest common practice, no source.
"""

from __future__ import annotations

from ampwright.engine.calculations.energy.energy_cold_power import GIVES_ITS_LABEL_FROM_C, OVER_LABEL, power_ratio
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.site.use import Site


def cold_battery_may_stop(site: Site, base: Evaluation) -> bool:
    """Whether some case takes more than the least that the cells of a station give at the coldest of the place."""
    ambient = site.ambient_c
    if site.source.kind != "battery_station" or ambient is None or ambient.low >= GIVES_ITS_LABEL_FROM_C:
        return False
    source = base.settled.source
    volts = source.leg_voltage_v * len(site.source.supply.angles_rad)
    labels = [item.continuous_low * (volts if item.unit == "A" else 1.0) for item in source.limits]
    if not labels:
        return False
    least_w = max(labels) * OVER_LABEL.low * power_ratio("lithium", ambient.low).low
    placed = base.settled.placements
    return any(sum(placed[i].state("working").power_va[2].real for i in one.placements) > least_w for one in base.sets)
