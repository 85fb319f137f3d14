"""Do surges of rectifiers and lamps, and tools with electronics, follow circuit theory and the handbooks?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics import electronic_start as electronic
from ampwright.engine.physics import lamp_inrush as lamp
from ampwright.engine.physics import rectifier_inrush as rectifier
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENT_DURATION_S, SEGMENTS
from ampwright.engine.physics.source_limit_state import LIMITS
from ampwright.engine.physics.start_outcome import (
    COLLAPSES,
    RESULT_COLUMNS,
    RESULT_FINAL_CURRENT_A,
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_OUTCOME,
    RESULT_PEAK_CURRENT_A,
    RESULT_TIME_TO_SPEED_S,
    STARTS,
)
from engine.physics.start_cases import setting, source
from scipy.integrate import solve_ivp


def surge(
    volts: float = 120.0, ohm: float = 2.0, henry: float = 0.0, farad: float = 1e-3, power_w: float = 0.0, **more: float
) -> np.ndarray:
    row = np.array(
        [[volts, ohm, henry, farad, more.get("drop_v", 0.0), power_w, more.get("hertz", 60.0),
          more.get("angle", np.pi / 2)]]
    )  # fmt: skip
    result = np.empty((1, rectifier.RECTIFIER_RESULTS))
    rectifier.rectifier_inrush(row, result)
    return result[0]


def test_surge_onto_a_capacitor_without_inductance_is_ohms_law() -> None:
    # Empty capacitor, switched on at the crest: i = sqrt(2) V / R.
    assert surge(ohm=2.0)[rectifier.INRUSH_CREST_A] == pytest.approx(np.sqrt(2) * 120 / 2, rel=1e-9)


def test_surge_against_a_solver_of_the_same_circuit() -> None:
    # R, L, C behind an ideal bridge, first pulse, solved apart by scipy (RK45); 1 %
    volts, ohm, henry, farad = 120.0, 0.8, 2e-4, 1.5e-3
    w = 2 * np.pi * 60

    def slopes(t: float, y: np.ndarray) -> list[float]:
        current, charged, _ = y
        drive = np.sqrt(2) * volts * abs(np.sin(w * t + np.pi / 2))
        return [(drive - ohm * current - charged) / henry, current / farad, current * current]

    def stops(_t: float, y: np.ndarray) -> float:
        return float(y[0])

    stops.terminal, stops.direction = True, -1  # type: ignore[attr-defined]
    found = solve_ivp(slopes, (0, 0.02), [1e-9, 0.0, 0.0], events=[stops], rtol=1e-8, atol=1e-9, max_step=1e-5)
    result = surge(volts, ohm, henry, farad)
    assert result[rectifier.INRUSH_CREST_A] == pytest.approx(found.y[0].max(), rel=0.01)
    assert result[rectifier.INRUSH_TIME_S] == pytest.approx(found.t[-1], rel=0.01)
    # the kernel's figure holds the pulses of three cycles: the later ones top the capacitor up
    first_pulse = found.y[2, -1]
    assert 0.99 * first_pulse < result[rectifier.INRUSH_CURRENT_SQUARED_TIME_A2S] < 1.10 * first_pulse


def test_heat_of_a_surge_is_at_most_what_charging_costs() -> None:
    # Charging a capacitor through a resistor from a constant voltage loses half C V^2 whatever the resistor (textbook):
    # I^2 t R <= C V^2 / 2 for a source that does not rise above its crest meanwhile.
    for ohm in (0.5, 2.0, 8.0):
        result = surge(ohm=ohm, farad=2e-4)
        assert result[rectifier.INRUSH_CURRENT_SQUARED_TIME_A2S] * ohm <= 0.5 * 2e-4 * 2 * 120**2 * 1.02


def test_crest_factor_of_an_uncorrected_supply() -> None:
    # Crest factor 2.5-3 and power factor 0.6-0.7 of uncorrected chargers and floods: common practice, no source
    result = surge(ohm=0.8, henry=1e-4, farad=300 * 3e-6, power_w=300.0, drop_v=1.8)
    assert 2.3 < result[rectifier.WORKING_CREST_FACTOR] < 3.3
    assert 0.55 < result[rectifier.WORKING_POWER_FACTOR] < 0.75
    # what goes in: load, diodes and resistance
    power_w = 120.0 * result[rectifier.WORKING_CURRENT_A] * result[rectifier.WORKING_POWER_FACTOR]
    assert power_w > 300.0
    assert power_w < 300.0 + 0.8 * result[rectifier.WORKING_CURRENT_A] ** 2 + 1.8 * 300 / 140


def test_power_the_source_cannot_give_is_not_a_number() -> None:
    assert np.isnan(surge(ohm=10.0, farad=3e-3, power_w=5000.0)[rectifier.WORKING_CURRENT_A])


def lit(cold_ratio: float, ohm: float = 0.0, time_s: float = 0.05) -> tuple[np.ndarray, np.ndarray]:
    result, segment = np.empty((1, lamp.LAMP_RESULTS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    lamp.lamp_inrush(np.array([[120.0, ohm, 4.0, cold_ratio, time_s]]), result, segment)
    return result[0], segment[0]


def test_lamp_has_a_closed_form_on_a_stiff_source() -> None:
    # i = I (1 + (k - 1) e^(-t/T)): integral of i^2 - I^2 is I^2 T ((k - 1) 2 + (k - 1)^2 / 2), less e^-8 of it
    result, segment = lit(12.0)
    assert result[lamp.LAMP_FIRST_CURRENT_A] == pytest.approx(48.0)
    assert result[lamp.LAMP_CREST_A] == pytest.approx(48.0 * np.sqrt(2))
    closed = 16.0 * 0.05 * (2 * 11 + 11**2 / 2)
    assert result[lamp.LAMP_CURRENT_SQUARED_TIME_A2S] == pytest.approx(closed, rel=2e-3)
    heat = (segment[:, SEGMENT_DURATION_S] * segment[:, 1] ** 2).sum()
    assert heat == pytest.approx(closed + 16.0 * 0.4, rel=2e-3)


def test_cold_lamp_is_held_back_by_the_source_and_a_heater_has_no_surge() -> None:
    assert lit(12.0, ohm=1.0)[0][lamp.LAMP_FIRST_CURRENT_A] == pytest.approx(120 / (1 + 2.5))
    result, _ = lit(1.0)
    assert result[lamp.LAMP_FIRST_CURRENT_A] == result[lamp.LAMP_WARM_CURRENT_A] == pytest.approx(4.0)
    assert result[lamp.LAMP_CURRENT_SQUARED_TIME_A2S] == pytest.approx(0.0, abs=1e-9)


def brushless(feed: np.ndarray, *, drop_out_v: float = 85.0, peak_w: float = 1600.0) -> np.ndarray:
    row = np.array([[peak_w, 900.0, 1.0, 0.96, 1.6, drop_out_v]])
    result, segment = np.empty((1, RESULT_COLUMNS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    electronic.electronic_start(row, feed[None], setting(120.0)[None], result, segment)
    return result[0]


def test_electronic_tool_on_a_stiff_source() -> None:
    # its ramp is its run-up: energy of half the peak for the ramp's time; current is power over voltage and factor
    result = brushless(source(120.0, 0.0))
    assert result[RESULT_OUTCOME] == STARTS
    assert result[RESULT_TIME_TO_SPEED_S] == pytest.approx(1.0, abs=0.01)
    assert result[RESULT_PEAK_CURRENT_A] == pytest.approx(1600 / 120 / 0.96, rel=0.01)
    assert result[RESULT_FINAL_CURRENT_A] == pytest.approx(900 / 120 / 0.96, rel=1e-9)


def test_electronic_tool_draws_more_on_a_weak_source() -> None:
    # V = E/2 + sqrt(E^2/4 - R S) for constant power behind a resistance (closed form), S = P / factor
    result = brushless(source(120.0, 0.8))
    volts = 60 + np.sqrt(3600 - 0.8 * 900 / 0.96)
    assert result[RESULT_FINAL_CURRENT_A] == pytest.approx(900 / 0.96 / volts, rel=1e-9)
    assert result[RESULT_LEAST_LOAD_VOLTAGE_V] < volts


def test_electronic_tool_on_a_limiting_source_drops_out_or_folds_back() -> None:
    feed = source(120.0, 0.05, response=LIMITS, continuous_a=10.0)
    assert brushless(feed)[RESULT_OUTCOME] == COLLAPSES
    folded = brushless(feed, drop_out_v=0.0)
    assert folded[RESULT_OUTCOME] == STARTS
    assert folded[RESULT_TIME_TO_SPEED_S] > 1.02
    assert folded[RESULT_PEAK_CURRENT_A] == pytest.approx(10.0)


def test_more_power_than_can_be_transferred_collapses() -> None:
    # maximum power theorem: E^2 / 4R = 1200 W behind 3 ohm
    assert brushless(source(120.0, 3.0), drop_out_v=0.0)[RESULT_OUTCOME] == COLLAPSES
    assert brushless(source(120.0, 3.0), drop_out_v=0.0, peak_w=1100.0)[RESULT_OUTCOME] == STARTS


def test_one_row_equals_its_batch_bit_for_bit() -> None:
    rows = np.array([[120.0, ohm, 1e-4, 1e-3, 1.8, 200.0, 60.0, 1.0] for ohm in (0.5, 1.0, 3.0)])
    whole = np.empty((3, rectifier.RECTIFIER_RESULTS))
    rectifier.rectifier_inrush(rows, whole)
    tools = np.array([[1600.0, 900.0, 1.0, 0.96, 1.6, drop_out] for drop_out in (0.0, 85.0, 110.0)])
    feeds = np.array([source(120.0, ohm, response=LIMITS, continuous_a=14.0) for ohm in (0.1, 0.4, 0.8)])
    settings = np.tile(setting(120.0), (3, 1))
    results, segments = np.empty((3, RESULT_COLUMNS)), np.empty((3, SEGMENTS, SEGMENT_COLUMNS))
    electronic.electronic_start(tools, feeds, settings, results, segments)
    for index in range(3):
        part = slice(index, index + 1)
        one = np.empty((1, rectifier.RECTIFIER_RESULTS))
        rectifier.rectifier_inrush(rows[part].copy(), one)
        assert one.tobytes() == whole[part].tobytes()
        result, segment = np.empty((1, RESULT_COLUMNS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
        electronic.electronic_start(tools[part].copy(), feeds[part].copy(), settings[part].copy(), result, segment)
        assert result.tobytes() == results[part].tobytes()
        assert segment.tobytes() == segments[part].tobytes()
