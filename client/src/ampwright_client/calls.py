"""What is one call of the service, before it is sent?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar, cast
from urllib.parse import quote

import msgspec
from msgspec import UNSET, Struct

__all__ = ["JSON", "Call", "CallOptions", "body_of", "check_manner"]

JSON = "application/json"
_LONGEST_S = 86_400.0  # a day: what sockets take ends somewhere behind it
T = TypeVar("T")
S = TypeVar("S", bound=Struct)


@dataclass(frozen=True, slots=True, kw_only=True)
class CallOptions:
    """What one call does differently; what is None is as the client was made.

    timeout_s : longest silence while connected; retries : how often a call that may be sent again is; patience_s :
    longest time spent waiting between tries; request_id : letters, digits and `._:+/=-`, up to 128; headers : sent
    beside the client's own, such as `traceparent`.
    """

    timeout_s: float | None = None
    retries: int | None = None
    patience_s: float | None = None
    request_id: str | None = None
    headers: Mapping[str, str] = field(default_factory=dict[str, str])

    def __post_init__(self) -> None:
        """Raises ValueError."""
        check_manner(timeout_s=self.timeout_s, retries=self.retries, patience_s=self.patience_s)


def check_manner(**given: float | None) -> None:
    """Raises ValueError for a time or a number that nothing can be done by; what is None is not looked at."""
    for name, value in given.items():
        timeout = "timeout" in name
        if value is not None and not ((0.0 < value <= _LONGEST_S) if timeout else (value >= 0.0)):
            most = f"above 0 and at most {_LONGEST_S:g}" if timeout else "0 or more"
            raise ValueError(f"{name} is {value}: {most}")


@dataclass(frozen=True)
class Call(Generic[T]):
    """One operation with its arguments; T is what `answer` decodes to.

    template : the path with names in braces; safe : may be sent again, because it changes nothing; keeps : the answer
    has an entity tag and is kept to be asked for conditionally.
    """

    method: str
    template: str
    answer: Any
    path: Mapping[str, object] = field(default_factory=dict[str, object])
    query: Mapping[str, object] = field(default_factory=dict[str, object])
    headers: Mapping[str, object] = field(default_factory=dict[str, object])
    body: Struct | None = None
    accept: str = JSON
    safe: bool = False
    keeps: bool = False

    @property
    def target(self) -> str:
        """Path and query. Raises ValueError for an argument that cannot be part of a path."""
        values = {name: str(value) for name, value in self.path.items()}
        for name, text in values.items():
            if text in ("", ".", ".."):
                raise ValueError(f"{name} cannot be {text!r}")
        path = self.template.format_map({name: quote(text, safe="") for name, text in values.items()})
        pairs: list[str] = []
        for name, value in self.query.items():
            several = cast("list[object]", value) if isinstance(value, list) else [value]
            pairs += [f"{quote(name)}={quote(_text(one), safe='')}" for one in several if one is not UNSET]
        return f"{path}?{'&'.join(pairs)}" if pairs else path

    @property
    def content(self) -> bytes | None:
        return None if self.body is None else msgspec.json.encode(self.body)

    def given_headers(self) -> dict[str, str]:
        return {name: str(value) for name, value in self.headers.items() if value is not UNSET}


def body_of(kind: type[S], request: S | None, members: Mapping[str, Any]) -> S:
    """The body: given whole, or member by member.

    Raises TypeError where both are given, where a needed member is missing, or where there is no such member.
    """
    if request is None:
        return kind(**members)
    if members:
        raise TypeError(f"the whole request is given, and {', '.join(sorted(members))} beside it")
    if not isinstance(request, kind):  # pyright: ignore[reportUnnecessaryIsInstance]
        raise TypeError(f"expected {kind.__name__}, got {type(request).__name__}")
    return request


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)
