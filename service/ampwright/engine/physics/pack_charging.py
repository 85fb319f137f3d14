"""How long does a cordless pack take to charge, how much power does it draw meanwhile, and how many are done in a day?

Constant current, then constant voltage: up to `taper_from` the charge rises evenly; from there the current decays
exponentially to the charger's cut-off, where the pack counts as full. The decay's time constant follows from the
charge still to go in, so three plate figures fix it all: the full rate, where the taper begins, the cut-off share.

    before:  dq/dt = rate                         (q: charge over capacity, rate in 1/s)
    after:   dq/dt = rate exp(-t/tau),  tau = (1 - taper_from) / (rate (1 - cut_off))

Typical: taper from 0.8, cut-off at 0.05 of the full rate; common practice, no source. Power at the pack is taken as
proportional to current (voltage varies by a tenth over a charge). A pack below freezing is not to be charged
(`may_charge`); chargers wait or refuse.
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]

LITHIUM_COLDEST_CHARGE_C = 0.0
"""Cells below this are not to be charged [C]. Source: common practice (metal plating), no source."""


@kernel("float64(float64, float64, float64)")
def taper_time_constant_s(rate_per_s: float, taper_from: float, cut_off_ratio: float) -> float:
    """How quickly does the charging current die away once the voltage is held?

    Parameters
    ----------
    rate_per_s : [1/s], > 0, capacities per second at full current (1C: 1/3600)
    taper_from : [-], 0 to 1, state of charge where the voltage is first held
    cut_off_ratio : [-], 0 to < 1, current at the end over full current

    Returns
    -------
    tau_s : [s]; 0 where there is no taper

    Errors: none. NaN in, NaN out.
    Source: the charge under an exponential from full current to cut-off is what was missing.
    """
    return (1.0 - taper_from) / (rate_per_s * (1.0 - cut_off_ratio))


@kernel("float64(float64, float64, float64, float64, float64)")
def charge_after_ratio(
    start_ratio: float, duration_s: float, rate_per_s: float, taper_from: float, cut_off_ratio: float
) -> float:
    """How full is a pack after this long on its charger?

    Parameters
    ----------
    start_ratio : [-], 0 to 1, state of charge when it goes on
    duration_s : [s], >= 0
    rate_per_s : [1/s], > 0, capacities per second at full current
    taper_from : [-], 0 to 1, state of charge where the voltage is first held
    cut_off_ratio : [-], 0 to < 1, current at the end over full current

    Returns
    -------
    charge_ratio : [-], at most 1

    Errors: none. NaN in, NaN out.
    Source: constant current, then constant voltage, closed form (module docstring).
    """
    if start_ratio >= 1.0:
        return start_ratio
    tau_s = taper_time_constant_s(rate_per_s, taper_from, cut_off_ratio)
    if start_ratio <= taper_from:
        to_taper_s = (taper_from - start_ratio) / rate_per_s
        if duration_s <= to_taper_s:
            return start_ratio + rate_per_s * duration_s
        in_taper_s = duration_s - to_taper_s
    elif tau_s == 0.0:
        return 1.0
    else:
        # A pack that starts inside the taper starts at the current that belongs to its charge.
        in_taper_s = duration_s - tau_s * math.log1p(-(start_ratio - taper_from) / (rate_per_s * tau_s))
    if tau_s == 0.0:
        return 1.0
    charge = taper_from - rate_per_s * tau_s * math.expm1(-in_taper_s / tau_s)
    return min(charge, 1.0)


@kernel("float64(float64, float64, float64, float64, float64)")
def time_to_charge_s(
    start_ratio: float, target_ratio: float, rate_per_s: float, taper_from: float, cut_off_ratio: float
) -> float:
    """How long does a pack take to this state of charge?

    Parameters
    ----------
    start_ratio : [-], 0 to 1, state of charge when it goes on
    target_ratio : [-], 0 to 1
    rate_per_s : [1/s], > 0, capacities per second at full current
    taper_from : [-], 0 to 1, state of charge where the voltage is first held
    cut_off_ratio : [-], 0 to < 1, current at the end over full current

    Returns
    -------
    time_s : [s]; 0 where it is that full already; inf to exactly full with a cut-off of 0

    Errors: none. inf is an outcome ("never quite"): name it before it leaves the engine.
    Source: inverse of `charge_after_ratio`.
    """
    if start_ratio >= target_ratio:
        return 0.0
    time_s = 0.0
    if start_ratio < taper_from:
        time_s = (min(target_ratio, taper_from) - start_ratio) / rate_per_s
    if target_ratio <= taper_from:
        return time_s
    tau_s = taper_time_constant_s(rate_per_s, taper_from, cut_off_ratio)
    span = rate_per_s * tau_s
    left_at_start = 1.0 - (max(start_ratio, taper_from) - taper_from) / span
    left_at_target = 1.0 - (target_ratio - taper_from) / span
    if left_at_target <= 0.0:
        return math.inf
    return time_s + tau_s * math.log(left_at_start / left_at_target)


@kernel("float64(float64, float64, float64, float64)")
def charging_power_w(charge_ratio: float, full_power_w: float, taper_from: float, cut_off_ratio: float) -> float:
    """How much power does a pack take at this state of charge?

    Parameters
    ----------
    charge_ratio : [-], 0 to 1
    full_power_w : [W], >= 0, at full current, at the pack or at the wall alike
    taper_from : [-], 0 to 1, state of charge where the voltage is first held
    cut_off_ratio : [-], 0 to < 1, current at the end over full current

    Returns
    -------
    power_w : [W]; 0 for a full pack

    Errors: none. NaN in, NaN out.
    Source: along the exponential, current falls on a straight line with the charge.
    """
    if charge_ratio >= 1.0:
        return 0.0
    if charge_ratio <= taper_from:
        return full_power_w
    return full_power_w * (1.0 - (1.0 - cut_off_ratio) * (charge_ratio - taper_from) / (1.0 - taper_from))


@kernel("float64(float64, float64, float64, float64)")
def wall_energy_j(capacity_j: float, start_ratio: float, target_ratio: float, efficiency: float) -> float:
    """How much energy does charging a pack take from the source?

    Parameters
    ----------
    capacity_j : [J], > 0, of the pack (plate Wh are often nominal volts times Ah)
    start_ratio : [-], 0 to 1
    target_ratio : [-], 0 to 1
    efficiency : [-], > 0 to 1, stored over drawn; 0.75 to 0.9, common practice, no source

    Returns
    -------
    energy_j : [J], >= 0, without what the charger draws while it waits

    Errors: none. NaN in, NaN out.
    Source: definition of efficiency.
    """
    return 0.0 if target_ratio <= start_ratio else capacity_j * (target_ratio - start_ratio) / efficiency


@kernel("float64(float64, float64, int64, float64)")
def packs_charged(duration_s: float, time_per_pack_s: float, chargers: int, swap_s: float) -> float:
    """How many packs are done by then, if a waiting pack goes on each charger that comes free?

    Parameters
    ----------
    duration_s : [s], >= 0
    time_per_pack_s : [s], > 0 (`time_to_charge_s`)
    chargers : count, >= 0
    swap_s : [s], >= 0, until somebody changes the pack

    Returns
    -------
    packs : [-], whole packs

    Errors: none. NaN in, NaN out.
    Source: counting; the last change is not waited for.
    """
    # One part in 1e12: ten charges of a sixth of a shift are ten, whatever the division rounds to.
    return float(chargers * math.floor((duration_s + swap_s) / (time_per_pack_s + swap_s) * (1.0 + 1e-12)))


@kernel("boolean(float64, float64)")
def may_charge(pack_c: float, coldest_c: float) -> bool:
    """Is the pack warm enough to be charged?

    Parameters
    ----------
    pack_c : [C], of the cells, not of the air
    coldest_c : [C], LITHIUM_COLDEST_CHARGE_C unless the maker says otherwise

    Returns
    -------
    may : NaN gives false

    Errors: none.
    Source: common practice, no source.
    """
    return bool(pack_c >= coldest_c)
