"""/v1/access-keys: who may call, and what for?"""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from msgspec import UNSET, Meta, Struct

from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.api.writers import writer
from ampwright.catalogue import keys
from ampwright.catalogue.clock import to_text
from ampwright.catalogue.faults import BadValue
from ampwright.contract.access_keys import AccessKeyList, AccessKeyRow, MadeAccessKey, NewAccessKey

operations = Operations(
    "Access keys",
    "Keys and what each opens. The first key that is made closes the service to callers without one.",
)
# The answer holds a secret.
NOT_KEPT = {"Cache-Control": "no-store"}


class KeyPath(Struct):
    """A key."""

    id: Annotated[str, Meta(pattern=r"^[0-9a-f]{12}$", description="The twelve digits after `ampw_`.")]


@operations.get("/v1/access-keys", "list_access_keys", lane="database", scope="keys")
def list_keys(call: Call) -> AccessKeyList:
    """List all keys, without their secrets.

    Every key ever made, also those that were revoked or have ended; the text of a key cannot be read again.
    """
    return AccessKeyList(items=[_row(one) for one in keys.list_keys(call.services.database)])


@operations.post(
    "/v1/access-keys",
    "create_access_key",
    lane="database",
    scope="keys",
    statuses={201: "Made; its text is shown this once."},
    problems=("contradictory-request", "not-ready"),
    links={"revoke_access_key": {"id": "$response.body#/key/id"}},
)
def make_key(body: NewAccessKey, call: Call) -> Reply[MadeAccessKey]:
    """Make an access key.

    Its text is in this answer and nowhere else. A caller whose key may make keys can make any.
    """
    who = writer(call, body.by)
    try:
        expires_at = None if body.expires_at is UNSET else datetime.fromisoformat(body.expires_at.upper())
        made = keys.make_key(call.services.database, scopes=body.scopes, note=body.note, who=who, expires_at=expires_at)
    except (ValueError, OverflowError) as error:
        code, message = (error.code, error.message) if isinstance(error, BadValue) else ("not_a_time", "no such time")
        at = f"/{error.field}" if isinstance(error, BadValue) else "/expires_at"
        fault = ProblemFault(code=code, message=f"{at.lstrip('/')}: {message}", pointer=at)
        raise ProblemError("contradictory-request", fault.message, errors=[fault]) from None
    call.services.access.forget()
    headers = {**NOT_KEPT, "Location": f"/v1/access-keys/{made.key.id}"}
    return Reply(MadeAccessKey(key=_row(made.key), secret=made.text), status=201, headers=headers)


@operations.delete(
    "/v1/access-keys/{id}",
    "revoke_access_key",
    lane="database",
    scope="keys",
    statuses={200: "It is revoked."},
    problems=("no-such-entry", "not-ready"),
)
def revoke_key(path: KeyPath, call: Call) -> AccessKeyRow:
    """Revoke a key for good.

    Workers follow within a second. The row stays; a key that is revoked already stays as it was.
    """
    try:
        revoked = keys.revoke_key(call.services.database, path.id, who=call.who)
    except keys.NoSuchKey as error:
        raise ProblemError("no-such-entry", f"There is {error}.") from None
    call.services.access.forget()
    return _row(revoked)


def _row(key: keys.AccessKey) -> AccessKeyRow:
    return AccessKeyRow(
        id=key.id,
        scopes=list(key.scopes),
        note=key.note,
        created_at=to_text(key.created_at),
        created_by=key.created_by,
        expires_at=UNSET if key.expires_at is None else to_text(key.expires_at),
        revoked_at=UNSET if key.revoked_at is None else to_text(key.revoked_at),
        revoked_by=UNSET if key.revoked_by is None else key.revoked_by,
    )
