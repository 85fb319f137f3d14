"""How did an answer come?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Self, cast

from msgspec import Struct

__all__ = ["Answer", "Reply"]


class Reply(Struct, frozen=True, kw_only=True):
    """What stands around an answer.

    status : HTTP status; 304 where the service said that nothing has changed and the answer is the one kept here;
    request_id : of the request in the service's log; entity_tag : with its quotation marks, to send as `if_match`,
    empty where there is none; headers : by name in lower case; body : the bytes that were read.
    """

    status: int
    request_id: str
    entity_tag: str
    headers: Mapping[str, str]
    body: bytes

    @property
    def unchanged(self) -> bool:
        """Whether the service answered that what was kept here still holds."""
        return self.status == 304


class Answer(Struct, dict=True):
    """A whole answer of the service."""

    @property
    def reply(self) -> Reply:
        """How it came. Raises AttributeError for an answer that was made here or is part of another."""
        found = getattr(self, "_reply", None)
        if not isinstance(found, Reply):
            raise AttributeError("this answer did not come from a service")
        return found

    def __reduce__(self) -> tuple[Any, ...]:
        # How it came goes along into copies and other processes.
        made, arguments, *_ = cast("tuple[Any, ...]", super().__reduce__())
        return made, arguments, vars(self).copy()

    def __copy__(self) -> Self:
        made, arguments, held = self.__reduce__()
        copied: Self = made(*arguments)
        vars(copied).update(held)
        return copied

    def came_with(self, reply: Reply) -> None:
        """Note how it came; the note is no part of the answer: it is neither compared nor encoded."""
        vars(self)["_reply"] = reply
