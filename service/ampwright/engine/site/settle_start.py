"""What is switched on when a tool starts, as far as its profile, its plate and its kind tell?

Order of trust: a start of the supply option, a start of the tool, the kind of tool. What is left open goes through the
ledger on its harder side: head pressure where a compressor may have been vented, no soft start, the heavier code
letters. A `restart` (power came back in mid-run) is at least as hard as the start.
A measured peak stands for the locked-rotor current of a motor, or for the first current of anything else.

Source: NFPA 70 table 430.7(B) for code letters; kinds of motor, letters where a plate has none and what each kind of
tool starts against are common practice, no source.
Not here: circuits and torques (calculations/starts/start_models.py).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.tool import Start
from ampwright.engine.standards.code_letters import HORSEPOWER_W, code_letter

INDUCTION, UNIVERSAL, RECTIFIER, FILAMENT, ELECTRONIC = "induction", "universal", "rectifier", "filament", "electronic"
LOW_VOLTAGE_V = 150.0  # leg voltage of 60 Hz systems lies below, of 50 Hz systems above

# load class: kind of motor, what it starts against, what it restarts against when power went in mid-run
_BY_CLASS: dict[str, tuple[str, str, str]] = {
    "air_compressor": ("capacitor_start", "head_pressure", "head_pressure"),
    "refrigerator": ("split_phase", "vented", "head_pressure"),
    "pump": ("permanent_split", "pump", "pump"),
    "pressure_washer": ("capacitor_start", "pump", "pump"),
    "concrete_mixer": ("capacitor_start", "loaded_drum", "loaded_drum"),
    "stationary_saw": ("capacitor_start", "nothing", "nothing"),
    "fan": ("permanent_split", "fan", "fan"),
}
_ANY_MOTOR = ("capacitor_start", "loaded", "loaded")
# code letters where a plate has none: lightest, usual, heaviest start, by kind of motor and, for the usual kinds, hp
_LETTERS = {"permanent_split": ("F", "G", "J"), "three_phase": ("G", "J", "L")}
_LETTERS_BY_HP = ((0.75, ("J", "K", "L")), (2.0, ("H", "J", "K")), (float("inf"), ("G", "H", "J")))
# power factor times efficiency at full load, where shaft power must be read off volts and amperes
_SHAFT_PER_VA = 0.6


@dataclass(frozen=True, slots=True)
class SettledStart:
    """One start; what does not belong to its model is None or empty.

    model : induction, universal, rectifier, filament or electronic. voltage_v, current_a : of the plate, line to line
    and per line.
    motor : kind of induction motor. locked_rotor_a : measured, at plate voltage. locked_rotor_va_per_w : by letter.
    against : what the motor turns. soft_start : a series motor's. peak_a : first current at plate voltage; a crest for
    a rectifier. power_w : what it works with. run_up_s : of a motor with electronics.
    """

    model: str
    voltage_v: float
    phases: int
    frequency_hz: float
    current_a: float
    power_w: float
    motor: str = ""
    shaft_power_w: float = 0.0
    locked_rotor_a: Band | None = None
    locked_rotor_va_per_w: Band | None = None
    against: str = ""
    soft_start: bool = False
    corrected: bool = False
    peak_a: Band | None = None
    run_up_s: Band | None = None


def settle_starts(site: SettledSite, ledger: Ledger, *, again: bool = False) -> tuple[SettledStart | None, ...]:
    """The start of every placement, None where switching it on is nothing (heaters) or its kind is not known.

    again : the restart after power went in mid-run, instead of the start.
    """
    return tuple(_settle(site, placement, ledger, again) for placement in site.placements)


def start_is_open(site: SettledSite, placement: Placement, start: SettledStart | None) -> bool:
    """Whether a placement has a start that could fail and that nothing here can say anything of."""
    if placement.option is None:
        return False
    kind = _kind(placement, _given(placement, again=False))
    return kind != "resistive" if start is None else site.source.source.supply.kind == "dc"


def _given(placement: Placement, *, again: bool) -> Start | None:
    option = placement.option
    first = (option.start if option else None) or placement.tool.start
    if not again:
        return first
    return (option.restart if option else None) or placement.tool.restart or first


def _has_restart(placement: Placement) -> bool:
    option = placement.option
    return ((option.restart if option else None) or placement.tool.restart) is not None


def _kind(placement: Placement, start: Start | None) -> str:
    """Model by the start's own kind; a measured one is read by the kind of tool."""
    if start is not None and start.kind != "measured":
        return start.kind
    return placement.load_class.start


