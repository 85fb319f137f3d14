"""Published cord ratings, corrections and guidance against our tables and the laws they follow."""

import math

from ampwright.engine.physics.cord_heating import allowed_current_a
from ampwright.engine.physics.voltage_drop import copper_resistance_ohm_per_m, three_phase_drop_v, two_wire_drop_v
from ampwright.engine.standards import cord_ratings as ours
from ampwright.engine.standards.conductor_sizes import conductor_size, metric_resistance_20c
from ampwright.engine.standards.cord_guidance import charger_extension, tool_extension
from ampwright.engine.standards.loader import CitedValue, table

FOOT_M = 0.3048
EVEN_GAUGES = ("18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG")


def _served(row, found):
    assert isinstance(found, CitedValue), found
    row.is_served(found.value)
    assert found.status == row.status


def ampacity(row):
    size, loaded = row.parts(r"(\d+ AWG) (?:(three|two) current-carrying conductors.*|col\. B)")
    _served(row, ours.ampacity_a(size, 3 if loaded == "three" else 2))


def more_conductors(row):
    least, most = row.parts(r"(\d+)(?:-(\d+)|\+) current-carrying conductors")
    for count in (int(least), int(most or 99)):
        _served(row, ours.conductor_count_factor(count))


def ambient(row):
    rated, to_c = (float(part) for part in row.parts(r"(\d+) C-rated, ambient band up to (\d+) C"))
    # The table is the square root of the temperature left over that at 30 C.
    row.rounds_to(math.sqrt((rated - to_c) / (rated - 30.0)))
    row.rounds_to(allowed_current_a(rated, to_c, 1.0, 30.0, rated, 1.0))
    _served(row, ours.ambient_factor(to_c, rated))


def unmarked(row):
    row.is_served(ours.UNMARKED_INSULATION_C)


def spliced(row):
    row.is_served(table("29-cfr-1926-405-g").rows[0].number("value"))


def shipboard(row):
    row.is_served(table("46-cfr-111-60-13").rows[0].number("value"))


def ul_1236(row):
    low, high, feet = row.parts(r"AC input (\d+) to <(\d+) A, (\d+) ft")
    for amperes in (float(low), float(high) - 0.01):
        found = charger_extension(amperes, float(feet) * FOOT_M)
        assert found.size == f"{row.value} AWG"
        assert found.status == row.status


def ul_1236_above_ampacity(row):
    """The rule names a conductor that table 400.5(A)(1) does not allow the top of its band on; we say so."""
    ul_1236(row)
    _, high, feet = row.parts(r"AC input (\d+) to <(\d+) A, (\d+) ft")
    assert not charger_extension(float(high) - 0.01, float(feet) * FOOT_M).carries
    assert ours.ampacity_a(f"{row.value} AWG", 2).value < float(high) - 0.01


def five_volt(row):
    """The rule itself: 5 V at 150 % of the band's top, copper at 25 C, two wires, printed to a tenth of a volt."""
    low, high, feet = row.parts(r"nameplate ([\d.]+)-([\d.]+) A, (\d+) ft, 120/240 V")
    found = tool_extension(float(high), float(feet) * FOOT_M)
    assert found.size == f"{row.value} AWG"
    assert tool_extension(float(low), float(feet) * FOOT_M).size == found.size
    assert _drop_25c(found.size, float(high), float(feet)) <= 5.0 + 0.05


def five_volt_smallest(row):
    five_volt(row)
    _, high, feet = row.parts(r"nameplate ([\d.]+)-([\d.]+) A, (\d+) ft, 120/240 V")
    thinner = EVEN_GAUGES[EVEN_GAUGES.index(f"{row.value} AWG") - 1]
    # One gauge less loses more than 5 V.
    assert _drop_25c(thinner, float(high), float(feet)) > 5.0


def five_volt_by_current(row):
    five_volt(row)
    # Here the rule would allow one gauge less; the current does not: above what the thinner cord may carry.
    _, high, _ = row.parts(r"nameplate ([\d.]+)-([\d.]+) A, (\d+) ft, 120/240 V")
    thinner = EVEN_GAUGES[EVEN_GAUGES.index(f"{row.value} AWG") - 1]
    assert ours.ampacity_a(thinner, 2).value < float(high)


