"""Is a source to be charged below freezing, and how much of what sun and sockets give does it then store?

Lithium cells are not to be charged in frost: their protection refuses, or they are harmed for good. A vehicle warms its
battery before it charges; lead acid takes charge in frost.
Source: common practice, no source (physics/pack_charging.py).
"""

from __future__ import annotations

from ampwright.engine.physics.pack_charging import LITHIUM_COLDEST_CHARGE_C
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.source import PowerSource


def charged_cold_c(source: PowerSource, day: EnergyDay, ambient: Band) -> Band | None:
    """[C] the cells of a station that sun or a socket is to charge below freezing; None where nothing does."""
    charges = any(watts > 0.0 for watts in day.solar_w) or any(
        stop.recharge_w is not None and stop.recharge_w.high > 0.0 for stop in day.stops or ()
    )
    if source.kind != "battery_station" or day.battery.chemistry == "lead_acid" or not charges:
        return None
    cells = day.battery.cells_c or ambient
    return cells if cells.low < LITHIUM_COLDEST_CHARGE_C else None


def stored_ratio(source: PowerSource, day: EnergyDay, ambient: Band, warm: Band) -> Band:
    """[-] of what is given that is stored. warm : [-] where no frost is in the way."""
    cells = charged_cold_c(source, day, ambient)
    if cells is None:
        return warm
    return Band.exactly(0.0) if cells.typical < LITHIUM_COLDEST_CHARGE_C else Band(0.0, warm.typical, warm.high)
