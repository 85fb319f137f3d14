"""How much of its power does a battery keep in the cold?

Lead acid by the power that is printed for some temperatures, lithium by how much its resistance rises.
Not here: how much energy it keeps (lead_acid_temperature.py); how much power it has when warm.
"""

from itertools import pairwise

from ampwright.engine.standards.loader import CitedValue, table

LEAD_ACID = "trade-chart_lead-acid-power"
LITHIUM = "battery-explained_cold-resistance"
WARM_C = 25.0
"""[C] of the lithium figures: resistance at `COLD_C` over that here."""
COLD_C = -20.0


def lead_acid_power_ratio(temperature_c: float) -> CitedValue:
    """[-] power available at a cell temperature [C] over that at 27 C; between rows a straight line, ends held.

    Source: trade chart, starter batteries.
    """
    rows = sorted(table(LEAD_ACID), key=lambda row: row.number("temperature_f"))
    points = [(row.number("temperature_f"), row.number("power_percent") / 100.0) for row in rows]
    wanted_f = temperature_c * 9.0 / 5.0 + 32.0
    if wanted_f <= points[0][0]:
        return CitedValue(points[0][1], LEAD_ACID, rows[0].status)
    for (cold_f, cold), (warm_f, warm) in pairwise(points):
        if wanted_f <= warm_f:
            share = (wanted_f - cold_f) / (warm_f - cold_f)
            return CitedValue(cold + (warm - cold) * share, LEAD_ACID, rows[0].status)
    return CitedValue(points[-1][1], LEAD_ACID, rows[-1].status)


def lithium_resistance_factor(which: str) -> CitedValue:
    """[-] resistance at -20 C over that at 25 C. which : least or most. Source: a public explanation, one text."""
    row = table(LITHIUM).at(which=which)
    return CitedValue(row.number("factor_at_minus_20_c"), LITHIUM, row.status)
