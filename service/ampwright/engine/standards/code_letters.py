"""How much current does a motor with this code letter draw with its rotor locked?

Not here: the design ceilings of table 430.251 (motor_currents.py), which are six times a table current and more than
any motor draws; do not mix the two.
"""

from dataclasses import dataclass

from ampwright.engine.standards.loader import table

HORSEPOWER_W = 745.699871582
"""[W] mechanical horsepower, 550 ft lbf/s."""
_KEY = "nfpa-70_2023_t430-7-b"


@dataclass(frozen=True, slots=True)
class CodeLetter:
    """Locked-rotor apparent power per shaft power.

    letter : as on the plate. low_va_per_w, high_va_per_w : [VA/W]; high is None for V, which has no upper end.
    low_kva_per_hp, high_kva_per_hp : the same as printed.
    """

    letter: str
    low_kva_per_hp: float
    high_kva_per_hp: float | None
    citation: str
    status: str

    @property
    def low_va_per_w(self) -> float:
        """[VA/W] lower end."""
        return self.low_kva_per_hp * 1000.0 / HORSEPOWER_W

    @property
    def high_va_per_w(self) -> float | None:
        """[VA/W] upper end, None without one."""
        return None if self.high_kva_per_hp is None else self.high_kva_per_hp * 1000.0 / HORSEPOWER_W


def code_letters() -> tuple[str, ...]:
    """All code letters, lightest start first. Source: NFPA 70 table 430.7(B)."""
    return tuple(row.text("code_letter") for row in table(_KEY))


def code_letter(letter: str) -> CodeLetter | None:
    """The range of a code letter, None for any other. Source: NFPA 70 table 430.7(B)."""
    row = table(_KEY).find(code_letter=letter)
    if row is None:
        return None
    return CodeLetter(letter, row.number("from_kva_per_hp"), row.number_or_none("to_kva_per_hp"), _KEY, row.status)


def locked_rotor_current_a(letter: str, shaft_power_w: float, voltage_v: float) -> tuple[float, float | None] | None:
    """[A] least and most locked-rotor current of a single-phase motor at full voltage.

    letter : code letter. shaft_power_w : [W] rated. voltage_v : [V] rated. None for an unknown letter.
    Source: NFPA 70 table 430.7(B); current is apparent power over voltage.
    """
    found = code_letter(letter)
    if found is None:
        return None
    most = found.high_va_per_w
    return (
        found.low_va_per_w * shaft_power_w / voltage_v,
        None if most is None else most * shaft_power_w / voltage_v,
    )
