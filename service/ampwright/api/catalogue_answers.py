"""What is told of stored revisions: one, two compared, one that was just written?"""

from collections.abc import Sequence
from typing import Any

import msgspec
from msgspec import UNSET, Struct

from ampwright.api.operations import Call, Reply
from ampwright.catalogue.clock import to_text
from ampwright.catalogue.differences import differences
from ampwright.catalogue.revisions import Revision, Written
from ampwright.catalogue.withdrawals import Withdrawal
from ampwright.contract.catalogue import DifferenceRow, RevisionDifferences, WithdrawalNote


def compared(old: Revision, new: Revision) -> RevisionDifferences:
    """Two revisions of one entry, member by member."""
    return RevisionDifferences(
        entry=new.slug,
        old=old.revision,
        new=new.revision,
        why=new.why,
        created_by=new.entered_by,
        created_at=to_text(new.entered_at),
        items=[
            DifferenceRow(
                pointer=one.pointer,
                change=one.change,
                text=one.text,
                before=UNSET if one.before is None else msgspec.Raw(msgspec.json.encode(one.before)),
                after=UNSET if one.after is None else msgspec.Raw(msgspec.json.encode(one.after)),
            )
            for one in differences(old.body, new.body)
        ],
    )


def written_reply(call: Call, written: Written, location: str) -> Reply[Any]:
    """201 with where it is read again for what is new, 200 for what was there already."""
    headers = {"ETag": _tag(call, written.revision)}
    status = 200
    if written.outcome == "new":
        status, headers["Location"] = 201, location
    return Reply(_answer(call, written.revision), status=status, headers=headers)


def revision_reply(call: Call, found: Revision) -> Reply[Any]:
    """The stored revision, with its entity tag."""
    return Reply(_answer(call, found), entity_tag=_tag(call, found))


def _tag(call: Call, found: Revision) -> str:
    gone = len(call.services.store.withdrawals().of(found.kind, found.slug, found.revision))
    return f'"r{found.revision}w{gone}"' if gone else f'"r{found.revision}"'


class _Stored(Struct, kw_only=True, omit_defaults=True):
    """A stored revision with the very bytes that were stored; on the wire it is the kind's own answer."""

    entry: str
    revision: int
    status: str
    why: str
    created_by: str
    created_at: str
    digest: str
    document: msgspec.Raw
    withdrawals: Sequence[WithdrawalNote] = ()


def _answer(call: Call, found: Revision) -> _Stored:
    gone = call.services.store.withdrawals().of(found.kind, found.slug, found.revision)
    return _Stored(
        entry=found.slug,
        revision=found.revision,
        status="withdrawn" if gone else found.status,
        why=found.why,
        created_by=found.entered_by,
        created_at=to_text(found.entered_at),
        digest=f"sha256:{found.sha256}",
        document=msgspec.Raw(found.body),
        withdrawals=[note(one) for one in gone],
    )


def note(one: Withdrawal) -> WithdrawalNote:
    """Who withdrew what, and why."""
    return WithdrawalNote(
        entry=one.slug,
        first_revision=one.first_revision,
        last_revision=one.last_revision,
        why=one.reason,
        withdrawn_by=one.withdrawn_by,
        withdrawn_at=to_text(one.withdrawn_at),
    )
