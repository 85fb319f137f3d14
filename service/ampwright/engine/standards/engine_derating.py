"""How much of an engine's power is left at this altitude and intake temperature?

Three sources that do not agree: the pressure ratio (handbook, for engines without a table), printed handbook factors,
and rules of thumb. The maker's table goes before all of them. Not here: fuel used (fuel_energy.py).
"""

from ampwright.engine.standards.loader import CitedValue, table

SEA_LEVEL_PRESSURE_PA = 101325.0
"""[Pa] ISO 2533."""
_SEA_LEVEL_K = 288.15
_LAPSE_K_PER_M = 0.0065
_GRAVITY_M_PER_S2 = 9.80665
_GAS_CONSTANT_J_PER_KG_K = 287.05287
_HANDBOOK = "energy-handbook_derating"
_THUMB = "common-practice_derating"
_FOOT_M = 0.3048


def pressure_ratio(altitude_m: float) -> float:
    """[-] air pressure over that at sea level at an altitude [m], up to 11 000 m. Source: ISO 2533."""
    exponent = _GRAVITY_M_PER_S2 / (_GAS_CONSTANT_J_PER_KG_K * _LAPSE_K_PER_M)
    return float((1.0 - _LAPSE_K_PER_M * altitude_m / _SEA_LEVEL_K) ** exponent)


def altitude_factor_by_rule(altitude_m: float) -> CitedValue:
    """[-] power left of a spark-ignition engine at an altitude [m], by the printed rule. Source: from memory."""
    row = table(_THUMB).at(quantity="spark ignition")
    lost = row.number("value") / 100.0 * altitude_m / (1000.0 * _FOOT_M)
    return CitedValue(1.0 - lost, _THUMB, row.status)


def temperature_factor_by_rule(intake_c: float, from_c: float = 25.0) -> CitedValue:
    """[-] power left at an intake temperature [C], 1 up to `from_c` [C] (printed between 15.6 and 29.4 C).

    Source: widely printed rule, from memory.
    """
    row = table(_THUMB).at(quantity="warm intake")
    steps = max(intake_c - from_c, 0.0) * 9.0 / 5.0 / 10.0
    return CitedValue(1.0 - row.number("value") / 100.0 * steps, _THUMB, row.status)


def handbook_factor(quantity: str) -> CitedValue:
    """[-] printed factor. Source: Handbook of Energy Engineering Calculations. Errors: UncitedTable, no such row."""
    row = table(_HANDBOOK).at(quantity=quantity)
    return CitedValue(row.number("value"), _HANDBOOK, row.status)


def iso_3046_factor(
    pressure_pa: float, intake_k: float, mechanical_efficiency: float = 0.8, exponents: tuple[float, float] = (1.0, 0.5)
) -> CitedValue:
    """[-] power left of a naturally aspirated engine.

    pressure_pa : [Pa], reference 100 kPa. intake_k : [K], reference 298 K. exponents : (pressure, temperature).
    Source: ISO 3046-1, from memory.
    """
    k = (pressure_pa / 1.0e5) ** exponents[0] * (298.0 / intake_k) ** exponents[1]
    factor = k - 0.7 * (1.0 - k) * (1.0 / mechanical_efficiency - 1.0)
    return CitedValue(float(factor), "iso-3046-1", "memory")
