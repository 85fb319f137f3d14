"""What does an engine set burn at no load and at full load, where its plate does not say?

Two points of a straight line of fuel against load. Wide, because sets differ; two run times of a plate go before it.
What was published about engines and sets stands beside the bands, and the bands are held against it: the answer names
it beside them.
Not here: the line itself (physics/engine_fuel.py), what fuels hold (fuel_energy.py).
"""

from ampwright.engine.standards.code_letters import HORSEPOWER_W
from ampwright.engine.standards.fuel_energy import CUBIC_METRE_PER_GALLON
from ampwright.engine.standards.loader import CitedValue, table

KEY = "engine-set_fuel-line"
CHART = "diesel-chart_part-load"
SMALL_CHART = "diesel-chart_small-sets"
FIELD = "lake-sentani_fuel"
PRIVATE = "private-measurements_fuel"
SPECIFIC = "epa-nonroad_bsfc"
KILOGRAM_PER_POUND = 0.45359237

HELD_AGAINST = {
    "gasoline": (SPECIFIC, PRIVATE),
    "propane": (SPECIFIC, PRIVATE),
    "diesel": (CHART, SMALL_CHART, SPECIFIC, FIELD),
}
"""By fuel: what the bands are held against, in the order in which an answer names it."""


def no_load_ratio(fuel: str, rated_w: float) -> tuple[float, float, float]:
    """[-] fuel at no load over fuel at full load: low, typical, high.

    fuel : gasoline, diesel or propane. rated_w : [W] of the set. Source: common practice, no source; held against
    `HELD_AGAINST`.
    """
    return _band(fuel, "no load over full load", rated_w)


def full_load_efficiency_ratio(fuel: str, rated_w: float) -> tuple[float, float, float]:
    """[-] electricity over heat of the fuel at full load: low, typical, high.

    fuel : gasoline, diesel or propane. rated_w : [W] of the set. Source: common practice, no source; held against
    `HELD_AGAINST`.
    """
    return _band(fuel, "efficiency at full load", rated_w)


def charted_diesel_m3_per_s(rated_w: float, load_ratio: float) -> CitedValue:
    """[m3/s] what a public chart says that a diesel set burns.

    rated_w : [W] a size of the chart, 20 to 100 kW. load_ratio : [-] 0.25, 0.5, 0.75 or 1.
    Errors: those of the table for a size or a load that the chart has not.
    Source: open educational resource, diesel fuel consumption chart (approximate).
    """
    row = table(CHART).at(rated_kw=f"{rated_w / 1000.0:g}", load_ratio=str(float(load_ratio)))
    return CitedValue(row.number("litres_per_h") * 1e-3 / 3600.0, CHART, row.status)


def charted_small_diesel_m3_per_s(rated_w: float, load_ratio: float) -> CitedValue:
    """[m3/s] what another public chart says of diesel sets under 20 kW.

    rated_w : [W] 8, 10 or 15 kW. load_ratio : [-] 0.5, 0.75 or 1.
    Errors: those of the table for a size or a load that the chart has not. Source: a dealer's chart (approximate).
    """
    row = table(SMALL_CHART).at(rated_kw=f"{rated_w / 1000.0:g}", load_ratio=str(float(load_ratio)))
    return CitedValue(row.number("gallons_per_h") * CUBIC_METRE_PER_GALLON / 3600.0, SMALL_CHART, row.status)


def specific_fuel_kg_per_j(fuel: str, from_hp: int, technology: str) -> CitedValue:
    """[kg/J] fuel over brake energy of an engine, over the test cycle of its class.

    from_hp : lower end of a range of horsepower. technology : as the table words it.
    Errors: those of the table for what it has not. Source: US EPA, NONROAD2008a, BSFC.EMF.
    """
    row = table(SPECIFIC).at(fuel=fuel, from_hp=str(from_hp), technology=technology)
    per_j = row.number("lb_per_hp_h") * KILOGRAM_PER_POUND / (HORSEPOWER_W * 3600.0)
    return CitedValue(per_j, SPECIFIC, row.status)


def field_fuel_m3_per_j(rated_kva: int, load_ratio: str, how: str) -> CitedValue:
    """[m3/J] fuel over electricity of a diesel set in a village, measured or by a fit of makers' sheets.

    load_ratio : [-] as printed. how : measured or modelled.
    Errors: those of the table for what it has not. Source: Soto, working paper on Lake Sentani.
    """
    row = table(FIELD).at(rated_kva=str(rated_kva), load_ratio=load_ratio, how=how)
    return CitedValue(row.number("litres_per_kwh") * 1e-3 / 3.6e6, FIELD, row.status)


def privately_measured_m3_per_s(fuel: str, rated_kw: str, load_w: int) -> CitedValue:
    """[m3/s] what one set burned that somebody measured.

    rated_kw : [kW] of the set, as printed. load_w : [W] as printed.
    Errors: those of the table for what it has not. Source: private measurements, one set each.
    """
    row = table(PRIVATE).at(fuel=fuel, rated_kw=rated_kw, load_w=str(load_w))
    return CitedValue(row.number("gallons_per_h") * CUBIC_METRE_PER_GALLON / 3600.0, PRIVATE, row.status)


def _band(fuel: str, quantity: str, rated_w: float) -> tuple[float, float, float]:
    rows = [row for row in table(KEY) if row.text("fuel") == fuel and row.text("quantity") == quantity]
    row = max((row for row in rows if row.number("from_kw") * 1000.0 <= rated_w), key=lambda row: row.number("from_kw"))
    return row.number("low"), row.number("typical"), row.number("high")
