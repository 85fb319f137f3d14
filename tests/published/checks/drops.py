"""Published voltage drops and the rules about them, against the physics and our tables."""

import math

import numpy as np
from ampwright.engine.physics.voltage_drop import (
    conductor_drop_v,
    copper_resistance_ohm_per_m,
    split_phase_voltages_v,
    two_wire_drop_v,
)
from ampwright.engine.standards import drop_limits as ours
from ampwright.engine.standards.conductor_sizes import conductor_size, table_8_resistance_75c
from ampwright.engine.standards.cord_ratings import drop_ohm_per_m_60c
from ampwright.engine.standards.loader import table

FOOT_M = 0.3048
KFT_M = 304.8


def warm_75c(size):
    """[ohm/m] at 75 C, by way of the 20 C figure the engine works with."""
    return copper_resistance_ohm_per_m(conductor_size(size).resistance_20c_ohm_per_m, 20.0, 75.0)


def nec(row):
    row.is_served(round(100 * ours.nec_recommended_ratio("branch circuit").value, 9))


def iec_limit(row):
    supply, use = row.parts(r"(public|private) (?:LV )?supply, (lighting|other uses)")
    row.is_served(round(100 * ours.iec_largest_ratio(supply, use).value, 9))


def iec_cap(row):
    base = ours.iec_largest_ratio("public", "lighting").value
    row.is_served(round(100 * (ours.iec_largest_ratio("public", "lighting", 1000.0).value - base), 9))


def iec_resistivity(row):
    row.is_served(table("iec-60364-5-52_annex-g").at(quantity="resistivity of copper in service").number("value"))
    # 1.25 times copper at 20 C, within 1 %: the standard starts from a rounded resistivity.
    assert abs(row.number / (1.25 * 0.01786) - 1) < 0.01


def power_factor(row):
    row.is_served(ours.DEFAULT_POWER_FACTOR)
    assert math.isclose(math.sin(math.acos(row.number)), 0.6, rel_tol=1e-12)
    assert round(math.degrees(math.acos(row.number)), 1) == 36.9


def iec_reactance(row):
    row.is_served(table("iec-60364-5-52_annex-g").at(quantity="reactance per length").number("value"))


def iec_formula(row):
    # Annex G, written out here: 2.5 mm2, 16 A, 40 m; resistivity 0.0225, reactance 0.08.
    resistive, inductive = 0.0225 * 40 / 2.5, 0.08e-3 * 40
    for phases, b in ((1, 2.0), (3, 1.0)):
        u = b * (resistive * 0.8 + inductive * 0.6) * 16
        assert math.isclose(ours.iec_drop_v(phases, 40.0, 2.5e-6, 16.0).value, u, rel_tol=1e-9)
        assert math.isclose(b * conductor_drop_v(16.0, 0.8, resistive, inductive), u, rel_tol=1e-9)
    assert row.value == "formula"


def k_copper(row):
    row.rounds_to(table_8_resistance_75c("12 AWG", "stranded uncoated copper").value * KFT_M * 6530 / 1000)


def k_aluminium(row):
    row.rounds_to(table_8_resistance_75c("12 AWG", "stranded aluminium").value * KFT_M * 6530 / 1000)


def two_wire(row):
    size, amperes, feet, _ = row.parts(r"(\d+ AWG) stranded Cu, (\d+) A, (\d+) ft one way, (\d+) V 1-ph .*")
    row.rounds_to(two_wire_drop_v(float(amperes), 1.0, warm_75c(size) * float(feet) * FOOT_M, 0.0))


def bs_lead(row):
    size, amperes, metres = row.parts(r"(\S+ mm2) flexible lead, (\d+) A, (\d+) m, single-phase")
    row.rounds_to(drop_ohm_per_m_60c(size).value * float(amperes) * float(metres))


def three_wire(row):
    pattern = r"120/240 V 3-wire, leg A (\d+) A, leg B (\d+) A, (\d+ AWG), (\d+) ft: drop seen by leg A load"
    leg_a, leg_b, size, feet = row.parts(pattern)
    ohm = complex(warm_75c(size) * float(feet) * FOOT_M, 0.0)
    out = np.empty(4)
    split_phase_voltages_v(120.0, math.pi, float(leg_a), 1.0, float(leg_b), 1.0, ohm, ohm, ohm, out)
    assert out[3] == 1.0
    row.rounds_to(120.0 - out[0])