def _settle(site: SettledSite, placement: Placement, ledger: Ledger, again: bool) -> SettledStart | None:
    if placement.option is None or site.source.source.supply.kind == "dc":
        return None
    given = _given(placement, again=again)
    kind = _kind(placement, given)
    phases = 3 if len(placement.lines) == 3 else 1
    amps = _plate_a(placement, phases)
    watts = max(state.power_va[1].real for state in placement.states)
    frequency_hz = 60.0 if site.source.leg_voltage_v <= LOW_VOLTAGE_V else 50.0
    if site.source.source.supply.kind == "centre_tapped":
        frequency_hz = 50.0
    if amps <= 0.0 or watts <= 0.0:
        return None
    base = (placement.plate_voltage_v, phases, frequency_hz, amps, watts)
    peak = _peak_a(placement, given)
    if kind == "induction_motor":
        return _induction(placement, given, base, peak, again, ledger)
    if kind == "universal_motor":
        soft = given.soft_start if given is not None else None
        if soft is None:
            soft = ledger.assume(
                "soft_start", member_of(placement.tool.pointer, "start"), False, "none", True, "with a soft start"
            )
        return SettledStart(UNIVERSAL, *base, soft_start=soft, peak_a=peak)
    if kind == "electronic_motor":
        run_up = given.lasts_s if given is not None else None
        return SettledStart(ELECTRONIC, *base, corrected=bool(given and given.corrected), peak_a=peak, run_up_s=run_up)
    if kind == "rectifier":
        return SettledStart(RECTIFIER, *base, corrected=bool(given and given.corrected), peak_a=peak)
    cold = given.cold_current_a if given is not None else None
    if kind == "resistive" and (placement.load_class.name == "filament_light" or cold is not None):
        return SettledStart(FILAMENT, *base, peak_a=cold or peak)
    return None


def _plate_a(placement: Placement, phases: int) -> float:
    option = placement.option
    if option is not None and option.current_a is not None:
        return option.current_a.typical
    # without a plate current: what the heaviest state draws at its usual estimate
    volt_amperes = max(abs(state.power_va[1]) for state in placement.states)
    return volt_amperes / placement.plate_voltage_v / (3.0**0.5 if phases == 3 else 1.0)


def _peak_a(placement: Placement, given: Start | None) -> Band | None:
    if given is None or given.peak_a is None:
        return None
    return given.peak_a.times(placement.plate_voltage_v / given.at_v.typical) if given.at_v else given.peak_a


def _induction(
    placement: Placement,
    given: Start | None,
    base: tuple[float, int, float, float, float],
    peak: Band | None,
    again: bool,
    ledger: Ledger,
) -> SettledStart:
    volts, phases, _, amps, _ = base
    tool = placement.tool
    motor, against, harder = _BY_CLASS.get(placement.load_class.name, _ANY_MOTOR)
    stated_motor = given.motor if given is not None else None
    stated_against = given.against if given is not None else None
    if phases == 3:
        motor = "three_phase"
    elif stated_motor not in (None, "three_phase"):
        motor = str(stated_motor)
    if again and stated_against == "vented" and harder == "head_pressure" and not _has_restart(placement):
        # how it starts says nothing of a trip in mid-run, after which nothing was vented
        stated_against = None
    if stated_against is not None:
        against = stated_against
    elif again:
        against = harder
    elif against == "head_pressure":
        against = ledger.assume(
            "head_pressure",
            member_of(tool.pointer, "start"),
            against,
            "a full tank",
            "vented",
            "vented before each start",
        )
    if again and against == "vented" and stated_against is None:
        against = "head_pressure"
    root = 3.0**0.5 if phases == 3 else 1.0
    if tool.shaft_power_w is not None:
        shaft = tool.shaft_power_w.typical
    else:
        shaft = ledger.assume(
            "shaft_power", member_of(tool.pointer, "shaft_power"), _SHAFT_PER_VA * volts * amps * root,
            f"{_SHAFT_PER_VA * volts * amps * root:.0f} W",
        )  # fmt: skip
    locked = (given.locked_rotor_a if given is not None else None) or peak
    per_w = None
    if locked is None:
        letter = given.code_letter if given is not None else None
        if letter is not None:
            per_w = _letters((letter, letter, letter))
        else:
            names = _LETTERS.get(motor) or next(
                row for most_hp, row in _LETTERS_BY_HP if shaft / HORSEPOWER_W <= most_hp
            )
            band = _letters(names)
            per_w = ledger.assume(
                "start_current", member_of(tool.pointer, "start"), band, f"code letter {names[0]} to {names[2]}",
                _letters((names[0],) * 3), f"code letter {names[0]}",
            )  # fmt: skip
    return SettledStart(
        INDUCTION, *base, motor=motor, shaft_power_w=shaft, locked_rotor_a=locked, locked_rotor_va_per_w=per_w,
        against=against,
    )  # fmt: skip


def _letters(names: tuple[str, str, str]) -> Band:
    """[VA/W] from the low end of the first letter over the middle of the second to the high end of the third.

    The last letter has no high end in the table; 15 % above its low end is common practice, no source.
    """
    ends = []
    for name in names:
        found = code_letter(name)
        if found is None:
            raise ValueError(f"{name!r} is no code letter; validation refuses it before")
        ends.append((found.low_va_per_w, found.high_va_per_w or found.low_va_per_w * 1.15))
    return Band(ends[0][0], 0.5 * (ends[1][0] + ends[1][1]), ends[2][1])
