"""Published vehicle-charging, battery and inverter figures against our formulas and tables."""

from ampwright.engine.standards import battery_cold_power, charging_signals, inverter_part_load
from ampwright.engine.standards.lead_acid_temperature import cell_size_factor
from ampwright.engine.standards.loader import CitedValue, OutsideTable

MILE_M = 1609.344


def ieee_485_span(row):
    low, high = (float(part) for part in row.value.split(".."))
    for inside in (low, high):
        assert isinstance(cell_size_factor(inside), CitedValue)
    for outside in (low - 0.2, high + 0.2):
        assert isinstance(cell_size_factor(outside), OutsideTable)


def ieee_485(row):
    (fahrenheit,) = row.parts(r"cell size factor at (\d+) F")
    found = cell_size_factor((float(fahrenheit) - 32) / 1.8)
    row.is_served(round(found.value, 9))
    assert found.status == row.status


def lead_acid_cold_power(row):
    (fahrenheit,) = row.parts(r"power available of a starter battery at (-?\d+) F")
    row.is_served(round(100 * battery_cold_power.lead_acid_power_ratio((float(fahrenheit) - 32) / 1.8).value, 9))


def lithium_cold_resistance(row):
    row.is_served(battery_cold_power.lithium_resistance_factor(row.item.rsplit(", ", 1)[1]).value)


def level_1(row):
    wanted = "level 1 on a 15 A receptacle" if "receptacle" in row.item else "level 1, most at 120 V"
    row.is_served(charging_signals.supply_level_value(wanted).value)


def level_1_receptacle(row):
    level_1(row)
    row.rounds_to(15 / 1.25)  # a load of 3 h and more


def level_2_power(row):
    row.rounds_to(charging_signals.supply_level_value("level 2, most at 240 V").value * 240 / 1e3)


def pilot_error(row):
    (percent,) = row.parts(r"duty below (\d+) %")
    assert row.value == "error"
    assert isinstance(charging_signals.pilot_current_a(float(percent) / 100 - 0.001), OutsideTable)
    assert charging_signals.supply_level_value("duty below which the pilot is an error").value == float(percent)


def pilot(row):
    (percent,) = row.parts(r"current at (\d+) % duty")
    row.rounds_to(charging_signals.pilot_current_a(float(percent) / 100).value)
    # The end points that a public text prints: 6 A at 10 %, 80 A at 96 %.
    assert round(charging_signals.pilot_current_a(0.10).value, 9) == 6.0
    assert round(charging_signals.pilot_current_a(0.96).value, 9) == 80.0


def proximity(row):
    row.is_served(charging_signals.supply_level_value("proximity resistance, latched").value)


def cable_coding(row):
    (ohm,) = row.parts(r"cable coding resistor (\d+) ohm")
    row.is_served(charging_signals.cable_coding_current_a(float(ohm)).value)


def gallon(row):
    row.is_served(round(charging_signals.GASOLINE_GALLON_J / 3.6e6, 9))


def label_energy(row):
    (mpge,) = row.parts(r"energy at (\d+) MPGe")
    row.rounds_to(charging_signals.label_energy_j_per_m(float(mpge)).value * 1e5 / 3.6e6)


def label_energy_miles(row):
    (mpge,) = row.parts(r"(\d+) MPGe label")
    row.rounds_to(charging_signals.label_energy_j_per_m(float(mpge)).value * 100 * MILE_M / 3.6e6)


def cec_population(row):
    percent, quantile = row.parts(r"inverter efficiency at (\d+) % of rated AC, (P\d+) of .*")
    row.is_served(inverter_part_load.population_efficiency_ratio(float(percent) / 100, quantile).value)


def sandia(row):
    (dc_w,) = row.parts(r"CEC list row \d+ .*: AC power at Pdc = ([\d.]+) W, Vdc = Vdco")
    given = row.given
    # The item prints the DC power to 0.1 W; it was a tenth, quarter, half or the whole of Pdco. Take it exactly.
    exact_w = min((given["Pdco"] * share for share in (0.1, 0.25, 0.5, 1.0)), key=lambda w: abs(w - float(dc_w)))
    assert abs(exact_w - float(dc_w)) <= 0.05
    found = inverter_part_load.sandia_ac_power_w(exact_w, given["Paco"], given["Pdco"], given["Pso"], given["C0"])
    row.rounds_to(found.value)


def pvwatts(row):
    (dc_w,) = row.parts(r"PVWatts inverter AC output, 1000 W-DC unit, eta_nom 0.96, at Pdc = (\d+) W")
    row.rounds_to(inverter_part_load.pvwatts_ac_power_w(float(dc_w), 1000.0).value)
