"""Which cord do the trade's and the standards' extension tables name for this load and length?

Rules, not calculations: they are shown beside a calculated answer, never instead of it.
"""

from dataclasses import dataclass

from ampwright.engine.standards.conductor_sizes import METRE_PER_KFT
from ampwright.engine.standards.cord_ratings import ampacity_a
from ampwright.engine.standards.loader import CitedValue, OutsideTable, Row, table

_CHARGER = "ul-1236_min-extension"
_TOOL = "tool-cord-guidance_five-volt"
_FOOT_M = METRE_PER_KFT / 1000.0


@dataclass(frozen=True, slots=True)
class GuidedSize:
    """A conductor size key that a table names, with where it stands and how sure its row is.

    carries : whether NFPA 70 table 400.5(A)(1) allows the current asked for on it. UL 1236 names 16 AWG up to 16 A,
    which carries 13 A: such a size is shown, never recommended.
    """

    size: str
    carries: bool
    citation: str
    status: str


def charger_extension(input_current_a: float, length_m: float) -> GuidedSize | OutsideTable:
    """Smallest extension cord of a battery charger with this AC input current [A], for a length [m] (next printed one).

    Source: UL 1236 instruction text. Beyond 20 A or 150 ft: OutsideTable.
    """
    for row in table(_CHARGER):
        within = row.number("input_from_a") <= input_current_a < row.number("input_below_a")
        if within and length_m <= row.number("length_ft") * _FOOT_M + 0.01:
            return _guided(row, input_current_a)
    return OutsideTable(f"UL 1236 has no cord for {input_current_a:g} A and {length_m:.1f} m", _CHARGER)


def tool_extension(nameplate_current_a: float, length_m: float) -> GuidedSize | OutsideTable:
    """Smallest extension cord of a portable tool with this plate current [A], for a length [m] (next printed one).

    Its rule is 5 V lost at 150 % of the plate, with copper at 25 C: warm copper loses up to a fifth more.
    Source: portable-tool cord guidance. Beyond 20 A or its longest column: OutsideTable.
    """
    for row in table(_TOOL):
        # Bands are printed to a tenth of an ampere: what lies between two belongs to the upper.
        above_a = row.number("nameplate_from_a") - 0.1
        within = above_a < nameplate_current_a <= row.number("nameplate_to_a")
        if within and length_m <= row.number("length_ft") * _FOOT_M + 0.01:
            return _guided(row, nameplate_current_a)
    return OutsideTable(f"the table has no cord for {nameplate_current_a:g} A and {length_m:.1f} m", _TOOL)


def _guided(row: Row, current_a: float) -> GuidedSize:
    size = row.text("conductor")
    allowed = ampacity_a(size, 2)
    carries = isinstance(allowed, CitedValue) and current_a <= allowed.value
    return GuidedSize(size, carries, row.citation, row.status)
