"""Which single change makes a failing cell pass, written as steps on the cell's own request?

Every change that is tried is applied to the request as it would be sent, read, validated and checked again, so that the
answer tells what somebody gets who applies it and posts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import msgspec

from ampwright.contract.json_steps import apply_steps
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.cheapest_change import CheapestChange, cheapest_change
from ampwright.engine.calculations.load_check import check_loads
from ampwright.engine.calculations.load_check_result import Change, LoadCheckResult
from ampwright.engine.site.validation import validate
from ampwright.studies.matrix import CellAsked
from ampwright.studies.references import Lookup, resolve


@dataclass(frozen=True, slots=True)
class CellChange:
    """The change that was found for a cell."""

    found: CheapestChange


def change_of(asked: CellAsked, lookup: Lookup) -> CellChange | None:
    """The cheapest change of a cell that was worked out, None where none helps. Errors: none."""
    if asked.question is None or asked.load_request is None:
        return None
    plain: Any = msgspec.to_builtins(asked.load_request)

    def recheck(steps: tuple[Change, ...]) -> LoadCheckResult | None:
        changed = apply_steps(plain, [(one.op, one.path, one.value) for one in steps])
        if changed is None:
            return None
        try:
            request = msgspec.convert(changed, LoadCheckRequest)
        except msgspec.ValidationError:
            return None
        resolved = resolve(request, lookup)
        if resolved.request is None or resolved.faults:
            return None
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        if unread or validate(site):
            return None
        withdrawn = tuple(
            (e.pointer, f"{e.entry} revision {e.revision}", e.withdrawn) for e in resolved.entries if e.withdrawn
        )
        return check_loads((site,), withdrawn=(withdrawn,), verdict_only=True)[0]

    [load] = check_loads((asked.question.site,), withdrawn=(asked.question.withdrawn,), verdict_only=True)
    found = cheapest_change(asked.question.site, load, recheck)
    return None if found is None else CellChange(found)
