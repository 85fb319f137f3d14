"""Which alternator and engine does a start on a set without electronics meet?

A two-leg set carries on one leg what that leg is wound for, half of the alternator, but its engine and its flywheel
carry both legs. The running rating is the alternator's; watts are read as volt-amperes. Starting watts are left aside:
no standard says for how long, and what an alternator gives follows from its reactances and its field.
A capacitor-regulated set is wound for its own reactance: whatever that is, it carries its label. So its compounding is
at least what that takes, and the hard estimate is a poor set, not one that nobody could sell.
Source: GENERATOR_ASSUMPTIONS of engine/physics/generator_response; common practice, no source. Rated power factor 0.8
lagging: ISO 8528-1, from memory.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.starts.start_network import Seen
from ampwright.engine.physics.generator_response import (
    AVR,
    CAPACITOR_REGULATED,
    GENERATOR_ASSUMPTIONS,
    GENERATOR_CEILING,
    GENERATOR_COLUMNS,
    GENERATOR_COMPOUNDING,
    GENERATOR_DIES_PU,
    GENERATOR_DROOP,
    GENERATOR_ENGINE_PU,
    GENERATOR_EXCITER_TIME_S,
    GENERATOR_FIELD_TIME_S,
    GENERATOR_GOVERNOR_TIME_S,
    GENERATOR_INERTIA_S,
    GENERATOR_NO_LOAD_FREQUENCY_PU,
    GENERATOR_RATED_VA,
    GENERATOR_REGULATOR_GAIN,
    GENERATOR_RESISTANCE_PU,
    GENERATOR_SELF_EXCITATION_KNEE_PU,
    GENERATOR_SYNCHRONOUS_REACTANCE_PU,
    GENERATOR_TECHNOLOGY,
    GENERATOR_TORQUE_PEAK_PU,
    GENERATOR_TORQUE_RISE,
    GENERATOR_TRANSIENT_REACTANCE_PU,
    GENERATOR_VOLTAGE_V,
)
from ampwright.engine.physics.source_limit_state import (
    SOURCE_COLUMNS,
    SOURCE_CORD_REACTANCE_OHM,
    SOURCE_CORD_RESISTANCE_OHM,
    SOURCE_EMF_V,
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_RESPONSE,
    STIFF,
)
from ampwright.engine.site.settled import SettledSite

Real = npt.NDArray[np.float64]

TECHNOLOGIES = {"avr": AVR, "capacitor_regulated": CAPACITOR_REGULATED}
# assumption, column, whether its high value makes a start harder
_COLUMNS = (
    ("synchronous_reactance_pu", GENERATOR_SYNCHRONOUS_REACTANCE_PU, True),
    ("resistance_pu", GENERATOR_RESISTANCE_PU, True),
    ("field_time_s", GENERATOR_FIELD_TIME_S, True),
    ("exciter_time_s", GENERATOR_EXCITER_TIME_S, True),
    ("regulator_gain", GENERATOR_REGULATOR_GAIN, False),
    ("ceiling", GENERATOR_CEILING, False),
    ("self_excitation_knee_pu", GENERATOR_SELF_EXCITATION_KNEE_PU, True),
    ("inertia_s", GENERATOR_INERTIA_S, False),
    ("droop", GENERATOR_DROOP, True),
    ("governor_time_s", GENERATOR_GOVERNOR_TIME_S, True),
    ("engine_pu", GENERATOR_ENGINE_PU, False),
    ("no_load_frequency_pu", GENERATOR_NO_LOAD_FREQUENCY_PU, False),
    ("compounding", GENERATOR_COMPOUNDING, False),
    ("torque_rise", GENERATOR_TORQUE_RISE, False),
    ("torque_peak_pu", GENERATOR_TORQUE_PEAK_PU, True),
    ("dies_pu", GENERATOR_DIES_PU, True),
)
# Behind a reactance a load takes the more power over rating, the larger the set, only where its voltage is below this
# (maximum power transfer at unity power factor; lower otherwise).
_LEANS_ON_LOW_VOLTAGE_PU = 1.0 / math.sqrt(2.0)
_LARGER_STEP, _LARGER_UP_TO = 2.0**0.25, 4.0
_LESS_CORD_OHM = tuple(0.02 * 2.0 ** (k / 2.0) for k in range(16))  # to 3.6 ohm; the step is a choice
# What a set holds at its rated current at this power factor, lagging (ISO 8528-1, from memory), over its voltage
# (common practice, no source).
_LABEL_POWER_FACTOR, _LABEL_HOLDS_PU = 0.8, 0.9


def set_of(technology: str | None) -> bool:
    """Whether voltage and frequency of the source give way as a set's without electronics do."""
    return technology in TECHNOLOGIES


