"""How does a test ask a cord question? As a request would, in JSON members, read through the contract."""

from __future__ import annotations

from typing import Any

import msgspec
from ampwright.contract.cord_sizings import CordSizingRequest
from ampwright.contract.places import AS_SENT
from ampwright.contract.reading_cord_sizing import as_load_check, read_question
from ampwright.engine.calculations.cord_sizing.cord_sizing import size_cords
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion, question_faults
from ampwright.engine.calculations.cord_sizing.cord_sizing_result import CordRow, CordSizingResult, RuleLine
from ampwright.engine.site.validation import validate


def question_of(request: dict[str, Any]) -> CordQuestion:
    """A sound question; a faulty one fails the test that asked for it."""
    sent = msgspec.convert(request, CordSizingRequest)
    asked = as_load_check(sent)
    question, unread = read_question(sent, asked.request, asked.combined(AS_SENT))
    faults = (*unread, *validate(question.site), *question_faults(question))
    assert not faults, faults
    return question


def size(request: dict[str, Any]) -> CordSizingResult:
    """The answer to a cord question in JSON members."""
    return size_cords(question_of(request))


def row_of(result: CordSizingResult, name: str) -> CordRow:
    """The row of a size, cord or run."""
    return next(row for row in result.rows if row.id == name)


def lines_of(row: CordRow, code: str, load_state: str | None = None) -> tuple[RuleLine, ...]:
    """Lines of a row with this code, in this load state where one is given."""
    return tuple(line for line in row.lines if line.code == code and load_state in (None, line.load_state))


def line_of(row: CordRow, code: str, load_state: str | None = None) -> RuleLine:
    """The one line of a row with this code."""
    (found,) = lines_of(row, code, load_state)
    return found


def stiff(voltage: str = "120 V", *, kind: str = "vehicle", **receptacle: Any) -> dict[str, Any]:
    """A source without resistance of its own, so that what is lost is lost in the cord."""
    if not voltage.endswith("DC"):
        receptacle = {"ground_fault": "gfci_class_a", **receptacle}
    return {
        "kind": kind,
        "voltage": voltage,
        "resistance": "0 ohm",
        "limits": [],
        "circuits": [{"id": "C1", "resistance": "0 ohm", "device": {"kind": "breaker", "rating": "60 A"}}],
        "receptacles": [{"id": "R1", "circuit": "C1", "marked": "60 A", **receptacle}],
    }


def constant_current(current: str, voltage: str = "120 V", **members: Any) -> dict[str, Any]:
    """A load that draws exactly this current, in phase, whatever the voltage."""
    states = [
        {
            "id": name,
            "current": current,
            "power_factor": 1.0,
            "crest_factor": 1.42,
            "follows_voltage": "constant_current",
        }
        for name in ("working", "heavy")
    ]
    return {
        "id": "load",
        "load_class": "other",
        "supply_options": [{"voltage": voltage, "current": current}],
        "load_states": states,
        **members,
    }
