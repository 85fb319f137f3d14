"""How long does a cost unit take, part by part?

Whether a request is answered at once is decided by cost units, before any work: the most that a part can cost. They are
fair where the dearest site of each part takes about as long for a unit, which is meant to be a microsecond of one core.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ampwright.bench.measured import Row, least_s
from ampwright.bench.sites import request, site
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_included import with_included
from ampwright.studies.cost import included_cost_units, load_check_cost_units

PARTS = ("break_evens", "shift", "largest_sets", "faults")


def cost_rows(*, quick: bool) -> Iterator[Row]:
    """Measured microseconds over cost units, for kits of several sizes."""
    for tools in (2, 6) if quick else (2, 6, 10):
        for known in (True, False):
            asked = site(request(tools, 2, cases="asked", cords=True, known=known))
            name = f"{tools} tools, source {'' if known else 'un'}known"
            result = check_load(asked)
            yield _row(f"{name}: load check", load_check_cost_units(asked), lambda asked=asked: check_load(asked))  # type: ignore[misc]
            for part in PARTS:
                yield _row(
                    f"{name}: {part}",
                    included_cost_units(asked, (part,), None),
                    lambda asked=asked, result=result, part=part: with_included(asked, result, (part,)),  # type: ignore[misc]
                )


def _row(what: str, units: int, act: Callable[[], object]) -> Row:
    taken = least_s(act, 1)
    return Row(what, taken * 1e6 / units, "us/unit", _beside(taken, units))


def _beside(taken_s: float, units: int) -> str:
    return f"{taken_s * 1e3:.1f} ms, {units} units"
