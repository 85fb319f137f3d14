"""Is the probability of a trip that of one log-uniform quantile per device?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.protective_device import Device, play
from ampwright.engine.physics.trip_probability import drawn_trip_s, trip_probability, trip_probability_batch

FOREVER = math.inf


def test_outside_the_band_it_is_none_or_certain():
    device = Device("ul_489", 15.0)
    band = play(device, (FOREVER,), (30.0,))
    assert trip_probability(device, (FOREVER,), (30.0,), band.earliest_s * 0.999) == 0.0
    assert trip_probability(device, (FOREVER,), (30.0,), band.latest_assumed_s) == 1.0
    assert trip_probability(device, (FOREVER,), (15.0,)) == 0.0


@pytest.mark.parametrize("multiple", [5.5, 7.0, 9.9])
def test_the_magnetic_element_is_the_closed_form(multiple):
    # IEC 60898-1 type C acts between 5 and 10 In (05-0019, 05-0020): a threshold log-uniform between them lies below m
    # with probability ln(m/5)/ln(10/5). 0.11 s is past the latest time of the element and before any thermal trip of
    # the devices that the magnetic element spares (earliest thermal image at 9.9 In and that quantile: above 0.2 s).
    device = Device("iec_60898_1", 16.0, "C")
    expected = math.log(multiple / 5.0) / math.log(2.0)
    found = trip_probability(device, (0.11,), (multiple * 16.0,))
    assert found == pytest.approx(expected, abs=1e-6)


def test_one_image_is_nearly_log_uniform_in_time():
    # The time of one image is tau x f(level), so with one level it is log-uniform between the edges. The 3 A plug fuse
    # at 9 A sits on its fast images (levels 7 and 8, through 0.02 s and 80 s, BS 1362): its probability lies between
    # the closed forms with either level throughout.
    device = Device("bs_1362", 3.0)
    band = play(device, (FOREVER,), (9.0,))
    middle_s = math.sqrt(band.earliest_s * band.latest_assumed_s)
    found = trip_probability(device, (FOREVER,), (9.0,), middle_s)
    rise = {level: math.log(9.0 / (9.0 - level)) for level in (7.0, 8.0)}
    tau = {"early": 0.02 / rise[7.0], "late": 80.0 / rise[8.0]}
    lowest = math.log(middle_s / (tau["early"] * rise[8.0])) / math.log(tau["late"] / tau["early"])
    highest = math.log(middle_s / (tau["early"] * rise[7.0])) / math.log(tau["late"] / tau["early"])
    assert lowest <= found <= highest


def test_it_is_the_share_of_drawn_devices():
    # Monte Carlo of the same definition: 4000 draws, three standard deviations of a binomial.
    device = Device("ul_489", 15.0)
    cycle = ([900.0, 60.0, 0.4, 1200.0], [14.0, 0.0, 80.0, 17.5])
    draws = np.random.default_rng(20).uniform(size=4000)
    trips = drawn_trip_s([device] * draws.size, [cycle] * draws.size, draws)
    for within_s in (960.0, 1500.0, FOREVER):
        share = np.mean((trips <= within_s) & (trips < math.inf))
        found = trip_probability(device, *cycle, within_s)
        assert abs(share - found) <= 3.0 * math.sqrt(max(found * (1.0 - found), 1e-4) / draws.size)


def test_repeats_are_not_independent_tries():
    # After long enough rests each repeat meets the same device: ten starts trip no more devices than one.
    device = Device("ul_489", 15.0)
    once = trip_probability(device, (1.0, 20_000.0), (100.0, 0.0))
    ten = trip_probability(device, (1.0, 20_000.0) * 10, (100.0, 0.0) * 10)
    assert 0.0 < once < 1.0
    assert ten == pytest.approx(once, abs=1e-4)


def test_it_rises_with_time_current_and_air():
    def chance(within_s=600.0, current_a=20.0, ambient_c=25.0):
        return trip_probability(Device("ul_489", 15.0, ambient_c=ambient_c), (FOREVER,), (current_a,), within_s)

    base = chance()
    assert 0.0 < base < 1.0
    assert chance(within_s=60.0) < base < chance(ambient_c=45.0)
    assert chance(current_a=18.0) < base < chance(current_a=23.0)


def test_a_batch_gives_each_row_the_bits_of_a_single_call():
    devices = [Device("ul_489", 15.0), Device("iec_60898_1", 16.0, "B"), Device("bs_1362", 13.0)]
    many = [([30.0, FOREVER], [10.0, 31.0]), ([FOREVER], [26.0]), ([5.0, 40.0], [20.0, 33.0])]
    within_s = [100.0, 900.0, FOREVER]
    together = trip_probability_batch(devices, many, within_s)
    alone = [trip_probability(d, *h, w) for d, h, w in zip(devices, many, within_s, strict=True)]
    assert together.tolist() == alone


def test_nonsense_is_refused():
    device = Device("ul_489", 15.0)
    with pytest.raises(ValueError, match="a time is"):
        trip_probability(device, (1.0,), (1.0,), math.nan)
    with pytest.raises(ValueError, match="a quantile is"):
        drawn_trip_s([device], [((1.0,), (1.0,))], [1.5])
    with pytest.raises(ValueError, match="as many"):
        trip_probability_batch([device], [], [1.0])
