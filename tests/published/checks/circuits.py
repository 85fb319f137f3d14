"""Published circuit, motor and welder rules against our tables and their arithmetic."""

import math

from ampwright.engine.standards import breaker_points, code_letters, motor_currents, receptacle_circuits, welder_supply
from ampwright.engine.standards.ground_fault_rules import ground_fault_demands
from ampwright.engine.standards.plugs import configuration
from ampwright.engine.standards.rule_layers import clause

HP_W = 745.699871582


def continuous_factor(row):
    row.is_served(receptacle_circuits.CONTINUOUS_FACTOR)
    assert receptacle_circuits.least_device_a(10.0, 3.0).value == 15.5


def continuous_load(row):
    (breaker,) = row.parts(r"max continuous load on (\d+) A standard breaker")
    row.rounds_to(receptacle_circuits.largest_continuous_load_a(float(breaker)).value)
    # The same figure as the marking of a breaker, which is stated apart: 80 % of rating.
    row.rounds_to(float(breaker) * breaker_points.continuous_limit_ratio().value)


def receptacle_load(row):
    circuit, receptacle = row.parts(r"(\d+) A circuit, (\d+) A receptacle: .*")
    row.is_served(receptacle_circuits.largest_load_on_receptacle_a(float(circuit), float(receptacle)).value)
    assert math.isclose(row.number, 0.8 * float(receptacle))


def receptacle_rating(row):
    (circuit,) = row.parts(r"receptacle rating permitted on (\d+) A multi-outlet circuit")
    permitted = [found.value for found in receptacle_circuits.permitted_receptacles_a(float(circuit))]
    assert permitted == [float(part) for part in row.value.split(" or ")]


def branch_conductor(row):
    (circuit,) = row.parts(r"(\d+) A branch circuit minimum Cu size")
    assert receptacle_circuits.smallest_copper(float(circuit))[0] == f"{row.value} AWG"


def one_appliance(row):
    for edition in ("nec-2017", "nec-2020"):
        found = clause("one_appliance_share", edition)
        assert found.place == "210.23(A)(1)"
        assert f"{row.number:.0%}".replace("%", " %") in found.asks
    # The edition of 2023 put a 10 A circuit before it.
    assert clause("one_appliance_share", "nec-2023").place == "210.23(B)(1)"


def fixed_appliance(row):
    found = clause("fixed_appliance_share", "nec-2020")
    assert found.place == "210.23(A)(2)"
    assert row.number == 0.5
    assert "half" in found.asks


def _motor(row, pattern):
    hp, volts = row.parts(pattern)
    return motor_currents.horsepower_from_text(hp) * HP_W, float(volts)


def full_load_115(row):
    found = motor_currents.full_load_current_a(*_motor(row, r"(\S+) hp, (\d+) V single-phase"))
    row.is_served(found.value)
    assert found.status == row.status


def full_load_other(row):
    """200, 208 and 230 V follow from the 115 V column: half at 230, 1.10 and 1.15 times that at 208 and 200 V."""
    full_load_115(row)
    watts, volts = _motor(row, r"(\S+) hp, (\d+) V single-phase")
    at_230 = motor_currents.full_load_current_a(watts, 115.0).value / 2.0
    # Half of the last of the two or three figures the table keeps; 19.55 is printed 19.6.
    step = 0.1 if row.number < 20 or "." in row.value else 1.0
    assert abs(at_230 * {200.0: 1.15, 208.0: 1.10, 230.0: 1.0}[volts] - row.number) <= step / 2 + 1e-9


def locked_rotor(row):
    watts, volts = _motor(row, r"(\S+) hp, (\d+) V locked-rotor current")
    row.is_served(motor_currents.locked_rotor_ceiling_a(watts, volts).value)
    # Six times the table current of 430.248: a design ceiling.
    row.rounds_to(6.0 * motor_currents.full_load_current_a(watts, volts).value)


