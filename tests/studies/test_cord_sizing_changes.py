"""Does the other answer to an assumption of a cord sizing, posted, give what the sizing promised of it?

Steps are applied by the rules of RFC 6902, the outcome is read like any question and sized again: the assumption is
gone, and the rows that it decides stand as `swings_verdict_to` said.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from cord_question_of import size
from patched import patched

ORDER = ("pass", "marginal", "unknown", "fail")
TOOL = {
    "id": "compressor",
    "load_class": "air_compressor",
    "supply_options": [{"voltage": "120 V", "current": "12 A"}],
}
SOURCE = {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1"}, {"id": "R2"}]}
QUESTIONS: dict[str, dict[str, Any]] = {
    "a cord to be brought, nothing known of it": {"source": SOURCE, "tool": TOOL, "distance": "60 ft"},
    "a cord to be brought of a known type": {
        "source": {**SOURCE, "limits": [{"id": "inverter"}]},
        "tool": {**TOOL, "shaft_power": "1 hp"},
        "distance": "150 ft",
        "new_cord": {"type": "SOOW"},
    },
    "cords at hand": {
        "source": SOURCE,
        "tool": {"id": "saw", "load_class": "circular_saw"},
        "cords": [{"id": "worn", "length": "100 ft"}, {"id": "good", "length": "50 ft", "size": "12 AWG"}],
        "distance": "50 ft",
    },
    "an engine set": {
        "source": {"kind": "engine_generator", "voltage": "120 V", "running": "3000 W", "receptacles": [{"id": "R1"}]},
        "tool": TOOL,
        "distance": "100 ft",
    },
}


@pytest.mark.parametrize("name", list(QUESTIONS))
def test_the_other_answer_posted_gives_what_was_promised(name: str) -> None:
    question = QUESTIONS[name]
    sized = size(question)
    for item in sized.assumptions:
        if not item.if_instead_change:
            continue
        steps = [{"op": step.op, "path": step.path, "value": step.value} for step in item.if_instead_change]
        again = size(patched(question, msgspec.to_builtins(steps)))
        assert (item.code, item.pointer) not in {(one.code, one.pointer) for one in again.assumptions}, item
        if item.swings_verdict_to is not None:
            alone = {row.id for row in sized.rows if row.waits_for == item.id}
            verdicts = [row.verdict for row in again.rows if row.id in alone]
            # what it decides of the receptacle itself shows in no row
            assert not verdicts or max(verdicts, key=ORDER.index) == item.swings_verdict_to, item


def test_every_other_side_that_a_request_can_say_is_written() -> None:
    told: dict[str, set[bool]] = {}
    for question in QUESTIONS.values():
        for item in size(question).assumptions:
            if item.if_instead is not None:
                told.setdefault(item.code, set()).add(bool(item.if_instead_change))
    # what a source does beyond its highest overload is said by no member of a request; crests are told apart from the
    # overloads only of an output that was listed
    assert {code for code, written in told.items() if False in written} <= {"overload_policy", "limit_peak"}
    assert {"cord_laid", "cord_size", "start_current", "head_pressure", "limit_tiers", "receptacle_rating"} <= set(told)
