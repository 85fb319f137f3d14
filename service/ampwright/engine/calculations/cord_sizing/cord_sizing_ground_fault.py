"""Has the receptacle before the run the ground-fault protection that the layers ask for?

The load check's own rules (ground_fault_code.py), told as lines; it holds for every candidate at that receptacle.
"""

from __future__ import annotations

from ampwright.engine.calculations.cord_sizing.cord_sizing_lines import Line
from ampwright.engine.calculations.cord_sizing.cord_sizing_network import SolvedRun
from ampwright.engine.calculations.rules.ground_fault_code import NEEDS_NONE, ground_fault_checks, is_demanded, place_of
from ampwright.engine.site.use import Site

_CODE = "ground_fault_protection"


def ground_fault_lines(site: Site, solved: SolvedRun, layers: tuple[str, ...]) -> tuple[Line, ...]:
    """Lines about the receptacle of a run; none for direct current and 55-0-55 V."""
    if site.source.supply.kind in NEEDS_NONE:
        return ()
    receptacle = solved.site.source.receptacles[solved.placement.receptacle]
    where = place_of(receptacle)
    state = receptacle.ground_fault
    found: list[Line] = []
    if state is None:
        found.append(
            Line(
                _CODE, "safety", "unknown", where, receptacle.id, finding="ground_fault_protection_unknown",
                outcome="not_given", side="",
            )
        )  # fmt: skip
    elif state == "none" and not is_demanded(site, receptacle, layers):
        found.append(
            Line(
                _CODE, "safety", "marginal", where, receptacle.id, finding="ground_fault_protection_absent",
                outcome="none", side="",
            )
        )  # fmt: skip
    for check in ground_fault_checks(site, solved.site, ((solved.at, solved.placement),), layers):
        found.append(
            Line(
                _CODE,
                check.aspect,
                check.verdict,
                check.pointer,
                check.subject,
                finding=check.code,
                outcome=state or "not_given",
                value_text=check.value_text,
                limit_text=check.limit_text,
                side="",
                rules=tuple(dict.fromkeys(clause.rule for clause in check.clauses)),
            )
        )
    if not found:
        demanded = is_demanded(site, receptacle, layers)
        found.append(
            Line(
                _CODE, "code" if demanded else "safety", "pass", where, receptacle.id, outcome=state or "none", side="",
                rules=("ground_fault_protection", "ground_fault_on_sets", "ground_fault_any_socket"),
            )
        )  # fmt: skip
    return tuple(found)
