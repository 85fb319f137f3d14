"""What is the stamped answer to many kits on many sources for many jobs, row by row?

Rows are made one kit at one job at a time, over all its sources, since a row names the others that do better. A row
depends on the request and its place alone. Raises RefusedRequest where the request as a whole makes no sense; what is
wrong with one row stands in that row.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.kit_validations import KitValidationHead, KitValidationRequest, KitValidationRow
from ampwright.contract.matrix_parts import (
    CellEnergyBudget,
    CellLoadCheck,
    MatrixEnd,
    MatrixJob,
    OtherSource,
    PluggedIn,
    VerdictCounts,
    WouldInvalidate,
)
from ampwright.contract.writing import to_wire
from ampwright.contract.writing_matrix import (
    asks_to_wire,
    fault_to_wire,
    finding_to_wire,
    missing_to_wire,
    verdicts_to_wire,
)
from ampwright.engine.calculations.kit_validation import KitCell, kit_cell, nothing_to_check, with_missing
from ampwright.engine.calculations.matrix import Cells
from ampwright.engine.calculations.missing_items import MissingItem, missing_outlets, missing_tools
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.studies.load_check import NOTICE, engine_version
from ampwright.studies.matrix import Cell, CellAsked, Matrix, rows_asked
from ampwright.studies.matrix_pool import CellPool

MOST_OTHERS = 5


@dataclass(frozen=True, slots=True)
class _Row:
    """What a row tells, with pointers into the cell's own request."""

    asked: CellAsked
    cell: KitCell | None
    digests: tuple[str, str]


