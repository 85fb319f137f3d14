"""How does a caller post the other answer to an assumption of a cord sizing?

The edits are those of a load check; here they are written into the question: its one tool stands at `/tool`, the cord
to be brought at `/new_cord`, and both may be corrected in place, beside a reference too.
None where a load check has none either (assumption_edits.py).
"""

from __future__ import annotations

from dataclasses import replace

from ampwright.engine.calculations.cord_sizing.cord_sizing_question import CordQuestion
from ampwright.engine.calculations.load_check.load_check_result import Change
from ampwright.engine.calculations.reverse.assumption_edits import assumption_edit
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.ledger import Assumption
from ampwright.engine.site.settled import SettledSite

_TOOL, _NEW_CORD = "/tool", "/new_cord"
_OF_CORDS = {"cord_laid": "laid", "cord_size": "size"}
# how the cords hang together is what the rows are about
_ASKED_BY_ROWS = ("connections_assumed",)


def other_answer(question: CordQuestion, settled: SettledSite, item: Assumption) -> tuple[Change, ...]:
    """Steps of RFC 6902 into the question that say the other side of an assumption; () where it cannot be said.

    settled : runs side by side (cord_sizing_network.settle_runs), with nothing taken the other way.
    """
    if item.if_instead is None or item.code in _ASKED_BY_ROWS:
        return ()
    if item.code in _OF_CORDS:
        return _of_cord(question, item, _OF_CORDS[item.code])
    name = item.subject or settled.placements[0].tool.id
    # what a reference brought of the tool is corrected beside it, where there is only one tool
    tool = replace(question.site.tools[0], id=name, pointer=_TOOL)
    site = replace(question.site, tools=(tool,))
    edit = assumption_edit(site, settled, item)
    return edit.changes(site) if edit is not None else ()


def _of_cord(question: CordQuestion, item: Assumption, member: str) -> tuple[Change, ...]:
    """A cord at hand by its own pointer; of several that one reference brought, by what the assumption is about."""
    if item.pointer.startswith(f"{_NEW_CORD}/"):
        new = question.new_cord
        if replace(new, size=None, length_m=None) == Cord(new.id, new.pointer):
            return (Change("add", _NEW_CORD, {member: item.if_instead}),)
        return (Change("add", f"{_NEW_CORD}/{member}", item.if_instead),)
    at = item.pointer.removesuffix("/entry").removesuffix(f"/{member}")
    known = {one.cord.pointer.removesuffix("/entry") for one in question.at_hand}
    return (Change("add", f"{at}/{member}", item.if_instead),) if at in known else ()
