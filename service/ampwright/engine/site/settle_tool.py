"""What does a tool draw in each load state, when only part of its plate is known?

Order of trust: a measured or stated load state, the plate's watts, volt-amperes or amps, the shaft power, and last the
kind of tool alone. A plate's amps bound the current; its watts leave the power factor open, so the high estimate takes
the lowest power factor of the class.
Source: engine/site/load_classes; efficiency of small motors 0.6-0.8 and the full plug are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.physics.welder_input import STICK, TIG, welder_input_band_w, welder_load_voltage_v
from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.load_classes import FOLLOWS_VOLTAGE, LOAD_CLASSES, LoadClass
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledState
from ampwright.engine.site.tool import LoadState, SupplyOption, Tool
from ampwright.engine.standards.plugs import configuration

SHAFT_EFFICIENCY = Band(0.6, 0.7, 0.8)
FULL_PLUG_A = {True: 15.0, False: 10.0}
# the stick line over 0.80 to 0.83 hits meters, of TIG welds too; common practice, no source
USUAL_WELD_EFFICIENCY = 0.815
LIGHT_LOAD_A = {True: 5.0, False: 2.5}
OVER_RANGE = Band(1.0, 1.15, 1.5)
LOWEST_VOLTAGE_RATIO, HIGHEST_VOLTAGE_RATIO = 0.9, 1.1  # of the plate; NEMA MG 1 12.44
ROOT_3 = 3.0**0.5
SHORT_PEAKS, SOME_PEAKS = 2.4, 1.7  # crest factors; a sine has 1.414
THIRD_OF_SHORT_PEAKS = 1.0 / ROOT_3  # three legs then make root three in the neutral
LEAST_POWER_FACTOR = 0.3  # a plate below it is misread; common practice, no source
STAYS_ON = ("positive_on_off", "momentary_lock_on", "always_on")


@dataclass(frozen=True, slots=True)
class Plate:
    """Plate of one supply option: active power [W] or apparent power [VA], with the power factor to go with it."""

    active_w: Band | None
    apparent_va: Band | None
    power_factor: Band


def class_of(tool: Tool, ledger: Ledger) -> LoadClass:
    """The load class, `other` where none is given."""
    if tool.load_class is not None:
        return LOAD_CLASSES[tool.load_class]
    ledger.assume("load_class", member_of(tool.pointer, "load_class"), "other", "other")
    return LOAD_CLASSES["other"]


def settle_states(
    tool: Tool, option: SupplyOption, load_class: LoadClass, plate_voltage_v: float, ledger: Ledger
) -> tuple[SettledState, ...]:
    """Working and heavy (and idle) as complex power at plate voltage, low, typical and high."""
    plate = _plate(tool, option, load_class, plate_voltage_v, ledger)
    return tuple(
        _state(name, tool, option, load_class, plate, plate_voltage_v, ledger) for name in ("idle", "working", "heavy")
    )


def _plate(tool: Tool, option: SupplyOption, load_class: LoadClass, plate_voltage_v: float, ledger: Ledger) -> Plate:
    root = ROOT_3 if option.is_three_phase else 1.0
    current = _over_range(option.current_a, member_of(option.pointer, "current"), ledger)
    volt_amps = [current.times(plate_voltage_v * root)] if current else []
    volt_amps += [option.apparent_power_va] if option.apparent_power_va else []
    # two figures of one thing: the larger draw is the safe side
    apparent = max(volt_amps, key=lambda band: band.typical, default=None)
    power = _over_range(option.power_w, member_of(option.pointer, "power"), ledger)
    if power is not None and apparent is not None:
        if LEAST_POWER_FACTOR <= power.typical / max(apparent.typical, 1e-9) <= 1.0:
            # both on the plate: they give the power factor at full load
            return Plate(power, apparent, Band.exactly(power.typical / apparent.typical))
        # they contradict each other (plate_rules.py tells it): the larger draw is the safe side
        if power.typical > apparent.typical:
            apparent = None
        else:
            power = None
    if power is None and apparent is None and option.output_a is not None:
        # a welder whose plate says only what it gives: conventional load voltages over usual efficiencies
        low = welder_input_band_w(TIG, option.output_a.low)[0]
        output = option.output_a.typical
        usual = welder_load_voltage_v(STICK, output) * output / USUAL_WELD_EFFICIENCY
        high = welder_input_band_w(TIG, option.output_a.high)[1]
        power = Band(low, usual, high)
        shown_w = f"{low:.0f}..{usual:.0f}..{high:.0f} W"
        ledger.assume("welder_input", member_of(option.pointer, "power"), power, shown_w)
    if power is None and apparent is None:
        if tool.shaft_power_w is not None:
            shaft = tool.shaft_power_w
            ledger.assume(
                "plate_from_shaft_power", member_of(tool.pointer, "supply_options"), shaft, "efficiency 0.6..0.8"
            )
            power = Band(
                shaft.low / SHAFT_EFFICIENCY.high,
                shaft.typical / SHAFT_EFFICIENCY.typical,
                shaft.high / SHAFT_EFFICIENCY.low,
            )
        elif not any(_stated(state) for state in (*option.load_states, *tool.load_states)):
            low_voltage = plate_voltage_v <= 150.0
            plug = configuration(option.plug) if option.plug else None
            full = plug.current_a if plug else FULL_PLUG_A[low_voltage]
            light = LIGHT_LOAD_A[low_voltage]
            amps = ledger.assume(
                "plate_unknown", member_of(tool.pointer, "supply_options"), full, f"{full:g} A", light, f"{light:g} A"
            )
            apparent = Band.exactly(amps * plate_voltage_v * root)
    return Plate(power, apparent, load_class.power_factor)


def _over_range(band: Band | None, pointer: str, ledger: Ledger) -> Band | None:
    """A reading over the meter's range becomes a band above it."""
    if band is None or not band.open_top:
        return band
    opened = Band(band.low * OVER_RANGE.low, band.low * OVER_RANGE.typical, band.low * OVER_RANGE.high)
    return ledger.assume("meter_over_range", pointer, opened, f"{opened.low:g}..{opened.high:g}")