class KitValidation:
    """The rows of one request."""

    def __init__(self, store: ReleaseStore[Any] | None, request: KitValidationRequest) -> None:
        """Errors: RefusedRequest, and those of the catalogue."""
        jobs = [MatrixJob(id="job")] if request.jobs is UNSET else request.jobs
        self.request = request
        self.matrix = Matrix.of(
            store, request.sources, request.kits, jobs, request.catalogue_release, request.withdrawals_as_of
        )
        self.rows = rows_asked(request.rows, self.matrix.rows)
        self._with_requests = request.include is not UNSET and "requests" in request.include
        self._cells: Cells[KitCell] = Cells(kit_cell)
        self._pool = CellPool(self.matrix, self._cells)
        self._known: dict[tuple[int, int, int], _Row] = {}
        self._counts = dict.fromkeys((*ORDER, ""), 0)
        self.sent = 0

    @property
    def stamp(self) -> dict[str, Any]:
        """What every answer to this request says of what it rests on."""
        return {
            "notice": NOTICE,
            "engine_version": engine_version(),
            "request_digest": request_digest(self.request),
            **self.matrix.pinned,
        }

    def head(self) -> KitValidationHead:
        """The first line."""
        return KitValidationHead(rows_in_all=self.matrix.rows, begin=self.rows.start, end=self.rows.stop, **self.stamp)

    def end(self) -> MatrixEnd:
        """The last line, once all rows are made."""
        return MatrixEnd(rows=self.sent, next_place=self.rows.stop, computed=self.computed, counts=self.counts)

    @property
    def computed(self) -> int:
        return self._cells.computed

    @property
    def counts(self) -> VerdictCounts:
        return VerdictCounts(
            passing=self._counts["pass"],
            marginal=self._counts["marginal"],
            unknown=self._counts["unknown"],
            failing=self._counts["fail"],
            without_answer=self._counts[""],
        )

    def made(self, check: Callable[[], None] = lambda: None) -> Iterator[KitValidationRow | None]:
        """The rows asked for, in order; None is a sign of life while rows take their time.

        check : called between cells; whatever it raises ends the work.
        """
        for groups in self._pool.filled(self.matrix.groups(self.rows), check):
            yield None
            for group in groups:
                found = [self._row(cell) for cell in group]
                for cell, row in zip(group, found, strict=True):
                    if cell.place in self.rows:
                        told = self._told(cell, row, self._others(cell, group, found))
                        self.sent += 1
                        self._counts[told.verdict or ""] += 1
                        yield told

    def _row(self, cell: Cell) -> _Row:
        same = self._pool.same(cell)
        if same not in self._known:
            self._known[same] = self._worked_out(*self._pool.taken(cell))
        return self._known[same]

    def _worked_out(self, asked: CellAsked, digests: tuple[str, str]) -> _Row:
        missing = missing_of(asked)
        if asked.question is not None:
            cases_stated = asked.question.site.cases is not None
            told: KitCell | None = with_missing(self._cells.of(asked.question), missing, cases_stated=cases_stated)
        else:
            told = nothing_to_check(missing) if missing and not asked.faults else None
        # sites are large: what has been told needs them no more
        kept = replace(asked, question=None)
        if not self._with_requests:
            kept = replace(kept, load_request=None, energy_request=None)
        return _Row(kept, told, digests)

    def _others(self, cell: Cell, group: tuple[Cell, ...], rows: list[_Row]) -> list[OtherSource]:
        """Sources on which the kit does better, best first."""
        own = next(row for one, row in zip(group, rows, strict=True) if one == cell)
        least = len(ORDER) if own.cell is None else ORDER.index(own.cell.verdict)
        better = [
            (ORDER.index(row.cell.verdict), one.source)
            for one, row in zip(group, rows, strict=True)
            if row.cell is not None and ORDER.index(row.cell.verdict) < min(least, ORDER.index("fail"))
        ]
        return [
            OtherSource(source=self.matrix.sources[source].id, verdict=ORDER[rank])  # type: ignore[arg-type]
            for rank, source in sorted(better)[:MOST_OTHERS]
        ]

    def _told(self, cell: Cell, row: _Row, others: list[OtherSource]) -> KitValidationRow:
        places = self.matrix.places(cell, row.asked)
        named: dict[str, Any] = {
            "place": cell.place,
            "id": self.matrix.row_id(cell),
            "job": self.matrix.jobs[cell.job].id,
            "kit": self.matrix.kits[cell.kit].id,
            "source": self.matrix.sources[cell.source].id,
        }
        errors = [fault_to_wire(fault, places) for fault in row.asked.faults]
        if self._with_requests:
            for member, request in (
                ("load_check_request", row.asked.load_request),
                ("energy_budget_request", row.asked.energy_request),
            ):
                if request is not None:
                    named[member] = msgspec.Raw(msgspec.json.encode(request))
        if row.cell is None:
            return KitValidationRow(**named, errors=errors, others=others)
        told = row.cell
        if row.asked.connections or row.asked.plugging is not None:
            named["plugging"] = "planned" if row.asked.plugging is not None else "stated"
        if row.digests[0]:
            named["load_check"] = CellLoadCheck(verdict=verdicts_to_wire(told.load), request_digest=row.digests[0])
        if told.energy is not None:
            named["energy_budget"] = to_wire(told.energy, CellEnergyBudget, request_digest=row.digests[1])
        if told.finding is not None:
            named["finding"] = finding_to_wire(told.finding, places)
        if told.question is not None:
            named["question"] = asks_to_wire(told.question, places)
        return KitValidationRow(
            **named,
            verdict=told.verdict,  # type: ignore[arg-type]  # of verdicts.ORDER
            sentence=told.sentence,
            missing=[missing_to_wire(item, places) for item in told.missing],
            others=others,
            invalidated_by=[
                WouldInvalidate(code=one.code, text=one.text, pointer=places.of(one.pointer))
                for one in told.invalidated_by
            ],
            plugged=[
                PluggedIn(plug=one.plug, into=one.into, leg=one.leg or UNSET)  # type: ignore[arg-type]
                for one in row.asked.connections
            ],
            errors=errors,
        )


def missing_of(asked: CellAsked) -> tuple[MissingItem, ...]:
    """What the kit of a cell lacks for its job, whatever a check would say."""
    outlets = () if asked.plugging is None else missing_outlets(asked.plugging, asked.distance_m)
    return (*missing_tools(asked.missing_tools, "/cases"), *outlets)
