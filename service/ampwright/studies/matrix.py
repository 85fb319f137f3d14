"""Which cells does a question about many kits and sources have, and what does each ask?

A cell is turned into an ordinary load check (and energy budget) of its own, resolved, read and validated like one that
is posted alone, so its digest is that of such a request. What the kit's crew would plug in where is planned where the
kit does not say. Faults of one cell are its own: the others are answered. Everything rests on one release, which is
looked up once.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from msgspec import UNSET, structs

from ampwright.catalogue.clock import to_text
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.energy_budgets import EnergyBudgetRequest
from ampwright.contract.load_checks import Case, Connection, KitInUse, LoadCheckRequest
from ampwright.contract.matrix_parts import MOST_ROWS, MatrixJob, MatrixKit, MatrixSource, RowRange
from ampwright.contract.places import Places
from ampwright.contract.quantities import LENGTH
from ampwright.contract.reading import Reading
from ampwright.contract.reading_energy import read_day
from ampwright.contract.reading_site import read_site
from ampwright.contract.unread_items import UnreadItem, with_repeated_set_aside
from ampwright.engine.calculations.choosing.cord_reach import CordReach, cord_reach
from ampwright.engine.calculations.choosing.kit_plugging import Plugging, plug_kit_in
from ampwright.engine.calculations.choosing.matrix import CellQuestion
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.use import Connection as SiteConnection
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.validation import in_order, validate
from ampwright.engine.site.validation_energy import day_faults
from ampwright.studies.cost import TooMuchWork, load_check_cost_units
from ampwright.studies.energy_budget import energy_budget_cost_units
from ampwright.studies.load_check import RefusedRequest
from ampwright.studies.matrix_kit import KitContent, kit_content, with_followers, with_leaders
from ampwright.studies.references import has_references, resolve
from ampwright.studies.release_lookup import NOTHING_WITHDRAWN, ReleaseLookup, withdrawal_time
from ampwright.studies.source_evidence import Seen, lowered, seen_of

COST_LIMIT_UNITS = 4_000_000  # dearest row answered, as of a load check and energy budget alone
_OF_A_SOURCE = ("charge", "battery", "fuel", "allowance")
_OF_A_DAY = (
    "shift", "pattern", "duties", "work", "stops", "way_home", "electricity_price", "fuel_price", "carbon", "seed",
    "draws",
)  # fmt: skip
_OF_A_JOB = ("cases", "people", "conditions", "code_basis")


@dataclass(frozen=True, slots=True)
class Cell:
    """One row's question, by the places of its job, kit and source in the request."""

    place: int
    job: int
    kit: int
    source: int


