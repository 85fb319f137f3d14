"""Published generator limits, derating, fuels and exhaust figures against our tables and their formulas."""

from ampwright.engine.standards import engine_derating, engine_fuel_line, exhaust_limits, fuel_energy, generator_classes
from ampwright.engine.standards.code_letters import HORSEPOWER_W
from ampwright.engine.standards.loader import citations, table

FIELDS = {
    "steady-state voltage deviation": "steady_voltage_ratio",
    "transient voltage, sudden power increase": "voltage_on_increase_ratio",
    "transient voltage, 100 % sudden decrease": "voltage_on_decrease_ratio",
    "voltage recovery time": "voltage_recovery_s",
    "frequency droop": "droop_ratio",
    "transient frequency, increase": "frequency_on_increase_ratio",
    "transient frequency, 100 % decrease": "frequency_on_decrease_ratio",
    "frequency recovery time": "frequency_recovery_s",
    "steady-state frequency band": "frequency_band_ratio",
    "voltage setting range": "voltage_setting_ratio",
}


def iso_8528(row):
    performance_class, quantity = row.parts(r"(G[123]) (.*)")
    field = FIELDS[quantity]
    served = getattr(generator_classes.class_limits(performance_class), field)
    row.is_served(round(served if field.endswith("_s") else 100 * served, 9))


def iso_8528_g4(row):
    assert row.value == "by agreement"
    assert "G4 is by agreement" in citations()["iso-8528-5_t4"].conditions
    assert all(each.text("performance_class") != "G4" for each in table("iso-8528-5_t4"))


def mobile_set(row):
    wanted = {
        "08-0028": "voltage not below, 0.5 per unit impedance of at most 0.4 power factor applied",
        "08-0030": "back to 95 % within",
        "08-0031": "voltage not below, no load to rated load",
    }[row.id]
    row.is_served(generator_classes.mobile_set_dip(wanted).value)


def load_rejection(row):
    row.is_served(100 * generator_classes.load_rejection_rise_ratio().value)


def start_allowance(row):
    row.is_served(generator_classes.motor_start_allowance_ratio().value)


def starting_load(row):
    row.is_served(100 * generator_classes.largest_starting_load_ratio().value)


def handbook(row):
    wanted = (
        "naturally aspirated, 10 000 ft" if "altitude" in row.item else "intake at 110 F, corrected above 90 F only"
    )
    row.is_served(engine_derating.handbook_factor(wanted).value)
    if "altitude" in row.item:
        # The pressure ratio of ISO 2533 at 3048 m, within 2 %.
        assert abs(engine_derating.pressure_ratio(3048.0) / row.number - 1) < 0.02


def pressure_rule(row):
    assert row.value == "p/p0"
    assert table("energy-handbook_derating").at(quantity="engine without a table").text("value") == row.value
    assert engine_derating.pressure_ratio(0.0) == 1.0


def isa(row):
    (metres,) = row.parts(r"ISA pressure ratio at (\d+) m")
    row.rounds_to(engine_derating.pressure_ratio(float(metres)))


def altitude_rule(row):
    left = engine_derating.altitude_factor_by_rule(1000 * 0.3048)
    row.is_served(round(100 * (1 - left.value), 9))
    assert left.status == row.status


def temperature_rule(row):
    left = engine_derating.temperature_factor_by_rule(25.0 + 10 * 5 / 9)
    row.is_served(round(100 * (1 - left.value), 9))
    assert left.status == row.status


def iso_3046(row):
    assert row.value == "formula"
    assert engine_derating.iso_3046_factor(1.0e5, 298.0).value == 1.0
    # k = 0.8, eta 0.8: 0.8 - 0.7 x 0.2 x 0.25 = 0.765, by hand.
    assert abs(engine_derating.iso_3046_factor(0.8e5, 298.0).value - 0.765) < 1e-12
    # And k alone: 0.9^1 x (298/313)^0.5.
    k = 0.9 * (298 / 313) ** 0.5
    assert abs(engine_derating.iso_3046_factor(0.9e5, 313.0, 1.0).value - k) < 1e-12


FUELS = {
    "gasoline (E0)": "gasoline (E0)",
    "low-sulfur diesel": "low-sulfur diesel",
    "propane": "propane",
    "diesel": "diesel",
    "LPG": "LPG",
}