def _stated(state: LoadState) -> bool:
    return state.power_w is not None or state.current_a is not None


def _state(
    name: str,
    tool: Tool,
    option: SupplyOption,
    load_class: LoadClass,
    plate: Plate,
    plate_voltage_v: float,
    ledger: Ledger,
) -> SettledState:
    given = next(
        (state for state in (*option.load_states, *tool.load_states) if state.id == name),
        LoadState(name),
    )
    where = member_of(tool.pointer, "load_states")
    if given.power_factor is not None:
        factor = Band.exactly(given.power_factor)
    else:
        factor = plate.power_factor
        if factor.low != factor.high:
            ledger.assume("power_factor", where, factor, f"{factor.low:g}..{factor.high:g}")
    root = ROOT_3 if option.is_three_phase else 1.0
    power = _over_range(given.power_w, where, ledger)
    current = _over_range(given.current_a, where, ledger)
    if power is not None and current is not None:
        # both stated: the current bounds the draw unless the watts alone ask for more
        drawn = current.times(plate_voltage_v * root)
        if drawn.typical >= power.typical > 0.0:
            active, apparent, factor = None, drawn, Band.exactly(power.typical / drawn.typical)
        else:
            active, apparent = power, None
    elif power is not None:
        active, apparent = power, None
    elif current is not None:
        active, apparent = None, current.times(plate_voltage_v * root)
    else:
        active, apparent = _from_plate(name, tool, option, load_class, plate, plate_voltage_v, where, ledger)
    if given.crest_factor is not None:
        crest = given.crest_factor
    else:
        crest = load_class.crest_factor
        ledger.assume("crest_factor", where, crest, f"{crest:g}")
    shares = FOLLOWS_VOLTAGE[given.follows_voltage or load_class.follows_voltage]
    lasts = given.lasts_s.typical if given.lasts_s else load_class.heavy_lasts_s
    return SettledState(
        name,
        _complex_power(active, apparent, factor),
        crest,
        shares[0],
        shares[1],
        lasts if name == "heavy" else 0.0,
        third_harmonic_ratio(crest),
    )


def third_harmonic_ratio(crest_factor: float) -> float:
    """[-] share of a load's RMS current that is third harmonic, by its crest factor.

    Rectifiers without correction draw short peaks; their third harmonics add up in a neutral, at most to root three
    times the line current, where the peaks of three legs do not overlap. Source: handbook limit, from memory; the step
    at which peaks are short is common practice, no source.
    """
    if crest_factor >= SHORT_PEAKS:
        return THIRD_OF_SHORT_PEAKS
    return 0.5 * THIRD_OF_SHORT_PEAKS if crest_factor >= SOME_PEAKS else 0.0


