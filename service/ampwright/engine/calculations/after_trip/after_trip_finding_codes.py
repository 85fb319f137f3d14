"""Which findings does it bring that power goes and returns?

None of them can be told where nothing opens within its band. What depends on a trip first is a danger only where
power returns without a person and a motor burns; what is lost while power is off stops the work.
Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode
from ampwright.engine.calculations.finding_code import capacity as _capacity
from ampwright.engine.calculations.finding_code import caution as _caution
from ampwright.engine.calculations.finding_code import danger as _danger
from ampwright.engine.calculations.finding_code import info as _info

AFTER_TRIP_FINDING_CODES: dict[str, FindingCode] = {
    "return_overheats_motor": _danger(
        "After a trip power comes back by itself and {subject} stands still {value_text}: its winding may reach "
        "{value}.",
        "Switch {subject} off at the tool after any stop, before power returns; use a source that stays off after a "
        "trip, or one that starts it against full pressure.",
        "winding_temperature_c",
        meaning="A source that resets itself feeds a motor that does not get going again, until its winding is hotter "
        "than its insulation bears.",
    ),
    "locks_out_and_stays_off": _danger(
        "{subject} must not stay off; after a trip the source tries again, locks out and stays off.",
        "Give {subject} a source or a circuit of its own, and someone who notices when it stops.",
        meaning="A load that must come back hangs on a source whose tries end in a lock-out.",
    ),
    "stalls_when_power_returns": _capacity(
        "If power goes while {subject} runs and then returns, it does not get going again: {value_text}.",
        "Switch {subject} off at the tool when it stops, let its pressure off, and wait a minute before switching it "
        "on; unplug it before touching it, since its own protector may start it without warning.",
        meaning="A motor that starts as usual does not restart after power went in mid-run, with what comes back "
        "beside it.",
    ),
    "trips_again_on_return": _capacity(
        "After a trip, what is still switched on opens {limit_text} again: {value_text}.",
        "Switch every tool off before power returns, then start them one after another.",
        meaning="Power returns by itself to all that was left switched on, and goes again.",
    ),
    "stays_off_after_trip": _caution(
        "If it trips, {subject} stays off until somebody {value_text}.",
        "Have someone look after it, or give it a circuit of its own.",
        meaning="A pump, refrigerator or load that must return hangs on a device or source that may stay off.",
    ),
    "comes_back_late": _info(
        "After a trip {subject} waits some minutes until its pressure has levelled out, then goes on by itself.",
        "Leave it plugged in and wait; do not switch it off and on.",
        meaning="A refrigerator does not start against its own pressure; its protector tries again after minutes.",
    ),
}
