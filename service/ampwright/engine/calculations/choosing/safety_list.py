"""What of a fleet's kits and sources should somebody look at before anyone is hurt, whatever job they go to?

Three questions, asked of every source and of every kit on every source: does power come back by itself on tools that
stay switched on, is ground-fault protection known at every receptacle, is it known where an engine runs? No network is
solved and nothing is plugged in: a tool counts wherever its kit may be taken. What nobody said counts as it does in a
load check: an unknown reset as one that comes back by itself, an unknown switch as one that stays on.
Texts and clauses are those of the load check's findings.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.rules.ground_fault_code import NEEDS_NONE
from ampwright.engine.calculations.rules.place_rules import EXHAUST_STAYS
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.settle_tool import class_of, settle_switch
from ampwright.engine.site.source import PowerSource
from ampwright.engine.site.tool import Tool
from ampwright.engine.standards.citations import Basis, basis
from ampwright.engine.standards.rule_layers import clauses

SAFETY_CODES = (
    "restart_without_warning",
    "ground_fault_protection_unknown",
    "exhaust_near_people",
    "exhaust_place_unknown",
)


@dataclass(frozen=True, slots=True)
class SafetyLine:
    """One thing to look at. parts : tools or receptacles concerned. stated : whether all behind it was said, and none
    of it assumed; ask : how to find out what was not. basis : clauses and citations, by id."""

    code: str
    severity: str
    parts: tuple[str, ...]
    pointers: tuple[str, ...]
    stated: bool
    text: str
    what_to_do: str
    ask: str | None
    basis: tuple[Basis, ...]


def source_lines(
    source: PowerSource, place: str | None, place_pointer: str, layers: Sequence[str]
) -> tuple[SafetyLine, ...]:
    """What of one source should be looked at, whatever is plugged in.

    source : sound. place : where it will run, None where nobody said; place_pointer : the member that says so.
    layers : rule layers that were asked for.
    Errors: ValueError for a layer that is none.
    """
    return (*_ground_fault(source, layers), *_exhaust(source, place, place_pointer, layers))


def pair_lines(source: PowerSource, tools: Sequence[Tool], layers: Sequence[str]) -> tuple[SafetyLine, ...]:
    """What of one kit on one source should be looked at. Errors: ValueError for a layer that is none."""
    reset = settle_source(source, Ledger()).reset
    if reset is not None and reset.how != "automatic":
        return ()
    stay_on: list[tuple[Tool, bool]] = []
    for tool in tools:
        ledger = Ledger()
        load_class = class_of(tool, ledger)
        maintained, protected = settle_switch(tool, load_class, ledger)
        if load_class.hazard_on_restart and maintained and not protected:
            stay_on.append((tool, not ledger.assumptions))
    if not stay_on:
        return ()
    stated = reset is not None and all(said for _, said in stay_on)
    if reset is None:
        asked = "reset"
    else:
        unsaid = next((tool for tool, said in stay_on if not said), None)
        asked = "switch" if unsaid is not None and unsaid.switch is None else "restart_protection"
    names = tuple(tool.id for tool, _ in stay_on)
    return (
        _line(
            "restart_without_warning",
            names,
            tuple(member_of(tool.pointer, "switch") for tool, _ in stay_on),
            stated,
            layers,
            None if stated else asked,
        ),
    )


def _ground_fault(source: PowerSource, layers: Sequence[str]) -> Iterator[SafetyLine]:
    if source.supply.kind in NEEDS_NONE:
        return
    settled = settle_source(source, Ledger())
    unknown = [one for one in settled.receptacles if one.ground_fault is None]
    if unknown:
        yield _line(
            "ground_fault_protection_unknown",
            tuple(one.id for one in unknown),
            tuple(member_of(one.pointer, "ground_fault") for one in unknown),
            False,
            layers,
            "ground_fault",
        )


def _exhaust(source: PowerSource, place: str | None, place_pointer: str, layers: Sequence[str]) -> Iterator[SafetyLine]:
    if source.kind != "engine_generator":
        return
    name = source.name or "the source"
    if place is None:
        yield _line("exhaust_place_unknown", (name,), (place_pointer,), False, layers, "place")
    elif place in EXHAUST_STAYS:
        yield _line("exhaust_near_people", (name,), (place_pointer,), True, layers, None, EXHAUST_STAYS[place])


def _line(
    code: str,
    parts: tuple[str, ...],
    pointers: tuple[str, ...],
    stated: bool,
    layers: Sequence[str],
    asks: str | None,
    value_text: str = "",
) -> SafetyLine:
    found = FINDING_CODES[code]
    asked = tuple(one for rule in found.rules for one in clauses(rule, tuple(layers)))
    # a whole document stands in only where no clause of a layer asked for does
    keys = [key for key in found.basis if not (asked and key.startswith("clauses_"))]
    words = {"subject": _any_of(parts), "value_text": value_text, "limit_text": "", "value": "", "limit": ""}
    severity = "caution" if found.severity == "danger" and not stated else found.severity
    return SafetyLine(
        code,
        severity,
        parts,
        pointers,
        stated,
        found.text.format(**words),
        found.what_to_do.format(**words),
        None if asks is None else ASSUMPTION_CODES[asks].how_to_find_out,
        (*(basis(key) for key in keys), *(one.basis() for one in asked)),
    )


def _any_of(names: tuple[str, ...]) -> str:
    """`a, b or c`: what is said of a list holds of each in it."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
