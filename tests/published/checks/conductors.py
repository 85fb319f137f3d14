"""Published conductor geometry and resistance against formulas, materials and our tables."""

import math

import numpy as np
from ampwright.engine.physics.voltage_drop import conductor_drop_v
from ampwright.engine.standards import conductor_sizes as ours
from ampwright.engine.standards.drop_limits import building_wire_ohm_per_m, effective_impedance_ohm_per_m
from ampwright.engine.standards.loader import CitedValue

INCH_M = 0.0254
KFT_M = 304.8


def gauge(name: str) -> int:
    """AWG number; 1/0 to 4/0 are 0 to -3."""
    return 1 - int(name.removesuffix("/0")) if name.endswith("/0") else int(name)


def awg_formula(row):
    # ASTM B258, as text, at the gauges whose diameters an independent table prints (rows awg_diameter).
    assert row.value == "0.127*92**((36-n)/39)"
    for n, inch in ((-3, 0.46), (12, 0.08081), (18, 0.0403)):
        assert abs(ours.awg_diameter_m(n) / INCH_M - inch) < 0.5e-4
        assert math.isclose(ours.awg_diameter_m(n) * 1e3, 0.127 * 92 ** ((36 - n) / 39), rel_tol=1e-14)


def awg_diameter(row):
    row.rounds_to(ours.awg_diameter_m(gauge(row.parts(r"(\S+) AWG diameter")[0])) / INCH_M)


def awg_area_cmil(row):
    # Printed to four figures: half of the fourth.
    area_cmil = (ours.awg_diameter_m(gauge(row.parts(r"(\S+) AWG area")[0])) / 25.4e-6) ** 2
    fourth = 10.0 ** (math.floor(math.log10(row.number)) - 3)
    assert abs(area_cmil - row.number) <= 0.5 * fourth


def awg_area_mm2(row):
    row.rounds_to(ours.awg_area_m2(gauge(row.parts(r"(\S+) AWG area")[0])) * 1e6)


def _served_75c(row, size, kind):
    found = ours.table_8_resistance_75c(size, kind)
    assert isinstance(found, CitedValue)
    row.is_served(round(found.value * KFT_M, 12))
    assert found.status == row.status


def _from_material(row, size, resistivity, ratio_75c, lay):
    """Table 8 from material and geometry: 1 %, for lay (2 % is common practice) and three printed figures."""
    ohm_per_kft = resistivity * ratio_75c * lay / ours.awg_area_m2(gauge(size)) * KFT_M
    assert abs(ohm_per_kft / row.number - 1.0) < 0.01


def t8_stranded_uncoated(row):
    (size,) = row.parts(r"(\S+) AWG stranded uncoated Cu")
    _served_75c(row, f"{size} AWG", "stranded uncoated copper")
    _from_material(row, size, 1.7241e-8, 1 + 0.00393 * 55, 1.02)  # IEC 60028


def t8_aluminium(row):
    (size,) = row.parts(r"(\S+) AWG stranded Al")
    _served_75c(row, f"{size} AWG", "stranded aluminium")
    _from_material(row, size, 2.8264e-8, 1 + 0.00403 * 55, 1.02)  # IEC 60889


def t8_solid_uncoated(row):
    (size,) = row.parts(r"(\S+) AWG SOLID uncoated Cu")
    _served_75c(row, f"{size} AWG", "solid uncoated copper")
    _from_material(row, size, 1.7241e-8, 1 + 0.00393 * 55, 1.0)


def t8_solid_coated(row):
    (size,) = row.parts(r"(\S+) AWG SOLID coated Cu")
    _served_75c(row, f"{size} AWG", "solid coated copper")
    plain = ours.table_8_resistance_75c(f"{size} AWG", "solid uncoated copper")
    assert 1.02 < row.number / (plain.value * KFT_M) < 1.05  # tin costs 3 to 4 % of the section


def t8_stranded_coated(row):
    (size,) = row.parts(r"(\S+) AWG stranded coated Cu")
    _served_75c(row, f"{size} AWG", "stranded coated copper")
    plain = ours.table_8_resistance_75c(f"{size} AWG", "stranded uncoated copper")
    assert 1.02 < row.number / (plain.value * KFT_M) < 1.07  # thinner strands, more tin


