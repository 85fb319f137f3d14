"""How much energy is in a litre of this fuel?

Lower heating values; what a set makes of them is physics. Not here: engine power left (engine_derating.py).
"""

from typing import Literal

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

JOULE_PER_BTU = 1055.05585262
"""[J] international table British thermal unit."""
CUBIC_METRE_PER_GALLON = 3.785411784e-3
"""[m3] US gallon, exact."""
_SOURCES = {
    "AFDC/GREET": "afdc-greet_fuels",
    "California Energy Commission": "california-energy-commission_fuels",
}


def lower_heating_value_j_per_m3(
    fuel: str, source: Literal["AFDC/GREET", "California Energy Commission"] = "AFDC/GREET"
) -> CitedValue | OutsideTable:
    """[J/m3] lower heating value. fuel : one of `fuels(source)`. Source: as chosen; else OutsideTable."""
    key = _SOURCES[source]
    row = table(key).find(fuel=fuel)
    if row is None:
        return OutsideTable(f"{source} gives no {fuel}", key)
    per_m3 = row.number("lower_heating_value_btu_per_gal") * JOULE_PER_BTU / CUBIC_METRE_PER_GALLON
    return CitedValue(per_m3, key, row.status)


def fuels(source: Literal["AFDC/GREET", "California Energy Commission"] = "AFDC/GREET") -> tuple[str, ...]:
    """Fuels a source lists. Source: as chosen."""
    return tuple(row.text("fuel") for row in table(_SOURCES[source]))


def diesel_slope_m3_per_j() -> CitedValue:
    """[m3/J] more fuel for more output of a diesel set. Source: Skarstein and Uhlen (1989), from memory.

    The constant part is not kept: two orders of its digits are remembered.
    """
    row = table("skarstein-uhlen_1989").rows[0]
    return CitedValue(row.number("value") * 1e-3 / 3.6e6, "skarstein-uhlen_1989", row.status)
