"""Between which voltages does a supply, a motor or an electronic load work, and for how long outside?

A tool's tolerance counts from its plate (115 or 120 V), not from the nominal voltage of the source.
Not here: how much may be lost in the wiring (drop_limits.py).
"""

from dataclasses import dataclass
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, least_sure, table

ToleranceStandard = Literal["NEMA MG 1 12.44", "IEC 60034-1 zone A", "IEC 60034-1 zone B", "IEC 60038"]
_TOLERANCE: dict[str, str] = {
    "NEMA MG 1 12.44": "nema-mg-1_12-44",
    "IEC 60034-1 zone A": "iec-60034-1_zones",
    "IEC 60034-1 zone B": "iec-60034-1_zones",
    "IEC 60038": "iec-60038",
}
_FREQUENCY: dict[str, str] = {
    "NEMA MG 1 12.44": "nema-mg-1_12-44-frequency",
    "IEC 60034-1 zone A": "iec-60034-1_zones-frequency",
    "IEC 60034-1 zone B": "iec-60034-1_zones-frequency",
}
_ANSI = "ansi-c84-1"
_EFFECTS = "motor-voltage-effects"
_RIDE: dict[str, str] = {
    "ITI": "iti_curve",
    "SEMI F47": "semi-f47_0706",
    "IEC 61000-4-11 class 2": "iec-61000-4-11_2004",
    "IEC 61000-4-11 class 3": "iec-61000-4-11_2004",
    "IEC 61000-4-11 interruption": "iec-61000-4-11_2004",
}
RideThroughCurve = Literal[
    "ITI", "SEMI F47", "IEC 61000-4-11 class 2", "IEC 61000-4-11 class 3", "IEC 61000-4-11 interruption"
]


@dataclass(frozen=True, slots=True)
class Range:
    """A range of voltage, frequency or change; unit as the function says."""

    low: float
    high: float
    citation: str
    status: str


def ansi_range_v(which: Literal["A", "B"], place: Literal["service", "utilization"]) -> Range:
    """[V] on a 120 V base. Source: ANSI C84.1; range B and utilization from memory."""
    low = table(_ANSI).at(range=which, place=place, limit="minimum")
    high = table(_ANSI).at(range=which, place=place, limit="maximum")
    return Range(low.number("voltage_v"), high.number("voltage_v"), _ANSI, least_sure(low.status, high.status))


def voltage_tolerance(standard: ToleranceStandard) -> Range:
    """[-] voltage over plate (machines) or nominal voltage (IEC 60038). Source: the standard named."""
    row = table(_TOLERANCE[standard]).at(standard=standard)
    return Range(row.number("low_ratio"), row.number("high_ratio"), _TOLERANCE[standard], row.status)


def frequency_tolerance(standard: ToleranceStandard) -> Range | OutsideTable:
    """[-] frequency over rated. Source: the standard named, from memory; IEC 60038 gives none: OutsideTable."""
    key = _FREQUENCY.get(standard)
    row = None if key is None else table(key).find(standard=standard)
    if key is None or row is None:
        return OutsideTable(f"{standard} gives no frequency", _TOLERANCE[standard])
    return Range(row.number("low_ratio"), row.number("high_ratio"), key, row.status)


def zone_a_edge_rise_k() -> CitedValue:
    """[K] more winding rise, about, at the edge of zone A than at rated voltage. Source: IEC 60034-1."""
    row = table("iec-60034-1_zone-edge").rows[0]
    return CitedValue(row.number("value"), "iec-60034-1_zone-edge", row.status)


@dataclass(frozen=True, slots=True)
class RideThrough:
    """A voltage a load must ride through.

    voltage_ratio : [-] over nominal. time_s : [s], None for ever. citation, status : where from, how sure.
    """

    voltage_ratio: float
    time_s: float | None
    citation: str
    status: str


def ride_through(curve: RideThroughCurve, frequency_hz: Literal[50, 60] = 60) -> tuple[RideThrough, ...]:
    """Points of an immunity curve, by rising voltage; durations in cycles at a frequency [Hz] become [s].

    Source: ITI (CBEMA) curve 2000, SEMI F47-0706, IEC 61000-4-11:2004.
    """
    key = _RIDE[curve]
    found: list[RideThrough] = []
    for row in table(key):
        if row.text("curve") != curve:
            continue
        cycles = row.number_or_none(f"cycles_{frequency_hz}hz")
        time_s = row.number_or_none("seconds") if cycles is None else cycles / frequency_hz
        found.append(RideThrough(row.number("voltage_percent") / 100.0, time_s, key, row.status))
    return tuple(sorted(found, key=lambda point: (point.voltage_ratio, point.time_s or float("inf"))))


def rides_through(voltage_ratio: float, time_s: float) -> bool:
    """Whether equipment on the ITI curve rides through a sag to `voltage_ratio` [-] for `time_s` [s].

    The curve is a staircase: between two printed voltages the lower one's time counts. Source: ITI curve 2000.
    """
    allowed_s: float | None = 0.0
    for point in ride_through("ITI"):
        # A sag: the points above nominal bound swells, not sags.
        if point.voltage_ratio <= min(voltage_ratio, 0.9) + 1e-12:
            allowed_s = point.time_s
    return allowed_s is None or time_s <= allowed_s


def motor_change_percent(quantity: str, voltage_percent: Literal[90, 110]) -> Range | OutsideTable:
    """[% of rated, points, or K: see the table] change of an induction motor at fixed load, 90 or 110 % voltage.

    quantity : one of `motor_change_quantities()`. Source: handbook table of voltage effects, else OutsideTable.
    """
    row = table(_EFFECTS).find(quantity=quantity, voltage_percent=str(voltage_percent))
    if row is None:
        return OutsideTable(f"the table has no {quantity}", _EFFECTS)
    return Range(row.number("change_from"), row.number("change_to"), _EFFECTS, row.status)


def motor_change_quantities() -> tuple[str, ...]:
    """Quantities of the table of voltage effects, sorted. Source: handbook table of voltage effects."""
    return tuple(sorted({row.text("quantity") for row in table(_EFFECTS)}))


def starting_torque_ratio(voltage_ratio: float) -> float:
    """[-] starting torque over rated at a voltage over rated [-]. Source: torque goes with the voltage squared."""
    return voltage_ratio**2
