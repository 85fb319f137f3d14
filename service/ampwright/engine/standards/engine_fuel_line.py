"""What does an engine set burn at no load and at full load, where its plate does not say?

Two points of a straight line of fuel against load. Wide, because sets differ; two run times of a plate go before it.
Not here: the line itself (physics/engine_fuel.py), what fuels hold (fuel_energy.py).
"""

from ampwright.engine.standards.loader import table

KEY = "engine-set_fuel-line"


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


def _band(fuel: str, quantity: str) -> tuple[float, float, float]:
    row = table(KEY).at(fuel=fuel, quantity=quantity)
    return row.number("low"), row.number("typical"), row.number("high")
