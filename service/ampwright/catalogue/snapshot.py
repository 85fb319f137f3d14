"""How does a worker answer from a release without asking the database each time?

A release never changes, so a worker keeps it in memory: bodies as bytes, decoded when first used, shared between
releases that hold the same revision. The database is asked for two moving things only, at most once a second: the
number of the newest release, and what was withdrawn. If it does not answer then, that is an error and not an old
answer: a withdrawal may be what was missed.
"""

import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Generic, TypeVar

from sqlalchemy import Connection, Row, select

from ampwright.catalogue import models
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import NoSuchRelease
from ampwright.catalogue.releases import Release, read_release
from ampwright.catalogue.withdrawals import Withdrawals, read_withdrawals

D = TypeVar("D")
# (kind, format, body) -> the document; `contract` knows the formats.
Decoder = Callable[[str, int, bytes], D]
Key = tuple[str, str]

KEEP_STANDING_S = 1.0
_CHUNK = 500


class HeldRevision(Generic[D]):
    """A revision in memory. `document` is decoded once, when it is first asked for."""

    __slots__ = ("_decoder", "_document", "body", "format", "kind", "revision", "sha256", "slug")

    def __init__(self, row: Row[str, str, int, int, str, str], decoder: Decoder[D]) -> None:
        self.kind, self.slug, self.revision, self.format, self.sha256, body = row
        self.body = body.encode("utf-8")
        self._decoder = decoder
        self._document: tuple[D] | None = None

    @property
    def document(self) -> D:
        """The body, decoded. Two threads may decode it at once; both get equal documents."""
        if self._document is None:
            self._document = (self._decoder(self.kind, self.format, self.body),)
        return self._document[0]


@dataclass(frozen=True, slots=True)
class ReleaseSnapshot(Generic[D]):
    """A release with all its members, by (kind, slug)."""

    release: Release
    members: dict[Key, HeldRevision[D]] = field(repr=False)

    def get(self, kind: str, slug: str) -> HeldRevision[D] | None:
        """The member of this kind and slug; None where the release has none."""
        return self.members.get((kind, slug))

    def of_kind(self, kind: str) -> Iterator[HeldRevision[D]]:
        """The members of one kind, in order of slug."""
        return (held for (k, _), held in self.members.items() if k == kind)


@dataclass(frozen=True, slots=True)
class Standing:
    """What moves: the newest release (None before the first) and what is withdrawn."""

    newest: int | None
    withdrawals: Withdrawals


class ReleaseStore(Generic[D]):
    """The releases that a worker keeps, least recently used ones going first. Safe to use from several threads."""

    def __init__(
        self,
        database: Database,
        decoder: Decoder[D],
        *,
        keep: int = 4,
        keep_standing_s: float = KEEP_STANDING_S,
        monotonic_s: Callable[[], float] = time.monotonic,
    ) -> None:
        self._database = database
        self._decoder = decoder
        self._keep = max(keep, 1)
        self._keep_standing_s = keep_standing_s
        self._monotonic_s = monotonic_s
        self._held: OrderedDict[int, ReleaseSnapshot[D]] = OrderedDict()
        self._standing: tuple[float, Standing] | None = None
        self._held_lock = threading.Lock()
        self._loading_lock = threading.Lock()

    def standing(self) -> Standing:
        """The newest release's number and the withdrawals, at most a second old. Errors: DatabaseUnavailable."""
        now = self._monotonic_s()
        known = self._standing
        if known is not None and now - known[0] < self._keep_standing_s:
            return known[1]
        with self._database.read(one_view=True) as connection:
            table = models.release
            number = connection.execute(select(table.c.number).order_by(table.c.number.desc()).limit(1)).scalar()
            standing = Standing(number, read_withdrawals(connection))
        self._standing = (now, standing)
        return standing

    def forget_standing(self) -> None:
        """Ask the database at the next use: for the worker that has just cut a release or withdrawn something."""
        self._standing = None

    def withdrawals(self, as_of: datetime | None = None) -> Withdrawals:
        """What was withdrawn by now (None) or by a time. Errors: DatabaseUnavailable."""
        known = self.standing().withdrawals
        if as_of is None:
            return known
        if known.as_of is not None and as_of <= known.as_of:
            lines = tuple(line for line in known.lines if line.withdrawn_at <= as_of)
            return Withdrawals(lines[-1].withdrawn_at if lines else None, lines)
        with self._database.read() as connection:
            return read_withdrawals(connection, as_of)

    def snapshot(self, number: int | None = None) -> ReleaseSnapshot[D]:
        """A release, the newest one for None. Errors: NoSuchRelease (number 0: none was cut yet),
        DatabaseUnavailable (never for a release that is held)."""
        if number is None:
            number = self.standing().newest or 0
        if (held := self._take(number)) is not None:
            return held
        with self._loading_lock:  # else every thread that waits for a new release would load it
            if (held := self._take(number)) is not None:
                return held
            loaded = self._load(number)
            with self._held_lock:
                self._held[number] = loaded
                while len(self._held) > self._keep:
                    self._held.popitem(last=False)
            return loaded

    def _take(self, number: int) -> ReleaseSnapshot[D] | None:
        with self._held_lock:
            held = self._held.get(number)
            if held is not None:
                self._held.move_to_end(number)
            return held

    def _load(self, number: int) -> ReleaseSnapshot[D]:
        if number < 1:
            raise NoSuchRelease(number)
        known: dict[tuple[str, str, int], HeldRevision[D]] = {}
        with self._held_lock:
            for snapshot in self._held.values():
                known.update(((h.kind, h.slug, h.revision), h) for h in snapshot.members.values())
        member = models.release_member
        query = select(member.c.kind, member.c.slug, member.c.revision).where(member.c.number == number)
        with self._database.read() as connection:
            release = read_release(connection, number)
            keys = [
                (kind, slug, revision) for kind, slug, revision in connection.execute(query.order_by(member.c.place))
            ]
            missing = [place for place, key in enumerate(keys, start=1) if key not in known]
            known.update(((h.kind, h.slug, h.revision), h) for h in self._bodies(connection, number, missing))
        return ReleaseSnapshot(release, {(key[0], key[1]): known[key] for key in keys})

    def _bodies(self, connection: Connection, number: int, places: list[int]) -> Iterator[HeldRevision[D]]:
        member, revision = models.release_member, models.entry_revision
        query = (
            select(
                revision.c.kind,
                revision.c.slug,
                revision.c.revision,
                revision.c.format,
                revision.c.sha256,
                revision.c.body,
            )
            .join(
                member,
                (member.c.kind == revision.c.kind)
                & (member.c.slug == revision.c.slug)
                & (member.c.revision == revision.c.revision),
            )
            .where(member.c.number == number)
        )
        for start in range(0, len(places), _CHUNK):
            chunk = places[start : start + _CHUNK]
            for row in connection.execute(query.where(member.c.place.in_(chunk))):
                yield HeldRevision(row, self._decoder)
