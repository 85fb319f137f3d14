"""Is a conductor's impedance what its standard's tables say at other temperatures and lengths?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics.conductor_impedance import (
    COPPER_ALPHA20_PER_K,
    conductor_impedance_ohm,
    conductor_resistance_ohm_per_m,
    resistance_at_20c_ohm_per_m,
)

OHM_PER_KFT = 1e-3 / 0.3048


def test_resistance_of_12_awg_between_its_tables() -> None:
    # Handbook wire tables give 1.588 ohm/kft for solid 12 AWG at 20 C, NEC chapter 9 table 8 gives 1.93 at 75 C (both
    # from memory). Tolerance: half the last digit of 1.93, 0.26 %.
    warm = conductor_resistance_ohm_per_m(1.588 * OHM_PER_KFT, 75.0)
    assert warm == pytest.approx(1.93 * OHM_PER_KFT, rel=2.6e-3)


def test_copper_loses_its_resistance_where_a_straight_line_says() -> None:
    # Inferred zero of copper: -234.5 C for 100 % IACS (IEEE Std 118, from memory); 20 - 1/0.00393 = -234.45.
    assert pytest.approx(-234.5, abs=0.06) == 20.0 - 1.0 / COPPER_ALPHA20_PER_K


@pytest.mark.parametrize("temperature_c", [-40.0, 20.0, 75.0, 105.0])
def test_to_20c_and_back(temperature_c: float) -> None:
    resistance = np.array([1.24e-3, 8e-3])
    there = resistance_at_20c_ohm_per_m(resistance, temperature_c)
    np.testing.assert_allclose(conductor_resistance_ohm_per_m(there, temperature_c), resistance, rtol=1e-14)


def test_no_length_is_contacts_alone() -> None:
    assert conductor_impedance_ohm(0.0, 5e-3, 60.0, contact_ohm=0.012) == 0.012 + 0j


def test_arrays_go_in_and_come_out_row_by_row() -> None:
    lengths = np.array([[10.0], [30.0]])
    resistances = np.array([13.3e-3, 7.98e-3, 4.95e-3])
    together = conductor_impedance_ohm(lengths, resistances, 50.0, contact_ohm=0.01)
    assert together.shape == (2, 3)
    for row, length in enumerate(lengths[:, 0]):
        for column, resistance in enumerate(resistances):
            one = conductor_impedance_ohm(length, resistance, 50.0, contact_ohm=0.01)
            assert one.tobytes() == together[row, column].tobytes()


def test_30_m_of_2_5_mm2_at_20c() -> None:
    # IEC 60228:2004 table 3, class 5, plain: 7.98 ohm/km at 20 C (from memory); reactance by common practice.
    assert conductor_impedance_ohm(30.0, 7.98e-3, 20.0) == pytest.approx(0.2394 + 0.003j, rel=1e-12)


@pytest.mark.parametrize(
    ("argument", "value"),
    [
        ("length_m", -1.0),
        ("length_m", np.nan),
        ("resistance_20c_ohm_per_m", [1e-3, -1e-3]),
        ("temperature_c", -120.0),
        ("temperature_c", np.inf),
        ("reactance_ohm_per_m", -1e-4),
        ("contact_ohm", -0.1),
        ("alpha20_per_k", -0.004),
    ],
)
def test_a_figure_out_of_range_is_named(argument: str, value: object) -> None:
    sound = {"length_m": 10.0, "resistance_20c_ohm_per_m": 5e-3, "temperature_c": 20.0}
    with pytest.raises(ValueError, match=argument):
        conductor_impedance_ohm(**{**sound, argument: value})  # type: ignore[arg-type]
