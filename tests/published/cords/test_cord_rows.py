"""Do cord heating and voltage drop give the figures that standards and the trade have published?

Every row of the reference values on flexible cords and voltage drop has a disposition in `dispositions.csv`: computed
(here, against the model, with the row's own conditions), looked up (a rule, nothing to compute) or refuted.
"""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from ampwright.engine.physics.cord_heating import allowed_current_a, steady_copper_temperature_c
from ampwright.engine.physics.voltage_drop import (
    conductor_drop_v,
    copper_resistance_ohm_per_m,
    split_phase_voltages_v,
    three_phase_drop_v,
    two_wire_drop_v,
)

HERE = Path(__file__).parent
FT = 0.3048

# NFPA 70 ch. 9 table 8, stranded uncoated copper, 75 C, ohm/kft. 18, 14, 12, 8, 6 AWG: rows 01-0068, 01-0074, 01-0077,
# 01-0083, 01-0086, verified; 16 and 10: as used by rows 03-0019 and 03-0024.
T8_OHM_PER_KFT = {18: 7.95, 16: 4.99, 14: 3.14, 12: 1.98, 10: 1.24, 8: 0.778, 6: 0.491}
# NFPA 70 (2023) table 400.5(A)(1) column B [A]: rows 02-0002, 02-0006, 02-0008, 02-0012, 02-0014, verified; 16 and 10
# AWG from memory.
COLUMN_B_A = {18: 10.0, 16: 13.0, 14: 18.0, 12: 25.0, 10: 30.0, 8: 40.0, 6: 55.0}
SIZES = sorted(T8_OHM_PER_KFT, reverse=True)


def rows(name):
    with (HERE / name).open(newline="") as lines:
        return list(csv.DictReader(lines))


def awg_drop_v(awg, current_a, length_ft, copper_c=75.0):
    ohm_per_m = copper_resistance_ohm_per_m(T8_OHM_PER_KFT[awg] * 1e-3 / FT, 75.0, copper_c)
    return two_wire_drop_v(current_a, 1.0, ohm_per_m * length_ft * FT, 0.0)


@pytest.mark.parametrize("row", rows("ambient_factors.csv"), ids=lambda row: row["row"])
def test_ambient_factor(row):
    # The table's own calibration: rated copper temperature at 30 C. Half of its last digit.
    rated_c = float(row["rated_copper_c"])
    allowed = allowed_current_a(rated_c, float(row["ambient_c"]), 1.0, 30.0, rated_c, 1.0)
    assert allowed == pytest.approx(float(row["factor"]), abs=0.005)


@pytest.mark.parametrize(
    ("row", "ambient_c", "factor"),
    [("02-0185", 50, 1.0), ("02-0186", 55, 0.96), ("02-0188", 65, 0.67), ("02-0189", 70, 0.47)],
)
def test_factor_of_a_90_c_cord_keeps_it_below_90_c(row, ambient_c, factor):
    # BS 7671 table 4F3A, 90 C cord at the 60 C currents, verified. Looked up: the table holds about 75 C, not 90. What
    # can be computed is that its copper, calibrated at 60 C, stays below the mark, and that it is near that at all.
    copper_c = steady_copper_temperature_c(factor, ambient_c, 1.0, 30.0, 60.0, 90.0, 1.0)
    assert 75.0 < copper_c < 90.0


@pytest.mark.parametrize("row", rows("five_volt_table.csv"), ids=lambda row: row["row"])
def test_five_volt_table_holds_at_25_c_and_its_size_is_the_smallest(row):
    # Rule of the table: at most 5 V at 150 % of the rated current, here of the band's top; 0.05 V is half of the rule's
    # last digit. It decides once: 12 AWG at 20 A and 50 ft costs 4.98 V and the table asks for 10 AWG.
    awg, amperes, length_ft = int(row["awg"]), float(row["to_a"]), float(row["length_ft"])
    assert awg_drop_v(awg, 1.5 * amperes, length_ft, 25.0) <= 5.05
    if awg != SIZES[0]:
        smaller = SIZES[SIZES.index(awg) - 1]
        assert awg_drop_v(smaller, 1.5 * amperes, length_ft, 25.0) > 4.95 or COLUMN_B_A[smaller] < amperes


