"""Do starts come out as the trade knows them, and do limits, tiers and histories add up?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics import motor_nameplate as plate_of
from ampwright.engine.physics.current_history import SEGMENT_DURATION_S, SEGMENT_LOAD_CURRENT_A
from ampwright.engine.physics.load_torque import LOAD_RATIOS, load_torque_nm
from ampwright.engine.physics.motor_circuit import MOTOR_SYNCHRONOUS_RAD_PER_S
from ampwright.engine.physics.source_limit_state import (
    LIMITS,
    LIMITS_FOR_A_TIME,
    SHUTS_DOWN,
    SOURCE_CONTINUOUS_A,
    SOURCE_RESISTANCE_OHM,
)
from ampwright.engine.physics.start_break_even import (
    IN_SOURCE,
    INDUCTION,
    MUST_GIVE_BREAK_EVEN_A,
    MUST_GIVE_COLUMNS,
    MUST_GIVE_CURRENT_A,
    MUST_GIVE_TIME_S,
    source_must_give,
    start_break_even,
)
from ampwright.engine.physics.start_outcome import (
    RESULT_BELOW_1_S,
    RESULT_BELOW_4_S,
    RESULT_CURRENT_SQUARED_TIME_A2S,
    RESULT_FINAL_CURRENT_A,
    RESULT_FINAL_SPEED_PU,
    RESULT_FIRST_CREST_A,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_OUTCOME,
    RESULT_PEAK_CURRENT_A,
    RESULT_PEAK_SOURCE_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
    SHUTS_OFF,
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)
from engine.physics.start_cases import fitted, load, plate, run, setting, source, start


def compressor(kva: float = 7.545, torque_ratio: float | None = None) -> np.ndarray:
    return fitted(plate(plate_of.CAPACITOR_START, 1.5, 120, 15, kva, torque_ratio=torque_ratio))[0]


def break_even_a(motor: np.ndarray, load_row: np.ndarray) -> float:
    feed = source(120, 0.05, response=LIMITS)
    return float(
        start_break_even(
            INDUCTION, motor, load_row, feed, setting(120.0, horizon_s=30.0), IN_SOURCE, SOURCE_CONTINUOUS_A, 150.0, 1.0
        )
    )


@pytest.mark.parametrize(("constant", "low_a", "high_a"), [(1.0, 49.0, 63.0), (0.25, 25.0, 32.0)])
def test_break_even_of_a_code_j_compressor(constant: float, low_a: float, high_a: float) -> None:
    # Computed in the trade panel for 1.5 hp at 120 V, code J (7.1-7.99 kVA/hp), starting torque 2.5-3.25 x rated: 49-63
    # A against head pressure (rated torque), 25-32 A unloaded (a quarter of it). Tolerance: half the last digit.
    found = [
        break_even_a(motor, load(motor, constant))
        for motor in (compressor(7.1, 3.25), compressor(7.99, 2.5), compressor(7.1, 2.5), compressor(7.99, 3.25))
    ]
    assert min(found) == pytest.approx(low_a, abs=0.5)
    assert max(found) == pytest.approx(high_a, abs=0.5)


def test_compressor_on_a_15_a_limiting_source_growls_and_never_trips() -> None:
    # common practice, no source: "growls, never reaches speed, no trip", with head pressure and without
    motor = compressor()
    for ratios in (LOAD_RATIOS["compressor_against_pressure"][1], LOAD_RATIOS["compressor_unloaded"][1]):
        result = start(motor, load(motor, *ratios), source(120, 0.15, response=LIMITS, continuous_a=15.0))
        assert result[RESULT_OUTCOME] == STALLS
        assert result[RESULT_LIMITED_AT_END] == 1.0
        assert np.isinf(result[RESULT_OFF_AT_S])
        assert result[RESULT_FINAL_CURRENT_A] == pytest.approx(15.0)


def test_compressor_on_a_stiff_20_a_circuit_starts() -> None:
    # common practice, no source: the same compressor starts from a 20 A circuit of the mains, 25 ft of 12 AWG
    motor = compressor()
    result = start(motor, load(motor, 1.0), source(120, 0.25))
    assert result[RESULT_OUTCOME] == STARTS
    # demo plates and practice: a second or so
    assert 0.2 < result[RESULT_TIME_TO_SPEED_S] < 1.5


def test_outcome_turns_at_the_break_even_and_not_elsewhere() -> None:
    motor = compressor()
    row = load(motor, 1.0)
    edge = break_even_a(motor, row)
    for share, expected in ((0.5, STALLS), (0.99, STALLS), (1.01, STARTS), (1.2, STARTS)):
        feed = source(120, 0.05, response=LIMITS, continuous_a=share * edge)
        outcome = start(motor, row, feed, horizon_s=30.0, slow_s=30.0)[RESULT_OUTCOME]
        assert outcome == expected, share


def test_tier_that_lasts_longer_than_the_start_is_enough_and_a_shorter_one_is_not() -> None:
    motor = compressor()
    row = load(motor, 1.0)
    need = np.empty((1, MUST_GIVE_COLUMNS))
    source_must_give(INDUCTION, motor[None], row[None], source(120, 0.05)[None], setting(120.0)[None], need)
    amperes, seconds = need[0, MUST_GIVE_CURRENT_A], need[0, MUST_GIVE_TIME_S]
    assert need[0, MUST_GIVE_BREAK_EVEN_A] < amperes
    for share, outcome in ((0.7, SHUTS_OFF), (1.05, STARTS)):
        feed = source(120, 0.05, response=LIMITS_FOR_A_TIME, continuous_a=20.0, tiers=((amperes, share * seconds),))
        result = start(motor, row, feed)
        assert result[RESULT_OUTCOME] == outcome
        if outcome == SHUTS_OFF:
            assert result[RESULT_OFF_AT_S] == pytest.approx(share * seconds, rel=1e-6)
        else:
            assert np.isinf(result[RESULT_OFF_AT_S])


def test_source_that_shuts_down_does_so_at_once_above_its_highest_tier() -> None:
    motor = compressor()
    feed = source(120, 0.05, response=SHUTS_DOWN, continuous_a=20.0, tiers=((40.0, 5.0),))
    result = start(motor, load(motor, 0.25), feed)
    assert result[RESULT_OUTCOME] == SHUTS_OFF
    assert result[RESULT_OFF_AT_S] == 0.0


def test_crest_limit_works_as_its_sine() -> None:
    # A sine of effective value I has crest sqrt(2) I.
    motor = compressor()
    by_crest = start(motor, load(motor, 0.25), source(120, 0.05, crest_a=40.0 * np.sqrt(2)))
    by_rms = start(motor, load(motor, 0.25), source(120, 0.05, response=LIMITS, continuous_a=40.0))
    assert by_crest[RESULT_TIME_TO_SPEED_S] == pytest.approx(by_rms[RESULT_TIME_TO_SPEED_S], rel=1e-12)
    assert by_crest[RESULT_FIRST_CREST_A] <= 40.0 * np.sqrt(2) * (1 + 1e-12)


def test_limit_leaves_less_for_a_motor_when_something_runs_beside_it() -> None:
    motor = compressor()
    alone = start(motor, load(motor, 0.25), source(120, 0.05, response=LIMITS, continuous_a=35.0))
    other = 10.0 / 120.0
    shared = start(motor, load(motor, 0.25), source(120, 0.05, response=LIMITS, continuous_a=35.0, other_s=other + 0j))
    assert alone[RESULT_OUTCOME] in (STARTS, STARTS_SLOWLY)
    assert shared[RESULT_TIME_TO_SPEED_S] > alone[RESULT_TIME_TO_SPEED_S]
    assert shared[RESULT_PEAK_SOURCE_CURRENT_A] == pytest.approx(35.0)


def test_sag_at_the_common_point_is_ohms_law() -> None:
    # At standstill the loop is a divider: V = E |Zm| / |Zm + Zs|, and the peak current E / |Zm + Zs|.
    motor, fit = fitted(plate(plate_of.CAPACITOR_START, 1.5, 120, 15, 7.545))
    result = start(motor, load(motor, 5.0), source(120, 0.3))
    current = result[RESULT_PEAK_CURRENT_A]
    assert current < fit[plate_of.FIT_LOCKED_ROTOR_CURRENT_A]
    locked_ohm = 120.0 / fit[plate_of.FIT_LOCKED_ROTOR_CURRENT_A]
    assert result[RESULT_LEAST_VOLTAGE_V] == pytest.approx(current * locked_ohm, rel=1e-9)
    assert result[RESULT_BELOW_1_S] == 10.0
    assert result[RESULT_BELOW_4_S] == 0.0


def test_stiff_source_gives_the_locked_rotor_current() -> None:
    motor, fit = fitted(plate(plate_of.CAPACITOR_START, 1.5, 120, 15, 7.545))
    result = start(motor, load(motor, 0.2), source(120, 0.0))
    assert result[RESULT_PEAK_CURRENT_A] == pytest.approx(fit[plate_of.FIT_LOCKED_ROTOR_CURRENT_A], rel=1e-9)


def test_time_goes_with_inertia() -> None:
    # Without a limit the run-up is J times a function of the torques: doubling J doubles it, but for the start's lag.
    motor = fitted(plate(plate_of.THREE_PHASE, 5, 230, 14, 6.5))[0]
    once = start(motor, load(motor, 0.1, 0.5, inertia_s=1.0), source(230 / np.sqrt(3), 0.01))
    twice = start(motor, load(motor, 0.1, 0.5, inertia_s=2.0), source(230 / np.sqrt(3), 0.01))
    lag_s = 0.2 / 60
    ratio = (twice[RESULT_TIME_TO_SPEED_S] - lag_s) / (once[RESULT_TIME_TO_SPEED_S] - lag_s)
    assert ratio == pytest.approx(2.0, rel=1e-9)


def test_run_up_time_is_the_integral_of_inertia_over_torque() -> None:
    # Textbook: t = J w0 * integral dw / (T - T_load). Quadrature apart from the march, on the motor's own curve.
    from ampwright.engine.physics.motor_circuit import motor_curve

    motor = fitted(plate(plate_of.THREE_PHASE, 5, 230, 14, 6.5))[0]
    row = load(motor, 0.1, 0.5, inertia_s=1.0)
    result = start(motor, row, source(230 / np.sqrt(3), 0.0))
    speed = (np.arange(20000) + 0.5) * 0.93 / 20000
    current, torque = np.empty(speed.size, dtype=complex), np.empty(speed.size)
    motor_curve(
        np.tile(motor, (speed.size, 1)), speed, np.full(speed.size, 230.0), np.zeros(speed.size, dtype=bool), current,
        torque,
    )  # fmt: skip
    against = np.array([load_torque_nm(row, float(w)) for w in speed]) + motor[15] * speed**2
    time_s = row[3] * motor[MOTOR_SYNCHRONOUS_RAD_PER_S] * np.sum(0.93 / 20000 / (torque - against))
    assert result[RESULT_TIME_TO_SPEED_S] == pytest.approx(time_s + 0.2 / 60, rel=1e-3)


def test_history_keeps_duration_and_heat() -> None:
    motor = compressor()
    result, segment = run(motor, load(motor, 1.0), source(120, 0.3), setting(120.0))
    filled = segment[0, : int(result[0, RESULT_SEGMENTS])]
    assert filled[:, SEGMENT_DURATION_S].sum() == pytest.approx(10.0, rel=1e-12)
    heat = (filled[:, SEGMENT_DURATION_S] * filled[:, SEGMENT_LOAD_CURRENT_A] ** 2).sum()
    after_s = 10.0 - result[0, RESULT_TIME_TO_SPEED_S]
    tail = result[0, RESULT_FINAL_CURRENT_A] ** 2 * after_s
    # the tail runs from 93 % to full speed and is therefore a little more than its end value
    assert heat == pytest.approx(result[0, RESULT_CURRENT_SQUARED_TIME_A2S] + tail, rel=0.01)
    assert len(filled) <= 16


def test_hunting_history_still_fits_sixteen_segments() -> None:
    motor = compressor()
    result, segment = run(motor, load(motor, 2.35), source(120, 0.02), setting(120.0))
    assert result[0, RESULT_SEGMENTS] <= 16
    assert segment[0, :, SEGMENT_DURATION_S].sum() == pytest.approx(10.0, rel=1e-9)


def test_source_that_folds_back_after_the_start_pulls_a_running_motor_down() -> None:
    # Starts inside a tier; then the continuous value cannot hold the load, and it stalls without a trip.
    motor = compressor()
    feed = source(120, 0.05, response=LIMITS, continuous_a=9.0, tiers=((90.0, 2.0),))
    result = start(motor, load(motor, 1.0), feed)
    assert result[RESULT_TIME_TO_SPEED_S] < 2.0
    assert result[RESULT_OUTCOME] == STALLS
    assert result[RESULT_FINAL_SPEED_PU] < 0.5
    assert result[RESULT_LIMITED_S] > 5.0


def test_longest_cord_is_on_the_starting_side() -> None:
    motor = compressor()
    row = load(motor, 1.0)
    ohm = start_break_even(
        INDUCTION, motor, row, source(120, 0.1), setting(120.0), IN_SOURCE, SOURCE_RESISTANCE_OHM, 0.0, 5.0
    )
    assert start(motor, row, source(120, ohm))[RESULT_OUTCOME] <= STARTS_SLOWLY
    assert start(motor, row, source(120, ohm * 1.001))[RESULT_OUTCOME] == STALLS


def test_break_even_says_when_there_is_none() -> None:
    motor = compressor()
    always = load(motor, 0.05)
    never = load(motor, 9.0)
    arguments = (source(120, 0.1), setting(120.0), IN_SOURCE, SOURCE_RESISTANCE_OHM, 0.0, 0.01)
    assert start_break_even(INDUCTION, motor, always, *arguments) == 0.01
    assert np.isnan(start_break_even(INDUCTION, motor, never, *arguments))
    need = np.empty((1, MUST_GIVE_COLUMNS))
    source_must_give(INDUCTION, motor[None], never[None], source(120, 0.1)[None], setting(120.0)[None], need)
    assert np.isnan(need).all()


def test_one_start_equals_its_row_in_a_batch_bit_for_bit() -> None:
    motors = [compressor(kva) for kva in (7.1, 7.5, 7.99)] * 4
    loads = [load(motor, 0.1 * index) for index, motor in enumerate(motors)]
    feeds = [source(120, 0.05 * (1 + index), response=LIMITS, continuous_a=20.0 + 5 * index) for index in range(12)]
    settings = [setting(120.0)] * 12
    results, segments = run(motors, loads, feeds, settings)
    for index in range(12):
        result, segment = run(motors[index], loads[index], feeds[index], settings[index])
        assert result[0].tobytes() == results[index].tobytes()
        assert segment[0].tobytes() == segments[index].tobytes()
