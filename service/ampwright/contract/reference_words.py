"""What do the open words of an answer mean? The list that `GET /v1/reference/words` serves.

A test holds every list that the engine can say completely against the engine.
"""

from __future__ import annotations

from types import MappingProxyType

from ampwright.engine.calculations.after_trip.after_trip_codes import AFTER_TRIP_CODES
from ampwright.engine.calculations.choosing.kit_validation import INVALIDATORS
from ampwright.engine.calculations.choosing.missing_items import MISSING_ITEMS
from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import LINE_CODES
from ampwright.engine.calculations.load_check.crew_card_codes import CREW_CARD_CODES
from ampwright.engine.calculations.outlet_plan.outlet_plan_reasons import PLAN_REASONS
from ampwright.engine.calculations.reverse.break_even_kinds import KINDS, WHY_NONE

CHOICES = {
    "as_asked": "The run of cords that was asked about.",
    "use": "Of the cords at hand, the run with the best verdict, the fewest cords, then the least lost.",
    "smallest": "The thinnest size that passes every rule; else that passes while the tool works; else that is "
    "marginal.",
    "smallest_if_unrolled": "The same, if the cord is laid out its whole length.",
    "careful": "The thinnest size that also loses no more than recommended and that the tool guidance names.",
}
PLAN_CHOICES = {
    "only_option": "The tool has no other supply option.",
    "asked_for": "The wish for the tool names it.",
    "others_fit_nowhere": "No outlet takes the tool by its other supply options.",
    "better_plan": "The whole plan is better so than with another supply option.",
}
STARTS = {
    "starts": "It gets to its speed.",
    "starts_slowly": "It gets there late, or settles below its speed.",
    "hunts": "Its start switch opens and closes again and again.",
    "stalls": "It stands still, or creeps.",
    "source_limits": "It is still speeding up when twenty seconds are over, held down by the source.",
    "shuts_off": "The source switches off before it is at speed.",
    "collapses": "The source loses its voltage.",
    "trips": "The circuit's device opens before it is at speed.",
    "no_start": "It has no start to speak of, as a heater.",
    "not_assessed": "Nothing here can say: its start is not known, or it runs on direct current.",
}
FAULTS = {
    "device_opens": "The circuit's device opens before a cord is ruined.",
    "cord_bears_it": "The short draws no more than the cords bear without end.",
    "source_shuts_down": "The source switches itself off.",
    "source_response_unknown": "The source limits its current, and nobody said whether it then switches off.",
    "ground_fault_device_only": "Only a ground-fault device clears it, and only a fault to earth.",
    "device_unknown": "Nobody said what device, or what source impedance, stands before the run.",
    "opens_too_late": "The device opens after the cord is ruined.",
    "nothing_opens": "Nothing opens; the cord burns.",
}
REACHES = {
    "limited": "Beyond `longest_m` a rule fails; `limited_by` is its line code.",
    "any_length": "Nothing fails up to the longest run that is looked at.",
    "no_length": "A rule fails at any length.",
}
CAPACITY_FROM = {
    "marked": "The rating printed on the cord.",
    "usual_mark": "What cords of its size and length are marked with.",
    "usual_ends": "What its ends are taken to be rated where nobody said: 15 A in North America, elsewhere like the "
    "smallest receptacle of the source.",
    "plug": "The rating of its plug.",
    "outlets": "The rating of its outlets.",
    "ampacity": "What its conductors carry, reduced for heat.",
}
LIMIT_FROM = {
    "straight_in": "The tool plugged straight into the receptacle fares no better: not the cord's to mend.",
    "less_cord": "With less cord in between the tool starts worse: a run gets no credit for holding its current down.",
}
NOT_ASSESSED = {
    "after_trip": "What happens when power returns after a trip, tool by tool.",
    "assumptions": "Some assumptions were not tried the other way: too many.",
    "code_rules": "No rule layer was asked for.",
    "cold_battery": "Whether the cells of a battery station, cold as the place, give what runs: see energy budgets.",
    "combinations": "Some combinations of hand tools: too many.",
    "pushes": "Tools pushed beyond their working draw, in a case of many.",
    "running_alone": "Whether the source feeds each tool of the day by itself.",
    "running_together": "Whether all sets of tools that the people can run at a time run together: too many to try.",
    "sag": "What other tools feel while one starts.",
    "start": "Whether a tool starts.",
}
STATUSES = {
    "verified": "Read in the document, or in several public copies that agree.",
    "formula": "Computed from a formula of the document.",
    "memory": "Written from memory; look it up before you rely on it.",
    "common_practice": "Practice of the trade, without a document.",
}
GROUNDS = {
    "rules": "Rule layers ask for it; `asked_by` says which, and where.",
    "tables": "A cited table gives its limit.",
    "practice": "Physics or practice of the trade; no clause or table is held for it here.",
}

WORDS: MappingProxyType[str, MappingProxyType[str, str]] = MappingProxyType(
    {
        **{f"after_trip_{member}": MappingProxyType(words) for member, words in AFTER_TRIP_CODES.items()},
        "break_even_kind": MappingProxyType(KINDS),
        "break_even_none": MappingProxyType(WHY_NONE),
        "basis_status": MappingProxyType(STATUSES),
        "cord_capacity_from": MappingProxyType(CAPACITY_FROM),
        "cord_sizing_choice": MappingProxyType(CHOICES),
        "cord_sizing_line": MappingProxyType(dict(LINE_CODES)),
        "cord_sizing_limit_from": MappingProxyType({**CAPACITY_FROM, **LIMIT_FROM}),
        "cord_sizing_reach": MappingProxyType(REACHES),
        "crew_card_line": MappingProxyType(CREW_CARD_CODES),
        "fault_outcome": MappingProxyType(FAULTS),
        "finding_grounds": MappingProxyType(GROUNDS),
        "missing_item": MappingProxyType(MISSING_ITEMS),
        "not_assessed": MappingProxyType(NOT_ASSESSED),
        "outlet_plan_choice": MappingProxyType(PLAN_CHOICES),
        "outlet_plan_reason": MappingProxyType({code: one.meaning for code, one in PLAN_REASONS.items()}),
        "start_outcome": MappingProxyType(STARTS),
        "would_invalidate": MappingProxyType(INVALIDATORS),
    }
)
