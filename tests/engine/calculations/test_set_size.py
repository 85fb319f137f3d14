"""Is a larger engine set ever worse at starting something than a smaller one of its kind?

Rule of the project, on the safe side: a start that only succeeds because a small alternator's voltage gives way before
its engine has to is not relied on. Starting is the outcome here; of two failures neither counts as the better one,
standing still burns a motor and a dead engine darkens everything.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from ampwright.engine.calculations.load_check.load_check import check_loads
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.starts.start_set import larger_sets
from ampwright.engine.physics.generator_response import GENERATOR_COLUMNS, GENERATOR_RATED_VA
from site_of import site_of

SIZES_W = tuple(round(700 * 1.17**k) for k in range(24))  # to 26 kW
VERDICTS = ("pass", "marginal", "unknown", "fail")

COMPRESSOR = {
    "load_class": "air_compressor", "shaft_power": "1.5 hp",
    "supply_options": [{"voltage": "120 V", "current": "15 A"}], "switch": "automatic",
}  # fmt: skip
TOOLS: dict[str, dict[str, Any]] = {
    "compressor-vented": {
        **COMPRESSOR,
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "code_letter": "J", "against": "vented"},
    },
    "compressor-under-pressure": {
        **COMPRESSOR,
        "start": {
            "kind": "induction_motor", "motor": "capacitor_start", "code_letter": "H", "against": "head_pressure",
        },
    },
    "pump": {
        "load_class": "pump", "shaft_power": "0.5 hp", "supply_options": [{"voltage": "120 V", "current": "8 A"}],
        "start": {"kind": "induction_motor", "motor": "permanent_split", "against": "pump"}, "switch": "automatic",
    },
    "fan": {
        "load_class": "fan", "shaft_power": "0.33 hp", "supply_options": [{"voltage": "120 V", "current": "6.5 A"}],
        "start": {"kind": "induction_motor", "motor": "split_phase", "against": "fan"}, "switch": "positive_on_off",
    },
    "mixer": {
        "load_class": "concrete_mixer", "shaft_power": "0.75 hp",
        "supply_options": [{"voltage": "120 V", "current": "10 A"}],
        "start": {"kind": "induction_motor", "motor": "capacitor_start", "against": "loaded_drum"},
        "switch": "positive_on_off",
    },
    "saw": {
        "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "13 A"}],
        "start": {"kind": "universal_motor", "soft_start": False}, "switch": "constant_pressure",
    },
}  # fmt: skip


def asked(kind: str | None, watts: int, *names: str) -> dict[str, Any]:
    source: dict[str, Any] = {
        "kind": "engine_generator", "voltage": "120 V", "running": f"{watts} W", "neutral_bond": "bonded",
        "receptacles": [
            {"id": f"R{n}", "type": "5-20R", "ground_fault": "gfci_class_a"} for n, _ in enumerate(names)
        ],
        "reset": {"how": "manual"},
    }  # fmt: skip
    if kind is not None:
        source["technology"] = kind
    return {
        "source": source,
        "tools": [{"id": name, **TOOLS[name]} for name in names],
        "connections": [{"plug": name, "into": f"R{n}"} for n, name in enumerate(names)],
        "cases": [{"id": "all", "running": list(names)}],
        "people": 9,
    }


def rank(outcome: str) -> int:
    return {"starts": 0, "starts_slowly": 1}.get(outcome, 2)


@pytest.mark.parametrize("kind", ["avr", "capacitor_regulated", None])
@pytest.mark.parametrize("name", sorted(TOOLS))
def test_a_larger_set_never_starts_a_tool_worse(kind: str | None, name: str) -> None:
    found = [evaluate(site_of(asked(kind, watts, name)), frozenset()).starts.tools[0] for watts in SIZES_W]
    for estimate in range(3):
        ranks = [rank(one.outcomes[estimate]) for one in found]
        assert ranks == sorted(ranks, reverse=True), (estimate, [one.outcomes[estimate] for one in found])
    if name != "saw":
        assert rank(found[0].outcomes[2]) == 2
        assert rank(found[-1].outcomes[2]) < 2


@pytest.mark.parametrize("kind", ["avr", "capacitor_regulated"])
def test_a_larger_set_never_has_the_worse_capacity_verdict(kind: str) -> None:
    together = ("compressor-vented", "fan", "saw")
    answers = check_loads([site_of(asked(kind, watts, *together)) for watts in SIZES_W])
    ranks = [VERDICTS.index(one.verdict.capacity) for one in answers]
    assert ranks == sorted(ranks, reverse=True)
    assert ranks[0] == VERDICTS.index("fail")


@pytest.mark.parametrize("kind", ["avr", "capacitor_regulated"])
@pytest.mark.parametrize("watts", [2876, 5389])
@pytest.mark.parametrize("name", ["compressor-vented", "mixer"])
def test_a_longer_cord_on_a_set_never_starts_a_tool_better(kind: str, watts: int, name: str) -> None:
    """A cord that holds a start's current down is not relied on to keep a set up: it may be a shorter one tomorrow."""
    ranks = []
    for feet in (5, 25, 50, 100, 150, 200, 300):
        request = asked(kind, watts, name)
        request["cords"] = [{"id": "cord", "length": f"{feet} ft", "size": "14 AWG", "laid": "straight"}]
        request["connections"] = [{"plug": "cord", "into": "R0"}, {"plug": name, "into": "cord"}]
        outcomes = evaluate(site_of(request), frozenset()).starts.tools[0].outcomes
        ranks.append([rank(outcome) for outcome in outcomes])
    for estimate in range(3):
        course = [one[estimate] for one in ranks]
        assert course == sorted(course), (estimate, course)


@pytest.mark.parametrize("rated_va", [700.0, 3000.0, 16_384.0])
def test_the_larger_sets_looked_at_are_steps_that_all_sizes_share(rated_va: float) -> None:
    generator = [0.0] * GENERATOR_COLUMNS
    generator[GENERATOR_RATED_VA] = rated_va
    sizes = [rated_va * times for times in larger_sets(np.array(generator))]
    assert all(rated_va < size <= 4.0 * rated_va * (1.0 + 1e-12) for size in sizes)
    assert len(sizes) == 8
    for size in sizes:
        step = np.log2(size) * 4.0
        assert step == pytest.approx(round(step), abs=1e-9)
