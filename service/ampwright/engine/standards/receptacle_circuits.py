"""What may stand on a circuit of this rating: receptacles, load on one of them, conductor?

These size the wiring of premises. They are no trip limit, and on a vehicle's or a set's outlet they apply only by
analogy: the maker's rating rules there. Which clause says so in which edition: rule_layers.py.
"""

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

_LOAD = "nfpa-70_2023_t210-21-b-2"
_RATING = "nfpa-70_2023_t210-21-b-3"
_CONDUCTOR = "nfpa-70_2023_t210-24"
CONTINUOUS_FACTOR = 1.25
"""[-] device and conductor over continuous load (3 h or more); NFPA 70 210.20(A). IEC has no such rule."""


def largest_continuous_load_a(rated_current_a: float) -> CitedValue:
    """[A] continuous load (3 h or more) alone on a device of this rated current [A]. Source: NFPA 70 210.20(A)."""
    return CitedValue(rated_current_a / CONTINUOUS_FACTOR, "nfpa-70_210-20", "verified")


def least_device_a(continuous_a: float, other_a: float) -> CitedValue:
    """[A] least device rating for a continuous and another load [A]. Source: NFPA 70 210.20(A)."""
    return CitedValue(CONTINUOUS_FACTOR * continuous_a + other_a, "nfpa-70_210-20", "verified")


def largest_load_on_receptacle_a(circuit_a: float, receptacle_a: float) -> CitedValue | OutsideTable:
    """[A] cord-and-plug load on one of several receptacles [A] of a circuit [A].

    Source: NFPA 70 table 210.21(B)(2), else OutsideTable.
    """
    row = table(_LOAD).find(circuit_a=f"{circuit_a:g}", receptacle_a=f"{receptacle_a:g}")
    if row is None:
        return OutsideTable(f"no row for a {receptacle_a:g} A receptacle on a {circuit_a:g} A circuit", _LOAD)
    return CitedValue(row.number("largest_load_a"), _LOAD, row.status)


def permitted_receptacles_a(circuit_a: float) -> tuple[CitedValue, ...]:
    """[A] receptacle ratings allowed on a circuit with several, rising; empty outside the table.

    Source: NFPA 70 table 210.21(B)(3). A single receptacle on its own circuit follows 210.21(B)(1) instead.
    """
    return tuple(
        CitedValue(row.number("receptacle_a"), _RATING, row.status)
        for row in table(_RATING)
        if row.number("circuit_a") == circuit_a
    )


def smallest_copper(circuit_a: float) -> tuple[str, str, str] | None:
    """(size key, citation, status) of the smallest building wire of a circuit [A], None outside.

    Source: NFPA 70 table 210.24(1).
    """
    row = table(_CONDUCTOR).find(circuit_a=f"{circuit_a:g}")
    return None if row is None else (row.text("smallest_copper"), _CONDUCTOR, row.status)
