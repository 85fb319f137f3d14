"""What does an engine set burn at no load and at full load, where its plate does not say?

Two points of a straight line of fuel against load. Wide, because sets differ; two run times of a plate go before it.
Not here: the line itself (physics/engine_fuel.py), what fuels hold (fuel_energy.py).
"""

from ampwright.engine.standards.loader import CitedValue, table

KEY = "engine-set_fuel-line"
CHART = "diesel-chart_part-load"
"""A public chart that the bands of diesel sets are held against; the answer names it beside them."""


def no_load_ratio(fuel: str) -> tuple[float, float, float]:
    """[-] fuel at no load over fuel at full load: low, typical, high.

    fuel : gasoline, diesel or propane. Source: common practice, no source.
    """
    return _band(fuel, "no load over full load")


def full_load_efficiency_ratio(fuel: str) -> tuple[float, float, float]:
    """[-] electricity over heat of the fuel at full load: low, typical, high.

    fuel : gasoline, diesel or propane. Source: common practice, no source.
    """
    return _band(fuel, "efficiency at full load")


def charted_diesel_m3_per_s(rated_w: float, load_ratio: float) -> CitedValue:
    """[m3/s] what a public chart says that a diesel set burns.

    rated_w : [W] a size of the chart, 20 to 100 kW. load_ratio : [-] 0.25, 0.5, 0.75 or 1.
    Errors: those of the table for a size or a load that the chart has not.
    Source: open educational resource, diesel fuel consumption chart (approximate).
    """
    row = table(CHART).at(rated_kw=f"{rated_w / 1000.0:g}", load_ratio=str(float(load_ratio)))
    return CitedValue(row.number("litres_per_h") * 1e-3 / 3600.0, CHART, row.status)


def _band(fuel: str, quantity: str) -> tuple[float, float, float]:
    row = table(KEY).at(fuel=fuel, quantity=quantity)
    return row.number("low"), row.number("typical"), row.number("high")
