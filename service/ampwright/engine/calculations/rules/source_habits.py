"""Does a habit of the source spoil the work: sleep, a stepped wave, a floating or bonded neutral?

A source that watches its output switches off below a threshold; what is counted is the least that runs all the time,
since a refrigerator between two cycles is what gets lost.
Source: thresholds of 8 to 15 W are common practice, no source; NFPA 70 445.20 knows floating and bonded sets.
"""

from __future__ import annotations

from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.ground_fault_code import NEEDS_NONE
from ampwright.engine.site.band import LOW
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_source import USUAL_SLEEP_W
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.use import Site

_CYCLES_BY_ITSELF = ("pressure", "float", "thermostat")


def habit_checks(site: Site, settled: SettledSite) -> list[Check]:
    """What holds for the source as a whole."""
    return [*_neutral(site), *_stepped_wave(site, settled)]


def sleep_checks(settled: SettledSite, running: RunningSet) -> list[Check]:
    """Whether a case asks for so little that the source may switch off."""
    source = settled.source.source
    placements = [settled.placements[i] for i in running.placements]
    if source.kind not in ("vehicle", "battery_station") or not placements:
        return []
    stated = source.sleeps_below_w
    threshold = stated.high if stated is not None else USUAL_SLEEP_W
    if threshold <= 0.0:
        return []
    # between two cycles: only where the maker's threshold is known does it say more than "it may"
    least = sum(_least_power_w(item, between_cycles=stated is not None) for item in placements)
    if least >= threshold:
        return []
    return [
        Check(
            "source_may_sleep", "safety", member_of(source.pointer, "sleeps_below"), source.name or "The source",
            "marginal", round(least, 3), threshold, "W", running.placements, value_text=running.id,
        )
    ]  # fmt: skip


def _least_power_w(placement: Placement, *, between_cycles: bool) -> float:
    control = placement.tool.control or placement.load_class.control
    cycles = between_cycles and control in _CYCLES_BY_ITSELF
    if cycles and control != "thermostat":
        return 0.0  # the motor is off until the pressure or the level says otherwise
    return placement.state("idle" if cycles else "working").power_va[LOW].real


def _neutral(site: Site) -> list[Check]:
    source = site.source
    if source.kind == "site_supply" or source.supply.kind in NEEDS_NONE:
        return []
    code = {"floating": "floating_neutral", "bonded": "bonded_neutral"}.get(source.neutral_bond or "")
    where = member_of(source.pointer, "neutral_bond")
    return [Check(code, "safety", where, source.name or "the source", "pass")] if code else []


def _stepped_wave(site: Site, settled: SettledSite) -> list[Check]:
    if site.source.waveform != "modified_sine":
        return []
    where = member_of(site.source.pointer, "waveform")
    found: list[Check] = []
    for i, placement in enumerate(settled.placements):
        kind = placement.tool.start.kind if placement.tool.start else placement.load_class.start
        what = {
            "induction_motor": "its motor and capacitor run hot",
            "rectifier": "its rectifier may run hot, hum or refuse",
        }.get(kind)
        if what is not None:
            found.append(
                Check(
                    "modified_sine_load", "safety", placement.tool.pointer, placement.tool.id, "marginal", tools=(i,),
                    value_text=what,
                )
            )  # fmt: skip
    used = {placement.receptacle for placement in settled.placements}
    if any(settled.source.receptacles[r].ground_fault not in (None, "none") for r in used):
        name = site.source.name or "the source"
        found.append(Check("modified_sine_ground_fault", "safety", where, name, "pass"))
    return found
