"""Does a release hold all that its members refer to?

A kit names tools and cords, a unit its kind of source. A calculation looks for them in the release that it is pinned
to, so a release without them would hold kits that nobody can use, and nobody would know before the morning of the job.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import UNSET

from ampwright.catalogue.database import Database
from ampwright.catalogue.releases import Lack, Member, Needed, Release, cut_release
from ampwright.contract.document_bodies import decode_document
from ampwright.contract.documents import KitDocument, SourceUnit
from ampwright.engine.site.use import Fault


def references_of(kind: str, body_format: int, body: bytes) -> tuple[Needed, ...]:
    """What a stored document refers to, in its own order."""
    document = decode_document(kind, body_format, body)
    if isinstance(document, SourceUnit):
        revision = None if document.revision is UNSET else document.revision
        return (Needed("power-source", document.entry, revision, "/entry"),)
    if not isinstance(document, KitDocument):
        return ()
    needed = []
    for name, named_kind, items in (("tools", "tool-profile", document.tools), ("cords", "cord", document.cords)):
        for place, item in enumerate(() if items is UNSET else items):
            revision = None if item.revision is UNSET else item.revision
            needed.append(Needed(named_kind, item.entry, revision, f"/{name}/{place}/entry"))
    return tuple(needed)


def cut_whole_release(database: Database, *, note: str, who: str, members: Sequence[Member] | None = None) -> Release:
    """Cut a release in which every reference finds what it names. Errors: those of `cut_release`, LackingRelease."""
    return cut_release(database, note=note, who=who, members=members, references_of=references_of)


def lack_fault(lack: Lack, pointer: str = "") -> Fault:
    """What is missing and what to do, in one sentence, at `pointer` of the request."""
    needed = lack.needed
    named = f"{needed.kind} {needed.slug}" + ("" if needed.revision is None else f" revision {needed.revision}")
    instead = "holds no such entry that is approved and not withdrawn"
    if lack.held is not None:
        instead = f"holds its revision {lack.held}"
    message = (
        f"{lack.member.kind} {lack.member.slug} names {named} ({needed.pointer}), and the release {instead}: write a "
        f"new revision of the {lack.member.kind}, or withdraw it."
    )
    return Fault(pointer, "release_lacks_entry", message)
