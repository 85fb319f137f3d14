"""Which is the cheapest change that makes the day?

Tried in the order in which a crew would do them: charge more before leaving, let the source sleep, leave one thing at
home, work a shorter day, charge on the way. Each amount is the smallest on a grid that makes nine days of ten hold;
all tries go through the kernel in one call, on the same draws, so that a smaller change is never better by chance.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.energy.energy_judgement import TRY_DRAWS, hold, rounded_j
from ampwright.engine.calculations.energy.energy_plan import Plan, evaluate
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, Change
from ampwright.engine.calculations.wording import two_digits
from ampwright.engine.physics.day_energy import CHARGE, COLD, IDLE, LIMIT, MARGIN, UNPOWERED
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Site

STEPS = 20
MOST_SOCKETS = 3
# household sockets and charging points, of one phase and three; common practice, no source
SOCKETS_W = (1400.0, 2300.0, 3700.0, 7400.0, 11000.0, 22000.0)
_OFF = ((0.5, "half"), (0.75, "three quarters"))
KWH_J = 3.6e6


@dataclass(frozen=True, slots=True)
class _Try:
    plan: Plan
    text: str
    change: tuple[Change, ...] = ()
    rank: int = 0


def changes(site: Site, day: EnergyDay, settled: SettledDay, seed: int, draws: int) -> tuple[BreakEven, ...]:
    """Changes that make the day pass, cheapest first; empty where none of them alone does."""
    ladders = [
        *_charge(day, settled),
        *_warm(settled),
        *_asleep(site, settled),
        *_leave(settled),
        *_recharge(day, settled),
        *_shorter(day, settled),
    ]
    found = hold([step.plan for ladder in ladders for step in ladder], seed, min(draws, TRY_DRAWS))
    result: list[BreakEven] = []
    at = 0
    for ladder in ladders:
        step = _holds(ladder, found[at : at + len(ladder)], seed, draws)
        at += len(ladder)
        if step is not None:
            result.append(BreakEven(step.text, "pass", step.change))
    brought = _bring(settled, seed, draws)
    # a can of fuel is cheaper than leaving work at home; energy for a battery is not brought so easily
    return tuple(brought + result if settled.heat_j_per_m3 is not None else result + brought)


def _holds(ladder: list[_Try], held: list[bool], seed: int, draws: int) -> _Try | None:
    """The first step that passes on few draws and on all of them, so that posting it again passes too."""
    for step, holds in zip(ladder, held, strict=True):
        if holds and (draws <= TRY_DRAWS or hold([step.plan], seed, draws)[0]):
            return step
    return None


def _charge(day: EnergyDay, settled: SettledDay) -> list[list[_Try]]:
    if settled.capacity_j is None:
        return []
    now = settled.plan.figures[CHARGE].band.typical
    steps: list[_Try] = []
    op = "add" if day.charge_ratio is None else "replace"
    for percent in range(int(now * 100.0) // 5 * 5 + 5, 101, 5):
        plan = settled.plan.with_band(CHARGE, Band.exactly(percent / 100.0))
        steps.append(_Try(plan, f"leave with {percent} % charge", (Change(op, "/charge", f"{percent} %"),)))
    return [steps] if steps else []


def _asleep(site: Site, settled: SettledDay) -> list[list[_Try]]:
    """Switched off while nothing needs it: half of the time, then three quarters."""
    if site.source.kind not in ("vehicle", "battery_station", "engine_generator"):
        return []
    off = [(ratio, said) for ratio, said in _OFF if ratio <= 1.0 - _needed(site, settled)]
    if not off:
        return []
    band = settled.plan.figures[IDLE].band
    name = "the engine" if site.source.kind == "engine_generator" else "the source"
    return [
        [
            _Try(settled.plan.with_band(IDLE, band.times(1.0 - ratio)), f"{name} switched off {said} of the time")
            for ratio, said in off
        ]
    ]


def _warm(settled: SettledDay) -> list[list[_Try]]:
    """The battery kept warm: all of its energy, and the power of its outlets."""
    if settled.cold_w is None or settled.warm_limit_w is None:
        return []
    plan = settled.plan.with_band(LIMIT, settled.warm_limit_w).with_band(COLD, Band.exactly(1.0))
    return [[_Try(plan, "the battery kept warm, from the night before")]]


def _needed(site: Site, settled: SettledDay) -> float:
    """[-] share of the time at work that something runs at least: the busiest load; all of it for what must stay on."""
    if any(tool.must_return or tool.control == "thermostat" for tool in site.tools):
        return 1.0
    plan = settled.plan
    work_s = sum(item.duration_s for item in plan.stretches if item.is_work)
    busiest = 0.0
    for j, load in enumerate(plan.loads):
        one = [plan.figures[place].band.typical for place in (load.power, load.time)]
        tool = settled.tool_of.get(load.name)
        if not load.able:
            continue
        if load.kind == "tool":
            busiest = max(busiest, one[1] if plan.figures[load.time].key.startswith("running:") else 0.0)
        elif load.kind == "work" and tool is not None and work_s > 0.0 and settled.power_w[tool].typical > 0.0:
            amount = sum(plan.share[g, j] * item.duration_s for g, item in enumerate(plan.stretches) if item.is_work)
            busiest = max(busiest, amount * one[0] / (settled.power_w[tool].typical * work_s))
    return busiest


def _leave(settled: SettledDay) -> list[list[_Try]]:
    """Without one tool or work, the smallest consumer first: one ladder, so that the least is left at home."""
    plan = settled.plan
    sizes = [
        (
            sum(
                plan.share[g, j]
                * plan.figures[load.power].band.typical
                * plan.figures[load.time].band.typical
                * stretch.duration_s
                for g, stretch in enumerate(plan.stretches)
                if stretch.is_work
            ),
            j,
        )
        for j, load in enumerate(plan.loads)
        if load.kind != "standby" and load.able
    ]
    steps = [_Try(plan.without(j), f"without {plan.loads[j].name}") for size, j in sorted(sizes) if size > 0.0]
    # a day on which nothing is left to do is no way to make the day
    return [steps] if len(steps) > 1 else []


def _recharge(day: EnergyDay, settled: SettledDay) -> list[list[_Try]]:
    """A socket at one of the stops, the longest first: the weakest one that makes the day."""
    if settled.capacity_j is None or not day.stops:
        return []
    longest = sorted(range(len(settled.stops)), key=lambda k: (-(settled.stops[k].lasts_s or 0.0), k))
    found: list[list[_Try]] = []
    for k in longest[:MOST_SOCKETS]:
        stop = settled.stops[k]
        now_w = stop.recharge_w.typical if stop.recharge_w is not None else 0.0
        op = "add" if stop.recharge_w is None else "replace"
        change = f"/stops/{k}/recharge"
        ladder = [
            _Try(
                settled.plan.with_gain(k, watts - now_w),
                f"charge at {stop.id} with {watts / 1000.0:g} kW",
                (Change(op, change, f"{watts / 1000.0:g} kW"),),
            )
            for watts in SOCKETS_W
            if watts > now_w
        ]
        if ladder:
            found.append(ladder)
    return found


def _shorter(day: EnergyDay, settled: SettledDay) -> list[list[_Try]]:
    if settled.shift_s <= 0.0:
        return []
    steps: list[_Try] = []
    for n in range(STEPS - 1, 0, -1):
        hours = settled.shift_s * n / STEPS / 3600.0
        change: tuple[Change, ...] = ()
        if day.stops is None and not day.work:
            op = "add" if day.shift_s is None else "replace"
            change = (Change(op, "/shift", f"{hours:.4g} h"),)
        text = f"{two_digits(hours)} h of work instead of {two_digits(settled.shift_s / 3600.0)} h"
        steps.append(_Try(settled.plan.shortened(n / STEPS), text, change))
    return [steps]


def _bring(settled: SettledDay, seed: int, draws: int) -> list[BreakEven]:
    """What is missing in one day of ten, brought from elsewhere."""
    outcome = evaluate(settled.plan, seed, draws)
    if rounded_j(outcome.at(UNPOWERED, 0.9)) > 0.0:
        return []  # more energy does not raise the power
    missing_j = -rounded_j(outcome.at(MARGIN, 0.1))
    if missing_j <= 0.0 or not settled.plan.limited:
        return []
    if settled.heat_j_per_m3 is not None:
        litres = missing_j / settled.heat_j_per_m3 * 1000.0
        return [BreakEven(f"{_up(litres)} l more fuel, filled in cold", "pass")]
    if settled.capacity_j is None:
        return [BreakEven(f"{_up(missing_j / KWH_J)} kWh more", "pass")]
    # on the way or at noon: what is brought counts only where the battery has room for it
    if missing_j > 0.8 * settled.capacity_j:
        return []
    return [BreakEven(f"charge {_up(missing_j / KWH_J)} kWh on the way or in a break", "pass")]


def _up(value: float) -> str:
    """Two digits, never less than the value."""
    said = two_digits(value)
    return said if float(said) >= value else two_digits(value * 1.05)
