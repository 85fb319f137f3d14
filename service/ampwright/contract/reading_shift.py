"""How long is the shift that a load check looks at?"""

from __future__ import annotations

from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.quantities import DURATION
from ampwright.contract.reading import Reading
from ampwright.engine.site.use import Fault

LONGEST_S = 48.0 * 3600.0


def read_shift(request: LoadCheckRequest, places: Places = AS_SENT) -> tuple[float | None, tuple[Fault, ...]]:
    """[s] the longest that the text allows for, None where it is not given; and what could not be read."""
    reading = Reading(places)
    band = reading.band(request.shift, DURATION, "/shift")
    if band is not None and band.high > LONGEST_S:
        reading.fault("/shift", "out_of_range", "A shift lasts at most 48 h here.")
        band = None
    return (None if band is None else band.high), reading.faults
