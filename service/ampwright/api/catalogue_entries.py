"""How are catalogue entries of one kind listed, read, written and withdrawn?

Five kinds share one life, so one function declares the operations of a kind; each kind's module calls it with its own
types, which the document shows.
"""

from typing import Annotated, Any, Literal

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

from ampwright.api.catalogue_answers import compared, note, revision_reply, written_reply
from ampwright.api.catalogue_missing import no_such_entry, told_if_missing
from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.parameters import IfMatch, MayBeNew
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.api.writers import writer
from ampwright.catalogue.clock import to_text
from ampwright.catalogue.faults import HeadMoved
from ampwright.catalogue.revisions import Written, get_revision, list_revisions
from ampwright.catalogue.revisions import head as head_of
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.withdrawals import withdraw
from ampwright.contract.catalogue import (
    EntryPage,
    EntryRow,
    NewWithdrawal,
    RevisionDifferences,
    RevisionPage,
    RevisionRow,
    WithdrawalNote,
)
from ampwright.contract.parts import Slug
from ampwright.studies.catalogue_writing import RefusedDocument, prepared_for, write_document

_ENTRY = "$response.body#/entry"  # where a stored revision names its entry


class EntryPath(Struct):
    """An entry."""

    entry: Slug


class RevisionPath(Struct):
    """A revision of an entry."""

    entry: Slug
    revision: Annotated[int, Meta(ge=1, le=1_000_000, description="Revision, from 1.")]


class EntryQuery(Struct, forbid_unknown_fields=True):
    """What is searched for; everything given must hold."""

    words: Annotated[str, Meta(max_length=200, description="Beginnings of words of name, slug or kind of load.")] = ""
    voltage_low: Annotated[float, Meta(ge=0, le=1000, description="Least nominal voltage [V].")] = 0.0
    voltage_high: Annotated[float, Meta(ge=0, le=1000, description="Greatest nominal voltage [V].")] = 1000.0
    plug: Annotated[str, Meta(max_length=32, description="Designation of a plug or receptacle.")] | UnsetType = UNSET
    power_low: Annotated[float, Meta(ge=0, le=1e7, description="Least power [W].")] | UnsetType = UNSET
    power_high: Annotated[float, Meta(ge=0, le=1e7, description="Greatest power [W].")] | UnsetType = UNSET
    status: (
        Annotated[
            Literal["draft", "approved", "withdrawn"], Meta(description="Only entries whose newest revision is that.")
        ]
        | UnsetType
    ) = UNSET
    limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50
    cursor: Annotated[str, Meta(max_length=200, description="`next_cursor` of the page before.")] | UnsetType = UNSET


class RevisionQuery(Struct, forbid_unknown_fields=True):
    """Which page of revisions."""

    before: Annotated[int, Meta(ge=1, le=1_000_001, description="`next_before` of the page before.")] | UnsetType = (
        UNSET
    )
    limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50


class DifferenceQuery(Struct, forbid_unknown_fields=True):
    """What to compare with."""

    since: Annotated[int, Meta(ge=1, le=1_000_000, description="The older revision.")] | UnsetType = UNSET


