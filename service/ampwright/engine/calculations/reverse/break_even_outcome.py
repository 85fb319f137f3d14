"""What does a load check say when a change is posted again?

The changed site is checked as any other, with what is not known taken both ways: the verdicts of its cases and of the
whole answer are those that a caller gets who applies the change. How many changes are checked is bounded by the work
that their open questions cost, over all findings of an answer; one that could not be checked to the end is not told.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ampwright.engine.calculations.load_check.answer_verdicts import answer_verdicts
from ampwright.engine.calculations.load_check.load_check import MOST_WORK, Withdrawn, judge
from ampwright.engine.calculations.load_check.load_check_result import Verdicts
from ampwright.engine.calculations.reverse.reaching_edge import Level, levels_of
from ampwright.engine.calculations.reverse.site_edits import Edit, Several
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate

MOST_POSTED = 32  # changes of one answer
MOST_WORK_POSTED = MOST_WORK // 3  # on taking assumptions the other way, over all of them


AS_IT_IS = Several(())


@dataclass(frozen=True, slots=True)
class Outcome:
    """cases : by id the verdict of each aspect. verdict : of the whole answer. levels : of every check."""

    cases: dict[str, dict[str, str]]
    verdict: Verdicts
    levels: Level


@dataclass(slots=True)
class Outcomes:
    """Answers to changed sites, each worked out once. withdrawn : as of the load check that is asked about."""

    site: Site
    withdrawn: Withdrawn = ()
    left: int = MOST_POSTED
    work_left: int = MOST_WORK_POSTED
    all_tried: bool = True
    known: dict[Edit, Outcome | None] = field(default_factory=dict)

    def of(self, edit: Edit) -> Outcome | None:
        """None where the changed site contradicts itself, or where what a full answer says cannot be afforded."""
        if edit not in self.known:
            self.known[edit] = self._posted(edit)
        return self.known[edit]

    @property
    def before(self) -> Outcome | None:
        """What is said of the site as it is, within the same work."""
        return self.of(AS_IT_IS)

    def _posted(self, edit: Edit) -> Outcome | None:
        changed = edit.site(self.site)
        if validate(changed):
            return None
        if self.left <= 0:
            self.all_tried = False
            return None
        self.left -= 1
        work = min(MOST_WORK, max(self.work_left, 0))
        found = judge(changed, self.withdrawn, work)
        self.work_left -= found.work
        if work < MOST_WORK and not found.all_tried:
            self.all_tried = False
            return None
        cases: dict[str, dict[str, str]] = {}
        for (case, aspect), verdict in found.verdicts.items():
            cases.setdefault(found.base.sets[case].id, {})[aspect] = verdict
        for case, running in enumerate(found.base.sets):
            cases[running.id]["code"] = found.base.aspect(case, "code")
        whole, _ = answer_verdicts(changed, found.base, found.verdicts, found.left_out)
        return Outcome(cases, whole, levels_of(found.base))
