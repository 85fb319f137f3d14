"""What current does a dead short at the end of a cord run draw, how much heat does it put in, how long is there?

Three kinds of source answer a short differently:

* stiff (a site supply): voltage over loop impedance, for as long as the device takes;
* electronic (an inverter): never more than it holds, until it shuts itself down. The breaker behind it may see no more
  than an overload and take minutes (IEC 60364-4-41 cl. 411.3.2: the 0.4 s cannot then be met by the breaker, from
  memory);
* an engine set: E behind X''d, X'd, Xd in turn, with time constants that the cord's own impedance stretches, ending at
  what the field still gives. A set that excites itself from its own terminals (`field_ratio` 0) ends at nothing, one
  with forced excitation (2 to 3) goes on.

Impedances are those of the fault loop: line conductor out, and neutral or protective conductor back. Hot copper gives
the smallest current (does it clear?), cold copper the largest (does it bear it?). Direct-current offset of the first
cycles is left out: it adds heat for a few cycles only in loops of much more reactance than a cord has.

Not here: what a conductor bears (cord_short_overload.py), when the device opens (trip_time.py).
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]


@kernel("float64(float64, float64, float64)")
def stiff_fault_current_a(source_v: float, loop_resistance_ohm: float, loop_reactance_ohm: float) -> float:
    """What current does a dead short draw from a stiff source?

    Parameters
    ----------
    source_v : [V], RMS, > 0, along the loop (line to neutral or line to ground)
    loop_resistance_ohm : [ohm], source, cords out and back, contacts
    loop_reactance_ohm : [ohm], likewise

    Returns
    -------
    current_a : [A], RMS, symmetrical; inf for a loop of no impedance

    Errors: none. inf means the input left out the source: name it before it leaves the engine.
    Source: IEC 60364-4-41 (2005) cl. 411.4.4, Zs = U0 / Ia (from memory); Ohm's law.
    """
    impedance_ohm = math.hypot(loop_resistance_ohm, loop_reactance_ohm)
    if impedance_ohm == 0.0:
        return math.inf
    return source_v / impedance_ohm


@kernel("float64(float64, float64, float64, float64)")
def electronic_fault_current_a(
    source_v: float, loop_resistance_ohm: float, loop_reactance_ohm: float, held_current_a: float
) -> float:
    """What current does a dead short draw from a source that limits it electronically?

    Parameters
    ----------
    source_v : [V], RMS, > 0, along the loop
    loop_resistance_ohm : [ohm], cords out and back, contacts, the source's own if any
    loop_reactance_ohm : [ohm], likewise
    held_current_a : [A], RMS, >= 0, the most it holds

    Returns
    -------
    current_a : [A], RMS: the smaller of the two

    Errors: none. NaN in the loop gives the held current.
    Source: Ohm's law and the stated limit; how long it holds is the source's own matter.
    """
    loop_a = stiff_fault_current_a(source_v, loop_resistance_ohm, loop_reactance_ohm)
    return held_current_a if not loop_a < held_current_a else loop_a


@kernel("float64(float64, float64, float64, float64)")
def _set_current_a(emf_v: float, direct_ohm: float, quadrature_ohm: float, resistance_ohm: float) -> float:
    """Current [A] of a salient-pole machine of this voltage behind the axis reactances, shorted through a resistance.

    From E = Xd Id + R Iq and 0 = Xq Iq - R Id (positive Id demagnetising).
    """
    return (
        emf_v
        * math.hypot(quadrature_ohm, resistance_ohm)
        / (direct_ohm * quadrature_ohm + resistance_ohm * resistance_ohm)
    )


@kernel("float64(float64, float64, float64, float64, float64)")
def _loaded_time_constant_s(
    open_s: float, before_ohm: float, after_ohm: float, quadrature_ohm: float, resistance_ohm: float
) -> float:
    """Short-circuit time constant [s] of a winding through an external impedance, from its open-circuit one."""
    square = resistance_ohm * resistance_ohm
    return open_s * (before_ohm * quadrature_ohm + square) / (after_ohm * quadrature_ohm + square)


@kernel(
    "void(float64, float64, float64, float64, float64, float64, float64, float64, float64, float64, float64, "
    "float64[::1])"
)
def engine_set_decrement(
    emf_v: float,
    subtransient_ohm: float,
    transient_ohm: float,
    direct_ohm: float,
    quadrature_ohm: float,
    subtransient_open_s: float,
    transient_open_s: float,
    loop_resistance_ohm: float,
    loop_reactance_ohm: float,
    field_ratio: float,
    frequency_ratio: float,
    out: FloatArray,
) -> None:
    """How does the short-circuit current of an engine set die down at the end of a cord run?

    I(t) = out[0] exp(-t/out[1]) + out[2] exp(-t/out[3]) + out[4]

    Parameters
    ----------
    emf_v : [V], RMS, > 0, along the loop, before the fault (no load)
    subtransient_ohm : [ohm], X''d at rated frequency
    transient_ohm : [ohm], X'd at rated frequency, >= X''d
    direct_ohm : [ohm], Xd at rated frequency, >= X'd
    quadrature_ohm : [ohm], Xq at rated frequency, > 0
    subtransient_open_s : [s], T''d0, > 0
    transient_open_s : [s], T'd0, > 0
    loop_resistance_ohm : [ohm], stator, cords out and back, contacts
    loop_reactance_ohm : [ohm], cords out and back at rated frequency
    field_ratio : [-], >= 0, field voltage during the fault over that before it: 0 collapses, 1 constant, > 1 forced
    frequency_ratio : [-], > 0, speed during the fault over rated (1; 0.9 for an engine pulled down)
    out : (5,) written: subtransient part [A], its time constant [s], transient part [A], its time constant [s],
        sustained part [A]

    Returns
    -------
    Nothing. A part may be negative: forced excitation lets the current rise again.

    Errors: none. NaN in, NaN out.
    Source: two-axis machine equations with external impedance (IEC 61363-1 and IEC 60909-0 use the same three terms);
    exact for the transient and sustained parts, superposed for the subtransient one. Single-phase loops on the
    machine are treated as if balanced: the figure is a band's middle, not a promise.
    """
    quadrature = (quadrature_ohm + loop_reactance_ohm) * frequency_ratio
    sub = (subtransient_ohm + loop_reactance_ohm) * frequency_ratio
    transient = (transient_ohm + loop_reactance_ohm) * frequency_ratio
    direct = (direct_ohm + loop_reactance_ohm) * frequency_ratio
    emf = emf_v * frequency_ratio
    first_a = _set_current_a(emf, sub, quadrature, loop_resistance_ohm)
    second_a = _set_current_a(emf, transient, quadrature, loop_resistance_ohm)
    last_a = field_ratio * _set_current_a(emf, direct, quadrature, loop_resistance_ohm)
    out[0] = first_a - second_a
    out[1] = _loaded_time_constant_s(subtransient_open_s, sub, transient, quadrature, loop_resistance_ohm)
    out[2] = second_a - last_a
    out[3] = _loaded_time_constant_s(transient_open_s, transient, direct, quadrature, loop_resistance_ohm)
    out[4] = last_a


@kernel("float64(float64[::1], float64)")
def decrement_current_a(decrement: FloatArray, time_s: float) -> float:
    """What is the current of a decrement at this moment?

    Parameters
    ----------
    decrement : (5,) as `engine_set_decrement` writes it, [A], [s], [A], [s], [A]
    time_s : [s], >= 0, since the fault began

    Returns
    -------
    current_a : [A], RMS, symmetrical

    Errors: none. NaN in, NaN out.
    Source: IEC 61363-1, sum of exponentials.
    """
    return float(
        decrement[0] * math.exp(-time_s / decrement[1]) + decrement[2] * math.exp(-time_s / decrement[3]) + decrement[4]
    )


@kernel("float64(float64, float64)")
def _area_s(rate_per_s: float, time_s: float) -> float:
    """Integral [s] of exp(-rate t) from 0 to `time_s`."""
    if rate_per_s == 0.0:
        return time_s
    return -math.expm1(-rate_per_s * time_s) / rate_per_s


@kernel("float64(float64[::1], float64)")
def decrement_let_through_a2s(decrement: FloatArray, time_s: float) -> float:
    """How much I^2 t has a decrement let through by this moment?

    Parameters
    ----------
    decrement : (5,) as `engine_set_decrement` writes it, [A], [s], [A], [s], [A]
    time_s : [s], >= 0, since the fault began: the time at which the device opens

    Returns
    -------
    let_through_a2s : [A2 s]. A constant current I is the decrement (0, 1, 0, 1, I): I^2 t.

    Errors: none. NaN in, NaN out.
    Source: integral of the squared sum of exponentials, closed form.
    """
    sub_a = decrement[0]
    transient_a = decrement[2]
    last_a = decrement[4]
    sub_rate = 1.0 / decrement[1]
    transient_rate = 1.0 / decrement[3]
    return float(
        sub_a * sub_a * _area_s(2.0 * sub_rate, time_s)
        + transient_a * transient_a * _area_s(2.0 * transient_rate, time_s)
        + last_a * last_a * time_s
        + 2.0 * sub_a * transient_a * _area_s(sub_rate + transient_rate, time_s)
        + 2.0 * sub_a * last_a * _area_s(sub_rate, time_s)
        + 2.0 * transient_a * last_a * _area_s(transient_rate, time_s)
    )


@kernel("float64(float64[::1], float64, float64)")
def time_available_s(decrement: FloatArray, withstand_a2s: float, longest_s: float) -> float:
    """How long may a fault last before the conductor has had all the let-through it bears?

    Parameters
    ----------
    decrement : (5,) as `engine_set_decrement` writes it, [A], [s], [A], [s], [A]
    withstand_a2s : [A2 s], >= 0, k^2 S^2 (cord_short_overload.py)
    longest_s : [s], > 0, how far to look

    Returns
    -------
    time_s : [s]; inf where `longest_s` passes first (the current dies away, or the conductor bears it)

    Errors: none. inf is an outcome ("holds"): name it before it leaves the engine. Past 5 s heat leaves the copper and
    the figure is early, the safe side.
    Source: IEC 60364-4-43 (2008) cl. 434.5.2, integral of I^2 dt = k^2 S^2; it grows with time, so it is bisected.
    """
    if withstand_a2s <= 0.0:
        return 0.0
    if not decrement_let_through_a2s(decrement, longest_s) > withstand_a2s:
        return math.inf
    low_s = 0.0
    high_s = longest_s
    for _ in range(200):
        middle_s = low_s + 0.5 * (high_s - low_s)
        if middle_s in (low_s, high_s):
            break
        if decrement_let_through_a2s(decrement, middle_s) > withstand_a2s:
            high_s = middle_s
        else:
            low_s = middle_s
    return low_s


@kernel("float64(float64, float64)")
def fault_heat_j(let_through_a2s: float, resistance_ohm: float) -> float:
    """How much heat does a fault put into a conductor or a contact?

    Parameters
    ----------
    let_through_a2s : [A2 s], until the device opens
    resistance_ohm : [ohm], of the part asked about, taken as constant

    Returns
    -------
    heat_j : [J]

    Errors: none. NaN in, NaN out.
    Source: Joule's law.
    """
    return let_through_a2s * resistance_ohm
