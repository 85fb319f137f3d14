"""Which documents may a request refer to? Those of one catalogue release, and what was withdrawn of them since."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ampwright.catalogue.snapshot import ReleaseSnapshot
from ampwright.catalogue.withdrawals import Withdrawals
from ampwright.studies.references import FoundEntry


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
        return FoundEntry(held.revision, held.body, reasons[0].reason if reasons else None)

    def slugs(self, kind: str) -> Sequence[str]:
        """Slugs of that kind in the release."""
        return [held.slug for held in self._snapshot.of_kind(kind)] if self._snapshot else []
