"""How far may an engine set's voltage and frequency swing, and how is it sized for a motor start?

Not here: what a particular set does (physics); what altitude and heat take (engine_derating.py).
"""

from dataclasses import dataclass
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, least_sure, table

PerformanceClass = Literal["G1", "G2", "G3"]
_ISO = "iso-8528-5_t4"
_MIL = "mil-dtl-53133_3-21"
_SHIP = "ship-rules_6-4-4"
_GUIDES = "utility-guides_motor-start"


@dataclass(frozen=True, slots=True)
class ClassLimits:
    """Limits of a performance class; ratios over rated, falls negative.

    steady_voltage_ratio, voltage_on_increase_ratio, voltage_on_decrease_ratio : [-]. voltage_recovery_s : [s].
    droop_ratio, frequency_on_increase_ratio, frequency_on_decrease_ratio, frequency_band_ratio : [-].
    frequency_recovery_s : [s]. voltage_setting_ratio : [-].
    """

    performance_class: str
    steady_voltage_ratio: float
    voltage_on_increase_ratio: float
    voltage_on_decrease_ratio: float
    voltage_recovery_s: float
    droop_ratio: float
    frequency_on_increase_ratio: float
    frequency_on_decrease_ratio: float
    frequency_recovery_s: float
    frequency_band_ratio: float
    voltage_setting_ratio: float
    citation: str
    status: str


def class_limits(performance_class: PerformanceClass) -> ClassLimits:
    """Limits of a class; G4 is by agreement and has none. Source: ISO 8528-5 table 4; G1 and G3 from memory."""
    rows = {row.text("quantity"): row for row in table(_ISO) if row.text("performance_class") == performance_class}

    def ratio(quantity: str) -> float:
        return rows[quantity].number("value") / 100.0

    return ClassLimits(
        performance_class,
        ratio("steady-state voltage deviation"),
        ratio("transient voltage, sudden power increase"),
        ratio("transient voltage, sudden power decrease"),
        rows["voltage recovery time"].number("value"),
        ratio("frequency droop"),
        ratio("transient frequency, sudden power increase"),
        ratio("transient frequency, sudden power decrease"),
        rows["frequency recovery time"].number("value"),
        ratio("steady-state frequency band"),
        ratio("voltage setting range"),
        _ISO,
        least_sure(*(row.status for row in rows.values())),
    )


def mobile_set_dip(quantity: str) -> CitedValue:
    """[% or s, see the table] what a three-phase mobile set must keep. Source: MIL-DTL-53133/6B 3.21.

    Errors: UncitedTable for a quantity the table does not hold.
    """
    row = table(_MIL).at(quantity=quantity)
    return CitedValue(row.number("value"), _MIL, row.status)


def load_rejection_rise_ratio() -> CitedValue:
    """[-] largest voltage rise on throwing off rated load at 0.8 power factor. Source: rules for ships 6.4.4."""
    row = table(_SHIP).rows[0]
    return CitedValue(row.number("value") / 100.0, _SHIP, row.status)


def motor_start_allowance_ratio() -> CitedValue:
    """[-] starting over running power when nothing else is known; some motors need 5 to 6. Source: utility guide."""
    row = table(_GUIDES).at(quantity="motor start allowance when only running power is known")
    return CitedValue(row.number("value"), _GUIDES, row.status)


def largest_starting_load_ratio() -> CitedValue:
    """[-] starting load over rating of a set, worksheet guidance. Source: public power district worksheet."""
    row = table(_GUIDES).at(quantity="starting load at most")
    return CitedValue(row.number("value") / 100.0, _GUIDES, row.status)
