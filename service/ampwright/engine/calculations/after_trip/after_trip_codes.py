"""Which words does an answer use for what follows a trip, and what does each mean?

Served as a list, so that a caller can translate. Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.after_trip.restart_load import SWITCH_STATES
from ampwright.engine.calculations.after_trip.trip_triggers import OCCASIONS

OPENERS = {
    "breaker": "A circuit-breaker.",
    "supplementary_protector": "A thermal push-button protector.",
    "fuse": "A fuse: replaced by one of the same rating, by hand.",
    "electronic": "An electronic limit of one circuit.",
    "unknown": "A device that nobody named.",
    "limit": "A limit of the source: all that hangs on it goes off.",
}
PLACES = {
    "surely_first": "It opens before anything else can.",
    "may_be_first": "It may open first; the bands of several overlap.",
}
RESTARTS = {
    "nothing_on": "Nothing is still switched on.",
    "comes_on": "All that is still switched on comes back.",
    "comes_on_slowly": "It comes back, but a motor takes long to get to its speed.",
    "stalls": "A motor stands still.",
    "hunts": "A motor's start switch goes in and out without an end.",
    "source_limits": "The source holds the current down and a motor does not get to its speed.",
    "shuts_off": "The source switches off again while motors start.",
    "collapses": "The voltage collapses, or the engine of the set dies; then somebody has to start it again.",
    "trips": "All comes on, and something opens again.",
    "not_assessed": "A tool whose start is not known may be on.",
}
ENDINGS = {
    "stays_on": "Power stays.",
    "locked_out": "The tries are used up: it stays off until a person comes.",
    "goes_on_and_off": "It comes and goes without an end.",
    "waits_for_person": "It stays off until a person switches it on.",
}
MEANINGS = {
    "starts_without_warning": "It starts when power returns, and nobody has touched it.",
    "starts_unseen": "It starts when somebody switches power on from a distance.",
    "starts_at_reset": "It starts when power is switched on again, unless it was switched off before.",
    "kicks_if_held": "It kicks where its switch is held when power returns.",
    "starts_by_itself": "Its pressure or float switch starts it when power returns.",
    "stands_still": "Its motor does not get going again and heats up.",
    "does_not_restart": "With all that comes back at once it does not get going; the source gives way.",
    "comes_back_late": "It waits some minutes for its pressure to level out, and goes on by itself.",
    "comes_back": "It goes on by itself when power returns.",
    "lost_while_off": "What it keeps dry, cold, warm or alive is lost while it is off.",
    "stays_off": "It stays off until somebody switches it on.",
}
AFTER_TRIP_CODES: dict[str, dict[str, str]] = {
    "opener": OPENERS,
    "occasion": OCCASIONS,
    "place": PLACES,
    "switch": SWITCH_STATES,
    "restart": RESTARTS,
    "ending": ENDINGS,
    "means": MEANINGS,
}
