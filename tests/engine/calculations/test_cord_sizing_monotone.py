"""Does more copper, a shorter run or cooler air ever make an answer worse?

Physics says no: resistance falls with area and length and rises with temperature, heat loss grows with ampacity, marks
never fall with size and never rise with length. So no rule may go from met to not met. Of the gauges only those that
UL 817 marks are compared; below freezing the jacket speaks against the cold, so cooler ends at 0 C.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from ampwright.engine.calculations.cord_sizing.cord_sizing_evaluation import RowEvaluation, evaluate
from ampwright.engine.calculations.cord_sizing.cord_sizing_runs import candidates
from ampwright.engine.calculations.cord_sizing.cord_sizing_start import STRAIGHT_IN
from ampwright.engine.calculations.verdicts import ORDER
from cord_question_of import question_of
from hypothesis import given, settings
from hypothesis import strategies as st

LOADS = ("circular_saw", "air_compressor", "heater", "battery_charger", "welder", "other")
SOURCES: tuple[dict[str, Any], ...] = (
    {"kind": "vehicle", "voltage": "120 V", "limits": [{"id": "L", "response": "current_limiting"}]},
    {"kind": "vehicle", "voltage": "120 V"},
    {"kind": "engine_generator", "voltage": "120 V", "running": "5000 W"},
    {"kind": "engine_generator", "voltage": "120 V", "running": "4000 W", "technology": "capacitor_regulated"},
    {"kind": "site_supply", "voltage": "230 V", "fault_current": "300..2000 A", "earthing": "tn_s"},
    {"kind": "battery_station", "voltage": "48 V DC"},
)


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    source = dict(draw(st.sampled_from(SOURCES)))
    marked = draw(st.sampled_from((15, 20, 30)))
    device = draw(st.sampled_from(("ul_489", "iec_60898_b", "iec_60898_c", "bs_1362", None)))
    protected = source["voltage"] != "48 V DC" and draw(st.booleans())
    if device == "bs_1362":
        marked = 13
    circuit: dict[str, Any] = {"id": "C1"}
    if device is not None:
        circuit["device"] = {
            "kind": "fuse" if device == "bs_1362" else "breaker",
            "standard": device,
            "rating": f"{marked} A",
        }
    receptacle: dict[str, Any] = {"id": "R1", "circuit": "C1", "marked": f"{marked} A"}
    if source["voltage"] != "48 V DC":
        receptacle["ground_fault"] = "gfci_class_a" if protected else "none"
    source |= {"circuits": [circuit], "receptacles": [receptacle]}
    members: dict[str, Any] = {"laid": draw(st.sampled_from(("straight", "coiled", "drum")))}
    members |= draw(st.sampled_from(({}, {"insulation_temperature": "90 degC"}, {"type": "SOOW"})))
    return {
        "source": source,
        "tool": {
            "id": "tool",
            "load_class": draw(st.sampled_from(LOADS)),
            "supply_options": [
                {"voltage": source["voltage"], "current": f"{draw(st.integers(min_value=10, max_value=250)) / 10} A"}
            ],
            **draw(st.sampled_from(({}, {"on": "3 min", "off": "4 min"}))),
        },
        "distance": f"{draw(st.integers(min_value=2, max_value=120))} m",
        "new_cord": members,
        "conditions": {"ambient": f"{draw(st.integers(min_value=0, max_value=45))} degC"},
        **draw(st.sampled_from(({}, {"code_basis": ["nec-2023"]}, {"code_basis": ["iec-60364-de"]}))),
    }


def rows_of(request: dict[str, Any]) -> tuple[RowEvaluation, ...]:
    question = question_of(request)
    return evaluate(question, candidates(question).runs).rows


def not_worse(better: RowEvaluation, worse: RowEvaluation) -> None:
    """Every rule, and the whole, is met by `better` at least as well."""
    assert ORDER.index(better.verdict) <= ORDER.index(worse.verdict), (better.run.id, worse.run.id)
    # A long thin cord holds a start's current down, so that more copper may open a breaker. What no cord mends, because
    # the tool straight in the receptacle fares as badly, is told once for all and is none of a run's rules. Nor does a
    # thin cord get credit for keeping up a set that less cord brings down: both are in the verdicts compared here.
    verdicts = {(line.code, line.load_state): line.verdict for line in better.lines if line.limit_from != STRAIGHT_IN}
    collapsed = {line.load_state for line in worse.lines if line.code == "voltage_collapse"}
    for line in worse.lines:
        found = verdicts.get((line.code, line.load_state))
        # where the worse one collapses its figures say nothing, and a table ends where it ends
        # a duty is on at the heavy current; a short meets copper as warm as the work has made it
        state = {"duty": "heavy", None: "working" if line.code == "fault_clearing" else None}.get(
            line.load_state, line.load_state
        )
        if found is not None and (state not in collapsed or line.code == "voltage_collapse"):
            assert ORDER.index(found) <= ORDER.index(line.verdict), (line.code, line.load_state, worse.run.id)


@settings(max_examples=300, deadline=None)
@given(requests())
def test_more_copper_is_never_worse(request: dict[str, Any]) -> None:
    for thin, thick in pairwise(rows_of(request)):
        not_worse(thick, thin)


@settings(max_examples=300, deadline=None)
@given(requests(), st.integers(min_value=1, max_value=99))
def test_shorter_is_never_worse(request: dict[str, Any], percent: int) -> None:
    metres = float(request["distance"].removesuffix(" m")) * percent / 100.0
    for short, long in zip(rows_of({**request, "distance": f"{metres:.2f} m"}), rows_of(request), strict=True):
        not_worse(short, long)


@settings(max_examples=40, deadline=None)
@given(requests(), st.integers(min_value=0, max_value=45))
def test_cooler_is_never_worse(request: dict[str, Any], cooler: int) -> None:
    warm = int(request["conditions"]["ambient"].removesuffix(" degC"))
    low = {**request, "conditions": {"ambient": f"{min(cooler, warm)} degC"}}
    for cool, hot in zip(rows_of(low), rows_of(request), strict=True):
        not_worse(cool, hot)


@settings(max_examples=25, deadline=None)
@given(requests())
def test_unrolled_is_never_worse(request: dict[str, Any]) -> None:
    straight = {**request, "new_cord": {**request["new_cord"], "laid": "straight"}}
    for laid_out, wound in zip(rows_of(straight), rows_of(request), strict=True):
        not_worse(laid_out, replace(wound, lines=tuple(line for line in wound.lines if "coiled" not in line.code)))
