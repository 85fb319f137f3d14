"""How much carbon monoxide is too much, and how far away must an engine set stand?

Not here: the finding (calculations).
"""

from dataclasses import dataclass

from ampwright.engine.standards.loader import CitedValue, table

_LIMITS = ("29-cfr-1926-55_co", "niosh_co")


@dataclass(frozen=True, slots=True)
class ExhaustLimit:
    """One limit of carbon monoxide in air [ratio by volume, 1e-6 = 1 ppm] and what it bounds."""

    quantity: str
    volume_ratio: float
    citation: str
    status: str


def carbon_monoxide_limits() -> tuple[ExhaustLimit, ...]:
    """Limits, lowest first. Source: 29 CFR 1926.55, NIOSH."""
    found = [
        ExhaustLimit(row.text("quantity"), row.number("value") * 1e-6, key, row.status)
        for key in _LIMITS
        for row in table(key)
    ]
    return tuple(sorted(found, key=lambda limit: limit.volume_ratio))


def least_distance_m() -> CitedValue:
    """[m] distance from doors, windows and vents that may be needed. Source: NIST study quoted by a town notice."""
    row = table("nist_co-distance").rows[0]
    return CitedValue(row.number("value") * 0.3048, "nist_co-distance", row.status)


def small_engine_emission_kg_per_j() -> tuple[float, float, str]:
    """[kg/J] lowest and highest emission limit of small engines, and its citation. Source: CPSC staff report."""
    low, _, high = table("cpsc_co-emission").rows[0].text("value").partition("..")
    return float(low) * 1e-3 / 3.6e6, float(high) * 1e-3 / 3.6e6, "cpsc_co-emission"
