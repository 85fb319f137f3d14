"""What runs during the day, and how much of the time?

A tool's mean draw is its working power times the share of the time that it runs. What work must be done decides the
energy of the tool that does it, whatever its duty; every other tool goes by its on and off times, by a stated share, by
the air that is asked of it, or by the usual share for its kind and the crew's work.
Source: common practice, no source (site/work_units.py), but for refrigerators (US DOE) and pumps (weight of water).
"""

from __future__ import annotations

import math
from dataclasses import replace

from ampwright.engine.calculations.energy.energy_plan import Load, PlanBuilder
from ampwright.engine.calculations.energy.energy_source import band_of, inverse, percent, shown, spread
from ampwright.engine.physics.compressor_duty import running_ratio
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import CompressedAir, Duty, EnergyDay, Pack, Work
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.load_classes import LoadClass
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle import plate_voltage_v
from ampwright.engine.site.settle_tool import class_of, settle_states
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.tool import SupplyOption, Tool
from ampwright.engine.site.use import Site
from ampwright.engine.site.work_units import (
    AIR_PER_NAIL_M3,
    HEAD_M,
    PACK_EFFICIENCY,
    PACK_FROM,
    PACK_J,
    PUMP_EFFICIENCY,
    RUNNING_ATTENDED,
    RUNNING_BY_ITSELF,
    UNKNOWN_PATTERN,
    WORK_PATTERNS,
    WORK_UNITS,
)
from ampwright.engine.standards.load_power_guides import refrigerator_run_ratio

HOUR_S = 3600.0
WATER_N_PER_M3 = 9806.65  # weight of a m3 of cold water
ATMOSPHERE_PA = 101_325.0
# --- common practice, no source ---
TANK_M3, CUT_IN_PA, CUT_OUT_PA = 0.024, 6.5e5, 8.5e5
DELIVERY_M3_PER_S = Band(0.0009, 0.0013, 0.0021)  # 1.9 to 4.5 cfm at pressure
USE_M3_PER_S = Band(0.0001, 0.0004, 0.0012)
STANDBY_W = 5.0  # a load in standby that is worth a line of its own