def code_letter(row):
    (letter,) = row.parts(r"code ([A-V]) locked-rotor.*")
    found = code_letters.code_letter(letter)
    low, _, high = row.value.partition("..")
    assert found.low_kva_per_hp == float(low.removesuffix("+"))
    assert found.high_kva_per_hp == (float(high) if high else None)
    assert found.status == row.status
    letters = code_letters.code_letters()
    if letter != "A":
        # Ranges join: each begins a hundredth above the end of the one before.
        before = code_letters.code_letter(letters[letters.index(letter) - 1])
        assert math.isclose(found.low_kva_per_hp, before.high_kva_per_hp + 0.01)


def code_letter_current(row):
    hp, volts, letter = row.parts(r"single-phase ([\d.]+) hp (\d+) V code ([A-V]): locked-rotor current range")
    low, high = code_letters.locked_rotor_current_a(letter, float(hp) * HP_W, float(volts))
    published_low, published_high = (float(part) for part in row.value.split(".."))
    assert abs(low - published_low) <= 0.05
    assert abs(high - published_high) <= 0.05


def motor_device(row):
    (device,) = row.parts(r"single-phase motor, (.*)")
    row.is_served(100 * motor_currents.largest_device_ratio(device).value)


def motor_conductor(row):
    row.is_served(100 * motor_currents.conductor_ratio().value)


def motor_group(row):
    row.is_served(motor_currents.shared_circuit_motor_limit_a().value)


def motor_overload(row):
    row.is_served(round(100 * motor_currents.overload_trip_ratio("1.15" in row.item).value, 9))


def _duty(row):
    (percent,) = row.parts(r"arc welder (?:non-)?motor-generator, (\d+) % duty(?: or less)?")
    return float(percent) / 100.0


def welder_duty(row):
    row.is_served(welder_supply.duty_factor(False, _duty(row)).value)
    # Heat goes with the square of the current: the root of the duty.
    row.rounds_to(math.sqrt(_duty(row)))
    assert math.isclose(welder_supply.effective_supply_current_a(1.0, 0.0, _duty(row)), math.sqrt(_duty(row)))


def welder_duty_motor_generator(row):
    row.is_served(welder_supply.duty_factor(True, _duty(row)).value)
    # It idles on: never less than the welder without one.
    assert row.number >= math.sqrt(_duty(row)) - 0.005


def welder_group(row):
    (rank,) = row.parts(r"welder rank (\d) in group")
    row.is_served(100 * welder_supply.group_ratio(int(rank)).value)


def welder_device(row):
    row.is_served(100 * welder_supply.largest_device_ratio().value)


def welder_effective(row):
    # The root mean square of a ten-minute cycle, added up second by second.
    for duty in (0.25, 0.6, 1.0):
        seconds = [28.0 if second < 600 * duty else 4.0 for second in range(600)]
        rms = math.sqrt(sum(each**2 for each in seconds) / 600)
        assert math.isclose(welder_supply.effective_supply_current_a(28.0, 4.0, duty), rms, rel_tol=1e-12)
    assert row.value == "formula"


PROCESS = {"MMA (stick)": "stick", "TIG": "tig", "MIG/MAG": "wire"}


def welder_voltage(row):
    process, amperes = row.parts(r"(.+) conventional load voltage at (\d+) A")
    row.rounds_to(welder_supply.conventional_load_voltage_v(PROCESS[process], float(amperes)).value)
    # The line itself, IEC 60974-1.
    constant, slope = {"MMA (stick)": (20, 0.04), "TIG": (10, 0.04), "MIG/MAG": (14, 0.05)}[process]
    row.rounds_to(constant + slope * float(amperes))


def welder_voltage_rule(row):
    (process,) = row.parts(r"(MMA \(stick\)|MIG/MAG): U2 = .*")
    constant, slope = (float(part) for part in row.value.removesuffix("*I").split("+"))
    for amperes in (0.0, 100.0, 250.0):
        served = welder_supply.conventional_load_voltage_v(PROCESS[process], amperes).value
        assert math.isclose(served, constant + slope * amperes)


