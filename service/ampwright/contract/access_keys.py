"""What does a caller send and get when making keys, revoking them, and reading who wrote what?"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.catalogue import By, Instant
from ampwright.contract.parts import Answer, Request, Words

KeyScope = Literal["calculate", "catalogue:read", "catalogue:write", "release", "keys"]
Expiry = Annotated[
    str,
    Meta(
        max_length=40,
        pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]{1,6})?(?:[Zz]|[+\-][0-9]{2}:[0-9]{2})$(?!\n)",
        description="When it ends by itself (RFC 3339).",
        examples=["2099-01-31T00:00:00Z"],
    ),
]


class NewAccessKey(Request, frozen=True, kw_only=True):
    """A key to be made."""

    scopes: Annotated[
        list[KeyScope],
        Meta(min_length=1, max_length=5, description="What it opens; `keys` makes any key, so give it to few."),
    ]
    note: Annotated[Words, Meta(description="Whose key this is.", examples=["dispatch"])]
    by: By | UnsetType = UNSET
    expires_at: Expiry | UnsetType = UNSET


class AccessKeyRow(Answer, frozen=True, kw_only=True):
    """A key without its secret."""

    id: str
    scopes: list[str]
    note: str
    created_at: Instant
    created_by: str
    expires_at: Instant | UnsetType = UNSET
    revoked_at: Instant | UnsetType = UNSET
    revoked_by: str | UnsetType = UNSET


class MadeAccessKey(Answer, frozen=True, kw_only=True):
    """A key that was just made. `secret` is shown this once; nobody can read it again."""

    key: AccessKeyRow
    secret: Annotated[str, Meta(description="Send it as Authorization: Bearer.")]


class AccessKeyList(Answer, frozen=True, kw_only=True):
    """Every key ever made, oldest first."""

    items: list[AccessKeyRow]


class AuditRow(Answer, frozen=True, kw_only=True):
    """One act. `subject` is `tool-profile/circular-saw-185mm/r3`, `release/7`, `key/3fa9...` or `import`."""

    number: int
    at: Instant
    who: str
    action: str
    subject: str
    detail: str


class AuditPage(Answer, frozen=True, kw_only=True):
    """Acts, newest first; go on with `next_before`, which the last page lacks."""

    items: list[AuditRow]
    next_before: int | UnsetType = UNSET
