"""What current do the code's tables give a single-phase motor, and what may protect and feed it?

Table currents size conductors and devices; they are deliberately high (efficiency times power factor 0.33 at 1/2 hp)
and must never stand for what a motor draws. A plate, when there is one, goes before them.
Not here: locked-rotor current from a code letter (code_letters.py).
"""

from typing import Literal

from ampwright.engine.standards.code_letters import HORSEPOWER_W
from ampwright.engine.standards.loader import CitedValue, OutsideTable, Row, table

_FULL_LOAD = "nfpa-70_2023_t430-248"
_LOCKED = "nfpa-70_2008_t430-251-a"
_DEVICE = "nfpa-70_2023_t430-52"
_RULES = "nfpa-70_2023_motor-rules"
_EFFICIENCY = "10-cfr-431-446"
ProtectiveDevice = Literal[
    "non-time-delay fuse", "dual-element fuse", "instantaneous-trip breaker", "inverse-time breaker"
]


def horsepower_from_text(text: str) -> float:
    """Horsepower of a printed fraction: "1/2", "1-1/2", "10". Source: notation of NFPA 70 table 430.248."""
    whole, _, part = text.rpartition("-")
    numerator, _, denominator = part.partition("/")
    value = float(numerator) / float(denominator) if denominator else float(numerator)
    return value + (float(whole) if whole else 0.0)


def _row_of(key: str, shaft_power_w: float, voltage_v: float) -> Row | None:
    # Plates print 746 W or 0.55 kW for a horsepower rating: half a percent finds the printed one.
    for row in table(key):
        printed_w = horsepower_from_text(row.text("shaft_hp")) * HORSEPOWER_W
        if row.number("voltage_v") == voltage_v and abs(shaft_power_w - printed_w) <= 0.005 * printed_w:
            return row
    return None


def full_load_current_a(shaft_power_w: float, voltage_v: float) -> CitedValue | OutsideTable:
    """[A] table current of a single-phase motor.

    shaft_power_w : [W], one of the printed ratings (1/6 to 10 hp). voltage_v : [V], 115, 200, 208 or 230.
    Source: NFPA 70 table 430.248. Else OutsideTable: the code forbids interpolating downward, so nothing is guessed.
    """
    row = _row_of(_FULL_LOAD, shaft_power_w, voltage_v)
    if row is None:
        return OutsideTable(f"table 430.248 has no {shaft_power_w:.0f} W motor at {voltage_v:g} V", _FULL_LOAD)
    return CitedValue(row.number("full_load_current_a"), _FULL_LOAD, row.status)


def locked_rotor_ceiling_a(shaft_power_w: float, voltage_v: float) -> CitedValue | OutsideTable:
    """[A] locked-rotor current for sizing disconnects, a design ceiling. Source: NFPA 70 table 430.251(A).

    shaft_power_w : [W], 1/2 to 10 hp. voltage_v : [V], 115, 208 or 230. Else OutsideTable.
    """
    row = _row_of(_LOCKED, shaft_power_w, voltage_v)
    if row is None:
        return OutsideTable(f"table 430.251(A) has no {shaft_power_w:.0f} W motor at {voltage_v:g} V", _LOCKED)
    return CitedValue(row.number("locked_rotor_current_a"), _LOCKED, row.status)


def largest_device_ratio(device: ProtectiveDevice) -> CitedValue:
    """[-] largest rating of a short-circuit device over table current. Source: NFPA 70 430.52(C)(1)."""
    row = table(_DEVICE).at(device=device)
    return CitedValue(row.number("largest_percent") / 100.0, _DEVICE, row.status)


def conductor_ratio() -> CitedValue:
    """[-] least conductor ampacity over table current, one motor, continuous duty. Source: NFPA 70 430.22."""
    row = table(_RULES).at(rule="conductor of one motor, continuous duty")
    return CitedValue(row.number("value") / 100.0, _RULES, row.status)


def overload_trip_ratio(service_factor_115_or_rise_40: bool) -> CitedValue:
    """[-] largest overload trip over plate current. Source: NFPA 70 430.32(A)(1), from memory."""
    wanted = "overload trip, service factor 1.15 or rise 40 C"
    row = table(_RULES).at(rule=wanted if service_factor_115_or_rise_40 else "overload trip, all others")
    return CitedValue(row.number("value") / 100.0, _RULES, row.status)


def shared_circuit_motor_limit_a() -> CitedValue:
    """[A] full-load current of each of several motors on one general-purpose circuit. Source: NFPA 70 430.53(A)."""
    row = table(_RULES).at(rule="several motors on a general-purpose circuit, each at most")
    return CitedValue(row.number("value"), _RULES, row.status)


def full_load_efficiency_ratio(
    motor: Literal["polyphase, open", "capacitor-start single-phase, open"], shaft_hp: str, poles: Literal[2, 4, 6]
) -> CitedValue | OutsideTable:
    """[-] least average full-load efficiency of a small motor sold in the US; older motors lie below.

    shaft_hp : as printed, "0.25" to "3". Source: 10 CFR 431.446(a). Else OutsideTable.
    """
    row = table(_EFFICIENCY).find(motor=motor, shaft_hp=shaft_hp, poles=str(poles))
    if row is None:
        return OutsideTable(f"431.446(a) has no {motor} motor of {shaft_hp} hp with {poles} poles", _EFFICIENCY)
    return CitedValue(row.number("efficiency_percent") / 100.0, _EFFICIENCY, row.status)
