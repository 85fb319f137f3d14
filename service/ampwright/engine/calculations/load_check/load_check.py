"""Which of these tools run on this source, alone and together, and what must be known first?

Settles every unknown on its safe side, solves all rows in one batch, holds each figure against its limit, and where a
case fails asks of each assumption whether it alone decides: then the verdict is `unknown`, and the answer names the
question. Two that decide only together leave `fail`, and the case names them. How many are tried is bounded by the
work that each costs; `assumptions` stands in `not_assessed` where that left some out.

Errors: ValueError from a site that validation refuses; none otherwise.
Not here: HTTP, references, rounding for the wire (studies).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from ampwright.engine.calculations.load_check.load_check_evaluation import ASPECTS, Evaluation, Swing, evaluation
from ampwright.engine.calculations.load_check.load_check_report import report
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from ampwright.engine.calculations.pooled import Steps, alone, together
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.ledger import Assumption
from ampwright.engine.site.use import Site

# which assumptions are tried the other way first; past the bounds the safe side stands
INFLUENCE = (
    "connections_assumed",
    "limit_continuous",
    "circuit_shared",
    "receptacle_rating",
    "plate_unknown",
    "reset",
    "cord_size",
    "cord_laid",
    "limit_peak",
    "limit_tiers",
    "head_pressure",
    "limit_response",
    "overload_policy",
    "engine_technology",
    "soft_start",
    "start_current",
    "switch",
    "restart_protection",
)
_VOLTAGE = frozenset({"low_voltage_at_tool", "voltage_collapse"})
_CORDS = frozenset({"cord_over_marked_rating", "cord_overheats"})
_RATINGS = frozenset({"circuit_over_rating", "receptacle_over_rating", "neutral_overloaded"})
_OUTPUT = frozenset({"limit_over_continuous", "peak_limit_over"})
_STARTS = frozenset(
    {
        "does_not_start", "start_trips", "sag_upsets_tool", "stalls_without_trip", "protector_retries",
        "return_overheats_motor",
    }
)  # fmt: skip
_RETURN = frozenset({"restart_without_warning", "return_overheats_motor", "locks_out_and_stays_off"})
_SHORTS = frozenset({"fault_not_cleared"})
# which findings an assumption can lift when it is taken the other way; one that is not listed may lift any
LIFTS: dict[str, frozenset[str]] = {
    "circuit_shared": _RATINGS | _VOLTAGE | _STARTS,
    "receptacle_rating": _RATINGS | _OUTPUT | _STARTS | _RETURN | _SHORTS,
    "limit_continuous": _OUTPUT | _VOLTAGE | _STARTS | _RETURN | _SHORTS,
    "limit_peak": frozenset({"peak_limit_over"}),
    "cord_size": _CORDS | _VOLTAGE | _STARTS | _SHORTS,
    "cord_laid": frozenset({"cord_overheats"}),
    "limit_tiers": _STARTS,
    "head_pressure": _STARTS,
    "limit_response": _STARTS,
    "overload_policy": _STARTS,
    "engine_technology": _STARTS,
    "soft_start": _STARTS,
    "start_current": _STARTS,
    "reset": _RETURN,
    "switch": _RETURN,
    "restart_protection": _RETURN,
}
SAFETY_ONLY = frozenset({"reset", "switch", "restart_protection"})
STARTS_ONLY = frozenset(
    {
        "limit_tiers",
        "head_pressure",
        "limit_response",
        "overload_policy",
        "engine_technology",
        "soft_start",
        "start_current",
    }
)
Flips = Literal["all", "each", "first", "none"]
Withdrawn = tuple[tuple[str, str, str], ...]

AT_ONCE = 64  # sites whose kernel calls are pooled
MOST_TRIED = 48
# rows x items, and starts, summed over what is tried; a check of ten tools and three cases has about 3,000
MOST_WORK = 120_000
WORK_OF_A_START = 60


class _Tries:
    """Evaluations under flipped assumptions, each made once, within a bound of work. cases : those that are open."""

    def __init__(self, site: Site, base: Evaluation, cases: frozenset[int], work: int, withdrawn: Withdrawn) -> None:
        self._site = site
        self.cases = cases
        self._base = base
        self._known: dict[frozenset[str], Evaluation] = {}
        # by the flipped assumptions that can change steady figures, and the cases: an evaluation that has these figures
        self._steady: dict[tuple[frozenset[str], frozenset[int]], Evaluation] = {}
        settled = base.settled
        items = len(settled.placements) + len(settled.cords) + len(settled.source.receptacles) + 1
        of_starts = sum(WORK_OF_A_START for one in base.starts.tools if one.case in cases)
        self._work_of_one = max(1, len(base.rows) * items + of_starts)
        self.work_left = work
        self._withdrawn = withdrawn
        self.all_tried = True

    def under(self, flipped: frozenset[str]) -> Steps[Evaluation | None]:
        """The evaluation, None where the bound is reached."""
        known = self._known.get(flipped)
        if known is not None:
            return known
        if self.work_left <= 0:
            self.all_tried = False
            return None
        codes = {key.split(":", 1)[0] for key in flipped}
        safety_only = codes <= SAFETY_ONLY
        lent = codes <= SAFETY_ONLY | STARTS_ONLY
        # what follows a trip is worked out again only where it decides, or where the answer is about the return
        anew = self._base.return_decides or bool(codes & {"reset"})
        # without a network to solve, an evaluation costs about a third; one that is lent by another try counts in full,
        # so that which tries are within the bound does not hang on their order
        self.work_left -= self._work_of_one // 3 if lent else self._work_of_one
        steady = frozenset(key for key in flipped if key.split(":", 1)[0] not in SAFETY_ONLY | STARTS_ONLY), self.cases
        found = yield from evaluation(
            self._site,
            flipped,
            self._base if lent else self._steady.get(steady),
            starts_of=self._base if safety_only else None,
            cases=self.cases,
            with_after=anew,
            after_of=None if anew else self._base,
        )
        found = with_withdrawn(found, self._withdrawn)
        self._known[flipped] = found
        self._steady.setdefault(steady, found)
        return found


def check_load(site: Site, withdrawn: Withdrawn = ()) -> LoadCheckResult:
    """The answer to one load check: the only row of a batch of one."""
    return check_loads((site,), withdrawn=(withdrawn,))[0]


def check_loads(
    sites: Sequence[Site],
    *,
    withdrawn: Sequence[Withdrawn] | None = None,
    flips: Flips = "all",
    verdict_only: bool = False,
) -> tuple[LoadCheckResult, ...]:
    """The answers to many load checks, in the order asked; each is bit for bit what its site gives alone.

    Parameters
    ----------
    sites : sound sites (validation found no fault)
    withdrawn : by site (pointer, name, reason) of catalogue documents in it that were withdrawn: each is a finding,
        and keeps the safety verdict from passing; None where there are none
    flips : which assumptions are taken the other way where a case fails.
        "all" each that could matter, and then sets of them.
        "each" each that could matter, and no sets: all verdicts are those of "all", and no case names what it hangs on.
        "first" only until every failing verdict has one that decides it: all verdicts and the question's existence are
        those of "all", fewer assumptions are marked as deciding, and no case names what it hangs on together.
        "none" no assumption: what "all" calls `unknown` because one decides is then `fail`, and `not_assessed` names
        `assumptions` where any could have been tried
    verdict_only : leaves out what no verdict, finding, question or sentence needs: the figures of the cases' rows
        (`results` of each case is empty), and with them the probability of a start

    Returns
    -------
    results : one a site

    Errors: ValueError from a site that validation refuses, and from lists of unlike length; none otherwise.
    """
    told = withdrawn if withdrawn is not None else ((),) * len(sites)
    asked = list(zip(sites, told, strict=True))
    found: list[LoadCheckResult] = []
    for first in range(0, len(asked), AT_ONCE):
        some = asked[first : first + AT_ONCE]
        found += together([_checked(site, gone, flips, verdict_only=verdict_only) for site, gone in some])
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Judged:
    """What an answer says of a site: every case and aspect, with what is not known taken both ways.

    verdicts : by case and aspect. swings, hangs_on : what decides alone, and together. left_out : codes of what was too
    much to check. work : spent on taking assumptions the other way, of MOST_WORK. all_tried : none was left out.
    """

    base: Evaluation
    verdicts: dict[tuple[int, str], str]
    swings: list[Swing]
    hangs_on: dict[int, tuple[str, ...]]
    left_out: tuple[str, ...]
    work: int
    all_tried: bool


def judge(site: Site, withdrawn: Withdrawn = (), work: int = MOST_WORK) -> Judged:
    """The verdicts of `check_load`, for a calculation that asks them of many changed sites.

    withdrawn : as of `check_loads`. work : the most that may be spent on taking assumptions the other way; where
    `all_tried` is false for want of it, an answer may say better. Errors: ValueError as of `check_loads`.
    """
    return alone(judged(site, withdrawn, "each", with_probability=False, work=work))


def judged(
    site: Site, withdrawn: Withdrawn, flips: Flips, *, with_probability: bool, work: int = MOST_WORK
) -> Steps[Judged]:
    """`judge`, asking for its networks and marches; flips : as of `check_loads`."""
    base = yield from evaluation(site, frozenset(), with_needs=True, with_probability=with_probability, with_after=True)
    base = with_withdrawn(base, withdrawn)
    verdicts = {(case, name): base.aspect(case, name) for case in range(len(base.sets)) for name in ASPECTS}
    failing = [at for at, verdict in verdicts.items() if verdict == "fail"]
    swings: list[Swing] = []
    hangs_on: dict[int, tuple[str, ...]] = {}
    left_out = base.left_out
    spent, all_tried = 0, True
    if failing:
        candidates, all_listed = _candidates(base.assumptions)
        tries = _Tries(site, base, frozenset(case for case, _ in failing), work, withdrawn)
        if flips != "none":
            swings = yield from _swings(tries, base, candidates, failing, first_only=flips == "first")
        decided = {at for swing in swings for at in swing.then}
        for at in failing:
            if at in decided:
                verdicts[at] = "unknown"
        stuck = [at for at in failing if at not in decided]
        if stuck and len(candidates) > 1 and flips == "all":
            hangs_on = yield from _together(tries, candidates, stuck)
        spent, all_tried = work - tries.work_left, tries.all_tried
        if not (all_tried and all_listed) or (flips == "none" and candidates):
            left_out = (*left_out, "assumptions")
    return Judged(base, verdicts, swings, hangs_on, left_out, spent, all_tried)


def with_withdrawn(base: Evaluation, withdrawn: Withdrawn) -> Evaluation:
    """With what is said of catalogue documents that were withdrawn."""
    if not withdrawn:
        return base
    told = tuple(
        Check("entry_withdrawn", "safety", pointer, name, "marginal", value_text=reason)
        for pointer, name, reason in withdrawn
    )
    return replace(base, site_checks=(*base.site_checks, *told))


def _checked(site: Site, withdrawn: Withdrawn, flips: Flips, *, verdict_only: bool) -> Steps[LoadCheckResult]:
    found = yield from judged(site, withdrawn, flips, with_probability=not verdict_only)
    return report(
        site, found.base, found.verdicts, found.swings, found.hangs_on, found.left_out, with_figures=not verdict_only
    )


def _swings(
    tries: _Tries, base: Evaluation, candidates: list[str], failing: list[tuple[int, str]], *, first_only: bool
) -> Steps[list[Swing]]:
    """What each assumption alone decides; `first_only` of what is still open when its turn comes."""
    found: list[Swing] = []
    left = list(failing)
    for key in candidates:
        if not left:
            break
        swing = yield from _swing(tries, base, key, left)
        if swing is None:
            continue
        found.append(swing)
        if first_only:
            left = [at for at in left if at not in swing.then]
            tries.cases = frozenset(case for case, _ in left)
    return found


def _candidates(assumptions: Sequence[Assumption]) -> tuple[list[str], bool]:
    """Keys to try, the most telling first, and whether these are all."""
    found = [item for item in assumptions if item.if_instead is not None]
    found.sort(
        key=lambda item: (
            INFLUENCE.index(item.code) if item.code in INFLUENCE else len(INFLUENCE), item.pointer, item.subject,
        )
    )  # fmt: skip
    return [item.key for item in found[:MOST_TRIED]], len(found) <= MOST_TRIED


def _swing(tries: _Tries, base: Evaluation, key: str, failing: list[tuple[int, str]]) -> Steps[Swing | None]:
    lifts = LIFTS.get(key.split(":", 1)[0])
    if lifts is not None and not any(base.failing_codes(*at) <= lifts for at in failing):
        return None  # something else fails in every case, so this alone decides none
    other = yield from tries.under(frozenset({key}))
    if other is None:
        return None
    then = {at: verdict for at in failing if (verdict := other.aspect(*at)) != "fail"}
    whole = {case: worst(other.aspect(case, name) for name in ASPECTS) for case, _ in then}
    return Swing(key, then, whole) if then else None


def _together(tries: _Tries, candidates: list[str], stuck: list[tuple[int, str]]) -> Steps[dict[int, tuple[str, ...]]]:
    """For cases that no single assumption decides: a smallest set (none of it can be left out) that does."""
    found: dict[int, tuple[str, ...]] = {}
    everything = yield from tries.under(frozenset(candidates))
    for _ in range(3):
        # one answer can open another question: separate circuits make the source's total worth asking for
        if everything is None:
            return found
        opened = [key for key in _candidates(everything.assumptions)[0] if key not in candidates]
        if not opened:
            break
        candidates = [*candidates, *opened]
        everything = yield from tries.under(frozenset(candidates))
    for at in stuck:
        if everything is None or everything.aspect(*at) == "fail" or at[0] in found:
            continue
        kept = list(candidates)
        for key in candidates:
            fewer = [item for item in kept if item != key]
            other = yield from tries.under(frozenset(fewer))
            if other is None:
                return found
            if other.aspect(*at) != "fail":
                kept = fewer
        found[at[0]] = tuple(kept)
    return found
