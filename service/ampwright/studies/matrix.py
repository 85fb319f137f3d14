"""Which cells does a question about many kits and sources have?

What each asks is read by matrix_cell.py. Faults of one cell are its own: the others are answered. Everything rests on
one release, which is looked up once.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from msgspec import UNSET

from ampwright.catalogue.clock import to_text
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.matrix_parts import MOST_ROWS, MatrixJob, MatrixKit, MatrixSource, RowRange
from ampwright.contract.places import Places
from ampwright.contract.unread_items import UnreadItem, with_repeated_set_aside
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order
from ampwright.studies.load_check import RefusedRequest
from ampwright.studies.matrix_cell import COST_LIMIT_UNITS, OF_A_DAY, OF_A_JOB, OF_A_SOURCE, CellAsked, CellReading
from ampwright.studies.matrix_kit import KitContent, kit_content
from ampwright.studies.release_lookup import NOTHING_WITHDRAWN, ReleaseLookup, snapshot_named, withdrawal_time


@dataclass(frozen=True, slots=True)
class Cell:
    """One row's question, by the places of its job, kit and source in the request."""

    place: int
    job: int
    kit: int
    source: int


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
        release_at: str = "/catalogue_release",
    ) -> Matrix:
        """The cells of a request.

        An item that cannot be read, whose id is taken or that is not there has rows that say so. from_lower : whether
        capacity is taken from the lower of mark and evidence. cost_limit_units : of one row; a dearer one says so.
        release_at : where the request names the release.
        Errors: RefusedRequest where there are too many rows or
        the time of withdrawals is none; those of the catalogue.
        """
        as_of, unread = withdrawal_time(withdrawals_as_of)
        faults = list(unread)
        named = None if catalogue_release is UNSET else catalogue_release
        snapshot = withdrawals = None
        pinned: dict[str, Any] = {}
        if store is not None and not unread and (named is not None or store.standing().newest is not None):
            snapshot = snapshot_named(store, named, release_at)
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

    def asked(self, cell: Cell, instead: MatrixKit | None = None) -> CellAsked:
        """The cell as it would be posted alone. instead : another kit in place of its own. Never raises for what is
        wrong with it."""
        job, source = self.jobs[cell.job], self.sources[cell.source]
        unread = [one for one in (job, self.kits[cell.kit], source) if isinstance(one, UnreadItem)]
        if unread:
            return CellAsked(None, None, None, None, faults=tuple(fault for one in unread for fault in one.faults))
        kit = self.kits[cell.kit] if instead is None else instead
        content = self._content(cell.kit) if instead is None else kit_content(instead, self.lookup)
        reading = CellReading(self.lookup, self.pinned, self.from_lower, self.cost_limit_units)
        return reading.asked(job, kit, source, content)

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
        moved |= {f"/{name}": f"{source}/{name}" for name in OF_A_SOURCE}
        moved |= {f"/{name}": f"{job}/{name}" for name in OF_A_JOB}
        moved |= {f"/{name}": f"{job}/day/{name}" for name in OF_A_DAY}
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


def rows_asked(asked: Any, rows: int) -> range:
    """Places of the rows asked for, of a RowRange or UNSET; empty where they begin behind the end."""
    if not isinstance(asked, RowRange):
        return range(rows)
    first = 0 if asked.begin is UNSET else min(asked.begin, rows)
    last = rows if asked.end is UNSET else min(asked.end, rows)
    return range(first, max(first, last))


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
