"""What is the stamped answer to a load check that may refer to the catalogue?

Resolve against one release, read, validate, price, calculate, write, stamp. The one way in for the API, the command
line and batches. Raises RefusedRequest with every fault; a request that is sound always gets an answer.
"""

from __future__ import annotations

import importlib.metadata
from dataclasses import dataclass
from typing import Any

from msgspec import UNSET, structs

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.load_checks import LoadCheckAnswer, LoadCheckRequest
from ampwright.contract.reading_shift import read_shift
from ampwright.contract.reading_site import read_site
from ampwright.contract.writing import parts_to_wire, to_wire
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_included import with_included
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order, validate
from ampwright.studies.cost import TooMuchWork, included_cost_units, load_check_cost_units
from ampwright.studies.references import UNSOUND
from ampwright.studies.release_lookup import resolve_in_release

NOTICE = "Informs a qualified person; local codes and makers' instructions govern; this is no permission to energise."


class RefusedRequest(Exception):
    """A request that cannot be answered as it stands; `faults` are all of them, with pointers as sent.

    `unread` : some text could not be read or holds a character that is refused, so the request does not fit its
    schema; else it contradicts itself.
    """

    def __init__(self, faults: tuple[Fault, ...], *, unread: bool = False) -> None:
        super().__init__(f"{len(faults)} faults")
        self.faults = faults
        self.unread = unread or any(fault.code == UNSOUND for fault in faults)


@dataclass(frozen=True, slots=True)
class LoadCheckStudy:
    """Load checks against the releases of one catalogue.

    store : releases in memory, None where there is no catalogue; cost_limit_units : dearest check answered.
    """

    store: ReleaseStore[Any] | None
    cost_limit_units: int = 8_000_000

    def run(self, request: LoadCheckRequest) -> LoadCheckAnswer:
        """The answer. Errors: RefusedRequest, TooMuchWork, and those of the catalogue where it is needed."""
        resolved, stamp = resolve_in_release(self.store, request)
        if resolved.request is None:
            raise RefusedRequest(resolved.faults)
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        shift_s, unread_shift = read_shift(resolved.request, resolved.places)
        unread = (*unread, *unread_shift)
        faults = (*resolved.faults, *unread)
        if faults:
            # not validated further: a text that was not read would be told a second time as a contradiction
            raise RefusedRequest(in_order(faults), unread=bool(unread))
        if contradictions := validate(site):
            raise RefusedRequest(contradictions)
        words = frozenset(() if request.include is UNSET else request.include)
        cost = load_check_cost_units(site) + included_cost_units(site, words, shift_s)
        if cost > self.cost_limit_units:
            raise TooMuchWork(cost, self.cost_limit_units)
        result, included = with_included(site, check_load(site, resolved.withdrawn), words, shift_s, resolved.withdrawn)
        answer = to_wire(
            result,
            LoadCheckAnswer,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(request),
            **parts_to_wire(included),
        )
        return structs.replace(answer, **stamp)


def engine_version() -> str:
    """Version of the installed engine, tables included: they ship in the wheel."""
    return importlib.metadata.version("ampwright")