class Loads:
    """Loads of a day: tools and work, each with its figures in the plan."""

    def __init__(
        self,
        site: Site,
        day: EnergyDay,
        builder: PlanBuilder,
        ledger: Ledger,
        blocked: frozenset[str] = frozenset(),
        most_w: float = math.inf,
    ) -> None:
        """blocked : tools that the source cannot run; most_w : [W] above which it can run none."""
        self.site, self.day, self.builder, self.ledger = site, day, builder, ledger
        self.blocked = blocked  # tools that this source cannot run: asked for, never fed, not done
        self.classes: dict[str, LoadClass] = {}
        self.power_w: dict[str, Band] = {}
        self.standby_w: dict[str, float] = {}
        self.pace_s: dict[str, Band] = {}  # by work id, time of a unit for one person
        self.found: list[Load] = []
        self.rates: list[float] = []  # how much of a load runs at every stop where it runs
        self.running: list[tuple[str, ...]] = []  # ids of tools of which one must be there
        self.one = builder.add("one", Band.exactly(1.0))
        for tool in site.tools:
            self._settle(tool)
        self.too_strong = tuple(tool.id for tool in site.tools if self.power_w[tool.id].typical > most_w)
        self.blocked |= frozenset(self.too_strong)
        self.tool_of: dict[str, str | None] = {work.id: self._tool_of(work) for work in day.work}
        busy = {tool for tool in self.tool_of.values() if tool is not None}
        self.busy = busy
        for tool in site.tools:
            if tool.id not in busy:
                self._run(tool)
            self._standby(tool)

    def _settle(self, tool: Tool) -> None:
        load_class = class_of(tool, self.ledger)
        supply = self.site.source.supply
        volts = supply.leg_voltage_v
        own = SupplySystem(f"{volts:g} V", "dc" if supply.kind == "dc" else "single", volts, (0.0,))
        options = tool.supply_options or (SupplyOption("assumed", member_of(tool.pointer, "supply_options"), own),)
        option = next((item for item in options if item.voltage.leg_voltage_v == volts), options[0])
        states = settle_states(tool, option, load_class, plate_voltage_v(option), self.ledger)
        by_id = {state.id: state for state in states}
        low, typical, high = (value.real for value in by_id["working"].power_va)
        self.classes[tool.id] = load_class
        self.power_w[tool.id] = Band(low, typical, high)
        self.standby_w[tool.id] = by_id["idle"].power_va[1].real if load_class.start == "rectifier" else 0.0

    def _power(self, tool: Tool) -> int:
        key = f"working_load:{member_of(tool.pointer, 'load_states')}"
        assumed = key if any(item.key == key for item in self.ledger.assumptions) else None
        return self.builder.add(f"power:{tool.id}", self.power_w[tool.id], None, assumed)

    def _add(self, load: Load, rate: float, running: tuple[str, ...]) -> None:
        does_it = self.tool_of.get(load.name, load.name)
        self.found.append(replace(load, able=load.able and does_it not in self.blocked))
        self.rates.append(rate)
        self.running.append(running)

    # --- tools

    def _run(self, tool: Tool) -> None:
        if tool.follows is not None and tool.follows in self.busy:
            self._follow_work(tool, tool.follows)
            return
        time = self._running(self._leader(tool))
        self._add(Load(tool.id, "tool", self._power(tool), time, tool.pointer), 1.0, (tool.id,))

    def _leader(self, tool: Tool) -> Tool:
        seen = {tool.id}
        here = tool
        while here.follows is not None and here.follows not in seen:
            following = next((item for item in self.site.tools if item.id == here.follows), None)
            if following is None:
                break
            here = following
            seen.add(here.id)
        return here

    def _follow_work(self, tool: Tool, leader: str) -> None:
        """A tool slaved to one that does counted work runs while that one works."""
        for work in self.day.work:
            if self.tool_of[work.id] == leader:
                energy = self._energy_each(work)
                rate = work.amount / self.power_w[leader].typical if self.power_w[leader].typical > 0.0 else 0.0
                load = Load(tool.id, "tool", self._power(tool), energy, tool.pointer, leader not in self.blocked)
                self._add(load, rate, (work.id,))

    def _standby(self, tool: Tool) -> None:
        """What a charger or welder draws while it does not work, by the typical share of the time."""
        if self.standby_w[tool.id] < STANDBY_W:
            return
        key = f"running:{tool.id}"
        off = 1.0 - (self.builder.figures[self.builder.places[key]].band.typical if key in self.builder.places else 0.3)
        standby = self.builder.add(f"standby:{tool.id}", Band.exactly(self.standby_w[tool.id]))
        self._add(Load(tool.id, "standby", standby, self.one, tool.pointer), off, (tool.id,))

    def _running(self, tool: Tool) -> int:
        """Place of the share of the time that a tool runs."""
        key = f"running:{tool.id}"
        stated = next((item for item in self.day.duties if item.tool == tool.id), None)
        if stated is not None and stated.running_ratio is not None:
            return self.builder.share(key, stated.running_ratio)
        if stated is not None and stated.air is not None:
            return self._by_air(key, stated, stated.air)
        if tool.on_s is not None:
            off = tool.off_s or Band.exactly(0.0)
            on = tool.on_s
            return self.builder.share(
                key,
                Band(
                    on.low / (on.low + off.high), on.typical / (on.typical + off.typical), on.high / (on.high + off.low)
                ),
            )
        where = member_of(tool.pointer, "on")
        code, band = "running_time", self._usual(tool)
        if self.classes[tool.id].name == "refrigerator":
            third = refrigerator_run_ratio().value
            code, band = "refrigerator_running", Band(0.6 * third, third, 1.8 * third)
        self.ledger.assume(code, where, band, percent(band))
        return self.builder.share(key, band, f"{code}:{where}")

    def _usual(self, tool: Tool) -> Band:
        load_class = self.classes[tool.id]
        operated = tool.operated or load_class.operated
        if load_class.name in RUNNING_BY_ITSELF and operated != "by_hand":
            return RUNNING_BY_ITSELF[load_class.name]
        if operated == "attended":
            return RUNNING_ATTENDED
        if operated == "by_itself":
            return Band(0.3, 0.8, 1.0)
        pattern = WORK_PATTERNS[self.day.pattern] if self.day.pattern else UNKNOWN_PATTERN
        by_hand = sum(
            (item.operated or self.classes[item.id].operated) == "by_hand" and item.id not in self.busy
            for item in self.site.tools
        )
        each = (self.site.people or 1) / max(by_hand, 1)
        return band_of([min(pattern.running.at(i) * each, 1.0) for i in range(3)])

    def _by_air(self, key: str, duty: Duty, air: CompressedAir) -> int:
        band = compressor_running(air)
        whole = air.delivery_m3_per_s is not None and (air.use_m3_per_s is not None or air.nails_per_s is not None)
        if whole:
            return self.builder.share(key, band)
        self.ledger.assume("air_use", duty.pointer, band, percent(band))
        return self.builder.share(key, band, f"air_use:{duty.pointer}")

    # --- work

    def _tool_of(self, work: Work) -> str | None:
        if work.tool is not None:
            return work.tool
        kinds = WORK_UNITS[work.unit].load_classes
        fitting = [tool for tool in self.site.tools if tool.load_class in kinds]
        if len(fitting) != 1:
            return None
        return self.ledger.assume("work_tool", member_of(work.pointer, "tool"), fitting[0].id, fitting[0].id)

    def add_work(self) -> None:
        """Every counted work as a load of so many units, evenly over the time at its stops."""
        for work in self.day.work:
            energy = self._energy_each(work)
            self._add(Load(work.id, "work", energy, self.one, work.pointer), work.amount, (work.id,))
            unit = WORK_UNITS[work.unit]
            if unit.pace_s is not None:
                where = member_of(work.pointer, "unit")
                self.ledger.assume("work_pace", where, unit.pace_s, shown(unit.pace_s, "s each"))
                self.pace_s[work.id] = self._rested(work, energy, unit.pace_s)

    def _rested(self, work: Work, energy: int, pace: Band) -> Band:
        """[s] of one unit, with the rest that the duty cycle of the tool's plate asks for."""
        tool = self.tool_of[work.id]
        share = self.in_ten_minutes(work, pace)
        rated = next((duty.rated_ratio for duty in self.day.duties if duty.tool == tool), None)
        if share is None or not rated:
            return pace
        each, power = self.builder.figures[energy].band, self.power_w[tool or ""]
        least = [each.at(i) / (power.typical * rated) for i in range(3)]
        return band_of([max(pace.at(i), least[i]) for i in range(3)])

    def in_ten_minutes(self, work: Work, pace: Band | None = None) -> Band | None:
        """[-] share of the time that the tool runs while somebody works without a pause; None where nobody does.

        Ten minutes hold several units or a part of one, so this is what the duty cycle of a plate is held against.
        """
        tool = self.tool_of[work.id]
        pace = pace or WORK_UNITS[work.unit].pace_s
        if tool is None or pace is None or self.power_w[tool].typical <= 0.0:
            return None
        each = self.builder.figures[self.builder.places[f"each:{work.id}"]].band
        if each.low <= 0.0:
            return None
        power = self.power_w[tool]
        found = spread(each.typical / (power.typical * pace.typical), each, inverse(power), inverse(pace))
        return band_of([min(found.at(i), 1.0) for i in range(3)])

    def _energy_each(self, work: Work) -> int:
        """Place of the energy of one unit [J]."""
        key = f"each:{work.id}"
        if key in self.builder.places:
            return self.builder.places[key]
        if work.energy_each_j is not None:
            return self.builder.add(key, work.energy_each_j)
        unit = WORK_UNITS[work.unit]
        where = member_of(work.pointer, "energy_each")
        if unit.needs == "head":
            code, where, band = "pump_head", member_of(work.pointer, "head"), litre_j(work.head_m)
        elif unit.needs == "pack":
            code, where, band = "pack_charging", member_of(work.pointer, "pack"), pack_j(work.pack or Pack())
        elif unit.needs == "power" and self.tool_of[work.id] is not None:
            tool = next(item for item in self.site.tools if item.id == self.tool_of[work.id])
            return self.builder.add(
                key, self.power_w[tool.id].times(HOUR_S), None, self.builder.figures[self._power(tool)].assumption
            )
        else:
            assert unit.energy_j is not None
            code, band = "work_energy", unit.energy_j
        self.ledger.assume(code, where, band, shown(band, "Wh each", HOUR_S))
        return self.builder.add(key, band, None, f"{code}:{where}")


