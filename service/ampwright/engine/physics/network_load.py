"""What current does a load draw at a voltage that is not its nominal one?

A load asks S at its nominal voltage Un and is a mixture of constant impedance (share z), constant current (i) and
constant power (p = 1 - z - i). With v = |U|/Un its current is

    I = conj(S)/Un^2 * U * g(v),    g(v) = z + i/v + p/v^2

Below its low-voltage switch k the factor stays at g(k): the load then acts as a constant impedance, without a step
in current. A load of constant impedance alone has g = 1 at every voltage.

Source: the polynomial (ZIP) load model, IEEE Task Force on Load Representation for Dynamic Performance, "Load
representation for dynamic performance analysis", IEEE Trans. Power Systems 8 (1993) no. 2; here in current form.
Not here: how networks carry these currents (network_flow.py).
"""

from __future__ import annotations

from ampwright.engine.physics.compile import kernel


@kernel("float64(float64, float64, float64, float64)")
def admittance_factor(
    voltage_ratio: float, constant_current_ratio: float, constant_impedance_ratio: float, switch_ratio: float
) -> float:
    """Admittance of a load at a voltage, as a multiple of its admittance at nominal voltage.

    Parameters
    ----------
    voltage_ratio : [1] |U|/Un, >= 0
    constant_current_ratio, constant_impedance_ratio : [1] shares of the load; the rest is constant power
    switch_ratio : [1] > 0 unless the load is constant impedance; below it the factor stays constant

    Returns
    -------
    factor : [1]

    Errors: none; not finite where switch_ratio and voltage_ratio are both 0 for a load that is not an impedance.
    Source: module docstring.
    """
    constant_power_ratio = 1.0 - constant_impedance_ratio - constant_current_ratio
    if constant_power_ratio == 0.0 and constant_current_ratio == 0.0:
        return constant_impedance_ratio
    inverse = 1.0 / max(voltage_ratio, switch_ratio)
    return constant_impedance_ratio + inverse * (constant_current_ratio + inverse * constant_power_ratio)


@kernel("float64(float64, float64, float64, float64)")
def admittance_factor_slope(
    voltage_ratio: float, constant_current_ratio: float, constant_impedance_ratio: float, switch_ratio: float
) -> float:
    """Derivative of `admittance_factor` by the voltage ratio.

    Parameters
    ----------
    voltage_ratio, constant_current_ratio, constant_impedance_ratio, switch_ratio : [1] as in `admittance_factor`

    Returns
    -------
    slope : [1] zero below the low-voltage switch

    Errors: none.
    Source: module docstring, differentiated.
    """
    constant_power_ratio = 1.0 - constant_impedance_ratio - constant_current_ratio
    if voltage_ratio < switch_ratio or (constant_power_ratio == 0.0 and constant_current_ratio == 0.0):
        return 0.0
    inverse = 1.0 / voltage_ratio
    return -inverse * inverse * (constant_current_ratio + 2.0 * inverse * constant_power_ratio)
