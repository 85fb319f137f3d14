"""Does a tool or a cord contradict itself?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ampwright.engine.site.cord import Cord
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.tool import LoadState, SupplyOption, Tool
from ampwright.engine.site.use import Fault


def tool_faults(tool: Tool) -> Iterator[Fault]:
    """Contradictions inside one tool."""
    seen: set[str] = set()
    for option in tool.supply_options:
        if option.id in seen:
            yield Fault(
                member_of(option.pointer, "id"), "repeated_id", f"There are two supply options {shown(option.id)}."
            )
        seen.add(option.id)
        yield from _phase_faults(option)
        yield from _state_faults(member_of(option.pointer, "load_states"), option.load_states)
    yield from _state_faults(member_of(tool.pointer, "load_states"), tool.load_states)
    options = tool.supply_options
    if options and all(option.voltage.kind == "dc" for option in options):
        yield from _start_faults(tool)
    for option in options:
        if option.voltage.kind == "dc":
            yield from _start_faults(option)


def _start_faults(part: Tool | SupplyOption) -> Iterator[Fault]:
    for member, start in (("start", part.start), ("restart", part.restart)):
        if start is not None and start.kind == "induction_motor":
            yield Fault(
                member_of(part.pointer, member, "kind"),
                "not_for_direct_current",
                "An induction motor does not run on direct current.",
            )


def _phase_faults(option: SupplyOption) -> Iterator[Fault]:
    at = member_of(option.pointer, "phases")
    kind = option.voltage.kind
    if kind == "three_phase" and option.phases == 1:
        yield Fault(
            at,
            "phases_contradict_voltage",
            f"{option.voltage.text} has three phases. A load between one leg and neutral takes "
            f"{option.voltage.leg_voltage_v:g} V.",
            "3",
        )
    if kind in ("split_phase", "centre_tapped") and option.phases == 3:
        yield Fault(at, "phases_contradict_voltage", f"{option.voltage.text} has no three phases.", "1")
    if kind == "dc" and option.phases is not None:
        yield Fault(at, "not_for_direct_current", "Direct current has no phases.")


def _state_faults(pointer: str, states: Sequence[LoadState]) -> Iterator[Fault]:
    seen: set[str] = set()
    for place, state in enumerate(states):
        if state.id in seen:
            yield Fault(member_of(pointer, place, "id"), "repeated_id", f"The load state {state.id} stands twice.")
        seen.add(state.id)


def cord_faults(cord: Cord) -> Iterator[Fault]:
    """Contradictions inside one cord."""
    if cord.drum_layers is not None and cord.laid != "drum":
        says = f"laid {cord.laid}" if cord.laid else "not said to be on a drum"
        yield Fault(
            member_of(cord.pointer, "drum_layers"),
            "drum_layers_without_drum",
            f"The cord is {says}, and a drum has layers. Write laid: drum, or leave the layers out.",
        )
