"""What does each tool see when the neutral of a two-leg run breaks?

Two legs with loads to neutral then share the line voltage in proportion to their impedances: the lightly loaded leg
rises. A what-if, not a state of the site: it is told, and decides no verdict.
Source: Kirchhoff's laws; engine/physics/network_flow with the neutral open.
"""

from __future__ import annotations

from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.network.load_network import Row, rows_solved
from ampwright.engine.calculations.pooled import Steps
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.band import TYPICAL
from ampwright.engine.site.settle_tool import HIGHEST_VOLTAGE_RATIO
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.source import NEUTRAL


def lost_neutral_checks(
    site: SettledSite, rows: tuple[Row, ...], case: int, running: RunningSet
) -> Steps[tuple[Check, ...]]:
    """One check for each circuit whose legs share a neutral while tools on different legs run."""
    found: list[Check] = []
    for c, circuit in enumerate(site.source.circuits):
        legs = {
            placement.lines[0][0]
            for i in running.placements
            if (placement := site.placements[i]).option is not None
            and site.source.receptacles[placement.receptacle].circuit == c
            and len(placement.lines) == 1
            and placement.lines[0][1] == NEUTRAL
        }
        if len(legs) < 2:
            continue
        base = next(row for row in rows if row.case == case and row.pushed is None)
        figures = yield from rows_solved(site, (Row(0, base.running, None, 0),), broken_neutral=c)
        highest, tool = max(
            (float(figures.tool_v[0, TYPICAL, i]), i)
            for i in running.placements
            if site.source.receptacles[site.placements[i].receptacle].circuit == c
        )
        plate = site.placements[tool].plate_voltage_v
        if highest > HIGHEST_VOLTAGE_RATIO * plate:
            found.append(
                Check(
                    "neutral_lost", "safety", circuit.pointer, circuit.id, "pass", highest,
                    round(HIGHEST_VOLTAGE_RATIO * plate, 3), "V", (tool,), value_text=and_list(running.running),
                )
            )  # fmt: skip
    return tuple(found)
