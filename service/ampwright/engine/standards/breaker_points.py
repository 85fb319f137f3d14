"""What does the standard of an overcurrent device promise about holding and tripping?

Only the printed points: between them a standard bounds nothing but the next point (a device that must trip at 135 %
within the hour may take the whole hour at 142 %). Bands between points are assumptions of the physics.
Not here: residual current devices (ground_fault_devices.py), trip curves (physics), which size the code asks for
(receptacle_circuits.py).
"""

from dataclasses import dataclass
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, least_sure, table

DeviceStandard = Literal["UL 489", "NEMA AB 4", "IEC 60898-1", "UL 1077", "IEC 60934", "BS 1362"]
DEVICE_STANDARDS: tuple[DeviceStandard, ...] = (
    "UL 489",
    "NEMA AB 4",
    "IEC 60898-1",
    "UL 1077",
    "IEC 60934",
    "BS 1362",
)
_POINTS: dict[str, str] = {
    "UL 489": "ul-489_points",
    "NEMA AB 4": "nema-ab-4_t3",
    "IEC 60898-1": "iec-60898-1_t7",
    "UL 1077": "ul-1077_points",
    "IEC 60934": "iec-60934_points",
    "BS 1362": "bs-1362_points",
}
_INSTANTANEOUS = "iec-60898-1_instantaneous"
_STANDARD_RATINGS = "nfpa-70_2023_t240-6-a"


@dataclass(frozen=True, slots=True)
class DevicePoint:
    """One point a device is tested at.

    multiple : [-] current over rating. demand : "holds" (may not trip before) or "trips within".
    time_s : [s], None where it holds without end. start : "cold", or the test it follows straight after (hot).
    """

    multiple: float
    demand: Literal["holds", "trips within"]
    time_s: float | None
    start: str
    citation: str
    status: str


def device_points(standard: DeviceStandard, rated_current_a: float) -> tuple[DevicePoint, ...]:
    """Points for a device of a rated current [A], by rising multiple; empty where the standard has none for it.

    Source: UL 489, NEMA AB 4 table 3, IEC 60898-1 table 7, UL 1077, IEC 60934, BS 1362; see DevicePoint.citation.
    """
    key = _POINTS[standard]
    found: list[DevicePoint] = []
    for row in table(key):
        most = row.number_or_none("rating_to_a")
        if row.number("rating_above_a") < rated_current_a and (most is None or rated_current_a <= most):
            found.append(
                DevicePoint(
                    row.number("multiple"),
                    "holds" if row.text("demand") == "holds" else "trips within",
                    row.number_or_none("seconds"),
                    row.text("start"),
                    key,
                    row.status,
                )
            )
    return tuple(sorted(found, key=lambda point: (point.multiple, point.demand)))


@dataclass(frozen=True, slots=True)
class InstantaneousBand:
    """Multiples of rating [-]: up to `holds` a device does not trip at once (0.1 s), from `trips` it must."""

    holds: float
    trips: float
    citation: str
    status: str


def instantaneous_band(curve: Literal["B", "C", "D"]) -> InstantaneousBand:
    """Instantaneous band of a breaker by its curve. Source: IEC 60898-1 table 7."""
    rows = {row.text("demand"): row for row in table(_INSTANTANEOUS) if row.text("curve") == curve}
    holds, trips = rows["holds"], rows["trips"]
    status = least_sure(holds.status, trips.status)
    return InstantaneousBand(holds.number("multiple"), trips.number("multiple"), _INSTANTANEOUS, status)


def trip_latest_guaranteed_s(standard: DeviceStandard, rated_current_a: float, current_a: float) -> float | None:
    """[s] when a device must have tripped at this steady current [A] from cold: the step the points make.

    None where the standard lets it carry the current for ever. Source: see `device_points`.
    """
    multiple = current_a / rated_current_a
    times = [
        point.time_s
        for point in device_points(standard, rated_current_a)
        if point.demand == "trips within" and point.time_s is not None and point.multiple <= multiple
    ]
    return min(times, default=None)


def continuous_limit_ratio() -> CitedValue:
    """[-] continuous load (3 h or more) over rating of a breaker not marked 100 %. Source: UL 489, NEC 210.20(A)."""
    row = next(row for row in table("ul-489_limits") if row.text("unit") == "% of rating")
    return CitedValue(row.number("value") / 100.0, "ul-489_limits", row.status)


def smallest_interrupting_rating_a() -> CitedValue:
    """[A] least interrupting rating of a UL 489 breaker. Source: UL 489."""
    row = next(row for row in table("ul-489_limits") if row.text("unit") == "A")
    return CitedValue(row.number("value"), "ul-489_limits", row.status)


def protects_branch_circuit(standard: DeviceStandard) -> CitedValue:
    """1 where a device of this standard may protect a branch circuit, 0 where it needs another upstream.

    Source: UL 1077, NEC 240.10; IEC 60934 and BS 1362 from memory.
    """
    if standard == "UL 1077":
        row = table("ul-1077_limits").rows[0]
        return CitedValue(0.0, "ul-1077_limits", row.status)
    return CitedValue(0.0 if standard in ("IEC 60934", "BS 1362") else 1.0, _POINTS[standard], "memory")


def standard_ratings_a() -> tuple[float, ...]:
    """[A] standard ratings of breakers and fuses, rising. Source: NFPA 70 table 240.6(A), from memory."""
    return tuple(sorted(row.number("rating_a") for row in table(_STANDARD_RATINGS)))


def next_standard_rating_a(current_a: float) -> CitedValue | OutsideTable:
    """[A] smallest standard rating that is not below a current [A]. Source: NFPA 70 table 240.6(A), from memory."""
    for rating_a in standard_ratings_a():
        if rating_a >= current_a:
            return CitedValue(rating_a, _STANDARD_RATINGS, "memory")
    return OutsideTable(f"no standard rating from {current_a:g} A in the part kept here", _STANDARD_RATINGS)
