"""Which parts of the question does a load check leave open, for this kit?

While a part is open that the kit needs, the overall verdict is at most `unknown`; no invented multiplier stands in.
"""

from __future__ import annotations

from ampwright.engine.calculations.load_check.cold_battery import cold_battery_may_stop
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.starts.starts import Starts
from ampwright.engine.site.use import Site


def starts_are_open(starts: Starts, sets: tuple[RunningSet, ...]) -> bool:
    """Whether a tool of some case has a start that nothing is known of, or more start than a check can carry."""
    running = {i for item in sets for i in item.placements}
    return starts.too_many or bool(running & starts.open_tools)


def what_is_not_assessed(site: Site, base: Evaluation) -> tuple[str, ...]:
    """Codes of what this answer does not cover, sorted."""
    after, sets, starts = base.after, base.sets, base.starts
    found: list[str] = []
    if cold_battery_may_stop(site, base):
        found.append("cold_battery")
    if after is None or after.is_open or starts_are_open(starts, sets):
        # without its start nobody can say whether a tool trips anything, nor what it does when power returns
        found.append("after_trip")
    if starts_are_open(starts, sets):
        found += ["sag", "start"]
    if site.code_basis is None:
        found.append("code_rules")
    return tuple(sorted(found))
