"""What does the engine make of what was seen when it stopped?"""

from __future__ import annotations

from msgspec import UNSET

from ampwright.contract.energy_quantities import SHARE
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.quantities import CURRENT, DURATION
from ampwright.contract.reading import Reading, given
from ampwright.contract.stop_diagnoses import Stop
from ampwright.engine.calculations.stop_diagnosis.stop_observation import StopObservation
from ampwright.engine.site.use import Fault


def read_stop(stopped: Stop, places: Places = AS_SENT) -> tuple[StopObservation, tuple[Fault, ...]]:
    """The observation, and every text of it that could not be read."""
    reading = Reading(places)
    after = reading.band(stopped.after, DURATION, "/stopped/after", above_zero=False)
    charge = reading.band(stopped.charge, SHARE, "/stopped/charge", above_zero=False)
    readings = []
    for place, item in enumerate(() if stopped.readings is UNSET else stopped.readings):
        current = reading.band(item.current, CURRENT, f"/stopped/readings/{place}/current")
        if current is not None:
            readings.append((item.circuit, current))
    return (
        StopObservation(
            tuple(stopped.running),
            given(stopped.heavy),
            given(stopped.switched_on),
            None if after is None else after.typical,
            given(stopped.extent),
            given(stopped.returned),
            None if charge is None else charge.typical,
            tuple(readings),
        ),
        reading.faults,
    )