@dataclass(frozen=True, slots=True)
class CellAsked:
    """A cell as it is posted alone.

    question : None where it has faults, or where nothing of what the job runs is in the kit; plugging : None where the
    kit says how it is plugged in; reach : whether its cords get to the work, None where nobody said how far that is;
    missing_tools : that the job runs and the kit does not have; kept : ids of the tools
    in it; seen : what was seen of the unit. Pointers of faults and of everything in an answer go into `load_request`.
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
    faults: tuple[Fault, ...] = ()

    def without_site(self, *, with_requests: bool) -> CellAsked:
        """The same, to be kept once it was told."""
        if with_requests:
            return replace(self, question=None)
        return replace(self, question=None, load_request=None, energy_request=None)

    def digests(self) -> tuple[str, str]:
        """Of the load check, and of the energy budget ("" where there is none)."""
        energy = "" if self.energy_request is None else request_digest(self.energy_request)
        return ("" if self.load_request is None else request_digest(self.load_request)), energy


@dataclass(slots=True)
class Matrix:
    """The cells of one request, in the order job, kit, source. Make it by `Matrix.of`."""

    # each may hold an UnreadItem, also behind the end of what was sent: for a name that is none
    sources: list[Any]
    kits: list[Any]
    jobs: list[Any]
    lookup: ReleaseLookup
    pinned: Mapping[str, Any]
    from_lower: bool = False
    cost_limit_units: int = COST_LIMIT_UNITS
    _groups: list[tuple[int, int, tuple[int, ...]]] = field(default_factory=list)
    _starts: list[int] = field(default_factory=list)
    _contents: dict[int, KitContent] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        store: ReleaseStore[Any] | None,
        sources: Sequence[MatrixSource],
        kits: Sequence[MatrixKit],
        jobs: Sequence[MatrixJob],
        catalogue_release: Any,
        withdrawals_as_of: Any,
        *,
        from_lower: bool = False,
        cost_limit_units: int = COST_LIMIT_UNITS,
    ) -> Matrix:
        """The cells of a request.

        An item that cannot be read, whose id is taken or that is not there has rows that say so. from_lower : whether
        capacity is taken from the lower of mark and evidence. cost_limit_units : of one row; a dearer one says so.
        Errors: RefusedRequest where there are too many rows or
        the time of withdrawals is none; those of the catalogue.
        """
        as_of, unread = withdrawal_time(withdrawals_as_of)
        faults = list(unread)
        named = None if catalogue_release is UNSET else catalogue_release
        snapshot = withdrawals = None
        pinned: dict[str, Any] = {}
        if store is not None and not unread and (named is not None or store.standing().newest is not None):
            snapshot = store.snapshot(named)
            withdrawals = store.withdrawals(as_of)
            pinned = {
                "catalogue_release": snapshot.release.number,
                "withdrawals_as_of": to_text(withdrawals.as_of or NOTHING_WITHDRAWN),
            }
        lists = [
            with_repeated_set_aside(list(items), at)
            for items, at in ((sources, "/sources"), (kits, "/kits"), (jobs, "/jobs"))
        ]
        found = cls(
            lists[0], lists[1], lists[2], ReleaseLookup(snapshot, withdrawals), pinned, from_lower, cost_limit_units
        )
        faults += found._place_rows()
        if faults:
            raise RefusedRequest(in_order(faults))
        return found

    def _place_rows(self) -> list[Fault]:
        kit_places = {kit.id: place for place, kit in enumerate(self.kits)}
        source_places = {source.id: place for place, source in enumerate(self.sources)}
        rows = 0
        for m, job in enumerate(self.jobs):
            kits = _named(job.kits, kit_places, self.kits, f"/jobs/{m}/kits", "unknown_kit")
            sources = _named(job.sources, source_places, self.sources, f"/jobs/{m}/sources", "unknown_source")
            for kit in kits:
                self._starts.append(rows)
                self._groups.append((m, kit, sources))
                rows += len(sources)
        if rows > MOST_ROWS:
            message = f"There are {rows} rows, and {MOST_ROWS} are most: split the jobs over several calls."
            return [Fault("/jobs", "too_many_cells", message)]
        return []

    @property
    def rows(self) -> int:
        """How many there are."""
        return self._starts[-1] + len(self._groups[-1][2]) if self._groups else 0

    def groups(self, rows: range) -> Iterator[tuple[Cell, ...]]:
        """All cells of each kit at a job of which some are in the range, in order."""
        if not rows:
            return
        first = max(0, bisect_right(self._starts, rows.start) - 1)
        for start, (m, k, sources) in zip(self._starts[first:], self._groups[first:], strict=True):
            if start >= rows.stop:
                return
            yield tuple(Cell(start + n, m, k, s) for n, s in enumerate(sources))

    def row_id(self, cell: Cell) -> str:
        """Stable as long as the ids are."""
        return f"{self.jobs[cell.job].id}/{self.kits[cell.kit].id}/{self.sources[cell.source].id}"

    # --- what a cell asks ------------------------------------------------------------------------------------------

    def asked(self, cell: Cell) -> CellAsked:
        """The cell as it would be posted alone. Never raises for what is wrong with it."""
        job, source = self.jobs[cell.job], self.sources[cell.source]
        unread = [one for one in (job, self.kits[cell.kit], source) if isinstance(one, UnreadItem)]
        if unread:
            return CellAsked(None, None, None, None, faults=tuple(fault for one in unread for fault in one.faults))
        content = self._content(cell.kit)
        if content.faults:
            return CellAsked(None, None, None, None, faults=content.faults)
        reading = Reading()
        distance = reading.band(job.distance, LENGTH, "/distance", above_zero=False)
        if reading.faults:
            return CellAsked(None, None, None, None, faults=reading.faults)
        kit = self.kits[cell.kit]
        found = self._without(job, kit, source, content, distance, frozenset())
        if found.plugging is not None and found.plugging.unplugged and job.cases is not UNSET:
            # what cannot be plugged in cannot run: the rest is checked, and the job fails for want of it
            rest = self._without(job, kit, source, content, distance, frozenset(found.plugging.unplugged))
            return replace(rest, plugging=found.plugging)
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
        members = {name: value for name in _OF_A_JOB if (value := getattr(job, name)) is not UNSET}
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
        of_source = {name: value for name in _OF_A_SOURCE if (value := getattr(source, name)) is not UNSET}
        if job.day is UNSET and not of_source:
            return None, None, ()
        of_day = {}
        if job.day is not UNSET:
            of_day = {name: value for name in _OF_A_DAY if (value := getattr(job.day, name)) is not UNSET}
        energy = EnergyBudgetRequest(**_members(request) | of_source | of_day)
        day, unread = read_day(EnergyBudgetRequest(**_members(resolved) | of_source | of_day), places)
        return energy, day, unread

    def _content(self, place: int) -> KitContent:
        if place not in self._contents:
            self._contents[place] = kit_content(self.kits[place], self.lookup)
        return self._contents[place]

    # --- where things lie in the request as sent -------------------------------------------------------------------

    def places(self, cell: Cell, asked: CellAsked) -> Places:
        """Where the parts of a cell's own request lie in the request as sent."""
        job, kit, source = f"/jobs/{cell.job}", f"/kits/{cell.kit}", f"/sources/{cell.source}"
        moved = {"/source": f"{source}/source", "/kit": kit, "/tools": f"{kit}/tools", "/cords": f"{kit}/cords"}
        moved |= {"/connections": f"{kit}/connections", "/distance": f"{job}/distance"}
        moved |= {f"/{name}": f"{source}/{name}" for name in _OF_A_SOURCE}
        moved |= {f"/{name}": f"{job}/{name}" for name in _OF_A_JOB}
        moved |= {f"/{name}": f"{job}/day/{name}" for name in _OF_A_DAY}
        if isinstance(self.kits[cell.kit], UnreadItem):
            return Places(moved)
        content = self._content(cell.kit)
        if content.adapters:
            return Places(moved)
        tools = [item for item in content.tools if item[0].id in asked.kept]
        for name, items in (("tools", tools), ("cords", content.cords)):
            for n, (_, sent, entry) in enumerate(items):
                moved[f"/{name}/{n}"] = sent.replace("/kit", kit, 1)
                if entry:
                    moved[f"/{name}/{n}/entry"] = entry.replace("/kit", kit, 1)
        return Places(moved)


