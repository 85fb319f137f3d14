"""Which findings come from a rule layer that the request asked for?

Each names rule codes; an answer shows the clause of each layer asked for, by its edition and with how sure it is. What
only sizes the wiring of premises, or applies to portable sources by analogy, is told and never failed.
Source: engine/standards/rule_layers.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode, code_caution, code_info

CODE_FINDING_CODES: dict[str, FindingCode] = {
    # --- which layer ---
    "code_basis_needs_country": code_caution(
        "IEC 60364 alone decides nothing: each country adopts its own text.",
        "Name the country, as in iec-60364-de; for the United Kingdom use bs-7671.",
        (),
        "unknown",
        meaning="IEC 60364 was asked for without a country.",
        basis=("countries_iec-60364",),
    ),
    "job_site_law_not_asked": code_info(
        "On a construction site in the United States 29 CFR 1926 is the law, whichever NFPA 70 is adopted; it was not "
        "asked for.",
        "Add osha-1926 to the code basis when the work is construction.",
        (),
        meaning="An edition of NFPA 70 was asked for without the law of construction sites.",
    ),
    "code_by_analogy": code_info(
        "The outlets of {subject} are not premises wiring: branch-circuit rules are told here by analogy, and its "
        "maker's ratings govern.",
        "Keep to the ratings on the source.",
        ("code_scope", "vehicle_export"),
        meaning="Rules made for premises are applied to a vehicle or a portable source by analogy.",
    ),
    # --- ground-fault protection ---
    "ground_fault_protection_other_kind": code_caution(
        "{subject} has {limit_text}, and {value_text}.",
        "Use a receptacle with the kind that is asked for, or put a portable one before the first cord.",
        ("ground_fault_protection", "ground_fault_on_sets", "vehicle_export"),
        meaning="A receptacle has ground-fault protection, but not of the kind that the rule layer asks for.",
    ),
    "ground_fault_exempted": code_info(
        "{value_text} exempts {subject} from ground-fault protection: a small set with a floating neutral.",
        "Use a ground-fault device all the same: NFPA 70 has no such exemption.",
        ("ground_fault_exemption",),
        meaning="One rule layer exempts a small floating set from ground-fault protection; others do not.",
    ),
    "fault_cleared_by_residual_device": code_info(
        "A fault to earth on {subject} may not open a breaker in time: this source gives too little current. Its "
        "residual current device has to.",
        "Press TEST on it before use, with the source running.",
        ("disconnection_time", "set_earthing"),
        meaning="A source that limits its current cannot clear a fault through a breaker in the time asked for.",
    ),
    # --- neutral and earth ---
    "neutral_bond_readings": code_info(
        "The neutral of {subject} is {value_text}. The clauses named here are read in two ways, bonded only where it "
        "is a separately derived system or always; this check decides neither.",
        "Have a qualified person read them for this source.",
        ("neutral_bond", "set_receptacles", "set_earthing", "vehicle_mounted_earthing"),
        meaning="What the rule layers say of the neutral and the frame of a set or vehicle; both readings are shown.",
    ),
    # --- circuits ---
    "lights_on_tool_circuit": code_caution(
        "Lights and tools hang on one circuit ({subject}): a tool that trips it leaves the place dark.",
        "Put lights on a circuit of their own.",
        ("lights_and_receptacles",),
        "marginal",
        meaning="On a construction site lights and receptacles for tools are not on one circuit.",
    ),
    "receptacle_not_for_circuit": code_caution(
        "{value} outlets stand on the {limit} circuit {value_text}.",
        "Use outlets of the rating that belongs there, or a box with its own breakers.",
        ("receptacle_rating", "extension_set_is_branch_wiring"),
        "fail",
        "rated_current_a",
        meaning="Receptacles, or the outlets of a cord, have a rating that does not belong on their circuit.",
    ),
    "socket_not_site_type": code_caution(
        "The socket-outlet {subject} is not of IEC 60309 type.",
        "On a site use IEC 60309 plugs and sockets.",
        ("site_socket_type",),
        meaning="On sites this layer asks for industrial plugs and sockets.",
    ),
    "reduced_low_voltage_preferred": code_info(
        "{subject} is a hand tool at full voltage; on sites the reduced voltage of 55 V to earth is preferred.",
        "Bring the 110 V tool and its transformer where there is a choice.",
        ("reduced_low_voltage",),
        meaning="On sites this layer prefers hand tools at reduced low voltage.",
    ),
    "one_appliance_share": code_info(
        "{subject} takes {value} by its plate; one plug on a shared circuit is to take {limit}. Listed tools take "
        "more, and this is no trip limit.",
        "Nothing, where the breaker holds; a circuit of its own is the clean answer.",
        ("one_appliance_share", "load_on_one_receptacle"),
        "current_a",
        meaning="Premises rule: one portable appliance takes at most four fifths of a shared 15 or 20 A circuit.",
    ),
    "continuous_load_share": code_info(
        "{value} on the circuit {subject}, rated {limit}, with a quarter on top of what runs for hours. This sizes "
        "premises, by analogy here; it is no trip limit.",
        "Keep long-running loads to four fifths of the circuit.",
        ("continuous_load",),
        "current_a",
        meaning="Premises rule: a load of three hours or more counts with a quarter on top.",
    ),
    "welder_circuit_rules": code_info(
        "{subject} takes {value} at its peak on a {limit} circuit. A larger device is for a welder on a circuit of its "
        "own; a portable outlet gets no such allowance.",
        "Weld at an output that this circuit carries.",
        ("welder_conductor", "welder_device"),
        "current_a",
        meaning="The code sizes conductors by I1eff and allows a larger device for a welder on its own circuit only.",
    ),
    "supplementary_protector_only": code_info(
        "The circuit {subject} has a supplementary protector, which does not stand in for a branch-circuit breaker.",
        "Keep to the maker's cords and loads.",
        ("supplementary_protector",),
        meaning="A circuit is protected by a supplementary protector alone.",
    ),
    # --- cords ---
    "cord_not_hard_usage": code_caution(
        "The cord {subject}, type {value_text}, is not made for the usage of a construction site.",
        "Use a type for hard or extra-hard usage: SJ or S letters, H07RN-F or its like.",
        ("cord_usage_type",),
        meaning="A cord's type is not for hard or extra-hard usage.",
    ),
    "cord_type_unknown": code_caution(
        "It is not known whether the cord {subject} is made for the usage of a construction site.",
        "Read the letters on its jacket.",
        ("cord_usage_type",),
        "unknown",
        meaning="A cord's type was not given, and a rule layer asks for one.",
    ),
    "cord_two_wire": code_caution(
        "The cord {subject} has two wires, and a site asks for three.",
        "Use a three-wire cord.",
        ("cord_usage_type", "equipment_grounding_conductor"),
        meaning="An extension cord without an equipment grounding conductor on a construction site.",
    ),
    "device_does_not_protect_cord": code_info(
        "The {limit} device does not protect the cord {subject}, which is good for {value}: its load must stay below.",
        "Keep the load on it below its mark, whatever the breaker holds.",
        ("cord_protection", "overload_coordination"),
        "capacity_a",
        meaning="A cord carries less than the device upstream holds.",
    ),
    # --- tools ---
    "switch_kind_not_allowed": code_caution(
        "The switch of {subject} is of a kind that the rule does not allow for this tool; it names {value_text}.",
        "Use one with the switch that the rule names; never tape or tie a switch.",
        ("switch_kind",),
        meaning="A hand tool has another kind of switch than its kind of tool must have.",
    ),
}
