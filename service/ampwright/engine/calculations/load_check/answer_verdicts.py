"""Which verdicts does an evaluated load check come to: of each aspect, and overall?

Every aspect is the worst of its cases and of the site as a whole, the overall one the worst of all; what is not
assessed keeps it from being better than `unknown`.
"""

from __future__ import annotations

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.load_check.load_check_result import Verdicts
from ampwright.engine.calculations.load_check.not_assessed import what_is_not_assessed
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.use import Site


def answer_verdicts(
    site: Site, base: Evaluation, verdicts: dict[tuple[int, str], str], left_out: tuple[str, ...]
) -> tuple[Verdicts, tuple[str, ...]]:
    """The verdicts of an answer, and what it does not assess, sorted.

    verdicts : per case and aspect; left_out : codes of what was too much to check.
    """
    not_assessed = tuple(sorted({*what_is_not_assessed(site, base), *left_out}))
    # what holds for the site holds also where no case is asked for, and nothing runs that could pass
    capacity, safety = (
        worst((base.site_aspect(aspect), *(verdict for (_, name), verdict in verdicts.items() if name == aspect)))
        for aspect in ("capacity", "safety")
    )
    if not base.sets:
        capacity = worst((capacity, "unknown"))
    code = code_verdict(site, base)
    overall = worst((capacity, safety, code or "pass", "unknown" if not_assessed else "pass"))
    return Verdicts(overall, capacity, safety, code), not_assessed


def code_checks(base: Evaluation) -> tuple[Check, ...]:
    """All that the rule layers ask, of the site and of its cases."""
    every = (*base.site_checks, *(check for checks in base.case_checks for check in checks))
    return tuple(check for check in every if check.aspect == "code")


def code_verdict(site: Site, base: Evaluation) -> str | None:
    """The worst of what the rule layers say; open where none was named, left out where the list is empty."""
    if site.code_basis is None:
        return "unknown"
    return worst(check.verdict for check in code_checks(base)) if site.code_basis else None
