"""What is to be made of the starts of a case?

A start that succeeds at the hard estimate passes; at the typical one only, it is marginal; else it fails. A slow start
is marginal at best. A motor that stands still without anything to switch it off is a danger; where nobody said what the
source does, it is a question.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.starts.own_protector import BY_ITSELF, opens_s, protector_of
from ampwright.engine.calculations.starts.standing_motor import standing_s
from ampwright.engine.calculations.starts.start_needs import StartNeed
from ampwright.engine.calculations.starts.start_outcomes import STARTED, OneStart
from ampwright.engine.calculations.starts.start_sags import Sag
from ampwright.engine.calculations.starts.starts import Starts, ToolStart
from ampwright.engine.calculations.wording import two_digits, with_unit
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.settled import SettledSite

STANDS = ("stalls", "hunts", "source_limits")


def start_checks(
    site: SettledSite, starts: Starts, case: int, needs: Mapping[tuple[int, int], StartNeed]
) -> tuple[Check, ...]:
    """Checks of all starts of one case, also those that pass."""
    found: list[Check] = []
    for one in starts.of_case(case):
        need = needs.get((case, one.tool), StartNeed())
        found.append(_start(site, one, need))
        found += _stands(site, starts, one)
        found += _slow(site, one)
        found += _sags(site, one)
    return tuple(found)


def _verdict(one: ToolStart) -> str:
    if one.outcomes[TYPICAL] not in STARTED:
        return "fail"
    return "pass" if all(outcome in STARTED for outcome in one.outcomes) else "marginal"


def _start(site: SettledSite, one: ToolStart, need: StartNeed) -> Check:
    placement = site.placements[one.tool]
    tool = placement.tool
    verdict = _verdict(one)
    shown = one.estimates[TYPICAL if verdict == "fail" else HIGH]
    if shown.outcome == "trips":
        circuit = site.source.circuits[site.source.receptacles[placement.receptacle].circuit]
        opens = "opens" if verdict == "fail" else "may open"
        return Check(
            "start_trips", "capacity", tool.pointer, tool.id, verdict, tools=(one.tool,), value_text=opens,
            limit_text=circuit.id,
        )  # fmt: skip
    amps = round(need.must_give_a, 3) if need.must_give_a is not None else None
    gives = f"the source gives {_must(need)}" if amps is not None else ""
    if verdict == "fail":
        why = _why(shown)
        text = f"{why}; it starts if {gives}" if gives else why
        return Check("does_not_start", "capacity", tool.pointer, tool.id, verdict, amps, None, "A", (one.tool,), text)
    text = gives or "its motor is at its best and its load is light"
    if shown.engine_dies:
        text = f"{text}; else the engine of the set may die under it and all goes dark"
    return Check("starts_only_if", "capacity", tool.pointer, tool.id, verdict, amps, None, "A", (one.tool,), text)


def _must(need: StartNeed) -> str:
    assert need.must_give_a is not None
    assert need.must_give_s is not None
    return f"{with_unit(need.must_give_a, 'A')} for {two_digits(need.must_give_s)} s"


def _why(shown: OneStart) -> str:
    if shown.outcome == "shuts_off":
        return "the source switches off"
    if shown.engine_dies:
        return "the engine of the set dies under it, all goes dark, and somebody has to start the engine again"
    if shown.outcome == "collapses":
        return "the voltage collapses"
    if shown.outcome == "hunts":
        return "its start switch goes in and out without end"
    if shown.stays_limited:
        return "the source holds its current down and it stands still"
    if shown.trips_s < math.inf:
        return "it stands still until the breaker opens"
    return "it stands still"


def _stands(site: SettledSite, starts: Starts, one: ToolStart) -> list[Check]:
    """A motor that stays connected without turning, at the typical or only at the hard estimate."""
    for estimate, verdict in ((TYPICAL, "fail"), (HIGH, "marginal")):
        shown = one.estimates[estimate]
        if shown.outcome not in STANDS or shown.trips_s < math.inf:
            continue
        tool = site.placements[one.tool].tool
        guarded = _guarded(site, starts, one, estimate)
        if guarded is not None:
            return guarded
        limit = starts.starting.limits[shown.limit] if shown.limit >= 0 and shown.stays_limited else None
        if limit is not None and not limit.response_known and verdict == "fail":
            # it may as well switch off: the answer to this question decides
            return [
                Check("stalls_without_trip", "safety", limit.response_pointer, tool.id, "unknown", tools=(one.tool,))
            ]
        return [Check("stalls_without_trip", "safety", tool.pointer, tool.id, verdict, tools=(one.tool,))]
    return []


def _guarded(site: SettledSite, starts: Starts, one: ToolStart, estimate: int) -> list[Check] | None:
    """What a motor's own protector makes of its standstill, None where it has none or would never open."""
    placement = site.placements[one.tool]
    protector, start = protector_of(placement), starts.starting.starts[one.tool]
    if protector is None or start is None:
        return None
    locked_a = abs(complex(standing_s(start)[estimate])) * start.voltage_v / (3.0**0.5 if start.phases == 3 else 1.0)
    seconds = opens_s(estimate, one.estimates[estimate].final_a / locked_a) if locked_a > 0.0 else math.inf
    if seconds == math.inf:
        return None
    code, verdict = "protector_opens", "pass"
    if protector == BY_ITSELF:
        code = "protector_retries"
        verdict = "fail" if estimate == TYPICAL and placement.load_class.hazard_on_restart else "marginal"
    tool = placement.tool
    return [Check(code, "safety", tool.pointer, tool.id, verdict, round(seconds), None, "s", (one.tool,))]


def _slow(site: SettledSite, one: ToolStart) -> list[Check]:
    for estimate in (TYPICAL, HIGH):
        shown = one.estimates[estimate]
        if shown.outcome == "starts_slowly":
            tool = site.placements[one.tool].tool
            return [
                Check(
                    "starts_slowly", "capacity", tool.pointer, tool.id, "marginal", round(shown.lasts_s, 3), None, "s",
                    (one.tool,),
                )
            ]  # fmt: skip
    return []


def _sags(site: SettledSite, one: ToolStart) -> list[Check]:
    found: list[Check] = []
    typical = {sag.tool: sag for sag in one.typical_sags}
    for sag in one.sags:
        if sag.upset == "no":
            continue
        placement = site.placements[sag.tool]
        found.append(
            Check(
                "sag_upsets_tool", "capacity", placement.tool.pointer, placement.tool.id,
                _sag_verdict(sag, typical.get(sag.tool)), round(sag.lowest_v, 3), None, "V", (sag.tool,),
                site.placements[one.tool].tool.id, sag.through,
            )
        )  # fmt: skip
    return found


def _sag_verdict(sag: Sag, typical: Sag | None) -> str:
    """Only what surely drops out at the typical estimate, by a sensitivity that was said, fails."""
    if typical is not None and typical.upset == "surely" and not typical.assumed and not sag.assumed:
        return "fail"
    return "marginal"
