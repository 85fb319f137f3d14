"""Which kinds of change may make a finding of a load check go away, and of which findings is nothing told?

Every finding code of a load check stands in one of two lists: `REVERSE_ANSWERS` with the kinds of change that are
tried for it, or `NOTHING_TOLD` with the reason. What a finding carries is of these kinds; where it carries nothing,
it says why (`WHY_NONE`). Tests hold both lists against every code, and what is told against the first.
Rule of the project: a change is told for what is judged; what is only told, and changes no verdict, has none.
"""

from __future__ import annotations

from ampwright.engine.calculations.reverse.site_edits import (
    AnyOrder,
    CordEdit,
    Edit,
    Move,
    OneCord,
    People,
    Place,
    PlugIn,
    Several,
    Spread,
    Unplug,
)
from ampwright.engine.calculations.reverse.source_edits import (
    DeviceStated,
    LimitStated,
    ReceptacleEdit,
    ResetStated,
    SourceStated,
)
from ampwright.engine.calculations.reverse.tool_edits import PlateCurrent, StartStated, ToolStated, WeldAtMost

LOOK, LAY = "look", "lay_straight"
OUTLET, DEVICE = "other_outlet", "ground_fault_device"
THICKER, SHORTER, CORD, WAY = "thicker_cord", "shorter_cord", "other_cord", "other_way"
TOOL, EASIER = "other_tool", "easier_start"
PLACE, SOURCE = "other_place", "other_source"
LESS, WELD = "run_less", "lower_weld"
PEOPLE, ORDER = "more_people", "any_order"
KINDS: dict[str, str] = {
    LOOK: "Find out what nobody said: it helps if it turns out as the text says.",
    LAY: "Unroll a cord that is coiled or on a drum, all of it.",
    OUTLET: "Plug into another receptacle that is free.",
    DEVICE: "Put a portable ground-fault device at the receptacle.",
    THICKER: "Use a cord of thicker conductors.",
    SHORTER: "Use a shorter cord.",
    CORD: "Use another cord: with sound ends, an earth conductor, a jacket for the place, or one instead of two.",
    WAY: "Lead the cord another way.",
    TOOL: "Bring another of its kind: one that stays off when power returns, or whose switch stops it when let go.",
    EASIER: "Let the tool start more easily: vented, or with a soft start.",
    PLACE: "Put the engine elsewhere, or feed no fixed wiring.",
    SOURCE: "Use a source that does what the text says, or set this one so.",
    LESS: "Leave tools out of the case.",
    WELD: "Weld at a lower output.",
    PEOPLE: "Be more people.",
    ORDER: "Start as it comes: no order has to be kept.",
}

WHY_NONE: dict[str, str] = {
    "no_change": "No change is right for this kind of finding; `/v1/reference/finding-codes` says why.",
    "none_helps": "Every change that is tried for it was worked out; none makes it better by itself without making "
    "something else worse.",
    "too_much_work": "Not every change was worked out: the answer had many findings, or the check is large.",
}

_ENOUGH = (LOOK, OUTLET, LESS, WELD)  # less current where it is too much
_STARTS = (LOOK, OUTLET, THICKER, SHORTER, EASIER, SOURCE, LESS, WELD)
REVERSE_ANSWERS: dict[str, tuple[str, ...]] = {
    # --- figures ---
    "circuit_over_rating": _ENOUGH,
    "receptacle_over_rating": _ENOUGH,
    "limit_over_continuous": (*_ENOUGH, SOURCE),
    "peak_limit_over": _ENOUGH,
    "neutral_overloaded": _ENOUGH,
    "voltage_collapse": (LOOK, OUTLET, THICKER, SHORTER, LESS, WELD),
    "low_voltage_at_tool": (LOOK, OUTLET, THICKER, SHORTER, LESS, WELD),
    "cord_overheats": (LOOK, LAY, OUTLET, THICKER, SHORTER, LESS, WELD),
    "cord_over_marked_rating": (LOOK, LAY, OUTLET, THICKER, SHORTER, LESS, WELD),
    "fault_not_cleared": (LOOK, OUTLET, THICKER, SHORTER),
    "ground_fault_nuisance": (OUTLET, LESS),
    # --- starts ---
    "does_not_start": _STARTS,
    "starts_only_if": _STARTS,
    "start_trips": _STARTS,
    "starts_slowly": _STARTS,
    "stalls_without_trip": _STARTS,
    "protector_retries": _STARTS,
    "sag_upsets_tool": (LOOK, OUTLET, THICKER, SHORTER, SOURCE, LESS),
    "order_matters": (ORDER,),
    # --- after a trip ---
    "return_overheats_motor": (LOOK, OUTLET, THICKER, SHORTER, TOOL, SOURCE, LESS, WELD),
    "stalls_when_power_returns": (LOOK, OUTLET, THICKER, SHORTER, TOOL, SOURCE, LESS, WELD),
    "trips_again_on_return": (LOOK, OUTLET, TOOL, SOURCE, LESS, WELD),
    "locks_out_and_stays_off": (LOOK, OUTLET, SOURCE, LESS, WELD),
    "stays_off_after_trip": (LOOK, OUTLET, SOURCE, LESS, WELD),
    "must_not_stop": (LOOK, SOURCE),
    "must_return_switched_off": (LOOK, TOOL),
    "restart_without_warning": (LOOK, TOOL, SOURCE, LESS),
    "restarts_if_held": (LOOK, TOOL, SOURCE),
    "power_sent_back_unseen": (LOOK, TOOL, SOURCE),
    "restarts_by_itself": (LOOK, SOURCE),
    # --- plugging, cords, earth ---
    "plug_does_not_fit": (OUTLET, LESS),
    "voltage_does_not_match": (OUTLET, LESS),
    "not_plugged_in": (OUTLET,),
    "ground_path_missing": (CORD,),
    "ground_path_unknown": (LOOK, CORD),
    "cord_end_damaged": (CORD,),
    "cord_end_worn": (CORD,),
    "cords_in_series": (CORD,),
    "cord_not_for_outdoors": (CORD,),
    "cord_not_hard_usage": (CORD,),
    "cord_type_unknown": (LOOK,),
    "cord_two_wire": (CORD,),
    "cord_through_opening": (WAY,),
    "cord_on_roadway": (WAY,),
    "ground_fault_protection_unknown": (LOOK, OUTLET),
    "ground_fault_protection_absent": (DEVICE, OUTLET),
    "ground_fault_protection_missing": (LOOK, DEVICE, OUTLET),
    "ground_fault_protection_other_kind": (DEVICE, OUTLET),
    "wet_without_ground_fault_protection": (LOOK, DEVICE, OUTLET),
    "lamp_in_the_wet": (LOOK, DEVICE, OUTLET),
    # --- place, people, source, rules ---
    "exhaust_near_people": (PLACE,),
    "exhaust_place_unknown": (PLACE,),
    "backfeed": (PLACE,),
    "feeds_through_transfer_equipment": (PLACE,),
    "too_few_people": (PEOPLE,),
    "neutral_bond_unknown": (LOOK,),
    "source_may_sleep": (SOURCE,),
    "modified_sine_load": (SOURCE,),
    "lights_on_tool_circuit": (LOOK, OUTLET),
    "switch_kind_not_allowed": (TOOL,),
}

