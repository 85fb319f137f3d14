"""Which findings does only the sizing of cords have?

Source: practice of the trade; the clauses of a rule layer come by `rules`.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode, capacity, caution, code_info, danger

CORD_SIZING_FINDING_CODES: dict[str, FindingCode] = {
    "cords_too_short": capacity(
        "{subject} covers {value} of {limit}.",
        "Bring a longer cord; do not add a second one where a single one will do.",
        "length_m",
        meaning="A cord, or a run of cords, does not cover the distance.",
    ),
    "no_cord_is_enough": capacity(
        "None of the candidates passes: {value_text}.",
        "Move the source closer, use the tool's higher voltage, or a lighter tool.",
        meaning="No size, cord or run of cords that was looked at passes every rule.",
    ),
    "fault_not_cleared": danger(
        "A dead short at the far end of {subject} draws {value_text}: the breaker does not open before the cord is "
        "ruined. Only {limit_text} clears it.",
        "Press TEST on the ground-fault device before use, shorten the run, or use a thicker cord.",
        meaning="The fault current at the end of a run is too small for the device upstream to save the cord.",
        rules=("disconnection_time", "set_earthing"),
    ),
    "fault_clearing_unknown": caution(
        "A dead short at the far end of {subject} draws {value_text}; it is not known what opens then.",
        "Ask the maker of the source, or the electrician of the site, what opens in a dead short; use a receptacle "
        "with ground-fault protection.",
        "marginal",
        meaning="It is not known whether the source shuts down, or a device opens, when the end of a run is shorted.",
        rules=("disconnection_time", "set_earthing"),
    ),
    "disconnection_too_slow": FindingCode(
        "caution",
        "code",
        "A fault to earth at the far end of {subject} is cut off in {value} at the latest; {limit} is asked for.",
        "Use a receptacle with a residual current device, shorten the run, or use a thicker cord.",
        "fail",
        "trip_s",
        (),
        "Automatic disconnection takes longer than the rule layer allows.",
        ("disconnection_time",),
    ),
    "drop_over_recommended": FindingCode(
        "info",
        "capacity",
        "{value} are lost on the way through {subject}; at most {limit} is recommended.",
        "A thicker or shorter cord wastes less; nothing forbids this one.",
        "pass",
        "drop_v",
        (),
        "The volts lost along a run are more than the standards recommend; no law for a cord.",
        ("voltage_drop",),
    ),
    "cord_overheats_if_coiled": FindingCode(
        "info",
        "safety",
        "Left coiled, the cord {subject} would get to {value}; its insulation bears {limit}.",
        "Unroll all of it before work, every time.",
        "pass",
        "copper_temperature_c",
        (),
        "A cord that is fine laid out would overheat if it were left coiled.",
        ("cord_ampacity",),
    ),
    "cord_not_protected_upstream": FindingCode(
        "info",
        "safety",
        "Before its {limit_text} device acts, the cord {subject} may carry {value_text}.",
        "Keep the load on it below its mark, whatever the breaker holds; plug nothing else into it.",
        "pass",
        "copper_temperature_c",
        (),
        "The device upstream lets more through for an hour than the cord bears.",
        ("cord_protection", "overload_coordination"),
    ),
    "many_connections": caution(
        "{value_text}: every joint is a contact that can get hot or pull apart.",
        "Use one cord that is long enough.",
        "marginal",
        "cords",
        meaning="More cords are plugged into one another than anyone should.",
        rules=("cord_splice",),
    ),
    "cord_voltage_too_low": danger(
        "The cord {subject}, type {value_text}, is made for {limit}; {value} is on it.",
        "Use a type for 600 V or 450/750 V.",
        "voltage_v",
        "nfpa-70_t400-4",
        "en-50525",
        meaning="A cord's type is made for a lower voltage than it would carry.",
    ),
    "cord_stiff_in_cold": caution(
        "At {value} the jacket of the cord {subject} gets stiff and cracks when it is bent.",
        "Use a cord made for this cold, uncoil it indoors, and do not bend it in the cold.",
        "marginal",
        "ambient_c",
        meaning="It is colder than flexible jackets are made for.",
    ),
    "conductor_rule_by_analogy": code_info(
        "By the rule for fixed wiring {subject} would want a conductor for {value}; this one carries {limit}.",
        "Nothing, where mark, heat and volts at the tool pass: a listed cord set is judged by its listing.",
        ("cord_ampacity", "extension_set_is_branch_wiring", "welder_conductor", "continuous_load"),
        "current_a",
        meaning="A conductor rule of premises, for motors, welders or long loads, would ask for more copper.",
    ),
    "guidance_names_thicker": FindingCode(
        "info",
        "capacity",
        "The guidance for portable tools names {limit_text} for this plate and length; {value_text}.",
        "Use the thicker one where there is a choice.",
        "pass",
        None,
        ("tool-cord-guidance_five-volt",),
        "The trade's cord table names a thicker cord than this one.",
    ),
}
"""Codes beside those of finding_codes.py."""
