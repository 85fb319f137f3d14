"""Which cells are worked out together, so that many sites share a call of each kernel?

Cells that say the same but for their ids are asked once; those of some kits at a time are worked out by one call, and
then their rows are told. Which cells go together changes no figure.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

import msgspec
from msgspec import UNSET, Struct, structs

from ampwright.engine.calculations.choosing.matrix import Cells
from ampwright.studies.matrix import Cell, Matrix
from ampwright.studies.matrix_cell import CellAsked

AT_ONCE = 24  # cells worked out before their rows are told: about a second of one core

# the most that they may cost by their price, which a sound kit stays far below: 24 rows of 8 tools are a little less
UNITS_AT_ONCE = 32_000_000

Same = tuple[int, int, int]
Group = tuple[Cell, ...]


class CellPool:
    """The cells of a matrix, asked for and worked out some at a time."""

    def __init__(self, matrix: Matrix, cells: Cells[Any]) -> None:
        self._matrix = matrix
        self._cells = cells
        self._specs = (
            same_specs(matrix.jobs, ("kits", "sources")),
            same_specs(matrix.kits),
            same_specs(matrix.sources),
        )
        self._asked: dict[Same, tuple[CellAsked, tuple[str, str]]] = {}
        self._done: set[Same] = set()

    def same(self, cell: Cell) -> Same:
        """Equal for cells that ask the same."""
        jobs, kits, sources = self._specs
        return jobs[cell.job], kits[cell.kit], sources[cell.source]

    def filled(self, groups: Iterator[Group], check: Callable[[], None]) -> Iterator[list[Group]]:
        """Groups whose cells are worked out, some at a time, in order. check : called between cells."""
        held: list[Group] = []
        for group in groups:
            for cell in group:
                check()
                same = self.same(cell)
                if same not in self._done and same not in self._asked:
                    asked = self._matrix.asked(cell)
                    self._asked[same] = asked, asked.digests()
            held.append(group)
            units = sum(asked.cost_units for asked, _ in self._asked.values())
            if len(self._asked) >= AT_ONCE or units >= UNITS_AT_ONCE or len(held) >= 4 * AT_ONCE:
                yield self._fill(held, check)
                held = []
        if held:
            yield self._fill(held, check)

    def _fill(self, held: list[Group], check: Callable[[], None]) -> list[Group]:
        check()
        self._cells.fill(asked.question for asked, _ in self._asked.values() if asked.question is not None)
        return held

    def fill_beside(self, cells: Sequence[Cell], check: Callable[[], None]) -> None:
        """Work out cells that are no rows, by one call."""
        for cell in cells:
            check()
            same = self.same(cell)
            if same not in self._done and same not in self._asked:
                asked = self._matrix.asked(cell)
                self._asked[same] = asked, asked.digests()
        self._fill([], check)

    def taken(self, cell: Cell) -> tuple[CellAsked, tuple[str, str]]:
        """A cell that was asked and worked out, with its digests, once: whoever takes it keeps what it needs."""
        same = self.same(cell)
        self._done.add(same)
        return self._asked.pop(same)


def spec_of(item: Struct) -> bytes:
    """An item without its id: two of one spec ask the same."""
    plain = msgspec.to_builtins(item)
    del plain["id"]
    return msgspec.json.encode(plain)


def same_specs(items: Sequence[Struct], without: tuple[str, ...] = ()) -> tuple[int, ...]:
    """For each item the place of the first that says the same but for its id and the members of `without`."""
    first: dict[bytes, int] = {}
    found = []
    for place, item in enumerate(items):
        bare = structs.replace(item, **dict.fromkeys(without, UNSET)) if without else item
        found.append(first.setdefault(spec_of(bare), place))
    return tuple(found)
