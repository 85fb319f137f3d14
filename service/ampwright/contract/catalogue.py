"""What does a caller send and get when reading and writing the catalogue?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Raw, UnsetType

from ampwright.contract.documents import (
    CordDocument,
    KitDocument,
    PowerSourceDocument,
    SourceUnit,
    ToolProfile,
)
from ampwright.contract.parts import Answer, ReleaseNumber, Request, Revision, Slug, Words

EntryKind = Literal["tool-profile", "power-source", "cord", "kit", "source-unit"]
WrittenStatus = Literal["draft", "approved"]
EntryStatus = Literal["draft", "approved", "withdrawn"]
Why = Annotated[Words, Meta(description="Why it was written, in one line.", examples=["measured on site"])]
By = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=160,
        pattern=r"^[^\u0000-\u001f\u007f-\u009f]*$(?!\n)",
        description="Who wrote it. May be left out where an access key is shown; the key is noted down in any case.",
        examples=["fleet desk"],
    ),
]
Instant = Annotated[str, Meta(description="Time in UTC, RFC 3339.", examples=["2026-05-04T09:30:00.000000Z"])]
Digest = Annotated[
    str,
    Meta(
        description="Over the bytes of the document as stored: `sha256:` and 64 hexadecimal digits.",
        pattern="^sha256:[0-9a-f]{64}$",
    ),
]


class NewRevision(Request, frozen=True, kw_only=True):
    """What stands beside a document that is written."""

    why: Why
    by: By | UnsetType = UNSET
    status: Annotated[WrittenStatus, Meta(description="A draft is in no release.")] = "approved"


class NewToolProfileRevision(NewRevision, frozen=True, kw_only=True):
    """A new revision of a tool profile."""

    document: ToolProfile


class NewPowerSourceRevision(NewRevision, frozen=True, kw_only=True):
    """A new revision of a power source."""

    document: PowerSourceDocument


class NewCordRevision(NewRevision, frozen=True, kw_only=True):
    """A new revision of a cord."""

    document: CordDocument


class NewKitRevision(NewRevision, frozen=True, kw_only=True):
    """A new revision of a kit."""

    document: KitDocument


class NewSourceUnitRevision(NewRevision, frozen=True, kw_only=True):
    """A new revision of a source unit."""

    document: SourceUnit


class NewToolProfile(NewToolProfileRevision, frozen=True, kw_only=True):
    """A tool profile that is new to the catalogue."""

    entry: Slug


class NewPowerSource(NewPowerSourceRevision, frozen=True, kw_only=True):
    """A power source that is new to the catalogue."""

    entry: Slug


class NewCord(NewCordRevision, frozen=True, kw_only=True):
    """A cord that is new to the catalogue."""

    entry: Slug


class NewKit(NewKitRevision, frozen=True, kw_only=True):
    """A kit that is new to the catalogue."""

    entry: Slug


class NewSourceUnit(NewSourceUnitRevision, frozen=True, kw_only=True):
    """A source unit that is new to the catalogue; its key is its fleet id in small letters."""

    entry: Slug


class WithdrawalNote(Answer, frozen=True, kw_only=True):
    """That revisions were withdrawn, and why. Nothing is deleted; answers that use them say so."""

    entry: str
    first_revision: int
    last_revision: int
    why: str
    withdrawn_by: str
    withdrawn_at: Instant


class StoredRevision(Answer, frozen=True, kw_only=True):
    """What stands beside a stored document."""

    entry: str
    revision: int
    status: EntryStatus
    why: str
    created_by: str
    created_at: Instant
    digest: Digest
    withdrawals: list[WithdrawalNote] = []


class ToolProfileRevision(StoredRevision, frozen=True, kw_only=True):
    """One revision of a tool profile."""

    document: ToolProfile


class PowerSourceRevision(StoredRevision, frozen=True, kw_only=True):
    """One revision of a power source."""

    document: PowerSourceDocument


class CordRevision(StoredRevision, frozen=True, kw_only=True):
    """One revision of a cord."""

    document: CordDocument


class KitRevision(StoredRevision, frozen=True, kw_only=True):
    """One revision of a kit."""

    document: KitDocument


class SourceUnitRevision(StoredRevision, frozen=True, kw_only=True):
    """One revision of a source unit."""

    document: SourceUnit


class DifferenceRow(Answer, frozen=True, kw_only=True):
    """One difference; `pointer` goes into the new document, or into the old one for what was removed."""

    pointer: str
    change: Literal["added", "removed", "changed"]
    text: str
    before: Raw | UnsetType = UNSET
    after: Raw | UnsetType = UNSET


class RevisionDifferences(Answer, frozen=True, kw_only=True):
    """What a revision says that an older one does not, by pointer; and who wrote it, and why."""

    entry: str
    old: int
    new: int
    why: str
    created_by: str
    created_at: Instant
    items: list[DifferenceRow]


class RevisionRow(Answer, frozen=True, kw_only=True):
    """One revision in a list."""

    revision: int
    status: EntryStatus
    why: str
    created_by: str
    created_at: Instant
    digest: Digest


class RevisionPage(Answer, frozen=True, kw_only=True):
    """Revisions of an entry, newest first; go on with `next_before`, which the last page lacks."""

    items: list[RevisionRow]
    next_before: int | UnsetType = UNSET


class EntryRow(Answer, frozen=True, kw_only=True):
    """One entry in a list: its newest revision."""

    entry: str
    revision: int
    name: str
    status: EntryStatus
    created_by: str
    created_at: Instant
    digest: Digest


class EntryPage(Answer, frozen=True, kw_only=True):
    """Entries in order of their slugs; go on with `next_cursor`, which the last page lacks."""

    items: list[EntryRow]
    next_cursor: str | UnsetType = UNSET


class NewWithdrawal(Request, frozen=True, kw_only=True):
    """Withdraw one revision, or, without `revision`, every revision that the entry has now."""

    why: Annotated[Words, Meta(description="Why nobody should rely on it.", examples=["measured on a worn cord"])]
    by: By | UnsetType = UNSET
    revision: Revision | UnsetType = UNSET


class ReleaseMember(Request, frozen=True, kw_only=True):
    """One revision in a release."""

    kind: EntryKind
    entry: Slug
    revision: Revision


class NewRelease(Request, frozen=True, kw_only=True):
    """A release of the named members, or of the newest approved revision of every entry that is not withdrawn."""

    note: Annotated[Words, Meta(description="What this release is for.", examples=["spring fleet"])]
    by: By | UnsetType = UNSET
    members: Annotated[list[ReleaseMember], Meta(min_length=1, max_length=50_000)] | UnsetType = UNSET


class Release(Answer, frozen=True, kw_only=True):
    """A numbered, immutable set of revisions; `digest` covers its members and their bytes."""

    number: ReleaseNumber
    digest: str
    member_count: int
    note: str
    created_by: str
    created_at: Instant


class ReleasePage(Answer, frozen=True, kw_only=True):
    """Releases, newest first; go on with `next_before`, which the last page lacks."""

    items: list[Release]
    next_before: int | UnsetType = UNSET


class MemberRow(Answer, frozen=True, kw_only=True):
    """One member of a release."""

    kind: str
    entry: str
    revision: int
    digest: Digest


class MemberPage(Answer, frozen=True, kw_only=True):
    """Members of a release in its order; go on with `next_after`, which the last page lacks."""

    items: list[MemberRow]
    next_after: int | UnsetType = UNSET


class ChangedMember(Answer, frozen=True, kw_only=True):
    """An entry that has different revisions in two releases."""

    kind: str
    entry: str
    old_revision: int
    new_revision: int


class MemberName(Answer, frozen=True, kw_only=True):
    """An entry that only one of two releases has."""

    kind: str
    entry: str
    revision: int


class ReleaseDifferences(Answer, frozen=True, kw_only=True):
    """What changes from one release to another; `notes` are those of the releases after the old one, newest first."""

    old: int
    new: int
    notes: list[Release]
    added: list[MemberName]
    removed: list[MemberName]
    changed: list[ChangedMember]
    unchanged_count: int
