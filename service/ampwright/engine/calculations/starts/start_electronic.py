"""What becomes of a tool whose electronics run its motor up, easy, typical and hard?

No surge of current: a ramp of power to a peak, at more amperes where the voltage is low. Whether such electronics fold
back on a weak source or give up below a voltage is not on a plate: easy folds back, typical and hard give up. Behind
each limit of the source and each response that it may have one run is made, and the worst counts.
Source: engine/physics electronic_start; `ELECTRONIC_ASSUMPTIONS` common practice, no source.
Not here: the surge of their capacitor at plugging in, which is a rectifier's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from types import MappingProxyType

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.starts.start_limits import TimedLimit
from ampwright.engine.calculations.starts.start_network import Seen
from ampwright.engine.calculations.starts.start_outcomes import STARTED, OneStart, device_opens
from ampwright.engine.calculations.starts.start_runs import HORIZON_S, OUTCOMES, SLOW_S, WORSE, limit_row, plain_source
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.electronic_start import ELECTRONIC_COLUMNS, electronic_start
from ampwright.engine.physics.protective_device import Device
from ampwright.engine.physics.source_limit_state import LIMITS
from ampwright.engine.physics.start_outcome import (
    RESULT_COLUMNS,
    RESULT_FIRST_CREST_A,
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OUTCOME,
    RESULT_SEGMENTS,
    RESULT_TIME_TO_SPEED_S,
)
from ampwright.engine.site.settle_start import SettledStart
from ampwright.engine.site.settled import SettledSite

# easy, typical, hard; of the working power, in seconds, of the plate's voltage. Common practice, no source.
ELECTRONIC_ASSUMPTIONS = MappingProxyType(
    {
        "peak_ratio": (1.1, 1.4, 1.8),
        "run_up_s": (0.3, 0.8, 1.5),
        "drop_out_ratio": (0.0, 0.7, 0.8),
        "crest_factor": (1.5, 2.5, 2.8),
    }
)
CORRECTED_CREST_FACTOR = 1.5


def electronic_row(start: SettledStart, estimate: int) -> npt.NDArray[np.float64]:
    """(1, ELECTRONIC_COLUMNS) of one leg of a tool's supply."""
    watts = start.power_w / start.phases
    volts = start.voltage_v / (3.0**0.5 if start.phases == 3 else 1.0)
    factor = min(1.0, start.power_w / (start.voltage_v * start.current_a * (3.0**0.5 if start.phases == 3 else 1.0)))
    peak = ELECTRONIC_ASSUMPTIONS["peak_ratio"][estimate] * watts
    if start.peak_a is not None:
        peak = max(start.peak_a.at(estimate) * volts * factor, watts)
    run_up = start.run_up_s.at(estimate) if start.run_up_s else ELECTRONIC_ASSUMPTIONS["run_up_s"][estimate]
    crest = CORRECTED_CREST_FACTOR if start.corrected else ELECTRONIC_ASSUMPTIONS["crest_factor"][estimate]
    row = np.empty((1, ELECTRONIC_COLUMNS))
    row[0] = peak, watts, run_up, factor, crest, ELECTRONIC_ASSUMPTIONS["drop_out_ratio"][estimate] * volts
    return row


def electronic_outcome(
    site: SettledSite,
    limits: Sequence[TimedLimit],
    devices: Sequence[Device | None],
    sight: Seen,
    n: int,
    tool: int,
    start: SettledStart,
    estimate: int,
) -> OneStart:
    """One estimate of one start. sight, n : the site as it is seen from there, with the source's own impedance."""
    circuit = site.source.receptacles[site.placements[tool].receptacle].circuit
    legs = tuple(leg for leg in range(3) if sight.forward[n, leg] != 0.0)
    played = [
        (k, response, limit_row(limit, sight, n, estimate, response))
        for k, limit in enumerate(limits)
        if limit.covers(circuit, legs)
        for response in limit.responses[estimate]
    ] or [(-1, -1, plain_source(sight, n))]
    volts = abs(complex(sight.emf_v[n]))
    setting = np.array([[HORIZON_S, 1.0, SLOW_S, 0.5, 0.9 * volts, 0.8 * volts, 0.7 * volts, 0.5 * volts]])
    row = electronic_row(start, estimate)
    found: list[OneStart] = []
    ranks: list[int] = []
    for k, response, source in played:
        result, segment = np.empty((1, RESULT_COLUMNS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
        electronic_start(row, source[None], setting, result, segment)
        count = int(result[0, RESULT_SEGMENTS])
        history = tuple(segment[0, :count, 0].tolist()), tuple(segment[0, :count, 1].tolist())
        code = int(result[0, RESULT_OUTCOME])
        outcome, lasts_s = OUTCOMES[code], float(result[0, RESULT_TIME_TO_SPEED_S])
        trips_s, band = device_opens(site, devices, sight, n, tool, history, estimate)
        if outcome in STARTED and trips_s < lasts_s:
            outcome = "trips"
        stays = response == LIMITS and bool(result[0, RESULT_LIMITED_AT_END]) and not math.isfinite(lasts_s)
        found.append(
            OneStart(
                outcome, float(result[0, RESULT_FIRST_CREST_A]), lasts_s, float(result[0, RESULT_LIMITED_S]), stays, k,
                trips_s, band, float(result[0, RESULT_LEAST_LOAD_VOLTAGE_V]),
            )
        )  # fmt: skip
        ranks.append(int(WORSE[code]))
    return found[max(range(len(found)), key=ranks.__getitem__)]
