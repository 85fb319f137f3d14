"""How much carbon dioxide comes from a litre of this fuel?

What leaves the exhaust; neither other gases nor what it took to make the fuel.
Not here: heat of the fuel (fuel_energy.py), factors of electricity, which differ by place and are the caller's.
"""

from ampwright.engine.standards.fuel_energy import CUBIC_METRE_PER_GALLON
from ampwright.engine.standards.loader import CitedValue, table

_KEY = "40-cfr-98_c-1"


def carbon_kg_per_m3(fuel: str) -> CitedValue:
    """[kg/m3] CO2 of burnt fuel. fuel : gasoline, diesel or propane. Source: 40 CFR 98 table C-1."""
    row = table(_KEY).at(fuel=fuel)
    per_gallon = row.number("heat_mmbtu_per_gal") * row.number("co2_kg_per_mmbtu")
    return CitedValue(per_gallon / CUBIC_METRE_PER_GALLON, _KEY, row.status)
