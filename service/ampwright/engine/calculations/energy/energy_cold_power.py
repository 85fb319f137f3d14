"""How much power can a cold battery give at its outlets?

What a warm battery gives beyond the label of its outlets is not said by anybody, so it is a wide band; a stated figure
goes before it. Cells are taken to stay as cold as they are: heat of their own use is not counted, the safe side.
Source: standards/battery_cold_power.py for the cold; the rest common practice, no source.
"""

from __future__ import annotations

from ampwright.engine.calculations.energy.energy_plan import Figure, PlanBuilder
from ampwright.engine.calculations.energy.energy_source import EFFICIENCY, band_of, shown, spread
from ampwright.engine.physics.battery_energy import activation_j_per_mol, cold_power_ratio
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.source import PowerSource
from ampwright.engine.standards.battery_cold_power import (
    COLD_C,
    WARM_C,
    lead_acid_power_ratio,
    lithium_resistance_factor,
)

# --- common practice, no source ---
GIVES_ITS_LABEL_FROM_C = 5.0  # outlets are rated down to about there
OVER_LABEL = Band(1.2, 2.5, 4.0)  # what warm cells of a station can give over the label of its outlets
PER_HOUR = {"lithium": Band(1.0, 2.5, 4.0), "lead_acid": Band(0.3, 0.8, 1.5)}  # warm power over energy
ROOM = 1.5  # one text stands behind each figure of the cold: its exponent is taken this much wider either way
WHERE = "/battery/largest_discharge"


def cold_limit_w(
    builder: PlanBuilder, source: PowerSource, day: EnergyDay, ambient: Band, label: Band | None, ledger: Ledger
) -> tuple[Band, str | None] | None:
    """[W] at the outlets that the battery can give, with the ledger's key of a default; None where cold sets no limit.

    label : [W] of the outlets, None where it is not known.
    """
    if source.kind not in ("vehicle", "battery_station"):
        return None
    losses = day.battery.efficiency_ratio or EFFICIENCY
    stated = day.battery.largest_discharge_w
    if stated is not None:
        return stated.times(losses.typical), None
    cells = day.battery.cells_c or ambient
    if cells.low >= GIVES_ITS_LABEL_FROM_C:
        return None
    chemistry = day.battery.chemistry or "lithium"
    ends = [power_ratio(chemistry, celsius) for celsius in (cells.low, cells.typical, cells.high)]
    ratio = Band(ends[0].low, ends[1].typical, ends[2].high)
    if label is not None and source.kind == "battery_station":
        warm = spread(label.typical * OVER_LABEL.typical, OVER_LABEL, label)
    else:
        energy: Figure = builder.figures[builder.places["capacity"]]
        each = PER_HOUR[chemistry]
        warm = spread(energy.band.typical / 3600.0 * each.typical, energy.band, each)
        warm = warm.times(losses.typical)
    found = spread(warm.typical * ratio.typical, warm, ratio)
    ledger.assume("battery_cold_power", WHERE, found, shown(found, "W"))
    return found, f"battery_cold_power:{WHERE}"


def power_ratio(chemistry: str, cell_c: float) -> Band:
    """[-] power at a cell temperature [C] over that when warm, never more than 1. chemistry : lithium or lead_acid."""
    if chemistry == "lead_acid":
        typical = lead_acid_power_ratio(cell_c).value
        return Band(typical**ROOM, typical, typical ** (1.0 / ROOM))
    least = activation_j_per_mol(lithium_resistance_factor("least").value, COLD_C, WARM_C)
    most = activation_j_per_mol(lithium_resistance_factor("most").value, COLD_C, WARM_C)
    energies = (most * ROOM, 0.5 * (least + most), least / ROOM)
    return band_of([cold_power_ratio(one, cell_c, WARM_C) for one in energies])


def with_cold(limit: Band, cold: Band) -> Band:
    """The lesser of two limits, end by end."""
    return band_of([min(limit.at(i), cold.at(i)) for i in range(3)])
