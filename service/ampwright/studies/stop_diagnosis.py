"""What is the stamped answer to a stop diagnosis that may refer to the catalogue?

Resolve against one release, read, validate with what ran as the case, price, diagnose, write, stamp. Raises
RefusedRequest with every fault; a request that is sound always gets an answer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from msgspec import UNSET, structs

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.reading_site import read_site
from ampwright.contract.reading_stop import read_stop
from ampwright.contract.stop_diagnoses import StopDiagnosisAnswer, StopDiagnosisRequest
from ampwright.contract.writing import to_wire
from ampwright.engine.calculations.stop_diagnosis.stop_diagnosis import STOPPED, diagnose_stop
from ampwright.engine.calculations.stop_diagnosis.stop_observation import stop_faults
from ampwright.engine.site.use import Case, Fault
from ampwright.engine.site.validation import in_order, validate
from ampwright.studies.cost import TooMuchWork, included_cost_units, load_check_cost_units
from ampwright.studies.load_check import NOTICE, RefusedRequest, engine_version
from ampwright.studies.release_lookup import resolve_in_release

NOT_INCLUDED = "A stop diagnosis has no parts that are asked for by `include`; POST /v1/load-checks has."


@dataclass(frozen=True, slots=True)
class StopDiagnosisStudy:
    """Stop diagnoses against the releases of one catalogue.

    store : releases in memory, None where there is no catalogue; cost_limit_units : dearest question answered.
    """

    store: ReleaseStore[Any] | None
    cost_limit_units: int = 1_000_000

    def run(self, request: StopDiagnosisRequest) -> StopDiagnosisAnswer:
        """The answer. Errors: RefusedRequest, TooMuchWork, and those of the catalogue where it is needed."""
        resolved, stamp = resolve_in_release(self.store, request)
        if resolved.request is None:
            raise RefusedRequest(resolved.faults)
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        seen, unread_stop = read_stop(request.stopped)
        faults = (*resolved.faults, *unread, *unread_stop)
        if faults:
            raise RefusedRequest(in_order(faults), unread=bool(unread or unread_stop))
        asked = replace(site, cases=(Case(STOPPED, seen.running, "/stopped"),))
        unasked = () if request.include is UNSET else (Fault("/include", "not_included_here", NOT_INCLUDED),)
        if contradictions := (*unasked, *validate(asked), *stop_faults(site, seen)):
            raise RefusedRequest(in_order(contradictions))
        cost = load_check_cost_units(asked) + included_cost_units(asked, ("break_evens",), None)
        if cost > self.cost_limit_units:
            raise TooMuchWork(cost, self.cost_limit_units)
        answer = to_wire(
            diagnose_stop(site, seen, resolved.withdrawn),
            StopDiagnosisAnswer,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
        )
        return structs.replace(answer, **stamp)
