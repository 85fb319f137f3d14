"""Do the thermal images meet their closed forms, an ODE solver and the limits that have known answers?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.protective_device import Device, DeviceTable, cooled, play, play_batch
from ampwright.engine.physics.trip_time import edge_trip_s, quantile_trip_s
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

NO_INSTANT = (math.inf, 0.1)
ONE_IMAGE = (100.0, 1.5, 1e9, 1e9, *NO_INSTANT)  # the second image never acts
FOREVER = math.inf

DEVICES = (
    Device("ul_489", 15.0),
    Device("ul_489", 20.0, ambient_c=50.0),
    Device("ul_489", 40.0, ambient_c=-10.0),
    Device("ul_489", 100.0),
    Device("ul_489", 20.0, compensated=True),
    Device("ul_1077", 15.0),
    Device("iec_60934", 16.0),
    Device("iec_60898_1", 16.0, "B"),
    Device("iec_60898_1", 16.0, "C", ambient_c=45.0),
    Device("iec_60898_1", 40.0, "D"),
    Device("bs_1362", 13.0),
    Device("bs_1362", 3.0),
    Device("bs_1362", 5.0),
    Device("iec_60269_gg", 16.0),
    Device("iec_60269_gg", 63.0),
)

histories = st.lists(
    st.tuples(st.floats(0.001, 3000.0), st.floats(0.0, 12.0)),
    min_size=1,
    max_size=12,
)


def trip_of(edge, multiples, durations, state=(0.0, 0.0, 0.0)):
    memory = np.array(state)
    trip_s = edge_trip_s(np.array(durations, float), np.array(multiples, float), 1.0, np.array(edge, float), memory)
    return trip_s, memory


def times(band):
    return band.earliest_s, band.latest_guaranteed_s, band.latest_assumed_s


@pytest.mark.parametrize("multiple", [1.3, 2.0, 5.0, 20.0])
def test_step_from_cold_is_the_closed_form(multiple):
    # Closed form of d(theta)/dt = (m^2 - theta)/tau from 0: t = tau ln(m^2 / (m^2 - level)).
    trip_s, _ = trip_of(ONE_IMAGE, [multiple], [FOREVER])
    assert trip_s == pytest.approx(100.0 * math.log(multiple**2 / (multiple**2 - 1.5)), rel=1e-12)


def test_hot_restart_is_the_closed_form():
    # A pause of p lets theta decay by exp(-p/tau); the step then starts from there.
    theta = 0.81 * math.exp(-30.0 / 100.0)
    expected_s = 100.0 * math.log((4.0 - theta) / (4.0 - 1.5))
    _, memory = trip_of(ONE_IMAGE, [0.9, 0.0], [1e6, 30.0])
    trip_s, _ = trip_of(ONE_IMAGE, [2.0], [FOREVER], memory)
    assert trip_s == pytest.approx(expected_s, rel=1e-12)


def test_two_levels_are_the_closed_form():
    theta = 1.44 * (1.0 - math.exp(-50.0 / 100.0))
    expected_s = 50.0 + 100.0 * math.log((2.25 - theta) / (2.25 - 1.5))
    trip_s, _ = trip_of(ONE_IMAGE, [1.2, 1.5], [50.0, FOREVER])
    assert trip_s == pytest.approx(expected_s, rel=1e-12)


def test_repeated_duty_settles_at_the_closed_form():
    # On for a, off for b, for ever: peak = m^2 (1 - exp(-a/tau)) / (1 - exp(-(a + b)/tau)). Below its level: holds.
    peak = 2.0**2 * (1.0 - math.exp(-0.3)) / (1.0 - math.exp(-1.3))
    _, memory = trip_of((100.0, 1.5, 1e9, 1e9, *NO_INSTANT), [2.0, 0.0] * 200 + [2.0], [30.0, 100.0] * 200 + [30.0])
    assert memory[0] == pytest.approx(peak, rel=1e-9)
    assert trip_of((100.0, peak * 1.001, 1e9, 1e9, *NO_INSTANT), [2.0, 0.0] * 200, [30.0, 100.0] * 200)[0] == math.inf
    assert trip_of((100.0, peak * 0.999, 1e9, 1e9, *NO_INSTANT), [2.0, 0.0] * 200, [30.0, 100.0] * 200)[0] < math.inf


@pytest.mark.parametrize("seed", range(8))
def test_images_agree_with_an_ode_solver(seed):
    # General-purpose integrator (LSODA through scipy), rtol 1e-10: its own error is the tolerance here.
    rng = np.random.default_rng(seed)
    durations = rng.uniform(1.0, 80.0, 12)
    multiples = rng.uniform(0.0, 3.0, 12)
    tau_s, level = rng.uniform(20.0, 200.0), rng.uniform(1.0, 3.0)
    trip_s, memory = trip_of((tau_s, level, 1e9, 1e9, *NO_INSTANT), multiples, durations)
    theta, start_s, solved_s = 0.0, 0.0, math.inf
    for seconds, multiple in zip(durations, multiples, strict=True):

        def crossing(_, y):
            return y[0] - level

        crossing.direction = 1.0
        solution = solve_ivp(
            lambda _, y, heat=multiple**2: [(heat - y[0]) / tau_s],
            (0.0, seconds),
            [theta],
            method="LSODA",
            rtol=1e-10,
            atol=1e-12,
            events=crossing,
        )
        if solution.t_events[0].size and solved_s == math.inf:
            solved_s = start_s + solution.t_events[0][0]
        theta, start_s = solution.y[0, -1], start_s + seconds
    assert memory[0] == pytest.approx(theta, rel=1e-7)
    assert trip_s == (math.inf if solved_s == math.inf else pytest.approx(solved_s, rel=1e-6))


@pytest.mark.parametrize("device", DEVICES, ids=str)
def test_no_current_holds_for_ever(device):
    assert play(device, (FOREVER,), (0.0,)).outcome == "holds"


@pytest.mark.parametrize("device", DEVICES, ids=str)
def test_a_huge_current_opens_at_once(device):
    band = play(device, (FOREVER,), (1e6 * device.rating_a,))
    assert band.earliest_s <= 0.005
    assert band.latest_assumed_s <= 0.1


@pytest.mark.parametrize("device", DEVICES, ids=str)
def test_an_empty_history_and_a_step_of_no_length_do_nothing(device):
    assert play(device, (), ()).outcome == "holds"
    assert play(device, (0.0, 0.0), (1e3 * device.rating_a, 0.0)).outcome == "holds"


@settings(max_examples=60, deadline=None)
@given(histories, st.integers(0, len(DEVICES) - 1))
def test_the_band_is_in_order(history, number):
    durations, multiples = zip(*history, strict=True)
    device = DEVICES[number]
    early, sure, late = times(play(device, durations, [m * device.rating_a for m in multiples]))
    assert early <= late <= sure


@settings(max_examples=60, deadline=None)
@given(histories, st.floats(1.0, 2.0), st.integers(0, len(DEVICES) - 1))
def test_more_current_never_trips_later(history, factor, number):
    durations, multiples = zip(*history, strict=True)
    device = DEVICES[number]
    amperes = np.array(multiples) * device.rating_a
    less = times(play(device, durations, amperes))
    more = times(play(device, durations, amperes * factor))
    # One part in 1e9: sums of exponentials in another order.
    assert all(m <= le * (1.0 + 1e-9) for m, le in zip(more, less, strict=True))


@settings(max_examples=60, deadline=None)
@given(
    histories,
    st.floats(-40.0, 85.0),
    st.floats(-40.0, 85.0),
    st.sampled_from([("ul_489", ""), ("ul_1077", ""), ("iec_60898_1", "C"), ("bs_1362", "")]),
)
def test_hotter_air_never_trips_later(history, one_c, other_c, kind):
    durations, multiples = zip(*history, strict=True)
    cold_c, hot_c = sorted((one_c, other_c))
    amperes = np.array(multiples) * 10.0
    cold = times(play(Device(kind[0], 10.0, kind[1], ambient_c=cold_c), durations, amperes))
    hot = times(play(Device(kind[0], 10.0, kind[1], ambient_c=hot_c), durations, amperes))
    assert all(h <= c * (1.0 + 1e-9) for h, c in zip(hot, cold, strict=True))


@settings(max_examples=60, deadline=None)
@given(histories, st.integers(0, len(DEVICES) - 1), st.integers(2, 7))
def test_cutting_a_history_changes_nothing(history, number, pieces):
    # Memory carries over: finer steps, and a second call with the first one's state, give the same band.
    durations, multiples = zip(*history, strict=True)
    device = DEVICES[number]
    amperes = [m * device.rating_a for m in multiples]
    whole = play(device, durations, amperes)
    fine = play(device, [d / pieces for d in durations for _ in range(pieces)], np.repeat(amperes, pieces))
    for a, b in zip(times(whole), times(fine), strict=True):
        assert a == (b if math.isinf(b) else pytest.approx(b, rel=1e-6, abs=1e-9))
    middle = len(durations) // 2
    first = play(device, durations[:middle], amperes[:middle])
    second = play(device, durations[middle:], amperes[middle:], first.state)
    offset_s = float(sum(durations[:middle]))
    for a, b, c in zip(times(whole), times(first), times(second), strict=True):
        joined = min(b, c + offset_s)
        assert a == (joined if math.isinf(joined) else pytest.approx(joined, rel=1e-9, abs=1e-9))


def test_a_batch_gives_each_row_the_bits_of_a_single_call():
    rng = np.random.default_rng(7)
    many = [
        (rng.uniform(0.0, 900.0, size), rng.uniform(0.0, 4.0, size) * device.rating_a)
        for device, size in zip(DEVICES, rng.integers(1, 30, len(DEVICES)), strict=True)
    ]
    together = play_batch(DEVICES, many)
    alone = [play(device, *history) for device, history in zip(DEVICES, many, strict=True)]
    assert list(together) == alone  # dataclass equality: every float exactly


def test_a_device_at_a_quantile_lies_between_its_edges_and_rises_with_it():
    for device in DEVICES:
        table = DeviceTable.of([device])
        durations = np.array([FOREVER])
        current = np.array([2.2 * device.rating_a])
        band = play(device, durations, current)
        found = [
            quantile_trip_s(durations, current, device.rating_a, table.edges[0], table.points[0], u)
            for u in np.linspace(0.0, 1.0, 21)
        ]
        assert found[0] == band.earliest_s
        assert found[-1] == band.latest_assumed_s
        assert found == sorted(found)


def test_a_pause_cools_by_the_closed_form():
    device = Device("iec_60898_1", 16.0, "C")
    warm = play(device, (600.0,), (16.0,)).state
    later = cooled(device, warm, 45.0)
    earliest_slow_tau_s = 60.0  # assumption B-05
    assert later.edges[0][0] == pytest.approx(warm.edges[0][0] * math.exp(-45.0 / earliest_slow_tau_s), rel=1e-12)


def test_a_magnetic_element_wants_its_time_without_a_break():
    # Assumption B-10: 5 ms above its multiple; two peaks of 3 ms with a rest between are no 5 ms.
    edge = (1e9, 1e9, 1e9, 1e9, 6.0, 0.005)
    assert trip_of(edge, [7.0], [1.0])[0] == pytest.approx(0.005)
    assert trip_of(edge, [7.0, 7.0], [0.003, 0.003])[0] == pytest.approx(0.005)
    assert trip_of(edge, [7.0, 1.0, 7.0], [0.003, 1.0, 0.003])[0] == math.inf
    assert trip_of(edge, [6.0], [FOREVER])[0] == math.inf


@pytest.mark.parametrize(("ambient_c", "early_rise_k", "late_rise_k"), [(50.0, 75.0, 150.0), (0.0, 150.0, 75.0)])
def test_air_moves_each_level_by_its_share_of_the_rise(ambient_c, early_rise_k, late_rise_k):
    # Assumption B-07: warmer by x kelvin takes x / rise off a level; the earliest edge takes the small rise in the heat
    # and the large one in the cold, the latest the other way round, so the band never narrows for a wrong rise.
    at_25 = DeviceTable.of([Device("ul_489", 20.0)]).edges[0]
    moved = DeviceTable.of([Device("ul_489", 20.0, ambient_c=ambient_c)]).edges[0]
    for image_level in (1, 3):
        fall = at_25[:, image_level] - moved[:, image_level]
        assert fall == pytest.approx([(ambient_c - 25.0) / early_rise_k, (ambient_c - 25.0) / late_rise_k])
