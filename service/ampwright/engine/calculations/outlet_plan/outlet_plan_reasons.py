"""Why can tools not all be on? Reason codes of a plan, in words, and what a person does about it.

A reason that is a finding of the load check keeps that finding's code and words. Never told: an adapter, a bigger
breaker, use above a label, an order of starting.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.finding_codes import FINDING_CODES


@dataclass(frozen=True, slots=True)
class PlanReason:
    """alone : of one tool; several : of tools that do not go together. `{tools}` are their names."""

    alone: str
    several: str
    what_to_do: str
    alone_to_do: str = ""

    @property
    def meaning(self) -> str:
        """For a list of codes: of one tool or of several, and what to do."""
        said = self.several.format(tools="the tools")
        return f"{said[0].upper()}{said[1:]} {self.what_to_do}"


PLAN_REASONS: dict[str, PlanReason] = {
    "no_receptacle": PlanReason(
        "The source has no receptacle for {tools}.",
        "The source has no receptacle.",
        "Bring a source with receptacles.",
    ),
    "no_outlet_fits": PlanReason(
        "Nothing that was asked of the outlet of {tools} can be met.",
        "Nothing that was asked of the outlets of {tools} can be met.",
        "Look again at what the wish for it says.",
    ),
    "plug_does_not_fit": PlanReason(
        "No receptacle or spare cord takes the plug of {tools}.",
        "No receptacles or spare cords take the plugs of {tools}.",
        "Bring a source with a matching receptacle; do not defeat the pattern with an adapter.",
    ),
    "voltage_does_not_match": PlanReason(
        "No receptacle gives {tools} a voltage that it takes.",
        "No receptacles give {tools} their voltages.",
        "Bring a source of its voltage, or another tool.",
    ),
    "out_of_reach": PlanReason(
        "No spare cord brings {tools} to where it is used.",
        "No spare cords bring {tools} to where they are used.",
        "Bring a longer cord that is thick enough, or move the source closer.",
    ),
    "circuit_over_rating": PlanReason(
        "{tools} takes more than any circuit that it could be on.",
        "{tools} together take more than the circuits that they could be on.",
        "Run fewer of them at once, or bring a source with more circuits.",
        "Bring a source with a circuit of its size, or a smaller tool.",
    ),
    "receptacle_over_rating": PlanReason(
        "{tools} takes more than any receptacle that it fits is marked for.",
        "{tools} together take more than the receptacles that they fit are marked for.",
        "Bring a source with a receptacle of its size.",
    ),
    "cord_over_marked_rating": PlanReason(
        "{tools} takes more than any cord that reaches is good for.",
        "{tools} together take more than the cords that they share are good for.",
        "Bring a cord with a higher mark.",
    ),
    "low_voltage_at_tool": PlanReason(
        "{tools} would be short of voltage on every cord that reaches.",
        "{tools} together would be short of voltage.",
        "Bring a thicker cord, or move the source closer.",
    ),
    "limit_over_continuous": PlanReason(
        "{tools} takes more than the source gives continuously.",
        "{tools} together take more than the source gives continuously.",
        "Run fewer of them at once, or bring a larger source.",
        "Bring a larger source, or a smaller tool.",
    ),
    "outlets_taken": PlanReason(
        "There is no free outlet for {tools}.",
        "There are not outlets enough for {tools}.",
        "Bring a cord with several outlets that is good for what hangs on it.",
    ),
    "cords_taken": PlanReason(
        "There is no spare cord left for {tools}.",
        "There are not spare cords enough for {tools}.",
        "Bring another cord.",
    ),
    "lights_on_tool_circuit": PlanReason(
        "{tools} would have to share a circuit with tools.",
        "{tools} would have lights and tools on one circuit.",
        "Give lights a circuit, or a source, of their own.",
    ),
    "goes_with": PlanReason(
        "{tools} stays off with what it belongs to.",
        "{tools} stay off with what they belong to.",
        "Settle what keeps the others off.",
    ),
    "several_reasons": PlanReason(
        "{tools} does not go for several reasons together.",
        "{tools} do not go together for several reasons at once.",
        "Leave one of them out.",
    ),
    "not_settled": PlanReason(
        "It was not worked out to the end why {tools} stays off.",
        "It was not worked out to the end why {tools} do not go together.",
        "Ask again with fewer tools or cords.",
    ),
}


def reason_text(code: str, names: str, count: int, told: str | None = None) -> tuple[str, str]:
    """Words of a reason and what to do. told : the finding's own text, where the load check found it."""
    known = PLAN_REASONS.get(code)
    finding = FINDING_CODES.get(code)
    if told is not None and finding is not None:
        todo = finding.what_to_do if "{" not in finding.what_to_do else (known.what_to_do if known else "")
        return told, todo or "Leave it out, or settle the finding."
    if known is None:
        known = PLAN_REASONS["several_reasons"]
    if count == 1:
        return known.alone.format(tools=names), known.alone_to_do or known.what_to_do
    return known.several.format(tools=names), known.what_to_do
