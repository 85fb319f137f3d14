"""How do slots, draws, people, groups and rules become the plain model that is solved?

Every plan is counted on the safe side: what the load check assumes, the model assumes. A tool that follows another is
on and off with it. Costs say what a careful person avoids: a joint between two cords, a cord, a long one, one circuit
loaded while another is idle; they are weights of common practice, no source, and never outweigh a tool that is on.
"""

from __future__ import annotations

import cmath
from dataclasses import replace

from ampwright.engine.calculations.outlet_plan.outlet_plan_model import (
    Bound,
    PlanModel,
    RunningTogether,
    SharedCord,
    SlotUse,
)
from ampwright.engine.calculations.outlet_plan.outlet_plan_question import PlanQuestion
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Draw, Slots, run_of
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.site.load_classes import LOAD_CLASSES
from ampwright.engine.site.settled import SettledCircuit, SettledLimit
from ampwright.engine.site.source import NEUTRAL
from ampwright.engine.site.tool import Tool
from ampwright.engine.standards.rule_layers import clauses

JOINT, CORD = 10_000, 100  # of two cords in series; of a cord that has to be laid out; a metre of it costs 1
LIGHTS = ("led_light", "filament_light")
Parts = dict[tuple[int, int], tuple[complex, ...]]


def model_of(question: PlanQuestion, slots: Slots) -> PlanModel:
    """The model of a question whose slots are known."""
    site = question.site
    uses = tuple(SlotUse(slot.place, slot.singles, slot.shared) for slot in slots.slots)
    allowed = tuple({n: _cost(slots, n) for n in draws} for draws in slots.draws)
    lights, others = _apart(question)
    return PlanModel(
        weights_of(question),
        uses,
        allowed,
        tuple(len(members) for members in slots.places),
        tuple(len(members) for members in slots.singles),
        tuple(SharedCord(_outlets(question, index)) for index in slots.shared),
        tuple(CORD + _metres(slots, index) for index in slots.shared),
        tuple(slots.source.receptacles[members[0]].circuit for members in slots.places),
        (*_circuits(slots), *_limits(slots), *_shared_cords(slots)),
        running_of_site(question),
        together_of(question),
        lights,
        others,
        tuple(question.wish(tool.id).position for tool in site.tools),
        _loads(slots),
        _same(question),
    )


def weights_of(question: PlanQuestion) -> tuple[int, ...]:
    """One tool of a priority outweighs all tools of the priorities after it."""
    priorities = [question.priority(tool.id) for tool in question.site.tools]
    weight, by_priority = 1, dict[int, int]()
    for priority in sorted(set(priorities), reverse=True):
        by_priority[priority] = weight
        weight *= 1 + priorities.count(priority)
    return tuple(by_priority[priority] for priority in priorities)


def together_of(question: PlanQuestion) -> tuple[tuple[int, ...], ...]:
    """Tools that are all on or all off: groups, and whoever follows another. Groups that share a tool are one."""
    index = {tool.id: t for t, tool in enumerate(question.site.tools)}
    sets = [{index[name] for name in group.tools} for group in question.groups]
    sets += [{t, index[tool.follows]} for t, tool in enumerate(question.site.tools) if tool.follows is not None]
    merged: list[set[int]] = []
    for some in sets:
        apart = [other for other in merged if not other & some]
        merged = [*apart, some.union(*(other for other in merged if other & some))]
    return tuple(sorted(tuple(sorted(some)) for some in merged if len(some) > 1))


def running_of_site(question: PlanQuestion) -> tuple[RunningTogether, ...]:
    """The sets that must hold: the cases asked for, else all that the people can run; and every group at once."""
    tools = question.site.tools
    index = {tool.id: t for t, tool in enumerate(tools)}
    if question.site.cases is not None:
        found = [RunningTogether(frozenset(index[name] for name in case.running)) for case in question.site.cases]
        # whatever else the cases say, each tool is asked for alone
        found += [RunningTogether(frozenset({t})) for t in range(len(tools))]
    else:
        by_hand = frozenset(t for t, tool in enumerate(tools) if _by_hand(tool))
        always = frozenset(range(len(tools))) - by_hand
        found = [RunningTogether(always, by_hand, question.site.people or 1)]
    found += [RunningTogether(frozenset(index[name] for name in group.tools)) for group in question.groups]
    return tuple(dict.fromkeys(found))


def _same(question: PlanQuestion) -> tuple[tuple[int, ...], ...]:
    """Tools alike in everything, named by no wish, group, case or other tool."""
    site = question.site
    named = {name for group in question.groups for name in group.tools}
    named |= {name for case in site.cases or () for name in case.running}
    named |= {wish.tool for wish in question.wishes} | {tool.follows for tool in site.tools if tool.follows}
    named |= {tool.id for tool in site.tools if tool.follows}
    found: dict[object, list[int]] = {}
    for t, tool in enumerate(site.tools):
        if tool.id not in named:
            options = tuple(replace(option, pointer="") for option in tool.supply_options)
            found.setdefault(replace(tool, id="", pointer="", name=None, supply_options=options), []).append(t)
    return tuple(tuple(members) for members in found.values() if len(members) > 1)


