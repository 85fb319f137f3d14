"""What would a crew change or find out of a tool, and how is that written so that the request can be posted again?

What is known of a tool's start lies with the supply option where that has one of its own, else with the tool; an edit
goes where the start is read from. A weld is turned down by what it then takes from the outlet.
Not here: edits of cords, cases and places (site_edits.py), of the source (source_edits.py).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_result import Change
from ampwright.engine.calculations.reverse.site_edits import band_text, members_set
from ampwright.engine.site.band import Band
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.settled import Placement
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.tool import LoadState, Start, SupplyOption, Tool
from ampwright.engine.site.use import Site

LOAD_STATES = ("working", "heavy")


def tool_of(site: Site, name: str) -> Tool:
    return next(item for item in site.tools if item.id == name)


def _listed(site: Site) -> bool:
    return any(item.pointer.startswith("/tools/") for item in site.tools)


def _with_tool(site: Site, tool: Tool) -> Site:
    return replace(site, tools=tuple(tool if item.id == tool.id else item for item in site.tools))


@dataclass(frozen=True, slots=True)
class ToolStated:
    """Plain members of one tool: switch, restart_protection, insulation, must_return."""

    tool: str
    text: str
    switch: str | None = None
    restart_protection: bool | None = None
    insulation: str | None = None
    must_return: bool | None = None

    def _said(self) -> dict[str, object]:
        every = {
            "switch": self.switch,
            "restart_protection": self.restart_protection,
            "insulation": self.insulation,
            "must_return": self.must_return,
        }
        return {name: value for name, value in every.items() if value is not None}

    def site(self, site: Site) -> Site:
        tool = tool_of(site, self.tool)
        return _with_tool(
            site,
            replace(
                tool,
                switch=self.switch if self.switch is not None else tool.switch,
                restart_protection=(
                    self.restart_protection if self.restart_protection is not None else tool.restart_protection
                ),
                insulation=self.insulation if self.insulation is not None else tool.insulation,
                must_return=self.must_return if self.must_return is not None else tool.must_return,
            ),
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        return members_set(tool_of(site, self.tool).pointer, "/tools", _listed(site), self.tool, self._said())


@dataclass(frozen=True, slots=True)
class StartStated:
    """What is known of a tool's start: what it turns, its code letter, whether it starts softly.

    option : id of the supply option whose own start is meant, None for the tool's.
    """

    tool: str
    text: str
    kind: str
    option: str | None = None
    against: str | None = None
    code_letter: str | None = None
    soft_start: bool | None = None

    def _said(self) -> dict[str, object]:
        every = {"against": self.against, "code_letter": self.code_letter, "soft_start": self.soft_start}
        return {name: value for name, value in every.items() if value is not None}

    def _stated(self, start: Start | None) -> Start:
        known = start if start is not None else Start(self.kind)
        return replace(
            known,
            against=self.against or known.against,
            code_letter=self.code_letter or known.code_letter,
            soft_start=self.soft_start if self.soft_start is not None else known.soft_start,
        )

    def site(self, site: Site) -> Site:
        tool = tool_of(site, self.tool)
        if self.option is None:
            return _with_tool(site, replace(tool, start=self._stated(tool.start)))
        options = tuple(
            replace(option, start=self._stated(option.start)) if option.id == self.option else option
            for option in tool.supply_options
        )
        return _with_tool(site, replace(tool, supply_options=options))

    def changes(self, site: Site) -> tuple[Change, ...]:
        tool = tool_of(site, self.tool)
        said = self._said()
        part: Tool | SupplyOption = tool
        if self.option is not None:
            part = next(item for item in tool.supply_options if item.id == self.option)
        # a start is one of several kinds, so it is written whole: part of it may lie in a catalogue document
        whole = {"kind": self.kind, **_start_written(part.start), **said}
        if self.option is not None:
            return (Change("add", f"{part.pointer}/start", whole),)
        return members_set(tool.pointer, "/tools", _listed(site), self.tool, {"start": whole})


def start_edit(site: Site, placement: Placement, kind: str, text: str, **members: object) -> StartStated | None:
    """The edit of the start that a placement is read from; None where the request cannot say it in place.

    kind : induction_motor or universal_motor. members : against, code_letter or soft_start.
    """
    tool = tool_of(site, placement.tool.id)
    option = placement.option
    own = option.start if option is not None else None
    start = own or tool.start
    if start is not None and start.kind != kind:
        return None
    if own is not None and option is not None:
        if is_from_reference(option.pointer):
            return None
        return StartStated(tool.id, text, kind, option.id, **members)  # type: ignore[arg-type]
    return StartStated(tool.id, text, kind, None, **members)  # type: ignore[arg-type]


def _start_written(start: Start | None) -> dict[str, object]:
    if start is None:
        return {}
    bands = (
        ("locked_rotor", start.locked_rotor_a, "A"),
        ("peak", start.peak_a, "A"),
        ("lasts", start.lasts_s, "s"),
    )
    every = {
        "motor": start.motor,
        "code_letter": start.code_letter,
        "against": start.against,
        "soft_start": start.soft_start,
        **{name: band_text(band, unit) for name, band, unit in bands if band is not None},
    }
    return {name: value for name, value in every.items() if value is not None}


@dataclass(frozen=True, slots=True)
class PlateCurrent:
    """Amperes of a plate that nobody read: of one supply option, or of a first one where there is none."""

    tool: str
    text: str
    current_a: float
    voltage_v: float
    option: str | None = None

    def site(self, site: Site) -> Site:
        tool = tool_of(site, self.tool)
        amps = Band.exactly(self.current_a)
        if self.option is None:
            system = SupplySystem(f"{self.voltage_v:g} V", "single", self.voltage_v, (0.0,))
            only = SupplyOption("option-1", f"{tool.pointer}/supply_options/0", system, current_a=amps)
            return _with_tool(site, replace(tool, supply_options=(only,)))
        options = tuple(
            replace(option, current_a=amps) if option.id == self.option else option for option in tool.supply_options
        )
        return _with_tool(site, replace(tool, supply_options=options))

    def changes(self, site: Site) -> tuple[Change, ...]:
        tool = tool_of(site, self.tool)
        amps = f"{self.current_a:g} A"
        if self.option is None:
            options = [{"voltage": f"{self.voltage_v:g} V", "current": amps}]
            return members_set(tool.pointer, "/tools", _listed(site), self.tool, {"supply_options": options})
        option = next(item for item in tool.supply_options if item.id == self.option)
        return (Change("add", f"{option.pointer}/current", amps),)


@dataclass(frozen=True, slots=True)
class WeldAtMost:
    """A welder turned down: what its working and heavy states take from the outlet then.

    current_a : the same in amperes, for states that were said in them. option : whose own load states are meant.
    """

    tool: str
    text: str
    power_w: Band
    current_a: Band
    option: str | None = None

    def _states(self, states: tuple[LoadState, ...]) -> tuple[LoadState, ...]:
        kept = {state.id: state for state in states}
        for name in LOAD_STATES:
            known = kept.get(name, LoadState(name))
            in_amps = known.current_a is not None
            kept[name] = replace(
                known,
                power_w=None if in_amps and known.power_w is None else self.power_w,
                current_a=self.current_a if in_amps else None,
            )
        return tuple(kept.values())

    def site(self, site: Site) -> Site:
        tool = tool_of(site, self.tool)
        if self.option is None:
            return _with_tool(site, replace(tool, load_states=self._states(tool.load_states)))
        options = tuple(
            replace(option, load_states=self._states(option.load_states)) if option.id == self.option else option
            for option in tool.supply_options
        )
        return _with_tool(site, replace(tool, supply_options=options))

    def changes(self, site: Site) -> tuple[Change, ...]:
        tool = tool_of(site, self.tool)
        part: Tool | SupplyOption = tool
        if self.option is not None:
            part = next(item for item in tool.supply_options if item.id == self.option)
        # the list is written whole: part of it may lie in a catalogue document
        written = [_state_written(state) for state in self._states(part.load_states)]
        if self.option is not None:
            return (Change("add", f"{part.pointer}/load_states", written),)
        return members_set(tool.pointer, "/tools", _listed(site), self.tool, {"load_states": written})


def _state_written(state: LoadState) -> dict[str, object]:
    bands = (("power", state.power_w, "W"), ("current", state.current_a, "A"), ("lasts", state.lasts_s, "s"))
    every = {
        "id": state.id,
        "power_factor": state.power_factor,
        "crest_factor": state.crest_factor,
        "follows_voltage": state.follows_voltage,
        **{name: band_text(band, unit) for name, band, unit in bands if band is not None},
    }
    return {name: value for name, value in every.items() if value is not None}
