"""Which findings are there, how bad is each, and what should a person do?

Source: practice of the trade; the clauses of a rule layer come by `rules` from engine/standards/rule_layers.
Not here: findings of place, cords and plugging (site_finding_codes.py) and of rule layers (code_finding_codes.py).
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.after_trip_finding_codes import AFTER_TRIP_FINDING_CODES
from ampwright.engine.calculations.cord_sizing.cord_sizing_finding_codes import CORD_SIZING_FINDING_CODES
from ampwright.engine.calculations.energy.energy_finding_codes import ENERGY_FINDING_CODES
from ampwright.engine.calculations.finding_code import FindingCode
from ampwright.engine.calculations.finding_code import capacity as _capacity
from ampwright.engine.calculations.finding_code import caution as _caution
from ampwright.engine.calculations.finding_code import danger as _danger
from ampwright.engine.calculations.finding_code import info as _info
from ampwright.engine.calculations.rules.code_finding_codes import CODE_FINDING_CODES
from ampwright.engine.calculations.rules.site_finding_codes import SITE_FINDING_CODES
from ampwright.engine.calculations.shift.shift_finding_codes import SHIFT_FINDING_CODES
from ampwright.engine.calculations.starts.start_finding_codes import START_FINDING_CODES

FINDING_CODES: dict[str, FindingCode] = {
    # --- danger ---
    "restart_without_warning": _danger(
        "Power may come back by itself while {subject} is switched on: it starts without warning.",
        "Bring a tool that stays off when power returns, or use a source that stays off after a trip. Until then: "
        "after any stop, switch off and unplug {subject} before anything else.",
        None,
        "clauses_osha-1926",
        meaning="A tool whose switch stays on, without restart protection, where power may return by itself.",
        rules=("switch_kind",),
    ),
    "cord_overheats": _danger(
        "The cord {subject} gets to {value}; its insulation bears {limit}.",
        "Unroll all of it, use a thicker cord, or run fewer tools on it.",
        "copper_temperature_c",
        meaning="The copper of a cord gets warmer than its insulation bears, as it is laid.",
        rules=("cord_ampacity",),
    ),
    "exhaust_near_people": _danger(
        "The engine of {subject} would run {value_text}: its exhaust kills within minutes.",
        "Run it in the open, far from every opening, and point the exhaust away.",
        meaning="An engine set would run indoors, in a trench, near an opening or in another enclosed place.",
        rules=("carbon_monoxide",),
    ),
    "ground_path_missing": _danger(
        "The cord {subject} has no earth conductor, and {other} needs one.",
        "Use a three-wire cord with a whole earth pin.",
        meaning="A tool that relies on an earth conductor hangs on a cord that has none.",
        rules=("equipment_grounding_conductor",),
    ),
    "cord_end_damaged": _danger(
        "An end of the cord {subject} is damaged.",
        "Take the cord out of use now; have it repaired or replaced before anyone plugs it in.",
        meaning="A plug or connector of a cord is broken or shows bare metal.",
        rules=("cord_condition",),
    ),
    "neutral_overloaded": _danger(
        "The neutral of {subject} carries {value}, rated {limit}: nothing protects it.",
        "Take loads off this run, or give them circuits of their own.",
        "neutral_current_a",
        meaning="The neutral carries more than its rating, as with legs in phase; no device opens it.",
    ),
    "backfeed": _danger(
        "{subject} would put line voltage {value_text}.",
        "Do not connect it. Fixed wiring is fed only through transfer equipment that a licensed person installed, and "
        "nothing in a kit has two plugs.",
        meaning="A source would feed fixed wiring or bare pins without transfer equipment: line voltage where nobody "
        "expects it.",
        rules=("transfer_equipment",),
    ),
    "must_not_stop": _danger(
        "{subject} must not stay off, and this source may stay off after a trip.",
        "Give it a source or a circuit of its own, and someone who notices when it stops.",
        meaning="A load that must come back by itself hangs on a source that stays off after a trip.",
    ),
    "must_return_switched_off": _danger(
        "{subject} must come back by itself, and {value_text} keeps it off once power has gone, however soon power is "
        "back.",
        "Take one for this that goes on by itself when power returns and cannot hurt anybody then, and someone who "
        "notices when it stops.",
        meaning="A load that must come back by itself has restart protection, a switch that must be held, or follows "
        "a tool that stays off.",
    ),
    "must_return_behind_ground_fault": _caution(
        "{subject} must come back by itself, and the ground-fault protection of {value_text} stays off once it has "
        "tripped, whatever the source does.",
        "Leave the protection in. Have someone look after {subject}, or an alarm that works without this power.",
        meaning="A load that must come back by itself hangs behind ground-fault protection, which a person resets.",
    ),
    # --- capacity ---
    "circuit_over_rating": _capacity(
        "{value} on the circuit {subject}, rated {limit}.",
        "Run fewer tools on it at once, or move one to another circuit.",
        "current_a",
        meaning="The running current of a circuit is above its device's rating.",
        rules=("overload_coordination",),
    ),
    "receptacle_over_rating": _capacity(
        "{value} from the receptacle {subject}, marked {limit}.",
        "Move a tool to another receptacle.",
        "current_a",
        meaning="The running current of a receptacle is above its mark.",
    ),
    "limit_over_continuous": _capacity(
        "{value} asked of {subject}, which gives {limit} continuously.",
        "Run fewer tools at once, or bring a larger source.",
        "apparent_power_va",
        meaning="More is asked of the source, in W, VA or A, than it gives without end.",
    ),
    "peak_limit_over": _capacity(
        "The current crests of {subject} add up to {value}; the source allows about {limit}.",
        "Chargers, LED lights and some welders draw short, high peaks: run fewer of them at once.",
        "peak_a",
        meaning="The crests of the current add up to more than the source allows, even where its RMS value is within.",
    ),
    "voltage_collapse": _capacity(
        "More power is asked than can arrive: the voltage collapses.",
        "Run fewer tools at once, shorten the cords or use thicker ones.",
        meaning="Wires and source cannot deliver the power that is asked; the voltage falls until something stops.",
    ),
    "cord_over_marked_rating": _capacity(
        "{value} through the cord {subject}, good for {limit}.",
        "Use a cord with a higher mark, or run fewer tools on it.",
        "current_a",
        "ul-817_marked",
        meaning="A cord carries more than the least of its mark, its ends and its conductors.",
        rules=("cord_ampacity",),
    ),
    "plug_does_not_fit": _capacity(
        "The plug {value_text} does not go into {limit_text}.",
        "Use a source with a matching receptacle; do not defeat the pattern with an adapter.",
        meaning="A plug does not enter the outlet it is meant for.",
    ),
    "not_plugged_in": FindingCode(
        "caution",
        "capacity",
        "{subject} is plugged in nowhere.",
        "Say where it is plugged in, or leave it out.",
        "unknown",
        meaning="A tool of the request hangs on no receptacle, so nothing can be said about it.",
    ),
    "voltage_does_not_match": _capacity(
        "{subject} needs {value_text}, which {limit_text} does not give.",
        "Use another receptacle or another tool.",
        meaning="No supply option of a tool has the voltage that its outlet gives.",
    ),
    "low_voltage_at_tool": _capacity(
        "{value} at {subject}; it needs {limit}.",
        "Shorten the cord, use a thicker one, or run less beside it.",
        "voltage_v",
        "nema-mg-1_12-44",
        meaning="The voltage at a running tool is below what it needs.",
        rules=("voltage_drop",),
    ),
    # --- caution ---
    "restarts_if_held": _caution(
        "If power returns while someone holds the switch of {subject}, it kicks.",
        "Let go of the switch whenever it stops.",
        meaning="A tool without restart protection starts when power returns while its switch is held.",
        rules=("tool_restart", "power_return_restart"),
    ),
    "power_sent_back_unseen": _caution(
        "Power is switched back from a distance, and {subject} may still be switched on.",
        "Look at every tool, switch off and unplug {subject}, and only then reset.",
        meaning="A remote reset can start a tool whose switch stays on while nobody looks at it.",
        rules=("power_return_restart",),
    ),
    "protector_may_restart": _caution(
        "The motor of {subject} has a protector that closes again by itself: after it has stopped hot, it starts "
        "without warning.",
        "When {subject} stops, switch it off at the tool and unplug it before a hand goes near it.",
        meaning="A tool's own thermal protector resets by itself and starts the tool again, whatever the source does.",
        rules=("automatic_restart",),
    ),
    "restarts_by_itself": _caution(
        "{subject} starts by itself when power returns.",
        "Keep hands clear of it, and unplug it before working on it.",
        meaning="A pressure or float switch starts a motor when power returns, whatever the source does.",
        rules=("power_return_restart", "automatic_restart"),
    ),
    "ground_fault_protection_unknown": _caution(
        "It is not known whether {subject} has ground-fault protection.",
        "Look for TEST and RESET buttons at the receptacle or its breaker, and press TEST before use. None seen means "
        "not protected.",
        "unknown",
        meaning="Nobody said whether a receptacle in use has ground-fault protection.",
        rules=("ground_fault_protection", "ground_fault_on_sets", "ground_fault_mobile_unit"),
    ),
    "ground_fault_nuisance": _caution(
        "Leakage currents on one ground-fault device ({subject}) add up to {value}; it may trip from {limit}.",
        "Spread chargers and lights over several devices.",
        "marginal",
        "leakage_a",
        "ul-943_class-a",
        meaning="Healthy leakage of tools and cords behind one ground-fault device may trip it.",
    ),
    "neutral_bond_unknown": _caution(
        "It is not known whether the neutral of {subject} is bonded to its frame.",
        "Look on its plate or in its manual. On a floating neutral a plug-in tester reports a fault that is none; the "
        "TEST button of a ground-fault device works either way.",
        meaning="Nobody said whether the neutral of the source is bonded to its frame.",
        rules=("neutral_bond",),
    ),
    "exhaust_place_unknown": _caution(
        "It is not said where the engine of {subject} will run. Its exhaust kills indoors, in pits and under openings.",
        "Run it in the open, far from every opening, and point the exhaust away.",
        "unknown",
        meaning="An engine set runs, and nobody said where.",
        rules=("carbon_monoxide",),
    ),
    "cord_end_worn": _caution(
        "An end of the cord {subject} is worn: worn contacts get hot.",
        "Replace the end before heavy use; feel it after ten minutes of work.",
        meaning="A plug or connector of a cord is worn; its contacts get hot under load.",
        rules=("cord_condition",),
    ),
    "source_may_sleep": _caution(
        "{subject} may switch off below {limit}; the case {case} draws {value}.",
        "Add a steady small load, or set the source to stay awake.",
        "marginal",
        "power_w",
        meaning="The load is so light that the source may switch off.",
    ),
    "source_not_available": _caution(
        "{subject} gives no power while {value_text}.",
        "Plan for it, or change the setting before work starts.",
        meaning="The source gives no power in a state that it may be in during work.",
    ),
    "too_few_people": _caution(
        "The case {case} needs {value} pairs of hands; {limit} are there.",
        "Plan fewer hand tools at once, or more people.",
        "marginal",
        "people",
        meaning="A case runs more hand tools than there are people.",
    ),
    "entry_withdrawn": _caution(
        "The catalogue entry {subject} was withdrawn: {value_text}.",
        "Do not rely on its figures; use a newer revision.",
        meaning="A catalogue document used here was withdrawn.",
    ),
    # --- info ---
    "neutral_lost": FindingCode(
        "info",
        "safety",
        "If the neutral of the circuit {subject} breaks with {case} on, the lightly loaded leg rises to {value}.",
        "Use leads whose neutral contact is sound; stop at once if lights get brighter.",
        "pass",
        "voltage_v",
        meaning="What the lightly loaded leg would see if the neutral of a two-leg run broke.",
    ),
    "plate_contradicts_itself": _info(
        "The plate of {subject} does not add up: {value_text}.",
        "Read it again; figures of a motor's peak are not what it takes from the outlet.",
        meaning="A tool's plate gives more power than it takes.",
    ),
    "output_given_as_supply": _info(
        "{value} is more than any plug of {subject} could carry; it looks like a welder's output current.",
        "Give what it takes from the outlet (I1max or I1eff on the plate), and the output as `output`.",
        "current_a",
        meaning="A supply current so large that it is probably a welder's output.",
    ),
    "start_below_running": FindingCode(
        "caution",
        "capacity",
        "The start of {subject} is given as {value}, and it takes {limit} or more at work: one of the two is misread.",
        "Read both again. A motor that does not turn yet takes several times what it takes at work, and so does a cold "
        "lamp.",
        "unknown",
        "current_a",
        meaning="A locked-rotor or first current is below what the tool takes at work, which no motor and no filament "
        "has.",
    ),
    "plug_below_plate": _caution(
        "{subject} takes {value}, and its plug {value_text} carries {limit}.",
        "Read plate and plug again. A plug that was changed for a smaller one gets hot: take it out of use.",
        "marginal",
        "current_a",
        meaning="The plate of a tool takes more than its plug is good for.",
    ),
    "device_above_receptacle": _caution(
        "The device of {value_text} lets {limit} through, and the receptacle {subject} is good for {value}.",
        "Have a licensed person look at how the source is built. Until then plug in no more than the receptacle is "
        "marked for.",
        "marginal",
        "current_a",
        meaning="An overcurrent device is larger than the receptacle behind it, and no rule layer was asked about it.",
        rules=("receptacle_rating",),
    ),
    "order_matters": _capacity(
        "The case {case} runs only in a stated order of starting.",
        "People do not keep to an order for long: plan so that none is needed.",
        meaning="A case depends on an order of starting.",
    ),
    **AFTER_TRIP_FINDING_CODES,
    **SHIFT_FINDING_CODES,
    **START_FINDING_CODES,
    **SITE_FINDING_CODES,
    **CODE_FINDING_CODES,
    **CORD_SIZING_FINDING_CODES,
    **ENERGY_FINDING_CODES,
}
