"""How much larger must a lead-acid battery be in the cold?

Not here: other chemistries, for which no table of a standard is kept.
"""

from itertools import pairwise

from ampwright.engine.standards.loader import CitedValue, OutsideTable, table

_KEY = "ieee-485_t1"


def cell_size_factor(temperature_c: float) -> CitedValue | OutsideTable:
    """[-] factor on the size at 25 C for a cell temperature [C]; between rows a straight line.

    Source: IEEE 485 table 1, from memory; the table spans -3.9 to 51.7 C, outside it OutsideTable.
    """
    points = sorted((row.number("temperature_f"), row.number("factor")) for row in table(_KEY))
    wanted_f = temperature_c * 9.0 / 5.0 + 32.0
    if not points[0][0] - 0.05 <= wanted_f <= points[-1][0] + 0.1:
        return OutsideTable(f"IEEE 485 ends at -3.9 and 51.7 C, not {temperature_c:g} C", _KEY)
    for (cold_f, cold), (warm_f, warm) in pairwise(points):
        if wanted_f <= warm_f:
            share = max((wanted_f - cold_f) / (warm_f - cold_f), 0.0)
            return CitedValue(cold + (warm - cold) * share, _KEY, "memory")
    return CitedValue(points[-1][1], _KEY, "memory")
