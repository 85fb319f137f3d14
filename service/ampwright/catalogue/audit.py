"""Who did what to the catalogue, and when?

A line is written in the same transaction as what it tells of; nothing changes it afterwards.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, insert, select

from ampwright.catalogue import models
from ampwright.catalogue.database import Database

LARGEST_PAGE = 500


@dataclass(frozen=True, slots=True)
class AuditLine:
    """One act. subject: `tool-profile/circular-saw-185mm/r3`, `release/7`, `key/3fa9...`, `import`."""

    number: int
    at: datetime
    who: str
    action: str
    subject: str
    detail: str


def note_down(connection: Connection, at: datetime, who: str, *, action: str, subject: str, detail: str = "") -> None:
    """Write one line within the caller's transaction."""
    note_all_down(connection, [{"at": at, "who": who, "action": action, "subject": subject, "detail": detail}])


def note_all_down(connection: Connection, lines: Sequence[dict[str, object]]) -> None:
    """Write lines (at, who, action, subject, detail) in their order, within the caller's transaction. In one call: one
    for each would double the time for which a large import keeps other writers waiting."""
    if lines:
        connection.execute(insert(models.audit), lines)


def list_audit(
    database: Database, *, subject: str | None = None, before: int | None = None, limit: int = 100
) -> tuple[AuditLine, ...]:
    """The newest lines first, at most `limit` (1..500); go on with the last line's number as `before`."""
    table = models.audit
    query = select(*table.c).order_by(table.c.number.desc()).limit(min(max(limit, 1), LARGEST_PAGE))
    if subject is not None:
        query = query.where(table.c.subject == subject.replace("\x00", ""))
    if before is not None:
        query = query.where(table.c.number < before)
    with database.read() as connection:
        return tuple(AuditLine(*row) for row in connection.execute(query))
