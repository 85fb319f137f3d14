"""Does a welder's draw stand where standards and field readings put it?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics.welder_input import (
    STICK,
    TIG,
    WELDER_POWER_FACTOR,
    WIRE,
    welder_duty,
    welder_effective_current_a,
    welder_highest_measured_output_a,
    welder_highest_output_a,
    welder_input_band_w,
    welder_load_voltage_v,
    welder_measured_w,
)


@pytest.mark.parametrize(
    ("process", "output_a", "expected_v"),
    [
        (STICK, 50, 22.0), (STICK, 100, 24.0), (STICK, 140, 25.6), (STICK, 300, 32.0),  # rows 04-0158 to 04-0163
        (TIG, 50, 12.0), (TIG, 150, 16.0), (TIG, 200, 18.0), (TIG, 600, 34.0), (TIG, 700, 34.0),  # 04-0165 to 04-0178
        (WIRE, 50, 16.5), (WIRE, 150, 21.5), (WIRE, 200, 24.0), (WIRE, 300, 29.0),  # 04-0171 to 04-0176
        (STICK, 700, 44.0), (WIRE, 700, 44.0),  # row 04-0179, from memory
    ],
)  # fmt: skip
def test_conventional_load_voltage(process: int, output_a: float, expected_v: float) -> None:
    # IEC 60974-1, conventional load voltage
    assert welder_load_voltage_v(process, float(output_a)) == pytest.approx(expected_v, abs=1e-9)


@pytest.mark.parametrize(("output_a", "reading_w"), [(80.0, 2400.0), (220.0, 7600.0)])
def test_tig_field_readings_lie_in_the_band(output_a: float, reading_w: float) -> None:
    # common practice, no source: TIG at 80 A and 220 A output from 240 V, about 2.4 and 7.6 kW at the source's display
    low_w, high_w = welder_input_band_w(TIG, output_a)
    assert low_w < reading_w < high_w


def test_tig_weld_on_a_120_v_20_a_circuit_is_decided_by_power_factor() -> None:
    # common practice, no source: 2.4 kW on 120 V is at the label with correction, 27-31 A without; tolerance 1 A
    currents = {name: [2400.0 / 120.0 / factor for factor in band] for name, band in WELDER_POWER_FACTOR.items()}
    assert currents["corrected"][1] == pytest.approx(20.0, abs=1.0)
    assert 26.0 < min(currents["uncorrected"]) < currents["uncorrected"][1] < 31.0


@pytest.mark.parametrize(("share", "multiplier"), [(1.0, 1.0), (0.8, 0.89), (0.7, 0.84), (0.5, 0.71), (0.4, 0.63)])
def test_effective_current_against_the_duty_table(share: float, multiplier: float) -> None:
    # NEC table 630.11(A), non-motor-generator, rows 04-0132 to 04-0144; tolerance half the last digit
    assert welder_effective_current_a(100.0, 0.0, share) / 100.0 == pytest.approx(multiplier, abs=0.005)


@pytest.mark.parametrize(
    ("output_a", "efficiency", "volts", "expected_a"),
    [(100, 0.80, 230, 13.04), (200, 0.85, 230, 28.64), (160, 0.80, 240, 22.0)],
)
def test_worked_supply_currents(output_a: float, efficiency: float, volts: float, expected_a: float) -> None:
    # U2 I2 / (efficiency x power factor x U1), rows 04-0184 to 04-0187. The last row prints 22.0 with 26.4 V
    arc_w = welder_load_voltage_v(STICK, float(output_a)) * output_a
    assert arc_w / efficiency / volts == pytest.approx(expected_a, abs=0.006)


@pytest.mark.parametrize("process", [STICK, TIG, WIRE])
def test_reverse_question_gives_back_the_weld(process: int) -> None:
    # a question asked back: exact up to rounding, up to and above the voltage cap
    for output_a in (10.0, 80.0, 220.0, 650.0, 900.0):
        low_w, high_w = welder_input_band_w(process, output_a)
        assert welder_highest_output_a(process, low_w, False) == pytest.approx(output_a, rel=1e-9)
        assert welder_highest_output_a(process, high_w, True) == pytest.approx(output_a, rel=1e-9)


def test_measured_points_go_before_lines() -> None:
    outputs, inputs = np.array([80.0, 220.0]), np.array([2400.0, 7600.0])
    assert welder_measured_w(outputs, inputs, 80.0) == 2400.0
    assert welder_measured_w(outputs, inputs, 220.0) == 7600.0
    assert welder_measured_w(outputs, inputs, 150.0) == pytest.approx(5000.0)
    # beyond: scaled by the stick line's arc power, 20 + 0.04 I (IEC 60974-1): 40 A is 864 of 1856 W
    assert welder_measured_w(outputs, inputs, 40.0) == pytest.approx(2400.0 * 864 / 1856)
    for input_w in (1000.0, 2400.0, 4321.0, 7600.0, 9000.0):
        output_a = welder_highest_measured_output_a(outputs, inputs, input_w)
        assert welder_measured_w(outputs, inputs, output_a) == pytest.approx(input_w, rel=1e-9)


def test_duty_goes_with_the_square_and_ends_at_one() -> None:
    # common practice, no source: 200 A at 25 % bears 100 A without end
    assert welder_duty(200.0, 0.25, 100.0) == pytest.approx(1.0)
    assert welder_duty(200.0, 0.25, 50.0) == 1.0
    assert welder_duty(200.0, 0.25, 141.4214) == pytest.approx(0.5, rel=1e-6)
