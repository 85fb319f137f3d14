"""Does a load check in a batch say what it says alone, and do the shorter ways of asking say no less than they claim?

Rules of the project's own: a row depends on nothing beside it; `first` gives the verdicts of `all`; `none` is never
better than `all`.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load, check_loads
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from ampwright.engine.calculations.verdicts import worst
from site_of import resistive, site_of


def _van(*tools: dict[str, Any], **members: Any) -> dict[str, Any]:
    return {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "receptacles": [{"id": "R1", "marked": "20 A"}, {"id": "R2", "marked": "20 A"}],
        },
        "tools": list(tools),
        **members,
    }


def _tool(load_class: str, amps: str = "15 A", **members: Any) -> dict[str, Any]:
    plate = {"voltage": "120 V", "current": amps}
    return {"id": load_class.replace("_", "-"), "load_class": load_class, "supply_options": [plate], **members}


REQUESTS = [
    _van(_tool("air_compressor"), _tool("circular_saw")),
    _van(_tool("circular_saw", "13 A"), _tool("battery_charger", "4 A"), _tool("fan", "2 A"), people=2),
    _van(resistive("heater", "1500 W"), resistive("kettle", "1200 W")),
    _van(_tool("refrigerator", "2 A")),
    {
        "source": {
            "kind": "engine_generator",
            "voltage": "120/240 V",
            "running": "6000 W",
            "technology": "avr",
            "circuits": [
                {"id": "c1", "legs": ["L1"], "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
                {"id": "c2", "legs": ["L2"], "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
            ],
            "receptacles": [
                {"id": "a", "marked": "20 A", "circuit": "c1"},
                {"id": "b", "marked": "20 A", "circuit": "c2"},
                {"id": "c", "marked": "20 A", "circuit": "c1"},
            ],
        },
        "cords": [{"id": "lead", "size": "14 AWG", "length": "100 ft"}],
        "connections": [
            {"plug": "lead", "into": "a"},
            {"plug": "concrete-mixer", "into": "lead"},
            {"plug": "angle-grinder", "into": "b"},
            {"plug": "filament-light", "into": "c"},
        ],
        "tools": [
            _tool("concrete_mixer", "9 A"),
            _tool("angle_grinder", "11 A"),
            _tool("filament_light", "4 A"),
        ],
        "cases": [
            {"id": "all", "running": ["concrete-mixer", "angle-grinder", "filament-light"]},
            {"id": "two", "running": ["angle-grinder", "concrete-mixer"],
             "start_order": ["concrete-mixer", "angle-grinder"]},
        ],
    },
]  # fmt: skip


@pytest.fixture(scope="module")
def alone() -> tuple[LoadCheckResult, ...]:
    return tuple(check_load(site_of(request)) for request in REQUESTS)


@pytest.mark.parametrize("order", [(0, 1, 2, 3, 4), (4, 3, 2, 1, 0), (1, 1, 4)])
def test_a_row_of_a_batch_is_the_same_alone(alone: tuple[LoadCheckResult, ...], order: tuple[int, ...]) -> None:
    together = check_loads([site_of(REQUESTS[n]) for n in order])
    # repr tells every digit of every figure
    assert [repr(result) for result in together] == [repr(alone[n]) for n in order]


def test_no_sites_are_no_answers() -> None:
    assert check_loads([]) == ()


def test_lists_of_unlike_length_are_refused() -> None:
    with pytest.raises(ValueError, match="zip"):
        check_loads([site_of(REQUESTS[0])], withdrawn=[(), ()])


def test_verdicts_need_no_figures(alone: tuple[LoadCheckResult, ...]) -> None:
    short = check_loads([site_of(request) for request in REQUESTS], verdict_only=True)
    for brief, whole in zip(short, alone, strict=True):
        assert (brief.verdict, brief.question, brief.findings) == (whole.verdict, whole.question, whole.findings)
        assert [case.verdict for case in brief.cases] == [case.verdict for case in whole.cases]
        assert brief.crew_card == whole.crew_card
        assert not any(case.results for case in brief.cases)


def test_the_first_deciding_assumption_gives_the_verdicts_of_all(alone: tuple[LoadCheckResult, ...]) -> None:
    assert any(case.verdict == "unknown" for whole in alone for case in whole.cases), "nothing here hangs on a question"
    short = check_loads([site_of(request) for request in REQUESTS], flips="first")
    for brief, whole in zip(short, alone, strict=True):
        assert brief.verdict == whole.verdict
        assert [case.verdict for case in brief.cases] == [case.verdict for case in whole.cases]
        assert (brief.question is None) == (whole.question is None)
        assert brief.findings == whole.findings


def test_without_trying_an_unknown_case_fails_and_says_why(alone: tuple[LoadCheckResult, ...]) -> None:
    short = check_loads([site_of(request) for request in REQUESTS], flips="none")
    for brief, whole in zip(short, alone, strict=True):
        for one, other in zip(brief.cases, whole.cases, strict=True):
            assert worst((one.verdict, other.verdict)) == one.verdict
            assert one.verdict == other.verdict or (other.verdict, one.verdict) == ("unknown", "fail")
        if any(case.verdict == "fail" for case in brief.cases):
            assert "assumptions" in brief.not_assessed
    assert any(a.verdict != b.verdict for a, b in zip(short, alone, strict=True))
