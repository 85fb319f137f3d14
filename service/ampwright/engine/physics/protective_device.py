"""Which device is it, and does it hold this current history?

The typed face of trip_time.py: frozen dataclasses in, bands out, one device or many (a batch gives each row the bits of
a single call). Assumptions, by the numbers that answers carry:

B-01  A UL 489 breaker and a supplementary protector hold 100 % of rating for ever at the calibration ambient (25 C);
      nothing above 100 % is promised to hold.
B-02  Earliest edge of UL 489 (the standard gives none): slow image 600 s to 100 %, fast image through 142 % at half a
      minute. Common practice, no source.
B-03  Latest edge of UL 489 between and above its points: two images exactly through 135 % and 200 %, below the 300 %
      field-test maximum of NEMA AB 4 (from memory).
B-04  Instantaneous element of UL 489: may act above 6 In, does act from 20 In within 0.1 s. Common practice, no source.
B-05  IEC 60898-1 between its points: slow image 60 s to 1.13 In, fast image from 1.45 In (earliest); levels 1.9 and
      2.5 (latest). What has held 1.13 In for the conventional time holds it for ever.
B-06  Supplementary protectors: may open at 200 % after 4 s, assumed to at 200 % after 5 min and 160 % after 1 h;
      instantaneous between 3 and 40 In. The curve is the maker's; UL 1077 guarantees nothing.
B-07  A bimetal's rise at rated current is 75 to 150 K: makers' tables put the trip current 0.5 to 1 % lower per
      kelvin. Common practice, no source.
B-08  Fuses between their gates, other ratings of BS 1362, shift with ambient (250 to 500 K). No source.
B-09  A device of unknown place in its band has one quantile for life, and every number of its edge is log-uniform
      between the two edges.
B-10  Elements feel the effective current of a step. A magnetic element may act on the first peak, so a step of 5 ms is
      enough for it; the offset of an inrush is not added.

Not here: numbers of the bands (breaker_bands.py, fuse_melting.py), electronic limits (source_limit.py), ground faults
(ground_fault_trip.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ampwright.engine.physics.breaker_bands import (
    IEC_60934_POINTS,
    iec_60898_band,
    supplementary_protector_band,
    ul_489_band,
)
from ampwright.engine.physics.fuse_melting import bs_1362_band, iec_60269_gg_band
from ampwright.engine.physics.trip_band import Band, at_ambient
from ampwright.engine.physics.trip_time import (
    EDGE_LENGTH,
    EDGE_STATE_LENGTH,
    POINT_LENGTH,
    POINT_STATE_LENGTH,
    FloatArray,
    IntArray,
    trip_band_s,
)

STANDARDS = ("bs_1362", "iec_60269_gg", "iec_60898_1", "iec_60934", "ul_1077", "ul_489")
"""Standards a device can have; each but electronic limits."""

FUSES = ("bs_1362", "iec_60269_gg")
"""What opens once: no reset, a new fuse-link."""

LOWEST_AMBIENT_C, HIGHEST_AMBIENT_C = -40.0, 85.0


class UnfitDevice(ValueError):
    """A device that no band is known for; `faults` lists (member, message)."""

    def __init__(self, faults: tuple[tuple[str, str], ...]) -> None:
        super().__init__("; ".join(f"{member}: {message}" for member, message in faults))
        self.faults = faults


@dataclass(frozen=True, slots=True)
class Device:
    """One overcurrent device.

    standard : one of STANDARDS; rating_a : [A]; curve : "B", "C", "D" for IEC 60898-1, else "";
    ambient_c : [C] air at the device, None for its calibration ambient;
    compensated : ambient-compensated or hydraulic-magnetic, whose trip does not shift with the air
    """

    standard: str
    rating_a: float
    curve: str = ""
    ambient_c: float | None = None
    compensated: bool = False


@dataclass(frozen=True, slots=True)
class DeviceState:
    """What a device remembers: see trip_time.py. Cold is the state of long no current."""

    edges: tuple[tuple[float, ...], ...]
    points: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class TripBand:
    """When a device opens under a history [s from its start]; +inf where it does not.

    earliest_s : it may have opened by then; latest_guaranteed_s : the standard says it has; latest_assumed_s : the
    fitted edge says it has; state : after the whole history, had it held
    """

    earliest_s: float
    latest_guaranteed_s: float
    latest_assumed_s: float
    state: DeviceState

    @property
    def outcome(self) -> str:
        """`holds` (surely), `may_trip` or `trips` (surely, by the assumed edge)."""
        if self.earliest_s == math.inf:
            return "holds"
        return "may_trip" if self.latest_assumed_s == math.inf else "trips"


def device_faults(device: Device) -> tuple[tuple[str, str], ...]:
    """Everything that keeps a device from having a band.

    Parameters
    ----------
    device : as a caller gave it

    Returns
    -------
    faults : (member, message) each; empty when sound

    Errors: none. Source: ranges of the standards.
    """
    faults: list[tuple[str, str]] = []
    if device.standard not in STANDARDS:
        faults.append(("standard", f"{device.standard!r} is none of {', '.join(STANDARDS)}"))
    sound_rating = math.isfinite(device.rating_a) and device.rating_a > 0.0
    if not sound_rating:
        faults.append(("rating_a", f"{device.rating_a} A is no rating"))
    if device.ambient_c is not None and not LOWEST_AMBIENT_C <= device.ambient_c <= HIGHEST_AMBIENT_C:
        faults.append(("ambient_c", f"{device.ambient_c} C is outside {LOWEST_AMBIENT_C:g} to {HIGHEST_AMBIENT_C:g} C"))
    if device.standard == "iec_60898_1":
        if device.curve not in ("B", "C", "D"):
            faults.append(("curve", f"{device.curve!r} is none of B, C, D"))
    elif device.curve:
        faults.append(("curve", f"{device.standard} has no curve {device.curve!r}"))
    if device.compensated and device.standard in FUSES:
        faults.append(("compensated", "a fuse is not ambient-compensated"))
    if sound_rating and not faults:
        try:
            _calibrated_band(device)
        except ValueError as unknown:
            faults.append(("rating_a", str(unknown)))
    return tuple(faults)


def _calibrated_band(device: Device) -> Band:
    if device.standard == "ul_489":
        return ul_489_band(device.rating_a, device.compensated)
    if device.standard == "iec_60898_1":
        return iec_60898_band(device.rating_a, device.curve, device.compensated)
    if device.standard == "bs_1362":
        return bs_1362_band(device.rating_a)
    if device.standard == "iec_60269_gg":
        return iec_60269_gg_band(device.rating_a)
    points = IEC_60934_POINTS if device.standard == "iec_60934" else ()
    return supplementary_protector_band(points, device.compensated)


@lru_cache(maxsize=4096)
def band_of(device: Device) -> Band:
    """Band of a device in its air.

    Parameters
    ----------
    device : what protects

    Returns
    -------
    band : edges, points with their basis and status, assumptions

    Errors: UnfitDevice with every fault. Source: breaker_bands.py, fuse_melting.py, trip_band.py.
    """
    faults = device_faults(device)
    if faults:
        raise UnfitDevice(faults)
    band = _calibrated_band(device)
    return band if device.ambient_c is None else at_ambient(band, device.ambient_c)


@dataclass(frozen=True, slots=True)
class DeviceTable:
    """Many devices as the arrays the kernels take.

    rating_a : (n,) [A]; edges : (n, 2, 6); points : (n, k, 4), padded with multiples of +inf
    """

    rating_a: FloatArray
    edges: FloatArray
    points: FloatArray

    @classmethod
    def of(cls, devices: Sequence[Device]) -> DeviceTable:
        """The arrays of these devices.

        Parameters
        ----------
        devices : n

        Returns
        -------
        table : see the class

        Errors: UnfitDevice. Source: band_of.
        """
        bands = [band_of(device) for device in devices]
        count = max((len(band.points) for band in bands), default=0)
        edges = np.empty((len(bands), 2, EDGE_LENGTH))
        points = np.zeros((len(bands), count, POINT_LENGTH))
        points[:, :, 0] = math.inf
        for row, band in enumerate(bands):
            edges[row, 0] = band.earliest.as_row()
            edges[row, 1] = band.latest.as_row()
            for k, point in enumerate(band.points):
                points[row, k] = point.as_row()
        return cls(np.array([device.rating_a for device in devices], dtype=np.float64), edges, points)


def ragged(histories: Sequence[tuple[Sequence[float], Sequence[float]]]) -> tuple[IntArray, FloatArray, FloatArray]:
    """Histories as first steps and two flat arrays.

    Parameters
    ----------
    histories : n of (durations [s], amounts [A or the unit of a limit])

    Returns
    -------
    first_step, duration_s, amount : (n + 1,), (m,) [s], (m,) [same unit]

    Errors: ValueError for unequal lengths, a negative or NaN value, an infinite amount, or an infinite step that is
    not the last. Source: definition.
    """
    first_step = np.zeros(len(histories) + 1, dtype=np.int64)
    durations: list[FloatArray] = []
    currents: list[FloatArray] = []
    for row, (duration_s, current_a) in enumerate(histories):
        seconds = np.asarray(duration_s, dtype=np.float64)
        amperes = np.asarray(current_a, dtype=np.float64)
        if seconds.ndim != 1 or seconds.shape != amperes.shape:
            raise ValueError(f"history {row}: {seconds.shape} durations, {amperes.shape} currents")
        if not (seconds >= 0.0).all() or not np.isfinite(seconds[:-1]).all():
            raise ValueError(f"history {row}: a step lasts >= 0 s, and only the last may last for ever")
        if not ((amperes >= 0.0) & np.isfinite(amperes)).all():
            raise ValueError(f"history {row}: a current is finite and >= 0 A")
        first_step[row + 1] = first_step[row] + seconds.size
        durations.append(seconds)
        currents.append(amperes)
    if not histories:
        return first_step, np.empty(0), np.empty(0)
    return first_step, np.concatenate(durations), np.concatenate(currents)


def play_batch(
    devices: Sequence[Device],
    histories: Sequence[tuple[Sequence[float], Sequence[float]]],
    states: Sequence[DeviceState | None] | None = None,
) -> tuple[TripBand, ...]:
    """Bands of many devices, one history each, cold unless a state is given.

    Parameters
    ----------
    devices : n
    histories : n of (durations [s], currents [A])
    states : n, as TripBand.state gives them; None is cold

    Returns
    -------
    bands : n, each equal bit for bit to its own single call

    Errors: UnfitDevice, ValueError (see ragged). Source: trip_time.py.
    """
    if len(histories) != len(devices) or (states is not None and len(states) != len(devices)):
        raise ValueError(f"{len(devices)} devices need as many histories and states")
    table = DeviceTable.of(devices)
    first_step, duration_s, current_a = ragged(histories)
    count = len(devices)
    edge_state = np.zeros((count, 2, EDGE_STATE_LENGTH))
    point_state = np.zeros((count, table.points.shape[1], POINT_STATE_LENGTH))
    for row, state in enumerate(states or ()):
        if state is None:
            continue
        if len(state.points) != len(band_of(devices[row]).points):
            raise ValueError(f"state {row} is that of another device")
        edge_state[row] = state.edges
        if state.points:
            point_state[row, : len(state.points)] = state.points
    trip_s = np.empty((count, 3))
    trip_band_s(
        first_step, duration_s, current_a, table.rating_a, table.edges, table.points, edge_state, point_state, trip_s
    )
    bands = []
    for row, device in enumerate(devices):
        own_points = len(band_of(device).points)
        after = DeviceState(
            tuple(tuple(edge) for edge in edge_state[row].tolist()),
            tuple(tuple(point) for point in point_state[row, :own_points].tolist()),
        )
        earliest_s, guaranteed_s, assumed_s = trip_s[row].tolist()
        bands.append(TripBand(earliest_s, guaranteed_s, assumed_s, after))
    return tuple(bands)


def play(
    device: Device, duration_s: Sequence[float], current_a: Sequence[float], state: DeviceState | None = None
) -> TripBand:
    """Band of one device under one history.

    Parameters
    ----------
    device : what protects
    duration_s : (m,) [s], the last may be +inf
    current_a : (m,) [A], constant over each step
    state : what it remembers, None for cold

    Returns
    -------
    band : when it opens, and what it remembers had it held

    Errors: UnfitDevice, ValueError (see ragged). Source: trip_time.py.
    """
    return play_batch([device], [(duration_s, current_a)], [state])[0]


def cooled(device: Device, state: DeviceState, seconds: float) -> DeviceState:
    """What a device still remembers after a pause without current.

    Parameters
    ----------
    device : what protects
    state : at the start of the pause
    seconds : [s]

    Returns
    -------
    state : at its end

    Errors: UnfitDevice, ValueError. Source: trip_time.py.
    """
    return play(device, (seconds,), (0.0,), state).state