def possible_sets(site: SettledSite, technology: str | None) -> tuple[str | None, ...]:
    """What a set may be: where nobody said, neither kind is the weaker one in every start, and both are run.

    A set without a regulator loses its voltage, one with a regulator keeps it up and can lose its frequency.
    """
    if site.source.source.technology is None and technology == "capacitor_regulated":
        return ("capacitor_regulated", "avr")
    return (technology,)


def rated_va(site: SettledSite) -> float:
    """[VA] of the whole set."""
    source = site.source
    legs = len(source.leg_angles_rad)
    found = [
        limit.continuous * (source.leg_voltage_v * legs if limit.unit == "A" else 1.0)
        for limit in source.limits
        if len(limit.circuits) == len(source.circuits)
    ]
    return max(found, default=sum(circuit.rating_a for circuit in source.circuits) * source.leg_voltage_v)


def transient_reactance_ohm(site: SettledSite) -> tuple[float, float, float]:
    """[ohm] of one leg, easy to hard."""
    legs = len(site.source.leg_angles_rad)
    base = site.source.leg_voltage_v**2 * legs / max(rated_va(site), 1.0)
    low, typical, high = _transient_pu(site)
    return base * low, base * typical, base * high


def _transient_pu(site: SettledSite) -> tuple[float, float, float]:
    given = site.source.source.transient_reactance_pu
    if given is not None:
        return given.low, given.typical, given.high
    low, typical, high = GENERATOR_ASSUMPTIONS["transient_reactance_pu"]
    return low, typical, high


def leans_on_low_voltage(least_voltage_v: float, generator: Real) -> bool:
    """Whether a start may have succeeded because the voltage gave way before the engine had to."""
    return bool(least_voltage_v < _LEANS_ON_LOW_VOLTAGE_PU * generator[GENERATOR_VOLTAGE_V])


def larger_sets(generator: Real) -> list[float]:
    """How many times larger the sets are that must make a start as well, before a smaller one is relied on to.

    On steps of sizes that are the same for every set, so that no larger set is ever judged worse than a smaller one.
    """
    rated = float(generator[GENERATOR_RATED_VA])
    first = math.floor(math.log(rated) / math.log(_LARGER_STEP)) + 1
    last = math.floor(math.log(rated * _LARGER_UP_TO) / math.log(_LARGER_STEP))
    return [_LARGER_STEP**k / rated for k in range(first, last + 1)]


def with_less_cord(feed: Real, least_ohm: float) -> list[Real]:
    """The same source row behind less resistance and as much less reactance, on a ladder that all cords share.

    least_ohm : [ohm] without any cord.
    """
    found: list[Real] = []
    for ohm in _LESS_CORD_OHM:
        if least_ohm < ohm < feed[SOURCE_CORD_RESISTANCE_OHM]:
            less = feed.copy()
            less[SOURCE_CORD_REACTANCE_OHM] *= ohm / less[SOURCE_CORD_RESISTANCE_OHM]
            less[SOURCE_CORD_RESISTANCE_OHM] = ohm
            found.append(less)
    return found


