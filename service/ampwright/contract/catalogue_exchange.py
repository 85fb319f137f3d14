"""What does a caller send and get when carrying a catalogue from one service to another?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.catalogue import By
from ampwright.contract.parts import Answer, Request

LARGEST_TEXT = 50_000_000  # characters; the service's own bound of a body is smaller unless a setting raises it


class CatalogueImport(Request, frozen=True, kw_only=True):
    """An export to be brought in, all of it or nothing."""

    ndjson: Annotated[
        str, Meta(max_length=LARGEST_TEXT, description="The lines of GET /v1/catalogue-export, unchanged.")
    ]
    by: By | UnsetType = UNSET


class CatalogueImported(Answer, frozen=True, kw_only=True):
    """What an import held, and what of it was new here; sent twice, nothing is."""

    revisions: int
    releases: int
    withdrawals: int
    new_revisions: int
    new_releases: int
    new_withdrawals: int
