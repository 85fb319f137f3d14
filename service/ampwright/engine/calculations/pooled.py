"""How do many sites share one kernel call?

A calculation that needs a kernel asks for it by `yield` and goes on when the answer comes. Here many such calculations
go forward together: what they ask for at one step is laid into one batch of networks and one of marches, and each gets
its own rows back. A row depends on nothing beside it, so one calculation alone gets the same bits. A march that was
asked for before, bit for bit, is not run again: cases, estimates and assumptions that are tried leave many a start as
it was.
Source: no physics here; engine/physics network_flow, motor_start, universal_motor_start, generator_start.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.generator_start import generator_start
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.network_flow import NetworkBatch, NetworkResult, solve_networks
from ampwright.engine.physics.start_outcome import RESULT_COLUMNS
from ampwright.engine.physics.universal_motor_start import universal_motor_start

T = TypeVar("T")
Real = npt.NDArray[np.float64]

MOTOR, SERIES_MOTOR, ON_A_SET = "motor", "series motor", "on a set"
MOST_REMEMBERED = 20_000  # marches; about a kilobyte each
_KERNELS: dict[str, Callable[..., None]] = {
    MOTOR: motor_start,
    SERIES_MOTOR: universal_motor_start,
    ON_A_SET: generator_start,
}


@dataclass(frozen=True, slots=True)
class March:
    """Starts of one kind to be run up; columns as the kernel of the kind wants them, in order and in two dimensions."""

    kind: str
    columns: tuple[Real, ...]

    @property
    def rows(self) -> int:
        return len(self.columns[0])


@dataclass(frozen=True, slots=True)
class Marched:
    """result : (rows, RESULT_COLUMNS). segment : (rows, SEGMENTS, SEGMENT_COLUMNS)."""

    result: Real
    segment: Real


Ask = NetworkBatch | tuple[March, ...]
# what comes back is a NetworkResult for a batch of networks, and one Marched for each march of a tuple
Steps = Generator[Ask, Any, T]


def alone(steps: Steps[T]) -> T:
    """One calculation, carried to its end."""
    return together([steps])[0]


def together(calculations: Sequence[Steps[T]]) -> list[T]:
    """Carry calculations to their ends, in step.

    Returns
    -------
    results : in the order of the calculations

    Errors: those of a calculation, as it raises them; the others are then left where they are.
    """
    found: dict[int, T] = {}
    known: dict[str, dict[bytes, tuple[Real, Real]]] = {kind: {} for kind in _KERNELS}
    asked: list[tuple[int, Ask]] = []

    def go_on(n: int, answer: Any) -> None:
        try:
            asked.append((n, calculations[n].send(answer)))
        except StopIteration as end:
            found[n] = end.value

    for n in range(len(calculations)):
        go_on(n, None)
    while asked:
        now, asked[:] = list(asked), []
        networks = [(n, ask) for n, ask in now if isinstance(ask, NetworkBatch)]
        marches = [(n, ask) for n, ask in now if not isinstance(ask, NetworkBatch)]
        answers: dict[int, Any] = {}
        answers.update(zip((n for n, _ in networks), _solved([ask for _, ask in networks]), strict=True))
        answers.update(zip((n for n, _ in marches), _marched([ask for _, ask in marches], known), strict=True))
        for n, _ in now:
            go_on(n, answers[n])
    return [found[n] for n in range(len(calculations))]


def _solved(batches: list[NetworkBatch]) -> list[NetworkResult]:
    if len(batches) < 2:
        return [solve_networks(batch) for batch in batches]
    nodes = np.cumsum([0, *(len(one.parent) for one in batches)])
    loads = np.cumsum([0, *(len(one.load_node) for one in batches)])
    cases = np.cumsum([0, *(len(one.emf_v) for one in batches)])

    def starts(name: str, offsets: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        parts = [getattr(one, name)[:-1] + offset for one, offset in zip(batches, offsets[:-1], strict=True)]
        return np.concatenate([*parts, offsets[-1:]])

    def joined(name: str) -> npt.NDArray[Any]:
        return np.concatenate([getattr(one, name) for one in batches])

    whole = solve_networks(
        NetworkBatch(
            starts("node_start", nodes),
            joined("parent"),
            joined("impedance_ohm"),
            joined("neutral_open"),
            joined("emf_v"),
            starts("load_start", loads),
            joined("load_node"),
            joined("load_from"),
            joined("load_to"),
            joined("load_power_va"),
            joined("load_nominal_v"),
            joined("load_constant_current_ratio"),
            joined("load_constant_impedance_ratio"),
            joined("load_low_voltage_switch_ratio"),
        )
    )
    return [
        NetworkResult(
            whole.node_v[nodes[k] : nodes[k + 1]],
            whole.branch_current_a[nodes[k] : nodes[k + 1]],
            whole.load_v[loads[k] : loads[k + 1]],
            whole.load_current_a[loads[k] : loads[k + 1]],
            whole.outcome[cases[k] : cases[k + 1]],
            whole.iterations[cases[k] : cases[k + 1]],
        )
        for k in range(len(batches))
    ]


def _marched(
    asks: list[tuple[March, ...]], known: dict[str, dict[bytes, tuple[Real, Real]]]
) -> list[tuple[Marched, ...]]:
    answers: dict[tuple[int, int], Marched] = {}
    for kind in _KERNELS:
        places = [(a, m) for a, marches in enumerate(asks) for m, one in enumerate(marches) if one.kind == kind]
        if places:
            found = _run(kind, [asks[a][m] for a, m in places], known[kind])
            answers.update(zip(places, found, strict=True))
    return [tuple(answers[a, m] for m in range(len(marches))) for a, marches in enumerate(asks)]


def _run(kind: str, marches: list[March], known: dict[bytes, tuple[Real, Real]]) -> list[Marched]:
    wide = [np.concatenate(one.columns, axis=1) for one in marches]
    rows = np.concatenate(wide) if len(wide) > 1 else wide[0]
    keys = [row.tobytes() for row in rows]
    fresh: dict[bytes, int] = {}
    for r, key in enumerate(keys):
        if key not in known and key not in fresh:
            fresh[key] = r
    if fresh:
        chosen = rows[list(fresh.values())]
        columns, at = [], 0
        for part in marches[0].columns:
            columns.append(np.ascontiguousarray(chosen[:, at : at + part.shape[1]]))
            at += part.shape[1]
        result = np.empty((len(chosen), RESULT_COLUMNS))
        segment = np.empty((len(chosen), SEGMENTS, SEGMENT_COLUMNS))
        _KERNELS[kind](*columns, result, segment)
        if len(known) + len(fresh) > MOST_REMEMBERED:
            kept = {key: known[key] for key in keys if key in known}
            known.clear()
            known.update(kept)
        for k, key in enumerate(fresh):
            known[key] = (result[k], segment[k])
    answers: list[Marched] = []
    begin = 0
    for one in marches:
        mine = [known[key] for key in keys[begin : begin + one.rows]]
        begin += one.rows
        answers.append(Marched(np.array([result for result, _ in mine]), np.array([pieces for _, pieces in mine])))
    return answers
