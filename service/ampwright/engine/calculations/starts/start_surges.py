"""What does a rectifier or a filament draw in its first moments, and does anything open on it?

A rectifier's surge lasts for milliseconds: electronics of a source clip it, so only a magnetic release can mind it. A
filament draws eight to fifteen times its current until it is warm: a source that limits warms it later, one that
switches off beyond its overload may do so.
Source: engine/physics rectifier_inrush, lamp_inrush; a surge that a source clips is assumption L-04 of limit_events.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.lamp_inrush import (
    LAMP_ASSUMPTIONS,
    LAMP_COLUMNS,
    LAMP_CREST_A,
    LAMP_RESULTS,
    LAMP_SEGMENTS,
    lamp_inrush,
)
from ampwright.engine.physics.rectifier_inrush import (
    INRUSH_CREST_A,
    INRUSH_CURRENT_SQUARED_TIME_A2S,
    INRUSH_TIME_S,
    RECTIFIER_ASSUMPTIONS,
    RECTIFIER_COLUMNS,
    RECTIFIER_RESULTS,
    rectifier_inrush,
)
from ampwright.engine.site.settle_start import FILAMENT, LOW_VOLTAGE_V, SettledStart

History = tuple[tuple[float, ...], tuple[float, ...]]
_DIGITS = 3


@dataclass(frozen=True, slots=True)
class Surge:
    """First crest [A], how long the surge lasts [s], and its effective currents in steps."""

    crest_a: float
    lasts_s: float
    history: History


def surge_of(start: SettledStart, emf_v: float, ohm: complex, estimate: int) -> Surge:
    """Surge of a start behind a voltage and an impedance, which are taken to three digits so that alike ones share."""
    figures = tuple(float(f"{value:.{_DIGITS}g}") for value in (emf_v, max(ohm.real, 1e-3), max(ohm.imag, 0.0)))
    return _surge(start, figures[0], figures[1], figures[2], estimate)


@lru_cache(maxsize=4096)
def _surge(start: SettledStart, emf_v: float, resistance_ohm: float, reactance_ohm: float, estimate: int) -> Surge:
    if start.model == FILAMENT:
        return _filament(start, emf_v, resistance_ohm, estimate)
    if start.peak_a is not None:
        peak = start.peak_a.at(estimate)
        # a crest that a meter saw, for a quarter of a cycle
        seconds = 0.25 / start.frequency_hz
        return Surge(peak, seconds, ((seconds,), (peak / math.sqrt(2.0),)))
    kind = "corrected_farad_per_watt"
    if not start.corrected:
        low_voltage = start.voltage_v <= LOW_VOLTAGE_V
        kind = "uncorrected_farad_per_watt_120v" if low_voltage else "uncorrected_farad_per_watt_230v"
    omega = 2.0 * math.pi * start.frequency_hz
    row = np.zeros((1, RECTIFIER_COLUMNS))
    row[0] = (
        emf_v, resistance_ohm + RECTIFIER_ASSUMPTIONS["surge_resistance_ohm"][2 - estimate], reactance_ohm / omega,
        RECTIFIER_ASSUMPTIONS[kind][estimate] * start.power_w, RECTIFIER_ASSUMPTIONS["drop_v"][1], 0.0,
        start.frequency_hz, 0.5 * math.pi,
    )  # fmt: skip
    out = np.empty((1, RECTIFIER_RESULTS))
    rectifier_inrush(row, out)
    seconds = float(out[0, INRUSH_TIME_S])
    if not math.isfinite(seconds) or seconds <= 0.0:
        seconds = 0.5 / start.frequency_hz
    effective = math.sqrt(float(out[0, INRUSH_CURRENT_SQUARED_TIME_A2S]) / seconds)
    return Surge(float(out[0, INRUSH_CREST_A]), seconds, ((seconds,), (effective,)))


def _filament(start: SettledStart, emf_v: float, resistance_ohm: float, estimate: int) -> Surge:
    ratios, times_s = LAMP_ASSUMPTIONS["tungsten" if start.peak_a is None else "heater"]
    ratio = ratios[estimate]
    if start.peak_a is not None:
        ratio = max(start.peak_a.at(estimate) / start.current_a, 1.0)
    row = np.zeros((1, LAMP_COLUMNS))
    row[0] = (emf_v, resistance_ohm, start.current_a, ratio, times_s[estimate])
    out, pieces = np.empty((1, LAMP_RESULTS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    lamp_inrush(row, out, pieces)
    count = int(out[0, LAMP_SEGMENTS])
    history = (tuple(pieces[0, :count, 0].tolist()), tuple(pieces[0, :count, 1].tolist()))
    return Surge(float(out[0, LAMP_CREST_A]), float(sum(history[0])), history)
