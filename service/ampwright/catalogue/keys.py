"""Who may do what?

A key is `ampw_<id>_<secret>` with 32 random bytes of secret. Stored is its SHA-256, compared in constant time: a slow
password hash protects guessable secrets, and would cost a caller's every request a tenth of a second. The text is shown
once, when the key is made.
"""

import hashlib
import hmac
import re
import secrets
import threading
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, select, update

from ampwright.catalogue import models
from ampwright.catalogue.audit import note_down
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import BadValue, CatalogueError
from ampwright.catalogue.values import LONGEST_WHO, checked_text

SCOPES = ("calculate", "catalogue:read", "catalogue:write", "release", "keys")

_KEY = re.compile(r"ampw_([0-9a-f]{12})_([A-Za-z0-9_-]{43})", re.ASCII)
_NO_DIGEST = hashlib.sha256(b"").hexdigest()
KEEP_KEYS_S = 1.0


class NoSuchKey(CatalogueError, LookupError):
    """There is no key of this id."""

    def __init__(self, key_id: str) -> None:
        super().__init__(f"no access key {key_id!r}")
        self.key_id = key_id


@dataclass(frozen=True, slots=True)
class AccessKey:
    """A key without its secret. scopes: sorted, from SCOPES."""

    id: str
    scopes: tuple[str, ...]
    note: str
    created_at: datetime
    created_by: str
    expires_at: datetime | None
    revoked_at: datetime | None
    revoked_by: str | None

    def is_live(self, now: datetime) -> bool:
        """Whether it is neither revoked nor expired."""
        return self.revoked_at is None and (self.expires_at is None or now < self.expires_at)


@dataclass(frozen=True, slots=True)
class NewKey:
    """A key that was just made, and its text, which nobody can read again."""

    key: AccessKey
    text: str


def make_key(
    database: Database, *, scopes: Iterable[str], note: str, who: str, expires_at: datetime | None = None
) -> NewKey:
    """Make a key. Errors: BadValue (scope, note, who, a time that is past), DatabaseUnavailable."""
    wanted = tuple(sorted(set(scopes)))
    if not wanted or not set(wanted) <= set(SCOPES):
        raise BadValue("scopes", "unknown_scope", f"one or more of {', '.join(SCOPES)}")
    note = checked_text("note", note)
    who = checked_text("who", who, LONGEST_WHO)
    now = database.clock()
    if expires_at is not None and expires_at <= now:
        raise BadValue("expires_at", "past", "lies in the past")
    key = AccessKey(secrets.token_hex(6), wanted, note, now, who, expires_at, None, None)
    text = f"ampw_{key.id}_{secrets.token_urlsafe(32)}"
    with database.write() as connection:
        connection.execute(
            insert(models.access_key).values(
                id=key.id,
                sha256=_digest(text),
                scopes=" ".join(wanted),
                note=note,
                created_at=now,
                created_by=who,
                expires_at=expires_at,
            )
        )
        note_down(connection, now, who, action="make key", subject=f"key/{key.id}", detail=" ".join(wanted))
    return NewKey(key, text)


def revoke_key(database: Database, key_id: str, *, who: str) -> AccessKey:
    """Revoke a key for good; one that is revoked already stays as it is. Errors: NoSuchKey, BadValue."""
    who = checked_text("who", who, LONGEST_WHO)
    table = models.access_key
    if not re.fullmatch(r"[0-9a-f]{1,20}", key_id):
        raise NoSuchKey(key_id)
    with database.write() as connection:
        found = connection.execute(select(*table.c).where(table.c.id == key_id).with_for_update()).one_or_none()
        if found is None:
            raise NoSuchKey(key_id)
        if found.revoked_at is None:
            now = database.clock()
            connection.execute(update(table).where(table.c.id == key_id).values(revoked_at=now, revoked_by=who))
            note_down(connection, now, who, action="revoke key", subject=f"key/{key_id}")
            found = connection.execute(select(*table.c).where(table.c.id == key_id)).one()
    return _as_key(found)


def list_keys(database: Database) -> tuple[AccessKey, ...]:
    """Every key ever made, oldest first."""
    table = models.access_key
    with database.read() as connection:
        rows = connection.execute(select(*table.c).order_by(table.c.created_at, table.c.id)).all()
    return tuple(_as_key(row) for row in rows)


class KeyRing:
    """The keys as a worker checks them: read from the database at most once a second, so a revoked key is refused
    within that. Safe to use from several threads."""

    def __init__(
        self,
        database: Database,
        *,
        keep_s: float = KEEP_KEYS_S,
        monotonic_s: Callable[[], float] = time.monotonic,
    ) -> None:
        self._database = database
        self._keep_s = keep_s
        self._monotonic_s = monotonic_s
        self._lock = threading.Lock()
        self._known: tuple[float, dict[str, tuple[str, AccessKey]], bool] | None = None

    def check(self, text: str) -> AccessKey | None:
        """The live key whose text this is; None for anything else. Errors: DatabaseUnavailable."""
        match = _KEY.fullmatch(text)
        keys = self._keys()
        # An unknown id is compared like a known one, so that time does not tell which ids exist.
        expected, key = keys.get(match[1] if match else "", (_NO_DIGEST, None))
        same = hmac.compare_digest(_digest(text), expected)
        return key if match and same and key is not None and key.is_live(self._database.clock()) else None

    def any_live(self) -> bool:
        """Whether there is a key at all that would be let in. Errors: DatabaseUnavailable."""
        now = self._database.clock()
        return any(key.is_live(now) for _, key in self._keys().values())

    def any_made(self) -> bool:
        """Whether a key was ever made, be it revoked or expired by now. Errors: DatabaseUnavailable."""
        return self._read()[2]

    def forget(self) -> None:
        """Read the keys at the next use: for the worker that has just made or revoked one."""
        self._known = None

    def _keys(self) -> dict[str, tuple[str, AccessKey]]:
        return self._read()[1]

    def _read(self) -> tuple[float, dict[str, tuple[str, AccessKey]], bool]:
        now_s = self._monotonic_s()
        with self._lock:
            if self._known is None or now_s - self._known[0] >= self._keep_s:
                table = models.access_key
                with self._database.read() as connection:
                    rows = connection.execute(select(*table.c)).all()
                standing = {row.id: (row.sha256, _as_key(row)) for row in rows if row.revoked_at is None}
                self._known = (now_s, standing, bool(rows))
            return self._known


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _as_key(row: Iterable[object]) -> AccessKey:
    values = dict(zip(models.access_key.c.keys(), row, strict=True))
    del values["sha256"]
    values["scopes"] = tuple(str(values["scopes"]).split())
    return AccessKey(**values)  # type: ignore[arg-type]  # the table's columns are the dataclass's members
