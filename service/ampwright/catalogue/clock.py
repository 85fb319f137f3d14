"""What time is it, as the catalogue writes it down?

Times are UTC, to the microsecond, as ISO 8601 text of one fixed width, so that the order of the texts is the order of
the times in every database. SQLite gives back naive times from a time zone column; text cannot lose its zone.
"""

import re
from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]

_WRITTEN = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{6}Z", re.ASCII)


def utc_now() -> datetime:
    """The time now, in UTC: the only place where the catalogue asks for it."""
    return datetime.now(UTC)


def to_text(time: datetime) -> str:
    """`2027-01-14T09:30:00.000000Z`. Errors: ValueError for a time without a zone."""
    if time.tzinfo is None:
        raise ValueError("a time without a zone")
    return time.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


def from_text(text: str) -> datetime:
    """The time that `to_text` wrote. Errors: ValueError for any other text."""
    if not _WRITTEN.fullmatch(text):
        raise ValueError(f"{text!r} is not a time as the catalogue writes it")
    return datetime.fromisoformat(text)
