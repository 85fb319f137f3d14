"""Which findings are there, how bad is each, and what should a person do?

Texts are made from codes, never stored: `{subject}` is what the finding is about, `{value}` and `{limit}` are figures
with their unit at two significant digits. Severity: danger (someone may be hurt), caution (the work stops, or a
question is open), info. A verdict of `unknown` in its aspect is what an open question leaves.
Source: practice of the trade; clauses are named by engine/standards/rule_layers where a rule layer asks.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FindingCode:
    """`verdict` is what one such finding makes of its aspect: fail, unknown, marginal or pass."""

    severity: str
    aspect: str
    text: str
    what_to_do: str
    verdict: str
    figure: str | None = None
    basis: tuple[str, ...] = ()


def _danger(text: str, todo: str, figure: str | None = None, *basis: str) -> FindingCode:
    return FindingCode("danger", "safety", text, todo, "fail", figure, basis)


def _capacity(text: str, todo: str, figure: str | None = None, *basis: str) -> FindingCode:
    """Its verdict comes from the figures; `fail` here stands for a finding without a figure."""
    return FindingCode("caution", "capacity", text, todo, "fail", figure, basis)


def _caution(text: str, todo: str, verdict: str = "marginal", figure: str | None = None, *basis: str) -> FindingCode:
    return FindingCode("caution", "safety", text, todo, verdict, figure, basis)


def _info(text: str, todo: str, figure: str | None = None, *basis: str) -> FindingCode:
    return FindingCode("info", "capacity", text, todo, "pass", figure, basis)


FINDING_CODES: dict[str, FindingCode] = {
    # --- danger ---
    "restart_without_warning": _danger(
        "Power may come back by itself while {subject} is switched on: it starts without warning.",
        "Bring a tool that stays off when power returns, or use a source that stays off after a trip. Until then: "
        "after any stop, switch off and unplug {subject} before anything else.",
        None,
        "clauses_osha-1926",
    ),
    "cord_overheats": _danger(
        "The cord {subject} gets to {value}; its insulation bears {limit}.",
        "Unroll all of it, use a thicker cord, or run fewer tools on it.",
        "copper_temperature_c",
    ),
    "exhaust_near_people": _danger(
        "The engine of {subject} would run in an enclosed or indoor place: its exhaust kills within minutes.",
        "Run it in the open, far from every opening, and point the exhaust away.",
    ),
    "ground_path_missing": _danger(
        "The cord {subject} has no earth conductor, and {other} needs one.",
        "Use a three-wire cord with a whole earth pin.",
    ),
    "cord_end_damaged": _danger(
        "An end of the cord {subject} is damaged.",
        "Take it out of use; have it repaired or replaced.",
    ),
    "neutral_overloaded": _danger(
        "The neutral of {subject} carries {value}, rated {limit}: nothing protects it.",
        "Move loads so that both legs together stay within the rating.",
        "neutral_current_a",
    ),
    "backfeed": _danger(
        "{subject} would put line voltage on bare pins.",
        "Take it out of the kit. Feed fixed wiring only through transfer equipment that a licensed person installed.",
    ),
    "must_not_stop": _danger(
        "{subject} must not stay off, and this source stays off after a trip.",
        "Give it a source or a circuit of its own, and someone who notices when it stops.",
    ),
    # --- capacity ---
    "circuit_over_rating": _capacity(
        "{value} on the circuit {subject}, rated {limit}.",
        "Run fewer tools on it at once, or move one to another circuit.",
        "current_a",
    ),
    "receptacle_over_rating": _capacity(
        "{value} from the receptacle {subject}, marked {limit}.",
        "Move a tool to another receptacle.",
        "current_a",
    ),
    "limit_over_continuous": _capacity(
        "{value} asked of {subject}, which gives {limit} continuously.",
        "Run fewer tools at once, or bring a larger source.",
        "apparent_power_va",
    ),
    "peak_limit_over": _capacity(
        "The current crests of {subject} add up to {value}; the source allows about {limit}.",
        "Chargers, LED lights and some welders draw short, high peaks: run fewer of them at once.",
        "peak_a",
    ),
    "voltage_collapse": _capacity(
        "More power is asked than can arrive: the voltage collapses.",
        "Run fewer tools at once, shorten the cords or use thicker ones.",
    ),
    "cord_over_marked_rating": _capacity(
        "{value} through the cord {subject}, good for {limit}.",
        "Use a cord with a higher mark, or run fewer tools on it.",
        "current_a",
        "ul-817_marked",
    ),
    "plug_does_not_fit": _capacity(
        "The plug {value_text} does not go into {limit_text}.",
        "Use a source with a matching receptacle; do not defeat the pattern with an adapter.",
    ),
    "voltage_does_not_match": _capacity(
        "{subject} needs {value_text}, which {limit_text} does not give.",
        "Use another receptacle or another tool.",
    ),
    "low_voltage_at_tool": _capacity(
        "{value} at {subject}; it needs {limit}.",
        "Shorten the cord, use a thicker one, or run less beside it.",
        "voltage_v",
        "nema-mg-1_12-44",
    ),
    # --- caution ---
    "restarts_if_held": _caution(
        "If power returns while someone holds the switch of {subject}, it kicks.",
        "Let go of the switch whenever it stops.",
    ),
    "restarts_by_itself": _caution(
        "{subject} starts by itself when power returns.",
        "Keep hands clear of it, and unplug it before working on it.",
    ),
    "ground_fault_protection_unknown": _caution(
        "It is not known whether {subject} has ground-fault protection.",
        "Look for TEST and RESET buttons at the receptacle or its breaker, and press TEST before use. None seen means "
        "not protected.",
        "unknown",
    ),
    "ground_fault_nuisance": _caution(
        "Leakage currents on one ground-fault device ({subject}) add up to {value}; it may trip from {limit}.",
        "Spread chargers and lights over several devices.",
        "marginal",
        "leakage_a",
        "ul-943_class-a",
    ),
    "neutral_bond_unknown": _caution(
        "It is not known whether the neutral of {subject} is bonded to its frame.",
        "Look in its manual. It decides how ground-fault protection and plug-in testers behave.",
    ),
    "exhaust_place_unknown": _caution(
        "It is not said where the engine of {subject} will run. Its exhaust kills indoors, in pits and under openings.",
        "Run it in the open, far from every opening, and point the exhaust away.",
        "unknown",
    ),
    "cord_end_worn": _caution(
        "An end of the cord {subject} is worn: worn contacts get hot.",
        "Replace the end before heavy use; feel it after ten minutes of work.",
    ),
    "source_may_sleep": _caution(
        "{subject} may switch off below {limit}; the case {case} draws {value}.",
        "Add a steady small load, or set the source to stay awake.",
        "marginal",
        "power_w",
    ),
    "source_not_available": _caution(
        "{subject} gives no power while {value_text}.",
        "Plan for it, or change the setting before work starts.",
    ),
    "too_few_people": _caution(
        "The case {case} needs {value} pairs of hands; {limit} are there.",
        "Plan fewer hand tools at once, or more people.",
        "marginal",
        "people",
    ),
    "entry_withdrawn": _caution(
        "The catalogue entry {subject} was withdrawn: {value_text}.",
        "Do not rely on its figures; use a newer revision.",
    ),
    # --- info ---
    "neutral_lost": FindingCode(
        "info",
        "safety",
        "If the neutral of {subject} breaks while {case} runs, the lightly loaded leg rises to {value}.",
        "Use leads whose neutral contact is sound; stop at once if lights get brighter.",
        "pass",
        "voltage_v",
    ),
    "plate_contradicts_itself": _info(
        "The plate of {subject} does not add up: {value_text}.",
        "Read it again; figures of a motor's peak are not what it takes from the outlet.",
    ),
    "output_given_as_supply": _info(
        "{value} is more than any plug of {subject} could carry; it looks like a welder's output current.",
        "Give what it takes from the outlet (I1max or I1eff on the plate), and the output as `output`.",
        "current_a",
    ),
    "order_matters": _info(
        "The case {case} names an order of starting.",
        "People do not keep to an order for long: plan so that none is needed.",
    ),
}