def label_compounding(generator: Real) -> float:
    """Least field gained per unit of load current with which a capacitor-regulated set carries its own label.

    From the flux and the lagging part of its rated current, at the speed that the droop leaves, all slopes of
    generator_response nought.
    """
    reactance, transient = generator[GENERATOR_SYNCHRONOUS_REACTANCE_PU], generator[GENERATOR_TRANSIENT_REACTANCE_PU]
    knee, volts = generator[GENERATOR_SELF_EXCITATION_KNEE_PU], _LABEL_HOLDS_PU
    power = _LABEL_POWER_FACTOR * volts
    speed = generator[GENERATOR_NO_LOAD_FREQUENCY_PU] - generator[GENERATOR_DROOP] * power
    amps = complex(_LABEL_POWER_FACTOR, -math.sqrt(1.0 - _LABEL_POWER_FACTOR**2))
    emf = volts + complex(generator[GENERATOR_RESISTANCE_PU], speed * transient) * amps
    lagging = -(amps * emf.conjugate()).imag / abs(emf)
    own = volts * (1.0 + knee) / (volts + knee)
    return float((abs(emf) / speed + (reactance - transient) * lagging) / own - 1.0)


def generator_row(
    site: SettledSite,
    technology: str | None,
    estimate: int,
    sight: Seen,
    n: int,
    power_elsewhere_w: float,
    larger: float = 1.0,
) -> tuple[Real, Real]:
    """Source and generator rows of the kernel for one start.

    power_elsewhere_w : [W] on legs that the start does not touch; the engine carries it too.
    larger : times the set's rating
    """
    legs = len(site.source.leg_angles_rad)
    touched = [leg for leg in range(3) if sight.forward[n, leg] != 0.0]
    of_all = legs / len(touched)
    rated = larger * rated_va(site) / of_all
    if len(touched) == 3:
        rated /= 3.0
    before = sum(sight.before_a[n, :, leg].sum() * sight.forward[n, leg] for leg in touched) / len(touched)
    per = sum(sight.per_a[n, :, leg].sum() * sight.forward[n, leg] for leg in touched) / len(touched)
    beside = before / (per * sight.emf_v[n])
    source = np.zeros(SOURCE_COLUMNS)
    source[SOURCE_EMF_V] = abs(sight.emf_v[n])
    source[SOURCE_RESPONSE] = STIFF
    source[SOURCE_OTHER_CONDUCTANCE_S] = beside.real
    source[SOURCE_OTHER_SUSCEPTANCE_S] = beside.imag
    source[SOURCE_CORD_RESISTANCE_OHM] = sight.ohm[n].real
    source[SOURCE_CORD_REACTANCE_OHM] = sight.ohm[n].imag
    generator = np.zeros(GENERATOR_COLUMNS)
    generator[GENERATOR_TECHNOLOGY] = TECHNOLOGIES[technology or "avr"]
    generator[GENERATOR_RATED_VA] = rated
    generator[GENERATOR_VOLTAGE_V] = abs(sight.emf_v[n])
    generator[GENERATOR_TRANSIENT_REACTANCE_PU] = _transient_pu(site)[estimate]
    for name, column, hard_high in _COLUMNS:
        generator[column] = GENERATOR_ASSUMPTIONS[name][estimate if hard_high else 2 - estimate]
    if generator[GENERATOR_TECHNOLOGY] == CAPACITOR_REGULATED:
        generator[GENERATOR_COMPOUNDING] = max(generator[GENERATOR_COMPOUNDING], label_compounding(generator))
    generator[GENERATOR_INERTIA_S] *= of_all
    generator[GENERATOR_DROOP] /= of_all
    most = generator[GENERATOR_ENGINE_PU] * of_all - power_elsewhere_w / max(rated, 1.0)
    generator[GENERATOR_ENGINE_PU] = max(most, 0.05)
    return source, generator
