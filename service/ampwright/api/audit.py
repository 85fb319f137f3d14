"""/v1/audit: who did what to the catalogue, and when?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, Struct, UnsetType

from ampwright.api.operations import Call, Operations
from ampwright.catalogue.audit import list_audit
from ampwright.catalogue.clock import to_text
from ampwright.contract.access_keys import AuditPage, AuditRow

operations = Operations("Audit", "Every write, as it was done: documents, releases, withdrawals, imports and keys.")


class AuditQuery(Struct, forbid_unknown_fields=True):
    """Which page of which acts."""

    subject: Annotated[str, Meta(max_length=200, description="Only acts on this, such as `release/7`.")] | UnsetType = (
        UNSET
    )
    before: Annotated[int, Meta(ge=1, le=2**53, description="`next_before` of the page before.")] | UnsetType = UNSET
    limit: Annotated[int, Meta(ge=1, le=200, description="Most rows on a page.")] = 50


@operations.get("/v1/audit", "list_audit", lane="database")
def list_acts(query: AuditQuery, call: Call) -> AuditPage:
    """List acts, newest first.

    Every write to the catalogue, every release, every key and import, with who did it; nothing is ever taken out.
    """
    found = list_audit(
        call.services.database,
        subject=None if query.subject is UNSET else query.subject,
        before=None if query.before is UNSET else query.before,
        limit=query.limit + 1,
    )
    shown = found[: query.limit]
    return AuditPage(
        items=[
            AuditRow(
                number=one.number,
                at=to_text(one.at),
                who=one.who,
                action=one.action,
                subject=one.subject,
                detail=one.detail,
            )
            for one in shown
        ],
        next_before=shown[-1].number if len(found) > query.limit else UNSET,
    )