def _drop_25c(size, nameplate_a, feet):
    ohm_per_m = copper_resistance_ohm_per_m(conductor_size(size).resistance_20c_ohm_per_m, 20.0, 25.0)
    return two_wire_drop_v(1.5 * nameplate_a, 1.0, ohm_per_m * feet * FOOT_M, 0.0)


def bs_4f3a(row):
    size, phases = row.parts(r"(\S+ mm2) flexible cable, (single|three)-phase.*")
    _served(row, ours.ampacity_a(size, 3 if phases == "three" else 2))


def bs_4f3b(row):
    size, phases = row.parts(r"(\S+ mm2) voltage drop, (single|three)-phase.*")
    _served(row, _times_1000(ours.drop_ohm_per_m_60c(size, 3 if phases == "three" else 1)))
    # Class 5 tinned copper (IEC 60228 table 3) at 60 C; two figures are printed, more than 100 ohm/km to one unit.
    cold = metric_resistance_20c(size, "class 5 tinned copper").value
    ohm_per_m = copper_resistance_ohm_per_m(cold, 20.0, 60.0)
    drop = three_phase_drop_v if phases == "three" else two_wire_drop_v
    row.rounds_to(1e3 * drop(1.0, 1.0, ohm_per_m, 0.0))


def _times_1000(found):
    return CitedValue(round(found.value * 1e3, 9), found.citation, found.status)


def bs_4f3b_factor(row):
    (rated,) = row.parts(r"(\d+) C .*")
    found = table("bs-7671_2018_t4f3b-factor").at(insulation_c=rated)
    row.is_served(found.number("factor"))
    # The standard's own (230 + t)/(230 + 60) within 1.5 %: it prints 1.09 where that gives 1.10.
    assert abs(row.number / ((230 + float(rated)) / 290) - 1) < 0.015


def bs_4f3b_factor_computed(row):
    bs_4f3b_factor(row)
    (rated,) = row.parts(r"(\d+) C .*")
    row.rounds_to((230 + float(rated)) / (230 + 60))


def bs_ambient_60(row):
    rated, ambient_c = row.parts(r"(\d+) C cord, ambient (\d+) C")
    _served(row, ours.ambient_factor(float(ambient_c), float(rated), "bs-7671"))
    row.rounds_to(math.sqrt((60.0 - float(ambient_c)) / 30.0))


def bs_ambient_90(row):
    rated, ambient_c = row.parts(r"(\d+) C cord, ambient (\d+) C")
    found = ours.ambient_factor(float(ambient_c), float(rated), "bs-7671")
    row.is_served(found.value)


def bs_4f2b_computed(row):
    bs_4f2b(row)
    (size,) = row.parts(r"(\S+ mm2) two-core 90 C flexible, single-phase")
    row.rounds_to(2e3 * metric_resistance_20c(size, "class 5 tinned copper").value * (1 + 0.00393 * 70))


def bs_4f2b(row):
    size, amount = row.parts(r"(\S+ mm2) two-core (90) C flexible, single-phase")
    row.is_served(table("bs-7671_2018_t4f2b").at(conductor=size).number("drop_mv_per_a_m"))
    cold = metric_resistance_20c(size, "class 5 tinned copper").value
    # 3 %: the standard's temperature formula and rounding of the 60 C table it was made from.
    assert abs(2e3 * cold * (1 + 0.00393 * (float(amount) - 20)) / row.number - 1) < 0.03


def bs_1363_flex(row):
    (fuse_a,) = row.parts(r"(\d+) A plug fuse: minimum flex")
    row.is_served(round(ours.smallest_cord_by_fuse(float(fuse_a)).value * 1e6, 9))


def wound(row):
    where, layers = row.parts(r"cable wound on (drum|reel), (\d) layer\(s\)")
    _served(row, ours.wound_factor(int(layers), "din-vde" if where == "drum" else "icea"))
