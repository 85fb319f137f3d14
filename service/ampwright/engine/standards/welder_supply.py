"""What does an arc welder draw from its supply, by standard and code?

Order of trust elsewhere: measured points, then the plate (I1max, I1eff, duty), and only then the conventional load
voltage here. Field readings of TIG input run well above the TIG line.
Not here: how long an inverter carries it (physics).
"""

import math
from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

Process = Literal["stick", "tig", "wire"]
_VOLTAGE = "iec-60974-1_load-voltage"
_FACTOR = "nfpa-70_2008_t630-11-a"
_GROUP = "nfpa-70_2023_630-11-b"
_EFFICIENCY = "eu-2019-1784_annex-2"


def conventional_load_voltage_v(process: Process, output_current_a: float) -> CitedValue:
    """[V] conventional load voltage at an output current [A]. Source: IEC 60974-1 (caps of stick and wire: memory)."""
    row = table(_VOLTAGE).at(process=process)
    line_v = row.number("constant_v") + row.number("slope_v_per_a") * output_current_a
    return CitedValue(min(line_v, row.number("cap_v")), _VOLTAGE, row.status)


def supply_current_a(
    process: Process, output_current_a: float, supply_voltage_v: float, efficiency_ratio: float, power_factor: float
) -> CitedValue:
    """[A] supply current of a single-phase welder at the conventional load.

    output_current_a : [A]. supply_voltage_v : [V]. efficiency_ratio, power_factor : [-].
    Source: IEC 60974-1; power balance.
    """
    output_v = conventional_load_voltage_v(process, output_current_a)
    input_va = output_v.value * output_current_a / (efficiency_ratio * power_factor)
    return CitedValue(input_va / supply_voltage_v, _VOLTAGE, output_v.status)


def effective_supply_current_a(rated_current_a: float, idle_current_a: float, duty_ratio: float) -> float:
    """[A] I1eff of a rated supply current [A], no-load supply current [A] and duty [-]. Source: IEC 60974-1."""
    return math.sqrt(rated_current_a**2 * duty_ratio + idle_current_a**2 * (1.0 - duty_ratio))


def duty_factor(motor_generator: bool, duty_ratio: float) -> CitedValue:
    """[-] factor on the rated primary current that sizes the conductors of an individual circuit.

    duty_ratio : [-], 0 to 1; between printed steps the next higher is taken; 20 % or less is one step.
    Source: NFPA 70 table 630.11(A).
    """
    welder = "motor-generator" if motor_generator else "without motor-generator"
    rows = [row for row in table(_FACTOR) if row.text("welder") == welder]
    fitting = [row for row in rows if row.number("duty_percent") >= duty_ratio * 100.0 - 1e-9]
    row = min(fitting, key=lambda each: each.number("duty_percent"), default=rows[0])
    return CitedValue(row.number("factor"), _FACTOR, row.status)


def group_ratio(rank: int) -> CitedValue:
    """[-] share of the rank-th largest welder on one feeder; five and more alike. Source: NFPA 70 630.11(B)."""
    row = table(_GROUP).at(rank=str(min(max(rank, 1), 5)))
    return CitedValue(row.number("percent") / 100.0, _GROUP, row.status)


def largest_device_ratio() -> CitedValue:
    """[-] largest overcurrent device over I1max, on an individual circuit only. Source: NFPA 70 630.12(A)."""
    return CitedValue(2.0, "nfpa-70_630-12", "verified")


def least_efficiency_ratio(output: Literal["dc", "ac"], phases: Literal[1, 3]) -> CitedValue | OutsideTable:
    """[-] least efficiency of a source sold in the EU from 2023. Source: Regulation (EU) 2019/1784 annex II."""
    dc = "efficiency, three-phase input, DC output" if phases == 3 else "efficiency, single-phase input, DC output"
    row = table(_EFFICIENCY).find(quantity=dc if output == "dc" else "efficiency, AC output")
    if row is None:
        return OutsideTable(f"no efficiency for {output} output", _EFFICIENCY)
    return CitedValue(row.number("value") / 100.0, _EFFICIENCY, row.status)


def largest_idle_power_w() -> CitedValue:
    """[W] largest idle power of a source sold in the EU from 2023. Source: Regulation (EU) 2019/1784 annex II."""
    row = table(_EFFICIENCY).at(quantity="largest idle power")
    return CitedValue(row.number("value"), _EFFICIENCY, row.status)


def pulsed_duty_ratio(on_cycles: float, off_cycles: float) -> float:
    """[-] duty of a seam welder from its on and off cycles. Source: NFPA 70 630.31, informational note."""
    return on_cycles / (on_cycles + off_cycles)


def spot_duty_ratio(welds_per_hour: float, cycles_per_weld: float, frequency_hz: float) -> float:
    """[-] duty of a spot welder from welds an hour [1/h], cycles a weld and frequency [Hz]. Source: as above."""
    return welds_per_hour * cycles_per_weld / frequency_hz / 3600.0
