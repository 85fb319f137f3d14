"""Do hand tools with a series motor run up, slow down and draw as the trade sees them?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics import universal_motor
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENT_DURATION_S, SEGMENTS
from ampwright.engine.physics.source_limit_state import LIMITS
from ampwright.engine.physics.start_outcome import (
    RESULT_COLUMNS,
    RESULT_CURRENT_SQUARED_TIME_A2S,
    RESULT_FINAL_CURRENT_A,
    RESULT_FINAL_SPEED_PU,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_OUTCOME,
    RESULT_PEAK_CURRENT_A,
    RESULT_TIME_TO_SPEED_S,
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)
from ampwright.engine.physics.universal_motor import universal_impedance, universal_torque_nm
from ampwright.engine.physics.universal_motor_start import universal_motor_start
from engine.physics.start_cases import setting, source, tool, tool_load, tool_start


def test_fitted_tool_meets_its_plate() -> None:
    # The plate's own definition: at plate current the motor takes plate voltage, at the assumed power factor.
    universal, fit = tool(120.0, 15.0)
    speed = fit[universal_motor.TOOL_FIT_RATED_SPEED_PU]
    impedance = universal_impedance(universal, 15.0, speed)
    assert abs(impedance) * 15.0 == pytest.approx(120.0, rel=1e-9)
    assert impedance.real / abs(impedance) == pytest.approx(0.96, rel=1e-9)
    assert fit[universal_motor.TOOL_FIT_START_RATIO] == pytest.approx(5.0, rel=1e-6)
    assert fit[universal_motor.TOOL_FIT_CONTRADICTION] == 0.0
    # universal motors of this size: 50-75 % (common practice, no source)
    assert 0.45 < fit[universal_motor.TOOL_FIT_EFFICIENCY] < 0.8


def test_starting_current_that_the_power_factor_forbids_is_said() -> None:
    row = np.array([[120.0, 15.0, 0.5, 9.0, 0.36, 50.0, 523.6, 0.0, 0.25]])
    universal, fit = np.empty((1, universal_motor.UNIVERSAL_COLUMNS)), np.empty((1, universal_motor.TOOL_FIT_COLUMNS))
    universal_motor.fit_universal(row, universal, fit)
    assert fit[0, universal_motor.TOOL_FIT_CONTRADICTION] == 1.0
    assert fit[0, universal_motor.TOOL_FIT_START_RATIO] < 9.0


def test_torque_is_electrical_power_over_speed() -> None:
    # E I = T w of any series motor (textbook); exact.
    universal, _ = tool(120.0, 15.0)
    for current, speed in ((5.0, 0.9), (15.0, 0.5), (60.0, 0.1)):
        emf = (universal_impedance(universal, current, speed).real - universal[0]) * current
        assert universal_torque_nm(universal, current) * speed * universal[4] == pytest.approx(emf * current, rel=1e-12)


def test_saw_on_a_15_a_limited_source_runs_up_slowly_and_never_trips() -> None:
    # common practice, no source: "slow run-up, weak in an easy cut, no trip"
    universal, _ = tool(120.0, 15.0)
    stiff, _ = tool_start(universal, tool_load(universal), source(120.0, 0.3), goal=0.5)
    held, _ = tool_start(
        universal, tool_load(universal), source(120.0, 0.15, response=LIMITS, continuous_a=15.0), goal=0.5
    )
    assert stiff[RESULT_OUTCOME] == STARTS
    assert held[RESULT_OUTCOME] in (STARTS, STARTS_SLOWLY)
    assert held[RESULT_TIME_TO_SPEED_S] > 2.0 * stiff[RESULT_TIME_TO_SPEED_S]
    assert held[RESULT_LIMITED_S] > 0.0
    assert np.isinf(held[RESULT_OFF_AT_S])
    assert held[RESULT_PEAK_CURRENT_A] == pytest.approx(15.0)
    # weak in a cut that wants more than 15 A: slower than on a stiff source
    cut = tool_load(universal, 1.2, first_pu=1.0)
    slow, _ = tool_start(universal, cut, source(120.0, 0.15, response=LIMITS, continuous_a=15.0))
    quick, _ = tool_start(universal, cut, source(120.0, 0.15))
    assert slow[RESULT_FINAL_SPEED_PU] < 0.8 * quick[RESULT_FINAL_SPEED_PU]
    assert quick[RESULT_FINAL_CURRENT_A] > 15.0


def test_start_peak_and_cut_are_two_things() -> None:
    # common practice, no source: starting current 4-7 times the plate, for well under a second
    universal, _ = tool(120.0, 15.0)
    result, segment = tool_start(universal, tool_load(universal), source(120.0, 0.3))
    assert 3.5 < result[RESULT_PEAK_CURRENT_A] / 15.0 < 7.0
    above = segment[segment[:, 1] > 20.0, SEGMENT_DURATION_S].sum()
    assert above < 0.6


def test_idle_draw_is_well_above_a_tenth_of_the_plate() -> None:
    # common practice, no source: idle is 60-75 % of the working draw (a half to 0.8 of the plate), not 10-20 % of it
    universal, _ = tool(120.0, 8.0)
    result, _ = tool_start(universal, tool_load(universal), source(120.0, 0.2))
    assert 0.28 < result[RESULT_FINAL_CURRENT_A] / 8.0 < 0.5


def test_soft_start_lowers_the_peak_and_lengthens_the_start() -> None:
    plain, _ = tool(120.0, 15.0)
    soft, _ = tool(120.0, 15.0, soft_start_s=1.0)
    hard, _ = tool_start(plain, tool_load(plain), source(120.0, 0.3))
    eased, _ = tool_start(soft, tool_load(soft), source(120.0, 0.3))
    # electronic soft start: near or below the plate current (common practice, no source)
    assert eased[RESULT_PEAK_CURRENT_A] < 1.2 * 15.0
    assert eased[RESULT_TIME_TO_SPEED_S] > hard[RESULT_TIME_TO_SPEED_S]
    assert eased[RESULT_FINAL_CURRENT_A] == pytest.approx(hard[RESULT_FINAL_CURRENT_A], rel=1e-3)


def test_weak_source_ends_slower() -> None:
    universal, _ = tool(120.0, 15.0)
    ends = [tool_start(universal, tool_load(universal, 0.5), source(120.0, ohm))[0] for ohm in (0.0, 1.0, 3.0)]
    speeds = [end[RESULT_FINAL_SPEED_PU] for end in ends]
    assert speeds[0] > speeds[1] > speeds[2]


def test_jammed_blade_stalls() -> None:
    universal, _ = tool(120.0, 15.0)
    result, _ = tool_start(universal, tool_load(universal, 20.0), source(120.0, 0.3))
    assert result[RESULT_OUTCOME] == STALLS
    assert result[RESULT_FINAL_SPEED_PU] == 0.0
    assert result[RESULT_CURRENT_SQUARED_TIME_A2S] == pytest.approx(result[RESULT_FINAL_CURRENT_A] ** 2 * 10.0)


def test_one_tool_equals_its_row_in_a_batch_bit_for_bit() -> None:
    tools = [tool(120.0, amperes, soft_start_s=soft)[0] for amperes, soft in ((8.0, 0.0), (15.0, 0.8), (12.0, 0.0))]
    loads = [tool_load(universal, 0.1) for universal in tools]
    feeds = [source(120.0, 0.2, response=LIMITS, continuous_a=20.0)] * 3
    settings = setting(120.0, running=0.7)
    results, segments = np.empty((3, RESULT_COLUMNS)), np.empty((3, SEGMENTS, SEGMENT_COLUMNS))
    universal_motor_start(
        np.array(tools), np.array(loads), np.array(feeds), np.tile(settings, (3, 1)), results, segments
    )
    for index in range(3):
        result, segment = tool_start(tools[index], loads[index], feeds[index])
        assert result.tobytes() == results[index].tobytes()
        assert segment.tobytes() == segments[index].tobytes()