def running_tools(site: Site, plugging: Plugging | None) -> set[str]:
    """Tools that are used at the work; one that found no outlet is told as that."""
    running = {tool.id for tool in site.tools}
    if site.cases is not None:
        running &= {name for case in site.cases for name in case.running}
    return running if plugging is None else running - set(plugging.unplugged)


def rows_asked(asked: Any, rows: int) -> range:
    """Places of the rows asked for, of a RowRange or UNSET; empty where they begin behind the end."""
    if not isinstance(asked, RowRange):
        return range(rows)
    first = 0 if asked.begin is UNSET else min(asked.begin, rows)
    last = rows if asked.end is UNSET else min(asked.end, rows)
    return range(first, max(first, last))


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


def _named(names: Any, known: Mapping[str, int], items: list[Any], at: str, code: str) -> tuple[int, ...]:
    """Places of the items that a job names, all where it names none; what is no name of theirs, or is named twice, gets
    an UnreadItem behind them."""
    if names is UNSET:
        return tuple(known.values())
    if names is None:  # the job itself cannot be read, and says so in one row
        items.append(UnreadItem(id="", sent=None, faults=()))
        return (len(items) - 1,)
    found: list[int] = []
    named: set[str] = set()
    for place, name in enumerate(names):
        here, at_name = known.get(name), f"{at}/{place}"
        if name in named:
            fault = Fault(at_name, "repeated_member", f"{shown(name)} is listed twice.")
            items.append(UnreadItem(id=f"{name}#{place}", sent=None, faults=(fault,)))
        elif here is None:
            message = f"No {shown(name)} here; there are {listing(known)}."
            items.append(UnreadItem(id=name, sent=None, faults=(Fault(at_name, code, message, nearest(name, known)),)))
        named.add(name)
        found.append(len(items) - 1 if here is None or here in found else here)
    return tuple(found)