def t8_temperature(row):
    row.rounds_to(0.00393 / (1 + 0.00393 * 55))
    at_100c = ours.copper_resistance_ratio(100.0) / ours.copper_resistance_ratio(75.0)
    # NFPA 70 note 2 against IEC 60028 at 100 C: the printed coefficient has three figures.
    assert abs(at_100c - (1 + row.number * 25)) < 0.5e-5 * 25 + 1e-4


def t9(row):
    size, rest = row.parts(r"(\S+ AWG) (.*)")
    quantity = {"X": "reactance", "A": "ac resistance", "e": "impedance at 0.85 power factor"}[rest[0]]
    found = building_wire_ohm_per_m(size, quantity)
    row.is_served(round(found.value * KFT_M, 12))


def t9_ac_resistance(row):
    t9(row)
    size = row.parts(r"(\S+ AWG) AC resistance uncoated Cu, PVC")[0]
    # Up to 3/0 AWG alternating current changes nothing that two printed figures show: table 8, rounded.
    row.rounds_to(ours.table_8_resistance_75c(size, "stranded uncoated copper").value * KFT_M)


def t9_effective_z(row):
    t9(row)
    size = row.parts(r"(\S+ AWG) effective Z at 0.85 PF, Cu, PVC conduit")[0]
    resistance = building_wire_ohm_per_m(size, "ac resistance").value * KFT_M
    reactance = building_wire_ohm_per_m(size, "reactance").value * KFT_M
    # R has two figures: its rounding, carried through note 2, must meet the rounding of Z.
    half_r = 0.5 * 10.0 ** (math.floor(math.log10(resistance) + 1e-9) - 1)
    z = effective_impedance_ohm_per_m(resistance, reactance, 0.85)
    assert abs(z - row.number) <= row.half_digit + 0.85 * half_r


def t9_formula(row):
    assert row.value == "R*pf+X*sin(acos(pf))"
    for pf in np.linspace(0.3, 1.0, 8):
        expected = 0.31 * pf + 0.048 * math.sin(math.acos(pf))
        assert math.isclose(effective_impedance_ohm_per_m(0.31, 0.048, pf), expected, rel_tol=1e-12)
        assert math.isclose(conductor_drop_v(1.0, pf, 0.31, 0.048), expected, rel_tol=1e-12)


def iec_60228(row):
    size, number, coat = row.parts(r"(\S+ mm2) class (\d) (plain|tinned) Cu")
    found = ours.metric_resistance_20c(size, f"class {number} {coat} copper")
    row.is_served(round(found.value * 1e3, 12))
    # Largest resistance of the nominal section: never below pure copper, and not a fifth above.
    pure = 17.241 / float(size.removesuffix(" mm2"))
    assert 1.0 < row.number / pure < 1.2


def iec_60228_kt(row):
    (measured_c,) = row.parts(r"factor to convert R measured at (\d+) C to 20 C")
    row.rounds_to(1.0 / (1.0 + 0.004 * (float(measured_c) - 20.0)))
    # Ours uses IEC 60028 (0.00393/K): 0.4 % apart at most.
    assert abs(1.0 / ours.copper_resistance_ratio(float(measured_c)) / row.number - 1.0) < 0.005


def copper_alpha(row):
    row.is_served(ours.COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K)
    # Carried to 75 C it must round to what NFPA 70 prints.
    assert round(row.number / (1 + row.number * 55), 5) == 0.00323


def aluminium_resistivity(row):
    row.is_served(round(ours.ALUMINIUM_RESISTIVITY_20C_OHM_M * 1e9, 9))
    assert round(17.241 / row.number, 2) == 0.61  # 61 % IACS, by definition of the standard


def aluminium_alpha(row):
    row.is_served(ours.ALUMINIUM_TEMPERATURE_COEFFICIENT_20C_PER_K)
    assert round(row.number / (1 + row.number * 55), 5) == 0.0033  # NFPA 70 chapter 9 table 8 note 2