def welder_voltage_cap(row):
    for process in ("tig",) if row.item.startswith("TIG") else ("stick", "wire"):
        at_600, at_900 = (welder_supply.conventional_load_voltage_v(process, each).value for each in (600.0, 900.0))
        row.rounds_to(at_600)
        assert at_900 == at_600  # from 600 A on the cap, which the line meets there


def welder_efficiency(row):
    if row.item.startswith("maximum idle"):
        row.is_served(welder_supply.largest_idle_power_w().value)
        return
    output = "ac" if "AC output" in row.item else "dc"
    row.is_served(round(100 * welder_supply.least_efficiency_ratio(output, 3).value, 9))


def welder_input(row):
    amperes, efficiency, volts = row.parts(r"MMA (\d+) A at efficiency ([\d.]+), PF 1, (\d+) V: supply current")
    row.rounds_to(welder_supply.supply_current_a("stick", float(amperes), float(volts), float(efficiency), 1.0).value)


def _demanded(key, outlet, **about):
    return ground_fault_demands(key, configuration(outlet), "site_supply", **about)


def gfci_nec(row):
    for amperes in row.value.split(","):
        outlet = "TT-30R" if amperes == "30" else f"5-{amperes}R"
        for edition in ("nec-2017", "nec-2020", "nec-2023"):
            found = _demanded(edition, outlet)
            assert [(each.device, each.clause.place) for each in found] == [("gfci_class_a", "590.6(A)(1)")]
    # No more than that: 50 A falls under the clause for all others.
    assert _demanded("nec-2023", "14-50R")[0].clause.place == "590.6(B)"


def gfci_osha(row):
    rated = {int(part) for part in row.value.split(",")}
    for outlet, amperes in (("5-15R", 15), ("5-20R", 20), ("TT-30R", 30), ("6-20R", 0)):
        assert bool(_demanded("osha-1926", outlet)) == (amperes in rated)


def gfci_exemption(row):
    def exempt(kilowatts, bond, outlet="5-20R", key="osha-1926"):
        found = ground_fault_demands(key, configuration(outlet), "engine_generator", kilowatts * 1e3, bond)
        return found[0].exempted_by is not None

    assert exempt(row.number, "floating")
    assert not exempt(row.number + 0.001, "floating")
    assert not exempt(row.number, "bonded")
    assert not exempt(row.number, "unknown")
    assert not exempt(row.number, "floating", key="nec-2023")  # the NEC dropped it in 2002


def wet_lamps(row):
    found = clause("wet_location_lamps", "osha-1926")
    assert found.place == "405(a)(2)(ii)(G)"
    assert f"{row.value} V" in found.asks


def set_earthing(row):
    assert row.value == "2 conditions"
    assert clause("set_earthing", "nec-2023").place == "250.34(A)"
    assert clause("set_earthing", "osha-1926").place == "404(f)(3)(i)"


def vehicle_earthing(row):
    assert row.value == "extra condition"
    for key, place in (("nec-2023", "250.34(B)"), ("osha-1926", "404(f)(3)(ii)")):
        found = clause("vehicle_mounted_earthing", key)
        assert found.place == place
        assert found.status == row.status == "memory"
        assert "bonded" in found.asks


def vehicle_export(row):
    for edition in ("nec-2020", "nec-2023"):
        found = clause("vehicle_export", edition)
        assert f"{row.value} A" in found.asks
        assert found.status == row.status
    assert clause("vehicle_export", "nec-2017") is None


def standard_ratings(row):
    listed = [float(part) for part in row.value.split(",")]
    assert [rating for rating in breaker_points.standard_ratings_a() if 15 <= rating <= 60] == listed
    assert breaker_points.standard_ratings_a()[0] == 10.0  # since 2023
