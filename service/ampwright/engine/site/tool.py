"""What is known of a tool? None means: not known."""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.source import SupplySystem


@dataclass(frozen=True, slots=True)
class LoadState:
    """A running condition: idle, working or heavy."""

    id: str
    power_w: Band | None = None
    current_a: Band | None = None
    power_factor: float | None = None
    crest_factor: float | None = None
    follows_voltage: str | None = None
    lasts_s: Band | None = None


@dataclass(frozen=True, slots=True)
class Start:
    """kind: induction_motor, universal_motor, electronic_motor, rectifier, resistive or measured.

    Members that do not apply are None.
    """

    kind: str
    motor: str | None = None
    code_letter: str | None = None
    locked_rotor_a: Band | None = None
    against: str | None = None
    soft_start: bool | None = None
    corrected: bool | None = None
    cold_current_a: Band | None = None
    peak_a: Band | None = None
    lasts_s: Band | None = None
    at_v: Band | None = None


@dataclass(frozen=True, slots=True)
class SupplyOption:
    """One way to feed the tool, as its plate says. A start of its own goes before the tool's."""

    id: str
    pointer: str
    voltage: SupplySystem
    phases: int | None = None
    plug: str | None = None
    current_a: Band | None = None
    power_w: Band | None = None
    apparent_power_va: Band | None = None
    effective_current_a: Band | None = None
    output_a: Band | None = None
    load_states: tuple[LoadState, ...] = ()
    start: Start | None = None
    restart: Start | None = None

    @property
    def is_three_phase(self) -> bool:
        """By its phases, or by a plate that names both voltages of a three-phase system."""
        return self.phases == 3 or self.voltage.kind == "three_phase"


@dataclass(frozen=True, slots=True)
class Tool:
    id: str
    pointer: str
    name: str | None = None
    load_class: str | None = None
    shaft_power_w: Band | None = None
    supply_options: tuple[SupplyOption, ...] = ()
    load_states: tuple[LoadState, ...] = ()
    start: Start | None = None
    restart: Start | None = None
    switch: str | None = None
    control: str | None = None
    restart_protection: bool | None = None
    motor_protector: str | None = None
    operated: str | None = None
    lowest_voltage_v: Band | None = None
    sensitivity: str | None = None
    leakage_a: Band | None = None
    insulation: str | None = None
    must_return: bool | None = None
    follows: str | None = None
    on_s: Band | None = None
    off_s: Band | None = None