def test_five_volt_table_fails_at_75_c_where_it_is_said_to():
    # Row 02-0123's own note: 18 AWG, 50 ft, 5.0 A gives 5.0 V at 25 C and 6.0 V at 75 C.
    assert awg_drop_v(18, 7.5, 50.0, 25.0) == pytest.approx(5.00, abs=0.005)
    assert awg_drop_v(18, 7.5, 50.0, 75.0) == pytest.approx(5.96, abs=0.005)
    # The rows whose notes print more than 5.0 V at 75 C.
    fails = {
        row["row"]
        for row in rows("five_volt_table.csv")
        if awg_drop_v(int(row["awg"]), 1.5 * float(row["to_a"]), float(row["length_ft"]), 75.0) > 5.05
    }
    assert fails == {"02-0120", "02-0123", "02-0124", "02-0133", "02-0134"}


@pytest.mark.parametrize("row", rows("charger_extension_table.csv"), ids=lambda row: row["row"])
def test_charger_extension_table_is_sane_beside_ohm(row):
    # UL 1236, a rule: looked up. Beside it: it never costs more than 5 V at 75 C below the top of its band.
    assert awg_drop_v(int(row["awg"]), float(row["below_a"]), float(row["length_ft"])) <= 5.0


def test_charger_extension_table_overloads_three_cords_by_the_cord_table():
    # Refuted as a choice of cord: these rows allow more current than NFPA 70 table 400.5(A)(1) column B does.
    over = {
        row["row"]
        for row in rows("charger_extension_table.csv")
        if float(row["from_a"]) >= COLUMN_B_A[int(row["awg"])] or float(row["below_a"]) > COLUMN_B_A[int(row["awg"])]
    }
    assert over == {row["row"] for row in rows("dispositions.csv") if row["disposition"] == "refuted"}


@pytest.mark.parametrize("row", rows("drop_per_ampere_metre.csv"), ids=lambda row: row["row"])
def test_millivolts_per_ampere_and_metre(row):
    per_m = copper_resistance_ohm_per_m(float(row["resistance_20_c_ohm_per_km"]) * 1e-3, 20.0, float(row["copper_c"]))
    drop_v = {"1": two_wire_drop_v, "3": three_phase_drop_v}[row["phases"]](1.0, 1.0, per_m, 0.0)
    published_mv = float(row["published_mv"])
    # Table 4F2B prints 1.7 and 2.6 % more than tinned class 5 copper at 90 C in two rows, and not in the third; it does
    # not say why (two per cent is what laying up two cores costs). Three per cent for those two.
    slack_mv = 0.03 * published_mv if row["row"] in ("02-0190", "02-0192") else float(row["half_digit_mv"])
    assert 1e3 * drop_v == pytest.approx(published_mv, abs=slack_mv)


@pytest.mark.parametrize(
    ("row", "copper_c", "factor", "slack"),
    # BS 7671 table 4F3B note, verified: multipliers for warmer cords. 185 C to its half digit. 90 C prints 1.09 where
    # copper gives 1.102: 1.1 % low, as if at 86 C; copies differ in what temperature they give the classes.
    [("02-0179", 185.0, 1.43, 0.0056), ("02-0177", 90.0, 1.09, 0.013)],
)
def test_multiplier_of_a_warmer_cord(row, copper_c, factor, slack):
    ratio = copper_resistance_ohm_per_m(1.0, 60.0, copper_c)
    assert ratio == pytest.approx(factor, abs=slack)


@pytest.mark.parametrize(
    ("row", "awg", "current_a", "length_ft", "drop_v"),
    [
        ("03-0019", 16, 10.0, 50.0, 4.99),
        ("03-0021", 14, 15.0, 100.0, 9.42),
        ("03-0022", 12, 16.0, 100.0, 6.336),
        ("03-0024", 10, 20.0, 150.0, 7.44),
        ("03-0025", 10, 24.0, 100.0, 5.952),
        ("11-0001", 16, 4.0, 100.0, 4.0),  # training text on table 8: printed 4.0
    ],
)
def test_two_wire_drop_at_75_c(row, awg, current_a, length_ft, drop_v):
    # Arithmetic on NFPA 70 ch. 9 table 8, 75 C, power factor 1; half of the last printed digit.
    half_digit = 0.05 if row.startswith("11") else 0.0005
    assert awg_drop_v(awg, current_a, length_ft) == pytest.approx(drop_v, abs=half_digit)


