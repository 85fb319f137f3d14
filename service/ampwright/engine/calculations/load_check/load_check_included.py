"""What more does a load check say when it is asked to?

Each word of `INCLUSIONS` names a part that costs more than a check itself, or more figures than most want, and is off
otherwise. A trip that is likely within the shift adds a finding and takes the verdict with it: an answer that was asked
for never says pass beside it.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from ampwright.engine.calculations.after_trip.trip_curves import TripCurve, trip_curves
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.load_check import Withdrawn
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check.load_check_faults import FaultFigure
from ampwright.engine.calculations.load_check.load_check_report import ASPECT_ORDER, SEVERITIES
from ampwright.engine.calculations.load_check.load_check_result import FigureBand, Finding, LoadCheckResult
from ampwright.engine.calculations.reverse.break_evens import break_evens
from ampwright.engine.calculations.reverse.highest_weld import HighestWeld, highest_welds
from ampwright.engine.calculations.reverse.largest_motor import LargestMotor, largest_motors
from ampwright.engine.calculations.reverse.largest_sets import LargestSet, largest_sets
from ampwright.engine.calculations.reverse.longest_cord import LongestCord, longest_cords
from ampwright.engine.calculations.reverse.spare_load import SpareLoad, spare_loads
from ampwright.engine.calculations.shift.shift_use import ShiftItem, ShiftUse, shift_use
from ampwright.engine.calculations.starts.start_order import StartOrder, start_orders
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.calculations.wording import two_digits, with_unit
from ampwright.engine.site.use import Site

INCLUSIONS = ("break_evens", "faults", "largest_sets", "shift", "trip_curves")
LIKELY_RATIO = 0.05  # of a shift: more than one shift in twenty is told; common practice, no source


@dataclass(frozen=True, slots=True)
class Included:
    """Parts that were asked for; None where they were not."""

    spare: tuple[SpareLoad, ...] | None = None
    highest_welds: tuple[HighestWeld, ...] | None = None
    largest_motors: tuple[LargestMotor, ...] | None = None
    longest_cords: tuple[LongestCord, ...] | None = None
    faults: tuple[FaultFigure, ...] | None = None
    shift: ShiftUse | None = None
    largest_sets: tuple[LargestSet, ...] | None = None
    start_orders: tuple[StartOrder, ...] | None = None
    trip_curves: tuple[TripCurve, ...] | None = None


def with_included(
    site: Site,
    result: LoadCheckResult,
    words: Collection[str],
    shift_s: float | None = None,
    withdrawn: Withdrawn = (),
) -> tuple[LoadCheckResult, Included]:
    """The result with what was asked for, and the parts beside it.

    site : sound, that of the result. words : of INCLUSIONS. shift_s : [s], eight hours where None.
    withdrawn : as of the load check that gave the result. Errors: none.
    """
    if not words:
        return result, Included()
    base = evaluate(site, frozenset(), with_after=True)
    included = Included()
    if "faults" in words:
        included = replace(included, faults=tuple(item.figure for item in base.faults))
    if "shift" in words:
        use = shift_use(base.settled, shift_s)
        result = _with_trips(base, result, use)
        included = replace(included, shift=use)
    if "break_evens" in words:
        result = replace(result, findings=break_evens(site, result.findings, withdrawn))
        included = replace(
            included,
            spare=spare_loads(site, base),
            highest_welds=highest_welds(site, base),
            largest_motors=largest_motors(site, base),
            longest_cords=longest_cords(site, base),
        )
    if "largest_sets" in words:
        sets, orders = largest_sets(site, base.settled, withdrawn), start_orders(site, base)
        included = replace(included, largest_sets=sets, start_orders=orders)
    if "trip_curves" in words:
        included = replace(included, trip_curves=trip_curves(base.settled))
    return result, included


def _with_trips(base: Evaluation, result: LoadCheckResult, use: ShiftUse) -> LoadCheckResult:
    """With a finding, and a capacity verdict no better than marginal, where a device is likely to open in a shift."""
    pointers = {("circuit", item.id): item.pointer for item in base.settled.source.circuits}
    pointers |= {("limit", item.id): item.pointer for item in base.settled.source.limits}
    found = [
        _likely_trip(item, item.trip_probability_ratio, pointers[item.kind, item.id])
        for item in use.items
        if item.trip_probability_ratio is not None and item.trip_probability_ratio.high >= LIKELY_RATIO
    ]
    if not found:
        return result
    findings = sorted(
        (*result.findings, *found),
        key=lambda item: (
            SEVERITIES.index(item.severity), ASPECT_ORDER.index(item.aspect), item.code, item.pointer,
        ),
    )  # fmt: skip
    before = result.verdict
    verdict = replace(
        before, overall=worst((before.overall, "marginal")), capacity=worst((before.capacity, "marginal"))
    )
    return replace(result, verdict=verdict, findings=tuple(findings))


def _likely_trip(item: ShiftItem, chance: FigureBand, pointer: str) -> Finding:
    known = FINDING_CODES["trips_in_shift"]
    said = {"subject": item.id, "value_text": _chance(chance), "limit_text": with_unit(item.rating, item.unit)}
    return Finding(
        "trips_in_shift", known.severity, known.aspect, pointer, known.text.format(**said),
        known.what_to_do.format(**said), (), "trip_probability_ratio", chance.typical, None, (),
    )  # fmt: skip


def _chance(band: FigureBand) -> str:
    low, high = (f"{two_digits(100.0 * value)} %" if value < 1.0 else "all" for value in (band.low, band.high))
    return f"in {low} of shifts" if low == high else f"in {low} to {high} of shifts"
