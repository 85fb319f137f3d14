"""Where would a careful person plug everything in, at a glance and without planning?

For calculations that need some connections where none were given (comparisons, kit validations): tools with the fewest
ways first, then the largest, each into the outlet whose circuit is then loaded least, through a spare cord only where
that is better by more than the cord is trouble. Nothing is left out because a circuit gets too much: the load check of
the result says that. Left out is what no free outlet takes. It costs a settling of every tool at every kind of outlet
and no network; equal sites have equal connections. A plan proper (outlet_plan.py) is never worse and says why.
"""

from __future__ import annotations

from ampwright.engine.calculations.outlet_plan_building import model_of
from ampwright.engine.calculations.outlet_plan_connections import connections_of, plugged
from ampwright.engine.calculations.outlet_plan_model import Choice, PlanModel, counts_hold
from ampwright.engine.calculations.outlet_plan_question import PlanQuestion
from ampwright.engine.calculations.outlet_plan_slots import slots_of
from ampwright.engine.site.use import Connection, Site

SPREAD = 1000.0  # what a full circuit weighs against the cost of cords


def plug_in(site: Site) -> tuple[Connection, ...] | None:
    """Connections for a sound site; its own where it has them, None where its source lists no receptacles.

    None leaves it to the load check, which assumes one receptacle. Tools that nothing takes are not in it.
    """
    if site.connections is not None:
        return site.connections
    if site.source.receptacles is None:
        return None
    question = PlanQuestion(site)
    slots = slots_of(question, with_unfit=True)
    return connections_of(site, slots, plugged(slots, _choice(model_of(question, slots))))


def _choice(model: PlanModel) -> Choice:
    tools = range(len(model.weights))
    largest = [
        max((model.loads[t, s][1] for s in model.allowed[t] if (t, s) in model.loads), default=0.0) for t in tools
    ]
    order = sorted(tools, key=lambda t: (len(model.allowed[t]), -largest[t], t))
    found: list[int | None] = [None] * len(model.weights)
    reserved = _cords_needed(model)
    # what the receptacles kept for shared cords left out is tried again without keeping any
    for kept in (reserved, frozenset[int]()):
        for t in order:
            if found[t] is None:
                found[t] = _best(model, found, t, kept)
    return tuple(found)


def _cords_needed(model: PlanModel) -> frozenset[int]:
    """Shared cords without which there are fewer outlets than tools, those of most outlets first."""
    outlets, wanted = sum(model.plugs), sum(bool(slots) for slots in model.allowed)
    found: list[int] = []
    for m in sorted(range(len(model.shared)), key=lambda m: (-model.shared[m].outlets, m)):
        if outlets >= wanted:
            break
        found.append(m)
        outlets += model.shared[m].outlets - 1
    return frozenset(found)


def _best(model: PlanModel, found: list[int | None], t: int, kept: frozenset[int]) -> int | None:
    """The slot of a tool that loads its circuit least, given where the others are; None where none is free."""
    loaded: dict[int, float] = {}
    mounted: set[int] = set()
    for other, s in enumerate(found):
        if s is None:
            continue
        circuit, share = _load(model, other, s)
        loaded[circuit] = loaded.get(circuit, 0.0) + share
        mounted |= {m for m in (model.uses[s].shared,) if m is not None}
    single = sum(s is not None and model.uses[s].shared is None for s in found)
    best: tuple[float, int] | None = None
    for s in sorted(model.allowed[t]):
        use = model.uses[s]
        plugs = single + len(mounted | ({use.shared} if use.shared is not None else set())) + (use.shared is None)
        to_come = kept - mounted - {use.shared}
        if plugs + len(to_come) > sum(model.plugs) and use.shared not in mounted:
            continue
        if not _fits(model, (*found[:t], s, *found[t + 1 :])):
            continue
        circuit, share = _load(model, t, s)
        there = SPREAD * (loaded.get(circuit, 0.0) + share) + model.allowed[t][s]
        if use.shared is not None and use.shared not in mounted:
            there += model.shared_costs[use.shared]
        if best is None or (there, s) < best:
            best = there, s
    return None if best is None else best[1]


def _load(model: PlanModel, t: int, s: int) -> tuple[int, float]:
    circuit, share, _ = model.loads.get((t, s), (model.circuit_of[model.uses[s].place], 0.0, 0.0))
    return circuit, share


def _fits(model: PlanModel, choice: Choice) -> bool:
    """Plugs, cords and outlets; who belongs together and where lights go does not keep a plug out here."""
    bare = PlanModel(
        model.weights, model.uses, model.allowed, model.plugs, model.singles, model.shared, model.shared_costs,
        model.circuit_of, (), (), positions=model.positions,
    )  # fmt: skip
    return counts_hold(bare, choice)
