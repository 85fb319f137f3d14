"""At what leakage does a ground-fault device trip, how fast, and what must it not trip on?

Not here: where the code asks for one (ground_fault_rules.py).
"""

from dataclasses import dataclass
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

CLASS_A_TRIP_A = 0.006
"""[A] UL 943: a class A device trips from 4 to 6 mA; from 6 mA it must."""
PERSONNEL_RCD_A = 0.030
"""[A] IEC 61008-1: rated residual current of the devices that protect persons."""
_UL = "ul-943_class-a"
_IEC = "iec-61008-1_t1"


def class_a_latest_trip_s(leakage_a: float) -> CitedValue | OutsideTable:
    """[s] longest time a class A GFCI may take at a leakage to ground [A].

    T = (20/I)^1.43, I in mA; valid 6 to 264 mA. Source: UL 943. Outside: OutsideTable.
    """
    shortest, longest = (
        table(_UL).find(quantity=f"{word} valid current of the time formula") for word in ("shortest", "longest")
    )
    if shortest is None or longest is None:
        return OutsideTable("the range of the formula is missing", _UL)
    leakage_ma = leakage_a * 1000.0
    # A tolerance of one part in 10^9, so that 0.264 A is not put outside by its binary form.
    if not shortest.number("value") * (1 - 1e-9) <= leakage_ma <= longest.number("value") * (1 + 1e-9):
        return OutsideTable(f"the formula holds from 6 to 264 mA, not at {leakage_ma:g} mA", _UL)
    return CitedValue((20.0 / leakage_ma) ** 1.43, _UL, "formula")


def class_a_holds_below_a() -> CitedValue:
    """[A] leakage below which a class A GFCI may not trip. Source: UL 943."""
    row = table(_UL).at(quantity="holds below")
    return CitedValue(row.number("value") / 1000.0, _UL, row.status)


@dataclass(frozen=True, slots=True)
class ResidualTime:
    """Trip times of an RCD at a multiple of its rated residual current.

    multiple : [-]. trips_within_s : [s]. holds_for_s : [s] shortest non-actuating time, None without one.
    """

    multiple: float
    trips_within_s: float
    holds_for_s: float | None
    citation: str
    status: str


def residual_times(kind: Literal["rcd_general", "rcd_selective"]) -> tuple[ResidualTime, ...]:
    """Points of a general or selective (type S) RCD, by rising multiple. Source: IEC 61008-1 table 1."""
    rows = [row for row in table(_IEC) if row.text("device") == kind and row.text("quantity") == "trips within"]
    found: list[ResidualTime] = []
    for row in rows:
        hold = table(_IEC).find(device=kind, quantity="holds for", at_multiple=row.text("at_multiple"))
        found.append(
            ResidualTime(
                row.number("at_multiple"),
                row.number("value"),
                None if hold is None else hold.number("value"),
                _IEC,
                row.status,
            )
        )
    return tuple(found)


def rcd_holds_at_ratio() -> CitedValue:
    """[-] residual current over rating at which an RCD may not trip. Source: IEC 61008-1, from memory."""
    row = table(_IEC).at(device="rcd_general", quantity="holds at")
    return CitedValue(row.number("value"), _IEC, row.status)
