"""What does a site come to under one set of assumptions: figures of every row, checks of every case?

One evaluation settles the site, solves its rows in one batch and holds each figure against its limit. load_check.py
asks for several, each with other assumptions taken the other way.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.after_trip.after_trip import AfterTrips, after_trips
from ampwright.engine.calculations.after_trip.after_trip_checks import after_trip_checks
from ampwright.engine.calculations.after_trip.after_trip_finding_codes import AFTER_TRIP_FINDING_CODES
from ampwright.engine.calculations.load_check.load_check_faults import RunFault, fault_checks, run_faults
from ampwright.engine.calculations.load_check.weak_tools import weak_tool_checks
from ampwright.engine.calculations.network.cases import MOST_TOOLS_PUSHED, RunningSet, rows_of, running_sets
from ampwright.engine.calculations.network.load_network import Row, RowFigures, rows_solved
from ampwright.engine.calculations.network.lost_neutral import lost_neutral_checks
from ampwright.engine.calculations.network.plain_figures import PlainFigures
from ampwright.engine.calculations.pooled import Steps, alone
from ampwright.engine.calculations.rules.capacity_rules import SHORT_PUSH_S, Check, check_row
from ampwright.engine.calculations.rules.code_rules import code_case_checks, code_site_checks
from ampwright.engine.calculations.rules.plate_rules import not_plugged_in, plate_checks
from ampwright.engine.calculations.rules.safety_rules import case_checks, site_checks
from ampwright.engine.calculations.starts.start_checks import start_checks
from ampwright.engine.calculations.starts.start_needs import StartNeed, needs_of
from ampwright.engine.calculations.starts.starts import Starts, starts_of_cases
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.ledger import Assumption, Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Site

ASPECTS = ("capacity", "safety")


@dataclass(frozen=True, slots=True)
class Evaluation:
    """One site under one set of flipped assumptions."""

    settled: SettledSite
    assumptions: tuple[Assumption, ...]
    sets: tuple[RunningSet, ...]
    rows: tuple[Row, ...]
    figures: RowFigures
    plain: PlainFigures  # the same
    row_checks: tuple[tuple[Check, ...], ...]
    case_checks: tuple[tuple[Check, ...], ...]
    site_checks: tuple[Check, ...]
    all_combinations: bool
    starts: Starts
    start_checks: tuple[tuple[Check, ...], ...]
    start_needs: dict[tuple[int, int], StartNeed]
    faults: tuple[RunFault, ...] = ()
    after: AfterTrips | None = None  # None: not asked for

    @property
    def return_decides(self) -> bool:
        """Whether what follows a trip fails a case."""
        return self.after is not None and any(
            check.verdict == "fail" and check.code in AFTER_TRIP_FINDING_CODES
            for checks in self.case_checks
            for check in checks
        )

    @property
    def left_out(self) -> tuple[str, ...]:
        """Parts that were too many to check: combinations of hand tools, pushes of a large case."""
        found = [] if self.all_combinations else ["combinations"]
        if any(len(one.placements) > MOST_TOOLS_PUSHED for one in self.sets):
            found.append("pushes")
        if self.starts.too_many:
            found += ["sag", "start"]
        return tuple(found)

    def site_aspect(self, name: str) -> str:
        """Verdict of one aspect of the site as a whole, whichever case runs, and also where none does."""
        return worst(check.verdict for check in self.site_checks if check.aspect == name)

    def failing_codes(self, case: int, name: str) -> frozenset[str]:
        """Codes of the checks that fail in one aspect of one case, pushes included."""
        rows = (checks for row, checks in zip(self.rows, self.row_checks, strict=True) if row.case == case)
        every = (check for checks in (*rows, self.case_checks[case], self.site_checks) for check in checks)
        return frozenset(check.code for check in every if check.aspect == name and check.verdict == "fail")

    def aspect(self, case: int, name: str) -> str:
        """Verdict of one aspect of one case: what only a push breaks is marginal."""
        fixed = worst(check.verdict for check in (*self.case_checks[case], *self.site_checks) if check.aspect == name)
        base, pushed = "pass", "pass"
        for row, checks in zip(self.rows, self.row_checks, strict=True):
            if row.case != case:
                continue
            verdict = worst(check.verdict for check in checks if check.aspect == name)
            if row.pushed is None:
                base = worst((base, verdict))
            elif self.settled.placements[row.pushed].state("heavy").lasts_s >= SHORT_PUSH_S:
                # a minute and more is no push but steady use
                base = worst((base, verdict))
            else:
                pushed = worst((pushed, verdict))
        if base == "pass" and pushed != "pass":
            danger = name == "safety" and pushed == "fail"
            base = "fail" if danger else "marginal"
        return worst((fixed, base))


@dataclass(frozen=True, slots=True)
class Swing:
    """What one assumption changes, taken the other way: per case and aspect that it decides, the verdict then.

    whole : of each of these cases the verdict of all aspects then.
    """

    key: str
    then: dict[tuple[int, str], str]
    whole: dict[int, str]

    @property
    def told(self) -> str:
        """The worst of its cases then; of a case that fails in another aspect anyway, what it decides."""
        return worst(
            whole
            if (whole := self.whole[case]) != "fail"
            else worst(verdict for (at, _), verdict in self.then.items() if at == case)
            for case in self.whole
        )


def evaluate(
    site: Site,
    flipped: frozenset[str],
    figures_of: Evaluation | None = None,
    *,
    starts_of: Evaluation | None = None,
    only: frozenset[int] | None = None,
    with_needs: bool = False,
    with_probability: bool = False,
    with_after: bool = False,
    after_of: Evaluation | None = None,
) -> Evaluation:
    """Everything about a site under some flipped assumptions.

    figures_of, starts_of : lend steady figures and starts that the flipped assumptions cannot change. only : cases
    whose starts are asked for. with_needs : whether what a failing start needs is worked out too, with_probability :
    and how likely it is as things are. with_after : whether what follows a trip is worked out too; after_of lends it.
    """
    return alone(
        evaluation(
            site,
            flipped,
            figures_of,
            starts_of=starts_of,
            only=only,
            with_needs=with_needs,
            with_probability=with_probability,
            with_after=with_after,
            after_of=after_of,
        )
    )


def evaluation(
    site: Site,
    flipped: frozenset[str],
    figures_of: Evaluation | None = None,
    *,
    starts_of: Evaluation | None = None,
    only: frozenset[int] | None = None,
    cases: frozenset[int] | None = None,
    with_needs: bool = False,
    with_probability: bool = False,
    with_after: bool = False,
    after_of: Evaluation | None = None,
) -> Steps[Evaluation]:
    """`evaluate`, asking for its networks and marches.

    cases : those that are evaluated; the others have no rows, no starts and no checks.
    """
    ledger = Ledger(flipped)
    settled = settle(site, ledger)
    sets, all_combinations = running_sets(site, settled)
    only = cases if cases is not None else only
    # a short is judged with the copper as warm as any case makes it, so cords need the rows of all
    rows = rows_of(sets, settled, None if settled.cords else cases) if figures_of is None else figures_of.rows
    chosen = range(len(sets)) if cases is None else sorted(cases)
    figures = figures_of.figures if figures_of else (yield from rows_solved(settled, rows))
    plain = figures_of.plain if figures_of else PlainFigures.of(figures)
    row_checks = (
        figures_of.row_checks
        if figures_of
        else tuple(
            check_row(settled, row, r, plain) if cases is None or row.case in cases else ()
            for r, row in enumerate(rows)
        )
    )
    if starts_of is not None:
        starts = starts_of.starts
    else:
        starts = yield from starts_of_cases(settled, ledger, sets, rows, figures, only)
    needs = needs_of(settled, starts, rows, figures, with_probability=with_probability) if with_needs else {}
    # a short asks nothing of a start, a switch or a reset
    faults = figures_of.faults if figures_of else run_faults(settled, rows, figures, plain)
    lost_neutral: dict[int, tuple[Check, ...]] = {}
    for number in () if flipped else chosen:
        # told, not judged: nothing is taken the other way for its sake
        lost_neutral[number] = yield from lost_neutral_checks(settled, rows, number, sets[number])
    after = after_of.after if after_of else None
    if with_after and after is None:
        after = yield from after_trips(settled, ledger, sets, rows, figures, starts, only)
    of_starts = tuple(start_checks(settled, starts, number, needs) for number in range(len(sets)))
    return Evaluation(
        settled,
        ledger.assumptions,
        sets,
        rows,
        figures,
        plain,
        row_checks,
        tuple(
            (
                *case_checks(site, settled, running),
                *lost_neutral.get(number, ()),
                *code_case_checks(site, settled, running, hazards_only=bool(flipped)),
                *of_starts[number],
                # told, not judged, as above
                *(() if flipped else weak_tool_checks(settled, starts.starting, rows, figures, number)),
                *fault_checks(faults, running.placements),
                *(after_trip_checks(settled, after, starts, number) if after else ()),
            )
            if number in chosen
            else ()
            for number, running in enumerate(sets)
        ),
        (
            *site_checks(site, settled),
            *plate_checks(settled),
            *not_plugged_in(site, settled),
            # no assumption is flipped for the sake of the code verdict
            *(() if flipped else code_site_checks(site, settled)),
        ),
        all_combinations,
        starts,
        of_starts,
        needs,
        faults,
        after,
    )
