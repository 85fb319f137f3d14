"""How much energy does a battery give, by charge, cold and age, at which power, and when is it down to its reserve?

All energies are at the battery's terminals, before any inverter (inverter_efficiency.py). Weak figures, so arguments
and never constants that hide: what cold takes (lithium cells: 30 to 40 % in frost, common practice, no source; lead
acid: 1/cell size factor of IEEE 485 table 1, from memory, read by table_lookup.py), what age takes, internal
resistance.

Cold limits the power as well as the energy, since resistance rises: ask `largest_power_w` too.
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]

GAS_J_PER_MOL_K = 8.314462618  # exact in the SI of 2019
ZERO_K = 273.15


@kernel("float64(float64, float64, float64, float64)")
def health_ratio(years: float, cycles: float, fade_per_root_year: float, fade_per_cycle: float) -> float:
    """How much of its capacity is left to a battery of this age and use?

    Parameters
    ----------
    years : [year], >= 0, since new
    cycles : [-], >= 0, full cycles' worth of energy drawn since new
    fade_per_root_year : [1/year^0.5], >= 0, calendar fade of the first year
    fade_per_cycle : [-], >= 0, fade of each full cycle

    Returns
    -------
    ratio : [-], 0 to 1

    Errors: none. NaN in, NaN out.
    Source: square root of time for calendar fade and linear in throughput for cycling, the usual empirical form for
    lithium cells; common practice, no source. A measured health is always better.
    """
    left = 1.0 - fade_per_root_year * math.sqrt(years) - fade_per_cycle * cycles
    return 0.0 if left < 0.0 else left


@kernel("float64(float64, float64, float64, float64, float64)")
def usable_energy_j(
    capacity_j: float, health: float, charge_ratio: float, floor_ratio: float, cold_ratio: float
) -> float:
    """How much energy is there above the floor, if cold takes the same share of every part of the charge?

    Parameters
    ----------
    capacity_j : [J], > 0, when new and warm
    health : [-], 0 to 1 (`health_ratio`)
    charge_ratio : [-], 0 to 1, state of charge
    floor_ratio : [-], 0 to 1, state of charge at which the source stops
    cold_ratio : [-], 0 to 1, capacity at this temperature over that when warm

    Returns
    -------
    energy_j : [J], >= 0; the typical estimate. `usable_energy_at_least_j` is the low one.

    Errors: none. NaN in, NaN out.
    Source: definition of state of charge; common practice, no source for the even share.
    """
    above = charge_ratio - floor_ratio
    return 0.0 if above <= 0.0 else capacity_j * health * cold_ratio * above


@kernel("float64(float64, float64, float64, float64, float64)")
def usable_energy_at_least_j(
    capacity_j: float, health: float, charge_ratio: float, floor_ratio: float, cold_ratio: float
) -> float:
    """How much energy is there above the floor, if cold takes its share from the bottom of the charge?

    The voltage of a cold cell meets its lower limit earlier, so what cold takes of a full battery is missing from a
    half-full one as well.

    Parameters
    ----------
    capacity_j : [J], > 0, when new and warm
    health : [-], 0 to 1
    charge_ratio : [-], 0 to 1, state of charge
    floor_ratio : [-], 0 to 1, state of charge at which the source stops
    cold_ratio : [-], 0 to 1, capacity at this temperature over that when warm

    Returns
    -------
    energy_j : [J], >= 0, never more than `usable_energy_j`

    Errors: none. NaN in, NaN out.
    Source: reasoned lower bound; common practice, no source.
    """
    above = charge_ratio - floor_ratio - (1.0 - cold_ratio)
    return 0.0 if above <= 0.0 else capacity_j * health * above


@kernel("float64(float64, float64)")
def largest_power_w(open_circuit_v: float, resistance_ohm: float) -> float:
    """What is the most power a battery can give at its terminals at all?

    Parameters
    ----------
    open_circuit_v : [V], > 0, at this charge and temperature
    resistance_ohm : [ohm], > 0, internal, at this charge and temperature

    Returns
    -------
    power_w : [W], V^2/(4 R), at half the voltage: a bound, real limits lie below

    Errors: none. NaN in, NaN out.
    Source: maximum power transfer.
    """
    return open_circuit_v * open_circuit_v / (4.0 * resistance_ohm)


@kernel("float64(float64, float64, float64)")
def power_at_voltage_limit_w(open_circuit_v: float, resistance_ohm: float, lowest_v: float) -> float:
    """How much power may be drawn before the terminals fall to this voltage?

    Parameters
    ----------
    open_circuit_v : [V], > 0, at this charge and temperature
    resistance_ohm : [ohm], > 0, internal, at this charge and temperature
    lowest_v : [V], >= 0, at which the battery's own protection opens

    Returns
    -------
    power_w : [W], 0 where the battery is already below it

    Errors: none. NaN in, NaN out.
    Source: Ohm's law; below half the open-circuit voltage more current gives less power, so half is the least used.
    """
    stop_v = max(lowest_v, 0.5 * open_circuit_v)
    if stop_v >= open_circuit_v:
        return 0.0
    return stop_v * (open_circuit_v - stop_v) / resistance_ohm


@kernel("float64(float64, float64, float64)")
def activation_j_per_mol(resistance_factor: float, cold_c: float, warm_c: float) -> float:
    """Which activation energy makes a cell's resistance rise by this factor between two temperatures?

    Parameters
    ----------
    resistance_factor : [-], > 0, cold over warm
    cold_c : [C]
    warm_c : [C], > cold_c

    Returns
    -------
    activation_j_per_mol : [J/mol]

    Errors: none. NaN in, NaN out.
    Source: Arrhenius' law, solved for the energy.
    """
    return GAS_J_PER_MOL_K * math.log(resistance_factor) / (1.0 / (cold_c + ZERO_K) - 1.0 / (warm_c + ZERO_K))


@kernel("float64(float64, float64, float64)")
def cold_power_ratio(activation_j_per_mol: float, cell_c: float, warm_c: float) -> float:
    """How much of its power does a battery keep at this cell temperature?

    Power at a voltage limit goes with one over resistance (`power_at_voltage_limit_w`).

    Parameters
    ----------
    activation_j_per_mol : [J/mol], >= 0, of the resistance
    cell_c : [C], > -273.15
    warm_c : [C], where its power is stated

    Returns
    -------
    ratio : [-], 0 to 1; 1 where the cells are as warm or warmer

    Errors: none. NaN in, NaN out.
    Source: Arrhenius' law.
    """
    if cell_c >= warm_c:
        return 1.0
    return math.exp(-activation_j_per_mol / GAS_J_PER_MOL_K * (1.0 / (cell_c + ZERO_K) - 1.0 / (warm_c + ZERO_K)))


@kernel("float64(float64, float64, float64)")
def cell_power_w(terminal_w: float, open_circuit_v: float, resistance_ohm: float) -> float:
    """How fast does a battery's own energy go down when it gives this power at its terminals?

    Parameters
    ----------
    terminal_w : [W], >= 0
    open_circuit_v : [V], > 0
    resistance_ohm : [ohm], >= 0, internal

    Returns
    -------
    power_w : [W], terminals plus I^2 R; inf where the battery cannot give it (`largest_power_w`)

    Errors: none. inf is an outcome ("cannot"): name it before it leaves the engine.
    Source: P = V I - R I^2 solved for the smaller current (the stable one).
    """
    if resistance_ohm == 0.0:
        return terminal_w
    square = open_circuit_v * open_circuit_v - 4.0 * resistance_ohm * terminal_w
    if square < 0.0:
        return math.inf
    # The form that does not cancel where the loss is small.
    return open_circuit_v * 2.0 * terminal_w / (open_circuit_v + math.sqrt(square))


@kernel("float64(float64, float64, float64, float64)")
def peukert_time_s(capacity_c: float, rated_time_s: float, current_a: float, exponent: float) -> float:
    """How long does a lead-acid battery give this current?

    Parameters
    ----------
    capacity_c : [C] (coulomb; 1 Ah = 3600 C), > 0, at the rated time
    rated_time_s : [s], > 0, for which the capacity is stated (20 h: 72,000)
    current_a : [A], > 0, constant
    exponent : [-], >= 1; 1.05 to 1.15 sealed, 1.2 to 1.3 flooded, common practice, no source

    Returns
    -------
    time_s : [s]

    Errors: none. NaN in, NaN out.
    Source: Peukert's law (1897) in the form with a rated time. Not for lithium cells (exponent 1).
    """
    return float(rated_time_s * (capacity_c / (current_a * rated_time_s)) ** exponent)


@kernel("float64(float64[::1], float64[::1], float64)")
def time_until_drawn_s(power_w: FloatArray, duration_s: FloatArray, energy_j: float) -> float:
    """When has this much energy been drawn, if the pattern of work repeats itself?

    Parameters
    ----------
    power_w : (n,) [W], >= 0, drawn in each part of the pattern
    duration_s : (n,) [s], >= 0
    energy_j : [J], what may be drawn

    Returns
    -------
    time_s : [s]; 0 where nothing may be drawn, inf where the pattern draws nothing

    Errors: none. inf is an outcome ("never"): name it before it leaves the engine.
    Source: sum of power times time; whole cycles by division, the last one part by part.
    """
    if energy_j <= 0.0:
        return 0.0
    cycle_j = 0.0
    cycle_s = 0.0
    for i in range(power_w.shape[0]):
        cycle_j += power_w[i] * duration_s[i]
        cycle_s += duration_s[i]
    if not cycle_j > 0.0:
        return math.inf
    whole = math.floor(energy_j / cycle_j)
    left_j = energy_j - whole * cycle_j
    time_s = whole * cycle_s
    if left_j <= 0.0:  # used up within the cycle before, at the end of its last part that draws
        left_j += cycle_j
        time_s -= cycle_s
    last_s = time_s
    for i in range(power_w.shape[0]):
        part_j = power_w[i] * duration_s[i]
        if part_j > 0.0:
            if part_j >= left_j:
                return float(time_s + left_j / power_w[i])
            left_j -= part_j
            last_s = time_s + duration_s[i]
        time_s += duration_s[i]
    return last_s  # only rounding comes here


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64, float64, float64, float64[::1], float64[::1], "
    "float64[::1])"
)
def energy_course_j(
    draw_w: FloatArray,
    gain_w: FloatArray,
    duration_s: FloatArray,
    start_j: float,
    floor_j: float,
    full_j: float,
    left_j: FloatArray,
    unserved_j: FloatArray,
    spilled_j: FloatArray,
) -> None:
    """What is left after each stretch of a day that draws and, with sun or a charger, gains?

    Balance of every stretch: left = before + gain - draw + unserved - spilled.

    Parameters
    ----------
    draw_w : (n,) [W], >= 0, constant over each stretch
    gain_w : (n,) [W], >= 0, constant over each stretch
    duration_s : (n,) [s], >= 0
    start_j : [J], at the beginning
    floor_j : [J], below it nothing is served (a source that begins below it still charges)
    full_j : [J], >= floor_j, above it nothing is stored
    left_j : (n,) [J], written: left at the end of each stretch
    unserved_j : (n,) [J], written: asked for and not given
    spilled_j : (n,) [J], written: offered and not stored

    Returns
    -------
    Nothing.

    Errors: none.
    Source: conservation of energy. Within a stretch the content moves one way, so floor and full are met at most once
    and the result is exact. Gain serves the draw first.
    """
    here_j = start_j
    for i in range(draw_w.shape[0]):
        net_j = (gain_w[i] - draw_w[i]) * duration_s[i]
        target_j = here_j + net_j
        unserved_j[i] = 0.0
        spilled_j[i] = 0.0
        if net_j < 0.0 and target_j < floor_j:
            end_j = min(here_j, floor_j)
            unserved_j[i] = end_j - target_j
            target_j = end_j
        elif net_j > 0.0 and target_j > full_j:
            end_j = max(here_j, full_j)
            spilled_j[i] = target_j - end_j
            target_j = end_j
        here_j = target_j
        left_j[i] = here_j
