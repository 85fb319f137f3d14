"""What does one cell ask: one kit on one source for one job?

It is turned into an ordinary load check (and energy budget), resolved, read and validated like one that is posted
alone, so its digest is that of such a request. What the kit's crew would plug in where is planned where the kit does
not say. Its faults are its own.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

from msgspec import UNSET, structs

from ampwright.contract.canonical import request_digest
from ampwright.contract.energy_budgets import EnergyBudgetRequest
from ampwright.contract.load_checks import Case, Connection, KitInUse, LoadCheckRequest
from ampwright.contract.matrix_parts import MatrixJob, MatrixKit, MatrixSource
from ampwright.contract.places import Places
from ampwright.contract.quantities import LENGTH
from ampwright.contract.reading import Reading
from ampwright.contract.reading_energy import read_day
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.choosing.cord_reach import CordReach, cord_reach
from ampwright.engine.calculations.choosing.kit_plugging import Plugging, plug_kit_in
from ampwright.engine.calculations.choosing.matrix import CellQuestion
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Connection as SiteConnection
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.validation import in_order, validate
from ampwright.engine.site.validation_energy import day_faults
from ampwright.studies.cost import TooMuchWork, load_check_cost_units
from ampwright.studies.energy_budget import energy_budget_cost_units
from ampwright.studies.matrix_kit import KitContent, with_followers, with_leaders
from ampwright.studies.references import has_references, resolve
from ampwright.studies.release_lookup import ReleaseLookup
from ampwright.studies.source_evidence import Seen, lowered, seen_of

COST_LIMIT_UNITS = 4_000_000  # dearest row answered, as of a load check and energy budget alone
OF_A_SOURCE = ("charge", "battery", "fuel", "allowance")
OF_A_DAY = (
    "shift", "pattern", "duties", "work", "stops", "way_home", "electricity_price", "fuel_price", "carbon", "seed",
    "draws",
)  # fmt: skip
OF_A_JOB = ("cases", "people", "conditions", "code_basis")


@dataclass(frozen=True, slots=True)
class CellAsked:
    """A cell as it is posted alone.

    question : None where it has faults, or where nothing of what the job runs is in the kit; plugging : None where the
    kit says how it is plugged in; reach : whether its cords get to the work, None where nobody said how far that is;
    missing_tools : that the job runs and the kit does not have; kept : ids of the tools
    in it; seen : what was seen of the unit; site : as it was read, before anything was planned.
    Pointers of faults and of everything in an answer go into `load_request`.
    """

    load_request: LoadCheckRequest | None
    energy_request: EnergyBudgetRequest | None
    question: CellQuestion | None
    plugging: Plugging | None
    connections: tuple[SiteConnection, ...] = ()
    missing_tools: tuple[str, ...] = ()
    distance_m: Band | None = None
    reach: CordReach | None = None
    kept: frozenset[str] = frozenset()
    seen: tuple[Seen, ...] = ()
    site: Site | None = None
    cost_units: int = 0
    faults: tuple[Fault, ...] = ()

    def without_site(self, *, with_requests: bool) -> CellAsked:
        """The same, to be kept once it was told."""
        if with_requests:
            return replace(self, question=None, site=None)
        return replace(self, question=None, site=None, load_request=None, energy_request=None)

    def digests(self) -> tuple[str, str]:
        """Of the load check, and of the energy budget ("" where there is none)."""
        energy = "" if self.energy_request is None else request_digest(self.energy_request)
        return ("" if self.load_request is None else request_digest(self.load_request)), energy


@dataclass(frozen=True, slots=True)
class CellReading:
    """How the cells of one request are read.

    pinned : members that pin a request to the release; from_lower : whether capacity is taken from the lower of mark
    and evidence; cost_limit_units : of one cell, a dearer one says so.
    """

    lookup: ReleaseLookup
    pinned: Mapping[str, Any]
    from_lower: bool
    cost_limit_units: int

    def asked(self, job: MatrixJob, kit: MatrixKit, source: MatrixSource, content: KitContent) -> CellAsked:
        """The cell as it would be posted alone. Never raises for what is wrong with it."""
        if content.faults:
            return CellAsked(None, None, None, None, faults=content.faults)
        reading = Reading()
        distance = reading.band(job.distance, LENGTH, "/distance", above_zero=False)
        if reading.faults:
            return CellAsked(None, None, None, None, faults=reading.faults)
        found = self._without(job, kit, source, content, distance, frozenset())
        if found.plugging is not None and found.plugging.unplugged and job.cases is not UNSET:
            # what cannot be plugged in cannot run: the rest is checked, and the job fails for want of it
            rest = self._without(job, kit, source, content, distance, frozenset(found.plugging.unplugged))
            return replace(rest, plugging=found.plugging, site=found.site)
        return found

    def _without(
        self,
        job: MatrixJob,
        kit: MatrixKit,
        source: MatrixSource,
        content: KitContent,
        distance_m: Band | None,
        left_out: frozenset[str],
    ) -> CellAsked:
        request, missing, kept = self._request(job, kit, source, content, left_out)
        bare = CellAsked(request, None, None, None, (), missing, distance_m, kept=kept)
        if request is None:
            return bare
        resolved = resolve(request, self.lookup)
        if resolved.request is None:
            return replace(bare, faults=resolved.faults)
        site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
        if self.from_lower:
            bare = replace(bare, seen=seen_of(site.source, resolved.entries))
            lower = lowered(request, bare.seen)
            lowest = None if lower is None else resolve(lower, self.lookup)
            if lower is not None and lowest is not None and lowest.request is not None:
                request, resolved = lower, lowest
                site, unread = read_site(lowest.request, lowest.places, lowest.adapters)
                bare = replace(bare, load_request=request)
        assert resolved.request is not None
        bare = replace(bare, site=site)
        energy, day, unread_day = self._day(job, source, request, resolved.request, resolved.places)
        if faults := in_order((*resolved.faults, *unread, *unread_day)):
            return replace(bare, energy_request=energy, faults=faults)
        plugging = None
        # a source that lists no receptacles is left to the load check, which assumes one and says so
        if site.connections is None and site.source.receptacles is not None and not validate(site):
            far_m = None if distance_m is None else distance_m.high
            plugging = plug_kit_in(site, {tool.id for tool in site.tools}, far_m)
            plugged = tuple(replace(one, pointer=f"/connections/{n}") for n, one in enumerate(plugging.connections))
            site = replace(site, connections=plugged)
            said = [Connection(plug=one.plug, into=one.into) for one in plugged]
            request = structs.replace(request, connections=said)
            energy = None if energy is None else structs.replace(energy, connections=said)
            if plugging.unplugged and site.cases is not None:
                return replace(bare, load_request=request, plugging=plugging, connections=plugged)
        faults = validate(site)
        if day is not None and not faults:
            faults = in_order(day_faults(site, day))
        cost = 0
        if not faults:
            cost = load_check_cost_units(site) + (0 if day is None else energy_budget_cost_units(site, day))
            if cost > self.cost_limit_units:
                # as it would be refused alone, so that one row cannot hold up the others
                dear = TooMuchWork(cost, self.cost_limit_units)
                faults = (Fault("", "too_much_work", f"It costs {dear}; ask with fewer cases or tools."),)
        withdrawn = tuple(
            (e.pointer, f"{e.entry} revision {e.revision}", e.withdrawn) for e in resolved.entries if e.withdrawn
        )
        return replace(
            bare,
            load_request=request,
            energy_request=energy,
            cost_units=0 if faults else cost,
            question=None if faults else CellQuestion(site, day, withdrawn),
            plugging=plugging,
            connections=site.connections or (),
            reach=None if faults else cord_reach(site, running_tools(site, plugging), distance_m),
            faults=faults,
        )

    def _request(
        self,
        job: MatrixJob,
        kit: MatrixKit,
        source: MatrixSource,
        content: KitContent,
        left_out: frozenset[str],
    ) -> tuple[LoadCheckRequest | None, tuple[str, ...], frozenset[str]]:
        """The load check but for what is plugged in where, None where nothing is left to run; tools that are not there;
        and those that it holds. left_out : tools that cannot be plugged in."""
        there = {tool.id for tool, _, _ in content.tools}
        members = {name: value for name in OF_A_JOB if (value := getattr(job, name)) is not UNSET}
        missing: tuple[str, ...] = ()
        wanted = there
        if job.cases is not UNSET:
            running = dict.fromkeys(name for case in job.cases for name in case.running)
            missing = tuple(name for name in running if name not in there)
            gone = with_followers({*missing, *left_out}, content)
            left = [case for case in (_reduced(case, gone) for case in job.cases) if case.running]
            if job.cases and not left:
                return None, missing, frozenset()
            members["cases"] = left
            wanted = with_leaders({name for name in running if name in there and name not in gone}, content)
        if content.adapters:
            # adapters come by the kit alone, and it brings everything
            named = KitInUse(entry=kit.entry, revision=kit.revision)  # type: ignore[arg-type]  # it has adapters
            members |= {"kit": named, "tools": kit.tools, "cords": kit.cords}
        else:
            members["tools"] = [tool for tool, _, _ in content.tools if tool.id in wanted]
            members["cords"] = [cord for cord, _, _ in content.cords]
        request = LoadCheckRequest(source=source.source, connections=kit.connections, **members)
        if self.pinned and has_references(request):
            request = structs.replace(request, **self.pinned)
        return request, missing, frozenset(wanted)

    def _day(
        self,
        job: MatrixJob,
        source: MatrixSource,
        request: LoadCheckRequest,
        resolved: LoadCheckRequest,
        places: Places,
    ) -> tuple[EnergyBudgetRequest | None, EnergyDay | None, tuple[Fault, ...]]:
        of_source = {name: value for name in OF_A_SOURCE if (value := getattr(source, name)) is not UNSET}
        if job.day is UNSET and not of_source:
            return None, None, ()
        of_day = {}
        if job.day is not UNSET:
            of_day = {name: value for name in OF_A_DAY if (value := getattr(job.day, name)) is not UNSET}
        energy = EnergyBudgetRequest(**_members(request) | of_source | of_day)
        day, unread = read_day(EnergyBudgetRequest(**_members(resolved) | of_source | of_day), places)
        return energy, day, unread


def running_tools(site: Site, plugging: Plugging | None) -> set[str]:
    """Tools that are used at the work; one that found no outlet is told as that."""
    running = {tool.id for tool in site.tools}
    if site.cases is not None:
        running &= {name for case in site.cases for name in case.running}
    return running if plugging is None else running - set(plugging.unplugged)


def _members(request: LoadCheckRequest) -> dict[str, Any]:
    return {
        name: value for name in LoadCheckRequest.__struct_fields__ if (value := getattr(request, name)) is not UNSET
    }


def _reduced(case: Case, missing: Collection[str]) -> Case:
    if not any(name in missing for name in case.running):
        return case
    order = case.start_order
    return structs.replace(
        case,
        running=[name for name in case.running if name not in missing],
        start_order=order if order is UNSET else [name for name in order if name not in missing],
    )
