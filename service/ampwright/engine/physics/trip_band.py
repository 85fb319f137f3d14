"""What band do a standard's points leave a device, and how does the air around it move that band?

A `Band` holds the numbers of trip_time.py for one device: two edges and the standard's guaranteed points, as multiples
of its rating, with the basis of each. The helpers fit the time constant of a thermal image to a point in closed form.

Ambient: a bimetal opens at a temperature, so air that is x kelvin warmer lowers the level of an image by x over the
element's rise at rated current. That rise is not in any standard (assumption B-07): a strong and a weak value bound
it. An earliest edge takes the strong one in the heat and the weak one in the cold, a latest edge the other way round,
so a wrong value never narrows the band. A guaranteed point stands as printed at the calibration ambient and above it;
in the cold its multiple rises by the strong value. Magnetic elements do not shift.

Source: dimensional reasoning of the first-order model; assumptions are listed in protective_device.py.
Not here: which device has which band (breaker_bands.py, fuse_melting.py), the play of a history (trip_time.py).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

NEVER = math.inf

# "No instantaneous trip at 3 In" means above 3 In, "instantaneous trip at 5 In" means from 5 In on; the kernel asks
# for "above", so the second is set a hair lower.
_HAIR = 1e-9

_MAGNETIC_POINT_S = 1.0  # a point of a second or less tests the magnetic element


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of a band: two thermal images and an instantaneous element.

    tau_slow_s, tau_fast_s : [s]; level_slow_ratio, level_fast_ratio : [ratio of (I/In)^2];
    instantaneous_multiple : [ratio of In], inf where there is none; instantaneous_s : [s]
    """

    tau_slow_s: float
    level_slow_ratio: float
    tau_fast_s: float
    level_fast_ratio: float
    instantaneous_multiple: float = NEVER
    instantaneous_s: float = 0.1

    def as_row(self) -> tuple[float, ...]:
        """The six numbers in the order of trip_time.py."""
        return (
            self.tau_slow_s,
            self.level_slow_ratio,
            self.tau_fast_s,
            self.level_fast_ratio,
            self.instantaneous_multiple,
            self.instantaneous_s,
        )


@dataclass(frozen=True, slots=True)
class GuaranteedPoint:
    """What a standard promises: held at `multiple` for `seconds`, it has opened.

    multiple : [ratio of In]; seconds : [s]; before_multiple, before_seconds : the run at or above a lower multiple,
    counted from its own start, that the test asks for as well (0, 0 where it starts cold)
    """

    multiple: float
    seconds: float
    basis: str
    status: str
    before_multiple: float = 0.0
    before_seconds: float = 0.0

    def as_row(self) -> tuple[float, float, float, float]:
        """The four numbers in the order of trip_time.py."""
        return (self.multiple, self.seconds, self.before_multiple, self.before_seconds)


@dataclass(frozen=True, slots=True)
class Band:
    """Earliest and latest edge of a device, its guaranteed points and how the ambient moves them.

    calibration_ambient_c : [C] where the numbers hold as they stand; strong_rise_k, weak_rise_k : [K] rise of the
    element at rated current, smallest and largest plausible; inf where the device is ambient-compensated
    """

    earliest: Edge
    latest: Edge
    points: tuple[GuaranteedPoint, ...]
    assumptions: tuple[str, ...]
    calibration_ambient_c: float
    strong_rise_k: float
    weak_rise_k: float


def tau_through_s(multiple: float, seconds: float, level_ratio: float) -> float:
    """Time constant of an image that reaches its level at a given time, from cold at a constant multiple.

    Parameters
    ----------
    multiple : [ratio of In], multiple^2 > level_ratio
    seconds : [s]
    level_ratio : [ratio of (I/In)^2]

    Returns
    -------
    tau_s : [s]

    Errors: ValueError where the multiple never reaches the level.
    Source: closed form of d(theta)/dt = (m^2 - theta)/tau.
    """
    heat = multiple * multiple
    if heat <= level_ratio:
        raise ValueError(f"{multiple} In settles at {heat}, below the level {level_ratio}: it never opens")
    return seconds / math.log(heat / (heat - level_ratio))


def tau_through_hot_point_s(
    before_multiple: float, before_seconds: float, multiple: float, seconds: float, level_ratio: float
) -> float:
    """Time constant of an image that reaches its level `seconds` after a step up from a run that started cold.

    Parameters
    ----------
    before_multiple : [ratio of In] of the run before
    before_seconds : [s], equal to `seconds`
    multiple : [ratio of In] after the step
    seconds : [s]
    level_ratio : [ratio of (I/In)^2], below multiple^2

    Returns
    -------
    tau_s : [s]

    Errors: ValueError where both runs are not equally long, or no time constant does it.
    Source: with x = exp(-t/tau), b x^2 + (h - b) x - (h - level) = 0 for heats b before and h after.
    """
    if before_seconds != seconds:
        raise ValueError("the closed form needs two runs of equal length")
    before = before_multiple * before_multiple
    heat = multiple * multiple
    gap = heat - before
    discriminant = gap * gap + 4.0 * before * (heat - level_ratio)
    left = (math.sqrt(discriminant) - gap) / (2.0 * before)
    if not 0.0 < left < 1.0:
        raise ValueError(f"no time constant reaches level {level_ratio} at {multiple} In")
    return -seconds / math.log(left)


def above(multiple: float) -> float:
    """Instantaneous multiple of an edge that acts above a value but not at it.

    Parameters
    ----------
    multiple : [ratio of In]

    Returns
    -------
    multiple : [ratio of In]

    Errors: none. Source: wording of the standards' tests.
    """
    return multiple * (1.0 + _HAIR)


def from_on(multiple: float) -> float:
    """Instantaneous multiple of an edge that acts at a value and above.

    Parameters
    ----------
    multiple : [ratio of In]

    Returns
    -------
    multiple : [ratio of In]

    Errors: none. Source: wording of the standards' tests.
    """
    return multiple * (1.0 - _HAIR)


def _shifted(edge: Edge, fall: float) -> Edge:
    return replace(edge, level_slow_ratio=edge.level_slow_ratio - fall, level_fast_ratio=edge.level_fast_ratio - fall)


def at_ambient(band: Band, ambient_c: float) -> Band:
    """The band in air of another temperature.

    Parameters
    ----------
    band : as it stands at its calibration ambient
    ambient_c : [C] air at the device, not in the room

    Returns
    -------
    band : levels and points moved, never narrower for a wrong rise

    Errors: none; ranges are checked in protective_device.py. Source: assumption B-07.
    """
    warmer_k = ambient_c - band.calibration_ambient_c
    if warmer_k == 0.0:
        return band
    strong = warmer_k / band.strong_rise_k
    weak = warmer_k / band.weak_rise_k
    points = band.points
    if warmer_k < 0.0:
        points = tuple(
            point
            if point.seconds <= _MAGNETIC_POINT_S
            else replace(
                point,
                multiple=math.sqrt(point.multiple**2 - strong),
                before_multiple=math.sqrt(point.before_multiple**2 - strong) if point.before_multiple else 0.0,
            )
            for point in points
        )
    return replace(
        band,
        earliest=_shifted(band.earliest, strong if warmer_k > 0.0 else weak),
        latest=_shifted(band.latest, weak if warmer_k > 0.0 else strong),
        points=points,
    )
