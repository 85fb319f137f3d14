"""How much voltage may be lost between the source and the load, by recommendation?

None of these is law for a cord: they say when to call a drop large. Whether a tool works is decided at its plate
(voltage_limits.py). Not here: the loss itself (physics).
"""

import math
from typing import Literal

from ampwright.engine.standards.conductor_sizes import METRE_PER_KFT
from ampwright.engine.standards.loader import CitedValue, OutsideTable, least_sure, table

_NEC = "nfpa-70_210-19-note"
_IEC = "iec-60364-5-52_tg-52-1"
_ANNEX = "iec-60364-5-52_annex-g"
_TABLE_9 = "nfpa-70_2023_ch9-t9"
DEFAULT_POWER_FACTOR = 0.8
"""[-] when not known; IEC 60364-5-52 annex G and UFC 3-520-01 B-2.1 agree."""


def nec_recommended_ratio(part: Literal["branch circuit", "feeder and branch circuit together"]) -> CitedValue:
    """[-] recommended largest drop over nominal. Source: NFPA 70 210.19, informational note; not enforceable."""
    row = table(_NEC).at(what=part)
    return CitedValue(row.number("percent") / 100.0, _NEC, row.status)


def iec_largest_ratio(
    supply: Literal["public", "private"], use: Literal["lighting", "other uses"], length_m: float = 0.0
) -> CitedValue:
    """[-] largest drop over nominal from the origin to the load, with the allowance for a length [m] above 100 m.

    Source: IEC 60364-5-52 table G.52.1 and its note, informative.
    """
    row = table(_IEC).at(what=f"{supply} supply, {use}")
    more = table(_IEC).at(what="more for each metre beyond 100 m")
    cap = table(_IEC).at(what="most allowed for length")
    extra = min(more.number("percent") * max(length_m - 100.0, 0.0), cap.number("percent"))
    status = least_sure(row.status, more.status) if extra else row.status
    return CitedValue((row.number("percent") + extra) / 100.0, _IEC, status)


def iec_drop_v(
    phases: Literal[1, 3],
    length_m: float,
    area_m2: float,
    current_a: float,
    power_factor: float | None = None,
) -> CitedValue:
    """[V] drop of a copper run by the informative formula, which assumes warm copper (0.0225 ohm mm2/m).

    length_m : [m] one way. area_m2 : [m2]. current_a : [A]. power_factor : [-], the standard's 0.8 when not known.
    Source: IEC 60364-5-52 annex G (the reactance is from memory).
    """
    cos = DEFAULT_POWER_FACTOR if power_factor is None else power_factor
    sin = math.sqrt(1.0 - cos**2)
    rho = table(_ANNEX).at(quantity="resistivity of copper in service")
    reactance = table(_ANNEX).at(quantity="reactance per length")
    resistive = rho.number("value") * 1e-6 * length_m / area_m2 * cos
    inductive = reactance.number("value") * 1e-3 * length_m * sin
    return CitedValue((2.0 if phases == 1 else 1.0) * (resistive + inductive) * current_a, _ANNEX, reactance.status)


def building_wire_ohm_per_m(
    size: str, quantity: Literal["reactance", "ac resistance", "impedance at 0.85 power factor"]
) -> CitedValue | OutsideTable:
    """[ohm/m] to neutral, three single conductors in PVC conduit, 60 Hz, 75 C. Source: NFPA 70 chapter 9 table 9."""
    row = table(_TABLE_9).find(conductor=size, quantity=quantity)
    if row is None:
        return OutsideTable(f"table 9 has no {size}", _TABLE_9)
    return CitedValue(row.number("ohm_per_kft") / METRE_PER_KFT, _TABLE_9, row.status)


def effective_impedance_ohm_per_m(
    resistance_ohm_per_m: float, reactance_ohm_per_m: float, power_factor: float
) -> float:
    """[ohm/m] R cos + X sin, to neutral, at a lagging power factor [-]. Source: NFPA 70 chapter 9 table 9 note 2."""
    return resistance_ohm_per_m * power_factor + reactance_ohm_per_m * math.sqrt(1.0 - power_factor**2)
