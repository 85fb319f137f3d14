"""What is the stamped answer to many kits on many sources for many jobs, row by row?

Rows are made one kit at one job at a time, over all its sources, since a row names the others that do better. A row
depends on the request and its place alone. Raises RefusedRequest where the request as a whole makes no sense; what is
wrong with one row stands in that row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from msgspec import UNSET

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.kit_validations import KitValidationHead, KitValidationRequest, KitValidationRow
from ampwright.contract.matrix_parts import (
    CellEnergyBudget,
    CellLoadCheck,
    MatrixJob,
    OtherSource,
    WouldInvalidate,
)
from ampwright.contract.unread_items import UnreadItem
from ampwright.contract.writing import to_wire
from ampwright.contract.writing_matrix import (
    asks_to_wire,
    fault_to_wire,
    finding_to_wire,
    missing_to_wire,
    verdicts_to_wire,
)
from ampwright.engine.calculations.choosing.kit_validation import (
    KitCell,
    kit_cell,
    nothing_to_check,
    with_missing,
    with_reach,
)
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.studies.matrix import Cell, Matrix
from ampwright.studies.matrix_cell import COST_LIMIT_UNITS, CellAsked
from ampwright.studies.matrix_pool import Group
from ampwright.studies.matrix_rows import MadeCell, MatrixRows, missing_of, plugged_members

MOST_OTHERS = 5
MOST_BESIDE = 12  # sources looked at that the job does not name: a yard; more are another question


class KitValidation(MatrixRows[KitCell, KitValidationRow]):
    """The rows of one request."""

    def __init__(
        self,
        store: ReleaseStore[Any] | None,
        request: KitValidationRequest,
        cost_limit_units: int = COST_LIMIT_UNITS,
        release_at: str = "/catalogue_release",
    ) -> None:
        """release_at : where the caller named the release. Errors: RefusedRequest, and those of the catalogue."""
        jobs = [MatrixJob(id="job")] if request.jobs is UNSET else request.jobs
        matrix = Matrix.of(
            store,
            request.sources,
            request.kits,
            jobs,
            request.catalogue_release,
            request.withdrawals_as_of,
            cost_limit_units=cost_limit_units,
            release_at=release_at,
        )
        super().__init__(request, matrix, kit_cell)

    def head(self) -> KitValidationHead:
        """The first line."""
        return KitValidationHead(rows_in_all=self.matrix.rows, begin=self.rows.start, end=self.rows.stop, **self.stamp)

    def told(self, _: Cell, asked: CellAsked, /) -> KitCell | None:
        """What dispatch hears of a cell."""
        missing = missing_of(asked)
        if asked.question is None:
            return nothing_to_check(missing) if missing and not asked.faults else None
        cases_stated = asked.question.site.cases is not None
        told = with_reach(self.cells.of(asked.question), asked.reach)
        return with_missing(told, missing, cases_stated=cases_stated)

    def asked_beside(self, group: Group, cells: Sequence[MadeCell[KitCell]]) -> tuple[Cell, ...]:
        """Where no source that the job names will do, the other sources of the call, the first `MOST_BESIDE`."""
        told = [made.told for made in cells if made.told is not None]
        if not group or not told or any(one.verdict != "fail" for one in told):
            return ()
        named = {cell.source for cell in group}
        sources = [n for n, source in enumerate(self.matrix.sources) if not isinstance(source, UnreadItem)]
        return tuple(replace(group[0], place=-1, source=n) for n in sources if n not in named)[:MOST_BESIDE]

    def rows_of(self, group: Group, cells: Sequence[MadeCell[KitCell]]) -> Iterator[KitValidationRow]:
        """A row for every source."""
        for cell, made in zip(group, cells, strict=True):
            yield self._row(cell, made, self._others(made, group, cells))

    def _others(self, own: MadeCell[KitCell], group: Group, cells: Sequence[MadeCell[KitCell]]) -> list[OtherSource]:
        """Sources on which the kit does better, best first."""
        least = len(ORDER) if own.told is None else ORDER.index(own.told.verdict)
        better = [
            (ORDER.index(made.told.verdict), cell.source)
            for cell, made in zip(group, cells, strict=True)
            if made.told is not None and ORDER.index(made.told.verdict) < min(least, ORDER.index("fail"))
        ]
        return [
            OtherSource(source=self.matrix.sources[source].id, verdict=ORDER[rank])  # type: ignore[arg-type]
            for rank, source in sorted(better)[:MOST_OTHERS]
        ]

    def _row(self, cell: Cell, made: MadeCell[KitCell], others: list[OtherSource]) -> KitValidationRow:
        places = self.matrix.places(cell, made.asked)
        named = {**self.named(cell), **self.requests(made.asked), "others": others}
        named["errors"] = [fault_to_wire(fault, places) for fault in made.asked.faults]
        told = made.told
        if told is None:
            return KitValidationRow(**named)
        if made.digests[0]:
            named["load_check"] = CellLoadCheck(verdict=verdicts_to_wire(told.load), request_digest=made.digests[0])
        if told.energy is not None:
            named["energy_budget"] = to_wire(told.energy, CellEnergyBudget, request_digest=made.digests[1])
        if told.finding is not None:
            named["finding"] = finding_to_wire(told.finding, places)
        if told.question is not None:
            named["question"] = asks_to_wire(told.question, places)
        return KitValidationRow(
            **named,
            **plugged_members(made.asked),
            verdict=told.verdict,  # type: ignore[arg-type]  # of verdicts.ORDER
            sentence=told.sentence,
            missing=[missing_to_wire(item, places) for item in told.missing],
            invalidated_by=[
                WouldInvalidate(code=one.code, text=one.text, pointer=places.of(one.pointer))
                for one in told.invalidated_by
            ],
        )
