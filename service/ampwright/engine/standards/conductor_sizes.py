"""How thick is a conductor of this size, and what is its resistance?

A size is a key as it is printed on a jacket: "12 AWG" or "2.5 mm2". Cord conductors are stranded: their resistance is
that of NFPA 70 chapter 9 table 8 (stranded, uncoated, brought from 75 C to 20 C with the table's own coefficient) or of
IEC 60228 class 5. Gauges between the table's (17, 15, 13 ... AWG) follow from area, IACS copper and 2 % lay.
Not here: what current a conductor may carry (cord_ratings.py).
"""

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

METRE_PER_KFT = 304.8
"""[m] 1000 ft; exact (international foot)."""
SQUARE_METRE_PER_CMIL = 5.067074790974977e-10
"""[m2] circle of 0.001 in; pi/4 x (25.4e-6 m)^2."""
COPPER_RESISTIVITY_20C_OHM_M = 1.7241e-8
"""[ohm m] IEC 60028, 100 % IACS at 20 C."""
COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K = 0.00393
"""[1/K] IEC 60028, 20 C."""
ALUMINIUM_RESISTIVITY_20C_OHM_M = 2.8264e-8
"""[ohm m] IEC 60889, 61 % IACS at 20 C."""
ALUMINIUM_TEMPERATURE_COEFFICIENT_20C_PER_K = 0.00403
"""[1/K] IEC 60889, 20 C (from memory)."""
STRAND_LAY_RATIO = 1.02
"""[-] length of a strand over length of the conductor; common practice, agrees with table 8 within 0.5 %."""

_TABLE_8 = "nfpa-70_2023_ch9-t8"
_CLASS_5 = "iec-60228_2004_t3"
_BRITISH = "bs-6360_1991"
_GAUGES = ("0.5", "0.75", "1", "1.25", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120")
_AWG_THIN_FIRST = (*range(18, 0, -1), 0, -1, -2, -3)


@dataclass(frozen=True, slots=True)
class ConductorSize:
    """One conductor of a flexible cord.

    size : key, "12 AWG" or "2.5 mm2".
    area_m2 : [m2] metal; nominal for mm2, of the gauge for AWG.
    resistance_20c_ohm_per_m : [ohm/m] DC, stranded, uncoated copper, 20 C, one conductor.
    citation, status : where the resistance comes from and how sure its row is.
    """

    size: str
    area_m2: float
    resistance_20c_ohm_per_m: float
    citation: str
    status: str


def awg_name(gauge: int) -> str:
    """Key of a gauge number; 0, -1, -2, -3 are 1/0 to 4/0 AWG. Source: ASTM B258."""
    return f"{gauge} AWG" if gauge > 0 else f"{1 - gauge}/0 AWG"


def awg_diameter_m(gauge: int) -> float:
    """[m] diameter of a solid conductor; 0, -1, -2, -3 are 1/0 to 4/0 AWG. Source: ASTM B258, definition."""
    return float(0.127e-3 * 92.0 ** ((36 - gauge) / 39.0))


def awg_area_m2(gauge: int) -> float:
    """[m2] area of a solid conductor; 0, -1, -2, -3 are 1/0 to 4/0 AWG. Source: ASTM B258, definition."""
    # pi/4 mm2 of a 1 mm circle, from the circular mil, so that both figures share one constant.
    diameter_mil = awg_diameter_m(gauge) / 25.4e-6
    return diameter_mil * diameter_mil * SQUARE_METRE_PER_CMIL


def copper_resistance_ratio(temperature_c: float) -> float:
    """[-] resistance of copper at `temperature_c` [C] over that at 20 C. Source: IEC 60028."""
    return 1.0 + COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K * (temperature_c - 20.0)


def aluminium_resistance_ratio(temperature_c: float) -> float:
    """[-] resistance of aluminium at `temperature_c` [C] over that at 20 C. Source: IEC 60889 (from memory)."""
    return 1.0 + ALUMINIUM_TEMPERATURE_COEFFICIENT_20C_PER_K * (temperature_c - 20.0)


def table_8_resistance_75c(size: str, kind: str) -> CitedValue | OutsideTable:
    """DC resistance [ohm/m] at 75 C of a building-wire conductor.

    size : "12 AWG". kind : "stranded" or "solid", then "uncoated copper", "coated copper" or "aluminium".
    Source: NFPA 70 chapter 9 table 8. Outside the table: OutsideTable.
    """
    row = table(_TABLE_8).find(conductor=size, kind=kind)
    if row is None:
        return OutsideTable(f"table 8 has no {kind} {size}", _TABLE_8)
    return CitedValue(row.number("resistance_ohm_per_kft") / METRE_PER_KFT, _TABLE_8, row.status)


def metric_resistance_20c(size: str, kind: str) -> CitedValue | OutsideTable:
    """Largest DC resistance [ohm/m] at 20 C of a metric conductor.

    size : "2.5 mm2". kind : "class 2 plain copper", "class 5 plain copper" or "class 5 tinned copper".
    Source: IEC 60228 tables 2 and 3; BS 6360 for 1.25 mm2. Outside the tables: OutsideTable.
    """
    for key in ("iec-60228_2004_t2", _CLASS_5, _BRITISH):
        row = table(key).find(conductor=size, kind=kind)
        if row is not None:
            return CitedValue(row.number("resistance_20c_ohm_per_km") / 1000.0, key, row.status)
    return OutsideTable(f"IEC 60228 has no {kind} {size}", _CLASS_5)


@cache
def _by_size() -> MappingProxyType[str, ConductorSize]:
    found: dict[str, ConductorSize] = {}
    for gauge in _AWG_THIN_FIRST:
        name, area_m2 = awg_name(gauge), awg_area_m2(gauge)
        printed = table_8_resistance_75c(name, "stranded uncoated copper")
        if isinstance(printed, CitedValue):
            cold = printed.value / copper_resistance_ratio(75.0)
            found[name] = ConductorSize(name, area_m2, cold, printed.citation, printed.status)
        else:
            cold = COPPER_RESISTIVITY_20C_OHM_M * STRAND_LAY_RATIO / area_m2
            found[name] = ConductorSize(name, area_m2, cold, "class-b-lay", "formula")
    for gauge_mm2 in _GAUGES:
        name = f"{gauge_mm2} mm2"
        printed = metric_resistance_20c(name, "class 5 plain copper")
        if isinstance(printed, CitedValue):
            found[name] = ConductorSize(name, float(gauge_mm2) * 1e-6, printed.value, printed.citation, printed.status)
    return MappingProxyType(found)


def conductor_size(size: str) -> ConductorSize | None:
    """The conductor with this key, None when nobody makes it (offer `sizes()`). Source: see ConductorSize.citation."""
    return _by_size().get(size)


def sizes() -> tuple[str, ...]:
    """All keys, AWG then mm2, thin before thick. Source: ASTM B258; IEC 60228."""
    return tuple(_by_size())
