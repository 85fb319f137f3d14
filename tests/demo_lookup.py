"""The invented demo catalogue as one release in memory, without a database."""

from __future__ import annotations

from collections.abc import Sequence

from ampwright.catalogue.demo_data import load_demo
from ampwright.studies.references import FoundEntry

DOCUMENTS = {(kind, slug): body for kind, slug, body in load_demo()}


class DemoLookup:
    def find(self, kind: str, slug: str, revision: int | None) -> FoundEntry | None:
        body = DOCUMENTS.get((kind, slug))
        return FoundEntry(1, body) if body is not None and revision in (None, 1) else None

    def slugs(self, kind: str) -> Sequence[str]:
        return [slug for of, slug in DOCUMENTS if of == kind]
