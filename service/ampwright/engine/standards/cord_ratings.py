"""What current may this cord carry, by its mark, its ends, its conductors and the place it lies in?

A cord's capacity is the least of these; each is one function here, so that an answer can say which one decided.
Not here: how warm the copper really gets (physics), what a plug is rated for beyond its amperes (plugs.py).
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ampwright.engine.standards.conductor_sizes import METRE_PER_KFT
from ampwright.engine.standards.loader import CitedValue, OutsideTable, table
from ampwright.engine.standards.plugs import configuration

UNMARKED_INSULATION_C = 60.0
"""[C] what a cord without a temperature mark is treated as; two public texts on UL listing practice."""

_FOOT_M = METRE_PER_KFT / 1000.0
_MARKS = "ul-817_marked"
_NEC_CORD = "nfpa-70_2023_t400-5-a-1"
_NEC_COUNT = "nfpa-70_2023_t400-5-a-3"
_NEC_AMBIENT = "nfpa-70_2023_t310-15-b-1"
_BS_CORD = "bs-7671_2018_t4f3a"
_BS_LARGE_CORD = "bs-7671_2018_t4f1a"
_BS_AMBIENT = "bs-7671_2018_t4f3a-ambient"
_BS_DROP = "bs-7671_2018_t4f3b"
_CORD_TYPES = ("nfpa-70_t400-4", "en-50525")
_WOUND = {"din-vde": "din-vde-0298-4_wound", "icea": "icea-s-75-381_wound"}


def marked_rating_a(size: str, length_m: float, ends_a: float = 15.0) -> CitedValue | OutsideTable:
    """[A] what a listed cord set of this size and length [m] is marked, given the rating of its ends [A].

    Source: UL 817 (20 A and 30 A ends from memory). Metric cords carry no such mark (OutsideTable): their ends and
    ampacity decide.
    """
    # A tape measure and a printed "50 ft" must agree, whatever the rounding of metres.
    length_ft = length_m / _FOOT_M - 0.05
    for row in table(_MARKS):
        longest_ft = row.number_or_none("length_to_ft")
        same = row.text("conductor") == size and row.number("ends_a") == ends_a
        if same and (longest_ft is None or length_ft <= longest_ft):
            return CitedValue(row.number("marked_a"), _MARKS, row.status)
    return OutsideTable(f"UL 817 marks no cord set of {size} with {ends_a:g} A ends", _MARKS)


def end_rating_a(designation: str) -> CitedValue | OutsideTable:
    """[A] what the plug or connector at one end of a cord is rated. Source: see plugs.py; unknown: OutsideTable."""
    found = configuration(designation)
    if found is None:
        return OutsideTable(f"no plug or receptacle is called {designation}", "nema-wd-6")
    return CitedValue(found.current_a, found.citation, found.status)


def ampacity_a(
    size: str, loaded_conductors: int, basis: Literal["nfpa-70", "bs-7671"] | None = None
) -> CitedValue | OutsideTable:
    """[A] what the conductors of a cord may carry at 30 C ambient, laid out straight.

    size : "12 AWG" or "2.5 mm2". loaded_conductors : 2 (one phase, the neutral carries the same current) or more; a
    neutral that carries only the difference of two opposite legs is not counted. basis : which table; by default the
    one that lists the size.
    Source: NFPA 70 tables 400.5(A)(1) and (A)(3); BS 7671 table 4F3A, from 6 mm2 table
    4F1A (memory). Outside the tables: OutsideTable.
    """
    if loaded_conductors < 2:
        raise ValueError(f"loaded_conductors is {loaded_conductors}; a circuit has at least 2")
    british = basis == "bs-7671" or (basis is None and size.endswith("mm2"))
    if british:
        phases = "1" if loaded_conductors == 2 else "3"
        for key in (_BS_CORD, _BS_LARGE_CORD):
            row = table(key).find(conductor=size, phases=phases)
            if row is not None and loaded_conductors <= 3:
                return CitedValue(row.number("ampacity_a"), key, row.status)
        return OutsideTable(f"tables 4F3A and 4F1A have no {size} with {loaded_conductors} loaded conductors", _BS_CORD)
    row = table(_NEC_CORD).find(conductor=size, loaded_conductors="2" if loaded_conductors == 2 else "3")
    if row is None:
        return OutsideTable(f"table 400.5(A)(1) has no {size}", _NEC_CORD)
    if loaded_conductors <= 3:
        return CitedValue(row.number("ampacity_a"), _NEC_CORD, row.status)
    factor = conductor_count_factor(loaded_conductors)
    return CitedValue(row.number("ampacity_a") * factor.value, factor.citation, row.status)


def conductor_count_factor(loaded_conductors: int) -> CitedValue:
    """[-] factor on the value for three loaded conductors, 1 up to three. Source: NFPA 70 table 400.5(A)(3)."""
    for row in table(_NEC_COUNT):
        most = row.number_or_none("conductors_to")
        if row.number("conductors_from") <= loaded_conductors and (most is None or loaded_conductors <= most):
            return CitedValue(row.number("factor"), _NEC_COUNT, row.status)
    return CitedValue(1.0, _NEC_COUNT, "verified")


def ambient_factor(
    ambient_c: float,
    insulation_c: float = UNMARKED_INSULATION_C,
    basis: Literal["nfpa-70", "bs-7671"] = "nfpa-70",
) -> CitedValue | OutsideTable:
    """[-] factor on the 30 C ampacity for an ambient [C] and the temperature rating [C] of the insulation.

    Above 1 in the cold by NFPA 70; BS 7671 grants nothing below 30 C. The step that holds the ambient is taken, as
    printed. Hotter than the last step: OutsideTable, no current is allowed.
    Source: NFPA 70 table 310.15(B)(1); BS 7671 table 4F3A.
    """
    key, rating, steps = _ambient_steps(basis, insulation_c)
    if not steps:
        return OutsideTable(f"no cord is rated {insulation_c:g} C in this table", key)
    if basis == "bs-7671" and ambient_c <= (30.0 if rating == 60.0 else 50.0):
        return CitedValue(1.0, key, "verified")
    for to_c, factor in steps:
        if ambient_c <= to_c:
            return factor
    return OutsideTable(f"no current is allowed at {ambient_c:g} C ambient for a {rating:g} C cord", key)


@lru_cache(maxsize=256)
def _ambient_steps(basis: str, insulation_c: float) -> tuple[str, float, tuple[tuple[float, CitedValue], ...]]:
    key, column, ratings = (
        (_BS_AMBIENT, "ambient_c", (90.0, 60.0))
        if basis == "bs-7671"
        else (_NEC_AMBIENT, "ambient_to_c", (90.0, 75.0, 60.0))
    )
    # A rating between two columns may not use the hotter one; 105 C uses the 90 C column.
    rating = next((rating for rating in ratings if insulation_c >= rating), 0.0)
    steps = tuple(
        (row.number(column), CitedValue(row.number("factor"), key, row.status))
        for row in table(key)
        if row.number("insulation_c") == rating
    )
    return key, rating, steps


def wound_factor(layers: int, basis: Literal["din-vde", "icea"] = "din-vde") -> CitedValue | OutsideTable:
    """[-] factor on the ampacity of a cord wound on a drum in `layers`. Both tables are from memory, and weak.

    Source: DIN VDE 0298-4; ICEA S-75-381. More layers than the table has: OutsideTable.
    """
    key = _WOUND[basis]
    row = table(key).find(layers=str(layers))
    if row is None:
        return OutsideTable(f"no factor for {layers} layers on a drum", key)
    return CitedValue(row.number("factor"), key, row.status)


def smallest_cord_by_fuse(fuse_a: float) -> CitedValue | OutsideTable:
    """[m2] smallest conductor of the cord behind a BS 1363 plug fuse [A]. Source: UK guidance; else OutsideTable."""
    row = table("bs-1363_flex").find(fuse_a=f"{fuse_a:g}")
    if row is None:
        return OutsideTable(f"no guidance for a {fuse_a:g} A plug fuse", "bs-1363_flex")
    return CitedValue(float(row.text("conductor").removesuffix(" mm2")) * 1e-6, "bs-1363_flex", row.status)


def drop_ohm_per_m_60c(size: str, phases: Literal[1, 3] = 1) -> CitedValue | OutsideTable:
    """[V/(A m)] voltage lost per ampere and metre one way at 60 C. Source: BS 7671 table 4F3B; else OutsideTable."""
    row = table(_BS_DROP).find(conductor=size, phases=str(phases))
    if row is None:
        return OutsideTable(f"table 4F3B has no {size} with {phases} phases", _BS_DROP)
    return CitedValue(row.number("drop_mv_per_a_m") / 1000.0, _BS_DROP, row.status)


@dataclass(frozen=True, slots=True)
class CordType:
    """What the designation on a jacket promises.

    usage : light, ordinary, hard, heavy or extra hard. outdoor : weather resistant. rated_v : [V].
    site_hard_usage : rated for hard or extra hard usage, what a construction site needs (heavy counts as such).
    """

    name: str
    usage: str
    outdoor: bool
    insulation: str
    rated_v: float
    citation: str
    status: str

    @property
    def site_hard_usage(self) -> bool:
        """Whether it is rated for hard or extra hard usage (29 CFR 1926.405(a)(2)(ii)(J); H07 types elsewhere)."""
        return self.usage in ("hard", "extra hard", "heavy")


def cord_type(name: str) -> CordType | None:
    """The cord type with this designation, None when there is none (offer `cord_types()`).

    Source: NFPA 70 table 400.4, EN 50525; from memory.
    """
    for key in _CORD_TYPES:
        row = table(key).find(type=name)
        if row is not None:
            return CordType(
                name,
                row.text("usage"),
                row.text("outdoor") == "yes",
                row.text("insulation"),
                row.number("rated_v"),
                key,
                row.status,
            )
    return None


def cord_types() -> tuple[str, ...]:
    """All designations, in the order of the tables. Source: NFPA 70 table 400.4, EN 50525; from memory."""
    return tuple(row.text("type") for key in _CORD_TYPES for row in table(key))
