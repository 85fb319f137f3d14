"""What is the stamped answer to a cord question that may refer to the catalogue?

Resolved, read and validated as a load check of its one tool, then sized, written and stamped. The one way in for the
API, the command line and batches. Raises RefusedRequest with every fault; a sound question always gets an answer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from msgspec import structs

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.cord_sizings import CordSizingAnswer, CordSizingRequest
from ampwright.contract.reading_cord_sizing import as_load_check, read_question
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.cord_sizing.cord_sizing import size_cords
from ampwright.engine.calculations.cord_sizing.cord_sizing_question import question_faults
from ampwright.engine.site.validation import in_order, validate
from ampwright.studies.cost import TooMuchWork, cord_sizing_cost_units
from ampwright.studies.load_check import NOTICE, RefusedRequest, engine_version
from ampwright.studies.release_lookup import resolve_in_release


@dataclass(frozen=True, slots=True)
class CordSizingStudy:
    """Cord sizings against the releases of one catalogue.

    store : releases in memory, None where there is no catalogue; cost_limit_units : dearest sizing answered.
    """

    store: ReleaseStore[Any] | None
    cost_limit_units: int = 8_000_000

    def run(self, request: CordSizingRequest) -> CordSizingAnswer:
        """The answer. Errors: RefusedRequest, TooMuchWork, and those of the catalogue where it is needed."""
        asked = as_load_check(request)
        resolved, stamp = resolve_in_release(self.store, asked.request, asked.as_sent)
        lost = tuple(replace(fault, pointer=asked.as_sent(fault.pointer)) for fault in resolved.faults)
        if resolved.request is None:
            raise RefusedRequest(lost)
        question, unread = read_question(request, resolved.request, asked.combined(resolved.places))
        if lost or unread:
            raise RefusedRequest(in_order((*lost, *unread)), unread=bool(unread))
        if contradictions := (*validate(question.site), *question_faults(question)):
            raise RefusedRequest(in_order(contradictions))
        cost = cord_sizing_cost_units(question)
        if cost > self.cost_limit_units:
            raise TooMuchWork(cost, self.cost_limit_units)
        withdrawn = tuple((asked.as_sent(pointer), name, reason) for pointer, name, reason in resolved.withdrawn)
        answer = to_wire(
            size_cords(question, withdrawn),
            CordSizingAnswer,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
        )
        return structs.replace(answer, **stamp)