def litre_j(head_m: Band | None) -> Band:
    """[J] of outlet energy to lift a litre of water: weight times head over efficiency."""
    head = head_m or HEAD_M
    lift = WATER_N_PER_M3 * 1e-3
    return spread(lift * head.typical / PUMP_EFFICIENCY.typical, head, inverse(PUMP_EFFICIENCY))


def pack_j(pack: Pack) -> Band:
    """[J] of outlet energy to charge a pack: what goes in over the efficiency of charging."""
    capacity = pack.capacity_j or PACK_J
    start = pack.from_ratio or PACK_FROM
    target = pack.to_ratio or Band.exactly(1.0)
    rise = band_of([max(target.at(i) - start.at(2 - i), 0.01) for i in range(3)])
    return spread(capacity.typical * rise.typical / PACK_EFFICIENCY.typical, capacity, rise, inverse(PACK_EFFICIENCY))


def compressor_running(air: CompressedAir) -> Band:
    """[-] share of the time that a compressor runs: low use at high delivery, and the other way round."""
    delivery = air.delivery_m3_per_s or DELIVERY_M3_PER_S
    use = air.use_m3_per_s
    if use is None and air.nails_per_s is not None:
        use = spread(air.nails_per_s.typical * AIR_PER_NAIL_M3.typical, AIR_PER_NAIL_M3, air.nails_per_s)
    use = use or USE_M3_PER_S
    tank = air.tank_m3 or TANK_M3
    low_pa, high_pa = air.cut_in_pa or CUT_IN_PA, air.cut_out_pa or CUT_OUT_PA
    found = [running_ratio(tank, low_pa, high_pa, delivery.at(2 - i), 0.0, use.at(i), ATMOSPHERE_PA) for i in range(3)]
    return band_of([min(max(value, 0.0), 1.0) if math.isfinite(value) else 1.0 for value in found])
