"""Which rules is a run of cords held against, and how does one line say how it stands?

A line carries a band, a limit and the side it is on; its margin is what is left at the worst end of the band. An
advisory line changes no verdict. `finding` names the finding code that tells a line which is not met.
Source: each module that makes lines names the sources of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band

LINE_CODES: dict[str, str] = {
    "run_length": "Does the run reach?",
    "plugs": "Does every plug enter its outlet, and is the tool's voltage there?",
    "cord_current": "Does the current stay within mark, ends and ampacity of the cord?",
    "copper_temperature": "How warm does the copper get, as the cord is laid?",
    "copper_temperature_in_duty": "How warm does the copper get over the stated on and off times?",
    "copper_temperature_if_coiled": "How warm would it get if it were left coiled?",
    "tool_voltage": "Is enough voltage left at the tool?",
    "voltage_drop": "Is the loss within what the standards recommend?",
    "voltage_collapse": "Can the power arrive at all?",
    "start": "Does the tool get up to speed before the device opens or the source gives up?",
    "start_time": "Does it get up to speed quickly?",
    "stalled_motor": "If it stands still, does anything switch it off?",
    "circuit_current": "Does the circuit carry the tool?",
    "receptacle_current": "Does the receptacle carry the tool?",
    "source_output": "Does the source give the tool its power?",
    "source_peak": "Does the source give the tool its current crests?",
    "cords_in_series": "How many cords are plugged into one another?",
    "mixed_sizes": "Is the run of one size throughout?",
    "cord_type": "Is the cord made for hard or extra-hard usage?",
    "outdoor_jacket": "Is the jacket made for outdoors?",
    "jacket_voltage": "Is the cord made for this voltage?",
    "cold_jacket": "Does the jacket stay flexible in this cold?",
    "earth_conductor": "Is there an earth conductor where one is needed?",
    "cord_ends": "Are plug and connector sound?",
    "device_and_cord": "What does the cord see before the device upstream acts?",
    "fault_clearing": "Does a dead short at the far end go away before the cord is ruined?",
    "disconnection_time": "Is a fault to earth at the far end cut off in the time the layer asks for?",
    "ground_fault_protection": "Has the receptacle the ground-fault protection that is asked for?",
    "motor_conductor": "Would the conductor rule for motors be met?",
    "welder_conductor": "Would the conductor rule for welders be met?",
    "continuous_load": "Would the conductor rule for loads of three hours be met?",
    "code_basis": "Does a rule layer that was asked for decide anything?",
    "guidance_table": "Does the portable-tool guidance name this size or a thinner one?",
}
"""Every line code with the question it answers."""


@dataclass(frozen=True, slots=True)
class Line:
    """One rule held against one run, or against the receptacle.

    side : "most" where the value may not exceed the limit, "least" where it may not fall below, "" without a limit.
    cord : index in the run. basis : (citation key, status of the row used or None). rules : codes of rule layers.
    """

    code: str
    aspect: str
    verdict: str
    pointer: str
    subject: str
    finding: str | None = None
    advisory: bool = False
    load_state: str | None = None
    cord: int | None = None
    figure: str | None = None
    unit: str = ""
    value: Band | None = None
    limit: float | None = None
    side: str = "most"
    limit_from: str | None = None
    outcome: str | None = None
    value_text: str = ""
    limit_text: str = ""
    basis: tuple[tuple[str, str | None], ...] = ()
    rules: tuple[str, ...] = ()

    @property
    def margin(self) -> float | None:
        """What is left at the worst end of the band; negative where the limit is passed there."""
        if self.value is None or self.limit is None or not self.side:
            return None
        return self.limit - self.value.high if self.side == "most" else self.value.low - self.limit


def worst_shown(line: Line) -> float | None:
    """The value to show in a sentence: typical where that is over, else the worst end."""
    if line.value is None:
        return None
    if line.limit is None or not line.side:
        return line.value.typical
    over = line.value.typical > line.limit if line.side == "most" else line.value.typical < line.limit
    if over:
        return line.value.typical
    return line.value.high if line.side == "most" else line.value.low
