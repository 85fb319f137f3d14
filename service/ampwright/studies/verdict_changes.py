"""Which kits have another verdict in another release of the catalogue, and what differs behind it?

Both releases are asked the same question by the same code; rows whose verdict differs are told, with the documents that
a row uses and whose revisions differ. Errors: RefusedRequest, and those of the catalogue (NoSuchRelease).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.differences import differences
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.kit_validations import KitValidationRequest, KitValidationRow
from ampwright.contract.power_source_members import CatalogueSource
from ampwright.contract.verdict_changes import (
    EntryBehind,
    RowWithoutAnswer,
    VerdictChange,
    VerdictChangesAnswer,
    VerdictChangesRequest,
    VerdictIn,
)
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.studies.kit_validation import KitValidation
from ampwright.studies.load_check import NOTICE, engine_version
from ampwright.studies.references import unit_key
from ampwright.studies.release_lookup import ReleaseLookup

MOST_DIFFERENCES = 8
_TURNED = ("no_longer_answered", "worse", "answered", "better")


class VerdictChanges:
    """The comparison of one request."""

    def __init__(self, store: ReleaseStore[Any] | None, request: VerdictChangesRequest) -> None:
        self.request = request
        self._sides = tuple(
            KitValidation(
                store,
                KitValidationRequest(
                    sources=request.sources,
                    kits=request.kits,
                    jobs=request.jobs,
                    rows=request.rows,
                    catalogue_release=release,
                    withdrawals_as_of=request.withdrawals_as_of,
                ),
                release_at=release_at,
            )
            for release, release_at in (
                (request.from_release, "/from_release"),
                (request.to_release, "/to_release"),
            )
        )

    @property
    def rows(self) -> int:
        """How many are looked at, in each of the two."""
        return len(self._sides[0].rows)

    def answer(self, check: Callable[[], None]) -> VerdictChangesAnswer:
        """The rows that changed. check : called between cells; whatever it raises ends the work."""
        old, new = ([row for row in side.made(check) if row is not None] for side in self._sides)
        changes = [
            change
            for before, after in zip(old, new, strict=True)
            if (change := self._change(before, after)) is not None
        ]
        changes.sort(key=lambda one: _TURNED.index(one.turned))
        nowhere = [
            RowWithoutAnswer(
                id=after.id, job=after.job, kit=after.kit, source=after.source, before=before.errors, after=after.errors
            )
            for before, after in zip(old, new, strict=True)
            if before.verdict is UNSET and after.verdict is UNSET
        ]
        return VerdictChangesAnswer(
            changes=changes,
            without_answer=nowhere,
            unchanged=len(old) - len(changes) - len(nowhere),
            rows_in_all=self._sides[0].matrix.rows,
            from_release=self.request.from_release,
            to_release=self.request.to_release,
            notice=NOTICE,
            engine_version=engine_version(),
            request_digest=request_digest(self.request),
        )

    def _change(self, before: KitValidationRow, after: KitValidationRow) -> VerdictChange | None:
        if before.verdict == after.verdict:
            return None
        if before.verdict is UNSET:
            turned = "answered"
        elif after.verdict is UNSET:
            turned = "no_longer_answered"
        else:
            turned = "worse" if ORDER.index(after.verdict) > ORDER.index(before.verdict) else "better"
        return VerdictChange(
            id=after.id,
            job=after.job,
            kit=after.kit,
            source=after.source,
            turned=turned,  # type: ignore[arg-type]  # of _TURNED
            before=_told(before),
            after=_told(after),
            entries=self._entries(after),
        )

    def _entries(self, row: KitValidationRow) -> list[EntryBehind]:
        lookups = [side.matrix.lookup for side in self._sides]
        source = next(one.source for one in self._sides[0].matrix.sources if one.id == row.source)
        kit = next(one for one in self._sides[0].matrix.kits if one.id == row.kit)
        named: dict[tuple[str, str], None] = {}
        for lookup in lookups:
            if isinstance(source, CatalogueSource):
                named |= dict.fromkeys(_of_source(source, lookup))
            if kit.entry is not UNSET:
                named |= dict.fromkeys(_of_kit(kit.entry, lookup))
        for kind, items in (("tool-profile", kit.tools), ("cord", kit.cords)):
            named |= {(kind, one.entry): None for one in (() if items is UNSET else items) if one.entry is not UNSET}
        return [found for kind, slug in sorted(named) if (found := _behind(kind, slug, *lookups)) is not None]


def _told(row: KitValidationRow) -> VerdictIn:
    return VerdictIn(
        verdict=row.verdict,
        sentence=row.sentence,
        finding=row.finding,
        load_check_digest=UNSET if row.load_check is UNSET else row.load_check.request_digest,
        errors=row.errors,
    )


def _of_source(source: CatalogueSource, lookup: ReleaseLookup) -> Iterator[tuple[str, str]]:
    if source.entry is not UNSET:
        yield "power-source", source.entry
    if source.unit is not UNSET:
        name = unit_key(source.unit)
        yield "source-unit", name
        found = lookup.find("source-unit", name, None)
        if found is not None:
            yield "power-source", msgspec.json.decode(found.body)["entry"]


def _of_kit(entry: str, lookup: ReleaseLookup) -> Iterator[tuple[str, str]]:
    yield "kit", entry
    found = lookup.find("kit", entry, None)
    document = {} if found is None else msgspec.json.decode(found.body)
    for kind, member in (("tool-profile", "tools"), ("cord", "cords")):
        for item in document.get(member, []):
            yield kind, item["entry"]


def _behind(kind: str, slug: str, old: ReleaseLookup, new: ReleaseLookup) -> EntryBehind | None:
    before, after = old.find(kind, slug, None), new.find(kind, slug, None)
    if before is None and after is None:
        return None
    if before is not None and after is not None and before.revision == after.revision:
        return None
    told = [] if before is None or after is None else [one.text for one in differences(before.body, after.body)]
    return EntryBehind(
        kind=kind,
        entry=slug,
        old_revision=UNSET if before is None else before.revision,
        new_revision=UNSET if after is None else after.revision,
        differences=told[:MOST_DIFFERENCES],
    )
