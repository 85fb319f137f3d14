"""Which findings do starts bring?

Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode
from ampwright.engine.calculations.finding_code import capacity as _capacity
from ampwright.engine.calculations.finding_code import danger as _danger
from ampwright.engine.calculations.finding_code import info as _info

START_FINDING_CODES: dict[str, FindingCode] = {
    "stalls_without_trip": _danger(
        "{subject} may stand still and growl, and nothing switches it off: its motor overheats.",
        "If {subject} does not come up to speed within a few seconds, switch it off at the tool and unplug it. Use a "
        "source that starts it.",
        meaning="A motor that does not get going stays connected: the source limits its current without end, or the "
        "device does not open.",
    ),
    "protector_retries": _danger(
        "{subject} may stand still; its own protector opens after about {value}, closes again by itself after some "
        "minutes, and it tries to start without warning, whoever has a hand on it.",
        "As soon as {subject} stands still, switch it off at the tool and unplug it. Use a source that starts it.",
        "protector_opens_s",
        meaning="A motor that does not get going is switched off and on again by its own protector, without an end.",
    ),
    "protector_opens": _info(
        "{subject} may stand still until its own protector opens, after about {value}; it stays off until somebody "
        "resets it.",
        "Switch {subject} off at the tool before its protector is reset, and let it cool.",
        "protector_opens_s",
        meaning="A motor that does not get going is switched off by its own protector, which a person resets.",
    ),
    "does_not_start": _capacity(
        "{subject} does not start: {value_text}.",
        "Use a source or a circuit that starts it, a shorter or thicker cord, or run less beside it; do not try again "
        "and again.",
        "source_must_give_a",
        meaning="A tool does not get to its speed on this source, by the usual estimate.",
    ),
    "starts_only_if": _capacity(
        "{subject} starts only if {value_text}.",
        "Ask whoever knows the source, the maker of a set or the electrician of a site, what current it gives for some "
        "seconds, or try it once with nothing else running; if {subject} does not come up to speed within a few "
        "seconds, switch it off at the tool.",
        "source_must_give_a",
        meaning="A tool gets to its speed by the usual estimate, but not where everything is at its worst.",
    ),
    "start_not_assessed": _info(
        "Whether {subject} starts is not worked out here: {value_text}.",
        "Try it once with nothing else running; if {subject} does not come up to speed within a few seconds, switch it "
        "off at the tool.",
        meaning="A tool has a start that could fail, and nothing here can say whether it does.",
    ),
    "start_trips": _capacity(
        "Switching {subject} on {value_text} the breaker of the circuit {limit_text}.",
        "Run less on this circuit when it starts, or give it a circuit of its own.",
        meaning="The current of a start opens the circuit's device before the tool is at speed.",
    ),
    "starts_slowly": _capacity(
        "{subject} comes up to speed slowly: {value}.",
        "Let it come up to speed before you load it; if it gets warm or weak, use a stronger source or a thicker cord.",
        "lasts_s",
        meaning="A tool takes long to get to its speed, or stays below it.",
    ),
    "sag_upsets_tool": _capacity(
        "{subject} may drop out when {value_text} starts: {value} for a moment, through the {limit_text} they share.",
        "Start the large motor first, or put {subject} on another source.",
        "voltage_v",
        meaning="The voltage sinks so far while one tool starts that another resets, drops out or stalls.",
    ),
    "weak_tool": _info(
        "{subject} runs and is weak here, {limit_text}: it keeps about {value_text} of its strength.",
        "Do not lean on it: it gets hot. A thicker or shorter cord, or a stronger source, gives it its strength back.",
        "strength_ratio",
        meaning="A tool with a series motor works at a voltage, or on a source that limits its current, at which it is "
        "slower and weaker than on its plate.",
    ),
}
