"""/v1/catalogue-releases: which revisions does an answer rest on?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, Struct, UnsetType

from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.api.writers import writer
from ampwright.catalogue import releases
from ampwright.catalogue.clock import to_text
from ampwright.catalogue.faults import NoSuchRevision
from ampwright.contract.catalogue import (
    ChangedMember,
    MemberName,
    MemberPage,
    MemberRow,
    NewRelease,
    Release,
    ReleaseDifferences,
    ReleasePage,
)
from ampwright.contract.parts import ReleaseNumber
from ampwright.studies.catalogue_releases import cut_whole_release, lack_fault

operations = Operations(
    "Catalogue releases", "Numbered, immutable sets of revisions; every answer names the one it used."
)


MOST_NOTES = 100
MOST_LACKS = 100


class ReleasePath(Struct):
    """A release."""

    number: ReleaseNumber


class ReleaseQuery(Struct, forbid_unknown_fields=True):
    """Which page of releases."""

    before: Annotated[int, Meta(ge=1, le=1_000_001, description="`next_before` of the page before.")] | UnsetType = (
        UNSET
    )
    limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50


class MemberQuery(Struct, forbid_unknown_fields=True):
    """Which page of members."""

    after: Annotated[int, Meta(ge=0, le=10_000_000, description="`next_after` of the page before.")] = 0
    limit: Annotated[int, Meta(ge=1, le=500, description="Most rows on a page.")] = 100


class DifferenceQuery(Struct, forbid_unknown_fields=True):
    """What to compare with."""

    since: Annotated[int, Meta(ge=1, le=1_000_000, description="Number of the older release.")]


@operations.get("/v1/catalogue-releases", "list_catalogue_releases", lane="database")
def list_releases(query: ReleaseQuery, call: Call) -> ReleasePage:
    """List releases, newest first.

    A release is a numbered set of revisions that never changes; an answer names the one it rests on.
    """
    before = None if query.before is UNSET else query.before
    found = releases.list_releases(call.services.database, before=before, limit=query.limit + 1)
    shown = found[: query.limit]
    return ReleasePage(
        items=[_release(one) for one in shown],
        next_before=shown[-1].number if len(found) > query.limit else UNSET,
    )


@operations.post(
    "/v1/catalogue-releases",
    "create_catalogue_release",
    lane="database",
    scope="release",
    statuses={201: "Cut, under the next number."},
    problems=("no-such-entry", "contradictory-request", "not-ready"),
    links={
        name: {"number": "$response.body#/number"}
        for name in ("get_catalogue_release", "list_catalogue_release_members")
    },
)
def create_release(body: NewRelease, call: Call) -> Reply[Release]:
    """Cut a release.

    Of the named members, or of the newest approved revision of every entry that is not withdrawn. Its number is the
    next one, without gaps; its members never change. A kit or a unit that names what the release would not hold is a
    fault, and nothing is cut: write a new revision of it, or withdraw it.
    """
    members = (
        None if body.members is UNSET else [releases.Member(one.kind, one.entry, one.revision) for one in body.members]
    )
    try:
        made = cut_whole_release(call.services.database, note=body.note, who=writer(call, body.by), members=members)
    except releases.LackingRelease as lacking:
        pointer = {(one.kind, one.slug): f"/members/{place}" for place, one in enumerate(members or ())}
        faults = [
            lack_fault(lack, pointer.get((lack.member.kind, lack.member.slug), ""))
            for lack in lacking.lacks[:MOST_LACKS]
        ]
        told = ProblemError.of_faults("contradictory-request", faults).errors
        raise ProblemError("contradictory-request", "Nothing was cut.", errors=told) from None
    except NoSuchRevision as absent:
        sought = releases.Member(absent.kind, absent.slug, absent.revision)
        place = (members or []).index(sought)
        fault = ProblemFault(code="unknown_revision", message=f"There is {absent}.", pointer=f"/members/{place}")
        raise ProblemError("no-such-entry", fault.message, errors=[fault]) from None
    call.services.store.forget_standing()
    return Reply(_release(made), status=201, headers={"Location": f"/v1/catalogue-releases/{made.number}"})


@operations.get(
    "/v1/catalogue-releases/{number}",
    "get_catalogue_release",
    lane="database",
    entity_tag=True,
    problems=("no-such-entry",),
)
def get_release(path: ReleasePath, call: Call) -> Reply[Release]:
    """Read one release.

    Its digest, how many members it has, and who cut it; its members are a list of their own.
    """
    found = releases.get_release(call.services.database, path.number)
    return Reply(_release(found), entity_tag=f'"{found.sha256}"')


@operations.get(
    "/v1/catalogue-releases/{number}/members",
    "list_catalogue_release_members",
    lane="database",
    problems=("no-such-entry",),
)
def list_members(path: ReleasePath, query: MemberQuery, call: Call) -> MemberPage:
    """List the members of a release.

    In the order of the release, a page at a time; each with the revision that the release holds.
    """
    found = releases.list_members(call.services.database, path.number, after_place=query.after, limit=query.limit + 1)
    shown = found[: query.limit]
    return MemberPage(
        items=[MemberRow(kind=m.kind, entry=m.slug, revision=m.revision, digest=f"sha256:{m.sha256}") for m in shown],
        next_after=query.after + len(shown) if len(found) > query.limit else UNSET,
    )


@operations.get(
    "/v1/catalogue-releases/{number}/differences",
    "diff_catalogue_releases",
    lane="database",
    problems=("no-such-entry",),
)
def differences(path: ReleasePath, query: DifferenceQuery, call: Call) -> ReleaseDifferences:
    """Compare a release with an older one.

    Which entries came, went or have another revision, and what was noted at each release in between.
    """
    found = releases.diff_releases(call.services.database, query.since, path.number)
    noted = releases.list_releases(call.services.database, before=path.number + 1, limit=MOST_NOTES)
    return ReleaseDifferences(
        old=found.old.number,
        new=found.new.number,
        notes=[_release(one) for one in noted if one.number > query.since],
        added=[MemberName(kind=m.kind, entry=m.slug, revision=m.revision) for m in found.added],
        removed=[MemberName(kind=m.kind, entry=m.slug, revision=m.revision) for m in found.removed],
        changed=[
            ChangedMember(kind=m.kind, entry=m.slug, old_revision=m.old_revision, new_revision=m.new_revision)
            for m in found.changed
        ],
        unchanged_count=found.unchanged_count,
    )


def _release(one: releases.Release) -> Release:
    return Release(
        number=one.number,
        digest=f"sha256:{one.sha256}",
        member_count=one.member_count,
        note=one.note,
        created_by=one.made_by,
        created_at=to_text(one.made_at),
    )
