"""What current does an electric vehicle's supply offer, and what does its label say about energy?

Not here: energy left for the way home (calculations).
"""

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

GASOLINE_GALLON_J = 33.7 * 3.6e6
"""[J] US EPA: one gallon of gasoline equivalent is 33.7 kWh."""
_METRE_PER_MILE = 1609.344
_SAE = "sae-j1772"
_CODING = "iec-61851-1_cable-coding"


def pilot_current_a(duty_ratio: float) -> CitedValue | OutsideTable:
    """[A] current offered by a pilot duty [-]: 0.6 A per % to 85 %, 2.5 A per % above 64 % from there to 96 %.

    Source: SAE J1772 (formula; an error below 3 %, digital communication near 5 %). Else OutsideTable.
    """
    percent = duty_ratio * 100.0
    if 10.0 <= percent <= 85.0:
        return CitedValue(0.6 * percent, "sae-j1772_pilot", "formula")
    if 85.0 < percent <= 96.0:
        return CitedValue(2.5 * (percent - 64.0), "sae-j1772_pilot", "formula")
    return OutsideTable(f"a duty of {percent:g} % offers no current by this formula", "sae-j1772_pilot")


def supply_level_value(quantity: str) -> CitedValue:
    """[A, ohm or %, see the table] a printed figure. Source: SAE J1772. Errors: UncitedTable, no such row."""
    row = table(_SAE).at(quantity=quantity)
    return CitedValue(row.number("value"), _SAE, row.status)


def cable_coding_current_a(resistor_ohm: float) -> CitedValue | OutsideTable:
    """[A] cable rating coded by a resistor [ohm]. Source: IEC 61851-1, from memory; else OutsideTable."""
    row = table(_CODING).find(resistor_ohm=f"{resistor_ohm:g}")
    if row is None:
        return OutsideTable(f"{resistor_ohm:g} ohm codes no cable", _CODING)
    return CitedValue(row.number("current_a"), _CODING, row.status)


def label_energy_j_per_m(miles_per_gallon_equivalent: float) -> CitedValue:
    """[J/m] wall energy per distance from an EPA label, charging losses included. Source: US EPA."""
    return CitedValue(GASOLINE_GALLON_J / (miles_per_gallon_equivalent * _METRE_PER_MILE), "epa-mpge", "verified")