_TOLD = "told, not judged: it changes no verdict"
NOTHING_TOLD: dict[str, str] = {
    "source_not_available": "a state that the source may be in is not changed by a request",
    "entry_withdrawn": "which revision is right is the catalogue's question",
    "sources_combined": "the adapter is of the kit, and stays out of use",
    "adapter_defeats_rating": "the adapter is of the kit, and stays out of use",
    "trips_in_shift": "it is of a whole shift and not of a case; `shift` has what each device carries, `largest_sets` "
    "what runs together",
    "protector_may_restart": "the protector is the tool's own, and stays as it is",
    "must_return_behind_ground_fault": "the protection stays in, and a trip of it is always ended by a person",
    "protector_opens": _TOLD,
    "wet_place": f"the weather is no choice; {_TOLD}",
    "mixed_cord_sizes": f"{_TOLD}; the thinnest cord already decides every figure",
    "welding_from_vehicle": _TOLD,
    "code_basis_needs_country": "which country's text applies is known to the caller alone; `what_to_do` names the way",
    "receptacle_not_for_circuit": "how outlets and circuits are built is no choice of a crew; a request does not mend "
    "it",
    "socket_not_site_type": "how the outlets of a source are built is no choice of a crew",
    "comes_back_late": f"{_TOLD}; it goes on by itself, and waiting is the answer",
    "start_not_assessed": f"{_TOLD}; what would decide is not modelled here",
    "weak_tool": f"{_TOLD}; the tool runs, and a thicker or shorter cord gives it its strength back",
    "fault_clearing_unknown": "what a source does in a dead short is for its maker to say; no cord changes that",
    "neutral_lost": f"{_TOLD}; it is what would follow if a contact broke",
    "start_below_running": "one of two figures is misread, and which one is not for a request to say",
    "plug_below_plate": "plate and plug have to be read again; no other plug is advised",
    "device_above_receptacle": "how outlets and circuits are built is no choice of a crew; a request does not mend it",
    "plate_contradicts_itself": f"{_TOLD}; the plate has to be read again",
    "output_given_as_supply": f"{_TOLD}; the plate has to be read again",
    "floating_neutral": f"{_TOLD}; the neutral stays as its maker built it",
    "bonded_neutral": f"{_TOLD}; the neutral stays as its maker built it",
    "exhaust_distance": _TOLD,
    "refuel_cold": _TOLD,
    "vehicle_may_drive_off": _TOLD,
    "modified_sine_ground_fault": _TOLD,
    "job_site_law_not_asked": _TOLD,
    "code_by_analogy": _TOLD,
    "ground_fault_exempted": _TOLD,
    "fault_cleared_by_residual_device": _TOLD,
    "neutral_bond_readings": _TOLD,
    "reduced_low_voltage_preferred": _TOLD,
    "one_appliance_share": _TOLD,
    "continuous_load_share": _TOLD,
    "welder_circuit_rules": _TOLD,
    "supplementary_protector_only": _TOLD,
    "device_does_not_protect_cord": f"{_TOLD}; it says below what the load has to stay",
}

_OF_EDIT: dict[type, str] = {
    DeviceStated: LOOK,
    AnyOrder: ORDER,
    LimitStated: SOURCE,
    Move: OUTLET,
    OneCord: CORD,
    People: PEOPLE,
    Place: PLACE,
    PlateCurrent: LOOK,
    PlugIn: OUTLET,
    ReceptacleEdit: DEVICE,
    ResetStated: SOURCE,
    SourceStated: SOURCE,
    Spread: OUTLET,
    StartStated: EASIER,
    ToolStated: TOOL,
    Unplug: LESS,
    WeldAtMost: WELD,
}


def kind_of_change(edit: Edit) -> str:
    """One of KINDS. What is found out says `if`: it is not for the crew to make so."""
    if edit.text.startswith("if ") or isinstance(edit, Several):
        return LOOK
    if not isinstance(edit, CordEdit):
        return _OF_EDIT[type(edit)]
    if edit.laid is not None:
        return LAY
    if edit.size is not None:
        return THICKER
    if edit.length_m is not None:
        return SHORTER
    return WAY if edit.led_through is not None else CORD
