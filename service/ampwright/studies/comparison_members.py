"""What does a comparison say of having a source, and of the use of a job, beside what a load check reads?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from msgspec import UNSET

from ampwright.contract.comparison_quantities import MASS, read_hire, read_noise_db
from ampwright.contract.quantities import DURATION, QuantityFault, read_quantity
from ampwright.contract.source_comparisons import ComparedJob, ComparedSource, SeenAgainstLabel
from ampwright.engine.site.use import Fault

HOUR_S = 3600.0


@dataclass(frozen=True, slots=True)
class Having:
    """What having a source means, whatever runs on it. hire : money a day and its currency."""

    mass_kg: float | None = None
    noise_db: float | None = None
    hire: tuple[float, str] | None = None
    faults: tuple[Fault, ...] = ()


def having_of(source: ComparedSource) -> Having:
    faults: list[Fault] = []
    mass = noise = hire = None
    try:
        mass = None if source.mass is UNSET else read_quantity(source.mass, MASS, above_zero=True).band.typical
    except QuantityFault as error:
        faults.append(Fault("/mass", error.code, error.message, error.did_you_mean))
    try:
        noise = None if source.noise is UNSET else read_noise_db(source.noise)
    except QuantityFault as error:
        faults.append(Fault("/noise", error.code, error.message, error.did_you_mean))
    try:
        hire = None if source.hire is UNSET else read_hire(source.hire)
    except QuantityFault as error:
        faults.append(Fault("/hire", error.code, error.message, error.did_you_mean))
    return Having(mass, noise, hire, tuple(faults))


def hours_of(job: ComparedJob, at: str) -> tuple[dict[str, float], list[Fault]]:
    """Hours a month by case, of what a job says, and what is wrong with that."""
    found: dict[str, float] = {}
    faults: list[Fault] = []
    known = [] if job.cases is UNSET else [case.id for case in job.cases]
    for place, use in enumerate(() if job.usage is UNSET else job.usage):
        here = f"{at}/usage/{place}"
        if use.case not in known:
            faults.append(Fault(f"{here}/case", "unknown_case", f"The job has no case {use.case!r}."))
        elif use.case in found:
            faults.append(Fault(f"{here}/case", "repeated_member", f"{use.case!r} is there twice."))
        try:
            found[use.case] = read_quantity(use.per_month, DURATION).band.typical / HOUR_S
        except QuantityFault as error:
            faults.append(Fault(f"{here}/per_month", error.code, error.message, error.did_you_mean))
    return found, faults


def seen_to_wire(one: Any) -> SeenAgainstLabel:
    observed = one.observation
    return SeenAgainstLabel(
        on_date=observed.on_date,
        what=observed.what,
        receptacle=observed.receptacle,
        marked_a=UNSET if one.marked_a is None else one.marked_a,
        seen_a=UNSET if one.seen_a is None else one.seen_a,
        lasted=observed.lasted,
        note=observed.note,
        lowers=one.lowers,
    )
