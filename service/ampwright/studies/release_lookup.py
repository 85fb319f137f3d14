"""Which documents may a request refer to, and what does its answer say it rests on?

Those of one catalogue release, and what was withdrawn of them by a time. Both stand in the answer: sent with the
request, they give the same answer for ever, however many releases and withdrawals follow.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from msgspec import UNSET, UnsetType

from ampwright.catalogue.clock import to_text
from ampwright.catalogue.faults import NoSuchRelease
from ampwright.catalogue.snapshot import ReleaseSnapshot, ReleaseStore
from ampwright.catalogue.withdrawals import Withdrawals
from ampwright.contract.load_checks import LoadCheckRequest, UsedEntry
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order
from ampwright.studies.references import FoundEntry, Resolved, has_references, resolve

# Stands for "nothing was withdrawn": whatever is withdrawn later, nothing will have been by then.
NOTHING_WITHDRAWN = datetime(1970, 1, 1, tzinfo=UTC)

# Of one revision that was withdrawn again and again.
MOST_REASONS = 5

Stamp = dict[str, Any]


class ReleaseLookup:
    """The lookup of studies/references over a release in memory. A reference to a release must be in it."""

    def __init__(self, snapshot: ReleaseSnapshot[Any] | None, withdrawals: Withdrawals | None) -> None:
        self._snapshot = snapshot
        self._withdrawals = withdrawals

    def find(self, kind: str, slug: str, revision: int | None) -> FoundEntry | None:
        """The release's own revision; None where the release has no such entry, or another revision of it."""
        held = self._snapshot.get(kind, slug) if self._snapshot else None
        if held is None or revision not in (None, held.revision):
            return None
        reasons = self._withdrawals.of(kind, slug, held.revision) if self._withdrawals else ()
        told = list(dict.fromkeys(one.reason for one in reasons))
        if len(told) > MOST_REASONS:
            told[MOST_REASONS - 1 :] = [f"and {len(told) - MOST_REASONS + 1} more reasons"]
        return FoundEntry(held.revision, held.body, "; ".join(told) or None)

    def slugs(self, kind: str) -> Sequence[str]:
        """Slugs of that kind in the release."""
        return [held.slug for held in self._snapshot.of_kind(kind)] if self._snapshot else []


def resolve_in_release(
    store: ReleaseStore[Any] | None, request: LoadCheckRequest, as_sent: Callable[[str], str] = str
) -> tuple[Resolved, Stamp]:
    """The request without references, and the members `used_entries`, `catalogue_release` and `withdrawals_as_of` of
    its answer.

    store : None where there is no catalogue; as_sent : where a pointer into `request` lies in what the caller sent.
    Errors: NoSuchRelease, DatabaseUnavailable.
    """
    as_of, unread = withdrawal_time(request.withdrawals_as_of)
    named = None if request.catalogue_release is UNSET else request.catalogue_release
    snapshot: ReleaseSnapshot[Any] | None = None
    withdrawals: Withdrawals | None = None
    wanted = named is not None or has_references(request)
    if store is not None and wanted and (named is not None or store.standing().newest is not None):
        snapshot = snapshot_named(store, named, as_sent("/catalogue_release"))
        withdrawals = store.withdrawals(as_of)
    resolved = resolve(request, ReleaseLookup(snapshot, withdrawals))
    if unread:
        resolved = replace(resolved, faults=in_order((*resolved.faults, *unread)))
    stamp: Stamp = {"used_entries": _used_entries(resolved, as_sent)}
    if snapshot is not None and withdrawals is not None:
        stamp["catalogue_release"] = snapshot.release.number
        stamp["withdrawals_as_of"] = to_text(withdrawals.as_of or NOTHING_WITHDRAWN)
    return resolved, stamp


def snapshot_named(store: ReleaseStore[Any], number: int | None, pointer: str) -> ReleaseSnapshot[Any]:
    """The release of that number, the newest where it is None.

    Errors: NoSuchRelease, which then says where the number stands in what the caller sent.
    """
    try:
        return store.snapshot(number)
    except NoSuchRelease as absent:
        raise NoSuchRelease(absent.number, pointer) from None


def withdrawal_time(text: str | UnsetType) -> tuple[datetime | None, tuple[Fault, ...]]:
    """The time by which withdrawals count, None where none is stated; and the fault of a text that is no time."""
    if text is UNSET:
        return None, ()
    try:
        # RFC 3339 is a profile of ISO 8601, and the contract's pattern lets nothing else pass
        return datetime.fromisoformat(text.upper()).astimezone(UTC), ()
    except (ValueError, OverflowError):
        return None, (Fault("/withdrawals_as_of", "not_a_time", f"There is no time {shown(text)}."),)


def _used_entries(resolved: Resolved, as_sent: Callable[[str], str]) -> list[UsedEntry]:
    return [
        UsedEntry(
            kind=one.kind,
            entry=one.entry,
            revision=one.revision,
            pointer=as_sent(one.pointer),
            withdrawn=one.withdrawn or UNSET,
            observations=list(one.observations) or UNSET,
        )
        for one in resolved.entries
    ]
