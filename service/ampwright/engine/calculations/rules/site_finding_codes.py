"""Which findings come from the place, from the way things are plugged together, and from a source's habits?

Source: practice of the trade; the clauses of a rule layer come by `rules`. `reminder`s are told on every site that
they fit, because no member of a request could settle them.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode, caution, danger, reminder

SITE_FINDING_CODES: dict[str, FindingCode] = {
    # --- ground-fault protection, earth and neutral ---
    "ground_fault_protection_missing": danger(
        "{subject} has no ground-fault protection, and {value_text} for it{limit_text}.",
        "Use a receptacle that has it, or put a portable device of the kind asked for at the receptacle, before the "
        "first cord.",
        meaning="A receptacle in use has no ground-fault protection, and a rule layer that was asked for demands it.",
        card="{subject} has no ground-fault protection, and must have it.",
        rules=(
            "ground_fault_protection",
            "ground_fault_on_sets",
            "ground_fault_mobile_unit",
            "ground_fault_any_socket",
        ),
    ),
    "ground_fault_protection_absent": caution(
        "{subject} has no ground-fault protection.",
        "Put a portable ground-fault device at the receptacle, before the first cord. Never use it in the wet without.",
        meaning="A receptacle in use has no ground-fault protection; no rule layer was asked whether it must.",
        rules=("ground_fault_protection", "ground_fault_on_sets", "ground_fault_mobile_unit"),
    ),
    "wet_without_ground_fault_protection": danger(
        "It is wet, and {subject} has no ground-fault protection.",
        "Do not use it. Take another receptacle, or put a portable ground-fault device at this one, before the first "
        "cord.",
        meaning="Tools are used in the wet behind a receptacle without ground-fault protection.",
        rules=("ground_fault_protection",),
    ),
    "lamp_in_the_wet": danger(
        "The lamp {subject} is used in the wet without ground-fault protection.",
        "Use a lamp of 12 V or less, a battery lamp, or a receptacle with ground-fault protection.",
        meaning="A portable lamp above extra-low voltage is used in the wet without ground-fault protection.",
        rules=("wet_location_lamps",),
    ),
    "ground_path_unknown": caution(
        "The cord {subject} has no earth conductor, and it is not known whether {other} needs one.",
        "Look at the plate: a square within a square means double insulated. Else use a three-wire cord.",
        "unknown",
        meaning="A cord without earth feeds a tool of which nobody said whether it needs one.",
        rules=("equipment_grounding_conductor",),
    ),
    "floating_neutral": reminder(
        "The neutral of {subject} floats: a plug-in tester reports a fault that is none, and a first fault to the "
        "frame trips nothing.",
        "Press TEST on each ground-fault device before use. Leave the neutral as the maker built it: a plug that bonds "
        "it is no remedy.",
        meaning="How testers and first faults behave on a source with a floating neutral.",
        rules=("neutral_bond",),
    ),
    "bonded_neutral": reminder(
        "The neutral of {subject} is bonded to its frame: fed into a panel whose neutral is not switched, its "
        "ground-fault protection trips.",
        "Feed fixed wiring only through transfer equipment that a licensed person chose for this source.",
        meaning="How ground-fault protection behaves on a source with a bonded neutral.",
        rules=("neutral_bond",),
    ),
    # --- plugging ---
    "sources_combined": danger(
        "The adapter {subject} turns {value_text} into {limit_text}: only two outlets together could feed it.",
        "Take it out of the kit. Outlets and sources are never joined.",
        meaning="An adapter would make a higher voltage out of outlets that each give a lower one.",
    ),
    "adapter_defeats_rating": caution(
        "The adapter {subject} puts a {limit_text} outlet on a {value_text} plug: the device upstream does not protect "
        "it.",
        "Leave it out of the kit; use a source with the right receptacle, or a box with its own breakers.",
        meaning="An adapter leads from a plug to an outlet of a lower rating.",
        rules=("receptacle_rating",),
    ),
    "feeds_through_transfer_equipment": caution(
        "{subject} feeds fixed wiring through transfer equipment, which this check does not see.",
        "Have a licensed person confirm that it breaks every line from the network and suits the neutral of this "
        "source.",
        meaning="The source feeds fixed wiring through transfer equipment that is outside the check.",
        rules=("transfer_equipment",),
    ),
    "cords_in_series": caution(
        "{subject} is plugged into another cord, {value_text}.",
        "Use one cord that is long enough. Never plug one reel or strip into another.",
        meaning="Cords are plugged into cords: every joint adds a warm contact, and the thinnest cord decides.",
        rules=("cord_splice",),
    ),
    "mixed_cord_sizes": caution(
        "The cord {subject} is thinner than the cord {value_text} that it feeds or hangs on.",
        "The thinnest cord of a run decides what it may carry. Use one size throughout.",
        "pass",
        meaning="Cords of different conductor sizes follow each other in one run.",
    ),
    "cord_through_opening": caution(
        "The cord {subject} is led through a {value_text}, where it can be crushed.",
        "Guard it so that nothing can close on it, or take another way. Look at it each day.",
        meaning="A cord is led through a door or window that can close on it.",
        rules=("cord_through_door",),
    ),
    "cord_on_roadway": caution(
        "The cord {subject} lies where vehicles drive.",
        "Hang it overhead or put it under a ramp made for it.",
        meaning="A cord lies where vehicles drive over it.",
        rules=("cord_through_door", "cord_usage_type"),
    ),
    "cord_not_for_outdoors": caution(
        "The jacket of the cord {subject}, type {value_text}, is not made for outdoors.",
        "Use a type marked for outdoors: a W in the letters, or H07RN-F and its like.",
        meaning="A cord whose type is not for outdoors is used in the open or in the wet.",
        rules=("cord_usage_type",),
    ),
    # --- place ---
    "wet_place": caution(
        "It is wet where this is used.",
        "Covers that close over the plug, joints off the ground, cords for outdoors, and TEST pressed before use.",
        "pass",
        meaning="What a wet place asks for, whatever the figures say.",
        rules=("wet_location_covers",),
    ),
    "exhaust_distance": reminder(
        "Even in the open, the exhaust of {subject} may have to be {limit} or more from doors, windows and vents.",
        "Point it away from people and openings, and watch the wind. A carbon monoxide alarm belongs where people are.",
        "nist_co-distance",
        meaning="How far from openings an engine set may have to stand.",
        rules=("carbon_monoxide",),
    ),
    "refuel_cold": reminder(
        "{subject} is refuelled only when stopped and cooled.",
        "Plan the stop. Keep fuel away from sparks and from the exhaust.",
        meaning="Fuel spilt on a hot engine burns.",
    ),
    "vehicle_may_drive_off": reminder(
        "{subject} can be driven off with a cord still plugged in.",
        "Brake it, keep the key with the crew, and look around it before it moves.",
        meaning="A vehicle that feeds tools can drive away with cords attached.",
    ),
    "welding_from_vehicle": caution(
        "{subject} welds from a vehicle: weld current can stray through its frame, and sparks fall near its battery.",
        "Put the return clamp on the work, never on the vehicle, and keep the work insulated from it and away from "
        "its battery. Ask its maker before starting an arc by high frequency.",
        "pass",
        meaning="Stray weld current, high-frequency arc start and hot work near a vehicle that feeds a welder.",
    ),
    # --- habits of a source ---
    "modified_sine_load": caution(
        "{subject} is fed a stepped wave instead of a sine: {value_text}.",
        "Use a source with a sine wave, or ask the tool's maker.",
        meaning="A motor with a capacitor, or a charger, on a source with a modified sine wave.",
    ),
    "modified_sine_ground_fault": reminder(
        "Ground-fault devices may trip without cause, or not at all, on the stepped wave of {subject}.",
        "Press TEST with the source running; if it does not trip, do not use it.",
        meaning="Ground-fault devices are tested on a sine wave.",
    ),
}
