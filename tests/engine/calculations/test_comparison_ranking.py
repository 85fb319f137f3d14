"""Is the order that of a weighted mean, the Pareto set that of its definition, and what decides what really does?

Sources: the Pareto set is checked against its definition (a member is dominated by nobody), spelt out anew here over
all pairs; scores against fractions worked out by hand.
"""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest
from ampwright.engine.calculations.choosing.comparison_ranking import (
    CRITERIA,
    VALUE_STEP,
    WEIGHT_STEP,
    Candidate,
    rank,
    scores_of,
)
from hypothesis import given, settings
from hypothesis import strategies as st

ORDER = ["pass", "marginal", "unknown", "fail"]


def test_scores_by_hand() -> None:
    """Mass 10, 20, 40 kg are 1, 2/3 and 0; noise 60, 50, 70 dB are 1/2, 1 and 0; weights 3 and 1."""
    candidates = [
        Candidate("pass", {"mass_kg": 10.0, "noise_db": 60.0}),
        Candidate("pass", {"mass_kg": 20.0, "noise_db": 50.0}),
        Candidate("pass", {"mass_kg": 40.0, "noise_db": 70.0}),
    ]
    expected = [(3 * 1 + Fraction(1, 2)) / 4, (3 * Fraction(2, 3) + 1) / 4, Fraction(0)]
    assert scores_of(candidates, {"mass_kg": 3.0, "noise_db": 1.0}) == pytest.approx([float(one) for one in expected])
    assert rank(candidates, {"mass_kg": 3.0, "noise_db": 1.0}).ranks == (1, 2, 3)
    assert rank(candidates, {"mass_kg": 1.0, "noise_db": 3.0}).ranks == (2, 1, 3)


def test_a_source_that_fails_turns_no_order_of_the_others() -> None:
    """Mass 40 and 42 kg are 1 and 0, noise 60 and 57 dB are 0 and 1, weights 3 and 2: 3/5 against 2/5. On a scale down
    to the 20 kg of one that fails they would be 1/11 and 0 of mass, and the other would come first."""
    two = [
        Candidate("pass", {"mass_kg": 40.0, "noise_db": 60.0}),
        Candidate("pass", {"mass_kg": 42.0, "noise_db": 57.0}),
    ]
    weights = {"mass_kg": 3.0, "noise_db": 2.0}
    failing = Candidate("fail", {"mass_kg": 20.0, "noise_db": 59.0})
    for found in (rank(two, weights), rank([*two, failing], weights)):
        assert found.ranks[:2] == (1, 2)
        assert found.scores[:2] == pytest.approx((0.6, 0.4))
    # it is lighter than all that do not fail, and a third of the way from the loudest of them to the quietest
    assert rank([*two, failing], weights).scores[2] == pytest.approx((3.0 + 2.0 / 3.0) / 5.0, abs=1e-4)


def test_a_verdict_stands_above_every_score() -> None:
    light_and_failing = Candidate("fail", {"mass_kg": 1.0, "noise_db": 10.0})
    heavy_and_passing = Candidate("pass", {"mass_kg": 90.0, "noise_db": 90.0})
    found = rank([light_and_failing, heavy_and_passing], dict.fromkeys(CRITERIA, 1000.0))
    assert found.ranks == (2, 1)
    assert found.beaten_by == ((), ())  # each is better by something


def test_a_danger_stands_behind_what_only_fails() -> None:
    hurts, weak = Candidate("fail", {"mass_kg": 1.0}, danger=True), Candidate("fail", {"mass_kg": 90.0})
    found = rank([hurts, weak], {"mass_kg": 1.0})
    assert found.ranks == (2, 1)
    assert found.deciding == ()  # no weight puts the danger first
    open_ = Candidate("unknown", {"mass_kg": 1.0}, danger=True)
    assert rank([open_, Candidate("unknown", {"mass_kg": 90.0})], {"mass_kg": 1.0}).ranks == (1, 2)


def test_what_is_not_known_counts_as_the_worst() -> None:
    known, unknown = Candidate("pass", {"mass_kg": 500.0}), Candidate("pass", {})
    found = rank([unknown, known], {"mass_kg": 1.0})
    assert found.ranks == (2, 1)
    assert found.beaten_by == ((1,), ())


