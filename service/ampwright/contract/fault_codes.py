"""What does the code of a content fault mean? The list behind GET /v1/reference/fault-codes."""

from __future__ import annotations

from types import MappingProxyType

FAULT_CODES = MappingProxyType(
    {
        # texts with a unit
        "not_a_quantity": "The text is not a number with a unit of its field.",
        "unit_missing": "The number has no unit, and units are never guessed.",
        "wrong_unit": "The unit belongs to another kind of figure.",
        "fraction": "The figure is written as a fraction; write a decimal.",
        "two_figures": "The text holds two figures, as a plate does for two voltages.",
        "comma_in_number": "The number has a comma, which could be a decimal mark or a separator.",
        "band_out_of_order": "A band is written from low to high.",
        "out_of_range": "The figure is outside what can be meant here.",
        "not_above_zero": "The figure must be above zero.",
        "control_character": "The text holds a control character or an unassigned one.",
        # texts that name something
        "not_a_supply": "The text names no supply system.",
        "supply_ratio": "The two voltages belong to no supply system.",
        "supply_ambiguous": "A low voltage could be direct or alternating current; say DC.",
        "dual_voltage": "A tool that takes either of two voltages has two supply options.",
        "not_a_size": "The text names no conductor size.",
        "unknown_size": "Nobody makes a conductor of this size.",
        "unknown_plug_type": "No standard listed here has a plug with this designation.",
        "unknown_receptacle_type": "No standard listed here has a receptacle with this designation.",
        "plug_where_receptacle_belongs": "A plug's designation stands where a receptacle's belongs.",
        "receptacle_where_plug_belongs": "A receptacle's designation stands where a plug's belongs.",
        "unknown_load_class": "There is no such load class.",
        "unknown_cord_type": "There is no such cord type.",
        "unknown_code_basis": "There is no such rule layer.",
        "unknown_work_unit": "There is no such kind of work.",
        "unknown_pattern": "There is no such kind of day.",
        # references to the catalogue
        "unknown_entry": "The catalogue release has no such entry.",
        "unknown_revision": "The catalogue release does not hold this revision of the entry.",
        "member_of_another_kind": "The correction is a member of another kind of power source.",
        "merge_is_no_document": "The entry with its corrections is no valid document.",
        "revision_without_entry": "A revision is given without an entry.",
        "too_many_items": "The kit brings more items than a request may hold.",
        # contradictions
        "repeated_id": "Two parts of one list have the same id.",
        "ambiguous_id": "Two parts have the same id where a reference could mean either.",
        "repeated_member": "A list names one thing twice.",
        "member_does_not_apply": "The member says nothing here.",
        "legs_contradict_voltage": "The legs are not those of the supply's voltage.",
        "unknown_leg": "The supply has no such leg.",
        "unknown_leg_or_circuit": "The source has no such leg or circuit.",
        "covers_nothing": "A limit covers no leg and no circuit.",
        "tier_below_continuous": "An overload is below what its limit carries continuously.",
        "starting_below_running": "The starting capacity is below the running capacity.",
        "waveform_contradicts_voltage": "The waveform is not that of the supply's voltage.",
        "not_for_direct_current": "The part cannot belong to a direct-current supply.",
        "phases_contradict_voltage": "The number of phases is not that of the voltage.",
        "drum_layers_without_drum": "Layers are given for a cord that is not on a drum.",
        "unknown_tool": "There is no such tool.",
        "unknown_plug": "There is no such tool or cord.",
        "unknown_receptacle": "There is no such receptacle or cord.",
        "unknown_work": "There is no such work in the request.",
        "unknown_stop": "There is no such stop in the request.",
        "has_no_plug": "A receptacle is named where something with a plug belongs.",
        "has_no_outlet": "A tool is named where something with an outlet belongs.",
        "plugged_in_twice": "One plug is in two places.",
        "receptacle_taken": "Two plugs are in one receptacle.",
        "cord_outlets_taken": "More plugs are in a cord than it has outlets.",
        "cord_not_plugged_in": "Something is plugged into a cord that is plugged in nowhere.",
        "plugged_in_circle": "Cords are plugged into each other in a circle.",
        "follows_in_circle": "Tools follow each other in a circle.",
        "tool_not_plugged_in": "A case runs a tool that is plugged in nowhere.",
        "not_included_here": "This question has no such parts; POST /v1/load-checks has.",
        "start_order_not_of_case": "The start order does not name every tool of the case once.",
        "provenance_points_nowhere": "A provenance names a member that the document does not have.",
        "not_a_date": "There is no such day.",
    }
)
"""Code -> meaning, for a person."""
