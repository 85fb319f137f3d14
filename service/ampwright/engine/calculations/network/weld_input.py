"""What does a weld take from the outlet, and for how much of ten minutes does the welder bear it?

From the plate where that names what it takes and what it gives: scaled along the stick line, which an arc follows
better than a straight line. From the output alone: the conventional TIG line over 0.85 at the lowest, the stick line
over 0.75 at the highest, over 0.815 usually, which is where meters put TIG welds too. Duty from I1eff and I1max, whose
ratio squared is the share of ten minutes at the rated output where little is drawn without an arc.
Source: IEC 60974-1 through engine/physics/welder_input; efficiencies and the usual one common practice, no source.
"""

from __future__ import annotations

from ampwright.engine.physics.welder_input import (
    STICK,
    TIG,
    welder_duty,
    welder_input_band_w,
    welder_load_voltage_v,
)
from ampwright.engine.site.band import Band
from ampwright.engine.site.settle_tool import USUAL_WELD_EFFICIENCY
from ampwright.engine.site.settled import Placement
from ampwright.engine.site.tool import SupplyOption


def rated_output_a(placement: Placement) -> float | None:
    """[A] that a welder's plate says it gives; None for any other tool, or where the plate does not say."""
    option = placement.option
    if placement.load_class.name != "welder" or option is None or option.output_a is None:
        return None
    return option.output_a.high


def weld_power_w(placement: Placement, output_a: float) -> tuple[float, float, float]:
    """[W] that a weld takes: low, usual and high. output_a : [A], up to the rated output.

    Errors: ValueError for a placement without a rated output.
    """
    rated, option = rated_output_a(placement), placement.option
    if rated is None or option is None:
        raise ValueError("no welder with a rated output")
    if _input_is_known(placement, option):
        heavy = placement.state("heavy").power_va
        share = _stick_w(output_a) / _stick_w(rated)
        low, usual, high = (power.real * share for power in heavy)
        return low, usual, high
    low, high = welder_input_band_w(TIG, output_a)
    return low, _stick_w(output_a) / USUAL_WELD_EFFICIENCY, high


def weld_input(placement: Placement, output_a: float) -> tuple[Band, Band]:
    """[W] and [A] at plate voltage that a weld takes, in figures that a request can repeat."""
    watts = [float(f"{value:.0f}") for value in weld_power_w(placement, output_a)]
    factors = [power.real / max(abs(power), 1e-9) for power in placement.state("heavy").power_va]
    amps = [round(power / placement.plate_voltage_v / factor, 3) for power, factor in zip(watts, factors, strict=True)]
    amps.sort()
    return Band(watts[0], watts[1], watts[2]), Band(amps[0], amps[1], amps[2])


def duty_ratio(placement: Placement, output_a: float) -> float | None:
    """[-] share of ten minutes; None where the plate does not give I1max and I1eff."""
    rated, option = rated_output_a(placement), placement.option
    if rated is None or option is None or option.current_a is None or option.effective_current_a is None:
        return None
    at_rated = min(1.0, (option.effective_current_a.typical / option.current_a.typical) ** 2)
    return float(welder_duty(rated, at_rated, output_a))


def _input_is_known(placement: Placement, option: SupplyOption) -> bool:
    plate = (option.current_a, option.power_w, option.apparent_power_va)
    states = (*option.load_states, *placement.tool.load_states)
    measured = any(state.power_w is not None or state.current_a is not None for state in states)
    return measured or any(item is not None for item in plate)


def _stick_w(output_a: float) -> float:
    return float(welder_load_voltage_v(STICK, output_a) * output_a)