def _by_hand(tool: Tool) -> bool:
    return (tool.operated or LOAD_CLASSES[tool.load_class or "other"].operated) == "by_hand"


def _apart(question: PlanQuestion) -> tuple[frozenset[int], frozenset[int]]:
    """Lights and other tools, where a rule layer keeps them on circuits of their own."""
    if not clauses("lights_and_receptacles", deciding_layers(question.site)):
        return frozenset(), frozenset()
    lights = frozenset(t for t, tool in enumerate(question.site.tools) if tool.load_class in LIGHTS)
    return lights, frozenset(range(len(question.site.tools))) - lights


def _cost(slots: Slots, n: int) -> int:
    slot = slots.slots[n]
    run = run_of(slots, slot)
    joints = JOINT * max(0, len(run) - 1)
    # a shared cord is paid for once, whoever hangs on it
    own = run if slot.shared is None else run[:-1]
    return joints + sum(CORD + _metres(slots, index) for index in own)


def _metres(slots: Slots, index: int) -> int:
    return round(min(cord.length_m.typical for (i, _), cord in slots.cords.items() if i == index))


def _outlets(question: PlanQuestion, index: int) -> int:
    outlets = question.site.cords[index].outlets
    return outlets.count if outlets is not None and outlets.count is not None else 1


def _of_places(slots: Slots, circuits: set[int]) -> list[tuple[tuple[int, int], Draw]]:
    return [
        ((t, n), draw)
        for t, draws in enumerate(slots.draws)
        for n, draw in sorted(draws.items())
        if slots.source.receptacles[slots.places[slots.slots[n].place][0]].circuit in circuits
    ]


def _circuits(slots: Slots) -> list[Bound]:
    found: list[Bound] = []
    for c, circuit in enumerate(slots.source.circuits):
        behind = _of_places(slots, {c})
        for leg in circuit.legs:
            parts: Parts = {pair: (draw.line_a[leg],) for pair, draw in behind if draw.line_a[leg] != 0j}
            if parts:
                found.append(Bound("circuit", c, _rating(circuit), parts))
    return found


def _rating(circuit: SettledCircuit) -> float:
    return circuit.rating_a


def _limits(slots: Slots) -> list[Bound]:
    """VA is the sum over legs, A the largest leg, W the real power: as the load check reads an output rating."""
    found: list[Bound] = []
    for i, limit in enumerate(slots.source.limits):
        behind = _of_places(slots, set(limit.circuits))
        for parts, real in _limit_parts(slots, limit, behind):
            if parts:
                found.append(Bound("limit", i, limit.continuous, parts, real))
    return found


def _limit_parts(
    slots: Slots, limit: SettledLimit, behind: list[tuple[tuple[int, int], Draw]]
) -> list[tuple[Parts, bool]]:
    legs = limit.legs
    if limit.unit == "A":
        return [({pair: (draw.line_a[leg],) for pair, draw in behind if draw.line_a[leg] != 0j}, False) for leg in legs]
    volts = [slots.source.leg_voltage_v * cmath.exp(1j * angle) for angle in slots.source.leg_angles_rad]
    powers: Parts = {}
    for pair, draw in behind:
        each = tuple(volts[leg] * draw.line_a[leg].conjugate() for leg in legs)
        if any(value != 0j for value in each):
            powers[pair] = (sum(each),) if limit.unit == "W" else each
    return [(powers, limit.unit == "W")]


def _shared_cords(slots: Slots) -> list[Bound]:
    """Each leg of a cord with several outlets, held to the least of the cord and the receptacle behind it."""
    found: list[Bound] = []
    for m in range(len(slots.shared)):
        for n, slot in enumerate(slots.slots):
            if slot.shared != m:
                continue
            receptacle = slots.source.receptacles[slots.places[slot.place][0]]
            limit = min([slots.cord(i, slot.place).capacity_a for i in run_of(slots, slot)])
            limit = min(limit, receptacle.rating_a)
            here = {(t, n): draws[n] for t, draws in enumerate(slots.draws) if n in draws}
            for leg in range(NEUTRAL):
                parts: Parts = {pair: (draw.line_a[leg],) for pair, draw in here.items() if draw.line_a[leg] != 0j}
                if parts:
                    found.append(Bound("cord", slots.shared[m], limit, parts))
    return found


def _loads(slots: Slots) -> dict[tuple[int, int], tuple[int, float, float]]:
    found: dict[tuple[int, int], tuple[int, float, float]] = {}
    for t, draws in enumerate(slots.draws):
        for n, draw in draws.items():
            circuit = slots.source.receptacles[slots.places[slots.slots[n].place][0]].circuit
            rating = slots.source.circuits[circuit].rating_a
            if rating > 0.0:
                found[t, n] = (circuit, draw.typical_a / rating, draw.high_a / rating)
    return found
