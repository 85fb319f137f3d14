"""How are findings and assumptions of a day said, each with its source, most important first?"""

from __future__ import annotations

from collections.abc import Iterable

from ampwright.engine.calculations.energy.energy_finding import Told
from ampwright.engine.calculations.energy.energy_judgement import Influence, rounded_j
from ampwright.engine.calculations.energy.energy_result import EnergyAssumption, EnergyFinding
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.calculations.energy.energy_words import said
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, Verdicts
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.standards.citations import Basis, basis

SEVERITIES = ("danger", "caution", "info")
ASPECTS = ("safety", "capacity", "code")


def verdicts_of(told: Iterable[Told], energy: str, left_out: tuple[str, ...] = ()) -> Verdicts:
    """Of what the energy makes of the day and of everything that is told beside it.

    left_out : what was not looked at; it keeps the overall verdict from being better than unknown.
    """
    told = tuple(told)

    def of(aspect: str) -> list[str]:
        return [item.verdict for item in told if FINDING_CODES[item.code].aspect == aspect and item.code not in JUDGED]

    capacity, safety = worst((energy, *of("capacity"))), worst(of("safety"))
    return Verdicts(worst((capacity, safety, *(["unknown"] if left_out else []))), capacity, safety, None)


def withdrawn_told(withdrawn: Iterable[tuple[str, str, str]]) -> list[Told]:
    """(pointer, name, reason) of catalogue documents that were withdrawn, each as a finding."""
    return [Told("entry_withdrawn", at, name, "marginal", text=reason) for at, name, reason in withdrawn]


JUDGED = ("reserve_at_risk", "energy_runs_out", "fuel_runs_out")
"""Findings that the verdict of the energy itself stands behind; their break-evens are the changes."""
OVERLOADED = ("source_overloaded", "engine_overloaded", "battery_overloaded")
"""Findings that a change may lift as well as those of the energy."""


class BasisList:
    """Citations in the order they are first leaned on, `b1`, `b2`, ..."""

    def __init__(self) -> None:
        self._found: dict[str, str] = {}
        self._lines: list[Basis] = []

    def refer(self, key: str) -> str:
        if key not in self._found:
            name = self._found[key] = f"b{len(self._found) + 1}"
            line = basis(key)
            self._lines.append(Basis(name, line.document, line.place, line.edition, line.status))
        return self._found[key]

    @property
    def items(self) -> tuple[Basis, ...]:
        return tuple(self._lines)


def findings(told: list[Told], cheapest: tuple[BreakEven, ...], leaned_on: BasisList) -> tuple[EnergyFinding, ...]:
    """Worst first."""
    found: list[EnergyFinding] = []
    for item in told:
        code = FINDING_CODES[item.code]
        severity = "caution" if code.severity == "danger" and item.verdict in ("marginal", "unknown") else code.severity
        text = code.text.format(
            subject=item.subject,
            value=said(item.value, item.unit),
            limit=said(item.limit, item.unit),
            value_text=item.text,
        )
        found.append(
            EnergyFinding(
                item.code, severity, code.aspect, item.pointer, text[0].upper() + text[1:],
                code.what_to_do.format(subject=item.subject), (),
                code.figure if item.value is not None else None, item.value, item.limit,
                tuple(leaned_on.refer(key) for key in code.basis),
                cheapest if item.code in (*JUDGED, *OVERLOADED) else (),
                fails=item.verdict == "fail",
            )
        )  # fmt: skip
    found.sort(key=lambda f: (SEVERITIES.index(f.severity), ASPECTS.index(f.aspect), f.code, f.pointer))
    return tuple(found)


def assumptions(
    settled: SettledDay, influence: tuple[Influence, ...], verdict: str, leaned_on: BasisList
) -> tuple[EnergyAssumption, ...]:
    """By influence; those without a figure last, in the order of the site."""
    order = {item.key: i for i, item in enumerate(influence)}
    by_key = {item.key: item for item in influence}
    ranked = sorted(settled.assumptions, key=lambda item: order.get(item.key, len(order)))
    found: list[EnergyAssumption] = []
    for n, item in enumerate(ranked, start=1):
        code = ASSUMPTION_CODES[item.code]
        moved = by_key.get(item.key)
        swings = moved.verdict_then if moved and verdict == "fail" and moved.verdict_then != "fail" else None
        found.append(
            EnergyAssumption(
                f"a{n}", item.code, item.pointer, item.value, code.why, code.how_to_find_out,
                f"the {moved.better_end} end of the range" if moved else None, swings,
                rounded_j(moved.spread_j) if moved else None,
                (leaned_on.refer(code.basis),) if code.basis else (),
            )
        )  # fmt: skip
    return tuple(found)
