"""What was seen when it stopped? None means: nobody says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.use import Fault, Site


@dataclass(frozen=True, slots=True)
class StopObservation:
    """running : ids of the tools that were on. heavy : the one pushed hard. switched_on : the one just started.

    after_s : [s] how long all of them had run together. extent : of stop_causes.EXTENTS. returned : of RETURNED.
    charge_ratio : share of charge then. readings : (circuit id, current [A]) that a meter showed before it stopped.
    """

    running: tuple[str, ...]
    heavy: str | None = None
    switched_on: str | None = None
    after_s: float | None = None
    extent: str | None = None
    returned: str | None = None
    charge_ratio: float | None = None
    readings: tuple[tuple[str, Band], ...] = ()


def stop_faults(site: Site, seen: StopObservation) -> Iterator[Fault]:
    """What an observation contradicts: tools that did not run, circuits that are not there."""
    for name, tool in (("heavy", seen.heavy), ("switched_on", seen.switched_on)):
        if tool is not None and tool not in seen.running:
            message = f"{shown(tool)} is not among what ran; {listing(seen.running)} did."
            yield Fault(f"/stopped/{name}", "tool_did_not_run", message, nearest(tool, seen.running))
    circuits = {item.id for item in site.source.circuits or ()}
    circuits |= {item.circuit for item in site.source.receptacles or () if item.circuit}
    for place, (circuit, _) in enumerate(seen.readings):
        if circuit not in circuits:
            known = sorted(circuits)
            there = f"there are {listing(known)}" if known else "no circuit is named"
            yield Fault(
                f"/stopped/readings/{place}/circuit",
                "unknown_circuit",
                f"No circuit {shown(circuit)}; {there}.",
                nearest(circuit, known),
            )