@pytest.mark.parametrize(
    ("row", "cmil", "drop_v", "percent"), [("11-0003", 6530.0, 7.9, 6.6), ("11-0004", 16510.0, 3.1, 2.6)]
)
def test_k_method(row, cmil, drop_v, percent):
    # Examination texts, verified: K = 12.9 ohm cmil/ft, 20 A, 100 ft, 120 V; half of the last printed digit.
    ours_v = two_wire_drop_v(20.0, 1.0, 12.9 * 100.0 / cmil, 0.0)
    assert ours_v == pytest.approx(drop_v, abs=0.05)
    assert 100.0 * ours_v / 120.0 == pytest.approx(percent, abs=0.05)


def test_k_is_table_8_times_area():
    # Row 03-0015, formula: 1.98 ohm/kft x 6530 cmil (ASTM B258, row 01-0048) = 12.93; texts use 12.9.
    ohm_per_ft = copper_resistance_ohm_per_m(1.98e-3 / FT, 75.0, 75.0) * FT
    assert ohm_per_ft * 6530.0 == pytest.approx(12.93, abs=0.005)


def test_metric_flexible_lead():
    # Row 03-0027: 1.5 mm2, 13 A, 50 m by 32 mV/A/m is 20.8 V. From IEC 60228 tinned class 5 (13.7 ohm/km, row 01-0174)
    # at 60 C; 32 is printed to a whole millivolt, so 0.5 x 13 x 50.
    ohm = copper_resistance_ohm_per_m(13.7e-3, 20.0, 60.0) * 50.0
    assert two_wire_drop_v(13.0, 1.0, ohm, 0.0) == pytest.approx(20.8, abs=0.325)


@pytest.mark.parametrize(
    ("row", "awg", "length_ft", "leg_a_a", "leg_b_a", "seen_by_a_v", "seen_by_b_v"),
    [
        ("03-0029", 12, 100.0, 10.0, 10.0, 1.98, 1.98),
        ("03-0031", 10, 150.0, 15.0, 5.0, 4.65, -0.93),
        ("03-0032", 12, 80.0, 16.0, 0.0, 5.069, -2.534),
    ],
)
def test_three_wire_drop(row, awg, length_ft, leg_a_a, leg_b_a, seen_by_a_v, seen_by_b_v):
    # Kirchhoff on table 8, 75 C, resistive; half of the last printed digit.
    ohm = complex(T8_OHM_PER_KFT[awg] * 1e-3 * length_ft, 0.0)
    out = np.empty(4)
    split_phase_voltages_v(120.0, math.pi, leg_a_a, 1.0, leg_b_a, 1.0, ohm, ohm, ohm, out)
    assert 120.0 - out[0] == pytest.approx(seen_by_a_v, abs=0.0006)
    assert 120.0 - out[1] == pytest.approx(seen_by_b_v, abs=0.0006)
    assert out[2] == pytest.approx(abs(leg_a_a - leg_b_a), abs=1e-9)
    assert out[3] == 1.0


@pytest.mark.parametrize(
    ("row", "resistance", "reactance", "effective"),
    # NFPA 70 ch. 9 table 9, PVC conduit, ohm/kft to neutral at 0.85 power factor, verified, printed to two figures.
    # Resistance: table 8 to 1/0, where it is the finer print of the same figure; table 9's own beyond (skin effect).
    [
        ("01-0129", 3.14, 0.058, 2.7),
        ("01-0138", 0.778, 0.052, 0.69),
        ("01-0147", 0.245, 0.047, 0.23),
        ("01-0156", 0.122, 0.044, 0.13),
        ("01-0162", 0.077, 0.042, 0.088),
        ("01-0165", 0.062, 0.041, 0.074),
    ],
)
def test_effective_impedance(row, resistance, reactance, effective):
    half_digit = 0.5 * 10.0 ** (math.floor(math.log10(effective)) - 1)
    # The inputs are two-figure prints themselves: half of the reactance's last digit comes on top.
    slack = half_digit + 0.0005 * math.sin(math.acos(0.85))
    assert conductor_drop_v(1.0, 0.85, resistance, reactance) == pytest.approx(effective, abs=slack)


def test_every_row_has_one_disposition_and_every_computed_row_is_computed_here():
    text = Path(__file__).read_text("utf-8") + "".join((HERE / name).read_text("utf-8") for name in CASE_FILES)
    seen = set()
    for row in rows("dispositions.csv"):
        assert row["row"] not in seen
        seen.add(row["row"])
        assert row["disposition"] in ("computed", "looked up", "refuted")
        assert row["reason"]
        if row["disposition"] == "computed":
            assert row["row"] in text, row["row"]


CASE_FILES = ("ambient_factors.csv", "five_volt_table.csv", "charger_extension_table.csv", "drop_per_ampere_metre.csv")