def test_what_decides_is_named() -> None:
    """1/2 w_mass against 1/2 w_noise: equal weights tie, and the first listed stands; a fifth less mass turns it."""
    quiet = Candidate("pass", {"mass_kg": 20.0, "noise_db": 50.0})
    light = Candidate("pass", {"mass_kg": 10.0, "noise_db": 60.0})
    found = rank([light, quiet], {"mass_kg": 1.0, "noise_db": 1.0})
    assert found.ranks == (1, 2)
    assert {(one.kind, one.criterion, one.change_ratio, one.then_first) for one in found.deciding} == {
        ("weight", "mass_kg", -WEIGHT_STEP, 1),
        ("weight", "noise_db", WEIGHT_STEP, 1),
    }
    firm = rank([light, quiet], {"mass_kg": 5.0, "noise_db": 1.0})
    assert firm.deciding == ()


def test_a_figure_that_decides_is_named() -> None:
    """104 and 100 kg: a tenth off and the other is lighter; nothing else is compared."""
    found = rank([Candidate("pass", {"mass_kg": 104.0}), Candidate("pass", {"mass_kg": 100.0})], {"mass_kg": 1.0})
    assert found.ranks == (2, 1)
    assert ("figure", "mass_kg", 1, VALUE_STEP, 0) in {
        (one.kind, one.criterion, one.candidate, one.change_ratio, one.then_first) for one in found.deciding
    }
    sure = rank([Candidate("pass", {"mass_kg": 150.0}), Candidate("pass", {"mass_kg": 100.0})], {"mass_kg": 1.0})
    assert sure.deciding == ()


def test_no_weight_and_no_such_criterion() -> None:
    assert rank([Candidate("pass", {"mass_kg": 1.0})] * 2, {}).scores == (0.0, 0.0)
    assert rank([], {"mass_kg": 1.0}).ranks == ()
    with pytest.raises(ValueError, match="watts"):
        rank([], {"watts": 1.0})


FIGURES = st.dictionaries(
    st.sampled_from(sorted(CRITERIA)), st.integers(0, 3).map(float), min_size=0, max_size=len(CRITERIA)
)
CANDIDATES = st.lists(st.builds(Candidate, st.sampled_from(ORDER), FIGURES), min_size=1, max_size=7)


def as_vector(one: Candidate) -> list[float]:
    """All criteria so that more is better; what is not known is worse than any figure."""
    values = [-float(ORDER.index(one.verdict))]
    for name, more_is_better in CRITERIA.items():
        value = one.figures.get(name)
        values.append(-1e9 if value is None else value if more_is_better else -value)
    return values


@settings(max_examples=200, deadline=None, derandomize=True)
@given(CANDIDATES)
def test_the_pareto_set_is_that_of_its_definition(candidates: list[Candidate]) -> None:
    vectors = [as_vector(one) for one in candidates]
    beaten: dict[int, set[int]] = {i: set() for i in range(len(candidates))}
    for i, j in itertools.permutations(range(len(candidates)), 2):
        no_worse = all(a >= b for a, b in zip(vectors[j], vectors[i], strict=True))
        if no_worse and vectors[j] != vectors[i]:
            beaten[i].add(j)
    found = rank(candidates, dict.fromkeys(CRITERIA, 1.0))
    assert [set(one) for one in found.beaten_by] == [beaten[i] for i in range(len(candidates))]
    assert any(not one for one in found.beaten_by)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(CANDIDATES, st.dictionaries(st.sampled_from(sorted(CRITERIA)), st.integers(1, 5).map(float), min_size=1))
def test_whoever_is_beaten_all_round_does_not_stand_first(
    candidates: list[Candidate], weights: dict[str, float]
) -> None:
    found = rank(candidates, weights)
    assert sorted(found.ranks) == list(range(1, len(candidates) + 1))
    for i, rank_of in enumerate(found.ranks):
        for j in found.beaten_by[i]:
            better_verdict = ORDER.index(candidates[j].verdict) < ORDER.index(candidates[i].verdict)
            assert found.scores[j] >= found.scores[i] or better_verdict
            assert found.ranks[j] < rank_of or found.scores[j] == found.scores[i]
    assert all(0.0 <= score <= 1.0 for score in found.scores)
