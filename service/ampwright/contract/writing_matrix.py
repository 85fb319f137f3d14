"""How are the parts of a cell said on the wire? Pointers go into the request as sent."""

from __future__ import annotations

from msgspec import UNSET

from ampwright.contract.load_checks import Verdicts
from ampwright.contract.matrix_parts import CellAsks, CellFinding, MatrixFault, MissingThing
from ampwright.contract.places import Places
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.choosing.kit_validation import Asked
from ampwright.engine.calculations.choosing.missing_items import MissingItem
from ampwright.engine.calculations.energy.energy_result import EnergyFinding
from ampwright.engine.calculations.load_check import load_check_result as engine
from ampwright.engine.site.use import Fault


def fault_to_wire(fault: Fault, places: Places) -> MatrixFault:
    """A fault of one cell."""
    return MatrixFault(
        pointer=places.of(fault.pointer),
        code=fault.code,
        message=fault.message,
        did_you_mean=fault.did_you_mean or UNSET,
    )


def finding_to_wire(finding: engine.Finding | EnergyFinding, places: Places) -> CellFinding:
    """A finding without its basis and what would flip it: the cell's own load check has those."""
    return CellFinding(
        code=finding.code,
        severity=finding.severity,  # type: ignore[arg-type]  # closed lists on both sides
        aspect=finding.aspect,  # type: ignore[arg-type]
        pointer=places.of(finding.pointer),
        text=finding.text,
        what_to_do=finding.what_to_do,
        figure=UNSET if finding.figure is None else finding.figure,
        value=UNSET if finding.value is None else finding.value,
        limit=UNSET if finding.limit is None else finding.limit,
        cases=list(finding.cases),
    )


def asks_to_wire(question: Asked, places: Places) -> CellAsks:
    """The question of a cell."""
    return CellAsks(
        code=question.code,
        pointer=places.of(question.pointer),
        value=question.value,
        how_to_find_out=question.how_to_find_out,
        if_instead=UNSET if question.if_instead is None else question.if_instead,
        swings_verdict_to=UNSET if question.swings_verdict_to is None else question.swings_verdict_to,  # type: ignore[arg-type]
    )


def missing_to_wire(item: MissingItem, places: Places) -> MissingThing:
    """One thing to bring."""
    return MissingThing(
        item=item.item,
        text=item.says,
        quantity=item.quantity,
        why=item.why,
        pointer=places.of(item.pointer),
        finding=UNSET if item.finding is None else item.finding,
    )


def verdicts_to_wire(verdicts: engine.Verdicts) -> Verdicts:
    """The verdicts of a load check."""
    return to_wire(verdicts, Verdicts)
