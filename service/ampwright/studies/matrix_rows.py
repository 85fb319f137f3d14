"""What is common to answers that come row by row over many kits and sources?

Rows are made one kit at one job at a time, over all its sources, because a row says how the others do. A row depends on
the request and its place alone. A view (kit_validation.py, source_comparison.py) says what is told of a cell and of a
row.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

import msgspec
from msgspec import UNSET, Struct

from ampwright.contract.canonical import request_digest
from ampwright.contract.matrix_parts import MatrixEnd, PluggedIn, VerdictCounts
from ampwright.engine.calculations.choosing.matrix import CellResult, Cells
from ampwright.engine.calculations.choosing.missing_items import (
    MissingItem,
    missing_cords,
    missing_outlets,
    missing_tools,
)
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.studies.load_check import NOTICE, engine_version
from ampwright.studies.matrix import Cell, Matrix, rows_asked
from ampwright.studies.matrix_cell import CellAsked
from ampwright.studies.matrix_pool import CellPool, Group, Same

Told = TypeVar("Told")
R = TypeVar("R", bound=Struct)


@dataclass(frozen=True, slots=True)
class MadeCell(Generic[Told]):
    """A cell that was asked and told, with pointers into its own request; told : None where it has faults."""

    asked: CellAsked
    told: Told | None
    digests: tuple[str, str]


class MatrixRows(ABC, Generic[Told, R]):
    """The rows of one request. `sent` counts those made so far."""

    def __init__(
        self, request: Any, matrix: Matrix, tell: Callable[[CellResult], Any], *, with_figures: bool = False
    ) -> None:
        self.request = request
        self.matrix = matrix
        self.rows = rows_asked(request.rows, matrix.rows)
        self.cells: Cells[Any] = Cells(tell, with_figures=with_figures)
        self.with_requests = request.include is not UNSET and "requests" in request.include
        self.sent = 0
        self._pool = CellPool(matrix, self.cells)
        self._known: dict[Same, MadeCell[Told]] = {}
        self._counts = dict.fromkeys((*ORDER, ""), 0)

    @abstractmethod
    def told(self, cell: Cell, asked: CellAsked, /) -> Told | None:
        """What is told of a cell that was worked out, None where there is nothing."""

    @abstractmethod
    def rows_of(self, group: Group, cells: Sequence[MadeCell[Told]]) -> Iterator[R]:
        """The rows of one kit at one job, in the order of its sources, those that were not asked for as well; cells
        that were asked beside them come last, and their rows are not told."""

    def asked_beside(self, group: Group, cells: Sequence[MadeCell[Told]]) -> tuple[Cell, ...]:
        """Cells of the same kit and job on sources that the job does not name, for what a row says of others."""
        del group, cells
        return ()

    @property
    def stamp(self) -> dict[str, Any]:
        """What every answer to this request says of what it rests on."""
        return {
            "notice": NOTICE,
            "engine_version": engine_version(),
            "request_digest": request_digest(self.request),
            **self.matrix.pinned,
        }

    @property
    def counts(self) -> VerdictCounts:
        """Of the rows made so far."""
        return VerdictCounts(
            passing=self._counts["pass"],
            marginal=self._counts["marginal"],
            unknown=self._counts["unknown"],
            failing=self._counts["fail"],
            without_answer=self._counts[""],
        )

    def end(self) -> MatrixEnd:
        """The last line, once all rows are made."""
        return MatrixEnd(rows=self.sent, next_index=self.rows.stop, computed=self.cells.computed, counts=self.counts)

    def made(self, check: Callable[[], None] = lambda: None) -> Iterator[R | None]:
        """The rows asked for, in order; None is a sign of life while rows take their time.

        check : called between cells; whatever it raises ends the work.
        """
        for groups in self._pool.filled(self.matrix.groups(self.rows), check):
            yield None
            for group in groups:
                cells: list[MadeCell[Told]] = []
                for cell in group:
                    check()
                    cells.append(self._made_cell(cell))
                    yield None
                beside = self.asked_beside(group, cells)
                self._pool.fill_beside(beside, check)
                others = [self._made_cell(cell) for cell in beside]
                rows = self.rows_of((*group, *beside), [*cells, *others])
                for cell, row in zip(group, rows, strict=False):
                    if cell.place in self.rows:
                        self.sent += 1
                        self._counts[getattr(row, "verdict", None) or ""] += 1
                        yield row

    def _made_cell(self, cell: Cell) -> MadeCell[Told]:
        same = self._pool.same(cell)
        if same not in self._known:
            asked, digests = self._pool.taken(cell)
            self._known[same] = MadeCell(self.kept(asked), self.told(cell, asked), digests)
        return self._known[same]

    def kept(self, asked: CellAsked) -> CellAsked:
        """What of a cell is still needed once it was told: sites are large, requests only where they are shown."""
        return asked.without_site(with_requests=self.with_requests)

    # --- members that rows of all views have -----------------------------------------------------------------------

    def named(self, cell: Cell) -> dict[str, Any]:
        """Who the row is about."""
        return {
            "index": cell.place,
            "id": self.matrix.row_id(cell),
            "job": self.matrix.jobs[cell.job].id,
            "kit": self.matrix.kits[cell.kit].id,
            "source": self.matrix.sources[cell.source].id,
        }

    def requests(self, asked: CellAsked) -> dict[str, Any]:
        """The requests of a cell, where they are to be shown."""
        found = {}
        for member, request in (
            ("load_check_request", asked.load_request),
            ("energy_budget_request", asked.energy_request),
        ):
            if self.with_requests and request is not None:
                found[member] = msgspec.Raw(msgspec.json.encode(request))
        return found


def missing_of(asked: CellAsked) -> tuple[MissingItem, ...]:
    """What the kit of a cell lacks for its job, whatever a check would say."""
    far_m = None if asked.distance_m is None else asked.distance_m.high
    outlets = () if asked.plugging is None else missing_outlets(asked.plugging, far_m)
    return (*missing_tools(asked.missing_tools, "/cases"), *outlets, *missing_cords(asked.reach))


def plugged_members(asked: CellAsked) -> dict[str, Any]:
    """How the cell is plugged in, and whether somebody said so."""
    found: dict[str, Any] = {
        "plugged": [
            PluggedIn(plug=one.plug, into=one.into, leg=one.leg or UNSET)  # type: ignore[arg-type]
            for one in asked.connections
        ]
    }
    if asked.connections or asked.plugging is not None:
        found["plugging"] = "planned" if asked.plugging is not None else "stated"
    return found