def entry_operations(
    *, tag: str, says: str, path: str, kind: str, stem: str, new: Any, new_revision: Any, answer: Any
) -> Operations:
    """The operations of one kind.

    tag, says : heading and text of the reference page; path : of the collection; kind : of the catalogue;
    stem : how operation ids name it, `tool_profile`; new, new_revision : requests; answer : a stored revision.
    """
    operations = Operations(tag, says)
    collection = path  # handlers call what stands in the path `path`
    words = stem.replace("_", " ")
    written_links = {
        f"get_{stem}": {"entry": _ENTRY},
        f"get_{stem}_revision": {"entry": _ENTRY, "revision": "$response.body#/revision"},
        f"list_{stem}_revisions": {"entry": _ENTRY},
        f"create_{stem}_revision": {"entry": _ENTRY, "If-Match": "$response.header.ETag"},
        f"withdraw_{stem}": {"entry": _ENTRY},
    }

    def list_them(query: EntryQuery, call: Call) -> EntryPage:
        bounded = (query.voltage_low, query.voltage_high)
        powers = query.power_low is not UNSET or query.power_high is not UNSET
        page = search_entries(
            call.services.database,
            Filter(
                kind=kind,
                words=query.words,
                voltage_v=None if bounded == (0.0, 1000.0) else bounded,
                plug=None if query.plug is UNSET else query.plug,
                power_w=(
                    (0.0 if query.power_low is UNSET else query.power_low),
                    (1e7 if query.power_high is UNSET else query.power_high),
                )
                if powers
                else None,
                status=None if query.status is UNSET else query.status,
            ),
            cursor=None if query.cursor is UNSET else query.cursor,
            limit=query.limit,
        )
        return EntryPage(
            items=[
                EntryRow(
                    entry=line.slug,
                    revision=line.revision,
                    name=line.name,
                    status=line.status,  # type: ignore[arg-type]
                    created_by=line.entered_by,
                    created_at=to_text(line.entered_at),
                    digest=f"sha256:{line.sha256}",
                )
                for line in page.entries
            ],
            next_cursor=page.next_cursor or UNSET,
        )

    list_them.__doc__ = f"List or search {words}s.\n\nIn order of their keys; pages stay whole while others write."
    operations.get(path, f"list_{stem}s", lane="database")(list_them)

    def create(headers: MayBeNew, body: new, call: Call) -> Reply[answer]:
        del headers  # what If-None-Match: * asks for holds in any case
        written = _write(call, kind, body.entry, body, create=True)
        return written_reply(call, written, f"{collection}/{body.entry}")

    create.__doc__ = (
        f"Add a {words} to the catalogue.\n\nSent again with the same content it answers 200; where another document "
        "has the key, 412, with or without If-None-Match: *."
    )
    operations.post(
        path,
        f"create_{stem}",
        lane="database",
        statuses={200: "It was there already, the same.", 201: "Added as its first revision."},
        problems=("precondition-failed", "contradictory-request", "not-ready"),
        answer_headers={"ETag": "Entity tag of the revision, for If-Match."},
        links=written_links,
    )(create)

    def read(path: EntryPath, call: Call) -> Reply[answer]:
        found = head_of(call.services.database, kind, path.entry)
        if found is None:
            raise no_such_entry(call, kind, path.entry)
        return revision_reply(call, found)

    read.__doc__ = (
        f"Read the newest revision of a {words}.\n\nIts ETag is what If-Match of a new revision names; a draft is "
        "read too, though no release holds it."
    )
    operations.get(
        f"{path}/{{entry}}",
        f"get_{stem}",
        lane="database",
        entity_tag=True,
        compress=False,  # its tag is strong, for If-Match
        problems=("no-such-entry",),
        links={name: written_links[name] for name in (f"create_{stem}_revision", f"withdraw_{stem}")},
    )(read)

    def list_its(path: EntryPath, query: RevisionQuery, call: Call) -> RevisionPage:
        before = None if query.before is UNSET else query.before
        with told_if_missing(call, kind, path.entry):
            lines = list_revisions(call.services.database, kind, path.entry, before=before, limit=query.limit + 1)
        shown = lines[: query.limit]
        gone = call.services.store.withdrawals()
        return RevisionPage(
            items=[
                RevisionRow(
                    revision=line.revision,
                    status="withdrawn" if gone.of(kind, line.slug, line.revision) else line.status,  # type: ignore[arg-type]
                    why=line.why,
                    created_by=line.entered_by,
                    created_at=to_text(line.entered_at),
                    digest=f"sha256:{line.sha256}",
                )
                for line in shown
            ],
            next_before=shown[-1].revision if len(lines) > query.limit else UNSET,
        )

    list_its.__doc__ = (
        f"List the revisions of a {words}, newest first.\n\nEach with who wrote it, when and why; none is ever changed "
        "or deleted."
    )
    operations.get(
        f"{path}/{{entry}}/revisions", f"list_{stem}_revisions", lane="database", problems=("no-such-entry",)
    )(list_its)

    def revise(path: EntryPath, headers: IfMatch, body: new_revision, call: Call) -> Reply[answer]:
        with told_if_missing(call, kind, path.entry):
            written = _write(call, kind, path.entry, body, expected_head=headers.revision)
        return written_reply(call, written, f"{collection}/{path.entry}/revisions/{written.revision.revision}")

    revise.__doc__ = (
        f"Write a new revision of a {words}.\n\nIf-Match names the revision it was made from. An identical retry "
        "answers 200; where somebody else wrote in the meantime, 412 names the newest revision."
    )
    operations.post(
        f"{path}/{{entry}}/revisions",
        f"create_{stem}_revision",
        lane="database",
        statuses={200: "It was the newest revision already.", 201: "Written as the newest revision."},
        problems=(
            "no-such-entry",
            "precondition-failed",
            "precondition-required",
            "contradictory-request",
            "not-ready",
        ),
        answer_headers={"ETag": "Entity tag of the revision, for If-Match."},
        links=written_links | {f"diff_{stem}_revisions": {"entry": _ENTRY, "revision": "$response.body#/revision"}},
    )(revise)

    def read_one(path: RevisionPath, call: Call) -> Reply[answer]:
        found = get_revision(call.services.database, kind, path.entry, path.revision)
        if found is None:
            raise no_such_entry(call, kind, path.entry, path.revision)
        return revision_reply(call, found)

    read_one.__doc__ = (
        f"Read one revision of a {words}.\n\nIts document never changes; that it was withdrawn may be added."
    )
    operations.get(
        f"{path}/{{entry}}/revisions/{{revision}}",
        f"get_{stem}_revision",
        lane="database",
        entity_tag=True,
        compress=False,
        problems=("no-such-entry",),
    )(read_one)

    def compare(path: RevisionPath, query: DifferenceQuery, call: Call) -> Reply[RevisionDifferences]:
        since = path.revision - 1 if query.since is UNSET else query.since
        old, new = (get_revision(call.services.database, kind, path.entry, number) for number in (since, path.revision))
        if old is None or new is None:
            if new is not None and since < 1:
                raise ProblemError(
                    "no-such-entry",
                    f"Revision 1 is the first of {path.entry}: there is none before it to compare with.",
                )
            raise no_such_entry(call, kind, path.entry, since if old is None else path.revision)
        return Reply(compared(old, new), entity_tag=f'"r{since}-r{path.revision}"')

    compare.__doc__ = (
        f"Compare a revision of a {words} with an older one, in words.\n\nWith the one before it where `since` is left "
        "out."
    )
    operations.get(
        f"{path}/{{entry}}/revisions/{{revision}}/differences",
        f"diff_{stem}_revisions",
        lane="database",
        entity_tag=True,
        problems=("no-such-entry",),
    )(compare)

    def take_back(path: EntryPath, body: NewWithdrawal, call: Call) -> Reply[WithdrawalNote]:
        revision, who = None if body.revision is UNSET else body.revision, writer(call, body.by)
        with told_if_missing(call, kind, path.entry, revision_at="/revision"):
            done = withdraw(call.services.database, kind, path.entry, revision, reason=body.why, who=who)
        call.services.store.forget_standing()
        # A withdrawal has no page of its own: it is read with what it withdraws.
        of = "" if body.revision is UNSET else f"/revisions/{body.revision}"
        return Reply(note(done), status=201, headers={"Location": f"{collection}/{path.entry}{of}"})

    take_back.__doc__ = (
        f"Withdraw a {words}, or one revision of it.\n\nNothing is deleted: every later answer that uses it says so, "
        "also one from a release that holds it."
    )
    operations.post(
        f"{path}/{{entry}}/withdrawals",
        f"withdraw_{stem}",
        lane="database",
        statuses={201: "Withdrawn; the note stays with what it withdraws."},
        problems=("no-such-entry", "contradictory-request", "not-ready"),
    )(take_back)
    return operations


def _write(
    call: Call, kind: str, entry: str, body: Any, *, expected_head: int | None = None, create: bool = False
) -> Written:
    try:
        new = prepared_for(
            call.services.database,
            kind,
            entry,
            body.document,
            why=body.why,
            who=writer(call, body.by),
            status=body.status,
            expected_head=expected_head,
            create=create,
        )
    except RefusedDocument as refused:
        code = "invalid-request" if refused.unread else "contradictory-request"
        faults = [
            msgspec.structs.replace(fault, pointer=f"/document{fault.pointer}")
            for fault in ProblemError.of_faults(code, refused.faults).errors
        ]
        raise ProblemError(code, errors=faults) from None
    try:
        return write_document(call.services.database, new)
    except HeadMoved as moved:
        if not create:
            raise
        fault = ProblemFault(
            code="head_moved",
            message=f"There is such an entry, with another document; its newest revision is {moved.head}.",
            pointer="/entry",
        )
        tag = f'"r{moved.head}"'
        raise ProblemError("precondition-failed", fault.message, errors=[fault], headers={"ETag": tag}) from None
