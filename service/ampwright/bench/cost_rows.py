"""How long does a cost unit take, part by part?

Whether a request is answered at once is decided by cost units, before any work; they are fair where every part takes
about as long for a unit. One unit is meant to be about a microsecond of one core.
"""

from __future__ import annotations

from collections.abc import Iterator

from ampwright.bench.measured import Row, least_s
from ampwright.bench.sites import request, site
from ampwright.engine.calculations.load_check import check_load
from ampwright.engine.calculations.load_check_included import with_included
from ampwright.studies.cost import included_cost_units, load_check_cost_units

PARTS = ("break_evens", "shift", "largest_sets", "faults")


def cost_rows(*, quick: bool) -> Iterator[Row]:
    """Measured microseconds over cost units, for kits of several sizes."""
    for tools in (2, 6) if quick else (2, 6, 12):
        asked = site(request(tools, 4, cases="asked", cords=True))
        result = check_load(asked)
        units = load_check_cost_units(asked)
        taken = least_s(lambda asked=asked: check_load(asked), 2)  # type: ignore[misc]
        yield Row(f"{tools} tools, load check", taken * 1e6 / units, "us/unit", _beside(taken, units))
        for part in PARTS:
            units = included_cost_units(asked, (part,), None)
            taken = least_s(lambda asked=asked, part=part, result=result: with_included(asked, result, (part,)), 1)  # type: ignore[misc]
            yield Row(f"{tools} tools, {part}", taken * 1e6 / units, "us/unit", _beside(taken, units))


def _beside(taken_s: float, units: int) -> str:
    return f"{taken_s * 1e3:.1f} ms, {units} units"
