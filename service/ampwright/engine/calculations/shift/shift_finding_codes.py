"""Which findings does the use over a shift bring? Source: practice of the trade."""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode, capacity

SHIFT_FINDING_CODES: dict[str, FindingCode] = {
    "trips_in_shift": capacity(
        "{subject}, rated {limit_text}, is likely to trip {value_text}.",
        "Move a tool to another circuit, or plan fewer tools at once; do not count on people keeping to an order.",
        "trip_probability_ratio",
        meaning="With the tools switched on and off as they are used, a device or the source opens in more than one "
        "shift in twenty.",
    ),
}
