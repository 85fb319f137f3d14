"""What does the engine make of a tool as it is written? Every member by name, figures in SI."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import UNSET, UnsetType

from ampwright.contract import tool_members as wire
from ampwright.contract.load_checks import ToolInUse
from ampwright.contract.quantities import (
    APPARENT_POWER,
    CURRENT,
    DURATION,
    POWER,
    VOLTAGE,
    QuantityFault,
)
from ampwright.contract.reading import Reading, given
from ampwright.contract.supply_text import UNREAD, read_supply
from ampwright.engine.site import source as site_source
from ampwright.engine.site import tool as site
from ampwright.engine.site.load_classes import LOAD_CLASS_NAMES
from ampwright.engine.standards.plugs import configuration


def read_tool(tool: wire.ToolMembers, reading: Reading, at: str, name: str = "") -> site.Tool:
    """The tool at `at`; `name` is its id where it is a document and no part of a request."""
    in_use = tool if isinstance(tool, ToolInUse) else None
    return site.Tool(
        id=in_use.id if in_use else name,
        pointer=reading.place(at),
        name=given(tool.name),
        load_class=reading.listed(
            tool.load_class, LOAD_CLASS_NAMES, f"{at}/load_class", "unknown_load_class", "load class"
        ),
        shaft_power_w=reading.band(tool.shaft_power, POWER, f"{at}/shaft_power"),
        supply_options=_options(tool.supply_options, reading, f"{at}/supply_options"),
        load_states=_states(tool.load_states, reading, f"{at}/load_states"),
        start=_start(tool.start, reading, f"{at}/start"),
        restart=_start(tool.restart, reading, f"{at}/restart"),
        switch=given(tool.switch),
        control=given(tool.control),
        restart_protection=given(tool.restart_protection),
        motor_protector=given(tool.motor_protector),
        operated=given(tool.operated),
        lowest_voltage_v=reading.band(tool.lowest_voltage, VOLTAGE, f"{at}/lowest_voltage"),
        sensitivity=given(tool.sensitivity),
        leakage_a=reading.band(tool.leakage, CURRENT, f"{at}/leakage", above_zero=False),
        insulation=given(tool.insulation),
        must_return=given(in_use.must_return) if in_use else None,
        follows=given(in_use.follows) if in_use else None,
        on_s=reading.band(in_use.on, DURATION, f"{at}/on") if in_use else None,
        off_s=reading.band(in_use.off, DURATION, f"{at}/off", above_zero=False) if in_use else None,
    )


def _options(
    options: Sequence[wire.SupplyOption] | UnsetType, reading: Reading, at: str
) -> tuple[site.SupplyOption, ...]:
    if options is UNSET:
        return ()
    taken = {option.id for option in options if option.id is not UNSET}
    return tuple(
        _option(option, reading, f"{at}/{place}", _free_id(place, taken)) for place, option in enumerate(options)
    )


def _free_id(place: int, taken: set[str]) -> str:
    name = f"option-{place + 1}"
    while name in taken:
        name += "-x"
    return name


def _option(option: wire.SupplyOption, reading: Reading, at: str, unnamed: str) -> site.SupplyOption:
    plug = reading.plug(option.plug, f"{at}/plug")
    return site.SupplyOption(
        id=unnamed if option.id is UNSET else option.id,
        pointer=reading.place(at),
        voltage=_voltage(option.voltage, plug, reading, f"{at}/voltage"),
        phases=given(option.phases),
        plug=plug,
        current_a=reading.band(option.current, CURRENT, f"{at}/current"),
        power_w=reading.band(option.power, POWER, f"{at}/power"),
        apparent_power_va=reading.band(option.apparent_power, APPARENT_POWER, f"{at}/apparent_power"),
        effective_current_a=reading.band(option.effective_current, CURRENT, f"{at}/effective_current"),
        output_a=reading.band(option.output, CURRENT, f"{at}/output"),
        load_states=_states(option.load_states, reading, f"{at}/load_states"),
        start=_start(option.start, reading, f"{at}/start"),
        restart=_start(option.restart, reading, f"{at}/restart"),
    )


def _voltage(text: str, plug: str | None, reading: Reading, at: str) -> site_source.SupplySystem:
    found = configuration(plug) if plug is not None else None
    takes_both = found is not None and found.connection == "L-L-N"
    if reading.full:
        return UNREAD
    try:
        return read_supply(text, of_tool=True, both_voltages=takes_both)
    except QuantityFault as error:
        reading.refuse(at, error)
        return UNREAD


def _states(states: Sequence[wire.LoadState] | UnsetType, reading: Reading, at: str) -> tuple[site.LoadState, ...]:
    if states is UNSET:
        return ()
    return tuple(_state(state, reading, f"{at}/{place}") for place, state in enumerate(states))


def _state(state: wire.LoadState, reading: Reading, at: str) -> site.LoadState:
    if state.power_factor is not UNSET and state.power_factor <= 0.0:
        # With a power factor of nought any power takes an endless current.
        reading.fault(f"{at}/power_factor", "not_above_zero", "A power factor must be above zero.")
    return site.LoadState(
        id=state.id,
        power_w=reading.band(state.power, POWER, f"{at}/power", above_zero=False),
        current_a=reading.band(state.current, CURRENT, f"{at}/current", above_zero=False),
        power_factor=given(state.power_factor),
        crest_factor=given(state.crest_factor),
        follows_voltage=given(state.follows_voltage),
        lasts_s=reading.band(state.lasts, DURATION, f"{at}/lasts"),
    )


def _start(start: wire.Start | UnsetType, reading: Reading, at: str) -> site.Start | None:
    if start is UNSET:
        return None
    kind = str(start.__struct_config__.tag)
    if isinstance(start, wire.InductionMotorStart):
        return site.Start(
            kind,
            motor=given(start.motor),
            code_letter=given(start.code_letter),
            locked_rotor_a=reading.band(start.locked_rotor, CURRENT, f"{at}/locked_rotor"),
            against=given(start.against),
            lasts_s=reading.band(start.lasts, DURATION, f"{at}/lasts"),
        )
    if isinstance(start, wire.UniversalMotorStart):
        return site.Start(
            kind,
            soft_start=given(start.soft_start),
            peak_a=reading.band(start.peak, CURRENT, f"{at}/peak"),
            lasts_s=reading.band(start.lasts, DURATION, f"{at}/lasts"),
        )
    if isinstance(start, wire.ElectronicMotorStart):
        return site.Start(
            kind,
            corrected=given(start.corrected),
            peak_a=reading.band(start.peak, CURRENT, f"{at}/peak"),
            lasts_s=reading.band(start.lasts, DURATION, f"{at}/lasts"),
        )
    if isinstance(start, wire.RectifierStart):
        return site.Start(
            kind, corrected=given(start.corrected), peak_a=reading.band(start.peak, CURRENT, f"{at}/peak")
        )
    if isinstance(start, wire.ResistiveStart):
        return site.Start(kind, cold_current_a=reading.band(start.cold_current, CURRENT, f"{at}/cold_current"))
    return site.Start(
        kind,
        peak_a=reading.band(start.peak, CURRENT, f"{at}/peak"),
        lasts_s=reading.band(start.lasts, DURATION, f"{at}/lasts"),
        at_v=reading.band(start.at, VOLTAGE, f"{at}/at"),
    )
