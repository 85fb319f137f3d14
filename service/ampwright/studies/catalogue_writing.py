"""How does a document get into the catalogue?

Checked for content, brought into its canonical bytes once, stored with what search finds it by. The one way in for the
API, the demo catalogue and imports.
"""

from __future__ import annotations

from typing import Any

import msgspec

from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets
from ampwright.catalogue.releases import Release, cut_release
from ampwright.catalogue.revisions import NewRevision, Written, write_revision, write_revisions
from ampwright.contract.canonical import canonical_bytes
from ampwright.contract.document_bodies import decode_document
from ampwright.contract.document_check import document_faults
from ampwright.contract.document_facets import facets_of
from ampwright.contract.documents import FORMAT, SourceUnit
from ampwright.engine.site.use import Fault
from ampwright.engine.site.validation import in_order
from ampwright.studies.catalogue_units import unit_faults


class RefusedDocument(Exception):
    """A document that must not be stored; `faults` are all of them, with pointers into the document.

    `unread` : some text of it cannot be read or kept; else its members do not go together.
    """

    def __init__(self, faults: tuple[Fault, ...], *, unread: bool = False) -> None:
        super().__init__(f"{len(faults)} faults")
        self.faults = faults
        self.unread = unread


def facets_of_body(kind: str, body_format: int, body: bytes) -> Facets:
    """What search finds a stored body by."""
    return _facets(decode_document(kind, body_format, body), "approved")


def _facets(document: Any, status: str) -> Facets:
    found = facets_of(document)
    return Facets(
        name=found.name,
        words=found.words,
        voltages_v=found.voltages_v,
        plugs=found.plugs,
        power_low_w=found.power_low_w,
        power_high_w=found.power_high_w,
        status=status,
    )


def prepared(
    kind: str,
    slug: str,
    document: msgspec.Struct,
    *,
    why: str,
    who: str,
    status: str = "approved",
    expected_head: int | None = None,
    create: bool = False,
) -> NewRevision:
    """A revision ready to be written. Errors: RefusedDocument with every fault."""
    unread, contradictions = document_faults(kind, document)  # type: ignore[arg-type]  # TypeError for another struct
    if unread or contradictions:
        raise RefusedDocument(in_order((*unread, *contradictions)), unread=bool(unread))
    return NewRevision(
        kind=kind,
        slug=slug,
        format=FORMAT,
        body=canonical_bytes(document),
        facets=_facets(document, status),
        why=why,
        who=who,
        expected_head=expected_head,
        create=create,
    )


def prepared_for(
    database: Database,
    kind: str,
    slug: str,
    document: msgspec.Struct,
    *,
    why: str,
    who: str,
    status: str = "approved",
    expected_head: int | None = None,
    create: bool = False,
) -> NewRevision:
    """`prepared`, with what a document refers to held against the catalogue: a source unit must fit its kind."""
    new = prepared(kind, slug, document, why=why, who=who, status=status, expected_head=expected_head, create=create)
    if isinstance(document, SourceUnit) and (faults := unit_faults(database, document)):
        raise RefusedDocument(faults)
    return new


def write_document(database: Database, new: NewRevision) -> Written:
    """Write one prepared revision; committed when this returns. Errors: those of catalogue.revisions."""
    return write_revision(database, new)


def load_demo_catalogue(database: Database, documents: list[tuple[str, str, bytes]]) -> Release:
    """Write the given demo documents and cut a release of them; a second time changes nothing but the release."""
    write_revisions(
        database,
        [
            prepared(kind, slug, decode_document(kind, FORMAT, body), why="invented demo data", who="demo")
            for kind, slug, body in documents
        ],
    )
    return cut_release(database, note="invented demo data", who="demo")
