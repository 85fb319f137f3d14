"""Published voltage ranges, motor tolerances and immunity curves against our tables and the laws behind them."""

from ampwright.engine.standards import voltage_limits as ours
from ampwright.engine.standards.loader import table


def ansi(row):
    which, place, limit = row.parts(r"Range ([AB]) (service|utilization) (minimum|maximum) on 120 V base")
    found = ours.ansi_range_v(which, place)
    row.is_served(found.low if limit == "minimum" else found.high)


def motor_nema(row):
    found = ours.voltage_tolerance("NEMA MG 1 12.44")
    row.is_served(round(100 * (found.high - 1), 9))
    row.is_served(round(100 * (1 - found.low), 9))


def motor_zone(row):
    (zone,) = row.parts(r"zone ([AB]) voltage")
    found = ours.voltage_tolerance(f"IEC 60034-1 zone {zone}")
    row.is_served(round(100 * (found.high - 1), 9))
    row.is_served(round(100 * (1 - found.low), 9))
    frequency = ours.frequency_tolerance(f"IEC 60034-1 zone {zone}")
    printed = {"frequency +/-2 %": (0.98, 1.02), "frequency +3/-5 %": (0.95, 1.03)}[row.conditions]
    assert (frequency.low, frequency.high) == printed


def zone_edge(row):
    row.is_served(ours.zone_a_edge_rise_k().value)


def torque(row):
    (percent,) = row.parts(r"starting torque at (\d+) % voltage")
    row.rounds_to(100 * ours.starting_torque_ratio(float(percent) / 100.0))


NAMES = {
    "starting and max torque": "starting and maximum torque",
    "max overload capacity": "largest overload",
    "temperature rise, full load,": "temperature rise at full load",
}


def _effect(row):
    name, percent = row.parts(r"(.*) at (90|110) % voltage")
    found = ours.motor_change_percent(NAMES.get(name, name), int(percent))
    bounds = sorted(float(part) for part in row.value.split(".."))
    assert [found.low, found.high] == [bounds[0], bounds[-1]]
    assert found.status == row.status
    return float(percent) / 100.0


def effect(row):
    _effect(row)


def effect_of_torque(row):
    # Torque goes with the voltage squared, to a whole percent.
    row.rounds_to(100 * (_effect(row) ** 2 - 1))


def effect_of_slip(row):
    # At fixed load slip goes with one over the voltage squared, to a whole percent.
    row.rounds_to(100 * (1 / _effect(row) ** 2 - 1))


def effect_of_frequency(row):
    # Synchronous speed follows the frequency alone.
    _effect(row)
    assert row.number == 0


def iti(row):
    points = {round(100 * p.voltage_ratio): p for p in ours.ride_through("ITI")}
    if row.item.startswith("withstand zero"):
        row.is_served(1e3 * points[0].time_s)
        assert ours.rides_through(0.0, 0.0199)
        assert not ours.rides_through(0.0, 0.021)
    elif row.item.startswith("withstand 80"):
        row.is_served(points[80].time_s)
        assert ours.rides_through(0.8, 9.9)
        assert not ours.rides_through(0.79, 9.9)
    else:
        assert points[round(row.number)].time_s is None
        assert ours.rides_through(0.9, 1e9)


def semi(row):
    (percent,) = row.parts(r"tolerate sag to (\d+) % for")
    points = {round(100 * p.voltage_ratio): p for p in ours.ride_through("SEMI F47")}
    row.is_served(points[int(percent)].time_s)
    assert points[int(percent)].status == row.status


def dip(row):
    number, percent = row.parts(r"class (\d) dip to (\d+) % \((?:half cycle|long)\): duration at 50/60 Hz")
    cycles = [float(part) for part in row.value.split("/")]
    for frequency, count in zip((50, 60), cycles, strict=True):
        times = [
            point.time_s
            for point in ours.ride_through(f"IEC 61000-4-11 class {number}", frequency)
            if round(100 * point.voltage_ratio) == int(percent)
        ]
        assert any(abs(time_s - count / frequency) < 1e-12 for time_s in times)


def interruption(row):
    assert row.value == "0 % for 250/300"
    for frequency in (50, 60):
        (point,) = ours.ride_through("IEC 61000-4-11 interruption", frequency)
        assert (point.voltage_ratio, point.time_s) == (0.0, 5.0)  # 250 cycles of 50 Hz, 300 of 60 Hz
    assert table("iec-61000-4-11_2004").rows