def fuel(row):
    (name,) = row.parts(r"(.*) lower heating value")
    found = fuel_energy.lower_heating_value_j_per_m3(FUELS[name], row.source)
    row.is_served(round(found.value * 3.785411784e-3 / 1055.05585262, 6))


def fuel_kwh(row):
    (name,) = row.parts(r"(.*) LHV")
    source = "California Energy Commission" if name in ("diesel", "LPG") else "AFDC/GREET"
    row.rounds_to(fuel_energy.lower_heating_value_j_per_m3(FUELS[name], source).value / 3.6e6 / 1e3)


def part_load(row):
    kilowatts, load = row.parts(r"diesel set of (\d+) kW at (1/4|1/2|3/4|full) load")
    ratio = {"1/4": 0.25, "1/2": 0.5, "3/4": 0.75, "full": 1.0}[load]
    row.is_served(engine_fuel_line.charted_diesel_m3_per_s(float(kilowatts) * 1e3, ratio).value * 3.6e6)


def part_load_small(row):
    kilowatts, load = row.parts(r"small diesel set of (\d+) kW at (1/2|3/4|full) load")
    ratio = {"1/2": 0.5, "3/4": 0.75, "full": 1.0}[load]
    per_s = engine_fuel_line.charted_small_diesel_m3_per_s(float(kilowatts) * 1e3, ratio).value
    row.is_served(per_s * 3600.0 / fuel_energy.CUBIC_METRE_PER_GALLON)


def specific_fuel(row):
    fuel, from_hp, technology = row.parts(r"(\w+) engine of (\d+) to \w+ hp, (.*)")
    per_j = engine_fuel_line.specific_fuel_kg_per_j(fuel, int(from_hp), technology).value
    row.is_served(per_j / 0.45359237 * HORSEPOWER_W * 3600.0)


def field_fuel(row):
    kva, load, how = row.parts(r"diesel set of (\d+) kVA at ([\d.]+) of its rating, (\w+)")
    row.is_served(engine_fuel_line.field_fuel_m3_per_j(int(kva), load, how).value * 1e3 * 3.6e6)


def private_fuel(row):
    fuel, kilowatts, load_w = row.parts(r"(\w+) set of ([\d.]+) kW at (\d+) W")
    per_s = engine_fuel_line.privately_measured_m3_per_s(fuel, kilowatts, int(load_w)).value
    row.is_served(per_s * 3600.0 / fuel_energy.CUBIC_METRE_PER_GALLON)


def carbon(row):
    listed, what = row.parts(r"(.*): default (high heat value|CO2 emission factor)")
    column = "heat_mmbtu_per_gal" if what == "high heat value" else "co2_kg_per_mmbtu"
    row.is_served(table("40-cfr-98_c-1").at(listed_as=listed).number(column))


def willans_constant(row):
    # Two orders of digits are remembered from papers that cite it: no figure, so none is kept.
    assert " or " in row.value
    assert all("constant" not in each.text("quantity") for each in table("skarstein-uhlen_1989"))


def willans_slope(row):
    found = fuel_energy.diesel_slope_m3_per_j()
    row.is_served(round(found.value * 1e3 * 3.6e6, 9))
    assert found.status == "memory"
    # No engine beats its fuel: against diesel's heating value it is a plausible 41 % at the margin.
    heat = fuel_energy.lower_heating_value_j_per_m3("low-sulfur diesel").value
    assert 0.3 < 1.0 / (found.value * heat) < 0.5


def carbon_monoxide(row):
    wanted = {"OSHA": "8 h time-weighted average", "NIOSH": "ceiling", "IDLH": "immediately dangerous"}
    found = {each.quantity: each for each in exhaust_limits.carbon_monoxide_limits()}
    row.is_served(round(1e6 * found[wanted[row.item.split(" ")[0]]].volume_ratio, 6))


def exhaust_distance(row):
    row.is_served(round(exhaust_limits.least_distance_m().value / 0.3048, 9))


def exhaust_emission(row):
    low, high, _ = exhaust_limits.small_engine_emission_kg_per_j()
    printed = [float(part) for part in row.value.split("-")]
    assert [round(each * 3.6e9, 6) for each in (low, high)] == printed


def horsepower(row):
    row.rounds_to(HORSEPOWER_W)
    # 550 foot-pounds a second, by definition of foot and pound-force.
    row.rounds_to(550 * 0.3048 * 4.4482216152605)
