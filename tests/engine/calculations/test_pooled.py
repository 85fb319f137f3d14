"""Does each calculation get its own rows back, and a repeated march the same bits?

A rule of the project's own: what stands beside a calculation changes none of its bits.
"""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest
from ampwright.engine.calculations import pooled
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.network.load_network import rows_solved
from ampwright.engine.calculations.pooled import March, Marched, Steps, alone, together
from site_of import resistive, site_of

ROWS = 5


def _march(seed: int) -> March:
    rng = np.random.default_rng(seed)
    return March("motor", (rng.uniform(1.0, 2.0, (ROWS, 3)), rng.uniform(1.0, 2.0, (ROWS, 2))))


def _two_steps(first: int, second: int) -> Steps[list[bytes]]:
    found: list[bytes] = []
    for seed in (first, second):
        (one,) = yield (_march(seed),)
        assert isinstance(one, Marched)
        found.append(one.result.tobytes() + one.segment.tobytes())
    return found


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """A stand-in for a kernel that tells each row apart, and how many rows it was called with."""
    found: list[int] = []

    def sums(first: np.ndarray, second: np.ndarray, result: np.ndarray, segment: np.ndarray) -> None:
        found.append(len(first))
        result[:] = (first.sum(axis=1) + 10.0 * second.sum(axis=1))[:, None]
        segment[:] = result[:, :1, None]

    monkeypatch.setitem(pooled._KERNELS, "motor", sums)
    return found


def test_calculations_in_step_share_a_call_and_keep_their_rows(calls: list[int]) -> None:
    apart = [alone(_two_steps(first, second)) for first, second in ((1, 2), (3, 4))]
    calls.clear()
    assert together([_two_steps(1, 2), _two_steps(3, 4)]) == apart
    assert calls == [2 * ROWS, 2 * ROWS]


def test_a_march_asked_for_again_is_not_run_again(calls: list[int]) -> None:
    once = alone(_two_steps(1, 2))
    calls.clear()
    assert together([_two_steps(1, 2), _two_steps(2, 1)]) == [once, [once[1], once[0]]]
    assert calls == [2 * ROWS]


def test_what_is_remembered_is_bounded(calls: list[int], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pooled, "MOST_REMEMBERED", ROWS)
    once = alone(_two_steps(1, 2))
    assert alone(_two_steps(2, 1)) == [once[1], once[0]]
    assert calls == [ROWS] * 4


def test_nothing_asked_is_nothing_answered() -> None:
    assert together([]) == []


@pytest.mark.usefixtures("calls")
def test_an_error_of_one_calculation_is_raised() -> None:
    def broken() -> Steps[int]:
        yield from _two_steps(1, 1)
        raise ValueError("this one")

    with pytest.raises(ValueError, match="this one"):
        together([broken()])


def test_networks_of_unlike_sites_are_solved_in_one_batch_to_the_same_bits() -> None:
    def request(*tools: str) -> dict[str, object]:
        return {
            "source": {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1", "marked": "20 A"}]},
            "tools": [resistive(tool, f"{300 + 10 * n} W") for n, tool in enumerate(tools)],
        }

    evaluations = [evaluate(site_of(request(*names)), frozenset()) for names in (("a",), ("a", "b", "c"), ("d", "e"))]
    asked = [(one.settled, one.rows) for one in evaluations]
    for one, figures in zip(asked, together([rows_solved(*one) for one in asked]), strict=True):
        single = alone(rows_solved(*one))
        for member in fields(figures):
            assert getattr(figures, member.name).tobytes() == getattr(single, member.name).tobytes()
