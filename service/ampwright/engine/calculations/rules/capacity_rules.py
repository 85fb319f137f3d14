"""Does it hold? Every figure of one row against its limit.

Verdict arithmetic: a figure passes when it holds at its high estimate, is marginal when it holds at typical only, and
fails when it does not hold at typical. A push of under a minute is judged on a cord by heat, above its mark at best
marginal; on the source's label a push gets no such allowance.
Source: mark and ampacity through settled cords; 90 % of plate voltage NEMA MG 1 12.44; insulation temperature as
marked, 60 degC where unmarked.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.network.load_network import Row
from ampwright.engine.calculations.network.plain_figures import PlainFigures
from ampwright.engine.calculations.verdicts import over, under, worst
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledLimit, SettledSite
from ampwright.engine.standards.rule_layers import Clause

SHORT_PUSH_S = 60.0
LEAST_CREST_OF_PEAKY_LOADS = 1.6


@dataclass(frozen=True, slots=True)
class Check:
    """One figure of one row held against one limit; `tools` are the placements it touches."""

    code: str
    aspect: str
    pointer: str
    subject: str
    verdict: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    tools: tuple[int, ...] = ()
    value_text: str = ""
    limit_text: str = ""
    figure: str | None = None
    clauses: tuple[Clause, ...] = ()  # of rule layers, where they are more particular than the finding's rules
    told: bool = False  # as information, though it passes


def check_row(site: SettledSite, row: Row, r: int, figures: PlainFigures) -> tuple[Check, ...]:
    """Every capacity check of row `r`, also those that pass."""
    found = _misfits(site, row)
    collapsed = [outcome in (COLLAPSED, NOT_CONVERGED) for outcome in figures.outcome[r]]
    if collapsed[TYPICAL] or collapsed[HIGH]:
        verdict = "fail" if collapsed[TYPICAL] else "marginal"
        found.append(Check("voltage_collapse", "capacity", site.source.source.pointer, "", verdict, tools=row.running))
    if not collapsed[TYPICAL]:
        found += _circuits(site, row, r, figures)
        found += _limits(site, row, r, figures)
        found += _cords(site, row, r, figures)
        found += _tools(site, row, r, figures)
    return tuple(found)


def _misfits(site: SettledSite, row: Row) -> list[Check]:
    found: list[Check] = []
    for i in row.running:
        placement = site.placements[i]
        for misfit in placement.misfits:
            found.append(
                Check(
                    misfit.code,
                    "capacity",
                    misfit.pointer,
                    placement.tool.id,
                    "fail",
                    tools=(i,),
                    value_text=misfit.plug,
                    limit_text=misfit.into,
                )
            )
    return found


def _fed(site: SettledSite, row: Row) -> tuple[dict[int, tuple[int, ...]], dict[int, tuple[int, ...]]]:
    """The tools of a row that get their voltage, by circuit and by receptacle."""
    circuits: dict[int, tuple[int, ...]] = {}
    receptacles: dict[int, tuple[int, ...]] = {}
    for i in row.running:
        placement = site.placements[i]
        if placement.option is not None:
            circuit = site.source.receptacles[placement.receptacle].circuit
            circuits[circuit] = (*circuits.get(circuit, ()), i)
            receptacles[placement.receptacle] = (*receptacles.get(placement.receptacle, ()), i)
    return circuits, receptacles


def _circuits(site: SettledSite, row: Row, r: int, figures: PlainFigures) -> list[Check]:
    found: list[Check] = []
    by_circuit, by_receptacle = _fed(site, row)
    for i, circuit in enumerate(site.source.circuits):
        tools = by_circuit.get(i)
        if not tools:
            continue
        amps = figures.circuit_a[r][i]
        verdict = over(amps[TYPICAL], amps[HIGH], circuit.rating_a, circuit.rating_low_a)
        found.append(
            Check(
                "circuit_over_rating", "capacity", circuit.pointer, circuit.id, verdict,
                *_which(amps, circuit.rating_a), "A", tools,
            )
        )  # fmt: skip
        if len(circuit.legs) >= 2:
            neutral = figures.circuit_neutral_a[r][i]
            verdict = over(neutral[TYPICAL], neutral[HIGH], circuit.rating_a)
            found.append(
                Check(
                    "neutral_overloaded", "safety", circuit.pointer, circuit.id, verdict,
                    *_which(neutral, circuit.rating_a), "A", tools,
                )
            )  # fmt: skip
    for i, receptacle in enumerate(site.source.receptacles):
        tools = by_receptacle.get(i)
        if not tools:
            continue
        amps = figures.receptacle_a[r][i]
        if receptacle.rating_a < site.source.circuits[receptacle.circuit].rating_a:
            verdict = over(amps[TYPICAL], amps[HIGH], receptacle.rating_a)
            found.append(
                Check(
                    "receptacle_over_rating", "capacity", receptacle.pointer, receptacle.id, verdict,
                    *_which(amps, receptacle.rating_a), "A", tools,
                )
            )  # fmt: skip
    return found


def _peak_pointer(limit: SettledLimit) -> str:
    """An output that nobody stated has no member of its own to point at."""
    return limit.pointer if limit.id in ("assumed-output", "running") else member_of(limit.pointer, "peak")


def _which(amps: tuple[float, float, float], limit: float) -> tuple[float, float]:
    """The value to show: typical where that is over, else high."""
    return (amps[TYPICAL] if amps[TYPICAL] > limit else amps[HIGH]), limit


def _limits(site: SettledSite, row: Row, r: int, figures: PlainFigures) -> list[Check]:
    found: list[Check] = []
    for i, limit in enumerate(site.source.limits):
        tools = tuple(
            t
            for t in row.running
            if site.source.receptacles[site.placements[t].receptacle].circuit in limit.circuits
            and site.placements[t].option is not None
        )
        if not tools:
            continue
        by_unit = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}
        unit = limit.unit
        amount = by_unit[unit][r][i]
        verdict = over(amount[TYPICAL], amount[HIGH], limit.continuous, limit.continuous_low)
        name = {"VA": "apparent_power_va", "W": "power_w", "A": "current_a"}[unit]
        found.append(
            Check(
                "limit_over_continuous", "capacity", limit.pointer, limit.id, verdict,
                *_which(amount, limit.continuous), unit, tools, figure=name,
            )
        )  # fmt: skip
        peaky = [
            t
            for t in tools
            if site.placements[t].state("heavy" if t == row.pushed else "working").crest_factor
            > LEAST_CREST_OF_PEAKY_LOADS
        ]
        if limit.peak_a is not None and (peaky or limit.peak_is_stated):
            peak = figures.limit_peak_a[r][i]
            verdict = over(peak[TYPICAL], peak[HIGH], limit.peak_a)
            found.append(
                Check(
                    "peak_limit_over", "capacity", _peak_pointer(limit), limit.id, verdict,
                    *_which(peak, limit.peak_a), "A", tools,
                )
            )  # fmt: skip
    return found


def _cords(site: SettledSite, row: Row, r: int, figures: PlainFigures) -> list[Check]:
    found: list[Check] = []
    short_push = row.pushed is not None and site.placements[row.pushed].state("heavy").lasts_s < SHORT_PUSH_S
    for i, cord in enumerate(site.cords):
        tools = tuple(t for t in row.running if i in site.placements[t].cords and site.placements[t].option is not None)
        if not tools:
            continue
        amps, warm = figures.cord_a[r][i], figures.cord_c[r][i]
        hot = over(warm[TYPICAL], warm[HIGH], cord.insulation_c)
        verdict = over(amps[TYPICAL], amps[HIGH], cord.capacity_a)
        if short_push and verdict == "fail" and row.pushed in tools:
            # heat decides for a push under a minute, at best marginal
            verdict = worst(("marginal", hot))
        found.append(
            Check(
                "cord_over_marked_rating", "capacity", cord.pointer, cord.id, verdict,
                *_which(amps, cord.capacity_a), "A", tools,
            )
        )  # fmt: skip
        found.append(
            Check(
                "cord_overheats", "safety", cord.pointer, cord.id, hot,
                *_which(warm, cord.insulation_c), "degC", tools,
            )
        )  # fmt: skip
    return found


def _tools(site: SettledSite, row: Row, r: int, figures: PlainFigures) -> list[Check]:
    found: list[Check] = []
    for i in row.running:
        placement = site.placements[i]
        if placement.option is None:
            continue
        # the lowest voltage belongs to the highest current
        volts = figures.tool_v[r][i]
        verdict = under(volts[TYPICAL], min(volts[LOW], volts[HIGH]), placement.lowest_voltage_v)
        if verdict == "fail" and placement.load_class.start == "resistive":
            # a heater or a filament gives less, and comes to no harm
            verdict = "marginal"
        # the one that decides: typical where that is too low, else the lowest
        shown = volts[TYPICAL] if volts[TYPICAL] < placement.lowest_voltage_v else min(volts[LOW], volts[HIGH])
        found.append(
            Check(
                "low_voltage_at_tool", "capacity", placement.tool.pointer, placement.tool.id, verdict,
                shown, placement.lowest_voltage_v, "V", (i,),
            )
        )  # fmt: skip
    return found
