"""What impedance does a run of conductor have, warm as it is, with its connections?

Resistance follows temperature by R = R20 (1 + alpha20 (theta - 20 C)), with alpha20 = 0.00393 1/K for annealed
copper; the resistance at 20 C comes from the table of the conductor's standard. At 50 and 60 Hz, up to the sizes of
portable cords, skin effect is under 0.1 % and is left out. The reactance of one conductor of a flexible cord,
0.1 mohm/m, is common practice, no source; at these sizes it moves a voltage by less than a hundredth.

Source: IEC 60228:2004 annex B and IEC 60287-1-1 table 1 (alpha20), both from memory.
Not here: the tables (engine/standards), how warm a cord gets (cord_heating.py).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

COPPER_ALPHA20_PER_K = 0.00393
"""Temperature coefficient of resistance of annealed copper at 20 C [1/K]; IEC 60287-1-1 table 1, from memory."""

FLEXIBLE_CORD_REACTANCE_OHM_PER_M = 0.1e-3
"""Reactance of one conductor of a flexible cord at 50 or 60 Hz [ohm/m]; common practice, no source."""

_Float = npt.NDArray[np.float64]


def _checked(name: str, values: npt.ArrayLike, lowest: float = 0.0) -> _Float:
    array = np.asarray(values, dtype=np.float64)
    wrong = ~(np.isfinite(array) & (array >= lowest))
    if wrong.any():
        raise ValueError(f"{name} must be finite and >= {lowest:g}, got {array[wrong].flat[0]:g}")
    return array


def conductor_resistance_ohm_per_m(
    resistance_20c_ohm_per_m: npt.ArrayLike,
    temperature_c: npt.ArrayLike,
    alpha20_per_k: npt.ArrayLike = COPPER_ALPHA20_PER_K,
) -> _Float:
    """Resistance of one conductor at its temperature.

    Parameters
    ----------
    resistance_20c_ohm_per_m : (...) [ohm/m] DC, at 20 C, >= 0
    temperature_c : (...) [C] of the conductor, >= -100
    alpha20_per_k : (...) [1/K] >= 0

    Returns
    -------
    resistance_ohm_per_m : (...) [ohm/m], shape by broadcasting

    Errors: ValueError for a figure that is not finite or out of range.
    Source: IEC 60287-1-1, 2.1.1, from memory. Linear in temperature: nothing here stops at what insulation stands.
    """
    resistance = _checked("resistance_20c_ohm_per_m", resistance_20c_ohm_per_m)
    temperature = _checked("temperature_c", temperature_c, -100.0)
    alpha = _checked("alpha20_per_k", alpha20_per_k)
    return np.asarray(resistance * (1.0 + alpha * (temperature - 20.0)))


def resistance_at_20c_ohm_per_m(
    resistance_ohm_per_m: npt.ArrayLike,
    temperature_c: npt.ArrayLike,
    alpha20_per_k: npt.ArrayLike = COPPER_ALPHA20_PER_K,
) -> _Float:
    """Resistance at 20 C of a conductor whose table gives it at another temperature (NEC chapter 9: 75 C).

    Parameters
    ----------
    resistance_ohm_per_m : (...) [ohm/m] DC, at `temperature_c`, >= 0
    temperature_c : (...) [C] the table's, >= -100
    alpha20_per_k : (...) [1/K] >= 0

    Returns
    -------
    resistance_20c_ohm_per_m : (...) [ohm/m], shape by broadcasting

    Errors: ValueError for a figure that is not finite or out of range.
    Source: `conductor_resistance_ohm_per_m`, solved for the resistance at 20 C.
    """
    resistance = _checked("resistance_ohm_per_m", resistance_ohm_per_m)
    temperature = _checked("temperature_c", temperature_c, -100.0)
    alpha = _checked("alpha20_per_k", alpha20_per_k)
    return np.asarray(resistance / (1.0 + alpha * (temperature - 20.0)))


def conductor_impedance_ohm(
    length_m: npt.ArrayLike,
    resistance_20c_ohm_per_m: npt.ArrayLike,
    temperature_c: npt.ArrayLike,
    *,
    reactance_ohm_per_m: npt.ArrayLike = FLEXIBLE_CORD_REACTANCE_OHM_PER_M,
    contact_ohm: npt.ArrayLike = 0.0,
    alpha20_per_k: npt.ArrayLike = COPPER_ALPHA20_PER_K,
) -> npt.NDArray[np.complex128]:
    """Series impedance of one conductor of a run, one way, with its connections.

    Parameters
    ----------
    length_m : (...) [m] one way, >= 0
    resistance_20c_ohm_per_m : (...) [ohm/m] DC, at 20 C, >= 0
    temperature_c : (...) [C] of the conductor, >= -100
    reactance_ohm_per_m : (...) [ohm/m] of one conductor, >= 0; 0 for DC
    contact_ohm : (...) [ohm] all contacts of this conductor together, >= 0; taken as it is, at any temperature
    alpha20_per_k : (...) [1/K] >= 0

    Returns
    -------
    impedance_ohm : (...) complex [ohm], shape by broadcasting

    Errors: ValueError for a figure that is not finite or out of range.
    Source: module docstring.
    """
    length = _checked("length_m", length_m)
    resistance = conductor_resistance_ohm_per_m(resistance_20c_ohm_per_m, temperature_c, alpha20_per_k)
    reactance = _checked("reactance_ohm_per_m", reactance_ohm_per_m)
    contact = _checked("contact_ohm", contact_ohm)
    return np.asarray(length * (resistance + 1j * reactance) + contact)
