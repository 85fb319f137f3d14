"""Which longer cord makes a row hold whose cords end before the work, written as steps on its kit as sent?

The kit with the cord is plugged in, resolved, read and worked out as if it had been sent so, its day with it: the
answer tells what somebody gets who applies the steps to the kit and posts the comparison again.
"""

from __future__ import annotations

from dataclasses import dataclass

import msgspec
from msgspec import UNSET

from ampwright.contract.json_steps import apply_steps
from ampwright.contract.matrix_parts import MatrixKit
from ampwright.engine.calculations.choosing.cheapest_change import CheapestChange, Tried
from ampwright.engine.calculations.choosing.kit_validation import KitCell, job_fails_for, kit_cell, with_reach
from ampwright.engine.calculations.choosing.longer_cord import LongerCord, longer_cords
from ampwright.engine.calculations.choosing.matrix import Cells
from ampwright.engine.calculations.choosing.missing_items import MissingItem
from ampwright.engine.calculations.load_check.load_check_result import Change
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.studies.matrix import Cell, Matrix
from ampwright.studies.matrix_cell import CellAsked
from ampwright.studies.matrix_rows import missing_of

MOST_WORKED_OUT = 8  # cords whose kit is worked out; that a cord is still too short costs nothing to see
NEW_CORD = "longer-cord"


@dataclass(frozen=True, slots=True)
class _Kit:
    kit: MatrixKit
    steps: tuple[Change, ...]


def longer_cord_change(matrix: Matrix, cell: Cell, asked: CellAsked, lacks: list[MissingItem]) -> CheapestChange | None:
    """The cord, None where it is not only cords that end too soon, or none makes the row hold. Errors: none."""
    if not lacks or any(item.item != "longer_cord" for item in lacks):
        return None
    if asked.site is None or asked.distance_m is None:
        return None
    sent: MatrixKit = matrix.kits[cell.kit]
    cells: Cells[KitCell] = Cells(kit_cell)
    best: CheapestChange | None = None
    awg = asked.site.source.supply.leg_voltage_v <= 150.0
    for cord in longer_cords(asked.site.cords, asked.distance_m.high, awg=awg, one_more=sent.connections is UNSET):
        if cells.computed >= MOST_WORKED_OUT:
            break
        with_it = _with_cord(sent, cord, {one.id for one in asked.site.cords} | {one.id for one in asked.site.tools})
        if with_it is None:
            continue
        again = matrix.asked(cell, with_it.kit)
        if again.question is None or job_fails_for(
            missing_of(again), cases_stated=again.question.site.cases is not None
        ):
            continue
        told = with_reach(cells.of(again.question), again.reach)
        if told.verdict == "fail":
            continue
        if best is None or ORDER.index(told.verdict) < ORDER.index(best.then.verdict):
            energy = None if told.energy is None else told.energy.verdict
            best = CheapestChange(cord.text, with_it.steps, "kit", Tried(told.verdict, told.load, energy))
        if best.then.verdict in ("pass", "marginal"):
            return best
    return best


def _with_cord(sent: MatrixKit, cord: LongerCord, taken: set[str]) -> _Kit | None:
    """The kit with the cord; of one that an entry brought, a correction with its id is added."""
    here = [] if sent.cords is UNSET else [one.id for one in sent.cords]
    if cord.cord in here:
        at = f"/cords/{here.index(cord.cord)}"
        steps = tuple(Change("add", f"{at}/{name}", value) for name, value in cord.members)
    else:
        name = cord.cord
        if name is None:
            name = next(f"{NEW_CORD}{n or ''}" for n in range(len(taken) + 1) if f"{NEW_CORD}{n or ''}" not in taken)
        item: dict[str, object] = {"id": name, **dict(cord.members)}
        steps = (Change("add", "/cords", [item]),) if sent.cords is UNSET else (Change("add", "/cords/-", item),)
    changed = apply_steps(msgspec.to_builtins(sent), [(one.op, one.path, one.value) for one in steps])
    if changed is None:
        return None
    try:
        return _Kit(msgspec.convert(changed, MatrixKit), steps)
    except msgspec.ValidationError:
        return None