def _from_plate(
    name: str,
    tool: Tool,
    option: SupplyOption,
    load_class: LoadClass,
    plate: Plate,
    plate_voltage_v: float,
    where: str,
    ledger: Ledger,
) -> tuple[Band | None, Band | None]:
    """Active or apparent power of a state from the plate, or from another state where there is no plate."""
    ratios = {
        "idle": Band.exactly(load_class.idle_ratio),
        "working": load_class.working_ratio,
        "heavy": load_class.heavy_ratio,
    }
    ratio = ratios[name]
    if name != "idle":
        ledger.assume(f"{name}_load", where, ratio, f"{ratio.low:g}..{ratio.typical:g}..{ratio.high:g} of the plate")
    if plate.apparent_va is not None:
        return None, _scaled(plate.apparent_va, ratio)
    if plate.active_w is not None:
        return _scaled(plate.active_w, ratio), None
    # no plate, but another state is known: scale that
    for other in (*option.load_states, *tool.load_states):
        base = ratios[other.id].typical
        if base <= 0.0 or not _stated(other):
            continue
        scale = Band(ratio.low / base, ratio.typical / base, ratio.high / base)
        if other.power_w is not None:
            return _scaled(other.power_w, scale), None
        if other.current_a is not None:
            root = ROOT_3 if option.is_three_phase else 1.0
            volts = plate_voltage_v * root
            return None, _scaled(other.current_a, scale.times(volts))
    return Band.exactly(0.0), None


def _scaled(band: Band, ratio: Band) -> Band:
    return Band(band.low * ratio.low, band.typical * ratio.typical, band.high * ratio.high)


def _complex_power(active: Band | None, apparent: Band | None, factor: Band) -> tuple[complex, complex, complex]:
    """S = P + jQ for the three estimates.

    Known watts: the high estimate takes the lowest power factor, because that draws the most current. Known amps: the
    current is bound, and the high estimate takes the highest power factor, because that asks the most watts.
    """
    found: list[complex] = []
    for estimate in range(3):
        if active is not None:
            power = active.at(estimate)
            cosine = (factor.high, factor.typical, factor.low)[estimate]
            reactive = power * ((1.0 - cosine * cosine) ** 0.5) / cosine if cosine > 0.0 else 0.0
        else:
            volt_amps = apparent.at(estimate) if apparent is not None else 0.0
            cosine = factor.at(estimate)
            power, reactive = volt_amps * cosine, volt_amps * (1.0 - cosine * cosine) ** 0.5
        found.append(complex(power, reactive))
    return found[0], found[1], found[2]


def settle_lowest_voltage_v(tool: Tool, plate_voltage_v: float, ledger: Ledger) -> float:
    """[V] below which the tool is not promised to work: its own figure, else 90 % of its plate (NEMA MG 1, 12.44)."""
    if tool.lowest_voltage_v is not None:
        return tool.lowest_voltage_v.typical
    lowest = LOWEST_VOLTAGE_RATIO * plate_voltage_v
    return ledger.assume("lowest_voltage", member_of(tool.pointer, "lowest_voltage"), lowest, f"{lowest:g} V")


def settle_switch(tool: Tool, load_class: LoadClass, ledger: Ledger) -> tuple[bool, bool]:
    """Whether the switch stays on by itself, and whether the tool stays off when power returns."""
    if not load_class.hazard_on_restart:
        return tool.switch in STAYS_ON, bool(tool.restart_protection)
    if tool.switch is None:
        maintained = ledger.assume(
            "switch",
            member_of(tool.pointer, "switch"),
            True,
            "one that stays on",
            False,
            "constant pressure",
        )
    else:
        # a tool that can hurt and switches itself on again is no better than one that was left on
        maintained = tool.switch in (*STAYS_ON, "automatic")
    if tool.restart_protection is None and maintained:
        protected = ledger.assume(
            "restart_protection", member_of(tool.pointer, "restart_protection"), False, "none", True, "stays off"
        )
    else:
        protected = bool(tool.restart_protection)
    return maintained, protected
